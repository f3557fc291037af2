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
            Self::RideHeight => match field.group() {
                Group::Load => true,
                Group::Bar => truck.spring.kind == SpringKind::TorsionBar,
                Group::Coil => truck.spring.kind == SpringKind::Coil,
                Group::WheelRate => truck.spring.kind == SpringKind::WheelRate,
                _ => field == Field::RailBottomZ || (arms && !lengthwise),
            },
            Self::Camber => arms && !lengthwise,
            Self::Caster => arms || field == Field::Wheelbase,
            Self::Toe => arms || tie,
            Self::Stops => field.group() == Group::Stops,
            Self::Room(pair) => pair.fields().contains(&field) || field.group() == Group::Tire,
        }
    }
}

/// The guessed numbers that an answer rests on: where there are any, no verdict
/// is given, and measuring them would make it real.
#[must_use]
pub fn assumed(truck: &Truck, question: Question) -> Vec<Field> {
    let guessed = |field: &Field| {
        truck.sources.of(*field) == Source::Assumed
            && !field.is_optional()
            && question.rests_on(*field, truck)
    };
    Field::ALL.iter().copied().filter(guessed).collect()
}
