//! `scrubline sweep`: columns, units, formats, and poses that are not there.

use crate::{changed_demo, changed_front, complaint, number, piped, printed, rows, scrubline};
use std::process::{Command, Stdio};
use study::{Quantity, Span, Stance, Steering, Unit, steer_sweep, sweep};
use truck::{Side, Which};

/// Every number is the study's own, rounded once: what the page shows comes
/// from the same call.
#[test]
fn every_number_is_the_studys_own() {
    let design = truck::demo();
    let plans = design.proposals.iter().map(|plan| Which::from(plan.id));
    for (at, which) in [Which::AsMeasured].into_iter().chain(plans).enumerate() {
        let proposal = &*at.to_string();
        let rest = Stance::of_design(&design, which).unwrap().on(Side::Left);
        let span = Span { from_mm: -40.0, to_mm: 60.0, count: 5 };
        let relay = linkage::Vector3::new(0.0, 7.5, 0.0);
        let sweep = sweep(&rest, &span, relay);
        let asked = ["--from", "-40", "--to", "60", "--steps", "5", "--link-from", "7.5", "--decimals", "9"];
        let mut arguments = vec!["sweep", "--proposal", proposal];
        arguments.extend(asked);
        let poses = rows(&printed(&scrubline(&arguments)));
        assert_eq!(poses.len(), sweep.stations.len());
        for (row, station) in poses.iter().zip(&sweep.stations) {
            let gauged = station.gauged.as_ref().unwrap();
            for quantity in Quantity::ALL {
                let (suffix, decimals) = match quantity.unit() {
                    Unit::Length => ("_mm", 9),
                    Unit::Angle => ("_deg", 9),
                    Unit::AnglePerLength => ("_deg_per_mm", 11),
                    Unit::Ratio => ("", 11),
                };
                let angle = matches!(quantity.unit(), Unit::Angle | Unit::AnglePerLength);
                let in_degrees = |value: f64| if angle { value.to_degrees() } else { value };
                let expected = quantity.read(gauged).map(|value| measure::fixed(in_degrees(value), decimals));
                let header = format!("{}{suffix}", quantity.key());
                assert_eq!(row[&header], expected.unwrap_or_default(), "{header}");
            }
        }
    }
}

#[test]
fn inches_are_millimetres_over_25_4() {
    let span = ["--from", "-2in", "--to", "50.8 mm", "--steps", "3", "--decimals", "12"];
    let mut metric = vec!["sweep"];
    metric.extend(span);
    let mut inches = metric.clone();
    inches.extend(["--units", "in"]);
    let metric = rows(&printed(&scrubline(&metric)));
    let inches = rows(&printed(&scrubline(&inches)));
    for (mm, inch) in metric.iter().zip(&inches) {
        let near = |value: f64, expected: f64, what: &str| {
            assert!(
                (value - expected).abs() <= 1e-10 * expected.abs().max(1.0),
                "{what}: {value} {expected}"
            );
        };
        for length in ["travel", "half_track", "roll_centre", "ride_height", "scrub_radius"] {
            let expected = number(mm, &format!("{length}_mm")) / 25.4;
            near(number(inch, &format!("{length}_in")), expected, length);
        }
        for rate in ["camber_rate", "toe_rate", "bar_ratio"] {
            let expected = number(mm, &format!("{rate}_deg_per_mm")) * 25.4;
            near(number(inch, &format!("{rate}_deg_per_in")), expected, rate);
        }
        for same in ["camber_deg", "toe_deg", "track_rate"] {
            assert_eq!(mm[same], inch[same]);
        }
    }
}

#[test]
fn a_bare_length_is_in_the_units_asked_for_and_a_stated_one_in_its_own() {
    let first_travel = |from: &str, units: &str| {
        let arguments = ["sweep", "--from", from, "--steps", "1", "--units", units, "--quantity", "camber"];
        let row = rows(&printed(&scrubline(&arguments))).remove(0);
        row[&format!("travel_{units}")].clone()
    };
    assert_eq!(first_travel("-2", "mm"), "-2.0000");
    assert_eq!(first_travel("-2", "in"), "-2.0000");
    assert_eq!(first_travel("-2 1/2 in", "mm"), "-63.5000");
    assert_eq!(first_travel("-2-1/2\"", "mm"), "-63.5000");
    assert_eq!(first_travel("25.4mm", "in"), "1.0000");
    assert_eq!(first_travel("−1/2", "in"), "-0.5000");
}

