//! How the first module comes by the second: a loader of our own in the page's glue.
//!
//! The splitter writes a file that fetches; on a disk nothing can be fetched, and a file more would be a
//! request more. So what it wrote stands in the glue itself, and the bytes come from the page where they
//! stand in it, else from beside it, where only those of this very version are taken.

use anyhow::{Context, Result, ensure};

/// What the splitter's file is called.
pub(crate) const NAME: &str = "parts.js";

/// What gives the bytes. The build puts the digest between the quotes; without one anything is taken. What is
/// packed is unpacked between frames, so a drag has its own meanwhile.
const BYTES: &str = r#"async function sent() {
    const inlined = document.getElementById("scrubline-later");
    if (inlined) return new Response(Uint8Array.from(atob(inlined.textContent), (letter) => letter.charCodeAt(0)));
    const answer = await fetch(new URL("./later.wasm", import.meta.url), { cache: "no-cache", integrity: "" });
    if (!answer.ok) throw new Error(`${answer.url} answered ${answer.status}`);
    return answer;
}
async function bytes() {
    const code = await sent();
    return globalThis.scrublineUnpack ? globalThis.scrublineUnpack(code.body, 6) : code.arrayBuffer();
}
"#;

/// The glue with the splitter's file inside, in which `second` is what the second module is called.
pub(crate) fn inside(glue: &str, links: &str, second: &str) -> Result<String> {
    let import = format!(" from \"./{NAME}\"");
    let (before, after) = glue.split_once(&import).context("the glue does not import its parts")?;
    let (before, name) =
        before.rsplit_once("import * as ").context("the glue imports its parts otherwise")?;
    let after = after.trim_start_matches(';');
    ensure!(!after.contains(&import), "the glue imports its parts twice");
    Ok(format!("{before}const {name} = (() => {{\n{BYTES}{}}})();{after}", links_of(links, second)?))
}

/// The splitter's file as the body of a function that gives what it exports.
fn links_of(links: &str, second: &str) -> Result<String> {
    let (_, body) = links
        .split_once("import { initSync } from \"./web.js\";\n")
        .context("the splitter's file does not begin with the glue")?;
    let fetched = format!("fetch(new URL(\"./{second}\", import.meta.url))");
    ensure!(body.matches(&fetched).count() == 1, "the splitter's file fetches otherwise");
    let streamed = "WebAssembly.instantiateStreaming(src, imports)";
    ensure!(body.matches(streamed).count() == 1, "the splitter's file links otherwise");
    let body = body.replace(&fetched, "bytes()");
    let body = body.replace(streamed, "WebAssembly.instantiate(await src, imports)");
    let exports: Vec<_> = body
        .lines()
        .filter_map(|line| line.strip_prefix("export const "))
        .filter_map(|line| line.split([' ', '=']).next())
        .map(str::to_owned)
        .collect();
    ensure!(!exports.is_empty(), "the splitter's file exports nothing");
    let body = body.replace("\nexport const ", "\nconst ");
    ensure!(!body.contains("export ") && !body.contains("import "), "the splitter's file needs more");
    Ok(format!("{body}return {{ {} }};\n", exports.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    const GLUE: &str = "import * as import1 from \"./parts.js\";\n\nfunction f() { import1; }\n";

    fn links(body: &str) -> String {
        format!("import {{ initSync }} from \"./web.js\";\n\n{body}")
    }

    const BODY: &str = "function g() {}\nexport const load_a = g(() => {\n\
        const src = fetch(new URL(\"./part_a.wasm\", import.meta.url));\n\
        return async (imports) => (WebAssembly.instantiateStreaming(src, imports));\n});\n";

    #[test]
    fn the_splitters_file_stands_in_the_glue() {
        let whole = inside(GLUE, &links(BODY), "part_a.wasm").unwrap();
        assert!(whole.starts_with("const import1 = (() => {\n"), "{whole}");
        assert!(whole.contains("\nconst load_a = g("), "{whole}");
        assert!(whole.contains("return { load_a };\n})();\n\nfunction f() { import1; }\n"), "{whole}");
        assert!(
            !whole.contains("part_a") && !whole.contains("export") && !whole.contains("import \""),
            "{whole}"
        );
        assert_eq!(whole.matches("fetch(").count(), 1, "ours alone");
    }

    #[test]
    fn what_is_written_otherwise_is_refused() {
        let twice = BODY.repeat(2);
        for (glue, body, second) in [
            ("import1;", BODY, "part_a.wasm"),
            (GLUE, BODY, "part_b.wasm"),
            (GLUE, twice.as_str(), "part_a.wasm"),
            (GLUE, &BODY.replace("Streaming", ""), "part_a.wasm"),
            (GLUE, &BODY.replace("export const", "export let"), "part_a.wasm"),
            (GLUE, "function g() {}\n", "part_a.wasm"),
        ] {
            assert!(inside(glue, &links(body), second).is_err(), "{glue}{body}");
        }
        assert!(inside(GLUE, BODY, "part_a.wasm").is_err(), "not from the glue");
    }
}
