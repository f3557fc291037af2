//! A leaf spring between a fixed eye and a shackle, seen from the side.
//!
//! The main leaf is taken as an arc of a circle whose length stays: under load it flattens, its
//! chord grows and the shackle swings. So the spring has one freedom, its curvature, and everything
//! follows from that in closed form.
//!
//! ```text
//!            H  bolt in its hanger
//!            |  shackle
//!  F ────────┼──── E  the shackle's eye      z up
//!   ╲        |   ╱                           x from the fixed eye towards the shackle
//!     ╲ _____B_╱     B  center bolt
//! ```

use truck::{RearAxle, RearField, RearParts};

/// A half of the arc never opens wider than this, rad: beyond it no leaf is.
const WIDEST_RAD: f64 = 1.5;

/// How often a bend is halved until it is known well enough.
const HALVINGS: u32 = 50;

/// A spring and what it hangs from; the frame's axes, from the fixed eye as measured, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaf {
    /// Along the main leaf from eye to eye.
    pub length_mm: f64,
    /// Along the main leaf from the fixed eye to the centre bolt.
    pub to_bolt_mm: f64,
    /// The fixed eye.
    pub fixed: (f64, f64),
    /// The shackle's bolt in its hanger.
    pub hanger: (f64, f64),
    /// The shackle, bolt to eye.
    pub shackle_mm: f64,
    /// + where the eye is above the line from the fixed eye to the hanger's bolt, − where below.
    pub eye_sign: f64,
}

/// A spring at one curvature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeafPose {
    /// 1 over the radius of the main leaf, + where its middle hangs below its eyes, 1/mm.
    pub curvature: f64,
    /// The shackle's eye.
    pub eye: (f64, f64),
    /// The main leaf at the centre bolt.
    pub bolt: (f64, f64),
    /// How far the leaf rises there towards the shackle, rad.
    pub rise_rad: f64,
    /// Between the shackle and the line of the eyes, rad.
    pub shackle_rad: f64,
    /// Derivative of the bolt's height by curvature, mm².
    bolt_rate: f64,
    /// Derivative of the rise by curvature, mm.
    rise_rate: f64,
}

/// Sine over its angle.
fn sinc(x: f64) -> f64 {
    if x.abs() < 0.03 {
        let square = x * x;
        1.0 - square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0))
    } else {
        linkage::angle::sin(x) / x
    }
}

/// Derivative of [`sinc`] by its angle.
fn sinc_rate(x: f64) -> f64 {
    if x.abs() < 0.03 {
        let square = x * x;
        -x / 3.0 * (1.0 - square / 10.0 * (1.0 - square / 28.0 * (1.0 - square / 54.0)))
    } else {
        (linkage::angle::cos(x) - sinc(x)) / x
    }
}

/// The chord of an arc, mm, and its derivative by curvature, mm².
fn chord(length_mm: f64, curvature: f64) -> (f64, f64) {
    let half_mm = length_mm / 2.0;
    let x = curvature * half_mm;
    (length_mm * sinc(x), length_mm * half_mm * sinc_rate(x))
}

/// The arc over a chord at a curvature; `None` where there is none.
fn arc(chord_mm: f64, curvature: f64) -> Option<f64> {
    let half = curvature * chord_mm / 2.0;
    if half.abs() >= 1.0 {
        return None;
    }
    let angle = linkage::angle::asin(half);
    Some(chord_mm / sinc(angle))
}

