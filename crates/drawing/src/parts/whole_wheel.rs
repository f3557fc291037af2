//! The wheel as it is seen where it is not cut open: tire, rim and brake disc, seen through.

use crate::aspect::Aspect;
use crate::board::Board;
use crate::geometry::Trace;
use crate::palette::Ink;
use crate::projection::Projection;
use crate::wheel_size::WheelSize;
use linkage::{Vector3, axes};

/// Thickness of the tread, mm.
const TREAD_MM: f64 = 17.0;
/// Half of the brake disc's thickness, mm.
const HALF_DISC_MM: f64 = 11.0;
/// From the rim's mounting face inboard to the middle of the disc, mm.
const DISC_INBOARD_MM: f64 = 30.0;
/// Points of an outline.
const POINTS: u8 = 72;

/// The wheel from the side or from above, or from the front where it is turned.
pub(crate) fn whole_wheel(board: &mut Board, seen: &Projection<'_>) {
    let size = WheelSize::of(seen.fitted);
    let WheelSize { radius, half_width, shoulder, rim_radius, half_rim, offset } = size;
    let disc = seen.fitted.brake.rotor_diameter_mm.map_or(0.72 * rim_radius, |diameter| diameter / 2.0);
    let tire = Solid { along: 0.0, radius, half: half_width, rounding: shoulder };
    board.draw(Ink::Tire, &tire.outline(seen));
    if seen.aspect == Aspect::Side {
        // Where the tread begins, and the rib that keeps the sidewall off a curb.
        for inward in [TREAD_MM, 0.42 * (radius - rim_radius)] {
            board.draw(Ink::Thin, &Solid { radius: radius - inward, ..tire }.outline(seen));
        }
    }
    let rim = Solid { along: 0.0, radius: rim_radius, half: half_rim, rounding: 0.0 };
    board.draw(Ink::Cavity, &rim.outline(seen));
    let disc = Solid { along: offset - DISC_INBOARD_MM, radius: disc, half: HALF_DISC_MM, rounding: 0.0 };
    board.draw(Ink::Rotor, &disc.outline(seen));
}

/// A solid of revolution about the wheel's spin axis, mm.
#[derive(Clone, Copy, Debug)]
struct Solid {
    /// Its middle, from the wheel centre outboard.
    along: f64,
    radius: f64,
    /// Half of its width.
    half: f64,
    /// Radius of its edges.
    rounding: f64,
}

impl Solid {
    fn outline(&self, seen: &Projection<'_>) -> Trace {
        let Self { along, radius, half, rounding } = *self;
        let spin = &seen.pose.spin;
        let centre = seen.pose.wheel_centre + spin * along;
        let [right, up] = [seen.aspect.in_body(1.0, 0.0), seen.aspect.in_body(0.0, 1.0)];
        let mut trace = Trace::default();
        for step in 0..POINTS {
            let (sin, cos) =
                linkage::angle::sincos(f64::from(step) * std::f64::consts::TAU / f64::from(POINTS));
            // The solid's farthest point that way.
            let way = right * cos + up * sin;
            let across = way.dot(spin);
            let radial = axes::direction(way - spin * across).unwrap_or_else(Vector3::zeros);
            let edge =
                radial * (radius - rounding) + spin * (half - rounding).copysign(across) + way * rounding;
            let mut at = seen.level(&(centre + edge));
            if seen.aspect != Aspect::Top {
                // Pressed flat on the ground.
                at.1 = at.1.max(0.0);
            }
            trace.to(at);
        }
        trace.close()
    }
}
