//! `scrubline setup`: what to turn, shim and screw for a height and an alignment.

use crate::arguments::{CasterChoice, Format, Setup};
use crate::cautions::CAUTIONS;
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::table::{Cell, Table, aligned};
use crate::telling::{Value, data, shown};
use crate::trucks::{self, Choice, Chosen};
use drawing::{
    MANY_PIECES, bound_in_words, danger_in_words, doubtful_in_words, marked, set_if_read_in_words,
    set_spreads_in_words, sides_in_words,
};
use measure::Units;
use sharing::{Opening, Shared, to_code};
use std::io::{self, Write};
use study::{
    Alignment, CasterBy, Figure, HeightBy, IF_REAR_STAYS, NoSetting, SetOrder, SetSpreads, Setting, Steps,
    Target, Trial, alignments,
};
use truck::{Design, Edit, ProposalId, Side};

/// One thing to set.
struct Line {
    key: &'static str,
    label: &'static str,
    value: Value,
    /// Which way, or of what it is made up.
    note: String,
    /// What it is set for or read as: it rests on what these do.
    of: &'static [Figure],
}

/// Whether figures of the truck as it is set up may rest on a guess: rather one too many.
fn is_guess(of: &[Figure], found: &Setting) -> bool {
    !found.may_rest_on(of).is_empty()
}

/// Writes the setting.
pub(crate) fn run(asked: &Setup, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = trucks::one(&shared, asked.asked.proposal.as_deref())?;
    let units = asked.printed.units();
    let truck = format!("{}, {}", trucks::title(design), choice.name(design, units));
    let sides = if asked.each_side { &Side::ALL[..] } else { &[asked.one.side()] };
    let name = |side: Side| match sides {
        [_] => trucks::on_side(truck.clone(), side),
        _ => format!("{truck}, {} side", side.label().to_ascii_lowercase()),
    };
    let caster_by = match asked.caster_by {
        CasterChoice::Shims => CasterBy::Shims,
        CasterChoice::StrutRod => CasterBy::StrutRod,
    };
    let (bump_mm, overlay, steps) = (asked.bump.mm(units), design.overlay(choice), steps(units));
    let (mut asks, mut each) = (Vec::new(), None);
    for side in sides.iter().copied() {
        let rest = choice.rest(design, side).map_err(|sentence| Failure::at(name(side), sentence))?;
        let now = if asked.each_side {
            each.get_or_insert_with(|| Target::of_each(rest.stance()))[side as usize]
        } else {
            Target::of(&rest)
        };
        asks.push(Ask { side, name: name(side), target: now.with(wanted(asked)) });
    }
    let order = |side: Side| {
        let trial = Trial::new(&design.truck, overlay);
        SetOrder { trial, side, wanted: wanted(asked), caster_by, steps: *steps }
    };
    let failed = |error: NoSetting| Failure::at(asks[0].name.clone(), format!("{error}."));
    let targets: Vec<_> = asks.iter().map(|ask| (ask.side, ask.target)).collect();
    let found = alignments(&design.truck, &targets, overlay, caster_by, steps, bump_mm).map_err(failed)?;
    match asked.format {
        Format::Text => {
            let said = first(&asks, &found, &order, units);
            for (at, (ask, found)) in asks.iter().zip(&found).enumerate() {
                let first = if at == 0 { &said[..] } else { &[] };
                text(ask, first, found, asked, out)?;
                for said in sentences(&order(ask.side), units) {
                    writeln!(out, "{said}\n")?;
                }
            }
            closing(design, choice, &found, asked, out)?;
        }
        format => table(&asks, &found, format, asked, &order, out)?,
    }
    Ok(())
}

/// What is set, by its name in the data, in the order in which [`SetSpreads`] has it.
const SET: [&str; 6] = ["bolt_turns", "spacer", "shim_front", "shim_rear", "strut_turns", "tie_turns"];

/// How far off what is set may be.
fn spreads(order: &SetOrder) -> SetSpreads {
    let mut search = order.spreading();
    while !order.step(&mut search) {}
    SetSpreads::of(&search)
}

