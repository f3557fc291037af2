//! What can go wrong, by the name of the member or joint it goes wrong at.

use std::fmt;

/// A joint at which the chain of members can fail to close.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joint {
    /// The ball between upper arm and knuckle.
    UpperBall,
    /// The joint between tie rod and steering arm.
    TieRodOuter,
}

impl fmt::Display for Joint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::UpperBall => "upper ball joint",
            Self::TieRodOuter => "outer tie-rod end",
        })
    }
}

/// A rigid member, or the line it turns about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Member {
    /// Lower arm, or its pivot axis.
    LowerArm,
    /// Upper arm, or its pivot axis.
    UpperArm,
    /// Knuckle, ball to ball.
    Knuckle,
    /// Tie rod, end to end.
    TieRod,
    /// Steering arm, from the steering axis to the outer tie-rod end.
    SteeringArm,
    /// Wheel.
    Wheel,
}

impl fmt::Display for Member {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::LowerArm => "lower arm",
            Self::UpperArm => "upper arm",
            Self::Knuckle => "knuckle",
            Self::TieRod => "tie rod",
            Self::SteeringArm => "steering arm",
            Self::Wheel => "wheel",
        })
    }
}

/// Why a set of points is no corner.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BuildError {
    /// A coordinate or an angle is not finite, or beyond [`BuildError::FAR_MM`].
    #[error("a number of the {0} is not a usable length or angle")]
    Unusable(Member),
    /// Two points that must lie apart fall together, so the member has no length.
    #[error("the {0} has no length: two of its points fall together")]
    NoLength(Member),
    /// The line through a pair of pivots stands upright, so the arm cannot swing up and down.
    #[error("the pivots of the {0} stand one above the other")]
    UprightAxis(Member),
}

impl BuildError {
    /// A coordinate farther than this from the origin is refused, mm.
    pub const FAR_MM: f64 = 20_000.0;
}

/// Why a pose is not there.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Unreached {
    /// The members do not meet: `gap_mm` is what they fall short by, > 0.
    #[error("the {joint} cannot close")]
    Open {
        /// The joint that stays open.
        joint: Joint,
        /// Shortest distance by which it stays open, mm.
        gap_mm: f64,
    },
    /// Two members stand in one line: the pose exists, its rates do not.
    #[error("the links at the {0} stand in one line")]
    DeadCentre(Joint),
    /// What the rate is counted in stands still: the wheel does not rise, or does not turn.
    #[error("the wheel does not follow in this pose")]
    Idle,
    /// The wheel centre cannot be brought to the wanted height.
    #[error("the wheel cannot travel that far")]
    Height {
        /// The height nearest to the wanted one, mm in the body's axes.
        nearest_mm: f64,
    },
    /// The wheel cannot be steered to the wanted heading.
    #[error("the wheel cannot steer that far")]
    Heading {
        /// The heading nearest to the wanted one, rad.
        nearest_rad: f64,
    },
}
