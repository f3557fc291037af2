//! A truck set up, what it then stands on, and the lowest height that leaves it room to move.

use super::solve::Job;
use super::{
    Aim, Amounts, CasterBy, Laid, Loads, NoSetting, Order, Setting, Steps, Target, is_short, many_pieces,
};
use crate::clearance::Pair;
use crate::figure::Figure;
use crate::lean::{NoLean, loads_alike};
use crate::rest::{HeldBy, Rest};
use crate::stance::{Rear, Stance, StandingSide};
use crate::travel_left::{Limit, travel_left};
use linkage::root;
use truck::{Change, Note, Overlay, Side, Truck, notes};

/// Bump travel that a truck is wished to keep, mm, and less than which is said before
/// anything else: one inch. Common practice, no source.
pub const LEAST_BUMP_MM: f64 = 25.4;

/// What a truck stands on, and how far its wheel can still rise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footing {
    /// What holds it up.
    pub held_by: HeldBy,
    /// Bump travel, and what ends it.
    pub bump: Limit,
    /// What meets first on the way to the bump stop solid, at any steer, and the travel
    /// there, mm; `None` where nothing does.
    pub first_contact: Option<(Pair, f64)>,
}

impl Footing {
    /// Of a truck at rest, with contacts from a grid that keeps up with a drag.
    #[must_use]
    pub fn of(rest: &Rest) -> Self {
        let remaining = travel_left(rest);
        let mut first_contact: Option<(Pair, f64)> = None;
        for here in &remaining.contacts {
            if first_contact.is_none_or(|first| first.1 > here.1) {
                first_contact = Some(*here);
            }
        }
        Self { held_by: rest.held_by, bump: remaining.bump, first_contact }
    }

    /// Whether it stands on its spring alone with this much bump travel, mm.
    #[must_use]
    pub fn leaves(&self, bump_mm: f64) -> bool {
        self.held_by == HeldBy::Spring && self.bump.travel_mm >= bump_mm
    }
}

/// How to set a truck up, and what it then stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Alignment {
    /// What to set, and what it then reads.
    pub setting: Setting,
    /// What is to be said before the work, what can hurt someone first.
    pub notes: Vec<Note>,
    /// Whether a pack of shims that is to be touched comes to four pieces or more.
    pub many_pieces: bool,
    /// What it then stands on.
    pub footing: Footing,
    /// Whether that may rest on a number that nobody has measured: rather one too many.
    pub guessed: bool,
    /// Bump travel that is wished, mm.
    pub bump_mm: f64,
    /// Where less than that is left: the lowest ride height at these parts that leaves
    /// it, on a mark of the tape, mm; `None` where none does.
    pub lowest_height_mm: Option<f64>,
}

impl Alignment {
    /// Whether it stands on a stop, or with less than an inch of bump travel or than is
    /// wished: to be said before anything is ordered.
    #[must_use]
    pub fn is_short(&self) -> bool {
        !self.footing.leaves(self.least_mm())
    }

    /// Less bump travel than this is said: an inch, or what is wished where that is more, mm.
    #[must_use]
    pub const fn least_mm(&self) -> f64 {
        self.bump_mm.max(LEAST_BUMP_MM)
    }
}

/// As [`setting`](fn@crate::setting), with what the truck then stands on; where that leaves less bump
/// travel than `bump_mm`, with the lowest height that leaves it.
///
/// # Errors
/// As [`setting`](fn@crate::setting).
pub fn alignment<'a>(
    truck: &Truck,
    aim: impl Into<Aim>,
    overlay: impl Into<Overlay<'a>>,
    target: &Target,
    caster_by: CasterBy,
    steps: &Steps,
    bump_mm: f64,
) -> Result<Alignment, NoSetting> {
    let (aim, overlay) = (aim.into(), overlay.into());
    let order =
        Order { whole: truck, aim, overlay, target: *target, caster_by, steps, loads: Loads::default() };
    Ok(order.standing(order.setting()?, bump_mm))
}

