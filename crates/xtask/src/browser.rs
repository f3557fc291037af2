//! What drives a real browser against the release page: tests and pictures; [`crate::bench`] adds timings.
//!
//! The scripts under `tests/browser/` are told by environment:
//! `SCRUBLINE_URL`, the page, under a path of its own so that every run proves it works under one;
//! `SCRUBLINE_CHROMIUM` and `SCRUBLINE_CHROMIUM_ARGS`, the browser and the switches it needs here,
//! with spaces between them; `SCRUBLINE_BIN`, the `scrubline` command; and the tests alone are told
//! `SCRUBLINE_FIREFOX`, the other browser.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};

use crate::build::Made;
use crate::dist;
use crate::programs::{CHROMIUM, FIREFOX, NODE, chromium_switches};
use crate::project::Project;
use crate::run::{run, run_heard};
use crate::serve::Site;
use crate::tools;

const FOLDER: &str = "tests/browser";
const SHOTS: &str = "tests/browser/shots.mjs";

/// The most that a file of browser tests may take, in milliseconds: a machine may be busy.
const TEST_TIMEOUT_MS: &str = "900000";

/// Makes the pictures of `web/shots/` anew.
pub(crate) fn shots(project: &Project) -> Result<()> {
    ensure_is_there(project, SHOTS)?;
    let (stage, node) = prepared(project)?;
    run(stage.script(project, node).arg(SHOTS))
}

/// Runs every `*.test.mjs` against the page in `dist/`; gives how many tests passed.
pub(crate) fn tests(project: &Project, dist: PathBuf) -> Result<usize> {
    let files = test_files(&project.path(FOLDER))?;
    let stage = Stage::set(project, dist)?;
    let mut node = stage.script(project, NODE.need(project)?);
    node.env("SCRUBLINE_FIREFOX", FIREFOX.need(project)?);
    node.args(["--test", "--test-reporter=spec", "--test-concurrency=1"])
        .arg(format!("--test-timeout={TEST_TIMEOUT_MS}"))
        .args(&files);
    let mut passed = 0;
    run_heard(&mut node, |line| {
        passed += passed_in(line).unwrap_or(0);
    })?;
    Ok(passed)
}

/// Everything a script finds when it starts.
pub(crate) struct Stage {
    /// The page's files.
    pub(crate) dist: PathBuf,
    site: Site,
    chromium: PathBuf,
    scrubline: PathBuf,
}

impl Stage {
    fn set(project: &Project, dist: PathBuf) -> Result<Self> {
        let chromium = CHROMIUM.need(project)?;
        // The whole workspace is named so that libraries have the features they have in the tests.
        run(project.cargo().args(["build", "--locked", "--workspace", "--bin", "scrubline"]))?;
        let scrubline = project.built("scrubline")?;
        ensure!(scrubline.is_file(), "cargo built no {}", scrubline.display());
        let site = Site::start(dist.clone(), "/under/some/path/", 0)?;
        Ok(Self { dist, site, chromium, scrubline })
    }

    /// Node with what a script is told; the script's name is still to be added.
    pub(crate) fn script(&self, project: &Project, node: PathBuf) -> Command {
        let mut command = project.command(node);
        command
            .env("SCRUBLINE_URL", &self.site.url)
            .env("SCRUBLINE_CHROMIUM", &self.chromium)
            .env("SCRUBLINE_CHROMIUM_ARGS", chromium_switches().join(" "))
            .env("SCRUBLINE_BIN", &self.scrubline);
        command
    }
}

/// Builds the page and all that a script beside the tests needs.
pub(crate) fn prepared(project: &Project) -> Result<(Stage, PathBuf)> {
    tools::for_page(project)?;
    tools::node_modules(project)?;
    let node = NODE.need(project)?;
    let dist = dist::build(project, None, Made::Small)?;
    Ok((Stage::set(project, dist)?, node))
}

pub(crate) fn ensure_is_there(project: &Project, name: &str) -> Result<()> {
    ensure!(project.path(name).is_file(), "there is no {name}");
    Ok(())
}

fn test_files(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).with_context(|| format!("cannot list {}", folder.display()))? {
        let path = entry?.path();
        if path.to_string_lossy().ends_with(".test.mjs") {
            files.push(path);
        }
    }
    files.sort();
    if files.is_empty() {
        bail!("{} holds no file called *.test.mjs", folder.display());
    }
    Ok(files)
}

/// The number in a closing line of Node's test runner.
fn passed_in(line: &str) -> Option<usize> {
    line.strip_prefix("ℹ pass ")?.trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_closing_line_is_read() {
        assert_eq!(passed_in("ℹ pass 12"), Some(12));
        assert_eq!(passed_in("ℹ fail 12"), None);
        assert_eq!(passed_in("✔ pass 12"), None);
    }
}
