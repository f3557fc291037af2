//! What proofs measure by. It knows `linkage` alone, so that every crate can have it for its tests.
//!
//! [`budget`] holds errors to a budget, [`table`] reads a reference table, [`generate`] makes corners
//! to order, [`published`] is the textbook's car, [`trucks`] are the corners that `SciPy` solves too.

pub mod budget;
pub mod generate;
pub mod published;
pub mod table;
pub mod trucks;

/// So many cases of a law. A failure prints its own, and is kept nowhere.
#[cfg(feature = "laws")]
#[must_use]
pub fn cases(cases: u32) -> proptest::test_runner::Config {
    proptest::test_runner::Config { cases, failure_persistence: None, ..Default::default() }
}
