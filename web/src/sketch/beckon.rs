//! The spindle moves once by itself, for whoever is here for the first time: so it is seen what can be moved.

use crate::browser::frames::in_slices;
use crate::browser::size::matches;
use crate::browser::storage;
use crate::browser::visit::{Visit, Whose};
use crate::dom::on_window;
use crate::signals::Kept;
use crate::sketch::gesture::{Meaning, Snap, Start, meaning};
use drawing::{Aspect, Handle};
use leptos::prelude::{document, untrack};
use std::cell::Cell;
use truck::Side;

/// That it was seen is kept under this key.
const KEY: &str = "beckoned";
/// How far it goes, mm.
const UP_MM: f64 = 19.0;
/// How long it takes, there and back, ms.
const TAKES_MS: f64 = 1500.0;

/// Whether anybody has, as what starts the page has seen it: before whatever keeps a touch to itself.
fn is_touched() -> bool {
    document().document_element().is_none_or(|whole| whole.has_attribute("data-touched"))
}

/// Moves the spindle up and back, on a first visit that nobody has touched yet, where motion is welcome. It is
/// shown and not made: neither design nor history nor address know of it.
#[inline(never)]
pub(crate) fn once(visit: Visit) {
    let page = visit.page;
    let is_still = !matches("(prefers-reduced-motion: no-preference)");
    let is_demo = untrack(|| visit.whose()) == Whose::Demo;
    if is_still || !is_demo || is_touched() || storage::kept(KEY).is_some() {
        return;
    }
    let _ = storage::keep(KEY, "");
    let start = Start {
        aspect: Aspect::Front,
        handle: Handle::WheelCentre,
        proposal: page.selected_now().proposal(),
        side: Side::Left,
        design: page.store.committed_now(),
        posed: None,
    };
    let is_over = Kept::new(Cell::new(false));
    let end = move || {
        if !is_over.with(|is_over| is_over.replace(true)) {
            page.store.cancel();
            page.session.set_moving(false);
        }
    };
    on_window("hashchange", move |_| end());
    let begun_ms = js_sys::Date::now();
    let frame = move || {
        let gone = (js_sys::Date::now() - begun_ms) / TAKES_MS;
        if is_over.with(Cell::get) || is_touched() || gone >= 1.0 {
            end();
            return false;
        }
        let up_mm = UP_MM * 4.0 * gone * (1.0 - gone);
        if let Meaning::Edit(edit, _) = meaning(&start, 0.0, up_mm, Snap::Off) {
            page.session.set_moving(true);
            let _ = page.store.preview(&edit);
        }
        true
    };
    in_slices(|| 0.0, frame);
}
