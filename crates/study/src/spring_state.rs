//! What the spring does to the lower arm, at any of its angles.
//!
//! Everything is counted as a moment about the lower arm's axis, N·mm for a
//! radian of that arm, whichever arm carries the spring: virtual work then
//! needs one equation only.

use linkage::{BuildError, Corner, Member, MemberFrame, Point3, Pose, Unreached, Vector3, axes, root};
use std::f64::consts::TAU;
use truck::{Arm, Fitted, Spring, SpringKind};

/// A spring in the state that holds the measured truck at its measured height,
/// with a proposal's spring changes made to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringState {
    spring: Spring,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    /// A bar that is twisted by `twist_rad` where its arm stands at `from_rad` above the horizontal.
    ///
    /// `share` of the arm's turn twists it: the component along its own axis.
    Bar { rate: f64, from_rad: f64, twist_rad: f64, share: f64 },
    /// A coil between a point of the arm, in the arm's member frame, and a point of the body.
    Coil { rate: f64, free_mm: f64, arm_seat: Vector3<f64>, body_seat: Point3<f64> },
    /// A force at the wheel centre, N, at a height of it, mm, and its rate, N/mm.
    Wheel { rate: f64, force_n: f64, height_mm: f64 },
}

/// How a spring stands at a pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SpringAtPose {
    /// Moment about the lower arm's axis, N·mm for a radian of that arm.
    pub(crate) moment: f64,
    /// Bar: torque, N·mm. Coil: force, N. Rate at the wheel: force at the wheel centre, N.
    pub(crate) effort: f64,
    /// Bar: twist from free, rad. Coil: length, mm. Rate at the wheel: height, mm.
    pub(crate) movement: f64,
    /// Change of the movement for a radian of the lower arm.
    pub(crate) movement_per_rad: f64,
}

impl SpringState {
    /// The spring of a fitted truck.
    ///
    /// `fitted.measured` gives the free state: its height and its load at the
    /// ground balance there, by virtual work, with wheel and tire not carried.
    ///
    /// # Errors
    /// The measured corner's points are no corner, it stands at a dead centre,
    /// nothing of its load is left for the spring, or the spring cannot carry it.
    pub fn of(fitted: &Fitted, corner: &Corner) -> Result<Self, SpringError> {
        let measured = fitted.measured_corner()?;
        let truck = &fitted.measured;
        if truck.load.corner_n <= truck.load.unsprung_n {
            return Err(SpringError::NothingSprung);
        }
        let pose = measured.pose(measured.measured_angle_rad(), Vector3::zeros())?;
        let moment = load_moment(truck.load.corner_n, fitted, &measured, &pose)?;
        if moment <= 0.0 {
            return Err(SpringError::Idle);
        }
        let before = &truck.spring;
        let kind = match before.kind {
            SpringKind::TorsionBar => {
                let (angle, per_rad) = arm_angle(&measured, &pose, before.arm)?;
                let share = bar_share(&measured, &pose, before);
                if (per_rad * share).abs() < 1e-3 {
                    return Err(SpringError::Idle);
                }
                let twist_rad = moment / (per_rad * share) / before.bar_rate() + fitted.anchor_turn_rad;
                // The bar is held by the arm's plate, whatever became of its ball.
                let from_rad = angle + fitted.ball_turn_rad(before.arm)?;
                Kind::Bar { rate: fitted.spring.bar_rate(), from_rad, twist_rad, share }
            }
            SpringKind::Coil => {
                let arm_seat = seat_on_arm(truck, before)?;
                let body_seat = before.coil.body_seat;
                let (length, per_rad) = coil_length(&measured, &pose, before.arm, &arm_seat, &body_seat)?;
                // A coil only pushes: it must shorten as the wheel rises.
                if per_rad > -1.0 {
                    return Err(SpringError::Idle);
                }
                let force_n = -moment / per_rad;
                let old_rate = before.coil_rate();
                let whole_mm = fitted.coil_free_mm.unwrap_or(length + force_n / old_rate);
                // One free coil is a loaded one and what the load takes off it; of another
                // coil it is its share of the free length.
                let other = fitted.coil_free_mm.is_some()
                    || fitted.spring.coil.wire_mm.to_bits() != before.coil.wire_mm.to_bits()
                    || fitted.spring.coil.mean_mm.to_bits() != before.coil.mean_mm.to_bits();
                let cut_pitch_mm = if other {
                    whole_mm / (fitted.spring.coil.active + fitted.coils_cut)
                } else {
                    before.coil.loaded_pitch_mm + force_n / (old_rate * before.coil.active)
                };
                let free_mm = whole_mm - fitted.coils_cut * cut_pitch_mm + fitted.spacer_mm;
                let arm_seat = turned_back(&arm_seat, fitted.ball_turn_rad(before.arm)?);
                Kind::Coil { rate: fitted.spring.coil_rate(), free_mm, arm_seat, body_seat }
            }
            SpringKind::WheelRate => {
                let per_rad = measured.bump_motion(&pose)?.at(&pose.wheel_centre).z;
                let here = plate_as_measured(fitted, corner)?;
                Kind::Wheel {
                    rate: before.wheel_rate_n_per_mm,
                    force_n: moment / per_rad,
                    height_mm: here.wheel_centre.z,
                }
            }
        };
        Ok(Self { spring: fitted.spring, kind })
    }

