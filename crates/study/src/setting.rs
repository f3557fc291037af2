//! How to set a truck up: what to turn, shim and screw for the height and alignment that are wanted.
//!
//! The inverse of the full model, by Newton's method on its four readings. What
//! comes out is rounded to what a person can set, and the model is asked again
//! what the rounding leaves.

mod alignment;
mod height;
mod packs;
mod set_spread;
mod solve;

pub use alignment::{Alignment, Footing, LEAST_BUMP_MM, alignment, alignments, lowest_height};
pub use height::HeightBy;
pub use packs::many_pieces;
pub use set_spread::{SetOrder, SetSpreads};

use crate::as_read::as_told;
use crate::figure::{Figure, Guesses};
use crate::lean::NoLean;
use crate::stance::{NoStance, Rear, Stance, StandingSide, carry};
use height::hoist;
use solve::Job;
use truck::{
    Change, Field, FitError, Fitted, OneSide, Overlay, Readable, ShaftSide, Side, TieRodChange, Truck,
};

/// What a gauge is to read at rest, under the names that the readouts have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// From the ground to the bottom of the rail, mm.
    pub ride_height_mm: f64,
    /// Camber, rad.
    pub camber_rad: f64,
    /// Caster against the ground, rad.
    pub caster_rad: f64,
    /// Toe of this wheel, rad.
    pub toe_rad: f64,
}

impl Target {
    /// What a truck reads: what was read off it, with what the model says has changed.
    #[must_use]
    pub fn of(rest: &StandingSide) -> Self {
        let attitude = rest.attitude();
        let told = |of, own| as_told(rest, of, own);
        Self {
            ride_height_mm: told(Readable::FrameHeight, rest.ride_height_mm()),
            camber_rad: told(Readable::Camber, attitude.camber_rad),
            caster_rad: told(Readable::Caster, rest.attitude_on_ground().caster_rad),
            toe_rad: told(Readable::Toe, attitude.toe_rad),
        }
    }

    /// What a truck reads at each side, the left one first: on both its springs together, or where that
    /// is not known each side on its own.
    #[must_use]
    pub fn of_each(stance: &Stance) -> [Self; 2] {
        let stands = stance.together().unwrap_or_else(|_| stance.clone());
        Side::ALL.map(|side| Self::of(&stands.on(side)))
    }

    /// This reading with what is wanted in its place, in the order of [`Self::numbers`].
    #[must_use]
    pub fn with(&self, wanted: [Option<f64>; 4]) -> Self {
        let now = self.numbers();
        let [ride_height_mm, camber_rad, caster_rad, toe_rad] =
            std::array::from_fn(|at| wanted[at].unwrap_or(now[at]));
        Self { ride_height_mm, camber_rad, caster_rad, toe_rad }
    }

    /// Ride height, mm, camber, caster and toe, rad.
    #[must_use]
    pub const fn numbers(&self) -> [f64; 4] {
        [self.ride_height_mm, self.camber_rad, self.caster_rad, self.toe_rad]
    }

    /// This reading less another.
    #[must_use]
    pub fn less(&self, other: &Self) -> Self {
        Self {
            ride_height_mm: self.ride_height_mm - other.ride_height_mm,
            camber_rad: self.camber_rad - other.camber_rad,
            caster_rad: self.caster_rad - other.caster_rad,
            toe_rad: self.toe_rad - other.toe_rad,
        }
    }
}

/// By what caster is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CasterBy {
    /// Different packs of shims front and rear.
    #[default]
    Shims,
    /// The strut rod; the packs stay alike.
    StrutRod,
}

/// The side that is to read as wanted, and what is set for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Aim {
    /// The side.
    pub side: Side,
    /// Whether what is set lies over it alone; otherwise over both sides, but where these differ in what
    /// a proposal lays over them already.
    pub alone: bool,
}

impl From<Side> for Aim {
    fn from(side: Side) -> Self {
        Self { side, alone: false }
    }
}

