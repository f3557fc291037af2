//! How far off an answer may be, by how well the numbers that it is worked out from are known.
//!
//! Answers worked out from tape points are poor, and what a part changes in them is superb: both
//! are worked out from the same numbers, whose errors cancel in the change. So every error is
//! moved in all trucks at once, and a change has a spread of its own.
//!
//! Spreads are of two standard deviations, 19 times in 20: what people mean by "give or take".

mod any;
mod disagreement;
mod fit;
mod input;
mod sampled;
mod search;
mod uncertainty;

pub use any::{NumberSpreading, spreads_of};
pub use disagreement::Disagreement;
pub use fit::{Moved, NoPointFit, PointFit, PointFitting, Residual};
pub use input::{Input, Inputs};
pub use sampled::{Draws, Range};
pub use search::Spreading;
pub use uncertainty::{Distribution, Uncertainty};

/// Standard deviations either way in a spread.
///
/// # Source
/// JCGM 100 (GUM) 6.3.3: a coverage factor of 2 holds about 95 in 100.
pub const COVERAGE: f64 = 2.0;

/// How answers follow the numbers that they are worked out from, to first order.
///
/// Answers go by their index in a list, numbers by the order in which they were put in. Where an
/// answer is gone when a number moves, nothing is known of how it follows.
///
/// # Source
/// JCGM 100 (GUM) 5.1.2 and 5.1.3, note 2: contributions by differences over one standard
/// uncertainty either way, of which the root of the sum of squares is taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sensitivities {
    /// A row a number: how far each answer moves for one standard deviation of it.
    rows: Vec<Vec<Option<f64>>>,
}

impl Sensitivities {
    /// Puts in a number: how far each answer moves for one standard deviation of it, in the
    /// answer's unit; `None` where that is not known.
    pub fn put(&mut self, moves: Vec<Option<f64>>) {
        self.rows.push(moves);
    }

    /// How far an answer moves for one standard deviation of each number, in their order.
    pub fn moves(&self, answer: usize) -> impl Iterator<Item = Option<f64>> {
        self.rows.iter().map(move |row| row.get(answer).copied().flatten())
    }

    /// The spread of an answer, ± in its unit; `None` where it is not known.
    #[must_use]
    pub fn spread(&self, answer: usize) -> Option<f64> {
        let sum: Option<f64> = self.moves(answer).map(|by| Some(by? * by?)).sum();
        Some(COVERAGE * sum?.sqrt())
    }

    /// The spread of how much more one answer is than another, ± in their unit; `None` where it
    /// is not known. What moves both alike moves not this.
    #[must_use]
    pub fn spread_between(&self, one: usize, other: usize) -> Option<f64> {
        let sum: Option<f64> = self.moves_between(one, other).map(|by| Some(by? * by?)).sum();
        Some(COVERAGE * sum?.sqrt())
    }

    /// How far one answer moves more than another for one standard deviation of each number, in their order.
    pub fn moves_between(&self, one: usize, other: usize) -> impl Iterator<Item = Option<f64>> {
        self.moves(one).zip(self.moves(other)).map(|(one, other)| Some(one? - other?))
    }

    /// The share of each number in the square of an answer's spread, in their order; nothing
    /// where none moves it or its spread is not known.
    #[must_use]
    pub fn shares(&self, answer: usize) -> Vec<f64> {
        let squares: Option<Vec<f64>> = self.moves(answer).map(|by| Some(by? * by?)).collect();
        let squares = squares.unwrap_or_default();
        let sum: f64 = squares.iter().sum();
        if sum > 0.0 { squares.iter().map(|square| square / sum).collect() } else { Vec::new() }
    }

