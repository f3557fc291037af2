//! `cargo xtask size`: what the page's code is made of, by crate and by function.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use crate::build;
use crate::post_build::LATER;
use crate::project::Project;
use crate::run::{answer, run};
use crate::size::zipped;
use crate::tools;

/// How many functions are listed of each module, the largest first.
const LISTED: usize = 40;

/// A function of a module.
#[derive(Debug, PartialEq)]
struct Function<'a> {
    body: &'a [u8],
    name: &'a str,
}

/// Compiles the page, takes it apart and prints what each module holds. Names stand in the code until the
/// optimiser has gone over it, so these are the sizes before that: about a quarter more.
pub(crate) fn command(project: &Project) -> Result<()> {
    tools::for_page(project)?;
    let pack = build::pack(project)?;
    let wasm = build::code(project, build::Made::Small)?;
    let folder = project.path("target/size");
    fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    run(project.command(&pack).arg(wasm).arg(&folder))?;
    for (title, file) in [("First module", "web_bg.wasm"), ("Second module", LATER)] {
        let path = folder.join(file);
        let lines = answer(project.command(&pack).arg("--functions").arg(&path))
            .with_context(|| format!("{} cannot be read", path.display()))?;
        print(title, &path, &lines)?;
    }
    Ok(())
}

fn print(title: &str, path: &Path, lines: &str) -> Result<()> {
    let bytes = fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
    let mut functions: Vec<_> = lines.lines().filter_map(|line| function(&bytes, line)).collect();
    println!("\n{title}: {} functions\n{:>9} {:>9}  crate", functions.len(), "raw", "gzip");
    for (zipped, raw, name) in by_crate(&functions)? {
        println!("{raw:9} {zipped:9}  {name}");
    }
    functions.sort_by_key(|function| std::cmp::Reverse(function.body.len()));
    println!("{:>9}  function", "raw");
    for function in functions.iter().take(LISTED) {
        println!("{:9}  {}", function.body.len(), function.name);
    }
    Ok(())
}

fn function<'a>(bytes: &'a [u8], line: &'a str) -> Option<Function<'a>> {
    let mut parts = line.splitn(3, '\t');
    let (start, end) = (parts.next()?.parse::<usize>().ok()?, parts.next()?.parse::<usize>().ok()?);
    Some(Function { body: bytes.get(start..end)?, name: parts.next()? })
}

/// After gzip, raw, and the crate: each crate's functions compressed together, the largest first.
fn by_crate(functions: &[Function<'_>]) -> Result<Vec<(usize, usize, String)>> {
    let mut crates: BTreeMap<&str, Vec<u8>> = BTreeMap::new();
    for function in functions {
        crates.entry(crate_of(function.name)).or_default().extend(function.body);
    }
    let mut sizes = Vec::new();
    for (name, code) in crates {
        sizes.push((zipped(&code)?, code.len(), name.to_owned()));
    }
    sizes.sort_by(|a, b| b.cmp(a));
    Ok(sizes)
}

/// The package that a function is written in: the first name of its path.
fn crate_of(name: &str) -> &str {
    let path = name.trim_start_matches(['<', '&', '[', '(', '*']);
    let path =
        ["mut ", "dyn ", "const "].iter().fold(path, |path, word| path.strip_prefix(word).unwrap_or(path));
    let end =
        path.find(|letter: char| !letter.is_ascii_alphanumeric() && letter != '_').unwrap_or(path.len());
    if path[end..].starts_with("::") { &path[..end] } else { "without a crate" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_belongs_to_the_first_name_of_its_path() {
        for (name, of) in [
            ("page::sketch::draw", "page"),
            ("<study::rest::Rest>::of", "study"),
            ("<&mut alloc::vec::Vec<page::dom::Node> as core::fmt::Debug>::fmt", "alloc"),
            ("<[alloc::string::String]>::join", "alloc"),
            ("main", "without a crate"),
        ] {
            assert_eq!(crate_of(name), of, "{name}");
        }
    }

    #[test]
    fn a_crates_functions_are_added_up() {
        let bytes = [1, 2, 3, 4, 5, 6];
        let functions: Vec<_> =
            ["1\t3\tstudy::a", "3\t4\ttruck::b", "4\t6\tstudy::c", "9\t12\tstudy::d", "x"]
                .into_iter()
                .filter_map(|line| function(&bytes, line))
                .collect();
        assert_eq!(functions.len(), 3);
        let crates: Vec<_> =
            by_crate(&functions).unwrap().into_iter().map(|(_, raw, name)| (raw, name)).collect();
        assert_eq!(crates, [(4, "study".to_owned()), (1, "truck".to_owned())]);
    }
}
