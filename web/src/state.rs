//! What the page holds, in three kinds that never mix: the design with its
//! history, the reader's preferences, and the moment's view.

use crate::browser::aside::Aside;
use crate::browser::shelf::Shelf;
use crate::hunt::Hunt;
use crate::signals::{Derived, Value};
use drawing::{Aspect, Handle, Units};
use sharing::Shared;
use std::ops::Deref;
use truck::{Design, Edit, EditError, ProposalId, Side};

/// Most steps that can be undone.
const MOST_UNDO: usize = 200;

/// Past and future of a design, or of whatever goes with it.
#[derive(Clone, Debug, PartialEq)]
pub struct History<T = Design> {
    past: Vec<T>,
    future: Vec<T>,
}

impl<T> Default for History<T> {
    fn default() -> Self {
        Self { past: Vec::new(), future: Vec::new() }
    }
}

impl<T> History<T> {
    /// Notes the design that an edit is about to replace.
    pub fn note(&mut self, before: T) {
        if self.past.len() == MOST_UNDO {
            self.past.remove(0);
        }
        self.past.push(before);
        self.future.clear();
    }

    /// The design before `now`, which becomes the one to redo.
    pub fn back(&mut self, now: T) -> Option<T> {
        let before = self.past.pop()?;
        self.future.push(now);
        Some(before)
    }

    /// The design after `now`, which becomes the one to undo.
    pub fn forth(&mut self, now: T) -> Option<T> {
        let after = self.future.pop()?;
        self.past.push(now);
        Some(after)
    }
}

/// What is looked at, and in which pose: a design that is opened brings its own, and undo the one before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// What is on the sketch.
    pub selected: Selected,
    /// The side of the truck.
    pub side: Side,
    /// Travel, + bump, mm.
    pub travel_mm: f64,
    /// Steer, + to the left, rad.
    pub steer_rad: f64,
}

/// A design with its number on the shelf.
#[derive(Clone, Debug, PartialEq)]
struct Step {
    design: Design,
    number: usize,
    /// How it was looked at when another was opened over it; `None` on both sides of an edit.
    look: Option<Look>,
}

/// The one mutable design on the page. Copy it freely; it never hands out its signals.
#[derive(Clone, Copy, Debug)]
pub struct Store {
    committed: Value<Design>,
    draft: Value<Option<Edit>>,
    /// Which of the designs of this visit it is, by its number on the shelf.
    number: Value<usize>,
    history: Value<History<Step>>,
    shown: Derived<Design>,
}

impl Store {
    /// A store that opens with `design`.
    #[must_use]
    pub fn new(design: Design) -> Self {
        let committed = Value::new(design);
        let draft = Value::new(None::<Edit>);
        let shown = Derived::new(move || {
            committed.with(|design| {
                let drafted = draft.with(|edit| edit.as_ref().map(|edit| design.edited(edit)));
                drafted.and_then(Result::ok).unwrap_or_else(|| design.clone())
            })
        });
        let history = Value::new(History::default());
        Self { committed, draft, number: Value::new(0), history, shown }
    }

    /// The design with the draft of a drag on it: what every view reads.
    #[must_use]
    pub(crate) const fn shown(&self) -> Derived<Design> {
        self.shown
    }

    /// The design without a draft: what links, files and storage read.
    #[must_use]
    pub fn committed(&self) -> Design {
        self.committed.get()
    }

    /// The design without a draft, without following it.
    #[must_use]
    pub fn committed_now(&self) -> Design {
        self.committed.now()
    }

    /// Shows an edit without making it: at most once a frame of a drag.
    #[inline(never)]
    pub fn preview(&self, edit: Edit) {
        self.draft.set(Some(edit));
    }

    /// Drops the draft.
    #[inline(never)]
    pub fn cancel(&self) {
        if self.draft.with_now(Option::is_some) {
            self.draft.set(None);
        }
    }

    /// Makes an edit: one step to undo. A refused edit changes nothing.
    ///
    /// # Errors
    /// [`EditError`] says why it was refused.
    #[inline(never)]
    pub fn edit(&self, edit: &Edit) -> Result<(), EditError> {
        self.make(edit, self.number.now(), None)
    }

    /// Puts another design in its place: one step to undo, which brings back the number and the
    /// look at what was there before.
    pub fn open(&self, design: Design, number: usize, look: Look) {
        // A design is refused nowhere: it was checked where it came from.
        let _ = self.make(&Edit::Replace(Box::new(design)), number, Some(look));
    }

    #[inline(never)]
    fn make(&self, edit: &Edit, number: usize, look: Option<Look>) -> Result<(), EditError> {
        let before = self.committed.now();
        let edited = before.edited(edit);
        self.draft.set(None);
        if let Ok(after) = &edited {
            let was = self.number.now();
            self.number.set(number);
            if *after != before {
                self.history.update(|history| history.note(Step { design: before, number: was, look }));
                self.committed.set(after.clone());
            }
        }
        edited.map(|_| ())
    }

