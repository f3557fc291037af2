//! How hard springs work at the ends of the travel, where coils bind and how far joints
//! swing, by hand arithmetic.

use crate::alignment::of_kind;
use linkage::{Point3, Vector3};
use nalgebra::{Rotation3, Unit};
use std::f64::consts::PI;
use study::{Limiter, Rest, joint_swing_rad, spring_loads, travel_left};
use truck::{Arm, Change, JointTurned, Place, SeatSpacer, SpringKind, Truck, demo, fit};
use yardstick::budget::near;

fn rest(truck: &Truck, changes: &[Change]) -> Rest {
    Rest::of(fit(truck, changes).unwrap()).unwrap()
}

/// Arc over radius: the arm turns by daylight and squeeze over the stop's distance from the
/// pivot, and the bar's torque grows by `k φ`; stress is `16 T / π d³` (Gere).
#[test]
fn a_bar_at_the_stop_is_twisted_to_solid() {
    let mut truck = of_kind(SpringKind::TorsionBar);
    for squash_mm in [0.0, 9.5, 19.0] {
        truck.stops.bump_squash_mm = squash_mm;
        let work = spring_loads(&rest(&truck, &[]));
        let turn_rad = (truck.stops.bump_gap_mm + squash_mm) / truck.stops.bump_radius_mm;
        let per_torque = 16.0 / (PI * truck.spring.bar.diameter_mm.powi(3));
        let more = work.bump.unwrap().stress_n_per_mm2.unwrap() - work.rest.stress_n_per_mm2.unwrap();
        near(more, truck.spring.bar_rate() * turn_rad * per_torque, 1e-6, "stress from rest to solid");
    }
}

/// The distance of the coil's seats with the lower arm turned from as measured, by turning the seat.
fn seats_mm(truck: &Truck, turn_rad: f64) -> f64 {
    let arm = &truck.points.lower;
    let axis = Unit::new_normalize(arm.front - arm.rear);
    // The ball rises about an axis that points forward.
    let swung = Rotation3::from_axis_angle(&axis, turn_rad) * (truck.spring.coil.arm_seat - arm.rear);
    (arm.rear + swung - truck.spring.coil.body_seat).norm()
}

/// What is between the seats is the spacer and the coil: solid, the coil is `d (N + 2)` with
/// closed and ground ends (Shigley, from memory).
#[test]
fn a_spacer_takes_of_the_coil_s_room() {
    let mut truck = of_kind(SpringKind::Coil);
    truck.spring.coil.ends = Some(truck::CoilEnds::ClosedGround);
    let solid_mm = truck.spring.coil.wire_mm * (truck.spring.coil.active + 2.0);
    for squash_mm in [0.0, 9.5] {
        truck.stops.bump_squash_mm = squash_mm;
        let turn_rad = (truck.stops.bump_gap_mm + squash_mm) / truck.stops.bump_radius_mm;
        let between = seats_mm(&truck, turn_rad);
        for thickness_mm in [0.0, 8.0, -5.0] {
            let spacer = Change::SeatSpacer(SeatSpacer { thickness_mm });
            let found = spring_loads(&rest(&truck, &[spacer])).room_to_bind_mm.unwrap();
            near(found, between - thickness_mm - solid_mm, 1e-6, "room to solid at the stop");
        }
    }
}

/// The same coil binds sooner by the spacer: where it does, the seats are the solid coil and
/// the spacer apart.
#[test]
fn a_coil_binds_on_its_spacer() {
    let mut truck = of_kind(SpringKind::Coil);
    truck.spring.coil.ends = Some(truck::CoilEnds::ClosedGround);
    truck.stops.bump_gap_mm = 90.0;
    let mut wire = truck.spring.coil;
    // A coil that binds a good way before the stop.
    wire.wire_mm = 18.0;
    wire.active = 9.0;
    truck.spring.coil = wire;
    let solid_mm = 18.0 * (9.0 + 2.0);
    for thickness_mm in [0.0, 6.0, -6.0] {
        let rest = rest(&truck, &[Change::SeatSpacer(SeatSpacer { thickness_mm })]);
        let limits = travel_left(&rest).bump_limits;
        let bind = limits.iter().find(|limit| limit.by == Limiter::CoilBind).unwrap();
        let pose = rest.at_travel(bind.travel_mm).unwrap();
        let turn_rad = pose.lower_arm_rad - rest.corner.measured_angle_rad();
        near(seats_mm(&truck, turn_rad), solid_mm + thickness_mm, 1e-4, "seats where it binds");
        assert!(bind.travel_mm > 5.0, "{thickness_mm}: a limit that moves with the spacer");
    }
}

