//! How the rear stands on its leaf springs, with a proposal's parts on it.
//!
//! Seen from the side, both springs alike, the frame standing still: what moves is the axle. A
//! spring that is hung or seated otherwise carries the same load, so it finds the curvature at which
//! the work of spring and load balance; without its load and rate it is taken to keep its arch,
//! which is exact where only the seat moves.

mod leaf;
mod rail;
mod shaft;

pub use leaf::{Leaf, LeafPose};
pub use rail::Channel;
pub(crate) use shaft::WITHIN;
pub use shaft::{Joints, SWING_LIMIT_RAD_PER_S2, Shaft};

use linkage::root::bracketed;
use std::fmt;
use truck::{Fitted, RearAxle, RearField, RearParts, TAPE_MM};

/// Why nothing can be said of how the rear stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoRear {
    /// A number that its parts hang on is not stated.
    NotStated(RearField),
    /// The numbers of the spring are no spring between two eyes.
    NoSpring,
    /// The shackle does not reach its eye.
    ShackleOut,
    /// The spring finds no arch at which it carries its load.
    NoBalance,
    /// What the plan says of its rear is not what its parts make of it.
    SaidOtherwise,
}

impl fmt::Display for NoRear {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotStated(field) => {
                f.write_str("The rear is open until this is measured: ")?;
                f.write_str(field.label())
            }
            Self::NoSpring => {
                f.write_str("The rear spring's numbers are no spring between its eyes: measure them again")
            }
            Self::ShackleOut => f.write_str("The rear shackle does not reach its eye"),
            Self::NoBalance => {
                f.write_str("The rear spring cannot carry its load hung like this: it sinks until its shackle is pulled straight")
            }
            Self::SaidOtherwise => f.write_str("The plan says how far its rear comes down, and its parts make something else of it: take one of them out"),
        }
    }
}

impl std::error::Error for NoRear {}

/// A leaf that is wanted flatter or more arched opens no wider than this, end to end, rad.
const WIDEST_BEND_RAD: f64 = 2.9;
/// Steps of its bend in which a balance is looked for, rad.
const BEND_STEP_RAD: f64 = 0.02;
/// No more of them lead to one.
const MOST_STEPS: u32 = 150;

/// What one spring carries, and how stiff it is.
#[derive(Clone, Copy, Debug, PartialEq)]
struct RearLoad {
    load_n: f64,
    rate_n_per_mm: f64,
}

/// How the rear stands against as it sits. Millimetres and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearRest {
    /// How far the axle is up against the frame.
    pub axle_up_mm: f64,
    /// How far the frame comes down over the axle, which is that and what the tires are smaller.
    pub down_mm: f64,
    /// How far the axle moves to the rear.
    pub axle_back_mm: f64,
    /// How far the axle is turned against the frame, + pinion up.
    pub pinion_up_rad: f64,
    /// The spring where it is worked out; `None` where the axle moves by its seat alone and the
    /// spring is not measured.
    pub spring: Option<LeafPose>,
    /// How far the axle can still go up until the shackle is pulled straight; `None` where the
    /// spring is flat before that, or is not measured.
    pub shackle_straight_mm: Option<f64>,
}

impl RearRest {
    /// As it sits.
    pub const AS_MEASURED: Self = Self {
        axle_up_mm: 0.0,
        down_mm: 0.0,
        axle_back_mm: 0.0,
        pinion_up_rad: 0.0,
        spring: None,
        shackle_straight_mm: None,
    };

    /// The rear of a truck with its parts on, `more_n` more on each of its springs than it was
    /// measured with.
    ///
    /// # Errors
    /// [`NoRear`] says which number is missing, or what does not reach.
    pub fn of(fitted: &Fitted, more_n: f64) -> Result<Self, NoRear> {
        Self::laid(&fitted.measured.rear, &RearParts::of(&fitted.rear), more_n)
    }

