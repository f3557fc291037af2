//! Springs against textbooks: rates and stresses, cut coils, ride frequency,
//! and the wheel rate where it has a closed form.

use linkage::{ArmPoints, Hardpoints, Point3, Vector3};
use nalgebra::{Rotation3, Unit};
use study::{HeldBy, NoRest, Rest};
use truck::{Arm, Bar, Change, Coil, CutCoil, Fitted, Load, Spring, SpringKind, Truck, demo, fit};
use yardstick::budget::near;

const INCH: f64 = 25.4;
/// N/mm² in a pound-force a square inch.
const PSI: f64 = 4.4482216152605 / (INCH * INCH);
/// N·mm in a pound-foot.
const LB_FT: f64 = 4.4482216152605 * 12.0 * INCH;

fn bar(diameter_mm: f64, length_mm: f64, shear_modulus_n_per_mm2: f64) -> Spring {
    let spring = demo().truck.spring;
    Spring { bar: Bar { diameter_mm, length_mm, ..spring.bar }, shear_modulus_n_per_mm2, ..spring }
}

fn coil(wire_mm: f64, mean_mm: f64, active: f64, shear_modulus_n_per_mm2: f64) -> Spring {
    let spring = demo().truck.spring;
    Spring { coil: Coil { wire_mm, mean_mm, active, ..spring.coil }, shear_modulus_n_per_mm2, ..spring }
}

/// Gere, *Mechanics of Materials*, example 3.1: a solid bar of 1.5 in, 54 in
/// long, 11.5e6 psi. The book prints 4530 psi, which is 4527 rounded, and 1.62°.
#[test]
fn solid_bar_in_torsion() {
    let spring = bar(1.5 * INCH, 54.0 * INCH, 11.5e6 * PSI);
    let torque = 250.0 * LB_FT;
    near(spring.bar.stress_n_per_mm2(torque) / PSI, 4527.0, 0.5, "stress, psi");
    near((torque / spring.bar_rate()).to_degrees(), 1.62, 0.005, "twist, deg");
    // The torque that 6000 psi and 2.5° allow.
    let by_stress = 6000.0 * PSI / spring.bar.stress_n_per_mm2(1.0) / LB_FT;
    let by_twist = 2.5_f64.to_radians() * spring.bar_rate() / LB_FT;
    near(by_stress.min(by_twist), 331.0, 0.5, "torque, lb ft");
}

/// Beer & Johnston, *Mechanics of Materials*, example 3.02: a tube of 60 and
/// 40 mm, 1.5 m long, 77 kN/mm², twisted by 2°. A tube is a bar less its bore.
#[test]
fn tube_as_a_bar_less_its_bore() {
    let rate = bar(60.0, 1500.0, 77e3).bar_rate() - bar(40.0, 1500.0, 77e3).bar_rate();
    near(rate * 1500.0 / 77e3 / 1e6, 1.021, 5e-4, "J, 1e-6 m^4");
    near(rate * 2_f64.to_radians() / 1e6, 1.829, 1e-3, "torque, kN m");
}

/// Shigley, *Mechanical Engineering Design*, example 10-1, from memory.
#[test]
fn music_wire_coil() {
    let spring = coil(0.037 * INCH, 0.4 * INCH, 10.5, 11.85e6 * PSI);
    near(spring.coil_rate() / (PSI * INCH), 4.13, 5e-3, "rate, lbf/in");
    near(spring.coil.index(), 10.8, 0.05, "index");
    near(spring.coil.bergstrasser_factor(), 1.124, 5e-4, "Bergsträsser");
}

/// Singh, *Machine Design*, examples 8.1 and 8.3.
#[test]
fn coil_with_wahl_s_factor() {
    near(coil(1.0, 6.0, 10.0, 8e4).coil.wahl_factor(), 1.2525, 5e-5, "Wahl at 6");
    near(coil(1.0, 8.0, 10.0, 8e4).coil.wahl_factor(), 1.184, 5e-4, "Wahl at 8");
    let spring = coil(3.0, 18.0, 15.0, 84e3);
    near(spring.coil_rate(), 9.72, 5e-3, "rate, N/mm");
    near(spring.coil.stress_n_per_mm2(40.0), 85.05, 5e-3, "stress at 40 N, N/mm²");
}

