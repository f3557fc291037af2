//! Curves.

use crate::geometry::{Trace, Vec2, bounded, hatch};
use crate::labels::{Ask, Layout};
use crate::palette::Ink;
use crate::path::Step;
use crate::scene::{Form, Scene, Shape, lay};
use crate::text;
use crate::transform::{Transform, View};
use measure::{print_number, signed};

/// Curves over a common axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// What it shows.
    pub title: String,
    /// The axis across, with its unit.
    pub x_label: String,
    /// The axis upward, with its unit.
    pub y_label: String,
    /// The curves.
    pub series: Vec<Series>,
    /// Stretches of the axis across that are out of reach.
    pub bands: Vec<Band>,
    /// Where on the axis across the reader stands.
    pub cursor_x: Option<f64>,
    /// Numbers of the axis across.
    pub x_format: NumberFormat,
    /// Numbers of the axis upward.
    pub y_format: NumberFormat,
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What the curve is called.
    pub name: String,
    /// Its points, in order.
    pub points: Vec<(f64, f64)>,
    /// How it is drawn.
    pub style: SeriesStyle,
}

/// How a curve is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeriesStyle {
    /// Dashed, grey.
    AsMeasured,
    /// Drawn through; each of the proposals in its colour and with a mark of its own.
    Proposal(u8),
}

/// A stretch of the axis across.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Why.
    pub label: String,
}

/// How numbers of an axis are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum NumberFormat {
    /// With a plus where they are positive, as a difference.
    #[default]
    Signed,
    /// Without.
    Plain,
    /// Never with a sign: the axis says which side is which.
    Size,
}

/// Curves as a picture: numbers stand at the curves, not in a legend.
///
/// Points that are not finite are left out. The scene's transform is that of
/// the axis across alone.
#[must_use]
pub fn chart(chart: &Chart, view: &View) -> Scene {
    let mut picture = Picture::new(chart, view);
    picture.bands();
    picture.grid();
    picture.curves();
    picture.cursor();
    picture.names();
    picture.finished()
}

/// Between two ticks at least, px: across and upward.
const TICK_PX: (f64, f64) = (46.0, 26.0);
/// Strokes of a band, px apart.
const BAND_PX: f64 = 7.0;

/// One axis: a range of values on a range of pixels.
#[derive(Clone, Copy, Debug)]
struct Scale {
    low: f64,
    high: f64,
    /// Pixels of the low and the high end.
    ends: (f64, f64),
    step: f64,
}

impl Scale {
    /// `ends`: pixels of the low and the high value; `least_px` between ticks.
    fn new((low, high): (f64, f64), ends: (f64, f64), least_px: f64) -> Self {
        let length = (ends.1 - ends.0).abs().max(1.0);
        let step = nice_step((high - low) * least_px / length);
        Self { low, high, ends, step }
    }

    fn px(&self, value: f64) -> f64 {
        let share = (value - self.low) / (self.high - self.low);
        self.ends.0 + (self.ends.1 - self.ends.0) * share
    }

    fn ticks(&self) -> Vec<f64> {
        let mut ticks = Vec::new();
        let mut count = (self.low / self.step - 1e-6).ceil();
        while count * self.step <= self.high + 1e-6 * self.step && ticks.len() < 60 {
            ticks.push(count * self.step);
            count += 1.0;
        }
        ticks
    }

    /// Decimals that the step needs.
    fn decimals(&self) -> u8 {
        (0..4).find(|decimals| self.step * TENS[usize::from(*decimals)] > 0.999).unwrap_or(4)
    }
}

/// Powers of ten.
const TENS: [f64; 4] = [1.0, 10.0, 100.0, 1000.0];

/// The least of 1, 2 and 5 times a power of ten that is not below `least`.
fn nice_step(least: f64) -> f64 {
    if !(1e-9..1e9).contains(&least) {
        return 1.0;
    }
    let mut power = 1e-9;
    while power * 10.0 <= least {
        power *= 10.0;
    }
    [1.0, 2.0, 5.0]
        .into_iter()
        .map(|by| by * power)
        .find(|step| *step >= least * 0.999)
        .unwrap_or(10.0 * power)
}

/// The range of finite values; from -1 to 1 where there is none.
fn range_of(values: &[f64]) -> (f64, f64) {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for value in values.iter().filter(|value| value.is_finite()) {
        (low, high) = (low.min(*value), high.max(*value));
    }
    if low > high { (-1.0, 1.0) } else { (low, high) }
}

