//! Every change by its name: one row here gives a change its id, key, words, sort, spring, places and
//! numbers, and each number its place in the change, key, words, sort, limits and beginning. Forms,
//! links and files read this table.

use super::{
    AnchorSwap, ArmSwap, AxleFlip, BarAdjuster, BarReindex, BarSwap, ChangeNumber, CoilSwap, CutCoil,
    DroppedSpindle, JointTurned, KnuckleSwap, MovedPivot, Place, RearBlock, RearHangers, RearNotch,
    RearShackle, RearShock, RearSpring, RearStop, RearTire, SeatSpacer, ShimChange, ShockChange, StopTrim,
    StrutRodChange, TieRodChange, TireSwap,
};
use crate::kind::Kind;
use crate::rear::RearField;
use crate::slot::Slot;
use crate::spring::SpringKind;
use crate::truck::{Brake, Truck};
use crate::{columns, words};
use linkage::axes;

/// Whether a number may be left open.
macro_rules! is_open {
    (at) => {
        false
    };
    (open) => {
        true
    };
}

/// What a number begins as; one that may be left open begins so.
macro_rules! begins {
    (at $value:expr) => {
        $value
    };
    (open $value:expr) => {
        0.0
    };
}

/// What a number that may be left open comes to on a truck.
macro_rules! stated {
    (at $value:expr) => {
        None
    };
    (open $value:expr) => {
        $value
    };
}

/// The one of a list at a place of it: compiled, this is smaller than the list.
macro_rules! nth {
    ($at:expr; $($one:expr),*; $none:expr) => {{
        let mut left = $at;
        $(
            if left == 0 {
                return $one;
            }
            left -= 1;
        )*
        let _ = left;
        $none
    }};
}

/// A change whose numbers are zero or open, at its place.
macro_rules! blank {
    ($of:ident $placed:ident) => {
        $of::default()
    };
    ($of:ident $placed:ident $places:ident) => {
        $of::at($placed?)
    };
}

/// Where a change applies.
macro_rules! place_of {
    ($of:ident) => {{
        let _ = $of;
        None
    }};
    ($of:ident $places:ident) => {
        Some($of.place)
    };
}

macro_rules! changes {
    (|$truck:ident| $($(#[$said:meta])* $id:literal $name:ident($of:ident) $key:literal $label:literal
        $sort:ident $spring:ident $($places:ident)? {
        $($($part:ident).+ $number:literal $words:literal $kind:ident $low:literal..$high:literal
            $how:ident $begins:expr;)*
    })*) => {
        /// One part swapped, moved or adjusted. Millimetres, body axes.
        #[derive(Clone, Copy, Debug)]
        pub enum Change {
            $($(#[$said])* $name($of),)*
        }

        /// A sort of change. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum ChangeKind {
            $(#[doc = concat!("[`", stringify!($of), "`]")] $name = $id,)*
        }

        impl ChangeKind {
            /// Every kind, in the order in which [`crate::fit()`] works and lists are shown.
            pub const ALL: [Self; [$($id),*].len()] = [$(Self::$name,)*];

            words! {
                /// The name in files.
                pub key = $($name => $key),*;

                /// What people call it.
                pub label = $($name => $label),*;
            }

            columns! {
                /// Whether its numbers are those of a part, or set or cut.
                pub(super) sort: Sort = $($name => Sort::$sort),*;

                /// The kind of spring that it works on; `None` where any will do.
                pub spring: Option<SpringKind> = $($name => WorksOn::$spring.spring()),*;
            }

            /// Where it can apply; empty where there is only one place.
            #[must_use]
            pub const fn places(self) -> &'static [Place] {
                match self { $(Self::$name => { const ANY: &[Place] = &[]; ($(Place::$places,)? ANY,).0 })* }
            }

            /// Its numbers, in the order of their ids in links: only ever added to at the end.
            #[must_use]
            #[inline(never)]
            pub const fn numbers(self) -> &'static [ChangeNumber] {
                match self {
                    $(Self::$name => {
                        const NUMBERS: &[ChangeNumber] = &[$(ChangeNumber {
                            words: concat!($number, "\n", $words),
                            kind: Kind::$kind,
                            limits: ($low as f64, $high as f64),
                            optional: is_open!($how),
                        },)*];
                        NUMBERS
                    })*
                }
            }

            /// What one of its numbers starts out as on a truck, where it may not be left open.
            pub(super) fn begins(self, index: usize, $truck: &Truck) -> f64 {
                match self { $(Self::$name => nth!(index; $(begins!($how $begins)),*; 0.0),)* }
            }

            /// What one of its open numbers comes to on a truck, in the core's unit: where a
            /// person starts who wants to state it.
            #[must_use]
            pub fn open_value(self, index: usize, $truck: &Truck) -> Option<f64> {
                match self { $(Self::$name => nth!(index; $(stated!($how $begins)),*; None),)* }
            }

            /// The change at one of its places, with every number zero or open.
            pub(super) fn blank(self, placed: Option<Place>) -> Option<Change> {
                Some(match self { $(Self::$name => Change::$name(blank!($of placed $($places)?)),)* })
            }
        }

        impl Change {
            /// Its kind.
            #[must_use]
            pub const fn kind(&self) -> ChangeKind {
                match self { $(Self::$name(_) => ChangeKind::$name,)* }
            }

            /// Where it applies, for the kinds that have a choice.
            #[must_use]
            pub const fn place(&self) -> Option<Place> {
                match self { $(Self::$name(of) => place_of!(of $($places)?),)* }
            }

            /// Where one of its numbers stands, in the order of [`ChangeKind::numbers`].
            pub(super) fn number_mut(&mut self, index: usize) -> Option<&mut dyn Slot> {
                match self { $(Self::$name(of) => nth!(index; $(Some(&mut of.$($part).+)),*; None),)* }
            }
        }
    };
}

/// Whose the numbers of a change are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sort {
    /// A part's.
    Part,
    /// Set or cut as one chooses.
    Set,
}

