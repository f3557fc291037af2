//! What is told of a way and of a miss: each number with the guesses that it may rest on.

use super::{LeftOut, Lowest, Miss, Way};
use crate::figure::{Figure, Guesses, Told};
use crate::scrub_line::Low;
use crate::travel_left::Limiter;
use truck::{Change, Fitted, Overlay, Truck, fit};

/// A truck with changes on; as measured where they do not fit.
fn fitted(truck: &Truck, changes: &[Change], rear_down_mm: Option<f64>) -> Fitted {
    let overlay = Overlay { rear_down_mm, ..Overlay::from(changes) };
    fit(truck, overlay).unwrap_or_else(|_| Fitted::as_measured(truck))
}

impl Way {
    /// What it comes to on the truck that it was sought for: lower by, bump travel, camber
    /// and caster less those as measured, ride frequency; and the room of the nearest pair.
    /// Each rests on all that its figure may rest on: rather one guess too many.
    #[must_use]
    pub fn told(&self, truck: &Truck) -> ([Told; 5], Option<Told>) {
        let on = fitted(truck, &self.changes, self.rear_down_mm);
        let tell = |figure: Figure, number: f64| figure.told_as(number, figure.may_rest_on(&on));
        let all = [
            tell(Figure::DROP, self.drop_mm),
            tell(Figure::BUMP, self.bump.travel_mm),
            tell(Figure::CAMBER, self.camber_rad),
            tell(Figure::CASTER_GROUND, self.caster_rad),
            tell(Figure::RIDE_FREQUENCY, self.frequency_hz),
        ];
        (all, self.nearest.map(|(pair, mm)| tell(Figure::least_room(pair), mm)))
    }
}

impl Lowest {
    /// How high the frame stands and how much lower that is than as measured, on the truck that it was sought for.
    #[must_use]
    pub fn told(&self, truck: &Truck) -> [Told; 2] {
        let on = fitted(truck, &self.changes, None);
        [(Figure::FRAME_HEIGHT, self.frame_mm), (Figure::DROP, self.drop_mm)]
            .map(|(figure, mm)| figure.told_as(mm, figure.may_rest_on(&on)))
    }
}

impl Miss {
    /// How much lower it would be than as measured on the truck that it was sought for, and
    /// by how much it is short. Each rests on all that it may rest on.
    #[must_use]
    pub fn told(&self, truck: &Truck) -> [Told; 2] {
        let on = fitted(truck, &self.changes, None);
        let (figure, more) = match (self.why, self.by) {
            (LeftOut::Frequency, _) => (Figure::RIDE_FREQUENCY, Guesses::NONE),
            (LeftOut::Shims, _) => (Figure::CAMBER, Guesses::NONE),
            (LeftOut::Bump, _) => (Figure::BUMP, Guesses::NONE),
            (LeftOut::Room, Some(Limiter::Contact(pair))) => (Figure::least_room(pair), Guesses::NONE),
            // Which point hangs lowest is not said.
            (LeftOut::FlatTire, _) => {
                let of = |low| Figure::over_line(low).may_rest_on(&on);
                (Figure::RIM_EDGE, Low::ALL.into_iter().map(of).collect())
            }
            (LeftOut::Stop, _) => (Figure::BUMP_TOUCH, Guesses::NONE),
            _ => (Figure::DROP, Guesses::NONE),
        };
        let drop = Figure::DROP;
        [
            drop.told_as(self.drop_mm, drop.may_rest_on(&on)),
            figure.told_as(self.short, figure.may_rest_on(&on).union(more)),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clearance::Pair;
    use crate::travel_left::Limit;
    use truck::{Field, Source, demo};

    fn truck(guess: Field) -> Truck {
        let mut truck = demo().truck;
        truck.sources.set(guess, Source::Assumed);
        truck
    }

    fn way() -> Way {
        Way {
            index: 0,
            changes: Vec::new(),
            rear_down_mm: None,
            drop_mm: 1.0,
            bump: Limit { travel_mm: 2.0, by: Limiter::BumpStop },
            bump_lost_mm: 0.0,
            camber_rad: 3.0,
            caster_rad: 4.0,
            frequency_hz: 5.0,
            nearest: Some((Pair::TireFender, 6.0)),
            unseen: Vec::new(),
            cost: 0.0,
        }
    }

    /// What a lip nobody has measured touches: the travel that it may end, and the tire's way
    /// to it; nothing of height, lean or spring. The wheelbase tips caster against the ground.
    #[test]
    fn a_way_marks_what_the_guess_can_move() {
        let marks = |guess: Field| {
            let (all, nearest) = way().told(&truck(guess));
            (all.map(|told| told.is_guess()), nearest.is_some_and(|told| told.is_guess()))
        };
        assert_eq!(marks(Field::FenderZ), ([false, true, false, false, false], true));
        assert_eq!(marks(Field::Wheelbase), ([false, false, false, true, false], false));
        assert!(marks(Field::RailBottomZ).0[0]);
        assert_eq!(marks(Field::CornerLoad), ([true; 5], true));
        let (all, nearest) = way().told(&demo().truck);
        let numbers = all.into_iter().chain(nearest).map(|told| told.number().unwrap());
        assert_eq!(numbers.collect::<Vec<_>>(), [1.0, 2.0, 3.0, 4.0, 5.0, 6.0]);
    }

    /// A miss is short of what it was left out for: of room by its pair, of a height by the rail's.
    #[test]
    fn a_miss_marks_what_it_is_short_of() {
        let miss = |why, by| Miss {
            index: 0,
            changes: Vec::new(),
            drop_mm: 40.0,
            why,
            short: 3.0,
            by,
            besides: None,
        };
        let marks = |miss: Miss, guess| miss.told(&truck(guess)).map(|told| told.is_guess());
        let room = || miss(LeftOut::Room, Some(Limiter::Contact(Pair::TireFender)));
        assert_eq!(marks(room(), Field::FenderZ), [false, true]);
        assert_eq!(marks(room(), Field::CaliperRadius), [false, false]);
        assert_eq!(marks(miss(LeftOut::Bump, None), Field::CaliperRadius), [false, true]);
        assert_eq!(marks(miss(LeftOut::Height, None), Field::RailBottomZ), [true, true]);
        assert_eq!(marks(miss(LeftOut::Frequency, None), Field::RailBottomZ), [true, false]);
        assert_eq!(marks(miss(LeftOut::FlatTire, None), Field::BedLoad), [false, true]);
        assert_eq!(marks(miss(LeftOut::Stop, None), Field::BumpGap), [true, true]);
    }
}
