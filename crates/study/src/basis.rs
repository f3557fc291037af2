//! Which numbers an answer rests on, and which of them are guesses.

use crate::clearance::Pair;
use truck::{Field, Group, Source, SpringKind, Truck};

/// An answer that people act on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// Ride height after a change of the spring.
    RideHeight,
    /// Camber and its curve.
    Camber,
    /// Caster.
    Caster,
    /// Toe and its curve.
    Toe,
    /// Travel to the stops.
    Stops,
    /// The room of a pair.
    Room(Pair),
}

impl Question {
    fn rests_on(self, field: Field, truck: &Truck) -> bool {
        let arms = matches!(field.group(), Group::LowerArm | Group::UpperArm | Group::Knuckle);
        let tie = field.group() == Group::TieRod;
        let lengthwise = field.key().ends_with("_x");
        match self {
            // What is said of strength, splines and other loads leaves the height alone.
            Self::RideHeight if field.id() > Field::TireDiameter.id() => false,
            Self::RideHeight => match field.group() {
                Group::Load => true,
                Group::Bar => truck.spring.kind == SpringKind::TorsionBar,
                Group::Coil => truck.spring.kind == SpringKind::Coil,
                Group::WheelRate => truck.spring.kind == SpringKind::WheelRate,
                _ => field == Field::RailBottomZ || (arms && !lengthwise),
            },
            Self::Camber => arms && !lengthwise,
            Self::Caster => arms || field == Field::Wheelbase,
            Self::Toe => arms || (tie && field != Field::TieThread),
            Self::Stops => field.group() == Group::Stops,
            Self::Room(pair) => {
                let thread = matches!(field, Field::TieThread | Field::StrutThread);
                let part = pair.parts().contains(&field.group()) && !thread;
                part || pair.fields().any(|own| own == field)
            }
        }
    }
}

/// The guessed numbers that an answer rests on: where there are any, no verdict
/// is given, and measuring them would make it real.
#[must_use]
pub fn assumed(truck: &Truck, question: Question) -> Vec<Field> {
    let guessed = |field: &Field| {
        truck.sources.of(*field) == Source::Assumed
            && field.get(truck).is_some()
            && question.rests_on(*field, truck)
    };
    Field::ALL.iter().copied().filter(guessed).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{Edit, demo};

    fn measured(design: &truck::Design, field: Field) -> truck::Design {
        let value = field.get(&design.truck);
        design.edited(&Edit::Measure { field, value }).unwrap()
    }

    #[test]
    fn the_demo_rests_on_no_guess() {
        let truck = demo().truck;
        for question in [Question::RideHeight, Question::Toe, Question::Room(Pair::TireRail)] {
            assert_eq!(assumed(&truck, question), []);
        }
    }

    #[test]
    fn one_s_own_truck_is_a_guess_until_it_is_measured() {
        let mut design = demo().edited(&Edit::OwnTruck).unwrap();
        let guesses = assumed(&design.truck, Question::Room(Pair::TireFender));
        assert!(guesses.contains(&Field::FenderZ) && guesses.contains(&Field::TireSection));
        assert!(!guesses.contains(&Field::RailOuterY) && !guesses.contains(&Field::TireDiameter));
        for field in guesses {
            design = measured(&design, field);
        }
        assert_eq!(assumed(&design.truck, Question::Room(Pair::TireFender)), []);
        assert!(assumed(&design.truck, Question::Stops).contains(&Field::BumpGap));
    }

    /// A room rests on the parts on both its sides, on how far the wheels steer,
    /// and on nothing of parts that are elsewhere.
    #[test]
    fn a_room_rests_on_its_own_parts() {
        let truck = demo().edited(&Edit::OwnTruck).unwrap().truck;
        let rests = |pair, field| assumed(&truck, Question::Room(pair)).contains(&field);
        assert!(rests(Pair::TireStrutRod, Field::StrutArmY) && rests(Pair::TireStrutRod, Field::LockRight));
        assert!(
            !rests(Pair::TireStrutRod, Field::StrutThread) && !rests(Pair::TireStrutRod, Field::UpperRearZ)
        );
        assert!(rests(Pair::RimCaliper, Field::RimBarrel) && !rests(Pair::RimCaliper, Field::LockRight));
        assert!(
            rests(Pair::LowerArmRail, Field::RailBottomZ) && !rests(Pair::LowerArmRail, Field::TireSection)
        );
    }

    #[test]
    fn ride_height_rests_on_the_spring_in_use() {
        let design = demo().edited(&Edit::OwnTruck).unwrap();
        let with = |kind| design.edited(&Edit::SpringKind(kind)).unwrap().truck;
        for (kind, own, other) in [
            (SpringKind::TorsionBar, Field::BarDiameter, Field::CoilWire),
            (SpringKind::Coil, Field::CoilWire, Field::WheelRate),
            (SpringKind::WheelRate, Field::WheelRate, Field::BarDiameter),
        ] {
            let guesses = assumed(&with(kind), Question::RideHeight);
            assert!(guesses.contains(&own) && !guesses.contains(&other), "{kind:?}");
        }
    }
}