/// How finely things are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// Thinnest shim, mm; packs are multiples of it.
    pub shim_mm: f64,
    /// The shims that packs are made up of, thickest first, mm.
    pub shims_mm: &'static [f64],
    /// Thinnest spacer of a coil, mm.
    pub spacer_mm: f64,
    /// Turns of the anchor's bolt and of the strut rod's nut.
    pub turns: f64,
    /// Turns of the tie rod's sleeve, which counts twice and on a short arm.
    pub sleeve_turns: f64,
    /// From one mark of the tape that heights are read by to the next, mm.
    pub tape_mm: f64,
}

impl Steps {
    /// Shims of a thirty-second of an inch, spacers of a sixteenth, quarter turns, a sixteenth of the sleeve.
    pub const INCHES: Self = Self {
        shim_mm: 25.4 / 32.0,
        shims_mm: &[25.4 / 8.0, 25.4 / 16.0, 25.4 / 32.0],
        spacer_mm: 25.4 / 16.0,
        turns: 0.25,
        sleeve_turns: 1.0 / 16.0,
        tape_mm: 25.4 / 16.0,
    };
    /// Shims of half a millimetre, spacers of one, quarter turns, a sixteenth of the sleeve.
    pub const MILLIMETRES: Self = Self {
        shim_mm: 0.5,
        shims_mm: &[3.0, 2.0, 1.0, 0.5],
        spacer_mm: 1.0,
        turns: 0.25,
        sleeve_turns: 1.0 / 16.0,
        tape_mm: 1.0,
    };
}

/// How much of everything, against the truck with the proposal's parts and
/// nothing set yet.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Amounts {
    /// Turn of the bar's anchor, + raises, rad, or thickness of the coil's spacer, mm.
    pub height: f64,
    /// Shims at the front bolt, + added, mm.
    pub shim_front_mm: f64,
    /// Shims at the rear bolt, + added, mm.
    pub shim_rear_mm: f64,
    /// Strut rod, longer, mm.
    pub strut_mm: f64,
    /// Tie rod, longer, mm.
    pub tie_mm: f64,
}

impl Amounts {
    /// Turns of the strut rod's nut and of the tie rod's sleeve, + longer, where their threads are stated.
    #[must_use]
    pub fn thread_turns(&self, truck: &OneSide) -> [Option<f64>; 2] {
        let of = |mm: f64, pitch_mm: Option<f64>| pitch_mm.map(|pitch_mm| mm / pitch_mm);
        [of(self.strut_mm, truck.strut.thread_pitch_mm), of(self.tie_mm, sleeve_pitch_mm(truck))]
    }
}

/// What a turn of the tie rod's sleeve makes it longer by, mm: its two threads are handed, and one turn moves both
/// ends.
fn sleeve_pitch_mm(truck: &OneSide) -> Option<f64> {
    truck.steering.tie_thread_pitch_mm.map(|pitch_mm| 2.0 * pitch_mm)
}

/// What keeps a target from being met.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Bound {
    /// The spring has nothing by which its height is set.
    NoAdjuster,
    /// The anchor's bolt ends, and no spline helps.
    Bolt,
    /// The anchor's bolt ends, and a blind tooth lets the bar in one way only.
    BlindTooth,
    /// A pack of shims would be thinner than none.
    NoShimsLeft,
    /// A pack would be thicker than its bolt takes.
    ShimsTooThick,
    /// Linkage or stops let only this share of what was asked be reached.
    Reached(f64),
}

/// How to set a truck up.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// All that lies over the side with everything set, in steps that can be set.
    pub changes: Vec<Change>,
    /// What lies over the other one.
    other: Vec<Change>,
    /// Whether it lies over that side alone, the other as it was; otherwise over both.
    pub alone: bool,
    /// Whether both sides are set together, each on what the rear leaves and an anti-roll bar leave it to
    /// carry ([`lean`](fn@crate::lean)); otherwise each on its own spring.
    pub together: bool,
    /// The side as the target is met, or as far as its adjuster lets it.
    met: StandingSide,
    /// What meets the target, as far as it can be had, before it is rounded.
    pub exact: Amounts,
    /// What comes nearest to that in steps that can be set.
    pub set: Amounts,
    /// How the height is set.
    pub height: HeightBy,
    /// Turns of the strut rod's nut, + longer, where its thread is stated.
    pub strut_turns: Option<f64>,
    /// Turns of the tie rod's sleeve, + longer, where its thread is stated. A
    /// sleeve has a right-hand and a left-hand thread: a turn counts twice.
    pub tie_turns: Option<f64>,
    /// The side of the truck as set.
    pub rest: StandingSide,
    /// What it then reads.
    pub reads: Target,
    /// What keeps it from the target.
    pub bounds: Vec<Bound>,
    /// Shims at the front and at the rear bolt by the trade's rule of thumb, from what the
    /// truck reads once its height is set and nothing else, mm.
    pub thumb_mm: (f64, f64),
}

