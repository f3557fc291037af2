//! A copy of the checkout in which something may be changed.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// What is made here and not kept, wherever it lies.
const LEFT_OUT: [&str; 5] = [".git", "target", "dist", "node_modules", "__pycache__"];

/// Makes `to` the same as `from`, but for what is made here. A file that is alike already is left
/// alone, with its time, so that what was built of it stands.
pub(crate) fn mirror(from: &Path, to: &Path) -> Result<()> {
    copied(from, to).with_context(|| format!("cannot copy {} to {}", from.display(), to.display()))
}

fn copied(from: &Path, to: &Path) -> std::io::Result<()> {
    fs::create_dir_all(to)?;
    let mut there = BTreeSet::new();
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let name = entry.file_name();
        if LEFT_OUT.iter().any(|out| name == *out) {
            continue;
        }
        let (source, copy) = (entry.path(), to.join(&name));
        there.insert(name);
        if source.is_dir() {
            copied(&source, &copy)?;
            continue;
        }
        let bytes = fs::read(&source)?;
        if fs::read(&copy).ok().as_ref() != Some(&bytes) {
            fs::write(&copy, bytes)?;
        }
    }
    for entry in fs::read_dir(to)? {
        let entry = entry?;
        let name = entry.file_name();
        if there.contains(&name) || LEFT_OUT.iter().any(|out| name == *out) {
            continue;
        }
        if entry.path().is_dir() {
            fs::remove_dir_all(entry.path())?;
        } else {
            fs::remove_file(entry.path())?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_follows_and_keeps_what_was_built_of_it() {
        let folder = std::env::temp_dir().join(format!("scrubline-mirror-{}", std::process::id()));
        let (from, to) = (folder.join("from"), folder.join("to"));
        let write = |path: &str, text: &str| {
            let path = folder.join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        };
        let read = |path: &str| fs::read_to_string(folder.join(path)).ok();
        write("from/src/a.rs", "one");
        write("from/src/b.rs", "two");
        write("from/target/c", "made");
        mirror(&from, &to).unwrap();
        assert_eq!((read("to/src/a.rs").as_deref(), read("to/target/c")), (Some("one"), None));
        let time = || fs::metadata(to.join("src/a.rs")).unwrap().modified().unwrap();
        let before = time();
        // A mutant left in the copy, a file that went, and what was built there.
        write("to/src/b.rs", "too");
        write("to/src/old/d.rs", "gone");
        write("to/target/e", "built");
        mirror(&from, &to).unwrap();
        assert_eq!(read("to/src/b.rs").as_deref(), Some("two"));
        assert_eq!((read("to/src/old/d.rs"), read("to/target/e").as_deref()), (None, Some("built")));
        assert_eq!(time(), before);
        fs::remove_dir_all(folder).unwrap();
    }
}
