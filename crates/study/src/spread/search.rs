//! The spreads of figures of a truck and its proposals, to be taken on in steps.

use super::disagreement::{Disagreement, disagreement};
use super::{COVERAGE, Input, Inputs, Sensitivities, Uncertainty};
use crate::figure::{Figure, Trial, Value, Values};
use crate::order::least_first;
use nalgebra::{DMatrix, DVector, RowDVector};
use truck::{Field, Overlay, Readable, Reading, Readings, Side};

/// A search for how far off figures of a truck and of its proposals may be.
///
/// What was read off the truck and the drawn points say too narrows all else that shares their
/// errors: such a reading was taken in, by [`PointFitting`](super::PointFitting) or by chance.
///
/// A step reads one truck, so that a page can do it between two frames of a drag. Figures that switch
/// ([`Figure::switches`]) are left out: of what jumps no slope says anything; see
/// [`Draws`](super::Draws).
#[derive(Clone, Debug)]
pub struct Spreading {
    side: Side,
    figures: Vec<Figure>,
    /// The proposals, and where anything was read the truck as it sits again, as if nothing was.
    trials: Vec<Trial>,
    inputs: Inputs,
    /// The answers as they are: each figure of the first truck, then of the next.
    own: Vec<Option<f64>>,
    /// The number that is moved, by its index.
    next: usize,
    /// What was read of it moved up, and down.
    probes: [Probe; 2],
    found: Sensitivities,
    /// What was read that cannot be so, with what may be wrong of it.
    doubt: Option<(Disagreement, Vec<Readable>)>,
}

/// A number moved one way in every truck.
#[derive(Clone, Debug, Default)]
struct Probe {
    /// By how much in each truck.
    by: Vec<f64>,
    /// The answers there, as far as they were read.
    answers: Vec<Option<f64>>,
}

/// A reading that leaves no less than this share of a spread is not worth its while.
const NARROWED: f64 = 0.6;

impl Spreading {
    /// A search for figures at a side of trucks that are proposals of one truck.
    #[must_use]
    pub fn new(trials: Vec<Trial>, side: Side, figures: &[Figure]) -> Self {
        let inputs = Inputs::of(&trials).with_lines(&trials);
        Self::by(inputs, trials, side, figures)
    }

    /// A search for figures that are held against what was read from the same floor.
    pub(crate) fn on_one_floor(trials: Vec<Trial>, side: Side, figures: &[Figure]) -> Self {
        Self::by(Inputs::of(&trials), trials, side, figures)
    }

    fn by(inputs: Inputs, trials: Vec<Trial>, side: Side, figures: &[Figure]) -> Self {
        let mut figures: Vec<_> = figures.iter().copied().filter(|figure| !figure.switches()).collect();
        let mut trials = trials;
        for (of, _) in read_at(&trials, side) {
            let figure = Figure::of_reading(of);
            if !figures.contains(&figure) {
                figures.push(figure);
            }
        }
        trials.extend(unread(&trials));
        let probes = [Probe::default(), Probe::default()];
        let found = Sensitivities::default();
        Self { side, figures, trials, inputs, own: Vec::new(), next: 0, probes, found, doubt: None }
    }

