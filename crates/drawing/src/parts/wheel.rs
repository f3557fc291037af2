//! Tire, rim, disc, hub and brake: cut open above the ground, so that what
//! stands inside is seen; where it meets the ground the tread is left on.

use crate::board::Board;
use crate::front_points::{FrontPoints, WheelShape};
use crate::geometry::{Axes, Trace, Vec2};
use crate::palette::Ink;
use crate::path::Step;
use crate::pattern::{Corner, Pattern, cut, line, shape};
use std::f64::consts::FRAC_PI_2;

/// Thickness of the tread and its belts, mm.
const TREAD_MM: f64 = 17.0;
/// Thickness of a sidewall, mm.
const SIDEWALL_MM: f64 = 8.0;
/// Height of a rim's flange over its seat, mm.
const FLANGE_MM: f64 = 17.0;
/// Depth of the rim's drop centre, mm.
const WELL_MM: f64 = 17.0;
/// Rounding of the tire's foot against its shoulder's.
const FOOT_ROUND: f64 = 0.72;
/// Depth and half width of a groove of the tread, mm.
const GROOVE_MM: Vec2 = Vec2(9.0, 4.0);
/// Shares of a quarter turn at which a section is taken.
const QUARTER: [f64; 7] = [0.0, 0.17, 0.34, 0.5, 0.66, 0.83, 1.0];
/// Blocks of the tread around the tire.
const BLOCKS: f64 = 56.0;

/// The wheel, from behind to front. `section` and rim are cut in the plane of the axle.
pub(crate) fn wheel(board: &mut Board, points: &FrontPoints) {
    let wheel = &points.wheel;
    board.draw(Ink::Tire, &silhouette(wheel, points.contact));
    if board.ghost {
        return;
    }
    let (axes, lower) = (wheel.axes, wheel.axes.mirrored());
    let sizes = measures(wheel);
    board.patterns(&axes, &sizes, BARREL);
    section(board, wheel);
    tread(board, wheel, &sizes, points.contact);
    for half in [&axes, &lower] {
        board.patterns(half, &sizes, HALVES);
    }
    board.patterns(&axes, &sizes, HUB);
    for half in [&axes, &lower] {
        board.patterns(half, &sizes, &[BOLT]);
        if board.fine() {
            board.patterns(half, &sizes, BEARINGS);
        }
    }
}

/// The tire from outside: straight above, pressed flat on the ground.
fn silhouette(wheel: &WheelShape, contact: Vec2) -> Trace {
    let round = wheel.size.shoulder;
    let top = |side: f64| (wheel.axes.at(side * wheel.size.half_width, wheel.size.radius), round);
    let foot = |side: f64| (foot(wheel, side, contact), round * FOOT_ROUND);
    Trace::rounded(&[top(-1.0), top(1.0), foot(1.0), foot(-1.0)])
}

/// Where a side of the tire meets the ground.
fn foot(wheel: &WheelShape, side: f64, contact: Vec2) -> Vec2 {
    let side = wheel.axes.at(side * wheel.size.half_width, 0.0);
    side - wheel.axes.across * ((side.1 - contact.1) / wheel.axes.across.1.max(0.2))
}

/// The tire cut through above the axle.
fn section(board: &mut Board, wheel: &WheelShape) {
    let (near, far) = (half_skin(wheel, 1.0), half_skin(wheel, -1.0));
    // From the inboard bead over the tread to the outboard one, and back inside.
    let mut outline = Trace::default();
    append(&mut outline, far.outside, false);
    grooves(&mut outline, wheel);
    append(&mut outline, near.outside, true);
    let mut cavity = Trace::default();
    append(&mut cavity, near.inside, false);
    append(&mut cavity, far.inside, true);
    outline.steps.extend(cavity.steps.iter().map(|step| match *step {
        Step::Move(to) => Step::Line(to),
        step => step,
    }));
    let outline = outline.close();
    let half = wheel.size.half_rim;
    let seat = wheel.size.rim_radius + 2.0;
    board.draw(Ink::Cavity, &cavity.close());
    board.draw(Ink::Rubber, &outline);
    let bead = board.mm(1.6).max(4.0);
    for side in [-1.0, 1.0] {
        board.circle(Ink::Cavity, wheel.axes.at(side * (half - 8.0), seat + 9.0), bead);
    }
}

