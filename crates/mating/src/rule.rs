//! What a rule is made of: what it compares, what it needs, and the work that would help.

use super::numbers::Numbers;
use truck::Tool;

/// What was compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aspect {
    /// One is a left part, the other a right one.
    Sides,
    /// Nothing is drilled or cut there.
    Vital,
    /// The one tried on the other.
    Tried,
    /// A bolt through its hole.
    GoesIn,
    /// A bolt through what it holds, where that is not the question.
    Through,
    /// How loose it is there.
    Loose,
    /// How round the hole is.
    Round,
    /// Between two holes.
    Spacing,
    /// Three holes and more, at their best.
    Placement,
    /// The new hole to the edge.
    Edge,
    /// The new hole to the old one, centre to centre.
    OldHole,
    /// The metal between new hole and old.
    ClearMetal,
    /// New hole and old run into each other.
    IntoOldHole,
    /// A bend or a weld.
    Flat,
    /// The sleeve against the arm's inside, too long.
    Long,
    /// The sleeve against the arm's inside, too short.
    Short,
    /// What the bolt's clamping does to the sleeve.
    Crush,
    /// Larger than its bore by.
    Interference,
    /// What the press does to the eye.
    Stretch,
    /// A slack or scored bore.
    Sound,
    /// Numbers stamped on the bearings or the seal.
    Stamped,
    /// Race to race against shoulder to shoulder.
    Races,
    /// The spindle where the seal runs.
    Journal,
    /// Races fully home.
    Home,
    /// Nut on its thread.
    Nut,
    /// The nut's pin.
    Pin,
    /// How fast the two tapers narrow.
    Taper,
    /// How the seat carries, by marking blue.
    Blue,
    /// How much of the seat the stud fills.
    Filled,
    /// A rock felt by hand.
    Rock,
    /// Number of teeth.
    Teeth,
    /// Over the splines, looser than it may be.
    SlackSplines,
    /// Over the splines, tighter than it may be.
    TightSplines,
    /// A blind tooth.
    BlindTooth,
    /// Length engaged.
    Engaged,
    /// Pitch of the thread.
    Pitch,
    /// Over the thread.
    OverThread,
    /// Threads past the nut.
    Showing,
    /// The bolt's plain shank in what it clamps.
    Grip,
    /// Holes and studs of the circle, how many.
    Count,
    /// Diameter of the circle.
    Circle,
    /// Pilot bore over the spigot.
    Pilot,
    /// Shape of the nut's seat.
    Seat,
    /// Rotor's plane within the slider's reach.
    Plane,
    /// Rotor between new pads.
    Pads,
    /// Rotor's edge to the caliper's bridge.
    Bridge,
    /// The one between the sides of the other.
    Between,
    /// The hose against its longest path.
    HoseLength,
    /// The hose's ends.
    Ends,
}

impl Aspect {
    /// Whether it is the one that a kind is known by.
    #[must_use]
    pub const fn is_main(self) -> bool {
        matches!(
            self,
            Self::GoesIn
                | Self::Spacing
                | Self::Placement
                | Self::Edge
                | Self::Long
                | Self::Interference
                | Self::Races
                | Self::Taper
                | Self::SlackSplines
                | Self::TightSplines
                | Self::OverThread
                | Self::Circle
                | Self::Plane
                | Self::Between
                | Self::HoseLength
        )
    }

    truck::words! {
        /// What people call it, to stand behind the numbers.
        pub label =
            Sides => "a left part and a right one",
            Vital => "no work where it steers, stops or carries a wheel",
            Tried => "tried on",
            GoesIn => "bolt in its hole",
            Through => "bolt in its hole",
            Loose => "looseness in the hole",
            Round => "hole, the two ways across",
            Spacing => "between the holes",
            Placement => "all holes at once",
            Edge => "new hole to the edge",
            OldHole => "new hole to the old one",
            ClearMetal => "metal to the old hole",
            IntoOldHole => "runs into the old hole",
            Flat => "in a bend or at a weld",
            Long => "sleeve longer than the arm inside",
            Short => "sleeve shorter than the arm inside",
            Crush => "stress in the sleeve",
            Interference => "over its bore",
            Stretch => "stress around the bore",
            Sound => "a slack or scored bore, which nothing mends",
            Stamped => "stamped numbers",
            Races => "race to race",
            Journal => "where the seal runs",
            Home => "races not fully home",
            Nut => "nut on its thread",
            Pin => "pin and slot",
            Taper => "narrowing of the tapers",
            Blue => "marking blue",
            Filled => "seat that the stud fills",
            Rock => "a rock felt by hand",
            Teeth => "teeth",
            SlackSplines => "over splines",
            TightSplines => "over splines",
            BlindTooth => "a blind tooth",
            Engaged => "length engaged",
            Pitch => "pitch of the thread",
            OverThread => "over the thread",
            Showing => "threads past the nut",
            Grip => "plain shank in what it clamps",
            Count => "holes and studs",
            Circle => "circle",
            Pilot => "pilot bore over the spigot",
            Seat => "seat of nut and wheel",
            Plane => "rotor's plane",
            Pads => "rotor between the pads",
            Bridge => "rotor to the bridge",
            Between => "inside and outside",
            HoseLength => "hose and its longest path",
            Ends => "ends of the hose";
    }
}

/// What a finding is measured in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Millimetres.
    Millimetres,
    /// N/mm².
    Stress,
    /// How many.
    Count,
    /// A taper, one in so many.
    OneIn,
    /// It is so or not.
    Fact,
}

