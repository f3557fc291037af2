//! The room between two parts over travel and steer, as a map.
//!
//! Up is bump, and what is steered to the left stands at the left, as the
//! driver has it. How near the parts come is said three times: by shade, by
//! pattern and by number.

use crate::geometry::bounded;
use crate::labels::{Ask, Layout};
use crate::palette::Ink;
use crate::path::Step;
use crate::scene::{Form, Run, Scene, Shape, lay};
use crate::text;
use crate::transform::View;
use crate::words::marked;
use measure::{Units, fixed, print_length, print_number};
use study::TIGHT_MM;

/// Parts within an inch come near.
const NEAR_MM: f64 = 25.4;
/// The map's own squares, px.
const SQUARE_PX: f64 = 9.0;

/// What a map shows.
#[derive(Clone, Debug, PartialEq)]
pub struct ClearanceMap<'a> {
    /// What it is called.
    pub title: String,
    /// Travels of the rows, mm, rising, at least two.
    pub travels_mm: &'a [f64],
    /// Headings of the columns, rad, + to the left, rising; one where only
    /// straight ahead is known.
    pub headings_rad: &'a [f64],
    /// Distances row by row, mm; not a number where the wheel does not go.
    pub distances_mm: &'a [f64],
    /// Where they come nearest.
    pub least: Mark,
    /// How near they come there, mm.
    pub least_mm: f64,
    /// Whether its distances rest on a number that nobody has measured: they then carry its mark.
    pub is_guess: bool,
    /// The pose on the sketch.
    pub here: Option<Mark>,
}

/// A place on a map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Travel, mm, + bump.
    pub travel_mm: f64,
    /// Heading, rad, + to the left.
    pub heading_rad: f64,
}

/// The map as a picture.
#[must_use]
pub fn clearance_map(map: &ClearanceMap<'_>, view: &View) -> Scene {
    let mut picture = Picture { map, view, bounds: Bounds::of(view), shapes: Vec::new() };
    picture.squares();
    picture.contour();
    picture.lines();
    picture.finished()
}

impl ClearanceMap<'_> {
    /// The place on the map at a point of its picture, px; `None` beside the map.
    #[must_use]
    pub fn mark_at(&self, view: &View, (x, y): (f64, f64)) -> Option<Mark> {
        let bounds = Bounds::of(view);
        let inside = (bounds.left..=bounds.right).contains(&x) && (bounds.top..=bounds.bottom).contains(&y);
        inside.then(|| self.mark(&bounds, x, y))
    }

    fn mark(&self, bounds: &Bounds, x: f64, y: f64) -> Mark {
        let (right_lock, left_lock) = ends(self.headings_rad);
        let (droop, bump) = ends(self.travels_mm);
        Mark {
            travel_mm: bump + (droop - bump) * (y - bounds.top) / (bounds.bottom - bounds.top),
            heading_rad: left_lock
                + (right_lock - left_lock) * (x - bounds.left) / (bounds.right - bounds.left),
        }
    }

    fn px(&self, bounds: &Bounds, mark: &Mark) -> (f64, f64) {
        let (right_lock, left_lock) = ends(self.headings_rad);
        let (droop, bump) = ends(self.travels_mm);
        let wide = left_lock - right_lock;
        let across = if wide > 0.0 { (left_lock - mark.heading_rad) / wide } else { 0.5 };
        let down = (bump - mark.travel_mm) / (bump - droop).max(1e-9);
        (
            bounds.left + (bounds.right - bounds.left) * bounded(across, 0.0, 1.0),
            bounds.top + (bounds.bottom - bounds.top) * bounded(down, 0.0, 1.0),
        )
    }

    /// The distance at a place, between the nearest four of the grid, mm.
    fn distance_mm(&self, mark: &Mark) -> f64 {
        let (row, up) = between(self.travels_mm, mark.travel_mm);
        let (column, aside) = between(self.headings_rad, mark.heading_rad);
        let wide = self.headings_rad.len();
        let at = |row: usize, column: usize| {
            self.distances_mm.get(row * wide + column).copied().unwrap_or(f64::NAN)
        };
        let next = (column + 1).min(wide - 1);
        let along = |row| at(row, column) + (at(row, next) - at(row, column)) * aside;
        along(row) + (along((row + 1).min(self.travels_mm.len() - 1)) - along(row)) * up
    }
}

