//! Lengths as people write them: millimetres, inches with fractions, feet.
//!
//! ```text
//! length   = [ spaces ] [ sign ] [ spaces ] ( feet [ join inches ] | single ) [ spaces ]
//! single   = amount [ [ spaces ] unit ]                  a bare amount takes the field's unit
//! feet     = amount [ spaces ] foot
//! join     = [ spaces ] [ joiner ] [ spaces ]
//! inches   = amount [ [ spaces ] inch ]                  below twelve
//! unit     = inch | foot | metric
//! inch     = "in" | "inch" | "inches" | '"' | "″" | "”" | "“" | "''"
//! foot     = "ft" | "foot" | "feet" | "'" | "′" | "’" | "‘"
//! metric   = "mm" | "cm" | "m" | "millimetre(s)" | "centimetre(s)" | "metre(s)"
//!
//! sign     = "+" | "−" | joiner
//! amount   = decimal | fraction | mixed
//! decimal  = digits [ ( "." | "," ) [ digits ] ] | ( "." | "," ) digits
//! fraction = digits slash digits | vulgar
//! mixed    = digits [ spaces | joiner ] fraction         the fraction below one
//! slash    = [ spaces ] ( "/" | "⁄" | "∕" ) [ spaces ]
//! vulgar   = "½" | "⅓" | "¼" | … | "⅞"
//! joiner   = "-" | "‐" | "‑" | "–"
//! ```
//!
//! Unit words are read in either case and spelling (`metre`, `meter`) and may end
//! in a point. A minus applies to the whole length. A hyphen after feet or after a
//! whole number joins, it does not subtract. A fraction of digits needs a space or
//! joiner before it. Lengths beyond 1e6 mm are refused, and so is a comma that
//! could mark thousands (`1,400`).
//!
//! ```
//! use measure::{LengthUnit, parse_length};
//!
//! let inch = 25.4;
//! for (text, mm) in [
//!     ("9 13/16", 9.8125 * inch),
//!     ("9-13/16 in", 9.8125 * inch),
//!     ("9-13/16\"", 9.8125 * inch),
//!     ("9.8125", 9.8125 * inch),
//!     ("½", 0.5 * inch),
//!     ("2½\"", 2.5 * inch),
//!     ("2 ½ in", 2.5 * inch),
//!     ("-1/2", -0.5 * inch),
//!     ("-0 1/2", -0.5 * inch),
//!     ("−1/2 in", -0.5 * inch),
//!     ("2' 3 1/4\"", 27.25 * inch),
//!     ("2'-3 1/4\"", 27.25 * inch),
//!     ("2' 3", 27.0 * inch),
//!     ("2 ft 3 in", 27.0 * inch),
//!     ("2′ 3″", 27.0 * inch),
//!     ("-2' 3\"", -27.0 * inch),
//!     ("46'11 37⁄64\"", (563.0 + 37.0 / 64.0) * inch),
//!     ("249 mm", 249.0),
//!     ("24.9cm", 249.0),
//!     ("63,5 mm", 63.5),
//!     ("1.4 m", 1400.0),
//! ] {
//!     let length = parse_length(text, LengthUnit::Inch).unwrap();
//!     assert!((length.mm - mm).abs() <= 1e-12 * mm.abs(), "{text}");
//! }
//!
//! for (text, at) in [
//!     ("", 0),
//!     ("abc", 0),
//!     ("1/0", 2),
//!     ("2 3 4", 2),
//!     ("2 in in", 5),
//!     ("1\" 1/2", 3),
//!     ("9 13/6", 2),
//!     ("2' 13\"", 3),
//!     ("1,400 mm", 1),
//! ] {
//!     let error = parse_length(text, LengthUnit::Inch).unwrap_err();
//!     assert_eq!(error.at, at, "{text}");
//! }
//! ```

use crate::cursor::{Cursor, look_up};
use crate::error::{ParseError, Problem};
use crate::number::{
    NO_NUMBER, TRUE_MINUS, amount, print_number, push_digits, spoken_number, starts_amount, with_sign,
};

