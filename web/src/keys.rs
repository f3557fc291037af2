//! Keys of the whole page, for a desk.

use crate::dom::{as_a, on_window, there};
use crate::state::{Page, Panel};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};

/// Where a key means what it always does: what is typed into, chosen from or pressed.
const TAKEN: &str = "input:not([type=range]), textarea, select";
/// Where a letter or a figure is a key of the page: on nothing, on the sketch and on the list of places. Elsewhere
/// somebody who speaks to the page may have said it (WCAG 2.1.4).
const AT_HOME: &str = "html, body, .sketch *, nav[aria-label] *";
/// And what the space bar presses.
const PRESSED: &str = "button, summary, a, label, input:not([type=range]), [role=button]";

/// 1 to 5 open the first five places and T leads to the travel's slider, from there; the space bar leads back to ride height.
pub(crate) fn follow(page: Page) {
    on_window("keydown", move |event| {
        let event: KeyboardEvent = as_a(event);
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let on = |these: &str| target.as_ref().is_some_and(|on| on.closest(these).ok().flatten().is_some());
        if event.ctrl_key() || event.meta_key() || event.alt_key() || event.default_prevented() || on(TAKEN) {
            return;
        }
        let session = page.session;
        let is_home = target.as_ref().is_some_and(|on| on.matches(AT_HOME).unwrap_or_default());
        match event.key().as_str() {
            " " if !on(PRESSED) => {
                session.travel_mm.set(0.0);
                session.steer_rad.set(0.0);
            }
            _ if !is_home => return,
            "t" | "T" => {
                if let Some(slider) =
                    there("travel").and_then(|found| found.element().clone().dyn_into::<HtmlElement>().ok())
                {
                    let _ = slider.focus();
                }
            }
            key => {
                let Some(at) = ["1", "2", "3", "4", "5"].iter().position(|of| *of == key) else { return };
                session.turn_to(Panel::ALL[at]);
            }
        }
        event.prevent_default();
    });
}
