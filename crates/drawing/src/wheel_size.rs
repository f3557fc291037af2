//! The sizes of a wheel with its tire, as every picture draws them.

use truck::{Fitted, rim_mm};

/// A wheel with its tire, mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WheelSize {
    /// Of the tire, unloaded.
    pub(crate) radius: f64,
    pub(crate) half_width: f64,
    /// Radius of the tread's edges.
    pub(crate) shoulder: f64,
    pub(crate) rim_radius: f64,
    pub(crate) half_rim: f64,
    /// Mounting face, outboard of the centre plane.
    pub(crate) offset: f64,
}

impl WheelSize {
    pub(crate) fn of(fitted: &Fitted) -> Self {
        let half_width = fitted.tire.section_on_mm(fitted.wheel.rim_width_mm) / 2.0;
        let radius = fitted.tire.free_radius_mm();
        Self {
            radius,
            half_width,
            shoulder: fitted.tire.shoulder_mm.min(half_width).min(radius / 2.0),
            rim_radius: (rim_mm(fitted.tire.size.rim_code) / 2.0).min(radius - 30.0).max(20.0),
            half_rim: fitted.wheel.rim_width_mm / 2.0,
            offset: fitted.wheel.offset_mm,
        }
    }
}
