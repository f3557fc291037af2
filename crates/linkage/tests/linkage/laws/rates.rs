//! Exact rates against differences of poses.
//!
//! Central differences at three steps, each half of the one before, with the
//! two leading errors taken out (Richardson's extrapolation).

use super::{at_rest, wander};
use linkage::{Corner, Pose, Rates, Vector3};
use yardstick::budget::{Budget, Errors};
use yardstick::generate::{Dice, pickup};

const SAMPLES: usize = 150;

/// What the rates are of: four angles, then eight lengths.
type Reading = [f64; 12];

const NAMES: [&str; 12] = [
    "camber rad",
    "toe rad",
    "caster rad",
    "inclination rad",
    "scrub radius mm",
    "trail mm",
    "contact x mm",
    "contact y mm",
    "contact z mm",
    "wheel x mm",
    "wheel y mm",
    "wheel z mm",
];

/// Heights are met to 1e-10 mm and the narrowest step is half a millimetre, so a
/// difference of lengths is good to 1e-9 at the worst; most are met far better.
const LENGTHS: Budget = Budget { q50: 1e-11, q99: 1e-9, max: 1e-8 };
/// Angles go with a length over an arm of some 200 mm and more.
const ANGLES: Budget = Budget { q50: 1e-13, q99: 1e-12, max: 1e-11 };

/// A radian of heading or of the arm is a good hundred millimetres of its cause.
fn per_radian(budget: Budget) -> Budget {
    Budget { q50: budget.q50 * 100.0, q99: budget.q99 * 100.0, max: budget.max * 100.0 }
}

fn derivative<const N: usize>(f: impl Fn(f64) -> [f64; N], step: f64) -> [f64; N] {
    let central = |step: f64| {
        let (up, down) = (f(step), f(-step));
        std::array::from_fn::<f64, N, _>(|i| (up[i] - down[i]) / (2.0 * step))
    };
    let (wide, middle, narrow) = (central(step), central(step / 2.0), central(step / 4.0));
    std::array::from_fn(|i| {
        let first = (4.0 * middle[i] - wide[i]) / 3.0;
        let second = (4.0 * narrow[i] - middle[i]) / 3.0;
        (16.0 * second - first) / 15.0
    })
}

fn reading(corner: &Corner, pose: &Pose) -> Reading {
    let read = corner.attitude(pose);
    let (contact, wheel) = (read.contact, pose.wheel_centre);
    [
        read.camber_rad,
        read.toe_rad,
        read.caster_rad,
        read.inclination_rad,
        read.scrub_radius_mm,
        read.trail_mm,
        contact.x,
        contact.y,
        contact.z,
        wheel.x,
        wheel.y,
        wheel.z,
    ]
}

fn as_reading(rates: &Rates) -> Reading {
    let (contact, wheel) = (rates.contact_mm, rates.wheel_centre_mm);
    [
        rates.camber_rad,
        rates.toe_rad,
        rates.caster_rad,
        rates.inclination_rad,
        rates.scrub_radius_mm,
        rates.trail_mm,
        contact.x,
        contact.y,
        contact.z,
        wheel.x,
        wheel.y,
        wheel.z,
    ]
}

/// Corners and poses to take rates at.
fn poses(seed: u64) -> impl Iterator<Item = (Corner, Pose, Vector3<f64>)> {
    let mut dice = Dice::of(seed);
    (0..SAMPLES).flat_map(move |_| {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        wander(&corner, &mut dice, 3)
            .into_iter()
            .map(move |pose| (corner, pose, pose.tie_inner - sample.points.tie_inner))
    })
}

fn check(cause: &str, pairs: impl Iterator<Item = (Reading, Reading)>, angles: Budget, lengths: Budget) {
    let mut errors = NAMES.map(|name| Errors::of(format!("{name} / {cause}")));
    for (exact, difference) in pairs {
        for ((errors, exact), difference) in errors.iter_mut().zip(exact).zip(difference) {
            errors.add(exact, difference);
        }
    }
    for (at, errors) in errors.into_iter().enumerate() {
        assert!(errors.count() > 2 * SAMPLES, "most poses close");
        errors.within(if at < 4 { angles } else { lengths });
    }
}

