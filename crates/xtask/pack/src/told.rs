//! How the steps to a file are told: question by question, each answered by yes or no.
//!
//! As LZMA tells them, but for three things. What a byte is, whether bytes come again and where they end goes by where
//! in an instruction it stands ([`Place`]). Where they come from is counted in the places of the same sort, if it is
//! one. And where they come from is told before how many they are, so that each end is asked for where it would be.
//!
//! `web/assets/unpack.js` reads the same: whatever changes here changes there.

use std::ops::Range;

use crate::place::{PLACES, Place};
use crate::step::{Past, Step};

/// What is asked.
pub(crate) trait Ask {
    /// A question by its number, with its answer.
    fn ask(&mut self, question: usize, is: bool);
    /// A bit that is as often set as not.
    fn even(&mut self, is: bool);
}

/// Where the questions of each sort begin, by state where there are twelve.
const IS_AGAIN: usize = 0;
const NOT_LAST: usize = 12;
const NOT_SECOND: usize = 24;
const NOT_THIRD: usize = 36;
const IS_LONG: usize = 48;
/// What is left of a length, of bytes from elsewhere and from where the last came from.
const REST: [usize; 2] = [60, 60 + 9 + 512];
/// Of distances counted in bytes, and in places of a sort.
const FAR: [usize; 2] = [1102, 1246];
const SLOT: usize = 1390;
const IS_OTHER: usize = SLOT + 64 * 22;
const IS_MATCH: usize = IS_OTHER + PLACES;
const ENDS: usize = IS_MATCH + 12 * PLACES;
const LITERAL: usize = ENDS + 2 * ENDING * PLACES;
/// How many questions there are.
pub(crate) const QUESTIONS: usize = LITERAL + 768 * PLACES;

/// So many lengths are told apart where it is asked whether bytes end.
const ENDING: usize = 8;
/// From this length on no end is asked for: the rest is told as a number.
pub(crate) const ASKED: usize = 40;

/// A file whose steps are told.
pub(crate) struct Told<'a> {
    pub(crate) code: &'a [u8],
    /// What sort of place each byte stands in, and what would come behind the last; `None` in data.
    sorts: Vec<Sort>,
    /// How many places of its sort are before it.
    nth: Vec<usize>,
}

#[derive(Clone, Copy, PartialEq)]
struct Sort {
    number: usize,
    is_data: bool,
}

impl<'a> Told<'a> {
    /// A file, and from where to where its functions reach.
    pub(crate) fn new(code: &'a [u8], functions: &Range<usize>) -> Self {
        let mut place = Place::new();
        let (mut sorts, mut nth, mut count) = (Vec::new(), Vec::new(), vec![0; PLACES]);
        for at in 0..=code.len() {
            if at > 0 {
                place.pass(code[at - 1]);
            }
            if at > 0 && (at == functions.start || at == functions.end) {
                place.is_at_functions(at == functions.start);
            }
            let sort = Sort { number: place.sort(), is_data: place.is_in_data() };
            nth.push(count[sort.number]);
            count[sort.number] += usize::from(!sort.is_data);
            sorts.push(sort);
        }
        Self { code, sorts, nth }
    }

    /// All the steps to it.
    pub(crate) fn tell(&self, ask: &mut impl Ask, steps: &[Step]) {
        let (mut at, mut past) = (0, Past::default());
        for step in steps {
            self.step(ask, at, &past, *step);
            past = past.after(*step);
            at += step.length();
        }
    }

    fn step(&self, ask: &mut impl Ask, at: usize, past: &Past, step: Step) {
        self.kind(ask, at, past, step);
        match step {
            Step::Byte => self.byte(ask, at, past),
            Step::One => {}
            Step::Far { distance, length } => {
                self.from(ask, at, distance);
                self.length(ask, at, length, false);
            }
            Step::Again { length, .. } => self.length(ask, at, length, true),
        }
    }

