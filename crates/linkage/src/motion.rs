//! Exact rates, by implicit differentiation in closed form.

use crate::axes;
use crate::corner::Corner;
use crate::error::{Joint, Unreached};
use crate::pose::{Pose, wheel_directions};
use nalgebra::{Point3, Vector3};

/// The knuckle's motion for a unit of its cause: rad of lower arm, or the given move of the relay rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Angular velocity, rad per unit, body axes.
    pub turning: Vector3<f64>,
    /// Velocity of the lower ball, mm per unit, body axes.
    pub lower_ball: Vector3<f64>,
    /// Turning of the upper arm about its axis, rad per unit.
    pub upper_arm: f64,
    origin: Point3<f64>,
}

impl Motion {
    /// Velocity of the knuckle's point that is now at `point`, mm per unit.
    #[must_use]
    pub fn at(&self, point: &Point3<f64>) -> Vector3<f64> {
        self.lower_ball + self.turning.cross(&(point - self.origin))
    }
}

impl Corner {
    /// The knuckle's motion for one radian of the lower arm, the relay rod held.
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where two members stand in one line.
    ///
    /// # Source
    /// Derived here: the derivative of the three length conditions.
    pub fn bump_motion(&self, pose: &Pose) -> Result<Motion, Unreached> {
        let axis = &pose.knuckle.along;
        let lower_ball = self.lower.along.cross(&(pose.lower_ball - self.lower.centre));
        let upper_per_rad = self.upper.along.cross(&(pose.upper_ball - self.upper.centre));
        // The balls keep their distance: both move alike along the line between them.
        let grip = axis.dot(&upper_per_rad);
        if grip.abs() < 1e-9 * axes::length(&upper_per_rad) {
            return Err(Unreached::DeadCentre(Joint::UpperBall));
        }
        let upper_arm = axis.dot(&lower_ball) / grip;
        let spread = upper_per_rad * upper_arm - lower_ball;
        let spacing = axis.dot(&(pose.upper_ball - pose.lower_ball));
        let tilting = axis.cross(&spread) / spacing;
        let swept = lower_ball + tilting.cross(&(pose.tie_outer - pose.lower_ball));
        let spinning = self.turn_about_axis(pose, swept)?;
        Ok(Motion { turning: tilting + axis * spinning, lower_ball, upper_arm, origin: pose.lower_ball })
    }

    /// The knuckle's motion for the move `relay` of the tie rod's inner end, the lower arm held.
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where tie rod and steering arm stand in one line.
    pub fn steer_motion(&self, pose: &Pose, relay: Vector3<f64>) -> Result<Motion, Unreached> {
        let spinning = self.turn_about_axis(pose, -relay)?;
        Ok(Motion {
            turning: pose.knuckle.along * spinning,
            lower_ball: Vector3::zeros(),
            upper_arm: 0.0,
            origin: pose.lower_ball,
        })
    }

    /// Exact rates of a pose with respect to travel, the steering held.
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where two members stand in one line,
    /// [`Unreached::Idle`] where the wheel does not rise with the arm.
    pub fn travel_rates(&self, pose: &Pose) -> Result<Rates, Unreached> {
        let motion = self.bump_motion(pose)?;
        let rise_mm = motion.at(&pose.wheel_centre).z;
        if rise_mm.abs() < Self::IDLE {
            return Err(Unreached::Idle);
        }
        Ok(Rates::of(pose, &motion, self.loaded_radius_mm(), rise_mm))
    }

    /// Exact rates of a pose for one radian of the lower arm, the steering held.
    ///
    /// # Errors
    /// As [`Corner::travel_rates`].
    pub fn arm_rates(&self, pose: &Pose) -> Result<Rates, Unreached> {
        Ok(Rates::of(pose, &self.bump_motion(pose)?, self.loaded_radius_mm(), 1.0))
    }

    /// Exact rates of a pose with respect to the wheel's heading, the arm held,
    /// for a relay rod that moves along `relay` (any length).
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where the tie rod and steering arm stand in one line,
    /// [`Unreached::Idle`] where the wheel does not turn with the relay rod.
    pub fn steer_rates(&self, pose: &Pose, relay: Vector3<f64>) -> Result<Rates, Unreached> {
        let motion = self.steer_motion(pose, relay)?;
        let per_relay = Rates::of(pose, &motion, self.loaded_radius_mm(), 1.0);
        if per_relay.toe_rad.abs() <= Self::IDLE * axes::length(&relay) {
            return Err(Unreached::Idle);
        }
        Ok(Rates::of(pose, &motion, self.loaded_radius_mm(), -per_relay.toe_rad))
    }