/// Millimetres in an inch, exact by definition since 1959.
pub const MM_PER_INCH: f64 = 25.4;

/// Longer lengths than this are refused, mm.
const LARGEST_MM: f64 = 1e6;
/// Longer lengths than this are not printed, mm: their finest steps still fit a `u32`.
const LARGEST_PRINTED_MM: f64 = 1e8;
/// The finest inch fraction that is printed.
const FINEST_DENOMINATOR: u32 = 1024;
/// A length this near to half a step counts as half a step, in steps: most inch
/// fractions are no exact number of millimetres.
const TIE: f64 = 1e-9;

/// Words for units of length, in lower case; a table in the data, not code that builds it.
static UNIT_WORDS: [(&str, LengthUnit); 21] = [
    ("mm", LengthUnit::Millimetre),
    ("millimetre", LengthUnit::Millimetre),
    ("millimetres", LengthUnit::Millimetre),
    ("millimeter", LengthUnit::Millimetre),
    ("millimeters", LengthUnit::Millimetre),
    ("cm", LengthUnit::Centimetre),
    ("centimetre", LengthUnit::Centimetre),
    ("centimetres", LengthUnit::Centimetre),
    ("centimeter", LengthUnit::Centimetre),
    ("centimeters", LengthUnit::Centimetre),
    ("m", LengthUnit::Metre),
    ("metre", LengthUnit::Metre),
    ("metres", LengthUnit::Metre),
    ("meter", LengthUnit::Metre),
    ("meters", LengthUnit::Metre),
    ("in", LengthUnit::Inch),
    ("inch", LengthUnit::Inch),
    ("inches", LengthUnit::Inch),
    ("ft", LengthUnit::Foot),
    ("foot", LengthUnit::Foot),
    ("feet", LengthUnit::Foot),
];

/// What a bare number stands for, or the unit that was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// 1 mm.
    Millimetre,
    /// 10 mm.
    Centimetre,
    /// 1000 mm.
    Metre,
    /// 25.4 mm.
    Inch,
    /// 304.8 mm.
    Foot,
}

/// A length as it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Length {
    /// The length, mm; finite, within ±1e6, never −0.
    pub mm: f64,
    /// The unit it was written in, or the field's own; feet with inches are feet.
    pub unit: LengthUnit,
}

/// How a length is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthStyle {
    /// `249.2 mm`, rounded to the nearest as [`fixed`](crate::fixed) does.
    Millimetres {
        /// Digits after the point, at most 17.
        decimals: u8,
    },
    /// `9 13/16 in`, rounded to the nearest step, ties away from zero, reduced.
    Inches {
        /// Steps in an inch, from 1 to 1024: 16, 32, 64. Taken as the nearest of
        /// the range where outside it.
        denominator: u32,
    },
}

/// A length in whole inches and a reduced fraction, for drawing stacked fractions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InchParts {
    /// Whether the length is below zero; never for zero.
    pub negative: bool,
    /// Whole inches.
    pub whole: u32,
    /// 0 where there is no fraction, below `denominator` always.
    pub numerator: u32,
    /// 1 where there is no fraction.
    pub denominator: u32,
}

/// Reads a length; a bare number takes the unit `bare`.
///
/// # Errors
/// [`ParseError`] with the place of the first thing that fits no length, as the
/// module's grammar has it, or of a length beyond 1e6 mm.
///
/// # Accuracy
/// The nearest `f64` for millimetres of up to 17 digits, two roundings more for
/// other units.
pub fn parse_length(text: &str, bare: LengthUnit) -> Result<Length, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let place = cursor.clone();
    let first = amount(&mut cursor)?;
    let written = unit(&mut cursor)?;
    let unit = written.unwrap_or(bare);
    let mut mm = first * unit.mm();
    if written == Some(LengthUnit::Foot) {
        mm = (first * 12.0 + inches_after_feet(&mut cursor)?) * MM_PER_INCH;
    }
    cursor.end()?;
    if mm > LARGEST_MM {
        return Err(place.fail(Problem::TooLarge { limit: "1000000 mm" }));
    }
    Ok(Length { mm: with_sign(minus, mm), unit })
}

