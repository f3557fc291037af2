//! The left front corner from the side and from above: the same points, seen otherwise.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::dimension::dimension;
use crate::front::{
    Broken, STEERED_RAD, Shown, Sketch, chosen, finished, fit_box, front_view, front_view_broken, gap, seen,
};
use crate::geometry::{P, Trace};
use crate::labelling::Labelling;
use crate::labels::Ask;
use crate::palette::Ink;
use crate::parts::{arms, ground};
use crate::scene::{Run, Scene, Shape};
use crate::text;
use crate::transform::View;
use linkage::{Attitude, Corner, Joint, Member, PartFrame, Point3, Pose, Unreached, Vector3, frame};
use measure::{print_angle, spoken_angle};
use study::{Gap, IF_REAR_STAYS, Pair};
use truck::{Arm, Fitted, Side, SpringKind, rim_mm};

/// From this width on parts are named, px.
const NAMED_PX: f64 = 440.0;
/// How far a torsion bar is followed behind its arm, mm.
const BAR_MM: f64 = 330.0;
/// Thickness of the tread, mm.
const TREAD_MM: f64 = 17.0;
/// Points of the outline of what is round.
const ROUND: u8 = 72;

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
    let plan = Plan::of(aspect, &sketch.now);
    let board = plan.drawn(sketch.before.as_ref(), view);
    let handles = plan.handles(&board);
    let mut labelling = Labelling::new(&board, aspect, view, &handles);
    let mut marks = Board::new(board.transform);
    if let Some((handle, at)) = sketch.selected.and_then(|handle| Some((handle, plan.place(handle)?))) {
        labelling.tag(board.px(at), None, sketch.dragging.as_ref());
        chosen(&mut marks, at, aspect.ways(handle), sketch.dragging.is_some());
    }
    if aspect == Aspect::Side {
        plan.side_measures(&sketch.now, &board, &mut labelling);
    } else {
        plan.top_measures(sketch.now.gaps, &board, &mut labelling);
    }
    plan.names(&board, &mut labelling);
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
    let plan = Plan::broken(aspect, broken);
    let board = plan.drawn(broken.before.as_ref(), view);
    let handles = plan.handles(&board);
    let mut labelling = Labelling::new(&board, aspect, view, &handles);
    let mut marks = Board::new(board.transform);
    let anchor = match plan.open {
        Some((from, to)) => {
            gap(&mut marks, from, to);
            board.px(from.towards(to, 0.5))
        }
        None => board.px(plan.level(&plan.pose.wheel_centre)),
    };
    labelling.message(&broken.message, anchor);
    finished(board, marks, labelling, handles, side)
}

/// A corner seen from the side or from above.
pub(crate) struct Plan<'a> {
    aspect: Aspect,
    fitted: &'a Fitted,
    /// The pose in axes level with the ground.
    pose: Pose,
    attitude: Attitude,
    /// Sine and cosine of the body's lean.
    lean: (f64, f64),
    /// Both arms, front pivot, rear pivot and ball, in the picture.
    arms: [[P; 3]; 2],
    /// The end of the tie rod: that of the steering arm, where it reaches it.
    tie_end: P,
    /// The lower arm's own bushing.
    own: P,
    /// The strut rod's bushing on the frame, and where the rod is bolted to the lower arm.
    rod: Option<[P; 2]>,
    /// A joint that stays open: its two ends.
    open: Option<(P, P)>,
}

impl<'a> Plan<'a> {
    pub(crate) fn of(aspect: Aspect, shown: &Shown<'a>) -> Self {
        let rest = shown.rest;
        let lean_rad = if aspect == Aspect::Side { rest.nose_down_rad() } else { 0.0 };
        Self::posed(aspect, &rest.fitted, &rest.corner, shown.pose, lean_rad)
    }

