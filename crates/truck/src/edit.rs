//! Everything a person can do to a design, as values.

use crate::change::{Change, ChangeField, ChangeKind, ChangeSources, Place};
use crate::demo::demo;
use crate::design::{Design, MOST_PROPOSALS, Proposal, ProposalId};
use crate::edit_error::{EditError, LONGEST_NAME, bounded};
use crate::field::{Field, Group};
use crate::ledger::{Ledger, LedgerEdit};
use crate::reading::{Readable, Reading, ReadingFault, Readings};
use crate::rear::{RearAxle, RearField};
use crate::side::Side;
use crate::source::{Source, Staying};
use crate::spring::{Arm, SpringKind};
use crate::truck::Sources;

/// One thing done to a design. A drag makes the same edits as a form.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// A number of the truck measured, or typed from a part.
    Measure {
        /// Which.
        field: Field,
        /// In the core's unit; `None` leaves it open, where it may be.
        value: Option<f64>,
    },
    /// Several numbers measured in one move, as by dragging a point.
    MeasureAll(Vec<(Field, f64)>),
    /// Numbers measured at the right on their own; nothing leaves one as the left's.
    MeasureRight(Vec<(Field, Option<f64>)>),
    /// Several numbers of the truck corrected in one move, by what was read off it: where they came from
    /// stays as it was.
    Correct(Vec<(Side, Field, f64)>),
    /// What was read off the truck as it sits, at a side; `None` takes the reading out.
    Read(Readable, Side, Option<Reading>),
    /// What was read off the truck as it was built, at a side; `None` takes the reading out.
    ReadBuilt(Readable, Side, Option<Reading>),
    /// The same, once it had settled.
    ReadSettled(Readable, Side, Option<Reading>),
    /// A number of the rear measured, in the core's unit; `None` takes it out.
    MeasureRear(RearField, Option<f64>),
    /// Where a number came from.
    Source(Field, Source),
    /// Every number is the person's own from here on: what they have not
    /// measured counts as assumed, nothing was read off it, and the demo's title and proposal go.
    OwnTruck,
    /// The kind of spring.
    SpringKind(SpringKind),
    /// The arm that carries the spring.
    SpringArm(Arm),
    /// A change put in its slot of a proposal, on both sides.
    Set(ProposalId, Change),
    /// The same of a change whose numbers nobody measured.
    SetGuessed(ProposalId, Change),
    /// What the left and the right have in a slot of a proposal, which both changes are of; one at least.
    SetEach(ProposalId, [Option<Change>; 2]),
    /// All changes of a proposal at once, those of the left and those of the right, as by setting it up.
    SetAll(ProposalId, [Vec<Change>; 2]),
    /// How far a proposal's rear comes down, mm, + down; `None` leaves it open.
    RearDown(ProposalId, Option<f64>),
    /// Where a number of a proposal's change came from. One that gets another value is
    /// typed from a part again.
    ChangeSource(ProposalId, ChangeField, Source),
    /// A slot of a proposal emptied, on both sides.
    Clear(ProposalId, ChangeKind, Option<Place>),
    /// A proposal added, with the lowest free id.
    AddProposal(String),
    /// A proposal removed.
    RemoveProposal(ProposalId),
    /// A proposal again under another name, right behind itself, with the lowest free id.
    CopyProposal(ProposalId, String),
    /// A proposal of another design put behind the others, with the lowest free id.
    TakeProposal(Proposal),
    /// What another proposal lays over the truck put into one, which keeps its id and its name.
    Lay(ProposalId, Proposal),
    /// A proposal moved to a place in the list, or to the last one where there are fewer.
    MoveProposal(ProposalId, usize),
    /// A proposal renamed.
    RenameProposal(ProposalId, String),
    /// Another ledger of what meets what in place of this one: [`Ledger::edited`] makes it.
    Ledger(Ledger),
    /// What is written down of the work, as `sharing` writes it.
    Work(String),
    /// The design's title.
    Title(String),
    /// The design's note.
    Note(String),
    /// Another design in its place, as when a link is opened.
    Replace(Box<Design>),
}

