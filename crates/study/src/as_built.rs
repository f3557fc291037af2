//! The truck as it was built, beside what a proposal says of it.
//!
//! Like is compared with like: how much what was read has changed, with how much the model says the parts
//! change it. Of an answer that was not read as it sat there is only the model's own, as poor as its tape.
//! A verdict needs a margin over both tools and the model; where together they are worth less than a quarter
//! of what matters nothing is told, for a poor tape would pass anything.

mod cause;
mod search;
mod weigh;

pub use cause::{Cause, CauseFound};
pub use search::AsBuiltSearch;

use crate::clearance::{Pair, TIGHT_MM};
use truck::{Design, Readable, Reading, Side};

/// The least share of what matters that must be seen for anything to be told.
const SEEN: f64 = 0.25;

/// A truck as it was built, at one side.
#[derive(Clone, Debug, PartialEq)]
pub struct AsBuilt {
    /// What was read, in the order of [`Readable`].
    pub rows: Vec<BuiltRow>,
    /// What was read before, as it sat or when the work was done, and not when it was read last.
    pub unread: Vec<Readable>,
    /// Where an answer is outside, or near the limit: what alone would make all that was read so, the likeliest
    /// first, with everything that the readings do not tell from it. Nothing where no one thing would.
    pub causes: Vec<CauseFound>,
    /// What would tell those causes apart best, of what was read as it sat and not as built.
    pub tells: Option<Readable>,
}

/// An answer that was read as built. Core units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BuiltRow {
    /// Of what.
    pub of: Readable,
    /// What was read.
    pub read: f64,
    /// How far off that may be either way.
    pub tolerance: f64,
    /// What was read as it sat, and how far off that may be either way, with which what the parts change is what
    /// is planned; `None` where it was not: then that is what the model makes of the proposal.
    pub before: Option<(f64, f64)>,
    /// Of a truck that was read again once it had settled: what was read when the work was done, and how far off
    /// that may be either way; `None` where it was not.
    pub earlier: Option<(f64, f64)>,
    /// What the proposal comes to; `None` where a number that it needs is not stated.
    pub planned: Option<f64>,
    /// How far off the difference of the two may be either way; `None` where that is not known.
    pub spread: Option<f64>,
    /// Whether what is planned rests on a guess.
    pub is_guess: bool,
    /// What is thought of it.
    pub verdict: BuiltVerdict,
}

/// What is thought of an answer as built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuiltVerdict {
    /// As planned, within what matters.
    Inside,
    /// Not as planned.
    Outside,
    /// Too near to tell, by what it was read with or by what is known of the truck.
    CannotTell,
}

impl AsBuilt {
    /// Whether anything is off, for which there should be a cause.
    #[must_use]
    pub fn is_off(&self) -> bool {
        self.rows.iter().any(BuiltRow::is_off)
    }
}

impl BuiltRow {
    /// What was read of an answer, before anything is known of it; `before` with how far off it may be.
    fn of(of: Readable, reading: &Reading, before: Option<(f64, f64)>) -> Self {
        Self {
            of,
            read: reading.answer(),
            tolerance: reading.answer_tolerance(),
            before,
            earlier: None,
            planned: None,
            spread: None,
            is_guess: false,
            verdict: BuiltVerdict::CannotTell,
        }
    }

    /// How much more was read than the proposal comes to.
    #[must_use]
    pub fn off(&self) -> Option<f64> {
        Some(self.read - self.planned?)
    }

    /// How much more was read than when the work was done, and how far off that may be either way: the root of the
    /// sum of both tools' squares (JCGM 100:2008, 5.1.2, both taken as independent).
    #[must_use]
    pub fn settled(&self) -> Option<(f64, f64)> {
        let (earlier, tolerance) = self.earlier?;
        let spread = (self.tolerance * self.tolerance + tolerance * tolerance).sqrt();
        Some((self.read - earlier, spread))
    }

