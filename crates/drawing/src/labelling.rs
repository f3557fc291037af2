//! What the front view says: its dimensions, its names, and its spoken words.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::dimension::{arrow, dimension};
use crate::front_points::{ARM_HALF_MM, FrontPoints};
use crate::geometry::{Trace, Vec2, hatch};
use crate::labels::{Ask, Layout};
use crate::palette::Ink;
use crate::path::Path;
use crate::scene::{Form, Run, Shape, lay};
use crate::shown::{DragNote, Shown};
use crate::text;
use crate::transform::View;
use measure::{MM_PER_INCH, Units, print_angle, spoken_angle, spoken_length};
use study::{Gap, Limiter, Pair, as_told, room_as_told};
use truck::{Readable, SpringKind};

/// Radius of the mark where the tire meets something, px.
const CONTACT_PX: f64 = 9.0;

/// Below this height the answers beside a picture say what they can, px.
const LOW_PX: f64 = 240.0;
/// From this width on there is room for words, px.
const WORDY_PX: f64 = 500.0;
/// From this width on parts are named, px.
const NAMED_PX: f64 = 520.0;

/// Lays everything that is said of a shown truck.
pub(crate) struct Labelling<'a> {
    pub(crate) view: &'a View,
    pub(crate) aspect: Aspect,
    pub(crate) layout: Layout,
    /// Dimension lines and marks, above the parts.
    pub(crate) shapes: Vec<Shape>,
    pub(crate) spoken: String,
    /// The figures that rest on a guess.
    pub(crate) guessed: Vec<study::Figure>,
    /// Those that alone are written.
    pub(crate) only: Option<Vec<study::Figure>>,
}

impl<'a> Labelling<'a> {
    pub(crate) fn new(board: &Board, aspect: Aspect, view: &'a View, handles: &[(Handle, f64, f64)]) -> Self {
        let dots = handles.iter().map(|(_, x, y)| (*x, *y)).collect();
        let mut layout = Layout::new(view.width_px, view.height_px, dots);
        layout.cover(view.covered_px);
        if aspect != Aspect::Top {
            // Words stay above the ground.
            let ground = board.px(Vec2(0.0, 0.0)).1;
            layout.shade((0.0, ground), (view.width_px, view.height_px), 5);
        }
        layout.mark(&board.shapes);
        Self {
            view,
            aspect,
            layout,
            shapes: Vec::new(),
            spoken: String::new(),
            guessed: Vec::new(),
            only: None,
        }
    }

    pub(crate) fn front(
        board: &Board,
        points: &FrontPoints,
        view: &'a View,
        handles: &[(Handle, f64, f64)],
    ) -> Self {
        let mut labelling = Self::new(board, Aspect::Front, view, handles);
        let wheel = &points.wheel;
        let corner =
            |side: f64| board.px(wheel.axes.at(side * wheel.size.half_width, side * wheel.size.radius));
        labelling.layout.shade(corner(-1.0), corner(1.0), 1);
        let rail = points.rail;
        let inner = Vec2(rail.0 - points.rail_size.0, rail.1 + points.rail_size.1);
        labelling.layout.shade(board.px(rail), board.px(inner), 2);
        labelling
    }

    pub(crate) fn type_px(&self) -> f64 {
        self.view.type_px.max(View::LEAST_TYPE_PX)
    }

    fn wordy(&self) -> bool {
        self.view.width_px >= WORDY_PX
    }

    /// Whether the picture is too low for more than what is drawn nowhere else: beside it stand the answers.
    fn is_low(&self) -> bool {
        self.view.height_px < LOW_PX
    }

    pub(crate) fn length(&self, mm: f64) -> String {
        spoken_length(mm, self.view.units.length_style())
    }

    pub(crate) fn say(&mut self, name: &str, value: &str) -> String {
        let mut sentence = name.to_owned();
        sentence.push(' ');
        sentence.push_str(value);
        self.spoken.push_str(&sentence);
        self.spoken.push_str(". ");
        sentence
    }

    /// A figure in a sentence, a guess as one: who hears it hears no mark.
    pub(crate) fn tell(&mut self, figure: study::Figure, value: &str) -> String {
        let value = self.heard(figure, value);
        self.say(&figure.label(), &value)
    }

    /// A figure's number as it is heard.
    pub(crate) fn heard(&self, figure: study::Figure, value: &str) -> String {
        heard(self.mark(figure), value)
    }

