//! A proposal's changes laid over the truck as measured.

mod joints;
mod rear;
mod springs;

pub use rear::RearParts;

use crate::change::{
    ArmSwap, Change, ChangeField, ChangeKind, ChangeSources, DroppedSpindle, KnuckleSwap, MovedPivot, Place,
    ShockChange, StopTrim, TieRodChange, TireSwap,
};
use crate::one_side::OneSide;
use crate::remark::Remark;
use crate::side::Side;
use crate::source::Source;
use crate::spring::{Arm, Spring};
use crate::tire::Tire;
use crate::truck::{Brake, Shock, Stops, Truck, Wheel};
use linkage::{ArmShape, BuildError, Corner, Hardpoints, Members, Mounts, Vector3};

/// What a proposal lays over the truck: the changes, and what it says beside them.
///
/// Changes alone are one that is the same on both sides and says nothing of the rear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overlay<'a> {
    /// The changes on both sides, in any order.
    pub changes: &'a [Change],
    /// Those of one side alone, in any order; they stand before one on both in the same slot.
    pub own: &'a [(Side, Change)],
    /// How far the rear comes down, mm, + down; `None` where that is not stated.
    pub rear_down_mm: Option<f64>,
    /// Where the numbers of the changes came from.
    pub sources: &'a ChangeSources,
}

impl Overlay<'_> {
    /// Nothing changed, nothing said.
    pub const NOTHING: Self =
        Self { changes: &[], own: &[], rear_down_mm: None, sources: &ChangeSources::TYPED };

    /// Whether it leaves the truck as it is, and says nothing of the rear.
    #[must_use]
    pub const fn is_nothing(&self) -> bool {
        self.changes.is_empty() && self.is_for_both() && self.rear_down_mm.is_none()
    }

    /// Whether it lays the same over both sides.
    #[must_use]
    pub const fn is_for_both(&self) -> bool {
        self.own.is_empty()
    }

    /// The numbers of its changes that are guesses and that an answer can hang on, of either side.
    #[must_use]
    pub fn guessed(&self) -> Vec<ChangeField> {
        let here = |(kind, place, at): ChangeField| {
            let counts = |change: &Change| change.slot() == (kind, place) && change.counts(at);
            self.changes.iter().any(counts) || self.own.iter().any(|(_, change)| counts(change))
        };
        let guesses = self.sources.exceptions().filter(|(_, source)| *source == Source::Assumed);
        guesses.map(|(field, _)| field).filter(|field| here(*field)).collect()
    }

    /// All its changes, each with the side that it is on alone, `None` on both: those on both sides first.
    #[must_use]
    pub fn every(&self) -> Vec<(Option<Side>, Change)> {
        let mut all: Vec<_> = self.changes.iter().map(|change| (None, *change)).collect();
        all.extend(self.own.iter().map(|(side, change)| (Some(*side), *change)));
        all
    }

    /// What it lays over one side: what is on both, then what is its own.
    #[must_use]
    pub fn on(&self, side: Side) -> Vec<Change> {
        let mut all = self.changes.to_vec();
        all.extend(self.own.iter().filter(|(of, _)| *of == side).map(|(_, change)| *change));
        all
    }
}

impl<'a> From<&'a [Change]> for Overlay<'a> {
    fn from(changes: &'a [Change]) -> Self {
        Self { changes, ..Overlay::NOTHING }
    }
}

impl<'a> From<&'a Vec<Change>> for Overlay<'a> {
    fn from(changes: &'a Vec<Change>) -> Self {
        Self::from(changes.as_slice())
    }
}

impl<'a, const COUNT: usize> From<&'a [Change; COUNT]> for Overlay<'a> {
    fn from(changes: &'a [Change; COUNT]) -> Self {
        Self::from(changes.as_slice())
    }
}

