//! `cargo xtask test`: every check there is, in the order in which they run.

use std::env;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, ensure};

use crate::browser;
use crate::build;
use crate::dist;
use crate::fuzz;
use crate::programs::{CHROMEDRIVER, CHROMIUM, FIREFOX, chromium_switches, driver_mismatch};
use crate::project::Project;
use crate::reference;
use crate::run::{run, run_heard};
use crate::size;
use crate::spelling;
use crate::steps::Steps;
use crate::tools::{self, WASM};

/// A part of the checks that can be run by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Part {
    /// All that needs Rust alone, and the second opinion by SciPy.
    Core,
    /// The page's code in a browser, without the page.
    Wasm,
    /// The finished page.
    Page,
}

/// The libraries that the page is made of.
const LIBRARIES: [&str; 7] = ["measure", "linkage", "truck", "study", "mating", "drawing", "sharing"];

/// By what property tests draw: a number each run, so that each looks where none did, and can be had again.
const SEED: &str = "PROPTEST_RNG_SEED";

/// The tests that run as WebAssembly in Chromium. Each line must run at least one.
const WASM_TESTS: &[WasmTests] = &[
    WasmTests { package: "web", target: None },
    WasmTests { package: "reference-tests", target: Some("bits") },
];

#[derive(Debug)]
struct WasmTests {
    package: &'static str,
    /// One file under the package's `tests/`, or all that the package has.
    target: Option<&'static str>,
}

/// Runs all checks, or those of one part, and prints what each took.
pub(crate) fn command(project: &Project, part: Option<Part>) -> Result<()> {
    let mut steps = Steps::default();
    for (this, checks) in [(Part::Core, core as Checks), (Part::Wasm, wasm), (Part::Page, page)] {
        if part.is_none_or(|asked| asked == this) {
            checks(project, &mut steps);
        }
    }
    steps.finish()
}

type Checks = fn(&Project, &mut Steps);

fn core(project: &Project, steps: &mut Steps) {
    steps.step("Rust's tools", || {
        tools::component(project, "rustfmt")?;
        tools::component(project, "clippy")?;
        Ok("there".to_owned())
    });
    steps.step("format", || {
        run(project.cargo().args(["fmt", "--all", "--check"]))?;
        for apart in ["fuzz/Cargo.toml", build::PACK, "crates/xtask/bindgen/Cargo.toml"] {
            run(project.cargo().args(["fmt", "--manifest-path", apart, "--check"]))?;
        }
        Ok("as rustfmt writes it".to_owned())
    });
    steps.step("lints, native", || {
        run(project
            .cargo()
            .args(["clippy", "--locked", "--workspace", "--all-targets"])
            .args(["--", "-D", "warnings"]))?;
        Ok("none".to_owned())
    });
    steps.step("spelling", || spelling::check(project));
    let seed = fresh_seed();
    println!("\nProperty tests draw by {SEED}={seed}; with it in the environment they draw the same again.");
    steps.tests("tests, native", || {
        // What fails in one file keeps no other from running: one run tells all there is to mend.
        passed_by(
            project.cargo().args(["test", "--locked", "--workspace", "--no-fail-fast"]).env(SEED, &seed),
        )
    });
    steps.step("fuzz targets", || fuzz::check(project));
    steps.step("documentation", || {
        run(project
            .cargo()
            .args(["doc", "--locked", "--workspace", "--no-deps"])
            .env("RUSTDOCFLAGS", "-D warnings"))?;
        Ok("every link leads somewhere".to_owned())
    });
    steps.step("second opinion by SciPy", || reference::rebuild(project));
}

fn wasm(project: &Project, steps: &mut Steps) {
    let ready = steps.step("tools for WebAssembly", || {
        tools::wasm_target(project)?;
        tools::component(project, "clippy")?;
        tools::bindgen(project)?;
        browser_found(project)
    });
    if !ready {
        return;
    }
    steps.step("lints, WebAssembly", || {
        run(project
            .cargo()
            .args(["clippy", "--locked", "--package", "web", "--all-targets"])
            .args(["--target", WASM, "--", "-D", "warnings"]))?;
        run(project
            .cargo()
            .args(["clippy", "--locked", "--lib"])
            .args(LIBRARIES.iter().flat_map(|name| ["--package", name]))
            .args(["--target", WASM, "--", "-D", "warnings"]))?;
        Ok("none".to_owned())
    });
    for tests in WASM_TESTS {
        let name = format!("tests in Chromium, {}", tests.package);
        steps.tests(&name, || tests.run(project));
    }
}

