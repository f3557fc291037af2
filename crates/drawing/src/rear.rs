//! The rear from the side: axle, leaf springs, frame and drive shaft, in the axes of the truck's body.

use crate::aspect::Handle;
use crate::board::Board;
use crate::dimension::dimension;
use crate::geometry::{Trace, Vec2};
use crate::labelling::{Labelling, heard, mark_of};
use crate::labels::Ask;
use crate::palette::Ink;
use crate::projection::Projection;
use crate::text;
use linkage::Point3;
use measure::{print_angle, spoken_angle};
use study::{Leaf, LeafPose, RearRest, RearTold, Shaft, Sort};
use truck::{RearAxle, RearField, RearParts};

/// An axle tube is drawn so thick, mm: a light truck's, roughly. Its own thickness is in no answer.
const TUBE_MM: f64 = 38.0;
/// A rail that nobody has measured is drawn so high, mm.
const RAIL_MM: f64 = 110.0;
/// How far the frame is drawn beyond the spring, mm.
const BEYOND_MM: f64 = 130.0;

/// What is thought of an answer, in a sentence with its value in words; `None` where it is fine.
#[must_use]
pub fn rear_verdict(told: &RearTold, value: &str) -> Option<String> {
    let [is, so] = if told.answer.sort() == Sort::Words { [": ", ", "] } else { [" ", ": "] };
    Some([told.answer.label(), is, value, so, told.verdict?, "."].concat())
}

/// The rear as it is seen from the side: where its frame is against the body's, its wheel on the ground.
pub(crate) struct RearSeen<'a> {
    seen: &'a Projection<'a>,
    rear: &'a RearAxle,
    parts: RearParts,
    rest: RearRest,
    leaf: Leaf,
    pose: LeafPose,
    seat_mm: f64,
    /// The axle's centre in the leaf's axes.
    axle_mm: (f64, f64),
    /// The same in the body's, ahead and above.
    axle: (f64, f64),
    radius_mm: f64,
    /// − where the shackle is at the front, which is at the picture's left.
    way: f64,
    /// The frame's bottom over the axle, in the leaf's axes.
    rail_mm: f64,
    depth_mm: f64,
    /// How far all of it is lifted so that its wheel stands on the ground: in another pose of the front
    /// than at rest the body is.
    lift_mm: f64,
}

impl<'a> RearSeen<'a> {
    /// The rear of the truck that a projection is of, with parts on it, as it stands; `None` where what is
    /// drawn is not measured.
    pub(crate) fn of(seen: &'a Projection<'a>, parts: RearParts, rest: RearRest) -> Option<Self> {
        let rear = &seen.fitted.measured.rear;
        let (leaf, curvature) = Leaf::measured(rear).ok()?;
        let seat = rear.get(RearField::Seat)?;
        let measured = leaf.pose(curvature)?.axle(seat);
        let seat_mm = parts.seat_mm(seat);
        let pose = rest.spring?;
        let axle_mm = pose.axle(seat_mm);
        let way = if rear.shackle_is_ahead() { -1.0 } else { 1.0 };
        let above = rear.get(RearField::TubeGap).unwrap_or(1.5 * TUBE_MM);
        let radius_mm = rear.get(RearField::WheelRadius)?;
        let ahead = -seen.fitted.measured.body.wheelbase_mm - way * (axle_mm.0 - measured.0);
        let mut found = Self {
            seen,
            rear,
            leaf: leaf.hung(&parts)?,
            pose,
            seat_mm,
            axle_mm,
            axle: (ahead, radius_mm + axle_mm.1 - measured.1),
            radius_mm: parts.wheel_radius_mm.unwrap_or(radius_mm),
            way,
            rail_mm: measured.1 + TUBE_MM + above,
            depth_mm: rear.get(RearField::RailDepth).unwrap_or(RAIL_MM),
            lift_mm: 0.0,
            parts,
            rest,
        };
        found.lift_mm = found.radius_mm - found.centre().1;
        Some(found)
    }

    /// Where a point of the leaf's axes is seen.
    fn at(&self, (x, z): (f64, f64)) -> Vec2 {
        self.off_axle(self.way * (x - self.axle_mm.0), z - self.axle_mm.1)
    }

