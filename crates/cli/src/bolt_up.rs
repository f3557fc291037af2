//! `scrubline bolt-up`: which parts go together by what was measured, and what to measure next.

use crate::arguments::{BoltUp, Format};
use crate::failure::Failure;
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks;
use drawing::{capital, doubts_in_words, next_in_words, row_in_words, sketched_in_words, verdict_word};
use mating::{Answer, Scale, Verdict, moved, next, verdict};
use std::io::{self, Write};
use truck::{Ledger, Row, Whose};

/// Writes the rows.
pub(crate) fn run(asked: &BoltUp, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.design.as_deref())?;
    let ledger = &shared.design.ledger;
    let rows: Vec<(Row, Answer)> = ledger
        .rows()
        .into_iter()
        .map(|row| (row.clone(), verdict(ledger, &row)))
        .filter(|(row, answer)| {
            // What nobody has begun to ask about is only counted, unless all are wanted.
            asked.all || row.is_written() || !is_open(&answer.verdict)
        })
        .collect();
    match asked.format {
        Format::Text => text(trucks::title(&shared.design), ledger, &rows, asked, out)?,
        format => table(ledger, &rows, format, asked, out)?,
    }
    Ok(())
}

const fn is_open(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::NotAsked { .. })
}

/// The groups in the order in which they matter: a *no* first.
const fn rank(verdict: &Verdict) -> usize {
    match verdict {
        Verdict::DoesNot(_) => 0,
        Verdict::TooNear { .. } => 1,
        Verdict::WithWork(_) => 2,
        Verdict::Mates => 3,
        Verdict::NotAsked { .. } => 4,
    }
}

fn text(
    title: &str,
    ledger: &Ledger,
    rows: &[(Row, Answer)],
    asked: &BoltUp,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.units.units();
    writeln!(out, "{title}: will it bolt up")?;
    for group in 0..=4 {
        let mut of_group = rows.iter().filter(|(_, answer)| rank(&answer.verdict) == group).peekable();
        if let Some((_, first)) = of_group.peek() {
            writeln!(out, "\n{}", capital(verdict_word(&first.verdict)))?;
        }
        for (row, answer) in of_group {
            writeln!(out, "  {}", row_in_words(ledger, row, answer, units))?;
            for doubt in doubts_in_words(row, units) {
                writeln!(out, "    {doubt}")?;
            }
            if let Some(moved) = moved(ledger, row.id()) {
                writeln!(out, "    {}", sketched_in_words(ledger, &moved, units))?;
            }
        }
    }
    let left_out = ledger.rows().len() - rows.len();
    if left_out > 0 {
        writeln!(out, "\n{left_out} more rows have nothing written in them (--all lists them).")?;
    }
    if let Some(next) = next(ledger) {
        writeln!(out, "\nNext: {}", next_in_words(ledger, &next))?;
    }
    writeln!(out, "\nA verdict says no more than what was measured. Try it on before you rely on it.")
}

const HEADERS: [&str; 13] = [
    "row",
    "kind",
    "first",
    "second",
    "vital",
    "verdict",
    "compared",
    "first_value",
    "second_value",
    "room",
    "uncertainty",
    "own",
    "line",
];

fn table(
    ledger: &Ledger,
    rows: &[(Row, Answer)],
    format: Format,
    asked: &BoltUp,
    out: &mut impl Write,
) -> io::Result<()> {
    let mut table = Table::begin(out, format, HEADERS.map(str::to_owned).to_vec())?;
    for (row, answer) in rows {
        table.row(&cells(ledger, row, answer, asked.units.units()))?;
    }
    table.end()
}

/// The cells of a row; sizes in millimetres whatever the units of its line.
fn cells(ledger: &Ledger, row: &Row, answer: &Answer, units: measure::Units) -> Vec<Cell> {
    let words = |text: &str| Cell::Words(text.to_owned());
    let truth = |value: bool| Cell::Number(value.to_string());
    let least = match &answer.verdict {
        Verdict::DoesNot(finding) => Some(finding),
        _ => answer.main.as_ref(),
    };
    let number =
        |value: Option<f64>| value.map_or(Cell::Nothing, |value| Cell::Number(measure::fixed(value, 3)));
    let measured = least.filter(|finding| finding.scale != Scale::Fact);
    let [first, second] = row.parts().map(|part| words(ledger.part_name(part)));
    vec![
        words(row.name()),
        words(row.kind().key()),
        first,
        second,
        truth(row.is_vital()),
        words(verdict_word(&answer.verdict)),
        least.map_or(Cell::Nothing, |finding| words(finding.aspect.label())),
        number(measured.and_then(|finding| finding.first)),
        number(measured.and_then(|finding| finding.second)),
        number(measured.map(|finding| finding.room)),
        number(measured.map(|finding| if finding.room < 0.0 { finding.up } else { finding.down })),
        truth(row.entries().iter().all(|(_, entry)| entry.whose == Whose::Own)),
        Cell::Words(row_in_words(ledger, row, answer, units)),
    ]
}
