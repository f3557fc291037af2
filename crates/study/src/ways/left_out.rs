//! Why combinations are left out, and the nearest misses.

use crate::clearance::Pair;
use crate::travel_left::Limiter;
use truck::Change;

/// Why a combination was left out: the first limit that it breaks, the cheap ones asked first. Reasons are told
/// in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(usize)]
pub enum LeftOut {
    /// The parts do not fit each other, or it does not stand on its spring.
    NoStance,
    /// Another height.
    Height,
    /// The spring goes loose at full droop.
    Loose,
    /// The bolt or a pack of shims ends before.
    Adjuster,
    /// Too little travel to the bump stop's first touch.
    Stop,
    /// Softer or stiffer than wanted.
    Frequency,
    /// Something hangs below the scrub line that did not before.
    FlatTire,
    /// Camber does not come back with the shims there are.
    Shims,
    /// Something ends the bump too early.
    Bump,
    /// Two things come too near.
    Room,
    /// With one part less it is a way too, and no worse in anything that counts.
    Spare,
    /// Set up, it comes to a proposal that is there already.
    Same,
    /// It is within the limits, and so are enough that give up less.
    Dearer,
}

impl LeftOut {
    /// Every reason.
    pub const ALL: [Self; 13] = [
        Self::NoStance,
        Self::Height,
        Self::Loose,
        Self::Adjuster,
        Self::Stop,
        Self::Frequency,
        Self::FlatTire,
        Self::Shims,
        Self::Bump,
        Self::Room,
        Self::Spare,
        Self::Same,
        Self::Dearer,
    ];

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::NoStance => "do not stand on their spring",
            Self::Height => "stand at another height",
            Self::Loose => "go loose at full droop",
            Self::Adjuster => "ask for more than bolt or shims give",
            Self::Stop => "are too near to the bump stop",
            Self::Frequency => "are too soft or too stiff",
            Self::FlatTire => "hang below the scrub line",
            Self::Shims => "cannot be shimmed back to the camber as it sits",
            Self::Bump => "meet something before that travel",
            Self::Room => "come too near to something",
            Self::Spare => "are as good with a part less",
            Self::Same => "come to the same as another",
            Self::Dearer => "are within the limits but give up more than those kept",
        }
    }
}

/// A combination that was left out, and by how much.
#[derive(Clone, Debug, PartialEq)]
pub struct Miss {
    /// Its index among all combinations.
    pub index: usize,
    /// The proposal, as far as it was set up.
    pub changes: Vec<Change>,
    /// Lower than as measured, mm.
    pub drop_mm: f64,
    /// Why it was left out.
    pub why: LeftOut,
    /// How much it is short of the limit, > 0: mm, of [`LeftOut::Frequency`] Hz, of
    /// [`LeftOut::Shims`] the camber that is left, rad. Infinite where nothing measures it.
    pub short: f64,
    /// What comes too near, or ends the bump.
    pub by: Option<Limiter>,
    /// Of another height: what it would be left out for if that were the wish.
    pub besides: Option<LeftOut>,
}

/// The lowest that the parts on the table reach within all limits but the height.
#[derive(Clone, Debug, PartialEq)]
pub struct Lowest {
    /// The proposal that reaches it.
    pub changes: Vec<Change>,
    /// Lower than as measured, mm.
    pub drop_mm: f64,
    /// How high the frame then stands, mm.
    pub frame_mm: f64,
    /// The pairs that a turning wheel could jam and that were not looked at, for want of numbers.
    pub unseen: Vec<Pair>,
    /// What is wrong with the next that would come down more, of those that stand where any does, and what comes too
    /// near or ends its bump; none where no combination comes down more.
    pub stops: Option<(LeftOut, Option<Limiter>)>,
}
