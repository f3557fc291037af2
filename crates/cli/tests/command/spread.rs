//! `scrubline spread`: how far off each answer may be.
//!
//! Tolerances are common practice: a sixteenth of an inch by tape, a quarter of a ball in its boot, a
//! tenth of a degree by gauge. What is held against them is reckoned by hand.

use crate::{complaint, piped, printed, quoted_rows, scrubline};
use std::collections::BTreeMap;

/// Few draws: what is asked here does not hang on them.
const FEW: [&str; 2] = ["--draws", "40"];

fn data(arguments: &[&str]) -> Vec<BTreeMap<String, String>> {
    let all = [&["spread", "--format", "csv"][..], &FEW, arguments].concat();
    quoted_rows(&printed(&scrubline(&all)))
}

fn number(rows: &[BTreeMap<String, String>], answer: &str, truck: usize, column: &str) -> f64 {
    let mut found = rows.iter().filter(|row| row["answer"] == answer);
    let row = found.nth(truck).unwrap_or_else(|| panic!("{answer} of truck {truck}"));
    row[column].parse().unwrap_or_else(|_| panic!("{answer}, {column}: {row:?}"))
}

/// What a tape makes of the demo truck's own answers, and how much better it knows what a spindle
/// changes in them; to the digit as they are told in README.
#[test]
fn answers_are_poor_and_changes_are_superb() {
    let rows = data(&[]);
    let of = |answer: &str, truck, column: &str| number(&rows, answer, truck, column);
    let told = |answer: &str| {
        let [own, change, spread] =
            [of(answer, 0, "spread"), of(answer, 1, "change"), of(answer, 1, "change_spread")];
        format!("±{own:.1}, {change:.1} ±{spread:.1}")
    };
    // A tape's sixteenth, and the floor's eighth.
    assert_eq!(told("ride_height"), "±3.5, -50.8 ±0.0");
    assert_eq!(told("caster_ground"), "±2.3, -1.1 ±0.0");
    assert_eq!(told("scrub_radius"), "±14.8, 8.8 ±2.1");
    assert_eq!(told("roll_centre"), "±31.7, -4.2 ±5.5");
    assert_eq!(told("rim_to_lower_joint"), "±6.9, -50.8 ±0.1");
    // In inches the same, and angles as they are.
    let inches = data(&["--units", "in"]);
    assert!(
        (number(&inches, "scrub_radius", 0, "spread") * 25.4 - of("scrub_radius", 0, "spread")).abs() < 2e-3
    );
    let caster = |rows| format!("{:.3}", number(rows, "caster_ground", 0, "spread"));
    assert_eq!(caster(&inches), caster(&rows));
}

/// What may meet is said before any table, with how little is known of it; and a change that the
/// tape cannot see is no change that is told.
#[test]
fn what_may_meet_is_said_first() {
    let said = printed(&scrubline(&[&["spread", "--units", "in"][..], &FEW].concat()));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    let danger = at(
        "2 in spindle: too near to tell. These may meet; measure them on the truck before you buy or cut:",
    );
    assert!(danger < at("changed by") && at("  Rim to tie rod 3/16 in ± 1/4 in\n") < at("changed by"));
    let line = |text: &str| said.lines().find(|line| line.starts_with(text)).unwrap();
    assert!(line("Roll center").ends_with("more or less: the tape can't tell"), "{said}");
    assert!(line("Frame height  ").ends_with(" −2 in"), "{said}");
    assert!(line("Camber  ").ends_with("no change"), "{said}");
    assert!(line("What ends the bump travel, 2 in spindle").contains("tire to fender in "), "{said}");
    let help = line("  Caster, against the ground ± 2.3°: ");
    for text in ["ball, forward of the axle 50 %", "Read off the truck by angle gauge or level: ± 0.10°."] {
        assert!(help.contains(text), "{help}");
    }
}

/// A guess keeps its mark, and its spread is a guess's: an inch either way, evenly, and a tape's.
#[test]
fn a_guess_is_marked_and_wide() {
    let file =
        r#"{"scrubline": 1, "truck": {"sources": {"rule": "measured", "other": {"fender_z": "assumed"}}}}"#;
    let all = [&["spread", "-", "--format", "csv"][..], &FEW].concat();
    let rows = quoted_rows(&printed(&piped(&all, file)));
    let row = rows.iter().find(|row| row["answer"] == "fender_above_tire").unwrap();
    assert_eq!(row["guess"], "yes");
    // The wheel's centre by a tape from a floor that is known to an eighth, which the lip was not measured from.
    let floored = libm::hypot(1.5875, 3.175);
    let by_hand = libm::hypot(floored, 25.4 * 2.0 / 3_f64.sqrt());
    assert!((row["spread"].parse::<f64>().unwrap() - by_hand).abs() < 1e-3, "{row:?}");
    let height = rows.iter().find(|row| row["answer"] == "ride_height").unwrap();
    assert_eq!(height["guess"], "no");
    assert!((height["spread"].parse::<f64>().unwrap() - floored).abs() < 1e-3, "{height:?}");
}

#[test]
fn what_is_no_count_or_no_truck_is_refused() {
    for count in ["0", "39", "100001", "many", ""] {
        assert!(complaint(&scrubline(&["spread", "--draws", count]), 2).contains("--draws"), "{count}");
    }
    assert!(complaint(&scrubline(&["spread", "--plan", "9"]), 1).contains("--plan"));
    let sunk = r#"{"scrubline": 1, "truck": {"bar": {"bar_diameter": 14, "bar_length": 2500}}}"#;
    assert!(complaint(&piped(&["spread", "-"], sunk), 1).contains("too soft to stand on"));
}
