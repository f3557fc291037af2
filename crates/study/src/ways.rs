//! Ways down: which parts bring a truck to a height within limits, and what each gives up.
//!
//! Every combination of the parts on the table is tried: what breaks a limit is
//! counted by its reason, what is left is ranked by what it gives up. The search
//! has no clock: it is taken on in steps, and comes to the same however it was
//! sliced.

mod table;

pub use table::PartsTable;

use crate::clearance::{Pair, clearance};
use crate::grid::{Clearances, Found};
use crate::loading::loading;
use crate::low_line::{Low, LowLine};
use crate::rest::Rest;
use crate::setting::{CasterBy, Steps, Target, setting};
use crate::steering::Steering;
use crate::travel_left::{Limit, Limiter, travel_left_of};
use linkage::Pose;
use truck::{Change, ChangeKind, ChangeSources, Plan, Proposal, ProposalId, Source, Truck, fit};

/// What is wanted, and what may not be given up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// How much lower the frame is to stand than as measured, mm.
    pub drop_mm: f64,
    /// How near to that is near enough, mm.
    pub within_mm: f64,
    /// Least bump travel that must be left, whatever ends it, mm.
    pub bump_mm: f64,
    /// Least room of every pair that is known on the way to what ends the bump, from
    /// lock to lock, mm; the pair that ends it meets there by right.
    pub room_mm: f64,
    /// Whether nothing may hang below the scrub line that did not before.
    pub flat_tire: bool,
    /// Whether camber must come back to as measured with the shims there are.
    pub shims: bool,
    /// Least and greatest ride frequency, Hz.
    pub frequency_hz: (f64, f64),
    /// How far the rear comes down, mm, + down; `None` where that is not stated.
    pub rear_down_mm: Option<f64>,
}

/// What a loss counts for, each for one unit of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// A centimetre of bump travel less than as measured.
    pub bump: f64,
    /// A degree of camber away from as measured.
    pub camber: f64,
    /// A degree of caster away from as measured.
    pub caster: f64,
    /// A tenth of a hertz away from as measured.
    pub frequency: f64,
    /// A part swapped or moved.
    pub part: f64,
    /// A part that cannot be put back: a coil cut, a stop trimmed.
    pub scar: f64,
}

impl Default for Weights {
    /// Even shares for what people name first. Common practice, no source.
    fn default() -> Self {
        Self { bump: 1.0, camber: 1.0, caster: 0.5, frequency: 0.5, part: 0.5, scar: 2.0 }
    }
}

/// Why a combination was left out: the first limit that it breaks, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(usize)]
pub enum LeftOut {
    /// The parts do not fit each other, or it does not stand on its spring.
    NoStance,
    /// Another height.
    Height,
    /// The spring goes loose at full droop.
    Loose,
    /// The bolt or a pack of shims ends before.
    Adjuster,
    /// Too little travel to the bump stop's first touch.
    Stop,
    /// Softer or stiffer than wanted.
    Frequency,
    /// Something hangs below the scrub line that did not before.
    FlatTire,
    /// Camber does not come back with the shims there are.
    Shims,
    /// Something ends the bump too early.
    Bump,
    /// Two things come too near.
    Room,
}

impl LeftOut {
    /// Every reason.
    pub const ALL: [Self; 10] = [
        Self::NoStance,
        Self::Height,
        Self::Loose,
        Self::Adjuster,
        Self::Stop,
        Self::Frequency,
        Self::FlatTire,
        Self::Shims,
        Self::Bump,
        Self::Room,
    ];

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::NoStance => "do not stand on their spring",
            Self::Height => "stand at another height",
            Self::Loose => "go loose at full droop",
            Self::Adjuster => "ask for more than bolt or shims give",
            Self::Stop => "are too near to the bump stop",
            Self::Frequency => "are too soft or too stiff",
            Self::FlatTire => "hang below the scrub line",
            Self::Shims => "cannot be shimmed back to the camber as measured",
            Self::Bump => "meet something before that travel",
            Self::Room => "come too near to something",
        }
    }
}

