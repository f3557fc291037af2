//! The room over travel and steer, against sampling ten times finer than the
//! grid; where things first meet, and what else ends the travel, against fine
//! scans; the scrub line against plane geometry.

use linkage::{Point3, Pose, Vector3};
use study::{
    ClearanceSearch, Clearances, FLANGE_MM, Limiter, Low, Pair, Rest, ScrubLine, Spot, Steering, VariesWith,
    bead_seat_mm, clearance, joint_swing_rad, limiters_unstated, travel_left, travel_left_of,
};
use truck::{
    Arm, Change, DroppedSpindle, Fender, Field, Fitted, LoadCase, OpenPoint, Rail, Shock, SpringKind,
    SteeringKind, Truck, demo, fit,
};
use yardstick::budget::near;
use yardstick::generate::{Dice, pickup};

fn open(point: Point3<f64>) -> OpenPoint {
    OpenPoint { x: Some(point.x), y: Some(point.y), z: Some(point.z) }
}

/// A generated corner on the demo's springs, with frame, fender, rods and rim
/// placed about it so that every pair comes near now and then.
fn truck(dice: &mut Dice) -> Truck {
    let mut truck = demo().truck;
    let points = pickup(&dice.cube()).points;
    truck.points = points;
    let arm = points.lower;
    let out = arm.rear + (arm.ball - arm.rear) * 0.75;
    truck.strut.arm = open(out + Vector3::new(30.0, 0.0, 5.0));
    truck.body.rail = Rail {
        outer_y_mm: dice.between(340.0, 420.0),
        bottom_z_mm: points.lower.ball.z + dice.between(40.0, 120.0),
        ..truck.body.rail
    };
    truck.body.fender = Fender {
        lip_y_mm: points.wheel_centre.y + dice.between(20.0, 90.0),
        lip_z_mm: points.wheel_centre.z + truck.tire.free_radius_mm() + dice.between(10.0, 90.0),
        half_length_mm: dice.between(60.0, 160.0),
    };
    truck.wheel.offset_mm = dice.between(-10.0, 25.0);
    truck.steering.kind = Some(if dice.roll() < 0.5 { SteeringKind::Rack } else { SteeringKind::PitmanArms });
    truck.steering.lock_left_rad = Some(dice.between(20.0, 36.0).to_radians());
    truck.steering.lock_right_rad = Some(dice.between(20.0, 36.0).to_radians());
    truck.thickness.lower_arm_mm = Some(dice.between(8.0, 24.0));
    truck
}

fn rest(truck: &Truck) -> Option<Rest> {
    Rest::of(Fitted::as_measured(truck)).ok()
}

/// The pose of an angle of the arm and a share of the lock.
fn pose(rest: &Rest, steering: &Steering, angle: f64, steer: f64) -> Option<Pose> {
    rest.corner.pose(angle, steering.relay.move_mm(steering.side_mm(steer))?).ok()
}

fn angle(rest: &Rest, share: f64) -> f64 {
    rest.stops.droop_rad + share * (rest.stops.solid_rad - rest.stops.droop_rad)
}

