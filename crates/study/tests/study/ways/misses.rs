//! Where there is no way: the nearest misses, against every combination by hand.

use super::by_hand::{Hand, Tried, parts, sorted, tried};
use super::{WISH, search, small};
use study::{LeftOut, PartsTable, Stance, Ways, Wish};
use truck::{Side, Truck, demo};
use yardstick::budget::near;

/// Of each reason that measures itself the least that is short of it.
fn measured_by_hand(ways: &Ways, all: &[Tried]) {
    let short = |why: LeftOut| {
        let of = all.iter().filter_map(|tried| tried.why).filter(|(of, _)| *of == why);
        of.map(|(_, short)| short).fold(f64::INFINITY, f64::min)
    };
    let measured =
        [LeftOut::Stop, LeftOut::Frequency, LeftOut::FlatTire, LeftOut::Shims, LeftOut::Bump, LeftOut::Room];
    for why in measured {
        match ways.misses().iter().find(|miss| miss.why == why) {
            Some(miss) => near(miss.short, short(why), 1e-9, "short by"),
            None => assert!(short(why).is_infinite(), "{why:?} is missed"),
        }
    }
}

/// For each reason that measures itself the least that is short of it, and what is lowered
/// to the height that is nearest and otherwise within the limits.
fn as_by_hand(truck: &Truck, wish: Wish, table: &PartsTable) -> Vec<LeftOut> {
    let ways = search(truck, wish, table.clone(), 11);
    assert!(ways.found().is_empty());
    let all = tried(truck, &wish, table);
    measured_by_hand(&ways, &all);
    let hand = Hand::of(truck, wish);
    let mut heights: Vec<_> =
        all.iter().filter(|tried| tried.why.is_some_and(|(why, _)| why == LeftOut::Height)).collect();
    heights.sort_by(|a, b| (a.drop_mm - wish.drop_mm).abs().total_cmp(&(b.drop_mm - wish.drop_mm).abs()));
    let again = |picks| hand.tries(picks, parts(truck, table, &picks), f64::INFINITY);
    let otherwise = heights.iter().take(24).map(|tried| again(tried.picks)).find(|tried| tried.why.is_none());
    let said = ways.misses().iter().find(|miss| miss.why == LeftOut::Height);
    match (said, otherwise, heights.first()) {
        (Some(said), Some(by_hand), _) => {
            assert_eq!(said.besides, None);
            // Of one height, as with a stop trimmed or not, any may be named.
            let same = |tried: &&&Tried| (tried.drop_mm - said.drop_mm).abs() < 1e-9;
            let named = heights.iter().filter(same).map(|tried| again(tried.picks));
            assert!(
                named
                    .filter(|tried| tried.why.is_none())
                    .any(|tried| sorted(&tried.changes) == sorted(&said.changes))
            );
            near(said.drop_mm, by_hand.drop_mm, 1e-9, "drop");
            near(said.short, (by_hand.drop_mm - wish.drop_mm).abs() - wish.within_mm, 1e-9, "short by");
        }
        (Some(said), None, Some(nearest)) => {
            near(
                (said.drop_mm - wish.drop_mm).abs(),
                (nearest.drop_mm - wish.drop_mm).abs(),
                1e-9,
                "nearest",
            );
            assert!(said.besides.is_some());
        }
        (None, None, None) => {}
        other => panic!("{other:?}"),
    }
    // How low they reach: of every combination that is within all limits but the height the one that comes down most.
    let good = all.iter().map(|tried| again(tried.picks)).filter(|tried| tried.why.is_none());
    let reach_mm = good.map(|tried| tried.drop_mm).fold(0.0, f64::max);
    match ways.lowest() {
        Some(lowest) => {
            near(lowest.drop_mm, reach_mm, 1e-9, "reaches");
            let height_mm = Stance::laid(truck, &[]).unwrap().on(Side::Left).ride_height_mm();
            near(lowest.frame_mm, height_mm - reach_mm, 1e-9, "frame height");
            let is_lower = all.iter().any(|tried| tried.drop_mm > reach_mm + 1e-6);
            assert!(lowest.stops.is_some() || !is_lower, "what stops it");
            assert!(reach_mm < wish.drop_mm);
        }
        None => assert!(reach_mm == 0.0 || reach_mm >= wish.drop_mm, "{reach_mm} mm are reached"),
    }
    ways.misses().iter().map(|miss| miss.why).collect()
}

#[test]
fn the_nearest_misses_are_those_by_hand() {
    let mut truck = demo().truck;
    // No higher than to an otherwise good height.
    let low = Wish { drop_mm: 100.0, within_mm: 0.1, ..WISH };
    assert_eq!(as_by_hand(&truck, low, &small())[0], LeftOut::Height);
    // As low as they go, and on the stop there.
    let table = PartsTable { spindles_mm: vec![50.8], turns: vec![-12.0, -14.0], ..PartsTable::default() };
    let lowest = Wish { drop_mm: 300.0, bump_mm: 60.0, ..WISH };
    as_by_hand(&truck, lowest, &table);
    let why = as_by_hand(&truck, Wish { bump_mm: 500.0, ..WISH }, &small());
    assert!(why.contains(&LeftOut::Stop), "{why:?}");
    let why = as_by_hand(&truck, Wish { frequency_hz: (0.0, 0.5), ..WISH }, &small());
    assert!(why.contains(&LeftOut::Frequency), "{why:?}");
    let why = as_by_hand(&truck, Wish { turning_mm: 40.0, ..WISH }, &small());
    assert!(why.contains(&LeftOut::Room), "{why:?}");
    truck.low.z_mm = Some(115.0);
    let why = as_by_hand(&truck, Wish { flat_tire: true, ..WISH }, &small());
    assert!(why.contains(&LeftOut::FlatTire), "{why:?}");
}

/// Where the shaft's side is not stated no pack can be told, so every way that is to be shimmed is none:
/// what comes nearest in height still says how far it comes down, as its parts alone make it.
#[test]
fn a_height_that_cannot_be_shimmed_is_told() {
    let mut truck = demo().truck;
    truck.shims.side = None;
    let table = PartsTable { spindles_mm: vec![50.8], ..PartsTable::default() };
    let wish = Wish { drop_mm: 150.0, shims: true, ..WISH };
    let ways = search(&truck, wish, table.clone(), 3);
    let said = &ways.misses()[0];
    assert_eq!((said.why, said.besides), (LeftOut::Height, Some(LeftOut::Shims)));
    let heights = tried(&truck, &Wish { shims: false, ..wish }, &table);
    let nearest = heights.iter().map(|tried| tried.drop_mm).fold(0.0, f64::max);
    near(said.drop_mm, nearest, 1e-9, "drop");
    near(said.short, wish.drop_mm - nearest - wish.within_mm, 1e-9, "short by");
}
