//! The sketch on the page: the picture, and above it the handles that a
//! finger, a key or a screen reader touches.

use crate::browser::{frames::Frames, size, slices::Slices};
use crate::derive::Answers;
use crate::dom::{Node, as_a, block, button, loose, on_window, svg};
use crate::signals::{Derived, Kept, Value};
use crate::sketch::gesture::is_movable;
use crate::sketch::hands::Hands;
use crate::sketch::loupe::{loupe, shapes_id};
use crate::sketch::pad::{Pad, Tire};
use crate::sketch::speech::{description_id, spoken, track_committed};
use crate::sketch::staging;
use crate::state::{Page, Selected};
use crate::widgets::{drawn, view_box};
use drawing::{Aspect, Ends, Handle, Scene, View, Zoom};
use leptos::prelude::{on_cleanup, untrack};
use std::cell::RefCell;
use std::sync::atomic::{AtomicU32, Ordering};
use web_sys::KeyboardEvent;

/// The sketch from the side that is chosen, and where there is room from the other two beside it, small, of which
/// one is pressed to change places.
/// One that nobody sees is not there: nothing of it follows a drag.
pub(crate) fn sketchpads(page: Page, answers: Answers, tire: Tire, wide: Value<bool>) -> Node {
    let place = |aspect: Aspect| {
        let zoom = Value::new(Zoom::default());
        let is_chosen = Derived::new(move || page.session.aspect.get() == aspect);
        let seen = Derived::new(move || wide.get() || is_chosen.get());
        let content = move || {
            if seen.get() { sketchpad(aspect, (zoom, tire), page, answers, wide) } else { loose() }
        };
        block("div", "place").class_if("small", move || !is_chosen.get()).content_of(content)
    };
    block("div", "sketches").children(Aspect::ALL.map(place))
}

#[inline(never)]
fn sketchpad(
    aspect: Aspect,
    (zoom, tire): (Value<Zoom>, Tire),
    page: Page,
    answers: Answers,
    wide: Value<bool>,
) -> Node {
    let size = Value::new((360.0, 300.0));
    let sketch = block("div", "sketch");
    let draw = move || {
        let (width_px, height_px) = size.get();
        let view = View {
            width_px,
            height_px,
            type_px: page.session.type_px(if width_px < 500.0 { 12.0 } else { 13.5 }),
            units: page.units(),
            prefix: "sketch".to_owned(),
            zoom: zoom.get(),
            covered_px: match (wide.get(), aspect) {
                // With a rear there is a button more.
                (false, Aspect::Side) if page.has_rear_spring() => (330.0, 50.0),
                (false, _) => (250.0, 50.0),
                // By the small ones.
                (true, _) if page.session.aspect.get() == aspect => (455.0, 160.0),
                (true, _) => (0.0, 0.0),
            },
        };
        staging::draw(aspect, page, &answers, &view)
    };
    let frames = AtomicU32::new(0);
    // A drag is seen on its own picture in every frame, and on the others in every fourth, each at
    // its turn, and when it rests.
    let paced = move |is_there| {
        let here = page.session.dragging.with(|on| on.as_ref().is_none_or(|(on, _)| *on == aspect));
        let waits = page.session.is_moving.get() && !here && is_there;
        let turn = if aspect == Aspect::Side { 0 } else { 2 };
        let is_its_turn = frames.fetch_add(1, Ordering::Relaxed) % 4 == turn;
        (!waits || is_its_turn).then(draw)
    };
    let pad = Pad {
        aspect,
        page,
        answers,
        tire,
        zoom,
        scene: Derived::paced(paced),
        hands: Kept::new(RefCell::new(Hands::default())),
        frames: Kept::new(Frames::default()),
        pause: Kept::new(Slices::new()),
        hold: Kept::new(Slices::new()),
        element: Kept::new(sketch.element().clone()),
        size,
        loupe: Value::new(None),
    };
    size::follow(sketch.element(), size);
    on_window("keydown", move |event| {
        if as_a::<KeyboardEvent>(event).key() == "Escape" {
            pad.take_back();
        }
    });
    // A drag ends with its picture.
    on_cleanup(move || pad.take_back());
    let scene = pad.scene;
    sketch
        .attr("data-aspect", aspect.name())
        .class_if("right", move || page.sign() < 0.0)
        .child(picture(pad))
        .child(
            block("p", "unseen")
                .attr("id", &description_id(aspect))
                // Where all three are seen, the large one speaks up by itself.
                .attr_of("aria-live", move || {
                    let speaks = page.session.aspect.get() == aspect;
                    Some(if speaks { "polite" } else { "off" }.to_owned())
                })
                // Said when something was done, not at every frame of a drag.
                .text_of(move || {
                    track_committed(pad);
                    untrack(|| scene.with(|scene| scene.description.clone()))
                }),
        )
        .child(tools(pad))
        .child(overflow(scene))
}

