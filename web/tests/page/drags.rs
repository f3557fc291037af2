//! What each handle edits, on the truck as measured and on a proposal.
//!
//! The table is the design's: as measured selected, a drag corrects the
//! measurement, and height and load stay; a proposal selected, it makes a
//! change, and the stance is solved anew.

use crate::support::{PROPOSAL, PROPOSED, dragged, from, measured_at, on_measured, on_proposal, uneven};
use drawing::{Aspect, Handle};
use page::sketch::gesture::{Meaning, Snap, Start, meaning};
use study::Rest;
use truck::{Change, ChangeKind, Design, Edit, Field, MovedPivot, Place, RearField, Side};
use wasm_bindgen_test::wasm_bindgen_test;

const SNAPS: [Snap; 3] = [Snap::Off, Snap::To(25.4 / 16.0), Snap::To(1.0)];

/// The numbers of the points that a handle stands for: forward, out, up.
const fn corrects(handle: Handle) -> [&'static [Field]; 3] {
    match handle {
        Handle::LowerAxis => {
            [&[], &[Field::LowerFrontY, Field::LowerRearY], &[Field::LowerFrontZ, Field::LowerRearZ]]
        }
        Handle::UpperAxis => {
            [&[], &[Field::UpperFrontY, Field::UpperRearY], &[Field::UpperFrontZ, Field::UpperRearZ]]
        }
        Handle::LowerFront => [&[Field::LowerFrontX], &[Field::LowerFrontY], &[Field::LowerFrontZ]],
        Handle::LowerRear => [&[Field::LowerRearX], &[Field::LowerRearY], &[Field::LowerRearZ]],
        Handle::UpperFront => [&[Field::UpperFrontX], &[Field::UpperFrontY], &[Field::UpperFrontZ]],
        Handle::UpperRear => [&[Field::UpperRearX], &[Field::UpperRearY], &[Field::UpperRearZ]],
        Handle::LowerBall => [&[Field::LowerBallX], &[Field::LowerBallY], &[Field::LowerBallZ]],
        Handle::UpperBall => [&[Field::UpperBallX], &[Field::UpperBallY], &[Field::UpperBallZ]],
        Handle::WheelCentre => [&[Field::WheelCentreX], &[Field::WheelCentreY], &[Field::WheelCentreZ]],
        Handle::TieInner => [&[Field::TieInnerX], &[Field::TieInnerY], &[Field::TieInnerZ]],
        Handle::TieOuter => [&[Field::TieOuterX], &[Field::TieOuterY], &[Field::TieOuterZ]],
        Handle::Rail => [&[], &[Field::RailOuterY], &[Field::RailBottomZ]],
        Handle::Fender => [&[], &[Field::FenderY], &[Field::FenderZ]],
        Handle::RearBlock | Handle::RearShackle | Handle::RearHanger | Handle::RearStop => [&[]; 3],
    }
}

/// Every handle of the front corner on every picture.
fn everywhere() -> impl Iterator<Item = (Aspect, Handle)> {
    let of = |aspect: Aspect| aspect.handles().iter().map(move |handle| (aspect, *handle));
    Aspect::ALL.into_iter().flat_map(of).filter(|(_, handle)| !handle.is_rear())
}

fn pivot(design: &Design, place: Place) -> Option<MovedPivot> {
    match design.proposal(PROPOSAL)?.change(ChangeKind::MovedPivot, Some(place))? {
        Change::MovedPivot(moved) => Some(*moved),
        other => panic!("{other:?} stands in the slot of a moved pivot"),
    }
}

fn spindle(design: &Design) -> (f64, f64) {
    match design.proposal(PROPOSAL).and_then(|found| found.change(ChangeKind::DroppedSpindle, None)) {
        Some(Change::DroppedSpindle(spindle)) => (spindle.drop_mm, spindle.out_mm),
        other => panic!("{other:?} stands in the spindle's slot"),
    }
}

