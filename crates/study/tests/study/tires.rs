//! Tires: nominal sizes by the standard, real ones by their makers' data, and
//! what another tire and wheel does to the corner.

use study::Rest;
use truck::{Change, Fitted, Tire, TireSize, TireSwap, Truck, demo, fit, rim_mm};
use yardstick::budget::near;

const fn size(section_mm: f64, aspect_percent: f64, rim_code: f64) -> TireSize {
    TireSize { section_mm, aspect_percent, rim_code }
}

/// ISO 4000-1 and UN Regulation 30, from memory: D = d + 2H.
#[test]
fn nominal_diameters() {
    for (code, mm) in [
        (12.0, 305.0),
        (13.0, 330.0),
        (14.0, 356.0),
        (15.0, 381.0),
        (16.0, 406.0),
        (17.0, 432.0),
        (18.0, 457.0),
    ] {
        near(rim_mm(code), mm, 0.0, "rim");
        near(size(200.0, 50.0, code).diameter_mm(), mm + 200.0, 0.0, "overall diameter");
    }
    for (size, mm) in [
        (size(195.0, 70.0, 14.0), 630.0),
        (size(195.0, 75.0, 14.0), 648.0),
        (size(205.0, 70.0, 14.0), 644.0),
        (size(235.0, 60.0, 14.0), 638.0),
        (size(205.0, 60.0, 15.0), 627.0),
        (size(235.0, 75.0, 15.0), 733.0),
    ] {
        near(size.diameter_mm(), mm, 0.0, "overall diameter");
    }
}

/// Makers' data: real tires run up to 0.3 in over nominal, so to 1 %.
#[test]
fn real_diameters() {
    for (size, inches) in
        [(size(235.0, 85.0, 16.0), 31.7), (size(245.0, 75.0, 16.0), 30.5), (size(265.0, 75.0, 16.0), 31.8)]
    {
        let real = inches * 25.4;
        near(size.diameter_mm(), real, 0.01 * real, "overall diameter");
    }
}

/// UN Regulation 30, 6.1.1.1: `S = S₁ + 0.4 (A − x S₁)`, rounded to the millimetre,
/// `x` 0.70 for these series and 0.85 below an aspect of 50 (from memory). By hand:
/// 195 + 0.4 (152.4 − 136.5) = 201.36, and so on.
#[test]
fn section_width_follows_the_rim() {
    for (size, rim_inches, mm) in [
        (size(195.0, 70.0, 14.0), 6.0, 201.0),
        (size(195.0, 75.0, 14.0), 5.5, 196.0),
        (size(205.0, 60.0, 15.0), 6.0, 209.0),
        // 245 + 0.4 (215.9 − 208.25) = 248.06, the width that tables print for 245/40 on 8½.
        (size(245.0, 40.0, 18.0), 8.5, 248.0),
        // An aspect of 50 still has 0.70: 225 + 0.4 (177.8 − 157.5) = 233.12; tables print 233 on 7.
        (size(225.0, 50.0, 16.0), 7.0, 233.0),
    ] {
        let tire = Tire { size, measured_diameter_mm: None, shoulder_mm: 30.0 };
        let on = |inches: f64| tire.section_on_mm(inches * 25.4);
        near(on(rim_inches), mm, 0.5, "section on its rim");
        near(on(rim_inches + 1.0) - on(rim_inches), 10.16, 1e-9, "an inch of rim");
    }
}

fn swap(truck: &Truck) -> TireSwap {
    TireSwap {
        size: truck.tire.size,
        rim_width_mm: truck.wheel.rim_width_mm,
        offset_mm: truck.wheel.offset_mm,
        loaded_radius_mm: None,
        barrel_mm: None,
    }
}

fn fitted(truck: &Truck, swap: TireSwap) -> Fitted {
    fit(truck, &[Change::TireSwap(swap)]).unwrap()
}

/// 195/75R14 to 195/70R14: 648 to 630 mm nominal, so the wheel centre comes
/// down by 9 mm, and with it the body, arms and camber as they were.
#[test]
fn a_lower_tire_lowers_by_half_of_its_diameter() {
    let truck = demo().truck;
    let lower = fitted(&truck, TireSwap { size: size(195.0, 70.0, 14.0), ..swap(&truck) });
    near(lower.loaded_radius_mm, truck.loaded_radius_mm() - 9.0, 1e-12, "loaded radius");
    near(lower.tire.free_radius_mm(), 315.0, 0.0, "free radius");
    let (before, after) = (Rest::of(Fitted::as_measured(&truck)).unwrap(), Rest::of(lower).unwrap());
    near(after.ride_height_mm(), before.ride_height_mm() - 9.0, 1e-9, "ride height");
    near(after.pose.lower_arm_rad, before.pose.lower_arm_rad, 1e-12, "lower arm");
    // A radius that was measured stands, whatever the sizes say.
    let typed = fitted(&truck, TireSwap { loaded_radius_mm: Some(300.0), ..swap(&truck) });
    near(typed.loaded_radius_mm, 300.0, 0.0, "typed");
}

/// Offset is positive with the mounting face outboard of the centre plane, so
/// 20 mm less of it put wheel and contact 20 mm out; the longer lever then
/// lets the body down a little.
#[test]
fn less_offset_moves_the_wheel_out() {
    let truck = demo().truck;
    let out = fitted(&truck, TireSwap { offset_mm: truck.wheel.offset_mm - 20.0, ..swap(&truck) });
    near(out.points.wheel_centre.y, truck.points.wheel_centre.y + 20.0, 1e-12, "wheel center");
    let before = Rest::of(Fitted::as_measured(&truck)).unwrap();
    let after = Rest::of(out).unwrap();
    let scrub = after.attitude().scrub_radius_mm - before.attitude().scrub_radius_mm;
    assert!(scrub > 19.0, "{scrub}");
    assert!(after.ground_mm > 0.1, "{}", after.ground_mm);
    assert!(after.effort > before.effort);
}

/// A diameter measured on the old tire says nothing of another size, but
/// holds for the same tire on another wheel.
#[test]
fn a_measured_diameter_belongs_to_its_tire() {
    let mut truck = demo().truck;
    truck.tire.measured_diameter_mm = Some(655.0);
    let wheel = fitted(&truck, TireSwap { offset_mm: 12.0, ..swap(&truck) });
    near(wheel.tire.free_radius_mm(), 327.5, 0.0, "same tire");
    let tire = fitted(&truck, TireSwap { size: size(205.0, 70.0, 14.0), ..swap(&truck) });
    near(tire.tire.free_radius_mm(), 322.0, 0.0, "another");
}
