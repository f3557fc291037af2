//! The laws of the front view, as any chassis text gives them.

use super::{at_rest, cases, cubes};
use linkage::{ArmPoints, Corner, Hardpoints, Point3, Vector3, drawing_board};
use proptest::prelude::*;
use yardstick::generate::{Sample, pickup, planar};

/// Asserts agreement to a part of the larger of 1 and the value wanted.
fn close(got: f64, want: f64, part: f64, what: &str) {
    let within = part * want.abs().max(1.0);
    assert!((got - want).abs() <= within, "{what}: {got} is not {want}");
}

proptest! {
    #![proptest_config(cases(200))]

    /// With the tie rod's line through it too, the knuckle turns about the point
    /// where the lines of the arms meet, and everything in front view follows.
    #[test]
    fn the_knuckle_turns_about_the_point_where_the_lines_meet(cube in cubes()) {
        let (sample, (y, z)) = planar(&cube);
        let corner = sample.corner();
        let pose = at_rest(&corner);
        let contact = pose.contact(sample.loaded_radius_mm);
        let half_track = contact.y;
        let z = z - contact.z;
        let seen = corner.instant_centre(&pose).unwrap();
        let centre = seen.centre.unwrap();
        close(centre.y, y, 1e-9, "instant center, y");
        close(centre.z - contact.z, z, 1e-9, "instant center above the ground");
        let roll_centre = z * half_track / (half_track - y);
        close(seen.roll_centre_mm.unwrap(), roll_centre, 1e-9, "roll center");
        let mounts = corner.mounts();
        let board = drawing_board(&pose, &mounts.lower, &mounts.upper, sample.loaded_radius_mm);
        close(board.roll_centre_mm.unwrap(), roll_centre, 1e-9, "on the board");
        // The top of the wheel goes in as it rises about a point inboard.
        let rates = corner.travel_rates(&pose).unwrap();
        let swing_arm = pose.wheel_centre.y - y;
        close(rates.camber_rad * swing_arm, -1.0, 1e-9, "camber rate");
        close(rates.toe_rad, 0.0, 1e-12, "bump steer");
        let scrub = corner.bump_motion(&pose).unwrap().at(&contact);
        close(scrub.y / scrub.z, roll_centre / half_track, 1e-9, "contact's scrub");
    }

    /// Parallel arms and a parallel tie rod, whatever their lengths: the centre
    /// lies at infinity and the line to it rises as the arms do.
    #[test]
    fn parallel_arms_put_the_centre_at_infinity(cube in cubes(), slope in -0.3..0.3) {
        let (mut sample, _) = planar(&cube);
        let points = &mut sample.points;
        for arm in [&mut points.lower, &mut points.upper] {
            arm.front.z = arm.ball.z - slope * (arm.ball.y - arm.front.y);
            arm.rear.z = arm.front.z;
        }
        points.tie_inner = points.tie_outer - Vector3::new(0.0, 1.0, slope) * 320.0;
        let corner = sample.corner();
        let pose = at_rest(&corner);
        let seen = corner.instant_centre(&pose).unwrap();
        let half_track = pose.contact(sample.loaded_radius_mm).y;
        close(seen.roll_centre_mm.unwrap(), -slope * half_track, 1e-9, "roll center");
        prop_assert!(seen.centre.is_none_or(|centre| libm::hypot(centre.y, centre.z) > 1e9));
        let rates = corner.travel_rates(&pose).unwrap();
        prop_assert!(rates.camber_rad.abs() < 1e-12);
    }

    /// Equal, parallel arms on parallel axes and an equal, parallel tie rod only
    /// carry the knuckle along: no angle of it changes, over any travel.
    #[test]
    fn equal_parallel_arms_change_no_angle(cube in cubes(), turn in -0.6..0.6) {
        let sample = parallelogram(&cube);
        let corner = sample.corner();
        let rest = corner.attitude(&at_rest(&corner));
        let angle = corner.measured_angle_rad() + turn;
        let pose = corner.pose(angle, Vector3::zeros()).unwrap();
        let read = corner.attitude(&pose);
        for (now, was) in [
            (read.camber_rad, rest.camber_rad),
            (read.toe_rad, rest.toe_rad),
            (read.caster_rad, rest.caster_rad),
            (read.inclination_rad, rest.inclination_rad),
        ] {
            prop_assert!((now - was).abs() < 1e-12, "{now} {was}");
        }
        let roll_centre = corner.instant_centre(&pose).unwrap().roll_centre_mm.unwrap();
        let slope = libm::tan(angle);
        close(roll_centre, -slope * read.half_track_mm(), 1e-9, "roll center");
    }
}

/// Arms and tie rod equal and parallel, on axes along `x`, between points of a pickup's knuckle.
fn parallelogram(cube: &[f64; 24]) -> Sample {
    let mut sample = pickup(cube);
    let points = &mut sample.points;
    let along = Vector3::new(0.0, 340.0, 340.0 * (cube[0] - 0.5) * 0.4);
    for arm in [&mut points.lower, &mut points.upper] {
        let pivot = arm.ball - along;
        arm.front = pivot + Vector3::x() * 110.0;
        arm.rear = pivot - Vector3::x() * 90.0;
    }
    points.tie_inner = points.tie_outer - along;
    sample
}

#[test]
fn level_equal_parallel_arms_put_the_roll_centre_on_the_ground() {
    let level = Vector3::new(0.0, 350.0, 0.0);
    let arm = |ball: Point3<f64>| ArmPoints {
        front: ball - level + Vector3::x() * 100.0,
        rear: ball - level - Vector3::x() * 100.0,
        ball,
    };
    let tie_outer = Point3::new(-130.0, 660.0, 290.0);
    let points = Hardpoints {
        lower: arm(Point3::new(0.0, 660.0, 240.0)),
        upper: arm(Point3::new(-15.0, 625.0, 490.0)),
        wheel_centre: Point3::new(0.0, 715.0, 310.0),
        camber_rad: 0.01,
        toe_rad: 0.0,
        tie_inner: tie_outer - level,
        tie_outer,
    };
    let corner = Corner::of(&points, 310.0).unwrap();
    let seen = corner.instant_centre(&at_rest(&corner)).unwrap();
    close(seen.roll_centre_mm.unwrap(), 0.0, 1e-12, "roll center");
    assert_eq!(seen.centre, None);
}
