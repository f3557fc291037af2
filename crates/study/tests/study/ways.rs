//! Ways down, against every combination asked of the public engine one by one.

mod by_hand;
mod certain;
mod misses;
mod rear;
mod room;

use by_hand::{Hand, all, parts, sorted, tried};
use study::{LeftOut, PartsTable, Rest, Ways, Weights, Wish};
use truck::{Change, Edit, ProposalId, SpringKind, TireSize, Truck, demo, fit};
use yardstick::budget::near;

pub(crate) const WISH: Wish = Wish {
    drop_mm: 63.5,
    within_mm: 4.0,
    bump_mm: 20.0,
    room_mm: 0.0,
    turning_mm: 0.0,
    flat_tire: false,
    shims: false,
    frequency_hz: (0.0, 9.0),
    rear_down_mm: None,
};

/// So much lower, and nothing else asked.
pub(crate) fn nothing_but(drop_mm: f64) -> Wish {
    Wish {
        drop_mm,
        bump_mm: 0.0,
        room_mm: -500.0,
        turning_mm: -500.0,
        flat_tire: false,
        shims: false,
        ..Wish::default()
    }
}

pub(crate) fn small() -> PartsTable {
    PartsTable {
        spindles_mm: vec![38.1, 50.8],
        turns: vec![-8.0, -6.0, -4.0, -3.0, -2.0],
        coils: vec![0.5, 1.0],
        trims_mm: vec![10.0],
        ..PartsTable::default()
    }
}

pub(crate) fn search(truck: &Truck, wish: Wish, table: PartsTable, slice: usize) -> Ways {
    let mut ways = Ways::new(truck, wish, Weights::default(), table).unwrap();
    while !ways.step(slice) {}
    ways
}

fn count(ways: &Ways, why: LeftOut) -> usize {
    ways.left_out().find(|(reason, _)| *reason == why).map_or(0, |(_, count)| count)
}

/// The same ways, at the same cost, and the same count of every reason, as by hand.
fn as_by_hand(truck: &Truck, wish: Wish, table: PartsTable) -> Ways {
    let by_hand = tried(truck, &wish, &table);
    let combinations = all(truck, &table).len();
    let ways = search(truck, wish, table, 7);
    assert_eq!(ways.total(), combinations);
    for why in LeftOut::ALL {
        let counted = by_hand.iter().filter(|tried| tried.why.is_some_and(|(of, _)| of == why)).count();
        assert_eq!(count(&ways, why), counted, "{why:?}");
    }
    let mut kept: Vec<_> = by_hand.iter().filter(|tried| tried.why.is_none()).collect();
    kept.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    assert_eq!(ways.found().len(), kept.len());
    for (way, by_hand) in ways.found().iter().zip(&kept) {
        near(way.cost, by_hand.cost, 1e-6, "cost");
        // Two of one cost may stand in either order.
        let same = kept.iter().any(|other| {
            (other.cost - way.cost).abs() < 1e-9 && sorted(&other.changes) == sorted(&way.changes)
        });
        assert!(same, "{:?} against {:?}", way.changes, by_hand.changes);
    }
    let left_out: usize = ways.left_out().map(|(_, count)| count).sum();
    assert_eq!(left_out + ways.found().len(), ways.total());
    ways
}

#[test]
fn the_search_finds_what_is_found_by_hand() {
    let bars = demo().truck;
    let mut coils = bars.clone();
    coils.spring.kind = SpringKind::Coil;
    // A spindle that tilts far with its knuckle does not lower by its drop alone.
    let mut high = small();
    high.spindles_mm.push(140.0);
    for (truck, wish, table) in [
        (&bars, WISH, small()),
        (&coils, WISH, small()),
        (&bars, Wish { drop_mm: 190.0, within_mm: 6.0, bump_mm: 0.0, turning_mm: -900.0, ..WISH }, high),
    ] {
        let ways = as_by_hand(truck, wish, table);
        assert!(count(&ways, LeftOut::Height) > 0);
    }
}

