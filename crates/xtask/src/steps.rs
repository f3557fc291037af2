//! Steps with a name each: their seconds are printed, and all of them again at the end.

use std::time::{Duration, Instant};

use anyhow::{Context, Result};

/// The steps of one run.
#[derive(Debug, Default)]
pub(crate) struct Steps {
    done: Vec<Done>,
    tests_passed: usize,
}

#[derive(Debug)]
struct Done {
    name: String,
    took: Duration,
    result: String,
}

impl Steps {
    /// Does one step. `work` gives a few words on what came out of it.
    pub(crate) fn step(&mut self, name: &str, work: impl FnOnce() -> Result<String>) -> Result<()> {
        println!("\n── {name}");
        let start = Instant::now();
        let result = work();
        let took = start.elapsed();
        let words = match &result {
            Ok(words) => words.clone(),
            Err(_) => "FAILED".to_owned(),
        };
        println!("── {name}: {words} ({:.1} s)", took.as_secs_f64());
        self.done.push(Done { name: name.to_owned(), took, result: words });
        result.map(drop).with_context(|| format!("step “{name}”"))
    }

    /// As [`Steps::step`] for one that runs tests: `work` gives how many passed, and none is a failure.
    pub(crate) fn tests(&mut self, name: &str, work: impl FnOnce() -> Result<usize>) -> Result<()> {
        let mut passed = 0;
        self.step(name, || {
            passed = work()?;
            anyhow::ensure!(passed > 0, "no test ran");
            Ok(format!("{passed} passed"))
        })?;
        self.tests_passed += passed;
        Ok(())
    }

    /// Prints every step with its seconds, the sum, and how many tests passed.
    pub(crate) fn summary(&self) {
        let width = self.done.iter().map(|done| done.name.chars().count()).max();
        let width = width.unwrap_or(0);
        let mut sum = Duration::ZERO;
        println!("\n── summary");
        for Done { name, took, result } in &self.done {
            println!("{name:width$}  {:7.1} s  {result}", took.as_secs_f64());
            sum += *took;
        }
        println!("{:width$}  {:7.1} s", "in all", sum.as_secs_f64());
    }

    /// How many tests passed in all steps.
    pub(crate) fn tests_passed(&self) -> usize {
        self.tests_passed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_without_tests_fails() {
        let mut steps = Steps::default();
        assert!(steps.tests("some", || Ok(3)).is_ok());
        assert!(steps.tests("none", || Ok(0)).is_err());
        assert_eq!(steps.tests_passed(), 3);
        assert_eq!(steps.done.last().unwrap().result, "FAILED");
    }
}
