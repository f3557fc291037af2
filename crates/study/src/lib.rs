//! The questions asked of a truck, each with its own answer.
//!
//! | question | ask | answer |
//! |---|---|---|
//! | how does it stand? | [`Stance::of`] | [`Stance`], and of it a [`StandingSide`] |
//! | what changes through the travel? | [`sweep`] | [`Sweep`] |
//! | what changes from lock to lock? | [`steer_sweep`] | [`Gauged`]s |
//! | how near do things come at a pose? | [`clearances`] | [`Gap`]s |
//! | how near over travel and steer? | [`Clearances::of`], or [`ClearanceSearch`] step by step | [`Clearances`] |
//! | what hangs below the scrub line? | [`ScrubLine::worst`] | [`ScrubLine`] |
//! | does the other wheel go where this one does not? | [`StandingSide::other_wheel`] | a [`StandingSide`] |
//! | how far can it bump and droop? | [`travel_left`] | [`TravelLeft`] |
//! | how far do the wheels steer? | [`Steering::of`] | [`Steering`], and at a steer a [`Turn`] |
//! | which parts bring it down? | [`Ways`], step by step | [`Way`]s, and of the first a [`Certainty`] |
//! | how hard does the spring work? | [`spring_loads`] | [`SpringLoads`] |
//! | how do left and right compare? | [`left_and_right`] | [`LeftRight`]s |
//! | how does it lean, and what does that move from wheel to wheel? | [`lean`] | [`Lean`] |
//! | how is it set up? | [`setting`] | [`Setting`] |
//! | what does it then stand on? | [`alignment`], of both sides together [`alignments`] | [`Alignment`] |
//! | what is told of it, and on which guesses? | [`Figure`], and [`Narrowing`] step by step | [`Told`] |
//! | how far off may it be? | [`Spreading`], or [`Draws`] of what switches, step by step; [`spreads_of`] anything | ± |
//! | how does the rear stand, and what comes of it? | [`RearRest::of`], [`rear_told`] | [`RearRest`], [`RearAnswers`] |
//! | which numbers agree best with what was read? | [`PointFitting`], step by step | [`PointFit`] |
//! | what was read off the truck beside it? | [`Studies::as_read`] | [`AsRead`] |
//! | did it come out as planned, and if not, why? | [`AsBuiltSearch`], step by step | [`AsBuilt`] |
//!
//! No answer knows a view, and none is more than a plain value.
//!
//! ```
//! use study::{Clearances, Figure, Stance, Studied};
//! use truck::{Change, DroppedSpindle, Side, demo};
//!
//! let truck = demo().truck;
//! let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
//! let frame_height_mm = |changes: &[Change]| -> Result<f64, study::NoStance> {
//!     let rest = Stance::laid(&truck, changes)?.on(Side::Left);
//!     let figure = Figure::FRAME_HEIGHT;
//!     let studied = Studied::new(&rest, Clearances::LIVE);
//!     let told = figure.told(&studied, figure.of_side_may_rest_on(&rest));
//!     Ok(told.number().expect("a truck at rest has a frame height"))
//! };
//! let lower = frame_height_mm(&[])? - frame_height_mm(&[Change::DroppedSpindle(spindle)])?;
//! assert!((lower - 50.8).abs() < 0.01);
//! # Ok::<(), study::NoStance>(())
//! ```

mod as_built;
mod as_read;
mod clearance;
mod distance;
mod figure;
mod grid;
mod lean;
mod order;
mod other_wheel;
mod quantity;
mod rear;
mod rear_told;
mod rest;
mod ring;
mod scrub_line;
mod setting;
mod sides;
mod spread;
mod spring_loads;
mod spring_state;
mod stance;
mod steering;
mod sweep;
mod travel_left;
mod ways;

pub use as_built::{
    AsBuilt, AsBuiltSearch, BuiltRow, BuiltVerdict, Cause, CauseFound, matters, read_as_built,
};
pub use as_read::{AsRead, as_told, model_as_it_sits, room_as_told};
pub use clearance::{Against, Gap, Pair, TIGHT_MM, VariesWith, clearance, clearances, fender_lip, rail_box};
pub use distance::{Block, Closest, Segment, TireSolid};
pub use figure::{
    Figure, Guess, Guesses, Judged, LITTLE_BUMP_MM, Narrowing, Sort, Studied, Studies, Told, Topic, Trial,
    Value, Values, capital,
};
pub use grid::{ClearanceSearch, Clearances, Found, Spot};
pub use lean::{Lean, LeanCorner, LeanRear, NoLean, lean, lean_alone_rad};
pub use order::least_first;
pub use quantity::{Gauged, Quantity, Unit};
pub use rear::{Channel, Joints, Leaf, LeafPose, NoRear, RearRest, SWING_LIMIT_RAD_PER_S2, Shaft};
pub use rear_told::{RearAnswer, RearAnswers, RearTold, rear_told};
pub use rest::{HeldBy, NoRest, Rest, StopAngles};
pub use ring::{Ring, Touch, bead_seat_mm};
pub use scrub_line::{FLANGE_MM, Low, LowPoint, ScrubLine};
pub use setting::{
    Aim, Alignment, Amounts, Bound, CasterBy, Footing, HeightBy, LEAST_BUMP_MM, NoSetting, SetOrder,
    SetSpreads, Setting, Steps, Target, alignment, alignments, lowest_height, many_pieces, setting,
};
pub use sides::{LeftRight, left_and_right};
pub use spread::{
    COVERAGE, Disagreement, Distribution, Draws, Input, Inputs, Moved, NoPointFit, NumberSpreading, PointFit,
    PointFitting, Range, Residual, Sensitivities, Spreading, Uncertainty, spreads_of,
};
pub use spring_loads::{Preload, SpringLoad, SpringLoads, spring_loads};
pub use spring_state::{SpringError, SpringState};
pub use stance::{IF_REAR_STAYS, NoStance, Rear, Stance, StandingSide};
pub use steering::{Lock, NoSteering, Relay, Steering, Turn};
pub use sweep::{Span, Station, Sweep, steer_sweep, sweep};
pub use travel_left::{
    Limit, Limiter, TravelLeft, joint_swing_rad, limiters_unstated, travel_left, travel_left_of,
};
pub use ways::{
    Barred, Certainty, Contest, LeftOut, Lowest, Miss, NoRearWay, PartsTable, RearTable, RearWay, Way, Ways,
    Weights, Wish, rear_way,
};
