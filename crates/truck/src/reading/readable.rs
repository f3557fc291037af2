//! What can be read off a truck, in one table.

use super::read_with::ReadWith;
use crate::kind::Kind;
use crate::{columns, words};

/// From the ground or along it.
const HEIGHT: &[ReadWith] = &[ReadWith::Tape, ReadWith::Rule];
/// Beside the tire: wide, and soft on one side.
const BESIDE_TIRE: &[ReadWith] =
    &[ReadWith::Tape, ReadWith::Rule, ReadWith::DrillShank, ReadWith::Clay, ReadWith::Caliper];
/// Between two parts of metal.
const BETWEEN: &[ReadWith] = &[
    ReadWith::DrillShank,
    ReadWith::Clay,
    ReadWith::Feeler,
    ReadWith::Caliper,
    ReadWith::Rule,
    ReadWith::Tape,
];
const LEAN: &[ReadWith] = &[ReadWith::AngleGauge, ReadWith::Shop];
const TOE: &[ReadWith] = &[ReadWith::String, ReadWith::Tape, ReadWith::Shop];

macro_rules! readables {
    ($($id:literal $name:ident $key:literal $kind:ident $low:literal..$high:literal $tools:ident $label:literal;)*) => {
        /// An answer that can be read off a truck. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Readable { $(#[doc = $label] $name = $id,)* }

        impl Readable {
            /// Everything that can be read off.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            words! {
                /// The name in files, that of the answer.
                pub key = $($name => $key),*;

                /// What people call it.
                pub label = $($name => $label),*;
            }

            columns! {
                /// What sort of number it is.
                pub kind: Kind = $($name => Kind::$kind),*;

                /// The least and the greatest that can be read, mm or degrees.
                pub limits: (f64, f64) = $($name => ($low as f64, $high as f64)),*;

                /// What it is read with, the usual one first.
                pub tools: &'static [ReadWith] = $($name => $tools),*;
            }
        }
    };
}

readables! {
    0 FrameHeight "ride_height" Length 20..1500 HEIGHT "Frame height";
    1 Camber "camber" Angle -15..15 LEAN "Camber";
    2 Toe "toe" Angle -15..15 TOE "Toe of this wheel";
    3 Caster "caster_ground" Angle -15..20 LEAN "Caster, against the ground";
    4 Inclination "inclination" Angle -10..30 LEAN "Steering-axis inclination";
    5 Droop "droop_left" Length 0..400 HEIGHT "Droop travel";
    6 StopDaylight "stop_daylight" Length 0..300 BETWEEN "Daylight at the bump stop";
    7 FenderAbove "fender_above_tire" Length 0..1000 HEIGHT "Top of the tire to the fender lip, straight up";
    8 TireRail "tire_to_frame" Length 0..500 BESIDE_TIRE "tire to frame";
    9 TireFender "tire_to_fender" Length 0..500 BESIDE_TIRE "tire to fender";
    10 TireUpperArm "tire_to_upper_arm" Length 0..500 BESIDE_TIRE "tire to upper arm";
    11 TireLowerArm "tire_to_lower_arm" Length 0..500 BESIDE_TIRE "tire to lower arm";
    12 TireTieRod "tire_to_tie_rod" Length 0..500 BESIDE_TIRE "tire to tie rod";
    13 TireStrutRod "tire_to_strut_rod" Length 0..500 BESIDE_TIRE "tire to strut rod";
    14 RimCaliper "rim_to_caliper" Length 0..500 BETWEEN "rim to caliper";
    15 RimLowerJoint "rim_to_lower_joint" Length 0..500 BETWEEN "rim to lower ball joint";
    16 RimLowerArm "rim_to_lower_arm" Length 0..500 BETWEEN "rim to lower arm";
    17 RimSteeringArm "rim_to_steering_arm" Length 0..500 BETWEEN "rim to steering arm and tie-rod end";
    18 RimTieRod "rim_to_tie_rod" Length 0..500 BETWEEN "rim to tie rod";
    19 UpperArmRail "upper_arm_to_frame" Length 0..500 BETWEEN "upper arm to frame";
    20 LowerArmRail "lower_arm_to_frame" Length 0..500 BETWEEN "lower arm to frame";
}

impl Readable {
    /// Its id in links.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// The one of an id.
    #[must_use]
    pub fn from_id(id: u8) -> Option<Self> {
        Self::ALL.iter().copied().find(|of| of.id() == id)
    }

    /// The one of a name in files.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|of| of.key() == key)
    }
}
