//! `scrubline ways`: which parts bring the truck down, and what each gives up.

use crate::arguments::{Format, WaysDown};
use crate::cautions::CAUTIONS;
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::trucks;
use drawing::{changes_in_words, contest_in_words, lowest_in_words, marked, no_rear_way_in_words};
use measure::Units;
use sharing::{Opening, Shared, to_code};
use std::io::{self, IsTerminal as _, Write};
use study::{
    Certainty, Contest, IF_REAR_STAYS, LeftOut, Miss, PartsTable, RearTable, Told, Way, Ways, Weights, Wish,
    rear_way,
};
use truck::{Change, Design, Edit, Note, Proposal, ProposalId, Truck, Which, notes};

/// Combinations tried in one go.
const SLICE: usize = 200;
/// As many spindles or tires may be on the table.
const LONGEST: usize = 100;

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
        turning_mm: asked.turning_room.mm(units),
        flat_tire: !asked.below_the_line,
        shims: !asked.no_shims && design.truck.shims.side.is_some(),
        frequency_hz: asked.frequency,
        rear_down_mm,
    };
    let title = trucks::title(design);
    let mut table = table(asked, &design.truck, units)?;
    if asked.keep_rake {
        table.rear = rear_parts(title, &design.truck, &wish, units)?;
    }
    let rear =
        if table.rear.is_empty() { said_of_rear(asked) } else { "the rear down by its parts".to_owned() };
    let mut ways = Ways::new(&design.truck, wish, Weights::default(), table)
        .map_err(|error| Failure::at(title.to_owned(), format!("{error}.")))?;
    let mut progress = Progress::begin();
    while !ways.step(SLICE) {
        progress.say(&ways);
    }
    progress.end();
    match asked.format {
        Format::Text => text(title, design, &ways, asked, &rear, out)?,
        format => rows(design, &ways, format, asked, &rear, out)?,
    }
    Ok(())
}

/// The rear's parts that keep the rake.
fn rear_parts(title: &str, truck: &Truck, wish: &Wish, units: Units) -> Result<Vec<Change>, Failure> {
    let found = rear_way(truck, wish.drop_mm, wish.bump_mm, &RearTable::default());
    found
        .map(|way| way.changes)
        .map_err(|why| Failure::at(title.to_owned(), no_rear_way_in_words(&why, truck, units)))
}

/// How far the rear comes down, mm, as it is kept.
fn rear_down(asked: &WaysDown) -> Option<f64> {
    asked.rear_down.and_then(|down| Proposal::accept_rear_down(down.mm(asked.printed.units())))
}

fn table(asked: &WaysDown, truck: &Truck, units: Units) -> Result<PartsTable, Failure> {
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
    if asked.no_trim {
        table.trims_mm.clear();
    }
    for (name, count) in [("--spindles", table.spindles_mm.len()), ("--tires", table.tires.len())] {
        if count > LONGEST {
            return Err(Failure::at(name, format!("{count} are on the table, at most {LONGEST} are tried.")));
        }
    }
    Ok(table)
}

/// Says on standard error how far a long search has come: in place on a terminal, and
/// now and then where it goes into a log.
struct Progress {
    terminal: bool,
    /// Combinations between two words, and at which the next is due.
    every: usize,
    next: usize,
}

impl Progress {
    fn begin() -> Self {
        let terminal = io::stderr().is_terminal();
        let every = if terminal { SLICE } else { 10_000 };
        Self { terminal, every, next: every }
    }

    fn say(&mut self, ways: &Ways) {
        if ways.tried() < self.next {
            return;
        }
        self.next = ways.tried() + self.every;
        let (begin, end) = if self.terminal { ("\r", "") } else { ("", "\n") };
        let (tried, total) = (ways.tried(), ways.total());
        // Whether anybody reads it changes nothing.
        let _ = write!(io::stderr(), "{begin}{tried} of {total} combinations tried{end}");
    }

    /// Wipes the line from a terminal.
    fn end(&self) {
        if self.terminal && self.next > self.every {
            let _ = write!(io::stderr(), "\r\x1b[K");
        }
    }
}

/// A number of a way.
struct Number {
    key: &'static str,
    heading: &'static str,
    sort: Sort,
    value: Option<f64>,
    /// Whether it may rest on a guess: rather one too many.
    is_guess: bool,
}

