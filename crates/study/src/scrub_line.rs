//! The scrub line: what must not hang below it if a tire goes flat.
//!
//! Of the front axle, standing still; the rear's is told by `rear_told`. It runs, in front view, from the lowest edge of the rim on one side to the
//! bottom of the tire on the other, and the same the other way round.

use crate::clearance::Shapes;
use crate::distance::Segment;
use crate::rest::Rest;
use crate::ring::bead_seat_mm;
use linkage::Point3;
use truck::{Field, LoadCase};

/// Height of a rim's flange over its bead seat, mm: that of a J flange.
///
/// # Source
/// A car maker's article on rim codes.
pub const FLANGE_MM: f64 = 17.5;

/// What hangs low.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Low {
    /// The lowest fixed point of the body.
    Fixed,
    /// The nut of the lower ball.
    BallNut,
    /// The lower arm.
    LowerArm,
    /// The strut rod.
    StrutRod,
    /// The tie rod.
    TieRod,
}

impl Low {
    /// Everything that is looked at.
    pub const ALL: [Self; 5] = [Self::Fixed, Self::BallNut, Self::LowerArm, Self::StrutRod, Self::TieRod];

    /// The name in tables.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Fixed => "low_point",
            Self::BallNut => "ball_nut",
            Self::LowerArm => "lower_arm",
            Self::StrutRod => "strut_rod",
            Self::TieRod => "tie_rod",
        }
    }

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Fixed => "lowest fixed point",
            Self::BallNut => "lower ball joint's nut",
            Self::LowerArm => "lower arm",
            Self::StrutRod => "strut rod",
            Self::TieRod => "tie rod",
        }
    }

    /// The numbers that must be stated for it.
    #[must_use]
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Self::Fixed => &[Field::LowPointY, Field::LowPointZ],
            Self::BallNut => &[Field::BallNut],
            Self::LowerArm => &[Field::LowerArmThickness],
            Self::StrutRod => {
                &[Field::StrutRodThickness, Field::StrutArmX, Field::StrutArmY, Field::StrutArmZ]
            }
            Self::TieRod => &[Field::TieRodThickness],
        }
    }
}

/// The lowest point of one thing against the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LowPoint {
    /// What it belongs to.
    pub of: Low,
    /// From the centreline, mm.
    pub y_mm: f64,
    /// Above the ground, mm.
    pub z_mm: f64,
    /// Above the higher of the two lines at its place, mm; negative below.
    pub over_line_mm: f64,
    /// Above the lowest edge of the rim, mm; negative below.
    pub over_rim_mm: f64,
    /// What the truck carries then.
    pub load: LoadCase,
}

/// The scrub line of a truck at rest, and what hangs near it.
#[derive(Clone, Debug, PartialEq)]
pub struct ScrubLine {
    /// The lowest edge of the rim, inboard: from the centreline, mm.
    pub rim_y_mm: f64,
    /// That edge, above the ground, mm.
    pub rim_z_mm: f64,
    /// The lower of the rim's two edges, above the ground, mm.
    pub rim_low_mm: f64,
    /// The other tire's bottom, from the centreline, mm.
    pub tire_y_mm: f64,
    /// What could be looked at.
    pub points: Vec<LowPoint>,
    /// What could not, and the numbers that are not stated.
    pub unstated: Vec<(Low, Vec<Field>)>,
}

impl ScrubLine {
    /// The scrub line under the load that brings each thing lowest: as measured, with
    /// the driver, with the load in the bed, with both, as far as they are stated and
    /// the truck stands.
    #[must_use]
    pub fn worst(rest: &Rest) -> Self {
        let mut worst = Self::of(rest);
        for load in LoadCase::ALL {
            let loaded = rest.fitted.under(load).and_then(|fitted| Rest::of(fitted).ok());
            let Some(loaded) = loaded else { continue };
            for (point, other) in worst.points.iter_mut().zip(Self::of(&loaded).points) {
                // What is as low by rounding alone keeps its case.
                if other.of == point.of && other.over_line_mm < point.over_line_mm - 1e-6 {
                    *point = LowPoint { load, ..other };
                }
            }
        }
        worst
    }

