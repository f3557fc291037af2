//! The truck once the work is done, beside the plan on the sketch.

use crate::browser::slices::Slices;
use crate::dom::{Node, block, el, follow, loose, words};
use crate::panels::read_off::field_as_built;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::told::write;
use crate::widgets::folding;
use drawing::{
    MAY_BE_AS_PLANNED, NO_ONE_CAUSE, Units, built_danger, capital, cause_in_words, off_in_words,
    planned_in_words, read_in_words, verdict_in_words,
};
use study::{AsBuilt, AsBuiltSearch, BuiltVerdict, Figure};
use truck::{Readable, Side};

/// How it came out.
#[derive(PartialEq)]
enum Out {
    /// Nothing was read as built, or it is being looked for.
    Open,
    /// No plan is on the sketch to compare it with.
    NoPlan,
    Found(AsBuilt),
}

/// What is read as built, and how it came out.
#[inline(never)]
pub(super) fn as_built(page: Page) -> Node {
    folding("As built", move || {
        let found = Value::new(Out::Open);
        look(page, found);
        loose()
            .child(words("words-built"))
            .child(block("div", "remarks").attr("aria-live", "polite").content_of(move || {
                found.with(|found| match found {
                    Out::Open => loose(),
                    Out::NoPlan => block("p", "remark").text("Choose the plan that was built, at the top."),
                    Out::Found(found) => told(found, page.units()),
                })
            }))
            .child(fields(page))
    })
}

/// Looks for how it came out while nothing moves.
fn look(page: Page, found: Value<Out>) {
    let slices = Slices::new();
    follow(move || {
        let (side, plan) = (page.session.side.get(), page.selected());
        let is_plan = plan.proposal().is_some();
        // Looked for when a drag has ended, not at each of its frames.
        let design = page.store.committed();
        let mut search = AsBuiltSearch::of_design(&design, plan, side).filter(|_| is_plan);
        if search.is_none() {
            found.set(if is_plan { Out::Open } else { Out::NoPlan });
        }
        slices.start(Box::new(move || {
            let Some(under_way) = &mut search else { return true };
            let done = under_way.step(&|trial, figures| trial.values(side, figures));
            let is_done = done.is_some();
            if let Some(done) = done {
                found.set(Out::Found(done));
            }
            is_done
        }));
    });
}

/// A field for everything that was read before the work or since; the rest folded away.
fn fields(page: Page) -> Node {
    let asked = Derived::new(move || {
        let side = page.session.side.get();
        let is_asked = page.store.shown().with(|design| {
            let mut asked = Vec::new();
            for of in Readable::ALL {
                let is_read = |all: &truck::Readings| all.get(*of, side).is_some();
                asked.push(is_read(&design.truck.readings) || is_read(&design.built));
            }
            asked
        });
        (side, is_asked)
    });
    let list = move |wanted: bool| {
        let (side, is_asked) = asked.get();
        let mut all = loose();
        for (of, is_asked) in Readable::ALL.iter().zip(is_asked) {
            if is_asked == wanted {
                all = all.child(field(page, *of, side));
            }
        }
        all
    };
    loose()
        .child(block("div", "numbers").content_of(move || list(true)))
        .child(folding("Read something else", move || list(false)))
}

fn field(page: Page, of: Readable, side: Side) -> Node {
    let before = move || {
        let read = page.store.shown().with(|design| design.truck.readings.get(of, side).copied());
        read.map_or_else(
            || "not read before the work".to_owned(),
            |read| "before: ".to_owned() + &read_in_words(of.kind(), read.answer(), page.units()),
        )
    };
    field_as_built(page, of, side, Box::new(move |()| before()))
}

/// How it came out, what is dangerous first.
#[inline(never)]
fn told(found: &AsBuilt, units: Units) -> Node {
    let remark = |said: &str| block("p", "remark").text(said);
    let (mut all, mut rows) = (loose(), block("dl", "cautions"));
    let mut is_outside = false;
    for row in &found.rows {
        let label = Figure::of_reading(row.of).label();
        if let Some(danger) = built_danger(row) {
            all = all.child(remark(&[&label, " ", danger, "."].concat()).attr("role", "alert"));
        }
        is_outside |= row.verdict == BuiltVerdict::Outside;
        let (planned, off) = (planned_in_words(row, units), off_in_words(row, units));
        let read = read_in_words(row.of.kind(), row.read, units);
        let said = ["planned ", &planned, ", read ", &read, "; off by ", &off].concat();
        rows = rows
            .child(el("dt").text(&[&label, ": ", &verdict_in_words(row, units)].concat()))
            .child(write(el("dd"), &said));
    }
    all = all.child(rows);
    if !is_outside {
        return all;
    }
    if found.may_be_as_planned {
        all = all.child(remark(MAY_BE_AS_PLANNED));
    } else if found.causes.is_empty() {
        all = all.child(remark(NO_ONE_CAUSE));
    }
    if !found.causes.is_empty() {
        let is_one = found.causes.len() == 1;
        let head =
            if is_one { "What alone would make it so" } else { "Any one of these alone would make it so" };
        let mut list = el("ul");
        for cause in &found.causes {
            list = list.child(write(el("li"), &capital(&cause_in_words(cause, units))));
        }
        all = all.child(el("h3").text(head)).child(list);
    }
    all.children(found.tells.map(|of| {
        remark(&["Read this as well, it tells them apart: ", &Figure::of_reading(of).label(), "."].concat())
    }))
}
