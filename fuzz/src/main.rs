//! The fuzz bodies of `reference_tests::fuzz` under libFuzzer, the one that
//! `SCRUBLINE_FUZZ` names; `cargo xtask fuzz` builds and starts it.
//!
//! Whenever an input uses up a tenth more than any before, it prints how much.
#![no_main]

use std::cell::Cell;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

use libfuzzer_sys::Corpus;
use reference_tests::fuzz::{TARGETS, Target};

static TARGET: LazyLock<&Target> = LazyLock::new(|| {
    let name = std::env::var("SCRUBLINE_FUZZ").unwrap_or_default();
    Target::named(&name).unwrap_or_else(|| panic!("SCRUBLINE_FUZZ names no target: `{name}`"))
});

/// The most that one input used up.
#[derive(Clone, Copy, Default)]
struct Most {
    poses: u64,
    heap: u64,
    took: Duration,
}

thread_local! {
    static MOST: Cell<Most> = const { Cell::new(Most { poses: 0, heap: 0, took: Duration::ZERO }) };
}

/// Where the variable is `list`, prints every target with its longest input, and that is all.
fn list() {
    if std::env::var_os("SCRUBLINE_FUZZ").is_some_and(|asked| asked == "list") {
        for target in TARGETS {
            println!("{} {}", target.name, target.longest);
        }
        std::process::exit(0);
    }
}

libfuzzer_sys::fuzz_target!(init: list(), |input: &[u8]| -> Corpus {
    if input.len() > TARGET.longest {
        return Corpus::Reject;
    }
    let before = linkage::count::poses();
    let start = Instant::now();
    let used = allocation_counter::measure(|| (TARGET.body)(input));
    let (took, poses) = (start.elapsed(), linkage::count::poses() - before);
    TARGET.hold(input.len(), poses, used.bytes_max);
    let most = MOST.get();
    let now = Most {
        poses: most.poses.max(poses),
        heap: most.heap.max(used.bytes_max),
        took: most.took.max(took),
    };
    let grown = |now: u64, was: u64| now > was + was / 10;
    if grown(now.poses, most.poses) || grown(now.heap, most.heap) || now.took > most.took * 11 / 10 {
        eprintln!("most: {} poses, {} bytes of heap, {:?}", now.poses, now.heap, now.took);
        MOST.set(now);
    }
    Corpus::Keep
});
