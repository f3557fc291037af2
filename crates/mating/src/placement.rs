//! Three holes and more laid over three others as well as they go.

/// A point of a plane, mm.
pub(super) type Flat = (f64, f64);

/// Where points lie whose distances are known: 1-2, 1-3, 2-3, then 1-4, 2-4, 3-4. The first is
/// the origin, the second along x, the third above; `None` where the distances close no
/// triangle.
pub(super) fn laid_out(distances: &[f64]) -> Option<Vec<Flat>> {
    let [d12, d13, d23, rest @ ..] = distances else { return None };
    // From two circles about the first two points.
    let from_two = |d1: f64, d2: f64| {
        let x = (d12 * d12 + d1 * d1 - d2 * d2) / (2.0 * d12);
        let square = d1 * d1 - x * x;
        // Three points nearly in line may miss it by the tool.
        (*d12 > 0.0 && square > -0.05 * d1 * d1).then(|| (x, square.max(0.0).sqrt()))
    };
    let third = from_two(*d13, *d23)?;
    let mut points = vec![(0.0, 0.0), (*d12, 0.0), third];
    if let [d14, d24, d34, ..] = rest {
        let (x, y) = from_two(*d14, *d24)?;
        let misses = |y: f64| (apart((x, y), third) - d34).abs();
        points.push((x, if misses(y) <= misses(-y) { y } else { -y }));
    }
    Some(points)
}

fn apart(one: Flat, other: Flat) -> f64 {
    let (x, y) = (one.0 - other.0, one.1 - other.1);
    linkage::axes::hypotenuse(x, y)
}

/// The least that the worst hole is off beyond its clearance when `second` is turned and
/// shifted over `first` as well as it goes, mm; below zero, so much is left at every hole.
///
/// # Source
/// The floating-fastener condition at every hole at once (ASME Y14.5, appendix on formulas for
/// positional tolerancing, gives it for one), with the smallest-circle problem for the shift:
/// at the best place at most three holes are at their limit, or two across from each other.
pub(super) fn worst_mm(first: &[Flat], second: &[Flat], clearance_mm: &[f64]) -> f64 {
    let off = |turn: f64| -> Vec<Flat> {
        first
            .iter()
            .zip(second)
            .map(|(one, other)| {
                let (sin, cos) = linkage::angle::sincos(turn);
                (cos * other.0 - sin * other.1 - one.0, sin * other.0 + cos * other.1 - one.1)
            })
            .collect()
    };
    let reach = first.iter().map(|point| apart(*point, (0.0, 0.0))).fold(1.0, f64::max);
    let farthest = off(0.0).iter().map(|off| apart(*off, (0.0, 0.0))).fold(0.0, f64::max);
    // A larger turn about the first hole moves the farthest by more than any shift could mend.
    let most = (4.0 * farthest / reach + 1e-6).min(0.3);
    golden(|turn| best_shift_mm(&off(turn), clearance_mm), -most, most)
}

/// The least of a function that falls and then rises.
fn golden(of: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    const SHARE: f64 = 0.618_033_988_749_894_9;
    let (mut left, mut right) = (high - SHARE * (high - low), low + SHARE * (high - low));
    let (mut at_left, mut at_right) = (of(left), of(right));
    for _ in 0..28 {
        if at_left < at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - SHARE * (high - low);
            at_left = of(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + SHARE * (high - low);
            at_right = of(right);
        }
    }
    at_left.min(at_right)
}

/// The least, over every shift, of the most that an offset is beyond its clearance.
fn best_shift_mm(off: &[Flat], clearance_mm: &[f64]) -> f64 {
    let worst = |shift: Flat| {
        let beyond = off.iter().zip(clearance_mm).map(|(off, clearance)| apart(*off, shift) - clearance);
        beyond.fold(f64::MIN, f64::max)
    };
    let mut least = f64::MAX;
    for (i, one) in off.iter().enumerate() {
        least = least.min(worst(*one));
        for (j, other) in off.iter().enumerate().skip(i + 1) {
            let apart = apart(*one, *other);
            // Both equally far beyond their clearances, on the line between them.
            let share = if apart > 0.0 {
                (0.5 + (clearance_mm[i] - clearance_mm[j]) / (2.0 * apart)).clamp(0.0, 1.0)
            } else {
                0.0
            };
            least = least.min(worst((one.0 + share * (other.0 - one.0), one.1 + share * (other.1 - one.1))));
            for k in j + 1..off.len() {
                let clearances = [clearance_mm[i], clearance_mm[j], clearance_mm[k]];
                least = least.min(three([off[i], off[j], off[k]], clearances).map_or(f64::MAX, worst));
            }
        }
    }
    least
}

