//! What sets one design apart from another.

use crate::change::{Change, ChangeKind, Place};
use crate::design::{Design, Proposal};
use crate::field::Field;
use crate::reading::{Readable, Reading};
use crate::rear::RearField;
use crate::side::Side;
use crate::spring::{Arm, SpringKind};

/// One thing in which two designs differ: what it is here, and what it is there.
#[derive(Clone, Debug, PartialEq)]
pub enum Difference {
    /// The title.
    Title(String, String),
    /// The note; it is long, so it is not repeated.
    Note,
    /// The kind of spring, or the arm that carries it.
    Spring((SpringKind, Arm), (SpringKind, Arm)),
    /// A number of the truck, in the core's unit; nothing where it is open.
    Number(Field, Option<f64>, Option<f64>),
    /// A number of the right, in the core's unit; nothing where it is as the left's.
    Right(Field, Option<f64>, Option<f64>),
    /// What was read off the truck as it sits, at a side; `None` where nothing was.
    Reading(Side, Readable, Option<Reading>, Option<Reading>),
    /// A number of the rear, in the core's unit; `None` where it is not stated.
    Rear(RearField, Option<f64>, Option<f64>),
    /// Where numbers came from: these are measured, typed or assumed here and something else there.
    Sources(Vec<Field>),
    /// A proposal that only the design here has, by its name.
    OnlyHere(String),
    /// A proposal that only the design there has, by its name.
    OnlyThere(String),
    /// A proposal that is called something else.
    Renamed(String, String),
    /// A change of a proposal, named as here, and the side that it is on alone; `None` where it is not made.
    Change(String, (Option<Side>, ChangeKind, Option<Place>), Option<Change>, Option<Change>),
    /// How far the rear of a proposal, named as here, comes down, mm; `None` where that is not stated.
    RearDown(String, Option<f64>, Option<f64>),
    /// Where numbers of the changes of a proposal, named as here, came from.
    ChangeSources(String),
    /// The proposals stand in another order.
    Order,
}

/// Everything in which `there` differs from `here`, the truck first, then the proposals.
///
/// Proposals are the same where their ids are. Two designs without a difference are equal.
#[must_use]
pub fn differences(here: &Design, there: &Design) -> Vec<Difference> {
    let mut all = Vec::new();
    if here.title != there.title {
        all.push(Difference::Title(here.title.clone(), there.title.clone()));
    }
    if here.note != there.note {
        all.push(Difference::Note);
    }
    let spring = |design: &Design| (design.truck.spring.kind, design.truck.spring.arm);
    let (mine, theirs) = (spring(here), spring(there));
    if mine != theirs {
        all.push(Difference::Spring(mine, theirs));
    }
    for field in Field::ALL {
        let (mine, theirs) = (field.get(&here.truck), field.get(&there.truck));
        if mine != theirs {
            all.push(Difference::Number(*field, mine, theirs));
        }
    }
    for field in Field::ALL {
        let (mine, theirs) = (here.truck.right.get(*field), there.truck.right.get(*field));
        if mine != theirs {
            all.push(Difference::Right(*field, mine, theirs));
        }
    }
    for side in Side::ALL {
        for of in Readable::ALL {
            let read = |design: &Design| design.truck.readings.get(*of, side).copied();
            let (mine, theirs) = (read(here), read(there));
            if mine != theirs {
                all.push(Difference::Reading(side, *of, mine, theirs));
            }
        }
    }
    for field in RearField::ALL {
        let (mine, theirs) = (here.truck.rear.get(field), there.truck.rear.get(field));
        if mine != theirs {
            all.push(Difference::Rear(field, mine, theirs));
        }
    }
    if here.truck.sources != there.truck.sources {
        let elsewhere = |field: &Field| here.truck.sources.of(*field) != there.truck.sources.of(*field);
        all.push(Difference::Sources(Field::ALL.iter().copied().filter(elsewhere).collect()));
    }
    for proposal in &here.proposals {
        match there.proposal(proposal.id) {
            Some(other) => of_proposal(proposal, other, &mut all),
            None => all.push(Difference::OnlyHere(proposal.name.clone())),
        }
    }
    let new = there.proposals.iter().filter(|proposal| here.proposal(proposal.id).is_none());
    all.extend(new.map(|proposal| Difference::OnlyThere(proposal.name.clone())));
    let order = |one: &Design, other: &Design| {
        let ids = one.proposals.iter().map(|proposal| proposal.id);
        ids.filter(|id| other.proposal(*id).is_some()).collect::<Vec<_>>()
    };
    if order(here, there) != order(there, here) {
        all.push(Difference::Order);
    }
    all
}

fn of_proposal(here: &Proposal, there: &Proposal, all: &mut Vec<Difference>) {
    if here.name != there.name {
        all.push(Difference::Renamed(here.name.clone(), there.name.clone()));
    }
    if here.rear_down_mm != there.rear_down_mm {
        all.push(Difference::RearDown(here.name.clone(), here.rear_down_mm, there.rear_down_mm));
    }
    if here.sources != there.sources {
        all.push(Difference::ChangeSources(here.name.clone()));
    }
    let (mine, theirs) = (here.every(), there.every());
    let at = |all: &[(Option<Side>, Change)], (side, change): &(Option<Side>, Change)| {
        let found = all.iter().find(|(of, other)| of == side && other.slot() == change.slot());
        found.map(|(_, change)| *change)
    };
    for one in mine.iter().chain(theirs.iter().filter(|one| at(&mine, one).is_none())) {
        let (kind, place) = one.1.slot();
        let (mine, theirs) = (at(&mine, one), at(&theirs, one));
        if mine != theirs {
            all.push(Difference::Change(here.name.clone(), (one.0, kind, place), mine, theirs));
        }
    }
}
