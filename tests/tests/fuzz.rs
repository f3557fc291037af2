//! Every fuzz body over what is kept of it and over random variations of that,
//! the same ones in every run; `cargo xtask fuzz` looks for new ones.

#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

use reference_tests::fuzz::{TARGETS, Target};
use reference_tests::generate::Dice;
use std::fs;
use std::path::{Path, PathBuf};

/// Runs one input and holds it against the limits.
fn tried(target: &Target, input: &[u8]) {
    let before = linkage::count::poses();
    let used = allocation_counter::measure(|| (target.body)(input));
    let poses = linkage::count::poses() - before;
    target.hold(input.len(), poses, used.bytes_max);
}

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// Inputs that are kept: found by coverage or once at fault, and released links and files.
fn kept(target: &Target) -> Vec<Vec<u8>> {
    let mut paths: Vec<PathBuf> = Vec::new();
    let mut list = |folder: PathBuf, end: Option<&str>| {
        for entry in fs::read_dir(&folder).into_iter().flatten() {
            let path = entry.unwrap().path();
            if end.is_none_or(|end| path.extension().is_some_and(|found| found == end)) {
                paths.push(path);
            }
        }
    };
    list(folder("fuzz").join(target.name), None);
    match target.name {
        "link" => list(folder("links/v1"), Some("link")),
        "file" => list(folder("links/v1"), Some("json")),
        _ => {}
    }
    paths.sort();
    paths.iter().map(|path| fs::read(path).unwrap()).collect()
}

/// An input like another: a few bytes changed, put in, taken out or repeated.
fn varied(dice: &mut Dice, input: &[u8], longest: usize) -> Vec<u8> {
    let mut input = input.to_vec();
    for _ in 0..=whole(dice, 6) {
        let at = whole(dice, input.len() + 1);
        let byte = u8::try_from(whole(dice, 256)).unwrap();
        match whole(dice, 5) {
            0 if at < input.len() => input[at] = byte,
            1 if at < input.len() => input[at] ^= 1 << (byte % 8),
            2 if at < input.len() => {
                input.remove(at);
            }
            3 => {
                let piece = input[at..(at + whole(dice, 12)).min(input.len())].to_vec();
                let to = whole(dice, input.len() + 1);
                input.splice(to..to, piece);
            }
            _ => input.insert(at, byte),
        }
    }
    input.truncate(longest);
    input
}

fn noise(dice: &mut Dice, longest: usize) -> Vec<u8> {
    // Short ones as often as long ones.
    let most = 4 + whole(dice, longest);
    let length = whole(dice, longest.min(most) + 1);
    (0..length).map(|_| u8::try_from(whole(dice, 256)).unwrap()).collect()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within 0..below")]
#[expect(clippy::cast_precision_loss, reason = "small numbers")]
fn whole(dice: &mut Dice, below: usize) -> usize {
    dice.between(0.0, below as f64) as usize
}

/// All of one target: kept inputs as they are, then `count` others.
fn smoke(name: &str, count: usize) {
    let target = Target::named(name).unwrap();
    let kept = kept(target);
    let mut dice = Dice::of(0x5eed);
    tried(target, &[]);
    for input in &kept {
        tried(target, input);
    }
    for _ in 0..count {
        let input = if kept.is_empty() || dice.roll() < 0.3 {
            noise(&mut dice, target.longest)
        } else {
            let from = whole(&mut dice, kept.len());
            varied(&mut dice, &kept[from], target.longest)
        };
        tried(target, &input);
    }
}

#[test]
fn links_of_any_bytes() {
    smoke("link", 1500);
}

#[test]
fn files_of_any_bytes() {
    smoke("file", 1500);
}

#[test]
fn numbers_of_any_text() {
    smoke("numbers", 20_000);
}

#[test]
fn corners_of_any_points() {
    smoke("corner", 4000);
}

#[test]
fn stances_of_any_truck() {
    smoke("stance", 500);
}

#[test]
fn rooms_of_any_truck() {
    smoke("room", 60);
}

#[test]
fn settings_of_any_truck() {
    smoke("setting", 100);
}

#[test]
fn ways_of_any_truck() {
    smoke("ways", 30);
}

/// A folder of a target that is gone would never be looked at.
#[test]
fn every_target_keeps_inputs_and_every_folder_is_of_a_target() {
    let mut folders: Vec<_> = fs::read_dir(folder("fuzz"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    folders.sort();
    let mut names: Vec<_> = TARGETS.iter().map(|target| target.name).collect();
    names.sort_unstable();
    assert_eq!(folders, names);
    assert!(TARGETS.iter().all(|target| !kept(target).is_empty()));
}
