//! The usual swap: its parts, and the places where they meet. Names and kinds, no number.

use super::kind::Mating;
use super::kind::callouts::{circle, hole_pattern, press_fit, running_fit, taper_seat, thread, width};
use super::{PartId, Row, RowId};
use crate::line;

/// A row of the usual swap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UsualRow {
    /// The name in files and what people call it, a line each.
    words: &'static str,
    /// What sort of place it is.
    pub kind: Mating,
    /// Whether it steers, stops or carries a wheel: no work is ever offered there.
    pub vital: bool,
    /// The two parts that meet, by their places in [`PARTS`].
    pub parts: [u8; 2],
}

impl UsualRow {
    /// The name in files.
    #[must_use]
    pub fn key(&self) -> &'static str {
        line(self.words, 0)
    }

    /// What people call it.
    #[must_use]
    pub fn label(&self) -> &'static str {
        line(self.words, 1)
    }
}

macro_rules! parts {
    ($($at:literal $name:ident $key:literal $label:literal;)*) => {
        /// The parts of the usual swap, key and name. The place is the id in links: never reused.
        pub const PARTS: &[(&str, &str)] = &[$(($key, $label),)*];
        $(const $name: u8 = $at;)*
    };
}

parts! {
    0 UPPER_JOINT "upper_joint" "upper ball joint";
    1 LOWER_JOINT "lower_joint" "lower ball joint";
    2 UPPER_ARM "upper_arm" "upper arm";
    3 LOWER_ARM "lower_arm" "lower arm";
    4 KNUCKLE "knuckle" "knuckle";
    5 TIE_ROD "tie_rod" "tie-rod end";
    6 STEERING_ARM "steering_arm" "steering arm";
    7 TIE_SLEEVE "tie_sleeve" "tie-rod sleeve";
    8 BAR "bar" "bar";
    9 BRACKET "bracket" "bracket";
    10 ANCHOR "anchor" "anchor";
    11 ADJUSTER "adjuster" "adjuster bolt";
    12 STRUT_ROD "strut_rod" "strut rod";
    13 STRUT_BRACKET "strut_bracket" "strut-rod bracket";
    14 STRUT_BUSHING "strut_bushing" "strut-rod bushing";
    15 FRAME "frame" "frame";
    16 ARM_BUSHING "arm_bushing" "arm bushing";
    17 BUSHING_BOLT "bushing_bolt" "pivot bolt";
    18 UPPER_SHAFT "upper_shaft" "upper arm's shaft";
    19 SHOCK "shock" "shock";
    20 SHOCK_MOUNT "shock_mount" "shock mount";
    21 ANTI_ROLL_LINK "link" "anti-roll link";
    22 STOP "stop" "bump stop";
    23 HUB "hub" "hub";
    24 SPINDLE "spindle" "spindle";
    25 RACES "races" "bearing races";
    26 SEAL "seal" "hub seal";
    27 ROTOR "rotor" "rotor";
    28 CALIPER "caliper" "caliper";
    29 WHEEL "wheel" "wheel";
    30 HOSE "hose" "brake hose";
    31 LINES "lines" "brake line";
    32 MASTER "master_cylinder" "master cylinder";
    33 CRUSH_SLEEVE "crush_sleeve" "crush sleeve";
}

/// What lies together in one's hand, by the parts that rows name first.
const IN_HAND: &[&[u8]] = &[
    &[UPPER_JOINT, LOWER_JOINT, KNUCKLE],
    &[TIE_ROD],
    &[BRACKET, ANCHOR, ADJUSTER],
    &[LOWER_ARM, UPPER_ARM, ARM_BUSHING, BUSHING_BOLT, UPPER_SHAFT],
    &[STRUT_ROD, STRUT_BRACKET],
    &[SHOCK_MOUNT, ANTI_ROLL_LINK, STOP],
    &[HUB, RACES, SEAL, ROTOR, CALIPER, HOSE, MASTER],
    &[WHEEL],
];

