//! A passenger car's spatial double wishbone, against the published table.
//!
//! Source: Rill & Castro, *Road Vehicle Dynamics: Fundamentals and Modeling*,
//! CRC Press, double-wishbone listing. The points are in `yardstick::published`.

use linkage::{ArmPoints, Corner, Point3, Vector3, drawing_board};
use yardstick::budget::near;
use yardstick::published::{LOADED_RADIUS_MM, points};

fn corner() -> Corner {
    Corner::of(&points(), LOADED_RADIUS_MM).unwrap()
}

/// Rise mm; lower arm, camber, caster, inclination, toe in degrees; half-track mm.
const TABLE: [[f64; 7]; 3] = [
    [-50.0, -7.0662, -0.1977, 5.3221, 11.4934, -0.1522, -7.6338],
    [0.0, 0.0, 0.7999, 7.0561, 10.5182, 0.0, 0.0],
    [50.0, 6.9026, 0.8746, 8.7659, 10.4722, 0.1136, 3.5022],
];

#[test]
fn the_table_over_the_travel() {
    let corner = corner();
    let rest = corner.at_height(0.0, Vector3::zeros()).unwrap();
    let contact = rest.knuckle.local(&rest.contact(LOADED_RADIUS_MM));
    let start = rest.knuckle.carry(&contact).y;
    for [rise, arm, camber, caster, inclination, toe, half_track] in TABLE {
        let pose = corner.at_height(rise, Vector3::zeros()).unwrap();
        let read = corner.attitude(&pose);
        let turned = (pose.lower_arm_rad - rest.lower_arm_rad).to_degrees();
        near(turned, arm, 1.5e-4, "lower arm");
        near(read.camber_rad.to_degrees(), camber, 1.5e-4, "camber");
        near(read.caster_rad.to_degrees(), caster, 1.5e-4, "caster");
        near(read.inclination_rad.to_degrees(), inclination, 1.5e-4, "inclination");
        near(read.toe_rad.to_degrees(), toe, 1.5e-4, "toe");
        near(pose.knuckle.carry(&contact).y - start, half_track, 1.5e-4, "half-track");
    }
}

#[test]
fn scrub_and_trail_at_rest() {
    let corner = corner();
    let rest = corner.at_height(0.0, Vector3::zeros()).unwrap();
    let read = corner.attitude(&rest);
    near(read.contact.y, 764.021, 6e-4, "contact");
    // The axis meets the ground inboard of the contact.
    near(read.scrub_radius_mm.abs(), 1.033, 6e-4, "scrub radius");
    near(read.trail_mm, 30.326, 6e-4, "trail");
}

#[test]
fn roll_centre_by_motion_and_by_drawing_board() {
    let corner = corner();
    let rest = corner.at_height(0.0, Vector3::zeros()).unwrap();
    let motion = corner.instant_centre(&rest).unwrap();
    near(motion.roll_centre_mm.unwrap(), 86.01, 6e-3, "by motion");
    let mounts = corner.mounts();
    let board = drawing_board(&rest, &mounts.lower, &mounts.upper, LOADED_RADIUS_MM);
    near(board.roll_centre_mm.unwrap(), 83.18, 6e-3, "by construction");
}

#[test]
fn the_two_roll_centres_agree_where_the_tie_rod_meets_the_common_line() {
    let mut points = points();
    points.tie_inner = Point3::new(-137.0, 378.87, -43.65);
    let corner = Corner::of(&points, LOADED_RADIUS_MM).unwrap();
    let rest = corner.at_height(0.0, Vector3::zeros()).unwrap();
    let mounts = corner.mounts();
    let motion = corner.instant_centre(&rest).unwrap().roll_centre_mm.unwrap();
    let board = drawing_board(&rest, &mounts.lower, &mounts.upper, LOADED_RADIUS_MM);
    near(motion, 83.181, 6e-3, "by motion");
    near(board.roll_centre_mm.unwrap(), motion, 5e-3, "construction against motion");
}

/// The identity behind the case above, to rounding: the inner end is put where
/// the tie rod's line meets the line in which the arms' planes cross.
#[test]
fn the_identity_of_the_two_roll_centres() {
    let mut points = points();
    let normal = |arm: &ArmPoints| (arm.front - arm.rear).cross(&(arm.ball - arm.rear));
    let (n1, n2) = (normal(&points.lower), normal(&points.upper));
    let common = n1.cross(&n2);
    // The point of the common line nearest to the outer end's place along the truck.
    let rows = nalgebra::Matrix3::from_rows(&[n1.transpose(), n2.transpose(), Vector3::x().transpose()]);
    let right = Vector3::new(
        n1.dot(&points.lower.rear.coords),
        n2.dot(&points.upper.rear.coords),
        points.tie_outer.x,
    );
    let on_line = Point3::from(rows.lu().solve(&right).unwrap()) + common * 1e-5;
    points.tie_inner = nalgebra::center(&points.tie_outer, &on_line);
    let corner = Corner::of(&points, LOADED_RADIUS_MM).unwrap();
    let rest = corner.pose(corner.measured_angle_rad(), Vector3::zeros()).unwrap();
    let mounts = corner.mounts();
    let motion = corner.instant_centre(&rest).unwrap();
    let board = drawing_board(&rest, &mounts.lower, &mounts.upper, LOADED_RADIUS_MM);
    near(motion.roll_centre_mm.unwrap(), board.roll_centre_mm.unwrap(), 1e-9, "roll center");
}
