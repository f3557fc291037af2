//! Everything a person can do to the ledger, as values.

use super::{AddedRow, Entry, Ledger, Origin, Part, PartId, Row, RowId, Tool, Whose};
use crate::edit_error::{EditError, LONGEST_NAME, bounded};

/// One thing done to the ledger.
#[derive(Clone, Debug, PartialEq)]
pub enum LedgerEdit {
    /// A number taken.
    Write {
        /// In which row.
        row: RowId,
        /// Which, by its place in the kind's list.
        callout: u8,
        /// mm, N/mm², how many, or the place of one of a few.
        value: f64,
        /// What it was taken by.
        tool: Tool,
        /// Whose it is.
        whose: Whose,
    },
    /// A number taken out.
    Erase(RowId, u8),
    /// A guessed or a stranger's number taken as one's own: checked on one's own parts.
    Own(RowId, u8),
    /// A row added, or said anew; one of another kind loses its numbers.
    Row(RowId, AddedRow),
    /// Everything of a row taken out, and the row itself where it was added.
    Clear(RowId),
    /// What is said of a part, one of the usual ones or one that is added.
    Part(PartId, Part),
    /// What is said of a part taken out.
    ClearPart(PartId),
    /// The ledger came by link: what was someone's own is a stranger's here.
    CameByLink,
}

impl Ledger {
    /// The ledger as it counts for whoever it came to by link.
    #[must_use]
    pub fn came_by_link(mut self) -> Self {
        for (_, entry) in self.rows.iter_mut().flat_map(|row| &mut row.entries) {
            if entry.whose == Whose::Own {
                entry.whose = Whose::Stranger;
            }
        }
        self
    }

    /// The ledger with every text of it as `tidy` leaves it, which makes none longer.
    #[must_use]
    pub fn with_text(mut self, tidy: fn(&str) -> String) -> Self {
        for (_, part) in &mut self.parts {
            part.name = tidy(&part.name);
            if let Origin::Donor(donor) = &mut part.origin {
                *donor = tidy(donor);
            }
        }
        for added in self.rows.iter_mut().filter_map(|row| row.added.as_mut()) {
            added.name = tidy(&added.name);
        }
        self.without_what_says_nothing()
    }

    /// What says nothing is not kept, so that equal ledgers are equal.
    fn without_what_says_nothing(mut self) -> Self {
        self.rows.retain(Row::is_written);
        self.parts.retain(|(id, part)| id.0 >= PartId::FIRST_ADDED || *part != Part::default());
        self
    }

    /// The ledger after an edit.
    ///
    /// # Errors
    /// [`EditError`] says why the edit was refused.
    pub fn edited(&self, edit: &LedgerEdit) -> Result<Self, EditError> {
        let mut draft = LedgerDraft(self.clone());
        match edit {
            LedgerEdit::Write { row, callout, value, tool, whose } => {
                draft.write(*row, *callout, *value, *tool, *whose)?;
            }
            LedgerEdit::Erase(row, callout) => draft.row_mut(*row)?.put(*callout, None),
            LedgerEdit::Own(row, callout) => {
                let place = draft.row_mut(*row)?;
                let entry = *place.entry(*callout).ok_or(EditError::NoRow)?;
                place.put(*callout, Some(Entry { whose: Whose::Own, ..entry }));
            }
            LedgerEdit::Row(id, said) => draft.row(*id, said)?,
            LedgerEdit::Clear(id) => draft.0.rows.retain(|row| row.id != *id),
            LedgerEdit::Part(id, part) => draft.part(*id, part)?,
            LedgerEdit::ClearPart(id) => draft.0.parts.retain(|(other, _)| other != id),
            LedgerEdit::CameByLink => draft.0 = draft.0.came_by_link(),
        }
        draft.done()
    }