impl Row {
    /// What people call the groups of what lies together in one's hand; added parts are in the last.
    pub const IN_HAND: [&str; 9] = [
        "Ball joints and knuckle",
        "Tie rod",
        "Bar, bracket, anchor",
        "Arms and bushings",
        "Strut rod",
        "Shock, link, stop",
        "Hub and brakes",
        "Wheel",
        "Others",
    ];

    /// In which of [`Row::IN_HAND`] its first part is.
    #[must_use]
    pub fn in_hand(&self) -> usize {
        let [PartId(first), _] = self.parts();
        IN_HAND.iter().position(|parts| parts.contains(&first)).unwrap_or(IN_HAND.len())
    }

    /// Whether the row asks for a number of its kind: what only says what it does to the sketch is asked where it does.
    #[must_use]
    pub fn asks(&self, callout: u8) -> bool {
        let only: &[RowId] = match (self.kind(), callout) {
            (TaperSeat, taper_seat::POINTS) => &[RowId::TIE_STUD],
            (HolePattern, hole_pattern::SQUARE | hole_pattern::TURNS) => &[RowId::BRACKET_ON_ARM],
            (HolePattern, hole_pattern::REACH | hole_pattern::REACH_OLD) => &[RowId::STRUT_ON_ARM],
            (RunningFit, running_fit::FACE | running_fit::FACE_OLD) => &[RowId::HUB_ON_SPINDLE],
            (Circle, circle::HAT | circle::HAT_OLD) => &[RowId::ROTOR_ON_HUB],
            (PressFit, press_fit::OFFSET | press_fit::LIES) => &[RowId::ARM_BUSHING],
            (Width, width::AHEAD | width::AHEAD_OLD) => &[RowId::LOWER_ARM_FORK, RowId::UPPER_ARM_ON_SHAFT],
            (Width, width::MOVES) => return self.moves().is_none(),
            // The usual ones go into a thread and clamp nothing.
            (Thread, thread::GRIP | thread::PLAIN) => return self.id().is_added(),
            _ => return true,
        };
        only.contains(&self.id())
    }

    /// Of two parts of which one is between the sides of the other, what it does there, where that is known whatever
    /// anybody says of it: the place among the words of [`width::MOVES`].
    #[must_use]
    pub fn moves(&self) -> Option<u8> {
        match self.id() {
            RowId::LOWER_ARM_FORK | RowId::UPPER_ARM_ON_SHAFT => Some(0),
            RowId::STOP_LANDS => Some(1),
            RowId::CALIPER_IN_RIM | RowId::LOCK_STOPS => Some(2),
            _ => None,
        }
    }
}

/// Rows of the usual swap of which something is known, by their place in [`ROWS`].
impl RowId {
    /// The upper ball joint's stud in the knuckle.
    pub const UPPER_STUD: Self = Self(4);
    /// The lower ball joint's.
    pub const LOWER_STUD: Self = Self(5);
    /// The tie rod's stud in the steering arm.
    pub const TIE_STUD: Self = Self(6);
    /// The bar in its bracket.
    pub const BAR_IN_BRACKET: Self = Self(8);
    /// The bracket on the arm.
    pub const BRACKET_ON_ARM: Self = Self(9);
    /// The strut rod on the arm.
    pub const STRUT_ON_ARM: Self = Self(14);
    /// The lower arm's bushing in the frame's eye.
    pub const ARM_BUSHING: Self = Self(18);
    /// The hub on the spindle.
    pub const HUB_ON_SPINDLE: Self = Self(24);
    /// The rotor on the hub.
    pub const ROTOR_ON_HUB: Self = Self(27);
    /// The caliper inside the rim.
    pub const CALIPER_IN_RIM: Self = Self(30);
    /// The lock stop and where it lands.
    pub const LOCK_STOPS: Self = Self(35);
    /// The lower arm's fork over its bushing.
    pub const LOWER_ARM_FORK: Self = Self(36);
    /// The upper arm on its shaft.
    pub const UPPER_ARM_ON_SHAFT: Self = Self(37);
    /// The bump stop where it lands.
    pub const STOP_LANDS: Self = Self(38);
}

