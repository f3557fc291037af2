//! Poses by wheel height and heading.

use crate::corner::{Corner, STEP_RAD};
use crate::error::{Joint, Unreached};
use crate::pose::Pose;
use nalgebra::Vector3;

impl Corner {
    /// The pose with the wheel centre at a height, the relay rod displaced by `relay_mm`.
    ///
    /// `wheel_mm`: height of the wheel centre in the body's axes, mm; travel is
    /// its difference from the height at rest.
    ///
    /// The linkage is the one that is had by moving the relay rod there from straight ahead:
    /// no other that the same members could be put together to.
    ///
    /// # Errors
    /// [`Unreached::Height`] beyond the [`Range`](crate::Range), or the joint that will not close;
    /// [`Unreached::DeadCentre`] where it would close again beyond a dead centre.
    ///
    /// # Accuracy
    /// The height is met within 1e-10 mm.
    pub fn at_height(&self, wheel_mm: f64, relay_mm: Vector3<f64>) -> Result<Pose, Unreached> {
        let found = self.search(wheel_mm, relay_mm);
        // While the tie rod points along the relay rod's way as it did, or the steering arm nearly
        // where it did, no dead centre lies between.
        let as_measured = |pose: &Pose| {
            (pose.tie_outer - pose.tie_inner).dot(&relay_mm) * self.rod.dot(&relay_mm) > 0.0
                || pose.knuckle.radial.dot(&self.steering_arm) > 0.9
        };
        if relay_mm == Vector3::zeros() || found.as_ref().is_ok_and(as_measured) {
            return found;
        }
        self.follow(wheel_mm, relay_mm)
            .ok_or_else(|| found.err().unwrap_or(Unreached::DeadCentre(Joint::TieRodOuter)))
    }

    pub(crate) fn search(&self, wheel_mm: f64, relay_mm: Vector3<f64>) -> Result<Pose, Unreached> {
        let range = &self.range;
        let Some(start) = range.start else {
            return Err(self.why_never());
        };
        // Off centre the ends move a little: the search may overrun them by a step.
        let margin = if relay_mm == Vector3::zeros() { 0.0 } else { STEP_RAD };
        let mut between = (range.low_rad - margin, range.high_rad + margin);
        let guess = start.angle_rad + (wheel_mm - start.height_mm) / start.rise_mm;
        let mut angle = guess.clamp(between.0, between.1);
        let mut last = Unreached::Height { nearest_mm: wheel_mm.max(range.low_mm).min(range.high_mm) };
        for _ in 0..80 {
            let too_high;
            let mut next = None;
            match self.pose(angle, relay_mm) {
                Ok(pose) => {
                    let miss = pose.wheel_centre.z - wheel_mm;
                    if miss.abs() <= 1e-10 {
                        return Ok(pose);
                    }
                    too_high = miss > 0.0;
                    if let Ok(motion) = self.bump_motion(&pose) {
                        next = Some(angle - miss / motion.at(&pose.wheel_centre).z);
                    }
                }
                Err(why) => {
                    // Beyond an end: come back towards the start.
                    too_high = angle > start.angle_rad;
                    last = why;
                    // So near to where it opens the steering is followed instead.
                    if relay_mm != Vector3::zeros() && between.1 - between.0 < 1e-9 {
                        break;
                    }
                }
            }
            let end = if too_high { &mut between.1 } else { &mut between.0 };
            *end = angle;
            if between.1 - between.0 < 1e-15 {
                break;
            }
            angle = next
                .filter(|next| *next > between.0 && *next < between.1)
                .unwrap_or(between.0.midpoint(between.1));
        }
        self.settle(angle, wheel_mm, relay_mm).ok_or(last)
    }

    /// The pose at `angle` where it meets the height as well as floating point can tell.
    fn settle(&self, angle: f64, wheel_mm: f64, relay_mm: Vector3<f64>) -> Option<Pose> {
        let pose = self.pose(angle, relay_mm).ok()?;
        ((pose.wheel_centre.z - wheel_mm).abs() <= 1e-9).then_some(pose)
    }

