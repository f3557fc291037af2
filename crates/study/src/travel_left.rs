//! How far the wheel can still go, and what ends it.

use crate::clearance::{Pair, clearance};
use crate::rest::Rest;
use linkage::root;

/// What ends the travel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limiter {
    /// First touch of the bump stop.
    BumpStop,
    /// The tire meets something.
    Contact(Pair),
    /// The wheel hangs.
    DroopStop,
}

/// How far, and what ends it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Travel from rest, mm, >= 0.
    pub travel_mm: f64,
    /// What ends it.
    pub by: Limiter,
}

/// What is left of the travel at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct TravelLeft {
    /// In bump: the least of the stop's first touch and the first contact.
    pub bump: Limit,
    /// To the first touch of the bump stop, mm; negative where it is already squeezed.
    pub touch_mm: f64,
    /// To the bump stop solid, mm.
    pub solid_mm: f64,
    /// In droop.
    pub droop: Limit,
    /// Each pair that meets before the stop is solid: the travel at which it
    /// does, mm; zero where it does so at rest.
    pub contacts: Vec<(Pair, f64)>,
}

/// Steps of travel between rest and the stop in which a contact is looked for.
const STEPS: u32 = 12;

/// How far the wheel can still go.
#[must_use]
pub fn travel_left(rest: &Rest) -> TravelLeft {
    let touch_mm = rest.travel_at(rest.stops.touch_rad);
    let solid_mm = rest.travel_at(rest.stops.solid_rad);
    let contacts: Vec<(Pair, f64)> =
        Pair::ALL.iter().filter_map(|pair| Some((*pair, first_contact(rest, *pair, solid_mm)?))).collect();
    let stop = Limit { travel_mm: touch_mm.max(0.0), by: Limiter::BumpStop };
    let bump = contacts.iter().fold(stop, |least, (pair, travel_mm)| {
        if *travel_mm < least.travel_mm {
            Limit { travel_mm: *travel_mm, by: Limiter::Contact(*pair) }
        } else {
            least
        }
    });
    let droop_mm = -rest.travel_at(rest.stops.droop_rad);
    TravelLeft {
        bump,
        touch_mm,
        solid_mm,
        droop: Limit { travel_mm: droop_mm.max(0.0), by: Limiter::DroopStop },
        contacts,
    }
}

/// The travel at which a pair first meets between rest and `to_mm`.
fn first_contact(rest: &Rest, pair: Pair, to_mm: f64) -> Option<f64> {
    let room = |travel_mm: f64| {
        let pose = rest.at_travel(travel_mm).ok()?;
        Some(clearance(&rest.fitted, &pose, pair).distance_mm)
    };
    if room(0.0)? <= 0.0 {
        return Some(0.0);
    }
    let step = to_mm.max(0.0) / f64::from(STEPS);
    let mut clear_mm = 0.0;
    for at in 1..=STEPS {
        let travel_mm = step * f64::from(at);
        // Where the wheel cannot go, nothing is met.
        let here = room(travel_mm)?;
        if here <= 0.0 {
            return root::bracketed(room, clear_mm, travel_mm, 1e-6);
        }
        clear_mm = travel_mm;
    }
    None
}
