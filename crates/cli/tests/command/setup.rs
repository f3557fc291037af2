//! `scrubline setup`: what it says is what the truck then reads.

use crate::{complaint, number, printed, rows, scrubline};
use std::collections::BTreeMap;

/// The rows of a setting by their first column; none has a comma in its note.
fn set(arguments: &[&str]) -> BTreeMap<String, BTreeMap<String, String>> {
    let text = printed(&scrubline(arguments))
        .replace('"', "")
        .replace("turns, ", "turns ")
        .replace("splines, ", "splines ");
    rows(&text).into_iter().map(|row| (row["what"].clone(), row)).collect()
}

/// The code that it prints opens on the truck that it describes.
#[test]
fn the_code_is_of_the_truck_as_set_up() {
    let asked = ["setup", "--height", "230", "--camber", "-0.3", "--caster", "1.4", "--toe", "0.1"];
    let text = printed(&scrubline(&asked));
    let code = text.lines().find_map(|line| line.strip_prefix("As a proposal: ")).unwrap();
    let report = rows(
        &printed(&scrubline(&["report", code, "--format", "csv", "--proposal", "1"]))
            .replace(", ", "; ")
            .replace('"', ""),
    );
    let said = set(&[&asked[..], &["--format", "csv"]].concat());
    let truck = |key: &str| {
        let row = report.iter().find(|row| row["answer"] == key).unwrap();
        number(row, "Two-inch spindle")
    };
    for key in ["ride_height", "camber", "caster_ground", "toe"] {
        let reads = number(&said[key], "amount");
        assert!((truck(key) - reads).abs() <= 1e-4, "{key}: {} in the report, {reads} here", truck(key));
        let off = reads - number(&said[key], "wanted");
        assert!((off - number(&said[key], "off")).abs() <= 2e-4, "{key}");
    }
    assert!((truck("ride_height") - 230.0).abs() < 1.0);
}

/// Nothing asked for is nothing to set.
#[test]
fn what_it_reads_already_needs_nothing() {
    let said = set(&["setup", "--format", "csv"]);
    for key in ["bolt_turns", "shim_front", "shim_rear", "tie_turns"] {
        assert!(number(&said[key], "amount").abs() < 1e-9, "{key}");
    }
    assert!(!said.contains_key("out_of_reach"));
}

#[test]
fn what_is_out_of_reach_is_said() {
    let said = set(&["setup", "--camber", "6", "--format", "csv"]);
    assert!(said["out_of_reach"]["note"].contains("thicker than its bolt takes"));
    let text = printed(&scrubline(&["setup", "--height", "10 mm"]));
    assert!(text.contains("of the way can be had"), "{text}");
    assert!(complaint(&scrubline(&["setup", "--camber", "70"]), 2).contains("60 degrees"));
}