impl PartId {
    /// Whether there is a left one and a right one of it that look alike: a bar is set to the way that it is wound, a
    /// caliper bleeds at its top, and an arm or a knuckle is the other's mirror. Common practice, no source.
    #[must_use]
    pub const fn is_handed(self) -> bool {
        matches!(self.0, UPPER_ARM | LOWER_ARM | KNUCKLE | STEERING_ARM | BAR | SPINDLE | CALIPER)
    }

    /// Whether both front corners share it: what is said of one of them passes through none of it.
    #[must_use]
    pub const fn is_shared(self) -> bool {
        matches!(self.0, FRAME | LINES | MASTER)
    }
}

const fn row(words: &'static str, kind: Mating, vital: bool, parts: [u8; 2]) -> UsualRow {
    UsualRow { words, kind, vital, parts }
}

use Mating::{
    BoltInHole, Circle, CrushSleeve, HolePattern, Hose, NewHole, PressFit, RotorInCaliper, RunningFit,
    Spline, TaperSeat, Thread, Width,
};

/// The rows of the usual swap. The place is the id in links: none is ever moved or taken out.
#[rustfmt::skip]
pub const ROWS: &[UsualRow] = &[
    row("upper_joint_bolted\nUpper ball joint bolted to its arm", HolePattern, true, [UPPER_JOINT, UPPER_ARM]),
    row("lower_joint_bolted\nLower ball joint bolted to its arm", HolePattern, true, [LOWER_JOINT, LOWER_ARM]),
    row("upper_joint_pressed\nUpper ball joint pressed into its arm", PressFit, true, [UPPER_JOINT, UPPER_ARM]),
    row("lower_joint_pressed\nLower ball joint pressed into its arm", PressFit, true, [LOWER_JOINT, LOWER_ARM]),
    row("upper_stud\nUpper ball-joint stud in the knuckle", TaperSeat, true, [UPPER_JOINT, KNUCKLE]),
    row("lower_stud\nLower ball-joint stud in the knuckle", TaperSeat, true, [LOWER_JOINT, KNUCKLE]),
    row("tie_stud\nTie-rod stud in the steering arm", TaperSeat, true, [TIE_ROD, STEERING_ARM]),
    row("tie_sleeve\nTie-rod end in its sleeve", Thread, true, [TIE_ROD, TIE_SLEEVE]),
    row("bar_in_bracket\nBar in its bracket", Spline, true, [BRACKET, BAR]),
    row("bracket_on_arm\nBracket on the arm", HolePattern, false, [BRACKET, LOWER_ARM]),
    row("bracket_new_hole\nNew hole in the arm for the bracket", NewHole, false, [LOWER_ARM, BRACKET]),
    row("bracket_sleeve\nSleeve in the arm for the bracket", CrushSleeve, false, [LOWER_ARM, CRUSH_SLEEVE]),
    row("bar_in_anchor\nBar in its anchor", Spline, true, [ANCHOR, BAR]),
    row("adjuster_bolt\nAdjuster bolt in its thread", Thread, false, [ADJUSTER, ANCHOR]),
    row("strut_on_arm\nStrut rod on the arm", HolePattern, false, [STRUT_ROD, LOWER_ARM]),
    row("strut_in_bracket\nStrut rod in its frame bracket", BoltInHole, false, [STRUT_ROD, STRUT_BRACKET]),
    row("strut_bracket_on_frame\nStrut-rod bracket on the frame", HolePattern, false, [STRUT_BRACKET, FRAME]),
    row("strut_bushing\nStrut-rod bushing in its bracket", Width, false, [STRUT_BRACKET, STRUT_BUSHING]),
    row("arm_bushing\nArm bushing in its eye", PressFit, false, [ARM_BUSHING, FRAME]),
    row("bushing_bolt\nBolt through the bushing's sleeve", BoltInHole, false, [BUSHING_BOLT, ARM_BUSHING]),
    row("upper_shaft\nUpper arm's shaft on the frame", HolePattern, false, [UPPER_SHAFT, FRAME]),
    row("shock\nShock in its mount", Width, false, [SHOCK_MOUNT, SHOCK]),
    row("link\nAnti-roll link in the arm", BoltInHole, false, [ANTI_ROLL_LINK, LOWER_ARM]),
    row("stop\nBump stop on its seat", BoltInHole, false, [STOP, FRAME]),
    row("hub_on_spindle\nHub on the spindle", RunningFit, true, [HUB, SPINDLE]),
    row("races_in_hub\nRaces in the hub", PressFit, true, [RACES, HUB]),
    row("seal_in_hub\nSeal in the hub", PressFit, true, [SEAL, HUB]),
    row("rotor_on_hub\nRotor on the hub", Circle, false, [ROTOR, HUB]),
    row("rotor_in_caliper\nRotor in its caliper", RotorInCaliper, true, [ROTOR, CALIPER]),
    row("caliper_on_knuckle\nCaliper on the knuckle's ears", HolePattern, true, [CALIPER, KNUCKLE]),
    row("caliper_in_rim\nCaliper inside the rim", Width, false, [WHEEL, CALIPER]),
    row("wheel_on_hub\nWheel on the hub", Circle, false, [WHEEL, HUB]),
    row("hose\nHose from line to caliper", Hose, true, [HOSE, LINES]),
    row("hose_end\nHose end in its thread", Thread, true, [HOSE, LINES]),
    row("master_cylinder\nMaster cylinder on its studs", HolePattern, true, [MASTER, FRAME]),
    row("lock_stops\nLock stop and where it lands", Width, false, [KNUCKLE, LOWER_ARM]),
    row("lower_arm_fork\nLower arm's fork over its bushing", Width, false, [LOWER_ARM, ARM_BUSHING]),
    row("upper_arm_on_shaft\nUpper arm on its shaft", Width, false, [UPPER_ARM, UPPER_SHAFT]),
    row("stop_lands\nBump stop where it lands", Width, false, [LOWER_ARM, STOP]),
];

