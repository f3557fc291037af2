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

/// Bits as they are read.
///
/// What is behind the end, or behind what no version writes, reads as zeros, and the first thing that was wrong
/// is kept for [`Reader::sound`]: so the many places that read say nothing of it, which makes them half as large.
#[derive(Clone, Debug)]
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
    refusal: Option<LinkError>,
}

impl<'a> Reader<'a> {
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0, refusal: None }
    }

    /// What was found, unless something was wrong on the way. Nothing, with nothing said of it, contradicts itself.
    pub(super) fn sound<T>(self, found: Option<T>) -> Result<T, LinkError> {
        match self.refusal {
            Some(why) => Err(why),
            None => found.ok_or(LinkError::Unreadable),
        }
    }

    #[inline(never)]
    fn refuse(&mut self, why: LinkError) {
        self.refusal.get_or_insert(why);
    }

    /// Nothing, since a newer Scrubline wrote it.
    pub(super) fn newer<T>(&mut self) -> Option<T> {
        self.refuse(LinkError::Newer);
        None
    }

    /// What is known here; nothing is a newer Scrubline's.
    pub(super) fn known<T>(&mut self, found: Option<T>) -> Option<T> {
        if found.is_none() {
            self.refuse(LinkError::Newer);
        }
        found
    }

    /// What can be entered; `None` lies outside the limits of what the label names.
    pub(super) fn within<T>(&mut self, found: Option<T>, label: &'static str) -> Option<T> {
        if found.is_none() {
            self.refuse(LinkError::OutOfLimits(label));
        }
        found
    }

    pub(super) fn bit(&mut self) -> bool {
        let Some(byte) = self.bytes.get(self.at / 8).filter(|_| self.refusal.is_none()) else {
            self.refuse(LinkError::Unreadable);
            return false;
        };
        let bit = byte >> (7 - self.at % 8) & 1 == 1;
        self.at += 1;
        bit
    }

    pub(super) fn bits(&mut self, width: u32) -> u32 {
        (0..width).fold(0, |value, _| value << 1 | u32::from(self.bit()))
    }

    pub(super) fn small(&mut self) -> u32 {
        let mut zeros = 0;
        while !self.bit() {
            zeros += 1;
            if zeros > MOST_ZEROS {
                self.refuse(LinkError::Unreadable);
                return 0;
            }
        }
        (1 << zeros | self.bits(zeros)) - 1
    }

    /// A number from 0 to 255; a greater one is a newer Scrubline's.
    pub(super) fn byte(&mut self) -> u8 {
        let small = self.small();
        self.known(u8::try_from(small).ok()).unwrap_or(0)
    }

    /// One of a list by its place in so many bits; a place beyond it is a newer Scrubline's.
    pub(super) fn one_of<T: Copy>(&mut self, list: &[T], width: u32) -> Option<T> {
        let place = self.bits(width);
        self.at_place(list, place)
    }

    /// The same by a small number.
    pub(super) fn small_of<T: Copy>(&mut self, list: &[T]) -> Option<T> {
        let place = self.small();
        self.at_place(list, place)
    }

    fn at_place<T: Copy>(&mut self, list: &[T], place: u32) -> Option<T> {
        let place = usize::try_from(place).unwrap_or(usize::MAX);
        self.known(list.get(place).copied())
    }

    pub(super) fn steps(&mut self) -> i64 {
        let mut class = self.bits(2);
        if class == 3 {
            class += self.bits(1);
        }
        let mut start = 0;
        for (_, _, width) in CLASSES.iter().take(usize::try_from(class).unwrap_or(0)) {
            start += 1 << width;
        }
        let (_, _, width) = CLASSES[usize::try_from(class).unwrap_or(0)];
        let rest = i64::from(start + self.bits(width));
        if rest % 2 == 1 { -(rest + 1) / 2 } else { rest / 2 }
    }

    /// A text of at most so many bytes; a longer one is a newer Scrubline's.
    pub(super) fn text(&mut self, most: usize) -> String {
        let length = usize::try_from(self.small()).unwrap_or(usize::MAX);
        if length > most {
            self.refuse(LinkError::Newer);
            return String::new();
        }
        let mut bytes = Vec::with_capacity(length);
        for _ in 0..length {
            bytes.push(u8::try_from(self.bits(8)).unwrap_or(0));
        }
        String::from_utf8(bytes).unwrap_or_else(|_| {
            self.refuse(LinkError::Unreadable);
            String::new()
        })
    }

    /// Ids in rising order; one above 255 is a newer Scrubline's.
    pub(super) fn ids(&mut self) -> Vec<u8> {
        let mut ids = Vec::new();
        let mut next = 0;
        while self.bit() {
            let first = next + self.small();
            let length = self.small() + 1;
            for id in first..first + length {
                let Ok(id) = u8::try_from(id) else {
                    self.refuse(LinkError::Newer);
                    return Vec::new();
                };
                ids.push(id);
            }
            next = first + length + 1;
        }
        ids
    }

    /// Whether nothing but the filling of the last byte is left.
    pub(super) fn is_at_end(&self) -> bool {
        let mut rest = self.clone();
        self.bytes.len() * 8 - self.at < 8 && (self.at..self.bytes.len() * 8).all(|_| !rest.bit())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read<T>(write: impl Fn(&mut Writer), read: impl Fn(&mut Reader<'_>) -> T) -> T {
        let mut writer = Writer::default();
        write(&mut writer);
        let bytes = writer.into_bytes();
        let mut reader = Reader::new(&bytes);
        let value = read(&mut reader);
        assert!(reader.is_at_end());
        reader.sound(Some(value)).unwrap()
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
        assert_eq!(refused(&bytes, |reader| drop(reader.ids())), Err(LinkError::Newer));
    }

    /// What is said in the end of bytes that were read so.
    fn refused(bytes: &[u8], read: impl Fn(&mut Reader<'_>)) -> Result<(), LinkError> {
        let mut reader = Reader::new(bytes);
        read(&mut reader);
        reader.sound(Some(()))
    }

    #[test]
    fn the_end_is_an_error() {
        let unreadable = Err(LinkError::Unreadable);
        assert_eq!(refused(&[], |reader| assert!(!reader.bit())), unreadable);
        assert_eq!(refused(&[0, 0, 0], |reader| assert_eq!(reader.small(), 0)), unreadable);
        assert_eq!(refused(&[0xff], |reader| _ = reader.steps()), unreadable);
        assert_eq!(refused(&[0xff], |reader| assert_eq!(reader.bits(8), 255)), Ok(()));
    }

    /// Whatever is read behind it, the first thing that was wrong is what is said.
    #[test]
    fn the_first_refusal_is_the_one_that_is_said() {
        let both = |reader: &mut Reader<'_>| {
            assert_eq!(reader.within(None::<u8>, "Camber"), None);
            assert_eq!((reader.bits(8), reader.known(None::<u8>)), (0, None));
        };
        assert_eq!(refused(&[0xff, 0xff], both), Err(LinkError::OutOfLimits("Camber")));
        assert_eq!(Reader::new(&[]).sound(None::<u8>), Err(LinkError::Unreadable));
    }
}