/// The shift at which three offsets are equally far beyond their clearances: a circle of
/// Apollonius, from two linear equations and one quadratic. Its other root is a circle on the
/// far side, or a larger one, where all three are farther beyond.
fn three(off: [Flat; 3], clearance: [f64; 3]) -> Option<Flat> {
    let [a, b, c] = off;
    let row = |point: Flat, clear: f64| {
        let (x, y) = (point.0 - a.0, point.1 - a.1);
        let more = clear - clearance[0];
        // About the first offset: 2 x·t = x² − more² − 2 r more, with r its own distance.
        (x, y, (x * x + y * y - more * more) / 2.0, -more)
    };
    let (b, c) = (row(b, clearance[1]), row(c, clearance[2]));
    let det = b.0 * c.1 - b.1 * c.0;
    let solved = |p: f64, q: f64| ((p * c.1 - q * b.1) / det, (b.0 * q - c.0 * p) / det);
    let (fixed, slope) = (solved(b.2, c.2), solved(b.3, c.3));
    // |fixed + slope r|² = r²
    let square = slope.0 * slope.0 + slope.1 * slope.1 - 1.0;
    let half = fixed.0 * slope.0 + fixed.1 * slope.1;
    let rest = fixed.0 * fixed.0 + fixed.1 * fixed.1;
    let under = half * half - square * rest;
    let root = under.max(0.0).sqrt();
    let r = (-half - root) / square;
    let shift = (a.0 + fixed.0 + slope.0 * r, a.1 + fixed.1 + slope.1 * r);
    (shift.0.is_finite() && shift.1.is_finite()).then_some(shift)
}

#[cfg(test)]
mod tests {
    use super::super::support::near;
    use super::*;

    fn ring(count: u32, radius: f64) -> Vec<Flat> {
        (0..count)
            .map(|at| {
                let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(at) / f64::from(count));
                (radius * cos, radius * sin)
            })
            .collect()
    }

    /// Hand arithmetic: a triangle's corners lie s/√3 from its middle, so sides that differ by δ
    /// put every corner δ/√3 off, 1.155 times the δ/2 of two holes alone.
    #[test]
    fn a_triangle_needs_more_than_its_sides_do() {
        let [small, large] = [90.0, 91.0].map(|side: f64| laid_out(&[side; 3]).unwrap());
        let off = worst_mm(&small, &large, &[0.0; 3]);
        near(off, 1.0 / libm::sqrt(3.0), 1e-6);
        near(off / 0.5, 1.1547, 1e-4);
        near(worst_mm(&small, &large, &[0.7; 3]), off - 0.7, 1e-6);
    }

    /// Hand arithmetic: two circles of bolts are off by half of what their diameters differ.
    #[test]
    fn a_circle_is_off_by_the_difference_of_its_radii() {
        for count in [3, 4] {
            near(worst_mm(&ring(count, 50.0), &ring(count, 50.4), &vec![0.0; count as usize]), 0.4, 1e-6);
        }
    }

    /// A pattern laid on itself, turned and shifted, is on it again.
    #[test]
    fn the_same_pattern_lies_on_itself() {
        let first = [(0.0, 0.0), (80.0, 5.0), (30.0, 60.0), (-20.0, 40.0)];
        let (sin, cos) = libm::sincos(0.01);
        let second = first.map(|(x, y)| (cos * x - sin * y + 3.0, sin * x + cos * y - 2.0));
        near(worst_mm(&first, &second, &[0.0; 4]), 0.0, 1e-4);
        // The tightest hole has all of its clearance left.
        near(worst_mm(&first, &second, &[0.3, 0.6, 0.9, 0.5]), -0.3, 1e-4);
    }

    /// Two offsets across from each other and one between them: the best shift lies on the line
    /// between the two, where each is as far beyond its own clearance, `(d − c₁ − c₂) / 2`, by
    /// hand; where one clearance alone is wide enough, at the other's offset.
    #[test]
    fn two_across_share_by_their_clearances() {
        let off = [(-0.4, 0.1), (0.2, 0.9), (-0.1, 0.5)];
        for (clearance, want) in [
            ([0.2, 0.2, 0.3], (1.0 - 0.4) / 2.0),
            ([0.1, 0.5, 0.5], (1.0 - 0.6) / 2.0),
            ([0.5, 0.1, 0.5], (1.0 - 0.6) / 2.0),
            ([0.8, 0.6, 0.9], (1.0 - 1.4) / 2.0),
            ([0.1, 1.4, 0.9], -0.1),
        ] {
            near(best_shift_mm(&off, &clearance), want, 1e-12);
        }
    }

    /// One hole of four off by δ, square to nothing: a search over a fine grid of shifts and
    /// turns finds no better place.
    #[test]
    fn no_place_on_a_grid_is_better() {
        let first = [(0.0, 0.0), (70.0, 0.0), (70.0, 50.0), (0.0, 50.0)];
        let second = [(0.1, 0.2), (70.9, -0.3), (69.8, 50.4), (-0.2, 49.5)];
        let clearance = [0.3, 0.5, 0.4, 0.2];
        let found = worst_mm(&first, &second, &clearance);
        let mut grid = f64::MAX;
        for turn in -20..=20 {
            let (sin, cos) = libm::sincos(f64::from(turn) * 0.001);
            for right in -30..=30 {
                for up in -30..=30 {
                    let (right, up) = (f64::from(right) * 0.05, f64::from(up) * 0.05);
                    let beyond = (0..4).map(|k| {
                        let (x, y) = (second[k].0 - 35.0, second[k].1 - 25.0);
                        let moved = (cos * x - sin * y + 35.0 + right, sin * x + cos * y + 25.0 + up);
                        apart(moved, first[k]) - clearance[k]
                    });
                    grid = grid.min(beyond.fold(f64::MIN, f64::max));
                }
            }
        }
        assert!(found <= grid + 1e-9 && found > grid - 0.08, "{found} against {grid}");
    }

    #[test]
    fn what_closes_no_triangle_is_nothing() {
        assert_eq!(laid_out(&[10.0, 100.0, 10.0]), None);
        assert_eq!(laid_out(&[0.0, 1.0, 1.0]), None);
        assert_eq!(laid_out(&[90.0]), None);
    }
}
