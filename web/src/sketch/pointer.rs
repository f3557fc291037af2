//! Pointers on a sketch: one on a handle drags it, others move the picture.

use crate::browser::frames::Frames;
use crate::sketch::gesture::{Meaning, meaning, next_in_crowd, pick, within_reach};
use crate::sketch::hands::Drag;
use crate::sketch::pad::Pad;
use crate::sketch::speech::in_words;
use crate::told::spread_of;
use drawing::{Label, SKETCHED, capital};
use leptos::prelude::untrack;
use std::time::Duration;
use truck::Edit;
use wasm_bindgen::JsCast;
use web_sys::{Element, MouseEvent, PointerEvent, TouchEvent, WheelEvent};

/// A pointer takes the nearest handle within this distance, CSS px.
pub(crate) const REACH_PX: f64 = 24.0;
/// A pointer that moves less than this has tapped, CSS px.
pub(crate) const TAP_PX: f64 = 4.0;
/// A drag that is held still for so long goes on slowly.
const HELD: Duration = Duration::from_millis(300);

impl Pad {
    /// A finger on a handle, and two fingers anywhere, move the sketch and not the page.
    pub(crate) fn hold(&self, event: &TouchEvent) {
        let ours = event.touches().length() > 1 || self.hands(|hands| hands.drag.is_some());
        // Of a page that scrolls already the browser takes nothing back, and says so.
        if ours && event.cancelable() {
            event.prevent_default();
        }
    }

    pub(crate) fn capture(&self, event: &PointerEvent) {
        let target = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(target) = target {
            // A pointer that is already gone cannot be captured: the drag then ends at the edge.
            let _ = target.set_pointer_capture(event.pointer_id());
        }
    }

