//! A front corner from the front. The right one is drawn as a left one and turned into its mirror image.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::figure::Figure;
use crate::geometry::{Axes, P, bounded};
use crate::labelling::Labelling;
use crate::palette::Ink;
use crate::parts::{arms, frame, ground, knuckle, wheel};
use crate::plan::Plan;
use crate::scene::{Scene, gather};
use crate::transform::{Transform, View, Zoom};
use linkage::{Corner, Pose};
use study::{Gap, Rest, TravelLeft};
use truck::{Fitted, Side};

/// A wheel that is turned farther is not drawn as cut in the plane of the axle, rad.
pub(crate) const STEERED_RAD: f64 = 0.05;
/// A wheel that stands nearer than this to where it stood is not drawn twice, mm.
const SAME_MM: f64 = 2.0;

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
    /// The other proposals, as thin lines over it.
    pub others: &'a [Other<'a>],
    /// The point that is chosen.
    pub selected: Option<Handle>,
    /// What is being dragged.
    pub dragging: Option<DragNote>,
    /// How much higher the pin sits on the knuckle than as measured, mm.
    pub drop_mm: f64,
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

/// The left front corner from the front.
///
/// Everything that is said fits: no two labels meet, none leaves the frame or
/// covers a handle, and what finds no room is listed in [`Scene::overflow`].
#[must_use]
pub fn front_view(sketch: &Sketch<'_>, view: &View) -> Scene {
    let figure = Figure::of(&sketch.now);
    let fitted = &sketch.now.rest.fitted;
    let side = fitted.measured.side();
    let view = &seen(view, side);
    let new_pin = sketch.drop_mm != 0.0;
    let board = drawn(&figure, fitted, Some(&sketch.now), sketch.before.as_ref(), new_pin, view);
    let handles = handles(&board, &figure);
    let mut labelling = Labelling::front(&board, &figure, view, &handles);
    let mut marks = Board::new(board.transform);
    if let Some((handle, at)) = sketch.selected.and_then(|handle| Some((handle, figure.at(handle)?))) {
        let wheel = &figure.wheel;
        // Outside the tire, beyond the drop's scale.
        let edge = board.px(wheel.axes.at(wheel.half_width, 0.0)).0;
        let beyond = (handle == Handle::WheelCentre).then_some(edge);
        labelling.tag(board.px(at), beyond, sketch.dragging.as_ref());
        chosen(&mut marks, at, Aspect::Front.ways(handle), sketch.dragging.is_some());
    }
    labelling.drop_scale(&board, &figure, sketch.drop_mm, sketch.dragging.is_none());
    labelling.measures(&board, &figure, &sketch.now);
    for other in sketch.others {
        outlined(&mut marks, &mut labelling, other);
    }
    labelling.names(&board, &figure, &sketch.now);
    finished(board, marks, labelling, handles, side)
}

/// Another proposal's arms, steering axis, rail and fender, and its name where there is room.
fn outlined(marks: &mut Board, labelling: &mut Labelling<'_>, other: &Other<'_>) {
    let figure = Figure::of(&other.shown);
    let (ink, text) = match other.place {
        0 => (Ink::Curve0, Ink::TextAccent),
        1 => (Ink::Curve1, Ink::TextDimension),
        _ => (Ink::Curve2, Ink::TextInk),
    };
    let P(wide, high) = figure.rail_size;
    let rail = figure.rail;
    let corner = |across: f64, up: f64| P(rail.0 - across * wide, rail.1 + up * high);
    marks.lines(ink, &[figure.lower.pivot, figure.lower.ball, figure.upper.ball, figure.upper.pivot]);
    marks.lines(
        ink,
        &[corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0), corner(0.0, 0.0)],
    );
    marks.lines(ink, &[figure.fender + P(-70.0, 0.0), figure.fender]);
    labelling.other(other.name, text, marks.px(corner(1.0, 0.5)));
}

/// The left front corner from the front, as far as its parts reach.
#[must_use]
pub fn front_view_broken(broken: &Broken<'_>, view: &View) -> Scene {
    let figure = Figure::broken(broken);
    let side = broken.fitted.measured.side();
    let view = &seen(view, side);
    let board = drawn(&figure, broken.fitted, None, broken.before.as_ref(), false, view);
    let handles = handles(&board, &figure);
    let mut labelling = Labelling::front(&board, &figure, view, &handles);
    let mut marks = Board::new(board.transform);
    let anchor = match figure.open {
        Some((from, to)) => {
            gap(&mut marks, from, to);
            board.px(from.towards(to, 0.5))
        }
        None => board.px(figure.wheel.axes.origin),
    };
    labelling.message(&broken.message, anchor);
    finished(board, marks, labelling, handles, side)
}

