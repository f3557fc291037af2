//! What to measure next.

use super::numbers::Numbers;
use super::{Verdict, rule, verdict};
use truck::{CalloutSort, Ledger, Mating, Row, RowId, Tool, Whose};

/// The numbers to take next, of one row.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// In which row.
    pub row: RowId,
    /// Which, the one to begin with first.
    pub callouts: Vec<u8>,
    /// What the first of them is taken with.
    pub tool: Tool,
    /// Whether they could say no, before anything is bought; else they are what a yes lacks.
    pub may_refuse: bool,
}

/// The fewest numbers that could decide an open row: a possible *no* first.
///
/// Rows in which something was written come before rows of parts that are from another truck
/// or a shop, and those before the rest; of equals the one that stands first. Nothing where no
/// row is open.
#[must_use]
pub fn next(ledger: &Ledger) -> Option<Next> {
    let mut best: Option<((usize, usize), Next)> = None;
    for row in ledger.rows() {
        let answer = verdict(ledger, &row);
        let found = match answer.verdict {
            Verdict::NotAsked { .. } => asked(&row, &answer.missing),
            Verdict::TooNear { callout, tool } => {
                Some(Next { row: row.id(), callouts: vec![callout], tool, may_refuse: true })
            }
            _ => None,
        };
        let Some(found) = found else { continue };
        let by_both = usize::from(by_both(row.kind(), &found.callouts));
        let dear = found.callouts.len() + 50 * by_both + 100 * usize::from(!found.may_refuse);
        let rank = (distance(ledger, &row), dear);
        if best.as_ref().is_none_or(|(other, _)| rank < *other) {
            best = Some((rank, found));
        }
    }
    best.map(|(_, next)| next)
}

/// Whether it takes both parts in the hand: one of them may still be another truck's, or a shop's.
fn by_both(kind: Mating, callouts: &[u8]) -> bool {
    let sorts = callouts.iter().filter_map(|callout| kind.callout(*callout)).map(|callout| callout.sort);
    sorts.into_iter().any(|sort| matches!(sort, CalloutSort::Tried | CalloutSort::Blue))
}

/// How far a row is from what the person is about.
fn distance(ledger: &Ledger, row: &Row) -> usize {
    if !row.entries().is_empty() {
        0
    } else if row.parts().into_iter().any(|part| !ledger.is_kept(part)) {
        1
    } else {
        2
    }
}

/// The least of the sets that could refuse a row, or all that a yes lacks.
fn asked(row: &Row, missing: &[u8]) -> Option<Next> {
    let kind = row.kind();
    let is_own = |callout: &u8| row.entry(*callout).is_some_and(|entry| entry.whose == Whose::Own);
    let open = |set: &Vec<u8>| set.iter().copied().filter(|callout| !is_own(callout)).collect::<Vec<_>>();
    let sets = rule(kind, &Numbers::of(row)).refusals;
    let refusal =
        sets.iter().map(open).filter(|set| !set.is_empty()).min_by_key(|set| (by_both(kind, set), set.len()));
    let may_refuse = refusal.is_some();
    let callouts = refusal.unwrap_or_else(|| missing.to_vec());
    let tool = *kind.callout(*callouts.first()?)?.sort.tools().first()?;
    Some(Next { row: row.id(), callouts, tool, may_refuse })
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::callouts::spline;
    use truck::{LedgerEdit, Mating, Origin, Part, PartId, ROWS};

    fn row(key: &str) -> RowId {
        RowId::of_usual(key).unwrap()
    }

    fn wrote(ledger: &Ledger, row: RowId, callout: u8, value: f64, tool: Tool, whose: Whose) -> Ledger {
        ledger.edited(&LedgerEdit::Write { row, callout, value, tool, whose }).unwrap()
    }

    /// In the junkyard: teeth counted, the bar measured at home, the bracket in the hand. The bar that it
    /// comes off is the best gauge of it; where that is gone, its own valleys refuse as well.
    #[test]
    fn the_bracket_in_the_hand_is_asked_by_the_bar_that_came_out_of_it() {
        let bar = row("bar_in_bracket");
        let mut ledger = Ledger::EMPTY;
        for (callout, value, tool) in [
            (spline::TEETH, 36.0, Tool::Counted),
            (spline::TEETH_SOCKET, 36.0, Tool::Counted),
            (spline::OVER, 25.4, Tool::Caliper),
            (spline::ROCK, 1.0, Tool::TriedOn),
            (spline::ENGAGED, 1.0, Tool::Counted),
            (spline::TRIED, 1.0, Tool::TriedOn),
        ] {
            ledger = wrote(&ledger, bar, callout, value, tool, Whose::Own);
        }
        let asked = next(&ledger).unwrap();
        let expected =
            Next { row: bar, callouts: vec![spline::OLD_BAR], tool: Tool::Caliper, may_refuse: true };
        assert_eq!(asked, expected);
        let refused = wrote(&ledger, bar, spline::VALLEYS, 26.5, Tool::Caliper, Whose::Own);
        assert!(matches!(verdict(&refused, &refused.row(bar).unwrap()).verdict, Verdict::DoesNot(_)));
        assert_ne!(next(&refused).unwrap().row, bar, "what is decided is not asked again");
    }

    #[test]
    fn a_part_from_a_donor_is_asked_before_one_that_was_always_there() {
        let donor = Part { origin: Origin::Donor("a '79".to_owned()), ..Part::default() };
        let hose = PartId(ROWS[usize::from(row("hose").0)].parts[0]);
        let ledger = Ledger::EMPTY.edited(&LedgerEdit::Part(hose, donor)).unwrap();
        let asked = next(&ledger).unwrap();
        assert!(ledger.row(asked.row).unwrap().parts().contains(&hose), "{asked:?}");
        assert!(next(&Ledger::EMPTY).unwrap().callouts.len() == 1);
    }

    /// A number that is guessed or someone's is still to be taken.
    #[test]
    fn a_guess_is_still_asked() {
        let ledger = wrote(&Ledger::EMPTY, row("hose"), 0, 450.0, Tool::Tape, Whose::Guessed);
        let answer = verdict(&ledger, &ledger.row(row("hose")).unwrap());
        assert!(answer.missing.contains(&0) && !answer.own);
        assert_eq!(next(&ledger).unwrap().row, row("hose"));
    }

    /// Every set that could refuse is of numbers that the kind has.
    #[test]
    fn every_kind_can_say_no() {
        for kind in Mating::ALL {
            let empty = ledger_row(*kind);
            let sets = rule(*kind, &Numbers::of(&empty)).refusals;
            assert!(!sets.is_empty() && sets.iter().all(|set| !set.is_empty()), "{kind:?}");
            assert!(sets.iter().flatten().all(|callout| kind.callout(*callout).is_some()));
        }
    }

    fn ledger_row(kind: Mating) -> Row {
        Ledger::EMPTY.rows().into_iter().find(|row| row.kind() == kind).unwrap()
    }
}
