//! What is turned, screwed and shimmed, by hand arithmetic: threads, steps, signs and what binds.

use crate::alignment::of_kind;
use linkage::Vector3;
use study::{Bound, CasterBy, HeightBy, Setting, Stance, Steps, Target, setting};
use truck::{
    Change, DroppedSpindle, SeatSpacer, ShimChange, Side, SpringKind, StrutRodChange, TieRodChange, Truck,
    demo,
};
use yardstick::budget::near;

fn reads(truck: &Truck, changes: &[Change]) -> Target {
    Target::of(&Stance::laid(truck, changes).unwrap().on(Side::Left))
}

fn set(truck: &Truck, target: &Target, caster_by: CasterBy) -> Setting {
    setting(truck, Side::Left, &[], target, caster_by, &Steps::INCHES).unwrap()
}

const THIRTY_SECOND_MM: f64 = 25.4 / 32.0;

/// A sleeve with a right-hand and a left-hand thread parts its ends by two pitches a
/// turn (any text on machine elements, turnbuckles). A sixteenth of a turn is the step.
#[test]
fn a_sleeve_s_turn_is_two_pitches() {
    for (pitch, longer, turns) in [
        (1.5, 3.0, 1.0),
        (1.5, -1.5, -0.5),
        (2.0, 2.0, 0.5),
        // 0.5 mm are 2.67 steps of 3/16 mm: three, which are 9/16 mm.
        (1.5, 0.5, 3.0 / 16.0),
        (1.5, -0.5, -3.0 / 16.0),
    ] {
        let mut truck = demo().truck;
        truck.steering.tie_thread_pitch_mm = Some(pitch);
        let rod = Change::TieRod(TieRodChange { longer_mm: longer, ..TieRodChange::default() });
        let found = set(&truck, &reads(&truck, &[rod]), CasterBy::Shims);
        near(found.tie_turns.unwrap(), turns, 1e-9, "turns of the sleeve");
        near(found.set.tie_mm, turns * 2.0 * pitch, 1e-9, "longer by two pitches a turn");
    }
    // Without a thread nothing is counted, and the rod is as long as it is to be.
    let mut truck = demo().truck;
    truck.steering.tie_thread_pitch_mm = None;
    let rod = Change::TieRod(TieRodChange { longer_mm: 0.5, ..TieRodChange::default() });
    let found = set(&truck, &reads(&truck, &[rod]), CasterBy::Shims);
    assert_eq!(found.tie_turns, None);
    near(found.set.tie_mm, 0.5, 1e-6, "longer");
}

/// A nut on one thread moves by one pitch a turn, and is set by quarters.
#[test]
fn a_strut_nut_s_turn_is_one_pitch() {
    for (pitch, longer, turns) in [
        (1.5, 3.0, 2.0),
        (1.5, -1.5, -1.0),
        (2.0, 3.0, 1.5),
        // 1 mm is 2.67 quarter turns of 1.5 mm: three.
        (1.5, 1.0, 0.75),
        (1.5, -1.0, -0.75),
    ] {
        let mut truck = demo().truck;
        truck.strut.thread_pitch_mm = Some(pitch);
        let rod = Change::StrutRod(StrutRodChange { longer_mm: longer });
        let found = set(&truck, &reads(&truck, &[rod]), CasterBy::StrutRod);
        near(found.strut_turns.unwrap(), turns, 1e-9, "turns of the nut");
        near(found.set.strut_mm, turns * pitch, 1e-9, "longer by a pitch a turn");
        let laid = found.changes.iter().find_map(|change| match change {
            Change::StrutRod(rod) => Some(rod.longer_mm),
            _ => None,
        });
        // A link keeps hundredths of a millimetre.
        near(laid.unwrap(), turns * pitch, 0.005, "what is laid on the sketch");
    }
}

/// A plain rate has neither bolt nor spacer: a wish for another height says so, none does not.
#[test]
fn a_plain_rate_sets_no_height() {
    let truck = of_kind(SpringKind::WheelRate);
    let now = reads(&truck, &[]);
    for (lower, bounds) in [(10.0, vec![Bound::NoAdjuster]), (-10.0, vec![Bound::NoAdjuster]), (0.0, vec![])]
    {
        let found =
            set(&truck, &Target { ride_height_mm: now.ride_height_mm - lower, ..now }, CasterBy::Shims);
        assert_eq!((found.height, &found.bounds), (HeightBy::Nothing, &bounds), "{lower} mm lower");
        near(found.reads.ride_height_mm, now.ride_height_mm, 0.3, "the height that it has");
    }
}