/// Refined, the least room of every pair on the grid that keeps up with a drag
/// is within a tenth of a millimetre of the least of 81 by 81 poses, or lower;
/// and it is the room of the pose that is named.
#[test]
fn the_least_room_against_sampling_ten_times_finer() {
    let mut dice = Dice::of(61);
    let (mut compared, mut overlapping, mut worst) = (0, 0, 0.0_f64);
    for _ in 0..8 {
        let Some(rest) = rest(&truck(&mut dice)) else { continue };
        let steering = Steering::of(&rest).unwrap();
        let found = Clearances::of(&rest, Clearances::LIVE);
        assert_eq!(found.unstated, []);
        assert_eq!(found.found.len(), Pair::ALL.len());
        for found in &found.found {
            let mut least = f64::INFINITY;
            let steered = found.pair.varies_with() == VariesWith::TravelAndSteer;
            for row in 0..=80 {
                let angle = angle(&rest, f64::from(row) / 80.0);
                for column in if steered { -40..=40 } else { 0..=0 } {
                    let posed = pose(&rest, &steering, angle, f64::from(column) / 40.0);
                    let gap = posed.and_then(|posed| clearance(&rest, &posed, found.pair));
                    least = least.min(gap.map_or(f64::INFINITY, |gap| gap.distance_mm));
                }
            }
            let got = found.gap.distance_mm;
            assert!(got <= least + 0.1, "{}: {got} but {least}", found.pair);
            worst = worst.max(least - got);
            let at = &found.at;
            let named = steering.pose(&rest, at.wheel_travel_mm, at.steer).unwrap();
            near(clearance(&rest, &named, found.pair).unwrap().distance_mm, got, 1e-6, "the pose named");
            let at_rest = steering.pose(&rest, 0.0, at.steer).unwrap();
            near(at_rest.heading_rad(), at.heading_rad, 1e-9, "its heading at rest");
            compared += 1;
            overlapping += usize::from(got < 0.0);
        }
    }
    assert!(compared > 70 && overlapping > 6, "{compared} {overlapping}");
    // Sampled that finely, little is missed: a grid that found much less would be wrong.
    assert!(worst < 2.0, "{worst}");
}

/// The first angle of the arm, on a scan from rest, at which a pair meets at
/// any of 41 steers.
fn scanned(rest: &Rest, steering: &Steering, pair: Pair, to_rad: f64) -> Option<f64> {
    let from = rest.pose.lower_arm_rad;
    (0..=SCAN).map(|step| from + (to_rad - from) * f64::from(step) / f64::from(SCAN)).find(|angle| {
        (-20..=20).any(|column| {
            let posed = pose(rest, steering, *angle, f64::from(column) / 20.0);
            posed.and_then(|posed| clearance(rest, &posed, pair)).is_some_and(|gap| gap.distance_mm <= 0.0)
        })
    })
}

const SCAN: i32 = 150;

/// A scan in steps is late by a step at most, and by a steer between two of its own.
fn assert_met(rest: &Rest, got: Option<Spot>, want: Option<f64>, way: f64, pair: Pair) {
    match (got, want) {
        (Some(got), Some(want)) => {
            let want = rest.travel_at(want);
            let late = way * (want - got.travel_mm);
            assert!((-0.02..1.5).contains(&late), "{pair}: {} and the scan {want}", got.travel_mm);
        }
        (None, None) => {}
        // A graze between the scan's poses.
        (Some(_), None) => {}
        (None, Some(want)) => panic!("{pair}: the scan meets at {}", rest.travel_at(want)),
    }
}

#[test]
fn first_contact_against_a_fine_scan() {
    let mut dice = Dice::of(62);
    let (mut met, mut missed) = (0, 0);
    for _ in 0..6 {
        let Some(rest) = rest(&truck(&mut dice)) else { continue };
        let steering = Steering::of(&rest).unwrap();
        for found in Clearances::of(&rest, Clearances::LIVE).found {
            let bump = scanned(&rest, &steering, found.pair, rest.stops.solid_rad);
            assert_met(&rest, found.meets_in_bump, bump, 1.0, found.pair);
            let droop = scanned(&rest, &steering, found.pair, rest.stops.droop_rad);
            assert_met(&rest, found.meets_in_droop, droop, -1.0, found.pair);
            for spot in [found.meets_in_bump, found.meets_in_droop].into_iter().flatten() {
                met += 1;
                let here = steering.pose(&rest, spot.wheel_travel_mm, spot.steer).unwrap();
                let gap = clearance(&rest, &here, found.pair).unwrap().distance_mm;
                // They touch there, or overlap at rest already.
                assert!(gap < 0.05 && (gap > -0.05 || spot.travel_mm.abs() < 1e-9), "{}: {gap}", found.pair);
            }
            missed += usize::from(found.meets_in_bump.is_none() && bump.is_none());
        }
    }
    assert!(met > 10 && missed > 10, "{met} {missed}");
}

