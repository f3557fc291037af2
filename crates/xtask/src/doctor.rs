//! `cargo xtask doctor`: what is here, what is missing, and how to get it.

use crate::programs::{CHROMEDRIVER, CHROMIUM, FIREFOX, NODE, PYTHON, Program, driver_mismatch};
use crate::project::Project;
use crate::run::{answer, version};
use crate::tools;

/// Prints one line for each thing that building and testing needs.
pub(crate) fn command(project: &Project) {
    println!("To build and serve (`cargo xtask serve`):");
    line("Rust", version("rustc"), "https://rustup.rs or your system's packages");
    let target = tools::has_wasm_target(project).then(|| "installed".to_owned());
    line(tools::WASM, target, &format!("`serve` adds it: rustup target add {}", tools::WASM));
    println!("\nTo build anew at every change (`cargo xtask serve --watch`):");
    pinned(project, "trunk", project.trunk_version().ok());
    pinned(project, "wasm-bindgen", project.bindgen_version().ok());
    println!("\nFor the smallest download (optional to serve, needed to test):");
    program(project, &NODE);
    line("npm", project.find("npm").and_then(version), "it comes with Node");
    let modules = tools::has_node_modules(project).then(|| "as package-lock.json says".to_owned());
    line("node_modules", modules, "`serve` and `test` install them: npm ci");
    println!("\nTo test (`cargo xtask test`):");
    for component in ["fmt", "clippy"] {
        let found = answer(project.cargo().args([component, "--version"]));
        line(&format!("cargo {component}"), found, "rustup component add rustfmt clippy");
    }
    pinned(project, "wasm-bindgen-test-runner", project.bindgen_version().ok());
    program(project, &CHROMIUM);
    program(project, &CHROMEDRIVER);
    program(project, &FIREFOX);
    if let (Ok(Some(browser)), Ok(Some(driver))) = (CHROMIUM.find(project), CHROMEDRIVER.find(project))
        && let Some(mismatch) = driver_mismatch(&browser, &driver)
    {
        println!("  NOTE     {mismatch}: get the driver that belongs to the browser");
    }
    println!("\nTo rebuild the reference table (optional except where CI is set):");
    program(project, &PYTHON);
}

fn program(project: &Project, program: &Program) {
    match program.find(project) {
        Ok(Some(path)) => {
            let version = version(&path).unwrap_or_else(|| "version unknown".to_owned());
            line(program.title, Some(format!("{version}, {}", path.display())), "");
        }
        Ok(None) => line(program.title, None, &program.how()),
        Err(error) => line(program.title, None, &error.to_string()),
    }
}

/// A tool that must be of one version.
fn pinned(project: &Project, name: &str, wanted: Option<String>) {
    let wanted = wanted.unwrap_or_else(|| "of a version that cannot be read".to_owned());
    let found = project.find(name).and_then(version);
    let right = found.as_ref().is_some_and(|line| line.split_whitespace().any(|word| word == wanted));
    let how = format!(
        "needed: {wanted}{}; `serve --watch` and `test` build it into target/tools",
        found.as_ref().map(|there| format!(", here: {there}")).unwrap_or_default()
    );
    line(name, found.filter(|_| right), &how);
}

fn line(name: &str, found: Option<String>, how: &str) {
    match found {
        Some(what) => println!("  found    {name}: {what}"),
        None => println!("  MISSING  {name}. {how}"),
    }
}
