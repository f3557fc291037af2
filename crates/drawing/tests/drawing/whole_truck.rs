//! The whole truck and its rear from the side: to scale, on one ground, and what is said where it cannot be drawn.

use crate::view;
use drawing::{Aspect, Ends, Handle, Scene, Shown, Sketch, whole_truck};
use study::{Figure, Stance, clearances, travel_left};
use truck::{
    AxleFlip, Change, ChangeKind, Design, DroppedSpindle, Edit, Overlay, ProposalId, RearBlock, RearField,
    RearShackle, RearStop, Side, Source, Truck, demo,
};

fn drawn(truck: &Truck, overlay: Overlay<'_>, ends: Ends, travel_mm: f64) -> Scene {
    drawn_with(truck, overlay, ends, travel_mm, &[])
}

/// The same with these figures of the front resting on a guess.
fn drawn_with(truck: &Truck, overlay: Overlay<'_>, ends: Ends, travel_mm: f64, guessed: &[Figure]) -> Scene {
    let [rest, before] =
        [overlay, Overlay::NOTHING].map(|overlay| Stance::laid(truck, overlay).unwrap().on(Side::Left));
    let [pose, was] = [&rest, &before].map(|rest| rest.at_travel(travel_mm).unwrap());
    let (gaps, left) = (clearances(&rest, &pose), travel_left(&rest));
    let now = Shown { rest: &rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
    let before = Shown { rest: &before, pose: &was, gaps: &[], travel_left: None, travel_mm };
    let sketch = Sketch { before: Some(before), guessed, ..Sketch::alone(now) };
    whole_truck(ends, &sketch, &view(900.0, 500.0))
}

/// The truck with changes on it.
fn with(changes: &[Change], ends: Ends) -> Scene {
    drawn(&demo().truck, changes.into(), ends, 0.0)
}

/// Where a handle is in the picture's millimetres: behind the front axle, above the ground.
fn at(scene: &Scene, handle: Handle) -> (f64, f64) {
    let (_, x, y) = scene.handles.iter().find(|(found, _, _)| *found == handle).unwrap();
    scene.transform.to_mm(*x, *y)
}

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got}, not {want}");
}

const SPINDLE: Change = Change::DroppedSpindle(DroppedSpindle {
    drop_mm: 50.8,
    out_mm: 0.0,
    tie_outer_mm: linkage::Vector3::new(0.0, 0.0, 0.0),
});
const BLOCK: Change = Change::RearBlock(RearBlock { height_mm: 50.8, wedge_rad: 0.0 });

/// By hand, of the demo: a wheelbase of 2690; axle centers 312 less what the tire gives, and 310, above the ground;
/// the leaf 62 below the axle, which is on top of it.
#[test]
fn both_axles_stand_on_one_ground_a_wheelbase_apart() {
    let scene = with(&[], Ends::Both);
    let (front, rear) = (at(&scene, Handle::WheelCentre), at(&scene, Handle::RearBlock));
    near(rear.0 - front.0, 2690.0, 3.0);
    near(rear.1, 310.0 - 62.0, 0.5);
    // A block lets the spring down by its height; a spindle does nothing there but for the nose's angle.
    near(at(&with(&[BLOCK], Ends::Both), Handle::RearBlock).1, 310.0 - 62.0 - 50.8, 1.5);
    near(at(&with(&[SPINDLE], Ends::Both), Handle::RearBlock).1, 310.0 - 62.0, 1.5);
    // The wheel's center stays where it is with a spindle, and so it does in every pose of the front.
    near(at(&with(&[SPINDLE], Ends::Both), Handle::WheelCentre).1, front.1, 0.5);
    for travel_mm in [-30.0, 40.0] {
        let moved = drawn(&demo().truck, Overlay::NOTHING, Ends::Both, travel_mm);
        near(at(&moved, Handle::RearBlock).1, rear.1, 0.5);
        near(at(&moved, Handle::WheelCentre).1, front.1, 3.0);
    }
}

/// The shackle is where it was measured, behind the axle or ahead of it.
#[test]
fn a_shackle_hangs_at_its_own_end() {
    let rear = |design: &Design| drawn(&design.truck, Overlay::NOTHING, Ends::Rear, 0.0);
    let back = rear(&demo());
    let (leaf, eye, bolt) =
        (at(&back, Handle::RearBlock), at(&back, Handle::RearShackle), at(&back, Handle::RearHanger));
    assert!(eye.0 > leaf.0 + 500.0, "behind the axle");
    // By hand: 28 beyond its bolt, 296 and 375 above the ground.
    near(eye.0 - bolt.0, 28.0, 0.5);
    near(eye.1, 296.0, 1.5);
    near(bolt.1, 375.0, 1.5);
    let ahead = rear(&demo().edited(&Edit::MeasureRear(RearField::ShackleAhead, Some(1.0))).unwrap());
    near(at(&ahead, Handle::RearShackle).0 - leaf.0, leaf.0 - eye.0, 1.0);
    near(at(&ahead, Handle::RearShackle).0 - at(&ahead, Handle::RearHanger).0, -28.0, 0.5);
}

