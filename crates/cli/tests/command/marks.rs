//! The mark of a guess in everything that the command prints.
//!
//! No source: a mark is on a number exactly where moving the guess within its width would have
//! printed another. The probes here are files with another number in them, and runs of the command.

use crate::{changed_demo, piped, printed, quoted_rows};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

type Marks = Vec<BTreeSet<String>>;

fn report(file: &str, arguments: &[&str]) -> String {
    printed(&piped(&[&["report", "-"], arguments].concat(), file))
}

fn trucks(file: &str, arguments: &[&str]) -> Vec<Value> {
    let text = report(file, &[arguments, &["--format", "json", "--decimals", "2"]].concat());
    let printed: Value = serde_json::from_str(&text).unwrap();
    printed["trucks"].as_array().unwrap().clone()
}

/// The marked answers of each truck, as JSON names them.
fn marks(trucks: &[Value]) -> Marks {
    let named = |truck: &Value| {
        let list = truck["guesses"].as_array().unwrap();
        list.iter().map(|key| key.as_str().unwrap().to_owned()).collect()
    };
    trucks.iter().map(named).collect()
}

/// The answers that another file prints otherwise.
fn moved(before: &[Value], after: &[Value]) -> Marks {
    let differ = |(one, two): (&Value, &Value)| {
        let (one, two) = (one.as_object().unwrap(), two.as_object().unwrap());
        let keys = one.keys().filter(|key| one.get(*key) != two.get(*key)).cloned();
        // A sentence on whether it steers is no figure: those beside it are.
        keys.filter(|key| !["guesses", "guessed_changes", "steering"].contains(&key.as_str())).collect()
    };
    before.iter().zip(after).map(differ).collect()
}

/// A number of the truck as a guess: how it is named, where it stands in the file, and how far it may be off.
type Guess = (&'static str, &'static str, f64);

/// The widths are written down here as they are meant: an inch for a point, a degree for camber,
/// a fifth of a load, five degrees of a joint; and the other word of a choice.
const ALONE: [Guess; 7] = [
    ("rail_bottom_z", "frame/rail_bottom_z", 25.4),
    ("fender_z", "fender/fender_z", 25.4),
    ("tie_inner_z", "points/tie_inner/z", 25.4),
    ("camber", "alignment/camber", 1.0),
    ("corner_load", "load/corner_load", 780.0),
    ("upper_swing", "joints/upper_swing", 5.0),
    ("caliper_radius", "brake/caliper_radius", 25.4),
];

/// What makes a number of the demo a guess.
type Change<'a> = &'a dyn Fn(&mut Value);

#[test]
fn a_mark_is_on_what_the_guess_moves_and_on_nothing_else() {
    for (key, place, width) in ALONE {
        let file = |by: Option<f64>| {
            changed_demo(|file| {
                file["truck"]["sources"] = json!({ "rule": "measured", "other": { key: "assumed" } });
                let number = file.pointer_mut(&format!("/truck/{place}")).unwrap();
                let was = number.as_f64().unwrap();
                *number = json!(((was + by.unwrap_or(0.0) * width) * 100.0).round() / 100.0);
            })
        };
        let before = trucks(&file(None), &[]);
        let mut expected: Marks = vec![BTreeSet::new(); before.len()];
        for by in [-1.0, -0.5, 0.5, 1.0] {
            for (all, more) in expected.iter_mut().zip(moved(&before, &trucks(&file(Some(by)), &[]))) {
                all.extend(more);
            }
        }
        // Where a pair comes nearest is marked with how near: a flat hollow's place is no answer of its own.
        for marks in &mut expected {
            let least: Vec<_> = marks.iter().filter_map(|key| key.strip_suffix("_least_mm")).collect();
            let places = least
                .iter()
                .flat_map(|pair| [format!("{pair}_least_at_mm"), format!("{pair}_least_steer_deg")]);
            let places: Vec<_> = places.collect();
            marks.extend(places);
        }
        assert_eq!(marks(&before), expected, "{key}");
        assert!(expected.iter().any(|marks| !marks.is_empty()), "{key} moves nothing");
    }
}

