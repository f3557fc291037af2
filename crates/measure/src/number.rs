//! Plain numbers, in and out: decimals and fractions, without the standard
//! library's conversions.
//!
//! ```text
//! signed   = [ sign ] amount
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
//! A fraction of digits needs a space or joiner before it, a vulgar one does not.
//! A comma before exactly three digits and after one to three that do not start
//! with 0 is refused, since it could mark thousands.

use crate::cursor::Cursor;
use crate::error::{ParseError, Problem};

/// What a printer for the page shows where there is no number.
pub(crate) const NO_NUMBER: &str = "—";
/// The typographic minus of the page.
pub(crate) const TRUE_MINUS: &str = "\u{2212}";

/// Numbers of this magnitude and more are printed as no number.
const LARGEST_PRINTED: f64 = 1e18;
/// More decimals than this carry nothing that an `f64` holds.
const MOST_DECIMALS: u8 = 17;
/// Whole numbers stay below this, so that ten to the ninth more fit in a `u64`.
const WHOLE_LIMIT: u64 = 1_000_000_000;
/// A mantissa below this can take one more digit and stay within 18 digits.
const MANTISSA_LIMIT: u64 = 100_000_000_000_000_000;

const SLASHES: [char; 3] = ['/', '\u{2044}', '\u{2215}'];

/// Reads a decimal or fraction without a unit: `1.25`, `2 1/2`, `½`, `-0 1/2`.
///
/// A minus applies to the whole of what follows it; the result is never −0.
///
/// # Errors
/// [`ParseError`] with the place: no number, text after it, a fraction over zero,
/// an improper fraction after a whole number, 1e9 or more.
///
/// # Accuracy
/// The nearest `f64` to the text for up to 17 digits from the first that is not
/// zero and up to 18 decimals; what goes beyond may be dropped.
pub fn parse_number(text: &str) -> Result<f64, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let value = amount(&mut cursor)?;
    cursor.end()?;
    Ok(with_sign(minus, value))
}

/// A number with a fixed count of decimals and an ASCII minus, for CSV and JSON.
///
/// Rounds the exact binary value to the nearest, ties away from zero; never `-0`.
/// At most 17 decimals are printed. What is not finite, or 1e18 and beyond, is
/// `null`.
#[must_use]
pub fn fixed(value: f64, decimals: u8) -> String {
    Rounded::new(value, decimals).map_or_else(
        || String::from("null"),
        |rounded| rounded.print(if rounded.is_negative() { "-" } else { "" }),
    )
}

/// A number as the page shows it: as [`fixed`], with a true minus (U+2212).
///
/// What is not finite, or 1e18 and beyond, is `—`.
#[must_use]
pub fn print_number(value: f64, decimals: u8) -> String {
    Rounded::new(value, decimals).map_or_else(
        || String::from(NO_NUMBER),
        |rounded| rounded.print(if rounded.is_negative() { TRUE_MINUS } else { "" }),
    )
}

/// A number's text without the zeros that say nothing: `2.50` as `2.5`, `2.00` as `2`, `20` as it is.
#[must_use]
#[inline(never)]
pub fn without_zeros(text: &str) -> &str {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text }
}

/// A difference as the page shows it: as [`print_number`], with a plus where it
/// is positive after rounding. Zero has no sign.
#[must_use]
pub fn signed(value: f64, decimals: u8) -> String {
    Rounded::new(value, decimals).map_or_else(
        || String::from(NO_NUMBER),
        |rounded| {
            rounded.print(if rounded.is_zero() {
                ""
            } else if rounded.is_negative() {
                TRUE_MINUS
            } else {
                "+"
            })
        },
    )
}

/// A number as it is read aloud: `minus 0.50`.
pub(crate) fn spoken_number(value: f64, decimals: u8) -> Option<String> {
    let rounded = Rounded::new(value, decimals)?;
    Some(rounded.print(if rounded.is_negative() { "minus " } else { "" }))
}

/// Puts a sign to a magnitude; zero stays +0.
pub(crate) fn with_sign(minus: bool, magnitude: f64) -> f64 {
    if minus && magnitude > 0.0 { -magnitude } else { magnitude }
}

