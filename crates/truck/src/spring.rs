//! Springs: their rates and stresses by the book, and which arm carries them.

use crate::choice::{BlindTooth, CoilEnds};
use linkage::Point3;
use std::f64::consts::PI;

/// An arm of the corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Arm {
    /// Lower arm.
    Lower,
    /// Upper arm.
    Upper,
}

/// What holds the corner up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SpringKind {
    /// A torsion bar along the arm's pivot axis.
    TorsionBar,
    /// A coil between the arm and the body.
    Coil,
    /// A rate at the wheel, for whom nothing more is known.
    WheelRate,
}

/// The spring of a corner. The numbers of the kinds not in use are kept, so
/// that a look at another kind loses nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spring {
    /// The kind in use.
    pub kind: SpringKind,
    /// The arm that carries it.
    pub arm: Arm,
    /// Torsion bar.
    pub bar: Bar,
    /// Coil.
    pub coil: Coil,
    /// Rate at the wheel, N/mm.
    pub wheel_rate_n_per_mm: f64,
    /// Shear modulus of the bar's or the coil's steel, N/mm².
    pub shear_modulus_n_per_mm2: f64,
}

impl Spring {
    /// Torque of the bar for a radian of twist, N·mm/rad: `π d⁴ G / 32 L`.
    ///
    /// # Source
    /// Gere, *Mechanics of Materials*, torsion of solid bars.
    #[must_use]
    pub fn bar_rate(&self) -> f64 {
        let d2 = self.bar.diameter_mm * self.bar.diameter_mm;
        PI * d2 * d2 * self.shear_modulus_n_per_mm2 / (32.0 * self.bar.length_mm)
    }

    /// Force of the coil for a millimetre, N/mm: `G d⁴ / 8 D³ N`.
    ///
    /// # Source
    /// Shigley, *Mechanical Engineering Design*, helical springs.
    #[must_use]
    pub fn coil_rate(&self) -> f64 {
        let Coil { wire_mm: d, mean_mm: m, active, .. } = self.coil;
        self.shear_modulus_n_per_mm2 * d * d * d * d / (8.0 * m * m * m * active)
    }
}

/// A torsion bar, its anchor lever and the lever's bolt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Diameter of the twisting part, mm.
    pub diameter_mm: f64,
    /// Length of the twisting part, mm.
    pub length_mm: f64,
    /// The anchor lever, from the bar's centre to where the bolt pushes, mm.
    pub lever_mm: f64,
    /// Between lever and bolt, rad; a right angle pushes best.
    pub lever_angle_rad: f64,
    /// Pitch of the bolt's thread, mm a turn.
    pub thread_pitch_mm: f64,
    /// Turns the bolt can still go in.
    pub turns_in: f64,
    /// Turns the bolt can still come out.
    pub turns_out: f64,
    /// Splines of the end in the anchor.
    pub splines_anchor: Option<f64>,
    /// Splines of the end in the arm.
    pub splines_arm: Option<f64>,
    /// Whether a blind tooth lets the bar's end into the anchor in one way only.
    pub blind_anchor: Option<BlindTooth>,
    /// The same of its end in the arm.
    pub blind_arm: Option<BlindTooth>,
    /// Shear stress that the bar may bear, N/mm².
    pub allowable_n_per_mm2: Option<f64>,
    /// How far the bar points inward to the rear, rad; open, it lies along its arm's pivot axis.
    pub inward_rad: Option<f64>,
    /// How far the bar points down to the rear, rad; open, it lies along its arm's pivot axis.
    pub downward_rad: Option<f64>,
}

impl Bar {
    /// Splines of the end in the anchor and of the end in the arm, where the bar can be put
    /// over there: their number is stated, and no blind tooth is.
    #[must_use]
    pub fn open_splines(&self) -> [Option<f64>; 2] {
        [(self.splines_anchor, self.blind_anchor), (self.splines_arm, self.blind_arm)]
            .map(|(count, blind)| count.filter(|_| blind != Some(BlindTooth::Yes)))
    }

    /// Whether a blind tooth is stated at either end.
    #[must_use]
    pub fn has_blind_tooth(&self) -> bool {
        [self.blind_anchor, self.blind_arm].contains(&Some(BlindTooth::Yes))
    }