    pub(crate) fn at_pose(&self, corner: &Corner, pose: &Pose) -> Result<SpringAtPose, Unreached> {
        let arm = self.spring.arm;
        Ok(match &self.kind {
            Kind::Bar { rate, from_rad, twist_rad, share } => {
                let (angle, per_rad) = arm_angle(corner, pose, arm)?;
                let twist = twist_rad + share * shorter_way(angle - from_rad);
                let torque = rate * twist;
                SpringAtPose {
                    moment: torque * per_rad * share,
                    effort: torque,
                    movement: twist,
                    movement_per_rad: per_rad * share,
                }
            }
            Kind::Coil { rate, free_mm, arm_seat, body_seat } => {
                let (length, per_rad) = coil_length(corner, pose, arm, arm_seat, body_seat)?;
                let force = rate * (free_mm - length);
                SpringAtPose {
                    moment: -force * per_rad,
                    effort: force,
                    movement: length,
                    movement_per_rad: per_rad,
                }
            }
            Kind::Wheel { rate, force_n, height_mm } => {
                let per_rad = corner.bump_motion(pose)?.at(&pose.wheel_centre).z;
                let force = force_n + rate * (pose.wheel_centre.z - height_mm);
                SpringAtPose {
                    moment: force * per_rad,
                    effort: force,
                    movement: pose.wheel_centre.z,
                    movement_per_rad: per_rad,
                }
            }
        })
    }

    /// Shear stress for a bar's torque, N·mm, or a coil's force, N; N/mm². None
    /// is known of a plain rate.
    #[must_use]
    pub fn stress_n_per_mm2(&self, effort: f64) -> Option<f64> {
        match self.spring.kind {
            SpringKind::TorsionBar => Some(self.spring.bar.stress_n_per_mm2(effort)),
            SpringKind::Coil => Some(self.spring.coil.stress_n_per_mm2(effort)),
            SpringKind::WheelRate => None,
        }
    }
}

/// Why a spring cannot be set up.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SpringError {
    /// The points are no corner.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// The corner does not close, or stands at a dead centre.
    #[error(transparent)]
    Unreached(#[from] Unreached),
    /// The unsprung weight is all that the corner carries.
    #[error("the unsprung weight is as much as the whole corner carries")]
    NothingSprung,
    /// The measured truck's spring does not carry its load: the wheel does not
    /// rise with the arm, or the spring does not work, or only pulls, as it does.
    #[error("the spring does not carry the wheel where it stands: check the arms and the spring's seats")]
    Idle,
}

/// Moment of the load about the lower arm's axis, N·mm for a radian: the ground
/// lifts at the contact, the weight of what does not hang on the spring pulls down.
pub(crate) fn load_moment(
    corner_n: f64,
    fitted: &Fitted,
    corner: &Corner,
    pose: &Pose,
) -> Result<f64, Unreached> {
    let rates = corner.arm_rates(pose)?;
    Ok(corner_n * rates.contact_mm.z - fitted.measured.load.unsprung_n * rates.wheel_centre_mm.z)
}

/// The share of its arm's turn that twists a bar: the component of the arm's
/// axis along the bar's own.
fn bar_share(corner: &Corner, pose: &Pose, spring: &Spring) -> f64 {
    let (inward, downward) = match (spring.bar.inward_rad, spring.bar.downward_rad) {
        (None, None) => return 1.0,
        (inward, downward) => (inward.unwrap_or(0.0), downward.unwrap_or(0.0)),
    };
    let axis = match spring.arm {
        Arm::Lower => corner.lower_arm(pose).along,
        Arm::Upper => corner.upper_arm(pose).along,
    };
    // Seen towards the front, as the arm's axis is.
    let bar = Vector3::new(1.0, linkage::angle::tan(inward), linkage::angle::tan(downward));
    axis.dot(&bar) / axes::length(&bar)
}

