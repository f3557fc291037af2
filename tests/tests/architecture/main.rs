//! The crates know each other one way only, so do the files within each, and the core touches
//! nothing of the world outside: read from the manifests, from `cargo tree` and from the sources.

#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod circles;
mod page;
mod sources;

use sources::{code_of, rust_files};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

/// What each crate may import of ours, itself or through others.
const CRATES: [(&str, &[&str]); 9] = [
    ("measure", &[]),
    ("linkage", &[]),
    ("truck", &["linkage"]),
    ("study", &["linkage", "truck"]),
    ("mating", &["linkage", "truck"]),
    ("drawing", &["linkage", "truck", "study", "mating", "measure"]),
    ("sharing", &["linkage", "truck", "measure"]),
    ("cli", &["linkage", "truck", "study", "mating", "drawing", "measure", "sharing"]),
    ("web", &["linkage", "truck", "study", "mating", "drawing", "measure", "sharing"]),
];

/// What the core may import of others' and nothing else, however deep: numbers and error texts.
const CORE: [&str; 5] = ["measure", "linkage", "truck", "study", "mating"];
const CORE_MAY_NAME: [&str; 4] = ["nalgebra", "libm", "fastrand", "thiserror"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(arguments)
        .args(["--offline", "--locked"])
        .current_dir(root())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "cargo {arguments:?}: {said}");
    String::from_utf8(output.stdout).unwrap()
}

/// Each package of ours with what its manifest names, tests aside, for every target.
fn named() -> BTreeMap<String, BTreeSet<String>> {
    let text = cargo(&["metadata", "--no-deps", "--format-version", "1"]);
    let metadata: serde_json::Value = serde_json::from_str(&text).unwrap();
    let name = |value: &serde_json::Value| value["name"].as_str().unwrap().to_owned();
    let all = metadata["packages"].as_array().unwrap();
    let normal = |package: &serde_json::Value| {
        let dependencies = package["dependencies"].as_array().unwrap();
        dependencies.iter().filter(|one| one["kind"].is_null()).map(name).collect()
    };
    all.iter().map(|package| (name(package), normal(package))).collect()
}

/// Every package that a crate's build brings in, itself first.
fn brought_in(library: &str) -> BTreeSet<String> {
    let text = cargo(&["tree", "-p", library, "-e", "normal", "--prefix", "none"]);
    let names: Vec<_> = text.lines().filter_map(|line| line.split(' ').next()).map(str::to_owned).collect();
    assert_eq!(names.first().map(String::as_str), Some(library), "the tree starts at its root: {text}");
    names.into_iter().collect()
}

#[test]
fn imports_run_one_way() {
    let named = named();
    let ours: BTreeSet<&str> = named.keys().map(String::as_str).collect();
    let known: BTreeSet<&str> =
        CRATES.iter().map(|(library, _)| *library).chain(["xtask", "reference-tests", "yardstick"]).collect();
    assert_eq!(ours, known, "every crate has its line in the table");
    for (library, may) in CRATES {
        let imports: BTreeSet<&str> =
            named[library].iter().map(String::as_str).filter(|name| ours.contains(name)).collect();
        let may: BTreeSet<&str> = may.iter().copied().collect();
        assert!(imports.is_subset(&may), "{library} imports {imports:?}, of which it may {may:?}");
    }
    // The tools build the crates and know none of them; no crate knows the tools or the tests.
    assert!(named["xtask"].iter().all(|name| !ours.contains(name.as_str())));
}

#[test]
fn what_is_built_keeps_to_it() {
    let ours: BTreeSet<String> = named().into_keys().collect();
    for (library, may) in CRATES.iter().filter(|(library, _)| *library != "web" && *library != "cli") {
        let brought = brought_in(library);
        let of_ours: BTreeSet<&str> = brought
            .iter()
            .filter(|name| ours.contains(*name) && name != library)
            .map(String::as_str)
            .collect();
        let may: BTreeSet<&str> = may.iter().copied().collect();
        assert!(of_ours.is_subset(&may), "{library} is built with {of_ours:?}");
    }
}

