//! The size of the page and of an element, followed as they change.

use crate::dom::on_window;
use crate::signals::{Kept, Value};
use leptos::prelude::window;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, ResizeObserver};

/// An element that is watched, as long as its owner lives.
struct Watch {
    observer: Option<ResizeObserver>,
    /// What the observer calls.
    _changed: Closure<dyn FnMut(JsValue)>,
}

impl Drop for Watch {
    fn drop(&mut self) {
        // It would go on holding the element, and call what is gone.
        if let Some(observer) = &self.observer {
            observer.disconnect();
        }
    }
}

/// Whether there is room for sketch and pane side by side.
pub(crate) fn is_wide() -> bool {
    matches("(min-width: 60em)")
}

/// Whether the page is one long sheet, as on a phone's side.
pub(crate) fn is_low() -> bool {
    matches("(max-height: 30em) and (max-width: 59.99em)")
}

/// Whether a query of style sheets holds here.
pub(crate) fn matches(query: &str) -> bool {
    window().match_media(query).ok().flatten().is_some_and(|list| list.matches())
}

/// Whether there is room for both, followed.
pub(crate) fn wide() -> Value<bool> {
    let wide = Value::new(is_wide());
    on_window("resize", move |_| {
        if wide.now() != is_wide() {
            wide.set(is_wide());
        }
    });
    wide
}

/// Follows the inner size of an element, CSS px, into a signal as long as the owner lives.
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
    let observer = ResizeObserver::new(changed.as_ref().unchecked_ref()).ok();
    if let Some(observer) = &observer {
        observer.observe(element);
    }
    Kept::new(Watch { observer, _changed: changed });
}
