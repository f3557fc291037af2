//! Stance as the least of the potential energy, minimised here with no help
//! from the study: `U(spring) − F z_contact + W z_wheel` over the arm's angle.
//!
//! The spring's turn and length are worked out here too, from the balls and
//! by turning the seat about the pivots. Only the poses are the linkage's own,
//! which other tests hold to a numerical solver of the same constraints.

use super::{rest, sprung_trucks};
use linkage::{ArmPoints, Axis, Corner, Member, Point3, Pose, Vector3};
use nalgebra::{Rotation3, Unit};
use study::HeldBy;
use truck::{
    Arm, BarAdjuster, Change, CutCoil, DroppedSpindle, MovedPivot, Place, SpringKind, TireSize, TireSwap,
    Truck,
};
use yardstick::budget::near;

/// What the change does to a spring: radians of anchor, coils cut.
#[derive(Clone, Copy, Default)]
pub(crate) struct Worked {
    pub(crate) anchor_rad: f64,
    pub(crate) coils: f64,
}

pub(crate) struct Energy<'a> {
    pub(crate) truck: &'a Truck,
    pub(crate) corner: &'a Corner,
    /// Force, torque or force at the wheel that balances the truck as measured.
    pub(crate) preload: f64,
    pub(crate) worked: Worked,
}

fn carrier(points: &linkage::Hardpoints, arm: Arm) -> ArmPoints {
    match arm {
        Arm::Lower => points.lower,
        Arm::Upper => points.upper,
    }
}

/// How far the arm that carries the spring has turned against as measured, by
/// its ball, about its pivots wherever they are now.
fn turned(truck: &Truck, corner: &Corner, pose: &Pose) -> f64 {
    let was = carrier(&truck.points, truck.spring.arm);
    let (axis, ball) = match truck.spring.arm {
        Arm::Lower => (corner.mounts().lower, pose.lower_ball),
        Arm::Upper => (corner.mounts().upper, pose.upper_ball),
    };
    let along = (axis.front - axis.rear).normalize();
    let across = |v: Vector3<f64>| v - along * v.dot(&along);
    let before = across(was.ball - was.rear);
    let now = across(ball - axis.rear);
    libm::atan2(before.cross(&now).dot(&along), before.dot(&now))
}

/// Movement of the spring at a pose: turn of its arm, length, or wheel height.
fn movement(truck: &Truck, corner: &Corner, pose: &Pose) -> f64 {
    match truck.spring.kind {
        SpringKind::TorsionBar => turned(truck, corner, pose),
        SpringKind::Coil => {
            let was = carrier(&truck.points, truck.spring.arm);
            let Axis { front, rear } = match truck.spring.arm {
                Arm::Lower => corner.mounts().lower,
                Arm::Upper => corner.mounts().upper,
            };
            let axis = Unit::new_normalize(front - rear);
            let swing = Rotation3::from_axis_angle(&axis, turned(truck, corner, pose));
            let seat: Point3<f64> = rear + swing * (truck.spring.coil.arm_seat - was.rear);
            (seat - truck.spring.coil.body_seat).norm()
        }
        SpringKind::WheelRate => pose.wheel_centre.z,
    }
}

fn pose(corner: &Corner, angle: f64) -> Pose {
    corner.pose(angle, Vector3::zeros()).unwrap()
}

/// Potential of the ground's lift and of the unsprung weight, without the spring.
fn load_potential(truck: &Truck, corner: &Corner, pose: &Pose) -> f64 {
    let contact = pose.contact(corner.loaded_radius_mm());
    truck.load.unsprung_n * pose.wheel_centre.z - truck.load.corner_n * contact.z
}

fn slope(f: impl Fn(f64) -> f64, at: f64) -> f64 {
    let step = 1e-4;
    // Fourth order, so that the step may be wide enough to keep digits.
    (8.0 * (f(at + step) - f(at - step)) - (f(at + 2.0 * step) - f(at - 2.0 * step))) / (12.0 * step)
}