#[cfg(test)]
mod tests {
    use super::super::{AddedRow, Ledger, LedgerEdit};
    use super::*;

    #[test]
    fn every_usual_row_lies_with_what_one_holds_and_an_added_part_with_the_others() {
        let in_hand = |key: &str| Ledger::EMPTY.row(RowId::of_usual(key).unwrap()).unwrap().in_hand();
        let called = |key: &str| Row::IN_HAND[in_hand(key)];
        assert_eq!(called("bracket_on_arm"), "Bar, bracket, anchor");
        assert_eq!(called("bushing_bolt"), "Arms and bushings");
        assert_eq!(called("caliper_in_rim"), "Wheel");
        let others = Row::IN_HAND.len() - 1;
        assert!(Ledger::EMPTY.rows().iter().all(|row| row.in_hand() < others));
        let parts = [PartId(PartId::FIRST_ADDED), PartId(FRAME)];
        let row = AddedRow { name: String::new(), kind: Width, parts, vital: true };
        let id = RowId(RowId::FIRST_ADDED);
        let ledger = Ledger::EMPTY.edited(&LedgerEdit::Row(id, row)).unwrap();
        assert_eq!(ledger.row(id).unwrap().in_hand(), others);
    }

    #[test]
    fn the_rows_that_are_known_by_their_place_are_there() {
        for (row, key) in [
            (RowId::UPPER_STUD, "upper_stud"),
            (RowId::LOWER_STUD, "lower_stud"),
            (RowId::TIE_STUD, "tie_stud"),
            (RowId::BAR_IN_BRACKET, "bar_in_bracket"),
            (RowId::BRACKET_ON_ARM, "bracket_on_arm"),
            (RowId::STRUT_ON_ARM, "strut_on_arm"),
            (RowId::ARM_BUSHING, "arm_bushing"),
            (RowId::HUB_ON_SPINDLE, "hub_on_spindle"),
            (RowId::ROTOR_ON_HUB, "rotor_on_hub"),
            (RowId::CALIPER_IN_RIM, "caliper_in_rim"),
            (RowId::LOCK_STOPS, "lock_stops"),
            (RowId::LOWER_ARM_FORK, "lower_arm_fork"),
            (RowId::UPPER_ARM_ON_SHAFT, "upper_arm_on_shaft"),
            (RowId::STOP_LANDS, "stop_lands"),
        ] {
            assert_eq!(RowId::of_usual(key), Some(row), "{key}");
        }
    }
}
