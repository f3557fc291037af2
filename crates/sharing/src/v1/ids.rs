//! Ids of version 1 that stand for no number: never reused.

use truck::{Arm, Source, SpringKind};

pub(super) mod section {
    pub(in crate::v1) const TITLE: u8 = 0;
    pub(in crate::v1) const NOTE: u8 = 1;
    pub(in crate::v1) const NUMBERS: u8 = 2;
    pub(in crate::v1) const SOURCES: u8 = 3;
    pub(in crate::v1) const SPRING: u8 = 4;
    pub(in crate::v1) const PROPOSALS: u8 = 5;
    pub(in crate::v1) const OPENING: u8 = 6;
    /// Which numbers are stated by default.
    pub(in crate::v1) const BASE: u8 = 7;
    /// Numbers of the right side that differ.
    pub(in crate::v1) const RIGHT: u8 = 8;
    /// What was read off the truck as it sits.
    pub(in crate::v1) const READINGS: u8 = 9;
    /// What meets what.
    pub(in crate::v1) const LEDGER: u8 = 10;
    /// The rear axle on its springs.
    pub(in crate::v1) const REAR: u8 = 11;
    /// What was read off the truck as it was built.
    pub(in crate::v1) const BUILT: u8 = 12;
    /// The same, once it had settled.
    pub(in crate::v1) const SETTLED: u8 = 13;
    /// By which rule guesses follow what is known.
    pub(in crate::v1) const GUESSES: u8 = 14;
}

pub(super) mod spring {
    pub(in crate::v1) const KIND: u8 = 0;
    pub(in crate::v1) const ARM: u8 = 1;
    /// Alone says it: somebody named the kind, on a truck of which what nobody said is a guess.
    pub(in crate::v1) const NAMED: u8 = 2;
}

pub(super) mod proposal {
    use truck::Side;

    /// Lists of changes, each with the side that it is of alone.
    pub(in crate::v1) const SIDES: [(u8, Option<Side>); 3] =
        [(CHANGES, None), (LEFT, Some(Side::Left)), (RIGHT, Some(Side::Right))];
    /// Written where it is not the place in the list.
    pub(in crate::v1) const ID: u8 = 0;
    pub(in crate::v1) const NAME: u8 = 1;
    pub(in crate::v1) const CHANGES: u8 = 2;
    /// Changes of the left side alone, and of the right side alone.
    const LEFT: u8 = 3;
    const RIGHT: u8 = 4;
    /// How far the rear comes down, where that is stated.
    pub(in crate::v1) const REAR_DOWN: u8 = 5;
    /// Numbers of its changes that are not typed from a part.
    pub(in crate::v1) const SOURCES: u8 = 6;
}

pub(super) mod ledger {
    pub(in crate::v1) const PARTS: u8 = 0;
    pub(in crate::v1) const ROWS: u8 = 1;
    /// Of a part.
    pub(in crate::v1) const NAME: u8 = 0;
    pub(in crate::v1) const DONOR: u8 = 1;
    pub(in crate::v1) const BOUGHT: u8 = 2;
    pub(in crate::v1) const SIDE: u8 = 3;
}

pub(super) mod opening {
    pub(in crate::v1) const PROPOSAL: u8 = 0;
    pub(in crate::v1) const TRAVEL: u8 = 1;
    pub(in crate::v1) const STEER: u8 = 2;
    pub(in crate::v1) const UNITS: u8 = 3;
    pub(in crate::v1) const LESSON: u8 = 4;
}

/// The rules by which guesses follow what is known: that of `truck::guesses`.
pub(super) const GUESS_RULES: [(); 1] = [()];
pub(super) const SOURCES: [Source; 3] = [Source::Measured, Source::Typed, Source::Assumed];
pub(super) const SPRING_KINDS: [SpringKind; 3] =
    [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];
pub(super) const ARMS: [Arm; 2] = [Arm::Lower, Arm::Upper];

/// The code of one of a list: its place.
pub(super) fn code<T: PartialEq>(list: &[T], value: &T) -> u32 {
    let place = list.iter().position(|other| other == value);
    u32::try_from(place.expect("every variant is in its list")).expect("lists are short")
}
