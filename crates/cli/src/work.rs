//! `scrubline work`: the tasks of a plan in the order in which they are done, and why so.

use crate::arguments::{Format, Work};
use crate::failure::Failure;
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks::{self, Chosen};
use mating::{Jobs, order_of_work};
use measure::Units;
use std::io::{self, Write};
use truck::Task;

/// Writes the tasks.
pub(crate) fn run(asked: &Work, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = trucks::one(&shared, asked.asked.proposal.as_deref())?;
    let jobs = Jobs::of(design, choice);
    let order = order_of_work(&jobs);
    match asked.format {
        Format::Text => text(
            &format!("{}, {}", trucks::title(design), choice.name(design, Units::default())),
            &order,
            out,
        )?,
        format => rows(&order, format, out)?,
    }
    Ok(())
}

fn text(title: &str, order: &[Task], out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{title}: in this order\n")?;
    for (at, task) in order.iter().enumerate() {
        writeln!(out, "{:>2}  {}\n      {}", at + 1, task.label(), task.why())?;
    }
    writeln!(out, "\nOpen items. Not on the road until this box is empty:")?;
    for item in order.iter().filter_map(|task| task.open_item()) {
        writeln!(out, "  [ ] {item}")?;
    }
    writeln!(out, "\nNo torque is known here: each by the manual of the truck that its part is from.")
}

fn rows(order: &[Task], format: Format, out: &mut impl Write) -> io::Result<()> {
    let headers = ["number", "task", "why", "open_item"].map(str::to_owned).to_vec();
    let mut table = Table::begin(out, format, headers)?;
    for (at, task) in order.iter().enumerate() {
        let words = |text: &str| Cell::Words(text.to_owned());
        table.row(&[
            Cell::Number((at + 1).to_string()),
            words(task.label()),
            words(task.why()),
            task.open_item().map_or(Cell::Nothing, words),
        ])?;
    }
    table.end()
}
