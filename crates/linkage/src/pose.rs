//! One pose of the corner, and what a gauge would read off it.

use crate::axes;
use nalgebra::{Point3, Rotation3, Vector3};

/// A member's own frame: it carries every point bolted to the member.
///
/// | member | origin | `along` | `radial` |
/// |---|---|---|---|
/// | knuckle | lower ball | steering axis, up | towards the outer tie-rod end |
/// | arm | middle of its pivots | pivot axis, to the front | towards the ball |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MemberFrame {
    /// Body axes, mm.
    pub origin: Point3<f64>,
    /// The axis the member turns about, unit.
    pub along: Vector3<f64>,
    /// Square to it, unit.
    pub radial: Vector3<f64>,
    /// `along` x `radial`, unit.
    pub across: Vector3<f64>,
}

impl MemberFrame {
    pub(crate) fn new(origin: Point3<f64>, along: Vector3<f64>, radial: Vector3<f64>) -> Self {
        Self { origin, along, radial, across: along.cross(&radial) }
    }

    /// Body coordinates of a point of the member given in this frame, mm.
    #[must_use]
    pub fn carry(&self, local: &Vector3<f64>) -> Point3<f64> {
        self.origin + self.carry_direction(local)
    }

    /// Body components of a direction given in this frame.
    #[must_use]
    pub fn carry_direction(&self, local: &Vector3<f64>) -> Vector3<f64> {
        self.along * local.x + self.radial * local.y + self.across * local.z
    }

    /// This frame's coordinates of a point given in the body's axes, mm.
    #[must_use]
    pub fn local(&self, point: &Point3<f64>) -> Vector3<f64> {
        self.local_direction(&(point - self.origin))
    }

    /// This frame's components of a direction given in the body's axes.
    #[must_use]
    pub fn local_direction(&self, v: &Vector3<f64>) -> Vector3<f64> {
        Vector3::new(v.dot(&self.along), v.dot(&self.radial), v.dot(&self.across))
    }
}

/// Where everything is at one arm angle and one place of the relay rod.
/// Millimetres and radians, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// Lower arm above the horizontal, + up at the ball, rad.
    pub lower_arm_rad: f64,
    /// Lower ball.
    pub lower_ball: Point3<f64>,
    /// Upper ball.
    pub upper_ball: Point3<f64>,
    /// Inner end of the tie rod, with the relay rod where it stands.
    pub tie_inner: Point3<f64>,
    /// Outer end of the tie rod.
    pub tie_outer: Point3<f64>,
    /// Wheel centre.
    pub wheel_centre: Point3<f64>,
    /// Spin axis, pointing outboard, unit.
    pub spin: Vector3<f64>,
    /// The knuckle's member frame.
    pub knuckle: MemberFrame,
}

impl Pose {
    /// Camber, + top out, rad.
    #[must_use]
    pub fn camber_rad(&self) -> f64 {
        axes::camber_rad(&self.spin)
    }

    /// Toe, + front in, rad.
    #[must_use]
    pub fn toe_rad(&self) -> f64 {
        axes::toe_rad(&self.spin)
    }

    /// Heading of the wheel, + to the left, rad.
    #[must_use]
    pub fn heading_rad(&self) -> f64 {
        -self.toe_rad()
    }

    /// The lowest point of the circle of `loaded_radius_mm` in the wheel's centre plane.
    #[must_use]
    pub fn contact(&self, loaded_radius_mm: f64) -> Point3<f64> {
        self.wheel_centre + self.down_in_wheel() * loaded_radius_mm
    }

    /// The steepest way down in the wheel's centre plane, unit.
    #[must_use]
    pub fn down_in_wheel(&self) -> Vector3<f64> {
        (self.spin * self.spin.z - Vector3::z()) / axes::horizontal(&self.spin)
    }

    /// The pose seen in axes level with the ground, of a body whose nose has
    /// sunk by `nose_down_rad`.
    #[must_use]
    pub fn nose_down(&self, nose_down_rad: f64) -> Self {
        let (sin, cos) = crate::angle::sincos(nose_down_rad);
        // About y: what points up turns forward.
        let turn = Rotation3::from_matrix_unchecked(nalgebra::Matrix3::new(
            cos, 0.0, sin, 0.0, 1.0, 0.0, -sin, 0.0, cos,
        ));
        let frame = &self.knuckle;
        Self {
            lower_arm_rad: self.lower_arm_rad,
            lower_ball: turn * self.lower_ball,
            upper_ball: turn * self.upper_ball,
            tie_inner: turn * self.tie_inner,
            tie_outer: turn * self.tie_outer,
            wheel_centre: turn * self.wheel_centre,
            spin: turn * self.spin,
            knuckle: MemberFrame {
                origin: turn * frame.origin,
                along: turn * frame.along,
                radial: turn * frame.radial,
                across: turn * frame.across,
            },
        }
    }

    /// Where the steering axis meets the ground, at the height of the contact point.
    #[must_use]
    pub fn axis_at(&self, ground_z_mm: f64) -> Point3<f64> {
        let axis = &self.knuckle.along;
        self.lower_ball + axis * ((ground_z_mm - self.lower_ball.z) / axes::off_zero(axis.z))
    }
}

/// What a gauge would read off a pose. Millimetres and radians, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attitude {
    /// Camber, + top out.
    pub camber_rad: f64,
    /// Toe, + front in.
    pub toe_rad: f64,
    /// Caster in the body's axes, + leans back at the top.
    pub caster_rad: f64,
    /// Steering-axis inclination, + leans in at the top.
    pub inclination_rad: f64,
    /// Scrub radius, + contact outboard of the axis at the ground, across the wheel.
    pub scrub_radius_mm: f64,
    /// Mechanical trail, + axis meets the ground ahead of the contact, along the wheel.
    pub trail_mm: f64,
    /// Contact point.
    pub contact: Point3<f64>,
}

impl Attitude {
    /// Half of the track: the contact's distance from the centreline, mm.
    #[must_use]
    pub const fn half_track_mm(&self) -> f64 {
        self.contact.coords.data.0[0][1]
    }

    pub(crate) fn of(pose: &Pose, loaded_radius_mm: f64) -> Self {
        let contact = pose.contact(loaded_radius_mm);
        let foot = pose.axis_at(contact.z) - contact;
        let (outboard, forward) = wheel_directions(&pose.spin);
        Self {
            camber_rad: pose.camber_rad(),
            toe_rad: pose.toe_rad(),
            caster_rad: axes::caster_rad(&pose.knuckle.along),
            inclination_rad: axes::inclination_rad(&pose.knuckle.along),
            scrub_radius_mm: -foot.dot(&outboard),
            trail_mm: foot.dot(&forward),
            contact,
        }
    }
}

/// The horizontal directions across and along a wheel, unit.
pub(crate) fn wheel_directions(spin: &Vector3<f64>) -> (Vector3<f64>, Vector3<f64>) {
    let length = axes::horizontal(spin);
    let outboard = Vector3::new(spin.x / length, spin.y / length, 0.0);
    (outboard, Vector3::new(outboard.y, -outboard.x, 0.0))
}
