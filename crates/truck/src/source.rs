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

/// The parts whose points of the linkage stay where they were guessed first, since with them the linkage would not go
/// three inches each way: a bit for the body, the wheel and the hub.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Staying(u8);

impl Staying {
    /// Every set of parts, those that leave the most to follow first.
    pub(crate) const ALL: [Self; 8] =
        [Self(0), Self(4), Self(2), Self(1), Self(6), Self(5), Self(3), Self(7)];

    /// Its code in links and files, 0 to 7; 0 is nothing.
    #[must_use]
    pub const fn code(self) -> u8 {
        self.0
    }

    /// What a code stands for.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.into_iter().find(|staying| staying.0 == code)
    }

    /// Whether a part is one of them, by its bit.
    pub(crate) const fn has(self, bit: u8) -> bool {
        self.0 >> bit & 1 == 1
    }
}
