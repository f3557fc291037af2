//! The file's JSON Schema (2020-12), made from the tables that the reader reads.

use super::layout::{self, to_file, unit, word};
use super::ledger_schema as ledger;
use super::pieces::{joined, list, object, text, words};
use super::tree::Tree;
use super::{LEDGER, MARK, VERSION, WORK, readings, work};
use crate::shared::{self, Opening};
use crate::v1::defaults;
use truck::{ChangeKind, Design, Field, Kind, MOST_PROPOSALS, Proposal, RearField};

/// The JSON Schema of a file.
///
/// What [`super::to_tree`] gives satisfies it, and what satisfies it is read,
/// but for what a schema cannot say: that nothing is there twice, that lengths of
/// text count in bytes of UTF-8, not in characters, and how much a ledger and the readings hold in all.
#[must_use]
pub fn schema() -> Tree {
    let head = [
        ("$schema", Tree::text("https://json-schema.org/draft/2020-12/schema")),
        ("title", Tree::text("A Scrubline design")),
        ("description", Tree::text(DESCRIPTION)),
    ];
    let version = Tree::object([("const", Tree::Number(f64::from(VERSION)))]);
    let body = object(
        vec![
            (MARK, version),
            ("$schema", Tree::object([("type", Tree::text("string"))])),
            ("title", text("What the design is called.", Design::LONGEST_NAME)),
            ("note", text("What else is to be said.", Design::LONGEST_NOTE)),
            ("truck", truck()),
            ("proposals", list("What might be done to it.", proposal(), Some(MOST_PROPOSALS))),
            ("opening", opening()),
            (LEDGER, ledger::schema()),
            (layout::BUILT, readings::schema_as_built()),
            (layout::SETTLED, readings::schema_settled()),
            (WORK, work::schema()),
        ],
        &[MARK],
    );
    joined(Tree::object(head), body)
}

const DESCRIPTION: &str = "Lengths in millimetres, angles in degrees, forces in newtons. \
    x forward, y to the left, z up, from the ground on the centreline at the front axle; \
    the points are those of the left front corner, and the right is its mirror but for the numbers of \
    \"right\". A number that is left out has its default.";

fn truck() -> Tree {
    let point = |name: &'static str| {
        let axes = layout::coordinates(name).map(|(field, axis)| (axis, field_number(field)));
        (name, object(axes.collect(), &[]))
    };
    let mut members = vec![(layout::POINTS, object(layout::points().into_iter().map(point).collect(), &[]))];
    for name in layout::SECTIONS {
        let mut section = Vec::new();
        if name == layout::SPRING {
            let kind = word(&layout::SPRING_KINDS, &defaults::SPRING_KIND);
            let arm = word(&layout::ARMS, &defaults::SPRING_ARM);
            section.push(("kind", with_default(words(&layout::SPRING_KINDS), Tree::text(kind))));
            section.push(("arm", with_default(words(&layout::ARMS), Tree::text(arm))));
        }
        section.extend(layout::section(name).map(|field| (field.key(), field_number(field))));
        members.push((name, object(section, &[])));
    }
    members.push(("sources", sources()));
    members.push((layout::RIGHT, right()));
    members.push((layout::REAR, rear()));
    members.push((layout::READINGS, readings::schema()));
    object(members, &[])
}

fn right() -> Tree {
    let sided = Field::ALL.iter().copied().filter(|field| field.is_sided());
    let rows = sided.map(|field| (field.key(), number(field.label(), field.kind(), field.limits(), None)));
    let said = "Numbers of the right side that differ, as the left's are given: y from the centreline outward. \
        What is left out is as at the left.";
    joined(object(rows.collect(), &[]), Tree::object([("description", Tree::text(said))]))
}

fn rear() -> Tree {
    let row = |field: RearField| (field.key(), number(field.label(), field.kind(), field.limits(), None));
    let said = "The rear axle on its leaf springs as it sits. What is left out was not measured.";
    let rows = object(RearField::ALL.into_iter().map(row).collect(), &[]);
    joined(rows, Tree::object([("description", Tree::text(said))]))
}