    /// A corner whose parts do not reach each other: the knuckle stands as it was
    /// measured, on the lower arm, and what does not reach it ends short of it.
    fn broken(aspect: Aspect, broken: &Broken<'a>) -> Self {
        let Broken { corner, fitted, .. } = *broken;
        let angle = corner.measured_angle_rad();
        let why = match corner.pose(angle, Vector3::zeros()) {
            Ok(pose) => return Self::posed(aspect, fitted, corner, &pose, 0.0),
            Err(why) => why,
        };
        let (nearest, points) = (corner.nearest(angle), &fitted.points);
        let moved = nearest.lower_ball - points.lower.ball;
        let along = frame::direction(points.upper.ball - points.lower.ball).unwrap_or_else(Vector3::z);
        let square =
            |to: Vector3<f64>| frame::direction(to - along * to.dot(&along)).unwrap_or_else(Vector3::x);
        let radial = square(points.tie_outer - points.lower.ball);
        let across = along.cross(&radial);
        let pose = Pose {
            lower_arm_rad: angle,
            lower_ball: nearest.lower_ball,
            upper_ball: points.upper.ball + moved,
            tie_inner: corner.mounts().tie_inner,
            tie_outer: points.tie_outer + moved,
            wheel_centre: points.wheel_centre + moved,
            spin: frame::spin_axis(points.camber_rad, points.toe_rad),
            knuckle: PartFrame { origin: nearest.lower_ball, along, radial, across },
        };
        let mut plan = Self::posed(aspect, fitted, corner, &pose, 0.0);
        if matches!(why, Unreached::Open { joint: Joint::TieRodOuter, .. }) {
            let rod = frame::length(&(points.tie_outer - points.tie_inner));
            let way = frame::direction(pose.tie_outer - pose.tie_inner).unwrap_or_else(Vector3::y);
            plan.tie_end = plan.at(&(pose.tie_inner + way * rod));
            plan.open = Some((plan.tie_end, plan.at(&pose.tie_outer)));
        } else {
            plan.arms[1][2] = plan.at(&nearest.upper_ball);
            plan.open = Some((plan.at(&pose.upper_ball), plan.arms[1][2]));
        }
        plan
    }

    fn posed(aspect: Aspect, fitted: &'a Fitted, corner: &Corner, pose: &Pose, lean_rad: f64) -> Self {
        let level = pose.nose_down(lean_rad);
        let mut plan = Self {
            aspect,
            fitted,
            attitude: corner.attitude(&level),
            pose: level,
            lean: libm::sincos(lean_rad),
            arms: [[P(0.0, 0.0); 3]; 2],
            tie_end: P(0.0, 0.0),
            own: P(0.0, 0.0),
            rod: None,
            open: None,
        };
        let mounts = corner.mounts();
        for (arm, (axis, ball)) in
            [(mounts.lower, pose.lower_ball), (mounts.upper, pose.upper_ball)].iter().enumerate()
        {
            plan.arms[arm] = [axis.front, axis.rear, *ball].map(|point| plan.at(&point));
        }
        plan.tie_end = plan.at(&pose.tie_outer);
        plan.own = plan.arms[0][1];
        let measured = &fitted.measured;
        if let Some((own, bushing)) = measured.bushings(&mounts.lower) {
            plan.own = plan.at(&own);
            plan.rod = measured.strut.arm.stated().and_then(|end| {
                let local = measured.points.lower.frame(Member::LowerArm).ok()?.local(&end);
                Some([bushing, corner.lower_arm(pose).carry(&local)].map(|point| plan.at(&point)))
            });
        }
        plan
    }

    /// Everything that is drawn, the truck as measured beneath it.
    fn drawn(&self, before: Option<&Shown<'_>>, view: &View) -> Board {
        let mut board = Board::new(self.fit(view));
        if self.aspect == Aspect::Side {
            ground::ground(&mut board, view.width_px);
        }
        self.wheel(&mut board);
        if let Some(before) = before {
            board.ghost = true;
            Plan::of(self.aspect, before).body(&mut board);
            board.ghost = false;
        }
        self.body(&mut board);
        board
    }

