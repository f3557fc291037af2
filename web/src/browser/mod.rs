//! The browser's side of the page: the address, storage, files, frames. Elements
//! and listeners are made in [`crate::dom`]; the rest of the page calls these two.

pub(crate) mod address;
pub(crate) mod aside;
mod back;
mod calm;
pub(crate) mod dress;
pub(crate) mod files;
pub(crate) mod frames;
pub(crate) mod fullscreen;
pub(crate) mod json;
pub(crate) mod news;
pub(crate) mod preferences;
pub(crate) mod promise;
mod shelf;
pub(crate) mod size;
pub(crate) mod slices;
pub(crate) mod storage;
pub(crate) mod tell;
pub(crate) mod visit;
