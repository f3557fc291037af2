//! What a number was taken by, and whose it is.

use crate::words;

/// What a number was taken by. The discriminant is its id in links: never reused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Tool {
    /// A tape.
    Tape = 0,
    /// A caliper on clean metal.
    Caliper = 1,
    /// A caliper on rust or paint.
    CaliperOnRust = 2,
    /// A micrometer, or a bore gauge.
    Micrometer = 3,
    /// A drill's shank or a pin that just goes in.
    Pin = 4,
    /// A feeler gauge.
    Feeler = 5,
    /// A thread gauge.
    ThreadGauge = 6,
    /// Counted, or seen.
    Counted = 7,
    /// A number or grade that its maker put on it.
    Stamped = 8,
    /// Marking blue.
    MarkingBlue = 9,
    /// The one tried on the other.
    TriedOn = 10,
    /// These very two were together before.
    TogetherBefore = 11,
}

impl Tool {
    /// Every tool, by its id.
    pub const ALL: [Self; 12] = [
        Self::Tape,
        Self::Caliper,
        Self::CaliperOnRust,
        Self::Micrometer,
        Self::Pin,
        Self::Feeler,
        Self::ThreadGauge,
        Self::Counted,
        Self::Stamped,
        Self::MarkingBlue,
        Self::TriedOn,
        Self::TogetherBefore,
    ];

    words! {
        /// The name in files.
        pub key =
            Tape => "tape",
            Caliper => "caliper",
            CaliperOnRust => "caliper_on_rust",
            Micrometer => "micrometer",
            Pin => "pin",
            Feeler => "feeler",
            ThreadGauge => "thread_gauge",
            Counted => "counted",
            Stamped => "stamped",
            MarkingBlue => "marking_blue",
            TriedOn => "tried_on",
            TogetherBefore => "together_before";
    }

    words! {
        /// What people call it.
        pub label =
            Tape => "tape",
            Caliper => "caliper",
            CaliperOnRust => "caliper on rust or paint",
            Micrometer => "micrometer or bore gauge",
            Pin => "drill shank or pin",
            Feeler => "feeler gauge",
            ThreadGauge => "thread gauge",
            Counted => "counted or seen",
            Stamped => "stamped number",
            MarkingBlue => "marking blue",
            TriedOn => "tried on",
            TogetherBefore => "were together before";
    }

    /// Steps in a millimetre that its numbers are kept in, a tenth of what it tells or finer.
    pub(super) const fn steps_per_mm(self) -> f64 {
        if matches!(self, Self::Micrometer) { 1000.0 } else { 100.0 }
    }
}

/// Whose a number is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Whose {
    /// Taken by the person whose ledger it is.
    #[default]
    Own = 0,
    /// A guess.
    Guessed = 1,
    /// Someone else's: it came by link.
    Stranger = 2,
}

impl Whose {
    /// All of them, by their ids.
    pub const ALL: [Self; 3] = [Self::Own, Self::Guessed, Self::Stranger];

    /// The name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Own => "own",
            Self::Guessed => "guessed",
            Self::Stranger => "stranger",
        }
    }
}
