//! What a picture is made of. Pixels, right and down, so that the writer has nothing to work out.

use crate::aspect::Handle;
use crate::palette::Ink;
use crate::path::{Path, Step};
use crate::transform::{Transform, View};

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Width, px.
    pub width_px: f64,
    /// Height, px.
    pub height_px: f64,
    /// Before every id.
    pub prefix: String,
    /// What the picture is called.
    pub title: String,
    /// What it shows, in sentences to be spoken.
    pub description: String,
    /// From the first, beneath, to the last, on top.
    pub shapes: Vec<Shape>,
    /// The places among them at which another part begins: what is of one part often moves as one.
    pub parts: Vec<usize>,
    /// Above all shapes.
    pub labels: Vec<Label>,
    /// Labels for which there was no room, to be listed under the picture.
    pub overflow: Vec<String>,
    /// From the picture's millimetres to pixels; of a chart, from the units of the axis across.
    pub transform: Transform,
    /// Points that can be taken hold of, px.
    pub handles: Vec<(Handle, f64, f64)>,
}

impl Scene {
    /// An empty picture of a view's size.
    #[must_use]
    pub fn empty(view: &View) -> Self {
        Self {
            width_px: view.width_px,
            height_px: view.height_px,
            prefix: view.prefix.clone(),
            title: String::new(),
            description: String::new(),
            shapes: Vec::new(),
            parts: Vec::new(),
            labels: Vec::new(),
            overflow: Vec::new(),
            transform: Transform::new(1.0, (0.0, view.height_px)),
            handles: Vec::new(),
        }
    }

    /// A picture of nothing but a message, where there is nothing to draw.
    #[must_use]
    pub fn message(message: &str, view: &View) -> Self {
        let mut scene = Self::empty(view);
        scene.description.push_str(message);
        scene.overflow.push(message.to_owned());
        scene
    }
}

impl Scene {
    /// The mirror image, left for right. What is written stays to be read.
    pub(crate) fn mirrored(mut self) -> Self {
        let wide = self.width_px;
        let flip = |point: &mut (f64, f64)| point.0 = wide - point.0;
        for shape in &mut self.shapes {
            match &mut shape.form {
                Form::Circle { centre, .. } => flip(centre),
                Form::Path(path) => {
                    for step in &mut path.steps {
                        match step {
                            Step::Move(to) | Step::Line(to) => flip(to),
                            Step::Curve(by, to) => {
                                flip(by);
                                flip(to);
                            }
                            Step::Close => {}
                        }
                    }
                }
            }
        }
        for label in &mut self.labels {
            label.left = wide - label.left - label.width;
        }
        for (_, x, _) in &mut self.handles {
            *x = wide - *x;
        }
        self.transform = self.transform.mirrored(wide);
        self
    }
}

/// One shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// How it is inked.
    pub ink: Ink,
    /// What it is.
    pub form: Form,
}

impl Shape {
    /// A line through points.
    pub(crate) fn line(ink: Ink, points: &[(f64, f64)]) -> Self {
        let mut steps = Vec::with_capacity(points.len() + 1);
        for point in points {
            steps.push(if steps.is_empty() { Step::Move(*point) } else { Step::Line(*point) });
        }
        Self { ink, form: Form::Path(Path { steps }) }
    }

    /// Lines from each point of uneven place to the next.
    pub(crate) fn pairs(ink: Ink, points: &[(f64, f64)]) -> Self {
        let mut shape = Self::line(ink, points);
        if let Form::Path(path) = &mut shape.form {
            for (step, point) in path.steps.iter_mut().zip(points).step_by(2) {
                *step = Step::Move(*point);
            }
        }
        shape
    }

    /// A closed outline.
    pub(crate) fn area(ink: Ink, points: &[(f64, f64)]) -> Self {
        let mut shape = Self::line(ink, points);
        if let Form::Path(path) = &mut shape.form {
            path.steps.push(Step::Close);
        }
        shape
    }
}

/// Adds steps to shapes. Lines on lines of the same ink are one shape: a page keeps fewer.
pub(crate) fn lay(shapes: &mut Vec<Shape>, ink: Ink, steps: impl Iterator<Item = Step>) {
    match shapes.last_mut() {
        Some(Shape { ink: last, form: Form::Path(path) }) if *last == ink && ink.is_plain() => {
            path.steps.extend(steps);
        }
        _ => shapes.push(Shape { ink, form: Form::Path(Path { steps: steps.collect() }) }),
    }
}

/// Adds shapes of which none lies over another: each plain ink is one shape, whatever the order.
pub(crate) fn gather(shapes: &mut Vec<Shape>, more: Vec<Shape>) {
    let first = shapes.len();
    for shape in more {
        let before =
            shapes[first..].iter_mut().find(|before| before.ink == shape.ink && shape.ink.is_plain());
        match (before, shape.form) {
            (Some(Shape { form: Form::Path(all), .. }), Form::Path(path)) => all.steps.extend(path.steps),
            (_, form) => shapes.push(Shape { form, ..shape }),
        }
    }
}

