//! Work that waits until nothing has changed for a while.

use crate::dom::{self, on_window};
use crate::signals::{Derived, Kept};
use leptos::prelude::{TimeoutHandle, set_timeout_with_handle, untrack};
use std::cell::Cell;
use std::time::Duration;

/// Work is done when nothing has changed for this long: browsers refuse more than a few address
/// changes a second.
const REST: Duration = Duration::from_millis(400);
/// However much changes, it is done in less than twice this time, ms.
const LATEST_MS: f64 = 480.0;

/// Works whenever a value has changed and then rested, as long as the owner lives.
pub(crate) fn follow(what: Derived<String>, work: impl Fn() + Copy + 'static) {
    let waiting = Kept::new(Cell::new(None::<TimeoutHandle>));
    let since_ms = Kept::new(Cell::new(0.0));
    let work = move || {
        waiting.with(Cell::take);
        work();
    };
    dom::follow(move || {
        what.with(|_| ());
        untrack(|| {
            let now_ms = js_sys::Date::now();
            match waiting.with(Cell::take) {
                Some(handle) => handle.clear(),
                None => since_ms.with(|since_ms| since_ms.set(now_ms)),
            }
            let late = now_ms > since_ms.with(Cell::get) + LATEST_MS;
            let wait = if late { Duration::ZERO } else { REST };
            let handle = set_timeout_with_handle(work, wait).ok();
            waiting.with(|waiting| waiting.set(handle));
        });
    });
    let flush = move || {
        if let Some(handle) = waiting.with(Cell::take) {
            handle.clear();
            work();
        }
    };
    // A page that is hidden may never be heard of again.
    for event in ["pagehide", "visibilitychange"] {
        on_window(event, move |_| flush());
    }
}