    /// A pointer comes down: on a handle it begins a drag.
    pub(crate) fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let (x, y) = self.on_picture(event.client_x(), event.client_y());
        let busy = self.hands(|hands| hands.are_busy());
        if busy {
            // A second finger takes the drag back and moves the sketch instead.
            self.take_back();
            self.hands(|hands| hands.put_down(event.pointer_id(), (x, y)));
            self.capture(event);
            return;
        }
        let session = self.page.session;
        let near = self.scene.with_now(|scene| within_reach(&scene.handles, x, y, REACH_PX));
        let taken = pick(&near, session.handle.now());
        self.hands(|hands| hands.near = near);
        let Some(handle) = taken else {
            session.handle.set(None);
            self.hands(|hands| hands.put_down(event.pointer_id(), (x, y)));
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
            at: (x, y),
            scale: self.scene.with_now(|scene| scene.transform),
            moved: false,
            still: (x, y),
            slow: None,
            edit: None,
            past: false,
        };
        self.hands(|hands| hands.drag = Some(drag));
    }

    /// A pointer moves.
    pub(crate) fn moved(&self, event: &PointerEvent) {
        let (x, y) = self.on_picture(event.client_x(), event.client_y());
        let id = event.pointer_id();
        let ours = self.hands(|hands| hands.drag_with(id));
        if !ours {
            self.pan(id, x, y);
            return;
        }
        let is_new = self.hands(|hands| hands.drag_to((x, y)));
        let touch = event.pointer_type() == "touch";
        let pad = *self;
        if is_new {
            let slow_down = move || {
                if pad.hands(|hands| hands.slow_down((x, y))).is_some() {
                    pad.follow(touch);
                }
                true
            };
            self.hold.with(|hold| hold.start_after(HELD, Box::new(slow_down)));
        }
        self.frames.with(|frames| frames.next(move || pad.follow(touch)));
    }

    /// One frame of a drag: the newest place of the pointer.
    #[inline(never)]
    fn follow(&self, touch: bool) {
        let snap = self.snap();
        let mut said = None;
        let (mut at, mut slow) = ((0.0, 0.0), "");
        self.hands(|hands| {
            let Some(drag) = hands.drag.as_mut() else { return };
            at = drag.at;
            drag.moved |= (at.0 - drag.from.0).abs().max((at.1 - drag.from.1).abs()) >= TAP_PX;
            if drag.moved {
                if drag.slow.is_some() {
                    slow = ", slow";
                }
                let (dx, dy) = drag.by();
                let (right_mm, up_mm) = drag.scale.moved_mm(dx, dy);
                let found = meaning(&drag.start, right_mm, up_mm, snap);
                said = Some(found);
            }
        });
        let session = self.page.session;
        match said {
            Some(Meaning::Edit(edit, said)) => {
                let words = in_words(said, untrack(|| self.page.sign()), self.page.preferences.units.now());
                let last = self.hands(|hands| hands.drag.as_mut().and_then(|drag| drag.edit.take()));
                let stands = self.shows(&edit, last.as_ref());
                let mut is_new = false;
                self.hands(|hands| {
                    let Some(drag) = hands.drag.as_mut() else { return };
                    is_new = stands.is_err() && !drag.past;
                    drag.past = stands.is_err();
                    drag.edit = if drag.past { last } else { Some(edit) };
                });
                match stands {
                    Ok(()) => self.moves(words + slow),
                    Err(why) if is_new => session.say(why),
                    Err(_) => {}
                }
                self.loupe.set(touch.then_some(at));
            }
            Some(Meaning::Fixed(why)) => session.say(why),
            None => {}
        }
    }

    /// Shows an edit where the truck then stands, or did not stand before; else the last one that was shown.
    ///
    /// # Errors
    /// In words why it does not, or why the edit is refused.
    pub(crate) fn shows(&self, edit: &Edit, last: Option<&Edit>) -> Result<(), String> {
        let (store, standing) = (&self.page.store, self.answers.standing);
        let stood = standing.with_now(|now| now.is_ok());
        store.preview(edit).map_err(|why| why.to_string() + ".")?;
        let why = standing.with_now(|now| now.as_ref().as_ref().err().map(ToString::to_string));
        let Some(why) = why.filter(|_| stood) else { return Ok(()) };
        // What was shown once is refused no more.
        if last.is_none_or(|last| store.preview(last).is_err()) {
            store.cancel();
        }
        Err(capital(&why) + ". It stays where the truck still stands.")
    }

    /// Something has just been moved, which is said beside it: what takes too long waits until it rests.
    #[inline(never)]
    pub(crate) fn moves(&self, words: String) {
        let session = self.page.session;
        session.dragging.set(Some((self.aspect, words)));
        session.set_moving(true);
        let show = move || {
            session.set_moving(false);
            true
        };
        self.pause.with(|pause| pause.start(Box::new(show)));
    }

    /// A pointer is gone: a drag becomes an edit, a tap goes on to the next of a crowd.
    pub(crate) fn up(&self, event: &PointerEvent) {
        let (x, y) = self.on_picture(event.client_x(), event.client_y());
        let id = event.pointer_id();
        let ours = self.hands(|hands| hands.drag_with(id));
        if !ours {
            self.hands(|hands| hands.lift(id));
            return;
        }
        self.frames.with(Frames::forget);
        self.hands(|hands| hands.drag_to((x, y)));
        self.follow(false);
        let session = self.page.session;
        let mut drag = None;
        let mut near = Vec::new();
        self.hands(|hands| {
            drag = hands.drag.take();
            near = std::mem::take(&mut hands.near);
        });
        session.dragging.set(None);
        session.set_moving(false);
        self.loupe.set(None);
        match drag {
            Some(Drag { moved: true, edit: Some(edit), .. }) => self.page.edit(&edit),
            Some(Drag { moved: false, .. }) if near.len() > 1 => {
                session.handle.set(next_in_crowd(&near, session.handle.now()));
            }
            _ => self.page.store.cancel(),
        }
    }

    /// A number that is touched says how far off it may be.
    pub(crate) fn tapped(&self, event: &MouseEvent) {
        let (x, y) = self.on_picture(event.client_x(), event.client_y());
        let touched = self.scene.with_now(|scene| {
            let holds = |label: &&Label| {
                (0.0..=label.width).contains(&(x - label.left))
                    && (0.0..=label.height).contains(&(y - label.top))
            };
            let label = scene.labels.iter().find(holds)?;
            SKETCHED.into_iter().find(|figure| label.spoken.starts_with(&(figure.label() + " ")))
        });
        let (Some(figure), standing) = (touched, self.answers.standing.now()) else { return };
        let Ok(rest) = standing.as_ref() else { return };
        // What is known of it is known at rest.
        if self.answers.pose.now() == Some(rest.pose) {
            let spread = self.answers.known.with_now(|known| spread_of(known, figure, rest));
            let said = spread.said(figure, self.page.preferences.units.now());
            if !said.is_empty() {
                let how_often = if spread.is_doubtful { "" } else { ", 19 times in 20" };
                self.page.session.say([&figure.label(), ": ", &said, how_often].concat());
            }
        }
    }

    /// The browser takes a pointer away.
    pub(crate) fn cancelled(&self, event: &PointerEvent) {
        self.hands(|hands| hands.lift(event.pointer_id()));
        self.take_back();
    }

    /// Loose pointers move the sketch: a mouse alone, or two fingers.
    fn pan(&self, id: i32, x: f64, y: f64) {
        let Some((from, other)) = self.hands(|hands| hands.shift(id, (x, y))) else { return };
        let size = self.size.now();
        self.zoom.update(|zoom| {
            *zoom = match other {
                Some(other) => zoom.pinched(from, (x, y), other, size),
                None => zoom.moved(x - from.0, y - from.1),
            };
        });
    }

    /// The wheel zooms about the pointer.
    pub(crate) fn wheel(&self, event: &WheelEvent) {
        event.prevent_default();
        let about = self.on_picture(event.client_x(), event.client_y());
        let factor = if event.delta_y() < 0.0 { 1.1 } else { 1.0 / 1.1 };
        self.zoom_about(factor, about);
    }
}
