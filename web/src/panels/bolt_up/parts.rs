//! Where each part is from, and rows beside the usual ones.

use super::Bench;
use crate::dom::{Node, block, button, el, loose};
use crate::signals::{Derived, Value};
use crate::widgets::{check, folding, menu, text_field};
use leptos::prelude::untrack;
use truck::{AddedRow, Ledger, LedgerEdit, Mating, Origin, Part, PartId, Side};

/// Each part: kept, from another truck or bought, which side it was made for, and a name where the usual one is not
/// enough.
pub(super) fn origins(bench: Bench) -> Node {
    folding("Where each part is from", move || {
        // The list is made anew only where there are other parts: what is typed in keeps its place.
        let ids = Derived::new(move || bench.parts());
        let all = move || loose().children(ids.get().into_iter().map(|id| origin(bench, id)));
        let add = move || {
            if let Some(id) = bench.ledger.with_now(Ledger::free_part) {
                bench.edit(LedgerEdit::Part(
                    id,
                    Part { origin: Origin::Donor(String::new()), ..Part::default() },
                ));
            }
        };
        loose().child(el("div").content_of(all)).child(button("Add a part", add))
    })
}

fn part_of(bench: Bench, id: PartId) -> Part {
    bench.ledger.with(|ledger| ledger.part(id).cloned()).unwrap_or_default()
}

fn write(bench: Bench, id: PartId, part: Part) {
    bench.edit(LedgerEdit::Part(id, part));
}

const FROM: [&str; 3] = ["kept", "another truck", "bought"];
const MADE_FOR: [&str; 3] = ["either side", "left", "right"];

fn owned(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

fn origin(bench: Bench, id: PartId) -> Node {
    let part = move || part_of(bench, id);
    let now = move || untrack(part);
    let named = move || bench.ledger.with(|ledger| ledger.part_name(id).to_owned());
    let from = move || match part().origin {
        Origin::Kept => 0,
        Origin::Donor(_) => 1,
        Origin::Bought => 2,
    };
    let take_from = move |at: usize| {
        let origin = match at {
            1 => Origin::Donor(String::new()),
            2 => Origin::Bought,
            _ => Origin::Kept,
        };
        write(bench, id, Part { origin, ..now() });
    };
    let side = move || part().side.map_or(0, |side| if side == Side::Left { 1 } else { 2 });
    let take_side = move |at: usize| {
        let side = at.checked_sub(1).map(|at| Side::ALL[at]);
        write(bench, id, Part { side, ..now() });
    };
    let donor = move || match part().origin {
        Origin::Donor(text) => text,
        _ => String::new(),
    };
    let take_donor = move |text| write(bench, id, Part { origin: Origin::Donor(text), ..now() });
    let take_name = move |name| write(bench, id, Part { name, ..now() });
    let is_added = id.0 >= PartId::FIRST_ADDED;
    let usual = untrack(named);
    let labelled = |words: &str, menu: Node| menu.attr("aria-label", &[words, &usual].concat());
    let mut origin = block("div", "origin")
        .child(el("span").text_of(named))
        .child(labelled("Where from: ", menu(|| owned(&FROM), from, take_from)))
        .child(labelled("Made for: ", menu(|| owned(&MADE_FOR), side, take_side)))
        .child(
            text_field("Its name", "input", "80", move || part().name, take_name)
                .flag("hidden", move || !is_added && from() == 0),
        )
        .child(
            text_field("Which truck, which year", "input", "80", donor, take_donor)
                .flag("hidden", move || from() != 1),
        );
    if is_added {
        let gone = move || bench.edit(LedgerEdit::ClearPart(id));
        origin = origin.child(button("Take it off the list", gone));
    }
    origin
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
        let part = |at: usize, label: &str| {
            let chosen = move || bench.place_of(draft.with(|draft| draft.parts[at]));
            let take = move |place| draft.update(|draft| draft.parts[at] = bench.part_at(place));
            menu(move || bench.names(), chosen, take).attr("aria-label", label)
        };
        let kinds = || Mating::ALL.iter().map(|kind| kind.label().to_owned()).collect();
        let kind = move || {
            let chosen = draft.with(|draft| draft.kind);
            Mating::ALL.iter().position(|kind| *kind == chosen).unwrap_or(0)
        };
        let take_kind = move |at: usize| draft.update(|draft| draft.kind = Mating::ALL[at]);
        let add = move || {
            let Some(id) = bench.ledger.with_now(Ledger::free_row) else { return };
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
        loose()
            .child(text_field("What it is called", "input", "80", name, take_name))
            .child(menu(kinds, kind, take_kind).attr("aria-label", "Kind"))
            .child(part(0, "First part"))
            .child(part(1, "Second part"))
            .child(vital)
            .child(button("Add it", add))
    })
}
