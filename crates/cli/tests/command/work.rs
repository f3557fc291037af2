//! `scrubline work`: the demo's spindle in order, with its open items.

use crate::{changed_demo, complaint, piped, printed, scrubline};

#[test]
fn the_spindle_comes_in_its_order() {
    let said = printed(&scrubline(&["work"]));
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    assert!(at("paint marks") < at("Let the bar down"));
    assert!(at("Let the bar down") < at("Ball joints parted"));
    assert!(at("torqued and pinned") < at("Load the bar"));
    assert!(at("backed right off") < at("Caliper on"));
    assert!(at("Roll the truck ten feet") < at("set the height"));
    assert!(said.contains("Not on the road until this box is empty:\n  [ ] steering arms' bolts, where they are bolted\n  [ ] ball-joint nuts"), "{said}");
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

/// What somebody wants first is added; what must come first stays, and where both cannot be the circle is named.
#[test]
fn an_order_of_ones_own_is_kept_and_a_circle_is_named() {
    let order = |more: &[&str]| printed(&scrubline(&[&["work"], more].concat()));
    let at = |said: &str, text: &str| said.find(text).unwrap_or_else(|| panic!("{text} in\n{said}"));
    let usual = order(&[]);
    assert!(at(&usual, "Caliper off") < at(&usual, "Tie rod parted"), "{usual}");
    let own = order(&["--first", "tie_parted=caliper_off", "--first", "seal_in=tie_on"]);
    assert!(at(&own, "Tie rod parted") < at(&own, "Caliper off"), "{own}");
    assert!(
        at(&usual, "Tie rod on") < at(&usual, "Races and seal")
            && at(&own, "Races and seal") < at(&own, "Tie rod on")
    );
    for said in [&usual, &own] {
        assert!(at(said, "torqued and pinned") < at(said, "Load the bar"), "{said}");
    }
    let refused = |first: &str, code| complaint(&scrubline(&["work", "--first", first]), code);
    let said = refused("bar_loaded=joints_pinned", 1);
    assert!(
        said.contains("these wait for each other: ") && said.contains("Load the bar at its bolt"),
        "{said}"
    );
    assert!(refused("stop_on=stop_on", 1).contains("these wait for each other: Bump stop on"));
    assert!(refused("stop_on", 2).contains("two tasks, as shock_off=tie_parted"));
    let said = refused("stop_on=paint", 2);
    assert!(said.contains("paint is no task: heights, stands, bar_down"), "{said}");
}

/// The demo with a task done and two torques typed, as a file keeps them.
fn worked() -> String {
    changed_demo(|file| {
        file["work"] = serde_json::json!({
            "done": ["heights", "joints_pinned"],
            "torques": {
                "upper_joint": { "torque": 68, "manual": "1994 shop manual" },
                "wheel": { "torque": 115.2 },
            },
        });
    })
}

/// 68 N·m is 50.15 ft-lb and 115.2 is 84.97 (1.355818 N·m each, NIST SP 811). Nothing else has a number.
#[test]
fn a_torque_stands_with_its_manual_and_the_rest_is_a_line_to_write_on() {
    let said = printed(&piped(&["work", "-", "--units", "in"], &worked()));
    assert!(said.contains("Upper ball-joint nut: 50.2 ft-lb by 1994 shop manual"), "{said}");
    assert_eq!(
        said.matches("Wheel nuts: 85 ft-lb, no manual named").count(),
        2,
        "and after 100 miles: {said}"
    );
    assert!(said.contains("Lower ball-joint nut: ________"), "{said}");
    assert!(said.contains("[x] Write down heights") && said.contains("[ ] Truck on stands"), "{said}");
    assert!(
        !said.contains("[ ] steering arms' bolts, where they are bolted\n  [ ] ball-joint nuts")
            && said.contains("[ ] wheel nuts"),
        "{said}"
    );
    assert!(said.contains("\nGet:\n  2 in spindle\n"), "{said}");
    let said = printed(&piped(&["work", "-"], &worked()));
    assert!(said.contains("68 N·m by 1994") && said.contains("115.2 N·m, no manual"), "{said}");
    assert!(!printed(&scrubline(&["work"])).contains(" N·m"), "nothing is ever filled in");
}

/// By the list: the bar waits for both joints, the stop and what else holds the arm; here the joints alone are
/// open. Joints pinned where no knuckle is on is out of order too, and no danger.
#[test]
fn a_bar_that_is_loaded_on_open_joints_is_said_first() {
    let early = changed_demo(|file| {
        file["work"] = serde_json::json!({ "done": ["bar_loaded", "tie_on"] });
    });
    let said = printed(&piped(&["work", "-"], &early));
    let bar = "Stop: the bar is loaded, but before it: Both joints' nuts torqued and pinned, never backed off for \
               the pin.";
    let tie = "Ticked, but before it: Tie rod parted from the steering arm; Knuckle on its joints.";
    assert_eq!(said.lines().nth(2), Some(bar));
    assert_eq!(
        (said.matches(bar).count(), said.matches("Stop").count(), said.matches(tie).count()),
        (2, 2, 1)
    );
    let rows: Vec<serde_json::Value> =
        serde_json::from_str(&printed(&piped(&["work", "-", "--format", "json"], &early))).unwrap();
    let of = |task: &str| rows.iter().find(|row| row["task"].as_str().unwrap().starts_with(task)).unwrap();
    assert_eq!(of("Load the bar")["early"], bar);
    assert!(of("Truck on stands")["early"].is_null());
    assert!(!printed(&scrubline(&["work"])).contains("before it: "), "nothing is ticked");
}

#[test]
fn a_table_has_a_row_for_each_fastener() {
    let rows: Vec<serde_json::Value> =
        serde_json::from_str(&printed(&piped(&["work", "-", "--format", "json"], &worked()))).unwrap();
    let of = |fastener: &str| rows.iter().filter(|row| row["fastener"] == fastener).collect::<Vec<_>>();
    let upper = of("Upper ball-joint nut");
    assert_eq!(upper.len(), 1);
    assert_eq!((&upper[0]["torque_nm"], &upper[0]["manual"]), (&68.into(), &"1994 shop manual".into()));
    assert_eq!(
        (&upper[0]["done"], &upper[0]["number"]),
        (&"done".into(), &of("Lower ball-joint nut")[0]["number"])
    );
    let wheel = of("Wheel nuts");
    assert_eq!(
        (wheel.len(), &wheel[1]["when"], &wheel[1]["manual"]),
        (2, &"after 100 miles".into(), &serde_json::Value::Null)
    );
    let csv = printed(&piped(&["work", "-", "--format", "csv"], &worked()));
    assert!(
        csv.starts_with("number,task,why,open_item,when,done,fastener,torque_nm,manual,early\n"),
        "{csv}"
    );
    assert!(csv.contains("Upper ball-joint nut,68,1994 shop manual,"), "{csv}");
}

/// No link carries it, and what a file has of it a link's file has not.
#[test]
fn a_link_says_nothing_of_the_work() {
    let link = printed(&piped(&["link", "-"], &worked()));
    assert_eq!(link, printed(&scrubline(&["link"])));
    let file = printed(&piped(&["open", "-"], &worked()));
    assert!(file.contains("\"1994 shop manual\""), "{file}");
    assert!(!printed(&scrubline(&["open", link.trim()])).contains("\"work\""));
}
