//! How a corner stands: every height and angle at equilibrium.

use crate::spring_state::{SpringError, SpringState, load_moment};
use linkage::{Attitude, Axis, Corner, Member, Point3, Pose, Unreached, Vector3, root};
use std::f64::consts::FRAC_PI_2;
use std::sync::OnceLock;
use truck::{Arm, Fitted, Truck};

/// Standard gravity, mm/s².
const GRAVITY: f64 = 9806.65;
/// Step of the central difference that gives the wheel rate, rad.
const RATE_STEP_RAD: f64 = 1e-4;

/// What holds the corner up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeldBy {
    /// The spring alone.
    Spring,
    /// The spring, with the bump stop already squeezed; how much the stop
    /// carries is not known, so the true height is a little more.
    SpringAndStop,
    /// The bump stop, solid: the spring cannot carry the load.
    BumpStop,
    /// The droop stop: the spring is stronger than the load at full droop.
    DroopStop,
}

impl HeldBy {
    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Spring => "spring",
            Self::SpringAndStop => "spring and bump stop",
            Self::BumpStop => "bump stop, solid",
            Self::DroopStop => "droop stop",
        }
    }
}

/// One front corner of a fitted truck at rest. How the whole truck stands is its
/// [`Stance`](crate::Stance).
#[derive(Clone, Debug)]
pub struct Rest {
    /// The truck.
    pub fitted: Fitted,
    /// Its corner.
    pub corner: Corner,
    /// Its spring.
    pub spring_state: SpringState,
    /// The pose at rest.
    pub pose: Pose,
    /// What holds it up.
    pub held_by: HeldBy,
    /// The ground under the body, mm, body axes: how far the front has come
    /// down against as measured.
    pub ground_mm: f64,
    /// Arm angles of the stops.
    pub stops: StopAngles,
    /// Load at the ground for a millimetre of the body over the contact, N/mm,
    /// with the geometric term. A squeezed bump stop adds nothing to it.
    pub wheel_rate_n_per_mm: f64,
    /// Bar: torque, N·mm. Coil: force, N. Rate at the wheel: force, N.
    pub effort: f64,
    /// The same corner as measured, at rest, once it is asked for.
    pub(crate) as_it_sits: OnceLock<Option<Box<Self>>>,
}

/// Everything else is worked out from the fitted truck: where that is equal, so is all of it.
impl PartialEq for Rest {
    fn eq(&self, other: &Self) -> bool {
        self.fitted == other.fitted
    }
}

/// The lower arm's angles at the stops, rad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StopAngles {
    /// Full droop.
    pub droop_rad: f64,
    /// First touch of the bump stop.
    pub touch_rad: f64,
    /// The bump stop solid.
    pub solid_rad: f64,
}

/// Why a truck cannot stand.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NoRest {
    /// The measured truck is no corner, or stands at a dead centre.
    #[error("{0}")]
    Spring(#[from] SpringError),
    /// The parts do not close anywhere between the stops.
    #[error("the parts do not reach each other: {0}")]
    NeverCloses(Unreached),
    /// The lower arm points to the middle of the truck.
    #[error("the lower arm's pivots lie farther out than its ball")]
    PointsInboard,
    /// The stops lie outside what the arms can reach.
    #[error("nothing is left between the droop stop and the bump stop")]
    NoTravel,
    /// Spring and load balance where the truck was measured, but the least push
    /// carries it away: as it sinks the load's lever grows faster than the spring.
    #[error(
        "the spring is too soft to stand on: at a touch it sinks to {} or rises to {}",
        settled(*.sinks_to),
        settled(*.rises_to)
    )]
    Unstable {
        /// What stops it sinking.
        sinks_to: HeldBy,
        /// What stops it rising.
        rises_to: HeldBy,
    },
}

/// Where a truck comes to rest after it has left a balance that does not hold.
const fn settled(held_by: HeldBy) -> &'static str {
    match held_by {
        HeldBy::BumpStop => "the bump stop",
        HeldBy::DroopStop => "the droop stop",
        HeldBy::Spring | HeldBy::SpringAndStop => "its next balance",
    }
}

impl From<linkage::BuildError> for NoRest {
    fn from(error: linkage::BuildError) -> Self {
        Self::Spring(error.into())
    }
}

