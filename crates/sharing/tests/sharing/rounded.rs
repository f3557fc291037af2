//! What of a file is finer than it is kept.

use crate::files::parse;
use sharing::{Shared, from_tree, print_json, rounded, to_tree};
use truck::demo;

/// Path, as given, as kept.
fn found(text: &str) -> Vec<(String, f64, f64)> {
    let tree = parse(text);
    let shared = from_tree(&tree).unwrap();
    rounded(&tree, &shared).into_iter().map(|one| (one.path, one.given, one.kept)).collect()
}

/// The steps of `truck::Kind`: 0.01 mm, 0.01°, 1 N, 0.01 N/mm, 100 N/mm²; rounded by hand.
/// Two changes stand in the order in which nobody keeps them, and the places are the file's.
#[test]
fn every_place_of_a_number_is_looked_at() {
    let text = r#"{
      "scrubline": 1,
      "truck": {
        "points": { "lower_ball": { "x": 3, "y": 650.0149, "z": 228 } },
        "alignment": { "camber": -0.357, "toe": 0.25 },
        "load": { "corner_load": 3500.4 },
        "bar": { "shear_modulus": 79320 },
        "right": { "upper_ball_z": 440.006, "toe": null }
      },
      "proposals": [
        { "name": "none" },
        { "rear_down": 50.804, "changes": [
          { "change": "tire_swap", "section": 205.2, "offset": -12.705 },
          { "change": "moved_pivot", "place": "upper_arm", "up": 6.351 },
          { "change": "moved_pivot", "place": "lower_arm", "up": 6.35 },
          { "change": "dropped_spindle", "drop": 50.8 },
          { "change": "bar_adjuster", "side": "right", "turns": 2.504 },
          { "change": "bar_adjuster", "side": "left", "turns": 3 }
        ] }
      ],
      "opening": { "travel": 12.344, "steer": 7.125 },
      "ledger": { "rows": [
        { "row": "tie_stud", "numbers": { "stud_large": { "value": 18.024, "tool": "caliper" } } },
        { "row": "arm_bushing", "numbers": { "bore": { "value": 44.4514, "tool": "micrometer" },
                                             "outside": { "value": 44.487, "tool": "micrometer" } } }
      ] }
    }"#;
    let expected: [(&str, f64, f64); 14] = [
        ("truck.points.lower_ball.y", 650.0149, 650.01),
        ("truck.alignment.camber", -0.357, -0.36),
        ("truck.load.corner_load", 3500.4, 3500.0),
        ("truck.bar.shear_modulus", 79320.0, 79300.0),
        ("truck.right.upper_ball_z", 440.006, 440.01),
        ("proposals[1].rear_down", 50.804, 50.8),
        ("proposals[1].changes[0].section", 205.2, 205.0),
        ("proposals[1].changes[0].offset", -12.705, -12.71),
        ("proposals[1].changes[1].up", 6.351, 6.35),
        ("proposals[1].changes[4].turns", 2.504, 2.5),
        ("opening.travel", 12.344, 12.34),
        ("opening.steer", 7.125, 7.13),
        ("ledger.rows[0].numbers.stud_large.value", 18.024, 18.02),
        ("ledger.rows[1].numbers.bore.value", 44.4514, 44.451),
    ];
    // The library that reads the text here puts keys in an order of its own.
    let mut found = found(text);
    let order = |path: &str| expected.iter().position(|(other, ..)| *other == path);
    found.sort_by_key(|(path, ..)| order(path));
    let paths: Vec<_> = found.iter().map(|(path, ..)| path.as_str()).collect();
    assert_eq!(paths, expected.map(|(path, ..)| path));
    for ((path, given, kept), (_, written, rounded)) in found.iter().zip(expected) {
        assert_eq!(given.to_bits(), written.to_bits(), "{path}");
        assert!((kept - rounded).abs() < 1e-9, "{path}: {kept}");
    }
}

/// What is printed is kept as it is printed, and the last digit of an `f64` is no digit of a tape.
#[test]
fn what_is_kept_as_it_stands_is_not_named() {
    let own = Shared { design: demo(), opening: sharing::Opening::default() };
    assert_eq!(found(&print_json(&to_tree(&own))), []);
    let just = |y: &str| {
        format!("{{\"scrubline\": 1, \"truck\": {{\"points\": {{\"lower_ball\": {{\"y\": {y}}}}}}}}}")
    };
    assert_eq!(found(&just("650.0100000000001")), []);
    assert_eq!(found(&just("650.010")), []);
    assert_eq!(found(&just("650.01000001")).len(), 1);
}
