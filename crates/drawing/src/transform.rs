//! From millimetres of the picture to pixels and back.

use measure::Units;

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

impl Zoom {
    /// The least and the greatest size.
    const ENDS: (f64, f64) = (0.5, 8.0);

    /// The size times a factor, as far as it goes, about a place of a picture of a size, px: what is
    /// seen there stays there.
    #[must_use]
    pub fn about(self, factor: f64, about_px: (f64, f64), size_px: (f64, f64)) -> Self {
        let scale = (self.scale * factor).clamp(Self::ENDS.0, Self::ENDS.1);
        let grown = scale / self.scale;
        let keep = |pan: f64, at: f64, middle: f64| {
            let from_middle = at - middle;
            from_middle - grown * (from_middle - pan)
        };
        let pan_px = (
            keep(self.pan_px.0, about_px.0, size_px.0 / 2.0),
            keep(self.pan_px.1, about_px.1, size_px.1 / 2.0),
        );
        Self { scale, pan_px }
    }

    /// The picture moved, px right and down.
    #[must_use]
    pub fn moved(self, right_px: f64, down_px: f64) -> Self {
        Self { pan_px: (self.pan_px.0 + right_px, self.pan_px.1 + down_px), ..self }
    }

    /// One of two fingers goes from a place to another while `other_px` stays: the picture keeps
    /// between them.
    #[must_use]
    pub fn pinched(
        self,
        from_px: (f64, f64),
        to_px: (f64, f64),
        other_px: (f64, f64),
        size_px: (f64, f64),
    ) -> Self {
        let apart = |at: (f64, f64)| {
            let (across, down) = (at.0 - other_px.0, at.1 - other_px.1);
            (across * across + down * down).sqrt().max(1.0)
        };
        let middle = |at: (f64, f64)| (f64::midpoint(at.0, other_px.0), f64::midpoint(at.1, other_px.1));
        let (was, now) = (middle(from_px), middle(to_px));
        self.about(apart(to_px) / apart(from_px), now, size_px).moved(now.0 - was.0, now.1 - was.1)
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

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE_PX: (f64, f64) = (360.0, 300.0);

    /// Where a place of the picture that fits is seen, by what a [`Zoom`] says of itself.
    fn seen(zoom: Zoom, at: (f64, f64)) -> (f64, f64) {
        let one = |at: f64, size: f64, pan: f64| size / 2.0 + (at - size / 2.0) * zoom.scale + pan;
        (one(at.0, SIZE_PX.0, zoom.pan_px.0), one(at.1, SIZE_PX.1, zoom.pan_px.1))
    }

    /// The place of the picture that is seen somewhere.
    fn under(zoom: Zoom, at: (f64, f64)) -> (f64, f64) {
        let one = |at: f64, size: f64, pan: f64| size / 2.0 + (at - size / 2.0 - pan) / zoom.scale;
        (one(at.0, SIZE_PX.0, zoom.pan_px.0), one(at.1, SIZE_PX.1, zoom.pan_px.1))
    }

    fn apart(a: (f64, f64), b: (f64, f64)) -> f64 {
        libm::hypot(a.0 - b.0, a.1 - b.1)
    }

    #[test]
    fn what_is_zoomed_about_stays_where_it_is() {
        for pan_px in [(0.0, 0.0), (31.0, -57.0)] {
            for (scale, factor, comes_to) in
                [(1.0, 1.25, 1.25), (2.0, 0.8, 1.6), (6.0, 3.0, 8.0), (0.6, 0.1, 0.5)]
            {
                for about in [(180.0, 150.0), (20.0, 280.0), (333.0, 11.0)] {
                    let before = Zoom { scale, pan_px };
                    let after = before.about(factor, about, SIZE_PX);
                    assert!((after.scale - comes_to).abs() < 1e-12, "{after:?}");
                    assert!(
                        apart(seen(after, under(before, about)), about) < 1e-9,
                        "{before:?} about {about:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_moved_picture_is_moved_by_as_much() {
        let before = Zoom { scale: 2.5, pan_px: (4.0, 9.0) };
        let (x, y) = seen(before, (100.0, 50.0));
        assert!(apart(seen(before.moved(7.0, -3.0), (100.0, 50.0)), (x + 7.0, y - 3.0)) < 1e-9);
    }

    /// Drawn apart or together in small steps, both fingers stay on what they were put on.
    #[test]
    fn fingers_stay_on_what_they_took() {
        let other = (120.0, 200.0);
        for (along, steps) in [((0.08, -0.06), 1500), ((-0.03, 0.0225), 1000)] {
            let mut finger = (200.0, 140.0);
            let mut zoom = Zoom { scale: 1.4, pan_px: (12.0, -8.0) };
            let taken = [under(zoom, finger), under(zoom, other)];
            for _ in 0..steps {
                let to = (finger.0 + along.0, finger.1 + along.1);
                zoom = zoom.pinched(finger, to, other, SIZE_PX);
                finger = to;
            }
            assert!(apart(seen(zoom, taken[0]), finger) < 0.2, "the finger that moves, by {along:?}");
            assert!(apart(seen(zoom, taken[1]), other) < 0.2, "the finger that rests, by {along:?}");
        }
    }
}
