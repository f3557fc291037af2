//! How much a first visit downloads, and the most it may be.

use std::fs;
use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use flate2::Compression;
use flate2::write::GzEncoder;

use crate::notices;
use crate::project::Project;
use crate::single;

/// Where the budget stands.
const BUDGET: &str = "web/budget.toml";

/// How the second module's name begins.
const LATER: &str = "later-";

/// Prints the size of every file of the finished page and fails if they are too large; the page as
/// one file and the notices are no part of a visit and do not count.
pub(crate) fn check(project: &Project, dist: &Path) -> Result<String> {
    let budget = project.text(BUDGET)?;
    let (limit, aim) = (Budget::read(&budget, "limit")?, Budget::read(&budget, "aim")?);
    let files = measure(dist)?;
    let mut reached = Budget { wasm: 0, first_load: 0, whole: 0 };
    println!("{:>9} {:>9}  file (bytes, bytes after gzip -9)", "raw", "gzip");
    for file in &files {
        println!("{:9} {:9}  {}", file.raw, file.zipped, file.name);
        if [single::NAME, notices::NAME].contains(&file.name.as_str()) {
            continue;
        }
        reached.add(file);
    }
    ensure!(reached.wasm > 0, "there is no WebAssembly in {}", dist.display());
    let against = |bytes: usize, limit: usize, aim: usize| {
        format!("{} kB of {}, aim {}", kilobytes(bytes), kilobytes(limit), kilobytes(aim))
    };
    let words = format!(
        "first module {}; first load {}; all that is kept {}",
        against(reached.wasm, limit.wasm, aim.wasm),
        against(reached.first_load, limit.first_load, aim.first_load),
        against(reached.whole, limit.whole, aim.whole)
    );
    let held =
        reached.wasm <= limit.wasm && reached.first_load <= limit.first_load && reached.whole <= limit.whole;
    ensure!(held, "too large: {words}");
    Ok(words)
}

/// A part of the budget, bytes after `gzip -9`. A browser test counts its requests.
#[derive(Debug, PartialEq)]
struct Budget {
    /// The first module.
    wasm: usize,
    /// What is asked for before the page is first used.
    first_load: usize,
    /// That and the second module: what is kept for use without a network.
    whole: usize,
}

impl Budget {
    /// The part under a heading.
    fn read(text: &str, heading: &str) -> Result<Self> {
        let heading = format!("[{heading}]");
        let lines = || text.lines().skip_while(|line| *line != heading).skip(1);
        let number = |key: &str| {
            let part = lines().take_while(|line| !line.starts_with('['));
            let value = part.filter_map(|line| line.split_once(" = ")).find(|(name, _)| *name == key);
            value.and_then(|(_, value)| value.replace('_', "").parse().ok()).with_context(|| {
                format!("{BUDGET} has no line `{key} = …` with a whole number under {heading}")
            })
        };
        Ok(Self { wasm: number("wasm")?, first_load: number("first_load")?, whole: number("whole")? })
    }

    /// Counts a file of the page.
    fn add(&mut self, file: &Size) {
        self.whole += file.zipped;
        if file.name.starts_with(LATER) {
            return;
        }
        self.first_load += file.zipped;
        if Path::new(&file.name).extension().is_some_and(|end| end == "wasm" || end == "packed") {
            self.wasm += file.zipped;
        }
    }
}

#[derive(Debug, PartialEq)]
struct Size {
    name: String,
    raw: usize,
    zipped: usize,
}

/// Every file in `folder` and below, sorted by name.
fn measure(folder: &Path) -> Result<Vec<Size>> {
    let mut sizes = Vec::new();
    let entries = fs::read_dir(folder).with_context(|| format!("cannot list {}", folder.display()))?;
    for entry in entries {
        let path = entry?.path();
        if path.is_dir() {
            sizes.extend(measure(&path)?);
            continue;
        }
        let bytes = fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let name = path.file_name().unwrap_or_default();
        sizes.push(Size {
            name: name.to_string_lossy().into_owned(),
            raw: bytes.len(),
            zipped: zipped(&bytes)?,
        });
    }
    sizes.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(sizes)
}

/// How large it is after `gzip -9`.
pub(crate) fn zipped(bytes: &[u8]) -> Result<usize> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?.len())
}

/// Thousands of bytes, rounded up so that a figure at the limit is not over it.
fn kilobytes(bytes: usize) -> String {
    let tenths = bytes.div_ceil(100);
    format!("{}.{}", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 1952: a header of ten bytes and a trailer of eight; RFC 1951: an empty last block of
    /// fixed codes is ten bits, so two bytes.
    #[test]
    fn an_empty_file_is_twenty_bytes() {
        assert_eq!(zipped(b"").unwrap(), 20);
        assert!(zipped(&[7; 10_000]).unwrap() < 100);
    }

    #[test]
    fn a_part_of_the_budget_ends_at_the_next_heading() {
        let text = "# a\n[limit]\n# b\nwasm = 2_500\nfirst_load = 30\nwhole = 40\n\n[aim]\nwasm = 7\n";
        assert_eq!(Budget::read(text, "limit").unwrap(), Budget { wasm: 2500, first_load: 30, whole: 40 });
        for heading in ["aim", "wish"] {
            assert!(Budget::read(text, heading).is_err(), "{heading}");
        }
    }

    /// The aim is below the limit, or it would be none.
    #[test]
    fn this_checkout_has_a_budget() {
        let text = Project::here().unwrap().text(BUDGET).unwrap();
        let (limit, aim) = (Budget::read(&text, "limit").unwrap(), Budget::read(&text, "aim").unwrap());
        assert!(aim.wasm < limit.wasm && aim.first_load < limit.first_load && aim.whole < limit.whole);
    }

    #[test]
    fn the_second_module_is_no_part_of_the_first_load() {
        let mut budget = Budget { wasm: 0, first_load: 0, whole: 0 };
        for (name, zipped) in [("web_bg-0a.packed", 100), ("later-0b.packed", 20), ("index.html", 3)] {
            budget.add(&Size { name: name.to_owned(), raw: 0, zipped });
        }
        assert_eq!(budget, Budget { wasm: 100, first_load: 103, whole: 123 });
    }

    #[test]
    fn kilobytes_are_a_thousand_bytes() {
        assert_eq!(kilobytes(150_000), "150.0");
        assert_eq!(kilobytes(150_001), "150.1");
        assert_eq!(kilobytes(42), "0.1");
    }
}
