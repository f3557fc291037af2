//! The points of a corner as measured, and the rigid members they imply.

use crate::axes;
use crate::error::{BuildError, Member};
use crate::members::{Axis, KnuckleShape, Members, Mounts};
use crate::pivot::{Branch, PivotLine, SHORTEST_MM};
use crate::pose::MemberFrame;
use nalgebra::Point3;

/// One arm as measured: two pivots and the ball they carry. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmPoints {
    /// Front pivot, on the body.
    pub front: Point3<f64>,
    /// Rear pivot, on the body.
    pub rear: Point3<f64>,
    /// Centre of the ball at the arm's outer end.
    pub ball: Point3<f64>,
}

impl ArmPoints {
    /// The pivot axis without the arm.
    #[must_use]
    pub const fn axis(&self) -> Axis {
        Axis { front: self.front, rear: self.rear }
    }

    /// The arm's member frame in this state: it carries any point bolted to the arm.
    ///
    /// # Errors
    /// [`BuildError`] where the points cannot be an arm; `member` is named in it.
    pub fn frame(&self, member: Member) -> Result<MemberFrame, BuildError> {
        PivotLine::new(&self.axis(), member)?.frame_towards(&self.ball, member)
    }
}

/// The points of a left corner in one assembled state. Millimetres and radians, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hardpoints {
    /// Lower arm.
    pub lower: ArmPoints,
    /// Upper arm.
    pub upper: ArmPoints,
    /// Where the spin axis meets the wheel's centre plane.
    pub wheel_centre: Point3<f64>,
    /// Camber in this state, + top out, rad.
    pub camber_rad: f64,
    /// Toe in this state, + front in, rad.
    pub toe_rad: f64,
    /// Inner end of the tie rod, on the rack or the relay rod.
    pub tie_inner: Point3<f64>,
    /// Outer end of the tie rod, on the steering arm.
    pub tie_outer: Point3<f64>,
}

impl Hardpoints {
    /// The body's side of the corner: where the members are hung.
    #[must_use]
    pub const fn mounts(&self) -> Mounts {
        Mounts { lower: self.lower.axis(), upper: self.upper.axis(), tie_inner: self.tie_inner }
    }

    /// The rigid members these points imply.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be one.
    pub fn members(&self) -> Result<Members, BuildError> {
        Ok(self.take_apart()?.0)
    }

    /// The knuckle's member frame in this state: it carries any point bolted to the knuckle.
    ///
    /// # Errors
    /// As [`Hardpoints::members`].
    pub fn knuckle_frame(&self) -> Result<MemberFrame, BuildError> {
        let axis = axes::direction(self.upper.ball - self.lower.ball)
            .ok_or(BuildError::NoLength(Member::Knuckle))?;
        let arm = self.tie_outer - self.lower.ball;
        let radial =
            axes::direction(arm - axis * arm.dot(&axis)).ok_or(BuildError::NoLength(Member::SteeringArm))?;
        Ok(MemberFrame::new(self.lower.ball, axis, radial))
    }

    /// The members together with the way they are put together here.
    pub(crate) fn take_apart(&self) -> Result<(Members, Branch), BuildError> {
        self.check()?;
        let lower_line = PivotLine::new(&self.lower.axis(), Member::LowerArm)?;
        let upper_line = PivotLine::new(&self.upper.axis(), Member::UpperArm)?;
        let lower = lower_line.shape_of(&self.lower.ball, Member::LowerArm)?;
        let upper = upper_line.shape_of(&self.upper.ball, Member::UpperArm)?;
        let knuckle_frame = self.knuckle_frame()?;
        let tie = knuckle_frame.local(&self.tie_outer);
        let tie_rod = self.tie_outer - self.tie_inner;
        if axes::length(&tie_rod) < SHORTEST_MM {
            return Err(BuildError::NoLength(Member::TieRod));
        }
        if tie.y < SHORTEST_MM {
            return Err(BuildError::NoLength(Member::SteeringArm));
        }
        let spacing_mm = axes::length(&(self.upper.ball - self.lower.ball));
        if spacing_mm < SHORTEST_MM {
            return Err(BuildError::NoLength(Member::Knuckle));
        }
        let knuckle = KnuckleShape {
            spacing_mm,
            tie_along_mm: tie.x,
            tie_radius_mm: tie.y,
            wheel_centre: knuckle_frame.local(&self.wheel_centre),
            spin: knuckle_frame.local_direction(&axes::spin_axis(self.camber_rad, self.toe_rad)),
        };
        let branch = Branch::of(&upper_line, &upper, &knuckle_frame, &self.upper.ball, &self.tie_inner);
        Ok((Members { lower, upper, knuckle, tie_rod_mm: axes::length(&tie_rod) }, branch))
    }

    fn check(&self) -> Result<(), BuildError> {
        let named = [
            (Member::LowerArm, [self.lower.front, self.lower.rear, self.lower.ball]),
            (Member::UpperArm, [self.upper.front, self.upper.rear, self.upper.ball]),
            (Member::TieRod, [self.tie_inner, self.tie_outer, self.tie_outer]),
            (Member::Wheel, [self.wheel_centre; 3]),
        ];
        for (member, points) in named {
            let near = |c: &f64| c.abs() <= BuildError::FAR_MM;
            if !points.iter().all(|p| p.iter().all(near)) {
                return Err(BuildError::Unusable(member));
            }
        }
        let quarter = std::f64::consts::FRAC_PI_4;
        if self.camber_rad.abs() <= quarter && self.toe_rad.abs() <= quarter {
            Ok(())
        } else {
            Err(BuildError::Unusable(Member::Wheel))
        }
    }
}
