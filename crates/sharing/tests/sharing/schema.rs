//! The schema says what the reader does: a strict walker over the keywords that it uses.

use crate::files::parse;
use crate::generate::{any_shared, edited, shared};
use proptest::prelude::*;
use sharing::{Tree, from_tree, print_json, schema, to_tree, write_work};
use truck::{
    AddedRow, Asked, Edit, Fastener, Field, Ledger, LedgerEdit, Mating, Origin, Part, PartId, ReadWith,
    Readable, Reading, RowId, Side, Task, Tool, Whose, WorkEdit, WorkLog, callouts, demo,
};
use yardstick::cases;

/// The member of an object.
fn get<'a>(tree: &'a Tree, key: &str) -> Option<&'a Tree> {
    match tree {
        Tree::Object(members) => members.iter().find(|(other, _)| other == key).map(|(_, tree)| tree),
        _ => None,
    }
}

fn has_type(tree: &Tree, name: &Tree) -> bool {
    let Tree::Text(name) = name else { panic!("a type is a word") };
    match (name.as_str(), tree) {
        ("object", Tree::Object(_))
        | ("array", Tree::List(_))
        | ("string", Tree::Text(_))
        | ("number", Tree::Number(_))
        | ("boolean", Tree::Bool(_))
        | ("null", Tree::Null) => true,
        ("integer", Tree::Number(value)) => value.fract() == 0.0,
        ("object" | "array" | "string" | "number" | "boolean" | "null" | "integer", _) => false,
        _ => panic!("a type that JSON Schema does not have: {name}"),
    }
}

/// Whether a tree satisfies a schema. Panics on a keyword it does not know, so
/// that nothing in the schema goes unchecked.
fn satisfies(tree: &Tree, schema: &Tree) -> bool {
    let Tree::Object(keywords) = schema else { panic!("a schema is an object") };
    keywords.iter().all(|(keyword, value)| keyword_holds(tree, schema, keyword, value))
}

fn keyword_holds(tree: &Tree, schema: &Tree, keyword: &str, value: &Tree) -> bool {
    match (keyword, value, tree) {
        ("title" | "description" | "$schema" | "default", _, _) => true,
        ("type", Tree::List(names), _) => names.iter().any(|name| has_type(tree, name)),
        ("type", name, _) => has_type(tree, name),
        ("const", value, _) => tree == value,
        ("enum", Tree::List(values), _) => values.contains(tree),
        ("minimum", Tree::Number(low), Tree::Number(number)) => number >= low,
        ("maximum", Tree::Number(high), Tree::Number(number)) => number <= high,
        ("maxLength", Tree::Number(most), Tree::Text(text)) => {
            f64::from(u32::try_from(text.chars().count()).unwrap()) <= *most
        }
        ("maxItems", Tree::Number(most), Tree::List(items)) => {
            f64::from(u32::try_from(items.len()).unwrap()) <= *most
        }
        ("items", schema, Tree::List(items)) => items.iter().all(|item| satisfies(item, schema)),
        ("oneOf", Tree::List(schemas), _) => {
            schemas.iter().filter(|schema| satisfies(tree, schema)).count() == 1
        }
        ("required", Tree::List(keys), Tree::Object(_)) => {
            keys.iter().all(|key| matches!(key, Tree::Text(key) if get(tree, key).is_some()))
        }
        ("properties", properties, Tree::Object(members)) => members
            .iter()
            .all(|(key, tree)| get(properties, key).is_none_or(|schema| satisfies(tree, schema))),
        ("additionalProperties", Tree::Bool(false), Tree::Object(members)) => {
            let known = get(schema, "properties").unwrap();
            members.iter().all(|(key, _)| get(known, key).is_some())
        }
        (
            "minimum"
            | "maximum"
            | "maxLength"
            | "maxItems"
            | "items"
            | "required"
            | "properties"
            | "additionalProperties",
            _,
            _,
        ) => true,
        _ => panic!("unknown keyword or wrong value: {keyword}"),
    }
}

#[test]
fn the_schema_is_json_and_the_same_every_time() {
    let text = print_json(&schema());
    assert_eq!(parse(&text), sorted(schema()));
    assert_eq!(text, print_json(&schema()));
    assert!(text.contains("\"$schema\": \"https://json-schema.org/draft/2020-12/schema\""));
}

/// Objects in the order of their keys, as the library's reader gives them.
fn sorted(tree: Tree) -> Tree {
    match tree {
        Tree::Object(members) => {
            let mut members: Vec<_> = members.into_iter().map(|(key, tree)| (key, sorted(tree))).collect();
            members.sort_by(|(one, _), (other, _)| one.cmp(other));
            Tree::Object(members)
        }
        Tree::List(items) => Tree::List(items.into_iter().map(sorted).collect()),
        other => other,
    }
}

