//! What was read off the truck, on the command line.

use crate::{changed_front, complaint, piped, printed};
use serde_json::{Value, json};

fn read(side: &str, readings: Value) -> String {
    changed_front(|file| file["truck"]["readings"] = json!({ side: readings }))
}

fn report(arguments: &[&str], design: &str) -> Value {
    let mut all = vec!["report", "-", "--format", "json", "--decimals", "6"];
    all.extend(arguments);
    serde_json::from_str(&printed(&piped(&all, design))).unwrap()
}

fn number(truck: &Value, key: &str) -> f64 {
    truck[key].as_f64().unwrap_or_else(|| panic!("{key} of {truck}"))
}

/// By hand: a rail that was read at 305 stands at 305, and by a two-inch spindle at 305 − 50.8; a
/// gap straight up loses as much; 1.6° of gain over 20° each way is 1.6 / 0.68404 of caster. Beside
/// each stands what the model says without a reading.
#[test]
fn a_report_tells_the_reading_with_the_model_s_own_beside() {
    let readings = json!({
        "ride_height": {"value": 305},
        "fender_above_tire": {"value": 90, "tool": "rule"},
        "caster_ground": {"value": 1.6, "swept": 20},
    });
    let (plain, told) = (report(&[], &changed_front(|_| {})), report(&[], &read("left", readings.clone())));
    let near = |value: f64, expected: f64| assert!((value - expected).abs() < 2e-6, "{value} {expected}");
    for truck in 0..2 {
        let (own, here) = (&plain["trucks"][truck], &told["trucks"][truck]);
        let spindle = if truck == 0 { 0.0 } else { 50.8 };
        near(number(here, "ride_height_mm"), 305.0 - spindle);
        near(number(here, "fender_above_tire_mm"), 90.0 - spindle);
        for key in ["ride_height", "fender_above_tire"] {
            near(number(here, &format!("{key}_model_mm")), number(own, &format!("{key}_mm")));
        }
        near(number(here, "drop_mm"), spindle);
        near(number(here, "caster_ground_model_deg"), number(own, "caster_ground_deg"));
        let swept = 1.6 / (2.0 * libm::sin(20_f64.to_radians()));
        let lost = number(own, "caster_ground_deg") - number(&plain["trucks"][0], "caster_ground_deg");
        near(number(here, "caster_ground_deg"), swept + lost);
        // Camber was not read: it is the model's, and nothing stands beside it.
        near(number(here, "camber_deg"), number(own, "camber_deg"));
        assert_eq!(here.get("camber_model_deg"), None);
    }
    let listed = &told["readings"];
    assert_eq!(listed.as_array().unwrap().len(), 3);
    assert_eq!((&listed[0]["answer"], &listed[0]["tool"]), (&json!("ride_height"), &json!("tape")));
    near(number(&listed[0], "tolerance_mm"), 1.6);
    assert_eq!(listed[2]["tool"], "rule");
    near(number(&listed[1], "swept_deg"), 20.0);
    // A tenth of a degree in the gain is 0.146 of caster.
    near(number(&listed[1], "tolerance_deg"), 0.1 / (2.0 * libm::sin(20_f64.to_radians())));

    let text = printed(&piped(&["report", "-", "--units", "in"], &read("left", readings.clone())));
    let lines: Vec<_> = text.lines().collect();
    let at = lines.iter().position(|line| line.starts_with("Frame height")).unwrap();
    assert!(lines[at].contains("12 in") && lines[at].contains("10 in"), "{}", lines[at]);
    assert!(lines[at + 1].starts_with("  model says") && lines[at + 1].contains("11 13/16 in"), "{text}");
    assert!(text.contains("  Frame height: 12 in ± 0.063 in, by tape\n"), "{text}");
    assert!(text.contains("swept 20.00° each way"), "{text}");
    let csv = printed(&piped(&["report", "-", "--format", "csv"], &read("left", readings)));
    assert!(csv.contains("\nride_height_model,mm,300.0000,249.2000\n"), "{csv}");
    assert!(csv.contains("reading,,\"Frame height: 305.00 mm ± 1.60 mm, by tape\","), "{csv}");
}