/// One side of the tire's section, from the bead to the edge of the tread.
struct Skin {
    outside: Vec<Vec2>,
    inside: Vec<Vec2>,
}

fn half_skin(wheel: &WheelShape, side: f64) -> Skin {
    let axes = if side < 0.0 { Axes { along: wheel.axes.along * -1.0, ..wheel.axes } } else { wheel.axes };
    let (half, wide, round) = (wheel.size.half_rim, wheel.size.half_width, wheel.size.shoulder);
    let (seat, top) = (wheel.size.rim_radius + 1.0, wheel.size.radius);
    let widest = (seat + 0.52 * (top - seat)).min(top - round);
    let mut skin = Skin { outside: vec![axes.at(half, seat)], inside: vec![axes.at(half - 17.0, seat)] };
    // Out of the flange, round the sidewall, up to the shoulder.
    let rise = widest - seat - FLANGE_MM;
    let inner_wide = wide - SIDEWALL_MM;
    for share in QUARTER {
        let (sin, cos) = linkage::angle::sincos(share * FRAC_PI_2);
        skin.outside.push(axes.at(half + (wide - half) * sin, seat + FLANGE_MM + rise * (1.0 - cos)));
        skin.inside.push(axes.at(
            half - 16.0 + (inner_wide - half + 16.0) * sin,
            seat + FLANGE_MM + 4.0 + (rise - 4.0) * (1.0 - cos),
        ));
    }
    let (centre, inner) = ((wide - round, top - round), (round - SIDEWALL_MM).max(2.0));
    for share in QUARTER {
        let (sin, cos) = linkage::angle::sincos(share * FRAC_PI_2);
        skin.outside.push(axes.at(centre.0 + round * cos, centre.1 + round * sin));
        skin.inside.push(axes.at(centre.0 + inner * cos, centre.1 + (round - TREAD_MM).max(2.0) * sin));
    }
    skin
}

fn append(outline: &mut Trace, points: Vec<Vec2>, backward: bool) {
    if backward {
        points.into_iter().rev().for_each(|point| outline.to(point));
    } else {
        points.into_iter().for_each(|point| outline.to(point));
    }
}

/// The tread from inboard to outboard; the outline stands at its inboard edge.
fn grooves(outline: &mut Trace, wheel: &WheelShape) {
    let flat = wheel.size.half_width - wheel.size.shoulder;
    for place in [-0.72, -0.25, 0.25, 0.72] {
        let at = place * flat;
        for (along, depth) in
            [(-GROOVE_MM.1, 0.0), (-2.5, GROOVE_MM.0), (2.5, GROOVE_MM.0), (GROOVE_MM.1, 0.0)]
        {
            outline.to(wheel.axes.at(at + along, wheel.size.radius - depth));
        }
    }
}

/// The foot of the tire from outside: ribs, and blocks that close up towards
/// the ground as they turn away.
fn tread(board: &mut Board, wheel: &WheelShape, sizes: &[f64], contact: Vec2) {
    let axes = &wheel.axes;
    let flange = -(wheel.size.rim_radius + FLANGE_MM + 5.0);
    let loaded = axes.of(contact).1;
    let (wide, round) = (wheel.size.half_width, wheel.size.shoulder);
    let mut outline = cut(axes, sizes, BREAK, false);
    let (left, right) = (foot(wheel, -1.0, contact), foot(wheel, 1.0, contact));
    let cut = round * FOOT_ROUND;
    outline.to(right + axes.across * cut);
    outline.curve(right, right - axes.along * cut);
    outline.to(left + axes.along * cut);
    outline.curve(left, left + axes.across * cut);
    board.draw(Ink::Rubber, &outline.close());
    let flat = wide - round;
    let step = std::f64::consts::TAU / BLOCKS;
    // Ribs run round the tire: seen from the front they are upright lines.
    for place in [-0.72, -0.25, 0.25, 0.72] {
        let at = place * flat;
        board.lines(Ink::Groove, &[axes.at(at, flange - 4.0), axes.at(at, loaded)]);
    }
    let columns = [(-wide + 4.0, -0.72 * flat), (-0.25 * flat, 0.25 * flat), (0.72 * flat, wide - 4.0)];
    let between = [(-0.72 * flat, -0.25 * flat), (0.25 * flat, 0.72 * flat)];
    let mut turn = step * 2.0;
    while turn < FRAC_PI_2 {
        for (shift, ribs) in [(0.0, &columns[..]), (0.5, &between[..])] {
            let height = -wheel.size.radius * linkage::angle::cos(turn + shift * step);
            if height < flange - 5.0 && height > loaded + 2.0 {
                for (from, to) in ribs {
                    board.lines(Ink::Groove, &[axes.at(*from, height), axes.at(*to, height)]);
                }
            }
        }
        turn += step;
    }
}

