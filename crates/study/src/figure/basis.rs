//! What a figure may rest on: more than it does, never less.

use super::{Figure, Guess, Guesses, Of};
use crate::clearance::Pair;
use crate::quantity::Quantity;
use truck::{ChangeKind, Field, Fitted, Group, SpringKind, Truck};

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
    /// The rail's height.
    RailBottom,
    /// What steers the wheels, and how far.
    Steering,
    /// Whatever can end the travel.
    Limiters,
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
            Self::Wheelbase => field == Field::Wheelbase,
            Self::RailBottom => field == Field::RailBottomZ,
            Self::Steering => group == Group::Steering,
            Self::Limiters => ends_travel(field),
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
            // Whatever else moves a part or the spring moves the stance, and all that is read in it.
            _ => !basis.is_empty(),
        }
    }

    /// Every guess of a truck with its changes that it may rest on: more than it does, never less.
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

    /// The same in a pose that is steered: what turns the wheel is then part of how it stands.
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

impl Guesses {
    /// Every guess that any of some figures of a truck with its changes may rest on.
    #[must_use]
    pub fn under(figures: &[Figure], fitted: &Fitted) -> Self {
        figures.iter().fold(Self::NONE, |all, figure| all.union(figure.may_rest_on(fitted)))
    }
}

fn is_of_brake(field: Field) -> bool {
    field.group() == Group::Brake
}
