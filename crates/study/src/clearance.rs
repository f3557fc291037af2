//! What can meet on a truck, and how near it is at a pose.

use crate::distance::{Block, Segment, TireSolid};
use crate::rest::Rest;
use crate::ring::{Ring, Touch, bead_seat_mm};
use crate::spring_state::on_lower_arm;
use linkage::{Point3, Pose, Vector3};
use std::fmt;
use truck::{Brake, Field, Fitted, Group, Thickness, Truck};

/// What a pair's distance depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VariesWith {
    /// Nothing: both are bolted to the knuckle, or turn with the wheel.
    Nothing,
    /// Travel alone.
    Travel,
    /// Travel and steer.
    TravelAndSteer,
}

/// What a part can come to meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Steering, brake, joint, arm or rod, met by a wheel that turns: control is lost there.
    Control,
    /// Frame or fender: the travel ends there.
    Body,
}

/// A wheel that turns nearer than this to [`Against::Control`] is too near, and any room
/// under it is a tight one, mm: a quarter inch. Common practice, no source.
pub const TIGHT_MM: f64 = 6.35;

const RAIL: [Field; 6] = [
    Field::RailOuterY,
    Field::RailWidth,
    Field::RailBottomZ,
    Field::RailHeight,
    Field::RailFrontX,
    Field::RailRearX,
];

macro_rules! pairs {
    ($($name:ident $key:literal $varies_with:ident $against:ident $label:literal [$($field:ident)*] $($rail:ident)?;)*) => {
        /// Two things that can meet.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Pair { $(#[doc = $label] $name,)* }

        impl Pair {
            /// Every pair.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            truck::words! {
                /// The name in tables.
                pub key = $($name => $key),*;

                /// What people call it.
                pub label = $($name => $label),*;
            }

            truck::columns! {
                /// What its distance depends on.
                pub varies_with: VariesWith = $($name => VariesWith::$varies_with),*;

                /// What is met.
                pub against: Against = $($name => Against::$against),*;
            }

            /// The numbers of the truck that it rests on, besides the points of the linkage.
            pub fn fields(self) -> impl Iterator<Item = Field> {
                let (own, rail): (&[Field], &[Field]) = match self {
                    $(Self::$name => (&[$(Field::$field,)*], &[$(Field::$rail,)?]),)*
                };
                let rail = if rail.is_empty() { rail } else { &RAIL };
                rail.iter().chain(own).copied()
            }
        }
    };
}

pairs! {
    TireRail "tire_to_frame" TravelAndSteer Body "tire to frame" [] RailOuterY;
    TireFender "tire_to_fender" TravelAndSteer Body "tire to fender" [FenderY FenderZ FenderHalfLength];
    TireUpperArm "tire_to_upper_arm" TravelAndSteer Control "tire to upper arm" [UpperArmThickness];
    TireLowerArm "tire_to_lower_arm" TravelAndSteer Control "tire to lower arm" [LowerArmThickness];
    TireTieRod "tire_to_tie_rod" TravelAndSteer Control "tire to tie rod" [TieRodThickness];
    TireStrutRod "tire_to_strut_rod" TravelAndSteer Control "tire to strut rod"
        [StrutRodThickness StrutArmX StrutArmY StrutArmZ];
    RimCaliper "rim_to_caliper" Nothing Control "rim to caliper"
        [RimBarrel RimWidth WheelOffset CaliperRadius CaliperIn CaliperOut];
    RimLowerJoint "rim_to_lower_joint" Nothing Control "rim to lower ball joint" [RimBarrel RimWidth BallNut];
    RimLowerArm "rim_to_lower_arm" TravelAndSteer Control "rim to lower arm" [RimBarrel RimWidth LowerArmThickness];
    RimSteeringArm "rim_to_steering_arm" Nothing Control "rim to steering arm and tie-rod end"
        [RimBarrel RimWidth TieRodThickness];
    RimTieRod "rim_to_tie_rod" TravelAndSteer Control "rim to tie rod" [RimBarrel RimWidth TieRodThickness];
    UpperArmRail "upper_arm_to_frame" Travel Body "upper arm to frame" [UpperArmThickness] RailOuterY;
    LowerArmRail "lower_arm_to_frame" Travel Body "lower arm to frame" [LowerArmThickness] RailOuterY;
}

