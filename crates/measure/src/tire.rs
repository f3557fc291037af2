//! Tire sizes as they stand on the sidewall.
//!
//! ```text
//! size    = [ "LT" | "P" ] ( metric | inches ) make rim [ "LT" ] [ service ]
//! metric  = width ( "/" | spaces ) aspect
//! inches  = diameter ( "x" | "×" ) width                 both as decimals
//! make    = [ spaces ] ( "R" | "D" | "-" ) [ spaces ] | spaces
//! rim     = digits [ "." digits ]
//! service = digits [ "/" digits ] letter                 load index and speed; read and dropped
//! ```
//!
//! Letters are read in either case, spaces may stand between the parts. One in inches is the metric one that it is
//! nearest to, and is written in inches again.

use crate::cursor::Cursor;
use crate::error::{ParseError, Problem};
use crate::length::MM_PER_INCH;
use crate::number::{decimal, fixed, integer, without_zeros};

/// Widths that are read, mm.
const WIDTH_MM: (u32, u32) = (100, 400);
/// Aspect ratios that are read, per cent.
const ASPECT_PERCENT: (u32, u32) = (25, 100);
/// What a size looks like; an older one (F78-14, 7.00-14) does not say how high it is.
const LIKE: &str = "a size like 195/75R14 or 31x10.50R15";
/// Rim codes that are read.
const RIM_IN: (u32, u32) = (8, 26);

/// A metric tire size. Whether the carcass is radial is not kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TireSize {
    /// Nominal section width, whole mm.
    pub width_mm: f64,
    /// Section height over section width, whole per cent.
    pub aspect_percent: f64,
    /// Rim diameter code, nominal inches.
    pub rim_in: f64,
    /// Marked LT: the light-truck series of the size.
    pub light_truck: bool,
}

impl TireSize {
    /// Reads a size: `195/75R14`, `LT245/75R16`, `195/75-14`, `195 75 14`,
    /// `P195/75R14 92S`, `31x10.50R15`.
    ///
    /// # Errors
    /// [`ParseError`] with the place of the first thing that fits no size, or of a
    /// width outside 100 to 400 mm, an aspect outside 25 to 100, a rim outside 8
    /// to 26.
    pub fn parse(text: &str) -> Result<Self, ParseError> {
        let mut cursor = Cursor::new(text)?;
        let mut light_truck = prefix(&mut cursor)?;
        let place = cursor.clone();
        let inches = in_inches(&mut cursor)?;
        let mut size = if inches.is_some() { [0.0; 2] } else { in_millimetres(&mut cursor)? };
        let spaced = cursor.skip_spaces();
        if !cursor.eat(&['R', 'r', 'D', 'd']) && !cursor.eat_joiner() && !spaced {
            return Err(cursor.fail(Problem::Expected { what: "R and the rim diameter" }));
        }
        cursor.skip_spaces();
        let rim_in = rim(&mut cursor)?;
        light_truck |= suffix(&mut cursor)?;
        cursor.end()?;
        if let Some([diameter_in, width_in]) = inches {
            size = metric(diameter_in, width_in, rim_in);
            let is_within =
                |value: f64, (least, most): (u32, u32)| (f64::from(least)..=f64::from(most)).contains(&value);
            if !is_within(size[0], WIDTH_MM) || !is_within(size[1], ASPECT_PERCENT) {
                return Err(place.fail(Problem::Expected { what: LIKE }));
            }
        }
        let [width_mm, aspect_percent] = size;
        Ok(Self { width_mm, aspect_percent, rim_in, light_truck })
    }

    /// The size as on the sidewall: `195/75R14`, `LT245/75R16`, `31x10.50R15`.
    #[must_use]
    pub fn print(self) -> String {
        let written = print_tire_size(self.width_mm, self.aspect_percent, self.rim_in);
        if self.light_truck { "LT".to_owned() + &written } else { written }
    }
}

