//! Everything that is computed from points and trucks, over any of them that can be had.

use super::bytes::{Bytes, PROPOSAL};
use linkage::{Corner, Hardpoints, Joint, Point3, Pose, Unreached, Vector3, axes};
use study::{
    CasterBy, ClearanceSearch, Clearances, PartsTable, Quantity, Rest, ScrubLine, Span, Stance, StandingSide,
    Steering, Steps, Target, Ways, Weights, Wish, clearances, setting, spring_loads, sweep, travel_left_of,
};
use truck::{Design, LoadCase, Side, TireSize, Which};

/// A part may be off its length by so much of it: near a dead centre a rounding
/// of the cosine is the root of that in the angle, but not in the length.
const LENGTH_SHARE: f64 = 1e-6;

/// Any finite points as a corner: poses keep their members' lengths, searches
/// meet what was asked for, and whatever is answered is finite.
///
/// # Panics
/// When a promise of the corner does not hold.
pub fn corner(bytes: &[u8]) {
    let mut bytes = Bytes::new(bytes);
    let points = bytes.hardpoints();
    let radius_mm = if bytes.byte() < 8 { bytes.finite() } else { bytes.between(0.0, 600.0) };
    let Ok(corner) = Corner::of(&points, radius_mm) else { return };
    let range = *corner.range();
    for _ in 0..4 {
        let angle = match bytes.byte() {
            0 => range.low_rad,
            1 => range.high_rad,
            2 => bytes.finite(),
            _ => bytes.between(-2.0, 2.0),
        };
        let far_mm = if bytes.byte() == 0 { bytes.finite() } else { bytes.between(-200.0, 200.0) };
        let relay = Vector3::new(0.0, far_mm, 0.0);
        if let Ok(pose) = corner.pose(angle, relay) {
            keeps_its_lengths(&points, &corner, &pose);
            rates(&corner, &pose);
        }
        let found = corner.as_far_as_it_closes(angle);
        finite(
            &[found.pose.wheel_centre.z, found.upper_arm_end.z, found.tie_rod_end.z],
            "as far as it closes",
        );
        let height = if bytes.byte() == 0 { bytes.finite() } else { bytes.between(-500.0, 1500.0) };
        if let Ok(pose) = corner.at_height(height, relay) {
            assert!((pose.wheel_centre.z - height).abs() <= 1e-9, "at {} for {height}", pose.wheel_centre.z);
            keeps_its_lengths(&points, &corner, &pose);
        }
    }
    let direction = Vector3::y();
    let (height, heading) = (bytes.between(range.low_mm, range.high_mm), bytes.between(-2.0, 2.0));
    if let Ok((pose, _)) = corner.at_heading(height, heading, direction) {
        assert!((pose.heading_rad() - heading).abs() <= 1e-9, "{} for {heading}", pose.heading_rad());
    }
    if let Ok((right_mm, left_mm)) = corner.relay_range(height, direction, bytes.between(1.0, 300.0)) {
        finite(&[right_mm, left_mm], "the range of the relay rod");
    }
}

fn keeps_its_lengths(points: &Hardpoints, corner: &Corner, pose: &Pose) {
    let between = |a: &Point3<f64>, b: &Point3<f64>| axes::length(&(a - b));
    let mounts = corner.mounts();
    for (name, length, is) in [
        (
            "knuckle",
            between(&points.lower.ball, &points.upper.ball),
            between(&pose.lower_ball, &pose.upper_ball),
        ),
        ("tie rod", between(&points.tie_inner, &points.tie_outer), between(&pose.tie_inner, &pose.tie_outer)),
        (
            "lower arm",
            between(&points.lower.ball, &points.lower.front),
            between(&pose.lower_ball, &mounts.lower.front),
        ),
        (
            "upper arm",
            between(&points.upper.ball, &points.upper.rear),
            between(&pose.upper_ball, &mounts.upper.rear),
        ),
        (
            "wheel",
            between(&points.lower.ball, &points.wheel_centre),
            between(&pose.lower_ball, &pose.wheel_centre),
        ),
    ] {
        assert!((is - length).abs() <= LENGTH_SHARE * length.max(1.0), "the {name} of {length} mm is {is}");
    }
    let attitude = corner.attitude(pose);
    finite(
        &[attitude.camber_rad, attitude.caster_rad, attitude.toe_rad, attitude.inclination_rad],
        "what a gauge reads",
    );
}

