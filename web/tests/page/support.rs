//! A truck to drag on, and drags over it.

use drawing::{Aspect, Handle};
use linkage::{Corner, Pose};
use page::sketch::gesture::{Meaning, Snap, Start, meaning};
use study::Rest;
use truck::{Design, Edit, ProposalId, Side};

/// The demo truck's proposal.
pub(crate) const PROPOSAL: ProposalId = ProposalId(0);

/// Handles of the front view that a proposal moves; the others belong to the truck as measured.
pub(crate) const PROPOSED: [Handle; 7] = [
    Handle::LowerAxis,
    Handle::UpperAxis,
    Handle::WheelCentre,
    Handle::LowerBall,
    Handle::UpperBall,
    Handle::TieInner,
    Handle::TieOuter,
];

/// The demo truck with numbers that are no whole steps of any snapping.
pub(crate) fn uneven() -> Design {
    let design = truck::demo();
    let numbers = truck::Field::ALL
        .iter()
        .filter(|field| field.kind() == truck::Kind::Length && !field.is_optional())
        .enumerate()
        .map(|(at, field)| {
            let odd = [0.13, -0.29, 0.37, -0.41, 0.07][at % 5];
            (*field, field.get(&design.truck).unwrap() + odd)
        });
    design.edited(&Edit::MeasureAll(numbers.collect())).unwrap()
}

/// The truck as measured, at a travel, mm, + bump.
pub(crate) fn measured_at(design: &Design, travel_mm: f64) -> (Rest, Pose) {
    let rest = Rest::of(design.as_measured()).unwrap();
    let pose = rest.at_travel(travel_mm).unwrap();
    (rest, pose)
}

/// A drag on the truck as measured.
pub(crate) fn on_measured(design: &Design, handle: Handle, posed: Option<(Corner, Pose)>) -> Start {
    Start { aspect: Aspect::Front, handle, proposal: None, side: Side::Left, design: design.clone(), posed }
}

/// A drag on the proposal.
pub(crate) fn on_proposal(design: &Design, handle: Handle) -> Start {
    let rest = Rest::of(design.fitted(PROPOSAL).unwrap()).unwrap();
    let posed = Some((rest.corner, rest.pose));
    let side = Side::Left;
    Start { aspect: Aspect::Front, handle, proposal: Some(PROPOSAL), side, design: design.clone(), posed }
}

/// The same drag on another picture.
pub(crate) fn from(aspect: Aspect, start: Start) -> Start {
    Start { aspect, ..start }
}

/// The edit of a movement that means one.
pub(crate) fn edit(start: &Start, out_mm: f64, up_mm: f64, snap: Snap) -> Edit {
    match meaning(start, out_mm, up_mm, snap) {
        Meaning::Edit(edit, _) => edit,
        Meaning::Fixed(why) => panic!("{:?} does not move: {why}", start.handle),
    }
}

/// The design after a movement.
pub(crate) fn dragged(start: &Start, out_mm: f64, up_mm: f64, snap: Snap) -> Design {
    start.design.edited(&edit(start, out_mm, up_mm, snap)).unwrap()
}