impl From<Unreached> for NoRest {
    fn from(error: Unreached) -> Self {
        Self::Spring(error.into())
    }
}

impl Rest {
    /// A corner at rest.
    ///
    /// # Errors
    /// [`NoRest`] says why it cannot stand.
    ///
    /// # Accuracy
    /// The arm's angle at balance is met within 1e-13 rad.
    ///
    /// ```
    /// use study::Rest;
    /// use truck::{Fitted, demo};
    ///
    /// // A spring that was measured under its load carries it where it was measured.
    /// let rest = Rest::of(Fitted::as_measured(&demo().truck))?;
    /// assert!(rest.ground_mm.abs() < 1e-9);
    /// # Ok::<(), study::NoRest>(())
    /// ```
    pub fn of(fitted: Fitted) -> Result<Self, NoRest> {
        let corner = fitted.corner()?;
        if corner.measured_angle_rad().abs() > FRAC_PI_2 {
            return Err(NoRest::PointsInboard);
        }
        if corner.range().is_empty() {
            let why = corner.pose(corner.measured_angle_rad(), Vector3::zeros()).err();
            return Err(why.map_or(NoRest::NoTravel, NoRest::NeverCloses));
        }
        let spring_state = SpringState::of(&fitted, &corner)?;
        let stops = StopAngles::of(&fitted, &corner)?;
        let surplus = |angle: f64| surplus_moment(&fitted, &corner, &spring_state, angle);
        let start = corner.measured_angle_rad() + fitted.ball_turn_rad(Arm::Lower)?;
        let (angle, held_by) = balance(surplus, start, &stops)?;
        let pose = corner.pose(angle, Vector3::zeros())?;
        let ground_mm = pose.contact(corner.loaded_radius_mm()).z;
        let effort = spring_state.at_pose(&corner, &pose)?.effort;
        let mut rest = Self {
            wheel_rate_n_per_mm: 0.0,
            fitted,
            corner,
            spring_state,
            pose,
            held_by,
            ground_mm,
            stops,
            effort,
            as_it_sits: OnceLock::new(),
        };
        rest.wheel_rate_n_per_mm = rest.wheel_rate()?;
        if held_by == HeldBy::Spring && rest.wheel_rate_n_per_mm <= 0.0 {
            // Near the wheel's dead centre the arm can balance and the ground's load not.
            let surplus = |angle: f64| surplus_moment(&rest.fitted, &rest.corner, &rest.spring_state, angle);
            let by = |sinks: bool| settle(surplus, angle, sinks, &stops).ok_or(NoRest::NoTravel);
            return Err(NoRest::Unstable { sinks_to: by(true)?.1, rises_to: by(false)?.1 });
        }
        Ok(rest)
    }

    /// Ride height: from the ground to the bottom of the frame rail, mm.
    #[must_use]
    pub fn ride_height_mm(&self) -> f64 {
        self.fitted.measured.body.rail.bottom_z_mm - self.ground_mm
    }

    /// The same corner with nothing changed, at rest: solved once, however often it is asked for.
    /// `None` where it does not stand.
    #[must_use]
    pub fn as_it_sits(&self) -> Option<&Self> {
        let before = || Self::of(Fitted::as_measured(&self.fitted.measured)).ok().map(Box::new);
        self.as_it_sits.get_or_init(before).as_deref()
    }

    /// What a gauge reads at rest, in the body's axes.
    #[must_use]
    pub fn attitude(&self) -> Attitude {
        self.corner.attitude(&self.pose)
    }

    /// Ride frequency of the sprung mass on its spring alone, the tire not in series, Hz.
    ///
    /// # Source
    /// Natural frequency of a mass on a spring, `√(k/m) / 2π`.
    #[must_use]
    pub fn ride_frequency_hz(&self) -> f64 {
        let load = &self.fitted.measured.load;
        let sprung_kg = (self.fitted.corner_n - load.unsprung_n).max(1.0) / (GRAVITY / 1000.0);
        (self.wheel_rate_n_per_mm.max(0.0) * 1000.0 / sprung_kg).sqrt() / std::f64::consts::TAU
    }

