//! Where labels go: no two meet, none leaves the picture, none covers a handle.
//!
//! Each label in turn, the most needed first, takes the cheapest free place:
//! one of the spots asked for, else one on rings around what it names, with a
//! leader, else anywhere. Ink beneath costs, and so does distance.

use crate::geometry::{bounded, pieces};
use crate::palette::Ink;
use crate::scene::{Form, Label, Run, Shape};
use crate::text;

/// Side of a cell of the map of what is inked, px.
const CELL_PX: f64 = 6.0;
/// Between two labels, and between a label and the picture's edge, px.
const APART_PX: f64 = 2.0;
/// Radius around a handle that is kept free, px.
pub(crate) const DOT_PX: f64 = 8.0;
/// Cost of a cell with ink in it.
const INKED: u8 = 4;
/// Cost of a cell with a dimension line or a scale in it: a number across it reads as a part of it.
const DIMENSIONED: u8 = 24;
/// What it costs to stand off the spots asked for.
const AWAY: f64 = 14.0;

/// A rectangle, px.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rect {
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) width: f64,
    pub(crate) height: f64,
}

impl Rect {
    fn about(centre: (f64, f64), (width, height): (f64, f64)) -> Self {
        Self { left: centre.0 - width / 2.0, top: centre.1 - height / 2.0, width, height }
    }

    fn meets(&self, other: &Self) -> bool {
        self.left < other.left + other.width + APART_PX
            && other.left < self.left + self.width + APART_PX
            && self.top < other.top + other.height + APART_PX
            && other.top < self.top + self.height + APART_PX
    }

    /// The point of the rectangle that is nearest to one outside.
    fn nearest(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (bounded(x, self.left, self.left + self.width), bounded(y, self.top, self.top + self.height))
    }

    /// The shares of a line between which it runs inside, if it does.
    pub(crate) fn cuts(&self, from: (f64, f64), to: (f64, f64)) -> Option<(f64, f64)> {
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (start, step, low, size) in
            [(from.0, to.0 - from.0, self.left, self.width), (from.1, to.1 - from.1, self.top, self.height)]
        {
            if step.abs() < 1e-9 {
                if start < low || start > low + size {
                    return None;
                }
            } else {
                let (a, b) = ((low - start) / step, (low + size - start) / step);
                enters = enters.max(a.min(b));
                leaves = leaves.min(a.max(b));
            }
        }
        (enters < leaves).then_some((enters, leaves))
    }
}

/// A label that wants a place.
pub(crate) struct Ask {
    pub(crate) lines: Vec<Vec<Run>>,
    pub(crate) spoken: String,
    pub(crate) ink: Ink,
    pub(crate) size: f64,
    /// What it names.
    pub(crate) anchor: (f64, f64),
    /// Middles of the boxes it would like, best first.
    pub(crate) spots: Vec<(f64, f64)>,
    /// Whether a spot asked for needs a leader too.
    pub(crate) led: bool,
    /// Where no place costs less, it has no room in the picture.
    pub(crate) limit: f64,
    /// Left out, rather than listed below, where there is no room.
    pub(crate) optional: bool,
}

impl Ask {
    /// A label without spots yet.
    pub(crate) fn new(runs: Vec<Run>, ink: Ink, size: f64, anchor: (f64, f64)) -> Self {
        let lines = vec![runs];
        let (spoken, limit) = (text::plain(&lines), f64::INFINITY);
        Self { lines, spoken, ink, size, anchor, spots: Vec::new(), led: false, limit, optional: false }
    }

    pub(crate) fn spoken(self, spoken: String) -> Self {
        Self { spoken, ..self }
    }

    /// Width and height of its box.
    pub(crate) fn size(&self) -> (f64, f64) {
        text::box_of(&self.lines, self.ink, self.size)
    }
}

/// The cheapest place found so far, below a limit; and whether it needs a leader.
struct Best {
    cost: f64,
    found: Option<(Rect, bool)>,
}

impl Best {
    fn offer(&mut self, cost: f64, rect: Rect, away: bool) {
        if cost < self.cost {
            (self.cost, self.found) = (cost, Some((rect, away)));
        }
    }
}

/// What a picture's labels are laid among: ink, dots and the labels before.
pub(crate) struct Layout {
    width: f64,
    height: f64,
    columns: usize,
    cells: Vec<u8>,
    dots: Vec<(f64, f64)>,
    taken: Vec<Rect>,
    pub(crate) labels: Vec<Label>,
    pub(crate) leaders: Vec<Shape>,
    pub(crate) overflow: Vec<String>,
}

