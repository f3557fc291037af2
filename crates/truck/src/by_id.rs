//! Numbers by the ids of what they are, whatever table those are of.

/// Numbers in the core's unit, each id once, in the order of the ids. A list: it is short, and a map is
/// several kilobytes to download; of ids and not of what has them, since then it is compiled once.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct ById(Vec<(u8, f64)>);

impl ById {
    pub(crate) const NONE: Self = Self(Vec::new());

    /// Those of a list that is in the order of the ids.
    pub(crate) fn of(numbers: impl Iterator<Item = (u8, f64)>) -> Self {
        Self(numbers.collect())
    }

    pub(crate) const fn len(&self) -> usize {
        self.0.len()
    }

    #[inline(never)]
    pub(crate) fn get(&self, id: u8) -> Option<f64> {
        self.0.iter().find(|(other, _)| *other == id).map(|(_, value)| *value)
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (u8, f64)> {
        self.0.iter().copied()
    }

    /// Puts a number, or takes it out.
    #[inline(never)]
    pub(crate) fn set(&mut self, id: u8, value: Option<f64>) {
        self.0.retain(|(other, _)| *other != id);
        if let Some(value) = value {
            let at = self.0.iter().take_while(|(other, _)| *other < id).count();
            self.0.insert(at, (id, value));
        }
    }
}
