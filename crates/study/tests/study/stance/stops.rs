//! What ends the travel: stops that hold a truck its spring does not, stops
//! that come nearer, and trucks that cannot stand at all.

use super::{as_measured, rest, sprung_trucks};
use linkage::{Point3, Vector3};
use study::{HeldBy, NoRest, Rest, SpringError, travel_left};
use truck::{Arm, BarAdjuster, Change, CutCoil, MovedPivot, Place, SpringKind, Truck, demo, fit};
use yardstick::budget::near;

fn turned(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

#[test]
fn a_spring_let_right_down_rests_on_its_stop() {
    let truck = demo().truck;
    let down = rest(&truck, &[turned(-60.0)]);
    assert_eq!(down.held_by, HeldBy::BumpStop);
    near(down.pose.lower_arm_rad, down.stops.solid_rad, 0.0, "solid");
    let left = travel_left(&down);
    near(left.solid_mm, 0.0, 1e-9, "nothing left");
    near(left.bump.travel_mm, 0.0, 0.0, "nothing left");
    assert!(left.touch_mm < -10.0, "{left:?}");
    let mut truck = truck;
    truck.spring.kind = SpringKind::Coil;
    assert_eq!(rest(&truck, &[Change::CutCoil(CutCoil { coils: 6.0 })]).held_by, HeldBy::BumpStop);
}

#[test]
fn a_spring_wound_right_up_hangs_on_its_stop() {
    let up = rest(&demo().truck, &[turned(60.0)]);
    assert_eq!(up.held_by, HeldBy::DroopStop);
    near(travel_left(&up).droop_stop_mm, 0.0, 1e-9, "nothing left");
    near(up.ground_mm, -demo().truck.stops.droop_mm, 0.5, "as high as it hangs");
}

/// Between first touch and solid the spring still balances the load.
#[test]
fn a_squeezed_stop_is_told_from_a_free_one() {
    let truck = demo().truck;
    let mut seen = Vec::new();
    for turns in 0..=40 {
        let rest = rest(&truck, &[turned(-f64::from(turns))]);
        let angle = rest.pose.lower_arm_rad;
        let expected = if angle < rest.stops.touch_rad {
            HeldBy::Spring
        } else if angle < rest.stops.solid_rad {
            HeldBy::SpringAndStop
        } else {
            HeldBy::BumpStop
        };
        assert_eq!(rest.held_by, expected, "{turns} turns out");
        seen.push(rest.held_by);
    }
    seen.dedup();
    assert_eq!(seen, [HeldBy::Spring, HeldBy::SpringAndStop, HeldBy::BumpStop]);
}

/// As measured, the stop is met when the arm has turned by gap over radius, and
/// the wheel hangs as far down as was measured.
#[test]
fn the_stops_as_measured() {
    for (name, truck) in sprung_trucks() {
        let rest = as_measured(&truck);
        let stops = &truck.stops;
        let turn = stops.bump_gap_mm / stops.bump_radius_mm;
        near(rest.stops.touch_rad - rest.pose.lower_arm_rad, turn, 1e-12, &name);
        let squash = stops.bump_squash_mm / stops.bump_radius_mm;
        near(rest.stops.solid_rad - rest.stops.touch_rad, squash, 1e-12, &name);
        near(travel_left(&rest).droop_stop_mm, stops.droop_mm, 1e-9, &name);
    }
}

/// A lower arm moved up on the body by less than the gap, its angle the same,
/// has come nearer to the stop on the body by that much: gap and turn follow,
/// for a stop that is met square to the arm.
#[test]
fn raised_pivots_take_the_arm_to_its_stop() {
    let mut truck = demo().truck;
    let up_mm = 10.0;
    let moved = |truck: &Truck, up_mm: f64| {
        let by_mm = Vector3::new(0.0, 0.0, up_mm);
        rest(truck, &[Change::MovedPivot(MovedPivot { place: Place::LowerArm, by_mm })])
    };
    let slope = as_measured(&truck).corner.measured_angle_rad();
    let raised = moved(&truck, up_mm).stops.touch_rad;
    truck.stops.bump_gap_mm -= up_mm * libm::cos(slope);
    near(raised, as_measured(&truck).stops.touch_rad, 1e-4, "touch");
    // Moved along the axis the arm comes no nearer.
    let arm = &demo().truck.points.lower;
    let along = (arm.front - arm.rear).normalize() * 20.0;
    let slid = Change::MovedPivot(MovedPivot { place: Place::LowerArm, by_mm: along });
    near(
        rest(&demo().truck, &[slid]).stops.touch_rad,
        as_measured(&demo().truck).stops.touch_rad,
        1e-12,
        "along",
    );
}

fn sentence(truck: &Truck, changes: &[Change]) -> (NoRest, String) {
    let why = Rest::of(fit(truck, changes).unwrap()).unwrap_err();
    let text = why.to_string();
    assert!(text.len() > 15 && text.is_ascii() && !text.contains("NaN"), "{text}");
    (why, text)
}

#[test]
fn parts_that_do_not_meet_say_so() {
    let away = |place, y: f64| Change::MovedPivot(MovedPivot { place, by_mm: Vector3::new(0.0, y, 0.0) });
    let truck = demo().truck;
    let (why, text) = sentence(&truck, &[away(Place::UpperArm, -300.0)]);
    assert!(matches!(why, NoRest::NeverCloses(_)), "{why:?}");
    assert!(text.contains("upper ball joint"), "{text}");
    let mut truck = truck;
    truck.stops.bump_gap_mm = 0.0;
    truck.stops.bump_squash_mm = 0.0;
    truck.stops.droop_mm = 0.0;
    assert_eq!(sentence(&truck, &[]).0, NoRest::NoTravel);
}

/// Pivots and ball changed over are no arm that a truck stands on, whatever its stops.
#[test]
fn an_arm_that_points_inboard_is_called_so() {
    let mut truck = demo().truck;
    let lower = &mut truck.points.lower;
    for pivot in [&mut lower.front, &mut lower.rear] {
        pivot.y = 2.0 * 655.0 - pivot.y;
    }
    let (why, text) = sentence(&truck, &[]);
    assert_eq!(why, NoRest::PointsInboard);
    assert!(text.contains("lower arm") && text.contains("farther out than its ball"), "{text}");
}

/// A coil on the hinge line does nothing, one under the arm would have to pull.
#[test]
fn springs_that_cannot_carry_say_so() {
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::Coil;
    let lower = truck.points.lower;
    let idle = NoRest::Spring(SpringError::Idle);
    let mut on_axis = truck.clone();
    on_axis.spring.coil.arm_seat = nalgebra::center(&lower.front, &lower.rear);
    assert_eq!(sentence(&on_axis, &[]).0, idle);
    let mut pulling = truck.clone();
    pulling.spring.coil.body_seat = Point3::new(0.0, 470.0, 40.0);
    assert_eq!(sentence(&pulling, &[]).0, idle);
    let mut in_line = truck.clone();
    in_line.spring.coil.body_seat = lower.ball + (lower.ball - lower.rear);
    in_line.spring.coil.arm_seat = lower.ball;
    assert_eq!(sentence(&in_line, &[]).0, idle);
    let mut light = truck;
    light.load.unsprung_n = light.load.corner_n;
    assert_eq!(sentence(&light, &[]).0, NoRest::Spring(SpringError::NothingSprung));
}

/// An upper arm that points inboard counts its angle across the half turn;
/// its bar does not jump there.
#[test]
fn a_bar_on_an_arm_that_points_inboard() {
    let mut truck = demo().truck;
    truck.spring.arm = Arm::Upper;
    let upper = &mut truck.points.upper;
    let out = Vector3::new(0.0, 2.0 * (upper.ball.y - upper.front.y), 0.0);
    upper.front += out;
    upper.rear += out;
    let rest = as_measured(&truck);
    let mut efforts = Vec::new();
    let mut sides = [false; 2];
    for mm in -40..=40 {
        let pose = rest.at_travel(f64::from(mm)).unwrap();
        sides[usize::from(rest.corner.upper_arm_rad(&pose) > 0.0)] = true;
        efforts.push(rest.spring_at(&pose).unwrap().0);
    }
    assert_eq!(sides, [true; 2], "the half turn is crossed");
    // A jump would be a whole turn of the bar; a millimetre of wheel is half a degree.
    let turn = std::f64::consts::TAU * truck.spring.bar_rate();
    for pair in efforts.windows(2) {
        assert!((pair[1] - pair[0]).abs() < turn / 100.0, "{pair:?}");
    }
}
