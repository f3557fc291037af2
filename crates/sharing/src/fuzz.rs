//! Bodies for fuzzing: plain functions over any bytes, driven by property tests
//! and by whatever else makes bytes.

use crate::file::{Tree, from_tree, to_tree};
use crate::kept_text::{from_kept_text, to_kept_text};
use crate::link::{find_code, from_code, to_code};
use crate::v1;

/// Any bytes as a payload, as a code and as text around one: no panic, and what
/// opens is shared again as the same.
///
/// # Panics
/// When a promise of this crate does not hold.
#[doc(hidden)]
pub fn fuzz_link(bytes: &[u8]) {
    if let Ok(shared) = v1::read(bytes) {
        let code = to_code(&shared);
        assert_eq!(from_code(&code).as_ref(), Ok(&shared));
        assert_eq!(find_code(&code).as_ref(), Ok(&shared));
        assert_eq!(from_tree(&to_tree(&shared)).as_ref(), Ok(&shared));
    }
    let text = String::from_utf8_lossy(bytes);
    for found in [from_code(&text), find_code(&text)].into_iter().flatten() {
        assert_eq!(from_code(&to_code(&found)).as_ref(), Ok(&found));
    }
    // Behind a code of ours any text: what is read of the work is kept as the same.
    let found = from_kept_text(&["147bV\n", &text].concat()).expect("its code is one");
    assert_eq!(from_kept_text(&to_kept_text(&found)).as_ref(), Ok(&found));
}

/// Any bytes as a tree of words that a file has and of some that it has not: no
/// panic, and what is read is written as the same.
///
/// # Panics
/// When a promise of this crate does not hold.
#[doc(hidden)]
pub fn fuzz_file(bytes: &[u8]) {
    let mut rest = bytes;
    let tree = grown(&mut rest, 0);
    if let Ok(shared) = from_tree(&tree) {
        assert_eq!(from_tree(&to_tree(&shared)).as_ref(), Ok(&shared));
        assert_eq!(from_kept_text(&to_kept_text(&shared)).as_ref(), Ok(&shared));
    }
    let _ = crate::file::print_json(&tree);
}

/// Keys and words of a file, so that random trees get past its first key.
const WORDS: [&str; 42] = [
    "scrubline",
    "title",
    "note",
    "truck",
    "proposals",
    "opening",
    "points",
    "lower_ball",
    "right",
    "x",
    "y",
    "z",
    "spring",
    "kind",
    "arm",
    "coil",
    "upper",
    "sources",
    "rule",
    "other",
    "assumed",
    "typed",
    "tire",
    "tire_diameter",
    "id",
    "name",
    "changes",
    "change",
    "place",
    "moved_pivot",
    "lower_arm",
    "up",
    "elsewhere",
    "readings",
    "built",
    "left",
    "tire_to_fender",
    "caster_ground",
    "value",
    "tolerance",
    "tool",
    "swept",
];

fn grown(bytes: &mut &[u8], depth: usize) -> Tree {
    let mut take = || {
        let (first, rest) = bytes.split_first()?;
        *bytes = rest;
        Some(*first)
    };
    let (Some(sort), Some(value)) = (take(), take()) else {
        return Tree::Null;
    };
    let word = || WORDS[usize::from(value) % WORDS.len()].to_owned();
    match sort % 8 {
        0..=2 if depth < 20 => {
            let mut members = vec![];
            if depth == 0 {
                members.push((WORDS[0].to_owned(), Tree::Number(1.0)));
            }
            for _ in 0..value % 8 {
                let key = take_word(bytes);
                members.push((key, grown(bytes, depth + 1)));
            }
            Tree::Object(members)
        }
        3 if depth < 20 => Tree::List((0..value % 8).map(|_| grown(bytes, depth + 1)).collect()),
        4 => Tree::Number(f64::from(value) * 7.31 - 200.0),
        5 => Tree::Number(f64::from_bits(u64::from(value) << 52 | 0x3ff)),
        6 => Tree::Text(word()),
        _ => {
            if value % 2 == 0 {
                Tree::Null
            } else {
                Tree::Bool(true)
            }
        }
    }
}

fn take_word(bytes: &mut &[u8]) -> String {
    let Some((first, rest)) = bytes.split_first() else {
        return String::new();
    };
    *bytes = rest;
    WORDS[usize::from(*first) % WORDS.len()].to_owned()
}
