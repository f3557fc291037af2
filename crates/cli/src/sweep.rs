//! `scrubline sweep`: one row a pose, one column a number.

mod marks;
mod poses;

use crate::arguments::{Format, Sweep};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table};
use crate::telling::rear_in_words;
use crate::trucks::{self, Choice, Chosen, Standing};
use drawing::marked;
use linkage::Unreached;
use marks::Guessed;
use measure::Units;
use poses::Poses;
use std::io::Write;
use study::{Quantity, Span, StandingSide, Station, Steering};

/// The numbers that fit a screen, and are asked for first.
const FEW: [Quantity; 6] = [
    Quantity::Camber,
    Quantity::Toe,
    Quantity::CasterGround,
    Quantity::RollCentre,
    Quantity::HalfTrack,
    Quantity::RideHeight,
];

/// Travel each way that a sweep covers unless told, mm: three inches.
const USUAL_MM: f64 = 76.2;
/// Poses of it.
const USUAL_STEPS: u32 = 61;
/// Places of the tie rod's inner end where only the first and last were said.
const USUAL_RELAY_STEPS: u32 = 21;

/// Most rows of one table: what a spreadsheet opens.
const MOST_ROWS: u64 = 1_000_000;

/// Writes the table.
pub(crate) fn run(asked: &Sweep, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = match &asked.asked.proposal {
        Some(text) => Choice::named(design, text)?,
        None => Choice::from(shared.opening.proposal),
    };
    let side = asked.one.side();
    let name = format!("{}, {}", trucks::title(design), choice.name(design, asked.printed.units()));
    let name = trucks::on_side(name, side);
    let standing = Standing::of(design, choice, side);
    let standing = standing.map_err(|sentence| Failure::at(name.clone(), sentence))?;
    let (rest, units) = (&standing.rest, asked.printed.units());
    let quantities = quantities(asked);
    few_enough(asked, units)?;
    let poses = Poses {
        travels: travels(asked, units),
        relays: relay_places(asked, units),
        lock_to_lock: asked.lock_to_lock,
        sign: side.sign(),
    };
    if asked.lock_to_lock.is_some() {
        Steering::of(rest).map_err(|why| Failure::at(name.clone(), why.to_string()))?;
    }
    if asked.format == Format::Text {
        writeln!(out, "{name}\n")?;
    }
    let guessed = marks::guessed(&standing, &poses, &quantities);
    // What hangs on the rake says what the rear does: below the table, or in each row of data.
    let grounded = quantities.iter().any(|quantity| quantity.is_against_ground());
    let rear = grounded.then(|| rear_in_words(rest));
    let columns = columns(asked, &quantities, &guessed, units);
    let marked = columns.iter().filter(|(_, is_guess)| *is_guess).map(|(name, _)| name.as_str());
    let guesses = marked.collect::<Vec<_>>().join("; ");
    let writer = Writer { asked, rest, quantities: &quantities, columns, guesses, units, rear };
    let mut table = Table::begin(out, asked.format, writer.headers())?;
    for (second, station) in poses.rows(rest) {
        table.row(&writer.row(second, &station))?;
    }
    table.end()?;
    if asked.format == Format::Text {
        if let Some(rear) = rear {
            writeln!(out, "\nAgainst the ground, if the rear {rear}.")?;
        }
        if guessed.any() {
            writeln!(out, "\n~ rests on numbers that nobody has measured: the report names them.")?;
        }
    }
    Ok(())
}

fn few_enough(asked: &Sweep, units: Units) -> Result<(), Failure> {
    let steered = asked.lock_to_lock.unwrap_or_else(|| relay_places(asked, units).count);
    let rows = u64::from(travels(asked, units).count) * u64::from(steered);
    if rows <= MOST_ROWS {
        return Ok(());
    }
    Err(Failure::plain(format!(
        "{rows} rows are more than the {MOST_ROWS} that one sweep may have: ask for fewer steps of travel or of steer."
    )))
}

fn quantities(asked: &Sweep) -> Vec<Quantity> {
    if !asked.quantity.is_empty() {
        asked.quantity.clone()
    } else if asked.format == Format::Text {
        FEW.to_vec()
    } else {
        Quantity::ALL.to_vec()
    }
}

