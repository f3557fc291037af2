//! What others wrote of the page, with the licence of each: `notices.txt` beside the page, and a part of
//! the page as one file.
//!
//! Which packages the page is made of is Cargo's to say, by the lock file; the texts are those that lie in
//! the packages themselves. A package under a choice of licences is taken under MIT where it offers that.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};

use crate::project::Project;
use crate::run::answer;
use crate::tools::WASM;

/// The name of the file, beside `index.html`.
pub(crate) const NAME: &str = "notices.txt";

const OWN: &str = "Scrubline\nCopyright (c) 2026 the Scrubline authors\nMIT OR Apache-2.0, as you choose\n";

/// The standard library is compiled in too, and is no package of the lock file.
const STANDARD: &str = "MIT OR Apache-2.0: Rust's standard library, by the Rust Project contributors; in it dlmalloc \
     (Alex Crichton), hashbrown (Amanieu d'Antras) and compiler-builtins (Jorge Aparicio), \
     under the same two licences";

/// Where the words of the MIT licence begin, after the names of who grants it.
const GRANT: &str = "Permission is hereby granted";

/// Where the terms of the Apache License begin and end; the appendix behind them tells others how to use it.
const TERMS: (&str, &str) = ("Apache License", "END OF TERMS AND CONDITIONS");
const APPENDIX: (&str, &str) = ("APPENDIX: How to apply", "limitations under the License.");

/// A package of others that is compiled into the page.
#[derive(Debug, PartialEq)]
struct Package {
    name: String,
    version: String,
    license: String,
    authors: String,
    /// What it asks to be handed on.
    texts: Vec<String>,
}

/// The whole of `notices.txt`.
pub(crate) fn text(project: &Project) -> Result<String> {
    together(&packages(project)?)
}

/// What is compiled into the page: macros run when it is built and are not in it.
fn packages(project: &Project) -> Result<Vec<Package>> {
    let mut tree = project.cargo();
    tree.args(["tree", "--locked", "--package", "web", "--target", WASM, "--edges", "normal,no-proc-macro"]);
    let list = answer(tree.args(["--prefix", "none", "--format", "{p}|{l}"]))
        .context("Cargo does not say what the page is made of")?;
    let mut metadata = project.cargo();
    metadata.args(["metadata", "--locked", "--format-version", "1", "--filter-platform", WASM]);
    let folders = folders(&answer(&mut metadata).context("Cargo does not say where packages lie")?);
    let mut lines: Vec<_> = list.lines().filter_map(package).collect();
    lines.sort();
    lines.dedup();
    lines.into_iter().map(|(name, version, license)| read(&folders, name, version, license)).collect()
}

/// A line of the tree: `name v1.2.3|licence`, and `(*)` where it came before. Ours name a folder.
fn package(line: &str) -> Option<(&str, &str, &str)> {
    let (package, license) = line.split_once('|')?;
    let (name, version) = package.trim().split_once(" v")?;
    (!version.contains('(')).then(|| (name, version, license.trim_end_matches("(*)").trim()))
}

/// The folders of all packages, from Cargo's JSON.
fn folders(metadata: &str) -> Vec<PathBuf> {
    let manifests = metadata.split("\"manifest_path\":\"").skip(1);
    manifests
        .filter_map(|rest| rest.split('"').next())
        .filter_map(|path| Some(Path::new(&path.replace("\\\\", "\\")).parent()?.to_owned()))
        .collect()
}

fn read(folders: &[PathBuf], name: &str, version: &str, license: &str) -> Result<Package> {
    let called = |wanted: &str| folders.iter().find(|folder| folder.ends_with(wanted));
    let folder = called(&format!("{name}-{version}"))
        .or_else(|| called(name))
        .with_context(|| format!("the source of {name} {version} is nowhere"))?;
    let manifest = fs::read_to_string(folder.join("Cargo.toml"))
        .with_context(|| format!("cannot read the manifest of {name}"))?;
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        files.push((entry.file_name().to_string_lossy().to_ascii_uppercase(), entry.path()));
    }
    files.sort();
    let names: Vec<_> = files.iter().map(|(name, _)| name.as_str()).collect();
    let asked = asked(license, &names);
    let texts = files.iter().filter(|(name, _)| asked.contains(&name.as_str()));
    let texts = texts.map(|(_, path)| fs::read(path).map(|text| lines_of(&String::from_utf8_lossy(&text))));
    Ok(Package {
        name: name.to_owned(),
        version: version.to_owned(),
        license: license.to_owned(),
        authors: authors(&manifest),
        texts: texts.collect::<Result<_, _>>().with_context(|| format!("cannot read a licence of {name}"))?,
    })
}

