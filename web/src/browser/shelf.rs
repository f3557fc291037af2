//! The shelf in this browser: designs onto it and from it, and what is to be said of that.

use crate::browser::aside;
use crate::browser::storage::{self, Entries};
use crate::shelf::{self, Drawer, Entry, NotOpened, Refusal};
use crate::signals::Value;
use crate::state::{Notice, Tone};
use leptos::prelude::set_timeout;
use sharing::{Shared, Tree, from_code};
use std::time::Duration;
use truck::Design;

/// The id of the entry that was last worked on.
const AT: &str = "at";
/// Where earlier versions kept the one design they kept, as its link code.
const LAST: &str = "last";
/// Two writings within this time may not have known of each other, ms.
const AT_ONCE_MS: f64 = 250.0;

/// Where there was no room it is tried again after this: another tab or the browser may have made some.
const AGAIN: Duration = Duration::from_secs(5);

/// What this tab knows of the shelf.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shelf {
    works: Value<shelf::Shelf>,
    /// Why the last design could not be kept, once that has been said.
    refused: Value<Option<Refusal>>,
    /// Whether it is to be tried again.
    waits: Value<bool>,
    /// When this tab last wrote.
    wrote_ms: Value<f64>,
    /// Counts what has changed on the shelf.
    changes: Value<u32>,
    /// What was removed during this visit.
    gone: Value<Vec<Entry>>,
}

/// What came of keeping a design.
pub(crate) struct Came {
    /// What is to be said of it.
    pub(crate) said: Option<Notice>,
    /// Whether there was no room, and it is not yet to be tried again.
    pub(crate) again: bool,
}

/// Now, s since 1970.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "it fits for another eighty years"
)]
fn now_s() -> u32 {
    (js_sys::Date::now() * 1e-3) as u32
}

impl Shelf {
    /// The shelf, and the design that was last worked on, where there is one. It is the visit's
    /// design number 0; without one the demo is.
    pub(crate) fn begin(otherwise: impl FnOnce() -> Shared) -> (Self, Shared) {
        take_over();
        let mut works = shelf::Shelf::default();
        let at = storage::kept(AT).and_then(|id| works.open(&Entries, &id).ok());
        let newest = || {
            let entry = shelf::newest_first(&Entries).into_iter().find(|entry| entry.read().is_ok())?;
            works.open(&Entries, &entry.id).ok()
        };
        let own = at.or_else(newest).map(|(_, shared)| shared);
        let own = own.unwrap_or_else(|| {
            // Still under its old key where the shelf has no room for it.
            let kept = storage::kept(LAST).and_then(|code| from_code(&code).ok());
            let mut own = kept.unwrap_or_else(otherwise);
            works.begin(&Entries, &mut own.design);
            own
        });
        let shelf = Self {
            works: Value::new(works),
            refused: Value::new(None),
            waits: Value::new(false),
            wrote_ms: Value::new(0.0),
            changes: Value::new(0),
            gone: Value::new(Vec::new()),
        };
        (shelf, own)
    }

    fn work<U>(&self, act: impl FnOnce(&mut shelf::Shelf) -> U) -> U {
        let mut works = self.works.now();
        let came = act(&mut works);
        self.works.set(works);
        self.changes.update(|changes| *changes += 1);
        came
    }

    /// The number of a design that comes onto the page.
    pub(crate) fn number(&self, design: &mut Design) -> usize {
        self.work(|works| works.begin(&Entries, design))
    }

    /// The entry of a design of this visit, followed.
    pub(crate) fn entry(&self, number: usize) -> Option<String> {
        self.works.with(|works| works.entry(number).map(str::to_owned))
    }

    /// What is on the shelf and what was removed during this visit, last touched first, followed.
    pub(crate) fn entries(&self) -> Vec<Entry> {
        self.changes.get();
        let mut entries = shelf::newest_first(&Entries);
        entries.extend(self.gone.get());
        shelf::sort(&mut entries);
        entries
    }

    /// The text of an entry, followed; none where it was removed.
    pub(crate) fn text(&self, id: &str) -> Option<String> {
        self.changes.get();
        Entries.get(id)
    }

    /// What an entry held that was removed during this visit.
    pub(crate) fn removed(&self, id: &str) -> Option<Entry> {
        self.gone.with(|gone| gone.iter().find(|entry| entry.id == id).cloned())
    }

    /// Removes an entry.
    pub(crate) fn remove(&self, id: &str) {
        if let Some(text) = self.work(|works| works.remove(&Entries, id)) {
            self.gone.update(|gone| gone.push(Entry { id: id.to_owned(), text }));
        }
    }

