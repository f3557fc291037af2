//! What figures are read from.

use super::{Figure, Trial, Values};
use crate::as_read::AsRead;
use crate::clearance::{Pair, Shapes};
use crate::grid::{Clearances, Found};
use crate::quantity::Gauged;
use crate::rest::Rest;
use crate::scrub_line::ScrubLine;
use crate::sides::{LeftRight, left_and_right};
use crate::spring_loads::{SpringLoads, spring_loads};
use crate::stance::{Stance, StandingSide};
use crate::steering::{Steering, Turn};
use crate::travel_left::{TravelLeft, travel_left_of};
use std::cell::OnceCell;
use truck::{LoadCase, Readable, Side};

/// The studies of a truck, as far as whoever shows figures has them.
///
/// What is not there is `None`, and so is every figure that is read from it.
pub trait Studies {
    /// The side that is asked about, of the truck at rest.
    fn rest(&self) -> &StandingSide;

    /// What is read off the pose that is shown.
    fn gauged(&self) -> Option<&Gauged> {
        None
    }

    /// The room of a pair at that pose, mm.
    fn room_mm(&self, _: Pair) -> Option<f64> {
        None
    }

    /// The room of a pair over travel and steer.
    fn found(&self, _: Pair) -> Option<&Found> {
        None
    }

    /// The room over travel and steer of a pair that meets; one that does not may be left out.
    fn meeting(&self, pair: Pair) -> Option<&Found> {
        self.found(pair)
    }

    /// What is left of the travel.
    fn travel(&self) -> Option<&TravelLeft> {
        None
    }

    /// How hard the spring works.
    fn spring_loads(&self) -> Option<&SpringLoads> {
        None
    }

    /// The corner of the truck before any change, at rest.
    fn as_it_sits(&self) -> Option<&Rest> {
        None
    }

    /// Frame height under another load, mm.
    fn height_under_mm(&self, _: LoadCase) -> Option<f64> {
        None
    }

    /// What hangs low.
    fn scrub_line(&self) -> Option<&ScrubLine> {
        None
    }

    /// Both wheels at full lock to a side.
    fn lock(&self, _: Side) -> Option<&Turn> {
        None
    }

    /// What was read off the truck, beside the model's own as it sits.
    fn as_read(&self, of: Readable) -> Option<AsRead> {
        AsRead::of(self.rest(), of, Clearances::LIVE)
    }

    /// Left and right beside each other.
    fn sides(&self) -> Option<&[LeftRight; 7]> {
        None
    }
}

/// Every study of a truck at rest, each made once, when a figure first asks for it.
#[derive(Debug)]
pub struct Studied<'a> {
    rest: &'a StandingSide,
    count: u32,
    gauged: OnceCell<Option<Gauged>>,
    shapes: OnceCell<Shapes>,
    /// Every pair's, where all were asked for.
    clearances: OnceCell<Clearances>,
    found: [OnceCell<Option<Found>>; Pair::ALL.len()],
    /// Those that meet, where no more was asked for.
    that_meet: OnceCell<Clearances>,
    travel: OnceCell<TravelLeft>,
    spring_loads: OnceCell<SpringLoads>,
    scrub_line: OnceCell<ScrubLine>,
    locks: OnceCell<Option<[Option<Turn>; 2]>>,
    sides: OnceCell<[LeftRight; 7]>,
}

impl<'a> Studied<'a> {
    /// Of one side of a truck, its room on a grid of `count` by `count` poses.
    #[must_use]
    pub fn new(rest: &'a StandingSide, count: u32) -> Self {
        Self {
            rest,
            count,
            gauged: OnceCell::new(),
            shapes: OnceCell::new(),
            clearances: OnceCell::new(),
            found: [const { OnceCell::new() }; Pair::ALL.len()],
            that_meet: OnceCell::new(),
            travel: OnceCell::new(),
            spring_loads: OnceCell::new(),
            scrub_line: OnceCell::new(),
            locks: OnceCell::new(),
            sides: OnceCell::new(),
        }
    }