/// By hand: 118 of daylight less the block's 50.8 and with the half inch that the stop is shorter; a flip takes the
/// leaf to the other side of the axle.
#[test]
fn a_stop_a_flip_and_a_shackle_are_drawn_as_they_are() {
    let stop = Change::RearStop(RearStop { lower_mm: 12.7 });
    for (changes, gap) in [(vec![], 118.0), (vec![BLOCK], 67.2), (vec![BLOCK, stop], 79.9)] {
        let scene = with(&changes, Ends::Rear);
        near(at(&scene, Handle::RearStop).1 - 310.0 - 38.0, gap, 1.0);
    }
    let flip = Change::AxleFlip(AxleFlip { seat_mm: None, pinion_up_rad: 0.0 });
    near(at(&with(&[flip], Ends::Rear), Handle::RearBlock).1, 310.0 + 62.0, 1.5);
    let longer = with(&[Change::RearShackle(RearShackle { longer_mm: 25.4 })], Ends::Rear);
    let apart = |scene: &Scene| {
        let (eye, bolt) = (at(scene, Handle::RearShackle), at(scene, Handle::RearHanger));
        ((eye.0 - bolt.0).powi(2) + (eye.1 - bolt.1).powi(2)).sqrt()
    };
    near(apart(&longer), (28.0_f64 * 28.0 + 79.0 * 79.0).sqrt() + 25.4, 0.1);
}

/// Of the front corner none of the rear's handles is there, of the whole truck what lowers either end.
#[test]
fn each_end_has_its_own_handles() {
    let handles =
        |ends| with(&[BLOCK], ends).handles.iter().map(|(handle, _, _)| *handle).collect::<Vec<_>>();
    let front: Vec<_> = Aspect::Side.handles().iter().copied().filter(|handle| !handle.is_rear()).collect();
    assert_eq!(front, Aspect::Top.handles());
    assert_eq!(handles(Ends::Front), front);
    assert_eq!(handles(Ends::Both), [Handle::WheelCentre, Handle::RearBlock]);
    assert_eq!(
        handles(Ends::Rear),
        [Handle::RearBlock, Handle::RearShackle, Handle::RearHanger, Handle::RearStop]
    );
}

/// What cannot be drawn is said, and what was measured stays in sight, to be taken hold of.
#[test]
fn what_is_amiss_is_said_beside_the_rear_as_measured() {
    let measured = with(&[], Ends::Rear);
    let short = with(&[Change::RearShackle(RearShackle { longer_mm: -80.0 })], Ends::Rear);
    assert!(short.description.contains("shackle"), "{}", short.description);
    near(at(&short, Handle::RearShackle).1, at(&measured, Handle::RearShackle).1, 1.5);
    let said = demo().edited(&Edit::RearDown(ProposalId(0), Some(25.4))).unwrap();
    let overlay = said.proposal(ProposalId(0)).unwrap().into();
    let said = drawn(&said.truck, overlay, Ends::Both, 0.0);
    assert!(said.description.contains("says how far its rear comes down"), "{}", said.description);
    let bare = demo().edited(&Edit::MeasureRear(RearField::Span, None)).unwrap();
    let bare = drawn(&bare.truck, Overlay::NOTHING, Ends::Rear, 0.0);
    assert!(bare.handles.is_empty() && bare.overflow.join(" ").contains("once its leaf spring"));
}

/// What of a picture's numbers carries the mark of a guess: each label's words, with a mark and without.
fn marked(scene: &Scene) -> [Vec<String>; 2] {
    let mut all = [Vec::new(), Vec::new()];
    for label in &scene.labels {
        let words: String = label.lines.iter().flatten().map(|run| format!("{run:?}")).collect();
        all[usize::from(!words.contains("~ "))].push(words);
    }
    all
}

