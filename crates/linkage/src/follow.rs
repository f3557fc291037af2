//! The steering followed from straight ahead, where a search by the link's place is deceived.
//!
//! At a dead centre of the tie rod a hair of the link turns the wheel by any amount, so
//! the turn of the knuckle leads here, and the place of the link follows.

use crate::corner::Corner;
use crate::pose::Pose;
use crate::{frame, root};
use nalgebra::Vector3;

/// Step of the knuckle's turn, rad.
const STEP_RAD: f64 = 0.05;
/// Steps: past half a turn a steering arm has met everything.
const STEPS: u32 = 70;
/// What a step can miss of the farthest place inside it, mm: half of its square times
/// the longest steering arm, with as much again for the rod.
const WITHIN_MM: f64 = 5.0;

impl Corner {
    /// The pose at a height of the wheel centre that is had by moving the link straight
    /// there, or `None` where a dead centre comes first.
    #[cold]
    pub(crate) fn follow(&self, wheel_mm: f64, link_mm: Vector3<f64>) -> Option<Pose> {
        let target = frame::length(&link_mm);
        let way = link_mm / target;
        let mut at = self.search(wheel_mm, Vector3::zeros()).ok()?;
        let mut sense = if (at.tie_outer - at.tie_inner).dot(&way) < 0.0 { -1.0 } else { 1.0 };
        let place = |at: &Pose, by: f64, sense: f64| {
            self.link_at(&self.turned_at_height(at, by, wheel_mm)?, &way, sense)
        };
        let mut turn = if place(&at, 1e-4, sense)? > 0.0 { STEP_RAD } else { -STEP_RAD };
        let mut had = 0.0;
        let reached = |at: &Pose, from: f64, to: f64, sense: f64| {
            let by = root::bracketed(|by| Some(place(at, by, sense)? - target), from, to, 1e-15)?;
            let pose = self.turned_at_height(at, by, wheel_mm)?;
            Some(Pose { tie_inner: pose.tie_inner + link_mm, ..pose })
        };
        for _ in 0..STEPS {
            match place(&at, turn, sense) {
                Some(next) if next >= target => return reached(&at, 0.0, turn, sense),
                Some(next) if next > had => {
                    at = self.turned_at_height(&at, turn, wheel_mm)?;
                    had = next;
                }
                Some(_) if had < target - WITHIN_MM => return None,
                Some(_) => {
                    let by = farthest(|by| place(&at, by, sense), -turn, turn)?;
                    return (place(&at, by, sense)? >= target).then(|| reached(&at, -turn, by, sense))?;
                }
                None => {
                    // The rod comes square to the link's way: the wheel turns back as it goes on.
                    let top = last(|by| place(&at, by, sense).is_some(), turn);
                    let here = place(&at, top, sense)?;
                    if here >= target {
                        return reached(&at, 0.0, top, sense);
                    }
                    at = self.turned_at_height(&at, top, wheel_mm)?;
                    (turn, sense) = (-turn, -sense);
                    had = place(&at, 0.0, sense)?;
                    // Otherwise the height ends there, or the rod has come to its dead centre.
                    if had - here > 1e-2 {
                        return None;
                    }
                }
            }
        }
        None
    }

    /// The knuckle turned by `by_rad` from `near`, the wheel centre at its height within 1e-11 mm.
    fn turned_at_height(&self, near: &Pose, by_rad: f64, wheel_mm: f64) -> Option<Pose> {
        let mut angle = near.lower_arm_rad;
        let mut slope = self.bump_motion(near).map_or(300.0, |bump| bump.at(&near.wheel_centre).z.max(50.0));
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..40 {
            let pose = self.turned(near, angle, by_rad)?;
            let miss = pose.wheel_centre.z - wheel_mm;
            if miss.abs() <= 1e-11 {
                return Some(pose);
            }
            if let Some((before, missed)) = last
                && (angle - before).abs() > 0.0
            {
                slope = (miss - missed) / (angle - before);
            }
            if slope <= 0.0 {
                return None;
            }
            last = Some((angle, miss));
            angle -= miss / slope;
        }
        self.turned(near, angle, by_rad).filter(|pose| (pose.wheel_centre.z - wheel_mm).abs() <= 1e-9)
    }
}

/// Where a function with one top has it, by thirds.
fn farthest(f: impl Fn(f64) -> Option<f64>, mut low: f64, mut high: f64) -> Option<f64> {
    for _ in 0..60 {
        let third = (high - low) / 3.0;
        let (a, b) = (low + third, high - third);
        if f(a)? < f(b)? { low = a } else { high = b }
    }
    Some(low.midpoint(high))
}

/// The last of the numbers from zero to `end` that are good.
fn last(good: impl Fn(f64) -> bool, end: f64) -> f64 {
    let (mut reached, mut beyond) = (0.0, end);
    for _ in 0..50 {
        let half = f64::midpoint(reached, beyond);
        *(if good(half) { &mut reached } else { &mut beyond }) = half;
    }
    reached
}