/// Measures of the wheel's patterns, each where it stands in the upper half, cut through in the
/// plane of the axle. Outboard is to the right.
///
/// ```text
///                           centre plane
///          -WIDE                 :                  WIDE
///            .-------------------:--------------------.      tread
///           /                    :                     \
///          (                     :                      )    sidewalls
///           \                    :                     /
///            `.  |               :                |  .'      flanges
///   SEAT .....-HALF--.           :           .---HALF        bead seats
///                     \          :          /
///              -WELL_IN`---------:---------'WELL_OUT         drop centre
///   REACH .......................:......../                  the disc, welded into it
///   BRAKE .................| |   :       (                   brake disc
///   CROWN .................| |...:........)                  crown of the wheel's disc
///                          | |   :       /
///   CROWN_FOOT ............| |...:......|                    its flat
///   HAT ...................| |=======|  |                    hat of the brake disc
///                                :   |  |
///   0 ---------------------------:---|--|------------------- axle
///                                :     FACE                  where wheel and hub are bolted together
/// ```
///
/// Below the axle the tire is left whole from `TEAR` down, broken off along a line that bends at `RIB`.
const FACE: i8 = 1;
const HALF: i8 = 2;
const SEAT: i8 = 3;
const WELL_IN: i8 = 4;
const WELL_OUT: i8 = 5;
const REACH: i8 = 6;
const CROWN_FOOT: i8 = 7;
const CROWN: i8 = 8;
const BRAKE: i8 = 9;
const HAT: i8 = 10;
const WIDE: i8 = 11;
const TEAR: i8 = 12;
const RIB: i8 = 13;

fn measures(wheel: &WheelShape) -> [f64; 13] {
    let (half, seat) = (wheel.size.half_rim, wheel.size.rim_radius);
    let reach = seat - WELL_MM - 2.0;
    let flange = seat + FLANGE_MM + 5.0;
    [
        wheel.size.offset,
        half,
        seat,
        0.42 * half,
        0.3 * half,
        reach,
        0.44 * reach,
        0.68 * reach,
        0.72 * seat,
        0.4 * seat,
        wheel.size.half_width,
        flange,
        0.5 * wheel.size.half_width,
    ]
}

/// The far half of the rim, seen from inside.
const BARREL: &[Pattern] = &[
    shape(
        Ink::Barrel,
        &[(-HALF, 0, -SEAT, 0, 0), (HALF, 0, -SEAT, 0, 0), (HALF, 0, SEAT, 0, 0), (-HALF, 0, SEAT, 0, 0)],
    ),
    line(Ink::Thin, &[(-HALF, 15, -SEAT, 6, 0), (-HALF, 15, SEAT, -6, 0)]),
    line(Ink::Thin, &[(-WELL_IN, 0, -SEAT, 6, 0), (-WELL_IN, 0, SEAT, -6, 0)]),
    line(Ink::Thin, &[(WELL_OUT, 0, -SEAT, 6, 0), (WELL_OUT, 0, SEAT, -6, 0)]),
    line(Ink::Thin, &[(HALF, -15, -SEAT, 6, 0), (HALF, -15, SEAT, -6, 0)]),
];

