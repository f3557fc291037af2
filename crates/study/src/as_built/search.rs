//! The search for what was built otherwise, to be taken on in steps.

use super::cause::causes;
use super::weigh::{Compared, Weights, chi_squared, variance};
use super::{AsBuilt, BuiltAgainst, BuiltRow, BuiltVerdict, Cause, CauseFound, is_set, matters};
use crate::figure::{Figure, Trial, Value, Values};
use crate::order::least_first;
use crate::spread::{COVERAGE, Spreading};
use nalgebra::DVector;
use truck::{Readable, Reading, Readings, Side};

/// How often the size of a cause is found anew from where the last one led: what follows is not straight.
const TIMES: u32 = 3;
/// The share of its plausible size by which a cause is tried first.
const PROBE: f64 = 0.25;
/// A step of less than this share of the plausible size leads nowhere else.
const STILL: f64 = 1e-3;
/// So many of the likeliest are looked at once more, with what is not known of their own effect.
const CONTENDERS: usize = 6;
/// Causes of which one is likelier by less are not told apart: two and a half deviations, squared.
const TOGETHER: f64 = 6.25;

/// A search for how a truck came out against its proposal at one side, and why.
///
/// # Source
/// Generalized least squares: readings differ from the proposal by `o` with the covariance `C` of both tools
/// and of what the truck's own numbers leave open of the change; a cause that moves them by `e` leaves
/// `(o − e)ᵀ C⁻¹ (o − e)`, of a χ² distribution where it is the true one. Its size has a normal prior. What is
/// not known of a large cause's own effect is in the `C` of the truck that it makes; of two the one is likelier
/// of which that sum and `ln |C|` are less.
#[derive(Clone, Debug)]
pub struct AsBuiltSearch {
    side: Side,
    sits: Trial,
    plan: Trial,
    rows: Vec<BuiltRow>,
    /// What was read as it sat, and not as built.
    unread: Vec<Readable>,
    /// What is asked of every truck: each answer that can be read and follows smoothly.
    figures: Vec<Figure>,
    stage: Stage,
    spreading: Spreading,
    /// What the proposal comes to, of the figures.
    planned: Vec<Option<f64>>,
    compared: Vec<Compared>,
    /// Whether nothing need be otherwise, for all that is known of the truck.
    may_be_as_planned: bool,
    causes: Vec<Tried>,
}

/// How far it has come.
#[derive(Clone, Debug)]
enum Stage {
    /// What the proposal comes to is read.
    Planned,
    /// How the answers follow from the truck's numbers.
    Spreads,
    /// Causes are sized, one after the other.
    Sizes(Weights, usize),
    /// The likeliest are looked at once more, the last of the list first.
    Closer(Weights, Vec<usize>, Option<Box<Spreading>>),
}

/// What follows from a cause.
struct Effect {
    /// How large it is.
    by: f64,
    /// What it moves of what is compared.
    moved: DVector<f64>,
    /// And of every figure.
    moves: Vec<Option<f64>>,
}

/// A cause, as far as it was looked at.
#[derive(Clone, Debug)]
struct Tried {
    cause: Cause,
    /// How large it is, or is to be tried next.
    by: f64,
    times: u32,
    /// What it moves of what is compared; nothing before that is known.
    moved: Vec<f64>,
    /// And of every figure.
    moves: Vec<Option<f64>>,
    /// How badly it explains what was read; `None` where it cannot.
    misfit: Option<f64>,
    /// The less, the likelier; `None` before it was looked at once more.
    unlikely: Option<f64>,
}

