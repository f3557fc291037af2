//! A dropped spindle on its springs: the body comes down by the drop, and
//! nothing else of the stance moves.

use super::{as_measured, rest, sprung_trucks};
use linkage::Vector3;
use study::{Stance, travel_left};
use truck::{Change, DroppedSpindle, Side, Truck};
use yardstick::budget::near;

fn spindle(drop_mm: f64) -> Change {
    Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })
}

/// An identity: the pin is raised along the body's vertical, where the contact
/// follows it and no lever changes, so the spring is where it was.
#[test]
fn the_body_comes_down_by_the_drop() {
    for (name, truck) in sprung_trucks() {
        let before = as_measured(&truck);
        for drop_mm in [50.8, 25.4, -38.1] {
            let after = rest(&truck, &[spindle(drop_mm)]);
            near(before.ride_height_mm() - after.ride_height_mm(), drop_mm, 1e-9, &name);
            near(after.pose.lower_arm_rad, before.pose.lower_arm_rad, 1e-12, &name);
            let (was, is) = (before.attitude(), after.attitude());
            near(is.camber_rad, was.camber_rad, 1e-12, &name);
            near(is.toe_rad, was.toe_rad, 1e-12, &name);
            near(is.caster_rad, was.caster_rad, 1e-12, &name);
            near(is.inclination_rad, was.inclination_rad, 1e-12, &name);
            near(after.effort, before.effort, 1e-9 * before.effort.abs(), &name);
        }
    }
}

/// The same stops at the same arm angles: a spindle keeps the suspension's travel.
#[test]
fn the_stops_keep_their_distance() {
    for (name, truck) in sprung_trucks() {
        let before = travel_left(&as_measured(&truck));
        let after = travel_left(&rest(&truck, &[spindle(50.8)]));
        // The wheel turns with its knuckle, so its centre's path differs a little.
        near(after.touch_mm, before.touch_mm, 0.2, &name);
        near(after.droop_stop_mm, before.droop_stop_mm, 0.2, &name);
    }
}

fn caster_on_ground_deg(truck: &Truck, changes: &[Change]) -> (f64, f64) {
    let rest = rest(truck, changes);
    (rest.attitude_on_ground().caster_rad.to_degrees(), rest.attitude().caster_rad.to_degrees())
}

/// Two inches off the front alone of a wheelbase of 106 in take 1.08° of caster
/// against the ground: atan(2 / 106), and nothing of it against the frame.
#[test]
fn the_nose_takes_caster_with_it() {
    for (name, mut truck) in sprung_trucks() {
        truck.body.wheelbase_mm = 106.0 * 25.4;
        let (was, was_frame) = caster_on_ground_deg(&truck, &[]);
        near(was, was_frame, 1e-9, &name);
        let (is, is_frame) = caster_on_ground_deg(&truck, &[spindle(50.8)]);
        near(is_frame, was_frame, 1e-9, &name);
        near(was - is, 1.08, 5e-3, &name);
        near(was - is, libm::atan(2.0 / 106.0).to_degrees(), 1e-9, &name);
    }
}

/// A rigid body that comes down alike at both ends keeps its pitch, and with it caster
/// against the ground; by how much the rear comes down less, or more, the nose tips:
/// atan of that over the wheelbase, caster less with the nose down. Hand arithmetic.
#[test]
fn a_rear_that_comes_down_too_gives_the_caster_back() {
    for (name, truck) in sprung_trucks() {
        let before = as_measured(&truck).attitude_on_ground();
        let changes = [spindle(50.8)];
        let with = |rear_down_mm: Option<f64>| {
            let overlay = truck::Overlay { changes: &changes, rear_down_mm, ..truck::Overlay::NOTHING };
            Stance::laid(&truck, overlay).unwrap().on(Side::Left)
        };
        let both = with(Some(50.8));
        near(both.nose_down_rad(), 0.0, 1e-12, &name);
        near(both.attitude_on_ground().caster_rad, before.caster_rad, 1e-12, &name);
        // The pin moves against the steering axis, so the trail is the new knuckle's own.
        near(both.attitude_on_ground().trail_mm, both.attitude().trail_mm, 1e-9, &name);
        for (rear_mm, front_more_mm) in [(0.0, 50.8), (30.0, 20.8), (76.2, -25.4), (-20.0, 70.8)] {
            let nose = libm::atan(front_more_mm / truck.body.wheelbase_mm);
            let caster_rad = with(Some(rear_mm)).attitude_on_ground().caster_rad;
            near(caster_rad, before.caster_rad - nose, 1e-12, &name);
        }
        // Not stated it is taken to stay up, and known to be only that.
        let open = with(None);
        assert!(!open.rear_is_known() && with(Some(0.0)).rear_is_known());
        near(open.nose_down_rad(), with(Some(0.0)).nose_down_rad(), 0.0, &name);
        assert!(as_measured(&truck).rear_is_known());
    }
}

/// Whatever else brings the front down changes caster twice: by its own way
/// through the linkage, and by the nose.
#[test]
fn any_other_way_down_adds_the_linkage_s_own() {
    for (name, truck) in sprung_trucks() {
        let moved = truck::MovedPivot { place: truck::Place::LowerArm, by_mm: Vector3::new(0.0, 0.0, 15.0) };
        let lowered = [Change::MovedPivot(moved)];
        let after = rest(&truck, &lowered);
        let (was, was_frame) = caster_on_ground_deg(&truck, &[]);
        let (is, is_frame) = caster_on_ground_deg(&truck, &lowered);
        let nose = libm::atan(after.ground_mm / truck.body.wheelbase_mm).to_degrees();
        // A coil's seat goes up with the arm and can raise the body instead.
        assert!(nose.abs() > 1e-3, "{name}: {nose}");
        near(is - was, is_frame - was_frame - nose, 1e-9, &name);
        near(after.nose_down_rad().to_degrees(), nose, 1e-12, &name);
    }
}
