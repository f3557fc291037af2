//! One number of a change, as the table says it.

use crate::field::{GAUGE_RAD, TAPE_MM, nearest};
use crate::kind::Kind;
use crate::line;

/// One number of a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangeNumber {
    /// The name in files and what the forms call it, a line each.
    pub(super) words: &'static str,
    /// What sort of number it is.
    pub kind: Kind,
    /// Least and greatest value; mm, degrees or a plain number.
    pub limits: (f64, f64),
    /// Whether it may be left open.
    pub optional: bool,
}

impl ChangeNumber {
    /// The name in files.
    #[must_use]
    pub fn key(&self) -> &'static str {
        line(self.words, 0)
    }

    /// What the forms call it.
    #[must_use]
    pub fn label(&self) -> &'static str {
        line(self.words, 1)
    }

    /// The half-width within which the true value is taken to lie where the number is a
    /// guess, in the core's unit: a quarter of what the part is taken to do, and never less
    /// than a tape would be out. Common practice, no source.
    #[must_use]
    pub fn guess_width(&self, value: f64) -> f64 {
        let quarter = 0.25 * value.abs();
        match self.kind {
            Kind::Length => quarter.clamp(1.6, 25.4),
            Kind::Angle => quarter.max(1.0_f64.to_radians()),
            Kind::Whole => 10.0,
            Kind::RimCode => 1.0,
            Kind::Count => quarter.max(0.5),
            _ => quarter,
        }
    }

    /// The half-width within which the true value is taken to lie where the number was measured on
    /// the part, in the core's unit: what a tape and an angle gauge are good for, and nothing of
    /// what is counted. Common practice, no source.
    #[must_use]
    pub const fn tolerance(&self) -> f64 {
        match self.kind {
            Kind::Length => TAPE_MM,
            Kind::Angle => GAUGE_RAD,
            _ => 0.0,
        }
    }

    /// The value that can be kept nearest to one, within the limits; `None` of what is not finite.
    #[must_use]
    pub fn nearest(&self, value: f64) -> Option<f64> {
        nearest(self.kind, self.limits, value)
    }
}