impl AsBuiltSearch {
    /// A search for a truck as it sits and one of its proposals, by what was read at a side before and as
    /// built; `None` where nothing was read there as built.
    #[must_use]
    pub fn new(sits: &Trial, plan: &Trial, built: &Readings, side: Side) -> Option<Self> {
        let (changes, before) = (plan.overlay().on(side), &sits.truck.readings);
        let row = |of: Readable, reading: &Reading| {
            let before = before.get(of, side);
            BuiltRow {
                of,
                read: reading.answer(),
                tolerance: reading.answer_tolerance(),
                before: before.map(|reading| (reading.answer(), reading.answer_tolerance())),
                against: match before {
                    _ if is_set(of, &changes) => BuiltAgainst::Set,
                    Some(_) => BuiltAgainst::AsItSat,
                    None => BuiltAgainst::Model,
                },
                planned: None,
                spread: None,
                verdict: BuiltVerdict::CannotTell,
            }
        };
        let here = built.iter().filter(|(at, ..)| *at == side);
        let rows: Vec<_> = here.map(|(_, of, reading)| row(*of, reading)).collect();
        if rows.is_empty() {
            return None;
        }
        let was_read = before.iter().filter(|(at, of, _)| *at == side && built.get(*of, side).is_none());
        let unread = was_read.map(|(_, of, _)| *of).collect();
        // The model's own: what was read is put beside it here.
        let (mut sits, mut plan) = (sits.clone(), plan.clone());
        sits.truck.readings = Readings::default();
        plan.truck.readings = Readings::default();
        let figures = Readable::ALL.iter().map(|of| Figure::of_reading(*of));
        let figures: Vec<_> = figures.filter(|figure| !figure.switches()).collect();
        let read = rows.iter().map(|row| Figure::of_reading(row.of));
        let read: Vec<_> = read.filter(|figure| !figure.switches()).collect();
        let spreading = Spreading::new(vec![sits.clone(), plan.clone()], side, &read);
        let causes = causes(&plan, side, &rows).into_iter().map(Tried::new).collect();
        let (planned, compared) = (Vec::new(), Vec::new());
        let stage = Stage::Planned;
        let may_be_as_planned = false;
        Some(Self {
            side,
            sits,
            plan,
            rows,
            unread,
            figures,
            stage,
            spreading,
            planned,
            compared,
            may_be_as_planned,
            causes,
        })
    }

