//! Where things are in the checkout, and the versions its own files pin.

use std::env;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

/// The checkout that `cargo xtask` was started in.
#[derive(Debug)]
pub(crate) struct Project {
    root: PathBuf,
}

impl Project {
    /// The checkout that this program was built from.
    pub(crate) fn here() -> Result<Self> {
        // Cargo sets it for `cargo run`; the value at build time serves a program started by hand.
        let package = env::var_os("CARGO_MANIFEST_DIR")
            .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
        let root = package.ancestors().nth(2).context("crates/xtask is two folders below the top level")?;
        Ok(Self { root: root.to_owned() })
    }

    /// A file or folder by its name from the top level, with `/` between folders.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        name.split('/').fold(self.root.clone(), |path, part| path.join(part))
    }

    /// Where pinned tools are installed.
    pub(crate) fn tools(&self) -> PathBuf {
        self.path("target/tools")
    }

    /// A program to be run at the top level, which finds the pinned tools first.
    pub(crate) fn command(&self, program: impl AsRef<std::ffi::OsStr>) -> Command {
        let mut command = Command::new(program);
        command
            .current_dir(&self.root)
            .env("PATH", self.search_path())
            // Trunk 0.21 takes no value but `true` and `false` for it, and stops at the usual `1`.
            .env_remove("NO_COLOR");
        command
    }

    /// Cargo, at the top level.
    pub(crate) fn cargo(&self) -> Command {
        self.command(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
    }

    /// Finds a program among the pinned tools, then on PATH.
    pub(crate) fn find(&self, name: &str) -> Option<PathBuf> {
        which::which_in(name, Some(self.search_path()), &self.root).ok()
    }

    /// The version of wasm-bindgen in `Cargo.lock`: its commands must be of the same.
    pub(crate) fn bindgen_version(&self) -> Result<String> {
        let lock = self.text("Cargo.lock")?;
        locked_version(&lock, "wasm-bindgen")
            .map(str::to_owned)
            .context("Cargo.lock names no version of wasm-bindgen")
    }

    /// The version of Trunk in `Trunk.toml`.
    pub(crate) fn trunk_version(&self) -> Result<String> {
        let settings = self.text("Trunk.toml")?;
        exact_trunk_version(&settings)
            .map(str::to_owned)
            .context("Trunk.toml has no line of the form trunk-version = \"=1.2.3\"")
    }

    /// The text of a file of the checkout.
    pub(crate) fn text(&self, name: &str) -> Result<String> {
        let path = self.path(name);
        fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))
    }

    /// A program that this build of the workspace made, beside this one.
    pub(crate) fn built(&self, name: &str) -> Result<PathBuf> {
        let me = env::current_exe().context("cannot tell where this program lies")?;
        let folder = me.parent().map_or_else(|| self.root.clone(), Path::to_owned);
        Ok(folder.join(format!("{name}{}", env::consts::EXE_SUFFIX)))
    }

    /// Where Cargo puts what it builds.
    pub(crate) fn target(&self) -> Result<PathBuf> {
        let me = env::current_exe().context("cannot tell where this program lies")?;
        // This program lies in a folder for its profile.
        Ok(me.ancestors().nth(2).map_or_else(|| self.path("target"), Path::to_owned))
    }

    fn search_path(&self) -> OsString {
        let before = env::var_os("PATH").unwrap_or_default();
        let folders = [self.tools().join("bin")].into_iter().chain(env::split_paths(&before));
        // A checkout under a folder whose name holds the separator cannot be put on PATH.
        env::join_paths(folders).unwrap_or(before)
    }
}

fn locked_version<'a>(lock: &'a str, package: &str) -> Option<&'a str> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name);
    lines.next()?;
    quoted(lines.next()?.strip_prefix("version = ")?)
}

fn exact_trunk_version(settings: &str) -> Option<&str> {
    let line = settings.lines().find_map(|line| line.strip_prefix("trunk-version = "))?;
    quoted(line)?.strip_prefix('=')
}

/// The text between the first two double quotes.
fn quoted(text: &str) -> Option<&str> {
    text.split('"').nth(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_read_from_the_files_that_pin_them() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"9.9.9\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.7\"\nsource = \"x\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen"), Some("0.2.7"));
        assert_eq!(locked_version(lock, "wasm"), None);
        assert_eq!(exact_trunk_version("# a\ntrunk-version = \"=0.3.1\"\n[build]\n"), Some("0.3.1"));
        assert_eq!(exact_trunk_version("trunk-version = \"^0.3.1\""), None);
    }

    #[test]
    fn this_checkout_pins_both() {
        let project = Project::here().unwrap();
        for version in [project.bindgen_version().unwrap(), project.trunk_version().unwrap()] {
            assert_eq!(version.split('.').count(), 3, "{version}");
        }
    }
}
