//! Points and outlines of the picture, in its millimetres: `x` right, `y` up.

use crate::path::Step;
use std::ops::{Add, Mul, Sub};
use study::least_first;

/// A point or a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Vec2(pub(crate) f64, pub(crate) f64);

impl Add for Vec2 {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0, self.1 + other.1)
    }
}

impl Sub for Vec2 {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0, self.1 - other.1)
    }
}

impl Mul<f64> for Vec2 {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self(self.0 * by, self.1 * by)
    }
}

impl Vec2 {
    pub(crate) fn dot(self, other: Self) -> f64 {
        self.0 * other.0 + self.1 * other.1
    }

    pub(crate) fn size(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same direction with length 1; up where there is none.
    pub(crate) fn unit(self) -> Self {
        let size = self.size();
        if size > 1e-9 { self * (1.0 / size) } else { Self(0.0, 1.0) }
    }

    /// A quarter turn counter-clockwise.
    pub(crate) const fn left(self) -> Self {
        Self(-self.1, self.0)
    }

    pub(crate) fn towards(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }
}

/// A part's own axes in the picture.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Axes {
    pub(crate) origin: Vec2,
    pub(crate) along: Vec2,
    pub(crate) across: Vec2,
}

impl Axes {
    /// `across` lies a quarter turn counter-clockwise of `along`.
    pub(crate) fn new(origin: Vec2, along: Vec2) -> Self {
        let along = along.unit();
        Self { origin, along, across: along.left() }
    }

    /// The same with `across` on the other side.
    pub(crate) fn mirrored(self) -> Self {
        Self { across: self.across * -1.0, ..self }
    }

    pub(crate) fn at(&self, along: f64, across: f64) -> Vec2 {
        self.origin + self.along * along + self.across * across
    }

    /// Coordinates of a point in these axes.
    pub(crate) fn of(&self, point: Vec2) -> (f64, f64) {
        let from = point - self.origin;
        (from.dot(self.along), from.dot(self.across))
    }
}

/// An outline being traced, mm.
#[derive(Clone, Debug, Default)]
pub(crate) struct Trace {
    pub(crate) steps: Vec<Step>,
}

/// Parts of a turn that one parabola stands for.
const ARC_STEP_RAD: f64 = std::f64::consts::FRAC_PI_4;

impl Trace {
    /// Straight lines through points.
    pub(crate) fn lines(points: &[Vec2]) -> Self {
        let mut trace = Self::default();
        for point in points {
            trace.to(*point);
        }
        trace
    }

    /// A closed outline with rounded corners: each point with the length that is
    /// cut off its edges.
    pub(crate) fn rounded(corners: &[(Vec2, f64)]) -> Self {
        let mut trace = Self::default();
        for at in 0..corners.len() {
            trace.corner(corners, at);
        }
        trace.close()
    }

    /// The same as a line with two ends.
    pub(crate) fn bent(corners: &[(Vec2, f64)]) -> Self {
        let mut trace = Self::default();
        let last = corners.len().saturating_sub(1);
        for (at, (point, _)) in corners.iter().enumerate() {
            if at == 0 || at == last {
                trace.to(*point);
            } else {
                trace.corner(corners, at);
            }
        }
        trace
    }

    fn corner(&mut self, corners: &[(Vec2, f64)], at: usize) {
        let count = corners.len();
        let (corner, cut) = corners[at];
        let before = corners[(at + count - 1) % count].0 - corner;
        let after = corners[(at + 1) % count].0 - corner;
        let cut = cut.min(before.size() / 2.0).min(after.size() / 2.0);
        if cut < 0.01 {
            self.to(corner);
        } else {
            self.to(corner + before.unit() * cut);
            self.curve(corner, corner + after.unit() * cut);
        }
    }

    /// A circle.
    pub(crate) fn disc(centre: Vec2, radius: f64) -> Self {
        let mut trace = Self::default();
        trace.arc(centre, radius, 0.0, std::f64::consts::TAU);
        trace.close()
    }

    /// Two circles and their common tangents.
    pub(crate) fn taper(a: Vec2, a_radius: f64, b: Vec2, b_radius: f64) -> Self {
        let axes = Axes::new(a, b - a);
        let length = (b - a).size().max(1e-6);
        let lean = linkage::angle::asin(bounded((a_radius - b_radius) / length, -0.99, 0.99));
        let heading = libm::atan2(axes.along.1, axes.along.0);
        let side = std::f64::consts::FRAC_PI_2 - lean;
        let mut trace = Self::default();
        trace.arc(b, b_radius, heading - side, 2.0 * side);
        trace.arc(a, a_radius, heading + side, 2.0 * (std::f64::consts::PI - side));
        trace.close()
    }

