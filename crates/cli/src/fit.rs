//! `scrubline fit`: which numbers of the truck agree best with what was read off it.

use crate::arguments::{Fit as Asked, FitFormat};
use crate::failure::Failure;
use crate::source;
use crate::trucks::{self, Choice};
use drawing::{
    MEND_FIRST, NOTHING_MOVES, ONE_OF_THESE, THESE_WERE_OFF, disagreement_in_words, fitted_in_words,
    moved_in_words,
};
use measure::Units;
use sharing::Shared;
use std::io::{self, Write};
use study::{PointFit, PointFitting, Trial};

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
        return Err(Failure::at(place(), disagreement_in_words(why)));
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

fn text(title: &str, fit: &PointFit, units: Units, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{title}: the numbers that agree best with the tape and with what was read\n")?;
    if let Some(why) = fit.disagreement {
        writeln!(out, "{MEND_FIRST}{}\n", disagreement_in_words(why))?;
    }
    for reading in &fit.readings {
        writeln!(out, "{}", fitted_in_words(reading, units))?;
    }
    if fit.disagreement.is_some() {
        // Which number was off is not known either.
        return Ok(());
    }
    let all = moved_in_words(fit, units);
    for (head, lines) in [THESE_WERE_OFF, ONE_OF_THESE].into_iter().zip(&all) {
        if !lines.is_empty() {
            writeln!(out, "\n{head}")?;
        }
        for line in lines {
            writeln!(out, "  {line}")?;
        }
    }
    if all.iter().all(Vec::is_empty) {
        writeln!(out, "\n{NOTHING_MOVES}")?;
    }
    Ok(())
}
