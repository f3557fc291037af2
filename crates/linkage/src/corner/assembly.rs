//! A corner put together as far as its members reach each other.

use super::Corner;
use crate::axes;
use crate::error::{Joint, Unreached};
use crate::pivot::sign;
use crate::pose::{MemberFrame, Pose};
use nalgebra::{Point3, Vector3};

/// A corner as far as its members reach each other. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assembly {
    /// Where everything stands. At a joint that stays open its points are the knuckle's.
    pub pose: Pose,
    /// Outer end of the upper arm: the upper ball, where it reaches it.
    pub upper_arm_end: Point3<f64>,
    /// Outer end of the tie rod: the end of the steering arm, where it reaches it.
    pub tie_rod_end: Point3<f64>,
    /// The joint that stays open; `None` where all are closed.
    pub open: Option<Joint>,
}

impl Assembly {
    /// A pose: everything is closed.
    #[must_use]
    pub const fn closed(pose: Pose) -> Self {
        Self { pose, upper_arm_end: pose.upper_ball, tie_rod_end: pose.tie_outer, open: None }
    }

    /// The two ends of the joint that stays open.
    #[must_use]
    pub fn open_ends(&self) -> Option<[Point3<f64>; 2]> {
        self.open.map(|joint| match joint {
            Joint::UpperBall => [self.pose.upper_ball, self.upper_arm_end],
            Joint::TieRodOuter => [self.tie_rod_end, self.pose.tie_outer],
        })
    }
}

impl Corner {
    /// The corner at one angle of the lower arm, with the wheels straight ahead, as far as it closes.
    ///
    /// Where the upper ball stays open the knuckle stands on the lower arm as it was measured, and
    /// the upper arm as near to closing as it comes. Where the tie rod's end does, the steering arm
    /// points as it was measured, and the rod at it.
    #[must_use]
    pub fn as_far_as_it_closes(&self, lower_arm_rad: f64) -> Assembly {
        let open = match self.pose(lower_arm_rad, Vector3::zeros()) {
            Ok(pose) => return Assembly::closed(pose),
            Err(Unreached::Open { joint, .. }) => joint,
            Err(_) => Joint::UpperBall,
        };
        let (sin, cos) = crate::angle::sincos(lower_arm_rad);
        let lower_ball = self.lower.at(sin, cos);
        let reached = self.upper_ball(&lower_ball).ok();
        let along = reached.map_or(self.steering_axis, |ball| (ball - lower_ball) / self.knuckle.spacing_mm);
        let upper_ball = reached.unwrap_or_else(|| lower_ball + along * self.knuckle.spacing_mm);
        let arm = self.steering_arm;
        let radial = axes::direction(arm - along * arm.dot(&along)).unwrap_or_else(Vector3::x);
        let knuckle = MemberFrame::new(lower_ball, along, radial);
        let pose = self.with_knuckle(lower_arm_rad, knuckle, upper_ball, self.tie_inner);
        let assembly = Assembly { open: Some(open), ..Assembly::closed(pose) };
        if reached.is_none() {
            return Assembly { upper_arm_end: self.nearest_upper_ball(&lower_ball), ..assembly };
        }
        let towards = axes::direction(pose.tie_outer - pose.tie_inner).unwrap_or_else(Vector3::y);
        Assembly { tie_rod_end: pose.tie_inner + towards * self.tie_rod_squared.sqrt(), ..assembly }
    }

    /// The place of the upper ball that comes nearest to closing.
    fn nearest_upper_ball(&self, lower_ball: &Point3<f64>) -> Point3<f64> {
        let to_lower = lower_ball - self.upper.centre;
        let (a, b) = (self.upper.out.dot(&to_lower), self.upper.up.dot(&to_lower));
        let size = (a * a + b * b).sqrt();
        // The ball that comes nearest points at the lower ball, or away from it
        // where the knuckle is too long.
        let towards = if size > 0.0 { sign(self.reach_term(&to_lower)) / size } else { 0.0 };
        self.upper.at(b * towards, a * towards)
    }
}
