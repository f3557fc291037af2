//! `scrubline spread`: how far off each answer may be, what makes it so, and what would help.

use crate::arguments::{Format, Printed, Spread};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::telling::Teller;
use crate::trucks::{self, Chosen, Standing};
use drawing::{
    CANNOT_TELL, READINGS_DISAGREE, capital, disagreement_in_words, in_how_many, is_lost,
    next_reading_in_words, on_side, range_in_words, spread_in_words,
};
use measure::Units;
use std::io::{self, Write};
use study::{Draws, Figure, Input, LeftRight, Pair, Spreading, Topic, Trial, Value};
use truck::Side;

/// What people ask for; the data has every figure.
const ASKED: [Figure; 17] = [
    Figure::FRAME_HEIGHT,
    Figure::FENDER_ABOVE,
    Figure::BUMP,
    Figure::DROOP,
    Figure::STOP_DAYLIGHT,
    Figure::CAMBER,
    Figure::CASTER_GROUND,
    Figure::TOE,
    Figure::INCLINATION,
    Figure::SCRUB_RADIUS,
    Figure::TRAIL_GROUND,
    Figure::ROLL_CENTRE,
    Figure::CAMBER_GAIN,
    Figure::BUMP_STEER,
    Figure::RIDE_FREQUENCY,
    Figure::HEIGHT_WITH_DRIVER,
    Figure::HEIGHT_WITH_BED,
];
const ENDS: [Figure; 2] = [Figure::BUMP_ENDED_BY, Figure::DROOP_ENDED_BY];
/// How many causes are named.
const CAUSES: usize = 2;
/// A smaller share of a spread is not worth naming.
const LEAST_SHARE: f64 = 0.1;

/// What is told of one figure of one truck, in the core's unit.
struct Told {
    value: Option<f64>,
    /// With its mark.
    said: String,
    spread: Option<f64>,
    range: Option<study::Range>,
    /// What was read of it may be wrong.
    is_doubtful: bool,
    /// How much more than as it sits; `None` of that truck itself.
    change: Option<f64>,
    change_spread: Option<f64>,
    change_range: Option<study::Range>,
    is_guess: bool,
}

struct Page<'a> {
    names: Vec<String>,
    tellers: Vec<Teller<'a>>,
    slopes: Spreading,
    draws: Draws,
    units: Units,
}

/// Writes the spreads.
pub(crate) fn run(asked: &Spread, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let (design, side) = (&shared.design, asked.one.side());
    let choices = trucks::asked(design, asked.asked.proposal.as_deref())?;
    let units = asked.printed.units();
    let mut standings = Vec::new();
    for choice in choices.iter().copied() {
        let name = choice.name(design, units);
        let standing = Standing::of(design, choice, side);
        let place = || format!("{}, {name}", trucks::title(design));
        standings.push((name.clone(), standing.map_err(|sentence| Failure::at(place(), sentence))?));
    }
    let figures = match asked.format {
        Format::Text => {
            let is_sided = choices.iter().any(|choice| design.sides_differ(*choice));
            let both = LeftRight::QUANTITIES.into_iter().map(Figure::together).filter(|_| is_sided);
            ASKED.into_iter().chain(both).chain(rooms(&standings)).collect()
        }
        Format::Csv | Format::Json => Figure::all().filter(|figure| is_number(*figure)).collect::<Vec<_>>(),
    };
    let page = Page::of(&standings, side, units, &figures, asked.draws);
    match asked.format {
        Format::Text => {
            let title = trucks::on_side(trucks::title(design).to_owned(), side);
            page.text(&title, &figures, out)?;
        }
        format => page.rows(&figures, format, &asked.printed, out)?,
    }
    Ok(())
}

/// The room of the pairs that can be looked at: at rest of all, and the least of what moves.
fn rooms(standings: &[(String, Standing)]) -> Vec<Figure> {
    let measured = &standings[0].1.rest.fitted;
    let pairs = Pair::ALL.iter().copied().filter(|pair| pair.needs(measured).is_empty());
    pairs.map(Figure::room).collect()
}

const fn is_number(figure: Figure) -> bool {
    !matches!(figure.sort(), study::Sort::Words)
}

impl<'a> Page<'a> {
    fn of(
        standings: &'a [(String, Standing)],
        side: Side,
        units: Units,
        figures: &[Figure],
        count: usize,
    ) -> Self {
        let trials: Vec<_> = standings.iter().map(|(_, standing)| standing.trial.clone()).collect();
        let mut slopes = Spreading::new(trials.clone(), side, figures);
        let read = |trial: &Trial, figures: &[Figure]| trial.values(side, figures);
        while !slopes.step(&read) {}
        let switching: Vec<_> =
            figures.iter().copied().filter(|figure| figure.switches()).chain(ENDS).collect();
        let mut draws = Draws::new(trials, side, &switching, Draws::SEED);
        while draws.count() < count {
            draws.step(&read);
        }
        Self {
            names: standings.iter().map(|(name, _)| name.clone()).collect(),
            tellers: standings.iter().map(|(_, standing)| Teller::new(standing, units, figures)).collect(),
            slopes,
            draws,
            units,
        }
    }

