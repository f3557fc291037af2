//! The shelf: every design that the person touched, kept as short texts.
//!
//! An entry is a time and a design as a browser keeps it, under an id of its own:
//!
//! ```text
//! entry = time " " design    time: seconds since 1970, decimal; design: see `sharing::to_kept_text`
//! ```
//!
//! What is here is rules over texts; where they are kept is a [`Drawer`]. An
//! entry that cannot be read (damaged, or of a newer Scrubline) is shown as
//! such and is never removed but by the person.

mod carry;

pub use carry::{MOST_VALUES, TakenIn, export, read_item, take_in};

use drawing::{proposal_names, truck_name};
use sharing::{FileError, LinkError, Opening, Shared, code_and_work, from_kept_text, to_kept_text};
use truck::{Design, demo};

/// Most designs that are kept. When one more comes, the oldest goes.
pub const MOST: usize = 40;
/// What is freed at most for one text before room is not the matter: this many times its length.
const ENOUGH: usize = 8;

/// Where texts are kept, each under an id.
pub trait Drawer {
    /// Every id, in any order.
    fn ids(&self) -> Vec<String>;
    /// The text under an id.
    fn get(&self, id: &str) -> Option<String>;
    /// Puts a text under an id, whole or not at all.
    ///
    /// # Errors
    /// [`Refusal`] says why it is not there; what was there before still is.
    fn put(&self, id: &str, text: &str) -> Result<(), Refusal>;
    /// Removes what is under an id.
    fn remove(&self, id: &str);
}

/// Why a text was not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// There is no room.
    Full,
    /// Nothing is kept here at all.
    Closed,
}

/// One text on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its id.
    pub id: String,
    /// The text.
    pub text: String,
}

impl Entry {
    /// When the design was last touched, s since 1970; 0 where that is not said.
    #[must_use]
    pub fn time_s(&self) -> u32 {
        split(&self.text).0
    }

    /// Later touched, or of the same second later made, is more.
    fn rank(&self) -> (u32, &str) {
        (self.time_s(), &self.id)
    }

    /// The design, and how it was last seen.
    ///
    /// # Errors
    /// [`LinkError`] says why it cannot be read.
    pub fn read(&self) -> Result<Shared, LinkError> {
        read(&self.text)
    }

    /// What it is called: the design's title, else what the truck is.
    #[must_use]
    pub fn name(&self) -> String {
        self.read().map_or_else(|_| "A design that cannot be read".to_owned(), |shared| name(&shared))
    }
}

/// Why a design is not opened.
#[derive(Clone, Debug, PartialEq)]
pub enum NotOpened {
    /// It is on the shelf no longer.
    Gone,
    /// What its link or code lacks.
    Link(LinkError),
    /// What its file lacks.
    File(FileError),
}

impl NotOpened {
    /// A plain sentence.
    #[must_use]
    pub fn in_words(&self) -> String {
        match self {
            Self::Gone => "This design is no longer kept.".to_owned(),
            Self::Link(why) => why.to_string(),
            Self::File(why) => why.to_string(),
        }
    }
}

impl From<LinkError> for NotOpened {
    fn from(why: LinkError) -> Self {
        Self::Link(why)
    }
}

/// What came of keeping a design.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Done {
    /// Something was written.
    pub wrote: bool,
    /// It goes on as an entry of its own, since its own was changed elsewhere.
    pub apart: bool,
    /// Names of what was removed to make room, oldest first.
    pub removed: Vec<String>,
    /// They were removed for want of room, not since there were too many.
    pub full: bool,
    /// Why it is not kept.
    pub refused: Option<Refusal>,
}

/// The designs of this visit, and which entry each is kept as.
///
/// Two visits at once have two of these over one drawer: each looks at its
/// entry before it writes.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    works: Vec<Work>,
}

/// A design that was on the page.
#[derive(Clone, Debug)]
struct Work {
    /// Its entry; none before it is touched.
    id: Option<String>,
    /// What this visit knows its entry to hold; without one, what was opened.
    holds: String,
}

impl Shelf {
    /// The number of a design that comes onto the page: of the entry that is the same, else a
    /// new one, which is not kept before it is touched. One that came by link says nothing of its work, and is
    /// the same as the entry that does: it takes that over.
    pub fn begin(&mut self, drawer: &dyn Drawer, design: &mut Design) -> usize {
        let holds = print(design);
        for entry in newest_first(drawer) {
            let there = design_of(&entry.text).unwrap_or_default();
            let (code, work) = code_and_work(&there);
            if there == holds || design.work.is_empty() && code == holds {
                design.work = work.to_owned();
                return self.number(Some(entry.id), there);
            }
        }
        self.number(None, holds)
    }

