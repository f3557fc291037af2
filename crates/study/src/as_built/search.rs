//! The search for what was built otherwise, to be taken on in steps.

use super::cause::push_causes;
use super::weigh::{Compared, Weights, chi_squared, variance};
use super::{AsBuilt, BuiltRow, Cause, CauseFound, matters};
use crate::figure::{Figure, Trial, Value, Values};
use crate::order::least_first;
use crate::spread::{COVERAGE, Spreading};
use truck::{Design, Readable, Readings, Side, Which};

/// How often the size of a cause is found anew from where the last one led: what follows is not straight.
const TIMES: u32 = 3;
/// The share of its plausible size by which a cause is tried first.
const PROBE: f64 = 0.25;
/// A step of less than this share of the plausible size leads nowhere else.
const STILL: f64 = 1e-3;
/// A number that moves what is planned by less than this share of what matters, a deviation of it, is not seen.
const UNSEEN: f64 = 0.005;
/// The share of what matters by which work that was done as planned comes out otherwise, one standard deviation.
/// Common practice, no source.
const WORKMANSHIP: f64 = 1.0 / 6.0;
/// So many of the likeliest are looked at once more, with what is not known of their own effect.
const CONTENDERS: usize = 10;
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
#[derive(Debug)]
pub struct AsBuiltSearch {
    side: Side,
    sits: Trial,
    plan: Trial,
    rows: Vec<BuiltRow>,
    /// What was read before, and not when it was read last.
    unread: Vec<Readable>,
    /// What is asked of every truck: each answer that can be read and follows smoothly.
    figures: Vec<Figure>,
    spreading: Spreading,
    /// What the proposal comes to, of the figures; nothing before it was asked.
    planned: Vec<Option<f64>>,
    compared: Vec<Compared>,
    /// How what is compared weighs; `None` before it is known how it follows.
    weights: Option<Weights>,
    causes: Vec<Tried>,
    /// The one that is sized next.
    next: usize,
    /// The likeliest, which are looked at once more, the last first.
    contenders: Vec<usize>,
    /// What is not known of the truck that the last of them makes.
    closer: Option<Spreading>,
}

/// A cause, as far as it was looked at.
#[derive(Debug)]
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

/// The studies.
type Reader<'a> = &'a dyn Fn(&Trial, &[Figure]) -> Values;

impl AsBuiltSearch {
    /// A search for one of a design's trucks, as [`new`](Self::new): by what was read once it had settled, where
    /// anything was at that side, since readings of two times are of two trucks.
    #[must_use]
    pub fn of_design(design: &Design, which: Which, side: Side) -> Option<Self> {
        let trial = |which| Trial::new(&design.truck, design.overlay(which));
        let (sits, plan) = (trial(Which::AsMeasured), trial(which));
        if design.is_settled(side) {
            Self::since(sits, plan, &design.built, &design.settled, side)
        } else {
            Self::new(sits, plan, &design.built, side)
        }
    }

    /// A search for a truck as it sits and one of its proposals, by what was read at a side before and as
    /// built; `None` where nothing was read there as built.
    #[must_use]
    pub fn new(sits: Trial, plan: Trial, built: &Readings, side: Side) -> Option<Self> {
        Self::since(sits, plan, &Readings::default(), built, side)
    }

    /// The same, of a truck that was read when the work was done and again later.
    fn since(
        mut sits: Trial,
        mut plan: Trial,
        first: &Readings,
        built: &Readings,
        side: Side,
    ) -> Option<Self> {
        // The model's own: what was read is put beside it here.
        let before = std::mem::take(&mut sits.truck.readings);
        plan.truck.readings = Readings::default();
        let (mut rows, mut unread, mut read) = (Vec::new(), Vec::new(), Vec::new());
        let (mut figures, mut all) = (Vec::new(), Vec::new());
        for of in Readable::ALL.iter().copied() {
            let figure = Figure::of_reading(of);
            let is_smooth = !figure.switches();
            if is_smooth {
                figures.push(figure);
            }
            let get = |readings: &Readings| {
                readings.get(of, side).map(|reading| (reading.answer(), reading.answer_tolerance()))
            };
            let (was, earlier) = (get(&before), get(first));
            let Some(reading) = built.get(of, side) else {
                if was.or(earlier).is_some() {
                    unread.push(of);
                }
                continue;
            };
            if is_smooth {
                read.push(figure);
                all.push(Cause::Misread(of));
            }
            rows.push(BuiltRow { earlier, ..BuiltRow::of(of, reading, was) });
        }
        if rows.is_empty() {
            return None;
        }
        push_causes(&plan, side, &mut all);
        let mut causes = Vec::new();
        for cause in all {
            causes.push(Tried::new(cause));
        }
        let spreading = Spreading::on_one_floor(vec![sits.clone(), plan.clone()], side, &read);
        Some(Self {
            side,
            sits,
            plan,
            rows,
            unread,
            figures,
            spreading,
            planned: Vec::new(),
            compared: Vec::new(),
            weights: None,
            causes,
            next: 0,
            contenders: Vec::new(),
            closer: None,
        })
    }

