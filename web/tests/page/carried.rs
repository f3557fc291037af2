//! A drag in motion: what hangs on a member is moved in that member's own frame.
//!
//! The picture shows the truck at some travel, the numbers are those of the
//! measured pose. A movement of the finger must come out as the same movement
//! of the point at the travel shown.

use crate::support::{dragged, edit, measured_at, on_measured, uneven};
use drawing::Handle;
use linkage::Vector3;
use page::sketch::gesture::Snap;
use truck::{Edit, Field};
use wasm_bindgen_test::wasm_bindgen_test;

/// What the kept step of 0.01 mm and the way lost fore and aft may make, mm.
const WITHIN_MM: f64 = 0.02;

/// Rodrigues' rotation: `v` turned about a unit axis.
fn turned(v: &Vector3<f64>, axis: &Vector3<f64>, angle: f64) -> Vector3<f64> {
    let (sin, cos) = angle.sin_cos();
    v * cos + axis.cross(v) * sin + axis * (axis.dot(v) * (1.0 - cos))
}

#[wasm_bindgen_test(unsupported = test)]
fn a_ball_is_carried_by_its_arm() {
    let design = uneven();
    let points = design.truck.points;
    for travel_mm in [-50.0, -20.0, 0.0, 25.0, 45.0] {
        let (rest, pose) = measured_at(&design, travel_mm);
        let measured = rest.corner.pose(rest.corner.measured_angle_rad(), Vector3::zeros()).unwrap();
        let turns = [
            pose.lower_arm_rad - measured.lower_arm_rad,
            rest.corner.upper_arm_rad(&pose) - rest.corner.upper_arm_rad(&measured),
        ];
        for (at, handle, arm) in [(0, Handle::LowerBall, points.lower), (1, Handle::UpperBall, points.upper)]
        {
            // About the axis from the rear pivot to the front one, a left ball rises.
            let axis = (arm.front - arm.rear).normalize();
            for (out_mm, up_mm) in [(12.0, 0.0), (0.0, 9.0), (-8.0, 6.0)] {
                let start = on_measured(&design, handle, Some((rest.corner, pose)));
                let after = dragged(&start, out_mm, up_mm, Snap::Off).truck.points;
                let ball = if at == 0 { after.lower.ball - arm.ball } else { after.upper.ball - arm.ball };
                let seen = turned(&ball, &axis, turns[at]);
                let off = (seen.y - out_mm).abs().max((seen.z - up_mm).abs());
                assert!(off < WITHIN_MM, "{handle:?} at {travel_mm} mm: {seen:?} for {out_mm}, {up_mm}");
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn without_the_arm_a_carried_ball_would_be_felt() {
    // The test above tells a carried ball from one that is not: the numbers differ by more.
    let design = uneven();
    let (rest, pose) = measured_at(&design, 45.0);
    let carried = on_measured(&design, Handle::LowerBall, Some((rest.corner, pose)));
    let plain = on_measured(&design, Handle::LowerBall, None);
    let ball = |start| dragged(start, 12.0, 0.0, Snap::Off).truck.points.lower.ball;
    assert!((ball(&carried) - ball(&plain)).norm() > 10.0 * WITHIN_MM);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_wheel_centre_is_carried_by_its_knuckle() {
    let design = uneven();
    for travel_mm in [-50.0, 0.0, 45.0] {
        let (rest, pose) = measured_at(&design, travel_mm);
        for (out_mm, up_mm) in [(35.0, 0.0), (0.0, -30.0), (-20.0, 25.0)] {
            let start = on_measured(&design, Handle::WheelCentre, Some((rest.corner, pose)));
            let after = dragged(&start, out_mm, up_mm, Snap::Off);
            // Arms, balls and tie rod are as before, so the knuckle stands as before at the same
            // angle of the arm, and only its wheel centre is elsewhere.
            let corner = after.as_measured().corner().unwrap();
            let now = corner.pose(pose.lower_arm_rad, Vector3::zeros()).unwrap();
            assert!((now.upper_ball - pose.upper_ball).norm() < 1e-9);
            let seen = now.wheel_centre - pose.wheel_centre;
            let off = (seen.y - out_mm).abs().max((seen.z - up_mm).abs());
            assert!(off < WITHIN_MM, "at {travel_mm} mm: {seen:?} for {out_mm}, {up_mm}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_bolted_to_the_body_moves_as_it_is_seen() {
    let design = uneven();
    let (rest, pose) = measured_at(&design, 40.0);
    for (handle, out, up) in [
        (Handle::LowerAxis, Field::LowerRearY, Field::LowerRearZ),
        (Handle::UpperAxis, Field::UpperRearY, Field::UpperRearZ),
        (Handle::TieInner, Field::TieInnerY, Field::TieInnerZ),
        (Handle::Rail, Field::RailOuterY, Field::RailBottomZ),
        (Handle::Fender, Field::FenderY, Field::FenderZ),
    ] {
        let start = on_measured(&design, handle, Some((rest.corner, pose)));
        let Edit::MeasureAll(values) = edit(&start, 3.0, -7.0, Snap::Off) else {
            panic!("{handle:?} corrects numbers");
        };
        for (field, by) in [(out, 3.0), (up, -7.0)] {
            let to = values.iter().find(|(found, _)| *found == field).unwrap().1;
            let moved = to - field.get(&design.truck).unwrap();
            assert!((moved - by).abs() < 1e-9, "{field:?} moved by {moved}");
        }
    }
}
