//! One number of a row: as it was taken, or the field that asks for it.

use super::{Bench, first_asked, focus_soon, leave_field};
use crate::dom::{Node, as_a, block, button, el, loose, value_of};
use crate::format::{self, Refused};
use crate::signals::{Derived, Value};
use crate::widgets::{check, picture};
use drawing::{Units, caliper_size, callout_drawing};
use leptos::prelude::{document, untrack};
use measure::{MM_PER_INCH, ParseError, parse_number, print_number};
use truck::{CalloutSort, Entry, Kind, LedgerEdit, Mating, RowId, Tool, Whose};
use wasm_bindgen::JsValue;

/// A pitch above this is meant as threads an inch: the coarsest thread of any nut here is 6 mm.
const MOST_PITCH_MM: f64 = 6.0;

/// A number's line, with its field while it is the one that is asked for.
pub(super) fn number(bench: Bench, id: RowId, kind: Mating, at: u8) -> Node {
    let active = move || bench.open.get() == Some((id, Some(at)));
    let press = move || {
        let next = if bench.open.now() == Some((id, Some(at))) { None } else { Some(at) };
        bench.open.set(Some((id, next)));
    };
    let line = button("", press)
        .attr("class", "callout")
        .attr_of("aria-expanded", move || Some(active().to_string()))
        .child(el("span").text(kind.callout_label(at)))
        .child(
            el("b")
                .class_if("none", move || entry_of(bench, id, at).is_none())
                .text_of(move || told(bench, id, kind, at)),
        );
    block("div", "ask").child(line).child(
        block("div", "field").content_of(move || if active() { field(bench, id, kind, at) } else { loose() }),
    )
}

fn entry_of(bench: Bench, id: RowId, at: u8) -> Option<Entry> {
    bench.ledger.with(|ledger| ledger.row(id).and_then(|row| row.entry(at).copied()))
}

/// A number as it was taken, with its tool and whose it is.
fn told(bench: Bench, id: RowId, kind: Mating, at: u8) -> String {
    let (Some(entry), Some(callout)) = (entry_of(bench, id, at), kind.callout(at)) else {
        return "not asked yet".to_owned();
    };
    let value = entry.value(callout.sort);
    let mut said = match kind.words(at) {
        words if words.is_empty() => shown(callout.sort, value, bench.page.units()),
        words => chosen(&words, value).to_owned(),
    };
    if callout.sort.is_size() {
        said += &[", ", entry.tool.label()].concat();
    }
    match entry.whose {
        Whose::Own => said,
        Whose::Guessed => "~ ".to_owned() + &said + " (a guess)",
        Whose::Stranger => said + " (someone else’s)",
    }
}

