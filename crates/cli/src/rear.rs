//! `scrubline rear`: how the rear stands with each plan's parts on it, and what comes of it.

use crate::arguments::{Format, Printed, Rear};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::trucks::{self, Choice, Chosen};
use drawing::{marked, rear_verdict, spread_in_words};
use measure::Units;
use std::io::{self, Write};
use study::{RearAnswer, RearTold, Stance, Value, rear_told};
use truck::{Design, RearField, Side, notes};

/// One truck of the design.
struct Column {
    name: String,
    told: Vec<RearTold>,
    /// Why its parts say nothing of how it stands.
    trouble: Option<String>,
    /// What is taken that nobody has stated.
    taken: Option<&'static str>,
    /// What is to be said before the work.
    notes: Vec<String>,
}

/// Writes the answers.
pub(crate) fn run(asked: &Rear, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choices = trucks::asked(design, asked.asked.proposal.as_deref())?;
    let units = asked.printed.units();
    let columns = choices.into_iter().map(|choice| column(design, choice, units));
    let columns = columns.collect::<Result<Vec<_>, _>>()?;
    match asked.format {
        Format::Text => text(design, &columns, units, out)?,
        format => rows(&columns, format, &asked.printed, out)?,
    }
    Ok(())
}

fn column(design: &Design, choice: Choice, units: Units) -> Result<Column, Failure> {
    let name = choice.name(design, units);
    let stance = Stance::of_design(design, choice)
        .map_err(|why| Failure::at(format!("{}, {name}", trucks::title(design)), format!("{why}.")))?;
    let answers = rear_told(&stance);
    let fitted = &stance.corner(Side::Left).fitted;
    Ok(Column {
        name,
        told: answers.told,
        trouble: answers.trouble.map(|why| why.to_string()),
        taken: answers.taken,
        notes: notes(&fitted.measured, &fitted.rear).iter().map(ToString::to_string).collect(),
    })
}

fn value(told: &RearTold, units: Units) -> String {
    told_value(told, units).unwrap_or_else(|| "—".to_owned())
}

/// An answer with its spread and its mark; `None` where it is open.
pub(crate) fn told_value(told: &RearTold, units: Units) -> Option<String> {
    let sort = Sort::from(told.answer.sort());
    let said = match told.value {
        Some(Value::Number(value)) => {
            let plain = sort.words(value, units);
            match told.spread {
                Some(spread) => match spread_in_words(told.answer.sort(), spread, units) {
                    Some(spread) => plain + " " + &spread,
                    None => plain,
                },
                None => plain,
            }
        }
        Some(Value::Words(words)) => words.to_owned(),
        _ => return None,
    };
    Some(marked(said, told.is_guess))
}

fn text(design: &Design, columns: &[Column], units: Units, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{}, the rear\n", trucks::title(design))?;
    // What is dangerous is said first.
    for column in columns {
        for note in &column.notes {
            writeln!(out, "{}: {note}\n", column.name)?;
        }
        for told in &column.told {
            if let Some(said) = rear_verdict(told, &value(told, units)) {
                writeln!(out, "{}: {said}", column.name)?;
            }
        }
        if let Some(why) = &column.trouble {
            writeln!(out, "{}: {why}.", column.name)?;
        }
        if let Some(taken) = column.taken {
            writeln!(out, "{}: {taken}", column.name)?;
        }
    }
    let header = std::iter::once(String::new()).chain(columns.iter().map(|column| column.name.clone()));
    let mut rows = vec![header.collect::<Vec<_>>()];
    for (at, told) in columns[0].told.iter().enumerate() {
        let values: Vec<_> = columns.iter().map(|column| value(&column.told[at], units)).collect();
        if values.iter().any(|value| value != "—") {
            rows.push(std::iter::once(told.answer.label().to_owned()).chain(values).collect());
        }
    }
    writeln!(out)?;
    aligned(&rows, out)?;
    let open: Vec<_> =
        RearField::ALL.into_iter().filter(|field| design.truck.rear.get(*field).is_none()).collect();
    if !open.is_empty() {
        let labels: Vec<_> = open.iter().map(|field| field.label()).collect();
        writeln!(out, "\nNot measured yet: {}.", labels.join("; "))?;
    }
    writeln!(out, "\n{CAUTION}")
}

/// What stands under every answer of the rear.
const CAUTION: &str = "\
A shaft in two pieces is not judged. New U-bolts, torqued with the truck on its wheels, by its manual;
a jack under the axle lifts no frame: stands under the frame before the springs are undone. Look at it
all with the bed loaded, and whether the brake valve's bracket moved. Have the welding done by someone
certified, headlamps aimed and the brakes looked at. States differ on frame and bumper
heights and on what hangs below the rims: your local rules decide.";

fn rows(columns: &[Column], format: Format, printed: &Printed, out: &mut impl Write) -> io::Result<()> {
    let headers = ["answer", "truck", "unit", "guess", "value", "spread", "verdict"];
    let mut table = Table::begin(out, format, headers.map(str::to_owned).to_vec())?;
    let words = |text: &str| Cell::Words(text.to_owned());
    for (at, told) in columns[0].told.iter().enumerate() {
        let answer: RearAnswer = told.answer;
        let sort = Sort::from(answer.sort());
        let fixed = |value: f64| Cell::Number(sort.fixed(value, printed.units(), printed.data_decimals()));
        for column in columns {
            let told = &column.told[at];
            table.row(&[
                words(answer.key()),
                words(&column.name),
                sort.suffix(printed.units()).map_or(Cell::Nothing, words),
                words(if told.is_guess { "yes" } else { "no" }),
                match told.value {
                    Some(Value::Number(value)) => fixed(value),
                    Some(Value::Words(said)) => words(said),
                    _ => Cell::Nothing,
                },
                told.spread.map_or(Cell::Nothing, fixed),
                told.verdict.map_or(Cell::Nothing, words),
            ])?;
        }
    }
    table.end()
}
