//! One row: two parts, the verdict, and its numbers while it is open.

use super::{Bench, entry, first_asked, sign_and_word};
use crate::browser::tell;
use crate::dom::{Node, block, button, el, loose};
use drawing::{doubts_in_words, sketched_in_words};
use leptos::prelude::untrack;
use mating::{Answer, Moves, Verdict, moved, take_over};
use truck::{Ledger, LedgerEdit, Of, Row, RowId, Whose};

/// A row of the list.
pub(super) fn listed(bench: Bench, id: RowId) -> Node {
    let is_open = move || bench.open.get().is_some_and(|(open, _)| open == id);
    let press = move || {
        if bench.open.now().is_some_and(|(open, _)| open == id) {
            bench.open.set(None);
        } else {
            bench.turn_to(id);
        }
    };
    let name = move || {
        bench.ledger.with(|ledger| ledger.row(id).map(|row| row.name().to_owned())).unwrap_or_default()
    };
    let sign = move || bench.told(id).map(|(_, answer)| sign_and_word(&answer.verdict).0.to_owned());
    let head = button("", press)
        .attr("class", "mate")
        .attr_of("aria-expanded", move || Some(is_open().to_string()))
        .child(block("i", "sign").attr("aria-hidden", "true").attr_of("data-sign", sign))
        .child(el("b").text_of(name))
        .child(
            el("span")
                .child(el("small").text_of(move || short(bench, id)))
                .child(el("i").text_of(move || if is_open() { "" } else { first(bench, id) }.to_owned())),
        );
    let body =
        block("div", "numbers").content_of(move || if is_open() { opened(bench, id) } else { loose() });
    el("li").attr("data-row", &id.0.to_string()).child(head).child(body)
}

/// What the row is asked for first, which it opens at.
fn first(bench: Bench, id: RowId) -> &'static str {
    let first = |(row, answer): (Row, Answer)| Some(row.kind().callout_label(first_asked(&answer)?));
    bench.told(id).and_then(first).unwrap_or_default()
}

/// The verdict in a few words, with how many numbers are there.
fn short(bench: Bench, id: RowId) -> String {
    let Some((row, answer)) = bench.told(id) else { return String::new() };
    let (_, mut word) = sign_and_word(&answer.verdict);
    if let Verdict::NotAsked { have, of } = answer.verdict {
        word += &[": ", &have.to_string(), " of ", &of.to_string()].concat();
    }
    let others = row.entries().iter().any(|(_, entry)| entry.whose != Whose::Own);
    if others { word + " (not all of it yours)" } else { word }
}

/// The verdict as a line, and every number.
fn opened(bench: Bench, id: RowId) -> Node {
    // Which parts meet there, and in which way, stays as it is while the row is open; the numbers are followed.
    let Some((row, _)) = untrack(|| bench.told(id)) else { return loose() };
    let line = block("p", "line").attr("aria-live", "polite").text_of(move || bench.line(id));
    let doubts = move || {
        let told = bench.told(id);
        told.map(|(row, _)| doubts_in_words(&row, bench.page.units()).join(" ")).unwrap_or_default()
    };
    let mut content =
        loose().child(line).child(block("p", "remark").attr("aria-live", "polite").text_of(doubts));
    if row.is_vital() {
        let words = "It steers, stops or carries a wheel: no work on it, another part where it does not.";
        content = content.child(block("p", "hint").text(words));
    }
    if Moves::of(id).next().is_some() {
        content = content.child(sketched(bench, id));
    }
    let [first, second] =
        bench.ledger.with_now(|ledger| row.parts().map(|part| ledger.part_name(part).to_owned()));
    let sides = [(Of::First, first), (Of::Second, second), (Of::Both, "Both together".to_owned())];
    for (of, name) in sides {
        let mut is_named = false;
        for (at, callout) in (0_u8..).zip(row.kind().callouts()) {
            if callout.of == of && row.asks(at) {
                if !is_named {
                    content = content.child(el("h3").text(&name));
                    is_named = true;
                }
                content = content.child(entry::number(bench, id, row.kind(), at));
            }
        }
    }
    let copy = move || tell::copy(bench.page, &bench.line(id), "Copied: the row as a line.");
    let clear = move || {
        bench.open.set(None);
        bench.edit(LedgerEdit::Clear(id));
    };
    let written = move || bench.ledger.with(|ledger| ledger.row(id).is_some_and(|row| row.is_written()));
    let clear = button("Clear it", clear).flag("hidden", move || !written());
    content.child(block("div", "row").child(button("Copy this row", copy)).child(clear))
}

/// What the row does to the truck, and the edit by which the plan takes it over.
fn sketched(bench: Bench, id: RowId) -> Node {
    let edit = move || bench.page.store.shown().with(|design| take_over(design, bench.page.selected(), id));
    let said = move || {
        let found = |ledger: &Ledger| {
            moved(ledger, id).map(|found| sketched_in_words(ledger, &found, bench.page.units()))
        };
        let mut said = bench.ledger.with(found).unwrap_or_default();
        if !said.is_empty() && edit().is_none() {
            said += " A plan without such a change can take it over; one that has it is changed in Parts.";
        }
        said
    };
    let take = move || {
        if let Some(edit) = untrack(edit) {
            bench.page.edit_and_say(&edit, Some("Put into the plan, as a guess."));
        }
    };
    let take = button("Put it into the plan", take).flag("hidden", move || edit().is_none());
    loose().child(el("p").text_of(said)).child(take)
}
