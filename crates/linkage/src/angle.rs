//! Sine, cosine, tangent and the angle of a sine, the same on every machine.
//!
//! Sine and cosine are those of `libm`, and the others come by them or by its arctangent. What reduces an angle of more
//! than a million radians to one turn without losing a bit is larger than all of them together, and the page is
//! downloaded where there is little net. `libm` is asked for a sine in one place, so that it is left out.

use std::f64::consts::TAU;

/// The first half of 2²⁰ π/2, from which on an angle is turned back by whole turns first and exact no longer.
const FAR_HIGH: u32 = 0x4139_21fb;
/// The first half of √2 / 2²⁷, below which an angle is its own sine.
const TINY_HIGH: u32 = 0x3e46_a09e;

/// Exponent and first twenty bits, without the sign.
const fn high(number: f64) -> u32 {
    (number.to_bits() >> 32) as u32 & 0x7fff_ffff
}

/// Sine and cosine.
#[must_use]
#[inline(never)]
pub fn sincos(angle_rad: f64) -> (f64, f64) {
    // As `libm` asks it, and as often: so what cannot be is seen not to be.
    let high = high(angle_rad);
    if high < TINY_HIGH {
        return (angle_rad, 1.0);
    }
    if high >= FAR_HIGH {
        return far(angle_rad);
    }
    libm::sincos(angle_rad)
}

/// The same of an angle of many turns.
#[cold]
fn far(angle_rad: f64) -> (f64, f64) {
    let turned_rad = angle_rad - TAU * (angle_rad / TAU).trunc();
    if high(turned_rad) < FAR_HIGH {
        return sincos(turned_rad);
    }
    // So far that neighbors are many turns apart, none is as good as any. What is no number stays none.
    let none = 0.0 * angle_rad;
    (none, 1.0 + none)
}

/// Sine.
#[must_use]
pub fn sin(angle_rad: f64) -> f64 {
    sincos(angle_rad).0
}

/// Cosine.
#[must_use]
pub fn cos(angle_rad: f64) -> f64 {
    sincos(angle_rad).1
}

/// Tangent.
#[must_use]
pub fn tan(angle_rad: f64) -> f64 {
    let (sin, cos) = sincos(angle_rad);
    sin / cos
}

/// The angle of a sine, rad; not a number beyond 1. By the arctangent, which is needed anyway.
#[must_use]
pub fn asin(sine: f64) -> f64 {
    libm::atan2(sine, ((1.0 - sine) * (1.0 + sine)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Over every quadrant, and as far as there are no turns to be taken off: the last bits are those of the library's own.
    #[test]
    fn they_are_the_library_s() {
        let mut angle_rad = 1e-12;
        let mut seen = 0;
        while angle_rad < 1.6e6 {
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

    /// Farther, whole turns are taken off: near for as long as the number says an angle, and a number for any.
    #[test]
    fn no_part_is_turned_so_far() {
        for angle_rad in [1.7e6, -3.3e7, 1e9] {
            assert!((sin(angle_rad) - libm::sin(angle_rad)).abs() < 1e-6, "{angle_rad}");
            assert!((cos(angle_rad) - libm::cos(angle_rad)).abs() < 1e-6, "{angle_rad}");
        }
        for angle_rad in [1e17, -1e300, f64::MAX] {
            let (sin, cos) = sincos(angle_rad);
            assert!((sin * sin + cos * cos - 1.0).abs() < 1e-15, "{angle_rad}: {sin} {cos}");
        }
        for angle_rad in [f64::INFINITY, f64::NEG_INFINITY, f64::NAN] {
            assert!(
                sin(angle_rad).is_nan() && cos(angle_rad).is_nan() && tan(angle_rad).is_nan(),
                "{angle_rad}"
            );
        }
    }

    #[test]
    fn the_angle_of_a_sine_is_the_library_s() {
        for step in -1000..=1000 {
            let sine = f64::from(step) / 1000.0;
            assert!((asin(sine) - libm::asin(sine)).abs() <= 2.0 * f64::EPSILON, "{sine}");
        }
        assert!(asin(1.000_001).is_nan() && asin(f64::NAN).is_nan());
    }
}
