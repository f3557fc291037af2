//! The points of the left front corner as they are seen from the front, in the picture's millimetres.

use crate::aspect::Handle;
use crate::geometry::{Axes, Vec2, bounded};
use crate::shown::Shown;
use crate::wheel_size::WheelSize;
use linkage::{Assembly, Joint, Member, MemberFrame, Point3};
use truck::{Arm, Fitted, SpringKind};

/// Half of the lower arm's thickness where the stop strikes, mm.
pub(crate) const ARM_HALF_MM: f64 = 19.0;
/// How far a knuckle that does not close leans from how it was measured, rad.
const LEAN_RAD: f64 = 0.15;

/// An arm in front view.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ArmLine {
    pub(crate) pivot: Vec2,
    pub(crate) ball: Vec2,
}

/// The bump stop.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stop {
    /// Middle of the rubber's foot on the body.
    pub(crate) foot: Vec2,
    /// Its tip, squeezed where the arm has gone past it.
    pub(crate) tip: Vec2,
    /// Where it strikes the arm.
    pub(crate) strikes: Vec2,
}

impl Stop {
    /// The way in which it is squeezed.
    pub(crate) fn up(&self) -> Vec2 {
        (self.foot - self.tip).unit()
    }
}

/// A wheel with its tire.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WheelShape {
    /// Wheel centre; `along` outboard on the spin axis, `across` up in the wheel's plane.
    pub(crate) axes: Axes,
    pub(crate) size: WheelSize,
}

/// Everything that is drawn of a truck, picture axes: `y` of the body, height above the ground.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FrontPoints {
    pub(crate) lower: ArmLine,
    pub(crate) upper: ArmLine,
    /// Lower ball; `along` up the steering axis, `across` outboard.
    pub(crate) knuckle: Axes,
    /// Ball to ball of the knuckle itself.
    pub(crate) spacing: f64,
    pub(crate) tie_inner: Vec2,
    /// End of the rod.
    pub(crate) tie_outer: Vec2,
    /// End of the steering arm: the same, where the rod reaches it.
    pub(crate) steering_arm: Vec2,
    pub(crate) wheel: WheelShape,
    pub(crate) contact: Vec2,
    pub(crate) stop: Option<Stop>,
    /// Seats of a coil, on the arm and on the body.
    pub(crate) coil: Option<(Vec2, Vec2)>,
    /// Diameter of a torsion bar, and the arm that it lies in.
    pub(crate) bar: Option<(f64, Arm)>,
    /// Corner of the rail that ride height is measured to, and its size.
    pub(crate) rail: Vec2,
    pub(crate) rail_size: Vec2,
    pub(crate) fender: Vec2,
    /// Height of the ground in body axes.
    pub(crate) ground: f64,
    /// A joint that stays open: its two ends.
    pub(crate) open: Option<[Vec2; 2]>,
}

/// The points of a corner in one pose: `y` and `z` of the body axes.
struct Stand {
    /// The balls that the arms' member frames stand by.
    balls: [Point3<f64>; 2],
    upper_ball: Vec2,
    /// Ball to ball.
    knuckle_up: Vec2,
    tie_inner: Vec2,
    tie_outer: Vec2,
    steering_arm: Vec2,
    wheel_centre: Vec2,
    spin: Vec2,
    open: Option<[Vec2; 2]>,
}

impl FrontPoints {
    pub(crate) fn of(shown: &Shown<'_>) -> Self {
        Self::assembled(&shown.rest.fitted, &Assembly::closed(*shown.pose))
    }

    /// A corner as far as its members reach each other.
    pub(crate) fn assembled(fitted: &Fitted, assembly: &Assembly) -> Self {
        let stand = Stand::of(assembly);
        if assembly.open != Some(Joint::UpperBall) {
            return Self::standing(fitted, &stand);
        }
        let reached = &assembly.upper_arm_end;
        let pivot =
            carrier(fitted, Member::UpperArm, reached).map_or(flat(reached), |arm| foot(&arm, reached));
        Self::standing(fitted, &stand.leant(pivot))
    }