    /// The pose at a travel from rest, + bump, mm, steered straight ahead.
    ///
    /// # Errors
    /// [`Unreached`] where the wheel cannot go.
    pub fn at_travel(&self, travel_mm: f64) -> Result<Pose, Unreached> {
        self.corner.at_height(self.pose.wheel_centre.z + travel_mm, Vector3::zeros())
    }

    /// Travel from rest at an angle of the lower arm, mm; the nearest that can be had.
    #[must_use]
    pub fn travel_at(&self, lower_arm_rad: f64) -> f64 {
        let range = self.corner.range();
        let angle = lower_arm_rad.clamp(range.low_rad, range.high_rad);
        match self.corner.pose(angle, Vector3::zeros()) {
            Ok(pose) => pose.wheel_centre.z - self.pose.wheel_centre.z,
            Err(_) => 0.0,
        }
    }

    /// The spring's effort at a pose (as [`Rest::effort`]) and its movement for
    /// a millimetre of travel: rad/mm of a bar, mm/mm of a coil.
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where two members stand in one line.
    pub fn spring_at(&self, pose: &Pose) -> Result<(f64, f64), Unreached> {
        let spring = self.spring_state.at_pose(&self.corner, pose)?;
        let rise = self.corner.bump_motion(pose)?.at(&pose.wheel_centre).z;
        Ok((spring.effort, spring.movement_per_rad / rise))
    }

    /// The load at the ground that the spring holds at an angle of the arm, N,
    /// and the contact's height there, mm.
    fn held_load(&self, angle: f64) -> Result<(f64, f64), Unreached> {
        let pose = self.corner.pose(angle, Vector3::zeros())?;
        let rates = self.corner.arm_rates(&pose)?;
        let moment = self.spring_state.at_pose(&self.corner, &pose)?.moment;
        let unsprung = self.fitted.measured.load.unsprung_n * rates.wheel_centre_mm.z;
        Ok(((moment + unsprung) / rates.contact_mm.z, pose.contact(self.corner.loaded_radius_mm()).z))
    }

    fn wheel_rate(&self) -> Result<f64, Unreached> {
        let angle = self.pose.lower_arm_rad;
        let (above, high) = self.held_load(angle + RATE_STEP_RAD)?;
        let (below, low) = self.held_load(angle - RATE_STEP_RAD)?;
        Ok((above - below) / (high - low))
    }
}

/// Steps from where the truck was measured to a stop, in which a balance is looked for.
const STEPS: u32 = 24;

/// A moment about the arm's axis this small is rounding, N·mm: a newton at the
/// wheel is some hundreds.
const BALANCED_NMM: f64 = 1e-3;

/// Moment by which the spring outweighs the load, about the lower arm's axis, N·mm; `None` where the arm
/// cannot stand at that angle.
fn surplus_moment(fitted: &Fitted, corner: &Corner, spring_state: &SpringState, angle: f64) -> Option<f64> {
    let pose = corner.pose(angle, Vector3::zeros()).ok()?;
    let spring = spring_state.at_pose(corner, &pose).ok()?;
    Some(spring.moment - load_moment(fitted.corner_n, fitted, corner, &pose).ok()?)
}

/// Where spring and load balance so that a push comes back, and what holds the
/// corner there. Where the plate stands as measured, `start`, most trucks are in
/// balance already.
fn balance(
    surplus: impl Fn(f64) -> Option<f64>,
    start: f64,
    stops: &StopAngles,
) -> Result<(f64, HeldBy), NoRest> {
    let start = start.clamp(stops.droop_rad, stops.solid_rad);
    let here = surplus(start).ok_or(NoRest::NoTravel)?;
    let settle = |sinks: bool| settle(&surplus, start, sinks, stops).ok_or(NoRest::NoTravel);
    if here.abs() > BALANCED_NMM {
        return settle(here < 0.0);
    }
    // Pushed into bump the spring has to win.
    let stable = surplus(start + RATE_STEP_RAD).zip(surplus(start - RATE_STEP_RAD));
    if stable.is_some_and(|(above, below)| above > below) {
        return Ok((start, by_spring(start, stops)));
    }
    Err(NoRest::Unstable { sinks_to: settle(true)?.1, rises_to: settle(false)?.1 })
}

