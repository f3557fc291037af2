//! A front corner from the front. The right one is drawn as a left one and turned into its mirror image.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::front_points::FrontPoints;
use crate::geometry::{Vec2, bounded};
use crate::labelling::Labelling;
use crate::palette::Ink;
use crate::parts::{arms, frame, ground, knuckle, wheel, whole_wheel};
use crate::projection::{Projection, STEERED_RAD};
use crate::scene::Scene;
use crate::shown::{Broken, Other, Shown, Sketch};
use crate::stage::{chosen, finished, fit_box, gap, handles, seen};
use crate::transform::{Transform, View};
use truck::Fitted;

/// A wheel that stands nearer than this to where it stood is not drawn twice, mm.
const SAME_MM: f64 = 2.0;

/// The left front corner from the front.
///
/// Everything that is said fits: no two labels meet, none leaves the picture or
/// covers a handle, and what finds no room is listed in [`Scene::overflow`].
#[must_use]
pub fn front_view(sketch: &Sketch<'_>, view: &View) -> Scene {
    let points = FrontPoints::of(&sketch.now);
    let fitted = &sketch.now.rest.fitted;
    let side = fitted.measured.side();
    let view = &seen(view, side);
    let new_pin = sketch.drop_mm != 0.0;
    let board = drawn(&points, fitted, Some(&sketch.now), sketch.before.as_ref(), new_pin, view);
    let handles = handles(&board, Aspect::Front, &|handle| points.at(handle));
    let mut labelling = Labelling::front(&board, &points, view, &handles);
    labelling.guessed = sketch.guessed.to_vec();
    labelling.only = sketch.only.map(<[_]>::to_vec);
    let mut marks = Board::new(board.transform);
    // Where no point is dragged, the tire is.
    let handle = sketch.selected.unwrap_or(Handle::WheelCentre);
    if let Some(at) = points.at(handle) {
        let wheel = &points.wheel;
        // Outside the tire, beyond the drop's scale.
        let edge = board.px(wheel.axes.at(wheel.size.half_width, 0.0)).0;
        let beyond = (handle == Handle::WheelCentre).then_some(edge);
        labelling.tag(board.px(at), beyond, sketch.dragging.as_ref());
        if sketch.selected.is_some() {
            chosen(&mut marks, at, Aspect::Front.ways(handle), sketch.dragging.is_some());
        }
    }
    labelling.drop_scale(&board, &points, sketch.drop_mm, sketch.dragging.is_none());
    labelling.measures(&board, &points, &sketch.now);
    for other in sketch.others {
        outlined(&mut marks, &mut labelling, &points, other);
    }
    labelling.names(&board, &points, &sketch.now);
    finished(board, marks, labelling, handles, side)
}

/// Another proposal's arms, steering axis, rail and fender, and its name where there is room; nothing of one
/// that is no other here.
fn outlined(marks: &mut Board, labelling: &mut Labelling<'_>, now: &FrontPoints, other: &Other<'_>) {
    let points = FrontPoints::of(&other.shown);
    let lines =
        |of: &FrontPoints| [of.lower.pivot, of.lower.ball, of.upper.ball, of.upper.pivot, of.rail, of.fender];
    if lines(&points) == lines(now) {
        return;
    }
    let (ink, text) = match other.place {
        0 => (Ink::Curve0, Ink::Text0),
        1 => (Ink::Curve1, Ink::Text1),
        _ => (Ink::Curve2, Ink::Text2),
    };
    let Vec2(wide, high) = points.rail_size;
    let rail = points.rail;
    let corner = |across: f64, up: f64| Vec2(rail.0 - across * wide, rail.1 + up * high);
    let [arms @ .., _, _] = lines(&points);
    marks.lines(ink, &arms);
    marks.lines(
        ink,
        &[corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0), corner(0.0, 0.0)],
    );
    marks.lines(ink, &[points.fender + Vec2(-70.0, 0.0), points.fender]);
    labelling.other(other.name, text, marks.px(corner(1.0, 0.5)));
}

/// The left front corner from the front, as far as its parts reach.
#[must_use]
pub fn front_view_broken(broken: &Broken<'_>, view: &View) -> Scene {
    let points = FrontPoints::assembled(broken.fitted, &broken.assembly());
    let side = broken.fitted.measured.side();
    let view = &seen(view, side);
    let board = drawn(&points, broken.fitted, None, broken.before.as_ref(), false, view);
    let handles = handles(&board, Aspect::Front, &|handle| points.at(handle));
    let mut labelling = Labelling::front(&board, &points, view, &handles);
    let mut marks = Board::new(board.transform);
    let anchor = match points.open {
        Some([from, to]) => {
            gap(&mut marks, from, to);
            board.px(from.towards(to, 0.5))
        }
        None => board.px(points.wheel.axes.origin),
    };
    labelling.message(&broken.message, anchor);
    finished(board, marks, labelling, handles, side)
}

/// The parts of a picture, from behind to front.
pub(crate) fn drawn(
    points: &FrontPoints,
    fitted: &Fitted,
    now: Option<&Shown<'_>>,
    before: Option<&Shown<'_>>,
    new_pin: bool,
    view: &View,
) -> Board {
    let mut board = Board::new(fit(fitted, view));
    ground::ground(&mut board, view.width_px);
    board.part();
    frame::brackets(&mut board, points);
    board.part();
    match now.filter(|now| now.pose.toe_rad().abs() > STEERED_RAD) {
        // Turned out of the picture's plane it is seen from outside, not cut.
        Some(now) => whole_wheel::whole_wheel(&mut board, &Projection::of(Aspect::Front, now)),
        None => wheel::wheel(&mut board, points),
    }
    if let Some(before) = before {
        let was = FrontPoints::of(before);
        board.part();
        board.ghost = true;
        frame::brackets(&mut board, &was);
        let top = |points: &FrontPoints| {
            points.wheel.axes.at(points.wheel.size.half_width, points.wheel.size.radius)
        };
        if (top(&was) - top(points)).size() > SAME_MM {
            wheel::wheel(&mut board, &was);
        }
        body(&mut board, &was, before.rest.fitted.spring.coil, false);
        board.ghost = false;
    }
    body(&mut board, points, fitted.spring.coil, new_pin);
    board.part();
    let top = points.rail.1 + points.rail_size.1 + 150.0;
    ground::centrelines(&mut board, points, top);
    board
}

/// Everything but the wheel.
fn body(board: &mut Board, points: &FrontPoints, coil: truck::Coil, new_pin: bool) {
    board.part();
    knuckle::tie_rod(board, points);
    arms::coil(board, points, coil.wire_mm, coil.mean_mm, coil.active);
    board.part();
    if !board.ghost {
        knuckle::pin(board, points, new_pin);
    }
    knuckle::knuckle(board, points);
    board.part();
    frame::bump_stop(board, points);
    frame::rail(board, points);
    board.part();
    arms::arms(board, points);
    frame::fender(board, points);
}

/// The transform at which the measured truck and the fitted wheel are seen, with
/// room for the body to rise to full droop. No movement of a pose changes it.
pub(crate) fn fit(fitted: &Fitted, view: &View) -> Transform {
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
    fit_box(Vec2(left, 0.0), Vec2(right, top), if view.width_px < 500.0 { 0.2 } else { 0.36 }, 6.0, view)
}