impl Order<'_> {
    /// What a truck that is set up so then stands on.
    fn standing(&self, setting: Setting, bump_mm: f64) -> Alignment {
        let footing = Footing::of(&setting.rest);
        let short = !footing.leaves(bump_mm);
        let lowest_height_mm = short.then(|| self.lowest_height(bump_mm)).flatten();
        let here = &self.whole.on(self.aim.side);
        Alignment {
            guessed: !setting.may_rest_on(&[Figure::BUMP]).is_empty(),
            notes: notes(here, &setting.changes),
            many_pieces: many_pieces(&here.shims, &setting.set, self.steps),
            setting,
            footing,
            bump_mm,
            lowest_height_mm,
        }
    }

    /// As [`lowest_height`].
    fn lowest_height(&self, bump_mm: f64) -> Option<f64> {
        let Self { overlay, target, caster_by, .. } = *self;
        let laid = Laid::unset(overlay, self.aim);
        // What the other takes of the load goes with how far it stands higher or lower, and both are set to
        // one height: it stays.
        let loads = Loads { set_n: self.loads.met_n, ..self.loads };
        let base = laid.over(self.whole, loads.met_n).ok()?;
        let rear = Rear::of(overlay, &base[0]);
        let job = |goal: Target| Job::new(base.clone(), laid.aim, rear, caster_by, goal);
        let start = Target::of(&job(target).rest(&Amounts::default()).ok()?);
        let at = |ride_height_mm: f64| Target { ride_height_mm, ..target };
        let over = |height: f64| {
            let rest = exactly(job(at(height)), &start)?;
            Some((travel_left(&rest).bump.travel_mm - bump_mm, Target::of(&rest).ride_height_mm))
        };
        let exact = bracket(start.ride_height_mm, &over)
            .and_then(|(low, high)| root::bracketed(|height| Some(over(height)?.0), low, high, 0.02))?;
        let tape_mm = self.steps.tape_mm;
        let first = (exact / tape_mm - 1e-6).ceil();
        for more in 0..=MARKS {
            let height = (first + f64::from(more)) * tape_mm;
            if let Ok(found) = (Order { target: at(height), loads, ..*self }).setting()
                && (found.reads.ride_height_mm - height).abs() < tape_mm
                && Footing::of(&found.rest).leaves(bump_mm)
            {
                return Some(height);
            }
        }
        None
    }
}

/// Rounds of setting one side after the other: what is set at one moves the other's caster against the
/// ground by the rake of both, which is half of the difference in height over the wheelbase.
const ROUNDS: u32 = 2;
/// Rounds where both are set together: one tells what each is to carry, which the next ones move by
/// no more than the track grows.
const ROUNDS_TOGETHER: u32 = 4;

/// Sides of a truck set up, each to read as wanted: one by what lies over both sides, as [`alignment`] is;
/// of both, the left one first, each by what lies over it alone. What lies over both at the end is the
/// last's [`Setting::on_each`].
///
/// Where all is stated that a [`lean`](fn@crate::lean) hangs on, both are set together
/// ([`Setting::together`]): each on what the leaves and the bar leave it to carry with both targets met,
/// and it reads and stands as it does with the other as that is set.
///
/// # Errors
/// As [`setting`](fn@crate::setting), and [`NoSetting::Together`] where both find no place to stand with
/// each other.
///
/// # Accuracy
/// After two rounds nothing is left of the rake that a gauge could read. Set together, `exact` meets both
/// heights to 0.01 mm.
pub fn alignments(
    truck: &Truck,
    sides: &[(Side, Target)],
    overlay: Overlay<'_>,
    caster_by: CasterBy,
    steps: &Steps,
    bump_mm: f64,
) -> Result<Vec<Alignment>, NoSetting> {
    let alone = sides.len() > 1;
    let mut rounds = if alone { ROUNDS } else { 1 };
    let mut loads = Loads::default();
    let mut found: Vec<Setting> = Vec::new();
    let mut own: Option<Vec<_>> = None;
    let mut round = 0;
    while round < rounds {
        round += 1;
        found.clear();
        for (side, target) in sides.iter().copied() {
            let (aim, overlay) = (Aim { side, alone }, laid(overlay, own.as_ref()));
            let next = Order { whole: truck, aim, overlay, target, caster_by, steps, loads }.setting()?;
            let own = own.get_or_insert_default();
            own.clear();
            for (side, changes) in Side::ALL.into_iter().zip(next.on_each()) {
                for change in changes {
                    own.push((side, change));
                }
            }
            found.push(next);
        }
        if let ([left, right], true) = (&found[..], round == 1 || loads.met_n.is_some()) {
            loads = Loads::of(truck, laid(overlay, own.as_ref()), [left, right])?;
            if loads.met_n.is_some() {
                rounds = ROUNDS_TOGETHER;
            }
        }
    }
    // Of one side what was ordered lies over both, and both go where its height is looked for.
    let overlay = if alone { laid(overlay, own.as_ref()) } else { overlay };
    let stance = if loads.met_n.is_some() { Some(Stance::laid(truck, overlay)?.together()?) } else { None };
    let mut all = Vec::new();
    for ((side, target), mut setting) in sides.iter().copied().zip(found) {
        if let Some(stance) = &stance {
            setting.rest = stance.on(side);
            setting.reads = Target::of(&setting.rest);
        }
        let order =
            Order { whole: truck, aim: Aim { side, alone }, overlay, target, caster_by, steps, loads };
        all.push(order.standing(setting, bump_mm));
    }
    Ok(all)
}

