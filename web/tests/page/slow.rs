//! A drag that was held still goes on slowly.

use page::sketch::gesture::slowed;
use wasm_bindgen_test::wasm_bindgen_test;

/// Places on the screen at which drags take hold and are held still, px: to either side, near and far, and
/// where it took hold.
const HELD: [(f64, f64); 6] =
    [(100.0, 160.0), (100.0, 40.0), (100.0, 101.0), (0.25, -0.5), (310.5, 310.5), (7.0, 300.0)];

/// What a person can do with it: a finger goes by a pixel, a sixteenth of an inch is to be more than half of
/// one. On a phone of 360 px the front view draws an inch on some 9 px (its own drawing, 2026-11-30), so a
/// sixteenth on .56 px at full speed where nothing is zoomed: a quarter of that for a pixel is exact enough.
#[wasm_bindgen_test(unsupported = test)]
fn about_where_it_is_held_it_goes_a_quarter_as_far_as_the_finger() {
    for (from, slow) in HELD {
        let out = (slow - from).signum();
        assert_eq!(slowed(from, slow, slow).to_bits(), (slow - from).to_bits(), "nothing jumps as it begins");
        assert!((slowed(from, slow, slow + 40.0 * out) - (slow - from + 10.0 * out)).abs() < 1e-12);
        let back = (slow - from).abs() / 2.0;
        assert!((slowed(from, slow, slow - back * out) - (slow - from - back * out / 4.0)).abs() < 1e-12);
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn back_where_it_took_hold_it_has_moved_nothing() {
    for (from, slow) in HELD {
        assert_eq!(slowed(from, slow, from).abs().to_bits(), 0, "{from} {slow}");
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn it_never_goes_against_the_finger_and_never_jumps() {
    for (from, slow) in HELD {
        let mut last = slowed(from, slow, -500.0);
        for at in -4999..8000 {
            let now = slowed(from, slow, f64::from(at) / 10.0);
            // The second half of the way back makes up for the first: at most 1.75 times as far.
            assert!((0.0..=0.175 + 1e-9).contains(&(now - last)), "{from} {slow} at {at}");
            last = now;
        }
    }
}
