//! Which parts go together, by what was measured of them, and what to measure next.

mod entry;
mod parts;
mod row;

use crate::browser::frames::soon;
use crate::dom::{Node, block, button, el, loose, value_of, whole_number, words};
use crate::panels::work;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::labelled;
use drawing::{capital, next_in_words, row_in_words, verdict_word};
use leptos::prelude::document;
use mating::{Answer, Next, Verdict, next, verdict};
use truck::{Edit, Ledger, LedgerEdit, PARTS, PartId, Row, RowId};
use wasm_bindgen::{JsCast, JsValue};

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

    /// The choice as the menu has it: a part by its id.
    fn key(self) -> String {
        match self {
            Self::All => "all".to_owned(),
            Self::Begun => "begun".to_owned(),
            Self::Part(PartId(id)) => id.to_string(),
        }
    }

    fn of(key: &str) -> Self {
        match key {
            "begun" => Self::Begun,
            key => {
                let id = whole_number(key).and_then(|id| u8::try_from(id).ok());
                id.map_or(Self::All, |id| Self::Part(PartId(id)))
            }
        }
    }
}

impl Bench {
    fn edit(self, edit: LedgerEdit) {
        self.page.edit(&Edit::Ledger(edit));
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
        let shown = shown.get();
        ledger.with(|ledger| {
            let mut ids = Vec::new();
            for row in ledger.rows() {
                if shown.holds(ledger, &row) {
                    ids.push(row.id());
                }
            }
            ids
        })
    });
    block("section", "panel bolt")
        .attr("aria-label", "Bolts up")
        .child(el("h2").text("Will it bolt up?"))
        .child(words("words-bolt"))
        .child(in_hand(bench))
        .child(block("p", "hint").attr("aria-live", "polite").text_of(move || counted(bench)))
        .child(
            block("ul", "mates")
                .content_of(move || loose().children(ids.get().into_iter().map(|id| row::listed(bench, id)))),
        )
        .child(parts::add_row(bench))
        .child(parts::origins(bench))
        .child(work::order(page))
        .child(asked(bench))
}

/// Which part is in the hand.
fn in_hand(bench: Bench) -> Node {
    let option = |value: &str, words: &str| el("option").attr("value", value).text(words);
    // A list made anew has its first line chosen, so it is only where a part has another name, and then said again.
    let names = Derived::new(move || {
        bench.ledger.with(|ledger| {
            let mut names = Vec::new();
            for (id, _) in (0_u8..).zip(PARTS) {
                names.push(ledger.part_name(PartId(id)).to_owned());
            }
            names
        })
    });
    let menu = el("select")
        .content_of(move || {
            let mut options =
                loose().child(option("all", "Everything")).child(option("begun", "What I have begun"));
            for (id, name) in names.get().iter().enumerate() {
                options = options.child(option(&id.to_string(), name));
            }
            options
        })
        .prop_of("value", move || {
            names.with(|_| ());
            JsValue::from_str(&bench.shown.get().key())
        })
        .on("change", move |event| bench.shown.set(Shown::of(&value_of(&event))));
    labelled("What is in your hand?", menu)
}

/// How many are decided: never a total of who mates.
fn counted(bench: Bench) -> String {
    let [all, open, no] = bench.rows.with(|rows| {
        let (mut open, mut no) = (0, 0);
        for (_, answer) in rows {
            match answer.verdict {
                Verdict::NotAsked { .. } | Verdict::TooNear { .. } => open += 1,
                Verdict::DoesNot(_) => no += 1,
                _ => {}
            }
        }
        [rows.len(), open, no]
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
