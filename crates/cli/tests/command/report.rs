//! `scrubline report`: trucks side by side.

use crate::{changed_front, complaint, piped, printed, scrubline};
use serde_json::{Value, json};

fn report(arguments: &[&str], design: &str) -> Value {
    let mut all = vec!["report", "-", "--format", "json"];
    all.extend(arguments);
    serde_json::from_str(&printed(&piped(&all, design))).unwrap()
}

/// A pin raised by d along the body's vertical lowers the body by d at the same
/// load and loaded radius, leaves camber and the frame's caster as they were and
/// takes atan(d / wheelbase) of caster against the ground. Closed forms.
#[test]
fn a_dropped_spindle_lowers_by_its_drop() {
    let report = report(&["--decimals", "6"], &changed_front(|_| {}));
    let (measured, spindle) = (&report["trucks"][0], &report["trucks"][1]);
    assert_eq!(spindle["name"], "50.8 mm spindle");
    let number = |truck: &Value, key: &str| truck[key].as_f64().unwrap();
    let near = |value: f64, expected: f64| assert!((value - expected).abs() < 2e-6, "{value} {expected}");
    near(number(spindle, "drop_mm"), 50.8);
    near(number(measured, "ride_height_mm") - number(spindle, "ride_height_mm"), 50.8);
    near(number(spindle, "camber_deg"), number(measured, "camber_deg"));
    near(number(spindle, "caster_deg"), number(measured, "caster_deg"));
    let wheelbase = 2690.0;
    let taken = libm::atan(50.8 / wheelbase).to_degrees();
    near(number(measured, "caster_ground_deg") - number(spindle, "caster_ground_deg"), taken);
}

/// A bar of 24.24 mm as stiff as the old one of 25.4 is shorter by (24.24 / 25.4)^4; under the same torque its
/// stress is (25.4 / 24.24)^3 of the old one's: 15 % more, by `16 T / π d³`. Where nobody has stated what it may
/// bear, that is all there is to say, and it is said.
#[test]
fn without_a_stated_limit_a_thinner_bar_is_held_against_the_one_there_is() {
    let design = changed_front(|file| {
        file["truck"]["bar"]["bar_allowable"] = Value::Null;
        let length = file["truck"]["bar"]["bar_length"].as_f64().unwrap() * (24.24_f64 / 25.4).powi(4);
        file["proposals"][0]["changes"] =
            json!([{ "change": "bar_swap", "diameter": 24.24, "length": (100.0 * length).round() / 100.0 }]);
    });
    let text = printed(&piped(&["report", "-"], &design));
    let row =
        |label: &str| text.lines().find(|line| line.trim_start().starts_with(label)).unwrap().to_owned();
    assert!(row("against as it sits").ends_with("15 % harder than before"), "{}", row("against as it sits"));
    assert_eq!(row("as a share of what it may bear").matches('—').count(), 2);
}

/// A rigid body that comes down by as much at both ends keeps its pitch: with the two-inch
/// spindle in front and the rear down by 2 in, the gauge on the ground reads what it read
/// before. Hand arithmetic; while nobody has said so, the report says "if the rear stays up".
#[test]
fn two_inches_off_both_ends_take_no_caster() {
    let down = |mm: f64| {
        let design = changed_front(|file| file["proposals"][0]["rear_down"] = json!(mm));
        report(&["--decimals", "6"], &design)["trucks"].clone()
    };
    let number = |truck: &Value, key: &str| truck[key].as_f64().unwrap();
    let both = down(50.8);
    // The pin moves against the steering axis, so the trail is the new knuckle's own.
    for (truck, key, same) in [
        (0, "caster_ground_deg", "caster_ground_deg"),
        (1, "caster_ground_deg", "caster_deg"),
        (1, "trail_ground_mm", "trail_mm"),
    ] {
        let (is, was) = (number(&both[1], key), number(&both[truck], same));
        assert!((is - was).abs() < 2e-6, "{key}: {was} {is}");
    }
    assert_eq!(both[1]["rear_down_mm"].as_f64(), Some(50.8));
    assert_eq!(both[1]["caster_ground_if_the_rear"], "comes down as stated");
    // The rear alone raises the nose against the ground, which adds caster.
    let more = number(&down(60.8)[1], "caster_ground_deg") - number(&both[1], "caster_ground_deg");
    assert!((more - libm::atan(10.0 / 2690.0).to_degrees()).abs() < 2e-6, "{more}");

    let text = printed(&piped(&["report", "-", "--units", "in"], &changed_front(|_| {})));
    let below = |start: &str| {
        let mut lines = text.lines().skip_while(|line| !line.starts_with(start)).skip(1);
        lines.next().unwrap().split("  ").filter(|cell| !cell.is_empty()).map(str::trim).collect::<Vec<_>>()
    };
    for start in ["Caster, against the ground", "Mechanical trail, against the ground"] {
        assert_eq!(below(start), ["if the rear", "is as it sits", "stays up"]);
    }
}

