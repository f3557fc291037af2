//! Left and right, where they differ.

use crate::by_id::ById;
use crate::field::Field;

/// A side of the truck, as its driver has it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// The side that the truck's numbers are measured at.
    #[default]
    Left,
    /// The other one.
    Right,
}

impl Side {
    /// Both sides.
    pub const ALL: [Self; 2] = [Self::Left, Self::Right];

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Left => "Left",
            Self::Right => "Right",
        }
    }

    /// The side across the truck.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// 1 at the left; −1 at the right, whose corner is mirrored: what turns or goes
    /// to the left there is to the right in its own axes.
    #[must_use]
    pub const fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Right => -1.0,
        }
    }
}

/// The numbers that were measured at the right on their own, each once, in the
/// core's unit and in the order of the fields' ids.
///
/// What stands here stays when the left's is corrected, even where the two are
/// equal for a while.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RightNumbers(ById);

impl RightNumbers {
    /// None: the right is the left's mirror.
    pub(crate) const NONE: Self = Self(ById::NONE);

    /// Whether the right is the left's mirror.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.len() == 0
    }

    /// A number of the right; `None` where it is as the left's.
    #[must_use]
    pub fn get(&self, field: Field) -> Option<f64> {
        self.0.get(field.id())
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = (Field, f64)> {
        self.0.iter().filter_map(|(id, value)| Some((Field::from_id(id)?, value)))
    }

    /// The same as they are kept: each rounded, without what cannot be entered.
    #[must_use]
    pub fn kept(&self) -> Self {
        let mut kept = Self::NONE;
        for (field, value) in self.iter().filter(|(field, _)| field.is_sided()) {
            kept.set(field, field.accept(value));
        }
        kept
    }

    /// Puts another value in place of a number that is there, without checking it: for studies
    /// that ask what another value would do.
    pub fn put(&mut self, field: Field, value: f64) {
        self.set(field, Some(value));
    }

    /// Puts a number without checking it, or takes it out.
    pub(crate) fn set(&mut self, field: Field, value: Option<f64>) {
        self.0.set(field.id(), value);
    }
}
