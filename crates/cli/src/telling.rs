//! How an answer is told: its value under a name, with the mark of a guess, in text and in data.

use crate::arguments::Printed;
use crate::figures::Sort;
use crate::table::Cell;
use crate::trucks::Standing;
use drawing::{marked, preload_in_words};
use measure::Units;
use study::{Clearances, Figure, Guesses, Narrowing, Rear, StandingSide, Studied, Studies as _, Told};

/// One line of a report.
#[derive(Clone, Debug)]
pub(crate) struct Answer {
    /// The name in files, without a unit.
    pub(crate) key: String,
    /// What people call it.
    pub(crate) label: String,
    /// What it is.
    pub(crate) value: Value,
    /// The guesses that it rests on.
    pub(crate) rests_on: Guesses,
    /// The figure that is told; `None` where words stand beside the figures.
    pub(crate) figure: Option<Figure>,
    /// The model's own, where a reading off the truck stands in its place.
    pub(crate) model: Option<(Sort, Model)>,
}

/// What the model says where a reading stands in its place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Model {
    /// In the core's unit; `None` where a number that it needs is not stated.
    pub(crate) value: Option<f64>,
    /// The guesses that it may rest on: rather one too many.
    pub(crate) rests_on: Guesses,
}

/// What an answer is.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    /// A number in the core's unit; `None` where there is none.
    Figure(Sort, Option<f64>),
    /// Words.
    Words(String),
}

impl Answer {
    /// As people read it, with its mark where it rests on a guess.
    pub(crate) fn said(&self, units: Units) -> String {
        let plain = match &self.value {
            Value::Figure(sort, Some(value)) => sort.words(*value, units),
            Value::Figure(_, None) => "—".to_owned(),
            Value::Words(words) => words.clone(),
        };
        marked(plain, !self.rests_on.is_empty())
    }
}

/// A truck whose figures are told: its studies, and what each figure rests on.
pub(crate) struct Teller<'a> {
    pub(crate) standing: &'a Standing,
    pub(crate) studied: Studied<'a>,
    pub(crate) units: Units,
    marks: Narrowing,
}

impl<'a> Teller<'a> {
    /// A truck of a design at rest, its room at leisure, of which these figures are told.
    pub(crate) fn new(standing: &'a Standing, units: Units, figures: &[Figure]) -> Self {
        let studied = Studied::new(&standing.rest, Clearances::SETTLED);
        // All pairs are looked at in one go.
        let _ = studied.clearances();
        Self { standing, studied, units, marks: standing.marks(figures.to_vec()) }
    }

    /// The guesses that a figure rests on.
    pub(crate) fn rests_on(&self, figure: Figure) -> Guesses {
        self.marks.rests_on(figure)
    }

    /// A figure under its own name, or right under the one that it belongs to.
    pub(crate) fn tell(&self, figure: Figure) -> Answer {
        let label = figure.sublabel().map_or_else(|| figure.label(), |label| format!("  {label}"));
        self.tell_as(figure, label)
    }

    /// A figure under another name.
    pub(crate) fn tell_as(&self, figure: Figure, label: String) -> Answer {
        let told = figure.told(&self.studied, self.rests_on(figure));
        Answer {
            key: figure.key(),
            label,
            value: value(&told, self.units),
            rests_on: told.rests_on,
            figure: Some(figure),
            model: figure.reading(&self.studied.rest().fitted.measured).map(|_| {
                let rests_on = figure.of_side_may_rest_on(self.studied.rest());
                (figure.sort().into(), Model { value: told.model, rests_on })
            }),
        }
    }

    /// Figures in their order.
    pub(crate) fn all(&self, figures: &[Figure]) -> Vec<Answer> {
        figures.iter().map(|figure| self.tell(*figure)).collect()
    }
}

/// What is told of a figure, as a cell.
fn value(told: &Told, units: Units) -> Value {
    match (told.value, told.figure.sort()) {
        (Some(study::Value::Words(words)), _) => Value::Words(words.to_owned()),
        (Some(study::Value::Preload(preload)), _) => Value::Words(preload_in_words(&preload, units)),
        (None, study::Sort::Words) => Value::Words("—".to_owned()),
        (_, sort) => Value::Figure(sort.into(), told.number()),
    }
}

/// Words that stand beside the figures and rest on no guess.
pub(crate) fn words(key: &str, label: &str, words: String) -> Answer {
    let (key, label) = (key.to_owned(), label.to_owned());
    Answer { key, label, value: Value::Words(words), rests_on: Guesses::NONE, figure: None, model: None }
}

/// What the rear does where numbers are against the ground, to be read behind "if the rear".
pub(crate) fn rear_in_words(rest: &StandingSide) -> &'static str {
    match rest.stance().rear() {
        Rear::Stays => "stays up",
        Rear::AS_MEASURED => "is as it sits",
        Rear::ComesDown(_) => "comes down as stated",
        Rear::ByParts(_) => "comes down by its parts",
    }
}

/// A value for CSV and JSON.
pub(crate) fn data(value: Option<&Value>, printed: &Printed) -> Cell {
    match value {
        Some(Value::Figure(sort, Some(value))) => {
            Cell::Number(sort.fixed(*value, printed.units(), printed.data_decimals()))
        }
        Some(Value::Words(words)) => Cell::Words(words.clone()),
        Some(Value::Figure(_, None)) | None => Cell::Nothing,
    }
}

/// A value for people.
pub(crate) fn shown(value: Option<&Value>, printed: &Printed) -> String {
    match value {
        Some(Value::Figure(sort, Some(value))) => sort.words(*value, printed.units()),
        Some(Value::Words(words)) => words.clone(),
        Some(Value::Figure(_, None)) | None => "—".to_owned(),
    }
}

impl Standing {
    /// On which guesses figures of the truck rest.
    pub(crate) fn marks(&self, figures: Vec<Figure>) -> Narrowing {
        let read = |trial: &study::Trial, figures: &[Figure]| trial.values(self.rest.side(), figures);
        // What the left guesses and the right has measured moves nothing at the right.
        let fitted = self.trial.fitted().unwrap_or_else(|_| self.rest.fitted.clone());
        Narrowing::new(self.trial.clone(), &fitted, figures).finished(&read)
    }
}
