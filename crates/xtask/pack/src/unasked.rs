//! What the reactive library brings along for pages that talk to a server: streams that JavaScript would pull
//! from. This page has no server, nothing of its own names them, and they are exported all the same, so that
//! no tool may leave them out. Here they are.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use walrus::Module;

/// The classes, as the glue calls them.
const CLASSES: [&str; 3] = ["IntoUnderlyingByteSource", "IntoUnderlyingSink", "IntoUnderlyingSource"];

/// Leaves them out of the first module and of the glue.
pub(crate) fn remove(wasm: &Path, glue: &Path) -> Result<()> {
    let mut module = Module::from_file(wasm).context("the first module cannot be read")?;
    let unasked: Vec<_> =
        module.exports.iter().filter(|export| is_unasked(&export.name)).map(|export| export.id()).collect();
    for export in unasked {
        module.exports.delete(export);
    }
    walrus::passes::gc::run(&mut module);
    module.emit_wasm_file(wasm).context("the first module cannot be written")?;
    let text = without_classes(&fs::read_to_string(glue)?)?;
    fs::write(glue, text).context("the glue cannot be written")
}

/// Whether an export is a method of one of the classes, or what frees one.
fn is_unasked(export: &str) -> bool {
    let name = export.strip_prefix("__wbg_").unwrap_or(export);
    CLASSES
        .iter()
        .any(|class| name.strip_prefix(&class.to_lowercase()).is_some_and(|rest| rest.starts_with('_')))
}

/// The glue without the classes: each is a block from the start of a line to a brace at the start of another,
/// a line that lets it be disposed of, and a registry of three lines.
fn without_classes(glue: &str) -> Result<String> {
    let mut kept = String::new();
    let mut lines = glue.lines();
    while let Some(line) = lines.next() {
        let of = |before: &str, after: &str| {
            CLASSES.iter().any(|class| line.starts_with(&format!("{before}{class}{after}")))
        };
        if of("export class ", " {") {
            ensure!(lines.any(|line| line == "}"), "a class of the glue has no end");
        } else if of("const ", "Finalization = ") {
            ensure!(lines.any(|line| line.ends_with(';')), "a registry of the glue has no end");
        } else if !of("if (Symbol.dispose) ", ".") {
            kept += line;
            kept.push('\n');
        }
    }
    Ok(kept)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_methods_of_the_classes_are_known_by_their_names() {
        for name in ["intounderlyingsink_close", "__wbg_intounderlyingbytesource_free"] {
            assert!(is_unasked(name), "{name}");
        }
        for name in ["main", "__wbg_sink_free", "intounderlyingsinks", "memory"] {
            assert!(!is_unasked(name), "{name}");
        }
    }

    #[test]
    fn the_glue_keeps_everything_else() {
        let glue = "import a;\n\nexport class IntoUnderlyingSink {\n    close() {\n        wasm.x();\n    }\n}\n\
            if (Symbol.dispose) IntoUnderlyingSink.prototype[Symbol.dispose] = IntoUnderlyingSink.prototype.free;\n\
            export class Other {\n}\nconst IntoUnderlyingSinkFinalization = (typeof F === 'undefined')\n    ? {}\n    : new F();\n\
            let wasm;\n";
        assert_eq!(without_classes(glue).unwrap(), "import a;\n\nexport class Other {\n}\nlet wasm;\n");
        assert!(without_classes("export class IntoUnderlyingSink {\n").is_err());
    }
}
