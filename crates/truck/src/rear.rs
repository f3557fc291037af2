//! The rear axle on its leaf springs as it sits, and what holds the truck level: numbers by their
//! names, none of which is ever guessed.
//!
//! Both springs are alike. Heights are above the ground, with the truck at rest on its wheels;
//! what lies along the truck is counted from the spring's fixed eye, plus towards the shackle.

use crate::by_id::ById;
use crate::choice::ShackleEnd;
use crate::field::accept;
use crate::kind::Kind;
use crate::{columns, words};

/// What numbers of the rear are taken together: one picture of the guide, one part of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RearGroup {
    /// How it stands, and what its travel ends at.
    Stand,
    /// The leaf spring between its eyes.
    Leaf,
    /// Shock.
    Shock,
    /// The drive shaft and its two joints.
    Shaft,
    /// The frame rail over the axle.
    Rail,
    /// Headlamps, which the rear aims, and the bumpers' heights.
    Lamps,
    /// What hangs low between the rear wheels.
    Low,
    /// What keeps the truck from leaning: the springs' distance, and the front anti-roll bar.
    Across,
}

impl RearGroup {
    /// Every group, in the order of the form.
    pub const ALL: [Self; 8] =
        [Self::Stand, Self::Leaf, Self::Shock, Self::Shaft, Self::Rail, Self::Lamps, Self::Low, Self::Across];

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Stand => "How it stands",
            Self::Leaf => "Leaf spring",
            Self::Shock => "Rear shock",
            Self::Shaft => "Drive shaft",
            Self::Rail => "Frame rail over the axle",
            Self::Lamps => "Headlamps and bumpers",
            Self::Low => "What hangs low",
            Self::Across => "What holds it level",
        }
    }
}

macro_rules! rear_fields {
    ($($id:literal $name:ident $key:literal $group:ident $kind:ident $low:literal..$high:literal $label:literal;)*) => {
        /// A number of the rear. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum RearField {
            $(#[doc = $label] $name = $id,)*
        }

        impl RearField {
            /// Every one, in the order of their ids; a form groups them.
            pub const ALL: [Self; [$($id),*].len()] = [$(Self::$name,)*];

            words! {
                /// The name in files: lower case, words joined by underscores.
                pub key = $($name => $key),*;

                /// What the form calls it.
                pub label = $($name => $label),*;
            }

            columns! {
                /// What it is taken together with.
                pub group: RearGroup = $($name => RearGroup::$group),*;

                /// What sort of number it is.
                pub kind: Kind = $($name => Kind::$kind),*;

                /// Least and greatest value; mm, **degrees**, N, N/mm or a plain number.
                pub limits: (f64, f64) = $($name => ($low as f64, $high as f64)),*;
            }
        }
    };
}

