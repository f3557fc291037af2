//! Parts cut from patterns: tables of corners, so that a part is a few bytes of
//! the download a corner and not a few dozen.

use crate::board::Board;
use crate::geometry::{Axes, Trace, Vec2};
use crate::palette::Ink;

/// A corner in a part's own axes: a measure along and mm past it, a measure
/// across and mm past it, and the mm of its edges that its rounding takes.
///
/// Measures are counted from 1 in the list that goes with the pattern; 0 is
/// none, and a negative number is the measure on the other side.
pub(crate) type Corner = (i8, i16, i8, i16, u8);

/// A shape of a part.
pub(crate) struct Pattern {
    pub(crate) ink: Ink,
    pub(crate) closed: bool,
    pub(crate) corners: &'static [Corner],
}

/// A closed shape.
pub(crate) const fn shape(ink: Ink, corners: &'static [Corner]) -> Pattern {
    Pattern { ink, closed: true, corners }
}

/// A line.
pub(crate) const fn line(ink: Ink, corners: &'static [Corner]) -> Pattern {
    Pattern { ink, closed: false, corners }
}

/// The outline of a pattern.
pub(crate) fn cut(axes: &Axes, measures: &[f64], corners: &[Corner], closed: bool) -> Trace {
    let place = |measure: i8, mm: i16| {
        let counted = usize::from(measure.unsigned_abs());
        let size = if counted == 0 { 0.0 } else { measures[counted - 1] };
        f64::from(mm) + if measure < 0 { -size } else { size }
    };
    let corners: Vec<(Vec2, f64)> = corners
        .iter()
        .map(|(along, a, across, b, round)| {
            (axes.at(place(*along, *a), place(*across, *b)), f64::from(*round))
        })
        .collect();
    if closed { Trace::rounded(&corners) } else { Trace::bent(&corners) }
}

impl Board {
    /// Draws patterns in a part's axes, the first beneath.
    pub(crate) fn patterns(&mut self, axes: &Axes, measures: &[f64], patterns: &[Pattern]) {
        for pattern in patterns {
            let trace = cut(axes, measures, pattern.corners, pattern.closed);
            self.draw(pattern.ink, &trace);
        }
    }
}
