//! Numbers as the reader sees and types them: the one place where a kind of
//! number meets the reader's units.

use drawing::Units;
use measure::{
    ForceUnit, LengthStyle, LengthUnit, ParseError, Problem, RateUnit, print_number, without_zeros,
};
use truck::Kind;

/// Newtons per square millimetre in a gigapascal.
const PER_GPA: f64 = 1000.0;

/// How fields write a length: finer than the sketch does.
#[must_use]
pub const fn field_style(units: Units) -> LengthStyle {
    match units {
        Units::Inches => LengthStyle::Inches { denominator: 64 },
        Units::Millimetres => LengthStyle::Millimetres { decimals: 1 },
    }
}

/// How readouts write a length.
#[must_use]
pub const fn readout_style(units: Units) -> LengthStyle {
    match units {
        Units::Inches => LengthStyle::Inches { denominator: 16 },
        Units::Millimetres => LengthStyle::Millimetres { decimals: 0 },
    }
}

/// A number of a kind, in the core's unit, as a field shows it.
#[must_use]
#[inline(never)]
pub fn show(kind: Kind, value: f64, units: Units) -> String {
    let inches = units == Units::Inches;
    match kind {
        Kind::Length => measure::print_length(value, field_style(units)),
        Kind::Angle => measure::print_angle(value, 2),
        Kind::Force if inches => measure::print_force(value, ForceUnit::Pound),
        Kind::Force => measure::print_force(value, ForceUnit::Kilogram),
        Kind::Rate if inches => measure::print_rate(value, RateUnit::PoundPerInch),
        Kind::Rate => measure::print_rate(value, RateUnit::NewtonPerMillimetre),
        Kind::Modulus => print_number(value / PER_GPA, 1) + " GPa",
        Kind::Count => without_zeros(&print_number(value, 2)).to_owned(),
        Kind::Whole => print_number(value, 0),
        Kind::RimCode => without_zeros(&print_number(value, 1)).to_owned(),
        Kind::Stress => print_number(value, 0) + " N/mm²",
        Kind::Torque => measure::print_torque(value, units),
        Kind::Choice(_) => kind.chosen(value).unwrap_or_default().to_owned(),
    }
}

/// The same as a readout shows it: a length to no finer fraction than a tape is read.
#[must_use]
pub fn show_as_read(kind: Kind, value: f64, units: Units) -> String {
    match kind {
        Kind::Length => measure::print_length(value, readout_style(units)),
        _ => show(kind, value, units),
    }
}

/// Why a typed number is not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// The text stands for no number.
    #[error("{}", unread_in_words(.0))]
    Unread(#[from] ParseError),
    /// It lies outside the field's limits, which are these in the reader's units.
    #[error("From {0} to {1}")]
    Outside(String, String),
    /// A number, but none that its callout can have.
    #[error("No such number can be here.")]
    NotHere,
}

/// What would have been read.
#[must_use]
#[inline(never)]
pub fn unread_in_words(why: &ParseError) -> String {
    let [before, what] = match why.kind {
        Problem::UnknownUnit { expected } => ["After the number goes ", expected],
        Problem::Expected { what } => ["Type ", what],
        Problem::OutOfRange { what, least, most } => {
            return ["Type ", what, " from ", &least.to_string(), " to ", &most.to_string(), "."].concat();
        }
        Problem::Overflow { part, limit } => {
            return ["Type ", part, " below ", &limit.to_string(), "."].concat();
        }
        Problem::TooLarge { limit } => ["At most ", limit],
        Problem::AmbiguousComma => ["Type it without the comma", ""],
        Problem::ExpectedEnd => ["Type the number and its unit, and nothing else", ""],
        _ => ["Type a number, like 9 1/4", ""],
    };
    [before, what, "."].concat()
}

