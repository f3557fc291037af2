//! What would make an answer surer, and what was read makes of the points, as people say it.

use crate::spread::spread_in_words;
use crate::words::tape;
use measure::{LengthStyle, MM_PER_INCH, Units, fixed, print_angle, print_length, print_number};
use study::{Certainty, Disagreement, Figure, Input, Moved, PointFit, Residual, SetSpreads, Sort};
use truck::{Kind, Readable};

/// Over the numbers of which it is known that they were off, and over those of which one may be.
pub const THESE_WERE_OFF: &str = "These were off:";
/// Over numbers that move together.
pub const ONE_OF_THESE: &str = "Together these move; which one was off is not known:";
/// Where no number moves by as much as anybody would see.
pub const NOTHING_MOVES: &str =
    "Nothing moves by as much as anybody would see: the points agree with what was read.";

/// Before why nothing is to be moved.
pub const MEND_FIRST: &str = "Nothing is to be moved before this is mended: ";

/// In the place of how far off an answer may be that was read and cannot be so.
pub const READINGS_DISAGREE: &str = "readings disagree";
/// Beside such a reading.
pub const READ_AGAIN: &str = "not what else was read says, or the tape: read it again";

/// Before anything is set by a reading that cannot be so.
#[must_use]
pub fn doubtful_in_words(of: Readable) -> String {
    ["Set nothing before this is mended: ", &Figure::of_reading(of).label(), " is ", READ_AGAIN, "."].concat()
}

/// How far off a reading may be either way, mm or rad, as finely as tools differ.
#[must_use]
pub fn give_in_words(kind: Kind, tolerance: f64, units: Units) -> String {
    match (kind, units) {
        (Kind::Angle, _) => print_angle(tolerance, 2),
        (_, Units::Inches) => print_number(tolerance / MM_PER_INCH, 3) + " in",
        (_, Units::Millimetres) => print_number(tolerance, 2) + " mm",
    }
}

/// What reading would narrow a figure most, and how far off it would then be, ± in the core's unit.
#[must_use]
pub fn next_reading_in_words(figure: Figure, (of, left): (Readable, f64), units: Units) -> String {
    let tool = of.tools()[0].label();
    let left = match figure.sort() {
        Sort::Length => "± ".to_owned() + &give_in_words(Kind::Length, left, units),
        Sort::Angle => "± ".to_owned() + &give_in_words(Kind::Angle, left, units),
        sort => spread_in_words(sort, left, units).unwrap_or_else(|| "closer than anybody reads".to_owned()),
    };
    let other = Figure::of_reading(of);
    if other == figure {
        return ["Read off the truck by ", tool, ": ", &left].concat();
    }
    [&other.label(), " read off the truck by ", tool, ", and the points made to fit: ", &left].concat()
}

/// Why nothing is to be moved to what was read.
#[must_use]
pub fn disagreement_in_words(why: Disagreement) -> String {
    match why {
        Disagreement::Of(of) => {
            Figure::of_reading(of).label() + ": what was read is not what all else says. Read it again."
        }
        Disagreement::Among => {
            "these disagree, with each other or with the tape: read them again.".to_owned()
        }
    }
}

/// What was read, and what the points say of it before and after.
#[must_use]
pub fn fitted_in_words(reading: &Residual, units: Units) -> String {
    let kind = reading.of.kind();
    let said = |core: f64| match kind {
        Kind::Angle => print_angle(core, 2),
        _ => print_length(core, tape(units)),
    };
    let label = Figure::of_reading(reading.of).label();
    let (read, give) = (said(reading.read), moved_by(kind, reading.tolerance, units));
    let (before, after) = (said(reading.before), said(reading.after));
    [&label, ": read ", &read, " ± ", &give, "; the points said ", &before, ", and would say ", &after]
        .concat()
}

/// The numbers that move by as much as anybody would see: those that are known to have been off, and those of
/// which one was.
#[must_use]
pub fn moved_in_words(fit: &PointFit, units: Units) -> [Vec<String>; 2] {
    let mut all = [Vec::new(), Vec::new()];
    for moved in &fit.moved {
        if let Some(said) = one_moved(moved, units) {
            all[usize::from(!moved.is_known())].push(said);
        }
    }
    all
}

