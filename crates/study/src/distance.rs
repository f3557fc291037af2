//! Distances from a tire to the shapes beside it, in closed form or by a short iteration.
//!
//! The tire is a disc with rounded shoulders: a cylinder, its core, grown by
//! the shoulder's radius. Every distance is that to the core less the radius, so
//! it stays signed and smooth until the core itself is entered; from there on it
//! is the shoulder's radius below zero, however deep.

use linkage::{Point3, Vector3, axes, root};

/// A tire as a solid of revolution. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TireSolid {
    /// Wheel centre.
    pub centre: Point3<f64>,
    /// Spin axis, unit.
    pub spin: Vector3<f64>,
    /// Outer radius.
    pub radius_mm: f64,
    /// Half of the section's width.
    pub half_width_mm: f64,
    /// Radius of the shoulders.
    pub shoulder_mm: f64,
}

/// A box along the body's axes. Millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// The corner with the least coordinates.
    pub low: Point3<f64>,
    /// The corner with the greatest coordinates.
    pub high: Point3<f64>,
}

/// A straight segment from one point to another. Millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// One end.
    pub from: Point3<f64>,
    /// The other end.
    pub to: Point3<f64>,
}

/// The nearest points of a tire and another thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closest {
    /// Distance, mm; negative where they overlap, down to the shoulder's radius.
    pub distance_mm: f64,
    /// On the tire.
    pub on_tire: Point3<f64>,
    /// On the other.
    pub on_other: Point3<f64>,
}

impl TireSolid {
    /// Half width and radius of the core, and the shoulder it is grown by.
    fn core(&self) -> (f64, f64, f64) {
        let shoulder = self.shoulder_mm.min(self.half_width_mm).min(self.radius_mm);
        (self.half_width_mm - shoulder, self.radius_mm - shoulder, shoulder)
    }

    /// The core's point nearest to a point.
    fn on_core(&self, point: &Point3<f64>) -> Point3<f64> {
        let (half_width, radius, _) = self.core();
        let from = point - self.centre;
        let along = from.dot(&self.spin);
        let across = from - self.spin * along;
        let size = axes::length(&across);
        let shrink = if size > radius { radius / size } else { 1.0 };
        self.centre + self.spin * along.clamp(-half_width, half_width) + across * shrink
    }

    /// The core's point farthest in a direction.
    fn farthest(&self, direction: &Vector3<f64>) -> Point3<f64> {
        let (half_width, radius, _) = self.core();
        let along = direction.dot(&self.spin);
        let across = direction - self.spin * along;
        let size = axes::length(&across);
        let rim = if size > 1e-12 { across * (radius / size) } else { Vector3::zeros() };
        self.centre + self.spin * (half_width * sign(along)) + rim
    }

    fn closest(&self, on_core: Point3<f64>, on_other: Point3<f64>) -> Closest {
        let (_, _, shoulder) = self.core();
        let between = on_other - on_core;
        let gap = axes::length(&between);
        let on_tire = if gap > 0.0 { on_core + between * (shoulder / gap) } else { on_core };
        Closest { distance_mm: gap - shoulder, on_tire, on_other }
    }

    /// From a point, mm.
    #[must_use]
    pub fn to_point(&self, point: &Point3<f64>) -> Closest {
        self.closest(self.on_core(point), *point)
    }

    /// From a segment.
    ///
    /// The distance to a convex solid is convex along a line, so its slope has
    /// one root.
    #[must_use]
    pub fn to_segment(&self, segment: &Segment) -> Closest {
        let run = segment.to - segment.from;
        let at = |share: f64| segment.from + run * share;
        let slope = |share: f64| {
            let point = at(share);
            run.dot(&(point - self.on_core(&point)))
        };
        let share = if slope(0.0) >= 0.0 {
            0.0
        } else if slope(1.0) <= 0.0 {
            1.0
        } else {
            root::bracketed(|share| Some(slope(share)), 0.0, 1.0, 1e-7).unwrap_or(0.0)
        };
        self.to_point(&at(share))
    }

