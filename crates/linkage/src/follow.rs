//! The steering followed from straight ahead, where a search by the relay rod's place is deceived.
//!
//! At a dead centre of the tie rod a hair of the relay rod turns the wheel by any amount, so
//! the turn of the knuckle leads here, and the place of the relay rod follows.

use crate::corner::Corner;
use crate::pose::Pose;
use crate::{axes, root};
use nalgebra::Vector3;

/// Step of the knuckle's turn, rad.
const STEP_RAD: f64 = 0.1;
/// The least step, rad: the wheel's height ends there.
const LEAST_STEP_RAD: f64 = 1e-3;
/// Steps: past half a turn a steering arm has met everything, some of them cut short.
const STEPS: u32 = 50;
/// What a step can miss of the farthest place inside it, mm: half of its square times
/// the longest steering arm, with as much again for the rod.
const WITHIN_MM: f64 = 5.0;
/// How well the wheel's height is met on the way, mm, and at the end.
const ON_THE_WAY_MM: f64 = 1e-5;
const AT_THE_END_MM: f64 = 1e-11;

impl Corner {
    /// The pose at a height of the wheel centre that is had by moving the relay rod straight
    /// there, or `None` where a dead centre comes first.
    #[cold]
    pub(crate) fn follow(&self, wheel_mm: f64, relay_mm: Vector3<f64>) -> Option<Pose> {
        if wheel_mm < self.range.low_mm || wheel_mm > self.range.high_mm {
            return None;
        }
        let target = axes::length(&relay_mm);
        let way = relay_mm / target;
        let mut at = self.search(wheel_mm, Vector3::zeros()).ok()?;
        let mut sense = if (at.tie_outer - at.tie_inner).dot(&way) < 0.0 { -1.0 } else { 1.0 };
        let within = |at: &Pose, by: f64, sense: f64, within_mm: f64| {
            let pose = self.turned_at_height(at, by, wheel_mm, within_mm)?;
            Some((self.relay_at(&pose, &way, sense)?, pose))
        };
        let place = |at: &Pose, by: f64, sense: f64| Some(within(at, by, sense, ON_THE_WAY_MM)?.0);
        // Where it is all but square to the relay rod's way, a hair that way is more than the rod reaches.
        let leads = |by: f64| place(&at, by, sense).unwrap_or(0.0);
        let mut turn = if leads(1e-3) >= leads(-1e-3) { STEP_RAD } else { -STEP_RAD };
        // How far it came in the step before.
        let mut came = turn;
        let (mut had, mut back) = (0.0, false);
        let reached = |at: &Pose, from: f64, to: f64, sense: f64| {
            let exactly = |by: f64| within(at, by, sense, AT_THE_END_MM);
            // Where the tie rod is square to the relay rod's way, the last hair of what it just reaches is
            // lost when the height is met to the end.
            let good = |by: f64| exactly(by).is_some();
            let (from, to) = (nearest_good(good, from, to)?, nearest_good(good, to, from)?);
            let by = root::bracketed(|by| Some(exactly(by)?.0 - target), from, to, 1e-15)?;
            let pose = exactly(by)?.1;
            Some(Pose { tie_inner: pose.tie_inner + relay_mm, ..pose })
        };
        for _ in 0..STEPS {
            let Some(pose) = self.turned_at_height(&at, turn, wheel_mm, ON_THE_WAY_MM) else {
                // So far turned the wheel does not reach its height, which it may nearer by.
                turn *= 0.5;
                if turn.abs() < LEAST_STEP_RAD {
                    return None;
                }
                continue;
            };
            match self.relay_at(&pose, &way, sense) {
                Some(next) if next >= target => return reached(&at, 0.0, turn, sense),
                Some(next) if next > had => {
                    (had, at, came) = (next, pose, turn);
                    turn = (2.0 * turn).clamp(-STEP_RAD, STEP_RAD);
                }
                Some(_) if had < target - WITHIN_MM => return None,
                Some(_) => {
                    let by = farthest(|by| place(&at, by, sense), target, -came, turn)?;
                    return (place(&at, by, sense)? >= target).then(|| reached(&at, -came, by, sense))?;
                }
                // Once; a second time it would only go round.
                None if back => return None,
                None => {
                    // The tie rod comes square to the relay rod's way: the wheel turns back as it goes on.
                    let top = last(|by| place(&at, by, sense).is_some(), turn);
                    let here = place(&at, top, sense)?;
                    if here >= target {
                        return reached(&at, 0.0, top, sense);
                    }
                    at = self.turned_at_height(&at, top, wheel_mm, ON_THE_WAY_MM)?;
                    (turn, came, sense, back) = (-turn, -turn, -sense, true);
                    had = place(&at, 0.0, sense)?;
                    // Otherwise the rod has come to its dead centre.
                    if had - here > 1e-2 {
                        return None;
                    }
                }
            }
        }
        None
    }

