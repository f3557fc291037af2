//! Distances from a ring: a solid of revolution with a rectangular section and
//! rounded edges, such as a tire about its rim, or the rim about a brake.
//!
//! A ring has a hole, so the distance along a line has more than one hollow;
//! it is looked for in pieces.

use crate::distance::{Block, Segment, sign};
use linkage::{Point3, Vector3, axes};

/// Diameter of a rim's bead seat, mm, by its code.
///
/// # Source
/// ISO 4000-2: nominal inches less 0.8 mm (from memory).
#[must_use]
pub fn bead_seat_mm(rim_code: f64) -> f64 {
    rim_code * 25.4 - 0.8
}

/// A ring. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// A point of its axis.
    pub centre: Point3<f64>,
    /// Its axis, unit.
    pub spin: Vector3<f64>,
    /// From where to where it goes along its axis, from `centre`, without the rounding.
    pub along_mm: (f64, f64),
    /// Its inner and outer radius, without the rounding.
    pub radii_mm: (f64, f64),
    /// What it is grown by all around.
    pub round_mm: f64,
}

/// How near a point, or the nearest point of a line, is to a solid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// Distance, mm; inside, how deep below the nearest face, negative.
    pub distance_mm: f64,
    /// The way out of the solid, unit.
    pub outward: Vector3<f64>,
    /// The point, mm.
    pub at: Point3<f64>,
}

impl Touch {
    /// The point of the solid's surface that is nearest.
    #[must_use]
    pub fn on_solid(&self) -> Point3<f64> {
        self.at - self.outward * self.distance_mm
    }

    pub(crate) fn nearer(self, other: Self) -> Self {
        if other.distance_mm < self.distance_mm { other } else { self }
    }
}

impl Ring {
    /// From a point.
    #[must_use]
    pub fn to_point(&self, point: &Point3<f64>) -> Touch {
        let from = point - self.centre;
        let along = from.dot(&self.spin);
        let across = from - self.spin * along;
        let radius = axes::length(&across).max(1e-9);
        let ((from_mm, to_mm), (inner_mm, outer_mm)) = (self.along_mm, self.radii_mm);
        let off = (along - along.clamp(from_mm, to_mm), radius - radius.clamp(inner_mm, outer_mm));
        let gap = (off.0 * off.0 + off.1 * off.1).sqrt();
        let (depth, way) = if gap > 0.0 {
            (gap, (off.0 / gap, off.1 / gap))
        } else {
            let (to_side, side) = nearest_face(along, self.along_mm);
            let (to_round, round) = nearest_face(radius, self.radii_mm);
            if to_side > to_round { (to_side, (side, 0.0)) } else { (to_round, (0.0, round)) }
        };
        Touch {
            distance_mm: depth - self.round_mm,
            outward: self.spin * way.0 + across * (way.1 / radius),
            at: *point,
        }
    }

    /// From a segment.
    #[must_use]
    pub fn to_segment(&self, segment: &Segment) -> Touch {
        nearest_along(segment, &|point| self.to_point(point))
    }
}

impl Block {
    /// From a point.
    #[must_use]
    pub fn to_point(&self, point: &Point3<f64>) -> Touch {
        let inside = Point3::from(point.coords.sup(&self.low.coords).inf(&self.high.coords));
        let off = point - inside;
        let gap = axes::length(&off);
        if gap > 0.0 {
            return Touch { distance_mm: gap, outward: off / gap, at: *point };
        }
        let mut best = Touch { distance_mm: f64::NEG_INFINITY, outward: Vector3::zeros(), at: *point };
        for axis in 0..3 {
            let (depth, way) = nearest_face(point[axis], (self.low[axis], self.high[axis]));
            if depth > best.distance_mm {
                best.distance_mm = depth;
                best.outward = Vector3::zeros();
                best.outward[axis] = way;
            }
        }
        best
    }

    /// From a segment.
    #[must_use]
    pub fn to_segment(&self, segment: &Segment) -> Touch {
        nearest_along(segment, &|point| self.to_point(point))
    }
}

/// How deep a value lies in an interval, <= 0, and which end is the nearer one.
fn nearest_face(value: f64, (low, high): (f64, f64)) -> (f64, f64) {
    let way = sign(value - low.midpoint(high));
    (if way < 0.0 { low - value } else { value - high }, way)
}

/// Pieces of a segment in each of which one hollow of the distance is looked for.
const PIECES: u32 = 12;
/// How well a least distance is known, mm.
const CLOSE_MM: f64 = 1e-6;

