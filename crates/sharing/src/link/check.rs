//! Check characters: a cut or mistyped code is recognised before it is read.

/// Digits of base58, in the order used by `bs58`.
const ALPHABET: &[u8; 58] = b"123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz";

/// Check characters at the end of a code: one wrong code in eleven million passes.
pub(super) const LENGTH: usize = 4;

/// A running CRC-32 of a code's characters.
///
/// # Source
/// The catalogue's CRC-32/ISO-HDLC: polynomial 0x04C11DB7 reflected, start and
/// final inversion all ones.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sum(u32);

impl Sum {
    pub(super) const fn new() -> Self {
        Self(u32::MAX)
    }

    /// The sum with one more character.
    pub(super) const fn with(self, byte: u8) -> Self {
        let mut sum = self.0 ^ byte as u32;
        let mut bit = 0;
        while bit < 8 {
            sum = if sum & 1 == 1 { (sum >> 1) ^ 0xEDB8_8320 } else { sum >> 1 };
            bit += 1;
        }
        Self(sum)
    }

    const fn crc(self) -> u32 {
        !self.0
    }

    /// The characters that say what the sum is.
    pub(super) fn check(self) -> [u8; LENGTH] {
        let mut rest = self.crc();
        let mut check = [0; LENGTH];
        for place in &mut check {
            *place = ALPHABET[usize::try_from(rest % 58).unwrap_or(0)];
            rest /= 58;
        }
        check
    }
}

fn of(text: &str) -> Sum {
    text.bytes().fold(Sum::new(), Sum::with)
}

/// Writes the check characters behind what they check.
pub(super) fn push(code: &mut String) {
    for byte in of(code).check() {
        code.push(char::from(byte));
    }
}

/// What stands before the check characters, if they fit it.
pub(super) fn body(code: &str) -> Option<&str> {
    let (body, check) = code.split_at_checked(code.len().checked_sub(LENGTH)?)?;
    (!body.is_empty() && of(body).check() == check.as_bytes()).then_some(body)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value that the catalogue of CRC algorithms lists for CRC-32/ISO-HDLC.
    #[test]
    fn the_sum_is_the_catalogues() {
        assert_eq!(of("123456789").crc(), 0xCBF4_3926);
    }

    #[test]
    fn the_alphabet_is_that_of_the_payload() {
        for (value, letter) in ALPHABET.iter().enumerate() {
            let one = [u8::try_from(value).unwrap()];
            let text = bs58::encode(one).into_string();
            assert_eq!(text.as_bytes(), [*letter]);
        }
    }
}
