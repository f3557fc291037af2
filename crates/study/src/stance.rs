//! How a truck stands: both front corners at rest, and the one rake of its body.

use crate::rear::{NoRear, RearRest};
use crate::rest::{NoRest, Rest};
use linkage::Attitude;
use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};
use truck::{Design, FitError, Fitted, Overlay, RearField, Side, Truck, Which};

/// What is said beside every number against the ground while nobody has said how far the rear comes down.
pub const IF_REAR_STAYS: &str = "if the rear stays up";

/// What the rear does against as measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rear {
    /// Nobody has said: it is taken to stay up, and whoever prints what is read against the
    /// ground says so ([`IF_REAR_STAYS`]).
    Stays,
    /// It comes down by so much, mm, + down, over the rear axle and square to the frame.
    ComesDown(f64),
    /// Its own parts bring it down by so much, mm, as [`ComesDown`](Self::ComesDown): the rear is
    /// measured, and nobody has said otherwise.
    ByParts(f64),
}

impl Rear {
    /// Where nothing is changed the rear is where it was.
    pub const AS_MEASURED: Self = Self::ComesDown(0.0);

    /// How far it comes down, mm, + down; `None` where nobody has said and its parts do not say.
    #[must_use]
    pub const fn known_down_mm(self) -> Option<f64> {
        match self {
            Self::Stays => None,
            Self::ComesDown(mm) | Self::ByParts(mm) => Some(mm),
        }
    }

    /// How far it comes down as the plan says, mm, + down; `None` where it says nothing of it.
    pub(crate) const fn said_down_mm(self) -> Option<f64> {
        match self {
            Self::ComesDown(mm) => Some(mm),
            Self::ByParts(_) | Self::Stays => None,
        }
    }

    /// What a proposal says of it, without asking its parts; `left` is the truck's left corner with the
    /// parts on. Where nothing is changed it is as measured, and so is a rear that was measured and
    /// has none of them.
    #[must_use]
    pub fn stated(overlay: Overlay<'_>, left: &Fitted) -> Self {
        // A rear of which nobody has measured how it stands is not known to stay as it is.
        let is_untouched = left.rear.is_empty() && left.measured.rear.get(RearField::FrameHeight).is_some();
        match overlay.rear_down_mm {
            Some(mm) => Self::ComesDown(mm),
            None if overlay.is_nothing() || is_untouched => Self::AS_MEASURED,
            None => Self::Stays,
        }
    }

    /// What a proposal says of it, and where that is nothing what its parts make of a rear that is
    /// measured; `left` is the truck's left corner with the parts on.
    #[must_use]
    pub fn of(overlay: Overlay<'_>, left: &Fitted) -> Self {
        let stated = Self::stated(overlay, left);
        if stated != Self::Stays || left.rear.is_empty() {
            return stated;
        }
        RearRest::of(left, 0.0).map_or(Self::Stays, |rest| Self::ByParts(rest.down_mm))
    }
}

/// A truck at rest on both its front wheels. Copies are the same stance, and a pointer.
#[derive(Clone, Debug)]
pub struct Stance(Arc<Standing>);

#[derive(Debug, PartialEq)]
struct Standing {
    left: Rest,
    right: Rest,
    rear: Rear,
    front_down_mm: f64,
    nose_down_rad: f64,
}

impl PartialEq for Stance {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

/// Why a truck cannot stand: one of its front corners cannot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoStance {
    /// Which one; `None` where both are alike.
    pub side: Option<Side>,
    /// Why it cannot.
    pub why: NoRest,
}

impl fmt::Display for NoStance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.side {
            None => "",
            Some(Side::Left) => "at the left, ",
            Some(Side::Right) => "at the right, ",
        })?;
        self.why.fmt(f)
    }
}

impl std::error::Error for NoStance {}

impl From<FitError> for NoStance {
    fn from(error: FitError) -> Self {
        Self { side: None, why: error.into() }
    }
}

impl Stance {
    /// A truck with these front corners, its rear as said. Corners that are alike are solved once.
    ///
    /// # Errors
    /// [`NoStance`] says which corner cannot stand, and why.
    pub fn of(left: Fitted, right: Fitted, rear: Rear) -> Result<Self, NoStance> {
        let alike = left.mirrored() == right;
        let at = |side| move |why| NoStance { side: (!alike).then_some(side), why };
        let left = Rest::of(left).map_err(at(Side::Left))?;
        let right = if alike {
            Rest { fitted: right, as_it_sits: OnceLock::new(), ..left.clone() }
        } else {
            Rest::of(right).map_err(at(Side::Right))?
        };
        let front_down_mm = f64::midpoint(left.ground_mm, right.ground_mm);
        let wheelbase_mm = left.fitted.measured.body.wheelbase_mm;
        let nose_down_rad = nose_down_rad(front_down_mm, rear.known_down_mm().unwrap_or(0.0), wheelbase_mm);
        Ok(Self(Arc::new(Standing { left, right, rear, front_down_mm, nose_down_rad })))
    }

    /// A truck before any change.
    ///
    /// # Errors
    /// As [`Stance::of`].
    pub fn as_measured(truck: &Truck) -> Result<Self, NoStance> {
        let [left, right] = Fitted::both(truck, Overlay::NOTHING)?;
        Self::of(left, right, Rear::AS_MEASURED)
    }

