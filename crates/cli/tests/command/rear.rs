//! `scrubline rear`, and what the rear's parts make of the report, the picture and the order of work.

use crate::{changed_front, complaint, piped, printed, quoted_rows, scrubline};
use serde_json::{Value, json};

/// A rear whose axle is on top of its springs; the demo's spindle, and a block as high beside it.
fn both_ends() -> String {
    changed_front(|file| {
        file["truck"]["rear"] = json!({
            "frame_height": 470.0, "wheel_radius": 310.0, "seat": -62.0, "stop_gap": 76.0, "tube_gap": 118.0,
            "span": 1250.0, "fixed_part": 600.0, "arch": 45.0, "fixed_eye": 290.0, "shackle_eye": 296.0,
            "hanger_bolt": 375.0, "eye_beyond": 28.0, "lamp_height": 760.0, "lamp_ahead": 480.0,
            "rail_depth": 120.0, "rail_flange": 50.0, "rail_wall": 4.0,
        });
        let changes = file["proposals"][0]["changes"].as_array_mut().unwrap();
        changes.push(json!({ "change": "rear_block", "height": 50.8 }));
        changes.push(json!({ "change": "rear_notch", "depth": 25.0 }));
    })
}

/// What can hurt is the first thing that is said; what nobody measured is named, and nothing is guessed.
#[test]
fn dangers_come_first_and_what_is_open_last() {
    let said = printed(&piped(&["rear", "-", "--units", "in"], &both_ends()));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    assert!(at("A bare notch takes most of the rail's strength") < at("Rear frame height"));
    assert!(at("A rear brake valve on a rod") < at("Rear frame height"));
    assert!(at("Rail's strength left at a bare notch 29 %") < at("Rear frame height"));
    assert!(at("never driven unboxed") < at("Rear frame height"));
    assert!(at("Not measured yet:") > at("Rear frame height"));
    assert!(at("Rate of one spring") > at("Not measured yet:") && !said.contains('~'), "{said}");
    let open = printed(&piped(&["rear", "-"], &changed_front(|_| {})));
    assert!(!open.contains("Rear frame height") && open.contains("Not measured yet: Frame bottom"), "{open}");
    assert!(complaint(&scrubline(&["rear", "--plan", "9"]), 1).contains("--plan"));
}

/// By hand: the block brings a plate at 170 to 119.2, over a line of 115 (550 + 710) / (650 + 710) by 12.7; under
/// the rims' 115 it does not hang. The report says it too, and of a truck whose rear is not measured that it is not.
#[test]
fn the_rear_axle_has_a_scrub_line() {
    let mut file: Value = serde_json::from_str(&both_ends()).unwrap();
    let rear = file["truck"]["rear"].as_object_mut().unwrap();
    for (key, mm) in [("rim_edge", 115.0), ("rims_apart", 1300.0), ("tires_apart", 1420.0)] {
        rear.insert(key.to_owned(), json!(mm));
    }
    rear.insert("plate_low".to_owned(), json!(170.0));
    rear.insert("plate_low_aside".to_owned(), json!(550.0));
    let file = file.to_string();
    let said = printed(&piped(&["rear", "-", "--units", "mm"], &file));
    let row = said.lines().find(|line| line.starts_with("U-bolt plate, above the rear scrub line")).unwrap();
    assert!(row.contains("63.46 mm") && row.contains("12.66 mm"), "{row}");
    let report = printed(&piped(&["report", "-", "--units", "mm"], &file));
    assert!(report.contains("U-bolt plate, above the rear scrub line 12.66 mm ± 2.2 mm."), "{report}");
    let demo = printed(&scrubline(&["report"]));
    let row = demo.lines().find(|line| line.starts_with("Scrub line of the rear axle")).unwrap();
    assert!(row.contains("not measured"), "{row}");
    let low = file.replace("50.8", "76.2");
    let said = printed(&piped(&["rear", "-"], &low));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    assert!(at("hangs below it, and drags once a tire is flat") < at("Rear frame height"));
}

/// By hand: 470 less 50.8; the lamp comes down by the spindle alone, since both ends do alike.
#[test]
fn the_rows_have_numbers_spreads_and_verdicts() {
    let text = printed(&piped(&["rear", "-", "--format", "json", "--decimals", "2"], &both_ends()));
    let rows: Vec<Value> = serde_json::from_str(&text).unwrap();
    let row = |answer: &str, plan: bool| {
        let of = |row: &&Value| row["answer"] == answer && (row["truck"] != "as it sits") == plan;
        rows.iter().find(of).unwrap_or_else(|| panic!("{answer}")).clone()
    };
    // Seated otherwise a spring that is a little steep at its pad settles a hundredth lower.
    let value = |answer: &str| row(answer, true)["value"].as_f64().unwrap();
    assert!((value("rear_frame_height") - 419.2).abs() < 0.03, "{}", value("rear_frame_height"));
    assert!((value("lamp_height") - 709.2).abs() < 0.03, "{}", value("lamp_height"));
    assert_eq!(row("rear_frame_height", false)["value"], 470.0);
    assert_eq!(row("rear_frame_height", true)["spread"], 1.59);
    assert_eq!(row("rail_bare", true)["verdict"], "never driven unboxed");
    assert_eq!(
        (&row("rail_bare", false)["value"], &row("bed_sinks", true)["value"]),
        (&Value::Null, &Value::Null)
    );
    let csv = printed(&piped(&["rear", "-", "--format", "csv"], &both_ends()));
    assert_eq!(quoted_rows(&csv).len(), rows.len());
}

