//! The page: one screen on which a corner is dragged and its answers read.
//!
//! The page holds one design and derives the rest. It computes nothing itself:
//! a memo is one call into a library under `crates/`.

mod app;
mod browser;
mod derive;
mod dom;
pub mod format;
mod hunt;
mod keys;
mod later;
mod narrowing;
mod pane;
mod panels;
pub mod shelf;
mod signals;
pub mod sketch;
mod state;
mod told;
mod widgets;

pub use app::mount;
pub use state::{History, Look, Selected, Store};