/// The upper half of what turns, cut through; the lower half is its mirror.
const HALVES: &[Pattern] = &[
    // Brake disc: two plates, the air between them, the hat.
    shape(
        Ink::Rotor,
        &[(FACE, -40, HAT, 0, 1), (FACE, -33, HAT, 0, 1), (FACE, -33, BRAKE, 0, 1), (FACE, -40, BRAKE, 0, 1)],
    ),
    shape(
        Ink::Rotor,
        &[(FACE, -26, HAT, 0, 1), (FACE, -19, HAT, 0, 1), (FACE, -19, BRAKE, 0, 1), (FACE, -26, BRAKE, 0, 1)],
    ),
    shape(
        Ink::Barrel,
        &[
            (FACE, -33, HAT, 10, 1),
            (FACE, -26, HAT, 10, 1),
            (FACE, -26, BRAKE, -9, 1),
            (FACE, -33, BRAKE, -9, 1),
        ],
    ),
    shape(
        Ink::Rotor,
        &[(FACE, -30, HAT, -8, 1), (FACE, -6, HAT, -8, 1), (FACE, -6, HAT, 2, 1), (FACE, -30, HAT, 2, 1)],
    ),
    // Rim: flange, seat, drop centre, seat, flange.
    line(
        Ink::Rim,
        &[
            (-HALF, -9, SEAT, 13, 0),
            (-HALF, -6, SEAT, 18, 3),
            (-HALF, 0, SEAT, 18, 4),
            (-HALF, 0, SEAT, 0, 4),
            (-HALF, 16, SEAT, -2, 5),
            (-WELL_IN, 0, SEAT, -17, 5),
            (WELL_OUT, 0, SEAT, -17, 5),
            (HALF, -16, SEAT, -2, 5),
            (HALF, 0, SEAT, 0, 4),
            (HALF, 0, SEAT, 18, 4),
            (HALF, 6, SEAT, 18, 3),
            (HALF, 9, SEAT, 13, 0),
        ],
    ),
    // The pressed disc: flat at the bolts, a crown, and a foot welded into the well.
    line(
        Ink::Rim,
        &[
            (FACE, 0, 0, 33, 0),
            (FACE, 0, CROWN_FOOT, 0, 16),
            (FACE, 34, CROWN, 0, 60),
            (0, 3, REACH, 0, 12),
            (WELL_OUT, -2, REACH, 0, 0),
        ],
    ),
];

/// Hub and cap.
const HUB: &[Pattern] = &[
    shape(
        Ink::Rotor,
        &[
            (FACE, 0, 0, 64, 2),
            (FACE, 0, 0, -64, 2),
            (FACE, -9, 0, -64, 2),
            (FACE, -12, 0, -36, 6),
            (FACE, -36, 0, -33, 4),
            (FACE, -36, 0, 33, 4),
            (FACE, -12, 0, 36, 6),
            (FACE, -9, 0, 64, 2),
        ],
    ),
    shape(
        Ink::Rotor,
        &[(FACE, 0, 0, 30, 0), (FACE, 34, 0, 27, 6), (FACE, 34, 0, -27, 6), (FACE, 0, 0, -30, 0)],
    ),
    shape(
        Ink::Pin,
        &[(FACE, 34, 0, 20, 0), (FACE, 50, 0, 17, 8), (FACE, 50, 0, -17, 8), (FACE, 34, 0, -20, 0)],
    ),
];

/// Studs that hold the disc; and where there is room, bearings: boxes with their diagonals.
const BOLT: Pattern = shape(
    Ink::Pin,
    &[(FACE, -12, 0, 49, 1), (FACE, 20, 0, 49, 1), (FACE, 20, 0, 57, 1), (FACE, -12, 0, 57, 1)],
);
const BEARINGS: &[Pattern] = &[
    shape(
        Ink::Section,
        &[(FACE, -34, 0, 15, 0), (FACE, -14, 0, 15, 0), (FACE, -14, 0, 27, 0), (FACE, -34, 0, 27, 0)],
    ),
    line(Ink::Thin, &[(FACE, -34, 0, 15, 0), (FACE, -14, 0, 27, 0)]),
    line(Ink::Thin, &[(FACE, -34, 0, 27, 0), (FACE, -14, 0, 15, 0)]),
    shape(
        Ink::Section,
        &[(FACE, 10, 0, 15, 0), (FACE, 26, 0, 15, 0), (FACE, 26, 0, 27, 0), (FACE, 10, 0, 27, 0)],
    ),
    line(Ink::Thin, &[(FACE, 10, 0, 15, 0), (FACE, 26, 0, 27, 0)]),
    line(Ink::Thin, &[(FACE, 10, 0, 27, 0), (FACE, 26, 0, 15, 0)]),
];

/// The broken edge of the tread, as of a model cut open.
const BREAK: &[Corner] = &[
    (-WIDE, 0, -TEAR, 0, 0),
    (-RIB, -18, -TEAR, 8, 40),
    (-RIB, 22, -TEAR, -7, 40),
    (0, 8, -TEAR, 8, 40),
    (RIB, 4, -TEAR, -7, 40),
    (RIB, 30, -TEAR, 5, 40),
    (WIDE, 0, -TEAR, 0, 0),
];