/// A truck with a proposal's parts on it: what every study reads.
///
/// With no changes it is the truck as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The side of the truck as measured, whose height and load give the spring its free state.
    pub measured: OneSide,
    /// The points in the measured pose, with the new knuckle's own in place of the old.
    pub points: Hardpoints,
    /// How much longer the knuckle is from ball to ball than the measured one, mm.
    pub balls_mm: f64,
    /// Where the members are hung.
    pub mounts: Mounts,
    /// Where the lower ball sits on its arm against as measured.
    pub lower_ball: BallShift,
    /// Where the upper ball sits on its arm against as measured.
    pub upper_ball: BallShift,
    /// How much longer the strut rod is, mm.
    pub rod_longer_mm: f64,
    /// Where the strut rod brings the lower ball, against its own arm.
    pub rod_ball: BallShift,
    /// How much longer the tie rod is than the one that gives the measured toe, mm.
    pub tie_longer_mm: f64,
    /// Load of the corner at the ground, N.
    pub corner_n: f64,
    /// Wheel centre to ground in the wheel's plane, mm.
    pub loaded_radius_mm: f64,
    /// What ends the travel.
    pub stops: Stops,
    /// The spring's numbers.
    pub spring: Spring,
    /// How far the bar's anchor is turned against as measured, + raises, rad.
    pub anchor_turn_rad: f64,
    /// Turns of the anchor's bolt against as measured, + in.
    pub bolt_turns: f64,
    /// Free length of the coil before any cut, mm, where it is another one and known.
    pub coil_free_mm: Option<f64>,
    /// Coils cut off the spring.
    pub coils_cut: f64,
    /// Spacer on the coil's seat, + raises, mm.
    pub spacer_mm: f64,
    /// Shock.
    pub shock: Shock,
    /// Tire.
    pub tire: Tire,
    /// Wheel.
    pub wheel: Wheel,
    /// Brake.
    pub brake: Brake,
    /// What is laid over the rear, which is both sides' alike, in the order of the work: [`RearParts::of`].
    pub rear: Vec<Change>,
    /// What is to be said of the changes.
    pub remarks: Vec<Remark>,
    /// Numbers of the changes that nobody measured or read off a part.
    pub guessed: Vec<ChangeField>,
}

/// Where a ball sits on its arm against as measured, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BallShift {
    /// Farther forward along the pivot axis.
    pub forward_mm: f64,
    /// Farther from the pivot axis, along the measured arm.
    pub longer_mm: f64,
    /// Higher, square to both.
    pub higher_mm: f64,
    /// From one side of its arm's plate to the other, + up: as far over the
    /// plate's middle as it was under it, so that it keeps its radius.
    pub turned_mm: f64,
}

impl BallShift {
    /// The arm with its ball there, and how far the line to its ball is turned up against its plate, rad.
    fn shape(&self, measured: ArmShape) -> (ArmShape, f64) {
        // An arm shortened away is still an arm, for a pose to say that it does not reach.
        let out_mm = (measured.radius_mm + self.longer_mm).max(Corner::SHORTEST_MM);
        let radius_mm =
            if self.higher_mm == 0.0 { out_mm } else { linkage::axes::hypotenuse(out_mm, self.higher_mm) };
        let half = (self.turned_mm / 2.0 / radius_mm).clamp(-1.0, 1.0);
        let turn_rad = libm::atan2(self.higher_mm, out_mm) + 2.0 * linkage::angle::asin(half);
        (ArmShape { along_mm: measured.along_mm + self.forward_mm, radius_mm }, turn_rad)
    }

    /// Both shifts together.
    fn and(&self, other: &Self) -> Self {
        Self {
            forward_mm: self.forward_mm + other.forward_mm,
            longer_mm: self.longer_mm + other.longer_mm,
            higher_mm: self.higher_mm + other.higher_mm,
            turned_mm: self.turned_mm + other.turned_mm,
        }
    }
}

impl Fitted {
    /// One side of a truck as measured, with nothing changed; of a truck its left.
    #[must_use]
    pub fn as_measured(side: impl Into<OneSide>) -> Self {
        Self::unchanged(side.into())
    }

    fn unchanged(truck: OneSide) -> Self {
        Self {
            points: truck.points,
            balls_mm: 0.0,
            mounts: truck.points.mounts(),
            lower_ball: BallShift::default(),
            upper_ball: BallShift::default(),
            rod_longer_mm: 0.0,
            rod_ball: BallShift::default(),
            tie_longer_mm: 0.0,
            corner_n: truck.load.corner_n,
            loaded_radius_mm: truck.loaded_radius_mm(),
            stops: truck.stops,
            spring: truck.spring,
            anchor_turn_rad: 0.0,
            bolt_turns: 0.0,
            coil_free_mm: None,
            coils_cut: 0.0,
            spacer_mm: 0.0,
            shock: truck.shock,
            tire: truck.tire,
            wheel: truck.wheel,
            brake: truck.brake,
            rear: Vec::new(),
            remarks: Vec::new(),
            guessed: Vec::new(),
            measured: truck,
        }
    }

