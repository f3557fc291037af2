//! Where each part is from, and rows beside the usual ones.

use super::Bench;
use crate::dom::{Node, block, button, el, loose, value_of};
use crate::signals::Value;
use crate::widgets::{check, folding, text_field};
use leptos::prelude::untrack;
use truck::{AddedRow, LedgerEdit, Mating, Origin, PARTS, Part, PartId, Side};
use wasm_bindgen::JsValue;

/// Each part of the usual swap: kept, from another truck or bought, and which side it was made for.
pub(super) fn origins(bench: Bench) -> Node {
    folding("Where each part is from", move || {
        let mut all = loose();
        for (id, (_, usual)) in (0_u8..).zip(PARTS) {
            all = all.child(origin(bench, PartId(id), usual));
        }
        all
    })
}

fn part_of(bench: Bench, id: PartId) -> Part {
    bench.ledger.with(|ledger| ledger.part(id).cloned()).unwrap_or_default()
}

fn change(bench: Bench, id: PartId, change: impl FnOnce(&mut Part)) {
    let mut part = untrack(|| part_of(bench, id));
    change(&mut part);
    bench.edit(LedgerEdit::Part(id, part));
}

fn select(
    name: &str,
    options: &[&str],
    value: impl Fn() -> String + 'static,
    take: impl Fn(String) + 'static,
) -> Node {
    el("select")
        .attr("aria-label", name)
        .children(options.iter().map(|word| el("option").attr("value", word).text(word)))
        .prop_of("value", move || JsValue::from_str(&value()))
        .on("change", move |event| take(value_of(&event)))
}

const FROM: [&str; 3] = ["kept", "another truck", "bought"];
const MADE_FOR: [&str; 3] = ["either side", "left", "right"];

fn origin(bench: Bench, id: PartId, usual: &'static str) -> Node {
    let from = move || {
        let word = match part_of(bench, id).origin {
            Origin::Kept => FROM[0],
            Origin::Donor(_) => FROM[1],
            Origin::Bought => FROM[2],
        };
        word.to_owned()
    };
    let take_from = move |word: String| {
        change(bench, id, |part| {
            part.origin = match word.as_str() {
                "another truck" => Origin::Donor(String::new()),
                "bought" => Origin::Bought,
                _ => Origin::Kept,
            }
        });
    };
    let side = move || match part_of(bench, id).side {
        None => MADE_FOR[0].to_owned(),
        Some(Side::Left) => MADE_FOR[1].to_owned(),
        Some(Side::Right) => MADE_FOR[2].to_owned(),
    };
    let take_side = move |word: String| {
        change(bench, id, |part| {
            part.side = match word.as_str() {
                "left" => Some(Side::Left),
                "right" => Some(Side::Right),
                _ => None,
            }
        });
    };
    let donor = move || match part_of(bench, id).origin {
        Origin::Donor(text) => text,
        _ => String::new(),
    };
    let take_donor = move |text: String| change(bench, id, |part| part.origin = Origin::Donor(text));
    let foreign = move || matches!(part_of(bench, id).origin, Origin::Donor(_));
    block("div", "origin")
        .child(el("span").text(usual))
        .child(select(&["Where from: ", usual].concat(), &FROM, from, take_from))
        .child(select(&["Made for: ", usual].concat(), &MADE_FOR, side, take_side))
        .child(
            text_field("Which truck, which year", "input", "80", donor, take_donor)
                .flag("hidden", move || !foreign()),
        )
}

/// What a row to be added is.
#[derive(Clone, PartialEq)]
struct Draft {
    name: String,
    kind: Mating,
    parts: [PartId; 2],
    vital: bool,
}

/// A row beside the usual ones. Nobody has thought about it yet, so it counts as one that steers, stops or
/// carries a wheel until somebody says otherwise.
pub(super) fn add_row(bench: Bench) -> Node {
    folding("Add a place where two parts meet", move || {
        let draft = Value::new(Draft {
            name: String::new(),
            kind: Mating::BoltInHole,
            parts: [PartId(0), PartId(1)],
            vital: true,
        });
        let kinds: Vec<_> = Mating::ALL.iter().map(|kind| kind.label()).collect();
        let take_kind = move |word: String| {
            if let Some(kind) = Mating::ALL.iter().find(|kind| kind.label() == word) {
                draft.update(|draft| draft.kind = *kind);
            }
        };
        let names: Vec<_> = PARTS.iter().map(|(_, name)| *name).collect();
        let part = |at: usize, label: &str| {
            let take = move |word: String| {
                let found = (0_u8..).zip(PARTS).find(|(_, (_, name))| *name == word);
                if let Some((id, _)) = found {
                    draft.update(|draft| draft.parts[at] = PartId(id));
                }
            };
            let value = move || {
                let PartId(id) = draft.with(|draft| draft.parts[at]);
                PARTS.get(usize::from(id)).map_or("", |(_, name)| name).to_owned()
            };
            select(label, &names, value, take)
        };
        let add = move || {
            let Some(id) = bench.ledger.with_now(truck::Ledger::free_row) else { return };
            let Draft { name, kind, parts, vital } = draft.now();
            bench.edit(LedgerEdit::Row(id, AddedRow { name, kind, parts, vital }));
            bench.turn_to(id);
        };
        let vital = check(
            el("span").text("It steers, stops or carries a wheel"),
            move || draft.with(|draft| draft.vital),
            move |is| draft.update(|draft| draft.vital = is),
        );
        let name = move || draft.with(|draft| draft.name.clone());
        let take_name = move |name| draft.update(|draft| draft.name = name);
        let kind = move || draft.with(|draft| draft.kind.label().to_owned());
        loose()
            .child(text_field("What it is called", "input", "80", name, take_name))
            .child(select("Kind", &kinds, kind, take_kind))
            .child(part(0, "First part"))
            .child(part(1, "Second part"))
            .child(vital)
            .child(button("Add it", add))
    })
}
