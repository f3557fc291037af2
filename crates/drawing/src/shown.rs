//! What a picture of the truck shows.

use crate::aspect::Handle;
use linkage::{Assembly, Corner, Pose};
use study::{Figure, Gap, Pair, Quantity, StandingSide, TravelLeft};
use truck::Fitted;

/// A truck in the pose that is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Shown<'a> {
    /// The side of the truck at rest.
    pub rest: &'a StandingSide,
    /// The pose at the travel shown.
    pub pose: &'a Pose,
    /// The room beside the tire at that pose.
    pub gaps: &'a [Gap],
    /// What is left of the travel.
    pub travel_left: Option<&'a TravelLeft>,
    /// Travel shown, mm, + bump.
    pub travel_mm: f64,
}

/// The figures that a sketch writes with the mark of a guess where they rest on one.
pub const SKETCHED: [Figure; 11] = [
    Figure::FRAME_HEIGHT,
    Figure::CAMBER,
    Figure::BUMP,
    Figure::ROLL_CENTRE,
    Figure::room(Pair::TireRail),
    Figure::room(Pair::TireFender),
    Figure::CASTER_GROUND,
    Figure::CASTER,
    Figure::TRAIL_GROUND,
    Figure::TOE,
    Figure::through(Quantity::PathAngle),
];

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
    /// The other proposals, as thin lines over it.
    pub others: &'a [Other<'a>],
    /// The point that is chosen.
    pub selected: Option<Handle>,
    /// What is being dragged.
    pub dragging: Option<DragNote>,
    /// How much higher the pin sits on the knuckle than as measured, mm.
    pub drop_mm: f64,
    /// Those of [`SKETCHED`] that rest on a guess: their numbers carry its mark.
    pub guessed: &'a [Figure],
    /// Where a step of a lesson is shown to a class, what it speaks of: of [`SKETCHED`] these alone are written, and
    /// where none of them is, the names of the parts.
    pub only: Option<&'a [Figure]>,
}

impl<'a> Sketch<'a> {
    /// A truck with nothing beneath or beside it, nothing chosen, and all of it measured.
    #[must_use]
    pub const fn alone(now: Shown<'a>) -> Self {
        Self {
            now,
            before: None,
            others: &[],
            selected: None,
            dragging: None,
            drop_mm: 0.0,
            guessed: &[],
            only: None,
        }
    }
}

/// Another proposal, drawn as the lines of its arms, its rail and its fender.
#[derive(Clone, Copy, Debug)]
pub struct Other<'a> {
    /// What it is called.
    pub name: &'a str,
    /// Its place among the proposals, which gives its line.
    pub place: usize,
    /// The truck.
    pub shown: Shown<'a>,
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

impl Broken<'_> {
    /// The corner where it was measured, as far as it closes.
    pub(crate) fn assembly(&self) -> Assembly {
        self.corner.as_far_as_it_closes(self.corner.measured_angle_rad())
    }
}
