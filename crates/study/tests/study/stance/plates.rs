//! Stance as the least of the potential energy where a ball sits elsewhere on its
//! arm, and where the spring is another one: minimised here by golden sections,
//! the spring worked out from the plate's turn alone.

use super::sprung_trucks;
use linkage::{Axis, Corner, Point3, Pose, Vector3};
use nalgebra::{Rotation3, Unit};
use study::{HeldBy, Rest};
use truck::{
    Arm, ArmSwap, BarSwap, Change, CoilSwap, Fitted, JointTurned, MovedPivot, Place, SeatSpacer, SpringKind,
    Truck, fit,
};
use yardstick::budget::near;

/// The arm that carries the spring: its pivots and ball as measured.
fn carrier(truck: &Truck) -> linkage::ArmPoints {
    match truck.spring.arm {
        Arm::Lower => truck.points.lower,
        Arm::Upper => truck.points.upper,
    }
}

fn ball(truck: &Truck, pose: &Pose) -> Point3<f64> {
    match truck.spring.arm {
        Arm::Lower => pose.lower_ball,
        Arm::Upper => pose.upper_ball,
    }
}

/// How far the plate has turned against as measured: its ball's line has, about
/// its pivots wherever they are now, less what that line is turned against the plate.
fn plate_turn(truck: &Truck, corner: &Corner, pose: &Pose, over: f64, higher: f64, longer: f64) -> f64 {
    let arm = carrier(truck);
    let Axis { front, rear } = match truck.spring.arm {
        Arm::Lower => corner.mounts().lower,
        Arm::Upper => corner.mounts().upper,
    };
    let along = (front - rear).normalize();
    let along = if along.x < 0.0 { -along } else { along };
    let across = |reach: Vector3<f64>| reach - along * reach.dot(&along);
    let (before, now) = (across(arm.ball - arm.rear), across(ball(truck, pose) - rear));
    let turned = libm::atan2(before.cross(&now).dot(&along), before.dot(&now));
    // A joint turned over stands as far over its plate as it stood under it: a chord of its circle.
    let out = before.norm() + longer;
    turned - libm::atan2(higher, out) - 2.0 * libm::asin(over / 2.0 / libm::hypot(out, higher))
}

/// The coil's length with the plate turned about pivots that were moved by so much.
fn coil_length(truck: &Truck, turn: f64, moved: Vector3<f64>) -> f64 {
    let arm = carrier(truck);
    let along = (arm.front - arm.rear).normalize();
    let along = if along.x < 0.0 { -along } else { along };
    let swing = Rotation3::from_axis_angle(&Unit::new_normalize(along), turn);
    let seat = arm.rear + moved + swing * (truck.spring.coil.arm_seat - arm.rear);
    (seat - truck.spring.coil.body_seat).norm()
}

fn load_energy(fitted: &Fitted, corner: &Corner, pose: &Pose) -> f64 {
    let contact = pose.contact(corner.loaded_radius_mm());
    fitted.measured.load.unsprung_n * pose.wheel_centre.z - fitted.corner_n * contact.z
}

/// The force or torque that holds the truck as measured, from the slope of its load's energy.
fn preload(truck: &Truck) -> f64 {
    let fitted = Fitted::as_measured(truck);
    let corner = fitted.corner().unwrap();
    let at = |angle: f64| corner.pose(angle, Vector3::zeros()).unwrap();
    let start = corner.measured_angle_rad();
    let slope = |f: &dyn Fn(&Pose) -> f64| {
        let step = 1e-4;
        let f = |angle: f64| f(&at(angle));
        (8.0 * (f(start + step) - f(start - step)) - (f(start + 2.0 * step) - f(start - 2.0 * step)))
            / (12.0 * step)
    };
    let moved = slope(&|pose| {
        movement(truck, pose, plate_turn(truck, &corner, pose, 0.0, 0.0, 0.0), Vector3::zeros())
    });
    -slope(&|pose| load_energy(&fitted, &corner, pose)) / moved
}

/// A bar's twist, a coil's length, the height of the wheel on a plain rate.
fn movement(truck: &Truck, pose: &Pose, turn: f64, moved: Vector3<f64>) -> f64 {
    match truck.spring.kind {
        SpringKind::TorsionBar => turn,
        SpringKind::Coil => coil_length(truck, turn, moved),
        SpringKind::WheelRate => pose.wheel_centre.z,
    }
}

/// The pose in which the plate stands to the body as measured, by halving.
fn untwisted(corner: &Corner, turn: impl Fn(&Pose) -> f64) -> Pose {
    let at = |angle: f64| corner.pose(angle, Vector3::zeros()).unwrap();
    let (mut low, mut high) = (corner.range().low_rad, corner.range().high_rad);
    for _ in 0..80 {
        let middle = low.midpoint(high);
        *(if turn(&at(middle)) < 0.0 { &mut low } else { &mut high }) = middle;
    }
    at(low)
}

