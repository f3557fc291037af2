//! What the lessons claim, and how they are written.

#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

use linkage::Vector3;
use reference_tests::budget::near;
use reference_tests::generate::{Dice, pickup};
use reference_tests::lessons::{DOCUMENT, DROP_MM, LESSONS, code, design, rest, same_drop, written};
use study::{Gauged, HeldBy, StandingSide, travel_left};
use truck::{Change, SpringKind, Truck, demo};

fn read(rest: &StandingSide, travel_mm: f64) -> Gauged {
    Gauged::of(rest, rest.at_travel(travel_mm).unwrap()).unwrap()
}

fn words(text: &str) -> usize {
    text.split_whitespace().count()
}

mod others;
mod two_inches;
mod writing;
