//! Roots of one variable inside a bracket.

/// A root of `f` between `low` and `high`, or `None` where the ends do not
/// have opposite signs (an end at exactly zero is a root).
///
/// Stops when the bracket is narrower than `width`, in the variable's own unit.
/// `f` may be undefined (`None`) inside the bracket; the answer then is `None`.
///
/// # Source
/// Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the
/// zero of a nonlinear function without using derivatives", Advances in
/// Engineering Software 28 (1997): inverse quadratic interpolation where it is
/// safe, bisection elsewhere. Formula from memory.
pub fn bracketed(mut f: impl FnMut(f64) -> Option<f64>, low: f64, high: f64, width: f64) -> Option<f64> {
    let (mut a, mut b) = (high, low);
    let (mut fa, mut fb) = (f(a)?, f(b)?);
    if fa == 0.0 {
        return Some(a);
    }
    if fb == 0.0 {
        return Some(b);
    }
    if (fa < 0.0) == (fb < 0.0) {
        return None;
    }
    let mut t = 0.5;
    // Bisection alone would end within 64 halvings; the bound is a safeguard.
    for _ in 0..200 {
        let x = a + t * (b - a);
        let fx = f(x)?;
        let (c, fc);
        if (fx < 0.0) == (fa < 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, f_best) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let tolerance = width / 2.0 + 2.0 * f64::EPSILON * best.abs();
        let least = tolerance / (b - a).abs();
        if least > 0.5 || f_best == 0.0 {
            return Some(best);
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        let safe = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
        t = if safe {
            fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        } else {
            0.5
        };
        t = t.clamp(least, 1.0 - least);
    }
    Some(if fa.abs() < fb.abs() { a } else { b })
}

#[cfg(test)]
mod tests {
    use super::*;

    type Function = fn(f64) -> f64;

    #[test]
    fn finds_known_roots() {
        let two = bracketed(|x| Some(x * x - 2.0), 0.0, 2.0, 1e-14).unwrap();
        assert!((two - std::f64::consts::SQRT_2).abs() < 1e-14);
        // Flat at the root: x^9, where interpolation alone crawls.
        let flat = bracketed(|x| Some(x.powi(9)), -1.0, 1.5, 1e-9).unwrap();
        assert!(flat.abs() < 1e-9);
        let cosine = bracketed(|x| Some(libm::cos(x)), 1.0, 2.0, 1e-14).unwrap();
        assert!((cosine - std::f64::consts::FRAC_PI_2).abs() < 1e-14);
    }

    /// Halving takes 47 values from a bracket of one to 1e-14. Inverse quadratic interpolation is
    /// of order 1.84 (Traub): five or six to come near, then errors of 1e-2, 1e-4, 1e-7, 1e-13,
    /// and the ends of the bracket, so a dozen and a half at most where the function is smooth.
    #[test]
    fn a_smooth_function_takes_few_values() {
        let smooth: [(Function, f64, f64); 5] = [
            (|x| x * x - 2.0, 0.0, 2.0),
            (|x| x * x * x - 2.0 * x - 5.0, 2.0, 3.0),
            (|x| libm::cos(x) - x, 0.0, 1.0),
            (|x| libm::exp(x) - 3.0, 0.5, 2.0),
            (|x| 1.0 - 1.0 / x, 0.4, 3.0),
        ];
        for (at, (f, low, high)) in smooth.into_iter().enumerate() {
            let mut values = 0;
            let counted = |x: f64| {
                values += 1;
                Some(f(x))
            };
            let root = bracketed(counted, low, high, 1e-14).unwrap();
            assert!(f(root).abs() < 1e-13, "{at}: {root}");
            assert!(values <= 16, "{at}: {values} values");
        }
    }

    /// Where a function is flat or jumps, halving leads: it is within the width that is asked
    /// for, and takes no more than half as many values again as halving alone.
    #[test]
    fn an_awkward_function_is_halved() {
        let awkward: [(Function, f64, f64, f64); 4] = [
            (|x| x.powi(9), -1.0, 1.5, 0.0),
            (|x| (x - 0.37).powi(3), -1.0, 3.0, 0.37),
            (|x| libm::cbrt(x - 0.2), -1.0, 2.0, 0.2),
            (|x| if x < 0.123 { -1.0 } else { 1.0 }, 0.0, 1.0, 0.123),
        ];
        for (at, (f, low, high, want)) in awkward.into_iter().enumerate() {
            for width in [1e-12, 1e-6, 0.004, 0.03] {
                let mut values = 0.0;
                let counted = |x: f64| {
                    values += 1.0;
                    Some(f(x))
                };
                let root = bracketed(counted, low, high, width).unwrap();
                assert!((root - want).abs() <= width, "{at}: {root} within {width}");
                let halvings = libm::log2((high - low) / width);
                assert!(values <= 1.5 * halvings + 4.0, "{at}: {values} values, {halvings} halvings");
            }
        }
        // By hand: of 0 to ½, the bracket after one halving, the end where the function is less.
        assert_eq!(bracketed(|x| Some(x - 0.3), 0.0, 1.0, 1.2), Some(0.5));
        assert_eq!(bracketed(|x| Some(x - 0.2), 0.0, 1.0, 1.2), Some(0.0));
        // No width at all ends where floating point does.
        let mut values = 0;
        let counted = |x: f64| {
            values += 1;
            Some(x * x - 2.0)
        };
        let root = bracketed(counted, 0.0, 2.0, 0.0).unwrap();
        assert!((root - std::f64::consts::SQRT_2).abs() < 1e-15 && values <= 16, "{root} by {values}");
    }

    #[test]
    fn says_where_there_is_none() {
        assert_eq!(bracketed(|x| Some(x * x + 1.0), -1.0, 1.0, 1e-12), None);
        assert_eq!(bracketed(|_| None, -1.0, 1.0, 1e-12), None);
        assert_eq!(bracketed(Some, 0.0, 1.0, 1e-12), Some(0.0));
    }
}
