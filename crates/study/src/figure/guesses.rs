//! A set of guesses: numbers that nobody has measured or read off a part.

use truck::{ChangeField, Field, FieldSet, Fitted};

/// A number that nobody has measured or read off a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guess {
    /// Of the truck.
    Number(Field),
    /// Of the changes, by its index in [`Fitted::guessed`].
    Change(usize),
}

/// A set of guesses, copied and compared at no cost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Guesses {
    /// Numbers of the truck.
    pub numbers: FieldSet,
    /// Numbers of the changes: a bit for each index in [`Fitted::guessed`], of which there are fewer
    /// than a hundred.
    changes: u128,
}

impl Guesses {
    /// No guess.
    pub const NONE: Self = Self { numbers: FieldSet::EMPTY, changes: 0 };

    /// Every guess of a truck with its changes.
    #[must_use]
    pub fn of(fitted: &Fitted) -> Self {
        let truck = &fitted.measured;
        let mut all = Self { numbers: truck.sources.guessed(truck), changes: 0 };
        for at in 0..fitted.guessed.len() {
            all.insert(Guess::Change(at));
        }
        all
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::NONE
    }

    /// Whether a guess is among them.
    #[must_use]
    pub fn contains(&self, guess: Guess) -> bool {
        match guess {
            Guess::Number(field) => self.numbers.contains(field),
            Guess::Change(at) => self.changes & (1 << at) != 0,
        }
    }

    /// Puts a guess among them.
    pub fn insert(&mut self, guess: Guess) {
        match guess {
            Guess::Number(field) => self.numbers.insert(field),
            Guess::Change(at) => self.changes |= 1 << at,
        }
    }

    /// Takes a guess out.
    pub fn remove(&mut self, guess: Guess) {
        match guess {
            Guess::Number(field) => self.numbers.remove(field),
            Guess::Change(at) => self.changes &= !(1 << at),
        }
    }

    /// What is in either.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self { numbers: self.numbers.union(other.numbers), changes: self.changes | other.changes }
    }

    /// Those of the changes of a truck that they are of.
    pub fn changes(self, fitted: &Fitted) -> impl Iterator<Item = ChangeField> {
        let is_in = move |(at, _): &(usize, &ChangeField)| self.contains(Guess::Change(*at));
        fitted.guessed.iter().enumerate().filter(is_in).map(|(_, number)| *number)
    }

    /// Each of them, those of the truck first.
    pub fn iter(self) -> impl Iterator<Item = Guess> {
        let changes = (0..128).map(Guess::Change).filter(move |guess| self.contains(*guess));
        self.numbers.iter().map(Guess::Number).chain(changes)
    }
}

/// What is in any of them.
impl FromIterator<Self> for Guesses {
    fn from_iter<I: IntoIterator<Item = Self>>(sets: I) -> Self {
        sets.into_iter().fold(Self::NONE, Self::union)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::demo;

    /// Sets by hand.
    #[test]
    fn what_is_put_in_is_in_it_and_nothing_else() {
        let all = [
            Guess::Number(Field::Camber),
            Guess::Number(Field::BedBehind),
            Guess::Change(0),
            Guess::Change(99),
        ];
        let mut set = Guesses::NONE;
        for guess in all {
            assert!(!set.contains(guess));
            set.insert(guess);
            assert!(set.contains(guess));
        }
        assert_eq!(set.iter().collect::<Vec<_>>(), all);
        set.remove(all[0]);
        set.remove(all[3]);
        assert_eq!(set.iter().collect::<Vec<_>>(), [all[1], all[2]]);
        let mut other = Guesses::NONE;
        other.insert(all[3]);
        assert_eq!(set.union(other).iter().count(), 3);
        assert!(Guesses::of(&Fitted::as_measured(&demo().truck)).is_empty());
    }
}
