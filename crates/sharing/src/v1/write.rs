//! A design into the bits of version 1.

use super::bits::{Parts, Writer};
use super::defaults::{self, Base};
use super::stated::unsaid;
use super::{ids, ledger, readings, rear, usual_source};
use crate::shared::{Opening, Shared};
use measure::Units;
use truck::{Change, ChangeSources, Design, Field, Kind, Proposal, RightNumbers, Source, Truck, guesses};

/// The payload of what is shared, which must be as [`Shared::kept`] gives it.
pub(crate) fn write(shared: &Shared) -> Vec<u8> {
    let Design { title, note, truck, proposals, ledger, built, settled, work: _ } = &shared.design;
    let (base, stated) = based(truck);
    let mut sections = Parts::default();
    if title != defaults::TITLE {
        sections.part(ids::section::TITLE).text(title);
    }
    if !note.is_empty() {
        sections.part(ids::section::NOTE).text(note);
    }
    if !stated.is_empty() {
        numbers(sections.part(ids::section::NUMBERS), truck, &stated);
    }
    sources(&mut sections, truck, &stated);
    section(&mut sections, ids::section::SPRING, &spring(truck));
    if *proposals != defaults::proposals(base) {
        list(sections.part(ids::section::PROPOSALS), proposals);
    }
    section(&mut sections, ids::section::OPENING, &opening(&shared.opening));
    if base != Base::First {
        sections.part(ids::section::BASE).small(ids::code(&Base::ALL, &base));
    }
    if !truck.right.is_empty() {
        right(sections.part(ids::section::RIGHT), &truck.right);
    }
    if !truck.readings.is_empty() {
        readings::write(sections.part(ids::section::READINGS), &truck.readings);
    }
    if !ledger.is_empty() {
        ledger::write(sections.part(ids::section::LEDGER), ledger);
    }
    section(&mut sections, ids::section::REAR, &rear::numbers(base, &truck.rear));
    if !built.is_empty() {
        readings::write(sections.part(ids::section::BUILT), built);
    }
    if !settled.is_empty() {
        readings::write(sections.part(ids::section::SETTLED), settled);
    }
    if let Some(staying) = truck.sources.staying() {
        let out = sections.part(ids::section::GUESSES);
        out.small(ids::code(&ids::GUESS_RULES, &()));
        out.bits(staying.code().into(), 3);
    }
    let mut out = Writer::default();
    if !sections.is_empty() {
        sections.append_to(&mut out);
    }
    out.into_bytes()
}

/// The base of which less is left to say, and the numbers that are said of it.
fn based(truck: &Truck) -> (Base, Vec<Field>) {
    let (first, whole) = (stated(truck, Base::First), stated(truck, Base::Whole));
    if whole.len() >= first.len() {
        return (Base::First, first);
    }
    // No section takes a number of the rear out of a base.
    let base = if rear::has_all_of(Base::WithRear, &truck.rear) { Base::WithRear } else { Base::Whole };
    (base, whole)
}

/// A section of parts, where there are any.
fn section(sections: &mut Parts, id: u8, parts: &Parts) {
    if !parts.is_empty() {
        parts.append_to(sections.part(id));
    }
}

/// The numbers that are written, in the order of their ids.
fn stated(truck: &Truck, base: Base) -> Vec<Field> {
    let mut fields: Vec<Field> = (0..=u8::MAX).filter_map(Field::from_id).collect();
    let guesses = guesses(truck);
    fields.retain(|field| {
        field.get(truck) != unsaid(&guesses, base, *field) || truck.sources.of(*field) != truck.sources.rule()
    });
    fields
}

fn numbers(out: &mut Writer, truck: &Truck, stated: &[Field]) {
    let mut numbers = Parts::default();
    for field in stated {
        let out = numbers.part(field.id());
        let steps = field.get(truck).and_then(|value| field.kind().steps(value));
        if field.is_optional() {
            out.bit(steps.is_some());
        }
        if let Some(steps) = steps {
            out.steps(steps - defaults::steps(*field));
        }
    }
    numbers.append_to(out);
}

fn right(out: &mut Writer, right: &RightNumbers) {
    let mut numbers = Parts::default();
    for (field, value) in right.iter() {
        if let Some(steps) = field.kind().steps(value) {
            numbers.part(field.id()).steps(steps - defaults::steps(field));
        }
    }
    numbers.append_to(out);
}

