//! The whole screen, where the browser gives it, and large type on it.

use crate::browser::promise::settle;
use crate::dom::{self, on_window};
use crate::state::Page;
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};

/// Keeps the page's type in step with the projector, and the projector with the Escape key.
pub(crate) fn follow(page: Page) {
    let projector = page.session.projector;
    dom::follow(move || {
        if let Some(root) = document().document_element() {
            let _ = root.class_list().toggle_with_force("projector", projector.get());
        }
    });
    on_window("fullscreenchange", move |_| {
        if document().fullscreen_element().is_none() {
            projector.set(false);
        }
    });
}

/// Large type, on the whole screen where it can be had; or back.
pub(crate) fn turn(page: Page) {
    let on = !page.session.projector.now();
    page.session.projector.set(on);
    let (whose, name) = if on {
        (JsValue::from(document().document_element()), "requestFullscreen")
    } else {
        (JsValue::from(document()), "exitFullscreen")
    };
    let ask = Reflect::get(&whose, &JsValue::from_str(name)).unwrap_or_default();
    let promise = ask.dyn_into::<Function>().ok().and_then(|ask| ask.call0(&whose).ok());
    // Refused, the type is large all the same.
    if let Some(promise) = promise.and_then(|promise| promise.dyn_into::<Promise>().ok()) {
        settle(&promise, |_| {});
    }
}
