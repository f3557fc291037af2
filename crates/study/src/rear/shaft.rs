//! The drive shaft and the angles of its two joints.
//!
//! Output and pinion lie along the truck; the shaft may run to the side of the front joint, as far
//! as was measured. A shaft in two pieces is not judged: its center bearing is not known here.

use super::RearRest;
use truck::{RearAxle, RearField};

/// The swing of a shaft's speed that is let pass, as the acceleration ω² θ² of what it turns, ω being its
/// speed and θ the joint's angle, rad/s².
///
/// # Source
/// The table of the Universal Joint and Driveshaft Design Manual (SAE AE-7) as quoted: two joints at
/// 1500 turns a minute, 7.3° where the front one is straight; (1500 · 2π/60)² (7.3°)² is 400.
pub const SWING_LIMIT_RAD_PER_S2: f64 = 400.0;

/// What is said of joints that keep the rules.
pub(crate) const WITHIN: &str = "within the three rules";
/// And of those that do not.
const TOO_STEEP: &str = "a joint over 3°";
const APART: &str = "joints more than 1° apart";
const TOO_STRAIGHT: &str = "a joint under 1/2°";

/// The trade's rules: no joint over this, degrees.
const STEEPEST_DEG: f64 = 3.0;
/// Joints no more apart than this, degrees.
const FARTHEST_APART_DEG: f64 = 1.0;
/// No joint under this, degrees.
const STRAIGHTEST_DEG: f64 = 0.5;
/// What an angle is kept in, degrees: no rule is broken by less.
const KEPT_DEG: f64 = 0.01;

/// The shaft as it lies. Slopes are + where it falls to the rear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shaft {
    /// The transmission's output.
    pub output_rad: f64,
    /// The pinion.
    pub pinion_rad: f64,
    /// From the front joint to the rear one: to the rear, to the side, down, mm.
    pub run_mm: [f64; 3],
}

/// What the joints of a shaft make of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joints {
    /// The front joint's angle.
    pub front_rad: f64,
    /// The rear joint's angle.
    pub rear_rad: f64,
    /// The angle of the one joint that would swing the pinion as both together do, yokes in phase.
    pub uneven_rad: f64,
}

impl Shaft {
    /// As measured.
    ///
    /// # Errors
    /// The first number that is not stated.
    pub fn measured(rear: &RearAxle) -> Result<Self, RearField> {
        let number = |field| rear.get(field).ok_or(field);
        let output_rad = number(RearField::FlangeAngle)?;
        let slope = number(RearField::ShaftAngle)?;
        let pinion_rad = number(RearField::PinionAngle)?;
        let length = number(RearField::ShaftLength)?;
        let aside = number(RearField::ShaftAside)?;
        let down = length * linkage::angle::sin(slope);
        let back = (length * length - down * down - aside * aside).max(1.0).sqrt();
        Ok(Self { output_rad, pinion_rad, run_mm: [back, aside, down] })
    }

    /// The same with the axle moved and turned, its rear joint so far from the axle's centre.
    #[must_use]
    pub fn moved(&self, rest: &RearRest, pinion_mm: f64) -> Self {
        let pinion_rad = self.pinion_rad + rest.pinion_up_rad;
        // The joint is ahead of the axle's centre, and above it where the pinion falls to the rear.
        let up = rest.axle_up_mm
            + pinion_mm * (linkage::angle::sin(pinion_rad) - linkage::angle::sin(self.pinion_rad));
        let back = rest.axle_back_mm
            - pinion_mm * (linkage::angle::cos(pinion_rad) - linkage::angle::cos(self.pinion_rad));
        let [was_back, aside, down] = self.run_mm;
        Self { pinion_rad, run_mm: [was_back + back, aside, down - up], ..*self }
    }

    /// From joint to joint, mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        let [back, aside, down] = self.run_mm;
        (back * back + aside * aside + down * down).sqrt()
    }

    /// Its joints.
    ///
    /// # Source
    /// A joint's true angle is that between the two lines. Two joints in phase swing the pinion as
    /// one joint of θ, θ² = |θ₁² e^(2iφ₁) − θ₂² e^(2iφ₂)|, φ being the direction in which each is
    /// bent: where both are bent in one plane, θ² = |θ₁² − θ₂²|.
    #[must_use]
    pub fn joints(&self) -> Joints {
        let [back, aside, down] = self.run_mm;
        let (slope, swerve) = (libm::atan2(down, back), libm::atan2(aside, back));
        // Of each joint, how far it is bent in the side view and seen from above.
        let bends = [[slope - self.output_rad, swerve], [self.pinion_rad - slope, -swerve]];
        let square = |[side, above]: [f64; 2]| (side * side - above * above, 2.0 * side * above);
        let (front, rear) = (square(bends[0]), square(bends[1]));
        Joints {
            front_rad: self.bent(self.output_rad),
            rear_rad: self.bent(self.pinion_rad),
            uneven_rad: linkage::axes::hypotenuse(front.0 - rear.0, front.1 - rear.1).sqrt(),
        }
    }

    /// The true angle between the shaft and a line along the truck that falls to the rear.
    fn bent(&self, falls_rad: f64) -> f64 {
        let [back, aside, down] = self.run_mm;
        let (cos, sine) = (linkage::angle::cos(falls_rad), linkage::angle::sin(falls_rad));
        let along = back * cos + down * sine;
        let across = down * cos - back * sine;
        libm::atan2(linkage::axes::hypotenuse(across, aside), along)
    }
}

impl Joints {
    /// By the trade's three rules: each at least half a degree, both within a degree of each other,
    /// neither over three degrees. A shaft maker's page (seen).
    #[must_use]
    pub fn by_the_rules(&self) -> &'static str {
        let (least, most) = (self.front_rad.min(self.rear_rad), self.front_rad.max(self.rear_rad));
        let over = |rad: f64, degrees: f64| rad.to_degrees() > degrees + KEPT_DEG;
        if over(most, STEEPEST_DEG) {
            TOO_STEEP
        } else if over(most - least, FARTHEST_APART_DEG) {
            APART
        } else if least.to_degrees() <= STRAIGHTEST_DEG - KEPT_DEG {
            TOO_STRAIGHT
        } else {
            WITHIN
        }
    }

    /// How much the pinion's speed swings at a speed of the shaft, against what is let pass.
    #[must_use]
    pub fn swing_share(&self, turns_a_minute: f64) -> f64 {
        let swing = turns_a_minute * std::f64::consts::TAU / 60.0 * self.uneven_rad;
        swing * swing / SWING_LIMIT_RAD_PER_S2
    }
}