    /// Whether two parts may touch, the stop may be stood on or the droop be at its end, for all that was read.
    #[must_use]
    pub fn may_touch(&self) -> bool {
        let has_an_end = matches!(self.of, Readable::StopDaylight | Readable::FenderAbove | Readable::Droop);
        (has_an_end || self.is_of_room()) && self.read <= self.tolerance
    }

    /// Whether two parts may be nearer than they should, for all that was read.
    #[must_use]
    pub fn is_tight(&self) -> bool {
        self.is_of_room() && self.read - self.tolerance < TIGHT_MM
    }

    /// Whether two parts are nearer than they should, whatever the tool was off by.
    #[must_use]
    pub fn is_too_close(&self) -> bool {
        self.is_of_room() && self.read + self.tolerance < TIGHT_MM
    }

    /// Whether it is the room of two parts.
    #[must_use]
    pub fn is_of_room(&self) -> bool {
        Pair::from_key(self.of.key()).is_some()
    }

    /// Whether it is outside, or near enough to that for it to be asked why.
    #[must_use]
    pub fn is_off(&self) -> bool {
        self.verdict == BuiltVerdict::Outside || self.is_near_the_limit()
    }

    /// Whether it is off for certain, and by about as much as matters, though nobody can say that it is outside.
    #[must_use]
    pub fn is_near_the_limit(&self) -> bool {
        let is_seen = self.spread.is_some_and(|spread| spread <= SEEN * matters(self.of));
        self.verdict == BuiltVerdict::CannotTell && is_seen && self.planned.is_some()
    }

    /// What is thought of it beside what is asked of a setting, whatever was planned: within its tolerance of its
    /// target for all that was read, or beyond it for all that was read.
    #[must_use]
    pub fn beside_what_is_asked(&self, target: f64, tolerance: f64) -> BuiltVerdict {
        // What is just within by hundredths of a degree is so whatever those are in radians.
        let off = (self.read - target).abs() - 1e-9;
        if off + self.tolerance <= tolerance {
            BuiltVerdict::Inside
        } else if off - self.tolerance > tolerance {
            BuiltVerdict::Outside
        } else {
            BuiltVerdict::CannotTell
        }
    }

    /// A row with what is thought of it.
    fn judged(mut self) -> Self {
        let matters = matters(self.of);
        self.verdict = match self.off().zip(self.spread) {
            Some((off, spread)) if off.abs() - spread > matters => BuiltVerdict::Outside,
            Some((off, spread)) if spread <= SEEN * matters && off.abs() + spread <= matters => {
                BuiltVerdict::Inside
            }
            _ => BuiltVerdict::CannotTell,
        };
        self
    }

    /// How well it would have to be read, both times where it was read before, for anything to be told, were the
    /// model exact; in the core's unit.
    #[must_use]
    pub fn tolerance_that_tells(&self) -> f64 {
        let shared = if self.before.is_some() { std::f64::consts::FRAC_1_SQRT_2 } else { 1.0 };
        SEEN * matters(self.of) * shared
    }
}

/// What was read of the finished truck, at both sides, each answer as it was read last: what is dangerous of it is
/// so whatever was planned, and whether the truck of the plan stands or not.
#[must_use]
pub fn read_as_built(design: &Design) -> Vec<(Side, BuiltRow)> {
    let mut rows = Vec::new();
    for side in Side::ALL {
        for of in Readable::ALL.iter().copied() {
            if let Some(reading) = design.settled.get(of, side).or_else(|| design.built.get(of, side)) {
                rows.push((side, BuiltRow::of(of, reading, None)));
            }
        }
    }
    rows
}

/// By how much an answer may be another one before it matters, mm or rad. Common practice, no source:
/// half an inch of height, an eighth of room, of the angles what shop manuals of the time let pass.
#[must_use]
pub fn matters(of: Readable) -> f64 {
    let degrees = |degrees: f64| degrees.to_radians();
    match of {
        Readable::FrameHeight | Readable::FenderAbove | Readable::Droop => 12.7,
        Readable::Camber => degrees(0.75),
        Readable::Toe => degrees(0.25),
        Readable::Caster | Readable::Inclination => degrees(1.0),
        _ => 3.175,
    }
}
