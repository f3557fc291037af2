//! Another tire and wheel, and tires that differ from side to side.

use crate::{fitted, near};
use linkage::{Vector3, axes};
use truck::{Change, Design, Edit, Field, Fitted, OneSide, Side, TireSize, TireSwap, Truck, demo};

fn swapped(truck: &Truck, alter: impl Fn(&mut TireSwap)) -> Fitted {
    let mut swap = TireSwap {
        size: truck.tire.size,
        rim_width_mm: truck.wheel.rim_width_mm,
        offset_mm: truck.wheel.offset_mm,
        loaded_radius_mm: None,
        barrel_mm: None,
    };
    alter(&mut swap);
    fitted(truck, Change::TireSwap(swap))
}

/// A wheel slides along its own axle, which leans and points with camber and toe
/// (ISO 8855): square to the way the wheel heads, its outer end forward where the
/// front points in, and lower where the top leans out.
#[test]
fn offset_moves_the_wheel_along_its_own_axle() {
    for (camber_rad, toe_rad) in
        [(0.0, 0.0), (0.06, 0.0), (-0.06, 0.0), (0.0, 0.03), (0.0, -0.03), (0.06, -0.03), (-0.05, 0.04)]
    {
        let mut truck = demo().truck;
        truck.points.camber_rad = camber_rad;
        truck.points.toe_rad = toe_rad;
        truck.wheel.offset_mm = 12.0;
        for offset_mm in [-8.0, 12.0, 27.0] {
            let after = swapped(&truck, |swap| swap.offset_mm = offset_mm);
            let moved = after.points.wheel_centre - truck.points.wheel_centre;
            let out_mm = 12.0 - offset_mm;
            near(axes::length(&moved), out_mm.abs(), "by the offsets' difference");
            near(moved.z, -out_mm * libm::sin(camber_rad), "down where the top leans out");
            let heads = Vector3::new(libm::cos(toe_rad), -libm::sin(toe_rad), 0.0);
            near(moved.dot(&heads), 0.0, "square to where it heads");
            assert!(moved.y * out_mm >= 0.0, "less offset is farther out: {}", moved.y);
            near(after.wheel.offset_mm, offset_mm, "the new wheel's own");
        }
    }
}

/// A barrel belongs to its rim: it stays under another tire or offset, says nothing of
/// a rim of another code, and is replaced by one that was measured.
#[test]
fn a_barrel_belongs_to_its_rim() {
    let truck = demo().truck;
    assert_eq!(truck.tire.size.rim_code.to_bits(), 14_f64.to_bits());
    let old = truck.wheel.barrel_mm;
    assert!(old.is_some());
    let barrel = |rim_code: f64, barrel_mm: Option<f64>| {
        let after = swapped(&truck, |swap| {
            swap.size.rim_code = rim_code;
            swap.size.section_mm = 205.0;
            swap.barrel_mm = barrel_mm;
        });
        after.wheel.barrel_mm
    };
    assert_eq!(barrel(14.0, None), old);
    for rim_code in [13.0, 14.5, 15.0] {
        assert_eq!(barrel(rim_code, None), None, "{rim_code}");
        assert_eq!(barrel(rim_code, Some(171.0)), Some(171.0), "{rim_code}");
    }
    assert_eq!(barrel(14.0, Some(158.0)), Some(158.0));
    let wider = swapped(&truck, |swap| swap.rim_width_mm = 177.8);
    assert_eq!((wider.wheel.rim_width_mm, wider.wheel.barrel_mm), (177.8, old));
}

/// A diameter is measured on one tire: any number of the size that differs makes it another.
#[test]
fn a_measured_diameter_is_of_one_size() {
    let mut truck = demo().truck;
    truck.tire.measured_diameter_mm = Some(655.0);
    let left = |alter: &dyn Fn(&mut TireSize)| {
        swapped(&truck, |swap| alter(&mut swap.size)).tire.measured_diameter_mm
    };
    assert_eq!(left(&|_| {}), Some(655.0));
    assert_eq!(left(&|size| size.section_mm = 205.0), None);
    assert_eq!(left(&|size| size.aspect_percent = 70.0), None);
    assert_eq!(left(&|size| size.rim_code = 15.0), None);
}

fn measured_at_the_left() -> Design {
    let value = Some(655.0);
    demo().edited(&Edit::Measure { field: Field::TireDiameter, value }).unwrap()
}

fn right_of(numbers: &[(Field, f64)]) -> OneSide {
    let numbers = numbers.iter().map(|(field, value)| (*field, Some(*value))).collect();
    measured_at_the_left().edited(&Edit::MeasureRight(numbers)).unwrap().truck.on(Side::Right)
}

/// The left's measured diameter is the right's too while its tire has the left's size; a
/// right tire of a size of its own has the diameter that the size gives, or that was
/// measured there. ISO 4000-1, from memory: 205/75R14 is 356 + 2 · 154 = 664 mm,
/// 195/70R14 356 + 2 · 137 = 630 mm, 195/75R15 381 + 2 · 146 = 673 mm.
#[test]
fn a_right_tire_of_its_own_size_is_not_the_left_s() {
    near(right_of(&[]).tire.free_radius_mm(), 655.0 / 2.0, "alike");
    near(right_of(&[(Field::CornerLoad, 3800.0)]).tire.free_radius_mm(), 655.0 / 2.0, "no size of its own");
    for (field, value, diameter_mm) in
        [(Field::TireSection, 205.0, 664.0), (Field::TireAspect, 70.0, 630.0), (Field::TireRim, 15.0, 673.0)]
    {
        let right = right_of(&[(field, value)]);
        assert_eq!(right.tire.measured_diameter_mm, None, "{field:?}");
        near(right.tire.free_radius_mm(), diameter_mm / 2.0, field.label());
        let both = right_of(&[(field, value), (Field::TireDiameter, 641.0)]);
        assert_eq!(both.tire.measured_diameter_mm, Some(641.0), "{field:?}");
    }
    assert_eq!(right_of(&[(Field::TireDiameter, 641.0)]).tire.measured_diameter_mm, Some(641.0));
    // The left keeps its own, whatever stands at the right.
    let design = measured_at_the_left();
    let other = design.edited(&Edit::MeasureRight(vec![(Field::TireAspect, Some(70.0))])).unwrap();
    assert_eq!(other.truck.on(Side::Left).tire, design.truck.tire);
}