/// What a shape is.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Lines and curves.
    Path(Path),
    /// A circle.
    Circle {
        /// Centre, px.
        centre: (f64, f64),
        /// Radius, px.
        radius: f64,
    },
}

/// A text in its box.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Left edge of the box, px.
    pub left: f64,
    /// Top edge of the box, px.
    pub top: f64,
    /// Width of the box, px.
    pub width: f64,
    /// Height of the box, px.
    pub height: f64,
    /// Size of the type, px.
    pub size: f64,
    /// How it is inked.
    pub ink: Ink,
    /// What it says, line by line.
    pub lines: Vec<Vec<Run>>,
    /// What is spoken.
    pub spoken: String,
}

/// A piece of a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Run {
    /// Plain text.
    Text(String),
    /// A fraction, its numerator above a slash and its denominator below.
    Fraction(u32, u32),
}

/// Points that differ by less are not told apart, px: a tenth of what is printed.
const SAME_PX: f64 = 0.01;

/// A point of a shape: how that is drawn, what leads to the point, and where it is.
type Corner = (Ink, u8, (f64, f64));

/// Shapes as points in their order, to be held against others.
#[derive(Debug, Default)]
pub struct Trace(Vec<Corner>);

impl Trace {
    /// Of some shapes.
    #[must_use]
    pub fn of(shapes: &[Shape]) -> Self {
        let mut all = Vec::new();
        for Shape { ink, form } in shapes {
            let mut add = |kind, point| all.push((*ink, kind, point));
            match form {
                Form::Path(path) => {
                    let mut last = (0.0, 0.0);
                    for step in &path.steps {
                        let (kind, to) = match step {
                            Step::Move(to) => (0, *to),
                            Step::Line(to) => (1, *to),
                            Step::Curve(by, to) => {
                                add(2, *by);
                                (2, *to)
                            }
                            Step::Close => (3, last),
                        };
                        add(kind, to);
                        last = to;
                    }
                }
                // Its middle and a place on it: they go the same way where the radius stays.
                Form::Circle { centre, radius } => {
                    add(4, *centre);
                    add(4, (centre.0 + radius, centre.1));
                }
            }
        }
        Self(all)
    }

    /// How far shapes have gone to be these, where they all went by the same way and are as they were
    /// otherwise, px.
    #[must_use]
    pub fn moved(&self, to: &Self) -> Option<(f64, f64)> {
        let way = |(from, to): (&Corner, &Corner)| (to.2.0 - from.2.0, to.2.1 - from.2.1);
        let pairs = || self.0.iter().zip(&to.0);
        let by = pairs().next().map_or((0.0, 0.0), way);
        let goes_along = |(from, to): (&Corner, &Corner)| {
            let this = way((from, to));
            let off = (this.0 - by.0).abs().max((this.1 - by.1).abs());
            from.0 == to.0 && from.1 == to.1 && off < SAME_PX
        };
        (self.0.len() == to.0.len() && pairs().all(goes_along)).then_some(by)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shapes(x: f64, y: f64) -> Vec<Shape> {
        let bend = Path { steps: vec![Step::Move((x, y)), Step::Curve((x + 3.0, y), (x + 3.0, y + 4.0))] };
        vec![
            Shape::area(Ink::Steel, &[(x, y), (x + 5.0, y), (x, y + 7.0)]),
            Shape { ink: Ink::Joint, form: Form::Circle { centre: (x + 1.0, y + 2.0), radius: 6.0 } },
            Shape { ink: Ink::SheetMetal, form: Form::Path(bend) },
        ]
    }

    /// A translation adds the same to every point; whatever else differs is no translation.
    #[test]
    fn what_only_moves_is_known_by_the_way_it_went() {
        let were = shapes(10.0, 20.0);
        let moved = |are: &[Shape]| Trace::of(&were).moved(&Trace::of(are));
        let Some((right, down)) = moved(&shapes(12.5, 13.0)) else { panic!("it moved") };
        assert!((right - 2.5).abs() < 1e-9 && (down + 7.0).abs() < 1e-9, "{right} {down}");
        assert_eq!(moved(&were), Some((0.0, 0.0)));
        let changes: [fn(&mut Vec<Shape>); 6] = [
            |shapes| shapes[0] = Shape::area(Ink::Steel, &[(12.5, 13.0), (17.5, 13.0), (12.5, 20.2)]),
            |shapes| shapes[0].ink = Ink::Forging,
            |shapes| shapes[1].form = Form::Circle { centre: (13.5, 15.0), radius: 6.2 },
            |shapes| shapes[1].form = Form::Circle { centre: (13.7, 15.0), radius: 6.0 },
            |shapes| {
                let steps = vec![Step::Move((12.5, 13.0)), Step::Curve((15.7, 13.0), (15.5, 17.0))];
                shapes[2].form = Form::Path(Path { steps });
            },
            |shapes| shapes.truncate(2),
        ];
        for (at, change) in changes.iter().enumerate() {
            let mut are = shapes(12.5, 13.0);
            change(&mut are);
            assert_eq!(moved(&are), None, "{at}");
        }
    }
}
