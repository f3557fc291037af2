//! The bits of a payload, written and read.
//!
//! ```text
//! gamma = as many zeros as the number has binary digits after the first, then the number
//! class = 00 and 5 bits | 01 and 10 | 10 and 14 | 110 and 18 | 111 and 23
//! ```
//!
//! A class starts where the one before it ends, so that every number is written
//! in one way. Signs alternate: 0, −1, 1, −2, … The third class is the common
//! one: 0.01 mm over ±87 mm in 16 bits, less than three characters.

use crate::link_error::LinkError;

/// Prefix, its width, and the width of what follows.
const CLASSES: [(u32, u32, u32); 5] =
    [(0b00, 2, 5), (0b01, 2, 10), (0b10, 2, 14), (0b110, 3, 18), (0b111, 3, 23)];

/// Longest run of zeros at the start of a gamma number that is read.
const MOST_ZEROS: u32 = 15;

/// Bits as they are written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Writer {
    bits: Vec<bool>,
}

impl Writer {
    pub(super) fn bit(&mut self, bit: bool) {
        self.bits.push(bit);
    }

    /// The lowest `width` bits of a value, highest first.
    pub(super) fn bits(&mut self, value: u32, width: u32) {
        for place in (0..width).rev() {
            self.bit(value >> place & 1 == 1);
        }
    }

    /// A number from zero, short when small.
    pub(super) fn small(&mut self, value: u32) {
        let number = value + 1;
        let after_first = number.ilog2();
        self.bits(0, after_first);
        self.bits(number, after_first + 1);
    }

    /// A signed count of steps.
    pub(super) fn steps(&mut self, steps: i64) {
        let mut rest = if steps < 0 { steps.unsigned_abs() * 2 - 1 } else { steps.unsigned_abs() * 2 };
        for (prefix, prefix_width, width) in CLASSES {
            if rest < 1 << width {
                self.bits(prefix, prefix_width);
                self.bits(u32::try_from(rest).expect("classes are narrower"), width);
                return;
            }
            rest -= 1 << width;
        }
        unreachable!("numbers are kept within steps that the widest class holds");
    }

    pub(super) fn text(&mut self, text: &str) {
        self.small(u32::try_from(text.len()).expect("text is bounded"));
        text.bytes().for_each(|byte| self.bits(u32::from(byte), 8));
    }

    /// Which ids are there, in rising order.
    pub(super) fn ids(&mut self, ids: &[u8]) {
        let mut next = 0;
        let mut runs = ids.chunk_by(|one, other| one + 1 == *other);
        let first = runs.next();
        for run in first.into_iter().chain(runs) {
            let length = u32::try_from(run.len()).expect("at most 256 ids");
            // Two runs never touch: between them at least one id is absent.
            let absent = u32::from(run[0]) - next;
            self.bit(true);
            self.small(absent);
            self.small(length - 1);
            next = u32::from(run[0]) + length + 1;
        }
        self.bit(false);
    }

    /// The bytes, the last one filled up with zeros.
    pub(super) fn into_bytes(self) -> Vec<u8> {
        let byte = |bits: &[bool]| {
            bits.iter().enumerate().fold(0, |byte, (place, bit)| byte | u8::from(*bit) << (7 - place))
        };
        self.bits.chunks(8).map(byte).collect()
    }
}

/// Parts of which each may be absent, as they are written: which are there, then they.
#[derive(Debug, Default)]
pub(super) struct Parts {
    ids: Vec<u8>,
    bits: Writer,
}

impl Parts {
    /// What the part of an id is to be written to, behind those of lesser ids.
    pub(super) fn part(&mut self, id: u8) -> &mut Writer {
        self.ids.push(id);
        &mut self.bits
    }

    pub(super) fn is_empty(&self) -> bool {
        self.ids.is_empty()
    }

    pub(super) fn append_to(&self, out: &mut Writer) {
        out.ids(&self.ids);
        out.bits.extend(&self.bits.bits);
    }
}

