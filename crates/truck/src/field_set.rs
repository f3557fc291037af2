//! A set of the truck's numbers.

use crate::field::Field;

/// A set of [`Field`]s: a bit for each id, so that it is copied and compared at no cost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct FieldSet([u64; 4]);

impl FieldSet {
    /// No number.
    pub const EMPTY: Self = Self([0; 4]);

    /// Whether nothing is in it.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self == Self::EMPTY
    }

    /// How many numbers are in it.
    #[must_use]
    pub fn len(self) -> u32 {
        self.0.into_iter().map(u64::count_ones).sum()
    }

    /// Whether a number is in it.
    #[must_use]
    pub fn contains(self, field: Field) -> bool {
        let (word, bit) = place(field);
        self.0[word] & bit != 0
    }

    /// Puts a number in.
    pub fn insert(&mut self, field: Field) {
        let (word, bit) = place(field);
        self.0[word] |= bit;
    }

    /// Takes a number out.
    pub fn remove(&mut self, field: Field) {
        let (word, bit) = place(field);
        self.0[word] &= !bit;
    }

    /// What is in either.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self(std::array::from_fn(|word| self.0[word] | other.0[word]))
    }

    /// What is in both.
    #[must_use]
    pub fn intersection(self, other: Self) -> Self {
        Self(std::array::from_fn(|word| self.0[word] & other.0[word]))
    }

    /// What is in it, in the order of [`Field::ALL`].
    pub fn iter(self) -> impl Iterator<Item = Field> {
        Field::ALL.iter().copied().filter(move |field| self.contains(*field))
    }
}

impl FromIterator<Field> for FieldSet {
    fn from_iter<T: IntoIterator<Item = Field>>(fields: T) -> Self {
        let mut set = Self::default();
        for field in fields {
            set.insert(field);
        }
        set
    }
}

/// The word of an id, and its bit in that word.
const fn place(field: Field) -> (usize, u64) {
    let id = field.id();
    ((id >> 6) as usize, 1 << (id & 63))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_put_in_is_in_it_and_nothing_else() {
        for field in Field::ALL.iter().copied() {
            let set = FieldSet::from_iter([field]);
            assert_eq!((set.iter().collect::<Vec<_>>(), set.len()), (vec![field], 1));
            let mut without: FieldSet = Field::ALL.iter().copied().collect();
            without.remove(field);
            assert!(!without.contains(field) && without.len() as usize == Field::ALL.len() - 1);
        }
    }

    #[test]
    fn unions_and_intersections_are_those_of_sets() {
        let set = |fields: &[Field]| fields.iter().copied().collect::<FieldSet>();
        let (arms, toe) =
            (set(&[Field::LowerFrontZ, Field::UpperRearZ, Field::Toe]), set(&[Field::Toe, Field::BedBehind]));
        assert_eq!(
            arms.union(toe),
            set(&[Field::Toe, Field::BedBehind, Field::LowerFrontZ, Field::UpperRearZ])
        );
        assert_eq!(arms.intersection(toe), set(&[Field::Toe]));
        assert!(arms.intersection(set(&[Field::BedLoad])).is_empty());
    }
}