/// A proposal with what was set at each side, once it was.
fn laid<'a>(overlay: Overlay<'a>, own: Option<&'a Vec<(Side, Change)>>) -> Overlay<'a> {
    own.map_or(overlay, |own| Overlay { changes: &[], own, ..overlay })
}

/// Where the lower arm is held with the target met, rad; where its adjuster does not get there nothing holds it.
fn held_rad(side: &Setting) -> Option<f64> {
    (!is_short(side.height, &side.bounds)).then_some(side.met.pose.lower_arm_rad)
}

impl Loads {
    /// From how both sides were set so far, the left one first, and what then lies over them; none where
    /// what holds them level is not stated.
    fn of(truck: &Truck, set: Overlay<'_>, sides: [&Setting; 2]) -> Result<Self, NoSetting> {
        let set = Stance::laid(truck, set)?;
        let [left, right] = sides.map(|side| &side.met.fitted);
        let as_measured = [left.measured.load.corner_n, right.measured.load.corner_n];
        let met = Stance::under([left, right], as_measured, set.rear())?;
        let met_n = match loads_alike(&met, sides.map(held_rad)) {
            Err(NoLean::NotStated(_) | NoLean::OtherSprings) => return Ok(Self::default()),
            met_n => met_n?,
        };
        Ok(Self { met_n: Some(met_n), set_n: Some(loads_alike(&set, [None; 2])?) })
    }
}

/// How far over the exact height the marks of the tape are tried: rounding to steps can
/// take some of what is wished.
const MARKS: u32 = 6;
/// Doublings in the search for a height that leaves more than is wished.
const DOUBLINGS: u32 = 6;

/// The lowest ride height, on a mark of the tape, mm, at which the truck set up as by
/// [`setting`](fn@crate::setting) leaves `bump_mm` of bump travel; camber, caster and toe as in `target`,
/// whose own height is not looked at. Nothing where no height at these parts does.
///
/// # Accuracy
/// The height at which the travel is just that, before anything is rounded, is bracketed
/// to 0.02 mm; the answer is the first mark from there up that leaves it as rounded.
#[must_use]
pub fn lowest_height<'a>(
    truck: &Truck,
    aim: impl Into<Aim>,
    overlay: impl Into<Overlay<'a>>,
    target: &Target,
    caster_by: CasterBy,
    steps: &Steps,
    bump_mm: f64,
) -> Option<f64> {
    let (aim, overlay) = (aim.into(), overlay.into());
    let loads = Loads::default();
    Order { whole: truck, aim, overlay, target: *target, caster_by, steps, loads }.lowest_height(bump_mm)
}

/// The truck with its readings met as far as they can be, at rest, nothing rounded.
fn exactly(mut job: Job, start: &Target) -> Option<StandingSide> {
    let amounts = job.solve(Amounts::default(), start);
    job.rest(&amounts).ok()
}

/// Two heights between which the travel over the wish changes its sign: near the truck's
/// limits a millimetre of height is about one of travel.
fn bracket(from_mm: f64, over: &impl Fn(f64) -> Option<(f64, f64)>) -> Option<(f64, f64)> {
    let (mut here, mut height) = over(from_mm)?;
    let way = if here < 0.0 { 1.0 } else { -1.0 };
    let mut reach = here.abs() + 3.0;
    for _ in 0..DOUBLINGS {
        let next = height + way * reach;
        let (there, reads) = over(next)?;
        if (there < 0.0) != (here < 0.0) {
            return Some(if way > 0.0 { (height, next) } else { (next, height) });
        }
        // Where the height is no longer followed, farther on is the same truck.
        if (reads - next).abs() > reach {
            return None;
        }
        (here, height) = (there, next);
        reach *= 2.0;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: travel that gains a fifth of a millimetre for each of height meets the wish at 100 mm. The
    /// first step of 23 mm falls short, the next of 46 mm too, the third of 92 mm passes it; so from above.
    #[test]
    fn a_wish_far_off_is_reached_in_longer_and_longer_steps() {
        let slow = |height: f64| Some((0.2 * (height - 100.0), height));
        assert_eq!(bracket(0.0, &slow), Some((69.0, 161.0)));
        assert_eq!(bracket(200.0, &slow), Some((39.0, 131.0)));
        // A truck that no longer comes up as it is asked to is the same from there on.
        let stuck = |height: f64| Some((0.2 * (height.min(30.0) - 100.0), height.min(30.0)));
        assert_eq!(bracket(0.0, &stuck), None);
        assert_eq!(bracket(0.0, &|_| None), None);
    }
}
