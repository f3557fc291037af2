//! The browser's Back lowers what a phone has raised over its sketch.
//!
//! What is raised is an entry of its own in the history, above one that knows it is under it. Neither
//! is a place that anybody went to: the address of both is that of the page as it is now.

use crate::browser::size;
use crate::dom::{self, on_window};
use crate::state::{PaneHeight, Session};
use leptos::prelude::window;
use wasm_bindgen::JsValue;

/// The entry under the raised one.
const UNDER: &str = "under";
/// The raised one.
const RAISED: &str = "raised";

/// Keeps the history in step with the pane, and the pane with Back and Forward. `holds` puts the page as it
/// is into the address of an entry that may have an older one, before anybody takes that for a link.
pub(crate) fn follow(session: Session, holds: impl Fn() + 'static) {
    on_window("popstate", move |_| {
        let Some(entry) = entry() else { return };
        holds();
        let is_up = session.pane_height.now() != PaneHeight::Lowered;
        if entry == UNDER && is_up {
            session.pane_height.set(PaneHeight::Lowered);
        } else if entry == RAISED && !is_up {
            session.pane_height.set(PaneHeight::Half);
        }
    });
    dom::follow(move || {
        let is_up = session.pane_height.get() != PaneHeight::Lowered;
        let Ok(history) = window().history() else { return };
        let is_above = entry().as_deref() == Some(RAISED);
        if is_up && !is_above && !size::is_wide() {
            let _ = history.replace_state(&JsValue::from_str(UNDER), "");
            let _ = history.push_state(&JsValue::from_str(RAISED), "");
        } else if !is_up && is_above {
            let _ = history.back();
        }
    });
}

/// What the entry knows of itself, where it is one of these.
fn entry() -> Option<String> {
    window().history().ok()?.state().ok()?.as_string()
}
