//! Where in its instruction a byte of WebAssembly stands.
//!
//! Nothing but odds hangs on it: a file that is read wrongly here packs worse, and is the same once it is unpacked.
//! So this knows how long operands are and little more; what is rare may be taken for something else.

/// What comes next where it is no operand: an operand's is the number of its instruction.
const INSTRUCTION: u16 = 256;
const LENGTH: u16 = 257;
const GROUPS: u16 = 258;
const LOCALS: u16 = 259;
const DATA: u16 = 260;

const BLOCK: u16 = 0x02;
const IF: u16 = 0x04;
const END: u16 = 0x0b;
const BR_TABLE: u16 = 0x0e;
const F32_CONST: u16 = 0x43;
const F64_CONST: u16 = 0x44;

/// Of instructions from and to, how many operands follow; of a fraction, bytes. WebAssembly Core Specification 2.0, section 5.4.
const OPERANDS: [(u16, u16, i32); 12] = [
    (BLOCK, IF, 1),
    (0x0c, BR_TABLE, 1),
    (0x10, 0x10, 1),
    (0x11, 0x11, 2),
    (0x20, 0x24, 1),
    (0x28, 0x3e, 2),
    (0x3f, 0x40, 1),
    (0x41, 0x41, 1),
    (0x42, 0x42, 1),
    (F32_CONST, F32_CONST, 4),
    (F64_CONST, F64_CONST, 8),
    (0xfc, 0xfc, 1),
];

/// How many sorts of places there are.
pub(crate) const PLACES: usize = 512 + 8 * 260;

/// Where the next byte stands, and what stood before it.
#[derive(Debug)]
pub(crate) struct Place {
    next: u16,
    /// Which operand it belongs to, and how far into its number it is.
    nth: i32,
    shift: u32,
    number: i32,
    /// How many operands are to come, and how many blocks are open.
    left: i32,
    depth: i32,
    /// The last byte of data, and the last instruction.
    last: u8,
    instruction: u8,
}

impl Place {
    /// Before the first byte.
    pub(crate) fn new() -> Self {
        Self { next: DATA, nth: 0, shift: 0, number: 0, left: 0, depth: 0, last: 0, instruction: 0 }
    }

    /// Here the first function begins, or what is behind the last.
    pub(crate) fn is_at_functions(&mut self, are: bool) {
        self.next = if are { LENGTH } else { DATA };
    }

    /// Whether it stands outside of functions.
    pub(crate) fn is_in_data(&self) -> bool {
        self.next == DATA
    }

    /// What sort of place it is: in data by the first three bits of the byte before, of instructions by the one before, of operands by the
    /// instruction, which of its operands it is and whether it has begun.
    pub(crate) fn sort(&self) -> usize {
        match self.next {
            DATA => usize::from(self.last >> 5),
            INSTRUCTION => 256 + usize::from(self.instruction),
            next => {
                512 + 8 * usize::from(next)
                    + 2 * self.nth.cast_unsigned() as usize
                    + usize::from(self.shift > 0)
            }
        }
    }

    /// Goes past a byte.
    pub(crate) fn pass(&mut self, byte: u8) {
        self.last = byte;
        match self.next {
            DATA => return,
            INSTRUCTION => return self.follow(byte),
            _ => {}
        }
        if !matches!(self.next, F32_CONST | F64_CONST) {
            self.number |= i32::from(byte & 127).wrapping_shl(self.shift);
            self.shift += 7;
            if byte > 127 {
                return;
            }
        }
        self.end_number();
    }

    /// What follows an instruction.
    fn follow(&mut self, byte: u8) {
        let instruction = u16::from(byte);
        self.instruction = byte;
        self.depth += i32::from((BLOCK..=IF).contains(&instruction)) - i32::from(instruction == END);
        self.nth = 0;
        self.left = operands(instruction).map_or(0, |(_, _, left)| *left);
        self.next = match self.left {
            _ if self.depth < 0 => LENGTH,
            0 => INSTRUCTION,
            _ => instruction,
        };
    }

    /// A number has ended.
    fn end_number(&mut self) {
        match self.next {
            LENGTH => self.next = GROUPS,
            GROUPS => {
                // Each group is a number and a type.
                (self.left, self.depth, self.nth, self.next) = (self.number << 1, 0, 0, LOCALS);
            }
            _ => {
                if self.next == BR_TABLE && self.nth == 0 {
                    self.left = self.left.wrapping_add(self.number).wrapping_add(1);
                }
                self.left = self.left.wrapping_sub(1);
                self.nth = if self.next == LOCALS { self.left & 1 } else { (self.nth + 1).min(3) };
            }
        }
        (self.number, self.shift) = (0, 0);
        if self.next != GROUPS && self.left <= 0 {
            (self.next, self.nth) = (INSTRUCTION, 0);
        }
    }
}

fn operands(of: u16) -> Option<&'static (u16, u16, i32)> {
    OPERANDS.iter().find(|(from, to, ..)| (from..=to).contains(&&of))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A function: its length, a group of two locals, then by the specification's numbers `local.get 0`,
    /// `i32.load offset=300`, `br_table 0 1`, `f64.const`, `end`; and the next function's length. What comes next at
    /// each byte is what it is read as.
    #[test]
    fn each_byte_of_a_function_stands_in_its_place() {
        let bytes = [
            (LENGTH, 0x19),
            (GROUPS, 1),
            (LOCALS, 2),
            (LOCALS, 0x7f),
            (INSTRUCTION, 0x20),
            (0x20, 0),
            (INSTRUCTION, 0x28),
            (0x28, 2),
            (0x28, 0xac),
            (0x28, 2),
            (INSTRUCTION, 0x0e),
            (0x0e, 1),
            (0x0e, 0),
            (0x0e, 1),
            (INSTRUCTION, 0x44),
        ];
        let fraction = [(F64_CONST, 0x80); 8];
        let mut place = Place::new();
        assert_eq!(place.next, DATA);
        place.is_at_functions(true);
        let end = [
            (INSTRUCTION, 0x02),
            (0x02, 0x40),
            (INSTRUCTION, 0x0b),
            (INSTRUCTION, 0x0b),
            (LENGTH, 3),
            (GROUPS, 0),
            (INSTRUCTION, 0x0b),
        ];
        for (at, (next, byte)) in bytes.into_iter().chain(fraction).chain(end).enumerate() {
            assert_eq!(place.next, next, "byte {at}");
            place.pass(byte);
        }
        assert_eq!(place.next, LENGTH);
    }

    #[test]
    fn no_two_sorts_are_one() {
        let mut place = Place::new();
        place.is_at_functions(true);
        let mut sorts = Vec::new();
        // A length of two bytes, no locals, a load from an address of two bytes behind an alignment.
        for byte in [0x80, 0x01, 0, 0x28, 2, 0xac, 2] {
            sorts.push(place.sort());
            place.pass(byte);
        }
        sorts.push(place.sort());
        assert!(sorts.iter().all(|sort| *sort < PLACES));
        sorts.sort_unstable();
        sorts.dedup();
        assert_eq!(sorts.len(), 8, "{sorts:?}");
    }

    /// What is read wrongly is told all the same: any bytes whatever have a place.
    #[test]
    fn any_bytes_have_a_place() {
        let mut place = Place::new();
        place.is_at_functions(true);
        let mut seed = 1_u32;
        for _ in 0..200_000 {
            seed = seed.wrapping_mul(1_103_515_245).wrapping_add(12_345);
            place.pass((seed >> 16) as u8);
            assert!(place.sort() < PLACES);
        }
    }
}
