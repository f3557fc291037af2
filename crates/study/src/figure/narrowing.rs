//! On which guesses a figure rests.
//!
//! Resting on a guess has a size: a figure rests on a guessed number if moving that number
//! within its width changes what is printed, words and refusals among it. Infinitesimal
//! probes would miss what switches: which of several things ends the travel, for one.

use super::{Figure, Guess, Guesses, Value};
use truck::{Change, ChangeKind, ChangeSources, FitError, Fitted, Overlay, Place, Side, Truck, fit};

/// The shares of its width by which a guess is moved.
const SHARES: [f64; 4] = [-1.0, 1.0, -0.5, 0.5];

/// A truck and what is laid over it, of which one number can be moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// The truck as measured.
    pub truck: Truck,
    /// The changes on both sides.
    pub changes: Vec<Change>,
    /// Those of one side alone.
    pub own: Vec<(Side, Change)>,
    /// How far the rear comes down, mm.
    pub rear_down_mm: Option<f64>,
    /// Where the numbers of the changes came from.
    pub sources: ChangeSources,
}

impl Trial {
    /// A truck with a proposal.
    #[must_use]
    pub fn new(truck: &Truck, overlay: Overlay<'_>) -> Self {
        let Overlay { changes, own, rear_down_mm, sources } = overlay;
        let (changes, own, sources) = (changes.to_vec(), own.to_vec(), sources.clone());
        Self { truck: truck.clone(), changes, own, rear_down_mm, sources }
    }

    /// What is laid over the truck.
    #[must_use]
    pub fn overlay(&self) -> Overlay<'_> {
        let Self { changes, own, rear_down_mm, sources, .. } = self;
        Overlay { changes, own, rear_down_mm: *rear_down_mm, sources }
    }

    /// The change in a slot, on both sides or on one alone.
    pub(crate) fn change_mut(
        &mut self,
        (side, kind, place): (Option<Side>, ChangeKind, Option<Place>),
    ) -> Option<&mut Change> {
        match side {
            None => self.changes.iter_mut().find(|change| change.slot() == (kind, place)),
            Some(side) => {
                let mut own = self.own.iter_mut();
                own.find(|(of, change)| *of == side && change.slot() == (kind, place))
                    .map(|(_, change)| change)
            }
        }
    }

    /// The truck with its changes on.
    ///
    /// # Errors
    /// As [`fit`].
    pub fn fitted(&self) -> Result<Fitted, FitError> {
        fit(&self.truck, self.overlay())
    }

    /// What a guess might truly be besides what it is taken as, the farthest first; of a
    /// choice each other word.
    #[must_use]
    #[inline(never)]
    pub fn alternatives(&self, guess: Guess) -> Vec<Self> {
        let mut all = Vec::new();
        match guess {
            Guess::Number(field) => {
                let Some(value) = field.get(&self.truck) else { return all };
                let choices = field.kind().choices().map_or(0, <[_]>::len);
                let others: Vec<_> = match choices {
                    0 => near(value, field.guess_width(value), &|to| field.nearest(to)),
                    _ => (0_u8..).map(f64::from).take(choices).collect(),
                };
                for to in others {
                    if moves(value, to) {
                        let mut trial = self.clone();
                        field.put(&mut trial.truck, Some(to));
                        all.push(trial);
                    }
                }
            }
            Guess::Change(at) => _ = self.push_changed(at, &mut all),
        }
        all
    }

    /// Puts the same with a guessed number of its changes moved to the others, on each side that has it.
    fn push_changed(&self, at: usize, all: &mut Vec<Self>) -> Option<()> {
        let (kind, place, index) = *self.overlay().guessed().get(at)?;
        let number = kind.numbers().get(index)?;
        for (side, change) in self.overlay().every() {
            if change.slot() != (kind, place) {
                continue;
            }
            let Some(value) = change.values().get(index).copied().flatten() else { continue };
            for to in near(value, number.guess_width(value), &|to| number.nearest(to)) {
                if let Some(changed) = change.with_value(index, Some(to)).filter(|_| moves(value, to)) {
                    let mut trial = self.clone();
                    if let Some(here) = trial.change_mut((side, kind, place)) {
                        *here = changed;
                    }
                    all.push(trial);
                }
            }
        }
        Some(())
    }
}

