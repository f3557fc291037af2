//! What is said of the sketch, to whoever hears it and beside what is dragged.

use crate::format::{field_style, readout_style};
use crate::sketch::gesture::Said;
use crate::sketch::pad::Pad;
use drawing::{Aspect, Handle, Units};
use measure::{print_length, spoken_length};

/// The id of what is said of a picture in words.
pub(crate) fn description_id(aspect: Aspect) -> String {
    "said-".to_owned() + aspect.name()
}

/// Follows what is committed and what is looked at, and not every frame of a drag: what is spoken
/// is not worth its time there.
pub(crate) fn track_committed(pad: Pad) {
    let (page, session) = (pad.page, pad.page.session);
    if pad.aspect != Aspect::Front {
        let _ = (pad.answers.drawn_aside.get(), session.ends.get());
    }
    let _ = (page.store.committed(), session.selected.get(), session.travel_mm.get(), page.units());
    let _ = (session.steer_rad.get(), session.side.get());
}

/// A handle in words: what it is, and where.
pub(crate) fn spoken(pad: Pad, handle: Handle) -> String {
    let style = readout_style(pad.page.units());
    pad.scene.with(|scene| {
        let found = scene.handles.iter().find(|(found, _, _)| *found == handle);
        let Some((_, x, y)) = found else { return handle.label().to_owned() };
        let (right, up) = scene.transform.to_mm(*x, *y);
        let place = pad.aspect.in_body(right, up);
        let mut text = handle.label().to_owned();
        // A part of the rear is far behind the front axle: how high it is tells more.
        for (axis, _) in pad.aspect.axes().into_iter().skip(usize::from(handle.is_rear())) {
            text.push_str(", ");
            text.push_str(&spoken_length(place[axis], style));
            text.push_str([" ahead of the axle", " from the centerline", " above the ground"][axis]);
        }
        text
    })
}

/// A drag in words: what, and how far.
pub(crate) fn in_words(said: Said, sign: f64, units: Units) -> String {
    let mut text = said.what.to_owned();
    let style = field_style(units);
    let mut add = |arrows: (&str, &str), mm: Option<f64>| {
        if let Some(mm) = mm {
            text.push_str(if mm < 0.0 { arrows.1 } else { arrows.0 });
            text.push_str(&print_length(mm.abs(), style));
        }
    };
    add((" → ", " ← "), said.right_mm.map(|mm| sign * mm));
    add((" ↑ ", " ↓ "), said.up_mm);
    text
}