/// Each kind is held against its own steel: stress over what was stated of that kind, and of
/// none where that kind has nothing stated.
#[test]
fn a_spring_is_held_against_its_own_steel() {
    for (kind, own, other) in [(SpringKind::TorsionBar, 900.0, 300.0), (SpringKind::Coil, 300.0, 900.0)] {
        let mut truck = of_kind(kind);
        let (bar, coil) = if kind == SpringKind::Coil { (other, own) } else { (own, other) };
        truck.spring.bar.allowable_n_per_mm2 = Some(bar);
        truck.spring.coil.allowable_n_per_mm2 = Some(coil);
        let work = spring_loads(&rest(&truck, &[]));
        for effort in [work.rest, work.bump.unwrap(), work.droop.unwrap()] {
            near(effort.share.unwrap(), effort.stress_n_per_mm2.unwrap() / own, 1e-12, "share");
        }
        let stated = if kind == SpringKind::Coil {
            &mut truck.spring.coil.allowable_n_per_mm2
        } else {
            &mut truck.spring.bar.allowable_n_per_mm2
        };
        *stated = None;
        assert_eq!(spring_loads(&rest(&truck, &[])).rest.share, None, "{kind:?}");
    }
}

/// The angle of a direction about an arm's pivot axis, + as the ball rises.
fn about(axis: (Point3<f64>, Point3<f64>), ball: &Point3<f64>, of: &Vector3<f64>) -> f64 {
    let forward = Unit::new_normalize(axis.0 - axis.1);
    let out = ball - axis.1;
    let out = Unit::new_normalize(out - forward.into_inner() * out.dot(&forward));
    let up = forward.cross(&out);
    of.dot(&up).atan2(of.dot(&out))
}

/// The housing is bolted to the plate: the joint swings by what the plate turns less what the
/// stud does, both seen along the pivot axis. Turned over, the ball lies as far over its
/// plate as it did under it, a chord of twice the offset, so that the plate stands lower
/// under the same line to the ball by the angle of that chord.
#[test]
fn a_joint_turned_over_swings_from_its_plate() {
    let truck = demo().truck;
    for (place, arm) in [(Place::LowerJointUp, Arm::Lower), (Place::UpperJointUp, Arm::Upper)] {
        let turned = JointTurned { place, plate_mm: 6.0, flange_mm: 10.0, shift_mm: None };
        let rest = rest(&truck, &[Change::JointTurned(turned)]);
        let (was, swing) = if arm == Arm::Lower {
            (&truck.points.lower, truck.joints.lower)
        } else {
            (&truck.points.upper, truck.joints.upper)
        };
        let forward = (was.front - was.rear).normalize();
        let out = was.ball - was.rear;
        let radius_mm = (out - forward * out.dot(&forward)).norm();
        let chord_rad = 2.0 * (turned.higher_mm() / 2.0 / radius_mm).asin();
        let axis = (was.front, was.rear);
        for travel_mm in [-30.0, 0.0, 25.0] {
            let pose = rest.at_travel(travel_mm).unwrap();
            let (lower, upper) = (pose.lower_ball, pose.upper_ball);
            let ball = if arm == Arm::Lower { lower } else { upper };
            // Arms turn about the same axes as measured: no pivot was moved.
            let plate = about(axis, &was.ball, &(ball - was.rear)) - chord_rad;
            let stud = about(axis, &was.ball, &(upper - lower));
            let stud_was = about(axis, &was.ball, &(truck.points.upper.ball - truck.points.lower.ball));
            let want = swing.rest_rad.unwrap() + plate - (stud - stud_was);
            let got = joint_swing_rad(&rest, &pose, arm).unwrap();
            near(got, want, 1e-6, "swing");
        }
    }
}
