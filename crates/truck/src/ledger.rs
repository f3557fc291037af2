//! The ledger of what meets what: parts, the places where two of them meet, and the
//! numbers that were taken there, each with its tool and whose it is.
//!
//! The usual swap's rows and parts are there without being written down: an empty ledger
//! has all of them, and holds nothing. What they mean together is the study's to say.

mod edit;
mod kind;
mod sort;
mod tool;
mod usual;

pub use edit::{LedgerDraft, LedgerEdit};
pub use kind::{Callout, Mating, Of, callouts};
pub use sort::CalloutSort;
pub use tool::{Tool, Whose};
pub use usual::{PARTS, ROWS, UsualRow};

use crate::side::Side;

/// Names a row: the place in [`ROWS`], or from [`RowId::FIRST_ADDED`] one that was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RowId(pub u8);

/// Names a part: the place in [`PARTS`], or from [`PartId::FIRST_ADDED`] one that was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PartId(pub u8);

impl RowId {
    /// The least id of a row that was added.
    pub const FIRST_ADDED: u8 = 128;

    /// The usual swap's row; `None` of one that was added.
    #[must_use]
    pub fn usual(self) -> Option<&'static UsualRow> {
        ROWS.get(usize::from(self.0))
    }

    /// The usual swap's row of a key; `None` of a key that none has.
    #[must_use]
    pub fn of_usual(key: &str) -> Option<Self> {
        (0..).zip(ROWS).find(|(_, row)| row.key() == key).map(|(at, _)| Self(at))
    }

    /// Whether a person may add a row of this id.
    #[must_use]
    pub const fn is_added(self) -> bool {
        self.0 >= Self::FIRST_ADDED
    }
}

impl PartId {
    /// The least id of a part that was added.
    pub const FIRST_ADDED: u8 = 128;

    /// Whether it is a part of the usual swap, or can be one that was added.
    #[must_use]
    pub fn is_known(self) -> bool {
        self.0 >= Self::FIRST_ADDED || usize::from(self.0) < PARTS.len()
    }
}

/// Where a part is from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Origin {
    /// The truck's own.
    #[default]
    Kept,
    /// From another truck: which, and of what year, as the person says it.
    Donor(String),
    /// New from a shop.
    Bought,
}

/// What is said of a part.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Part {
    /// Its name; empty, the usual one.
    pub name: String,
    /// Where it is from.
    pub origin: Origin,
    /// The side it was made for, where it was made for one.
    pub side: Option<Side>,
}

/// A row that was added to the usual ones.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AddedRow {
    /// What it is called.
    pub name: String,
    /// What sort of place it is.
    pub kind: Mating,
    /// The two parts that meet.
    pub parts: [PartId; 2],
    /// Whether it steers, stops or carries a wheel: no work is offered there. A row that
    /// nobody has thought about is one.
    pub vital: bool,
}

/// A number as it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// In whole steps: of a size 0.01 mm, by a micrometer 0.001 mm; of a pitch 0.01 mm; else one.
    pub steps: i32,
    /// What it was taken by.
    pub tool: Tool,
    /// Whose it is.
    pub whose: Whose,
}

impl Entry {
    fn per_unit(sort: CalloutSort, tool: Tool) -> f64 {
        match sort {
            CalloutSort::Pitch => tool.steps_per_mm(),
            sort if sort.is_size() => tool.steps_per_mm(),
            _ => 1.0,
        }
    }

    /// The entry of a value, rounded to what is kept; `None` where it is outside the number's
    /// limits or was not taken by a tool for it.
    #[must_use]
    pub fn of(callout: &Callout, value: f64, tool: Tool, whose: Whose) -> Option<Self> {
        let (low, high) = callout.limits();
        let inside = low <= value && value <= high && callout.sort.tools().contains(&tool);
        #[expect(clippy::cast_possible_truncation, reason = "the limits are far below it")]
        let steps = (value * Self::per_unit(callout.sort, tool)).round() as i32;
        inside.then_some(Self { steps, tool, whose })
    }

    /// The number, mm, N/mm², how many, or the place of one of a few.
    #[must_use]
    pub fn value(&self, sort: CalloutSort) -> f64 {
        f64::from(self.steps) / Self::per_unit(sort, self.tool)
    }
}

/// A row in which something was written, or which was added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    id: RowId,
    added: Option<AddedRow>,
    entries: Vec<(u8, Entry)>,
}

impl Row {
    const fn new(id: RowId) -> Self {
        Self { id, added: None, entries: Vec::new() }
    }

    /// Its id.
    #[must_use]
    pub const fn id(&self) -> RowId {
        self.id
    }

    /// What was said of it when it was added; `None` of a usual one.
    #[must_use]
    pub const fn added(&self) -> Option<&AddedRow> {
        self.added.as_ref()
    }

