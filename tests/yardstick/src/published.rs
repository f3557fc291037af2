//! A passenger car's spatial double wishbone, as published.
//!
//! Source: Rill & Castro, *Road Vehicle Dynamics: Fundamentals and Modeling*,
//! CRC Press, double-wishbone listing: points and the table of its kinematics.
//! Metres there, millimetres here; the origin stands at wheel-centre height.
//! The table takes the contact as a point fixed to the knuckle for half-track,
//! scrub and trail.

use linkage::{ArmPoints, Hardpoints, Point3};

/// Wheel centre to ground, mm.
pub const LOADED_RADIUS_MM: f64 = 285.0;

/// The points of the left corner at rest, wheel centre at height zero.
#[must_use]
pub fn points() -> Hardpoints {
    Hardpoints {
        lower: ArmPoints {
            front: Point3::new(148.0, 320.0, -94.0),
            rear: Point3::new(-251.0, 320.0, -80.0),
            ball: Point3::new(13.0, 737.0, -145.0),
        },
        upper: ArmPoints {
            front: Point3::new(122.0, 435.0, 230.0),
            rear: Point3::new(-105.0, 435.0, 196.0),
            ball: Point3::new(-25.0, 680.0, 162.0),
        },
        wheel_centre: Point3::new(0.0, 768.0, 0.0),
        camber_rad: 0.8_f64.to_radians(),
        toe_rad: 0.0,
        tie_inner: Point3::new(-150.0, 380.0, -38.0),
        tie_outer: Point3::new(-137.0, 690.0, -88.0),
    }
}
