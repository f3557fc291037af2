//! Which numbers of a file are finer than a design keeps them.

use super::tree::{Tree, shortest};
use super::write::to_tree;
use crate::shared::Shared;

/// A number of a file that is kept as another one: the nearest whole count of its steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounded {
    /// Where: keys joined by points, places in lists in brackets.
    pub path: String,
    /// As the file gives it.
    pub given: f64,
    /// As it is kept, in the file's unit.
    pub kept: f64,
}

/// Decimals that are shown of a number: six more than the finest step has.
const DECIMALS: u8 = 9;

/// What tells the items of a list apart, where a design has an order of its own.
const NAMES: [&str; 6] = ["change", "place", "side", "part", "row", "added"];

/// The numbers that were rounded when a file was read, in the file's order: `given` is the
/// file's tree, and `kept` what [`super::from_tree`] made of it.
///
/// What differs in the last digits of an `f64` alone, as a program's 63.50000000000001, is
/// not counted.
#[must_use]
pub fn rounded(given: &Tree, kept: &Shared) -> Vec<Rounded> {
    let mut found = Vec::new();
    compare(given, &to_tree(kept), "", &mut found);
    found
}

/// The first number that was rounded, as it was given and as it is kept, and how many there are.
#[must_use]
pub fn rounded_in_words(rounded: &[Rounded]) -> Option<String> {
    let Rounded { path, given, kept } = rounded.first()?;
    let [given, kept] = [given, kept].map(|value| shortest(*value, DECIMALS));
    let (more, count) = (rounded.len() - 1, rounded.len());
    let (head, tail) = match more {
        0 => ("One number of the file is finer than it is kept: ".to_owned(), ".".to_owned()),
        _ => (
            [&count.to_string(), " numbers of the file are finer than they are kept: "].concat(),
            [", and so with ", &more.to_string(), " more."].concat(),
        ),
    };
    Some([head.as_str(), path, " is ", &given, " there and ", &kept, " here", &tail].concat())
}

fn compare(given: &Tree, kept: &Tree, path: &str, found: &mut Vec<Rounded>) {
    match (given, kept) {
        (Tree::Object(members), kept) => {
            let point = if path.is_empty() { "" } else { "." };
            for (key, tree) in members {
                if let Some(kept) = member(kept, key) {
                    compare(tree, kept, &format!("{path}{point}{key}"), found);
                }
            }
        }
        (Tree::List(items), Tree::List(others)) => {
            for (at, tree) in items.iter().enumerate() {
                let named = NAMES.iter().any(|key| member(tree, key).is_some());
                let alike = |other: &&Tree| NAMES.iter().all(|key| member(tree, key) == member(other, key));
                let other = if named { others.iter().find(alike) } else { others.get(at) };
                if let Some(other) = other {
                    compare(tree, other, &format!("{path}[{at}]"), found);
                }
            }
        }
        (Tree::Number(given), Tree::Number(kept)) if (given - kept).abs() > 1e-12 * given.abs().max(1.0) => {
            found.push(Rounded { path: path.to_owned(), given: *given, kept: *kept });
        }
        _ => {}
    }
}

fn member<'a>(tree: &'a Tree, key: &str) -> Option<&'a Tree> {
    let Tree::Object(members) = tree else { return None };
    members.iter().find(|(other, _)| other == key).map(|(_, tree)| tree)
}
