//! The rigid members that a corner's points imply, and where they are hung.

use nalgebra::{Point3, Vector3};

/// A pair of pivots on the body. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Front pivot.
    pub front: Point3<f64>,
    /// Rear pivot.
    pub rear: Point3<f64>,
}

/// The body's side of a corner. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mounts {
    /// Pivots of the lower arm.
    pub lower: Axis,
    /// Pivots of the upper arm.
    pub upper: Axis,
    /// Inner end of the tie rod with the wheels straight ahead.
    pub tie_inner: Point3<f64>,
}

/// An arm as a rigid member, seen along its own pivot axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmShape {
    /// The ball's place along the axis, from the middle of the two pivots, + to the front, mm.
    pub along_mm: f64,
    /// The ball's distance from the axis, > 0, mm.
    pub radius_mm: f64,
}

/// The knuckle as a rigid member, in the [`MemberFrame`](crate::MemberFrame) of its steering axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnuckleShape {
    /// Ball to ball, mm.
    pub spacing_mm: f64,
    /// Outer tie-rod end along the steering axis from the lower ball, mm.
    pub tie_along_mm: f64,
    /// Outer tie-rod end from the steering axis, > 0, mm.
    pub tie_radius_mm: f64,
    /// Wheel centre: along the axis, towards the steering arm, across; mm.
    pub wheel_centre: Vector3<f64>,
    /// Spin axis, pointing outboard, in the same member frame; unit.
    pub spin: Vector3<f64>,
}

/// The rigid members of a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Members {
    /// Lower arm.
    pub lower: ArmShape,
    /// Upper arm.
    pub upper: ArmShape,
    /// Knuckle with hub and steering arm.
    pub knuckle: KnuckleShape,
    /// Tie rod, centre to centre, mm.
    pub tie_rod_mm: f64,
}
