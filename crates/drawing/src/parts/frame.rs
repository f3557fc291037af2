//! What the arms hang on: rail, brackets, crossmember, bump stop, fender.

use crate::board::Board;
use crate::front_points::FrontPoints;
use crate::geometry::{Axes, Vec2};
use crate::palette::Ink;
use crate::pattern::{Corner, Pattern, cut, line, shape};

/// How far the picture goes beyond the centreline, mm.
pub(crate) const BEYOND_MM: f64 = 46.0;
/// How far the fender rises above its lip, mm.
pub(crate) const CROWN_MM: f64 = 70.0;
/// How far the fender goes outboard of its lip's inner edge, mm.
pub(crate) const FLARE_MM: f64 = 30.0;

/// Crossmember and brackets, behind the arms.
pub(crate) fn brackets(board: &mut Board, points: &FrontPoints) {
    let (rail, size) = (points.rail, points.rail_size);
    let (inner, top) = (rail.0 - size.0, rail.1 + size.1);
    if !board.ghost {
        crossmember(board, inner, rail.1, size.1);
    }
    let middle = rail.0 - size.0 * 0.5;
    let lower_foot = Vec2(middle, rail.1 + 6.0);
    board.taper(Ink::Frame, lower_foot, size.0 * 0.5, points.lower.pivot, 31.0);
    let upper_foot = Vec2(rail.0 - size.0 * 0.42, top - 12.0);
    board.taper(Ink::Frame, upper_foot, size.0 * 0.42, points.upper.pivot, 25.0);
    if let Some(stop) = &points.stop {
        let foot = Vec2(rail.0 - 6.0, rail.1 + size.1 * 0.4);
        let wide = (size.1 * 0.3).min(34.0);
        board.taper(Ink::Frame, foot, wide, stop.foot + Vec2(-2.0, 9.0), 13.0);
    }
    if let Some((_, seat)) = points.coil {
        board.taper(Ink::Frame, Vec2(rail.0 - 8.0, top - 30.0), 28.0, seat + Vec2(0.0, 18.0), 24.0);
    }
    if !board.ghost {
        for (foot, pivot) in [(lower_foot, points.lower.pivot), (upper_foot, points.upper.pivot)] {
            // A pressed rib.
            board.lines(Ink::Thin, &[foot.towards(pivot, 0.25), foot.towards(pivot, 0.62)]);
        }
    }
}

/// From the rail beyond the centreline, where it is broken off.
fn crossmember(board: &mut Board, inner: f64, bottom: f64, height: f64) {
    let axes = Axes::new(Vec2(0.0, bottom), Vec2(1.0, 0.0));
    let share = |of: f64| height * of;
    let sizes = [inner, share(0.16), share(0.66), share(0.29), share(0.54), share(0.26), share(0.56)];
    board.patterns(&axes, &sizes, CROSSMEMBER);
}

/// Measures of the crossmember: where the rail begins, its edges, where it is torn off, its ribs.
const INNER: i8 = 1;
const LOW: i8 = 2;
const HIGH: i8 = 3;
const TEAR_LOW: i8 = 4;
const TEAR_HIGH: i8 = 5;
const RIB_LOW: i8 = 6;
const RIB_HIGH: i8 = 7;
const CROSSMEMBER: &[Pattern] = &[
    shape(
        Ink::Frame,
        &[
            (INNER, 4, LOW, 0, 0),
            (INNER, 4, HIGH, 0, 0),
            (0, -38, HIGH, 0, 0),
            (0, -48, TEAR_HIGH, 0, 20),
            (0, -28, TEAR_LOW, 0, 20),
            (0, -38, LOW, 0, 0),
        ],
    ),
    line(Ink::Thin, &[(0, -30, RIB_LOW, 0, 0), (INNER, -2, RIB_LOW, 0, 0)]),
    line(Ink::Thin, &[(0, -38, RIB_HIGH, 0, 0), (INNER, -2, RIB_HIGH, 0, 0)]),
];