impl Pair {
    /// What moves, and what it meets: its label before and behind *to*.
    #[must_use]
    pub fn things(self) -> [&'static str; 2] {
        const TO: &str = " to ";
        let label = self.label();
        let to =
            label.as_bytes().windows(TO.len()).position(|part| part == TO.as_bytes()).unwrap_or_default();
        [&label[..to], &label[to + TO.len()..]]
    }

    /// The parts whose points and sizes it rests on.
    #[must_use]
    pub const fn parts(self) -> &'static [Group] {
        use Group::{Knuckle, LowerArm, Steering, StrutRod, TieRod, Tire, UpperArm};
        match self {
            // A wheel that steers stands as its tie rod has it.
            Self::TireRail | Self::TireFender | Self::TireTieRod => &[Tire, Steering, Knuckle, TieRod],
            Self::TireUpperArm => &[Tire, Steering, Knuckle, TieRod, UpperArm],
            Self::TireLowerArm => &[Tire, Steering, Knuckle, TieRod, LowerArm],
            Self::TireStrutRod => &[Tire, Steering, Knuckle, TieRod, LowerArm, StrutRod],
            Self::RimCaliper => &[],
            Self::RimLowerJoint => &[Knuckle],
            Self::RimLowerArm => &[Steering, Knuckle, TieRod, LowerArm],
            Self::RimSteeringArm => &[Knuckle, TieRod],
            Self::RimTieRod => &[Steering, Knuckle, TieRod],
            Self::UpperArmRail => &[Knuckle, UpperArm],
            Self::LowerArmRail => &[Knuckle, LowerArm],
        }
    }

    /// The one of a name.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|pair| pair.key() == key)
    }

    /// The numbers that must be stated before its distance can be computed.
    #[must_use]
    pub fn needs(self, fitted: &Fitted) -> Vec<Field> {
        let truck = Truck { brake: fitted.brake, wheel: fitted.wheel, ..Truck::clone(&fitted.measured) };
        self.fields().filter(|field| field.get(&truck).is_none()).collect()
    }
}

impl fmt::Display for Pair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.label())
    }
}

/// The room between two things at one pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Which two.
    pub pair: Pair,
    /// Distance, mm; negative where they overlap. To frame and fender the tire
    /// is known to overlap by no more than its shoulder's radius.
    pub distance_mm: f64,
    /// Nearest point of the first of the two, mm, body axes.
    pub on_first: Point3<f64>,
    /// Nearest point of the second, mm, body axes.
    pub on_second: Point3<f64>,
}

/// The room of one pair at a pose; `None` where numbers that it needs are not stated.
#[must_use]
pub fn clearance(rest: &Rest, pose: &Pose, pair: Pair) -> Option<Gap> {
    Shapes::of(rest).gap(rest, pose, pair)
}

/// The room at a pose of every pair that can be computed, in the order of [`Pair::ALL`].
#[must_use]
pub fn clearances(rest: &Rest, pose: &Pose) -> Vec<Gap> {
    let shapes = Shapes::of(rest);
    Pair::ALL.iter().filter_map(|pair| shapes.gap(rest, pose, *pair)).collect()
}

/// The shapes of a truck that do not change with the pose.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Shapes {
    /// The tire, the tire about its rim, and the rim's barrel, at no place yet.
    tire: TireSolid,
    ring: Ring,
    barrel: Option<Ring>,
    rail: Block,
    fender: Segment,
    thickness: Thickness,
    /// Where the strut rod is bolted, in the lower arm's member frame.
    strut: Option<Vector3<f64>>,
    nut_mm: Option<f64>,
    brake: Brake,
    face_mm: f64,
}

/// By its pivots an arm is always near to what carries it: as far as this share
/// of the way to the ball it is not held against the frame.
const INNER_SHARE: f64 = 1.0 / 3.0;
/// The part of a lower arm that can come into the wheel begins here.
const OUTER_SHARE: f64 = 0.5;