/// A spacer comes in sixteenths or in millimetres, added or taken out, and raises.
#[test]
fn a_spacer_comes_in_steps() {
    let truck = of_kind(SpringKind::Coil);
    for (asked, steps, thickness) in [
        // 3.4 and −2.52 sixteenths.
        (5.4, Steps::INCHES, 3.0 * 25.4 / 16.0),
        (-4.0, Steps::INCHES, -3.0 * 25.4 / 16.0),
        (5.4, Steps::MILLIMETRES, 5.0),
        (-4.4, Steps::MILLIMETRES, -4.0),
    ] {
        let spacer = Change::SeatSpacer(SeatSpacer { thickness_mm: asked });
        let wanted = reads(&truck, &[spacer]);
        let found = setting(&truck, Side::Left, &[], &wanted, CasterBy::Shims, &steps).unwrap();
        near(found.exact.height, asked, 1e-6, "before it is rounded");
        let HeightBy::Spacer(set) = found.height else { panic!("a coil") };
        near(set, thickness, 1e-9, "spacer");
        near(found.set.height, thickness, 1e-9, "height by it");
    }
}

/// The 1983 service text: a thirty-second at both bolts is a fifth of a degree of camber,
/// one moved from the rear bolt to the front half a degree of caster, with the shaft
/// outboard of its bracket; a shim pushes a shaft that is inboard of it the other way.
#[test]
fn the_rule_of_thumb_turns_round_with_the_shaft() {
    for (side, sign) in [(truck::ShaftSide::Outboard, 1.0), (truck::ShaftSide::Inboard, -1.0)] {
        let mut truck = demo().truck;
        truck.shims.side = Some(side);
        let now = reads(&truck, &[]);
        let camber = Target { camber_rad: now.camber_rad + 0.2_f64.to_radians(), ..now };
        let caster = Target { caster_rad: now.caster_rad + 0.5_f64.to_radians(), ..now };
        for (target, by, front, rear) in [
            (camber, CasterBy::Shims, 1.0, 1.0),
            (caster, CasterBy::Shims, 1.0, -1.0),
            (camber, CasterBy::StrutRod, 1.0, 1.0),
            (caster, CasterBy::StrutRod, 0.0, 0.0),
        ] {
            let found = set(&truck, &target, by);
            near(found.thumb_mm.0, sign * front * THIRTY_SECOND_MM, 1e-9, "front by thumb");
            near(found.thumb_mm.1, sign * rear * THIRTY_SECOND_MM, 1e-9, "rear by thumb");
            if by == CasterBy::Shims {
                // The model's shims lie the same way, within the rule's quarter.
                for (exact, thumb) in [
                    (found.exact.shim_front_mm, found.thumb_mm.0),
                    (found.exact.shim_rear_mm, found.thumb_mm.1),
                ] {
                    assert!((exact / thumb - 1.0).abs() < 0.35, "{exact} against {thumb}");
                }
            }
        }
    }
}

/// What a proposal does to the rod's inner end is a part of it and no setting: it stays,
/// once, whether toe is set anew or not, and toe is met with it.
#[test]
fn a_moved_inner_end_stays_where_it_is() {
    let truck = demo().truck;
    let inner_mm = Vector3::new(0.0, 2.0, -6.0);
    let moved = Change::TieRod(TieRodChange { longer_mm: 1.0, inner_mm });
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
    for toe_deg in [0.0_f64, 0.3] {
        let changes = [spindle, moved];
        let target = Target { toe_rad: toe_deg.to_radians(), ..reads(&truck, &changes) };
        let found = setting(&truck, Side::Left, &changes, &target, CasterBy::Shims, &Steps::INCHES).unwrap();
        let rods: Vec<_> = found
            .changes
            .iter()
            .filter_map(|change| if let Change::TieRod(rod) = change { Some(rod) } else { None })
            .collect();
        assert_eq!(rods.len(), 1, "{:?}", found.changes);
        near((rods[0].inner_mm - inner_mm).norm(), 0.0, 1e-9, "inner end");
        let off = reads(&truck, &found.changes).toe_rad - target.toe_rad;
        // A thirty-second of a turn of 3 mm on a steering arm of more than 100 mm.
        assert!(off.abs() < 0.12 / 100.0, "{} deg", off.to_degrees());
    }
}

/// Packs at their ends leave camber where it is; the strut rod still brings caster to its
/// target, as a gauge on the truck as set reads it.
#[test]
fn the_strut_rod_sets_caster_with_the_packs_at_their_ends() {
    let truck = demo().truck;
    let now = reads(&truck, &[]);
    // So fine that rounding leaves nothing that could hide it.
    let fine = Steps { shim_mm: 0.01, turns: 0.01, sleeve_turns: 0.01, ..Steps::INCHES };
    for (camber_deg, bound) in [(6.0_f64, Bound::ShimsTooThick), (-6.0, Bound::NoShimsLeft)] {
        for caster_deg in [0.5_f64, -0.5] {
            let target = Target {
                camber_rad: camber_deg.to_radians(),
                caster_rad: now.caster_rad + caster_deg.to_radians(),
                ..now
            };
            let found = setting(&truck, Side::Left, &[], &target, CasterBy::StrutRod, &fine).unwrap();
            assert!(found.bounds.contains(&bound), "{:?}", found.bounds);
            assert!((found.reads.camber_rad - target.camber_rad).abs() > 1_f64.to_radians());
            // A hundredth of a millimetre of shim is 0.006°, by the service text.
            let off = reads(&truck, &found.changes).caster_rad - target.caster_rad;
            assert!(off.to_degrees().abs() < 0.02, "{}", off.to_degrees());
        }
    }
}