/// A corner of level, equal and parallel arms `radius` long, the tie rod alike:
/// the wheel only rises and swings in, so levers have closed forms.
fn level_truck(radius: f64, slope_rad: f64) -> Truck {
    let mut truck = demo().truck;
    let (sin, cos) = libm::sincos(slope_rad);
    let reach = Vector3::new(0.0, radius * cos, radius * sin);
    let arm = |z: f64| {
        let pivot = |x: f64| Point3::new(x, 300.0, z);
        ArmPoints { front: pivot(150.0), rear: pivot(-150.0), ball: pivot(0.0) + reach }
    };
    let tie_inner = Point3::new(-130.0, 300.0, 320.0);
    truck.points = Hardpoints {
        lower: arm(250.0),
        upper: arm(480.0),
        wheel_centre: Point3::new(0.0, 720.0, 312.0),
        camber_rad: 0.0,
        toe_rad: 0.0,
        tie_inner,
        tie_outer: tie_inner + reach,
    };
    truck.spring.kind = SpringKind::WheelRate;
    truck
}

fn at_rest(truck: &Truck) -> Rest {
    Rest::of(Fitted::as_measured(truck)).unwrap()
}

/// Static deflection and natural frequency: f = 15.76/√δ(mm) = 3.13/√δ(in).
/// Olley and Gillespie, from memory; the four are arithmetic, √(g/δ)/2π.
#[test]
fn ride_frequency_of_a_static_deflection() {
    let mut truck = level_truck(350.0, 0.0);
    let sprung_n = truck.load.corner_n - truck.load.unsprung_n;
    for (deflection_mm, hertz) in [(100.0, 1.576), (150.0, 1.287), (200.0, 1.114), (250.0, 0.997)] {
        truck.spring.wheel_rate_n_per_mm = sprung_n / deflection_mm;
        let rest = at_rest(&truck);
        near(rest.wheel_rate_n_per_mm, sprung_n / deflection_mm, 1e-5, "rate as typed");
        near(rest.ride_frequency_hz(), hertz, 5e-4, "ride frequency");
        near(rest.ride_frequency_hz(), 15.76 / deflection_mm.sqrt(), 5e-4, "15.76/√mm");
        near(rest.ride_frequency_hz(), 3.13 / (deflection_mm / INCH).sqrt(), 2e-3, "3.13/√in");
    }
}

/// A car maker's training booklet puts comfort between 1 and 1.5 Hz: the demo
/// truck, invented, is meant to be an ordinary one.
#[test]
fn the_demo_truck_rides_like_a_truck() {
    let hertz = at_rest(&demo().truck).ride_frequency_hz();
    assert!((1.0..=1.5).contains(&hertz), "{hertz}");
}

/// Wheel rate = spring rate × (lever ratio)² where the spring's lever does not
/// change: Barton & Fieldhouse, *Automotive Chassis Engineering*, 3.29 to 3.33.
/// On level arms a bar's lever and an upright coil's are at their longest.
#[test]
fn wheel_rate_on_level_arms() {
    let radius = 350.0;
    let mut truck = level_truck(radius, 0.0);
    truck.spring.kind = SpringKind::TorsionBar;
    let rate = truck.spring.bar_rate() / (radius * radius);
    near(at_rest(&truck).wheel_rate_n_per_mm, rate, 1e-5 * rate, "bar");
    truck.spring.kind = SpringKind::Coil;
    truck.spring.coil.arm_seat = Point3::new(20.0, 500.0, 250.0);
    truck.spring.coil.body_seat = Point3::new(20.0, 500.0, 520.0);
    let ratio = 200.0 / radius;
    let rate = truck.spring.coil_rate() * ratio * ratio;
    near(at_rest(&truck).wheel_rate_n_per_mm, rate, 1e-5 * rate, "coil");
}

