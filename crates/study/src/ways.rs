//! Ways down: which parts bring a truck to a height within limits, and what each gives up.
//!
//! Every combination of the parts on the table is tried: what breaks a limit is
//! counted by its reason, what is left is ranked by what it gives up. The search
//! has no clock: it is taken on in steps, and comes to the same however it was
//! sliced.

mod certain;
mod left_out;
mod limits;
mod nearest;
mod rear;
mod table;
mod told;
mod wish;

pub use certain::{Certainty, Contest};
pub use left_out::{LeftOut, Lowest, Miss};
pub use rear::{Barred, NoRearWay, RearTable, RearWay, rear_way};
pub use table::PartsTable;
pub use wish::{Weights, Wish};

use crate::clearance::{Against, Pair};
use crate::grid::Clearances;
use crate::rest::Rest;
use crate::scrub_line::Low;
use crate::stance::{NoStance, Stance, StandingSide};
use crate::travel_left::{Limit, Limiter, travel_left_of};
use limits::{Short, below};
use nearest::rooms;
use truck::{Change, ChangeKind, Overlay, Proposal, ProposalId, Side, Truck};

/// One way down.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Its index among all combinations: of two that cost the same the first stands first.
    pub index: usize,
    /// The whole proposal.
    pub changes: Vec<Change>,
    /// How far the rear comes down in it, mm, as it was wished.
    pub rear_down_mm: Option<f64>,
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
    /// The pair that comes nearest, and how near, mm: to what controls the truck at any
    /// travel, to frame and fender before the bump ends, but for what ends it.
    pub nearest: Option<(Pair, f64)>,
    /// Pairs of a turning wheel and what it could jam that were not looked at, since
    /// numbers of theirs are not stated.
    pub unseen: Vec<Pair>,
    /// What it gives up, by the weights.
    pub cost: f64,
}

impl Way {
    /// The proposal that it is.
    #[must_use]
    pub fn proposal(&self, name: &str) -> Proposal {
        let mut proposal = Proposal::new(ProposalId(0), name);
        proposal.rear_down_mm = self.rear_down_mm;
        self.changes.iter().for_each(|change| proposal.set(*change));
        proposal
    }
}

/// A search under way.
#[derive(Clone, Debug)]
pub struct Ways {
    truck: Truck,
    wish: Wish,
    weights: Weights,
    table: PartsTable,
    before: StandingSide,
    bump_before_mm: f64,
    below_before: Vec<Low>,
    at: usize,
    /// The last combination without a spindle, and how much it stands lower, mm.
    without_spindle: Option<(usize, Option<f64>)>,
    left_out: [usize; LeftOut::ALL.len()],
    found: Vec<Way>,
    /// Combinations that come to another height, the nearest to the wish first: how far off, mm, which, and
    /// how far they come down, mm.
    other_heights: Vec<(f64, usize, f64)>,
    misses: Vec<Miss>,
    /// Combinations that are no way, the one that comes down most last: how far, mm, and which.
    lower: Vec<(f64, usize)>,
    /// What was wrong with the last of them that was looked at again.
    stops: Option<(LeftOut, Option<Limiter>)>,
    lowest: Option<Lowest>,
}

/// Most ways that are kept: the cheapest.
const KEPT: usize = 40;
/// Where there is no way, so many combinations of the nearest heights are looked at again.
const HEIGHTS: usize = 24;
/// Of more combinations than these nobody asks how low they reach.
const REACHING: usize = 512;
/// How far off a height may be that is worked out without its spindle: so much, mm, and a share of
/// the spindle's drop, ten times what a knuckle tilted by eight degrees makes of it.
const SURE_MM: f64 = 1.0;
const SURE_SHARE: f64 = 0.1;
/// Gains that are none: of bump travel, mm, camber and caster, rad, ride frequency, Hz.
/// What a tape and a gauge cannot tell. Common practice, no source.
const NO_GAIN: [f64; 4] = [0.5, 0.05 * DEGREE, 0.05 * DEGREE, 0.01];
const DEGREE: f64 = std::f64::consts::PI / 180.0;