/// One pack at its end: the other sets camber, and neither goes beyond what there is.
#[test]
fn one_pack_at_its_end_leaves_camber_to_the_other() {
    let mut truck = demo().truck;
    for (front, rear, camber_deg) in [(0.0, 4.5, -0.5_f64), (4.5, 0.0, -0.5)] {
        truck.shims.front_mm = Some(front);
        truck.shims.rear_mm = Some(rear);
        let now = reads(&truck, &[]);
        let target = Target { camber_rad: now.camber_rad + camber_deg.to_radians(), ..now };
        let found = set(&truck, &target, CasterBy::Shims);
        assert!(found.bounds.contains(&Bound::NoShimsLeft), "{:?}", found.bounds);
        assert!(front + found.set.shim_front_mm > -1e-9 && rear + found.set.shim_rear_mm > -1e-9);
        let (stuck, free) = if front == 0.0 {
            (found.set.shim_front_mm, found.set.shim_rear_mm)
        } else {
            (found.set.shim_rear_mm, found.set.shim_front_mm)
        };
        near(stuck, 0.0, 1e-9, "nothing to take out");
        assert!(free < -THIRTY_SECOND_MM, "{free}");
        // Half a shim at one bolt is a twentieth of a degree by the same service text.
        let off = found.reads.less(&target).camber_rad.to_degrees();
        assert!(off.abs() < 0.1, "{off}");
    }
}

/// A pack that was taken as far as it goes is said to be: that it ends at none, or at the most that its bolt
/// takes. Of bolts that both stand ahead of the ball one takes out what the other puts in, so that of the
/// two the one may end thick and the other thin.
#[test]
fn every_pack_at_its_end_is_said() {
    let mut truck = demo().truck;
    let mut ends = Vec::new();
    for ahead_mm in [0.0, 100.0] {
        truck.shims.front_x_mm = Some(60.0 + ahead_mm);
        truck.shims.rear_x_mm = Some(-84.0 + ahead_mm);
        let (now, most) = ([3.0, 4.5], 15.0);
        let reads = reads(&truck, &[]);
        for (camber_deg, caster_deg) in
            [(-1.5_f64, 0.0_f64), (1.0, 0.0), (3.0, 0.0), (3.0, -3.0), (-3.0, 3.0), (0.0, 4.0), (0.0, -4.0)]
        {
            let target = Target {
                camber_rad: reads.camber_rad + camber_deg.to_radians(),
                caster_rad: reads.caster_rad + caster_deg.to_radians(),
                ..reads
            };
            let found = set(&truck, &target, CasterBy::Shims);
            let exact = [found.exact.shim_front_mm, found.exact.shim_rear_mm];
            for (now, added) in now.into_iter().zip(exact) {
                for (end, bound) in [(-now, Bound::NoShimsLeft), (most - now, Bound::ShimsTooThick)] {
                    if (added - end).abs() < 1e-9 {
                        ends.push((ahead_mm, bound));
                        let said = &found.bounds;
                        assert!(said.contains(&bound), "{camber_deg} {caster_deg}: {exact:?} {said:?}");
                    }
                }
            }
        }
    }
    assert!(ends.len() > 4, "{ends:?}");
}

/// What is laid on the sketch as shims is what is said.
#[test]
fn shims_go_to_their_own_bolts() {
    let truck = demo().truck;
    let laid = ShimChange { front_mm: 2.0 * THIRTY_SECOND_MM, rear_mm: -THIRTY_SECOND_MM };
    let found = set(&truck, &reads(&truck, &[Change::Shims(laid)]), CasterBy::Shims);
    near(found.set.shim_front_mm, laid.front_mm, 1e-9, "front");
    near(found.set.shim_rear_mm, laid.rear_mm, 1e-9, "rear");
    let said = found.changes.iter().find_map(|change| match change {
        Change::Shims(shims) => Some((shims.front_mm, shims.rear_mm)),
        _ => None,
    });
    let (front, rear) = said.unwrap();
    near(front, laid.front_mm, 0.006, "front on the sketch");
    near(rear, laid.rear_mm, 0.006, "rear on the sketch");
}