/// On sloping arms a bar's wheel rate has a geometric term. With
/// `F = T / R cos θ` and `dz = R cos θ dθ`, `T = k ψ`:
/// `dF/dz = k / R² cos² θ + T sin θ / R² cos³ θ`.
#[test]
fn wheel_rate_has_its_geometric_term() {
    let radius = 350.0;
    for slope_rad in [-0.3, -0.1, 0.15] {
        let mut truck = level_truck(radius, slope_rad);
        truck.spring.kind = SpringKind::TorsionBar;
        let (sin, cos) = libm::sincos(slope_rad);
        let sprung_n = truck.load.corner_n - truck.load.unsprung_n;
        let torque = sprung_n * radius * cos;
        let rest = at_rest(&truck);
        near(rest.effort, torque, 1e-6 * torque, "torque");
        let plain = truck.spring.bar_rate() / (radius * radius * cos * cos);
        let geometric = torque * sin / (radius * radius * cos * cos * cos);
        near(rest.wheel_rate_n_per_mm, plain + geometric, 1e-5 * plain, "wheel rate");
        assert!(geometric.abs() > 0.01 * plain, "a term that can be told from none: {geometric}");
    }
}

/// The same law where the term wins: on arms that fall outboard by `φ` a bar softer
/// than `T tan φ = F R sin φ` gives way. A little softer, and it finds a new balance
/// as it sinks, `k (θ + φ) = F R (cos θ − cos φ)`; much softer, and only the stop is left.
#[test]
fn a_bar_too_soft_for_its_slope_does_not_hold() {
    let (radius, slope_rad) = (350.0, -0.3);
    let mut truck = level_truck(radius, slope_rad);
    truck.spring.kind = SpringKind::TorsionBar;
    let sprung_n = truck.load.corner_n - truck.load.unsprung_n;
    let critical = -sprung_n * radius * libm::sin(slope_rad);
    // A bar's rate is G π d⁴ / 32 L: the length sets it.
    let mut with = |share: f64| {
        truck.spring.bar.length_mm *= truck.spring.bar_rate() / (share * critical);
        near(truck.spring.bar_rate() / critical, share, 1e-12, "rate");
        Rest::of(Fitted::as_measured(&truck))
    };
    let holds = with(1.02).unwrap();
    assert!(holds.held_by == HeldBy::Spring && holds.wheel_rate_n_per_mm > 0.0);
    let droop = HeldBy::DroopStop;
    let next = NoRest::Unstable { sinks_to: HeldBy::Spring, rises_to: droop };
    assert_eq!(with(0.95).unwrap_err(), next);
    let stop = NoRest::Unstable { sinks_to: HeldBy::BumpStop, rises_to: droop };
    let why = with(0.3).unwrap_err();
    assert_eq!(why, stop);
    let said = why.to_string();
    assert!(said.contains("too soft") && said.contains("bump stop") && said.contains("droop stop"), "{said}");
}

/// The same law on the demo's skewed arms: with next to no load the geometric
/// term is gone, and the lever ratio is the study's own motion ratio.
#[test]
fn wheel_rate_of_an_unloaded_spring() {
    let mut truck = demo().truck;
    truck.load = Load { corner_n: 1e-3, unsprung_n: 0.0, ..truck.load };
    for arm in [Arm::Lower, Arm::Upper] {
        truck.spring.arm = arm;
        if arm == Arm::Upper {
            truck.spring.coil.arm_seat = Point3::new(-5.0, 540.0, 462.0);
            truck.spring.coil.body_seat = Point3::new(-10.0, 520.0, 700.0);
        }
        for kind in [SpringKind::TorsionBar, SpringKind::Coil] {
            truck.spring.kind = kind;
            let rest = at_rest(&truck);
            let (_, ratio) = rest.spring_at(&rest.pose).unwrap();
            let rate = match kind {
                SpringKind::Coil => truck.spring.coil_rate(),
                _ => truck.spring.bar_rate(),
            };
            let wheel = rate * ratio * ratio;
            near(rest.wheel_rate_n_per_mm, wheel, 1e-5 * wheel, "wheel rate");
        }
    }
}

fn coil_truck() -> Truck {
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::Coil;
    truck
}