    /// Where a point is seen that is so far behind the axle and above it, along the frame.
    fn off_axle(&self, behind_mm: f64, above_mm: f64) -> Vec2 {
        let (ahead, up) = self.axle;
        self.seen.at(&Point3::new(ahead - behind_mm, 0.0, up + above_mm)) + Vec2(0.0, self.lift_mm)
    }

    fn centre(&self) -> Vec2 {
        self.off_axle(0.0, 0.0)
    }

    /// What is seen of it: from the lowest at its front to the highest at its end.
    pub(crate) fn extent(&self) -> [Vec2; 2] {
        let ends = [self.leaf.fixed.0 - BEYOND_MM, self.leaf.hanger.0 + BEYOND_MM];
        let [a, b] = ends.map(|x| self.at((x, self.rail_mm + self.depth_mm)));
        [Vec2(a.0.min(b.0), 0.0), Vec2(a.0.max(b.0), a.1.max(b.1))]
    }

    /// Where the frame over the axle is: its bottom.
    pub(crate) fn rail(&self) -> Vec2 {
        self.at((self.axle_mm.0, self.rail_mm))
    }

    /// How high the frame over the axle is above the ground, mm; `None` where it was not measured.
    pub(crate) fn frame_height_mm(&self) -> Option<f64> {
        Some(self.rear.get(RearField::FrameHeight)? - self.rest.down_mm)
    }

    pub(crate) const fn radius_mm(&self) -> f64 {
        self.radius_mm
    }

    /// Where a handle is.
    pub(crate) fn place(&self, handle: Handle) -> Option<Vec2> {
        Some(self.at(match handle {
            Handle::RearBlock => self.pose.bolt,
            Handle::RearShackle => self.pose.eye,
            Handle::RearHanger => self.leaf.hanger,
            Handle::RearStop => (self.axle_mm.0, self.stop_mm()?),
            _ => return None,
        }))
    }

