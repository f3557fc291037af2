//! How sure it is which way gives up least.

use super::{Way, Ways};
use crate::figure::{Figure, Trial, Value};
use crate::spread::Draws;
use truck::{Overlay, Side};

/// Of the trucks that the measured one may be, as shares of one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Certainty {
    /// In which a way gives up least of those that were asked about.
    pub is_cheapest: f64,
    /// In which it leaves the bump travel and the ride frequency that were wished.
    pub keeps: f64,
}

/// What a way gives up is worked out from these.
const ASKED: [Figure; 4] = [Figure::BUMP, Figure::CAMBER, Figure::CASTER_GROUND, Figure::RIDE_FREQUENCY];

/// The first ways on trucks that the measured one may be, to be taken on in steps.
#[derive(Clone, Debug)]
pub struct Contest {
    /// As it sits, then each way.
    drawn: Draws,
    ways: usize,
}

impl Contest {
    /// How many of the first ways people choose between.
    pub const WAYS: usize = 3;
    /// How many draws tell nineteen in twenty from a coin.
    pub const DRAWS: usize = 100;

    /// How many draws are whole.
    #[must_use]
    pub fn draws(&self) -> usize {
        self.drawn.count()
    }

    /// Reads one truck of a draw.
    pub fn step(&mut self) {
        self.drawn.step(&|trial, figures| trial.values(Side::Left, figures));
    }
}

impl Ways {
    /// The first `count` ways set against each other by draws of the truck: what is not known exactly is moved at
    /// once, the same in all of them, so what is off in one is off in the other.
    #[must_use]
    pub fn contest(&self, count: usize) -> Contest {
        let ways = &self.found[..count.min(self.found.len())];
        let trial = |overlay: Overlay<'_>| Trial::new(&self.truck, overlay);
        let mut trials = vec![trial(Overlay::NOTHING)];
        for way in ways {
            trials.push(trial(self.overlay(&way.changes)));
        }
        Contest { drawn: Draws::new(trials, Side::Left, &ASKED, Draws::SEED), ways: ways.len() }
    }

    /// How sure the ways of a contest are, by its draws so far. `contest`: one of this very search.
    #[must_use]
    pub fn certainties(&self, contest: &Contest) -> Vec<Certainty> {
        let Contest { drawn, ways } = contest;
        let (ways, draws) = (&self.found[..*ways], drawn.count());
        let mut found = vec![Certainty { is_cheapest: 0.0, keeps: 0.0 }; ways.len()];
        let share = 1.0 / f64::from(u32::try_from(draws.max(1)).unwrap_or(u32::MAX));
        for draw in 0..draws {
            let mut cheapest: Option<(usize, f64)> = None;
            for (at, way) in ways.iter().enumerate() {
                let Some(cost) = self.drawn_cost(drawn, draw, at, way) else { continue };
                let (low, high) = self.wish.frequency_hz;
                let of = |figure| number(drawn, draw, at + 1, figure);
                let bump = of(Figure::BUMP).is_some_and(|mm| mm >= self.wish.bump_mm);
                let rides = of(Figure::RIDE_FREQUENCY).is_some_and(|hz| low <= hz && hz <= high);
                if bump && rides {
                    found[at].keeps += share;
                }
                if cheapest.is_none_or(|(_, least)| cost < least) {
                    cheapest = Some((at, cost));
                }
            }
            if let Some((at, _)) = cheapest {
                found[at].is_cheapest += share;
            }
        }
        found
    }

    /// What a way gives up in a draw; `None` where it does not stand there.
    fn drawn_cost(&self, drawn: &Draws, draw: usize, at: usize, way: &Way) -> Option<f64> {
        let more = |figure| Some(number(drawn, draw, at + 1, figure)? - number(drawn, draw, 0, figure)?);
        Some(self.cost(
            &way.changes,
            [
                -more(Figure::BUMP)?,
                more(Figure::CAMBER)?,
                more(Figure::CASTER_GROUND)?,
                more(Figure::RIDE_FREQUENCY)?,
            ],
        ))
    }
}

fn number(drawn: &Draws, draw: usize, at: usize, figure: Figure) -> Option<f64> {
    drawn.value(draw, at, figure).and_then(Value::number)
}
