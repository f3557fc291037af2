//! What the reactive library brings along for pages that talk to a server: streams that JavaScript would pull
//! from. This page has no server, nothing of its own names them, and they are exported all the same, so that
//! no tool may leave them out. Here they are.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use walrus::{Function, FunctionBuilder, FunctionKind, Module};

/// The classes, as the glue calls them.
const CLASSES: [&str; 3] = ["IntoUnderlyingByteSource", "IntoUnderlyingSink", "IntoUnderlyingSource"];

/// Whose the rest of them is, as it stands in the names of functions.
const STREAMS: &str = "wasm_streams";

/// Leaves them out of the first module and of the glue.
pub(crate) fn remove(wasm: &Path, glue: &Path) -> Result<()> {
    let mut module = Module::from_file(wasm).context("the first module cannot be read")?;
    let unasked: Vec<_> =
        module.exports.iter().filter(|export| is_unasked(&export.name)).map(|export| export.id()).collect();
    for export in unasked {
        module.exports.delete(export);
    }
    empty(&mut module);
    walrus::passes::gc::run(&mut module);
    module.emit_wasm_file(wasm).context("the first module cannot be written")?;
    let text = without_classes(&fs::read_to_string(glue)?)?;
    fs::write(glue, text).context("the glue cannot be written")
}

/// Takes the bodies out of what the streams would wait for: a table holds it, and nobody who could ask
/// for it is left.
fn empty(module: &mut Module) {
    let streams = |function: &&Function| function.name.as_ref().is_some_and(|name| is_of_streams(name));
    let found: Vec<_> =
        module.funcs.iter().filter(streams).map(|function| (function.id(), function.ty())).collect();
    for (id, signature) in found {
        if !matches!(module.funcs.get(id).kind, FunctionKind::Local(_)) {
            continue;
        }
        let signature = module.types.get(signature);
        let (takes, gives) = (signature.params().to_vec(), signature.results().to_vec());
        let mut body = FunctionBuilder::new(&mut module.types, &takes, &gives);
        body.func_body().unreachable();
        let arguments = takes.iter().map(|kind| module.locals.add(*kind)).collect();
        module.funcs.get_mut(id).kind = FunctionKind::Local(body.local_func(arguments));
    }
}

/// Whether a function is the streams' own. Last in a mangled name stands the crate that had it compiled, which
/// says nothing of whose it is: any other may call it.
fn is_of_streams(name: &str) -> bool {
    let name = name.strip_suffix(" local_shim").unwrap_or(name);
    name.strip_suffix(STREAMS).unwrap_or(name).contains(STREAMS)
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
    fn what_is_only_compiled_for_the_streams_is_not_theirs() {
        for name in ["_RNvNtCs1_12wasm_streams4poll", "_RNvNtCs1_12wasm_streams4pollCs1_12wasm_streams"] {
            assert!(is_of_streams(name), "{name}");
        }
        for name in ["_RINvNtCs2_12wasm_bindgen4castuECs1_12wasm_streams local_shim", "_RNvCs3_4page4poll"] {
            assert!(!is_of_streams(name), "{name}");
        }
    }

    /// A table holds both functions; that of the streams is left without its body.
    #[test]
    fn what_a_table_holds_is_emptied() {
        let mut module = Module::default();
        let table = module.tables.add_local(false, 2, Some(2), walrus::RefType::FUNCREF);
        let mut add = |name: &str| {
            let mut function =
                FunctionBuilder::new(&mut module.types, &[walrus::ValType::I32], &[walrus::ValType::I32]);
            function.func_body().i32_const(7);
            let argument = module.locals.add(walrus::ValType::I32);
            let id = function.finish(vec![argument], &mut module.funcs);
            module.funcs.get_mut(id).name = Some(name.to_owned());
            id
        };
        let ids = [add("_RNv12wasm_streams4poll"), add("_RNv4page4poll")];
        let place = walrus::ConstExpr::Value(walrus::ir::Value::I32(0));
        let kind = walrus::ElementKind::Active { table, offset: place };
        module.elements.add(kind, walrus::ElementItems::Functions(ids.to_vec()));
        empty(&mut module);
        let is_empty = |id| {
            let FunctionKind::Local(local) = &module.funcs.get(id).kind else { panic!("a body") };
            matches!(local.block(local.entry_block()).instrs[..], [(walrus::ir::Instr::Unreachable(_), _)])
        };
        assert_eq!(ids.map(is_empty), [true, false]);
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
