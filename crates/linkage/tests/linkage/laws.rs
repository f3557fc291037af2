//! Laws that hold of every corner: identities, invariances, exact rates, and
//! that no input whatever brings a panic or a number that is none.
//!
//! Every law is an identity of the geometry; where a textbook names it, the
//! test says so. The corners come from `yardstick::generate`.

mod any_input;
mod dead_centre;
mod front_view;
mod invariance;
mod open;
mod rates;
mod searches;

use linkage::{ArmPoints, Corner, Hardpoints, Point3, Pose, Vector3};
use proptest::array::uniform24;
use proptest::prelude::*;
use yardstick::cases;
use yardstick::generate::{Cube, Dice};

fn cubes() -> impl Strategy<Value = Cube> {
    uniform24(0.0..1.0)
}

fn at_rest(corner: &Corner) -> Pose {
    corner.pose(corner.measured_angle_rad(), Vector3::zeros()).unwrap()
}

/// Poses off the measured one in travel and steer; those that do not close are left out.
fn wander(corner: &Corner, dice: &mut Dice, poses: usize) -> Vec<Pose> {
    let angle = corner.measured_angle_rad();
    (0..poses)
        .filter_map(|_| {
            let relay =
                Vector3::new(dice.between(-5.0, 5.0), dice.between(-35.0, 35.0), dice.between(-5.0, 5.0));
            corner.pose(angle + dice.between(-0.2, 0.2), relay).ok()
        })
        .collect()
}

/// Every length that a rigid member keeps, by name.
fn lengths(points: &Hardpoints, pose: &Pose) -> [(&'static str, f64); 11] {
    let moved = Hardpoints {
        lower: ArmPoints { ball: pose.lower_ball, ..points.lower },
        upper: ArmPoints { ball: pose.upper_ball, ..points.upper },
        wheel_centre: pose.wheel_centre,
        tie_inner: pose.tie_inner,
        tie_outer: pose.tie_outer,
        ..*points
    };
    measured_lengths(&moved)
}

/// The same lengths in the measured state.
fn measured_lengths(points: &Hardpoints) -> [(&'static str, f64); 11] {
    let between = |a: &Point3<f64>, b: &Point3<f64>| (a - b).norm();
    let (lower, upper) = (&points.lower.ball, &points.upper.ball);
    let (tie, wheel) = (&points.tie_outer, &points.wheel_centre);
    [
        ("lower arm, front", between(&points.lower.front, lower)),
        ("lower arm, rear", between(&points.lower.rear, lower)),
        ("upper arm, front", between(&points.upper.front, upper)),
        ("upper arm, rear", between(&points.upper.rear, upper)),
        ("knuckle", between(lower, upper)),
        ("steering arm, low", between(lower, tie)),
        ("steering arm, high", between(upper, tie)),
        ("tie rod", between(&points.tie_inner, tie)),
        ("wheel, low", between(lower, wheel)),
        ("wheel, high", between(upper, wheel)),
        ("wheel, steering arm", between(tie, wheel)),
    ]
}

/// Points of a pose that a motion of the whole truck moves along with it.
fn points_of(pose: &Pose) -> [Point3<f64>; 5] {
    [pose.lower_ball, pose.upper_ball, pose.tie_inner, pose.tie_outer, pose.wheel_centre]
}
