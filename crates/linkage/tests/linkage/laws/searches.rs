//! Searches by height and heading, against the pose they must find again.

use super::{cases, cubes};
use linkage::{ArmPoints, Corner, End, Hardpoints, Point3, Pose, Unreached, Vector3};
use proptest::prelude::*;
use yardstick::budget::near;
use yardstick::generate::{Dice, pickup};

proptest! {
    #![proptest_config(cases(150))]

    /// From an angle to the height it gives, and back.
    #[test]
    fn a_height_leads_back_to_its_arm_angle(cube in cubes(), part in 0.02..0.98, relay in -25.0..25.0) {
        let corner = pickup(&cube).corner();
        let range = *corner.range();
        let angle = range.low_rad + part * (range.high_rad - range.low_rad);
        let relay = Vector3::y() * relay;
        let Ok(pose) = corner.pose(angle, relay) else {
            return Ok(());
        };
        if corner.bump_motion(&pose).is_ok_and(|motion| motion.at(&pose.wheel_centre).z > 20.0) {
            let found = corner.at_height(pose.wheel_centre.z, relay).unwrap();
            prop_assert!((found.wheel_centre.z - pose.wheel_centre.z).abs() <= 1e-10);
            prop_assert!((found.lower_arm_rad - angle).abs() < 1e-11);
        }
    }

    /// The same near the top, where the wheel reaches its height with the knuckle turned but a little.
    #[test]
    fn so_does_one_just_below_the_top(cube in cubes(), part in 0.9..0.999, relay in -8.0..8.0) {
        let corner = pickup(&cube).corner();
        let range = *corner.range();
        let angle = range.low_rad + part * (range.high_rad - range.low_rad);
        let (relay, straight) = (Vector3::y() * relay, corner.pose(angle, Vector3::zeros()).unwrap());
        // So near to straight ahead that the relay rod leads there by no dead centre.
        let along = |pose: &Pose| (pose.tie_outer - pose.tie_inner).y;
        let Ok(pose) = corner.pose(angle, relay) else {
            return Ok(());
        };
        let rises = corner.bump_motion(&pose).is_ok_and(|motion| motion.at(&pose.wheel_centre).z > 20.0);
        let is_beside = pose.knuckle.radial.dot(&straight.knuckle.radial) > 0.999;
        if rises && is_beside && along(&straight) * along(&pose) > 0.0 && pose.wheel_centre.z < range.high_mm {
            let found = corner.at_height(pose.wheel_centre.z, relay);
            prop_assert!(found.is_ok_and(|found| (found.lower_arm_rad - angle).abs() < 1e-9), "{pose:?}");
        }
    }

    /// Every height of the range is reached, and none beyond it.
    #[test]
    fn the_range_is_what_can_be_reached(cube in cubes(), part in 0.0..1.0) {
        let corner = pickup(&cube).corner();
        let range = *corner.range();
        let inside = range.low_mm + part * (range.high_mm - range.low_mm);
        let pose = corner.at_height(inside, Vector3::zeros());
        prop_assert!(pose.is_ok(), "{inside} in {range:?}: {pose:?}");
        for beyond in [range.low_mm - 0.5, range.high_mm + 0.5] {
            let why = corner.at_height(beyond, Vector3::zeros()).unwrap_err();
            if let Unreached::Height { nearest_mm } = why {
                let end = if beyond < inside { range.low_mm } else { range.high_mm };
                prop_assert!((nearest_mm - end).abs() < 1e-9, "{why:?}");
            }
        }
    }

    /// A hair beyond either end of the range is what the end is named after.
    #[test]
    fn the_range_ends_for_the_reason_it_gives(cube in cubes()) {
        let corner = pickup(&cube).corner();
        let range = *corner.range();
        for (angle, way, end) in
            [(range.low_rad, -1.0, range.low_end), (range.high_rad, 1.0, range.high_end)]
        {
            let beyond = corner.pose(angle + way * 1e-9, Vector3::zeros());
            match end {
                End::Joint(joint) => match beyond {
                    Err(Unreached::Open { joint: open, .. }) => prop_assert_eq!(open, joint),
                    other => prop_assert!(false, "{joint} closes beyond the end: {other:?}"),
                },
                // The wheel can turn over a hair before the joint opens.
                End::Turnover => {
                    if let Ok(pose) = beyond {
                        let rise = corner.bump_motion(&pose).unwrap().at(&pose.wheel_centre).z;
                        prop_assert!(rise < 0.0, "{rise} mm/rad beyond the turnover");
                    }
                }
                End::Free => prop_assert!(angle.abs() > 1.3, "{angle} is no quarter turn"),
            }
        }
    }

    /// Over the range the wheel only rises with the arm, on one branch without a jump.
    ///
    /// Up to an arm that stands steeper than any truck's: beyond, a range is
    /// true to the two degrees of its own search.
    #[test]
    fn the_wheel_rises_with_the_arm(cube in cubes()) {
        let corner = pickup(&cube).corner();
        let range = *corner.range();
        let (low, high) = (range.low_rad.max(-1.0), range.high_rad.min(1.0));
        let step = (high - low) / 400.0;
        let poses: Vec<_> = (1..400)
            .map(|i| corner.pose(low + f64::from(i) * step, Vector3::zeros()).unwrap())
            .collect();
        for pair in poses.windows(2) {
            prop_assert!(pair[1].wheel_centre.z > pair[0].wheel_centre.z);
        }
        // Away from the ends a step of the arm is a like step of the knuckle.
        for pair in poses[40..360].windows(2) {
            let jump = (pair[1].tie_outer - pair[0].tie_outer).norm();
            prop_assert!(jump < 30.0 * 500.0 * step, "{jump}");
        }
    }

    /// From a place of the relay rod to the heading it gives, and back.
    #[test]
    fn a_heading_leads_back_to_its_relay_rod(cube in cubes(), travel in -50.0..50.0, relay in -30.0..30.0) {
        let sample = pickup(&cube);
        let corner = sample.corner();
        let way = Vector3::new(0.1, 1.0, 0.05);
        let way = way / way.norm();
        let height = sample.points.wheel_centre.z + travel;
        if !within(&corner, height, way, relay) {
            return Ok(());
        }
        let pose = corner.at_height(height, way * relay).unwrap();
        let (found, at) = corner.at_heading(height, pose.heading_rad(), way).unwrap();
        prop_assert!((found.heading_rad() - pose.heading_rad()).abs() <= 1e-12);
        prop_assert!((found.wheel_centre.z - height).abs() <= 1e-10);
        prop_assert!((at - relay).abs() < 1e-7, "{at} is not {relay}");
    }
}