    /// Which of the designs of this visit it is, without following it.
    #[must_use]
    pub fn number_now(&self) -> usize {
        self.number.now()
    }

    /// The same, followed.
    #[must_use]
    pub(crate) fn number(&self) -> usize {
        self.number.get()
    }

    /// Takes the last edit back, from what is looked at now; gives what was looked at before where
    /// that was the opening of another design.
    pub fn undo(&self, look: Look) -> Option<Look> {
        self.turn(true, look)
    }

    /// Makes the last undone edit again, in the same way.
    pub fn redo(&self, look: Look) -> Option<Look> {
        self.turn(false, look)
    }

    #[inline(never)]
    fn turn(&self, back: bool, look: Look) -> Option<Look> {
        self.draft.set(None);
        let mut history = self.history.now();
        let steps = if back { &history.past } else { &history.future };
        let look = steps.last()?.look.map(|_| look);
        let now = Step { design: self.committed.now(), number: self.number.now(), look };
        let other = if back { history.back(now) } else { history.forth(now) }?;
        self.history.set(history);
        self.number.set(other.number);
        self.committed.set(other.design);
        other.look
    }

    /// Whether there is an edit to take back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        self.history.with(|history| !history.past.is_empty())
    }

    /// Whether there is an edit to make again.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        self.history.with(|history| !history.future.is_empty())
    }
}

/// What is on the sketch: the truck as measured, or a proposal over it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Selected {
    /// The truck before any change.
    AsMeasured,
    /// A proposal, by its id.
    Proposal(ProposalId),
}

impl Selected {
    /// The proposal's id, if one is selected.
    #[must_use]
    pub const fn proposal(self) -> Option<ProposalId> {
        match self {
            Self::AsMeasured => None,
            Self::Proposal(id) => Some(id),
        }
    }
}

/// The panels, in the order of the menu.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Panel {
    /// The changes of the proposal.
    Parts,
    /// The proposals beside each other.
    Compare,
    /// Curves over the travel.
    Travel,
    /// What comes near what.
    Clearance,
    /// Which parts bring it down.
    Ways,
    /// How to set it up.
    Setup,
    /// Which parts go together.
    BoltUp,
    /// The measured numbers.
    Measure,
    /// Lessons on the sketch.
    Lessons,
    /// Every design that is kept in the browser.
    Kept,
    /// Link, file, picture.
    Share,
    /// Cautions and limits.
    About,
}

impl Panel {
    /// Every panel.
    pub(crate) const ALL: [Self; 12] = [
        Self::Parts,
        Self::Compare,
        Self::Travel,
        Self::Clearance,
        Self::Ways,
        Self::Setup,
        Self::BoltUp,
        Self::Measure,
        Self::Lessons,
        Self::Kept,
        Self::Share,
        Self::About,
    ];

    /// Its name in the menu.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Parts => "Parts",
            Self::Compare => "Compare",
            Self::Travel => "Travel",
            Self::Clearance => "Clearance",
            Self::Ways => "Ways down",
            Self::Setup => "Set-up",
            Self::BoltUp => "Bolts up",
            Self::Measure => "Measure",
            Self::Lessons => "Lessons",
            Self::Kept => "Kept",
            Self::Share => "Share",
            Self::About => "Cautions",
        }
    }
}

/// The reader's preferences: kept in the browser, never in a link's design.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Preferences {
    /// Inches or millimetres.
    pub(crate) units: Value<Units>,
    /// Whether the reader chose the units; a link's units then do not count.
    pub(crate) units_chosen: Value<bool>,
    /// Whether drags snap to sixteenths or whole millimetres.
    pub(crate) snap: Value<bool>,
}

/// The moment's view: kept nowhere, never undone.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Session {
    /// What is on the sketch.
    pub(crate) selected: Value<Selected>,
    /// The side of the truck that is looked at and measured.
    pub(crate) side: Value<Side>,
    /// Travel shown, mm, + bump, from the rest of what is shown.
    pub(crate) travel_mm: Value<f64>,
    /// Heading of the wheel on the sketch with the truck at rest, + to the left, rad.
    pub(crate) steer_rad: Value<f64>,
    /// From where the truck is looked at, where there is room for one picture.
    pub(crate) aspect: Value<Aspect>,
    /// The handle that keys act on.
    pub(crate) handle: Value<Option<Handle>>,
    /// What is being dragged, in words, and on which picture, while a drag lasts.
    pub(crate) dragging: Value<Option<(Aspect, String)>>,
    /// How often a drag has come to rest without being let go.
    pub(crate) rests: Value<u32>,
    /// The open panel.
    pub(crate) panel: Value<Panel>,
    /// What a link would have replaced, or the link, whichever is not on the page.
    pub(crate) aside: Value<Option<Aside>>,
    /// One sentence at the top of the page.
    pub(crate) notice: Value<Option<Notice>>,
    /// The search for ways down.
    pub(crate) hunt: Value<Hunt>,
    /// The lesson under way.
    pub(crate) lesson: Value<Option<Lesson>>,
    /// Whether all type is large, to be read across a room.
    pub(crate) projector: Value<bool>,
}

