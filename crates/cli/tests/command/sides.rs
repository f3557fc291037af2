//! Left and right that differ, asked about from the command line.

use crate::{changed_front, complaint, piped, printed, scrubline};
use serde_json::{Value, json};

/// The demo truck, sagging and bent at the right.
fn bent() -> String {
    changed_front(|file| {
        file["truck"]["right"] = json!({
            "rail_bottom_z": 293, "upper_ball_x": -9, "camber": -0.5, "toe": 0.2, "corner_load": 3780
        });
    })
}

fn report(design: &str, arguments: &[&str]) -> Value {
    let all = [&["report", "-", "--format", "json", "--decimals", "6"], arguments].concat();
    serde_json::from_str(&printed(&piped(&all, design))).unwrap()
}

fn number(truck: &Value, key: &str) -> f64 {
    truck[key].as_f64().unwrap_or_else(|| panic!("no {key} in {truck}"))
}

/// What was measured at the right is read there, and the cross figures are the differences
/// of the two reports: left less right, of toe the sum.
#[test]
fn each_side_reads_what_was_measured_there() {
    let design = bent();
    let (left, right) = (report(&design, &[]), report(&design, &["--side", "right"]));
    assert_eq!(right["title"], "Juniper pickup, right side");
    let near = |value: f64, expected: f64| assert!((value - expected).abs() < 2e-6, "{value} {expected}");
    let (one, other) = (&left["trucks"][0], &right["trucks"][0]);
    near(number(one, "ride_height_mm"), 300.0);
    near(number(other, "ride_height_mm"), 293.0);
    near(number(other, "camber_deg"), -0.5);
    near(number(other, "toe_deg"), 0.2);
    for at in 0..2 {
        let (one, other) = (&left["trucks"][at], &right["trucks"][at]);
        for (key, cross, sign) in [
            ("camber_deg", "cross_camber_deg", -1.0),
            ("caster_deg", "cross_caster_deg", -1.0),
            ("ride_height_mm", "left_higher_mm", -1.0),
            ("toe_deg", "total_toe_deg", 1.0),
        ] {
            let together = number(one, key) + sign * number(other, key);
            near(number(one, cross), together);
            near(number(other, cross), together);
        }
        // The relay rod turns both wheels, whichever side is asked about.
        near(number(one, "lock_left_right_wheel_deg"), number(other, "lock_left_right_wheel_deg"));
    }
}

/// One truck has one rake: by hand from the report's own lines, what a gauge on the ground reads
/// less than one on the frame is the mean of what both sides came down, over the wheelbase.
#[test]
fn both_sides_stand_on_one_ground() {
    let design = changed_front(|file| {
        file["truck"]["right"] = json!({ "corner_load": 3400, "bar_lever": 120 });
        file["proposals"][0]["changes"] = json!([{ "change": "bar_adjuster", "turns": -6 }]);
    });
    let sides = [&[][..], &["--side", "right"]].map(|side| report(&design, side)["trucks"][1].clone());
    let [left_mm, right_mm] = sides.each_ref().map(|side| number(side, "drop_mm"));
    assert!((left_mm - right_mm).abs() > 1.0, "it leans: {left_mm} {right_mm}");
    let wheelbase_mm = truck::demo().truck.body.wheelbase_mm;
    let nose = libm::atan((left_mm + right_mm) / 2.0 / wheelbase_mm).to_degrees();
    for side in &sides {
        let lost = number(side, "caster_deg") - number(side, "caster_ground_deg");
        assert!((lost - nose).abs() < 2e-6, "{lost} {nose}");
    }
}

