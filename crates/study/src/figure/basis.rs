//! What a figure may rest on: more than it does, never less.

use super::{Figure, Guess, Guesses, Of};
use crate::clearance::Pair;
use crate::quantity::Quantity;
use crate::stance::StandingSide;
use truck::{ChangeKind, Field, Fitted, Group, Side, SpringKind, Truck};

/// Numbers of a truck that a figure may rest on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Basis {
    /// How the truck stands: corner, stops, load, wheel and the spring in use, and what the
    /// changes of them start from. The tie rod is part of the corner: a wheel that toes turns
    /// about a leaning axis, and its centre rises.
    Stance,
    /// The loads of the cases.
    Cases,
    /// The wheelbase.
    Wheelbase,
    /// The rake: the wheelbase, and how both front corners stand.
    Rake,
    /// The rail's height.
    RailBottom,
    /// The height of the fender's lip.
    FenderLip,
    /// What steers the wheels, and how far.
    Steering,
    /// Whatever can end the travel.
    Limiters,
    /// The parts of the rear: none of its own numbers is ever guessed.
    RearParts,
    /// The pair's or the low point's own.
    Own,
}

impl Basis {
    fn holds(self, field: Field, truck: &Truck, of: Of) -> bool {
        let group = field.group();
        match self {
            Self::Stance => match group {
                Group::LowerArm | Group::UpperArm | Group::Knuckle | Group::Stops | Group::Tire => true,
                Group::TieRod | Group::StrutRod | Group::Shims => true,
                Group::Load => matches!(field, Field::CornerLoad | Field::UnsprungWeight),
                Group::Bar => truck.spring.kind == SpringKind::TorsionBar || field == Field::ShearModulus,
                Group::Coil => truck.spring.kind == SpringKind::Coil,
                Group::WheelRate => truck.spring.kind == SpringKind::WheelRate,
                _ => false,
            },
            Self::Cases => matches!(field, Field::DriverLoad | Field::BedLoad | Field::BedBehind),
            Self::Wheelbase | Self::Rake => field == Field::Wheelbase,
            Self::RailBottom => field == Field::RailBottomZ,
            Self::FenderLip => field == Field::FenderZ,
            Self::Steering => group == Group::Steering,
            Self::Limiters => ends_travel(field),
            Self::RearParts => false,
            Self::Own => match of {
                Of::Pair(pair) => of_pair(pair, field),
                Of::Low(low) => low.fields().contains(&field),
                Of::Through(quantity) => match field {
                    Field::Wheelbase => quantity.is_against_ground(),
                    Field::RailBottomZ => quantity == Quantity::RideHeight,
                    _ => false,
                },
                _ => false,
            },
        }
    }
}

fn of_pair(pair: Pair, field: Field) -> bool {
    pair.parts().contains(&field.group()) || pair.fields().any(|own| own == field)
}

/// Whether any limiter of the travel reads a number, beyond how the truck stands.
fn ends_travel(field: Field) -> bool {
    matches!(field.group(), Group::Shock | Group::Joints | Group::Steering)
        || Pair::ALL.iter().any(|pair| of_pair(*pair, field))
}

impl Figure {
    /// Whether it may rest on a number of a truck.
    #[must_use]
    pub fn may_rest_on_number(self, field: Field, truck: &Truck) -> bool {
        self.row.basis.iter().any(|basis| basis.holds(field, truck, self.of))
    }

    /// Whether it may rest on a number of a change.
    #[must_use]
    pub fn may_rest_on_change(self, kind: ChangeKind) -> bool {
        let basis = self.row.basis;
        let of = |asked: Basis| basis.contains(&asked);
        match kind {
            // It is in the way of the rim, and what the rim meets ends the travel.
            ChangeKind::Brake => {
                of(Basis::Limiters) || matches!(self.of, Of::Pair(pair) if pair.fields().any(is_of_brake))
            }
            ChangeKind::Shock => of(Basis::Limiters),
            _ if of(Basis::RearParts) => kind.is_rear(),
            // Whatever else moves a part or the spring moves the stance, and all that is read in it.
            _ => !basis.is_empty(),
        }
    }

    /// Every guess that it may rest on, of a side of a truck: more than it does, never less.
    /// What is read against the ground rests on the other side as well.
    #[must_use]
    pub fn of_side_may_rest_on(self, side: &StandingSide) -> Guesses {
        self.may_rest_on(self.asked_of(side))
    }

    /// Every guess that it may rest on, of a side of a truck in a pose that is steered.
    #[must_use]
    pub fn of_side_may_rest_on_steered(self, side: &StandingSide) -> Guesses {
        self.may_rest_on_steered(self.asked_of(side))
    }

    /// The corner whose guesses it may rest on.
    fn asked_of(self, side: &StandingSide) -> &Fitted {
        let by_rake = self.row.basis.contains(&Basis::Rake)
            || matches!(self.of, Of::Through(quantity) if quantity.is_against_ground());
        // What the right has not measured is as the left's: it has no guess that the left has not.
        if by_rake { &side.stance().corner(Side::Left).fitted } else { &side.fitted }
    }

    /// Every guess of a corner with its changes that it may rest on: more than it does, never less.
    #[must_use]
    pub fn may_rest_on(self, fitted: &Fitted) -> Guesses {
        let mut found = Guesses::NONE;
        for guess in Guesses::of(fitted).iter() {
            let may = match guess {
                Guess::Number(field) => self.may_rest_on_number(field, &fitted.measured),
                Guess::Change(at) => self.may_rest_on_change(fitted.guessed[at].0),
            };
            if may {
                found.insert(guess);
            }
        }
        found
    }