/// A number that moves, by how much, and how far off it may still be; `None` where nobody would see it.
fn one_moved(moved: &Moved, units: Units) -> Option<String> {
    let (side, field) = match moved.input {
        Input::Number(field) => ("", field),
        Input::Right(field) => ("right: ", field),
        _ => return None,
    };
    let by = moved_by(field.kind(), moved.by.abs(), units);
    if by == moved_by(field.kind(), 0.0, units) {
        return None;
    }
    let sign = if moved.by < 0.0 { " −" } else { " +" };
    let left = moved_by(field.kind(), moved.tolerance_after, units);
    Some([side, field.label(), sign, &by, ", now ± ", &left].concat())
}

/// What is so in more of the trucks that measure as this one is sure: that rounds to 95 in a hundred.
const SURE: f64 = 0.945;

/// How sure it is which of the first ways gives up least, and whether they keep what was wished, by how well the
/// truck was measured; nothing where there is one alone that surely does.
#[must_use]
pub fn contest_in_words(ways: &[Certainty]) -> Vec<String> {
    let of_hundred = |share: f64| fixed(100.0 * share, 0);
    let listed = |share: fn(&Certainty) -> f64| {
        let mut all = Vec::new();
        for one in ways {
            all.push(of_hundred(share(one)));
        }
        all.join(", ")
    };
    let mut said = Vec::new();
    if let [first, _, ..] = ways {
        let count = ways.len().to_string();
        said.push(if first.is_cheapest < SURE {
            let shares = listed(|one| one.is_cheapest);
            [
                "Too near to tell which of the first ",
                &count,
                " gives up least: each does in ",
                &shares,
                " of a hundred trucks that measure as this one.",
            ]
            .concat()
        } else {
            let share = of_hundred(first.is_cheapest);
            [
                "Of the first ",
                &count,
                " the first gives up least in ",
                &share,
                " of a hundred trucks that measure as this one.",
            ]
            .concat()
        });
    }
    if ways.iter().any(|one| one.keeps < SURE) {
        let shares = listed(|one| one.keeps);
        let whose = if let [_] = ways {
            "The way above has".to_owned()
        } else {
            ["The first ", &ways.len().to_string(), " have"].concat()
        };
        said.push(
            [
                &whose,
                " the bump travel and the ride that were wished in ",
                &shares,
                " of a hundred trucks that measure as this one.",
            ]
            .concat(),
        );
    }
    said
}

/// What is set, in the order of [`SetSpreads`], and the fraction of an inch or the digits that it is said in.
const SET: [(&str, Amount); 6] = [
    ("adjuster bolt", Amount::Turns),
    ("coil's spacer", Amount::Length),
    ("shims at the front bolt", Amount::Shims),
    ("shims at the rear bolt", Amount::Shims),
    ("strut rod's nut", Amount::Turns),
    ("tie rod's sleeve", Amount::Turns),
];

#[derive(Clone, Copy)]
enum Amount {
    Turns,
    Length,
    Shims,
}

/// How far off what is set may be; empty where nobody would see it.
#[must_use]
pub fn set_spreads_in_words(now: &SetSpreads, units: Units) -> String {
    let mut said = Vec::new();
    for at in 0..SET.len() {
        said.extend(now.seen(at).map(|by| one_set(at, by, units)));
    }
    if said.is_empty() {
        return String::new();
    }
    ["By how well the truck was measured: ", &said.join("; "), ". Turn, read again, turn the rest."].concat()
}

/// What readings would make of that; empty where they are not worth their while.
#[must_use]
pub fn set_if_read_in_words(
    now: &SetSpreads,
    unread: &[Readable],
    then: &SetSpreads,
    units: Units,
) -> String {
    let mut better = Vec::new();
    for (at, (label, _)) in SET.iter().enumerate() {
        if now.is_narrowed_by(then, at) {
            let closer = || (*label).to_owned() + " as close as anybody sees";
            better.push(then.seen(at).map_or_else(closer, |then| one_set(at, then, units)));
        }
    }
    if better.is_empty() {
        return String::new();
    }
    let mut read = Vec::new();
    for of in unread {
        read.push(Figure::of_reading(*of).label());
    }
    ["Read these before the work (", &read.join("; "), "), and it gets surer: ", &better.join("; "), "."]
        .concat()
}