/// Which of a package's files are to be handed on with it.
fn asked<'a>(license: &str, names: &[&'a str]) -> Vec<&'a str> {
    let begins = |words: &[&str]| {
        let one = |name: &&&str| words.iter().any(|word| name.starts_with(word)) && !name.ends_with(".RS");
        names.iter().filter(one).copied().collect::<Vec<_>>()
    };
    let licenses = begins(&["LICENSE", "LICENCE", "COPYING", "UNLICENSE"]);
    let mit: Vec<_> = licenses.iter().filter(|name| name.contains("MIT")).copied().collect();
    let chosen = if may_be_mit(license) && !mit.is_empty() { mit } else { licenses };
    [chosen, begins(&["NOTICE", "COPYRIGHT"])].concat()
}

/// Whether MIT alone is enough.
fn may_be_mit(license: &str) -> bool {
    !license.contains("AND") && license.split(['/', ' ']).any(|word| word == "MIT")
}

/// The names in a manifest's list of authors, without their addresses.
fn authors(manifest: &str) -> String {
    let list = manifest.split_once("\nauthors = [").and_then(|(_, rest)| rest.split_once(']'));
    let names = list.map_or("", |(list, _)| list).split('"').skip(1).step_by(2);
    let names: Vec<_> = names.map(|name| name.split('<').next().unwrap_or(name).trim()).collect();
    names.join(", ")
}

/// A text with plain ends of lines and nothing around it.
fn lines_of(text: &str) -> String {
    let lines: Vec<_> = text.trim_start_matches('\u{feff}').lines().map(str::trim_end).collect();
    lines.join("\n").trim_matches('\n').to_owned()
}

/// Words that several grant under names of their own.
#[derive(Debug, Default)]
struct Texts(Vec<Text>);

#[derive(Debug)]
struct Text {
    /// Whose it is: who grants it, above the words, for packages of the same names.
    heads: Vec<(Vec<String>, String)>,
    words: String,
}

impl Texts {
    /// Puts a package under the words of its licence; what stands before a grant is its own, and so
    /// is what a text has besides the terms of the Apache License, which all have alike.
    fn add(&mut self, package: String, text: &str) {
        if let Some((terms, holder, rest)) = apart(text) {
            self.put(package.clone(), holder, terms);
            if rest.split_whitespace().next().is_some() {
                self.put(package, String::new(), &rest);
            }
            return;
        }
        let (head, words) = text.split_at(text.find(GRANT).unwrap_or(0));
        self.put(package, head.trim().to_owned(), words);
    }

    fn put(&mut self, package: String, head: String, words: &str) {
        let same = |one: &str, other: &str| one.split_whitespace().eq(other.split_whitespace());
        let Some(found) = self.0.iter_mut().find(|other| same(&other.words, words)) else {
            self.0.push(Text { heads: vec![(vec![package], head)], words: words.to_owned() });
            return;
        };
        match found.heads.iter_mut().find(|(_, other)| same(other, &head)) {
            Some((packages, _)) => packages.push(package),
            None => found.heads.push((vec![package], head)),
        }
    }

    /// All of them, those that begin alike one after the other: a reader sees where they differ, and a
    /// packer that looks 32 kB back sees where they do not.
    fn print(mut self) -> String {
        let first = |text: &Text| text.words.split_whitespace().take(2).collect::<String>();
        self.0.sort_by_key(first);
        let mut all = String::new();
        for Text { heads, words } in self.0 {
            all += &format!("\n{}\n", "-".repeat(78));
            for (packages, head) in heads {
                all += &format!("{}\n", packages.join(", "));
                if !head.is_empty() {
                    all += &format!("{head}\n");
                }
                all.push('\n');
            }
            all += &format!("{words}\n");
        }
        all
    }
}

/// Of a text that holds the Apache License: its terms, who holds the copyright by the appendix, and what
/// else there is.
fn apart(text: &str) -> Option<(&str, String, String)> {
    let from = text.find(TERMS.0)?;
    let to = from + text[from..].find(TERMS.1)? + TERMS.1.len();
    // The name of a licence alone is not the licence.
    if !text[from..to].contains("Definitions.") {
        return None;
    }
    let mut rest = text[to..].to_owned();
    let mut holder = String::new();
    let span = rest.split_once(APPENDIX.0).map(|(before, after)| (before.len(), after.find(APPENDIX.1)));
    if let Some((begins, Some(length))) = span {
        let ends = begins + APPENDIX.0.len() + length + APPENDIX.1.len();
        let lines = rest[begins..ends].lines().map(str::trim);
        let named = |line: &&str| line.starts_with("Copyright") && !line.contains(['[', '{']);
        holder = lines.filter(named).collect::<Vec<_>>().join("\n");
        rest.replace_range(begins..ends, "");
    }
    let before = text[..from].trim_end();
    let rest = if before.is_empty() {
        rest
    } else {
        format!("{before}\n\n(The Apache License 2.0: see there.)\n{rest}")
    };
    Some((&text[from..to], holder, rest.trim_matches('\n').to_owned()))
}