/// Reads an unsigned decimal, fraction or mixed number.
pub(crate) fn amount(cursor: &mut Cursor<'_>) -> Result<f64, ParseError> {
    if let Some((numerator, denominator)) = vulgar(cursor) {
        return Ok(ratio(numerator, denominator));
    }
    let mut ahead = cursor.clone();
    if ahead.digit().is_some() {
        let whole = integer(&mut ahead)?;
        if let Some(denominator) = over(&mut ahead)? {
            *cursor = ahead;
            return Ok(ratio(whole, denominator));
        }
        if let Some((numerator, denominator)) = fraction_after_whole(&mut ahead)? {
            *cursor = ahead;
            return Ok(ratio(whole * denominator + numerator, denominator));
        }
    }
    decimal(cursor)
}

/// Whether a number starts here.
pub(crate) fn starts_amount(cursor: &Cursor<'_>) -> bool {
    let mut ahead = cursor.clone();
    vulgar(&mut ahead).is_some() || {
        ahead.eat(&['.', ',']);
        ahead.digit().is_some()
    }
}

/// Reads an unsigned decimal.
///
/// Takes 17 digits at least into the mantissa and steps over the rest.
pub(crate) fn decimal(cursor: &mut Cursor<'_>) -> Result<f64, ParseError> {
    let start = cursor.clone();
    let mut mantissa = 0;
    if cursor.digit().is_some() {
        mantissa = integer(cursor)?;
    }
    let whole_digits = cursor.at() - start.at();
    let mark = cursor.clone();
    let comma = cursor.peek() == Some(',');
    if !cursor.eat(&['.', ',']) {
        return if whole_digits == 0 {
            Err(cursor.fail(Problem::ExpectedNumber))
        } else {
            Ok(ratio(mantissa, 1))
        };
    }
    let mut scale = 1;
    let mut decimals = 0;
    while let Some(digit) = cursor.digit() {
        if mantissa < MANTISSA_LIMIT && scale < 10 * MANTISSA_LIMIT {
            mantissa = mantissa * 10 + digit;
            scale *= 10;
        }
        decimals += 1;
        cursor.bump();
    }
    if decimals == 0 && whole_digits == 0 {
        return Err(start.fail(Problem::ExpectedNumber));
    }
    if decimals == 0 && comma {
        return Err(cursor.fail(Problem::ExpectedNumber));
    }
    if comma && decimals == 3 && (1..=3).contains(&whole_digits) && start.digit() != Some(0) {
        return Err(mark.fail(Problem::AmbiguousComma));
    }
    Ok(ratio(mantissa, scale))
}

/// Reads a run of digits, at least one, below 1e9.
pub(crate) fn integer(cursor: &mut Cursor<'_>) -> Result<u64, ParseError> {
    let start = cursor.clone();
    if start.digit().is_none() {
        return Err(start.fail(Problem::ExpectedNumber));
    }
    let mut value = 0;
    while let Some(digit) = cursor.digit() {
        value = value * 10 + digit;
        if value >= WHOLE_LIMIT {
            return Err(start.fail(Problem::TooLarge { limit: "999999999" }));
        }
        cursor.bump();
    }
    Ok(value)
}

/// Reads a slash and a denominator, if a slash is next.
fn over(cursor: &mut Cursor<'_>) -> Result<Option<u64>, ParseError> {
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    if !ahead.eat(&SLASHES) {
        return Ok(None);
    }
    ahead.skip_spaces();
    let place = ahead.clone();
    let denominator = integer(&mut ahead)?;
    if denominator == 0 {
        return Err(place.fail(Problem::ZeroDenominator));
    }
    *cursor = ahead;
    Ok(Some(denominator))
}

/// Reads the fraction of a mixed number, if there is one.
fn fraction_after_whole(cursor: &mut Cursor<'_>) -> Result<Option<(u64, u64)>, ParseError> {
    let mut ahead = cursor.clone();
    let apart = ahead.skip_spaces() || ahead.eat_joiner();
    if let Some(fraction) = vulgar(&mut ahead) {
        *cursor = ahead;
        return Ok(Some(fraction));
    }
    if !apart || ahead.digit().is_none() {
        return Ok(None);
    }
    let place = ahead.clone();
    let numerator = integer(&mut ahead)?;
    let Some(denominator) = over(&mut ahead)? else {
        return Ok(None);
    };
    if numerator >= denominator {
        return Err(place.fail(Problem::ImproperFraction));
    }
    *cursor = ahead;
    Ok(Some((numerator, denominator)))
}

