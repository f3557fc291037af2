//! Readings that correct the points: the numbers that agree best with a tape and with what was read.

use super::disagreement::{Disagreement, disagreement, inverse_of, standardized};
use super::search::unread;
use super::{COVERAGE, Input, Inputs};
use crate::figure::{Figure, Trial, Values};
use nalgebra::{DMatrix, DVector};
use truck::{Edit, Readable, Side, Truck};

/// A step of every number that is less than this share of its deviation moves nothing.
const STILL: f64 = 1e-7;
/// More steps than any truck took.
const MOST: u32 = 200;
/// The share of a deviation by which a number is moved to see what follows.
const PROBE: f64 = 0.01;

/// A search for the numbers of a truck that agree best with how well each was measured and with what
/// was read off it, to be taken on in steps.
///
/// # Source
/// Least squares with a prior by Gauss and Newton: of `z`, numbers in their own deviations, the sum
/// `|z|² + Σ ((read − model) / deviation)²` is least where `z = Jᵀ (J Jᵀ + R)⁻¹ (read − model + J z)`.
#[derive(Clone, Debug)]
pub struct PointFitting {
    trial: Trial,
    side: Side,
    readings: Vec<Residual>,
    /// Numbers that may move what was read, each with its deviation.
    inputs: Vec<(Input, f64)>,
    /// How far each is moved, in its own deviations.
    moved: DVector<f64>,
    /// The model at those numbers, each in deviations of its reading.
    model: Option<DVector<f64>>,
    /// Its slopes as far as they are known: a column a number.
    slopes: Vec<DVector<f64>>,
    /// The model with a number moved up, and how far it was.
    up: Option<(DVector<f64>, f64)>,
    /// Where the numbers were before the step under way, and the sum of squares there.
    from: Option<(DVector<f64>, f64)>,
    /// Whether no step is left that makes the sum less.
    is_least: bool,
    steps: u32,
}

/// Why nothing can be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoPointFit {
    /// Nothing was read that follows from the points.
    #[error("nothing was read off this side of the truck that its points could fit")]
    NothingRead,
    /// The truck does not stand, or does not with its numbers off by as much as they may be.
    #[error("the truck does not stand with its numbers off by as much as they may be")]
    FallsApart,
    /// The steps go on and on.
    #[error("no numbers were found that agree best")]
    NoEnd,
}

/// What was read, beside what the model says before and after the fit. Core units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Of what.
    pub of: Readable,
    /// What was read.
    pub read: f64,
    /// How far off that may be either way.
    pub tolerance: f64,
    /// What the model says as the truck was measured.
    pub before: f64,
    /// What it says of the fitted numbers.
    pub after: f64,
    /// How far it lies from what all else predicts of it, in deviations of that; + more.
    pub standardized: f64,
}

/// A number that a fit moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Which.
    pub input: Input,
    /// By how much, in the core's unit.
    pub by: f64,
    /// How far off it may be either way, as measured.
    pub tolerance_before: f64,
    /// How far off it may be either way, by all that was measured and read.
    pub tolerance_after: f64,
}

impl Moved {
    /// Whether it is known that this number was off, and not another in its place: its own spread halved.
    #[must_use]
    pub fn is_known(&self) -> bool {
        self.tolerance_after <= 0.5 * self.tolerance_before
    }
}

/// The numbers that agree best with all that was measured and read.
#[derive(Clone, Debug, PartialEq)]
pub struct PointFit {
    /// What is moved, by the numbers' ids.
    pub moved: Vec<Moved>,
    /// What was read.
    pub readings: Vec<Residual>,
    /// What cannot be so.
    pub disagreement: Option<Disagreement>,
}

impl PointFit {
    /// The edit that moves the numbers, as one: where they came from stays as it was.
    #[must_use]
    pub fn edit(&self, truck: &Truck) -> Edit {
        let moved = self.moved.iter().filter_map(|moved| {
            let (side, field, value) = match moved.input {
                Input::Number(field) => (Side::Left, field, field.get(truck)?),
                Input::Right(field) => (Side::Right, field, truck.right.get(field)?),
                _ => return None,
            };
            // Less than is kept of it moves nothing.
            let to = field.nearest(value + moved.by)?;
            (field.nearest(value)?.to_bits() != to.to_bits()).then_some((side, field, to))
        });
        Edit::Correct(moved.collect())
    }
}

