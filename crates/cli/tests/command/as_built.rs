//! `scrubline as-built`: how a truck came out, and why.

use crate::{changed_front, complaint, piped, printed, quoted_rows};
use serde_json::{Value, json};

/// The demo's front with a two-inch spindle, read as it sat and as built.
fn built(before: Value, built: Value) -> String {
    changed_front(|file| {
        file["truck"]["readings"] = before;
        file["built"] = built;
    })
}

fn at_left(readings: Value) -> Value {
    json!({ "left": readings })
}

/// By hand: 300 less 50.8 is 249.2, both tapes together are 2.26 off; the gap of 58.7 less 50.8 is 7.9.
#[test]
fn tells_what_came_out_as_planned_and_what_did_not() {
    let rule = |mm: f64| json!({ "value": mm, "tool": "drill_shank" });
    let before = at_left(json!({ "ride_height": { "value": 300 }, "rim_to_lower_joint": rule(58.7) }));
    let after = at_left(json!({ "ride_height": { "value": 229.2 }, "rim_to_lower_joint": rule(7.9) }));
    let file = built(before, after);
    let rows = quoted_rows(&printed(&piped(&["as-built", "-", "--format", "csv"], &file)));
    let of = |key: &str| rows.iter().find(|row| row["answer"] == key).unwrap();
    let number = |key: &str, column: &str| of(key)[column].parse::<f64>().unwrap();
    assert!((number("ride_height", "planned") - 249.2).abs() < 0.01);
    assert!((number("ride_height", "off") + 20.0).abs() < 0.01);
    assert!((number("ride_height", "spread") - 2.263).abs() < 0.01);
    assert_eq!(
        (of("ride_height")["verdict"].as_str(), of("ride_height")["against"].as_str()),
        ("outside", "as it sat")
    );
    assert!(number("rim_to_lower_joint", "off").abs() < 0.05);
    assert_eq!(of("rim_to_lower_joint")["verdict"], "inside");
    let causes: Vec<_> =
        rows.iter().filter(|row| row["kind"] == "cause").map(|row| row["said"].as_str()).collect();
    // A spindle of more drop would have taken the gap with it.
    assert!(
        causes.contains(&"the tires stand 19.8 mm lower than planned: their size, or their pressure"),
        "{causes:?}"
    );
    assert!(!causes.iter().any(|said| said.contains("spindle")), "{causes:?}");
    let said = printed(&piped(&["as-built", "-", "--units", "in"], &file));
    for line in ["Frame height: not as planned", "each of these alone would make it so", "after 100 miles"] {
        assert!(said.contains(line), "{line} in\n{said}");
    }
}

/// Camber of 0.3°, read to a tenth, against a manual's 0.5° give or take half a degree, and of no wheel against more.
#[test]
fn a_setting_is_held_against_what_its_manual_asks() {
    let file = changed_front(|file| {
        file["built"] =
            at_left(json!({ "camber": { "value": 0.3, "tolerance": 0.1 }, "toe": { "value": 0.5 } }));
        file["work"] = json!({ "settings": { "camber": { "target": 0.5, "tolerance": 0.5 }, "toe": { "target": 0.1 } } });
    });
    let said = printed(&piped(&["as-built", "-"], &file));
    assert!(said.contains("\nCamber, by the manual 0.50° ± 0.50°: passes\n"), "{said}");
    let rows = quoted_rows(&printed(&piped(&["as-built", "-", "--format", "csv"], &file)));
    let of = |key: &str| rows.iter().find(|row| row["answer"] == key).unwrap()["asked"].clone();
    assert_eq!((of("camber").as_str(), of("toe").as_str()), ("by the manual 0.50° ± 0.50°: passes", ""));
}

