//! Quantities as people write them, in and out: lengths, angles, forces,
//! spring rates, torques and tire sizes.
//!
//! Contract: a parser accepts everything the printer of the same quantity can
//! emit, and more. Printers have options; parsers have none but the unit that a
//! bare number stands for. Parsers are total and bounded: any text gives a value
//! or a [`ParseError`] with its place, and text over [`LONGEST_TEXT`] bytes is
//! refused unread.
//!
//! Inside the product lengths are millimetres, angles radians and forces
//! newtons; every other unit lives in this crate.
//!
//! The crate has no dependencies and does its own conversion between text and
//! `f64`: the standard library's costs twenty kilobytes of download.

pub mod angle;
mod cursor;
mod error;
pub mod force;
pub mod length;
pub mod number;
pub mod tire;
pub mod torque;
mod units;

pub use angle::{Angle, parse_angle, print_angle, spoken_angle};
pub use error::{LONGEST_TEXT, ParseError, Place, Problem};
pub use force::{
    Force, ForceUnit, NEWTONS_PER_KILOGRAM, NEWTONS_PER_POUND, Rate, RateUnit, parse_force, parse_rate,
    print_force, print_rate,
};
pub use length::{
    InchParts, Length, LengthStyle, LengthUnit, MM_PER_INCH, inch_parts, parse_length, print_feet,
    print_length, spoken_length,
};
pub use number::{fixed, parse_number, print_number, signed, without_zeros};
pub use tire::{TireSize, print_tire_size};
pub use torque::{parse_torque, print_torque, print_torque_for_wrenches};
pub use units::Units;
