//! Each side of a truck as a truck of its own.

use crate::field::Field;
use crate::side::{RightNumbers, Side};
use crate::truck::Truck;
use linkage::Hardpoints;
use std::ops::Deref;

/// The numbers of a tire's size.
const SIZE: [Field; 3] = [Field::TireSection, Field::TireAspect, Field::TireRim];

/// One side of a truck: what a corner is built from.
///
/// It reads as a truck of its own whose left and right are alike. The right one is mirrored
/// to the left, so that `y` is the distance from the centreline there too: what was measured
/// at the right stands in it, and the left's for the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct OneSide {
    side: Side,
    truck: Truck,
    left_wheel: Hardpoints,
}

impl OneSide {
    /// Which side it is.
    #[must_use]
    pub const fn side(&self) -> Side {
        self.side
    }

    /// The left front corner's points as measured, also at the right: the locks are the left wheel's.
    #[must_use]
    pub const fn left_wheel(&self) -> &Hardpoints {
        &self.left_wheel
    }

    /// The other side of a truck whose sides are alike.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self { side: self.side.other(), truck: self.truck.clone(), left_wheel: self.truck.points }
    }
}

impl Deref for OneSide {
    type Target = Truck;

    fn deref(&self) -> &Truck {
        &self.truck
    }
}

impl From<&Self> for OneSide {
    fn from(side: &Self) -> Self {
        side.clone()
    }
}

/// The side at which a truck's numbers are measured, the left.
impl From<&Truck> for OneSide {
    fn from(truck: &Truck) -> Self {
        truck.on(Side::Left)
    }
}

impl Truck {
    /// One side of the truck.
    #[must_use]
    pub fn on(&self, side: Side) -> OneSide {
        let mut truck = Self { right: RightNumbers::NONE, ..self.clone() };
        if side == Side::Right {
            for (field, value) in self.right.iter() {
                field.put(&mut truck, Some(value));
                truck.sources.set(field, field.source_when_entered());
            }
            let own = |field: &Field| self.right.get(*field).is_some();
            if SIZE.iter().any(own) && !own(&Field::TireDiameter) {
                // What was measured was the left's tire.
                truck.tire.measured_diameter_mm = None;
            }
        }
        OneSide { side, truck, left_wheel: self.points }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Design, Edit, EditError, Source, demo};

    fn right(design: &Design, values: &[(Field, Option<f64>)]) -> Result<Design, EditError> {
        design.edited(&Edit::MeasureRight(values.to_vec()))
    }

    #[test]
    fn the_right_has_its_own_numbers_and_the_left_s_for_the_rest() {
        let design = demo();
        let own = [(Field::LowerBallZ, Some(201.0)), (Field::ShockShort, Some(222.0))];
        let truck = right(&design, &own).unwrap().truck;
        assert_eq!(truck.on(Side::Left), design.truck.on(Side::Left));
        let other = truck.on(Side::Right);
        for field in Field::ALL.iter().copied() {
            let stated = own.iter().find(|(own, _)| *own == field).and_then(|(_, value)| *value);
            assert_eq!(field.get(&other), stated.or(field.get(&design.truck)), "{field:?}");
        }
        assert!(other.right.is_empty());
        assert_eq!((other.side(), truck.on(Side::Left).side()), (Side::Right, Side::Left));
    }

    /// Identity: a truck without numbers of its own at the right is its own mirror; what is
    /// bent there is not the mirror of what is straight.
    #[test]
    fn sides_alike_are_each_other_s_mirror() {
        let straight = demo().truck;
        let [left, other] = Side::ALL.map(|side| straight.on(side));
        assert_eq!((&left.mirrored(), &other.mirrored()), (&other, &left));
        let bent = right(&demo(), &[(Field::LowerBallZ, Some(201.0))]).unwrap().truck;
        let [left, other] = Side::ALL.map(|side| bent.on(side));
        assert_ne!(left.mirrored(), other);
        // The locks are the left wheel's, on whichever side they are asked.
        assert_eq!((left.left_wheel(), other.left_wheel()), (&bent.points, &bent.points));
    }

    #[test]
    fn a_number_stays_until_it_is_as_the_left_s_again() {
        let design = demo();
        let field = Field::UpperBallY;
        let once = right(&design, &[(field, Some(612.0))]).unwrap();
        // The order in which they were typed leaves no trace.
        let (one, two) = ((field, Some(612.0)), (Field::Toe, Some(0.0)));
        assert_eq!(right(&design, &[one, two]), right(&design, &[two, one]));
        // Correcting the left moves nothing that was measured at the right.
        let moved = once.edited(&Edit::Measure { field, value: Some(612.0) }).unwrap();
        let moved = moved.edited(&Edit::Measure { field, value: Some(630.0) }).unwrap();
        assert_eq!(field.get(&moved.truck.on(Side::Right)), Some(612.0));
        assert_eq!(right(&once, &[(field, None)]).unwrap(), design);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let design = demo();
        assert_eq!(
            right(&design, &[(Field::Wheelbase, Some(2700.0))]),
            Err(EditError::OneForBoth(Field::Wheelbase))
        );
        for value in [f64::NAN, f64::INFINITY, -5.0] {
            let refused = right(&design, &[(Field::BumpGap, Some(value))]);
            assert_eq!(refused, Err(EditError::OutOfLimits(Field::BumpGap)));
        }
        // A value is rounded as every other, so that designs can be compared.
        let kept = right(&design, &[(Field::BumpGap, Some(12.3456))]).unwrap();
        assert_eq!(kept.truck.right.get(Field::BumpGap), Some(12.35));
    }

    #[test]
    fn what_was_measured_at_the_right_rests_on_no_guess() {
        let own = demo().edited(&Edit::OwnTruck).unwrap();
        let truck = right(&own, &[(Field::Camber, Some(0.01)), (Field::TireSection, Some(205.0))]).unwrap();
        let sources = &truck.truck.on(Side::Right).sources;
        assert_eq!(sources.of(Field::Camber), Source::Measured);
        assert_eq!(sources.of(Field::TireSection), Source::Typed);
        assert_eq!(sources.of(Field::Toe), Source::Assumed);
        assert_eq!(truck.truck.sources.of(Field::Camber), Source::Assumed);
    }
}
