//! `scrubline report`: the truck as measured and its proposals side by side.

use crate::answers;
use crate::arguments::{Format, Printed, Report};
use crate::cautions::CAUTIONS;
use crate::failure::Failure;
use crate::lean;
use crate::readings;
use crate::source;
use crate::table::{self, Cell, aligned};
use crate::telling::{Answer, Value, data};
use crate::trucks::{self, Choice, Chosen, Standing};
use measure::Units;
use std::io::{self, Write};
use study::{Guess, Guesses, Topic};
use truck::{ChangeField, Design, Field, Fitted, OneSide, Side, SpringKind, notes_of};

/// A longer answer is no cell of a table for people, characters.
const WIDEST: usize = 60;

/// What the answers of one truck are, or why there are none.
struct Column {
    name: String,
    answers: Result<Vec<Answer>, String>,
    /// What hits, in sentences; none where the truck does not stand.
    what_hits: Vec<String>,
    /// What is to be said before the work.
    notes: Vec<String>,
    remarks: Vec<String>,
    /// With its parts on it; `None` where it does not stand.
    fitted: Option<Fitted>,
}

/// Everything that is printed.
struct Page {
    title: String,
    truck: OneSide,
    /// As measured first.
    columns: Vec<Column>,
    /// What of its file was rounded, in a sentence.
    rounded: Option<String>,
}

/// Writes the report.
pub(crate) fn run(asked: &Report, out: &mut impl Write) -> Result<(), Failure> {
    let given = source::given(asked.asked.design.as_deref())?;
    let design = &given.shared.design;
    let choices = trucks::asked(design, asked.asked.proposal.as_deref())?;
    let side = asked.one.side();
    Choice::AsMeasured.rest(design, side).map_err(|sentence| {
        let place = format!("{}, as it sits", trucks::title(design));
        Failure::at(place, sentence)
    })?;
    let units = asked.printed.units();
    let page = Page {
        title: trucks::on_side(trucks::title(design).to_owned(), side),
        truck: design.truck.on(side),
        columns: choices.into_iter().map(|choice| column(design, choice, side, units)).collect(),
        rounded: sharing::rounded_in_words(&given.rounded),
    };
    match asked.format {
        Format::Csv => page.csv(&asked.printed, out)?,
        Format::Json => page.json(&asked.printed, out)?,
        Format::Text => page.text(&asked.printed, out)?,
    }
    Ok(())
}

fn column(design: &Design, choice: Choice, side: Side, units: Units) -> Column {
    let standing = Standing::of(design, choice, side);
    let remarks = match &standing {
        Ok(Standing { rest, .. }) => rest.fitted.remarks.iter().map(ToString::to_string).collect(),
        Err(_) => Vec::new(),
    };
    let fitted = standing.as_ref().ok().map(|standing| standing.rest.fitted.clone());
    let told = standing.and_then(|standing| answers::answers(&standing, units));
    let (what_hits, answers) = match told {
        Ok(told) => (told.what_hits, Ok(told.list)),
        Err(why) => (Vec::new(), Err(why)),
    };
    let notes = notes_of(&design.truck, design.overlay(choice));
    let notes = notes.iter().map(ToString::to_string).collect();
    Column { name: choice.name(design, units), answers, what_hits, notes, remarks, fitted }
}

impl Column {
    /// The answer at a line; `None` where the truck does not stand.
    fn answer(&self, line: usize) -> Option<&Answer> {
        self.answers.as_ref().ok().and_then(|answers| answers.get(line))
    }

    /// The value at a line; `None` where the truck does not stand.
    fn value(&self, line: usize) -> Option<&Value> {
        self.answer(line).map(|answer| &answer.value)
    }

    /// What the answers on a topic rest on.
    fn rests_on(&self, topic: Topic) -> Guesses {
        let answers = self.answers.as_deref().unwrap_or_default();
        let told =
            answers.iter().filter(|answer| answer.figure.is_some_and(|figure| figure.topic() == topic));
        told.map(|answer| answer.rests_on).collect()
    }

    /// The guessed numbers of its changes, each with the topic that rests on it.
    fn guesses(&self) -> Vec<(String, Vec<String>)> {
        let Some(fitted) = &self.fitted else { return Vec::new() };
        let named =
            |(kind, place, at): ChangeField| format!("{}: {}", kind.title(place), kind.numbers()[at].label());
        let changes = |topic| {
            let change = |guess| match guess {
                Guess::Change(at) => fitted.guessed.get(at).copied().map(named),
                Guess::Number(_) => None,
            };
            self.rests_on(topic).iter().filter_map(change).collect::<Vec<_>>()
        };
        let all = Topic::all().map(|topic| (topic.label(), changes(topic)));
        all.filter(|(_, numbers)| !numbers.is_empty()).collect()
    }

    /// The answers that rest on a guess, as they are named in a file.
    fn marked(&self, name: &dyn Fn(&Answer) -> String) -> Vec<String> {
        let answers = self.answers.as_deref().unwrap_or_default();
        answers.iter().filter(|answer| !answer.rests_on.is_empty()).map(name).collect()
    }

