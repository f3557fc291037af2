//! Whether parts go together, by what was measured of them, and in which order the work is done.
//!
//! | question | ask | answer |
//! |---|---|---|
//! | do two parts go together? | [`verdict`] | [`Answer`] |
//! | what is to be measured next? | [`next`] | [`Next`] |
//! | what does it do to the sketch? | [`moved`], [`take_over`] | [`Moved`], an edit |
//! | in which order is it done? | [`order_of_work`] | [`Task`](truck::Task)s |
//! | what was done too early? | [`done_early`] | [`Early`] |
//!
//! Each kind's rule says what is compared and how much room it has. What the tools leave
//! open is then laid over that room: `U` is the expanded uncertainty (k = 2) of the room,
//! every number's tool in it, a stated "no more than" taken as rectangular, a/√3 (JCGM
//! 100:2008, 4.3.7 and 6.2). A pair mates where the room is more than `U`, does not where it
//! is missing by more than `U`, and is too near to tell between; so a worse tool, whose `U` is
//! never smaller, never makes a yes easier.
//!
//! A guessed number or a stranger's may say no. It never says yes, and no work is offered on
//! it, nor on what steers, stops or carries a wheel.

mod circle;
mod early;
mod hole;
mod moved;
mod new_hole;
mod next;
mod numbers;
mod pattern;
mod placement;
mod press;
mod rule;
mod running;
mod sleeve;
mod spline;
mod taper;
mod thread;
mod width;
mod work;

pub use early::{Early, done_early};
pub use moved::{Moved, Moves, is_by_rows, moved, take_over};
pub use next::{Next, next};
pub use numbers::Numbers;
pub use press::{cold_mm, pressure_n_per_mm2, stress_area_mm2};
pub use rule::{Aspect, Finding, Scale, Work};
pub use work::{Circular, Jobs, due, order_of_work, order_of_work_with, sorted_tasks};

use numbers::MOST_CALLOUTS;
use rule::{Check, Proof, Rule};
use truck::{Ledger, Mating, PartId, ROWS, Row, Side, Tool, Whose};

/// What is to be said of a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// It mates by what was measured.
    Mates,
    /// It mates with this work, and what each leaves.
    WithWork(Vec<Work>),
    /// It does not, and what says so.
    DoesNot(Finding),
    /// Too near to tell with that tool.
    TooNear {
        /// The number that tells.
        callout: u8,
        /// The tool that it is to be taken with.
        tool: Tool,
    },
    /// Not asked yet: so many of so many numbers of one's own are there.
    NotAsked {
        /// How many are there.
        have: usize,
        /// How many it takes.
        of: usize,
    },
}

/// A row's verdict and what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What is to be said.
    pub verdict: Verdict,
    /// What was compared, as far as its numbers are there.
    pub findings: Vec<Finding>,
    /// Of these the one that the kind is known by, with least room; `None` where its numbers
    /// are not there.
    pub main: Option<Finding>,
    /// The numbers that are still asked for, the one to begin with first.
    pub missing: Vec<u8>,
    /// Whether everything that was written is the person's own.
    pub own: bool,
}

/// The rule of a kind: what is compared of the numbers that are there.
///
/// Which checks there are, and in which order, depends on which numbers are there and on
/// those that are one of a few, never on a size: they are compared one by one when the sizes
/// are moved about.
fn rule(kind: Mating, numbers: &Numbers) -> Rule {
    match kind {
        Mating::BoltInHole => hole::rule(numbers),
        Mating::HolePattern => pattern::rule(numbers),
        Mating::NewHole => new_hole::rule(numbers),
        Mating::CrushSleeve => sleeve::rule(numbers),
        Mating::PressFit => press::rule(numbers),
        Mating::RunningFit => running::rule(numbers),
        Mating::TaperSeat => taper::rule(numbers),
        Mating::Spline => spline::rule(numbers),
        Mating::Thread => thread::rule(numbers),
        Mating::Circle => circle::rule(numbers),
        Mating::RotorInCaliper => width::rotor(numbers),
        Mating::Width => width::rule(numbers),
        Mating::Hose => width::hose(numbers),
    }
}

