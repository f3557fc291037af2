//! What any output prints of a figure.

use super::{Figure, Guesses};
use crate::spring_loads::Preload;

/// What a figure's value is, in the core's unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// mm.
    Length,
    /// rad.
    Angle,
    /// rad/mm.
    AnglePerLength,
    /// A ratio of two lengths.
    Ratio,
    /// N/mm.
    Rate,
    /// Hz.
    Frequency,
    /// N/mm².
    Stress,
    /// A share of one.
    Share,
    /// How much more than before, as a share.
    Harder,
    /// A turning circle, mm.
    Circle,
    /// Words.
    Words,
}

impl Sort {
    /// The step by which a value counts as moved: a hundredth of a millimetre and of a degree, as
    /// numbers of a design are kept. Outputs print no finer unless they are told to.
    const fn step(self) -> f64 {
        const DEGREE: f64 = std::f64::consts::PI / 180.0;
        match self {
            Self::Angle => 0.01 * DEGREE,
            // Said of an inch or of 25 mm.
            Self::AnglePerLength => 0.01 * DEGREE / 25.4,
            Self::Ratio => 1e-4,
            Self::Stress => 1.0,
            Self::Length | Self::Rate | Self::Frequency | Self::Share | Self::Harder | Self::Circle => 0.01,
            Self::Words => 0.1,
        }
    }
}

/// The value of a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// In the core's unit.
    Number(f64),
    /// Words of the trade.
    Words(&'static str),
    /// By how much a spring holds, in words with an amount.
    Preload(Preload),
}

impl Value {
    /// The number that it is, in the core's unit; `None` of words.
    #[must_use]
    pub const fn number(self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(number),
            Self::Words(_) | Self::Preload(_) => None,
        }
    }

    /// Whether another value of the sort is printed alike.
    #[must_use]
    pub fn is_printed_as(self, other: Self, sort: Sort) -> bool {
        match (self, other) {
            (Self::Number(one), Self::Number(two)) => alike(one, two, sort.step()),
            (Self::Words(one), Self::Words(two)) => one == two,
            (Self::Preload(one), Self::Preload(two)) => {
                let (one, two) = (parts(one), parts(two));
                one.iter().zip(&two).all(|(one, two)| match (one, two) {
                    (Some(one), Some(two)) => alike(*one, *two, 0.1) && (*one > 0.0) == (*two > 0.0),
                    (one, two) => one.is_some() == two.is_some(),
                })
            }
            _ => false,
        }
    }
}

/// Whether two numbers round to the same count of steps; what rounding alone tells apart is alike.
fn alike(one: f64, two: f64, step: f64) -> bool {
    (one - two).abs() < 1e-3 * step || ((one / step).round() - (two / step).round()).abs() < 0.5
}

/// Degrees and turns of a bar, millimetres of a coil.
fn parts(preload: Preload) -> [Option<f64>; 3] {
    match preload {
        Preload::Bar { twist_rad, turns } => [Some(twist_rad.to_degrees()), turns, None],
        Preload::Coil(mm) => [None, None, Some(mm)],
    }
}

/// What is to be thought of a figure, as far as what was measured carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judged {
    /// Nothing to be said.
    Fine,
    /// It works, with little to spare.
    Tight,
    /// It does not work.
    Bad,
    /// It would be tight or bad, yet rests on a guess: no verdict before that is measured.
    Open,
}

/// A figure as it is told: everything that any output prints of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// Which figure.
    pub figure: Figure,
    /// Its value; `None` where the truck does not stand or a number that it needs is not stated.
    pub value: Option<Value>,
    /// The model's own number, in the core's unit, where a reading off the truck stands in its place.
    pub model: Option<f64>,
    /// The guesses that it rests on.
    pub rests_on: Guesses,
    /// What is to be thought of it.
    pub judged: Judged,
}

impl Told {
    /// Whether it rests on a number that nobody has measured: it is then marked in every output.
    #[must_use]
    pub fn is_guess(&self) -> bool {
        !self.rests_on.is_empty()
    }

    /// Its value where that is a number, in the core's unit.
    #[must_use]
    pub fn number(&self) -> Option<f64> {
        self.value.and_then(Value::number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding by hand: 2.344 and 2.3449 are 2.34, 2.3451 is 2.35; half a degree is not a tenth more.
    #[test]
    fn what_is_printed_alike_rounds_alike() {
        let alike = |one: f64, two: f64, sort| Value::Number(one).is_printed_as(Value::Number(two), sort);
        assert!(alike(2.344, 2.3449, Sort::Length) && !alike(2.3449, 2.3451, Sort::Length));
        assert!(!alike(0.5_f64.to_radians(), 0.51_f64.to_radians(), Sort::Angle));
        assert!(alike(0.5_f64.to_radians(), 0.504_f64.to_radians(), Sort::Angle));
        // An angle for a millimetre, told for an inch: a hundredth of a degree is a step.
        let inch = |degrees: f64| degrees.to_radians() / 25.4;
        assert!(!alike(inch(0.30), inch(0.31), Sort::AnglePerLength));
        assert!(alike(inch(0.30), inch(0.304), Sort::AnglePerLength));
        assert!(alike(300.2, 300.4, Sort::Stress) && !alike(300.4, 300.6, Sort::Stress));
    }

    /// A spring that comes loose reads otherwise however small the amount; nor are bar and coil one.
    #[test]
    fn holding_and_loose_are_not_alike() {
        let bar =
            |degrees: f64, turns| Value::Preload(Preload::Bar { twist_rad: degrees.to_radians(), turns });
        let coil = |mm| Value::Preload(Preload::Coil(mm));
        let same = |one: Value, two| one.is_printed_as(two, Sort::Words);
        assert!(
            same(bar(3.0, Some(2.0)), bar(3.01, Some(2.01))) && !same(bar(3.0, None), bar(3.0, Some(2.0)))
        );
        assert!(!same(bar(3.0, Some(2.0)), bar(3.0, Some(2.2))) && !same(bar(3.0, None), bar(3.2, None)));
        assert!(
            !same(coil(0.01), coil(-0.01)) && same(coil(5.0), coil(5.02)) && !same(coil(3.0), bar(3.0, None))
        );
    }
}
