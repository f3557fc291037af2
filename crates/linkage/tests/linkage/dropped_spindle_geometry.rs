//! A dropped spindle as geometry: the pin up the knuckle, nothing else moved.
//!
//! On the published car. What the body does on its springs is no matter here: at
//! the same arm angle the contact stands higher against the body, which is how
//! far the body comes down.

use linkage::{Corner, Hardpoints, Pose, Vector3};
use yardstick::budget::near;
use yardstick::published::{LOADED_RADIUS_MM, points};

const DROP_MM: f64 = 50.8;

/// The published car as measured, and with its pin moved by `shift` in the measured state.
fn before_and_after(shift: Vector3<f64>) -> (Corner, Corner) {
    let measured = points();
    let changed = Hardpoints { wheel_centre: measured.wheel_centre + shift, ..measured };
    let on = |parts| Corner::on(&measured, parts, &measured.mounts(), LOADED_RADIUS_MM).unwrap();
    (on(measured.members().unwrap()), on(changed.members().unwrap()))
}

fn at_rest(corner: &Corner) -> Pose {
    corner.pose(corner.measured_angle_rad(), Vector3::zeros()).unwrap()
}

#[test]
fn only_the_wheel_moves_in_the_parts() {
    let measured = points();
    let mut changed = measured;
    changed.wheel_centre.z += DROP_MM;
    let (before, after) = (measured.members().unwrap(), changed.members().unwrap());
    assert_eq!(before.lower, after.lower);
    assert_eq!(before.upper, after.upper);
    assert_eq!(before.tie_rod_mm.to_bits(), after.tie_rod_mm.to_bits());
    assert_eq!(before.knuckle.spin, after.knuckle.spin);
    let moved = (after.knuckle.wheel_centre - before.knuckle.wheel_centre).norm();
    near(moved, DROP_MM, 1e-12, "the pin in the knuckle");
}

/// Identities; the two figures computed independently of this code.
#[test]
fn at_the_same_arm_angle() {
    let (before, after) = before_and_after(Vector3::z() * DROP_MM);
    let (was, is) = (at_rest(&before), at_rest(&after));
    let (read, now) = (before.attitude(&was), after.attitude(&is));
    let angle = after.measured_angle_rad() - before.measured_angle_rad();
    near(angle, 0.0, 0.0, "lower arm");
    near(now.contact.z - read.contact.z, DROP_MM, 1e-9, "the body, down");
    near(now.camber_rad, read.camber_rad, 1e-15, "camber");
    near(now.toe_rad, read.toe_rad, 1e-15, "toe");
    near(now.caster_rad, read.caster_rad, 1e-15, "caster");
    near(now.inclination_rad, read.inclination_rad, 1e-15, "inclination");
    let scrub = now.scrub_radius_mm - read.scrub_radius_mm;
    near(scrub.abs(), DROP_MM * libm::tan(read.inclination_rad), 1e-9, "scrub radius");
    near(scrub.abs(), 9.43, 6e-3, "scrub radius");
    let trail = now.trail_mm - read.trail_mm;
    near(trail.abs(), DROP_MM * libm::tan(read.caster_rad), 1e-9, "trail");
    near(trail.abs(), 6.29, 6e-3, "trail");
    // The axis meets a ground that stands higher: farther inboard and less far ahead.
    assert!(scrub > 0.0 && trail < 0.0, "{scrub} {trail}");
}

/// Each against its own rest, since each rests where its springs hold it.
#[test]
fn camber_over_the_travel() {
    let (before, after) = before_and_after(Vector3::z() * DROP_MM);
    let camber_deg = |corner: &Corner, travel: f64| {
        let rest = at_rest(corner).wheel_centre.z;
        let pose = corner.at_height(rest + travel, Vector3::zeros()).unwrap();
        pose.camber_rad().to_degrees()
    };
    let mut widest = 0.0_f64;
    for step in -60..=60 {
        let travel = f64::from(step);
        let apart = camber_deg(&after, travel) - camber_deg(&before, travel);
        near(apart, 0.0, 0.005, "camber against own-rest travel, deg");
        widest = widest.max(apart.abs());
    }
    // The wheel is another one, so the curves are not the same either.
    assert!(widest > 1e-6, "{widest}");
}

/// A pin moved along the steering axis loses the cosine of the axis's lean:
/// 1.22 mm of 50.8, computed independently.
#[test]
fn along_the_steering_axis_the_body_comes_short() {
    let axis = points().upper.ball - points().lower.ball;
    let (before, after) = before_and_after(axis * (DROP_MM / axis.norm()));
    let down = at_rest(&after).wheel_centre.z - at_rest(&before).wheel_centre.z;
    near(DROP_MM - down, 1.22, 6e-3, "short of the drop");
}
