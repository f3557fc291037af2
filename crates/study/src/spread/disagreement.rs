//! What was read that cannot be so, with what else was read or with the tape.

use nalgebra::{DMatrix, DVector};
use truck::Readable;

/// Beyond so many deviations of what all else predicts a reading is an error.
const ERROR: f64 = 3.6;
/// By so many times other readings narrow what is expected of one, for them to say that it is wrong.
const SEPARATED: f64 = 2.0;

/// How readings contradict what else is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Disagreement {
    /// This one does, and without it all others agree.
    Of(Readable),
    /// Some do, and which of them is not known.
    Among,
}

/// How readings contradict what else is known: `slopes` has a row a reading, how far the model of it moves for one
/// deviation of each number, and `innovation` how much more was read than that; both in deviations of the readings.
/// With those that may be wrong: without any one of them all others agree, or, where none is such, all.
pub(super) fn disagreement(
    of: &[Readable],
    slopes: &DMatrix<f64>,
    innovation: &DVector<f64>,
) -> Option<(Disagreement, Vec<Readable>)> {
    let all: Vec<usize> = (0..of.len()).collect();
    let is_wrong = |left_out: Option<usize>| {
        let kept: Vec<_> = all.iter().copied().filter(|at| Some(*at) != left_out).collect();
        worst(slopes, innovation, &kept) > ERROR
    };
    if !is_wrong(None) {
        return None;
    }
    // Another reading says what it should have been, and not the tape alone.
    let is_separated = |at: usize| {
        let by_tape = 1.0 + slopes.row(at).norm_squared();
        inverse_of(slopes).is_some_and(|inverse| inverse[(at, at)] * by_tape >= SEPARATED)
    };
    let cures: Vec<_> = all.iter().copied().filter(|at| !is_wrong(Some(*at))).collect();
    let why = match cures[..] {
        [at] if is_separated(at) => Disagreement::Of(of[at]),
        _ => Disagreement::Among,
    };
    let suspects = if cures.is_empty() { all } else { cures };
    Some((why, suspects.into_iter().map(|at| of[at]).collect()))
}

/// How far the worst of some readings lies from what the others and the tape predict, in deviations.
fn worst(slopes: &DMatrix<f64>, innovation: &DVector<f64>, kept: &[usize]) -> f64 {
    let (slopes, innovation) = (slopes.select_rows(kept), innovation.select_rows(kept));
    inverse_of(&slopes).map_or(0.0, |inverse| standardized(&inverse, &innovation).amax())
}

/// The inverse of how far readings may be off what the model says of them, their own variance one.
pub(super) fn inverse_of(slopes: &DMatrix<f64>) -> Option<DMatrix<f64>> {
    let count = slopes.nrows();
    // Row by row: a product of whole matrices would bring along what blocks great ones for a processor's caches.
    let covariance = DMatrix::from_fn(count, count, |one, other| {
        slopes.row(one).dot(&slopes.row(other)) + f64::from(u8::from(one == other))
    });
    covariance.cholesky().map(|found| found.inverse())
}

/// How far each reading lies from what all else predicts of it, in deviations of that.
///
/// # Source
/// Of a normal distribution with the inverse covariance `K` and an innovation `d`, one less the prediction
/// from all others is `(K d)ᵢ / Kᵢᵢ`, of the variance `1 / Kᵢᵢ`.
pub(super) fn standardized(inverse: &DMatrix<f64>, innovation: &DVector<f64>) -> DVector<f64> {
    let weighed = inverse * innovation;
    DVector::from_fn(weighed.len(), |at, _| weighed[at] / inverse[(at, at)].sqrt())
}
