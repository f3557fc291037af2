//! The `scrubline` command: what the page answers, for files, links and pipes.
//!
//! ```text
//! arguments -> source (file, link, code, standard input) -> Shared
//!           -> trucks (one of its trucks, at rest) -> sweep | report | spread | fit | rear | setup | ways | bolt_up | work | as_built | picture -> standard output
//! ```
//!
//! Nothing is computed here: every number is the answer of a study, turned into
//! the reader's unit in `figures` and nowhere else.
//!
//! Exit codes: 0 done, 1 the data cannot be used, 2 the command cannot.

mod answers;
mod arguments;
mod as_built;
mod bolt_up;
mod cautions;
mod failure;
mod figures;
mod fit;
mod lean;
mod link;
mod open;
mod picture;
mod readings;
mod rear;
mod report;
mod room;
mod setup;
mod source;
mod spread;
mod sweep;
mod table;
mod telling;
mod trucks;
mod ways;
mod work;

use arguments::{Arguments, Command};
use clap::Parser as _;
use failure::Failure;
use std::io::{self, BufWriter, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let mut out = BufWriter::new(io::stdout().lock());
    match run(&arguments.command, &mut out) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) if failure.is_closed_pipe() => ExitCode::SUCCESS,
        Err(failure) => {
            // Nobody is left to be told where standard error is closed too.
            let _ = writeln!(io::stderr(), "scrubline: {failure}");
            ExitCode::FAILURE
        }
    }
}

fn run(command: &Command, out: &mut impl Write) -> Result<(), Failure> {
    match command {
        Command::Sweep(asked) => sweep::run(asked, out)?,
        Command::Report(asked) => report::run(asked, out)?,
        Command::Spread(asked) => spread::run(asked, out)?,
        Command::Fit(asked) => fit::run(asked, out)?,
        Command::AsBuilt(asked) => as_built::run(asked, out)?,
        Command::Rear(asked) => rear::run(asked, out)?,
        Command::Setup(asked) => setup::run(asked, out)?,
        Command::Ways(asked) => ways::run(asked, out)?,
        Command::Work(asked) => work::run(asked, out)?,
        Command::BoltUp(asked) => bolt_up::run(asked, out)?,
        Command::Picture(asked) => picture::run(asked, out)?,
        Command::Link(asked) => link::run(asked, out)?,
        Command::Open(asked) => open::run(asked, out)?,
        Command::Schema => write!(out, "{}", sharing::print_json(&sharing::schema()))?,
    }
    Ok(out.flush()?)
}