    /// The turn about the steering axis that keeps the tie rod's length, given
    /// how fast its outer end moves against its inner end without that turn.
    fn turn_about_axis(&self, pose: &Pose, drift: Vector3<f64>) -> Result<f64, Unreached> {
        let rod = pose.tie_outer - pose.tie_inner;
        let per_rad = pose.knuckle.along.cross(&(pose.tie_outer - pose.lower_ball));
        let grip = rod.dot(&per_rad);
        if grip.abs() < 1e-9 * axes::length(&rod) * axes::length(&per_rad) {
            return Err(Unreached::DeadCentre(Joint::TieRodOuter));
        }
        Ok(-rod.dot(&drift) / grip)
    }
}

/// Exact rates of what a gauge reads, for a millimetre of travel or a radian of heading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rates {
    /// Camber, rad per unit.
    pub camber_rad: f64,
    /// Toe, rad per unit.
    pub toe_rad: f64,
    /// Caster in the body's axes, rad per unit.
    pub caster_rad: f64,
    /// Steering-axis inclination, rad per unit.
    pub inclination_rad: f64,
    /// Scrub radius, mm per unit.
    pub scrub_radius_mm: f64,
    /// Mechanical trail, mm per unit.
    pub trail_mm: f64,
    /// Contact point as the lowest point of the wheel, mm per unit, body axes.
    pub contact_mm: Vector3<f64>,
    /// Wheel centre, mm per unit, body axes.
    pub wheel_centre_mm: Vector3<f64>,
}

impl Rates {
    /// Rates for a motion of which `cause` units of the wanted cause are one of its own.
    pub(crate) fn of(pose: &Pose, motion: &Motion, loaded_radius_mm: f64, cause: f64) -> Self {
        let spin = &pose.spin;
        let spin_rate = motion.turning.cross(spin);
        let axis = &pose.knuckle.along;
        let axis_rate = motion.turning.cross(axis);
        let level = axes::horizontal(spin);
        let level_rate = -spin.z * spin_rate.z / level;
        let down = pose.down_in_wheel();
        let down_rate = (spin_rate * spin.z + spin * spin_rate.z - down * level_rate) / level;
        let wheel_rate = motion.at(&pose.wheel_centre);
        let contact = pose.wheel_centre + down * loaded_radius_mm;
        let contact_rate = wheel_rate + down_rate * loaded_radius_mm;
        // Where the steering axis meets the ground, and how fast that point moves.
        let rise = axes::off_zero(axis.z);
        let reach = (contact.z - pose.lower_ball.z) / rise;
        let reach_rate = (contact_rate.z - motion.lower_ball.z - reach * axis_rate.z) / rise;
        let foot = pose.lower_ball + axis * reach - contact;
        let foot_rate = motion.lower_ball + axis_rate * reach + axis * reach_rate - contact_rate;
        let (outboard, forward) = wheel_directions(spin);
        let flat_rate = Vector3::new(spin_rate.x, spin_rate.y, 0.0);
        let outboard_rate = (flat_rate - outboard * level_rate) / level;
        let forward_rate = Vector3::new(outboard_rate.y, -outboard_rate.x, 0.0);
        let upright = rise * rise;
        Self {
            camber_rad: -spin_rate.z / level / cause,
            toe_rad: (spin_rate.x * spin.y - spin.x * spin_rate.y) / (level * level) / cause,
            caster_rad: (axis.x * axis_rate.z - axis_rate.x * axis.z) / (upright + axis.x * axis.x) / cause,
            inclination_rad: (axis.y * axis_rate.z - axis_rate.y * axis.z)
                / (upright + axis.y * axis.y)
                / cause,
            scrub_radius_mm: -(foot_rate.dot(&outboard) + foot.dot(&outboard_rate)) / cause,
            trail_mm: (foot_rate.dot(&forward) + foot.dot(&forward_rate)) / cause,
            contact_mm: contact_rate / cause,
            wheel_centre_mm: wheel_rate / cause,
        }
    }
}
