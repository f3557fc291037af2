//! What can be wrong with a text, and where.

use std::fmt;
use std::ops::Deref;

/// The longest text that any parser of this crate reads, in bytes.
pub const LONGEST_TEXT: usize = 64;

/// Why a text could not be read, and the place in it.
///
/// `Display` gives a plain sentence for the person who typed it, without a
/// capital or a full stop, so that it can follow a field's name and a colon.
/// It is a pointer: every step of a parser passes one on, and few texts need one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParseError(Box<Place>);

/// Where reading stopped, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Byte offset into the text, always at the start of a character or at the end.
    pub at: usize,
    /// The same place as people count it: the first character is 1.
    pub character: usize,
    /// What is wrong there.
    pub kind: Problem,
}

impl ParseError {
    pub(crate) fn new(at: usize, character: usize, kind: Problem) -> Self {
        Self(Box::new(Place { at, character, kind }))
    }
}

impl Deref for ParseError {
    type Target = Place;

    fn deref(&self) -> &Place {
        &self.0
    }
}

/// What is wrong with a text.
#[non_exhaustive]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Problem {
    /// Nothing but spaces.
    Empty,
    /// More than [`LONGEST_TEXT`] bytes.
    TooLong,
    /// No number where one must stand.
    ExpectedNumber,
    /// A fraction over nothing: `1/0`.
    ZeroDenominator,
    /// A whole number followed by a fraction of one or more: `9 13/6`. Most often
    /// a digit is missing, so it is not added up.
    ImproperFraction,
    /// `1,400` is fourteen hundred to one reader and one and two fifths to another.
    AmbiguousComma,
    /// A word or mark that is no unit of this quantity; `expected` lists those that are.
    UnknownUnit {
        /// The units that could stand here, as a phrase.
        expected: &'static str,
    },
    /// Text after the end of the quantity.
    ExpectedEnd,
    /// Something that belongs to the format is missing.
    Expected {
        /// The missing part, as a phrase.
        what: &'static str,
    },
    /// A finer part that reaches the next coarser one: `2' 13"`, `1° 75'`.
    Overflow {
        /// The finer part, as a phrase.
        part: &'static str,
        /// It stays below this many.
        limit: u32,
    },
    /// Beyond what a truck can have.
    TooLarge {
        /// The largest magnitude that is read, as a phrase.
        limit: &'static str,
    },
    /// A whole number outside its range.
    OutOfRange {
        /// What the number counts, as a phrase.
        what: &'static str,
        /// The least that is read.
        least: u32,
        /// The most that is read.
        most: u32,
    },
}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let character = self.character;
        match self.kind {
            Problem::Empty => f.write_str("expected a number, but there is nothing here"),
            Problem::TooLong => {
                write!(f, "expected at most {} characters", LONGEST_TEXT)
            }
            Problem::ExpectedNumber => write!(f, "expected a number at character {character}"),
            Problem::ZeroDenominator => {
                write!(f, "expected a fraction not over zero at character {character}")
            }
            Problem::ImproperFraction => {
                write!(f, "expected a fraction below one after the whole number at character {character}")
            }
            Problem::AmbiguousComma => {
                write!(f, "expected no comma at character {character}: it could mark thousands or decimals")
            }
            Problem::UnknownUnit { expected } => {
                write!(f, "expected {expected} at character {character}")
            }
            Problem::ExpectedEnd => write!(f, "expected nothing more at character {character}"),
            Problem::Expected { what } => write!(f, "expected {what} at character {character}"),
            Problem::Overflow { part, limit } => {
                write!(f, "expected {part} below {limit} at character {character}")
            }
            Problem::TooLarge { limit } => {
                write!(f, "expected at most {limit} at character {character}")
            }
            Problem::OutOfRange { what, least, most } => {
                write!(f, "expected {what} between {least} and {most} at character {character}")
            }
        }
    }
}

impl std::error::Error for ParseError {}
