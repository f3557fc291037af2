//! Ways down, against every combination asked of the public engine one by one.

#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

use reference_tests::budget::near;
use study::{
    Clearances, LeftOut, LowLine, PartsTable, Rest, Ways, Weights, Wish, loading, travel_left, travel_left_of,
};
use truck::{
    BarAdjuster, Change, CutCoil, DroppedSpindle, Edit, JointTurned, Place, ProposalId, Source, SpringKind,
    StopTrim, TireSize, Truck, demo, fit,
};

const WISH: Wish = Wish {
    drop_mm: 63.5,
    within_mm: 4.0,
    bump_mm: 20.0,
    room_mm: 0.0,
    flat_tire: false,
    shims: false,
    frequency_hz: (0.0, 9.0),
    rear_down_mm: None,
};

fn small() -> PartsTable {
    PartsTable {
        spindles_mm: vec![38.1, 50.8],
        turns: vec![-8.0, -6.0, -4.0, -3.0, -2.0],
        coils: vec![0.5, 1.0],
        joints: vec![JointTurned {
            place: Place::LowerJointUp,
            plate_mm: 6.0,
            flange_mm: 6.0,
            shift_mm: None,
        }],
        trims_mm: vec![10.0],
        ..PartsTable::default()
    }
}

fn search(truck: &Truck, wish: Wish, table: PartsTable, slice: usize) -> Ways {
    let mut ways = Ways::new(truck, wish, Weights::default(), table).unwrap();
    while !ways.step(slice) {}
    ways
}