/// Every place of a tree, replaced by something else or taken away.
fn spoiled(tree: &Tree) -> Vec<Tree> {
    let others = [
        Tree::Null,
        Tree::Bool(true),
        Tree::Number(-7e5),
        Tree::Number(0.5),
        Tree::Number(7e5),
        Tree::Text("elsewhere".to_owned()),
        Tree::List(Vec::new()),
        Tree::Object(Vec::new()),
    ];
    let mut all = others.to_vec();
    match tree {
        Tree::Object(members) => {
            for at in 0..members.len() {
                for inner in spoiled(&members[at].1) {
                    let mut members = members.clone();
                    members[at].1 = inner;
                    all.push(Tree::Object(members));
                }
                let mut fewer = members.clone();
                fewer.remove(at);
                all.push(Tree::Object(fewer));
                let mut renamed = members.clone();
                renamed[at].0.push('2');
                all.push(Tree::Object(renamed));
            }
        }
        Tree::List(items) => {
            for at in 0..items.len() {
                for inner in spoiled(&items[at]) {
                    let mut items = items.clone();
                    items[at] = inner;
                    all.push(Tree::List(items));
                }
            }
        }
        _ => {}
    }
    all
}

/// A ledger with a row of each sort, and parts of each.
fn ledger() -> Edit {
    let wrote =
        |row, callout, value, tool, whose| LedgerEdit::Write { row: RowId(row), callout, value, tool, whose };
    let added = AddedRow {
        name: "Skid plate".to_owned(),
        kind: Mating::Width,
        parts: [PartId(15), PartId(128)],
        vital: true,
    };
    let donor = Part { origin: Origin::Donor("a '79".to_owned()), side: Some(Side::Left), ..Part::default() };
    let bought = Part { name: "plate".to_owned(), origin: Origin::Bought, side: None };
    let edits = [
        LedgerEdit::Part(PartId(8), donor),
        LedgerEdit::Part(PartId(128), bought),
        wrote(8, callouts::spline::TEETH, 36.0, Tool::Counted, Whose::Own),
        wrote(8, callouts::spline::OVER, 25.4, Tool::Micrometer, Whose::Stranger),
        LedgerEdit::Row(RowId(128), added),
        wrote(128, callouts::width::INSIDE, 60.0, Tool::Tape, Whose::Guessed),
    ];
    Edit::Ledger(edits.iter().fold(Ledger::EMPTY, |ledger, edit| ledger.edited(edit).unwrap()))
}

/// A length and a sweep, at one side and at the other, and what they came to as built and once it had settled.
fn readings() -> [Edit; 5] {
    let gap = Reading::by(Readable::RimLowerJoint, 58.7, ReadWith::Clay);
    let gain = Reading::by(Readable::Caster, 2_f64.to_radians(), ReadWith::AngleGauge);
    let sweep = Reading { swept_rad: Some(15_f64.to_radians()), ..gain };
    [
        Edit::Read(Readable::RimLowerJoint, Side::Left, Some(gap)),
        Edit::Read(Readable::Caster, Side::Right, Some(sweep)),
        Edit::ReadBuilt(Readable::RimLowerJoint, Side::Left, Some(Reading { value: 7.9, ..gap })),
        Edit::ReadBuilt(Readable::Caster, Side::Right, Some(Reading { tolerance: 0.005, ..sweep })),
        Edit::ReadSettled(Readable::Caster, Side::Right, Some(Reading { tolerance: 0.004, ..sweep })),
    ]
}

/// A task done, a torque by its manual and one whose manual nobody has named.
fn work() -> [Edit; 1] {
    let edits = [
        WorkEdit::Done(Task::Stands, true),
        WorkEdit::Torque(Fastener::Hub, Some(9.8)),
        WorkEdit::Manual(Fastener::Hub, "1988 manual".to_owned()),
        WorkEdit::Torque(Fastener::UBolts, Some(90.0)),
        WorkEdit::Asked(Readable::Caster, Asked::Target, Some(3.0_f64.to_radians())),
        WorkEdit::Asked(Readable::Toe, Asked::Tolerance, Some(0.1_f64.to_radians())),
    ];
    let work = edits.iter().fold(WorkLog::EMPTY, |work, edit| work.edited(edit).unwrap());
    [Edit::Work(write_work(&work))]
}

#[test]
fn schema_and_reader_agree_on_every_spoiled_file() {
    let schema = schema();
    let sides = Edit::MeasureRight(vec![(Field::LowerBallZ, Some(190.0)), (Field::ShockLong, Some(380.0))]);
    let edits = [ledger(), sides].into_iter().chain(readings()).chain(work());
    let given = to_tree(&shared(edited(&demo(), edits)));
    assert!(satisfies(&given, &schema));
    let (mut taken, mut refused) = (0, 0);
    for tree in spoiled(&given) {
        let read = from_tree(&tree);
        let said = satisfies(&tree, &schema);
        assert_eq!(read.is_ok(), said, "{read:?}\n{}", print_json(&tree));
        if said { taken += 1 } else { refused += 1 }
    }
    assert!(taken > 100 && refused > 500, "{taken} taken, {refused} refused");
}

#[test]
fn every_field_is_in_the_schema_with_its_limits() {
    let text = print_json(&schema());
    for field in Field::ALL {
        assert!(text.contains(field.label()), "{field:?}");
    }
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn what_is_written_satisfies_the_schema(given in any_shared()) {
        prop_assert!(satisfies(&parse(&print_json(&to_tree(&given))), &schema()));
    }
}
