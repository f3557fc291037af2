//! The corners that `reference/scipy` solves, read from the file it reads.

use linkage::{ArmPoints, Corner, Hardpoints, Point3};
use serde_json::Value;

const TRUCKS: &str = include_str!("../../reference/scipy/trucks.json");

/// The trucks in the order of the file.
///
/// # Panics
/// When the file is no list.
#[must_use]
pub fn trucks() -> Vec<Value> {
    let all: Value = serde_json::from_str(TRUCKS).expect("trucks.json is JSON");
    all.as_array().expect("trucks.json is a list").clone()
}

/// A point of a truck, mm.
///
/// # Panics
/// When it is not there.
#[must_use]
pub fn point(truck: &Value, key: &str) -> Point3<f64> {
    let number = |at: usize| {
        let number = truck[key][at].as_f64();
        number.unwrap_or_else(|| panic!("{key}[{at}] of {}", truck["name"]))
    };
    Point3::new(number(0), number(1), number(2))
}

/// The corner of a truck on its own mounts.
///
/// # Panics
/// When a number is missing, or the points are no corner.
#[must_use]
pub fn corner(truck: &Value) -> Corner {
    let number = |key: &str| {
        let number = truck[key].as_f64();
        number.unwrap_or_else(|| panic!("{key} of {}", truck["name"]))
    };
    let points = Hardpoints {
        lower: arm(truck, "lower"),
        upper: arm(truck, "upper"),
        wheel_centre: point(truck, "wheel_centre_mm"),
        camber_rad: number("camber_deg").to_radians(),
        toe_rad: number("toe_deg").to_radians(),
        tie_inner: point(truck, "tie_inner_mm"),
        tie_outer: point(truck, "tie_outer_mm"),
    };
    Corner::of(&points, number("loaded_radius_mm")).expect("every truck of the file is a corner")
}

fn arm(truck: &Value, name: &str) -> ArmPoints {
    ArmPoints {
        front: point(truck, &format!("{name}_front_mm")),
        rear: point(truck, &format!("{name}_rear_mm")),
        ball: point(truck, &format!("{name}_ball_mm")),
    }
}