/// Zoom, and on a narrow screen the other two pictures.
fn tools(pad: Pad) -> Node {
    let aspects = Aspect::ALL.map(|other| {
        button(other.name(), move || pad.page.session.aspect.set(other))
            .attr("class", if other == pad.aspect { "aspect own" } else { "aspect" })
            .attr_of("aria-pressed", move || Some((pad.page.session.aspect.get() == other).to_string()))
    });
    block("div", "padtools")
        .child(button("+", move || pad.zoom_by(1.25)).attr("class", "zoom").attr("aria-label", "Larger"))
        .child(button("−", move || pad.zoom_by(0.8)).attr("class", "zoom").attr("aria-label", "Smaller"))
        .child(button("Show all", move || pad.zoom.set(Zoom::default())))
        .children((pad.aspect == Aspect::Side).then(|| ends(pad)))
        .children(aspects)
}

/// Whether the sketch can go on from the front corner to the rear: where that is measured, and all closes.
fn goes_on(page: Page, answers: Answers) -> bool {
    page.has_rear_spring()
        && answers.drawn_aside.get().is_some()
        && answers.standing.with(|standing| standing.is_ok())
}

/// From the front corner to the whole truck, its rear and back.
fn ends(pad: Pad) -> Node {
    let page = pad.page;
    let go_on = move || {
        page.session.ends.update(|ends| *ends = ends.next());
        pad.zoom.set(Zoom::default());
    };
    button("", go_on)
        .attr("class", "goes-on")
        .flag("hidden", move || !goes_on(page, pad.answers))
        .text_of(move || page.ends().next().name().to_owned())
}

/// What a picture is called.
fn title(pad: Pad) -> String {
    let ends = if pad.aspect == Aspect::Side { pad.page.ends() } else { Ends::Front };
    match ends {
        Ends::Front => pad.aspect.title(pad.page.session.side.get()),
        ends => ends.name(),
    }
    .to_owned()
}

fn picture(pad: Pad) -> Node {
    let scene = pad.scene;
    svg("svg")
        .attr("class", "drawing pad")
        .attr("role", "group")
        .attr_of("aria-label", move || Some(title(pad)))
        .attr("aria-describedby", &description_id(pad.aspect))
        .attr_of("viewBox", move || Some(view_box(pad.size.get())))
        .on("pointerdown", move |event| pad.down(&as_a(event)))
        .on("pointermove", move |event| pad.moved(&as_a(event)))
        .on("pointerup", move |event| pad.up(&as_a(event)))
        .on("pointercancel", move |event| pad.cancelled(&as_a(event)))
        .on("click", move |event| pad.tapped(&as_a(event)))
        .on("touchstart", move |event| pad.hold(&as_a(event)))
        .on("touchmove", move |event| pad.hold(&as_a(event)))
        .on("wheel", move |event| pad.wheel(&as_a(event)))
        .child(
            drawn(scene, Some((pad.page.session.is_moving, &shapes_id(pad.aspect))))
                .attr("id", &("sketch-".to_owned() + pad.aspect.name())),
        )
        // Under the points.
        .child(svg("g").content_of(move || pad.tire.get().map_or_else(loose, |tire| tire(pad))))
        .children(pad.aspect.handles().iter().map(|handle| handle_node(pad, *handle)))
        .child(loupe(pad))
}

/// Labels for which the picture had no room.
fn overflow(scene: Derived<Scene>) -> Node {
    let lines = move || scene.with(|scene| scene.overflow.join(" · "));
    block("p", "overflow").flag("hidden", move || lines().is_empty()).text_of(lines)
}

fn handle_node(pad: Pad, handle: Handle) -> Node {
    let page = pad.page;
    let place = move || {
        pad.scene.with(|scene| {
            scene.handles.iter().find(|(found, _, _)| *found == handle).map(|(_, x, y)| (*x, *y))
        })
    };
    let at = move || {
        let (x, y) = place().unwrap_or((-99.0, -99.0));
        Some("translate(".to_owned() + &measure::fixed(x, 1) + " " + &measure::fixed(y, 1) + ")")
    };
    svg("g")
        .attr("class", "handle")
        .attr("tabindex", "0")
        .attr("role", "button")
        .attr("aria-roledescription", "movable point")
        .attr("data-handle", handle.key())
        .attr_of("transform", at)
        .attr_of("aria-label", move || {
            track_committed(pad);
            Some(untrack(|| spoken(pad, handle)))
        })
        .class_if("chosen", move || page.session.handle.get() == Some(handle))
        .class_if("fixed", move || page.selected() != Selected::AsMeasured && !is_movable(pad.aspect, handle))
        .class_if("gone", move || place().is_none())
        .on("focus", move |_| page.session.handle.set(Some(handle)))
        .on("keydown", move |event| pad.key(handle, &as_a(event)))
        .child(svg("circle").attr("class", "hit").attr("r", "22"))
        .child(svg("circle").attr("class", "dot").attr("r", "7"))
}