struct Picture<'a> {
    chart: &'a Chart,
    view: &'a View,
    across: Scale,
    up: Scale,
    layout: Layout,
    shapes: Vec<Shape>,
    spoken: String,
}

impl<'a> Picture<'a> {
    fn new(chart: &'a Chart, view: &'a View) -> Self {
        let size = view.type_px.max(View::LEAST_TYPE_PX);
        let (mut xs, mut ys) = (Vec::new(), Vec::new());
        for (x, y) in chart.series.iter().flat_map(|series| &series.points) {
            xs.push(*x);
            ys.push(*y);
        }
        for band in &chart.bands {
            xs.extend([band.from, band.to]);
        }
        let across = range_of(&xs);
        let across = if across.1 - across.0 < 1e-9 { (across.0 - 1.0, across.0 + 1.0) } else { across };
        let line = text::line_height(size);
        let (top, bottom) = (line + 6.0, view.height_px - 2.0 * line - 9.0);
        let bottom = bottom.max(top + 10.0);
        let up = with_room(range_of(&ys));
        let up = Scale::new(up, (bottom, top), TICK_PX.1);
        let widest = up
            .ticks()
            .iter()
            .map(|tick| text::box_of(&[text::words(&signed(*tick, up.decimals()))], Ink::TextSoft, size).0)
            .fold(0.0, f64::max);
        let (left, right) = (widest + 6.0, view.width_px - 12.0);
        let across = Scale::new(across, (left, right.max(left + 10.0)), TICK_PX.0);
        let layout = Layout::new(view.width_px, view.height_px, Vec::new());
        Self { chart, view, across, up, layout, shapes: Vec::new(), spoken: String::new() }
    }

    fn size(&self) -> f64 {
        self.view.type_px.max(View::LEAST_TYPE_PX)
    }

    fn push(&mut self, ink: Ink, steps: Vec<Step>) {
        lay(&mut self.shapes, ink, steps.into_iter());
    }

    fn line(&mut self, ink: Ink, from: (f64, f64), to: (f64, f64)) {
        self.push(ink, vec![Step::Move(from), Step::Line(to)]);
    }

    /// Stretches out of reach, hatched, with a line where they begin.
    fn bands(&mut self) {
        let (left, right) = self.across.ends;
        let (bottom, top) = self.up.ends;
        for band in &self.chart.bands {
            let edge = |value: f64| bounded(self.across.px(value), left, right);
            let (from, to) = (edge(band.from.min(band.to)), edge(band.from.max(band.to)));
            // Nothing of it is seen, or it is no stretch at all.
            if to - from <= 0.5 || (to - from).is_nan() {
                continue;
            }
            let corners = [Vec2(from, top), Vec2(to, top), Vec2(to, bottom), Vec2(from, bottom)];
            let outline = Trace::lines(&corners).close();
            let steps = hatch(&outline, false, BAND_PX, Vec2(0.0, 0.0)).steps;
            self.push(Ink::Band, steps);
            for x in [from, to] {
                if x > left + 1.0 && x < right - 1.0 {
                    self.line(Ink::Axis, (x, bottom), (x, top));
                }
            }
            self.spoken.push_str(&band.label);
            self.spoken.push_str(" from ");
            self.spoken.push_str(&self.number_across(band.from, 2));
            self.spoken.push_str(" to ");
            self.spoken.push_str(&self.number_across(band.to, 2));
            self.spoken.push_str(". ");
        }
    }

    fn grid(&mut self) {
        let (left, right) = self.across.ends;
        let (bottom, top) = self.up.ends;
        let size = self.size();
        let line = text::line_height(size);
        for tick in self.across.ticks() {
            let x = self.across.px(tick);
            self.line(if tick.abs() < 1e-9 { Ink::Axis } else { Ink::Grid }, (x, bottom), (x, top));
            let words = text::words(&self.number_across(tick, self.across.decimals()));
            self.layout
                .pin(Ask::new(words, Ink::TextSoft, size, (x, bottom)), (x, bottom + 0.5 * line + 2.0));
        }
        for tick in self.up.ticks() {
            let y = self.up.px(tick);
            self.line(if tick.abs() < 1e-9 { Ink::Axis } else { Ink::Grid }, (left, y), (right, y));
            let words = text::words(&self.number_up(tick, self.up.decimals()));
            let ask = Ask::new(words, Ink::TextSoft, size, (left, y));
            let width = ask.size().0;
            self.layout.pin(ask, (left - width / 2.0 - 1.0, y));
        }
        let ask = Ask::new(text::words(&self.chart.x_label), Ink::TextSoft, size, (left, bottom));
        let width = ask.size().0;
        let middle =
            f64::midpoint(left, right).min(self.view.width_px - width / 2.0 - 2.0).max(width / 2.0 + 2.0);
        self.layout.pin(ask, (middle, bottom + 1.5 * line + 6.0));
        let mut title = self.chart.title.clone();
        if !self.chart.y_label.is_empty() {
            title.push_str(", ");
            title.push_str(&self.chart.y_label);
        }
        let ask = Ask::new(text::words(&title), Ink::TextInk, size, (left, top));
        let width = ask.size().0;
        self.layout.pin(ask, (width / 2.0 + 2.0, 0.5 * line + 2.0));
    }

