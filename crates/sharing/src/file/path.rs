//! Where in a tree something stands, written out only when it must be said.

use super::error::{FileError, Wrong};
use super::tree::{Tree, number_text};
use crate::shared::tidy;

/// Longest key that is repeated in a message, bytes.
const LONGEST_SAID: usize = 40;

/// A branch of a tree and how it was reached.
#[derive(Clone, Copy, Debug)]
pub(super) struct Branch<'a> {
    pub(super) tree: &'a Tree,
    parent: Option<&'a Self>,
    step: Step<'a>,
}

#[derive(Clone, Copy, Debug)]
enum Step<'a> {
    Top,
    Key(&'a str),
    Place(usize),
}

/// The members of an object, none of them twice.
#[derive(Clone, Copy, Debug)]
pub(super) struct Members<'a> {
    branch: &'a Branch<'a>,
    members: &'a [(String, Tree)],
}

impl<'a> Branch<'a> {
    pub(super) const fn top(tree: &'a Tree) -> Self {
        Self { tree, parent: None, step: Step::Top }
    }

    /// The path in words of the file.
    pub(super) fn path(&self) -> String {
        let mut path = self.parent.map(Self::path).unwrap_or_default();
        match self.step {
            Step::Top => {}
            Step::Key(key) => {
                if !path.is_empty() {
                    path.push('.');
                }
                path.push_str(&tidy(key, LONGEST_SAID, false));
            }
            Step::Place(place) => {
                path.push('[');
                path.push_str(&place.to_string());
                path.push(']');
            }
        }
        path
    }

    pub(super) fn shape(&self, expected: &'static str) -> Wrong {
        let path = self.path();
        let path = if path.is_empty() { "the whole".to_owned() } else { path };
        FileError::Shape { path, expected }.into()
    }

    pub(super) fn number(&self) -> Result<f64, Wrong> {
        match self.tree {
            Tree::Number(value) if value.is_finite() => Ok(*value),
            _ => Err(self.shape("a number")),
        }
    }

    pub(super) fn text(&self) -> Result<&'a str, Wrong> {
        match self.tree {
            Tree::Text(text) => Ok(text),
            _ => Err(self.shape("text")),
        }
    }

    /// A whole number from 0 to 255.
    pub(super) fn byte(&self) -> Result<u8, Wrong> {
        let value = self.number()?;
        let found = (0..=u8::MAX).find(|byte| f64::from(*byte).to_bits() == (value + 0.0).to_bits());
        found.ok_or_else(|| self.shape("a whole number from 0 to 255"))
    }

    /// Text of at most so many bytes.
    pub(super) fn short_text(&self, most: usize) -> Result<&'a str, Wrong> {
        let text = self.text()?;
        if text.len() <= most { Ok(text) } else { Err(FileError::TooLong(self.path()).into()) }
    }

    pub(super) fn items(&'a self) -> Result<impl Iterator<Item = Branch<'a>>, Wrong> {
        let Tree::List(items) = self.tree else {
            return Err(self.shape("a list"));
        };
        let branch = |(place, tree)| Branch { tree, parent: Some(self), step: Step::Place(place) };
        Ok(items.iter().enumerate().map(branch))
    }

    pub(super) fn members(&'a self) -> Result<Members<'a>, Wrong> {
        let Tree::Object(members) = self.tree else {
            return Err(self.shape("an object"));
        };
        let found = Members { branch: self, members };
        for (place, (key, tree)) in members.iter().enumerate() {
            if members[..place].iter().any(|(other, _)| other == key) {
                return Err(FileError::Twice(found.branch(key, tree).path()).into());
            }
        }
        Ok(found)
    }

    pub(super) fn newer(&self) -> Wrong {
        FileError::Newer(self.path()).into()
    }

    /// Says that the value of a text is not known here.
    pub(super) fn newer_word(&self, word: &str) -> Wrong {
        let mut path = self.path();
        path.push_str(": ");
        path.push_str(&tidy(word, LONGEST_SAID, false));
        FileError::Newer(path).into()
    }
}

impl<'a> Members<'a> {
    const fn branch(&self, key: &'a str, tree: &'a Tree) -> Branch<'a> {
        Branch { tree, parent: Some(self.branch), step: Step::Key(key) }
    }

    pub(super) fn iter(self) -> impl Iterator<Item = (&'a str, Branch<'a>)> {
        self.members.iter().map(move |(key, tree)| (key.as_str(), self.branch(key, tree)))
    }

    pub(super) fn get(self, key: &str) -> Option<Branch<'a>> {
        self.members.iter().find(|(other, _)| other == key).map(|(key, tree)| self.branch(key, tree))
    }
}

/// A number that lies outside its limits.
pub(super) fn out_of_limits(branch: &Branch<'_>, label: &'static str, (low, high): (f64, f64)) -> Wrong {
    let (low, high) = (number_text(low), number_text(high));
    FileError::OutOfLimits { path: branch.path(), label, low, high }.into()
}

/// One of a list by its word.
pub(super) fn one_of<T: Copy>(list: &[(T, &str)], branch: &Branch<'_>) -> Result<T, Wrong> {
    let word = branch.text()?;
    let found = list.iter().find(|(_, other)| *other == word);
    found.map(|(value, _)| *value).ok_or_else(|| branch.newer_word(word))
}