/// A point of an arm's plate, in the member frame of the line to its ball, when that
/// line is turned up against the plate.
pub(crate) fn turned_back(local: &Vector3<f64>, turn_rad: f64) -> Vector3<f64> {
    if turn_rad == 0.0 {
        return *local;
    }
    let (sin, cos) = linkage::angle::sincos(turn_rad);
    Vector3::new(local.x, local.y * cos + local.z * sin, local.z * cos - local.y * sin)
}

/// The pose in which the plate of the arm that carries the spring stands as measured.
fn plate_as_measured(fitted: &Fitted, corner: &Corner) -> Result<Pose, SpringError> {
    let arm = fitted.measured.spring.arm;
    let turn_rad = fitted.ball_turn_rad(arm)?;
    let start = corner.measured_angle_rad();
    if arm == Arm::Lower {
        return Ok(corner.pose(start + turn_rad, Vector3::zeros())?);
    }
    let measured = fitted.measured_corner()?;
    let pose = measured.pose(measured.measured_angle_rad(), Vector3::zeros())?;
    let wanted = measured.upper_arm_rad(&pose) + turn_rad;
    let range = corner.range();
    let miss = |angle: f64| {
        let pose = corner.pose(angle, Vector3::zeros()).ok()?;
        Some(shorter_way(corner.upper_arm_rad(&pose) - wanted))
    };
    // Of an upper arm and a knuckle that were not touched this is the measured pose to the bit.
    let angle = if miss(start) == Some(0.0) {
        start
    } else {
        root::bracketed(miss, range.low_rad, range.high_rad, 1e-13).ok_or(SpringError::Idle)?
    };
    Ok(corner.pose(angle, Vector3::zeros())?)
}

/// The angle of the arm that carries the spring, and its change for a radian of the lower one.
fn arm_angle(corner: &Corner, pose: &Pose, arm: Arm) -> Result<(f64, f64), Unreached> {
    match arm {
        Arm::Lower => Ok((pose.lower_arm_rad, 1.0)),
        Arm::Upper => Ok((corner.upper_arm_rad(pose), corner.bump_motion(pose)?.upper_arm)),
    }
}

/// A turn taken the shorter way round: an arm that points inboard counts its
/// angle across the half turn.
fn shorter_way(turn_rad: f64) -> f64 {
    turn_rad - TAU * (turn_rad / TAU).round()
}

fn seat_on_arm(truck: &truck::Truck, spring: &Spring) -> Result<Vector3<f64>, BuildError> {
    let frame = match spring.arm {
        Arm::Lower => truck.points.lower.frame(Member::LowerArm)?,
        Arm::Upper => truck.points.upper.frame(Member::UpperArm)?,
    };
    Ok(frame.local(&spring.coil.arm_seat))
}

/// The coil's length, mm, and its change for a radian of the lower arm.
fn coil_length(
    corner: &Corner,
    pose: &Pose,
    arm: Arm,
    arm_seat: &Vector3<f64>,
    body_seat: &Point3<f64>,
) -> Result<(f64, f64), Unreached> {
    let frame: MemberFrame = match arm {
        Arm::Lower => corner.lower_arm(pose),
        Arm::Upper => corner.upper_arm(pose),
    };
    let (_, per_rad) = arm_angle(corner, pose, arm)?;
    let seat = frame.carry(arm_seat);
    let between = seat - body_seat;
    let length = axes::length(&between).max(1.0);
    let velocity = frame.along.cross(&(seat - frame.origin)) * per_rad;
    Ok((length, between.dot(&velocity) / length))
}

/// A point of the lower arm's plate as measured, in the member frame of the line to its ball.
pub(crate) fn on_lower_arm(fitted: &Fitted, point: &Point3<f64>) -> Option<Vector3<f64>> {
    let local = fitted.measured.points.lower.frame(Member::LowerArm).ok()?.local(point);
    Some(turned_back(&local, fitted.ball_turn_rad(Arm::Lower).ok()?))
}

/// A point of the lower arm's plate so far out from its pivot axis towards the ball, mm, in the frame
/// of the line to its ball, and its height as measured.
pub(crate) fn out_on_lower_arm(fitted: &Fitted, out_mm: f64) -> Result<(Vector3<f64>, f64), BuildError> {
    let out = Vector3::new(0.0, out_mm, 0.0);
    let was_mm = fitted.measured.points.lower.frame(Member::LowerArm)?.carry(&out).z;
    Ok((turned_back(&out, fitted.ball_turn_rad(Arm::Lower)?), was_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shorter_way_round() {
        for turn in [-3.0, -0.5, 0.0, 1e-9, 2.5] {
            for whole in [-2.0, -1.0, 0.0, 1.0] {
                assert!((shorter_way(turn + whole * TAU) - turn).abs() < 1e-14);
            }
        }
    }
}
