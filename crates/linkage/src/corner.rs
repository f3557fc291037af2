//! The corner put together: a pose in closed form.

mod assembly;
mod range;

pub use assembly::Assembly;
pub(crate) use range::STEP_RAD;
pub use range::{End, Range};

use crate::axes;
use crate::error::{BuildError, Joint, Member, Unreached};
use crate::hardpoints::Hardpoints;
use crate::members::{KnuckleShape, Members, Mounts};
use crate::pivot::{Branch, PivotLine, SHORTEST_MM, Swing, sign};
use crate::pose::{Attitude, MemberFrame, Pose};
use nalgebra::{Point3, Vector3};

/// A left front corner that can be posed.
///
/// Built once for a set of members and mounts; every question after that borrows
/// it, allocates nothing and cannot panic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    pub(crate) lower: Swing,
    pub(crate) upper: Swing,
    knuckle: KnuckleShape,
    spacing_squared: f64,
    tie_inner: Point3<f64>,
    tie_rod_squared: f64,
    branch: Branch,
    loaded_radius_mm: f64,
    measured_angle_rad: f64,
    mounts: Mounts,
    /// The tie rod as measured, from its inner end.
    pub(crate) rod: Vector3<f64>,
    /// The steering axis as measured, up, unit.
    steering_axis: Vector3<f64>,
    /// The steering arm's direction as measured, square to that, unit.
    pub(crate) steering_arm: Vector3<f64>,
    pub(crate) range: Range,
}

impl Corner {
    /// Two points nearer than this are one point, mm.
    pub const SHORTEST_MM: f64 = SHORTEST_MM;

    /// A wheel that moves less than this for a unit of its cause (mm for a
    /// radian of the arm, rad for a millimetre of the relay rod) stands still.
    pub(crate) const IDLE: f64 = 1e-9;

    /// A tie rod whose inner end is this near to the steering axis holds no
    /// heading: what is left of its direction is rounding, mm.
    const ON_AXIS_MM: f64 = 1e-3;

    /// The corner of these points on their own mounts.
    ///
    /// `loaded_radius_mm`: wheel centre to ground in the wheel's plane, mm, > 0.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one.
    pub fn of(points: &Hardpoints, loaded_radius_mm: f64) -> Result<Self, BuildError> {
        Self::on(points, points.members()?, &points.mounts(), loaded_radius_mm)
    }

    /// The corner of `members` hung on `mounts`, put together the way `points` are.
    ///
    /// `points` give the measured arm angle, and which of the two ways of
    /// closing each joint is meant; the members may have been changed since.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one. Members that
    /// do not reach each other are no error here: every pose then says so.
    pub fn on(
        points: &Hardpoints,
        members: Members,
        mounts: &Mounts,
        loaded_radius_mm: f64,
    ) -> Result<Self, BuildError> {
        let (_, branch) = points.take_apart()?;
        if !(Self::SHORTEST_MM..BuildError::FAR_MM).contains(&loaded_radius_mm) {
            return Err(BuildError::Unusable(Member::Wheel));
        }
        let lower_line = PivotLine::new(&mounts.lower, Member::LowerArm)?;
        let upper_line = PivotLine::new(&mounts.upper, Member::UpperArm)?;
        let measured = PivotLine::new(&points.lower.axis(), Member::LowerArm)?;
        let knuckle = points.knuckle_frame()?;
        let mut corner = Self {
            lower: lower_line.swing(&members.lower),
            upper: upper_line.swing(&members.upper),
            knuckle: members.knuckle,
            spacing_squared: members.knuckle.spacing_mm * members.knuckle.spacing_mm,
            tie_inner: mounts.tie_inner,
            tie_rod_squared: members.tie_rod_mm * members.tie_rod_mm,
            branch,
            loaded_radius_mm,
            measured_angle_rad: measured.angle_of(&points.lower.ball),
            mounts: *mounts,
            rod: points.tie_outer - mounts.tie_inner,
            steering_axis: knuckle.along,
            steering_arm: knuckle.radial,
            range: Range::EMPTY,
        };
        corner.range = range::range(&corner);
        Ok(corner)
    }

