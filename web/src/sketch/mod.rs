//! The sketch: the drawing, and the handles above it.

pub(crate) mod beckon;
pub mod gesture;
mod hands;
mod keys;
mod loupe;
mod pad;
mod pointer;
mod speech;
mod staging;
pub(crate) mod travel;
mod view;

pub(crate) use pad::{Pad, Tire};
pub(crate) use staging::{draw, picture_file};
pub(crate) use view::sketchpads;
