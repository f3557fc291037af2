//! A handle moved by keys.

use crate::sketch::gesture::{Meaning, Snap, meaning};
use crate::sketch::pad::Pad;
use drawing::{Handle, Units};
use leptos::prelude::untrack;
use measure::MM_PER_INCH;
use web_sys::KeyboardEvent;

impl Pad {
    /// One step for a key, finer with Shift.
    pub(crate) fn key(&self, handle: Handle, event: &KeyboardEvent) {
        let inches = self.page.preferences.units.now() == Units::Inches;
        let plain = if inches { MM_PER_INCH / 16.0 } else { 1.0 };
        let fine = if inches { MM_PER_INCH / 64.0 } else { 0.1 };
        let coarse = if inches { MM_PER_INCH / 2.0 } else { 10.0 };
        let step = if event.shift_key() { fine } else { plain };
        // The picture of a right corner is a mirror image.
        let sign = untrack(|| self.page.sign());
        let (right_mm, up_mm) = match event.key().as_str() {
            "ArrowUp" => (0.0, step),
            "ArrowDown" => (0.0, -step),
            "ArrowRight" => (sign * step, 0.0),
            "ArrowLeft" => (-sign * step, 0.0),
            "PageUp" => (0.0, coarse),
            "PageDown" => (0.0, -coarse),
            _ => return,
        };
        event.prevent_default();
        match meaning(&self.start(handle), right_mm, up_mm, Snap::Off) {
            Meaning::Edit(edit, _) => match self.shows(&edit, None) {
                Ok(()) => self.page.edit(&edit),
                Err(why) => self.page.session.say(why),
            },
            Meaning::Fixed(why) => self.page.session.say(why),
        }
    }
}
