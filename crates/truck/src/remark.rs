//! What is to be said of a change that was fitted, or could not be.

use crate::change::ChangeKind;
use crate::field::Field;
use crate::spring::SpringKind;
use std::fmt;

/// What is to be said of a change that was fitted, or could not be.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Remark {
    /// The change needs another kind of spring than the truck has; it was left out.
    NeedsSpring(ChangeKind, SpringKind),
    /// The change needs a number that is not stated; it was left out.
    NeedsNumber(ChangeKind, Field),
    /// More coils than the spring can lose; none was cut.
    TooManyCoils {
        /// Active coils of the spring.
        active: f64,
    },
    /// The bolt has fewer turns left than asked for.
    PastThread {
        /// Turns left that way.
        left: f64,
    },
    /// A blind tooth lets the bar in one way only; it was left as it is at that end.
    BlindTooth,
    /// A pack of shims is thinner than none or thicker than its bolt takes.
    PastShims,
    /// The rod does not reach; the arm was left as it is.
    RodTooShort,
    /// The pivots of the arm are as far apart as those of no bracket of the truck.
    OtherSpacing {
        /// How much farther apart those of the arm are, mm.
        wider_mm: f64,
    },
    /// The bump stop belongs to the lower arm; nothing was changed of it.
    StopElsewhere,
}

impl Remark {
    /// Whether parts do not go on as asked, or not at all; otherwise they are on, and this is to be known of them.
    #[must_use]
    pub const fn is_misfit(&self) -> bool {
        !matches!(self, Self::StopElsewhere)
    }
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NeedsSpring(change, kind) => {
                f.write_str(change.label())?;
                f.write_str(match kind {
                    SpringKind::TorsionBar => ": left out, the truck has no torsion bar.",
                    _ => ": left out, the truck has no coil.",
                })
            }
            Self::NeedsNumber(change, field) => {
                f.write_str(change.label())?;
                f.write_str(": left out until this is stated: ")?;
                f.write_str(field.label())?;
                f.write_str(".")
            }
            Self::TooManyCoils { .. } => f.write_str("Cut coil: left out, fewer than one coil would remain."),
            Self::PastThread { .. } => f.write_str(
                "Bar adjuster: the bolt has fewer turns left than that. Re-index the bar instead.",
            ),
            Self::BlindTooth => {
                f.write_str("Bar re-index: left out where a blind tooth lets the bar in one way only.")
            }
            Self::PastShims => f.write_str(
                "Upper-arm shims: a pack would be thinner than none, or thicker than its bolt takes.",
            ),
            Self::RodTooShort => f.write_str("Strut rod: left out, the rod does not reach."),
            Self::OtherSpacing { .. } => f.write_str(
                "Arm swap: its pivots are not as far apart as the truck's. It does not bolt on as it is.",
            ),
            Self::StopElsewhere => {
                f.write_str("Arm swap: the bump stop belongs to the lower arm and stays as it is.")
            }
        }
    }
}