/// The same, and what to read first, in sentences.
fn sentences(order: &SetOrder, units: Units) -> Vec<String> {
    let now = spreads(order);
    let if_read = order.if_read().filter(|_| now.is_any_seen());
    let better = if_read.map(|(unread, read)| set_if_read_in_words(&now, &unread, &spreads(&read), units));
    let all = [Some(set_spreads_in_words(&now, units)), better];
    all.into_iter().flatten().filter(|said| !said.is_empty()).collect()
}

/// One side that is to be set up.
struct Ask {
    side: Side,
    name: String,
    target: Target,
}

/// What is asked for; what is open stays as it reads now.
fn wanted(asked: &Setup) -> [Option<f64>; 4] {
    let height = asked.height.map(|height| height.mm(asked.printed.units()));
    [height, asked.camber, asked.caster, asked.toe]
}

const fn steps(units: Units) -> &'static Steps {
    match units {
        Units::Inches => &Steps::INCHES,
        Units::Millimetres => &Steps::MILLIMETRES,
    }
}

/// What is to be said before anything is ordered, at whichever side: what it would be set by and cannot be so, how it
/// would stand, where that is dangerous, then what to look out for in the work, each once.
fn first(
    asks: &[Ask],
    found: &[Alignment],
    order: &dyn Fn(Side) -> SetOrder,
    units: Units,
) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    for (ask, found) in asks.iter().zip(found) {
        let side = if asks.len() == 1 { String::new() } else { format!("{}: ", ask.side.label()) };
        let doubtful = order(ask.side).doubtful();
        all.extend(doubtful.into_iter().map(|of| ("danger", side.clone() + &doubtful_in_words(of))));
        all.extend(danger_in_words(found, units).map(|said| ("danger", side + &said)));
    }
    for found in found {
        let notes = found.notes.iter().map(ToString::to_string);
        let pieces = found.many_pieces.then(|| MANY_PIECES.to_owned());
        let sides = sides_in_words(&found.setting).map(str::to_owned);
        for said in notes.chain(pieces).chain(sides) {
            if !all.contains(&("caution", said.clone())) {
                all.push(("caution", said));
            }
        }
    }
    all
}

/// What it stands on once it is set up.
fn footing(found: &Alignment) -> Vec<Line> {
    let footing = &found.footing;
    let length = |key, label, mm: Option<f64>, note: String| Line {
        key,
        label,
        value: Value::Figure(Sort::Length, mm),
        note,
        of: &[Figure::BUMP],
    };
    let hit = footing.first_contact;
    let mut list = vec![
        Line {
            key: "held_by",
            label: "Stands on",
            value: Value::Words(footing.held_by.label().to_owned()),
            note: String::new(),
            of: &[Figure::HELD_BY],
        },
        length("bump_left", "Bump travel", Some(footing.bump.travel_mm), {
            format!("ended by {}", footing.bump.by)
        }),
        length(
            "first_contact",
            "First hit",
            hit.map(|hit| hit.1),
            hit.map_or_else(|| "nothing before the stop is solid".to_owned(), |hit| hit.0.label().to_owned()),
        ),
    ];
    if !footing.leaves(found.bump_mm) {
        let said = match found.lowest_height_mm {
            Some(_) => "leaves the bump travel wished",
            None => "no height at these parts leaves it",
        };
        list.push(length("lowest_height", "Lowest height", found.lowest_height_mm, said.to_owned()));
    }
    list
}

/// Which way a number goes.
fn way(value: f64, plus: &str, minus: &str) -> String {
    let said = if value == 0.0 {
        "as it is"
    } else if value > 0.0 {
        plus
    } else {
        minus
    };
    said.to_owned()
}

/// Turns of a thread, or splines.
fn turns(
    key: &'static str,
    label: &'static str,
    of: &'static [Figure],
    turns: Option<f64>,
    [plus, minus]: [&str; 2],
) -> Line {
    let note = turns.map_or_else(|| "its thread is not stated".to_owned(), |turns| way(turns, plus, minus));
    Line { key, label, value: Value::Figure(Sort::Count, turns), note, of }
}

