//! How readings of a built truck weigh against what was planned.

use crate::figure::Figure;
use crate::spread::{Spreading, Uncertainty};
use truck::Readable;

/// Of a true cause's misfits all but one in a hundred are less: the deviate of a normal distribution there.
const NINETY_NINE: f64 = 2.326_35;

/// A reading of the truck as built that is compared with what was planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Compared {
    /// Of what.
    pub(super) of: Readable,
    /// How much more was read than planned.
    pub(super) off: f64,
    /// The variance of that by its tools alone.
    pub(super) own: f64,
    /// Whether it was read as it sat as well.
    pub(super) was_read: bool,
    /// Whether a cause must explain it.
    pub(super) is_to_be_explained: bool,
}

/// How readings weigh together about one truck.
#[derive(Debug)]
pub(super) struct Weights {
    off: Vec<f64>,
    /// The inverse of their covariance, a row after the other.
    inverse: Vec<f64>,
    /// The logarithm of the covariance's determinant.
    pub(super) log_determinant: f64,
}

impl Compared {
    /// How far it moves for one deviation of each number of a truck, the second of two, of which the first is
    /// as it sits.
    pub(super) fn moves(of: Readable, was_read: bool, spreading: &Spreading) -> Option<Vec<f64>> {
        spreading.moves(1, was_read.then_some(0), Figure::of_reading(of))
    }
}

impl Weights {
    /// Of readings of a truck; `None` where it is not known how they follow from its numbers.
    #[inline(never)]
    pub(super) fn of(compared: &[Compared], spreading: &Spreading) -> Option<Self> {
        let (mut moves, mut off) = (Vec::new(), Vec::new());
        for one in compared {
            moves.push(Compared::moves(one.of, one.was_read, spreading)?);
            off.push(one.off);
        }
        let mut covariance = Vec::new();
        for (row, one) in compared.iter().enumerate() {
            for column in 0..compared.len() {
                let mut shared = if row == column { one.own } else { 0.0 };
                for (one, other) in moves[row].iter().zip(&moves[column]) {
                    shared += one * other;
                }
                covariance.push(shared);
            }
        }
        Some(Self { off, log_determinant: invert(&mut covariance, compared.len()), inverse: covariance })
    }

    /// What is left where the readings are moved so: a sum of squares, in deviations.
    pub(super) fn misfit(&self, moved: &[f64]) -> f64 {
        self.product(|at| self.off[at] - moved[at], |at| self.off[at] - moved[at])
    }

    /// The likeliest size of what moves the readings so where it is so large, if `plausible` is a deviation of
    /// it.
    pub(super) fn best(&self, moved: &[f64], by: f64, plausible: f64) -> f64 {
        let each = |at: usize| moved[at] / by;
        self.product(each, |at| self.off[at]) / (self.product(each, each) + 1.0 / (plausible * plausible))
    }

    /// The product of two vectors, each by the deviations of the other.
    fn product(&self, one: impl Fn(usize) -> f64, other: impl Fn(usize) -> f64) -> f64 {
        let mut sum = 0.0;
        for row in 0..self.off.len() {
            for column in 0..self.off.len() {
                sum += one(row) * self.inverse[row * self.off.len() + column] * other(column);
            }
        }
        sum
    }
}

/// Turns a covariance of so many rows into its inverse, and gives the logarithm of its determinant. Each tool
/// has a variance of its own, so it is positive definite.
///
/// # Source
/// J. H. Goodnight, A Tutorial on the SWEEP Operator, The American Statistician 33, 1979: swept by each of its
/// diagonal elements a matrix becomes its inverse, and their product is its determinant.
fn invert(matrix: &mut [f64], count: usize) -> f64 {
    let mut log_determinant = 0.0;
    for at in 0..count {
        let pivot = matrix[at * count + at];
        log_determinant += libm::log(pivot);
        matrix[at * count + at] = 1.0;
        for column in 0..count {
            matrix[at * count + column] /= pivot;
        }
        for row in (0..count).filter(|row| *row != at) {
            let by = std::mem::replace(&mut matrix[row * count + at], 0.0);
            for column in 0..count {
                matrix[row * count + column] -= by * matrix[at * count + column];
            }
        }
    }
    log_determinant
}

