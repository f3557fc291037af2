//! What a stud that sits deeper in its seat does to the knuckle: its ball comes nearer along the stud.

use super::numbers::Numbers;
use super::{Verdict, verdict};
use truck::callouts::taper_seat::{SEAT_LARGE, STUD_ALONG, STUD_LARGE, STUD_SMALL};
use truck::{Change, ChangeKind, Design, Edit, KnuckleSwap, Ledger, RowId, Which};

/// The rows of both ball joints' studs in the knuckle, the upper one first.
pub const STUDS: [RowId; 2] = [RowId(4), RowId(5)];

/// How a stud sits in its seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seated {
    /// Deeper than with both large ends flush, mm.
    pub deeper_mm: f64,
    /// How far that may be off, k = 2, mm.
    pub within_mm: f64,
}

/// By how much the stud is thinner than its seat, over the taper.
fn deeper_mm(numbers: &Numbers) -> Option<f64> {
    let [large, along, small, seat] = numbers.all([STUD_LARGE, STUD_ALONG, STUD_SMALL, SEAT_LARGE])?;
    (large > small && along > 0.0).then(|| (seat - large) * along / (large - small))
}

/// How a ball joint's stud sits, where it mates by one's own numbers and the tools tell that it is
/// deeper than flush; `None` otherwise, and of any other row.
#[must_use]
pub fn seated(ledger: &Ledger, id: RowId) -> Option<Seated> {
    let row = ledger.row(id).filter(|_| STUDS.contains(&id))?;
    let answer = verdict(ledger, &row);
    if answer.verdict != Verdict::Mates || !answer.own {
        return None;
    }
    let numbers = Numbers::of(&row);
    let deeper = deeper_mm(&numbers)?;
    let mut squares = 0.0;
    for callout in [STUD_LARGE, STUD_ALONG, STUD_SMALL, SEAT_LARGE] {
        let (below, above) = numbers.spread(callout)?;
        let off = |by: f64| deeper_mm(&numbers.moved(callout, by)).map(|moved| moved - deeper);
        let most = off(-below)?.abs().max(off(above)?.abs());
        squares += most * most;
    }
    let within = 2.0 * libm::sqrt(squares / 3.0);
    (deeper > within).then_some(Seated { deeper_mm: deeper, within_mm: within })
}

/// The edit by which a proposal takes over how both studs sit, as another knuckle whose numbers are guesses: how the
/// old ones sat, and that both point at each other, nobody has measured. None where they tell
/// nothing, and over a knuckle that is there: its numbers were typed, with or without this.
#[must_use]
pub fn seated_knuckle(design: &Design, which: impl Into<Which>) -> Option<Edit> {
    let proposal = design.proposal(which.into().proposal()?)?;
    let every = proposal.every();
    let depths = STUDS.map(|id| seated(&design.ledger, id).map(|seated| seated.deeper_mm));
    if depths == [None; 2] || every.iter().any(|(_, change)| change.kind() == ChangeKind::KnuckleSwap) {
        return None;
    }
    let [upper_mm, lower_mm] = depths.map(Option::unwrap_or_default);
    let swap = KnuckleSwap::seated(&design.truck.points, upper_mm, lower_mm);
    Some(Edit::SetGuessed(proposal.id, Change::KnuckleSwap(swap).kept()?))
}

#[cfg(test)]
mod tests {
    use super::super::support::near;
    use super::*;
    use truck::callouts::taper_seat::{BLUE, NUT, PIN, ROCK, SEAT_ALONG, SEAT_SMALL};
    use truck::{LedgerEdit, ROWS, Tool, Whose, demo};

    /// A stud of 1:8 in a seat of 1:8, the large ends so far across, and all else well.
    fn written(id: RowId, stud: f64, seat: f64, tool: Tool, whose: Whose) -> Ledger {
        let along = 12.0;
        let numbers = [
            (STUD_LARGE, stud, tool),
            (STUD_ALONG, along, tool),
            (STUD_SMALL, stud - along / 8.0, tool),
            (SEAT_LARGE, seat, tool),
            (SEAT_ALONG, along, tool),
            (SEAT_SMALL, seat - along / 8.0, tool),
            (ROCK, 1.0, Tool::TriedOn),
            (BLUE, 1.0, Tool::MarkingBlue),
            (NUT, 1.0, Tool::Counted),
            (PIN, 1.0, Tool::Counted),
        ];
        numbers.into_iter().fold(Ledger::EMPTY, |ledger, (callout, value, tool)| {
            let whose = if callout == STUD_LARGE { whose } else { Whose::Own };
            ledger.edited(&LedgerEdit::Write { row: id, callout, value, tool, whose }).unwrap()
        })
    }

    /// By hand: 0.4 mm thinner in a taper of 1:8 is 3.2 mm deeper. A caliper is off by 0.05 at each
    /// size, which counts 8, 8 + 2.13, 2.13 and 0.27 times: in all 13.09 · 0.05 · 2/√3 = 0.756 mm, and a
    /// fiftieth more since each counts by its worse end.
    #[test]
    fn a_thinner_stud_sits_deeper_by_the_difference_over_the_taper() {
        for id in STUDS {
            let found = seated(&written(id, 17.6, 18.0, Tool::Caliper, Whose::Own), id).unwrap();
            near(found.deeper_mm, 3.2, 1e-9);
            near(found.within_mm, 0.756, 0.02);
        }
        let labels = STUDS.map(|id| ROWS[usize::from(id.0)].key());
        assert_eq!(labels, ["upper_stud", "lower_stud"]);
    }

    /// Nothing where the tools do not tell it from flush, where it stands proud, where a number is a guess
    /// or somebody else's, before the blue has passed it, and where no ball is on the stud's other end.
    #[test]
    fn what_is_not_known_offers_nothing() {
        let id = STUDS[0];
        let told = |ledger: &Ledger| seated(ledger, id);
        assert_eq!(told(&written(id, 17.95, 18.0, Tool::Caliper, Whose::Own)), None);
        assert_eq!(told(&written(id, 18.4, 18.0, Tool::Caliper, Whose::Own)), None);
        assert_eq!(told(&written(id, 17.6, 18.0, Tool::Caliper, Whose::Guessed)), None);
        assert_eq!(told(&written(id, 17.6, 18.0, Tool::Caliper, Whose::Stranger)), None);
        let own = written(id, 17.6, 18.0, Tool::Caliper, Whose::Own);
        assert!(told(&own).is_some());
        assert_eq!(told(&own.edited(&LedgerEdit::Erase(id, BLUE)).unwrap()), None);
        assert_eq!(told(&own.clone().came_by_link()), None);
        let tie = RowId(6);
        assert_eq!(seated(&written(tie, 17.6, 18.0, Tool::Caliper, Whose::Own), tie), None);
    }

    /// One edit on the plan that is named, and none over a knuckle that it has.
    #[test]
    fn a_plan_takes_it_over_once() {
        let mut design = demo();
        let id = design.proposals[0].id;
        assert_eq!(seated_knuckle(&design, id), None);
        design.ledger = written(STUDS[0], 17.6, 18.0, Tool::Caliper, Whose::Own);
        assert_eq!(seated_knuckle(&design, Which::AsMeasured), None);
        let edit = seated_knuckle(&design, id).unwrap();
        let Edit::SetGuessed(on, Change::KnuckleSwap(swap)) = edit else { panic!("{edit:?}") };
        assert_eq!(on, id);
        assert_eq!(swap, KnuckleSwap { balls_mm: -3.2, ..KnuckleSwap::default() });
        let next = design.edited(&edit).unwrap();
        assert_eq!(seated_knuckle(&next, id), None);
    }
}