    fn standing(fitted: &Fitted, stand: &Stand) -> Self {
        let wheel_centre = stand.wheel_centre;
        let down = Axes::new(wheel_centre, stand.spin).across * -fitted.loaded_radius_mm;
        let lift = Vec2(0.0, -(wheel_centre + down).1);
        let lower_ball = flat(&stand.balls[0]);
        let lower_arm = carrier(fitted, Member::LowerArm, &stand.balls[0]);
        let upper_arm = carrier(fitted, Member::UpperArm, &stand.balls[1]);
        let pivot = |arm: &Option<MemberFrame>, ball: &Point3<f64>| {
            arm.map_or(flat(ball), |arm| foot(&arm, ball)) + lift
        };
        let rail = &fitted.measured.body.rail;
        let fender = &fitted.measured.body.fender;
        let spring = &fitted.spring;
        let spring_arm = if spring.arm == Arm::Lower { lower_arm } else { upper_arm };
        let stop = lower_arm.and_then(|arm| stop(fitted, &arm, &stand.balls[0]));
        let coil = spring_arm.filter(|_| spring.kind == SpringKind::Coil).and_then(|arm| coil(fitted, &arm));
        Self {
            lower: ArmLine { pivot: pivot(&lower_arm, &stand.balls[0]), ball: lower_ball + lift },
            upper: ArmLine { pivot: pivot(&upper_arm, &stand.balls[1]), ball: stand.upper_ball + lift },
            knuckle: Axes::new(lower_ball + lift, stand.knuckle_up).mirrored(),
            spacing: stand.knuckle_up.size(),
            tie_inner: stand.tie_inner + lift,
            tie_outer: stand.tie_outer + lift,
            steering_arm: stand.steering_arm + lift,
            wheel: WheelShape {
                axes: Axes::new(wheel_centre + lift, stand.spin),
                size: WheelSize::of(fitted),
            },
            contact: wheel_centre + down + lift,
            stop: stop.map(|stop| Stop {
                foot: stop.foot + lift,
                tip: stop.tip + lift,
                strikes: stop.strikes + lift,
            }),
            coil: coil.map(|(seat, body)| (seat + lift, body + lift)),
            bar: (spring.kind == SpringKind::TorsionBar).then_some((spring.bar.diameter_mm, spring.arm)),
            rail: Vec2(rail.outer_y_mm, rail.bottom_z_mm) + lift,
            rail_size: Vec2(rail.width_mm, rail.height_mm),
            fender: Vec2(fender.lip_y_mm, fender.lip_z_mm) + lift,
            ground: -lift.1,
            open: stand.open.map(|ends| ends.map(|end| end + lift)),
        }
    }

    /// Where a handle of the front view is.
    pub(crate) fn at(&self, handle: Handle) -> Option<Vec2> {
        Some(match handle {
            Handle::LowerAxis => self.lower.pivot,
            Handle::UpperAxis => self.upper.pivot,
            Handle::LowerBall => self.lower.ball,
            Handle::UpperBall => self.upper.ball,
            Handle::WheelCentre => self.wheel.axes.origin,
            Handle::TieInner => self.tie_inner,
            Handle::TieOuter => self.steering_arm,
            Handle::Rail => self.rail,
            Handle::Fender => self.fender,
            _ => return None,
        })
    }
}

impl Stand {
    fn of(assembly: &Assembly) -> Self {
        let pose = &assembly.pose;
        let (lower, upper) = (flat(&pose.lower_ball), flat(&pose.upper_ball));
        Self {
            balls: [pose.lower_ball, assembly.upper_arm_end],
            upper_ball: flat(&assembly.upper_arm_end),
            knuckle_up: upper - lower,
            tie_inner: flat(&pose.tie_inner),
            tie_outer: flat(&assembly.tie_rod_end),
            steering_arm: flat(&pose.tie_outer),
            wheel_centre: flat(&pose.wheel_centre),
            spin: Vec2(pose.spin.y, pose.spin.z),
            open: assembly.open_ends().map(|ends| ends.map(|end| flat(&end))),
        }
    }

