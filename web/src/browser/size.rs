//! The size of an element, followed as it changes.

use crate::signals::Value;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, ResizeObserver};

/// Follows the inner size of an element, CSS px, into a signal.
pub(crate) fn follow(element: &Element, size: Value<(f64, f64)>) {
    let target = element.clone();
    let measure = move || {
        let rect = target.get_bounding_client_rect();
        let now = (rect.width().round(), rect.height().round());
        if now.0 > 0.0 && now.1 > 0.0 && size.now() != now {
            size.set(now);
        }
    };
    measure();
    let changed = Closure::<dyn FnMut(JsValue)>::new(move |_| measure());
    if let Ok(observer) = ResizeObserver::new(changed.as_ref().unchecked_ref()) {
        observer.observe(element);
    }
    // The sketch lives as long as the page.
    changed.forget();
}