/// Reads a fraction that is one character.
fn vulgar(cursor: &mut Cursor<'_>) -> Option<(u64, u64)> {
    let fraction = match cursor.peek()? {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    };
    cursor.bump();
    Some(fraction)
}

/// `numerator / denominator` as the nearest `f64`, ties to even.
///
/// `denominator` is from 1 to 1e18. Long division in binary until the quotient
/// has 55 bits: 53 to keep, one to round by, one that says whether more follows.
fn ratio(numerator: u64, denominator: u64) -> f64 {
    let mut quotient = numerator / denominator;
    let mut remainder = numerator % denominator;
    let mut halvings = 0;
    while remainder != 0 && quotient < 1 << 54 {
        quotient *= 2;
        remainder *= 2;
        if remainder >= denominator {
            remainder -= denominator;
            quotient += 1;
        }
        halvings += 1;
    }
    if remainder != 0 {
        quotient |= 1;
    }
    #[expect(clippy::cast_precision_loss, reason = "this is the one rounding that is wanted")]
    let nearest = quotient as f64;
    // At most 60 halvings make the quotient 1 and 54 more fill it: the scale is normal.
    nearest * f64::from_bits((1023 - halvings) << 52)
}

/// A magnitude rounded to a count of decimals, and its sign.
#[derive(Clone, Copy, Debug)]
struct Rounded {
    minus: bool,
    whole: u64,
    /// The decimals as one number.
    part: u64,
    decimals: u8,
}

impl Rounded {
    /// None for what is not finite, or 1e18 and beyond.
    fn new(value: f64, decimals: u8) -> Option<Self> {
        let magnitude = value.abs();
        if magnitude.is_nan() || magnitude >= LARGEST_PRINTED {
            return None;
        }
        let decimals = decimals.min(MOST_DECIMALS);
        let (mut whole, mut fraction) = split(magnitude);
        let mut part = 0;
        let mut one = 1;
        for _ in 0..decimals {
            fraction *= 10;
            part = part * 10 + top_digit(fraction);
            fraction &= FRACTION_ONE - 1;
            one *= 10;
        }
        if fraction >= FRACTION_ONE / 2 {
            part += 1;
        }
        if part == one {
            part = 0;
            whole += 1;
        }
        Some(Self { minus: value < 0.0, whole, part, decimals })
    }

    fn is_zero(self) -> bool {
        self.whole == 0 && self.part == 0
    }

    fn is_negative(self) -> bool {
        self.minus && !self.is_zero()
    }

    fn print(self, sign: &str) -> String {
        let mut out = String::from(sign);
        push_digits(&mut out, self.whole, 1);
        if self.decimals > 0 {
            out.push('.');
            push_digits(&mut out, self.part, self.decimals);
        }
        out
    }
}

/// One, in the fixed point of [`split`]: 116 bits leave room for a factor of ten.
const FRACTION_ONE: u128 = 1 << 116;

/// A magnitude below 1e18 as its whole part and its fraction in units of 2⁻¹¹⁶.
///
/// Exact, but for fractions below 2⁻⁶⁴, which are taken as zero: they round to
/// zero at any count of decimals that is printed.
fn split(magnitude: f64) -> (u64, u128) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "truncation is what is wanted, and the whole part of an f64 is an f64"
    )]
    let (whole, back) = (magnitude as u64, magnitude as u64 as f64);
    let bits = (magnitude - back).to_bits();
    let mantissa = u128::from(bits & ((1 << 52) - 1) | (1 << 52));
    // The fraction is mantissa × 2^(exponent − 1075), below 1, so exponent ≤ 1022.
    let exponent = bits >> 52;
    let fraction = match exponent.checked_sub(1075 - 116) {
        Some(shift) => mantissa << shift,
        None => 0,
    };
    (whole, fraction)
}

/// The digit before the point of a fraction that was multiplied by ten.
fn top_digit(fraction: u128) -> u64 {
    u64::try_from(fraction >> 116).expect("a fraction below one, times ten, is below ten")
}

/// Writes a number in decimal digits, at least `width` of them.
pub(crate) fn push_digits(out: &mut String, value: u64, width: u8) {
    let mut scale = 1;
    let mut digits = 1;
    while digits < width || value / scale >= 10 {
        scale *= 10;
        digits += 1;
    }
    while scale > 0 {
        let digit = value / scale % 10;
        out.push(char::from(b"0123456789"[usize::try_from(digit).expect("below ten")]));
        scale /= 10;
    }
}