    fn number_across(&self, value: f64, decimals: u8) -> String {
        number(self.chart.x_format, value, decimals)
    }

    fn number_up(&self, value: f64, decimals: u8) -> String {
        number(self.chart.y_format, value, decimals)
    }

    fn curves(&mut self) {
        // As measured on top: where curves fall together its dashes let the other through.
        let measured = |series: &&Series| series.style == SeriesStyle::AsMeasured;
        let proposals = self.chart.series.iter().filter(|series| !measured(series));
        for series in proposals.chain(self.chart.series.iter().filter(measured)) {
            let mut steps = Vec::with_capacity(series.points.len());
            let mut broken = true;
            for (x, y) in &series.points {
                if x.is_finite() && y.is_finite() {
                    let at = (self.across.px(*x), self.up.px(*y));
                    steps.push(if broken { Step::Move(at) } else { Step::Line(at) });
                    broken = false;
                } else {
                    broken = true;
                }
            }
            self.push(series.style.ink(), steps);
        }
        self.layout.mark(&self.shapes);
    }

    /// Where the reader stands, with a dot and a number on every curve.
    fn cursor(&mut self) {
        let Some(at) = self.chart.cursor_x.filter(|at| (self.across.low..=self.across.high).contains(at))
        else {
            return;
        };
        let x = self.across.px(at);
        let (bottom, top) = self.up.ends;
        self.line(Ink::Cursor, (x, bottom), (x, top));
        let first = self.shapes.len() - 1;
        self.layout.mark(&self.shapes[first..]);
        let decimals = (self.up.decimals() + 1).max(2);
        let mut asks = Vec::new();
        for series in &self.chart.series {
            let Some(value) = value_at(&series.points, at) else { continue };
            let y = self.up.px(value);
            self.shapes
                .push(Shape { ink: series.style.dot(), form: Form::Circle { centre: (x, y), radius: 4.5 } });
            let words = self.number_up(value, decimals);
            self.spoken.push_str(&series.name);
            self.spoken.push(' ');
            self.spoken.push_str(&words);
            self.spoken.push_str(". ");
            let mut ask = Ask::new(text::words(&words), series.style.text(), self.size(), (x, y));
            let (width, height) = ask.size();
            for side in [1.0, -1.0] {
                for up in [-0.62, 0.62, 0.0, -1.3, 1.3] {
                    ask.spots.push((x + side * (width / 2.0 + 7.0), y + up * height));
                }
            }
            asks.push(ask);
        }
        let dots = self.shapes.len();
        self.layout.mark(&self.shapes[first..dots]);
        for ask in asks {
            self.layout.place(ask);
        }
    }

    /// Names of the curves along them, and of the bands inside them.
    fn names(&mut self) {
        let (left, right) = self.across.ends;
        for series in &self.chart.series {
            let finite: Vec<_> =
                series.points.iter().filter(|(x, y)| x.is_finite() && y.is_finite()).copied().collect();
            let Some(last) = finite.last() else { continue };
            let anchor = (self.across.px(last.0), self.up.px(last.1));
            let mut ask = Ask::new(text::words(&series.name), series.style.text(), self.size(), anchor);
            let (width, height) = ask.size();
            for share in [0.16, 0.84, 0.3, 0.7, 0.05, 0.5, 0.95] {
                let x = bounded(left + (right - left) * share, left + width / 2.0, right - width / 2.0);
                // The curve's highest and lowest under the name.
                let under = |ends: f64| {
                    let value = self.across.low
                        + (x + ends * width / 2.0 - left) / (right - left)
                            * (self.across.high - self.across.low);
                    value_at(&finite, value).map(|value| self.up.px(value))
                };
                let mut heights = Vec::new();
                for ends in [-1.0, -0.5, 0.0, 0.5, 1.0] {
                    heights.extend(under(ends));
                }
                if heights.is_empty() {
                    continue;
                }
                let (high, low) = range_of(&heights);
                ask.spots.push((x, high - height / 2.0 - 3.0));
                ask.spots.push((x, low + height / 2.0 + 3.0));
            }
            self.layout.place(ask);
        }
        for band in &self.chart.bands {
            let (from, to) = (self.across.px(band.from), self.across.px(band.to));
            let middle = f64::midpoint(from, to);
            let (bottom, top) = self.up.ends;
            let mut ask = Ask::new(text::words(&band.label), Ink::TextSoft, self.size(), (middle, top + 6.0));
            let (width, height) = ask.size();
            // A name that hangs far out of its band is one of what lies beside it.
            if to - from < 0.6 * width {
                continue;
            }
            let x = bounded(middle, width / 2.0 + 3.0, self.view.width_px - width / 2.0 - 3.0);
            for y in [bottom - height, top + height, f64::midpoint(top, bottom)] {
                ask.spots.push((x, y));
            }
            ask.limit = 50.0;
            self.layout.place(ask);
        }
    }