    /// Whether it is no larger than a link can hold beside the largest truck.
    fn within_bounds(&self) -> bool {
        let donors = |part: &Part| match &part.origin {
            Origin::Donor(text) => text.len(),
            _ => 0,
        };
        let rows = self.rows.iter().filter_map(|row| row.added.as_ref());
        let parts = self.parts.iter().filter(|(id, _)| id.0 >= PartId::FIRST_ADDED);
        let text = rows.clone().map(|row| row.name.len()).sum::<usize>()
            + self.parts.iter().map(|(_, part)| part.name.len() + donors(part)).sum::<usize>();
        rows.count().max(parts.count()) <= Self::MOST_ADDED
            && text <= Self::MOST_TEXT
            && self.numbers() <= Self::MOST_NUMBERS
    }
}

/// A ledger that is being written, by whoever reads one entry after another: what a ledger may hold is looked at once,
/// at the end.
#[derive(Debug, Default)]
pub struct LedgerDraft(Ledger);

impl LedgerDraft {
    /// A number of a row, in place of what was there; see [`LedgerEdit::Write`].
    ///
    /// # Errors
    /// [`EditError::NoRow`] where there is no such row or number, [`EditError::LedgerNumber`] for one out of limits.
    pub fn write(
        &mut self,
        row: RowId,
        callout: u8,
        value: f64,
        tool: Tool,
        whose: Whose,
    ) -> Result<(), EditError> {
        let place = self.row_mut(row)?;
        let known = place.kind().callout(callout).ok_or(EditError::NoRow)?;
        place.put(callout, Some(Entry::of(known, value, tool, whose).ok_or(EditError::LedgerNumber)?));
        Ok(())
    }

    /// A row added, or said anew; one of another kind loses its numbers.
    ///
    /// # Errors
    /// [`EditError::NoRow`] where the id is that of a usual row or a part is unknown, [`EditError::TooLong`] for a name.
    pub fn row(&mut self, id: RowId, said: &AddedRow) -> Result<(), EditError> {
        if !id.is_added() || !said.parts.iter().all(|part| part.is_known()) {
            return Err(EditError::NoRow);
        }
        let said = AddedRow { name: bounded(&said.name, LONGEST_NAME)?, ..said.clone() };
        let rows = &mut self.0.rows;
        let at = rows.partition_point(|row| row.id < id);
        match rows.get_mut(at).filter(|row| row.id == id) {
            Some(row) => {
                if row.kind() != said.kind {
                    row.entries.clear();
                }
                row.added = Some(said);
            }
            None => rows.insert(at, Row { added: Some(said), ..Row::new(id) }),
        }
        Ok(())
    }

    /// What is said of a part, in place of what was.
    ///
    /// # Errors
    /// [`EditError::NoRow`] for a part that is unknown, [`EditError::TooLong`] for its name or its donor's.
    pub fn part(&mut self, id: PartId, part: &Part) -> Result<(), EditError> {
        let name = bounded(&part.name, LONGEST_NAME)?;
        if let Origin::Donor(donor) = &part.origin {
            bounded(donor, LONGEST_NAME)?;
        }
        if !id.is_known() {
            return Err(EditError::NoRow);
        }
        let parts = &mut self.0.parts;
        parts.retain(|(other, _)| *other != id);
        let at = parts.partition_point(|(other, _)| *other < id);
        parts.insert(at, (id, Part { name, ..part.clone() }));
        Ok(())
    }

    /// The ledger.
    ///
    /// # Errors
    /// [`EditError::LedgerFull`] where it is larger than a link can hold beside the largest truck.
    pub fn done(self) -> Result<Ledger, EditError> {
        let ledger = self.0.without_what_says_nothing();
        ledger.within_bounds().then_some(ledger).ok_or(EditError::LedgerFull)
    }

    fn row_mut(&mut self, id: RowId) -> Result<&mut Row, EditError> {
        let rows = &mut self.0.rows;
        let at = rows.partition_point(|row| row.id < id);
        if rows.get(at).is_none_or(|row| row.id != id) {
            id.usual().ok_or(EditError::NoRow)?;
            rows.insert(at, Row::new(id));
        }
        Ok(&mut rows[at])
    }
}

