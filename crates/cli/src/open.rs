//! `scrubline open`: the design behind a link, a code or a text.

use crate::arguments::{Open, OpenFormat};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::trucks::{self, Choice, Chosen};
use drawing::{on_side, proposal_names};
use measure::Units;
use sharing::Shared;
use std::io::{self, Write};
use truck::{Change, ChangeNumber, Field, Kind, Ledger, Side, Source, SpringKind};

/// Writes the file, or a summary.
pub(crate) fn run(asked: &Open, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(Some(&asked.design))?;
    match asked.format {
        OpenFormat::Json => write!(out, "{}", sharing::print_json(&sharing::to_tree(&shared)))?,
        OpenFormat::Text => summary(&shared, asked.units.units(), out)?,
    }
    Ok(())
}

fn summary(shared: &Shared, units: Units, out: &mut impl Write) -> io::Result<()> {
    let Shared { design, opening } = shared;
    writeln!(out, "{}", trucks::title(design))?;
    if !design.note.trim().is_empty() {
        writeln!(out, "\n{}", design.note.trim())?;
    }
    let truck = &design.truck;
    let spring = match truck.spring.kind {
        SpringKind::TorsionBar => "torsion bar",
        SpringKind::Coil => "coil",
        SpringKind::WheelRate => "rate at the wheel",
    };
    let shown = |field: Field| field.get(truck).map_or("—".to_owned(), |v| kept(field.kind(), v, units));
    writeln!(out, "\nSpring      {spring}")?;
    writeln!(
        out,
        "Tire        {}/{}R{}",
        shown(Field::TireSection),
        shown(Field::TireAspect),
        shown(Field::TireRim)
    )?;
    writeln!(out, "Wheelbase   {}", shown(Field::Wheelbase))?;
    writeln!(out, "Assumed     {} of its numbers", truck.sources.guessed(truck).len())?;
    for (field, value) in truck.right.iter() {
        writeln!(out, "Right       {}: {}", field.label(), kept(field.kind(), value, units))?;
    }
    let (rows, numbers) = counted(&design.ledger);
    if rows > 0 {
        writeln!(out, "Bolt-up     {numbers} numbers in {rows} rows")?;
    }
    writeln!(out, "Opened at   {}", Choice::from(opening.proposal).name(design, units))?;
    writeln!(out, "Travel      {}", Sort::Length.words(opening.travel_mm, units))?;
    for (proposal, name) in design.proposals.iter().zip(proposal_names(design, units)) {
        writeln!(out, "\n{name}")?;
        if proposal.every().is_empty() {
            writeln!(out, "  nothing changed yet")?;
        }
        for change in proposal.every() {
            writeln!(out, "  {}", said(change, units))?;
        }
        for ((kind, place, at), source) in proposal.sources.exceptions() {
            let source = if source == Source::Assumed { "a guess" } else { "measured" };
            writeln!(out, "  {}, {}: {source}", kind.title(place), kind.numbers()[at].label())?;
        }
        if let Some(down_mm) = proposal.rear_down_mm {
            writeln!(out, "  Rear comes down by {}", Sort::Length.words(down_mm, units))?;
        }
    }
    Ok(())
}

/// The rows of a ledger in which something is written, and their numbers.
fn counted(ledger: &Ledger) -> (usize, usize) {
    let rows = ledger.written();
    (rows.len(), rows.iter().map(|row| row.entries().len()).sum())
}

/// A change in one line: what it is, where, and its numbers but those at zero.
fn said((side, change): (Option<Side>, Change), units: Units) -> String {
    let mut said = change.kind().label().to_owned() + on_side(side);
    if let Some(place) = change.place() {
        said.push_str(&format!(", {}", place.label()));
    }
    let numbers = change.kind().numbers().iter().zip(change.values());
    let stated: Vec<_> = numbers.filter_map(|(number, value)| stated(number, value?, units)).collect();
    if !stated.is_empty() {
        said.push_str(&format!(": {}", stated.join("; ")));
    }
    said
}

fn stated(number: &ChangeNumber, value: f64, units: Units) -> Option<String> {
    let moved = number.kind.steps(value) != Some(0);
    moved.then(|| format!("{} {}", number.label(), kept(number.kind, value, units)))
}

/// A number of a design as it is kept, in the core's unit.
fn kept(kind: Kind, value: f64, units: Units) -> String {
    match kind {
        Kind::Length => Sort::Length.words(value, units),
        Kind::Angle => Sort::Angle.words(value, units),
        Kind::Rate => Sort::Rate.words(value, units),
        Kind::Modulus | Kind::Stress => Sort::Stress.words(value, units),
        Kind::Force => measure::print_force(value, measure::ForceUnit::Newton),
        Kind::Count | Kind::RimCode => measure::without_zeros(&measure::print_number(value, 2)).to_owned(),
        Kind::Torque => measure::print_torque(value, units),
        Kind::Whole => measure::print_number(value, 0),
        Kind::Choice(_) => kind.chosen(value).unwrap_or_default().to_owned(),
    }
}
