//! The sorts of numbers in the ledger: what each may be taken by, and how far from the truth it may
//! be for that.

use super::tool::Tool;

/// The sort of a number: its unit, its limits, and the tools it may be taken by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CalloutSort {
    /// Over the outside of something, mm. Rust and paint make it read larger.
    Outside,
    /// Across the inside of something, mm. Rust and paint make it read smaller.
    Inside,
    /// From one thing to another, mm.
    Distance,
    /// Along a path that a tape follows, mm.
    Path,
    /// Pitch of a thread, mm.
    Pitch,
    /// How many.
    Count,
    /// A stress, N/mm².
    Stress,
    /// What is seen: one of a few, by its place in the list.
    Seen,
    /// What is stamped or printed on the parts.
    Stamped,
    /// What marking blue shows.
    Blue,
    /// What came of putting the two together.
    Tried,
}

impl CalloutSort {
    /// The tools that such a number may be taken by, the usual one first.
    #[must_use]
    pub const fn tools(self) -> &'static [Tool] {
        use Tool::{
            Caliper, CaliperOnRust, Counted, Feeler, MarkingBlue, Micrometer, Pin, Stamped, Tape,
            ThreadGauge, TogetherBefore, TriedOn,
        };
        match self {
            Self::Outside => &[Caliper, CaliperOnRust, Tape, Micrometer],
            Self::Inside => &[Caliper, CaliperOnRust, Tape, Micrometer, Pin, Feeler],
            Self::Distance => &[Caliper, CaliperOnRust, Tape, Micrometer, Feeler],
            Self::Path => &[Tape, Caliper, CaliperOnRust],
            Self::Pitch => &[ThreadGauge, Stamped],
            Self::Count => &[Counted, Stamped],
            Self::Stress | Self::Stamped => &[Stamped],
            Self::Seen => &[Counted],
            Self::Blue => &[MarkingBlue],
            Self::Tried => &[TriedOn, TogetherBefore],
        }
    }

    /// Least and greatest number, mm, N/mm² or how many; of one of a few, see [`Callout::limits`].
    pub(super) const fn limits(self) -> (f64, f64) {
        match self {
            Self::Outside | Self::Inside => (0.5, 1500.0),
            Self::Distance | Self::Path => (0.0, 3000.0),
            Self::Pitch => (0.3, 6.0),
            Self::Count => (1.0, 200.0),
            Self::Stress => (50.0, 2500.0),
            Self::Seen | Self::Stamped | Self::Blue | Self::Tried => (0.0, 0.0),
        }
    }

    /// Whether a tape, a caliper or the like gave it: a size with an error.
    #[must_use]
    pub const fn is_size(self) -> bool {
        matches!(self, Self::Outside | Self::Inside | Self::Distance | Self::Path)
    }
}

impl Tool {
    /// How far the truth may lie below and above what was read, each no more than, mm.
    ///
    /// Rust and paint lie on the metal: the outside of it reads larger than it is, the
    /// inside smaller, and a distance either way. Common practice, no source.
    #[must_use]
    pub const fn spread_mm(self, sort: CalloutSort) -> (f64, f64) {
        const CALIPER: f64 = 0.05;
        const RUST: f64 = 0.2;
        match self {
            Self::Tape => (1.6, 1.6),
            Self::Caliper | Self::Feeler => (CALIPER, CALIPER),
            Self::CaliperOnRust => match sort {
                CalloutSort::Outside => (RUST + CALIPER, CALIPER),
                CalloutSort::Inside => (CALIPER, RUST + CALIPER),
                _ => (RUST + CALIPER, RUST + CALIPER),
            },
            Self::Micrometer => (0.01, 0.01),
            Self::Pin => (0.1, 0.1),
            _ => (0.0, 0.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two tenths of rust on each reading besides the caliper's twentieth (common practice, no
    /// source), by hand: a stud on which it lies is thinner than it reads, a bore is wider, and
    /// of a length nobody knows.
    #[test]
    fn rust_makes_an_outside_smaller_and_an_inside_larger() {
        let near = |sort: CalloutSort, (low, high): (f64, f64)| {
            let found = Tool::CaliperOnRust.spread_mm(sort);
            assert!((found.0 - low).abs() < 1e-12 && (found.1 - high).abs() < 1e-12, "{sort:?}: {found:?}");
            let clean = Tool::Caliper.spread_mm(sort);
            assert!(clean.0 <= found.0 && clean.1 <= found.1, "{sort:?}: no better on rust");
        };
        near(CalloutSort::Outside, (0.25, 0.05));
        near(CalloutSort::Inside, (0.05, 0.25));
        near(CalloutSort::Distance, (0.25, 0.25));
        assert_eq!(Tool::Caliper.spread_mm(CalloutSort::Outside), (0.05, 0.05));
        // A sixteenth of an inch either way.
        assert_eq!(Tool::Tape.spread_mm(CalloutSort::Distance), (1.6, 1.6));
    }
}
