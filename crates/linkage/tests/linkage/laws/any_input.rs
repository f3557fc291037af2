//! Corners near their dead centres, and input that is no corner at all: an
//! answer or a typed error, never a panic, never a number that is none.

use super::{cases, cubes, lengths, measured_lengths};
use linkage::{
    ArmPoints, BuildError, Corner, Hardpoints, Member, Motion, Point3, Pose, Unreached, Vector3,
    drawing_board,
};
use proptest::prelude::*;
use yardstick::generate::{Sample, near_tie_dead_centre, near_upper_dead_centre, pickup};

/// Gaps to the dead centre, most of them next to nothing, and none at all.
fn gaps() -> impl Strategy<Value = f64> {
    prop_oneof![
        1 => Just(0.0),
        8 => (-17.0..-1.0).prop_map(|power: f64| libm::pow(10.0, power)),
        8 => (-17.0..-1.0).prop_map(|power: f64| -libm::pow(10.0, power)),
    ]
}

/// Steps off the measured angle, as small as the gaps and as wide as a travel.
fn steps() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), gaps(), -0.3..0.3]
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn near_the_upper_arm_s_dead_centre(cube in cubes(), gap in gaps(), step in steps()) {
        closes_or_says_why(&near_upper_dead_centre(&cube, gap), step)?;
    }

    #[test]
    fn near_the_tie_rod_s_dead_centre(cube in cubes(), gap in gaps(), step in steps()) {
        closes_or_says_why(&near_tie_dead_centre(&cube, gap), step)?;
    }

    #[test]
    fn any_points_at_all(
        (points, radius) in any_points(),
        angle in prop_oneof![-3.2..3.2, Just(0.0), Just(std::f64::consts::FRAC_PI_2)],
        relay in prop::array::uniform3(-100.0..100.0),
        height in -1000.0..1000.0,
    ) {
        match Corner::of(&points, radius) {
            Err(why) => prop_assert!(!why.to_string().is_empty()),
            Ok(corner) => {
                ask_everything(&corner, angle, Vector3::from(relay), height)?;
                ask_everything(&corner, corner.measured_angle_rad(), Vector3::zeros(), height)?;
            }
        }
    }

    #[test]
    fn no_number_and_no_size_is_refused_by_name(
        cube in cubes(),
        at in 0..27_usize,
        bad in prop_oneof![
            Just(f64::NAN),
            Just(f64::INFINITY),
            Just(f64::NEG_INFINITY),
            Just(f64::MAX),
            Just(-20_001.0),
        ],
    ) {
        let mut points = pickup(&cube).points;
        let places = [
            (Member::LowerArm, &mut points.lower.front),
            (Member::LowerArm, &mut points.lower.rear),
            (Member::LowerArm, &mut points.lower.ball),
            (Member::UpperArm, &mut points.upper.front),
            (Member::UpperArm, &mut points.upper.rear),
            (Member::UpperArm, &mut points.upper.ball),
            (Member::TieRod, &mut points.tie_inner),
            (Member::TieRod, &mut points.tie_outer),
            (Member::Wheel, &mut points.wheel_centre),
        ];
        let (member, place) = places.into_iter().nth(at / 3).unwrap();
        place[at % 3] = bad;
        prop_assert_eq!(Corner::of(&points, 300.0), Err(BuildError::Unusable(member)));
    }
}

/// Found by `any_points_at_all`: a scrub radius at infinity, divided by zero.
#[test]
fn a_level_steering_axis_gives_numbers() {
    let mut points = pickup(&[0.5; 24]).points;
    points.upper.ball = points.lower.ball - Vector3::y() * 250.0;
    points.upper.front.z = points.upper.ball.z + 150.0;
    points.upper.rear.z = points.upper.front.z;
    let corner = Corner::of(&points, 300.0).unwrap();
    ask_everything(&corner, corner.measured_angle_rad(), Vector3::zeros(), 300.0).unwrap();
}

/// Found by `any_points_at_all`: rates for a cause that does not move.
#[test]
fn no_rates_where_the_wheel_stands_still() {
    let mut points = pickup(&[0.5; 24]).points;
    // Equal parallel arms, turned until they stand upright: the wheel is at its highest.
    let along = Vector3::new(0.0, 300.0, 0.0);
    for arm in [&mut points.lower, &mut points.upper] {
        (arm.front, arm.rear) = (arm.ball - along, arm.ball - along);
        arm.front.x = 100.0;
        arm.rear.x = -100.0;
    }
    points.tie_inner = points.tie_outer - along;
    let corner = Corner::of(&points, 300.0).unwrap();
    let upright = corner.pose(std::f64::consts::FRAC_PI_2, Vector3::zeros()).unwrap();
    assert_eq!(corner.travel_rates(&upright), Err(Unreached::Idle));
    let rest = super::at_rest(&corner);
    assert_eq!(corner.steer_rates(&rest, Vector3::zeros()), Err(Unreached::Idle));
}