    /// What stands before a figure's number.
    pub(crate) fn mark(&self, figure: study::Figure) -> &'static str {
        mark_of(self.guessed.contains(&figure))
    }

    /// Whether a figure is written, and not spoken alone.
    #[inline(never)]
    fn writes(&self, figure: study::Figure) -> bool {
        self.only.as_ref().is_none_or(|only| only.contains(&figure))
    }

    /// A number in a dimension line with its mark, and its name where there is room for words.
    pub(crate) fn marked(&self, mark: &str, name: &str, mm: f64) -> Ask {
        let before = if self.wordy() { name.to_owned() + mark } else { mark.to_owned() };
        let runs = text::phrase(&before, mm, "", self.view.units);
        let size = self.type_px() + if self.wordy() { 1.0 } else { 0.0 };
        Ask::new(runs, Ink::TextDimension, size, (0.0, 0.0))
    }

    /// All that is measured, the most needed first.
    pub(crate) fn measures(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) {
        let roll_mm = self.roll_mark(board, points, shown);
        self.ride_height(board, points, shown);
        for gap in shown.gaps.iter().rev() {
            self.gap(board, points, shown, gap);
        }
        self.camber(board, points, shown);
        self.bump_left(board, points, shown);
        if let Some(height_mm) = roll_mm {
            self.roll_centre(board, height_mm);
        }
    }

    fn ride_height(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) {
        let height_mm = shown.rest.fitted.measured.body.rail.bottom_z_mm - points.ground;
        let height_mm = as_told(shown.rest, Readable::FrameHeight, height_mm);
        let corner = points.rail - Vec2(points.rail_size.0, 0.0);
        let (edge_x, bottom_y) = board.px(corner);
        let (_, ground_y) = board.px(Vec2(0.0, 0.0));
        let x = edge_x - (14.0 + 0.03 * self.view.width_px);
        let spoken = self.tell(study::Figure::FRAME_HEIGHT, &self.length(height_mm));
        if !self.writes(study::Figure::FRAME_HEIGHT) {
            return;
        }
        self.shapes.push(Shape::line(Ink::Extension, &[(edge_x - 3.0, bottom_y), (x - 5.0, bottom_y)]));
        let ask = self.marked(self.mark(study::Figure::FRAME_HEIGHT), "", height_mm).spoken(spoken);
        dimension(&mut self.layout, &mut self.shapes, [(x, ground_y), (x, bottom_y)], ask, None);
    }

    fn gap(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>, gap: &Gap) {
        let place = |point: &linkage::Point3<f64>| Vec2(point.y, point.z - points.ground);
        let (mut tire, mut other) = (place(&gap.on_first), place(&gap.on_second));
        let before = match gap.pair {
            Pair::TireRail => "tire to frame ",
            Pair::TireFender => "to fender ",
            // The others are shown where they are asked for.
            _ => return,
        };
        if gap.pair == Pair::TireRail && (tire.1 - other.1).abs() < 1.0 {
            // Between two upright faces any height shows the distance: take the clearest.
            let height = points.rail.1 + 0.74 * points.rail_size.1;
            (tire.1, other.1) = (height, height);
        }
        let figure = study::Figure::room(gap.pair);
        let distance_mm = room_as_told(shown.rest, gap.pair, gap.distance_mm);
        let (spoken, mark) = (self.tell(figure, &self.length(distance_mm)), self.mark(figure));
        if !self.writes(figure) {
            return;
        }
        let touching = distance_mm <= 0.0;
        let mut ask = self.marked(mark, before, distance_mm).spoken(spoken);
        if touching {
            let meets = match gap.pair {
                Pair::TireRail => "tire meets frame",
                _ => "tire meets fender",
            };
            ask.lines = vec![text::words(&(mark.to_owned() + meets))];
            ask.ink = Ink::TextContact;
        }
        let (from, to) = (board.px(tire), board.px(other));
        if touching {
            // Red and hatched, as nothing else is.
            let middle = Vec2(f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
            let spot = Trace::disc(middle, CONTACT_PX);
            let lines = hatch(&spot, true, CONTACT_PX / 2.0, middle);
            for (ink, trace) in [(Ink::Meets, spot), (Ink::MeetsCross, lines)] {
                lay(&mut self.shapes, ink, trace.steps.into_iter());
            }
        }
        if gap.pair == Pair::TireFender {
            let (width, height) = ask.size();
            let right = from.0.max(to.0) + width / 2.0 + 12.0;
            let middle = f64::midpoint(from.1, to.1);
            let left = from.0.min(to.0) - width / 2.0 - 12.0;
            ask.spots = vec![
                (right, middle),
                (right, middle + height),
                (right + 10.0, middle - height),
                (left, middle),
                (left, middle - 4.0),
            ];
        }
        let nameless = (!touching).then(|| text::phrase(mark, distance_mm, "", self.view.units));
        dimension(&mut self.layout, &mut self.shapes, [from, to], ask, nameless);
    }

    fn camber(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) {
        // As a gauge on the ground has it: a steered wheel feels that the nose has sunk.
        let camber_rad = shown.pose.camber_rad();
        let lean_rad = camber_rad;
        let camber_rad = as_told(shown.rest, Readable::Camber, camber_rad);
        let wheel = &points.wheel;
        let spoken = self.tell(study::Figure::CAMBER, &spoken_angle(camber_rad, 2));
        self.upright(board, points, lean_rad);
        if self.is_low() || !self.writes(study::Figure::CAMBER) {
            return;
        }
        let mark = self.mark(study::Figure::CAMBER);
        let runs = vec![Run::Text(["camber ", mark, &print_angle(camber_rad, 2)].concat())];
        let top = board.px(wheel.axes.at(0.0, wheel.size.radius)).1 - 12.0;
        let anchor = (board.px(wheel.axes.at(0.0, wheel.size.radius)).0, top);
        let mut ask = Ask::new(runs, Ink::TextInk, self.type_px(), anchor).spoken(spoken);
        let (width, height) = ask.size();
        let edge = |side: f64| board.px(Vec2(points.contact.0 + side * wheel.size.half_width, 0.0));
        let (right, left) = (edge(1.0), edge(-1.0));
        for up in [0.9, 2.0, 3.2] {
            ask.spots.push((right.0 + width / 2.0 + 7.0, right.1 - up * height));
        }
        for down in [0.6, 1.8] {
            ask.spots.push((left.0 - width / 2.0 - 7.0, top + 12.0 + down * height));
        }
        ask.spots.push((left.0 - width / 2.0 - 7.0, left.1 - 0.9 * height));
        self.layout.place(ask);
    }

    /// Where the lean can be seen, the upright it is measured from.
    fn upright(&mut self, board: &Board, points: &FrontPoints, camber_rad: f64) {
        let wheel = &points.wheel;
        let (from, to) = (points.contact, wheel.axes.at(0.0, wheel.size.radius));
        if camber_rad.abs() > 1.2_f64.to_radians() {
            let top = Vec2(from.0, to.1);
            self.shapes.push(Shape::line(Ink::Extension, &[from, top, to].map(|point| board.px(point))));
        }
    }

    fn bump_left(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) {
        let (Some(left), Some(stop)) = (shown.travel_left, points.stop) else { return };
        // From the pose that is shown, not from rest.
        let left_mm = (left.bump.travel_mm - shown.travel_mm).max(0.0);
        let (by, short) = match left.bump.by {
            Limiter::Contact(Pair::TireFender) => (" to the fender", "to fender"),
            Limiter::Contact(Pair::TireRail) => (" to the frame", "to frame"),
            Limiter::Contact(_) => (" to contact", "to contact"),
            Limiter::Shock => (" to the shock's end", "to shock's end"),
            Limiter::CoilBind => (" to coil bind", "to coil bind"),
            Limiter::Joint(_) => (" to the joint's limit", "to joint's limit"),
            _ => (" to the stop", ""),
        };
        let value = self.length(left_mm) + by;
        let spoken = self.tell(study::Figure::BUMP, &value);
        if self.is_low() || !self.writes(study::Figure::BUMP) {
            return;
        }
        let (tip, strikes) = (board.px(stop.tip), board.px(stop.strikes));
        // Where two things meet they are pointed at: only of the stop is there a gap beside which the number belongs.
        let met = shown.gaps.iter().find(|gap| Limiter::Contact(gap.pair) == left.bump.by);
        let anchor = met.map_or(tip, |gap| board.px(Vec2(gap.on_first.y, gap.on_first.z - points.ground)));
        let length = text::phrase(self.mark(study::Figure::BUMP), left_mm, "", self.view.units);
        let mut ask = Ask::new(length, Ink::TextDimension, self.type_px(), anchor).spoken(spoken);
        // Narrow and high, since it stands among the arms.
        if self.wordy() {
            ask.lines[0].insert(0, Run::Text("bump ".to_owned()));
            ask.lines.push(text::words(by.trim_ascii_start()));
        } else {
            ask.lines.insert(0, text::words("bump"));
            ask.lines.extend((!short.is_empty()).then(|| text::words(short)));
        }
        let open = ((strikes.0 - tip.0).powi(2) + (strikes.1 - tip.1).powi(2)).sqrt();
        if open > 5.0 && left.bump.by == Limiter::BumpStop {
            // Beside the rubber, on lines from its tip and from the arm.
            let out = (-(strikes.1 - tip.1) / open, (strikes.0 - tip.0) / open);
            let out = if out.0 < 0.0 { (-out.0, -out.1) } else { out };
            let off = 20.0 + 14.0 * board.transform.px_per_mm();
            let beside = |from: (f64, f64), by: f64| (from.0 + out.0 * by, from.1 + out.1 * by);
            let lines =
                [beside(tip, 5.0), beside(tip, off + 4.0), beside(strikes, 5.0), beside(strikes, off + 4.0)];
            self.shapes.push(Shape::pairs(Ink::Extension, &lines));
            let ends = [beside(tip, off), beside(strikes, off)];
            // Below the arm there is room.
            let under = ends[1].1 + (2.0 * ARM_HALF_MM + 14.0) * board.transform.px_per_mm();
            ask.spots.push((ends[1].0, under + ask.size().1 / 2.0));
            ask.spots.push((ends[1].0 - 0.3 * ask.size().0, under + ask.size().1 / 2.0));
            ask.led = true;
            dimension(&mut self.layout, &mut self.shapes, ends, ask, None);
        } else {
            self.layout.place(Ask { led: true, ..ask });
        }
    }

    /// The roll centre's mark on the centreline, before any label, and its height.
    fn roll_mark(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) -> Option<f64> {
        let height_mm = shown.rest.corner.instant_centre(shown.pose).ok()?.roll_centre_mm?;
        let mark = board.px(Vec2(0.0, height_mm));
        let (x, y) = mark;
        let first = self.shapes.len();
        if self.wordy() {
            self.shapes.push(Shape::line(Ink::Construction, &[board.px(points.contact), mark]));
        }
        // Two wedges, tip to tip: the body rocks about the point.
        for side in [-8.0, 8.0] {
            let wedge = [mark, (x + side, y - 4.5), (x + side, y + 4.5)];
            self.shapes.push(Shape::area(Ink::Arrow, &wedge));
        }
        self.layout.mark(&self.shapes[first..]);
        Some(height_mm)
    }

    fn roll_centre(&mut self, board: &Board, height_mm: f64) {
        let spoken = self.tell(study::Figure::ROLL_CENTRE, &(self.length(height_mm) + " above the ground"));
        let mark = board.px(Vec2(0.0, height_mm));
        if self.is_low() || !self.writes(study::Figure::ROLL_CENTRE) {
            return;
        }
        let inside = mark.1 > 4.0 && mark.1 < self.view.height_px - 4.0 && mark.0 > 4.0;
        let before = self.mark(study::Figure::ROLL_CENTRE);
        let length = text::phrase(before, height_mm, "", self.view.units);
        let mut ask = Ask::new(length, Ink::TextDimension, self.type_px(), mark).spoken(spoken);
        ask.limit = 200.0;
        ask.lines.insert(0, text::words("roll center"));
        if !inside {
            self.layout.overflow.push(text::plain(&ask.lines));
            return;
        }
        let (x, y) = mark;
        let (width, height) = ask.size();
        let beside = x + width / 2.0 + 13.0;
        ask.spots = vec![(beside, y), (beside, y - height), (beside, y + height)];
        self.layout.place(ask);
    }

    /// The spindle's own scale beside the wheel, from where its pin was.
    pub(crate) fn drop_scale(&mut self, board: &Board, points: &FrontPoints, drop_mm: f64, with_label: bool) {
        if drop_mm.abs() < 0.05 {
            return;
        }
        let wheel = &points.wheel;
        let centre = wheel.axes.origin;
        let (pin_x, now_y) = board.px(centre);
        let was_y = board.px(centre - Vec2(0.0, drop_mm)).1;
        let x = board.px(wheel.axes.at(wheel.size.half_width, 0.0)).0 + 13.0;
        let step = if self.view.units == Units::Inches { MM_PER_INCH / 2.0 } else { 10.0 };
        let mut lines = vec![(x, was_y), (x, now_y), (pin_x + 12.0, now_y), (x, now_y)];
        let mut at = 0.0;
        let mut tick = 0_u32;
        while at <= drop_mm.abs() + 0.01 && tick < 40 {
            let y = board.px(centre - Vec2(0.0, drop_mm - at * drop_mm.signum())).1;
            let reach = if tick.is_multiple_of(2) { 7.0 } else { 4.0 };
            lines.extend([(x, y), (x + reach, y)]);
            at += step;
            tick += 1;
        }
        let first = self.shapes.len();
        self.shapes.push(Shape::pairs(Ink::Accent, &lines));
        let up = if drop_mm > 0.0 { -1.0 } else { 1.0 };
        self.shapes.push(arrow(Ink::AccentSolid, (x, now_y), (0.0, up)));
        self.layout.mark(&self.shapes[first..]);
        let spoken = self.say(
            if drop_mm > 0.0 { "Spindle pin raised" } else { "Spindle pin lowered" },
            &self.length(drop_mm.abs()),
        );
        if with_label {
            let before = if drop_mm > 0.0 { "spindle ↑ " } else { "spindle ↓ " };
            let runs = text::phrase(before, drop_mm.abs(), "", self.view.units);
            let middle = (x + 4.0, f64::midpoint(was_y, now_y));
            let mut ask = Ask::new(runs, Ink::TextAccent, self.type_px(), middle).spoken(spoken);
            let (width, height) = ask.size();
            let beside = x + 12.0 + width / 2.0;
            // Where the picture is too narrow for it: at the other side of the tire's top.
            let (edge, top) = board.px(wheel.axes.at(-wheel.size.half_width, wheel.size.radius));
            let left = edge - width / 2.0 - 7.0;
            ask.spots = vec![
                (beside, middle.1),
                (beside, now_y),
                (left, top + 0.6 * height),
                (left, top + 1.9 * height),
                (left, top + 3.2 * height),
            ];
            ask.led = false;
            self.layout.place(ask);
        }
    }

    /// What the drag says, on a tag beside the handle that is dragged; `beyond` an
    /// edge to its right, if there is one.
    pub(crate) fn tag(&mut self, anchor: (f64, f64), beyond: Option<f64>, note: Option<&DragNote>) {
        let Some(note) = note else { return };
        let mut ask = Ask::new(fractions(&note.text), Ink::TextTag, self.type_px() + 1.0, anchor);
        if ask.size().0 > 0.5 * self.view.width_px {
            ask.lines = at_arrows(&note.text).iter().map(|line| fractions(line)).collect();
        }
        let (width, height) = ask.size();
        ask.spots.extend(beyond.map(|edge| (edge + 30.0 + width / 2.0, anchor.1)));
        for (x, y) in [(1.0, 0.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 0.0), (-1.0, -1.0), (-1.0, 1.0)] {
            let reach = (anchor.0 + x * (width / 2.0 + 26.0), anchor.1 + y * (height + 16.0));
            ask.spots.push(reach);
        }
        ask.led = true;
        if let Some(rect) = self.layout.place(ask) {
            let (left, top, right, bottom) =
                (rect.left - 1.0, rect.top - 1.0, rect.left + rect.width + 1.0, rect.top + rect.height + 1.0);
            let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
            let trace = Trace::rounded(&corners.map(|(x, y)| (Vec2(x, y), 4.0)));
            self.shapes.push(Shape { ink: Ink::AccentSolid, form: Form::Path(Path { steps: trace.steps }) });
        }
    }

    /// The names of parts, where there is room to spare.
    pub(crate) fn names(&mut self, board: &Board, points: &FrontPoints, shown: &Shown<'_>) {
        if self.view.width_px < NAMED_PX || self.only.as_ref().is_some_and(|only| !only.is_empty()) {
            return;
        }
        let spring = match shown.rest.fitted.spring.kind {
            SpringKind::TorsionBar => Some(("torsion bar", points.lower.pivot + Vec2(0.0, -20.0))),
            SpringKind::Coil => points.coil.map(|(arm, body)| ("coil spring", arm.towards(body, 0.5))),
            SpringKind::WheelRate => None,
        };
        let wheel = &points.wheel;
        let fixed = [
            ("upper arm", points.upper.pivot.towards(points.upper.ball, 0.42) + Vec2(0.0, 17.0)),
            ("lower arm", points.lower.pivot.towards(points.lower.ball, 0.55) - Vec2(0.0, 20.0)),
            ("knuckle", points.knuckle.at(0.62 * points.spacing, -12.0)),
            ("frame rail", points.rail + Vec2(-points.rail_size.0, 0.7 * points.rail_size.1)),
            ("fender", points.fender + Vec2(-110.0, 70.0)),
            ("tie rod", points.tie_inner.towards(points.tie_outer, 0.3)),
            ("brake disc", wheel.axes.at(wheel.size.offset - 30.0, -0.7 * wheel.size.rim_radius)),
            ("rim", wheel.axes.at(wheel.size.half_rim, -wheel.size.rim_radius)),
        ];
        for (name, at) in spring.into_iter().chain(fixed) {
            let mut ask = Ask::new(text::words(name), Ink::TextSoft, self.type_px(), board.px(at));
            (ask.optional, ask.limit) = (true, 28.0);
            self.layout.place(ask);
        }
    }

    /// The name of another proposal, in the colour of its lines.
    pub(crate) fn other(&mut self, name: &str, ink: Ink, at: (f64, f64)) {
        self.say("Also drawn", name);
        let mut ask = Ask::new(text::words(name), ink, self.type_px(), at);
        ask.led = true;
        self.layout.place(ask);
    }

    /// A message over the picture.
    pub(crate) fn message(&mut self, message: &str, anchor: (f64, f64)) {
        self.say("", message);
        let mut ask = Ask::new(Vec::new(), Ink::TextAccent, self.type_px(), anchor);
        ask.lines = text::wrapped(message, ask.size, (0.42 * self.view.width_px).max(150.0));
        message.clone_into(&mut ask.spoken);
        ask.led = true;
        self.layout.place(ask);
    }
}

