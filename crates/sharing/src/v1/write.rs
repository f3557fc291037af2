//! A design into the bits of version 1.

use super::bits::Writer;
use super::defaults::{self, Base};
use super::{ids, ledger, readings, usual_source};
use crate::shared::{Opening, Shared, Units};
use truck::{Change, ChangeSources, Design, Field, Kind, Proposal, RightNumbers, Source, Spring, Truck};

/// The payload of what is shared, which must be as [`Shared::kept`] gives it.
pub(crate) fn write(shared: &Shared) -> Vec<u8> {
    let Design { title, note, truck, proposals, ledger } = &shared.design;
    let [first, whole] = Base::ALL.map(|base| stated(truck, base));
    // The one of which less is left to say.
    let (base, stated) = if whole.len() < first.len() { (Base::Whole, whole) } else { (Base::First, first) };
    let sections = [
        (ids::section::TITLE, (title != defaults::TITLE).then(|| text(title))),
        (ids::section::NOTE, (!note.is_empty()).then(|| text(note))),
        (ids::section::NUMBERS, (!stated.is_empty()).then(|| numbers(truck, &stated))),
        (ids::section::SOURCES, sources(truck, &stated)),
        (ids::section::SPRING, parts(&spring(&truck.spring))),
        (ids::section::PROPOSALS, (*proposals != defaults::proposals()).then(|| list(proposals))),
        (ids::section::OPENING, parts(&opening(&shared.opening))),
        (
            ids::section::BASE,
            (base != Base::First).then(|| made(|out| out.small(ids::code(&Base::ALL, &base)))),
        ),
        (ids::section::RIGHT, (!truck.right.is_empty()).then(|| right(&truck.right))),
        (ids::section::READINGS, (!truck.readings.is_empty()).then(|| readings::write(&truck.readings))),
        (ids::section::LEDGER, (!ledger.is_empty()).then(|| ledger::write(ledger))),
    ];
    parts(&sections).unwrap_or_default().into_bytes()
}

/// The ids of the parts that are there, and the parts; nothing where there are none.
fn parts(parts: &[(u8, Option<Writer>)]) -> Option<Writer> {
    let there: Vec<u8> = parts.iter().filter(|(_, part)| part.is_some()).map(|(id, _)| *id).collect();
    let mut out = Writer::default();
    out.ids(&there);
    parts.iter().filter_map(|(_, part)| part.as_ref()).for_each(|part| out.append(part));
    (!there.is_empty()).then_some(out)
}

fn made(fill: impl FnOnce(&mut Writer)) -> Writer {
    let mut out = Writer::default();
    fill(&mut out);
    out
}

fn text(text: &str) -> Writer {
    made(|out| out.text(text))
}

/// The numbers that are written, in the order of their ids.
fn stated(truck: &Truck, base: Base) -> Vec<Field> {
    let mut fields: Vec<Field> = (0..=u8::MAX).filter_map(Field::from_id).collect();
    fields.retain(|field| {
        field.get(truck) != base.value(*field) || truck.sources.of(*field) != truck.sources.rule()
    });
    fields
}

fn numbers(truck: &Truck, stated: &[Field]) -> Writer {
    made(|out| {
        let ids: Vec<u8> = stated.iter().map(|field| field.id()).collect();
        out.ids(&ids);
        for field in stated {
            let steps = field.get(truck).and_then(|value| field.kind().steps(value));
            if field.is_optional() {
                out.bit(steps.is_some());
            }
            if let Some(steps) = steps {
                out.steps(steps - defaults::steps(*field));
            }
        }
    })
}

fn right(numbers: &RightNumbers) -> Writer {
    made(|out| {
        let kept = numbers.iter().filter_map(|(field, value)| Some((field, field.kind().steps(value)?)));
        let kept: Vec<_> = kept.collect();
        let ids: Vec<u8> = kept.iter().map(|(field, _)| field.id()).collect();
        out.ids(&ids);
        kept.iter().for_each(|(field, steps)| out.steps(steps - defaults::steps(*field)));
    })
}

fn sources(truck: &Truck, stated: &[Field]) -> Option<Writer> {
    let rule = truck.sources.rule();
    let unusual = |field: &Field| truck.sources.of(*field) != usual_source(rule, *field);
    let any = stated.iter().any(unusual);
    (any || rule != defaults::RULE).then(|| {
        made(|out| {
            out.bits(ids::code(&ids::SOURCES, &rule), 2);
            out.bit(any);
            for field in stated.iter().filter(|_| any) {
                out.bit(unusual(field));
                if unusual(field) {
                    out.bits(ids::code(&ids::SOURCES, &truck.sources.of(*field)), 2);
                }
            }
        })
    })
}

