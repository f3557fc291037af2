//! How many poses were asked for: the measure of work that is the same on every machine.
//!
//! Only with the feature `count-poses`, which tests have and nothing that is built for people.

use std::cell::Cell;

thread_local! {
    static ASKED: Cell<u64> = const { Cell::new(0) };
}

/// How many poses this thread has asked for so far, those that are not reached among them.
#[must_use]
pub fn poses() -> u64 {
    ASKED.get()
}

pub(crate) fn one_more() {
    ASKED.set(ASKED.get().wrapping_add(1));
}