/// A side that was not read is told by the model.
#[test]
fn a_reading_is_that_of_its_side() {
    let design = read("right", json!({"camber": {"value": -0.75}}));
    let camber = |arguments: &[&str]| number(&report(arguments, &design)["trucks"][0], "camber_deg");
    assert!((camber(&["--side", "right"]) + 0.75).abs() < 1e-9);
    assert!(camber(&[]).abs() < 1e-9);
    assert_eq!(report(&[], &design)["readings"], json!([]));
}

/// On a truck of guesses the mark goes from what was read, and stays on what a reading cannot say
/// and on the model's own.
#[test]
fn what_was_read_loses_its_mark_and_nothing_else_does() {
    let design = changed_front(|file| {
        file["truck"]["sources"] = json!({"rule": "assumed"});
        file["truck"]["readings"] =
            json!({"left": {"ride_height": {"value": 305}, "camber": {"value": 0.5}}});
    });
    let report = report(&[], &design);
    let marks = |truck: usize| report["trucks"][truck]["guesses"].as_array().unwrap().clone();
    for truck in 0..2 {
        let marked = |key: &str| marks(truck).contains(&json!(key));
        assert!(!marked("ride_height_mm"), "{truck}");
        assert!(marked("bump_left_mm") && marked("caster_ground_deg") && marked("ride_height_model_mm"));
    }
    assert!(!marks(0).contains(&json!("camber_deg")));
    let text = printed(&piped(&["report", "-"], &design));
    let line = text.lines().find(|line| line.starts_with("Frame height")).unwrap();
    assert!(!line.contains('~'), "{line}");
}

/// What is set for is what a gauge will read: with the rail read 5 mm high and a target at that
/// height nothing is to be turned, where the model alone would let it down.
#[test]
fn set_up_sets_for_what_was_read() {
    let design = read("left", json!({"ride_height": {"value": 305}}));
    let text = |design: &str| {
        let asked = ["setup", "-", "--proposal", "0", "--height", "305 mm", "--units", "mm"];
        printed(&piped(&asked, design))
    };
    let bolt = |text: &str| text.lines().find(|line| line.starts_with("Adjuster bolt")).unwrap().to_owned();
    assert!(bolt(&text(&design)).contains("as it is"), "{}", text(&design));
    assert!(bolt(&text(&changed_front(|_| {}))).contains("turns in"));
    assert!(text(&design).contains("305.00 mm"));
}

#[test]
fn a_reading_that_is_none_is_named_at_its_place() {
    for (readings, said) in [
        (
            json!({"tire_to_fender": {"value": -1}}),
            "truck.readings.left.tire_to_fender.value (tire to fender) takes 0 to 500.",
        ),
        (
            json!({"rim_to_caliper": {"value": 4, "tolerance": 0}}),
            "truck.readings.left.rim_to_caliper.tolerance (rim to caliper) takes 0.05 to 10.",
        ),
        (
            json!({"caster_ground": {"value": 2, "swept": 0}}),
            "truck.readings.left.caster_ground.swept (Caster, against the ground) takes 5 to 40.",
        ),
        (json!({"tire_to_mirror": {"value": 4}}), "“truck.readings.left.tire_to_mirror” is not known here."),
    ] {
        let complaint = complaint(&piped(&["report", "-"], &read("left", readings)), 1);
        assert!(complaint.contains(said), "{complaint}");
    }
    // A pair that is there, yet not to the model: it is said what a change needs.
    let open = changed_front(|file| {
        file["truck"]["brake"]["caliper_radius"] = Value::Null;
        file["truck"]["readings"] = json!({"left": {"rim_to_caliper": {"value": 4}}});
    });
    let text = printed(&piped(&["report", "-"], &open));
    assert!(text.contains("what a change does to it the model cannot say: Caliper"), "{text}");
}
