//! The planar four-bar of the textbooks, run as a corner with pivot axes along `x`.
//!
//! Crank `a` is the lower arm, coupler `b` the knuckle from ball to ball, rocker
//! `c` the upper arm, ground `d` the line from the lower to the upper axis. The
//! ground's line is turned by `ground_rad` from the horizontal, which must change
//! nothing. Angles counter-clockwise seen from the front, from the ground's line.
//!
//! Each corner is put together away from the angle it is then asked for, by two
//! circles cut in the plane; the answers come from the books named.

use linkage::{ArmPoints, Corner, Hardpoints, Motion, Point3, Pose, Vector3};
use std::f64::consts::PI;
use yardstick::budget::near;

#[derive(Clone, Copy)]
struct FourBar {
    a: f64,
    b: f64,
    c: f64,
    d: f64,
}

/// The two ways of putting the four bars together, as in Norton.
#[derive(Clone, Copy)]
enum Assembly {
    Open,
    Crossed,
}

const LOWER_AXIS: (f64, f64) = (300.0, 250.0);

/// Turns of the whole mechanism: pivots side by side, one above the other, in between.
const GROUNDS_DEG: [f64; 4] = [0.0, 90.0, 37.0, -120.0];

impl FourBar {
    const fn of(a: f64, b: f64, c: f64, d: f64) -> Self {
        Self { a, b, c, d }
    }

    /// Coupler and rocker angle at a crank angle, from the ground's line, rad: the
    /// circle about the crank's end met by the circle about the rocker's axis.
    fn angles(&self, crank_rad: f64, assembly: Assembly) -> (f64, f64) {
        let (x, y) = (self.d - self.a * libm::cos(crank_rad), -self.a * libm::sin(crank_rad));
        let diagonal = libm::hypot(x, y);
        let towards = libm::atan2(y, x);
        let inside = |near: f64, far: f64| {
            libm::acos((near * near + diagonal * diagonal - far * far) / (2.0 * near * diagonal))
        };
        let (at_crank, at_axis) = (inside(self.b, self.c), inside(self.c, self.b));
        match assembly {
            Assembly::Open => (towards + at_crank, towards + PI - at_axis),
            Assembly::Crossed => (towards - at_crank, towards + PI + at_axis),
        }
    }

    /// The mechanism as a corner, put together at `built_rad` of the crank.
    fn corner(&self, built_rad: f64, assembly: Assembly, ground_rad: f64) -> Corner {
        let (coupler_rad, _) = self.angles(built_rad, assembly);
        let from = |(y, z): (f64, f64), length: f64, angle: f64| {
            let angle = angle + ground_rad;
            (y + length * libm::cos(angle), z + length * libm::sin(angle))
        };
        let upper_axis = from(LOWER_AXIS, self.d, 0.0);
        let lower_ball = from(LOWER_AXIS, self.a, built_rad);
        let upper_ball = from(lower_ball, self.b, coupler_rad);
        let at = |x: f64, (y, z): (f64, f64)| Point3::new(x, y, z);
        let arm =
            |axis, ball| ArmPoints { front: at(100.0, axis), rear: at(-100.0, axis), ball: at(0.0, ball) };
        let points = Hardpoints {
            lower: arm(LOWER_AXIS, lower_ball),
            upper: arm(upper_axis, upper_ball),
            wheel_centre: at(0.0, lower_ball) + Vector3::new(0.0, 60.0, 80.0),
            camber_rad: 0.0,
            toe_rad: 0.0,
            // A copy of the rocker 120 mm behind it: the knuckle stays in its plane,
            // and the rod meets its dead centre only where the rocker does.
            tie_inner: at(-120.0, upper_axis),
            tie_outer: at(-120.0, upper_ball),
        };
        Corner::of(&points, 300.0).unwrap()
    }

    /// Pose and motion at a crank angle of a corner put together `0.1` rad away.
    fn run(&self, crank_deg: f64, assembly: Assembly, ground_rad: f64) -> (Pose, Motion, Corner) {
        let crank_rad = crank_deg.to_radians();
        let corner = self.corner(crank_rad - 0.1, assembly, ground_rad);
        let pose = corner.pose(crank_rad + ground_rad, Vector3::zeros()).unwrap();
        let motion = corner.bump_motion(&pose).unwrap();
        (pose, motion, corner)
    }
}

/// The angle of the line between two points seen from the front, deg in -180..180.
fn direction_deg(from: Point3<f64>, to: Point3<f64>, ground_rad: f64) -> f64 {
    let along = to - from;
    let (sin, cos) = libm::sincos(ground_rad);
    let (x, y) = (along.y * cos + along.z * sin, along.z * cos - along.y * sin);
    libm::atan2(y, x).to_degrees()
}

fn coupler_and_rocker_deg(corner: &Corner, pose: &Pose, ground_rad: f64) -> (f64, f64) {
    let upper = corner.mounts().upper;
    let axis = nalgebra::center(&upper.front, &upper.rear);
    (
        direction_deg(pose.lower_ball, pose.upper_ball, ground_rad),
        direction_deg(axis, pose.upper_ball, ground_rad),
    )
}