/// Where an arm that has stood at `start` comes to rest under another load, and what holds it there;
/// `surplus` is as [`surplus_moment`]. `None` where it cannot stand on the way.
pub(crate) fn settled_from(
    surplus: impl Fn(f64) -> Option<f64>,
    start: f64,
    stops: &StopAngles,
) -> Option<(f64, HeldBy)> {
    let here = surplus(start)?;
    if here.abs() <= BALANCED_NMM {
        return Some((start, by_spring(start, stops)));
    }
    settle(surplus, start, here < 0.0, stops)
}

/// The first balance on the way from `start`, into bump where it sinks. Near the end of
/// a linkage's swing there can be others, in which no truck ever comes to rest.
fn settle(
    surplus: impl Fn(f64) -> Option<f64>,
    start: f64,
    sinks: bool,
    stops: &StopAngles,
) -> Option<(f64, HeldBy)> {
    let (end, held_by) =
        if sinks { (stops.solid_rad, HeldBy::BumpStop) } else { (stops.droop_rad, HeldBy::DroopStop) };
    let step = (end - start) / f64::from(STEPS);
    let mut last = start;
    for at in 1..=STEPS {
        let angle = if at == STEPS { end } else { start + step * f64::from(at) };
        let Some(found) = surplus(angle) else { break };
        if (found < 0.0) != sinks {
            let angle = root::bracketed(&surplus, last, angle, 1e-14)?;
            return Some((angle, by_spring(angle, stops)));
        }
        last = angle;
    }
    surplus(end)?;
    Some((end, held_by))
}

fn by_spring(angle: f64, stops: &StopAngles) -> HeldBy {
    if angle > stops.touch_rad { HeldBy::SpringAndStop } else { HeldBy::Spring }
}

impl StopAngles {
    /// The stops belong to the lower arm's plate and the body: no spindle
    /// and no tire moves them. A pivot raised on the body takes the arm nearer
    /// to the bump stop, which is taken to stand beside the arm's own bushing, or the
    /// middle of the pivots where no strut rod is stated.
    fn of(fitted: &Fitted, corner: &Corner) -> Result<Self, NoRest> {
        let measured = fitted.measured_corner()?;
        let stops = &fitted.stops;
        // The plate of the arm meets the stops, whatever became of its ball.
        let turn_rad = fitted.ball_turn_rad(Arm::Lower)?;
        let start = measured.measured_angle_rad();
        let hanging = fitted.measured.points.wheel_centre.z - stops.droop_mm;
        let droop_rad = match measured.at_height(hanging, Vector3::zeros()) {
            Ok(pose) => pose.lower_arm_rad,
            Err(_) => measured.range().low_rad,
        };
        let lower = fitted.measured.points.lower;
        let raised = beside_stop(&fitted.measured, &fitted.mounts.lower)
            - beside_stop(&fitted.measured, &lower.axis());
        let gap_mm = stops.bump_gap_mm - raised.dot(&lower.frame(Member::LowerArm)?.across);
        let droop_rad = droop_rad + turn_rad;
        let touch_rad = start + turn_rad + gap_mm / stops.bump_radius_mm;
        let solid_rad = touch_rad + stops.bump_squash_mm / stops.bump_radius_mm;
        // A little inside the ends of the swing, where rates still exist.
        let inside = 2.0 * RATE_STEP_RAD;
        let (low, high) = (corner.range().low_rad + inside, corner.range().high_rad - inside);
        if low >= high {
            return Err(NoRest::NoTravel);
        }
        let angles = Self {
            droop_rad: droop_rad.clamp(low, high),
            touch_rad: touch_rad.clamp(low, high),
            solid_rad: solid_rad.clamp(low, high),
        };
        // Stops that rounding alone holds apart are one.
        if angles.droop_rad + 1e-9 < angles.solid_rad {
            return Ok(angles);
        }
        // Where the stops leave some travel, it is the parts that do not reach it.
        let why = corner.pose(start, Vector3::zeros()).err();
        Err(why.map_or(NoRest::NoTravel, NoRest::NeverCloses))
    }
}

/// The point of the pivot axis beside the bump stop: the arm's own bushing where
/// a strut rod holds it, otherwise the middle of its pivots.
fn beside_stop(truck: &Truck, axis: &Axis) -> Point3<f64> {
    truck.bushings(axis).map_or_else(|| nalgebra::center(&axis.front, &axis.rear), |(own, _)| own)
}
