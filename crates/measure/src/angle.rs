//! Angles as people write them: degrees, with minutes and seconds if they like.
//!
//! ```text
//! angle   = [ spaces ] [ sign ] [ spaces ] ( amount | parts ) [ spaces ]     bare: degrees
//! parts   = part { [ spaces ] part }                     each finer than the one before
//! part    = amount [ spaces ] mark                       the last mark may be left out after another
//! mark    = degree | minute | second
//! degree  = "°" | "º" | "˚" | "deg" | "degree" | "degrees"
//! minute  = "'" | "′" | "’" | "min" | "minute" | "minutes"
//! second  = '"' | "″" | "”" | "''" | "sec" | "second" | "seconds"
//! ```
//!
//! Signs and amounts are those of a [length](crate::length). A minus applies
//! to the whole angle. Minutes after degrees and seconds after minutes stay below
//! sixty.
//!
//! ```
//! for (text, degrees) in [
//!     ("1.5", 1.5),
//!     ("1 1/2°", 1.5),
//!     ("-0.5 deg", -0.5),
//!     ("−0.50°", -0.5),
//!     ("1°30'", 1.5),
//!     ("1° 30′", 1.5),
//!     ("-0° 30'", -0.5),
//!     ("30'", 0.5),
//!     ("1° 29' 60/2\"", 1.0 + 29.5 / 60.0),
//! ] {
//!     let angle = measure::parse_angle(text).unwrap();
//!     assert!((angle.rad.to_degrees() - degrees).abs() < 1e-14, "{text}");
//! }
//! ```

use crate::cursor::{Cursor, look_up};
use crate::error::{ParseError, Problem};
use crate::length::plural;
use crate::number::{NO_NUMBER, amount, print_number, spoken_number, starts_amount, with_sign};

/// Larger angles than this are refused, degrees.
const LARGEST_DEGREES: f64 = 360.0;

/// Words for parts of an angle, in lower case.
static MARK_WORDS: [(&str, Mark); 9] = [
    ("deg", Mark::Degree),
    ("degree", Mark::Degree),
    ("degrees", Mark::Degree),
    ("min", Mark::Minute),
    ("minute", Mark::Minute),
    ("minutes", Mark::Minute),
    ("sec", Mark::Second),
    ("second", Mark::Second),
    ("seconds", Mark::Second),
];

/// An angle as it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Angle {
    /// The angle, rad; finite, within a full turn either way, never −0.
    pub rad: f64,
}

/// Reads an angle; a bare number is in degrees.
///
/// # Errors
/// [`ParseError`] with the place of the first thing that fits no angle, as the
/// module's grammar has it, or of an angle beyond 360°.
///
/// # Accuracy
/// Degrees are the nearest `f64` to the text for up to 17 digits, and one rounding
/// more makes them radians.
pub fn parse_angle(text: &str) -> Result<Angle, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let place = cursor.clone();
    let first = amount(&mut cursor)?;
    let degrees = match mark(&mut cursor)? {
        Some(mark) => first / mark.in_a_degree() + finer_parts(&mut cursor, mark)?,
        None => first,
    };
    cursor.end()?;
    if degrees > LARGEST_DEGREES {
        return Err(place.fail(Problem::TooLarge { limit: "360°" }));
    }
    Ok(Angle { rad: with_sign(minus, degrees).to_radians() })
}

/// An angle as the page shows it, in degrees: `−0.50°`.
///
/// `rad`: the angle. Rounded as [`fixed`](crate::fixed) does; the minus is U+2212
/// and zero has none; `—` where there is no number.
#[must_use]
pub fn print_angle(rad: f64, decimals: u8) -> String {
    let number = print_number(rad.to_degrees(), decimals);
    if number == NO_NUMBER { number } else { number + "°" }
}

/// An angle as it is read aloud, in degrees: `minus 0.50 degrees`; `no value`
/// where there is no number.
#[must_use]
pub fn spoken_angle(rad: f64, decimals: u8) -> String {
    spoken_number(rad.to_degrees(), decimals)
        .map_or_else(|| String::from("no value"), |number| plural(number, "degree"))
}

/// A part of an angle, coarse to fine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Mark {
    Degree,
    Minute,
    Second,
}

impl Mark {
    fn in_a_degree(self) -> f64 {
        match self {
            Self::Degree => 1.0,
            Self::Minute => 60.0,
            Self::Second => 3600.0,
        }
    }

    fn next_finer(self) -> Option<Self> {
        match self {
            Self::Degree => Some(Self::Minute),
            Self::Minute => Some(Self::Second),
            Self::Second => None,
        }
    }
}

/// Reads minutes and seconds that follow a coarser part; the sum in degrees.
fn finer_parts(cursor: &mut Cursor<'_>, first: Mark) -> Result<f64, ParseError> {
    let mut degrees = 0.0;
    let mut coarser = first;
    while let Some(next) = coarser.next_finer() {
        cursor.skip_spaces();
        if !starts_amount(cursor) {
            break;
        }
        let place = cursor.clone();
        let value = amount(cursor)?;
        cursor.skip_spaces();
        let mark_place = cursor.clone();
        let this = mark(cursor)?.unwrap_or(next);
        if this <= coarser {
            return Err(mark_place.fail(Problem::UnknownUnit { expected: "minutes or seconds" }));
        }
        if value >= 60.0 {
            return Err(place.fail(Problem::Overflow { part: "minutes and seconds", limit: 60 }));
        }
        degrees += value / this.in_a_degree();
        coarser = this;
    }
    Ok(degrees)
}

/// Reads a mark or word, if anything but the end follows.
fn mark(cursor: &mut Cursor<'_>) -> Result<Option<Mark>, ParseError> {
    cursor.skip_spaces();
    if cursor.eat(&['°', 'º', '\u{2da}']) {
        return Ok(Some(Mark::Degree));
    }
    if cursor.eat_double_mark() {
        return Ok(Some(Mark::Second));
    }
    if cursor.eat_single_mark() {
        return Ok(Some(Mark::Minute));
    }
    if cursor.peek().is_none() {
        return Ok(None);
    }
    let place = cursor.clone();
    let Some(mark) = look_up(&MARK_WORDS, cursor.word()) else {
        return Err(place.fail(Problem::UnknownUnit { expected: "degrees or minutes" }));
    };
    cursor.eat(&['.']);
    Ok(Some(mark))
}
