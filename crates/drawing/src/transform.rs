//! From millimetres of the picture to pixels and back.

use measure::LengthStyle;

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

/// How a picture is looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// Width, px.
    pub width_px: f64,
    /// Height, px.
    pub height_px: f64,
    /// Size of the type, px; taken as at least [`View::LEAST_TYPE_PX`].
    pub type_px: f64,
    /// Units of the lengths shown.
    pub units: Units,
    /// Before every id of the picture, so that two on a page do not meet.
    pub prefix: String,
    /// How much of it is seen.
    pub zoom: Zoom,
    /// Width and height of its upper left corner that is covered, px: no label goes there.
    /// Of the upper right one in the mirror image that a right corner is seen as.
    pub covered_px: (f64, f64),
}

impl View {
    /// No type is smaller than this, px.
    pub const LEAST_TYPE_PX: f64 = 11.0;

    /// The view in which a corner is drawn that is then turned into its mirror image.
    pub(crate) fn behind_the_mirror(&self) -> Self {
        let Zoom { scale, pan_px } = self.zoom;
        Self { zoom: Zoom { scale, pan_px: (-pan_px.0, pan_px.1) }, ..self.clone() }
    }
}

/// How much of a picture is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zoom {
    /// Size against the one at which everything fits; 1 fits.
    pub scale: f64,
    /// How far the picture's middle is moved, px, right and down.
    pub pan_px: (f64, f64),
}

impl Default for Zoom {
    fn default() -> Self {
        Self { scale: 1.0, pan_px: (0.0, 0.0) }
    }
}

/// From millimetres of the picture, right and up, to pixels, right and down; in a mirror
/// image millimetres go left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transform {
    px_per_mm: f64,
    /// Pixels to the right of a millimetre across.
    across: f64,
    origin_px: (f64, f64),
}

impl Transform {
    /// A scale, and where the picture's origin lies.
    #[must_use]
    pub const fn new(px_per_mm: f64, origin_px: (f64, f64)) -> Self {
        Self { px_per_mm, across: px_per_mm, origin_px }
    }

    /// Pixels of a point given in millimetres.
    #[must_use]
    pub fn to_px(&self, y_mm: f64, z_mm: f64) -> (f64, f64) {
        (self.origin_px.0 + y_mm * self.across, self.origin_px.1 - z_mm * self.px_per_mm)
    }

    /// Millimetres of a point given in pixels.
    #[must_use]
    pub fn to_mm(&self, x_px: f64, y_px: f64) -> (f64, f64) {
        ((x_px - self.origin_px.0) / self.across, (self.origin_px.1 - y_px) / self.px_per_mm)
    }

    /// Millimetres of a movement given in pixels, right and down.
    #[must_use]
    pub fn moved_mm(&self, right_px: f64, down_px: f64) -> (f64, f64) {
        (right_px / self.across, -down_px / self.px_per_mm)
    }

    /// The same in the mirror image of a picture.
    pub(crate) fn mirrored(self, width_px: f64) -> Self {
        Self { across: -self.across, origin_px: (width_px - self.origin_px.0, self.origin_px.1), ..self }
    }

    /// Pixels of a millimetre.
    #[must_use]
    pub const fn px_per_mm(&self) -> f64 {
        self.px_per_mm
    }
}
