//! Sixteenths for a thumb, under the field that is typed into: a phone's digits have no slash.

use crate::dom::{Node, block, button};
use crate::state::Page;
use drawing::Units;
use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlInputElement, KeyboardEvent, KeyboardEventInit};

/// What stands on the keys; the last one leaves the number as it is.
const KEYS: [&str; 16] = [
    "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4", "13/16",
    "7/8", "15/16", NEXT,
];
const NEXT: &str = "Next";

/// What holds fields for lengths, with the keys under whichever the cursor is in. A key is put behind what was
/// typed, and leads on as Enter does.
#[inline(never)]
pub(super) fn sixteenths(page: Page, within: Node) -> Node {
    let key = |words: &&'static str| {
        let words = *words;
        // Whoever has keys of their own types a slash, and is not held up here.
        button(words, move || press(words)).attr("tabindex", "-1")
    };
    // A press does not take the cursor out of the field.
    let keys = block("div", "sixteenths")
        .attr("role", "group")
        .attr("aria-label", "Sixteenths, and on")
        .children(KEYS.iter().map(key))
        .on("mousedown", |event| event.prevent_default());
    let keys = keys.element().clone();
    within.on("focusin", move |event| {
        let field = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        let field = field.and_then(|field| field.closest(".number.tape:not(.row *)").ok().flatten());
        // Anything else that is come to leaves them there: a button that moves under a press is not pressed.
        let Some(field) = field else { return };
        if page.preferences.units.now() == Units::Inches {
            let _ = field.insert_adjacent_element("afterend", &keys);
        } else {
            keys.remove();
        }
    })
}

fn press(words: &str) {
    let here = document().active_element().and_then(|here| here.dyn_into::<HtmlInputElement>().ok());
    let Some(field) = here else { return };
    if words != NEXT {
        let text = field.value();
        // Behind the inches; what is marked, since nothing was typed yet, and another fraction are replaced.
        let is_marked = field.selection_start().ok() != field.selection_end().ok();
        let inches = text.split(' ').next().unwrap_or_default();
        let is_kept = !is_marked && !inches.is_empty() && !inches.contains('/');
        field.set_value(&if is_kept { [inches, " ", words].concat() } else { words.to_owned() });
        let _ = Event::new("input").map(|event| field.dispatch_event(&event));
    }
    let enter = KeyboardEventInit::new();
    enter.set_key("Enter");
    enter.set_bubbles(true);
    let enter = KeyboardEvent::new_with_keyboard_event_init_dict("keydown", &enter);
    let _ = enter.map(|enter| field.dispatch_event(&enter));
}
