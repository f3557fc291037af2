//! A scene on the page: its elements are kept, and only what differs is set.

use crate::dom::{Node, follow, put, set_words, svg};
use crate::signals::{Derived, Value};
use drawing::{Element, Scene, Shape};
use std::cell::RefCell;
use std::sync::Arc;

/// What is spoken of a label.
const SPOKEN: &str = "aria-label";

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
        .child(drawn(scene, None))
}

/// The shapes of a scene, and its labels above them. While it moves a part that goes as one is moved as
/// it is, to within the last digit that is printed, and what is spoken of it waits; both are set right at
/// rest.
#[inline(never)]
pub(crate) fn drawn(scene: Derived<Scene>, moving: Option<Value<bool>>) -> Node {
    let places = [svg("g"), svg("g")];
    let whole = svg("g").children(places.clone());
    let kept = RefCell::new((Vec::new(), Vec::new(), None::<Arc<Scene>>));
    follow(move || {
        let (now, is_moving) = (scene.shared(), moving.is_some_and(|moving| moving.now()));
        let (parts, labels, last) = &mut *kept.borrow_mut();
        let ends = now.parts.iter().copied().chain([now.shapes.len()]);
        let mut from = 0;
        for (at, to) in ends.enumerate() {
            if at == parts.len() {
                let part =
                    Part { node: svg("g"), printed: Vec::new(), inside: Vec::new(), at: String::new() };
                let _ = places[0].element().append_child(part.node.element());
                parts.push(part);
            }
            parts[at].show(&now.shapes[from..to], is_moving);
            from = to;
        }
        for part in parts.iter_mut().skip(now.parts.len() + 1) {
            part.show(&[], false);
        }
        let had = last.as_ref().filter(|_| is_moving).map_or(&[][..], |last| &last.labels);
        let mut label =
            |at: usize| (had.get(at) != now.labels.get(at)).then(|| Element::of_label(&now.labels[at]));
        keep(labels, now.labels.len(), &mut label, &places[1], is_moving);
        *last = Some(now);
    });
    whole
}

/// A part of a picture.
struct Part {
    node: Node,
    /// The shapes as they were printed last.
    printed: Vec<Shape>,
    inside: Vec<Kept>,
    /// The transform by which they stand where they are now.
    at: String,
}

impl Part {
    fn show(&mut self, shapes: &[Shape], is_moving: bool) {
        let by = if is_moving { Shape::moved(&self.printed, shapes) } else { None };
        let at = by.filter(|by| *by != (0.0, 0.0)).map(translate).unwrap_or_default();
        if at != self.at {
            put(self.node.element(), "transform", &at);
            self.at = at;
        }
        if by.is_none() {
            let were = &self.printed;
            let mut shape =
                |at: usize| (were.get(at) != shapes.get(at)).then(|| Element::of_shape(&shapes[at]));
            keep(&mut self.inside, shapes.len(), &mut shape, &self.node, false);
            self.printed = shapes.to_vec();
        }
    }
}

/// A movement as a transform, to a hundredth.
fn translate((x, y): (f64, f64)) -> String {
    "translate(".to_owned() + &measure::fixed(x, 2) + " " + &measure::fixed(y, 2) + ")"
}

/// An element that is on the page, and what is kept inside.
struct Kept {
    node: Node,
    shows: Element,
    inside: Vec<Self>,
}

/// Brings what is kept inside an element to the `count` that are there now; `found` gives each by its
/// place, or none where it is as it was. In a `hurry` what is spoken stays as it was.
#[inline(never)]
fn keep(
    kept: &mut Vec<Kept>,
    count: usize,
    found: &mut dyn FnMut(usize) -> Option<Element>,
    part: &Node,
    hurry: bool,
) {
    for gone in kept.drain(count.min(kept.len())..) {
        gone.node.element().remove();
    }
    for at in 0..count {
        let Some(mut found) = found(at) else { continue };
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
        for (attribute, shown) in found.attributes.iter_mut().zip(&mut shows.attributes) {
            if hurry && attribute.0 == SPOKEN {
                attribute.1.clone_from(&shown.1);
            }
            if attribute != shown {
                put(node.element(), attribute.0, &attribute.1);
            }
        }
        for attribute in found.attributes.iter().skip(shows.attributes.len()) {
            put(node.element(), attribute.0, &attribute.1);
        }
        let mut within = std::mem::take(&mut found.inside);
        keep(inside, within.len(), &mut |at| Some(std::mem::take(&mut within[at])), node, hurry);
        if shows.text != found.text {
            set_words(node.element(), &found.text);
        }
        *shows = found;
    }
}

/// Whether one element can become another by values alone.
fn alike(a: &Element, b: &Element) -> bool {
    let mut pairs = a.attributes.iter().zip(&b.attributes);
    a.tag == b.tag && a.attributes.len() == b.attributes.len() && pairs.all(|((a, _), (b, _))| a == b)
}
