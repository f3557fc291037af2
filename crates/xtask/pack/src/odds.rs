//! What the answers to questions cost: as it is learned on the way, by who sends and by who reads, and as it is known
//! of a whole file.

use crate::told::{Ask, QUESTIONS};

/// What takes bits, each with the chance, of 4096, that it is not set.
pub(crate) trait Coder {
    fn bit(&mut self, is: bool, chance: u32);
}

/// How often odds were asked is counted up to so much, and what stands for those who were asked before the first:
/// the more, the slower odds learn; measured on the page's code.
const MOST_ASKED: u32 = 31;
const FIRST: f64 = 2.3;
/// So many answers of either kind are taken for given beside those counted: measured on the page's code.
const BESIDE: f64 = 0.3;

/// Odds that learn, fast as long as little was asked of them.
pub(crate) struct Odds<C> {
    coder: C,
    /// Of 65,536 that a bit is not set, and below them how often they were asked.
    known: Vec<u32>,
}

impl<C> Odds<C> {
    pub(crate) fn new(coder: C) -> Self {
        Self { coder, known: vec![1 << 20; QUESTIONS] }
    }

    /// What has taken the bits.
    pub(crate) fn coder(self) -> C {
        self.coder
    }
}

impl<C: Coder> Ask for Odds<C> {
    fn ask(&mut self, question: usize, is: bool) {
        let known = &mut self.known[question];
        let (odd, asked) = (*known >> 5, *known & 31);
        self.coder.bit(is, odd >> 4);
        let goal = if is { 0.0 } else { 65_535.0 };
        let step = (goal - f64::from(odd)) / (f64::from(asked) + FIRST);
        *known = odd.wrapping_add_signed(step as i32) << 5 | (asked + 1).min(MOST_ASKED);
    }

    fn even(&mut self, is: bool) {
        self.coder.bit(is, 2048);
    }
}

/// How often each question was answered by no and by yes.
pub(crate) struct Answers(Vec<[u32; 2]>);

impl Answers {
    pub(crate) fn new() -> Self {
        Self(vec![[0; 2]; QUESTIONS])
    }

    /// What each answer costs, bits.
    pub(crate) fn prices(&self) -> Vec<[f32; 2]> {
        let price = |of: &[u32; 2]| {
            let counted = of.map(|count| f64::from(count) + BESIDE);
            counted.map(|count| -(count / (counted[0] + counted[1])).log2() as f32)
        };
        self.0.iter().map(price).collect()
    }
}

impl Ask for Answers {
    fn ask(&mut self, question: usize, is: bool) {
        self.0[question][usize::from(is)] += 1;
    }

    fn even(&mut self, _: bool) {}
}

/// What answers cost together, bits.
pub(crate) struct Cost<'a> {
    pub(crate) prices: &'a [[f32; 2]],
    pub(crate) bits: f32,
}

impl Ask for Cost<'_> {
    fn ask(&mut self, question: usize, is: bool) {
        self.bits += self.prices[question][usize::from(is)];
    }

    fn even(&mut self, _: bool) {
        self.bits += 1.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three of four answers no: 0.415 bits and two; one that was never asked is even.
    #[test]
    fn an_answer_costs_what_is_seldom_given_more() {
        let mut answers = Answers::new();
        (0..4000).for_each(|nth| answers.ask(7, nth % 4 == 0));
        let prices = answers.prices();
        assert!((prices[7][0] - 0.415).abs() < 1e-3 && (prices[7][1] - 2.0).abs() < 1e-2, "{:?}", prices[7]);
        assert_eq!(prices[8], [1.0, 1.0]);
    }
}
