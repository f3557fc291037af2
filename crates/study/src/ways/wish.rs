//! What is wanted of a way down, and what a loss counts for.

use crate::clearance::TIGHT_MM;

/// What is wanted, and what may not be given up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// How much lower the frame is to stand than as measured, mm.
    pub drop_mm: f64,
    /// How near to that is near enough, mm.
    pub within_mm: f64,
    /// Least bump travel that must be left, whatever ends it, mm.
    pub bump_mm: f64,
    /// Least room of every pair that is known on the way to what ends the bump, from
    /// lock to lock, mm; frame or fender that ends it is met there by right.
    pub room_mm: f64,
    /// Least room of a wheel that turns to what steers, brakes or carries it
    /// ([`crate::Against::Control`]), at any travel between the stops and from lock to lock, mm.
    pub turning_mm: f64,
    /// Whether nothing may hang below the scrub line that did not before.
    pub flat_tire: bool,
    /// Whether camber must come back to as measured with the shims there are.
    pub shims: bool,
    /// Least and greatest ride frequency, Hz.
    pub frequency_hz: (f64, f64),
    /// How far the rear comes down, mm, + down; `None` where that is not stated.
    pub rear_down_mm: Option<f64>,
}

impl Default for Wish {
    /// Two and a half inches, an inch of bump, and nothing that turns nearer than a
    /// quarter inch to what it could jam. Common practice, no source.
    fn default() -> Self {
        Self {
            drop_mm: 63.5,
            within_mm: 3.175,
            bump_mm: 25.4,
            room_mm: 0.0,
            turning_mm: TIGHT_MM,
            flat_tire: true,
            shims: true,
            frequency_hz: (0.8, 1.8),
            rear_down_mm: None,
        }
    }
}

/// What a loss counts for, each for one unit of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// A centimetre of bump travel less than as measured.
    pub bump: f64,
    /// A degree of camber away from as measured.
    pub camber: f64,
    /// A degree of caster away from as measured.
    pub caster: f64,
    /// A tenth of a hertz away from as measured.
    pub frequency: f64,
    /// A part swapped or moved.
    pub part: f64,
    /// A part that cannot be put back: a coil cut, a stop trimmed.
    pub scar: f64,
}

impl Default for Weights {
    /// Even shares for what people name first. Common practice, no source.
    fn default() -> Self {
        Self { bump: 1.0, camber: 1.0, caster: 0.5, frequency: 0.5, part: 0.5, scar: 2.0 }
    }
}