impl Leaf {
    /// A spring from its numbers as measured, and its curvature there.
    ///
    /// # Errors
    /// The first number that is not stated; `None` where the numbers are no spring between two eyes.
    pub fn measured(rear: &RearAxle) -> Result<(Self, f64), Option<RearField>> {
        let number = |field| rear.get(field).ok_or(Some(field));
        let (span, part) = (number(RearField::Span)?, number(RearField::FixedPart)?);
        let depth = number(RearField::Arch)?;
        let fixed_z = number(RearField::FixedEye)?;
        let up = number(RearField::ShackleEye)? - fixed_z;
        let hanger_up = number(RearField::HangerBolt)? - fixed_z;
        let beyond = number(RearField::EyeBeyond)?;
        let along = part * part - depth * depth;
        let level = span * span - up * up;
        if along <= 0.0 || level <= 0.0 {
            return Err(None);
        }
        // Circle through both eyes and the bolt, which is `depth` under their line:
        // 1/R from the three points, by hand.
        let (along, level) = (along.sqrt(), level.sqrt());
        if along >= span {
            return Err(None);
        }
        let flat = span * along - along * along - depth * depth;
        let curvature = 2.0 * depth / linkage::axes::hypotenuse(span * depth, flat);
        let hanger = (level - beyond, hanger_up);
        let eye = (level, up);
        let shackle_mm = linkage::axes::hypotenuse(beyond, up - hanger_up);
        let eye_side = hanger.0 * eye.1 - hanger.1 * eye.0;
        let arcs = arc(span, curvature).zip(arc(part, curvature)).filter(|_| flat > 0.0);
        let (length_mm, to_bolt_mm) = arcs.ok_or(None)?;
        if shackle_mm < 1.0 || eye_side == 0.0 {
            return Err(None);
        }
        let eye_sign = if eye_side > 0.0 { 1.0 } else { -1.0 };
        Ok((Self { length_mm, to_bolt_mm, fixed: (0.0, 0.0), hanger, shackle_mm, eye_sign }, curvature))
    }

    /// The same spring on other hangers and another shackle; `None` where the shackle is shortened away.
    #[must_use]
    pub fn hung(&self, parts: &RearParts) -> Option<Self> {
        let shackle_mm = self.shackle_mm + parts.shackle_longer_mm;
        let fixed = (self.fixed.0, self.fixed.1 + parts.fixed_up_mm);
        let hanger = (self.hanger.0 + parts.bolt_away_mm, self.hanger.1 + parts.bolt_up_mm);
        (shackle_mm >= 1.0).then_some(Self { shackle_mm, fixed, hanger, ..*self })
    }

    /// How far the bolt is below the line of the eyes, mm.
    #[must_use]
    pub fn depth_mm(&self, curvature: f64) -> f64 {
        chord(self.to_bolt_mm, curvature).0
            * linkage::angle::sin(curvature * (self.length_mm - self.to_bolt_mm) / 2.0)
    }

    /// The spring at a curvature; `None` where its shackle does not reach, or no leaf bends so far.
    #[must_use]
    pub fn pose(&self, curvature: f64) -> Option<LeafPose> {
        let half_rad = curvature * self.length_mm / 2.0;
        if half_rad.is_nan() || half_rad.abs() > WIDEST_RAD {
            return None;
        }
        let (span, span_rate) = chord(self.length_mm, curvature);
        let (part, part_rate) = chord(self.to_bolt_mm, curvature);
        let to_hanger = (self.hanger.0 - self.fixed.0, self.hanger.1 - self.fixed.1);
        let apart = linkage::axes::hypotenuse(to_hanger.0, to_hanger.1);
        // The eye is on a circle about each bolt: the angle at the fixed eye by its half, from the three
        // sides, which keeps its digits where the shackle is nearly straight.
        let shackle_mm = self.shackle_mm;
        let near = (shackle_mm - span + apart) * (shackle_mm + span - apart);
        let far = (span + apart - shackle_mm) * (span + apart + shackle_mm);
        if near.is_nan() || near <= 0.0 || far <= 0.0 {
            return None;
        }
        let apex_rad = 2.0 * libm::atan2(near.sqrt(), far.sqrt());
        let line_rad = libm::atan2(to_hanger.1, to_hanger.0) + self.eye_sign * apex_rad;
        let (sine, cos) = (linkage::angle::sin(line_rad), linkage::angle::cos(line_rad));
        let eye = (self.fixed.0 + span * cos, self.fixed.1 + span * sine);
        let shackle = (eye.0 - self.hanger.0, eye.1 - self.hanger.1);
        // The shackle's length stays: its end moves square to it.
        let along = shackle.0 * cos + shackle.1 * sine;
        let across = shackle.1 * cos - shackle.0 * sine;
        let line_rate = -span_rate * along / (span * across);
        let behind_mm = self.length_mm - self.to_bolt_mm;
        let bolt_rad = line_rad - curvature * behind_mm / 2.0;
        let bolt_sine = linkage::angle::sin(bolt_rad);
        let bolt = (self.fixed.0 + part * linkage::angle::cos(bolt_rad), self.fixed.1 + part * bolt_sine);
        let turn = self.to_bolt_mm - self.length_mm / 2.0;
        Some(LeafPose {
            curvature,
            eye,
            bolt,
            rise_rad: line_rad + curvature * turn,
            shackle_rad: libm::atan2(across.abs(), -along),
            bolt_rate: part_rate * bolt_sine
                + part * linkage::angle::cos(bolt_rad) * (line_rate - behind_mm / 2.0),
            rise_rate: line_rate + turn,
        })
    }