    /// Each handle of the picture and where it is, px.
    fn handles(&self, board: &Board) -> Vec<(Handle, f64, f64)> {
        let placed = |handle: &Handle| {
            let (x, y) = board.px(self.place(*handle)?);
            Some((*handle, x, y))
        };
        self.aspect.handles().iter().filter_map(placed).collect()
    }

    /// Where a point given in axes level with the ground is seen.
    fn level(&self, point: &Point3<f64>) -> P {
        let lift = if self.aspect == Aspect::Top { 0.0 } else { self.attitude.contact.z };
        self.aspect.flat(point) - P(0.0, lift)
    }

    /// Where a point of the body is seen.
    fn at(&self, point: &Point3<f64>) -> P {
        let (sin, cos) = self.lean;
        self.level(&Point3::new(point.x * cos + point.z * sin, point.y, point.z * cos - point.x * sin))
    }

    fn place(&self, handle: Handle) -> Option<P> {
        let [lower, upper] = &self.arms;
        Some(match handle {
            Handle::LowerFront => lower[0],
            Handle::LowerRear => lower[1],
            Handle::LowerBall => lower[2],
            Handle::UpperFront => upper[0],
            Handle::UpperRear => upper[1],
            Handle::UpperBall => upper[2],
            Handle::WheelCentre => self.level(&self.pose.wheel_centre),
            Handle::TieInner => self.level(&self.pose.tie_inner),
            Handle::TieOuter => self.level(&self.pose.tie_outer),
            _ => return None,
        })
    }

