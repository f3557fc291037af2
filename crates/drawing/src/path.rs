//! Lines and curves.

/// Lines and curves.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// In order.
    pub steps: Vec<Step>,
}

/// A step of a path, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// To a point, without a line.
    Move((f64, f64)),
    /// A straight line to a point.
    Line((f64, f64)),
    /// A parabola: control point, end.
    Curve((f64, f64), (f64, f64)),
    /// A straight line to where the part began.
    Close,
}
