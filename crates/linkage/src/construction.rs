//! Instant centre and roll centre: from the true motion, and as drawn on a board.
//!
//! The two agree only when the tie rod's line meets the line in which the
//! planes of the arms cross. The true one is the one to report; the board's
//! lines are construction lines.

use crate::corner::Corner;
use crate::error::Unreached;
use crate::members::Axis;
use crate::motion::Motion;
use crate::pose::Pose;
use nalgebra::{Point3, Vector2};

/// A point of the front view. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrontPoint {
    /// To the left.
    pub y: f64,
    /// Up.
    pub z: f64,
}

/// Instant centre and roll centre in front view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InstantCentre {
    /// Instant centre, mm, body axes; none where it lies at infinity.
    pub centre: Option<FrontPoint>,
    /// From the contact towards the instant centre, as rise over run `dz/dy`;
    /// none where it stands upright over the contact.
    pub slope: Option<f64>,
    /// Height of the roll centre above the ground of the pose, mm; none where
    /// the line does not cross the centreline.
    pub roll_centre_mm: Option<f64>,
}

impl InstantCentre {
    /// From the contact and the homogeneous direction towards the centre.
    fn seen_from(contact: &Point3<f64>, towards: Vector2<f64>, weight: f64) -> Self {
        let far = 1e-9 * towards.norm_squared().sqrt();
        let centre = (weight.abs() > far * 1e-3)
            .then(|| FrontPoint { y: contact.y + towards.x / weight, z: contact.z + towards.y / weight });
        let slope = (towards.x.abs() > far).then(|| towards.y / towards.x);
        Self { centre, slope, roll_centre_mm: slope.map(|s| -s * contact.y) }
    }
}

/// Instant centre from the knuckle's motion in bump, the steering held.
///
/// The line from the contact to the centre is square to the velocity of the
/// knuckle's point at the contact; camber change per movement gives its length.
///
/// # Source
/// Roll centre as in ISO 8855: the point at which a lateral force on the body
/// makes no roll.
#[must_use]
pub fn from_motion(pose: &Pose, motion: &Motion, loaded_radius_mm: f64) -> InstantCentre {
    let contact = pose.contact(loaded_radius_mm);
    let velocity = motion.at(&contact);
    let spin_rate = motion.turning.cross(&pose.spin);
    let turning = spin_rate.z / crate::axes::horizontal(&pose.spin);
    InstantCentre::seen_from(&contact, Vector2::new(-velocity.z, velocity.y), turning)
}

/// Instant centre as drawn on a board: the planes of the two arms, cut at the
/// contact's place along the truck, cross in it.
#[must_use]
pub fn drawing_board(pose: &Pose, lower: &Axis, upper: &Axis, loaded_radius_mm: f64) -> InstantCentre {
    let contact = pose.contact(loaded_radius_mm);
    let (b1, c1, e1) = cut(lower, &pose.lower_ball, contact.x);
    let (b2, c2, e2) = cut(upper, &pose.upper_ball, contact.x);
    let weight = b1 * c2 - b2 * c1;
    let y = e1 * c2 - e2 * c1;
    let z = b1 * e2 - b2 * e1;
    let towards = Vector2::new(y - weight * contact.y, z - weight * contact.z);
    InstantCentre::seen_from(&contact, towards, weight)
}

/// An arm's plane cut across the truck at `x`: the line `b y + c z = e`, `(b, c)` unit.
fn cut(axis: &Axis, ball: &Point3<f64>, x: f64) -> (f64, f64, f64) {
    let normal = (axis.front - axis.rear).cross(&(ball - axis.rear));
    let size = (normal.y * normal.y + normal.z * normal.z).sqrt().max(f64::MIN_POSITIVE);
    let e = normal.dot(&axis.rear.coords) - normal.x * x;
    (normal.y / size, normal.z / size, e / size)
}

impl Corner {
    /// Instant centre and roll centre from the knuckle's own motion, the steering held.
    ///
    /// # Errors
    /// As [`Corner::travel_rates`].
    pub fn instant_centre(&self, pose: &Pose) -> Result<InstantCentre, Unreached> {
        Ok(from_motion(pose, &self.bump_motion(pose)?, self.loaded_radius_mm()))
    }
}
