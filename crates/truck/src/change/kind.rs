//! What the sorts of changes have in common, over the table of them.

use super::table::Sort;
use super::{Change, ChangeKind, ChangeNumber, Place};
use crate::field::accept;
use crate::truck::Truck;

impl ChangeKind {
    /// Whether its numbers are those of a part, which can be guessed; what is set or cut is chosen.
    #[must_use]
    pub const fn is_part(self) -> bool {
        matches!(self.sort(), Sort::Part)
    }

    /// Whether it is done to the rear, and to neither front corner.
    #[must_use]
    pub const fn is_rear(self) -> bool {
        matches!(
            self,
            Self::RearBlock
                | Self::AxleFlip
                | Self::RearHangers
                | Self::RearShackle
                | Self::RearSpring
                | Self::RearNotch
                | Self::RearStop
                | Self::RearShock
                | Self::RearTire
        )
    }

    /// What people call it at a place.
    #[must_use]
    pub fn title(self, place: Option<Place>) -> String {
        let Some(place) = place else { return self.label().to_owned() };
        let does = match self {
            Self::JointTurned => "Turn ",
            Self::ArmSwap if place == Place::UpperArm => return "Another upper arm".to_owned(),
            Self::ArmSwap => return "Another lower arm".to_owned(),
            _ => "Move ",
        };
        does.to_owned() + place.label()
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// The change as it starts out when it is added to a truck: as the truck is,
    /// or a step that people often take.
    #[must_use]
    pub fn first(self, place: Option<Place>, truck: &Truck) -> Option<Change> {
        let begins =
            |(at, number): (usize, &ChangeNumber)| (!number.optional).then(|| self.begins(at, truck));
        self.with(place, &self.numbers().iter().enumerate().map(begins).collect::<Vec<_>>())
    }

    /// The change with these numbers, each rounded to what can be kept.
    ///
    /// `values` are in the order of [`ChangeKind::numbers`], in the core's
    /// units; a missing one is zero, or open where it may be.
    ///
    /// Nothing where a value lies outside its limits, or where the place is not
    /// one of [`ChangeKind::places`].
    #[must_use]
    pub fn with(self, place: Option<Place>, values: &[Option<f64>]) -> Option<Change> {
        let placed = place.filter(|place| self.places().contains(place));
        let mut change = self.blank(placed).filter(|_| placed == place)?;
        for (at, number) in self.numbers().iter().enumerate() {
            let kept = match values.get(at).copied().flatten() {
                None if number.optional => None,
                value => Some(accept(number.kind, number.limits, value.unwrap_or(0.0))?),
            };
            change.number_mut(at)?.put(kept);
        }
        Some(change)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::kind::Kind;

    #[test]
    fn every_kind_is_listed_and_can_be_added() {
        let truck = demo().truck;
        for kind in ChangeKind::ALL {
            assert_eq!(ChangeKind::ALL.iter().filter(|other| other.id() == kind.id()).count(), 1);
            let first = kind.first(kind.places().first().copied(), &truck).expect("it can be added");
            assert_eq!(first.kind(), kind);
            assert_eq!(first.values().len(), kind.numbers().len(), "{kind:?}");
            // Every number has a place of its own in the change.
            for (at, number) in kind.numbers().iter().enumerate() {
                let value = number.kind.rounded(match number.kind {
                    Kind::Angle => number.limits.1.to_radians(),
                    _ => number.limits.1,
                });
                let other = first.with_value(at, value).expect("the limit can be entered");
                let expected: Vec<_> = first
                    .values()
                    .into_iter()
                    .enumerate()
                    .map(|(index, was)| if index == at { value } else { was })
                    .collect();
                assert_eq!(other.values(), expected, "{kind:?} {}", number.key());
            }
        }
        // A guess of it can move, and its ends can be kept.
        for number in ChangeKind::ALL.iter().flat_map(|kind| kind.numbers()) {
            let middle = number.nearest(0.0).unwrap();
            let ends =
                [-1.0, 1.0].map(|way| number.nearest(middle + way * number.guess_width(middle)).unwrap());
            assert!(ends.iter().any(|end| (*end - middle).abs() > 0.0), "{}", number.key());
            assert!(ends.iter().all(|end| number.nearest(*end) == Some(*end)), "{}", number.key());
        }
        // The ids are those from 0 on, so none is missing from the list.
        let count = u8::try_from(ChangeKind::ALL.len()).unwrap();
        assert!((0..count).all(|id| ChangeKind::ALL.iter().any(|kind| kind.id() == id)));
    }
}