    fn told(&self, at: usize, figure: Figure) -> Told {
        let number = |teller: &Teller<'_>| figure.read(&teller.studied).and_then(Value::number);
        let (value, before) = (number(&self.tellers[at]), number(&self.tellers[0]));
        let answer = self.tellers[at].tell(figure);
        let is_plan = at > 0;
        Told {
            value,
            said: answer.said(self.units),
            spread: self.slopes.spread(at, figure),
            is_doubtful: self.slopes.is_doubtful(figure),
            range: self.draws.range(at, figure),
            change: value.zip(before).filter(|_| is_plan).map(|(now, before)| now - before),
            change_spread: self.slopes.spread_between(at, 0, figure).filter(|_| is_plan),
            change_range: self.draws.range_between(at, 0, figure).filter(|_| is_plan),
            is_guess: !answer.rests_on.is_empty(),
        }
    }

    fn rows(
        &self,
        figures: &[Figure],
        format: Format,
        printed: &Printed,
        out: &mut impl Write,
    ) -> io::Result<()> {
        let headers = [
            "answer",
            "truck",
            "unit",
            "guess",
            "value",
            "spread",
            "low",
            "high",
            "found",
            "change",
            "change_spread",
            "change_low",
            "change_high",
        ];
        let mut table = Table::begin(out, format, headers.map(str::to_owned).to_vec())?;
        let words = |text: &str| Cell::Words(text.to_owned());
        for figure in figures.iter().copied() {
            let sort = Sort::from(figure.sort());
            let number = |value: Option<f64>| {
                let fixed = |value: f64| sort.fixed(value, printed.units(), printed.data_decimals());
                value
                    .filter(|value| value.is_finite())
                    .map_or(Cell::Nothing, |value| Cell::Number(fixed(value)))
            };
            for (at, name) in self.names.iter().enumerate() {
                let told = self.told(at, figure);
                let (range, change) = (told.range, told.change_range);
                let found = range.map(|range| measure::fixed(range.found, 3));
                table.row(&[
                    words(&figure.key()),
                    words(name),
                    sort.suffix(printed.units()).map_or(Cell::Nothing, words),
                    words(if told.is_guess { "yes" } else { "no" }),
                    number(told.value),
                    // Of what cannot be so nobody knows how far off it is.
                    number(told.spread.filter(|_| !told.is_doubtful)),
                    number(range.map(|range| range.low)),
                    number(range.map(|range| range.high)),
                    found.map_or(Cell::Nothing, Cell::Number),
                    number(told.change),
                    number(told.change_spread),
                    number(change.map(|range| range.low)),
                    number(change.map(|range| range.high)),
                ])?;
            }
        }
        table.end()
    }

    fn text(&self, title: &str, figures: &[Figure], out: &mut impl Write) -> io::Result<()> {
        writeln!(out, "{title}: how far off each answer may be, 19 times in 20\n")?;
        let mut head = vec![String::new(), self.names[0].clone()];
        for name in &self.names[1..] {
            head.extend([name.clone(), "changed by".to_owned()]);
        }
        if let Some(why) = self.slopes.disagreement() {
            writeln!(out, "{}\n", capital(&disagreement_in_words(why)))?;
        }
        self.dangers(figures, out)?;
        let mut rows = vec![head];
        for figure in figures.iter().copied() {
            let all: Vec<_> = (0..self.names.len()).map(|at| self.told(at, figure)).collect();
            let mut row = vec![figure.label(), self.value(figure, &all[0])];
            for told in &all[1..] {
                row.extend([self.value(figure, told), self.change(figure, told)]);
            }
            rows.push(row);
        }
        aligned(&rows, out)?;
        self.ends(out)?;
        writeln!(
            out,
            "\nA change is known better than the answers: what is off in one is off in both. A part's own\nnumber is taken at its word."
        )?;
        self.help(figures, out)
    }

    fn value(&self, figure: Figure, told: &Told) -> String {
        if told.is_doubtful {
            return [&told.said, " (", READINGS_DISAGREE, ")"].concat();
        }
        match (told.spread, told.range) {
            (_, Some(range)) => [&told.said, " (", &range_in_words(&range, self.units), ")"].concat(),
            (Some(spread), _) => with(told.said.clone(), figure, spread, self.units),
            (None, None) if told.value.is_some() => told.said.clone() + " ± ?",
            (None, None) => told.said.clone(),
        }
    }