/// Every limit at once, on trucks of which one has little to spare under the scrub line
/// and one under its shims: something is left out for it, and something is not.
#[test]
fn every_limit_leaves_out_what_it_does_by_hand() {
    let mut low = demo().truck;
    low.low.z_mm = Some(155.0);
    let mut packed = demo().truck;
    packed.shims.most_mm = Some(6.0);
    let wish = Wish { within_mm: 8.0, turning_mm: 6.35, flat_tire: true, shims: true, ..WISH };
    let table = PartsTable { splines: vec![-1.0], turns: vec![-8.0, -7.0, -6.0, -4.0, 6.0, 8.0], ..small() };
    for (truck, limit) in [(low, LeftOut::FlatTire), (packed, LeftOut::Shims)] {
        let ways = as_by_hand(&truck, wish, table.clone());
        let left_out: Vec<_> = ways.left_out().collect();
        assert!(!ways.found().is_empty(), "{limit:?}: {left_out:?}");
        for why in [LeftOut::Height, limit] {
            assert!(count(&ways, why) > 0, "{why:?}: {left_out:?}");
        }
    }
}

/// Shims move the height a little: what is within the wish before they are in and not after
/// is of another height, and what is within it only after is none.
#[test]
fn what_is_set_up_is_asked_again() {
    let truck = demo().truck;
    let table = PartsTable { spindles_mm: vec![38.1], turns: vec![-6.0], ..PartsTable::default() };
    let hand = Hand::of(&truck, WISH);
    let picks = [Some(0), Some(0), None, None, None, None];
    let bare = hand.tries(picks, parts(&truck, &table, &picks), f64::INFINITY);
    let wish = Wish { drop_mm: bare.drop_mm, within_mm: 0.1, shims: true, ..WISH };
    let ways = as_by_hand(&truck, wish, table.clone());
    assert!(ways.found().is_empty(), "{:?}", ways.found());
    let ways = as_by_hand(&truck, Wish { within_mm: 1.0, ..wish }, table.clone());
    assert_eq!(ways.found().len(), 1);
    let drop_mm = ways.found()[0].drop_mm;
    assert!((drop_mm - bare.drop_mm).abs() > 0.1, "the shims move the height");
    let ways = search(&truck, Wish { drop_mm, ..wish }, table, 1);
    assert_eq!(ways.found().len(), 1);
}

/// Set up, the truck reads the toe it was measured with, not what the drop made of it,
/// and the camber. A sixteenth of a turn of a sleeve with two threads of 1.5 mm is 0.19 mm
/// on a steering arm of 120 mm, a tenth of a degree: half of it is what rounding leaves. A
/// shim of a thirty-second is a fifth of a degree by the trade's rule of thumb.
#[test]
fn a_way_that_is_shimmed_reads_camber_and_toe_as_measured() {
    let mut truck = demo().truck;
    truck.points.toe_rad = 0.15_f64.to_radians();
    truck.points.camber_rad = 0.3_f64.to_radians();
    truck.points.tie_inner.z += 25.0;
    let ways = search(&truck, Wish { shims: true, ..WISH }, small(), usize::MAX);
    assert!(!ways.found().is_empty());
    let mut fell = 0.0_f64;
    for way in ways.found() {
        let rest = Rest::of(fit(&truck, &way.changes).unwrap()).unwrap();
        near(rest.attitude().toe_rad.to_degrees(), 0.15, 0.06, "toe");
        near(rest.attitude().camber_rad.to_degrees(), 0.3, 0.15, "camber");
        assert!((way.drop_mm - WISH.drop_mm).abs() <= WISH.within_mm, "{}", way.drop_mm);
        let set = |change: &&Change| !matches!(change, Change::TieRod(_) | Change::Shims(_));
        let bare: Vec<Change> = way.changes.iter().filter(set).copied().collect();
        let rest = Rest::of(fit(&truck, &bare).unwrap()).unwrap();
        fell = fell.max((rest.attitude().toe_rad.to_degrees() - 0.15).abs());
    }
    assert!(fell > 0.1, "left as it falls, toe would be {fell} off");
}

