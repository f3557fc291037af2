//! The browser's side of the page: the address, storage, files, frames. The
//! page's only effects and its only calls to the browser are in here.

pub(crate) mod address;
pub(crate) mod dress;
pub(crate) mod files;
pub(crate) mod frames;
pub(crate) mod preferences;
pub(crate) mod promise;
pub(crate) mod size;
pub(crate) mod storage;
pub(crate) mod tell;
