//! What checks need that ask several crates; [`yardstick`] has what one crate's need too.
//!
//! [`lessons`] are the page's, [`mod@bench`] the loops that are timed natively and in the browser
//! alike, [`fuzz`] what any bytes may do.

pub use yardstick::{budget, generate, published, table, trucks};

use truck::{Design, RearAxle};

pub mod bench;
#[cfg(not(target_arch = "wasm32"))]
pub mod fuzz;
#[cfg(not(target_arch = "wasm32"))]
pub mod lessons;

/// The demo truck with nothing measured of its rear, and its first plan alone: the two-inch spindle.
#[must_use]
pub fn front_alone() -> Design {
    let mut design = truck::demo();
    design.truck.rear = RearAxle::UNKNOWN;
    design.proposals.truncate(1);
    design
}
