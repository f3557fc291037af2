//! The rear from the side: axle, leaf springs, frame and drive shaft, the frame as measured behind it.
//!
//! Ground and wheel stand still and the frame moves, as on the sketch.

use crate::board::Board;
use crate::dimension::dimension;
use crate::geometry::{Trace, Vec2};
use crate::labels::{Ask, Layout};
use crate::palette::Ink;
use crate::parts::ground::ground;
use crate::scene::{Scene, gather};
use crate::stage::fit_box;
use crate::text;
use crate::transform::View;
use measure::print_angle;
use study::{Leaf, LeafPose, RearRest, RearTold, Shaft, Sort};
use truck::{Fitted, RearAxle, RearField, RearParts};

/// An axle tube is drawn so thick, mm: a light truck's, roughly. Its own thickness is in no answer.
const TUBE_MM: f64 = 38.0;
/// A rail that nobody has measured is drawn so high, mm.
const RAIL_MM: f64 = 110.0;
/// How far the frame is drawn beyond the spring, mm.
const BEYOND_MM: f64 = 130.0;

/// What the picture shows.
#[derive(Clone, Copy, Debug)]
struct RearShown<'a> {
    /// As measured.
    rear: &'a RearAxle,
    /// What is laid over it.
    parts: &'a RearParts,
    /// How it stands.
    rest: &'a RearRest,
}

/// The rear of a truck with its parts on it, from the truck's left; it says so where there is nothing to draw:
/// without a spring that is measured, or where the parts do not go together.
#[must_use]
pub fn rear_view(fitted: &Fitted, view: &View) -> Scene {
    let (rear, parts) = (&fitted.measured.rear, RearParts::of(&fitted.rear));
    let rest = match RearRest::laid(rear, &parts, 0.0) {
        Ok(rest) => rest,
        Err(why) => return Scene::message(&why.to_string(), view),
    };
    let shown = RearShown { rear, parts: &parts, rest: &rest };
    match (
        Laid::of(&shown),
        Laid::of(&RearShown { parts: &RearParts::default(), rest: &at_rest(rear), ..shown }),
    ) {
        (Some(now), Some(before)) => drawn(&shown, &now, &before, view),
        _ => Scene::message("The rear draws itself once its leaf spring and its stand are measured.", view),
    }
}

/// What is thought of an answer, in a sentence with its value in words; `None` where it is fine.
#[must_use]
pub fn rear_verdict(told: &RearTold, value: &str) -> Option<String> {
    let [is, so] = if told.answer.sort() == Sort::Words { [": ", ", "] } else { [" ", ": "] };
    Some([told.answer.label(), is, value, so, told.verdict?, "."].concat())
}

fn at_rest(rear: &RearAxle) -> RearRest {
    RearRest::laid(rear, &RearParts::default(), 0.0).unwrap_or(RearRest::AS_MEASURED)
}

/// The rear as it lies in the picture: from the axle's middle, on the ground.
struct Laid {
    leaf: Leaf,
    pose: LeafPose,
    seat_mm: f64,
    axle: (f64, f64),
    radius_mm: f64,
    /// − where the shackle is at the front, which is at the picture's left.
    way: f64,
    /// The frame's bottom over the axle, in the frame's axes.
    rail_mm: f64,
    depth_mm: f64,
}

impl Laid {
    fn of(shown: &RearShown<'_>) -> Option<Self> {
        let RearShown { rear, parts, rest } = shown;
        let (leaf, curvature) = Leaf::measured(rear).ok()?;
        let seat = rear.get(RearField::Seat)?;
        let measured = leaf.pose(curvature)?.axle(seat);
        let seat_mm = parts.seat_mm(seat);
        let pose = rest.spring?;
        let hung = leaf.hung(parts)?;
        let above = rear.get(RearField::TubeGap).unwrap_or(1.5 * TUBE_MM);
        Some(Self {
            leaf: hung,
            pose,
            seat_mm,
            axle: pose.axle(seat_mm),
            radius_mm: parts.wheel_radius_mm.or(rear.get(RearField::WheelRadius))?,
            way: if rear.shackle_is_ahead() { -1.0 } else { 1.0 },
            rail_mm: measured.1 + TUBE_MM + above,
            depth_mm: rear.get(RearField::RailDepth).unwrap_or(RAIL_MM),
        })
    }

