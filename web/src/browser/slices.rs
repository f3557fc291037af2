//! Long work between frames: it begins when nothing has changed for a while, is
//! done in slices that no one notices, and stops where new work takes its place.

use leptos::prelude::{on_cleanup, set_timeout};
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

/// How long nothing must change before work begins.
const CALM: Duration = Duration::from_millis(120);
/// A slice ends when one more call, as long as those before it, would take it past this, ms. The
/// clock ticks in whole ones.
const SLICE_MS: f64 = 3.0;

/// Does the newest piece of long work.
#[derive(Clone)]
pub(crate) struct Slices {
    newest: Arc<AtomicU32>,
}

impl Slices {
    /// Work of the owner that this is called under; it stops with it.
    pub(crate) fn new() -> Self {
        let newest = Arc::new(AtomicU32::new(0));
        let ended = Arc::clone(&newest);
        on_cleanup(move || {
            ended.fetch_add(1, Ordering::Relaxed);
        });
        Self { newest }
    }

    /// Puts work in place of what was under way. A call does a small part of
    /// it and says whether it is done.
    pub(crate) fn start(&self, work: Box<dyn FnMut() -> bool>) {
        self.start_after(CALM, work);
    }

    /// The same, begun when nothing has changed for so long.
    #[inline(never)]
    pub(crate) fn start_after(&self, wait: Duration, work: Box<dyn FnMut() -> bool>) {
        let number = self.newest.fetch_add(1, Ordering::Relaxed) + 1;
        go_on(Arc::clone(&self.newest), number, wait, work);
    }
}

fn go_on(newest: Arc<AtomicU32>, number: u32, wait: Duration, mut work: Box<dyn FnMut() -> bool>) {
    set_timeout(
        move || {
            let begun = js_sys::Date::now();
            let mut calls = 0.0;
            while newest.load(Ordering::Relaxed) == number {
                if work() {
                    return;
                }
                calls += 1.0;
                let spent_ms = js_sys::Date::now() - begun;
                if spent_ms + spent_ms / calls >= SLICE_MS {
                    return go_on(newest, number, Duration::ZERO, work);
                }
            }
        },
        wait,
    );
}
