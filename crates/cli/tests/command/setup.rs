//! `scrubline setup`: what it says is what the truck then reads.

use crate::{changed_demo, changed_front, complaint, number, piped, printed, rows, scrubline};
use serde_json::Value;

/// The rows of a setting in their order.
fn list(arguments: &[&str]) -> Vec<Value> {
    let text = printed(&scrubline(&[arguments, &["--format", "json"]].concat()));
    serde_json::from_str(&text).unwrap()
}

/// The first row of a setting with a name.
fn row<'a>(said: &'a [Value], key: &str) -> &'a Value {
    said.iter().find(|row| row["what"] == key).unwrap()
}

fn amount(said: &[Value], key: &str) -> f64 {
    row(said, key)["amount"].as_f64().unwrap()
}

/// The code that it prints opens on the truck that it describes.
#[test]
fn the_code_is_of_the_truck_as_set_up() {
    let asked = ["setup", "--height", "230", "--camber", "-0.3", "--caster", "1.4", "--toe", "0.1"];
    let text = printed(&scrubline(&asked));
    let code = text.lines().find_map(|line| line.strip_prefix("As a plan: ")).unwrap();
    let report = rows(
        &printed(&scrubline(&["report", code, "--format", "csv", "--proposal", "1"]))
            .replace(", ", "; ")
            .replace('"', ""),
    );
    let said = list(&asked);
    let truck = |key: &str| {
        let row = report.iter().find(|row| row["answer"] == key).unwrap();
        let name = row.keys().find(|name| name.starts_with("50.8 mm spindle")).unwrap();
        number(row, name)
    };
    for key in ["ride_height", "camber", "caster_ground", "toe"] {
        let reads = amount(&said, key);
        assert!((truck(key) - reads).abs() <= 1e-4, "{key}: {} in the report, {reads} here", truck(key));
        let off = reads - row(&said, key)["wanted"].as_f64().unwrap();
        assert!((off - row(&said, key)["off"].as_f64().unwrap()).abs() <= 2e-4, "{key}");
    }
    // A turn of the sleeve is two pitches of 1.5 mm, one of the bolt is one.
    let file: Value = serde_json::from_str(&printed(&scrubline(&["open", code]))).unwrap();
    let laid = |kind: &str, number: &str| {
        let changes = file["proposals"][0]["changes"].as_array().unwrap();
        changes.iter().find(|change| change["change"] == kind).unwrap()[number].as_f64().unwrap()
    };
    assert!((laid("tie_rod", "longer") - 3.0 * amount(&said, "tie_turns")).abs() < 0.006);
    assert!((laid("bar_adjuster", "turns") - amount(&said, "bolt_turns")).abs() < 1e-9);
    assert!((laid("shims", "front") - amount(&said, "shim_front")).abs() < 0.006);
    assert!((truck("ride_height") - 230.0).abs() < 1.0);
}

/// With the rear down as far as the front the truck reads its caster as it sits, and
/// nothing is shimmed for it; with the rear up the same target asks for shims.
#[test]
fn a_rear_that_comes_down_too_needs_no_shims_for_caster() {
    let measured = rows(&printed(&scrubline(&["sweep", "--steps", "1", "--from", "0", "--decimals", "6"])));
    let caster = measured[0]["caster_ground_deg"].clone();
    let asked = |format: &str, change: fn(&mut Value)| {
        let asked = ["setup", "-", "--caster", &caster, "--format", format];
        printed(&piped(&asked, &changed_front(change)))
    };
    let down = |file: &mut Value| file["proposals"][0]["rear_down"] = 50.8.into();
    let shims = |text: &str| {
        let of = |key: &str| {
            let line = text.lines().find(|line| line.starts_with(key)).unwrap();
            line.split(',').nth(2).unwrap().parse::<f64>().unwrap()
        };
        (of("shim_front"), of("shim_rear"))
    };
    assert_eq!(shims(&asked("csv", down)), (0.0, 0.0));
    let (front, rear) = shims(&asked("csv", |_| {}));
    assert!(front > rear, "{front} {rear}");
    assert!(asked("text", |_| {}).contains("Caster, against the ground, if the rear stays up"));
    assert!(asked("csv", |_| {}).contains("if the rear stays up"));
    assert!(!asked("text", down).contains("if the rear stays up"));
}