/// Where the map lies in its picture, px.
struct Bounds {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Bounds {
    fn of(view: &View) -> Self {
        let size = view.type_px.max(View::LEAST_TYPE_PX);
        let line = text::line_height(size);
        let (left, top) = (4.2 * size, line + 6.0);
        Self {
            left,
            right: (view.width_px - 10.0).max(left + 40.0),
            top,
            bottom: (view.height_px - line - 6.0).max(top + 40.0),
        }
    }
}

/// How near two parts are, as it is shaded.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shade {
    Meets,
    Tight,
    Near,
    Clear,
}

impl Shade {
    fn of(mm: f64) -> Self {
        match mm {
            mm if mm <= 0.0 => Self::Meets,
            mm if mm < TIGHT_MM => Self::Tight,
            mm if mm < NEAR_MM => Self::Near,
            _ => Self::Clear,
        }
    }
}

struct Picture<'a> {
    map: &'a ClearanceMap<'a>,
    view: &'a View,
    bounds: Bounds,
    shapes: Vec<Shape>,
}

impl Picture<'_> {
    /// The squares of the map: how many, and how wide and high each is, px.
    fn counts(&self) -> ((u32, u32), (f64, f64)) {
        let count = |length: f64| (1..200).find(|n| f64::from(*n) * SQUARE_PX >= length).unwrap_or(200);
        let (width, height) = (self.bounds.right - self.bounds.left, self.bounds.bottom - self.bounds.top);
        let (across, down) = (count(width), count(height));
        ((across, down), (width / f64::from(across), height / f64::from(down)))
    }

    fn value(&self, x: f64, y: f64) -> f64 {
        self.map.distance_mm(&self.map.mark(&self.bounds, x, y))
    }

    /// Shades in runs along each row, and the pattern square by square.
    fn squares(&mut self) {
        let ((across, down), (width, height)) = self.counts();
        let (mut shades, mut patterns) = ([Vec::new(), Vec::new(), Vec::new()], [Vec::new(), Vec::new()]);
        for row in 0..down {
            let (top, bottom) = self.band(row, height);
            let mut run: Option<(Shade, f64)> = None;
            for column in 0..=across {
                let left = self.bounds.left + width * f64::from(column);
                let shade = (column < across)
                    .then(|| Shade::of(self.value(left + width / 2.0, f64::midpoint(top, bottom))));
                if let Some((old, from)) = run.filter(|(old, _)| Some(*old) != shade)
                    && old != Shade::Clear
                {
                    shades[old as usize].extend(rectangle(from, left, top, bottom));
                }
                if let Some(shade) = shade {
                    if run.is_none_or(|(old, _)| old != shade) {
                        run = Some((shade, left));
                    }
                    pattern(&mut patterns, shade, [left, left + width, top, bottom], (row + column) % 2 == 0);
                }
            }
        }
        for (ink, steps) in [Ink::Meets, Ink::Tight, Ink::Near].into_iter().zip(shades) {
            lay(&mut self.shapes, ink, steps.into_iter());
        }
        for (ink, steps) in [Ink::MeetsCross, Ink::Map].into_iter().zip(patterns) {
            lay(&mut self.shapes, ink, steps.into_iter());
        }
    }

    fn band(&self, row: u32, height: f64) -> (f64, f64) {
        let top = self.bounds.top + height * f64::from(row);
        (top, top + height)
    }

    /// The line along which they begin to meet: through each square from side
    /// to side where the distance passes zero.
    fn contour(&mut self) {
        let ((across, down), (width, height)) = self.counts();
        let mut steps = Vec::new();
        for row in 0..down {
            let (top, bottom) = self.band(row, height);
            for column in 0..across {
                let left = self.bounds.left + width * f64::from(column);
                let corners = [(left, top), (left + width, top), (left + width, bottom), (left, bottom)];
                let values = corners.map(|(x, y)| self.value(x, y));
                let mut crossed = Vec::new();
                for side in 0..4 {
                    let (a, b) = (values[side], values[(side + 1) % 4]);
                    let (from, to) = (corners[side], corners[(side + 1) % 4]);
                    let share = a / (a - b);
                    if (a <= 0.0) != (b <= 0.0) && share.is_finite() {
                        crossed.push((from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
                    }
                }
                for pair in crossed.chunks_exact(2) {
                    steps.push(Step::Move(pair[0]));
                    steps.push(Step::Line(pair[1]));
                }
            }
        }
        lay(&mut self.shapes, Ink::Accent, steps.into_iter());
    }

    /// Rest and straight ahead, the edges, where they come nearest, and where the sketch stands.
    fn lines(&mut self) {
        let Bounds { left, right, top, bottom } = self.bounds;
        let (x, y) = self.map.px(&self.bounds, &Mark { travel_mm: 0.0, heading_rad: 0.0 });
        let mut lines = vec![
            Step::Move((left, y)),
            Step::Line((right, y)),
            Step::Move((x, top)),
            Step::Line((x, bottom)),
        ];
        lines.extend(rectangle(left, right, top, bottom));
        lay(&mut self.shapes, Ink::Axis, lines.into_iter());
        if let Some(here) = &self.map.here {
            let centre = self.map.px(&self.bounds, here);
            self.shapes.push(Shape { ink: Ink::Cursor, form: Form::Circle { centre, radius: 7.0 } });
        }
        let centre = self.map.px(&self.bounds, &self.map.least);
        self.shapes.push(Shape { ink: Ink::Dot0, form: Form::Circle { centre, radius: 5.0 } });
    }

    fn finished(self) -> Scene {
        let Self { map, view, bounds, shapes } = self;
        let size = view.type_px.max(View::LEAST_TYPE_PX);
        let line = text::line_height(size);
        let mut layout = Layout::new(view.width_px, view.height_px, Vec::new());
        let mut put = |words: Vec<Run>, ink: Ink, at: (f64, f64)| {
            let ask = Ask::new(words, ink, size, at);
            // What would stand out of the picture is moved in.
            let half = ask.size().0 / 2.0 + 3.0;
            layout.pin(ask, (bounded(at.0, half, view.width_px - half), at.1));
        };
        let (droop, bump) = ends(map.travels_mm);
        let (right_lock, left_lock) = ends(map.headings_rad);
        let rest = map.px(&bounds, &Mark { travel_mm: 0.0, heading_rad: 0.0 });
        let words = text::words;
        let unit = if view.units == Units::Inches { ", in" } else { ", mm" };
        put(words(&(marked(map.title.clone(), map.is_guess) + unit)), Ink::TextInk, (0.0, 0.5 * line + 3.0));
        let beside = bounds.left / 2.0 - 1.0;
        put(bare(bump, view.units), Ink::TextSoft, (beside, bounds.top + line / 2.0));
        put(words("rest"), Ink::TextSoft, (beside, rest.1));
        put(bare(droop, view.units), Ink::TextSoft, (beside, bounds.bottom - line / 2.0));
        let below = bounds.bottom + 0.5 * line + 3.0;
        if map.headings_rad.len() > 1 {
            put(words(&("← left ".to_owned() + &degrees(left_lock))), Ink::TextSoft, (bounds.left, below));
            put(words(&(degrees(right_lock) + " right →")), Ink::TextSoft, (bounds.right, below));
        }
        put(words("ahead"), Ink::TextSoft, (rest.0, below));
        // The least first, so that the others leave it its place.
        let least = map.px(&bounds, &map.least);
        let ink = |mm: f64| if mm <= 0.0 { Ink::TextContact } else { Ink::TextInk };
        let tall = if least.1 < f64::midpoint(bounds.top, bounds.bottom) { line } else { -line };
        put(bare(map.least_mm, view.units), ink(map.least_mm), (least.0, least.1 + tall));
        let columns: &[f64] = if map.headings_rad.len() > 1 { &[0.1, 0.3, 0.5, 0.7, 0.9] } else { &[0.5] };
        for down in [0.09, 0.3, 0.5, 0.7, 0.91] {
            for across in columns {
                let at = (
                    bounds.left + (bounds.right - bounds.left) * across,
                    bounds.top + (bounds.bottom - bounds.top) * down,
                );
                let mm = map.distance_mm(&map.mark(&bounds, at.0, at.1));
                if mm.is_finite() {
                    put(bare(mm, view.units), ink(mm), at);
                }
            }
        }
        let mut scene = Scene::empty(view);
        scene.title.clone_from(&map.title);
        scene.description = description(map, view);
        scene.shapes = shapes;
        scene.labels = layout.labels;
        scene
    }
}

fn description(map: &ClearanceMap<'_>, view: &View) -> String {
    let style = view.units.length_style();
    let far = |mm: f64| print_length(mm, style);
    let heading = degrees(map.least.heading_rad);
    let side = if map.least.heading_rad >= 0.0 { " to the left" } else { " to the right" };
    let meet = if map.least_mm <= 0.0 { "They meet. " } else { "" };
    let least = if map.is_guess { "Least, a guess, " } else { "Least " };
    let whole = [
        &map.title,
        ". ",
        meet,
        least,
        &far(map.least_mm),
        " at a travel of ",
        &far(map.least.travel_mm),
        ", the wheel steered ",
        &heading,
        side,
        ".",
    ];
    whole.concat()
}

/// Crosses where they meet, a stroke where they pass closely, a point where they come near.
fn pattern(into: &mut [Vec<Step>; 2], shade: Shade, [left, right, top, bottom]: [f64; 4], even: bool) {
    let (x, y) = (f64::midpoint(left, right), f64::midpoint(top, bottom));
    match shade {
        Shade::Meets => into[0].extend([
            Step::Move((left, bottom)),
            Step::Line((right, top)),
            Step::Move((left, top)),
            Step::Line((right, bottom)),
        ]),
        Shade::Tight => into[1].extend([Step::Move((left, bottom)), Step::Line((right, top))]),
        Shade::Near if even => into[1].extend([Step::Move((x - 0.6, y)), Step::Line((x + 0.6, y))]),
        _ => {}
    }
}

fn rectangle(left: f64, right: f64, top: f64, bottom: f64) -> [Step; 5] {
    [
        Step::Move((left, top)),
        Step::Line((right, top)),
        Step::Line((right, bottom)),
        Step::Line((left, bottom)),
        Step::Close,
    ]
}

/// A length without its unit, which the title says.
fn bare(mm: f64, units: Units) -> Vec<Run> {
    if units == Units::Millimetres {
        return text::words(&print_number(mm, 0));
    }
    let mut runs = text::length(mm, units);
    runs.pop();
    runs
}

fn degrees(rad: f64) -> String {
    fixed(rad.to_degrees().abs().round(), 0) + "°"
}

fn ends(list: &[f64]) -> (f64, f64) {
    (list.first().copied().unwrap_or(0.0), list.last().copied().unwrap_or(0.0))
}

/// The entry of a rising list below a value, and the share of the way to the next.
fn between(list: &[f64], value: f64) -> (usize, f64) {
    let above = list.iter().position(|entry| *entry > value).unwrap_or(list.len());
    let at = above.saturating_sub(1).min(list.len().saturating_sub(2));
    match (list.get(at), list.get(at + 1)) {
        (Some(low), Some(high)) if high > low => (at, bounded((value - low) / (high - low), 0.0, 1.0)),
        _ => (at, 0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::transform::Zoom;

    fn view() -> View {
        View {
            width_px: 340.0,
            height_px: 260.0,
            type_px: 12.0,
            units: Units::Millimetres,
            prefix: "map".to_owned(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        }
    }

    /// A distance that grows by a millimetre for a millimetre of travel and ten
    /// for a radian to the left.
    fn map<'a>(travels: &'a [f64], headings: &'a [f64], distances: &'a mut Vec<f64>) -> ClearanceMap<'a> {
        *distances =
            travels.iter().flat_map(|travel| headings.iter().map(move |h| travel + 10.0 * h)).collect();
        ClearanceMap {
            title: "Tire to fender".to_owned(),
            travels_mm: travels,
            headings_rad: headings,
            distances_mm: distances,
            least: Mark { travel_mm: -40.0, heading_rad: -0.5 },
            least_mm: -45.0,
            is_guess: false,
            here: None,
        }
    }

    #[test]
    fn a_plane_is_read_as_it_is_everywhere() {
        let mut distances = Vec::new();
        let map = map(&[-40.0, 0.0, 25.0, 60.0], &[-0.5, 0.0, 0.6], &mut distances);
        for (travel_mm, heading_rad) in [(-40.0, -0.5), (60.0, 0.6), (-13.0, 0.1), (31.0, -0.4), (0.0, 0.0)] {
            let found = map.distance_mm(&Mark { travel_mm, heading_rad });
            assert!((found - (travel_mm + 10.0 * heading_rad)).abs() < 1e-12, "{found}");
        }
    }

    #[test]
    fn a_tap_gives_the_place_that_is_drawn_there() {
        let mut distances = Vec::new();
        let map = map(&[-40.0, 0.0, 60.0], &[-0.5, 0.0, 0.6], &mut distances);
        let view = view();
        for (travel_mm, heading_rad) in [(-40.0, -0.5), (60.0, 0.6), (12.0, -0.2)] {
            let at = map.px(&Bounds::of(&view), &Mark { travel_mm, heading_rad });
            let found = map.mark_at(&view, at).unwrap();
            assert!((found.travel_mm - travel_mm).abs() < 1e-9);
            assert!((found.heading_rad - heading_rad).abs() < 1e-9);
        }
        // To the left and bump stand at the left and at the top.
        let high = map.px(&Bounds::of(&view), &Mark { travel_mm: 60.0, heading_rad: 0.6 });
        let low = map.px(&Bounds::of(&view), &Mark { travel_mm: -40.0, heading_rad: -0.5 });
        assert!(high.0 < low.0 && high.1 < low.1);
        assert_eq!(map.mark_at(&view, (2.0, 2.0)), None);
    }

    /// The line where they begin to meet lies where the plane is zero.
    #[test]
    fn the_contour_lies_where_they_begin_to_meet() {
        let mut distances = Vec::new();
        let map = map(&[-40.0, 0.0, 60.0], &[-0.5, 0.0, 0.6], &mut distances);
        let view = view();
        let scene = clearance_map(&map, &view);
        let contour = scene.shapes.iter().find(|shape| shape.ink == Ink::Accent).unwrap();
        let Form::Path(path) = &contour.form else { panic!("a line") };
        assert!(path.steps.len() > 20);
        for step in &path.steps {
            let (Step::Move(at) | Step::Line(at)) = step else { panic!("a straight line") };
            let mark = map.mark(&Bounds::of(&view), at.0, at.1);
            assert!(map.distance_mm(&mark).abs() < 0.2, "{mark:?}");
        }
        // Numbers say it too, below zero and above, and none leaves the picture.
        assert!(scene.labels.len() > 20, "{}", scene.labels.len());
        for label in &scene.labels {
            assert!(label.left >= 0.0 && label.left + label.width <= view.width_px, "{}", label.spoken);
        }
        assert!(scene.labels.iter().any(|label| label.spoken.starts_with('−')));
        assert!(scene.description.contains("They meet. Least −45 mm"), "{}", scene.description);
    }

    /// A map of a guess says so under its title, and to who hears it.
    #[test]
    fn a_map_of_a_guess_carries_its_mark() {
        let mut distances = Vec::new();
        let sure = map(&[-40.0, 0.0, 60.0], &[0.0], &mut distances);
        let guess = ClearanceMap { is_guess: true, ..sure.clone() };
        let said = |map: &ClearanceMap<'_>| {
            let scene = clearance_map(map, &view());
            let titles = scene.labels.iter().filter(|label| label.spoken.contains("Tire to fender"));
            (titles.map(|label| label.spoken.clone()).collect::<Vec<_>>(), scene.description)
        };
        assert_eq!(said(&guess).0, ["~ Tire to fender, mm"]);
        assert!(said(&guess).1.contains("Least, a guess, −45 mm"), "{}", said(&guess).1);
        assert_eq!(said(&sure).0, ["Tire to fender, mm"]);
        assert!(!said(&sure).1.contains("guess"));
    }

    #[test]
    fn without_a_lock_it_is_a_strip() {
        let mut distances = Vec::new();
        let map = ClearanceMap { least_mm: 1.0, ..map(&[-40.0, 0.0, 60.0], &[0.0], &mut distances) };
        let scene = clearance_map(&map, &view());
        assert!(scene.labels.len() > 5);
        assert!((map.distance_mm(&Mark { travel_mm: 30.0, heading_rad: 0.0 }) - 30.0).abs() < 1e-12);
    }
}
