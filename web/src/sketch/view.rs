//! The sketch on the page: the picture, and above it the handles that a
//! finger, a key or a screen reader touches.

use crate::browser::{frames::Frames, size, slices::Slices};
use crate::derive::{Answers, Standing};
use crate::dom::{Node, as_a, block, button, on_window, svg};
use crate::format::{field_style, readout_style};
use crate::signals::{Derived, Kept, Value};
use crate::sketch::gesture::{
    Meaning, Said, Snap, Start, is_movable, meaning, next_in_crowd, pick, within_reach,
};
use crate::state::{Page, Selected};
use crate::widgets::{drawn, frame};
use drawing::{
    Aspect, Broken, Caption, DragNote, Handle, Other, Scene, Shown, Sketch, Theme, Transform, Units, View,
    Zoom, captioned, view_of, view_of_broken, write_svg,
};
use leptos::prelude::{on_cleanup, untrack};
use linkage::Pose;
use measure::{MM_PER_INCH, print_length, spoken_length};
use std::cell::RefCell;
use truck::{Change, ChangeKind, Edit, ProposalId};
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent, TouchEvent, WheelEvent};

/// A pointer takes the nearest handle within this distance, CSS px.
const REACH_PX: f64 = 24.0;
/// A pointer that moves less than this has tapped, CSS px.
const TAP_PX: f64 = 4.0;
/// How much the loupe magnifies.
const LOUPE: f64 = 2.0;

/// A drag under way.
struct Drag {
    pointer: i32,
    start: Start,
    from: (f64, f64),
    scale: Transform,
    moved: bool,
    edit: Option<Edit>,
}

/// What fingers and mouse are doing.
#[derive(Default)]
struct Hands {
    drag: Option<Drag>,
    /// Pointers on the sketch that drag nothing.
    loose: Vec<(i32, f64, f64)>,
    near: Vec<Handle>,
}

#[derive(Clone, Copy)]
struct Pad {
    aspect: Aspect,
    page: Page,
    answers: Answers,
    zoom: Value<Zoom>,
    scene: Derived<Scene>,
    hands: Kept<RefCell<Hands>>,
    frames: Kept<Frames>,
    rest: Kept<Slices>,
    frame: Kept<Element>,
    size: Value<(f64, f64)>,
    loupe: Value<Option<(f64, f64)>>,
}

/// The sketch: from three sides where there is room, else from the one that is chosen.
/// One that nobody sees is not there: nothing of it follows a drag.
pub(crate) fn sketchpads(page: Page, answers: Answers, wide: Value<bool>) -> Node {
    let place = |aspect: Aspect| {
        let zoom = Value::new(Zoom::default());
        let seen = Derived::new(move || wide.get() || page.session.aspect.get() == aspect);
        let content = move || {
            let pad = seen.get().then(|| sketchpad(aspect, zoom, page, answers, wide));
            pad.into_iter().collect()
        };
        block("div", "place").content_of(content)
    };
    block("div", "sketches").children(Aspect::ALL.map(place))
}