/// Every proposal of the small table, written down by nested loops.
fn all(spring: SpringKind) -> Vec<Vec<Change>> {
    let spindles = [None, Some(38.1), Some(50.8)];
    let turns = [None, Some(-8.0), Some(-6.0), Some(-4.0), Some(-3.0), Some(-2.0)];
    let coils = [None, Some(0.5), Some(1.0)];
    let (turns, coils): (&[_], &[_]) = match spring {
        SpringKind::TorsionBar => (&turns, &coils[..1]),
        _ => (&turns[..1], &coils),
    };
    let mut all = Vec::new();
    for spindle in spindles {
        for turn in turns {
            for coil in coils {
                for joint in [false, true] {
                    for trim in [false, true] {
                        let joint = joint.then(|| small().joints[0]);
                        let spindle =
                            spindle.map(|drop_mm| DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
                        let trim = trim.then_some(StopTrim { lower_mm: 10.0, less_squash_mm: 0.0 });
                        let parts = [
                            spindle.map(Change::DroppedSpindle),
                            turn.map(|turns| Change::BarAdjuster(BarAdjuster { turns })),
                            coil.map(|coils| Change::CutCoil(CutCoil { coils })),
                            joint.map(Change::JointTurned),
                            trim.map(Change::StopTrim),
                        ];
                        all.push(parts.into_iter().flatten().collect());
                    }
                }
            }
        }
    }
    all
}

/// What a person would do with the sketch: put the parts on, read, and cross out.
fn by_hand(truck: &Truck, wish: &Wish) -> Vec<(Vec<Change>, f64)> {
    let before = Rest::of(fit(truck, &[]).unwrap()).unwrap();
    let was = travel_left(&before).bump.travel_mm;
    let mut kept = Vec::new();
    for changes in all(truck.spring.kind) {
        let fitted = fit(truck, &changes).unwrap();
        let clean = fitted.remarks.is_empty();
        let Ok(rest) = Rest::of(fitted) else { continue };
        let drop = before.ride_height_mm() - rest.ride_height_mm();
        let left = travel_left(&rest).bump.travel_mm;
        let loose = loading(&rest).droop.unwrap().is_loose();
        let touches = rest.travel_at(rest.stops.touch_rad) < wish.bump_mm;
        if !clean || (drop - wish.drop_mm).abs() > wish.within_mm || loose || touches || left < wish.bump_mm {
            continue;
        }
        let degrees = |rad: f64| rad.to_degrees().abs();
        let camber = degrees(rest.attitude().camber_rad - before.attitude().camber_rad);
        let caster = degrees(rest.attitude_on_ground().caster_rad - before.attitude_on_ground().caster_rad);
        let hertz = (rest.ride_frequency_hz() - before.ride_frequency_hz()).abs();
        let parts = changes.iter().filter(|change| !matches!(change, Change::BarAdjuster(_))).count();
        let scars = changes
            .iter()
            .filter(|change| matches!(change, Change::CutCoil(_) | Change::StopTrim(_)))
            .count();
        let cost = (was - left).max(0.0) / 10.0
            + camber
            + 0.5 * caster
            + 5.0 * hertz
            + 0.5 * f64::from(u32::try_from(parts).unwrap())
            + 2.0 * f64::from(u32::try_from(scars).unwrap());
        kept.push((changes, cost));
    }
    kept.sort_by(|a, b| a.1.total_cmp(&b.1));
    kept
}

fn sorted(mut changes: Vec<Change>) -> Vec<Change> {
    changes.sort_by_key(|change| (change.kind(), change.place()));
    changes
}

#[test]
fn the_search_finds_what_is_found_by_hand() {
    let bars = demo().truck;
    let mut coils = bars.clone();
    coils.spring.kind = SpringKind::Coil;
    for truck in [bars, coils] {
        let by_hand = by_hand(&truck, &WISH);
        let ways = search(&truck, WISH, small(), 7);
        assert_eq!(ways.total(), all(truck.spring.kind).len());
        assert!(!by_hand.is_empty() && by_hand.len() < ways.total());
        assert_eq!(ways.found().len(), by_hand.len());
        for (way, (changes, cost)) in ways.found().iter().zip(&by_hand) {
            near(way.cost, *cost, 1e-6, "cost");
            // Two of one cost may stand in either order.
            let same = by_hand.iter().any(|(other, price)| {
                (price - cost).abs() < 1e-9 && sorted(other.clone()) == sorted(way.changes.clone())
            });
            assert!(same, "{:?} against {changes:?}", way.changes);
        }
        let left_out: u32 = ways.left_out().map(|(_, count)| count).sum();
        assert_eq!(usize::try_from(left_out).unwrap() + ways.found().len(), ways.total());
    }
}

#[test]
fn any_slices_come_to_the_same() {
    let truck = demo().truck;
    let whole = search(&truck, WISH, small(), usize::MAX);
    for slice in [1, 2, 13] {
        let sliced = search(&truck, WISH, small(), slice);
        assert_eq!(sliced.found(), whole.found());
        assert!(sliced.left_out().eq(whole.left_out()));
    }
    let mut halfway = Ways::new(&truck, WISH, Weights::default(), small()).unwrap();
    assert!(!halfway.step(10));
    assert_eq!(halfway.tried(), 10);
}

/// Put on the sketch, the best reads as the search said, with every limit kept.
#[test]
fn the_best_is_what_it_says_on_the_sketch() {
    let truck = demo().truck;
    let wish = Wish { shims: true, flat_tire: true, room_mm: 3.0, frequency_hz: (1.0, 1.5), ..WISH };
    let ways = search(&truck, wish, PartsTable::usual(&truck), 50);
    let best = ways.found().first().expect("two and a half inches can be had");
    let design = demo().edited(&Edit::SetAll(ProposalId(0), best.changes.clone())).unwrap();
    let rest = Rest::of(design.fitted(ProposalId(0)).unwrap()).unwrap();
    let before = Rest::of(design.as_measured()).unwrap();
    near(before.ride_height_mm() - rest.ride_height_mm(), best.drop_mm, 1e-9, "drop");
    assert!((best.drop_mm - 63.5).abs() <= 4.0 + 0.5);
    let room = Clearances::of(&rest, Clearances::LIVE);
    let left = travel_left_of(&rest, &room);
    assert_eq!(left.bump, best.bump);
    assert!(left.bump.travel_mm >= wish.bump_mm);
    assert!((1.0..=1.5).contains(&rest.ride_frequency_hz()));
    let below =
        |rest: &Rest| LowLine::of(rest).points.iter().filter(|point| point.over_line_mm < 0.0).count();
    assert!(below(&rest) <= below(&before));
    // A thirty-second of an inch is a fifth of a degree at most: half of it is what rounding leaves, and the
    // quarter turn that the bolt is set in as much again.
    assert!(best.camber_rad.to_degrees().abs() < 0.2, "{}", best.camber_rad.to_degrees());
    assert!(ways.found().is_sorted_by(|a, b| a.cost <= b.cost));
}

/// A limit that is tightened only ever leaves out more, and names its reason.
#[test]
fn each_limit_leaves_out_for_its_own_reason() {
    let truck = demo().truck;
    let count = |wish: Wish, why: LeftOut| {
        let ways = search(&truck, wish, small(), usize::MAX);
        ways.left_out().find(|(reason, _)| *reason == why).map_or(0, |(_, count)| count)
    };
    assert_eq!(count(WISH, LeftOut::Frequency), 0);
    assert!(count(Wish { frequency_hz: (0.0, 0.1), ..WISH }, LeftOut::Frequency) > 0);
    assert!(count(Wish { bump_mm: 500.0, ..WISH }, LeftOut::Stop) > 0);
    assert!(count(Wish { room_mm: 900.0, ..WISH }, LeftOut::Room) > 0);
    assert!(count(Wish { drop_mm: 900.0, ..WISH }, LeftOut::Height) > 0);
    let mut short = truck.clone();
    short.spring.bar.turns_out = 3.0;
    let ways = search(&short, WISH, small(), usize::MAX);
    assert!(ways.left_out().any(|(why, count)| why == LeftOut::Adjuster && count > 0));
    // A lower tire is a way down too.
    let tires = vec![TireSize { section_mm: 195.0, aspect_percent: 60.0, rim_code: 14.0 }];
    let table = PartsTable { tires, ..small() };
    let ways = search(&truck, WISH, table, usize::MAX);
    assert!(
        ways.found().iter().any(|way| way.changes.iter().any(|change| matches!(change, Change::TireSwap(_))))
    );
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

/// The room that is said is there: sampled densely on the way to where the bump ends.
#[test]
fn the_nearest_pair_is_as_near_as_it_is_said() {
    let truck = demo().truck;
    let ways = search(&truck, WISH, small(), usize::MAX);
    for way in ways.found() {
        let rest = Rest::of(fit(&truck, &way.changes).unwrap()).unwrap();
        let (pair, said) = way.nearest.unwrap();
        let steering = study::Steering::of(&rest).unwrap();
        let low = rest.travel_at(rest.stops.droop_rad);
        let mut least = f64::INFINITY;
        for row in 0..=60 {
            let travel = low + (way.bump.travel_mm - low) * f64::from(row) / 60.0;
            for column in -20..=20 {
                if let Ok(pose) = steering.pose(&rest, travel, f64::from(column) / 20.0) {
                    least = least.min(study::clearance(&rest, &pose, pair).unwrap().distance_mm);
                }
            }
        }
        assert!(said <= least + 0.3, "{said} said, {least} sampled");
    }
}

/// Nobody has measured the plate and the flange of a joint on the table: a way that turns it
/// over is a guess, says so, and takes both marks along into its proposal; no other way is one.
/// The joint is the upper one: the bar is on the other arm, and nothing hangs on its bolts.
#[test]
fn a_way_with_a_joint_turned_over_rests_on_guessed_plates() {
    let truck = demo().truck;
    let wish = Wish { drop_mm: 50.8, within_mm: 100.0, bump_mm: -50.0, room_mm: -500.0, ..WISH };
    let joint = JointTurned { place: Place::UpperJointDown, plate_mm: 6.35, flange_mm: 9.52, shift_mm: None };
    let table = PartsTable { spindles_mm: vec![50.8], joints: vec![joint], ..PartsTable::default() };
    let mut ways = Ways::new(&truck, wish, Weights::default(), table).unwrap();
    while !ways.step(100) {}
    let turned = |way: &study::Way| way.changes.iter().any(|change| matches!(change, Change::JointTurned(_)));
    assert!(ways.found().iter().any(turned) && !ways.found().iter().all(turned), "{:?}", ways.found());
    for way in ways.found() {
        assert_eq!(way.is_guess, turned(way));
        let proposal = way.proposal("Way down");
        let guesses: Vec<_> = proposal.sources.exceptions().map(|((.., at), source)| (at, source)).collect();
        let wanted = [(0, Source::Assumed), (1, Source::Assumed)];
        assert_eq!(guesses, if turned(way) { wanted.to_vec() } else { Vec::new() });
        assert_eq!(proposal.changes, way.changes);
    }
}
