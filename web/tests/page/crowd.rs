//! Points that lie close together: nearest first, and a second tap goes on.

use drawing::{Aspect, Handle};
use page::sketch::gesture::{next_in_crowd, pick, within_reach};
use wasm_bindgen_test::wasm_bindgen_test;

const REACH_PX: f64 = 24.0;

/// The handles on a grid of uneven places, 24 px and less apart.
fn places(seed: u32) -> Vec<(Handle, f64, f64)> {
    let mut state = seed;
    let mut next = || {
        // A linear congruence (constants from memory): scattered is all it must be.
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(state >> 16) / 65_536.0 * 80.0
    };
    Aspect::Front.handles().iter().map(|handle| (*handle, next(), next())).collect()
}

fn away((_, x, y): &(Handle, f64, f64)) -> f64 {
    ((x - 40.0).powi(2) + (y - 40.0).powi(2)).sqrt()
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_in_reach_is_listed_nearest_first() {
    let mut sizes = [false; 10];
    for seed in 0..200 {
        let places = places(seed);
        let near = within_reach(&places, 40.0, 40.0, REACH_PX);
        let distance = |handle: &Handle| away(places.iter().find(|place| place.0 == *handle).unwrap());
        assert!(near.iter().map(distance).is_sorted(), "{places:?}: {near:?}");
        for place in &places {
            assert_eq!(near.contains(&place.0), away(place) <= REACH_PX, "{place:?}");
        }
        sizes[near.len()] = true;
    }
    assert!(sizes[0] && sizes[1] && sizes[3], "crowds of several sizes were looked at");
}

#[wasm_bindgen_test(unsupported = test)]
fn the_nearest_is_taken_unless_one_of_them_was_chosen() {
    let near = [Handle::TieOuter, Handle::LowerBall, Handle::WheelCentre];
    assert_eq!(pick(&near, None), Some(Handle::TieOuter));
    assert_eq!(pick(&near, Some(Handle::WheelCentre)), Some(Handle::WheelCentre));
    assert_eq!(pick(&near, Some(Handle::Fender)), Some(Handle::TieOuter), "one that is elsewhere");
    assert_eq!(pick(&[], Some(Handle::Fender)), None, "nothing is under the pointer");
}

#[wasm_bindgen_test(unsupported = test)]
fn tapping_on_goes_through_the_crowd_and_comes_round() {
    for seed in 0..50 {
        let near = within_reach(&places(seed), 40.0, 40.0, 60.0);
        let mut chosen = None;
        let mut seen = Vec::new();
        for _ in 0..near.len() {
            chosen = next_in_crowd(&near, chosen);
            seen.extend(chosen);
        }
        assert_eq!(seen, near, "each once, nearest first");
        assert_eq!(next_in_crowd(&near, chosen), near.first().copied(), "and round again");
    }
    assert_eq!(next_in_crowd(&[], Some(Handle::Rail)), None);
    let near = [Handle::TieOuter, Handle::LowerBall];
    assert_eq!(next_in_crowd(&near, Some(Handle::Fender)), Some(Handle::TieOuter), "one that is elsewhere");
}