/// One spline out and turns in again are the turns alone, once the bolt sets the height:
/// what comes to one proposal is kept once.
#[test]
fn equal_proposals_are_kept_once() {
    let truck = demo().truck;
    let wish = Wish { shims: true, turning_mm: -900.0, ..WISH };
    let table = PartsTable { turns: vec![-3.0, -3.0, -2.9], trims_mm: Vec::new(), ..small() };
    let ways = as_by_hand(&truck, wish, table);
    assert!(count(&ways, LeftOut::Same) > 0);
    let found = ways.found();
    for (at, way) in found.iter().enumerate() {
        assert!(found[at + 1..].iter().all(|other| sorted(&other.changes) != sorted(&way.changes)));
    }
}

/// On the demo the fender ends the bump before the stop: a lower stop gives nothing there.
/// Where it gives travel, it stays on offer.
#[test]
fn a_part_that_gains_nothing_is_left_off() {
    let truck = demo().truck;
    let wish = Wish { turning_mm: -900.0, ..WISH };
    let trimmed = |ways: &Ways| {
        let trim = |change: &Change| matches!(change, Change::StopTrim(_));
        ways.found().iter().filter(|way| way.changes.iter().any(trim)).count()
    };
    let ways = as_by_hand(&truck, wish, small());
    assert!(count(&ways, LeftOut::Spare) > 0);
    let mut roomy = truck;
    roomy.body.fender.lip_z_mm += 200.0;
    assert!(trimmed(&as_by_hand(&roomy, wish, small())) > trimmed(&ways));
}

#[test]
fn any_slices_come_to_the_same() {
    let truck = demo().truck;
    for wish in [WISH, Wish { drop_mm: 100.0, within_mm: 0.1, ..WISH }] {
        let whole = search(&truck, wish, small(), usize::MAX);
        for slice in [1, 2, 13] {
            let sliced = search(&truck, wish, small(), slice);
            assert_eq!(sliced.found(), whole.found());
            assert_eq!(sliced.misses(), whole.misses());
            assert!(sliced.left_out().eq(whole.left_out()));
        }
    }
    let mut halfway = Ways::new(&truck, WISH, Weights::default(), small()).unwrap();
    assert!(!halfway.step(10));
    assert_eq!(halfway.tried(), 10);
}

/// Of more ways than are kept the cheapest are: those of two halves of a table together, by
/// cost, are those of the whole, and what is dearer is counted.
#[test]
fn the_cheapest_forty_are_kept() {
    let truck = demo().truck;
    let wish = Wish { drop_mm: 45.0, within_mm: 10.0, turning_mm: -900.0, room_mm: -900.0, ..WISH };
    let spindles = |from: u32, to: u32| PartsTable {
        spindles_mm: (from..to).map(|at| 38.0 + 0.3 * f64::from(at)).collect(),
        ..PartsTable::default()
    };
    let found = |from, to| search(&truck, wish, spindles(from, to), 50);
    let costs = |ways: &Ways| ways.found().iter().map(|way| way.cost).collect::<Vec<_>>();
    let whole = found(0, 44);
    let mut halves = [costs(&found(0, 22)), costs(&found(22, 44))].concat();
    assert_eq!(halves.len(), 44, "each spindle is a way");
    halves.sort_by(f64::total_cmp);
    let kept = costs(&whole);
    assert_eq!((kept.len(), count(&whole, LeftOut::Dearer)), (40, 4));
    for (kept, cheapest) in kept.iter().zip(&halves) {
        near(*kept, *cheapest, 1e-9, "cost");
    }
}

