//! Loops over poses of one corner.

use super::Loop;
use linkage::{Corner, Hardpoints, Pose, Vector3};
use std::hint::black_box;
use yardstick::generate::{Dice, pickup};
use yardstick::trucks::{corner, point, trucks};

/// Half of the travel that poses are taken from, mm.
const HALF_MM: f64 = 60.0;
/// Poses of a sweep, as `reference/scipy/bench.py` has them.
const POSES: u32 = 61;

pub(super) fn loops() -> Vec<Loop> {
    let sample = pickup(&Dice::of(7).cube());
    let corner = sample.corner();
    let rest = sample.points.wheel_centre.z;
    let angle = corner.measured_angle_rad();
    let (first, first_rest) = scipys_first();
    vec![
        Loop::new("pose by arm angle", move |way| by_angle(&corner, angle + 0.15 * way)),
        Loop::new("pose by arm angle, steered", move |way| steered(&corner, angle + 0.15 * way, 30.0 * way)),
        Loop::new("pose by travel", move |way| by_travel(&corner, rest + HALF_MM * way)),
        Loop::new("pose by travel, all outputs", move |way| in_full(&corner, rest + HALF_MM * way)),
        Loop::new("corner built", move |way| built(&sample.points, sample.loaded_radius_mm + way)),
        Loop::new("sweep of 61 poses, all outputs", move |way| sweep(&first, first_rest + way)),
    ]
}

/// The corner whose sweep `SciPy` is timed on, and its wheel's height at rest, mm.
fn scipys_first() -> (Corner, f64) {
    let first = &trucks()[0];
    (corner(first), point(first, "wheel_centre_mm").z)
}

fn of_pose(pose: &Pose) -> f64 {
    pose.wheel_centre.z + pose.spin.z + pose.tie_outer.x
}

fn by_angle(corner: &Corner, angle_rad: f64) -> f64 {
    let pose = corner.pose(angle_rad, Vector3::zeros());
    pose.map_or(f64::NAN, |pose| of_pose(black_box(&pose)))
}

fn steered(corner: &Corner, angle_rad: f64, relay_mm: f64) -> f64 {
    let pose = corner.pose(angle_rad, Vector3::new(0.0, relay_mm, 0.0));
    pose.map_or(f64::NAN, |pose| of_pose(black_box(&pose)))
}

fn by_travel(corner: &Corner, wheel_mm: f64) -> f64 {
    let pose = corner.at_height(wheel_mm, Vector3::zeros());
    pose.map_or(f64::NAN, |pose| of_pose(black_box(&pose)))
}

fn in_full(corner: &Corner, wheel_mm: f64) -> f64 {
    let Ok(pose) = corner.at_height(wheel_mm, Vector3::zeros()) else {
        return f64::NAN;
    };
    let attitude = black_box(corner.attitude(&pose));
    let (Ok(rates), Ok(centre)) = (corner.travel_rates(&pose), corner.instant_centre(&pose)) else {
        return f64::NAN;
    };
    let (rates, centre) = black_box((rates, centre));
    of_pose(&pose) + attitude.camber_rad + rates.camber_rad + centre.roll_centre_mm.unwrap_or(f64::NAN)
}

fn sweep(corner: &Corner, rest_mm: f64) -> f64 {
    let step = 2.0 * HALF_MM / f64::from(POSES - 1);
    (0..POSES).map(|at| in_full(corner, rest_mm - HALF_MM + step * f64::from(at))).sum()
}

fn built(points: &Hardpoints, loaded_radius_mm: f64) -> f64 {
    let corner =
        points.members().and_then(|members| Corner::on(points, members, &points.mounts(), loaded_radius_mm));
    corner.map_or(f64::NAN, |corner| black_box(&corner).range().high_mm + corner.loaded_radius_mm())
}
