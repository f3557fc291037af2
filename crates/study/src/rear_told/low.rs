//! What hangs low between the rear wheels, and how high frame and bumpers are, under the worst load.
//!
//! The line is that of the front axle: from the lowest edge of the rim on one side to the bottom of the tire
//! on the other, both ways. What is fixed to the axle stays as high under any load, since tires are taken as
//! stiff there too; what hangs on the frame sinks with it, and with the nose where it is behind or ahead.

use super::studied::RearStudied;
use crate::rear::{Leaf, LeafPose, RearRest};
use crate::scrub_line::line_mm;
use crate::stance::down_at_mm;
use truck::{LoadCase, RearField};

/// A point between the rear wheels: from the middle of the truck, and above the ground, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hanging {
    pub(super) y_mm: f64,
    pub(super) z_mm: f64,
}

impl RearStudied {
    /// The rims' lowest edge above the ground, mm: another tire stands on the same rims.
    pub(super) fn rim_mm(&self) -> Option<f64> {
        Some(self.number(RearField::RimEdge)? - self.smaller_mm()?)
    }

    /// How far a point is over the higher of the two lines at its place, mm; negative below.
    pub(super) fn over_line_mm(&self, at: Hanging) -> Option<f64> {
        let half = |field| Some(self.number(field)? / 2.0);
        let rim = (half(RearField::RimsApart)?, self.rim_mm()?);
        Some(at.z_mm - line_mm(rim, half(RearField::TiresApart)?, at.y_mm))
    }

    /// The same, over the rims' lowest edge.
    pub(super) fn over_rim_mm(&self, at: Hanging) -> Option<f64> {
        Some(at.z_mm - self.rim_mm()?)
    }

    /// The lowest point of what is fixed to the axle: straight below its middle, where a wedge turns it by
    /// nothing that counts.
    pub(super) fn axle_low(&self) -> Option<Hanging> {
        let z_mm = self.number(RearField::AxleLow)? - self.smaller_mm()?;
        Some(Hanging { y_mm: self.number(RearField::AxleLowAside)?, z_mm })
    }

    /// The U-bolt plate. Under an axle it goes with the axle; under a spring whose axle is on top it goes
    /// with the spring, which a block takes away from the axle. On the other side of the spring, or under
    /// another one, nobody has measured it.
    pub(super) fn plate_low(&self) -> Option<Hanging> {
        let seat_mm = self.number(RearField::Seat)?;
        let other_spring = self.parts.flatter_mm != 0.0 || self.parts.rate_n_per_mm.is_some();
        let is_under_spring = seat_mm < 0.0;
        if self.parts.is_flipped || is_under_spring && other_spring {
            return None;
        }
        let lower_mm = if is_under_spring { seat_mm - self.parts.seat_mm(seat_mm) } else { 0.0 };
        let z_mm = self.number(RearField::PlateLow)? - lower_mm - self.smaller_mm()?;
        Some(Hanging { y_mm: self.number(RearField::PlateLowAside)?, z_mm })
    }

    /// The lowest point of the shackle, and the load under which it is lowest. It is taken to be where the
    /// springs are, from the middle of the truck.
    pub(super) fn shackle_low(&self) -> Option<(Hanging, &'static str)> {
        self.rest()?;
        let low_mm = self.number(RearField::ShackleLow)?;
        let y_mm = self.number(RearField::SpringsApart)? / 2.0;
        let (leaf, curvature) = Leaf::measured(&self.rear).ok()?;
        let first = leaf.pose(curvature)?;
        let hung = leaf.hung(&self.parts)?;
        let seat_mm = self.number(RearField::Seat).unwrap_or(0.0);
        // The end that was the lower one is the lower one still: the eye, or the bolt in its hanger.
        let is_eye = first.eye.1 < leaf.hanger.1;
        let end = |leaf: &Leaf, pose: &LeafPose| if is_eye { pose.eye } else { leaf.hanger };
        let was = end(&leaf, &first);
        let towards_rear = if self.rear.shackle_is_ahead() { -1.0 } else { 1.0 };
        let ahead_mm = -self.wheelbase_mm - towards_rear * (was.0 - first.axle(seat_mm).0);
        let (z_mm, load) = self.lowest(ahead_mm, &|rest| {
            let up_mm = end(&hung, &rest.spring?).1 - was.1;
            Some(low_mm + up_mm)
        })?;
        Some((Hanging { y_mm, z_mm }, load))
    }

    /// The bottom of the frame over the rear axle, above the ground, mm, and the load under which it is lowest.
    pub(super) fn frame_low(&self) -> Option<(f64, &'static str)> {
        self.lowest_at(RearField::FrameHeight, -self.wheelbase_mm)
    }

    /// The same of the front bumper's lower edge.
    pub(super) fn front_bumper(&self) -> Option<(f64, &'static str)> {
        self.lowest_at(RearField::FrontBumper, self.number(RearField::FrontBumperAhead)?)
    }

    /// The same of the rear bumper's lower edge.
    pub(super) fn rear_bumper(&self) -> Option<(f64, &'static str)> {
        let behind_mm = self.number(RearField::RearBumperBehind)?;
        self.lowest_at(RearField::RearBumper, -self.wheelbase_mm - behind_mm)
    }

    fn lowest_at(&self, field: RearField, ahead_mm: f64) -> Option<(f64, &'static str)> {
        let height_mm = self.number(field)?;
        self.lowest(ahead_mm, &|_| Some(height_mm))
    }

    /// The least height of what is so high in the frame's axes, so far ahead of the front axle, mm, and under
    /// which load; of two that are alike the one that carries less.
    fn lowest(
        &self,
        ahead_mm: f64,
        height_mm: &dyn Fn(&RearRest) -> Option<f64>,
    ) -> Option<(f64, &'static str)> {
        let empty_mm = self.loaded[0].as_ref()?.down_mm;
        let down_mm = self.down_mm()?;
        let mut lowest: Option<(f64, &'static str)> = None;
        for (at, rest) in self.loaded.iter().enumerate() {
            let (Some(rest), Some(more_mm)) = (rest, self.front_more[at]) else { continue };
            let front_mm = self.front_down_mm + more_mm;
            let rear_mm = down_mm + rest.down_mm - empty_mm;
            let lowered_mm = down_at_mm(ahead_mm, front_mm, rear_mm, self.wheelbase_mm);
            let mm = height_mm(rest)? - lowered_mm;
            if lowest.is_none_or(|(other_mm, _)| mm < other_mm - 1e-6) {
                lowest = Some((mm, LoadCase::ALL[at].label()));
            }
        }
        lowest
    }
}
