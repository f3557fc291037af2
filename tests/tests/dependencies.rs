//! What others' code comes along: licences, sources and versions of every package that
//! is built for this machine or for the page, held to `deny.toml` in every test run.
//!
//! `cargo xtask audit` asks the same of every machine it may be built for, and known faults.

#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

use serde_json::Value;
use spdx::{Expression, LicenseReq, ParseMode};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// A package that is built, as Cargo tells of it.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Package {
    name: String,
    version: String,
    license: String,
    /// Where its source is, for what is not from the registry.
    place: Option<String>,
}

/// What is built on this machine, tests and tools included, and what is built of the page.
fn packages() -> BTreeSet<Package> {
    let mut found = BTreeSet::new();
    for which in [&["--workspace"][..], &["--package", "web", "--target", "wasm32-unknown-unknown"]] {
        let output = Command::new(env!("CARGO"))
            .args(["tree", "--locked", "--edges", "all", "--prefix", "none", "--format", "{p}|{l}"])
            .args(which)
            .current_dir(root())
            .output()
            .unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let text = String::from_utf8(output.stdout).unwrap();
        found.extend(text.lines().filter_map(package));
    }
    assert!(found.len() > 100, "{} packages", found.len());
    found
}

/// A line of `cargo tree`: `name v1.2.3 (place)|licence`, and `(*)` where it came before.
fn package(line: &str) -> Option<Package> {
    let (package, license) = line.split_once('|')?;
    let mut words = package.splitn(3, ' ');
    let (name, version) = (words.next()?, words.next()?.strip_prefix('v')?);
    let place = words.next().map(|place| place.replace("(proc-macro)", "").trim().to_owned());
    Some(Package {
        name: name.to_owned(),
        version: version.to_owned(),
        license: license.trim_end_matches("(*)").trim().to_owned(),
        place: place.filter(|place| !place.is_empty()),
    })
}

/// The quoted words of a table's key in `deny.toml`, one a line.
fn of_deny(from: &str, to: &str) -> Vec<String> {
    let text = fs::read_to_string(root().join("deny.toml")).unwrap();
    let list = text.split_once(from).unwrap().1.split_once(to).unwrap().0;
    let lines = list.lines().map(str::trim).filter(|line| !line.starts_with('#'));
    lines.filter_map(|line| line.split('"').nth(1)).map(str::to_owned).collect()
}

fn is_allowed(allowed: &[String], license: &str) -> bool {
    let expression = Expression::parse_mode(license, ParseMode::LAX).unwrap();
    let named =
        |wanted: &LicenseReq| wanted.addition.is_none() && allowed.contains(&wanted.license.to_string());
    expression.evaluate(named)
}

#[test]
fn every_licence_lets_the_product_be_given_away() {
    let allowed = of_deny("\nallow = [", "]");
    assert!(allowed.iter().any(|name| name == "MIT"), "{allowed:?}");
    for Package { name, license, .. } in packages() {
        assert!(is_allowed(&allowed, &license), "{name}: {license}");
    }
    for (license, is) in [
        ("GPL-3.0-only", false),
        ("MIT AND GPL-3.0-only", false),
        ("GPL-3.0-only OR MIT", true),
        ("Unlicense/MIT", true),
    ] {
        assert_eq!(is_allowed(&allowed, license), is, "{license}");
    }
}

#[test]
fn everything_is_ours_or_from_the_registry() {
    let ours = format!("({}", root().display());
    let mut count = 0;
    for Package { name, place, .. } in packages() {
        if let Some(place) = place {
            assert!(place.starts_with(&ours), "{name} is from {place}");
            count += 1;
        }
    }
    assert!(count >= 10, "{count} packages of ours");
}

/// Of any package one version, but for what `deny.toml` names with its reason.
#[test]
fn no_package_comes_twice_without_a_reason() {
    let named = of_deny("\nskip = [", "\n]");
    let excused = |name: &str, version: &str| {
        let prefix = |older: &str| version == older || version.starts_with(&format!("{older}."));
        named
            .iter()
            .any(|one| one.split_once('@').is_some_and(|(crates, older)| crates == name && prefix(older)))
    };
    let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for Package { name, version, .. } in packages() {
        if !excused(&name, &version) {
            versions.entry(name).or_default().insert(version);
        }
    }
    for (name, versions) in versions {
        assert_eq!(versions.len(), 1, "{name}: {versions:?}");
    }
}

/// What npm installs is named to the digit, for the tests and for the bench, and so is every lock file.
#[test]
fn versions_are_pinned() {
    for folder in ["", "tests/bench/"] {
        let text = fs::read_to_string(root().join(folder).join("package.json")).unwrap();
        let package: Value = serde_json::from_str(&text).unwrap();
        for (name, version) in package["devDependencies"].as_object().unwrap() {
            let version = version.as_str().unwrap();
            assert!(version.starts_with(|first: char| first.is_ascii_digit()), "{name}: {version}");
        }
    }
    let apart = ["fuzz/Cargo.lock", "crates/xtask/pack/Cargo.lock", "crates/xtask/bindgen/Cargo.lock"];
    for lock in apart.into_iter().chain(["Cargo.lock", "package-lock.json", "tests/bench/package-lock.json"])
    {
        assert!(root().join(lock).is_file(), "{lock}");
    }
}

/// The page's code and what reads it have to be of one version of wasm-bindgen, to the digit.
#[test]
fn what_takes_the_page_apart_and_runs_its_tests_is_of_the_same_version() {
    let version = |lock: &str, package: &str| {
        let text = fs::read_to_string(root().join(lock)).unwrap();
        let (_, after) = text.split_once(&format!("name = \"{package}\"\nversion = \"")).unwrap();
        after.split('"').next().unwrap().to_owned()
    };
    let page = version("Cargo.lock", "wasm-bindgen");
    assert_eq!(version("crates/xtask/pack/Cargo.lock", "wasm-bindgen-cli-support"), page);
    let commands = "crates/xtask/bindgen/Cargo.lock";
    assert_eq!(version(commands, "wasm-bindgen-cli"), page);
    assert_eq!(version(commands, "wasm-bindgen-cli-support"), page);
    assert_eq!(version(commands, "bindgen"), page);
}
