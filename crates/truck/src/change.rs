//! The changes that can be made to a truck: one struct each.
//!
//! What is said of a change and of its numbers is a row of `changes!`; forms, links and files are
//! built from that table, so a new change is a struct here, a row there, one function in
//! [`crate::fit()`] and, where it needs one, a view of its own.

use crate::tire::TireSize;
use linkage::{Hardpoints, Vector3, axes};

mod kind;
mod number;
mod place;
mod source;
mod table;

pub use number::ChangeNumber;
pub use place::Place;
pub use source::{ChangeField, ChangeSources};
pub use table::{Change, ChangeKind};

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

/// Another truck's knuckle, told by what it differs in from the old one, of which a dropped spindle is
/// the one that differs in its pin's height alone. Both are measured standing as the old one does on the
/// truck, straight ahead: the axes are the body's.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KnuckleSwap {
    /// From ball to ball, longer by, mm.
    pub balls_mm: f64,
    /// The pin higher over the lower ball by, mm.
    pub pin_mm: f64,
    /// The wheel's centre plane farther out from the lower ball by, mm.
    pub out_mm: f64,
    /// The pin farther forward of the lower ball by, mm.
    pub forward_mm: f64,
    /// How much more there is between the pin, outboard, and the line of the balls, upwards, rad: of
    /// inclination and camber together. With the balls where they were, all of it is camber.
    pub angle_rad: f64,
    /// The outer tie-rod end from the lower ball, against the old knuckle's, mm.
    pub tie_outer_mm: Vector3<f64>,
}

impl KnuckleSwap {
    /// What studs that sit deeper in the old knuckle make of it: each ball comes nearer along the line of
    /// the balls, and what is told from the lower one goes with it, mm.
    #[must_use]
    pub fn seated(points: &Hardpoints, upper_mm: f64, lower_mm: f64) -> Self {
        let line = points.upper.ball - points.lower.ball;
        // A line without length goes nowhere.
        let by_mm = line * (-lower_mm / axes::length(&line).max(1.0));
        Self {
            balls_mm: -(upper_mm + lower_mm),
            pin_mm: by_mm.z,
            out_mm: by_mm.y,
            forward_mm: by_mm.x,
            angle_rad: 0.0,
            tie_outer_mm: by_mm,
        }
    }
}

/// A pivot, or both pivots of an arm, moved on the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedPivot {
    /// What is moved.
    pub place: Place,
    /// By how much, mm.
    pub by_mm: Vector3<f64>,
}

impl MovedPivot {
    const fn at(place: Place) -> Self {
        Self { place, by_mm: Vector3::new(0.0, 0.0, 0.0) }
    }
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
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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
    const fn at(place: Place) -> Self {
        Self { place, plate_mm: 0.0, flange_mm: 0.0, shift_mm: None }
    }

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

impl ArmSwap {
    const fn at(place: Place) -> Self {
        Self { place, longer_mm: 0.0, higher_mm: 0.0, forward_mm: 0.0, stop_mm: 0.0, spacing_mm: None }
    }
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
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BarSwap {
    /// Diameter of the twisting part, mm.
    pub diameter_mm: f64,
    /// Length of the twisting part, mm.
    pub length_mm: f64,
}

/// Another anchor for the torsion bar.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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

/// A block between the rear springs and the axle's pads.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearBlock {
    /// Height, mm. It lowers a truck whose axle is on top of its springs, and raises one whose axle
    /// is under them.
    pub height_mm: f64,
    /// How far its wedge turns the axle, + pinion up, rad.
    pub wedge_rad: f64,
}

/// The rear axle bolted to the other side of its springs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AxleFlip {
    /// From the axle's centre to the main leaf there, mm; open, as far as it was.
    pub seat_mm: Option<f64>,
    /// How far its new pads turn the axle, + pinion up, rad.
    pub pinion_up_rad: f64,
}

/// The rear springs' hangers moved on the frame.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearHangers {
    /// The fixed eye's bolt, higher, mm.
    pub fixed_up_mm: f64,
    /// The shackle's bolt, higher, mm.
    pub bolt_up_mm: f64,
    /// The shackle's bolt, farther from the fixed eye, mm.
    pub bolt_away_mm: f64,
}

/// Another rear shackle. Which way a longer one takes the truck follows from where its eye hangs:
/// above the bolt in the hanger it lowers, below it raises.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearShackle {
    /// Longer, bolt to eye, mm.
    pub longer_mm: f64,
}

/// Another rear leaf spring, or a leaf taken out or put in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearSpring {
    /// Its arch under the load that the truck was measured with, less by, mm.
    pub flatter_mm: f64,
    /// Its rate, N/mm; open, as before.
    pub rate_n_per_mm: Option<f64>,
}

/// A notch in the rail over the rear axle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearNotch {
    /// Depth, mm.
    pub depth_mm: f64,
}

/// The rear bump stop cut, or swapped for a shorter one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearStop {
    /// Shorter by, mm.
    pub lower_mm: f64,
}

/// Another rear shock, or its mount on the frame moved.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearShock {
    /// Pushed in, mount to mount, mm; open, as before.
    pub short_mm: Option<f64>,
    /// Pulled out, mount to mount, mm; open, as before.
    pub long_mm: Option<f64>,
    /// The mount on the frame, higher, mm.
    pub mount_up_mm: f64,
}

/// Another rear tire.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearTire {
    /// Axle centre above the ground on it, mm; open, as before.
    pub wheel_radius_mm: Option<f64>,
}

/// By its slot and its numbers, which are all that it has: what is derived compares every struct by code of its own.
impl PartialEq for Change {
    fn eq(&self, other: &Self) -> bool {
        let (mut one, mut two) = (*self, *other);
        let mut alike = |at| {
            let number = |change: &mut Self| change.number_mut(at).and_then(|number| number.get());
            number(&mut one) == number(&mut two)
        };
        self.slot() == other.slot() && (0..self.kind().numbers().len()).all(&mut alike)
    }
}

impl Change {
    /// Its slot in a proposal: at most one change may stand in each.
    #[must_use]
    pub const fn slot(&self) -> (ChangeKind, Option<Place>) {
        (self.kind(), self.place())
    }

    /// Its numbers, in the order of [`ChangeKind::numbers`], in the core's units.
    #[must_use]
    pub fn values(&self) -> Vec<Option<f64>> {
        let mut change = *self;
        let value = |at| change.number_mut(at).and_then(|number| number.get());
        (0..self.kind().numbers().len()).map(value).collect()
    }

    /// The same change with one number set; `None` where it lies outside its limits.
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
