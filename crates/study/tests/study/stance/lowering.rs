//! The lesson: two inches by spindle keep the travel to the stop, two inches by
//! bars or cut coils eat it.

use super::{as_measured, published_truck, rest};
use linkage::root;
use study::{HeldBy, Rest, StandingSide, travel_left};
use truck::{Bar, BarAdjuster, Change, CutCoil, DroppedSpindle, Remark, SpringKind, Truck, demo, fit};
use yardstick::budget::near;

const DROP_MM: f64 = 50.8;

/// The amount of a change between two bounds that lowers the truck by [`DROP_MM`].
fn amount(truck: &Truck, change: impl Fn(f64) -> Change, low: f64, high: f64) -> f64 {
    let miss = |amount: f64| Some(rest(truck, &[change(amount)]).ground_mm - DROP_MM);
    root::bracketed(miss, low, high, 1e-9).unwrap()
}

/// The published car's stop far enough away for two inches of lowering.
fn trucks() -> [(&'static str, Truck); 2] {
    let mut published = published_truck();
    published.stops.bump_gap_mm = 30.0;
    published.spring.coil.arm_seat = linkage::Point3::new(-20.0, 600.0, 170.0);
    published.spring.coil.body_seat = linkage::Point3::new(-30.0, 560.0, 440.0);
    [("demo", demo().truck), ("published", published)]
}

/// The truck lowered by a change, the bump travel that it lost and the droop
/// that it gained, to the stops, mm.
fn lowered(truck: &Truck, change: Change) -> (StandingSide, f64, f64) {
    let (before, after) = (as_measured(truck), rest(truck, &[change]));
    let (was, is) = (travel_left(&before), travel_left(&after));
    near(before.ride_height_mm() - after.ride_height_mm(), DROP_MM, 0.1, "the same drop");
    assert_eq!(after.held_by, HeldBy::Spring);
    (after, was.touch_mm - is.touch_mm, is.droop_stop_mm - was.droop_stop_mm)
}

/// How far the wheel has gone up against the body where only the spring was
/// changed: an identity of what is lost to a stop that stands where it stood.
fn risen(truck: &Truck, after: &Rest) -> f64 {
    after.pose.wheel_centre.z - as_measured(truck).pose.wheel_centre.z
}

#[test]
fn a_spindle_keeps_the_travel() {
    for (name, truck) in trucks() {
        let spindle = DroppedSpindle { drop_mm: DROP_MM, ..DroppedSpindle::default() };
        let (_, lost, gained) = lowered(&truck, Change::DroppedSpindle(spindle));
        near(lost, 0.0, 0.1, name);
        near(gained, 0.0, 0.1, name);
    }
}

#[test]
fn bars_turned_down_eat_the_drop() {
    for (name, truck) in trucks() {
        let adjuster = |turns| Change::BarAdjuster(BarAdjuster { turns });
        let turns = amount(&truck, adjuster, -40.0, 0.0);
        assert!(turns < 0.0, "{name}: out lowers");
        let (after, lost, gained) = lowered(&truck, adjuster(turns));
        near(lost, DROP_MM, 0.1, name);
        near(lost, risen(&truck, &after), 1e-9, name);
        near(gained, lost, 1e-9, name);
    }
}

#[test]
fn a_cut_coil_eats_the_drop_and_is_stiffer() {
    for (name, mut truck) in trucks() {
        truck.spring.kind = SpringKind::Coil;
        let cut = |coils| Change::CutCoil(CutCoil { coils });
        let coils = amount(&truck, cut, 0.0, 2.0);
        let (after, lost, _) = lowered(&truck, cut(coils));
        near(lost, DROP_MM, 0.1, name);
        near(lost, risen(&truck, &after), 1e-9, name);
        let before = as_measured(&truck);
        assert!(after.wheel_rate_n_per_mm > before.wheel_rate_n_per_mm, "{name}");
        assert!(after.ride_frequency_hz() > before.ride_frequency_hz(), "{name}");
    }
}

/// In raises, out lowers, and the more the more.
#[test]
fn the_adjuster_s_sense() {
    let truck = demo().truck;
    let height = |turns| rest(&truck, &[Change::BarAdjuster(BarAdjuster { turns })]).ride_height_mm();
    let heights: Vec<f64> = [-12.0, -6.0, 0.0, 6.0, 12.0].map(height).to_vec();
    assert!(heights.is_sorted(), "{heights:?}");
    assert!(heights[4] - heights[0] > 20.0, "{heights:?}");
}

/// Turns undone from where they led: the lever there, longer or shorter to the
/// bolt and at its new angle, comes back by just as much.
#[test]
fn the_adjuster_is_undone_by_its_opposite() {
    let bar = Bar { lever_angle_rad: 1.2, ..demo().truck.spring.bar };
    for turns in [-20.0, -3.5, 0.25, 12.0] {
        let turned = bar.anchor_turn_rad(turns);
        let (sin, cos) = libm::sincos(bar.lever_angle_rad);
        let along = bar.lever_mm * cos - turns * bar.thread_pitch_mm;
        let there = Bar {
            lever_mm: libm::hypot(along, bar.lever_mm * sin),
            lever_angle_rad: bar.lever_angle_rad + turned,
            ..bar
        };
        near(there.anchor_turn_rad(-turns), -turned, 1e-14, "back");
        assert!(turned * turns > 0.0);
    }
    // A quarter turn of a lever square to its bolt, by the tangent.
    let square = Bar { lever_mm: 150.0, lever_angle_rad: std::f64::consts::FRAC_PI_2, ..bar };
    let turns = 150.0 / square.thread_pitch_mm;
    near(square.anchor_turn_rad(turns), std::f64::consts::FRAC_PI_4, 1e-14, "as long as the lever");
}

#[test]
fn what_the_thread_cannot_give_is_said() {
    let truck = demo().truck;
    let remarks = |turns| fit(&truck, &[Change::BarAdjuster(BarAdjuster { turns })]).unwrap().remarks;
    assert_eq!(remarks(truck.spring.bar.turns_in), []);
    assert_eq!(remarks(-truck.spring.bar.turns_out), []);
    assert_eq!(remarks(12.5), [Remark::PastThread { left: 12.0 }]);
    assert_eq!(remarks(-14.5), [Remark::PastThread { left: 14.0 }]);
}
