//! What is shared: a design, and what the sender saw of it.

use crate::v1::defaults::{self, Base};
use truck::{
    Arm, Design, Edit, Field, Kind, MOST_PROPOSALS, Proposal, ProposalId, Sources, SpringKind, Truck,
};

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
    /// The proposal that was selected; nothing for the truck as measured.
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

/// The units of lengths on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Inches in fractions.
    Inches,
    /// Millimetres.
    Millimetres,
}

/// What the forms call how far a proposal's rear comes down.
pub(crate) const REAR_DOWN: &str = "Rear comes down by";

impl Shared {
    /// The same as it arrives at the reader: numbers in whole steps and within
    /// their limits, text without control characters and not too long, the
    /// selected proposal one that exists.
    ///
    /// A design made by edits alone is already so, but for control characters
    /// in its text. A number that cannot be kept becomes the default.
    #[must_use]
    pub fn kept(&self) -> Self {
        let design = &self.design;
        let mut proposals: Vec<Proposal> = Vec::new();
        for proposal in design.proposals.iter().take(MOST_PROPOSALS) {
            if proposals.iter().any(|other| other.id == proposal.id) {
                continue;
            }
            let mut kept = Proposal::new(proposal.id, name(&proposal.name));
            kept.rear_down_mm = proposal.rear_down_mm.and_then(Proposal::accept_rear_down);
            for change in proposal.changes.iter().filter_map(truck::Change::kept) {
                kept.set(change);
            }
            kept.sources = proposal.sources.clone();
            kept.sources.keep_to(&kept.changes);
            proposals.push(kept);
        }
        let mut stated = Stated {
            numbers: Vec::new(),
            spring: design.truck.spring.kind,
            arm: design.truck.spring.arm,
            sources: design.truck.sources.clone(),
            base: Base::First,
            right: design.truck.right.iter().filter_map(kept_right).collect(),
        };
        for field in Field::ALL.iter().copied() {
            let value = field.get(&design.truck);
            let kept = value.and_then(|value| field.accept(value));
            if kept.is_some() == value.is_some() {
                stated.numbers.push((field, kept));
            }
        }
        let ledger = design.ledger.clone().with_text(name);
        let (title, note) = (name(&design.title), note(&design.note));
        let design = Design { title, note, truck: stated.truck(), proposals, ledger };
        Self { opening: self.opening.kept(&design), design }
    }
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

/// A truck as it is read: what is not stated has the default of version 1.
#[derive(Clone, Debug)]
pub(crate) struct Stated {
    /// In the core's unit, as their fields accepted them; nothing for what is open.
    pub(crate) numbers: Vec<(Field, Option<f64>)>,
    pub(crate) spring: SpringKind,
    pub(crate) arm: Arm,
    pub(crate) sources: Sources,
    /// Which numbers are stated where nothing is said of them.
    pub(crate) base: Base,
    /// As their fields accepted them; all of fields that each side has its own of.
    pub(crate) right: Vec<(Field, f64)>,
}

impl Default for Stated {
    fn default() -> Self {
        Self {
            numbers: Vec::new(),
            spring: defaults::SPRING_KIND,
            arm: defaults::SPRING_ARM,
            sources: Sources::all(defaults::RULE),
            base: Base::First,
            right: Vec::new(),
        }
    }
}

impl Stated {
    /// The truck. Every number is set, so nothing of today's demo truck is left.
    pub(crate) fn truck(self) -> Truck {
        let mut design = truck::demo();
        let mut values = Vec::with_capacity(Field::ALL.len());
        for field in Field::ALL.iter().copied() {
            let stated = self.numbers.iter().find(|(other, _)| *other == field);
            match stated.map_or_else(|| self.base.value(field), |(_, value)| *value) {
                Some(value) => values.push((field, value)),
                None => design = taken(&design, &Edit::Measure { field, value: None }),
            }
        }
        let right = self.right.iter().map(|(field, value)| (*field, Some(*value))).collect();
        let design = taken(&taken(&design, &Edit::MeasureAll(values)), &Edit::MeasureRight(right));
        let mut truck = design.truck;
        truck.spring.kind = self.spring;
        truck.spring.arm = self.arm;
        truck.sources = self.sources;
        truck
    }
}

/// A number of the right as it is kept.
fn kept_right((field, value): (Field, f64)) -> Option<(Field, f64)> {
    Some((field, field.accept(value).filter(|_| field.is_sided())?))
}

/// The design after an edit that no field refuses.
fn taken(design: &Design, edit: &Edit) -> Design {
    let Ok(next) = design.edited(edit) else {
        unreachable!("fields accepted their values, and only optional ones are open");
    };
    next
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