fn page(project: &Project, steps: &mut Steps) {
    let ready = steps.step("tools for the page", || {
        tools::for_page(project)?;
        tools::node_modules(project)?;
        CHROMIUM.need(project)?;
        FIREFOX.need(project)?;
        Ok("there".to_owned())
    });
    steps.tests("tests of what takes the page apart", || passed_by(&mut build::pack_tests(project)));
    let mut dist = project.path("dist");
    let built = ready
        && steps.step("release page", || {
            dist = dist::build(project, None, build::Made::Small)?;
            Ok("built".to_owned())
        });
    if !built {
        return;
    }
    steps.step("size of the page", || size::check(project, &dist));
    steps.tests("tests of the page", || browser::tests(project, dist));
    if tools::has_trunk(project) {
        steps.step("the page by Trunk", || by_trunk(project));
    }
}

/// Trunk makes the same page in one module, for whoever has it.
fn by_trunk(project: &Project) -> Result<String> {
    let folder = project.path("target/by-trunk");
    dist::fetch(project)?;
    run(project.command("trunk").arg("build").arg("--dist").arg(&folder).env("RUST_BACKTRACE", "0"))?;
    for name in ["index.html", "web.js", "web_bg.wasm", "boot.js", "sw.js"] {
        ensure!(folder.join(name).is_file(), "Trunk made no {name}");
    }
    let glue = fs::read_to_string(folder.join("web.js"))?;
    ensure!(!glue.contains("__wasm_split"), "what Trunk makes waits for a second module");
    Ok("built".to_owned())
}

fn browser_found(project: &Project) -> Result<String> {
    let browser = CHROMIUM.need(project)?;
    let driver = CHROMEDRIVER.need(project)?;
    if let Some(mismatch) = driver_mismatch(&browser, &driver) {
        println!("Warning: {mismatch}; tests may not start.");
    }
    Ok("there".to_owned())
}

impl WasmTests {
    fn run(&self, project: &Project) -> Result<usize> {
        let mut cargo = project.cargo();
        cargo.args(["test", "--locked", "--target", WASM, "--package", self.package]);
        if let Some(target) = self.target {
            cargo.args(["--test", target]);
        }
        cargo
            .env("CHROMEDRIVER", CHROMEDRIVER.need(project)?)
            .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", capabilities(project)?);
        passed_by(&mut cargo)
    }
}

/// Writes down for the test runner which browser to start and how.
fn capabilities(project: &Project) -> Result<PathBuf> {
    let browser = CHROMIUM.need(project)?;
    let mut arguments = vec![quoted("--headless")];
    arguments.extend(chromium_switches().into_iter().map(quoted));
    let text = format!(
        "{{\"goog:chromeOptions\": {{\"binary\": {}, \"args\": [{}]}}}}\n",
        quoted(&browser.to_string_lossy()),
        arguments.join(", ")
    );
    let file = project.path("target/webdriver.json");
    fs::write(&file, text).with_context(|| format!("cannot write {}", file.display()))?;
    Ok(file)
}

/// A JSON string.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

/// Runs tests with Cargo; gives how many passed.
fn passed_by(cargo: &mut Command) -> Result<usize> {
    let mut passed = 0;
    run_heard(cargo, |line| {
        if let Some(number) = passed_in(line) {
            passed += number;
        }
    })?;
    Ok(passed)
}

/// The seed that was asked for, or a new one.
fn fresh_seed() -> String {
    env::var(SEED).unwrap_or_else(|_| {
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        now.as_secs().to_string()
    })
}

/// The number in a closing line of Rust's test runner, in Chromium too.
fn passed_in(line: &str) -> Option<usize> {
    let rest = line.strip_prefix("test result: ok. ")?;
    let (number, _) = rest.split_once(" passed")?;
    number.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closing_lines_are_read() {
        assert_eq!(passed_in("test result: ok. 14 passed; 0 failed; 0 ignored"), Some(14));
        assert_eq!(passed_in("test result: FAILED. 14 passed; 1 failed"), None);
        assert_eq!(passed_in("test poses ... ok"), None);
    }

    #[test]
    fn a_path_of_windows_is_a_json_string() {
        assert_eq!(quoted("C:\\a\"b"), "\"C:\\\\a\\\"b\"");
    }
}