/// The rail cut through: a channel, open inward, closed by a welded plate.
pub(crate) fn rail(board: &mut Board, points: &FrontPoints) {
    let (corner, size) = (points.rail, points.rail_size);
    let wall = board.least(6.0, 4.6).min(size.0 / 3.0).min(size.1 / 3.0);
    let axes = Axes::new(corner, Vec2(1.0, 0.0));
    let sizes = [size.0, size.1, wall, size.0 - wall, size.1 - wall];
    if board.ghost {
        board.patterns(&axes, &sizes, &[shape(Ink::Section, RAIL)]);
        return;
    }
    board.patterns(&axes, &sizes, &[shape(Ink::Inside, RAIL)]);
    let (channel, plate) = (cut(&axes, &sizes, CHANNEL, true), cut(&axes, &sizes, PLATE, true));
    // Neighbours in section are hatched opposite ways.
    for (trace, rising) in [(&channel, true), (&plate, false)] {
        board.draw(Ink::Section, trace);
        board.hatch(trace, rising, corner);
    }
}

/// Measures of the rail.
const WIDTH: i8 = 1;
const HEIGHT: i8 = 2;
const WALL: i8 = 3;
const CLEAR_WIDTH: i8 = 4;
const CLEAR_HEIGHT: i8 = 5;
const RAIL: &[Corner] =
    &[(-WIDTH, 0, 0, 0, 1), (0, 0, 0, 0, 10), (0, 0, HEIGHT, 0, 10), (-WIDTH, 0, HEIGHT, 0, 1)];
const CHANNEL: &[Corner] = &[
    (-WIDTH, 0, 0, 0, 0),
    (0, 0, 0, 0, 10),
    (0, 0, HEIGHT, 0, 10),
    (-WIDTH, 0, HEIGHT, 0, 0),
    (-WIDTH, 0, CLEAR_HEIGHT, 0, 0),
    (-WALL, 0, CLEAR_HEIGHT, 0, 6),
    (-WALL, 0, WALL, 0, 6),
    (-WIDTH, 0, WALL, 0, 0),
];
const PLATE: &[Corner] = &[
    (-WIDTH, 0, WALL, 0, 0),
    (-CLEAR_WIDTH, 0, WALL, 0, 0),
    (-CLEAR_WIDTH, 0, CLEAR_HEIGHT, 0, 0),
    (-WIDTH, 0, CLEAR_HEIGHT, 0, 0),
];

/// The rubber under its foot.
pub(crate) fn bump_stop(board: &mut Board, points: &FrontPoints) {
    let Some(stop) = &points.stop else { return };
    if board.ghost {
        return;
    }
    let axes = Axes::new(stop.foot, stop.tip - stop.foot);
    let length = (stop.tip - stop.foot).size();
    // Squeezed rubber swells.
    let wide = 14.0 + 120.0 / length.max(12.0);
    let sizes = [length, 0.55 * length, wide, 0.86 * wide, 0.5 * wide];
    board.patterns(&axes, &sizes, &[shape(Ink::Rubber, RUBBER)]);
    board.taper(Ink::Frame, axes.at(-2.0, wide + 3.0), 3.5, axes.at(-2.0, -wide - 3.0), 3.5);
}

/// The fender cut through over the axle: thin sheet metal, its edge folded into the lip.
pub(crate) fn fender(board: &mut Board, points: &FrontPoints) {
    board.patterns(&Axes::new(points.fender, Vec2(1.0, 0.0)), &[], FENDER);
}

/// Measures of the rubber: along it, and half of its width from foot to tip.
const LENGTH: i8 = 1;
const SHOULDER: i8 = 2;
const FOOT: i8 = 3;
const WAIST: i8 = 4;
const TIP: i8 = 5;
const RUBBER: &[Corner] = &[
    (0, 0, FOOT, 0, 2),
    (SHOULDER, 0, WAIST, 0, 6),
    (LENGTH, 0, TIP, 0, 5),
    (LENGTH, 0, -TIP, 0, 5),
    (SHOULDER, 0, -WAIST, 0, 6),
    (0, 0, -FOOT, 0, 2),
];

/// The sheet metal, the inner panel, and where the drawing breaks off.
const FENDER: &[Pattern] = &[
    line(
        Ink::SheetMetal,
        &[
            (0, 2, 0, 2, 0),
            (0, 12, 0, 0, 5),
            (0, 16, 0, 9, 9),
            (0, 47, 0, 64, 60),
            (0, -62, 0, 80, 110),
            (0, -236, 0, 56, 0),
        ],
    ),
    line(Ink::Edge, &[(0, 5, 0, 8, 0), (0, 8, 0, 46, 34), (0, -120, 0, 58, 80), (0, -228, 0, 44, 0)]),
    line(Ink::Thin, &[(0, -240, 0, 70, 0), (0, -231, 0, 45, 0), (0, -238, 0, 48, 0), (0, -229, 0, 30, 0)]),
];