    /// The lower arm's angle above the horizontal in the measured state, rad.
    #[must_use]
    pub const fn measured_angle_rad(&self) -> f64 {
        self.measured_angle_rad
    }

    /// Wheel centre to ground in the wheel's plane, mm.
    #[must_use]
    pub const fn loaded_radius_mm(&self) -> f64 {
        self.loaded_radius_mm
    }

    /// Where the members are hung.
    #[must_use]
    pub const fn mounts(&self) -> &Mounts {
        &self.mounts
    }

    /// How far the lower arm can swing with the wheels straight ahead, and what ends it.
    #[must_use]
    pub const fn range(&self) -> &Range {
        &self.range
    }

    /// The pose at one angle of the lower arm.
    ///
    /// `lower_arm_rad`: the arm above the horizontal, + up at the ball.
    /// `relay_mm`: displacement of the tie rod's inner end from straight ahead,
    /// body axes; a rack moves along `y` alone.
    ///
    /// # Errors
    /// [`Unreached::Open`] names the joint that cannot close and its gap.
    ///
    /// # Accuracy
    /// Every member keeps its length within 1e-10 mm.
    ///
    /// # Source
    /// Derived here. Each joint is a circle met by a sphere,
    /// `a cos φ + b sin φ = c`, of whose two roots the one is kept that is
    /// continuous with the measured state.
    pub fn pose(&self, lower_arm_rad: f64, relay_mm: Vector3<f64>) -> Result<Pose, Unreached> {
        #[cfg(feature = "count-poses")]
        crate::count::one_more();
        let (sin, cos) = crate::angle::sincos(lower_arm_rad);
        let lower_ball = self.lower.at(sin, cos);
        let upper_ball = self.upper_ball(&lower_ball)?;
        let along = (upper_ball - lower_ball) / self.knuckle.spacing_mm;
        let tie_inner = self.tie_inner + relay_mm;
        let radial = self.towards_tie(&lower_ball, &along, &tie_inner)?;
        Ok(self.with_knuckle(
            lower_arm_rad,
            MemberFrame::new(lower_ball, along, radial),
            upper_ball,
            tie_inner,
        ))
    }

    fn with_knuckle(
        &self,
        lower_arm_rad: f64,
        knuckle: MemberFrame,
        upper_ball: Point3<f64>,
        tie_inner: Point3<f64>,
    ) -> Pose {
        let shape = &self.knuckle;
        let MemberFrame { origin: lower_ball, along, radial, .. } = knuckle;
        Pose {
            lower_arm_rad,
            lower_ball,
            upper_ball,
            tie_inner,
            tie_outer: lower_ball + along * shape.tie_along_mm + radial * shape.tie_radius_mm,
            wheel_centre: knuckle.carry(&shape.wheel_centre),
            spin: knuckle.carry_direction(&shape.spin),
            knuckle,
        }
    }

    /// The pose at an angle of the lower arm with the steering arm `by_rad` to the left of
    /// where it points in `near`, whatever the tie rod says of that.
    pub(crate) fn turned(&self, near: &Pose, lower_arm_rad: f64, by_rad: f64) -> Option<Pose> {
        #[cfg(feature = "count-poses")]
        crate::count::one_more();
        let (sin, cos) = crate::angle::sincos(lower_arm_rad);
        let lower_ball = self.lower.at(sin, cos);
        let upper_ball = self.upper_ball(&lower_ball).ok()?;
        let along = (upper_ball - lower_ball) / self.knuckle.spacing_mm;
        let was = near.knuckle.radial;
        let radial = axes::direction(was - along * was.dot(&along))?;
        let (sin, cos) = crate::angle::sincos(by_rad);
        let knuckle = MemberFrame::new(lower_ball, along, radial * cos + along.cross(&radial) * sin);
        Some(self.with_knuckle(lower_arm_rad, knuckle, upper_ball, self.tie_inner))
    }

