//! Torques as manuals write them.
//!
//! ```text
//! torque = [ spaces ] [ sign ] [ spaces ] amount [ [ spaces ] unit ] [ spaces ]
//! unit   = part [ join ] part     a force and a length, in either order: "ft-lb", "N·m", "kgm", "in. lbs"
//! join   = [ spaces ] [ "-" | "·" | "*" | "×" ] [ spaces ]
//! ```
//!
//! Amounts, and the words of force and length, are those of a [force](crate::force) and a
//! [length](crate::length). Conversions are exact (NIST SP 811, appendix B).

use crate::cursor::Cursor;
use crate::error::{ParseError, Problem};
use crate::force::{NEWTONS_PER_POUND, force_word};
use crate::length::{MM_PER_INCH, unit_word};
use crate::number::{NO_NUMBER, amount, print_number, with_sign, without_zeros};
use crate::units::Units;

/// Newton metres in a foot-pound.
const PER_FOOT_POUND: f64 = NEWTONS_PER_POUND * 12.0 * MM_PER_INCH / 1000.0;
/// Inch-pounds in a foot-pound.
const INCH_POUNDS: f64 = 12.0;
/// Less than so many foot-pounds is written in inch-pounds too, as on the wrench that it takes. Common practice, no source.
const INCH_POUNDS_BELOW: f64 = 10.0;
/// Larger torques than this are refused, N·m.
const LARGEST: f64 = 1e4;

/// Reads a torque, N·m; a bare number is foot-pounds for who works in inches, else newton metres.
///
/// # Errors
/// [`ParseError`] with the place of the first thing that fits no torque, or of a
/// torque beyond 1e4 N·m.
pub fn parse_torque(text: &str, bare: Units) -> Result<f64, ParseError> {
    let mut cursor = Cursor::new(text)?;
    let minus = cursor.minus();
    let place = cursor.clone();
    let value = amount(&mut cursor)?;
    cursor.skip_spaces();
    let newton_metres = match cursor.peek() {
        None => value * per_unit(bare),
        Some(_) => value * unit(&mut cursor)?,
    };
    cursor.end()?;
    if newton_metres > LARGEST {
        return Err(place.fail(Problem::TooLarge { limit: "10000 N·m" }));
    }
    Ok(with_sign(minus, newton_metres))
}

/// A torque as a torque wrench has it: `85 ft-lb`, `12.5 ft-lb`, `115.2 N·m`.
///
/// Tenths, where there are any; rounded as [`fixed`](crate::fixed) does; `—` where there is no number.
#[must_use]
pub fn print_torque(newton_metres: f64, units: Units) -> String {
    let number = print_number(newton_metres / per_unit(units), 1);
    if number == NO_NUMBER {
        return number;
    }
    without_zeros(&number).to_owned() + if units == Units::Inches { " ft-lb" } else { " N·m" }
}

/// The same with inch-pounds beside few foot-pounds: `4.1 ft-lb (50 in-lb)`. They are whole, and kept to a tenth of a newton
/// metre each is told from the next. No field shows it: a bare number in one is foot-pounds.
#[must_use]
pub fn print_torque_for_wrenches(newton_metres: f64, units: Units) -> String {
    let foot_pounds = newton_metres / PER_FOOT_POUND;
    let said = print_torque(newton_metres, units);
    if units == Units::Millimetres || !(0.0..INCH_POUNDS_BELOW).contains(&foot_pounds) {
        return said;
    }
    [&said, " (", &print_number(foot_pounds * INCH_POUNDS, 0), " in-lb)"].concat()
}

fn per_unit(units: Units) -> f64 {
    if units == Units::Inches { PER_FOOT_POUND } else { 1.0 }
}

/// Reads a force and a length: the newton metres in one.
fn unit(cursor: &mut Cursor<'_>) -> Result<f64, ParseError> {
    let place = cursor.clone();
    let first = cursor.word();
    cursor.eat(&['.']);
    let after = cursor.clone();
    cursor.skip_spaces();
    if !cursor.eat_joiner() {
        cursor.eat(&['·', '⋅', '*', '×']);
    }
    cursor.skip_spaces();
    let found = match cursor.word() {
        "" => {
            *cursor = after;
            // Written as one word.
            (1..first.len()).find_map(|at| together(first.get(..at)?, first.get(at..)?))
        }
        second => together(first, second),
    };
    cursor.eat(&['.']);
    found.ok_or_else(|| place.fail(Problem::UnknownUnit { expected: "ft-lb, N·m, kg-m or in-lb" }))
}

/// Newton metres in a force by a length, whichever of the two words is which.
fn together(first: &str, second: &str) -> Option<f64> {
    let by = |force, length| Some(force_word(force)?.newtons() * unit_word(length)?.mm() / 1000.0);
    by(first, second).or_else(|| by(second, first))
}