    /// A truck with a proposal's parts on both its sides.
    ///
    /// # Errors
    /// As [`Stance::of`].
    pub fn laid<'a>(truck: &Truck, overlay: impl Into<Overlay<'a>>) -> Result<Self, NoStance> {
        let overlay = overlay.into();
        let [left, right] = Fitted::both(truck, overlay)?;
        let rear = Rear::of(overlay, &left);
        Self::of(left, right, rear)
    }

    /// A truck of a design.
    ///
    /// # Errors
    /// As [`Stance::of`].
    pub fn of_design(design: &Design, which: Which) -> Result<Self, NoStance> {
        Self::laid(&design.truck, design.overlay(which))
    }

    /// A truck of two front corners under these loads, N, the left one first.
    pub(crate) fn under([left, right]: [&Fitted; 2], loads: [f64; 2], rear: Rear) -> Result<Self, NoStance> {
        let mut both = [left.clone(), right.clone()];
        carry(&mut both, loads);
        let [left, right] = both;
        Self::of(left, right, rear)
    }

    /// One side of it.
    #[must_use]
    pub fn on(&self, side: Side) -> StandingSide {
        StandingSide { stance: self.clone(), side }
    }

    /// The corner of a side at rest.
    #[must_use]
    pub fn corner(&self, side: Side) -> &Rest {
        match side {
            Side::Left => &self.0.left,
            Side::Right => &self.0.right,
        }
    }

    /// What the rear does.
    #[must_use]
    pub fn rear(&self) -> Rear {
        self.0.rear
    }

    /// How far the front has come down against as measured, mm: the mean of both corners.
    pub(crate) fn front_down_mm(&self) -> f64 {
        self.0.front_down_mm
    }

    /// How the rear stands with its parts on.
    ///
    /// # Errors
    /// As [`RearRest::of`], and [`NoRear::SaidOtherwise`] where the plan says of it what they do not make.
    pub fn rear_rest(&self) -> Result<RearRest, NoRear> {
        RearRest::of(&self.corner(Side::Left).fitted, 0.0)?.as_said(self.rear().said_down_mm())
    }

    /// How far the frame has come down against as measured at so far ahead of the front axle, mm; the rear as
    /// [`nose_down_rad`](Self::nose_down_rad) takes it.
    #[must_use]
    pub fn down_at_mm(&self, ahead_mm: f64) -> f64 {
        let wheelbase_mm = self.corner(Side::Left).fitted.measured.body.wheelbase_mm;
        down_at_mm(ahead_mm, self.front_down_mm(), self.rear().known_down_mm().unwrap_or(0.0), wheelbase_mm)
    }

    /// How far the nose has sunk against as measured, + down, rad: what the front has come
    /// down more than the rear, over the wheelbase. A rear of which it is not known is taken to stay up.
    ///
    /// The front has come down by the mean of both corners, so that both sides have one rake.
    ///
    /// # Source
    /// By hand: seen from the side, in the body's axes, the ground is the line through the
    /// contacts at the front axle and at the rear axle. A truck that leans brings one front
    /// contact up by as much as it brings the other down, half a track either way; of their
    /// heights the mean alone is left as it was by the lean, and so is the ground under the
    /// middle of the axle. Exact where both axles are measured square to the frame and both
    /// contacts are equally far from the middle.
    #[must_use]
    pub fn nose_down_rad(&self) -> f64 {
        self.0.nose_down_rad
    }
}

/// Puts both corners of a truck under these loads, N, the left one first.
pub(crate) fn carry([left, right]: &mut [Fitted; 2], loads: [f64; 2]) {
    [left.corner_n, right.corner_n] = loads;
}

/// How far the frame comes down at so far ahead of the front axle, mm: along the line through both ends.
pub(crate) fn down_at_mm(ahead_mm: f64, front_down_mm: f64, rear_down_mm: f64, wheelbase_mm: f64) -> f64 {
    front_down_mm + ahead_mm * (front_down_mm - rear_down_mm) / wheelbase_mm
}

/// As [`Stance::nose_down_rad`], from how far both ends have come down; worked out here alone.
pub(crate) fn nose_down_rad(front_down_mm: f64, rear_down_mm: f64, wheelbase_mm: f64) -> f64 {
    libm::atan((front_down_mm - rear_down_mm) / wheelbase_mm)
}

/// One side of a truck that stands: its corner at rest, on the ground that both sides share.
/// It reads as that corner.
#[derive(Clone, Debug, PartialEq)]
pub struct StandingSide {
    stance: Stance,
    side: Side,
}

impl Deref for StandingSide {
    type Target = Rest;

    fn deref(&self) -> &Rest {
        self.stance.corner(self.side)
    }
}

impl StandingSide {
    /// Which side it is.
    #[must_use]
    pub const fn side(&self) -> Side {
        self.side
    }

    /// The truck.
    #[must_use]
    pub const fn stance(&self) -> &Stance {
        &self.stance
    }

    /// Whether it is known how far the rear comes down; otherwise what is said against the ground holds
    /// if the rear stays up.
    #[must_use]
    pub fn rear_is_known(&self) -> bool {
        self.stance.rear().known_down_mm().is_some()
    }

    /// As [`Stance::nose_down_rad`].
    #[must_use]
    pub fn nose_down_rad(&self) -> f64 {
        self.stance.nose_down_rad()
    }

    /// What a gauge on the ground reads at rest: caster and trail lose what the nose has sunk.
    #[must_use]
    pub fn attitude_on_ground(&self) -> Attitude {
        self.corner.attitude(&self.pose.nose_down(self.nose_down_rad()))
    }
}
