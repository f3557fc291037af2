//! The points of the left front corner as they are seen from the side and from above.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::geometry::Vec2;
use crate::shown::Shown;
use linkage::{Assembly, Attitude, Corner, Member, Point3, Pose};
use truck::Fitted;

/// A wheel that is turned farther is not drawn as cut in the plane of the axle, rad.
pub(crate) const STEERED_RAD: f64 = 0.05;

/// A corner seen from the side or from above.
pub(crate) struct Projection<'a> {
    pub(crate) aspect: Aspect,
    pub(crate) fitted: &'a Fitted,
    /// The pose in axes level with the ground.
    pub(crate) pose: Pose,
    pub(crate) attitude: Attitude,
    /// Sine and cosine of the body's lean.
    pub(crate) lean: (f64, f64),
    /// Both arms, front pivot, rear pivot and ball, in the picture.
    pub(crate) arms: [[Vec2; 3]; 2],
    /// The end of the tie rod: that of the steering arm, where it reaches it.
    pub(crate) tie_end: Vec2,
    /// The lower arm's own bushing.
    pub(crate) own: Vec2,
    /// The strut rod's bushing on the frame, and where the rod is bolted to the lower arm.
    pub(crate) rod: Option<[Vec2; 2]>,
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
        let pose = &assembly.pose;
        let level = pose.nose_down(lean_rad);
        let mut projection = Self {
            aspect,
            fitted,
            attitude: corner.attitude(&level),
            pose: level,
            lean: libm::sincos(lean_rad),
            arms: [[Vec2(0.0, 0.0); 3]; 2],
            tie_end: Vec2(0.0, 0.0),
            own: Vec2(0.0, 0.0),
            rod: None,
            open: None,
        };
        let mounts = corner.mounts();
        for (arm, (axis, ball)) in
            [(mounts.lower, pose.lower_ball), (mounts.upper, assembly.upper_arm_end)].iter().enumerate()
        {
            projection.arms[arm] = [axis.front, axis.rear, *ball].map(|point| projection.at(&point));
        }
        projection.tie_end = projection.at(&assembly.tie_rod_end);
        projection.open = assembly.open_ends().map(|ends| ends.map(|end| projection.at(&end)));
        projection.own = projection.arms[0][1];
        let measured = &fitted.measured;
        if let Some((own, bushing)) = measured.bushings(&mounts.lower) {
            projection.own = projection.at(&own);
            projection.rod = measured.strut.arm.stated().and_then(|end| {
                let local = measured.points.lower.frame(Member::LowerArm).ok()?.local(&end);
                Some([bushing, corner.lower_arm(pose).carry(&local)].map(|point| projection.at(&point)))
            });
        }
        projection
    }

    /// Each handle of the picture and where it is, px.
    pub(crate) fn handles(&self, board: &Board) -> Vec<(Handle, f64, f64)> {
        let placed = |handle: &Handle| {
            let (x, y) = board.px(self.place(*handle)?);
            Some((*handle, x, y))
        };
        self.aspect.handles().iter().filter_map(placed).collect()
    }

    /// Where a point given in axes level with the ground is seen.
    pub(crate) fn level(&self, point: &Point3<f64>) -> Vec2 {
        let lift = if self.aspect == Aspect::Top { 0.0 } else { self.attitude.contact.z };
        self.aspect.flat(point) - Vec2(0.0, lift)
    }

    /// Where a point of the body is seen.
    pub(crate) fn at(&self, point: &Point3<f64>) -> Vec2 {
        let (sin, cos) = self.lean;
        self.level(&Point3::new(point.x * cos + point.z * sin, point.y, point.z * cos - point.x * sin))
    }

    /// Where a handle is.
    pub(crate) fn place(&self, handle: Handle) -> Option<Vec2> {
        let [lower, upper] = &self.arms;
        Some(match handle {
            Handle::LowerFront => lower[0],
            Handle::LowerRear => lower[1],
            Handle::LowerBall => lower[2],
            Handle::UpperFront => upper[0],
            Handle::UpperRear => upper[1],
            Handle::UpperBall => upper[2],
            Handle::WheelCentre => self.level(&self.pose.wheel_centre),
            Handle::TieInner => self.level(&self.pose.tie_inner),
            Handle::TieOuter => self.level(&self.pose.tie_outer),
            _ => return None,
        })
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
        (seen.rod.unwrap()[0], seen.own)
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