    fn why_never(&self) -> Unreached {
        match self.pose(self.measured_angle_rad(), Vector3::zeros()) {
            Err(why) => why,
            Ok(pose) => Unreached::Height { nearest_mm: pose.wheel_centre.z },
        }
    }

    /// The pose at a height with the wheel steered to a heading, by a relay rod that
    /// moves along `direction` (unit), together with the rod's move, mm.
    ///
    /// `heading_rad`: + to the left, in the body's axes.
    ///
    /// # Errors
    /// [`Unreached::Heading`] past the dead centre of the tie rod, or as [`Corner::at_height`].
    ///
    /// # Accuracy
    /// The heading is met within 1e-12 rad.
    pub fn at_heading(
        &self,
        wheel_mm: f64,
        heading_rad: f64,
        direction: Vector3<f64>,
    ) -> Result<(Pose, f64), Unreached> {
        let mut relay = 0.0;
        let mut pose = self.at_height(wheel_mm, Vector3::zeros())?;
        let mut step_limit = 200.0;
        for _ in 0..60 {
            let miss = pose.heading_rad() - heading_rad;
            if miss.abs() <= 1e-12 {
                return Ok((pose, relay));
            }
            let per_mm = self.heading_per_relay(&pose, direction)?;
            let step = (-miss / per_mm).clamp(-step_limit, step_limit);
            // Past the dead centre the rod no longer closes: try half the way.
            match self.at_height(wheel_mm, direction * (relay + step)) {
                Ok(next) => (pose, relay) = (next, relay + step),
                Err(_) => step_limit = step.abs() / 2.0,
            }
            if step_limit < 1e-9 {
                break;
            }
        }
        let miss = pose.heading_rad() - heading_rad;
        if miss.abs() <= 1e-9 {
            return Ok((pose, relay));
        }
        Err(Unreached::Heading { nearest_rad: pose.heading_rad() })
    }

    /// Change of heading for a millimetre of the relay rod at a held wheel height, rad/mm.
    fn heading_per_relay(&self, pose: &Pose, direction: Vector3<f64>) -> Result<f64, Unreached> {
        let steer = self.steer_motion(pose, direction)?;
        let bump = self.bump_motion(pose)?;
        let rise_mm = bump.at(&pose.wheel_centre).z;
        if rise_mm.abs() < Self::IDLE {
            return Err(Unreached::Idle);
        }
        let lift = steer.at(&pose.wheel_centre).z / rise_mm;
        let turning = steer.turning - bump.turning * lift;
        let rate = turning.cross(&pose.spin);
        let level = pose.spin.x * pose.spin.x + pose.spin.y * pose.spin.y;
        Ok(-(rate.x * pose.spin.y - pose.spin.x * rate.y) / level)
    }

    /// How far the wheel can be steered to the right and to the left at a
    /// height by a relay rod along `direction` (unit): its moves in mm, the one
    /// that lowers the heading first. Followed no farther than `most_mm`.
    ///
    /// # Errors
    /// As [`Corner::at_height`] with the relay rod in the middle.
    pub fn relay_range(
        &self,
        wheel_mm: f64,
        direction: Vector3<f64>,
        most_mm: f64,
    ) -> Result<(f64, f64), Unreached> {
        let middle = self.at_height(wheel_mm, Vector3::zeros())?;
        let sense = self.heading_per_relay(&middle, direction)?.signum();
        let far = |way: f64| {
            let good = |relay: f64| {
                self.at_height(wheel_mm, direction * relay).is_ok_and(|pose| {
                    self.heading_per_relay(&pose, direction).is_ok_and(|rate| rate * sense > 0.0)
                })
            };
            let step = most_mm / 50.0;
            let mut reached = 0.0;
            let mut beyond = most_mm;
            while reached < most_mm {
                if !good(way * (reached + step)) {
                    beyond = reached + step;
                    break;
                }
                reached += step;
            }
            // A ten-thousandth of a step: far below anything a tape can tell.
            for _ in 0..14 {
                let half = (reached + beyond) / 2.0;
                *(if good(way * half) { &mut reached } else { &mut beyond }) = half;
            }
            way * reached
        };
        Ok((far(-sense), far(sense)))
    }
}
