//! What a truck that is set up stands on, and the lowest height that leaves it room.

use study::{
    Alignment, CasterBy, Clearances, Footing, HeldBy, LEAST_BUMP_MM, Limiter, Pair, Stance, StandingSide,
    Steps, Target, alignment, setting, travel_left, travel_left_of,
};
use truck::{Change, DroppedSpindle, Edit, Field, Side, Source, SpringKind, Truck, demo};
use yardstick::budget::near;

const INCH: f64 = 25.4;

pub(crate) fn rest(truck: &Truck, changes: &[Change]) -> StandingSide {
    Stance::laid(truck, changes).unwrap().on(Side::Left)
}

pub(crate) fn of_kind(kind: SpringKind) -> Truck {
    let mut truck = demo().truck;
    truck.spring.kind = kind;
    truck
}

fn spindle() -> Change {
    Change::DroppedSpindle(DroppedSpindle { drop_mm: 2.0 * INCH, ..DroppedSpindle::default() })
}

/// Set up for a height, with camber, caster and toe as they read now.
fn at(truck: &Truck, changes: &[Change], height_mm: f64, steps: &Steps, bump_mm: f64) -> Alignment {
    let now = Target::of(&rest(truck, changes));
    let target = Target { ride_height_mm: height_mm, ..now };
    alignment(truck, Side::Left, changes, &target, CasterBy::Shims, steps, bump_mm).unwrap()
}

/// The bump travel of what is laid on the sketch, with the settled search of contacts.
fn bump_mm(truck: &Truck, changes: &[Change]) -> f64 {
    let rest = rest(truck, changes);
    travel_left_of(&rest, &Clearances::of(&rest, Clearances::SETTLED)).bump.travel_mm
}

/// Ordered down onto its stop it says what it stands on, and offers a height. Set up at
/// that height it has the travel that was wished, read anew from what is laid on the
/// sketch; a few marks lower it has not.
#[test]
fn the_lowest_height_leaves_the_travel_and_a_lower_one_does_not() {
    // On the spindle the tire meets the fender before the stop; a coil has no bolt.
    for (kind, changes, wished) in [
        (SpringKind::TorsionBar, vec![], INCH),
        (SpringKind::TorsionBar, vec![], 0.5 * INCH),
        (SpringKind::TorsionBar, vec![spindle()], 1.5 * INCH),
        (SpringKind::Coil, vec![], INCH),
        (SpringKind::Coil, vec![spindle()], INCH),
    ] {
        let steps = if changes.is_empty() { Steps::INCHES } else { Steps::MILLIMETRES };
        let truck = of_kind(kind);
        let deep = at(&truck, &changes, 190.0, &steps, wished);
        assert!(deep.is_short() && !deep.footing.leaves(wished));
        let lowest = deep.lowest_height_mm.unwrap();
        let marks = lowest / steps.tape_mm;
        near(marks, marks.round(), 1e-9, "a mark of the tape");
        let there = at(&truck, &changes, lowest, &steps, wished);
        assert!(there.footing.leaves(wished), "{:?} at {lowest}", there.footing);
        let travel = bump_mm(&truck, &there.setting.changes);
        near(travel, there.footing.bump.travel_mm, 0.3, "two searches");
        // Half a quarter turn of 1.5 mm on a lever of 152 mm, half a spacer, a mark.
        assert!((wished - 0.05..wished + 3.0 * steps.tape_mm).contains(&travel), "{travel} at {lowest}");
        let now = Target::of(&rest(&truck, &changes));
        let lower = Target { ride_height_mm: lowest - 3.0 * steps.tape_mm, ..now };
        let lower = setting(&truck, Side::Left, &changes, &lower, CasterBy::Shims, &steps).unwrap();
        assert!(bump_mm(&truck, &lower.changes) < wished, "{lowest}");
    }
}

/// Where the bump stop ends the travel, stop and wheel are fixed to the body: as far as the
/// body comes down, the wheel has less to rise. Within what shims move the wheel for camber.
#[test]
fn a_body_that_comes_down_takes_its_travel_with_it() {
    let truck = demo().truck;
    let before = rest(&truck, &[]);
    let touch = travel_left(&before).touch_mm;
    for wished in [INCH, 38.0] {
        let by_hand = before.ride_height_mm() - (touch - wished);
        let found = at(&truck, &[], 200.0, &Steps::MILLIMETRES, wished);
        let lowest = found.lowest_height_mm.unwrap();
        assert!((by_hand - 0.5..by_hand + 2.6).contains(&lowest), "{lowest} against {by_hand}");
    }
}