/// One way down.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Its place among all combinations: of two that cost the same the first stands first.
    pub index: usize,
    /// The whole proposal.
    pub changes: Vec<Change>,
    /// How far the rear comes down in it, mm, as it was wished.
    pub rear_down_mm: Option<f64>,
    /// Where the numbers of its parts came from.
    pub guesses: ChangeSources,
    /// Whether a part's number in it is a guess, so that what it gives up is one too.
    pub is_guess: bool,
    /// Lower than as measured, mm.
    pub drop_mm: f64,
    /// What is left of the bump, and what ends it.
    pub bump: Limit,
    /// Less bump travel than as measured, mm.
    pub bump_lost_mm: f64,
    /// Camber less that as measured, rad.
    pub camber_rad: f64,
    /// Caster against the ground less that as measured, rad.
    pub caster_rad: f64,
    /// Ride frequency, Hz.
    pub frequency_hz: f64,
    /// The pair that comes nearest before the bump ends, but for the one that ends it, and how near, mm.
    pub nearest: Option<(Pair, f64)>,
    /// What it gives up, by the weights.
    pub cost: f64,
}

impl Way {
    /// The proposal that it is.
    #[must_use]
    pub fn proposal(&self, name: &str) -> Proposal {
        let mut sources = self.guesses.clone();
        sources.keep_to(&self.changes);
        let (changes, rear_down_mm) = (self.changes.clone(), self.rear_down_mm);
        Proposal { changes, rear_down_mm, sources, ..Proposal::new(ProposalId(0), name) }
    }
}

/// A search under way.
#[derive(Clone, Debug)]
pub struct Ways {
    truck: Truck,
    wish: Wish,
    weights: Weights,
    table: PartsTable,
    guesses: ChangeSources,
    before: Rest,
    bump_before_mm: f64,
    below_before: Vec<Low>,
    at: usize,
    left_out: [u32; LeftOut::ALL.len()],
    found: Vec<Way>,
}

/// As many ways are kept; of more the cheapest.
const KEPT: usize = 40;

impl Ways {
    /// A search over every combination of the parts on the table.
    ///
    /// # Errors
    /// Why the truck as measured does not stand.
    pub fn new(
        truck: &Truck,
        wish: Wish,
        weights: Weights,
        table: PartsTable,
    ) -> Result<Self, crate::NoRest> {
        let before = Rest::of(truck::Fitted::as_measured(truck))?;
        let room = Clearances::of(&before, Clearances::LIVE);
        Ok(Self {
            truck: truck.clone(),
            wish,
            weights,
            guesses: guesses(&table),
            table,
            bump_before_mm: travel_left_of(&before, &room).bump.travel_mm,
            below_before: below(&before),
            before,
            at: 0,
            left_out: [0; LeftOut::ALL.len()],
            found: Vec::new(),
        })
    }

    /// How many combinations there are.
    #[must_use]
    pub fn total(&self) -> usize {
        self.table.combinations(&self.truck)
    }

    /// How many were tried.
    #[must_use]
    pub const fn tried(&self) -> usize {
        self.at
    }

    /// Tries the next `count` combinations; whether all are done.
    pub fn step(&mut self, count: usize) -> bool {
        let end = self.total().min(self.at.saturating_add(count));
        while self.at < end {
            match self.way(self.at) {
                Ok(way) => self.keep(way),
                Err(why) => self.left_out[why as usize] += 1,
            }
            self.at += 1;
        }
        self.at >= self.total()
    }

    /// The ways found so far, the cheapest first.
    #[must_use]
    pub fn found(&self) -> &[Way] {
        &self.found
    }

    /// How many were left out so far for each reason that left any out.
    pub fn left_out(&self) -> impl Iterator<Item = (LeftOut, u32)> {
        LeftOut::ALL.into_iter().zip(self.left_out).filter(|(_, count)| *count > 0)
    }