impl Edit {
    /// The plan whose parts it changes, where it changes those of one.
    #[must_use]
    pub const fn plan(&self) -> Option<ProposalId> {
        match self {
            Self::Set(id, _)
            | Self::SetGuessed(id, _)
            | Self::SetEach(id, _)
            | Self::SetAll(id, _)
            | Self::RearDown(id, _)
            | Self::ChangeSource(id, ..)
            | Self::Clear(id, ..)
            | Self::Lay(id, _) => Some(*id),
            _ => None,
        }
    }
}

impl Design {
    /// Longest title or name, in bytes.
    pub const LONGEST_NAME: usize = LONGEST_NAME;
    /// Longest note, in bytes.
    pub const LONGEST_NOTE: usize = 2000;

    /// The design after an edit: the only way in which one changes.
    ///
    /// Numbers are rounded to what can be kept ([`Kind::rounded`](crate::Kind::rounded)), so a design
    /// is the same on the page, in a link and in a file.
    ///
    /// # Errors
    /// [`EditError`] says why the edit was refused.
    pub fn edited(&self, edit: &Edit) -> Result<Self, EditError> {
        let mut next = self.done(edit)?;
        if !matches!(edit, Edit::Replace(_)) {
            next.truck.follow(&self.truck);
        }
        match edit {
            // What is opened was looked at when it was read.
            Edit::Replace(_) => Ok(next),
            _ if next.fits_a_link() => Ok(next),
            Edit::Read(of, ..) | Edit::ReadBuilt(of, ..) | Edit::ReadSettled(of, ..) => {
                Err(EditError::Reading(*of, ReadingFault::Full))
            }
            _ => Err(EditError::LedgerFull),
        }
    }

    /// The design after an edit of its ledger. That is no edit of the design's own, so that whoever edits no ledger
    /// carries nothing of how one is edited.
    ///
    /// # Errors
    /// [`EditError`] says why it was refused.
    pub fn ledger_edited(&self, edit: &LedgerEdit) -> Result<Self, EditError> {
        self.edited(&Edit::Ledger(self.ledger.edited(edit)?))
    }

    /// The design after an edit of a plan as an answer to it ([`Edit::plan`]): what the edit makes of it keeps its id and
    /// has this name, and the plan as it was stands right before it, with the lowest free id. An edit of anything else
    /// is made as it is.
    ///
    /// # Errors
    /// [`EditError`] says why the edit was refused.
    pub fn answered(&self, edit: &Edit, name: &str) -> Result<Self, EditError> {
        let mut next = self.edited(edit)?;
        let Some(id) = edit.plan().filter(|_| next != *self) else { return Ok(next) };
        let at = self.place_of(id)?;
        next.insert_copy(at, &self.proposals[at].name, self)?;
        next.proposals.swap(at, at + 1);
        next.proposals[at + 1].name = bounded(name, Self::LONGEST_NAME)?;
        next.fits_a_link().then_some(next).ok_or(EditError::LedgerFull)
    }