fn relay_places(asked: &Sweep, units: Units) -> Span {
    let from_mm = asked.link_from.mm(units);
    let usual = if asked.link_to.is_some() { USUAL_RELAY_STEPS } else { 1 };
    Span {
        from_mm,
        to_mm: asked.link_to.map_or(from_mm, |to| to.mm(units)),
        count: asked.link_steps.unwrap_or(usual),
    }
}

fn travels(asked: &Sweep, units: Units) -> Span {
    let usual = if asked.lock_to_lock.is_some() { (0.0, 1) } else { (USUAL_MM, USUAL_STEPS) };
    let from_mm = asked.from.map_or(-usual.0, |from| from.mm(units));
    let to_mm = match (asked.to, asked.lock_to_lock) {
        (Some(to), _) => to.mm(units),
        (None, Some(_)) => from_mm,
        (None, None) => usual.0,
    };
    Span { from_mm, to_mm, count: asked.steps.unwrap_or(usual.1) }
}

/// What stands beside the travel: where the wheel is steered to, or where the relay rod is.
const fn second(asked: &Sweep) -> (Sort, &'static str) {
    if asked.lock_to_lock.is_some() { (Sort::Angle, "steer") } else { (Sort::Length, "link") }
}

fn columns(asked: &Sweep, quantities: &[Quantity], guessed: &Guessed, units: Units) -> Vec<(String, bool)> {
    let (sort, name) = second(asked);
    let beside = (sort.header(name, units), guessed.second);
    let header = |quantity: &Quantity| Sort::from(quantity.unit()).header(quantity.key(), units);
    let others = quantities.iter().map(header).zip(guessed.quantities.iter().copied());
    std::iter::once(beside).chain(others).collect()
}

/// How the table is written.
struct Writer<'a> {
    asked: &'a Sweep,
    rest: &'a StandingSide,
    quantities: &'a [Quantity],
    /// The columns of numbers but the travel by their names, and whether each rests on a guess.
    columns: Vec<(String, bool)>,
    /// The names of those that do, as each row of data has them.
    guesses: String,
    units: Units,
    /// What the rear does, where a quantity hangs on it.
    rear: Option<&'static str>,
}

impl Writer<'_> {
    fn headers(&self) -> Vec<String> {
        let mut headers = vec![Sort::Length.header("travel", self.units)];
        if self.asked.format == Format::Text {
            headers.extend(self.columns.iter().map(|(name, is_guess)| marked(name.clone(), *is_guess)));
            headers.push("status".to_owned());
        } else {
            headers.extend(self.columns.iter().map(|(name, _)| name.clone()));
            headers.extend(self.rear.map(|_| "if_the_rear".to_owned()));
            headers.extend(["status".to_owned(), "guesses".to_owned()]);
        }
        headers
    }

    /// A row; `beside` is what stands beside the travel.
    fn row(&self, beside: f64, station: &Station) -> Vec<Cell> {
        let Self { asked, units, .. } = *self;
        let number = |sort: Sort, value: f64| match asked.format {
            Format::Text => Cell::Number(sort.short(value, units, asked.printed.decimals)),
            _ => Cell::Number(sort.fixed(value, units, asked.printed.data_decimals())),
        };
        let mut cells = vec![number(Sort::Length, station.travel_mm), number(second(asked).0, beside)];
        let read = |quantity: &Quantity| {
            let value = station.gauged.as_ref().ok().and_then(|gauged| quantity.read(gauged));
            value.map_or(Cell::Nothing, |value| number(quantity.unit().into(), value))
        };
        cells.extend(self.quantities.iter().map(read));
        let is_data = asked.format != Format::Text;
        cells.extend(self.rear.filter(|_| is_data).map(|rear| Cell::Words(rear.to_owned())));
        cells.push(Cell::Words(match &station.gauged {
            Ok(_) => "ok".to_owned(),
            Err(why) => not_reached(why, self.rest, units),
        }));
        if is_data {
            cells.push(Cell::Words(self.guesses.clone()));
        }
        cells
    }
}

/// Why a pose is not there, with what it falls short by.
fn not_reached(why: &Unreached, rest: &StandingSide, units: Units) -> String {
    match why {
        Unreached::Open { gap_mm, .. } => {
            format!("{why}: {} short", Sort::Length.words(*gap_mm, units))
        }
        Unreached::Height { nearest_mm } => {
            let travel_mm = nearest_mm - rest.pose.wheel_centre.z;
            format!("{why}: it ends at {}", Sort::Length.words(travel_mm, units))
        }
        _ => why.to_string(),
    }
}