/// Taken step by step it is the same search, and its share of the work only grows.
#[test]
fn in_steps_as_in_one_go() {
    let rest = rest(&demo().truck).unwrap();
    let whole = Clearances::of(&rest, 11);
    let mut search = ClearanceSearch::new(&rest, 11);
    let mut share = search.progress();
    let mut steps = 0;
    while !search.step(&rest, 7) {
        assert!(search.progress() > share);
        share = search.progress();
        steps += 1;
    }
    assert!(steps > 15 && (search.progress() - 1.0).abs() < 1e-12);
    assert_eq!(search.finished(), whole);
    // Rest and straight ahead are poses of the grid.
    assert!(whole.travels_mm.iter().any(|travel| travel.abs() < 1e-9));
    assert_eq!(whole.steers.len(), 11);
    near(whole.steers[5], 0.0, 0.0, "straight ahead");
}

/// The rows are as far apart below rest as above it, to the one that rest takes for itself:
/// no half of the travel is looked at more coarsely than the other. (Of arm angles; so little
/// does the travel of a millimetre of them change between the stops.)
#[test]
fn rows_lie_evenly_about_rest() {
    for (droop_mm, bump_gap_mm) in [(70.0, 28.6), (30.0, 75.0), (90.0, 20.0)] {
        let mut truck = demo().truck;
        (truck.stops.droop_mm, truck.stops.bump_gap_mm) = (droop_mm, bump_gap_mm);
        let rows = Clearances::of(&rest(&truck).unwrap(), 17).travels_mm;
        let at = rows.iter().position(|travel| travel.abs() < 1e-9).unwrap();
        let share = -rows[0] / (rows[16] - rows[0]);
        let even = 16.0 * share;
        let at = f64::from(u32::try_from(at).unwrap());
        assert!((at - even).abs() < 0.8, "rest is row {at}, evenly it were {even}");
        let steps: Vec<f64> = rows.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let (least, most) =
            (steps.iter().copied().fold(f64::MAX, f64::min), steps.iter().copied().fold(0.0, f64::max));
        assert!(least > 0.0 && most / least < 1.4, "steps of {least} to {most} mm");
    }
}

/// Without a lock only straight ahead is searched; a pair whose numbers are not
/// stated is left out and named with them.
#[test]
fn what_is_not_stated_is_left_out_by_name() {
    let mut truck = demo().truck;
    truck.steering.lock_left_rad = None;
    truck.wheel.barrel_mm = None;
    truck.thickness.upper_arm_mm = None;
    truck.strut.arm.z = None;
    let found = Clearances::of(&rest(&truck).unwrap(), 9);
    assert_eq!(found.steers, [0.0]);
    let needs =
        |pair| found.unstated.iter().find(|(open, _)| *open == pair).map(|(_, fields)| fields.clone());
    assert_eq!(needs(Pair::RimCaliper), Some(vec![Field::RimBarrel]));
    assert_eq!(needs(Pair::TireUpperArm), Some(vec![Field::UpperArmThickness]));
    assert_eq!(needs(Pair::TireStrutRod), Some(vec![Field::StrutArmZ]));
    assert_eq!(needs(Pair::TireRail), None);
    assert_eq!(found.unstated.len() + found.found.len(), Pair::ALL.len());
    assert!(found.of_pair(Pair::RimCaliper).is_none() && found.of_pair(Pair::TireTieRod).is_some());
}