impl Setting {
    /// What the height is set for.
    pub const HEIGHT: &'static [Figure] = &[Figure::FRAME_HEIGHT];
    /// What the shims and the strut rod are set for.
    pub const SHIMS: &'static [Figure] = &[Figure::CAMBER, Figure::CASTER_GROUND];
    /// What the tie rod is set for.
    pub const SLEEVE: &'static [Figure] = &[Figure::TOE];

    /// What lies over each side with everything set, the left one first.
    #[must_use]
    pub fn on_each(&self) -> [Vec<Change>; 2] {
        let here = |side| if side == self.rest.side() { &self.changes } else { &self.other };
        Side::ALL.map(|side| here(side).clone())
    }

    /// What an amount may rest on, by the figures that it is set for or read as: rather one guess too many.
    #[must_use]
    #[inline(never)]
    pub fn may_rest_on(&self, figures: &[Figure]) -> Guesses {
        let own: Guesses = figures.iter().map(|figure| figure.of_side_may_rest_on(&self.rest)).collect();
        if !self.together {
            return own;
        }
        // Together each rests on what the other does too, and each of these figures on all that this rests on.
        let other = &self.rest.stance().corner(self.rest.side().other()).fitted;
        figures.iter().fold(own, |all, figure| all.union(figure.may_rest_on(other)))
    }
}

/// Why a truck cannot be set up at all.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NoSetting {
    /// The parts are no truck.
    #[error(transparent)]
    Fit(#[from] FitError),
    /// The truck cannot stand.
    #[error("{0}")]
    Rest(#[from] NoStance),
    /// Its sides find no height to stand at together.
    #[error(transparent)]
    Together(#[from] NoLean),
    /// A number that it takes is not stated.
    #[error("to set it up, this must be stated: {}", .0.label())]
    Needs(Field),
}

/// How to set up a truck with a proposal's parts so that a side of it reads as wanted.
///
/// What is set lies over both sides or over one alone ([`Aim`]); the rake is that of both.
///
/// What the proposal says of adjuster, splines, spacer, shims and lengths of the
/// rods is set anew; everything else stays.
///
/// # Errors
/// [`NoSetting`] where there is nothing to start from. A target out of reach is
/// no error: the nearest is given, with what binds.
///
/// # Accuracy
/// `exact` meets a target within reach to 1e-10, mm and rad, and never worse than to 1e-7.
pub fn setting<'a>(
    whole: &Truck,
    aim: impl Into<Aim>,
    overlay: impl Into<Overlay<'a>>,
    target: &Target,
    caster_by: CasterBy,
    steps: &Steps,
) -> Result<Setting, NoSetting> {
    let (aim, overlay) = (aim.into(), overlay.into());
    Order { whole, aim, overlay, target: *target, caster_by, steps, loads: Loads::default() }.setting()
}

/// A truck that is to be set up, and for what.
#[derive(Clone, Copy, Debug)]
struct Order<'a> {
    whole: &'a Truck,
    aim: Aim,
    overlay: Overlay<'a>,
    target: Target,
    caster_by: CasterBy,
    steps: &'a Steps,
    loads: Loads,
}

/// Where both sides are set together: under what each front corner would stand where it does with the other,
/// with nothing but its own spring to hold it, N, the left one first.
#[derive(Clone, Copy, Debug, Default)]
struct Loads {
    /// With the targets met.
    met_n: Option<[f64; 2]>,
    /// With everything set, in steps that can be set.
    set_n: Option<[f64; 2]>,
}

