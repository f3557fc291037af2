//! Axes and signs, set once for every crate.
//!
//! ISO 8855 axes: `x` forward, `y` to the left, `z` up, origin on the ground,
//! on the centreline, at the front axle, of the truck as measured. The solver
//! treats the left corner, `y > 0`.
//!
//! ```text
//!   seen from the front            seen from above
//!       z                              x
//!       |    left wheel                |
//!       |      ||                      |    left wheel
//!   ----+------||----> y        y <----+
//! ```
//!
//! | angle | positive when |
//! |---|---|
//! | camber | the top of the wheel leans out |
//! | toe | the front of the wheel points in |
//! | caster | the steering axis leans back at the top |
//! | inclination | the steering axis leans in at the top |
//! | heading | the wheel points to the left, so heading = -toe |

use nalgebra::Vector3;

/// The spin axis, pointing outboard, of a left wheel with this camber and toe.
///
/// Radians in; a unit vector in the body's axes out.
#[must_use]
pub fn spin_axis(camber_rad: f64, toe_rad: f64) -> Vector3<f64> {
    let (sin_camber, cos_camber) = crate::angle::sincos(camber_rad);
    let (sin_toe, cos_toe) = crate::angle::sincos(toe_rad);
    Vector3::new(cos_camber * sin_toe, cos_camber * cos_toe, -sin_camber)
}

/// Camber of a spin axis that points outboard, rad.
#[must_use]
pub fn camber_rad(spin: &Vector3<f64>) -> f64 {
    libm::atan2(-spin.z, horizontal(spin))
}

/// Toe of a spin axis that points outboard, rad.
#[must_use]
pub fn toe_rad(spin: &Vector3<f64>) -> f64 {
    libm::atan2(spin.x, spin.y)
}

/// Caster of a steering axis that points up, rad.
#[must_use]
pub fn caster_rad(axis: &Vector3<f64>) -> f64 {
    libm::atan2(-axis.x, axis.z)
}

/// Steering-axis inclination of a steering axis that points up, rad.
#[must_use]
pub fn inclination_rad(axis: &Vector3<f64>) -> f64 {
    libm::atan2(-axis.y, axis.z)
}

/// Length of a vector's horizontal part, kept off zero: it is divided by.
pub(crate) fn horizontal(v: &Vector3<f64>) -> f64 {
    (v.x * v.x + v.y * v.y).sqrt().max(NEXT_TO_NOTHING)
}

/// A divisor kept off zero: what a level axis would put at infinity is put very far away.
pub(crate) fn off_zero(divisor: f64) -> f64 {
    if divisor.abs() < NEXT_TO_NOTHING { NEXT_TO_NOTHING.copysign(divisor) } else { divisor }
}

const NEXT_TO_NOTHING: f64 = 1e-12;

/// A vector's length, in its own unit.
///
/// The same bits as nalgebra's `norm`, which takes its root from `libm`: that is
/// a processor's own instruction natively, and a hundred others in WebAssembly.
#[must_use]
#[inline]
pub fn length(v: &Vector3<f64>) -> f64 {
    v.norm_squared().sqrt()
}

/// The length of two sides of a right angle taken together. A root is a processor's own instruction everywhere.
#[must_use]
#[inline]
pub fn hypotenuse(a: f64, b: f64) -> f64 {
    (a * a + b * b).sqrt()
}

/// A vector's direction, or `None` where it has no length to speak of.
#[must_use]
pub fn direction(v: Vector3<f64>) -> Option<Vector3<f64>> {
    let size = length(&v);
    (size > 1e-9).then(|| v / size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_is_as_the_table_says() {
        let top_out = spin_axis(0.02, 0.0);
        assert!(top_out.z < 0.0, "the outboard end of the spin axis points down");
        assert!((camber_rad(&top_out) - 0.02).abs() < 1e-15);
        let front_in = spin_axis(0.0, 0.01);
        assert!(front_in.x > 0.0, "the outboard end of the spin axis points forward");
        assert!((toe_rad(&front_in) - 0.01).abs() < 1e-15);
        assert!(caster_rad(&Vector3::new(-0.1, 0.0, 1.0)) > 0.0);
        assert!(inclination_rad(&Vector3::new(0.0, -0.1, 1.0)) > 0.0);
    }
}
