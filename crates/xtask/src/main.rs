//! `cargo xtask`: builds, serves, checks and measures Scrubline on a clean checkout.
//!
//! Start at [`main`] for the commands; [`mod@test`] lists every check there is, in order.
//! Exit codes: 0 done, 1 something failed, 2 something is missing or was asked for wrongly.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "what this program says on the terminal is its output"
)]

mod audit;
mod bench;
mod browser;
mod build;
mod compile;
mod dist;
mod doctor;
mod fuzz;
mod made_of;
mod mirror;
mod mutants;
mod notices;
mod policy;
mod post_build;
mod programs;
mod project;
mod python;
mod reference;
mod run;
mod serve;
mod single;
mod size;
mod small_std;
mod spelling;
mod steps;
mod test;
mod tools;

use std::process::ExitCode;

use anyhow::Result;
use lexopt::prelude::*;

use crate::project::Project;
use crate::run::Refusal;

const HELP: &str = "\
cargo xtask <command>

  serve [--port N] [--open] [--watch]
                     build the page and serve it on this machine; Rust is enough.
                     --port: 8080 unless said otherwise; --open: show it in the browser;
                     --watch: a debug build, made anew at every change
  test [core|wasm|page]
                     every check, or one part of them; needs Node, Chromium and Firefox too
  doctor             what is here, what is missing, and how to get it
  dist [--page ADDRESS]
                     the page as files under dist/ that work under any path, and
                     scrubline.html among them, the page as one file for a disk.
                     --page: the address that shared links begin with
  shots              make the pictures of web/shots/ anew
  audit              licences, duplicates, sources and known faults of every dependency
  fuzz [TARGET] [--inputs N]
                     the fuzz bodies driven by coverage: one or all, N inputs or a minute each
  mutants [--sample N] [--seed S] [--jobs J]
                     faults put into the crates one at a time, each of which a test should
                     notice: all of them, which takes days, or N drawn by S
  bench [--minutes N]
                     time poses, sweeps, a start and a drag: native, in Chromium, and
                     general solvers beside them. --minutes: how long the page is
                     dragged while its memory is watched; 1 unless said otherwise
  lighthouse         what Lighthouse says of the page on a phone
  size               what the page's code is made of, by crate and by function
";

/// One line of the command line, understood.
#[derive(Debug, PartialEq)]
enum Command {
    Help,
    Serve(serve::Options),
    Test(Option<test::Part>),
    Doctor,
    Dist {
        page: Option<String>,
    },
    Shots,
    Audit,
    Fuzz(fuzz::Options),
    Mutants(mutants::Options),
    Bench {
        minutes: u32,
    },
    Lighthouse,
    Size,
    /// Called by Trunk, see `Trunk.toml`.
    PostBuild,
}

fn main() -> ExitCode {
    match parse(lexopt::Parser::from_env()).and_then(obey) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\nxtask: {error:#}");
            match error.downcast_ref::<Refusal>() {
                Some(_) => ExitCode::from(2),
                None => ExitCode::FAILURE,
            }
        }
    }
}

fn obey(command: Command) -> Result<()> {
    let project = Project::here()?;
    match command {
        Command::Help => {
            print!("{HELP}");
            Ok(())
        }
        Command::Serve(options) => serve::command(&project, &options),
        Command::Test(part) => test::command(&project, part),
        Command::Doctor => {
            doctor::command(&project);
            Ok(())
        }
        Command::Dist { page } => dist::command(&project, page.as_deref()),
        Command::Shots => browser::shots(&project),
        Command::Audit => audit::command(&project),
        Command::Fuzz(options) => fuzz::command(&project, &options),
        Command::Mutants(options) => mutants::command(&project, &options),
        Command::Bench { minutes } => bench::command(&project, minutes),
        Command::Lighthouse => bench::lighthouse(&project),
        Command::Size => made_of::command(&project),
        Command::PostBuild => post_build::command(&project),
    }
}

fn parse(mut words: lexopt::Parser) -> Result<Command> {
    read(&mut words).map_err(|error| match error.downcast::<Refusal>() {
        Ok(refusal) => refusal.into(),
        Err(error) => Refusal::Usage(format!("{error}; `cargo xtask help` lists the commands")).into(),
    })
}

