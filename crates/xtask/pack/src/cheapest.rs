//! The steps to a file that are told in the fewest bits.
//!
//! What a step costs is taken from what the answers to its questions were for the whole file, told by the steps that
//! were found before; from place to place the cheapest way there is kept, as in the search for the shortest path.
//! What that leaves out: that odds learn on the way, and that a way that is dearer so far may go by better distances.

use std::collections::HashMap;

use crate::odds::{Answers, Cost};
use crate::step::{Past, Step};
use crate::told::{ASKED, QUESTIONS, Told, rest};

/// How often it is searched, each time by the steps found before: each finds less than the one before it.
const SEARCHES: usize = 9;
/// What every answer is taken to cost at first, bits: the less, the more bytes stand for themselves.
const AT_FIRST: f32 = 0.4;
/// The least and the most that an answer is taken to cost.
const LEAST: f32 = 0.002;
const MOST: f32 = 16.0;
/// How many bytes must be alike, and at how many places where they are it is looked, the nearest first: measured on
/// the page's code; twice as many find a thousandth less.
const LOOKED_AT: [(usize, usize); 5] = [(2, 50), (3, 100), (4, 200), (6, 200), (8, 200)];
/// No step is longer.
const LONGEST: usize = 273;

/// The steps.
pub(crate) fn cheapest(told: &Told<'_>) -> Vec<Step> {
    let seen = LOOKED_AT.map(|(alike, places)| (before(told.code, alike), places));
    let mut prices = vec![[AT_FIRST; 2]; QUESTIONS];
    let mut steps = search(told, &prices, &seen);
    let mut found: Option<Vec<[f32; 2]>> = None;
    for _ in 1..SEARCHES {
        let mut answers = Answers::new();
        told.tell(&mut answers, &steps);
        let next = answers.prices();
        // They are taken to go on as they went: so half as many searches do.
        prices = match &found {
            Some(found) => next.iter().zip(found).map(|(next, found)| gone_on(*next, *found)).collect(),
            None => next.clone(),
        };
        found = Some(next);
        steps = search(told, &prices, &seen);
    }
    steps
}

fn gone_on(next: [f32; 2], found: [f32; 2]) -> [f32; 2] {
    [0, 1].map(|is| (2.0 * next[is] - found[is]).clamp(LEAST, MOST))
}

/// Where the bytes at each place, so many, stood the last time before it.
fn before(code: &[u8], alike: usize) -> Vec<Option<u32>> {
    let mut last = HashMap::new();
    let mut before: Vec<_> =
        (0..).zip(code.windows(alike)).map(|(at, bytes)| last.insert(bytes, at)).collect();
    before.resize(code.len(), None);
    before
}

/// Of bytes of one length where they stood before, and at how many places of these it is looked.
type Seen = (Vec<Option<u32>>, usize);

/// The cheapest way to a place: what it costs, its last step, and what the next is told by.
#[derive(Clone, Copy)]
struct Way {
    bits: f64,
    step: Step,
    past: Past,
}

fn search(told: &Told<'_>, prices: &[[f32; 2]], seen: &[Seen]) -> Vec<Step> {
    let code = told.code;
    let nowhere = Way { bits: f64::INFINITY, step: Step::Byte, past: Past::default() };
    let mut search = Search { told, prices, seen, ways: vec![nowhere; code.len() + 1], at: 0 };
    search.ways[0].bits = 0.0;
    for at in 0..code.len() {
        search.at = at;
        search.byte();
        search.again();
        search.far();
    }
    let (mut steps, mut at) = (Vec::new(), code.len());
    while at > 0 {
        let step = search.ways[at].step;
        steps.push(step);
        at -= step.length();
    }
    steps.reverse();
    steps
}

struct Search<'a> {
    told: &'a Told<'a>,
    prices: &'a [[f32; 2]],
    seen: &'a [Seen],
    ways: Vec<Way>,
    /// Where steps are tried, all ways to there being known.
    at: usize,
}