    /// From a box.
    ///
    /// The nearest point of the box lies inside a face, and then straight under
    /// the core's farthest point towards that face, or on an edge.
    #[must_use]
    pub fn to_block(&self, block: &Block) -> Closest {
        for (axis, face, outward) in block.faces() {
            let on_core = self.farthest(&-outward);
            let foot = block.foot_on(axis, face, &on_core);
            if (on_core[axis] - face) * outward[axis] >= 0.0
                && let Some(foot) = foot
            {
                return self.closest(on_core, foot);
            }
        }
        if let Some(inside) = self.core_in(block) {
            return self.closest(inside, inside);
        }
        let seen = block
            .faces()
            .map(|(axis, face, outward)| (self.farthest(&outward)[axis] - face) * outward[axis] > -1e-9);
        let edges = block.edges();
        // From an edge that is nearest the core lies beyond both the faces that meet there.
        let open = |(edge, _): &(usize, &Segment)| {
            let [first, second] = Block::faces_at(*edge);
            seen[first] && seen[second]
        };
        let nearest = edges
            .iter()
            .enumerate()
            .filter(open)
            .map(|(_, edge)| self.to_segment(edge))
            .reduce(|best, closest| if closest.distance_mm < best.distance_mm { closest } else { best });
        nearest.unwrap_or_else(|| self.to_segment(&edges[0]))
    }

    /// A point of the core inside a box, where the core meets the box away from
    /// its edges: then it crosses a face inside the face's outline, or lies
    /// wholly inside.
    fn core_in(&self, block: &Block) -> Option<Point3<f64>> {
        let crossing = block.faces().into_iter().find_map(|(axis, face, outward)| {
            let (from, to) = (self.farthest(&-outward), self.farthest(&outward));
            let share = (face - from[axis]) / (to[axis] - from[axis]);
            let through = from + (to - from) * share;
            (0.0..=1.0).contains(&share).then(|| block.foot_on(axis, face, &through)).flatten()
        });
        let centre_in = (0..3).all(|axis| block.holds(axis, &self.centre));
        crossing.or_else(|| centre_in.then_some(self.centre))
    }
}

impl Block {
    /// The six faces: the axis each stands across, its place on it, and the way out.
    fn faces(&self) -> [(usize, f64, Vector3<f64>); 6] {
        std::array::from_fn(|face| {
            let axis = face / 2;
            let (at, way) = if face % 2 == 0 { (self.low[axis], -1.0) } else { (self.high[axis], 1.0) };
            let mut outward = Vector3::zeros();
            outward[axis] = way;
            (axis, at, outward)
        })
    }

    /// A point's foot on a face's plane, where it lies inside the face.
    fn foot_on(&self, axis: usize, face: f64, point: &Point3<f64>) -> Option<Point3<f64>> {
        let mut foot = *point;
        foot[axis] = face;
        (0..3).all(|other| other == axis || self.holds(other, &foot)).then_some(foot)
    }

    fn holds(&self, axis: usize, point: &Point3<f64>) -> bool {
        (self.low[axis]..=self.high[axis]).contains(&point[axis])
    }

    /// The two faces that meet at an edge, each by its place in [`faces`](Self::faces).
    const fn faces_at(edge: usize) -> [usize; 2] {
        // Four edges run along each axis; the faces at them stand across the other two.
        let [first, second] = match edge / 4 {
            0 => [1, 2],
            1 => [0, 2],
            _ => [0, 1],
        };
        [2 * first + edge % 2, 2 * second + edge / 2 % 2]
    }

    /// The twelve edges: four along each axis, the first low on both others.
    #[must_use]
    pub fn edges(&self) -> [Segment; 12] {
        let corner = |x: bool, y: bool, z: bool| {
            let pick = |high: bool, axis: usize| if high { self.high[axis] } else { self.low[axis] };
            Point3::new(pick(x, 0), pick(y, 1), pick(z, 2))
        };
        std::array::from_fn(|edge| {
            let (first, second) = (edge & 1 != 0, edge & 2 != 0);
            let (from, to) = match edge / 4 {
                0 => (corner(false, first, second), corner(true, first, second)),
                1 => (corner(first, false, second), corner(first, true, second)),
                _ => (corner(first, second, false), corner(first, second, true)),
            };
            Segment { from, to }
        })
    }
}

pub(crate) fn sign(value: f64) -> f64 {
    if value < 0.0 { -1.0 } else { 1.0 }
}
