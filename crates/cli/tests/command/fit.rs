//! `scrubline fit`: readings that correct the points.

use crate::{changed_demo, complaint, piped, printed, quoted_rows};
use serde_json::{Value, json};

fn read(readings: Value) -> String {
    changed_demo(|file| file["truck"]["readings"] = json!({ "left": readings }))
}

/// By hand: two balls 220 mm apart upright, each known to a quarter of an inch. From 2.08° to the 3.50°
/// that were read the axis tilts by 5.4 mm of it, half at each ball, and which of the two was off is not
/// known. The fitted file says what was read; a scrub radius whose inclination was read is three times
/// as well known.
#[test]
fn two_angles_move_two_balls_and_narrow_what_hangs_on_them() {
    let angle = |degrees: f64| json!({ "value": degrees, "tool": "angle_gauge" });
    let file = read(json!({ "caster_ground": angle(3.5), "inclination": angle(11.0) }));
    let said = printed(&piped(&["fit", "-"], &file));
    for line in [
        "Caster, against the ground: read 3.50° ± 0.10°; the points said 2.08°, and would say 3.50°",
        "Together these move; which one was off is not known:",
        "  Lower ball, forward of the axle +2.7 mm, now ± 4.5 mm",
        "  Upper ball, forward of the axle −2.7 mm, now ± 4.5 mm",
    ] {
        assert!(said.contains(line), "{line} in\n{said}");
    }
    assert!(!said.contains("These were off"), "{said}");
    let fitted = printed(&piped(&["fit", "-", "--format", "json"], &file));
    let points = |file: &str| {
        let file: Value = serde_json::from_str(file).unwrap();
        file["truck"]["points"]["lower_ball"]["x"].as_f64().unwrap_or_else(|| panic!("{file}"))
    };
    assert!((points(&fitted) - 3.0 - 2.7).abs() < 0.06, "{}", points(&fitted));
    let spread = |file: &str, answer: &str| {
        let csv = printed(&piped(&["spread", "-", "--format", "csv", "--draws", "40"], file));
        let rows = quoted_rows(&csv);
        rows.iter().find(|row| row["answer"] == answer).unwrap()["spread"].parse::<f64>().unwrap()
    };
    assert!((spread(&file, "scrub_radius") - 14.8).abs() < 0.1, "the points do not say so yet");
    assert!((spread(&fitted, "scrub_radius") - 4.9).abs() < 0.1);
    // What is fitted once is fitted.
    let again = printed(&piped(&["fit", "-"], &fitted));
    assert!(again.contains("the points said 3.50°, and would say 3.50°"), "{again}");
}

/// Readings that contradict move nothing in a file; which of them is wrong is said where another says so.
#[test]
fn what_contradicts_is_said_and_moves_nothing() {
    let rule = |mm: f64| json!({ "value": mm, "tool": "rule" });
    let file = read(json!({ "fender_above_tire": rule(98.0), "tire_to_fender": rule(123.0) }));
    let said = printed(&piped(&["fit", "-"], &file));
    assert!(
        said.contains("Nothing is to be moved before this is mended: Tire to fender: what was read is not"),
        "{said}"
    );
    assert!(complaint(&piped(&["fit", "-", "--format", "json"], &file), 1).contains("Read it again"));
    let alone = read(json!({ "caster_ground": { "value": 9.0, "tool": "angle_gauge" } }));
    assert!(
        complaint(&piped(&["fit", "-", "--format", "json"], &alone), 1)
            .contains("with the tape: read them again")
    );
}

#[test]
fn without_a_reading_there_is_nothing_to_fit() {
    let nothing = "nothing was read off this side of the truck";
    assert!(complaint(&piped(&["fit", "-"], &changed_demo(|_| {})), 1).contains(nothing));
    let left = read(json!({ "camber": { "value": 0.5, "tool": "angle_gauge" } }));
    assert!(complaint(&piped(&["fit", "-", "--side", "right"], &left), 1).contains(nothing));
}