/// Text, CSV and JSON mark the same, on trucks where one number, one group, everything or a
/// number of a part is guessed; what is marked in the text is what its own column tells.
#[test]
fn every_output_marks_the_same() {
    let group = |file: &mut Value| {
        let keys =
            ["fender_y", "fender_z", "fender_half_length"].map(|key| (key.to_owned(), json!("assumed")));
        file["truck"]["sources"] = json!({ "rule": "measured", "other": serde_json::Map::from_iter(keys) });
    };
    let part = |file: &mut Value| {
        file["proposals"][0]["changes"][0]["sources"] = json!({ "drop": "assumed" });
    };
    let all = |file: &mut Value| file["truck"]["sources"] = json!({ "rule": "assumed" });
    let none = |_: &mut Value| {};
    let cases: [(&str, Change<'_>); 4] = [("none", &none), ("group", &group), ("part", &part), ("all", &all)];
    for (case, change) in cases {
        let file = changed_demo(|file| change(file));
        // Everything a guess is much to try: one truck will do.
        let only: &[&str] = if case == "all" { &["--proposal", "measured"] } else { &[] };
        let json = marks(&trucks(&file, only));
        let suffixes = ["_n_per_mm2", "_n_per_mm", "_mm", "_deg", "_hz"];
        let plain = |key: &String| {
            suffixes.iter().find_map(|suffix| key.strip_suffix(suffix)).unwrap_or(key).to_owned()
        };
        let json: Marks = json.iter().map(|keys| keys.iter().map(plain).collect()).collect();
        let csv = report(&file, &[only, &["--format", "csv"]].concat());
        let row = csv.lines().find(|line| line.starts_with("guesses,")).unwrap();
        let cells: Marks = row
            .split(',')
            .skip(2)
            .map(|cell| cell.split("; ").filter(|key| !key.is_empty()).map(str::to_owned).collect())
            .collect();
        assert_eq!(cells, json, "{case}");
        let text = report(&file, only);
        // The lines of the text are those of the other two, in order; what is too long stands below.
        let order: Vec<&str> = csv.lines().skip(3).map(|line| line.split(',').next().unwrap()).collect();
        let lines: Vec<&str> = text.lines().skip_while(|line| !line.starts_with("Stands on")).collect();
        let keys = order.iter().filter(|key| **key != "scrub_line");
        let mut told: Marks = vec![BTreeSet::new(); json.len()];
        for (key, line) in keys.zip(lines).take_while(|(key, _)| **key != "remarks") {
            let cells: Vec<&str> = line.split("   ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
            for (column, cell) in cells[cells.len() - json.len()..].iter().enumerate() {
                if cell.starts_with("~ ") {
                    told[column].insert((*key).to_owned());
                }
            }
        }
        assert_eq!(told, json, "{case}: {text}");
        assert_eq!(json.iter().any(|keys| !keys.is_empty()), case != "none", "{case}");
        if case == "all" {
            assert!(json[0].len() > 80, "{json:?}");
        }
    }
}

/// Set-up and ways mark what may rest on a guess: a fender that nobody has measured can end
/// the travel and turns no bolt; what the corner carries does.
#[test]
fn set_up_and_ways_carry_the_mark() {
    let asked = |key: &'static str| {
        changed_demo(move |file| {
            file["truck"]["sources"] = json!({ "rule": "measured", "other": { key: "assumed" } });
        })
    };
    let setup = |file: &str| printed(&piped(&["setup", "-", "--height", "245 mm"], file));
    let ways = |file: &str| {
        let text =
            printed(&piped(&["ways", "-", "--drop", "40 mm", "--best", "1", "--format", "json"], file));
        let found: Value = serde_json::from_str(&text).unwrap();
        found[0]["guesses"].as_str().unwrap().to_owned()
    };
    let marked = |text: &str, start: &str| {
        let line = text.lines().find(|line| line.starts_with(start)).unwrap_or_else(|| panic!("{text}"));
        line.contains("~ ")
    };
    let fender = asked("fender_z");
    let text = setup(&fender);
    assert!(
        marked(&text, "Bump travel") && text.contains("~ It may rest on numbers that nobody has measured")
    );
    for start in ["Adjuster bolt", "Shims, front bolt", "Tie rod's sleeve", "Frame height", "Camber"] {
        assert!(!marked(&text, start), "{start}");
    }
    assert!(ways(&fender).split("; ").all(|key| ["cost", "bump_left", "nearest_room"].contains(&key)));
    let load = asked("corner_load");
    let text = setup(&load);
    for start in
        ["Stands on", "Bump travel", "Adjuster bolt", "Shims, front bolt", "Tie rod's sleeve", "Camber"]
    {
        assert!(marked(&text, start), "{start}: {text}");
    }
    assert!(ways(&load).starts_with("cost; drop; bump_left; camber_change"));
    let none = changed_demo(|_| {});
    assert!(!setup(&none).contains('~') && ways(&none).is_empty());
}

/// A sweep of a file as JSON, and the columns that it says rest on a guess.
fn swept(file: &str, arguments: &[&str]) -> (Vec<Value>, BTreeSet<String>) {
    let asked = [&["sweep", "-", "--format", "json", "--decimals", "2", "--quantity"], arguments].concat();
    let rows: Vec<Value> = serde_json::from_str(&printed(&piped(&asked, file))).unwrap();
    let guesses = rows[0]["guesses"].as_str().unwrap().split("; ").filter(|key| !key.is_empty());
    let guesses = guesses.map(str::to_owned).collect();
    assert!(rows.iter().all(|row| row["guesses"] == rows[0]["guesses"]), "each row says the same");
    (rows, guesses)
}

/// A column of a sweep is marked where a guess prints another number in any of its rows, moved
/// straight or steered, and nowhere else. Lengths and angles, which data has as finely as marks do.
#[test]
fn a_column_is_marked_where_the_guess_moves_any_row() {
    const FEW: &str =
        "camber,toe,caster,caster_ground,roll_centre,half_track,ride_height,scrub_radius,path_angle";
    let sweeps: [&[&str]; 2] = [&[FEW, "--steps", "3"], &[FEW, "--lock-to-lock", "3"]];
    let mut marked = 0;
    for (key, place, width) in ALONE {
        let file = |by: f64| {
            changed_demo(|file| {
                file["truck"]["sources"] = json!({ "rule": "measured", "other": { key: "assumed" } });
                let number = file.pointer_mut(&format!("/truck/{place}")).unwrap();
                *number = json!(((number.as_f64().unwrap() + by * width) * 100.0).round() / 100.0);
            })
        };
        for sweep in sweeps {
            let (before, guesses) = swept(&file(0.0), sweep);
            let mut expected = BTreeSet::new();
            for by in [-1.0, -0.5, 0.5, 1.0] {
                let (after, _) = swept(&file(by), sweep);
                for (one, two) in before.iter().zip(&after) {
                    let keys = one.as_object().unwrap().keys().filter(|key| one[*key] != two[*key]);
                    expected.extend(keys.cloned());
                }
                assert_eq!(before.len(), after.len(), "{key}");
            }
            // What is said of the columns is none.
            expected.retain(|key| !["status", "guesses"].contains(&key.as_str()));
            assert_eq!(guesses, expected, "{key} {sweep:?}");
            marked += guesses.len();
        }
    }
    assert!(marked > 20, "only {marked} columns are marked: the test asks too little");
    // Where the lock is a guess, so is where its rows are steered to; straight ahead nothing is.
    let lock = changed_demo(|file| {
        file["truck"]["sources"] = json!({ "rule": "measured", "other": { "lock_left": "assumed" } });
    });
    assert!(swept(&lock, sweeps[1]).1.contains("steer_deg") && swept(&lock, sweeps[0]).1.is_empty());
}

const KINDS: [&str; 3] = ["torsion_bar", "coil", "wheel_rate"];

/// The demo on a spring of a kind, with everything a guess or nothing.
fn on_spring(kind: &str, rule: &str) -> String {
    changed_demo(|file| {
        file["truck"]["spring"]["kind"] = json!(kind);
        file["truck"]["sources"] = json!({ "rule": rule });
    })
}

/// A command's text, CSV rows and JSON rows.
fn in_all_formats(file: &str, asked: &[&str]) -> (String, Vec<BTreeMap<String, String>>, Vec<Value>) {
    let of = |format: &str| printed(&piped(&[asked, &["--format", format]].concat(), file));
    (of("text"), quoted_rows(&of("csv")), serde_json::from_str(&of("json")).unwrap())
}

/// Whether CSV and JSON are one table.
fn are_alike(csv: &[BTreeMap<String, String>], json: &[Value], column: &str) -> bool {
    let words = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    csv.len() == json.len() && csv.iter().zip(json).all(|(one, two)| one[column] == words(&two[column]))
}

/// With everything a guess no number of a setting is without its mark, on any spring and in any
/// format; with everything measured none has it.
#[test]
fn no_number_of_a_setting_drops_its_mark() {
    for kind in KINDS {
        let asked = ["setup", "-", "--height", "285 mm", "--proposal", "0"];
        let (text, csv, json) = in_all_formats(&on_spring(kind, "assumed"), &asked);
        let numbers: Vec<_> = csv.iter().filter(|row| !row["amount"].is_empty()).collect();
        for row in &numbers {
            assert!(row["note"].ends_with("~ rests on a guess"), "{kind}: {row:?}");
        }
        assert!(numbers.len() >= 8, "{kind}: {csv:?}");
        assert!(are_alike(&csv, &json, "note"));
        // Of the text's lines those with a label and an amount, up to what is said below them.
        let lines = text.lines().skip_while(|line| !line.starts_with("Stands on"));
        let lines: Vec<_> = lines.take_while(|line| !line.starts_with('~')).collect();
        let told = lines.iter().filter(|line| line.starts_with(|first: char| first.is_ascii_uppercase()));
        let told: Vec<_> = told.collect();
        for line in &told {
            assert!(line.contains("   ~ "), "{kind}: {line}");
        }
        assert!(told.len() >= 9, "{kind}: {text}");
        let thumb = text.lines().find(|line| line.starts_with("By the rule of thumb")).unwrap();
        assert_eq!(thumb.matches("~ ").count(), 2, "{thumb}");
        let (text, csv, json) = in_all_formats(&on_spring(kind, "measured"), &asked);
        assert!(!text.contains('~') && !format!("{csv:?}{json:?}").contains('~'), "{kind}: {text}");
    }
}

/// The same of ways down and of the nearest misses.
#[test]
fn no_number_of_a_way_drops_its_mark() {
    let all =
        ["cost", "drop", "bump_left", "camber_change", "caster_change", "ride_frequency", "nearest_room"];
    for kind in KINDS {
        let few = ["--spindles", "38.1", "--turns", "2", "--coils", "1", "--no-trim", "--best", "1"];
        let asked = [&["ways", "-", "--drop", "40"], &few[..]].concat();
        let (text, csv, json) = in_all_formats(&on_spring(kind, "assumed"), &asked);
        assert_eq!(csv[0]["guesses"].split("; ").collect::<Vec<_>>(), all, "{kind}");
        assert!(are_alike(&csv, &json, "guesses") && are_alike(&csv, &json, "nearest"));
        let way = text.lines().find(|line| line.starts_with("1   ")).unwrap();
        assert_eq!(way.matches("~ ").count(), all.len(), "{kind}: {way}");
        assert!(text.contains("nearest: ~"), "{kind}: {text}");
        let far = [&["ways", "-", "--drop", "400"], &few[..]].concat();
        let missed = printed(&piped(&far, &on_spring(kind, "assumed")));
        let miss = missed.lines().find(|line| line.trim_start().starts_with("nearest: ")).unwrap();
        assert_eq!(miss.matches("~ ").count(), 2, "{miss}");
        for asked in [asked, far] {
            let (text, csv, json) = in_all_formats(&on_spring(kind, "measured"), &asked);
            assert!(!text.contains('~') && !format!("{csv:?}{json:?}").contains('~'), "{kind}: {text}");
        }
    }
}

/// The same of a sweep: at the head of each column in text, by name in data.
#[test]
fn no_column_of_a_sweep_drops_its_mark() {
    for kind in KINDS {
        for more in [["--steps", "3"], ["--lock-to-lock", "3"]] {
            let asked =
                [&["sweep", "-", "--quantity", "camber,toe,ride_height,toe_rate"], &more[..]].concat();
            let (text, csv, json) = in_all_formats(&on_spring(kind, "assumed"), &asked);
            let is_steered = more[0] == "--lock-to-lock";
            let steer = if is_steered { "steer_deg; " } else { "" };
            let names = "camber_deg; toe_deg; ride_height_mm; toe_rate_deg_per_mm";
            assert_eq!(csv[0]["guesses"], steer.to_owned() + names, "{kind}");
            assert!(are_alike(&csv, &json, "guesses"));
            let head = text.lines().find(|line| line.starts_with("travel_mm")).unwrap();
            let marked = head.split("  ").filter_map(|name| name.trim().strip_prefix("~ "));
            assert_eq!(marked.collect::<Vec<_>>().join("; "), csv[0]["guesses"], "{head}");
            assert!(text.contains("\n~ rests on numbers that nobody has measured"), "{text}");
            let (text, csv, json) = in_all_formats(&on_spring(kind, "measured"), &asked);
            assert!(!text.contains('~') && csv.iter().all(|row| row["guesses"].is_empty()), "{kind}: {text}");
            assert!(are_alike(&csv, &json, "guesses"));
        }
    }
}

/// A curve names the trucks whose numbers rest on a guess with its mark.
#[test]
fn a_curve_marks_the_names_of_its_trucks() {
    let drawn = |rule: &str| {
        let asked = ["picture", "-", "--shows", "curve", "--quantity", "camber"];
        printed(&piped(&asked, &on_spring("torsion_bar", rule)))
    };
    assert!(drawn("assumed").contains("~ as it sits") && drawn("assumed").contains("~ 50.8 mm spindle"));
    assert!(!drawn("measured").contains('~'));
}
