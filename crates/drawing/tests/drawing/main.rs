//! What is written and marked on pictures of any truck.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod labels;
mod marks;
mod whole_truck;
