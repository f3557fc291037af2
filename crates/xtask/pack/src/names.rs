//! Short names between the first module and the glue.
//!
//! What the one asks of the other is named by words of up to two hundred letters, most with a digest in them
//! that no packer makes smaller, and they stand on both sides: six kilobytes of the download. Here they
//! become a letter or two, and what neither side asks of the other any more is left out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::mem::replace;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use walrus::Module;

/// What the first module calls the glue, where it names what it asks of it.
const OF_GLUE: &str = "./web_bg.js";
/// How the names begin under which the glue alone asks for something. The second module is linked by the others.
const OF_MODULE: [&str; 3] = ["__wbindgen_", "__externref_", "wasm_bindgen_"];
/// How a line of the glue begins that gives the first module something, and how the last of them is followed.
const MARGIN: &str = "        ";
const END: &str = "    };";

/// Makes the names short in both.
pub(crate) fn shorten(wasm: &Path, glue: &Path) -> Result<()> {
    let mut module = Module::from_file(wasm).context("the first module cannot be read")?;
    let text = fs::read_to_string(glue)?;
    without_unnamed(&mut module, &text);
    let short = shortened(&mut module);
    module.emit_wasm_file(wasm).context("the first module cannot be written")?;
    fs::write(glue, renamed(&without_unasked(&text, &short)?, &short)).context("the glue cannot be written")
}

/// Leaves out the exports that the glue does not name, and what only they held.
fn without_unnamed(module: &mut Module, glue: &str) {
    let named: BTreeSet<_> = words(glue).collect();
    let exports = module.exports.iter().filter(|export| !named.contains(export.name.as_str()));
    for export in exports.map(|export| export.id()).collect::<Vec<_>>() {
        module.exports.delete(export);
    }
    walrus::passes::gc::run(module);
}

/// Gives the module the short names; each by the one that it had.
fn shortened(module: &mut Module) -> BTreeMap<String, String> {
    let imports = module.imports.iter_mut().filter(|import| import.module == OF_GLUE);
    let imports = imports.map(|import| &mut import.name).zip(0..);
    let exports = module.exports.iter_mut().map(|export| &mut export.name);
    let exports = exports.filter(|name| OF_MODULE.iter().any(|begins| name.starts_with(begins))).zip(0..);
    // Each side has names of its own, so both begin with the first letter.
    imports.chain(exports).map(|(name, place)| (replace(name, letters(place)), letters(place))).collect()
}

/// The name at a place: a to z, then aa, ba and so on.
fn letters(place: usize) -> String {
    let mut name = String::new();
    let mut left = place + 1;
    while left > 0 {
        name.extend(('a'..='z').nth((left - 1) % 26));
        left = (left - 1) / 26;
    }
    name
}

/// The glue without what it would give and the module does not ask for. Each is a line with a name and those
/// below it up to the next.
fn without_unasked(glue: &str, asked: &BTreeMap<String, String>) -> Result<String> {
    let (mut kept, mut gives, mut found) = (String::new(), true, 0);
    for line in glue.lines() {
        let given = line.strip_prefix(MARGIN).and_then(|line| line.split_once(": function("));
        if let Some((name, _)) = given.filter(|(name, _)| words(name).eq([*name])) {
            gives = asked.contains_key(name);
            found += usize::from(gives);
        } else if line == END {
            gives = true;
        }
        if gives {
            kept += line;
            kept.push('\n');
        }
    }
    ensure!(found > 0, "the glue gives the first module nothing that it asks for");
    Ok(kept)
}

/// The glue with the short names.
fn renamed(glue: &str, short: &BTreeMap<String, String>) -> String {
    let pieces = glue.split_inclusive(|letter| !is_of_word(letter));
    let pieces = pieces.map(|piece| {
        let word = piece.trim_end_matches(|letter| !is_of_word(letter));
        short.get(word).map_or_else(|| piece.to_owned(), |name| name.clone() + &piece[word.len()..])
    });
    pieces.collect()
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter| !is_of_word(letter)).filter(|word| !word.is_empty())
}

fn is_of_word(letter: char) -> bool {
    letter.is_alphanumeric() || matches!(letter, '_' | '$')
}

#[cfg(test)]
mod tests {
    use super::*;
    use walrus::{FunctionBuilder, Module};

    const GLUE: &str = "function imports() {\n    const import0 = {\n\
        \x20       __wbg_blur_c285: function(arg0) {\n            arg0.blur(); wasm.__wbindgen_free();\n        },\n\
        \x20       __wbg_close_bf94: function(arg0) {\n            arg0.close();\n        },\n\
        \x20       __wbg_blur_c2: function() { return [\n        ];\n        },\n\
        \x20   };\n    return { memory, import0 };\n}\n";

    /// The first module as it comes: two imports from the glue and one from elsewhere, and exports.
    fn module() -> Module {
        let mut module = Module::default();
        let signature = module.types.add(&[], &[]);
        let mut called = Vec::new();
        for (from, name) in [(OF_GLUE, "__wbg_blur_c285"), ("./parts.js", "load"), (OF_GLUE, "__wbg_blur_c2")]
        {
            called.push(module.add_import_func(from, name, signature).0);
        }
        for name in ["__wbindgen_free", "memory", "__heap_base"] {
            let mut function = FunctionBuilder::new(&mut module.types, &[], &[]);
            for called in &called {
                function.func_body().call(*called);
            }
            let id = function.finish(vec![], &mut module.funcs);
            module.exports.add(name, id);
        }
        module
    }

    #[test]
    fn both_sides_have_the_same_short_names() {
        let mut module = module();
        without_unnamed(&mut module, GLUE);
        let short = shortened(&mut module);
        let imports: Vec<_> = module.imports.iter().map(|import| import.name.as_str()).collect();
        let exports: Vec<_> = module.exports.iter().map(|export| export.name.as_str()).collect();
        assert_eq!((imports, exports), (vec!["a", "load", "b"], vec!["a", "memory"]));
        let glue = renamed(&without_unasked(GLUE, &short).unwrap(), &short);
        assert_eq!(
            glue,
            "function imports() {\n    const import0 = {\n\
            \x20       a: function(arg0) {\n            arg0.blur(); wasm.a();\n        },\n\
            \x20       b: function() { return [\n        ];\n        },\n\
            \x20   };\n    return { memory, import0 };\n}\n"
        );
    }

    #[test]
    fn a_glue_that_gives_otherwise_is_refused() {
        let short = shortened(&mut module());
        assert!(without_unasked(&GLUE.replace(": function", ": "), &short).is_err());
        assert!(without_unasked(&GLUE.replace("c2", "c3"), &short).is_err());
    }

    #[test]
    fn no_two_places_have_one_name() {
        let names: BTreeSet<_> = (0..2000).map(letters).collect();
        assert_eq!(names.len(), 2000);
        assert_eq!([0, 25, 26, 701, 702].map(letters), ["a", "z", "aa", "zz", "aaa"]);
        assert!(names.iter().all(|name| name.chars().all(|letter| letter.is_ascii_lowercase())));
    }
}
