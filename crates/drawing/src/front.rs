//! The left front corner from the front.

use crate::board::Board;
use crate::figure::Figure;
use crate::geometry::{Axes, P, bounded};
use crate::labelling::Labelling;
use crate::palette::Ink;
use crate::parts::{arms, frame, ground, knuckle, wheel};
use crate::scene::{Scene, gather};
use crate::transform::{Transform, View, Zoom};
use linkage::{Corner, Pose};
use study::{Gap, Rest, TravelLeft};
use truck::Fitted;

/// A wheel that stands nearer than this to where it stood is not drawn twice, mm.
const SAME_MM: f64 = 2.0;

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

    /// Where it is on a shown truck: `y` and `z`, body axes, mm.
    #[must_use]
    pub fn place(self, shown: &Shown<'_>) -> (f64, f64) {
        let figure = Figure::of(shown);
        let P(y, up) = figure.at(self);
        (y, up + figure.ground)
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
///
/// Everything that is said fits: no two labels meet, none leaves the frame or
/// covers a handle, and what finds no room is listed in [`Scene::overflow`].
#[must_use]
pub fn front_view(sketch: &Sketch<'_>, view: &View) -> Scene {
    let figure = Figure::of(&sketch.now);
    let fitted = &sketch.now.rest.fitted;
    let board = drawn(&figure, fitted, sketch.before.as_ref(), sketch.drop_mm != 0.0, view);
    let mut labelling = Labelling::new(&board, &figure, view, dots(&board, &figure));
    labelling.tag(&board, sketch);
    let mut marks = Board::new(board.transform);
    if let Some(handle) = sketch.selected {
        chosen(&mut marks, figure.at(handle), handle, sketch.dragging.is_some());
    }
    labelling.drop_scale(&board, sketch.drop_mm, sketch.dragging.is_none());
    labelling.measures(&board, &sketch.now);
    labelling.names(&board, &sketch.now);
    finished(board, marks, labelling, &figure, view)
}

/// The left front corner from the front, as far as its parts reach.
#[must_use]
pub fn front_view_broken(broken: &Broken<'_>, view: &View) -> Scene {
    let figure = Figure::broken(broken);
    let board = drawn(&figure, broken.fitted, broken.before.as_ref(), false, view);
    let mut labelling = Labelling::new(&board, &figure, view, dots(&board, &figure));
    let mut marks = Board::new(board.transform);
    let anchor = match figure.open {
        Some((from, to)) => {
            gap(&mut marks, from, to);
            board.px(from.towards(to, 0.5))
        }
        None => board.px(figure.wheel.axes.origin),
    };
    labelling.message(&broken.message, anchor);
    finished(board, marks, labelling, &figure, view)
}

/// The parts of a picture, from behind to front.
fn drawn(figure: &Figure, fitted: &Fitted, before: Option<&Shown<'_>>, new_pin: bool, view: &View) -> Board {
    let mut board = Board::new(fit(fitted, view));
    ground::ground(&mut board, view.width_px);
    frame::brackets(&mut board, figure);
    wheel::wheel(&mut board, figure);
    if let Some(before) = before {
        let was = Figure::of(before);
        board.ghost = true;
        frame::brackets(&mut board, &was);
        let top = |figure: &Figure| figure.wheel.axes.at(figure.wheel.half_width, figure.wheel.radius);
        if (top(&was) - top(figure)).size() > SAME_MM {
            wheel::wheel(&mut board, &was);
        }
        body(&mut board, &was, before.rest.fitted.spring.coil, false);
        board.ghost = false;
    }
    body(&mut board, figure, fitted.spring.coil, new_pin);
    let top = figure.rail.1 + figure.rail_size.1 + 150.0;
    ground::centrelines(&mut board, figure, top);
    board
}

/// Everything but the wheel.
fn body(board: &mut Board, figure: &Figure, coil: truck::Coil, new_pin: bool) {
    knuckle::tie_rod(board, figure);
    arms::coil(board, figure, coil.wire_mm, coil.mean_mm, coil.active);
    if !board.ghost {
        knuckle::pin(board, figure, new_pin);
    }
    knuckle::knuckle(board, figure);
    frame::bump_stop(board, figure);
    frame::rail(board, figure);
    arms::arms(board, figure);
    frame::fender(board, figure);
}

/// The transform at which the measured truck and the fitted wheel are seen, with
/// room for the body to rise to full droop. No movement of a pose changes it.
fn fit(fitted: &Fitted, view: &View) -> Transform {
    let truck = &fitted.measured;
    let half_width = fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0;
    let fender = truck.body.fender;
    let left = -frame::BEYOND_MM;
    let right = (fender.lip_y_mm + frame::FLARE_MM).max(fitted.points.wheel_centre.y + half_width) + 22.0;
    let rise = bounded(truck.stops.droop_mm, 0.0, 90.0) * 0.7;
    let top = (fender.lip_z_mm + frame::CROWN_MM + rise)
        .max(truck.points.upper.ball.z + 60.0)
        .max(2.0 * fitted.loaded_radius_mm + 30.0);
    let (below_px, above_px) = (15.0, 6.0);
    let (wide, high) = (view.width_px, (view.height_px - below_px - above_px).max(20.0));
    let scale = (wide / (right - left)).min(high / top).max(1e-3);
    // Labels stand at the wheel's side more than at the centreline's.
    let spare = (wide - (right - left) * scale).max(0.0);
    let origin = (
        spare * if view.width_px < 500.0 { 0.2 } else { 0.36 } - left * scale,
        above_px + high - (high - top * scale).max(0.0) * 0.3,
    );
    let Zoom { scale: zoom, pan_px } = view.zoom;
    let middle = (view.width_px / 2.0, view.height_px / 2.0);
    let zoomed = |at: f64, middle: f64, pan: f64| middle + (at - middle) * zoom + pan;
    Transform::new(scale * zoom, (zoomed(origin.0, middle.0, pan_px.0), zoomed(origin.1, middle.1, pan_px.1)))
}

fn dots(board: &Board, figure: &Figure) -> Vec<(f64, f64)> {
    Handle::ALL.iter().map(|handle| board.px(figure.at(*handle))).collect()
}

/// The ring around the chosen handle, and the ways it can be dragged.
fn chosen(board: &mut Board, at: P, handle: Handle, dragged: bool) {
    let ring = board.mm(if dragged { 15.0 } else { 13.0 });
    board.circle(Ink::Accent, at, ring);
    let (x, y) = board.px(at);
    let reach = if dragged { 26.0 } else { 23.0 };
    let sideways = handle != Handle::WheelCentre;
    for (way, drawn) in
        [((0.0, -1.0), true), ((0.0, 1.0), true), ((1.0, 0.0), sideways), ((-1.0, 0.0), sideways)]
    {
        if drawn {
            let tip = (x + way.0 * reach, y + way.1 * reach);
            board.shapes.push(crate::dimension::arrow(Ink::AccentSolid, tip, way));
        }
    }
}

/// Two ends that do not meet: a dashed line between them, and a torn edge across it.
fn gap(board: &mut Board, from: P, to: P) {
    board.lines(Ink::Gap, &[from, to]);
    let axes = Axes::new(from.towards(to, 0.5), to - from);
    let (step, reach) = (board.mm(4.0), board.mm(5.0));
    let zigzag = [(-1.0, -3.0), (1.0, -1.5), (-1.0, 0.0), (1.0, 1.5), (-1.0, 3.0)]
        .map(|(along, across)| axes.at(along * reach, across * step));
    board.lines(Ink::Accent, &zigzag);
    for end in [from, to] {
        let ring = board.mm(10.0);
        board.circle(Ink::Accent, end, ring);
    }
}

fn finished(board: Board, marks: Board, labelling: Labelling<'_>, figure: &Figure, view: &View) -> Scene {
    let mut scene = Scene::empty(view);
    scene.title.push_str("Front view of the left front corner");
    scene.description = labelling.spoken;
    scene.transform = board.transform;
    scene.handles = Handle::ALL
        .iter()
        .map(|handle| {
            let (x, y) = board.px(figure.at(*handle));
            (*handle, x, y)
        })
        .collect();
    scene.shapes = board.shapes;
    let mut notes = labelling.sheet.leaders;
    notes.extend(labelling.shapes);
    notes.extend(marks.shapes);
    gather(&mut scene.shapes, notes);
    scene.labels = labelling.sheet.labels;
    scene.overflow = labelling.sheet.overflow;
    scene
}
