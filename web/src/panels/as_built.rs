//! The truck once the work is done, beside the plan on the sketch.

use crate::browser::slices::Slices;
use crate::derive::selected_name;
use crate::dom::{Node, block, el, follow, loose, words};
use crate::panels::read_off::field_as_built;
use crate::panels::work;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::told::write;
use crate::widgets::{Number, choice, folding};
use drawing::{
    EACH_CAUSE, NO_INSPECTION, NO_ONE_CAUSE, Units, asked_in_words, built_dangers, built_in_words,
    built_next, capital, cause_in_words, off_in_words, planned_in_words, settled_in_words, verdict_in_words,
};
use sharing::read_work;
use std::rc::Rc;
use study::{AsBuilt, AsBuiltSearch, Figure};
use truck::{Asked, Kind, Readable, SETTINGS, Side, WorkEdit, WorkLog};

/// What is read where nothing was read before the work.
const FIRST: [Readable; 3] = [Readable::FrameHeight, Readable::Camber, Readable::FenderAbove];

/// When the finished truck was read, and whether it had settled.
const WHEN: [(bool, &str); 2] = [(false, "After the work"), (true, "After 100 miles")];

/// What is read as built, and how it came out.
#[inline(never)]
pub(super) fn as_built(page: Page) -> Node {
    folding("After the work: as built", move || {
        let found = Value::new(None);
        // What is typed: what was read when the work was done, or once it had settled. Both are kept.
        let late = Value::new(page.store.shown().with_now(|design| !design.settled.is_empty()));
        let when = choice("Read", "read-when", &WHEN, move || late.get(), move |at| late.set(at));
        look(page, found);
        // Below the fields, which stay where they are while it comes and goes.
        let told = move || loose().child(dangers(page)).child(found.with(|found| told(page, found.as_ref())));
        loose()
            .child(words("words-built"))
            .child(when)
            .child(block("div", "numbers").content_of(move || fields(page, late.get(), true)))
            .child(folding("Read something else", move || fields(page, late.get(), false)))
            .child(folding("What its manual asks", move || {
                let log = work::log(page);
                let mut all = loose();
                for of in SETTINGS {
                    for each in Asked::ALL {
                        all = all.child(asked(page, log, of, each));
                    }
                }
                all
            }))
            .child(block("div", "remarks").attr("aria-live", "polite").content_of(told))
    })
}

/// Looks for how it came out while nothing moves, and when a drag has ended, not at each of its frames.
fn look(page: Page, found: Value<Option<AsBuilt>>) {
    let slices = Slices::new();
    follow(move || {
        let (side, plan) = (page.session.side.get(), page.selected());
        let is_plan = plan.proposal().is_some();
        let search = page.store.with_committed(|design| AsBuiltSearch::of_design(design, plan, side));
        let mut search = search.filter(|_| is_plan);
        if search.is_none() {
            found.set(None);
        }
        slices.start(Box::new(move || {
            let Some(under_way) = &mut search else { return true };
            let done = under_way.step(&|trial, figures| trial.values(side, figures));
            let is_done = done.is_some();
            if is_done {
                found.set(done);
            }
            is_done
        }));
    });
}

/// The fields of what was read before the work or since, or of all else. They are those that they were when this
/// was opened: none goes from the one list to the other while it is typed into.
fn fields(page: Page, late: bool, wanted: bool) -> Node {
    let side = page.session.side.get();
    let is_asked = page.store.shown().with_now(|design| {
        let sets = [&design.truck.readings, &design.built, &design.settled];
        let is_read = |of| sets.iter().any(|set| set.get(of, side).is_some());
        let is_any = Readable::ALL.iter().any(|of| is_read(*of));
        let mut asked = Vec::new();
        for of in Readable::ALL {
            asked.push(if is_any { is_read(*of) } else { FIRST.contains(of) });
        }
        asked
    });
    let mut all = loose();
    for (of, is_asked) in Readable::ALL.iter().zip(is_asked) {
        if is_asked == wanted {
            all = all.child(field(page, *of, side, late));
        }
    }
    all
}

/// What a manual says of a setting.
fn asked(page: Page, log: Derived<WorkLog>, of: Readable, asked: Asked) -> Node {
    Number {
        label: if asked == Asked::Target { of.label() } else { "give or take" },
        kind: Kind::Angle,
        limits: asked.limits(of),
        optional: true,
        stepper: false,
        value: Rc::new(move || log.with(|log| log.asked(of, asked))),
        start: 0.0,
        badge: Rc::new(String::new),
        take: Rc::new(move |value| work::write_down(page, &WorkEdit::Asked(of, asked, value))),
    }
    .node(page)
}

fn field(page: Page, of: Readable, side: Side, late: bool) -> Node {
    let before = move || {
        let mut said = String::new();
        page.store.shown().with(|design| {
            let sets = [("before: ", &design.truck.readings), ("; after the work: ", &design.built)];
            for (when, set) in &sets[..1 + usize::from(late)] {
                if let Some(read) = set.get(of, side) {
                    said += if said.is_empty() { when.trim_start_matches("; ") } else { when };
                    said += &built_in_words(of, read.answer(), page.units());
                }
            }
        });
        said
    };
    field_as_built(page, of, side, late, Box::new(move |()| before()))
}

/// What is dangerous of what was read, at either side and whatever was planned.
fn dangers(page: Page) -> Node {
    let mut all = loose();
    for said in page.store.shown().with(|design| built_dangers(design, page.units())) {
        all = all.child(block("p", "remark").attr("role", "alert").text(&said));
    }
    all
}

/// How it came out.
#[inline(never)]
fn told(page: Page, found: Option<&AsBuilt>) -> Node {
    let units: Units = page.units();
    let hint = |said: &str| block("p", "hint").text(said);
    let Some(found) = found else {
        let is_plan = page.selected().proposal().is_some();
        return if is_plan { loose() } else { hint("Choose the plan that was built, at the top.") };
    };
    let mut rows = block("dl", "cautions");
    let log = page.store.shown().with(|design| read_work(&design.work));
    for row in &found.rows {
        let label = Figure::of_reading(row.of).label();
        let (planned, off) = (planned_in_words(row, units), off_in_words(row, units));
        let read = built_in_words(row.of, row.read, units);
        let mut said = ["planned ", &planned, ", read ", &read, "; off by ", &off].concat();
        let settled = settled_in_words(row, units);
        if !settled.is_empty() {
            said += "; after the work ";
            said += &settled;
        }
        let asked = asked_in_words(row, &log);
        if !asked.is_empty() {
            said += "; ";
            said += &asked;
        }
        rows = rows
            .child(el("dt").text(&[&label, ": ", &verdict_in_words(row, units)].concat()))
            .child(write(el("dd"), &said));
    }
    let side = page.session.side.get();
    let is_settled = page.store.shown().with_now(|design| design.is_settled(side));
    let when = WHEN[usize::from(is_settled)].1;
    let beside = [side.label(), ", beside ", &selected_name(page), ": ", when].concat();
    let mut all = loose().child(el("h3").text(&beside)).child(rows);
    if found.is_off() && found.causes.is_empty() {
        all = all.child(el("p").text(NO_ONE_CAUSE));
    }
    if !found.causes.is_empty() {
        let mut list = el("ul");
        for cause in &found.causes {
            list = list.child(write(el("li"), &capital(&cause_in_words(cause, units))));
        }
        all = all.child(el("p").text(EACH_CAUSE[usize::from(found.causes.len() > 1)])).child(list);
    }
    for said in built_next(found) {
        all = all.child(hint(&said));
    }
    all.child(hint(NO_INSPECTION))
}
