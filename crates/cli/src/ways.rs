//! `scrubline ways`: which parts bring the truck down, and what each gives up.

use crate::arguments::{Format, WaysDown};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::report::{CAUTIONS, aligned};
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks;
use drawing::changes_in_words;
use sharing::{Opening, Shared, Units, to_code};
use std::io::{self, Write};
use study::{IF_REAR_STAYS, PartsTable, Way, Ways, Weights, Wish};
use truck::{Design, Edit, Note, Proposal, ProposalId, Truck, notes};

/// Combinations tried in one go.
const SLICE: usize = 500;

/// Writes the ways.
pub(crate) fn run(asked: &WaysDown, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.design.as_deref())?;
    let design = &shared.design;
    let units = asked.printed.units();
    let rear_down_mm = rear_down(asked);
    if asked.rear_down.is_some() && rear_down_mm.is_none() {
        let (low, high) = Proposal::REAR_DOWN_LIMITS_MM;
        return Err(Failure::at("--rear-down", format!("it takes {low} to {high} mm.")));
    }
    let wish = Wish {
        drop_mm: asked.drop.mm(units),
        within_mm: asked.within.mm(units),
        bump_mm: asked.bump.mm(units),
        room_mm: asked.room.mm(units),
        flat_tire: !asked.below_the_line,
        shims: !asked.no_shims && design.truck.shims.side.is_some(),
        frequency_hz: asked.frequency,
        rear_down_mm,
    };
    let table = table(asked, &design.truck, units);
    let title = trucks::title(design);
    let mut ways = Ways::new(&design.truck, wish, Weights::default(), table)
        .map_err(|error| Failure::at(title.to_owned(), format!("{error}.")))?;
    while !ways.step(SLICE) {}
    match asked.format {
        Format::Text => text(title, design, &ways, asked, out)?,
        format => rows(design, &ways, format, asked, out)?,
    }
    Ok(())
}

/// How far the rear comes down, mm, as it is kept.
fn rear_down(asked: &WaysDown) -> Option<f64> {
    asked.rear_down.and_then(|down| Proposal::accept_rear_down(down.mm(asked.printed.units())))
}

fn table(asked: &WaysDown, truck: &Truck, units: Units) -> PartsTable {
    let mut table = PartsTable { tires: asked.tires.clone(), ..PartsTable::usual(truck) };
    if let Some(spindles) = &asked.spindles {
        table.spindles_mm = spindles.iter().map(|drop| drop.mm(units)).collect();
    }
    if let Some(most) = asked.turns {
        table.turns = (1..=most).map(|turns| -f64::from(turns)).collect();
    }
    if let Some(most) = asked.coils {
        table.coils = (1..=2 * u32::from(most)).map(|halves| f64::from(halves) / 2.0).collect();
    }
    if asked.no_joint {
        table.joints.clear();
    }
    if asked.no_trim {
        table.trims_mm.clear();
    }
    table
}

pub(crate) const fn drawn(units: Units) -> drawing::Units {
    match units {
        Units::Inches => drawing::Units::Inches,
        Units::Millimetres => drawing::Units::Millimetres,
    }
}

/// The numbers of a way: key, heading, sort, value.
fn numbers(way: &Way) -> [(&'static str, &'static str, Sort, Option<f64>); 7] {
    [
        ("cost", "gives up", Sort::Count, Some(way.cost)),
        ("drop", "lower", Sort::Length, Some(way.drop_mm)),
        ("bump_left", "bump left", Sort::Length, Some(way.bump.travel_mm)),
        ("camber_change", "camber", Sort::Angle, Some(way.camber_rad)),
        ("caster_change", "caster", Sort::Angle, Some(way.caster_rad)),
        ("ride_frequency", "frequency", Sort::Frequency, Some(way.frequency_hz)),
        ("nearest_room", "nearest", Sort::Length, way.nearest.map(|(_, room_mm)| room_mm)),
    ]
}