/// The rim about what turns with the knuckle, upright and straight ahead, by
/// plane arithmetic: nothing of it moves with travel or steer.
#[test]
fn rim_against_caliper_joint_and_steering_arm_by_hand() {
    let mut truck = demo().truck;
    truck.wheel.barrel_mm = Some(165.0);
    truck.wheel.offset_mm = 10.0;
    let rest = rest(&truck).unwrap();
    let room = |pair| clearance(&rest, &rest.pose, pair).unwrap().distance_mm;
    near(room(Pair::RimCaliper), 165.0 - truck.brake.caliper_radius_mm.unwrap(), 1e-9, "caliper");
    let points = truck.points;
    let from_hub =
        |point: Point3<f64>| libm::hypot(point.x - points.wheel_centre.x, point.z - points.wheel_centre.z);
    // The outer end lies inside the rim's width, 702 − 69.85 = 632.15 from the centreline.
    assert!(points.tie_outer.y > 632.15);
    let rod = truck.thickness.tie_rod_mm.unwrap();
    near(room(Pair::RimSteeringArm), 165.0 - from_hub(points.tie_outer) - rod, 1e-9, "tie-rod end");
    let down = (points.lower.ball - points.upper.ball).normalize() * truck.low.nut_mm.unwrap();
    near(room(Pair::RimLowerJoint), 165.0 - from_hub(points.lower.ball + down), 1e-9, "nut");
    let found = Clearances::of(&rest, 9);
    for pair in [Pair::RimCaliper, Pair::RimLowerJoint, Pair::RimSteeringArm] {
        let map = &found.of_pair(pair).unwrap().map;
        let steering = Steering::of(&rest).unwrap();
        let away = steering.pose(&rest, 40.0, -0.7).unwrap();
        near(clearance(&rest, &away, pair).unwrap().distance_mm, room(pair), 1e-9, "at any pose");
        assert!(map.iter().all(|mm| (mm - room(pair)).abs() < 1e-9));
    }
    // One that is three tenths of an inch too big for the barrel is as far inside its metal.
    let too_big = truck::Brake { caliper_radius_mm: Some(165.0 + 7.62), ..truck.brake };
    let rest_of = Rest::of(Fitted { brake: too_big, ..Fitted::as_measured(&truck) }).unwrap();
    let inside = clearance(&rest_of, &rest_of.pose, Pair::RimCaliper).unwrap();
    near(inside.distance_mm, -7.62, 1e-9, "too big");
    // A caliper wholly inboard of the rim, an inch beside its edge and an inch above it.
    let inboard = -truck.wheel.rim_width_mm / 2.0;
    truck.brake.caliper_out_mm = Some(10.0 - (inboard - 25.4));
    truck.brake.caliper_in_mm = Some(10.0 - (inboard - 60.0));
    truck.brake.caliper_radius_mm = Some(165.0 - 25.4);
    let rest = Rest::of(Fitted::as_measured(&truck)).unwrap();
    let beside = clearance(&rest, &rest.pose, Pair::RimCaliper).unwrap();
    assert!(beside.distance_mm >= 25.4 * 2_f64.sqrt() - 1e-9, "{beside:?}");
}

/// The bigger rotor inside a 14-inch wheel, common practice: a caliper that
/// stands half an inch of rotor further out needs a quarter of an inch more.
#[test]
fn the_bigger_brake_takes_its_own_room() {
    let truck = demo().truck;
    let radius = truck.brake.caliper_radius_mm.unwrap();
    let brake = truck::Brake { caliper_radius_mm: Some(radius + 6.35), ..truck::Brake::default() };
    let before = rest(&truck).unwrap();
    let after = Rest::of(Fitted { brake: truck::Brake { ..brake }, ..Fitted::as_measured(&truck) });
    let after = after.unwrap();
    let room = |rest: &Rest| clearance(rest, &rest.pose, Pair::RimCaliper).map(|gap| gap.distance_mm);
    assert_eq!(room(&after), None, "a brake of which the ends are not known is not looked at");
    let whole = truck::Brake { caliper_radius_mm: Some(radius + 6.35), ..truck.brake };
    let after = Rest::of(Fitted { brake: whole, ..Fitted::as_measured(&truck) }).unwrap();
    near(room(&before).unwrap() - room(&after).unwrap(), 6.35, 1e-9, "a quarter of an inch");
}