impl Order<'_> {
    /// As [`setting`].
    fn setting(&self) -> Result<Setting, NoSetting> {
        let Self { whole, aim, overlay, target, caster_by, steps, loads } = *self;
        let truck = &whole.on(aim.side);
        if truck.shims.side.is_none() {
            return Err(NoSetting::Needs(Field::ShaftSide));
        }
        if caster_by == CasterBy::StrutRod && truck.strut.arm.stated().is_none() {
            return Err(NoSetting::Needs(Field::StrutArmX));
        }
        let laid = Laid::unset(overlay, aim);
        let base = laid.over(whole, loads.met_n)?;
        let rear = Rear::of(overlay, &base[0]);
        let mut job = Job::new(base, laid.aim, rear, caster_by, target);
        let start = Target::of(&job.rest(&Amounts::default())?);
        let exact = job.solve(Amounts::default(), &start);
        // From here on in the order of the work: height, shims and strut rod, toe.
        let spring = job.here().spring;
        let (height, raised) = hoist(&spring, exact.height, steps, &mut job.bounds);
        let moved = (target.ride_height_mm - start.ride_height_mm).abs() > UNMOVED_MM;
        if height == HeightBy::Nothing && moved {
            job.bounds.push(Bound::NoAdjuster);
        }
        let is_short = is_short(height, &job.bounds);
        let met = job.rest(&Amounts { height: if is_short { raised } else { exact.height }, ..exact })?;
        job.base = laid.over(whole, loads.set_n)?;
        // A gauge is read at the new height, where camber and caster are no longer what they were.
        let at_height = job.reads(&Amounts { height: raised, ..Amounts::default() }).unwrap_or(start);
        let aligned = job.aligned(Amounts { height: raised, ..exact });
        let mut set = in_steps(truck, &aligned, steps);
        set.tie_mm = screwed(job.toe(set).tie_mm, sleeve_pitch_mm(truck), steps.sleeve_turns);
        let [strut_turns, tie_turns] = set.thread_turns(truck);
        let laid = laid.set(&set, height);
        let [left, right] = laid.over(whole, loads.set_n)?;
        let rest = Stance::of(left, right, rear)?.on(aim.side);
        Ok(Setting {
            reads: Target::of(&rest),
            thumb_mm: thumb(truck, &target.less(&at_height), caster_by),
            strut_turns,
            tie_turns,
            alone: laid.aim.alone,
            together: loads.met_n.is_some(),
            met,
            changes: laid.changes,
            other: laid.other,
            exact,
            set,
            height,
            rest,
            bounds: job.bounds,
        })
    }
}

/// Packs of shims and the strut rod in steps that can be set; the tie rod as it is, for what they leave of toe.
fn in_steps(truck: &Truck, exact: &Amounts, steps: &Steps) -> Amounts {
    // Rounded, a pack must still be one: no thinner than none, no thicker than its bolt takes.
    let pack = |added: f64, now: Option<f64>| {
        let rounded = near(added, steps.shim_mm);
        let (least, most) = truck.shims.room_mm(now);
        let within = |mm: &f64| (least - 1e-9..=most + 1e-9).contains(mm);
        let beside = [rounded, rounded + steps.shim_mm, rounded - steps.shim_mm];
        // Where no step is one, the pack as it is is too thick: what can be had for certain is none.
        beside.into_iter().find(within).unwrap_or(least)
    };
    Amounts {
        shim_front_mm: pack(exact.shim_front_mm, truck.shims.front_mm),
        shim_rear_mm: pack(exact.shim_rear_mm, truck.shims.rear_mm),
        strut_mm: screwed(exact.strut_mm, truck.strut.thread_pitch_mm, steps.turns),
        ..*exact
    }
}

fn near(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// So much longer by turns of a thread, as it can be set; as it is where its pitch is not stated.
fn screwed(mm: f64, pitch_mm: Option<f64>, turns: f64) -> f64 {
    pitch_mm.map_or(mm, |pitch_mm| near(mm, pitch_mm * turns))
}

/// What lies over both sides while one of them is set up.
struct Laid<'a> {
    aim: Aim,
    overlay: Overlay<'a>,
    /// Over the side that is set up, and where not it alone over both.
    changes: Vec<Change>,
    /// Over the other side; the same where it is not set up alone.
    other: Vec<Change>,
}

