//! The steps by which LZMA packs a file: where a byte stands for itself, and where bytes come again.
//!
//! The format is that of `.lzma` files (LZMA specification, 2015) with one set of properties, which say how the search
//! for the best steps counts them; what is sent of them, [`crate::told`] says.

use std::io::Write;

use anyhow::{Context, Result, ensure};
use lzma_rust2::{LzmaOptions, LzmaWriter};

/// The hardest of the usual ways to look for repeats.
const PRESET: u32 = 9;
/// Bits of the byte before that go with a literal, and of a byte's place in the file that go with anything: code is
/// aligned to nothing.
const LITERAL_CONTEXT: u32 = 4;
const PLACES: u32 = 0;
/// How far back it is looked, bytes: farther than either module is long.
const REACH: u32 = 1 << 20;
/// How long the header is, and the first bytes of the coder.
const HEADER: usize = 13;
const CODE: usize = 5;

/// One step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Step {
    /// A byte.
    Byte,
    /// So many bytes from so far back, less one.
    Far { distance: usize, length: usize },
    /// So many from as far back as the last time, or before that.
    Again { which: usize, length: usize },
    /// One byte from as far back as the last time.
    One,
}

/// The steps to a file.
pub(crate) fn steps(code: &[u8]) -> Result<Vec<Step>> {
    let mut options = LzmaOptions::with_preset(PRESET);
    options.lc = LITERAL_CONTEXT;
    options.lp = PLACES;
    options.pb = PLACES;
    options.dict_size = REACH;
    options.nice_len = LzmaOptions::NICE_LEN_MAX;
    let mut writer = LzmaWriter::new_use_header(Vec::new(), &options, Some(u64::try_from(code.len())?))?;
    writer.write_all(code)?;
    read(&writer.finish()?, code)
}

/// The steps that stand in a packed file.
fn read(packed: &[u8], code: &[u8]) -> Result<Vec<Step>> {
    let first = packed.get(HEADER + 1..HEADER + CODE).context("the packed file is cut short")?;
    let first = first.iter().fold(0, |code, byte| code << 8 | u32::from(*byte));
    let rest = packed[HEADER + CODE..].iter();
    let mut reader = Reader { coder: Bits { rest, width: u32::MAX, code: first }, odds: Odds::new() };
    let (mut steps, mut past, mut state, mut last) = (Vec::new(), 0, 0, [0; 4]);
    while past < code.len() {
        let step = reader.step(&code[..past], state, last[0]);
        past += step.length();
        state = step.after(state);
        step.remember(&mut last);
        steps.push(step);
    }
    ensure!(past == code.len(), "the packed file is longer than it says");
    Ok(steps)
}

impl Step {
    /// How many bytes it gives.
    pub(crate) fn length(self) -> usize {
        match self {
            Self::Byte | Self::One => 1,
            Self::Far { length, .. } | Self::Again { length, .. } => length,
        }
    }

    /// What the specification calls the state, after it: of twelve, by what the last steps were.
    pub(crate) fn after(self, state: usize) -> usize {
        let was_byte = state < 7;
        match self {
            Self::Byte if state < 4 => 0,
            Self::Byte if state < 10 => state - 3,
            Self::Byte => state - 6,
            Self::Far { .. } if was_byte => 7,
            Self::Far { .. } => 10,
            Self::Again { .. } if was_byte => 8,
            Self::One if was_byte => 9,
            Self::Again { .. } | Self::One => 11,
        }
    }

    /// Keeps the last four distances, the last first.
    pub(crate) fn remember(self, last: &mut [usize; 4]) {
        match self {
            Self::Far { distance, .. } => {
                last.rotate_right(1);
                last[0] = distance;
            }
            Self::Again { which, .. } => last[..=which].rotate_right(1),
            Self::Byte | Self::One => {}
        }
    }
}