fn sources() -> Tree {
    let rule = Tree::text(word(&layout::SOURCES, &defaults::RULE));
    let one = || words(&layout::SOURCES);
    let fields = Field::ALL.iter().map(|field| field.key());
    let other = fields.chain([layout::SPRING]).map(|key| (key, one())).collect();
    let guesses = byte(
        "That guesses follow what is measured; 0 where all do, up to 7 where some stay for the linkage's sake.",
        false,
    );
    object(
        vec![("rule", with_default(one(), rule)), ("other", object(other, &[])), (layout::GUESSES, guesses)],
        &[],
    )
}

fn proposal() -> Tree {
    let changes = ChangeKind::ALL.map(change).to_vec();
    let changes = list(
        "At most one of each kind at each place, on both sides and on each alone.",
        Tree::object([("oneOf", Tree::List(changes))]),
        None,
    );
    let rear_down = number(shared::REAR_DOWN, Kind::Length, Proposal::REAR_DOWN_LIMITS_MM, None);
    object(
        vec![
            ("id", byte("By which it is selected; its place in the list where left out.", false)),
            ("name", text("What it is called.", Design::LONGEST_NAME)),
            ("changes", changes),
            (layout::REAR_DOWN, rear_down),
        ],
        &[],
    )
}

fn change(kind: ChangeKind) -> Tree {
    let named = Tree::object([("const", Tree::text(kind.key())), ("description", Tree::text(kind.label()))]);
    let mut members = vec![("change", named)];
    let mut required = vec!["change"];
    if !kind.places().is_empty() {
        let places = kind.places().iter().map(|place| Tree::text(place.key())).collect();
        members.push(("place", Tree::object([("enum", Tree::List(places))])));
        required.push("place");
    }
    if !kind.is_rear() {
        let said = Tree::text("The side that it is on alone; on both where left out.");
        members.push((layout::SIDE, joined(words(&layout::SIDES), Tree::object([("description", said)]))));
    }
    for (number, default) in kind.numbers().iter().zip(defaults::change_values(kind)) {
        let row = self::number(number.label(), number.kind, number.limits, default);
        members.push((number.key(), row));
    }
    let sources = kind.numbers().iter().map(|number| (number.key(), words(&layout::SOURCES))).collect();
    members.push((layout::SOURCES_OF_CHANGE, object(sources, &[])));
    object(members, &required)
}

fn opening() -> Tree {
    let units = Tree::List(vec![Tree::text("inches"), Tree::text("millimetres"), Tree::Null]);
    object(
        vec![
            ("proposal", byte("The proposal that was selected.", true)),
            ("travel", number("Travel, + bump", Kind::Length, Opening::TRAVEL_LIMITS_MM, Some(0.0))),
            ("steer", number("Steer of the wheel", Kind::Angle, Opening::STEER_LIMITS_DEG, Some(0.0))),
            ("units", Tree::object([("enum", units)])),
            ("lesson", byte("The lesson step that was open.", true)),
        ],
        &[],
    )
}

fn field_number(field: Field) -> Tree {
    number(field.label(), field.kind(), field.limits(), defaults::value(field))
}

/// A number; without a default it may be left open.
fn number(label: &str, kind: Kind, (low, high): (f64, f64), default: Option<f64>) -> Tree {
    let mut description = String::from(label);
    description.push_str("; ");
    description.push_str(unit(kind));
    let types = if default.is_none() {
        Tree::List(vec![Tree::text("number"), Tree::text("null")])
    } else {
        Tree::text("number")
    };
    let number = Tree::object([
        ("type", types),
        ("minimum", Tree::Number(low)),
        ("maximum", Tree::Number(high)),
        ("description", Tree::Text(description)),
    ]);
    with_default(number, default.map_or(Tree::Null, |value| Tree::Number(to_file(kind, value))))
}

fn byte(description: &str, may_be_open: bool) -> Tree {
    let whole = Tree::text("integer");
    Tree::object([
        ("type", if may_be_open { Tree::List(vec![whole, Tree::text("null")]) } else { whole }),
        ("minimum", Tree::Number(0.0)),
        ("maximum", Tree::Number(255.0)),
        ("description", Tree::text(description)),
    ])
}

fn with_default(tree: Tree, default: Tree) -> Tree {
    joined(tree, Tree::object([("default", default)]))
}
