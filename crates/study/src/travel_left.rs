//! How far the wheel can still go, and what ends it.

use crate::clearance::Pair;
use crate::grid::{Clearances, Found};
use crate::rest::Rest;
use crate::spring_state::on_lower_arm;
use linkage::{Corner, MemberFrame, Point3, Pose, Vector3, axes, root};
use std::fmt;
use truck::{Arm, SpringKind};

/// What ends the travel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limiter {
    /// First touch of the bump stop.
    BumpStop,
    /// The shock is pushed in, or pulled out, as far as it goes.
    Shock,
    /// The coil's turns lie on each other.
    CoilBind,
    /// A ball joint swings no farther.
    Joint(Arm),
    /// Two things meet, at some steer.
    Contact(Pair),
    /// The wheel hangs.
    DroopStop,
}

impl Limiter {
    /// Parts that end the travel by themselves, besides the stops, where their numbers are stated.
    const OF_PARTS: [Self; 4] =
        [Self::Shock, Self::CoilBind, Self::Joint(Arm::Lower), Self::Joint(Arm::Upper)];

    /// What people call it.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::BumpStop => "bump stop",
            Self::Shock => "shock",
            Self::CoilBind => "coil bind",
            Self::Joint(Arm::Lower) => "lower ball joint's swing",
            Self::Joint(Arm::Upper) => "upper ball joint's swing",
            Self::Contact(pair) => pair.label(),
            Self::DroopStop => "droop stop",
        }
    }
}

impl fmt::Display for Limiter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.label())
    }
}

/// How far, and what ends it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Travel from rest, mm, >= 0.
    pub travel_mm: f64,
    /// What ends it.
    pub by: Limiter,
}

/// What is left of the travel at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct TravelLeft {
    /// In bump: the least of all limits, the stop at its first touch.
    pub bump: Limit,
    /// To the first touch of the bump stop, mm; negative where it is already squeezed.
    pub touch_mm: f64,
    /// To the bump stop solid, mm.
    pub solid_mm: f64,
    /// In droop: the least of all limits.
    pub droop: Limit,
    /// To the droop stop, mm.
    pub droop_stop_mm: f64,
    /// Each pair that meets before the stop is solid: the travel at which it
    /// first does, at any steer, mm; zero where it does so at rest.
    pub contacts: Vec<(Pair, f64)>,
    /// Everything that would end the bump before the stop is solid.
    pub bump_limits: Vec<Limit>,
    /// Everything that ends the droop, the stop included.
    pub droop_limits: Vec<Limit>,
}

/// How far the wheel can still go, with contacts from a grid that keeps up with a drag.
#[must_use]
pub fn travel_left(rest: &Rest) -> TravelLeft {
    travel_left_of(rest, &Clearances::of(rest, Clearances::LIVE))
}

/// How far the wheel can still go, with the contacts of a search over travel and steer.
#[must_use]
pub fn travel_left_of(rest: &Rest, clearances: &Clearances) -> TravelLeft {
    let touch_mm = rest.travel_at(rest.stops.touch_rad);
    let solid_mm = rest.travel_at(rest.stops.solid_rad);
    let droop_stop_mm = -rest.travel_at(rest.stops.droop_rad);
    let mut bump_limits = vec![Limit { travel_mm: touch_mm.max(0.0), by: Limiter::BumpStop }];
    let mut droop_limits = vec![Limit { travel_mm: droop_stop_mm.max(0.0), by: Limiter::DroopStop }];
    for by in Limiter::OF_PARTS {
        let reach = Reach::of(rest, by);
        let met = |to_rad: f64, way: f64| {
            let reach = reach.as_ref()?;
            let angle = reach.ends(rest, to_rad, way)?;
            Some(Limit { travel_mm: (rest.travel_at(angle) * way).max(0.0), by })
        };
        bump_limits.extend(met(rest.stops.solid_rad, 1.0));
        droop_limits.extend(met(rest.stops.droop_rad, -1.0));
    }
    let mut contacts = Vec::new();
    for Found { pair, meets_in_bump, meets_in_droop, .. } in &clearances.found {
        let by = Limiter::Contact(*pair);
        if let Some(spot) = meets_in_bump {
            contacts.push((*pair, spot.travel_mm));
            bump_limits.push(Limit { travel_mm: spot.travel_mm.max(0.0), by });
        }
        droop_limits.extend(meets_in_droop.map(|spot| Limit { travel_mm: (-spot.travel_mm).max(0.0), by }));
    }
    let least = |limits: &[Limit]| {
        limits
            .iter()
            .fold(limits[0], |least, limit| if limit.travel_mm < least.travel_mm { *limit } else { least })
    };
    TravelLeft {
        bump: least(&bump_limits),
        touch_mm,
        solid_mm,
        droop: least(&droop_limits),
        droop_stop_mm,
        contacts,
        bump_limits,
        droop_limits,
    }
}

