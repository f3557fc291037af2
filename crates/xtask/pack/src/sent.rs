//! A module as it is sent.
//!
//! What servers and browsers agree on, gzip, leaves a quarter more of this code than the steps of LZMA do where their
//! odds know its instructions. `web/assets/unpack.js` unpacks it.

use std::fs;
use std::ops::Range;
use std::path::Path;

use anyhow::{Context, Result};
use wasmparser::{Parser, Payload};

use crate::cheapest::cheapest;
use crate::odds::{Coder, Odds};
use crate::told::Told;

/// Below this much the coder gives out another byte.
const NARROW: u64 = 1 << 24;

/// Writes what is sent of a module.
pub(crate) fn write(wasm: &Path, packed: &Path) -> Result<()> {
    let code = fs::read(wasm).with_context(|| format!("cannot read {}", wasm.display()))?;
    let sent = pack(&code).with_context(|| format!("{} cannot be packed", wasm.display()))?;
    fs::write(packed, sent).with_context(|| format!("cannot write {}", packed.display()))
}

/// How long it is and from where to where its functions reach, four bytes each, the lowest first; then its bits.
fn pack(code: &[u8]) -> Result<Vec<u8>> {
    let functions = functions(code);
    let mut sent = Vec::new();
    for number in [code.len(), functions.start, functions.end] {
        sent.extend(u32::try_from(number)?.to_le_bytes());
    }
    let coder = Packer { low: 0, width: u64::from(u32::MAX), held: None, full: 0, sent };
    let told = Told::new(code, &functions);
    let mut odds = Odds::new(coder);
    told.tell(&mut odds, &cheapest(&told));
    Ok(odds.coder().end())
}

/// Where a module's functions lie; nowhere in what is none.
fn functions(code: &[u8]) -> Range<usize> {
    let sections = Parser::new(0).parse_all(code).map_while(Result::ok);
    let mut found = sections.filter_map(|payload| match payload {
        Payload::CodeSectionEntry(function) => Some(function.range()),
        _ => None,
    });
    let place = |at: u64| usize::try_from(at).unwrap_or(code.len());
    let Some(first) = found.next() else { return code.len()..code.len() };
    let end = found.last().map_or(first.end, |last| last.end);
    // Before its body stands how long that is, in bytes of seven bits.
    let length = (first.end - first.start).ilog2() / 7 + 1;
    place(first.start - u64::from(length))..place(end)
}

/// Writes bits: each takes its part of an interval, of which the first bytes are given out once they are sure
/// (G. N. N. Martin, "Range encoding", 1979).
struct Packer {
    /// Where the interval begins and how wide it is.
    low: u64,
    width: u64,
    /// The last byte that may still become one more, and how many full ones behind it that would then be empty.
    held: Option<u8>,
    full: usize,
    sent: Vec<u8>,
}

impl Coder for Packer {
    fn bit(&mut self, is: bool, chance: u32) {
        let bound = (self.width >> 12) * u64::from(chance);
        if is {
            self.low += bound;
            self.width -= bound;
        } else {
            self.width = bound;
        }
        while self.width < NARROW {
            self.width <<= 8;
            self.give();
        }
    }
}

impl Packer {
    /// Gives out what is sure of the interval's first byte.
    fn give(&mut self) {
        let (carries, first) = (self.low > u64::from(u32::MAX), (self.low >> 24) as u8);
        if !carries && first == 255 {
            self.full += 1;
        } else {
            let carry = u8::from(carries);
            self.sent.extend(self.held.map(|held| held + carry));
            self.sent.extend((0..self.full).map(|_| 255_u8.wrapping_add(carry)));
            (self.held, self.full) = (Some(first), 0);
        }
        self.low = (self.low << 8) & u64::from(u32::MAX);
    }

    fn end(mut self) -> Vec<u8> {
        (0..5).for_each(|_| self.give());
        self.sent
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use walrus::FunctionBuilder;

    /// The header says how long it is and where its functions are, which `unpack.js` goes by.
    #[test]
    fn what_is_sent_says_how_long_it_is_and_where_its_functions_are() {
        let mut module = walrus::Module::default();
        for number in [1, 2] {
            let mut function = FunctionBuilder::new(&mut module.types, &[], &[]);
            function.func_body().i32_const(number).drop();
            let id = function.finish(vec![], &mut module.funcs);
            module.exports.add(&format!("f{number}"), id);
        }
        let code = module.emit_wasm();
        let sent = pack(&code).unwrap();
        let number = |at: usize| u32::from_le_bytes(sent[at..at + 4].try_into().unwrap()) as usize;
        assert_eq!(number(0), code.len());
        // Each is its length, no locals, `i32.const`, its number, `drop` and `end`.
        let both = [5, 0, 0x41, 1, 0x1a, 0x0b, 5, 0, 0x41, 2, 0x1a, 0x0b];
        assert_eq!(code[number(4)..number(8)], both);
        let none = pack(b"text").unwrap();
        assert_eq!([none[0], none[4], none[8]], [4, 4, 4]);
    }

    /// A carry runs through bytes that are full: what is given out is the interval's beginning, whatever it was
    /// before.
    #[test]
    fn a_carry_goes_through_full_bytes() {
        let mut packer = Packer { low: 0x12ff_ff80, width: 1 << 32, held: None, full: 0, sent: Vec::new() };
        for _ in 0..3 {
            packer.give();
        }
        packer.low += 1 << 32;
        assert_eq!(packer.end(), [0x13, 0, 0, 0x80, 0, 0, 0]);
    }

    /// What is likely takes next to nothing, what is even a bit.
    #[test]
    fn bits_take_what_their_chances_say() {
        let bytes = |chance: u32, is: bool| {
            let mut packer =
                Packer { low: 0, width: u64::from(u32::MAX), held: None, full: 0, sent: Vec::new() };
            (0..8000).for_each(|_| packer.bit(is, chance));
            packer.end().len()
        };
        assert!((1000..1010).contains(&bytes(2048, true)), "{}", bytes(2048, true));
        // log2(4096/4095) of 8000 bits are three, log2(4096) twelve thousand bytes.
        assert!(bytes(4095, false) < 6);
        assert!((12_000..12_010).contains(&bytes(4095, true)));
    }
}
