//! Every study against hand arithmetic, closed forms, conserved energy and independent solutions.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]
#![expect(clippy::disallowed_methods, reason = "a second opinion does not share libm with the first")]

mod alignment;
mod as_built;
mod by_side;
mod cautions;
mod clearance;
mod fit;
mod lean;
mod parts;
mod readings;
mod rear;
mod rear_low;
mod rear_shackle;
mod room;
mod set_by_hand;
mod setting;
mod sides;
mod signs;
mod spring_limits;
mod springs;
mod stance;
mod steering;
mod tires;
mod together;
mod ways;

use truck::{Design, RearAxle};

/// The demo truck with nothing measured of its rear, and its first plan alone: the two-inch spindle.
fn front_alone() -> Design {
    let mut design = truck::demo();
    design.truck.rear = RearAxle::UNKNOWN;
    design.proposals.truncate(1);
    design
}