impl Layout {
    pub(crate) fn new(width: f64, height: f64, dots: Vec<(f64, f64)>) -> Self {
        let columns = cell(width) + 1;
        Self {
            width,
            height,
            columns,
            cells: vec![0; columns * (cell(height) + 1)],
            dots,
            taken: Vec::new(),
            labels: Vec::new(),
            leaders: Vec::new(),
            overflow: Vec::new(),
        }
    }

    /// Marks where shapes are inked.
    pub(crate) fn mark(&mut self, shapes: &[Shape]) {
        for shape in shapes.iter().filter(|shape| shape.ink.is_busy()) {
            let cost = if matches!(shape.ink, Ink::Dimension | Ink::Accent) { DIMENSIONED } else { INKED };
            match &shape.form {
                Form::Path(path) => pieces(&path.steps, |from, to| self.mark_line(from, to, cost)),
                Form::Circle { centre, radius } => {
                    let reach = (radius - 1.0).max(0.0);
                    for (x, y) in [(reach, 0.0), (0.0, reach), (-reach, 0.0), (0.0, -reach), (0.0, 0.0)] {
                        self.mark_point(centre.0 + x, centre.1 + y, cost);
                    }
                }
            }
        }
    }

    /// Keeps the upper left corner free.
    pub(crate) fn cover(&mut self, (width, height): (f64, f64)) {
        if width > 0.0 {
            self.taken.push(Rect { left: 0.0, top: 0.0, width, height });
        }
    }

    /// Makes a rectangle less wanted.
    pub(crate) fn shade(&mut self, from: (f64, f64), to: (f64, f64), cost: u8) {
        let (columns, rows) = (self.columns, self.cells.len() / self.columns);
        let (left, right) = (cell(from.0.min(to.0)), cell(from.0.max(to.0)));
        for row in cell(from.1.min(to.1))..=cell(from.1.max(to.1)).min(rows - 1) {
            for column in left..=right.min(columns - 1) {
                let place = &mut self.cells[row * columns + column];
                *place = (*place).max(cost);
            }
        }
    }

    fn mark_line(&mut self, from: (f64, f64), to: (f64, f64), cost: u8) {
        let length = ((to.0 - from.0) * (to.0 - from.0) + (to.1 - from.1) * (to.1 - from.1)).sqrt();
        // What is zoomed far out of the picture is not followed.
        let parts = bounded((length / (0.7 * CELL_PX)).ceil(), 1.0, 2000.0);
        let mut part = 0.0;
        while part <= parts {
            let share = part / parts;
            self.mark_point(from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share, cost);
            part += 1.0;
        }
    }

    fn mark_point(&mut self, x: f64, y: f64, cost: u8) {
        if x >= 0.0 && y >= 0.0 && x < self.width && y < self.height {
            let place = &mut self.cells[cell(y) * self.columns + cell(x)];
            *place = (*place).max(cost);
        }
    }

    /// Lays a label; its box, where there was room.
    pub(crate) fn place(&mut self, ask: Ask) -> Option<Rect> {
        let size = ask.size();
        let mut best = Best { cost: ask.limit, found: None };
        let mut rank = 0.0;
        for spot in &ask.spots {
            let rect = Rect::about(*spot, size);
            if rank < best.cost && self.is_free(&rect) {
                best.offer(rank + self.cost(&rect), rect, ask.led);
            }
            rank += 3.0;
        }
        if self.is_inside(ask.anchor) {
            self.rings(&ask, size, &mut best);
            if best.found.is_none() && ask.limit.is_infinite() {
                self.anywhere(&ask, size, &mut best);
            }
        }
        match best.found {
            Some((rect, away)) => {
                self.lay(ask, rect, away);
                Some(rect)
            }
            None if ask.optional => None,
            None => {
                self.overflow.push(text::plain(&ask.lines));
                None
            }
        }
    }

    /// Lays a label at one place, or leaves it out.
    pub(crate) fn pin(&mut self, ask: Ask, centre: (f64, f64)) {
        let rect = Rect::about(centre, ask.size());
        if self.is_free(&rect) {
            self.lay(ask, rect, false);
        }
    }

    /// Places around the anchor, nearer and farther.
    fn rings(&self, ask: &Ask, size: (f64, f64), best: &mut Best) {
        let mut ring = 1.0;
        while ring <= 9.0 {
            let reach = ring * 15.0;
            let base = AWAY + 0.15 * reach;
            if base >= best.cost {
                return;
            }
            for way in 0..16_u8 {
                let (sin, cos) = linkage::angle::sincos(f64::from(way) * std::f64::consts::TAU / 16.0);
                let centre = (
                    ask.anchor.0 + cos * (reach + size.0 / 2.0),
                    ask.anchor.1 + sin * (reach + size.1 / 2.0),
                );
                let rect = Rect::about(centre, size);
                if self.is_free(&rect) && !self.crosses(ask.anchor, &rect) {
                    let cost = base + self.cost(&rect);
                    if cost < best.cost {
                        best.offer(cost + self.leader_cost(ask.anchor, &rect), rect, true);
                    }
                }
            }
            ring += 1.0;
        }
    }

