//! The changes that can be made to a truck: one variant each.
//!
//! A change's numbers are listed in [`ChangeKind::numbers`]; forms, links and
//! files are built from that list, so a new change is one variant here, one
//! function in [`crate::fit`] and, where it needs one, a view of its own.

use crate::tire::TireSize;
use crate::truck::Brake;
use linkage::Vector3;

mod kind;
mod place;
mod source;

pub use kind::{ChangeKind, ChangeNumber};
pub use place::Place;
pub use source::{ChangeField, ChangeSources};

/// One part swapped, moved or adjusted. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// A knuckle whose pin sits elsewhere.
    DroppedSpindle(DroppedSpindle),
    /// A pivot, or both pivots of an arm, moved on the body.
    MovedPivot(MovedPivot),
    /// The torsion bar's anchor bolt turned.
    BarAdjuster(BarAdjuster),
    /// Coils cut off the spring.
    CutCoil(CutCoil),
    /// Another tire and wheel.
    TireSwap(TireSwap),
    /// A ball joint bolted to the other side of its arm's plate.
    JointTurned(JointTurned),
    /// Another arm.
    ArmSwap(ArmSwap),
    /// The torsion bar taken out and put back some splines farther.
    BarReindex(BarReindex),
    /// Another torsion bar.
    BarSwap(BarSwap),
    /// Another anchor for the torsion bar.
    AnchorSwap(AnchorSwap),
    /// Another coil.
    CoilSwap(CoilSwap),
    /// A spacer on the coil's seat.
    SeatSpacer(SeatSpacer),
    /// Shims added or taken out under the upper arm's shaft.
    Shims(ShimChange),
    /// The strut rod screwed to another length.
    StrutRod(StrutRodChange),
    /// The tie rod screwed to another length, or its inner end moved.
    TieRod(TieRodChange),
    /// The bump stop trimmed, or swapped for a lower one.
    StopTrim(StopTrim),
    /// Another shock, or its mount moved.
    Shock(ShockChange),
    /// Another brake.
    Brake(Brake),
}

/// A knuckle whose pin sits elsewhere.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DroppedSpindle {
    /// How much higher the pin sits on the knuckle, along the body's vertical in
    /// the measured straight-ahead pose, mm. The truck comes down by it.
    pub drop_mm: f64,
    /// How much farther out the wheel's centre plane sits, mm.
    pub out_mm: f64,
    /// The outer tie-rod end against the old knuckle's, mm.
    pub tie_outer_mm: Vector3<f64>,
}

/// A pivot, or both pivots of an arm, moved on the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedPivot {
    /// What is moved.
    pub place: Place,
    /// By how much, mm.
    pub by_mm: Vector3<f64>,
}

/// The torsion bar's anchor bolt turned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BarAdjuster {
    /// Turns, + in; in raises the body.
    pub turns: f64,
}

/// Coils cut off the spring.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CutCoil {
    /// Coils removed.
    pub coils: f64,
}

/// Another tire and wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TireSwap {
    /// Size as on the sidewall.
    pub size: TireSize,
    /// Width between the rim's flanges, mm.
    pub rim_width_mm: f64,
    /// From the wheel's centre plane to its mounting face, + face outboard, mm.
    pub offset_mm: f64,
    /// Wheel centre to ground under load, mm; open, the measured one plus the
    /// change of nominal radius.
    pub loaded_radius_mm: Option<f64>,
    /// Radius inside the rim's barrel where it is narrowest, mm; open, the
    /// measured one where the rim code stays.
    pub barrel_mm: Option<f64>,
}

/// A ball joint bolted to the other side of its arm's plate. The stud points as before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointTurned {
    /// Which joint, and to which side of the plate.
    pub place: Place,
    /// Thickness of the plate, mm.
    pub plate_mm: f64,
    /// Thickness of the joint's flange, mm.
    pub flange_mm: f64,
    /// How far the ball shifts, where it was measured, mm; otherwise plate and flange together.
    pub shift_mm: Option<f64>,
}