/// A length as the page shows it: `9 13/16 in`, `249.2 mm`, `−1/2 in`.
///
/// `mm`: the length. The minus is U+2212 and zero has none. What is not finite or
/// beyond 1e8 mm is `—`. Up to 1e6 mm, [`parse_length`] reads it back to within
/// half a step.
#[must_use]
pub fn print_length(mm: f64, style: LengthStyle) -> String {
    if !is_printable(mm) {
        return String::from(NO_NUMBER);
    }
    match style {
        LengthStyle::Millimetres { decimals } => print_number(mm, decimals) + " mm",
        LengthStyle::Inches { denominator } => inch_parts(mm, denominator).print() + " in",
    }
}

/// A length in feet and inches: `36 ft 5 in`, `−1 ft 4 1/2 in`, below a foot `8 in`.
///
/// `denominator`: steps in an inch, as in [`inch_parts`]. What cannot be printed is as in
/// [`print_length`]; [`parse_length`] reads it back to within half a step.
#[must_use]
pub fn print_feet(mm: f64, denominator: u32) -> String {
    if !is_printable(mm) {
        return String::from(NO_NUMBER);
    }
    let parts = inch_parts(mm, denominator);
    let inches = InchParts { negative: false, whole: parts.whole % 12, ..parts };
    if parts.whole < 12 {
        return parts.print() + " in";
    }
    let mut out = String::from(if parts.negative { TRUE_MINUS } else { "" });
    push_digits(&mut out, u64::from(parts.whole / 12), 1);
    out.push_str(" ft");
    if inches.whole > 0 || inches.numerator > 0 {
        out.push(' ');
        out.push_str(&inches.print());
        out.push_str(" in");
    }
    out
}

/// A length as it is read aloud: `9 and 13 sixteenths inches`, `minus one half
/// inch`, `249.2 millimeters`. Rounded as in [`print_length`]; `no value` where
/// that has `—`.
#[must_use]
pub fn spoken_length(mm: f64, style: LengthStyle) -> String {
    if !is_printable(mm) {
        return String::from("no value");
    }
    match style {
        LengthStyle::Millimetres { decimals } => spoken_number(mm, decimals)
            .map_or_else(|| String::from("no value"), |number| plural(number, "millimeter")),
        LengthStyle::Inches { denominator } => inch_parts(mm, denominator).speak(),
    }
}

/// A length in whole inches and a reduced fraction.
///
/// `denominator`: steps in an inch, from 1 to 1024, taken as the nearest of the
/// range where outside it. Rounded to the nearest step, ties away from zero, so
/// that 15 31/32 in sixteenths is 16. Not a number gives zero; more steps than a
/// `u32` holds give its greatest.
#[must_use]
pub fn inch_parts(mm: f64, denominator: u32) -> InchParts {
    let denominator = denominator.clamp(1, FINEST_DENOMINATOR);
    let steps = mm.abs() / MM_PER_INCH * f64::from(denominator);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "truncation is what is wanted; the cast saturates, and NaN gives 0"
    )]
    let steps = (steps + 0.5 + TIE) as u32;
    let rest = steps % denominator;
    let common = greatest_common_divisor(rest, denominator);
    InchParts {
        negative: mm < 0.0 && steps > 0,
        whole: steps / denominator,
        numerator: rest / common,
        denominator: denominator / common,
    }
}

impl LengthUnit {
    /// Millimetres in one of the unit, exact.
    #[must_use]
    pub fn mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => MM_PER_INCH,
            Self::Foot => 12.0 * MM_PER_INCH,
        }
    }
}

impl InchParts {
    /// The length of the rounded parts, mm: what snapping to a fraction gives.
    #[must_use]
    pub fn mm(self) -> f64 {
        let fraction = f64::from(self.numerator) / f64::from(self.denominator);
        let mm = (f64::from(self.whole) + fraction) * MM_PER_INCH;
        with_sign(self.negative, mm)
    }