    fn keep(&mut self, way: Way) {
        // Set up, two combinations can come to the same proposal.
        if self.found.iter().any(|other| other.changes == way.changes) {
            return;
        }
        let at = self.found.partition_point(|other| (other.cost, other.index) <= (way.cost, way.index));
        self.found.insert(at, way);
        self.found.truncate(KEPT);
    }

    /// One combination: the cheap questions first, the room of every pair last.
    fn way(&self, index: usize) -> Result<Way, LeftOut> {
        let wish = self.wish;
        let stands = |changes: &[Change]| -> Result<Rest, LeftOut> {
            let fitted = fit(&self.truck, self.plan(changes)).map_err(|_| LeftOut::NoStance)?;
            if !fitted.remarks.is_empty() {
                return Err(LeftOut::Adjuster);
            }
            Rest::of(fitted).map_err(|_| LeftOut::NoStance)
        };
        let mut changes = self.table.changes(&self.truck, index);
        let mut rest = stands(&changes)?;
        self.cheap(&rest)?;
        if wish.shims {
            // What is set moves the height a little, and so all that hangs on it.
            changes = self.shimmed(&changes, &rest)?;
            rest = stands(&changes)?;
            self.cheap(&rest)?;
        }
        let room = Clearances::of(&rest, Clearances::LIVE);
        let left = travel_left_of(&rest, &room);
        if left.bump.travel_mm < wish.bump_mm {
            return Err(LeftOut::Bump);
        }
        let nearest = nearest(&rest, &room, &left.bump);
        if nearest.is_some_and(|(_, room_mm)| room_mm < wish.room_mm) {
            return Err(LeftOut::Room);
        }
        let way = Way {
            index,
            drop_mm: self.drop_mm(&rest),
            bump: left.bump,
            bump_lost_mm: self.bump_before_mm - left.bump.travel_mm,
            camber_rad: rest.attitude().camber_rad - self.before.attitude().camber_rad,
            caster_rad: rest.attitude_on_ground().caster_rad - self.before.attitude_on_ground().caster_rad,
            frequency_hz: rest.ride_frequency_hz(),
            nearest,
            cost: 0.0,
            rear_down_mm: wish.rear_down_mm,
            guesses: self.guesses.clone(),
            is_guess: !rest.fitted.guessed.is_empty(),
            changes,
        };
        Ok(Way { cost: self.cost(&way), ..way })
    }

    /// The changes of a combination with what is wished of the rear.
    const fn plan<'a>(&'a self, changes: &'a [Change]) -> Plan<'a> {
        Plan { changes, rear_down_mm: self.wish.rear_down_mm, sources: &self.guesses }
    }

    fn drop_mm(&self, rest: &Rest) -> f64 {
        self.before.ride_height_mm() - rest.ride_height_mm()
    }

    /// The limits that need no look at the room.
    fn cheap(&self, rest: &Rest) -> Result<(), LeftOut> {
        let wish = &self.wish;
        let (low, high) = wish.frequency_hz;
        let broken = [
            ((self.drop_mm(rest) - wish.drop_mm).abs() > wish.within_mm, LeftOut::Height),
            (rest.held_by != crate::HeldBy::Spring, LeftOut::NoStance),
            (loading(rest).droop.is_some_and(|droop| droop.is_loose()), LeftOut::Loose),
            (rest.travel_at(rest.stops.touch_rad) < wish.bump_mm, LeftOut::Stop),
            (!(low..=high).contains(&rest.ride_frequency_hz()), LeftOut::Frequency),
            (wish.flat_tire && hangs_lower(rest, &self.below_before), LeftOut::FlatTire),
        ];
        broken.into_iter().find(|(broken, _)| *broken).map_or(Ok(()), |(_, why)| Err(why))
    }

