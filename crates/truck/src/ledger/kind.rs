//! The kinds of places where two parts meet, and the numbers that each is judged by:
//! forms, links, files and rules all read this table. No number has a default.

use super::sort::CalloutSort;
use crate::{columns, line, words};

/// Which of the two parts a number is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// The first part that a row names.
    First,
    /// The second.
    Second,
    /// Of both together.
    Both,
}

/// One number that a kind calls for, as a shop drawing calls out a size, a thread, how many holes,
/// or what is to be tried: of which part, by what sort of tool, within which limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Callout {
    /// Whose it is.
    pub of: Of,
    /// What sort of number it is.
    pub sort: CalloutSort,
    /// Of one of a few, how many there are; 0 of a number.
    pub choices: u8,
}

impl Callout {
    /// Least and greatest number, mm, N/mm² or how many; of one of a few, places in its list.
    #[must_use]
    pub fn limits(&self) -> (f64, f64) {
        if self.choices > 0 { (0.0, f64::from(self.choices - 1)) } else { self.sort.limits() }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a few words")]
const fn count(words: &[&str]) -> u8 {
    words.len() as u8
}

macro_rules! matings {
    ($($id:literal $kind:ident $module:ident $key:literal $label:literal {
        $($at:literal $name:ident $of:ident $sort:ident $fkey:literal $flabel:literal [$($word:literal),*];)*
    })*) => {
        /// A kind of place where two parts meet. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Mating {
            $(#[doc = $label] $kind = $id,)*
        }

        impl Mating {
            /// Every kind.
            pub const ALL: &'static [Self] = &[$(Self::$kind,)*];

            words! {
                /// The name in files.
                pub key = $($kind => $key),*;

                /// What people call it.
                pub label = $($kind => $label),*;
            }

            /// Its numbers. The place in the list is the number's id in links: none is ever
            /// moved or taken out.
            #[must_use]
            #[inline(never)]
            pub const fn callouts(self) -> &'static [Callout] {
                match self {
                    $(Self::$kind => const {
                        &[$(Callout {
                            of: Of::$of,
                            sort: CalloutSort::$sort,
                            choices: count(&[$($word),*]),
                        },)*]
                    },)*
                }
            }

            columns! {
                /// What its numbers are called in files, a line each, in their order.
                callout_keys: &'static str = $($kind => concat!($($fkey, "\n"),*)),*;

                /// What the forms call them.
                callout_labels: &'static str = $($kind => concat!($($flabel, "\n"),*)),*;
            }

            /// The words of a number that is one of a few, a line each; none of another.
            const fn lines(self, callout: u8) -> &'static str {
                match (self, callout) {
                    $($((Self::$kind, $at) => concat!($($word, "\n"),*),)*)*
                    _ => "",
                }
            }
        }

        /// The places of the numbers in their lists, by name, a module for each kind.
        pub mod callouts {
            $(#[doc = $label]
            pub mod $module {
                $(#[doc = $flabel] pub const $name: u8 = $at;)*
            })*
        }
    };
}

// Of two words the first speaks against the two going together and the second for it,
// but where they ask what is there.
matings! {
    0 BoltInHole bolt_in_hole "bolt_in_hole" "Bolt in a hole" {
        0 SHANK First Outside "shank" "Bolt, across its shank" [];
        1 HOLE Second Inside "hole" "Hole, across" [];
        2 HOLE_SQUARE Second Inside "hole_square" "Hole, across it the other way" [];
        3 TRIED Both Tried "tried" "Put together" ["does not go in", "goes in by hand"];
    }
    1 HolePattern hole_pattern "hole_pattern" "Hole pattern" {
        0 FIRST_OVER_12 First Outside "first_over_12" "Over both holes, 1 and 2" [];
        1 FIRST_OVER_13 First Outside "first_over_13" "Over both holes, 1 and 3" [];
        2 FIRST_OVER_23 First Outside "first_over_23" "Over both holes, 2 and 3" [];
        3 FIRST_OVER_14 First Outside "first_over_14" "Over both holes, 1 and 4" [];
        4 FIRST_OVER_24 First Outside "first_over_24" "Over both holes, 2 and 4" [];
        5 FIRST_OVER_34 First Outside "first_over_34" "Over both holes, 3 and 4" [];
        6 FIRST_HOLE_1 First Inside "first_hole_1" "Hole or stud 1, across" [];
        7 FIRST_HOLE_2 First Inside "first_hole_2" "Hole or stud 2, across" [];
        8 FIRST_HOLE_3 First Inside "first_hole_3" "Hole or stud 3, across" [];
        9 FIRST_HOLE_4 First Inside "first_hole_4" "Hole or stud 4, across" [];
        10 SECOND_OVER_12 Second Outside "second_over_12" "Over both holes, 1 and 2" [];
        11 SECOND_OVER_13 Second Outside "second_over_13" "Over both holes, 1 and 3" [];
        12 SECOND_OVER_23 Second Outside "second_over_23" "Over both holes, 2 and 3" [];
        13 SECOND_OVER_14 Second Outside "second_over_14" "Over both holes, 1 and 4" [];
        14 SECOND_OVER_24 Second Outside "second_over_24" "Over both holes, 2 and 4" [];
        15 SECOND_OVER_34 Second Outside "second_over_34" "Over both holes, 3 and 4" [];
        16 SECOND_HOLE_1 Second Inside "second_hole_1" "Hole or stud 1, across" [];
        17 SECOND_HOLE_2 Second Inside "second_hole_2" "Hole or stud 2, across" [];
        18 SECOND_HOLE_3 Second Inside "second_hole_3" "Hole or stud 3, across" [];
        19 SECOND_HOLE_4 Second Inside "second_hole_4" "Hole or stud 4, across" [];
        20 HELD Both Seen "held" "Held by" ["bolts through both", "studs, threads or pressed bolts in the first",
            "studs, threads or pressed bolts in the second"];
        21 BOLT Both Outside "bolt" "Bolt, across its shank" [];
        22 COUNT Both Count "count" "Bolts in the pattern, 2 to 4" [];
        23 TRIED Both Tried "tried" "Put together" ["does not go on", "goes on by hand"];
        24 SQUARE Both Distance "square" "For the sketch: hole 2 off square to the line of holes" [];
        25 TURNS Both Seen "turns" "For the sketch: so it turns on the arm" ["as the arm goes in droop",
            "as the arm goes in bump"];
        26 REACH First Path "reach" "For the sketch: hole 1 to its shoulder" [];
        27 REACH_OLD Both Path "reach_old" "For the sketch: the same of the old one" [];
    }
    2 NewHole new_hole "new_hole" "New hole" {
        0 BOLT First Outside "bolt" "Bolt, across its shank" [];
        1 HOLE First Inside "hole" "The new hole, across" [];
        2 EDGE First Distance "edge" "Its center to the nearest edge" [];
        3 OLD First Distance "old" "Its center to the center of the nearest old hole" [];
        4 OLD_ACROSS First Inside "old_across" "That old hole, or its tube outside where the tube stays" [];
        5 PLACE First Seen "place" "Where it is" ["in a bend or at a weld", "on the flat, clear of bends and welds"];
        6 THROUGH First Seen "through" "What the bolt goes through" ["a hollow arm", "one plate, or solid metal"];
    }
    3 CrushSleeve crush_sleeve "crush_sleeve" "Crush sleeve" {
        0 WIDTH First Inside "width" "Arm, width inside" [];
        1 LENGTH Second Outside "length" "Sleeve, length" [];
        2 OUTSIDE Second Outside "outside" "Sleeve, across the outside" [];
        3 BORE Second Inside "bore" "Sleeve, across the inside" [];
        4 YIELD Second Stress "yield" "Yield strength of its steel, by its maker" [];
        5 BOLT Both Outside "bolt" "Bolt, across its shank" [];
        6 GRADE Both Stamped "grade" "Grade on the bolt's head" ["4.6", "5.8", "8.8 or grade 5", "10.9 or grade 8",
            "12.9"];
    }
    4 PressFit press_fit "press_fit" "Press fit" {
        0 OUTSIDE First Outside "outside" "What is pressed in, across" [];
        1 BORE Second Inside "bore" "Bore, across" [];
        2 WALL Second Distance "wall" "Wall around the bore" [];
        3 LENGTH Both Distance "length" "Length in the bore" [];
        4 EYE Second Seen "eye" "The eye" ["stamped, or of another shape", "a plain ring all round"];
        5 STATE Second Seen "state" "The bore" ["slack, scored or out of round", "sound"];
        6 YIELD Second Stress "yield" "Yield strength of the eye's steel" [];
        7 OFFSET First Distance "offset" "For the sketch: middle of its hole from the middle of its outside" [];
        8 LIES First Seen "lies" "For the sketch: put in, its hole lies" ["farther in", "farther out", "lower", "higher"];
    }
    5 RunningFit running_fit "running_fit" "Bearings on a spindle" {
        0 INNER Both Stamped "inner" "Inner bearing's number, this and that" ["another number", "the same number"];
        1 OUTER Both Stamped "outer" "Outer bearing's number, this and that" ["another number", "the same number"];
        2 RACES First Distance "races" "Hub, race to race" [];
        3 SHOULDERS Second Distance "shoulders" "Spindle, shoulder to shoulder" [];
        4 HOME First Seen "home" "Races in the hub" ["not fully home", "fully home"];
        5 SEAL Both Stamped "seal" "Seal's number, this and that" ["another number", "the same number"];
        6 NUT Second Tried "nut" "Hub nut on its thread" ["binds or is slack", "runs true by hand"];
        7 PIN Second Seen "pin" "Pin hole and the nut's slots" ["do not meet", "meet"];
        8 FACE First Distance "face" "For the sketch: inner race to the wheel's face" [];
        9 FACE_OLD Both Distance "face_old" "For the sketch: the same of the old one" [];
        10 THREAD Both Stamped "thread" "Thread of the hub nut and the spindle" ["another", "the same"];
        11 JOURNAL Second Outside "journal" "Spindle, across where the seal runs" [];
        12 JOURNAL_OLD Both Outside "journal_old" "The old spindle, across where the seal runs" [];
    }
    6 TaperSeat taper_seat "taper_seat" "Taper seat" {
        0 STUD_LARGE First Outside "stud_large" "Stud, across at its large end" [];
        1 STUD_ALONG First Distance "stud_along" "Stud, from there along, 10 to 12 mm" [];
        2 STUD_SMALL First Outside "stud_small" "Stud, across at that place" [];
        3 SEAT_LARGE Second Inside "seat_large" "Seat, across at its large end" [];
        4 SEAT_ALONG Second Distance "seat_along" "Seat, from there along" [];
        5 SEAT_SMALL Second Inside "seat_small" "Seat, across at that place" [];
        6 BLUE Both Blue "blue" "Marking blue" ["less than three quarters of the seat, or one side",
            "all round, over three quarters of the seat"];
        7 ROCK Both Tried "rock" "Pushed home by hand" ["rocks", "does not rock"];
        8 NUT Both Seen "nut" "Nut" ["runs out of thread, or bottoms", "on its full thread"];
        9 PIN Both Seen "pin" "Pin" ["no slot at the hole, or the nut was backed off", "in a slot, the nut not backed off"];
        10 POINTS First Seen "points" "For the sketch: its stud points" ["down", "up"];
        11 SEAT_LENGTH Second Distance "seat_length" "Seat, from end to end" [];
    }
    7 Spline spline "spline" "Splines" {
        0 TEETH Second Count "teeth" "Teeth of the bar" [];
        1 TEETH_SOCKET First Count "teeth_socket" "Teeth of the socket" [];
        2 OVER Second Outside "over" "Bar, across over its teeth" [];
        3 VALLEYS First Inside "valleys" "Socket, across between its valleys" [];
        4 OLD_BAR First Outside "old_bar" "The bar that came out of this socket, over its teeth" [];
        5 BLIND Second Seen "blind" "Bar, blind tooth" ["one", "none"];
        6 BLIND_SOCKET First Seen "blind_socket" "Socket, blind tooth" ["one", "none"];
        7 ENGAGED Both Seen "engaged" "Length engaged" ["less than before", "as much as before"];
        8 ROCK Both Tried "rock" "Pushed home by hand" ["rocks", "does not rock"];
        9 TRIED Both Tried "tried" "Put together" ["does not go on", "goes on"];
    }
    8 Thread thread "thread" "Thread and stack" {
        0 PITCH First Pitch "pitch" "Bolt, pitch of its thread" [];
        1 PITCH_NUT Second Pitch "pitch_nut" "Nut, pitch of its thread" [];
        2 OVER First Outside "over" "Bolt, across over its thread" [];
        3 OVER_OLD Second Outside "over_old" "The bolt that belongs in that nut, over its thread" [];
        4 ENGAGED Both Distance "engaged" "Thread engaged in the nut" [];
        5 SHOWING Both Count "showing" "Threads past the nut" [];
        6 NUT Second Seen "nut" "Nut" ["softer, or nobody knows", "steel, of the bolt's grade"];
        7 TRIED Both Tried "tried" "Put together" ["does not go on", "goes on"];
        8 GRIP Both Distance "grip" "What it clamps, all of it together" [];
        9 PLAIN First Distance "plain" "Bolt, from its head to its thread" [];
    }
    9 Circle circle "circle" "Register and circle" {
        0 BORE First Inside "bore" "Wheel or rotor, pilot bore" [];
        1 SPIGOT Second Outside "spigot" "Hub, across its spigot" [];
        2 HOLES First Count "holes" "Holes in the circle" [];
        3 STUDS Second Count "studs" "Studs in the circle" [];
        4 ADJACENT First Distance "adjacent" "Center of a hole to the next" [];
        5 ADJACENT_STUDS Second Distance "adjacent_studs" "Center of a stud to the next" [];
        6 HOLE First Inside "hole" "A hole, across" [];
        7 STUD Second Outside "stud" "A stud, across" [];
        8 SEAT Both Seen "seat" "Seat of nut and wheel" ["another shape", "the same shape"];
        9 THREAD Both Stamped "thread" "Thread of stud and nut" ["another", "the same"];
        10 CENTRED Both Seen "centered" "Centered by" ["the pilot", "the nuts"];
        11 HAT First Outside "hat" "For the sketch: its hat, thickness" [];
        12 HAT_OLD Both Outside "hat_old" "For the sketch: the same of the old one" [];
    }
    10 RotorInCaliper rotor_in_caliper "rotor_in_caliper" "Rotor in its caliper" {
        0 PLANE First Distance "plane" "Rotor's middle plane, from the knuckle's ears" [];
        1 THICKNESS First Outside "thickness" "Rotor, thickness" [];
        2 REACH_LEAST Second Distance "reach_least" "Slider's nearest middle, from the ears" [];
        3 REACH_MOST Second Distance "reach_most" "Slider's farthest middle, from the ears" [];
        4 OPENING Second Inside "opening" "Between new pads, pistons home" [];
        5 BRIDGE Both Distance "bridge" "Rotor's edge to the caliper's bridge" [];
    }
    11 Width width "width" "Width between two sides" {
        0 INSIDE First Inside "inside" "Width inside" [];
        1 OUTSIDE Second Outside "outside" "Width outside" [];
        2 MOVES Both Seen "moves" "What it does there" ["is clamped between", "stands clear", "swings or turns"];
        3 AHEAD First Path "ahead" "For the sketch: from a mark on the frame behind it, forward to its bushing" [];
        4 AHEAD_OLD Both Path "ahead_old" "For the sketch: the same of the old one" [];
        5 TRIED Both Tried "tried" "Put together" ["does not go in", "goes in by hand"];
    }
    12 Hose hose "hose" "Hose" {
        0 FREE First Path "free" "Hose, free length" [];
        1 PATH_DROOP Second Path "path_droop" "Its path, wheel hanging" [];
        2 PATH_LOCK Second Path "path_lock" "Its path, wheel hanging at the worse lock" [];
        3 ENDS Both Seen "ends" "Its ends" ["another end or thread", "right at both ends"];
    }
}

impl Mating {
    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// The kind with an id.
    #[must_use]
    pub fn from_id(id: u8) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.id() == id)
    }

    /// One of its numbers.
    #[must_use]
    pub fn callout(self, callout: u8) -> Option<&'static Callout> {
        self.callouts().get(usize::from(callout))
    }

    /// Between what one of its sizes lies as a rule, mm: one beyond was typed in the wrong unit, or slipped by a place.
    /// Generous, so that it is asked about and never refused. Common practice, no source.
    #[must_use]
    pub fn rule_mm(self, callout: u8) -> Option<(f64, f64)> {
        use callouts::{
            circle, crush_sleeve, hole_pattern, new_hole, press_fit, rotor_in_caliper, thread, width,
        };
        self.callout(callout).filter(|callout| callout.sort.is_size())?;
        Some(match (self, callout) {
            (Self::HolePattern, ..=hole_pattern::FIRST_OVER_34)
            | (Self::HolePattern, hole_pattern::SECOND_OVER_12..=hole_pattern::SECOND_OVER_34) => {
                (15.0, 700.0)
            }
            (Self::HolePattern, hole_pattern::SQUARE) => (0.0, 40.0),
            (Self::HolePattern, hole_pattern::REACH | hole_pattern::REACH_OLD) => (80.0, 1500.0),
            (Self::BoltInHole | Self::HolePattern, _)
            | (Self::RotorInCaliper, rotor_in_caliper::THICKNESS)
            | (Self::Thread, thread::OVER | thread::OVER_OLD)
            | (Self::Circle, circle::HOLE | circle::STUD) => (4.0, 60.0),
            (Self::NewHole, new_hole::EDGE | new_hole::OLD) => (2.0, 400.0),
            (Self::CrushSleeve, crush_sleeve::WIDTH | crush_sleeve::LENGTH) => (10.0, 250.0),
            (Self::PressFit, press_fit::WALL | press_fit::LENGTH)
            | (Self::Thread, thread::GRIP | thread::PLAIN) => (0.0, 200.0),
            (Self::PressFit, press_fit::OFFSET) => (0.0, 15.0),
            (Self::RotorInCaliper, rotor_in_caliper::OPENING) | (Self::NewHole | Self::CrushSleeve, _) => {
                (4.0, 120.0)
            }
            (Self::TaperSeat, _) => (3.0, 60.0),
            (Self::Spline, _) => (10.0, 100.0),
            (Self::PressFit, _) => (10.0, 160.0),
            (Self::Thread, _) | (Self::Circle, circle::HAT | circle::HAT_OLD) => (1.0, 150.0),
            (Self::Circle, _) => (20.0, 260.0),
            (Self::RunningFit | Self::RotorInCaliper, _) => (0.0, 300.0),
            (Self::Width, width::AHEAD | width::AHEAD_OLD) => (0.0, 900.0),
            (Self::Width, _) => (2.0, 900.0),
            (Self::Hose, _) => (80.0, 2500.0),
        })
    }

    /// What one of its numbers is called in files.
    #[must_use]
    pub fn callout_key(self, callout: u8) -> &'static str {
        line(self.callout_keys(), callout)
    }

    /// What the forms call one of its numbers.
    #[must_use]
    pub fn callout_label(self, callout: u8) -> &'static str {
        line(self.callout_labels(), callout)
    }

    /// The words of a number that is one of a few; none of another.
    #[must_use]
    pub fn words(self, callout: u8) -> Vec<&'static str> {
        self.lines(callout).lines().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A rotor of 22 mm typed as 22 in is 558.8 mm thick, and a bar of 1.156 in typed as 1.156 mm is a wire; a bolt of 12 mm
    /// typed in inches is 304.8 mm. Of what is counted or seen there is no size.
    #[test]
    fn a_size_in_the_wrong_unit_lies_beyond_the_rule() {
        use callouts::{hole_pattern, rotor_in_caliper, spline};
        for (kind, callout, mm, inches) in [
            (Mating::RotorInCaliper, rotor_in_caliper::THICKNESS, 22.0, 0.866),
            (Mating::Spline, spline::OVER, 29.37, 1.156),
            (Mating::HolePattern, hole_pattern::BOLT, 12.0, 0.472),
            (Mating::HolePattern, hole_pattern::SECOND_OVER_12, 92.0, 3.622),
            (Mating::HolePattern, hole_pattern::FIRST_HOLE_1, 13.0, 0.512),
        ] {
            let (least, most) = kind.rule_mm(callout).unwrap();
            assert!(least <= mm && mm <= most, "{kind:?} {callout}");
            assert!(25.4 * mm > most && inches < least, "{kind:?} {callout}");
        }
        assert_eq!(Mating::Spline.rule_mm(spline::TEETH), None);
        assert_eq!(Mating::Spline.rule_mm(99), None);
        for kind in Mating::ALL {
            for (at, callout) in (0_u8..).zip(kind.callouts()) {
                let rule = kind.rule_mm(at);
                assert_eq!(rule.is_some(), callout.sort.is_size());
                let inside = |(least, most): (f64, f64)| least < most && most <= callout.limits().1;
                assert!(rule.is_none_or(inside), "{kind:?} {at}: {rule:?}");
            }
        }
    }

    #[test]
    fn ids_keys_and_words_are_in_order() {
        for (place, kind) in Mating::ALL.iter().enumerate() {
            assert_eq!(usize::from(kind.id()), place);
            assert_eq!(Mating::from_id(kind.id()), Some(*kind));
            for (at, callout) in (0_u8..).zip(kind.callouts()) {
                let key = kind.callout_key(at);
                assert!(!key.is_empty() && !kind.callout_label(at).is_empty());
                assert!((0..at).all(|other| kind.callout_key(other) != key), "{kind:?}");
                let words = kind.words(at);
                assert_eq!(words.len(), usize::from(callout.choices), "{kind:?} {key}");
                assert_eq!(words.is_empty(), callout.sort.limits().1 > 0.0, "{kind:?} {key}");
            }
            assert_eq!(kind.callout_labels().lines().count(), kind.callouts().len());
        }
        assert_eq!(Mating::Hose.callout_key(callouts::hose::ENDS), "ends");
        assert_eq!(Mating::Spline.callout_key(callouts::spline::OLD_BAR), "old_bar");
    }
}