    /// The shackle's angle once the axle has gone up from a pose by so much, − down, rad: 0 where it folds
    /// back over its spring before that, π where it is pulled straight.
    ///
    /// A flat leaf is the longest: where the arch turns over on the way, it is the angle there, which leans
    /// farthest. An axle within some millimetres of the lowest that its shackle lets it hang folds it back.
    ///
    /// # Accuracy
    /// Of a curvature that is halved upon fifty times, a micrometre of the axle's height; straight is met
    /// within 1e-5 rad.
    #[must_use]
    pub fn shackle_after(&self, from: &LeafPose, seat_mm: f64, up_mm: f64) -> f64 {
        let target_mm = from.axle(seat_mm).1 + up_mm;
        let widest = 2.0 * WIDEST_RAD / self.length_mm;
        // A leaf is lifted as it flattens, by no more than to flat where that is on its way.
        let mut end = if up_mm <= 0.0 {
            widest
        } else if from.curvature > 0.0 {
            0.0
        } else {
            -widest
        };
        let mut last = *from;
        for _ in 0..HALVINGS {
            let half = f64::midpoint(last.curvature, end);
            match self.pose(half) {
                Some(pose) if (target_mm - pose.axle(seat_mm).1) * up_mm > 0.0 => last = pose,
                _ => end = half,
            }
        }
        last.shackle_rad
    }

    /// The curvature at which the shackle is pulled straight as the spring flattens; `None` where it
    /// flattens before that.
    #[must_use]
    pub fn straight(&self) -> Option<f64> {
        let apart = linkage::axes::hypotenuse(self.hanger.0 - self.fixed.0, self.hanger.1 - self.fixed.1);
        let longest = apart + self.shackle_mm;
        if longest >= self.length_mm {
            return None;
        }
        let over = |curvature: f64| Some(chord(self.length_mm, curvature).0 - longest);
        linkage::root::bracketed(over, 0.0, 2.0 * WIDEST_RAD / self.length_mm, 1e-15)
    }
}

impl LeafPose {
    /// The axle's centre, `seat_mm` below the main leaf and square to it.
    #[must_use]
    pub fn axle(&self, seat_mm: f64) -> (f64, f64) {
        let (sine, cos) = (linkage::angle::sin(self.rise_rad), linkage::angle::cos(self.rise_rad));
        (self.bolt.0 + seat_mm * sine, self.bolt.1 - seat_mm * cos)
    }

    /// Derivative of the axle's height by curvature, mm².
    #[must_use]
    pub fn axle_rate(&self, seat_mm: f64) -> f64 {
        self.bolt_rate + seat_mm * linkage::angle::sin(self.rise_rad) * self.rise_rate
    }
}
