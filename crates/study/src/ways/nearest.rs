//! How near the pairs of a way come.

use crate::as_read::room_with_tolerance;
use crate::clearance::{Against, Pair, VariesWith, clearance};
use crate::grid::{Clearances, Found};
use crate::rest::Rest;
use crate::steering::Steering;
use crate::travel_left::{Limit, Limiter};
use linkage::Pose;

/// The least room of a pair.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) pair: Pair,
    /// Where it was read off the truck, the reading and the change, mm.
    pub(super) mm: f64,
    /// How far off that reading may be either way, mm.
    pub(super) give_mm: f64,
}

/// The least room of every pair.
///
/// Of a wheel and what controls the truck it is the least at any travel between the
/// stops: sheet metal and a stop's first touch hold no wheel back. Of the others it is
/// the least on the way to what ends the bump, and in droop; frame or fender that ends it
/// is met there by right, and is left out.
pub(super) fn rooms(rest: &Rest, room: &Clearances, bump: &Limit) -> Vec<Room> {
    let steering = Steering::of(rest).ok();
    let mut ends: Vec<Pose> = Vec::new();
    for steer in &room.steers {
        ends.extend(match &steering {
            Some(steering) => steering.pose(rest, bump.travel_mm, *steer).ok(),
            None => rest.at_travel(bump.travel_mm).ok(),
        });
    }
    // Where the least of all lies on the way it is known exactly; otherwise it is the
    // least of the grid's rows there and of one where the bump ends.
    let least = |found: &Found| {
        let anywhere = found.pair.against() == Against::Control;
        if found.pair.varies_with() == VariesWith::Nothing {
            return room_with_tolerance(rest, found.pair, found.gap.distance_mm);
        }
        if anywhere || found.at.travel_mm <= bump.travel_mm {
            return (found.gap.distance_mm, 0.0);
        }
        let mut least_mm = f64::INFINITY;
        for (travel_mm, row) in room.travels_mm.iter().zip(found.map.chunks(room.steers.len())) {
            if *travel_mm <= bump.travel_mm {
                for mm in row.iter().filter(|mm| mm.is_finite()) {
                    least_mm = least_mm.min(*mm);
                }
            }
        }
        for pose in &ends {
            if let Some(gap) = clearance(rest, pose, found.pair) {
                least_mm = least_mm.min(gap.distance_mm);
            }
        }
        (least_mm, 0.0)
    };
    let mut rooms = Vec::new();
    for found in &room.found {
        let pair = found.pair;
        if bump.by == Limiter::Contact(pair) && pair.against() == Against::Body {
            continue;
        }
        let (mm, give_mm) = least(found);
        if mm.is_finite() {
            rooms.push(Room { pair, mm, give_mm });
        }
    }
    rooms
}
