//! Travel by a finger: the tire that is pushed up and down, and the slider, which both stick where something is met.

use crate::browser::frames::Frames;
use crate::derive::Answers;
use crate::dom::{Node, as_a, loose, on_window, svg, there};
use crate::format::travelled;
use crate::signals::{Derived, Kept};
use crate::sketch::Pad;
use crate::sketch::gesture::within_reach;
use crate::sketch::pointer::{REACH_PX, TAP_PX};
use crate::state::Page;
use drawing::{Aspect, Handle, part_ends};
use leptos::prelude::untrack;
use std::cell::Cell;
use study::{Limiter, Pair};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, KeyboardEvent, PointerEvent};

/// Both stick over so much of a finger's way to either side, CSS px.
const STICKS_PX: f64 = 5.0;
/// Half of what the slider's knob takes, CSS px: as in the style sheet.
const KNOB_PX: f64 = 14.0;

/// The travel that is taken where a finger is at `mm`: it ends where travel does, and within `reach_mm` of ride
/// height, of what ends the free travel and of the first touch of the stop it sticks at the nearest. And what is met there.
fn taken(answers: &Answers, mm: f64, reach_mm: f64) -> (f64, &'static str) {
    let ((low, high), free) = untrack(|| (answers.travel_ends(), answers.travel_free()));
    let mm = mm.round().clamp(low.round(), high.round());
    let mut places = Vec::new();
    // Of two at one place what is met is said: a tire may touch at ride height.
    if let Some((droop_mm, bump, touch_mm)) = free {
        let by = match bump.by {
            Limiter::Contact(Pair::TireFender) => "tire on fender",
            Limiter::Contact(Pair::TireRail) => "tire on frame",
            by => part_ends(by).unwrap_or("first contact"),
        };
        places.extend([(bump.travel_mm, by), (touch_mm, "bump stop"), (droop_mm, "")]);
    }
    places.push((0.0, ""));
    let (mut found, mut nearest_mm) = ((mm, ""), reach_mm);
    for place in places {
        let off_mm = (mm - place.0).abs();
        if off_mm < nearest_mm {
            (found, nearest_mm) = (place, off_mm);
        }
    }
    found
}

/// A tire under a pointer.
#[derive(Clone, Copy)]
struct Push {
    pointer: i32,
    /// Where the pointer took hold, CSS px down, and the travel that was then, mm.
    from: (f64, f64),
    /// Of the picture.
    px_per_mm: f64,
    moved: bool,
    /// How far up it has come, CSS px.
    up_px: f64,
}

/// The outline of a tire, and on its tread two arrows.
fn shape(pad: Pad) -> (impl Fn() -> Option<String>, impl Fn() -> Option<String>) {
    let seen = Derived::new(move || {
        let now = pad.answers.standing.get();
        let fitted = &now.as_ref().as_ref().ok()?.fitted;
        pad.scene.with(|scene| {
            let (_, x, y) = *scene.handles.iter().find(|(handle, ..)| *handle == Handle::WheelCentre)?;
            let scale = scene.transform.px_per_mm();
            let half = scale * fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0;
            Some((x, y, half, scale * fitted.loaded_radius_mm))
        })
    });
    let px = |px: f64| measure::fixed(px, 0);
    let outline = move || {
        let (x, y, half, radius) = seen.get()?;
        let (left, top) = (px(x - half), px(y - radius));
        Some(["M", &left, " ", &top, "h", &px(2.0 * half), "v", &px(2.0 * radius), "H", &left, "z"].concat())
    };
    let arrows = move || {
        let (x, y, _, radius) = seen.get()?;
        let place = ["M", &px(x), " ", &px(y + 0.8 * radius)].concat();
        Some([&place, "m-7-3l7-7 7 7", &place, "m-7 3l7 7 7-7"].concat())
    };
    (outline, arrows)
}

