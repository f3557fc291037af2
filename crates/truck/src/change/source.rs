//! Where the numbers of a proposal's changes came from.

use super::{Change, ChangeKind, Place};
use crate::side::Side;
use crate::source::Source;

/// A number of a change: the change's slot, and the number's place in [`ChangeKind::numbers`].
pub type ChangeField = (ChangeKind, Option<Place>, usize);

/// Where the numbers of a proposal's changes came from: what is typed into one is typed
/// from a part, unless it is said otherwise. It is said of a number on both sides and on each alike.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChangeSources(Vec<(ChangeField, Source)>);

impl ChangeSources {
    /// All of them typed from parts.
    pub const TYPED: Self = Self(Vec::new());

    /// Where one number came from.
    #[must_use]
    pub fn of(&self, field: ChangeField) -> Source {
        self.0.iter().find(|(other, _)| *other == field).map_or(Source::Typed, |(_, source)| *source)
    }

    /// States where one number came from.
    pub fn set(&mut self, field: ChangeField, source: Source) {
        self.0.retain(|(other, _)| *other != field);
        if source != Source::Typed {
            let at = self.0.partition_point(|(other, _)| *other < field);
            self.0.insert(at, (field, source));
        }
    }

    /// The numbers that are not typed from a part, by kind, place and number.
    pub fn exceptions(&self) -> impl Iterator<Item = (ChangeField, Source)> {
        self.0.iter().copied()
    }

    /// Forgets what is said of changes that are not there.
    pub(crate) fn keep_to(&mut self, changes: &[(Option<Side>, Change)]) {
        self.0.retain(|((kind, place, at), _)| {
            *at < kind.numbers().len() && changes.iter().any(|(_, change)| change.slot() == (*kind, *place))
        });
    }

    /// Forgets what was said of numbers that are another now, on whichever side: a new value is typed anew.
    pub(crate) fn settle(&mut self, before: &[(Option<Side>, Change)], after: &[(Option<Side>, Change)]) {
        self.0.retain(|((kind, place, at), _)| {
            let here = |(_, change): &&(Option<Side>, Change)| change.slot() == (*kind, *place);
            let value = |(_, change): &(Option<Side>, Change)| change.values().get(*at).copied();
            let stood = |now| before.iter().filter(here).any(|was| value(was) == now);
            after.iter().filter(here).any(|now| stood(value(now)))
        });
    }
}

impl Change {
    /// Whether an answer can hang on a number: it is stated, and no other stands in for it.
    #[must_use]
    pub fn counts(&self, at: usize) -> bool {
        let stands_in = match self {
            // A measured shift of the ball says all that plate and flange do.
            Self::JointTurned(joint) => joint.shift_mm.is_some() && at < 2,
            _ => false,
        };
        !stands_in && self.values().get(at).is_some_and(Option::is_some)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{DroppedSpindle, JointTurned};

    #[test]
    fn a_measured_shift_stands_in_for_plate_and_flange() {
        let turned =
            JointTurned { place: Place::LowerJointUp, plate_mm: 6.0, flange_mm: 9.0, shift_mm: None };
        assert_eq!([0, 1, 2, 3].map(|at| Change::JointTurned(turned).counts(at)), [true, true, false, false]);
        let measured = Change::JointTurned(JointTurned { shift_mm: Some(15.0), ..turned });
        assert_eq!([0, 1, 2].map(|at| measured.counts(at)), [false, false, true]);
    }

    #[test]
    fn what_is_said_of_a_number_ends_with_its_value() {
        let spindle = |drop_mm, out_mm| {
            [Change::DroppedSpindle(DroppedSpindle { drop_mm, out_mm, ..DroppedSpindle::default() })]
        };
        let field = |at| (ChangeKind::DroppedSpindle, None, at);
        let mut sources = ChangeSources::TYPED;
        sources.set(field(1), Source::Measured);
        sources.set(field(0), Source::Assumed);
        assert_eq!(sources.exceptions().map(|(field, _)| field.2).collect::<Vec<_>>(), [0, 1]);
        let settle = |sources: &mut ChangeSources, before: &[Change], after: &[Change]| {
            let of = |changes: &[Change]| changes.iter().map(|change| (None, *change)).collect::<Vec<_>>();
            sources.settle(&of(before), &of(after));
        };
        settle(&mut sources, &spindle(50.8, 3.0), &spindle(63.5, 3.0));
        assert_eq!((sources.of(field(0)), sources.of(field(1))), (Source::Typed, Source::Measured));
        settle(&mut sources, &spindle(63.5, 3.0), &[]);
        assert_eq!(sources, ChangeSources::TYPED);
    }
}
