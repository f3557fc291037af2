//! Steering by one relay rod: the mirrored corner, closed forms of the trapezium
//! seen from above, and what every linkage keeps.

use linkage::{ArmPoints, Corner, Hardpoints, Point3, Pose, Unreached, Vector3};
use study::{NoSteering, Relay, Rest, Stance, Steering, Turn, steer_sweep};
use truck::{Field, ProposalId, Side, demo};
use yardstick::budget::near;
use yardstick::generate::{Dice, pickup};

const RELAYS: [Relay; 3] = [
    Relay::Rack,
    Relay::Arms { length_mm: 140.0, ahead: true },
    Relay::Arms { length_mm: 120.0, ahead: false },
];

/// Both wheels of a truck whose corners are alike.
fn turn_of(corner: &Corner, relay: Relay, wheel_mm: f64, side_mm: f64) -> Result<Turn, Unreached> {
    Turn::between([corner, corner], relay, [wheel_mm, wheel_mm], side_mm)
}

fn mirrored(point: &Point3<f64>) -> Point3<f64> {
    Point3::new(point.x, -point.y, point.z)
}

/// The relay rod is one rigid bar: the arms keep their length, both ends move alike,
/// and the right tie rod, in its true place, keeps its length.
#[test]
fn the_right_corner_hangs_on_the_same_relay_rod() {
    let mut dice = Dice::of(51);
    let mut turned = 0;
    for _ in 0..200 {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        let points = sample.points;
        let rod = (points.tie_outer - points.tie_inner).norm();
        for relay in RELAYS {
            let side = dice.between(-70.0, 70.0);
            let height = points.wheel_centre.z + dice.between(-40.0, 40.0);
            let Ok(turn) = turn_of(&corner, relay, height, side) else { continue };
            let moved = relay.move_mm(side).unwrap();
            near(moved.y, side, 0.0, "sideways");
            if let Relay::Arms { length_mm, ahead } = relay {
                let pivot = Vector3::new(if ahead { length_mm } else { -length_mm }, 0.0, 0.0);
                near((moved - pivot).norm(), length_mm, 1e-10, "pitman arm");
            }
            let right_inner = mirrored(&points.tie_inner) + moved;
            near((mirrored(&turn.right.tie_outer) - right_inner).norm(), rod, 1e-9, "right tie rod");
            near((turn.left.tie_outer - (points.tie_inner + moved)).norm(), rod, 1e-9, "left tie rod");
            // The mirror of a turn to the left is a turn to the right.
            let back = turn_of(&corner, relay, height, -side).unwrap();
            near(back.left_rad, -turn.right_rad, 1e-12, "left against right");
            near(back.right_rad, -turn.left_rad, 1e-12, "right against left");
            turned += 1;
        }
    }
    assert!(turned > 400, "{turned}");
}

/// The angle in space between spin axis and steering axis belongs to the
/// knuckle: neither travel nor steer changes it.
#[test]
fn the_knuckle_keeps_its_angle() {
    let mut dice = Dice::of(52);
    for _ in 0..100 {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        let angle = |pose: &Pose| pose.spin.angle(&pose.knuckle.along);
        let rest = corner.at_height(sample.points.wheel_centre.z, Vector3::zeros()).unwrap();
        for relay in RELAYS {
            let height = sample.points.wheel_centre.z + dice.between(-50.0, 50.0);
            if let Ok(turn) = turn_of(&corner, relay, height, dice.between(-80.0, 80.0)) {
                near(angle(&turn.left), angle(&rest), 1e-12, "left");
                near(angle(&turn.right), angle(&rest), 1e-12, "right");
            }
        }
    }
}

/// A corner with an upright steering axis and a level tie rod, so that steering
/// is the plane figure of the textbooks.
fn upright(ball: (f64, f64), outer: (f64, f64), inner: (f64, f64)) -> Corner {
    let arm = |z: f64| ArmPoints {
        front: Point3::new(ball.0 + 100.0, 300.0, z),
        rear: Point3::new(ball.0 - 100.0, 300.0, z),
        ball: Point3::new(ball.0, ball.1, z),
    };
    let points = Hardpoints {
        lower: arm(200.0),
        upper: arm(450.0),
        wheel_centre: Point3::new(0.0, 700.0, 310.0),
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner: Point3::new(inner.0, inner.1, 260.0),
        tie_outer: Point3::new(outer.0, outer.1, 260.0),
    };
    Corner::of(&points, 310.0).unwrap()
}

/// The steering arm's angle seen from above by the law of cosines in the
/// triangle of axis, outer and inner end; `side` tells on which side of the
/// line from axis to inner end the arm stands.
fn by_cosines(axis: (f64, f64), arm: f64, rod: f64, inner: (f64, f64), side: f64) -> f64 {
    let (dx, dy) = (inner.0 - axis.0, inner.1 - axis.1);
    let base = libm::hypot(dx, dy);
    let cos = (arm * arm + base * base - rod * rod) / (2.0 * arm * base);
    libm::atan2(dy, dx) + side * libm::acos(cos)
}