/// Found by `any_points_at_all`: the way to the tie rod was made of rounding
/// alone, and the knuckle lost its shape.
#[test]
fn a_tie_rod_that_ends_in_the_steering_axis_holds_no_heading() {
    let mut points = pickup(&[0.5; 24]).points;
    points.tie_inner = points.upper.ball;
    let corner = Corner::of(&points, 300.0).unwrap();
    let poses = (-20..20).map(|step| corner.measured_angle_rad() + f64::from(step) * 1e-3);
    for angle in poses {
        ask_everything(&corner, angle, Vector3::zeros(), 300.0).unwrap();
    }
}

/// Found by `any_points_at_all`: parts of ten metres, whose wheel turns over
/// within a step of the search for its range.
#[test]
fn a_height_asked_of_a_range_that_is_none() {
    let points = Hardpoints {
        lower: ArmPoints {
            front: Point3::new(0.0, 0.0, 0.0),
            rear: Point3::new(485.5306547045699, 0.0, 0.0),
            ball: Point3::new(0.0, 14410.362110134285, 761.5627286401162),
        },
        upper: ArmPoints {
            front: Point3::new(100.0, -100.0, 0.0),
            rear: Point3::new(0.0, 0.0, -300.0),
            ball: Point3::new(-100.0, -9532.120198742923, 350.9834153304304),
        },
        wheel_centre: Point3::new(0.0, 0.0, 0.0),
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner: Point3::new(-200.0, 0.0, 510.6028989811227),
        tie_outer: Point3::new(612.2072761187661, 8957.685448339715, 0.0),
    };
    let corner = Corner::of(&points, 100.0).unwrap();
    ask_everything(&corner, 0.0, Vector3::zeros(), 0.0).unwrap();
}

fn closes_or_says_why(sample: &Sample, step: f64) -> Result<(), TestCaseError> {
    let corner = sample.corner();
    let angle = corner.measured_angle_rad() + step;
    match corner.pose(angle, Vector3::zeros()) {
        // However flat the joint lies, a pose that closes keeps every length.
        Ok(pose) => {
            let measured = measured_lengths(&sample.points);
            for ((name, now), (_, was)) in lengths(&sample.points, &pose).into_iter().zip(measured) {
                prop_assert!((now - was).abs() < 1e-10, "{name}: {now} was {was}");
            }
        }
        Err(Unreached::Open { gap_mm, .. }) => {
            // A pose as measured is only a rounding away.
            prop_assert!(gap_mm >= 0.0);
            prop_assert!(step != 0.0 || gap_mm < 1e-10, "{gap_mm}");
        }
        Err(why) => prop_assert!(false, "a pose has no other way to fail: {why:?}"),
    }
    ask_everything(&corner, angle, Vector3::zeros(), sample.points.wheel_centre.z)
}

/// Every question there is; whatever is answered must be a number.
fn ask_everything(
    corner: &Corner,
    angle: f64,
    relay: Vector3<f64>,
    height: f64,
) -> Result<(), TestCaseError> {
    let range = corner.range();
    let ends = [range.low_rad, range.high_rad, range.low_mm, range.high_mm];
    prop_assert!(ends.iter().all(|end| end.is_finite()), "{range:?}");
    prop_assert!(range.low_rad <= range.high_rad);
    let found = corner.as_far_as_it_closes(angle);
    prop_assert!([found.pose.tie_outer, found.upper_arm_end, found.tie_rod_end].iter().all(finite));
    match corner.pose(angle, relay) {
        Ok(pose) => ask_pose(corner, &pose)?,
        Err(why) => numbers_of(why)?,
    }
    match corner.at_height(height, relay) {
        Ok(pose) => {
            prop_assert!((pose.wheel_centre.z - height).abs() <= 1e-9);
            ask_pose(corner, &pose)?;
        }
        Err(why) => numbers_of(why)?,
    }
    match corner.at_heading(height, 0.1, Vector3::y()) {
        Ok((pose, relay)) => {
            prop_assert!(relay.is_finite());
            prop_assert!((pose.heading_rad() - 0.1).abs() <= 1e-9);
        }
        Err(why) => numbers_of(why)?,
    }
    Ok(())
}

