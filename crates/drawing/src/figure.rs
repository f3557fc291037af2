//! What of a truck is drawn: its points in the picture's millimetres.

use crate::front::{Broken, Handle, Shown};
use crate::geometry::{Axes, P};
use linkage::{Corner, Joint, Member, PartFrame, Point3, Pose, Unreached, Vector3, root};
use truck::{Arm, Fitted, SpringKind, rim_mm};

/// Half of the lower arm's thickness where the stop strikes, mm.
pub(crate) const ARM_HALF_MM: f64 = 19.0;
/// How far a knuckle that does not close leans from how it was measured, rad.
const LEAN_RAD: f64 = 0.15;
/// A step of the search for where an upper arm closes, rad.
const SEARCH_RAD: f64 = 0.02;

/// An arm in front view.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ArmLine {
    pub(crate) pivot: P,
    pub(crate) ball: P,
}

/// The bump stop.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stop {
    /// Middle of the rubber's foot on the body.
    pub(crate) foot: P,
    /// Its tip, squeezed where the arm has gone past it.
    pub(crate) tip: P,
    /// Where it strikes the arm.
    pub(crate) strikes: P,
}

/// A wheel with its tire.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WheelShape {
    /// Wheel centre; `along` outboard on the spin axis, `across` up in the wheel's plane.
    pub(crate) axes: Axes,
    pub(crate) radius: f64,
    pub(crate) half_width: f64,
    pub(crate) shoulder: f64,
    pub(crate) rim_radius: f64,
    pub(crate) half_rim: f64,
    /// Mounting face, outboard of the centre plane.
    pub(crate) offset: f64,
}

/// Everything that is drawn of a truck, picture axes: `y` of the body, height above the ground.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Figure {
    pub(crate) lower: ArmLine,
    pub(crate) upper: ArmLine,
    /// Lower ball; `along` up the steering axis, `across` outboard.
    pub(crate) knuckle: Axes,
    /// Ball to ball of the knuckle itself.
    pub(crate) spacing: f64,
    pub(crate) tie_inner: P,
    /// End of the rod.
    pub(crate) tie_outer: P,
    /// End of the steering arm: the same, where the rod reaches it.
    pub(crate) steering_arm: P,
    pub(crate) wheel: WheelShape,
    pub(crate) contact: P,
    pub(crate) stop: Option<Stop>,
    /// Seats of a coil, on the arm and on the body.
    pub(crate) coil: Option<(P, P)>,
    /// Diameter of a torsion bar, and the arm that it lies in.
    pub(crate) bar: Option<(f64, Arm)>,
    /// Corner of the rail that ride height is measured to, and its size.
    pub(crate) rail: P,
    pub(crate) rail_size: P,
    pub(crate) fender: P,
    /// Height of the ground in body axes.
    pub(crate) ground: f64,
    /// A joint that stays open: its two ends.
    pub(crate) open: Option<(P, P)>,
}

/// The points of a corner in one pose, body axes.
struct Stand {
    lower_ball: Point3<f64>,
    upper_ball: Point3<f64>,
    knuckle_up: Vector3<f64>,
    tie_inner: Point3<f64>,
    tie_outer: Point3<f64>,
    steering_arm: Point3<f64>,
    wheel_centre: Point3<f64>,
    spin: Vector3<f64>,
    open: Option<(Point3<f64>, Point3<f64>)>,
}

impl Figure {
    pub(crate) fn of(shown: &Shown<'_>) -> Self {
        Self::standing(&shown.rest.fitted, &Stand::closed(shown.pose))
    }

    /// A corner whose parts do not reach each other, as far as they go.
    pub(crate) fn broken(broken: &Broken<'_>) -> Self {
        let corner = broken.corner;
        let stand = match corner.pose(corner.measured_angle_rad(), Vector3::zeros()) {
            Ok(pose) => Stand::closed(&pose),
            Err(why) => Stand::open(corner, broken.fitted, why),
        };
        Self::standing(broken.fitted, &stand)
    }

