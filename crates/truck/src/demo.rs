//! The demo truck: invented, a plausible compact pickup. No real vehicle.

use crate::change::{Change, DroppedSpindle, RearBlock, RearStop};
use crate::choice::{CoilEnds, PitmanSide, ShaftSide, SteeringKind};
use crate::design::{Design, Proposal, ProposalId};
use crate::ledger::Ledger;
use crate::reading::Readings;
use crate::rear::{RearAxle, RearField};
use crate::side::RightNumbers;
use crate::source::Source;
use crate::spring::{Arm, Bar, Coil, Spring, SpringKind};
use crate::tire::{Tire, TireSize};
use crate::truck::{
    Body, Brake, Fender, Joints, Load, LowPoints, OpenPoint, Rail, Shims, Shock, Sources, Steering, Stops,
    StrutRod, Swing, Thickness, Truck, Wheel,
};
use linkage::{ArmPoints, Hardpoints, Point3};

/// The design the page opens with: the demo truck, a proposal that lowers its front, and one that
/// lowers both ends alike.
#[must_use]
pub fn demo() -> Design {
    let mut front = Proposal::new(ProposalId(0), "");
    front.set(Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() }));
    let mut both = Proposal { id: ProposalId(1), name: "Both ends".to_owned(), ..front.clone() };
    both.set(Change::RearBlock(RearBlock { height_mm: 50.8, wedge_rad: 0.0 }));
    both.set(Change::RearStop(RearStop { lower_mm: 12.7 }));
    Design {
        title: "Juniper pickup".to_owned(),
        note: String::new(),
        truck: Truck { rear: rear(), ..TRUCK.clone() },
        proposals: vec![front, both],
        ledger: Ledger::EMPTY,
        built: Readings::default(),
        settled: Readings::default(),
        work: String::new(),
    }
}

/// Worked out beforehand: numbers are less to download than what writes them one by one.
static TRUCK: Truck = truck();

/// The truck that guesses start from: the demo's front.
pub(crate) const fn guessed() -> &'static Truck {
    &TRUCK
}

const fn truck() -> Truck {
    Truck {
        points: points(),
        stops: Stops { bump_gap_mm: 28.6, bump_squash_mm: 9.5, bump_radius_mm: 165.0, droop_mm: 70.0 },
        load: Load {
            corner_n: 3900.0,
            unsprung_n: 420.0,
            driver_n: Some(290.0),
            bed_n: Some(2500.0),
            bed_behind_mm: Some(150.0),
        },
        spring: spring(),
        tire: Tire {
            size: TireSize { section_mm: 195.0, aspect_percent: 75.0, rim_code: 14.0 },
            measured_diameter_mm: None,
            shoulder_mm: 32.0,
        },
        wheel: Wheel { rim_width_mm: 139.7, offset_mm: 0.0, barrel_mm: Some(160.0) },
        body: Body {
            wheelbase_mm: 2690.0,
            rail: Rail {
                outer_y_mm: 352.0,
                width_mm: 70.0,
                bottom_z_mm: 300.0,
                height_mm: 110.0,
                front_x_mm: 600.0,
                rear_x_mm: -700.0,
            },
            fender: Fender { lip_y_mm: 776.0, lip_z_mm: 734.0, half_length_mm: 120.0 },
        },
        steering: Steering {
            kind: Some(SteeringKind::PitmanArms),
            pitman_mm: Some(140.0),
            pitman_side: Some(PitmanSide::Ahead),
            lock_left_rad: Some(33_f64.to_radians()),
            lock_right_rad: Some(28_f64.to_radians()),
            tie_thread_pitch_mm: Some(1.5),
        },
        strut: StrutRod { arm: open(28.0, 555.0, 236.0), thread_pitch_mm: Some(1.5) },
        joints: Joints { lower: swing(22.0, 2.0), upper: swing(20.0, 3.0) },
        shims: shims(),
        shock: shock(),
        brake: brake(),
        thickness: Thickness {
            lower_arm_mm: Some(20.0),
            upper_arm_mm: Some(14.0),
            tie_rod_mm: Some(11.0),
            strut_rod_mm: Some(9.0),
        },
        low: LowPoints { y_mm: Some(180.0), z_mm: Some(190.0), nut_mm: Some(18.0) },
        sources: Sources::all(Source::Measured),
        right: RightNumbers::NONE,
        readings: Readings::NONE,
        rear: RearAxle::UNKNOWN,
    }
}

const fn shims() -> Shims {
    Shims {
        side: Some(ShaftSide::Outboard),
        front_x_mm: Some(60.0),
        rear_x_mm: Some(-84.0),
        front_mm: Some(3.0),
        rear_mm: Some(4.5),
        most_mm: Some(15.0),
    }
}

const fn open(x: f64, y: f64, z: f64) -> OpenPoint {
    OpenPoint { x: Some(x), y: Some(y), z: Some(z) }
}

const fn swing(limit_degrees: f64, rest_degrees: f64) -> Swing {
    Swing { limit_rad: Some(limit_degrees.to_radians()), rest_rad: Some(rest_degrees.to_radians()) }
}