    /// Both sides of a truck with a proposal's parts on, the left one first; sides that are
    /// alike are fitted once.
    ///
    /// # Errors
    /// As [`fit`].
    pub fn both(truck: &Truck, overlay: Overlay<'_>) -> Result<[Self; 2], FitError> {
        let left = fit(truck.on(Side::Left), overlay)?;
        let right = if truck.right.is_empty() && overlay.is_for_both() {
            left.mirrored()
        } else {
            fit(truck.on(Side::Right), overlay)?
        };
        Ok([left, right])
    }

    /// The other side of a truck whose sides are alike.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self { measured: self.measured.mirrored(), ..self.clone() }
    }

    /// The members of the corner: every length that a pose keeps.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one.
    pub fn members(&self) -> Result<Members, BuildError> {
        let mut members = self.points.members()?;
        let spacing_mm = &mut members.knuckle.spacing_mm;
        *spacing_mm = (*spacing_mm + self.balls_mm).max(Corner::SHORTEST_MM);
        Ok(Members {
            lower: self.lower_ball.and(&self.rod_ball).shape(members.lower).0,
            upper: self.upper_ball.shape(members.upper).0,
            tie_rod_mm: (members.tie_rod_mm + self.tie_longer_mm).max(Corner::SHORTEST_MM),
            ..members
        })
    }

    /// How far the line from an arm's axis to its ball is turned against the
    /// measured arm's, seen from the arm's plate, + up, rad.
    ///
    /// Spring, stop and shock belong to the plate: where the ball moved, the
    /// plate stands as it did when the line stands this much higher.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one.
    pub fn ball_turn_rad(&self, arm: Arm) -> Result<f64, BuildError> {
        let members = self.points.members()?;
        Ok(match arm {
            Arm::Lower => self.lower_ball.and(&self.rod_ball).shape(members.lower).1,
            Arm::Upper => self.upper_ball.shape(members.upper).1,
        })
    }

    /// The corner as geometry.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one.
    pub fn corner(&self) -> Result<Corner, BuildError> {
        Corner::on(&self.points, self.members()?, &self.mounts, self.loaded_radius_mm)
    }

    /// The corner as measured, before any change.
    ///
    /// # Errors
    /// As [`Fitted::corner`].
    pub fn measured_corner(&self) -> Result<Corner, BuildError> {
        Corner::of(&self.measured.points, self.measured.loaded_radius_mm())
    }

    /// The same truck with one change more laid over it, as by a wrench.
    ///
    /// Only for changes that add to each other whatever came before: shims, rods, spacers.
    #[must_use]
    pub fn with(&self, change: &Change) -> Self {
        let mut fitted = self.clone();
        lay(&mut fitted, change);
        fitted
    }

    fn ball_mut(&mut self, arm: Arm) -> &mut BallShift {
        match arm {
            Arm::Lower => &mut self.lower_ball,
            Arm::Upper => &mut self.upper_ball,
        }
    }
}

/// Why a truck cannot be fitted at all.
pub type FitError = BuildError;

/// Lays a proposal, or changes alone, over one side of a truck; over a truck's left where no
/// side is named. What the other side has alone does nothing here.
///
/// The order of the list does not matter: the work goes by the order of
/// [`ChangeKind::ALL`] and, within a kind, of [`Place::ALL`]. Of two changes in
/// one slot the last stands. What the proposal says of the rear is of the truck, and of
/// neither of its front corners.
///
/// # Errors
/// [`FitError`] names the member of the corner whose points cannot be one.
pub fn fit<'a>(side: impl Into<OneSide>, overlay: impl Into<Overlay<'a>>) -> Result<Fitted, FitError> {
    laid(side.into(), overlay.into())
}