/// What to set, in the order of the work.
fn lines(found: &Setting, units: Units) -> Vec<Line> {
    let shims = |key, label, mm: f64| Line {
        key,
        label,
        value: Value::Figure(Sort::Shim, Some(mm)),
        note: packed(mm, steps(units)),
        of: Setting::SHIMS,
    };
    let mut list = Vec::new();
    match found.height {
        HeightBy::Anchor { turns: bolt, splines_anchor, splines_arm } => {
            let splines = |key, label, count: f64| {
                turns(key, label, Setting::HEIGHT, Some(count), ["splines, raised", "splines, let down"])
            };
            list.push(splines("splines_anchor", "Bar, at the anchor", splines_anchor));
            list.push(splines("splines_arm", "Bar, at the arm", splines_arm));
            list.push(turns(
                "bolt_turns",
                "Adjuster bolt",
                Setting::HEIGHT,
                Some(bolt),
                ["turns in", "turns out"],
            ));
        }
        HeightBy::Spacer(mm) => {
            let note = way(mm, "added", "taken out");
            list.push(Line {
                key: "spacer",
                label: "Coil's spacer",
                value: Value::Figure(Sort::Length, Some(mm)),
                note,
                of: Setting::HEIGHT,
            });
        }
        HeightBy::Nothing => {}
    }
    list.push(shims("shim_front", "Shims, front bolt", found.set.shim_front_mm));
    list.push(shims("shim_rear", "Shims, rear bolt", found.set.shim_rear_mm));
    if found.set.strut_mm != 0.0 {
        list.push(turns(
            "strut_turns",
            "Strut rod's nut",
            Setting::SHIMS,
            found.strut_turns,
            ["turns, longer", "turns, shorter"],
        ));
    }
    list.push(turns(
        "tie_turns",
        "Tie rod's sleeve",
        Setting::SLEEVE,
        found.tie_turns,
        ["turns, longer", "turns, shorter"],
    ));
    list
}

/// The shims that make a pack up, thickest first.
fn packed(mm: f64, steps: &Steps) -> String {
    let named = |size: f64| {
        let name = if steps == &Steps::INCHES {
            measure::print_length(size, measure::LengthStyle::Inches { denominator: 32 })
        } else {
            measure::print_length(size, measure::LengthStyle::Millimetres { decimals: 1 })
        };
        let name = name.split(' ').next().unwrap_or_default();
        name.strip_suffix(".0").unwrap_or(name).to_owned()
    };
    let pack: Vec<_> = steps.pieces_mm(mm).into_iter().map(named).collect();
    match (pack.is_empty(), mm > 0.0) {
        (true, _) => "as it is".to_owned(),
        (false, true) => format!("add {}", pack.join(" + ")),
        (false, false) => format!("take out {}", pack.join(" + ")),
    }
}

/// What is read, and of each target its number.
type Row = (Figure, fn(&Target) -> f64);

/// What is said where a change has a guessed number, or a line is marked.
fn guess_in_words<'a>(found: &Setting, mut lines: impl Iterator<Item = &'a Line>) -> Option<&'static str> {
    if !found.rest.fitted.guessed.is_empty() {
        return Some("All of it rests on guessed numbers of the changes: the report names them.");
    }
    let marked = lines.any(|line| is_guess(line.of, found));
    marked.then_some("It may rest on numbers that nobody has measured: the report names them.")
}

/// What a reading against the ground holds under.
fn said_of_rear(figure: Figure, found: &Setting) -> Option<&'static str> {
    (figure == Figure::CASTER_GROUND && !found.rest.rear_is_known()).then_some(IF_REAR_STAYS)
}

const READS: [Row; 4] = [
    (Figure::FRAME_HEIGHT, |target| target.ride_height_mm),
    (Figure::CAMBER, |target| target.camber_rad),
    (Figure::CASTER_GROUND, |target| target.caster_rad),
    (Figure::TOE, |target| target.toe_rad),
];