const fn shock() -> Shock {
    Shock {
        arm: open(22.0, 520.0, 244.0),
        body: open(12.0, 455.0, 560.0),
        short_mm: Some(262.0),
        long_mm: Some(385.0),
    }
}

const fn brake() -> Brake {
    Brake {
        caliper_radius_mm: Some(148.0),
        caliper_in_mm: Some(98.0),
        caliper_out_mm: Some(14.0),
        rotor_diameter_mm: Some(258.0),
        rotor_thickness_mm: Some(22.0),
    }
}

/// In the core's units, as the table of the rear has them.
fn rear() -> RearAxle {
    const NUMBERS: [(RearField, f64); 39] = [
        (RearField::FrameHeight, 510.0),
        (RearField::WheelRadius, 310.0),
        (RearField::Seat, -62.0),
        (RearField::StopGap, 118.0),
        (RearField::TubeGap, 160.0),
        (RearField::FenderGap, 125.0),
        (RearField::Span, 1250.0),
        (RearField::FixedPart, 600.0),
        (RearField::Arch, 45.0),
        (RearField::FixedEye, 290.0),
        (RearField::ShackleEye, 296.0),
        (RearField::HangerBolt, 375.0),
        (RearField::EyeBeyond, 28.0),
        (RearField::Rate, 30.0),
        (RearField::Load, 3300.0),
        (RearField::Unsprung, 700.0),
        (RearField::ShackleAhead, 0.0),
        (RearField::ShockLength, 380.0),
        (RearField::ShockShort, 220.0),
        (RearField::ShockLong, 430.0),
        (RearField::FlangeAngle, 3_f64.to_radians()),
        (RearField::ShaftAngle, 4_f64.to_radians()),
        (RearField::PinionAngle, 3_f64.to_radians()),
        (RearField::ShaftLength, 1250.0),
        (RearField::PinionLength, 220.0),
        (RearField::ShaftAside, 0.0),
        (RearField::ShaftSpeed, 3500.0),
        (RearField::RailDepth, 120.0),
        (RearField::RailFlange, 50.0),
        (RearField::RailWall, 3.5),
        (RearField::LampHeight, 760.0),
        (RearField::LampAhead, 480.0),
        (RearField::StopSquash, 25.0),
        (RearField::SpringsApart, 1000.0),
        (RearField::TiresApart, 1420.0),
        (RearField::AntiRollDiameter, 22.0),
        (RearField::AntiRollLength, 800.0),
        (RearField::AntiRollLever, 210.0),
        (RearField::AntiRollLink, 220.0),
    ];
    RearAxle::of(&NUMBERS)
}

const fn points() -> Hardpoints {
    Hardpoints {
        // The front pivot is the strut rod's bushing, the rear one the arm's own.
        lower: ArmPoints {
            front: Point3::new(430.0, 318.0, 261.0),
            rear: Point3::new(-8.0, 287.0, 256.0),
            ball: Point3::new(3.0, 655.0, 228.0),
        },
        upper: ArmPoints {
            front: Point3::new(88.0, 404.0, 462.0),
            rear: Point3::new(-112.0, 406.0, 455.0),
            ball: Point3::new(-5.0, 617.0, 448.0),
        },
        wheel_centre: Point3::new(0.0, 702.0, 312.0),
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner: Point3::new(-102.0, 324.0, 298.0),
        tie_outer: Point3::new(-116.0, 634.0, 276.0),
    }
}

const fn spring() -> Spring {
    Spring {
        kind: SpringKind::TorsionBar,
        arm: Arm::Lower,
        bar: Bar {
            diameter_mm: 25.4,
            length_mm: 1090.0,
            lever_mm: 152.0,
            lever_angle_rad: 90_f64.to_radians(),
            thread_pitch_mm: 1.5,
            turns_in: 12.0,
            turns_out: 14.0,
            splines_anchor: Some(36.0),
            splines_arm: Some(35.0),
            blind_anchor: None,
            blind_arm: None,
            allowable_n_per_mm2: Some(880.0),
            inward_rad: None,
            downward_rad: None,
        },
        coil: Coil {
            wire_mm: 15.5,
            mean_mm: 108.0,
            active: 7.0,
            loaded_pitch_mm: 33.0,
            arm_seat: Point3::new(0.0, 500.0, 247.0),
            body_seat: Point3::new(-5.0, 455.0, 487.0),
            ends: Some(CoilEnds::ClosedGround),
            allowable_n_per_mm2: Some(830.0),
        },
        wheel_rate_n_per_mm: 21.0,
        shear_modulus_n_per_mm2: 79300.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every number of its rear is stated, once, and is what it would be if it were typed in.
    #[test]
    fn its_rear_can_be_typed_in() {
        let mut typed = RearAxle::UNKNOWN;
        for (field, value) in rear().iter() {
            typed.put(field, Some(value)).expect("it can be entered");
        }
        assert_eq!(typed, rear());
        assert_eq!((rear().count(), rear().iter().count()), (39, 39));
    }
}