#[inline(never)]
fn sketchpad(aspect: Aspect, zoom: Value<Zoom>, page: Page, answers: Answers, wide: Value<bool>) -> Node {
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
                (false, _) => (200.0, 50.0),
                (true, Aspect::Front) => (54.0, 150.0),
                (true, _) => (54.0, 50.0),
            },
        };
        draw(aspect, page, &answers, &view)
    };
    let last = Kept::new(RefCell::new((0_u32, 0_u32, None::<Scene>)));
    // A drag is seen on its own picture in every frame, and on the others in every fourth, each at
    // its turn, and when it rests.
    let paced = move || {
        let dragged = page.session.dragging.with(|on| on.as_ref().map(|(on, _)| *on));
        let rests = page.session.rests.get();
        last.with(|last| {
            let (count, rested, kept) = &mut *last.borrow_mut();
            *count += 1;
            let turn = if aspect == Aspect::Side { 0 } else { 2 };
            if dragged.is_none_or(|on| on == aspect) || *count % 4 == turn || *rested != rests {
                (*rested, *kept) = (rests, None);
            }
            kept.get_or_insert_with(draw).clone()
        })
    };
    let pad = Pad {
        aspect,
        page,
        answers,
        zoom,
        scene: Derived::always(paced),
        hands: Kept::new(RefCell::new(Hands::default())),
        frames: Kept::new(Frames::default()),
        rest: Kept::new(Slices::new()),
        frame: Kept::new(sketch.element().clone()),
        size,
        loupe: Value::new(None),
    };
    size::follow(sketch.element(), size);
    on_window("keydown", move |event| {
        if as_a::<KeyboardEvent>(event).key() == "Escape" {
            pad.drop_it();
        }
    });
    // A drag ends with its picture.
    on_cleanup(move || pad.drop_it());
    let scene = pad.scene;
    sketch
        .attr("data-aspect", aspect.name())
        .class_if("right", move || page.way() < 0.0)
        .child(picture(pad))
        .child(
            block("p", "unseen")
                .attr("id", &said_by(aspect))
                // Where all three are seen, one of them speaks up by itself.
                .attr_of("aria-live", move || {
                    let speaks = !wide.get() || aspect == Aspect::Front;
                    Some(if speaks { "polite" } else { "off" }.to_owned())
                })
                // Said when something was done, not at every frame of a drag.
                .text_of(move || {
                    done(page);
                    untrack(|| scene.with(|scene| scene.description.clone()))
                }),
        )
        .child(tools(pad))
        .child(overflow(scene))
}

/// The id of what is said of a picture in words.
fn said_by(aspect: Aspect) -> String {
    "said-".to_owned() + aspect.name()
}

/// Zoom, and on a narrow screen the other two pictures.
fn tools(pad: Pad) -> Node {
    let aspects = Aspect::ALL.map(|other| {
        button(other.name(), move || pad.page.session.aspect.set(other))
            .attr("class", "aspect")
            .attr("aria-pressed", if other == pad.aspect { "true" } else { "false" })
    });
    block("div", "padtools")
        .child(button("+", move || pad.zoom_by(1.25)).attr("class", "zoom").attr("aria-label", "Larger"))
        .child(button("−", move || pad.zoom_by(0.8)).attr("class", "zoom").attr("aria-label", "Smaller"))
        .child(button("Fit", move || pad.zoom.set(Zoom::default())))
        .children(aspects)
}

