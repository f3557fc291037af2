//! Corners that do not close: every member keeps its lengths, and all joints but the open one are shut.

use super::{at_rest, cases, cubes, measured_lengths};
use linkage::{ArmPoints, Assembly, Corner, Hardpoints, Joint, Unreached, Vector3};
use proptest::prelude::*;
use yardstick::generate::pickup;

/// The lengths of a corner's members with the ends of arm and rod where they are, those that `joint`
/// would close left out.
fn lengths(points: &Hardpoints, found: &Assembly, mounts: &linkage::Mounts) -> Vec<(&'static str, f64)> {
    let ends = Hardpoints {
        lower: ArmPoints { ball: found.pose.lower_ball, ..points.lower },
        upper: ArmPoints { front: mounts.upper.front, rear: mounts.upper.rear, ball: found.pose.upper_ball },
        wheel_centre: found.pose.wheel_centre,
        tie_inner: found.pose.tie_inner,
        tie_outer: found.pose.tie_outer,
        ..*points
    };
    let open = match found.open {
        Some(Joint::UpperBall) => &["upper arm, front", "upper arm, rear", "tie rod"][..],
        Some(Joint::TieRodOuter) => &["tie rod"],
        None => &[],
    };
    measured_lengths(&ends).into_iter().filter(|(name, _)| !open.contains(name)).collect()
}

fn keeps_lengths(points: &Hardpoints, corner: &Corner, found: &Assembly) -> Result<(), TestCaseError> {
    let measured = measured_lengths(points);
    for (name, length) in lengths(points, found, corner.mounts()) {
        let was = measured.iter().find(|(other, _)| *other == name).unwrap().1;
        prop_assert!((length - was).abs() < 1e-9, "{name}: {length} for {was}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn what_closes_is_the_pose(cube in cubes(), turn in -0.1..0.1) {
        let corner = pickup(&cube).corner();
        let angle = corner.measured_angle_rad() + turn;
        let found = corner.as_far_as_it_closes(angle);
        match corner.pose(angle, Vector3::zeros()) {
            Ok(pose) => prop_assert_eq!(found, Assembly::closed(pose)),
            Err(_) => prop_assert!(found.open.is_some()),
        }
    }

    /// The upper arm's pivots moved away from the knuckle, or past it.
    #[test]
    fn an_upper_arm_that_does_not_reach(cube in cubes(), inward in prop_oneof![-900.0..-300.0, 300.0..900.0]) {
        let sample = pickup(&cube);
        let points = &sample.points;
        let mut mounts = points.mounts();
        let by = Vector3::new(0.0, inward, 0.0);
        mounts.upper.front += by;
        mounts.upper.rear += by;
        let corner = Corner::on(points, points.members().unwrap(), &mounts, sample.loaded_radius_mm).unwrap();
        let angle = corner.measured_angle_rad();
        let Err(Unreached::Open { joint: Joint::UpperBall, gap_mm }) = corner.pose(angle, Vector3::zeros())
        else {
            return Err(TestCaseError::reject("it closes all the same"));
        };
        let found = corner.as_far_as_it_closes(angle);
        prop_assert_eq!(found.open, Some(Joint::UpperBall));
        keeps_lengths(points, &corner, &found)?;
        // Measured at this angle: nothing of the knuckle has moved.
        prop_assert!((found.pose.upper_ball - points.upper.ball).norm() < 1e-9);
        for (pivot, was) in [(mounts.upper.front, points.upper.front), (mounts.upper.rear, points.upper.rear)] {
            let length = (found.upper_arm_end - pivot).norm();
            prop_assert!((length - (points.upper.ball - was).norm()).abs() < 1e-9);
        }
        // No ball of that arm comes nearer to the sphere of the knuckle.
        let knuckle_mm = (points.upper.ball - points.lower.ball).norm();
        let short_mm = ((found.upper_arm_end - found.pose.lower_ball).norm() - knuckle_mm).abs();
        prop_assert!((short_mm - gap_mm).abs() < 1e-6, "{short_mm} for {gap_mm}");
        prop_assert_eq!(found.open_ends(), Some([found.pose.upper_ball, found.upper_arm_end]));
    }

    /// A rod so much shorter or longer that no heading takes it.
    #[test]
    fn a_tie_rod_that_does_not_reach(cube in cubes(), longer in prop_oneof![-300.0..-150.0, 350.0..700.0]) {
        let sample = pickup(&cube);
        let points = &sample.points;
        let mut members = points.members().unwrap();
        members.tie_rod_mm += longer;
        prop_assume!(members.tie_rod_mm > 1.0);
        let corner = Corner::on(points, members, &points.mounts(), sample.loaded_radius_mm).unwrap();
        let angle = corner.measured_angle_rad();
        let Err(Unreached::Open { joint: Joint::TieRodOuter, gap_mm }) = corner.pose(angle, Vector3::zeros())
        else {
            return Err(TestCaseError::reject("it closes all the same"));
        };
        let found = corner.as_far_as_it_closes(angle);
        prop_assert_eq!(found.open, Some(Joint::TieRodOuter));
        keeps_lengths(points, &corner, &found)?;
        // Arms and knuckle are as measured, and so is where the steering arm points.
        let measured = at_rest(&sample.corner());
        prop_assert!((found.pose.tie_outer - measured.tie_outer).norm() < 1e-9);
        prop_assert_eq!(found.upper_arm_end, found.pose.upper_ball);
        let [rod, arm] = found.open_ends().unwrap();
        prop_assert!(((rod - points.tie_inner).norm() - members.tie_rod_mm).abs() < 1e-9);
        // The rod points at the steering arm, which may be turned nearer to it.
        prop_assert!(((rod - arm).norm() - f64::abs(longer)).abs() < 1e-9);
        prop_assert!(gap_mm <= (rod - arm).norm() + 1e-9);
    }
}
