//! Files out and in.

use crate::browser::promise::settle;
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, Url};

/// Offers a text as a file.
pub(crate) fn save(name: &str, kind: &str, text: &str) {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let Ok(blob) = Blob::new_with_str_sequence_and_options(&parts, &options) else { return };
    let Ok(address) = Url::create_object_url_with_blob(&blob) else { return };
    if let Ok(anchor) = document().create_element("a").map(JsCast::unchecked_into::<HtmlAnchorElement>) {
        anchor.set_href(&address);
        anchor.set_download(name);
        anchor.click();
    }
    let _ = Url::revoke_object_url(&address);
}

/// Offers a picture as pixels. `web/assets/extras.js` makes them; where it could not be loaded, nothing happens.
pub(crate) fn save_pixels(name: &str, svg: &str) {
    let made = js_sys::Reflect::get(&window(), &JsValue::from_str("scrublinePng")).unwrap_or_default();
    if let Ok(make) = made.dyn_into::<js_sys::Function>() {
        let _ = make.call2(&JsValue::NULL, &JsValue::from_str(svg), &JsValue::from_str(name));
    }
}

/// Reads a file as text.
pub(crate) fn load(file: &File, then: impl FnOnce(Option<String>) + 'static) {
    settle(&file.text(), move |text| then(text.and_then(|text| text.as_string())));
}

/// A file name made of a title: letters, digits and dashes.
pub(crate) fn name(title: &str, ending: &str) -> String {
    let mut name: String = title
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
        .take(40)
        .collect();
    if name.is_empty() {
        name.push_str("scrubline");
    }
    name + ending
}
