//! The page's code with a standard library made for size.
//!
//! The library that comes with Rust carries the words of every panic and the
//! code that formats them: a seventh of the page's download, read by nobody.
//! Building it anew leaves them out. A panic then stops the page's code without
//! a word of its own; debug builds keep theirs.
//!
//! It takes Rust's source (`rust-src`) and two switches that stable Rust has
//! only behind `RUSTC_BOOTSTRAP`. Where the source cannot be had, the page is
//! built with the library that is there.

use std::env;
use std::path::PathBuf;

use anyhow::Result;

use crate::compile::{CARGO, LINKED};
use crate::project::Project;
use crate::run::{answer, run};
use crate::tools::WASM;

/// Compiles the page's code for size; `None` where Rust's source is missing, which is said.
pub(crate) fn compile(project: &Project) -> Result<Option<PathBuf>> {
    if !has_source(project) {
        println!(
            "Rust's source is missing (rustup component add rust-src): the page is a sixth larger to download."
        );
        return Ok(None);
    }
    let target = project.path("target/small-std");
    run(project
        .cargo()
        .args(CARGO)
        .args(["-Zbuild-std=std,panic_abort", "-Zbuild-std-features=optimize_for_size", "--", LINKED])
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", "-Zunstable-options -Cpanic=immediate-abort -Zlocation-detail=none")
        .env("CARGO_TARGET_DIR", &target))?;
    Ok(Some(target.join(WASM).join("release/web.wasm")))
}

/// Whether the source of the standard library is there, or comes when asked for.
pub(crate) fn has_source(project: &Project) -> bool {
    let there = || source(project).is_some_and(|lock| lock.is_file());
    there() || {
        let added = run(project.command("rustup").args(["component", "add", "rust-src"]));
        added.is_ok() && there()
    }
}

fn source(project: &Project) -> Option<PathBuf> {
    let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let root = answer(project.command(rustc).args(["--print", "sysroot"]))?;
    Some(PathBuf::from(root.trim()).join("lib/rustlib/src/rust/library/Cargo.lock"))
}
