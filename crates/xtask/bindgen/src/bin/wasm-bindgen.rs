//! The command `wasm-bindgen` at the version of the page's `wasm-bindgen`, from the lock file beside it.

use std::env;

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen::run_cli_with_args(env::args_os())
}
