//! Sixteenths for a thumb, under the field that is typed into: a phone's digits have no slash.

use super::tape::Tape;
use crate::dom::{Node, block, button, put};
use crate::state::Page;
use drawing::Units;
use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlInputElement, KeyboardEvent, KeyboardEventInit};

/// What stands on the keys; the last two leave the number as it is typed, and as it was.
const KEYS: [&str; 17] = [
    "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4", "13/16",
    "7/8", "15/16", SKIP, NEXT,
];
const SKIP: &str = "Skip";
const NEXT: &str = "Next";

/// What holds fields, with the tape over whichever the cursor is in, and under one for a length the keys, of which
/// those that lead on are all that there is in millimeters. A key is
/// put behind what was typed, and leads on as Enter does.
#[inline(never)]
pub(super) fn sixteenths(page: Page, tape: Tape, within: Node) -> Node {
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
        let here = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        // Anything else that is come to leaves them there: a button that moves under a press is not pressed.
        let Some(here) = here else { return };
        tape.come_to(&here, || {
            let Ok(Some(field)) = here.closest(".number.tape:not(.row *)") else { return };
            // Of millimeters there are no sixteenths, and one goes on all the same.
            let is_plain = page.preferences.units.now() == Units::Millimetres;
            put(&keys, "class", if is_plain { "sixteenths plain" } else { "sixteenths" });
            let _ = field.insert_adjacent_element("afterend", &keys);
        });
    })
}

fn press(words: &str) {
    let here = document().active_element().and_then(|here| here.dyn_into::<HtmlInputElement>().ok());
    let Some(field) = here else { return };
    let hear = |key: &str| {
        let pressed = KeyboardEventInit::new();
        pressed.set_key(key);
        pressed.set_bubbles(true);
        let pressed = KeyboardEvent::new_with_keyboard_event_init_dict("keydown", &pressed);
        let _ = pressed.map(|pressed| field.dispatch_event(&pressed));
    };
    if words == SKIP {
        hear("Escape");
    } else if words != NEXT {
        let text = field.value();
        // Behind the inches; what is marked, since nothing was typed yet, and another fraction are replaced.
        let is_marked = field.selection_start().ok() != field.selection_end().ok();
        let inches = text.split(' ').next().unwrap_or_default();
        let is_kept = !is_marked && !inches.is_empty() && !inches.contains('/');
        field.set_value(&if is_kept { [inches, " ", words].concat() } else { words.to_owned() });
        let _ = Event::new("input").map(|event| field.dispatch_event(&event));
    }
    hear("Enter");
}
