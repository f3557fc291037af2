//! Sine, cosine and tangent, the same on every machine.
//!
//! They are those of `libm`, for the angles that parts can have. What reduces an angle of more than a million radians to
//! one turn is larger than all of them together, and the page is downloaded where there is little net: here such an
//! angle has no sine. All go by one function, so that it is left out.

use std::f64::consts::PI;

/// Beyond this the fast reduction is not exact, rad: 2²⁰ π/2.
pub const MOST_RAD: f64 = 524_288.0 * PI;

/// The first half of [`MOST_RAD`], and of an angle so small that it is its own sine: √2 / 2²⁷.
const MOST_HIGH: u32 = 0x4139_21fb;
const TINY_HIGH: u32 = 0x3e46_a09e;

/// Sine and cosine; not a number beyond [`MOST_RAD`].
#[must_use]
#[inline(never)]
pub fn sincos(angle_rad: f64) -> (f64, f64) {
    // As `libm` asks it, of the exponent and the first twenty bits, and as often: so what cannot be is seen not to be.
    let high = (angle_rad.to_bits() >> 32) as u32 & 0x7fff_ffff;
    if high < TINY_HIGH {
        return (angle_rad, 1.0);
    }
    if high >= MOST_HIGH {
        return (f64::NAN, f64::NAN);
    }
    libm::sincos(angle_rad)
}

/// Sine; not a number beyond [`MOST_RAD`].
#[must_use]
pub fn sin(angle_rad: f64) -> f64 {
    sincos(angle_rad).0
}

/// Cosine; not a number beyond [`MOST_RAD`].
#[must_use]
pub fn cos(angle_rad: f64) -> f64 {
    sincos(angle_rad).1
}

/// Tangent; not a number beyond [`MOST_RAD`].
#[must_use]
pub fn tan(angle_rad: f64) -> f64 {
    let (sin, cos) = sincos(angle_rad);
    sin / cos
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Over every quadrant, and up to the largest: the last bits are those of the library's own.
    #[test]
    fn they_are_the_library_s() {
        let mut angle_rad = 1e-12;
        let mut seen = 0;
        while angle_rad < 0.99 * MOST_RAD {
            for angle_rad in [angle_rad, -angle_rad] {
                assert_eq!(sin(angle_rad).to_bits(), libm::sin(angle_rad).to_bits(), "{angle_rad}");
                assert_eq!(cos(angle_rad).to_bits(), libm::cos(angle_rad).to_bits(), "{angle_rad}");
                let tangent = libm::tan(angle_rad);
                assert!(
                    (tan(angle_rad) - tangent).abs() <= 4.0 * f64::EPSILON * tangent.abs(),
                    "{angle_rad}"
                );
            }
            angle_rad *= 1.003;
            seen += 1;
        }
        assert!(seen > 10_000);
    }

    #[test]
    fn no_part_is_turned_so_far() {
        for angle_rad in [MOST_RAD, -MOST_RAD, 1e9, f64::MAX, f64::INFINITY, f64::NEG_INFINITY, f64::NAN] {
            assert!(
                sin(angle_rad).is_nan() && cos(angle_rad).is_nan() && tan(angle_rad).is_nan(),
                "{angle_rad}"
            );
        }
    }
}
