//! What was read off a truck beside what the model says of it as it sits.
//!
//! What can be read off is not worked out from a tape. A reading belongs to the truck before any
//! change; of any other truck its answer is the reading and what the model says has changed:
//! reading + (model's there − model's as it sits). However far off the points are, that leaves the
//! reading's own error and the change's, which is small. Where another thing is nearest there, or
//! another thing ends the droop, the change is from the one to the other, and rests on both.
//!
//! A reading says nothing of what meets first or ends the travel, nor of how near two things
//! come elsewhere than as it sits, unless they never move against each other.

use crate::clearance::{Pair, clearance};
use crate::distance::TireSolid;
use crate::grid::Clearances;
use crate::rest::Rest;
use crate::travel_left::travel_left_of;
use linkage::Pose;
use truck::Readable;

/// What was read, and what the model says of the same truck as it sits. Core units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AsRead {
    /// The answer that the reading gives.
    pub answer: f64,
    /// How far off that may be either way.
    pub tolerance: f64,
    /// The model's own as it sits; `None` where a number that it needs is not stated.
    pub model: Option<f64>,
    /// Whether the truck that is asked about is the one that was read.
    as_it_sits: bool,
}

impl AsRead {
    /// What was read of an answer at the side that a truck stands for; `None` where nothing was.
    /// The droop is looked for on a grid of `count` by `count` poses.
    pub(crate) fn of(rest: &Rest, of: Readable, count: u32) -> Option<Self> {
        let truck = &rest.fitted.measured;
        let reading = truck.readings.get(of, truck.side())?;
        let before = rest.as_it_sits()?;
        let (as_it_sits, model) = (before == rest, model(of, before, count));
        Some(Self { answer: reading.answer(), tolerance: reading.answer_tolerance(), model, as_it_sits })
    }

    /// The answer of a truck of which the model says `own`.
    #[must_use]
    pub fn told(&self, own: Option<f64>) -> Option<f64> {
        match (own, self.model) {
            (Some(own), Some(model)) => Some(self.answer + (own - model)),
            // The model need not know it for the truck to have been read.
            (None, None) if self.as_it_sits => Some(self.answer),
            (own, _) => own,
        }
    }
}

/// What is told of an answer that can be read off a truck, of which the model says `own`.
#[must_use]
pub fn as_told(rest: &Rest, of: Readable, own: f64) -> f64 {
    with_tolerance(rest, of, own).0
}

/// What is told of the room of a pair, mm, of which the model says `own_mm`: as read off the truck, where
/// it was.
#[must_use]
pub fn room_as_told(rest: &Rest, pair: Pair, own_mm: f64) -> f64 {
    room_with_tolerance(rest, pair, own_mm).0
}

/// As [`room_as_told`], and how far off what was read may be either way, mm; nothing where it was not
/// read.
pub(crate) fn room_with_tolerance(rest: &Rest, pair: Pair, own_mm: f64) -> (f64, f64) {
    Readable::from_key(pair.key()).map_or((own_mm, 0.0), |of| with_tolerance(rest, of, own_mm))
}

fn with_tolerance(rest: &Rest, of: Readable, own: f64) -> (f64, f64) {
    if rest.fitted.measured.readings.is_empty() {
        return (own, 0.0);
    }
    let read = AsRead::of(rest, of, Clearances::LIVE);
    read.and_then(|read| Some((read.told(Some(own))?, read.tolerance))).unwrap_or((own, 0.0))
}

/// What the model says of a truck as it sits of an answer that can be read off it, in the core's
/// unit; `None` where a number that it needs is not stated.
#[must_use]
pub fn model_as_it_sits(of: Readable, rest: &Rest) -> Option<f64> {
    model(of, rest, Clearances::LIVE)
}

fn model(of: Readable, rest: &Rest, count: u32) -> Option<f64> {
    Some(match of {
        Readable::FrameHeight => rest.ride_height_mm(),
        Readable::Camber => rest.attitude().camber_rad,
        Readable::Toe => rest.attitude().toe_rad,
        // Against the ground, along which the frame lies as it sits.
        Readable::Caster => rest.attitude().caster_rad,
        Readable::Inclination => rest.attitude().inclination_rad,
        Readable::Droop => travel_left_of(rest, &Clearances::that_meet(rest, count)).droop.travel_mm,
        Readable::StopDaylight => stop_daylight_mm(rest, &rest.pose),
        Readable::FenderAbove => fender_above_mm(rest, &rest.pose),
        pair => clearance(rest, &rest.pose, Pair::from_key(pair.key())?)?.distance_mm,
    })
}

/// Daylight between the bump stop and what it meets, mm; negative where it is squeezed.
pub(crate) fn stop_daylight_mm(rest: &Rest, pose: &Pose) -> f64 {
    (rest.stops.touch_rad - pose.lower_arm_rad) * rest.fitted.stops.bump_radius_mm
}

/// From the top of the tire straight up to the height of the fender's lip, mm; negative where
/// the tire stands up behind the lip.
///
/// # Source
/// The highest point of a circle about a leaning axis lies over its centre by the radius times
/// the cosine of the lean.
pub(crate) fn fender_above_mm(rest: &Rest, pose: &Pose) -> f64 {
    let lean = pose.spin.z;
    let top = pose.wheel_centre.z + TireSolid::of(&rest.fitted, pose).radius_mm * (1.0 - lean * lean).sqrt();
    rest.fitted.measured.body.fender.lip_z_mm - top
}