impl Shapes {
    pub(crate) fn of(rest: &Rest) -> Self {
        let fitted = &rest.fitted;
        let truck = &fitted.measured;
        let tire = TireSolid::of(fitted, &rest.pose);
        Self {
            tire,
            ring: tire_ring(&tire, bead_seat_mm(fitted.tire.size.rim_code) / 2.0),
            barrel: fitted.wheel.barrel_mm.map(|inside| barrel(inside, fitted.wheel.rim_width_mm)),
            rail: rail_box(truck),
            fender: fender_lip(truck),
            thickness: truck.thickness,
            strut: truck.strut.arm.stated().and_then(|point| on_lower_arm(fitted, &point)),
            nut_mm: truck.low.nut_mm,
            brake: fitted.brake,
            face_mm: fitted.wheel.offset_mm,
        }
    }

    /// The room of a pair; `None` where numbers that it needs are not stated.
    pub(crate) fn gap(&self, rest: &Rest, pose: &Pose, pair: Pair) -> Option<Gap> {
        let ring = Ring { centre: pose.wheel_centre, spin: pose.spin, ..self.ring };
        let mounts = rest.corner.mounts();
        let upper = [mounts.upper.front, mounts.upper.rear].map(|from| Segment { from, to: pose.upper_ball });
        // The arm's own bushing first.
        let (own, other) =
            rest.fitted.measured.bushings(&mounts.lower).unwrap_or((mounts.lower.rear, mounts.lower.front));
        let pivots = [own, other];
        let lower = pivots.map(|from| Segment { from, to: pose.lower_ball });
        // With a strut rod the lower arm is a single beam from its own bushing.
        let lower = if self.strut.is_some() { &lower[..1] } else { &lower[..] };
        let thick = &self.thickness;
        let (touch, round_mm) = match pair {
            Pair::TireRail | Pair::TireFender => {
                let tire = TireSolid { centre: pose.wheel_centre, spin: pose.spin, ..self.tire };
                let closest = match pair {
                    Pair::TireRail => tire.to_block(&self.rail),
                    _ => tire.to_segment(&self.fender),
                };
                let (on_first, on_second) = (closest.on_tire, closest.on_other);
                return Some(Gap { pair, distance_mm: closest.distance_mm, on_first, on_second });
            }
            Pair::RimCaliper => return self.caliper(pose),
            Pair::TireUpperArm => (nearest(&upper, 0.0, |leg| ring.to_segment(leg))?, thick.upper_arm_mm?),
            Pair::TireLowerArm => (nearest(lower, 0.0, |leg| ring.to_segment(leg))?, thick.lower_arm_mm?),
            Pair::TireTieRod => {
                let rod = Segment { from: pose.tie_inner, to: pose.tie_outer };
                (ring.to_segment(&rod), thick.tie_rod_mm?)
            }
            Pair::TireStrutRod => (ring.to_segment(&self.strut_rod(rest, pose)?), thick.strut_rod_mm?),
            Pair::RimLowerJoint => {
                let stud = Segment { from: pose.lower_ball, to: self.nut(pose)? };
                (self.barrel(pose)?.to_segment(&stud), 0.0)
            }
            Pair::RimLowerArm => {
                let barrel = self.barrel(pose)?;
                (nearest(lower, OUTER_SHARE, |leg| barrel.to_segment(leg))?, thick.lower_arm_mm?)
            }
            Pair::RimSteeringArm => {
                let axis = &pose.knuckle.along;
                let foot = pose.lower_ball + axis * (pose.tie_outer - pose.lower_ball).dot(axis);
                let arm = Segment { from: foot, to: pose.tie_outer };
                (self.barrel(pose)?.to_segment(&arm), thick.tie_rod_mm?)
            }
            Pair::RimTieRod => {
                let rod = Segment { from: pose.tie_outer, to: pose.tie_inner };
                (self.barrel(pose)?.to_segment(&rod), thick.tie_rod_mm?)
            }
            Pair::UpperArmRail => {
                (nearest(&upper, INNER_SHARE, |leg| self.rail.to_segment(leg))?, thick.upper_arm_mm?)
            }
            Pair::LowerArmRail => {
                (nearest(lower, INNER_SHARE, |leg| self.rail.to_segment(leg))?, thick.lower_arm_mm?)
            }
        };
        let ends = [touch.on_solid(), touch.at - touch.outward * round_mm];
        let [on_first, on_second] = match pair {
            // Of these the solid is the second.
            Pair::UpperArmRail | Pair::LowerArmRail => [ends[1], ends[0]],
            _ => ends,
        };
        Some(Gap { pair, distance_mm: touch.distance_mm - round_mm, on_first, on_second })
    }

