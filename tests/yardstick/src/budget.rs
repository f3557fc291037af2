//! Errors against a reference, held to a budget.
//!
//! One largest error says little: a budget also bounds the middle and the tail,
//! so that a loss of accuracy shows before the promise is broken.

/// The most that the errors of one quantity may be, in the quantity's unit.
#[derive(Clone, Copy, Debug)]
pub struct Budget {
    /// Half of the errors are no larger.
    pub q50: f64,
    /// Ninety-nine in a hundred are no larger.
    pub q99: f64,
    /// None is larger.
    pub max: f64,
}

/// The errors of one quantity against its reference.
#[derive(Clone, Debug)]
pub struct Errors {
    quantity: String,
    sizes: Vec<f64>,
}

impl Errors {
    /// None yet, of a quantity whose name carries its unit.
    #[must_use]
    pub fn of(quantity: impl Into<String>) -> Self {
        Self { quantity: quantity.into(), sizes: Vec::new() }
    }

    /// One more answer beside its reference.
    ///
    /// # Panics
    /// When the answer or the reference is not a number.
    pub fn add(&mut self, got: f64, want: f64) {
        let error = (got - want).abs();
        assert!(error.is_finite(), "{}: {got} against {want}", self.quantity);
        self.sizes.push(error);
    }

    /// How many answers were compared.
    #[must_use]
    pub fn count(&self) -> usize {
        self.sizes.len()
    }

    /// Prints the errors' quantiles and holds them to the budget.
    ///
    /// # Panics
    /// When nothing was compared, or a quantile is over its budget.
    #[expect(clippy::print_stdout, reason = "a test's report")]
    pub fn within(mut self, budget: Budget) {
        let quantity = &self.quantity;
        assert!(!self.sizes.is_empty(), "{quantity}: nothing was compared");
        self.sizes.sort_by(f64::total_cmp);
        let last = self.sizes.len() - 1;
        let q50 = self.sizes[last / 2];
        let q99 = self.sizes[last * 99 / 100];
        let max = self.sizes[last];
        println!("{quantity:<28} n {:>6}  q50 {q50:.1e}  q99 {q99:.1e}  max {max:.1e}", last + 1);
        for (name, got, allowed) in
            [("q50", q50, budget.q50), ("q99", q99, budget.q99), ("max", max, budget.max)]
        {
            assert!(
                got <= allowed,
                "{quantity}: {name} of the errors is {got:e}, over its budget of {allowed:e}"
            );
        }
    }
}

/// Asserts that one answer meets its reference within the reference's own rounding.
///
/// # Panics
/// When it does not.
pub fn near(got: f64, want: f64, within: f64, what: &str) {
    assert!((got - want).abs() <= within, "{what}: {got} is not {want} ± {within}");
}

#[cfg(test)]
mod tests {
    use super::*;

    const TENTH: Budget = Budget { q50: 0.1, q99: 0.1, max: 0.1 };

    #[test]
    fn a_budget_met_passes() {
        let mut errors = Errors::of("length_mm");
        errors.add(1.0, 1.05);
        errors.add(-1.0, -0.95);
        assert_eq!(errors.count(), 2);
        errors.within(TENTH);
    }

    #[test]
    #[should_panic(expected = "max of the errors is 2e-1")]
    fn one_error_over_the_budget_fails() {
        let mut errors = Errors::of("length_mm");
        for _ in 0..1000 {
            errors.add(0.0, 0.0);
        }
        errors.add(0.0, 0.2);
        errors.within(TENTH);
    }

    #[test]
    #[should_panic(expected = "nothing was compared")]
    fn nothing_compared_fails() {
        Errors::of("length_mm").within(TENTH);
    }

    #[test]
    #[should_panic(expected = "length_mm: NaN against 1")]
    fn no_number_fails() {
        Errors::of("length_mm").add(f64::NAN, 1.0);
    }
}
