//! Rounding while a value is dragged.

use drawing::Units;
use page::sketch::gesture::Snap;
use wasm_bindgen_test::wasm_bindgen_test;

/// A sixteenth of an inch, mm.
const SIXTEENTH: f64 = 25.4 / 16.0;

/// Movements from one side to the other, finer than any step and never quite on one.
fn movements() -> impl Iterator<Item = f64> {
    (-400..=400).map(|at| f64::from(at) * 0.0371)
}

const STARTS: [f64; 5] = [0.0, 196.0, 195.26, -3.175, 0.4];

#[wasm_bindgen_test(unsupported = test)]
fn inches_snap_to_sixteenths_and_millimetres_to_whole_ones() {
    assert_eq!(Snap::for_units(Units::Inches, true), Snap::To(SIXTEENTH));
    assert_eq!(Snap::for_units(Units::Millimetres, true), Snap::To(1.0));
    for units in [Units::Inches, Units::Millimetres] {
        assert_eq!(Snap::for_units(units, false), Snap::Off);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_value_is_where_it_began_or_on_a_mark_and_never_more_than_half_a_step_off() {
    for step in [SIXTEENTH, 1.0] {
        for start in STARTS {
            for by in movements() {
                let to = Snap::To(step).moved(start, by);
                let marks = to / step;
                let on_mark = (marks - marks.round()).abs() < 1e-9;
                assert!(on_mark || to.to_bits() == start.to_bits(), "{start} by {by}: {to}");
                assert!((to - (start + by)).abs() <= step / 2.0 + 1e-9, "{start} by {by}: {to}");
            }
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_value_never_goes_against_the_finger() {
    for snap in [Snap::To(SIXTEENTH), Snap::To(1.0), Snap::Off] {
        for start in STARTS {
            let values: Vec<f64> = movements().map(|by| snap.moved(start, by)).collect();
            assert!(values.is_sorted(), "{snap:?} from {start}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn without_snapping_a_value_goes_where_the_finger_goes() {
    for start in STARTS {
        for by in movements() {
            assert_eq!(Snap::Off.moved(start, by).to_bits(), (start + by).to_bits());
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn the_smallest_movements_keep_the_value_that_was_typed() {
    for start in STARTS {
        for by in [0.0, -0.0, 0.1, -0.1, 0.49, -0.49] {
            assert_eq!(Snap::To(1.0).moved(start, by).to_bits(), start.to_bits(), "{start} by {by}");
        }
    }
}
