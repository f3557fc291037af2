//! The page's code, compiled.

use std::path::PathBuf;

use anyhow::Result;

use crate::project::Project;
use crate::run::run;
use crate::tools::WASM;

/// The page's code with the standard library as it comes.
pub(crate) fn compile(project: &Project) -> Result<PathBuf> {
    run(project.cargo().args(CARGO).args(["--", LINKED]))?;
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

/// Which functions the code names, and where, is known only to the linker, and has to be kept. The stack comes
/// first in memory, and one of 896 kB rather than the usual 1024 leaves what is never written below 1 MiB: every
/// mention of it is a byte shorter, six tenths of a kilobyte of the download.
pub(crate) const LINKED: &str = "-Clink-args=--emit-relocs -zstack-size=917504";