/// What was compared, and how it came out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// What.
    pub aspect: Aspect,
    /// What it is measured in.
    pub scale: Scale,
    /// The first part's, where it is a number.
    pub first: Option<f64>,
    /// The second part's.
    pub second: Option<f64>,
    /// What is left of the allowance; below zero, what is missing. Of a fact ±1.
    pub room: f64,
    /// How much less room there may be, for the tools' sake (k = 2).
    pub down: f64,
    /// How much more.
    pub up: f64,
}

impl Finding {
    /// A fact that speaks against it.
    pub(super) const fn fact(aspect: Aspect) -> Self {
        Self { aspect, scale: Scale::Fact, first: None, second: None, room: -1.0, down: 0.0, up: 0.0 }
    }
}

/// Work that makes two parts mate, and what it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Work {
    /// The hole reamed out to.
    Ream {
        /// mm.
        to_mm: f64,
    },
    /// A sleeve in a hole that is loose or out of round.
    SleeveTheHole,
    /// One hole drilled anew beside the old one, which leaves so much metal between.
    DrillAnew {
        /// mm.
        metal_mm: f64,
    },
    /// The hole drilled, with least metal around it. It says nothing of strength.
    Drill {
        /// From its centre to the edge beyond what is least, mm.
        spare_mm: f64,
    },
    /// A crush sleeve where the part is hollow.
    Sleeve,
    /// The sleeve cut to this length, its ends square.
    CutTo {
        /// mm.
        length_mm: f64,
    },
    /// Pressed or drawn in on its outer shell.
    Press {
        /// Least and greatest force, N; `None` where the eye is no plain ring.
        force_n: Option<(f64, f64)>,
    },
    /// Cooled by 40 K first, it shrinks by.
    Cool {
        /// mm across.
        mm: f64,
    },
    /// Another bolt, or one of another length.
    AnotherBolt,
    /// A ring between spigot and bore.
    CentringRing {
        /// Its wall, mm.
        wall_mm: f64,
    },
    /// Shim washers, so thick together.
    ShimWashers {
        /// mm.
        mm: f64,
    },
}

/// How much a check can say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Proof {
    /// Yes and no.
    Measured,
    /// No alone: something else says yes.
    Refuses,
}

/// One thing that a rule compares.
#[derive(Clone, Copy, Debug)]
pub(super) struct Check {
    pub(super) finding: Finding,
    pub(super) proof: Proof,
    pub(super) work: Option<Work>,
    /// Another number that tells more, where no more than so much is missing, mm.
    pub(super) better: Option<(u8, f64)>,
}

/// What a kind asks, and what came of the numbers that are there.
#[derive(Clone, Debug)]
pub(super) struct Rule {
    pub(super) checks: Vec<Check>,
    /// The numbers that a yes takes.
    pub(super) needed: Vec<u8>,
    /// Sets of numbers each of which can say no.
    pub(super) refusals: Vec<Vec<u8>>,
    /// The number and tool that tell where the sizes there are cannot.
    pub(super) tells: Option<(u8, Tool)>,
    /// Where the two can be put together: the number that says so.
    pub(super) tried: Option<u8>,
    /// Work that it always takes.
    pub(super) work: Vec<Work>,
    /// Whether it is work and nothing else.
    pub(super) only_by_work: bool,
    tools: Numbers,
}

impl Rule {
    pub(super) fn new(numbers: &Numbers, needed: &[u8], refusals: &[&[u8]]) -> Self {
        Self {
            checks: Vec::new(),
            needed: needed.to_vec(),
            refusals: refusals.iter().map(|set| set.to_vec()).collect(),
            tells: None,
            tried: None,
            work: Vec::new(),
            only_by_work: false,
            tools: numbers.clone(),
        }
    }

    pub(super) fn tool_of(&self, callout: u8) -> Option<Tool> {
        self.tools.tool(callout)
    }

    /// Two lengths, mm, and the room that is left, mm.
    pub(super) fn length(&mut self, aspect: Aspect, first: f64, second: f64, room: f64) -> &mut Check {
        self.check(aspect, Scale::Millimetres, [Some(first), Some(second)], room)
    }

    /// Two lengths that may differ by so much, mm, either way: a check for each way, so that
    /// each of them goes evenly with the sizes.
    pub(super) fn within(
        &mut self,
        aspect: Aspect,
        [first, second]: [f64; 2],
        most: f64,
        work: Option<Work>,
    ) -> &mut [Check] {
        let before = self.checks.len();
        for difference in [first - second, second - first] {
            self.length(aspect, first, second, most - difference).work = work;
        }
        &mut self.checks[before..]
    }

    pub(super) fn check(
        &mut self,
        aspect: Aspect,
        scale: Scale,
        [first, second]: [Option<f64>; 2],
        room: f64,
    ) -> &mut Check {
        let finding = Finding { aspect, scale, first, second, room, down: 0.0, up: 0.0 };
        self.checks.push(Check { finding, proof: Proof::Measured, work: None, better: None });
        self.checks.last_mut().expect("one was just put there")
    }

    /// What is so or not: the second of two words speaks for it.
    pub(super) fn fact(&mut self, aspect: Aspect, callout: u8) {
        if let Some(choice) = self.tools.choice(callout) {
            self.holds(aspect, choice == 1);
        }
    }

    /// What is so or not.
    pub(super) fn holds(&mut self, aspect: Aspect, holds: bool) -> &mut Check {
        let room = if holds { 1.0 } else { -1.0 };
        self.check(aspect, Scale::Fact, [None, None], room)
    }

    /// Two counts that must be equal; they are kept as whole numbers.
    pub(super) fn equal(&mut self, aspect: Aspect, first: u8, second: u8) {
        if let Some([one, other]) = self.tools.all([first, second]) {
            // Not its negation: equal counts leave 0, not −0.
            let room = 0.0 - (one - other).abs();
            self.check(aspect, Scale::Count, [Some(one), Some(other)], room);
        }
    }
}
