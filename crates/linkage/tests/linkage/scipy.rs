//! Every pose of ten corners over travel and steer, against `SciPy`.
//!
//! Source: `tests/reference/scipy`, which solves the lengths of the members
//! numerically; its README says how.

use linkage::{Attitude, Corner, Pose, Vector3};
use yardstick::budget::{Budget, Errors};
use yardstick::table::{Row, Table};
use yardstick::trucks::{corner, point, trucks};

const POSES: &str = include_str!("../../../../tests/reference/scipy/poses.csv");

/// Ten trucks, five places of the relay rod, nine travels. It may grow, never shrink.
const FEWEST_ROWS: usize = 450;

/// The reference leaves a residual of up to 1e-10 mm; at the end of the travel a
/// linkage can pass a hundred times that on. Angles in degrees have room to spare.
const BUDGET: Budget = Budget { q50: 1e-10, q99: 1e-9, max: 1e-7 };

/// Everything the table holds, by its header.
fn outputs(corner: &Corner, pose: &Pose, read: &Attitude) -> Vec<(String, f64)> {
    let turn = pose.lower_arm_rad - corner.measured_angle_rad();
    let mut all: Vec<_> = [
        ("turn_deg", turn.to_degrees()),
        ("camber_deg", read.camber_rad.to_degrees()),
        ("toe_deg", read.toe_rad.to_degrees()),
        ("caster_deg", read.caster_rad.to_degrees()),
        ("inclination_deg", read.inclination_rad.to_degrees()),
        ("scrub_radius_mm", read.scrub_radius_mm),
        ("trail_mm", read.trail_mm),
    ]
    .map(|(header, value)| (header.to_owned(), value))
    .into();
    for (name, point) in [
        ("lower_ball", pose.lower_ball),
        ("upper_ball", pose.upper_ball),
        ("tie_outer", pose.tie_outer),
        ("wheel_centre", pose.wheel_centre),
        ("contact", read.contact),
    ] {
        for (axis, value) in ["x", "y", "z"].into_iter().zip(point.iter()) {
            all.push((format!("{name}_{axis}_mm"), *value));
        }
    }
    all
}

fn pose_of(corner: &Corner, rest_mm: f64, row: &Row<'_>) -> Pose {
    let [x, y, z] = ["link_x_mm", "link_y_mm", "link_z_mm"].map(|header| row.number(header));
    let wheel_mm = rest_mm + row.number("travel_mm");
    corner
        .at_height(wheel_mm, Vector3::new(x, y, z))
        .unwrap_or_else(|why| panic!("{} at {wheel_mm} mm: {why}", row.text("truck")))
}

#[test]
fn every_pose_of_the_table() {
    let table = Table::read(POSES);
    assert!(table.len() >= FEWEST_ROWS, "{} rows left of {FEWEST_ROWS}", table.len());
    let mut errors: Vec<Errors> = Vec::new();
    let mut compared = 0;
    for truck in trucks() {
        let corner = corner(&truck);
        let rest_mm = point(&truck, "wheel_centre_mm").z;
        for row in table.rows().filter(|row| *row.text("truck") == truck["name"]) {
            let pose = pose_of(&corner, rest_mm, &row);
            let outputs = outputs(&corner, &pose, &corner.attitude(&pose));
            if errors.is_empty() {
                errors = outputs.iter().map(|(header, _)| Errors::of(header)).collect();
            }
            for (errors, (header, got)) in errors.iter_mut().zip(&outputs) {
                errors.add(*got, row.number(header));
            }
            compared += 1;
        }
    }
    assert_eq!(compared, table.len(), "rows of a truck that is not there");
    for errors in errors {
        errors.within(BUDGET);
    }
}
