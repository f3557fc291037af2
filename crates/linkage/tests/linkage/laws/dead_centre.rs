//! Steering up to the dead centre of the tie rod and not past it: against the plane
//! triangle of steering arm, tie rod and relay rod, and against a walk in small steps.

use linkage::{ArmPoints, Corner, Hardpoints, Joint, Point3, Pose, Unreached, Vector3};
use yardstick::budget::near;
use yardstick::generate::{Dice, pickup};

/// A corner on level, equal and parallel arms with an upright steering axis at `y` 650,
/// the steering arm 130 mm ahead of it, the rod 330 mm: from above, a plane triangle.
fn upright() -> Corner {
    let arm = |z: f64| ArmPoints {
        front: Point3::new(150.0, 300.0, z),
        rear: Point3::new(-150.0, 300.0, z),
        ball: Point3::new(0.0, 650.0, z),
    };
    let points = Hardpoints {
        lower: arm(250.0),
        upper: arm(480.0),
        wheel_centre: Point3::new(0.0, 720.0, 312.0),
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner: Point3::new(130.0, 320.0, 320.0),
        tie_outer: Point3::new(130.0, 650.0, 320.0),
    };
    Corner::of(&points, 312.0).unwrap()
}

/// The inner end lies on the line 130 mm ahead of the axis. It goes left until arm and
/// rod fold on each other, `r = 330 − 130`, and right until they stretch, `r = 330 + 130`;
/// between, the law of cosines gives the steering arm's angle.
#[test]
fn the_triangle_s_own_ends() {
    let corner = upright();
    let (ahead, arm, rod) = (130.0_f64, 130.0_f64, 330.0_f64);
    let folded = rod - (200.0_f64.powi(2) - ahead.powi(2)).sqrt();
    let stretched = rod - (460.0_f64.powi(2) - ahead.powi(2)).sqrt();
    let at = |relay: f64| corner.at_height(312.0, Vector3::y() * relay);
    for (end, out) in [(folded, 1.0), (stretched, -1.0)] {
        assert!(at(end + out * 0.01).is_err(), "past {end}");
        for short in [0.01, 0.1, 1.0, 7.0, 60.0] {
            let relay = end - out * short;
            let (y, r) = (relay - rod, libm::hypot(ahead, relay - rod));
            let from_inner = libm::acos((arm * arm + r * r - rod * rod) / (2.0 * arm * r));
            let heading = libm::atan2(y, ahead) + from_inner;
            near(at(relay).unwrap().heading_rad(), heading, 1e-9, "heading");
        }
    }
    // Beyond the fold the triangle closes again, on the axis's other side.
    for relay in [folded + 310.0, 700.0, 760.0] {
        assert!(corner.pose(0.0, Vector3::y() * relay).is_ok(), "{relay} closes");
        assert_eq!(at(relay).unwrap_err(), Unreached::DeadCentre(Joint::TieRodOuter), "{relay}");
    }
}

/// The pose at the height nearest to the last one, by a scan of the arm's angle alone:
/// crossings of the height between angles that close, and up to the last that does.
fn beside(corner: &Corner, last: &Pose, height: f64, relay: Vector3<f64>) -> Option<Pose> {
    let at = |angle: f64| corner.pose(angle, relay).ok();
    let over = |pose: &Pose| pose.wheel_centre.z > height;
    // Closer where it was: near the end two crossings lie close together.
    let apart = |i: i32| 0.03 * (f64::from(i) / 30.0).powi(3);
    let angles: Vec<f64> = (-30..=30).map(|i| last.lower_arm_rad + apart(i)).collect();
    let halve = |mut a: f64, mut b: f64, like_a: &dyn Fn(f64) -> bool| {
        for _ in 0..50 {
            let half = a.midpoint(b);
            *(if like_a(half) { &mut a } else { &mut b }) = half;
        }
        (a, b)
    };
    let mut found: Vec<Pose> = Vec::new();
    for pair in angles.windows(2) {
        let (low, high) = match (at(pair[0]), at(pair[1])) {
            (Some(_), Some(_)) => (pair[0], pair[1]),
            (Some(_), None) => (pair[0], halve(pair[0], pair[1], &|angle| at(angle).is_some()).0),
            (None, Some(_)) => (halve(pair[1], pair[0], &|angle| at(angle).is_some()).0, pair[1]),
            (None, None) => continue,
        };
        if over(&at(low)?) != over(&at(high)?) {
            let from = over(&at(low)?);
            found.extend(at(halve(low, high, &|angle| at(angle).is_some_and(|pose| over(&pose) == from)).0));
        }
    }
    let turn = |pose: &Pose| (pose.heading_rad() - last.heading_rad()).abs();
    found.into_iter().min_by(|a, b| turn(a).total_cmp(&turn(b))).filter(|pose| turn(pose) < 0.1)
}

/// The relay rod walked out from straight ahead as far as the wheel follows without a jump.
fn walk(corner: &Corner, height: f64, way: Vector3<f64>) -> Vec<(f64, Pose)> {
    let mut all = vec![(0.0, corner.at_height(height, Vector3::zeros()).unwrap())];
    let mut step = 4.0;
    while step > 1e-4 {
        let (relay, last) = all[all.len() - 1];
        match beside(corner, &last, height, way * (relay + step)) {
            Some(pose) if relay < 500.0 => all.push((relay + step, pose)),
            Some(_) => break,
            None => step /= 2.0,
        }
    }
    all
}

#[test]
fn steering_ends_where_a_walk_in_small_steps_ends() {
    let mut dice = Dice::of(61);
    let (mut ends, mut far) = (0, 0);
    for number in 0..12 {
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        let height = sample.points.wheel_centre.z + dice.between(-50.0, 50.0);
        for way in [Vector3::y(), -Vector3::y()] {
            let walked = walk(&corner, height, way);
            let (end, _) = walked[walked.len() - 1];
            let what = format!("corner {number}, {way:?} to {end}");
            let start = walked[0].1.heading_rad();
            for (relay, pose) in walked.iter().filter(|(relay, _)| *relay < end - 0.01) {
                let found = corner.at_height(height, way * *relay);
                let found = found.unwrap_or_else(|why| panic!("{what}: {relay}: {why}"));
                // A hair of the relay rod is a root's worth of heading at the very end.
                let slack = 1e-6 / (end - relay);
                near(found.heading_rad(), pose.heading_rad(), slack.max(1e-7), &what);
                far += u32::from((found.heading_rad() - start).abs() > 1.0);
            }
            if end < 499.0 {
                ends += 1;
                for beyond in [0.01, 1.0, 40.0, 150.0, 300.0, 500.0] {
                    let past = corner.at_height(height, way * (end + beyond));
                    assert!(
                        past.is_err(),
                        "{what}: {beyond} past the end is {:?}",
                        past.map(|p| p.heading_rad())
                    );
                }
            }
        }
    }
    assert!(ends >= 20 && far > 100, "{ends} ends, {far} far round");
}
