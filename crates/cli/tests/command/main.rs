//! The built command, driven as people and scripts drive it.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod as_built;
mod bad_input;
mod bolt_up;
mod designs;
mod fit;
mod marks;
mod picture;
mod published_car;
mod readings;
mod rear;
mod report;
mod setup;
mod sides;
mod spread;
mod sweep;
mod ways;
mod work;

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

/// Runs the command to its end.
fn scrubline(arguments: &[&str]) -> Output {
    let command = Command::new(env!("CARGO_BIN_EXE_scrubline")).args(arguments).output();
    command.expect("the command was built for this test")
}

/// Runs the command with a text on its standard input.
fn piped(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_scrubline"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command was built for this test");
    // It may stop reading before the end: what it then says is what the test asks about.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

/// What a run that must succeed printed.
fn printed(output: &Output) -> String {
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{complaint}");
    assert_eq!(complaint, "");
    String::from_utf8(output.stdout.clone()).unwrap()
}

/// What a run that must fail with this exit code said; it must have printed nothing.
fn complaint(output: &Output, code: i32) -> String {
    let said = String::from_utf8(output.stderr.clone()).unwrap();
    assert_eq!(output.status.code(), Some(code), "{said}");
    assert!(output.stdout.is_empty(), "{said}");
    assert!(!said.contains("panicked"), "{said}");
    said
}

/// The rows of a CSV text without quotes, each by its headers.
fn rows(csv: &str) -> Vec<BTreeMap<String, String>> {
    assert!(!csv.contains('"'), "{csv}");
    quoted_rows(csv)
}

/// The rows of a CSV text by RFC 4180, each by its headers; no cell has a line end in it.
fn quoted_rows(csv: &str) -> Vec<BTreeMap<String, String>> {
    let cells = |line: &str| {
        let (mut cells, mut quoted) = (vec![String::new()], false);
        for letter in line.chars() {
            match letter {
                '"' => quoted = !quoted,
                ',' if !quoted => cells.push(String::new()),
                _ => cells.last_mut().unwrap().push(letter),
            }
        }
        cells
    };
    let mut lines = csv.lines().map(cells);
    let headers = lines.next().unwrap();
    lines
        .map(|cells| {
            assert_eq!(cells.len(), headers.len(), "{cells:?}");
            headers.iter().cloned().zip(cells).collect()
        })
        .collect()
}

/// A number of a row.
fn number(row: &BTreeMap<String, String>, header: &str) -> f64 {
    let text = row.get(header).unwrap_or_else(|| panic!("no column {header} in {row:?}"));
    text.parse().unwrap_or_else(|_| panic!("{header} is no number: {text}"))
}

/// A file of the reference data.
fn reference(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference").join(name)
}

/// A file with this content, of a name of its own.
fn file(name: &str, content: impl AsRef<[u8]>) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, content).unwrap();
    path.to_str().unwrap().to_owned()
}

/// The file of the demo truck with nothing measured of its rear and its first plan alone, the two-inch spindle,
/// and with something in its JSON changed.
fn changed_front(change: impl FnOnce(&mut serde_json::Value)) -> String {
    changed_demo(|file| {
        file["truck"].as_object_mut().unwrap().remove("rear");
        file["proposals"].as_array_mut().unwrap().truncate(1);
        change(file);
    })
}

/// The file of the demo truck with something in its JSON changed.
fn changed_demo(change: impl FnOnce(&mut serde_json::Value)) -> String {
    let text = printed(&scrubline(&["open", &printed(&scrubline(&["link"]))]));
    let mut file: serde_json::Value = serde_json::from_str(&text).unwrap();
    change(&mut file);
    file.to_string()
}
