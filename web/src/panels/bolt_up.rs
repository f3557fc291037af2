//! Which parts go together, by what was measured of them, and what to measure next.

mod entry;
mod parts;
mod row;

use crate::browser::frames::soon;
use crate::dom::{Node, block, button, el, loose, words};
use crate::panels::work;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::{labelled, menu};
use drawing::{capital, next_in_words, row_in_words, verdict_word};
use leptos::prelude::{document, untrack};
use mating::{Answer, Next, Verdict, next, verdict};
use truck::{Edit, Ledger, LedgerEdit, PartId, Row, RowId};
use wasm_bindgen::JsCast;

/// What of the ledger is looked at, and the row that is open with the number that is asked for.
#[derive(Clone, Copy)]
struct Bench {
    page: Page,
    ledger: Derived<Ledger>,
    /// Every row with what is to be said of it, worked out once an edit.
    rows: Derived<Vec<(Row, Answer)>>,
    shown: Value<Shown>,
    open: Value<Option<(RowId, Option<u8>)>>,
}

/// Which rows are listed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shown {
    /// All of them.
    All,
    /// Those in which something is written, and those of parts that are not the truck's own.
    Begun,
    /// Those where this part meets another.
    Part(PartId),
}

impl Shown {
    fn holds(self, ledger: &Ledger, row: &Row) -> bool {
        match self {
            Self::All => true,
            Self::Begun => row.is_written() || row.parts().into_iter().any(|part| !ledger.is_kept(part)),
            Self::Part(part) => row.parts().contains(&part),
        }
    }
}

impl Bench {
    fn edit(self, edit: LedgerEdit) {
        match self.page.store.committed_now().ledger.edited(&edit) {
            Ok(ledger) => self.page.edit(&Edit::Ledger(ledger)),
            Err(why) => self.page.session.complain(why.to_string() + "."),
        }
    }

    /// Every part, in one order.
    fn parts(self) -> Vec<PartId> {
        self.ledger.with(|ledger| ledger.all_parts().collect())
    }

    /// What each is called.
    fn names(self) -> Vec<String> {
        self.ledger.with(|ledger| ledger.all_parts().map(|id| ledger.part_name(id).to_owned()).collect())
    }

    /// The place of a part among them.
    fn place_of(self, part: PartId) -> usize {
        self.parts().iter().position(|other| *other == part).unwrap_or(0)
    }

    /// The part of a place.
    fn part_at(self, at: usize) -> PartId {
        untrack(|| self.parts()).get(at).copied().unwrap_or(PartId(0))
    }

    /// A row with what is to be said of it.
    fn told(self, id: RowId) -> Option<(Row, Answer)> {
        self.rows.with(|rows| rows.iter().find(|(row, _)| row.id() == id).cloned())
    }

    /// A row as a line for a thread.
    fn line(self, id: RowId) -> String {
        let told = self.told(id);
        let units = self.page.units();
        told.map(|(row, answer)| self.ledger.with(|ledger| row_in_words(ledger, &row, &answer, units)))
            .unwrap_or_default()
    }

    /// Opens a row at the number that it is asked for first.
    fn turn_to(self, id: RowId) {
        let first = self.told(id).and_then(|(_, answer)| first_asked(&answer));
        self.open.set(Some((id, first)));
    }
}

/// The number that tells most now; `None` where a row is decided.
fn first_asked(answer: &Answer) -> Option<u8> {
    match answer.verdict {
        Verdict::NotAsked { .. } => answer.missing.first().copied(),
        Verdict::TooNear { callout, .. } => Some(callout),
        _ => None,
    }
}