    /// The knuckle turned by `by_rad` from `near`, the wheel centre at its height.
    fn turned_at_height(&self, near: &Pose, by_rad: f64, wheel_mm: f64, within_mm: f64) -> Option<Pose> {
        let mut angle = near.lower_arm_rad;
        // The wheel rises about as its ball does, the steering arm held.
        let mut slope = self.lower.along.cross(&(near.lower_ball - self.lower.centre)).z.max(50.0);
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..10 {
            let pose = self.turned(near, angle, by_rad)?;
            let miss = pose.wheel_centre.z - wheel_mm;
            if miss.abs() <= within_mm {
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

/// Where a function with one top has it, or reaches `enough`: by golden sections.
fn farthest(f: impl Fn(f64) -> Option<f64>, enough: f64, from: f64, to: f64) -> Option<f64> {
    let share = 0.5 * (5_f64.sqrt() - 1.0);
    let (mut low, mut high) = (from, to);
    let (mut a, mut b) = (to - share * (to - from), from + share * (to - from));
    let (mut at_a, mut at_b) = (f(a)?, f(b)?);
    for _ in 0..16 {
        if at_a < at_b {
            (low, a, at_a) = (a, b, at_b);
            b = low + share * (high - low);
            at_b = f(b)?;
        } else {
            (high, b, at_b) = (b, a, at_a);
            a = high - share * (high - low);
            at_a = f(a)?;
        }
        if at_a.max(at_b) >= enough {
            break;
        }
    }
    Some(if at_a < at_b { b } else { a })
}

/// The last of the numbers from zero to `end` that are good.
fn last(good: impl Fn(f64) -> bool, end: f64) -> f64 {
    let (mut reached, mut beyond) = (0.0, end);
    for _ in 0..30 {
        let half = f64::midpoint(reached, beyond);
        *(if good(half) { &mut reached } else { &mut beyond }) = half;
    }
    reached
}

/// An end, or what is good just beside it towards the other.
fn nearest_good(good: impl Fn(f64) -> bool, end: f64, other: f64) -> Option<f64> {
    let hairs = std::iter::successors(Some(1e-13), |hair| Some(8.0 * hair)).take_while(|hair| *hair < 0.5);
    std::iter::once(0.0).chain(hairs).map(|hair| end + hair * (other - end)).find(|by| good(*by))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_good_one_beside_an_end_is_near_it() {
        assert_eq!(nearest_good(|_| true, 2.0, 5.0), Some(2.0));
        let beside = nearest_good(|by| by < 5.0 - 1e-6, 5.0, 2.0).unwrap();
        assert!((5.0 - 9e-6..5.0 - 1e-6).contains(&beside), "{beside}");
        assert_eq!(nearest_good(|by| by < 3.0, 5.0, 2.0), None, "never past the middle");
    }

    /// The top of a parabola, wherever it lies: sixteen golden sections leave 0.618^16, or 0.00046,
    /// of where it may be. Where enough is had before, that is enough.
    #[test]
    fn the_farthest_is_found_wherever_it_lies() {
        for top in [-0.8, -0.1, 0.3, 0.9] {
            let f = |x: f64| Some(5.0 - (x - top) * (x - top));
            for (from, to) in [(-1.0, 1.0), (1.0, -1.0)] {
                let found = farthest(f, f64::INFINITY, from, to).unwrap();
                assert!((found - top).abs() <= 2.0 * 0.618_f64.powi(16), "{found} for {top}");
                let enough = farthest(f, 4.9, from, to).and_then(f).unwrap();
                assert!(enough >= 4.9, "{enough} for {top}");
            }
        }
        assert_eq!(
            farthest(|x| (x < 0.5).then_some(x), 2.0, -1.0, 1.0),
            None,
            "where the rod does not reach"
        );
    }
}