/// A right anchor with a shorter lever turns its bar farther for the same turns, so that side comes
/// down more. By statics: the fronts' changes are each other's, as are the rears' over their own track,
/// and what is read in pounds is what is read in newtons.
#[test]
fn a_lean_is_told_where_sides_differ() {
    let with = |rear: Value| {
        changed_front(|file| {
            file["truck"]["right"] = json!({ "bar_lever": 120 });
            file["truck"]["rear"] = rear;
            file["proposals"][0]["changes"] = json!([{ "change": "bar_adjuster", "turns": -6 }]);
        })
    };
    let whole = json!({ "rate": 30, "load": 3000, "springs_apart": 1000, "tires_apart": 1420 });
    let design = with(whole);
    let told = report(&design, &["--units", "mm"]);
    let near = |value: f64, expected: f64, within: f64| {
        assert!((value - expected).abs() < within, "{value} {expected}");
    };
    let (sits, plan) = (&told["trucks"][0], &told["trucks"][1]);
    near(number(sits, "lean_deg"), 0.0, 1e-6);
    let of = |key: &str| number(plan, key);
    assert!(of("lean_deg") < 0.0 && of("lean_deg") > of("lean_alone_deg"), "{plan}");
    let across = of("lean_left_down_mm") - of("lean_right_down_mm");
    let track_mm = across / libm::tan(of("lean_deg").to_radians());
    near(track_mm, 1404.0, 20.0);
    near(of("left_front_more_n"), -of("right_front_more_n"), 2e-6);
    let couple = -30.0 * 1e6 / 2.0 * libm::tan(of("lean_deg").to_radians());
    near(of("left_front_more_n") * track_mm, couple, 0.01 * couple.abs());
    near(of("left_rear_more_n") * -1420.0, couple, 1.0);
    near(of("cross_weight_more_n"), of("left_front_more_n") - of("left_rear_more_n"), 2e-6);
    near(of("cross_weight_share"), of("cross_weight_more_n") / (2.0 * (3900.0 + 3000.0)), 1e-7);
    let inches = report(&design, &["--units", "in"]);
    near(number(&inches["trucks"][1], "left_front_more_lb") * 4.4482216, of("left_front_more_n"), 1e-3);
    let said = printed(&piped(&["report", "-"], &design));
    for line in
        ["Lean against as it sits, + left low", "no anti-roll bar counted;", "bounce it before you measure"]
    {
        assert!(said.contains(line), "{line}: {said}");
    }
    // One line where a number is missing, with what the front would do by itself.
    let open = report(&with(json!({ "rate": 30 })), &[]);
    let said = open["trucks"][1]["lean"].as_str().unwrap();
    let alone = of("lean_alone_deg");
    assert!(said.starts_with("The lean is open until this is measured: Rear springs apart"), "{said}");
    assert!(said.ends_with(&format!("{:.2}° farther to the right.", alone.abs())), "{said}");
    assert!(
        open["trucks"][1].get("lean_deg").is_none()
            && open["trucks"][0]["lean"] == "no farther than as it sits"
    );
    // A plan by side and a height that was read at the right are told as well.
    for file in [
        changed_front(|file| {
            let turns = json!({ "change": "bar_adjuster", "side": "left", "turns": -4 });
            file["proposals"][0]["changes"].as_array_mut().unwrap().push(turns);
        }),
        changed_front(|file| {
            file["truck"]["readings"] = json!({ "right": { "ride_height": { "value": 290 } } });
        }),
    ] {
        let told = report(&file, &[]);
        assert!(told["trucks"][0].get("lean").is_some(), "{told}");
        assert!(told["trucks"][1].get("left_higher_mm").is_some(), "{told}");
    }
    // Sides that are alike say nothing of it.
    let alike = report(&changed_front(|_| ()), &[]);
    assert!(alike["trucks"][0].get("lean").is_none() && alike["trucks"][0].get("lean_deg").is_none());
}

/// A truck of which one side cannot stand does not stand, and it is said which side.
#[test]
fn a_side_that_cannot_stand_is_named() {
    let design = changed_front(|file| file["truck"]["right"] = json!({ "lower_ball_y": 250 }));
    for side in ["left", "right"] {
        let said = complaint(&piped(&["report", "-", "--side", side], &design), 1);
        assert!(said.contains("at the right, the lower arm's pivots lie farther out"), "{said}");
    }
}

/// A truck without numbers of its own at the right has no lines for them.
#[test]
fn alike_nothing_is_said_of_sides() {
    let design = changed_front(|_| {});
    let (left, right) = (report(&design, &[]), report(&design, &["--side", "right"]));
    let (one, other) = (&left["trucks"][1], &right["trucks"][1]);
    assert!(one.get("cross_camber_deg").is_none());
    for key in ["ride_height_mm", "camber_deg", "roll_centre_mm", "bump_left_mm", "ride_frequency_hz"] {
        assert_eq!(one[key], other[key], "{key}");
    }
}