/// Odds as the specification has them, of 2048 that a bit is not set.
struct Odds {
    is_match: [u16; 12],
    is_again: [u16; 12],
    not_last: [u16; 12],
    not_second: [u16; 12],
    not_third: [u16; 12],
    is_long: [u16; 12],
    literal: Vec<u16>,
    lengths: [[u16; 274]; 2],
    slots: [[u16; 64]; 4],
    near: [u16; 128],
    align: [u16; 16],
}

impl Odds {
    fn new() -> Self {
        let even = [1024; 12];
        Self {
            is_match: even,
            is_again: even,
            not_last: even,
            not_second: even,
            not_third: even,
            is_long: even,
            literal: vec![1024; 0x300 << LITERAL_CONTEXT],
            lengths: [[1024; 274]; 2],
            slots: [[1024; 64]; 4],
            near: [1024; 128],
            align: [1024; 16],
        }
    }
}

/// Reads steps, by section "LZMA decoding" of the specification.
struct Reader<'a> {
    coder: Bits<'a>,
    odds: Odds,
}

struct Bits<'a> {
    rest: std::slice::Iter<'a, u8>,
    width: u32,
    code: u32,
}

impl Reader<'_> {
    fn step(&mut self, past: &[u8], state: usize, last: usize) -> Step {
        let Self { coder, odds } = self;
        if !coder.bit(&mut odds.is_match[state]) {
            self.byte(past, state, last);
            return Step::Byte;
        }
        if !coder.bit(&mut odds.is_again[state]) {
            let length = coder.length(&mut odds.lengths[0]);
            return Step::Far { distance: self.distance(length), length };
        }
        let which = if !coder.bit(&mut odds.not_last[state]) {
            if !coder.bit(&mut odds.is_long[state]) {
                return Step::One;
            }
            0
        } else if !coder.bit(&mut odds.not_second[state]) {
            1
        } else {
            2 + usize::from(coder.bit(&mut odds.not_third[state]))
        };
        Step::Again { which, length: coder.length(&mut odds.lengths[1]) }
    }

    /// A byte; which it is, is known.
    fn byte(&mut self, past: &[u8], state: usize, last: usize) {
        let before = past.last().map_or(0, |byte| usize::from(byte >> (8 - LITERAL_CONTEXT)));
        let odds = &mut self.odds.literal[0x300 * before..][..0x300];
        let mut read = 1;
        if state >= 7 {
            let like = usize::from(past[past.len() - 1 - last]);
            for place in (0..8).rev() {
                let wanted = (like >> place) & 1;
                let is = usize::from(self.coder.bit(&mut odds[256 * (1 + wanted) + read]));
                read = read << 1 | is;
                if is != wanted {
                    break;
                }
            }
        }
        while read < 256 {
            read = read << 1 | usize::from(self.coder.bit(&mut odds[read]));
        }
    }

    fn distance(&mut self, length: usize) -> usize {
        let Self { coder, odds } = self;
        let slot = coder.tree(&mut odds.slots[(length - 2).min(3)], 6);
        if slot < 4 {
            return slot;
        }
        let bits = (slot >> 1) - 1;
        let far = (2 | (slot & 1)) << bits;
        if slot < 14 {
            return far + coder.low_first(&mut odds.near[far - slot..], bits);
        }
        let high = (4..bits).fold(0, |high, _| high << 1 | usize::from(coder.even()));
        far + 16 * high + coder.low_first(&mut odds.align, 4)
    }
}