/// The panel.
#[inline(never)]
pub(crate) fn bolt_up(page: Page) -> Node {
    let shown = page.store.shown();
    let ledger = Derived::new(move || shown.with(|design| design.ledger.clone()));
    let rows = Derived::new(move || {
        let told = |ledger: &Ledger| {
            let with_answer = |row: Row| {
                let answer = verdict(ledger, &row);
                (row, answer)
            };
            ledger.rows().into_iter().map(with_answer).collect::<Vec<_>>()
        };
        ledger.with(told)
    });
    let begun = ledger.with_now(|ledger| ledger.rows().iter().any(|row| Shown::Begun.holds(ledger, row)));
    let shown = Value::new(match page.session.in_hand.now() {
        Some(part) => Shown::Part(part),
        None if begun => Shown::Begun,
        None => Shown::All,
    });
    page.session.in_hand.set(None);
    let bench = Bench { page, ledger, rows, shown, open: Value::new(None) };
    // The list is made anew only where other rows are listed: what is typed in keeps its place.
    let ids = Derived::new(move || {
        let which = shown.get();
        ledger.with(|ledger| {
            let rows = ledger.rows();
            let mut ids = Vec::new();
            for group in 0..Row::IN_HAND.len() {
                for row in &rows {
                    if row.in_hand() == group && which.holds(ledger, row) {
                        ids.push(row.id());
                    }
                }
            }
            ids
        })
    });
    let list = move || {
        let mut list = loose();
        // Where a part meets others, it is in the hand.
        let mut last = if matches!(shown.now(), Shown::Part(_)) { None } else { Some(Row::IN_HAND.len()) };
        for id in ids.get() {
            let group = ledger.with_now(|ledger| ledger.row(id).map(|row| row.in_hand()));
            if last.is_some() && last != group {
                last = group;
                list = list.child(el("li").child(el("h3").text(group.map_or("", |at| Row::IN_HAND[at]))));
            }
            list = list.child(row::listed(bench, id));
        }
        list
    };
    block("section", "panel bolt")
        .attr("aria-label", "Bolts up")
        .child(el("h2").text("Will it bolt up?"))
        .child(words("words-bolt"))
        .child(in_hand(bench))
        .child(block("p", "hint").attr("aria-live", "polite").text_of(move || counted(bench)))
        .child(block("ul", "mates").content_of(list))
        .child(parts::add_row(bench))
        .child(parts::origins(bench))
        .child(work::order(page))
        .child(asked(bench))
}

/// Which part is in the hand.
fn in_hand(bench: Bench) -> Node {
    let words = move || {
        let mut words = vec!["Everything".to_owned(), "What I have begun".to_owned()];
        words.extend(bench.names());
        words
    };
    let chosen = move || match bench.shown.get() {
        Shown::All => 0,
        Shown::Begun => 1,
        Shown::Part(part) => bench.place_of(part) + 2,
    };
    let take = move |at: usize| {
        bench.shown.set(match at {
            0 => Shown::All,
            1 => Shown::Begun,
            at => Shown::Part(bench.part_at(at - 2)),
        });
    };
    let menu = menu(words, chosen, take);
    labelled("What is in your hand?", menu)
}

/// How many of those in the list are decided: never a total of who mates.
fn counted(bench: Bench) -> String {
    let shown = bench.shown.get();
    let [all, open, no] = bench.rows.with(|rows| {
        let (mut all, mut open, mut no) = (0_usize, 0, 0);
        for (row, answer) in rows {
            if bench.ledger.with(|ledger| !shown.holds(ledger, row)) {
                continue;
            }
            all += 1;
            match answer.verdict {
                Verdict::NotAsked { .. } | Verdict::TooNear { .. } => open += 1,
                Verdict::DoesNot(_) => no += 1,
                _ => {}
            }
        }
        [all, open, no]
    });
    let asked = (all - open).to_string() + " of " + &all.to_string() + " decided";
    if no == 0 { asked } else { asked + ", " + &no.to_string() + " of them no" }
}

/// What to measure next, always in sight.
fn asked(bench: Bench) -> Node {
    let found: Derived<Option<Next>> = Derived::new(move || bench.ledger.with(next));
    let line = move || {
        let said = |next: &Next| bench.ledger.with(|ledger| next_in_words(ledger, next));
        found.with(|next| next.as_ref().map(said)).unwrap_or_default()
    };
    let go = move || {
        let Some(next) = found.now() else { return };
        let hidden = bench.ledger.with_now(|ledger| {
            let row = ledger.row(next.row);
            row.is_some_and(|row| !bench.shown.now().holds(ledger, &row))
        });
        if hidden {
            bench.shown.set(Shown::All);
        }
        bench.open.set(Some((next.row, next.callouts.first().copied())));
    };
    block("div", "asked")
        .flag("hidden", move || found.with(Option::is_none))
        .child(el("p").child(el("b").text("Next: ")).child(el("span").text_of(line)))
        .child(button("Measure it", go).attr("class", "primary"))
}

/// Gives the focus to what is being made, once it stands on the page.
fn focus_soon(element: &web_sys::Element) {
    if let Ok(field) = element.clone().dyn_into::<web_sys::HtmlElement>() {
        soon(move || {
            let _ = field.focus();
        });
    }
}

/// Takes the focus off the field that has it.
fn leave_field() {
    let active =
        document().active_element().and_then(|active| active.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(field) = active {
        let _ = field.blur();
    }
}

/// A verdict's sign and word, the word as it begins a line.
fn sign_and_word(verdict: &Verdict) -> (&'static str, String) {
    let sign = match verdict {
        Verdict::DoesNot(_) => "no",
        Verdict::TooNear { .. } => "near",
        Verdict::WithWork(_) => "work",
        Verdict::Mates => "mates",
        Verdict::NotAsked { .. } => "open",
    };
    (sign, capital(verdict_word(verdict)))
}
