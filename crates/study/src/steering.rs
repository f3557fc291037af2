//! Steering: one link moves the inner ends of both tie rods.
//!
//! The left corner is solved as it is. The right one is its mirror, and what is
//! `(dx, dy)` to the left inner end is `(dx, −dy)` to the mirrored one.

use linkage::{Attitude, Corner, Pose, Unreached, Vector3, root};

/// What carries the link between the inner ends of the tie rods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Link {
    /// A rack: it moves straight across the truck.
    Rack,
    /// A pitman arm and an idler arm of equal length: every point of the link
    /// runs on an arc of their length in a level plane.
    Arms {
        /// From the pivot to the link, mm, > 0.
        length_mm: f64,
        /// Whether the pivots stand ahead of the link, or behind it.
        ahead: bool,
    },
}

impl Link {
    /// Both inner ends move by this where the link has gone `side_mm` to the
    /// left, body axes, mm; nothing where its arms do not reach so far.
    ///
    /// With the wheels straight ahead the arms point along the truck.
    #[must_use]
    pub fn move_mm(self, side_mm: f64) -> Option<Vector3<f64>> {
        let Self::Arms { length_mm, ahead } = self else {
            return Some(Vector3::new(0.0, side_mm, 0.0));
        };
        let height_squared = length_mm * length_mm - side_mm * side_mm;
        if height_squared <= 0.0 {
            return None;
        }
        // The arc's height, without the difference of two nearly equal lengths.
        let back = side_mm * side_mm / (length_mm + height_squared.sqrt());
        Some(Vector3::new(if ahead { back } else { -back }, side_mm, 0.0))
    }

    /// The link's move to the left that turns a left wheel to a heading at a
    /// height of its centre, and the pose there.
    ///
    /// `wheel_mm`: height of the wheel centre, body axes, mm. `heading_rad`: + to the left.
    ///
    /// # Errors
    /// [`Unreached::Heading`] with the nearest heading, or [`Unreached`] where
    /// the wheel does not get to that height even straight ahead.
    ///
    /// # Accuracy
    /// The heading is met within 1e-9 rad.
    pub fn at_heading(
        self,
        corner: &Corner,
        wheel_mm: f64,
        heading_rad: f64,
    ) -> Result<(f64, Pose), Unreached> {
        let pose = |side: f64| corner.at_height(wheel_mm, self.move_mm(side)?).ok();
        let heading = |side: f64| Some(pose(side)?.heading_rad());
        let middle = corner.at_height(wheel_mm, Vector3::zeros())?;
        let towards = (heading_rad - middle.heading_rad()).signum();
        // How much of what is wanted is had there.
        let gained = |side: f64| Some((heading(side)? - heading_rad) * towards);
        let start = gained(0.0).ok_or(Unreached::Idle)?;
        if start >= 0.0 {
            return Ok((0.0, middle));
        }
        let way = match (gained(PROBE_MM), gained(-PROBE_MM)) {
            (Some(left), _) if left > start => 1.0,
            (_, Some(right)) if right > start => -1.0,
            _ => return Err(Unreached::Idle),
        };
        let (mut side, mut had) = (0.0, start);
        let mut step = STEP_MM;
        while step > 1e-7 && side < MOST_MM {
            match gained(way * (side + step)) {
                Some(next) if next >= 0.0 => {
                    let found = root::bracketed(gained, way * side, way * (side + step), 1e-9);
                    let found = found.ok_or(Unreached::Idle)?;
                    return pose(found).map(|pose| (found, pose)).ok_or(Unreached::Idle);
                }
                // On the rise still, and not past a top that lies inside the step.
                Some(next)
                    if next > had && gained(way * (side + step / 2.0)).is_some_and(|half| half < next) =>
                {
                    (side, had) = (side + step, next);
                }
                _ => step /= 2.0,
            }
        }
        Err(Unreached::Heading { nearest_rad: heading_rad + had * towards })
    }
}

/// A move of the link that tells which way it steers, mm.
const PROBE_MM: f64 = 0.5;
/// Steps of the search for a heading, mm.
const STEP_MM: f64 = 12.0;
/// No link of a pickup goes farther to one side, mm.
const MOST_MM: f64 = 300.0;

/// Both front wheels with the link somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// The left wheel's pose.
    pub left: Pose,
    /// The right wheel's pose, mirrored to the left side.
    pub right: Pose,
    /// The left wheel's heading, + to the left, rad.
    pub left_rad: f64,
    /// The right wheel's heading, + to the left, rad.
    pub right_rad: f64,
    /// What a gauge reads at the left wheel, body axes.
    pub attitude: Attitude,
    /// Between the two contacts, across the truck, mm.
    pub track_mm: f64,
}

impl Turn {
    /// Both wheels at one height of their centres, mm, body axes, the link
    /// `side_mm` to the left.
    ///
    /// # Errors
    /// [`Unreached`] where link or wheel cannot go.
    pub fn at(corner: &Corner, link: Link, wheel_mm: f64, side_mm: f64) -> Result<Self, Unreached> {
        let moved = link.move_mm(side_mm).ok_or(Unreached::Idle)?;
        let left = corner.at_height(wheel_mm, moved)?;
        let right = corner.at_height(wheel_mm, Vector3::new(moved.x, -moved.y, moved.z))?;
        let attitude = corner.attitude(&left);
        let track_mm = attitude.contact.y + corner.attitude(&right).contact.y;
        let (left_rad, right_rad) = (left.heading_rad(), -right.heading_rad());
        Ok(Self { left, right, left_rad, right_rad, attitude, track_mm })
    }

    /// How far the wheel inside the turn and the one outside it are turned, rad, >= 0 in a turn.
    #[must_use]
    pub fn inner_outer_rad(&self) -> (f64, f64) {
        if self.left_rad + self.right_rad >= 0.0 {
            (self.left_rad, self.right_rad)
        } else {
            (-self.right_rad, -self.left_rad)
        }
    }

    /// What the outer wheel would be turned by for both to roll about one
    /// point in the line of the rear axle: `cot(outer) − cot(inner) = track / wheelbase`, rad.
    ///
    /// # Source
    /// Any chassis text, "Ackermann steering".
    #[must_use]
    pub fn ideal_outer_rad(&self, wheelbase_mm: f64) -> f64 {
        let (sin, cos) = libm::sincos(self.inner_outer_rad().0);
        libm::atan2(sin, cos + sin * self.track_mm / wheelbase_mm)
    }

    /// Diameter of the circle that the middle of the outer tire runs on, mm,
    /// where that wheel is turned by `outer_rad`; nothing straight ahead.
    #[must_use]
    pub fn circle_mm(wheelbase_mm: f64, outer_rad: f64) -> Option<f64> {
        let sin = libm::sin(outer_rad);
        (sin > 1e-3).then(|| 2.0 * wheelbase_mm / sin)
    }
}
