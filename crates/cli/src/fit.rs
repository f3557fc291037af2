//! `scrubline fit`: which numbers of the truck agree best with what was read off it.

use crate::arguments::{Fit as Asked, FitFormat};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::trucks::{self, Choice};
use measure::Units;
use measure::{MM_PER_INCH, print_angle, print_number};
use sharing::Shared;
use std::io::{self, Write};
use study::{Disagreement, Input, Moved, PointFit, PointFitting, Trial};
use truck::{Field, Kind, Readable};

/// Writes what the readings move, or the file with its numbers moved.
pub(crate) fn run(asked: &Asked, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.design.as_deref())?;
    let (design, side) = (&shared.design, asked.one.side());
    let place = || trucks::on_side(trucks::title(design).to_owned(), side);
    let trial = Trial::new(&design.truck, design.overlay(Choice::AsMeasured));
    let read = |trial: &Trial, figures: &[study::Figure]| trial.values(side, figures);
    let found = PointFitting::new(&trial, side).and_then(|fitting| fitting.finish(&read));
    let fit = found.map_err(|why| Failure::at(place(), format!("{why}.")))?;
    if let (FitFormat::Json, Some(why)) = (asked.format, fit.disagreement) {
        // What cannot be so is moved to by nobody who has not seen it.
        return Err(Failure::at(place(), disagreement(why)));
    }
    match asked.format {
        FitFormat::Text => text(&place(), &fit, asked.units.units(), out)?,
        FitFormat::Json => {
            let design = design.edited(&fit.edit(&design.truck));
            let design = design.map_err(|why| Failure::at(place(), why.to_string()))?;
            let fitted = Shared { design, ..shared.clone() };
            write!(out, "{}", sharing::print_json(&sharing::to_tree(&fitted)))?;
        }
    }
    Ok(())
}

fn disagreement(why: Disagreement) -> String {
    match why {
        Disagreement::Of(of) => {
            format!("{}: what was read is not what all else says. Read it again.", study_label(of))
        }
        Disagreement::Among => {
            "these disagree, with each other or with the tape: read them again.".to_owned()
        }
    }
}

fn study_label(of: Readable) -> String {
    study::Figure::of_reading(of).label()
}

fn text(title: &str, fit: &PointFit, units: Units, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{title}: the numbers that agree best with the tape and with what was read\n")?;
    if let Some(why) = fit.disagreement {
        writeln!(out, "Nothing is to be moved before this is mended: {}\n", disagreement(why))?;
    }
    for reading in &fit.readings {
        let of = reading.of;
        let value = |core: f64| value(of.kind(), core, units);
        writeln!(
            out,
            "{}: read {} ± {}; the points said {}, and would say {}",
            study_label(of),
            value(reading.read),
            fine(of.kind(), reading.tolerance, units),
            value(reading.before),
            value(reading.after)
        )?;
    }
    let (known, together): (Vec<_>, Vec<_>) = fit.moved.iter().partition(|moved| moved.is_known());
    list("\nThese were off:", &known, units, out)?;
    list("\nTogether these move; which one was off is not known:", &together, units, out)?;
    if fit.moved.iter().all(|moved| shown(moved, units).is_none()) {
        writeln!(out, "\nNothing moves by as much as anybody would see.")?;
    }
    Ok(())
}

fn list(head: &str, moved: &[&Moved], units: Units, out: &mut impl Write) -> io::Result<()> {
    let lines: Vec<_> = moved.iter().filter_map(|moved| shown(moved, units)).collect();
    if !lines.is_empty() {
        writeln!(out, "{head}")?;
    }
    for line in lines {
        writeln!(out, "  {line}")?;
    }
    Ok(())
}

/// A number that moves, by how much, and how far off it may still be; `None` where nobody would see it.
fn shown(moved: &Moved, units: Units) -> Option<String> {
    let (side, field) = match moved.input {
        Input::Number(field) => ("", field),
        Input::Right(field) => ("right: ", field),
        Input::Reading(..) | Input::Change(..) => return None,
    };
    let by = fine(field.kind(), moved.by.abs(), units);
    if by == fine(field.kind(), 0.0, units) {
        return None;
    }
    let sign = if moved.by < 0.0 { "−" } else { "+" };
    let remaining = fine(field.kind(), moved.tolerance_after, units);
    Some(format!("{side}{} {sign}{by}, now ± {remaining}", Field::label(field)))
}

fn value(kind: Kind, core: f64, units: Units) -> String {
    Sort::from(kind).words(core, units)
}

/// As finely as what moves is told.
fn fine(kind: Kind, core: f64, units: Units) -> String {
    match (kind, units) {
        (Kind::Angle, _) => print_angle(core, 2),
        (Kind::Length, Units::Inches) => print_number(core / MM_PER_INCH, 2) + " in",
        (Kind::Length, Units::Millimetres) => print_number(core, 1) + " mm",
        _ => print_number(core, 2),
    }
}
