//! Tire, rim, disc, hub and brake: cut open above the ground, so that what
//! stands inside is seen; where it meets the ground the tread is left on.

use crate::board::Board;
use crate::figure::{Figure, WheelShape};
use crate::geometry::{Axes, P, Trace};
use crate::palette::Ink;
use crate::scene::Step;
use std::f64::consts::FRAC_PI_2;

/// Thickness of the tread and its belts, mm.
const TREAD_MM: f64 = 17.0;
/// Thickness of a sidewall, mm.
const SIDEWALL_MM: f64 = 8.0;
/// Height of a rim's flange over its seat, mm.
const FLANGE_MM: f64 = 17.0;
/// Depth of the rim's drop centre, mm.
const WELL_MM: f64 = 17.0;
/// Depth and half width of a groove of the tread, mm.
const GROOVE_MM: P = P(9.0, 4.0);
/// Shares of a quarter turn at which a section is taken.
const QUARTER: [f64; 7] = [0.0, 0.17, 0.34, 0.5, 0.66, 0.83, 1.0];
/// Blocks of the tread around the tire.
const BLOCKS: f64 = 56.0;

/// The wheel, from behind to front. `section` and rim are cut in the plane of the axle.
pub(crate) fn wheel(board: &mut Board, figure: &Figure) {
    let wheel = &figure.wheel;
    board.draw(Ink::Tire, &silhouette(wheel, figure.contact));
    if board.ghost {
        return;
    }
    barrel(board, wheel);
    section(board, wheel);
    tread(board, wheel, figure.contact);
    brake(board, wheel);
    rim(board, wheel);
    hub(board, wheel);
}

/// The tire from outside: straight above, pressed flat on the ground.
fn silhouette(wheel: &WheelShape, contact: P) -> Trace {
    let axes = &wheel.axes;
    let side = |way: f64| {
        let along = way * wheel.half_width;
        // Where this side of the tire meets the ground.
        let foot = axes.at(along, 0.0);
        let down = (foot.1 - contact.1) / axes.across.1.max(0.2);
        (axes.at(along, wheel.radius), axes.at(along, -down))
    };
    let ((left_top, left_foot), (right_top, right_foot)) = (side(-1.0), side(1.0));
    let round = wheel.shoulder;
    Trace::rounded(&[
        (left_top, round),
        (right_top, round),
        (right_foot, round * 0.72),
        (left_foot, round * 0.72),
    ])
}

/// The far half of the rim, seen from inside.
fn barrel(board: &mut Board, wheel: &WheelShape) {
    let (reach, half) = (wheel.rim_radius, wheel.half_rim);
    let box_of = |from: f64, to: f64, reach: f64| {
        [(from, -reach), (to, -reach), (to, reach), (from, reach)].map(|(a, b)| (wheel.axes.at(a, b), 0.0))
    };
    board.rounded(Ink::Barrel, &box_of(-half, half, reach));
    for at in [-half + 15.0, -0.42 * half, 0.3 * half, half - 15.0] {
        board.lines(Ink::Thin, &[wheel.axes.at(at, -reach + 6.0), wheel.axes.at(at, reach - 6.0)]);
    }
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
    let half = wheel.half_rim;
    let seat = wheel.rim_radius + 2.0;
    board.draw(Ink::Cavity, &cavity.close());
    board.draw(Ink::Rubber, &outline);
    let bead = board.mm(1.6).max(4.0);
    for side in [-1.0, 1.0] {
        board.circle(Ink::Cavity, wheel.axes.at(side * (half - 8.0), seat + 9.0), bead);
    }
}

/// One side of the tire's section, from the bead to the edge of the tread.
struct Skin {
    outside: Vec<P>,
    inside: Vec<P>,
}