/// The word of one of a few.
fn chosen(words: &[&'static str], value: f64) -> &'static str {
    let place = words.iter().zip(0_u8..).find(|(_, place)| (f64::from(*place) - value).abs() < 0.5);
    place.map_or("", |(word, _)| word)
}

/// The sort of number that a field of the truck would be; a pitch is like none.
const fn kind_of(sort: CalloutSort) -> Kind {
    match sort {
        CalloutSort::Stress => Kind::Stress,
        CalloutSort::Count => Kind::Whole,
        _ => Kind::Length,
    }
}

/// A number as it is written: a size as calipers show it.
fn shown(sort: CalloutSort, value: f64, units: Units) -> String {
    match (sort, kind_of(sort)) {
        (CalloutSort::Pitch, _) => {
            let per_inch = print_number(MM_PER_INCH / value, 1);
            [&print_number(value, 2), " mm (", &per_inch, " an inch)"].concat()
        }
        (_, Kind::Length) => caliper_size(value, units),
        (_, kind) => format::show(kind, value, units),
    }
}

/// The number that a text stands for, mm, N/mm² or how many; or where reading stopped.
fn read(sort: CalloutSort, text: &str, units: Units) -> Result<f64, ParseError> {
    if sort != CalloutSort::Pitch {
        return format::read(kind_of(sort), text, units);
    }
    let text = text.trim();
    let read = parse_number(text.strip_suffix("mm").unwrap_or(text));
    read.map(|value| if value > MOST_PITCH_MM { MM_PER_INCH / value } else { value })
}

/// The field of a number, the tools that it may be taken by, and whose it is.
fn field(bench: Bench, id: RowId, kind: Mating, at: u8) -> Node {
    let Some(callout) = kind.callout(at) else { return loose() };
    let kept = untrack(|| entry_of(bench, id, at));
    let tool = Value::new(kept.map_or(callout.sort.tools()[0], |entry| entry.tool));
    let guess = Value::new(kept.is_some_and(|entry| entry.whose == Whose::Guessed));
    let put = move |value: f64, whose: Whose| {
        bench.edit(LedgerEdit::Write { row: id, callout: at, value, tool: tool.now(), whose });
    };
    let mine = move || if guess.now() { Whose::Guessed } else { Whose::Own };
    let write = move |value: f64| put(value, mine());
    // Another tool or a guess makes nobody else's number one's own: only checking it does.
    let again = move || {
        if let Some(entry) = untrack(|| entry_of(bench, id, at)) {
            let whose = if entry.whose == Whose::Stranger { Whose::Stranger } else { mine() };
            put(entry.value(callout.sort), whose);
        }
    };
    let words = kind.words(at);
    let mut content = loose().child(both_sides(bench, id, at)).child(if words.is_empty() {
        typed(bench, id, at, callout, tool, write)
    } else {
        one_of(bench, id, at, &words, write)
    });
    if callout.sort.tools().len() > 1 {
        content = content.child(tools(callout.sort, tool, again));
    }
    let stranger = move || entry_of(bench, id, at).is_some_and(|entry| entry.whose == Whose::Stranger);
    let guessed = move |is| {
        guess.set(is);
        again();
    };
    let guess = check(el("span").text("It is a guess"), move || guess.get(), guessed);
    let checked = button("I checked it on mine", move || bench.edit(LedgerEdit::Own(id, at)))
        .flag("hidden", move || !stranger());
    let out = button("Take it out", move || bench.edit(LedgerEdit::Erase(id, at)))
        .flag("hidden", move || entry_of(bench, id, at).is_none());
    content.child(guess.flag("hidden", stranger)).child(block("div", "row").child(checked).child(out))
}

/// Both parts under their names, with an arrow at the number.
fn both_sides(bench: Bench, id: RowId, at: u8) -> Node {
    let Some(row) = bench.ledger.with_now(|ledger| ledger.row(id)) else { return loose() };
    let mut figure = block("figure", "both");
    for part in row.parts() {
        let name = bench.ledger.with_now(|ledger| ledger.part_name(part).to_owned());
        figure = figure.child(el("b").text(&name));
    }
    let draw = move || bench.ledger.with(|ledger| callout_drawing(ledger, &row, at));
    figure.child(picture(Derived::always(draw)))
}

/// A field for a number that is typed. What is read stands under it before it is kept.
fn typed(
    bench: Bench,
    id: RowId,
    at: u8,
    callout: &'static truck::Callout,
    tool: Value<Tool>,
    write: impl Fn(f64) + Copy + 'static,
) -> Node {
    let units = bench.page.preferences.units;
    let typed = Value::new(None::<String>);
    let understood = move || {
        let text = typed.get().filter(|text| !text.trim().is_empty())?;
        Some(read(callout.sort, &text, units.get()).map_err(Refused::from).and_then(|value| {
            let entry = Entry::of(callout, value, tool.get(), Whose::Own).ok_or(Refused::NotHere)?;
            Ok(entry.value(callout.sort))
        }))
    };
    let wrong = move || matches!(understood(), Some(Err(_)));
    let echo = move || match understood() {
        Some(Ok(value)) => "= ".to_owned() + &shown(callout.sort, value, units.get()),
        Some(Err(why)) => why.to_string(),
        None => String::new(),
    };
    let value = move || {
        let kept = || {
            entry_of(bench, id, at).map(|entry| shown(callout.sort, entry.value(callout.sort), units.get()))
        };
        JsValue::from_str(&typed.get().or_else(kept).unwrap_or_default())
    };
    let commit = move || {
        if let Some(Ok(value)) = untrack(understood) {
            typed.set(None);
            write(value);
        }
    };
    let on = move || {
        // What was typed is kept by `change`, which a field that goes with the focus in it would hear too late.
        leave_field();
        if !untrack(wrong) {
            move_on(bench, id, at);
        }
    };
    let input = el("input")
        .attr("type", "text")
        .attr("inputmode", "decimal")
        .attr("autocomplete", "off")
        .attr("enterkeyhint", "next")
        .attr(
            "aria-label",
            bench.ledger.with_now(|ledger| ledger.row(id).map_or("", |row| row.kind().callout_label(at))),
        )
        .class_if("wrong", wrong)
        .attr_of("aria-invalid", move || wrong().then(|| "true".to_owned()))
        .prop_of("value", value)
        .on("input", move |event| typed.set(Some(value_of(&event))))
        .on("change", move |_| commit())
        .on("keydown", move |event| match as_a::<web_sys::KeyboardEvent>(event).key().as_str() {
            "Enter" => on(),
            "Escape" => typed.set(None),
            _ => {}
        });
    focus_soon(input.element());
    block("div", "entry")
        .child(input)
        .child(button("Next", on))
        .child(block("span", "echo").attr("aria-live", "polite").class_if("wrong", wrong).text_of(echo))
}

/// To the next number that the row is asked for; a row that is told stays as it is, its verdict in sight.
fn move_on(bench: Bench, id: RowId, at: u8) {
    let next = untrack(|| bench.told(id)).and_then(|(_, answer)| first_asked(&answer));
    let next = next.filter(|next| *next != at);
    bench.open.set(Some((id, next)));
    if next.is_none() {
        // The verdict stands under the row's head.
        let head = ["[data-row=\"", &id.0.to_string(), "\"] button"].concat();
        if let Ok(Some(head)) = document().query_selector(&head) {
            focus_soon(&head);
        }
    }
}

/// A number that is one of a few.
fn one_of(
    bench: Bench,
    id: RowId,
    at: u8,
    words: &[&'static str],
    write: impl Fn(f64) + Copy + 'static,
) -> Node {
    let buttons = words.iter().zip(0_u8..).map(|(word, place)| {
        let press = move || {
            write(f64::from(place));
            move_on(bench, id, at);
        };
        let is = move || {
            let kept = entry_of(bench, id, at).map(|entry| entry.value(CalloutSort::Seen));
            kept.is_some_and(|value| (value - f64::from(place)).abs() < 0.5)
        };
        button(word, press).attr_of("aria-pressed", move || Some(is().to_string()))
    });
    let chips = block("div", "chips").children(buttons);
    // As the field of a size does, so that whoever is led to it sees it.
    if let Some(first) = chips.element().first_element_child() {
        focus_soon(&first);
    }
    chips
}

/// What it was taken by.
fn tools(sort: CalloutSort, tool: Value<Tool>, again: impl Fn() + Copy + 'static) -> Node {
    let chips = sort.tools().iter().map(|each| {
        let press = move || {
            tool.set(*each);
            again();
        };
        button(each.label(), press).attr_of("aria-pressed", move || Some((tool.get() == *each).to_string()))
    });
    block("div", "chips").attr("role", "group").attr("aria-label", "Taken with").children(chips)
}