/// Nothing asked for is nothing to set.
#[test]
fn what_it_reads_already_needs_nothing() {
    let said = list(&["setup"]);
    for key in ["bolt_turns", "shim_front", "shim_rear", "tie_turns"] {
        assert!(amount(&said, key).abs() < 1e-9, "{key}");
    }
    for key in ["out_of_reach", "danger", "guessed", "lowest_height"] {
        assert!(said.iter().all(|row| row["what"] != key), "{key}");
    }
    // What holds for whatever is set, after all of it.
    let cautions = said.iter().skip_while(|row| row["what"] != "caution");
    let words: Vec<_> = cautions.map(|row| (row["what"].as_str(), row["note"].as_str().unwrap())).collect();
    assert!(words.iter().all(|(what, _)| *what == Some("caution")), "{words:?}");
    for said in ["on stands only, never on a jack", "aligned and inspected", "local rules"] {
        assert!(words.iter().any(|(_, note)| note.contains(said)), "{words:?}");
    }
    assert_eq!(row(&said, "held_by")["amount"], "spring");
}

/// Whoever orders a truck onto its stop reads that before anything that is to be done, and
/// the height that is offered has the travel in the report of its own code.
#[test]
fn a_truck_on_its_stop_is_said_first() {
    let asked = ["setup", "--proposal", "0", "--height", "7 1/2 in", "--units", "in"];
    let said = list(&asked);
    assert_eq!(said[0]["what"], "danger");
    assert!(said[0]["note"].as_str().unwrap().contains("bump stop"), "{}", said[0]);
    assert_eq!(row(&said, "held_by")["amount"], "bump stop, solid");
    assert!(amount(&said, "bump_left") <= 0.0);
    let text = printed(&scrubline(&asked));
    let place = |what: &str| text.find(what).unwrap_or_else(|| panic!("no {what}: {text}"));
    assert!(place("Dangerous") < place("let it down fully"), "{text}");
    assert!(place("let it down fully") < place("splines, let down"), "{text}");
    assert!(
        place("paint") < place("turns out") && place("blind tooth") < place("splines, let down"),
        "{text}"
    );
    assert!(text.lines().nth(2).unwrap().starts_with("Dangerous"), "{text}");
    let lowest = amount(&said, "lowest_height");
    assert!(text.contains("Lowest ride height with 1 in of bump travel"), "{text}");
    for (height, enough) in [(lowest, true), (lowest - 0.25, false)] {
        let height = format!("{height} in");
        let asked = ["setup", "--proposal", "0", "--height", &height, "--units", "in"];
        let said = list(&asked);
        assert_eq!(said.iter().all(|row| row["what"] != "danger"), enough, "{height}");
        let text = printed(&scrubline(&asked));
        let code = text.lines().find_map(|line| line.strip_prefix("As a plan: ")).unwrap();
        let report = printed(&scrubline(&["report", code, "--format", "json", "--units", "in"]));
        let report: Value = serde_json::from_str(&report).unwrap();
        let truck = report["trucks"].as_array().unwrap().last().unwrap();
        assert_eq!(truck["bump_left_in"].as_f64().unwrap() >= 1.0, enough, "{height}: {truck}");
        assert_eq!(truck["bump_ended_by"], "bump stop");
        assert!(truck["notes"][0].as_str().unwrap().contains("let it down fully"));
    }
}

/// The travel that is wished is the person's.
#[test]
fn another_bump_travel_can_be_wished() {
    let said =
        |bump: &str| list(&["setup", "--proposal", "0", "--height", "9 in", "--units", "in", "--bump", bump]);
    let (one, two) = (amount(&said("1 in"), "lowest_height"), amount(&said("1 1/2 in"), "lowest_height"));
    assert!((two - one - 0.5).abs() <= 0.13, "{one} and {two}");
}

#[test]
fn what_is_out_of_reach_is_said() {
    let said = list(&["setup", "--camber", "6"]);
    let why = row(&said, "out_of_reach")["note"].as_str().unwrap();
    assert!(why.contains("thicker than its bolt takes"), "{why}");
    let text = printed(&scrubline(&["setup", "--height", "10 mm"]));
    assert!(text.contains("of the way can be had"), "{text}");
    assert!(complaint(&scrubline(&["setup", "--camber", "70"]), 2).contains("60 degrees"));
}