    fn at(&self, (x, z): (f64, f64)) -> Vec2 {
        Vec2(self.way * (x - self.axle.0), z - self.axle.1 + self.radius_mm)
    }

    fn centre(&self) -> Vec2 {
        Vec2(0.0, self.radius_mm)
    }

    /// The main leaf from the fixed eye, so far below itself.
    fn leaf_from(&self, from: f64, to: f64, below_mm: f64) -> Vec<Vec2> {
        const STEPS: u32 = 20;
        let LeafPose { curvature, rise_rad, .. } = self.pose;
        let start = rise_rad - curvature * self.leaf.to_bolt_mm;
        let mut point = self.leaf.fixed;
        let (mut all, mut along) = (Vec::new(), 0.0);
        let step = self.leaf.length_mm / f64::from(STEPS);
        for _ in 0..=STEPS {
            let tangent = start + curvature * along;
            let share = along / self.leaf.length_mm;
            if (from - 1e-9..=to + 1e-9).contains(&share) {
                let below =
                    (point.0 + below_mm * libm::sin(tangent), point.1 - below_mm * libm::cos(tangent));
                all.push(self.at(below));
            }
            // An arc's chord points along its middle.
            let middle = tangent + curvature * step / 2.0;
            point = (point.0 + step * libm::cos(middle), point.1 + step * libm::sin(middle));
            along += step;
        }
        all
    }

    /// The rail's outline, notched over the axle.
    fn rail(&self, notch_mm: f64) -> Vec<Vec2> {
        let ends = [self.leaf.fixed.0 - BEYOND_MM, self.leaf.hanger.0 + BEYOND_MM];
        let (low, high) = (self.rail_mm, self.rail_mm + self.depth_mm);
        let mut all = vec![(ends[0], high), (ends[0], low)];
        if notch_mm > 0.0 {
            let (half, up) = (TUBE_MM + 45.0, low + notch_mm.min(self.depth_mm));
            let middle = self.axle.0;
            all.extend([
                (middle - half, low),
                (middle - half + 18.0, up),
                (middle + half - 18.0, up),
                (middle + half, low),
            ]);
        }
        all.extend([(ends[1], low), (ends[1], high)]);
        all.into_iter().map(|point| self.at(point)).collect()
    }

    fn frame(&self, board: &mut Board, notch_mm: f64) {
        let bottom = |x: f64| self.at((x, self.rail_mm));
        for bolt in [self.leaf.fixed, self.leaf.hanger] {
            let wide = if bolt.1 < self.rail_mm { 13.0 } else { 9.0 };
            board.taper(Ink::Frame, bottom(bolt.0), 20.0, self.at(bolt), wide);
        }
        let rail: Vec<_> = self.rail(notch_mm).into_iter().map(|corner| (corner, 3.0)).collect();
        board.rounded(Ink::Section, &rail);
    }
}

