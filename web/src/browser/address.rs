//! The page's address: what a link put there, and what the page puts there itself.

use crate::dom::on_window;
use crate::signals::Kept;
use leptos::prelude::{document, window};
use sharing::{LinkError, Shared};
use std::cell::RefCell;
use wasm_bindgen::JsValue;

/// What the address holds, if it holds anything.
pub(crate) fn held() -> Option<Result<Shared, LinkError>> {
    fragment().map(|text| read(&text))
}

/// A design in the text of an address.
///
/// # Errors
/// [`LinkError`] says why there is none.
pub(crate) fn read(text: &str) -> Result<Shared, LinkError> {
    sharing::find_code(text)
}

/// The text behind the address's `#`, if there is any.
fn fragment() -> Option<String> {
    let hash = window().location().hash().ok()?;
    let text = hash.strip_prefix('#').unwrap_or(&hash);
    (!text.is_empty()).then(|| text.to_owned())
}

/// The address as this page last knew it. Copies are the same.
#[derive(Clone, Copy)]
pub(crate) struct Address {
    known: Kept<RefCell<Option<String>>>,
}

impl Address {
    /// The address as it is.
    pub(crate) fn known() -> Self {
        Self { known: Kept::new(RefCell::new(fragment())) }
    }

    /// Puts a code into it. One that somebody else has just put there stays, to be heard of.
    pub(crate) fn write(self, code: &str) {
        let here = fragment();
        let ours = self.known.with(|known| *known.borrow() == here);
        if ours && here.as_deref() != Some(code) {
            self.hold(code);
        }
    }

    /// Puts a code into it, whatever is there. What its entry in the history knows of itself stays.
    pub(crate) fn hold(self, code: &str) {
        self.known.with(|known| known.replace(Some(code.to_owned())));
        let _ = window().history().and_then(|history| {
            let entry = history.state().unwrap_or(JsValue::NULL);
            history.replace_state_with_url(&entry, "", Some(&("#".to_owned() + code)))
        });
    }

    /// Hears the text that somebody puts there while the page is open.
    pub(crate) fn hear(self, hear: impl Fn(&str) + 'static) {
        on_window("hashchange", move |_| {
            let Some(text) = fragment() else { return };
            self.known.with(|known| known.replace(Some(text.clone())));
            hear(&text);
        });
    }
}

/// The address to share: where the page was told it lives, else where it is.
/// None where the page's own address works only on this machine.
pub(crate) fn public_page() -> Option<String> {
    let told = document()
        .query_selector("meta[name=scrubline-page]")
        .ok()
        .flatten()
        .and_then(|meta| meta.get_attribute("content"))
        .filter(|address| !address.is_empty());
    if told.is_some() {
        return told;
    }
    let location = window().location();
    let host = location.hostname().unwrap_or_default();
    let here = ["localhost", "127.0.0.1", "[::1]", "::1", ""].contains(&host.as_str());
    let from_disk = location.protocol().is_ok_and(|protocol| protocol == "file:");
    if here || from_disk {
        return None;
    }
    location.href().ok()
}
