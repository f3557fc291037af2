//! What no motion of a corner, and no other way of looking at it, can change.

use super::{at_rest, cases, cubes, lengths, measured_lengths, points_of, wander};
use linkage::{Attitude, Corner, Hardpoints, Point3, Pose, Vector3};
use nalgebra::Rotation3;
use proptest::prelude::*;
use yardstick::generate::{Dice, Sample, pickup};

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn every_member_keeps_its_length(cube in cubes(), seed: u64) {
        let sample = pickup(&cube);
        let poses = wander(&sample.corner(), &mut Dice::of(seed), 20);
        prop_assert!(poses.len() > 10, "{} poses closed", poses.len());
        let measured = measured_lengths(&sample.points);
        for pose in &poses {
            for ((name, now), (_, was)) in lengths(&sample.points, pose).into_iter().zip(measured) {
                prop_assert!((now - was).abs() < 1e-10, "{name}: {now} was {was}");
            }
        }
    }

    /// The angle in space between spin axis and steering axis belongs to the knuckle.
    #[test]
    fn spin_axis_and_steering_axis_keep_their_angle(cube in cubes(), seed: u64) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let between = |pose: &Pose| {
            let axis = pose.upper_ball - pose.lower_ball;
            libm::atan2(axis.cross(&pose.spin).norm(), axis.dot(&pose.spin)).to_degrees()
        };
        let rest = between(&at_rest(&corner));
        for pose in wander(&corner, &mut Dice::of(seed), 20) {
            prop_assert!((between(&pose) - rest).abs() < 1e-10);
            prop_assert!((pose.spin.norm() - 1.0).abs() < 1e-14);
        }
    }

    /// Planted answers: the points of any pose, taken as measured, make a corner
    /// with the same poses everywhere.
    #[test]
    fn a_corner_rebuilt_from_any_of_its_poses_is_the_same(cube in cubes(), seed: u64) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let mut dice = Dice::of(seed);
        let poses = wander(&corner, &mut dice, 4);
        for built in &poses {
            let again = Corner::of(&measured_in(&sample.points, built), sample.loaded_radius_mm);
            let again = again.unwrap();
            prop_assert!((again.measured_angle_rad() - built.lower_arm_rad).abs() < 1e-12);
            for pose in &poses {
                let relay = pose.tie_inner - built.tie_inner;
                let planted = again.pose(pose.lower_arm_rad, relay).unwrap();
                for (got, want) in points_of(&planted).iter().zip(points_of(pose)) {
                    prop_assert!((got - want).norm() < 1e-9, "{got} is not {want}");
                }
                prop_assert!((planted.spin - pose.spin).norm() < 1e-11);
            }
        }
    }

    /// The truck turned end for end in a mirror: front becomes rear, left stays left.
    #[test]
    fn a_mirror_from_front_to_rear(cube in cubes(), seed: u64) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let flip = |p: Point3<f64>| Point3::new(-p.x, p.y, p.z);
        let mut points = moved(&sample.points, flip);
        points.toe_rad = -sample.points.toe_rad;
        let mirrored = Corner::of(&points, sample.loaded_radius_mm).unwrap();
        for pose in wander(&corner, &mut Dice::of(seed), 10) {
            let relay = relay_of(&sample, &pose);
            let relay = Vector3::new(-relay.x, relay.y, relay.z);
            let image = mirrored.pose(pose.lower_arm_rad, relay).unwrap();
            for (got, want) in points_of(&image).into_iter().zip(points_of(&pose).map(flip)) {
                prop_assert!((got - want).norm() < 1e-9, "{got} is not {want}");
            }
            let (was, is) = (corner.attitude(&pose), mirrored.attitude(&image));
            same_reading(&is, &Attitude {
                toe_rad: -was.toe_rad,
                caster_rad: -was.caster_rad,
                trail_mm: -was.trail_mm,
                contact: flip(was.contact),
                ..was
            })?;
            let (was, is) = (corner.travel_rates(&pose), mirrored.travel_rates(&image));
            let (was, is) = (was.unwrap(), is.unwrap());
            prop_assert!((is.camber_rad - was.camber_rad).abs() < 1e-12);
            prop_assert!((is.toe_rad + was.toe_rad).abs() < 1e-12);
            let roll = |corner: &Corner, pose| corner.instant_centre(pose).unwrap().roll_centre_mm;
            let apart = roll(&mirrored, &image).unwrap() - roll(&corner, &pose).unwrap();
            prop_assert!(apart.abs() < 1e-6, "{apart}");
        }
    }

    /// The truck in a mirror from side to side: the right corner's points, read as
    /// a left one's whose arms point the other way.
    #[test]
    fn a_mirror_from_side_to_side(cube in cubes(), seed: u64) {
        let sample = pickup(&cube);
        let flip = |p: Point3<f64>| Point3::new(p.x, -p.y, p.z);
        let mut points = moved(&sample.points, flip);
        // The line of the spin axis in the mirror, named from its other end.
        points.camber_rad = -sample.points.camber_rad;
        points.toe_rad = -sample.points.toe_rad;
        let mirrored = Corner::of(&points, sample.loaded_radius_mm).unwrap();
        for pose in wander(&sample.corner(), &mut Dice::of(seed), 10) {
            let relay = relay_of(&sample, &pose);
            let angle = std::f64::consts::PI - pose.lower_arm_rad;
            let image = mirrored.pose(angle, Vector3::new(relay.x, -relay.y, relay.z)).unwrap();
            for (got, want) in points_of(&image).into_iter().zip(points_of(&pose).map(flip)) {
                prop_assert!((got - want).norm() < 1e-9, "{got} is not {want}");
            }
            let spin = Vector3::new(-pose.spin.x, pose.spin.y, -pose.spin.z);
            prop_assert!((image.spin - spin).norm() < 1e-11);
        }
    }

    /// The whole corner moved as one: its poses move with it. Only the arm's
    /// angle is counted from another level.
    #[test]
    fn a_rigid_motion_moves_every_pose(
        cube in cubes(),
        seed: u64,
        turn in prop::array::uniform3(-0.3..0.3),
        shift in prop::array::uniform3(-500.0..500.0),
    ) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let turn = Rotation3::new(Vector3::from(turn));
        let carry = |p: Point3<f64>| turn * p + Vector3::from(shift);
        let mut points = moved(&sample.points, carry);
        let spin = turn * at_rest(&corner).spin;
        points.camber_rad = linkage::axes::camber_rad(&spin);
        points.toe_rad = linkage::axes::toe_rad(&spin);
        let other = Corner::of(&points, sample.loaded_radius_mm).unwrap();
        let level = other.measured_angle_rad() - corner.measured_angle_rad();
        for pose in wander(&corner, &mut Dice::of(seed), 10) {
            let relay = turn * relay_of(&sample, &pose);
            let there = other.pose(pose.lower_arm_rad + level, relay).unwrap();
            for (got, want) in points_of(&there).into_iter().zip(points_of(&pose).map(carry)) {
                prop_assert!((got - want).norm() < 1e-9, "{got} is not {want}");
            }
            prop_assert!((there.spin - turn * pose.spin).norm() < 1e-11);
            let (here, there) = (corner.bump_motion(&pose), other.bump_motion(&there));
            let (here, there) = (here.unwrap(), there.unwrap());
            prop_assert!((there.turning - turn * here.turning).norm() < 1e-10);
            prop_assert!((there.upper_arm - here.upper_arm).abs() < 1e-10);
        }
    }

    /// The truck turned on its ground: whatever is read against the ground or the
    /// wheel alone stays, and toe takes the turn.
    #[test]
    fn a_turn_on_the_ground_changes_toe_alone(
        cube in cubes(),
        travel in -50.0..50.0,
        yaw in -0.3..0.3,
        shift in prop::array::uniform3(-500.0..500.0),
    ) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let turn = Rotation3::from_axis_angle(&Vector3::z_axis(), yaw);
        let mut points = moved(&sample.points, |p| turn * p + Vector3::from(shift));
        points.toe_rad -= yaw;
        let other = Corner::of(&points, sample.loaded_radius_mm).unwrap();
        let rest = sample.points.wheel_centre.z;
        let pose = corner.at_height(rest + travel, Vector3::zeros()).unwrap();
        let there = other.at_height(rest + shift[2] + travel, Vector3::zeros()).unwrap();
        prop_assert!((there.lower_arm_rad - pose.lower_arm_rad).abs() < 1e-11);
        let (was, is) = (corner.attitude(&pose), other.attitude(&there));
        prop_assert!((is.camber_rad - was.camber_rad).abs() < 1e-11);
        prop_assert!((is.toe_rad + yaw - was.toe_rad).abs() < 1e-11);
        prop_assert!((is.scrub_radius_mm - was.scrub_radius_mm).abs() < 1e-8);
        prop_assert!((is.trail_mm - was.trail_mm).abs() < 1e-8);
        prop_assert!((is.contact.z - shift[2] - was.contact.z).abs() < 1e-8);
        let (was, is) = (corner.travel_rates(&pose), other.travel_rates(&there));
        let (was, is) = (was.unwrap(), is.unwrap());
        prop_assert!((is.camber_rad - was.camber_rad).abs() < 1e-11);
        prop_assert!((is.toe_rad - was.toe_rad).abs() < 1e-11);
        prop_assert!((is.scrub_radius_mm - was.scrub_radius_mm).abs() < 1e-8);
        prop_assert!((is.trail_mm - was.trail_mm).abs() < 1e-8);
    }
}