#[test]
fn json_has_the_numbers_of_csv() {
    let arguments = ["sweep", "--steps", "9", "--from", "-200", "--to", "100"];
    let csv = rows(&printed(&scrubline(&arguments)));
    let mut arguments = arguments.to_vec();
    arguments.extend(["--format", "json"]);
    let json: Vec<serde_json::Map<String, serde_json::Value>> =
        serde_json::from_str(&printed(&scrubline(&arguments))).unwrap();
    assert_eq!(csv.len(), json.len());
    for (row, object) in csv.iter().zip(&json) {
        assert_eq!(row.len(), object.len());
        for (header, cell) in row {
            let same = match &object[header] {
                serde_json::Value::Null => cell.is_empty(),
                serde_json::Value::String(text) => text == cell,
                value => value.as_f64() == cell.parse().ok(),
            };
            assert!(same, "{header}: {cell} {:?}", object[header]);
        }
    }
}

#[test]
fn a_pose_that_is_not_reached_keeps_its_row_and_says_why() {
    let arguments = ["sweep", "--from", "-400", "--to", "0", "--steps", "2"];
    let poses = rows(&printed(&scrubline(&arguments)));
    let (beyond, rest) = (&poses[0], &poses[1]);
    assert_eq!(beyond["travel_mm"], "-400.0000");
    assert_eq!(beyond["camber_deg"], "");
    assert!(beyond["status"].contains("cannot"), "{}", beyond["status"]);
    assert_eq!(rest["status"], "ok");
    number(rest, "camber_deg");
    // A tie rod's end a yard away cannot be reached by the rod.
    let arguments = ["sweep", "--steps", "1", "--from", "0", "--link-from", "36in"];
    let far = rows(&printed(&scrubline(&arguments))).remove(0);
    assert!(far["status"].starts_with("the outer tie-rod end cannot close"), "{}", far["status"]);
    assert!(far["status"].ends_with(" mm short"), "{}", far["status"]);
}

/// The demo's tie rod is behind the axle: its inner end moved to the left, which
/// is outboard, pushes the rear of the left wheel out and so its front in.
#[test]
fn the_link_steers_and_each_of_its_places_has_the_whole_travel() {
    let arguments = ["sweep", "--steps", "3", "--link-from", "-10", "--link-to", "10", "--link-steps", "5"];
    let poses = rows(&printed(&scrubline(&arguments)));
    assert_eq!(poses.len(), 15);
    let at_rest: Vec<_> = poses.iter().filter(|row| row["travel_mm"] == "0.0000").collect();
    let relays: Vec<_> = at_rest.iter().map(|row| number(row, "link_mm")).collect();
    assert_eq!(relays, [-10.0, -5.0, 0.0, 5.0, 10.0]);
    let toes: Vec<_> = at_rest.iter().map(|row| number(row, "toe_deg")).collect();
    assert!(toes.is_sorted() && toes[0] < -1.0 && toes[4] > 1.0, "{toes:?}");
    let usual = ["sweep", "--steps", "1", "--link-from", "-10", "--link-to", "10"];
    assert_eq!(rows(&printed(&scrubline(&usual))).len(), 21);
}

#[test]
fn columns_are_those_asked_for_in_that_order() {
    let asked = ["sweep", "--steps", "1", "--quantity", "toe,camber", "--quantity", "motion_ratio"];
    let csv = printed(&scrubline(&asked));
    let header = csv.lines().next().unwrap();
    assert_eq!(header, "travel_mm,link_mm,toe_deg,camber_deg,motion_ratio,status,guesses");
    // A torsion bar has no coil: the cell is empty and the pose is still reached.
    assert_eq!(rows(&csv)[0]["motion_ratio"], "");
    assert_eq!(rows(&csv)[0]["status"], "ok");
    let text = printed(&scrubline(&["sweep", "--steps", "3", "--format", "text"]));
    assert!(text.starts_with("Juniper pickup, as it sits\n"), "{text}");
    assert_eq!(text.lines().count(), 2 + 1 + 3 + 2);
    assert!(text.lines().all(|line| line.chars().count() <= 120), "{text}");
}

