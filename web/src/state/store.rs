//! The design on the page with its past and future, and what is looked at of it.

use crate::signals::{Derived, Value};
use truck::{Design, Edit, EditError, Side};

/// What is on the sketch.
pub use truck::Which as Selected;

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
    /// What is shown in its place while a drag lasts.
    draft: Value<Option<Design>>,
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
        let draft = Value::new(None::<Design>);
        let shown = Derived::new(move || draft.get().unwrap_or_else(|| committed.get()));
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

    /// The same, only looked at.
    pub(crate) fn with_committed<R>(&self, look: impl FnOnce(&Design) -> R) -> R {
        self.committed.with(look)
    }

    /// The design without a draft, without following it.
    #[must_use]
    pub fn committed_now(&self) -> Design {
        self.committed.now()
    }

    /// Shows an edit without making it: at most once a frame of a drag. Of a refused one what was shown stays.
    ///
    /// # Errors
    /// [`EditError`] says why it was refused.
    #[inline(never)]
    pub fn preview(&self, edit: &Edit) -> Result<(), EditError> {
        let drafted = self.committed.with_now(|design| design.edited(edit))?;
        self.draft.set(Some(drafted));
        Ok(())
    }

    /// Drops the draft.
    #[inline(never)]
    pub fn cancel(&self) {
        if self.draft.with_now(Option::is_some) {
            self.draft.set(None);
        }
    }

    /// Makes an edit: one step to undo, where it changes anything, which it gives. A refused edit changes
    /// nothing.
    ///
    /// # Errors
    /// [`EditError`] says why it was refused.
    #[inline(never)]
    pub fn edit(&self, edit: &Edit) -> Result<bool, EditError> {
        self.make(edit, self.number.now(), None)
    }

    /// Puts another design in its place: one step to undo, which brings back the number and the
    /// look at what was there before. Gives whether it is another.
    pub fn replace(&self, design: Design, number: usize, look: Look) -> bool {
        // A design is refused nowhere: it was checked where it came from.
        self.make(&Edit::Replace(Box::new(design)), number, Some(look)).unwrap_or(false)
    }

    #[inline(never)]
    fn make(&self, edit: &Edit, number: usize, look: Option<Look>) -> Result<bool, EditError> {
        let before = self.committed.now();
        let edited = before.edited(edit);
        self.draft.set(None);
        let after = edited?;
        let was = self.number.now();
        self.number.set(number);
        let is_step = after != before;
        if is_step {
            self.history.update(|history| history.note(Step { design: before, number: was, look }));
            self.committed.set(after);
        }
        Ok(is_step)
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
