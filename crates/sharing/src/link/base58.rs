//! Bytes as base58 in blocks, so that time is proportional to length: in one
//! piece a full note takes fifty times as long.

/// 41 bytes are 328 bits and 56 characters hold 328.04: hardly anything is lost.
const BLOCK_BYTES: usize = 41;
const BLOCK_CHARS: usize = 56;

/// The digit zero of the alphabet.
const ZERO: char = '1';

/// Writes bytes behind a text.
pub(super) fn push(out: &mut String, bytes: &[u8]) {
    for block in bytes.chunks(BLOCK_BYTES) {
        let start = block.iter().position(|byte| *byte != 0).unwrap_or(block.len());
        let digits = bs58::encode(&block[start..]).into_string();
        for _ in digits.len()..chars_for(block.len()) {
            out.push(ZERO);
        }
        out.push_str(&digits);
    }
}

/// The bytes of a text; `None` where no bytes are written so.
pub(super) fn bytes(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len());
    for block in text.as_bytes().chunks(BLOCK_CHARS) {
        let count = block.len() * BLOCK_BYTES / BLOCK_CHARS;
        if chars_for(count) != block.len() {
            return None;
        }
        let start = block.iter().position(|byte| *byte != ZERO as u8).unwrap_or(block.len());
        let number = bs58::decode(&block[start..]).into_vec().ok()?;
        bytes.resize(bytes.len() + count.checked_sub(number.len())?, 0);
        bytes.extend(number);
    }
    Some(bytes)
}

/// Characters that hold so many bytes of a block.
const fn chars_for(bytes: usize) -> usize {
    (bytes * BLOCK_CHARS).div_ceil(BLOCK_BYTES)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_of_any_length_holds_its_bytes_and_no_character_more() {
        for count in 0..=BLOCK_BYTES {
            let mut text = String::new();
            push(&mut text, &vec![0xff; count]);
            assert_eq!(text.len(), chars_for(count));
            // The greatest number starts with a digit above zero: one character fewer would not do.
            assert!(count == 0 || !text.starts_with(ZERO), "{count}");
            assert_eq!(bytes(&text), Some(vec![0xff; count]));
        }
    }

    /// From the internet draft on base58 by Nakov and others, section 5 (from memory).
    #[test]
    fn a_short_block_is_plain_base58() {
        let mut text = String::new();
        push(&mut text, b"Hello World!");
        assert_eq!(text, "2NEpo7TZRRrLZSi2U");
    }

    #[test]
    fn leading_zeros_and_blocks_stay_apart() {
        for length in [1, 40, 41, 42, 82, 83, 200] {
            for first in [0, 1, length / 2, length - 1, length] {
                let mut given = vec![0; length];
                for (at, byte) in given.iter_mut().enumerate().skip(first) {
                    *byte = u8::try_from(at * 7 % 251).unwrap();
                }
                let mut text = String::new();
                push(&mut text, &given);
                assert_eq!(bytes(&text), Some(given));
            }
        }
    }

    #[test]
    fn what_no_bytes_give_is_refused() {
        for text in ["z", "zz", "0000", "1O", "zzzzzz", "é1", "111"] {
            let known = text == "111";
            assert_eq!(bytes(text).is_some(), known, "{text}");
        }
    }
}
