//! `scrubline setup`: what to turn, shim and screw for a height and an alignment.

use crate::answers::Value;
use crate::arguments::{CasterChoice, Format, Setup};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::report::{CAUTIONS, aligned, data, shown};
use crate::source;
use crate::table::{Cell, Table};
use crate::trucks::{self, Choice};
use drawing::bound_in_words;
use sharing::{Opening, Shared, Units, to_code};
use std::io::{self, Write};
use study::{CasterBy, HeightBy, Setting, Steps, Target, setting};
use truck::{Design, Edit, ProposalId, Side};

/// One thing to set.
struct Line {
    key: &'static str,
    label: &'static str,
    value: Value,
    /// Which way, or of what it is made up.
    note: String,
}

/// Writes the setting.
pub(crate) fn run(asked: &Setup, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = match &asked.asked.proposal {
        Some(text) => Choice::named(design, text)?,
        None => Choice::from(shared.opening.proposal.or(design.proposals.first().map(|first| first.id))),
    };
    let side = asked.one.side();
    let name = format!("{}, {}", trucks::title(design), choice.name(design));
    let name = trucks::on_side(name, side);
    let rest = choice.rest(design, side).map_err(|sentence| Failure::at(name.clone(), sentence))?;
    let units = asked.printed.units();
    let now = Target::of(&rest);
    let target = Target {
        ride_height_mm: asked.height.map_or(now.ride_height_mm, |height| height.mm(units)),
        camber_rad: asked.camber.unwrap_or(now.camber_rad),
        caster_rad: asked.caster.unwrap_or(now.caster_rad),
        toe_rad: asked.toe.unwrap_or(now.toe_rad),
    };
    let caster_by = match asked.caster_by {
        CasterChoice::Shims => CasterBy::Shims,
        CasterChoice::StrutRod => CasterBy::StrutRod,
    };
    let steps = match units {
        Units::Inches => Steps::INCHES,
        Units::Millimetres => Steps::MILLIMETRES,
    };
    let changes = choice.id().and_then(|id| design.proposal(id)).map_or(&[][..], |found| &found.changes);
    let found = setting(&design.truck.on(side), changes, &target, caster_by, &steps)
        .map_err(|error| Failure::at(name.clone(), format!("{error}.")))?;
    match asked.format {
        Format::Text => text(&name, design, choice, &target, &found, asked, out)?,
        format => table(&target, &found, format, asked, out)?,
    }
    Ok(())
}

