//! Running other programs: what is run is printed, what fails is named.

use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

/// Why a command is not even tried. `cargo xtask` then ends with exit code 2.
#[derive(Debug)]
pub(crate) enum Refusal {
    /// A program that must be on this machine is not.
    Missing {
        /// What is missing and what for.
        what: String,
        /// What to type or where to look.
        how: String,
    },
    /// The command line asks for something that does not exist.
    Usage(String),
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Missing { what, how } => write!(f, "{what}. To get it:\n\n    {how}\n"),
            Self::Usage(sentence) => f.write_str(sentence),
        }
    }
}

impl std::error::Error for Refusal {}

/// Runs `command` to its end with its output on the terminal.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    announce(command);
    let status =
        command.stdin(Stdio::null()).status().with_context(|| format!("cannot start {}", line(command)))?;
    if !status.success() {
        bail!("{} failed ({status})", line(command));
    }
    Ok(())
}

/// As [`run`], for a program whose codes say more than whether it succeeded; gives its code.
pub(crate) fn run_to_code(command: &mut Command) -> Result<i32> {
    announce(command);
    let status =
        command.stdin(Stdio::null()).status().with_context(|| format!("cannot start {}", line(command)))?;
    status.code().with_context(|| format!("{} was ended ({status})", line(command)))
}

/// As [`run`]; every line of standard output is printed and then handed to `hear`.
pub(crate) fn run_heard(command: &mut Command, mut hear: impl FnMut(&str)) -> Result<()> {
    announce(command);
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .with_context(|| format!("cannot start {}", line(command)))?;
    let output = child.stdout.take().expect("standard output is piped above");
    for text in BufReader::new(output).split(b'\n') {
        let text = text.context("cannot read what a program prints")?;
        let text = String::from_utf8_lossy(&text);
        println!("{text}");
        hear(&text);
    }
    let status = child.wait().context("cannot wait for a program")?;
    if !status.success() {
        bail!("{} failed ({status})", line(command));
    }
    Ok(())
}

/// What `command` prints, trimmed; `None` if it cannot be run or fails.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    if !output.status.success() {
        return None;
    }
    Some(String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// What `program --version` prints first.
pub(crate) fn version(program: impl AsRef<OsStr>) -> Option<String> {
    let text = answer(Command::new(program).arg("--version"))?;
    text.lines().next().map(str::to_owned)
}

fn announce(command: &Command) {
    println!("$ {}", line(command));
}

fn line(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_name().unwrap_or(program.as_os_str());
    let mut text = name.to_string_lossy().into_owned();
    for argument in command.get_args() {
        text.push(' ');
        text.push_str(&argument.to_string_lossy());
    }
    text
}
