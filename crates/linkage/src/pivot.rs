//! The line that an arm turns about, and how its ball swings around it.

use crate::axes;
use crate::error::{BuildError, Member};
use crate::members::{ArmShape, Axis};
use crate::pose::MemberFrame;
use nalgebra::{Point3, Vector3};

/// Two points nearer than this are one point, mm.
pub(crate) const SHORTEST_MM: f64 = 1.0;

/// A line through two pivots, with the directions an arm's angle is counted in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PivotLine {
    middle: Point3<f64>,
    /// Along the axis, to the front.
    along: Vector3<f64>,
    /// Horizontal, outboard: the arm's angle is counted from here,
    out: Vector3<f64>,
    /// and towards here.
    up: Vector3<f64>,
}

impl PivotLine {
    pub(crate) fn new(axis: &Axis, member: Member) -> Result<Self, BuildError> {
        let between = axis.front - axis.rear;
        if axes::length(&between) < SHORTEST_MM {
            return Err(BuildError::NoLength(member));
        }
        let along = axes::direction(between).ok_or(BuildError::NoLength(member))?;
        // Pivots entered in the other order are the same axis.
        let along = if along.x < 0.0 { -along } else { along };
        let out = Vector3::z().cross(&along);
        if axes::horizontal(&along) < 0.1 {
            return Err(BuildError::UprightAxis(member));
        }
        let out = out / axes::length(&out);
        let middle = nalgebra::center(&axis.front, &axis.rear);
        Ok(Self { middle, along, out, up: along.cross(&out) })
    }

    pub(crate) fn shape_of(&self, ball: &Point3<f64>, member: Member) -> Result<ArmShape, BuildError> {
        let reach = ball - self.middle;
        let along_mm = reach.dot(&self.along);
        let radius_mm = axes::length(&(reach - self.along * along_mm));
        if radius_mm < SHORTEST_MM {
            return Err(BuildError::NoLength(member));
        }
        Ok(ArmShape { along_mm, radius_mm })
    }

    /// The member frame of an arm whose ball stands at `ball`.
    pub(crate) fn frame_towards(
        &self,
        ball: &Point3<f64>,
        member: Member,
    ) -> Result<MemberFrame, BuildError> {
        let reach = ball - self.middle;
        let radial = axes::direction(reach - self.along * reach.dot(&self.along))
            .ok_or(BuildError::NoLength(member))?;
        Ok(MemberFrame::new(self.middle, self.along, radial))
    }

    /// The angle above the horizontal at which an arm's point stands, rad.
    pub(crate) fn angle_of(&self, point: &Point3<f64>) -> f64 {
        let reach = point - self.middle;
        libm::atan2(reach.dot(&self.up), reach.dot(&self.out))
    }

    pub(crate) fn swing(&self, shape: &ArmShape) -> Swing {
        Swing {
            middle: self.middle,
            centre: self.middle + self.along * shape.along_mm,
            along: self.along,
            out: self.out * shape.radius_mm,
            up: self.up * shape.radius_mm,
            radius_squared: shape.radius_mm * shape.radius_mm,
        }
    }
}

/// The circle a ball runs on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Swing {
    middle: Point3<f64>,
    pub(crate) centre: Point3<f64>,
    pub(crate) along: Vector3<f64>,
    pub(crate) out: Vector3<f64>,
    pub(crate) up: Vector3<f64>,
    pub(crate) radius_squared: f64,
}

impl Swing {
    pub(crate) fn at(&self, sin: f64, cos: f64) -> Point3<f64> {
        self.centre + self.out * cos + self.up * sin
    }

    pub(crate) fn frame(&self, ball: &Point3<f64>) -> MemberFrame {
        let radial = (ball - self.centre) / self.radius_squared.sqrt();
        MemberFrame::new(self.middle, self.along, radial)
    }
}

/// Which of the two ways of putting the members together is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Branch {
    pub(crate) upper: f64,
    pub(crate) tie: f64,
}

impl Branch {
    pub(crate) fn of(
        upper_line: &PivotLine,
        upper: &ArmShape,
        knuckle: &MemberFrame,
        upper_ball: &Point3<f64>,
        tie_inner: &Point3<f64>,
    ) -> Self {
        let swing = upper_line.swing(upper);
        let to_lower = knuckle.origin - swing.centre;
        let (a, b) = (swing.out.dot(&to_lower), swing.up.dot(&to_lower));
        let (sin, cos) = crate::angle::sincos(upper_line.angle_of(upper_ball));
        let towards_inner = tie_inner - knuckle.origin;
        let across = knuckle.along.cross(&towards_inner);
        Self { upper: sign(a * sin - b * cos), tie: sign(knuckle.radial.dot(&across)) }
    }
}

pub(crate) fn sign(value: f64) -> f64 {
    if value < 0.0 { -1.0 } else { 1.0 }
}
