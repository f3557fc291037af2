//! How readings of a built truck weigh against what was planned.

use crate::figure::Figure;
use crate::spread::{COVERAGE, Spreading};
use nalgebra::{DMatrix, DVector};
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
#[derive(Clone, Debug)]
pub(super) struct Weights {
    off: DVector<f64>,
    inverse: DMatrix<f64>,
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
    pub(super) fn of(compared: &[Compared], spreading: &Spreading) -> Option<Self> {
        let moves = |one: &Compared| Compared::moves(one.of, one.was_read, spreading);
        let moves: Vec<Vec<f64>> = compared.iter().map(moves).collect::<Option<_>>()?;
        let count = compared.len();
        let covariance = DMatrix::from_fn(count, count, |one, other| {
            let shared: f64 = moves[one].iter().zip(&moves[other]).map(|(one, other)| one * other).sum();
            if one == other { shared + compared[one].own } else { shared }
        });
        let factor = covariance.cholesky()?;
        let diagonal = factor.l_dirty().diagonal();
        Some(Self {
            off: DVector::from_iterator(count, compared.iter().map(|one| one.off)),
            log_determinant: diagonal.iter().map(|root| 2.0 * libm::log(*root)).sum(),
            inverse: factor.inverse(),
        })
    }

    /// What is left where the readings are moved so: a sum of squares, in deviations.
    pub(super) fn misfit(&self, moved: &DVector<f64>) -> f64 {
        let left = &self.off - moved;
        (&self.inverse * &left).dot(&left)
    }

    /// The likeliest size of what moves the readings so for one of it, where `plausible` is a deviation of it.
    pub(super) fn best(&self, each: &DVector<f64>, plausible: f64) -> f64 {
        let weighed = &self.inverse * each;
        weighed.dot(&self.off) / (weighed.dot(each) + 1.0 / (plausible * plausible))
    }
}

/// The variance of what is known give or take this much.
pub(super) fn variance(tolerance: f64) -> f64 {
    (tolerance / COVERAGE) * (tolerance / COVERAGE)
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

    /// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper 0.01: 6.635, 9.210, 15.086 and
    /// 23.209 of 1, 2, 5 and 10 degrees of freedom. The cube root is as near as a fiftieth.
    #[test]
    fn chi_squared_is_the_table_s() {
        for (free, wanted) in [(1, 6.635), (2, 9.210), (5, 15.086), (10, 23.209)] {
            assert!((chi_squared(free) / wanted - 1.0).abs() < 0.02, "{free}: {}", chi_squared(free));
        }
    }

    /// By hand: two readings, 3 and 1 off, of variances 4 and 1, that nothing ties together. What moves both
    /// alike is (3/4 + 1/1) / (1/4 + 1/1) = 1.4 and leaves 1.6²/4 + 0.4² = 0.8; none at all leaves 9/4 + 1.
    #[test]
    fn a_cause_is_as_large_as_the_readings_weigh() {
        let weights = Weights {
            off: DVector::from_vec(vec![3.0, 1.0]),
            inverse: DMatrix::from_diagonal(&DVector::from_vec(vec![0.25, 1.0])),
            log_determinant: libm::log(4.0),
        };
        let alike = DVector::from_vec(vec![1.0, 1.0]);
        let by = weights.best(&alike, f64::INFINITY);
        assert!((by - 1.4).abs() < 1e-12);
        assert!((weights.misfit(&(&alike * by)) - 0.8).abs() < 1e-12);
        assert!((weights.misfit(&(alike * 0.0)) - 3.25).abs() < 1e-12);
        // Hardly plausible, it is smaller: 1.75 / (1.25 + 1/0.25²).
        let alike = DVector::from_vec(vec![1.0, 1.0]);
        assert!((weights.best(&alike, 0.25) - 1.75 / 17.25).abs() < 1e-12);
    }
}
