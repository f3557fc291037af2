//! A design: the truck as measured, and the proposals laid over it.

use crate::change::{Change, ChangeKind, ChangeSources, Place};
use crate::fit::{FitError, Fitted, Overlay, fit};
use crate::kind::Kind;
use crate::ledger::Ledger;
use crate::reading::Readings;
use crate::side::Side;
use crate::truck::Truck;

/// Most proposals in a design.
pub const MOST_PROPOSALS: usize = 3;

/// Everything a person has put in. A link or a file is one of these.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// What the design is called.
    pub title: String,
    /// What else is to be said.
    pub note: String,
    /// The truck as measured.
    pub truck: Truck,
    /// What might be done to it; at most [`MOST_PROPOSALS`].
    pub proposals: Vec<Proposal>,
    /// What meets what, and what was measured of it.
    pub ledger: Ledger,
    /// What was read off the truck once its work was done, whichever of the proposals that was.
    pub built: Readings,
    /// The same, read again once everything had settled, after 100 miles.
    pub settled: Readings,
    /// How far the work is, and the torques typed for it: a [`WorkLog`](crate::WorkLog) as `sharing` writes it,
    /// empty where nothing is written down. A file and the browser keep it, and no link carries it.
    pub work: String,
}

/// Names a proposal for as long as it lives; not its place in the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ProposalId(pub u8);

/// Which truck of a design: as measured, or with a proposal's parts on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The truck before any change.
    AsMeasured,
    /// With a proposal's parts on it.
    Proposal(ProposalId),
}

impl Which {
    /// The proposal's id, where it is one.
    #[must_use]
    pub const fn proposal(self) -> Option<ProposalId> {
        match self {
            Self::AsMeasured => None,
            Self::Proposal(id) => Some(id),
        }
    }
}

impl From<ProposalId> for Which {
    fn from(id: ProposalId) -> Self {
        Self::Proposal(id)
    }
}

impl From<Option<ProposalId>> for Which {
    fn from(id: Option<ProposalId>) -> Self {
        id.map_or(Self::AsMeasured, Self::Proposal)
    }
}

/// A named list of changes laid over the truck as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// By which it is selected.
    pub id: ProposalId,
    /// What it is called.
    pub name: String,
    /// The same on both sides: at most one in each slot, in the order of [`ChangeKind::ALL`] and [`Place::ALL`].
    pub(crate) changes: Vec<Change>,
    /// On one side alone, the left's first, ordered alike; in no slot that both have the same in.
    pub(crate) own: Vec<(Side, Change)>,
    /// How far the rear comes down, mm, + down, over the rear axle and square to the frame;
    /// `None` where that is not stated. Within [`Proposal::REAR_DOWN_LIMITS_MM`].
    pub rear_down_mm: Option<f64>,
    /// Where the numbers of its changes came from.
    pub sources: ChangeSources,
}

impl Design {
    /// The proposal with an id.
    #[must_use]
    pub fn proposal(&self, id: ProposalId) -> Option<&Proposal> {
        self.proposals.iter().find(|proposal| proposal.id == id)
    }

    /// The truck as measured, as the studies read it.
    #[must_use]
    pub fn as_measured(&self) -> Fitted {
        Fitted::as_measured(&self.truck)
    }

    /// The truck with a proposal's parts on it; as measured where no proposal has the id.
    ///
    /// # Errors
    /// As [`fit`].
    pub fn fitted(&self, id: ProposalId) -> Result<Fitted, FitError> {
        fit(&self.truck, self.overlay(id))
    }

    /// One side of the truck as measured.
    #[must_use]
    pub fn as_measured_on(&self, side: Side) -> Fitted {
        Fitted::as_measured(self.truck.on(side))
    }

    /// One side of the truck with a proposal's parts on it; as measured where no proposal has the id.
    ///
    /// # Errors
    /// As [`fit`].
    pub fn fitted_on(&self, id: ProposalId, side: Side) -> Result<Fitted, FitError> {
        fit(self.truck.on(side), self.overlay(id))
    }

    /// What a proposal lays over the truck; nothing where no proposal has the id, and as measured.
    #[must_use]
    pub fn overlay(&self, which: impl Into<Which>) -> Overlay<'_> {
        let proposal = which.into().proposal().and_then(|id| self.proposal(id));
        proposal.map_or(Overlay::NOTHING, Overlay::from)
    }

    /// Whether left and right differ in what was measured or read off, or in what a proposal lays over them.
    #[must_use]
    pub fn sides_differ(&self, which: impl Into<Which>) -> bool {
        let truck = &self.truck;
        let is_read = truck.readings.iter().any(|(side, ..)| *side == Side::Right);
        is_read || !truck.right.is_empty() || !self.overlay(which).is_for_both()
    }

    /// Whether a side of the finished truck was read again once it had settled.
    #[must_use]
    pub fn is_settled(&self, side: Side) -> bool {
        self.settled.iter().any(|(at, ..)| *at == side)
    }

    /// Whether a link can hold all of it: the numbers of the ledger, two for every reading beyond
    /// eight, and one for every number and every change of the rear, of another knuckle and of one side
    /// alone come to no more than [`Ledger::MOST_NUMBERS`].
    #[must_use]
    pub fn fits_a_link(&self) -> bool {
        let readings = self.truck.readings.len() + self.built.len() + self.settled.len();
        let readings = 2 * readings.saturating_sub(8);
        let of_change = |change: &Change| 1 + change.values().iter().flatten().count();
        let mut changes = 0;
        for proposal in &self.proposals {
            let late = |change: &&Change| change.kind().is_rear() || matches!(change, Change::KnuckleSwap(_));
            let late = proposal.changes.iter().filter(late);
            let own = proposal.own.iter().map(|(_, change)| change);
            changes += late.chain(own).map(of_change).sum::<usize>();
        }
        self.ledger.numbers() + readings + self.truck.rear.count() + changes <= Ledger::MOST_NUMBERS
    }

    /// The lowest id that no proposal has.
    #[must_use]
    pub fn free_id(&self) -> ProposalId {
        let taken = |id: &u8| self.proposal(ProposalId(*id)).is_some();
        ProposalId((0..=u8::MAX).find(|id| !taken(id)).unwrap_or(u8::MAX))
    }
}