    /// Reads one truck, of which `values_of` gives the values of figures in their order; how it came out once
    /// that is known.
    pub fn step(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> Option<AsBuilt> {
        // It is put back, further on, below.
        match std::mem::replace(&mut self.stage, Stage::Planned) {
            Stage::Planned => {
                self.planned = numbers(values_of(&self.plan, &self.figures));
                self.stage = Stage::Spreads;
            }
            Stage::Spreads => {
                self.stage = Stage::Spreads;
                if self.spreading.step(values_of) {
                    self.compare();
                    let is_off = self.rows.iter().any(|row| row.verdict == BuiltVerdict::Outside);
                    let weights = Weights::of(&self.compared, &self.spreading).filter(|_| is_off);
                    let Some(weights) = weights else { return Some(self.found()) };
                    let nothing = DVector::zeros(self.compared.len());
                    self.may_be_as_planned = weights.misfit(&nothing) <= chi_squared(self.compared.len());
                    self.stage = Stage::Sizes(weights, 0);
                }
            }
            Stage::Sizes(weights, at) => {
                if at == self.causes.len() {
                    let likeliest = self.likeliest();
                    self.stage = Stage::Closer(weights, likeliest, None);
                    return None;
                }
                let mut tried = self.causes[at].clone();
                let is_sized = self.size(&mut tried, &weights, values_of);
                self.causes[at] = tried;
                self.stage = Stage::Sizes(weights, at + usize::from(is_sized));
            }
            Stage::Closer(weights, mut remaining, under_way) => {
                let Some(at) = remaining.last().copied() else { return Some(self.found()) };
                let mut tried = self.causes[at].clone();
                let mut under_way = under_way.or_else(|| self.look_closer(&tried).map(Box::new));
                let is_done = under_way.as_mut().is_none_or(|spreading| spreading.step(values_of));
                if is_done {
                    self.settle(&mut tried, &weights, under_way.as_deref(), values_of);
                    self.causes[at] = tried;
                    remaining.pop();
                    under_way = None;
                }
                self.stage = Stage::Closer(weights, remaining, under_way);
            }
        }
        None
    }

    /// The search in one go.
    #[must_use]
    pub fn finish(mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> AsBuilt {
        loop {
            if let Some(found) = self.step(values_of) {
                return found;
            }
        }
    }

    /// Tells of each reading what was planned, how far off that may be and what is thought of it.
    fn compare(&mut self) {
        let mut is_seen = Vec::new();
        for row in &mut self.rows {
            let value = |at| self.spreading.value(at, Figure::of_reading(row.of));
            let planned = match row.before {
                Some((before, _)) => value(1).zip(value(0)).map(|(plan, sits)| before + (plan - sits)),
                None => value(1),
            };
            let moves = Compared::moves(row.of, row.before.is_some(), &self.spreading);
            let Some((planned, moves)) = planned.zip(moves) else { continue };
            let before = row.before.map_or(0.0, |(_, tolerance)| tolerance);
            let own = variance(row.tolerance) + variance(before);
            let all = own + moves.iter().map(|by| by * by).sum::<f64>();
            row.planned = Some(planned);
            row.spread =
                Some(if row.against == BuiltAgainst::Set { row.tolerance } else { COVERAGE * all.sqrt() });
            *row = row.judged();
            let (of, off, was_read) = (row.of, row.read - planned, row.before.is_some());
            let is_to_be_explained = row.verdict == BuiltVerdict::Outside;
            is_seen.push(off.abs() > COVERAGE * all.sqrt());
            self.compared.push(Compared { of, off, own, was_read, is_to_be_explained });
        }
        // What the truck's own numbers leave open is to be explained where nothing else is.
        let mut is_certain = self.compared.iter().zip(&is_seen);
        if is_certain.any(|(one, is_seen)| one.is_to_be_explained && *is_seen) {
            for (one, is_seen) in self.compared.iter_mut().zip(is_seen) {
                one.is_to_be_explained &= is_seen;
            }
        }
        // Where one side alone stands otherwise the frame pitches by half of it, and nobody has said which.
        let height = self.compared.iter().find(|one| one.of == Readable::FrameHeight);
        let pitch = height.map_or(0.0, |one| one.off / (2.0 * self.sits.truck.body.wheelbase_mm));
        for one in self.compared.iter_mut().filter(|one| one.of == Readable::Caster) {
            one.own += pitch * pitch;
        }
    }

    /// What follows from a cause that is so large, or as large as it can be; `None` where it cannot be so.
    fn effect(
        &self,
        cause: &Cause,
        by: f64,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) -> Option<Effect> {
        if let Cause::Misread(of) = cause {
            let moved = self.compared.iter().map(|one| if one.of == *of { by } else { 0.0 });
            let moved = DVector::from_iterator(self.compared.len(), moved);
            return Some(Effect { by, moved, moves: vec![Some(0.0); self.figures.len()] });
        }
        let (trial, by) = cause.put(&self.plan, self.side, by)?;
        let there = numbers(values_of(&trial, &self.figures)).into_iter().zip(&self.planned);
        let moves: Vec<_> = there.map(|(there, planned)| Some(there? - (*planned)?)).collect();
        let of = |one: &Compared| {
            let figure = Figure::of_reading(one.of);
            moves[self.figures.iter().position(|other| *other == figure)?]
        };
        let moved = self.compared.iter().map(of).collect::<Option<Vec<_>>>()?;
        Some(Effect { by, moved: DVector::from_vec(moved), moves })
    }

    /// Looks at how large a cause is likeliest; true when that is known.
    fn size(
        &self,
        tried: &mut Tried,
        weights: &Weights,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) -> bool {
        tried.times += 1;
        let Some(effect) = self.effect(&tried.cause, tried.by, values_of) else {
            // The truck does not stand so: with less of it it may.
            tried.by /= 4.0;
            return tried.times > TIMES || tried.cause.plausible().is_none();
        };
        tried.keep(&effect, weights);
        let Some(plausible) = tried.cause.plausible() else { return true };
        if effect.by == 0.0 {
            tried.misfit = None;
            return true;
        }
        let next = weights.best(&(effect.moved / effect.by), plausible);
        let is_still = (next - effect.by).abs() <= STILL * plausible || tried.times > TIMES;
        if !is_still {
            tried.by = next;
        }
        is_still
    }

    /// The causes that explain what was read best so far, the likeliest last.
    fn likeliest(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.causes.len()).collect();
        order.retain(|at| self.causes[*at].misfit.is_some() && self.explains(&self.causes[*at]));
        least_first(&mut order, |at| self.causes[*at].misfit.unwrap_or(f64::INFINITY));
        order.truncate(CONTENDERS);
        order.reverse();
        order
    }

    /// Whether of all that is to be explained a cause makes the greater part, or all that matters: what is
    /// small explains nothing.
    fn explains(&self, tried: &Tried) -> bool {
        self.compared.iter().zip(&tried.moved).all(|(one, moved)| {
            let left = (one.off - moved).abs();
            !one.is_to_be_explained || left <= matters(one.of).max(0.5 * one.off.abs())
        })
    }

    /// What is not known of the truck that a cause makes; nothing of a reading that is wrong.
    fn look_closer(&self, tried: &Tried) -> Option<Spreading> {
        let (trial, _) = tried.cause.put(&self.plan, self.side, tried.by)?;
        let read: Vec<_> = self.compared.iter().map(|one| Figure::of_reading(one.of)).collect();
        Some(Spreading::new(vec![self.sits.clone(), trial], self.side, &read))
    }

    /// Sizes a cause once more by what is not known of its own effect, and tells how likely it is.
    fn settle(
        &self,
        tried: &mut Tried,
        planned: &Weights,
        spreading: Option<&Spreading>,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) {
        let own = spreading.and_then(|spreading| Weights::of(&self.compared, spreading));
        let weights = own.as_ref().unwrap_or(planned);
        if let Some(plausible) = tried.cause.plausible()
            && let Some(effect) = self.effect(&tried.cause, tried.by, values_of)
        {
            tried.by = weights.best(&(effect.moved / effect.by), plausible);
        }
        let Some(effect) = self.effect(&tried.cause, tried.by, values_of) else { return };
        tried.keep(&effect, weights);
        let closer = weights.log_determinant - planned.log_determinant;
        tried.unlikely = tried.misfit.map(|misfit| misfit + closer);
    }

    /// What was found.
    fn found(&self) -> AsBuilt {
        let mut named: Vec<(&Tried, f64)> = Vec::new();
        for tried in &self.causes {
            let sizes = usize::from(tried.cause.plausible().is_some());
            let free = self.compared.len().saturating_sub(sizes).max(1);
            let fits = tried.misfit.is_some_and(|misfit| misfit <= chi_squared(free));
            if let Some(unlikely) = tried.unlikely.filter(|_| fits && self.explains(tried)) {
                named.push((tried, unlikely));
            }
        }
        least_first(&mut named, |(_, unlikely)| *unlikely);
        let least = named.first().map_or(0.0, |(_, unlikely)| *unlikely);
        named.retain(|(_, unlikely)| *unlikely <= least + TOGETHER);
        // What is not on is also off by all of its size.
        let all: Vec<_> = named.iter().map(|(tried, _)| tried.cause).collect();
        named.retain(|(tried, _)| match tried.cause {
            Cause::Number(change, _) => !all.contains(&Cause::NotOn(change)),
            _ => true,
        });
        let by = |tried: &Tried| tried.cause.plausible().map(|_| tried.by);
        AsBuilt {
            rows: self.rows.clone(),
            unread: self.unread.clone(),
            may_be_as_planned: self.may_be_as_planned,
            causes: named.iter().map(|(tried, _)| CauseFound { cause: tried.cause, by: by(tried) }).collect(),
            tells: self.tells(&named),
        }
    }

    /// The answer, read as it sat and not as built yet, that differs most between some causes, in what its
    /// usual tool reads.
    fn tells(&self, together: &[(&Tried, f64)]) -> Option<Readable> {
        let (mut best, mut most) = (None, std::f64::consts::SQRT_2);
        for (at, figure) in self.figures.iter().enumerate() {
            let of = figure.readable().filter(|of| self.unread.contains(of));
            let Some(of) = of else { continue };
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for (tried, _) in together {
                if let Some(by) = tried.moves.get(at).copied().flatten() {
                    (low, high) = (low.min(by), high.max(by));
                }
            }
            let apart = (high - low) / of.tools()[0].usual_tolerance(of.kind());
            if apart > most {
                (best, most) = (Some(of), apart);
            }
        }
        best
    }
}

fn numbers(values: Values) -> Vec<Option<f64>> {
    values.into_iter().map(|value| value.and_then(Value::number)).collect()
}

impl Tried {
    /// Keeps what follows from it, and how badly that explains what was read.
    fn keep(&mut self, effect: &Effect, weights: &Weights) {
        let share = self.cause.plausible().map_or(0.0, |plausible| effect.by / plausible);
        self.by = effect.by;
        self.moved = effect.moved.as_slice().to_vec();
        self.moves.clone_from(&effect.moves);
        self.misfit = Some(weights.misfit(&effect.moved) + share * share);
    }

    fn new(cause: Cause) -> Self {
        let by = cause.plausible().map_or(0.0, |plausible| PROBE * plausible);
        Self { cause, by, times: 0, moved: Vec::new(), moves: Vec::new(), misfit: None, unlikely: None }
    }
}