fn text(
    ask: &Ask,
    first: &[(&str, String)],
    found: &Alignment,
    asked: &Setup,
    out: &mut impl Write,
) -> io::Result<()> {
    let (Ask { name, target, .. }, units) = (ask, asked.printed.units());
    writeln!(out, "{name}, set up\n")?;
    for (_, said) in first {
        writeln!(out, "{said}\n")?;
    }
    let (footing, found) = (footing(found), &found.setting);
    let lines = lines(found, units);
    list(&footing, found, asked, out)?;
    writeln!(out)?;
    list(&lines, found, asked, out)?;
    let mut rows = vec![["", "wanted", "reads", "off"].map(str::to_owned).to_vec()];
    let off = found.reads.less(target);
    for (figure, of) in READS {
        let words = |target: &Target| Sort::from(figure.sort()).words(of(target), units);
        let reads = |target: &Target| marked(words(target), is_guess(&[figure], found));
        let rear = said_of_rear(figure, found).map_or(String::new(), |said| format!(", {said}"));
        rows.push(vec![figure.label() + &rear, words(target), reads(&found.reads), reads(&off)]);
    }
    writeln!(out)?;
    aligned(&rows, out)?;
    if let Some(said) = guess_in_words(found, footing.iter().chain(&lines)) {
        writeln!(out, "\n~ {said}")?;
    }
    for reason in &found.bounds {
        writeln!(out, "\n{}", bound_in_words(reason))?;
    }
    let (front, rear) = found.thumb_mm;
    let shim = |mm: f64| marked(Sort::Shim.words(mm, units), is_guess(Setting::SHIMS, found));
    writeln!(out, "\nBy the rule of thumb of the trade: {} front, {} rear.", shim(front), shim(rear))?;
    writeln!(out)
}

/// What is said once, of all sides that are set up.
fn closing(
    design: &Design,
    choice: Choice,
    found: &[Alignment],
    asked: &Setup,
    out: &mut impl Write,
) -> io::Result<()> {
    let last = found.last().map(|found| &found.setting);
    if last.is_some_and(|found| !found.alone) && asked.one.side() == Side::Right {
        writeln!(out, "For the right to read so both sides are set alike; --each-side sets each alone.")?;
    } else if let Some(code) = last.and_then(|found| code(design, choice, found)) {
        writeln!(out, "As a plan: {code}")?;
    }
    writeln!(out)?;
    for caution in CAUTIONS {
        writeln!(out, "{caution}")?;
    }
    Ok(())
}

/// Lines with their amounts ranged right.
fn list(lines: &[Line], found: &Setting, asked: &Setup, out: &mut impl Write) -> io::Result<()> {
    let amount = |line: &Line| marked(shown(Some(&line.value), &asked.printed), is_guess(line.of, found));
    let amounts: Vec<_> = lines.iter().map(amount).collect();
    let width =
        |texts: &mut dyn Iterator<Item = &str>| texts.map(|text| text.chars().count()).max().unwrap_or(0);
    let first = width(&mut lines.iter().map(|line| line.label));
    let second = width(&mut amounts.iter().map(String::as_str));
    for (line, amount) in lines.iter().zip(&amounts) {
        let said = format!("{:<first$}   {amount:>second$}   {}", line.label, line.note);
        writeln!(out, "{}", said.trim_end())?;
    }
    Ok(())
}

/// The code of the design with the proposal as it is set up.
fn code(design: &Design, choice: Choice, found: &Setting) -> Option<String> {
    let (mut design, id) = match choice.proposal() {
        Some(id) => (design.clone(), id),
        None => {
            let id: ProposalId = design.free_id();
            (design.edited(&Edit::AddProposal("Set up".to_owned())).ok()?, id)
        }
    };
    design = design.edited(&Edit::SetAll(id, found.on_each())).ok()?;
    Some(to_code(&Shared { design, opening: Opening { proposal: Some(id), ..Opening::default() } }))
}

