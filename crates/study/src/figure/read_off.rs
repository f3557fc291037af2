//! Which figures can be read off a truck, and what is then told of them.

use super::{Figure, Of, Studies, Value};
use crate::as_read::AsRead;
use crate::clearance::{Pair, VariesWith};
use truck::{OneSide, Readable};

impl Figure {
    /// The answer that is read off a truck where this figure is told by a reading.
    ///
    /// Caster is read against the ground, which is the frame as it sits; height under a load
    /// stands on the same rail; and what never moves comes no nearer anywhere.
    #[must_use]
    pub fn readable(self) -> Option<Readable> {
        Readable::from_key(match (self.of, self.row.key()) {
            (Of::Truck, "caster") => Readable::Caster.key(),
            (Of::Truck, "ride_height_driver" | "ride_height_bed") => Readable::FrameHeight.key(),
            (Of::Truck, key) => key,
            (Of::Pair(pair), "") => pair.key(),
            (Of::Pair(pair), "_least") if pair.varies_with() == VariesWith::Nothing => pair.key(),
            _ => return None,
        })
    }

    /// The figure that a reading is of.
    ///
    /// # Panics
    /// Never: a test holds the two tables together.
    #[must_use]
    pub fn of_reading(of: Readable) -> Self {
        match of {
            Readable::FrameHeight => Self::FRAME_HEIGHT,
            Readable::Camber => Self::CAMBER,
            Readable::Toe => Self::TOE,
            Readable::Caster => Self::CASTER_GROUND,
            Readable::Inclination => Self::INCLINATION,
            Readable::Droop => Self::DROOP,
            Readable::StopDaylight => Self::STOP_DAYLIGHT,
            Readable::FenderAbove => Self::FENDER_ABOVE,
            pair => Self::room(Pair::from_key(pair.key()).expect("all others are distances")),
        }
    }

    /// What was read of it off a truck, at the side that the truck stands for.
    #[must_use]
    pub fn reading(self, truck: &OneSide) -> Option<&truck::Reading> {
        if truck.readings.is_empty() {
            return None;
        }
        truck.readings.get(self.readable()?, truck.side())
    }

    pub(super) fn as_read(self, studies: &dyn Studies) -> Option<AsRead> {
        self.reading(&studies.rest().fitted.measured)?;
        studies.as_read(self.readable()?)
    }
}

/// What is told where the model says `own`: where it was read off the truck, the reading with
/// what the model says of the change.
pub(super) fn as_told(read: Option<AsRead>, own: Option<Value>) -> Option<Value> {
    match (read, own) {
        (Some(read), None) => read.told(None).map(Value::Number),
        (Some(read), Some(Value::Number(own))) => read.told(Some(own)).map(Value::Number),
        (_, own) => own,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::Sort;
    use truck::Kind;

    /// A reading goes by its answer's name in files, and is called as it is: two names for one
    /// thing, and a file of the one would be lost on the other.
    #[test]
    fn a_reading_is_named_as_its_figure_is() {
        for of in Readable::ALL.iter().copied() {
            let figure = Figure::of_reading(of);
            assert_eq!((figure.key().as_str(), figure.readable()), (of.key(), Some(of)));
            assert_eq!(figure.label().to_lowercase(), of.label().to_lowercase());
            let sort = if of.kind() == Kind::Angle { Sort::Angle } else { Sort::Length };
            assert_eq!(figure.sort(), sort, "{of:?}");
        }
        for pair in Pair::ALL.iter().copied() {
            assert_eq!(Figure::room(pair).readable().map(Readable::key), Some(pair.key()));
        }
        // What a reading cannot say.
        let silent = [Figure::BUMP, Figure::BUMP_TOUCH, Figure::DROOP_STOP, Figure::HELD_BY, Figure::DROP];
        assert!(silent.iter().all(|figure| figure.readable().is_none()));
        let fender = Pair::TireFender;
        let elsewhere = [Figure::least_room(fender), Figure::least_at(fender), Figure::meets_at(fender)];
        assert!(elsewhere.iter().all(|figure| figure.readable().is_none()));
        assert_eq!(Figure::least_room(Pair::RimLowerJoint).readable(), Some(Readable::RimLowerJoint));
        assert_eq!(Figure::meets_at(Pair::RimLowerJoint).readable(), None);
    }
}
