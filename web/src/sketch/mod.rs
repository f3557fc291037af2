//! The sketch: the drawing, and the handles above it.

pub mod gesture;
mod view;

pub(crate) use view::{draw, picture_file, sketchpads};