fn drawn(shown: &RearShown<'_>, now: &Laid, before: &Laid, view: &View) -> Scene {
    let RearShown { rear, parts, rest } = *shown;
    let top =
        now.at((0.0, now.rail_mm + now.depth_mm)).1.max(before.at((0.0, before.rail_mm + before.depth_mm)).1);
    let [left, right] = [now.leaf.fixed.0 - BEYOND_MM - 20.0, now.leaf.hanger.0 + BEYOND_MM + 20.0]
        .map(|x| now.at((x, 0.0)).0);
    let transform = fit_box(Vec2(left.min(right), 0.0), Vec2(left.max(right), top + 30.0), 0.5, 22.0, view);
    let mut board = Board::new(transform);
    ground(&mut board, view.width_px);
    let centre = now.centre();
    board.circle(Ink::Tire, centre, now.radius_mm);
    board.circle(Ink::Barrel, centre, 0.56 * now.radius_mm);
    let is_changed = parts != &RearParts::default();
    if is_changed {
        board.ghost = true;
        before.frame(&mut board, 0.0);
        board.ghost = false;
        board.lines(Ink::Before, &before.leaf_from(0.0, 1.0, 0.0));
        board.lines(Ink::Before, &[before.at(before.leaf.hanger), before.at(before.pose.eye)]);
    }
    shaft(&mut board, rear, rest, centre);
    now.frame(&mut board, parts.notch_mm);
    stop(&mut board, shown, now);
    spring(&mut board, now, parts);
    let mut scene = Scene::empty(view);
    "The rear from the side".clone_into(&mut scene.title);
    scene.transform = board.transform;
    let mut layout = Layout::new(view.width_px, view.height_px, Vec::new());
    layout.mark(&board.shapes);
    let mut marks = Vec::new();
    numbers(shown, (now, before), &board, (&mut layout, &mut marks), view);
    scene.description = spoken(&layout);
    scene.shapes = board.shapes;
    scene.parts.push(scene.shapes.len());
    let mut notes = layout.leaders;
    notes.append(&mut marks);
    gather(&mut scene.shapes, notes);
    scene.labels = layout.labels;
    scene.overflow = layout.overflow;
    scene
}

fn spoken(layout: &Layout) -> String {
    let said: Vec<_> = layout.labels.iter().map(|label| label.spoken.as_str()).collect();
    said.join("; ")
}

/// Pinion and shaft, ahead of the axle.
fn shaft(board: &mut Board, rear: &RearAxle, rest: &RearRest, centre: Vec2) {
    let Ok(measured) = Shaft::measured(rear) else { return };
    let pinion_mm = rear.get(RearField::PinionLength).unwrap_or(200.0);
    let moved = measured.moved(rest, pinion_mm);
    let (cos, sine) = (libm::cos(moved.pinion_rad), libm::sin(moved.pinion_rad));
    let joint = Vec2(centre.0 - pinion_mm * cos, centre.1 + pinion_mm * sine);
    let [back, _, down] = moved.run_mm;
    let front = Vec2(joint.0 - back, joint.1 + down);
    board.taper(Ink::Rod, front, 30.0, joint, 30.0);
    board.taper(Ink::Forging, centre, 62.0, joint, 34.0);
    board.circle(Ink::Joint, joint, 20.0);
}

/// The bump stop under the rail.
fn stop(board: &mut Board, shown: &RearShown<'_>, now: &Laid) {
    let (Some(gap), Some(tube)) = (shown.rear.get(RearField::StopGap), shown.rear.get(RearField::TubeGap))
    else {
        return;
    };
    let high = now.rail_mm;
    let low = high - (tube - gap) + shown.parts.stop_lower_mm;
    if low < high {
        let corners = [(-26.0, high), (26.0, high), (20.0, low), (-20.0, low)];
        let corners = corners.map(|(x, z)| (now.at((now.axle.0 + x, z)), 5.0));
        board.rounded(Ink::Rubber, &corners);
    }
}