    fn standing(fitted: &Fitted, stand: &Stand) -> Self {
        let spin = P(stand.spin.y, stand.spin.z);
        let wheel_centre = P(stand.wheel_centre.y, stand.wheel_centre.z);
        let down = Axes::new(wheel_centre, spin).across * -fitted.loaded_radius_mm;
        let ground = (wheel_centre + down).1;
        let place = |point: &Point3<f64>| P(point.y, point.z - ground);
        let lower_ball = place(&stand.lower_ball);
        let (lower_arm, upper_arm) = (
            carrier(fitted, Member::LowerArm, &stand.lower_ball),
            carrier(fitted, Member::UpperArm, &stand.upper_ball),
        );
        let pivot = |arm: &Option<PartFrame>, ball: &Point3<f64>| {
            arm.map_or(P(ball.y, ball.z - ground), |arm| place(&foot(&arm, ball)))
        };
        let up = P(stand.knuckle_up.y, stand.knuckle_up.z);
        let rail = &fitted.measured.body.rail;
        let fender = &fitted.measured.body.fender;
        let spring = &fitted.spring;
        let spring_arm = if spring.arm == Arm::Lower { lower_arm } else { upper_arm };
        Self {
            lower: ArmLine { pivot: pivot(&lower_arm, &stand.lower_ball), ball: lower_ball },
            upper: ArmLine { pivot: pivot(&upper_arm, &stand.upper_ball), ball: place(&stand.upper_ball) },
            knuckle: Axes::new(lower_ball, up).mirrored(),
            spacing: up.size(),
            tie_inner: place(&stand.tie_inner),
            tie_outer: place(&stand.tie_outer),
            steering_arm: place(&stand.steering_arm),
            wheel: WheelShape::of(fitted, wheel_centre - P(0.0, ground), spin),
            contact: wheel_centre + down - P(0.0, ground),
            stop: lower_arm
                .and_then(|arm| stop(fitted, &arm, &stand.lower_ball))
                .map(|stop| stop.lowered(ground)),
            coil: spring_arm
                .filter(|_| spring.kind == SpringKind::Coil)
                .and_then(|arm| coil(fitted, &arm))
                .map(|(seat, body)| (place(&seat), place(&body))),
            bar: (spring.kind == SpringKind::TorsionBar).then_some((spring.bar.diameter_mm, spring.arm)),
            rail: P(rail.outer_y_mm, rail.bottom_z_mm - ground),
            rail_size: P(rail.width_mm, rail.height_mm),
            fender: P(fender.lip_y_mm, fender.lip_z_mm - ground),
            ground,
            open: stand.open.map(|(a, b)| (place(&a), place(&b))),
        }
    }

    pub(crate) fn at(&self, handle: Handle) -> P {
        match handle {
            Handle::LowerAxis => self.lower.pivot,
            Handle::UpperAxis => self.upper.pivot,
            Handle::LowerBall => self.lower.ball,
            Handle::UpperBall => self.upper.ball,
            Handle::WheelCentre => self.wheel.axes.origin,
            Handle::TieInner => self.tie_inner,
            Handle::TieOuter => self.steering_arm,
            Handle::Rail => self.rail,
            Handle::Fender => self.fender,
        }
    }
}

impl Stand {
    fn closed(pose: &Pose) -> Self {
        Self {
            lower_ball: pose.lower_ball,
            upper_ball: pose.upper_ball,
            knuckle_up: pose.upper_ball - pose.lower_ball,
            tie_inner: pose.tie_inner,
            tie_outer: pose.tie_outer,
            steering_arm: pose.tie_outer,
            wheel_centre: pose.wheel_centre,
            spin: pose.spin,
            open: None,
        }
    }

    /// The upper arm stretched towards the knuckle; or, where only the tie rod
    /// does not reach, the rod stretched towards the steering arm.
    fn open(corner: &Corner, fitted: &Fitted, why: Unreached) -> Self {
        let nearest = corner.nearest(corner.measured_angle_rad());
        let lower = nearest.lower_ball;
        let points = &fitted.points;
        let spacing = (points.upper.ball - points.lower.ball).norm();
        let tie_open = matches!(why, Unreached::Open { joint: Joint::TieRodOuter, .. });
        let closes = tie_open.then(|| closing_ball(fitted, &lower, &nearest.upper_ball, spacing)).flatten();
        let towards = closes.unwrap_or(nearest.upper_ball) - lower;
        // The knuckle as measured, turned in front view onto its new axis; where it
        // reaches nothing it stays near to upright, so that it is still seen as one.
        let was = points.upper.ball - points.lower.ball;
        let turn = libm::atan2(towards.z, towards.y) - libm::atan2(was.z, was.y);
        let turn = if closes.is_some() { turn } else { turn.clamp(-LEAN_RAD, LEAN_RAD) };
        let (sin, cos) = libm::sincos(turn);
        let turned = |v: Vector3<f64>| Vector3::new(v.x, v.y * cos - v.z * sin, v.y * sin + v.z * cos);
        let up = turned(was);
        let upper = closes.unwrap_or_else(|| pointing(fitted, &nearest.upper_ball, &(lower + up)));
        let carried = |point: &Point3<f64>| lower + turned(point - points.lower.ball);
        let steering_arm = carried(&points.tie_outer);
        let tie_inner = corner.mounts().tie_inner;
        let rod = (points.tie_outer - points.tie_inner).norm();
        let reach = steering_arm - tie_inner;
        let tie_outer = tie_inner + reach * (rod / reach.norm().max(1.0));
        let open = if closes.is_some() { (tie_outer, steering_arm) } else { (lower + up, upper) };
        Self {
            lower_ball: lower,
            upper_ball: upper,
            knuckle_up: up,
            tie_inner,
            tie_outer: if closes.is_some() { tie_outer } else { steering_arm },
            steering_arm,
            wheel_centre: carried(&points.wheel_centre),
            spin: turned(linkage::frame::spin_axis(points.camber_rad, points.toe_rad)),
            open: Some(open),
        }
    }
}