    /// The transform at which the measured truck is seen. No movement of a pose changes it.
    fn fit(&self, view: &View) -> crate::transform::Transform {
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
            (P(-front, 0.0), P(-rear, (measured.body.fender.lip_z_mm + 60.0).max(2.0 * radius)))
        } else {
            let out = wheel.y + fitted.tire.section_on_mm(fitted.wheel.rim_width_mm);
            (P(-30.0, -front), P(out, -rear))
        };
        // Where names cover the middle too, the fender stands below them.
        let across = self.aspect == Aspect::Side && view.covered_px.0 > 0.4 * view.width_px;
        fit_box(low, high, 0.5, if across { view.covered_px.1 - 12.0 } else { 6.0 }, view)
    }

    /// The outline of a solid of revolution about the spin axis, `round` at its edges.
    fn round(&self, along: f64, radius: f64, half: f64, round: f64) -> Trace {
        let spin = &self.pose.spin;
        let centre = self.pose.wheel_centre + spin * along;
        let ways = [self.aspect.in_body(1.0, 0.0), self.aspect.in_body(0.0, 1.0)];
        let mut trace = Trace::default();
        for step in 0..ROUND {
            let (sin, cos) = libm::sincos(f64::from(step) * std::f64::consts::TAU / f64::from(ROUND));
            // The solid's farthest point that way.
            let way = ways[0] * cos + ways[1] * sin;
            let across = way.dot(spin);
            let radial = frame::direction(way - spin * across).unwrap_or_else(Vector3::zeros);
            let edge = radial * (radius - round) + spin * (half - round).copysign(across) + way * round;
            let mut at = self.level(&(centre + edge));
            if self.aspect != Aspect::Top {
                // Pressed flat on the ground.
                at.1 = at.1.max(0.0);
            }
            trace.to(at);
        }
        trace.close()
    }

    /// Tire, rim and brake disc, seen through.
    pub(crate) fn wheel(&self, board: &mut Board) {
        let fitted = self.fitted;
        let radius = fitted.tire.free_radius_mm();
        let half = fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0;
        let rim = (rim_mm(fitted.tire.size.rim_code) / 2.0).min(radius - 30.0).max(20.0);
        let shoulder = fitted.tire.shoulder_mm.min(half).min(radius / 2.0);
        let disc = fitted.brake.rotor_diameter_mm.map_or(0.72 * rim, |diameter| diameter / 2.0);
        board.draw(Ink::Tire, &self.round(0.0, radius, half, shoulder));
        if self.aspect == Aspect::Side {
            // Where the tread begins, and the rib that keeps the sidewall off a curb.
            for inward in [TREAD_MM, 0.42 * (radius - rim)] {
                board.draw(Ink::Thin, &self.round(0.0, radius - inward, half, shoulder));
            }
        }
        board.draw(Ink::Cavity, &self.round(0.0, rim, fitted.wheel.rim_width_mm / 2.0, 0.0));
        board.draw(Ink::Rotor, &self.round(fitted.wheel.offset_mm - 30.0, disc, 11.0, 0.0));
    }

    /// Everything but the wheel, from behind to front.
    fn body(&self, board: &mut Board) {
        let fitted = self.fitted;
        let body = &fitted.measured.body;
        let (rail, fender) = (&body.rail, &body.fender);
        let (inner, top) = (rail.outer_y_mm - rail.width_mm, rail.bottom_z_mm + rail.height_mm);
        let corners = [
            (rail.front_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
            (rail.rear_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
            (rail.rear_x_mm, inner, top),
            (rail.front_x_mm, inner, top),
        ];
        board.rounded(Ink::Frame, &corners.map(|(x, y, z)| (self.at(&Point3::new(x, y, z)), 4.0)));
        let middle = fitted.measured.points.wheel_centre.x;
        let lip = [(-2.0, 170.0), (-1.0, 0.0), (1.0, 0.0), (2.0, 170.0)].map(|(along, down)| {
            let x = middle + along * fender.half_length_mm;
            (self.at(&Point3::new(x, fender.lip_y_mm, fender.lip_z_mm - down)), 90.0)
        });
        board.draw(Ink::Sheet, &Trace::bent(&lip));
        let [lower, upper] = &self.arms;
        let spring = &fitted.spring;
        if spring.kind == SpringKind::TorsionBar {
            let arm = if spring.arm == Arm::Lower { lower } else { upper };
            let thin = board.least(spring.bar.diameter_mm / 2.0, 2.0);
            // A strut rod's bushing is no bearing of the bar: it then runs straight back.
            let back = self.aspect.flat(&Point3::new(-1.0, 0.0, 0.0));
            let way = if self.rod.is_some() { back } else { arm[1] - arm[0] };
            let from = if spring.arm == Arm::Lower { self.own } else { arm[1] };
            board.taper(Ink::Rod, from, thin, from + way.unit() * BAR_MM, thin);
        }
        let rod = board.least(9.0, 2.0);
        if let Some([bushing, end]) = self.rod {
            board.taper(Ink::Rod, bushing, rod, end, rod);
        } else {
            board.taper(Ink::Steel, lower[0], 20.0, lower[2], 19.0);
        }
        board.taper(Ink::Steel, self.own, 25.0, lower[2], 21.0);
        let tie = [self.level(&self.pose.tie_inner), self.tie_end];
        board.taper(Ink::Rod, tie[0], rod, tie[1], rod);
        self.knuckle(board);
        board.taper(Ink::Rod, upper[0], rod, upper[1], rod);
        for pivot in &upper[..2] {
            board.taper(Ink::Steel, *pivot, 17.0, upper[2], 15.0);
        }
        if !board.ghost {
            self.joints(board, tie);
        }
    }

    fn knuckle(&self, board: &mut Board) {
        let [lower, upper, steering_arm] =
            [&self.pose.lower_ball, &self.pose.upper_ball, &self.pose.tie_outer]
                .map(|point| self.level(point));
        board.taper(Ink::Forging, lower.towards(upper, 0.3), 15.0, steering_arm, 11.0);
        board.taper(Ink::Forging, lower, 21.0, upper, 17.0);
        let wheel = self.level(&self.pose.wheel_centre);
        if !board.ghost {
            board.taper(Ink::Pin, lower.towards(upper, 0.45), 24.0, wheel, 18.0);
        }
    }

    /// Joints, pivots and the lines that things turn about.
    fn joints(&self, board: &mut Board, tie: [P; 2]) {
        let [lower, upper] = &self.arms;
        for arm in [lower, upper] {
            let beyond = (arm[0] - arm[1]).unit() * 58.0;
            board.lines(Ink::Centre, &[arm[0] + beyond, arm[1] - beyond]);
        }
        let wheel = self.level(&self.pose.wheel_centre);
        if self.aspect == Aspect::Side {
            let foot = self.level(&self.pose.axis_at(self.attitude.contact.z));
            board.lines(Ink::Centre, &[foot, upper[2] + (upper[2] - foot).unit() * 90.0]);
            board.lines(Ink::Centre, &[P(wheel.0, 0.0), wheel + P(0.0, 60.0)]);
        } else {
            let radius = self.fitted.tire.free_radius_mm() + board.mm(9.0);
            let spin = self.aspect.in_body(1.0, 0.0).dot(&self.pose.spin);
            let ahead = P(self.pose.spin.x, spin).unit() * radius;
            board.lines(Ink::Centre, &[wheel - ahead, wheel + ahead]);
            board.lines(Ink::Centre, &[P(0.0, -2000.0), P(0.0, 2000.0)]);
        }
        for arm in [lower, upper] {
            arms::pivot(board, arm[0], 19.0, None);
            arms::pivot(board, arm[1], 19.0, None);
        }
        let ends = [(lower[2], 18.5, 6.6), (upper[2], 18.5, 6.6), (tie[0], 11.5, 4.6), (tie[1], 11.5, 4.6)];
        for solid in [false, true] {
            for (at, mm, px) in ends {
                let housing = board.least(mm, px);
                arms::joint(board, at, housing, solid);
            }
        }
    }

    /// Caster against ground and frame, trail, and the contact's path.
    fn side_measures(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>) {
        let frame = shown.rest.corner.attitude(shown.pose);
        let (ground_rad, frame_rad) = (self.attitude.caster_rad, frame.caster_rad);
        let stated = shown.rest.rear_is_stated();
        let mut said = spoken_angle(ground_rad, 2) + " against the ground, ";
        if !stated {
            said = said + IF_REAR_STAYS + ", ";
        }
        let spoken = labelling.say("Caster", &(said + &spoken_angle(frame_rad, 2) + " against the frame"));
        let [lower, upper] = [self.arms[0][2], self.arms[1][2]];
        let tip = board.px(upper + (upper - lower).unit() * 70.0);
        let mut ask = labelling.words("caster ", &print_angle(ground_rad, 2), tip).spoken(spoken);
        if !stated {
            ask.lines.push(text::words(IF_REAR_STAYS));
        }
        ask.lines.push(text::words(&(print_angle(frame_rad, 2) + " to frame")));
        let (width, height) = ask.size();
        for side in [1.0, -1.0] {
            for up in [0.3, 1.0] {
                ask.spots.push((tip.0 + side * (0.5 * width + 8.0), tip.1 - up * height));
            }
        }
        labelling.sheet.place(ask);
        self.trail(stated, board, labelling);
        self.path(shown, board, labelling);
    }

    fn trail(&self, stated: bool, board: &Board, labelling: &mut Labelling<'_>) {
        let trail_mm = self.attitude.trail_mm;
        let mut said = labelling.length(trail_mm);
        if !stated {
            said = said + ", " + IF_REAR_STAYS;
        }
        let spoken = labelling.say("Trail", &said);
        let contact = self.level(&self.attitude.contact);
        let foot = P(contact.0 - trail_mm, 0.0);
        let runs = text::phrase("trail ", trail_mm, "", labelling.view.units);
        let mut ask = Ask::new(runs, Ink::TextDimension, labelling.type_px(), (0.0, 0.0)).spoken(spoken);
        let up = board.mm(12.0);
        let ends = [foot, contact].map(|point| board.px(point + P(0.0, up)));
        let (width, height) = ask.size();
        for side in [-1.0, 1.0] {
            let x = if side < 0.0 { ends[0].0.min(ends[1].0) } else { ends[0].0.max(ends[1].0) };
            ask.spots.push((x + side * (width / 2.0 + 24.0), ends[0].1 - 0.2 * height));
        }
        let posts = [foot, foot + P(0.0, 1.6 * up), contact, contact + P(0.0, 1.6 * up)];
        labelling.shapes.push(Shape::pairs(Ink::Extension, &posts.map(|point| board.px(point))));
        dimension(&mut labelling.sheet, &mut labelling.shapes, ends, ask, None);
    }

    /// The way the contact goes in bump, which tells how braking lifts or drops the nose.
    fn path(&self, shown: &Shown<'_>, board: &Board, labelling: &mut Labelling<'_>) {
        let Ok(rates) = shown.rest.corner.travel_rates(shown.pose) else { return };
        let path_rad = libm::atan2(-rates.contact_mm.x, rates.contact_mm.z);
        let spoken = labelling.say("Contact's path in bump", &(spoken_angle(path_rad, 1) + " back"));
        let contact = self.level(&self.attitude.contact);
        let end = contact + P(-rates.contact_mm.x, rates.contact_mm.z).unit() * 150.0;
        let line = Shape::line(Ink::Construction, &[contact, end].map(|point| board.px(point)));
        labelling.sheet.mark(std::slice::from_ref(&line));
        labelling.shapes.push(line);
        let tip = board.px(end);
        let mut ask = labelling.words("path ", &print_angle(path_rad, 1), tip).spoken(spoken);
        let (width, _) = ask.size();
        ask.spots = vec![(tip.0 + width / 2.0 + 6.0, tip.1), (tip.0 - width / 2.0 - 6.0, tip.1)];
        labelling.sheet.place(ask);
    }

    /// Toe or steer, and the tire's distance to the rail.
    fn top_measures(&self, gaps: &[Gap], board: &Board, labelling: &mut Labelling<'_>) {
        let toe_rad = self.attitude.toe_rad;
        let steered = toe_rad.abs() > STEERED_RAD;
        let (name, angle) = if steered { ("steer", -toe_rad) } else { ("toe", toe_rad) };
        // A wheel with its front out is steered to its own side of the truck.
        let to_left = (toe_rad < 0.0) == (self.fitted.measured.side() == Side::Left);
        let (left, decimals) = (if to_left { " left" } else { " right" }, if steered { 1 } else { 2 });
        let way = if steered { left } else { "" };
        let shown = if steered { angle.abs() } else { angle };
        let spoken = labelling.say(name, &(spoken_angle(shown, decimals) + way));
        let radius = self.fitted.tire.free_radius_mm();
        let wheel = self.level(&self.pose.wheel_centre);
        let out = P(self.pose.spin.y, -self.pose.spin.x);
        let tip = board.px(wheel + P(out.1, -out.0) * (radius + board.mm(8.0)));
        let value = print_angle(shown, decimals) + way;
        let mut ask = labelling.words(&(name.to_owned() + " "), &value, tip).spoken(spoken);
        let (width, height) = ask.size();
        for (across, down) in [(0.0, 0.6), (-1.0, 0.0), (1.0, 0.0), (-1.0, -1.2), (1.0, -1.2)] {
            ask.spots.push((tip.0 + across * (width / 2.0 + 34.0), tip.1 + down * height));
        }
        labelling.sheet.place(ask);
        if let Some(gap) = gaps.iter().find(|gap| gap.pair == Pair::TireRail) {
            self.gap(board, labelling, gap);
        }
    }

    fn gap(&self, board: &Board, labelling: &mut Labelling<'_>, gap: &Gap) {
        let spoken = labelling.say("Tire to frame", &labelling.length(gap.distance_mm));
        let (mut other, mut tire) = (self.at(&gap.on_other), self.at(&gap.on_tire));
        if (other.1 - tire.1).abs() < 1.0 {
            // Between two faces any place shows the distance: take one behind the arms.
            let behind = self.place(Handle::WheelCentre).map_or(0.0, |wheel| wheel.1);
            let behind = behind + 0.7 * self.fitted.tire.free_radius_mm();
            (other.1, tire.1) = (behind, behind);
        }
        let ends = [other, tire].map(|point| board.px(point));
        if gap.distance_mm > 0.0 {
            let ask = labelling.number("tire to frame ", gap.distance_mm).spoken(spoken);
            let nameless = text::length(gap.distance_mm, labelling.view.units);
            dimension(&mut labelling.sheet, &mut labelling.shapes, ends, ask, Some(nameless));
        } else {
            let mut ask = labelling.words("tire meets frame", "", ends[0]).spoken(spoken);
            (ask.ink, ask.led) = (Ink::TextAccent, true);
            labelling.sheet.place(ask);
        }
    }

    /// Which way the truck goes, and the names of parts where there is room.
    fn names(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let [lower, upper] = &self.arms;
        let tie = [self.level(&self.pose.tie_inner), self.tie_end];
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
        labelling.sheet.place(ask);
        if size.0 < NAMED_PX {
            return;
        }
        names.extend(self.rod.map(|[bushing, end]| ("strut rod", bushing.towards(end, 0.5))));
        names.extend([
            ("lower arm", self.own.towards(lower[2], 0.4)),
            ("upper arm", upper[1].towards(upper[2], 0.4)),
            ("tie rod", tie[0].towards(tie[1], 0.4)),
            ("frame rail", along(-0.5 * self.fitted.tire.free_radius_mm())),
        ]);
        for (name, at) in names {
            let mut ask = Ask::new(text::words(name), Ink::TextSoft, labelling.type_px(), board.px(at));
            (ask.optional, ask.limit) = (true, 28.0);
            labelling.sheet.place(ask);
        }
    }
}

impl Labelling<'_> {
    /// A name with its value.
    fn words(&self, name: &str, value: &str, anchor: (f64, f64)) -> Ask {
        let runs = vec![Run::Text(name.to_owned() + value)];
        Ask::new(runs, Ink::TextInk, self.type_px(), anchor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use study::Rest;
    use truck::{Truck, demo};

    /// Where the rod's bushing and the arm's own are seen from above.
    fn seen(truck: &Truck) -> (P, P) {
        let rest = Rest::of(Fitted::as_measured(truck)).unwrap();
        let shown = Shown { rest: &rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
        let plan = Plan::of(Aspect::Top, &shown);
        (plan.rod.unwrap()[0], plan.own)
    }

    #[test]
    fn a_strut_rod_that_runs_back_is_drawn_behind_the_arm() {
        let mut truck = demo().truck;
        assert!(truck.strut.arm.stated().is_some(), "the demo has a rod");
        let lower = truck.points.lower;
        let (rod, own) = seen(&truck);
        let flat = |point: &Point3<f64>| Aspect::Top.flat(point);
        assert_eq!((rod, own), (flat(&lower.front), flat(&lower.rear)));
        // The same arm seen from the other end: its own bushing in front, the rod's behind.
        let mirrored = |point: Point3<f64>| Point3::new(2.0 * lower.ball.x - point.x, point.y, point.z);
        (truck.points.lower.front, truck.points.lower.rear) = (mirrored(lower.rear), mirrored(lower.front));
        let (rod, own) = seen(&truck);
        assert_eq!((rod, own), (flat(&mirrored(lower.front)), flat(&mirrored(lower.rear))));
    }
}