fn sources(sections: &mut Parts, truck: &Truck, stated: &[Field]) {
    let rule = truck.sources.rule();
    let unusual = |field: &Field| truck.sources.of(*field) != usual_source(rule, *field);
    let any = stated.iter().any(unusual);
    if !any && rule == defaults::RULE {
        return;
    }
    let out = sections.part(ids::section::SOURCES);
    out.bits(ids::code(&ids::SOURCES, &rule), 2);
    out.bit(any);
    for field in stated.iter().filter(|_| any) {
        out.bit(unusual(field));
        if unusual(field) {
            out.bits(ids::code(&ids::SOURCES, &truck.sources.of(*field)), 2);
        }
    }
}

fn spring(truck: &Truck) -> Parts {
    let mut parts = Parts::default();
    let spring = &truck.spring;
    if spring.kind != defaults::SPRING_KIND {
        parts.part(ids::spring::KIND).small(ids::code(&ids::SPRING_KINDS, &spring.kind));
    }
    if spring.arm != defaults::SPRING_ARM {
        parts.part(ids::spring::ARM).small(ids::code(&ids::ARMS, &spring.arm));
    }
    if truck.sources.names_spring() {
        parts.part(ids::spring::NAMED);
    }
    parts
}

fn list(out: &mut Writer, proposals: &[Proposal]) {
    out.small(u32::try_from(proposals.len()).expect("proposals are few"));
    for (place, proposal) in proposals.iter().enumerate() {
        let Proposal { id, name, rear_down_mm, sources, .. } = proposal;
        let mut parts = Parts::default();
        if usize::from(id.0) != place {
            parts.part(ids::proposal::ID).small(u32::from(id.0));
        }
        if !name.is_empty() {
            parts.part(ids::proposal::NAME).text(name);
        }
        let every = proposal.every();
        for (id, side) in ids::proposal::SIDES {
            let changes: Vec<_> = every.iter().filter(|(of, _)| *of == side).collect();
            if !changes.is_empty() {
                let out = parts.part(id);
                out.small(u32::try_from(changes.len()).expect("changes are as many as slots"));
                changes.iter().for_each(|(_, change)| self::change(out, change));
            }
        }
        // Stated, even where it is zero: then the rear is said to stay up.
        if let Some(steps) = rear_down_mm.and_then(|down_mm| Kind::Length.steps(down_mm)) {
            parts.part(ids::proposal::REAR_DOWN).steps(steps);
        }
        if sources.exceptions().next().is_some() {
            let out = parts.part(ids::proposal::SOURCES);
            let mut slots = Vec::new();
            for (_, change) in &every {
                // Said of a slot, whichever sides have something in it.
                if !slots.contains(&change.slot()) {
                    slots.push(change.slot());
                    origins(out, change, sources);
                }
            }
        }
        parts.append_to(out);
    }
}

/// The numbers of a change that are not typed from a part, and whether each is a guess.
fn origins(out: &mut Writer, change: &Change, sources: &ChangeSources) {
    let mut numbers = Parts::default();
    for ((kind, place, at), source) in sources.exceptions() {
        if (kind, place) == change.slot() {
            let id = u8::try_from(at).expect("a change has few numbers");
            numbers.part(id).bit(source == Source::Assumed);
        }
    }
    numbers.append_to(out);
}

fn change(out: &mut Writer, change: &Change) {
    let kind = change.kind();
    out.small(u32::from(kind.id()));
    out.bit(change.place().is_some());
    if let Some(place) = change.place() {
        out.small(u32::from(place.id()));
    }
    let mut numbers = Parts::default();
    for (index, (number, value)) in kind.numbers().iter().zip(change.values()).enumerate() {
        let steps = value.and_then(|value| number.kind.steps(value));
        let default = defaults::change_steps(kind, index);
        if let Some(steps) = steps.filter(|steps| number.optional || *steps != default) {
            let id = u8::try_from(index).expect("a change has few numbers");
            numbers.part(id).steps(steps - default);
        }
    }
    numbers.append_to(out);
}

fn opening(opening: &Opening) -> Parts {
    let mut parts = Parts::default();
    if let Some(id) = opening.proposal {
        parts.part(ids::opening::PROPOSAL).small(u32::from(id.0));
    }
    for (id, kind, value) in [
        (ids::opening::TRAVEL, Kind::Length, opening.travel_mm),
        (ids::opening::STEER, Kind::Angle, opening.steer_rad),
    ] {
        if let Some(steps) = kind.steps(value).filter(|steps| *steps != 0) {
            parts.part(id).steps(steps);
        }
    }
    if let Some(units) = opening.units {
        parts.part(ids::opening::UNITS).small(u32::from(units == Units::Millimetres));
    }
    if let Some(lesson) = opening.lesson {
        parts.part(ids::opening::LESSON).small(u32::from(lesson));
    }
    parts
}