fn table(
    asks: &[Ask],
    found: &[Alignment],
    format: Format,
    asked: &Setup,
    order: &dyn Fn(Side) -> SetOrder,
    out: &mut impl Write,
) -> io::Result<()> {
    let headers = ["what", "unit", "amount", "wanted", "off", "note", "spread"].map(str::to_owned).to_vec();
    let mut table = Table::begin(out, format, headers)?;
    for (key, said) in first(asks, found, order, asked.printed.units()) {
        table.row(&said_row(key, &said))?;
    }
    for (ask, found) in asks.iter().zip(found) {
        // Of one side the keys are those that they always were.
        let of = if asks.len() == 1 { String::new() } else { ask.side.label().to_ascii_lowercase() + "_" };
        rows(&mut table, &of, &ask.target, found, asked, &spreads(&order(ask.side)))?;
    }
    for caution in CAUTIONS {
        table.row(&said_row("caution", caution))?;
    }
    table.end()
}

/// A row of words alone.
fn said_row(key: &str, said: &str) -> [Cell; 7] {
    let nothing = || Cell::Nothing;
    let words = |text: &str| Cell::Words(text.to_owned());
    [words(key), nothing(), nothing(), nothing(), nothing(), words(said), nothing()]
}

/// The rows of one side, whose keys begin with `of`.
fn rows(
    table: &mut Table<'_, impl Write>,
    of: &str,
    target: &Target,
    found: &Alignment,
    asked: &Setup,
    spreads: &SetSpreads,
) -> io::Result<()> {
    let units = asked.printed.units();
    let unit = |sort: Sort| sort.suffix(units).map_or(Cell::Nothing, |unit| Cell::Words(unit.to_owned()));
    let words = |text: &str| Cell::Words(text.to_owned());
    let key = |key: &str| of.to_owned() + key;
    let wished = Value::Figure(Sort::Length, Some(found.bump_mm));
    let lines: Vec<_> = footing(found).into_iter().chain(lines(&found.setting, units)).collect();
    for line in &lines {
        let unit = match line.value {
            Value::Figure(sort, _) => unit(sort),
            Value::Words(_) => Cell::Nothing,
        };
        let amount = data(Some(&line.value), &asked.printed);
        let wanted =
            if line.key == "bump_left" { data(Some(&wished), &asked.printed) } else { Cell::Nothing };
        let guess = if is_guess(line.of, &found.setting) { " ~ rests on a guess" } else { "" };
        let note = line.note.clone() + guess;
        let note = words(note.trim_start());
        let seen = SET.iter().position(|key| *key == line.key).and_then(|at| spreads.seen(at));
        let spread = match (&line.value, seen) {
            (Value::Figure(sort, _), Some(by)) => data(Some(&Value::Figure(*sort, Some(by))), &asked.printed),
            _ => Cell::Nothing,
        };
        table.row(&[words(&key(line.key)), unit, amount, wanted, Cell::Nothing, note, spread])?;
    }
    let found = &found.setting;
    let off = found.reads.less(target);
    let number =
        |sort: Sort, value: f64| Cell::Number(sort.fixed(value, units, asked.printed.data_decimals()));
    for (figure, of) in READS {
        let sort = Sort::from(figure.sort());
        let cells = [&found.reads, target, &off].map(|target| number(sort, of(target)));
        let [reads, wanted, off] = cells;
        let guess = is_guess(&[figure], found).then_some("~ rests on a guess");
        let said: Vec<_> = said_of_rear(figure, found).into_iter().chain(guess).collect();
        let note = if said.is_empty() { Cell::Nothing } else { Cell::Words(said.join(" ")) };
        let row = [words(&key(&figure.key())), unit(sort), reads, wanted, off, note, Cell::Nothing];
        table.row(&row)?;
    }
    if let Some(said) = guess_in_words(found, lines.iter()) {
        table.row(&said_row(&key("guessed"), said))?;
    }
    for reason in &found.bounds {
        table.row(&said_row(&key("out_of_reach"), &bound_in_words(reason)))?;
    }
    Ok(())
}
