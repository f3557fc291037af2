//! What checks need that ask several crates; [`yardstick`] has what one crate's need too.
//!
//! [`lessons`] are the page's, [`mod@bench`] the loops that are timed natively and in the browser
//! alike, [`fuzz`] what any bytes may do.

pub use yardstick::{budget, generate, published, table, trucks};

pub mod bench;
#[cfg(not(target_arch = "wasm32"))]
pub mod fuzz;
#[cfg(not(target_arch = "wasm32"))]
pub mod lessons;