/// The list and the texts, the words of each once.
fn together(packages: &[Package]) -> Result<String> {
    let grant = packages.iter().flat_map(|package| &package.texts).find_map(|text| {
        let (_, words) = text.split_once(GRANT)?;
        // Whoever adds something after it says more than the licence.
        words.trim_end().ends_with("SOFTWARE.").then(|| format!("{GRANT}{words}"))
    });
    let grant = grant.context("no package of the page holds the words of the MIT licence")?;
    // Under each licence, in the order of the first package that is under it.
    let mut list: Vec<(&str, Vec<String>)> = Vec::new();
    let mut granted = Texts::default();
    let ours = "Copyright (c) 2026 the Scrubline authors";
    granted.add("Scrubline".to_owned(), &format!("{ours}\n\n{grant}"));
    granted.add(
        "Rust's standard library".to_owned(),
        &format!("Copyright (c) The Rust Project contributors\n\n{grant}"),
    );
    for Package { name, version, license, authors, texts } in packages {
        let title = format!("{name} {version}");
        // Who holds the copyright stands above the words of the licence, where the package says so.
        let is_named = texts.is_empty() || texts.iter().any(|text| text.contains("Copyright"));
        let by = if is_named || authors.is_empty() { String::new() } else { format!(" ({authors})") };
        let named = title.clone() + &by;
        match list.iter_mut().find(|(other, _)| other == license) {
            Some((_, packages)) => packages.push(named),
            None => list.push((license, vec![named])),
        }
        for text in texts {
            granted.add(title.clone(), text);
        }
        if texts.is_empty() {
            ensure!(may_be_mit(license), "{title} is under {license} and brings no text of it");
            let unnamed = format!("the authors of {name}");
            let holder = if authors.is_empty() { &unnamed } else { authors };
            granted.add(title, &format!("Copyright (c) {holder}\n\n{grant}"));
        }
    }
    let list: String =
        list.iter().map(|(license, packages)| format!("{license}: {}\n", packages.join(", "))).collect();
    Ok(format!(
        "{OWN}\nThe page is compiled from Scrubline and from these packages of others. After the list come the\n\
         words of their licences; where a package leaves a choice that has MIT in it, that is taken.\n\n\
         {STANDARD}\n{list}{}",
        granted.print()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// What is compiled into the page, told another way: the whole tree with its depths, without what hangs
    /// below a macro.
    fn compiled_in(project: &Project) -> BTreeSet<String> {
        let mut cargo = project.cargo();
        cargo.args(["tree", "--locked", "-p", "web", "--target", WASM, "--edges", "normal", "--no-dedupe"]);
        let tree = answer(cargo.args(["--prefix", "depth", "--format", " {p}"])).unwrap();
        let mut found = BTreeSet::new();
        let mut below_macro = usize::MAX;
        for line in tree.lines() {
            let (depth, package) = line.split_once(' ').unwrap();
            let depth: usize = depth.parse().unwrap();
            if depth > below_macro {
                continue;
            }
            below_macro = if package.contains("(proc-macro)") { depth } else { usize::MAX };
            if !package.contains('(') {
                found.insert(package.replace(" v", " "));
            }
        }
        found
    }

    #[test]
    fn every_package_in_the_page_is_named_with_its_text() {
        let project = Project::here().unwrap();
        let text = text(&project).unwrap();
        let (list, texts) = text.split_once(&"-".repeat(78)).unwrap();
        let wanted = compiled_in(&project);
        assert!(wanted.len() > 30, "{wanted:?}");
        for package in &wanted {
            let named = list.lines().filter_map(|line| line.split_once(": "));
            let is_named = |name: &str| name.split(" (").next() == Some(package);
            let is_listed = named.flat_map(|(_, names)| names.split(", ")).any(is_named);
            assert!(is_listed, "{package} is not in the list");
            let head = texts.lines().any(|line| line.split(", ").any(|name| name == package));
            assert!(head, "{package} has no text");
        }
        // By the packages' own files: who holds the copyright of what the page stands on.
        for holder in ["Greg Johnston", "Alex Crichton", "Unicode", "the Scrubline authors"] {
            assert!(texts.contains(holder), "{holder}");
        }
        assert!(texts.contains("Apache License"), "some are under it alone");
        assert!(!list.contains('@'), "addresses stay where they are");
    }

    #[test]
    fn of_a_choice_mit_is_taken_and_of_no_choice_everything() {
        let all = ["CARGO.TOML", "LICENSE-APACHE", "LICENSE-MIT", "LICENSE.RS", "NOTICE", "SRC"];
        for choice in ["MIT OR Apache-2.0", "Apache-2.0/MIT", "Zlib OR Apache-2.0 OR MIT"] {
            assert_eq!(asked(choice, &all), ["LICENSE-MIT", "NOTICE"], "{choice}");
        }
        for both in ["MIT AND Apache-2.0", "Apache-2.0"] {
            assert_eq!(asked(both, &all), ["LICENSE-APACHE", "LICENSE-MIT", "NOTICE"], "{both}");
        }
        assert_eq!(asked("MIT", &["LICENSE"]), ["LICENSE"]);
    }

    #[test]
    fn what_brings_no_text_is_under_mit_by_its_authors_or_refused() {
        let package = |license: &str, authors: &str, texts: &[&str]| Package {
            name: "some".to_owned(),
            version: "1.0.0".to_owned(),
            license: license.to_owned(),
            authors: authors.to_owned(),
            texts: texts.iter().map(|&text| text.to_owned()).collect(),
        };
        let other = || package("MIT", "B", &["Copyright B\n\nPermission is hereby granted, … SOFTWARE."]);
        let text = together(&[other(), package("MIT", "A", &[])]).unwrap();
        assert!(text.contains("Copyright (c) A\n\nPermission is hereby granted, … SOFTWARE."), "{text}");
        assert_eq!(text.matches("Permission is hereby granted").count(), 1, "{text}");
        assert!(text.contains("some 1.0.0\nCopyright B\n"), "{text}");
        assert!(together(&[other(), package("Apache-2.0", "A", &[])]).is_err());
        let unnamed = together(&[other(), package("MIT", "", &[])]).unwrap();
        assert!(unnamed.contains("Copyright (c) the authors of some\n"), "{unnamed}");
        assert!(together(&[package("MIT", "A", &[])]).is_err(), "nothing to take the words from");
    }

    /// Terms that are set otherwise are the same terms; who holds the copyright stays, and so does all else.
    #[test]
    fn the_terms_of_one_licence_stand_once() {
        let terms = |indent: &str| {
            format!("{indent}Apache License\n{indent}1. Definitions.\n{indent}END OF TERMS AND CONDITIONS")
        };
        let mut texts = Texts::default();
        let appendix =
            "\n\n  APPENDIX: How to apply it.\n  Copyright 2020 A\n  limitations under the License.";
        texts.add("a 1.0.0".to_owned(), &(terms("   ") + appendix));
        texts.add("b 1.0.0".to_owned(), &terms(""));
        texts.add("c 1.0.0".to_owned(), &format!("Under both:\n{}\n\nPortions by C", terms("  ")));
        let all = texts.print();
        assert_eq!(all.matches("END OF TERMS").count(), 1, "{all}");
        for part in ["a 1.0.0\nCopyright 2020 A\n", "b 1.0.0, c 1.0.0\n", "Under both:", "Portions by C"] {
            assert!(all.contains(part), "{part} in {all}");
        }
        assert!(!all.contains("APPENDIX"), "{all}");
        let named = "Licensed under the Apache License, Version 2.0";
        assert_eq!(apart(named), None);
    }

    #[test]
    fn manifests_and_trees_are_read() {
        let manifest = "[package]\nauthors = [\n    \"A B <a@b.example>\",\n    \"C\",\n]\nbuild = false\n";
        assert_eq!(authors(manifest), "A B, C");
        assert_eq!(authors("[package]\n"), "");
        assert_eq!(package("a-b v1.2.3+x|MIT (*)"), Some(("a-b", "1.2.3+x", "MIT")));
        assert_eq!(package("web v0.1.0 (/some/where)|MIT"), None);
        let json =
            r#"{"manifest_path":"C:\\a\\b-1.0.0\\Cargo.toml","x":1},{"manifest_path":"/c/Cargo.toml"}"#;
        assert_eq!(folders(json).len(), 2);
        assert_eq!(folders(json)[1], Path::new("/c"));
    }
}