/// Set up, sweep and picture ask the right corner too.
#[test]
fn every_question_can_be_asked_of_the_right() {
    let design = bent();
    let text = printed(&piped(&["setup", "-", "--side", "right", "--camber", "0"], &design));
    assert!(text.starts_with("Juniper pickup, 50.8 mm spindle, right side, set up"), "{text}");
    assert!(text.contains("--each-side") && !text.contains("As a plan"), "{text}");
    let at_rest = |side| {
        let asked =
            ["sweep", "-", "--side", side, "--from", "0", "--to", "0", "--steps", "1", "--proposal", "0"];
        let csv = printed(&piped(&[&asked[..], &["--quantity", "camber,toe"]].concat(), &design));
        csv.lines().nth(1).unwrap().to_owned()
    };
    assert_eq!(at_rest("right"), "0.0000,0.0000,-0.5000,0.2000,ok,");
    assert_eq!(at_rest("left"), "0.0000,0.0000,0.0000,0.0000,ok,");
    let drawn = |side| printed(&piped(&["picture", "-", "--side", side, "--units", "mm"], &design));
    assert!(drawn("right").contains("Front view of the right front corner"));
    assert!(drawn("left").contains("Front view of the left front corner"));
    let link = printed(&piped(&["link", "-"], &design));
    let said = printed(&scrubline(&["open", link.trim(), "--format", "text"]));
    assert!(said.contains("Right       Frame height, above the ground: 293"), "{said}");
}

/// A right steering arm of fifty millimetres cannot follow a link that goes farther than
/// that: the lock has no numbers, and the report says why.
#[test]
fn a_right_wheel_that_does_not_reach_the_lock_is_named() {
    let design = changed_front(|file| {
        file["truck"]["right"] = json!({ "tie_outer_x": -50, "tie_outer_y": 640 });
    });
    for side in ["left", "right"] {
        let truck = &report(&design, &["--side", side])["trucks"][0];
        assert!(truck["lock_right_right_wheel_deg"].is_null(), "{side}");
        let why = "the right wheel does not reach a lock of the left";
        assert_eq!(truck["steering"], why, "{side}");
    }
    assert_eq!(report(&changed_front(|_| {}), &[])["trucks"][0]["steering"], "ok");
}

/// Ways are sought at the left; where the right differs, people are told, and a way's link
/// keeps the right's numbers for its report.
#[test]
fn ways_say_that_the_right_was_not_asked() {
    let asked = ["ways", "-", "--drop", "40", "--spindles", "38.1", "--turns", "4", "--best", "1"];
    let told = "Sought at the left.";
    let text = printed(&piped(&asked, &bent()));
    assert!(text.contains(told), "{text}");
    assert!(!printed(&piped(&asked, &changed_front(|_| {}))).contains(told));
    let code = text.lines().map(str::trim).find(|line| line.len() > 30 && !line.contains(' ')).unwrap();
    let right = report(&printed(&scrubline(&["open", code])), &["--side", "right"]);
    let drop = number(&right["trucks"][0], "ride_height_mm") - number(&right["trucks"][1], "ride_height_mm");
    assert!((number(&right["trucks"][0], "ride_height_mm") - 293.0).abs() < 2e-6);
    assert!((drop - 40.0).abs() < 6.4, "{drop}");
}

/// The relay rod moved to the truck's left pulls a right wheel's inner end towards the centreline:
/// by hand from the tie rod's length, a right corner moved so is a left one moved the other way.
#[test]
fn the_relay_rod_goes_the_same_way_for_both() {
    let design = changed_front(|_| {});
    let toe = |side, moved| {
        let asked = ["sweep", "-", "--side", side, "--from", "0", "--to", "0", "--steps", "1"];
        let csv =
            printed(&piped(&[&asked[..], &["--link-from", moved, "--quantity", "toe"]].concat(), &design));
        csv.lines().nth(1).unwrap().split(',').nth(2).unwrap().to_owned()
    };
    assert_eq!(toe("right", "12"), toe("left", "-12"));
    assert_ne!(toe("right", "12"), toe("left", "12"));
}