fn picture(pad: Pad) -> Node {
    let scene = pad.scene;
    let loupe = move || {
        let (at, size) = (pad.loupe.get(), pad.size.get());
        at.map(|at| loupe_markup(pad.aspect.name(), at, size)).unwrap_or_default()
    };
    svg("svg")
        .attr("class", "drawing pad")
        .attr("role", "group")
        .attr_of("aria-label", move || Some(pad.aspect.title(pad.page.session.side.get()).to_owned()))
        .attr("aria-describedby", &said_by(pad.aspect))
        .attr_of("viewBox", move || Some(frame(pad.size.get())))
        .on("pointerdown", move |event| pad.down(&as_a(event)))
        .on("pointermove", move |event| pad.moved(&as_a(event)))
        .on("pointerup", move |event| pad.up(&as_a(event)))
        .on("pointercancel", move |event| pad.cancelled(&as_a(event)))
        .on("touchstart", move |event| pad.hold(&as_a(event)))
        .on("touchmove", move |event| pad.hold(&as_a(event)))
        .on("wheel", move |event| pad.wheel(&as_a(event)))
        // The loupe shows a copy that sees no ancestor: the rules of the drawing begin at this element.
        .child(drawn(scene).attr("class", "drawing").attr("id", &("sketch-".to_owned() + pad.aspect.name())))
        .children(pad.aspect.handles().iter().map(|handle| handle_node(pad, *handle)))
        .child(svg("g").attr("class", "loupe").attr("aria-hidden", "true").markup_of(loupe))
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
            done(page);
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

/// Follows what a person has done, and not every frame of a drag: what is spoken
/// is not worth its time there.
fn done(page: Page) {
    let session = page.session;
    let _ = (page.store.committed(), session.selected.get(), session.travel_mm.get(), page.units());
    let _ = (session.steer_rad.get(), session.side.get());
}

fn spoken(pad: Pad, handle: Handle) -> String {
    let style = readout_style(pad.page.units());
    pad.scene.with(|scene| {
        let found = scene.handles.iter().find(|(found, _, _)| *found == handle);
        let Some((_, x, y)) = found else { return handle.label().to_owned() };
        let (right, up) = scene.transform.to_mm(*x, *y);
        let place = pad.aspect.in_body(right, up);
        let mut text = handle.label().to_owned();
        for (axis, _) in pad.aspect.axes() {
            text.push_str(", ");
            text.push_str(&spoken_length(place[axis], style));
            text.push_str([" ahead of the axle", " from the centreline", " above the ground"][axis]);
        }
        text
    })
}

/// A piece of the sketch, larger, away from the finger that covers it.
fn loupe_markup(name: &str, (x, y): (f64, f64), (width, _): (f64, f64)) -> String {
    // In the upper corner on the other side: off the thumb, and off the value that is dragged.
    let (centre_x, centre_y) = (if x < width / 2.0 { width - 62.0 } else { 62.0 }, 62.0);
    let fixed = |v: f64| measure::fixed(v, 1);
    let circle = |class: &str| {
        [
            "<circle class=\"",
            class,
            "\" cx=\"",
            &fixed(centre_x),
            "\" cy=\"",
            &fixed(centre_y),
            "\" r=\"54\"/>",
        ]
        .concat()
    };
    let place = fixed(centre_x - LOUPE * x) + " " + &fixed(centre_y - LOUPE * y);
    [
        "<clipPath id=\"loupe-",
        name,
        "\">",
        &circle("edge"),
        "</clipPath>",
        &circle("glass"),
        "<g clip-path=\"url(#loupe-",
        name,
        ")\"><use href=\"#sketch-",
        name,
        "\" transform=\"translate(",
        &place,
        ") scale(",
        &fixed(LOUPE),
        ")\"/></g>",
        &circle("rim"),
    ]
    .concat()
}

impl Pad {
    fn hands<U>(&self, act: impl FnOnce(&mut Hands) -> U) -> U {
        self.hands.with(|hands| act(&mut hands.borrow_mut()))
    }

    /// A finger on a handle, and two fingers anywhere, move the sketch and not the page.
    fn hold(&self, event: &TouchEvent) {
        let ours = event.touches().length() > 1 || self.hands(|hands| hands.drag.is_some());
        // Of a page that scrolls already the browser takes nothing back, and says so.
        if ours && event.cancelable() {
            event.prevent_default();
        }
    }

    fn place(&self, event: &PointerEvent) -> (f64, f64) {
        let rect = self.frame.with(Element::get_bounding_client_rect);
        (f64::from(event.client_x()) - rect.left(), f64::from(event.client_y()) - rect.top())
    }

    fn capture(&self, event: &PointerEvent) {
        let target = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(target) = target {
            // A pointer that is already gone cannot be captured: the drag then ends at the edge.
            let _ = target.set_pointer_capture(event.pointer_id());
        }
    }

    fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let (x, y) = self.place(event);
        let busy = self.hands(|hands| hands.drag.is_some() || !hands.loose.is_empty());
        if busy {
            // A second finger takes the drag back and moves the sketch instead.
            self.drop_it();
            self.hands(|hands| hands.loose.push((event.pointer_id(), x, y)));
            self.capture(event);
            return;
        }
        let session = self.page.session;
        let near = self.scene.with_now(|scene| within_reach(&scene.handles, x, y, REACH_PX));
        let taken = pick(&near, session.handle.now());
        self.hands(|hands| hands.near = near);
        let Some(handle) = taken else {
            session.handle.set(None);
            self.hands(|hands| hands.loose.push((event.pointer_id(), x, y)));
            if event.pointer_type() == "mouse" {
                self.capture(event);
            }
            return;
        };
        event.prevent_default();
        self.capture(event);
        session.handle.set(Some(handle));
        let drag = Drag {
            pointer: event.pointer_id(),
            start: self.start(handle),
            from: (x, y),
            scale: self.scene.with_now(|scene| scene.transform),
            moved: false,
            edit: None,
        };
        self.hands(|hands| hands.drag = Some(drag));
    }

    fn start(&self, handle: Handle) -> Start {
        let now = self.answers.now.now();
        let corner = now.as_ref().as_ref().ok().map(|rest| rest.corner);
        Start {
            aspect: self.aspect,
            handle,
            proposal: self.page.selected_now().proposal(),
            side: self.page.session.side.now(),
            design: self.page.store.committed_now(),
            stood: corner.zip(self.answers.pose.now()),
        }
    }

    fn snap(&self) -> Snap {
        let preferences = self.page.preferences;
        Snap::for_units(preferences.units.now(), preferences.snap.now())
    }

    fn moved(&self, event: &PointerEvent) {
        let (x, y) = self.place(event);
        let id = event.pointer_id();
        let ours = self.hands(|hands| hands.drag.as_ref().is_some_and(|drag| drag.pointer == id));
        if !ours {
            self.pan(id, x, y);
            return;
        }
        let touch = event.pointer_type() == "touch";
        let pad = *self;
        self.frames.with(|frames| frames.next(move || pad.follow(x, y, touch)));
    }

    /// One frame of a drag: the newest place of the pointer.
    fn follow(&self, x: f64, y: f64, touch: bool) {
        let snap = self.snap();
        let mut said = None;
        self.hands(|hands| {
            let Some(drag) = hands.drag.as_mut() else { return };
            let (dx, dy) = (x - drag.from.0, y - drag.from.1);
            drag.moved |= dx.abs().max(dy.abs()) >= TAP_PX;
            if drag.moved {
                let (right_mm, up_mm) = drag.scale.moved_mm(dx, dy);
                let found = meaning(&drag.start, right_mm, up_mm, snap);
                drag.edit = match &found {
                    Meaning::Edit(edit, _) => Some(edit.clone()),
                    Meaning::Fixed(_) => None,
                };
                said = Some(found);
            }
        });
        let session = self.page.session;
        match said {
            Some(Meaning::Edit(edit, said)) => {
                let words = in_words(said, untrack(|| self.page.way()), self.page.preferences.units.now());
                session.dragging.set(Some((self.aspect, words)));
                self.page.store.preview(edit);
                let rests = session.rests;
                let show = move || {
                    rests.update(|rests| *rests += 1);
                    true
                };
                self.rest.with(|rest| rest.start(Box::new(show)));
                self.loupe.set(touch.then_some((x, y)));
            }
            Some(Meaning::Fixed(why)) => session.say(why),
            None => {}
        }
    }

    fn up(&self, event: &PointerEvent) {
        let (x, y) = self.place(event);
        let id = event.pointer_id();
        let ours = self.hands(|hands| hands.drag.as_ref().is_some_and(|drag| drag.pointer == id));
        if !ours {
            self.hands(|hands| hands.loose.retain(|(loose, _, _)| *loose != id));
            return;
        }
        self.frames.with(Frames::forget);
        self.follow(x, y, false);
        let session = self.page.session;
        let mut drag = None;
        let mut near = Vec::new();
        self.hands(|hands| {
            drag = hands.drag.take();
            near = std::mem::take(&mut hands.near);
        });
        session.dragging.set(None);
        self.loupe.set(None);
        match drag {
            Some(Drag { moved: true, edit: Some(edit), .. }) => self.page.edit(&edit),
            Some(Drag { moved: false, start, .. }) if near.len() > 1 => {
                // A tap on a crowd goes on to its next point.
                let _ = start;
                session.handle.set(next_in_crowd(&near, session.handle.now()));
            }
            _ => self.page.store.cancel(),
        }
    }

    fn cancelled(&self, event: &PointerEvent) {
        self.hands(|hands| hands.loose.retain(|(loose, _, _)| *loose != event.pointer_id()));
        self.drop_it();
    }

    /// Takes a drag back as if it had not begun.
    fn drop_it(&self) {
        self.frames.with(Frames::forget);
        self.hands(|hands| {
            if let Some(drag) = hands.drag.take() {
                hands.loose.push((drag.pointer, drag.from.0, drag.from.1));
            }
        });
        self.page.session.dragging.set(None);
        self.loupe.set(None);
        self.page.store.cancel();
    }

    /// Loose pointers move the sketch: a mouse alone, or two fingers.
    fn pan(&self, id: i32, x: f64, y: f64) {
        let mut turn = None;
        self.hands(|hands| {
            let others: Vec<(f64, f64)> =
                hands.loose.iter().filter(|(other, _, _)| *other != id).map(|(_, x, y)| (*x, *y)).collect();
            let Some(own) = hands.loose.iter_mut().find(|(loose, _, _)| *loose == id) else { return };
            let from = (own.1, own.2);
            (own.1, own.2) = (x, y);
            turn = Some((from, others.first().copied()));
        });
        let Some((from, other)) = turn else { return };
        let zoom = self.zoom;
        match other {
            Some(other) => {
                let before = distance(from, other).max(1.0);
                let after = distance((x, y), other).max(1.0);
                let middle = (f64::midpoint(x, other.0), f64::midpoint(y, other.1));
                let was = (f64::midpoint(from.0, other.0), f64::midpoint(from.1, other.1));
                self.zoom_about(after / before, middle);
                zoom.update(|zoom| {
                    zoom.pan_px.0 += middle.0 - was.0;
                    zoom.pan_px.1 += middle.1 - was.1;
                });
            }
            None => zoom.update(|zoom| {
                zoom.pan_px.0 += x - from.0;
                zoom.pan_px.1 += y - from.1;
            }),
        }
    }

    fn zoom_by(&self, factor: f64) {
        let (width, height) = self.size.now();
        self.zoom_about(factor, (width / 2.0, height / 2.0));
    }

    /// Zooms so that what is at `about` stays there.
    fn zoom_about(&self, factor: f64, about: (f64, f64)) {
        let (width, height) = self.size.now();
        self.zoom.update(|zoom| {
            let scale = (zoom.scale * factor).clamp(0.5, 8.0);
            let grown = scale / zoom.scale;
            let keep = |pan: f64, at: f64, middle: f64| {
                let from_middle = at - middle;
                from_middle - grown * (from_middle - pan)
            };
            zoom.pan_px =
                (keep(zoom.pan_px.0, about.0, width / 2.0), keep(zoom.pan_px.1, about.1, height / 2.0));
            zoom.scale = scale;
        });
    }

    fn wheel(&self, event: &WheelEvent) {
        event.prevent_default();
        let rect = self.frame.with(Element::get_bounding_client_rect);
        let about = (f64::from(event.client_x()) - rect.left(), f64::from(event.client_y()) - rect.top());
        let factor = if event.delta_y() < 0.0 { 1.1 } else { 1.0 / 1.1 };
        self.zoom_about(factor, about);
    }

    fn key(&self, handle: Handle, event: &KeyboardEvent) {
        let inches = self.page.preferences.units.now() == Units::Inches;
        let plain = if inches { MM_PER_INCH / 16.0 } else { 1.0 };
        let fine = if inches { MM_PER_INCH / 64.0 } else { 0.1 };
        let coarse = if inches { MM_PER_INCH / 2.0 } else { 10.0 };
        let step = if event.shift_key() { fine } else { plain };
        // The picture of a right corner is a mirror image.
        let way = untrack(|| self.page.way());
        let (right_mm, up_mm) = match event.key().as_str() {
            "ArrowUp" => (0.0, step),
            "ArrowDown" => (0.0, -step),
            "ArrowRight" => (way * step, 0.0),
            "ArrowLeft" => (-way * step, 0.0),
            "PageUp" => (0.0, coarse),
            "PageDown" => (0.0, -coarse),
            _ => return,
        };
        event.prevent_default();
        match meaning(&self.start(handle), right_mm, up_mm, Snap::Off) {
            Meaning::Edit(edit, _) => self.page.edit(&edit),
            Meaning::Fixed(why) => self.page.session.say(why),
        }
    }
}