    /// The bump stop's end, in the leaf's axes.
    fn stop_mm(&self) -> Option<f64> {
        let (gap, tube) = (self.rear.get(RearField::StopGap)?, self.rear.get(RearField::TubeGap)?);
        Some(self.rail_mm - (tube - gap) + self.parts.stop_lower_mm)
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
                let below = (
                    point.0 + below_mm * linkage::angle::sin(tangent),
                    point.1 - below_mm * linkage::angle::cos(tangent),
                );
                all.push(self.at(below));
            }
            // An arc's chord points along its middle.
            let middle = tangent + curvature * step / 2.0;
            point =
                (point.0 + step * linkage::angle::cos(middle), point.1 + step * linkage::angle::sin(middle));
            along += step;
        }
        all
    }

    /// The rail's outline, notched over the axle.
    fn outline(&self) -> Vec<Vec2> {
        let ends = [self.leaf.fixed.0 - BEYOND_MM, self.leaf.hanger.0 + BEYOND_MM];
        let (low, high) = (self.rail_mm, self.rail_mm + self.depth_mm);
        let mut all = vec![(ends[0], high), (ends[0], low)];
        let notch_mm = self.parts.notch_mm;
        if notch_mm > 0.0 {
            let (half, up) = (TUBE_MM + 45.0, low + notch_mm.min(self.depth_mm));
            let middle = self.axle_mm.0;
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

    /// Frame, hangers and the end of the rail of the front corner, which leads up to it.
    fn frame(&self, board: &mut Board) {
        let rail = &self.seen.fitted.measured.body.rail;
        let (low, high) = (self.rail_mm, self.rail_mm + self.depth_mm);
        let end = if self.way > 0.0 { self.leaf.fixed.0 - BEYOND_MM } else { self.leaf.hanger.0 + BEYOND_MM };
        let front = [0.0, rail.height_mm]
            .map(|up| self.seen.at(&Point3::new(rail.rear_x_mm, 0.0, rail.bottom_z_mm + up)));
        let corners = [front[0], self.at((end, low)), self.at((end, high)), front[1]];
        if corners[0].0 < corners[1].0 {
            board.rounded(Ink::Frame, &corners.map(|corner| (corner, 4.0)));
        }
        for bolt in [self.leaf.fixed, self.leaf.hanger] {
            let wide = if bolt.1 < low { 13.0 } else { 9.0 };
            board.taper(Ink::Frame, self.at((bolt.0, low)), 20.0, self.at(bolt), wide);
        }
        let outline: Vec<_> = self.outline().into_iter().map(|corner| (corner, 3.0)).collect();
        board.rounded(Ink::Section, &outline);
    }

    /// The frame and the spring as measured, under what they have become.
    pub(crate) fn ghost(&self, board: &mut Board) {
        board.ghost = true;
        self.frame(board);
        board.ghost = false;
        board.lines(Ink::Before, &self.leaf_from(0.0, 1.0, 0.0));
        board.lines(Ink::Before, &[self.leaf.hanger, self.pose.eye].map(|end| self.at(end)));
    }

    pub(crate) fn wheel(&self, board: &mut Board) {
        board.circle(Ink::Tire, self.centre(), self.radius_mm);
        board.circle(Ink::Barrel, self.centre(), 0.56 * self.radius_mm);
    }

    /// Everything but the wheel, from behind to front.
    pub(crate) fn body(&self, board: &mut Board) {
        self.shaft(board);
        self.frame(board);
        self.stop(board);
        self.spring(board);
    }

    /// Length of the pinion's housing, axle to joint, mm.
    fn pinion_mm(&self) -> f64 {
        self.rear.get(RearField::PinionLength).unwrap_or(200.0)
    }

    /// Pinion and shaft, ahead of the axle.
    fn shaft(&self, board: &mut Board) {
        let Ok(measured) = Shaft::measured(self.rear) else { return };
        let pinion_mm = self.pinion_mm();
        let moved = measured.moved(&self.rest, pinion_mm);
        let (sin, cos) = linkage::angle::sincos(moved.pinion_rad);
        let joint = (-pinion_mm * cos, pinion_mm * sin);
        let [back, _, down] = moved.run_mm;
        let front = self.off_axle(joint.0 - back, joint.1 + down);
        let joint = self.off_axle(joint.0, joint.1);
        board.taper(Ink::Rod, front, 30.0, joint, 30.0);
        board.taper(Ink::Forging, self.centre(), 62.0, joint, 34.0);
        board.circle(Ink::Joint, joint, 20.0);
    }

    /// The bump stop under the rail.
    fn stop(&self, board: &mut Board) {
        let high = self.rail_mm;
        let Some(low) = self.stop_mm().filter(|low| *low < high) else { return };
        let corners = [(-26.0, high), (26.0, high), (20.0, low), (-20.0, low)];
        board.rounded(Ink::Rubber, &corners.map(|(x, z)| (self.at((self.axle_mm.0 + x, z)), 5.0)));
    }

    /// Spring, shackle, axle, and what is between.
    fn spring(&self, board: &mut Board) {
        let centre = self.centre();
        let bolt = self.at(self.pose.bolt);
        let way = (bolt - centre).unit();
        let across = Vec2(-way.1, way.0) * 30.0;
        // From the tube's pad to the leaf: the pad, and the block beside the leaf where there is one.
        let seated = |from: f64, to: f64| {
            let (near, far) = (centre + way * from, centre + way * to);
            [near + across, far + across, far - across, near - across].map(|corner| (corner, 2.0))
        };
        let reach = self.seat_mm.abs();
        let block = self.parts.block_mm.clamp(0.0, (reach - TUBE_MM).max(0.0));
        board.rounded(Ink::Steel, &seated(0.5 * TUBE_MM, reach - block));
        if block > 0.0 {
            board.rounded(Ink::AccentTint, &seated(reach - block, reach));
        }
        let under = if self.pose.curvature >= 0.0 { 1.0 } else { -1.0 };
        board.lines(Ink::SheetMetal, &self.leaf_from(0.0, 1.0, 0.0));
        let thick = board.least(9.0, 4.0);
        board.lines(Ink::SheetMetal, &self.leaf_from(0.15, 0.8, under * thick));
        board.lines(Ink::SheetMetal, &self.leaf_from(0.3, 0.65, 2.0 * under * thick));
        let (hanger, eye) = (self.at(self.leaf.hanger), self.at(self.pose.eye));
        let ink = if self.parts.shackle_longer_mm == 0.0 { Ink::Rod } else { Ink::AccentTint };
        board.taper(ink, hanger, 15.0, eye, 15.0);
        for at in [hanger, eye, self.at(self.leaf.fixed)] {
            board.circle(Ink::Joint, at, board.least(9.0, 3.5));
        }
        board.circle(Ink::Forging, centre, TUBE_MM);
        let trace = Trace::disc(centre, board.least(7.0, 2.5));
        board.draw(Ink::Solid, &trace);
    }

    /// What stands before its numbers: where a number of its parts is a guess, rather one mark too many.
    pub(crate) fn mark(&self) -> &'static str {
        mark_of(self.seen.fitted.guessed.iter().any(|(kind, ..)| kind.is_rear()))
    }

    /// What is written: how far down, what there is to the stop, the shackle and the rear joint.
    pub(crate) fn measures(&self, before: &Self, board: &Board, labelling: &mut Labelling<'_>) {
        self.down(before, board, labelling);
        self.to_stop(board, labelling);
        let (mark, shackle_rad) = (self.mark(), self.pose.shackle_rad);
        let value = heard(mark, &spoken_angle(shackle_rad, 0));
        let said = labelling.say("Rear shackle to the line of its eyes,", &value);
        let words = ["shackle ", mark, &print_angle(shackle_rad, 0)].concat();
        let at = self.at(self.pose.eye);
        tag((words, said), at, [(0.0, 1.6), (-1.0, 1.0), (1.0, 1.0)], board, labelling);
        // A length that is drawn all the same is none that an angle may be told by.
        let Some((measured, pinion_mm)) =
            Shaft::measured(self.rear).ok().zip(self.rear.get(RearField::PinionLength))
        else {
            return;
        };
        let joint_rad = measured.moved(&self.rest, pinion_mm).joints().rear_rad;
        let value = heard(mark, &spoken_angle(joint_rad, 1));
        let said = labelling.say("Rear joint, true angle,", &value);
        let words = ["rear joint ", mark, &print_angle(joint_rad, 1)].concat();
        let at = self.off_axle(-pinion_mm, 0.0);
        tag((words, said), at, [(0.0, 1.8), (-1.0, 1.2), (0.0, 2.6)], board, labelling);
    }

    /// How far the frame has come down.
    fn down(&self, before: &Self, board: &Board, labelling: &mut Labelling<'_>) {
        let down_mm = self.rest.down_mm;
        if down_mm.abs() <= 0.05 {
            return;
        }
        let ends = [before, self].map(|of| board.px(of.at((of.axle_mm.0, of.rail_mm + of.depth_mm))));
        let [name, said] =
            if down_mm > 0.0 { ["down ", "Rear frame down"] } else { ["up ", "Rear frame up"] };
        self.gap([name, said], down_mm.abs(), Ink::TextAccent, ends, labelling);
    }

    fn to_stop(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let Some(stop_mm) = self.stop_mm() else { return };
        let gap_mm = stop_mm - self.axle_mm.1 - TUBE_MM;
        let ends = [0.0, gap_mm.max(0.0)].map(|up| board.px(self.off_axle(0.0, TUBE_MM + up)));
        let ink = if gap_mm > 0.0 { Ink::TextDimension } else { Ink::TextContact };
        self.gap(["to the stop ", "To the rear bump stop"], gap_mm, ink, ends, labelling);
    }

    /// A length between two points, by its name on paper and to the ear.
    fn gap(
        &self,
        [name, spoken]: [&str; 2],
        mm: f64,
        ink: Ink,
        ends: [(f64, f64); 2],
        labelling: &mut Labelling<'_>,
    ) {
        let (mark, units) = (self.mark(), labelling.view.units);
        let said = labelling.say(spoken, &heard(mark, &labelling.length(mm)));
        let runs = text::phrase(&(name.to_owned() + mark), mm, "", units);
        let ask = Ask::new(runs, ink, labelling.type_px(), ends[1]).spoken(said);
        let nameless = text::phrase(mark, mm, "", units);
        dimension(&mut labelling.layout, &mut labelling.shapes, ends, ask, Some(nameless));
    }
}

/// A few words beside a point, and what is heard of them; `by` is how far, in widths and lines.
fn tag(
    (words, said): (String, String),
    at: Vec2,
    by: [(f64, f64); 3],
    board: &Board,
    labelling: &mut Labelling<'_>,
) {
    let (at, size) = (board.px(at), labelling.type_px());
    let mut ask = Ask::new(text::words(&words), Ink::TextInk, size, at).spoken(said);
    let (width, _) = ask.size();
    ask.spots =
        by.map(|(right, down)| (at.0 + right * (0.5 * width + 8.0), at.1 + down * 1.4 * size)).to_vec();
    ask.led = true;
    labelling.layout.place(ask);
}
