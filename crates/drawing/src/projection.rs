//! The points of the left front corner as they are seen from the side and from above.

use crate::aspect::{Aspect, Handle};
use crate::geometry::Vec2;
use crate::shown::Shown;
use linkage::{Assembly, Attitude, Axis, Corner, Member, Point3, Pose};
use truck::Fitted;

/// A wheel that is turned farther is not drawn as cut in the plane of the axle, rad.
pub(crate) const STEERED_RAD: f64 = 0.05;

/// An arm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ArmSeen {
    /// Its front pivot.
    pub(crate) front: Vec2,
    /// Its rear pivot.
    pub(crate) rear: Vec2,
    pub(crate) ball: Vec2,
}

/// A strut rod.
#[derive(Clone, Copy, Debug)]
pub(crate) struct StrutRod {
    /// Its bushing on the frame.
    pub(crate) bushing: Vec2,
    /// Where it is bolted to the lower arm.
    pub(crate) bolt: Vec2,
}

/// How points become those of a picture.
#[derive(Clone, Copy, Debug)]
struct Sight {
    aspect: Aspect,
    /// Sine and cosine of the body's lean.
    lean: (f64, f64),
    /// Height of the ground, in axes level with it.
    ground_mm: f64,
}

/// A corner seen from the side or from above.
pub(crate) struct Projection<'a> {
    pub(crate) aspect: Aspect,
    pub(crate) fitted: &'a Fitted,
    /// The pose in axes level with the ground.
    pub(crate) pose: Pose,
    pub(crate) attitude: Attitude,
    sight: Sight,
    pub(crate) lower: ArmSeen,
    pub(crate) upper: ArmSeen,
    pub(crate) tie_inner: Vec2,
    /// The end of the tie rod: that of the steering arm, where it reaches it.
    pub(crate) tie_outer: Vec2,
    /// The lower arm's own bushing, where a strut rod holds it too; else its rear one.
    pub(crate) lower_bushing: Vec2,
    pub(crate) strut_rod: Option<StrutRod>,
    /// A joint that stays open: its two ends.
    pub(crate) open: Option<[Vec2; 2]>,
}

impl<'a> Projection<'a> {
    pub(crate) fn of(aspect: Aspect, shown: &Shown<'a>) -> Self {
        let rest = shown.rest;
        let lean_rad = if aspect == Aspect::Side { rest.nose_down_rad() } else { 0.0 };
        Self::assembled(aspect, &rest.fitted, &rest.corner, &Assembly::closed(*shown.pose), lean_rad)
    }

    /// A corner as far as its members reach each other, of a body whose nose leans down.
    pub(crate) fn assembled(
        aspect: Aspect,
        fitted: &'a Fitted,
        corner: &Corner,
        assembly: &Assembly,
        lean_rad: f64,
    ) -> Self {
        let pose = assembly.pose.nose_down(lean_rad);
        let attitude = corner.attitude(&pose);
        let sight = Sight { aspect, lean: linkage::angle::sincos(lean_rad), ground_mm: attitude.contact.z };
        let at = |point: &Point3<f64>| sight.at(point);
        let arm =
            |axis: &Axis, ball| ArmSeen { front: at(&axis.front), rear: at(&axis.rear), ball: at(ball) };
        let (mounts, measured) = (corner.mounts(), &fitted.measured);
        let lower = arm(&mounts.lower, &assembly.pose.lower_ball);
        let bushings = measured.bushings(&mounts.lower);
        let strut_rod = bushings.zip(measured.strut.arm.stated()).and_then(|((_, bushing), bolt)| {
            let local = measured.points.lower.frame(Member::LowerArm).ok()?.local(&bolt);
            let bolt = corner.lower_arm(&assembly.pose).carry(&local);
            Some(StrutRod { bushing: at(&bushing), bolt: at(&bolt) })
        });
        Self {
            aspect,
            fitted,
            lower,
            upper: arm(&mounts.upper, &assembly.upper_arm_end),
            tie_inner: sight.level(&pose.tie_inner),
            tie_outer: at(&assembly.tie_rod_end),
            lower_bushing: bushings.map_or(lower.rear, |(own, _)| at(&own)),
            strut_rod,
            open: assembly.open_ends().map(|ends| ends.map(|end| at(&end))),
            pose,
            attitude,
            sight,
        }
    }

    /// Where a point given in axes level with the ground is seen.
    pub(crate) fn level(&self, point: &Point3<f64>) -> Vec2 {
        self.sight.level(point)
    }

    /// Where a point of the body is seen.
    pub(crate) fn at(&self, point: &Point3<f64>) -> Vec2 {
        self.sight.at(point)
    }

    /// Where a handle is.
    pub(crate) fn place(&self, handle: Handle) -> Option<Vec2> {
        Some(match handle {
            Handle::LowerFront => self.lower.front,
            Handle::LowerRear => self.lower.rear,
            Handle::LowerBall => self.lower.ball,
            Handle::UpperFront => self.upper.front,
            Handle::UpperRear => self.upper.rear,
            Handle::UpperBall => self.upper.ball,
            Handle::WheelCentre => self.level(&self.pose.wheel_centre),
            Handle::TieInner => self.tie_inner,
            Handle::TieOuter => self.level(&self.pose.tie_outer),
            _ => return None,
        })
    }
}

impl Sight {
    fn level(&self, point: &Point3<f64>) -> Vec2 {
        let lift = if self.aspect == Aspect::Top { 0.0 } else { self.ground_mm };
        self.aspect.flat(point) - Vec2(0.0, lift)
    }

    fn at(&self, point: &Point3<f64>) -> Vec2 {
        let (sin, cos) = self.lean;
        self.level(&Point3::new(point.x * cos + point.z * sin, point.y, point.z * cos - point.x * sin))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use study::Stance;
    use truck::{Side, Truck, demo};

    /// Where the rod's bushing and the arm's own are seen from above.
    fn seen(truck: &Truck) -> (Vec2, Vec2) {
        let rest = Stance::laid(truck, &[]).unwrap().on(Side::Left);
        let shown = Shown { rest: &rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
        let seen = Projection::of(Aspect::Top, &shown);
        (seen.strut_rod.unwrap().bushing, seen.lower_bushing)
    }

    #[test]
    fn a_strut_rod_that_runs_back_is_drawn_behind_the_arm() {
        let mut truck = demo().truck;
        assert!(truck.strut.arm.stated().is_some(), "the demo has a rod");
        let lower = truck.points.lower;
        let (rod, own) = seen(&truck);
        let flat = |point: &Point3<f64>| Aspect::Top.flat(point);
        assert_eq!((rod, own), (flat(&lower.front), flat(&lower.rear)));
        // The same arm seen from the other end: its own bushing in front, the rod's behind.
        let mirrored = |point: Point3<f64>| Point3::new(2.0 * lower.ball.x - point.x, point.y, point.z);
        (truck.points.lower.front, truck.points.lower.rear) = (mirrored(lower.rear), mirrored(lower.front));
        let (rod, own) = seen(&truck);
        assert_eq!((rod, own), (flat(&mirrored(lower.front)), flat(&mirrored(lower.rear))));
    }
}
