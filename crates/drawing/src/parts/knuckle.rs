//! The knuckle: a forging with a boss at each ball, the pin that the hub turns
//! on, and the steering arm. The tie rod hangs on it.

use crate::board::Board;
use crate::figure::Figure;
use crate::geometry::{P, Trace};
use crate::palette::Ink;

/// Half of the height of the pin's root, mm.
const ROOT_MM: f64 = 31.0;
/// Outboard face of the root, from the steering axis, mm.
const FACE_MM: f64 = 27.0;

/// The tie rod, behind everything else.
pub(crate) fn tie_rod(board: &mut Board, figure: &Figure) {
    let (inner, outer) = (figure.tie_inner, figure.tie_outer);
    let thin = board.least(6.5, 2.0);
    board.taper(Ink::Rod, inner, thin, outer, thin);
    if !board.ghost {
        let sleeve = board.least(9.5, 3.0);
        board.taper(Ink::Rod, inner.towards(outer, 0.58), sleeve, inner.towards(outer, 0.82), sleeve);
    }
}

/// The pin that the hub turns on, drawn over the hub.
pub(crate) fn pin(board: &mut Board, figure: &Figure, changed: bool) {
    let wheel = &figure.wheel;
    let root = figure.knuckle.at(height_of_pin(figure), FACE_MM);
    let (root_along, _) = wheel.axes.of(root);
    let at = |along: f64, across: f64| (wheel.axes.at(along, across), 1.5);
    let end = wheel.offset + 36.0;
    let steps = [
        (root_along.min(-30.0), 22.0),
        (-34.0, 19.0),
        (-34.0, 15.0),
        (-10.0, 14.0),
        (wheel.offset + 6.0, 11.0),
        (end - 8.0, 10.0),
        (end - 8.0, 14.0),
        (end, 14.0),
    ];
    let mut corners: Vec<(P, f64)> = steps.iter().map(|(along, across)| at(*along, *across)).collect();
    corners.extend(steps.iter().rev().map(|(along, across)| at(*along, -across)));
    board.rounded(if changed { Ink::AccentTint } else { Ink::Pin }, &corners);
}

/// The forging from ball to ball.
pub(crate) fn knuckle(board: &mut Board, figure: &Figure) {
    let root = root_trace(figure);
    let body = body_trace(figure);
    let arm = Trace::taper(
        figure.knuckle.at(figure.knuckle.of(figure.steering_arm).0.clamp(30.0, figure.spacing - 30.0), 0.0),
        15.0,
        figure.steering_arm,
        11.0,
    );
    for trace in [&arm, &root, &body] {
        board.draw(Ink::Forging, trace);
    }
    // Fill without outlines joins the three into one forging.
    for trace in [&root, &body] {
        board.draw(Ink::ForgingFill, trace);
    }
    if board.ghost {
        return;
    }
    let (length, axes) = (figure.spacing, &figure.knuckle);
    let pin = height_of_pin(figure);
    // The ridge that the dies leave, and the edge of the root.
    let ridge: Vec<P> = [(52.0, 1.0), (0.4 * length, -3.0), (0.62 * length, -3.0), (length - 46.0, 0.0)]
        .iter()
        .map(|(along, across)| axes.at(*along, *across))
        .collect();
    let mut line = Trace::from(ridge[0]);
    line.curve(ridge[1], ridge[1].towards(ridge[2], 0.5));
    line.curve(ridge[2], ridge[3]);
    board.draw(Ink::Thin, &line);
    let face = FACE_MM - 7.0;
    board.lines(Ink::Thin, &[axes.at(pin - ROOT_MM + 5.0, face), axes.at(pin + ROOT_MM - 5.0, face)]);
}

/// How far up the steering axis the pin stands.
fn height_of_pin(figure: &Figure) -> f64 {
    let axes = &figure.knuckle;
    let wheel = &figure.wheel;
    // Where the spin axis crosses the face of the root.
    let (along, across) = axes.of(wheel.axes.origin);
    let spin_along = wheel.axes.along.dot(axes.along);
    let spin_across = wheel.axes.along.dot(axes.across);
    if spin_across.abs() < 0.2 { along } else { along + spin_along / spin_across * (FACE_MM - across) }
}

fn body_trace(figure: &Figure) -> Trace {
    let axes = &figure.knuckle;
    let length = figure.spacing;
    // A short knuckle has small bosses.
    let k = (length / 200.0).clamp(0.3, 1.0);
    let corners = [
        (18.0 * k, -19.0, 6.0),
        (50.0 * k, -25.0, 18.0),
        (0.46 * length, -18.0, 50.0),
        (length - 52.0 * k, -20.0, 18.0),
        (length - 18.0 * k, -15.0, 6.0),
        (length - 18.0 * k, 15.0, 6.0),
        (length - 52.0 * k, 18.0, 18.0),
        (0.5 * length, 15.0, 50.0),
        (50.0 * k, 22.0, 18.0),
        (18.0 * k, 19.0, 6.0),
    ];
    Trace::rounded(&corners.map(|(along, across, round)| (axes.at(along, across), round)))
}

/// The root of the pin: it stands where the spindle puts it, a web joins it to the body.
fn root_trace(figure: &Figure) -> Trace {
    let axes = &figure.knuckle;
    let pin = height_of_pin(figure);
    let (low, high) =
        (46.0_f64.min(0.3 * figure.spacing), figure.spacing - 46.0_f64.min(0.3 * figure.spacing));
    let from = (pin - ROOT_MM - 30.0).clamp(low, high);
    let to = (pin + ROOT_MM + 30.0).clamp(low, high);
    let corners = [
        (from, -10.0, 4.0),
        (from, 12.0, 16.0),
        (pin - ROOT_MM, FACE_MM, 9.0),
        (pin + ROOT_MM, FACE_MM, 9.0),
        (to, 10.0, 16.0),
        (to, -10.0, 4.0),
    ];
    Trace::rounded(&corners.map(|(along, across, round)| (axes.at(along, across), round)))
}