fn read(words: &mut lexopt::Parser) -> Result<Command> {
    let Some(first) = words.next()? else {
        return Ok(Command::Help);
    };
    let command = match first {
        Value(word) => match word.string()?.as_str() {
            "help" => Command::Help,
            "serve" => Command::Serve(read_serve(words)?),
            "test" => Command::Test(words.next()?.map(read_part).transpose()?),
            "doctor" => Command::Doctor,
            "dist" => Command::Dist { page: read_page(words)? },
            "shots" => Command::Shots,
            "audit" => Command::Audit,
            "fuzz" => Command::Fuzz(fuzz::read(words)?),
            "mutants" => Command::Mutants(mutants::read(words)?),
            "bench" => Command::Bench { minutes: read_minutes(words)? },
            "lighthouse" => Command::Lighthouse,
            "size" => Command::Size,
            "post-build" => Command::PostBuild,
            other => anyhow::bail!("there is no command `{other}`"),
        },
        Short('h') | Long("help") => Command::Help,
        other => return Err(other.unexpected().into()),
    };
    match words.next()? {
        None => Ok(command),
        Some(Short('h') | Long("help")) => Ok(Command::Help),
        Some(extra) => Err(extra.unexpected().into()),
    }
}

fn read_serve(words: &mut lexopt::Parser) -> Result<serve::Options> {
    let mut options = serve::Options::default();
    while let Some(word) = words.next()? {
        match word {
            Long("port") => options.port = words.value()?.parse()?,
            Long("open") => options.open = true,
            Long("watch") => options.watch = true,
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(options)
}

fn read_part(word: lexopt::Arg<'_>) -> Result<test::Part> {
    match word {
        Value(part) => match part.string()?.as_str() {
            "core" => Ok(test::Part::Core),
            "wasm" => Ok(test::Part::Wasm),
            "page" => Ok(test::Part::Page),
            other => anyhow::bail!("`test` has the parts core, wasm and page, no `{other}`"),
        },
        other => Err(other.unexpected().into()),
    }
}

fn read_minutes(words: &mut lexopt::Parser) -> Result<u32> {
    match words.next()? {
        None => Ok(bench::MINUTES),
        Some(Long("minutes")) => Ok(words.value()?.parse()?),
        Some(other) => Err(other.unexpected().into()),
    }
}

fn read_page(words: &mut lexopt::Parser) -> Result<Option<String>> {
    match words.next()? {
        None => Ok(None),
        Some(Long("page")) => Ok(Some(dist::page_address(&words.value()?.string()?)?)),
        Some(other) => Err(other.unexpected().into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(line: &str) -> Result<Command> {
        parse(lexopt::Parser::from_args(line.split_whitespace()))
    }

    #[test]
    fn commands_are_understood() {
        assert_eq!(parsed("").unwrap(), Command::Help);
        assert_eq!(parsed("test").unwrap(), Command::Test(None));
        assert_eq!(parsed("test wasm").unwrap(), Command::Test(Some(test::Part::Wasm)));
        assert_eq!(parsed("bench").unwrap(), Command::Bench { minutes: bench::MINUTES });
        assert_eq!(parsed("bench --minutes 10").unwrap(), Command::Bench { minutes: 10 });
        let Command::Serve(options) = parsed("serve --port 9000 --open").unwrap() else {
            panic!("`serve` is the serve command");
        };
        assert_eq!((options.port, options.open, options.watch), (9000, true, false));
        assert_eq!(
            parsed("dist --page https://example.org/truck").unwrap(),
            Command::Dist { page: Some("https://example.org/truck/".to_owned()) }
        );
    }

    #[test]
    fn what_is_not_understood_is_refused() {
        for line in [
            "sevre",
            "test everything",
            "test core wasm",
            "serve --port many",
            "doctor --loud",
            "dist --page",
            "dist --page example.org",
            "bench --minutes few",
            "lighthouse now",
        ] {
            let error = parsed(line).unwrap_err();
            assert!(error.downcast_ref::<Refusal>().is_some(), "{line}: {error}");
        }
    }
}