    /// The number of an entry that comes onto the page, with what it holds.
    ///
    /// # Errors
    /// [`NotOpened`] says why it cannot be read.
    pub fn open(&mut self, drawer: &dyn Drawer, id: &str) -> Result<(usize, Shared), NotOpened> {
        let text = drawer.get(id).ok_or(NotOpened::Gone)?;
        let shared = read(&text)?;
        Ok((self.number(Some(id.to_owned()), print(&shared.design)), shared))
    }

    fn number(&mut self, id: Option<String>, holds: String) -> usize {
        let same = |work: &Work| work.id == id && (id.is_some() || work.holds == holds);
        let at = self.works.iter().position(same).unwrap_or(self.works.len());
        match self.works.get_mut(at) {
            Some(work) => work.holds = holds,
            None => self.works.push(Work { id, holds }),
        }
        at
    }

    /// The entry that a design is kept as.
    #[must_use]
    pub fn entry(&self, number: usize) -> Option<&str> {
        self.works.get(number)?.id.as_deref()
    }

    /// Keeps a design where it was touched since it was opened or last kept. How it is looked at
    /// is kept with it, and is no reason to keep it.
    pub fn keep(&mut self, drawer: &dyn Drawer, number: usize, shared: &Shared, now_s: u32) -> Done {
        let mut done = Done::default();
        let Some(work) = self.works.get_mut(number) else { return done };
        let design = print(&shared.design);
        let there = work.id.as_deref().and_then(|id| drawer.get(id));
        let elsewhere = there.as_deref().is_some_and(|text| {
            let held = design_of(text);
            held.as_ref() != Some(&work.holds) && held.as_ref() != Some(&design)
        });
        let touched = design != work.holds;
        if !touched && (elsewhere || there.is_none()) {
            return done;
        }
        let time_s = if touched { now_s } else { there.as_deref().map_or(now_s, |text| split(text).0) };
        let text = entry_text(time_s, &to_kept_text(shared));
        if there.as_ref() == Some(&text) {
            return done;
        }
        let own = work.id.clone().filter(|_| !elsewhere);
        let id = own.unwrap_or_else(|| free_id(drawer, now_s));
        match put(drawer, &id, &text, &mut done.removed) {
            Ok(()) => {
                done.wrote = true;
                done.apart = elsewhere;
                done.full = !done.removed.is_empty();
                if work.id.as_ref() != Some(&id) {
                    keep_to_most(drawer, &id, &mut done.removed);
                }
                *work = Work { id: Some(id), holds: design };
            }
            Err(why) => done.refused = Some(why),
        }
        done
    }

    /// Whether what this visit has just written was written over elsewhere, both unaware of each
    /// other; the design then counts as touched, and is kept as an entry of its own.
    pub fn overrun(&mut self, drawer: &dyn Drawer, number: usize) -> bool {
        let Some(work) = self.works.get_mut(number) else { return false };
        let there = work.id.as_deref().and_then(|id| drawer.get(id));
        let over = there.is_some_and(|text| design_of(&text).as_ref() != Some(&work.holds));
        if over {
            work.holds.clear();
        }
        over
    }

    /// Removes an entry and gives what it held. A design of it that is on the page stays there
    /// and is kept again when it is touched.
    pub fn remove(&mut self, drawer: &dyn Drawer, id: &str) -> Option<String> {
        let text = drawer.get(id)?;
        drawer.remove(id);
        for work in &mut self.works {
            if work.id.as_deref() == Some(id) {
                work.id = None;
            }
        }
        Some(text)
    }

    /// Puts back what was removed.
    ///
    /// # Errors
    /// [`Refusal`] says why it is not there.
    pub fn put_back(&mut self, drawer: &dyn Drawer, id: &str, text: &str) -> Result<(), Refusal> {
        if drawer.get(id).is_none() {
            drawer.put(id, text)?;
        }
        let design = design_of(text);
        // What is on the page unchanged is that entry again.
        for work in &mut self.works {
            if work.id.is_none() && Some(&work.holds) == design.as_ref() {
                work.id = Some(id.to_owned());
            }
        }
        Ok(())
    }
}

/// What is on the shelf, last touched first.
#[must_use]
pub fn newest_first(drawer: &dyn Drawer) -> Vec<Entry> {
    let entry = |id: String| Some(Entry { text: drawer.get(&id)?, id });
    let mut entries: Vec<Entry> = drawer.ids().into_iter().filter_map(entry).collect();
    sort(&mut entries);
    entries
}

/// Sorts entries, last touched first.
pub fn sort(entries: &mut [Entry]) {
    for sorted in 1..entries.len() {
        let mut at = sorted;
        while at > 0 && entries[at].rank() > entries[at - 1].rank() {
            entries.swap(at, at - 1);
            at -= 1;
        }
    }
}