impl Ways {
    /// A search over every combination of the parts on the table.
    ///
    /// # Errors
    /// Why the truck as measured does not stand.
    pub fn new(truck: &Truck, wish: Wish, weights: Weights, table: PartsTable) -> Result<Self, NoStance> {
        let before = Stance::as_measured(truck)?.on(Side::Left);
        let room = Clearances::of(&before, Clearances::LIVE);
        Ok(Self {
            truck: truck.clone(),
            wish,
            weights,
            table,
            bump_before_mm: travel_left_of(&before, &room).bump.travel_mm,
            below_before: below(&before).map(|(low, _)| low).collect(),
            before,
            at: 0,
            without_spindle: None,
            left_out: [0; LeftOut::ALL.len()],
            found: Vec::new(),
            other_heights: Vec::new(),
            misses: Vec::new(),
            lower: Vec::new(),
            stops: None,
            lowest: None,
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

    /// Tries the next `count` combinations; whether all are done. Where none is a way
    /// the nearest misses of the height are then looked at again, and how low the parts reach.
    pub fn step(&mut self, count: usize) -> bool {
        let total = self.total();
        for _ in 0..count {
            if self.at < total {
                self.try_next();
            } else if !self.look_again() && !self.look_lower() {
                break;
            }
        }
        let is_looked = self.other_heights.is_empty() && self.lower.is_empty();
        self.at >= total && (is_looked || !self.found.is_empty())
    }

    /// The ways found so far, the cheapest first.
    #[must_use]
    pub fn found(&self) -> &[Way] {
        &self.found
    }

    /// How many were left out so far for each reason that left any out. With the ways
    /// found they are as many as were tried.
    pub fn left_out(&self) -> impl Iterator<Item = (LeftOut, usize)> {
        LeftOut::ALL.into_iter().zip(self.left_out).filter(|(_, count)| *count > 0)
    }

    /// For each reason that can be measured the combination that missed by least. That
    /// of another height is there once all are done and none is a way: the nearest that
    /// is otherwise within the limits, among the few nearest, or the nearest of all.
    #[must_use]
    pub fn misses(&self) -> &[Miss] {
        &self.misses
    }

    /// Where there is no way, once all are done, the combination that comes down most of those that are within all
    /// limits but the height. None where no combination is, where they reach lower than was wished, and where
    /// there are too many to look at.
    #[must_use]
    pub const fn lowest(&self) -> Option<&Lowest> {
        self.lowest.as_ref()
    }

    /// Tries the next combination.
    fn try_next(&mut self) {
        let index = self.at;
        self.at += 1;
        if let Some(drop_mm) = self.surely_at_another_height(index) {
            self.other_height(index, drop_mm);
            return;
        }
        match self.way(index, self.wish.within_mm) {
            Ok(way) if self.is_as_good_with_less(&way) => self.count(LeftOut::Spare),
            Ok(way) => self.keep(way),
            Err((changes, short)) => match (short.why, short.drop_mm) {
                (LeftOut::Height, Some(drop_mm)) => self.other_height(index, drop_mm),
                (why, drop_mm) => {
                    self.count(why);
                    if let Some(drop_mm) = drop_mm {
                        self.keep_lower(index, drop_mm);
                        let Short { short, by, .. } = short;
                        self.keep_miss(Miss { index, changes, drop_mm, why, short, by, besides: None });
                    }
                }
            },
        }
    }

    const fn count(&mut self, why: LeftOut) {
        self.left_out[why as usize] += 1;
    }

    /// What a combination comes down by, where it cannot be what is wanted: known from
    /// the one without its spindle, with what no tilt of the knuckle makes up for.
    ///
    /// A spindle changes neither the arm's angle at rest nor whether the parts close, but
    /// for the cosine by which its knuckle has tilted since it was measured.
    fn surely_at_another_height(&mut self, index: usize) -> Option<f64> {
        let changes = self.table.changes(&self.truck, index);
        let spindle_mm = changes.iter().find_map(|change| match change {
            Change::DroppedSpindle(spindle) => Some(spindle.drop_mm),
            _ => None,
        })?;
        let bare = self.table.without_spindle(index);
        if self.without_spindle.is_none_or(|(of, _)| of != bare) {
            let rest = self.stands(&self.table.changes(&self.truck, bare)).ok();
            self.without_spindle = Some((bare, rest.map(|rest| self.drop_mm(&rest))));
        }
        let drop_mm = self.without_spindle.and_then(|(_, drop_mm)| drop_mm)? + spindle_mm;
        let off_mm = (drop_mm - self.wish.drop_mm).abs();
        let doubt_mm = SURE_MM + SURE_SHARE * spindle_mm.abs() + self.setup_margin_mm();
        (off_mm > self.wish.within_mm + doubt_mm).then_some(drop_mm)
    }

    fn other_height(&mut self, index: usize, drop_mm: f64) {
        self.count(LeftOut::Height);
        self.keep_lower(index, drop_mm);
        let off_mm = (drop_mm - self.wish.drop_mm).abs();
        let at = self.other_heights.partition_point(|(off, other, _)| (*off, *other) <= (off_mm, index));
        self.other_heights.insert(at, (off_mm, index, drop_mm));
        self.other_heights.truncate(HEIGHTS);
    }

    /// Asks the next of the nearest heights whether it is within the other limits; whether there was one.
    fn look_again(&mut self) -> bool {
        if !self.found.is_empty() || self.other_heights.is_empty() {
            return false;
        }
        let (_, index, worked_out_mm) = self.other_heights.remove(0);
        let of = |changes, drop_mm: f64, besides| Miss {
            index,
            changes,
            drop_mm,
            why: LeftOut::Height,
            short: ((drop_mm - self.wish.drop_mm).abs() - self.wish.within_mm).max(0.0),
            by: None,
            besides,
        };
        let miss = match self.way(index, f64::INFINITY) {
            Ok(way) => of(way.changes, way.drop_mm, None),
            // Of what does not stand its height is as it was worked out without its spindle.
            Err((changes, short)) => of(changes, short.drop_mm.unwrap_or(worked_out_mm), Some(short.why)),
        };
        let known = self.misses.first().is_some_and(|first| first.why == LeftOut::Height);
        if miss.besides.is_none() {
            self.other_heights.clear();
            self.misses.retain(|other| other.why != LeftOut::Height);
            self.misses.insert(0, miss);
        } else if !known {
            self.misses.insert(0, miss);
        }
        true
    }

    fn keep_lower(&mut self, index: usize, drop_mm: f64) {
        if drop_mm > 0.0 && self.total() <= REACHING {
            let at = self.lower.partition_point(|other| *other <= (drop_mm, index));
            self.lower.insert(at, (drop_mm, index));
        }
    }

    /// Asks of the combination that comes down most whether it is within the other limits; whether there was one.
    fn look_lower(&mut self) -> bool {
        if !self.found.is_empty() {
            return false;
        }
        let Some((_, index)) = self.lower.pop() else { return false };
        match self.way(index, f64::INFINITY) {
            Ok(Way { changes, drop_mm, unseen, .. }) => {
                self.lower.clear();
                let (frame_mm, stops) = (self.before.ride_height_mm() - drop_mm, self.stops);
                let is_short = drop_mm < self.wish.drop_mm;
                self.lowest = is_short.then_some(Lowest { changes, drop_mm, frame_mm, unseen, stops });
            }
            // What does not even stand says least of why.
            Err((_, Short { why, by, .. })) if why != LeftOut::NoStance || self.stops.is_none() => {
                self.stops = Some((why, by));
            }
            Err(_) => {}
        }
        true
    }

    fn keep_miss(&mut self, miss: Miss) {
        if miss.short.is_infinite() {
            return;
        }
        match self.misses.binary_search_by_key(&miss.why, |other| other.why) {
            Ok(at) if miss.short < self.misses[at].short => self.misses[at] = miss,
            Ok(_) => {}
            Err(at) => self.misses.insert(at, miss),
        }
    }

    fn keep(&mut self, way: Way) {
        // Set up, two combinations can come to the same proposal.
        if self.found.iter().any(|other| other.changes == way.changes) {
            self.count(LeftOut::Same);
            return;
        }
        let at = self.found.partition_point(|other| (other.cost, other.index) <= (way.cost, way.index));
        self.found.insert(at, way);
        if self.found.len() > KEPT {
            self.found.pop();
            self.count(LeftOut::Dearer);
        }
    }

    /// Whether a part can be left off a way and nothing of what is wanted is lost: what
    /// remains is a way too, and no worse in anything that has a weight.
    fn is_as_good_with_less(&self, way: &Way) -> bool {
        let less = self.table.less_a_part(&self.truck, way.index);
        let without = |index: usize| self.way(index, self.wish.within_mm);
        less.into_iter().filter_map(|index| without(index).ok()).any(|less| {
            let pairs = self.losses(&less).into_iter().zip(self.losses(way));
            less.cost <= way.cost && pairs.zip(NO_GAIN).all(|((less, way), gain)| less <= way + gain)
        })
    }

    /// What is lost, and has a weight: bump travel, mm, camber and caster, rad, ride frequency, Hz.
    fn losses(&self, way: &Way) -> [f64; 4] {
        let Weights { bump, camber, caster, frequency, .. } = self.weights;
        let counted = |weight: f64, loss: f64| if weight > 0.0 { loss } else { 0.0 };
        [
            counted(bump, way.bump_lost_mm.max(0.0)),
            counted(camber, way.camber_rad.abs()),
            counted(caster, way.caster_rad.abs()),
            counted(frequency, (way.frequency_hz - self.before.ride_frequency_hz()).abs()),
        ]
    }

    /// One combination, put to every limit.
    #[inline(never)]
    fn way(&self, index: usize, within_mm: f64) -> Result<Way, (Vec<Change>, Short)> {
        let mut changes = self.table.changes(&self.truck, index);
        match self.limits(&mut changes, within_mm) {
            Ok((rest, bump, room)) => Ok(self.as_way(index, changes, &rest, bump, &room)),
            Err(short) => Err((changes, short)),
        }
    }

    fn as_way(
        &self,
        index: usize,
        changes: Vec<Change>,
        rest: &StandingSide,
        bump: Limit,
        room: &Clearances,
    ) -> Way {
        let control = |pair: &Pair| pair.against() == Against::Control;
        let way = Way {
            index,
            drop_mm: self.drop_mm(rest),
            bump,
            bump_lost_mm: self.bump_before_mm - bump.travel_mm,
            camber_rad: rest.attitude().camber_rad - self.before.attitude().camber_rad,
            caster_rad: rest.attitude_on_ground().caster_rad - self.before.attitude_on_ground().caster_rad,
            frequency_hz: rest.ride_frequency_hz(),
            nearest: rooms(rest, room, &bump)
                .into_iter()
                .min_by(|a, b| a.mm.total_cmp(&b.mm))
                .map(|room| (room.pair, room.mm)),
            unseen: room.unstated.iter().map(|(pair, _)| *pair).filter(control).collect(),
            cost: 0.0,
            rear_down_mm: self.wish.rear_down_mm,
            changes,
        };
        let more_hz = way.frequency_hz - self.before.ride_frequency_hz();
        let lost = [way.bump_lost_mm, way.camber_rad, way.caster_rad, more_hz];
        Way { cost: self.cost(&way.changes, lost), ..way }
    }

    /// The changes of a combination with what is wished of the rear.
    fn overlay<'a>(&'a self, changes: &'a [Change]) -> Overlay<'a> {
        Overlay { rear_down_mm: self.wish.rear_down_mm, ..Overlay::from(changes) }
    }

    fn drop_mm(&self, rest: &Rest) -> f64 {
        self.before.ride_height_mm() - rest.ride_height_mm()
    }

    /// What changes give up: of bump travel so much less, mm, of camber and caster, rad, and ride frequency, Hz, so
    /// much more than as measured.
    fn cost(&self, changes: &[Change], [bump_lost_mm, camber_rad, caster_rad, more_hz]: [f64; 4]) -> f64 {
        let Weights { bump, camber, caster, frequency, part, scar } = self.weights;
        let parts = |scars: bool| {
            let counted = |change: &&Change| is_scar(change.kind()) == scars && is_part(change.kind());
            changes.iter().filter(counted).fold(0.0, |count, _| count + 1.0)
        };
        bump * bump_lost_mm.max(0.0) / 10.0
            + camber * camber_rad.to_degrees().abs()
            + caster * caster_rad.to_degrees().abs()
            + frequency * more_hz.abs() * 10.0
            + part * (parts(false) + parts(true))
            + scar * parts(true)
    }
}

/// What is set with a wrench anyway is no part.
const fn is_part(kind: ChangeKind) -> bool {
    !matches!(kind, ChangeKind::Shims | ChangeKind::TieRod | ChangeKind::StrutRod | ChangeKind::BarAdjuster)
}

const fn is_scar(kind: ChangeKind) -> bool {
    matches!(kind, ChangeKind::CutCoil | ChangeKind::StopTrim)
}
