//! Two parts that meet, side by side, with one arrow at the number that is asked for: what the
//! calipers are put on.
//!
//! Sketched, never to scale: nothing is measured yet, and what is stands beside it as a number.

mod kinds;

use super::both;
use crate::dimension::arrow;
use crate::geometry::{Trace, Vec2, hatch};
use crate::palette::Ink;
use crate::path::Path;
use crate::scene::{Form, Label, Run, Scene, Shape, gather};
use crate::transform::Transform;
use truck::{Ledger, Of, Row};

/// Width and height of the picture, px.
const SIZE_PX: (f64, f64) = (320.0, 136.0);
/// Where the second part's box begins, px; between its own and the first's is what holds the two.
const SECOND_PX: f64 = 184.0;
/// Distance between the lines of a section's hatch, px.
const HATCH_PX: f64 = 4.6;
/// A shorter dimension has its arrows outside, px.
const SHORT_PX: f64 = 24.0;
/// How far a line with its arrows outside goes on, px.
const TAIL_PX: f64 = 14.0;

/// Left, top, right and bottom in a side's box, px.
type Place = (u8, u8, u8, u8);

/// A shape of a part: px of its side's box, right and down.
#[derive(Clone, Copy)]
enum Piece {
    /// A block.
    Block(Ink, Place),
    /// A circle: its middle, right and down, and its radius.
    Disc(Ink, u8, u8, u8),
    /// A circle of teeth with one of its valleys filled: its middle and the radius over the teeth.
    Teeth(Ink, u8, u8, u8),
    /// Any other outline.
    Outline(Ink, &'static [(u8, u8)]),
    /// A bent line: from, by, to.
    Bent(Ink, [(u8, u8); 3]),
    /// Centre lines of a circle of some radius.
    Cross(u8, u8, u8),
    /// A screw thread on a block.
    Thread(Place),
    /// Section lines inside the last shapes, as many as said.
    Cut(usize),
    /// A hole's number, about its middle.
    Number(u8, u8, &'static str),
}

/// The arrow at a number: px of its side's box; of both together, of the first's.
#[derive(Clone, Copy)]
struct Arrow {
    way: Way,
    from: (u8, u8),
    to: (u8, u8),
    /// Where the line of a dimension lies, or what a bent one is led by.
    by: (u8, u8),
}

/// How an arrow goes.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// Over a size across, in a line at a height.
    Across,
    /// Over a size down, in a line so far to the right.
    Down,
    /// Straight from one point to the other.
    Span,
    /// Along a bent way.
    Along,
    /// From where there is room to what is looked at, counted or done.
    At,
}

const fn across(from: (u8, u8), to: (u8, u8), y: u8) -> Arrow {
    Arrow { way: Way::Across, from, to, by: (0, y) }
}

const fn down(from: (u8, u8), to: (u8, u8), x: u8) -> Arrow {
    Arrow { way: Way::Down, from, to, by: (x, 0) }
}

const fn span(from: (u8, u8), to: (u8, u8)) -> Arrow {
    Arrow { way: Way::Span, from, to, by: to }
}

const fn along(from: (u8, u8), by: (u8, u8), to: (u8, u8)) -> Arrow {
    Arrow { way: Way::Along, from, to, by }
}

const fn at(from: (u8, u8), to: (u8, u8)) -> Arrow {
    Arrow { way: Way::At, from, to, by: to }
}

/// A row's two parts with an arrow at one of its numbers.
#[must_use]
pub fn callout_drawing(ledger: &Ledger, row: &Row, callout: u8) -> Scene {
    let kind = row.kind();
    let (sides, arrows) = kinds::drawn(kind, asks_all(row));
    let mut sketch = Sketch::default();
    for (pieces, right) in sides.iter().zip([0.0, SECOND_PX, 0.0]) {
        sketch.right = right;
        for piece in *pieces {
            sketch.draw(*piece);
        }
    }
    let of = kind.callout(callout).map(|callout| callout.of);
    let [first, second] = row.parts().map(|part| ledger.part_name(part));
    sketch.right = if of == Some(Of::Second) { SECOND_PX } else { 0.0 };
    if let Some(asked) = arrows.get(usize::from(callout)) {
        sketch.point(*asked);
    }
    let whose = match of {
        Some(Of::First) => [", of the ", first].concat(),
        Some(Of::Second) => [", of the ", second].concat(),
        _ => String::new(),
    };
    let description =
        [&both(ledger, row), ", not to scale. Arrow at: ", kind.callout_label(callout), &whose].concat();
    Scene {
        width_px: SIZE_PX.0,
        height_px: SIZE_PX.1,
        prefix: String::new(),
        title: String::new(),
        description,
        shapes: sketch.shapes,
        parts: Vec::new(),
        labels: sketch.labels,
        overflow: Vec::new(),
        transform: Transform::new(1.0, (0.0, 0.0)),
        handles: Vec::new(),
    }
}

/// Whether a row asks every number of its kind, those for the sketch among them.
fn asks_all(row: &Row) -> bool {
    (0_u8..).zip(row.kind().callouts()).all(|(at, _)| row.asks(at))
}

/// Shapes on their way into a picture.
#[derive(Default)]
struct Sketch {
    shapes: Vec<Shape>,
    labels: Vec<Label>,
    /// Where the box of the part being drawn begins, px.
    right: f64,
}

impl Sketch {
    fn at(&self, (x, y): (u8, u8)) -> Vec2 {
        Vec2(f64::from(x) + self.right, f64::from(y))
    }

