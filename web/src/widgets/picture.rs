//! A scene on the page: its elements are kept, and only what differs is set.

use crate::dom::{Node, follow, put, svg};
use crate::signals::Derived;
use drawing::{Element, Scene, elements};
use std::cell::RefCell;

/// The frame of a picture of a size, CSS px.
pub(crate) fn frame((width, height): (f64, f64)) -> String {
    "0 0 ".to_owned() + &measure::fixed(width, 0) + " " + &measure::fixed(height, 0)
}

/// A scene as a picture that is looked at and not touched.
pub(crate) fn picture(scene: Derived<Scene>) -> Node {
    svg("svg")
        .attr("class", "drawing picture")
        .attr("role", "img")
        .attr_of("viewBox", move || scene.with(|scene| Some(frame((scene.width_px, scene.height_px)))))
        .attr_of("aria-label", move || scene.with(|scene| Some(scene.description.clone())))
        .child(drawn(scene))
}

/// The shapes of a scene, and its labels above them.
pub(crate) fn drawn(scene: Derived<Scene>) -> Node {
    let parts = [svg("g"), svg("g")];
    let whole = svg("g").children(parts.clone());
    let kept = RefCell::new([Vec::new(), Vec::new()]);
    follow(move || {
        let found = scene.with(elements);
        for ((kept, found), part) in kept.borrow_mut().iter_mut().zip(found).zip(&parts) {
            keep(kept, found, part);
        }
    });
    whole
}

/// An element that is on the page, and what is kept inside.
struct Kept {
    node: Node,
    shows: Element,
    inside: Vec<Self>,
}

/// Brings what is kept inside an element to what was found of it now.
#[inline(never)]
fn keep(kept: &mut Vec<Kept>, found: Vec<Element>, part: &Node) {
    for gone in kept.drain(found.len().min(kept.len())..) {
        gone.node.element().remove();
    }
    for (at, mut found) in found.into_iter().enumerate() {
        if !kept.get(at).is_some_and(|kept| alike(&kept.shows, &found)) {
            let new = Kept { node: svg(found.tag), shows: Element::default(), inside: Vec::new() };
            if let Some(old) = kept.get_mut(at) {
                let _ = part.element().replace_child(new.node.element(), old.node.element());
                *old = new;
            } else {
                let _ = part.element().append_child(new.node.element());
                kept.push(new);
            }
        }
        let Kept { node, shows, inside } = &mut kept[at];
        for (at, attribute) in found.attributes.iter().enumerate() {
            if shows.attributes.get(at) != Some(attribute) {
                put(node.element(), attribute.0, &attribute.1);
            }
        }
        keep(inside, std::mem::take(&mut found.inside), node);
        if shows.text != found.text {
            // Words set in place are laid out anew, but not styled anew.
            match node.element().first_child() {
                Some(words) => words.set_node_value(Some(&found.text)),
                None => node.element().set_text_content(Some(&found.text)),
            }
        }
        *shows = found;
    }
}

/// Whether one element can become another by values alone.
fn alike(a: &Element, b: &Element) -> bool {
    let mut pairs = a.attributes.iter().zip(&b.attributes);
    a.tag == b.tag && a.attributes.len() == b.attributes.len() && pairs.all(|((a, _), (b, _))| a == b)
}
