//! The numbers of the rear in the bits of version 1, both ways.
//!
//! ```text
//! rear = usual ids { [stated] number }      by `RearField::id`, over the default
//! ```
//!
//! Usual says that every number of the frozen list is stated where nothing is said of it, and each
//! that is written says first whether it is; otherwise what is not written is not stated.

use super::bits::{Parts, Reader, Writer};
use super::defaults;
use truck::{RearAxle, RearField};

pub(super) fn write(out: &mut Writer, rear: &RearAxle) {
    let plain: Vec<RearField> = rear.iter().map(|(field, _)| field).collect();
    let differs = |field: &RearField| rear.get(*field) != usual(*field);
    let over_usual: Vec<RearField> = RearField::ALL.into_iter().filter(differs).collect();
    // The one of which less is left to say.
    let is_over = over_usual.len() < plain.len();
    out.bit(is_over);
    let mut numbers = Parts::default();
    for field in if is_over { over_usual } else { plain } {
        let out = numbers.part(field.id());
        let steps = rear.get(field).and_then(|value| field.kind().steps(value));
        if is_over {
            out.bit(steps.is_some());
        }
        if let Some(steps) = steps {
            out.steps(steps - defaults::rear_steps(field));
        }
    }
    numbers.append_to(out);
}

fn usual(field: RearField) -> Option<f64> {
    Some(field.kind().value(defaults::rear_steps(field)))
}

/// What a section holds; an id unknown here is a newer Scrubline's.
pub(super) fn read(bits: &mut Reader<'_>) -> Option<Vec<(RearField, f64)>> {
    let is_over = bits.bit();
    let mut all: Vec<(RearField, f64)> = Vec::new();
    if is_over {
        all.extend(RearField::ALL.into_iter().filter_map(|field| Some((field, usual(field)?))));
    }
    for id in bits.ids() {
        let field = bits.known(RearField::from_id(id))?;
        all.retain(|(other, _)| *other != field);
        if !is_over || bits.bit() {
            let value = field.kind().value(defaults::rear_steps(field) + bits.steps());
            all.push((field, bits.within(field.accept(value), field.label())?));
        }
    }
    Some(all)
}