#[test]
fn the_core_names_numbers_and_nothing_else() {
    let named = named();
    for library in CORE {
        let others: Vec<_> =
            named[library].iter().filter(|name| !CRATES.iter().any(|(library, _)| library == name)).collect();
        assert!(others.iter().all(|name| CORE_MAY_NAME.contains(&name.as_str())), "{library}: {others:?}");
        let brought = brought_in(library);
        let wire = ["serde", "serde_json", "serde_core", "wasm-bindgen", "web-sys", "rand", "time", "chrono"];
        for name in wire {
            assert!(!brought.contains(name), "{library} is built with {name}");
        }
    }
}

/// What of `std` a library has no business with, and the macros that write to a screen.
const WORLD: [&str; 8] = ["fs", "time", "env", "net", "process", "thread", "io", "os"];
const SCREEN: [&str; 5] = ["println!", "print!", "eprintln!", "eprint!", "dbg!"];

/// Where a piece of code reaches out into the world, if it does.
fn reaches_out(code: &str) -> Option<String> {
    let path = WORLD.iter().find(|part| {
        code.match_indices("std::").any(|(at, _)| {
            let rest = &code[at + 5..];
            let group = rest.strip_prefix('{').map_or("", |group| group.split(';').next().unwrap_or(""));
            let one = rest.split(|c: char| !c.is_alphanumeric() && c != '_').next() == Some(**part);
            one || group.split(['{', '}', ',', ':', ' ']).any(|name| name == **part)
        })
    });
    let macro_call = SCREEN.iter().find(|name| {
        code.match_indices(**name)
            .any(|(at, _)| !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
    });
    path.map(|part| format!("std::{part}")).or_else(|| macro_call.map(|name| (*name).to_owned()))
}

#[test]
fn only_the_command_and_the_tools_touch_the_world() {
    let mut seen = 0;
    for (library, _) in CRATES.iter().filter(|(library, _)| *library != "cli" && *library != "web") {
        let mut files = Vec::new();
        rust_files(&root().join("crates").join(library).join("src"), &mut files);
        assert!(!files.is_empty(), "{library} has sources");
        for file in files {
            let found = reaches_out(&code_of(&file));
            assert_eq!(found, None, "{}", file.display());
            seen += 1;
        }
    }
    assert!(seen > 30, "{seen} files");
}

/// All sines go by one function: a second caller of the library's would bring back what only huge angles need, and the
/// page two kilobytes with it. A root is an instruction, and the library's a hundred.
#[test]
fn a_sine_is_taken_in_one_place() {
    let mut callers = Vec::new();
    for (library, _) in CRATES {
        let sources = if library == "web" { "web/src".to_owned() } else { format!("crates/{library}/src") };
        let mut files = Vec::new();
        rust_files(&root().join(sources), &mut files);
        for file in files {
            // What is drawn for a test alone stands beside what it tests.
            let is_test = file.ends_with("tests.rs");
            let code = code_of(&file);
            let calls = |name: &str| code.contains(&format!("libm::{name}("));
            if !is_test && ["sin", "cos", "tan", "sincos", "asin", "hypot", "sqrt"].into_iter().any(calls) {
                callers.push(file.strip_prefix(root()).unwrap().to_owned());
            }
        }
    }
    assert_eq!(callers, [Path::new("crates/linkage/src/angle.rs")]);
}

/// The reader above is no stub: it finds what it looks for, in every spelling, and nothing else.
#[test]
fn reaching_out_is_recognised() {
    for code in [
        "use std::fs;",
        "std::time::Instant::now()",
        "use std::{fmt, env};",
        "use std::{collections::BTreeMap, io::{self, Write}};",
        "if true { println!(\"x\") }",
        "dbg!(x)",
    ] {
        assert!(reaches_out(code).is_some(), "{code}");
    }
    for code in [
        "use std::fmt;",
        "use std::{fmt, f64::consts::PI};",
        "my_println!(x)",
        "let time = std::f64::EPSILON;",
    ] {
        assert_eq!(reaches_out(code), None, "{code}");
    }
}