/// The numbers of a way on a truck.
fn numbers(way: &Way, truck: &Truck) -> [Number; 7] {
    let (all, nearest) = way.told(truck);
    let number = |key, heading, told: Option<&Told>| Number {
        key,
        heading,
        sort: told.map_or(Sort::Length, |told| told.figure.sort().into()),
        value: told.and_then(Told::number),
        is_guess: told.is_some_and(Told::is_guess),
    };
    let [drop, bump, camber, caster, frequency] = all.each_ref().map(Some);
    let is_guess = all.iter().any(Told::is_guess);
    [
        Number { key: "cost", heading: "gives up", sort: Sort::Count, value: Some(way.cost), is_guess },
        number("drop", "lower", drop),
        number("bump_left", "bump travel", bump),
        number("camber_change", "camber", camber),
        number("caster_change", "caster", caster),
        number("ride_frequency", "frequency", frequency),
        number("nearest_room", "nearest", nearest.as_ref()),
    ]
}

/// What was left out, by its reasons; where there is no way, the nearest of each.
fn left_out(ways: &Ways, truck: &Truck, units: Units, out: &mut impl Write) -> io::Result<()> {
    if ways.left_out().next().is_some() {
        writeln!(out, "\nLeft out:")?;
    }
    for (why, count) in ways.left_out() {
        writeln!(out, "  {count} {}", why.label())?;
        let miss = ways.misses().iter().find(|miss| miss.why == why);
        if let Some(miss) = miss.filter(|_| ways.found().is_empty()) {
            writeln!(out, "      nearest: {}", missed(miss, truck, units))?;
        }
    }
    Ok(())
}

fn text(
    title: &str,
    design: &Design,
    ways: &Ways,
    asked: &WaysDown,
    rear: &str,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.printed.units();
    writeln!(out, "{title}: {} combinations, {} ways down\n", ways.total(), ways.found().len())?;
    let best = || ways.found().iter().take(usize::from(asked.best)).enumerate();
    let lowest = ways.lowest();
    let shown = best().map(|(_, way)| &way.changes).chain(lowest.map(|lowest| &lowest.changes));
    let said: Vec<_> = shown.flat_map(|changes| notes(&design.truck, changes)).collect();
    for danger in [Note::LetDown, Note::RearBrake].iter().filter(|danger| said.contains(danger)) {
        writeln!(out, "{danger}\n")?;
    }
    if let Some(lowest) = lowest {
        writeln!(out, "{}", lowest_in_words(lowest, &design.truck, units))?;
    }
    if let Some((_, first)) = best().next() {
        let mut table = vec![
            [String::new()]
                .into_iter()
                .chain(numbers(first, &design.truck).map(|number| number.heading.to_owned()))
                .collect(),
        ];
        for (at, way) in best() {
            let values = numbers(way, &design.truck).map(|number| {
                let said = number.value.map_or("—".to_owned(), |value| number.sort.words(value, units));
                marked(said, number.is_guess)
            });
            table.push([format!("{}", at + 1)].into_iter().chain(values).collect::<Vec<_>>());
        }
        aligned(&table, out)?;
        writeln!(out)?;
    }
    for (at, way) in best() {
        let nearest = named(way, &design.truck);
        let nearest = if nearest.is_empty() { nearest } else { "; nearest: ".to_owned() + &nearest };
        writeln!(out, "{}  {}", at + 1, changes_in_words(&way.changes, units))?;
        writeln!(out, "   bump ended by {}{nearest}", way.bump.by)?;
        if !way.unseen.is_empty() {
            writeln!(out, "   not looked at, for want of numbers: {}", unseen(way))?;
        }
        writeln!(out, "   {}", code(design, way).unwrap_or_default())?;
    }
    let sure = contest_in_words(&contested(ways));
    if !sure.is_empty() {
        writeln!(out, "\n{}", sure.join("\n"))?;
    }
    writeln!(out, "\nCaster is against the ground, {rear}.")?;
    if said.contains(&Note::RearBrake) {
        writeln!(
            out,
            "Before you buy, ask `scrubline rear`: what its parts do to its travel, the shaft's joints and the headlamps."
        )?;
    }
    left_out(ways, &design.truck, units, out)?;
    writeln!(out)?;
    for caution in cautions(design) {
        writeln!(out, "{caution}")?;
    }
    Ok(())
}

/// How sure the first ways are.
fn contested(ways: &Ways) -> Vec<Certainty> {
    let mut contest = ways.contest(Contest::WAYS);
    while contest.draws() < Contest::DRAWS {
        contest.step();
    }
    ways.certainties(&contest)
}

