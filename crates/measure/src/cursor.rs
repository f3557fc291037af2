//! A place in a bounded text, and the small steps every parser here is made of.

use std::str::Chars;

use crate::error::{LONGEST_TEXT, ParseError, Problem};

/// Marks that join a whole number to its fraction, or feet to inches.
const JOINERS: [char; 4] = ['-', '\u{2010}', '\u{2011}', '\u{2013}'];

/// A place in a text. A clone is a place to come back to.
#[derive(Clone, Debug)]
pub(crate) struct Cursor<'t> {
    text: &'t str,
    rest: Chars<'t>,
}

impl<'t> Cursor<'t> {
    /// Starts at the first character that is no space.
    ///
    /// # Errors
    /// [`Problem::TooLong`] and [`Problem::Empty`].
    pub(crate) fn new(text: &'t str) -> Result<Self, ParseError> {
        let mut cursor = Self { text, rest: text.chars() };
        if text.len() > LONGEST_TEXT {
            let past = text.char_indices().find(|(at, _)| *at >= LONGEST_TEXT);
            let at = past.map_or(text.len(), |(at, _)| at);
            return Err(cursor.fail_at(at, Problem::TooLong));
        }
        cursor.skip_spaces();
        if cursor.peek().is_none() {
            return Err(cursor.fail_at(0, Problem::Empty));
        }
        Ok(cursor)
    }

    /// Byte offset of the next character.
    pub(crate) fn at(&self) -> usize {
        self.text.len() - self.rest.as_str().len()
    }

    pub(crate) fn peek(&self) -> Option<char> {
        self.rest.clone().next()
    }

    pub(crate) fn bump(&mut self) {
        self.rest.next();
    }

    /// Steps over one of `marks` if it is next.
    pub(crate) fn eat(&mut self, marks: &[char]) -> bool {
        let found = self.peek().is_some_and(|next| marks.contains(&next));
        if found {
            self.bump();
        }
        found
    }

    /// Steps over spaces, the kinds that come with pasted text included. No unit
    /// or number contains one, so a wide table is not needed.
    pub(crate) fn skip_spaces(&mut self) -> bool {
        let mut found = false;
        while self.eat(&[' ', '\t', '\n', '\r', '\u{a0}', '\u{2007}', '\u{2009}', '\u{202f}']) {
            found = true;
        }
        found
    }

    /// Steps over a leading sign and the spaces after it; true for a minus.
    pub(crate) fn minus(&mut self) -> bool {
        let minus = self.eat(&['\u{2212}']) || self.eat_joiner();
        if minus || self.eat(&['+']) {
            self.skip_spaces();
        }
        minus
    }

    /// Steps over a hyphen or en dash.
    pub(crate) fn eat_joiner(&mut self) -> bool {
        self.eat(&JOINERS)
    }

    /// Steps over a foot or minute mark. Ask for [`Self::eat_double_mark`] first:
    /// two single marks are one double mark.
    pub(crate) fn eat_single_mark(&mut self) -> bool {
        self.eat(&['\'', '\u{2032}', '\u{2019}', '\u{2018}'])
    }

    /// Steps over an inch or second mark.
    pub(crate) fn eat_double_mark(&mut self) -> bool {
        if self.eat(&['"', '\u{2033}', '\u{201d}', '\u{201c}']) {
            return true;
        }
        let mut ahead = self.clone();
        let two = ahead.eat_single_mark() && ahead.eat_single_mark();
        if two {
            *self = ahead;
        }
        two
    }

    /// Steps over a run of ASCII letters and gives it, possibly empty.
    pub(crate) fn word(&mut self) -> &'t str {
        let rest = self.rest.as_str();
        let length = rest.bytes().take_while(u8::is_ascii_alphabetic).count();
        for _ in 0..length {
            self.bump();
        }
        rest.get(..length).expect("a run of ASCII letters ends at a character")
    }

    /// The next character as a digit, not stepped over.
    pub(crate) fn digit(&self) -> Option<u64> {
        self.peek().and_then(|next| next.to_digit(10)).map(u64::from)
    }

    /// Nothing but spaces may follow.
    pub(crate) fn end(&mut self) -> Result<(), ParseError> {
        self.skip_spaces();
        match self.peek() {
            None => Ok(()),
            Some(_) => Err(self.fail(Problem::ExpectedEnd)),
        }
    }

    pub(crate) fn fail(&self, kind: Problem) -> ParseError {
        self.fail_at(self.at(), kind)
    }

    pub(crate) fn fail_at(&self, at: usize, kind: Problem) -> ParseError {
        let before = self.text.char_indices().take_while(|(i, _)| *i < at);
        ParseError::new(at, before.count() + 1, kind)
    }
}

/// Looks a word up in a table without regard to ASCII case.
pub(crate) fn look_up<T: Copy>(table: &[(&str, T)], word: &str) -> Option<T> {
    table.iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map(|(_, meaning)| *meaning)
}
