//! The page's code, compiled.

use std::path::PathBuf;

use anyhow::Result;

use crate::project::Project;
use crate::run::run;
use crate::tools::WASM;

/// The page's code with the standard library as it comes.
pub(crate) fn compile(project: &Project) -> Result<PathBuf> {
    run(project.cargo().args(CARGO).args(["--", RELOCATIONS]))?;
    Ok(project.path("target").join(WASM).join("release/web.wasm"))
}

/// How Cargo builds the code that is then taken apart.
pub(crate) const CARGO: &[&str] = &[
    "rustc",
    "--locked",
    "--release",
    "--package",
    "web",
    "--bin",
    "web",
    "--features",
    "split",
    "--target",
    WASM,
];

/// Which functions the code names, and where, is known only to the linker, and has to be kept.
pub(crate) const RELOCATIONS: &str = "-Clink-args=--emit-relocs";