/// A guessed block marks every number of the rear and what hangs on both ends; a guessed front its own and
/// those; and as often as it is written a guess is said.
#[test]
fn a_guess_at_either_end_keeps_its_mark() {
    let guess = Edit::ChangeSource(ProposalId(1), (ChangeKind::RearBlock, None, 0), Source::Assumed);
    let guessed = demo().edited(&guess).unwrap();
    let of = |design: &Design, ends, figures: &[Figure]| {
        let overlay = design.proposal(ProposalId(1)).unwrap().into();
        let scene = drawn_with(&design.truck, overlay, ends, 0.0, figures);
        let [with, without] = marked(&scene);
        assert_eq!(scene.description.matches("a guess, ").count(), with.len(), "{}", scene.description);
        (with.len(), without.len())
    };
    // Down, to the stop, shackle and joint; both frame heights, nose and lamp.
    assert_eq!(of(&demo(), Ends::Rear, &[]), (0, 4));
    assert_eq!(of(&guessed, Ends::Rear, &[]), (4, 0));
    assert_eq!(of(&demo(), Ends::Both, &[]), (0, 4));
    assert_eq!(of(&guessed, Ends::Both, &[]), (3, 1));
    assert_eq!(of(&demo(), Ends::Both, &[Figure::FRAME_HEIGHT]), (3, 1));
    assert_eq!(of(&demo(), Ends::Both, &[Figure::CASTER_GROUND]), (2, 2));
}

/// What is said of a picture, a sentence a number.
fn said(scene: &Scene) -> Vec<&str> {
    scene.description.split(". ").collect()
}

/// By hand, of the demo: 300 and 510 of frame, a lamp at 760 and 480 ahead of the axle, a wheelbase of 2690.
/// Two inches off the front alone take 50.8 (1 + 480/2690) off the lamp, 59.9, and atan(50.8/2690) off the nose.
#[test]
fn what_is_written_is_what_the_plan_makes_of_it() {
    let both = |changes: &[Change]| with(changes, Ends::Both);
    for (changes, wanted) in [
        (
            vec![SPINDLE],
            [
                "Frame height 9 and 13 sixteenths inches",
                "Rear frame height 20 and one sixteenth inches",
                "Nose down 1.1 degrees",
                "Headlamp, above the ground, 27 and 9 sixteenths inches",
            ],
        ),
        (
            vec![SPINDLE, BLOCK],
            [
                "Frame height 9 and 13 sixteenths inches",
                "Rear frame height 18 and one sixteenth inches",
                "Nose as it sits",
                "Headlamp, above the ground, 27 and 15 sixteenths inches",
            ],
        ),
        (
            vec![BLOCK],
            [
                "Frame height 11 and 13 sixteenths inches",
                "Rear frame height 18 and one sixteenth inches",
                "Nose up 1.1 degrees",
                "Headlamp, above the ground, 30 and one quarter inches",
            ],
        ),
    ] {
        let scene = both(&changes);
        for sentence in wanted {
            assert!(said(&scene).contains(&sentence), "{sentence} in {}", scene.description);
        }
    }
    // In another pose of the front than at rest its height alone is that of the picture.
    let moved = drawn(&demo().truck, (&[SPINDLE]).into(), Ends::Both, 30.0);
    assert_eq!(said(&moved).len(), 2, "{}", moved.description);
    // 118 less 50.8, and 12.7 of stop.
    let stop = Change::RearStop(RearStop { lower_mm: 12.7 });
    let rear = with(&[BLOCK, stop], Ends::Rear);
    for sentence in ["Rear frame down 2 inches", "To the rear bump stop 3 and one eighth inches"] {
        assert!(said(&rear).contains(&sentence), "{sentence} in {}", rear.description);
    }
}

/// How far the rear comes down may be said and made, alike; of one of which nobody knows how it stands the nose
/// holds if it stays up; and no angle is told by a length that was only drawn.
#[test]
fn what_is_not_known_is_not_told() {
    let laid = |design: &Design, ends| {
        let overlay = design.proposal(ProposalId(0)).unwrap().into();
        drawn(&design.truck, overlay, ends, 0.0).description
    };
    let block = demo().edited(&Edit::Set(ProposalId(0), BLOCK)).unwrap();
    let both_said = block.edited(&Edit::RearDown(ProposalId(0), Some(50.8))).unwrap();
    assert!(laid(&both_said, Ends::Both).contains("Rear frame height 18 and one sixteenth"));
    let zero = block.edited(&Edit::RearDown(ProposalId(0), Some(0.0))).unwrap();
    assert!(laid(&zero, Ends::Both).contains("says how far its rear comes down"));
    let open = demo().edited(&Edit::MeasureRear(RearField::FrameHeight, None)).unwrap();
    assert_eq!(laid(&open, Ends::Both).matches("if the rear stays up").count(), 2);
    assert!(!laid(&demo(), Ends::Both).contains("stays up"));
    let drawn_only = demo().edited(&Edit::MeasureRear(RearField::PinionLength, None)).unwrap();
    assert!(laid(&demo(), Ends::Rear).contains("Rear joint"));
    assert!(!laid(&drawn_only, Ends::Rear).contains("Rear joint"));
}