/// The arm's angle of least energy between the stops.
fn least(energy: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let share = 0.5 * (5_f64.sqrt() - 1.0);
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let (a, b) = (high - share * (high - low), low + share * (high - low));
        *(if energy(a) < energy(b) { &mut high } else { &mut low }) =
            if energy(a) < energy(b) { b } else { a };
    }
    f64::midpoint(low, high)
}

#[test]
#[expect(clippy::too_many_lines, reason = "one law, from its trucks to its end")]
fn a_ball_elsewhere_on_its_arm_stands_where_the_energy_is_least() {
    let mut compared = 0;
    for (name, truck) in sprung_trucks() {
        let (arm, up) = match truck.spring.arm {
            Arm::Lower => (Place::LowerArm, Place::LowerJointUp),
            Arm::Upper => (Place::UpperArm, Place::UpperJointUp),
        };
        let turned = JointTurned { place: up, plate_mm: 5.0, flange_mm: 6.0, shift_mm: None };
        let swap = ArmSwap {
            place: arm,
            longer_mm: 8.0,
            higher_mm: -4.0,
            forward_mm: 3.0,
            stop_mm: 0.0,
            spacing_mm: None,
        };
        let bar = truck.spring.bar;
        let coil = truck.spring.coil;
        let spring = match truck.spring.kind {
            SpringKind::TorsionBar => {
                Change::BarSwap(BarSwap { diameter_mm: bar.diameter_mm + 0.4, length_mm: bar.length_mm })
            }
            _ => Change::CoilSwap(CoilSwap {
                wire_mm: coil.wire_mm + 0.3,
                mean_mm: coil.mean_mm,
                active: coil.active,
                free_mm: None,
            }),
        };
        let spacer = Change::SeatSpacer(SeatSpacer { thickness_mm: 7.0 });
        let up_mm = Vector3::new(0.0, 5.0, 20.0);
        let raised = Change::MovedPivot(MovedPivot { place: arm, by_mm: up_mm });
        let lists = [
            (vec![Change::JointTurned(turned)], 11.0, 0.0, 0.0, 0.0),
            (vec![Change::ArmSwap(swap)], 0.0, -4.0, 8.0, 0.0),
            (vec![spring], 0.0, 0.0, 0.0, 0.0),
            (vec![Change::JointTurned(turned), Change::ArmSwap(swap), spring], 11.0, -4.0, 8.0, 0.0),
            (vec![spacer, Change::JointTurned(turned)], 11.0, 0.0, 0.0, 7.0),
            (vec![raised], 0.0, 0.0, 0.0, 0.0),
            (vec![raised, Change::JointTurned(turned), Change::ArmSwap(swap)], 11.0, -4.0, 8.0, 0.0),
        ];
        for (changes, over, higher, longer, spacer_mm) in lists {
            let fitted = fit(&truck, &changes).unwrap();
            if !fitted.remarks.is_empty() {
                continue;
            }
            let rest = Rest::of(fitted.clone()).unwrap();
            if rest.held_by != HeldBy::Spring {
                continue;
            }
            let preload = preload(&truck);
            let (old, new) = match truck.spring.kind {
                SpringKind::Coil => (truck.spring.coil_rate(), fitted.spring.coil_rate()),
                SpringKind::TorsionBar => (truck.spring.bar_rate(), fitted.spring.bar_rate()),
                SpringKind::WheelRate => [truck.spring.wheel_rate_n_per_mm; 2].into(),
            };
            let corner = fitted.corner().unwrap();
            let turn = |pose: &Pose| plate_turn(&truck, &corner, pose, over, higher, longer);
            let moved = if changes.contains(&raised) { up_mm } else { Vector3::zeros() };
            // How far the spring as measured is from free, the same for the new one. The
            // body's seat of a coil stays where it was, so its measured length is the old arm's.
            let standing = untwisted(&corner, turn);
            let free = movement(&truck, &standing, 0.0, Vector3::zeros()) - preload / old;
            let energy = |angle: f64| {
                let Ok(pose) = corner.pose(angle, Vector3::zeros()) else { return f64::INFINITY };
                let strain = movement(&truck, &pose, turn(&pose), moved) - free - spacer_mm;
                0.5 * new * strain * strain + load_energy(&fitted, &corner, &pose)
            };
            let angle = least(energy, rest.stops.droop_rad, rest.stops.solid_rad);
            let pose = corner.pose(angle, Vector3::zeros()).unwrap();
            let height = fitted.measured.body.rail.bottom_z_mm - pose.contact(corner.loaded_radius_mm()).z;
            // A minimum is flat: golden sections see the angle to the root of the last digit.
            near(rest.ride_height_mm(), height, 1e-3, &name);
            compared += 1;
        }
    }
    assert!(compared >= 10, "{compared} stances");
}
