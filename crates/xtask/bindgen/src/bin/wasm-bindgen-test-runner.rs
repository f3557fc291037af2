//! Runs tests that were compiled to WebAssembly in a browser; Cargo calls it as `.cargo/config.toml` says.

use std::env;

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(env::args_os())
}