    /// Takes one answer as known exactly: every other keeps the part of its error that is independent of it.
    /// With rows of independent errors an answer is a vector, of which the component along the known one goes.
    ///
    /// # Source
    /// The least-squares update of a linear model, by its square root.
    pub fn condition_on(&mut self, answer: usize) {
        let Some(known) = self.moves(answer).collect::<Option<Vec<f64>>>() else { return };
        let size: f64 = known.iter().map(|by| by * by).sum();
        if size <= 0.0 {
            return;
        }
        for other in 0..self.rows.first().map_or(0, Vec::len) {
            let along: Option<f64> = self.moves(other).zip(&known).map(|(by, known)| Some(by? * known)).sum();
            let Some(along) = along else { continue };
            for (row, known) in self.rows.iter_mut().zip(&known) {
                row[other] = row[other].map(|by| by - along / size * known);
            }
        }
    }

    /// What the spread of an answer would be if another one, which `moves` so far for one standard deviation of
    /// each number, were read off the truck, give or take `tolerance`, and the numbers made to fit: ± in its
    /// unit; `None` where it is not known.
    ///
    /// # Source
    /// The least-squares update of a linear model by one reading: the variance falls by the
    /// squared covariance over the variance of the reading and of what it is expected to be.
    #[must_use]
    pub fn spread_if_read(
        &self,
        answer: usize,
        moves: impl Iterator<Item = Option<f64>>,
        tolerance: f64,
    ) -> Option<f64> {
        let (mut own, mut both, mut other) = (0.0, 0.0, (tolerance / COVERAGE) * (tolerance / COVERAGE));
        for (one, two) in self.moves(answer).zip(moves) {
            let (one, two) = (one?, two?);
            own += one * one;
            both += one * two;
            other += two * two;
        }
        let remaining = if other > 0.0 { own - both * both / other } else { own };
        Some(COVERAGE * remaining.max(0.0).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Puts in every number by its differences.
    fn sensitivities(numbers: &[(f64, Uncertainty)], answers: &dyn Fn(&[f64]) -> Vec<f64>) -> Sensitivities {
        let mut found = Sensitivities::default();
        let at = |which: usize, by: f64| {
            let moved = |(index, (value, _)): (usize, &(f64, Uncertainty))| {
                value + if index == which { by } else { 0.0 }
            };
            answers(&numbers.iter().enumerate().map(moved).collect::<Vec<_>>())
        };
        for (which, (_, uncertainty)) in numbers.iter().enumerate() {
            let both = at(which, uncertainty.standard).into_iter().zip(at(which, -uncertainty.standard));
            found.put(both.map(|(up, down)| Some((up - down) / 2.0)).collect());
        }
        found
    }

    fn near(value: Option<f64>, wanted: f64, within: f64) {
        assert!(value.is_some_and(|value| (value - wanted).abs() <= within), "{value:?}, not {wanted}");
    }

    const NANOMETRE: f64 = 1.0;

    /// The end gauge of JCGM 100 (GUM), H.1, nm and °C: the standard's length, the difference of
    /// the two and its comparator, expansion, temperature, their differences; each with its
    /// degrees of freedom.
    fn end_gauge() -> (Vec<(f64, Uncertainty)>, Vec<f64>) {
        let normal = |standard: f64| Uncertainty::give_or_take(COVERAGE * standard);
        let list = [
            (50_000_623.0, normal(25.0 * NANOMETRE), 18.0),
            (215.0, normal(5.8), 24.0),
            (0.0, normal(3.9), 5.0),
            (0.0, normal(6.7), 8.0),
            (11.5e-6, Uncertainty::no_more_than(2e-6), f64::INFINITY),
            (-0.1, normal(0.2), f64::INFINITY),
            // The swing of the bath's temperature, H.1.3.4: of an arcsine, by its deviation.
            (0.0, normal(0.35), f64::INFINITY),
            (0.0, Uncertainty::no_more_than(1e-6), 50.0),
            (0.0, Uncertainty::no_more_than(0.05), 2.0),
        ];
        list.iter().map(|(value, uncertainty, freedom)| ((*value, *uncertainty), *freedom)).unzip()
    }

    /// Equation (H.2): `l = l_s + d − l_s (δα θ + α_s δθ)`.
    fn length_nm(of: &[f64]) -> Vec<f64> {
        let [standard, d, d1, d2, alpha, theta, swing, d_alpha, d_theta] = of else { return Vec::new() };
        vec![standard + d + d1 + d2 - standard * (d_alpha * (theta + swing) + alpha * d_theta)]
    }

    /// JCGM 100 (GUM), H.1: 31.7 nm to first order, of which the standard has 25 and the gauges'
    /// temperatures 16.6; 16.7 degrees of freedom by (G.2b).
    #[test]
    fn the_end_gauge_to_first_order() {
        let (numbers, freedom) = end_gauge();
        let found = sensitivities(&numbers, &length_nm);
        near(found.spread(0).map(|spread| spread / COVERAGE), 31.7, 0.05);
        let moves: Vec<_> = found.moves(0).collect();
        for (at, wanted) in [(0, 25.0), (4, 0.0), (5, 0.0), (7, 2.9), (8, 16.6)] {
            near(moves[at].map(f64::abs), wanted, 0.05);
        }
        let shares = found.shares(0);
        let sum: f64 = shares.iter().zip(&freedom).map(|(share, freedom)| share * share / freedom).sum();
        assert!((1.0 / sum - 16.7).abs() < 0.1, "{}", 1.0 / sum);
    }

    /// The same, H.1.7: the terms of second order make it 34 nm, and draws see them.
    #[test]
    fn the_end_gauge_by_draws() {
        let (numbers, _) = end_gauge();
        let mut random = fastrand::Rng::with_seed(7);
        let mut squares = 0.0;
        let count = 40_000;
        for _ in 0..count {
            let drawn: Vec<_> =
                numbers.iter().map(|(value, uncertainty)| value + uncertainty.draw(&mut random)).collect();
            let off = length_nm(&drawn)[0] - 50_000_838.0;
            squares += off * off / f64::from(count);
        }
        // A deviation of 40,000 draws is known to 0.35 in 100.
        assert!((squares.sqrt() - 33.8).abs() < 0.4, "{}", squares.sqrt());
    }

    /// J. R. Taylor, An Introduction to Error Analysis, the pendulum (from memory): 92.95 ± 0.1 cm
    /// and 1.936 ± 0.004 s make 979 ± 4 cm/s².
    #[test]
    fn the_pendulum() {
        let numbers = [(92.95, Uncertainty::give_or_take(0.1)), (1.936, Uncertainty::give_or_take(0.004))];
        let gravity = |of: &[f64]| vec![4.0 * std::f64::consts::PI.powi(2) * of[0] / (of[1] * of[1])];
        assert!((gravity(&[92.95, 1.936])[0] - 979.0).abs() < 0.1);
        near(sensitivities(&numbers, &gravity).spread(0), 4.2, 0.05);
    }

    /// By hand: of `a + b` and `a + 2 c` with spreads 3, 4 and 6, the difference is `b − 2 c`, whose
    /// spread is √(16 + 144); were `a` not shared it would be √(9 + 9 + 16 + 144).
    #[test]
    fn what_moves_both_moves_not_their_difference() {
        let numbers = [3.0, 4.0, 6.0].map(|spread| (10.0, Uncertainty::give_or_take(spread)));
        let found = sensitivities(&numbers, &|of: &[f64]| vec![of[0] + of[1], of[0] + 2.0 * of[2], 1.0]);
        near(found.spread(0), 5.0, 1e-12);
        near(found.spread(1), 153_f64.sqrt(), 1e-12);
        near(found.spread_between(1, 0), 160_f64.sqrt(), 1e-12);
        near(found.spread_between(0, 0), 0.0, 1e-12);
        near(found.spread(2), 0.0, 1e-12);
        assert_eq!(found.shares(2), Vec::<f64>::new());
        let shares = found.shares(0);
        assert!((shares[0] - 0.36).abs() < 1e-12 && (shares[1] - 0.64).abs() < 1e-12, "{shares:?}");
    }

    /// By hand: of the sum `a + b` with spreads 3 and 4, reading `a` to nothing leaves `b`; reading
    /// the sum itself to 5 halves its variance; reading what shares nothing with it says nothing.
    #[test]
    fn a_reading_narrows_what_shares_its_errors() {
        let numbers = [3.0, 4.0, 6.0].map(|spread| (10.0, Uncertainty::give_or_take(spread)));
        let found = sensitivities(&numbers, &|of: &[f64]| vec![of[0] + of[1], of[0], of[2]]);
        let if_read = |read, tolerance| found.spread_if_read(0, found.moves(read), tolerance);
        near(if_read(1, 0.0), 4.0, 1e-12);
        near(if_read(0, 5.0), 12.5_f64.sqrt(), 1e-12);
        near(if_read(2, 0.1), 5.0, 1e-12);
        // A reading as poor as what was known of `a` takes half of its variance.
        near(if_read(1, 3.0), (16_f64 + 4.5).sqrt(), 1e-12);
    }

    /// By hand, as the one above and taken in for good: `a` of two known alike and read as well as it was
    /// known halves in its variance; both readings of a sum and of a part of it come to the other part.
    #[test]
    fn what_is_taken_in_is_known_of_all() {
        // Columns: a + b, a, a as read; rows: a, b, and the error of the reading.
        let mut found = Sensitivities::default();
        for row in [[3.0, 3.0, 3.0], [4.0, 0.0, 0.0], [0.0, 0.0, 3.0]] {
            found.put(row.map(Some).to_vec());
        }
        found.condition_on(2);
        near(found.spread(1), COVERAGE * 4.5_f64.sqrt(), 1e-12);
        near(found.spread(0), COVERAGE * (16_f64 + 4.5).sqrt(), 1e-12);
        found.condition_on(1);
        near(found.spread(1), 0.0, 1e-12);
        near(found.spread(0), COVERAGE * 4.0, 1e-12);
    }

    /// What is gone where a number moves is not known, and no answer beside it suffers.
    #[test]
    fn what_is_gone_is_not_known() {
        let mut found = Sensitivities::default();
        found.put(vec![Some(3.0), None]);
        found.put(vec![Some(4.0), Some(1.0)]);
        near(found.spread(0), 10.0, 1e-12);
        assert_eq!(
            (
                found.spread(1),
                found.spread_between(0, 1),
                found.spread_if_read(1, [Some(3.0), Some(4.0)].into_iter(), 1.0)
            ),
            (None, None, None)
        );
        assert_eq!(found.spread(2), None);
    }

    /// Both shapes have the deviation that they are given, no mean, and their ends.
    #[test]
    fn draws_are_shaped_as_they_are_said_to_be() {
        let mut random = fastrand::Rng::with_seed(3);
        for (uncertainty, far) in
            [(Uncertainty::give_or_take(4.0), 6.0), (Uncertainty::no_more_than(12_f64.sqrt()), 12_f64.sqrt())]
        {
            let drawn: Vec<f64> = (0..20_000).map(|_| uncertainty.draw(&mut random)).collect();
            let mean = drawn.iter().sum::<f64>() / 20_000.0;
            let deviation = (drawn.iter().map(|off| off * off).sum::<f64>() / 20_000.0).sqrt();
            assert!(
                mean.abs() < 0.05 && (deviation - 2.0).abs() < 0.04,
                "{uncertainty:?}: {mean}, {deviation}"
            );
            let beyond = drawn.iter().filter(|off| off.abs() > far).count();
            // Three deviations of a normal are passed by 27 in 10,000; an even one has an end.
            let wanted = if uncertainty.distribution == Distribution::Normal { 20..=90 } else { 0..=0 };
            assert!(wanted.contains(&beyond), "{uncertainty:?}: {beyond}");
        }
    }
}