fn distance(a: (f64, f64), b: (f64, f64)) -> f64 {
    ((a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1)).sqrt()
}

/// A drag in words: what, and how far.
fn in_words(said: Said, way: f64, units: Units) -> String {
    let mut text = said.what.to_owned();
    let style = field_style(units);
    let mut add = |arrows: (&str, &str), mm: Option<f64>| {
        if let Some(mm) = mm {
            text.push_str(if mm < 0.0 { arrows.1 } else { arrows.0 });
            text.push_str(&print_length(mm.abs(), style));
        }
    };
    add((" → ", " ← "), said.right_mm.map(|mm| way * mm));
    add((" ↑ ", " ↓ "), said.up_mm);
    text
}

/// The picture for a file: light, as wide as a thread shows it, with what it says under it.
pub(crate) fn picture_file(page: Page, answers: &Answers, caption: &Caption) -> String {
    let view = View {
        width_px: 600.0,
        height_px: 430.0,
        type_px: 13.0,
        units: page.units(),
        prefix: "file".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let scene = untrack(|| draw(page.session.aspect.get(), page, answers, &view));
    write_svg(&captioned(scene, caption, view.type_px), Theme::Light)
}

/// What stands on the sketch, seen from one side.
pub(crate) fn draw(aspect: Aspect, page: Page, answers: &Answers, view: &View) -> Scene {
    let now = answers.now.get();
    let before = answers.before.get();
    let gaps = answers.gaps.get();
    let left = answers.left.get();
    let selected = page.selected();
    let beneath = (selected != Selected::AsMeasured).then_some(before.as_ref().as_ref().ok()).flatten();
    let travel_mm = page.session.travel_mm.get();
    let before_pose = beneath.and_then(|_| answers.pose_before.get());
    let beneath = beneath.zip(before_pose.as_ref()).map(|(rest, pose)| Shown {
        rest,
        pose,
        gaps: &[],
        travel_left: None,
        travel_mm,
    });
    match (now.as_ref(), answers.pose.get()) {
        (Ok(rest), Some(pose)) => {
            let shown = Shown { rest, pose: &pose, gaps: &gaps, travel_left: left.as_ref(), travel_mm };
            let beside = if aspect == Aspect::Front { beside(page, answers) } else { Vec::new() };
            let others: Vec<Other<'_>> = beside
                .iter()
                .filter_map(|Beside { place, name, standing, pose }| {
                    let rest = standing.as_ref().as_ref().ok()?;
                    let shown = Shown { rest, pose, gaps: &[], travel_left: None, travel_mm };
                    Some(Other { name, place: *place, shown })
                })
                .collect();
            let sketch = Sketch {
                now: shown,
                before: beneath,
                others: &others,
                selected: page.session.handle.get(),
                dragging: page
                    .session
                    .dragging
                    .get()
                    .filter(|(on, _)| *on == aspect)
                    .map(|(_, text)| DragNote { text }),
                drop_mm: drop_of(page),
            };
            view_of(aspect, &sketch, view)
        }
        (standing, _) => {
            let message = match standing {
                Err(why) => why.to_string(),
                Ok(_) => "the wheel cannot be brought to this travel".to_owned(),
            };
            let fitted = answers.fitted.get();
            let corner = fitted.as_ref().and_then(|fitted| fitted.corner().ok());
            match (fitted, corner) {
                (Some(fitted), Some(corner)) => {
                    let broken = Broken { corner: &corner, fitted: &fitted, before: beneath, message };
                    view_of_broken(aspect, &broken, view)
                }
                _ => Scene::message(&message, view),
            }
        }
    }
}

/// Another proposal than the one on the sketch, in a pose.
struct Beside {
    place: usize,
    name: String,
    standing: Standing,
    pose: Pose,
}

/// The other proposals that stand, at the travel of the sketch.
fn beside(page: Page, answers: &Answers) -> Vec<Beside> {
    let selected = page.selected().proposal();
    let names = page.store.shown().with(|design| {
        design.proposals.iter().map(|found| (found.id, found.name.clone())).collect::<Vec<_>>()
    });
    let travel_mm = page.session.travel_mm.get();
    let other = |(place, (id, name)): (usize, (ProposalId, String))| {
        let standing = answers.proposed.get(place).filter(|_| Some(id) != selected)?.get()?;
        let pose = standing.as_ref().as_ref().ok()?.at_travel(travel_mm).ok()?;
        Some(Beside { place, name, standing, pose })
    };
    // As measured it is looked at alone.
    names.into_iter().enumerate().filter(|_| selected.is_some()).filter_map(other).collect()
}

/// Drop of the selected proposal's spindle, mm.
fn drop_of(page: Page) -> f64 {
    let Some(id) = page.selected().proposal() else { return 0.0 };
    page.store.shown().with(|design| {
        match design.proposal(id).and_then(|proposal| proposal.change(ChangeKind::DroppedSpindle, None)) {
            Some(Change::DroppedSpindle(spindle)) => spindle.drop_mm,
            _ => 0.0,
        }
    })
}
