//! What the crate promises, from outside: values that follow from the definitions
//! of the units, the standard library as second opinion on numbers, and printed
//! text read back.

mod angles;
mod forces;
mod lengths;
mod numbers;
mod round_trips;
mod tires;
mod torques;