fn half_skin(wheel: &WheelShape, side: f64) -> Skin {
    let axes = if side < 0.0 { Axes { along: wheel.axes.along * -1.0, ..wheel.axes } } else { wheel.axes };
    let (half, wide, round) = (wheel.half_rim, wheel.half_width, wheel.shoulder);
    let (seat, top) = (wheel.rim_radius + 1.0, wheel.radius);
    let widest = (seat + 0.52 * (top - seat)).min(top - round);
    let mut skin = Skin { outside: vec![axes.at(half, seat)], inside: vec![axes.at(half - 17.0, seat)] };
    // Out of the flange, round the sidewall, up to the shoulder.
    let rise = widest - seat - FLANGE_MM;
    let inner_wide = wide - SIDEWALL_MM;
    for share in QUARTER {
        let (sin, cos) = libm::sincos(share * FRAC_PI_2);
        skin.outside.push(axes.at(half + (wide - half) * sin, seat + FLANGE_MM + rise * (1.0 - cos)));
        skin.inside.push(axes.at(
            half - 16.0 + (inner_wide - half + 16.0) * sin,
            seat + FLANGE_MM + 4.0 + (rise - 4.0) * (1.0 - cos),
        ));
    }
    let (centre, inner) = ((wide - round, top - round), (round - SIDEWALL_MM).max(2.0));
    for share in QUARTER {
        let (sin, cos) = libm::sincos(share * FRAC_PI_2);
        skin.outside.push(axes.at(centre.0 + round * cos, centre.1 + round * sin));
        skin.inside.push(axes.at(centre.0 + inner * cos, centre.1 + (round - TREAD_MM).max(2.0) * sin));
    }
    skin
}

fn append(outline: &mut Trace, points: Vec<P>, backward: bool) {
    if backward {
        points.into_iter().rev().for_each(|point| outline.to(point));
    } else {
        points.into_iter().for_each(|point| outline.to(point));
    }
}

/// The tread from inboard to outboard; the outline stands at its inboard edge.
fn grooves(outline: &mut Trace, wheel: &WheelShape) {
    let flat = wheel.half_width - wheel.shoulder;
    for place in [-0.72, -0.25, 0.25, 0.72] {
        let at = place * flat;
        for (along, depth) in
            [(-GROOVE_MM.1, 0.0), (-2.5, GROOVE_MM.0), (2.5, GROOVE_MM.0), (GROOVE_MM.1, 0.0)]
        {
            outline.to(wheel.axes.at(at + along, wheel.radius - depth));
        }
    }
}

/// The foot of the tire from outside: ribs, and blocks that close up towards
/// the ground as they turn away.
fn tread(board: &mut Board, wheel: &WheelShape, contact: P) {
    let axes = &wheel.axes;
    let flange = -(wheel.rim_radius + FLANGE_MM + 5.0);
    let loaded = axes.of(contact).1;
    let (wide, round) = (wheel.half_width, wheel.shoulder);
    let foot = |way: f64| {
        let edge = axes.at(way * wide, 0.0);
        axes.at(way * wide, -(edge.1 - contact.1) / axes.across.1.max(0.2))
    };
    // A broken edge, as of a model cut open.
    let mut outline = Trace::from(axes.at(-wide, flange));
    let half = wheel.half_width * 0.5;
    outline.curve(axes.at(-half * 1.3, flange + 9.0), axes.at(-half, flange));
    outline.curve(axes.at(-half * 0.6, flange - 8.0), axes.at(0.0, flange));
    outline.curve(axes.at(half * 0.6, flange + 9.0), axes.at(half, flange));
    outline.curve(axes.at(half * 1.4, flange - 8.0), axes.at(wide, flange));
    let (right, left) = (foot(1.0), foot(-1.0));
    let cut = round * 0.72;
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
            let height = -wheel.radius * libm::cos(turn + shift * step);
            if height < flange - 5.0 && height > loaded + 2.0 {
                for (from, to) in ribs {
                    board.lines(Ink::Groove, &[axes.at(*from, height), axes.at(*to, height)]);
                }
            }
        }
        turn += step;
    }
}

/// The rim cut through, above and below the axle, with the wheel's disc.
fn rim(board: &mut Board, wheel: &WheelShape) {
    let (half, seat) = (wheel.half_rim, wheel.rim_radius);
    let well = seat - WELL_MM;
    let face = wheel.offset;
    for side in [1.0, -1.0] {
        let at = |along: f64, radius: f64| wheel.axes.at(along, side * radius);
        let mut profile = Trace::from(at(-half - 9.0, seat + FLANGE_MM - 3.0));
        profile.curve(at(-half - 4.0, seat + FLANGE_MM + 3.0), at(-half, seat + FLANGE_MM - 4.0));
        for (along, radius) in [
            (-half, seat),
            (-half + 16.0, seat - 2.0),
            (-0.42 * half, well),
            (0.3 * half, well),
            (half - 16.0, seat - 2.0),
            (half, seat),
            (half, seat + FLANGE_MM - 4.0),
        ] {
            profile.to(at(along, radius));
        }
        profile.curve(at(half + 4.0, seat + FLANGE_MM + 3.0), at(half + 9.0, seat + FLANGE_MM - 3.0));
        board.draw(Ink::Rim, &profile);
        // The disc is pressed: flat at the bolts, a crown, and a foot welded into the well.
        let reach = well - 2.0;
        let mut disc = Trace::from(at(face, 33.0));
        disc.to(at(face, 0.42 * reach));
        disc.curve(at(face + 2.0, 0.5 * reach), at(face + 17.0, 0.58 * reach));
        disc.curve(at(face + 34.0, 0.68 * reach), at(face + 22.0, 0.82 * reach));
        disc.curve(at(0.16 * half + face * 0.2, 0.93 * reach), at(0.05 * half, reach));
        disc.to(at(0.28 * half, reach));
        board.draw(Ink::Rim, &disc);
    }
}

