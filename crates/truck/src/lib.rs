//! What is on the truck, and every change that can be made to it.
//!
//! A [`Design`] is a [`Truck`] as measured and the [`Proposal`]s laid over it.
//! [`fit`] lays one proposal's changes over the truck; what comes out, a
//! [`Fitted`] truck, is what the studies ask their questions of. The one road
//! by which a design changes is [`Design::edited`].
//!
//! ```
//! use truck::{Change, DroppedSpindle, Edit, Fitted, Overlay, ProposalId, demo, fit};
//!
//! // Two inches higher on its knuckle the pin lets the body down by as much, and moves no pivot.
//! let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
//! let design = demo().edited(&Edit::Set(ProposalId(0), Change::DroppedSpindle(spindle)))?;
//! let overlay = design.overlay(ProposalId(0));
//! let [measured, fitted] = [fit(&design.truck, Overlay::NOTHING)?, fit(&design.truck, overlay)?];
//! let pin = |fitted: &Fitted| fitted.points.wheel_centre.z;
//! assert!((pin(&fitted) - pin(&measured) - 50.8).abs() < 1e-9);
//! assert_eq!(fitted.points.upper, measured.points.upper);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Lengths are millimetres, angles radians, forces newtons. No type here knows
//! how it is written down.

mod by_id;
mod change;
mod choice;
mod columns;
mod demo;
mod design;
mod difference;
mod edit;
mod edit_error;
mod field;
mod field_set;
mod fit;
mod guess;
mod kind;
mod ledger;
mod load_case;
mod note;
mod on_truck;
mod one_side;
mod reading;
mod rear;
mod remark;
mod side;
mod slot;
mod source;
mod spring;
mod stage;
mod tire;
mod truck;
mod work;

pub use change::{
    AnchorSwap, ArmSwap, AxleFlip, BarAdjuster, BarReindex, BarSwap, Change, ChangeField, ChangeKind,
    ChangeNumber, ChangeSources, CoilSwap, CutCoil, DroppedSpindle, JointTurned, KnuckleSwap, MovedPivot,
    Place, RearBlock, RearHangers, RearNotch, RearShackle, RearShock, RearSpring, RearStop, RearTire,
    SeatSpacer, ShimChange, ShockChange, StopTrim, StrutRodChange, TieRodChange, TireSwap,
};
pub use choice::{BlindTooth, CoilEnds, PitmanSide, ShackleEnd, ShaftSide, SteeringKind};
pub use columns::line;
pub use demo::demo;
pub use design::{Design, MOST_PROPOSALS, Proposal, ProposalId, Which};
pub use difference::{Difference, differences};
pub use edit::Edit;
pub use edit_error::EditError;
pub use field::{Datum, Field, Group, TAPE_MM};
pub use field_set::FieldSet;
pub use fit::{BallShift, FitError, Fitted, Overlay, RearParts, fit};
pub use guess::guesses;
pub use kind::Kind;
pub use ledger::{
    AddedRow, Callout, CalloutSort, Entry, Ledger, LedgerDraft, LedgerEdit, Mating, Of, Origin, PARTS, Part,
    PartId, ROWS, Row, RowId, Tool, UsualRow, Whose, callouts,
};
pub use load_case::LoadCase;
pub use note::{Note, notes, notes_of};
pub use one_side::OneSide;
pub use reading::{ReadWith, Readable, Reading, ReadingFault, Readings};
pub use rear::{RearAxle, RearField, RearGroup};
pub use remark::Remark;
pub use side::{RightNumbers, Side};
pub use source::{Source, Staying};
pub use spring::{Arm, Bar, Coil, Spring, SpringKind};
pub use stage::{Progress, Stage};
pub use tire::{Tire, TireSize, rim_mm};
pub use truck::{
    Body, Brake, Fender, Joints, Load, LowPoints, OpenPoint, Rail, Shims, Shock, Sources, Steering, Stops,
    StrutRod, Swing, Thickness, Truck, Wheel,
};
pub use work::{Asked, Fastener, Job, SETTINGS, Task, Torque, WorkEdit, WorkLog};