fn spring(spring: &Spring) -> [(u8, Option<Writer>); 2] {
    let kind = (spring.kind != defaults::SPRING_KIND)
        .then(|| made(|out| out.small(ids::code(&ids::SPRING_KINDS, &spring.kind))));
    let arm = (spring.arm != defaults::SPRING_ARM)
        .then(|| made(|out| out.small(ids::code(&ids::ARMS, &spring.arm))));
    [(ids::spring::KIND, kind), (ids::spring::ARM, arm)]
}

fn list(proposals: &[Proposal]) -> Writer {
    made(|out| {
        out.small(u32::try_from(proposals.len()).expect("proposals are few"));
        for (place, proposal) in proposals.iter().enumerate() {
            let Proposal { id, name, rear_down_mm, sources, .. } = proposal;
            let changes = proposal.changes();
            let elsewhere = usize::from(id.0) != place;
            let there = [
                (ids::proposal::ID, elsewhere.then(|| made(|out| out.small(u32::from(id.0))))),
                (ids::proposal::NAME, (!name.is_empty()).then(|| text(name))),
                (ids::proposal::CHANGES, (!changes.is_empty()).then(|| change_list(changes))),
                (ids::proposal::REAR_DOWN, rear_down_mm.and_then(rear)),
                (ids::proposal::SOURCES, origins(changes, sources)),
            ];
            out.append(&parts(&there).unwrap_or_else(|| made(|out| out.ids(&[]))));
        }
    })
}

/// Stated, even where it is zero: then the rear is said to stay up.
fn rear(down_mm: f64) -> Option<Writer> {
    Kind::Length.steps(down_mm).map(|steps| made(|out| out.steps(steps)))
}

/// For each change the numbers that are not typed from a part, and whether each is a guess.
fn origins(changes: &[Change], sources: &ChangeSources) -> Option<Writer> {
    let any = sources.exceptions().next().is_some();
    any.then(|| {
        made(|out| {
            for change in changes {
                let (kind, place) = change.slot();
                let here = sources.exceptions().filter(|((of, at, _), _)| (*of, *at) == (kind, place));
                let here: Vec<_> = here.map(|((.., number), source)| (number, source)).collect();
                let numbers: Vec<u8> =
                    here.iter().map(|(at, _)| u8::try_from(*at).expect("a change has few numbers")).collect();
                out.ids(&numbers);
                here.iter().for_each(|(_, source)| out.bit(*source == Source::Assumed));
            }
        })
    })
}

fn change_list(changes: &[Change]) -> Writer {
    made(|out| {
        out.small(u32::try_from(changes.len()).expect("changes are as many as slots"));
        changes.iter().for_each(|change| self::change(out, change));
    })
}

fn change(out: &mut Writer, change: &Change) {
    let kind = change.kind();
    out.small(u32::from(kind.id()));
    out.bit(change.place().is_some());
    if let Some(place) = change.place() {
        out.small(u32::from(place.id()));
    }
    let mut there = Vec::new();
    let mut differences = Vec::new();
    for (index, (number, value)) in kind.numbers().iter().zip(change.values()).enumerate() {
        let steps = value.and_then(|value| number.kind.steps(value));
        let default = defaults::change_steps(kind, index);
        if let Some(steps) = steps.filter(|steps| number.optional || *steps != default) {
            there.push(u8::try_from(index).expect("a change has few numbers"));
            differences.push(steps - default);
        }
    }
    out.ids(&there);
    differences.iter().for_each(|steps| out.steps(*steps));
}

fn opening(opening: &Opening) -> [(u8, Option<Writer>); 5] {
    let number = |kind: Kind, value: f64| {
        let steps = kind.steps(value).unwrap_or(0);
        (steps != 0).then(|| made(|out| out.steps(steps)))
    };
    let small = |value: u8| made(|out| out.small(u32::from(value)));
    [
        (ids::opening::PROPOSAL, opening.proposal.map(|id| small(id.0))),
        (ids::opening::TRAVEL, number(Kind::Length, opening.travel_mm)),
        (ids::opening::STEER, number(Kind::Angle, opening.steer_rad)),
        (ids::opening::UNITS, opening.units.map(|units| small(u8::from(units == Units::Millimetres)))),
        (ids::opening::LESSON, opening.lesson.map(small)),
    ]
}
