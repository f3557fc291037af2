//! A design into a tree.

use super::layout::{self, to_file, word};
use super::tree::Tree;
use super::{LEDGER, MARK, VERSION, ledger, readings};
use crate::shared::{Opening, Shared, Units};
use truck::{Change, ChangeSources, Field, Kind, Proposal, Truck};

/// The tree of what is shared, as [`Shared::kept`] gives it: every number is
/// there, default or not, so that a file can be read and edited by hand.
#[must_use]
pub fn to_tree(shared: &Shared) -> Tree {
    let Shared { design, opening } = shared.kept();
    let tree = Tree::object([
        (MARK, Tree::Number(f64::from(VERSION))),
        ("title", Tree::Text(design.title)),
        ("note", Tree::Text(design.note)),
        ("truck", truck(&design.truck)),
        ("proposals", Tree::List(design.proposals.iter().map(proposal).collect())),
        ("opening", self::opening(&opening)),
    ]);
    match tree {
        Tree::Object(mut members) if !design.ledger.is_empty() => {
            members.push((LEDGER.to_owned(), ledger::write(&design.ledger)));
            Tree::Object(members)
        }
        tree => tree,
    }
}

fn truck(truck: &Truck) -> Tree {
    let value = |field: Field| number(field.kind(), field.get(truck));
    let point = |point: &'static str| {
        let axes = layout::coordinates(point).map(|(field, axis)| (axis.to_owned(), value(field)));
        (point.to_owned(), Tree::Object(axes.collect()))
    };
    let points = layout::points().into_iter().map(point).collect();
    let mut members = vec![(layout::POINTS.to_owned(), Tree::Object(points))];
    for name in layout::SECTIONS {
        let mut section: Vec<(String, Tree)> = Vec::new();
        if name == layout::SPRING {
            let kind = word(&layout::SPRING_KINDS, &truck.spring.kind);
            section.push(("kind".to_owned(), Tree::text(kind)));
            section.push(("arm".to_owned(), Tree::text(word(&layout::ARMS, &truck.spring.arm))));
        }
        section.extend(layout::section(name).map(|field| (field.key().to_owned(), value(field))));
        members.push((name.to_owned(), Tree::Object(section)));
    }
    members.push(("sources".to_owned(), sources(truck)));
    if !truck.right.is_empty() {
        let number =
            |(field, value): (Field, f64)| (field.key().to_owned(), number(field.kind(), Some(value)));
        members.push((layout::RIGHT.to_owned(), Tree::Object(truck.right.iter().map(number).collect())));
    }
    if !truck.readings.is_empty() {
        members.push((layout::READINGS.to_owned(), readings::write(&truck.readings)));
    }
    Tree::Object(members)
}

fn sources(truck: &Truck) -> Tree {
    let mut members = vec![("rule".to_owned(), Tree::text(word(&layout::SOURCES, &truck.sources.rule())))];
    let others: Vec<_> = truck
        .sources
        .exceptions()
        .map(|(field, source)| (field.key().to_owned(), Tree::text(word(&layout::SOURCES, &source))))
        .collect();
    if !others.is_empty() {
        members.push(("other".to_owned(), Tree::Object(others)));
    }
    Tree::Object(members)
}

fn proposal(proposal: &Proposal) -> Tree {
    let mut members = vec![
        ("id".to_owned(), Tree::Number(f64::from(proposal.id.0))),
        ("name".to_owned(), Tree::text(&proposal.name)),
        (
            "changes".to_owned(),
            Tree::List(proposal.changes().iter().map(|of| change(of, &proposal.sources)).collect()),
        ),
    ];
    // Only where it is stated: readers before it know no such key.
    if proposal.rear_down_mm.is_some() {
        members.push((layout::REAR_DOWN.to_owned(), number(Kind::Length, proposal.rear_down_mm)));
    }
    Tree::Object(members)
}

fn change(change: &Change, sources: &ChangeSources) -> Tree {
    let kind = change.kind();
    let mut members = vec![("change".to_owned(), Tree::text(kind.key()))];
    if let Some(place) = change.place() {
        members.push(("place".to_owned(), Tree::text(place.key())));
    }
    for (row, value) in kind.numbers().iter().zip(change.values()) {
        members.push((row.key.to_owned(), number(row.kind, value)));
    }
    let here = sources.exceptions().filter(|((of, place, _), _)| (*of, *place) == change.slot());
    let here: Vec<_> = here
        .map(|((.., at), source)| (kind.numbers()[at].key.to_owned(), word(&layout::SOURCES, &source)))
        .map(|(key, source)| (key, Tree::text(source)))
        .collect();
    if !here.is_empty() {
        members.push((layout::SOURCES_OF_CHANGE.to_owned(), Tree::Object(here)));
    }
    Tree::Object(members)
}

fn opening(opening: &Opening) -> Tree {
    let byte = |value: Option<u8>| value.map_or(Tree::Null, |value| Tree::Number(f64::from(value)));
    Tree::object([
        ("proposal", byte(opening.proposal.map(|id| id.0))),
        ("travel", number(Kind::Length, Some(opening.travel_mm))),
        ("steer", number(Kind::Angle, Some(opening.steer_rad))),
        (
            "units",
            match opening.units {
                Some(Units::Inches) => Tree::text("inches"),
                Some(Units::Millimetres) => Tree::text("millimetres"),
                None => Tree::Null,
            },
        ),
        ("lesson", byte(opening.lesson)),
    ])
}

fn number(kind: Kind, value: Option<f64>) -> Tree {
    value.map_or(Tree::Null, |value| Tree::Number(to_file(kind, value)))
}
