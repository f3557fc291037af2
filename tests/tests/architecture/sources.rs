//! The modules of a package, and what each names of the others, read from the sources.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// A module as a path from the root of its package.
pub(crate) type Module = Vec<String>;

/// The modules of one package, unit tests left out.
pub(crate) struct Package {
    modules: BTreeMap<Module, Names>,
}

/// What a module names, as paths from the root of its package or of another.
#[derive(Default)]
struct Names {
    /// What is imported or written out, each a path whose first part may be a name of `imports`.
    paths: BTreeSet<Vec<String>>,
    /// Each import by the name that it has here.
    imports: BTreeMap<String, Vec<String>>,
}

/// Rust files under a folder.
pub(crate) fn rust_files(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, into);
        } else if path.extension().is_some_and(|end| end == "rs") {
            into.push(path);
        }
    }
}

/// A source without its comments, the insides of its strings and its unit tests, all on one line.
pub(crate) fn code_of(path: &Path) -> String {
    stripped(&std::fs::read_to_string(path).unwrap())
}

fn stripped(text: &str) -> String {
    // Unit tests stand at the end of a file, in a module.
    let end = text.find("\n#[cfg(test)]\nmod ");
    let mut rest = text[..end.unwrap_or(text.len())].chars().peekable();
    let mut out = String::new();
    while let Some(c) = rest.next() {
        match c {
            '/' if rest.peek() == Some(&'/') => while rest.next_if(|next| *next != '\n').is_some() {},
            '"' => {
                out.push_str("\"\"");
                while let Some(inside) = rest.next().filter(|inside| *inside != '"') {
                    if inside == '\\' {
                        rest.next();
                    }
                }
            }
            // The character `"` is no string.
            '\'' if rest.peek() == Some(&'"') => drop(rest.next()),
            '\n' => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// Words, `::`, and every other sign by itself.
fn tokens(code: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut rest = code.chars().peekable();
    while let Some(c) = rest.next() {
        if c.is_alphanumeric() || c == '_' {
            let mut word = c.to_string();
            while let Some(next) = rest.next_if(|next| next.is_alphanumeric() || *next == '_') {
                word.push(next);
            }
            all.push(word);
        } else if c == ':' && rest.next_if(|next| *next == ':').is_some() {
            all.push("::".to_owned());
        } else if !c.is_whitespace() {
            all.push(c.to_string());
        }
    }
    all
}

/// The words of a piece of code.
pub(crate) fn words_of(code: &str) -> Vec<String> {
    tokens(code).into_iter().filter(|token| is_word(token)).collect()
}

fn is_word(token: &str) -> bool {
    token.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// The imports of a `use`, from behind that word up to its `;`, each with the name that it has here.
fn imports(tokens: &[String], before: &[String], into: &mut Vec<(String, Vec<String>)>) -> usize {
    let (mut path, mut at) = (before.to_vec(), 0);
    let (mut renamed, mut itself, mut open) = (None, false, false);
    while at < tokens.len() {
        match tokens[at].as_str() {
            "{" => {
                at += 1;
                loop {
                    at += imports(&tokens[at..], &path, into);
                    let end = tokens[at].as_str();
                    at += 1;
                    if end != "," {
                        break;
                    }
                }
                open = true;
                continue;
            }
            "as" => {
                at += 1;
                renamed = Some(tokens[at].clone());
            }
            "," | "}" | ";" => break,
            "self" if !path.is_empty() => itself = true,
            word if is_word(word) || word == "*" => path.push(word.to_owned()),
            _ => {}
        }
        at += 1;
    }
    // A list that ends in a comma has nothing behind it.
    if itself || !open && path.len() > before.len() {
        let last = path.last().cloned().unwrap_or_default();
        into.push((renamed.unwrap_or(last), path));
    }
    at
}

/// What a module names: its imports, and every path in its code.
fn names(code: &str) -> Names {
    let tokens = tokens(code);
    let mut names = Names::default();
    let mut at = 0;
    while at < tokens.len() {
        // `use<>` of a return type captures and imports nothing.
        if tokens[at] == "use" && tokens.get(at + 1).is_some_and(|next| next != "<") {
            let mut found = Vec::new();
            at += 1;
            at += imports(&tokens[at..], &[], &mut found);
            for (name, path) in found {
                names.paths.insert(path.clone());
                names.imports.insert(name, path);
            }
        } else if is_word(&tokens[at]) && (at == 0 || tokens[at - 1] != "::") {
            let mut path = vec![tokens[at].clone()];
            while tokens.get(at + 1).is_some_and(|next| next == "::")
                && tokens.get(at + 2).is_some_and(|next| is_word(next))
            {
                at += 2;
                path.push(tokens[at].clone());
            }
            if path.len() > 1 {
                names.paths.insert(path);
            }
            at += 1;
        } else {
            at += 1;
        }
    }
    names
}

impl Package {
    /// The package whose sources lie in a folder. Where it is a library, its `main.rs` is another.
    pub(crate) fn read(folder: &Path) -> Self {
        let mut files = Vec::new();
        rust_files(folder, &mut files);
        let library = folder.join("lib.rs").exists();
        let module = |path: &PathBuf| -> Option<Module> {
            let parts = path.strip_prefix(folder).unwrap().with_extension("");
            let mut parts: Module = parts.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
            let root = if library { "lib" } else { "main" };
            match parts.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
                ["main"] if library => return None,
                ["bin", ..] => return None,
                [one] if *one == root => parts.clear(),
                [.., "mod"] => drop(parts.pop()),
                _ => {}
            }
            Some(parts)
        };
        let read = |path: &PathBuf| Some((module(path)?, names(&code_of(path))));
        Self { modules: files.iter().filter_map(read).collect() }
    }

    /// Sources that are no files.
    pub(crate) fn of(sources: &[(&str, &str)]) -> Self {
        let read = |(name, text): &(&str, &str)| {
            let module = name.split('/').filter(|part| !part.is_empty()).map(str::to_owned).collect();
            (module, names(&stripped(text)))
        };
        Self { modules: sources.iter().map(read).collect() }
    }

    /// Every module.
    pub(crate) fn modules(&self) -> impl Iterator<Item = &Module> {
        self.modules.keys()
    }

    /// The whole paths that a module names, each from `crate` or from another package.
    pub(crate) fn named_by(&self, module: &Module) -> BTreeSet<String> {
        let names = &self.modules[module];
        names.paths.iter().map(|path| names.whole(path).join("::")).collect()
    }

    /// The modules whose own things a module names, by whatever way they reach it.
    pub(crate) fn reached_from(&self, module: &Module) -> BTreeSet<Module> {
        let names = &self.modules[module];
        names.paths.iter().filter_map(|path| self.home(module, &names.whole(path), 0)).collect()
    }

    /// The module in which what a path leads to stands; none where it leads out of the package.
    fn home(&self, from: &Module, path: &[String], depth: u32) -> Option<Module> {
        let mut at: Module = match path.first()?.as_str() {
            "crate" => Vec::new(),
            "self" => from.clone(),
            "super" => from[..from.len().checked_sub(1)?].to_vec(),
            child => {
                let inside: Module = from.iter().cloned().chain([child.to_owned()]).collect();
                if !self.modules.contains_key(&inside) {
                    return None;
                }
                inside
            }
        };
        for (place, part) in path.iter().enumerate().skip(1) {
            if part == "super" {
                at.pop();
                continue;
            }
            at.push(part.clone());
            if !self.modules.contains_key(&at) {
                at.pop();
                let names = self.modules.get(&at)?;
                // What is only passed on stands elsewhere.
                return match names.imports.get(part).filter(|_| depth < 9) {
                    Some(source) => {
                        let whole: Vec<String> = names
                            .whole(source)
                            .into_iter()
                            .chain(path[place + 1..].iter().cloned())
                            .collect();
                        self.home(&at, &whole, depth + 1)
                    }
                    None => Some(at),
                };
            }
        }
        Some(at)
    }
}

impl Names {
    /// A path with its first name as it was imported.
    fn whole(&self, path: &[String]) -> Vec<String> {
        let Some(source) = self.imports.get(&path[0]).filter(|source| source.as_slice() != path) else {
            return path.to_vec();
        };
        source.iter().chain(&path[1..]).cloned().collect()
    }
}
