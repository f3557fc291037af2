//! The search for ways down: what it is asked, and what it has found so far. Kept while the page
//! is open, so that another panel can be looked at meanwhile.

use crate::signals::Value;
use drawing::{Units, no_rear_way_in_words};
use study::{LeftOut, Lowest, Miss, PartsTable, RearTable, Way, Ways, Weights, Wish, rear_way};
use truck::{RearField, TireSize, Truck};

/// As many are shown.
const SHOWN: usize = 8;

/// A search: asked, under way or done.
#[derive(Clone, Debug)]
pub(crate) struct Hunt {
    /// What is asked.
    pub(crate) asked: Asked,
    /// Counts up with every start and stop: a search that is not the newest ends.
    number: u32,
    /// How far it is; `None` before it was ever begun.
    pub(crate) progress: Option<Progress>,
    /// How sure the first ways are, once that is known, and of which truck; of its own, since what was found stays as
    /// it is.
    pub(crate) sure: Value<Option<(Truck, Vec<String>)>>,
}

/// What a search is asked.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Asked {
    /// Drop, bump travel, room of what turns and of the rest, mm; least and greatest frequency, Hz; most turns of the bolt.
    pub(crate) numbers: [f64; 7],
    /// Weights of bump travel, camber, caster, frequency, parts and scars.
    pub(crate) weights: [f64; 6],
    /// Whether spindles, springs, a trimmed stop and tires are on the table; whether shims and the scrub line limit;
    /// whether the rear is to come down as far.
    pub(crate) ticks: [bool; 7],
    /// Tire sizes, as they were typed.
    pub(crate) tires: String,
}

/// What a search has found so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Progress {
    /// Combinations tried.
    pub(crate) tried: usize,
    /// Combinations there are.
    pub(crate) total: usize,
    /// Whether it has ended.
    pub(crate) done: bool,
    /// The cheapest, first.
    pub(crate) ways: Vec<Way>,
    /// Why others are left out, and how many.
    pub(crate) left_out: Vec<(LeftOut, usize)>,
    /// The nearest of those, once it is done.
    pub(crate) misses: Vec<Miss>,
    /// The lowest that the parts reach, where none is a way.
    pub(crate) lowest: Option<Lowest>,
}

impl Hunt {
    /// What is usual, not begun.
    pub(crate) fn new() -> Self {
        let Weights { bump, camber, caster, frequency, part, scar } = Weights::default();
        let wish = Wish::default();
        let (low, high) = wish.frequency_hz;
        Self {
            asked: Asked {
                numbers: [wish.drop_mm, wish.bump_mm, wish.turning_mm, wish.room_mm, low, high, 12.0],
                weights: [bump, camber, caster, frequency, part, scar],
                ticks: [true, true, false, false, true, true, false],
                tires: "195/60R14".to_owned(),
            },
            number: 0,
            progress: None,
            sure: Value::new(None),
        }
    }

    /// Which search this is: of two the greater is the newer.
    pub(crate) const fn number(&self) -> u32 {
        self.number
    }

    /// Begins a search of so many combinations; one under way is no longer the newest.
    pub(crate) fn begin(&mut self, total: usize) {
        self.number += 1;
        self.sure.set(None);
        self.progress = Some(Progress { total, ..Progress::default() });
    }

    /// Asks for something else: what was found was of what was asked before.
    pub(crate) fn ask(&mut self, change: impl FnOnce(&mut Asked)) {
        let before = self.asked.clone();
        change(&mut self.asked);
        if self.asked != before {
            self.number += 1;
            self.progress = None;
            self.sure.set(None);
        }
    }

    /// Stops where it is.
    pub(crate) fn stop(&mut self) {
        self.number += 1;
        if let Some(progress) = &mut self.progress {
            progress.done = true;
        }
    }
}

impl Asked {
    /// The search that is asked for of a truck whose rear comes down by so much; open, it stays, or comes down by
    /// its own parts where those are asked for and it is measured.
    ///
    /// # Errors
    /// Why the truck does not stand as measured, or no rear parts bring it down as far.
    pub(crate) fn search(
        &self,
        truck: &Truck,
        rear_down_mm: Option<f64>,
        units: Units,
    ) -> Result<Ways, String> {
        let [drop_mm, bump_mm, turning_mm, room_mm, low, high, turns] = self.numbers;
        let [spindles, springs, trim, tires, shims, flat_tire, rear] = self.ticks;
        let rear = rear && has_rear(truck);
        let wish = Wish {
            drop_mm,
            bump_mm,
            room_mm,
            turning_mm,
            flat_tire,
            shims: shims && truck.shims.side.is_some(),
            frequency_hz: (low, high),
            rear_down_mm: rear_down_mm.filter(|_| !rear),
            ..Wish::default()
        };
        let [bump, camber, caster, frequency, part, scar] = self.weights;
        let weights = Weights { bump, camber, caster, frequency, part, scar };
        let mut table = PartsTable::usual(truck);
        table.turns.retain(|out| out.abs() <= turns);
        if !spindles {
            table.spindles_mm.clear();
        }
        if !springs {
            (table.turns, table.splines, table.coils) = (Vec::new(), Vec::new(), Vec::new());
        }
        if !trim {
            table.trims_mm.clear();
        }
        if tires {
            table.tires = sizes(&self.tires);
        }
        if rear {
            let found = rear_way(truck, drop_mm, bump_mm, &RearTable::default());
            table.rear = found.map_err(|why| no_rear_way_in_words(&why, truck, units))?.changes;
        }
        Ways::new(truck, wish, weights, table).map_err(|why| why.to_string())
    }
}

/// Whether a rear is measured, so that it can be brought down too.
pub(crate) fn has_rear(truck: &Truck) -> bool {
    truck.rear.get(RearField::FrameHeight).is_some()
}

impl Progress {
    /// How far a search is.
    pub(crate) fn of(search: &Ways, done: bool) -> Self {
        Self {
            tried: search.tried(),
            total: search.total(),
            done,
            ways: search.found().iter().take(SHOWN).cloned().collect(),
            left_out: search.left_out().collect(),
            misses: if done { search.misses().to_vec() } else { Vec::new() },
            lowest: search.lowest().cloned(),
        }
    }
}

/// The sizes of a list; what is no size is passed over.
fn sizes(text: &str) -> Vec<TireSize> {
    let mut sizes = Vec::new();
    for one in text.split([',', ' ', ';']) {
        if let Ok(size) = measure::TireSize::parse(one) {
            sizes.push(TireSize {
                section_mm: size.width_mm,
                aspect_percent: size.aspect_percent,
                rim_code: size.rim_in,
            });
        }
    }
    sizes
}
