//! The left front corner from the front.

use crate::scene::Scene;
use crate::transform::View;
use linkage::{Corner, Pose};
use study::{Gap, Rest, TravelLeft};
use truck::Fitted;

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
}

impl Handle {
    /// Every handle.
    pub const ALL: [Self; 9] = [
        Self::LowerAxis,
        Self::UpperAxis,
        Self::LowerBall,
        Self::UpperBall,
        Self::WheelCentre,
        Self::TieInner,
        Self::TieOuter,
        Self::Rail,
        Self::Fender,
    ];

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
        }
    }
}

/// A truck in the pose that is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Shown<'a> {
    /// The truck at rest.
    pub rest: &'a Rest,
    /// The pose at the travel shown.
    pub pose: &'a Pose,
    /// The room beside the tire at that pose.
    pub gaps: &'a [Gap],
    /// What is left of the travel.
    pub travel_left: Option<&'a TravelLeft>,
    /// Travel shown, mm, + bump.
    pub travel_mm: f64,
}

/// What a drag says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DragNote {
    /// A few words: what is dragged, and its value.
    pub text: String,
}

/// What the front view shows.
#[derive(Clone, Debug)]
pub struct Sketch<'a> {
    /// The truck.
    pub now: Shown<'a>,
    /// As measured, in dashed grey beneath.
    pub before: Option<Shown<'a>>,
    /// The point that is chosen.
    pub selected: Option<Handle>,
    /// What is being dragged.
    pub dragging: Option<DragNote>,
    /// How much higher the pin sits on the knuckle than as measured, mm.
    pub drop_mm: f64,
}

/// A linkage that does not close.
#[derive(Clone, Debug)]
pub struct Broken<'a> {
    /// The corner.
    pub corner: &'a Corner,
    /// The truck.
    pub fitted: &'a Fitted,
    /// As measured, in dashed grey beneath.
    pub before: Option<Shown<'a>>,
    /// Why it does not close.
    pub message: String,
}

/// The left front corner from the front.
#[must_use]
pub fn front_view(sketch: &Sketch<'_>, view: &View) -> Scene {
    let _ = sketch;
    Scene::empty(view)
}

/// The left front corner from the front, as far as its parts reach.
#[must_use]
pub fn front_view_broken(broken: &Broken<'_>, view: &View) -> Scene {
    Scene::message(&broken.message, view)
}
