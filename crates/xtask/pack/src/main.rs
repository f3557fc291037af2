//! Takes the page's WebAssembly apart: what a first minute shows, and a second module that is fetched when
//! it is first asked for; with the glue that both need.
//!
//! `pack IN.wasm FOLDER` leaves `web.js`, `web_bg.wasm` and `later.wasm` in the folder. IN is built with the
//! feature `split` of `web` and with its relocations, see `crates/xtask/src/build.rs`, which calls this.
//! `pack --functions IN.wasm` lists what a module is made of, `pack --arrange IN.wasm` puts its
//! functions in the order in which they are sent, and `pack --send IN.wasm OUT.packed` packs it for that.

mod cheapest;
mod functions;
mod loader;
mod names;
mod odds;
mod order;
mod place;
mod sent;
mod step;
mod told;
mod unasked;

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, Result, anyhow, bail, ensure};
use wasm_bindgen_cli_support::Bindgen;
use wasm_split_cli_support::{Options, transform};

/// What the page's glue, its first and its second module are called.
const GLUE: &str = "web.js";
const FIRST: &str = "web.wasm";
/// The first module once the glue is made for it.
const BOUND: &str = "web_bg.wasm";
const SECOND: &str = "later.wasm";

fn main() -> ExitCode {
    let arguments: Vec<_> = env::args_os().skip(1).map(PathBuf::from).collect();
    let done = match arguments.as_slice() {
        [flag, input] if flag.as_os_str() == "--functions" => functions::list(input),
        [flag, wasm] if flag.as_os_str() == "--arrange" => order::arrange(wasm),
        [flag, wasm, packed] if flag.as_os_str() == "--send" => sent::write(wasm, packed),
        [input, folder] => pack(input, folder),
        _ => Err(anyhow!("pack IN.wasm FOLDER, or one of --functions, --arrange and --send with a file")),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("pack: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn pack(input: &Path, folder: &Path) -> Result<()> {
    let wasm = fs::read(input).with_context(|| format!("cannot read {}", input.display()))?;
    let apart = folder.join("apart");
    let second = split(&wasm, &apart)?;
    Bindgen::new()
        .input_path(apart.join(FIRST))
        .web(true)?
        .typescript(false)
        // As the command has it, so that the glue names the first module.
        .omit_default_module_path(false)
        // The second module is linked to the first by what the linker exports.
        .keep_lld_exports(true)
        .generate(folder)
        .context("wasm-bindgen does not take the first module")?;
    let glue = folder.join(GLUE);
    unasked::remove(&folder.join(BOUND), &glue)?;
    let links = fs::read_to_string(apart.join(loader::NAME))?;
    let whole = loader::inside(&fs::read_to_string(&glue)?, &links, &file_name(&second)?)?;
    fs::write(&glue, whole)?;
    names::shorten(&folder.join(BOUND), &glue)?;
    fs::rename(&second, folder.join(SECOND))?;
    fs::remove_dir_all(&apart).context("cannot remove what was only needed on the way")
}

/// Splits the code; gives the second module.
fn split(wasm: &[u8], apart: &Path) -> Result<PathBuf> {
    fs::create_dir_all(apart).with_context(|| format!("cannot make {}", apart.display()))?;
    let first = apart.join(FIRST);
    let link = format!("./{}", loader::NAME);
    let glue = format!("./{GLUE}");
    let mut options = Options::new(wasm);
    options.output_dir = apart;
    options.main_out_path = &first;
    options.link_name = &link;
    options.main_module = &glue;
    let made = transform(options).map_err(|error| anyhow!("the code cannot be split: {error:#}"))?;
    ensure!(!made.split_modules.is_empty(), "nothing in the code says where to split it");
    let [second] = made.split_modules.as_slice() else {
        bail!("the page has a place for one more module, not for {}", made.split_modules.len());
    };
    Ok(second.clone())
}

fn file_name(path: &Path) -> Result<String> {
    Ok(path.file_name().context("a module has a name")?.to_string_lossy().into_owned())
}
