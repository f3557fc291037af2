//! The poses of a sweep, row by row.

use linkage::Vector3;
use study::{Span, StandingSide, Station, Steering, steer_sweep, sweep};

/// Which poses a table has.
pub(super) struct Poses {
    pub(super) travels: Span,
    /// Places of the tie rod's inner end.
    pub(super) relays: Span,
    /// Steered in so many steps, in place of moving the tie rod's end.
    pub(super) lock_to_lock: Option<u32>,
    /// A right corner is mirrored: what goes to the truck's left goes to its right.
    pub(super) sign: f64,
}

impl Poses {
    /// Each row's second number, where the relay rod is, mm, or the heading, rad, and its station.
    pub(super) fn rows<'a>(
        &'a self,
        rest: &'a StandingSide,
    ) -> Box<dyn Iterator<Item = (f64, Station)> + 'a> {
        let sign = self.sign;
        if let Some(count) = self.lock_to_lock {
            let steering = Steering::of(rest).ok();
            let steered = move |travel_mm| {
                let poses =
                    steering.iter().flat_map(|steering| steer_sweep(rest, steering, travel_mm, count));
                let mut poses: Vec<_> = poses.collect();
                if sign < 0.0 {
                    // Its own left lock is the truck's right one.
                    poses.reverse();
                }
                poses.into_iter().map(move |gauged| {
                    (sign * gauged.pose.heading_rad(), Station { travel_mm, gauged: Ok(gauged) })
                })
            };
            return Box::new(self.travels.travels().flat_map(steered));
        }
        let moved = move |relay_mm: f64| {
            let stations = sweep(rest, &self.travels, Vector3::new(0.0, sign * relay_mm, 0.0)).stations;
            stations.into_iter().map(move |station| (relay_mm, station))
        };
        Box::new(self.relays.travels().flat_map(moved))
    }

    /// How many rows there are at most.
    pub(super) const fn count(&self) -> u64 {
        let second = match self.lock_to_lock {
            Some(count) => count,
            None => self.relays.count,
        };
        // Both are counts of 32 bits.
        self.travels.count as u64 * second as u64
    }
}