/// Whether the relay rod stands clear of the places where steering turns back.
fn within(corner: &Corner, height: f64, way: Vector3<f64>, relay: f64) -> bool {
    let limits = corner.relay_range(height, way, 60.0);
    limits.is_ok_and(|(a, b)| (a.min(b) * 0.9..a.max(b) * 0.9).contains(&relay))
}

/// The limits of steer are where the heading turns back or a joint opens: inside
/// them the heading goes one way only, and past them it does not go on.
#[test]
fn the_relay_range_is_where_steering_goes_on() {
    let sample = pickup(&[0.5; 24]);
    let corner = sample.corner();
    let height = sample.points.wheel_centre.z;
    let most = 200.0;
    let (low, high) = corner.relay_range(height, Vector3::y(), most).unwrap();
    assert!(low * high < 0.0, "{low} {high}");
    let heading = |part: f64| {
        let relay = low + part * (high - low);
        corner.at_height(height, Vector3::y() * relay).map(|pose| pose.heading_rad())
    };
    let inside: Vec<_> = (0..=200).map(|i| heading(f64::from(i) / 200.0).unwrap()).collect();
    assert!(inside.windows(2).all(|pair| pair[1] > pair[0]));
    for (part, end) in [(-1e-4, inside[0]), (1.0 + 1e-4, inside[200])] {
        let goes_on = heading(part).is_ok_and(|beyond| (beyond - end) * part.signum() > 1e-9);
        let ended_by_asking = (if part < 0.0 { low } else { high }).abs() > most * 0.999;
        assert!(!goes_on || ended_by_asking, "{part}");
    }
}

/// A corner on equal, parallel arms whose axes run straight along the truck, 350 mm long, its
/// lower arm at an angle when measured, the upper ball and its pivots farther out by `lean`:
/// the wheel goes round with the ball, upright as it was.
fn parallel(angle_rad: f64, lean: f64) -> Corner {
    let (sin, cos) = libm::sincos(angle_rad);
    let by = Vector3::new(0.0, 350.0 * cos, 350.0 * sin);
    let arm = |y: f64, z: f64| {
        let (front, rear) = (Point3::new(150.0, y, z), Point3::new(-150.0, y, z));
        ArmPoints { front, rear, ball: Point3::new(0.0, y, z) + by }
    };
    let points = Hardpoints {
        lower: arm(300.0, 250.0),
        upper: arm(300.0 + lean, 480.0),
        wheel_centre: Point3::new(0.0, 370.0, 312.0) + by,
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner: Point3::new(130.0, 300.0, 320.0),
        tie_outer: Point3::new(130.0, 300.0, 320.0) + by,
    };
    Corner::of(&points, 312.0).unwrap()
}

/// How far a corner goes is no matter of where it was when it was measured: it ends a quarter
/// turn from the horizontal, the wheel 350 mm from the pivots' height. Where it was measured
/// past that, the search finds its way back. (Arms and knuckle come into one line near the
/// other end alone, where the knuckle could go either way.)
#[test]
fn a_range_is_the_same_wherever_it_was_measured() {
    for (way, degrees) in [(-1.0, 0.0), (-1.0, 60.0), (-1.0, 95.0), (1.0, 0.0), (1.0, 60.0), (1.0, 95.0)] {
        let corner = parallel(way * f64::to_radians(degrees), -way * 40.0);
        let range = *corner.range();
        let what = format!("measured at {}", way * degrees);
        let mm = if way < 0.0 { range.low_mm } else { range.high_mm };
        near(mm, 312.0 + way * 350.0, 1e-9, &what);
        let pose = corner.at_height(412.0, Vector3::zeros()).unwrap();
        near(pose.lower_arm_rad, libm::asin(100.0 / 350.0), 1e-11, &what);
    }
}

/// Newton's rule squares what is missing. A tenth of a millimetre beside the measured height
/// the tangent misses by its square over the arm's length, some 1e-5 mm; from there a step
/// leaves 1e-13, which is found: two poses, and a third in no case. A guess from any other
/// place would ask for more.
#[test]
fn a_height_beside_the_measured_one_takes_two_poses() {
    let mut dice = Dice::of(17);
    for _ in 0..40 {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        for travel in [-0.1, 0.1] {
            let before = linkage::count::poses();
            let pose = corner.at_height(sample.points.wheel_centre.z + travel, Vector3::zeros());
            let asked = linkage::count::poses() - before;
            assert!(pose.is_ok());
            assert_eq!(asked, 2, "{travel} mm");
        }
    }
}