/// Asserts both angles for every turn of the ground.
fn assert_angles(
    bars: FourBar,
    crank_deg: f64,
    assembly: Assembly,
    (coupler_deg, rocker_deg): (f64, f64),
    rounding_deg: f64,
) {
    for ground_rad in GROUNDS_DEG.map(f64::to_radians) {
        let (pose, _, corner) = bars.run(crank_deg, assembly, ground_rad);
        let (coupler, rocker) = coupler_and_rocker_deg(&corner, &pose, ground_rad);
        near(coupler, coupler_deg, rounding_deg, "coupler");
        near(rocker, rocker_deg, rounding_deg, "rocker");
    }
}

const NORTON_4_1: FourBar = FourBar::of(40.0, 120.0, 80.0, 100.0);

/// Norton, *Design of Machinery*, Example 4-1 (lengths as printed; answers from memory).
#[test]
fn norton_example_4_1() {
    assert_angles(NORTON_4_1, 40.0, Assembly::Open, (20.298, 57.325), 6e-4);
    assert_angles(NORTON_4_1, 40.0, Assembly::Crossed, (-60.98, -98.01), 6e-3);
}

/// Norton, Example 6-7: the same mechanism, crank at 25 rad/s (from memory).
#[test]
fn norton_example_6_7() {
    for ground_rad in GROUNDS_DEG.map(f64::to_radians) {
        let (_, motion, _) = NORTON_4_1.run(40.0, Assembly::Open, ground_rad);
        near(25.0 * motion.turning.x, -4.121, 6e-4, "coupler, rad/s");
        near(25.0 * motion.upper_arm, 6.998, 6e-4, "rocker, rad/s");
        assert!(motion.turning.yz().norm() < 1e-12, "out of its plane");
    }
}

/// Norton, Table P4-1, row a (from memory); the lengths ten times as long.
#[test]
fn norton_table_p4_1_row_a() {
    let bars = FourBar::of(20.0, 70.0, 90.0, 60.0);
    assert_angles(bars, 30.0, Assembly::Open, (88.84, 117.29), 6e-3);
    assert_angles(bars, 30.0, Assembly::Crossed, (-115.21, -143.66), 6e-3);
}

/// Khurmi & Gupta, *Theory of Machines*, Example 6.1 (seen in part): answers
/// measured off a drawing, so within a hundredth.
#[test]
#[expect(clippy::approx_constant, reason = "the book's answer is near a turn by chance")]
fn khurmi_example_6_1() {
    let bars = FourBar::of(300.0, 360.0, 360.0, 600.0);
    let crank_rad_s = 100.0 * 2.0 * PI / 60.0;
    for ground_rad in GROUNDS_DEG.map(f64::to_radians) {
        let (pose, motion, corner) = bars.run(60.0, Assembly::Open, ground_rad);
        let coupler_rad_s = (motion.turning.x * crank_rad_s).abs();
        near(coupler_rad_s, 6.283, 0.06283, "coupler, rad/s");
        let centre = corner.instant_centre(&pose).unwrap().centre.unwrap();
        let from_ball = libm::hypot(centre.y - pose.lower_ball.y, centre.z - pose.lower_ball.z);
        near(from_ball, 500.0, 5.0, "instant center from crank's end, mm");
    }
}

/// Khurmi & Gupta, Example 7.1 (seen in part): answers measured off a drawing.
#[test]
fn khurmi_example_7_1() {
    let bars = FourBar::of(40.0, 150.0, 80.0, 150.0);
    let crank_rad_s = 120.0 * 2.0 * PI / 60.0;
    for ground_rad in GROUNDS_DEG.map(f64::to_radians) {
        let (pose, motion, _) = bars.run(60.0, Assembly::Open, ground_rad);
        near((motion.upper_arm * crank_rad_s).abs(), 4.8, 0.048, "rocker, rad/s");
        let end = motion.at(&pose.upper_ball).norm() * crank_rad_s / 1000.0;
        near(end, 0.385, 0.00385, "rocker's end, m/s");
    }
}

/// A crank that turns all the way round (Grashof: shortest and longest together
/// are less than the other two) stays in its assembly, and every angle is that of
/// the two circles. Camber follows the coupler and nothing else.
#[test]
fn a_whole_turn_in_either_assembly() {
    for assembly in [Assembly::Open, Assembly::Crossed] {
        let corner = NORTON_4_1.corner(0.7, assembly, 0.0);
        let built = NORTON_4_1.angles(0.7, assembly).0;
        for step in 0..720 {
            let crank_rad = f64::from(step) * PI / 360.0;
            let (coupler_rad, rocker_rad) = NORTON_4_1.angles(crank_rad, assembly);
            let pose = corner.pose(crank_rad, Vector3::zeros()).unwrap();
            let (coupler, rocker) = coupler_and_rocker_deg(&corner, &pose, 0.0);
            let apart = |got_deg: f64, want_rad: f64| {
                libm::remainder(got_deg.to_radians() - want_rad, 2.0 * PI).abs()
            };
            assert!(apart(coupler, coupler_rad) < 1e-12, "coupler at {step}");
            assert!(apart(rocker, rocker_rad) < 1e-12, "rocker at {step}");
            let turned = coupler_rad - built;
            let spin = Vector3::new(0.0, libm::cos(turned), libm::sin(turned));
            assert!((pose.spin - spin).norm() < 1e-12, "spin axis at {step}");
        }
    }
}
