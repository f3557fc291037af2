//! Each side of a truck as a truck of its own.

use crate::field::Field;
use crate::side::{RightNumbers, Side};
use crate::truck::Truck;

/// The numbers of a tire's size.
const SIZE: [Field; 3] = [Field::TireSection, Field::TireAspect, Field::TireRim];

impl Truck {
    /// The side that the truck stands for: the left, unless it is the right corner of another.
    #[must_use]
    pub const fn side(&self) -> Side {
        if self.steering.left_wheel.is_some() { Side::Right } else { Side::Left }
    }

    /// One side of the truck as a truck of its own, whose left and right are alike.
    ///
    /// The right one is mirrored to the left, so its numbers read as the left's do:
    /// `y` is the distance from the centreline. What was measured there stands in it,
    /// everything else is the left's. Only the locks stay what they are on the truck,
    /// those of the left wheel: [`Steering::left_wheel`](crate::Steering::left_wheel).
    #[must_use]
    pub fn on(&self, side: Side) -> Self {
        let mut one = Self { right: RightNumbers::NONE, ..self.clone() };
        if side == Side::Right {
            one.steering.left_wheel = Some(self.points);
            for (field, value) in self.right.iter() {
                field.put(&mut one, Some(value));
                one.sources.set(field, field.source_when_entered());
            }
            let own = |field: &Field| self.right.get(*field).is_some();
            if SIZE.iter().any(own) && !own(&Field::TireDiameter) {
                // What was measured was the left's tire.
                one.tire.measured_diameter_mm = None;
            }
        }
        one
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
        let sources = truck.truck.on(Side::Right).sources;
        assert_eq!(sources.of(Field::Camber), Source::Measured);
        assert_eq!(sources.of(Field::TireSection), Source::Typed);
        assert_eq!(sources.of(Field::Toe), Source::Assumed);
        assert_eq!(truck.truck.sources.of(Field::Camber), Source::Assumed);
    }
}