/// The number, in the core's unit, that a text stands for.
///
/// # Errors
/// [`ParseError`] with the place where reading stopped.
#[inline(never)]
pub fn read(kind: Kind, text: &str, units: Units) -> Result<f64, ParseError> {
    let inches = units == Units::Inches;
    match kind {
        Kind::Length => {
            let bare = if inches { LengthUnit::Inch } else { LengthUnit::Millimetre };
            measure::parse_length(text, bare).map(|length| length.mm)
        }
        Kind::Angle => measure::parse_angle(text).map(|angle| angle.rad),
        Kind::Force => {
            let bare = if inches { ForceUnit::Pound } else { ForceUnit::Kilogram };
            measure::parse_force(text, bare).map(|force| force.newtons)
        }
        Kind::Rate => {
            let bare = if inches { RateUnit::PoundPerInch } else { RateUnit::NewtonPerMillimetre };
            measure::parse_rate(text, bare).map(|rate| rate.newtons_per_mm)
        }
        Kind::Modulus => {
            let text = text.trim();
            let bare = text.strip_suffix("GPa").or_else(|| text.strip_suffix("gpa"));
            measure::parse_number(bare.unwrap_or(text)).map(|value| value * PER_GPA)
        }
        Kind::Stress => {
            let text = text.trim();
            measure::parse_number(
                text.strip_suffix("N/mm²").or_else(|| text.strip_suffix("MPa")).unwrap_or(text),
            )
        }
        Kind::Torque => measure::parse_torque(text, units),
        Kind::Count | Kind::Whole | Kind::RimCode | Kind::Choice(_) => measure::parse_number(text),
    }
}

/// A number where it lies within its limits, given in mm, degrees or as a plain number.
///
/// # Errors
/// [`Refused::Outside`] says what the limits are.
#[inline(never)]
pub fn within(kind: Kind, (low, high): (f64, f64), value: f64, units: Units) -> Result<f64, Refused> {
    let core = |limit: f64| if kind == Kind::Angle { limit.to_radians() } else { limit };
    // Numbers are kept to a hundredth, and what rounds to a limit is within it.
    let slack = core(0.005);
    if (core(low) - slack..=core(high) + slack).contains(&value) {
        return Ok(value);
    }
    // What is said can itself be entered: its last fraction lies within. Of more than an inch nobody asks for less
    // than eighths, of more than an eighth for less than a tape has.
    let inward = |limit: f64, round: fn(f64) -> f64| {
        if kind != Kind::Length || units != Units::Inches {
            return core(limit);
        }
        let parts = match limit.abs() / measure::MM_PER_INCH {
            ..0.125 => 64.0,
            ..1.0 => 16.0,
            _ => 8.0,
        };
        let fraction = measure::MM_PER_INCH / parts;
        round(limit / fraction) * fraction
    };
    let (low, high) = (inward(low, f64::ceil), inward(high, f64::floor));
    Err(Refused::Outside(show(kind, low, units), show(kind, high, units)))
}

/// The step of a field's minus and plus, in the core's unit.
#[must_use]
#[inline(never)]
pub fn step(kind: Kind, units: Units) -> f64 {
    let inches = units == Units::Inches;
    match kind {
        Kind::Length if inches => measure::MM_PER_INCH / 16.0,
        Kind::Length | Kind::Whole | Kind::Rate | Kind::Torque | Kind::Choice(_) => 1.0,
        Kind::Angle => 0.1_f64.to_radians(),
        Kind::Force if inches => 10.0 * measure::NEWTONS_PER_POUND,
        Kind::Force => 5.0 * measure::NEWTONS_PER_KILOGRAM,
        Kind::Modulus => 100.0,
        Kind::Stress => 10.0,
        Kind::Count => 0.25,
        Kind::RimCode => 1.0,
    }
}

/// A difference of lengths in words: "2 in lower", "as before".
#[must_use]
#[inline(never)]
pub fn lower_or_higher(drop_mm: f64, units: Units) -> String {
    let style = readout_style(units);
    let text = measure::print_length(drop_mm.abs(), style);
    if text == measure::print_length(0.0, style) {
        "as it sits".to_owned()
    } else if drop_mm > 0.0 {
        text + " lower"
    } else {
        text + " higher"
    }
}

/// Where the wheel is against its ride height.
#[inline(never)]
pub(crate) fn travelled(travel_mm: f64, units: Units) -> String {
    let size = measure::print_length(travel_mm.abs(), readout_style(units));
    match travel_mm {
        ..-0.05 => "down ".to_owned() + &size,
        0.05.. => "up ".to_owned() + &size,
        _ => "at ride height".to_owned(),
    }
}
