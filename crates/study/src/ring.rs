//! Distances from a ring: a solid of revolution with a rectangular section and
//! rounded edges, such as a tire about its rim, or the rim about a brake.
//!
//! A ring has a hole, so the distance along a line has more than one hollow;
//! it is looked for in pieces.

use crate::distance::{Bead, Block, sign};
use linkage::{Point3, Vector3, frame, root};

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
        let radius = frame::length(&across).max(1e-9);
        let (low, high) = (self.along_mm, self.radii_mm);
        let off = (along - along.clamp(low.0, low.1), radius - radius.clamp(high.0, high.1));
        let gap = (off.0 * off.0 + off.1 * off.1).sqrt();
        let (depth, way) = if gap > 0.0 {
            (gap, (off.0 / gap, off.1 / gap))
        } else {
            let (side, face) = nearest_face(along, low);
            let (rim, edge) = nearest_face(radius, high);
            if side > rim { (side, (face, 0.0)) } else { (rim, (0.0, edge)) }
        };
        Touch {
            distance_mm: depth - self.round_mm,
            outward: self.spin * way.0 + across * (way.1 / radius),
            at: *point,
        }
    }

    /// From a bead.
    #[must_use]
    pub fn to_bead(&self, bead: &Bead) -> Touch {
        nearest_along(bead, &|point| self.to_point(point))
    }
}

impl Block {
    /// From a point.
    #[must_use]
    pub fn to_point(&self, point: &Point3<f64>) -> Touch {
        let inside = Point3::from(point.coords.sup(&self.low.coords).inf(&self.high.coords));
        let off = point - inside;
        let gap = frame::length(&off);
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

    /// From a bead.
    #[must_use]
    pub fn to_bead(&self, bead: &Bead) -> Touch {
        nearest_along(bead, &|point| self.to_point(point))
    }
}

/// How deep a value lies in an interval, <= 0, and which end is the nearer one.
fn nearest_face(value: f64, (low, high): (f64, f64)) -> (f64, f64) {
    let way = sign(value - low.midpoint(high));
    (if way < 0.0 { low - value } else { value - high }, way)
}

/// Pieces of a bead in each of which one hollow of the distance is looked for.
const PIECES: u32 = 4;

/// The nearest point of a bead.
fn nearest_along(bead: &Bead, to: &dyn Fn(&Point3<f64>) -> Touch) -> Touch {
    let run = bead.to - bead.from;
    let length_mm = frame::length(&run);
    let piece_mm = length_mm / f64::from(PIECES);
    // A place known to a ten thousandth of a millimetre, at the sharpest edge.
    let width = 1e-4 / length_mm.max(1.0);
    let at = |share: f64| to(&(bead.from + run * share));
    let slope = |touch: &Touch| touch.outward.dot(&run);
    let mut last = (0.0, at(0.0));
    let mut best = last.1;
    for piece in 1..=PIECES {
        let share = f64::from(piece) / f64::from(PIECES);
        let here = at(share);
        best = best.nearer(here);
        // No distance changes faster than the way along the bead.
        let least = last.1.distance_mm.midpoint(here.distance_mm) - piece_mm / 2.0;
        if slope(&last.1) < 0.0
            && slope(&here) > 0.0
            && least < best.distance_mm
            && let Some(share) = root::bracketed(|share| Some(slope(&at(share))), last.0, share, width)
        {
            best = best.nearer(at(share));
        }
        last = (share, here);
    }
    best
}
