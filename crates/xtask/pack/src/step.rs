//! The steps to a file: where a byte stands for itself, and where bytes come again.
//!
//! They are those of `.lzma` files (LZMA specification, 2015). Which are taken [`crate::cheapest`] finds, how they are
//! sent [`crate::told`] says.

/// One step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Step {
    /// A byte.
    Byte,
    /// So many bytes from so far back, less one.
    Far { distance: usize, length: usize },
    /// So many from as far back as the last time, or before that.
    Again { which: usize, length: usize },
    /// One byte from as far back as the last time.
    One,
}

/// What the next step is told by: of twelve states the one that the last steps were, and their last four distances
/// less one, the last first.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Past {
    pub(crate) state: usize,
    pub(crate) last: [usize; 4],
}

impl Step {
    /// How many bytes it gives.
    pub(crate) fn length(self) -> usize {
        match self {
            Self::Byte | Self::One => 1,
            Self::Far { length, .. } | Self::Again { length, .. } => length,
        }
    }
}

impl Past {
    /// What it is after a step; the states are those of the specification.
    pub(crate) fn after(self, step: Step) -> Self {
        let Self { state, mut last } = self;
        let was_byte = state < 7;
        match step {
            Step::Far { distance, .. } => {
                last.rotate_right(1);
                last[0] = distance;
            }
            Step::Again { which, .. } => last[..=which].rotate_right(1),
            Step::Byte | Step::One => {}
        }
        let state = match step {
            Step::Byte if state < 4 => 0,
            Step::Byte if state < 10 => state - 3,
            Step::Byte => state - 6,
            Step::Far { .. } if was_byte => 7,
            Step::Far { .. } => 10,
            Step::Again { .. } if was_byte => 8,
            Step::One if was_byte => 9,
            Step::Again { .. } | Step::One => 11,
        };
        Self { state, last }
    }
}
