//! What of the page can be tested without its elements: gestures, numbers as
//! they are shown and typed, past and future of a design, the shelf.
//!
//! The same tests run natively and in a browser:
//!
//! ```sh
//! cargo test -p web
//! cargo xtask test wasm
//! ```
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

mod carried;
mod crowd;
mod drags;
mod format;
mod history;
mod shelf;
mod slow;
mod snapping;
mod support;
