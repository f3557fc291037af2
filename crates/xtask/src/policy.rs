//! The security policies: of the release page, and of the page as one file.

use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};

/// What the page may load and run: its own files, styles in the page, WebAssembly; nothing inline,
/// nothing from elsewhere.
pub(crate) const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; \
    style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; \
    manifest-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'";

/// What the page as one file may: the two modules and WebAssembly may run; nothing is loaded, and nothing sent.
pub(crate) fn policy(modules: &[String]) -> String {
    let hashes: Vec<_> =
        modules.iter().map(|module| format!("'sha256-{}'", BASE64.encode(Sha256::digest(module)))).collect();
    format!(
        "default-src 'none'; script-src {} 'wasm-unsafe-eval'; style-src 'unsafe-inline'; \
         img-src data: blob:; base-uri 'none'; form-action 'none'",
        hashes.join(" ")
    )
}