fn ask_pose(corner: &Corner, pose: &Pose) -> Result<(), TestCaseError> {
    for point in super::points_of(pose) {
        prop_assert!(finite(&point), "{pose:?}");
    }
    prop_assert!((pose.spin.norm() - 1.0).abs() < 1e-9, "{pose:?}");
    for motion in [corner.bump_motion(pose), corner.steer_motion(pose, Vector3::y())] {
        match motion {
            Ok(motion) => prop_assert!(finite_motion(&motion, pose), "{motion:?}"),
            Err(why) => numbers_of(why)?,
        }
    }
    for rates in [corner.travel_rates(pose), corner.steer_rates(pose, Vector3::y())] {
        match rates {
            Ok(rates) => prop_assert!(
                [rates.camber_rad, rates.toe_rad, rates.caster_rad, rates.inclination_rad]
                    .into_iter()
                    .chain([rates.scrub_radius_mm, rates.trail_mm])
                    .chain(rates.contact_mm.iter().copied())
                    .chain(rates.wheel_centre_mm.iter().copied())
                    .all(f64::is_finite),
                "{rates:?} at {pose:?}"
            ),
            Err(why) => numbers_of(why)?,
        }
    }
    let read = corner.attitude(pose);
    let readings = [read.camber_rad, read.toe_rad, read.caster_rad, read.inclination_rad];
    prop_assert!(readings.into_iter().all(f64::is_finite), "{read:?}");
    let lengths = [read.scrub_radius_mm, read.trail_mm];
    prop_assert!(lengths.into_iter().all(f64::is_finite), "{read:?} at {pose:?}");
    prop_assert!(finite(&read.contact), "{read:?} at {pose:?}");
    let mounts = corner.mounts();
    let board = drawing_board(pose, &mounts.lower, &mounts.upper, corner.loaded_radius_mm());
    for seen in [Ok(board), corner.instant_centre(pose)].into_iter().flatten() {
        let roll = seen.roll_centre_mm.is_none_or(f64::is_finite);
        let slope = seen.slope.is_none_or(f64::is_finite);
        let centre = seen.centre.is_none_or(|p| p.y.is_finite() && p.z.is_finite());
        prop_assert!(roll && slope && centre, "{seen:?} at {pose:?}");
    }
    Ok(())
}

fn finite(point: &Point3<f64>) -> bool {
    point.iter().all(|c| c.is_finite())
}

fn finite_motion(motion: &Motion, pose: &Pose) -> bool {
    finite(&Point3::from(motion.turning))
        && finite(&Point3::from(motion.at(&pose.wheel_centre)))
        && motion.upper_arm.is_finite()
}

fn numbers_of(why: Unreached) -> Result<(), TestCaseError> {
    match why {
        Unreached::Open { gap_mm, .. } => prop_assert!(gap_mm.is_finite() && gap_mm >= 0.0),
        Unreached::Height { nearest_mm } => prop_assert!(nearest_mm.is_finite()),
        Unreached::Heading { nearest_rad } => prop_assert!(nearest_rad.is_finite()),
        _ => {}
    }
    prop_assert!(!why.to_string().is_empty());
    Ok(())
}

/// Lengths from nothing to absurd, and often from a coarse grid, on which points
/// fall together and lines stand upright or lie level exactly.
fn length((kind, unit): (u8, f64)) -> f64 {
    match kind {
        0..6 => (unit * 3.0).round() * 100.0,
        6..12 => unit * 800.0,
        12 => unit * 20_000.0,
        13 => (unit * 2.0).round() * 10_000.0,
        14 => unit * 1e-9,
        _ => unit * 1e-300,
    }
}

/// Points of anything, and a loaded radius.
fn any_points() -> impl Strategy<Value = (Hardpoints, f64)> {
    let angle = || prop_oneof![Just(0.0), -0.785..0.785];
    let numbers = prop::collection::vec((0..16_u8, -1.0..=1.0), 28);
    (numbers, angle(), angle()).prop_map(|(numbers, camber_rad, toe_rad)| {
        let mut numbers = numbers.into_iter().map(length);
        let mut number = || numbers.next().unwrap();
        let mut point = || Point3::new(number(), number(), number());
        let mut arm = || ArmPoints { front: point(), rear: point(), ball: point() };
        let (lower, upper) = (arm(), arm());
        let points = Hardpoints {
            lower,
            upper,
            wheel_centre: point(),
            camber_rad,
            toe_rad,
            tie_inner: point(),
            tie_outer: point(),
        };
        (points, number())
    })
}