/// Rates near a dead centre are large, and they are none at it.
fn rates(corner: &Corner, pose: &Pose) {
    for found in [
        corner.travel_rates(pose).map(|rates| rates.camber_rad),
        corner.arm_rates(pose).map(|rates| rates.camber_rad),
        corner.steer_rates(pose, Vector3::y()).map(|rates| rates.toe_rad),
    ] {
        match found {
            Ok(rate) => finite(&[rate], "a rate"),
            Err(Unreached::DeadCentre(Joint::UpperBall | Joint::TieRodOuter) | Unreached::Idle) => {}
            Err(other) => panic!("a pose that is there has rates or a dead centre, and not: {other}"),
        }
    }
    let _ = corner.instant_centre(pose);
}

fn finite(numbers: &[f64], what: &str) {
    assert!(numbers.iter().all(|number| number.is_finite()), "{what}: {numbers:?}");
}

/// The truck as measured and with its proposal, each where it stands; the right side too
/// where it differs.
fn stands(design: &Design) -> impl Iterator<Item = StandingSide> {
    let sides = if design.truck.right.is_empty() { &Side::ALL[..1] } else { &Side::ALL };
    let both = [Which::AsMeasured, PROPOSAL.into()].map(|which| Stance::of_design(design, which).ok());
    both.into_iter().flatten().flat_map(|stance| sides.iter().map(move |side| stance.on(*side)))
}

/// How trucks stand, and everything that is read off one pose or a row of them.
///
/// # Panics
/// When an answer is no number.
pub fn stance(bytes: &[u8]) {
    let mut bytes = Bytes::new(bytes);
    let (from_mm, to_mm) = (bytes.between(-400.0, 400.0), bytes.between(-400.0, 400.0));
    let (steer, case) = (bytes.between(-1.0, 1.0), *bytes.pick(&LoadCase::ALL));
    let design = bytes.design();
    for rest in stands(&design) {
        sound(&rest);
        let moved = sweep(&rest, &Span { from_mm, to_mm, count: 7 }, Vector3::zeros());
        for quantity in Quantity::ALL.iter().copied() {
            for (_, value) in moved.curve(quantity) {
                finite(&[value], quantity.key());
            }
        }
        for low in &ScrubLine::of(&rest).points {
            finite(&[low.y_mm, low.z_mm, low.over_line_mm, low.over_rim_mm], low.of.key());
        }
        let load = spring_loads(&rest);
        for effort in [Some(load.rest), load.bump, load.droop].into_iter().flatten() {
            finite(&[effort.effort, effort.stress_n_per_mm2.unwrap_or(0.0)], "what the spring bears");
        }
        if let Ok(steering) = Steering::of(&rest) {
            for turn in
                [-1.0, steer, 1.0].iter().filter_map(|steer| steering.turn(&rest, &rest, 0.0, *steer).ok())
            {
                let (inner, outer) = turn.inner_outer_rad();
                let ideal = turn.ideal_outer_rad(rest.fitted.measured.body.wheelbase_mm);
                finite(&[inner, outer, ideal, turn.track_mm], "a turn");
            }
            finite(&[steering.steer_at(&rest, steer)], "the share of the lock");
        }
        finite(&[rest.nose_down_rad(), rest.attitude_on_ground().caster_rad], "against the ground");
        if let Some(Ok(loaded)) = rest.fitted.under(case).map(Rest::of) {
            sound(&loaded);
        }
    }
}

/// Numbers that a truck at rest always has.
fn sound(rest: &Rest) {
    let attitude = rest.attitude();
    finite(&[attitude.camber_rad, attitude.caster_rad, attitude.toe_rad], "alignment at rest");
    finite(&[rest.ride_height_mm(), rest.effort], "height and effort at rest");
    finite(&[rest.wheel_rate_n_per_mm, rest.ride_frequency_hz()], "rate and frequency at rest");
    let stops = rest.stops;
    // A stop that a raised pivot always touches is touched below the droop stop.
    assert!(stops.droop_rad <= stops.solid_rad && stops.touch_rad <= stops.solid_rad, "{stops:?}");
    let angle = rest.pose.lower_arm_rad;
    assert!((stops.droop_rad - 1e-9..=stops.solid_rad + 1e-9).contains(&angle), "{angle} in {stops:?}");
}

/// The room of every pair over travel and steer, and what ends the travel.
///
/// # Panics
/// When an answer is no number, or the search does not come to an end.
pub fn room(bytes: &[u8]) {
    let mut bytes = Bytes::new(bytes);
    let travel_mm = bytes.between(-200.0, 200.0);
    let design = bytes.design();
    for rest in stands(&design) {
        if let Ok(pose) = rest.at_travel(travel_mm) {
            for gap in clearances(&rest, &pose) {
                finite(&[gap.distance_mm], "a distance");
            }
        }
        let mut search = ClearanceSearch::new(&rest, Clearances::LIVE);
        let mut last = 0.0;
        while !search.step(&rest, 16) {
            let share = search.progress();
            assert!(share > last && share < 1.0, "{share} of the search after {last}");
            last = share;
        }
        let room = search.finished();
        for found in &room.found {
            assert!(found.gap.distance_mm.is_finite(), "{:?}", found.pair);
            let met = [found.meets_in_bump, found.meets_in_droop];
            for spot in [Some(found.at)].into_iter().chain(met).flatten() {
                finite(&[spot.travel_mm, spot.wheel_travel_mm, spot.heading_rad], "where two come near");
                assert!((-1.0..=1.0).contains(&spot.steer), "{spot:?}");
            }
        }
        let left = travel_left_of(&rest, &room);
        for limit in left.bump_limits.iter().chain(&left.droop_limits) {
            assert!(limit.travel_mm.is_finite() && limit.travel_mm >= 0.0, "{limit:?}");
        }
    }
}

