//! How near the tire comes to what stands beside it.

use crate::distance::{Bead, Block, TireSolid};
use crate::rest::Rest;
use linkage::{Point3, Pose};
use std::fmt;
use truck::{Field, Fitted, Truck};

/// Two things that can meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pair {
    /// The tire and the frame rail.
    TireRail,
    /// The tire and the fender's lip.
    TireFender,
}

impl Pair {
    /// Every pair.
    pub const ALL: [Self; 2] = [Self::TireRail, Self::TireFender];

    /// The name in tables.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::TireRail => "tire_to_frame",
            Self::TireFender => "tire_to_fender",
        }
    }

    /// The numbers of the truck that only this pair rests on.
    #[must_use]
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Self::TireRail => &[
                Field::RailOuterY,
                Field::RailWidth,
                Field::RailBottomZ,
                Field::RailHeight,
                Field::RailFrontX,
                Field::RailRearX,
            ],
            Self::TireFender => &[Field::FenderY, Field::FenderZ, Field::FenderHalfLength],
        }
    }
}

impl fmt::Display for Pair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TireRail => "tire to frame",
            Self::TireFender => "tire to fender",
        })
    }
}

/// The room between two things at one pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Which two.
    pub pair: Pair,
    /// Distance, mm; negative where they overlap, down to the shoulder's radius.
    pub distance_mm: f64,
    /// Nearest point of the tire, mm, body axes.
    pub on_tire: Point3<f64>,
    /// Nearest point of the other, mm, body axes.
    pub on_other: Point3<f64>,
}

/// The room of one pair at a pose.
#[must_use]
pub fn clearance(fitted: &Fitted, pose: &Pose, pair: Pair) -> Gap {
    let tire = TireSolid::of(fitted, pose);
    let closest = match pair {
        Pair::TireRail => tire.to_block(&rail_box(&fitted.measured)),
        Pair::TireFender => tire.to_bead(&fender_bead(&fitted.measured)),
    };
    Gap { pair, distance_mm: closest.distance_mm, on_tire: closest.on_tire, on_other: closest.on_other }
}

/// The room of every pair at a pose, in the order of [`Pair::ALL`].
#[must_use]
pub fn clearances(rest: &Rest, pose: &Pose) -> Vec<Gap> {
    Pair::ALL.iter().map(|pair| clearance(&rest.fitted, pose, *pair)).collect()
}

impl TireSolid {
    /// The tire of a fitted truck at a pose.
    #[must_use]
    pub fn of(fitted: &Fitted, pose: &Pose) -> Self {
        Self {
            centre: pose.wheel_centre,
            spin: pose.spin,
            radius_mm: fitted.tire.free_radius_mm(),
            half_width_mm: fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0,
            shoulder_mm: fitted.tire.shoulder_mm,
        }
    }
}

/// The frame rail beside the tire.
#[must_use]
pub fn rail_box(truck: &Truck) -> Block {
    let rail = &truck.body.rail;
    let (back, front) = (rail.rear_x_mm.min(rail.front_x_mm), rail.front_x_mm.max(rail.rear_x_mm));
    Block {
        low: Point3::new(back, rail.outer_y_mm - rail.width_mm, rail.bottom_z_mm),
        high: Point3::new(front, rail.outer_y_mm, rail.bottom_z_mm + rail.height_mm),
    }
}

/// The level run of the fender's lip over the wheel.
#[must_use]
pub fn fender_bead(truck: &Truck) -> Bead {
    let fender = &truck.body.fender;
    let x = truck.points.wheel_centre.x;
    let end = |way: f64| Point3::new(x + way * fender.half_length_mm, fender.lip_y_mm, fender.lip_z_mm);
    Bead { from: end(-1.0), to: end(1.0) }
}