/// The nearest point of a segment.
fn nearest_along(segment: &Segment, to: &dyn Fn(&Point3<f64>) -> Touch) -> Touch {
    let run = segment.to - segment.from;
    let length_mm = axes::length(&run);
    let way = run / length_mm.max(1e-9);
    let at = |along_mm: f64| {
        let touch = to(&(segment.from + way * along_mm));
        OnSegment { along_mm, slope: touch.outward.dot(&way), touch }
    };
    let mut nearest = Nearest { length_mm, at: &at, best: at(0.0) };
    let (first, last) = (nearest.best, at(length_mm));
    nearest.hold(last);
    nearest.between((0, first), (PIECES, last));
    nearest.best.touch
}

/// The search for the nearest place of a segment.
struct Nearest<'a> {
    length_mm: f64,
    at: &'a dyn Fn(f64) -> OnSegment,
    best: OnSegment,
}

impl Nearest<'_> {
    /// Of equally near places the one nearest to the segment's beginning is kept, whatever the order of the search.
    fn hold(&mut self, here: OnSegment) {
        let more_mm = here.touch.distance_mm - self.best.touch.distance_mm;
        if more_mm < 0.0 || (more_mm <= 0.0 && here.along_mm < self.best.along_mm) {
            self.best = here;
        }
    }

    /// Looks between two ends of pieces, unless nothing there can be nearer than what was found: most of
    /// a segment is far off, and a frame of a drag asks for thousands of places.
    fn between(&mut self, from: (u32, OnSegment), to: (u32, OnSegment)) {
        // No distance changes faster than the way along the segment.
        let span_mm = to.1.along_mm - from.1.along_mm;
        let least_mm = (from.1.touch.distance_mm + to.1.touch.distance_mm - span_mm) / 2.0;
        if least_mm >= self.best.touch.distance_mm {
            return;
        }
        let middle = u32::midpoint(from.0, to.0);
        if middle > from.0 {
            let here = (self.at)(self.length_mm * f64::from(middle) / f64::from(PIECES));
            self.hold(here);
            self.between(from, (middle, here));
            self.between((middle, here), to);
        } else if from.1.slope < 0.0 && to.1.slope > 0.0 {
            self.hold(hollow(from.1, to.1, self.at));
        }
    }
}

/// A place along a segment, and how fast the distance grows there.
#[derive(Clone, Copy)]
struct OnSegment {
    along_mm: f64,
    slope: f64,
    touch: Touch,
}

impl OnSegment {
    fn nearer(self, other: Self) -> Self {
        if other.touch.distance_mm < self.touch.distance_mm { other } else { self }
    }
}

/// The least distance between a place where it falls and one where it rises.
///
/// By the cubic through both distances and slopes, every third time by halves, until the slope there
/// is too small to lead to anything nearer.
fn hollow(mut from: OnSegment, mut to: OnSegment, at: &dyn Fn(f64) -> OnSegment) -> OnSegment {
    let mut best = from.nearer(to);
    for round in 0..60 {
        let span_mm = to.along_mm - from.along_mm;
        let bend = from.slope + to.slope - 3.0 * (to.touch.distance_mm - from.touch.distance_mm) / span_mm;
        let root = (bend * bend - from.slope * to.slope).sqrt();
        let share = 1.0 - (to.slope + root - bend) / (to.slope - from.slope + 2.0 * root);
        let share = if round % 3 == 2 || share.is_nan() { 0.5 } else { share.clamp(0.001, 0.999) };
        let here = at(from.along_mm + span_mm * share);
        best = best.nearer(here);
        if here.slope.abs() * span_mm < CLOSE_MM {
            break;
        }
        *(if here.slope < 0.0 { &mut from } else { &mut to }) = here;
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From a straight line to a point beside it the distance is `hypot(s, h)`, with its least
    /// `h` at the foot. A cubic with both distances and slopes is out by the fourth power of what
    /// it spans, so a few rounds do; halving alone would take thirty.
    #[test]
    fn the_cubic_takes_few_rounds() {
        for (foot, beside) in [(3.0, 2.0), (55.0, 20.0), (96.0, 40.0), (40.0, 0.5)] {
            let rounds = std::cell::Cell::new(0);
            let at = |along_mm: f64| {
                rounds.set(rounds.get() + 1);
                let distance_mm = libm::hypot(along_mm - foot, beside);
                let touch = Touch { distance_mm, outward: Vector3::x(), at: Point3::new(along_mm, 0.0, 0.0) };
                OnSegment { along_mm, slope: (along_mm - foot) / distance_mm, touch }
            };
            let found = hollow(at(0.0), at(100.0), &at).touch;
            assert!((found.distance_mm - beside).abs() < 1e-9, "{} for {beside}", found.distance_mm);
            assert!(rounds.get() <= 16, "{} rounds to {foot}, {beside}", rounds.get());
        }
    }
}
