//! What a module's code is made of: where each function lies in the file, and what it is called.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use rustc_demangle::demangle;
use walrus::{FunctionKind, Module};

/// Prints a line for each function of its own: where its body begins and ends in the file, and its name.
pub(crate) fn list(wasm: &Path) -> Result<()> {
    let bytes = fs::read(wasm).with_context(|| format!("cannot read {}", wasm.display()))?;
    let module = Module::from_buffer(&bytes).with_context(|| format!("{} is no module", wasm.display()))?;
    for function in module.funcs.iter() {
        let FunctionKind::Local(local) = &function.kind else { continue };
        let Some(range) = &local.original_range else { continue };
        let name = function.name.as_deref().unwrap_or("?");
        println!("{}\t{}\t{}", range.start, range.end, plain(name));
    }
    Ok(())
}

/// A name as the source has it, without the numbers that tell one compilation from another.
fn plain(name: &str) -> String {
    let name = format!("{:#}", demangle(name));
    let mut plain = String::new();
    let mut rest = name.as_str();
    // What the tool for the first module has read already still carries them, in brackets.
    while let Some((before, after)) = rest.split_once('[') {
        plain += before;
        rest = match after.split_once(']') {
            Some((digits, behind))
                if digits.len() > 8 && digits.bytes().all(|byte| byte.is_ascii_hexdigit()) =>
            {
                behind
            }
            _ => {
                plain.push('[');
                after
            }
        };
    }
    plain + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_those_of_the_source() {
        assert_eq!(plain("_ZN5study4rest4Rest2of17h0123456789abcdefE"), "study::rest::Rest::of");
        assert_eq!(plain("page[b165465123a059f3]::sketch::draw"), "page::sketch::draw");
        assert_eq!(plain("<[alloc::string::String]>::join"), "<[alloc::string::String]>::join");
        assert_eq!(plain("main"), "main");
    }
}
