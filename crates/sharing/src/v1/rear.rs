//! The numbers of the rear in the bits of version 1, both ways.
//!
//! ```text
//! rear = ids { number }      by `RearField::id`; what is not written is as the base has it
//! ```

use super::bits::{Parts, Reader};
use super::defaults::{self, Base};
use crate::shared;
use truck::{RearAxle, RearField};

/// Whether a rear states every number that a base does, so that it can be written as a difference from it.
pub(super) fn has_all_of(base: Base, rear: &RearAxle) -> bool {
    RearField::ALL.into_iter().all(|field| base.of_rear(field).is_none() || rear.get(field).is_some())
}

/// The numbers that are not as the base has them.
pub(super) fn numbers(base: Base, rear: &RearAxle) -> Parts {
    let mut numbers = Parts::default();
    for (field, value) in rear.iter().filter(|(field, value)| base.of_rear(*field) != Some(*value)) {
        if let Some(steps) = field.kind().steps(value) {
            numbers.part(field.id()).steps(steps - defaults::rear_steps(field));
        }
    }
    numbers
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
