//! The pinned tools: Trunk and wasm-bindgen's commands under `target/tools`, where something asks for them, and
//! those of Node in `node_modules`.

use std::env;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::time::Instant;

use anyhow::{Context, Error, Result, bail};

use crate::programs::NODE;
use crate::project::Project;
use crate::run::{Refusal, answer, run};

/// What the page and its tests are compiled to.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";

/// A command that is compiled from its published source at one version.
#[derive(Debug)]
struct Tool {
    package: &'static str,
    locked: Locked,
    programs: &'static [&'static str],
    /// What its programs are given to say their version.
    asked: &'static [&'static str],
    features: &'static [&'static str],
}

/// Whose lock file names what a tool is made of.
#[derive(Clone, Copy, Debug)]
enum Locked {
    /// The one that was published with it.
    Published,
    /// Ours, in this folder: a package whose programs are the tool's own by its library. A registry that does
    /// not serve the newest of what the published file names still serves what was tried here.
    Here(&'static str),
}

const TRUNK: Tool = Tool {
    package: "trunk",
    locked: Locked::Published,
    programs: &["trunk"],
    asked: &["--version"],
    // What is left out is its own downloads and its look for a newer version.
    features: &["--no-default-features"],
};

const BINDGEN: Tool = Tool {
    package: "wasm-bindgen-cli",
    locked: Locked::Here("crates/xtask/bindgen"),
    programs: &["wasm-bindgen", "wasm-bindgen-test-runner"],
    asked: &["--version"],
    features: &[],
};

/// Holds dependencies to `deny.toml`; its version is named here alone.
const DENY: Tool = Tool {
    package: "cargo-deny",
    locked: Locked::Published,
    programs: &["cargo-deny"],
    asked: &["--version"],
    features: &[],
};
const DENY_VERSION: &str = "0.20.2";

/// Puts faults into the code; its version is named here alone.
const MUTANTS: Tool = Tool {
    package: "cargo-mutants",
    locked: Locked::Published,
    programs: &["cargo-mutants"],
    // As Cargo calls it; without its own name it says nothing.
    asked: &["mutants", "--version"],
    features: &[],
};
const MUTANTS_VERSION: &str = "27.1.0";

/// What building the page takes; Node is used where it is and done without where it is not.
pub(crate) fn for_page(project: &Project) -> Result<()> {
    wasm_target(project)?;
    match NODE.find(project)? {
        None => Ok(()),
        Some(_) => node_modules(project).or_else(|error| {
            println!("Node's tools could not be installed, so the page is built without wasm-opt: {error:#}");
            Ok(())
        }),
    }
}

/// Adds the compilation target of the page.
pub(crate) fn wasm_target(project: &Project) -> Result<()> {
    if has_wasm_target(project) {
        return Ok(());
    }
    let refusal = |what: &str| Refusal::Missing {
        what: format!("the compilation target {WASM} is missing{what}"),
        how: format!(
            "rustup target add {WASM}\n    (a Rust that did not come by rustup has it as a package of its own; \
             on Debian: apt-get install libstd-rust-dev-wasm32)"
        ),
    };
    if project.find("rustup").is_none() {
        return Err(refusal(", and there is no rustup to add it with").into());
    }
    run(project.command("rustup").args(["target", "add", WASM]))
        .map_err(|error| refusal(&format!(" and rustup does not add it ({error})")).into())
}

/// Whether Rust can compile for the page.
pub(crate) fn has_wasm_target(project: &Project) -> bool {
    let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    answer(project.command(rustc).args(["--print", "target-libdir", "--target", WASM]))
        .is_some_and(|folder| PathBuf::from(folder).is_dir())
}

/// Installs a component of Rust, such as `clippy`, unless its command is there.
pub(crate) fn component(project: &Project, name: &str) -> Result<()> {
    if answer(project.cargo().args([name_of_command(name), "--version"])).is_some() {
        return Ok(());
    }
    run(project.command("rustup").args(["component", "add", name])).map_err(|error| {
        Refusal::Missing {
            what: format!("Rust's {name} is missing ({error})"),
            how: format!("rustup component add {name}"),
        }
        .into()
    })
}

fn name_of_command(component: &str) -> &str {
    match component {
        "rustfmt" => "fmt",
        other => other,
    }
}

/// Installs Trunk at the version of `Trunk.toml`, and what it calls: for a page that is made anew at every change.
pub(crate) fn trunk(project: &Project) -> Result<()> {
    TRUNK.install(project, &project.trunk_version()?)?;
    BINDGEN.install(project, &project.bindgen_version()?)?;
    remove_build(project)
}

/// Whether Trunk is here with what it calls, at the versions of this checkout.
pub(crate) fn has_trunk(project: &Project) -> bool {
    let there =
        |tool: Tool, version: Result<String>| version.is_ok_and(|version| tool.is_there(project, &version));
    there(TRUNK, project.trunk_version()) && there(BINDGEN, project.bindgen_version())
}

/// Installs the commands of wasm-bindgen at the version of `Cargo.lock`.
pub(crate) fn bindgen(project: &Project) -> Result<()> {
    BINDGEN.install(project, &project.bindgen_version()?)?;
    remove_build(project)
}

/// Installs cargo-deny.
pub(crate) fn deny(project: &Project) -> Result<()> {
    DENY.install(project, DENY_VERSION)?;
    remove_build(project)
}

/// Installs cargo-mutants.
pub(crate) fn mutants(project: &Project) -> Result<()> {
    MUTANTS.install(project, MUTANTS_VERSION)?;
    remove_build(project)
}

/// Removes what was left from building the tools, more than a gigabyte, once all are there.
fn remove_build(project: &Project) -> Result<()> {
    let folder = build_folder(project);
    if folder.exists() {
        fs::remove_dir_all(&folder).with_context(|| format!("cannot remove {}", folder.display()))?;
    }
    Ok(())
}

fn build_folder(project: &Project) -> PathBuf {
    project.tools().join("build")
}

impl Tool {
    fn install(&self, project: &Project, wanted: &str) -> Result<()> {
        if self.is_there(project, wanted) {
            return Ok(());
        }
        println!("Building {} {wanted} into target/tools, once: one to three minutes …", self.package);
        let start = Instant::now();
        run(&mut self.cargo_install(project, wanted)).map_err(|error| self.refused(wanted, &error))?;
        if !self.is_there(project, wanted) {
            bail!("{} {wanted} was installed, yet another version is found first", self.package);
        }
        println!("{} {wanted}: built in {:.0} s", self.package, start.elapsed().as_secs_f64());
        Ok(())
    }

