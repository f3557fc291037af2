//! The loops that are timed, natively and in the browser alike.
//!
//! Nothing here has a clock: the caller brings one.

use crate::generate::{Dice, pickup};
use linkage::{Corner, Hardpoints, Pose, Vector3};
use std::hint::black_box;

/// One timed loop: what it does, and the median of five runs.
#[derive(Clone, Copy, Debug)]
pub struct Timing {
    /// What one turn of the loop does.
    pub what: &'static str,
    /// Nanoseconds for one turn.
    pub ns: f64,
}

/// Times every loop with the caller's clock, in milliseconds from any start.
///
/// Each run goes on for at least `run_ms`, so that a coarse clock does no harm.
pub fn timings(mut now_ms: impl FnMut() -> f64, run_ms: f64) -> Vec<Timing> {
    let sample = pickup(&Dice::of(7).cube());
    let corner = sample.corner();
    let rest = sample.points.wheel_centre.z;
    let angle = corner.measured_angle_rad();
    let mut time =
        |what, turn: &mut dyn FnMut(f64) -> f64| Timing { what, ns: median_ns(&mut now_ms, run_ms, turn) };
    vec![
        time("pose by arm angle", &mut |way| by_angle(&corner, angle + 0.15 * way)),
        time("pose by arm angle, steered", &mut |way| steered(&corner, angle + 0.15 * way, 30.0 * way)),
        time("pose by travel", &mut |way| by_travel(&corner, rest + 60.0 * way)),
        time("pose by travel, all outputs", &mut |way| in_full(&corner, rest + 60.0 * way)),
        time("corner built", &mut |way| built(&sample.points, sample.loaded_radius_mm + way)),
    ]
}

/// A turn of the loop takes a number in -1..1 and gives one, so that no call
/// can be left out or taken out of the loop.
fn median_ns(now_ms: &mut impl FnMut() -> f64, run_ms: f64, turn: &mut dyn FnMut(f64) -> f64) -> f64 {
    let mut run = |turns: u32| {
        let begin = now_ms();
        let mut sum = 0.0;
        for count in 0..turns {
            // A walk over the travel that repeats only after 64 poses.
            let way = f64::from(count.wrapping_mul(37) % 64) / 32.0 - 1.0;
            sum += turn(black_box(way));
        }
        black_box(sum);
        now_ms() - begin
    };
    let mut turns = 64_u32;
    while run(turns) < run_ms && turns < 1 << 28 {
        turns *= 2;
    }
    let mut took: [f64; 5] = std::array::from_fn(|_| run(turns));
    took.sort_by(f64::total_cmp);
    took[2] * 1e6 / f64::from(turns)
}

fn of_pose(pose: &Pose) -> f64 {
    pose.wheel_centre.z + pose.spin.z + pose.tie_outer.x
}

fn by_angle(corner: &Corner, angle_rad: f64) -> f64 {
    let pose = corner.pose(angle_rad, Vector3::zeros());
    pose.map_or(f64::NAN, |pose| of_pose(black_box(&pose)))
}

fn steered(corner: &Corner, angle_rad: f64, link_mm: f64) -> f64 {
    let pose = corner.pose(angle_rad, Vector3::new(0.0, link_mm, 0.0));
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

fn built(points: &Hardpoints, loaded_radius_mm: f64) -> f64 {
    let corner =
        points.parts().and_then(|parts| Corner::on(points, parts, &points.mounts(), loaded_radius_mm));
    corner.map_or(f64::NAN, |corner| black_box(&corner).range().high_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With a clock that ticks once a reading every loop has its time, and the
    /// loops do the work they name: a turn that failed would give no number.
    #[test]
    fn every_loop_works_and_is_timed() {
        let mut ticks = 0.0;
        let timed = timings(
            || {
                ticks += 1.0;
                ticks
            },
            0.5,
        );
        assert_eq!(timed.len(), 5);
        assert!(timed.iter().all(|timing| timing.ns > 0.0), "{timed:?}");
        let sample = pickup(&Dice::of(7).cube());
        let rest = sample.points.wheel_centre.z;
        for way in [-1.0, 0.0, 1.0] {
            assert!(in_full(&sample.corner(), rest + 60.0 * way).is_finite());
            assert!(built(&sample.points, sample.loaded_radius_mm + way).is_finite());
        }
    }
}