    /// A line to a point; a move where nothing is traced yet.
    pub(crate) fn to(&mut self, point: Vec2) {
        let point = (point.0, point.1);
        self.steps.push(if self.steps.is_empty() { Step::Move(point) } else { Step::Line(point) });
    }

    pub(crate) fn jump(&mut self, point: Vec2) {
        self.steps.push(Step::Move((point.0, point.1)));
    }

    pub(crate) fn curve(&mut self, control: Vec2, end: Vec2) {
        self.steps.push(Step::Curve((control.0, control.1), (end.0, end.1)));
    }

    /// A line to the arc's beginning, and the arc; angles from `x` towards `y`, rad.
    pub(crate) fn arc(&mut self, centre: Vec2, radius: f64, from: f64, sweep: f64) {
        let point = |angle: f64, radius: f64| {
            let (sin, cos) = linkage::angle::sincos(angle);
            centre + Vec2(cos, sin) * radius
        };
        self.to(point(from, radius));
        let parts = (sweep.abs() / ARC_STEP_RAD).ceil().max(1.0);
        let step = sweep / parts;
        let outer = radius / linkage::angle::cos(step / 2.0);
        let mut angle = from;
        let mut left = parts;
        while left > 0.5 {
            self.curve(point(angle + step / 2.0, outer), point(angle + step, radius));
            angle += step;
            left -= 1.0;
        }
    }

    pub(crate) fn close(mut self) -> Self {
        self.steps.push(Step::Close);
        self
    }
}

/// The straight pieces that stand for steps: curves are cut into four.
pub(crate) fn pieces(steps: &[Step], mut piece: impl FnMut((f64, f64), (f64, f64))) {
    let (mut start, mut here) = ((0.0, 0.0), (0.0, 0.0));
    for step in steps {
        match *step {
            Step::Move(to) => start = to,
            Step::Line(to) => piece(here, to),
            Step::Curve(control, to) => {
                let mut last = here;
                for share in [0.25, 0.5, 0.75, 1.0] {
                    let rest = 1.0 - share;
                    let mix =
                        |a: f64, b: f64, c: f64| rest * rest * a + 2.0 * rest * share * b + share * share * c;
                    let next = (mix(here.0, control.0, to.0), mix(here.1, control.1, to.1));
                    piece(last, next);
                    last = next;
                }
            }
            Step::Close => piece(here, start),
        }
        here = match *step {
            Step::Move(to) | Step::Line(to) | Step::Curve(_, to) => to,
            Step::Close => start,
        };
    }
}

/// `f64::clamp` without its panic, and without the text of it in the download:
/// where the bounds cross, the upper one stands.
pub(crate) const fn bounded(value: f64, low: f64, high: f64) -> f64 {
    value.max(low).min(high)
}

/// Lines at 45° across the inside of closed outlines, `spacing` apart, one of
/// them through `anchor`; rising to the right, or falling.
pub(crate) fn hatch(outline: &Trace, rising: bool, spacing: f64, anchor: Vec2) -> Trace {
    let along = Vec2(1.0, if rising { 1.0 } else { -1.0 }).unit();
    let across = along.left();
    let mut edges = Vec::new();
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    pieces(&outline.steps, |a, b| {
        let ends =
            [Vec2(a.0, a.1), Vec2(b.0, b.1)].map(|p| (p.dot(along), (p - anchor).dot(across) / spacing));
        low = low.min(ends[0].1);
        high = high.max(ends[0].1);
        edges.push(ends);
    });
    let mut lines = Trace::default();
    let mut line = low.ceil();
    // An outline of no sensible size is left unhatched.
    if high - low > 400.0 || edges.is_empty() {
        return lines;
    }
    let mut crossings: Vec<f64> = Vec::new();
    while line <= high {
        crossings.clear();
        for [a, b] in &edges {
            if (a.1 <= line) != (b.1 <= line) {
                crossings.push(a.0 + (b.0 - a.0) * (line - a.1) / (b.1 - a.1));
            }
        }
        least_first(&mut crossings, |at| *at);
        let foot = across * (line * spacing + anchor.dot(across));
        for pair in crossings.chunks_exact(2) {
            lines.jump(foot + along * pair[0]);
            lines.to(foot + along * pair[1]);
        }
        line += 1.0;
    }
    lines
}