/// What to set, in the order of the work.
fn lines(found: &Setting, units: Units) -> Vec<Line> {
    let way = |value: f64, plus: &str, minus: &str| {
        if value == 0.0 {
            "as it is"
        } else if value > 0.0 {
            plus
        } else {
            minus
        }
        .to_owned()
    };
    let turns = |key, label, turns: Option<f64>, plus: &str, minus: &str| Line {
        key,
        label,
        value: Value::Figure(Sort::Count, turns),
        note: turns.map_or_else(|| "its thread is not stated".to_owned(), |turns| way(turns, plus, minus)),
    };
    let shims = |key, label, mm: f64| Line {
        key,
        label,
        value: Value::Figure(Sort::Shim, Some(mm)),
        note: packed(mm, units),
    };
    let mut list = Vec::new();
    match found.height {
        HeightBy::Anchor { turns: bolt, splines_anchor, splines_arm } => {
            let splines = |key, label, count: f64| {
                turns(key, label, Some(count), "splines, raised", "splines, let down")
            };
            list.push(splines("splines_anchor", "Bar, at the anchor", splines_anchor));
            list.push(splines("splines_arm", "Bar, at the arm", splines_arm));
            list.push(turns("bolt_turns", "Anchor's bolt", Some(bolt), "turns in", "turns out"));
        }
        HeightBy::Spacer(mm) => {
            let note = way(mm, "added", "taken out");
            list.push(Line {
                key: "spacer",
                label: "Coil's spacer",
                value: Value::Figure(Sort::Length, Some(mm)),
                note,
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
            found.strut_turns,
            "turns, longer",
            "turns, shorter",
        ));
    }
    list.push(turns("tie_turns", "Tie rod's sleeve", found.tie_turns, "turns, longer", "turns, shorter"));
    list
}

/// The shims that make a pack up, thickest first.
fn packed(mm: f64, units: Units) -> String {
    let sizes: &[(f64, &str)] = match units {
        Units::Inches => &[(25.4 / 8.0, "1/8"), (25.4 / 16.0, "1/16"), (25.4 / 32.0, "1/32")],
        Units::Millimetres => &[(3.0, "3"), (2.0, "2"), (1.0, "1"), (0.5, "0.5")],
    };
    let mut left = mm.abs();
    let mut pack = Vec::new();
    for (size, name) in sizes {
        while left > size - 0.05 {
            left -= size;
            pack.push(*name);
        }
    }
    match (pack.is_empty(), mm > 0.0) {
        (true, _) => "as it is".to_owned(),
        (false, true) => format!("add {}", pack.join(" + ")),
        (false, false) => format!("take out {}", pack.join(" + ")),
    }
}

/// What is read: key, label, sort, and of each target its number.
type Row = (&'static str, &'static str, Sort, fn(&Target) -> f64);

const READS: [Row; 4] = [
    ("ride_height", "Ride height, frame", Sort::Length, |target| target.ride_height_mm),
    ("camber", "Camber", Sort::Angle, |target| target.camber_rad),
    ("caster_ground", "Caster, against the ground", Sort::Angle, |target| target.caster_rad),
    ("toe", "Toe of this wheel", Sort::Angle, |target| target.toe_rad),
];

fn text(
    name: &str,
    design: &Design,
    choice: Choice,
    target: &Target,
    found: &Setting,
    asked: &Setup,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.printed.units();
    writeln!(out, "{name}, set up\n")?;
    let lines = lines(found, units);
    let amounts: Vec<_> = lines.iter().map(|line| shown(Some(&line.value), &asked.printed)).collect();
    let width =
        |texts: &mut dyn Iterator<Item = &str>| texts.map(|text| text.chars().count()).max().unwrap_or(0);
    let first = width(&mut lines.iter().map(|line| line.label));
    let second = width(&mut amounts.iter().map(String::as_str));
    for (line, amount) in lines.iter().zip(&amounts) {
        writeln!(out, "{:<first$}   {amount:>second$}   {}", line.label, line.note)?;
    }
    let mut rows = vec![["", "wanted", "reads", "off"].map(str::to_owned).to_vec()];
    let off = found.reads.less(target);
    for (_, label, sort, of) in READS {
        let words = |target: &Target| sort.words(of(target), units);
        rows.push(vec![label.to_owned(), words(target), words(&found.reads), words(&off)]);
    }
    writeln!(out)?;
    aligned(&rows, out)?;
    for reason in &found.bounds {
        writeln!(out, "\n{}", bound_in_words(reason))?;
    }
    let (front, rear) = found.thumb_mm;
    let shim = |mm: f64| Sort::Shim.words(mm, units);
    writeln!(out, "\nBy the rule of thumb of the trade: {} front, {} rear.", shim(front), shim(rear))?;
    if asked.one.side() == Side::Right {
        writeln!(out, "For the right side alone: what a proposal sets lies over both sides.")?;
    } else if let Some(code) = code(design, choice, found) {
        writeln!(out, "As a proposal: {code}")?;
    }
    writeln!(out)?;
    for caution in CAUTIONS {
        writeln!(out, "{caution}")?;
    }
    Ok(())
}

/// The code of the design with the proposal as it is set up.
fn code(design: &Design, choice: Choice, found: &Setting) -> Option<String> {
    let (mut design, id) = match choice.id() {
        Some(id) => (design.clone(), id),
        None => {
            let id: ProposalId = design.free_id();
            (design.edited(&Edit::AddProposal("Set up".to_owned())).ok()?, id)
        }
    };
    design = design.edited(&Edit::SetAll(id, found.changes.clone())).ok()?;
    Some(to_code(&Shared { design, opening: Opening { proposal: Some(id), ..Opening::default() } }))
}

fn table(
    target: &Target,
    found: &Setting,
    format: Format,
    asked: &Setup,
    out: &mut impl Write,
) -> io::Result<()> {
    let units = asked.printed.units();
    let headers = ["what", "unit", "amount", "wanted", "off", "note"].map(str::to_owned).to_vec();
    let mut table = Table::begin(out, format, headers)?;
    let unit = |sort: Sort| sort.suffix(units).map_or(Cell::Nothing, |unit| Cell::Words(unit.to_owned()));
    for line in lines(found, units) {
        let Value::Figure(sort, _) = line.value else { continue };
        let key = Cell::Words(line.key.to_owned());
        let amount = data(Some(&line.value), &asked.printed);
        table.row(&[key, unit(sort), amount, Cell::Nothing, Cell::Nothing, Cell::Words(line.note)])?;
    }
    let off = found.reads.less(target);
    let number =
        |sort: Sort, value: f64| Cell::Number(sort.fixed(value, units, asked.printed.data_decimals()));
    for (key, _, sort, of) in READS {
        let cells = [&found.reads, target, &off].map(|target| number(sort, of(target)));
        let [reads, wanted, off] = cells;
        table.row(&[Cell::Words(key.to_owned()), unit(sort), reads, wanted, off, Cell::Nothing])?;
    }
    for reason in &found.bounds {
        let nothing = || Cell::Nothing;
        let words = |text: String| Cell::Words(text);
        table.row(&[
            words("out_of_reach".to_owned()),
            nothing(),
            nothing(),
            nothing(),
            nothing(),
            words(bound_in_words(reason)),
        ])?;
    }
    table.end()
}