/// The spring that a change works on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum WorksOn {
    Any,
    Bar,
    Coil,
}

impl WorksOn {
    const fn spring(self) -> Option<SpringKind> {
        match self {
            Self::Any => None,
            Self::Bar => Some(SpringKind::TorsionBar),
            Self::Coil => Some(SpringKind::Coil),
        }
    }
}

changes! { |truck|
    /// A knuckle whose pin sits elsewhere.
    0 DroppedSpindle(DroppedSpindle) "dropped_spindle" "Dropped spindle" Part Any {
        drop_mm "drop" "Drop, pin higher on the knuckle" Length -150..200 at 50.8;
        out_mm "out" "Wheel farther out" Length -150..150 at 0.0;
        tie_outer_mm.x "tie_outer_x" "Tie-rod end, farther forward" Length -300..300 at 0.0;
        tie_outer_mm.y "tie_outer_y" "Tie-rod end, farther out" Length -300..300 at 0.0;
        tie_outer_mm.z "tie_outer_z" "Tie-rod end, higher" Length -300..300 at 0.0;
    }
    /// Another truck's knuckle.
    27 KnuckleSwap(KnuckleSwap) "knuckle_swap" "Knuckle swap" Part Any {
        balls_mm "balls" "Ball to ball, longer" Length -100..100 at 0.0;
        pin_mm "pin" "Pin higher over the lower ball" Length -150..200 at 0.0;
        out_mm "out" "Wheel farther out" Length -150..150 at 0.0;
        forward_mm "forward" "Pin farther forward" Length -100..100 at 0.0;
        angle_rad "angle" "Between pin and line of the balls, more" Angle -15..15 at 0.0;
        tie_outer_mm.x "tie_outer_x" "Tie-rod end, farther forward" Length -300..300 at 0.0;
        tie_outer_mm.y "tie_outer_y" "Tie-rod end, farther out" Length -300..300 at 0.0;
        tie_outer_mm.z "tie_outer_z" "Tie-rod end, higher" Length -300..300 at 0.0;
    }
    /// Another arm.
    6 ArmSwap(ArmSwap) "arm_swap" "Arm swap" Part Any ARMS {
        longer_mm "longer" "Axis to ball, longer" Length -300..300 at 0.0;
        higher_mm "higher" "Ball higher on the arm" Length -300..300 at 0.0;
        forward_mm "forward" "Ball farther forward" Length -300..300 at 0.0;
        stop_mm "stop" "More room to the bump stop" Length -100..100 at 0.0;
        spacing_mm "spacing" "Its pivots, one to the other" Length 10..2000
            open Some(axes::length(&(truck.points.lower.front - truck.points.lower.rear)));
    }
    /// A ball joint bolted to the other side of its arm's plate.
    5 JointTurned(JointTurned) "joint_turned" "Ball joint turned over" Part Any JOINTS {
        plate_mm "plate" "Plate of the arm, thickness" Length 0..60 at 6.35;
        flange_mm "flange" "Flange of the joint, thickness" Length 0..60 at 9.52;
        shift_mm "shift" "Shift of the ball, if measured" Length 0..120 open Some(15.88);
    }
    /// A pivot, or both pivots of an arm, moved on the body.
    1 MovedPivot(MovedPivot) "moved_pivot" "Moved pivot" Set Any PIVOTS {
        by_mm.x "forward" "Farther forward" Length -300..300 at 0.0;
        by_mm.y "out" "Farther out" Length -300..300 at 0.0;
        by_mm.z "up" "Higher" Length -300..300 at 0.0;
    }
    /// Shims added or taken out under the upper arm's shaft.
    12 Shims(ShimChange) "shims" "Upper-arm shims" Set Any {
        front_mm "front" "Front bolt, + added" Length -60..60 at 0.0;
        rear_mm "rear" "Rear bolt, + added" Length -60..60 at 0.0;
    }
    /// The strut rod screwed to another length.
    13 StrutRod(StrutRodChange) "strut_rod" "Strut rod" Set Any {
        longer_mm "longer" "Longer" Length -100..100 at 0.0;
    }
    /// The tie rod screwed to another length, or its inner end moved.
    14 TieRod(TieRodChange) "tie_rod" "Tie rod" Set Any {
        longer_mm "longer" "Longer" Length -100..100 at 0.0;
        inner_mm.x "inner_x" "Inner end, farther forward" Length -300..300 at 0.0;
        inner_mm.y "inner_y" "Inner end, farther out" Length -300..300 at 0.0;
        inner_mm.z "inner_z" "Inner end, higher" Length -300..300 at 0.0;
    }
    /// Another torsion bar.
    8 BarSwap(BarSwap) "bar_swap" "Bar swap" Part Bar {
        diameter_mm "diameter" "Diameter" Length 5..80 at truck.spring.bar.diameter_mm;
        length_mm "length" "Length that twists" Length 100..3000 at truck.spring.bar.length_mm;
    }
    /// Another anchor for the torsion bar.
    9 AnchorSwap(AnchorSwap) "anchor_swap" "Anchor swap" Part Bar {
        lever_mm "lever" "Lever, center to bolt" Length 20..500 at truck.spring.bar.lever_mm;
        lever_angle_rad "lever_angle" "Between lever and bolt" Angle 20..160 at truck.spring.bar.lever_angle_rad;
        thread_pitch_mm "thread" "Bolt, thread pitch" Length 0.3..5 at truck.spring.bar.thread_pitch_mm;
        clocking_rad "clocking" "Turned against the old one, + raises" Angle -90..90 at 0.0;
    }
    /// The torsion bar taken out and put back some splines farther.
    7 BarReindex(BarReindex) "bar_reindex" "Bar re-index" Set Bar {
        anchor "anchor" "Splines at the anchor, + raises" Whole -60..60 at -1.0;
        arm "arm" "Splines at the arm, + raises" Whole -60..60 at 0.0;
    }
    /// The torsion bar's anchor bolt turned.
    2 BarAdjuster(BarAdjuster) "bar_adjuster" "Bar adjuster" Set Bar {
        turns "turns" "Turns of the bolt, + in, raises" Count -60..60 at -4.0;
    }
    /// Another coil.
    10 CoilSwap(CoilSwap) "coil_swap" "Coil swap" Part Coil {
        wire_mm "wire" "Wire" Length 3..50 at truck.spring.coil.wire_mm;
        mean_mm "mean" "Mean diameter" Length 20..400 at truck.spring.coil.mean_mm;
        active "active" "Active coils" Count 1..40 at truck.spring.coil.active;
        free_mm "free" "Free length, if known" Length 50..1500
            open Some(axes::length(&(truck.spring.coil.body_seat - truck.spring.coil.arm_seat)));
    }
    /// Coils cut off the spring.
    3 CutCoil(CutCoil) "cut_coil" "Cut coil" Set Coil {
        coils "coils" "Coils cut off" Count 0..30 at 0.5;
    }
    /// A spacer on the coil's seat.
    11 SeatSpacer(SeatSpacer) "seat_spacer" "Seat spacer" Set Coil {
        thickness_mm "thickness" "Thickness, + raises" Length -150..150 at 0.0;
    }
    /// The bump stop trimmed, or swapped for a lower one.
    15 StopTrim(StopTrim) "stop_trim" "Bump stop" Set Any {
        lower_mm "lower" "Lower" Length -100..100 at 9.52;
        less_squash_mm "less_squash" "Squeezes less until solid" Length -100..100 at 0.0;
    }
    /// Another shock, or its mount moved.
    16 Shock(ShockChange) "shock" "Shock" Part Any {
        short_mm "short" "Pushed in, mount to mount" Length 50..900 open truck.shock.short_mm;
        long_mm "long" "Pulled out, mount to mount" Length 50..1200 open truck.shock.long_mm;
        body_mm.x "body_x" "Mount on the body, farther forward" Length -300..300 at 0.0;
        body_mm.y "body_y" "Mount on the body, farther out" Length -300..300 at 0.0;
        body_mm.z "body_z" "Mount on the body, higher" Length -300..300 at 0.0;
    }
    /// Another tire and wheel.
    4 TireSwap(TireSwap) "tire_swap" "Tire and wheel" Part Any {
        size.section_mm "section" "Section width" Whole 95..455 at truck.tire.size.section_mm;
        size.aspect_percent "aspect" "Aspect" Whole 20..100 at truck.tire.size.aspect_percent;
        size.rim_code "rim" "Rim code" RimCode 8..30 at truck.tire.size.rim_code;
        rim_width_mm "rim_width" "Rim, width between flanges" Length 50..500 at truck.wheel.rim_width_mm;
        offset_mm "offset" "Offset, + face outboard" Length -200..200 at truck.wheel.offset_mm;
        loaded_radius_mm "loaded_radius" "Wheel center to ground, if measured" Length 100..800
            open Some(truck.loaded_radius_mm());
        barrel_mm "barrel" "Rim, radius inside the barrel, if measured" Length 50..400 open truck.wheel.barrel_mm;
    }
    /// Another brake.
    17 Brake(Brake) "brake" "Brake" Part Any {
        caliper_radius_mm "caliper_radius" "Caliper, farthest from the spindle's line" Length 40..400
            open truck.brake.caliper_radius_mm;
        caliper_in_mm "caliper_in" "Caliper, inboard end, inboard of the face" Length -200..300
            open truck.brake.caliper_in_mm;
        caliper_out_mm "caliper_out" "Caliper, outboard end, inboard of the face" Length -200..300
            open truck.brake.caliper_out_mm;
        rotor_diameter_mm "rotor_diameter" "Rotor, diameter" Length 100..500 open truck.brake.rotor_diameter_mm;
        rotor_thickness_mm "rotor_thickness" "Rotor, thickness" Length 3..60 open truck.brake.rotor_thickness_mm;
    }
    /// A block between the rear springs and the axle, with a wedge.
    18 RearBlock(RearBlock) "rear_block" "Rear block" Part Any {
        height_mm "height" "Height, more than now" Length -200..200 at 50.8;
        wedge_rad "wedge" "Wedge, + pinion up" Angle -8..8 at 0.0;
    }
    /// The rear axle bolted to the other side of its springs.
    19 AxleFlip(AxleFlip) "axle_flip" "Axle flip" Part Any {
        seat_mm "seat" "Axle center to the main leaf, on that side" Length 10..300
            open truck.rear.get(RearField::Seat).map(f64::abs);
        pinion_up_rad "pinion" "Its pads turn the pinion, + up" Angle -15..15 at 0.0;
    }
    /// The rear springs' hangers moved on the frame.
    20 RearHangers(RearHangers) "rear_hangers" "Rear hangers" Part Any {
        fixed_up_mm "fixed" "Fixed eye, higher on the frame" Length -200..200 at 0.0;
        bolt_up_mm "bolt" "Shackle's bolt, higher on the frame" Length -200..200 at 25.4;
        bolt_away_mm "bolt_away" "Shackle's bolt, farther from the fixed eye" Length -200..200 at 0.0;
    }
    /// Another rear shackle.
    21 RearShackle(RearShackle) "rear_shackle" "Rear shackle" Part Any {
        longer_mm "longer" "Longer, bolt to eye" Length -200..200 at 25.4;
    }
    /// Another rear leaf spring, or a leaf out or in.
    22 RearSpring(RearSpring) "rear_spring" "Rear spring, or a leaf out" Part Any {
        flatter_mm "flatter" "Arch under the same load, less by" Length -300..300 at 25.4;
        rate_n_per_mm "rate" "Rate of one, if known" Rate 5..500 open truck.rear.get(RearField::Rate);
    }
    /// A notch in the rail over the rear axle.
    23 RearNotch(RearNotch) "rear_notch" "Frame notch" Set Any {
        depth_mm "depth" "Depth" Length 0..300 at 50.8;
    }
    /// The rear bump stop cut, or swapped for a shorter one.
    24 RearStop(RearStop) "rear_stop" "Rear bump stop" Set Any {
        lower_mm "shorter" "Shorter" Length -200..200 at 25.4;
    }
    /// Another rear shock, or its mount moved.
    25 RearShock(RearShock) "rear_shock" "Rear shock" Part Any {
        short_mm "short" "Pushed in, mount to mount" Length 50..900
            open truck.rear.get(RearField::ShockShort);
        long_mm "long" "Pulled out, mount to mount" Length 50..1300 open truck.rear.get(RearField::ShockLong);
        mount_up_mm "mount" "Mount on the frame, higher" Length -300..300 at 0.0;
    }
    /// Another rear tire.
    26 RearTire(RearTire) "rear_tire" "Rear tire" Part Any {
        wheel_radius_mm "radius" "Axle center above the ground, on it" Length 100..700
            open truck.rear.get(RearField::WheelRadius);
    }
}