/// A lesson under way.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Lesson {
    /// Ten times the lesson and the step, each counted from 1: as in a link.
    pub(crate) at: u8,
    /// What was on the page before, which comes back when the lesson is left.
    pub(crate) own: Shared,
    /// Its number on the shelf.
    pub(crate) number: usize,
}

/// A sentence at the top of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Notice {
    /// The sentence.
    pub(crate) text: String,
    /// Whether something went wrong.
    pub(crate) wrong: bool,
}

impl Lesson {
    /// The id of a step's words in `index.html`.
    pub(crate) fn words(at: u8) -> String {
        ["words-lesson-", &(at / 10).to_string(), "-", &(at % 10).to_string()].concat()
    }
}

impl Session {
    /// What is looked at, not followed.
    pub(crate) fn look(&self) -> Look {
        Look {
            selected: self.selected.now(),
            side: self.side.now(),
            travel_mm: self.travel_mm.now(),
            steer_rad: self.steer_rad.now(),
        }
    }

    /// Looks at something else.
    #[inline(never)]
    pub(crate) fn look_at(&self, look: Look) {
        self.selected.set(look.selected);
        self.side.set(look.side);
        self.travel_mm.set(look.travel_mm);
        self.steer_rad.set(look.steer_rad);
    }

    /// The size of a drawing's type, CSS px, where `plain_px` is read at arm's length.
    pub(crate) fn type_px(&self, plain_px: f64) -> f64 {
        if self.projector.get() { plain_px * 1.5 } else { plain_px }
    }

    /// Says something at the top of the page.
    pub(crate) fn say(&self, text: impl Into<String>) {
        self.notice.set(Some(Notice { text: text.into(), wrong: false }));
    }

    /// Says at the top of the page what went wrong.
    pub(crate) fn complain(&self, text: impl Into<String>) {
        self.notice.set(Some(Notice { text: text.into(), wrong: true }));
    }
}

/// Everything the page is made of, which stands as long as the page does. Copies are the same page; a closure
/// that keeps one keeps a pointer and not two dozen signals, which made an eighth of the page's code.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Page(&'static Parts);

/// The kinds of state together, for whoever needs them.
#[derive(Debug)]
pub(crate) struct Parts {
    /// The design.
    pub(crate) store: Store,
    /// The reader's preferences.
    pub(crate) preferences: Preferences,
    /// The moment's view.
    pub(crate) session: Session,
    /// What is kept in the browser.
    pub(crate) shelf: Shelf,
    /// What is on the sketch, looked up once however many ask at every frame of a drag.
    selected: Derived<Selected>,
}

impl Deref for Page {
    type Target = Parts;

    fn deref(&self) -> &Parts {
        self.0
    }
}

impl Page {
    /// A page of these.
    pub(crate) fn new(store: Store, preferences: Preferences, session: Session, shelf: Shelf) -> Self {
        let selected = Derived::new(move || {
            let selected = session.selected.get();
            let there = |id| store.shown().with(|design| design.proposal(id).is_some());
            if selected.proposal().is_none_or(there) { selected } else { Selected::AsMeasured }
        });
        Self(Box::leak(Box::new(Parts { store, preferences, session, shelf, selected })))
    }

    /// The reader's units.
    pub(crate) fn units(&self) -> Units {
        self.preferences.units.get()
    }

    /// [`Side::way`] of the side on the sketch, followed.
    pub(crate) fn way(&self) -> f64 {
        self.session.side.get().way()
    }

    /// What is on the sketch: as measured where the selected proposal is gone,
    /// by undo or by a link.
    pub(crate) fn selected(&self) -> Selected {
        self.selected.get()
    }

    /// The same, without following it.
    pub(crate) fn selected_now(&self) -> Selected {
        self.selected.now()
    }

    /// Makes an edit; a refusal is said at the top of the page.
    #[inline(never)]
    pub(crate) fn edit(&self, edit: &Edit) {
        if let Err(why) = self.store.edit(edit) {
            self.session.complain(why.to_string() + ".");
        }
    }

    /// Puts another design on the page: one step to undo.
    pub(crate) fn open(&self, design: Design, number: usize) {
        self.store.open(design, number, self.session.look());
    }

    /// Takes the last edit back; what was said of it is no longer so.
    pub(crate) fn undo(&self) {
        self.turn(Store::undo);
    }

    /// Makes the last undone edit again.
    pub(crate) fn redo(&self) {
        self.turn(Store::redo);
    }

    #[inline(never)]
    fn turn(&self, step: fn(&Store, Look) -> Option<Look>) {
        self.session.notice.set(None);
        if let Some(look) = step(&self.store, self.session.look()) {
            self.session.look_at(look);
        }
    }
}