impl Row {
    fn put(&mut self, callout: u8, entry: Option<Entry>) {
        self.entries.retain(|(other, _)| *other != callout);
        if let Some(entry) = entry {
            let at = self.entries.partition_point(|(other, _)| *other < callout);
            self.entries.insert(at, (callout, entry));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Mating, PARTS, ROWS, callouts};
    use super::*;
    use crate::demo;
    use crate::side::Side;

    const SPLINES: RowId = RowId(8);

    fn wrote(row: RowId, callout: u8, value: f64, tool: Tool) -> LedgerEdit {
        LedgerEdit::Write { row, callout, value, tool, whose: Whose::Own }
    }

    fn added(name: &str) -> AddedRow {
        AddedRow { name: name.to_owned(), kind: Mating::Width, parts: [PartId(3), PartId(128)], vital: true }
    }

    #[test]
    fn the_usual_rows_are_there_empty_and_say_what_they_join() {
        assert_eq!(Ledger::EMPTY.rows().len(), ROWS.len());
        assert!(Ledger::EMPTY.rows().iter().all(|row| row.entries().is_empty() && !row.name().is_empty()));
        let row = Ledger::EMPTY.row(SPLINES).unwrap();
        let names = row.parts().map(|part| Ledger::EMPTY.part_name(part).to_owned());
        assert_eq!((row.kind(), names), (Mating::Spline, ["bracket".to_owned(), "bar".to_owned()]));
        for (at, row) in ROWS.iter().enumerate() {
            assert!(ROWS[..at].iter().all(|other| other.key() != row.key() && other.label() != row.label()));
            assert!(row.parts.iter().all(|part| usize::from(*part) < PARTS.len()));
        }
    }

    /// What steers, stops or carries a wheel, and the splines that hold the truck up.
    #[test]
    fn what_is_vital_is_marked() {
        for key in [
            "upper_stud",
            "lower_stud",
            "tie_stud",
            "upper_joint_bolted",
            "lower_joint_pressed",
            "bar_in_bracket",
            "bar_in_anchor",
            "caliper_on_knuckle",
            "hub_on_spindle",
            "races_in_hub",
            "hose",
        ] {
            assert!(ROWS.iter().any(|row| row.key() == key && row.vital), "{key}");
        }
    }

    #[test]
    fn a_number_is_written_kept_in_steps_and_taken_out_again() {
        let over = callouts::spline::OVER;
        let one = Ledger::EMPTY.edited(&wrote(SPLINES, over, 25.404, Tool::Caliper)).unwrap();
        let sort = Mating::Spline.callout(over).unwrap().sort;
        let value = |ledger: &Ledger| ledger.row(SPLINES).unwrap().entry(over).unwrap().value(sort);
        assert_eq!(value(&one).to_bits(), 25.4_f64.to_bits());
        let fine = one.edited(&wrote(SPLINES, over, 25.404, Tool::Micrometer)).unwrap();
        assert_eq!(value(&fine).to_bits(), 25.404_f64.to_bits());
        assert_eq!(fine.edited(&LedgerEdit::Erase(SPLINES, over)).unwrap(), Ledger::EMPTY);
    }

    #[test]
    fn what_cannot_be_is_refused_and_nothing_is_lost() {
        let refused = |edit: &LedgerEdit| Ledger::EMPTY.edited(edit).unwrap_err();
        let over = callouts::spline::OVER;
        for value in [0.0, -25.4, f64::NAN, f64::INFINITY, 1e9] {
            assert_eq!(refused(&wrote(SPLINES, over, value, Tool::Caliper)), EditError::LedgerNumber);
        }
        assert_eq!(refused(&wrote(SPLINES, over, 25.4, Tool::Counted)), EditError::LedgerNumber);
        assert_eq!(refused(&wrote(SPLINES, 99, 25.4, Tool::Caliper)), EditError::NoRow);
        assert_eq!(refused(&wrote(RowId(127), 0, 25.4, Tool::Caliper)), EditError::NoRow);
        assert_eq!(refused(&wrote(RowId(128), 0, 25.4, Tool::Caliper)), EditError::NoRow);
        assert_eq!(refused(&LedgerEdit::Row(SPLINES, added("mine"))), EditError::NoRow);
        assert_eq!(refused(&LedgerEdit::Row(RowId(130), added(&"x".repeat(10_000)))), EditError::TooLong);
    }

    #[test]
    fn a_ledger_is_bounded() {
        let mut full = Ledger::EMPTY;
        for id in 128..=u8::MAX {
            match full.edited(&LedgerEdit::Row(RowId(id), added("r"))) {
                Ok(next) => full = next,
                Err(error) => assert_eq!(error, EditError::LedgerFull),
            }
        }
        assert_eq!(full.written().len(), Ledger::MOST_ADDED);
        let long = LedgerEdit::Part(PartId(0), Part { name: "n".repeat(80), ..Part::default() });
        let named = (0..20).try_fold(Ledger::EMPTY, |ledger, id| {
            let LedgerEdit::Part(_, part) = &long else { unreachable!() };
            ledger.edited(&LedgerEdit::Part(PartId(id), part.clone()))
        });
        assert_eq!(named, Err(EditError::LedgerFull));
    }

    #[test]
    fn what_came_by_link_is_a_strangers_until_it_is_taken_as_ones_own() {
        let over = callouts::spline::OVER;
        let edits = [
            wrote(SPLINES, over, 25.4, Tool::Caliper),
            LedgerEdit::Write {
                row: SPLINES,
                callout: callouts::spline::TEETH,
                value: 36.0,
                tool: Tool::Counted,
                whose: Whose::Guessed,
            },
            LedgerEdit::CameByLink,
        ];
        let came = edits.iter().fold(Ledger::EMPTY, |ledger, edit| ledger.edited(edit).unwrap());
        let whose = |ledger: &Ledger, callout| ledger.row(SPLINES).unwrap().entry(callout).unwrap().whose;
        assert_eq!(whose(&came, over), Whose::Stranger);
        assert_eq!(whose(&came, callouts::spline::TEETH), Whose::Guessed);
        let mine = came.edited(&LedgerEdit::Own(SPLINES, over)).unwrap();
        assert_eq!(whose(&mine, over), Whose::Own);
    }

    #[test]
    fn parts_and_rows_are_said_and_cleared() {
        let donor = Part {
            origin: Origin::Donor("a '79, long bed".to_owned()),
            side: Some(Side::Left),
            ..Part::default()
        };
        let one = Ledger::EMPTY.edited(&LedgerEdit::Part(PartId(8), donor.clone())).unwrap();
        assert_eq!(one.part(PartId(8)), Some(&donor));
        assert_eq!(one.part_name(PartId(8)), "bar");
        assert_eq!(one.edited(&LedgerEdit::Part(PartId(8), Part::default())).unwrap(), Ledger::EMPTY);
        let row = one.free_row().unwrap();
        let two = one.edited(&LedgerEdit::Row(row, added("shim"))).unwrap();
        let two = two.edited(&wrote(row, callouts::width::INSIDE, 60.0, Tool::Caliper)).unwrap();
        assert_ne!(two.free_row(), Some(row));
        let other = AddedRow { kind: Mating::Hose, ..added("shim") };
        assert!(two.edited(&LedgerEdit::Row(row, other)).unwrap().row(row).unwrap().entries().is_empty());
        assert_eq!(two.edited(&LedgerEdit::Clear(row)).unwrap(), one);
    }

    #[test]
    fn the_design_changes_by_the_same_road() {
        let edit = wrote(SPLINES, callouts::spline::OVER, 25.4, Tool::Caliper);
        let design = demo().ledger_edited(&edit).unwrap();
        assert_eq!(design.ledger.written().len(), 1);
        assert_eq!(design.truck, demo().truck);
    }
}
