//! The board that parts are drawn on: millimetres go in, shapes in pixels come out.

use crate::geometry::{Trace, Vec2, hatch};
use crate::palette::Ink;
use crate::path::Step;
use crate::scene::{Form, Shape, lay};
use crate::transform::Transform;

/// Distance between the lines of a section's hatch, px.
const HATCH_PX: f64 = 4.2;

/// Shapes on their way into a scene.
pub(crate) struct Board {
    pub(crate) transform: Transform,
    pub(crate) shapes: Vec<Shape>,
    /// As [`crate::scene::Scene::parts`].
    pub(crate) parts: Vec<usize>,
    /// Draw nothing but the dashed silhouettes of parts.
    pub(crate) ghost: bool,
}

impl Board {
    pub(crate) const fn new(transform: Transform) -> Self {
        Self { transform, shapes: Vec::new(), parts: Vec::new(), ghost: false }
    }

    /// Begins a part, which often moves as one.
    pub(crate) fn part(&mut self) {
        self.parts.push(self.shapes.len());
    }

    pub(crate) fn px(&self, point: Vec2) -> (f64, f64) {
        self.transform.to_px(point.0, point.1)
    }

    /// Millimetres of a length on the screen.
    pub(crate) fn mm(&self, px: f64) -> f64 {
        px / self.transform.px_per_mm()
    }

    /// A length of the part that is seen at least so large.
    pub(crate) fn least(&self, mm: f64, px: f64) -> f64 {
        mm.max(self.mm(px))
    }

    /// Whether there is room for what is small: a picture of at least 0.5 px/mm.
    pub(crate) fn fine(&self) -> bool {
        self.transform.px_per_mm() >= 0.5
    }

    pub(crate) fn draw(&mut self, ink: Ink, trace: &Trace) {
        let Some(ink) = self.inked(ink) else { return };
        let px = |(x, y): (f64, f64)| self.transform.to_px(x, y);
        let steps = trace.steps.iter().map(|step| match *step {
            Step::Move(to) => Step::Move(px(to)),
            Step::Line(to) => Step::Line(px(to)),
            Step::Curve(control, to) => Step::Curve(px(control), px(to)),
            Step::Close => Step::Close,
        });
        lay(&mut self.shapes, ink, steps);
    }

    pub(crate) fn rounded(&mut self, ink: Ink, corners: &[(Vec2, f64)]) {
        self.draw(ink, &Trace::rounded(corners));
    }

    pub(crate) fn lines(&mut self, ink: Ink, points: &[Vec2]) {
        self.draw(ink, &Trace::lines(points));
    }

    pub(crate) fn taper(&mut self, ink: Ink, a: Vec2, a_radius: f64, b: Vec2, b_radius: f64) {
        self.draw(ink, &Trace::taper(a, a_radius, b, b_radius));
    }

    pub(crate) fn circle(&mut self, ink: Ink, centre: Vec2, radius: f64) {
        if let Some(ink) = self.inked(ink) {
            let radius = radius * self.transform.px_per_mm();
            self.shapes.push(Shape { ink, form: Form::Circle { centre: self.px(centre), radius } });
        }
    }

    /// A circle that can be one shape with others.
    pub(crate) fn disc(&mut self, ink: Ink, centre: Vec2, radius: f64) {
        self.draw(ink, &Trace::disc(centre, radius));
    }

    /// Section lines inside an outline; they move with the part's `anchor`.
    pub(crate) fn hatch(&mut self, outline: &Trace, rising: bool, anchor: Vec2) {
        if !self.ghost {
            let lines = hatch(outline, rising, self.mm(HATCH_PX), anchor);
            self.draw(Ink::Hatch, &lines);
        }
    }

    fn inked(&self, ink: Ink) -> Option<Ink> {
        match (self.ghost, ink.is_silhouette()) {
            (false, _) => Some(ink),
            (true, true) => Some(Ink::Before),
            (true, false) => None,
        }
    }
}
