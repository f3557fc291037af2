//! The order of the work: what is done, by which torque and whose manual; and its printed sheet.

use crate::browser::tell;
use crate::derive::selected_name;
use crate::dom::{Node, block, button, el, loose, words};
use crate::signals::Derived;
use crate::state::Page;
use crate::told::write;
use crate::widgets::{Number, check, folding, remark, table, text_field};
use drawing::{
    NO_MANUAL, NO_TORQUE, before_work, capital, early_in_words, task_early_in_words, torque_in_words,
    work_lists,
};
use mating::{Early, Jobs, done_early, due, order_of_work};
use sharing::{read_work, write_work};
use std::rc::Rc;
use truck::{Edit, Fastener, Kind, Task, Torque, WorkEdit, WorkLog};

/// The tasks of what is on the sketch, in their order.
fn tasks(page: Page) -> Vec<Task> {
    order_of_work(&page.store.shown().with(|design| Jobs::of(design, page.selected())))
}

/// What is written down of the work, read anew only where it has changed.
pub(super) fn log(page: Page) -> Derived<WorkLog> {
    Derived::new(move || page.store.shown().with(|design| read_work(&design.work)))
}

/// Below what is open.
const TICKS: &str = "Ticks are of the truck, whichever plan is on the sketch, and of both sides. An empty list is no more \
                     than what was ticked: look at each nut and pin once more.";

/// What is done first, and why; of the proposal that is on the sketch.
pub(super) fn order(page: Page) -> Node {
    folding("The order of the work", move || {
        // The list is made anew only where there are other tasks: what is typed in keeps its place.
        let order = Derived::new(move || tasks(page));
        let log = log(page);
        let early = Derived::new(move || order.with(|order| log.with(|log| done_early(order, log))));
        let open = move || {
            let mut items = block("ul", "order");
            for task in order.get() {
                if let Some(item) = task.open_item()
                    && !log.with(|log| log.is_done(task))
                {
                    items = items.child(el("li").text(item));
                }
            }
            items
        };
        let tasks = move || {
            let order = order.get();
            loose().children(order.iter().map(|task| one(page, log, early, &order, *task)))
        };
        loose()
            .child(block("div", "remarks").content_of(move || before(page)))
            .child(block("div", "remarks").content_of(move || early.with(|early| stops(early))))
            .child(block("p", "hint").text(NO_TORQUE))
            .child(block("ol", "order").content_of(tasks))
            .child(el("h3").text("Not on the road until this list is empty"))
            .child(el("div").content_of(open))
            .child(block("p", "hint").text(TICKS))
            .child(block("div", "row").child(button("Print the work sheet", tell::print)))
    })
}

/// What can hurt someone in the plan.
#[inline(never)]
fn before(page: Page) -> Node {
    let which = page.selected();
    let said = page.store.shown().with(|design| before_work(design, which));
    let mut all = loose();
    for line in said {
        all = all.child(remark(&line, true));
    }
    all
}

/// What is loaded or apart too early, above all else.
#[inline(never)]
fn stops(early: &[Early]) -> Node {
    let mut all = loose();
    for early in early {
        if early.is_danger {
            all = all.child(block("p", "remark").attr("role", "alert").text(&early_in_words(early)));
        }
    }
    all
}

/// Writes something down of the work; what is outside its limits the field itself says.
#[inline(never)]
pub(super) fn write_down(page: Page, edit: &WorkEdit) {
    if let Ok(work) = read_work(&page.store.committed_now().work).edited(edit) {
        page.edit(&Edit::Work(write_work(&work)));
    }
}

/// A task with its box to tick, and a place for each torque of it.
fn one(page: Page, log: Derived<WorkLog>, early: Derived<Vec<Early>>, order: &[Task], task: Task) -> Node {
    let said = el("span").child(el("b").text(task.label())).child(el("small").text(task.why()));
    let done = move || log.with(|log| log.is_done(task));
    let tick = check(said, done, move |is| write_down(page, &WorkEdit::Done(task, is)));
    let too_early = move || early.with(|early| task_early_in_words(early, task)).unwrap_or_default();
    let mut item = el("li").child(tick).child(block("p", "remark").text_of(too_early));
    for of in due(order, task) {
        // What is torqued again later is typed once.
        if of.due().first() == Some(&task) {
            item = item.child(torque(page, log, of));
        }
    }
    item
}

/// Where a torque and its manual are typed.
fn torque(page: Page, log: Derived<WorkLog>, of: Fastener) -> Node {
    let unnamed = move || {
        let is_unnamed = log.with(|log| {
            let torque = log.torque(of);
            torque.steps > 0 && torque.manual.is_empty()
        });
        if is_unnamed { NO_MANUAL.to_owned() } else { String::new() }
    };
    let number = Number {
        label: of.label(),
        kind: Kind::Torque,
        limits: Torque::LIMITS,
        optional: true,
        stepper: false,
        value: Rc::new(move || log.with(|log| log.torque(of).newton_metres())),
        start: 0.0,
        badge: Rc::new(unnamed),
        take: Rc::new(move |value| write_down(page, &WorkEdit::Torque(of, value))),
    };
    let take = move |manual| write_down(page, &WorkEdit::Manual(of, manual));
    let manual = move || log.with(|log| log.torque(of).manual.to_owned());
    let manual = text_field("Manual", "input", "80", manual, take);
    block("div", "torque").child(number.node(page)).child(manual)
}

/// The work on one printed sheet.
#[inline(never)]
pub(super) fn printed(page: Page) -> Node {
    let design = page.store.committed();
    let units = page.units();
    let title = if design.title.is_empty() { "Scrubline".to_owned() } else { design.title.clone() };
    let order = tasks(page);
    let log = read_work(&design.work);
    let cell = |words: &str| el("td").text(words);
    let mut rows = loose();
    let mut open =
        block("div", "open").child(el("b").text("Open items. Not on the road until this box is empty."));
    for (at, task) in (1..).zip(&order) {
        let is_done = log.is_done(*task);
        if let Some(item) = task.open_item()
            && !is_done
        {
            open = open.child(el("span").text(&["☐ ", item].concat()));
        }
        // Without a torque its words have that column too.
        let due = due(&order, *task);
        let said = el("td").child(el("b").text(task.label())).child(el("small").text(task.why()));
        let mut row = el("tr").child(cell(&at.to_string()));
        if due.is_empty() {
            row = row.child(said.attr("colspan", "2"));
        } else {
            let mut torques = el("td");
            for of in due {
                let said = torque_in_words(log.torque(of), units);
                let line = block("div", if said.is_empty() { "blank" } else { "" });
                torques = torques.child(line.text(&[of.label(), ": ", &said].concat()));
            }
            row = row.child(said).child(torques);
        }
        let done = if is_done { "☑" } else { "" };
        rows = rows.child(row.child(cell(task.when())).child(cell(done)));
    }
    let mut lists = block("div", "lists");
    for (heading, items) in work_lists(&design, page.selected(), units) {
        if !items.is_empty() {
            let items = items.iter().map(|item| write(el("li"), &capital(item)));
            lists = lists.child(el("div").child(el("h2").text(heading)).child(el("ul").children(items)));
        }
    }
    loose()
        .child(el("h1").text(&[&title, ": ", &selected_name(page), ", the order of the work"].concat()))
        .child(before(page))
        .child(stops(&done_early(&order, &log)))
        .child(words("words-sheet"))
        .child(lists)
        .child(open)
        .child(block("div", "work").child(table(
            &["", "Task, and why now", "Torque, and by which manual", "When", "Initials"],
            rows,
        )))
        .child(block("p", "hint").text(NO_TORQUE))
}
