//! The questions asked of a truck, each with its own answer.
//!
//! | question | ask | answer |
//! |---|---|---|
//! | how does it stand? | [`Rest::of`] | [`Rest`] |
//! | what changes through the travel? | [`sweep`] | [`Sweep`] |
//! | how near does the tire come? | [`clearances`] | [`Gap`]s |
//! | how far can it bump and droop? | [`travel_left`] | [`TravelLeft`] |
//! | how far do the wheels steer? | [`Steering::of`] | [`Steering`], and at a steer a [`Turn`] |
//! | how hard does the spring work? | [`loading`] | [`Loading`] |
//! | how is it set up? | [`setting`] | [`Setting`] |
//! | does the answer rest on a guess? | [`assumed`] | the guessed numbers |
//!
//! No answer knows a view, and none is more than a plain value.

mod basis;
mod clearance;
mod distance;
mod loading;
mod quantity;
mod rest;
mod setting;
mod springing;
mod steering;
mod sweep;
mod travel_left;

pub use basis::{Question, assumed};
pub use clearance::{Gap, Pair, clearance, clearances, fender_bead, rail_box};
pub use distance::{Bead, Block, Closest, TireSolid};
pub use loading::{Effort, Loading, loading};
pub use quantity::{Quantity, Reading, Unit};
pub use rest::{HeldBy, NoRest, Rest, StopAngles};
pub use setting::{Amounts, Bound, CasterBy, HeightBy, NoSetting, Setting, Steps, Target, setting};
pub use springing::{Springing, Trouble};
pub use steering::{Link, Lock, NoSteering, Steering, Turn};
pub use sweep::{Span, Station, Sweep, sweep};
pub use travel_left::{Limit, Limiter, TravelLeft, travel_left};