    /// The scrub line of a truck at rest under the load of that rest.
    #[must_use]
    pub fn of(rest: &Rest) -> Self {
        let pose = &rest.pose;
        let fitted = &rest.fitted;
        let flange_mm = bead_seat_mm(fitted.tire.size.rim_code) / 2.0 + FLANGE_MM;
        let inboard = pose.wheel_centre - pose.spin * (fitted.wheel.rim_width_mm / 2.0);
        let edge = inboard + pose.down_in_wheel() * flange_mm;
        let outboard_z = edge.z + pose.spin.z * fitted.wheel.rim_width_mm;
        let mut line = Self {
            rim_y_mm: edge.y,
            rim_z_mm: edge.z - rest.ground_mm,
            rim_low_mm: edge.z.min(outboard_z) - rest.ground_mm,
            tire_y_mm: rest.attitude().contact.y,
            points: Vec::new(),
            unstated: Vec::new(),
        };
        let shapes = Shapes::of(rest);
        for of in Low::ALL {
            if let Some((segment, round_mm)) = low_segment(rest, &shapes, of) {
                // Along a straight part the room over a straight line is least at an end.
                let ends = [segment.from, segment.to].map(|end| line.point_at(rest, of, &end, round_mm));
                let lower_end = usize::from(ends[1].over_line_mm < ends[0].over_line_mm);
                line.points.push(ends[lower_end]);
            } else {
                let missing = of.fields().iter().filter(|field| field.get(&fitted.measured).is_none());
                line.unstated.push((of, missing.copied().collect()));
            }
        }
        line
    }

    /// The lowest point of one thing, where it could be looked at.
    #[must_use]
    pub fn point(&self, of: Low) -> Option<&LowPoint> {
        self.points.iter().find(|point| point.of == of)
    }

    /// Height of the higher of the two lines above the ground at a distance from the centreline, mm.
    #[must_use]
    pub fn at_mm(&self, y_mm: f64) -> f64 {
        line_mm((self.rim_y_mm, self.rim_z_mm), self.tire_y_mm, y_mm)
    }

    fn point_at(&self, rest: &Rest, of: Low, at: &Point3<f64>, round_mm: f64) -> LowPoint {
        let z_mm = at.z - round_mm - rest.ground_mm;
        LowPoint {
            of,
            y_mm: at.y,
            z_mm,
            over_line_mm: z_mm - self.at_mm(at.y),
            over_rim_mm: z_mm - self.rim_low_mm,
            load: LoadCase::AsMeasured,
        }
    }
}

/// Height of the higher of an axle's two lines above the ground, mm, so far from the centreline, by where a
/// rim's lowest edge is (from the centreline and above the ground) and where the tires stand.
pub(crate) fn line_mm(rim: (f64, f64), tire_y_mm: f64, y_mm: f64) -> f64 {
    rim.1 * (y_mm.abs() + tire_y_mm) / (rim.0 + tire_y_mm)
}

/// The middle line of what hangs low, and how far it reaches below that, mm; `None` where one
/// of its [`Low::fields`] is not stated.
fn low_segment(rest: &Rest, shapes: &Shapes, of: Low) -> Option<(Segment, f64)> {
    let truck = &rest.fitted.measured;
    let pose = &rest.pose;
    let point = |at: Point3<f64>| Segment { from: at, to: at };
    Some(match of {
        Low::Fixed => (point(Point3::new(0.0, truck.low.y_mm?, truck.low.z_mm?)), 0.0),
        Low::BallNut => (point(shapes.nut(pose)?), 0.0),
        Low::LowerArm => {
            // The leg that is no rod; of two, the one whose pivot hangs lower.
            let axis = rest.corner.mounts().lower;
            let lower = if axis.front.z < axis.rear.z { axis.front } else { axis.rear };
            let from = truck.bushings(&axis).map_or(lower, |(own, _)| own);
            (Segment { from, to: pose.lower_ball }, truck.thickness.lower_arm_mm?)
        }
        Low::StrutRod => (shapes.strut_rod(rest, pose)?, truck.thickness.strut_rod_mm?),
        Low::TieRod => (Segment { from: pose.tie_inner, to: pose.tie_outer }, truck.thickness.tie_rod_mm?),
    })
}