    /// Every free place of the picture.
    fn anywhere(&self, ask: &Ask, size: (f64, f64), best: &mut Best) {
        let mut top = APART_PX;
        while top + size.1 + APART_PX <= self.height {
            let mut left = APART_PX;
            while left + size.0 + APART_PX <= self.width {
                let rect = Rect { left, top, width: size.0, height: size.1 };
                if self.is_free(&rect) {
                    let end = rect.nearest(ask.anchor);
                    let (x, y) = (end.0 - ask.anchor.0, end.1 - ask.anchor.1);
                    let crossed = if self.crosses(ask.anchor, &rect) { 60.0 } else { 0.0 };
                    best.offer(crossed + (x * x + y * y).sqrt() * 0.15 + self.cost(&rect), rect, true);
                }
                left += 7.0;
            }
            top += 5.0;
        }
    }

    fn is_inside(&self, (x, y): (f64, f64)) -> bool {
        x >= 0.0 && y >= 0.0 && x <= self.width && y <= self.height
    }

    /// Whether a box lies in the picture, off other labels and off the handles.
    fn is_free(&self, rect: &Rect) -> bool {
        let inside = rect.left >= APART_PX
            && rect.top >= APART_PX
            && rect.left + rect.width <= self.width - APART_PX
            && rect.top + rect.height <= self.height - APART_PX;
        let off_dot = |dot: &(f64, f64)| {
            let near = rect.nearest(*dot);
            let (x, y) = (near.0 - dot.0, near.1 - dot.1);
            x * x + y * y > DOT_PX * DOT_PX
        };
        inside && self.dots.iter().all(off_dot) && !self.taken.iter().any(|other| rect.meets(other))
    }

    /// Whether a leader to a box would cross another label.
    fn crosses(&self, anchor: (f64, f64), rect: &Rect) -> bool {
        let end = rect.nearest(anchor);
        self.taken.iter().any(|other| other.cuts(anchor, end).is_some())
    }

    /// Ink that a leader would cross.
    fn leader_cost(&self, anchor: (f64, f64), rect: &Rect) -> f64 {
        let end = rect.nearest(anchor);
        let (x, y) = (end.0 - anchor.0, end.1 - anchor.1);
        let parts = ((x * x + y * y).sqrt() / CELL_PX).ceil().max(1.0);
        let (mut cost, mut part) = (0.0, 1.0);
        while part <= parts {
            let (x, y) = (anchor.0 + x * part / parts, anchor.1 + y * part / parts);
            if self.is_inside((x, y)) {
                cost += 0.9 * f64::from(self.cells[cell(y) * self.columns + cell(x)]);
            }
            part += 1.0;
        }
        cost
    }

    /// Ink under a box.
    fn cost(&self, rect: &Rect) -> f64 {
        let (left, right) = (cell(rect.left), cell(rect.left + rect.width));
        let (top, bottom) = (cell(rect.top), cell(rect.top + rect.height));
        let rows = self.cells.chunks_exact(self.columns).skip(top).take(bottom + 1 - top);
        let sum: u32 = rows.flat_map(|row| &row[left..=right]).map(|cost| u32::from(*cost)).sum();
        f64::from(sum)
    }

    fn lay(&mut self, ask: Ask, rect: Rect, away: bool) {
        if away {
            let end = rect.nearest(ask.anchor);
            let (x, y) = (end.0 - ask.anchor.0, end.1 - ask.anchor.1);
            if x * x + y * y > 64.0 {
                self.mark_line(ask.anchor, end, INKED);
                self.leaders.push(Shape::line(Ink::Leader, &[ask.anchor, end]));
                self.leaders.push(Shape::line(Ink::LeaderFoot, &[ask.anchor, ask.anchor]));
            }
        }
        self.taken.push(rect);
        self.labels.push(Label {
            left: rect.left,
            top: rect.top,
            width: rect.width,
            height: rect.height,
            size: ask.size,
            ink: ask.ink,
            lines: ask.lines,
            spoken: ask.spoken,
        });
    }
}

/// The cell that a coordinate lies in; those below zero lie in the first.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a screen's size")]
fn cell(px: f64) -> usize {
    bounded(px / CELL_PX, 0.0, 4000.0) as usize
}