fn laid(side: OneSide, overlay: Overlay<'_>) -> Result<Fitted, FitError> {
    side.points.members()?;
    let mut fitted = Fitted::unchanged(side);
    let changes = overlay.on(fitted.measured.side());
    // Of either side, so that a guess has the same place in the list at both.
    fitted.guessed = overlay.guessed();
    for kind in ChangeKind::ALL {
        let places = kind.places().iter().copied().map(Some);
        let slots = places.chain(kind.places().is_empty().then_some(None));
        for change in slots.filter_map(|place| changes.iter().rfind(|change| change.slot() == (kind, place)))
        {
            lay(&mut fitted, change);
        }
    }
    fitted.members()?;
    Ok(fitted)
}

fn lay(fitted: &mut Fitted, change: &Change) {
    match change {
        Change::DroppedSpindle(change) => dropped_spindle(fitted, change),
        Change::KnuckleSwap(change) => knuckle_swap(fitted, change),
        Change::MovedPivot(change) => moved_pivot(fitted, change),
        Change::ArmSwap(change) => arm_swap(fitted, change),
        Change::JointTurned(change) => joints::turned(fitted, change),
        Change::Shims(change) => joints::shims(fitted, change),
        Change::StrutRod(change) => joints::strut_rod(fitted, change),
        Change::TieRod(change) => tie_rod(fitted, change),
        Change::BarSwap(change) => springs::bar_swap(fitted, change),
        Change::AnchorSwap(change) => springs::anchor_swap(fitted, change),
        Change::BarReindex(change) => springs::bar_reindex(fitted, change),
        Change::BarAdjuster(change) => springs::bar_adjuster(fitted, change),
        Change::CoilSwap(change) => springs::coil_swap(fitted, change),
        Change::CutCoil(change) => springs::cut_coil(fitted, change),
        Change::SeatSpacer(change) => springs::seat_spacer(fitted, change),
        Change::StopTrim(change) => stop_trim(fitted, change),
        Change::Shock(change) => shock(fitted, change),
        Change::TireSwap(change) => tire_swap(fitted, change),
        Change::Brake(change) => brake(fitted, change),
        _ => fitted.rear.push(*change),
    }
}

/// The pin rises along the body's vertical in the measured straight-ahead pose,
/// so at unchanged load and loaded radius the body comes down by just that.
fn dropped_spindle(fitted: &mut Fitted, change: &DroppedSpindle) {
    fitted.points.wheel_centre.z += change.drop_mm;
    fitted.points.wheel_centre.y += change.out_mm;
    fitted.points.tie_outer += change.tie_outer_mm;
    // The rod is screwed to the length that keeps the measured toe.
}

/// The new knuckle stands between the balls as the old one did; what it differs in is then turned about
/// the lower ball, so that the line of its balls lies in that of the old one's.
fn knuckle_swap(fitted: &mut Fitted, change: &KnuckleSwap) {
    let points = &mut fitted.points;
    let moved_pin_mm = Vector3::new(change.forward_mm, change.out_mm, change.pin_mm);
    let (sin, cos) = linkage::angle::sincos(change.angle_rad);
    for (point, by_mm) in
        [(&mut points.wheel_centre, moved_pin_mm), (&mut points.tie_outer, change.tie_outer_mm)]
    {
        *point += by_mm;
        let from_ball = *point - points.lower.ball;
        // Its outer end goes down where the top of the wheel leans out.
        point.y += from_ball.y * (cos - 1.0) + from_ball.z * sin;
        point.z += from_ball.z * (cos - 1.0) - from_ball.y * sin;
    }
    points.camber_rad += change.angle_rad;
    fitted.balls_mm += change.balls_mm;
}

fn moved_pivot(fitted: &mut Fitted, change: &MovedPivot) {
    let mounts = &mut fitted.mounts;
    let by_mm = change.by_mm;
    match change.place {
        Place::LowerArm => {
            mounts.lower.front += by_mm;
            mounts.lower.rear += by_mm;
        }
        Place::UpperArm => {
            mounts.upper.front += by_mm;
            mounts.upper.rear += by_mm;
        }
        Place::LowerFront => mounts.lower.front += by_mm,
        Place::LowerRear => mounts.lower.rear += by_mm,
        Place::UpperFront => mounts.upper.front += by_mm,
        Place::UpperRear => mounts.upper.rear += by_mm,
        // No pivots.
        Place::LowerJointUp | Place::LowerJointDown | Place::UpperJointUp | Place::UpperJointDown => {}
    }
    joints::rod(fitted);
}

