//! Dimension lines: arrows at both ends, the number in the line.

use crate::labels::{Ask, Layout};
use crate::palette::Ink;
use crate::scene::{Run, Shape};
use crate::text;

/// Length and half width of an arrow, px.
const ARROW_PX: (f64, f64) = (7.8, 2.5);
/// A shorter line has its arrows outside, px.
const SHORT_PX: f64 = 25.0;
/// How far a line with its arrows outside goes on, px.
const TAIL_PX: f64 = 15.0;

/// Lays a dimension between two points: the number in the line where it fits,
/// without its name if need be, else beside it. What is drawn goes to `shapes`.
pub(crate) fn dimension(
    layout: &mut Layout,
    shapes: &mut Vec<Shape>,
    ends: [(f64, f64); 2],
    mut ask: Ask,
    nameless: Option<Vec<Run>>,
) {
    let [from, to] = ends;
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let length = (x * x + y * y).sqrt();
    let way = if length > 0.01 { (x / length, y / length) } else { (0.0, -1.0) };
    let at = |share: f64| (from.0 + x * share, from.1 + y * share);
    // How much of the line the box takes out, and whether the rest will do.
    let fits = |(width, height): (f64, f64)| {
        let taken = (width / way.0.abs().max(1e-6)).min(height / way.1.abs().max(1e-6));
        taken + 2.0 * ARROW_PX.0 <= length
    };
    if let Some(runs) = nameless
        .filter(|runs| !fits(ask.size()) && fits(text::box_of(std::slice::from_ref(runs), ask.ink, ask.size)))
    {
        ask.lines = vec![runs];
    }
    let (width, height) = ask.size();
    let mut spots = Vec::new();
    if fits((width, height)) {
        spots.extend([0.5, 0.4, 0.6, 0.3, 0.7].iter().map(|share| at(*share)));
    }
    let middle = at(0.5);
    for side in [1.0, -1.0] {
        let across = (-way.1 * side, way.0 * side);
        // Far enough that the box clears the line.
        let off = (width / 2.0 * across.0.abs() + height / 2.0 * across.1.abs()) + 5.0;
        spots.push((middle.0 + across.0 * off, middle.1 + across.1 * off));
    }
    spots.append(&mut ask.spots);
    ask.spots = spots;
    ask.anchor = middle;
    let rect = layout.place(ask);
    let short = length < SHORT_PX;
    let (start, end) = if short {
        let tail = (way.0 * TAIL_PX, way.1 * TAIL_PX);
        ((from.0 - tail.0, from.1 - tail.1), (to.0 + tail.0, to.1 + tail.1))
    } else {
        (from, to)
    };
    let mix = |share: f64| (start.0 + (end.0 - start.0) * share, start.1 + (end.1 - start.1) * share);
    // Where the number stands the line is left out.
    let (enters, leaves) = rect.and_then(|rect| rect.cuts(start, end)).unwrap_or((1.0, 1.0));
    let first = shapes.len();
    shapes.push(Shape::pairs(Ink::Dimension, &[start, mix(enters), mix(leaves), end]));
    let inward = if short { -1.0 } else { 1.0 };
    shapes.push(arrow(Ink::Arrow, from, (-way.0 * inward, -way.1 * inward)));
    shapes.push(arrow(Ink::Arrow, to, (way.0 * inward, way.1 * inward)));
    layout.mark(&shapes[first..]);
}

/// An arrow's head whose tip stands at `tip` and points along `way`, a unit vector.
pub(crate) fn arrow(ink: Ink, tip: (f64, f64), way: (f64, f64)) -> Shape {
    let (length, half) = ARROW_PX;
    let base = (tip.0 - way.0 * length, tip.1 - way.1 * length);
    let side = (-way.1 * half, way.0 * half);
    let corners = [tip, (base.0 + side.0, base.1 + side.1), (base.0 - side.0, base.1 - side.1)];
    Shape::area(ink, &corners)
}
