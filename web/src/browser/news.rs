//! What the scripts beside the page have to say. `web/assets/boot.js` tells of a newer version.

use crate::dom::on_window;
use crate::state::Page;
use wasm_bindgen::JsValue;

/// Shows their sentences at the top of the page, where nothing else is being said.
pub(crate) fn follow(page: Page) {
    on_window("scrubline-say", move |event| {
        let said = js_sys::Reflect::get(&event, &JsValue::from_str("detail")).unwrap_or_default();
        if let (Some(said), None) = (said.as_string(), page.session.notice.now()) {
            page.session.say(said);
        }
    });
}