/// A guess of one proposal's changes is marked in its column alone, at the answers that it
/// touches: a guessed stop ends the travel and holds nothing up.
#[test]
fn what_a_proposal_guesses_is_marked_in_its_column() {
    let design = changed_front(|file| {
        let trim = json!({ "change": "stop_trim", "lower": 3, "sources": { "lower": "assumed" } });
        file["proposals"][0]["changes"] = json!([trim]);
    });
    let text = printed(&piped(&["report", "-"], &design));
    let line = |start: &str| text.lines().find(|line| line.trim_start().starts_with(start)).unwrap();
    let marks = |start: &str| line(start).matches('~').count();
    let last = line("Bump travel  ").rsplit("   ").find(|cell| !cell.is_empty()).unwrap();
    assert!(last.trim().starts_with("~ ") && marks("Bump travel  ") == 1, "{text}");
    assert_eq!((marks("Frame height"), marks("Caster, against the ground")), (0, 0));
    assert!(text.contains("Travel to the stops: ") && text.contains("rests on guessed numbers"), "{text}");
    let trucks = report(&[], &design)["trucks"].clone();
    assert_eq!(trucks[0]["guessed_changes"], json!([]));
    let said = trucks[1]["guessed_changes"].as_array().unwrap();
    assert!(said.iter().any(|said| said["answer"] == "Travel to the stops"), "{said:?}");
    assert!(!said.iter().any(|said| said["answer"] == "Ride height and spring"), "{said:?}");
}

/// Much can be left open: what is then not looked at is said below the table, and leaves
/// its columns as narrow as numbers are.
#[test]
fn a_long_answer_stands_below_the_table() {
    let open = include_str!("../../../../tests/links/v1/spindle_38_1.link");
    let text = printed(&scrubline(&["report", open.trim()]));
    let said = text.lines().find(|line| line.starts_with("Not looked at: ")).unwrap();
    assert!(said.contains("Strut rod, radius"), "{said}");
    assert!(!text.contains(&" ".repeat(100)), "a gap of a hundred spaces");
    let drop = text.lines().find(|line| line.starts_with("Lower than as it sits by")).unwrap();
    assert!(drop.chars().count() <= 140, "{drop}");
}

#[test]
fn text_says_it_in_sixteenths_and_with_its_cautions() {
    let text = printed(&scrubline(&["report", "--units", "in"]));
    let drop = text.lines().find(|line| line.starts_with("Lower than as it sits by")).unwrap();
    assert!(drop.ends_with("   2 in"), "{drop}");
    for caution in
        ["stands", "never on a jack", "torsion bar stores energy", "aligned and inspected", "local rules"]
    {
        assert!(text.contains(caution), "{caution}");
    }
    assert!(!text.contains('~'), "nothing of the demo is assumed: {text}");
    // Twelve inches are a foot; a file has plain inches.
    let circle = text.lines().find(|line| line.contains("turning circle, outer tire")).unwrap();
    let words: Vec<_> = circle.split_whitespace().rev().take(4).collect();
    let ["in", inches, "ft", feet] = words[..] else { panic!("{circle}") };
    let said = 12.0 * feet.parse::<f64>().unwrap() + inches.parse::<f64>().unwrap();
    let json: Value =
        serde_json::from_str(&printed(&scrubline(&["report", "--units", "in", "--format", "json"]))).unwrap();
    assert!((json["trucks"][1]["lock_left_circle_in"].as_f64().unwrap() - said).abs() <= 0.5, "{circle}");
}

#[test]
fn what_ends_the_travel_is_named_beside_the_stops_own_figure() {
    // A fender lip an inch above the tire is met before the stop.
    let low_fender = changed_front(|file| file["truck"]["fender"]["fender_z"] = json!(665));
    let report = report(&[], &low_fender);
    let measured = &report["trucks"][0];
    assert_eq!(measured["bump_ended_by"], "tire to fender");
    assert_eq!(measured["bump_left_mm"], measured["tire_to_fender_meet_at_mm"]);
    let stop = measured["bump_stop_touch_mm"].as_f64().unwrap();
    assert!(measured["bump_left_mm"].as_f64().unwrap() < stop);
    assert_eq!(measured["droop_ended_by"], "droop stop");
}

