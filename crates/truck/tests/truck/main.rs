//! What changes, sides and load cases make of a truck, by hand arithmetic and the
//! trade's tables. No pose is solved here but to see that guesses leave a linkage that goes.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod by_side;
mod guesses;
mod loads;
mod parts;
mod springs;
mod wheels;
mod work;

use truck::{Change, Fitted, Truck, fit};

fn fitted(truck: &Truck, change: Change) -> Fitted {
    fit(truck, &[change]).unwrap()
}

/// The answer is the hand's, within the rounding of a few additions.
fn near(got: f64, want: f64, what: &str) {
    assert!((got - want).abs() <= 1e-9, "{what}: {got} is not {want}");
}
