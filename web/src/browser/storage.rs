//! Text kept in the browser. Where it refuses, nothing is kept and the page goes on.

use leptos::prelude::window;

/// Every key of ours begins with this: other pages may share the origin.
const PREFIX: &str = "scrubline:";

fn storage() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

/// What is kept under a key.
pub(crate) fn kept(key: &str) -> Option<String> {
    storage()?.get_item(&(PREFIX.to_owned() + key)).ok().flatten()
}

/// Keeps a text; says whether it could.
pub(crate) fn keep(key: &str, text: &str) -> bool {
    storage().is_some_and(|storage| storage.set_item(&(PREFIX.to_owned() + key), text).is_ok())
}
