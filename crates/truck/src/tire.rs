//! Tires and rims: nominal sizes by the standard, and the solid they fill.

/// A tire's size as its sidewall states it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TireSize {
    /// Section width, whole mm.
    pub section_mm: f64,
    /// Height over width, whole per cent.
    pub aspect_percent: f64,
    /// The rim's diameter code, "inches".
    pub rim_code: f64,
}

impl TireSize {
    /// Section height, mm, rounded half up to the millimetre.
    ///
    /// # Source
    /// ISO 4000-1 and UN Regulation 30: `H = S · aspect / 100` (from memory).
    #[must_use]
    pub fn section_height_mm(&self) -> f64 {
        (self.section_mm * self.aspect_percent / 100.0 + 0.5).floor()
    }

    /// Overall diameter of the unloaded tire, mm: `D = d + 2H`.
    ///
    /// # Source
    /// ISO 4000-1 and UN Regulation 30 (from memory). Real tires run up to 1 % over.
    #[must_use]
    pub fn diameter_mm(&self) -> f64 {
        rim_mm(self.rim_code) + 2.0 * self.section_height_mm()
    }
}

/// The diameter in mm that a rim's code stands for in a tire's nominal size.
///
/// # Source
/// UN Regulation 30, table of rim codes (from memory); elsewhere code × 25.4, rounded.
#[must_use]
pub fn rim_mm(code: f64) -> f64 {
    (code * 25.4 + 0.5).floor()
}

/// A tire on its rim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tire {
    /// Size as on the sidewall.
    pub size: TireSize,
    /// Overall diameter where it was measured, mm; otherwise the size's own.
    pub measured_diameter_mm: Option<f64>,
    /// Radius of the shoulder between tread and sidewall, mm.
    pub shoulder_mm: f64,
}

impl Tire {
    /// Radius of the unloaded tire, mm.
    #[must_use]
    pub fn free_radius_mm(&self) -> f64 {
        self.measured_diameter_mm.unwrap_or_else(|| self.size.diameter_mm()) / 2.0
    }

    /// Width of the section on a rim, mm: it grows by 0.4 of what the rim is
    /// wider than the size's theoretical rim, on which the section has its nominal width.
    ///
    /// # Source
    /// UN Regulation 30, 6.1.1.1: `S = S₁ + 0.4 (A − A₁)`, `A₁ = x S₁`. The maker
    /// states `x`: 0.70, and 0.85 below an aspect of 50 (from memory). A real tire
    /// may be 4 % wider (from memory).
    #[must_use]
    pub fn section_on_mm(&self, rim_width_mm: f64) -> f64 {
        let nominal_mm = self.size.section_mm;
        let share = if self.size.aspect_percent < 50.0 { 0.85 } else { 0.7 };
        nominal_mm + 0.4 * (rim_width_mm - share * nominal_mm)
    }
}
