//! `scrubline ways`: each way is a proposal that reads as it says.

use crate::{changed_demo, changed_front, complaint, number, piped, printed, quoted_rows, rows, scrubline};

/// The ways as CSV, each by its headers.
fn table(asked: &[&str]) -> Vec<std::collections::BTreeMap<String, String>> {
    quoted_rows(&printed(&scrubline(asked)))
}

#[test]
fn the_best_way_opens_and_reads_as_it_says() {
    let asked = ["ways", "--drop", "60", "--no-trim", "--turns", "8", "--format", "csv", "--best", "3"];
    let ways = table(&asked);
    assert!(!ways.is_empty() && ways.len() <= 3);
    let mut costs = Vec::new();
    for way in &ways {
        let of = |header: &str| way[header].as_str();
        costs.push(of("cost").parse::<f64>().unwrap());
        let code = of("code");
        let report =
            printed(&scrubline(&["report", code, "--format", "csv"])).replace(", ", "; ").replace('"', "");
        let report = rows(&report);
        let truck = |key: &str| number(report.iter().find(|row| row["answer"] == key).unwrap(), "Way down");
        assert!((truck("drop") - of("drop_mm").parse::<f64>().unwrap()).abs() < 2e-4);
        assert!((truck("bump_left") - of("bump_left_mm").parse::<f64>().unwrap()).abs() < 2e-4);
        assert!((truck("drop") - 60.0).abs() < 25.4 / 8.0 + 0.6);
        assert!(truck("bump_left") >= 25.4);
    }
    assert!(costs.is_sorted());
}

/// A dropped spindle changes no camber and no caster against the frame, so with the rear
/// down as far the gauge on the ground reads as before; with the rear up it loses
/// atan(drop / wheelbase). The code of the way says the same of the rear.
#[test]
fn a_way_takes_what_is_said_of_the_rear() {
    let asked =
        ["ways", "--drop", "2 in", "--units", "mm", "--spindles", "2 in", "--turns", "0", "--no-trim"];
    let asked =
        [&asked[..], &["--turning-room", "0", "--within", "0.1", "--format", "csv", "--best", "1"]].concat();
    let asked = [&asked[..], &["--decimals", "4"]].concat();
    let best = |more: &[&str]| table(&[&asked[..], more].concat()).remove(0);
    let (up, down) = (best(&[]), best(&["--rear-down", "50.8"]));
    let taken = -libm::atan(50.8 / 2690.0).to_degrees();
    assert!((number(&up, "caster_change_deg") - taken).abs() < 2e-4, "{up:?}");
    assert!(number(&down, "caster_change_deg").abs() < 2e-4, "{down:?}");
    assert_eq!(
        (up["rear"].as_str(), down["rear"].as_str()),
        ("if the rear stays up", "if the rear comes down by 50.80 mm")
    );
    let opened = printed(&scrubline(&["open", &down["code"], "--format", "text", "--units", "in"]));
    assert!(opened.contains("Rear comes down by 2 in"), "{opened}");
    let far = complaint(&scrubline(&["ways", "--drop", "50", "--rear-down", "900"]), 1);
    assert!(far.contains("--rear-down: it takes -150 to 300 mm"), "{far}");
}

#[test]
fn nothing_found_says_what_left_it_out() {
    let text = printed(&scrubline(&["ways", "--drop", "9 in"]));
    assert!(text.contains("0 ways down") && text.contains("stand at another height"), "{text}");
    assert!(complaint(&scrubline(&["ways"]), 2).contains("--drop"));
    assert!(complaint(&scrubline(&["ways", "--drop", "50", "--tires", "round"]), 2).contains("round"));
}

/// What may jam keeps a quarter inch where nothing is said; more or less is asked for by name.
#[test]
fn the_room_of_what_turns_is_a_quarter_inch_by_default() {
    let asked = ["ways", "--drop", "2 1/2 in", "--spindles", "38.1,50.8", "--turns", "6", "--no-trim"];
    let with = |more: &[&str]| printed(&scrubline(&[&asked[..], more].concat()));
    let by_default = with(&[]);
    assert_eq!(by_default, with(&["--turning-room", "1/4 in"]));
    let ways = |text: &str| text.lines().next().unwrap().rsplit_once(", ").unwrap().1.to_owned();
    assert_ne!(ways(&by_default), ways(&with(&["--turning-room", "0"])));
    assert!(by_default.contains("come too near to something"), "{by_default}");
}