/// What could end the travel of a truck and was not looked at, since a number of it is not stated.
#[must_use]
pub fn limiters_unstated(rest: &Rest) -> Vec<Limiter> {
    let has_it = |by: &Limiter| *by != Limiter::CoilBind || rest.fitted.spring.kind == SpringKind::Coil;
    let is_open = |by: &Limiter| has_it(by) && Reach::of(rest, *by).is_none();
    Limiter::OF_PARTS.iter().copied().filter(is_open).collect()
}

/// What a limiter measures along the travel, and between what it must lie.
enum Reach {
    /// The shock: its mount in the lower arm's member frame, its mount on the body.
    Shock { arm: Vector3<f64>, body: Point3<f64>, short_mm: f64, long_mm: f64 },
    /// The coil: the distance of its seats at which it binds, mm.
    Coil { bind_mm: f64 },
    /// A ball joint: from the angle of its stud to its swing, and its limit each way, rad.
    Joint { arm: Arm, offset_rad: f64, limit_rad: f64 },
}

/// Steps of the arm between rest and a stop in which an end is looked for.
const STEPS: u32 = 6;

impl Reach {
    /// Nothing where a number that it needs is not stated.
    fn of(rest: &Rest, by: Limiter) -> Option<Self> {
        let fitted = &rest.fitted;
        match by {
            Limiter::Shock => {
                let shock = &fitted.shock;
                Some(Self::Shock {
                    arm: on_lower_arm(fitted, &shock.arm.stated()?)?,
                    body: shock.body.stated()?,
                    short_mm: shock.short_mm?,
                    long_mm: shock.long_mm?,
                })
            }
            Limiter::CoilBind if fitted.spring.kind == SpringKind::Coil => {
                Some(Self::Coil { bind_mm: fitted.spring.coil.solid_mm()? + fitted.spacer_mm })
            }
            Limiter::Joint(arm) => {
                let joints = &fitted.measured.joints;
                let swing = if arm == Arm::Lower { joints.lower } else { joints.upper };
                let measured = fitted.measured_corner().ok()?;
                let pose = measured.pose(measured.measured_angle_rad(), Vector3::zeros()).ok()?;
                // The housing sits in the arm's plate, whatever became of the line to its ball.
                let turned = fitted.ball_turn_rad(arm).ok()?;
                let offset_rad = swing.rest_rad? - stud_rad(&measured, &pose, arm) - turned;
                Some(Self::Joint { arm, offset_rad, limit_rad: swing.limit_rad? })
            }
            _ => None,
        }
    }

    /// What is left at an angle of the lower arm on the way to bump, 1, or droop, −1.
    fn remaining(&self, rest: &Rest, angle_rad: f64, way: f64) -> Option<f64> {
        let pose = rest.corner.pose(angle_rad, Vector3::zeros()).ok()?;
        match self {
            Self::Shock { arm, body, short_mm, long_mm } => {
                let length = axes::length(&(rest.corner.lower_arm(&pose).carry(arm) - body));
                Some((length - short_mm).min(long_mm - length))
            }
            Self::Coil { bind_mm } => {
                Some(rest.spring_state.at_pose(&rest.corner, &pose).ok()?.movement - bind_mm)
            }
            Self::Joint { arm, offset_rad, limit_rad } => {
                Some(limit_rad - way * (stud_rad(&rest.corner, &pose, *arm) + offset_rad))
            }
        }
    }

    /// The arm's angle at which nothing is left, between rest and a stop.
    fn ends(&self, rest: &Rest, to_rad: f64, way: f64) -> Option<f64> {
        let from = rest.pose.lower_arm_rad;
        let remaining = |angle: f64| self.remaining(rest, angle, way);
        if remaining(from)? <= 0.0 {
            return Some(from);
        }
        let at = |step: u32| from + (to_rad - from) * f64::from(step) / f64::from(STEPS);
        let step = (1..=STEPS).find(|step| remaining(at(*step)).is_some_and(|remaining| remaining <= 0.0))?;
        root::bracketed(remaining, at(step - 1), at(step), 1e-9)
    }
}

/// The swing of a ball joint at a pose from the middle of its range, + towards
/// bump, rad; `None` where its numbers are not stated. Steering turns the stud
/// about itself and leaves it alone.
#[must_use]
pub fn joint_swing_rad(rest: &Rest, pose: &Pose, arm: Arm) -> Option<f64> {
    match Reach::of(rest, Limiter::Joint(arm))? {
        Reach::Joint { offset_rad, .. } => Some(stud_rad(&rest.corner, pose, arm) + offset_rad),
        _ => None,
    }
}

/// The stud's angle in an arm's own plane of swing: it grows as the arm rises past the knuckle.
fn stud_rad(corner: &Corner, pose: &Pose, arm: Arm) -> f64 {
    let frame: MemberFrame = match arm {
        Arm::Lower => corner.lower_arm(pose),
        Arm::Upper => corner.upper_arm(pose),
    };
    let stud = &pose.knuckle.along;
    libm::atan2(stud.dot(&frame.radial), stud.dot(&frame.across))
}
