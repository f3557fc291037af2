//! The left front corner from each of three sides: what is drawn, and what is said of it.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::dimension::dimension;
use crate::front::{front_view, front_view_broken};
use crate::geometry::Vec2;
use crate::labelling::Labelling;
use crate::labels::Ask;
use crate::palette::Ink;
use crate::parts::{around, ground, whole_wheel};
use crate::projection::{Projection, STEERED_RAD};
use crate::scene::{Run, Scene, Shape};
use crate::shown::{Broken, Shown, Sketch};
use crate::stage::{chosen, finished, fit_box, gap, handles, seen};
use crate::text;
use crate::transform::{Transform, View};
use linkage::Point3;
use measure::{print_angle, spoken_angle};
use study::{Gap, IF_REAR_STAYS, Pair, Quantity, as_told, room_as_told};
use truck::{Readable, Side};

/// From this width on parts are named, px.
const NAMED_PX: f64 = 440.0;

/// The left front corner from one of three sides; from the front it is [`front_view`].
///
/// Labels keep apart as they do there. From the side the ground is level, and
/// the body leans by what its nose has sunk.
#[must_use]
pub fn view_of(aspect: Aspect, sketch: &Sketch<'_>, view: &View) -> Scene {
    if aspect == Aspect::Front {
        return front_view(sketch, view);
    }
    let side = sketch.now.rest.fitted.measured.side();
    let view = &seen(view, side);
    let projection = Projection::of(aspect, &sketch.now);
    let mut board = Board::new(projection.fit(view));
    projection.draw(&mut board, sketch.before.as_ref(), view);
    let handles = handles(&board, aspect, &|handle| projection.place(handle));
    let mut labelling = Labelling::new(&board, aspect, view, &handles);
    labelling.guessed = sketch.guessed.to_vec();
    let mut marks = Board::new(board.transform);
    if let Some((handle, at)) = sketch.selected.and_then(|handle| Some((handle, projection.place(handle)?))) {
        labelling.tag(board.px(at), None, sketch.dragging.as_ref());
        chosen(&mut marks, at, aspect.ways(handle), sketch.dragging.is_some());
    }
    if aspect == Aspect::Side {
        projection.side_measures(&sketch.now, &board, &mut labelling);
    } else {
        projection.top_measures(&sketch.now, &board, &mut labelling);
    }
    projection.names(&board, &mut labelling);
    finished(board, marks, labelling, handles, side)
}

/// The same as far as its parts reach.
#[must_use]
pub fn view_of_broken(aspect: Aspect, broken: &Broken<'_>, view: &View) -> Scene {
    if aspect == Aspect::Front {
        return front_view_broken(broken, view);
    }
    let side = broken.fitted.measured.side();
    let view = &seen(view, side);
    let projection = Projection::assembled(aspect, broken.fitted, broken.corner, &broken.assembly(), 0.0);
    let mut board = Board::new(projection.fit(view));
    projection.draw(&mut board, broken.before.as_ref(), view);
    let handles = handles(&board, aspect, &|handle| projection.place(handle));
    let mut labelling = Labelling::new(&board, aspect, view, &handles);
    let mut marks = Board::new(board.transform);
    let anchor = match projection.open {
        Some([from, to]) => {
            gap(&mut marks, from, to);
            board.px(from.towards(to, 0.5))
        }
        None => board.px(projection.level(&projection.pose.wheel_centre)),
    };
    labelling.message(&broken.message, anchor);
    finished(board, marks, labelling, handles, side)
}

