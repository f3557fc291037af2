//! What the rear's answers are read from: the rear as measured, its parts, and how the truck stands.

use crate::figure::Figure;
use crate::rear::{Channel, Joints, Leaf, NoRear, RearRest, Shaft};
use crate::rest::Rest;
use crate::stance::{Rear, Stance, down_at_mm, nose_down_rad};
use truck::{Change, Field, Fitted, LoadCase, RearAxle, RearField, RearParts, Side, Source};

/// What the answers are read from: everything but the front's own answers.
#[derive(Clone, Debug)]
pub(super) struct RearStudied {
    pub(super) rear: RearAxle,
    pub(super) parts: RearParts,
    rest: Result<RearRest, NoRear>,
    /// How far the front comes down more under each load that is stated, mm.
    pub(super) front_more: [Option<f64>; 4],
    /// How the rear stands under each of them; none at all where under one of them it cannot.
    pub(super) loaded: [Option<RearRest>; 4],
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

impl RearStudied {
    pub(super) fn of(stance: &Stance) -> Self {
        let left = stance.corner(Side::Left);
        let fitted = &left.fitted;
        let sources = &fitted.measured.sources;
        let is_guess = |field| sources.of(field) == Source::Assumed;
        let mut studied = Self {
            rest: Ok(RearRest::AS_MEASURED),
            loaded: [None; 4],
            front_more: front_more(stance),
            rear: fitted.measured.rear.clone(),
            parts: RearParts::of(&fitted.rear),
            bed_n: bed_n(fitted),
            wheelbase_mm: fitted.measured.body.wheelbase_mm,
            front_down_mm: stance.front_down_mm(),
            said_down_mm: stance.rear().said_down_mm(),
            is_open: stance.rear() == Rear::Stays,
            changes: fitted.rear.clone(),
            bed_guessed: [Field::BedLoad, Field::BedBehind, Field::Wheelbase].into_iter().any(is_guess),
            driver_guessed: is_guess(Field::DriverLoad),
            front_guessed: !Figure::CASTER_GROUND.of_side_may_rest_on(&stance.on(Side::Left)).is_empty(),
        };
        studied.settle();
        studied
    }

    /// The same with another number of the rear.
    pub(super) fn with(&self, field: RearField, value: f64) -> Self {
        let mut other = self.clone();
        other.rear = self.rear.with(field, value);
        other.settle();
        other
    }

    /// The same with other parts of the rear.
    pub(super) fn with_parts(&self, changes: &[Change]) -> Self {
        let mut other = self.clone();
        other.parts = RearParts::of(changes);
        other.settle();
        other
    }

    /// The same with the front come down by so much.
    pub(super) fn with_front(&self, front_down_mm: f64) -> Self {
        let mut other = self.clone();
        other.front_down_mm = front_down_mm;
        other
    }

    /// Works out how the rear stands, empty and under each load.
    fn settle(&mut self) {
        let laid = RearRest::laid(&self.rear, &self.parts, 0.0);
        self.rest = laid.and_then(|rest| rest.as_said(self.said_down_mm));
        self.loaded = self.under_each();
    }

    /// How the rear stands under each load that is stated at both ends; none at all where under one it cannot.
    fn under_each(&self) -> [Option<RearRest>; 4] {
        let (driver_n, bed_n) = (self.number(RearField::DriverLoad), self.bed_n);
        let both_n = driver_n.zip(bed_n).map(|(driver_n, bed_n)| driver_n + bed_n);
        let mut all = [None; 4];
        for (at, more_n) in [Some(0.0), driver_n, bed_n, both_n].into_iter().enumerate() {
            let Some(more_n) = more_n else { continue };
            if self.front_more[at].is_none() || more_n != 0.0 && is_soft(&self.parts) {
                continue;
            }
            match RearRest::laid(&self.rear, &self.parts, more_n) {
                Ok(rest) => all[at] = Some(rest),
                Err(NoRear::NotStated(_)) => {}
                Err(_) => return [None; 4],
            }
        }
        all
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

    /// How far the axle goes up until the first thing that can end it, and what that is.
    pub(super) fn bump(&self) -> Option<(f64, &'static str)> {
        // A rear whose stop nobody has measured ends nowhere that is known.
        let mut nearest = (self.stop_mm()?, "rear bump stop");
        for (mm, by) in [
            (self.tube_mm(), "axle tube hits the frame"),
            (self.shock_closed_mm(), "rear shock is closed"),
            (self.rest()?.shackle_straight_mm, "shackle is pulled straight"),
        ] {
            if let Some(mm) = mm.filter(|mm| *mm < nearest.0) {
                nearest = (mm, by);
            }
        }
        Some(nearest)
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
        let metal_mm = least(self.tube_mm(), self.shock_closed_mm());
        self.shackle_after_rad(least(Some(self.solid_mm()?), metal_mm)?.max(0.0))
    }

    /// The same in droop: where the shock is pulled out, or to where the spring holds the axle alone.
    pub(super) fn shackle_droop_rad(&self) -> Option<f64> {
        self.shackle_after_rad(-least(self.shock_open_mm(), self.hangs_mm())?.max(0.0))
    }

    fn shackle_after_rad(&self, up_mm: f64) -> Option<f64> {
        let (leaf, _) = Leaf::measured(&self.rear).ok()?;
        let seat_mm = self.parts.seat_mm(self.number(RearField::Seat).unwrap_or(0.0));
        Some(leaf.hung(&self.parts)?.shackle_after(&self.rest()?.spring?, seat_mm, up_mm))
    }

    /// How far the axle goes down until nothing but its own weight hangs on its springs, mm: by load over rate.
    fn hangs_mm(&self) -> Option<f64> {
        let rate_n_per_mm = self.parts.rate_n_per_mm.or_else(|| self.number(RearField::Rate))?;
        let load_n = self.number(RearField::Load).filter(|_| !is_soft(&self.parts))?;
        Some(load_n / rate_n_per_mm)
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
        let down_mm = down_at_mm(ahead_mm, self.front_down_mm, self.down_mm()?, self.wheelbase_mm);
        Some(self.number(RearField::LampHeight)? - down_mm)
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

/// The lesser of what is known.
fn least(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other),
    }
}

/// Whether the spring is softer by nobody knows how much: a leaf out is by what its rate says.
const fn is_soft(parts: &RearParts) -> bool {
    parts.flatter_mm != 0.0 && parts.rate_n_per_mm.is_none()
}

/// How far the front comes down more under each load that is stated and under which it stands, mm: the mean
/// of both corners, as in the stance.
fn front_more(stance: &Stance) -> [Option<f64>; 4] {
    LoadCase::ALL.map(|load| {
        let mut twice_mm = 0.0;
        for side in Side::ALL {
            twice_mm += Rest::of(stance.corner(side).fitted.under(load)?).ok()?.ground_mm;
        }
        Some(twice_mm / 2.0 - stance.front_down_mm())
    })
}

/// What a load in the bed adds to one rear spring, N: by moments about the front axle, half of
/// `W (1 + behind / wheelbase)`.
fn bed_n(fitted: &Fitted) -> Option<f64> {
    let load = &fitted.measured.load;
    let behind = load.bed_behind_mm? / fitted.measured.body.wheelbase_mm;
    Some(load.bed_n? * (1.0 + behind) / 2.0)
}
