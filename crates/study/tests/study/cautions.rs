//! What is to be said before the work: bars that are loaded, blind teeth, joints that lower
//! nothing, packs of shims, and by how much a hanging spring holds.

use crate::alignment::{of_kind, rest};
use study::{
    Amounts, Bound, CasterBy, HeightBy, Preload, Setting, Steps, Target, alignment, many_pieces, setting,
    spring_loads,
};
use truck::BlindTooth::{No, Yes};
use truck::{
    AnchorSwap, Arm, BarAdjuster, BarReindex, BarSwap, Change, Field, JointTurned, Note, Place, Remark,
    SeatSpacer, ShimChange, Side, SpringKind, StopTrim, Truck, demo, fit, notes,
};
use yardstick::budget::near;

fn turns(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

fn splines(anchor: f64, arm: f64) -> Change {
    Change::BarReindex(BarReindex { anchor, arm })
}

/// A bar stores energy: whatever turns its bolt or takes it out says so, and before all else.
#[test]
fn a_loaded_bar_is_said_first() {
    let truck = demo().truck;
    let bar = &truck.spring.bar;
    let other_bar = BarSwap { diameter_mm: 26.0, length_mm: bar.length_mm };
    let anchor = AnchorSwap {
        lever_mm: bar.lever_mm,
        lever_angle_rad: bar.lever_angle_rad,
        thread_pitch_mm: 1.5,
        clocking_rad: 0.0,
    };
    let shims = Change::Shims(ShimChange { front_mm: 9.0, rear_mm: 0.0 });
    for change in [
        turns(-3.0),
        turns(0.5),
        splines(-1.0, 0.0),
        splines(0.0, 1.0),
        Change::BarSwap(other_bar),
        Change::AnchorSwap(anchor),
    ] {
        let said = notes(&truck, &[shims, change]);
        assert_eq!(said.first(), Some(&Note::LetDown), "{change:?}");
        assert_eq!(said.iter().filter(|note| **note == Note::LetDown).count(), 1);
        assert!(!notes(&of_kind(SpringKind::Coil), &[change]).contains(&Note::LetDown), "no bar is there");
    }
    let words = Note::LetDown.to_string();
    let (down, undone) =
        (words.find("let it down fully at its bolt").unwrap(), words.find("undone").unwrap());
    assert!(down < undone && words.contains("paint") && words.contains("never a scratch"), "{words}");
    let trim = Change::StopTrim(StopTrim { lower_mm: 5.0, ..StopTrim::default() });
    assert_eq!(notes(&truck, &[turns(0.0), splines(0.0, 0.0), trim]), []);
}

/// The truck of which a bolt with few turns forces a spline.
fn short_of_thread() -> (Truck, Target) {
    let mut truck = demo().truck;
    truck.spring.bar.turns_out = 3.0;
    truck.spring.bar.turns_in = 16.0;
    let now = Target::of(&rest(&truck, &[]));
    (truck, Target { ride_height_mm: now.ride_height_mm - 20.0, ..now })
}

fn set(truck: &Truck, target: &Target) -> Setting {
    setting(truck, Side::Left, &[], target, CasterBy::Shims, &Steps::INCHES).unwrap()
}

/// A bar with a blind tooth goes in one way only: it is not put over at that end, and where
/// nothing else reaches, that is said. Not stated, it is asked.
#[test]
fn a_blind_tooth_is_never_put_over() {
    let (open, target) = short_of_thread();
    for (anchor, arm) in [(None, None), (Some(No), Some(No)), (Some(Yes), None), (Some(No), Some(Yes))] {
        let mut truck = open.clone();
        truck.spring.bar.blind_anchor = anchor;
        truck.spring.bar.blind_arm = arm;
        let found = set(&truck, &target);
        let HeightBy::Anchor { splines_anchor, splines_arm, .. } = found.height else { panic!("a bar") };
        assert!(splines_anchor != 0.0 || splines_arm != 0.0, "the other end can still be put over");
        assert!(anchor != Some(Yes) || splines_anchor == 0.0);
        assert!(arm != Some(Yes) || splines_arm == 0.0);
        assert_eq!(found.bounds, []);
        let asked = notes(&truck, &found.changes);
        let asks = |field| asked.contains(&Note::AskBlind(field));
        assert_eq!(asks(Field::BarBlindAnchor), anchor.is_none() && splines_anchor != 0.0);
        assert_eq!(asks(Field::BarBlindArm), arm.is_none() && splines_arm != 0.0);
        let whole =
            alignment(&truck, Side::Left, &[], &target, CasterBy::Shims, &Steps::INCHES, 0.0).unwrap();
        assert_eq!(whole.notes, asked, "the answer carries what is to be said");
    }
    let mut truck = open;
    truck.spring.bar.blind_anchor = Some(Yes);
    truck.spring.bar.blind_arm = Some(Yes);
    let found = set(&truck, &target);
    assert_eq!(found.bounds, [Bound::BlindTooth]);
    let HeightBy::Anchor { turns, splines_anchor, splines_arm } = found.height else { panic!("a bar") };
    assert_eq!((splines_anchor, splines_arm), (0.0, 0.0));
    near(turns, -3.0, 1e-12, "as far as the bolt goes");
    // Typed by hand it is left out, with a word; the other end is not.
    let by_hand = |anchor, arm| {
        let fitted = fit(&truck, &[splines(anchor, arm)]).unwrap();
        (fitted.anchor_turn_rad, fitted.remarks)
    };
    assert_eq!(by_hand(-1.0, 0.0), (0.0, vec![Remark::BlindTooth]));
    assert_eq!(by_hand(0.0, 1.0), (0.0, vec![Remark::BlindTooth]));
    assert_eq!(by_hand(0.0, 0.0), (0.0, vec![]));
    truck.spring.bar.blind_arm = Some(No);
    let (turn, remarks) = (fit(&truck, &[splines(-1.0, 1.0)]).unwrap().anchor_turn_rad, Remark::BlindTooth);
    near(turn, std::f64::consts::TAU / 35.0, 1e-12, "one spline of thirty-five at the arm");
    assert_eq!(fit(&truck, &[splines(-1.0, 1.0)]).unwrap().remarks, [remarks]);
}

/// The joint of the arm without a spring moves the knuckle, not the arm that stands on the
/// spring: next to what the other joint does, the frame stays where it is.
#[test]
fn a_joint_flipped_on_the_other_arm_lowers_nothing() {
    let truck = demo().truck;
    let flipped =
        |place| Change::JointTurned(JointTurned { place, plate_mm: 6.35, flange_mm: 9.52, shift_mm: None });
    let drop = |place| rest(&truck, &[flipped(place)]).ground_mm.abs();
    assert!(drop(Place::UpperJointUp) < 0.05 * drop(Place::LowerJointUp));
    for (arm, own, other) in [
        (Arm::Lower, Place::LowerJointUp, Place::UpperJointUp),
        (Arm::Upper, Place::UpperJointDown, Place::LowerJointDown),
    ] {
        let mut truck = truck.clone();
        truck.spring.arm = arm;
        let on_top = own == Place::LowerJointUp;
        assert_eq!(notes(&truck, &[flipped(own)]), if on_top { vec![Note::BoltsCarry] } else { Vec::new() });
        let unsprung = if arm == Arm::Lower { Arm::Upper } else { Arm::Lower };
        assert_eq!(notes(&truck, &[flipped(other)]), [Note::LowersNothing(unsprung)]);
        assert_eq!(fit(&truck, &[flipped(other)]).unwrap().remarks, [], "it is no fault of the parts");
    }
}

/// A service text for another light truck: at most 8 mm in a pack, 3 mm from front to rear.
#[test]
fn thick_packs_and_packs_that_differ_are_said() {
    let mut truck = demo().truck;
    for (front, rear, add_front, add_rear, thick, differ) in [
        (Some(3.0), Some(4.5), 1.0, 0.0, false, false),
        (Some(3.0), Some(4.5), 5.0, 3.5, false, false),
        (Some(3.0), Some(4.5), 5.5, 3.5, true, false),
        (Some(3.0), Some(4.5), 5.0, 4.0, true, false),
        (Some(3.0), Some(4.5), -1.5, 0.0, false, false),
        (Some(3.0), Some(4.5), -2.0, 0.0, false, true),
        (Some(3.0), Some(4.5), 4.5, -0.5, false, true),
        // Not measured: what is added is the least that the pack can be.
        (None, Some(4.5), 8.5, 4.0, true, false),
        (None, None, 4.0, 0.0, false, false),
    ] {
        truck.shims.front_mm = front;
        truck.shims.rear_mm = rear;
        let shims = Change::Shims(ShimChange { front_mm: add_front, rear_mm: add_rear });
        let said = notes(&truck, &[shims]);
        let case = (front, rear, add_front, add_rear);
        assert_eq!(said.contains(&Note::ThickPack), thick, "{case:?}");
        assert_eq!(said.contains(&Note::PacksDiffer), differ, "{case:?}");
    }
    // Packs that are left alone are no part of the work.
    truck.shims.front_mm = Some(12.0);
    assert_eq!(notes(&truck, &[]), []);
}

/// Counted out by hand from the sizes there are: fewer than four in a place.
#[test]
fn packs_of_four_pieces_are_said() {
    let inch = 25.4;
    let counts = [
        (Steps::INCHES, inch * 5.0 / 16.0, 3),
        (Steps::INCHES, inch * 7.0 / 32.0, 3),
        (Steps::INCHES, inch * 3.0 / 8.0, 3),
        (Steps::INCHES, inch * 11.0 / 32.0, 4),
        (Steps::MILLIMETRES, 6.5, 3),
        (Steps::MILLIMETRES, 7.5, 4),
        (Steps::MILLIMETRES, 6.0, 2),
        (Steps::MILLIMETRES, 5.5, 3),
    ];
    let mut shims = demo().truck.shims;
    for (steps, total, pieces) in counts {
        let pack = steps.pieces_mm(total);
        assert_eq!(pack.len(), pieces, "{total} mm");
        near(pack.iter().sum(), total, 1e-9, "they come to it");
        for (front, rear) in [(Some(1.0), Some(0.0)), (Some(0.0), Some(1.0))] {
            (shims.front_mm, shims.rear_mm) = (front, rear);
            let set = if front == Some(1.0) {
                Amounts { shim_front_mm: total - 1.0, ..Amounts::default() }
            } else {
                Amounts { shim_rear_mm: total - 1.0, ..Amounts::default() }
            };
            assert_eq!(many_pieces(&shims, &set, &steps), pieces >= 4, "{total} mm");
        }
    }
    // Nothing is said of a pack that is not touched.
    shims.front_mm = Some(11.5);
    assert!(!many_pieces(&shims, &Amounts::default(), &Steps::MILLIMETRES));
}

/// Identity: the bolt let out by as much as it holds leaves a hanging bar without twist, a
/// seat lowered by as much a coil without force; from wherever the bolt stands.
#[test]
fn a_hanging_spring_holds_by_what_takes_it_off() {
    let truck = demo().truck;
    for before in [0.0, -6.0, 4.0] {
        let Some(Preload::Bar { twist_rad, turns: Some(left) }) =
            spring_loads(&rest(&truck, &[turns(before)])).preload
        else {
            panic!("a bar that holds")
        };
        assert!(twist_rad > 0.0 && left > 0.0);
        let droop = spring_loads(&rest(&truck, &[turns(before - left)])).droop.unwrap();
        near(droop.stress_n_per_mm2.unwrap(), 0.0, 1e-6, "nothing is left");
        // Two tenths of a turn more and it is loose, by that much.
        let loose = spring_loads(&rest(&truck, &[turns(before - left - 0.2)]));
        assert!(loose.droop.unwrap().is_loose());
        let Some(Preload::Bar { twist_rad, turns: Some(left) }) = loose.preload else { panic!("a bar") };
        near(left, -0.2, 1e-6, "turns");
        assert!(twist_rad < 0.0);
    }
    let truck = of_kind(SpringKind::Coil);
    let Some(Preload::Coil(mm)) = spring_loads(&rest(&truck, &[])).preload else { panic!("a coil") };
    assert!(mm > 5.0, "{mm}");
    let less = Change::SeatSpacer(SeatSpacer { thickness_mm: -mm });
    near(spring_loads(&rest(&truck, &[less])).droop.unwrap().effort, 0.0, 1e-6, "nothing is left");
    assert_eq!(spring_loads(&rest(&of_kind(SpringKind::WheelRate), &[])).preload, None);
}

/// At rest the load is what it was, and so is the torque: stress goes with the third power of
/// the diameter, `16 T / π d³`.
#[test]
fn a_thinner_bar_works_harder_by_the_cube() {
    let truck = demo().truck;
    let bar = truck.spring.bar;
    let before = spring_loads(&rest(&truck, &[])).rest;
    for diameter_mm in [24.0, 25.4, 27.0] {
        // As stiff as before, so that it stands as before: length goes with the fourth power.
        let length_mm = bar.length_mm * (diameter_mm / bar.diameter_mm).powi(4);
        let swap = Change::BarSwap(BarSwap { diameter_mm, length_mm });
        let after = spring_loads(&rest(&truck, &[swap])).rest;
        let want = (bar.diameter_mm / diameter_mm).powi(3) - 1.0;
        near(after.harder_than(&before).unwrap(), want, 1e-6, "share");
    }
}
