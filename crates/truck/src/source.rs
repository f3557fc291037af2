//! Where a number came from.

/// Where a number came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// Measured on the truck.
    Measured,
    /// Read off a part or its data.
    Typed,
    /// Taken as usual for such a truck: no verdict rests on it.
    Assumed,
}
