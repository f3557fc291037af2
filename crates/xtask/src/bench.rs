//! `cargo xtask bench`: the same loops natively and in Chromium, general solvers beside them, and the page.
//!
//! All is built first and timed afterwards, one after the other, so that the figures of one run
//! belong together. What is timed natively and in Chromium is built with the same settings, those
//! of the release page; the WebAssembly goes through the same optimiser as the page's.

use std::fs;
use std::process::Command;

use anyhow::{Context, Result};

use crate::browser::{ensure_is_there, prepared};
use crate::post_build;
use crate::project::Project;
use crate::python;
use crate::reference::REQUIREMENTS;
use crate::run::{run, run_heard};
use crate::serve::Site;
use crate::size;
use crate::tools::{self, WASM};

const SCRIPT: &str = "tests/bench/bench.mjs";
const LIGHTHOUSE: &str = "tests/bench/lighthouse.mjs";
const SCIPY: &str = "tests/reference/scipy/bench.py";
/// The loops in a page of their own are put together here.
const FOLDER: &str = "target/bench";

const LOOPS_PAGE: &str = "<!doctype html>\n<meta charset=\"utf-8\">\n<title>Loops</title>\n\
    <script type=\"module\" src=\"./start.js\"></script>\n";
const LOOPS_START: &str = "import init from \"./bench.js\";\nawait init({ module_or_path: new URL(\"./bench_bg.wasm\", import.meta.url) });\n";

/// How long the page is dragged while its memory is watched, in minutes, unless said otherwise.
pub(crate) const MINUTES: u32 = 1;

/// Times everything and prints it side by side; the page is dragged for so many minutes.
pub(crate) fn command(project: &Project, minutes: u32) -> Result<()> {
    ensure_is_there(project, SCRIPT)?;
    let (stage, node) = prepared(project)?;
    let loops = loops_page(project)?;
    let mut native = loops_command(project, "run");
    run(&mut loops_command(project, "build"))?;
    let scipy = match python::environment(project, REQUIREMENTS) {
        Ok(python) => Some(python),
        Err(error) => {
            println!("SciPy is left out: {error:#}");
            None
        }
    };

    let tools = tools::bench_tools(project).map_err(|error| {
        println!("The planar solver is left out: {error:#}");
    });

    println!("\n── native");
    let native = heard(&mut native)?;
    println!("\n── SciPy");
    let scipy = match scipy {
        Some(python) => heard(project.command(python).arg(project.path(SCIPY)))?,
        None => String::new(),
    };
    println!("\n── size of the page");
    match size::check(project, &stage.dist) {
        Ok(words) => println!("{words}"),
        Err(error) => println!("{error:#}"),
    }
    println!("\n── Chromium");
    run(stage
        .script(project, node)
        .env("SCRUBLINE_LOOPS", &loops.url)
        .env("SCRUBLINE_NATIVE", native)
        .env("SCRUBLINE_SCIPY", scipy)
        .env("SCRUBLINE_BENCH_TOOLS", tools.unwrap_or_default())
        .env("SCRUBLINE_MINUTES", minutes.to_string())
        .arg(SCRIPT))
}

/// Runs Lighthouse on the release page and prints what it finds.
pub(crate) fn lighthouse(project: &Project) -> Result<()> {
    ensure_is_there(project, LIGHTHOUSE)?;
    let (stage, node) = prepared(project)?;
    let tools = tools::bench_tools(project)?;
    run(stage.script(project, node).env("SCRUBLINE_BENCH_TOOLS", tools).arg(LIGHTHOUSE))
}

/// Cargo for the program that holds the loops, with the release page's settings.
fn loops_command(project: &Project, action: &str) -> Command {
    let mut cargo = project.cargo();
    cargo.args([action, "--locked", "--release", "--package", "reference-tests", "--bin", "bench"]);
    cargo
}

/// Builds the loops as WebAssembly and serves them as a page that starts them.
fn loops_page(project: &Project) -> Result<Site> {
    run(loops_command(project, "build").args(["--target", WASM]))?;
    let built = project.target()?.join(WASM).join("release").join("bench.wasm");
    let folder = project.path(FOLDER);
    fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    run(project
        .command("wasm-bindgen")
        .args(["--target", "web", "--no-typescript", "--out-name", "bench", "--out-dir"])
        .arg(&folder)
        .arg(built))?;
    post_build::optimise(&folder.join("bench_bg.wasm"), tools::wasm_opt(project)?)?;
    for (name, text) in [("index.html", LOOPS_PAGE), ("start.js", LOOPS_START)] {
        fs::write(folder.join(name), text).with_context(|| format!("cannot write {name}"))?;
    }
    Site::start(folder, "/", 0)
}

/// Runs a program; gives what it prints.
fn heard(command: &mut Command) -> Result<String> {
    let mut text = String::new();
    run_heard(command, |line| {
        text.push_str(line);
        text.push('\n');
    })?;
    Ok(text)
}
