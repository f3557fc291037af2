//! `cargo xtask audit`: what others' code comes along, under which licence, from
//! where, in how many versions, and whether a fault is known of it.
//!
//! Known faults are told by two services that not every network reaches; where one is
//! out of reach that is said, and the rest is checked all the same. Licences, sources
//! and duplicates are looked at by every `cargo xtask test` too (`tests/tests/dependencies.rs`).

use std::process::Stdio;

use anyhow::{Context, Result, bail};

use crate::project::Project;
use crate::run::run;
use crate::steps::Steps;
use crate::tools;

/// What is audited: the product, and the fuzz bodies and what takes the page apart outside its workspace.
const MANIFESTS: [&str; 4] =
    ["Cargo.toml", "fuzz/Cargo.toml", "crates/xtask/pack/Cargo.toml", "crates/xtask/bindgen/Cargo.toml"];

/// Audits everything and says what could not be.
pub(crate) fn command(project: &Project) -> Result<()> {
    let mut steps = Steps::default();
    let ready = steps.step("cargo-deny", || {
        tools::deny(project)?;
        Ok("there".to_owned())
    });
    if ready {
        for manifest in MANIFESTS {
            steps.step(&format!("licences, versions, sources, {manifest}"), || {
                run(&mut deny(project, manifest, &["bans", "licenses", "sources"]))?;
                Ok("as deny.toml says".to_owned())
            });
        }
        steps.step("known faults, Rust", || faults_of_crates(project));
    }
    steps.step("known faults, npm", || faults_of_npm(project));
    steps.finish()
}

fn deny(project: &Project, manifest: &str, checks: &[&str]) -> std::process::Command {
    let mut deny = project.command("cargo-deny");
    deny.args(["--manifest-path", manifest, "--config"])
        .arg(project.path("deny.toml"))
        .args(["check", "--hide-inclusion-graph"])
        .args(checks);
    deny
}

fn faults_of_crates(project: &Project) -> Result<String> {
    if let Err(error) = run(project.command("cargo-deny").args(["fetch", "db"])) {
        return Ok(format!("NOT CHECKED: the database of RustSec cannot be fetched ({error})"));
    }
    for manifest in MANIFESTS {
        run(&mut deny(project, manifest, &["advisories"]))?;
    }
    Ok("none known".to_owned())
}

fn faults_of_npm(project: &Project) -> Result<String> {
    let npm = project.find("npm").context("npm is missing, which comes with Node")?;
    let output = project
        .command(npm)
        .args(["audit", "--json", "--package-lock-only"])
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .context("cannot start npm")?;
    npm_says(&String::from_utf8_lossy(&output.stdout), output.status.success())
}

/// What `npm audit --json` comes to; it ends in an error for faults and for an
/// unreachable registry alike, and only a report names its version.
fn npm_says(report: &str, succeeded: bool) -> Result<String> {
    if !report.contains("\"auditReportVersion\"") {
        return Ok("NOT CHECKED: the registry gives no audit report".to_owned());
    }
    if !succeeded {
        println!("{report}");
        bail!("npm knows of faults; the report is above");
    }
    Ok("none known".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The three answers of `npm audit`, as npm 11 gives them (shortened).
    #[test]
    fn a_report_is_told_from_a_registry_without_one() {
        let clean = r#"{ "auditReportVersion": 2, "vulnerabilities": {} }"#;
        assert_eq!(npm_says(clean, true).unwrap(), "none known");
        let faulty = r#"{ "auditReportVersion": 2, "vulnerabilities": { "a": {} } }"#;
        assert!(npm_says(faulty, false).is_err());
        let none = r#"{ "message": "405 Method Not Allowed", "method": "POST" }"#;
        assert!(npm_says(none, false).unwrap().starts_with("NOT CHECKED"));
    }
}