    #[inline(never)]
    fn put(&mut self, ink: Ink, trace: Trace) {
        self.shapes.push(Shape { ink, form: Form::Path(Path { steps: trace.steps }) });
    }

    #[inline(never)]
    fn lines(&mut self, ink: Ink, points: &[(u8, u8)]) {
        let points: Vec<Vec2> = points.iter().map(|point| self.at(*point)).collect();
        self.put(ink, Trace::lines(&points));
    }

    fn draw(&mut self, piece: Piece) {
        match piece {
            Piece::Block(ink, (left, top, right, bottom)) => {
                self.draw_area(ink, &[(left, top), (right, top), (right, bottom), (left, bottom)]);
            }
            Piece::Outline(ink, corners) => self.draw_area(ink, corners),
            Piece::Disc(ink, x, y, radius) => {
                self.put(ink, Trace::disc(self.at((x, y)), f64::from(radius)));
            }
            Piece::Teeth(ink, x, y, radius) => self.teeth(ink, (x, y), f64::from(radius)),
            Piece::Bent(ink, [from, by, to]) => {
                let mut trace = Trace::lines(&[self.at(from)]);
                trace.curve(self.at(by), self.at(to));
                self.put(ink, trace);
            }
            Piece::Cross(x, y, half) => {
                self.lines(Ink::Centre, &[(x - half, y), (x + half, y)]);
                self.lines(Ink::Centre, &[(x, y - half), (x, y + half)]);
            }
            Piece::Thread((left, top, right, bottom)) => {
                for y in (top..=bottom).step_by(8) {
                    self.lines(Ink::Thin, &[(left, y), (right, y)]);
                }
            }
            Piece::Cut(last) => {
                let mut outline = Trace::default();
                for shape in &self.shapes[self.shapes.len() - last..] {
                    if let Form::Path(path) = &shape.form {
                        outline.steps.extend(&path.steps);
                    }
                }
                self.put(Ink::Hatch, hatch(&outline, false, HATCH_PX, Vec2(0.0, 0.0)));
            }
            Piece::Number(x, y, said) => {
                let Vec2(x, y) = self.at((x, y));
                self.labels.push(Label {
                    left: x - 5.0,
                    top: y - 8.0,
                    width: 10.0,
                    height: 16.0,
                    size: 13.0,
                    ink: Ink::TextInk,
                    lines: vec![vec![Run::Text(said.to_owned())]],
                    spoken: said.to_owned(),
                });
            }
        }
    }

    fn draw_area(&mut self, ink: Ink, corners: &[(u8, u8)]) {
        let points: Vec<Vec2> = corners.iter().map(|point| self.at(*point)).collect();
        self.put(ink, Trace::lines(&points).close());
    }

    /// Two dozen teeth, the valley right of the topmost filled: a blind one.
    fn teeth(&mut self, ink: Ink, middle: (u8, u8), radius: f64) {
        const HALF_RAD: f64 = std::f64::consts::PI / 24.0;
        let middle = self.at(middle);
        let corner = |at: i32| {
            let (sin, cos) = linkage::angle::sincos(f64::from(at) * HALF_RAD);
            middle + Vec2(sin, -cos) * if at % 2 == 0 { radius } else { radius - 5.0 }
        };
        let corners: Vec<Vec2> = (0..48).map(corner).collect();
        self.put(ink, Trace::lines(&corners).close());
        self.put(Ink::Solid, Trace::lines(&corners[..3]).close());
    }

    /// The arrow, with lines from the part to it.
    fn point(&mut self, Arrow { way, from, to, by }: Arrow) {
        let part = [self.at(from), self.at(to)];
        let by = self.at(by);
        let mut ends = part;
        for (end, of) in ends.iter_mut().zip(part) {
            match way {
                Way::Across => end.1 = by.1,
                Way::Down => end.0 = by.0,
                _ => continue,
            }
            self.put(Ink::Extension, Trace::lines(&[of, *end]));
        }
        let [from, to] = ends;
        let by = if way == Way::Along { by } else { from.towards(to, 0.5) };
        // Where it is short the tips look inwards from outside; else the line ends inside the heads, so that
        // they are sharp.
        let is_short = matches!(way, Way::Across | Way::Down | Way::Span) && (to - from).size() < SHORT_PX;
        let beyond = if is_short { TAIL_PX } else { -4.0 };
        let out = ends.map(|end| (end - by).unit());
        let start = if way == Way::At { from } else { from + out[0] * beyond };
        let mut line = Trace::lines(&[start]);
        line.curve(by, to + out[1] * beyond);
        self.put(Ink::Accent, line);
        let mut heads = Vec::new();
        for (tip, out) in ends.into_iter().zip(out).skip(usize::from(way == Way::At)) {
            let out = if is_short { out * -1.0 } else { out };
            heads.push(arrow(Ink::AccentSolid, (tip.0, tip.1), (out.0, out.1)));
        }
        gather(&mut self.shapes, heads);
    }
}

#[cfg(test)]
mod tests;
