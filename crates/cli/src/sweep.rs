//! `scrubline sweep`: one row a pose, one column a number.

use crate::answers::rear_in_words;
use crate::arguments::{Format, Sweep};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks::{self, Choice, Chosen};
use linkage::{Unreached, Vector3};
use sharing::Units;
use std::io::Write;
use study::{Quantity, Span, StandingSide, Station, Steering};
use truck::Side;

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
const USUAL_LINK_STEPS: u32 = 21;

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
    let name = format!("{}, {}", trucks::title(design), choice.name(design));
    let name = trucks::on_side(name, side);
    let way = side.way();
    let rest = choice.rest(design, side).map_err(|sentence| Failure::at(name.clone(), sentence))?;
    let units = asked.printed.units();
    let quantities = quantities(asked);
    few_enough(asked, units)?;
    if asked.format == Format::Text {
        writeln!(out, "{name}\n")?;
    }
    let second = if asked.lock_to_lock.is_some() {
        Sort::Angle.header("steer", units)
    } else {
        Sort::Length.header("link", units)
    };
    let mut headers = vec![Sort::Length.header("travel", units), second];
    headers
        .extend(quantities.iter().map(|quantity| Sort::from(quantity.unit()).header(quantity.key(), units)));
    // What hangs on the rake says what the rear does: below the table, or in each row of data.
    let grounded = quantities.iter().any(|quantity| quantity.is_against_ground());
    let rear = grounded.then(|| rear_in_words(&rest));
    headers.extend(rear.filter(|_| asked.format != Format::Text).map(|_| "if_the_rear".to_owned()));
    headers.push("status".to_owned());
    let mut table = Table::begin(out, asked.format, headers)?;
    let writer = Writer { asked, rest: &rest, quantities: &quantities, units, rear };
    if let Some(count) = asked.lock_to_lock {
        let steering = Steering::of(&rest).map_err(|why| Failure::at(name, why.to_string()))?;
        for travel_mm in travels(asked, units).travels() {
            let mut readings = study::steer_sweep(&rest, &steering, travel_mm, count);
            if side == Side::Right {
                // Its own left lock is the truck's right one.
                readings.reverse();
            }
            for reading in readings {
                let steer_rad = way * reading.pose.heading_rad();
                let station = Station { travel_mm, reading: Ok(reading) };
                table.row(&writer.row((Sort::Angle, steer_rad), &station))?;
            }
        }
        table.end()?;
        return said_below(asked, rear, out);
    }
    for link_mm in link_places(asked, units).travels() {
        // A right corner is mirrored: what goes to the truck's left goes to its right.
        let sweep = study::sweep(&rest, &travels(asked, units), Vector3::new(0.0, way * link_mm, 0.0));
        for station in &sweep.stations {
            table.row(&writer.row((Sort::Length, link_mm), station))?;
        }
    }
    table.end()?;
    said_below(asked, rear, out)
}

/// What the rear does, for people.
fn said_below(asked: &Sweep, rear: Option<&str>, out: &mut impl Write) -> Result<(), Failure> {
    if let (Format::Text, Some(rear)) = (asked.format, rear) {
        writeln!(out, "\nAgainst the ground, if the rear {rear}.")?;
    }
    Ok(())
}

fn few_enough(asked: &Sweep, units: Units) -> Result<(), Failure> {
    let steered = asked.lock_to_lock.unwrap_or_else(|| link_places(asked, units).count);
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

fn link_places(asked: &Sweep, units: Units) -> Span {
    let from_mm = asked.link_from.mm(units);
    let usual = if asked.link_to.is_some() { USUAL_LINK_STEPS } else { 1 };
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

/// How one row is written.
struct Writer<'a> {
    asked: &'a Sweep,
    rest: &'a StandingSide,
    quantities: &'a [Quantity],
    units: Units,
    /// What the rear does, where a quantity hangs on it.
    rear: Option<&'static str>,
}

impl Writer<'_> {
    /// A row; `second` is what stands beside the travel.
    fn row(&self, second: (Sort, f64), station: &Station) -> Vec<Cell> {
        let Self { asked, units, .. } = *self;
        let number = |sort: Sort, value: f64| match asked.format {
            Format::Text => Cell::Number(sort.short(value, units, asked.printed.decimals)),
            _ => Cell::Number(sort.fixed(value, units, asked.printed.data_decimals())),
        };
        let mut cells = vec![number(Sort::Length, station.travel_mm), number(second.0, second.1)];
        let read = |quantity: &Quantity| {
            let value = station.reading.as_ref().ok().and_then(|reading| quantity.read(reading));
            value.map_or(Cell::Nothing, |value| number(quantity.unit().into(), value))
        };
        cells.extend(self.quantities.iter().map(read));
        let rear = self.rear.filter(|_| asked.format != Format::Text);
        cells.extend(rear.map(|rear| Cell::Words(rear.to_owned())));
        cells.push(Cell::Words(match &station.reading {
            Ok(_) => "ok".to_owned(),
            Err(why) => not_reached(why, self.rest, units),
        }));
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