    /// The rim's barrel where the wheel is.
    fn barrel(&self, pose: &Pose) -> Option<Ring> {
        Some(Ring { centre: pose.wheel_centre, spin: pose.spin, ..self.barrel? })
    }

    /// The caliper is bolted to the knuckle about the wheel's own axis: what is
    /// left of the barrel's radius where the two stand side by side.
    fn caliper(&self, pose: &Pose) -> Option<Gap> {
        let (barrel, brake) = (self.barrel(pose)?, &self.brake);
        let ends = (self.face_mm - brake.caliper_in_mm?, self.face_mm - brake.caliper_out_mm?);
        let (inboard, outboard) = (ends.0.min(ends.1), ends.0.max(ends.1));
        let (low, high) = barrel.along_mm;
        // Inboard of the rim it is the rim's edge that is nearest.
        let along = inboard.midpoint(outboard).clamp(low, high).clamp(inboard, outboard);
        let up = -pose.down_in_wheel();
        let on_second = pose.wheel_centre + pose.spin * along + up * brake.caliper_radius_mm?;
        let touch = barrel.to_point(&on_second);
        let beside = inboard < high && low < outboard;
        let radial = barrel.radii_mm.0 - brake.caliper_radius_mm?;
        Some(Gap {
            pair: Pair::RimCaliper,
            distance_mm: if beside { radial } else { touch.distance_mm },
            on_first: if beside { on_second + up * radial } else { touch.on_solid() },
            on_second,
        })
    }

    /// The nut of the lower ball, on the steering axis.
    pub(crate) fn nut(&self, pose: &Pose) -> Option<Point3<f64>> {
        Some(pose.lower_ball - pose.knuckle.along * self.nut_mm?)
    }

    /// The strut rod, from the arm to its bushing on the frame.
    pub(crate) fn strut_rod(&self, rest: &Rest, pose: &Pose) -> Option<Segment> {
        let from = rest.corner.lower_arm(pose).carry(&self.strut?);
        let (_, to) = rest.fitted.measured.bushings(&rest.corner.mounts().lower)?;
        Some(Segment { from, to })
    }
}

/// The tire about its rim, at no place yet: arms and rods reach into its hole.
fn tire_ring(tire: &TireSolid, bead_mm: f64) -> Ring {
    let (half, low, high) = (tire.half_width_mm, bead_mm.min(tire.radius_mm - 1.0), tire.radius_mm);
    let round_mm = tire.shoulder_mm.min(half).min((high - low) / 2.0);
    Ring {
        centre: tire.centre,
        spin: tire.spin,
        along_mm: (round_mm - half, half - round_mm),
        radii_mm: (low + round_mm, high - round_mm),
        round_mm,
    }
}

/// The rim's barrel, open inboard, at no place yet.
fn barrel(inside_mm: f64, rim_width_mm: f64) -> Ring {
    Ring {
        centre: Point3::origin(),
        spin: Vector3::y(),
        along_mm: (-rim_width_mm / 2.0, rim_width_mm / 2.0),
        // The tire is beyond: nothing comes out there.
        radii_mm: (inside_mm, inside_mm + 1000.0),
        round_mm: 0.0,
    }
}

/// The nearest of an arm's legs, from a share of its way to the ball.
fn nearest(legs: &[Segment], share: f64, to: impl Fn(&Segment) -> Touch) -> Option<Touch> {
    let outer = |leg: &Segment| Segment { from: leg.from + (leg.to - leg.from) * share, to: leg.to };
    legs.iter().map(|leg| to(&outer(leg))).reduce(Touch::nearer)
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
pub fn fender_lip(truck: &Truck) -> Segment {
    let fender = &truck.body.fender;
    let x = truck.points.wheel_centre.x;
    let end = |way: f64| Point3::new(x + way * fender.half_length_mm, fender.lip_y_mm, fender.lip_z_mm);
    Segment { from: end(-1.0), to: end(1.0) }
}