    /// Reads one truck, of which `values_of` gives the values of figures in their order; true when all
    /// is known.
    pub fn step(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> bool {
        if self.is_done() {
            return true;
        }
        if self.own.len() < self.answer_count() {
            let trial = &self.trials[self.own.len() / self.figures.len()];
            self.own.extend(values_of(trial, &self.figures).into_iter().map(number));
        } else if let Some((input, uncertainty)) = self.inputs.list().get(self.next).copied() {
            match input {
                Input::Reading(side, of) => {
                    let row = self.read_row(side, of, uncertainty.standard);
                    self.found.put(row);
                    self.next += 1;
                }
                _ => self.probe(input, uncertainty, values_of),
            }
        }
        let is_done = self.is_done();
        if is_done {
            self.doubt = self.doubt();
            self.condition_on_readings();
        }
        is_done
    }

    /// How the error of a reading, by one deviation, stands in what is told by it and in itself.
    fn read_row(&self, side: Side, of: Readable, standard: f64) -> Vec<Option<f64>> {
        let told = |figure: &Figure| figure.readable() == Some(of) && side == self.side;
        let itself = |figure: &Figure| *figure == Figure::of_reading(of) && side == self.side;
        let mut row = Vec::with_capacity(self.answer_count());
        for at in 1..=self.trials.len() {
            // The truth is less than what is told by as much as the tool read too much.
            let is_last = at == self.trials.len();
            let by = |figure: &Figure| match (is_last, told(figure), itself(figure)) {
                (true, _, true) => standard,
                (false, true, _) => -standard,
                _ => 0.0,
            };
            row.extend(self.figures.iter().map(|figure| Some(by(figure))));
        }
        row
    }

    /// How what was read contradicts itself or the tape.
    fn doubt(&self) -> Option<(Disagreement, Vec<Readable>)> {
        let last = self.trials.len() - 1;
        let (mut of, mut rows, mut innovation) = (Vec::new(), Vec::new(), Vec::new());
        for (readable, reading) in read_at(&self.trials, self.side) {
            // What nobody measured at the right may differ there from the left's, and contradicts nothing.
            let figure = Figure::of_reading(readable);
            let truck = &self.trials[0].truck;
            let is_own = |(field, _): (Field, f64)| figure.may_rest_on_number(field, truck);
            if self.side == Side::Right && !truck.right.iter().any(is_own) {
                continue;
            }
            let Some(index) = self.figures.iter().position(|other| *other == figure) else { continue };
            let answer = last * self.figures.len() + index;
            let standard = reading.answer_tolerance() / COVERAGE;
            // Its own error is the unit. Where it is not known how it follows nothing is known to contradict it.
            let follows = self.inputs.list().iter().zip(self.found.moves(answer)).map(|((input, _), by)| {
                if let Input::Reading(..) = input { Some(0.0) } else { Some(by? / standard) }
            });
            let (Some(row), Some(own)) = (follows.collect::<Option<Vec<f64>>>(), self.own[answer]) else {
                continue;
            };
            innovation.push((reading.answer() - own) / standard);
            of.push(readable);
            rows.push(RowDVector::from_vec(row));
        }
        (!of.is_empty())
            .then(|| disagreement(&of, &DMatrix::from_rows(&rows), &DVector::from_vec(innovation)))?
    }

    /// Takes as known what was read, where the drawn points agree with it and nothing says that it cannot be so. Each
    /// reading once: of what is known there is no error to take away again.
    fn condition_on_readings(&mut self) {
        let last = self.trials.len().saturating_sub(1);
        for (of, reading) in read_at(&self.trials, self.side) {
            let figure = Figure::of_reading(of);
            let Some(index) = self.figures.iter().position(|other| *other == figure) else { continue };
            let answer = last * self.figures.len() + index;
            let agrees = |own: f64| (own - reading.answer()).abs() <= reading.answer_tolerance();
            if self.own[answer].is_some_and(agrees) && !self.is_doubtful(figure) {
                self.found.condition_on(answer);
            }
        }
    }

    /// How many answers there are.
    fn answer_count(&self) -> usize {
        self.trials.len() * self.figures.len()
    }

    fn is_done(&self) -> bool {
        self.own.len() == self.answer_count() && self.next == self.inputs.list().len()
    }

    /// Reads one truck with a number moved; with the last one it is known how all answers follow.
    fn probe(
        &mut self,
        input: Input,
        uncertainty: Uncertainty,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) {
        let way = usize::from(self.probes[0].by.len() == self.trials.len());
        let probe = &mut self.probes[way];
        let at = probe.by.len();
        let (mut trial, own) = (self.trials[at].clone(), &self.own[probe.answers.len()..]);
        let may = |figure: &Figure| input.may_move(*figure, at, &self.trials[at]);
        let asked: Vec<_> = self.figures.iter().copied().filter(may).collect();
        probe.by.push(input.shift([uncertainty.standard, -uncertainty.standard][way], at, &mut trial));
        let mut there = if asked.is_empty() { Vec::new() } else { values_of(&trial, &asked) }.into_iter();
        let all = self.figures.iter().zip(own);
        probe
            .answers
            .extend(all.map(|(figure, own)| if may(figure) { there.next().and_then(number) } else { *own }));
        if way == 1 && probe.by.len() == self.trials.len() {
            let mut row: Vec<_> = (0..self.answer_count())
                .map(|answer| Some(self.slope(answer)? * uncertainty.standard))
                .collect();
            // Of the truck as if nothing was read the answers stand for what they lie off their readings.
            let last = self.trials.len() - 1;
            for (of, _) in read_at(&self.trials, self.side) {
                let figure = self.figures.iter().position(|other| *other == Figure::of_reading(of));
                if let Some(figure) = figure.filter(|_| input.is_read_from(of, self.side)) {
                    let by = &mut row[last * self.figures.len() + figure];
                    *by = by.map(|by| by - uncertainty.standard);
                }
            }
            self.found.put(row);
            self.probes = [Probe::default(), Probe::default()];
            self.next += 1;
        }
    }

    /// By how much an answer moves for one of the number that was probed: between both ways, or
    /// from where the number is where the answer is gone one way.
    fn slope(&self, answer: usize) -> Option<f64> {
        let own = self.own[answer]?;
        let at = answer / self.figures.len();
        let there = |probe: &Probe| probe.answers[answer].map_or((0.0, own), |value| (probe.by[at], value));
        let [(from, low), (to, high)] = [&self.probes[1], &self.probes[0]].map(there);
        let is_gone = self.probes.iter().all(|probe| probe.answers[answer].is_none());
        let run = to - from;
        // What cannot be moved is known.
        if run.abs() > 0.0 { Some((high - low) / run) } else { (!is_gone).then_some(0.0) }
    }

    /// Where a figure of a truck stands among the answers; `None` where it was not asked for, or
    /// is not known yet.
    fn answer_index(&self, at: usize, figure: Figure) -> Option<usize> {
        let index = self.figures.iter().position(|other| *other == figure)?;
        (self.is_done() && at < self.trials.len()).then_some(at * self.figures.len() + index)
    }

    /// The value of a figure of a truck, by its index, in the core's unit; `None` where there is none, or
    /// not yet.
    pub(crate) fn value(&self, at: usize, figure: Figure) -> Option<f64> {
        self.own[self.answer_index(at, figure)?]
    }

    /// How far a figure of a truck, less that of another where one is named, moves for one standard
    /// deviation of each number; `None` where that is not known, or not yet.
    pub(crate) fn moves(&self, at: usize, less: Option<usize>, figure: Figure) -> Option<Vec<f64>> {
        let one = self.answer_index(at, figure)?;
        match less {
            Some(less) => self.found.moves_between(one, self.answer_index(less, figure)?).collect(),
            None => self.found.moves(one).collect(),
        }
    }

    /// Of how far something moves for one standard deviation of each number, that of numbers that are guesses.
    pub(crate) fn guesses<'a>(&'a self, moves: &'a [f64]) -> impl Iterator<Item = f64> + 'a {
        let inputs = self.inputs.list().iter().zip(moves);
        inputs.filter(|((input, _), _)| input.is_guess(&self.trials)).map(|(_, by)| *by)
    }

    /// The spread of a figure of a truck, by its index, ± in the core's unit; `None` where it is
    /// not known, or not yet.
    #[must_use]
    pub fn spread(&self, at: usize, figure: Figure) -> Option<f64> {
        self.found.spread(self.answer_index(at, figure)?)
    }

    /// The spread of how much more a figure is of one truck than of another, ± in the core's
    /// unit; `None` where it is not known, or not yet.
    #[must_use]
    pub fn spread_between(&self, one: usize, other: usize, figure: Figure) -> Option<f64> {
        self.found.spread_between(self.answer_index(one, figure)?, self.answer_index(other, figure)?)
    }

    /// What was read that cannot be so, to first order; `None` where all agrees, or not yet.
    #[must_use]
    pub fn disagreement(&self) -> Option<Disagreement> {
        self.doubt.as_ref().map(|(why, _)| *why)
    }

    /// Whether a figure is told by a reading that may be the one that cannot be so.
    #[must_use]
    pub fn is_doubtful(&self, figure: Figure) -> bool {
        let of = figure.readable();
        self.doubt.as_ref().is_some_and(|(_, suspects)| suspects.iter().any(|suspect| Some(*suspect) == of))
    }

    /// The reading off the truck as it sits that would narrow a figure of a truck most, were the points
    /// made to fit it, with the spread that this would leave; `None` where none nearly halves it.
    /// Readings are taken to be as good as is usual for their first tool.
    #[must_use]
    pub fn next_reading(&self, at: usize, figure: Figure) -> Option<(Readable, f64)> {
        let answer = self.answer_index(at, figure)?;
        let now = self.found.spread(answer)?;
        let truck = &self.trials.first()?.truck;
        let open = Readable::ALL.iter().copied().filter(|of| truck.readings.get(*of, self.side).is_none());
        let narrowed = open.filter_map(|of| {
            let moves = self.found.moves(self.answer_index(0, Figure::of_reading(of))?);
            // What is read from a line is off with it: of that it says nothing.
            let moves = moves.zip(self.inputs.list()).map(|(by, (input, uncertainty))| {
                let shared = if input.is_read_from(of, self.side) { uncertainty.standard } else { 0.0 };
                Some(by? - shared)
            });
            let tolerance = of.tools()[0].usual_tolerance(of.kind());
            Some((of, self.found.spread_if_read(answer, moves, tolerance)?))
        });
        let best = narrowed.min_by(|one, other| one.1.total_cmp(&other.1));
        best.filter(|(_, remaining)| *remaining < NARROWED * now)
    }

    /// The numbers that move a figure of a truck, with the share of each in the square of its
    /// spread, the greatest first.
    #[must_use]
    pub fn causes(&self, at: usize, figure: Figure) -> Vec<(Input, f64)> {
        let shares =
            self.answer_index(at, figure).map(|answer| self.found.shares(answer)).unwrap_or_default();
        let inputs = self.inputs.list().iter().map(|(input, _)| *input);
        let mut causes: Vec<_> = inputs.zip(shares).filter(|(_, share)| *share > 0.0).collect();
        least_first(&mut causes, |(_, share)| -share);
        causes
    }
}

/// What was read at a side that follows smoothly.
fn read_at(trials: &[Trial], side: Side) -> Vec<(Readable, Reading)> {
    let Some(first) = trials.first() else { return Vec::new() };
    let here =
        first.truck.readings.iter().filter(|(at, of, _)| *at == side && !Figure::of_reading(*of).switches());
    here.map(|(_, of, reading)| (*of, *reading)).collect()
}

/// The truck as it sits as if nothing was read off it; `None` where nothing was.
pub(super) fn unread(trials: &[Trial]) -> Option<Trial> {
    let first = trials.first().filter(|first| !first.truck.readings.is_empty())?;
    let mut truck = first.truck.clone();
    truck.readings = Readings::default();
    Some(Trial::new(&truck, Overlay::NOTHING))
}

fn number(value: Option<Value>) -> Option<f64> {
    value.and_then(Value::number)
}
