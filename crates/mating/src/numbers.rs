//! The numbers of a row as its rule reads them.

use truck::callouts::width::MOVES;
use truck::{Entry, Mating, Row, Tool};

/// The most numbers that a kind has.
pub(super) const MOST_CALLOUTS: u8 = 28;

/// The numbers of a row that are there, each with its tool.
#[derive(Clone, Debug)]
pub struct Numbers {
    kind: Mating,
    values: [Option<f64>; MOST_CALLOUTS as usize],
    tools: [Option<Tool>; MOST_CALLOUTS as usize],
}

impl Numbers {
    /// Those of a row, whoever took them.
    #[must_use]
    pub fn of(row: &Row) -> Self {
        let kind = row.kind();
        let mut numbers = Self { kind, values: Default::default(), tools: Default::default() };
        for (callout, entry) in row.entries() {
            let Some(sort) = kind.callout(*callout).map(|callout| callout.sort) else { continue };
            numbers.values[usize::from(*callout)] = Some(Entry::value(entry, sort));
            numbers.tools[usize::from(*callout)] = Some(entry.tool);
        }
        if let Some(moves) = row.moves() {
            numbers.values[usize::from(MOVES)] = Some(f64::from(moves));
        }
        numbers
    }

    /// A number, mm, N/mm² or how many.
    #[must_use]
    pub fn get(&self, callout: u8) -> Option<f64> {
        self.values.get(usize::from(callout)).copied().flatten()
    }

    /// Several numbers; `None` where one is missing.
    pub(super) fn all<const N: usize>(&self, callouts: [u8; N]) -> Option<[f64; N]> {
        let mut found = [0.0; N];
        self.fill(&mut found, &callouts).then_some(found)
    }

    /// Puts several numbers where they are wanted; false where one is missing.
    #[inline(never)]
    fn fill(&self, wanted: &mut [f64], callouts: &[u8]) -> bool {
        wanted.iter_mut().zip(callouts).all(|(wanted, callout)| match self.get(*callout) {
            Some(value) => {
                *wanted = value;
                true
            }
            None => false,
        })
    }

    /// Which of a few.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in a short list")]
    pub(super) fn choice(&self, callout: u8) -> Option<usize> {
        self.get(callout).map(|value| value as usize)
    }

    /// What a number was taken by.
    #[must_use]
    pub fn tool(&self, callout: u8) -> Option<Tool> {
        self.tools.get(usize::from(callout)).copied().flatten()
    }

    /// How far below and above the truth of a size may lie, mm; `None` of what is no size, or not there.
    pub(super) fn spread(&self, callout: u8) -> Option<(f64, f64)> {
        let sort = self.kind.callout(callout).map(|callout| callout.sort).filter(|sort| sort.is_size())?;
        self.tool(callout).map(|tool| tool.spread_mm(sort))
    }

    /// The same with one size moved.
    pub(super) fn moved(&self, callout: u8, by: f64) -> Self {
        let mut moved = self.clone();
        if let Some(value) = &mut moved.values[usize::from(callout)] {
            *value += by;
        }
        moved
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_room_here() {
        assert!(Mating::ALL.iter().all(|kind| kind.callouts().len() <= usize::from(MOST_CALLOUTS)));
    }
}