impl Projection<'_> {
    /// Draws it all, the truck as measured beneath it.
    pub(crate) fn draw(&self, board: &mut Board, before: Option<&Shown<'_>>, view: &View) {
        if self.aspect == Aspect::Side {
            ground::ground(board, view.width_px);
        }
        board.part();
        whole_wheel::whole_wheel(board, self);
        board.part();
        if let Some(before) = before {
            board.ghost = true;
            around::body(board, &Projection::of(self.aspect, before));
            board.ghost = false;
        }
        around::body(board, self);
    }

    /// The transform at which the measured truck is seen. No movement of a pose changes it.
    pub(crate) fn fit(&self, view: &View) -> Transform {
        let fitted = self.fitted;
        let (measured, points) = (&fitted.measured, &fitted.measured.points);
        let radius = fitted.tire.free_radius_mm();
        let wheel = &points.wheel_centre;
        let (mut front, mut rear) = (wheel.x + radius, wheel.x - radius);
        for arm in [&points.lower, &points.upper] {
            front = front.max(arm.front.x);
            rear = rear.min(arm.rear.x);
        }
        let (front, rear) = (front + 34.0, rear - 60.0);
        let (low, high) = if self.aspect == Aspect::Side {
            (Vec2(-front, 0.0), Vec2(-rear, (measured.body.fender.lip_z_mm + 60.0).max(2.0 * radius)))
        } else {
            let out = wheel.y + fitted.tire.section_on_mm(fitted.wheel.rim_width_mm);
            (Vec2(-30.0, -front), Vec2(out, -rear))
        };
        // Where names cover the middle too, the fender stands below them.
        let across = self.aspect == Aspect::Side && view.covered_px.0 > 0.4 * view.width_px;
        fit_box(low, high, 0.5, if across { view.covered_px.1 - 12.0 } else { 6.0 }, view)
    }

    /// Caster against ground and frame, trail, and the contact's path.
    fn side_measures(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>) {
        let frame = shown.rest.corner.attitude(shown.pose);
        let told = |rad| as_told(shown.rest, Readable::Caster, rad);
        let (ground_rad, frame_rad) = (told(self.attitude.caster_rad), told(frame.caster_rad));
        let stated = shown.rest.rear_is_known();
        let heard = |figure, rad| labelling.heard(figure, &spoken_angle(rad, 2));
        let mut said = heard(study::Figure::CASTER_GROUND, ground_rad) + " against the ground, ";
        if !stated {
            said = said + IF_REAR_STAYS + ", ";
        }
        said = said + &heard(study::Figure::CASTER, frame_rad) + " against the frame";
        let spoken = labelling.say("Caster", &said);
        let (lower, upper) = (self.lower.ball, self.upper.ball);
        let tip = board.px(upper + (upper - lower).unit() * 70.0);
        let mut ask =
            labelling.angle("caster ", study::Figure::CASTER_GROUND, ground_rad, 2, tip).spoken(spoken);
        if !stated {
            ask.lines.push(text::words(IF_REAR_STAYS));
        }
        let mark = labelling.mark(study::Figure::CASTER);
        ask.lines.push(text::words(&[mark, &print_angle(frame_rad, 2), " to frame"].concat()));
        let (width, height) = ask.size();
        for side in [1.0, -1.0] {
            for up in [0.3, 1.0] {
                ask.spots.push((tip.0 + side * (0.5 * width + 8.0), tip.1 - up * height));
            }
        }
        labelling.layout.place(ask);
        self.trail(stated, board, labelling);
        self.path(shown, board, labelling);
    }

    fn trail(&self, stated: bool, board: &Board, labelling: &mut Labelling<'_>) {
        let trail_mm = self.attitude.trail_mm;
        let mut said = labelling.heard(study::Figure::TRAIL_GROUND, &labelling.length(trail_mm));
        if !stated {
            said = said + ", " + IF_REAR_STAYS;
        }
        let spoken = labelling.say("Trail", &said);
        let contact = self.level(&self.attitude.contact);
        let foot = Vec2(contact.0 - trail_mm, 0.0);
        let name = "trail ".to_owned() + labelling.mark(study::Figure::TRAIL_GROUND);
        let runs = text::phrase(&name, trail_mm, "", labelling.view.units);
        let mut ask = Ask::new(runs, Ink::TextDimension, labelling.type_px(), (0.0, 0.0)).spoken(spoken);
        let up = board.mm(12.0);
        let ends = [foot, contact].map(|point| board.px(point + Vec2(0.0, up)));
        let (width, height) = ask.size();
        for side in [-1.0, 1.0] {
            let x = if side < 0.0 { ends[0].0.min(ends[1].0) } else { ends[0].0.max(ends[1].0) };
            ask.spots.push((x + side * (width / 2.0 + 24.0), ends[0].1 - 0.2 * height));
        }
        let posts = [foot, foot + Vec2(0.0, 1.6 * up), contact, contact + Vec2(0.0, 1.6 * up)];
        labelling.shapes.push(Shape::pairs(Ink::Extension, &posts.map(|point| board.px(point))));
        dimension(&mut labelling.layout, &mut labelling.shapes, ends, ask, None);
    }

    /// The way the contact goes in bump, which tells how braking lifts or drops the nose.
    fn path(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>) {
        let Ok(rates) = shown.rest.corner.travel_rates(shown.pose) else { return };
        let path_rad = libm::atan2(-rates.contact_mm.x, rates.contact_mm.z);
        let figure = study::Figure::through(Quantity::PathAngle);
        let said = labelling.heard(figure, &(spoken_angle(path_rad, 1) + " back"));
        let spoken = labelling.say("Contact's path in bump", &said);
        let contact = self.level(&self.attitude.contact);
        let end = contact + Vec2(-rates.contact_mm.x, rates.contact_mm.z).unit() * 150.0;
        let line = Shape::line(Ink::Construction, &[contact, end].map(|point| board.px(point)));
        labelling.layout.mark(std::slice::from_ref(&line));
        labelling.shapes.push(line);
        let tip = board.px(end);
        let mut ask = labelling.angle("path ", figure, path_rad, 1, tip).spoken(spoken);
        let (width, _) = ask.size();
        ask.spots = vec![(tip.0 + width / 2.0 + 6.0, tip.1), (tip.0 - width / 2.0 - 6.0, tip.1)];
        labelling.layout.place(ask);
    }

    /// Toe or steer, and the tire's distance to the rail.
    fn top_measures(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>) {
        let toe_rad = self.attitude.toe_rad;
        let steered = toe_rad.abs() > STEERED_RAD;
        let toe_rad = if steered { toe_rad } else { as_told(shown.rest, Readable::Toe, toe_rad) };
        let (name, angle) = if steered { ("steer", -toe_rad) } else { ("toe", toe_rad) };
        // A wheel with its front out is steered to its own side of the truck.
        let to_left = (toe_rad < 0.0) == (self.fitted.measured.side() == Side::Left);
        let (left, decimals) = (if to_left { " left" } else { " right" }, if steered { 1 } else { 2 });
        let way = if steered { left } else { "" };
        let seen = if steered { angle.abs() } else { angle };
        let said = labelling.heard(study::Figure::TOE, &(spoken_angle(seen, decimals) + way));
        let spoken = labelling.say(name, &said);
        let radius = self.fitted.tire.free_radius_mm();
        let wheel = self.level(&self.pose.wheel_centre);
        let out = Vec2(self.pose.spin.y, -self.pose.spin.x);
        let tip = board.px(wheel + Vec2(out.1, -out.0) * (radius + board.mm(8.0)));
        let name = [name, " ", labelling.mark(study::Figure::TOE)].concat();
        let mut ask = labelling.words(&name, &(print_angle(seen, decimals) + way), tip).spoken(spoken);
        let (width, height) = ask.size();
        for (across, down) in [(0.0, 0.6), (-1.0, 0.0), (1.0, 0.0), (-1.0, -1.2), (1.0, -1.2)] {
            ask.spots.push((tip.0 + across * (width / 2.0 + 34.0), tip.1 + down * height));
        }
        labelling.layout.place(ask);
        if let Some(gap) = shown.gaps.iter().find(|gap| gap.pair == Pair::TireRail) {
            self.gap(shown, board, labelling, gap);
        }
    }

    fn gap(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>, gap: &Gap) {
        let figure = study::Figure::room(gap.pair);
        let distance_mm = room_as_told(shown.rest, gap.pair, gap.distance_mm);
        let spoken = labelling.tell(figure, &labelling.length(distance_mm));
        let mark = labelling.mark(figure);
        let (mut other, mut tire) = (self.at(&gap.on_second), self.at(&gap.on_first));
        if (other.1 - tire.1).abs() < 1.0 {
            // Between two faces any place shows the distance: take one behind the arms.
            let behind = self.place(Handle::WheelCentre).map_or(0.0, |wheel| wheel.1);
            let behind = behind + 0.7 * self.fitted.tire.free_radius_mm();
            (other.1, tire.1) = (behind, behind);
        }
        let ends = [other, tire].map(|point| board.px(point));
        if distance_mm > 0.0 {
            let ask = labelling.marked(mark, "tire to frame ", distance_mm).spoken(spoken);
            let nameless = text::phrase(mark, distance_mm, "", labelling.view.units);
            dimension(&mut labelling.layout, &mut labelling.shapes, ends, ask, Some(nameless));
        } else {
            let mut ask = labelling.words(mark, "tire meets frame", ends[0]).spoken(spoken);
            (ask.ink, ask.led) = (Ink::TextContact, true);
            labelling.layout.place(ask);
        }
    }

    /// Which way the truck goes, and the names of parts where there is room.
    fn names(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let rail = &self.fitted.measured.body.rail;
        let along = |x: f64| self.at(&Point3::new(x, rail.outer_y_mm - 12.0, rail.bottom_z_mm + 20.0));
        let (front, mut names) = (along(rail.front_x_mm), Vec::new());
        let size = (labelling.view.width_px, labelling.view.height_px);
        let (anchor, words) = if self.aspect == Aspect::Side {
            ((0.5 * size.0, 0.2 * size.1), "← front of the truck")
        } else {
            (board.px(front), "↓ front of the truck")
        };
        let mut ask = labelling.words(words, "", anchor);
        (ask.ink, ask.optional) = (Ink::TextSoft, true);
        let (width, height) = ask.size();
        ask.spots = if self.aspect == Aspect::Side {
            vec![(width / 2.0 + 6.0, height), (width / 2.0 + 6.0, 2.5 * height)]
        } else {
            vec![(width / 2.0 + 6.0, size.1 - height), (size.0 - width / 2.0 - 6.0, size.1 - height)]
        };
        ask.limit = 14.0;
        labelling.layout.place(ask);
        if size.0 < NAMED_PX {
            return;
        }
        names.extend(self.strut_rod.map(|rod| ("strut rod", rod.bushing.towards(rod.bolt, 0.5))));
        names.extend([
            ("lower arm", self.lower_bushing.towards(self.lower.ball, 0.4)),
            ("upper arm", self.upper.rear.towards(self.upper.ball, 0.4)),
            ("tie rod", self.tie_inner.towards(self.tie_outer, 0.4)),
            ("frame rail", along(-0.5 * self.fitted.tire.free_radius_mm())),
        ]);
        for (name, at) in names {
            let mut ask = Ask::new(text::words(name), Ink::TextSoft, labelling.type_px(), board.px(at));
            (ask.optional, ask.limit) = (true, 28.0);
            labelling.layout.place(ask);
        }
    }
}

impl Labelling<'_> {
    /// A name with its angle, which carries its figure's mark.
    fn angle(&self, name: &str, figure: study::Figure, rad: f64, decimals: u8, anchor: (f64, f64)) -> Ask {
        self.words(&(name.to_owned() + self.mark(figure)), &print_angle(rad, decimals), anchor)
    }

    /// A name with its value.
    fn words(&self, name: &str, value: &str, anchor: (f64, f64)) -> Ask {
        let runs = vec![Run::Text(name.to_owned() + value)];
        Ask::new(runs, Ink::TextInk, self.type_px(), anchor)
    }
}
