//! Links of every version: each opens and means what it meant.
//!
//! `tests/links/<version>/` holds a link and, beside it, the file of the design
//! that it means. Neither is ever changed; new ones are added, above all with
//! each new field or change. A link that fails here has been shared by someone.

use crate::files::parse;
use serde_json::Value;
use sharing::{find_code, from_tree, to_code};
use std::fs;
use std::path::{Path, PathBuf};

/// Fewer would mean that links were lost.
const AT_LEAST: usize = 24;
/// Numbers of a truck that had to be stated when version 1 was made.
const NUMBERS_OF_V1: usize = 70;

fn links() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/links");
    let versions = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let files = versions.flat_map(|version| fs::read_dir(version).unwrap());
    let mut links: Vec<_> = files.map(|entry| entry.unwrap().path()).collect();
    links.retain(|path| path.extension().is_some_and(|extension| extension == "link"));
    links.sort();
    links
}

#[test]
fn every_link_opens_and_means_what_it_meant() {
    let links = links();
    assert!(links.len() >= AT_LEAST, "{} links", links.len());
    for path in links {
        let link = fs::read_to_string(&path).unwrap();
        let found = find_code(&link).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let text = fs::read_to_string(path.with_extension("json")).unwrap();
        let meant = from_tree(&parse(&text)).unwrap();
        assert_eq!(found, meant, "{}", path.display());
    }
}

/// Version 1 is what is written now: its links are shared again letter for letter.
#[test]
fn a_link_of_this_version_is_shared_again_as_the_same() {
    for path in links().iter().filter(|path| path.parent().is_some_and(|folder| folder.ends_with("v1"))) {
        let link = fs::read_to_string(path).unwrap();
        let (_, code) = link.trim_end().split_once("/#").unwrap();
        assert_eq!(to_code(&find_code(&link).unwrap()), code, "{}", path.display());
    }
}

/// What is known of a truck stays in its link where guesses would follow and there are none: by hand a file can
/// say that all is measured.
#[test]
fn a_measured_truck_keeps_its_numbers_where_guesses_would_follow() {
    let follows = links().into_iter().find(|path| path.ends_with("guesses_follow.link")).unwrap();
    let text = fs::read_to_string(follows.with_extension("json")).unwrap();
    let measured = text.replacen("\"rule\": \"assumed\"", "\"rule\": \"measured\"", 1);
    assert_ne!(measured, text);
    let shared = from_tree(&parse(&measured)).unwrap();
    assert_eq!(sharing::from_code(&to_code(&shared)).unwrap().design, shared.design);
}

/// The files are written out in full, so that no default of today explains a link of old.
#[test]
fn every_file_says_every_number() {
    fn numbers(value: &Value) -> usize {
        match value {
            Value::Number(_) => 1,
            Value::Object(members) => members.values().map(numbers).sum(),
            _ => 0,
        }
    }
    for path in links() {
        let file: Value =
            serde_json::from_str(&fs::read_to_string(path.with_extension("json")).unwrap()).unwrap();
        assert!(numbers(&file["truck"]) >= NUMBERS_OF_V1, "{}", path.display());
    }
}