/// The values by which a guess is moved, as they can be kept.
fn near(value: f64, width: f64, nearest: &dyn Fn(f64) -> Option<f64>) -> Vec<f64> {
    SHARES.iter().filter_map(|share| nearest(value + share * width)).collect()
}

/// Whether a number is another one: both are in whole steps.
fn moves(from: f64, to: f64) -> bool {
    from.to_bits() != to.to_bits()
}

/// The values of figures, in the order in which they are asked for.
pub type Values = Vec<Option<Value>>;

/// A search for the guesses that some figures of a truck rest on, to be taken on in steps.
///
/// Until a guess was tried, whatever may rest on it is taken to.
#[derive(Clone, Debug)]
pub struct Narrowing {
    trial: Trial,
    figures: Vec<Figure>,
    /// What each may rest on, less what it was found not to.
    rests_on: Vec<Guesses>,
    /// Of the truck itself; `None` until they are read.
    values: Option<Values>,
    /// Guesses still to be tried, the next one last.
    remaining: Vec<Guess>,
    trying: Option<Trying>,
}

/// A guess that is being tried.
#[derive(Clone, Debug)]
struct Trying {
    guess: Guess,
    /// What the truck might truly be, the next one last.
    trucks: Vec<Trial>,
    /// Indices of the figures that none has moved yet.
    unmoved: Vec<usize>,
}

impl Narrowing {
    /// A search for figures of a truck; `fitted` is the truck of which they are told, with its changes on.
    #[must_use]
    #[inline(never)]
    pub fn new(trial: Trial, fitted: &Fitted, figures: Vec<Figure>) -> Self {
        let rests_on: Vec<_> = figures.iter().map(|figure| figure.may_rest_on(fitted)).collect();
        let all: Guesses = rests_on.iter().copied().collect();
        let mut remaining: Vec<_> = all.iter().collect();
        remaining.reverse();
        Self { trial, figures, rests_on, values: None, remaining, trying: None }
    }

    /// Reads one truck, the truck itself first and then those that differ in a guess, of which
    /// `values_of` gives the values of figures in their order; true when all guesses are tried.
    #[inline(never)]
    pub fn step(&mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> bool {
        if self.values.is_none() && !self.remaining.is_empty() {
            self.values = Some(values_of(&self.trial, &self.figures));
            return false;
        }
        let next = self.trying.take().or_else(|| self.begin());
        let (Some(mut trying), Some(values)) = (next, &self.values) else { return true };
        if let Some(truck) = trying.trucks.pop() {
            let figures: Vec<_> = trying.unmoved.iter().map(|at| self.figures[*at]).collect();
            let there = values_of(&truck, &figures);
            // What has moved rests on it, whatever else moves it.
            let before = std::mem::take(&mut trying.unmoved);
            for (at, there) in before.into_iter().zip(there) {
                if alike(values[at], there, self.figures[at]) {
                    trying.unmoved.push(at);
                }
            }
        }
        if trying.trucks.is_empty() || trying.unmoved.is_empty() {
            for at in trying.unmoved {
                self.rests_on[at].remove(trying.guess);
            }
        } else {
            self.trying = Some(trying);
        }
        self.remaining.is_empty() && self.trying.is_none()
    }

    /// The next guess.
    #[inline(never)]
    fn begin(&mut self) -> Option<Trying> {
        let guess = self.remaining.pop()?;
        let unmoved = (0..self.figures.len()).filter(|at| self.rests_on[*at].contains(guess)).collect();
        let mut trucks = self.trial.alternatives(guess);
        trucks.reverse();
        Some(Trying { guess, trucks, unmoved })
    }

    /// The search in one go.
    #[must_use]
    pub fn finished(mut self, values_of: &dyn Fn(&Trial, &[Figure]) -> Values) -> Self {
        while !self.step(values_of) {}
        self
    }

    /// The guesses that a figure rests on, as far as they were tried; none of a figure that was not asked for.
    #[must_use]
    pub fn rests_on(&self, figure: Figure) -> Guesses {
        let of = |figure: Figure| {
            let at = self.figures.iter().position(|other| *other == figure);
            at.map_or(Guesses::NONE, |at| self.rests_on[at])
        };
        figure.least_room_there().map_or(Guesses::NONE, of).union(of(figure))
    }
}

fn alike(one: Option<Value>, two: Option<Value>, figure: Figure) -> bool {
    match (one, two) {
        (Some(one), Some(two)) => one.is_printed_as(two, figure.sort()),
        (None, None) => true,
        _ => false,
    }
}