rear_fields! {
    0 FrameHeight "frame_height" Stand Length 50..1500 "Frame bottom over the axle, above the ground";
    1 WheelRadius "wheel_radius" Stand Length 100..700 "Axle center, above the ground";
    2 Seat "seat" Stand Length -300..300 "Axle center below the main leaf, − above";
    3 StopGap "stop_gap" Stand Length 0..400 "Rear bump stop to the axle tube, daylight";
    4 TubeGap "tube_gap" Stand Length 0..600 "Axle tube to the frame over it, daylight";
    5 FenderGap "fender_gap" Stand Length 0..800 "Top of the rear tire to the fender lip, straight up";
    6 Span "span" Leaf Length 300..2500 "Eye to eye, straight, as it sits";
    7 FixedPart "fixed_part" Leaf Length 100..2000 "Fixed eye to the center bolt, straight";
    8 Arch "arch" Leaf Length -300..500 "Center bolt below the line of the eyes";
    9 FixedEye "fixed_eye" Leaf Length 50..1500 "Fixed eye, above the ground";
    10 ShackleEye "shackle_eye" Leaf Length 50..1500 "Shackle's eye, above the ground";
    11 HangerBolt "hanger_bolt" Leaf Length 50..1500 "Shackle's bolt in its hanger, above the ground";
    12 EyeBeyond "eye_beyond" Leaf Length -400..400 "Shackle's eye farther from the fixed eye than that bolt";
    13 Rate "rate" Leaf Rate 5..500 "Rate of one spring";
    14 Load "load" Leaf Force 200..30000 "Load of one rear wheel on the ground";
    15 Unsprung "unsprung" Leaf Force 50..5000 "Half of the axle with its wheel, weight";
    16 ShackleAhead "shackle_ahead" Leaf SHACKLE 0..1 "Shackle";
    17 ShockLength "shock_length" Shock Length 100..1200 "Rear shock, mount to mount, as it sits";
    18 ShockShort "shock_short" Shock Length 50..900 "Rear shock pushed in, mount to mount";
    19 ShockLong "shock_long" Shock Length 50..1300 "Rear shock pulled out, mount to mount";
    20 FlangeAngle "flange_angle" Shaft Angle -20..20 "Transmission's output, + falls to the rear";
    21 ShaftAngle "shaft_angle" Shaft Angle -20..20 "Shaft, + falls to the rear";
    22 PinionAngle "pinion_angle" Shaft Angle -20..20 "Pinion, + falls to the rear";
    23 ShaftLength "shaft_length" Shaft Length 200..2500 "Shaft, joint to joint";
    24 PinionLength "pinion_length" Shaft Length 50..600 "Axle center to the rear joint";
    25 ShaftAside "shaft_aside" Shaft Length -300..300 "Rear joint to the side of the front one";
    26 ShaftSpeed "shaft_speed" Shaft Whole 300..9000 "Shaft at top road speed, turns a minute";
    27 RailDepth "rail_depth" Rail Length 30..400 "Rail over the axle, height of the channel";
    28 RailFlange "rail_flange" Rail Length 15..200 "Rail over the axle, width of its flanges";
    29 RailWall "rail_wall" Rail Length 1..15 "Rail over the axle, thickness";
    30 LampHeight "lamp_height" Lamps Length 300..1800 "Headlamp center, above the ground";
    31 LampAhead "lamp_ahead" Lamps Length -500..1500 "Headlamp ahead of the front axle";
    32 StopSquash "stop_squash" Stand Length 0..150 "Rear bump stop, squeezes until it is solid";
    33 SpringsApart "springs_apart" Across Length 300..1800 "Rear springs apart, middle to middle";
    34 TiresApart "tires_apart" Across Length 600..2600 "Rear tires apart, middle to middle";
    35 AntiRollDiameter "anti_roll_diameter" Across Length 5..60 "Front anti-roll bar, thickness";
    36 AntiRollLength "anti_roll_length" Across Length 200..1800 "Front anti-roll bar, length of the part that twists";
    37 AntiRollLever "anti_roll_lever" Across Length 30..600 "Front anti-roll bar, from that part square to its link";
    38 AntiRollLink "anti_roll_link" Across Length 30..800 "Anti-roll link on the lower arm, from the arm's pivot axis";
    39 RimEdge "rim_edge" Low Length 20..500 "Rear rim's lowest edge, above the ground";
    40 RimsApart "rims_apart" Low Length 300..2400 "Rear rims' inner edges apart, at the bottom";
    41 AxleLow "axle_low" Low Length 20..600 "Lowest point on the axle, above the ground";
    42 AxleLowAside "axle_low_aside" Low Length 0..1200 "Lowest point on the axle, from the truck's middle";
    43 PlateLow "plate_low" Low Length 20..700 "U-bolt plate and what hangs on it, above the ground";
    44 PlateLowAside "plate_low_aside" Low Length 0..1200 "That plate's outer edge, from the truck's middle";
    45 ShackleLow "shackle_low" Low Length 20..1500 "Shackle's lowest point, above the ground";
    46 FrontBumper "front_bumper" Lamps Length 50..1500 "Front bumper's lower edge, above the ground";
    47 FrontBumperAhead "front_bumper_ahead" Lamps Length -500..2500 "Front bumper ahead of the front axle";
    48 RearBumper "rear_bumper" Lamps Length 50..1500 "Rear bumper's lower edge, above the ground";
    49 RearBumperBehind "rear_bumper_behind" Lamps Length -500..3500 "Rear bumper behind the rear axle";
    50 DriverLoad "driver_load" Leaf Force 0..3000 "Driver, what one rear wheel carries more";
}