fn text(title: &str, design: &Design, ways: &Ways, asked: &WaysDown, out: &mut impl Write) -> io::Result<()> {
    let units = asked.printed.units();
    writeln!(out, "{title}: {} combinations, {} ways down\n", ways.total(), ways.found().len())?;
    let best = || ways.found().iter().take(usize::from(asked.best)).enumerate();
    if best().any(|(_, way)| notes(&design.truck, &way.changes).contains(&Note::LetDown)) {
        writeln!(out, "{}\n", Note::LetDown)?;
    }
    if let Some((_, first)) = best().next() {
        let mut table = vec![
            [String::new()].into_iter().chain(numbers(first).map(|number| number.1.to_owned())).collect(),
        ];
        for (at, way) in best() {
            let values = numbers(way)
                .map(|(_, _, sort, value)| value.map_or("—".to_owned(), |value| sort.words(value, units)))
                .map(|value| if way.is_guess { format!("~ {value}") } else { value });
            table.push([format!("{}", at + 1)].into_iter().chain(values).collect::<Vec<_>>());
        }
        aligned(&table, out)?;
        writeln!(out)?;
    }
    for (at, way) in best() {
        let nearest = way.nearest.map_or(String::new(), |(pair, _)| format!("; nearest: {}", pair.label()));
        writeln!(out, "{}  {}", at + 1, changes_in_words(&way.changes, drawn(units)))?;
        writeln!(out, "   bump ended by {}{nearest}", way.bump.by)?;
        writeln!(out, "   {}", code(design, way).unwrap_or_default())?;
    }
    if best().any(|(_, way)| way.is_guess) {
        writeln!(out, "\n~ rests on plate and flange of a ball joint, which nobody has measured.")?;
    }
    writeln!(out, "\nCaster is against the ground, {}.", said_of_rear(asked))?;
    if ways.left_out().next().is_some() {
        writeln!(out, "\nLeft out:")?;
    }
    for (why, count) in ways.left_out() {
        writeln!(out, "  {count} {}", why.label())?;
    }
    if !design.truck.right.is_empty() {
        writeln!(out, "\nSought at the left. The right differs: ask for its report before you choose.")?;
    }
    writeln!(out)?;
    for caution in CAUTIONS {
        writeln!(out, "{caution}")?;
    }
    Ok(())
}

/// What caster of a way holds under.
fn said_of_rear(asked: &WaysDown) -> String {
    let units = asked.printed.units();
    let down =
        rear_down(asked).map(|mm| format!("if the rear comes down by {}", Sort::Length.words(mm, units)));
    down.unwrap_or_else(|| IF_REAR_STAYS.to_owned())
}

/// The code of the design with the way as its only proposal.
fn code(design: &Design, way: &Way) -> Option<String> {
    let mut design = design.clone();
    for id in design.proposals.iter().map(|proposal| proposal.id).collect::<Vec<_>>() {
        design = design.edited(&Edit::RemoveProposal(id)).ok()?;
    }
    let id: ProposalId = design.free_id();
    design = design.edited(&Edit::TakeProposal(way.proposal("Way down"))).ok()?;
    Some(to_code(&Shared { design, opening: Opening { proposal: Some(id), ..Opening::default() } }))
}

fn rows(
    design: &Design,
    ways: &Ways,
    format: Format,
    asked: &WaysDown,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.printed.units();
    let mut headers: Vec<String> = Vec::new();
    let sorts =
        [Sort::Count, Sort::Length, Sort::Length, Sort::Angle, Sort::Angle, Sort::Frequency, Sort::Length];
    let keys =
        ["cost", "drop", "bump_left", "camber_change", "caster_change", "ride_frequency", "nearest_room"];
    headers.extend(keys.iter().zip(sorts).map(|(key, sort)| sort.header(key, units)));
    headers.extend(["ended_by", "nearest", "rear", "rests_on_guess", "parts", "code"].map(str::to_owned));
    let mut table = Table::begin(out, format, headers)?;
    for way in ways.found().iter().take(usize::from(asked.best)) {
        let mut cells: Vec<Cell> = numbers(way)
            .into_iter()
            .map(|(_, _, sort, value)| {
                value.map_or(Cell::Nothing, |value| {
                    Cell::Number(sort.fixed(value, units, asked.printed.data_decimals()))
                })
            })
            .collect();
        cells.push(Cell::Words(way.bump.by.to_string()));
        cells.push(way.nearest.map_or(Cell::Nothing, |(pair, _)| Cell::Words(pair.label().to_owned())));
        cells.push(Cell::Words(said_of_rear(asked)));
        cells.push(Cell::Words(if way.is_guess { "yes" } else { "no" }.to_owned()));
        cells.push(Cell::Words(changes_in_words(&way.changes, drawn(units))));
        cells.push(code(design, way).map_or(Cell::Nothing, Cell::Words));
        table.row(&cells)?;
    }
    table.end()
}
