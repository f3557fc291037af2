//! Spelling, in every text that people read or write: `.typos.toml` says what is none.

use std::ffi::OsStr;
use std::path::Path;

use anyhow::{Result, ensure};

use crate::project::Project;
use crate::python;
use crate::reference::REQUIREMENTS;
use crate::run::{answer, run};

/// Looks up every word of the project. Without a Python it says so and passes, except on a server, where it
/// must run.
pub(crate) fn check(project: &Project) -> Result<String> {
    let python = match python::or_without(project, REQUIREMENTS)? {
        Ok(python) => python,
        Err(why) => return Ok(format!("NOT LOOKED AT: {why}")),
    };
    // What is built and kept beside the project is nobody's writing.
    let listed = answer(project.command("git").args(["ls-files"]));
    let own: Vec<String> = match listed {
        Some(files) => files.lines().map(str::to_owned).collect(),
        None => vec![".".to_owned()],
    };
    ensure!(!own.is_empty(), "there is no file to look at");
    let program = python.parent().unwrap_or(Path::new("")).join("typos");
    run(project
        .command(&program)
        .args(["--force-exclude", "--format", "brief"])
        .args(own.iter().map(OsStr::new)))?;
    Ok(format!("nothing to mend in {} files", own.len()))
}