    /// Every guess of a corner that it may rest on in a pose that is steered: what turns the wheel is then
    /// part of how it stands.
    #[must_use]
    pub fn may_rest_on_steered(self, fitted: &Fitted) -> Guesses {
        let mut found = self.may_rest_on(fitted);
        for guess in Guesses::of(fitted).iter() {
            if matches!(guess, Guess::Number(field) if field.group() == Group::Steering) {
                found.insert(guess);
            }
        }
        found
    }
}

fn is_of_brake(field: Field) -> bool {
    field.group() == Group::Brake
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{Design, Edit, Place, ProposalId, Source, Sources, demo};

    fn own_truck() -> Design {
        demo().edited(&Edit::OwnTruck).unwrap()
    }

    /// Plate and flange of a joint that is turned over are guessed: every answer of the
    /// proposal may rest on them, and none of the truck as measured; a measured shift of the
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
        for figure in [Figure::FRAME_HEIGHT, Figure::CASTER, Figure::room(Pair::TireFender)] {
            let rests = figure.may_rest_on(&design(None).fitted(id).unwrap());
            let named: Vec<_> = rests.changes(&design(None).fitted(id).unwrap()).collect();
            assert_eq!(named, [(kind, place, 0), (kind, place, 1)], "{figure:?}");
            assert!(figure.may_rest_on(&design(None).as_measured()).is_empty(), "{figure:?}");
            assert!(figure.may_rest_on(&design(Some(15.88)).fitted(id).unwrap()).is_empty(), "{figure:?}");
        }
    }

    /// A caliper stands in the way of the rim alone, and what the rim meets ends the travel; a
    /// shock ends the travel alone.
    #[test]
    fn a_change_touches_what_its_part_does() {
        let touched = |kind| {
            let asked = [
                Figure::FRAME_HEIGHT,
                Figure::TOE,
                Figure::BUMP,
                Figure::least_room(Pair::RimCaliper),
                Figure::least_room(Pair::TireFender),
            ];
            asked.map(|figure| figure.may_rest_on_change(kind))
        };
        assert_eq!(touched(ChangeKind::Brake), [false, false, true, true, false]);
        assert_eq!(touched(ChangeKind::Shock), [false, false, true, false, false]);
        assert_eq!(touched(ChangeKind::DroppedSpindle), [true; 5]);
    }

    /// One's own truck is a guess until it is measured, number by number; a number that is not
    /// stated is none.
    #[test]
    fn what_is_measured_is_a_guess_no_more() {
        let mut design = own_truck();
        let figure = Figure::room(Pair::TireFender);
        let guesses = |design: &Design| figure.may_rest_on(&design.as_measured()).numbers;
        let first = guesses(&design);
        assert!(first.contains(Field::FenderZ) && first.contains(Field::TireSection));
        assert!(!first.contains(Field::RailOuterY) && !first.contains(Field::TireDiameter));
        for field in first.iter() {
            let value = field.get(&design.truck);
            design = design.edited(&Edit::Measure { field, value }).unwrap();
            assert!(!guesses(&design).contains(field), "{field:?}");
        }
        assert!(figure.may_rest_on(&design.as_measured()).is_empty());
        assert!(!Figure::least_room(Pair::TireRail).may_rest_on(&design.as_measured()).is_empty());
    }

    /// The wheelbase tips what is read against the ground, the rail's height is where frame height
    /// is taken, the steering box turns what is steered; the fender and other loads do nothing of that.
    #[test]
    fn a_figure_rests_on_what_it_is_made_of() {
        let mut truck = demo().truck;
        truck.sources = Sources::all(Source::Assumed);
        let fitted = Fitted::as_measured(&truck);
        let through =
            |quantity, field| Figure::through(quantity).may_rest_on(&fitted).numbers.contains(field);
        for (quantity, wheelbase, rail) in [
            (Quantity::Camber, false, false),
            (Quantity::CasterGround, true, false),
            (Quantity::TrailGround, true, false),
            (Quantity::Caster, false, false),
            (Quantity::RideHeight, false, true),
        ] {
            assert_eq!(through(quantity, Field::Wheelbase), wheelbase, "{quantity:?}");
            assert_eq!(through(quantity, Field::RailBottomZ), rail, "{quantity:?}");
            for field in [Field::LowerBallY, Field::UpperBallX, Field::CornerLoad, Field::TieInnerZ] {
                assert!(through(quantity, field), "{quantity:?} {field:?}");
            }
            for field in [Field::DriverLoad, Field::BedBehind, Field::FenderZ, Field::PitmanLength] {
                assert!(!through(quantity, field), "{quantity:?} {field:?}");
            }
            let steered = Figure::through(quantity).may_rest_on_steered(&fitted).numbers;
            assert!(steered.contains(Field::PitmanLength) && steered.contains(Field::LockLeft));
            assert!(steered.contains(Field::LowerBallY) && !steered.contains(Field::FenderZ));
        }
    }

    /// A torsion bar's truck stands on no coil.
    #[test]
    fn height_rests_on_the_spring_in_use() {
        for (kind, own, other) in [
            (SpringKind::TorsionBar, Field::BarDiameter, Field::CoilWire),
            (SpringKind::Coil, Field::CoilWire, Field::WheelRate),
            (SpringKind::WheelRate, Field::WheelRate, Field::BarDiameter),
        ] {
            let truck = own_truck().edited(&Edit::SpringKind(kind)).unwrap().truck;
            let guesses = Figure::FRAME_HEIGHT.may_rest_on(&Fitted::as_measured(&truck)).numbers;
            assert!(guesses.contains(own) && !guesses.contains(other), "{kind:?}");
        }
    }
}
