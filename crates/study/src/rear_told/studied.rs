//! What the rear's answers are read from: the rear as measured, its parts, and how the truck stands.

use crate::figure::Figure;
use crate::rear::{Channel, Joints, Leaf, NoRear, RearRest, Shaft};
use crate::rest::Rest;
use crate::stance::{Rear, Stance, nose_down_rad};
use truck::{Change, Field, Fitted, LoadCase, RearAxle, RearField, RearParts, Side, Source, TAPE_MM};

/// What the answers are read from: everything but the front's own answers.
#[derive(Clone, Debug)]
pub(super) struct RearStudied {
    pub(super) rear: RearAxle,
    pub(super) parts: RearParts,
    rest: Result<RearRest, NoRear>,
    /// How far the front comes down more under each load that is stated, mm.
    front_more: Vec<(LoadCase, f64)>,
    /// How it stands under each of them; `None` where one of them has no height to stand at.
    pub(super) loaded: Option<Vec<Loaded>>,
    /// What a load in the bed adds to one spring, N; `None` where it is not stated.
    bed_n: Option<f64>,
    pub(super) wheelbase_mm: f64,
    pub(super) front_down_mm: f64,
    /// How far the rear comes down as the plan says, mm; `None` where its parts make it so.
    said_down_mm: Option<f64>,
    /// Whether nobody knows how far: then nothing is told that hangs on it.
    is_open: bool,
    /// The changes of the rear.
    pub(super) changes: Vec<Change>,
    /// Whether how the front stands rests on a guess.
    pub(super) front_guessed: bool,
    /// Whether what the bed carries, or where, is a guess.
    pub(super) bed_guessed: bool,
    /// Whether what the driver weighs on a front wheel is a guess.
    pub(super) driver_guessed: bool,
}

/// How a truck stands under one load.
#[derive(Clone, Debug)]
pub(super) struct Loaded {
    pub(super) load: LoadCase,
    /// How far the front comes down more than without it, mm.
    pub(super) front_more_mm: f64,
    /// The rear.
    pub(super) rest: RearRest,
}

impl RearStudied {
    pub(super) fn of(stance: &Stance) -> Self {
        let left = stance.corner(Side::Left);
        let fitted = &left.fitted;
        let (rear, parts) = (fitted.measured.rear.clone(), RearParts::of(&fitted.rear));
        let said_down_mm = match stance.rear() {
            Rear::ComesDown(mm) => Some(mm),
            Rear::ByParts(_) | Rear::Stays => None,
        };
        let sources = &fitted.measured.sources;
        let is_guess = |field| sources.of(field) == Source::Assumed;
        let (front_more, bed_n) = (front_more(stance), bed_n(fitted));
        Self {
            rest: rest(&rear, &parts, said_down_mm),
            loaded: loaded(&rear, &parts, bed_n, &front_more),
            front_more,
            rear,
            parts,
            bed_n,
            wheelbase_mm: fitted.measured.body.wheelbase_mm,
            front_down_mm: stance.front_down_mm(),
            said_down_mm,
            is_open: stance.rear() == Rear::Stays,
            changes: fitted.rear.clone(),
            bed_guessed: [Field::BedLoad, Field::BedBehind, Field::Wheelbase].into_iter().any(is_guess),
            driver_guessed: is_guess(Field::DriverLoad),
            front_guessed: !Figure::CASTER_GROUND.of_side_may_rest_on(&stance.on(Side::Left)).is_empty(),
        }
    }

    /// The same with another rear as measured.
    pub(super) fn with(&self, rear: RearAxle) -> Self {
        let loaded = loaded(&rear, &self.parts, self.bed_n, &self.front_more);
        Self { rest: rest(&rear, &self.parts, self.said_down_mm), loaded, rear, ..self.clone() }
    }

    /// The same with other parts of the rear.
    pub(super) fn with_parts(&self, changes: &[Change]) -> Self {
        let parts = RearParts::of(changes);
        let loaded = loaded(&self.rear, &parts, self.bed_n, &self.front_more);
        Self { rest: rest(&self.rear, &parts, self.said_down_mm), loaded, parts, ..self.clone() }
    }

    /// The same with the front come down by so much.
    pub(super) fn with_front(&self, front_down_mm: f64) -> Self {
        Self { front_down_mm, ..self.clone() }
    }

    pub(super) fn number(&self, field: RearField) -> Option<f64> {
        self.rear.get(field)
    }

    /// How it stands; `None` of a rear of which nothing is known.
    pub(super) fn rest(&self) -> Option<&RearRest> {
        self.rest.as_ref().ok().filter(|_| !self.rear.is_unknown())
    }

    pub(super) fn down_mm(&self) -> Option<f64> {
        // What a plan says of its rear goes before what its parts make of it, as in the stance.
        let by_parts = || self.rest().filter(|_| !self.is_open).map(|rest| rest.down_mm);
        self.said_down_mm.or_else(by_parts)
    }

