//! `scrubline work`: the demo's spindle in order, with its open items.

use crate::{complaint, printed, scrubline};

#[test]
fn the_spindle_comes_in_its_order() {
    let said = printed(&scrubline(&["work"]));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    assert!(at("paint marks") < at("Let the bar down"));
    assert!(at("Let the bar down") < at("Ball joints parted"));
    assert!(at("torqued and pinned") < at("Load the bar"));
    assert!(at("backed right off") < at("Caliper on"));
    assert!(at("Roll the truck ten feet") < at("set the height"));
    assert!(said.contains("Not on the road until this box is empty:\n  [ ] ball-joint nuts"), "{said}");
    assert!(!said.contains("Bracket on the arm") && !said.contains("U-bolts, snug"), "{said}");
}

/// As measured nothing comes apart: the marks, the wheels and the alignment are what is left.
#[test]
fn as_measured_there_is_little_to_do_and_a_name_that_is_none_is_refused() {
    let said = printed(&scrubline(&["work", "--proposal", "measured"]));
    assert!(!said.contains("Let the bar down") && said.contains("Aligned and inspected"), "{said}");
    assert!(complaint(&scrubline(&["work", "--plan", "9"]), 1).contains("--plan"));
    let rows: serde_json::Value =
        serde_json::from_str(&printed(&scrubline(&["work", "--format", "json"]))).unwrap();
    assert_eq!(rows[0]["number"], 1);
}
