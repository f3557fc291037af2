//! What cannot be used: one plain sentence on standard error that names the
//! place, nothing on standard output, exit code 1; 2 where the command itself
//! is wrong.

use crate::{changed_demo, complaint, file, piped, printed, scrubline};
use serde_json::json;

/// What each of the commands that read a design says.
fn said_of(design: &str) -> String {
    let said = complaint(&scrubline(&["sweep", design]), 1);
    for command in ["report", "link", "open"] {
        assert_eq!(complaint(&scrubline(&[command, design]), 1), said);
    }
    assert!(said.starts_with("scrubline: ") && said.ends_with(".\n") && said.lines().count() == 1, "{said}");
    said
}

#[test]
fn what_is_no_file_and_no_link() {
    let said = said_of("no/such/truck.json");
    assert!(said.contains("no/such/truck.json: there is no such file"), "{said}");
    assert!(said_of(env!("CARGO_TARGET_TMPDIR")).contains("directory"));
    assert!(said_of("").contains("no such file"));
    let long = "x".repeat(5000);
    assert!(said_of(&long).len() < 400);
    let steering = said_of("\u{1b}[31mred\u{202e}");
    assert!(!steering.contains(['\u{1b}', '\u{202e}']), "{steering}");
}

#[test]
fn links_cut_short_padded_or_from_the_future() {
    let code = printed(&scrubline(&["link", "--proposal", "1"]));
    let code = code.trim_end();
    let cut = &code[..code.len() - 1];
    assert_eq!(
        said_of(&format!("https://example.org/#{cut}")),
        "scrubline: The link is cut off or mistyped.\n"
    );
    assert!(said_of(&format!("https://example.org/#{code}x")).contains("cut off or mistyped"));
    let post = file("cut.txt", format!("look: https://example.org/#{cut}"));
    assert!(said_of(&post).contains("cut.txt: The link is cut off"));
    assert!(said_of(&file("prose.txt", "I lowered it by two inches.")).contains("not a Scrubline link"));
}

#[test]
fn files_that_are_no_text_or_no_json() {
    assert!(said_of(&file("empty.json", "")).contains("empty.json: there is nothing in it"));
    assert!(said_of(&file("blank.json", " \n\t")).contains("nothing in it"));
    assert!(
        said_of(&file("bytes.json", [b'{', 0xff, 0xfe])).contains("bytes.json: this is not text: byte 2")
    );
    let said = said_of(&file("comma.json", "{\n  \"scrubline\": 1,\n  \"title\" \"x\"\n}"));
    assert!(
        said.contains("comma.json: this is not a JSON file") && said.contains("line 3 column 11"),
        "{said}"
    );
    assert!(said_of(&file("deep.json", format!("{{\"a\":{}", "[".repeat(100_000)))).contains("recursion"));
    assert!(said_of(&file("half.json", "{\"scrubline\": 1, \"title\": \"x")).contains("line 1"));
}

#[test]
fn files_of_the_wrong_shape_name_the_place() {
    let of = |name: &str, change: &dyn Fn(&mut serde_json::Value)| {
        said_of(&file(name, changed_demo(|file| change(file))))
    };
    let said = of("shape.json", &|file| file["truck"]["points"]["lower_ball"]["z"] = json!("high"));
    assert!(said.contains("shape.json") && said.contains("truck.points.lower_ball.z"), "{said}");
    let said = of("far.json", &|file| file["truck"]["points"]["wheel_centre"]["y"] = json!(1e7));
    assert!(said.contains("truck.points.wheel_centre.y") && said.contains("200 to 1400"), "{said}");
    let said = of("key.json", &|file| file["truck"]["stops"]["bounce"] = json!(1));
    assert!(said.contains("truck.stops.bounce"), "{said}");
    let said = of("newer.json", &|file| file["scrubline"] = json!(2));
    assert!(said.contains("newer"), "{said}");
    assert!(of("list.json", &|file| file["proposals"] = json!({})).contains("proposals"));
    assert!(of("other.json", &|file| *file = json!({ "name": "x" })).contains("not a Scrubline file"));
    let twice = file("twice.json", "{\"scrubline\": 1, \"title\": \"a\", \"title\": \"b\"}");
    assert!(said_of(&twice).contains("title twice"));
    let said =
        said_of(&file("huge.json", "{\"scrubline\": 1, \"truck\": {\"load\": {\"corner_load\": 1e999}}}"));
    assert!(said.contains("huge.json"), "{said}");
}

#[test]
fn megabytes_of_text() {
    let megabytes = "lower it ".repeat(400_000);
    assert!(said_of(&file("novel.txt", &megabytes)).contains("novel.txt: this is over a megabyte"));
    assert!(
        complaint(&piped(&["open", "-"], &megabytes), 1).contains("standard input: this is over a megabyte")
    );
    let below = "1abc#".repeat(200_000);
    assert!(said_of(&file("codes.txt", &below)).contains("too long"));
    let list = format!("{{\"scrubline\": 1, \"proposals\": [{}1]}}", "1,".repeat(400_000));
    assert!(said_of(&file("list-long.json", list)).contains("too large"));
}

#[test]
fn points_that_make_no_corner_name_the_part() {
    let flat = changed_demo(|file| {
        let pivot = file["truck"]["points"]["upper_front"].clone();
        file["truck"]["points"]["upper_rear"] = pivot;
    });
    for command in ["sweep", "report"] {
        let said = complaint(&piped(&[command, "-"], &flat), 1);
        assert!(said.contains("Juniper pickup, as it sits: the upper arm has no length"), "{said}");
    }
    // It is still a design: it can be opened and shared, so that nothing is lost.
    let opened = printed(&piped(&["open", "-"], &flat));
    assert_eq!(printed(&piped(&["link", "-"], &flat)), printed(&piped(&["link", "-"], &opened)));
}

#[test]
fn a_proposal_that_is_not_there_is_answered_with_those_that_are() {
    for wanted in ["3", "-1", "Springs", "", "99999999999999999999"] {
        let argument = format!("--proposal={wanted}");
        let said = complaint(&scrubline(&["sweep", &argument]), 1);
        assert!(said.contains("0 as it sits, 1 2 in spindle, 2 Both ends"), "{said}");
    }
}

#[test]
fn commands_that_cannot_be_run_are_told_apart_from_bad_data() {
    for (arguments, named) in [
        (&["sweep", "--quantity", "bump_steer"][..], "bump_steer"),
        (&["sweep", "--quantity", "camber,"], "--quantity"),
        (&["sweep", "--from", "3 furlongs"], "mm, cm, m, in or ft"),
        (&["sweep", "--from", "NaN"], "expected a number"),
        (&["sweep", "--to", "1/0"], "not over zero"),
        (&["sweep", "--steps", "0"], "--steps"),
        (&["sweep", "--steps", "4000000000"], "--steps"),
        (&["sweep", "--units", "furlong"], "--units"),
        (&["sweep", "--decimals", "13"], "--decimals"),
        (&["report", "--format", "xml"], "--format"),
        (&["link", "--page", ""], "--page"),
        (&["open"], "TEXT|FILE"),
        (&["lower"], "lower"),
        (&[], "Usage"),
    ] {
        let said = complaint(&scrubline(arguments), 2);
        assert!(said.contains(named), "{arguments:?}: {said}");
    }
}