    /// Which step it is, and of those that come from where others came from, which.
    pub(crate) fn kind(&self, ask: &mut impl Ask, at: usize, past: &Past, step: Step) {
        let state = past.state;
        ask.ask(IS_MATCH + 12 * self.sorts[at].number + state, step != Step::Byte);
        match step {
            Step::Byte => {}
            Step::Far { .. } => ask.ask(IS_AGAIN + state, false),
            Step::One => {
                ask.ask(IS_AGAIN + state, true);
                ask.ask(NOT_LAST + state, false);
                ask.ask(IS_LONG + state, false);
            }
            Step::Again { which, .. } => {
                ask.ask(IS_AGAIN + state, true);
                ask.ask(NOT_LAST + state, which > 0);
                if which == 0 {
                    ask.ask(IS_LONG + state, true);
                } else {
                    ask.ask(NOT_SECOND + state, which > 1);
                }
                if which > 1 {
                    ask.ask(NOT_THIRD + state, which > 2);
                }
            }
        }
    }

    /// A byte: behind others that came again by the one that does not go on like it, as long as they are alike.
    pub(crate) fn byte(&self, ask: &mut impl Ask, at: usize, past: &Past) {
        let byte = usize::from(self.code[at]);
        let from = LITERAL + 768 * self.sorts[at].number;
        let mut alike = past.state > 6;
        let like = if alike { usize::from(self.code[at - 1 - past.last[0]]) } else { 0 };
        let mut read = 1;
        for place in (0..8).rev() {
            let (is, wanted) = ((byte >> place) & 1, (like >> place) & 1);
            let set = if alike { 256 * (1 + wanted) } else { 0 };
            ask.ask(from + set + read, is == 1);
            alike &= is == wanted;
            read = read << 1 | is;
        }
    }

    /// Whether bytes from there come from a place of the same sort.
    pub(crate) fn is_alike(&self, at: usize, from: usize) -> bool {
        !self.sorts[at].is_data && self.sorts[from] == self.sorts[at]
    }

    /// Where bytes come from: how many places of this sort back, or how many bytes.
    pub(crate) fn from(&self, ask: &mut impl Ask, at: usize, distance: usize) {
        let (from, sort) = (at - 1 - distance, self.sorts[at]);
        let places = if sort.is_data { 0 } else { self.nth[at] };
        let is_alike = self.is_alike(at, from);
        if places > 0 {
            ask.ask(IS_OTHER + sort.number, !is_alike);
        }
        if is_alike {
            // How far it can be at most says much of how far it is.
            let most = places.ilog2() as usize;
            number(ask, SLOT + 64 * (most + 1), FAR[1], places - 1 - self.nth[from]);
        } else {
            number(ask, SLOT, FAR[0], distance);
        }
    }

    fn length(&self, ask: &mut impl Ask, at: usize, length: usize, again: bool) {
        for long in 2..=length.min(ASKED - 1) {
            self.ends(ask, at + long, long, again, long == length);
        }
        if length >= ASKED {
            rest(ask, length - ASKED, again);
        }
    }

    /// Whether what came again, so long, ends before `to`.
    pub(crate) fn ends(&self, ask: &mut impl Ask, to: usize, long: usize, again: bool, do_they: bool) {
        let of = PLACES * usize::from(again) + self.sorts[to].number;
        ask.ask(ENDS + ENDING * of + (long - 2).min(ENDING - 1), do_they);
    }
}

/// How much longer it is than what is asked for: how many bits that is, then the bits.
pub(crate) fn rest(ask: &mut impl Ask, length: usize, again: bool) {
    let (from, bits) = (REST[usize::from(again)], (length + 1).ilog2() as usize);
    (0..bits).for_each(|bit| ask.ask(from + bit, true));
    ask.ask(from + bits, false);
    low_first(ask, from + 9 + (1 << bits), bits, length + 1 - (1 << bits));
}

/// A number as LZMA tells a distance: about how great it is, then what is left of it.
fn number(ask: &mut impl Ask, slots: usize, far: usize, number: usize) {
    if number < 4 {
        return tree(ask, slots, 6, number);
    }
    let bits = number.ilog2() as usize - 1;
    let slot = 2 * bits + (number >> bits);
    tree(ask, slots, 6, slot);
    let begins = (number >> bits) << bits;
    if slot < 14 {
        return low_first(ask, far + begins - slot, bits, number - begins);
    }
    (4..bits).rev().for_each(|place| ask.even((number >> place) & 1 == 1));
    low_first(ask, far + 128, 4, number & 15);
}

