//! The panels: one for each thing the person wants to do.

mod about;
mod beside;
mod bolt_up;
mod clearance;
mod compare;
mod guide;
mod kept;
mod lessons;
mod measure;
mod parts;
mod read_off;
mod readouts;
mod setup;
mod share;
mod sheet;
mod sides;
mod thread;
mod travel;
mod ways;
mod which;

pub(crate) use about::about;
pub(crate) use bolt_up::bolt_up;
pub(crate) use clearance::clearance;
pub(crate) use compare::compare;
pub(crate) use kept::kept;
pub(crate) use lessons::{follow_lessons, lessons};
pub(crate) use measure::measure;
pub(crate) use parts::parts;
pub(crate) use readouts::readouts;
pub(crate) use setup::setup;
pub(crate) use share::share;
pub(crate) use sheet::printed;
pub(crate) use travel::{curve, travel};
pub(crate) use ways::ways;
pub(crate) use which::which;
