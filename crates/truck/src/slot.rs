//! Where a number of a table stands in what the table is of.

/// One that must be there, or one that may be left open.
pub(crate) trait Slot {
    /// The number; `None` where it is open.
    fn get(&self) -> Option<f64>;
    /// Puts a number, or leaves it open where it may be.
    fn put(&mut self, value: Option<f64>);
}

impl Slot for f64 {
    fn get(&self) -> Option<f64> {
        Some(*self)
    }

    fn put(&mut self, value: Option<f64>) {
        *self = value.unwrap_or(*self);
    }
}

impl Slot for Option<f64> {
    fn get(&self) -> Option<f64> {
        *self
    }

    fn put(&mut self, value: Option<f64>) {
        *self = value;
    }
}