    fn print(self) -> String {
        let mut out = String::from(if self.negative { TRUE_MINUS } else { "" });
        if self.whole > 0 || self.numerator == 0 {
            push_digits(&mut out, u64::from(self.whole), 1);
        }
        if self.numerator > 0 {
            if self.whole > 0 {
                out.push(' ');
            }
            push_digits(&mut out, u64::from(self.numerator), 1);
            out.push('/');
            push_digits(&mut out, u64::from(self.denominator), 1);
        }
        out
    }

    fn speak(self) -> String {
        let mut out = String::from(if self.negative { "minus " } else { "" });
        if self.whole > 0 || self.numerator == 0 {
            push_digits(&mut out, u64::from(self.whole), 1);
        }
        if self.numerator > 0 {
            if self.whole > 0 {
                out.push_str(" and ");
            }
            self.speak_fraction(&mut out);
        }
        let one = self.whole == 0 && self.numerator > 0 || self.whole == 1 && self.numerator == 0;
        out.push_str(if one { " inch" } else { " inches" });
        out
    }

    fn speak_fraction(self, out: &mut String) {
        let names = [
            (2, "half", "halves"),
            (4, "quarter", "quarters"),
            (8, "eighth", "eighths"),
            (16, "sixteenth", "sixteenths"),
            (32, "thirty-second", "thirty-seconds"),
            (64, "sixty-fourth", "sixty-fourths"),
        ];
        let name = names.iter().find(|(of, ..)| *of == self.denominator);
        match (name, self.numerator) {
            (Some((_, singular, _)), 1) => {
                out.push_str("one ");
                out.push_str(singular);
            }
            (Some((_, _, plural)), numerator) => {
                push_digits(out, u64::from(numerator), 1);
                out.push(' ');
                out.push_str(plural);
            }
            (None, numerator) => {
                push_digits(out, u64::from(numerator), 1);
                out.push_str(" over ");
                push_digits(out, u64::from(self.denominator), 1);
            }
        }
    }
}

/// A spoken number and its unit, which takes an s unless the number is one.
pub(crate) fn plural(number: String, unit: &str) -> String {
    let one = number == "1" || number == "minus 1";
    number + " " + unit + if one { "" } else { "s" }
}

/// The length unit a word stands for, in any case and spelling.
pub(crate) fn unit_word(word: &str) -> Option<LengthUnit> {
    look_up(&UNIT_WORDS, word)
}

/// Reads a unit word or mark, if anything but the end follows.
fn unit(cursor: &mut Cursor<'_>) -> Result<Option<LengthUnit>, ParseError> {
    cursor.skip_spaces();
    if cursor.eat_double_mark() {
        return Ok(Some(LengthUnit::Inch));
    }
    if cursor.eat_single_mark() {
        return Ok(Some(LengthUnit::Foot));
    }
    if cursor.peek().is_none() {
        return Ok(None);
    }
    let place = cursor.clone();
    let Some(unit) = unit_word(cursor.word()) else {
        return Err(place.fail(Problem::UnknownUnit { expected: "mm, cm, m, in or ft" }));
    };
    cursor.eat(&['.']);
    Ok(Some(unit))
}

/// Reads the inches of feet and inches; zero where there are none.
fn inches_after_feet(cursor: &mut Cursor<'_>) -> Result<f64, ParseError> {
    cursor.skip_spaces();
    if cursor.eat_joiner() {
        cursor.skip_spaces();
    } else if !starts_amount(cursor) {
        return Ok(0.0);
    }
    let place = cursor.clone();
    let inches = amount(cursor)?;
    cursor.skip_spaces();
    let unit_place = cursor.clone();
    if !matches!(unit(cursor)?, None | Some(LengthUnit::Inch)) {
        return Err(unit_place.fail(Problem::UnknownUnit { expected: "inches" }));
    }
    if inches >= 12.0 {
        return Err(place.fail(Problem::Overflow { part: "inches after feet", limit: 12 }));
    }
    Ok(inches)
}

fn is_printable(mm: f64) -> bool {
    mm.abs() <= LARGEST_PRINTED_MM
}

fn greatest_common_divisor(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { greatest_common_divisor(b, a % b) }
}