    /// The proposal with camber and toe brought back to as measured, at its height.
    fn shimmed(&self, changes: &[Change], rest: &Rest) -> Result<Vec<Change>, LeftOut> {
        let target = Target {
            camber_rad: self.before.attitude().camber_rad,
            toe_rad: self.before.attitude().toe_rad,
            ..Target::of(rest)
        };
        let set = setting(&self.truck, self.plan(changes), &target, CasterBy::Shims, &Steps::INCHES)
            .map_err(|_| LeftOut::Shims)?;
        if set.bounds.is_empty() { Ok(set.changes) } else { Err(LeftOut::Shims) }
    }

    fn cost(&self, way: &Way) -> f64 {
        let Weights { bump, camber, caster, frequency, part, scar } = self.weights;
        let parts = |scars: bool| {
            let counted = |change: &&Change| is_scar(change.kind()) == scars && is_part(change.kind());
            way.changes.iter().filter(counted).fold(0.0, |count, _| count + 1.0)
        };
        bump * way.bump_lost_mm.max(0.0) / 10.0
            + camber * way.camber_rad.to_degrees().abs()
            + caster * way.caster_rad.to_degrees().abs()
            + frequency * (way.frequency_hz - self.before.ride_frequency_hz()).abs() * 10.0
            + part * (parts(false) + parts(true))
            + scar * parts(true)
    }
}

/// Nobody has measured plate and flange of the joints on the table.
fn guesses(table: &PartsTable) -> ChangeSources {
    let mut sources = ChangeSources::TYPED;
    for joint in &table.joints {
        for at in 0..2 {
            sources.set((ChangeKind::JointTurned, Some(joint.place), at), Source::Assumed);
        }
    }
    sources
}

/// What is set with a wrench anyway is no part.
const fn is_part(kind: ChangeKind) -> bool {
    !matches!(kind, ChangeKind::Shims | ChangeKind::TieRod | ChangeKind::StrutRod | ChangeKind::BarAdjuster)
}

const fn is_scar(kind: ChangeKind) -> bool {
    matches!(kind, ChangeKind::CutCoil | ChangeKind::StopTrim)
}

/// What hangs below the scrub line.
fn below(rest: &Rest) -> Vec<Low> {
    let points = LowLine::worst(rest).points;
    points.into_iter().filter(|point| point.over_line_mm < 0.0).map(|point| point.of).collect()
}

/// Whether something hangs below the line that did not before.
fn hangs_lower(rest: &Rest, before: &[Low]) -> bool {
    below(rest).iter().any(|low| !before.contains(low))
}

/// The pair that comes nearest on the way to what ends the bump, and in droop; what
/// ends it meets there by right, and is left out.
///
/// Where the least of all lies on the way it is known exactly; otherwise it is
/// the least of the grid's rows there and of one where the bump ends.
fn nearest(rest: &Rest, room: &Clearances, bump: &Limit) -> Option<(Pair, f64)> {
    let steering = Steering::of(rest).ok();
    let ends: Vec<Pose> = room
        .steers
        .iter()
        .filter_map(|steer| match &steering {
            Some(steering) => steering.pose(rest, bump.travel_mm, *steer).ok(),
            None => rest.at_travel(bump.travel_mm).ok(),
        })
        .collect();
    let least = |found: &Found| {
        if found.at.travel_mm <= bump.travel_mm {
            return found.gap.distance_mm;
        }
        let rows = room.travels_mm.iter().zip(found.map.chunks(room.steers.len()));
        let usable = rows.filter(|(travel_mm, _)| **travel_mm <= bump.travel_mm);
        let on_rows = usable.flat_map(|(_, row)| row.iter().copied()).filter(|mm| mm.is_finite());
        let at_end = ends.iter().filter_map(|pose| Some(clearance(rest, pose, found.pair)?.distance_mm));
        on_rows.chain(at_end).fold(f64::INFINITY, f64::min)
    };
    let others = room.found.iter().filter(|found| bump.by != Limiter::Contact(found.pair));
    let rooms = others.map(|found| (found.pair, least(found))).filter(|(_, mm)| mm.is_finite());
    rooms.fold(None, |best: Option<(Pair, f64)>, here| match best {
        Some(best) if best.1 <= here.1 => Some(best),
        _ => Some(here),
    })
}
