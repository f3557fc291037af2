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

    /// Every number of the demo a guess: which of them an answer rests on, by what it is made of.
    fn rests(question: Question, kind: SpringKind) -> impl Fn(Field) -> bool {
        let mut truck = demo().truck;
        truck.spring.kind = kind;
        truck.sources = truck::Sources::all(Source::Assumed);
        let guesses = assumed(&truck, question);
        move |field| guesses.contains(&field)
    }

    /// Virtual work: what stands on the spring (load less what it does not carry), on which
    /// lever (the arms in front view) and against which rate; and where it is measured. Not
    /// on strength, on splines, on other loads, or on how far forward a point is.
    #[test]
    fn ride_height_rests_on_load_lever_and_rate() {
        for kind in [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate] {
            let rests = rests(Question::RideHeight, kind);
            for field in [
                Field::CornerLoad,
                Field::UnsprungWeight,
                Field::RailBottomZ,
                Field::LowerRearY,
                Field::LowerBallY,
                Field::UpperFrontZ,
                Field::WheelCentreY,
            ] {
                assert!(rests(field), "{kind:?} {field:?}");
            }
            for field in [
                Field::DriverLoad,
                Field::BedLoad,
                Field::BedBehind,
                Field::BarAllowable,
                Field::BarSplinesArm,
                Field::CoilAllowable,
                Field::LowerBallX,
                Field::RailOuterY,
                Field::TieInnerZ,
                Field::BumpGap,
                Field::Wheelbase,
            ] {
                assert!(!rests(field), "{kind:?} {field:?}");
            }
        }
    }

    /// Caster is the lean of the line through the balls in side view, which a lowered
    /// front tips by the drop over the wheelbase; camber is asked in front view and tips with neither.
    #[test]
    fn caster_rests_on_the_wheelbase_and_camber_does_not() {
        let (caster, camber) = (
            rests(Question::Caster, SpringKind::TorsionBar),
            rests(Question::Camber, SpringKind::TorsionBar),
        );
        for field in [Field::Wheelbase, Field::UpperBallX, Field::LowerFrontX] {
            assert!(caster(field) && !camber(field), "{field:?}");
        }
        for field in [Field::UpperBallZ, Field::LowerBallY, Field::UpperRearY, Field::LowerFrontZ] {
            assert!(caster(field) && camber(field), "{field:?}");
        }
        for field in [Field::TieOuterX, Field::CornerLoad, Field::BumpGap, Field::RailBottomZ] {
            assert!(!caster(field) && !camber(field), "{field:?}");
        }
    }

    /// A tie rod's six coordinates steer the wheel in bump; the pitch of its sleeve only says
    /// how many turns set it. Stops are what the travel ends at, and nothing else.
    #[test]
    fn toe_rests_on_the_tie_rod_and_stops_on_the_stops() {
        let toe = rests(Question::Toe, SpringKind::TorsionBar);
        for field in [
            Field::TieInnerX,
            Field::TieInnerY,
            Field::TieInnerZ,
            Field::TieOuterX,
            Field::TieOuterY,
            Field::TieOuterZ,
            Field::Toe,
            Field::LowerFrontX,
            Field::UpperBallY,
        ] {
            assert!(toe(field), "{field:?}");
        }
        for field in [Field::TieThread, Field::Wheelbase, Field::CornerLoad, Field::PitmanLength] {
            assert!(!toe(field), "{field:?}");
        }
        let stops = rests(Question::Stops, SpringKind::TorsionBar);
        for field in [Field::BumpGap, Field::BumpSquash, Field::BumpRadius, Field::Droop] {
            assert!(stops(field), "{field:?}");
        }
        assert!(!stops(Field::LowerBallY) && !stops(Field::ShockShort));
    }

    /// A number that is not stated is no guess, and a typed or measured one is none either.
    #[test]
    fn only_what_is_stated_and_assumed_is_a_guess() {
        let mut truck = demo().truck;
        truck.sources = truck::Sources::all(Source::Typed);
        for source in [Source::Measured, Source::Typed] {
            truck.sources.set(Field::BarDiameter, source);
            assert_eq!(assumed(&truck, Question::RideHeight), []);
        }
        for field in [Field::BarDiameter, Field::BarInward, Field::TireDiameter] {
            truck.sources.set(field, Source::Assumed);
        }
        assert_eq!((truck.spring.bar.inward_rad, truck.tire.measured_diameter_mm), (None, None));
        assert_eq!(assumed(&truck, Question::RideHeight), [Field::BarDiameter]);
    }
}
