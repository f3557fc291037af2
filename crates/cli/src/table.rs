//! Rows of cells as CSV, JSON or columns, written as they come.

use crate::arguments::Format;
use std::io::{self, Write};

/// Least width of a column for people, characters.
const LEAST_WIDTH: usize = 8;

/// What stands in a row under a header.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Cell {
    /// A number as it is printed.
    Number(String),
    /// Words.
    Words(String),
    /// There is no such number here.
    Nothing,
}

/// A table that is being written.
#[derive(Debug)]
pub(crate) struct Table<'a, W> {
    out: &'a mut W,
    format: Format,
    headers: Vec<String>,
    begun: bool,
}

impl<'a, W: Write> Table<'a, W> {
    /// Writes what stands before the first row. A table for people has its last
    /// column ranged left, the others right.
    pub(crate) fn begin(out: &'a mut W, format: Format, headers: Vec<String>) -> io::Result<Self> {
        match format {
            Format::Csv => csv(out, headers.iter().map(|header| Cell::Words(header.clone())))?,
            Format::Json => out.write_all(b"[")?,
            Format::Text => {
                let cells: Vec<_> = headers.iter().map(|header| Cell::Words(header.clone())).collect();
                columns(out, &headers, &cells)?;
            }
        }
        Ok(Self { out, format, headers, begun: false })
    }

    /// Writes a row, a cell for each header.
    pub(crate) fn row(&mut self, cells: &[Cell]) -> io::Result<()> {
        match self.format {
            Format::Csv => csv(self.out, cells.iter().cloned())?,
            Format::Json => {
                self.out.write_all(if self.begun { b",\n" } else { b"\n" })?;
                let members = self.headers.iter().zip(cells).map(|(key, cell)| (key.as_str(), json(cell)));
                self.out.write_all(object(members).as_bytes())?;
            }
            Format::Text => columns(self.out, &self.headers, cells)?,
        }
        self.begun = true;
        Ok(())
    }

    /// Writes what stands behind the last row.
    pub(crate) fn end(self) -> io::Result<()> {
        match self.format {
            Format::Json => self.out.write_all(b"\n]\n"),
            Format::Csv | Format::Text => Ok(()),
        }
    }
}

/// A line of comma-separated values.
///
/// # Source
/// RFC 4180, with a plain line end. Words that a spreadsheet would take for a
/// formula get an apostrophe, since a name in a link is a stranger's.
pub(crate) fn csv(out: &mut impl Write, cells: impl Iterator<Item = Cell>) -> io::Result<()> {
    for (place, cell) in cells.enumerate() {
        if place > 0 {
            out.write_all(b",")?;
        }
        match cell {
            Cell::Number(number) => out.write_all(number.as_bytes())?,
            Cell::Words(words) => out.write_all(csv_words(&words).as_bytes())?,
            Cell::Nothing => {}
        }
    }
    out.write_all(b"\n")
}

fn csv_words(words: &str) -> String {
    let formula = words.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let words = if formula { format!("'{words}") } else { words.to_owned() };
    if words.contains([',', '"', '\n', '\r']) { format!("\"{}\"", words.replace('"', "\"\"")) } else { words }
}

/// A cell as a JSON value.
pub(crate) fn json(cell: &Cell) -> String {
    match cell {
        Cell::Number(number) => number.clone(),
        Cell::Words(words) => quoted(words),
        Cell::Nothing => "null".to_owned(),
    }
}

/// Text as a JSON string.
pub(crate) fn quoted(text: &str) -> String {
    serde_json::to_string(text).expect("text can always be a JSON string")
}

/// A JSON object on one line, its values already JSON.
pub(crate) fn object<'a>(members: impl Iterator<Item = (&'a str, String)>) -> String {
    let members: Vec<_> = members.map(|(key, value)| format!("{}: {value}", quoted(key))).collect();
    format!("{{{}}}", members.join(", "))
}

/// Writes rows whose first column is ranged left and whose others are ranged right.
pub(crate) fn aligned(rows: &[Vec<String>], out: &mut impl Write) -> io::Result<()> {
    let columns = rows.first().map_or(0, Vec::len);
    let width = |at: usize| rows.iter().map(|row| row[at].chars().count()).max().unwrap_or(0);
    let widths: Vec<_> = (0..columns).map(width).collect();
    for row in rows {
        let mut line = format!("{:<1$}", row[0], widths[0]);
        for (text, width) in row.iter().zip(&widths).skip(1) {
            line.push_str(&format!("   {text:>width$}"));
        }
        writeln!(out, "{}", line.trim_end())?;
    }
    Ok(())
}

fn columns(out: &mut impl Write, headers: &[String], cells: &[Cell]) -> io::Result<()> {
    let mut line = String::new();
    for (place, (header, cell)) in headers.iter().zip(cells).enumerate() {
        let text = match cell {
            Cell::Number(text) | Cell::Words(text) => text,
            Cell::Nothing => "—",
        };
        let width = header.chars().count().max(LEAST_WIDTH);
        let last = place + 1 == headers.len();
        line.push_str(if place > 0 { "  " } else { "" });
        line.push_str(&if last { text.to_owned() } else { format!("{text:>width$}") });
    }
    writeln!(out, "{}", line.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(words: &str) -> String {
        let mut out = Vec::new();
        csv(&mut out, [Cell::Words(words.to_owned()), Cell::Number("-1.5".to_owned())].into_iter()).unwrap();
        String::from_utf8(out).unwrap()
    }

    /// RFC 4180, section 2, rules 5 to 7.
    #[test]
    fn csv_quotes_what_must_be_quoted() {
        assert_eq!(line("plain"), "plain,-1.5\n");
        assert_eq!(line("a, b"), "\"a, b\",-1.5\n");
        assert_eq!(line("2\" drop"), "\"2\"\" drop\",-1.5\n");
        assert_eq!(line("two\nlines"), "\"two\nlines\",-1.5\n");
    }

    #[test]
    fn a_strangers_formula_stays_text() {
        for words in ["=1+1", "+1", "-2 in spindle", "@SUM(A1)"] {
            assert_eq!(line(words), format!("'{words},-1.5\n"));
        }
    }
}