    /// What sort of place it is.
    #[must_use]
    pub fn kind(&self) -> Mating {
        match (&self.added, self.id.usual()) {
            (Some(added), _) => added.kind,
            (None, Some(usual)) => usual.kind,
            (None, None) => unreachable!("a ledger holds rows that are usual or were added"),
        }
    }

    /// Whether it steers, stops or carries a wheel.
    #[must_use]
    pub fn is_vital(&self) -> bool {
        self.added
            .as_ref()
            .map_or_else(|| self.id.usual().is_none_or(|usual| usual.vital), |added| added.vital)
    }

    /// Whether something was written in it, or it was added.
    #[must_use]
    pub const fn is_written(&self) -> bool {
        self.added.is_some() || !self.entries.is_empty()
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        let usual = self.id.usual().map(|usual| usual.label()).unwrap_or_default();
        self.added.as_ref().map_or(usual, |added| &added.name)
    }

    /// The two parts that meet.
    #[must_use]
    pub fn parts(&self) -> [PartId; 2] {
        let usual = || self.id.usual().map(|usual| usual.parts.map(PartId)).unwrap_or([PartId(0); 2]);
        self.added.as_ref().map_or_else(usual, |added| added.parts)
    }

    /// Its numbers, by their places in [`Mating::callouts`].
    #[must_use]
    pub fn entries(&self) -> &[(u8, Entry)] {
        &self.entries
    }

    /// One of its numbers as it was taken.
    #[must_use]
    pub fn entry(&self, callout: u8) -> Option<&Entry> {
        self.entries.iter().find(|(other, _)| *other == callout).map(|(_, entry)| entry)
    }
}

/// What meets what. An empty one has every row of the usual swap, and no number.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ledger {
    parts: Vec<(PartId, Part)>,
    rows: Vec<Row>,
}

impl Ledger {
    /// Nothing written.
    pub const EMPTY: Self = Self { parts: Vec::new(), rows: Vec::new() };
    /// Most rows that are added, and most parts.
    pub const MOST_ADDED: usize = 64;
    /// Most numbers in all rows together.
    pub const MOST_NUMBERS: usize = 256;
    /// Most text in all names together, bytes.
    pub const MOST_TEXT: usize = 800;

    /// Whether nothing is written in it.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.rows.is_empty()
    }

    /// The rows in which something was written and those that were added, by their ids.
    #[must_use]
    pub fn written(&self) -> &[Row] {
        &self.rows
    }

    /// How many numbers are written in all rows together.
    #[must_use]
    pub fn numbers(&self) -> usize {
        self.rows.iter().map(|row| row.entries.len()).sum()
    }

    /// What is said of parts, by their ids.
    #[must_use]
    pub fn parts(&self) -> &[(PartId, Part)] {
        &self.parts
    }

    /// Every row, the usual ones first, written in or not.
    #[must_use]
    pub fn rows(&self) -> Vec<Row> {
        let mut all: Vec<Row> = (0..RowId::FIRST_ADDED).map_while(|id| self.row(RowId(id))).collect();
        all.extend(self.rows.iter().filter(|row| row.id.is_added()).cloned());
        all
    }

    /// A row, written in or not; `None` where there is none of that id.
    #[must_use]
    pub fn row(&self, id: RowId) -> Option<Row> {
        let written = self.rows.iter().find(|row| row.id == id).cloned();
        written.or_else(|| id.usual().map(|_| Row::new(id)))
    }

    /// Every part, the usual ones first, then those that were added.
    pub fn all_parts(&self) -> impl Iterator<Item = PartId> {
        let added = self.parts.iter().map(|(id, _)| *id).filter(|id| id.0 >= PartId::FIRST_ADDED);
        (0..).zip(PARTS).map(|(id, _)| PartId(id)).chain(added)
    }

    /// What is said of a part, if anything is.
    #[must_use]
    pub fn part(&self, id: PartId) -> Option<&Part> {
        self.parts.iter().find(|(other, _)| *other == id).map(|(_, part)| part)
    }

    /// Whether a part is the truck's own, as one is of which nothing is said.
    #[must_use]
    pub fn is_kept(&self, id: PartId) -> bool {
        self.part(id).is_none_or(|part| part.origin == Origin::Kept)
    }

    /// What a part is called.
    #[must_use]
    pub fn part_name(&self, id: PartId) -> &str {
        let usual = PARTS.get(usize::from(id.0)).map_or("a part without a name", |(_, name)| name);
        self.part(id).map(|part| part.name.as_str()).filter(|name| !name.is_empty()).unwrap_or(usual)
    }

    /// The lowest id for a row to add; `None` where all are taken.
    #[must_use]
    pub fn free_row(&self) -> Option<RowId> {
        (RowId::FIRST_ADDED..=u8::MAX).map(RowId).find(|id| self.row(*id).is_none())
    }

    /// The lowest id for a part to add; `None` where all are taken.
    #[must_use]
    pub fn free_part(&self) -> Option<PartId> {
        (PartId::FIRST_ADDED..=u8::MAX).map(PartId).find(|id| self.part(*id).is_none())
    }
}