/// Bits as they are read. Reading past the end is an error.
#[derive(Clone, Debug)]
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0 }
    }

    pub(super) fn bit(&mut self) -> Result<bool, LinkError> {
        let byte = self.bytes.get(self.at / 8).ok_or(LinkError::Unreadable)?;
        let bit = byte >> (7 - self.at % 8) & 1 == 1;
        self.at += 1;
        Ok(bit)
    }

    pub(super) fn bits(&mut self, width: u32) -> Result<u32, LinkError> {
        let mut value = 0;
        for _ in 0..width {
            value = value << 1 | u32::from(self.bit()?);
        }
        Ok(value)
    }

    pub(super) fn small(&mut self) -> Result<u32, LinkError> {
        let mut zeros = 0;
        while !self.bit()? {
            zeros += 1;
            if zeros > MOST_ZEROS {
                return Err(LinkError::Unreadable);
            }
        }
        Ok((1 << zeros | self.bits(zeros)?) - 1)
    }

    pub(super) fn steps(&mut self) -> Result<i64, LinkError> {
        let mut class = self.bits(2)?;
        if class == 3 {
            class += self.bits(1)?;
        }
        let mut start = 0;
        for (_, _, width) in CLASSES.iter().take(usize::try_from(class).unwrap_or(0)) {
            start += 1 << width;
        }
        let (_, _, width) = CLASSES[usize::try_from(class).unwrap_or(0)];
        let rest = i64::from(start + self.bits(width)?);
        Ok(if rest % 2 == 1 { -(rest + 1) / 2 } else { rest / 2 })
    }

    /// A text of at most so many bytes; a longer one is a newer Scrubline's.
    pub(super) fn text(&mut self, most: usize) -> Result<String, LinkError> {
        let length = usize::try_from(self.small()?).unwrap_or(usize::MAX);
        if length > most {
            return Err(LinkError::Newer);
        }
        let mut bytes = Vec::with_capacity(length);
        for _ in 0..length {
            bytes.push(u8::try_from(self.bits(8)?).unwrap_or(0));
        }
        String::from_utf8(bytes).map_err(|_| LinkError::Unreadable)
    }

    /// Ids in rising order; one above 255 is a newer Scrubline's.
    pub(super) fn ids(&mut self) -> Result<Vec<u8>, LinkError> {
        let mut ids = Vec::new();
        let mut next = 0;
        while self.bit()? {
            let first = next + self.small()?;
            let length = self.small()? + 1;
            for id in first..first + length {
                ids.push(u8::try_from(id).map_err(|_| LinkError::Newer)?);
            }
            next = first + length + 1;
        }
        Ok(ids)
    }

    /// Whether nothing but the filling of the last byte is left.
    pub(super) fn is_at_end(&self) -> bool {
        let mut rest = self.clone();
        self.bytes.len() * 8 - self.at < 8 && (self.at..self.bytes.len() * 8).all(|_| rest.bit() == Ok(false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read<T>(write: impl Fn(&mut Writer), read: impl Fn(&mut Reader<'_>) -> Result<T, LinkError>) -> T {
        let mut writer = Writer::default();
        write(&mut writer);
        let bytes = writer.into_bytes();
        let mut reader = Reader::new(&bytes);
        let value = read(&mut reader).unwrap();
        assert!(reader.is_at_end());
        value
    }

    #[test]
    fn steps_come_back() {
        let edges = [16, 528, 8720, 139_792, 4_000_000_i64];
        for edge in edges {
            for steps in (edge - 3..edge + 3).flat_map(|steps| [steps, -steps]) {
                assert_eq!(read(|w| w.steps(steps), |r| r.steps()), steps);
            }
        }
        for steps in -20_000..20_000 {
            assert_eq!(read(|w| w.steps(steps), |r| r.steps()), steps);
        }
    }

    #[test]
    fn small_numbers_come_back() {
        for value in (0..2000).chain([65_534]) {
            assert_eq!(read(|w| w.small(value), |r| r.small()), value);
        }
    }

    #[test]
    fn ids_come_back_and_a_full_run_is_short() {
        let sets: [&[u8]; 7] =
            [&[], &[0], &[255], &[0, 1, 2], &[0, 2, 4, 6], &[3, 4, 5, 9, 200, 201, 255], &[254, 255]];
        for ids in sets {
            assert_eq!(read(|w| w.ids(ids), |r| r.ids()), ids);
        }
        let all: Vec<u8> = (0..=255).collect();
        assert_eq!(read(|w| w.ids(&all), |r| r.ids()), all);
        let mut writer = Writer::default();
        writer.ids(&all);
        assert!(writer.bits.len() < 24, "{}", writer.bits.len());
    }

    #[test]
    fn an_id_beyond_those_there_can_be_is_newer() {
        let mut writer = Writer::default();
        writer.bit(true);
        writer.small(255);
        writer.small(1);
        writer.bit(false);
        let bytes = writer.into_bytes();
        assert_eq!(Reader::new(&bytes).ids(), Err(LinkError::Newer));
    }

    #[test]
    fn the_end_is_an_error() {
        assert_eq!(Reader::new(&[]).bit(), Err(LinkError::Unreadable));
        assert_eq!(Reader::new(&[0, 0, 0]).small(), Err(LinkError::Unreadable));
        assert_eq!(Reader::new(&[0xff]).steps(), Err(LinkError::Unreadable));
    }
}