/// Every limit of the travel by a scan of what it measures: the shock's and the
/// coil's own length, the angle between stud and arm.
#[test]
fn shock_coil_and_joints_end_the_travel_where_their_lengths_say() {
    let mut truck = demo().truck;
    truck.stops.bump_gap_mm = 60.0;
    truck.stops.droop_mm = 110.0;
    truck.shock = Shock { short_mm: Some(285.0), long_mm: Some(340.0), ..truck.shock };
    truck.spring.kind = SpringKind::Coil;
    truck.spring.coil.ends = Some(truck::CoilEnds::ClosedGround);
    truck.spring.coil.wire_mm = 18.0;
    truck.spring.coil.active = 9.0;
    truck.joints.lower.limit_rad = Some(11_f64.to_radians());
    let rest = rest(&truck).unwrap();
    let left = travel_left(&rest);
    let arm = truck.points.lower.frame(linkage::Member::LowerArm).unwrap();
    let length = |pose: &Pose, on_arm: Point3<f64>, on_body: Point3<f64>| {
        (rest.corner.lower_arm(pose).carry(&arm.local(&on_arm)) - on_body).norm()
    };
    let coil = truck.spring.coil;
    let solid = 18.0 * (9.0 + 2.0);
    near(coil.solid_mm().unwrap(), solid, 1e-12, "closed and ground: d (N + 2)");
    let by_hand = |by: Limiter, pose: &Pose| match by {
        Limiter::Shock => {
            let length = length(pose, truck.shock.arm.stated().unwrap(), truck.shock.body.stated().unwrap());
            (length - 285.0).min(340.0 - length)
        }
        Limiter::CoilBind => length(pose, coil.arm_seat, coil.body_seat) - solid,
        Limiter::Joint(arm) => {
            let swing = if arm == Arm::Lower { truck.joints.lower } else { truck.joints.upper };
            swing.limit_rad.unwrap() - joint_swing_rad(&rest, pose, arm).unwrap().abs()
        }
        _ => unreachable!("not asked for"),
    };
    let scan = |by: Limiter, to_rad: f64| {
        let from = rest.pose.lower_arm_rad;
        let angles = (0..=4000).map(|step| from + (to_rad - from) * f64::from(step) / 4000.0);
        let mut ended = angles.filter(|angle| {
            let pose = rest.corner.pose(*angle, Vector3::zeros()).unwrap();
            by_hand(by, &pose) <= 0.0
        });
        ended.next().map(|angle| rest.travel_at(angle))
    };
    let mut ends = 0;
    for by in [Limiter::Shock, Limiter::CoilBind, Limiter::Joint(Arm::Lower), Limiter::Joint(Arm::Upper)] {
        for (limits, to_rad) in
            [(&left.bump_limits, rest.stops.solid_rad), (&left.droop_limits, rest.stops.droop_rad)]
        {
            let got = limits.iter().find(|limit| limit.by == by).map(|limit| limit.travel_mm);
            let want = scan(by, to_rad).map(f64::abs);
            match (got, want) {
                (Some(got), Some(want)) => {
                    near(got, want, 0.06, &by.to_string());
                    ends += 1;
                }
                (got, want) => assert_eq!(got, want, "{by}"),
            }
        }
    }
    assert!(ends >= 4, "{ends}: {left:?}");
    for (end, limits) in [(left.bump, &left.bump_limits), (left.droop, &left.droop_limits)] {
        let least = limits.iter().map(|limit| limit.travel_mm).fold(f64::INFINITY, f64::min);
        near(end.travel_mm, least, 0.0, "the least of all");
    }
}

/// At rest the swing is what was measured; the arm's turn against an upright
/// knuckle is the joint's, to what the knuckle itself leans.
#[test]
fn a_joint_swings_by_the_arm_s_turn_less_the_knuckle_s() {
    let rest = rest(&demo().truck).unwrap();
    for (arm, swing) in [(Arm::Lower, demo().truck.joints.lower), (Arm::Upper, demo().truck.joints.upper)] {
        near(joint_swing_rad(&rest, &rest.pose, arm).unwrap(), swing.rest_rad.unwrap(), 1e-12, "as it sits");
        let up = rest.at_travel(50.0).unwrap();
        let turned = match arm {
            Arm::Lower => up.lower_arm_rad - rest.pose.lower_arm_rad,
            Arm::Upper => rest.corner.upper_arm_rad(&up) - rest.corner.upper_arm_rad(&rest.pose),
        };
        let leaned = up.camber_rad() - rest.pose.camber_rad();
        let swung = joint_swing_rad(&rest, &up, arm).unwrap() - swing.rest_rad.unwrap();
        // The stud leans in with the knuckle where camber goes down; front view, so to a twentieth.
        near(swung, turned + leaned, 0.05 * turned, "arm's turn and knuckle's lean");
        let steered = Steering::of(&rest).unwrap().pose(&rest, 0.0, 1.0).unwrap();
        let at_lock = joint_swing_rad(&rest, &steered, arm).unwrap();
        near(at_lock, swing.rest_rad.unwrap(), 0.02, "steering turns the stud about itself");
    }
}