impl<'a> Laid<'a> {
    /// A proposal without what setting up decides.
    fn unset(overlay: Overlay<'a>, Aim { side, alone }: Aim) -> Self {
        let aim = Aim { side, alone: alone || !overlay.is_for_both() };
        let changes: Vec<_> = overlay.on(side).iter().filter_map(unset).collect();
        let other = if aim.alone { overlay.on(side.other()) } else { changes.clone() };
        Self { aim, overlay, changes, other }
    }

    /// The same with everything set.
    fn set(self, set: &Amounts, height: HeightBy) -> Self {
        let changes = set_changes(self.changes, set, height);
        let other = if self.aim.alone { self.other } else { changes.clone() };
        Self { changes, other, ..self }
    }

    /// Both sides of a truck with it on, the left one first, under these loads.
    fn over(&self, truck: &Truck, loads: Option<[f64; 2]>) -> Result<[Fitted; 2], FitError> {
        let mut both = if self.aim.alone {
            let side = self.aim.side;
            let mut own = Vec::new();
            for (side, changes) in [(side, &self.changes), (side.other(), &self.other)] {
                for change in changes {
                    own.push((side, *change));
                }
            }
            Fitted::both(truck, Overlay { changes: &[], own: &own, ..self.overlay })?
        } else {
            Fitted::both(truck, Overlay { changes: &self.changes, ..self.overlay })?
        };
        if let Some(loads) = loads {
            carry(&mut both, loads);
        }
        Ok(both)
    }
}

/// Whether nothing that can be set gets a height where it is to be.
fn is_short(height: HeightBy, bounds: &[Bound]) -> bool {
    height == HeightBy::Nothing || bounds.iter().any(|bound| matches!(bound, Bound::Bolt | Bound::BlindTooth))
}

/// A height that is this near needs no adjuster, mm.
const UNMOVED_MM: f64 = 0.05;

/// A change without what setting up decides; `None` where that was all of it.
fn unset(change: &Change) -> Option<Change> {
    match change {
        Change::BarAdjuster(_)
        | Change::BarReindex(_)
        | Change::SeatSpacer(_)
        | Change::Shims(_)
        | Change::StrutRod(_) => None,
        Change::TieRod(rod) => Some(Change::TieRod(TieRodChange { longer_mm: 0.0, ..*rod })),
        other => Some(*other),
    }
}

/// The proposal with everything set.
fn set_changes(mut changes: Vec<Change>, set: &Amounts, height: HeightBy) -> Vec<Change> {
    let inner_mm = changes.iter().find_map(|change| match change {
        Change::TieRod(rod) => Some(rod.inner_mm),
        _ => None,
    });
    changes.retain(|change| !matches!(change, Change::TieRod(_)));
    changes.extend(height.changes());
    changes.extend(set.alignment(inner_mm.unwrap_or_default()));
    changes.iter().filter_map(Change::kept).collect()
}

/// Shims by the rule of thumb: a thirty-second at both bolts is a fifth of a
/// degree of camber, one moved from the rear bolt to the front one half a degree
/// of caster, with the shaft outboard of its bracket.
///
/// # Source
/// A 1983 service text for light pickups; common practice, good for a quarter.
fn thumb(truck: &Truck, wanted: &Target, caster_by: CasterBy) -> (f64, f64) {
    const SHIM_MM: f64 = 25.4 / 32.0;
    let out = if truck.shims.side == Some(ShaftSide::Inboard) { -1.0 } else { 1.0 };
    let both = out * wanted.camber_rad.to_degrees() / 0.2 * SHIM_MM;
    let moved = match caster_by {
        CasterBy::Shims => out * wanted.caster_rad.to_degrees() / 0.5 * SHIM_MM,
        CasterBy::StrutRod => 0.0,
    };
    (both + moved, both - moved)
}
