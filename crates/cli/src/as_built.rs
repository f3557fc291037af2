//! `scrubline as-built`: how the truck came out against a plan, and what alone would make it so.

use crate::arguments::{AsBuilt as Asked, Format, Printed};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::trucks::{self, Choice, Chosen};
use drawing::{
    MAY_BE_AS_PLANNED, NO_ONE_CAUSE, READ_AS_BUILT, built_danger, capital, cause_in_words, off_in_words,
    planned_in_words, read_in_words, verdict_in_words,
};
use measure::Units;
use std::io::{self, Write};
use study::{AsBuilt, AsBuiltSearch, BuiltAgainst, BuiltRow, BuiltVerdict, Figure};
use truck::Kind;

/// Writes how it came out.
pub(crate) fn run(asked: &Asked, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let (design, side) = (&shared.design, asked.one.side());
    let choice = match &asked.asked.proposal {
        Some(text) => Choice::named(design, text)?,
        None => Choice::from(shared.opening.proposal.or(design.proposals.first().map(|first| first.id))),
    };
    let units = asked.printed.units();
    let title = [trucks::title(design), ", ", &choice.name(design, units)].concat();
    let title = trucks::on_side(title, side);
    let Some(search) = AsBuiltSearch::of_design(design, choice, side) else {
        return Err(Failure::at(
            title,
            "nothing was read there as built: put it under \"built\" in the file.",
        ));
    };
    choice.rest(design, side).map_err(|sentence| Failure::at(title.clone(), sentence))?;
    let found = search.finish(&|trial, figures| trial.values(side, figures));
    match asked.format {
        Format::Text => text(&title, &found, units, out)?,
        format => rows(&found, format, &asked.printed, out)?,
    }
    Ok(())
}

fn label(row: &BuiltRow) -> String {
    Figure::of_reading(row.of).label()
}

fn text(title: &str, found: &AsBuilt, units: Units, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{title}: as it was built\n")?;
    let dangers =
        found.rows.iter().filter_map(|row| Some([&label(row), " ", built_danger(row)?, "."].concat()));
    let dangers: Vec<_> = dangers.collect();
    if !dangers.is_empty() {
        writeln!(out, "{}\n", dangers.join("\n"))?;
    }
    let mut table = vec![["", "planned", "read", "off by"].map(str::to_owned).to_vec()];
    for row in &found.rows {
        let name = [&label(row), ": ", &verdict_in_words(row, units)].concat();
        let read = read_in_words(row.of.kind(), row.read, units);
        table.push(vec![name, planned_in_words(row, units), read, off_in_words(row, units)]);
    }
    aligned(&table, out)?;
    if !found.unread.is_empty() {
        let unread: Vec<_> = found.unread.iter().map(|of| Figure::of_reading(*of).label()).collect();
        writeln!(out, "\nRead before and not yet as built: {}.", unread.join("; "))?;
    }
    causes(found, units, out)?;
    writeln!(out, "\n{READ_AS_BUILT}")
}

/// What would make it so, where anything is outside.
fn causes(found: &AsBuilt, units: Units, out: &mut impl Write) -> io::Result<()> {
    if found.rows.iter().all(|row| row.verdict != BuiltVerdict::Outside) {
        return Ok(());
    }
    writeln!(out)?;
    if found.may_be_as_planned {
        writeln!(out, "{MAY_BE_AS_PLANNED}")?;
    }
    match &found.causes[..] {
        [] if found.may_be_as_planned => {}
        [] => writeln!(out, "{NO_ONE_CAUSE}")?,
        [one] => writeln!(out, "What alone would make it so: {}.", cause_in_words(one, units))?,
        all => {
            writeln!(
                out,
                "Any one of these alone would make it so; what was read does not tell them apart:"
            )?;
            for cause in all {
                writeln!(out, "  {}", capital(&cause_in_words(cause, units)))?;
            }
        }
    }
    if let Some(of) = found.tells {
        writeln!(out, "This would tell them apart: {}.", Figure::of_reading(of).label())?;
    }
    Ok(())
}

const fn against(row: &BuiltRow) -> &'static str {
    match row.against {
        BuiltAgainst::AsItSat => "as it sat",
        BuiltAgainst::Model => "model",
        BuiltAgainst::Set => "set",
    }
}

const fn verdict(row: &BuiltRow) -> &'static str {
    match row.verdict {
        BuiltVerdict::Inside => "inside",
        BuiltVerdict::Outside => "outside",
        BuiltVerdict::CannotTell => "cannot tell",
    }
}

/// A row for each answer that was read, then one for each cause.
fn rows(found: &AsBuilt, format: Format, printed: &Printed, out: &mut impl Write) -> io::Result<()> {
    let units = printed.units();
    let headers = [
        "kind", "answer", "unit", "read", "planned", "off", "spread", "guess", "against", "verdict",
        "danger", "said",
    ];
    let mut table = Table::begin(out, format, headers.map(str::to_owned).to_vec())?;
    let words = |text: &str| Cell::Words(text.to_owned());
    for row in &found.rows {
        let sort = if row.of.kind() == Kind::Angle { Sort::Angle } else { Sort::Length };
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
            built_danger(row).map_or(Cell::Nothing, words),
            Cell::Words(verdict_in_words(row, units)),
        ])?;
    }
    for cause in &found.causes {
        let mut cells = vec![words("cause")];
        cells.extend(std::iter::repeat_n(Cell::Nothing, headers.len() - 2));
        cells.push(Cell::Words(cause_in_words(cause, units)));
        table.row(&cells)?;
    }
    table.end()
}