/// Brake disc on its hat, cut through.
fn brake(board: &mut Board, wheel: &WheelShape) {
    let face = wheel.offset;
    let outer = 0.72 * wheel.rim_radius;
    for side in [1.0, -1.0] {
        let plate = |board: &mut Board, from: (f64, f64), to: (f64, f64), ink: Ink| {
            let corners = [(from.0, from.1), (to.0, from.1), (to.0, to.1), (from.0, to.1)]
                .map(|(along, radius)| (wheel.axes.at(along, side * radius), 1.5));
            board.rounded(ink, &corners);
        };
        plate(board, (face - 40.0, 0.56 * outer), (face - 33.0, outer), Ink::Rotor);
        plate(board, (face - 26.0, 0.56 * outer), (face - 19.0, outer), Ink::Rotor);
        // Between the plates the air goes through.
        plate(board, (face - 33.0, 0.64 * outer), (face - 26.0, 0.93 * outer), Ink::Barrel);
        plate(board, (face - 30.0, 0.5 * outer), (face - 6.0, 0.58 * outer), Ink::Rotor);
    }
}

/// Hub, bearings, pin, nut and cap.
fn hub(board: &mut Board, wheel: &WheelShape) {
    let face = wheel.offset;
    let at = |along: f64, across: f64| wheel.axes.at(along, across);
    let mut flange = Vec::new();
    for (along, across, round) in [
        (face, 64.0, 2.0),
        (face, -64.0, 2.0),
        (face - 9.0, -64.0, 2.0),
        (face - 12.0, -36.0, 6.0),
        (-36.0_f64.min(face - 20.0), -33.0, 4.0),
        (-36.0_f64.min(face - 20.0), 33.0, 4.0),
        (face - 12.0, 36.0, 6.0),
        (face - 9.0, 64.0, 2.0),
    ] {
        flange.push((at(along, across), round));
    }
    board.rounded(Ink::Rotor, &flange);
    let nose = [(face, 30.0, 0.0), (face + 34.0, 27.0, 6.0), (face + 34.0, -27.0, 6.0), (face, -30.0, 0.0)];
    let nose: Vec<(P, f64)> =
        nose.iter().map(|(along, across, round)| (at(*along, *across), *round)).collect();
    board.rounded(Ink::Rotor, &nose);
    let cap = [
        (face + 34.0, 20.0, 0.0),
        (face + 50.0, 17.0, 8.0),
        (face + 50.0, -17.0, 8.0),
        (face + 34.0, -20.0, 0.0),
    ];
    let cap: Vec<(P, f64)> = cap.iter().map(|(along, across, round)| (at(*along, *across), *round)).collect();
    board.rounded(Ink::Pin, &cap);
    for side in [1.0, -1.0] {
        // Studs and nuts that hold the disc.
        let bolt = [(face - 12.0, 49.0), (face + 20.0, 49.0), (face + 20.0, 57.0), (face - 12.0, 57.0)];
        board.rounded(Ink::Pin, &bolt.map(|(along, across)| (at(along, side * across), 1.0)));
        if board.fine() {
            bearing(board, wheel, (-34.0, -14.0), side);
            bearing(board, wheel, (face + 10.0, face + 26.0), side);
        }
    }
}

/// A rolling bearing cut through: a box with its diagonals.
fn bearing(board: &mut Board, wheel: &WheelShape, (from, to): (f64, f64), side: f64) {
    let at = |along: f64, radius: f64| wheel.axes.at(along, side * radius);
    let (inner, outer) = (15.0, 27.0);
    board.rounded(
        Ink::Section,
        &[(at(from, inner), 0.0), (at(to, inner), 0.0), (at(to, outer), 0.0), (at(from, outer), 0.0)],
    );
    board.lines(Ink::Thin, &[at(from, inner), at(to, outer)]);
    board.lines(Ink::Thin, &[at(from, outer), at(to, inner)]);
}
