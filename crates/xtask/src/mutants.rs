//! `cargo xtask mutants`: faults put into the crates one at a time, and whether a test notices.
//!
//! cargo-mutants makes them: an operator changed, a function's body replaced, an arm left
//! out. Every one meets the tests of its own crate first; what passes those meets what asks that
//! crate from above and is quick, and what passes that too every native test. A
//! fault that all of them let pass is one that a person could make tomorrow, and the check of
//! meaning that would have caught it is missing.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};

use crate::mirror::mirror;
use crate::project::Project;
use crate::run::{answer, run, run_to_code};
use crate::tools;

/// The crates whose answers people act on.
const CRATES: [&str; 6] = ["linkage", "truck", "study", "mating", "measure", "sharing"];

/// Of a hundred mutants, at most so many may be excluded in `.cargo/mutants.toml`.
const MOST_EXCLUDED_PERCENT: usize = 2;

/// What `cargo xtask mutants` was asked for.
#[derive(Debug, PartialEq)]
pub(crate) struct Options {
    /// How many are drawn; all where nothing is said.
    pub(crate) sample: Option<usize>,
    /// Which draw.
    pub(crate) seed: u64,
    /// How many are built and tested at a time.
    pub(crate) jobs: usize,
}

impl Default for Options {
    fn default() -> Self {
        Self { sample: None, seed: 1, jobs: 1 }
    }
}

/// What came of the mutants, by their names.
#[derive(Debug, Default, PartialEq)]
struct Outcome {
    caught: Vec<String>,
    missed: Vec<String>,
    unviable: Vec<String>,
    timed_out: Vec<String>,
}

/// Tests that mutants meet.
#[derive(Debug)]
struct Sieve {
    /// The folder of its report.
    name: &'static str,
    words: &'static str,
    /// Tests of which packages, told to cargo-mutants.
    mutated: &'static [&'static str],
    /// The same packages, told to Cargo for a run without a mutant.
    sound: &'static [&'static str],
    /// Which tests, by folder and name; all where none is named.
    files: &'static [(&'static str, &'static str)],
}

/// The tests that ask a crate from above, each by its folder and name, and catch what a crate's own
/// let pass: built and through in a minute, where every other one takes as long again.
const QUICK: [(&str, &str); 4] = [
    ("crates/study", "study"),
    ("crates/mating", "mating"),
    ("crates/sharing", "sharing"),
    ("tests", "changes"),
];

/// One after the other: for what the first catch the next need not be built.
const SIEVES: [Sieve; 3] = [
    Sieve {
        name: "crate",
        words: "the tests of their own crate",
        mutated: &["--test-workspace", "false"],
        sound: &[
            "-p", "linkage", "-p", "truck", "-p", "study", "-p", "mating", "-p", "measure", "-p", "sharing",
        ],
        files: &[],
    },
    Sieve {
        name: "quick",
        words: "the tests that ask it from above",
        mutated: &[
            "--test-package",
            "study",
            "--test-package",
            "mating",
            "--test-package",
            "sharing",
            "--test-package",
            "reference-tests",
        ],
        sound: &["-p", "study", "-p", "mating", "-p", "sharing", "-p", "reference-tests"],
        files: &QUICK,
    },
    Sieve {
        name: "workspace",
        words: "every native test",
        mutated: &["--test-workspace", "true"],
        sound: &["--workspace"],
        files: &[],
    },
];

/// Where the mutants are made: a copy that stays, so that little is built anew the next time.
fn tree(project: &Project) -> PathBuf {
    project.path("target/mutants/tree")
}