impl RearField {
    /// The number with an id; `None` for an id that none has.
    #[must_use]
    pub fn from_id(id: u8) -> Option<Self> {
        Self::ALL.get(usize::from(id)).copied()
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// The number with a key in files; `None` for a key that none has.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|field| field.key() == key)
    }

    /// A value as it is kept, in the core's unit; `None` outside its limits.
    #[must_use]
    pub fn accept(self, value: f64) -> Option<f64> {
        accept(self.kind(), self.limits(), value)
    }

    /// How far off a value may be by how it is taken, either way, in the core's unit: a sixteenth
    /// of an inch of a tape, a tenth of a degree of a gauge, 3 % of a scale and 10 % of a rate
    /// that was taken by a load; nothing of a choice or of a speed that is worked out. Common
    /// practice, no source.
    #[must_use]
    pub fn tolerance(self, value: f64) -> f64 {
        match self.kind() {
            Kind::Length => crate::field::TAPE_MM,
            Kind::Angle => crate::field::GAUGE_RAD,
            Kind::Force => 0.03 * value.abs(),
            Kind::Rate => 0.1 * value.abs(),
            _ => 0.0,
        }
    }
}

/// The numbers of the rear that are stated, each once, in the core's unit and in the order of
/// their ids. What is not there was not measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RearAxle(ById);

impl RearAxle {
    /// Nothing is known of it.
    pub const UNKNOWN: Self = Self(ById::NONE);

    /// The one of which these numbers are stated, which are not checked; in the order of their ids, in the
    /// core's unit.
    pub(crate) fn of(numbers: &[(RearField, f64)]) -> Self {
        Self(ById::of(numbers.iter().map(|(field, value)| (field.id(), *value))))
    }

    /// Whether nothing is known of it.
    #[must_use]
    pub const fn is_unknown(&self) -> bool {
        self.0.len() == 0
    }

    /// How many numbers are stated.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.0.len()
    }

    /// A number, in the core's unit; `None` where it is not stated.
    #[must_use]
    pub fn get(&self, field: RearField) -> Option<f64> {
        self.0.get(field.id())
    }

    /// Whether the shackle is at the front of the springs; where it is not stated, at the rear.
    #[must_use]
    pub fn shackle_is_ahead(&self) -> bool {
        self.get(RearField::ShackleAhead) == Some(f64::from(ShackleEnd::Front as u8))
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = (RearField, f64)> {
        self.0.iter().filter_map(|(id, value)| Some((RearField::from_id(id)?, value)))
    }

    /// The same with another number, which is not checked: for studies that ask what another
    /// value would do.
    #[must_use]
    pub fn with(&self, field: RearField, value: f64) -> Self {
        let mut other = self.clone();
        other.0.set(field.id(), Some(value));
        other
    }

    /// Puts a number as it is kept, or takes it out; `None`, with nothing done, where it cannot be entered.
    pub fn put(&mut self, field: RearField, value: Option<f64>) -> Option<()> {
        let kept = match value {
            Some(value) => Some(field.accept(value)?),
            None => None,
        };
        self.0.set(field.id(), kept);
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_and_keys_are_one_to_one() {
        for (place, field) in RearField::ALL.into_iter().enumerate() {
            assert_eq!(usize::from(field.id()), place);
            assert_eq!(RearField::from_id(field.id()), Some(field));
            assert_eq!(RearField::from_key(field.key()), Some(field));
            assert!(RearField::ALL[..place].iter().all(|other| other.label() != field.label()));
            let (low, high) = field.limits();
            assert!(low < high, "{field:?}");
        }
        assert_eq!(RearField::from_id(51), None);
    }

    #[test]
    fn only_what_is_stated_is_there_in_the_order_of_ids() {
        let mut rear = RearAxle::UNKNOWN;
        rear.put(RearField::Span, Some(1200.0)).unwrap();
        rear.put(RearField::Seat, Some(-60.0)).unwrap();
        rear.put(RearField::Span, Some(1210.0)).unwrap();
        let all: Vec<_> = rear.iter().collect();
        assert_eq!(all, [(RearField::Seat, -60.0), (RearField::Span, 1210.0)]);
        assert_eq!(rear.get(RearField::Arch), None);
        rear.put(RearField::Seat, None).unwrap();
        rear.put(RearField::Span, None).unwrap();
        assert!(rear.is_unknown());
    }
}