    /// The turn of the anchor for `turns` of the bolt, + in, rad.
    ///
    /// The bolt's end goes along its own line, which passes the bar's centre at
    /// `lever · sin(angle)`; the lever, flat and pointing at that centre, follows
    /// it. No turns are no turn, to the bit.
    #[must_use]
    pub fn anchor_turn_rad(&self, turns: f64) -> f64 {
        let (sin, cos) = linkage::angle::sincos(self.lever_angle_rad);
        let push_mm = turns * self.thread_pitch_mm;
        libm::atan2(push_mm * sin, self.lever_mm - push_mm * cos)
    }

    /// The turns of the bolt that turn the anchor by an angle, + in; `None`
    /// where the bolt's end never gets there. Undoes [`Bar::anchor_turn_rad`].
    #[must_use]
    pub fn turns_for(&self, anchor_turn_rad: f64) -> Option<f64> {
        // Law of sines in the triangle of lever, bolt and the turned lever's line.
        let third = linkage::angle::sin(self.lever_angle_rad + anchor_turn_rad);
        let turns = self.lever_mm * linkage::angle::sin(anchor_turn_rad) / third / self.thread_pitch_mm;
        (third > 1e-6 && anchor_turn_rad.abs() < PI / 2.0).then_some(turns)
    }

    /// Shear stress at the bar's skin under `torque` N·mm, N/mm²: `16 T / π d³`.
    ///
    /// # Source
    /// Gere, *Mechanics of Materials*, torsion of solid bars.
    #[must_use]
    pub fn stress_n_per_mm2(&self, torque_n_mm: f64) -> f64 {
        16.0 * torque_n_mm / (PI * self.diameter_mm * self.diameter_mm * self.diameter_mm)
    }
}

/// A coil spring and its seats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Wire, mm.
    pub wire_mm: f64,
    /// Mean diameter of the coil, mm.
    pub mean_mm: f64,
    /// Active coils.
    pub active: f64,
    /// From one coil to the next with the truck at rest as measured, mm.
    pub loaded_pitch_mm: f64,
    /// Middle of the seat on the arm as measured, mm, body axes.
    pub arm_seat: Point3<f64>,
    /// Middle of the seat on the body, mm, body axes.
    pub body_seat: Point3<f64>,
    /// How its ends are made.
    pub ends: Option<CoilEnds>,
    /// Shear stress that the coil may bear, N/mm².
    pub allowable_n_per_mm2: Option<f64>,
}

impl Coil {
    /// Mean diameter over wire, `C`.
    #[must_use]
    pub fn index(&self) -> f64 {
        self.mean_mm / self.wire_mm
    }

    /// Length with every coil touching the next, mm, where its ends are known.
    ///
    /// # Source
    /// Shigley, *Mechanical Engineering Design*, table of compression-spring
    /// ends: plain `d(N+1)`, plain and ground `d(N+1)`, closed `d(N+3)`, closed
    /// and ground `d(N+2)`, with `N` active coils (from memory).
    #[must_use]
    pub fn solid_mm(&self) -> Option<f64> {
        let more = match self.ends? {
            CoilEnds::Plain | CoilEnds::PlainGround => 1.0,
            CoilEnds::Closed => 3.0,
            CoilEnds::ClosedGround => 2.0,
        };
        Some(self.wire_mm * (self.active + more))
    }

    /// Wahl's factor for curvature and direct shear.
    ///
    /// # Source
    /// Wahl, *Mechanical Springs*: `(4C − 1)/(4C − 4) + 0.615/C`.
    #[must_use]
    pub fn wahl_factor(&self) -> f64 {
        let c = self.index();
        (4.0 * c - 1.0) / (4.0 * c - 4.0) + 0.615 / c
    }

    /// Bergsträsser's factor, `(4C + 2)/(4C − 3)`.
    ///
    /// # Source
    /// Shigley, *Mechanical Engineering Design*, helical springs.
    #[must_use]
    pub fn bergstrasser_factor(&self) -> f64 {
        let c = self.index();
        (4.0 * c + 2.0) / (4.0 * c - 3.0)
    }

    /// Shear stress in the wire under `force` N, with Wahl's factor, N/mm².
    #[must_use]
    pub fn stress_n_per_mm2(&self, force_n: f64) -> f64 {
        let d = self.wire_mm;
        self.wahl_factor() * 8.0 * force_n * self.mean_mm / (PI * d * d * d)
    }
}