/// A size as on the sidewall, by section width, mm, aspect, per cent, and rim code: `195/75R14`, `31x10.50R15`.
#[must_use]
pub fn print_tire_size(width_mm: f64, aspect_percent: f64, rim_in: f64) -> String {
    let [first, between, second] = match inches(width_mm, aspect_percent, rim_in) {
        Some([diameter_in, width_in]) => {
            let decimals = if width_in.fract() > 0.0 { 2 } else { 0 };
            [fixed(diameter_in, 1), "x".to_owned(), fixed(width_in, decimals)]
        }
        None => [fixed(width_mm, 0), "/".to_owned(), fixed(aspect_percent, 0)],
    };
    [without_zeros(&first), &between, &second, "R", without_zeros(&fixed(rim_in, 1))].concat()
}

/// Width and aspect of the metric size that one in inches is nearest to.
fn metric(diameter_in: f64, width_in: f64, rim_in: f64) -> [f64; 2] {
    [width_in * MM_PER_INCH, (diameter_in - rim_in) / width_in * 50.0].map(|value| (value + 0.5).floor())
}

/// Diameter and width in inches, to a half and a quarter of one, of a size that was read from them: widths in
/// millimetres end in 5 or 0.
fn inches(width_mm: f64, aspect_percent: f64, rim_in: f64) -> Option<[f64; 2]> {
    let to = |steps: f64, value: f64| (value * steps + 0.5).floor() / steps;
    let width = width_mm / MM_PER_INCH;
    let found = [to(2.0, rim_in + width * aspect_percent / 50.0), to(4.0, width)];
    let [again_mm, again_percent] = metric(found[0], found[1], rim_in);
    let is_alike = |one: f64, other: f64| (one - other).abs() < 0.5;
    let is_from = (width_mm / 5.0).floor() * 5.0 < width_mm
        && is_alike(again_mm, width_mm)
        && is_alike(again_percent, aspect_percent);
    is_from.then_some(found)
}

/// Reads the letters before the width; true for LT.
fn prefix(cursor: &mut Cursor<'_>) -> Result<bool, ParseError> {
    let place = cursor.clone();
    let word = cursor.word();
    let light_truck = word.eq_ignore_ascii_case("LT");
    if !light_truck && !word.is_empty() && !word.eq_ignore_ascii_case("P") {
        return Err(place.fail(Problem::Expected { what: LIKE }));
    }
    cursor.skip_spaces();
    Ok(light_truck)
}

/// The overall diameter and the width of a size in inches; nothing where no `x` follows the first number.
fn in_inches(cursor: &mut Cursor<'_>) -> Result<Option<[f64; 2]>, ParseError> {
    let mut ahead = cursor.clone();
    let Ok(diameter_in) = decimal(&mut ahead) else { return Ok(None) };
    ahead.skip_spaces();
    if !ahead.eat(&['x', 'X', '×']) {
        return Ok(None);
    }
    ahead.skip_spaces();
    let width_in = decimal(&mut ahead)?;
    *cursor = ahead;
    Ok(Some([diameter_in, width_in]))
}

/// Section width, mm, and aspect, per cent.
fn in_millimetres(cursor: &mut Cursor<'_>) -> Result<[f64; 2], ParseError> {
    let width_mm = bounded(cursor, "a section width", WIDTH_MM)?;
    let spaced = cursor.skip_spaces();
    if !cursor.eat(&['/']) && !spaced {
        return Err(cursor.fail(Problem::Expected { what: "a slash and the aspect ratio" }));
    }
    cursor.skip_spaces();
    Ok([width_mm, bounded(cursor, "an aspect ratio", ASPECT_PERCENT)?])
}

/// Reads a whole number within a range.
fn bounded(
    cursor: &mut Cursor<'_>,
    what: &'static str,
    (least, most): (u32, u32),
) -> Result<f64, ParseError> {
    let place = cursor.clone();
    let value = integer(cursor)?;
    u32::try_from(value)
        .ok()
        .filter(|value| (least..=most).contains(value))
        .map(f64::from)
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
