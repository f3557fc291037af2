//! How a truck stands, against minima of energy, closed forms and identities.
//!
//! The demo truck's front and the published car on invented springs, the spring of
//! every kind on either arm.

mod any_edit;
mod energy;
mod holds;
mod lowering;
mod measured;
mod plates;
mod rake;
mod spindle;
mod stops;

use crate::front_alone;
use linkage::{Point3, Vector3};
use study::{Stance, StandingSide};
use truck::{Arm, Change, Side, SpringKind, Stops, Truck};
use yardstick::published;

/// The published car, its origin on the ground, on the demo's springs and stops.
fn published_truck() -> Truck {
    let mut truck = front_alone().truck;
    let mut points = published::points();
    // The wheel leans: its centre stands a little lower than its radius.
    let up = Vector3::z() * (published::LOADED_RADIUS_MM * libm::cos(points.camber_rad));
    for arm in [&mut points.lower, &mut points.upper] {
        arm.front += up;
        arm.rear += up;
        arm.ball += up;
    }
    points.wheel_centre += up;
    points.tie_inner += up;
    points.tie_outer += up;
    truck.points = points;
    truck
}

/// Both trucks with every kind of spring on either arm, wide stops, each with its name.
fn sprung_trucks() -> Vec<(String, Truck)> {
    let mut all = Vec::new();
    for (name, truck) in [("demo", front_alone().truck), ("published", published_truck())] {
        for arm in [Arm::Lower, Arm::Upper] {
            for kind in [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate] {
                let mut truck = truck.clone();
                truck.stops =
                    Stops { bump_gap_mm: 55.0, bump_squash_mm: 5.0, bump_radius_mm: 165.0, droop_mm: 90.0 };
                truck.spring.kind = kind;
                truck.spring.arm = arm;
                let carrier = match arm {
                    Arm::Lower => truck.points.lower,
                    Arm::Upper => truck.points.upper,
                };
                // Two thirds out along the arm, the coil leaning in a little.
                let pivot = nalgebra::center(&carrier.front, &carrier.rear);
                let seat = Point3::from(pivot.coords.lerp(&carrier.ball.coords, 0.65));
                truck.spring.coil.arm_seat = seat + Vector3::new(4.0, 0.0, 12.0);
                truck.spring.coil.body_seat = seat + Vector3::new(-6.0, -35.0, 270.0);
                all.push((format!("{name}, {kind:?} on the {arm:?} arm"), truck));
            }
        }
    }
    all
}

fn rest(truck: &Truck, changes: &[Change]) -> StandingSide {
    Stance::laid(truck, changes).unwrap().on(Side::Left)
}

fn as_measured(truck: &Truck) -> StandingSide {
    rest(truck, &[])
}