#[test]
fn rates_over_travel() {
    let pairs = poses(11).filter_map(|(corner, pose, relay)| {
        let height = pose.wheel_centre.z;
        let range = corner.range();
        // Near its end a range leaves no room for the widest step.
        let room = height - range.low_mm > 30.0 && range.high_mm - height > 30.0;
        room.then(|| {
            let at = |step: f64| reading(&corner, &corner.at_height(height + step, relay).unwrap());
            let exact = corner.travel_rates(&pose).unwrap();
            (as_reading(&exact), derivative(at, 2.0))
        })
    });
    check("mm of travel", pairs, ANGLES, LENGTHS);
}

#[test]
fn rates_over_the_arm_s_angle() {
    let pairs = poses(15).map(|(corner, pose, relay)| {
        let at = |step: f64| reading(&corner, &corner.pose(pose.lower_arm_rad + step, relay).unwrap());
        (as_reading(&corner.arm_rates(&pose).unwrap()), derivative(at, 4e-3))
    });
    check("rad of arm", pairs, per_radian(ANGLES), per_radian(LENGTHS));
}

#[test]
fn rates_over_heading() {
    let pairs = poses(12).map(|(corner, pose, relay)| {
        // A relay rod that also swings: not along y alone.
        let way = Vector3::new(0.3, 1.0, -0.1);
        let at = |step: f64| {
            let pose = corner.pose(pose.lower_arm_rad, relay + way * step).unwrap();
            reading(&corner, &pose)
        };
        let exact = corner.steer_rates(&pose, way).unwrap();
        let per_step = derivative(at, 1.0);
        let heading_per_step = -per_step[1];
        (as_reading(&exact), per_step.map(|rate| rate / heading_per_step))
    });
    check("rad of heading", pairs, per_radian(ANGLES), per_radian(LENGTHS));
}

/// The knuckle's motion carries every point bolted to it.
#[test]
fn motion_of_any_point_of_the_knuckle() {
    let mut dice = Dice::of(13);
    let mut errors = Errors::of("point mm / rad of arm");
    let mut turns = Errors::of("upper arm / lower arm");
    for (corner, pose, relay) in poses(14) {
        let local = Vector3::from_fn(|_, _| dice.between(-300.0, 300.0));
        let upper_axis = corner.mounts().upper;
        let along = upper_axis.front - upper_axis.rear;
        let along = along / along.norm();
        let reach = pose.upper_ball - upper_axis.rear;
        let (out, up) = (reach - along * along.dot(&reach), along.cross(&reach));
        let difference = derivative(
            |step| {
                let pose = corner.pose(pose.lower_arm_rad + step, relay).unwrap();
                let point = pose.knuckle.carry(&local);
                let reach = pose.upper_ball - upper_axis.rear;
                let turned = libm::atan2(reach.dot(&up), reach.dot(&out));
                [point.x, point.y, point.z, turned]
            },
            4e-3,
        );
        let motion = corner.bump_motion(&pose).unwrap();
        let exact = motion.at(&pose.knuckle.carry(&local));
        for (exact, difference) in exact.iter().zip(difference) {
            errors.add(*exact, difference);
        }
        turns.add(motion.upper_arm, difference[3]);
    }
    // Poses are good to 1e-13 mm and the narrowest step is a thousandth of a radian.
    errors.within(Budget { q50: 1e-10, q99: 1e-9, max: 1e-8 });
    turns.within(Budget { q50: 1e-12, q99: 1e-11, max: 1e-10 });
}

/// Rates say which way things go on the plainest corner of all.
#[test]
fn rates_have_their_signs() {
    let sample = pickup(&[0.5; 24]);
    let corner = sample.corner();
    let pose = at_rest(&corner);
    let bump = corner.travel_rates(&pose).unwrap();
    assert!((bump.wheel_centre_mm.z - 1.0).abs() < 1e-12, "travel is the wheel's rise");
    let steer = corner.steer_rates(&pose, Vector3::y()).unwrap();
    assert!((steer.toe_rad + 1.0).abs() < 1e-12, "to the left is toe out");
}