/// Caster hangs on the rake: a sweep says what the rear does, in every row of data too.
#[test]
fn a_sweep_against_the_ground_says_what_the_rear_does() {
    let swept = |change: fn(&mut serde_json::Value), format: &str| {
        let asked = ["sweep", "-", "--steps", "1", "--proposal", "1", "--quantity", "caster_ground"];
        printed(&piped(&[&asked[..], &["--format", format]].concat(), &changed_front(change)))
    };
    let stated = |file: &mut serde_json::Value| file["proposals"][0]["rear_down"] = 50.8.into();
    assert_eq!(rows(&swept(|_| {}, "csv"))[0]["if_the_rear"], "stays up");
    assert_eq!(rows(&swept(stated, "csv"))[0]["if_the_rear"], "comes down as stated");
    assert!(swept(|_| {}, "text").ends_with("Against the ground, if the rear stays up.\n"));
    let measured = rows(&printed(&scrubline(&["sweep", "--steps", "1", "--quantity", "trail_ground"])));
    assert_eq!(measured[0]["if_the_rear"], "is as it sits");
}

#[test]
fn the_truck_swept_is_the_one_that_the_sender_saw() {
    let opened = changed_demo(|file| file["opening"]["proposal"] = 0.into());
    let height = |arguments: &[&str]| {
        let mut all = vec!["sweep", "-", "--steps", "1", "--from", "0", "--quantity", "ride_height"];
        all.extend(arguments);
        rows(&printed(&piped(&all, &opened))).remove(0)["ride_height_mm"].clone()
    };
    let (seen, measured) = (height(&[]), height(&["--proposal", "measured"]));
    assert_ne!(seen, measured);
    assert_eq!(height(&["--proposal", "0"]), measured);
    for same in ["1", "2 in spindle", "2 IN spindle", "50.8 mm spindle"] {
        assert_eq!(height(&["--proposal", same]), seen, "{same}");
    }
}

#[test]
fn a_reader_that_has_had_enough_is_no_error() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_scrubline"))
        .args(["sweep", "--steps", "4001"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // More is written than a pipe holds, so the command meets the closed end.
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

/// A table that was cut off by a full disk must not pass for a whole one.
#[test]
#[cfg(target_os = "linux")]
fn output_that_cannot_be_written_is_an_error() {
    let full = std::fs::File::options().write(true).open("/dev/full").unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_scrubline")).arg("sweep").stdout(full).output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.starts_with("scrubline: standard output: "), "{said}");
    assert_eq!(output.status.code(), Some(1));
}

/// Each count has its limit, and so has their product, before anything is written.
#[test]
fn a_sweep_too_large_is_refused_at_once() {
    for steer in [["--lock-to-lock", "10001"], ["--link-steps", "10001"]] {
        let asked = ["sweep", "--steps", "10001", steer[0], steer[1], "--link-to", "9"];
        let asked = if steer[0] == "--lock-to-lock" { &asked[..5] } else { &asked[..] };
        let said = complaint(&scrubline(asked), 1);
        assert!(said.contains("100020001 rows") && said.contains("1000000"), "{said}");
    }
    let poses =
        printed(&scrubline(&["sweep", "--steps", "40", "--lock-to-lock", "25", "--quantity", "camber"]));
    assert_eq!(poses.lines().count(), 1 + 40 * 25);
}

/// Whoever reads one line has had enough: that is no failure, and nothing is said.
#[test]
fn a_reader_who_stops_is_no_failure() {
    for arguments in [&["sweep", "--steps", "3000"][..], &["schema"], &["report"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_scrubline"))
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_eq!(String::from_utf8(output.stderr).unwrap(), "", "{arguments:?}");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    }
}

/// Lock to lock by the truck's own steering: the ends are those of the report, and the numbers the study's.
#[test]
fn lock_to_lock_ends_at_the_locks() {
    let rest = Stance::of_design(&truck::demo(), Which::AsMeasured).unwrap().on(Side::Left);
    let steering = Steering::of(&rest).unwrap();
    let poses =
        rows(&printed(&scrubline(&["sweep", "--proposal", "0", "--lock-to-lock", "9", "--decimals", "6"])));
    assert_eq!(poses.len(), 9);
    for (at, heading_rad) in [(0, steering.right.heading_rad), (8, steering.left.heading_rad)] {
        assert_eq!(poses[at]["steer_deg"], measure::fixed(heading_rad.to_degrees(), 6));
        assert_eq!(number(&poses[at], "travel_mm").to_bits(), 0_f64.to_bits());
    }
    for (row, reading) in poses.iter().zip(&steer_sweep(&rest, &steering, 0.0, 9)) {
        assert_eq!(row["trail_mm"], measure::fixed(reading.attitude.trail_mm, 6));
    }
    let both = scrubline(&["sweep", "--lock-to-lock", "9", "--link-to", "1 in"]);
    assert_eq!(both.status.code(), Some(2), "one way to steer at a time");
}
