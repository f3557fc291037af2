//! The numbers that a truck and its proposals are worked out from, each with how far off it may be.

use super::Uncertainty;
use crate::figure::{Figure, Trial};
use truck::{Change, ChangeKind, Datum, Field, Place, Readable, Reading, Side, Source, TAPE_MM, Truck};

/// How far off the ground under a wheel may lie from where its side's heights were measured from, and the middle
/// that was dropped or halved from where it is, mm: common practice, no source.
const LINE_TOLERANCE: f64 = 2.0 * TAPE_MM;

/// A number that answers are worked out from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// Of the truck: the left's, and the right's where the right has none of its own.
    Number(Field),
    /// Of the right, measured there.
    Right(Field),
    /// The ground under a side: all heights that were measured there are off together.
    Ground(Side),
    /// The middle of the truck: what was measured too wide on one side was so by too little on the other.
    Centreline,
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
            for (field, value) in truck.right.iter() {
                all.push((Input::Right(field), of_field(field, value, false)));
            }
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

    /// With the lines that the truck was measured from. Of what is set or compared by the same floor and the same
    /// middle they are no part.
    #[must_use]
    pub fn with_lines(mut self, trials: &[Trial]) -> Self {
        let lines = [Input::Ground(Side::Left), Input::Ground(Side::Right), Input::Centreline];
        let truck = trials.first().map(|first| &first.truck);
        for line in lines.into_iter().filter(|line| truck.is_some_and(|truck| line.is_used(truck))) {
            self.0.push((line, Uncertainty::give_or_take(LINE_TOLERANCE)));
        }
        self
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
            Self::Right(_) | Self::Ground(_) | Self::Centreline | Self::Reading(..) => false,
        }
    }

    /// Whether what was read of an answer was read from it too, and is off with it: a height, from the floor.
    pub(super) fn is_read_from(self, of: Readable, side: Side) -> bool {
        self == Self::Ground(side) && of == Readable::FrameHeight
    }

    fn is_used(self, truck: &Truck) -> bool {
        let mut readings = truck.readings.iter();
        !self.measured_from(truck).is_empty() || readings.any(|(side, of, _)| self.is_read_from(*of, *side))
    }

    /// The numbers that were measured from it, each with which way it is off with it; none of what is no line.
    fn measured_from(self, truck: &Truck) -> Vec<(Side, Field, f64)> {
        let (datum, sides) = match self {
            Self::Ground(side) => (Datum::Ground, [Some((side, 1.0)), None]),
            Self::Centreline => (Datum::Centreline, [Some((Side::Left, 1.0)), Some((Side::Right, -1.0))]),
            _ => return Vec::new(),
        };
        let mut all = Vec::new();
        for (side, way) in sides.into_iter().flatten() {
            for field in Field::ALL.iter().copied().filter(|field| field.datum() == Some(datum)) {
                let is_measured = match side {
                    // What nobody measured was measured from nothing.
                    Side::Left => truck.sources.of(field) != Source::Assumed && field.get(truck).is_some(),
                    Side::Right => truck.right.get(field).is_some(),
                };
                if is_measured {
                    all.push((side, field, way));
                }
            }
        }
        all
    }

    /// Whether a figure of one of the trucks may move with it.
    pub(super) fn may_move(self, figure: Figure, at: usize, trial: &Trial) -> bool {
        match self {
            Self::Number(field) | Self::Right(field) => figure.may_rest_on_number(field, &trial.truck),
            Self::Change(proposal, (_, kind, _), _) => proposal == at && figure.may_rest_on_change(kind),
            Self::Ground(_) | Self::Centreline => {
                let is_height = figure.readable() == Some(Readable::FrameHeight);
                let all = self.measured_from(&trial.truck);
                is_height || all.iter().any(|(_, field, _)| figure.may_rest_on_number(*field, &trial.truck))
            }
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
            Self::Ground(_) | Self::Centreline => {
                let readings = &trial.truck.readings;
                let read = readings.iter().find(|(side, of, _)| self.is_read_from(*of, *side)).copied();
                if let Some((side, of, reading)) = read {
                    let value = reading.value + by;
                    // Where it comes to its limit it stays.
                    _ = trial.truck.readings.set(of, side, Some(Reading { value, ..reading }));
                }
                for (side, field, way) in self.measured_from(&trial.truck) {
                    let number = if side == Side::Left { Self::Number(field) } else { Self::Right(field) };
                    number.shift(way * by, at, trial);
                }
                by
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