/// Pivots that are by more than this farther apart or closer than their brackets do not bolt on, mm.
const SPACING_MM: f64 = 1.5;

fn arm_swap(fitted: &mut Fitted, change: &ArmSwap) {
    let arm = if change.place == Place::UpperArm { Arm::Upper } else { Arm::Lower };
    let ball = fitted.ball_mut(arm);
    ball.longer_mm += change.longer_mm;
    ball.higher_mm += change.higher_mm;
    ball.forward_mm += change.forward_mm;
    match arm {
        Arm::Lower => fitted.stops.bump_gap_mm += change.stop_mm,
        Arm::Upper if change.stop_mm != 0.0 => fitted.remarks.push(Remark::StopElsewhere),
        Arm::Upper => {}
    }
    let points = &fitted.measured.points;
    let old = if arm == Arm::Upper { &points.upper } else { &points.lower };
    if let Some(spacing_mm) = change.spacing_mm {
        let wider_mm = spacing_mm - linkage::axes::length(&(old.front - old.rear));
        if wider_mm.abs() > SPACING_MM {
            fitted.remarks.push(Remark::OtherSpacing { wider_mm });
        }
    }
}

fn tie_rod(fitted: &mut Fitted, change: &TieRodChange) {
    fitted.tie_longer_mm += change.longer_mm;
    fitted.mounts.tie_inner += change.inner_mm;
}

fn stop_trim(fitted: &mut Fitted, change: &StopTrim) {
    fitted.stops.bump_gap_mm += change.lower_mm;
    fitted.stops.bump_squash_mm = (fitted.stops.bump_squash_mm - change.less_squash_mm).max(0.0);
}

fn shock(fitted: &mut Fitted, change: &ShockChange) {
    let shock = &mut fitted.shock;
    shock.short_mm = change.short_mm.or(shock.short_mm);
    shock.long_mm = change.long_mm.or(shock.long_mm);
    let moved = |old: Option<f64>, by: f64| old.map(|old| old + by);
    shock.body.x = moved(shock.body.x, change.body_mm.x);
    shock.body.y = moved(shock.body.y, change.body_mm.y);
    shock.body.z = moved(shock.body.z, change.body_mm.z);
}

fn tire_swap(fitted: &mut Fitted, change: &TireSwap) {
    let before = fitted.tire.size.diameter_mm();
    // A wheel with less offset stands farther out along the spin axis.
    let out_mm = fitted.wheel.offset_mm - change.offset_mm;
    let spin = linkage::axes::spin_axis(fitted.points.camber_rad, fitted.points.toe_rad);
    fitted.points.wheel_centre += spin * out_mm;
    let grown = (change.size.diameter_mm() - before) / 2.0;
    fitted.loaded_radius_mm = change.loaded_radius_mm.unwrap_or(fitted.loaded_radius_mm + grown).max(50.0);
    if change.size != fitted.tire.size {
        // What was measured was the old tire; another wheel under the same one leaves it true.
        fitted.tire.measured_diameter_mm = None;
    }
    // Another rim has another barrel.
    let same_rim = change.size.rim_code.to_bits() == fitted.tire.size.rim_code.to_bits();
    let barrel_mm = change.barrel_mm.or(if same_rim { fitted.wheel.barrel_mm } else { None });
    fitted.tire.size = change.size;
    fitted.wheel = Wheel { rim_width_mm: change.rim_width_mm, offset_mm: change.offset_mm, barrel_mm };
}

fn brake(fitted: &mut Fitted, change: &Brake) {
    let brake = &mut fitted.brake;
    brake.caliper_radius_mm = change.caliper_radius_mm.or(brake.caliper_radius_mm);
    brake.caliper_in_mm = change.caliper_in_mm.or(brake.caliper_in_mm);
    brake.caliper_out_mm = change.caliper_out_mm.or(brake.caliper_out_mm);
    brake.rotor_diameter_mm = change.rotor_diameter_mm.or(brake.rotor_diameter_mm);
    brake.rotor_thickness_mm = change.rotor_thickness_mm.or(brake.rotor_thickness_mm);
}