impl Search<'_> {
    fn cost(&self, tell: impl FnOnce(&mut Cost<'_>)) -> f64 {
        let mut cost = Cost { prices: self.prices, bits: 0.0 };
        tell(&mut cost);
        f64::from(cost.bits)
    }

    /// What it costs to say that this is the kind of the next step.
    fn kind(&self, step: Step) -> f64 {
        let (at, past) = (self.at, &self.ways[self.at].past);
        self.cost(|cost| self.told.kind(cost, at, past, step))
    }

    /// Takes the step where it is the cheapest way so far to where it leads.
    fn take(&mut self, step: Step, bits: f64) {
        let Way { bits: before, past, .. } = self.ways[self.at];
        let to = &mut self.ways[self.at + step.length()];
        if before + bits < to.bits {
            *to = Way { bits: before + bits, step, past: past.after(step) };
        }
    }

    /// How many bytes are alike from here and from there, up to the longest step.
    fn alike(&self, from: usize) -> usize {
        let code = self.told.code;
        let pairs = code[self.at..].iter().zip(&code[from..]);
        pairs.take(LONGEST).take_while(|(one, other)| one == other).count()
    }

    fn byte(&mut self) {
        let (at, past) = (self.at, self.ways[self.at].past);
        let byte = self.kind(Step::Byte) + self.cost(|cost| self.told.byte(cost, at, &past));
        self.take(Step::Byte, byte);
    }

    /// From where the last steps came from.
    fn again(&mut self) {
        let last = self.ways[self.at].past.last;
        let mut lengths = Vec::new();
        for (which, distance) in last.into_iter().enumerate() {
            if distance >= self.at || last[..which].contains(&distance) {
                continue;
            }
            let most = self.alike(self.at - 1 - distance);
            if which == 0 && most > 0 {
                self.take(Step::One, self.kind(Step::One));
            }
            let kind = self.kind(Step::Again { which, length: 2 });
            if lengths.len() <= most {
                lengths = self.lengths(most, true);
            }
            for (length, bits) in lengths.iter().enumerate().take(most + 1).skip(2) {
                self.take(Step::Again { which, length }, kind + bits);
            }
        }
    }

    /// From anywhere: of each length the cheapest place.
    fn far(&mut self) {
        let mut found = self.places();
        let most = found.iter().map(|(length, ..)| *length).max().unwrap_or(0);
        let (lengths, kind) = (self.lengths(most, false), self.kind(Step::Far { distance: 0, length: 2 }));
        found.sort_by_key(|(length, ..)| *length);
        let mut best = (f64::INFINITY, 0);
        for length in (2..=most).rev() {
            while let Some((_, bits, distance)) = found.pop_if(|(long, ..)| *long >= length) {
                if bits < best.0 {
                    best = (bits, distance);
                }
            }
            self.take(Step::Far { distance: best.1, length }, kind + best.0 + lengths[length]);
        }
    }

    /// Places where longer bytes are alike than at those before, and at those of the same sort: how many, what it
    /// costs to say where, and how far back.
    fn places(&self) -> Vec<(usize, f64, usize)> {
        let (told, at) = (self.told, self.at);
        let longest = (told.code.len() - at).min(LONGEST);
        // Of any sort, and of this.
        let (mut any, mut same, mut found) = (1, 1, Vec::new());
        for (before, places) in self.seen {
            let like = std::iter::successors(before[at], |place| before[*place as usize]);
            for from in like.take(*places).map(|place| place as usize) {
                let is_alike = told.is_alike(at, from);
                let most = if is_alike { same } else { any };
                if most == longest || told.code[from + most] != told.code[at + most] {
                    continue;
                }
                let length = self.alike(from);
                if length <= most {
                    continue;
                }
                any = any.max(length);
                if is_alike {
                    same = length;
                }
                let distance = at - 1 - from;
                found.push((length, self.cost(|cost| told.from(cost, at, distance)), distance));
            }
        }
        found
    }

    /// What each length costs from here, up to the longest.
    fn lengths(&self, most: usize, again: bool) -> Vec<f64> {
        let (told, mut costs, mut on) = (self.told, vec![0.0; 2.min(most + 1)], 0.0);
        for long in 2..=most {
            if long >= ASKED {
                costs.push(on + self.cost(|cost| rest(cost, long - ASKED, again)));
                continue;
            }
            let ends = |is: bool| self.cost(|cost| told.ends(cost, self.at + long, long, again, is));
            costs.push(on + ends(true));
            on += ends(false);
        }
        costs
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bytes that steps lead to; those that stand for themselves are looked up.
    fn led_to(steps: &[Step], code: &[u8]) -> Vec<u8> {
        let (mut bytes, mut past) = (Vec::new(), Past::default());
        for step in steps {
            past = past.after(*step);
            for _ in 0..step.length() {
                let from = match step {
                    Step::Byte => code[bytes.len()],
                    _ => bytes[bytes.len() - 1 - past.last[0]],
                };
                bytes.push(from);
            }
        }
        bytes
    }

    /// Runs, noise, and what stood near and far before.
    fn ruled(long: usize) -> Vec<u8> {
        let (mut bytes, mut seed) = (Vec::new(), 1_u32);
        let mut next = |below: usize| {
            seed = seed.wrapping_mul(1_103_515_245).wrapping_add(12_345);
            (seed >> 16) as usize % below
        };
        while bytes.len() < long {
            let (kind, many, back) = (next(3), 1 + next(60), 1 + next(bytes.len() + 1));
            let byte = next(256) as u8;
            for at in 0..many {
                let before = bytes.len().checked_sub(back).map(|from| bytes[from]);
                bytes.push(match kind {
                    0 => next(256) as u8,
                    1 => byte,
                    _ if at % 7 == 6 => next(256) as u8,
                    _ => before.unwrap_or(byte),
                });
            }
        }
        bytes
    }

    #[test]
    fn steps_lead_to_the_file() {
        for code in [&b""[..], b"a", b"aa", b"abababababababab", &ruled(5000)] {
            let steps = cheapest(&Told::new(code, &(code.len() / 3..code.len())));
            assert_eq!(led_to(&steps, code), code);
        }
    }

    /// By hand: twelve bytes of noise come again once, and one byte forty times.
    #[test]
    fn what_comes_again_is_taken_from_there() {
        let noise = b"\x93\x1f\xc4\x28\xee\x07\xb5\x5a\x71\xd9\x36\x8c";
        let code = [&noise[..], b"..", noise, &[7; 40]].concat();
        let steps = cheapest(&Told::new(&code, &(0..0)));
        assert_eq!(steps[..12], [Step::Byte; 12]);
        assert!(steps.contains(&Step::Far { distance: 13, length: 12 }), "{steps:?}");
        let [.., byte, run] = steps.as_slice() else { panic!("{steps:?}") };
        assert!(*byte == Step::Byte && run.length() == 39, "{steps:?}");
    }

    /// Of all ways to a file none is told in fewer bits by the same prices: those of nine bytes, each tried.
    #[test]
    fn no_way_is_cheaper() {
        let code = b"abcabcaab";
        let told = Told::new(code, &(0..0));
        let prices = vec![[0.7, 1.1]; QUESTIONS];
        let seen = LOOKED_AT.map(|(alike, places)| (before(code, alike), places));
        let bits = |steps: &[Step]| {
            let mut cost = Cost { prices: &prices, bits: 0.0 };
            told.tell(&mut cost, steps);
            cost.bits
        };
        let (mut open, mut least) = (vec![Vec::new()], f32::INFINITY);
        while let Some(steps) = open.pop() {
            let done = led_to(&steps, code);
            if done.len() == code.len() {
                least = least.min(bits(&steps));
                continue;
            }
            let lengths = 2..=code.len() - done.len();
            let far = lengths
                .clone()
                .flat_map(|length| (0..done.len()).map(move |distance| Step::Far { distance, length }));
            let again = lengths.flat_map(|length| (0..4).map(move |which| Step::Again { which, length }));
            for step in [Step::Byte, Step::One].into_iter().chain(far).chain(again) {
                let next = [&steps[..], &[step]].concat();
                let past = next.iter().fold(Past::default(), |past, step| past.after(*step));
                let is_there = step == Step::Byte || past.last[0] < done.len();
                if is_there && code.starts_with(&led_to(&next, code)) {
                    open.push(next);
                }
            }
        }
        assert!((bits(&search(&told, &prices, &seen)) - least).abs() < 1e-4);
    }
}
