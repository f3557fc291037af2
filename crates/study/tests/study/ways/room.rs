//! The room that a way has, sampled over all travel and steer on a dense grid of our own.

use super::{WISH, search};
use linkage::Pose;
use study::{Against, LeftOut, Limiter, Pair, PartsTable, Rest, Steering, Way, Wish, clearance};
use truck::{Change, DroppedSpindle, Edit, ReadWith, Readable, Reading, Side, Truck, demo, fit};

/// What a grid of nine by nine and its search may be off, mm.
const OFF_MM: f64 = 0.3;

fn table() -> PartsTable {
    PartsTable { spindles_mm: vec![38.1, 50.8, 63.5], turns: vec![-9.0, -6.0, -3.0], ..PartsTable::default() }
}

/// The demo, and trucks whose rod, arm, strut rod or caliper comes nearer.
fn trucks() -> Vec<Truck> {
    let demo = demo().truck;
    let changed = |change: fn(&mut Truck)| {
        let mut truck = demo.clone();
        change(&mut truck);
        truck
    };
    vec![
        demo.clone(),
        changed(|truck| truck.wheel.barrel_mm = Some(152.0)),
        changed(|truck| {
            truck.points.tie_outer.z += 12.0;
            truck.points.tie_outer.y += 8.0;
        }),
        changed(|truck| truck.thickness.upper_arm_mm = Some(24.0)),
        changed(|truck| truck.thickness.strut_rod_mm = Some(15.0)),
    ]
}

/// The least distance of every pair on the dense grid, mm, from full droop to an angle of the arm.
fn sampled(rest: &Rest, high_rad: f64, pairs: impl Fn(Pair) -> bool) -> Vec<(Pair, f64)> {
    let steering = Steering::of(rest).unwrap();
    let low_rad = rest.stops.droop_rad;
    let mut poses: Vec<Pose> = Vec::new();
    for at in -12..=12 {
        let steered = steering.pose(rest, 0.0, f64::from(at) / 12.0).unwrap();
        let relay = steered.tie_inner - rest.pose.tie_inner;
        let angle = |row: u32| low_rad + (high_rad - low_rad) * f64::from(row) / 24.0;
        poses.extend((0..=24).filter_map(|row| rest.corner.pose(angle(row), relay).ok()));
    }
    assert!(poses.len() > 500);
    let pairs = Pair::ALL.iter().copied().filter(|pair| pairs(*pair));
    pairs
        .filter_map(|pair| {
            let rooms = poses.iter().filter_map(|pose| Some(clearance(rest, pose, pair)?.distance_mm));
            let least = rooms.fold(f64::INFINITY, f64::min);
            least.is_finite().then_some((pair, least))
        })
        .collect()
}

fn least(rooms: &[(Pair, f64)]) -> f64 {
    rooms.iter().map(|(_, mm)| *mm).fold(f64::INFINITY, f64::min)
}

fn rest(truck: &Truck, changes: &[Change]) -> Rest {
    Rest::of(fit(truck, changes).unwrap()).unwrap()
}

/// What turns against what steers, brakes or carries it, from full droop to the stop solid.
fn control(rest: &Rest) -> Vec<(Pair, f64)> {
    sampled(rest, rest.stops.solid_rad, |pair| pair.against() == Against::Control)
}

/// Wheel against brake, joint, arm and rod is what can jam; against sheet metal and
/// frame, and arms against the frame, it is not.
#[test]
fn what_can_jam_is_what_turns_against_what_steers_or_brakes() {
    for pair in Pair::ALL.iter().copied() {
        let label = pair.label();
        let turns = label.starts_with("rim") || label.starts_with("tire");
        let body = label.ends_with("frame") || label.ends_with("fender");
        assert_eq!(pair.against() == Against::Control, turns && !body, "{label}");
    }
}