/// By hand, of the demo's second plan: 510 less 50.8; 118 less as much and 12.7 for the shorter stop are 79.9, and
/// with 25 of its rubber less than the 109.2 that are left to the frame; 380 less 50.8 and 220 of shock. Its first
/// plan lets the nose down alone, and the lamps with it. Nothing that it proposes is bad or too near to tell.
#[test]
fn the_demo_lowers_both_ends() {
    let text = printed(&scrubline(&["rear", "--format", "json", "--decimals", "2"]));
    let rows: Vec<Value> = serde_json::from_str(&text).unwrap();
    let row = |truck: &str, answer: &str| {
        rows.iter().find(|row| row["truck"] == truck && row["answer"] == answer).unwrap().clone()
    };
    for (answer, want) in [
        ("rear_frame_height", 459.2),
        ("rear_stop", 79.9),
        ("rear_tube", 109.2),
        ("rear_shock_closed", 109.2),
        ("nose_down", 0.0),
    ] {
        let got = row("Both ends", answer)["value"].as_f64().unwrap();
        assert!((got - want).abs() < 0.03, "{answer}: {got} for {want}");
    }
    assert!(rows.iter().all(|row| row["truck"] != "Both ends" || row["verdict"].is_null()), "{text}");
    assert_eq!(row("50.8 mm spindle", "rear_comes_down")["value"], 0.0);
    assert_eq!(row("50.8 mm spindle", "lamp_aim")["verdict"], "have them aimed");
}

/// Both ends down alike: caster against the ground is that of the truck as it sits, and no word says
/// *if the rear stays up*.
#[test]
fn the_report_follows_the_rear_s_parts() {
    let caster = |file: &str| {
        let text = printed(&piped(&["report", "-", "--format", "json", "--decimals", "2"], file));
        let report: Value = serde_json::from_str(&text).unwrap();
        let trucks = report["trucks"].as_array().unwrap();
        let of = |at: usize| trucks[at]["caster_ground_deg"].as_f64().unwrap();
        (of(0), of(1))
    };
    let (before, after) = caster(&both_ends());
    assert!((before - after).abs() < 0.011, "{before} {after}");
    let alone = changed_front(|_| {});
    let (before, after) = caster(&alone);
    assert!(before - after > 1.0, "{before} {after}");
    let said = printed(&piped(&["report", "-"], &both_ends()));
    assert!(said.contains("comes down by its parts") && !said.contains("stays up"), "{said}");
}

#[test]
fn the_picture_and_the_order_of_work_know_the_rear() {
    let picture = printed(&piped(&["picture", "-", "--shows", "rear", "--units", "in"], &both_ends()));
    // A label's words and its number are pieces of one line, which is not broken before the unit.
    let read = picture.replace("</tspan><tspan>", "").replace('\u{a0}', " ");
    assert!(
        read.starts_with("<svg") && read.contains(">down 2 in<") && read.contains("shackle"),
        "{picture}"
    );
    let blank = printed(&piped(&["picture", "-", "--shows", "rear"], &changed_front(|_| {})));
    assert!(blank.contains("once its leaf spring"), "{blank}");
    let order = printed(&piped(&["work", "-"], &both_ends()));
    let at = |text: &str| order.find(text).unwrap_or_else(|| panic!("{text} in\n{order}"));
    assert!(at("new U-bolts snug") < at("U-bolts torqued"), "{order}");
    assert!(at("U-bolts torqued") < at("Aligned and inspected"), "{order}");
}

/// What cannot be entered is named with its range, and what is not known is a newer file's.
#[test]
fn a_number_of_the_rear_that_cannot_be_is_refused() {
    let with = |key: &str, value: Value| changed_front(|file| file["truck"]["rear"] = json!({ key: value }));
    let refused = |file: String| complaint(&piped(&["rear", "-"], &file), 1);
    let far = refused(with("span", json!(99.0)));
    assert!(far.contains("truck.rear.span") && far.contains("300"), "{far}");
    let unknown = refused(with("spam", json!(99.0)));
    assert!(unknown.contains("newer Scrubline") && unknown.contains("truck.rear.spam"), "{unknown}");
    let null = printed(&piped(&["rear", "-"], &with("span", Value::Null)));
    assert!(null.contains("Not measured yet"), "{null}");
}