    /// Reads one truck, of which `values_of` gives the values of figures in their order; how it came out once
    /// that is known.
    pub fn step(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> Option<AsBuilt> {
        if self.planned.is_empty() {
            self.planned = numbers(values_of(&self.plan, &self.figures));
            return None;
        }
        let Some(weights) = self.weights.take() else {
            if self.spreading.step(values_of) {
                self.compare();
                let is_off = self.compared.iter().any(|one| one.is_to_be_explained);
                self.weights = Weights::of(&self.compared, &self.spreading).filter(|_| is_off);
                if self.weights.is_none() {
                    return Some(self.found());
                }
            }
            return None;
        };
        let mut causes = std::mem::take(&mut self.causes);
        let mut is_found = false;
        if let Some(tried) = causes.get_mut(self.next) {
            self.next += usize::from(self.size(tried, &weights, values_of));
            if self.next == causes.len() {
                self.contenders = self.likeliest(&causes);
            }
        } else if let Some(at) = self.contenders.last().copied() {
            let mut closer = self.closer.take().or_else(|| self.look_closer(&causes[at]));
            if closer.as_mut().is_none_or(|spreading| spreading.step(values_of)) {
                self.settle(&mut causes[at], &weights, closer.as_ref(), values_of);
                self.contenders.pop();
            } else {
                self.closer = closer;
            }
        } else {
            is_found = true;
        }
        (self.causes, self.weights) = (causes, Some(weights));
        is_found.then(|| self.found())
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
        for row in &mut self.rows {
            let was_read = row.before.is_some();
            let (before, tolerance) = row.before.unwrap_or((0.0, 0.0));
            let value = |at| self.spreading.value(at, Figure::of_reading(row.of));
            let sits = if was_read { value(0) } else { Some(0.0) };
            let moves = Compared::moves(row.of, was_read, &self.spreading);
            let (Some(plan), Some(sits), Some(moves)) = (value(1), sits, moves) else { continue };
            let own = variance(row.tolerance) + variance(tolerance);
            // What is set and bolted up comes out nearly so, and no cause is looked for beyond that.
            let work = WORKMANSHIP * matters(row.of);
            let all = COVERAGE * (own + moves.iter().map(|by| by * by).sum::<f64>()).sqrt();
            let mut guesses = self.spreading.guesses(&moves);
            row.is_guess = guesses.any(|by| by.abs() > UNSEEN * matters(row.of));
            let off = row.read - (before + plan - sits);
            row.planned = Some(row.read - off);
            row.spread = Some(all);
            *row = row.judged();
            self.compared.push(Compared {
                of: row.of,
                off,
                own: own + work * work,
                was_read,
                is_to_be_explained: row.is_off(),
            });
        }
        // Where one side alone stands otherwise the frame pitches by half of it, and nobody has said which.
        let height = self.compared.iter().find(|one| one.of == Readable::FrameHeight);
        let pitch = height.map_or(0.0, |one| one.off / (2.0 * self.sits.truck.body.wheelbase_mm));
        for one in &mut self.compared {
            if one.of == Readable::Caster {
                one.own += pitch * pitch;
            }
        }
    }

    /// Puts a cause on as large as it is to be tried, or can be, and keeps what follows; false where it cannot
    /// be so.
    fn put(&self, tried: &mut Tried, weights: &Weights, values_of: Reader<'_>) -> bool {
        let (mut moved, mut moves) = (Vec::new(), vec![Some(0.0); self.figures.len()]);
        if let Cause::Misread(of) = tried.cause {
            for one in &self.compared {
                moved.push(if one.of == of { tried.by } else { 0.0 });
            }
        } else {
            let Some((trial, by)) = tried.cause.put(&self.plan, self.side, tried.by) else { return false };
            let there = numbers(values_of(&trial, &self.figures));
            for (at, by) in moves.iter_mut().enumerate() {
                *by = there[at].zip(self.planned[at]).map(|(there, planned)| there - planned);
            }
            for one in &self.compared {
                let figure = Figure::of_reading(one.of);
                let at = self.figures.iter().position(|other| *other == figure);
                let Some(by) = at.and_then(|at| moves[at]) else { return false };
                moved.push(by);
            }
            tried.by = by;
        }
        let share = tried.cause.plausible().map_or(0.0, |plausible| tried.by / plausible);
        tried.misfit = Some(weights.misfit(&moved) + share * share);
        (tried.moved, tried.moves) = (moved, moves);
        true
    }

    /// Looks at how large a cause is likeliest; true when that is known.
    fn size(&self, tried: &mut Tried, weights: &Weights, values_of: Reader<'_>) -> bool {
        tried.times += 1;
        let is_last = tried.times > TIMES;
        let stands = self.put(tried, weights, values_of);
        let Some(plausible) = tried.cause.plausible() else { return true };
        if !stands {
            // With less of it the truck may stand.
            tried.by /= 4.0;
            return is_last;
        }
        if tried.by == 0.0 {
            tried.misfit = None;
            return true;
        }
        let next = weights.best(&tried.moved, tried.by, plausible);
        if is_last || (next - tried.by).abs() <= STILL * plausible {
            return true;
        }
        tried.by = next;
        false
    }

    /// The causes that explain what was read best so far, the likeliest last.
    fn likeliest(&self, causes: &[Tried]) -> Vec<usize> {
        let mut order = Vec::new();
        for (at, tried) in causes.iter().enumerate() {
            if let Some(misfit) = tried.misfit.filter(|_| self.explains(tried)) {
                order.push((at, misfit));
            }
        }
        least_first(&mut order, |(_, misfit)| *misfit);
        order.truncate(CONTENDERS);
        order.into_iter().rev().map(|(at, _)| at).collect()
    }

    /// Whether with a cause nothing is off by as much as matters of what is to be explained: what is small
    /// explains nothing.
    fn explains(&self, tried: &Tried) -> bool {
        self.compared.iter().zip(&tried.moved).all(|(one, moved)| {
            let left = (one.off - moved).abs();
            !one.is_to_be_explained || left <= matters(one.of)
        })
    }

    /// What is not known of the truck that a cause makes; nothing of a reading that is wrong.
    fn look_closer(&self, tried: &Tried) -> Option<Spreading> {
        let (trial, _) = tried.cause.put(&self.plan, self.side, tried.by)?;
        let read: Vec<_> = self.compared.iter().map(|one| Figure::of_reading(one.of)).collect();
        Some(Spreading::on_one_floor(vec![self.sits.clone(), trial], self.side, &read))
    }

    /// Sizes a cause once more by what is not known of its own effect, and tells how likely it is.
    fn settle(
        &self,
        tried: &mut Tried,
        planned: &Weights,
        spreading: Option<&Spreading>,
        values_of: Reader<'_>,
    ) {
        let own = spreading.and_then(|spreading| Weights::of(&self.compared, spreading));
        let weights = own.as_ref().unwrap_or(planned);
        if let Some(plausible) = tried.cause.plausible()
            && self.put(tried, weights, values_of)
        {
            tried.by = weights.best(&tried.moved, tried.by, plausible);
        }
        if self.put(tried, weights, values_of) {
            let closer = weights.log_determinant - planned.log_determinant;
            tried.unlikely = tried.misfit.map(|misfit| misfit + closer);
        }
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
        let is_guess = self.rows.iter().any(|row| row.is_guess);
        let mut causes: Vec<CauseFound> = Vec::new();
        for (tried, _) in &named {
            // What is not on is also off by all of its size.
            let is_less = match tried.cause {
                Cause::Number(change, _) => {
                    named.iter().any(|(other, _)| other.cause == Cause::NotOn(change))
                }
                _ => false,
            };
            if !is_less {
                let by = tried.cause.plausible().map(|_| tried.by);
                causes.push(CauseFound { cause: tried.cause, by, is_guess });
            }
        }
        let (rows, unread) = (self.rows.clone(), self.unread.clone());
        AsBuilt { rows, unread, causes, tells: self.tells(&named) }
    }

    /// The answer, read as it sat and not as built yet, that differs most between some causes, in what its
    /// usual tool reads.
    fn tells(&self, together: &[(&Tried, f64)]) -> Option<Readable> {
        let (mut best, mut most) = (None, std::f64::consts::SQRT_2);
        for (at, figure) in self.figures.iter().enumerate() {
            let Some(of) = figure.readable().filter(|of| self.unread.contains(of)) else { continue };
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
    fn new(cause: Cause) -> Self {
        let by = cause.plausible().map_or(0.0, |plausible| PROBE * plausible);
        Self { cause, by, times: 0, moved: Vec::new(), moves: Vec::new(), misfit: None, unlikely: None }
    }
}