/// What the answer carries is what the truck as set does: spring, stop squeezed, stop solid.
#[test]
fn it_says_what_it_stands_on() {
    let truck = demo().truck;
    let before = rest(&truck, &[]);
    let high = before.ride_height_mm();
    let touch = travel_left(&before).touch_mm;
    for (lower, held_by, short) in [
        (0.0, HeldBy::Spring, false),
        (touch - INCH - 5.0, HeldBy::Spring, false),
        (touch - INCH + 5.0, HeldBy::Spring, true),
        (touch + 6.0, HeldBy::SpringAndStop, true),
        (touch + 60.0, HeldBy::BumpStop, true),
    ] {
        let found = at(&truck, &[], high - lower, &Steps::INCHES, LEAST_BUMP_MM);
        assert_eq!((found.footing.held_by, found.is_short()), (held_by, short), "{lower} mm lower");
        assert_eq!(found.lowest_height_mm.is_some(), short, "{lower} mm lower");
        assert_eq!(found.footing, Footing::of(&rest(&truck, &found.setting.changes)));
        if held_by != HeldBy::Spring {
            near(found.footing.bump.travel_mm, 0.0, 0.0, "no travel on a stop");
        }
    }
    // Raised until the wheel hangs.
    let mut hung = truck.clone();
    hung.stops.droop_mm = 10.0;
    let found = at(&hung, &[], high + 40.0, &Steps::INCHES, LEAST_BUMP_MM);
    assert_eq!(found.footing.held_by, HeldBy::DroopStop);
    assert!(found.is_short());
}

/// The first of what meets is said, whatever ends the travel: a lip a quarter of an inch
/// lower is met that much sooner.
#[test]
fn the_first_hit_is_the_first() {
    let mut truck = demo().truck;
    assert_eq!(at(&truck, &[], 300.0, &Steps::INCHES, INCH).footing.first_contact, None);
    let mut last = f64::INFINITY;
    for lip in [690.0, 683.65, 677.3] {
        truck.body.fender.lip_z_mm = lip;
        let footing = at(&truck, &[], 300.0, &Steps::INCHES, INCH).footing;
        let (pair, travel) = footing.first_contact.unwrap();
        assert_eq!(pair, Pair::TireFender);
        if footing.bump.by == Limiter::Contact(pair) {
            near(footing.bump.travel_mm, travel, 0.0, "the travel ends there");
        }
        assert!(travel < last - 4.0, "{travel} after {last}");
        last = travel;
    }
    // Where arms as thick as they please meet the frame too, it is the sooner of the two.
    let mut several = 0;
    for thickness_mm in [30.0, 40.0, 50.0, 60.0, 70.0, 80.0] {
        truck.thickness.lower_arm_mm = Some(thickness_mm);
        let contacts = travel_left(&rest(&truck, &[])).contacts;
        let sooner = contacts.iter().map(|contact| contact.1).fold(f64::INFINITY, f64::min);
        let later = contacts.iter().map(|contact| contact.1).fold(0.0, f64::max);
        several += usize::from(later > sooner + 1.0);
        let found = at(&truck, &[], 300.0, &Steps::INCHES, INCH).footing.first_contact;
        near(found.unwrap().1, sooner, 1e-9, "the sooner");
    }
    assert!(several > 0, "two things that meet, one after the other");
}

/// Less than an inch is said even to one who wishes less; what he wishes is then met.
#[test]
fn an_inch_is_said_whatever_is_wished() {
    let truck = demo().truck;
    let before = rest(&truck, &[]);
    let height = before.ride_height_mm() - travel_left(&before).touch_mm + 0.75 * INCH;
    let found = at(&truck, &[], height, &Steps::INCHES, 0.5 * INCH);
    assert!(found.is_short() && found.footing.leaves(0.5 * INCH));
    assert_eq!(found.lowest_height_mm, None);
    let more = at(&truck, &[], before.ride_height_mm(), &Steps::INCHES, 2.0 * INCH);
    assert!(!more.is_short());
}

/// No height is offered where none leaves what is wished, or nothing sets it.
#[test]
fn where_no_height_leaves_it_none_is_offered() {
    let truck = demo().truck;
    let found = at(&truck, &[], 280.0, &Steps::INCHES, 12.0 * INCH);
    assert!(found.is_short());
    assert_eq!(found.lowest_height_mm, None);
    let plain = of_kind(SpringKind::WheelRate);
    assert_eq!(at(&plain, &[], 280.0, &Steps::INCHES, 4.0 * INCH).lowest_height_mm, None);
}

/// A stop that nobody has measured leaves its mark on the answer.
#[test]
fn a_guessed_stop_makes_it_a_guess() {
    let design = demo();
    assert!(!at(&design.truck, &[], 290.0, &Steps::INCHES, INCH).guessed);
    let mut truck = design.truck.clone();
    truck.sources.set(Field::BumpGap, Source::Assumed);
    assert!(at(&truck, &[], 290.0, &Steps::INCHES, INCH).guessed);
    let own = design.edited(&Edit::OwnTruck).unwrap().truck;
    assert!(at(&own, &[], 290.0, &Steps::INCHES, INCH).guessed);
}