    fn change(&self, figure: Figure, told: &Told) -> String {
        let Some(change) = told.change else { return "—".to_owned() };
        let sort = figure.sort();
        if told.change_spread.is_some_and(|spread| is_lost(sort, change, spread, self.units)) {
            return CANNOT_TELL.to_owned();
        }
        let words = |value: f64| Sort::from(sort).words(value, self.units);
        let said = match words(change) {
            said if said == words(0.0) => "no change".to_owned(),
            said if change > 0.0 => "+".to_owned() + &said,
            said => said,
        };
        match told.change_range {
            Some(range) => [&said, " (", &range_in_words(&range, self.units), ")"].concat(),
            None => told.change_spread.map_or(said.clone(), |spread| with(said, figure, spread, self.units)),
        }
    }

    /// What may meet, for all that was measured; and what may end the travel.
    fn dangers(&self, figures: &[Figure], out: &mut impl Write) -> io::Result<()> {
        for (at, name) in self.names.iter().enumerate() {
            let near = |figure: &Figure| {
                let told = self.told(at, *figure);
                let (mm, spread) = told.value.zip(told.spread)?;
                let is_room = matches!(figure.topic(), Topic::Room(_));
                (is_room && (mm.abs() <= spread || told.is_doubtful))
                    .then(|| [&figure.label(), " ", &self.value(*figure, &told)].concat())
            };
            let near: Vec<_> = figures.iter().filter_map(near).collect();
            if !near.is_empty() {
                writeln!(
                    out,
                    "{name}: too near to tell. These may meet; measure them on the truck before you buy or cut:\n  {}\n",
                    near.join("\n  ")
                )?;
            }
        }
        Ok(())
    }

    /// What ends the travel, in how many of a hundred trucks that were measured so.
    fn ends(&self, out: &mut impl Write) -> io::Result<()> {
        for (figure, what) in ENDS.into_iter().zip(["bump", "droop"]) {
            for (at, name) in self.names.iter().enumerate() {
                let mut all = self.draws.words(at, figure);
                all.retain(|(_, share)| *share >= 0.005);
                if all.len() > 1 {
                    let said = |(words, share): &(&str, f64)| [words, " ", &in_how_many(*share)].concat();
                    let said: Vec<_> = all.iter().map(said).collect();
                    writeln!(out, "\nWhat ends the {what} travel, {name}: {}.", said.join(", "))?;
                }
            }
        }
        Ok(())
    }

    /// What makes the truck's own answers as poor as they are, and what reads them off.
    fn help(&self, figures: &[Figure], out: &mut impl Write) -> io::Result<()> {
        let units = self.units;
        let mut begun = false;
        for figure in figures.iter().copied() {
            let spread = self.slopes.spread(0, figure).filter(|_| !self.slopes.is_doubtful(figure));
            let Some(spread) = spread else { continue };
            let Some(said) = spread_in_words(figure.sort(), spread, units) else { continue };
            let causes = self.slopes.causes(0, figure);
            let named: Vec<_> = causes
                .iter()
                .filter(|(_, share)| *share >= LEAST_SHARE)
                .take(CAUSES)
                .map(|(input, share)| self.name(*input) + &format!(" {} %", measure::fixed(100.0 * share, 0)))
                .collect();
            if named.is_empty() {
                continue;
            }
            if !begun {
                writeln!(out, "\nWhat makes the truck's own answers so, and what would help:")?;
                begun = true;
            }
            writeln!(out, "  {} {said}: {}.{}", figure.label(), named.join(", "), self.next(figure))?;
        }
        Ok(())
    }

    /// The reading that would help most, with what it would leave.
    fn next(&self, figure: Figure) -> String {
        let next = self.slopes.next_reading(0, figure);
        next.map_or_else(String::new, |next| format!(" {}.", next_reading_in_words(figure, next, self.units)))
    }

    fn name(&self, input: Input) -> String {
        match input {
            Input::Number(field) => field.label().to_owned(),
            Input::Right(field) => "right: ".to_owned() + field.label(),
            Input::Ground(Side::Left) => "the floor under it".to_owned(),
            Input::Ground(Side::Right) => "right: the floor under it".to_owned(),
            Input::Centreline => "the centerline".to_owned(),
            Input::Reading(_, of) => "what was read of ".to_owned() + of.label(),
            Input::Change(at, (side, kind, place), number) => {
                let change = kind.title(place) + on_side(side);
                format!("{}, {change}: {}", self.names[at], kind.numbers()[number].label())
            }
        }
    }
}

fn with(said: String, figure: Figure, spread: f64, units: Units) -> String {
    if figure.sort() == study::Sort::AnglePerLength {
        // Said of the length that the answer is said of.
        let spread = Sort::AnglePerLength.words(spread, units);
        let is_read = spread != Sort::AnglePerLength.words(0.0, units);
        return if is_read { said + " ± " + &spread } else { said };
    }
    spread_in_words(figure.sort(), spread, units).map_or(said.clone(), |spread| said + " " + &spread)
}
