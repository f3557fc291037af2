//! The numbers of the rear in the bits of version 1, both ways.
//!
//! ```text
//! rear = ids { number }      by `RearField::id`; what is not written is not stated
//! ```

use super::bits::{Parts, Reader, Writer};
use super::defaults;
use crate::shared;
use truck::{RearAxle, RearField};

pub(super) fn write(out: &mut Writer, rear: &RearAxle) {
    let mut numbers = Parts::default();
    for (field, value) in rear.iter() {
        if let Some(steps) = field.kind().steps(value) {
            numbers.part(field.id()).steps(steps - defaults::rear_steps(field));
        }
    }
    numbers.append_to(out);
}

/// What a section holds; an id unknown here is a newer Scrubline's.
pub(super) fn read(bits: &mut Reader<'_>) -> Option<RearAxle> {
    let mut rear = RearAxle::UNKNOWN;
    for id in bits.ids() {
        let field = bits.known(RearField::from_id(id))?;
        let value = field.kind().value(defaults::rear_steps(field) + bits.steps());
        bits.within(rear.put(field, Some(value)), shared::REAR)?;
    }
    Some(rear)
}
