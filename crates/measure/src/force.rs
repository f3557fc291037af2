//! Forces and spring rates as people write them. A kilogram or pound on a scale
//! is the force it weighs.
//!
//! ```text
//! force = [ spaces ] [ sign ] [ spaces ] amount [ [ spaces ] unit ] [ spaces ]
//! unit  = "N" | "kN" | "newton(s)" | "kg" | "kgf" | "kilogram(s)" | "kilo(s)"
//!       | "lb" | "lbs" | "lbf" | "pound(s)"
//! rate  = [ spaces ] [ sign ] [ spaces ] amount [ [ spaces ] unit per length ] [ spaces ]
//! per   = [ spaces ] ( "/" | "per" ) [ spaces ]
//! ```
//!
//! Signs, amounts and unit words of length are those of a
//! [length](crate::length). Conversions are exact (NIST SP 811, appendix B).

use crate::cursor::{Cursor, look_up};
use crate::error::{ParseError, Problem};
use crate::length::{MM_PER_INCH, unit_word};
use crate::number::{NO_NUMBER, amount, print_number, with_sign};

/// Newtons in the weight of a kilogram: standard gravity, exact (NIST SP 811).
pub const NEWTONS_PER_KILOGRAM: f64 = 9.80665;
/// Newtons in a pound-force: 0.45359237 kg times standard gravity, exact (NIST SP 811).
pub const NEWTONS_PER_POUND: f64 = 4.4482216152605;

/// Larger forces than this are refused, N.
const LARGEST_NEWTONS: f64 = 1e6;
/// Larger rates than this are refused, N/mm.
const LARGEST_RATE: f64 = 1e6;

/// Words for units of force, in lower case.
static UNIT_WORDS: [(&str, ForceUnit); 15] = [
    ("n", ForceUnit::Newton),
    ("newton", ForceUnit::Newton),
    ("newtons", ForceUnit::Newton),
    ("kg", ForceUnit::Kilogram),
    ("kgf", ForceUnit::Kilogram),
    ("kgs", ForceUnit::Kilogram),
    ("kilo", ForceUnit::Kilogram),
    ("kilos", ForceUnit::Kilogram),
    ("kilogram", ForceUnit::Kilogram),
    ("kilograms", ForceUnit::Kilogram),
    ("lb", ForceUnit::Pound),
    ("lbs", ForceUnit::Pound),
    ("lbf", ForceUnit::Pound),
    ("pound", ForceUnit::Pound),
    ("pounds", ForceUnit::Pound),
];

/// What a bare number stands for, or the unit that was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ForceUnit {
    /// 1 N.
    Newton,
    /// The weight of a kilogram, 9.80665 N.
    Kilogram,
    /// The weight of a pound, 4.4482216152605 N.
    Pound,
}

/// A force as it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Force {
    /// The force, N; finite, within ±1e6, never −0.
    pub newtons: f64,
    /// The unit it was written in, or the field's own.
    pub unit: ForceUnit,
}

/// What a bare spring rate stands for, or the unit that was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RateUnit {
    /// 1 N/mm.
    NewtonPerMillimetre,
    /// 9.80665 N/mm.
    KilogramPerMillimetre,
    /// 0.1751… N/mm.
    PoundPerInch,
}

/// A spring rate as it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// The rate, N/mm; finite, within ±1e6, never −0.
    pub newtons_per_mm: f64,
    /// The unit it was written in, or the field's own: the one with the same
    /// force where the length is another.
    pub unit: RateUnit,
}

/// Reads a force; a bare number takes the unit `bare`.
///
/// # Errors
/// [`ParseError`] with the place of the first thing that fits no force, or of a
/// force beyond 1e6 N.
pub fn parse_force(text: &str, bare: ForceUnit) -> Result<Force, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let place = cursor.clone();
    let value = amount(&mut cursor)?;
    cursor.skip_spaces();
    let (unit, newtons) = match cursor.peek() {
        None => (bare, bare.newtons()),
        Some(_) => force_unit(&mut cursor, "N, kg or lb")?,
    };
    cursor.end()?;
    let newtons = value * newtons;
    if newtons > LARGEST_NEWTONS {
        return Err(place.fail(Problem::TooLarge { limit: "1000000 N" }));
    }
    Ok(Force { newtons: with_sign(minus, newtons), unit })
}

/// A force as the page shows it: `2940 N`, `299.8 kg`, `661 lb`.
///
/// Whole newtons and pounds, tenths of a kilogram; rounded as
/// [`fixed`](crate::fixed) does; true minus; `—` where there is no number.
#[must_use]
pub fn print_force(newtons: f64, unit: ForceUnit) -> String {
    let value = newtons / unit.newtons();
    match unit {
        ForceUnit::Newton => with_unit(print_number(value, 0), " N"),
        ForceUnit::Kilogram => with_unit(print_number(value, 1), " kg"),
        ForceUnit::Pound => with_unit(print_number(value, 0), " lb"),
    }
}

