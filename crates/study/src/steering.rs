//! Steering: one relay rod, on arms or as a rack, moves the inner ends of both tie rods.
//!
//! The left corner is solved as it is. The right one is its mirror, and what is
//! `(dx, dy)` to the left inner end is `(dx, −dy)` to the mirrored one. A truck whose
//! sides differ has two corners, each mirrored to the left, on the one relay rod.

use crate::rest::Rest;
use linkage::{Attitude, Corner, Pose, Unreached, Vector3, root};
use truck::{Field, PitmanSide, SteeringKind, Truck};

/// What carries the relay rod between the inner ends of the tie rods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Relay {
    /// A rack: it moves straight across the truck.
    Rack,
    /// A pitman arm and an idler arm of equal length: every point of the relay rod
    /// runs on an arc of their length in a level plane.
    Arms {
        /// From the pivot to the relay rod, mm, > 0.
        length_mm: f64,
        /// Whether the pivots stand ahead of the relay rod, or behind it.
        ahead: bool,
    },
}

impl Relay {
    /// Both inner ends move by this where the relay rod has gone `side_mm` to the
    /// left, body axes, mm; `None` where its arms do not reach so far.
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

    /// The relay rod's move to the left that turns a left wheel to a heading at a
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
        let (side, pose) = self.towards(corner, wheel_mm, heading_rad)?;
        let had_rad = pose.heading_rad();
        if (had_rad - heading_rad).abs() <= 1e-9 {
            Ok((side, pose))
        } else {
            Err(Unreached::Heading { nearest_rad: had_rad })
        }
    }

    /// As [`Relay::at_heading`], or the nearest heading that can be had.
    fn towards(self, corner: &Corner, wheel_mm: f64, heading_rad: f64) -> Result<(f64, Pose), Unreached> {
        let pose = |side: f64| corner.at_height(wheel_mm, self.move_mm(side)?).ok();
        let middle = corner.at_height(wheel_mm, Vector3::zeros())?;
        let towards = (heading_rad - middle.heading_rad()).signum();
        // How far beyond the wanted heading it is turned there, rad; below zero short of it.
        let beyond = |side: f64| Some((pose(side)?.heading_rad() - heading_rad) * towards);
        let start = beyond(0.0).ok_or(Unreached::Idle)?;
        if start >= 0.0 {
            return Ok((0.0, middle));
        }
        let way = match (beyond(PROBE_MM), beyond(-PROBE_MM)) {
            (Some(left), _) if left > start => 1.0,
            (_, Some(right)) if right > start => -1.0,
            _ => return Ok((0.0, middle)),
        };
        let (mut side, mut reached) = (0.0, start);
        let mut step = STEP_MM;
        while step > 1e-7 && side < MOST_MM {
            match beyond(way * (side + step)) {
                Some(next) if next >= 0.0 => {
                    let found = root::bracketed(beyond, way * side, way * (side + step), 1e-9);
                    side = found.ok_or(Unreached::Idle)? * way;
                    break;
                }
                // On the rise still, and not past a top that lies inside the step.
                Some(next)
                    if next > reached
                        && beyond(way * (side + step / 2.0)).is_some_and(|half| half < next) =>
                {
                    (side, reached) = (side + step, next);
                }
                _ => step /= 2.0,
            }
        }
        pose(way * side).map(|pose| (way * side, pose)).ok_or(Unreached::Idle)
    }
}

/// A move of the relay rod that tells which way it steers, mm.
const PROBE_MM: f64 = 0.5;
/// Steps of the search for a heading, mm.
const STEP_MM: f64 = 12.0;
/// No relay rod of a pickup goes farther to one side, mm.
const MOST_MM: f64 = 300.0;

/// A lock that a proposal's parts do not reach is taken back to this share of it, and again, until they do.
const SHORTENED: f64 = 0.98;

/// The steering of a truck, from lock to lock.
///
/// The relay rod's way to each lock belongs to the steering box, so it is that of
/// the truck as measured, whatever a proposal hangs on the relay rod.
///
/// That of a right corner ([`truck::OneSide`]) is mirrored as the corner is: its left is the
/// truck's right, where the relay rod goes as far as the left wheel's lock there says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steering {
    /// What carries the relay rod.
    pub relay: Relay,
    /// Steered fully to the left.
    pub left: Lock,
    /// Steered fully to the right.
    pub right: Lock,
}

