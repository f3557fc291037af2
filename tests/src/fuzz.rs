//! What strangers and odd trucks can do to the product, as plain functions over any bytes.
//!
//! Each [`Target`] has one body: bytes in, promises asserted inside. The tests
//! run every body over seeds, kept inputs and random variations of them
//! (`tests/tests/fuzz.rs`); `cargo xtask fuzz` drives the same bodies by coverage.
//!
//! [`bytes`] makes numbers, trucks and corners of bytes, [`text`] holds the
//! readers, [`solver`] everything that is computed from a truck.

pub mod bytes;
pub mod solver;
pub mod text;

/// One body, and what it may use up on any input.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// The name on the command line, and of its folder under `tests/fuzz/`.
    pub name: &'static str,
    /// Panics when a promise does not hold.
    pub body: fn(&[u8]),
    /// Longest input that tells more than a shorter one, bytes.
    pub longest: usize,
    /// Most poses that one input may ask for: the measure of work.
    pub most_poses: u64,
    /// Most heap that one input may hold at a time, bytes, however short it is …
    pub most_heap: u64,
    /// … and for each byte of it.
    pub heap_per_byte: u64,
}

/// Every target.
pub const TARGETS: [Target; 8] = [
    Target {
        name: "link",
        body: text::link,
        longest: 9000,
        most_poses: 0,
        most_heap: 128 * 1024,
        heap_per_byte: 16,
    },
    Target {
        name: "file",
        body: text::file,
        longest: 12_000,
        most_poses: 0,
        most_heap: 256 * 1024,
        heap_per_byte: 256,
    },
    Target {
        name: "numbers",
        body: text::numbers,
        longest: 80,
        most_poses: 0,
        most_heap: 4096,
        heap_per_byte: 16,
    },
    Target {
        name: "corner",
        body: solver::corner,
        longest: 256,
        most_poses: 60_000,
        most_heap: 4096,
        heap_per_byte: 0,
    },
    Target {
        name: "stance",
        body: solver::stance,
        longest: 400,
        most_poses: 500_000,
        most_heap: 256 * 1024,
        heap_per_byte: 0,
    },
    Target {
        name: "room",
        body: solver::room,
        longest: 400,
        most_poses: 400_000,
        most_heap: 256 * 1024,
        heap_per_byte: 0,
    },
    Target {
        name: "setting",
        body: solver::set_up,
        longest: 400,
        most_poses: 1_500_000,
        most_heap: 256 * 1024,
        heap_per_byte: 0,
    },
    Target {
        name: "ways",
        body: solver::ways,
        longest: 400,
        most_poses: 12_000_000,
        most_heap: 256 * 1024,
        heap_per_byte: 0,
    },
];

impl Target {
    /// The target of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        TARGETS.iter().find(|target| target.name == name)
    }

    /// Holds what one input used up against the limits.
    ///
    /// `length`: of the input, bytes. `poses` that it asked for, and the `heap`
    /// that it held at most, bytes.
    ///
    /// # Panics
    /// Where it was more than stated.
    pub fn hold(&self, length: usize, poses: u64, heap: u64) {
        let name = self.name;
        assert!(poses <= self.most_poses, "{name}: {poses} poses, at most {}", self.most_poses);
        let most = self.most_heap + self.heap_per_byte * u64::try_from(length).unwrap_or(u64::MAX / 1024);
        assert!(heap <= most, "{name}: {heap} bytes of heap for {length} of input, at most {most}");
    }
}