impl Bits<'_> {
    fn bit(&mut self, odds: &mut u16) -> bool {
        let bound = (self.width >> 11) * u32::from(*odds);
        let is = self.code >= bound;
        if is {
            self.width -= bound;
            self.code -= bound;
            *odds -= *odds >> 5;
        } else {
            self.width = bound;
            *odds += (2048 - *odds) >> 5;
        }
        self.widen();
        is
    }

    /// A bit that is as often set as not.
    fn even(&mut self) -> bool {
        self.width >>= 1;
        let is = self.code >= self.width;
        self.code -= if is { self.width } else { 0 };
        self.widen();
        is
    }

    fn widen(&mut self) {
        if self.width < 1 << 24 {
            self.width <<= 8;
            self.code = self.code << 8 | u32::from(self.rest.next().copied().unwrap_or(0));
        }
    }

    fn tree(&mut self, odds: &mut [u16], bits: usize) -> usize {
        let mut read = 1;
        while read < 1 << bits {
            read = read << 1 | usize::from(self.bit(&mut odds[read]));
        }
        read - (1 << bits)
    }

    fn low_first(&mut self, odds: &mut [u16], bits: usize) -> usize {
        let (mut read, mut number) = (1, 0);
        for place in 0..bits {
            let is = usize::from(self.bit(&mut odds[read]));
            read = read << 1 | is;
            number |= is << place;
        }
        number
    }

    fn length(&mut self, odds: &mut [u16; 274]) -> usize {
        if !self.bit(&mut odds[0]) {
            2 + self.tree(&mut odds[2..], 3)
        } else if !self.bit(&mut odds[1]) {
            10 + self.tree(&mut odds[10..], 3)
        } else {
            18 + self.tree(&mut odds[18..], 8)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bytes that the steps lead to; those that stand for themselves are looked up.
    fn led_to(steps: &[Step], code: &[u8]) -> Vec<u8> {
        let (mut past, mut last) = (Vec::new(), [0; 4]);
        for step in steps {
            step.remember(&mut last);
            for _ in 0..step.length() {
                let from =
                    if *step == Step::Byte { code[past.len()] } else { past[past.len() - 1 - last[0]] };
                past.push(from);
            }
        }
        past
    }

    /// The rule of `tests/reference/lzma`: runs, noise, and what stood near and far before.
    fn ruled() -> Vec<u8> {
        let (mut bytes, mut seed, mut back) = (Vec::new(), 1_u32, 1);
        let mut next = |below: u32| {
            seed = seed.wrapping_mul(1_103_515_245).wrapping_add(12_345);
            (seed >> 16) % below
        };
        while bytes.len() < 60_000 {
            let (kind, long) = (next(4), 1 + next(300));
            if kind == 2 {
                back = 1 + next(65_536.min(bytes.len() as u32 + 1)) as usize;
            }
            let byte = next(256) as u8;
            for at in 0..long {
                let seen = |bytes: &Vec<u8>| {
                    bytes.len().checked_sub(back).and_then(|from| bytes.get(from)).copied().unwrap_or(0)
                };
                bytes.push(match kind {
                    0 => next(256) as u8,
                    1 => byte,
                    3 if at % 7 == 6 => next(256) as u8,
                    _ => seen(&bytes),
                });
            }
        }
        bytes.truncate(60_000);
        bytes
    }

    /// liblzma's own steps, each kind among them.
    #[test]
    fn steps_that_liblzma_found_lead_to_what_it_packed() {
        let packed = include_bytes!("../../../../tests/reference/lzma/ruled.lzma");
        let steps = read(packed, &ruled()).unwrap();
        assert_eq!(led_to(&steps, &ruled()), ruled());
        for kind in
            [Step::Byte, Step::One, Step::Again { which: 3, length: 2 }, Step::Far { distance: 0, length: 2 }]
        {
            let is_kind = |step: &&Step| std::mem::discriminant(*step) == std::mem::discriminant(&kind);
            assert!(steps.iter().filter(is_kind).count() > 10, "{kind:?}");
        }
        let bytes = steps.iter().filter(|step| **step == Step::Byte).count();
        assert!(bytes < 20_000, "{bytes}: what comes again is not taken for new");
    }

    #[test]
    fn steps_of_our_own_lead_to_the_file() {
        for code in [&b""[..], b"a", b"abababababababab", &ruled()[..5000]] {
            assert_eq!(led_to(&steps(code).unwrap(), code), code);
        }
    }

    #[test]
    fn what_is_cut_short_is_refused() {
        assert!(read(&[93, 0, 0], b"abc").is_err());
    }
}