/// Spring, shackle, axle, and what is between.
fn spring(board: &mut Board, now: &Laid, parts: &RearParts) {
    let centre = now.centre();
    let bolt = now.at(now.pose.bolt);
    let way = (bolt - centre).unit();
    let across = Vec2(-way.1, way.0) * 30.0;
    // From the tube's pad to the leaf: the pad, and the block beside the leaf where there is one.
    let seated = |from: f64, to: f64| {
        let (near, far) = (centre + way * from, centre + way * to);
        [near + across, far + across, far - across, near - across].map(|corner| (corner, 2.0))
    };
    let reach = now.seat_mm.abs();
    let block = parts.block_mm.clamp(0.0, (reach - TUBE_MM).max(0.0));
    board.rounded(Ink::Steel, &seated(0.5 * TUBE_MM, reach - block));
    if block > 0.0 {
        board.rounded(Ink::AccentTint, &seated(reach - block, reach));
    }
    let under = if now.pose.curvature >= 0.0 { 1.0 } else { -1.0 };
    board.lines(Ink::SheetMetal, &now.leaf_from(0.0, 1.0, 0.0));
    let thick = board.least(9.0, 4.0);
    board.lines(Ink::SheetMetal, &now.leaf_from(0.15, 0.8, under * thick));
    board.lines(Ink::SheetMetal, &now.leaf_from(0.3, 0.65, 2.0 * under * thick));
    let (hanger, eye) = (now.at(now.leaf.hanger), now.at(now.pose.eye));
    let ink = if parts.shackle_longer_mm == 0.0 { Ink::Rod } else { Ink::AccentTint };
    board.taper(ink, hanger, 15.0, eye, 15.0);
    for at in [hanger, eye, now.at(now.leaf.fixed)] {
        board.circle(Ink::Joint, at, board.least(9.0, 3.5));
    }
    board.circle(Ink::Forging, centre, TUBE_MM);
    let trace = Trace::disc(centre, board.least(7.0, 2.5));
    board.draw(Ink::Solid, &trace);
}

/// What is written: how far down, what is left to the stop, the shackle and the pinion.
fn numbers(
    shown: &RearShown<'_>,
    (now, before): (&Laid, &Laid),
    board: &Board,
    (layout, marks): (&mut Layout, &mut Vec<crate::scene::Shape>),
    view: &View,
) {
    let RearShown { rear, parts, rest } = *shown;
    let size = view.type_px.max(View::LEAST_TYPE_PX);
    let units = view.units;
    if rest.down_mm.abs() > 0.05 {
        let x = now.leaf.hanger.0 + 0.6 * BEYOND_MM;
        let ends =
            [before.at((x, before.rail_mm + before.depth_mm)), now.at((x, now.rail_mm + now.depth_mm))]
                .map(|end| board.px(end));
        let name = if rest.down_mm > 0.0 { "down " } else { "up " };
        let ask = Ask::new(text::phrase(name, rest.down_mm.abs(), "", units), Ink::TextAccent, size, ends[1]);
        dimension(layout, marks, ends, ask, Some(text::length(rest.down_mm.abs(), units)));
    }
    if let (Some(gap), Some(_)) = (rear.get(RearField::StopGap), rear.get(RearField::TubeGap)) {
        let left = gap - rest.axle_up_mm + parts.stop_lower_mm;
        let low = now.centre() + Vec2(0.0, TUBE_MM);
        let ends = [low, low + Vec2(0.0, left.max(0.0))].map(|end| board.px(end));
        let ink = if left > 0.0 { Ink::TextDimension } else { Ink::TextContact };
        let ask = Ask::new(text::phrase("to the stop ", left, "", units), ink, size, ends[1]);
        dimension(layout, marks, ends, ask, Some(text::length(left, units)));
    }
    let mut tag = |words: String, at: Vec2, by: [(f64, f64); 3]| {
        let at = board.px(at);
        let mut ask = Ask::new(text::words(&words), Ink::TextInk, size, at);
        let (width, _) = ask.size();
        ask.spots =
            by.map(|(right, down)| (at.0 + right * (0.5 * width + 8.0), at.1 + down * 1.4 * size)).to_vec();
        ask.led = true;
        let _ = layout.place(ask);
    };
    let shackle = "shackle ".to_owned() + &print_angle(now.pose.shackle_rad, 0);
    tag(shackle, now.at(now.pose.eye), [(0.0, 1.6), (-1.0, 1.0), (1.0, 1.0)]);
    if let Ok(measured) = Shaft::measured(rear) {
        let joints = measured.moved(rest, rear.get(RearField::PinionLength).unwrap_or(200.0)).joints();
        let words = "rear joint ".to_owned() + &print_angle(joints.rear_rad, 1);
        let pinion = now.centre() + Vec2(-rear.get(RearField::PinionLength).unwrap_or(200.0), 0.0);
        tag(words, pinion, [(0.0, 1.8), (-1.0, 1.2), (0.0, 2.6)]);
    }
}
