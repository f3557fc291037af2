//! Keys of the whole page, for a desk.

use crate::dom::{as_a, on_window, there};
use crate::state::{Page, Panel};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};

/// Where a key means what it always does: what is typed into, chosen from or pressed.
const TAKEN: &str = "input:not([type=range]), textarea, select";
/// And what the space bar presses.
const PRESSED: &str = "button, summary, a, label, input, [role=button]";

/// 1 to 5 open the first five places, T leads to the travel's slider, and the space bar back to ride height.
pub(crate) fn follow(page: Page) {
    on_window("keydown", move |event| {
        let event: KeyboardEvent = as_a(event);
        let on = |these: &str| {
            let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            target.and_then(|target| target.closest(these).ok().flatten()).is_some()
        };
        if event.ctrl_key() || event.meta_key() || event.alt_key() || event.default_prevented() || on(TAKEN) {
            return;
        }
        let session = page.session;
        match event.key().as_str() {
            " " if !on(PRESSED) => {
                session.travel_mm.set(0.0);
                session.steer_rad.set(0.0);
            }
            "t" | "T" => {
                if let Some(slider) =
                    there("travel").and_then(|found| found.element().clone().dyn_into::<HtmlElement>().ok())
                {
                    let _ = slider.focus();
                }
            }
            key => {
                let at = match key {
                    "1" => 0,
                    "2" => 1,
                    "3" => 2,
                    "4" => 3,
                    "5" => 4,
                    _ => return,
                };
                session.turn_to(Panel::ALL[at]);
            }
        }
        event.prevent_default();
    });
}
