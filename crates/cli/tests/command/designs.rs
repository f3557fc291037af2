//! Where a design comes from and where it goes: files, links, codes, pipes.

use crate::{changed_demo, file, piped, printed, reference, scrubline};

#[test]
fn a_file_its_link_and_its_code_are_one_design() {
    let file = reference("published_car.json");
    let file = file.to_str().unwrap();
    let code = printed(&scrubline(&["link", file]));
    let code = code.trim_end();
    assert!(code.chars().all(|letter| letter.is_ascii_alphanumeric()), "{code}");
    let link = printed(&scrubline(&["link", file, "--page", "https://example.org/sketch/"]));
    assert_eq!(link.trim_end(), format!("https://example.org/sketch/#{code}"));
    let content = std::fs::read_to_string(file).unwrap();
    let sweep = |design: &str| printed(&scrubline(&["sweep", design, "--steps", "5"]));
    let expected = sweep(file);
    assert_eq!(sweep(code), expected);
    assert_eq!(sweep(link.trim_end()), expected);
    assert_eq!(sweep(&content), expected);
    assert_eq!(sweep(&format!("see {link} and tell me")), expected);
    for text in [&content, &format!("\u{feff}{content}"), code, &format!("> my truck:\n> {link}\n> ok?")] {
        assert_eq!(printed(&piped(&["sweep", "-", "--steps", "5"], text)), expected, "{text}");
    }
    let post = crate::file("post.txt", format!("{{My truck}} is here: {link}"));
    assert_eq!(sweep(&post), expected);
}

#[test]
fn what_is_opened_and_shared_again_is_the_same() {
    let demo = printed(&scrubline(&["link"]));
    let opened = printed(&scrubline(&["open", demo.trim_end()]));
    assert_eq!(printed(&piped(&["link", "-"], &opened)), demo);
    assert_eq!(printed(&piped(&["open", "-"], &opened)), opened);
    let car = reference("published_car.json");
    let car = car.to_str().unwrap();
    let link = printed(&scrubline(&["link", car, "--page", "https://example.org"]));
    let mut from_link: serde_json::Value =
        serde_json::from_str(&printed(&scrubline(&["open", link.trim_end()]))).unwrap();
    let from_file: serde_json::Value = serde_json::from_str(&printed(&scrubline(&["open", car]))).unwrap();
    assert_eq!(from_link["note"], from_file["note"], "a note goes with the link");
    assert_eq!(from_link, from_file);
    // Every number that the file states is the one that comes back.
    let stated: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(car).unwrap()).unwrap();
    for (point, axes) in stated["truck"]["points"].as_object().unwrap() {
        for (axis, value) in axes.as_object().unwrap() {
            let kept = from_link["truck"]["points"][point][axis].take();
            assert_eq!(kept.as_f64(), value.as_f64(), "{point}.{axis}");
        }
    }
}

#[test]
fn a_link_can_open_on_a_proposal() {
    let plain = printed(&scrubline(&["link"]));
    let on_spindle = printed(&scrubline(&["link", "--proposal", "1"]));
    assert_ne!(plain, on_spindle);
    let summary = printed(&scrubline(&["open", on_spindle.trim_end(), "--format", "text"]));
    assert!(summary.contains("Opened at   50.8 mm spindle\n"), "{summary}");
    let back = printed(&scrubline(&["link", on_spindle.trim_end(), "--proposal", "measured"]));
    assert_eq!(back, plain);
}

#[test]
fn a_summary_is_in_the_units_asked_for() {
    let code = printed(&scrubline(&["link"]));
    let summary =
        |units: &str| printed(&scrubline(&["open", code.trim_end(), "--format", "text", "--units", units]));
    assert!(summary("mm").contains("50.80 mm"), "{}", summary("mm"));
    assert!(summary("in").contains(" 2 in\n"), "{}", summary("in"));
    assert!(summary("mm").contains("195/75R14"), "{}", summary("mm"));
}

#[test]
fn the_schema_is_json_and_names_what_files_have() {
    let schema: serde_json::Value = serde_json::from_str(&printed(&scrubline(&["schema"]))).unwrap();
    assert!(schema["$schema"].as_str().unwrap().starts_with("https://json-schema.org/"));
    let file: serde_json::Value =
        serde_json::from_str(&printed(&scrubline(&["open", &printed(&scrubline(&["link"]))]))).unwrap();
    for key in file.as_object().unwrap().keys() {
        assert!(schema["properties"].get(key).is_some(), "{key}");
    }
}

#[test]
fn help_shows_how() {
    for arguments in [
        &["--help"][..],
        &["sweep", "--help"],
        &["report", "--help"],
        &["link", "--help"],
        &["open", "--help"],
    ] {
        let help = printed(&scrubline(arguments));
        assert!(help.contains("Examples:\n  scrubline "), "{help}");
    }
}

#[test]
fn a_file_of_a_name_that_reads_like_a_code_is_a_file() {
    let code = printed(&scrubline(&["link"]));
    let car = std::fs::read_to_string(reference("published_car.json")).unwrap();
    let named = file(code.trim_end(), &car);
    let summary = printed(&scrubline(&["open", &named, "--format", "text"]));
    assert!(summary.starts_with("Published car A\n"), "{summary}");
}

/// A file's further digits are rounded to the step of their kind, and it is said: on standard
/// error whatever is asked, and in the report's data, with the first as it is written and kept.
#[test]
fn a_number_finer_than_it_is_kept_is_said() {
    let design = changed_demo(|file| {
        file["truck"]["points"]["lower_ball"]["y"] = 650.0149.into();
        file["proposals"][0]["changes"][0]["drop"] = 50.796.into();
    });
    let said = "2 numbers of the file are finer than they are kept: proposals[0].changes[0].drop is 50.796 there and 50.8 here, and so with 1 more.";
    for asked in [&["report", "-"][..], &["open", "-"], &["link", "-"], &["sweep", "-", "--steps", "1"]] {
        let output = piped(asked, &design);
        assert!(output.status.success(), "{asked:?}");
        assert_eq!(String::from_utf8_lossy(&output.stderr), format!("scrubline: {said}\n"), "{asked:?}");
    }
    let report = |design: &str| -> serde_json::Value {
        serde_json::from_slice(&piped(&["report", "-", "--format", "json"], design).stdout).unwrap()
    };
    assert_eq!(report(&design)["rounded"], said);
    // Kept as it stands, nothing is said: `printed` sees to it that standard error is empty.
    let design = changed_demo(|file| file["truck"]["points"]["lower_ball"]["y"] = 650.01.into());
    printed(&piped(&["report", "-"], &design));
    assert_eq!(report(&design)["rounded"], serde_json::Value::Null);
    let one = changed_demo(|file| file["truck"]["alignment"]["camber"] = (-0.357).into());
    let said = String::from_utf8(piped(&["open", "-"], &one).stderr).unwrap();
    assert_eq!(
        said,
        "scrubline: One number of the file is finer than it is kept: truck.alignment.camber is -0.357 there and -0.36 here.\n"
    );
}