/// The scrub line by the two-point form, the wheel upright: J flange of
/// 17.5 mm on a bead seat of 14 in × 25.4 − 0.8.
#[test]
fn the_scrub_line_by_plane_geometry() {
    near(bead_seat_mm(14.0), 354.8, 1e-12, "bead seat");
    let truck = demo().truck;
    let rest = rest(&truck).unwrap();
    let line = ScrubLine::of(&rest);
    let wheel = truck.points.wheel_centre;
    near(line.rim_z_mm, wheel.z - (354.8 / 2.0 + FLANGE_MM), 1e-9, "the rim's lowest edge");
    near(line.rim_y_mm, wheel.y - truck.wheel.rim_width_mm / 2.0, 1e-9, "its inboard edge");
    near(line.at_mm(line.rim_y_mm), line.rim_z_mm, 1e-9, "through the rim's edge");
    near(line.at_mm(0.0), line.rim_z_mm * 702.0 / (702.0 + line.rim_y_mm), 1e-9, "on the centerline");
    // The other tire's bottom lies on the continued line, on the ground.
    let slope = (line.at_mm(100.0) - line.at_mm(50.0)) / 50.0;
    near(line.at_mm(100.0) - slope * (100.0 + line.tire_y_mm), 0.0, 1e-9, "at the other tire's bottom");
    let fixed = line.points.iter().find(|point| point.of == Low::Fixed).unwrap();
    near(fixed.over_line_mm, 190.0 - line.at_mm(180.0), 1e-9, "lowest fixed point");
    near(fixed.over_rim_mm, 190.0 - line.rim_z_mm, 1e-9, "rim-height rule");
    let arm = line.points.iter().find(|point| point.of == Low::LowerArm).unwrap();
    let ball = truck.points.lower.ball;
    near(arm.z_mm, ball.z - truck.thickness.lower_arm_mm.unwrap(), 1e-9, "under the ball");
    // Lowered by two inches on the same wheels all of the body comes down by as much.
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
    let lowered = ScrubLine::of(&Rest::of(fit(&truck, &[spindle]).unwrap()).unwrap());
    for (before, after) in line.points.iter().zip(&lowered.points) {
        near(before.z_mm - after.z_mm, 50.8, 1e-6, before.of.label());
    }
    let mut open = truck;
    open.low.nut_mm = None;
    let line = ScrubLine::of(&Rest::of(Fitted::as_measured(&open)).unwrap());
    assert_eq!(line.unstated, [(Low::BallNut, vec![Field::BallNut])]);
}