impl PointFitting {
    /// A search for a truck as it sits, by what was read at a side.
    ///
    /// # Errors
    /// [`NoPointFit::NothingRead`] where nothing was read there that follows smoothly.
    pub fn new(as_it_sits: &Trial, side: Side) -> Result<Self, NoPointFit> {
        let trials = std::slice::from_ref(as_it_sits);
        let trial = unread(trials).ok_or(NoPointFit::NothingRead)?;
        let here = as_it_sits.truck.readings.iter().filter(|(at, ..)| *at == side);
        let readings: Vec<_> = here
            .filter(|(_, of, _)| !Figure::of_reading(*of).switches())
            .map(|(_, of, reading)| Residual {
                of: *of,
                read: reading.answer(),
                tolerance: reading.answer_tolerance(),
                before: 0.0,
                after: 0.0,
                standardized: 0.0,
            })
            .collect();
        if readings.is_empty() {
            return Err(NoPointFit::NothingRead);
        }
        let moves = |input: Input| {
            readings.iter().any(|reading| input.may_move(Figure::of_reading(reading.of), 0, &trial))
        };
        let inputs = Inputs::of(trials);
        let inputs = inputs.list().iter().filter(|(input, _)| moves(*input));
        let inputs: Vec<_> = inputs.map(|(input, uncertainty)| (*input, uncertainty.standard)).collect();
        let moved = DVector::zeros(inputs.len());
        Ok(Self {
            trial,
            side,
            readings,
            inputs,
            moved,
            model: None,
            slopes: Vec::new(),
            up: None,
            from: None,
            is_least: false,
            steps: 0,
        })
    }

    /// The side that it is of.
    #[must_use]
    pub const fn side(&self) -> Side {
        self.side
    }

    /// Reads one truck, of which `values_of` gives the values of figures in their order; the fit once it is
    /// found.
    ///
    /// # Errors
    /// [`NoPointFit`] says why there is none.
    pub fn step(
        &mut self,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) -> Result<Option<PointFit>, NoPointFit> {
        let Some(model) = self.model.clone() else {
            self.arrive(values_of)?;
            return Ok(None);
        };
        let at = self.slopes.len();
        if at < self.inputs.len() {
            let way = if self.up.is_none() { PROBE } else { -PROBE };
            // Where it is gone that way, what follows is had from where the number is.
            let there = |way: f64| Some((self.model_at(Some((at, way)), values_of)?, self.shifted(at, way)));
            let there = there(way).unwrap_or_else(|| (model.clone(), self.shifted(at, 0.0)));
            match self.up.take() {
                None => self.up = Some(there),
                Some((up, high)) => {
                    let (down, low) = there;
                    let run = high - low;
                    // What cannot be moved is known.
                    self.slopes.push(if run > 0.0 { (up - down) / run } else { model * 0.0 });
                }
            }
            return Ok(None);
        }
        let slopes = DMatrix::from_columns(&self.slopes);
        let inverse = inverse_of(&slopes).ok_or(NoPointFit::FallsApart)?;
        let off = self.read_off() - &model;
        let sum = self.moved.norm_squared() + off.norm_squared();
        let innovation = off + &slopes * &self.moved;
        let to = slopes.transpose() * (&inverse * &innovation);
        if self.is_least || (&to - &self.moved).amax() < STILL {
            return Ok(Some(self.finished(&model, &slopes, &inverse, &innovation)));
        }
        self.from = Some((std::mem::replace(&mut self.moved, to), sum));
        (self.model, self.slopes) = (None, Vec::new());
        Ok(None)
    }

    /// What was read, each in its own deviations.
    fn read_off(&self) -> DVector<f64> {
        let read = self.readings.iter().map(|reading| reading.read / reading.tolerance * COVERAGE);
        DVector::from_iterator(self.readings.len(), read)
    }

