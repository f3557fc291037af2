//! Runners shared by the checks against sources outside the project.
//!
//! [`budget`] holds errors to a budget, [`table`] reads a reference table,
//! [`generate`] makes corners to order, [`published`] is the textbook's car,
//! [`trucks`] are the corners that `SciPy` solves too, [`mod@bench`] the loops that
//! are timed natively and in the browser alike.

pub mod bench;
pub mod budget;
pub mod generate;
pub mod published;
pub mod table;
pub mod trucks;