/// How far the relay rod has gone in a pose.
fn relay_of(sample: &Sample, pose: &Pose) -> Vector3<f64> {
    pose.tie_inner - sample.points.tie_inner
}

/// Every point carried by `carry`; camber and toe as they were.
fn moved(points: &Hardpoints, carry: impl Fn(Point3<f64>) -> Point3<f64>) -> Hardpoints {
    let mut points = *points;
    for point in [
        &mut points.lower.front,
        &mut points.lower.rear,
        &mut points.lower.ball,
        &mut points.upper.front,
        &mut points.upper.rear,
        &mut points.upper.ball,
        &mut points.wheel_centre,
        &mut points.tie_inner,
        &mut points.tie_outer,
    ] {
        *point = carry(*point);
    }
    points
}

/// The points as someone would measure them in this pose.
fn measured_in(points: &Hardpoints, pose: &Pose) -> Hardpoints {
    let mut points = *points;
    points.lower.ball = pose.lower_ball;
    points.upper.ball = pose.upper_ball;
    points.tie_inner = pose.tie_inner;
    points.tie_outer = pose.tie_outer;
    points.wheel_centre = pose.wheel_centre;
    points.camber_rad = pose.camber_rad();
    points.toe_rad = pose.toe_rad();
    points
}

fn same_reading(got: &Attitude, want: &Attitude) -> Result<(), TestCaseError> {
    for (got, want) in [
        (got.camber_rad, want.camber_rad),
        (got.toe_rad, want.toe_rad),
        (got.caster_rad, want.caster_rad),
        (got.inclination_rad, want.inclination_rad),
    ] {
        prop_assert!((got - want).abs() < 1e-11, "{got} is not {want}");
    }
    prop_assert!((got.scrub_radius_mm - want.scrub_radius_mm).abs() < 1e-8);
    prop_assert!((got.trail_mm - want.trail_mm).abs() < 1e-8);
    prop_assert!((got.contact - want.contact).norm() < 1e-9);
    Ok(())
}