/// The text's last lines and the data's last rows say the same, and a guess is said in both.
#[test]
fn a_guess_of_the_changes_is_said_in_the_data() {
    let design = changed_demo(|file| {
        let spindle = &mut file["proposals"][0]["changes"][0];
        spindle["sources"] = serde_json::json!({ "drop": "assumed" });
    });
    for format in ["csv", "json", "text"] {
        let said = printed(&piped(&["setup", "-", "--format", format], &design));
        assert!(said.contains("All of it rests on guessed numbers of the changes"), "{said}");
        assert!(said.contains("never on a jack"), "{said}");
    }
}

/// A caster that reads six degrees off what a tape knows to 2.3° cannot be so, and nothing is to be set by it: said
/// before any shim, in every format. One that agrees says nothing of it.
#[test]
fn what_cannot_be_so_is_said_before_anything_is_set() {
    let read = |degrees: f64| {
        changed_front(|file| {
            let gauge = serde_json::json!({ "value": degrees, "tool": "angle_gauge" });
            file["truck"]["readings"] = serde_json::json!({ "left": { "caster_ground": gauge } });
        })
    };
    let said = |degrees: f64, format: &str| {
        printed(&piped(&["setup", "-", "--plan", "0", "--caster", "2", "--format", format], &read(degrees)))
    };
    let wrong = "Set nothing before this is mended: Caster, against the ground";
    for format in ["text", "csv", "json"] {
        let told = said(8.1, format);
        let at = told.find(wrong).unwrap_or_else(|| panic!("{told}"));
        assert!(told[at..].contains("shim") && !told[..at].contains("shim"), "{told}");
        assert!(!said(2.5, format).contains("before this is mended"));
    }
}

/// What is set is as sure as what it is set by: of turns a tape's sixteenth over what a turn comes to, of shims for
/// caster the 2.34° that two balls in their boots leave open of it, by atan(6.35 √2 / 220), over what a shim comes
/// to. Caster that was read off the truck leaves a tenth of a degree and no more.
#[test]
fn what_is_set_is_as_sure_as_what_was_measured() {
    let spread = |said: &[Value], key: &str| row(said, key)["spread"].as_f64().unwrap();
    let at = |mm: &str| list(&["setup", "--plan", "0", "--height", mm, "--units", "mm"]);
    let (low, high) = (at("290"), at("310"));
    let by_tape = 1.5875 * (amount(&high, "bolt_turns") - amount(&low, "bolt_turns")) / 20.0;
    // As it sits nothing is turned, of which a share of the thread would be off.
    let of_tape = spread(&at("300"), "bolt_turns");
    assert!((of_tape / by_tape - 1.0).abs() < 0.1, "{of_tape} {by_tape}");
    let asked = ["--plan", "0", "--units", "mm", "--camber", "0", "--format", "json"];
    let set = |file: &str, caster: &str| -> Vec<Value> {
        let all = [&["setup", "-", "--caster", caster][..], &asked].concat();
        serde_json::from_str(&printed(&piped(&all, file))).unwrap()
    };
    let taped = changed_front(|_| {});
    let (little, much) = (set(&taped, "1"), set(&taped, "5"));
    let mm_per_degree = (amount(&much, "shim_front") - amount(&little, "shim_front")) / 4.0;
    let by_boots = (2.337 * mm_per_degree).abs();
    let of_taped = spread(&little, "shim_front");
    assert!((of_taped / by_boots - 1.0).abs() < 0.15, "{of_taped} {by_boots}");
    let read = changed_front(|file| {
        let gauge = |degrees: f64| serde_json::json!({ "value": degrees, "tool": "angle_gauge" });
        let readings = serde_json::json!({ "camber": gauge(0.0), "caster_ground": gauge(2.1) });
        file["truck"]["readings"] = serde_json::json!({ "left": readings });
    });
    let of_read = spread(&set(&read, "1"), "shim_front");
    assert!(of_read < 0.25 * of_taped && of_read > 0.05 * mm_per_degree.abs(), "{of_read} of {of_taped}");
    let said = printed(&piped(&["setup", "-", "--plan", "0", "--camber", "0", "--caster", "1"], &taped));
    assert!(said.contains("By how well the truck was measured: adjuster bolt ± "), "{said}");
    assert!(said.contains("Read these before the work ("), "{said}");
}
