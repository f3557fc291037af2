//! Steps with a name each: their seconds are printed, and all of them again at the end.
//! A failed step does not keep others from running, so that one run tells all there is to mend.

use std::time::{Duration, Instant};

use anyhow::{Result, anyhow, ensure};

use crate::run::Refusal;

/// The steps of one run.
#[derive(Debug, Default)]
pub(crate) struct Steps {
    done: Vec<Done>,
    tests_passed: usize,
    refusal: Option<Refusal>,
}

#[derive(Debug)]
struct Done {
    name: String,
    took: Duration,
    result: Result<String, String>,
}

impl Steps {
    /// Does one step and says whether it succeeded. `work` gives a few words on what came of it.
    pub(crate) fn step(&mut self, name: &str, work: impl FnOnce() -> Result<String>) -> bool {
        println!("\n── {name}");
        let start = Instant::now();
        let result = work();
        let took = start.elapsed();
        let result = result.map_err(|error| {
            let words = format!("{error:#}");
            match error.downcast() {
                Ok(refusal) => self.refusal = self.refusal.take().or(Some(refusal)),
                Err(error) => drop(error),
            }
            words
        });
        println!("── {name}: {} ({:.1} s)", words(&result), took.as_secs_f64());
        let succeeded = result.is_ok();
        self.done.push(Done { name: name.to_owned(), took, result });
        succeeded
    }

    /// As [`Steps::step`] for one that runs tests: `work` gives how many passed; none is a failure.
    pub(crate) fn tests(&mut self, name: &str, work: impl FnOnce() -> Result<usize>) -> bool {
        let mut passed = 0;
        let succeeded = self.step(name, || {
            passed = work()?;
            ensure!(passed > 0, "no test ran");
            Ok(format!("{passed} passed"))
        });
        self.tests_passed += passed;
        succeeded
    }

    /// Prints every step with its seconds, and ends in an error if one failed.
    pub(crate) fn finish(self) -> Result<()> {
        let width = self.done.iter().map(|done| done.name.chars().count()).max();
        let width = width.unwrap_or(0);
        let mut sum = Duration::ZERO;
        println!("\n── summary");
        for Done { name, took, result } in &self.done {
            let words = words(result);
            let first = words.lines().next().unwrap_or_default();
            println!("{name:width$}  {:7.1} s  {first}", took.as_secs_f64());
            sum += *took;
        }
        println!("{:width$}  {:7.1} s", "in all", sum.as_secs_f64());
        if let Some(refusal) = self.refusal {
            return Err(refusal.into());
        }
        let failed = self.done.iter().filter(|done| done.result.is_err()).count();
        if failed > 0 {
            return Err(anyhow!("{failed} of {} steps failed", self.done.len()));
        }
        if self.tests_passed > 0 {
            println!("\nxtask: {} passed, 0 failed", self.tests_passed);
        }
        Ok(())
    }
}

fn words(result: &Result<String, String>) -> String {
    match result {
        Ok(words) => words.clone(),
        Err(error) => format!("FAILED: {error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_without_tests_fails() {
        let mut steps = Steps::default();
        assert!(steps.tests("some", || Ok(3)));
        assert!(!steps.tests("none", || Ok(0)));
        assert_eq!(steps.tests_passed, 3);
        assert!(steps.finish().is_err());
    }

    #[test]
    fn one_failure_is_enough_and_what_is_missing_is_told() {
        let mut steps = Steps::default();
        assert!(!steps.step("missing", || { Err(Refusal::Usage("a reason".to_owned()).into()) }));
        assert!(!steps.step("broken", || Err(anyhow!("another"))));
        assert!(steps.step("fine", || Ok("done".to_owned())));
        let error = steps.finish().unwrap_err();
        assert!(error.downcast_ref::<Refusal>().is_some(), "{error}");
        let mut steps = Steps::default();
        assert!(steps.step("fine", || Ok("done".to_owned())));
        assert!(steps.finish().is_ok());
    }
}