impl JointTurned {
    /// How much higher the ball sits on its arm, mm.
    ///
    /// The flange changes sides: the ball goes with it through the plate's
    /// thickness and the flange's own.
    #[must_use]
    pub fn higher_mm(&self) -> f64 {
        let shift_mm = self.shift_mm.unwrap_or(self.plate_mm + self.flange_mm);
        match self.place {
            Place::LowerJointDown | Place::UpperJointDown => -shift_mm,
            _ => shift_mm,
        }
    }
}

/// Another arm, told by what it differs in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmSwap {
    /// Which arm.
    pub place: Place,
    /// From the pivot axis to the ball, longer by, mm.
    pub longer_mm: f64,
    /// The ball higher on its arm by, square to the line from the axis, mm.
    pub higher_mm: f64,
    /// The ball farther forward along the axis by, mm.
    pub forward_mm: f64,
    /// Room to the bump stop, more by, mm; a deeper pocket gives more.
    pub stop_mm: f64,
    /// Distance of the arm's two pivots, where it is known, mm.
    pub spacing_mm: Option<f64>,
}

/// The torsion bar taken out and put back some splines farther.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BarReindex {
    /// Splines at the anchor, + raises.
    pub anchor: f64,
    /// Splines at the arm, + raises.
    pub arm: f64,
}

/// Another torsion bar, put in with the same twist where the truck was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarSwap {
    /// Diameter of the twisting part, mm.
    pub diameter_mm: f64,
    /// Length of the twisting part, mm.
    pub length_mm: f64,
}

/// Another anchor for the torsion bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnchorSwap {
    /// The lever, from the bar's centre to where the bolt pushes, mm.
    pub lever_mm: f64,
    /// Between lever and bolt, rad.
    pub lever_angle_rad: f64,
    /// Pitch of the bolt's thread, mm a turn.
    pub thread_pitch_mm: f64,
    /// How far its splines turn the bar against the old anchor's, + raises, rad.
    pub clocking_rad: f64,
}

/// Another coil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilSwap {
    /// Wire, mm.
    pub wire_mm: f64,
    /// Mean diameter, mm.
    pub mean_mm: f64,
    /// Active coils.
    pub active: f64,
    /// Free length, mm; open, as long as the old one is when free.
    pub free_mm: Option<f64>,
}

/// A spacer on the coil's seat.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SeatSpacer {
    /// Thickness, + raises, mm.
    pub thickness_mm: f64,
}

/// Shims added or taken out under the upper arm's shaft.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShimChange {
    /// At the front bolt, + added, mm.
    pub front_mm: f64,
    /// At the rear bolt, + added, mm.
    pub rear_mm: f64,
}

/// The strut rod screwed to another length.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StrutRodChange {
    /// Longer by, mm.
    pub longer_mm: f64,
}

/// The tie rod screwed to another length, or its inner end moved.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TieRodChange {
    /// Longer by, mm.
    pub longer_mm: f64,
    /// The inner end against as measured, mm.
    pub inner_mm: Vector3<f64>,
}

/// The bump stop trimmed, or swapped for a lower one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StopTrim {
    /// Lower by, mm.
    pub lower_mm: f64,
    /// Squeezed less until it is solid, mm.
    pub less_squash_mm: f64,
}

/// Another shock, or its mount on the body moved.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShockChange {
    /// Pushed in, mount to mount, mm; open, as before.
    pub short_mm: Option<f64>,
    /// Pulled out, mount to mount, mm; open, as before.
    pub long_mm: Option<f64>,
    /// The mount on the body against as measured, mm.
    pub body_mm: Vector3<f64>,
}

impl Change {
    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> ChangeKind {
        match self {
            Self::DroppedSpindle(_) => ChangeKind::DroppedSpindle,
            Self::MovedPivot(_) => ChangeKind::MovedPivot,
            Self::BarAdjuster(_) => ChangeKind::BarAdjuster,
            Self::CutCoil(_) => ChangeKind::CutCoil,
            Self::TireSwap(_) => ChangeKind::TireSwap,
            Self::JointTurned(_) => ChangeKind::JointTurned,
            Self::ArmSwap(_) => ChangeKind::ArmSwap,
            Self::BarReindex(_) => ChangeKind::BarReindex,
            Self::BarSwap(_) => ChangeKind::BarSwap,
            Self::AnchorSwap(_) => ChangeKind::AnchorSwap,
            Self::CoilSwap(_) => ChangeKind::CoilSwap,
            Self::SeatSpacer(_) => ChangeKind::SeatSpacer,
            Self::Shims(_) => ChangeKind::Shims,
            Self::StrutRod(_) => ChangeKind::StrutRod,
            Self::TieRod(_) => ChangeKind::TieRod,
            Self::StopTrim(_) => ChangeKind::StopTrim,
            Self::Shock(_) => ChangeKind::Shock,
            Self::Brake(_) => ChangeKind::Brake,
        }
    }

