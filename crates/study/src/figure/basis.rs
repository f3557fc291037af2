//! What a figure may rest on: more than it does, never less.

use super::{Figure, Guess, Guesses, Of};
use crate::clearance::Pair;
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
            Self::Wheelbase | Self::Rake => field == Field::Wheelbase,
            Self::RailBottom => field == Field::RailBottomZ,
            Self::Steering => group == Group::Steering,
            Self::Limiters => ends_travel(field),
            Self::Own => match of {
                Of::Pair(pair) => of_pair(pair, field),
                Of::Low(low) => low.fields().contains(&field),
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

    /// Every guess that it may rest on, of a side of a truck: more than it does, never less.
    /// What is read against the ground rests on the other side as well.
    #[must_use]
    pub fn of_side_may_rest_on(self, side: &StandingSide) -> Guesses {
        // What the right has not measured is as the left's: it has no guess that the left has not.
        let guesses =
            if self.row.basis.contains(&Basis::Rake) { side.stance().corner(Side::Left) } else { side };
        self.may_rest_on(&guesses.fitted)
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
}

fn is_of_brake(field: Field) -> bool {
    field.group() == Group::Brake
}