    pub(super) fn nose_down_rad(&self) -> Option<f64> {
        Some(nose_down_rad(self.front_down_mm, self.down_mm()?, self.wheelbase_mm))
    }

    /// How far the axle goes up until each thing that can end it, and what that is.
    fn bump_limits(&self) -> [(Option<f64>, &'static str); 4] {
        [
            (self.stop_mm(), "rear bump stop"),
            (self.tube_mm(), "axle tube hits the frame"),
            (self.shock_closed_mm(), "rear shock is closed"),
            (self.rest().and_then(|rest| rest.shackle_straight_mm), "shackle is pulled straight"),
        ]
    }

    pub(super) fn bump(&self) -> Option<(f64, &'static str)> {
        // A rear whose stop nobody has measured ends nowhere that is known.
        self.stop_mm()?;
        let known = self.bump_limits().into_iter().filter_map(|(mm, by)| Some((mm?, by)));
        known.min_by(|one, other| one.0.total_cmp(&other.0))
    }

    pub(super) fn stop_mm(&self) -> Option<f64> {
        Some(self.number(RearField::StopGap)? - self.rest()?.axle_up_mm + self.parts.stop_lower_mm)
    }

    pub(super) fn tube_mm(&self) -> Option<f64> {
        Some(self.number(RearField::TubeGap)? - self.rest()?.axle_up_mm + self.parts.notch_mm)
    }

    pub(super) fn fender_mm(&self) -> Option<f64> {
        // A smaller tire is as much lower at its top as it is at its middle.
        Some(self.number(RearField::FenderGap)? - self.rest()?.axle_up_mm + self.smaller_mm()?)
    }

    /// How far the axle's middle is nearer to the ground on other tires, mm.
    pub(super) fn smaller_mm(&self) -> Option<f64> {
        let rest = self.rest()?;
        Some(rest.down_mm - rest.axle_up_mm)
    }

    /// The shock mount to mount. Taken upright: one that leans closes by less than the axle rises.
    fn shock_mm(&self) -> Option<f64> {
        Some(self.number(RearField::ShockLength)? - self.rest()?.axle_up_mm + self.parts.shock_up_mm)
    }

    pub(super) fn shock_closed_mm(&self) -> Option<f64> {
        let of_it = self.parts.shock_short_mm;
        Some(self.shock_mm()? - of_it.or_else(|| self.old_shock(RearField::ShockShort))?)
    }

    pub(super) fn shock_open_mm(&self) -> Option<f64> {
        let of_it = self.parts.shock_long_mm;
        Some(of_it.or_else(|| self.old_shock(RearField::ShockLong))? - self.shock_mm()?)
    }

    /// A length of the shock that is on the truck, unless another one takes its place.
    fn old_shock(&self, field: RearField) -> Option<f64> {
        let stays = self.parts.shock_short_mm.or(self.parts.shock_long_mm).is_none();
        self.number(field).filter(|_| stays)
    }

    /// To where the stop is solid; to where it is touched, where nobody has measured how it squeezes.
    pub(super) fn solid_mm(&self) -> Option<f64> {
        Some(self.stop_mm()? + self.number(RearField::StopSquash).unwrap_or(0.0))
    }

    pub(super) fn bed_sinks_mm(&self) -> Option<f64> {
        if is_soft(&self.parts) {
            return None;
        }
        let loaded = RearRest::laid(&self.rear, &self.parts, self.bed_n?).ok()?;
        Some(loaded.down_mm - self.rest()?.down_mm)
    }

    /// The shackle's angle where metal meets in bump, rad.
    pub(super) fn shackle_bump_rad(&self) -> Option<f64> {
        let others = [self.tube_mm(), self.shock_closed_mm()].into_iter().flatten();
        self.shackle_after_rad(others.fold(self.solid_mm()?, f64::min).max(0.0))
    }

    /// The same in droop: where the shock is pulled out, or to where the spring holds the axle alone.
    pub(super) fn shackle_droop_rad(&self) -> Option<f64> {
        let ends = [self.shock_open_mm(), self.hangs_mm()].into_iter().flatten();
        let down_mm = ends.min_by(f64::total_cmp)?;
        self.shackle_after_rad(-down_mm.max(0.0))
    }

    fn shackle_after_rad(&self, up_mm: f64) -> Option<f64> {
        let (leaf, _) = Leaf::measured(&self.rear).ok()?;
        let seat_mm = self.parts.seat_mm(self.number(RearField::Seat).unwrap_or(0.0));
        leaf.hung(&self.parts)?.shackle_after(&self.rest()?.spring?, seat_mm, up_mm)
    }

    /// How far the axle goes down until nothing but its own weight hangs on its springs, mm; without end where
    /// they do not hold it.
    fn hangs_mm(&self) -> Option<f64> {
        if is_soft(&self.parts) {
            return None;
        }
        match RearRest::laid(&self.rear, &self.parts, -self.number(RearField::Load)?) {
            Ok(hanging) => Some(self.rest()?.axle_up_mm - hanging.axle_up_mm),
            Err(NoRear::NotStated(_)) => None,
            Err(_) => Some(f64::INFINITY),
        }
    }

    pub(super) fn shaft(&self) -> Option<[Shaft; 2]> {
        let measured = Shaft::measured(&self.rear).ok()?;
        Some([measured, measured.moved(self.rest()?, self.number(RearField::PinionLength)?)])
    }

    pub(super) fn joints(&self) -> Option<Joints> {
        Some(self.shaft()?[1].joints())
    }

    pub(super) fn rail_left(&self, of: fn(&Channel, f64) -> f64) -> Option<f64> {
        (self.parts.notch_mm > 0.0).then_some(())?;
        Some(of(&Channel::measured(&self.rear)?, self.parts.notch_mm))
    }

    pub(super) fn lamp_mm(&self) -> Option<f64> {
        let ahead_mm = self.number(RearField::LampAhead)?;
        let nose = libm::tan(self.nose_down_rad()?);
        Some(self.number(RearField::LampHeight)? - self.front_down_mm - ahead_mm * nose)
    }

    /// Why its parts say nothing of how it stands, or of how it stands loaded.
    pub(super) fn trouble(&self) -> Option<NoRear> {
        let loaded = || {
            let bed_n = self.bed_n.filter(|_| !self.rear.is_unknown())?;
            let why = RearRest::laid(&self.rear, &self.parts, bed_n).err()?;
            (!matches!(why, NoRear::NotStated(_))).then_some(why)
        };
        self.rest.as_ref().err().copied().or_else(loaded)
    }

    /// What is taken that nobody has stated.
    pub(super) fn taken(&self) -> Option<&'static str> {
        let is_open = |field: &RearField| self.number(*field).is_none();
        let carries = [RearField::Rate, RearField::Load, RearField::Unsprung];
        (self.parts.moves_leaf() && carries.iter().any(is_open) && self.rest().is_some())
            .then_some("The spring is taken to keep its arch: type its rate and its load.")
    }
}