impl Stop {
    fn lowered(self, ground: f64) -> Self {
        let down = P(0.0, ground);
        Self { foot: self.foot - down, tip: self.tip - down, strikes: self.strikes - down }
    }
}

impl WheelShape {
    fn of(fitted: &Fitted, centre: P, spin: P) -> Self {
        let half_width = fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0;
        let radius = fitted.tire.free_radius_mm();
        Self {
            axes: Axes::new(centre, spin),
            radius,
            half_width,
            shoulder: fitted.tire.shoulder_mm.min(half_width).min(radius / 2.0),
            rim_radius: (rim_mm(fitted.tire.size.rim_code) / 2.0).min(radius - 30.0).max(20.0),
            half_rim: fitted.wheel.rim_width_mm / 2.0,
            offset: fitted.wheel.offset_mm,
        }
    }
}

/// The frame that carries an arm whose ball stands at `ball`.
fn carrier(fitted: &Fitted, member: Member, ball: &Point3<f64>) -> Option<PartFrame> {
    let axis = if member == Member::LowerArm { fitted.mounts.lower } else { fitted.mounts.upper };
    linkage::ArmPoints { front: axis.front, rear: axis.rear, ball: *ball }.frame(member).ok()
}

/// The point of an arm's pivot axis that its ball turns about.
fn foot(arm: &PartFrame, ball: &Point3<f64>) -> Point3<f64> {
    arm.origin + arm.along * arm.local(ball).x
}

/// The upper ball at `spacing` from the lower one, nearest to where it stands now.
fn closing_ball(
    fitted: &Fitted,
    lower: &Point3<f64>,
    near: &Point3<f64>,
    spacing: f64,
) -> Option<Point3<f64>> {
    let arm = carrier(fitted, Member::UpperArm, near)?;
    let local = arm.local(near);
    let at = |angle: f64| {
        let (sin, cos) = libm::sincos(angle);
        arm.carry(&Vector3::new(local.x, local.y * cos, local.y * sin))
    };
    let short = |angle: f64| Some((at(angle) - lower).norm() - spacing);
    let mut low = 0.0;
    while low < std::f64::consts::PI {
        let high = low + SEARCH_RAD;
        for side in [1.0, -1.0] {
            let (from, to) = (low * side, high * side);
            if short(from)? * short(to)? <= 0.0 {
                return root::bracketed(short, from.min(to), from.max(to), 1e-9).map(at);
            }
        }
        low = high;
    }
    None
}

/// The upper ball of an arm that points at a target.
fn pointing(fitted: &Fitted, ball: &Point3<f64>, target: &Point3<f64>) -> Point3<f64> {
    let Some(arm) = carrier(fitted, Member::UpperArm, ball) else { return *ball };
    let (own, wanted) = (arm.local(ball), arm.local(target));
    let (sin, cos) = libm::sincos(libm::atan2(wanted.z, wanted.y));
    arm.carry(&Vector3::new(own.x, own.y * cos, own.y * sin))
}

/// The bump stop in body axes: it stands on the body where the measured arm is
/// `bump_gap_mm` short of it.
fn stop(fitted: &Fitted, arm: &PartFrame, ball: &Point3<f64>) -> Option<Stop> {
    let points = &fitted.measured.points.lower;
    let measured = points.frame(Member::LowerArm).ok()?;
    let stops = &fitted.measured.stops;
    let flat = |point: &Point3<f64>| P(point.y, point.z);
    let ways = |frame: &PartFrame| (P(frame.radial.y, frame.radial.z), P(frame.across.y, frame.across.z));
    let (out, up) = ways(&measured);
    let pivot = flat(&foot(&measured, &points.ball));
    let tip = pivot + out * stops.bump_radius_mm + up * (ARM_HALF_MM + stops.bump_gap_mm);
    let foot_height = (stops.bump_squash_mm * 2.6).clamp(22.0, 60.0);
    let (out_now, up_now) = ways(arm);
    let pivot_now = flat(&foot(arm, ball));
    let strikes = pivot_now + out_now * stops.bump_radius_mm + up_now * ARM_HALF_MM;
    let past = (strikes - tip).dot(up_now).max(0.0);
    Some(Stop { foot: tip + up * foot_height, tip: tip + up_now * past, strikes })
}

/// Seats of a coil at a pose, body axes.
fn coil(fitted: &Fitted, arm: &PartFrame) -> Option<(Point3<f64>, Point3<f64>)> {
    let measured = &fitted.measured;
    let (points, member) = match fitted.spring.arm {
        Arm::Lower => (&measured.points.lower, Member::LowerArm),
        Arm::Upper => (&measured.points.upper, Member::UpperArm),
    };
    let local = points.frame(member).ok()?.local(&fitted.spring.coil.arm_seat);
    Some((arm.carry(&local), fitted.spring.coil.body_seat))
}
