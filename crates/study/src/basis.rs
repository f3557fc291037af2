//! Which numbers an answer rests on, and which of them are guesses.

use crate::clearance::Pair;
use truck::{ChangeField, ChangeKind, Field, Fitted, Group, Source, SpringKind, Truck};

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

impl Question {
    /// Whether a change of a kind can move the answer: rather one too many than one too few.
    fn moves_with(self, kind: ChangeKind) -> bool {
        match kind {
            ChangeKind::Brake => {
                matches!(self, Self::Room(pair) if pair.fields().any(|field| field.group() == Group::Brake))
            }
            ChangeKind::StopTrim | ChangeKind::Shock => matches!(self, Self::Stops | Self::Room(_)),
            ChangeKind::TieRod => !matches!(self, Self::RideHeight | Self::Stops),
            // Whatever moves a part or the spring moves the stance, and all that is read in it.
            _ => true,
        }
    }
}

/// The guessed numbers of the changes that an answer rests on.
pub fn guessed_changes(fitted: &Fitted, question: Question) -> impl Iterator<Item = ChangeField> {
    fitted.guessed.iter().copied().filter(move |(kind, ..)| question.moves_with(*kind))
}

/// Whether an answer of a truck rests on a guess: a number of the truck, or of the changes on it.
#[must_use]
pub fn rests_on_guess(fitted: &Fitted, question: Question) -> bool {
    !assumed(&fitted.measured, question).is_empty() || guessed_changes(fitted, question).next().is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{Edit, Place, ProposalId, demo};

    /// Plate and flange of a joint that is turned over are guessed: every answer of the
    /// proposal rests on them, and none of the truck as measured; a measured shift of the
    /// ball takes their place.
    #[test]
    fn what_a_change_guesses_its_answers_rest_on() {
        let (id, kind) = (ProposalId(0), ChangeKind::JointTurned);
        let place = Some(Place::LowerJointUp);
        let design = |shift: Option<f64>| {
            let change = kind.with(place, &[Some(6.35), Some(9.52), shift]).unwrap();
            let guess = |at| Edit::ChangeSource(id, (kind, place, at), Source::Assumed);
            let edits = [Edit::Set(id, change), guess(0), guess(1)];
            edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap())
        };
        let asked = [Question::RideHeight, Question::Caster, Question::Room(Pair::TireFender)];
        for question in asked {
            assert!(rests_on_guess(&design(None).fitted(id).unwrap(), question), "{question:?}");
            assert!(!rests_on_guess(&design(None).as_measured(), question), "{question:?}");
            assert!(!rests_on_guess(&design(Some(15.88)).fitted(id).unwrap(), question), "{question:?}");
        }
    }

    /// A guessed caliper stands in the way of the rim alone, a guessed stop ends the
    /// travel alone, a guessed tie rod steers and carries nothing.
    #[test]
    fn a_guess_touches_what_its_part_does() {
        let touched = |kind| {
            let asked = [
                Question::RideHeight,
                Question::Toe,
                Question::Stops,
                Question::Room(Pair::RimCaliper),
                Question::Room(Pair::TireFender),
            ];
            asked.map(|question| question.moves_with(kind))
        };
        assert_eq!(touched(ChangeKind::Brake), [false, false, false, true, false]);
        assert_eq!(touched(ChangeKind::StopTrim), [false, false, true, true, true]);
        assert_eq!(touched(ChangeKind::TieRod), [false, true, false, true, true]);
        assert_eq!(touched(ChangeKind::DroppedSpindle), [true; 5]);
    }

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

    /// Where the tie rod's inner end is, the wheel steers otherwise, and its least room is another:
    /// every pair that depends on the steer rests on the rod. Identity, no source.
    #[test]
    fn what_steers_rests_on_the_tie_rod() {
        let mut truck = demo().truck;
        truck.sources.set(Field::TieInnerZ, Source::Assumed);
        let mut moved = truck.clone();
        moved.points.tie_inner.z += 25.4;
        let found = |truck: &Truck| {
            let rest = crate::Rest::of(Fitted::as_measured(truck)).unwrap();
            crate::Clearances::of(&rest, crate::Clearances::LIVE)
        };
        let (before, after) = (found(&truck), found(&moved));
        let mut moves = 0;
        for pair in Pair::ALL.iter().copied().filter(|pair| pair.moves() == crate::Moves::Steer) {
            let least = |found: &crate::Clearances| found.of_pair(pair).unwrap().gap.distance_mm;
            moves += usize::from((least(&before) - least(&after)).abs() > 0.01);
            assert_eq!(assumed(&truck, Question::Room(pair)), [Field::TieInnerZ], "{pair}");
        }
        assert!(moves > 3, "only {moves} moved");
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