/// Of empty, driver, bed and both the worst counts, and is named. The driver's 290 N let
/// the frame down by about 290 N over the wheel rate; a load behind the rear axle lifts
/// the front, one ahead of it presses: `W · ahead / wheelbase / 2` on each wheel.
#[test]
fn the_scrub_line_is_of_the_worst_load() {
    let mut truck = demo().truck;
    let fixed = |truck: &Truck| {
        let rest = rest(truck).unwrap();
        let [empty, worst] = [ScrubLine::of(&rest), ScrubLine::worst(&rest)];
        let of = |line: &ScrubLine| *line.points.iter().find(|point| point.of == Low::Fixed).unwrap();
        (of(&empty).over_rim_mm - of(&worst).over_rim_mm, of(&worst).load, rest.wheel_rate_n_per_mm)
    };
    let (lower_mm, load, rate) = fixed(&truck);
    assert_eq!(load, LoadCase::Driver);
    near(lower_mm, 290.0 / rate, 0.5, "the driver's weight over the wheel rate");
    truck.load.driver_n = None;
    let (lower_mm, load, _) = fixed(&truck);
    assert_eq!((lower_mm.to_bits(), load), (0.0_f64.to_bits(), LoadCase::AsMeasured), "the bed lifts");
    truck.load.bed_behind_mm = Some(-300.0);
    let (lower_mm, load, _) = fixed(&truck);
    assert_eq!(load, LoadCase::Bed);
    near(lower_mm, 2500.0 * 300.0 / truck.body.wheelbase_mm / 2.0 / rate, 0.5, "half of it a wheel");
    truck.load.driver_n = Some(290.0);
    assert_eq!(fixed(&truck).1, LoadCase::DriverAndBed);
}

/// Where two parts begin to meet is the same by either grid: the command's
/// answer is the page's.
#[test]
fn any_grid_finds_the_same_first_contact() {
    for drop_mm in [38.1, 50.8, 63.5] {
        let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
        let rest = Rest::of(fit(&demo().truck, &[spindle]).unwrap()).unwrap();
        let [live, settled] = [Clearances::LIVE, Clearances::SETTLED]
            .map(|count| travel_left_of(&rest, &Clearances::of(&rest, count)));
        assert_eq!((live.bump.by, live.droop.by), (settled.bump.by, settled.droop.by));
        near(live.bump.travel_mm, settled.bump.travel_mm, 1e-3, "bump");
        near(live.droop.travel_mm, settled.droop.travel_mm, 1e-3, "droop");
        assert_eq!(live.bump_limits.len(), settled.bump_limits.len());
    }
}

/// What is not stated is not looked at, and nothing else: of the demo all is, without its shock that is open, and
/// on a bar no coil is missed.
#[test]
fn what_was_not_looked_at_is_what_is_not_stated() {
    let mut truck = demo().truck;
    assert_eq!(limiters_unstated(&rest(&truck).unwrap()), []);
    truck.shock = Shock::default();
    assert_eq!(limiters_unstated(&rest(&truck).unwrap()), [Limiter::Shock]);
    truck.spring.kind = SpringKind::Coil;
    truck.spring.coil.ends = None;
    assert_eq!(limiters_unstated(&rest(&truck).unwrap()), [Limiter::Shock, Limiter::CoilBind]);
}

/// What moves with the travel alone is nearest with the wheel straight ahead: there the wheel has gone up by
/// what its arm has.
#[test]
fn straight_ahead_the_wheel_has_travelled_as_its_arm() {
    let mut dice = Dice::of(65);
    let mut moved = 0;
    for _ in 0..20 {
        let Some(rest) = rest(&truck(&mut dice)) else { continue };
        for found in Clearances::of(&rest, Clearances::LIVE).found {
            if found.pair.varies_with() == VariesWith::Travel {
                near(found.at.wheel_travel_mm, found.at.travel_mm, 1e-6, found.pair.label());
                moved += usize::from(found.at.travel_mm.abs() > 1.0);
            }
        }
    }
    assert!(moved > 20, "{moved} away from rest");
}

/// The whole grid finds every contact that the frames of a drag find, with the same travel, and on
/// generated trucks they find all that it does. A third of the pairs meet, so none of it is idle.
#[test]
fn a_frame_of_a_drag_finds_the_contacts_of_the_whole_grid() {
    let mut dice = Dice::of(64);
    let (mut trucks, mut contacts) = (0, 0);
    for _ in 0..60 {
        let Some(rest) = rest(&truck(&mut dice)) else { continue };
        let whole = travel_left(&rest);
        assert_eq!(travel_left_of(&rest, &Clearances::that_meet_in_a_drag(&rest)), whole);
        trucks += 1;
        contacts += whole.contacts.len() + whole.droop_limits.len() - 1;
    }
    assert!(trucks > 40 && contacts > 2 * trucks, "{contacts} contacts of {trucks} trucks");
}
