//! The parts, each drawn from a corner's points. Sizes that no tape has taken
//! (a forging's thickness, a bracket's width) are the drawing's own.

pub(crate) mod arms;
pub(crate) mod around;
pub(crate) mod frame;
pub(crate) mod ground;
pub(crate) mod knuckle;
pub(crate) mod wheel;
pub(crate) mod whole_wheel;
