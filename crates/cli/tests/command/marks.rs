//! The mark of a guess in everything that the command prints.
//!
//! No source: a mark is on a number exactly where moving the guess within its width would have
//! printed another. The probes here are files with another number in them, and runs of the command.

use crate::{changed_demo, piped, printed};
use serde_json::{Value, json};
use std::collections::BTreeSet;

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
