//! Text kept in the browser. Where it refuses, nothing is kept and the page goes on.

use crate::shelf::{Drawer, Refusal};
use leptos::prelude::window;
use wasm_bindgen::JsValue;

/// Every key of ours begins with this: other pages may share the origin.
const PREFIX: &str = "scrubline:";
/// Behind it, every entry of the shelf.
const ENTRY: &str = "kept:";

fn storage() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

/// Whether nothing can be kept here at all.
pub(crate) fn is_closed() -> bool {
    storage().is_none()
}

/// What is kept under a key.
pub(crate) fn kept(key: &str) -> Option<String> {
    storage()?.get_item(&(PREFIX.to_owned() + key)).ok().flatten()
}

/// Keeps a text.
#[inline(never)]
pub(crate) fn keep(key: &str, text: &str) -> Result<(), Refusal> {
    let storage = storage().ok_or(Refusal::Closed)?;
    storage.set_item(&(PREFIX.to_owned() + key), text).map_err(|why| {
        let name = js_sys::Reflect::get(&why, &JsValue::from_str("name")).unwrap_or_default();
        // The second name is that of Firefox.
        match name.as_string().as_deref() {
            Some("QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED") => Refusal::Full,
            _ => Refusal::Closed,
        }
    })
}

/// Keeps nothing more under a key.
pub(crate) fn forget(key: &str) {
    if let Some(storage) = storage() {
        let _ = storage.remove_item(&(PREFIX.to_owned() + key));
    }
}

/// The entries of the shelf.
pub(crate) struct Entries;

impl Drawer for Entries {
    fn ids(&self) -> Vec<String> {
        let Some(storage) = storage() else { return Vec::new() };
        let count = storage.length().unwrap_or(0);
        let id = |at| Some(storage.key(at).ok()??.strip_prefix(PREFIX)?.strip_prefix(ENTRY)?.to_owned());
        (0..count).filter_map(id).collect()
    }

    fn get(&self, id: &str) -> Option<String> {
        kept(&(ENTRY.to_owned() + id))
    }

    fn put(&self, id: &str, text: &str) -> Result<(), Refusal> {
        keep(&(ENTRY.to_owned() + id), text)
    }

    fn remove(&self, id: &str) {
        forget(&(ENTRY.to_owned() + id));
    }
}
