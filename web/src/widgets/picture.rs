//! A scene on the page: its elements are kept, and only what differs is set.

use crate::dom::{Node, follow, put, set_words, svg};
use crate::signals::{Derived, Value};
use drawing::{Element, Scene, Shape, Trace};
use std::cell::RefCell;

/// The classes of the shapes, and of those that glide.
const SHAPES: &str = "drawing";
const GLIDES: &str = "drawing glides";

/// What is spoken of a label.
const SPOKEN: &str = "aria-label";

/// The `viewBox` of a picture of a size, CSS px.
pub(crate) fn view_box((width, height): (f64, f64)) -> String {
    "0 0 ".to_owned() + &measure::fixed(width, 0) + " " + &measure::fixed(height, 0)
}

/// A scene as a picture that is looked at and not touched.
pub(crate) fn picture(scene: Derived<Scene>) -> Node {
    svg("svg")
        .attr("class", "drawing picture")
        .attr("role", "img")
        .attr_of("viewBox", move || scene.with(|scene| Some(view_box((scene.width_px, scene.height_px)))))
        .attr_of("aria-label", move || scene.with(|scene| Some(scene.description.clone())))
        .child(drawn(scene, None))
}

/// The shapes of a scene, and its labels above them. While it moves a part that goes as one is moved as
/// it is, to within the last digit that is printed, and what is spoken of it waits; both are set right at
/// rest. What is moved by hand has an id for its shapes, of which there is a copy under a finger.
#[inline(never)]
pub(crate) fn drawn(scene: Derived<Scene>, moving: Option<(Value<bool>, &str)>) -> Node {
    // A copy sees no ancestor: the rules of a drawing begin at the shapes too.
    let shapes = svg("g").attr("class", SHAPES);
    if let Some((_, id)) = moving {
        put(shapes.element(), "id", id);
    }
    let moving = moving.map(|(moving, _)| moving);
    let places = [shapes, svg("g")];
    let whole = svg("g").children(places.clone());
    let kept = RefCell::new((Vec::new(), Vec::new(), (0, false, false)));
    let glides = places[0].element().clone();
    follow(move || {
        let is_moving = moving.is_some_and(|moving| moving.now());
        let (parts, labels, last) = &mut *kept.borrow_mut();
        scene.with(|now| {
            // From one plan to another it is the same parts; from as it sits to a plan there are those beneath too. What
            // was moved by hand is there already.
            let (count, was_moving, glided) = *last;
            let next = (now.parts.len(), is_moving, count == now.parts.len() && !is_moving && !was_moving);
            if next.2 != glided {
                put(&glides, "class", if next.2 { GLIDES } else { SHAPES });
            }
            *last = next;
            let mut from = 0;
            for at in 0..parts.len().max(now.parts.len() + 1) {
                if at == parts.len() {
                    let node = svg("g");
                    let _ = places[0].element().append_child(node.element());
                    parts.push(Part {
                        node,
                        printed: Trace::default(),
                        inside: Vec::new(),
                        at: String::new(),
                    });
                }
                let to = now.parts.get(at).map_or(now.shapes.len(), |to| *to);
                parts[at].show(&now.shapes[from..to], is_moving);
                from = to;
            }
            keep(labels, now.labels.iter().map(Element::of_label).collect(), &places[1], is_moving);
        });
    });
    whole
}

/// A part of a picture.
struct Part {
    node: Node,
    /// The shapes as they were printed last.
    printed: Trace,
    inside: Vec<Kept>,
    /// The transform by which they stand where they are now.
    at: String,
}

impl Part {
    fn show(&mut self, shapes: &[Shape], is_moving: bool) {
        let now = Trace::of(shapes);
        let by = if is_moving { self.printed.moved(&now) } else { None };
        let at = by.filter(|by| *by != (0.0, 0.0)).map(translate).unwrap_or_default();
        if at != self.at {
            put(self.node.element(), "transform", &at);
            self.at = at;
        }
        if by.is_none() {
            keep(&mut self.inside, shapes.iter().map(Element::of_shape).collect(), &self.node, false);
            self.printed = now;
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

/// Brings what is kept inside an element to what was found of it now. In a `hurry` what is spoken stays as
/// it was.
#[inline(never)]
fn keep(kept: &mut Vec<Kept>, found: Vec<Element>, part: &Node, hurry: bool) {
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
        for (at, attribute) in found.attributes.iter_mut().enumerate() {
            let shown = shows.attributes.get(at);
            if let Some(shown) = shown.filter(|_| hurry && attribute.0 == SPOKEN) {
                attribute.1.clone_from(&shown.1);
            }
            if shown != Some(attribute) {
                put(node.element(), attribute.0, &attribute.1);
            }
        }
        keep(inside, std::mem::take(&mut found.inside), node, hurry);
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