    /// Where it applies, for the kinds that have a choice.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        match self {
            Self::MovedPivot(moved) => Some(moved.place),
            Self::JointTurned(turned) => Some(turned.place),
            Self::ArmSwap(swap) => Some(swap.place),
            _ => None,
        }
    }

    /// Its slot in a proposal: at most one change may stand in each.
    #[must_use]
    pub const fn slot(&self) -> (ChangeKind, Option<Place>) {
        (self.kind(), self.place())
    }

    /// Its numbers, in the order of [`ChangeKind::numbers`], in the core's units.
    #[must_use]
    pub fn values(&self) -> Vec<Option<f64>> {
        let stated = |values: &[f64]| values.iter().map(|value| Some(*value)).collect::<Vec<_>>();
        let triple = |v: &Vector3<f64>| stated(&[v.x, v.y, v.z]);
        match self {
            Self::DroppedSpindle(of) => [stated(&[of.drop_mm, of.out_mm]), triple(&of.tie_outer_mm)].concat(),
            Self::MovedPivot(of) => triple(&of.by_mm),
            Self::BarAdjuster(of) => stated(&[of.turns]),
            Self::CutCoil(of) => stated(&[of.coils]),
            Self::TireSwap(of) => {
                let TireSize { section_mm, aspect_percent, rim_code } = of.size;
                let numbers = [section_mm, aspect_percent, rim_code, of.rim_width_mm, of.offset_mm];
                [stated(&numbers), vec![of.loaded_radius_mm, of.barrel_mm]].concat()
            }
            Self::JointTurned(of) => [stated(&[of.plate_mm, of.flange_mm]), vec![of.shift_mm]].concat(),
            Self::ArmSwap(of) => {
                let numbers = [of.longer_mm, of.higher_mm, of.forward_mm, of.stop_mm];
                [stated(&numbers), vec![of.spacing_mm]].concat()
            }
            Self::BarReindex(of) => stated(&[of.anchor, of.arm]),
            Self::BarSwap(of) => stated(&[of.diameter_mm, of.length_mm]),
            Self::AnchorSwap(of) => {
                stated(&[of.lever_mm, of.lever_angle_rad, of.thread_pitch_mm, of.clocking_rad])
            }
            Self::CoilSwap(of) => [stated(&[of.wire_mm, of.mean_mm, of.active]), vec![of.free_mm]].concat(),
            Self::SeatSpacer(of) => stated(&[of.thickness_mm]),
            Self::Shims(of) => stated(&[of.front_mm, of.rear_mm]),
            Self::StrutRod(of) => stated(&[of.longer_mm]),
            Self::TieRod(of) => [stated(&[of.longer_mm]), triple(&of.inner_mm)].concat(),
            Self::StopTrim(of) => stated(&[of.lower_mm, of.less_squash_mm]),
            Self::Shock(of) => [vec![of.short_mm, of.long_mm], triple(&of.body_mm)].concat(),
            Self::Brake(of) => vec![
                of.caliper_radius_mm,
                of.caliper_in_mm,
                of.caliper_out_mm,
                of.rotor_diameter_mm,
                of.rotor_thickness_mm,
            ],
        }
    }

    /// The same change with one number set; nothing where it lies outside its limits.
    #[must_use]
    pub fn with_value(&self, index: usize, value: Option<f64>) -> Option<Self> {
        let mut values = self.values();
        *values.get_mut(index)? = value;
        self.kind().with(self.place(), &values)
    }

    /// The same change as it is kept: every number rounded and within its limits.
    #[must_use]
    pub fn kept(&self) -> Option<Self> {
        self.kind().with(self.place(), &self.values())
    }
}