/// By hand: 249.2 first and 242.2 again by tapes that read to 1.6 is 7 lower, √2 · 1.6 = 2.263 either way; the later
/// is compared, and the first stands beside it. What may touch is said of the later.
#[test]
fn what_was_read_again_after_100_miles_is_compared_and_says_how_much_it_settled() {
    let height = |mm: f64| json!({ "ride_height": { "value": mm } });
    let file = changed_front(|file| {
        file["truck"]["readings"] = at_left(height(300.0));
        file["built"] = at_left(json!({
            "ride_height": { "value": 249.2 },
            "rim_to_lower_joint": { "value": 0.2, "tool": "drill_shank" },
        }));
        file["settled"] = at_left(json!({
            "ride_height": { "value": 242.2 },
            "rim_to_lower_joint": { "value": 9, "tool": "drill_shank" },
        }));
    });
    let said = printed(&piped(&["as-built", "-"], &file));
    assert!(said.lines().next().is_some_and(|line| line.contains(", after 100 miles")), "{said}");
    assert!(said.contains("249.2 mm: settled 7.0 mm ± 2.3 mm") && said.contains("after the work"), "{said}");
    assert!(said.contains("0.2 mm: moved +8.8 mm ± ") && !said.contains("touches"), "{said}");
    let rows = quoted_rows(&printed(&piped(&["as-built", "-", "--format", "csv"], &file)));
    let row = rows.iter().find(|row| row["answer"] == "ride_height").unwrap();
    let number = |column: &str| row[column].parse::<f64>().unwrap();
    for (column, wanted) in
        [("read", 242.2), ("earlier", 249.2), ("settled", -7.0), ("settled_spread", 2.263), ("off", -7.0)]
    {
        assert!((number(column) - wanted).abs() < 0.01, "{column}: {}", row[column]);
    }
    let once = built(at_left(height(300.0)), at_left(height(249.2)));
    let said = printed(&piped(&["as-built", "-"], &once));
    assert!(!said.contains("after the work") && !said.contains("settled"), "{said}");
}

/// What is dangerous comes first, whatever was planned.
#[test]
fn what_may_touch_is_said_first() {
    let gap = |mm: f64| at_left(json!({ "rim_to_lower_joint": { "value": mm, "tool": "drill_shank" } }));
    let said = |mm: f64| {
        printed(&piped(&["as-built", "-"], &built(gap(58.7), gap(mm)))).lines().nth(2).unwrap().to_owned()
    };
    assert_eq!(
        said(0.2),
        "Left, Rim to lower ball joint: touches, or nearly so. Not on the road before there is room."
    );
    assert!(
        said(0.8).starts_with("Left, Rim to lower ball joint: only 0.8 mm. Not on the road before"),
        "{}",
        said(0.8)
    );
    assert!(
        said(6.0).starts_with("Left, Rim to lower ball joint: about 6.3 mm, the least to keep."),
        "{}",
        said(6.0)
    );
    assert!(said(7.9).trim_start().starts_with("planned"), "{}", said(7.9));
}

#[test]
fn a_side_is_asked_and_a_plan_is_named() {
    let right = json!({ "right": { "ride_height": { "value": 249.2 } } });
    let file = built(right.clone(), right);
    assert!(complaint(&piped(&["as-built", "-"], &file), 1).contains("no readings after the work there yet"));
    let said = printed(&piped(&["as-built", "-", "--side", "right"], &file));
    assert!(said.contains("right side: as it was built") && said.contains("Frame height: "), "{said}");
}

/// A planned gap of which nothing was measured is a guess, in every output.
#[test]
fn a_guess_keeps_its_mark() {
    let after = at_left(json!({ "rim_to_lower_joint": { "value": 7.9, "tool": "drill_shank" } }));
    let file = changed_front(|file| {
        file["truck"]["sources"] = json!({ "rule": "assumed" });
        file["built"] = after;
    });
    let rows = quoted_rows(&printed(&piped(&["as-built", "-", "--format", "csv"], &file)));
    assert_eq!((rows[0]["guess"].as_str(), rows[0]["verdict"].as_str()), ("yes", "cannot tell"));
    let said = printed(&piped(&["as-built", "-"], &file));
    assert!(said.contains(" ~ 7.4 mm"), "{said}");
}

/// What is dangerous is so at whichever side it was read, and where the plan does not even stand.
#[test]
fn a_danger_is_said_whatever_is_asked() {
    let gap = json!({ "rim_to_lower_joint": { "value": 0.1, "tool": "drill_shank" } });
    let height = json!({ "ride_height": { "value": 249.2 } });
    let file = built(json!({}), json!({ "left": height, "right": gap }));
    let danger = "Right, Rim to lower ball joint: touches, or nearly so.";
    assert!(printed(&piped(&["as-built", "-"], &file)).contains(danger));
    let rows = quoted_rows(&printed(&piped(&["as-built", "-", "--format", "csv"], &file)));
    assert_eq!((rows[0]["kind"].as_str(), rows[0]["said"].starts_with(danger)), ("danger", true));
    assert_eq!(rows.last().unwrap()["kind"], "caution");
    let apart = changed_front(|file| {
        let arm = json!({ "change": "arm_swap", "place": "lower_arm", "longer": 300, "higher": 0, "forward": 0, "stop": 0 });
        file["proposals"][0]["changes"] = json!([arm]);
        file["built"] = json!({ "right": gap });
    });
    let said = complaint(&piped(&["as-built", "-", "--side", "right"], &apart), 1);
    let (first, second) = (said.find(danger).unwrap(), said.find("do not reach each other").unwrap());
    assert!(first < second, "{said}");
}