/// Reads a spring rate; a bare number takes the unit `bare`.
///
/// Any force over any length is read: `350 lb/in`, `61 N/mm`, `6.2 kg/mm`.
///
/// # Errors
/// [`ParseError`] with the place of the first thing that fits no rate, or of a
/// rate beyond 1e6 N/mm.
pub fn parse_rate(text: &str, bare: RateUnit) -> Result<Rate, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let place = cursor.clone();
    let value = amount(&mut cursor)?;
    cursor.skip_spaces();
    let (unit, newtons_per_mm) = match cursor.peek() {
        None => (bare, bare.newtons_per_mm()),
        Some(_) => rate_unit(&mut cursor)?,
    };
    cursor.end()?;
    let newtons_per_mm = value * newtons_per_mm;
    if newtons_per_mm > LARGEST_RATE {
        return Err(place.fail(Problem::TooLarge { limit: "1000000 N/mm" }));
    }
    Ok(Rate { newtons_per_mm: with_sign(minus, newtons_per_mm), unit })
}

/// A spring rate as the page shows it: `61.3 N/mm`, `6.25 kg/mm`, `350 lb/in`.
///
/// `newtons_per_mm`: the rate. Tenths of N/mm, hundredths of kg/mm, whole lb/in;
/// rounded as [`fixed`](crate::fixed) does; true minus; `—` where there is no
/// number.
#[must_use]
pub fn print_rate(newtons_per_mm: f64, unit: RateUnit) -> String {
    let value = newtons_per_mm / unit.newtons_per_mm();
    match unit {
        RateUnit::NewtonPerMillimetre => with_unit(print_number(value, 1), " N/mm"),
        RateUnit::KilogramPerMillimetre => with_unit(print_number(value, 2), " kg/mm"),
        RateUnit::PoundPerInch => with_unit(print_number(value, 0), " lb/in"),
    }
}

impl ForceUnit {
    /// Newtons in one of the unit, exact.
    #[must_use]
    pub fn newtons(self) -> f64 {
        match self {
            Self::Newton => 1.0,
            Self::Kilogram => NEWTONS_PER_KILOGRAM,
            Self::Pound => NEWTONS_PER_POUND,
        }
    }
}

impl RateUnit {
    /// N/mm in one of the unit, rounded once.
    #[must_use]
    pub fn newtons_per_mm(self) -> f64 {
        match self {
            Self::NewtonPerMillimetre => 1.0,
            Self::KilogramPerMillimetre => NEWTONS_PER_KILOGRAM,
            Self::PoundPerInch => NEWTONS_PER_POUND / MM_PER_INCH,
        }
    }
}

/// The unit of force that a word stands for, in any case and spelling.
pub(crate) fn force_word(word: &str) -> Option<ForceUnit> {
    look_up(&UNIT_WORDS, word)
}

/// Reads a word of force: its unit and the newtons in one.
fn force_unit(cursor: &mut Cursor<'_>, expected: &'static str) -> Result<(ForceUnit, f64), ParseError> {
    let place = cursor.clone();
    let word = cursor.word();
    let found = match force_word(word) {
        Some(unit) => (unit, unit.newtons()),
        None if word.eq_ignore_ascii_case("kn") => (ForceUnit::Newton, 1000.0),
        None => return Err(place.fail(Problem::UnknownUnit { expected })),
    };
    cursor.eat(&['.']);
    Ok(found)
}

/// Reads a force over a length: its unit and the N/mm in one.
fn rate_unit(cursor: &mut Cursor<'_>) -> Result<(RateUnit, f64), ParseError> {
    let expected = "N/mm, kg/mm or lb/in";
    let (force, newtons) = force_unit(cursor, expected)?;
    cursor.skip_spaces();
    let place = cursor.clone();
    if !cursor.eat(&['/']) && !cursor.word().eq_ignore_ascii_case("per") {
        return Err(place.fail(Problem::Expected { what: "a slash and a length unit" }));
    }
    cursor.skip_spaces();
    let place = cursor.clone();
    let Some(length) = unit_word(cursor.word()) else {
        return Err(place.fail(Problem::UnknownUnit { expected: "mm or in" }));
    };
    cursor.eat(&['.']);
    let unit = match force {
        ForceUnit::Newton => RateUnit::NewtonPerMillimetre,
        ForceUnit::Kilogram => RateUnit::KilogramPerMillimetre,
        ForceUnit::Pound => RateUnit::PoundPerInch,
    };
    Ok((unit, newtons / length.mm()))
}

fn with_unit(number: String, unit: &str) -> String {
    if number == NO_NUMBER { number } else { number + unit }
}