/// What holds for every way.
fn cautions(design: &Design) -> Vec<&'static str> {
    let right = "Sought at the left. The right differs: ask for its report before you choose.";
    let right = design.sides_differ(Which::AsMeasured).then_some(right);
    right.into_iter().chain(CAUTIONS).collect()
}

/// The pair that comes nearest, with its mark where that may rest on a guess; nothing where none was looked at.
fn named(way: &Way, truck: &Truck) -> String {
    let is_guess = numbers(way, truck).iter().any(|number| number.key == "nearest_room" && number.is_guess);
    way.nearest.map_or_else(String::new, |(pair, _)| format!("{}{pair}", if is_guess { "~" } else { "" }))
}

/// The pairs that were not looked at, for want of numbers.
fn unseen(way: &Way) -> String {
    way.unseen.iter().map(|pair| pair.label()).collect::<Vec<_>>().join(", ")
}

/// What caster of a way holds under where the rear keeps its parts.
fn said_of_rear(asked: &WaysDown) -> String {
    let units = asked.printed.units();
    let down =
        rear_down(asked).map(|mm| format!("if the rear comes down by {}", Sort::Length.words(mm, units)));
    down.unwrap_or_else(|| IF_REAR_STAYS.to_owned())
}

/// What a combination comes to, by how much it misses, what stops it, and its parts.
fn missed(miss: &Miss, truck: &Truck, units: Units) -> String {
    let [drop, short] = miss.told(truck).map(|told| {
        let number = Sort::from(told.figure.sort()).words(told.number().unwrap_or_default(), units);
        marked(number, told.is_guess())
    });
    let mut said = format!("{drop} lower, {short} short");
    if let Some(by) = miss.by {
        said += &format!(" ({by})");
    }
    said += &match miss.besides {
        Some(why) => format!(", one of those that {}", why.label()),
        None if miss.why == LeftOut::Height => ", otherwise within the limits".to_owned(),
        None => String::new(),
    };
    let parts = changes_in_words(&miss.changes, units);
    format!("{said}: {}", if parts.is_empty() { "nothing changed" } else { &parts })
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
    rear: &str,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.printed.units();
    // What is dangerous is said first.
    let mut headers = vec!["notes".to_owned()];
    let sorts =
        [Sort::Count, Sort::Length, Sort::Length, Sort::Angle, Sort::Angle, Sort::Frequency, Sort::Length];
    let keys =
        ["cost", "drop", "bump_left", "camber_change", "caster_change", "ride_frequency", "nearest_room"];
    headers.extend(keys.iter().zip(sorts).map(|(key, sort)| sort.header(key, units)));
    headers.extend(
        ["ended_by", "nearest", "not_looked_at", "rear", "parts", "guesses", "caution", "code"]
            .map(str::to_owned),
    );
    // Of the first few: the shares of trucks that measure as this one.
    headers.extend(["least_in", "keeps_in"].map(str::to_owned));
    let sure = contested(ways);
    let mut table = Table::begin(out, format, headers)?;
    for (at, way) in ways.found().iter().take(usize::from(asked.best)).enumerate() {
        let said: Vec<_> = notes(&design.truck, &way.changes).iter().map(ToString::to_string).collect();
        let mut cells = vec![Cell::Words(said.join(" "))];
        let numbers = numbers(way, &design.truck);
        cells.extend(numbers.iter().map(|number| {
            number.value.map_or(Cell::Nothing, |value| {
                Cell::Number(number.sort.fixed(value, units, asked.printed.data_decimals()))
            })
        }));
        cells.push(Cell::Words(way.bump.by.to_string()));
        let near = named(way, &design.truck);
        cells.push(if near.is_empty() { Cell::Nothing } else { Cell::Words(near) });
        cells.push(Cell::Words(unseen(way)));
        cells.push(Cell::Words(rear.to_owned()));
        cells.push(Cell::Words(changes_in_words(&way.changes, units)));
        let guesses = numbers.iter().filter(|number| number.is_guess).map(|number| number.key);
        cells.push(Cell::Words(guesses.collect::<Vec<_>>().join("; ")));
        cells.push(Cell::Words(cautions(design).join(" ")));
        cells.push(code(design, way).map_or(Cell::Nothing, Cell::Words));
        let share = |of: fn(&Certainty) -> f64| {
            sure.get(at).map_or(Cell::Nothing, |one| Cell::Number(measure::fixed(of(one), 2)))
        };
        cells.extend([share(|one| one.is_cheapest), share(|one| one.keeps)]);
        table.row(&cells)?;
    }
    table.end()
}
