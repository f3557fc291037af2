//! A virtual environment under `target/venv` for the second opinion by SciPy, and for the look at spelling.
//! Nothing is ever installed outside of it.

use std::env;
use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result};

use crate::programs::{PYTHON, install, may_install};
use crate::project::Project;
use crate::run::{Refusal, run};

/// The Python of the virtual environment that holds exactly what `requirements` pins.
///
/// # Errors
/// [`Refusal::Missing`] where there is no Python, or one that cannot make such an environment.
pub(crate) fn environment(project: &Project, requirements: &str) -> Result<PathBuf> {
    let folder = project.path("target/venv");
    let python = if cfg!(windows) {
        folder.join("Scripts").join("python.exe")
    } else {
        folder.join("bin").join("python")
    };
    let wanted = project.text(requirements)?;
    let stamp = folder.join("installed-from.txt");
    if python.is_file() && fs::read_to_string(&stamp).is_ok_and(|there| there == wanted) {
        return Ok(python);
    }
    let make = |base: PathBuf| run(project.command(base).args(["-m", "venv", "--clear"]).arg(&folder));
    if make(PYTHON.need(project)?).is_err() {
        // Debian's own Python leaves the module out.
        if !may_install() {
            return Err(Refusal::Missing {
                what: "Python's module `venv` is missing".to_owned(),
                how: PYTHON.how(),
            }
            .into());
        }
        install(project, &["python3-venv"])?;
        make(PYTHON.need(project)?)?;
    }
    run(project
        .command(&python)
        .args(["-m", "pip", "install", "--disable-pip-version-check", "--requirement"])
        .arg(project.path(requirements)))?;
    fs::write(&stamp, wanted).context("cannot note what the virtual environment holds")?;
    Ok(python)
}

/// The same where a look may be left out: why it is, where there is no Python that can. On a server it must be had.
pub(crate) fn or_without(project: &Project, requirements: &str) -> Result<Result<PathBuf, String>> {
    match environment(project, requirements) {
        Err(error) if must_run() => Err(error),
        there => Ok(there.map_err(|error| format!("{error:#}"))),
    }
}

/// Whether this is a run on a server, where nothing may be left out.
fn must_run() -> bool {
    env::var_os("CI").is_some_and(|value| !value.is_empty() && value != "false")
}