/// Full lock on one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lock {
    /// How far the relay rod has gone, + to the left of the truck, mm.
    pub side_mm: f64,
    /// The corner's heading there with the truck at rest, + to the left, rad.
    pub heading_rad: f64,
    /// Where the linkage does not reach the lock that was measured, as measured
    /// or with the proposal's parts: the left wheel's heading that was measured, rad.
    pub short_of_rad: Option<f64>,
}

/// Why there is no steering.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoSteering {
    /// Numbers that are not stated.
    #[error("not stated: {}", .0.iter().map(|field| field.label()).collect::<Vec<_>>().join("; "))]
    NotStated(Vec<Field>),
    /// The wheel does not even stand straight ahead.
    #[error(transparent)]
    Unreached(#[from] Unreached),
}

impl Steering {
    /// The steering of a truck at rest.
    ///
    /// # Errors
    /// [`NoSteering`] names the numbers that are missing.
    pub fn of(rest: &Rest) -> Result<Self, NoSteering> {
        let truck = &rest.fitted.measured;
        let relay = relay_of(truck)?;
        let steering = &truck.steering;
        let (Some(left_rad), Some(right_rad)) = (steering.lock_left_rad, steering.lock_right_rad) else {
            return Err(not_stated(truck, &[Field::LockLeft, Field::LockRight]));
        };
        // Both locks are the left wheel's; a right corner sees the relay rod go the other way.
        let (points, sign) = (truck.left_wheel(), truck.side().sign());
        let measured = Corner::of(points, truck.loaded_radius_mm()).map_err(|_| Unreached::Idle)?;
        let lock = |heading_rad: f64| {
            let (left_mm, pose) = relay.towards(&measured, points.wheel_centre.z, heading_rad)?;
            let mut side_mm = sign * left_mm;
            let mut short = (pose.heading_rad() - heading_rad).abs() > 1e-9;
            let height = rest.pose.wheel_centre.z;
            let at = |side: f64| rest.corner.at_height(height, relay.move_mm(side)?).ok();
            while at(side_mm).is_none() && side_mm.abs() > 1e-6 {
                short = true;
                side_mm *= SHORTENED;
            }
            let pose = at(side_mm).ok_or(Unreached::Idle)?;
            let short_of_rad = short.then_some(heading_rad);
            Ok::<_, Unreached>(Lock { side_mm, heading_rad: pose.heading_rad(), short_of_rad })
        };
        let (left, right) = (lock(left_rad)?, lock(-right_rad)?);
        Ok(if sign > 0.0 { Self { relay, left, right } } else { Self { relay, left: right, right: left } })
    }

    /// The relay rod's move to the left at a share of the lock, −1 full right to 1 full left, mm.
    #[must_use]
    pub fn side_mm(&self, steer: f64) -> f64 {
        if steer < 0.0 { -steer * self.right.side_mm } else { steer * self.left.side_mm }
    }

    /// The share of the lock at which the left wheel has a heading with the
    /// truck at rest; the lock itself where it lies beyond.
    #[must_use]
    pub fn steer_at(&self, rest: &Rest, heading_rad: f64) -> f64 {
        let way = if heading_rad > rest.pose.heading_rad() { 1.0 } else { -1.0 };
        let over = |steer: f64| Some((self.pose(rest, 0.0, steer).ok()?.heading_rad() - heading_rad) * way);
        root::bracketed(over, 0.0, way, 1e-9).unwrap_or(way)
    }

    /// The left wheel's pose at a travel from rest, mm, and a share of the lock.
    ///
    /// # Errors
    /// [`Unreached`] where the wheel cannot go.
    pub fn pose(&self, rest: &Rest, travel_mm: f64, steer: f64) -> Result<Pose, Unreached> {
        let moved = self.relay.move_mm(self.side_mm(steer)).ok_or(Unreached::Idle)?;
        rest.corner.at_height(rest.pose.wheel_centre.z + travel_mm, moved)
    }

    /// Both wheels at a travel from where each stands at rest, mm, and a share of the lock, by the
    /// steering of the left corner.
    ///
    /// # Errors
    /// [`Unreached`] where a wheel cannot go.
    pub fn turn(&self, left: &Rest, right: &Rest, travel_mm: f64, steer: f64) -> Result<Turn, Unreached> {
        let heights = [left, right].map(|rest| rest.pose.wheel_centre.z + travel_mm);
        Turn::between([&left.corner, &right.corner], self.relay, heights, self.side_mm(steer))
    }
}

