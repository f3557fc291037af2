//! The schema of the ledger, made from the tables that its reader reads.

use super::layout::SIDES;
use super::pieces::{joined, list, number, object, text, words};
use super::tree::Tree;
use truck::{Callout, Design, Ledger, Mating, PARTS, ROWS, Whose};

/// The schema of what stands under the ledger's key.
pub(super) fn schema() -> Tree {
    let rows = Mating::ALL.iter().flat_map(|kind| [usual(*kind), Some(added(*kind))]).flatten().collect();
    let most = |usual: usize| Some(usual + Ledger::MOST_ADDED);
    let rows = list(
        "The places where two parts meet: those of the usual swap in which something was written, and those \
         that were added. What is left out is there, and empty.",
        one_of(rows),
        most(ROWS.len()),
    );
    let parts = list("What is said of the parts.", part(), most(PARTS.len()));
    object(vec![("parts", parts), ("rows", rows)], &[])
}

fn one_of(schemas: Vec<Tree>) -> Tree {
    Tree::object([("oneOf", Tree::List(schemas))])
}

fn keys<'a>(keys: impl Iterator<Item = &'a str>) -> Tree {
    Tree::object([("enum", Tree::List(keys.map(Tree::text).collect()))])
}

fn added_id() -> Tree {
    Tree::object([
        ("type", Tree::text("integer")),
        ("minimum", Tree::Number(128.0)),
        ("maximum", Tree::Number(255.0)),
    ])
}

fn part_id() -> Tree {
    one_of(vec![keys(PARTS.iter().map(|(key, _)| *key)), added_id()])
}

fn part() -> Tree {
    let donor = text("Which truck, and of what year.", Design::LONGEST_NAME);
    let from = one_of(vec![keys(["kept", "bought"].into_iter()), object(vec![("donor", donor)], &["donor"])]);
    object(
        vec![
            ("part", part_id()),
            ("name", text("What it is called, where not as usual.", Design::LONGEST_NAME)),
            ("from", from),
            ("side", words(&SIDES)),
        ],
        &["part"],
    )
}

/// The rows of the usual swap that are of a kind.
fn usual(kind: Mating) -> Option<Tree> {
    let rows: Vec<_> = ROWS.iter().filter(|row| row.kind == kind).map(|row| row.key()).collect();
    let row = (!rows.is_empty()).then(|| keys(rows.into_iter()))?;
    Some(object(vec![("row", row), ("numbers", numbers(kind))], &["row"]))
}

fn added(kind: Mating) -> Tree {
    object(
        vec![
            ("added", added_id()),
            (
                "kind",
                Tree::object([("const", Tree::text(kind.key())), ("description", Tree::text(kind.label()))]),
            ),
            ("name", text("What the row is called.", Design::LONGEST_NAME)),
            ("first", part_id()),
            ("second", part_id()),
            ("vital", Tree::object([("type", Tree::text("boolean"))])),
            ("numbers", numbers(kind)),
        ],
        &["added", "kind", "name", "first", "second", "vital"],
    )
}

fn numbers(kind: Mating) -> Tree {
    let rows = (0..).zip(kind.callouts());
    let rows = rows.map(|(at, row)| (kind.callout_key(at), callout(row, kind.callout_label(at))));
    object(rows.collect(), &[])
}

fn callout(callout: &Callout, label: &str) -> Tree {
    let number = object(
        vec![
            ("value", number(callout.limits())),
            ("tool", keys(callout.sort.tools().iter().map(|tool| tool.key()))),
            ("whose", keys(Whose::ALL.iter().map(|whose| whose.key()))),
        ],
        &["value"],
    );
    joined(number, Tree::object([("description", Tree::text(label))]))
}