/// The trapezium in the plane, rack and pitman, arms ahead of the axle and behind it.
#[test]
fn the_trapezium_by_the_law_of_cosines() {
    let mut dice = Dice::of(53);
    let mut compared = 0;
    for count in 0..200 {
        let ahead = if count % 2 == 0 { 1.0 } else { -1.0 };
        let ball = (dice.between(-10.0, 10.0), dice.between(630.0, 670.0));
        let outer = (ball.0 + ahead * dice.between(100.0, 150.0), ball.1 + dice.between(-30.0, 20.0));
        let inner = (outer.0 + dice.between(-20.0, 20.0), dice.between(300.0, 340.0));
        let corner = upright(ball, outer, inner);
        let arm = libm::hypot(outer.0 - ball.0, outer.1 - ball.1);
        let rod = libm::hypot(outer.0 - inner.0, outer.1 - inner.1);
        // From the axis to the inner end the arm ahead lies to the left, counted from x to y.
        let angle = |inner| by_cosines(ball, arm, rod, inner, ahead);
        let straight = angle(inner);
        let drawn = libm::atan2(outer.1 - ball.1, outer.0 - ball.0);
        near(libm::cos(straight - drawn), 1.0, 1e-12, "the figure itself");
        for relay in RELAYS {
            let side = dice.between(-60.0, 60.0);
            let Ok(turn) = turn_of(&corner, relay, 310.0, side) else { continue };
            let moved = relay.move_mm(side).unwrap();
            let left = angle((inner.0 + moved.x, inner.1 + moved.y)) - straight;
            let right = angle((inner.0 + moved.x, inner.1 - moved.y)) - straight;
            near(turn.left_rad, left, 1e-9, "left");
            near(turn.right_rad, -right, 1e-9, "right");
            compared += 1;
        }
    }
    assert!(compared > 500, "{compared}");
}

/// Both wheels' axes meet in the line of the rear axle where the outer wheel is
/// turned as the ideal says: ruler and string on the ground, 2690 mm wheelbase. The
/// wheels are upright, so that each stands on the point below its centre.
#[test]
fn the_ideal_circle_has_one_centre() {
    let corner = upright((0.0, 650.0), (-130.0, 630.0), (-130.0, 320.0));
    for side in [-55.0, -20.0, 20.0, 55.0] {
        let turn = turn_of(&corner, Relay::Rack, 310.0, side).unwrap();
        let (inner, outer) = turn.inner_outer_rad();
        assert!(inner > 0.0 && outer > 0.0);
        let ideal = turn.ideal_outer_rad(2690.0);
        // Seen so that every turn is one to the left.
        let (inside, outside) = if turn.left_rad > 0.0 {
            (turn.left.wheel_centre, mirrored(&turn.right.wheel_centre))
        } else {
            (turn.right.wheel_centre, mirrored(&turn.left.wheel_centre))
        };
        let (to_inside, to_outside) = (2690.0 + inside.x, 2690.0 + outside.x);
        let centre = inside.y + to_inside / libm::tan(inner);
        near(libm::atan2(to_outside, centre - outside.y), ideal, 1e-9, "one center");
        let radius = libm::hypot(to_outside, centre - outside.y);
        near(turn.circle_mm(2690.0, ideal).unwrap() / 2.0, radius, 1e-6, "radius");
        assert!((to_inside - to_outside).abs() > 10.0, "a turn carries the contacts apart");
        // A rack behind the axle and arms that point in at their ends: the inner wheel turns more.
        assert!(inner > outer, "{inner} {outer}");
    }
    let straight = turn_of(&corner, Relay::Rack, 310.0, 0.0).unwrap();
    near(straight.ideal_outer_rad(2690.0), 0.0, 1e-12, "straight ahead");
    assert_eq!(straight.circle_mm(2690.0, 0.0), None);
}

/// A heading leads to the relay rod's place and back; where none does, the nearest
/// is what a walk along the relay rod finds.
#[test]
fn headings_are_found_or_the_nearest_is_named() {
    let mut dice = Dice::of(54);
    let (mut met, mut missed) = (0, 0);
    for count in 0..60 {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        let relay = RELAYS[count % 3];
        let wanted = dice.between(-1.5, 1.5);
        let height = sample.points.wheel_centre.z + dice.between(-40.0, 40.0);
        match relay.at_heading(&corner, height, wanted) {
            Ok((side, pose)) => {
                near(pose.heading_rad(), wanted, 1e-9, "heading");
                let again = corner.at_height(height, relay.move_mm(side).unwrap()).unwrap();
                near(again.heading_rad(), wanted, 1e-9, "at the relay rod's place");
                met += 1;
            }
            Err(Unreached::Heading { nearest_rad }) => {
                let off = |side: f64| {
                    let pose = corner.at_height(height, relay.move_mm(side)?).ok()?;
                    Some((pose.heading_rad() - wanted).abs())
                };
                // Out from the middle as far as each step still brings it
                // nearer, and on from there in ever smaller ones.
                let walked = [1.0, -1.0].map(|way| {
                    let (mut side, mut least) = (0.0, off(0.0).unwrap());
                    for step in [0.5, 0.02, 1e-3, 1e-5, 1e-7] {
                        while let Some(next) = off(side + way * step).filter(|next| *next < least) {
                            (side, least) = (side + way * step, next);
                        }
                    }
                    least
                });
                near((nearest_rad - wanted).abs(), walked[0].min(walked[1]), 1e-4, "nearest");
                missed += 1;
            }
            Err(other) => panic!("{other:?}"),
        }
    }
    assert!(met > 20 && missed > 5, "{met} {missed}");
}