    fn finished(self) -> Scene {
        let mut scene = Scene::empty(self.view);
        scene.title.clone_from(&self.chart.title);
        scene.description = self.chart.title.clone() + ". " + &self.spoken;
        let across = &self.across;
        let per_unit = (across.ends.1 - across.ends.0) / (across.high - across.low);
        scene.transform = Transform::new(per_unit, (across.px(0.0), self.up.px(0.0)));
        scene.shapes = self.shapes;
        scene.shapes.extend(self.layout.leaders);
        scene.labels = self.layout.labels;
        scene.overflow = self.layout.overflow;
        scene
    }
}

/// A range with a little room, and with zero where it is near.
fn with_room((low, high): (f64, f64)) -> (f64, f64) {
    let span = (high - low).max(1e-3 * low.abs().max(high.abs())).max(0.05);
    let middle = f64::midpoint(low, high);
    let (mut low, mut high) = (low.min(middle - span / 2.0), high.max(middle + span / 2.0));
    if low > 0.0 && low < 0.5 * span {
        low = 0.0;
    }
    if high < 0.0 && high > -0.5 * span {
        high = 0.0;
    }
    (low - 0.09 * span, high + 0.09 * span)
}

/// The value of a curve between its points.
fn value_at(points: &[(f64, f64)], x: f64) -> Option<f64> {
    points.windows(2).find_map(|pair| {
        let [(x0, y0), (x1, y1)] = [pair[0], pair[1]];
        let inside = (x0.min(x1)..=x0.max(x1)).contains(&x) && x0.total_cmp(&x1).is_ne();
        let value = y0 + (y1 - y0) * (x - x0) / (x1 - x0);
        (inside && value.is_finite()).then_some(value)
    })
}

fn number(format: NumberFormat, value: f64, decimals: u8) -> String {
    match format {
        NumberFormat::Signed => signed(value, decimals),
        NumberFormat::Plain => print_number(value, decimals),
        NumberFormat::Size => print_number(value.abs(), decimals),
    }
}

impl SeriesStyle {
    const fn ink(self) -> Ink {
        match self {
            Self::AsMeasured => Ink::CurveBefore,
            Self::Proposal(0) => Ink::Curve0,
            Self::Proposal(1) => Ink::Curve1,
            Self::Proposal(_) => Ink::Curve2,
        }
    }

    const fn dot(self) -> Ink {
        match self {
            Self::AsMeasured => Ink::DotBefore,
            Self::Proposal(0) => Ink::Dot0,
            Self::Proposal(1) => Ink::Dot1,
            Self::Proposal(_) => Ink::Dot2,
        }
    }

    const fn text(self) -> Ink {
        match self {
            Self::AsMeasured => Ink::TextBefore,
            Self::Proposal(0) => Ink::Text0,
            Self::Proposal(1) => Ink::Text1,
            Self::Proposal(_) => Ink::Text2,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_one_two_or_five() {
        for (least, step) in [(0.9, 1.0), (1.1, 2.0), (2.1, 5.0), (5.1, 10.0), (0.03, 0.05), (340.0, 500.0)] {
            assert!((nice_step(least) - step).abs() < 1e-9 * step, "{least}: {}", nice_step(least));
        }
    }

    #[test]
    fn a_curve_is_straight_between_its_points() {
        let points = [(0.0, 1.0), (2.0, 5.0), (4.0, 5.0)];
        assert_eq!(value_at(&points, 1.0), Some(3.0));
        assert_eq!(value_at(&points, 4.0), Some(5.0));
        assert_eq!(value_at(&points, 4.1), None);
    }
}