    /// How far the relay rod has gone along `way` (unit) where the steering arm stands as in
    /// `pose`, mm; of the two places the one from which the rod points along it as `sense`
    /// says. `None` where the rod reaches neither, or past its dead centre.
    pub(crate) fn relay_at(&self, pose: &Pose, way: &Vector3<f64>, sense: f64) -> Option<f64> {
        let reach = pose.tie_outer - self.tie_inner;
        let along = reach.dot(way);
        let left = self.tie_rod_squared - reach.norm_squared() + along * along;
        if left < 0.0 {
            return None;
        }
        let relay_mm = along - sense * left.sqrt();
        let towards_inner = self.tie_inner + way * relay_mm - pose.lower_ball;
        let side = pose.knuckle.radial.dot(&pose.knuckle.along.cross(&towards_inner));
        (sign(side).to_bits() == self.branch.tie.to_bits()).then_some(relay_mm)
    }

    /// The member frame that carries every point bolted to the lower arm.
    #[must_use]
    pub fn lower_arm(&self, pose: &Pose) -> MemberFrame {
        self.lower.frame(&pose.lower_ball)
    }

    /// The member frame that carries every point bolted to the upper arm.
    #[must_use]
    pub fn upper_arm(&self, pose: &Pose) -> MemberFrame {
        self.upper.frame(&pose.upper_ball)
    }

    /// The upper arm above the horizontal, + up at the ball, rad.
    #[must_use]
    pub fn upper_arm_rad(&self, pose: &Pose) -> f64 {
        let reach = pose.upper_ball - self.upper.centre;
        libm::atan2(reach.dot(&self.upper.up), reach.dot(&self.upper.out))
    }

    /// What a gauge would read off a pose of this corner.
    #[must_use]
    pub fn attitude(&self, pose: &Pose) -> Attitude {
        Attitude::of(pose, self.loaded_radius_mm)
    }

    fn reach_term(&self, to_lower: &Vector3<f64>) -> f64 {
        (self.upper.radius_squared + to_lower.norm_squared() - self.spacing_squared) / 2.0
    }

    fn upper_ball(&self, lower_ball: &Point3<f64>) -> Result<Point3<f64>, Unreached> {
        let to_lower = lower_ball - self.upper.centre;
        let (a, b) = (self.upper.out.dot(&to_lower), self.upper.up.dot(&to_lower));
        let c = self.reach_term(&to_lower);
        let size_squared = a * a + b * b;
        let root_squared = size_squared - c * c;
        if root_squared > 0.0 {
            let root = self.branch.upper * root_squared.sqrt();
            let (cos, sin) = (a * c - b * root, b * c + a * root);
            return Ok(self.upper.at(sin / size_squared, cos / size_squared));
        }
        let shortest = self.upper.radius_squared + to_lower.norm_squared();
        let size = size_squared.sqrt() * sign(c);
        let span = (shortest - 2.0 * size).max(0.0).sqrt();
        Err(Unreached::Open { joint: Joint::UpperBall, gap_mm: (span - self.knuckle.spacing_mm).abs() })
    }

    /// The direction from the steering axis to the outer tie-rod end.
    fn towards_tie(
        &self,
        lower_ball: &Point3<f64>,
        along: &Vector3<f64>,
        tie_inner: &Point3<f64>,
    ) -> Result<Vector3<f64>, Unreached> {
        let reach = tie_inner - lower_ball;
        let reach_along = reach.dot(along);
        let radial = reach - along * reach_along;
        let inner_radius = axes::length(&radial);
        let radius = self.knuckle.tie_radius_mm;
        let offset = self.knuckle.tie_along_mm - reach_along;
        let doubled = 2.0 * radius * inner_radius;
        let sum = radius * radius + inner_radius * inner_radius + offset * offset - self.tie_rod_squared;
        if sum.abs() < doubled && inner_radius > Self::ON_AXIS_MM {
            let cos = sum / doubled;
            let sin = self.branch.tie * (1.0 - cos * cos).sqrt();
            let towards = radial / inner_radius;
            return Ok(towards * cos + along.cross(&towards) * sin);
        }
        let span = radius - sign(sum) * inner_radius;
        let shortest = (span * span + offset * offset).sqrt();
        Err(Unreached::Open {
            joint: Joint::TieRodOuter,
            gap_mm: (shortest - self.tie_rod_squared.sqrt()).abs(),
        })
    }
}