    /// The knuckle leant towards the upper arm that does not reach it, and the arm stretched towards
    /// the knuckle. It stays near to upright, so that it is still seen as one; the
    /// lean is flat, and seen from the front alone.
    fn leant(self, upper_pivot: Vec2) -> Self {
        let (lower, reached) = (flat(&self.balls[0]), self.upper_ball);
        let (axis, was) = (reached - lower, self.knuckle_up);
        let turn = libm::atan2(axis.1, axis.0) - libm::atan2(was.1, was.0);
        let (sin, cos) = linkage::angle::sincos(bounded(turn, -LEAN_RAD, LEAN_RAD));
        let turned = |v: Vec2| Vec2(v.0 * cos - v.1 * sin, v.0 * sin + v.1 * cos);
        let carried = |point: Vec2| lower + turned(point - lower);
        let up = turned(was);
        let upper_ball = upper_pivot + (lower + up - upper_pivot).unit() * (reached - upper_pivot).size();
        Self {
            upper_ball,
            knuckle_up: up,
            tie_outer: carried(self.tie_outer),
            steering_arm: carried(self.steering_arm),
            wheel_centre: carried(self.wheel_centre),
            spin: turned(self.spin),
            open: Some([lower + up, upper_ball]),
            ..self
        }
    }
}

/// Front view of a point of the body.
fn flat(point: &Point3<f64>) -> Vec2 {
    Vec2(point.y, point.z)
}

/// The member frame that carries an arm whose ball stands at `ball`.
fn carrier(fitted: &Fitted, member: Member, ball: &Point3<f64>) -> Option<MemberFrame> {
    let axis = if member == Member::LowerArm { fitted.mounts.lower } else { fitted.mounts.upper };
    linkage::ArmPoints { front: axis.front, rear: axis.rear, ball: *ball }.frame(member).ok()
}

/// The point of an arm's pivot axis that its ball turns about.
fn foot(arm: &MemberFrame, ball: &Point3<f64>) -> Vec2 {
    flat(&(arm.origin + arm.along * arm.local(ball).x))
}

/// The bump stop in body axes: it stands on the body where the measured arm is
/// `bump_gap_mm` short of it.
fn stop(fitted: &Fitted, arm: &MemberFrame, ball: &Point3<f64>) -> Option<Stop> {
    let points = &fitted.measured.points.lower;
    let measured = points.frame(Member::LowerArm).ok()?;
    let stops = &fitted.stops;
    let ways =
        |frame: &MemberFrame| (Vec2(frame.radial.y, frame.radial.z), Vec2(frame.across.y, frame.across.z));
    let (out, up) = ways(&measured);
    let pivot = foot(&measured, &points.ball);
    let tip = pivot + out * stops.bump_radius_mm + up * (ARM_HALF_MM + stops.bump_gap_mm);
    let foot_height = bounded(stops.bump_squash_mm * 2.6, 22.0, 60.0);
    let (out_now, up_now) = ways(arm);
    let pivot_now = foot(arm, ball);
    let strikes = pivot_now + out_now * stops.bump_radius_mm + up_now * ARM_HALF_MM;
    let past = (strikes - tip).dot(up_now).max(0.0);
    Some(Stop { foot: tip + up * foot_height, tip: tip + up_now * past, strikes })
}

/// Seats of a coil at a pose, body axes.
fn coil(fitted: &Fitted, arm: &MemberFrame) -> Option<(Vec2, Vec2)> {
    let measured = &fitted.measured;
    let (points, member) = match fitted.spring.arm {
        Arm::Lower => (&measured.points.lower, Member::LowerArm),
        Arm::Upper => (&measured.points.upper, Member::UpperArm),
    };
    let local = points.frame(member).ok()?.local(&fitted.spring.coil.arm_seat);
    Some((flat(&arm.carry(&local)), flat(&fitted.spring.coil.body_seat)))
}
