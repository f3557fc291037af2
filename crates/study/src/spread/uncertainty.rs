//! How far off one number may be.

use super::COVERAGE;

/// How its error is distributed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Distribution {
    /// Little more often than much: what is read off a tool.
    Normal,
    /// Anything between two ends is as likely, and nothing beyond: what is taken as usual.
    Uniform,
}

/// How far off a number may be, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertainty {
    /// One standard deviation, in the number's unit.
    pub standard: f64,
    /// How its error is distributed.
    pub distribution: Distribution,
}

impl Uncertainty {
    /// Of a number that was read off a tool, give or take so much.
    #[must_use]
    pub fn give_or_take(tolerance: f64) -> Self {
        Self { standard: tolerance.abs() / COVERAGE, distribution: Distribution::Normal }
    }

    /// Of a number that is off by no more than so much.
    ///
    /// # Source
    /// JCGM 100 (GUM) 4.3.7: the variance of an even distribution is a third of its half-width's
    /// square.
    #[must_use]
    pub fn no_more_than(width: f64) -> Self {
        Self { standard: width.abs() / 3_f64.sqrt(), distribution: Distribution::Uniform }
    }

    /// How far off it is in one draw, in its unit.
    ///
    /// # Source
    /// G. E. P. Box and M. E. Muller, A Note on the Generation of Random Normal Deviates, 1958.
    pub(super) fn draw(self, random: &mut fastrand::Rng) -> f64 {
        let (one, two) = (random.f64(), random.f64());
        self.standard
            * match self.distribution {
                // One less the number is never zero, whose logarithm is none.
                Distribution::Normal => {
                    (-2.0 * libm::log(1.0 - one)).sqrt() * linkage::angle::cos(std::f64::consts::TAU * two)
                }
                Distribution::Uniform => 3_f64.sqrt() * (2.0 * one - 1.0),
            }
    }
}