impl Energy<'_> {
    pub(crate) fn preload(truck: &Truck) -> f64 {
        let corner = Corner::of(&truck.points, truck.loaded_radius_mm()).unwrap();
        let at = corner.measured_angle_rad();
        let load = slope(|angle| load_potential(truck, &corner, &pose(&corner, angle)), at);
        let moved = slope(|angle| movement(truck, &corner, &pose(&corner, angle)), at);
        // Energy of a spring for its movement: torque, minus force, force.
        -load / moved
    }

    fn spring(&self, pose: &Pose) -> f64 {
        let spring = &self.truck.spring;
        let moved = movement(self.truck, self.corner, pose);
        match spring.kind {
            SpringKind::TorsionBar => {
                let rate = spring.bar_rate();
                let twist = moved + self.preload / rate + self.worked.anchor_rad;
                rate * twist * twist / 2.0
            }
            SpringKind::Coil => {
                let (rate, active, cut) = (spring.coil_rate(), spring.coil.active, self.worked.coils);
                let force = -self.preload;
                let measured = Corner::of(&self.truck.points, self.truck.loaded_radius_mm()).unwrap();
                let at = pose_as_measured(&measured);
                let length = movement(self.truck, &measured, &at);
                // Coils in series: each is as long as its pitch and its share of the squeeze.
                let free_coil = spring.coil.loaded_pitch_mm + force / (rate * active);
                let free = length + force / rate - cut * free_coil;
                let squeeze = free - moved;
                rate * active / (active - cut) * squeeze * squeeze / 2.0
            }
            SpringKind::WheelRate => {
                let rise = moved - plate_as_measured(self.truck, self.corner).wheel_centre.z;
                self.preload * rise + spring.wheel_rate_n_per_mm * rise * rise / 2.0
            }
        }
    }

    pub(crate) fn at(&self, angle: f64) -> f64 {
        let pose = pose(self.corner, angle);
        self.spring(&pose) + load_potential(self.truck, self.corner, &pose)
    }

    /// Golden section: it knows no slope.
    fn least(&self, mut low: f64, mut high: f64) -> f64 {
        let golden = (5_f64.sqrt() - 1.0) / 2.0;
        for _ in 0..80 {
            let (a, b) = (high - golden * (high - low), low + golden * (high - low));
            if self.at(a) < self.at(b) {
                high = b;
            } else {
                low = a;
            }
        }
        low.midpoint(high)
    }

    /// Load at the ground that the spring holds at an angle, and the contact's height.
    fn held(&self, angle: f64) -> (f64, f64) {
        let contact = |angle: f64| pose(self.corner, angle).contact(self.corner.loaded_radius_mm()).z;
        let inner = |angle: f64| {
            let pose = pose(self.corner, angle);
            self.spring(&pose) + self.truck.load.unsprung_n * pose.wheel_centre.z
        };
        (slope(inner, angle) / slope(contact, angle), contact(angle))
    }
}

fn pose_as_measured(corner: &Corner) -> Pose {
    pose(corner, corner.measured_angle_rad())
}

/// The pose in which the arm that carries the spring stands to the body as it did
/// when the truck was measured, by halving: there a plain rate holds what it held.
fn plate_as_measured(truck: &Truck, corner: &Corner) -> Pose {
    let (mut low, mut high) = (corner.range().low_rad, corner.range().high_rad);
    for _ in 0..80 {
        let middle = low.midpoint(high);
        let below = turned(truck, corner, &pose(corner, middle)) < 0.0;
        *(if below { &mut low } else { &mut high }) = middle;
    }
    pose(corner, low)
}

/// The turn of a lever whose end goes `push` along its bolt, by the angle
/// between the two directions in which the end is seen from the bar.
fn lever_turn(truck: &Truck, turns: f64) -> f64 {
    let bar = &truck.spring.bar;
    let (sin, cos) = libm::sincos(bar.lever_angle_rad);
    let before = nalgebra::Vector2::new(bar.lever_mm * cos, bar.lever_mm * sin);
    let after = before - nalgebra::Vector2::new(turns * bar.thread_pitch_mm, 0.0);
    libm::acos(before.dot(&after) / (before.norm() * after.norm())) * turns.signum()
}

