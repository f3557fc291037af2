//! `scrubline as-built`: how the truck came out against a plan, and what alone would make it so.

use crate::arguments::{AsBuilt as Asked, Format, Printed};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::trucks::{self, Chosen};
use drawing::{
    EACH_CAUSE, NO_INSPECTION, NO_ONE_CAUSE, READ_AS_BUILT, asked_in_words, built_danger, built_dangers,
    built_in_words, built_next, capital, cause_in_words, off_in_words, planned_in_words, settled_in_words,
    verdict_in_words,
};
use measure::Units;
use std::io::{self, Write};
use study::{AsBuilt, AsBuiltSearch, BuiltRow, BuiltVerdict, Figure};
use truck::WorkLog;

/// Writes how it came out.
pub(crate) fn run(asked: &Asked, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let (design, side) = (&shared.design, asked.one.side());
    let choice = trucks::one(&shared, asked.asked.proposal.as_deref())?;
    let units = asked.printed.units();
    let title = [trucks::title(design), ", ", &choice.name(design, units)].concat();
    let when = if design.is_settled(side) { ", after 100 miles" } else { "" };
    let title = [&trucks::on_side(title, side), when].concat();
    let dangers = built_dangers(design, units);
    let search = AsBuiltSearch::of_design(design, choice, side);
    let stands = choice.rest(design, side);
    let (Some(search), Ok(_)) = (search, &stands) else {
        let nothing = "no readings after the work there yet: type them on the page under My truck, or put them \
            under \"built\" in the file.";
        // What was read is as dangerous whether the plan stands or not.
        let mut said = dangers;
        said.push(stands.err().unwrap_or_else(|| nothing.to_owned()));
        return Err(Failure::at(title, said.join("\n")));
    };
    let log = sharing::read_work(&design.work);
    let found = search.finish(&|trial, figures| trial.values(side, figures));
    match asked.format {
        Format::Text => text((&title, &log), &dangers, &found, units, out)?,
        format => rows(&dangers, &log, &found, format, &asked.printed, out)?,
    }
    Ok(())
}

fn label(row: &BuiltRow) -> String {
    Figure::of_reading(row.of).label()
}

fn text(
    (title, log): (&str, &WorkLog),
    dangers: &[String],
    found: &AsBuilt,
    units: Units,
    out: &mut impl Write,
) -> io::Result<()> {
    writeln!(out, "{title}: as it was built\n")?;
    if !dangers.is_empty() {
        writeln!(out, "{}\n", dangers.join("\n"))?;
    }
    let mut table = vec![["", "planned", "read", "off by", "after the work"].map(str::to_owned).to_vec()];
    for row in &found.rows {
        let name = [&label(row), ": ", &verdict_in_words(row, units)].concat();
        let read = built_in_words(row.of, row.read, units);
        let settled = settled_in_words(row, units);
        table.push(vec![name, planned_in_words(row, units), read, off_in_words(row, units), settled]);
    }
    if found.rows.iter().all(|row| row.earlier.is_none()) {
        table.iter_mut().for_each(|row| row.truncate(4));
    }
    aligned(&table, out)?;
    for row in &found.rows {
        let asked = asked_in_words(row, log);
        if !asked.is_empty() {
            writeln!(out, "\n{}, {asked}", label(row))?;
        }
    }
    causes(found, units, out)?;
    for said in built_next(found) {
        writeln!(out, "\n{said}")?;
    }
    writeln!(out, "\n{READ_AS_BUILT} {NO_INSPECTION}")
}

/// What would make it so, where anything is off.
fn causes(found: &AsBuilt, units: Units, out: &mut impl Write) -> io::Result<()> {
    if !found.is_off() {
        return Ok(());
    }
    writeln!(out)?;
    match &found.causes[..] {
        [] => writeln!(out, "{NO_ONE_CAUSE}")?,
        all => writeln!(out, "{}", EACH_CAUSE[usize::from(all.len() > 1)])?,
    }
    for cause in &found.causes {
        writeln!(out, "  {}", capital(&cause_in_words(cause, units)))?;
    }
    Ok(())
}

const fn against(row: &BuiltRow) -> &'static str {
    if row.before.is_some() { "as it sat" } else { "model" }
}

const fn verdict(row: &BuiltRow) -> &'static str {
    match row.verdict {
        BuiltVerdict::Inside => "inside",
        BuiltVerdict::Outside => "outside",
        BuiltVerdict::CannotTell => "cannot tell",
    }
}

const HEADERS: [&str; 16] = [
    "kind",
    "answer",
    "unit",
    "read",
    "planned",
    "off",
    "spread",
    "guess",
    "against",
    "verdict",
    "danger",
    "said",
    "earlier",
    "settled",
    "settled_spread",
    "asked",
];

/// A row for each answer that was read, then one for each cause.
fn rows(
    dangers: &[String],
    log: &WorkLog,
    found: &AsBuilt,
    format: Format,
    printed: &Printed,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = printed.units();
    let mut table = Table::begin(out, format, HEADERS.map(str::to_owned).to_vec())?;
    let words = |text: &str| Cell::Words(text.to_owned());
    let said = |kind: &str, said: &str| {
        let mut cells = vec![words(kind)];
        cells.extend(std::iter::repeat_n(Cell::Nothing, HEADERS.len() - 6));
        cells.push(words(said));
        cells.extend(std::iter::repeat_n(Cell::Nothing, 4));
        cells
    };
    for danger in dangers {
        table.row(&said("danger", danger))?;
    }
    for row in &found.rows {
        let sort = Sort::from(row.of.kind());
        let number = |value: Option<f64>| {
            let fixed = |value| Cell::Number(sort.fixed(value, units, printed.data_decimals()));
            value.map_or(Cell::Nothing, fixed)
        };
        table.row(&[
            words("reading"),
            words(row.of.key()),
            sort.suffix(units).map_or(Cell::Nothing, words),
            number(Some(row.read)),
            number(row.planned),
            number(row.off()),
            number(row.spread),
            words(if row.is_guess { "yes" } else { "no" }),
            words(against(row)),
            words(verdict(row)),
            built_danger(row, units).map_or(Cell::Nothing, Cell::Words),
            Cell::Words(verdict_in_words(row, units)),
            number(row.earlier.map(|(read, _)| read)),
            number(row.settled().map(|(by, _)| by)),
            number(row.settled().map(|(_, spread)| spread)),
            Some(asked_in_words(row, log))
                .filter(|asked| !asked.is_empty())
                .map_or(Cell::Nothing, Cell::Words),
        ])?;
    }
    for cause in &found.causes {
        table.row(&said("cause", &cause_in_words(cause, units)))?;
    }
    let none = (found.is_off() && found.causes.is_empty()).then(|| NO_ONE_CAUSE.to_owned());
    for remark in none.into_iter().chain(built_next(found)) {
        table.row(&said("remark", &remark))?;
    }
    table.row(&said("caution", &[READ_AS_BUILT, " ", NO_INSPECTION].concat()))?;
    table.end()
}