fn assert_near(got: f64, want: f64, within: f64, what: &str) {
    assert!((got - want).abs() <= within, "{what}: {got}, not {want}");
}

#[wasm_bindgen_test(unsupported = test)]
fn out_and_back_is_the_design_it_began_with_at_every_travel() {
    let design = uneven();
    for travel_mm in [0.0, 31.0, -42.5] {
        let (rest, pose) = measured_at(&design, travel_mm);
        for (aspect, handle) in everywhere() {
            let start = from(aspect, on_measured(&design, handle, Some((rest.corner, pose))));
            for snap in SNAPS {
                // However many frames were drawn on the way out, only the last counts.
                assert_ne!(dragged(&start, 14.0, -9.0, snap), design, "{handle:?} moves");
                assert_eq!(dragged(&start, 0.0, -0.0, snap), design, "{handle:?} {snap:?} {travel_mm} mm");
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn out_and_back_on_a_proposal_is_the_truck_it_began_with() {
    let plain = uneven();
    // Once with nothing moved yet, once over offsets that are no whole steps.
    let mut begun = plain.clone();
    for (handle, out_mm, up_mm) in
        [(Handle::LowerAxis, 3.33, 1.27), (Handle::UpperAxis, -7.01, 4.44), (Handle::WheelCentre, 0.0, 6.66)]
    {
        begun = dragged(&on_proposal(&begun, handle), out_mm, up_mm, Snap::Off);
    }
    for design in [plain, begun] {
        for handle in PROPOSED {
            for snap in SNAPS {
                let start = on_proposal(&design, handle);
                let out = dragged(&start, 5.0, 11.0, snap).fitted(PROPOSAL).unwrap();
                let back = dragged(&start, 0.0, -0.0, snap).fitted(PROPOSAL).unwrap();
                assert_ne!(out, design.fitted(PROPOSAL).unwrap(), "{handle:?} moves");
                assert_eq!(back, design.fitted(PROPOSAL).unwrap(), "{handle:?} {snap:?}");
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn as_measured_each_handle_corrects_its_own_numbers_and_no_other() {
    let design = uneven();
    for (aspect, handle) in everywhere() {
        let start = from(aspect, on_measured(&design, handle, None));
        let after = dragged(&start, 6.0, -4.0, Snap::Off);
        let of = corrects(handle);
        // By hand: the side shows forward to the left, the top shows it downward.
        let moved = match aspect {
            Aspect::Front => [0.0, 6.0, -4.0],
            Aspect::Side => [-6.0, 0.0, -4.0],
            Aspect::Top => [4.0, 6.0, 0.0],
        };
        for field in Field::ALL {
            let before = field.get(&design.truck);
            let axis = of.iter().position(|fields| fields.contains(field));
            let Some(by) = axis.map(|axis| moved[axis]).filter(|by| *by != 0.0) else {
                assert_eq!(field.get(&after.truck), before, "{handle:?} moved {field:?} in {aspect:?}");
                continue;
            };
            assert_near(field.get(&after.truck).unwrap(), before.unwrap() + by, 1e-9, field.key());
        }
        assert_eq!(after.proposals, design.proposals, "{handle:?} leaves the plans alone");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn pivots_of_an_arm_keep_their_places_to_each_other() {
    let design = uneven();
    for handle in [Handle::LowerAxis, Handle::UpperAxis] {
        let [_, sideways, height] = corrects(handle);
        for snap in SNAPS {
            let after = dragged(&on_measured(&design, handle, None), 9.3, 7.7, snap);
            for pair in [sideways, height] {
                let apart = |design: &Design| {
                    pair[0].get(&design.truck).unwrap() - pair[1].get(&design.truck).unwrap()
                };
                // Each is kept in steps of 0.01 mm, so one may round up where the other rounds down.
                assert_near(apart(&after), apart(&design), 0.01 + 1e-9, pair[0].key());
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_corrected_measurement_leaves_the_truck_at_its_height_and_load() {
    let design = uneven();
    for (aspect, handle) in everywhere() {
        let after = dragged(&from(aspect, on_measured(&design, handle, None)), 5.0, -4.0, Snap::Off);
        let rest = Rest::of(after.as_measured()).unwrap();
        assert_near(rest.ground_mm, 0.0, 1e-9, "the ground under the body");
        assert_eq!(after.truck.load, design.truck.load, "{handle:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_proposal_s_drag_leaves_the_measurement_alone() {
    let design = uneven();
    for handle in PROPOSED {
        let after = dragged(&on_proposal(&design, handle), 4.0, 12.0, Snap::To(1.0));
        assert_eq!(after.truck, design.truck, "{handle:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn an_arm_s_pivots_are_moved_by_an_offset() {
    let design = uneven();
    for (handle, place) in [(Handle::LowerAxis, Place::LowerArm), (Handle::UpperAxis, Place::UpperArm)] {
        let once = dragged(&on_proposal(&design, handle), 4.0, 12.0, Snap::Off);
        let by = pivot(&once, place).unwrap().by_mm;
        assert_eq!((by.x, by.y, by.z), (0.0, 4.0, 12.0), "{handle:?}");
        let twice = dragged(&on_proposal(&once, handle), -1.5, 2.0, Snap::Off);
        let by = pivot(&twice, place).unwrap().by_mm;
        assert_eq!((by.x, by.y, by.z), (0.0, 2.5, 14.0), "{handle:?} goes on from its own offset");
        let other = if place == Place::LowerArm { Place::UpperArm } else { Place::LowerArm };
        assert_eq!(pivot(&twice, other), None);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn an_offset_outlives_a_correction_of_the_measurement() {
    let moved = dragged(&on_proposal(&uneven(), Handle::UpperAxis), 4.0, 12.0, Snap::Off);
    let corrected = dragged(&on_measured(&moved, Handle::UpperAxis, None), -3.0, 5.0, Snap::Off);
    assert_eq!(pivot(&corrected, Place::UpperArm), pivot(&moved, Place::UpperArm));
    let mounts = corrected.fitted(PROPOSAL).unwrap().mounts.upper;
    assert_near(mounts.front.z, corrected.truck.points.upper.front.z + 12.0, 1e-9, "the mount");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_spindle_dragged_up_lowers_the_body_by_as_much() {
    let design = uneven();
    let height = |design: &Design| Rest::of(design.fitted(PROPOSAL).unwrap()).unwrap().ground_mm;
    for up_mm in [12.7, 25.4, -19.05] {
        let after = dragged(&on_proposal(&design, Handle::WheelCentre), 0.0, up_mm, Snap::Off);
        assert_near(spindle(&after).0, spindle(&design).0 + up_mm, 1e-9, "the drop");
        assert_near(height(&after) - height(&design), up_mm, 1e-9, "the ground under the body");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_spindle_moves_the_way_a_thumb_mostly_goes() {
    let design = uneven();
    let start = on_proposal(&design, Handle::WheelCentre);
    let (drop_mm, out_mm) = spindle(&design);
    let up = spindle(&dragged(&start, 7.0, 20.0, Snap::Off));
    assert_eq!((up.0 - drop_mm, up.1), (20.0, out_mm), "mostly up");
    let out = spindle(&dragged(&start, -15.0, 3.0, Snap::Off));
    assert_eq!((out.0, out.1 - out_mm), (drop_mm, -15.0), "mostly in");
}

#[wasm_bindgen_test(unsupported = test)]
fn what_a_proposal_cannot_move_says_what_to_select() {
    let design = uneven();
    for handle in Aspect::Front.handles().iter().copied().filter(|handle| !PROPOSED.contains(handle)) {
        match meaning(&on_proposal(&design, handle), 5.0, 5.0, Snap::Off) {
            Meaning::Fixed(why) => assert!(why.contains("As it sits"), "{handle:?}: {why}"),
            Meaning::Edit(edit, _) => panic!("{handle:?} makes {edit:?}"),
        }
    }
}

/// A drag that changed nothing and said nothing would be taken for a broken page.
#[wasm_bindgen_test(unsupported = test)]
fn on_every_picture_a_drag_changes_the_proposal_or_says_why_not() {
    let design = uneven();
    for (aspect, handle) in everywhere() {
        match meaning(&from(aspect, on_proposal(&design, handle)), 9.0, 7.0, Snap::Off) {
            Meaning::Fixed(why) => assert!(!why.is_empty()),
            Meaning::Edit(edit, _) => {
                assert_ne!(design.edited(&edit).unwrap(), design, "{handle:?} from {aspect:?}");
            }
        }
    }
    let tie_rod = from(Aspect::Side, on_proposal(&design, Handle::TieOuter));
    assert!(
        matches!(meaning(&tie_rod, 9.0, 7.0, Snap::Off), Meaning::Fixed(_)),
        "it grows across the picture"
    );
}

#[wasm_bindgen_test(unsupported = test)]
fn a_drag_says_the_values_it_makes() {
    let design = uneven();
    for handle in Aspect::Front.handles().iter().copied() {
        let start = on_measured(&design, handle, None);
        let Meaning::Edit(Edit::MeasureAll(values), said) = meaning(&start, 8.0, -8.0, Snap::To(1.0)) else {
            panic!("{handle:?} corrects numbers");
        };
        assert_eq!(said.what, handle.label());
        let [_, sideways, height] = corrects(handle);
        for (said, of) in [(said.right_mm, sideways), (said.up_mm, height)] {
            let made = values.iter().filter(|(field, _)| of.contains(field)).map(|(_, value)| *value);
            // Of points that move together the first is snapped, and that is the one to say.
            assert_eq!(said, made.clone().next(), "{handle:?}");
            assert!(said.is_some_and(|value| (value - value.round()).abs() < 1e-9), "{handle:?}");
            assert_eq!(made.count(), of.len());
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_linkage_that_does_not_close_can_be_dragged_back() {
    let design = uneven();
    let far = dragged(&on_proposal(&design, Handle::UpperAxis), 0.0, 290.0, Snap::Off);
    let broken = Rest::of(far.fitted(PROPOSAL).unwrap());
    assert!(broken.is_err(), "an upper arm carried up by 290 mm does not reach its knuckle");
    let back = Start {
        aspect: Aspect::Front,
        handle: Handle::UpperAxis,
        side: Side::Left,
        proposal: Some(PROPOSAL),
        design: far,
        posed: None,
    };
    let mended = dragged(&back, 0.0, -290.0, Snap::Off);
    assert_eq!(mended.fitted(PROPOSAL).unwrap(), design.fitted(PROPOSAL).unwrap());
}

#[wasm_bindgen_test(unsupported = test)]
fn out_and_back_in_an_empty_slot_leaves_it_empty() {
    let design = truck::demo();
    for (handle, snap) in [(Handle::UpperAxis, Snap::To(1.0)), (Handle::LowerAxis, Snap::Off)] {
        let back = dragged(&on_proposal(&design, handle), 0.0, 0.0, snap);
        assert_eq!(back, design, "{handle:?}");
        assert_ne!(dragged(&on_proposal(&design, handle), 9.0, 0.0, snap), design, "{handle:?}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_single_pivot_is_moved_on_the_pictures_that_show_it() {
    let design = uneven();
    for (handle, place) in [
        (Handle::LowerFront, Place::LowerFront),
        (Handle::LowerRear, Place::LowerRear),
        (Handle::UpperFront, Place::UpperFront),
        (Handle::UpperRear, Place::UpperRear),
    ] {
        let start = from(Aspect::Side, on_proposal(&design, handle));
        let once = dragged(&start, -8.0, 3.0, Snap::Off);
        let by = pivot(&once, place).unwrap().by_mm;
        assert_eq!((by.x, by.y, by.z), (8.0, 0.0, 3.0), "{handle:?} from the side");
        let start = from(Aspect::Top, on_proposal(&once, handle));
        let by = pivot(&dragged(&start, 2.0, 5.0, Snap::Off), place).unwrap().by_mm;
        assert_eq!((by.x, by.y, by.z), (3.0, 2.0, 3.0), "{handle:?} from above");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_ball_pulled_out_along_its_arm_is_a_longer_arm() {
    let design = uneven();
    for (handle, place) in [(Handle::LowerBall, Place::LowerArm), (Handle::UpperBall, Place::UpperArm)] {
        let start = on_proposal(&design, handle);
        let (corner, pose) = start.posed.unwrap();
        // The lower arm's slope as the pose states it; the upper's from its frame.
        let (sin, cos) = if handle == Handle::LowerBall {
            pose.lower_arm_rad.sin_cos()
        } else {
            corner.upper_arm_rad(&pose).sin_cos()
        };
        let after = dragged(&start, 10.0 * cos, 10.0 * sin, Snap::To(1.0));
        match after.proposal(PROPOSAL).unwrap().change(ChangeKind::ArmSwap, Some(place)) {
            Some(Change::ArmSwap(swap)) => {
                let made = (swap.longer_mm, swap.higher_mm, swap.forward_mm);
                assert_eq!(made, (10.0, 0.0, 0.0), "{handle:?}");
            }
            other => panic!("{handle:?}: {other:?}"),
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_tie_rod_is_moved_at_its_inner_end_and_screwed_at_its_outer_one() {
    let design = uneven();
    let rod = |design: &Design| match design.proposal(PROPOSAL).unwrap().change(ChangeKind::TieRod, None) {
        Some(Change::TieRod(rod)) => *rod,
        other => panic!("{other:?}"),
    };
    let inner = from(Aspect::Top, on_proposal(&design, Handle::TieInner));
    let moved = rod(&dragged(&inner, 3.0, -6.0, Snap::Off));
    assert_eq!((moved.inner_mm.x, moved.inner_mm.y, moved.inner_mm.z, moved.longer_mm), (6.0, 3.0, 0.0, 0.0));
    let outer = on_proposal(&design, Handle::TieOuter);
    let (_, pose) = outer.posed.unwrap();
    let along = (pose.tie_outer - pose.tie_inner).normalize();
    let screwed = rod(&dragged(&outer, 8.0 * along.y, 8.0 * along.z, Snap::Off));
    // What the picture does not show of the rod's slope is lost.
    let shown = 8.0 * (1.0 - along.x * along.x);
    assert_near(screwed.longer_mm, shown, 0.01, "longer");
    assert_near(screwed.inner_mm.norm(), 0.0, 1e-12, "inner end");
}

/// At the right a drag of what was measured edits the right's own numbers and nothing else, and
/// back again leaves none where there was none.
#[wasm_bindgen_test(unsupported = test)]
fn at_the_right_a_drag_measures_the_right_alone() {
    let design = uneven();
    let rest = Rest::of(design.as_measured_on(Side::Right)).unwrap();
    for (handle, fields) in [
        (Handle::UpperBall, &[Field::UpperBallY, Field::UpperBallZ][..]),
        (Handle::Rail, &[Field::RailOuterY, Field::RailBottomZ][..]),
        (
            Handle::LowerAxis,
            &[Field::LowerFrontY, Field::LowerFrontZ, Field::LowerRearY, Field::LowerRearZ][..],
        ),
    ] {
        let posed = Some((rest.corner, rest.pose));
        let start = Start { side: Side::Right, ..on_measured(&design, handle, posed) };
        let moved = dragged(&start, 3.0, -2.0, Snap::Off);
        let mut own: Vec<Field> = moved.truck.right.iter().map(|(field, _)| field).collect();
        own.sort();
        assert_eq!(own, fields, "{handle:?}");
        for field in Field::ALL {
            assert_eq!(field.get(&moved.truck), field.get(&design.truck), "{handle:?}: {field:?}");
        }
        // Outward from the centreline and up, on either side.
        let by = |field: Field| {
            field.get(&moved.truck.on(Side::Right)).unwrap() - field.get(&design.truck).unwrap()
        };
        assert!((by(fields[0]) - 3.0).abs() < 0.01 && (by(fields[1]) + 2.0).abs() < 0.01, "{handle:?}");
        assert_eq!(dragged(&start, 0.0, 0.0, Snap::To(1.0)), design, "{handle:?} out and back");
    }
}

/// Where left and right differ the side on the sketch is moved alone, and coming back leaves it as it was.
#[wasm_bindgen_test(unsupported = test)]
fn a_side_that_differs_is_moved_alone() {
    let spindle = |drop_mm: f64| ChangeKind::DroppedSpindle.with(None, &[Some(drop_mm)]);
    let each = [spindle(50.8), spindle(63.5)];
    let design = uneven().edited(&Edit::SetEach(PROPOSAL, each)).unwrap();
    let drops = |design: &Design| {
        let proposal = design.proposal(PROPOSAL).unwrap();
        let at = |side| proposal.change_at(side, ChangeKind::DroppedSpindle, None);
        Side::ALL.map(|side| match at(side) {
            Some(Change::DroppedSpindle(spindle)) => Some(spindle.drop_mm),
            _ => None,
        })
    };
    let start = |design: &Design, side| Start { side, ..on_proposal(design, Handle::WheelCentre) };
    let moved = |side| drops(&dragged(&start(&design, side), 0.0, 10.0, Snap::To(1.0)));
    let [left, right] = [moved(Side::Left), moved(Side::Right)];
    assert!(left[0] > Some(58.0) && left[1] == Some(63.5), "{left:?}");
    assert!(right[1] > Some(71.0) && right[0] == Some(50.8), "{right:?}");
    for side in Side::ALL {
        assert_eq!(dragged(&start(&design, side), 0.0, 0.0, Snap::Off), design, "{side:?}");
    }
    // On the right alone: a drag at the left gives the left its own, and back again none.
    let alone = uneven().edited(&Edit::SetEach(PROPOSAL, [None, each[1]])).unwrap();
    let left = drops(&dragged(&start(&alone, Side::Left), 0.0, 10.0, Snap::To(1.0)));
    assert!(left[0] > Some(8.0) && left[1] == Some(63.5), "{left:?}");
    assert_eq!(dragged(&start(&alone, Side::Left), 0.0, 0.0, Snap::Off), alone);
}

/// A truck with a rear: the shackle's eye 30 beyond its bolt and 40 below, its axle on top of the springs.
fn with_rear(numbers: &[(RearField, f64)]) -> Design {
    let usual = [
        (RearField::Seat, -60.0),
        (RearField::EyeBeyond, 30.0),
        (RearField::ShackleEye, 300.0),
        (RearField::HangerBolt, 340.0),
        (RearField::ShackleAhead, 0.0),
    ];
    usual.iter().chain(numbers).fold(truck::demo(), |design, (field, value)| {
        design.edited(&Edit::MeasureRear(*field, Some(*value))).unwrap()
    })
}

/// The numbers of a change of the rear once its handle was dragged from the side, and what is said of it.
fn rear_dragged(
    design: &Design,
    handle: Handle,
    (right_mm, up_mm): (f64, f64),
) -> (Vec<f64>, [Option<f64>; 2]) {
    let start = from(Aspect::Side, on_proposal(design, handle));
    let Meaning::Edit(Edit::Set(id, change), said) = meaning(&start, right_mm, up_mm, Snap::Off) else {
        panic!("{handle:?} sets nothing");
    };
    assert_eq!(id, PROPOSAL);
    (change.values().into_iter().flatten().collect(), [said.right_mm, said.up_mm])
}

/// By hand: a block takes the spring away from the axle, down where the axle is on top of it.
#[wasm_bindgen_test(unsupported = test)]
fn a_block_grows_as_its_spring_is_drawn_from_the_axle() {
    let on_top = with_rear(&[]);
    assert_eq!(
        rear_dragged(&on_top, Handle::RearBlock, (3.0, -12.7)),
        (vec![12.7, 0.0], [None, Some(-12.7)])
    );
    let under = with_rear(&[(RearField::Seat, 60.0)]);
    assert_eq!(rear_dragged(&under, Handle::RearBlock, (0.0, 12.7)).0, [12.7, 0.0]);
    // A flip turns the two about.
    let flip = Change::AxleFlip(truck::AxleFlip::default());
    let flipped = on_top.edited(&Edit::Set(PROPOSAL, flip)).unwrap();
    assert_eq!(rear_dragged(&flipped, Handle::RearBlock, (0.0, 12.7)).0, [12.7, 0.0]);
}

/// By hand: 30 behind and 40 below is 50, so that 6 and 8 that way is 10, and 8 and 6 square to it is nothing.
#[wasm_bindgen_test(unsupported = test)]
fn a_shackle_grows_along_itself() {
    let back = with_rear(&[]);
    let longer = |design: &Design, by| rear_dragged(design, Handle::RearShackle, by).0[0];
    assert_near(longer(&back, (6.0, -8.0)), 10.0, 1e-9, "to the rear and down");
    let ahead = with_rear(&[(RearField::ShackleAhead, 1.0)]);
    assert_near(longer(&ahead, (-6.0, -8.0)), 10.0, 1e-9, "ahead and down");
    let above = with_rear(&[(RearField::HangerBolt, 260.0)]);
    assert_near(longer(&above, (6.0, 8.0)), 10.0, 1e-9, "to the rear and up");
    assert_near(longer(&above, (-6.0, -8.0)), -10.0, 1e-9, "shorter");
    let square = from(Aspect::Side, on_proposal(&back, Handle::RearShackle));
    let Meaning::Edit(edit, _) = meaning(&square, 8.0, 6.0, Snap::Off) else { panic!("it moves") };
    assert_eq!(back.edited(&edit).unwrap(), back);
    let (_, said) = rear_dragged(&above, Handle::RearShackle, (6.0, 8.0));
    assert!(said[1].is_some_and(|up| up > 0.0), "an eye above its bolt goes up");
    let (_, said) = rear_dragged(&back, Handle::RearShackle, (6.0, -8.0));
    assert!(said[1].is_some_and(|up| up < 0.0), "one below it goes down");
}

/// By hand: away from the fixed eye is to the rear where the shackle is.
#[wasm_bindgen_test(unsupported = test)]
fn a_hanger_and_a_stop_go_with_their_handles() {
    let back = with_rear(&[]);
    // Fixed eye, shackle's bolt up and away.
    assert_eq!(
        rear_dragged(&back, Handle::RearHanger, (5.0, 3.0)),
        (vec![0.0, 3.0, 5.0], [Some(5.0), Some(3.0)])
    );
    let ahead = with_rear(&[(RearField::ShackleAhead, 1.0)]);
    assert_eq!(
        rear_dragged(&ahead, Handle::RearHanger, (-5.0, 3.0)),
        (vec![0.0, 3.0, 5.0], [Some(-5.0), Some(3.0)])
    );
    assert_eq!(rear_dragged(&back, Handle::RearStop, (5.0, 4.0)), (vec![4.0], [None, Some(4.0)]));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_rear_as_it_sits_is_typed() {
    let design = with_rear(&[]);
    for handle in Aspect::Side.handles().iter().copied().filter(|handle| handle.is_rear()) {
        let start = from(Aspect::Side, on_measured(&design, handle, None));
        assert!(matches!(meaning(&start, 5.0, 5.0, Snap::Off), Meaning::Fixed(_)), "{handle:?}");
        assert!(!Aspect::Front.handles().contains(&handle) && !Aspect::Top.handles().contains(&handle));
    }
}