    /// The same, unless a plan says that it comes down by something else than a tape's width of it.
    ///
    /// # Errors
    /// [`NoRear::SaidOtherwise`].
    pub(crate) fn as_said(self, down_mm: Option<f64>) -> Result<Self, NoRear> {
        match down_mm {
            Some(mm) if (mm - self.down_mm).abs() > TAPE_MM => Err(NoRear::SaidOtherwise),
            _ => Ok(self),
        }
    }

    /// The rear by its numbers as measured and what is laid over them.
    ///
    /// # Errors
    /// As [`RearRest::of`].
    ///
    /// ```
    /// use study::RearRest;
    /// use truck::{RearAxle, RearField, RearParts};
    ///
    /// // A block goes between spring and axle: under an axle that is on top it lowers the frame.
    /// let block = RearParts { block_mm: 50.8, ..RearParts::default() };
    /// let on_top = RearAxle::UNKNOWN.with(RearField::Seat, -60.0);
    /// assert!((RearRest::laid(&on_top, &block, 0.0)?.down_mm - 50.8).abs() < 1e-9);
    /// let under = RearAxle::UNKNOWN.with(RearField::Seat, 60.0);
    /// assert!((RearRest::laid(&under, &block, 0.0)?.down_mm + 50.8).abs() < 1e-9);
    /// # Ok::<(), study::NoRear>(())
    /// ```
    pub fn laid(rear: &RearAxle, parts: &RearParts, more_n: f64) -> Result<Self, NoRear> {
        let number = |field| rear.get(field).ok_or(NoRear::NotStated(field));
        if parts.moves_leaf() {
            // Which way it turns the axle hangs on it.
            number(RearField::ShackleAhead)?;
        }
        let smaller_mm = match parts.wheel_radius_mm {
            Some(other) => number(RearField::WheelRadius)? - other,
            None => 0.0,
        };
        let needs_spring = parts.moves_leaf() || more_n != 0.0;
        let measured = match Leaf::measured(rear) {
            Ok(found) => Some(found),
            Err(Some(field)) if needs_spring => return Err(NoRear::NotStated(field)),
            Err(None) if needs_spring => return Err(NoRear::NoSpring),
            Err(_) => None,
        };
        if !parts.moves_axle() && measured.is_none() {
            return Ok(Self::AS_MEASURED);
        }
        // Nothing below the leaf moves where nothing sits elsewhere.
        let seat_before_mm = if parts.moves_seat() {
            number(RearField::Seat)?
        } else {
            rear.get(RearField::Seat).unwrap_or(0.0)
        };
        let seat_now_mm = parts.seat_mm(seat_before_mm);
        let Some((leaf, curvature)) = measured else {
            let axle_up_mm = seat_before_mm - seat_now_mm;
            let down_mm = axle_up_mm + smaller_mm;
            return Ok(Self { axle_up_mm, down_mm, pinion_up_rad: parts.wedge_rad, ..Self::AS_MEASURED });
        };
        let load = rear_load(rear);
        if more_n != 0.0 && load.is_none() {
            let needed = [RearField::Rate, RearField::Load, RearField::Unsprung];
            let missing = needed.into_iter().find(|field| rear.get(*field).is_none());
            return Err(NoRear::NotStated(missing.unwrap_or(RearField::Rate)));
        }
        let first = leaf.pose(curvature).ok_or(NoRear::NoSpring)?;
        let hung = leaf.hung(parts).ok_or(NoRear::ShackleOut)?;
        let shaped = flatter(&leaf, curvature, parts.flatter_mm).ok_or(NoRear::NoBalance)?;
        let moved = Balance { leaf, hung, seat_before_mm, seat_now_mm, shaped };
        let at = match load {
            Some(load) => {
                let rate_n_per_mm = parts.rate_n_per_mm.unwrap_or(load.rate_n_per_mm);
                moved.curvature(RearLoad { rate_n_per_mm, ..load }, more_n)?
            }
            None => shaped,
        };
        let pose = hung.pose(at).ok_or(NoRear::ShackleOut)?;
        let (before, after) = (first.axle(seat_before_mm), pose.axle(seat_now_mm));
        let towards_shackle = if rear.shackle_is_ahead() { -1.0 } else { 1.0 };
        let axle_up_mm = after.1 - before.1;
        let straight = hung.straight().and_then(|at| hung.pose(at * (1.0 + 1e-9)));
        Ok(Self {
            axle_up_mm,
            down_mm: axle_up_mm + smaller_mm,
            axle_back_mm: towards_shackle * (after.0 - before.0),
            pinion_up_rad: parts.wedge_rad - towards_shackle * (pose.rise_rad - first.rise_rad),
            spring: Some(pose),
            shackle_straight_mm: straight.map(|end| end.axle(seat_now_mm).1 - after.1),
        })
    }
}