    fn is_there(&self, project: &Project, wanted: &str) -> bool {
        self.programs.iter().all(|program| {
            project
                .find(program)
                .and_then(|path| answer(project.command(path).args(self.asked)))
                .is_some_and(|text| text.split_whitespace().any(|word| word == wanted))
        })
    }

    /// Newer versions of what a tool is made of are versions that nobody here has looked at.
    fn refused(&self, wanted: &str, error: &Error) -> Refusal {
        Refusal::Missing {
            what: format!(
                "{} {wanted} cannot be built from the versions in {} ({error}); \
                 without that file it is not built, since other versions were never tried",
                self.package,
                match self.locked {
                    Locked::Published => "the lock file that came with it".to_owned(),
                    Locked::Here(folder) => format!("{folder}/Cargo.lock"),
                }
            ),
            how: format!(
                "once the registry can be reached and serves them, the same command again;\n    \
                 where it no longer does, pin a version of {} that can be installed",
                self.package
            ),
        }
    }

    fn cargo_install(&self, project: &Project, wanted: &str) -> Command {
        let mut command = project.cargo();
        command.args(["install", "--locked"]);
        match self.locked {
            Locked::Published => command.args([self.package, "--version"]).arg(format!("={wanted}")),
            Locked::Here(folder) => command.arg("--path").arg(project.path(folder)),
        };
        command
            // Unoptimised is three times quicker to build and fast enough; without debug
            // information it is also small. One folder, so that what both need is built once.
            .args(["--debug", "--force", "--root"])
            .arg(project.tools())
            .args(self.features)
            .env("CARGO_PROFILE_DEV_DEBUG", "0")
            .env("CARGO_TARGET_DIR", build_folder(project));
        command
    }
}

/// Installs what `package-lock.json` names, unless that is done already.
pub(crate) fn node_modules(project: &Project) -> Result<()> {
    if has_node_modules(project) {
        return Ok(());
    }
    run(&mut npm_ci(project)?)?;
    fs::copy(project.path("package-lock.json"), project.path(NODE_STAMP))
        .context("cannot note which lock file node_modules is of")?;
    Ok(())
}

/// Whether `node_modules` is what `package-lock.json` says.
pub(crate) fn has_node_modules(project: &Project) -> bool {
    let there = fs::read(project.path(NODE_STAMP)).ok();
    there.is_some() && there == fs::read(project.path("package-lock.json")).ok()
}

/// A copy of the lock file that `node_modules` was installed from; `npm ci` removes it with the rest.
const NODE_STAMP: &str = "node_modules/.installed-from";

/// Installs what only measuring needs, at the versions of `tests/bench/package-lock.json`, unless that
/// is done already; gives the folder whose `node_modules` holds it.
pub(crate) fn bench_tools(project: &Project) -> Result<PathBuf> {
    let folder = project.path("target/bench-tools");
    let stamp = folder.join("installed-from.json");
    let lock = project.text("tests/bench/package-lock.json")?;
    if fs::read_to_string(&stamp).is_ok_and(|there| there == lock) {
        return Ok(folder);
    }
    fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    for (name, from) in [
        ("package.json", "tests/bench/package.json"),
        ("package-lock.json", "tests/bench/package-lock.json"),
        (".npmrc", ".npmrc"),
    ] {
        fs::copy(project.path(from), folder.join(name)).with_context(|| format!("cannot copy {from}"))?;
    }
    run(npm_ci(project)?.current_dir(&folder))?;
    fs::write(&stamp, lock).context("cannot note which lock file the bench's tools are of")?;
    Ok(folder)
}

/// Installs what a lock file names; none of it needs to run a script of its own for that, and none may.
fn npm_ci(project: &Project) -> Result<Command> {
    let mut command = project.command(npm(project)?);
    command.args(["ci", "--ignore-scripts"]);
    Ok(command)
}

fn npm(project: &Project) -> Result<PathBuf> {
    if NODE.find(project)?.is_none() {
        return Err(NODE.missing().into());
    }
    project.find("npm").ok_or_else(|| {
        Refusal::Missing { what: "npm is missing, which comes with Node".to_owned(), how: NODE.how() }.into()
    })
}

/// The command that makes WebAssembly smaller, if Node and its tools are here.
pub(crate) fn wasm_opt(project: &Project) -> Result<Option<Command>> {
    of_node(project, "node_modules/binaryen/bin/wasm-opt")
}

/// The command that makes scripts smaller, if Node and its tools are here.
pub(crate) fn terser(project: &Project) -> Result<Option<Command>> {
    of_node(project, "node_modules/terser/bin/terser")
}

fn of_node(project: &Project, script: &str) -> Result<Option<Command>> {
    let script = project.path(script);
    let node = NODE.find(project)?.filter(|_| script.is_file());
    Ok(node.map(|node| {
        let mut command = project.command(node);
        command.arg(script);
        command
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::anyhow;

    fn arguments(command: &Command) -> Vec<String> {
        command.get_args().map(|word| word.to_string_lossy().into_owned()).collect()
    }

    #[test]
    fn a_tool_is_built_from_its_own_lock_file_or_not_at_all() {
        let project = Project::here().unwrap();
        for tool in [TRUNK, BINDGEN, DENY, MUTANTS] {
            let words = arguments(&tool.cargo_install(&project, "1.2.3"));
            assert!(words.contains(&"--locked".to_owned()), "{words:?}");
            let lock = match tool.locked {
                Locked::Published => {
                    assert!(words.contains(&"=1.2.3".to_owned()), "{words:?}");
                    "lock file that came with it".to_owned()
                }
                Locked::Here(folder) => {
                    assert!(words.contains(&project.path(folder).display().to_string()), "{words:?}");
                    assert!(project.path(folder).join("Cargo.lock").is_file(), "{folder}");
                    format!("{folder}/Cargo.lock")
                }
            };
            let refusal = tool.refused("1.2.3", &anyhow!("what Cargo said")).to_string();
            for part in [tool.package, "1.2.3", "what Cargo said", &lock, "pin a version"] {
                assert!(refusal.contains(part), "{part} in {refusal}");
            }
        }
    }

    #[test]
    fn no_script_of_a_package_runs_when_it_is_installed() {
        let project = Project::here().unwrap();
        match npm_ci(&project) {
            Ok(command) => assert_eq!(arguments(&command), ["ci", "--ignore-scripts"]),
            // A machine without Node installs nothing.
            Err(error) => assert!(error.downcast_ref::<Refusal>().is_some(), "{error}"),
        }
    }
}