/// Makes the mutants, tests them, prints what came of it, and fails where one was missed.
pub(crate) fn command(project: &Project, options: &Options) -> Result<()> {
    tools::mutants(project)?;
    mirror(&project.path(""), &tree(project))?;
    let all = list(project, &["--no-config"])?;
    let kept = list(project, &[])?;
    let excluded = all.len() - kept.len();
    println!("{} mutants, of which {excluded} are excluded in .cargo/mutants.toml", all.len());
    ensure!(
        excluded * 100 <= all.len() * MOST_EXCLUDED_PERCENT,
        "more than {MOST_EXCLUDED_PERCENT} in a hundred mutants are excluded"
    );
    let drawn = match options.sample {
        Some(count) => drawn(kept.clone(), count, options.seed),
        None => kept.clone(),
    };
    ensure!(!drawn.is_empty(), "there is no mutant to test");
    if options.sample.is_some() {
        println!("seed {} drew {} of them:", options.seed, drawn.len());
        drawn.iter().for_each(|name| println!("  {name}"));
    }
    let mut outcome = Outcome { missed: drawn.clone(), ..Outcome::default() };
    for sieve in &SIEVES {
        if !outcome.missed.is_empty() {
            let left = std::mem::take(&mut outcome.missed);
            println!("\n── {} mutants, {}", left.len(), sieve.words);
            outcome.and(sieve.tested(project, &kept, &left, options.jobs)?);
        }
    }
    outcome.told(drawn.len())
}

/// The names of the mutants, each with its file, line and column, so that no two are alike.
fn list(project: &Project, more: &[&str]) -> Result<Vec<String>> {
    let names = answer(cargo_mutants(project).arg("--list").args(more));
    Ok(names.context("cargo-mutants lists no mutants")?.lines().map(str::to_owned).collect())
}

/// cargo-mutants over the crates.
fn cargo_mutants(project: &Project) -> Command {
    let mut command = project.command("cargo-mutants");
    command.args(["mutants", "--colors", "never", "--dir"]).arg(tree(project));
    CRATES.iter().for_each(|name| {
        command.args(["--package", name]);
    });
    command
}

/// So many of the names, each as likely as any other, in their own order.
fn drawn(mut names: Vec<String>, count: usize, seed: u64) -> Vec<String> {
    let mut dice = SplitMix64(seed);
    while names.len() > count {
        // The remainder favours no name by more than one part in 10^15 of so few.
        let at = dice.next() % names.len() as u64;
        names.remove(usize::try_from(at).expect("it is below a length"));
    }
    names
}

/// Steele, Lea and Flood, *Fast Splittable Pseudorandom Number Generators*, 2014.
#[derive(Debug)]
struct SplitMix64(u64);

impl SplitMix64 {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
}

impl Sieve {
    /// Puts those of all the mutants that are chosen before the tests.
    fn tested(&self, project: &Project, all: &[String], chosen: &[String], jobs: usize) -> Result<Outcome> {
        let folder = project.path("target/mutants").join(self.name);
        let report = folder.join("mutants.out");
        pass_over(&report, all, chosen)?;
        // A loop that does not end is ended at thrice the time that all these tests take.
        let patience = self.passed(project)?.saturating_mul(3).max(LEAST_PATIENCE).as_secs();
        let mut command = cargo_mutants(project);
        command
            .args(["--iterate", "--caught", "--unviable", "--output"])
            .arg(&folder)
            // Its own run without a mutant tests the crates alone, whatever the mutants meet (27.1.0).
            .args(["--baseline", "skip", "--timeout", &patience.to_string()])
            .args(["--profile", PROFILE])
            .args(self.targets().iter().flat_map(|word| ["--cargo-arg", word]))
            .args(self.mutated);
        if project.find("cargo-nextest").is_some() {
            command.args(["--test-tool", "nextest", "--cargo-test-arg", AT_THE_FIRST]);
        }
        if jobs == 1 {
            command.arg("--in-place");
        } else {
            command.args(["--jobs", &jobs.to_string()]);
        }
        match run_to_code(&mut command)? {
            // 2 is a mutant missed, 3 one that timed out.
            0 | 2 | 3 => Outcome::read(&report),
            code => bail!("cargo-mutants ended with {code}"),
        }
    }