fn cut(truck: &Truck, coils: f64) -> Fitted {
    fit(truck, &[Change::CutCoil(CutCoil { coils })]).unwrap()
}

/// Engineering notes and the series law: each of n equal parts is n times as stiff.
#[test]
fn a_part_of_a_spring_is_stiffer() {
    let mut truck = coil_truck();
    truck.spring.coil.active = 12.0;
    let whole = truck.spring.coil_rate();
    for parts in [2.0, 3.0, 4.0, 6.0, 12.0] {
        let left = cut(&truck, 12.0 - 12.0 / parts).spring.coil_rate();
        near(left / whole, parts, 1e-12 * parts, "rate of a part");
    }
}

/// The length between the seats, by turning the seat about the arm's pivots.
fn coil_length(rest: &Rest) -> f64 {
    let truck = &rest.fitted.measured;
    let arm = &truck.points.lower;
    let axis = Unit::new_normalize(arm.front - arm.rear);
    let turn = rest.pose.lower_arm_rad - rest.corner.measured_angle_rad();
    let swung = Rotation3::from_axis_angle(&axis, turn) * (truck.spring.coil.arm_seat - arm.rear);
    (arm.rear + swung - truck.spring.coil.body_seat).norm()
}

/// At one force a spring that has lost c coils is shorter by c times the pitch
/// that its coils have under that force: no free length is needed.
#[test]
fn cutting_takes_coils_times_the_loaded_pitch() {
    let truck = coil_truck();
    let before = at_rest(&truck);
    for coils in [0.25, 0.5, 1.0, 1.5] {
        let after = Rest::of(cut(&truck, coils)).unwrap();
        assert!(after.ground_mm > 1.0, "a cut spring lowers: {}", after.ground_mm);
        // What is left of it, brought back to the force it had.
        let more_n = after.effort - before.effort;
        let as_before = coil_length(&after) + more_n / after.fitted.spring.coil_rate();
        let lost = coil_length(&before) - as_before;
        near(lost, coils * truck.spring.coil.loaded_pitch_mm, 1e-8, "length lost");
    }
}

/// Level arms on axes that run so far inward and down to the rear, both to the tangent.
fn splayed(inward: f64, downward: f64) -> Truck {
    let mut truck = level_truck(350.0, 0.0);
    for arm in [&mut truck.points.lower, &mut truck.points.upper] {
        for pivot in [&mut arm.front, &mut arm.rear] {
            pivot.y += pivot.x * inward;
            pivot.z += pivot.x * downward;
        }
    }
    truck.spring.kind = SpringKind::TorsionBar;
    truck
}

/// A bar told by the slants of its arm's axis, in plan and in side view, lies along it. Slanted
/// the other way it crosses the axis at an angle whose cosine is that of (1, i, d) and
/// (1, −i, −d), and holds the same load by more torque: the component of its torque along
/// the axis is what lifts (a vector's component, arithmetic).
#[test]
fn a_bar_slants_the_way_it_is_told() {
    for (inward, downward) in [(0.12, 0.0), (-0.12, 0.0), (0.0, 0.09), (0.0, -0.09), (0.12, -0.06)] {
        for arm in [Arm::Lower, Arm::Upper] {
            let mut truck = splayed(inward, downward);
            truck.spring.arm = arm;
            let torque = |inward: Option<f64>, downward: Option<f64>| {
                let mut truck = truck.clone();
                truck.spring.bar.inward_rad = inward.map(f64::atan);
                truck.spring.bar.downward_rad = downward.map(f64::atan);
                at_rest(&truck).effort
            };
            let along = torque(None, None);
            assert!(along > 0.0);
            near(torque(Some(inward), Some(downward)) / along, 1.0, 1e-9, "along the axis");
            let square = inward * inward + downward * downward;
            let cos = (1.0 - square) / (1.0 + square);
            near(torque(Some(-inward), Some(-downward)) / along, 1.0 / cos, 1e-9, "across it");
            // A truck's own bar, straight along it.
            let cos = 1.0 / (1.0 + square).sqrt();
            near(torque(Some(0.0), Some(0.0)) / along, 1.0 / cos, 1e-9, "straight");
        }
    }
}
