//! How far a corner can go with the wheels straight ahead.

use super::Corner;
use crate::error::{Joint, Unreached};
use nalgebra::Vector3;

/// What ends the swing of the lower arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// A joint cannot close any farther.
    Joint(Joint),
    /// The wheel rises no more as the arm goes on.
    Turnover,
    /// Nothing ended it within a quarter turn from the horizontal.
    Free,
}

/// How far the lower arm can swing with the wheels straight ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lowest arm angle, rad.
    pub low_rad: f64,
    /// Highest arm angle, rad.
    pub high_rad: f64,
    /// Wheel-centre height at the lowest angle, mm, body axes.
    pub low_mm: f64,
    /// Wheel-centre height at the highest angle, mm, body axes.
    pub high_mm: f64,
    /// What ends the swing down.
    pub low_end: End,
    /// What ends the swing up.
    pub high_end: End,
    /// A pose to start from: arm angle, wheel height and wheel rise for a radian.
    pub(crate) start: Option<Start>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Start {
    pub(crate) angle_rad: f64,
    pub(crate) height_mm: f64,
    pub(crate) rise_mm: f64,
}

impl Range {
    pub(crate) const EMPTY: Self = Self {
        low_rad: 0.0,
        high_rad: 0.0,
        low_mm: 0.0,
        high_mm: 0.0,
        low_end: End::Free,
        high_end: End::Free,
        start: None,
    };

    /// Whether the corner closes anywhere at all.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.start.is_none()
    }
}

/// Steepest angle an arm is followed to, rad: a quarter turn.
const STEEPEST_RAD: f64 = std::f64::consts::FRAC_PI_2;
/// Step of the search for the ends of the swing, rad: about two degrees.
pub(crate) const STEP_RAD: f64 = 0.035;

/// How far a corner's lower arm can swing.
pub(super) fn range(corner: &Corner) -> Range {
    let Some(start) = start(corner) else {
        return Range::EMPTY;
    };
    let (low_rad, low_end) = end(corner, start.angle_rad, -STEP_RAD);
    let (high_rad, high_end) = end(corner, start.angle_rad, STEP_RAD);
    let height = |angle| climb(corner, angle).map_or(start.height_mm, |(height, _)| height);
    Range {
        low_rad,
        high_rad,
        low_mm: height(low_rad),
        high_mm: height(high_rad),
        low_end,
        high_end,
        start: Some(start),
    }
}

/// Height of the wheel centre, and its rise for a radian of the arm.
fn climb(corner: &Corner, angle_rad: f64) -> Result<(f64, f64), Unreached> {
    let pose = corner.pose(angle_rad, Vector3::zeros())?;
    let motion = corner.bump_motion(&pose)?;
    Ok((pose.wheel_centre.z, motion.at(&pose.wheel_centre).z))
}

/// The rising pose nearest to the measured angle.
fn start(corner: &Corner) -> Option<Start> {
    let measured = corner.measured_angle_rad();
    let at = |angle_rad: f64| match climb(corner, angle_rad) {
        Ok((height_mm, rise_mm)) if rise_mm > 0.0 => Some(Start { angle_rad, height_mm, rise_mm }),
        _ => None,
    };
    (0..80).find_map(|step| {
        let offset = f64::from(step) * STEP_RAD;
        [measured + offset, measured - offset]
            .into_iter()
            .filter(|angle| angle.abs() <= STEEPEST_RAD)
            .find_map(at)
    })
}

/// The last good angle from `from` in steps of `step`, and what ended it.
fn end(corner: &Corner, from: f64, step: f64) -> (f64, End) {
    let why = |angle: f64| match climb(corner, angle) {
        Ok((_, rise)) if rise > 0.0 => None,
        Ok(_) => Some(End::Turnover),
        Err(Unreached::Open { joint, .. } | Unreached::DeadCentre(joint)) => Some(End::Joint(joint)),
        Err(_) => Some(End::Free),
    };
    let mut good = from;
    loop {
        let next = (good + step).clamp(-STEEPEST_RAD, STEEPEST_RAD);
        if (next - good).abs() < 1e-12 {
            return (good, End::Free);
        }
        let Some(mut reason) = why(next) else {
            good = next;
            continue;
        };
        let mut bad = next;
        // Thirty halvings of two degrees: far below anything a tape can tell.
        for _ in 0..30 {
            let middle = (good + bad) / 2.0;
            match why(middle) {
                None => good = middle,
                Some(nearer) => (bad, reason) = (middle, nearer),
            }
        }
        return (good, reason);
    }
}
