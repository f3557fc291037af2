//! In what units lengths are shown.

use crate::length::LengthStyle;

/// In what lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Inches and sixteenths.
    #[default]
    Inches,
    /// Whole millimetres.
    Millimetres,
}

impl Units {
    /// How a picture writes lengths in these units.
    #[must_use]
    pub const fn length_style(self) -> LengthStyle {
        match self {
            Self::Inches => LengthStyle::Inches { denominator: 16 },
            Self::Millimetres => LengthStyle::Millimetres { decimals: 0 },
        }
    }
}