/// By default nothing that turns comes nearer than a quarter inch to what it could jam,
/// and nothing that keeps it is left out.
#[test]
fn no_way_brings_a_turning_part_nearer_than_a_quarter_inch() {
    let (mut kept, mut dropped) = (0, 0);
    for truck in trucks() {
        let wish = Wish { within_mm: 8.0, turning_mm: Wish::default().turning_mm, ..WISH };
        let by_default = search(&truck, wish, table(), 50);
        for way in by_default.found() {
            let room = least(&control(&rest(&truck, &way.changes)));
            assert!(room >= 25.4 / 4.0 - OFF_MM, "{room} mm: {:?}", way.changes);
        }
        let any = search(&truck, Wish { turning_mm: -900.0, ..wish }, table(), 50);
        for way in any.found() {
            let room = least(&control(&rest(&truck, &way.changes)));
            let there = by_default.found().iter().any(|other| other.changes == way.changes);
            if room > 25.4 / 4.0 + OFF_MM {
                assert!(there, "{room} mm and left out: {:?}", way.changes);
                kept += 1;
            } else {
                dropped += usize::from(!there);
            }
        }
    }
    assert!(kept > 0 && dropped > 0, "{kept} kept, {dropped} left out");
}

/// The nearest pair of a way is the nearest of all, as near as it is said: to frame and
/// fender on the way to what ends the bump, but for what ends it.
#[test]
fn the_nearest_pair_is_the_nearest_of_all() {
    for truck in trucks() {
        let wish = Wish { within_mm: 8.0, turning_mm: 0.0, ..WISH };
        let ways = search(&truck, wish, table(), 50);
        assert!(!ways.found().is_empty());
        for Way { changes, bump, nearest, .. } in ways.found() {
            let rest = rest(&truck, changes);
            let mut rooms = control(&rest);
            let bumped_rad = rest.at_travel(bump.travel_mm).unwrap().lower_arm_rad;
            rooms.extend(sampled(&rest, bumped_rad, |pair| {
                pair.against() == Against::Body && bump.by != Limiter::Contact(pair)
            }));
            let (pair, said) = nearest.unwrap();
            let of_pair = rooms.iter().find(|(of, _)| *of == pair).unwrap().1;
            assert!((said - least(&rooms)).abs() <= OFF_MM, "{said} said, {} sampled", least(&rooms));
            assert!((said - of_pair).abs() <= OFF_MM, "{pair}: {said} said, {of_pair} sampled");
        }
    }
}

/// A room that was read may be less by what its tool gives or takes, so a way keeps a quarter
/// inch beyond that. By hand: the joint is read so that 6.8 mm are left with an inch of spindle,
/// which a feeler's 0.05 mm leave over 6.35 and a tape's 1.6 mm do not; and that is said to be the room.
#[test]
fn a_way_keeps_its_distance_by_the_least_that_was_read() {
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 25.4, ..DroppedSpindle::default() });
    let gap = |changes: &[Change]| {
        let rest = rest(&demo().truck, changes);
        clearance(&rest, &rest.pose, Pair::RimLowerJoint).unwrap().distance_mm
    };
    let value = 6.8 - (gap(&[spindle]) - gap(&[]));
    let found = |tolerance: f64| {
        let reading = Reading { value, tolerance, tool: ReadWith::Tape, swept_rad: None };
        let edit = Edit::Read(Readable::RimLowerJoint, Side::Left, Some(reading));
        let truck = demo().edited(&edit).unwrap().truck;
        let table = PartsTable { spindles_mm: vec![25.4], ..PartsTable::default() };
        let wish = Wish { drop_mm: 25.4, turning_mm: Wish::default().turning_mm, ..WISH };
        search(&truck, wish, table, 1)
    };
    let near = found(0.05);
    assert_eq!(near.found().len(), 1, "{:?}", near.misses());
    let (pair, room_mm) = near.found()[0].nearest.unwrap();
    assert!(pair == Pair::RimLowerJoint && (room_mm - 6.8).abs() < 0.01, "{pair}: {room_mm} mm");
    let far = found(1.6);
    assert!(far.found().is_empty());
    let miss = far.misses().iter().find(|miss| miss.why == LeftOut::Room).unwrap();
    assert_eq!(miss.by, Some(Limiter::Contact(Pair::RimLowerJoint)));
    assert!((miss.short - (6.35 - 5.2)).abs() < 0.01, "{} mm short", miss.short);
}