    /// The design after an edit, whether a link can hold it or not.
    fn done(&self, edit: &Edit) -> Result<Self, EditError> {
        let mut next = self.clone();
        match edit {
            Edit::Measure { field, value } => next.measure(*field, *value)?,
            Edit::MeasureAll(values) => {
                values.iter().try_for_each(|(field, value)| next.measure(*field, Some(*value)))?;
            }
            Edit::MeasureRight(values) => {
                for (field, value) in values {
                    next.measure_right(*field, *value)?;
                }
            }
            Edit::Correct(values) => next.correct_all(values)?,
            Edit::MeasureRear(field, value) => next.measure_rear(*field, *value)?,
            Edit::Source(field, source) => next.truck.sources.set(*field, *source),
            Edit::OwnTruck => next.start_own(),
            Edit::Read(of, side, reading) => read(&mut next.truck.readings, *of, *side, *reading)?,
            Edit::ReadBuilt(of, side, reading) => read(&mut next.built, *of, *side, *reading)?,
            Edit::ReadSettled(of, side, reading) => read(&mut next.settled, *of, *side, *reading)?,
            Edit::SpringKind(kind) => next.truck.stand_on(*kind),
            Edit::SpringArm(arm) => next.truck.spring.arm = *arm,
            Edit::Set(id, change) => next.proposal_mut(*id)?.put_each([Some(*change); 2])?,
            Edit::SetGuessed(id, change) => next.proposal_mut(*id)?.put_guessed(*change)?,
            Edit::SetEach(id, each) => next.proposal_mut(*id)?.put_each(*each)?,
            Edit::SetAll(id, [left, right]) => next.proposal_mut(*id)?.put_all([left, right])?,
            Edit::ChangeSource(id, field, source) => next.proposal_mut(*id)?.state(*field, *source),
            Edit::RearDown(id, value_mm) => next.proposal_mut(*id)?.let_down(*value_mm)?,
            Edit::Clear(id, kind, place) => {
                next.proposal_mut(*id)?.change_all(|proposal| proposal.clear(*kind, *place));
            }
            Edit::AddProposal(name) => {
                next.insert(self.proposals.len(), name, &Proposal::new(ProposalId(0), ""))?;
            }
            Edit::CopyProposal(id, name) => next.insert_copy(self.place_of(*id)?, name, self)?,
            Edit::TakeProposal(taken) => next.insert(self.proposals.len(), &taken.name, taken)?,
            Edit::Lay(id, other) => {
                let proposal = next.proposal_mut(*id)?;
                let name = std::mem::take(&mut proposal.name);
                *proposal = Proposal { id: *id, name, ..other.clone() };
            }
            Edit::MoveProposal(id, to) => {
                let proposal = next.proposals.remove(self.place_of(*id)?);
                next.proposals.insert((*to).min(next.proposals.len()), proposal);
            }
            Edit::RemoveProposal(id) => {
                next.proposal_mut(*id)?;
                next.proposals.retain(|proposal| proposal.id != *id);
            }
            Edit::RenameProposal(id, name) => {
                next.proposal_mut(*id)?.name = bounded(name, Self::LONGEST_NAME)?;
            }
            Edit::Ledger(ledger) => next.ledger.clone_from(ledger),
            Edit::Work(text) => next.work = bounded(text, Self::LONGEST_NOTE)?,
            Edit::Title(title) => next.title = bounded(title, Self::LONGEST_NAME)?,
            Edit::Note(note) => next.note = bounded(note, Self::LONGEST_NOTE)?,
            Edit::Replace(design) => next = (**design).clone(),
        }
        Ok(next)
    }

    fn measure_rear(&mut self, field: RearField, value: Option<f64>) -> Result<(), EditError> {
        self.truck.rear.put(field, value).ok_or(EditError::RearOutOfLimits(field))
    }

    fn measure(&mut self, field: Field, value: Option<f64>) -> Result<(), EditError> {
        let kept = match value {
            Some(value) => Some(field.accept(value).ok_or(EditError::OutOfLimits(field))?),
            None if field.is_optional() => None,
            None => return Err(EditError::NeedsValue(field)),
        };
        field.put(&mut self.truck, kept);
        // A measured number stays measured; the demo's own numbers count as such too. A guess is one no longer.
        let sources = &mut self.truck.sources;
        if [sources.rule(), sources.of(field)].contains(&Source::Assumed) {
            sources.set(field, field.source_when_entered());
        }
        Ok(())
    }

    fn correct_all(&mut self, values: &[(Side, Field, f64)]) -> Result<(), EditError> {
        for (side, field, value) in values.iter().copied() {
            let kept = field.accept(value).ok_or(EditError::OutOfLimits(field))?;
            match side {
                Side::Left => field.put(&mut self.truck, Some(kept)),
                Side::Right => self.measure_right(field, Some(kept))?,
            }
        }
        Ok(())
    }

    fn measure_right(&mut self, field: Field, value: Option<f64>) -> Result<(), EditError> {
        if !field.is_sided() {
            return Err(EditError::OneForBoth(field));
        }
        let kept = match value {
            Some(value) => Some(field.accept(value).ok_or(EditError::OutOfLimits(field))?),
            None => None,
        };
        self.truck.right.set(field, kept);
        Ok(())
    }

    /// Nothing of the truck is known yet, and what the demo is called and would be changed to says
    /// nothing of it.
    fn start_own(&mut self) {
        let demo = demo();
        self.proposals.retain(|proposal| !demo.proposals.contains(proposal));
        if self.title == demo.title {
            self.title.clear();
        }
        self.truck.sources = Sources::all(Source::Assumed);
        self.truck.sources.follow(Staying::default());
        self.truck.readings = Readings::NONE;
        self.built = Readings::NONE;
        self.settled = Readings::NONE;
        self.work.clear();
        self.truck.rear = RearAxle::UNKNOWN;
        // A guess of where another truck's shock or joint ends the travel, or its brake fills its rim, is worth nothing.
        let is_another_s =
            |field: &&Field| matches!(field.group(), Group::Shock | Group::Joints | Group::Brake);
        for field in Field::ALL.iter().filter(is_another_s) {
            field.put(&mut self.truck, None);
        }
    }

