//! What is shared: a design, and what the sender saw of it.

use measure::Units;
use truck::{Change, Design, Kind, Proposal, ProposalId, Side};

/// A design and how the sender looked at it.
#[derive(Clone, Debug, PartialEq)]
pub struct Shared {
    /// The design.
    pub design: Design,
    /// What the sender saw.
    pub opening: Opening,
}

/// What the sender saw; no part of the design.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Opening {
    /// The proposal that was selected; `None` for the truck as measured.
    pub proposal: Option<ProposalId>,
    /// Travel, + bump, mm, in steps of 0.01 mm; one beyond the limits is not shared.
    pub travel_mm: f64,
    /// Steer of the wheel, rad, in steps of 0.01 degree; one beyond the limits is not shared.
    pub steer_rad: f64,
    /// The units the sender worked in, where they chose.
    pub units: Option<Units>,
    /// The lesson step that was open.
    pub lesson: Option<u8>,
}

/// What a message calls a number of the rear: which one, its forms alone need to know.
pub(crate) const REAR: &str = "A number of the rear";

/// What the forms call how far a proposal's rear comes down.
pub(crate) const REAR_DOWN: &str = "Rear comes down by";

/// Puts a change on both sides of a proposal or on one alone; `None`, with nothing done, where its slot
/// there is taken.
pub(crate) fn put(proposal: &mut Proposal, side: Option<Side>, change: Change) -> Option<()> {
    let (kind, place) = change.slot();
    let has = |side| proposal.change_at(side, kind, place).copied();
    let mut each = Side::ALL.map(has);
    match side {
        None if each == [None, None] => proposal.set(change),
        Some(side) if each[side as usize].is_none() => {
            each[side as usize] = Some(change);
            proposal.set_each(kind, place, each);
        }
        _ => return None,
    }
    Some(())
}

impl Shared {
    /// The same for whoever it came to by link: what was measured of its parts is a stranger's.
    #[must_use]
    pub fn came_by_link(mut self) -> Self {
        self.design.ledger = self.design.ledger.came_by_link();
        self
    }
}

impl Opening {
    /// Least and greatest travel that is shared, mm.
    pub const TRAVEL_LIMITS_MM: (f64, f64) = (-1000.0, 1000.0);
    /// Least and greatest steer that is shared, degrees.
    pub const STEER_LIMITS_DEG: (f64, f64) = (-90.0, 90.0);

    /// A travel as it is kept, if it lies within the limits.
    pub(crate) fn accept_travel(value_mm: f64) -> Option<f64> {
        accept(Kind::Length, Self::TRAVEL_LIMITS_MM, value_mm)
    }

    /// A steer as it is kept, if it lies within the limits.
    pub(crate) fn accept_steer(value_rad: f64) -> Option<f64> {
        let (low, high) = Self::STEER_LIMITS_DEG;
        accept(Kind::Angle, (low.to_radians(), high.to_radians()), value_rad)
    }

    pub(crate) fn kept(&self, design: &Design) -> Self {
        Self {
            proposal: self.proposal.filter(|id| design.proposal(*id).is_some()),
            travel_mm: Self::accept_travel(self.travel_mm).unwrap_or(0.0),
            steer_rad: Self::accept_steer(self.steer_rad).unwrap_or(0.0),
            ..*self
        }
    }
}

fn accept(kind: Kind, (low, high): (f64, f64), value: f64) -> Option<f64> {
    kind.rounded(value).filter(|kept| low <= *kept && *kept <= high)
}

/// A title or name as it is kept.
pub(crate) fn name(text: &str) -> String {
    tidy(text, Design::LONGEST_NAME, false)
}

/// A note as it is kept.
pub(crate) fn note(text: &str) -> String {
    tidy(text, Design::LONGEST_NOTE, true)
}

/// Text without characters that steer a screen instead of standing on it.
pub(crate) fn tidy(text: &str, most: usize, lines: bool) -> String {
    let mut tidy = String::new();
    for letter in text.chars() {
        let kept = (lines && letter == '\n') || !steers(letter);
        if kept {
            if tidy.len() + letter.len_utf8() > most {
                break;
            }
            tidy.push(letter);
        }
    }
    tidy
}

/// Control characters, and those that turn the direction of the text around them.
const fn steers(letter: char) -> bool {
    matches!(letter,
        '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
