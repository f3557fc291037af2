//! Curves.

use crate::scene::Scene;
use crate::transform::View;

/// Curves over a common axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// What it shows.
    pub title: String,
    /// The axis across, with its unit.
    pub x_label: String,
    /// The axis upward, with its unit.
    pub y_label: String,
    /// The curves.
    pub series: Vec<Series>,
    /// Stretches of the axis across that are out of reach.
    pub bands: Vec<Band>,
    /// Where on the axis across the reader stands.
    pub cursor_x: Option<f64>,
    /// Numbers of the axis across.
    pub x_format: NumberFormat,
    /// Numbers of the axis upward.
    pub y_format: NumberFormat,
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What the curve is called.
    pub name: String,
    /// Its points, in order.
    pub points: Vec<(f64, f64)>,
    /// How it is drawn.
    pub style: SeriesStyle,
}

/// How a curve is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeriesStyle {
    /// Dashed, grey.
    AsMeasured,
    /// Drawn through; the first of the proposals in the accent, each with a mark of its own.
    Proposal(u8),
}

/// A stretch of the axis across.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Why.
    pub label: String,
}

/// How numbers of an axis are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum NumberFormat {
    /// With a plus where they are positive, as a difference.
    #[default]
    Signed,
    /// Without.
    Plain,
}

/// Curves as a picture.
#[must_use]
pub fn chart(chart: &Chart, view: &View) -> Scene {
    let _ = chart;
    Scene::empty(view)
}
