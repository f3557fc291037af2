//! What is one of a few. Forms, links and files hold the place in the list, from 0; whoever
//! computes asks by name.

use crate::slot::Slot;

macro_rules! choices {
    ($($(#[$doc:meta])+ $name:ident { $($(#[$one_doc:meta])+ $one:ident $words:literal,)+ })+) => { $(
        $(#[$doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[repr(u8)]
        pub enum $name {
            $($(#[$one_doc])+ $one,)+
        }

        impl $name {
            /// Every one, by its place.
            pub const ALL: &'static [Self] = &[$(Self::$one,)+];
            /// What the forms call them.
            pub const WORDS: &'static [&'static str] = &[$($words,)+];
        }

        impl Slot for Option<$name> {
            fn get(&self) -> Option<f64> {
                self.map(|one| f64::from(one as u8))
            }

            fn put(&mut self, value: Option<f64>) {
                let nearest = |value: f64| {
                    $name::ALL.iter().copied().find(|one| (f64::from(*one as u8) - value).abs() < 0.5)
                };
                *self = value.and_then(nearest);
            }
        }
    )+ };
}

choices! {
    /// How the inner ends of the tie rods are carried.
    SteeringKind {
        /// They go straight across.
        Rack "rack",
        /// On two arms that swing.
        PitmanArms "pitman and idler arms",
    }
    /// Where the pivots of the pitman and idler arms are.
    PitmanSide {
        /// The arms point forward.
        Behind "pivots behind the link",
        /// The arms point to the rear.
        Ahead "pivots ahead of the link",
    }
    /// Where the upper arm's shaft is bolted: to which side shims move it.
    ShaftSide {
        /// Shims move it outward.
        Outboard "outboard of its bracket",
        /// Shims move it inward.
        Inboard "inboard of its bracket",
    }
    /// Whether a tooth of a spline is blind, so that it goes in one way only.
    BlindTooth {
        /// It goes in at any tooth.
        No "no",
        /// It goes in one way.
        Yes "yes",
    }
    /// At which end of its spring a rear shackle hangs; the fixed eye is at the other.
    ShackleEnd {
        /// Behind the axle, as on most trucks.
        Rear "at the rear of the spring",
        /// Ahead of the axle.
        Front "at the front of the spring",
    }
    /// How a coil's ends are made.
    CoilEnds {
        /// Cut off.
        Plain "plain",
        /// Cut off and ground flat.
        PlainGround "plain and ground",
        /// Bent onto the next coil.
        Closed "closed",
        /// Bent onto the next coil and ground flat.
        ClosedGround "closed and ground",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Links of every version hold these places.
    #[test]
    fn each_is_at_its_place_and_back() {
        let mut ends = None;
        for (place, one) in [
            (0.0, CoilEnds::Plain),
            (1.0, CoilEnds::PlainGround),
            (2.0, CoilEnds::Closed),
            (3.0, CoilEnds::ClosedGround),
        ] {
            ends.put(Some(place));
            assert_eq!((ends, ends.get()), (Some(one), Some(place)));
        }
        ends.put(Some(4.0));
        assert_eq!(ends, None, "there is no fifth");
        ends.put(None);
        assert_eq!(ends.get(), None);
        assert_eq!(Some(ShaftSide::Inboard).get(), Some(1.0));
        assert_eq!(Some(PitmanSide::Ahead).get(), Some(1.0));
        assert_eq!(Some(SteeringKind::Rack).get(), Some(0.0));
        assert_eq!(Some(BlindTooth::Yes).get(), Some(1.0));
        assert_eq!(Some(ShackleEnd::Front).get(), Some(1.0));
        assert_eq!(CoilEnds::ALL.len(), CoilEnds::WORDS.len());
    }
}
