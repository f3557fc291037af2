//! Handing text on: the clipboard, the system's share sheet and the printer.

use crate::browser::promise::settle;
use crate::state::Page;
use leptos::prelude::window;
use wasm_bindgen::JsValue;

const BY_HAND: &str = "This browser does not let the page copy. Select the text and copy it by hand.";

/// Whether the system has a share sheet.
pub(crate) fn can_share() -> bool {
    has("share")
}

fn has(part: &str) -> bool {
    let navigator = JsValue::from(window().navigator());
    js_sys::Reflect::get(&navigator, &JsValue::from_str(part)).is_ok_and(|found| found.is_truthy())
}

/// Copies a text; says at the top of the page whether it could.
pub(crate) fn copy(page: Page, text: &str, done: &'static str) {
    // Outside a secure context there is no clipboard object at all.
    if !has("clipboard") {
        page.session.complain(BY_HAND);
        return;
    }
    let promise = window().navigator().clipboard().write_text(text);
    settle(&promise, move |copied| match copied {
        Some(_) => page.session.say(done),
        None => page.session.complain(BY_HAND),
    });
}

/// Opens the system's share sheet. Closing it rejects the promise: nothing to say.
pub(crate) fn share(title: &str, address: &str) {
    let data = web_sys::ShareData::new();
    data.set_title(title);
    data.set_url(address);
    settle(&window().navigator().share_with_data(&data), |_| {});
}

/// Asks the browser to print.
pub(crate) fn print() {
    let _ = window().print();
}
