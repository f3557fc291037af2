//! A design into a tree.

use super::layout::{self, to_file, word};
use super::tree::{Object, Tree};
use super::{LEDGER, MARK, VERSION, WORK, ledger, readings, work};
use crate::kept_text::read_work;
use crate::shared::{Opening, Shared};
use measure::Units;
use truck::{Change, ChangeSources, Kind, Proposal, Side, Source, Truck};

/// The tree of what is shared, as [`Shared::kept`] gives it: every number is
/// there, default or not, so that a file can be read and edited by hand.
#[must_use]
pub fn to_tree(shared: &Shared) -> Tree {
    let Shared { design, opening } = shared.kept();
    let mut whole = Object::default();
    whole.add_number(MARK, Some(f64::from(VERSION)));
    whole.add("title", Tree::Text(design.title));
    whole.add("note", Tree::Text(design.note));
    whole.add("truck", truck(&design.truck));
    whole.add("proposals", Tree::List(design.proposals.iter().map(proposal).collect()));
    whole.add("opening", self::opening(&opening));
    if !design.ledger.is_empty() {
        whole.add(LEDGER, ledger::write(&design.ledger));
    }
    if !design.built.is_empty() {
        whole.add(layout::BUILT, readings::write(&design.built));
    }
    if !design.settled.is_empty() {
        whole.add(layout::SETTLED, readings::write(&design.settled));
    }
    if !design.work.is_empty() {
        whole.add(WORK, work::write(&read_work(&design.work)));
    }
    whole.into()
}

fn truck(truck: &Truck) -> Tree {
    let mut whole = Object::default();
    let mut points = Object::default();
    for point in layout::points() {
        let mut axes = Object::default();
        for (field, axis) in layout::coordinates(point) {
            axes.add_number(axis, number(field.kind(), field.get(truck)));
        }
        points.add(point, axes.into());
    }
    whole.add(layout::POINTS, points.into());
    for name in layout::SECTIONS {
        let mut section = Object::default();
        if name == layout::SPRING {
            section.add_text("kind", word(&layout::SPRING_KINDS, &truck.spring.kind));
            section.add_text("arm", word(&layout::ARMS, &truck.spring.arm));
        }
        for field in layout::section(name) {
            section.add_number(field.key(), number(field.kind(), field.get(truck)));
        }
        whole.add(name, section.into());
    }
    whole.add("sources", sources(truck));
    let mut right = Object::default();
    for (field, value) in truck.right.iter() {
        right.add_number(field.key(), number(field.kind(), Some(value)));
    }
    whole.add_unless_empty(layout::RIGHT, right);
    let mut rear = Object::default();
    for (field, value) in truck.rear.iter() {
        rear.add_number(field.key(), number(field.kind(), Some(value)));
    }
    whole.add_unless_empty(layout::REAR, rear);
    if !truck.readings.is_empty() {
        whole.add(layout::READINGS, readings::write(&truck.readings));
    }
    whole.into()
}

fn sources(truck: &Truck) -> Tree {
    let (mut whole, mut other) = (Object::default(), Object::default());
    whole.add_text("rule", word(&layout::SOURCES, &truck.sources.rule()));
    for (field, source) in truck.sources.exceptions() {
        other.add_text(field.key(), word(&layout::SOURCES, &source));
    }
    if truck.sources.names_spring() {
        other.add_text(layout::SPRING, word(&layout::SOURCES, &Source::Measured));
    }
    whole.add_unless_empty("other", other);
    // Only where they follow: readers before it know no such key.
    if let Some(staying) = truck.sources.staying() {
        whole.add_number(layout::GUESSES, Some(f64::from(staying.code())));
    }
    whole.into()
}

fn proposal(proposal: &Proposal) -> Tree {
    let mut whole = Object::default();
    whole.add_number("id", Some(f64::from(proposal.id.0)));
    whole.add_text("name", &proposal.name);
    let changes = proposal.every();
    let changes = changes.iter().map(|of| change(of, &proposal.sources));
    whole.add("changes", Tree::List(changes.collect()));
    // Only where it is stated: readers before it know no such key.
    if proposal.rear_down_mm.is_some() {
        whole.add_number(layout::REAR_DOWN, number(Kind::Length, proposal.rear_down_mm));
    }
    whole.into()
}

fn change((side, change): &(Option<Side>, Change), sources: &ChangeSources) -> Tree {
    let kind = change.kind();
    let (mut whole, mut here) = (Object::default(), Object::default());
    whole.add_text("change", kind.key());
    if let Some(place) = change.place() {
        whole.add_text("place", place.key());
    }
    if let Some(side) = side {
        whole.add_text(layout::SIDE, word(&layout::SIDES, side));
    }
    for (row, value) in kind.numbers().iter().zip(change.values()) {
        whole.add_number(row.key(), number(row.kind, value));
    }
    for ((of, place, at), source) in sources.exceptions() {
        if (of, place) == change.slot() {
            here.add_text(kind.numbers()[at].key(), word(&layout::SOURCES, &source));
        }
    }
    whole.add_unless_empty(layout::SOURCES_OF_CHANGE, here);
    whole.into()
}

fn opening(opening: &Opening) -> Tree {
    let mut whole = Object::default();
    whole.add_number("proposal", opening.proposal.map(|id| f64::from(id.0)));
    whole.add_number("travel", number(Kind::Length, Some(opening.travel_mm)));
    whole.add_number("steer", number(Kind::Angle, Some(opening.steer_rad)));
    let units = match opening.units {
        Some(Units::Inches) => Tree::text("inches"),
        Some(Units::Millimetres) => Tree::text("millimetres"),
        None => Tree::Null,
    };
    whole.add("units", units);
    whole.add_number("lesson", opening.lesson.map(f64::from));
    whole.into()
}

/// A number in the file's unit.
fn number(kind: Kind, value: Option<f64>) -> Option<f64> {
    value.map(|value| to_file(kind, value))
}