/// Whether the spring is softer by nobody knows how much: a leaf out is by what its rate says.
const fn is_soft(parts: &RearParts) -> bool {
    parts.flatter_mm != 0.0 && parts.rate_n_per_mm.is_none()
}

/// How the rear stands; a plan that says another height than its parts make has none.
fn rest(rear: &RearAxle, parts: &RearParts, said_down_mm: Option<f64>) -> Result<RearRest, NoRear> {
    let rest = RearRest::laid(rear, parts, 0.0)?;
    match said_down_mm {
        Some(mm) if (mm - rest.down_mm).abs() > TAPE_MM => Err(NoRear::SaidOtherwise),
        _ => Ok(rest),
    }
}

/// How far the front comes down more under each load that is stated and under which it stands, mm: the mean
/// of both corners, as in the stance.
fn front_more(stance: &Stance) -> Vec<(LoadCase, f64)> {
    let ground = |side, load| {
        let fitted = stance.corner(side).fitted.under(load)?;
        Some(Rest::of(fitted).ok()?.ground_mm)
    };
    let more = |load| {
        let down_mm = f64::midpoint(ground(Side::Left, load)?, ground(Side::Right, load)?);
        Some((load, down_mm - stance.front_down_mm()))
    };
    LoadCase::ALL.into_iter().filter_map(more).collect()
}

/// How the truck stands under each load that is stated at both ends; `None` where it does not under one.
fn loaded(
    rear: &RearAxle,
    parts: &RearParts,
    bed_n: Option<f64>,
    front_more: &[(LoadCase, f64)],
) -> Option<Vec<Loaded>> {
    let driver_n = rear.get(RearField::DriverLoad);
    let mut all = Vec::new();
    for (load, front_more_mm) in front_more.iter().copied() {
        let more_n = match load {
            LoadCase::AsMeasured => Some(0.0),
            LoadCase::Driver => driver_n,
            LoadCase::Bed => bed_n,
            LoadCase::DriverAndBed => driver_n.zip(bed_n).map(|(driver_n, bed_n)| driver_n + bed_n),
        };
        let Some(more_n) = more_n.filter(|n| *n == 0.0 || !is_soft(parts)) else { continue };
        match RearRest::laid(rear, parts, more_n) {
            Ok(rest) => all.push(Loaded { load, front_more_mm, rest }),
            Err(NoRear::NotStated(_)) => {}
            Err(_) => return None,
        }
    }
    (!all.is_empty()).then_some(all)
}

/// What a load in the bed adds to one rear spring, N: by moments about the front axle, half of
/// `W (1 + behind / wheelbase)`.
fn bed_n(fitted: &Fitted) -> Option<f64> {
    let load = &fitted.measured.load;
    let behind = load.bed_behind_mm? / fitted.measured.body.wheelbase_mm;
    Some(load.bed_n? * (1.0 + behind) / 2.0)
}
