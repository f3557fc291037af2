//! Figures that switch, by draws: of what jumps no slope says anything.

use super::{Input, Inputs};
use crate::figure::{Figure, Trial, Value, Values};
use crate::order::least_first;
use truck::Side;

/// Between what an answer lies, 19 times in 20, in the core's unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// One time in forty it is less.
    pub low: f64,
    /// One time in forty it is more.
    pub high: f64,
    /// The share of the draws in which there is such an answer at all.
    pub found: f64,
}

/// Draws of a truck and its proposals, each as they might truly be: all of what is not known exactly
/// moved at once, the same in every truck.
///
/// Draws are the same each time that they are asked for. What was taken in narrows none of them.
///
/// # Source
/// JCGM 101: propagation of distributions by a Monte Carlo method; its interval here is the
/// probabilistically symmetric one of 95 in 100.
#[derive(Clone, Debug)]
pub struct Draws {
    side: Side,
    figures: Vec<Figure>,
    trials: Vec<Trial>,
    inputs: Inputs,
    random: fastrand::Rng,
    /// How far off each number is in the draw under way.
    off: Vec<f64>,
    /// The trucks of that draw that were read.
    read: usize,
    /// Of each figure of each truck, every draw's value.
    drawn: Vec<Values>,
}

impl Draws {
    /// How many draws give ends that another as many would give within a tenth.
    pub const ENOUGH: usize = 400;
    /// By which whatever is told is drawn: the page and the command tell the same.
    pub const SEED: u64 = 1;

    /// Draws of figures at a side of trucks that are proposals of one truck.
    #[must_use]
    pub fn new(trials: Vec<Trial>, side: Side, figures: &[Figure], seed: u64) -> Self {
        let inputs = Inputs::of(&trials).with_lines(&trials);
        let drawn = vec![Vec::new(); trials.len() * figures.len()];
        let random = fastrand::Rng::with_seed(seed);
        Self { side, figures: figures.to_vec(), trials, inputs, random, off: Vec::new(), read: 0, drawn }
    }

    /// How many draws are whole.
    #[must_use]
    pub fn count(&self) -> usize {
        self.drawn.last().map_or(0, Vec::len)
    }

    /// Reads one truck of a draw, of which `values_of` gives the values of figures in their order.
    pub fn step(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) {
        if self.read == 0 {
            self.off = self
                .inputs
                .list()
                .iter()
                .map(|(_, uncertainty)| uncertainty.draw(&mut self.random))
                .collect();
        }
        let Some(mut trial) = self.trials.get(self.read).cloned() else { return };
        let mut put_on = Vec::new();
        for ((input, _), by) in self.inputs.list().iter().zip(&self.off) {
            match input {
                // What was read at the other side is told of that side alone.
                Input::Reading(side, of) if *side == self.side => put_on.push((*of, *by)),
                Input::Reading(..) => {}
                _ => _ = input.shift(*by, self.read, &mut trial),
            }
        }
        let first = self.read * self.figures.len();
        for (at, (figure, value)) in self.figures.iter().zip(values_of(&trial, &self.figures)).enumerate() {
            let by: f64 =
                put_on.iter().filter(|(of, _)| figure.readable() == Some(*of)).map(|(_, by)| by).sum();
            self.drawn[first + at].push(match value {
                Some(Value::Number(number)) => Some(Value::Number(number + by)),
                other => other,
            });
        }
        self.read = (self.read + 1) % self.trials.len();
    }

    /// Between what a figure of a truck lies, by the draws so far; `None` where it was not asked
    /// for, or no draw has it.
    #[must_use]
    pub fn range(&self, at: usize, figure: Figure) -> Option<Range> {
        range_of(self.drawn_of(at, figure)?.iter().map(number).collect())
    }

    /// Between what lies how much more a figure is of one truck than of another, by the draws so far.
    #[must_use]
    pub fn range_between(&self, one: usize, other: usize, figure: Figure) -> Option<Range> {
        let both = self.drawn_of(one, figure)?.iter().zip(self.drawn_of(other, figure)?);
        range_of(both.map(|(one, other)| Some(number(one)? - number(other)?)).collect())
    }

    /// What a figure of words says, each with the share of the draws in which it does, the most
    /// frequent first.
    #[must_use]
    pub fn words(&self, at: usize, figure: Figure) -> Vec<(&'static str, f64)> {
        let drawn = self.drawn_of(at, figure).unwrap_or_default();
        let mut counts: Vec<(&'static str, usize)> = Vec::new();
        for value in drawn {
            let Some(Value::Words(words)) = value else { continue };
            match counts.iter_mut().find(|(other, _)| other == words) {
                Some((_, count)) => *count += 1,
                None => counts.push((words, 1)),
            }
        }
        least_first(&mut counts, |(_, count)| -share(*count, 1));
        counts.into_iter().map(|(words, count)| (words, share(count, drawn.len()))).collect()
    }

    /// The value of a figure of a truck in one draw; `None` where there is none.
    #[must_use]
    pub fn value(&self, draw: usize, at: usize, figure: Figure) -> Option<Value> {
        self.drawn_of(at, figure)?.get(draw).copied().flatten()
    }

    fn drawn_of(&self, at: usize, figure: Figure) -> Option<&[Option<Value>]> {
        let index = self.figures.iter().position(|other| *other == figure)?;
        self.drawn.get(at * self.figures.len() + index).map(Vec::as_slice)
    }
}

fn number(value: &Option<Value>) -> Option<f64> {
    value.and_then(Value::number)
}

fn range_of(drawn: Vec<Option<f64>>) -> Option<Range> {
    let all = drawn.len();
    let mut values: Vec<f64> = drawn.into_iter().flatten().collect();
    values.sort_unstable_by(f64::total_cmp);
    // Of n in order, the one below which a fortieth lies.
    let tail = values.len() / 40;
    let (low, high) = (*values.get(tail)?, *values.get(values.len() - 1 - tail)?);
    Some(Range { low, high, found: share(values.len(), all) })
}

#[expect(clippy::cast_precision_loss, reason = "draws are counted in thousands")]
fn share(of: usize, all: usize) -> f64 {
    of as f64 / all as f64
}