impl Proposal {
    /// Whether another is the same under whatever id.
    #[must_use]
    pub fn is_but_for_id(&self, other: &Self) -> bool {
        let mut like = other.clone();
        like.id = self.id;
        *self == like
    }

    /// Least and greatest way that the rear can be said to come down, mm.
    pub const REAR_DOWN_LIMITS_MM: (f64, f64) = (-150.0, 300.0);

    /// How far the rear comes down as it is kept, mm; `None` outside the limits.
    #[must_use]
    pub fn accept_rear_down(value_mm: f64) -> Option<f64> {
        let (low, high) = Self::REAR_DOWN_LIMITS_MM;
        Kind::Length.rounded(value_mm).filter(|kept| low <= *kept && *kept <= high)
    }

    /// A proposal without changes.
    #[must_use]
    pub fn new(id: ProposalId, name: impl Into<String>) -> Self {
        let (changes, own, sources) = (Vec::new(), Vec::new(), ChangeSources::TYPED);
        Self { id, name: name.into(), changes, own, rear_down_mm: None, sources }
    }

    /// Its changes that are the same on both sides, in the order of [`ChangeKind::ALL`] and [`Place::ALL`].
    #[must_use]
    pub fn changes(&self) -> &[Change] {
        &self.changes
    }

    /// All its changes, each with the side that it is on alone, `None` on both: those on both sides first,
    /// then the left's.
    #[must_use]
    pub fn every(&self) -> Vec<(Option<Side>, Change)> {
        Overlay::from(self).every()
    }

    /// The change in a slot that is the same on both sides.
    #[must_use]
    pub fn change(&self, kind: ChangeKind, place: Option<Place>) -> Option<&Change> {
        self.changes.iter().find(|change| change.slot() == (kind, place))
    }

    /// The change in a slot of one side, whatever the other has.
    #[must_use]
    pub fn change_at(&self, side: Side, kind: ChangeKind, place: Option<Place>) -> Option<&Change> {
        let own = || self.own.iter().find(|(of, change)| *of == side && change.slot() == (kind, place));
        self.change(kind, place).or_else(|| own().map(|(_, change)| change))
    }

    /// Whether the sides differ in a slot.
    #[must_use]
    pub fn differs(&self, kind: ChangeKind, place: Option<Place>) -> bool {
        self.own.iter().any(|(_, change)| change.slot() == (kind, place))
    }

    /// Puts a change in its slot on both sides, in place of what stood there.
    pub fn set(&mut self, change: Change) {
        self.clear(change.kind(), change.place());
        let at = self.changes.partition_point(|other| other.rank() < change.rank());
        self.changes.insert(at, change);
    }

    /// Says what left and right have in a slot; what is the same is on both.
    pub fn set_each(&mut self, kind: ChangeKind, place: Option<Place>, each: [Option<Change>; 2]) {
        if let [Some(left), Some(right)] = each
            && left == right
        {
            return self.set(left);
        }
        self.clear(kind, place);
        for (side, change) in Side::ALL.into_iter().zip(each) {
            if let Some(change) = change {
                let rank = (side as usize, change.rank());
                let at = self.own.partition_point(|(of, other)| (*of as usize, other.rank()) < rank);
                self.own.insert(at, (side, change));
            }
        }
    }

    /// Empties a slot on both sides.
    pub fn clear(&mut self, kind: ChangeKind, place: Option<Place>) {
        self.changes.retain(|change| change.slot() != (kind, place));
        self.own.retain(|(_, change)| change.slot() != (kind, place));
    }
}

impl Change {
    /// Where it stands in a list.
    fn rank(&self) -> (Option<usize>, Option<Place>) {
        (ChangeKind::ALL.iter().position(|kind| *kind == self.kind()), self.place())
    }
}

impl<'a> From<&'a Proposal> for Overlay<'a> {
    fn from(proposal: &'a Proposal) -> Self {
        let Proposal { changes, own, rear_down_mm, sources, .. } = proposal;
        Self { changes, own, rear_down_mm: *rear_down_mm, sources }
    }
}
