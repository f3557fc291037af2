//! From where a corner is looked at, and the points that can be taken hold of there.

use crate::geometry::Vec2;
use linkage::{Point3, Vector3};
use truck::Side;

/// From where the left front corner is looked at; the right one is seen as its mirror image.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Aspect {
    /// From in front of the truck: the left wheel is at the right.
    #[default]
    Front,
    /// From the left of the truck: its front is at the left.
    Side,
    /// From above, with the front of the truck below and the left wheel at the right, so that it
    /// stands over the front view.
    Top,
}

impl Aspect {
    /// Every aspect.
    pub const ALL: [Self; 3] = [Self::Front, Self::Side, Self::Top];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "Front",
            Self::Side => "Side",
            Self::Top => "Top",
        }
    }

    /// What a picture from there is called.
    #[must_use]
    pub const fn title(self, side: Side) -> &'static str {
        match (self, side) {
            (Self::Front, Side::Left) => "Front view of the left front corner",
            (Self::Side, Side::Left) => "Side view of the left front corner",
            (Self::Top, Side::Left) => "Top view of the left front corner",
            (Self::Front, Side::Right) => "Front view of the right front corner",
            (Self::Side, Side::Right) => "Side view of the right front corner",
            (Self::Top, Side::Right) => "Top view of the right front corner",
        }
    }

    /// The body's axis that is seen to the right and the one seen upward (0 for `x` to 2 for
    /// `z`), each with its sign.
    #[must_use]
    pub const fn axes(self) -> [(usize, f64); 2] {
        match self {
            Self::Front => [(1, 1.0), (2, 1.0)],
            Self::Side => [(0, -1.0), (2, 1.0)],
            Self::Top => [(1, 1.0), (0, -1.0)],
        }
    }

    /// A movement seen to the right and upward, mm, as one in the body's axes.
    #[must_use]
    pub fn in_body(self, right_mm: f64, up_mm: f64) -> Vector3<f64> {
        let mut moved = Vector3::zeros();
        for ((axis, sign), by) in self.axes().into_iter().zip([right_mm, up_mm]) {
            moved[axis] = sign * by;
        }
        moved
    }

    /// Where a point of the body is seen.
    pub(crate) fn flat(self, point: &Point3<f64>) -> Vec2 {
        let [right, up] = self.axes().map(|(axis, sign)| point[axis] * sign);
        Vec2(right, up)
    }

    /// The points that can be taken hold of.
    #[must_use]
    pub const fn handles(self) -> &'static [Handle] {
        match self {
            Self::Front => &FRONT,
            Self::Side => &SIDE,
            Self::Top => AROUND,
        }
    }

    /// Whether a point is dragged to the side, and whether up and down.
    pub(crate) fn ways(self, handle: Handle) -> [bool; 2] {
        // A spindle has a rise and an outward shift; in front view the rise is what is meant.
        [self != Self::Side, self != Self::Top && self != Self::Front]
            .map(|way| way || handle != Handle::WheelCentre)
    }
}

/// A point that can be taken hold of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Handle {
    /// The lower arm's pivot axis.
    LowerAxis,
    /// The upper arm's pivot axis.
    UpperAxis,
    /// The lower ball.
    LowerBall,
    /// The upper ball.
    UpperBall,
    /// The wheel centre.
    WheelCentre,
    /// Inner end of the tie rod.
    TieInner,
    /// Outer end of the tie rod.
    TieOuter,
    /// Lower outer corner of the frame rail.
    Rail,
    /// The fender's lip.
    Fender,
    /// The lower arm's front pivot.
    LowerFront,
    /// The lower arm's rear pivot.
    LowerRear,
    /// The upper arm's front pivot.
    UpperFront,
    /// The upper arm's rear pivot.
    UpperRear,
    /// The rear springs at their centre bolt, which a block moves away from the axle.
    RearBlock,
    /// The rear shackle's eye.
    RearShackle,
    /// The rear shackle's bolt in its hanger.
    RearHanger,
    /// The end of the rear bump stop.
    RearStop,
}

const FRONT: [Handle; 9] = [
    Handle::LowerAxis,
    Handle::UpperAxis,
    Handle::LowerBall,
    Handle::UpperBall,
    Handle::WheelCentre,
    Handle::TieInner,
    Handle::TieOuter,
    Handle::Rail,
    Handle::Fender,
];

/// Those of the rear stand last: where it is not drawn they have no place.
const SIDE: [Handle; 13] = [
    Handle::LowerFront,
    Handle::LowerRear,
    Handle::UpperFront,
    Handle::UpperRear,
    Handle::LowerBall,
    Handle::UpperBall,
    Handle::WheelCentre,
    Handle::TieInner,
    Handle::TieOuter,
    Handle::RearBlock,
    Handle::RearShackle,
    Handle::RearHanger,
    Handle::RearStop,
];

/// The front corner's alone.
const AROUND: &[Handle] = SIDE.split_at(9).0;

impl Handle {
    /// Whether it is one of the rear, whose numbers as it sits are typed and never dragged.
    #[must_use]
    pub const fn is_rear(self) -> bool {
        matches!(self, Self::RearBlock | Self::RearShackle | Self::RearHanger | Self::RearStop)
    }

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::LowerAxis => "Lower arm pivots",
            Self::UpperAxis => "Upper arm pivots",
            Self::LowerBall => "Lower ball joint",
            Self::UpperBall => "Upper ball joint",
            Self::WheelCentre => "Spindle",
            Self::TieInner => "Inner tie-rod end",
            Self::TieOuter => "Outer tie-rod end",
            Self::Rail => "Frame rail",
            Self::Fender => "Fender lip",
            Self::LowerFront => "Lower arm, front pivot",
            Self::LowerRear => "Lower arm, rear pivot",
            Self::UpperFront => "Upper arm, front pivot",
            Self::UpperRear => "Upper arm, rear pivot",
            Self::RearBlock => "Rear block",
            Self::RearShackle => "Rear shackle",
            Self::RearHanger => "Rear hanger",
            Self::RearStop => "Rear bump stop",
        }
    }

    /// The name in markup: lower case, words joined by hyphens.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::LowerAxis => "lower-axis",
            Self::UpperAxis => "upper-axis",
            Self::LowerBall => "lower-ball",
            Self::UpperBall => "upper-ball",
            Self::WheelCentre => "wheel-centre",
            Self::TieInner => "tie-inner",
            Self::TieOuter => "tie-outer",
            Self::Rail => "rail",
            Self::Fender => "fender",
            Self::LowerFront => "lower-front",
            Self::LowerRear => "lower-rear",
            Self::UpperFront => "upper-front",
            Self::UpperRear => "upper-rear",
            Self::RearBlock => "rear-block",
            Self::RearShackle => "rear-shackle",
            Self::RearHanger => "rear-hanger",
            Self::RearStop => "rear-stop",
        }
    }
}
