//! `scrubline work`: the tasks of a plan in the order in which they are done, why so, and what is written
//! down of them.

use crate::arguments::{Format, Work};
use crate::failure::Failure;
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks::{self, Chosen};
use drawing::{
    NO_TORQUE, before_work, capital, early_in_words, task_early_in_words, torque_in_words, work_lists,
};
use mating::{Early, Jobs, done_early, due, order_of_work_with};
use measure::{Units, print_number, without_zeros};
use std::io::{self, Write};
use truck::{Fastener, Task, WorkLog};

/// Writes the tasks.
pub(crate) fn run(asked: &Work, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = trucks::one(&shared, asked.asked.proposal.as_deref())?;
    let jobs = Jobs::of(design, choice);
    let order = order_of_work_with(&jobs, &asked.first).map_err(|circle| Failure::at("--first", circle))?;
    let units = asked.units.units();
    let log = sharing::read_work(&design.work);
    let early = done_early(&order, &log);
    match asked.format {
        Format::Text => {
            writeln!(out, "{}, {}: in this order\n", trucks::title(design), choice.name(design, units))?;
            for said in before_work(design, choice) {
                writeln!(out, "{said}\n")?;
            }
            for early in early.iter().filter(|early| early.is_danger) {
                writeln!(out, "{}\n", early_in_words(early))?;
            }
            text(&log, &order, &early, units, out)?;
            lists(&work_lists(design, choice, units), out)?;
            writeln!(out, "\n{NO_TORQUE}")?;
        }
        format => rows(&log, &order, &early, format, out)?,
    }
    Ok(())
}

fn text(
    work: &WorkLog,
    order: &[Task],
    early: &[Early],
    units: Units,
    out: &mut impl Write,
) -> io::Result<()> {
    for (at, task) in order.iter().enumerate() {
        let done = if work.is_done(*task) { "[x]" } else { "[ ]" };
        writeln!(out, "{:>2}  {done} {}\n          {}", at + 1, task.label(), task.why())?;
        if let Some(said) = task_early_in_words(early, *task) {
            writeln!(out, "          {said}")?;
        }
        for of in due(order, *task) {
            let torque = torque_in_words(work.torque(of), units);
            let torque = if torque.is_empty() { "________ by ________________" } else { &torque };
            writeln!(out, "          {}: {torque}", of.label())?;
        }
    }
    writeln!(out, "\nOpen items. Not on the road until this box is empty:")?;
    let open = order.iter().filter(|task| !work.is_done(**task)).filter_map(|task| task.open_item());
    for item in open {
        writeln!(out, "  [ ] {item}")?;
    }
    Ok(())
}

fn lists(lists: &[(&str, Vec<String>)], out: &mut impl Write) -> io::Result<()> {
    for (heading, items) in lists.iter().filter(|(_, items)| !items.is_empty()) {
        writeln!(out, "\n{heading}:")?;
        for item in items {
            writeln!(out, "  {}", capital(item))?;
        }
    }
    Ok(())
}

const HEADERS: [&str; 10] =
    ["number", "task", "why", "open_item", "when", "done", "fastener", "torque_nm", "manual", "early"];

/// A row for each fastener of a task, and one for a task that has none.
fn rows(
    work: &WorkLog,
    order: &[Task],
    early: &[Early],
    format: Format,
    out: &mut impl Write,
) -> io::Result<()> {
    let words = |text: &str| if text.is_empty() { Cell::Nothing } else { Cell::Words(text.to_owned()) };
    let mut table = Table::begin(out, format, HEADERS.map(str::to_owned).to_vec())?;
    for (at, task) in order.iter().enumerate() {
        let due = due(order, *task);
        let fasteners: Vec<Option<Fastener>> =
            if due.is_empty() { vec![None] } else { due.into_iter().map(Some).collect() };
        for of in fasteners {
            let torque = of.map(|of| work.torque(of)).unwrap_or_default();
            let number = |value: f64| Cell::Number(without_zeros(&print_number(value, 1)).to_owned());
            table.row(&[
                Cell::Number((at + 1).to_string()),
                words(task.label()),
                words(task.why()),
                words(task.open_item().unwrap_or_default()),
                words(task.when()),
                words(if work.is_done(*task) { "done" } else { "" }),
                words(of.map_or("", Fastener::label)),
                torque.newton_metres().map_or(Cell::Nothing, number),
                words(torque.manual),
                words(&task_early_in_words(early, *task).unwrap_or_default()),
            ])?;
        }
    }
    table.end()
}
