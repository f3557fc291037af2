//! How the steps to a file are told.
//!
//! As LZMA tells them, but for three things. What a byte is and whether bytes come again goes by where in an instruction
//! it stands ([`Place`]): a thirtieth of the download. Where they come from is counted in the places of the same sort,
//! if it is one: another fiftieth. And odds learn fast as long as little was asked of them.
//!
//! `web/assets/unpack.js` reads the same, question by question: whatever changes here changes there.

use crate::lzma::Step;
use crate::place::{PLACES, Place};

/// What takes bits, each with the chance, of 4096, that it is not set.
pub(crate) trait Coder {
    fn bit(&mut self, is: bool, chance: u32);
}

/// Where the odds of each question are kept, by state where there are twelve.
const IS_AGAIN: usize = 0;
const NOT_LAST: usize = 12;
const NOT_SECOND: usize = 24;
const NOT_THIRD: usize = 36;
const IS_LONG: usize = 48;
const LENGTH: usize = 60;
const LENGTH_AGAIN: usize = 334;
/// Of distances counted in bytes, and in places of a sort.
const FAR: [usize; 2] = [608, 752];
const SLOT: usize = 896;
const IS_OTHER: usize = SLOT + 256 * 22;
const IS_MATCH: usize = IS_OTHER + PLACES;
const LITERAL: usize = IS_MATCH + 12 * PLACES;
const ODDS: usize = LITERAL + 768 * PLACES;

/// How often odds were asked is counted up to so much, and what stands for those who were asked before the first:
/// the more, the slower odds learn; measured on the page's code.
const MOST_ASKED: u32 = 31;
const FIRST: f64 = 2.3;

/// What tells the steps to a file.
pub(crate) struct Teller<'a, C> {
    coder: C,
    /// Odds of 65,536 that a bit is not set, and below them how often they were asked.
    odds: Vec<u32>,
    code: &'a [u8],
    done: usize,
    state: usize,
    last: [usize; 4],
    place: Place,
    /// Where the functions begin and end.
    functions: [usize; 2],
    /// The places of each sort, but for those in data.
    like: Vec<Vec<usize>>,
}

impl<'a, C: Coder> Teller<'a, C> {
    pub(crate) fn new(code: &'a [u8], functions: [usize; 2], coder: C) -> Self {
        Self {
            coder,
            odds: vec![1 << 20; ODDS],
            code,
            done: 0,
            state: 0,
            last: [0; 4],
            place: Place::new(),
            functions,
            like: vec![Vec::new(); PLACES],
        }
    }

    /// What has taken the bits.
    pub(crate) fn coder(self) -> C {
        self.coder
    }

    pub(crate) fn tell(&mut self, step: Step) {
        let (state, sort) = (self.state, self.place.sort());
        self.bit(IS_MATCH + 12 * sort + state, step != Step::Byte);
        match step {
            Step::Byte => self.byte(sort),
            Step::Far { distance, length } => {
                self.bit(IS_AGAIN + state, false);
                self.length(LENGTH, length);
                self.from(sort, distance, length);
            }
            Step::One => {
                self.bit(IS_AGAIN + state, true);
                self.bit(NOT_LAST + state, false);
                self.bit(IS_LONG + state, false);
            }
            Step::Again { which, length } => {
                self.bit(IS_AGAIN + state, true);
                self.bit(NOT_LAST + state, which > 0);
                if which == 0 {
                    self.bit(IS_LONG + state, true);
                } else {
                    self.bit(NOT_SECOND + state, which > 1);
                }
                if which > 1 {
                    self.bit(NOT_THIRD + state, which > 2);
                }
                self.length(LENGTH_AGAIN, length);
            }
        }
        step.remember(&mut self.last);
        self.state = step.after(state);
        for _ in 0..step.length() {
            self.pass();
        }
    }

    /// Goes past a byte.
    fn pass(&mut self) {
        let sort = self.place.sort();
        if !self.place.is_in_data() {
            self.like[sort].push(self.done);
        }
        self.place.pass(self.code[self.done]);
        self.done += 1;
        if let Some(which) = self.functions.iter().position(|at| *at == self.done) {
            self.place.is_at_functions(which == 0);
        }
    }

    fn byte(&mut self, sort: usize) {
        let byte = usize::from(self.code[self.done]);
        let from = LITERAL + 768 * sort;
        let mut alike = self.state > 6;
        let like = if alike { usize::from(self.code[self.done - 1 - self.last[0]]) } else { 0 };
        let mut read = 1;
        for place in (0..8).rev() {
            let (is, wanted) = ((byte >> place) & 1, (like >> place) & 1);
            let set = if alike { 256 * (1 + wanted) } else { 0 };
            self.bit(from + set + read, is == 1);
            alike &= is == wanted;
            read = read << 1 | is;
        }
    }

    /// Where bytes come from: how many places of this sort back, or how many bytes.
    fn from(&mut self, sort: usize, distance: usize, length: usize) {
        let from = self.done - 1 - distance;
        let like = &self.like[sort];
        let found = like.binary_search(&from);
        let places = like.len();
        if places > 0 {
            self.bit(IS_OTHER + sort, found.is_err());
        }
        let short = (length - 2).min(3);
        match found {
            Err(_) => self.distance(SLOT + 64 * short, FAR[0], distance),
            Ok(nth) => {
                // How far it can be at most says much of how far it is.
                let most = places.ilog2() as usize;
                self.distance(SLOT + 64 * (4 * (most + 1) + short), FAR[1], places - 1 - nth);
            }
        }
    }

    fn distance(&mut self, slots: usize, far: usize, distance: usize) {
        let (near, align) = (far, far + 128);
        if distance < 4 {
            return self.tree(slots, 6, distance);
        }
        let bits = distance.ilog2() as usize - 1;
        let slot = 2 * bits + (distance >> bits);
        self.tree(slots, 6, slot);
        let begins = (distance >> bits) << bits;
        if slot < 14 {
            return self.low_first(near + begins - slot, bits, distance - begins);
        }
        for place in (4..bits).rev() {
            self.coder.bit((distance >> place) & 1 == 1, 2048);
        }
        self.low_first(align, 4, distance & 15);
    }

    fn length(&mut self, from: usize, length: usize) {
        self.bit(from, length > 9);
        if length < 10 {
            return self.tree(from + 2, 3, length - 2);
        }
        self.bit(from + 1, length > 17);
        if length < 18 {
            return self.tree(from + 10, 3, length - 10);
        }
        self.tree(from + 18, 8, length - 18);
    }

    /// A number of so many bits, the highest first.
    fn tree(&mut self, from: usize, bits: usize, number: usize) {
        for place in (0..bits).rev() {
            let read = 1 << (bits - 1 - place) | number >> (place + 1);
            self.bit(from + read, (number >> place) & 1 == 1);
        }
    }

    /// The same, the lowest first.
    fn low_first(&mut self, from: usize, bits: usize, number: usize) {
        let mut read = 1;
        for place in 0..bits {
            let is = (number >> place) & 1;
            self.bit(from + read, is == 1);
            read = read << 1 | is;
        }
    }

    fn bit(&mut self, question: usize, is: bool) {
        let odds = &mut self.odds[question];
        let (odd, asked) = (*odds >> 5, *odds & 31);
        self.coder.bit(is, odd >> 4);
        let goal = if is { 0.0 } else { 65_535.0 };
        let step = (goal - f64::from(odd)) / (f64::from(asked) + FIRST);
        *odds = odd.wrapping_add_signed(step as i32) << 5 | (asked + 1).min(MOST_ASKED);
    }
}