    /// What Cargo is to build: no examples, no doctests.
    fn targets(&self) -> Vec<&'static str> {
        if self.files.is_empty() {
            return vec!["--tests"];
        }
        self.files.iter().flat_map(|(_, file)| ["--test", file]).collect()
    }

    /// Sees that the tests pass without a mutant, or every mutant would be caught; gives what they take.
    fn passed(&self, project: &Project) -> Result<Duration> {
        let nextest = project.find("cargo-nextest").is_some();
        let cargo = |more: &[&str]| {
            let mut cargo = project.cargo();
            cargo.current_dir(tree(project));
            if nextest {
                cargo.args(["nextest", "run", "--cargo-profile", PROFILE]);
            } else {
                cargo.args(["test", "--profile", PROFILE]);
            }
            cargo.args(self.targets()).args(self.sound).args(more);
            cargo
        };
        run(&mut cargo(&["--no-run"]))?;
        let start = Instant::now();
        run(&mut cargo(&[])).context("tests fail without a mutant")?;
        Ok(start.elapsed())
    }
}

/// The profile in `Cargo.toml`.
const PROFILE: &str = "mutants";

/// cargo-nextest runs the tests of all files at once and ends them all at the first that fails;
/// Cargo goes through one file after the other, up to the first in which one fails.
const AT_THE_FIRST: &str = "--max-fail=1:immediate";

/// On a busy machine a quick test may take its time.
const LEAST_PATIENCE: Duration = Duration::from_secs(60);

/// Writes down that whatever is not chosen was caught before, which cargo-mutants then passes
/// over. Its patterns would choose as well, but not among fields that it leaves out (27.1.0).
fn pass_over(report: &Path, all: &[String], chosen: &[String]) -> Result<()> {
    if report.exists() {
        fs::remove_dir_all(report).with_context(|| format!("cannot remove {}", report.display()))?;
    }
    fs::create_dir_all(report).with_context(|| format!("cannot make {}", report.display()))?;
    fs::write(report.join("previously_caught.txt"), others(all, chosen))
        .context("cannot write which to pass over")
}

/// All but the chosen, a line each.
fn others(all: &[String], chosen: &[String]) -> String {
    let chosen: BTreeSet<&String> = chosen.iter().collect();
    all.iter().filter(|name| !chosen.contains(name)).flat_map(|name| [name, "\n"]).collect()
}

impl Outcome {
    /// As cargo-mutants wrote it down: a file each, a name a line.
    fn read(folder: &Path) -> Result<Self> {
        let names = |file: &str| -> Result<Vec<String>> {
            let path: PathBuf = folder.join(file);
            let text =
                fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
            Ok(text.lines().map(str::to_owned).collect())
        };
        Ok(Self {
            caught: names("caught.txt")?,
            missed: names("missed.txt")?,
            unviable: names("unviable.txt")?,
            timed_out: names("timeout.txt")?,
        })
    }

    fn and(&mut self, other: Self) {
        self.caught.extend(other.caught);
        self.missed.extend(other.missed);
        self.unviable.extend(other.unviable);
        self.timed_out.extend(other.timed_out);
    }

    /// Prints the sum, and ends in an error where one was missed.
    fn told(&self, asked: usize) -> Result<()> {
        let Self { caught, missed, unviable, timed_out } = self;
        println!("\n── summary");
        for (words, names) in [("timed out", timed_out), ("missed", missed)] {
            names.iter().for_each(|name| println!("{words}: {name}"));
        }
        println!(
            "{} caught, {} missed, {} unviable, {} timed out",
            caught.len(),
            missed.len(),
            unviable.len(),
            timed_out.len()
        );
        let answered = caught.len() + missed.len() + unviable.len() + timed_out.len();
        ensure!(answered == asked, "{asked} mutants were to be tested and {answered} were");
        ensure!(missed.is_empty(), "{} mutants are noticed by no test", missed.len());
        Ok(())
    }
}

