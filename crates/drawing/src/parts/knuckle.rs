//! The knuckle: a forging with a boss at each ball, the pin that the hub turns
//! on, and the steering arm. The tie rod hangs on it.

use crate::board::Board;
use crate::front_points::FrontPoints;
use crate::geometry::bounded;
use crate::palette::Ink;
use crate::pattern::{Corner, Pattern, line, shape};

/// Half of the height of the pin's root, mm.
const ROOT_MM: f64 = 31.0;
/// Outboard face of the root, from the steering axis, mm.
const FACE_MM: f64 = 27.0;

/// The tie rod, behind everything else.
pub(crate) fn tie_rod(board: &mut Board, points: &FrontPoints) {
    let (inner, outer) = (points.tie_inner, points.tie_outer);
    let thin = board.least(6.5, 2.0);
    board.taper(Ink::Rod, inner, thin, outer, thin);
    if !board.ghost {
        let sleeve = board.least(9.5, 3.0);
        board.taper(Ink::Rod, inner.towards(outer, 0.58), sleeve, inner.towards(outer, 0.82), sleeve);
    }
}

/// The pin that the hub turns on, drawn over the hub.
pub(crate) fn pin(board: &mut Board, points: &FrontPoints, changed: bool) {
    let wheel = &points.wheel;
    let root = points.knuckle.at(height_of_pin(points), FACE_MM);
    let (root_along, _) = wheel.axes.of(root);
    let pattern =
        Pattern { ink: if changed { Ink::AccentTint } else { Ink::Pin }, closed: true, corners: PIN };
    board.patterns(&wheel.axes, &[wheel.size.offset, root_along.min(-30.0)], &[pattern]);
}

/// Measures of the pin: the face that the wheel is bolted to, and its root.
const HUB_FACE: i8 = 1;
const PIN_ROOT: i8 = 2;

/// The pin: its root, a seat for the seal, two seats for bearings, thread and nut.
const PIN: &[Corner] = &[
    (PIN_ROOT, 0, 0, 22, 1),
    (0, -34, 0, 19, 1),
    (0, -34, 0, 15, 1),
    (0, -10, 0, 14, 1),
    (HUB_FACE, 6, 0, 11, 1),
    (HUB_FACE, 28, 0, 10, 1),
    (HUB_FACE, 28, 0, 14, 1),
    (HUB_FACE, 36, 0, 14, 1),
    (HUB_FACE, 36, 0, -14, 1),
    (HUB_FACE, 28, 0, -14, 1),
    (HUB_FACE, 28, 0, -10, 1),
    (HUB_FACE, 6, 0, -11, 1),
    (0, -10, 0, -14, 1),
    (0, -34, 0, -15, 1),
    (0, -34, 0, -19, 1),
    (PIN_ROOT, 0, 0, -22, 1),
];

/// The forging from ball to ball.
pub(crate) fn knuckle(board: &mut Board, points: &FrontPoints) {
    let (length, axes) = (points.spacing, &points.knuckle);
    let pin = height_of_pin(points);
    // A short knuckle has small bosses.
    let bosses = bounded(length / 200.0, 0.3, 1.0);
    let low = 46.0_f64.min(0.3 * length);
    let sizes = [
        18.0 * bosses,
        50.0 * bosses,
        0.48 * length,
        length - 52.0 * bosses,
        length - 18.0 * bosses,
        bounded(pin - ROOT_MM - 30.0, low, length - low),
        bounded(pin + ROOT_MM + 30.0, low, length - low),
        pin,
    ];
    let foot = axes.at(bounded(axes.of(points.steering_arm).0, 30.0, length - 30.0), 0.0);
    board.taper(Ink::Forging, foot, 15.0, points.steering_arm, 11.0);
    board.patterns(axes, &sizes, FORGING);
}

/// Measures of the knuckle: bosses, middle, and where the pin's root begins, ends and stands.
const BOSS: i8 = 1;
const NECK: i8 = 2;
const MIDDLE: i8 = 3;
const UPPER_NECK: i8 = 4;
const UPPER_BOSS: i8 = 5;
const FROM: i8 = 6;
const TO: i8 = 7;
const AXLE: i8 = 8;

const ROOT: &[Corner] = &[
    (FROM, 0, 0, -10, 4),
    (FROM, 0, 0, 12, 16),
    (AXLE, -31, 0, 27, 9),
    (AXLE, 31, 0, 27, 9),
    (TO, 0, 0, 10, 16),
    (TO, 0, 0, -10, 4),
];
const BODY: &[Corner] = &[
    (BOSS, 0, 0, -19, 6),
    (NECK, 0, 0, -25, 18),
    (MIDDLE, 0, 0, -18, 50),
    (UPPER_NECK, 0, 0, -20, 18),
    (UPPER_BOSS, 0, 0, -15, 6),
    (UPPER_BOSS, 0, 0, 15, 6),
    (UPPER_NECK, 0, 0, 18, 18),
    (MIDDLE, 0, 0, 15, 50),
    (NECK, 0, 0, 22, 18),
    (BOSS, 0, 0, 19, 6),
];
/// Body and root as one forging: outlines first, then fill without outlines
/// joins them; the ridge that the dies leave, and the edge of the root.
const FORGING: &[Pattern] = &[
    shape(Ink::Forging, ROOT),
    shape(Ink::Forging, BODY),
    shape(Ink::ForgingFill, ROOT),
    shape(Ink::ForgingFill, BODY),
    line(Ink::Thin, &[(NECK, 2, 0, 1, 0), (MIDDLE, 0, 0, -4, 60), (UPPER_NECK, 6, 0, 0, 0)]),
    line(Ink::Thin, &[(AXLE, -26, 0, 20, 0), (AXLE, 26, 0, 20, 0)]),
];

/// How far up the steering axis the pin stands.
fn height_of_pin(points: &FrontPoints) -> f64 {
    let axes = &points.knuckle;
    let wheel = &points.wheel;
    // Where the spin axis crosses the face of the root.
    let (along, across) = axes.of(wheel.axes.origin);
    let spin_along = wheel.axes.along.dot(axes.along);
    let spin_across = wheel.axes.along.dot(axes.across);
    if spin_across.abs() < 0.2 { along } else { along + spin_along / spin_across * (FACE_MM - across) }
}