/// The parts of a picture, from behind to front.
fn drawn(
    figure: &Figure,
    fitted: &Fitted,
    now: Option<&Shown<'_>>,
    before: Option<&Shown<'_>>,
    new_pin: bool,
    view: &View,
) -> Board {
    let mut board = Board::new(fit(fitted, view));
    ground::ground(&mut board, view.width_px);
    frame::brackets(&mut board, figure);
    match now.filter(|now| now.pose.toe_rad().abs() > STEERED_RAD) {
        // Turned out of the picture's plane it is seen from outside, not cut.
        Some(now) => Plan::of(Aspect::Front, now).wheel(&mut board),
        None => wheel::wheel(&mut board, figure),
    }
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
    // Labels stand at the wheel's side more than at the centreline's.
    fit_box(P(left, 0.0), P(right, top), if view.width_px < 500.0 { 0.2 } else { 0.36 }, 6.0, view)
}

/// The transform at which a box of the picture's millimetres is seen; `share` of
/// the width that it leaves lies on its left, `above_px` stay free above it.
pub(crate) fn fit_box(low: P, high: P, share: f64, above_px: f64, view: &View) -> Transform {
    let (below_px, above_px) = (15.0, above_px);
    let size = high - low;
    let (wide, tall) = (view.width_px, (view.height_px - below_px - above_px).max(20.0));
    let scale = (wide / size.0).min(tall / size.1).max(1e-3);
    let spare = P(wide - size.0 * scale, tall - size.1 * scale);
    let origin =
        (spare.0.max(0.0) * share - low.0 * scale, above_px + tall - spare.1.max(0.0) * 0.3 + low.1 * scale);
    let Zoom { scale: zoom, pan_px } = view.zoom;
    let middle = (view.width_px / 2.0, view.height_px / 2.0);
    let zoomed = |at: f64, middle: f64, pan: f64| middle + (at - middle) * zoom + pan;
    Transform::new(scale * zoom, (zoomed(origin.0, middle.0, pan_px.0), zoomed(origin.1, middle.1, pan_px.1)))
}

fn handles(board: &Board, figure: &Figure) -> Vec<(Handle, f64, f64)> {
    let place = |handle: &Handle| figure.at(*handle).map(|at| (*handle, board.px(at)));
    Aspect::Front.handles().iter().filter_map(place).map(|(handle, (x, y))| (handle, x, y)).collect()
}

/// The ring around the chosen handle, and the ways it can be dragged: sideways, up and down.
pub(crate) fn chosen(board: &mut Board, at: P, [sideways, upright]: [bool; 2], dragged: bool) {
    let ring = board.mm(if dragged { 15.0 } else { 13.0 });
    board.circle(Ink::Accent, at, ring);
    let (x, y) = board.px(at);
    let reach = if dragged { 26.0 } else { 23.0 };
    for (way, drawn) in
        [((0.0, -1.0), upright), ((0.0, 1.0), upright), ((1.0, 0.0), sideways), ((-1.0, 0.0), sideways)]
    {
        if drawn {
            let tip = (x + way.0 * reach, y + way.1 * reach);
            board.shapes.push(crate::dimension::arrow(Ink::AccentSolid, tip, way));
        }
    }
}

/// Two ends that do not meet: a dashed line between them, and a torn edge across it.
pub(crate) fn gap(board: &mut Board, from: P, to: P) {
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

/// The view in which a side's corner is drawn.
pub(crate) fn seen(view: &View, side: Side) -> View {
    if side == Side::Right { view.behind_the_mirror() } else { view.clone() }
}

/// A picture of what was drawn, said and marked.
pub(crate) fn finished(
    board: Board,
    marks: Board,
    labelling: Labelling<'_>,
    handles: Vec<(Handle, f64, f64)>,
    side: Side,
) -> Scene {
    let mut scene = Scene::empty(labelling.view);
    scene.title.push_str(labelling.aspect.title(side));
    scene.description = labelling.spoken;
    scene.transform = board.transform;
    scene.handles = handles;
    scene.shapes = board.shapes;
    let mut notes = labelling.sheet.leaders;
    notes.extend(labelling.shapes);
    notes.extend(marks.shapes);
    gather(&mut scene.shapes, notes);
    scene.labels = labelling.sheet.labels;
    scene.overflow = labelling.sheet.overflow;
    if side == Side::Right { scene.mirrored() } else { scene }
}