fn one_set(at: usize, by: f64, units: Units) -> String {
    let (label, amount) = SET[at];
    let said = match (amount, units) {
        (Amount::Turns, _) => print_number(by, 2) + " turns",
        (Amount::Shims, Units::Inches) => print_length(by, LengthStyle::Inches { denominator: 32 }),
        _ => print_length(by, tape(units)),
    };
    [label, " ± ", &said].concat()
}

/// As finely as what moves is told.
fn moved_by(kind: Kind, core: f64, units: Units) -> String {
    match (kind, units) {
        (Kind::Angle, _) => print_angle(core, 2),
        (Kind::Length, Units::Inches) => print_number(core / MM_PER_INCH, 2) + " in",
        (Kind::Length, Units::Millimetres) => print_number(core, 1) + " mm",
        _ => print_number(core, 2),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::Field;

    /// By hand: 1.3 mm are 0.051 in; what is read itself is not made to fit.
    #[test]
    fn the_next_reading_says_what_it_leaves() {
        let itself = (Readable::FenderAbove, 1.3);
        let said = |figure, next| next_reading_in_words(figure, next, Units::Inches);
        assert_eq!(said(Figure::FENDER_ABOVE, itself), "Read off the truck by tape: ± 0.051 in");
        assert_eq!(
            next_reading_in_words(Figure::FENDER_ABOVE, itself, Units::Millimetres),
            "Read off the truck by tape: ± 1.30 mm"
        );
        let caster = (Readable::Caster, 7.62);
        assert_eq!(
            said(Figure::TRAIL_GROUND, caster),
            "Caster, against the ground read off the truck by angle gauge or level, and the points made to fit: ± 0.300 in"
        );
        // A rate of half a hundredth of a hertz is less than is written of it.
        assert!(
            said(Figure::RIDE_FREQUENCY, (Readable::Caster, 0.004))
                .ends_with("fit: closer than anybody reads")
        );
    }

    /// In a hundred trucks, 95 is sure and 94 is not; what all keep is not said.
    #[test]
    fn ways_too_near_to_each_other_are_said_to_be() {
        let way = |is_cheapest, keeps| Certainty { is_cheapest, keeps };
        let near = contest_in_words(&[way(0.94, 1.0), way(0.06, 0.97)]);
        assert_eq!(near.len(), 1);
        assert!(
            near[0]
                .starts_with("Too near to tell which of the first 2 gives up least: each does in 94, 6 of")
        );
        let sure = contest_in_words(&[way(0.95, 0.2), way(0.05, 1.0)]);
        assert_eq!(
            sure,
            [
                "Of the first 2 the first gives up least in 95 of a hundred trucks that measure as this one.",
                "The first 2 have the bump travel and the ride that were wished in 20, 100 of a hundred trucks that measure as this one."
            ]
        );
        assert_eq!(
            contest_in_words(&[way(1.0, 0.45)]),
            [
                "The way above has the bump travel and the ride that were wished in 45 of a hundred trucks that measure as this one."
            ]
        );
        assert_eq!(contest_in_words(&[way(1.0, 1.0)]), Vec::<String>::new());
        assert_eq!(contest_in_words(&[]), Vec::<String>::new());
    }

    #[test]
    fn a_number_is_known_to_have_been_off_where_its_own_spread_halved() {
        let moved = |by, after| Moved {
            input: Input::Number(Field::LowerBallZ),
            by,
            tolerance_before: 6.35,
            tolerance_after: after,
        };
        let fit = PointFit {
            moved: vec![moved(-5.08, 1.27), moved(2.54, 6.0), moved(0.01, 1.0)],
            readings: Vec::new(),
            disagreement: None,
        };
        let [known, together] = moved_in_words(&fit, Units::Inches);
        assert_eq!(known, ["Lower ball, above the ground −0.20 in, now ± 0.05 in"]);
        assert_eq!(together, ["Lower ball, above the ground +0.10 in, now ± 0.24 in"]);
    }
}