#[test]
fn csv_and_json_and_the_sweep_have_the_same_numbers() {
    let design = changed_front(|_| {});
    let json = report(&[], &design);
    let csv = printed(&piped(&["report", "-", "--format", "csv"], &design));
    for line in csv.lines().filter(|line| line.split(',').nth(1).is_some_and(|unit| !unit.is_empty())).skip(1)
    {
        let cells: Vec<_> = line.split(',').collect();
        assert_eq!(cells.len(), 4, "{line}");
        let key = format!("{}_{}", cells[0], cells[1]);
        for (cell, truck) in cells[2..].iter().zip(json["trucks"].as_array().unwrap()) {
            assert_eq!(cell.parse().ok(), truck[&key].as_f64(), "{key}");
        }
    }
    let sweep = printed(&piped(&["sweep", "-", "--steps", "1", "--from", "0", "--proposal", "1"], &design));
    let row = crate::rows(&sweep).remove(0);
    for key in ["camber_deg", "caster_ground_deg", "ride_height_mm", "roll_centre_mm", "scrub_radius_mm"] {
        assert_eq!(row[key].parse().ok(), json["trucks"][1][key].as_f64(), "{key}");
    }
}

#[test]
fn what_rests_on_assumed_numbers_is_marked_and_names_them() {
    let guessed = changed_front(|file| {
        file["truck"]["sources"] = json!({ "rule": "measured", "other": { "bump_gap": "assumed" } });
    });
    let text = printed(&piped(&["report", "-"], &guessed));
    let line = |start: &str| text.lines().find(|line| line.trim_start().starts_with(start)).unwrap();
    assert_eq!(line("Bump travel  ").matches("~ ").count(), 2);
    assert!(!line("Camber").contains('~'));
    assert!(text.contains("Travel to the stops: Daylight at the bump stop, at rest"), "{text}");
    let json = report(&[], &guessed);
    assert_eq!(json["assumed"][0]["rests_on"], json!(["Daylight at the bump stop, at rest"]));
    assert_eq!(report(&[], &changed_front(|_| {}))["assumed"], json!([]));
}

#[test]
fn remarks_stand_under_their_own_truck() {
    let coils = changed_front(|file| {
        file["proposals"][0]["changes"] = json!([{ "change": "cut_coil", "coils": 1 }]);
    });
    let json = report(&[], &coils);
    assert_eq!(json["trucks"][0]["remarks"], json!([]));
    assert_eq!(json["trucks"][1]["remarks"][0], "Cut coil: left out, the truck has no coil.");
}

/// What can hurt someone stands over every number.
#[test]
fn a_danger_is_said_first() {
    let turned = changed_front(|file| {
        file["proposals"][0]["changes"] =
            json!([{ "change": "joint_turned", "place": "lower_joint_up", "plate": 6.35, "flange": 9.52 }]);
    });
    let json = report(&[], &turned);
    let said = json["trucks"][1]["notes"][0].as_str().unwrap().to_owned();
    assert!(said.contains("the bolts then carry the truck"), "{said}");
    let text = printed(&piped(&["report", "-"], &turned));
    assert!(text.find(&said).unwrap() < text.find("Frame height").unwrap(), "{text}");
    assert_eq!(text.matches(&said).count(), 1);
}

/// A proposal whose parts do not meet leaves the others their numbers.
#[test]
fn a_proposal_that_cannot_stand_says_why_beside_the_others() {
    let apart = changed_front(|file| {
        let moved = |place: &str| json!({ "change": "moved_pivot", "place": place, "out": -300 });
        file["proposals"][0]["changes"] = json!([moved("lower_arm"), moved("upper_arm")]);
        file["proposals"][0]["changes"][1]["out"] = json!(300);
    });
    let json = report(&[], &apart);
    assert_eq!(json["trucks"][0]["status"], "ok");
    let why = json["trucks"][1]["status"].as_str().unwrap();
    assert!(
        why.starts_with("the parts do not reach each other: the ") && why.ends_with(" cannot close."),
        "{why}"
    );
    assert!(json["trucks"][1]["camber_deg"].is_null());
    let text = printed(&piped(&["report", "-"], &apart));
    let name = "Lower pivots 300.0 mm inward, upper pivots 300.0 mm outward";
    assert!(text.contains(&format!("{name}: {why}")), "{text}");
    let said = complaint(&piped(&["sweep", "-", "--proposal", "1"], &apart), 1);
    assert_eq!(said, format!("scrubline: Juniper pickup, {name}: {why}\n"));
}