/// What stands before a number that may be a guess.
pub(crate) const fn mark_of(is_guess: bool) -> &'static str {
    if is_guess { "~ " } else { "" }
}

/// A number as it is heard, a guess as one, where such a mark stands before it.
pub(crate) fn heard(mark: &str, value: &str) -> String {
    if mark.is_empty() { value.to_owned() } else { "a guess, ".to_owned() + value }
}

/// A text cut before each of its arrows.
fn at_arrows(words: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    for letter in words.chars() {
        if matches!(letter, '←' | '→' | '↑' | '↓') {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            line.push(letter);
        }
    }
    for line in &mut lines {
        line.truncate(line.trim_ascii_end().len());
    }
    lines
}

/// A text in which fractions of digits are set as fractions.
fn fractions(words: &str) -> Vec<Run> {
    let mut runs = Vec::new();
    let mut plain = String::new();
    for word in words.split(' ') {
        let parts = word.split_once('/').and_then(|(above, below)| Some((whole(above)?, whole(below)?)));
        if let Some((above, below)) = parts {
            // A whole number stands close to its fraction.
            if !plain.is_empty() && !plain.ends_with(|letter: char| letter.is_ascii_digit()) {
                plain.push(' ');
            }
            runs.push(Run::Text(std::mem::take(&mut plain)));
            runs.push(Run::Fraction(above, below));
        } else {
            if !plain.is_empty() || !runs.is_empty() {
                plain.push(' ');
            }
            plain.push_str(word);
        }
    }
    runs.push(Run::Text(plain));
    runs
}

fn whole(digits: &str) -> Option<u32> {
    let number = (1..=4).contains(&digits.len()).then_some(digits)?;
    number
        .bytes()
        .try_fold(0, |sum, digit| digit.is_ascii_digit().then(|| sum * 10 + u32::from(digit - b'0')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_in_words_are_set_as_fractions() {
        let runs = fractions("Spindle ↑ 2 1/16 in");
        assert_eq!(
            runs,
            [Run::Text("Spindle ↑ 2".to_owned()), Run::Fraction(1, 16), Run::Text(" in".to_owned())]
        );
        assert_eq!(text::plain(std::slice::from_ref(&runs)), "Spindle ↑ 2 1/16 in");
        assert_eq!(at_arrows("Ball → 1 in ↑ 2 in"), ["Ball", "→ 1 in", "↑ 2 in"]);
        assert_eq!(fractions("and/or"), [Run::Text("and/or".to_owned())]);
    }
}