    /// The room of every pair over travel and steer, which then is what figures are read from.
    pub fn clearances(&self) -> &Clearances {
        self.clearances.get_or_init(|| Clearances::of(self.rest, self.count))
    }

    /// The values of figures, in their order: what several of them need is made in one go.
    #[must_use]
    pub fn values(&self, figures: &[Figure]) -> Values {
        if figures.iter().filter(|figure| figure.is_of_least_room()).count() > 2 {
            let _ = self.clearances();
        }
        figures.iter().map(|figure| figure.read(self)).collect()
    }

    /// Left and right.
    fn both(&self) -> [&Rest; 2] {
        Side::ALL.map(|side| self.rest.stance().corner(side))
    }

    fn that_meet(&self) -> &Clearances {
        let alone = || Clearances::that_meet(self.rest, self.count);
        self.clearances.get().unwrap_or_else(|| self.that_meet.get_or_init(alone))
    }
}

impl Trial {
    /// The values of figures at a side, in their order, read as often as a search asks: none where the
    /// truck does not stand. Their room is on a grid that tells whether anything moves
    /// ([`Clearances::PROBED`]).
    #[must_use]
    pub fn values(&self, side: Side, figures: &[Figure]) -> Values {
        let stance = Stance::laid(&self.truck, self.overlay());
        let Ok(rest) = stance.map(|stance| stance.on(side)) else { return vec![None; figures.len()] };
        Studied::new(&rest, Clearances::PROBED).values(figures)
    }
}

impl Studies for Studied<'_> {
    fn rest(&self) -> &StandingSide {
        self.rest
    }

    fn gauged(&self) -> Option<&Gauged> {
        self.gauged.get_or_init(|| Gauged::of(self.rest, self.rest.pose).ok()).as_ref()
    }

    fn room_mm(&self, pair: Pair) -> Option<f64> {
        let shapes = self.shapes.get_or_init(|| Shapes::of(self.rest));
        Some(shapes.gap(self.rest, &self.rest.pose, pair)?.distance_mm)
    }

    fn found(&self, pair: Pair) -> Option<&Found> {
        if let Some(all) = self.clearances.get() {
            return all.of_pair(pair);
        }
        let alone = || Clearances::of_pairs(self.rest, self.count, &[pair]).found.pop();
        self.found[pair as usize].get_or_init(alone).as_ref()
    }

    fn meeting(&self, pair: Pair) -> Option<&Found> {
        self.that_meet().of_pair(pair)
    }

    fn travel(&self) -> Option<&TravelLeft> {
        Some(self.travel.get_or_init(|| travel_left_of(self.rest, self.that_meet())))
    }

    fn spring_loads(&self) -> Option<&SpringLoads> {
        Some(self.spring_loads.get_or_init(|| spring_loads(self.rest)))
    }

    fn as_it_sits(&self) -> Option<&Rest> {
        self.rest.as_it_sits()
    }

    fn height_under_mm(&self, case: LoadCase) -> Option<f64> {
        Some(Rest::of(self.rest.fitted.under(case)?).ok()?.ride_height_mm())
    }

    fn scrub_line(&self) -> Option<&ScrubLine> {
        Some(self.scrub_line.get_or_init(|| ScrubLine::worst(self.rest)))
    }

    fn lock(&self, to: Side) -> Option<&Turn> {
        let both = || {
            let [left, right] = self.both();
            let steering = Steering::of(left).ok()?;
            Some([1.0, -1.0].map(|steer| steering.turn(left, right, 0.0, steer).ok()))
        };
        self.locks.get_or_init(both).as_ref()?[usize::from(to == Side::Right)].as_ref()
    }

    fn as_read(&self, of: Readable) -> Option<AsRead> {
        AsRead::of(self.rest, of, self.count)
    }

    fn sides(&self) -> Option<&[LeftRight; 7]> {
        let [left, right] = self.both();
        Some(self.sides.get_or_init(|| left_and_right(left, right)))
    }
}