#[test]
fn one_proposal_can_be_picked() {
    let two = changed_front(|file| {
        let bars = json!({ "change": "bar_adjuster", "turns": -5 });
        file["proposals"].as_array_mut().unwrap().push(json!({ "id": 1, "name": "Bars", "changes": [bars] }));
    });
    let names = |arguments: &[&str]| {
        let trucks = report(arguments, &two)["trucks"].clone();
        trucks
            .as_array()
            .unwrap()
            .iter()
            .map(|truck| truck["name"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(names(&[]), ["as it sits", "50.8 mm spindle", "Bars"]);
    assert_eq!(names(&["--proposal", "bars"]), ["as it sits", "Bars"]);
    assert_eq!(names(&["--proposal", "measured"]), ["as it sits"]);
    // Bars turned out lower the body and eat the bump travel to the stop; a spindle leaves it.
    let trucks = report(&[], &two)["trucks"].clone();
    let number = |truck: usize, key: &str| trucks[truck][key].as_f64().unwrap();
    assert!(number(2, "drop_mm") > 5.0);
    let eaten = number(0, "bump_stop_touch_mm") - number(2, "bump_stop_touch_mm");
    assert!((eaten - number(2, "drop_mm")).abs() < 0.1 * eaten, "{eaten}");
    assert!((number(0, "bump_stop_touch_mm") - number(1, "bump_stop_touch_mm")).abs() < 0.1);
}

/// Names come from strangers: they stay text in a spreadsheet and on a screen.
#[test]
fn a_strangers_name_stays_text() {
    let name = "=HYPERLINK(\"x\"),\u{1b}[31m";
    let named = changed_front(|file| file["proposals"][0]["name"] = json!(name));
    let csv = printed(&piped(&["report", "-", "--format", "csv"], &named));
    let header = csv.lines().next().unwrap();
    assert_eq!(header, "answer,unit,as it sits,\"'=HYPERLINK(\"\"x\"\"),[31m\"");
    assert!(!printed(&piped(&["report", "-"], &named)).contains('\u{1b}'));
}

/// What hits stands above the table, with the numbers of the table, of which there are no more in a file
/// than there were. A fender that nobody has measured leaves its mark there.
#[test]
fn what_hits_is_said_first_in_text() {
    let text = printed(&scrubline(&["report", "--units", "in"]));
    let said: Vec<_> = text.lines().skip(2).step_by(2).take(3).collect();
    let table = text.lines().position(|line| line.starts_with("Stands on")).unwrap();
    let cells = |start: &str| {
        let line = text.lines().skip(table).find(|line| line.starts_with(start)).unwrap();
        line.split("   ")
            .map(|cell| cell.trim().to_owned())
            .filter(|cell| !cell.is_empty())
            .collect::<Vec<_>>()
    };
    let (bump, by) = (cells("Bump travel  "), cells("  ended by"));
    assert_eq!(by[1..], ["bump stop", "tire to fender", "tire to fender"]);
    assert!(
        said[0].starts_with(&format!("as it sits: Goes up {} to the bump stop. Nothing ", bump[1])),
        "{text}"
    );
    let hit =
        format!("2 in spindle: Goes up {}, then the tire hits the fender with the wheel turned ", bump[2]);
    assert!(said[1].starts_with(&hit), "{text}");
    assert!(said[1].contains(&format!(" The bump stop comes only at {}. ", bump[1])), "{text}");
    // The relay rod goes farther to the left than to the right: with the wheel hanging that is the right wheel's.
    assert!(
        said[1].contains(" then the right tire hits the strut rod with the wheel turned 31° left."),
        "{text}"
    );
    // What is done at the rear is nothing to what a front wheel hits.
    assert_eq!(said[2].strip_prefix("Both ends: "), said[1].strip_prefix("2 in spindle: "), "{text}");
    assert!(report(&[], &changed_front(|_| {}))["trucks"][0].get("what_hits").is_none());

    let guessed = changed_front(|file| {
        file["truck"]["sources"] = json!({ "rule": "measured", "other": { "fender_z": "assumed" } });
    });
    let text = printed(&piped(&["report", "-"], &guessed));
    let said = text.lines().find(|line| line.starts_with("50.8 mm spindle: ")).unwrap();
    assert!(said.contains(": Goes up ~ ") && said.contains(" turned ~ "), "{said}");
    // The stop does not hang on it.
    assert!(said.contains("comes only at ") && !said.contains("at ~ "), "{said}");
}
