//! The sketch: the drawing, and the handles above it.

pub mod gesture;
mod hands;
mod keys;
mod loupe;
mod pad;
mod pointer;
mod speech;
mod staging;
mod view;

pub(crate) use staging::{draw, picture_file};
pub(crate) use view::sketchpads;