/// What can hurt someone at either side is said before anything is ordered at the first, once each, as
/// text and as rows.
#[test]
fn the_dangers_of_both_sides_come_before_any_order() {
    let design = changed_front(|file| {
        file["truck"]["shims"] = json!({ "shaft_side": 1 });
        file["truck"]["right"] = json!({ "rail_bottom_z": 291 });
    });
    let asked = ["setup", "-", "--plan", "0", "--each-side", "--height", "7 1/2 in", "--units", "in"];
    let text = printed(&piped(&asked, &design));
    let order = text.find("Adjuster bolt").unwrap();
    for side in ["Left", "Right"] {
        let danger = text.find(&format!("{side}: Dangerous: ")).unwrap_or(usize::MAX);
        assert!(danger < order, "{side}: {text}");
    }
    assert_eq!(text.matches("A torsion bar can kill").count(), 1, "{text}");
    assert_eq!(text.matches("worked out on its own spring").count(), 1, "{text}");
    let csv = printed(&piped(&[&asked[..], &["--format", "csv"]].concat(), &design));
    let keys: Vec<_> = csv.lines().skip(1).map(|line| line.split(',').next().unwrap()).collect();
    assert_eq!(keys[..4], ["danger", "danger", "caution", "caution"], "{csv}");
    assert!(keys.contains(&"left_bolt_turns") && keys.contains(&"right_bolt_turns"), "{csv}");
}

/// The demo truck, its right sagging by 9 mm, with all that a lean hangs on measured, and this as its plan.
fn sagging(changes: &Value, rear: &Value) -> String {
    changed_front(|file| {
        file["truck"]["shims"] = json!({ "shaft_side": 1 });
        file["truck"]["right"] = json!({ "rail_bottom_z": 291 });
        file["truck"]["rear"] = rear.clone();
        file["proposals"][0]["changes"] = changes.clone();
    })
}

fn amount(said: &Value, key: &str) -> f64 {
    let row = said.as_array().unwrap().iter().find(|row| row["what"] == key);
    row.unwrap_or_else(|| panic!("no {key} in {said}"))["amount"].as_f64().unwrap()
}

/// One height for both sides of a truck that leans: the plan that comes of it, put to the report, leans so that
/// each frame height, what was measured less what the frame comes down, is what set-up said it reads.
#[test]
fn a_truck_that_leans_is_set_level_on_both_springs() {
    let rear = json!({ "rate": 30, "springs_apart": 1000 });
    let spindle = json!([{ "change": "dropped_spindle", "drop": 10 }]);
    let design = sagging(&spindle, &rear);
    let asked = ["setup", "-", "--each-side", "--height", "285", "--units", "mm"];
    let text = printed(&piped(&asked, &design));
    assert_eq!(text.matches("worked out together").count(), 1, "{text}");
    assert!(!text.contains("on its own spring"), "{text}");
    let as_json = [&asked[..], &["--format", "json", "--decimals", "6"]].concat();
    let said: Value = serde_json::from_str(&printed(&piped(&as_json, &design))).unwrap();
    let code = text.lines().find_map(|line| line.strip_prefix("As a plan: ")).unwrap();
    let plan = report(&printed(&scrubline(&["open", code])), &["--units", "mm"])["trucks"][1].clone();
    for (side, measured_mm) in [("left", 300.0), ("right", 291.0)] {
        let reads = amount(&said, &format!("{side}_ride_height"));
        let together = measured_mm - number(&plan, &format!("lean_{side}_down_mm"));
        assert!((reads - together).abs() < 1e-3, "{side}: {reads} {together}");
        // A quarter turn of a pitch of 1.5 mm on a lever of 152 mm, at a wheel two and a half times as far out.
        assert!((reads - 285.0).abs() < 1.0, "{side}: {reads}");
    }
    // On its own spring each would need less: there the right stands higher.
    let turns = |design: &str| {
        let said: Value = serde_json::from_str(&printed(&piped(&as_json, design))).unwrap();
        amount(&said, "left_bolt_turns") - amount(&said, "right_bolt_turns")
    };
    let alone = sagging(&spindle, &json!({}));
    assert!(turns(&design) < turns(&alone) - 0.5, "{} {}", turns(&design), turns(&alone));
}

/// What nobody asks for stays: a plan that leans reads as it leans, and is turned no further.
#[test]
fn a_plan_that_leans_stays_where_nothing_is_asked() {
    let left = json!([{ "change": "bar_adjuster", "side": "left", "turns": -4 }]);
    let design = sagging(&left, &json!({ "rate": 30, "springs_apart": 1000 }));
    let asked = ["setup", "-", "--each-side", "--units", "mm", "--format", "json"];
    let said: Value = serde_json::from_str(&printed(&piped(&asked, &design))).unwrap();
    assert!((amount(&said, "left_bolt_turns") + 4.0).abs() < 1e-9, "{said}");
    assert!(amount(&said, "right_bolt_turns").abs() < 1e-9, "{said}");
}
