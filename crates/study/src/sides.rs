//! Left and right of a truck at rest, side by side.
//!
//! Each side is solved on its own with the body level across the truck: what one spring does to
//! the other side through the frame or an anti-roll bar is told by [`lean`](crate::lean::lean).

use crate::as_read::as_told;
use crate::quantity::Quantity;
use crate::rest::Rest;
use linkage::Attitude;
use truck::Readable;

/// A number of both sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftRight {
    /// Which.
    pub quantity: Quantity,
    /// At the left, in the core's unit.
    pub left: f64,
    /// At the right, in the core's unit.
    pub right: f64,
}

impl LeftRight {
    /// What is compared, in this order.
    pub const QUANTITIES: [Quantity; 7] = [
        Quantity::RideHeight,
        Quantity::Camber,
        Quantity::Caster,
        Quantity::Inclination,
        Quantity::Toe,
        Quantity::HalfTrack,
        Quantity::WheelX,
    ];

    /// What an alignment shop makes of the two, in the core's unit: left less right, of
    /// toe and track the sum.
    ///
    /// # Source
    /// Common practice: cross camber and cross caster are left less right, total toe is the
    /// sum, set-back is plus where the right wheel stands farther back.
    #[must_use]
    pub fn together(&self) -> f64 {
        if self.is_sum() { self.left + self.right } else { self.left - self.right }
    }

    /// Whether the two are added: of the others the difference is told.
    #[must_use]
    pub const fn is_sum(&self) -> bool {
        matches!(self.quantity, Quantity::Toe | Quantity::HalfTrack)
    }

    /// What people call that of a quantity, and its name in tables.
    #[must_use]
    pub const fn named(quantity: Quantity) -> (&'static str, &'static str) {
        match quantity {
            Quantity::Camber => ("Cross camber", "cross_camber"),
            Quantity::Caster => ("Cross caster", "cross_caster"),
            Quantity::Inclination => ("Cross inclination", "cross_inclination"),
            Quantity::Toe => ("Total toe", "total_toe"),
            Quantity::HalfTrack => ("Track", "track"),
            Quantity::WheelX => ("Set-back, right wheel behind the left", "set_back"),
            _ => ("Left higher than right by", "left_higher"),
        }
    }
}

/// Left and right of a truck at rest: ride height, camber, caster, inclination, toe,
/// half of the track, and how far forward the wheel centre stands.
///
/// Caster is against the frame, which is common to both sides whatever the rake.
#[must_use]
pub fn left_and_right(left: &Rest, right: &Rest) -> [LeftRight; 7] {
    let [left_read, right_read] = [left, right].map(Rest::attitude);
    LeftRight::QUANTITIES.map(|quantity| {
        let of = |rest: &Rest, read: &Attitude| match quantity {
            Quantity::Camber => read.camber_rad,
            Quantity::Caster => read.caster_rad,
            Quantity::Inclination => read.inclination_rad,
            Quantity::Toe => read.toe_rad,
            Quantity::HalfTrack => read.contact.y,
            Quantity::WheelX => rest.pose.wheel_centre.x,
            _ => rest.ride_height_mm(),
        };
        let told = |rest: &Rest, read: &Attitude| match readable(quantity) {
            Some(what) => as_told(rest, what, of(rest, read)),
            None => of(rest, read),
        };
        LeftRight { quantity, left: told(left, &left_read), right: told(right, &right_read) }
    })
}

/// What of one side may have been read off it.
const fn readable(quantity: Quantity) -> Option<Readable> {
    Some(match quantity {
        Quantity::RideHeight => Readable::FrameHeight,
        Quantity::Camber => Readable::Camber,
        // The frame is the ground as it sits.
        Quantity::Caster => Readable::Caster,
        Quantity::Inclination => Readable::Inclination,
        Quantity::Toe => Readable::Toe,
        _ => return None,
    })
}
