//! What the arms hang on: rail, brackets, crossmember, bump stop, fender.

use crate::board::Board;
use crate::figure::Figure;
use crate::geometry::{Axes, P, Trace};
use crate::palette::Ink;

/// How far the picture goes beyond the centreline, mm.
pub(crate) const BEYOND_MM: f64 = 46.0;
/// How far the fender rises above its lip, mm.
pub(crate) const CROWN_MM: f64 = 70.0;
/// How far the fender goes outboard of its lip's inner edge, mm.
pub(crate) const FLARE_MM: f64 = 30.0;

/// Crossmember and brackets, behind the arms.
pub(crate) fn brackets(board: &mut Board, figure: &Figure) {
    let (rail, size) = (figure.rail, figure.rail_size);
    let (inner, top) = (rail.0 - size.0, rail.1 + size.1);
    if !board.ghost {
        crossmember(board, inner, rail.1, size.1);
    }
    let middle = rail.0 - size.0 * 0.5;
    let lower_foot = P(middle, rail.1 + 6.0);
    board.taper(Ink::Frame, lower_foot, size.0 * 0.5, figure.lower.pivot, 31.0);
    let upper_foot = P(rail.0 - size.0 * 0.42, top - 12.0);
    board.taper(Ink::Frame, upper_foot, size.0 * 0.42, figure.upper.pivot, 25.0);
    if let Some(stop) = &figure.stop {
        let foot = P(rail.0 - 6.0, rail.1 + size.1 * 0.4);
        let wide = (size.1 * 0.3).min(34.0);
        board.taper(Ink::Frame, foot, wide, stop.foot + P(-2.0, 9.0), 13.0);
    }
    if let Some((_, seat)) = figure.coil {
        board.taper(Ink::Frame, P(rail.0 - 8.0, top - 30.0), 28.0, seat + P(0.0, 18.0), 24.0);
    }
    if !board.ghost {
        for (foot, pivot) in [(lower_foot, figure.lower.pivot), (upper_foot, figure.upper.pivot)] {
            // A pressed rib.
            board.lines(Ink::Thin, &[foot.towards(pivot, 0.25), foot.towards(pivot, 0.62)]);
        }
    }
}

/// From the rail beyond the centreline, where it is broken off.
fn crossmember(board: &mut Board, inner: f64, bottom: f64, height: f64) {
    let (low, high) = (bottom + height * 0.16, bottom + height * 0.66);
    let end = -BEYOND_MM + 8.0;
    let mut outline = Trace::from(P(inner + 4.0, low));
    outline.to(P(inner + 4.0, high));
    outline.to(P(end, high));
    let middle = f64::midpoint(low, high);
    outline.curve(P(end - 13.0, f64::midpoint(high, middle)), P(end, middle));
    outline.curve(P(end + 13.0, f64::midpoint(low, middle)), P(end, low));
    board.draw(Ink::Frame, &outline.close());
    let lip = (high - low) * 0.2;
    for at in [low + lip, high - lip] {
        board.lines(Ink::Thin, &[P(end + 6.0, at), P(inner - 2.0, at)]);
    }
}

/// The rail cut through: a channel, open inward, closed by a welded plate.
pub(crate) fn rail(board: &mut Board, figure: &Figure) {
    let (corner, size) = (figure.rail, figure.rail_size);
    let wall = board.least(6.0, 4.6).min(size.0 / 3.0).min(size.1 / 3.0);
    let (inner, outer) = (corner.0 - size.0, corner.0);
    let (low, high) = (corner.1, corner.1 + size.1);
    let at = |y: f64, z: f64, round: f64| (P(y, z), round);
    let outline = [at(inner, low, 1.0), at(outer, low, 10.0), at(outer, high, 10.0), at(inner, high, 1.0)];
    if board.ghost {
        board.rounded(Ink::Section, &outline);
        return;
    }
    board.rounded(Ink::Inside, &outline);
    let channel = Trace::rounded(&[
        at(inner, low, 0.5),
        at(outer, low, 10.0),
        at(outer, high, 10.0),
        at(inner, high, 0.5),
        at(inner, high - wall, 0.5),
        at(outer - wall, high - wall, 6.0),
        at(outer - wall, low + wall, 6.0),
        at(inner, low + wall, 0.5),
    ]);
    let plate = Trace::rounded(&[
        at(inner, low + wall, 0.5),
        at(inner + wall, low + wall, 0.5),
        at(inner + wall, high - wall, 0.5),
        at(inner, high - wall, 0.5),
    ]);
    // Neighbours in section are hatched opposite ways.
    for (trace, rising) in [(&channel, true), (&plate, false)] {
        board.draw(Ink::Section, trace);
        board.hatch(trace, rising, corner);
    }
}

/// The rubber under its foot.
pub(crate) fn bump_stop(board: &mut Board, figure: &Figure) {
    let Some(stop) = &figure.stop else { return };
    if board.ghost {
        return;
    }
    let axes = Axes::new(stop.foot, stop.tip - stop.foot);
    let length = (stop.tip - stop.foot).size();
    // Squeezed rubber swells.
    let wide = 14.0 + 120.0 / length.max(12.0);
    board.rounded(
        Ink::Rubber,
        &[
            (axes.at(0.0, wide), 2.0),
            (axes.at(length * 0.55, wide * 0.86), 6.0),
            (axes.at(length, wide * 0.5), 5.0),
            (axes.at(length, -wide * 0.5), 5.0),
            (axes.at(length * 0.55, -wide * 0.86), 6.0),
            (axes.at(0.0, -wide), 2.0),
        ],
    );
    board.taper(Ink::Frame, axes.at(-2.0, wide + 3.0), 3.5, axes.at(-2.0, -wide - 3.0), 3.5);
}

/// The fender cut through over the axle: thin sheet, its edge folded into the lip.
pub(crate) fn fender(board: &mut Board, figure: &Figure) {
    let lip = figure.fender;
    let at = |y: f64, z: f64| lip + P(y, z);
    let mut sheet = Trace::from(at(2.0, 2.5));
    sheet.to(at(9.0, 1.0));
    sheet.curve(at(13.0, 0.0), at(14.0, 6.0));
    sheet.curve(at(FLARE_MM + 8.0, 44.0), at(FLARE_MM - 22.0, 56.0));
    sheet.curve(at(-50.0, CROWN_MM + 3.0), at(-150.0, CROWN_MM));
    sheet.curve(at(-205.0, CROWN_MM - 2.0), at(-236.0, CROWN_MM - 14.0));
    board.draw(Ink::Sheet, &sheet);
    if !board.ghost {
        // The inner panel, and where the drawing breaks off.
        let mut liner = Trace::from(at(5.0, 8.0));
        liner.curve(at(10.0, 42.0), at(-30.0, 48.0));
        liner.curve(at(-110.0, 56.0), at(-228.0, 44.0));
        board.draw(Ink::Edge, &liner);
        board.lines(
            Ink::Thin,
            &[
                at(-240.0, CROWN_MM),
                at(-231.0, CROWN_MM - 25.0),
                at(-238.0, CROWN_MM - 22.0),
                at(-229.0, 30.0),
            ],
        );
    }
}