/// What a spring carries; `None` where that is not stated.
fn rear_load(rear: &RearAxle) -> Option<RearLoad> {
    let load_n = rear.get(RearField::Load)? - rear.get(RearField::Unsprung)?;
    Some(RearLoad { load_n, rate_n_per_mm: rear.get(RearField::Rate)? })
}

/// The curvature at which the middle is so much less below the eyes.
fn flatter(leaf: &Leaf, curvature: f64, flatter_mm: f64) -> Option<f64> {
    if flatter_mm == 0.0 {
        return Some(curvature);
    }
    let depth_mm = leaf.depth_mm(curvature) - flatter_mm;
    let widest = WIDEST_BEND_RAD / leaf.length_mm;
    bracketed(|at| Some(leaf.depth_mm(at) - depth_mm), -widest, widest, 1e-15)
}

/// A spring whose load is balanced on other hangers, or under another seat.
#[derive(Clone, Copy, Debug)]
struct Balance {
    /// As measured.
    leaf: Leaf,
    /// As it is hung now.
    hung: Leaf,
    /// Axle's centre below the main leaf as measured, mm.
    seat_before_mm: f64,
    /// The same now, mm.
    seat_now_mm: f64,
    /// The curvature under the measured load on the measured hangers.
    shaped: f64,
}

impl Balance {
    /// The curvature at which spring and load balance.
    ///
    /// # Source
    /// Virtual work. On the hangers that it was measured on the spring's force is
    /// F₀ + k (z − z₀), so what it stores gains (F₀ + k (z − z₀)) dz/dκ for its curvature; hung
    /// otherwise it stores the same at the same curvature, and that is F dz′/dκ, z′ being the
    /// axle's height there.
    fn curvature(&self, load: RearLoad, more_n: f64) -> Result<f64, NoRear> {
        let RearLoad { load_n, rate_n_per_mm } = load;
        let rest_mm = self.leaf.pose(self.shaped).ok_or(NoRear::NoSpring)?.axle(self.seat_before_mm).1;
        let over = |at: f64| {
            let (measured, hung) = (self.leaf.pose(at)?, self.hung.pose(at)?);
            let force_n = load_n + rate_n_per_mm * (measured.axle(self.seat_before_mm).1 - rest_mm);
            Some(
                force_n * measured.axle_rate(self.seat_before_mm)
                    - (load_n + more_n) * hung.axle_rate(self.seat_now_mm),
            )
        };
        let step = BEND_STEP_RAD / self.leaf.length_mm;
        // A leaf that does not reach as it is arched more is arched on until it does.
        let arched = |count: u32| self.shaped + f64::from(count) * step;
        let reaches = (0..MOST_STEPS).map(arched).find_map(|at| Some((at, over(at)?)));
        let (mut last, mut last_residual) = reaches.ok_or(NoRear::ShackleOut)?;
        // It settles the way on which it gives energy up, to where that ends: any other balance is none
        // that it could stand in.
        let way = if last_residual > 0.0 { -step } else { step };
        for _ in 0..MOST_STEPS {
            if last_residual == 0.0 {
                return Ok(last);
            }
            let residual = over(last + way).ok_or(NoRear::NoBalance)?;
            if (last_residual < 0.0) != (residual < 0.0) {
                return bracketed(over, last.min(last + way), last.max(last + way), 1e-16)
                    .ok_or(NoRear::NoBalance);
            }
            (last, last_residual) = (last + way, residual);
        }
        Err(NoRear::NoBalance)
    }
}
