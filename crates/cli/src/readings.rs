//! What was read off the truck, and what the model says beside it.

use crate::arguments::Printed;
use crate::figures::Sort;
use crate::table::{self, Cell};
use drawing::give_in_words;
use measure::Units;
use measure::print_angle;
use std::io::{self, Write};
use study::{Figure, Pair};
use truck::{Fitted, OneSide, Readable, Reading};

/// What was read of one answer at the side that is asked about.
pub(crate) struct Read {
    of: Readable,
    reading: Reading,
    /// Numbers without which the model says nothing of it; of a change then neither.
    needs: Vec<&'static str>,
}

/// What was read at a side of a truck.
pub(crate) fn of(truck: &OneSide) -> Vec<Read> {
    let here = truck.readings.iter().filter(|(side, ..)| *side == truck.side());
    here.map(|(_, of, reading)| Read { of: *of, reading: *reading, needs: needs(*of, truck) }).collect()
}

fn needs(of: Readable, truck: &OneSide) -> Vec<&'static str> {
    let fields =
        Pair::from_key(of.key()).map(|pair| pair.needs(&Fitted::as_measured(truck))).unwrap_or_default();
    fields.into_iter().map(truck::Field::label).collect()
}

impl Read {
    fn sort(&self) -> Sort {
        Sort::from(self.of.kind())
    }

    /// In one line for people.
    pub(crate) fn said(&self, units: Units) -> String {
        let give = give_in_words(self.of.kind(), self.reading.answer_tolerance(), units);
        let value = self.sort().words(self.reading.answer(), units);
        let mut said = format!(
            "{}: {value} ± {give}, by {}",
            Figure::of_reading(self.of).label(),
            self.reading.tool.label()
        );
        if let Some(swept_rad) = self.reading.swept_rad {
            said += &format!(", swept {} each way", print_angle(swept_rad, 2));
        }
        if !self.needs.is_empty() {
            said += &format!(
                "; what a change does to it the model cannot say: {} not stated",
                self.needs.join("; ")
            );
        }
        said
    }

    /// As a JSON object, its numbers in the reader's unit.
    pub(crate) fn json(&self, printed: &Printed) -> String {
        let fixed = |sort: Sort, value| {
            table::json(&Cell::Number(sort.fixed(value, printed.units(), printed.data_decimals())))
        };
        let number = |value| fixed(self.sort(), value);
        let header = |key: &str| self.sort().header(key, printed.units());
        let (value, give) = (header("value"), header("tolerance"));
        let mut members = vec![
            ("answer", table::quoted(self.of.key())),
            (value.as_str(), number(self.reading.answer())),
            (give.as_str(), number(self.reading.answer_tolerance())),
            ("tool", table::quoted(self.reading.tool.key())),
        ];
        let swept = self.reading.swept_rad.map(|rad| fixed(Sort::Angle, rad));
        members.extend(swept.map(|swept| ("swept_deg", swept)));
        let open = self.needs.iter().map(|need| table::quoted(need)).collect::<Vec<_>>().join(", ");
        members.push(("needs", format!("[{open}]")));
        table::object(members.into_iter())
    }
}

/// The readings under a table for people.
pub(crate) fn text(read: &[Read], units: Units, out: &mut impl Write) -> io::Result<()> {
    if read.is_empty() {
        return Ok(());
    }
    writeln!(
        out,
        "\nRead off the truck as it sits; a plan's is the reading and what the model says has changed:"
    )?;
    for one in read {
        writeln!(out, "  {}", one.said(units))?;
    }
    Ok(())
}

/// The readings as rows of CSV, under the first of so many trucks.
pub(crate) fn csv(read: &[Read], columns: usize, units: Units, out: &mut impl Write) -> io::Result<()> {
    for one in read {
        let empty = std::iter::repeat_n(Cell::Nothing, columns - 1);
        let said = [Cell::Words("reading".to_owned()), Cell::Nothing, Cell::Words(one.said(units))];
        table::csv(out, said.into_iter().chain(empty))?;
    }
    Ok(())
}
