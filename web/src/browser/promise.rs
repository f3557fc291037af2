//! Promises by callback: the page needs no executor for the two it waits for.

use js_sys::Promise;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::Closure;

/// Hands on what a promise gives, or nothing where it is refused.
pub(crate) fn settle(promise: &Promise, then: impl FnOnce(Option<JsValue>) + 'static) {
    let then =
        std::rc::Rc::new(std::cell::Cell::new(Some(Box::new(then) as Box<dyn FnOnce(Option<JsValue>)>)));
    let refused = std::rc::Rc::clone(&then);
    let given = Closure::once_into_js(move |value: JsValue| {
        if let Some(then) = then.take() {
            then(Some(value));
        }
    });
    let refused = Closure::once_into_js(move |_: JsValue| {
        if let Some(then) = refused.take() {
            then(None);
        }
    });
    let then = js_sys::Reflect::get(promise, &JsValue::from_str("then")).unwrap_or_default();
    if let Ok(then) = wasm_bindgen::JsCast::dyn_into::<js_sys::Function>(then) {
        let _ = then.call2(promise, &given, &refused);
    }
}
