//! What is written and marked on pictures of any truck.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod labels;
mod marks;
mod taped;
mod whole_truck;

use drawing::{Units, View, Zoom};

/// A picture of a size with nothing over it, in inches.
fn view(width_px: f64, height_px: f64) -> View {
    View {
        width_px,
        height_px,
        type_px: 13.0,
        units: Units::Inches,
        prefix: "test".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    }
}
