//! A module as it is sent.
//!
//! What servers and browsers agree on, gzip, leaves a fifth more of this code than LZMA does: its odds go by what
//! the byte before was, and it looks back as far as the module reaches. `web/assets/unpack.js` unpacks it.

use std::fs;
use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result};
use lzma_rust2::{LzmaOptions, LzmaWriter};

/// The hardest of the usual ways to look for repeats.
const PRESET: u32 = 9;
/// What `unpack.js` takes for granted: bits of the byte before that go with a literal, and of a byte's place in
/// the file that go with anything. Code is aligned to nothing; three or five bits pack no better.
const LITERAL_CONTEXT: u32 = 4;
const PLACES: u32 = 0;
/// How far back it is looked, bytes: farther than either module is long.
const REACH: u32 = 1 << 20;

/// Writes what is sent of a module.
pub(crate) fn write(wasm: &Path, packed: &Path) -> Result<()> {
    let code = fs::read(wasm).with_context(|| format!("cannot read {}", wasm.display()))?;
    let sent = pack(&code).with_context(|| format!("{} cannot be packed", wasm.display()))?;
    fs::write(packed, sent).with_context(|| format!("cannot write {}", packed.display()))
}

fn pack(code: &[u8]) -> Result<Vec<u8>> {
    let mut options = LzmaOptions::with_preset(PRESET);
    options.lc = LITERAL_CONTEXT;
    options.lp = PLACES;
    options.pb = PLACES;
    options.dict_size = REACH;
    options.nice_len = LzmaOptions::NICE_LEN_MAX;
    // The length stands in the header: no mark has to say where it ends.
    let length = u64::try_from(code.len())?;
    let mut writer = LzmaWriter::new_use_header(Vec::new(), &options, Some(length))?;
    writer.write_all(code)?;
    Ok(writer.finish()?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use lzma_rust2::LzmaReader;
    use std::io::Read;

    /// The header of a `.lzma` file by its specification: lc + 9 (lp + 5 pb), how far back, how long; what
    /// `unpack.js` reads and what it refuses hang on these.
    #[test]
    fn what_is_sent_says_how_it_is_packed_and_how_long_it_is() {
        let code: Vec<u8> =
            (0..3000_u32).flat_map(|at| [(at % 7) as u8, ((at * at) >> 5) as u8, 0x0b]).collect();
        let sent = pack(&code).unwrap();
        assert_eq!(sent[0], 4);
        assert_eq!(sent[1..5], (1_u32 << 20).to_le_bytes());
        assert_eq!(sent[5..13], 9000_u64.to_le_bytes());
        assert!(sent.len() < code.len());
        let mut again = Vec::new();
        LzmaReader::new_mem_limit(sent.as_slice(), u32::MAX, None).unwrap().read_to_end(&mut again).unwrap();
        assert_eq!(again, code);
    }
}