/// What is to be said of a row of a ledger.
#[must_use]
pub fn verdict(ledger: &Ledger, row: &Row) -> Answer {
    let numbers = Numbers::of(row);
    let told = Told::of(row.kind(), &numbers);
    let own = row.entries().iter().all(|(_, entry)| entry.whose == Whose::Own);
    let is_own = |callout: u8| row.entry(callout).is_some_and(|entry| entry.whose == Whose::Own);
    let mut wanted = told.rule.needed.clone();
    wanted.retain(|callout| row.asks(*callout));
    for (callout, entry) in row.entries() {
        if entry.whose != Whose::Own && !wanted.contains(callout) {
            wanted.push(*callout);
        }
    }
    let missing: Vec<u8> = wanted.iter().copied().filter(|callout| !is_own(*callout)).collect();
    let verdict = if meet_across(ledger, row) {
        Verdict::DoesNot(Finding::fact(Aspect::Sides))
    } else {
        told.verdict(row.is_vital(), &wanted, &missing)
    };
    let of_kind = told.findings.iter().filter(|finding| finding.aspect.is_main());
    let main = of_kind.min_by(|one, other| one.room.total_cmp(&other.room)).copied();
    Answer { verdict, findings: told.findings, main, missing, own }
}

/// Whether a part that was made for the left meets one for the right in a row, be it by way of parts of
/// which no side is said: those of one corner all hang on each other, by the rows of the usual swap.
fn meet_across(ledger: &Ledger, row: &Row) -> bool {
    let side_of = |part: PartId| ledger.part(part).and_then(|part| part.side);
    let is_said = |side: Side| ledger.parts().iter().any(|(_, part)| part.side == Some(side));
    if !Side::ALL.into_iter().all(is_said) {
        return false;
    }
    let mut reached = row.parts().to_vec();
    let (mut at, mut met) = (0, None);
    while let Some(part) = reached.get(at).copied() {
        at += 1;
        match side_of(part) {
            Some(side) if met.is_some_and(|met| met != side) => return true,
            Some(side) => met = Some(side),
            None if part.is_shared() => {}
            None => {
                for usual in ROWS {
                    let parts = usual.parts;
                    for [here, other] in [parts, [parts[1], parts[0]]] {
                        if here == part.0 && !reached.contains(&PartId(other)) {
                            reached.push(PartId(other));
                        }
                    }
                }
            }
        }
    }
    false
}

/// A rule with what its tools leave open.
struct Told {
    rule: Rule,
    findings: Vec<Finding>,
    /// For each check the size that leaves most of it open.
    loosest: Vec<Option<u8>>,
}

impl Told {
    fn of(kind: Mating, numbers: &Numbers) -> Self {
        let base = rule(kind, numbers);
        let mut findings: Vec<Finding> = base.checks.iter().map(|check| check.finding).collect();
        let mut open = vec![(0.0_f64, 0.0_f64); findings.len()];
        let mut loosest = vec![(None, 0.0_f64); findings.len()];
        for callout in 0..MOST_CALLOUTS {
            let Some((below, above)) = numbers.spread(callout) else { continue };
            // A check that goes evenly with a size is at its most and least at the ends.
            let ends = if kind == Mating::HolePattern {
                // The best placement does not: it counts alike both ways, at its worst.
                let most = below.max(above);
                [-most, most]
            } else {
                [-below, above]
            };
            let moved = ends.map(|by| rule(kind, &numbers.moved(callout, by)).checks);
            let sizes = findings.iter().enumerate().filter(|(_, finding)| finding.scale != Scale::Fact);
            for (at, finding) in sizes {
                let rooms = moved.each_ref().map(|checks| checks[at].finding.room);
                let down = (finding.room - rooms[0].min(rooms[1])).max(0.0);
                let mut up = (rooms[0].max(rooms[1]) - finding.room).max(0.0);
                if finding.aspect == Aspect::Placement {
                    up = up.max(down);
                }
                open[at].0 += down * down;
                open[at].1 += up * up;
                if down.max(up) > loosest[at].1 {
                    loosest[at] = (Some(callout), down.max(up));
                }
            }
        }
        for (finding, (down, up)) in findings.iter_mut().zip(open) {
            // k = 2, and a/√3 for each.
            let expanded = |squares: f64| 2.0 * (squares / 3.0).sqrt();
            (finding.down, finding.up) = (expanded(down), expanded(up));
        }
        Self { rule: base, findings, loosest: loosest.into_iter().map(|(callout, _)| callout).collect() }
    }