    fn status(&self) -> String {
        self.answers.as_ref().err().cloned().unwrap_or_else(|| "ok".to_owned())
    }
}

impl Page {
    /// The lines: every truck has the same ones.
    fn lines(&self) -> &[Answer] {
        self.columns.iter().find_map(|column| column.answers.as_deref().ok()).unwrap_or_default()
    }

    /// What rests on which guessed numbers of the truck, in any column.
    fn assumed(&self) -> Vec<(String, Vec<&'static str>)> {
        let numbers = |topic| {
            let all: Guesses = self.columns.iter().map(|column| column.rests_on(topic)).collect();
            all.numbers.iter().map(Field::label).collect::<Vec<_>>()
        };
        let named = Topic::all().map(|topic| (topic.label(), numbers(topic)));
        named.filter(|(_, fields)| !fields.is_empty()).collect()
    }

    fn cautions(&self) -> Vec<&'static str> {
        let spring = match self.truck.spring.kind {
            SpringKind::TorsionBar => Some(
                "A torsion bar stores energy: let it down at its bolt before anything that holds it is undone.",
            ),
            SpringKind::Coil => Some(
                "A coil stores energy: hold it in a compressor before the arm is let down, and never cut it with a torch.",
            ),
            SpringKind::WheelRate => None,
        };
        let leans = self.lines().iter().any(|line| line.key == "lean");
        let lean = leans.then_some(lean::CAUTIONS).into_iter().flatten();
        spring.into_iter().chain(CAUTIONS).chain(lean).collect()
    }

    fn csv(&self, printed: &Printed, out: &mut impl Write) -> io::Result<()> {
        let words = |text: &str| Cell::Words(text.to_owned());
        let names = self.columns.iter().map(|column| words(&column.name));
        table::csv(out, [words("answer"), words("unit")].into_iter().chain(names))?;
        let status = self.columns.iter().map(|column| Cell::Words(column.status()));
        table::csv(out, [words("status"), Cell::Nothing].into_iter().chain(status))?;
        let notes = self.columns.iter().map(|column| words(&column.notes.join(" ")));
        table::csv(out, [words("notes"), Cell::Nothing].into_iter().chain(notes))?;
        for (place, line) in self.lines().iter().enumerate() {
            let unit = match &line.value {
                Value::Figure(sort, _) => sort.suffix(printed.units()).map_or(Cell::Nothing, words),
                Value::Words(_) => Cell::Nothing,
            };
            let values = self.columns.iter().map(|column| data(column.value(place), printed));
            table::csv(out, [words(&line.key), unit].into_iter().chain(values))?;
        }
        let remarks = self.columns.iter().map(|column| words(&column.remarks.join(" ")));
        table::csv(out, [words("remarks"), Cell::Nothing].into_iter().chain(remarks))?;
        readings::csv(&readings::of(&self.truck), self.columns.len(), printed.units(), out)?;
        let marked =
            self.columns.iter().map(|column| words(&column.marked(&|line| line.key.clone()).join("; ")));
        table::csv(out, [words("guesses"), Cell::Nothing].into_iter().chain(marked))?;
        let guesses = self.columns.iter().map(|column| {
            let said = |(answer, numbers): &(String, Vec<String>)| {
                format!("{answer} rests on: {}", numbers.join("; "))
            };
            words(&column.guesses().iter().map(said).collect::<Vec<_>>().join(". "))
        });
        table::csv(out, [words("guessed_changes"), Cell::Nothing].into_iter().chain(guesses))?;
        // What holds for every truck stands under the first and leaves the others empty.
        let rest = || std::iter::repeat_n(Cell::Nothing, self.columns.len() - 1);
        for (answer, fields) in self.assumed() {
            let said = format!("{answer} rests on: {}", fields.join("; "));
            table::csv(out, [words("assumed"), Cell::Nothing, words(&said)].into_iter().chain(rest()))?;
        }
        for caution in self.cautions() {
            table::csv(out, [words("caution"), Cell::Nothing, words(caution)].into_iter().chain(rest()))?;
        }
        Ok(())
    }

    fn json(&self, printed: &Printed, out: &mut impl Write) -> io::Result<()> {
        let list = |texts: &mut dyn Iterator<Item = &str>| {
            format!("[{}]", texts.map(table::quoted).collect::<Vec<_>>().join(", "))
        };
        let key = |line: &Answer| match &line.value {
            Value::Figure(sort, _) => sort.header(&line.key, printed.units()),
            Value::Words(_) => line.key.clone(),
        };
        writeln!(out, "{{\n  \"title\": {},\n  \"trucks\": [", table::quoted(&self.title))?;
        for (at, column) in self.columns.iter().enumerate() {
            writeln!(out, "    {{")?;
            writeln!(out, "      \"name\": {},", table::quoted(&column.name))?;
            writeln!(out, "      \"status\": {},", table::quoted(&column.status()))?;
            let notes = list(&mut column.notes.iter().map(String::as_str));
            writeln!(out, "      \"notes\": {notes},")?;
            for (place, line) in self.lines().iter().enumerate() {
                let value = table::json(&data(column.value(place), printed));
                writeln!(out, "      {}: {value},", table::quoted(&key(line)))?;
            }
            let marked = list(&mut column.marked(&key).iter().map(String::as_str));
            writeln!(out, "      \"guesses\": {marked},")?;
            let remarks = list(&mut column.remarks.iter().map(String::as_str));
            writeln!(out, "      \"remarks\": {remarks},")?;
            let guesses = column.guesses().into_iter().map(|(answer, numbers)| {
                let rests_on = list(&mut numbers.iter().map(String::as_str));
                let members = [("answer", table::quoted(&answer)), ("rests_on", rests_on)];
                table::object(members.into_iter())
            });
            let guesses: Vec<_> = guesses.collect();
            writeln!(out, "      \"guessed_changes\": [{}]", guesses.join(", "))?;
            writeln!(out, "    }}{}", if at + 1 < self.columns.len() { "," } else { "" })?;
        }
        let assumed = self.assumed().into_iter().map(|(answer, fields)| {
            let members = [("answer", table::quoted(&answer)), ("rests_on", list(&mut fields.into_iter()))];
            format!("\n    {}", table::object(members.into_iter()))
        });
        let assumed: Vec<_> = assumed.collect();
        let close = if assumed.is_empty() { "" } else { "\n  " };
        writeln!(out, "  ],\n  \"assumed\": [{}{close}],", assumed.join(","))?;
        let read: Vec<_> = readings::of(&self.truck).iter().map(|read| read.json(printed)).collect();
        writeln!(out, "  \"readings\": [{}],", read.join(", "))?;
        let rounded = self.rounded.as_deref().map_or("null".to_owned(), table::quoted);
        writeln!(out, "  \"rounded\": {rounded},")?;
        writeln!(out, "  \"cautions\": {}\n}}", list(&mut self.cautions().into_iter()))
    }

    fn text(&self, printed: &Printed, out: &mut impl Write) -> io::Result<()> {
        writeln!(out, "{}\n", self.title)?;
        for column in &self.columns {
            if !column.what_hits.is_empty() {
                writeln!(out, "{}: {}\n", column.name, column.what_hits.join(" "))?;
            }
        }
        for column in &self.columns {
            for note in &column.notes {
                writeln!(out, "{}: {note}\n", column.name)?;
            }
        }
        let mut rows = vec![[String::new()].into_iter().chain(self.names()).collect::<Vec<_>>()];
        let mut below = Vec::new();
        for (place, line) in self.lines().iter().enumerate() {
            let value = |column: &Column| {
                column.answer(place).map_or_else(|| "—".to_owned(), |answer| answer.said(printed.units()))
            };
            let values: Vec<_> = self.columns.iter().map(value).collect();
            if values.iter().any(|value| value.chars().count() > WIDEST) {
                below.push((line.label.trim(), values));
            } else {
                rows.push([line.label.clone()].into_iter().chain(values).collect());
            }
        }
        aligned(&rows, out)?;
        for (label, values) in below {
            self.apart(label, &values, out)?;
        }
        for column in &self.columns {
            if let Err(why) = &column.answers {
                writeln!(out, "\n{}: {why}", column.name)?;
            }
            for remark in &column.remarks {
                writeln!(out, "\n{}: {remark}", column.name)?;
            }
        }
        readings::text(&readings::of(&self.truck), printed.units(), out)?;
        let assumed = self.assumed();
        if !assumed.is_empty() {
            writeln!(out, "\n~ rests on numbers that nobody has measured yet:")?;
            for (answer, fields) in assumed {
                writeln!(out, "  {answer}: {}", fields.join("; "))?;
            }
        }
        for column in &self.columns {
            for (at, (answer, numbers)) in column.guesses().iter().enumerate() {
                if at == 0 {
                    writeln!(out, "\n~ {} rests on guessed numbers of its changes:", column.name)?;
                }
                writeln!(out, "  {answer}: {}", numbers.join("; "))?;
            }
        }
        writeln!(out)?;
        for caution in self.cautions() {
            writeln!(out, "{caution}")?;
        }
        Ok(())
    }

    /// What is too long for a column: said once where it is the same of every truck.
    fn apart(&self, label: &str, values: &[String], out: &mut impl Write) -> io::Result<()> {
        if values.windows(2).all(|pair| pair[0] == pair[1]) {
            return writeln!(out, "\n{label}: {}", values.first().map_or("—", String::as_str));
        }
        for (name, value) in self.names().zip(values) {
            writeln!(out, "\n{label}, {name}: {value}")?;
        }
        Ok(())
    }

    fn names(&self) -> impl Iterator<Item = String> {
        self.columns.iter().map(|column| column.name.clone())
    }
}
