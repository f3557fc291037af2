//! Where in a tree something stands, written out only when it must be said.

use super::error::{FileError, Read};
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

    pub(super) fn shape(&self, expected: &'static str) -> Box<FileError> {
        let path = self.path();
        let path = if path.is_empty() { "the whole".to_owned() } else { path };
        Box::new(FileError::Shape { path, expected })
    }

    pub(super) fn number(&self) -> Read<f64> {
        match self.tree {
            Tree::Number(value) if value.is_finite() => Ok(*value),
            _ => Err(self.shape("a number")),
        }
    }

    pub(super) fn text(&self) -> Read<&'a str> {
        match self.tree {
            Tree::Text(text) => Ok(text),
            _ => Err(self.shape("text")),
        }
    }

    /// A whole number from 0 to 255.
    pub(super) fn byte(&self) -> Read<u8> {
        let value = self.number()?;
        let found = (0..=u8::MAX).find(|byte| f64::from(*byte).to_bits() == (value + 0.0).to_bits());
        found.ok_or_else(|| self.shape("a whole number from 0 to 255"))
    }

    /// Text of at most so many bytes.
    pub(super) fn short_text(&self, most: usize) -> Read<&'a str> {
        let text = self.text()?;
        if text.len() <= most { Ok(text) } else { Err(self.too_long()) }
    }

    pub(super) fn items(&'a self) -> Read<impl Iterator<Item = Branch<'a>>> {
        let Tree::List(items) = self.tree else {
            return Err(self.shape("a list"));
        };
        let branch = |(place, tree)| Branch { tree, parent: Some(self), step: Step::Place(place) };
        Ok(items.iter().enumerate().map(branch))
    }

    pub(super) fn members(&'a self) -> Read<Members<'a>> {
        let Tree::Object(members) = self.tree else {
            return Err(self.shape("an object"));
        };
        let found = Members { branch: self, members };
        for (place, (key, tree)) in members.iter().enumerate() {
            if members[..place].iter().any(|(other, _)| other == key) {
                return Err(found.branch(key, tree).twice());
            }
        }
        Ok(found)
    }

    pub(super) fn newer(&self) -> Box<FileError> {
        Box::new(FileError::Newer(self.path()))
    }

    pub(super) fn twice(&self) -> Box<FileError> {
        Box::new(FileError::Twice(self.path()))
    }

    pub(super) fn too_long(&self) -> Box<FileError> {
        Box::new(FileError::TooLong(self.path()))
    }

    /// Says that the value of a text is not known here.
    pub(super) fn newer_word(&self, word: &str) -> Box<FileError> {
        let mut path = self.path();
        path.push_str(": ");
        path.push_str(&tidy(word, LONGEST_SAID, false));
        Box::new(FileError::Newer(path))
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
pub(super) fn out_of_limits(
    branch: &Branch<'_>,
    label: &'static str,
    (low, high): (f64, f64),
) -> Box<FileError> {
    let (low, high) = (number_text(low), number_text(high));
    Box::new(FileError::OutOfLimits { path: branch.path(), label, low, high })
}

/// One of a list by its word; compiled once for all that are one byte.
#[inline(never)]
pub(super) fn one_of<T: Copy>(list: &[(T, &str)], branch: &Branch<'_>) -> Read<T> {
    let word = branch.text()?;
    let found = list.iter().find(|(_, other)| *other == word);
    found.map(|(value, _)| *value).ok_or_else(|| branch.newer_word(word))
}

/// One of a list by its key.
pub(super) fn keyed<T: Copy>(list: &[T], key: impl Fn(T) -> &'static str, branch: &Branch<'_>) -> Read<T> {
    let word = branch.text()?;
    list.iter().copied().find(|one| key(*one) == word).ok_or_else(|| branch.newer_word(word))
}