/// The locks are those that were measured, the share of the lock leads back to
/// its heading, and a proposal's relay rod goes as far as the measured truck's.
#[test]
fn locks_are_as_measured() {
    let design = demo();
    let rest = Rest::of(design.as_measured()).unwrap();
    let steering = Steering::of(&rest).unwrap();
    let measured = &design.truck.steering;
    let headings = [(1.0, measured.lock_left_rad.unwrap()), (-1.0, -measured.lock_right_rad.unwrap())];
    for (steer, heading_rad) in headings {
        near(steering.pose(&rest, 0.0, steer).unwrap().heading_rad(), heading_rad, 1e-9, "lock");
        near(steering.steer_at(&rest, 0.5 * heading_rad).abs(), 0.5, 0.1, "about half of the way");
        let half = steering.steer_at(&rest, 0.5 * heading_rad);
        near(steering.pose(&rest, 0.0, half).unwrap().heading_rad(), 0.5 * heading_rad, 1e-8, "back");
        near(steering.steer_at(&rest, 3.0 * heading_rad), steer, 0.0, "beyond the lock");
    }
    near(steering.left.heading_rad, headings[0].1, 1e-9, "left");
    assert_eq!((steering.left.short_of_rad, steering.right.short_of_rad), (None, None));
    let lowered = Rest::of(design.fitted(ProposalId(0)).unwrap()).unwrap();
    let after = Steering::of(&lowered).unwrap();
    near(after.side_mm(1.0), steering.side_mm(1.0), 1e-12, "the relay rod's way to the left");
    near(after.side_mm(-1.0), steering.side_mm(-1.0), 1e-12, "the relay rod's way to the right");
}

/// What is not stated is named; a lock that no linkage reaches is the nearest, and says so.
#[test]
fn what_is_not_stated_is_named() {
    let mut truck = demo().truck;
    let at = |truck: &truck::Truck| Steering::of(&Rest::of(truck::Fitted::as_measured(truck)).unwrap());
    truck.steering.lock_left_rad = Some(60_f64.to_radians());
    // Arms too short for it: the relay rod goes no farther than they are long.
    truck.steering.pitman_mm = Some(40.0);
    let short = at(&truck).unwrap().left;
    assert_eq!(short.short_of_rad, Some(60_f64.to_radians()));
    assert!(short.heading_rad > 0.1 && short.heading_rad < 60_f64.to_radians());
    near(short.side_mm.abs(), 40.0, 1e-3, "as far as the arms");
    truck.steering.lock_right_rad = None;
    assert_eq!(at(&truck), Err(NoSteering::NotStated(vec![Field::LockRight])));
    truck.steering.pitman_mm = None;
    assert_eq!(at(&truck), Err(NoSteering::NotStated(vec![Field::PitmanLength])));
    truck.steering.kind = None;
    assert_eq!(at(&truck), Err(NoSteering::NotStated(vec![Field::SteeringKind])));
}

/// Scrub radius and trail from lock to lock by ruler and string: where the line
/// through both balls meets the ground, seen from the contact along the wheel and across it.
#[test]
fn scrub_and_trail_against_steer() {
    let rest = Stance::laid(&demo().truck, &[]).unwrap().on(Side::Left);
    let steering = Steering::of(&rest).unwrap();
    for travel_mm in [0.0, 35.0] {
        let readings = steer_sweep(&rest, &steering, travel_mm, 41);
        assert_eq!(readings.len(), 41);
        assert!(readings.is_sorted_by(|a, b| a.pose.heading_rad() < b.pose.heading_rad()));
        for reading in &readings {
            let Pose { lower_ball: low, upper_ball: high, spin, .. } = reading.pose;
            let contact = reading.attitude.contact;
            let foot = low + (high - low) * ((contact.z - low.z) / (high.z - low.z));
            let ahead = Vector3::new(spin.y, -spin.x, 0.0).normalize();
            let across = Vector3::new(spin.x, spin.y, 0.0).normalize();
            near((foot - contact).dot(&ahead), reading.attitude.trail_mm, 1e-9, "trail");
            near((contact - foot).dot(&across), reading.attitude.scrub_radius_mm, 1e-9, "scrub radius");
        }
    }
    let at_rest = steer_sweep(&rest, &steering, 0.0, 41);
    near(at_rest[0].pose.heading_rad(), steering.right.heading_rad, 1e-12, "right lock");
    near(at_rest[40].pose.heading_rad(), steering.left.heading_rad, 1e-12, "left lock");
    near(at_rest[20].attitude.trail_mm, rest.attitude().trail_mm, 1e-9, "straight ahead");
}
