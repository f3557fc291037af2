//! Tire sizes as they stand on the sidewall.
//!
//! ```text
//! size    = [ "LT" | "P" ] width ( "/" | spaces ) aspect make rim [ "LT" ] [ service ]
//! make    = [ spaces ] ( "R" | "D" | "-" ) [ spaces ] | spaces
//! rim     = digits [ "." digits ]
//! service = digits [ "/" digits ] letter                 load index and speed; read and dropped
//! ```
//!
//! Letters are read in either case, spaces may stand between the parts.

use crate::cursor::Cursor;
use crate::error::{ParseError, Problem};
use crate::number::{decimal, fixed, integer, push_digits};

/// Widths that are read, mm.
const WIDTH_MM: (u32, u32) = (100, 400);
/// Aspect ratios that are read, per cent.
const ASPECT_PERCENT: (u32, u32) = (25, 100);
/// Rim codes that are read.
const RIM_IN: (u32, u32) = (8, 26);

/// A metric tire size. Whether the carcass is radial is not kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TireSize {
    /// Nominal section width, mm.
    pub width_mm: u32,
    /// Section height over section width, per cent.
    pub aspect_percent: u32,
    /// Rim diameter code, nominal inches.
    pub rim_in: f64,
    /// Marked LT: the light-truck series of the size.
    pub light_truck: bool,
}

impl TireSize {
    /// Reads a size: `195/75R14`, `LT245/75R16`, `195/75-14`, `195 75 14`,
    /// `P195/75R14 92S`.
    ///
    /// # Errors
    /// [`ParseError`] with the place of the first thing that fits no size, or of a
    /// width outside 100 to 400 mm, an aspect outside 25 to 100, a rim outside 8
    /// to 26.
    pub fn parse(text: &str) -> Result<Self, ParseError> {
        let mut cursor = Cursor::new(text)?;
        let mut light_truck = prefix(&mut cursor)?;
        let width_mm = bounded(&mut cursor, "a section width", WIDTH_MM)?;
        let spaced = cursor.skip_spaces();
        if !cursor.eat(&['/']) && !spaced {
            return Err(cursor.fail(Problem::Expected { what: "a slash and the aspect ratio" }));
        }
        cursor.skip_spaces();
        let aspect_percent = bounded(&mut cursor, "an aspect ratio", ASPECT_PERCENT)?;
        let spaced = cursor.skip_spaces();
        if !cursor.eat(&['R', 'r', 'D', 'd']) && !cursor.eat_joiner() && !spaced {
            return Err(cursor.fail(Problem::Expected { what: "R and the rim diameter" }));
        }
        cursor.skip_spaces();
        let rim_in = rim(&mut cursor)?;
        light_truck |= suffix(&mut cursor)?;
        cursor.end()?;
        Ok(Self { width_mm, aspect_percent, rim_in, light_truck })
    }

    /// The size as on the sidewall: `195/75R14`, `LT245/75R16`.
    #[must_use]
    pub fn print(self) -> String {
        let mut out = String::from(if self.light_truck { "LT" } else { "" });
        push_digits(&mut out, u64::from(self.width_mm), 1);
        out.push('/');
        push_digits(&mut out, u64::from(self.aspect_percent), 1);
        out.push('R');
        let halves = self.rim_in.fract() > 0.0;
        out + &fixed(self.rim_in, u8::from(halves))
    }
}

/// Reads the letters before the width; true for LT.
fn prefix(cursor: &mut Cursor<'_>) -> Result<bool, ParseError> {
    let place = cursor.clone();
    let word = cursor.word();
    let light_truck = word.eq_ignore_ascii_case("LT");
    if !light_truck && !word.is_empty() && !word.eq_ignore_ascii_case("P") {
        return Err(place.fail(Problem::ExpectedNumber));
    }
    cursor.skip_spaces();
    Ok(light_truck)
}

/// Reads a whole number within a range.
fn bounded(
    cursor: &mut Cursor<'_>,
    what: &'static str,
    (least, most): (u32, u32),
) -> Result<u32, ParseError> {
    let place = cursor.clone();
    let value = integer(cursor)?;
    u32::try_from(value)
        .ok()
        .filter(|value| (least..=most).contains(value))
        .ok_or_else(|| place.fail(Problem::OutOfRange { what, least, most }))
}

/// Reads a rim code in whole or half inches.
fn rim(cursor: &mut Cursor<'_>) -> Result<f64, ParseError> {
    let place = cursor.clone();
    let value = decimal(cursor)?;
    let (least, most) = RIM_IN;
    if value < f64::from(least) || value > f64::from(most) {
        return Err(place.fail(Problem::OutOfRange { what: "a rim diameter", least, most }));
    }
    if (value * 2.0).fract() > 0.0 {
        return Err(place.fail(Problem::Expected { what: "a rim diameter in whole or half inches" }));
    }
    Ok(value)
}

/// Reads what may follow the rim: LT, load index and speed letter. True for LT.
fn suffix(cursor: &mut Cursor<'_>) -> Result<bool, ParseError> {
    cursor.skip_spaces();
    let mut ahead = cursor.clone();
    let light_truck = ahead.word().eq_ignore_ascii_case("LT");
    if light_truck {
        *cursor = ahead;
        cursor.skip_spaces();
    }
    if cursor.digit().is_some() {
        integer(cursor)?;
        if cursor.eat(&['/']) {
            integer(cursor)?;
        }
        let place = cursor.clone();
        if cursor.word().len() != 1 {
            return Err(place.fail(Problem::Expected { what: "a speed letter after the load index" }));
        }
    }
    Ok(light_truck)
}