/// A number of so many bits, the highest first.
fn tree(ask: &mut impl Ask, from: usize, bits: usize, number: usize) {
    for place in (0..bits).rev() {
        let read = 1 << (bits - 1 - place) | number >> (place + 1);
        ask.ask(from + read, (number >> place) & 1 == 1);
    }
}

/// The same, the lowest first.
fn low_first(ask: &mut impl Ask, from: usize, bits: usize, number: usize) {
    let mut read = 1;
    for place in 0..bits {
        let is = (number >> place) & 1;
        ask.ask(from + read, is == 1);
        read = read << 1 | is;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each question that is asked, with its answer; of even bits only the answer.
    #[derive(Default)]
    struct Asked(Vec<(usize, bool)>);

    impl Ask for Asked {
        fn ask(&mut self, question: usize, is: bool) {
            assert!(question < QUESTIONS);
            self.0.push((question, is));
        }

        fn even(&mut self, is: bool) {
            self.0.push((QUESTIONS, is));
        }
    }

    fn asked(tell: impl Fn(&mut Asked)) -> Vec<(usize, bool)> {
        let mut asked = Asked::default();
        tell(&mut asked);
        asked.0
    }

    /// Nothing is asked twice under one number that means two things: the parts of the table do not reach into each other.
    #[test]
    fn each_sort_of_question_has_its_own_numbers() {
        let most = |tell: &dyn Fn(&mut Asked)| {
            asked(|ask| tell(ask)).iter().filter(|(of, _)| *of < QUESTIONS).map(|(of, _)| *of).max().unwrap()
        };
        assert!(most(&|ask| (0..40_000).for_each(|length| rest(ask, length.min(510), false))) < REST[1]);
        assert!(most(&|ask| (0..511).for_each(|length| rest(ask, length, true))) < FAR[0]);
        let far =
            |set: usize| most(&|ask| (0..1 << 20).step_by(7).for_each(|far| number(ask, 0, FAR[set], far)));
        assert!(far(0) < FAR[1] && far(1) < SLOT);
    }

    /// A length is asked for where it may end, by the place that comes next there: of four bytes twice no, then yes.
    #[test]
    fn an_end_is_asked_for_where_it_would_be() {
        let told = Told::new(b"abcdabcd", &(0..0));
        let sort = |at: usize| told.sorts[at].number;
        let ends = asked(|ask| told.length(ask, 4, 4, false));
        let question = |long: usize| ENDS + ENDING * sort(4 + long) + long - 2;
        assert_eq!(ends, [(question(2), false), (question(3), false), (question(4), true)]);
        // What is as long as no end is asked for says by how much: 2 more are `011`, less one.
        let whole = Told::new(&[b'a'; 100], &(0..0));
        let rest = asked(|ask| whole.length(ask, 1, ASKED + 2, false));
        assert!(rest[..ASKED - 2].iter().all(|(_, ends)| !ends));
        assert_eq!(rest[ASKED - 2..].iter().map(|(_, is)| *is).collect::<Vec<_>>(), [true, false, true]);
    }

    /// By the specification the slot of 100 is 13, from 96 on, and 4 is told in five bits, the lowest first; that of 200 is
    /// 15, from 192 on: of 8 the two high bits are even, then four, the lowest first.
    #[test]
    fn a_distance_is_told_as_the_specification_has_it() {
        let bits = |of: usize| {
            asked(|ask| number(ask, SLOT, FAR[0], of)).iter().map(|(_, is)| u8::from(*is)).collect::<Vec<_>>()
        };
        assert_eq!(bits(3), [0, 0, 0, 0, 1, 1]);
        assert_eq!(bits(100), [0, 0, 1, 1, 0, 1, 0, 0, 1, 0, 0]);
        assert_eq!(bits(200), [0, 0, 1, 1, 1, 1, 0, 0, 0, 0, 0, 1]);
    }
}
