//! How much a first visit downloads, and the most it may be.

use std::fs;
use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use flate2::Compression;
use flate2::write::GzEncoder;

use crate::single;

/// The most that the WebAssembly may be, in bytes after `gzip -9`: no one thing may be let in that
/// costs more than the rooms it serves. The aim for the whole product stays 130 kB.
const WASM_LIMIT: usize = 280_000;
/// The most that all files together may be, in bytes after `gzip -9` each. The aim stays 160 kB.
const ALL_LIMIT: usize = 320_000;

/// Prints the size of every file of the finished page and fails if they are too large; the page as
/// one file is no part of a visit and does not count.
pub(crate) fn check(dist: &Path) -> Result<String> {
    let files = measure(dist)?;
    let mut wasm = 0;
    let mut all = 0;
    println!("{:>9} {:>9}  file (bytes, bytes after gzip -9)", "raw", "gzip");
    for file in &files {
        println!("{:9} {:9}  {}", file.raw, file.zipped, file.name);
        if file.name == single::NAME {
            continue;
        }
        all += file.zipped;
        if Path::new(&file.name).extension().is_some_and(|end| end == "wasm") {
            wasm += file.zipped;
        }
    }
    ensure!(wasm > 0, "there is no WebAssembly in {}", dist.display());
    let words = format!(
        "wasm {} kB of {}, all {} kB of {}",
        kilobytes(wasm),
        kilobytes(WASM_LIMIT),
        kilobytes(all),
        kilobytes(ALL_LIMIT)
    );
    ensure!(wasm <= WASM_LIMIT && all <= ALL_LIMIT, "too large: {words}");
    Ok(words)
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

fn zipped(bytes: &[u8]) -> Result<usize> {
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
    fn kilobytes_are_a_thousand_bytes() {
        assert_eq!(kilobytes(150_000), "150.0");
        assert_eq!(kilobytes(150_001), "150.1");
        assert_eq!(kilobytes(42), "0.1");
    }
}
