//! Rear parts that keep a rake, by hand: a block lowers an axle on top of its springs by its height, and
//! takes as much of the way to the stop.

use super::nothing_but;
use crate::front_alone;
use study::{NoRear, NoRearWay, PartsTable, RearTable, Stance, Ways, Weights, rear_way};
use truck::{Change, Design, Edit, ProposalId, RearBlock, RearField};

/// An axle on top of its springs, with so much daylight under its stop; its springs are not measured,
/// so that shackles say nothing.
fn truck(stop_mm: f64, seat_mm: f64) -> Design {
    let numbers = [
        (RearField::FrameHeight, 470.0),
        (RearField::WheelRadius, 310.0),
        (RearField::Seat, seat_mm),
        (RearField::StopGap, stop_mm),
        (RearField::TubeGap, 160.0),
    ];
    let put = |design: Design, (field, value)| {
        design.edited(&Edit::MeasureRear(field, Some(value))).expect("it can be entered")
    };
    numbers.into_iter().fold(front_alone(), put)
}

fn block(height_mm: f64) -> Vec<Change> {
    vec![Change::RearBlock(RearBlock { height_mm, ..RearBlock::default() })]
}

fn found(design: &Design, down_mm: f64, bump_mm: f64) -> Result<(Vec<Change>, f64, f64), NoRearWay> {
    let way = rear_way(&design.truck, down_mm, bump_mm, &RearTable::default())?;
    Ok((way.changes, way.down_mm, way.bump_mm))
}

#[test]
fn a_block_is_found_that_brings_the_rear_down_as_far() {
    let (changes, down_mm, bump_mm) = found(&truck(110.0, -62.0), 50.8, 25.4).unwrap();
    assert_eq!(changes, block(50.8));
    assert!((down_mm - 50.8).abs() < 1e-9 && (bump_mm - 59.2).abs() < 1e-9, "{down_mm} {bump_mm}");
    // Between two blocks the nearer; and nothing where nothing is to come down.
    assert_eq!(found(&truck(110.0, -62.0), 55.0, 25.4).unwrap().0, block(50.8));
    assert_eq!(found(&truck(110.0, -62.0), 0.0, 25.4).unwrap().0, []);
}

/// 90 less 63.5 leaves 26.5, less 76.2 leaves 13.8: with two inches wished, 50.8 is left off too.
#[test]
fn what_leaves_too_little_travel_is_not_proposed() {
    assert_eq!(found(&truck(90.0, -62.0), 76.2, 25.4).unwrap().0, block(63.5));
    assert_eq!(found(&truck(90.0, -62.0), 50.8, 50.8).unwrap().0, block(38.1));
    let Err(NoRearWay::OutOfReach(Some(nearest), Some(barred))) = found(&truck(90.0, -62.0), 101.6, 25.4)
    else {
        panic!("no block comes near four inches")
    };
    assert_eq!((nearest.changes, barred.changes), (block(63.5), block(76.2)));
    assert_eq!(barred.answer, "Rear bump travel");
}

/// Under its springs a block raises: none is proposed, and the nearest is none at all.
#[test]
fn a_block_that_raises_is_not_proposed() {
    let Err(NoRearWay::OutOfReach(Some(nearest), _)) = found(&truck(110.0, 62.0), 50.8, 25.4) else {
        panic!("a block raises an axle under its springs")
    };
    assert_eq!((nearest.changes.len(), nearest.down_mm.abs() < 1e-9), (0, true));
}

#[test]
fn what_is_not_measured_is_named() {
    let unknown = rear_way(&front_alone().truck, 50.8, 25.4, &RearTable::default());
    assert_eq!(unknown, Err(NoRearWay::Rear(NoRear::NotStated(RearField::FrameHeight))));
    let open = truck(110.0, -62.0).edited(&Edit::MeasureRear(RearField::StopGap, None)).unwrap();
    let open = rear_way(&open.truck, 50.8, 25.4, &RearTable::default());
    assert_eq!(open, Err(NoRearWay::Rear(NoRear::NotStated(RearField::StopGap))));
}

/// By hand: where both ends come down alike, caster against the ground is what it was but for what the
/// front's own parts make of it, which a dropped spindle does not.
#[test]
fn a_way_with_the_rear_down_as_far_keeps_caster() {
    let design = truck(110.0, -62.0);
    let rear = rear_way(&design.truck, 50.8, 25.4, &RearTable::default()).unwrap().changes;
    let table = PartsTable { spindles_mm: vec![50.8], rear: rear.clone(), ..PartsTable::default() };
    let mut ways = Ways::new(&design.truck, nothing_but(50.8), Weights::default(), table).unwrap();
    assert!(ways.step(10));
    let [way] = ways.found() else { panic!("{:?}", ways.left_out().collect::<Vec<_>>()) };
    assert!(way.changes.ends_with(&rear), "{:?}", way.changes);
    assert!(way.caster_rad.abs() < 1e-6, "{}", way.caster_rad.to_degrees());
    // Laid on the truck, its rear comes down by its parts.
    let plan = design.edited(&Edit::TakeProposal(way.proposal("Both ends"))).unwrap();
    let id = plan.proposals.last().map(|proposal| proposal.id).unwrap_or(ProposalId(0));
    let stance = Stance::of_design(&plan, id.into()).unwrap();
    assert!(stance.nose_down_rad().abs() < 1e-4, "{}", stance.nose_down_rad());
}
