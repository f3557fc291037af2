//! The second opinion by SciPy: its table is made anew and compared with the one that is kept.

use anyhow::{Context, Result, bail, ensure};

use crate::project::Project;
use crate::python;
use crate::run::run;

/// What the scripts need, and the look at spelling, pinned.
pub(crate) const REQUIREMENTS: &str = "tests/reference/scipy/requirements.txt";

/// A table that the tests read.
struct Table {
    /// The script that writes it; `--out PATH` says where.
    script: &'static str,
    kept: &'static str,
    /// How far two of it may differ, in millimetres and degrees: SciPy's own residue.
    tolerance: f64,
}

const TABLES: [Table; 4] = [
    Table {
        script: "tests/reference/scipy/solve.py",
        kept: "tests/reference/scipy/poses.csv",
        tolerance: 1e-9,
    },
    Table {
        script: "tests/reference/scipy/fits.py",
        kept: "tests/reference/scipy/fits.csv",
        tolerance: 5e-7,
    },
    Table {
        script: "tests/reference/scipy/rears.py",
        kept: "tests/reference/scipy/rears.csv",
        tolerance: 1e-7,
    },
    Table {
        script: "tests/reference/scipy/leans.py",
        kept: "tests/reference/scipy/leans.csv",
        tolerance: 5e-5,
    },
];

/// Makes the tables anew and compares them. Without a Python that can, it says so and passes, except
/// on a server, where it must run.
pub(crate) fn rebuild(project: &Project) -> Result<String> {
    let python = match python::or_without(project, REQUIREMENTS)? {
        Ok(python) => python,
        Err(why) => return Ok(format!("NOT REBUILT, the tables that are kept were read: {why}")),
    };
    let mut said = Vec::new();
    for Table { script, kept, tolerance } in TABLES {
        let name = kept.rsplit('/').next().unwrap_or(kept);
        let made = project.path("target/reference").join(name);
        if let Some(folder) = made.parent() {
            std::fs::create_dir_all(folder)?;
        }
        // A table of an earlier run must not pass for this one.
        if made.exists() {
            std::fs::remove_file(&made)?;
        }
        run(project.command(&python).arg(project.path(script)).arg("--out").arg(&made))?;
        let made = std::fs::read_to_string(&made)
            .with_context(|| format!("{script} wrote no {}", made.display()))?;
        let compared = compare(&project.text(kept)?, &made, tolerance)
            .with_context(|| format!("{kept} and the table just made differ"))?;
        said.push(format!(
            "{name} rebuilt: {} numbers in {} rows, largest difference {:.1e}",
            compared.numbers, compared.rows, compared.largest
        ));
    }
    Ok(said.join("; "))
}

#[derive(Debug, PartialEq)]
struct Compared {
    rows: usize,
    numbers: usize,
    largest: f64,
}

/// Compares two tables cell by cell: finite numbers within a tolerance, all else to the letter.
fn compare(kept: &str, made: &str, tolerance: f64) -> Result<Compared> {
    let (kept, made): (Vec<_>, Vec<_>) = (kept.lines().collect(), made.lines().collect());
    ensure!(kept.len() == made.len(), "{} lines are kept, {} were made", kept.len(), made.len());
    ensure!(kept.len() > 1, "the table is empty");
    let mut compared = Compared { rows: kept.len() - 1, numbers: 0, largest: 0.0 };
    for (index, (a, b)) in kept.iter().zip(&made).enumerate() {
        let (a, b): (Vec<_>, Vec<_>) = (a.split(',').collect(), b.split(',').collect());
        ensure!(a.len() == b.len(), "line {}: not as many cells", index + 1);
        for (column, (a, b)) in a.iter().zip(&b).enumerate() {
            let (line, column) = (index + 1, column + 1);
            match (number(a), number(b)) {
                (Some(x), Some(y)) => {
                    let difference = (x - y).abs();
                    if difference > tolerance {
                        bail!("line {line}, cell {column}: {a} is kept, {b} was made");
                    }
                    compared.numbers += 1;
                    compared.largest = compared.largest.max(difference);
                }
                _ if a == b => {}
                _ => bail!("line {line}, cell {column}: `{a}` is kept, `{b}` was made"),
            }
        }
    }
    ensure!(compared.numbers > 0, "the table holds no number");
    Ok(compared)
}

fn number(cell: &str) -> Option<f64> {
    cell.trim().parse().ok().filter(|value: &f64| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_within_the_tolerance() {
        let compared = compare("a,b\nx,1.5\ny,nan\n", "a,b\nx,1.5000000005\ny,nan\n", 1e-9).unwrap();
        assert_eq!((compared.rows, compared.numbers), (2, 1));
        assert!((compared.largest - 5e-10).abs() < 1e-15);
    }

    #[test]
    fn any_other_difference_is_named() {
        for (kept, made, named) in [
            ("a\n1\n", "a\n1.000000002\n", "line 2, cell 1"),
            ("a\n1\n", "a\nnan\n", "line 2, cell 1"),
            ("a\n1\n", "b\n1\n", "line 1, cell 1"),
            ("a\n1\n", "a\n1,2\n", "line 2"),
            ("a\n1\n2\n", "a\n1\n", "3 lines"),
            ("a\n", "a\n", "empty"),
            ("a\nx\n", "a\nx\n", "no number"),
            ("", "", "empty"),
        ] {
            let error = compare(kept, made, 1e-9).unwrap_err().to_string();
            assert!(error.contains(named), "{error}");
        }
    }
}