/// The variance of what is known give or take this much.
pub(super) fn variance(tolerance: f64) -> f64 {
    let standard = Uncertainty::give_or_take(tolerance).standard;
    standard * standard
}

/// Below this lie 99 in 100 of a χ² distribution.
///
/// # Source
/// E. B. Wilson and M. M. Hilferty, The Distribution of Chi-Square, 1931: its cube root is nearly normal.
pub(super) fn chi_squared(free: usize) -> f64 {
    let free = f64::from(u32::try_from(free).unwrap_or(u32::MAX));
    let ninth = 2.0 / (9.0 * free);
    let root = 1.0 - ninth + NINETY_NINE * ninth.sqrt();
    free * root * root * root
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};

    /// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper 0.01: 6.635, 9.210, 15.086 and
    /// 23.209 of 1, 2, 5 and 10 degrees of freedom. The cube root is as near as a fiftieth.
    #[test]
    fn chi_squared_is_the_table_s() {
        for (free, wanted) in [(1, 6.635), (2, 9.210), (5, 15.086), (10, 23.209)] {
            assert!((chi_squared(free) / wanted - 1.0).abs() < 0.02, "{free}: {}", chi_squared(free));
        }
    }

    /// Against nalgebra's Cholesky factor, on covariances of one to eight readings as they come about: what is
    /// shared, and each tool's own.
    #[test]
    fn a_covariance_is_inverted() {
        let mut random = fastrand::Rng::with_seed(7);
        let mut draw = || random.f64() - 0.5;
        for count in 1..=8 {
            let shared = DMatrix::from_fn(count, 12, |_, _| 10.0 * draw());
            let own = DMatrix::from_diagonal(&DVector::from_fn(count, |_, _| 0.1 + draw().abs()));
            let covariance = &shared * shared.transpose() + own;
            let factor = covariance.clone().cholesky().unwrap();
            let mut swept: Vec<f64> = covariance.iter().copied().collect();
            let log_determinant = invert(&mut swept, count);
            let wanted: f64 = factor.l().diagonal().iter().map(|root| 2.0 * libm::log(*root)).sum();
            assert!((log_determinant - wanted).abs() < 1e-9 * wanted.abs().max(1.0), "{count}");
            let largest = factor.inverse().amax();
            for (one, other) in swept.iter().zip(factor.inverse().iter()) {
                assert!((one - other).abs() < 1e-8 * largest, "{count}: {one} {other}");
            }
        }
    }

    /// By hand: two readings, 3 and 1 off, of variances 4 and 1, that nothing ties together. What moves both
    /// alike is (3/4 + 1/1) / (1/4 + 1/1) = 1.4 and leaves 1.6²/4 + 0.4² = 0.8; none at all leaves 9/4 + 1.
    #[test]
    fn a_cause_is_as_large_as_the_readings_weigh() {
        let weights = Weights {
            off: vec![3.0, 1.0],
            inverse: vec![0.25, 0.0, 0.0, 1.0],
            log_determinant: libm::log(4.0),
        };
        let by = weights.best(&[1.0, 1.0], 1.0, f64::INFINITY);
        assert!((by - 1.4).abs() < 1e-12);
        assert!((weights.misfit(&[by, by]) - 0.8).abs() < 1e-12);
        assert!((weights.misfit(&[0.0, 0.0]) - 3.25).abs() < 1e-12);
        // The same of what was tried half as large.
        assert!((weights.best(&[0.5, 0.5], 0.5, f64::INFINITY) - 1.4).abs() < 1e-12);
        // Hardly plausible, it is smaller: 1.75 / (1.25 + 1/0.25²).
        assert!((weights.best(&[1.0, 1.0], 1.0, 0.25) - 1.75 / 17.25).abs() < 1e-12);
    }
}
