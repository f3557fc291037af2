//! The numbers that a truck and its proposals are worked out from, each with how far off it may be.

use super::Uncertainty;
use crate::figure::{Figure, Trial};
use truck::{Change, ChangeKind, Field, Place, Readable, Side, Source};

/// A number that answers are worked out from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// Of the truck: the left's, and the right's where the right has none of its own.
    Number(Field),
    /// Of the right, measured there.
    Right(Field),
    /// What was read off the truck.
    Reading(Side, Readable),
    /// Of a proposal, by its index among the trucks: a number of one of its changes, by its index, with the
    /// side that the change is on alone.
    Change(usize, (Option<Side>, ChangeKind, Option<Place>), usize),
}

/// Every number of some trucks that may be off, with how far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inputs(Vec<(Input, Uncertainty)>);

impl Inputs {
    /// Of proposals of one truck.
    ///
    /// What was measured is as good as its tool; what was taken as usual as trucks of a class are
    /// alike; a part's own number is taken at its word, and so is what is set, cut or counted.
    #[must_use]
    pub fn of(trials: &[Trial]) -> Self {
        let mut all = Vec::new();
        if let Some(first) = trials.first() {
            let truck = &first.truck;
            for field in Field::ALL.iter().copied() {
                if let Some(value) = field.get(truck) {
                    let is_guess = truck.sources.of(field) == Source::Assumed;
                    all.push((Input::Number(field), of_field(field, value, is_guess)));
                }
            }
            let own = truck.right.iter();
            all.extend(own.map(|(field, value)| (Input::Right(field), of_field(field, value, false))));
            for (side, of, reading) in truck.readings.iter() {
                let uncertainty = Uncertainty::give_or_take(reading.answer_tolerance());
                all.push((Input::Reading(*side, *of), uncertainty));
            }
        }
        for (at, trial) in trials.iter().enumerate() {
            for (side, change) in trial.overlay().every() {
                let (kind, place) = change.slot();
                for number in 0..kind.numbers().len() {
                    if let Some(uncertainty) = of_change(trial, &change, number) {
                        all.push((Input::Change(at, (side, kind, place), number), uncertainty));
                    }
                }
            }
        }
        all.retain(|(_, uncertainty)| uncertainty.standard > 0.0);
        Self(all)
    }

    /// Each with how far off it may be.
    #[must_use]
    pub fn list(&self) -> &[(Input, Uncertainty)] {
        &self.0
    }
}

fn of_field(field: Field, value: f64, is_guess: bool) -> Uncertainty {
    if is_guess {
        Uncertainty::no_more_than(field.guess_width(value))
    } else {
        Uncertainty::give_or_take(field.tolerance(value))
    }
}

/// `None` where no answer hangs on it.
fn of_change(trial: &Trial, change: &Change, number: usize) -> Option<Uncertainty> {
    if !change.counts(number) {
        return None;
    }
    let value = change.values().get(number).copied()??;
    let row = change.kind().numbers().get(number)?;
    let (kind, place) = change.slot();
    Some(match trial.sources.of((kind, place, number)) {
        Source::Assumed => Uncertainty::no_more_than(row.guess_width(value)),
        Source::Measured => Uncertainty::give_or_take(row.tolerance()),
        Source::Typed => Uncertainty::give_or_take(0.0),
    })
}

impl Input {
    /// Whether nobody measured it on these trucks, nor read it off a part.
    pub(super) fn is_guess(self, trials: &[Trial]) -> bool {
        match self {
            Self::Number(field) => {
                trials.first().is_some_and(|first| first.truck.sources.of(field) == Source::Assumed)
            }
            Self::Change(at, (_, kind, place), number) => {
                let sources = trials.get(at).map(|trial| &trial.sources);
                sources.is_some_and(|sources| sources.of((kind, place, number)) == Source::Assumed)
            }
            Self::Right(_) | Self::Reading(..) => false,
        }
    }

    /// Whether a figure of one of the trucks may move with it.
    pub(super) fn may_move(self, figure: Figure, at: usize, trial: &Trial) -> bool {
        match self {
            Self::Number(field) | Self::Right(field) => figure.may_rest_on_number(field, &trial.truck),
            Self::Change(proposal, (_, kind, _), _) => proposal == at && figure.may_rest_on_change(kind),
            Self::Reading(..) => false,
        }
    }

    /// Moves it on a truck, by its index among the trucks, and gives by how much, which is less
    /// where it comes to its limit. What is moved is not rounded.
    pub(super) fn shift(self, by: f64, at: usize, trial: &mut Trial) -> f64 {
        match self {
            Self::Number(field) => {
                let Some(value) = field.get(&trial.truck) else { return 0.0 };
                let to = field.within(value + by);
                field.put(&mut trial.truck, Some(to));
                to - value
            }
            Self::Right(field) => {
                let Some(value) = trial.truck.right.get(field) else { return 0.0 };
                let to = field.within(value + by);
                trial.truck.right.put(field, to);
                to - value
            }
            Self::Change(proposal, slot, number) if proposal == at => {
                let moved = |change: &Change| {
                    let value = change.values().get(number).copied()??;
                    let moved = change.with_value(number, Some(value + by))?;
                    let to = moved.values().get(number).copied()??;
                    Some((moved, to - value))
                };
                let change = trial.change_mut(slot);
                let moved = change.and_then(|change| moved(change).map(|(to, by)| (change, to, by)));
                let Some((change, to, by)) = moved else { return 0.0 };
                *change = to;
                by
            }
            // What is another truck's moves nothing here; a reading's error is put on the answer itself.
            Self::Change(..) | Self::Reading(..) => by,
        }
    }
}