/// The tire, which can be pushed up and down; keys have the slider for that.
pub(crate) fn tire(pad: Pad) -> Node {
    if pad.aspect != Aspect::Front {
        return loose();
    }
    let (outline, arrows) = shape(pad);
    let push = Kept::new(Cell::new(None::<Push>));
    let session = pad.page.session;
    let is_ours = move |event: &Event| {
        let other = event.unchecked_ref::<PointerEvent>().pointer_id();
        push.with(Cell::get).is_some_and(|push| push.pointer == other)
    };
    // Where its finger is by now.
    let follow = move || {
        let Some(now) = push.with(Cell::get).filter(|push| push.moved) else { return };
        let (mm, by) = taken(&pad.answers, now.from.1 + now.up_px / now.px_per_mm, STICKS_PX / now.px_per_mm);
        session.travel_mm.set(mm);
        let comma = if by.is_empty() { "" } else { ", " };
        pad.moves(["Wheel ", &travelled(mm, pad.page.preferences.units.now()), comma, by].concat());
    };
    let moves = move |event| {
        let event: PointerEvent = as_a(event);
        if let Some(now) = push.with(Cell::get).filter(|push| push.pointer == event.pointer_id()) {
            let up_px = now.from.0 - f64::from(event.client_y());
            let moved = now.moved || up_px.abs() >= TAP_PX;
            push.with(|push| push.set(Some(Push { moved, up_px, ..now })));
            pad.frames.with(|frames| frames.next(follow));
        }
    };
    let end = move |is_back: bool| {
        // What waits for a frame would come behind the end, and stay.
        if push.with(Cell::get).is_some() {
            pad.frames.with(Frames::forget);
        }
        if !is_back {
            follow();
        }
        let Some(push) = push.with(Cell::take) else { return };
        if is_back {
            pad.take_back();
            session.travel_mm.set(push.from.1);
        }
        session.dragging.set(None);
        session.set_moving(false);
    };
    let down = move |event| {
        let event: PointerEvent = as_a(event);
        // A second finger takes it back, as it does any drag, and does nothing else.
        if push.with(Cell::get).is_some() {
            event.stop_propagation();
            return end(true);
        }
        let (x, y) = pad.on_picture(event.client_x(), event.client_y());
        let is_point = pad.scene.with_now(|scene| !within_reach(&scene.handles, x, y, REACH_PX).is_empty());
        if is_point || event.button() != 0 || pad.hands(|hands| hands.are_busy()) {
            return;
        }
        event.stop_propagation();
        event.prevent_default();
        pad.capture(&event);
        session.handle.set(None);
        let px_per_mm = pad.scene.with_now(|scene| scene.transform.px_per_mm());
        let from = (f64::from(event.client_y()), session.travel_mm.now());
        let pointer = event.pointer_id();
        push.with(|push| push.set(Some(Push { pointer, from, px_per_mm, moved: false, up_px: 0.0 })));
    };
    on_window("keydown", move |event| {
        if as_a::<KeyboardEvent>(event).key() == "Escape" {
            end(true);
        }
    });
    // So does one that comes down elsewhere.
    on_window("pointerdown", move |event| {
        let other = as_a::<PointerEvent>(event).pointer_id();
        if push.with(Cell::get).is_some_and(|push| push.pointer != other) {
            end(true);
        }
    });
    loose()
        .child(
            svg("path")
                .attr("class", "tire")
                .attr_of("d", outline)
                .on("pointerdown", down)
                .on("pointermove", moves)
                .on("pointerup", move |event| {
                    if is_ours(&event) {
                        end(false);
                    }
                })
                // The browser would take the finger for itself.
                .on("touchmove", move |event| {
                    if push.with(Cell::get).is_some() && event.cancelable() {
                        event.prevent_default();
                    }
                })
                .on("pointercancel", move |event| {
                    if is_ours(&event) {
                        end(true);
                    }
                }),
        )
        .child(svg("path").attr("class", "push").attr_of("d", arrows))
}

/// Has the travel's slider stick by a finger, which keys step past, and puts under it how far the wheel is free,
/// what it then meets, and a tick at the first contact and one at the stop.
pub(crate) fn slider(page: Page, answers: Answers) {
    let Some(slider) = there("travel") else { return };
    let travel = page.session.travel_mm;
    let is_by_hand = Kept::new(Cell::new(false));
    let width = slider.element().clone();
    // After the slider's own listener.
    let stick = move |_| {
        if is_by_hand.with(Cell::get) {
            let (low, high) = untrack(|| answers.travel_ends());
            let width_px = width.get_bounding_client_rect().width() - 2.0 * KNOB_PX;
            travel.set(taken(&answers, travel.now(), STICKS_PX * (high - low) / width_px.max(1.0)).0);
        }
    };
    let place: Option<Element> = slider.element().parent_element();
    let _ = slider
        .on("pointerdown", move |_| is_by_hand.with(|is| is.set(true)))
        .on("keydown", move |_| is_by_hand.with(|is| is.set(false)))
        .on("input", stick);
    if let Some(place) = place {
        let _ = place.append_child(track(answers).element());
    }
}

fn track(answers: Answers) -> Node {
    let lines = Derived::new(move || {
        let (low, high) = answers.travel_ends();
        let Some((droop_mm, bump, touch_mm)) = answers.travel_free() else { return <[String; 4]>::default() };
        let at = |mm: f64| measure::fixed((mm - low) / (high - low) * 1000.0, 0);
        let line = |from: &str, to: &str| ["M", from, " 22H", to].concat();
        let tick = |at: &str| ["M", at, " 8V36"].concat();
        let (free, met, meets) = (at(droop_mm), at(bump.travel_mm), bump.by != Limiter::BumpStop);
        [
            line(&free, &met),
            if meets { line(&met, "1000") } else { String::new() },
            if meets { tick(&met) } else { String::new() },
            tick(&at(touch_mm)),
        ]
    });
    let path = move |(at, class): (usize, &str)| {
        svg("path").attr("class", class).attr_of("d", move || lines.with(|lines| Some(lines[at].clone())))
    };
    svg("svg")
        .attr("class", "track")
        .attr("viewBox", "0 0 1000 44")
        .attr("preserveAspectRatio", "none")
        .attr("aria-hidden", "true")
        .child(svg("path").attr("d", "M0 22H1000"))
        .children(["free", "meets", "met", "stop"].into_iter().enumerate().map(path))
}