/// No table is too long: the last of more than fifty thousand combinations is tried, and
/// each is counted. A tire's nominal radius less is as much lower: 195/75 is
/// 146 mm over the rim, 175/60 is 105 (ISO 4000-1: width times aspect, in whole millimetres; from memory).
#[test]
fn the_last_of_a_long_table_is_tried_too() {
    let truck = demo().truck;
    let size = |section_mm: f64, aspect_percent: f64| TireSize { section_mm, aspect_percent, rim_code: 14.0 };
    let mut tires: Vec<TireSize> =
        (0..24).map(|at| size(195.0 + 10.0 * f64::from(at / 4), 60.0 + 5.0 * f64::from(at % 4))).collect();
    tires.push(size(175.0, 60.0));
    let table = PartsTable {
        spindles_mm: (0..23).map(|at| 20.0 + 2.0 * f64::from(at)).collect(),
        turns: (1..=14).map(|turns| -f64::from(turns)).collect(),
        splines: vec![-1.0, -2.0, -3.0, -4.0, -5.0],
        tires: tires.clone(),
        ..PartsTable::default()
    };
    let wish = Wish { drop_mm: 41.0, within_mm: 0.1, bump_mm: 60.0, turning_mm: -900.0, ..WISH };
    let ways = search(&truck, wish, table, 1000);
    assert_eq!(ways.total(), 26 * 24 * 15 * 6);
    assert_eq!(ways.tried(), ways.total());
    let left_out: usize = ways.left_out().map(|(_, count)| count).sum();
    assert_eq!(left_out + ways.found().len(), ways.total());
    let best = ways.found().first().expect("the last tire alone");
    let swaps: Vec<_> = best
        .changes
        .iter()
        .map(|change| matches!(change, Change::TireSwap(swap) if swap.size == tires[24]))
        .collect();
    assert_eq!(swaps, [true], "{:?}", best.changes);
    near(best.drop_mm, 41.0, 0.1, "a nominal radius less");
}

/// Put on the sketch, the best reads as the search said.
#[test]
fn the_best_is_what_it_says_on_the_sketch() {
    let truck = demo().truck;
    let ways = search(&truck, Wish::default(), PartsTable::usual(&truck), 50);
    let best = ways.found().first().expect("two and a half inches can be had");
    let design =
        demo().edited(&Edit::SetAll(ProposalId(0), [best.changes.clone(), best.changes.clone()])).unwrap();
    let rest = Rest::of(design.fitted(ProposalId(0)).unwrap()).unwrap();
    let before = Rest::of(design.as_measured()).unwrap();
    near(before.ride_height_mm() - rest.ride_height_mm(), best.drop_mm, 1e-9, "drop");
    near(best.drop_mm, 63.5, 25.4 / 8.0, "as wished");
    assert_eq!(study::travel_left(&rest).bump, best.bump);
    assert!(best.bump.travel_mm >= 25.4);
    assert!(ways.found().is_sorted_by(|a, b| a.cost <= b.cost));
    // No joint is ever turned over.
    let turned = |change: &Change| matches!(change, Change::JointTurned(_));
    assert!(ways.found().iter().all(|way| !way.changes.iter().any(turned)));
}

/// A limit that is tightened leaves out for its own reason.
#[test]
fn each_limit_leaves_out_for_its_own_reason() {
    let truck = demo().truck;
    let left_out = |wish: Wish, why: LeftOut| count(&search(&truck, wish, small(), usize::MAX), why);
    assert_eq!(left_out(WISH, LeftOut::Frequency), 0);
    assert!(left_out(Wish { frequency_hz: (0.0, 0.1), ..WISH }, LeftOut::Frequency) > 0);
    assert!(left_out(Wish { bump_mm: 500.0, ..WISH }, LeftOut::Stop) > 0);
    assert!(left_out(Wish { room_mm: 900.0, ..WISH }, LeftOut::Room) > 0);
    assert!(left_out(Wish { drop_mm: 900.0, ..WISH }, LeftOut::Height) > 0);
    let mut short = truck.clone();
    short.spring.bar.turns_out = 3.0;
    assert!(count(&search(&short, WISH, small(), usize::MAX), LeftOut::Adjuster) > 0);
}

/// A plain rate has no adjuster, and needs none where a spindle alone is enough.
#[test]
fn a_plain_rate_comes_down_by_its_spindle() {
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::WheelRate;
    let wish = Wish { drop_mm: 50.8, shims: true, ..WISH };
    let ways = search(&truck, wish, small(), usize::MAX);
    assert!(!ways.found().is_empty());
}