    /// Reads the model where a step leads; one that makes the sum of squares more, or the truck fall
    /// apart, is halved.
    fn arrive(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> Result<(), NoPointFit> {
        self.steps += 1;
        if self.steps > MOST {
            return Err(NoPointFit::NoEnd);
        }
        let model = self.model_at(None, values_of);
        let Some((from, before)) = self.from.take() else {
            let model = model.ok_or(NoPointFit::FallsApart)?;
            for (reading, model) in self.readings.iter_mut().zip(&model) {
                reading.before = model * reading.tolerance / COVERAGE;
            }
            self.model = Some(model);
            return Ok(());
        };
        let sum =
            model.as_ref().map(|model| self.moved.norm_squared() + (self.read_off() - model).norm_squared());
        if sum.is_some_and(|sum| sum <= before) {
            self.model = model;
        } else if (&self.moved - &from).amax() < STILL {
            // At a crease, as where another edge is nearest, every step leads up.
            (self.moved, self.is_least) = (from, true);
            self.model = self.model_at(None, values_of);
        } else {
            self.moved = (&self.moved + &from) / 2.0;
            self.from = Some((from, before));
        }
        Ok(())
    }

    /// The search in one go.
    ///
    /// # Errors
    /// As [`PointFitting::step`].
    pub fn finish(mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> Result<PointFit, NoPointFit> {
        loop {
            if let Some(fit) = self.step(values_of)? {
                return Ok(fit);
            }
        }
    }

    /// How far a number is moved from where it was measured, in its own deviations, where it is `more` of
    /// them further than so far: less where it comes to its limit.
    fn shifted(&self, at: usize, more: f64) -> f64 {
        let (input, standard) = self.inputs[at];
        input.shift((self.moved[at] + more) * standard, 0, &mut self.trial.clone()) / standard
    }

    /// The model at the numbers so far, one of them some deviations further; each answer in deviations of
    /// its reading. `None` where one is not there.
    fn model_at(
        &self,
        further: Option<(usize, f64)>,
        values_of: &dyn Fn(&Trial, &[Figure]) -> Values,
    ) -> Option<DVector<f64>> {
        let mut trial = self.trial.clone();
        for (at, (input, standard)) in self.inputs.iter().enumerate() {
            let more = further.filter(|(which, _)| *which == at).map_or(0.0, |(_, way)| way);
            input.shift((self.moved[at] + more) * standard, 0, &mut trial);
        }
        let figures: Vec<_> = self.readings.iter().map(|reading| Figure::of_reading(reading.of)).collect();
        let values = values_of(&trial, &figures).into_iter().zip(&self.readings);
        let scaled = values.map(|(value, reading)| Some(value?.number()? / reading.tolerance * COVERAGE));
        Some(DVector::from_vec(scaled.collect::<Option<Vec<_>>>()?))
    }

    fn finished(
        &self,
        model: &DVector<f64>,
        slopes: &DMatrix<f64>,
        inverse: &DMatrix<f64>,
        innovation: &DVector<f64>,
    ) -> PointFit {
        let moved = self.inputs.iter().enumerate().map(|(at, (input, standard))| {
            let column = slopes.column(at);
            let explained: f64 = column.dot(&(inverse * column));
            let tolerance_before = COVERAGE * standard;
            Moved {
                input: *input,
                by: self.moved[at] * standard,
                tolerance_before,
                tolerance_after: tolerance_before * (1.0 - explained).max(0.0).sqrt(),
            }
        });
        let standardized = standardized(inverse, innovation);
        let readings = self.readings.iter().enumerate().map(|(at, reading)| Residual {
            after: model[at] * reading.tolerance / COVERAGE,
            standardized: standardized[at],
            ..*reading
        });
        let of: Vec<_> = self.readings.iter().map(|reading| reading.of).collect();
        let disagreement = disagreement(&of, slopes, innovation).map(|(why, _)| why);
        PointFit { moved: moved.collect(), readings: readings.collect(), disagreement }
    }
}