/// Puts codes on the shelf that were kept in another way, the last one as the newest: the demo is
/// nobody's work, and what is there already is there. Gives the id of the last one.
///
/// # Errors
/// [`Refusal`] says why one is not there.
pub fn take_over(drawer: &dyn Drawer, codes: &[String], now_s: u32) -> Result<Option<String>, Refusal> {
    let mut last = None;
    for code in codes {
        let held = from_kept_text(code).ok().map(|shared| print(&shared.design));
        let entries = newest_first(drawer);
        let same = entries
            .iter()
            .find(|entry| split(&entry.text).1 == code || (held.is_some() && design_of(&entry.text) == held));
        last = match same {
            Some(entry) => Some(entry.id.clone()),
            None if held == Some(print(&demo())) => None,
            None => {
                let id = free_id(drawer, now_s);
                put(drawer, &id, &entry_text(now_s, code), &mut Vec::new())?;
                Some(id)
            }
        };
    }
    Ok(last)
}

fn name(shared: &Shared) -> String {
    let title = &shared.design.title;
    if title.trim().is_empty() {
        return truck_name(&shared.design, shared.opening.units.unwrap_or_default());
    }
    title.clone()
}

/// What entries are called, each with its id: of those that would be called alike, all but the first made by
/// their place among them too.
#[must_use]
pub fn names(entries: &[Entry]) -> Vec<(String, String)> {
    let plain: Vec<String> = entries.iter().map(Entry::name).collect();
    let mut names = Vec::new();
    for (entry, name) in entries.iter().zip(&plain) {
        let is_before = |(other, called): &(&Entry, &String)| *called == name && other.id < entry.id;
        let before = entries.iter().zip(&plain).filter(is_before).count();
        let place = if before == 0 { String::new() } else { [" (", &(before + 1).to_string(), ")"].concat() };
        names.push((entry.id.clone(), name.clone() + &place));
    }
    names
}

/// The names of a design's proposals in a row, in the units in which it was last worked on.
#[must_use]
pub fn proposals(shared: &Shared) -> String {
    let names = proposal_names(&shared.design, shared.opening.units.unwrap_or_default());
    if names.is_empty() { "As it sits".to_owned() } else { names.join(", ") }
}

/// The text of an entry.
#[must_use]
pub fn entry_text(time_s: u32, design: &str) -> String {
    time_s.to_string() + " " + design
}

/// Time and design of an entry's text.
fn split(text: &str) -> (u32, &str) {
    let (time, code) = text.split_once(' ').unwrap_or(("", text));
    (time.parse().unwrap_or(0), code)
}

fn read(text: &str) -> Result<Shared, LinkError> {
    from_kept_text(split(text).1)
}

/// A design in one text: equal where designs are equal, however they were looked at.
fn print(design: &Design) -> String {
    to_kept_text(&Shared { design: design.clone(), opening: Opening::default() })
}

fn design_of(text: &str) -> Option<String> {
    read(text).ok().map(|shared| print(&shared.design))
}

/// An id that is not taken.
fn free_id(drawer: &dyn Drawer, now_s: u32) -> String {
    let mut number = now_s;
    while drawer.get(&number.to_string()).is_some() {
        number += 1;
    }
    number.to_string()
}

/// Puts a text under an id. Where there is no room the oldest entries go, and come back where
/// that does not help.
fn put(drawer: &dyn Drawer, id: &str, text: &str, removed: &mut Vec<String>) -> Result<(), Refusal> {
    let mut result = drawer.put(id, text);
    if result != Err(Refusal::Full) {
        return result;
    }
    let mut gone: Vec<Entry> = Vec::new();
    let mut freed = 0;
    while result == Err(Refusal::Full) && freed < ENOUGH * text.len() {
        let Some(oldest) = oldest(drawer, id) else { break };
        drawer.remove(&oldest.id);
        freed += oldest.text.len();
        gone.push(oldest);
        result = drawer.put(id, text);
    }
    if result.is_err() {
        for entry in &gone {
            let _ = drawer.put(&entry.id, &entry.text);
        }
        return result;
    }
    removed.extend(gone.iter().map(Entry::name));
    result
}

/// Removes the oldest until no more are left than there may be.
fn keep_to_most(drawer: &dyn Drawer, id: &str, removed: &mut Vec<String>) {
    let readable = newest_first(drawer).iter().filter(|entry| entry.read().is_ok()).count();
    let mut over = readable.saturating_sub(MOST);
    while over > 0 {
        let Some(oldest) = oldest(drawer, id) else { return };
        drawer.remove(&oldest.id);
        removed.push(oldest.name());
        over -= 1;
    }
}

/// The entry that goes first: the oldest that can be read, but for one.
fn oldest(drawer: &dyn Drawer, but: &str) -> Option<Entry> {
    let entries = newest_first(drawer).into_iter().rev().filter(|entry| entry.id != but);
    entries.into_iter().find(|entry| entry.read().is_ok())
}
