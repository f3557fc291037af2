//! A passenger car's spatial double wishbone as a file, through `scrubline sweep`.
//!
//! Source: Rill & Castro, *Road Vehicle Dynamics: Fundamentals and Modeling*,
//! CRC Press, double-wishbone listing.
//!
//! A file keeps lengths to 0.01 mm. The points are whole millimetres from the
//! wheel centre, so raising them all by 284.97 mm loses nothing. The loaded
//! radius is not in the file: it follows from wheel centre and camber, 284.9978
//! instead of 285 mm. Angles do not depend on it; a roll centre does, by no more
//! than those 0.0022 mm, which are added to half of the source's last digit.

use crate::{number, piped, printed, reference, rows, scrubline};
use std::collections::BTreeMap;

/// Rise mm; lower arm against rest, camber, caster, inclination, toe in degrees.
/// At rest the table prints a camber of 0.7999 for an input of 0.8.
const TABLE: [[f64; 6]; 3] = [
    [-50.0, -7.0662, -0.1977, 5.3221, 11.4934, -0.1522],
    [0.0, 0.0, 0.7999, 7.0561, 10.5182, 0.0],
    [50.0, 6.9026, 0.8746, 8.7659, 10.4722, 0.1136],
];

const ANGLE_TOLERANCE: f64 = 1.5e-4;
const ROLL_CENTRE_TOLERANCE: f64 = 0.005 + 0.0022;

const SPAN: [&str; 8] = ["--from", "-50mm", "--to", "50mm", "--steps", "3", "--decimals", "6"];

fn near(value: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((value - expected).abs() <= tolerance, "{what}: {value}, expected {expected}");
}

fn poses() -> Vec<BTreeMap<String, String>> {
    let file = reference("published_car.json");
    let mut arguments = vec!["sweep", file.to_str().unwrap()];
    arguments.extend(SPAN);
    rows(&printed(&scrubline(&arguments)))
}

#[test]
fn the_table_over_the_travel() {
    let poses = poses();
    let arm_at_rest = number(&poses[1], "lower_arm_deg");
    assert_eq!(poses.len(), TABLE.len());
    for (pose, [rise, arm, camber, caster, inclination, toe]) in poses.iter().zip(TABLE) {
        near(number(pose, "travel_mm"), rise, 0.0, "travel");
        near(number(pose, "lower_arm_deg") - arm_at_rest, arm, ANGLE_TOLERANCE, "lower arm");
        near(number(pose, "camber_deg"), camber, ANGLE_TOLERANCE, "camber");
        near(number(pose, "caster_deg"), caster, ANGLE_TOLERANCE, "caster");
        near(number(pose, "inclination_deg"), inclination, ANGLE_TOLERANCE, "inclination");
        near(number(pose, "toe_deg"), toe, ANGLE_TOLERANCE, "toe");
        assert_eq!(pose["status"], "ok");
    }
}

#[test]
fn the_spring_holds_the_truck_where_it_was_measured() {
    // The free angle of the bar follows from height and load, so the balance must give them back.
    let rest = &poses()[1];
    near(number(rest, "wheel_z_mm"), 284.97, 1e-6, "wheel center");
    near(number(rest, "ride_height_mm"), 300.0, 1e-6, "the rail's bottom as the defaults have it");
    near(number(rest, "camber_deg"), 0.8, 1e-6, "camber as it was typed");
}

#[test]
fn both_roll_centres_at_rest() {
    let rest = &poses()[1];
    near(number(rest, "roll_centre_mm"), 86.01, ROLL_CENTRE_TOLERANCE, "by motion");
    near(number(rest, "roll_centre_board_mm"), 83.18, ROLL_CENTRE_TOLERANCE, "by construction");
}

/// With the tie rod's line nearly meeting the line in which the arms' planes
/// cross, the source has 83.181 by motion and 83.179 by construction: within
/// 0.005 mm of each other.
#[test]
fn the_roll_centres_agree_where_the_tie_rod_meets_the_common_line() {
    let text = std::fs::read_to_string(reference("published_car.json")).unwrap();
    let mut file: serde_json::Value = serde_json::from_str(&text).unwrap();
    file["truck"]["points"]["tie_inner"] = serde_json::json!({ "x": -137, "y": 378.87, "z": 284.97 - 43.65 });
    let mut arguments = vec!["sweep", "-"];
    arguments.extend(SPAN);
    let poses = rows(&printed(&piped(&arguments, &file.to_string())));
    let by_motion = number(&poses[1], "roll_centre_mm");
    let by_construction = number(&poses[1], "roll_centre_board_mm");
    near(by_motion, by_construction, 0.005, "motion against construction");
    // Half of the last digit, and what the radius adds.
    near(by_motion, 83.181, 0.0005 + 0.0022, "by motion");
    near(by_construction, 83.179, 0.0005 + 0.0022, "by construction");
}
