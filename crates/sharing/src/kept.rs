//! What is shared as it arrives at whoever reads it.

use crate::shared::{Shared, name, note, put};
use crate::v1::defaults;
use truck::{Design, Field, MOST_PROPOSALS, Proposal};

impl Shared {
    /// The same as it arrives at the reader: numbers in whole steps and within
    /// their limits, text without control characters and not too long, the
    /// selected proposal one that exists.
    ///
    /// A design made by edits alone is already so, but for control characters
    /// in its text. A number that cannot be kept becomes the default.
    #[must_use]
    pub fn kept(&self) -> Self {
        let design = &self.design;
        let mut proposals: Vec<Proposal> = Vec::new();
        for proposal in design.proposals.iter().take(MOST_PROPOSALS) {
            if proposals.iter().any(|other| other.id == proposal.id) {
                continue;
            }
            let mut kept = Proposal::new(proposal.id, name(&proposal.name));
            kept.rear_down_mm = proposal.rear_down_mm.and_then(Proposal::accept_rear_down);
            for (side, change) in proposal.every() {
                // What each side has was there once.
                let _ = change.kept().and_then(|change| put(&mut kept, side, change));
            }
            kept.take_sources(proposal.sources.clone());
            proposals.push(kept);
        }
        let mut truck = design.truck.clone();
        for field in Field::ALL.iter().copied() {
            let value = field.get(&truck);
            let kept = value.and_then(|value| field.accept(value));
            field.put(
                &mut truck,
                if kept.is_some() == value.is_some() { kept } else { defaults::value(field) },
            );
        }
        truck.right = truck.right.kept();
        let ledger = design.ledger.clone().with_text(name);
        let (title, note, work) = (name(&design.title), note(&design.note), note(&design.work));
        let (built, settled) = (design.built.clone(), design.settled.clone());
        let design = Design { title, note, truck, proposals, ledger, built, settled, work };
        Self { opening: self.opening.kept(&design), design }
    }
}
