//! Runners shared by the checks against sources outside the project.
//!
//! [`budget`] holds errors to a budget, [`table`] reads a reference table,
//! [`generate`] makes corners to order, [`lessons`] are the page's, [`published`] is the textbook's car,
//! [`trucks`] are the corners that `SciPy` solves too, [`mod@bench`] the loops that
//! are timed natively and in the browser alike, [`fuzz`] what any bytes may do.

pub mod bench;
pub mod budget;
#[cfg(not(target_arch = "wasm32"))]
pub mod fuzz;
pub mod generate;
#[cfg(not(target_arch = "wasm32"))]
pub mod lessons;
pub mod published;
pub mod table;
pub mod trucks;
