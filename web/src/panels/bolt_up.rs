//! Which parts go together, by what was measured of them, and what to measure next.

mod entry;
mod parts;
mod row;

use crate::browser::frames::soon;
use crate::dom::{Node, block, button, el, words};
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::folding;
use drawing::{next_in_words, row_in_words, verdict_word};
use leptos::prelude::document;
use mating::{Answer, Next, Task, Verdict, next, order_of_work, verdict};
use truck::{Edit, Ledger, LedgerEdit, Origin, PARTS, PartId, ProposalId, Row, RowId};
use wasm_bindgen::{JsCast, JsValue};

/// What of the ledger is looked at, and the row that is open with the number that is asked for.
#[derive(Clone, Copy)]
struct Bench {
    page: Page,
    ledger: Derived<Ledger>,
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
            Self::Begun => {
                let other = |id| ledger.part(id).is_some_and(|part| part.origin != Origin::Kept);
                !row.entries().is_empty() || row.added().is_some() || row.parts().into_iter().any(other)
            }
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
            key => key.parse().map_or(Self::All, |id| Self::Part(PartId(id))),
        }
    }
}

impl Bench {
    fn edit(self, edit: LedgerEdit) {
        self.page.edit(&Edit::Ledger(edit));
    }

    /// A row with what is to be said of it.
    fn told(self, id: RowId) -> Option<(Row, Answer)> {
        self.ledger.with(|ledger| ledger.row(id).map(|row| (row.clone(), verdict(ledger, &row))))
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

/// The number that tells most now; nothing where a row is decided.
fn first_asked(answer: &Answer) -> Option<u8> {
    match answer.verdict {
        Verdict::NotAsked { .. } => answer.missing.first().copied(),
        Verdict::TooNear { figure, .. } => Some(figure),
        _ => None,
    }
}

/// The panel.
#[inline(never)]
pub(crate) fn bolt_up(page: Page) -> Node {
    let shown = page.store.shown();
    let ledger = Derived::new(move || shown.with(|design| design.ledger.clone()));
    let begun = ledger.with_now(|ledger| ledger.rows().any(|row| Shown::Begun.holds(ledger, &row)));
    let shown = Value::new(if begun { Shown::Begun } else { Shown::All });
    let bench = Bench { page, ledger, shown, open: Value::new(None) };
    // The list is made anew only where other rows are listed: what is typed in keeps its place.
    let ids = Derived::new(move || {
        let shown = shown.get();
        let of = |ledger: &Ledger| {
            let rows = ledger.rows().filter(|row| shown.holds(ledger, row));
            rows.map(|row| row.id()).collect::<Vec<_>>()
        };
        ledger.with(of)
    });
    block("section", "panel bolt")
        .attr("aria-label", "Bolts up")
        .child(el("h2").text("Will it bolt up?"))
        .child(words("words-bolt"))
        .child(in_hand(bench))
        .child(block("p", "hint").attr("aria-live", "polite").text_of(move || counted(bench)))
        .child(
            block("ul", "mates")
                .content_of(move || ids.get().into_iter().map(|id| row::listed(bench, id)).collect()),
        )
        .child(parts::add_row(bench))
        .child(parts::origins(bench))
        .child(order(page))
        .child(asked(bench))
}

/// Which part is in the hand.
fn in_hand(bench: Bench) -> Node {
    let option = |value: &str, words: &str| el("option").attr("value", value).text(words);
    let menu = el("select")
        .content_of(move || {
            let mut options = vec![option("all", "Everything"), option("begun", "What I have begun")];
            options.extend((0_u8..).zip(PARTS).map(|(id, _)| {
                let name = bench.ledger.with(|ledger| ledger.part_name(PartId(id)).to_owned());
                option(&id.to_string(), &name)
            }));
            options
        })
        .prop_of("value", move || JsValue::from_str(&bench.shown.get().key()))
        .on("change", move |event| bench.shown.set(Shown::of(&crate::dom::value_of(&event))));
    block("label", "text").child(el("span").text("What is in your hand?")).child(menu)
}

/// How many are decided: never a total of who mates.
fn counted(bench: Bench) -> String {
    let (mut open, mut no) = (0_u8, 0_u8);
    let mut all = 0_u8;
    bench.ledger.with(|ledger| {
        for row in ledger.rows() {
            all = all.saturating_add(1);
            match verdict(ledger, &row).verdict {
                Verdict::NotAsked { .. } | Verdict::TooNear { .. } => open = open.saturating_add(1),
                Verdict::DoesNot(_) => no = no.saturating_add(1),
                _ => {}
            }
        }
    });
    let asked = (all - open).to_string() + " of " + &all.to_string() + " decided";
    if no == 0 { asked } else { asked + ", " + &no.to_string() + " of them no" }
}

/// What is done first, and why; of the proposal that is on the sketch.
fn order(page: Page) -> Node {
    folding("The order of the work", move || {
        let plan = page.store.shown().with(|design| {
            // As measured nothing is changed: what is left is the parts that are not the truck's own.
            mating::Plan::of(design, page.selected().proposal().unwrap_or(ProposalId(u8::MAX)))
        });
        let order = order_of_work(&plan);
        let task =
            |task: &Task| el("li").child(el("b").text(task.label())).child(el("small").text(task.why()));
        let items = order.iter().filter_map(|task| task.open_item());
        vec![
            block("ol", "order").children(order.iter().map(task)),
            el("h3").text("Not on the road until this list is empty"),
            block("ul", "order").children(items.map(|item| el("li").text(item))),
            block("p", "hint")
                .text("No torque is known here: each by the manual of the truck that its part is from."),
        ]
    })
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
        bench.open.set(Some((next.row, next.figures.first().copied())));
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
    let word = verdict_word(verdict);
    (sign, word[..1].to_ascii_uppercase() + &word[1..])
}