/// What carries a truck's relay rod.
///
/// # Errors
/// [`NoSteering::NotStated`].
fn relay_of(truck: &Truck) -> Result<Relay, NoSteering> {
    let steering = &truck.steering;
    let kind = steering.kind.ok_or_else(|| not_stated(truck, &[Field::SteeringKind]))?;
    if kind == SteeringKind::Rack {
        return Ok(Relay::Rack);
    }
    let (Some(length_mm), Some(side)) = (steering.pitman_mm, steering.pitman_side) else {
        return Err(not_stated(truck, &[Field::PitmanLength, Field::PitmanSide]));
    };
    Ok(Relay::Arms { length_mm, ahead: side == PitmanSide::Ahead })
}

fn not_stated(truck: &Truck, needed: &[Field]) -> NoSteering {
    let open = needed.iter().copied().filter(|field| field.get(truck).is_none());
    NoSteering::NotStated(open.collect())
}

/// Both front wheels with the relay rod somewhere.
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
    /// How far the contact of each wheel has come ahead of the front axle as measured, the left one first, mm.
    pub ahead_mm: [f64; 2],
}

impl Turn {
    /// Both wheels, each corner mirrored to the left and at its own height of the wheel
    /// centre, mm, body axes, the left one first; the relay rod `side_mm` to the left.
    ///
    /// # Errors
    /// [`Unreached`] where relay rod or wheel cannot go.
    pub fn between(
        corners: [&Corner; 2],
        relay: Relay,
        wheels_mm: [f64; 2],
        side_mm: f64,
    ) -> Result<Self, Unreached> {
        let moved = relay.move_mm(side_mm).ok_or(Unreached::Idle)?;
        let left = corners[0].at_height(wheels_mm[0], moved)?;
        let right = corners[1].at_height(wheels_mm[1], Vector3::new(moved.x, -moved.y, moved.z))?;
        let attitude = corners[0].attitude(&left);
        let contacts = [attitude.contact, corners[1].attitude(&right).contact];
        Ok(Self {
            left_rad: left.heading_rad(),
            right_rad: -right.heading_rad(),
            left,
            right,
            attitude,
            track_mm: contacts[0].y + contacts[1].y,
            ahead_mm: contacts.map(|contact| contact.x),
        })
    }

    fn turns_left(&self) -> bool {
        self.left_rad + self.right_rad >= 0.0
    }

    /// How far the wheel inside the turn and the one outside it are turned, rad, >= 0 in a turn.
    #[must_use]
    pub fn inner_outer_rad(&self) -> (f64, f64) {
        if self.turns_left() { (self.left_rad, self.right_rad) } else { (-self.right_rad, -self.left_rad) }
    }

    /// From the rear axle to the contacts of the inner and the outer wheel, along the truck, mm.
    fn inner_outer_mm(&self, wheelbase_mm: f64) -> (f64, f64) {
        let [left, right] = self.ahead_mm.map(|ahead| wheelbase_mm + ahead);
        if self.turns_left() { (left, right) } else { (right, left) }
    }

    /// What the outer wheel would be turned by for both to roll about one point in
    /// the line of the rear axle, rad: `L cot` of the outer wheel less that of the
    /// inner is the track, each `L` from the rear axle to that wheel's own contact,
    /// which a turn carries fore or aft about the steering axis.
    ///
    /// # Source
    /// Any chassis text, "Ackermann steering", for one `L`.
    #[must_use]
    pub fn ideal_outer_rad(&self, wheelbase_mm: f64) -> f64 {
        let (sin, cos) = linkage::angle::sincos(self.inner_outer_rad().0);
        let (inner, outer) = self.inner_outer_mm(wheelbase_mm);
        libm::atan2(outer * sin, inner * cos + self.track_mm * sin)
    }

    /// Diameter of the circle that the middle of the outer tire runs on, mm,
    /// where that wheel is turned by `outer_rad`; `None` straight ahead.
    #[must_use]
    pub fn circle_mm(&self, wheelbase_mm: f64, outer_rad: f64) -> Option<f64> {
        let sin = linkage::angle::sin(outer_rad);
        (sin > 1e-3).then(|| 2.0 * self.inner_outer_mm(wheelbase_mm).1 / sin)
    }
}