/// Reads what stands behind `mutants` on the command line.
pub(crate) fn read(words: &mut lexopt::Parser) -> Result<Options> {
    use lexopt::prelude::*;
    let mut options = Options::default();
    while let Some(word) = words.next()? {
        match word {
            Long("sample") => options.sample = Some(words.value()?.parse()?),
            Long("seed") => options.seed = words.value()?.parse()?,
            Long("jobs") => options.jobs = words.value()?.parse()?,
            other => return Err(other.unexpected().into()),
        }
    }
    ensure!(options.sample != Some(0) && options.jobs > 0, "--sample and --jobs take a count above zero");
    Ok(options)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first numbers of seed 1234567, as published beside other people's versions of
    /// the generator (from memory).
    #[test]
    fn the_generator_is_the_published_one() {
        let mut dice = SplitMix64(1_234_567);
        let first = [dice.next(), dice.next(), dice.next()];
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    fn names(count: usize) -> Vec<String> {
        (0..count).map(|at| at.to_string()).collect()
    }

    #[test]
    fn a_draw_is_its_seed_s_own_and_in_order() {
        let draw = |seed: u64| drawn(names(1000), 20, seed);
        assert_eq!(draw(7), draw(7));
        assert_ne!(draw(7), draw(8));
        let numbers: Vec<usize> = draw(7).iter().map(|name| name.parse().unwrap()).collect();
        assert!(numbers.len() == 20 && numbers.is_sorted());
        assert_eq!(drawn(names(3), 20, 1), names(3));
    }

    /// Half of the names over 400 draws of one in ten: binomial, 4000 of 0.5, so within 2000 ± 5·31.6.
    #[test]
    fn no_name_is_likelier_than_another() {
        let low = |name: &&String| name.parse::<usize>().unwrap() < 50;
        let count: usize = (0..400).map(|seed| drawn(names(100), 10, seed).iter().filter(low).count()).sum();
        assert!((1842..=2158).contains(&count), "{count}");
    }

    /// A file by another name would end the run half an hour later.
    #[test]
    fn the_quick_files_are_there() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        for (folder, file) in QUICK {
            let tests = root.join(folder).join("tests");
            let there = [format!("{file}.rs"), format!("{file}/main.rs")].map(|name| tests.join(name));
            assert!(there.iter().any(|path| path.is_file()), "{file}");
        }
        assert_eq!(SIEVES[0].targets(), ["--tests"]);
        assert_eq!(SIEVES[1].targets()[..4], ["--test", "study", "--test", "mating"]);
    }

    #[test]
    fn what_is_not_chosen_is_passed_over() {
        assert_eq!(others(&names(4), &["1".to_owned(), "2".to_owned()]), "0\n3\n");
        assert_eq!(others(&names(4), &names(4)), "");
    }

    #[test]
    fn one_missed_is_a_failure_and_so_is_one_forgotten() {
        let one = || vec!["a name".to_owned()];
        let caught = || Outcome { caught: one(), ..Outcome::default() };
        assert!(caught().told(1).is_ok());
        assert!(caught().told(2).is_err());
        let mut both = caught();
        both.and(Outcome { missed: one(), ..Outcome::default() });
        assert!(both.told(2).is_err());
        both = caught();
        both.and(Outcome { unviable: one(), timed_out: one(), ..Outcome::default() });
        assert!(both.told(3).is_ok());
    }

    #[test]
    fn options_come_in_any_order() {
        let options = |line: &str| read(&mut lexopt::Parser::from_args(line.split_whitespace()));
        assert_eq!(options("").unwrap(), Options::default());
        let all = Options { sample: Some(60), seed: 4, jobs: 2 };
        assert_eq!(options("--seed 4 --jobs 2 --sample 60").unwrap(), all);
        for line in ["--sample 0", "--jobs 0", "--sample few", "--seed -1", "some", "--sample"] {
            assert!(options(line).is_err(), "{line}");
        }
    }
}
