//! What sort of number a number is, and how finely it is kept.

use crate::choice::{BlindTooth, CoilEnds, PitmanSide, ShackleEnd, ShaftSide, SteeringKind};

/// The sort of a number: its unit in the core and the step it is kept in.
///
/// A committed number is a whole count of steps, so that a design is the same
/// on the page, in a link and in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Length, mm, in steps of 0.01 mm.
    Length,
    /// Angle, rad, in steps of 0.01 degree.
    Angle,
    /// Force, N, in steps of 1 N.
    Force,
    /// Rate of a spring at the wheel, N/mm, in steps of 0.01 N/mm.
    Rate,
    /// Shear modulus, N/mm², in steps of 100 N/mm².
    Modulus,
    /// A plain count (coils, turns), in steps of 0.01.
    Count,
    /// A whole number (millimetres of section, per cent of aspect).
    Whole,
    /// A rim's diameter code, in steps of a half.
    RimCode,
    /// Stress, N/mm², in steps of 1 N/mm².
    Stress,
    /// Torque, N·m, in steps of 0.1 N·m.
    Torque,
    /// One of a few, by its place in the list.
    Choice(&'static [&'static str]),
}

impl Kind {
    /// How the inner ends of the tie rods are carried.
    pub const STEERING: Self = Self::Choice(SteeringKind::WORDS);
    /// Where the pivots of the pitman and idler arms are.
    pub const PITMAN: Self = Self::Choice(PitmanSide::WORDS);
    /// Where the upper arm's shaft is bolted.
    pub const SHAFT: Self = Self::Choice(ShaftSide::WORDS);
    /// Whether a tooth of a spline is blind.
    pub const BLIND: Self = Self::Choice(BlindTooth::WORDS);
    /// At which end of its spring a rear shackle hangs.
    pub const SHACKLE: Self = Self::Choice(ShackleEnd::WORDS);
    /// How a coil's ends are made.
    pub const ENDS: Self = Self::Choice(CoilEnds::WORDS);

    /// Most steps that a number can be away from zero: it still fits a link.
    pub const MOST_STEPS: i64 = 2_000_000;

    /// Steps in one unit of the core; for an angle, in one degree.
    const fn steps_per_unit(self) -> f64 {
        match self {
            Self::Length | Self::Angle | Self::Rate | Self::Count => 100.0,
            Self::Force | Self::Whole | Self::Stress | Self::Choice(_) => 1.0,
            Self::Torque => 10.0,
            Self::Modulus => 0.01,
            Self::RimCode => 2.0,
        }
    }

    /// The nearest whole count of steps; `None` for what is not finite or too far from zero.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "bounded by MOST_STEPS before the cast")]
    #[expect(clippy::cast_precision_loss, reason = "MOST_STEPS is exact in an f64")]
    pub fn steps(self, value: f64) -> Option<i64> {
        let unit = if self == Self::Angle { value.to_degrees() } else { value };
        let steps = (unit * self.steps_per_unit()).round();
        (steps.abs() <= Self::MOST_STEPS as f64).then_some(steps as i64)
    }

    /// The number that a count of steps stands for, in the core's unit.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "counts beyond MOST_STEPS are refused elsewhere")]
    pub fn value(self, steps: i64) -> f64 {
        let unit = steps as f64 / self.steps_per_unit();
        if self == Self::Angle { unit.to_radians() } else { unit }
    }

    /// What can be chosen; `None` of a number.
    #[must_use]
    pub const fn choices(self) -> Option<&'static [&'static str]> {
        match self {
            Self::Choice(words) => Some(words),
            _ => None,
        }
    }

    /// The words of a choice; `None` of a number.
    #[must_use]
    pub fn chosen(self, value: f64) -> Option<&'static str> {
        self.choices()?.get(usize::try_from(self.steps(value)?).ok()?).copied()
    }

    /// The nearest number that can be kept; `None` for what is not finite or too far from zero.
    #[must_use]
    pub fn rounded(self, value: f64) -> Option<f64> {
        self.steps(value).map(|steps| self.value(steps))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Kind; 11] = [
        Kind::Length,
        Kind::Angle,
        Kind::Force,
        Kind::Rate,
        Kind::Modulus,
        Kind::Count,
        Kind::Whole,
        Kind::RimCode,
        Kind::Stress,
        Kind::Torque,
        Kind::SHAFT,
    ];

    #[test]
    fn a_kept_number_is_its_own_rounding() {
        for kind in ALL {
            for steps in (-2000..2000).chain([Kind::MOST_STEPS, -Kind::MOST_STEPS]) {
                let value = kind.value(steps);
                assert_eq!(kind.steps(value), Some(steps), "{kind:?}");
                assert_eq!(kind.rounded(value).map(f64::to_bits), Some(value.to_bits()));
            }
        }
    }

    #[test]
    fn what_cannot_be_kept_is_refused() {
        for kind in ALL {
            for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
                assert_eq!(kind.steps(value), None, "{kind:?}");
            }
        }
    }
}