    /// Puts back an entry that was removed.
    ///
    /// # Errors
    /// A plain sentence where it is not kept.
    pub(crate) fn put_back(&self, entry: &Entry) -> Result<(), &'static str> {
        let put = self.work(|works| works.put_back(&Entries, &entry.id, &entry.text));
        put.map_err(|why| self.refusal(why))?;
        self.gone.update(|gone| gone.retain(|other| other.id != entry.id));
        Ok(())
    }

    /// The whole shelf.
    pub(crate) fn export(&self) -> Tree {
        shelf::export(&Entries)
    }

    /// Keeps a design of this visit, where it was touched.
    #[inline(never)]
    pub(crate) fn keep(&self, number: usize, shared: &Shared) -> Came {
        let done = self.work(|works| works.keep(&Entries, number, shared, now_s()));
        let plain = |text: &str| Some(Notice { text: text.to_owned(), tone: Tone::Plain });
        let mut said = None;
        if done.refused.is_none() {
            if done.wrote {
                if self.refused.with_now(Option::is_some) {
                    said = plain("There is room again, and what you do is kept.");
                }
                self.refused.set(None);
                self.wrote_ms.set(js_sys::Date::now());
            }
            self.remember(number);
        }
        if let Some(why) = done.refused
            && self.refused.now() != Some(why)
        {
            said = Some(Notice { text: self.refusal(why).to_owned(), tone: Tone::Wrong });
        } else if !done.removed.is_empty() {
            let names = done.removed.join(", ");
            let few = "This browser has no room left. The oldest kept designs went to make some: ";
            let most = "Forty designs are kept. The oldest went to make room: ";
            let text = [if done.full { few } else { most }, &names, "."].concat();
            said = Some(Notice { text, tone: Tone::Wrong });
        } else if done.apart {
            let text = "This design was changed in another tab too. Both are kept: see My trucks.".to_owned();
            said = Some(Notice { text, tone: Tone::Wrong });
        }
        Came { said, again: done.refused == Some(Refusal::Full) && !self.waits.now() }
    }

    /// Tries again after a while.
    pub(crate) fn again(self, keep: impl FnOnce() + 'static) {
        self.waits.set(true);
        let again = move || {
            self.waits.set(false);
            keep();
        };
        set_timeout(again, AGAIN);
    }

    /// Notes which entry is worked on.
    pub(crate) fn remember(&self, number: usize) {
        let id = self.works.with_now(|works| works.entry(number).map(str::to_owned));
        if id.is_some() && id != storage::kept(AT) {
            let _ = storage::keep(AT, &id.unwrap_or_default());
        }
    }

    /// Whether another tab has just written over what this one wrote; the panel is in step with it.
    pub(crate) fn is_overrun(&self, number: usize) -> bool {
        let at_once = js_sys::Date::now() < self.wrote_ms.now() + AT_ONCE_MS;
        self.work(|works| at_once && works.overrun(&Entries, number))
    }

    /// A design from the shelf, and its number.
    ///
    /// # Errors
    /// [`NotOpened`] says why it cannot be read.
    pub(crate) fn take_out(&self, id: &str) -> Result<(usize, Shared), NotOpened> {
        self.work(|works| works.open(&Entries, id))
    }

    /// Takes the designs of a file, and says what came of it.
    pub(crate) fn take_in(&self, tree: &Tree) -> Notice {
        let came = self.work(|_| shelf::take_in(&Entries, tree, now_s()));
        let tone = if came.bad.is_empty() { Tone::Plain } else { Tone::Wrong };
        Notice { text: came.in_words(), tone }
    }

    fn refusal(&self, why: Refusal) -> &'static str {
        self.refused.set(Some(why));
        match why {
            Refusal::Full => {
                "This browser has no room left, and what you do is not kept. Copy the link or save the file under Send before you leave."
            }
            Refusal::Closed => {
                "This browser keeps nothing for this page. Copy the link or save the file under Send before you leave."
            }
        }
    }
}

/// What an earlier version kept, once.
fn take_over() {
    let Some(last) = storage::kept(LAST) else { return };
    let mut codes: Vec<String> = aside::own_code().into_iter().collect();
    codes.push(last);
    if let Ok(id) = shelf::take_over(&Entries, &codes, now_s()) {
        storage::forget(LAST);
        if let Some(id) = id {
            let _ = storage::keep(AT, &id);
        }
    }
}
