//! A reference table: comma-separated numbers under headers, no quoting.

/// A table read from text. Cells are read by header, so columns may be added.
#[derive(Clone, Debug)]
pub struct Table<'a> {
    headers: Vec<&'a str>,
    rows: Vec<Vec<&'a str>>,
}

/// One row of a [`Table`].
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    headers: &'a [&'a str],
    cells: &'a [&'a str],
}

impl<'a> Table<'a> {
    /// The table in `text`: a line of headers, then a line a row.
    ///
    /// # Panics
    /// When a row has another number of cells than the headers.
    #[must_use]
    pub fn read(text: &'a str) -> Self {
        let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
        let headers = lines.next().unwrap_or_default();
        let rows: Vec<_> = lines.collect();
        for (row, cells) in rows.iter().enumerate() {
            assert_eq!(cells.len(), headers.len(), "cells of row {}", row + 1);
        }
        Self { headers, rows }
    }

    /// How many rows there are under the headers.
    #[must_use]
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there are no rows.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The rows from the top.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|cells| Row { headers: &self.headers, cells })
    }
}

impl<'a> Row<'a> {
    /// The text under a header.
    ///
    /// # Panics
    /// When there is no such header.
    #[must_use]
    pub fn text(&self, header: &str) -> &'a str {
        let column = self.headers.iter().position(|name| *name == header);
        column.map_or_else(|| panic!("no column {header}"), |at| self.cells[at])
    }

    /// The number under a header.
    ///
    /// # Panics
    /// When there is no such header, or no number under it.
    #[must_use]
    pub fn number(&self, header: &str) -> f64 {
        let text = self.text(header);
        let number = text.parse();
        number.unwrap_or_else(|_| panic!("{header} is {text:?}, no number"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_by_header() {
        let table = Table::read("truck,x_mm\nplain,-1.5\n");
        assert_eq!(table.len(), 1);
        let row = table.rows().next().unwrap();
        assert_eq!(row.text("truck"), "plain");
        assert!((row.number("x_mm") + 1.5).abs() < 1e-15);
    }

    #[test]
    #[should_panic(expected = "no column y_mm")]
    fn a_missing_column_is_named() {
        let table = Table::read("x_mm\n1\n");
        let _ = table.rows().next().unwrap().number("y_mm");
    }
}
