//! A scene on the page that is looked at and not touched.

use crate::dom::{Node, svg};
use crate::signals::Derived;
use drawing::{Dress, Scene, write_svg};

/// The frame of a picture of a size, CSS px.
pub(crate) fn frame((width, height): (f64, f64)) -> String {
    "0 0 ".to_owned() + &measure::fixed(width, 0) + " " + &measure::fixed(height, 0)
}

/// A scene as a picture.
pub(crate) fn picture(scene: Derived<Scene>) -> Node {
    svg("svg")
        .attr("class", "drawing picture")
        .attr("role", "img")
        .attr_of("viewBox", move || scene.with(|scene| Some(frame((scene.width_px, scene.height_px)))))
        .attr_of("aria-label", move || scene.with(|scene| Some(scene.description.clone())))
        .markup_of(move || scene.with(|scene| write_svg(scene, Dress::Page)))
}