fn changes(truck: &Truck) -> Vec<(Vec<Change>, Worked)> {
    let spindle = DroppedSpindle { drop_mm: 50.8, out_mm: 12.0, tie_outer_mm: Vector3::new(3.0, -5.0, 8.0) };
    let wheel = TireSwap {
        size: TireSize { section_mm: 235.0, aspect_percent: 60.0, rim_code: 14.0 },
        rim_width_mm: 177.8,
        offset_mm: -25.0,
        loaded_radius_mm: None,
        barrel_mm: None,
    };
    let raised =
        |place, y: f64, z: f64| Change::MovedPivot(MovedPivot { place, by_mm: Vector3::new(0.0, y, z) });
    let own: Vec<(Change, Worked)> = match truck.spring.kind {
        SpringKind::TorsionBar => [-7.0, 5.5]
            .map(|turns| {
                let anchor_rad = lever_turn(truck, turns);
                (Change::BarAdjuster(BarAdjuster { turns }), Worked { anchor_rad, coils: 0.0 })
            })
            .to_vec(),
        SpringKind::Coil => [0.5, 0.75]
            .map(|coils| (Change::CutCoil(CutCoil { coils }), Worked { anchor_rad: 0.0, coils }))
            .to_vec(),
        SpringKind::WheelRate => Vec::new(),
    };
    let mut all = vec![
        (vec![Change::DroppedSpindle(spindle)], Worked::default()),
        (vec![Change::TireSwap(wheel)], Worked::default()),
        (vec![raised(Place::LowerArm, 4.0, 9.0)], Worked::default()),
        (vec![raised(Place::UpperArm, -3.0, -7.0)], Worked::default()),
    ];
    for (change, worked) in own {
        all.push((vec![change], worked));
        all.push((vec![change, Change::DroppedSpindle(spindle), Change::TireSwap(wheel)], worked));
    }
    all
}

#[test]
fn the_truck_stands_where_its_energy_is_least() {
    let mut compared = 0;
    for (name, mut truck) in sprung_trucks() {
        truck.spring.bar.lever_angle_rad = 75_f64.to_radians();
        let preload = Energy::preload(&truck);
        for (changes, worked) in changes(&truck) {
            let what = format!("{name}, {changes:?}");
            let rest = rest(&truck, &changes);
            assert!(!matches!(rest.held_by, HeldBy::BumpStop | HeldBy::DroopStop), "{what}");
            let energy = Energy { truck: &truck, corner: &rest.corner, preload, worked };
            let angle = energy.least(rest.stops.droop_rad, rest.stops.solid_rad);
            let own = pose(&rest.corner, angle);
            near(rest.pose.wheel_centre.z, own.wheel_centre.z, 1e-3, &what);
            let ground = own.contact(rest.corner.loaded_radius_mm()).z;
            near(rest.ride_height_mm(), truck.body.rail.bottom_z_mm - ground, 1e-3, &what);
            // The wheel rate is the slope of the load held, over the contact's height.
            let step = 2e-3;
            let (high, low) = (energy.held(angle + step), energy.held(angle - step));
            let rate = (high.0 - low.0) / (high.1 - low.1);
            near(rest.wheel_rate_n_per_mm / rate, 1.0, 1e-3, &what);
            compared += 1;
        }
    }
    assert_eq!(compared, 2 * 2 * (8 + 8 + 4));
}

/// The energy's own worth: at the balance of the truck as measured it is level.
#[test]
fn the_energy_is_level_where_the_truck_was_measured() {
    for (name, truck) in sprung_trucks() {
        let corner = Corner::of(&truck.points, truck.loaded_radius_mm()).unwrap();
        let energy = Energy {
            truck: &truck,
            corner: &corner,
            preload: Energy::preload(&truck),
            worked: Worked::default(),
        };
        let start = corner.measured_angle_rad();
        near(energy.least(start - 0.2, start + 0.2), start, 1e-6, &name);
        let frame = truck.points.lower.frame(Member::LowerArm).unwrap();
        assert!(frame.across.z > 0.0, "{name}: an arm's angle counts upward");
    }
}