#[test]
fn the_nearest_miss_says_what_stops_it() {
    let text = printed(&scrubline(&["ways", "--drop", "2 1/2 in", "--turning-room", "2 in", "--turns", "6"]));
    let near = text.lines().skip_while(|line| !line.contains("come too near to something")).nth(1).unwrap();
    assert!(near.trim_start().starts_with("nearest: "), "{text}");
    assert!(near.contains(" lower, ") && near.contains(" short (") && near.contains(" spindle"), "{near}");
    let text = printed(&scrubline(&["ways", "--drop", "9 in", "--turns", "2"]));
    assert!(text.contains("nearest: ") && !text.contains("otherwise within the limits"), "{text}");
}

/// Who waits is told how far it is, beside the answer and never in it.
#[test]
fn a_long_search_says_how_far_it_is() {
    let drops: Vec<String> = (10..40).map(|mm| mm.to_string()).collect();
    let output = scrubline(&[
        "ways",
        "--drop",
        "500 mm",
        "--spindles",
        &drops.join(","),
        "--turns",
        "40",
        "--tires",
        "195/70R14,205/70R14",
    ]);
    let (answer, said) =
        (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
    let (total, _) = answer.lines().next().unwrap().rsplit_once(" combinations, 0 ways").unwrap();
    let (_, total) = total.rsplit_once(' ').unwrap();
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!(lines.len(), total.parse::<usize>().unwrap() / 10_000, "{said}");
    for line in &lines {
        assert!(line.ends_with(&format!(" of {total} combinations tried")), "{line}");
    }
    assert!(lines.len() > 1 && !answer.contains("combinations tried"));
}

#[test]
fn a_table_that_is_too_long_is_refused() {
    let tires = ["195/60R14"; 101].join(",");
    let said = complaint(&scrubline(&["ways", "--drop", "50", "--tires", &tires]), 1);
    assert!(said.contains("--tires") && said.contains("100"), "{said}");
    assert!(complaint(&scrubline(&["ways", "--drop", "50", "--turns", "41"]), 2).contains("41"));
}

/// A way that turns the bar says so before any of its numbers, a guess keeps its mark, and
/// what holds for every way stands in each row: data is read without the text around it.
#[test]
fn data_carries_the_cautions() {
    let asked = ["ways", "-", "--drop", "60", "--no-trim", "--turns", "8", "--best", "3"];
    let design = |file: &mut serde_json::Value| {
        file["truck"]["sources"] = serde_json::json!({ "rule": "assumed" });
        file["truck"]["right"] = serde_json::json!({ "upper_ball_z": 440 });
    };
    let asked = |format: &str| {
        let asked = [&asked[..], &["--format", format]].concat();
        printed(&piped(&asked, &changed_demo(design)))
    };
    let (csv, text) = (asked("csv"), asked("text"));
    assert!(csv.starts_with("notes,"), "{csv}");
    let ways = quoted_rows(&csv);
    assert!(ways.iter().any(|way| way["parts"].contains("turn")), "{csv}");
    for way in &ways {
        assert_eq!(way["parts"].contains("turn"), way["notes"].contains("let it down fully"), "{way:?}");
        assert!(way["nearest"].starts_with('~'), "{way:?}");
        for said in ["on stands only, never on a jack", "inspected", "local rules", "The right differs"] {
            assert!(way["caution"].contains(said) && text.contains(said), "{said}: {way:?}");
        }
    }
    let json: Vec<serde_json::Value> = serde_json::from_str(&asked("json")).unwrap();
    for (row, way) in json.iter().zip(&ways) {
        for key in ["notes", "nearest", "not_looked_at", "caution", "code"] {
            assert_eq!(row[key], way[key], "{key}");
        }
    }
    assert_eq!(json.len(), ways.len());
}

/// Without the radius inside the rim nobody can say how near the wheel comes to the brake:
/// the way's row says so, as the line under it does for people.
#[test]
fn data_says_what_was_not_looked_at() {
    let of = |format: &str, barrel: serde_json::Value| {
        let design = changed_demo(|file| file["truck"]["brake"]["rim_barrel"] = barrel);
        let asked = ["ways", "-", "--drop", "50", "--no-trim", "--turns", "4", "--best", "1"];
        printed(&piped(&[&asked[..], &["--format", format]].concat(), &design))
    };
    let unseen = |barrel| quoted_rows(&of("csv", barrel)).remove(0)["not_looked_at"].clone();
    assert_eq!(unseen(160.into()), "");
    let open = unseen(serde_json::Value::Null);
    assert!(open.contains("caliper"), "{open}");
    let text = of("text", serde_json::Value::Null);
    assert!(text.contains(&format!("not looked at, for want of numbers: {open}\n")), "{text}");
    // Where none reaches as low, the lowest says it of its parts before anybody gets them.
    let design = changed_demo(|file| file["truck"]["brake"]["rim_barrel"] = serde_json::Value::Null);
    let text = printed(&piped(&["ways", "-", "--drop", "150", "--no-trim", "--turns", "4"], &design));
    let lowest = text.lines().find(|line| line.starts_with("Lowest these parts reach")).unwrap();
    assert!(lowest.contains(&format!("; not looked at, for want of numbers: {open}. ")), "{lowest}");
}

/// Both ends come down alike by what is on the table, each way's code carries the rear's parts, and what
/// nobody has measured of the rear is named.
#[test]
fn the_rear_comes_down_as_far_by_its_own_parts() {
    let design = changed_front(|file| {
        file["proposals"] = serde_json::json!([]);
        file["truck"]["rear"] = serde_json::json!({
            "frame_height": 470, "wheel_radius": 310, "seat": -62, "stop_gap": 110, "tube_gap": 160
        });
    });
    let asked = ["ways", "-", "--drop", "50.8", "--no-trim", "--turns", "4", "--best", "1", "--keep-rake"];
    let text = printed(&piped(&asked, &design));
    assert!(
        text.contains("1  2 in spindle, 2 in rear block") || text.contains("50.8 mm rear block"),
        "{text}"
    );
    assert!(text.contains("the rear down by its parts"), "{text}");
    // What can hurt someone comes before any way.
    let at = |said: &str| text.find(said).unwrap_or_else(|| panic!("{said}: {text}"));
    assert!(at("rear brakes lock first") < at("gives up"), "{text}");
    let row = quoted_rows(&printed(&piped(&[&asked[..], &["--format", "csv"]].concat(), &design))).remove(0);
    assert_eq!(row["rear"], "the rear down by its parts");
    assert!(row["notes"].contains("rear brakes lock first"), "{row:?}");
    let code = text.lines().find(|line| line.starts_with("   1")).map(str::trim).unwrap();
    let report = printed(&scrubline(&["report", code, "--format", "json"]));
    let trucks: serde_json::Value = serde_json::from_str(&report).unwrap();
    let caster = |at: usize| trucks["trucks"][at]["caster_ground_deg"].as_f64().unwrap();
    assert!((caster(0) - caster(1)).abs() < 0.1, "{} {}", caster(0), caster(1));
    let unknown = complaint(&piped(&["ways", "-", "--drop", "50", "--keep-rake"], &changed_front(|_| {})), 1);
    assert!(unknown.contains("The rear is open until this is measured"), "{unknown}");
    let both = ["ways", "--drop", "50", "--keep-rake", "--rear-down", "50"];
    assert!(complaint(&scrubline(&both), 2).contains("cannot be used with"));
}

/// How sure the first few are is said and in the data: of one way alone nothing gives up less. Two inches of
/// spindle leave 49.4 mm of bump: where just that is wished half of the trucks leave it, less those in which a rim
/// meets something first, which are as many where half of it is wished.
#[test]
fn how_sure_it_is_is_said() {
    let asked = ["--drop", "2 in", "--spindles", "2 in", "--turns", "0", "--no-trim", "--turning-room", "0"];
    let keeps = |bump: &str| {
        let row = &table(&[&["ways", "--format", "csv", "--bump", bump][..], &asked].concat())[0];
        assert_eq!(row["least_in"], "1.00");
        let keeps = row["keeps_in"].parse::<f64>().unwrap();
        let text = printed(&scrubline(&[&["ways", "--bump", bump][..], &asked].concat()));
        let said = format!(
            "The way above has the bump travel and the ride that were wished in {:.0} of",
            100.0 * keeps
        );
        assert!(text.contains(&said), "{said} in\n{text}");
        keeps
    };
    let (just, half) = (keeps("49.3"), keeps("25.4"));
    assert!((just - 0.5 * half).abs() < 0.15 && half < 0.9, "{just} {half}");
    let many = ["ways", "--drop", "2 1/2 in", "--spindles", "1 1/2 in", "--turns", "8", "--no-trim"];
    let rows = table(&[&many[..], &["--format", "csv"]].concat());
    let shares: Vec<_> = rows.iter().take(3).map(|row| row["least_in"].parse::<f64>().unwrap()).collect();
    assert!((shares.iter().sum::<f64>() - 1.0).abs() < 0.02, "{shares:?}");
    assert!(printed(&scrubline(&many)).contains("of a hundred trucks that measure as this one"));
}