/// How trucks are set up for any wish.
///
/// # Panics
/// When an answer is no number, or packs of shims are none.
pub fn set_up(bytes: &[u8]) {
    let mut bytes = Bytes::new(bytes);
    let by = *bytes.pick(&[CasterBy::Shims, CasterBy::StrutRod]);
    let steps = *bytes.pick(&[Steps::INCHES, Steps::MILLIMETRES]);
    let wild = bytes.byte() == 0;
    let mut wish = |low, high| if wild { bytes.finite() } else { bytes.between(low, high) };
    let by_mm = wish(-150.0, 150.0);
    let [camber_rad, caster_rad, toe_rad] = std::array::from_fn(|_| wish(-0.1, 0.1));
    let design = bytes.design();
    let Ok(rest) = Rest::of(design.as_measured()) else { return };
    let target = Target { ride_height_mm: rest.ride_height_mm() + by_mm, camber_rad, caster_rad, toe_rad };
    let changes = design.proposal(PROPOSAL).map_or(&[][..], truck::Proposal::changes);
    if let Ok(set) = setting(&design.truck, Side::Left, changes, &target, by, &steps) {
        sound(&set.rest);
        let amounts = set.set;
        finite(
            &[amounts.height, amounts.shim_front_mm, amounts.shim_rear_mm, amounts.strut_mm, amounts.tie_mm],
            "what is set",
        );
        let shims = &design.truck.shims;
        for (now, added) in [(shims.front_mm, amounts.shim_front_mm), (shims.rear_mm, amounts.shim_rear_mm)] {
            let (least, most) = shims.room_mm(now);
            assert!((least - 1e-6..=most + 1e-6).contains(&added), "{added} mm of shims in {least}..{most}");
        }
    }
}

/// Ways down with a few parts, for any wish.
///
/// # Panics
/// When an answer is no number, or combinations get lost.
pub fn ways(bytes: &[u8]) {
    let mut bytes = Bytes::new(bytes);
    let wish = Wish {
        drop_mm: bytes.between(-50.0, 150.0),
        within_mm: bytes.between(0.0, 200.0),
        bump_mm: bytes.between(-10.0, 80.0),
        room_mm: bytes.between(-100.0, 20.0),
        turning_mm: bytes.between(-100.0, 20.0),
        flat_tire: bytes.byte() % 4 == 1,
        shims: bytes.byte() % 2 == 1,
        frequency_hz: (bytes.between(-1.0, 2.0), bytes.between(0.0, 5.0)),
        rear_down_mm: None,
    };
    let table = PartsTable {
        spindles_mm: vec![bytes.between(0.0, 120.0)],
        turns: vec![bytes.between(-20.0, 20.0)],
        splines: Vec::new(),
        coils: vec![bytes.between(0.0, 6.0)],
        tires: vec![TireSize {
            section_mm: bytes.between(100.0, 400.0).round(),
            aspect_percent: bytes.between(25.0, 100.0).round(),
            rim_code: bytes.between(8.0, 26.0).round(),
        }],
        trims_mm: vec![bytes.between(0.0, 30.0)],
        rear: Vec::new(),
    };
    let design = bytes.design();
    let Ok(mut search) = Ways::new(&design.truck, wish, Weights::default(), table) else { return };
    search.step(MOST_WAYS);
    assert_eq!(search.tried(), search.total().min(MOST_WAYS));
    let left_out: usize = search.left_out().map(|(_, count)| count).sum();
    assert_eq!(search.found().len() + left_out, search.tried());
    for way in search.found() {
        finite(
            &[way.drop_mm, way.bump_lost_mm, way.camber_rad, way.caster_rad, way.frequency_hz, way.cost],
            "a way",
        );
        assert!((way.drop_mm - wish.drop_mm).abs() <= wish.within_mm, "{} mm down", way.drop_mm);
        assert!(way.bump.travel_mm >= wish.bump_mm, "{:?}", way.bump);
    }
}

/// Combinations that one input tries: with each of four parts and without.
const MOST_WAYS: usize = 16;