    fn verdict(&self, vital: bool, wanted: &[u8], missing: &[u8]) -> Verdict {
        let fails = |check: &Check, finding: &Finding| {
            finding.room + finding.up + check.better.map_or(0.0, |(_, most)| most) < 0.0
        };
        let checks = || self.rule.checks.iter().zip(&self.findings);
        let failed: Vec<_> = checks().filter(|(check, finding)| fails(check, finding)).collect();
        let ready = !vital && missing.is_empty();
        let mut work = Vec::new();
        for (check, finding) in &failed {
            match check.work.filter(|_| ready) {
                Some(offered) if work.contains(&offered) => {}
                Some(offered) => work.push(offered),
                None => return Verdict::DoesNot(**finding),
            }
        }
        if let Some((callout, tool)) = self.rule.tells {
            return Verdict::TooNear { callout, tool };
        }
        if !missing.is_empty() {
            return Verdict::NotAsked { have: wanted.len() - missing.len(), of: wanted.len() };
        }
        // What only refuses passes by what was read, whatever its tool: so a worse one, which
        // refuses less, still passes no more.
        let enough = |proof: Proof, finding: &Finding| match proof {
            Proof::Measured => finding.room >= finding.down,
            Proof::Refuses => finding.room >= 0.0,
        };
        let near = checks()
            .zip(&self.loosest)
            .find(|((check, finding), _)| !fails(check, finding) && !enough(check.proof, finding));
        if let Some(((check, _), loosest)) = near {
            return match check.better {
                Some((callout, _)) => Verdict::TooNear { callout, tool: Tool::Caliper },
                None => self.nearer(*loosest),
            };
        }
        if self.rule.only_by_work && vital {
            return Verdict::DoesNot(Finding::fact(Aspect::Vital));
        }
        if !vital {
            work.extend(&self.rule.work);
        }
        if work.is_empty() {
            return Verdict::Mates;
        }
        Verdict::WithWork(work)
    }

    /// What tells where a size does not: the same by a better tool, or what the rule names.
    fn nearer(&self, loosest: Option<u8>) -> Verdict {
        let callout = loosest.unwrap_or_default();
        let tool = match self.rule.tool_of(callout) {
            Some(Tool::Tape | Tool::CaliperOnRust) => Tool::Caliper,
            Some(Tool::Caliper | Tool::Pin | Tool::Feeler) => Tool::Micrometer,
            _ => match self.rule.tried {
                Some(callout) => return Verdict::TooNear { callout, tool: Tool::TriedOn },
                None => Tool::Micrometer,
            },
        };
        Verdict::TooNear { callout, tool }
    }
}

#[cfg(test)]
mod support {
    use super::*;
    use truck::{AddedRow, LedgerEdit, RowId};

    /// The answer for a row of a kind with such numbers, all of them one's own.
    pub(super) fn answer(kind: Mating, vital: bool, numbers: &[(u8, f64, Tool)]) -> Answer {
        let id = RowId(RowId::FIRST_ADDED);
        let parts = [PartId(0), PartId(1)];
        let added = AddedRow { name: String::new(), kind, parts, vital };
        let ledger = Ledger::EMPTY.edited(&LedgerEdit::Row(id, added)).unwrap();
        let ledger = numbers.iter().fold(ledger, |ledger, (callout, value, tool)| {
            let edit = LedgerEdit::Write {
                row: id,
                callout: *callout,
                value: *value,
                tool: *tool,
                whose: Whose::Own,
            };
            ledger.edited(&edit).unwrap()
        });
        verdict(&ledger, &ledger.row(id).unwrap())
    }

    /// The aspect that says no.
    pub(super) fn refused(answer: &Answer) -> Aspect {
        match &answer.verdict {
            Verdict::DoesNot(finding) => finding.aspect,
            other => panic!("{other:?}"),
        }
    }

    pub(super) fn mates(answer: &Answer) -> bool {
        matches!(answer.verdict, Verdict::Mates)
    }

    pub(super) fn near(got: f64, want: f64, within: f64) {
        assert!((got - want).abs() <= within, "{got} is not {want} ± {within}");
    }
}
