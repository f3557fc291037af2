//! Which columns of a sweep rest on a guess: those in which a guess moves a printed number of any row.

use super::poses::Poses;
use crate::trucks::Standing;
use study::{Figure, Guess, Guesses, Quantity, Sort, Stance, StandingSide, Trial, Value};
use truck::Fitted;

/// A longer table takes whatever may rest on a guess to rest on it: rather one mark too many.
const MOST_ROWS: u64 = 2000;

/// What carries the mark.
pub(super) struct Guessed {
    /// What stands beside the travel.
    pub(super) second: bool,
    /// Each quantity.
    pub(super) quantities: Vec<bool>,
}

impl Guessed {
    /// Whether anything does.
    pub(super) fn any(&self) -> bool {
        self.second || self.quantities.contains(&true)
    }
}

/// The numbers of a column, of which the first is what stands beside the travel.
type Rows = Vec<Vec<Option<Value>>>;

/// The columns that rest on a guess.
pub(super) fn guessed(standing: &Standing, poses: &Poses, quantities: &[Quantity]) -> Guessed {
    let is_steered = poses.lock_to_lock.is_some();
    // What the left guesses and the right has measured moves nothing at the right.
    let fitted = standing.trial.fitted().unwrap_or_else(|_| standing.rest.fitted.clone());
    let may = |quantity: Quantity| may_rest_on(quantity, is_steered, &fitted);
    let second = if is_steered { may(Quantity::Toe) } else { Guesses::NONE };
    let may: Vec<Guesses> = std::iter::once(second).chain(quantities.iter().map(|one| may(*one))).collect();
    let found = if poses.count() > MOST_ROWS {
        may.iter().map(|may| !may.is_empty()).collect()
    } else {
        narrowed(standing, poses, quantities, &may, &fitted)
    };
    Guessed { second: found[0], quantities: found[1..].to_vec() }
}

fn may_rest_on(quantity: Quantity, is_steered: bool, fitted: &Fitted) -> Guesses {
    let figure = Figure::through(quantity);
    if is_steered { figure.may_rest_on_steered(fitted) } else { figure.may_rest_on(fitted) }
}

/// Of the columns that may rest on a guess those that one moves.
fn narrowed(
    standing: &Standing,
    poses: &Poses,
    quantities: &[Quantity],
    may: &[Guesses],
    fitted: &Fitted,
) -> Vec<bool> {
    let mut moved = vec![false; may.len()];
    if may.iter().all(Guesses::is_empty) {
        return moved;
    }
    let before = rows(&standing.rest, poses, quantities);
    let sort = |column: usize| match column {
        0 => Sort::Angle,
        at => Figure::through(quantities[at - 1]).sort(),
    };
    for guess in Guesses::of(fitted).iter() {
        let is_open = |moved: &[bool], at: usize| !moved[at] && may[at].contains(guess);
        for there in trucks(standing, guess) {
            if !(0..may.len()).any(|at| is_open(&moved, at)) {
                break;
            }
            let after = there.map(|rest| rows(&rest, poses, quantities));
            for at in 0..may.len() {
                let differs = after.as_ref().is_none_or(|after| differ(&before, after, at, sort(at)));
                moved[at] |= is_open(&moved, at) && differs;
            }
        }
    }
    moved
}

/// The trucks that it might truly be; `None` where one does not stand.
fn trucks(standing: &Standing, guess: Guess) -> impl Iterator<Item = Option<StandingSide>> {
    let side = standing.rest.side();
    let stood = move |trial: Trial| Some(Stance::laid(&trial.truck, trial.overlay()).ok()?.on(side));
    standing.trial.alternatives(guess).into_iter().map(stood)
}

fn rows(rest: &StandingSide, poses: &Poses, quantities: &[Quantity]) -> Rows {
    let row = |(second, station): (f64, study::Station)| {
        let read = |quantity: &Quantity| quantity.read(station.gauged.as_ref().ok()?).map(Value::Number);
        std::iter::once(Some(Value::Number(second))).chain(quantities.iter().map(read)).collect()
    };
    poses.rows(rest).map(row).collect()
}

/// Whether a column of one table is printed otherwise than that of another.
fn differ(one: &Rows, two: &Rows, column: usize, sort: Sort) -> bool {
    let alike = |(one, two): (&Vec<Option<Value>>, &Vec<Option<Value>>)| match (one[column], two[column]) {
        (Some(one), Some(two)) => one.is_printed_as(two, sort),
        (one, two) => one.is_none() && two.is_none(),
    };
    one.len() != two.len() || !one.iter().zip(two).all(alike)
}
