//! The corner against laws of geometry, closed forms, a textbook's car and an independent solver.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]
#![expect(clippy::disallowed_methods, reason = "a second opinion does not share libm with the first")]

mod dropped_spindle_geometry;
mod four_bar;
mod laws;
mod published_car;
mod scipy;
