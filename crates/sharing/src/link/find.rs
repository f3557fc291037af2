//! A link or code in whatever text it was pasted with.

use super::check::{self, Sum};
use super::{LONGEST_CODE, LONGEST_TEXT, failure, from_code};
use crate::link_error::LinkError;
use crate::shared::Shared;

/// Most places of a text at which a code is looked for.
const MOST_STARTS: usize = 64;
/// A bare code is looked for only in words of at least this length.
const SHORTEST_BARE: usize = 5;

/// The design of a link, of a bare code, or of any text that contains either.
///
/// A code may be broken over lines, as mail does, with the marks of quoting and
/// of wrapping between its pieces; brackets, quotes and full stops around it
/// are no part of it. The first code whose check characters fit is opened.
///
/// # Errors
/// [`LinkError`] says in a sentence why there is no design in the text. Text
/// over [`LONGEST_TEXT`] bytes is refused unread.
pub fn find_code(text: &str) -> Result<Shared, LinkError> {
    if text.len() > LONGEST_TEXT {
        return Err(LinkError::TooLong);
    }
    let mut said = LinkError::NotALink;
    for start in fragments(text).take(MOST_STARTS).chain(bare_words(text).take(MOST_STARTS)) {
        match code_at(start) {
            Ok(code) => return from_code(&code),
            Err(error) if said == LinkError::NotALink => said = error,
            Err(_) => {}
        }
    }
    Err(said)
}

/// What follows each `#`, as it is or as some programs rewrite it.
fn fragments(text: &str) -> impl Iterator<Item = &str> {
    text.char_indices().filter_map(|(at, letter)| match letter {
        '#' => Some(&text[at + 1..]),
        '%' => text[at..].strip_prefix("%23"),
        _ => None,
    })
}

/// What follows from each word that could be the start of a bare code.
fn bare_words(text: &str) -> impl Iterator<Item = &str> {
    let mut before = ' ';
    text.char_indices().filter_map(move |(at, letter)| {
        let starts =
            letter.is_ascii_digit() && !before.is_ascii_alphanumeric() && !matches!(before, '#' | '%');
        before = letter;
        (starts && piece(&text[at..]).len() >= SHORTEST_BARE).then_some(&text[at..])
    })
}

/// The code at the start of a text: the fewest pieces whose check characters fit.
fn code_at(text: &str) -> Result<String, LinkError> {
    let mut code = String::new();
    let mut sums = Sums::new();
    let mut rest = text;
    loop {
        let next = piece(rest);
        if next.is_empty() {
            break;
        }
        if code.len() + next.len() > LONGEST_CODE {
            return Err(if code.is_empty() { LinkError::TooLong } else { failure(piece(text)) });
        }
        code.push_str(next);
        next.bytes().for_each(|byte| sums.add(byte));
        if sums.fit() {
            return Ok(code);
        }
        rest = without_wrapping(&rest[next.len()..]);
    }
    Err(failure(piece(text)))
}

/// The letters and digits at the start of a text.
fn piece(text: &str) -> &str {
    let end = text.find(|letter: char| !letter.is_ascii_alphanumeric());
    &text[..end.unwrap_or(text.len())]
}

/// A text without the spaces, line ends, marks of quoting and of wrapping at its start.
fn without_wrapping(text: &str) -> &str {
    let wraps = |letter: char| {
        letter.is_whitespace() || matches!(letter, '=' | '<' | '>' | '"' | '\'' | '|' | '\u{ad}' | '\u{200b}')
    };
    text.trim_start_matches(wraps)
}

/// The running sum of a code, and those of the last few characters ago, so that
/// each piece that is added costs its own length only.
struct Sums {
    /// Of everything up to so many characters ago, oldest first.
    past: [Sum; check::LENGTH],
    now: Sum,
    last: [u8; check::LENGTH],
    length: usize,
}

impl Sums {
    const fn new() -> Self {
        let start = Sum::new();
        Self { past: [start; check::LENGTH], now: start, last: [0; check::LENGTH], length: 0 }
    }

    fn add(&mut self, byte: u8) {
        self.past.rotate_left(1);
        self.past[check::LENGTH - 1] = self.now;
        self.now = self.now.with(byte);
        self.last.rotate_left(1);
        self.last[check::LENGTH - 1] = byte;
        self.length += 1;
    }

    /// Whether the last characters are the check of what stands before them.
    fn fit(&self) -> bool {
        self.length > check::LENGTH && self.past[0].check() == self.last
    }
}
