//! `scrubline bolt-up`: rows by their verdicts, what is next, and whose the numbers are.

use crate::{complaint, piped, printed, scrubline};

/// A bar of 25.4 for a bracket of 26.5, and a bracket 0.1 mm off its arm.
const FILE: &str = r#"{"scrubline": 1, "title": "Juniper pickup", "ledger": {
  "parts": [{"part": "bracket", "from": {"donor": "a '79, long bed"}}],
  "rows": [
    {"row": "bar_in_bracket", "numbers": {
      "teeth": {"value": 36}, "teeth_socket": {"value": 36}, "over": {"value": 25.4}, "valleys": {"value": 26.5}}},
    {"row": "bracket_on_arm", "numbers": {
      "count": {"value": 2}, "held": {"value": 0}, "bolt": {"value": 12},
      "first_over_12": {"value": 105}, "first_hole_1": {"value": 13}, "first_hole_2": {"value": 13},
      "second_over_12": {"value": 105.1}, "second_hole_1": {"value": 13}, "second_hole_2": {"value": 13}}},
    {"row": "hose", "numbers": {"free": {"value": 450, "tool": "tape", "whose": "guessed"}}}
  ]}}"#;

#[test]
fn rows_stand_by_their_verdicts_and_the_next_number_is_named() {
    let said = printed(&piped(&["bolt-up", "-"], FILE));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    let no = at("Does not\n  bracket–bar: 26.5 / 25.4 over splines: does not");
    let yes = at(
        "bracket–lower arm: 92.0 / 92.1 between the holes: mates by what you measured, 1.9 mm left; try it on",
    );
    let open = at("Hose from line to caliper: not asked yet: 0 of 4 (with a guess)");
    assert!(no < yes && yes < open && open < at("Next: "));
    assert!(said.contains("Try it on before you rely on it."));
    let all = printed(&piped(&["bolt-up", "-", "--all"], FILE));
    assert!(all.contains("Tie-rod stud in the steering arm: not asked yet: 0 of 4"), "{all}");
}

/// 22 mm that were typed in inches are 558.8: kept as they stand in the file, and asked about in either unit.
#[test]
fn a_size_in_the_wrong_unit_is_asked_about() {
    let file = FILE.replace(
        "\"rows\": [",
        "\"rows\": [{\"row\": \"rotor_in_caliper\", \"numbers\": {\"thickness\": {\"value\": 558.8}, \"opening\": {\"value\": 30}}},",
    );
    for (units, asked) in [
        ("in", "\n    Rotor, thickness: 22.000 in? As a rule 0.157 to 2.362 in.\n"),
        ("mm", "\n    Rotor, thickness: 558.8 mm? As a rule 4.0 to 60.0 mm.\n"),
    ] {
        let said = printed(&piped(&["bolt-up", "-", "--units", units], &file));
        assert!(said.contains(asked), "{said}");
        assert_eq!(said.matches("As a rule").count(), 1, "{said}");
    }
}

/// The same by link is someone else's: the no stays, the yes is gone.
#[test]
fn what_comes_by_link_never_mates() {
    let code = printed(&piped(&["link", "-"], FILE));
    let said = printed(&scrubline(&["bolt-up", code.trim()]));
    assert!(said.contains("over splines: does not") && said.contains("(someone else’s numbers)"), "{said}");
    assert!(!said.contains("mates by what you measured"), "{said}");
    assert!(said.contains("Bracket on the arm: not asked yet: 0 of 9"), "{said}");
    // So it stays in a file made of it.
    let file = printed(&scrubline(&["open", code.trim()]));
    assert!(file.contains("stranger") && !file.contains("\"own\""), "{file}");
    assert!(!printed(&piped(&["bolt-up", "-"], &file)).contains("mates by what you measured"));
}

/// 0.4 mm thinner in a taper of 1.5 in 12: 3.2 mm deeper, by hand; said by one's own numbers alone.
#[test]
fn a_stud_that_sits_deeper_is_said_under_its_row() {
    let file = |whose: &str| {
        [
            r#"{"scrubline": 1, "title": "Juniper pickup", "ledger": {"rows": [{"row": "upper_stud", "numbers": {
              "stud_large": {"value": 17.6, "whose": ""#,
            whose,
            r#""}, "stud_along": {"value": 12}, "stud_small": {"value": 16.1},
              "seat_large": {"value": 18}, "seat_along": {"value": 12}, "seat_small": {"value": 16.5},
              "blue": {"value": 1}, "rock": {"value": 1}, "nut": {"value": 1}, "pin": {"value": 1}}}]}}"#,
        ]
        .concat()
    };
    let said = printed(&piped(&["bolt-up", "-", "--units", "mm"], &file("own")));
    let under =
        "mates by what you measured\n    The stud sits 3.2 mm deeper than flush, ± 0.77 mm. If the old";
    assert!(said.contains(under), "{said}");
    assert!(!printed(&piped(&["bolt-up", "-"], &file("guessed"))).contains("deeper"));
}

#[test]
fn the_rows_are_had_as_json() {
    let said = printed(&piped(&["bolt-up", "-", "--format", "json"], FILE));
    let rows: serde_json::Value = serde_json::from_str(&said).unwrap();
    let rows = rows.as_array().unwrap();
    assert_eq!(rows.len(), 3);
    let bar = rows.iter().find(|row| row["kind"] == "spline").unwrap();
    assert_eq!(bar["verdict"], "does not");
    assert_eq!((bar["first_value"].as_f64(), bar["second_value"].as_f64()), (Some(26.5), Some(25.4)));
    assert_eq!(bar["vital"], true);
    // 36 teeth over 25.4 mm are 0.686 mm apart, nine tenths of which is 0.618; 1.1 mm is too wide by 0.482.
    assert!((bar["room"].as_f64().unwrap() + 0.482).abs() < 2e-3, "{bar}");
    assert_eq!(rows.iter().find(|row| row["kind"] == "hose").unwrap()["own"], false);
}

#[test]
fn an_empty_ledger_asks_and_a_bad_one_says_where() {
    let said = printed(&scrubline(&["bolt-up"]));
    assert!(said.contains("Next: ") && said.contains("more rows have nothing written in them"), "{said}");
    for (bad, why) in [
        (FILE.replace("25.4", "-25.4"), "ledger.rows[0].numbers.over.value"),
        (FILE.replace("25.4", "0"), "Bar, across over its teeth"),
        (FILE.replace("\"tape\"", "\"counted\""), "ledger.rows[2].numbers.free.tool"),
        (FILE.replace("\"hose\"", "\"hoist\""), "hoist"),
        (FILE.replace("\"hose\"", "\"bracket_on_arm\""), "twice"),
        (FILE.replace("a '79", &"x".repeat(10_000)), "ledger.parts[0].from.donor"),
    ] {
        let said = complaint(&piped(&["bolt-up", "-"], &bad), 1);
        assert!(said.contains(why), "{said}");
    }
}

/// Four hundred added rows are more than a ledger takes, and are refused in a sentence.
#[test]
fn four_hundred_rows_are_refused() {
    let row = |id: usize| {
        format!(
            r#"{{"added": {}, "kind": "width", "name": "r", "first": "bar", "second": "frame", "vital": true}}"#,
            128 + id % 128
        )
    };
    let rows: Vec<_> = (0..400).map(row).collect();
    let file = format!(r#"{{"scrubline": 1, "ledger": {{"rows": [{}]}}}}"#, rows.join(","));
    let said = complaint(&piped(&["bolt-up", "-"], &file), 1);
    assert!(said.contains("more than a design can hold in ledger.rows[64]"), "{said}");
}
