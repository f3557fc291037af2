//! One number of a change, as the table says it.

use crate::kind::Kind;

/// One number of a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangeNumber {
    /// The name in files.
    pub key: &'static str,
    /// What the forms call it.
    pub label: &'static str,
    /// What sort of number it is.
    pub kind: Kind,
    /// Least and greatest value; mm, degrees or a plain number.
    pub limits: (f64, f64),
    /// Whether it may be left open.
    pub optional: bool,
}
