//! `cargo xtask fuzz`: the fuzz bodies driven by coverage, for as long as wanted.
//!
//! The bodies are those of `tests/src/fuzz/`, under libFuzzer, which is compiled in
//! and needs a C++ compiler. The passes of the compiler that count what an input
//! reaches are there on stable Rust; no sanitizer is, and none is needed where
//! no code is unsafe.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, ensure};

use crate::project::Project;
use crate::run::{Refusal, answer, run};

/// What `cargo xtask fuzz` was asked for.
#[derive(Debug, Default, PartialEq)]
pub(crate) struct Options {
    /// One target; every one where none is named.
    pub(crate) target: Option<String>,
    /// How many inputs each; a minute each where nothing is said.
    pub(crate) inputs: Option<u64>,
}

/// What makes a program say which of its edges an input reached, and what it compared.
const COVERAGE: &str = "-Cpasses=sancov-module \
    -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters \
    -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares";

/// Most seconds that one input may take; far more than any does, on a busy machine too.
const TIMEOUT_S: u32 = 20;
/// Most memory that the process may take, megabytes.
const MEMORY_MB: u32 = 1024;

/// A body, as the built program lists it.
#[derive(Debug, PartialEq)]
struct Target {
    name: String,
    /// Bytes.
    longest: usize,
}

/// Builds the bodies with coverage and drives them.
pub(crate) fn command(project: &Project, options: &Options) -> Result<()> {
    let program = build(project)?;
    let list = answer(project.command(&program).env(ASKED, "list"))
        .context("the fuzz program does not list its targets")?;
    let all: Vec<Target> = list.lines().filter_map(listed).collect();
    let chosen: Vec<&Target> = all
        .iter()
        .filter(|target| options.target.as_ref().is_none_or(|asked| *asked == target.name))
        .collect();
    if chosen.is_empty() {
        let names: Vec<&str> = all.iter().map(|target| target.name.as_str()).collect();
        return Err(Refusal::Usage(format!("`fuzz` has the targets {}", names.join(", "))).into());
    }
    for target in chosen {
        drive(project, &program, target, options.inputs)?;
    }
    Ok(())
}

/// Tells the program which body to run.
const ASKED: &str = "SCRUBLINE_FUZZ";

fn build(project: &Project) -> Result<PathBuf> {
    let host = host(project)?;
    let folder = project.path("target/fuzz");
    println!("Building the fuzz bodies with coverage into target/fuzz: two minutes the first time …");
    run(project
        .cargo()
        .args(["build", "--locked", "--release", "--manifest-path", "fuzz/Cargo.toml"])
        // Named, or the flags would go to build scripts too.
        .args(["--target", &host, "--target-dir"])
        .arg(&folder)
        .env("RUSTFLAGS", COVERAGE))
    .context("libFuzzer is compiled with the bodies and needs a C++ compiler: g++ or clang++")?;
    let name = format!("fuzz{}", std::env::consts::EXE_SUFFIX);
    Ok(folder.join(host).join("release").join(name))
}

/// Whether the bodies still compile under libFuzzer, whose own C++ is left out.
pub(crate) fn check(project: &Project) -> Result<String> {
    run(project
        .cargo()
        .args(["check", "--locked", "--manifest-path", "fuzz/Cargo.toml", "--target-dir"])
        .arg(project.path("target"))
        // A library that is there already, and nothing is linked with.
        .env("CUSTOM_LIBFUZZER_PATH", project.path("target/libfuzzer.a")))?;
    Ok("compile".to_owned())
}

/// The machine that is compiled on, as Rust calls it.
fn host(project: &Project) -> Result<String> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let words = answer(project.command(rustc).arg("-vV")).context("rustc does not say what it is")?;
    let host = words.lines().find_map(|line| line.strip_prefix("host: "));
    Ok(host.context("rustc does not name its host")?.to_owned())
}

fn listed(line: &str) -> Option<Target> {
    let (name, longest) = line.split_once(' ')?;
    Some(Target { name: name.to_owned(), longest: longest.parse().ok()? })
}

fn drive(project: &Project, program: &PathBuf, target: &Target, inputs: Option<u64>) -> Result<()> {
    let name = &target.name;
    println!("\n── {name}");
    let found = project.path("target/fuzz-found");
    let corpus = project.path("target/fuzz-corpus").join(name);
    for folder in [&found, &corpus] {
        fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    }
    let mut fuzz = project.command(program);
    fuzz.env(ASKED, name)
        // What is new is written to the first folder; the others are read.
        .arg(&corpus)
        .args(seeds(project, name))
        .arg(format!("-artifact_prefix={}", found.join(format!("{name}-")).display()))
        .arg(format!("-max_len={}", target.longest))
        .arg(format!("-timeout={TIMEOUT_S}"))
        .arg(format!("-rss_limit_mb={MEMORY_MB}"))
        .args(["-len_control=0", "-print_final_stats=1"])
        .arg(match inputs {
            Some(count) => format!("-runs={count}"),
            None => "-max_total_time=60".to_owned(),
        });
    run(&mut fuzz).with_context(|| {
        format!(
            "{name} broke a promise; the input lies in target/fuzz-found. Once it is mended, \
             the input goes to tests/fuzz/{name} under a name that says what it was"
        )
    })
}

/// What is kept of a target, and released links and files for those that read them.
fn seeds(project: &Project, name: &str) -> Vec<PathBuf> {
    let kept = project.path("tests/fuzz").join(name);
    let links = matches!(name, "link" | "file").then(|| project.path("tests/links/v1"));
    [Some(kept), links].into_iter().flatten().filter(|folder| folder.is_dir()).collect()
}

/// Reads what stands behind `fuzz` on the command line.
pub(crate) fn read(words: &mut lexopt::Parser) -> Result<Options> {
    use lexopt::prelude::*;
    let mut options = Options::default();
    while let Some(word) = words.next()? {
        match word {
            Long("inputs") => {
                let count = words.value()?.parse()?;
                ensure!(count > 0, "--inputs takes a count above zero");
                options.inputs = Some(count);
            }
            Value(name) if options.target.is_none() => options.target = Some(name.string()?),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(options)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_of_targets_is_read() {
        assert_eq!(listed("link 9000"), Some(Target { name: "link".to_owned(), longest: 9000 }));
        assert_eq!(listed("link"), None);
        assert_eq!(listed("link many"), None);
    }

    #[test]
    fn target_and_inputs_come_in_either_order() {
        let options = |line: &str| read(&mut lexopt::Parser::from_args(line.split_whitespace()));
        let both = Options { target: Some("link".to_owned()), inputs: Some(10) };
        assert_eq!(options("link --inputs 10").unwrap(), both);
        assert_eq!(options("--inputs 10 link").unwrap(), both);
        assert_eq!(options("").unwrap(), Options::default());
        for line in ["link file", "--inputs", "--inputs 0", "--inputs few", "--loud"] {
            assert!(options(line).is_err(), "{line}");
        }
    }
}
