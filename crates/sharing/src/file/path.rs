//! Where in a tree something stands, written out only when it must be said.
//!
//! What is wrong is kept, and the first of it is said in the end: what is read of it stands for nothing (a zero,
//! no text, no members), so the many places that read say nothing of it themselves, which makes them half as large.

use super::error::FileError;
use super::tree::{Tree, number_text};
use crate::shared::tidy;
use std::cell::OnceCell;

/// Longest key that is repeated in a message, bytes.
const LONGEST_SAID: usize = 40;

/// What was wrong first.
pub(super) type Wrong = OnceCell<FileError>;

/// A branch of a tree and how it was reached.
#[derive(Clone, Copy, Debug)]
pub(super) struct Branch<'a> {
    pub(super) tree: &'a Tree,
    step: Step<'a>,
}

#[derive(Clone, Copy, Debug)]
enum Step<'a> {
    Top(&'a Wrong),
    Key(&'a Branch<'a>, &'a str),
    Place(&'a Branch<'a>, usize),
}

/// The members of an object, none of them twice.
#[derive(Clone, Copy, Debug)]
pub(super) struct Members<'a> {
    branch: &'a Branch<'a>,
    members: &'a [(String, Tree)],
}

impl<'a> Branch<'a> {
    pub(super) const fn top(tree: &'a Tree, wrong: &'a Wrong) -> Self {
        Self { tree, step: Step::Top(wrong) }
    }

    /// The path in words of the file.
    pub(super) fn path(&self) -> String {
        match self.step {
            Step::Top(_) => String::new(),
            Step::Key(parent, key) => {
                let mut path = parent.path();
                if !path.is_empty() {
                    path.push('.');
                }
                path.push_str(&tidy(key, LONGEST_SAID, false));
                path
            }
            Step::Place(parent, place) => {
                let mut path = parent.path();
                path.push('[');
                path.push_str(&place.to_string());
                path.push(']');
                path
            }
        }
    }

    /// Keeps what is wrong, unless something was before.
    #[inline(never)]
    pub(super) fn refuse(&self, why: FileError) {
        match self.step {
            Step::Top(wrong) => _ = wrong.set(why),
            Step::Key(parent, _) | Step::Place(parent, _) => parent.refuse(why),
        }
    }

    #[inline(never)]
    pub(super) fn shape(&self, expected: &'static str) {
        let path = self.path();
        let path = if path.is_empty() { "the whole".to_owned() } else { path };
        self.refuse(FileError::Shape { path, expected });
    }

    #[inline(never)]
    pub(super) fn number(&self) -> f64 {
        match self.tree {
            Tree::Number(value) if value.is_finite() => *value,
            _ => {
                self.shape("a number");
                0.0
            }
        }
    }

    #[inline(never)]
    pub(super) fn text(&self) -> &'a str {
        match self.tree {
            Tree::Text(text) => text,
            _ => {
                self.shape("text");
                ""
            }
        }
    }

    /// A whole number from 0 to 255.
    #[inline(never)]
    pub(super) fn byte(&self) -> u8 {
        let value = self.number();
        whole(value).unwrap_or_else(|| {
            self.shape("a whole number from 0 to 255");
            0
        })
    }

    /// Text of at most so many bytes.
    #[inline(never)]
    pub(super) fn short_text(&self, most: usize) -> &'a str {
        let text = self.text();
        if text.len() > most {
            self.too_long();
        }
        text
    }

    /// Reads each item of a list.
    #[inline(never)]
    pub(super) fn each_item(&self, read: &mut dyn FnMut(&Branch<'_>)) {
        let Tree::List(items) = self.tree else {
            return self.shape("a list");
        };
        for (place, tree) in items.iter().enumerate() {
            read(&Branch { tree, step: Step::Place(self, place) });
        }
    }

    /// Reads each member of an object.
    pub(super) fn each(&self, read: &mut dyn FnMut(&str, &Branch<'_>)) {
        self.members().each(read);
    }

    #[inline(never)]
    pub(super) fn members(&self) -> Members<'_> {
        let Tree::Object(members) = self.tree else {
            self.shape("an object");
            return Members { branch: self, members: &[] };
        };
        let found = Members { branch: self, members };
        for (place, (key, tree)) in members.iter().enumerate() {
            if members[..place].iter().any(|(other, _)| other == key) {
                found.branch(key, tree).twice();
                return Members { branch: self, members: &[] };
            }
        }
        found
    }

    #[inline(never)]
    pub(super) fn newer(&self) {
        self.refuse(FileError::Newer(self.path()));
    }

    /// What is known here; nothing is a newer Scrubline's.
    pub(super) fn known<T>(&self, found: Option<T>) -> Option<T> {
        if found.is_none() {
            self.newer();
        }
        found
    }

    #[inline(never)]
    pub(super) fn twice(&self) {
        self.refuse(FileError::Twice(self.path()));
    }

    #[inline(never)]
    pub(super) fn too_long(&self) {
        self.refuse(FileError::TooLong(self.path()));
    }

    /// Says that the value of a text is not known here.
    #[inline(never)]
    pub(super) fn newer_word(&self, word: &str) {
        let mut path = self.path();
        path.push_str(": ");
        path.push_str(&tidy(word, LONGEST_SAID, false));
        self.refuse(FileError::Newer(path));
    }

    /// What can be entered; `None` lies outside the limits.
    pub(super) fn within<T>(&self, found: Option<T>, label: &'static str, limits: (f64, f64)) -> Option<T> {
        if found.is_none() {
            self.out_of_limits(label, limits);
        }
        found
    }

    /// A number that lies outside its limits.
    #[inline(never)]
    pub(super) fn out_of_limits(&self, label: &'static str, (low, high): (f64, f64)) {
        let (low, high) = (number_text(low), number_text(high));
        self.refuse(FileError::OutOfLimits { path: self.path(), label, low, high });
    }

    /// One of a list by its word.
    pub(super) fn one_of<T: Copy>(&self, list: &[(T, &str)]) -> Option<T> {
        let text = self.text();
        let found = list.iter().find(|(_, word)| *word == text).map(|(one, _)| *one);
        self.known_word(found, text)
    }

    /// One of a list by its key.
    pub(super) fn keyed<T: Copy>(&self, list: &[T], key: impl Fn(T) -> &'static str) -> Option<T> {
        let text = self.text();
        self.known_word(list.iter().copied().find(|one| key(*one) == text), text)
    }

    /// What a text stands for; a word that is not known here is a newer Scrubline's.
    fn known_word<T>(&self, found: Option<T>, text: &str) -> Option<T> {
        if found.is_none() {
            self.newer_word(text);
        }
        found
    }
}

impl<'a> Members<'a> {
    const fn branch(&self, key: &'a str, tree: &'a Tree) -> Branch<'a> {
        Branch { tree, step: Step::Key(self.branch, key) }
    }

    /// Reads each of them.
    #[inline(never)]
    pub(super) fn each(self, read: &mut dyn FnMut(&str, &Branch<'_>)) {
        for (key, tree) in self.members {
            read(key, &self.branch(key, tree));
        }
    }

    #[inline(never)]
    pub(super) fn get(self, key: &str) -> Option<Branch<'a>> {
        self.members.iter().find(|(other, _)| other == key).map(|(key, tree)| self.branch(key, tree))
    }
}

/// A whole number from 0 to 255.
pub(super) fn whole(value: f64) -> Option<u8> {
    (0..=u8::MAX).find(|byte| f64::from(*byte).to_bits() == (value + 0.0).to_bits())
}