    /// A proposal like another, under a name and an id of its own.
    fn insert(&mut self, at: usize, name: &str, like: &Proposal) -> Result<(), EditError> {
        if self.proposals.len() >= MOST_PROPOSALS {
            return Err(EditError::TooManyProposals);
        }
        let name = bounded(name, Self::LONGEST_NAME)?;
        self.proposals.insert(at, Proposal { id: self.free_id(), name, ..like.clone() });
        Ok(())
    }

    /// A proposal of another design right behind its place.
    fn insert_copy(&mut self, at: usize, name: &str, of: &Self) -> Result<(), EditError> {
        self.insert(at + 1, name, &of.proposals[at])
    }

    fn place_of(&self, id: ProposalId) -> Result<usize, EditError> {
        self.proposals.iter().position(|proposal| proposal.id == id).ok_or(EditError::NoProposal)
    }

    fn proposal_mut(&mut self, id: ProposalId) -> Result<&mut Proposal, EditError> {
        let found = self.proposals.iter_mut().find(|proposal| proposal.id == id);
        found.ok_or(EditError::NoProposal)
    }
}

/// Puts a reading among others, or takes it out.
fn read(
    readings: &mut Readings,
    of: Readable,
    side: Side,
    reading: Option<Reading>,
) -> Result<(), EditError> {
    readings.set(of, side, reading).map_err(|fault| EditError::Reading(of, fault))
}

impl Proposal {
    fn put_each(&mut self, each: [Option<Change>; 2]) -> Result<(), EditError> {
        let Some(one) = each[0].or(each[1]) else { return Ok(()) };
        let (kind, place) = one.slot();
        let mut kept = [None; 2];
        for (kept, change) in kept.iter_mut().zip(each) {
            if let Some(change) = change {
                let is_there = change.slot() == (kind, place);
                *kept = Some(change.kept().filter(|_| is_there).ok_or(EditError::Change(kind))?);
            }
        }
        if kind.is_rear() && kept[0] != kept[1] {
            return Err(EditError::ChangeForBoth(kind));
        }
        self.change_all(|proposal| proposal.set_each(kind, place, kept));
        Ok(())
    }

    fn put_all(&mut self, each: [&[Change]; 2]) -> Result<(), EditError> {
        let mut next = Self::new(self.id, "");
        for change in each.concat() {
            let (kind, place) = change.slot();
            let at = |changes: &[Change]| changes.iter().find(|here| here.slot() == (kind, place)).copied();
            next.put_each(each.map(at))?;
        }
        self.change_all(|proposal| (proposal.changes, proposal.own) = (next.changes, next.own));
        Ok(())
    }

    /// Puts a change on both sides, every number of it a guess.
    fn put_guessed(&mut self, change: Change) -> Result<(), EditError> {
        let (kind, place) = change.slot();
        self.put_each([Some(change); 2])?;
        for number in 0..kind.numbers().len() {
            self.state((kind, place, number), Source::Assumed);
        }
        Ok(())
    }

    fn state(&mut self, field: ChangeField, source: Source) {
        self.sources.set(field, source);
        self.settle_sources();
    }

    fn settle_sources(&mut self) {
        let changes = self.every();
        self.sources.keep_to(&changes);
    }

    /// Takes what is said elsewhere of its numbers; of changes that it does not have, nothing.
    pub fn take_sources(&mut self, sources: ChangeSources) {
        self.sources = sources;
        self.settle_sources();
    }

    fn let_down(&mut self, value_mm: Option<f64>) -> Result<(), EditError> {
        let kept = value_mm.map(|mm| Self::accept_rear_down(mm).ok_or(EditError::RearDown));
        self.rear_down_mm = kept.transpose()?;
        Ok(())
    }

    /// Does something to the changes; what was said of numbers that it alters is forgotten.
    fn change_all(&mut self, work: impl FnOnce(&mut Self)) {
        let before = self.every();
        work(self);
        let after = self.every();
        self.sources.settle(&before, &after);
    }
}
