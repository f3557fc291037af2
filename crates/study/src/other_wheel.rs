//! The other front wheel, where it may meet what this one does not.

use crate::stance::StandingSide;
use crate::steering::Steering;

/// Two ways of the relay rod that differ by less are one, mm: no tape tells a lock by it.
const ALIKE_MM: f64 = 1e-6;

impl StandingSide {
    /// Whether both front corners are each other's mirror.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        let [left, right] = truck::Side::ALL.map(|side| &self.stance().corner(side).fitted);
        left.mirrored() == *right
    }

    /// The other front wheel; `None` where it goes wherever this one does: it is this one's mirror, and
    /// the relay rod goes as far to either side, so that this wheel's two locks, one inside a turn and one
    /// outside it, are the other's as well; and nothing was read off the other.
    #[must_use]
    pub fn other_wheel(&self) -> Option<Self> {
        let other = self.stance().on(self.side().other());
        let is_even = |steering: Steering| (steering.left.side_mm + steering.right.side_mm).abs() < ALIKE_MM;
        // Without a steering both are looked at straight ahead.
        let is_even = Steering::of(self).map_or(true, is_even);
        // What was read of the other is not read of this one.
        let is_read = other.fitted.measured.readings.iter().any(|(side, ..)| *side == other.side());
        (!is_even || !self.is_mirrored() || is_read).then_some(other)
    }
}

#[cfg(test)]
mod tests {
    use crate::{Clearances, Stance, Steering, travel_left_of};
    use truck::{Field, Side, Truck, demo};

    fn of(truck: &Truck) -> Stance {
        Stance::as_measured(truck).unwrap()
    }

    /// The demo with a right lock to which the relay rod goes as far as to its left one.
    fn even() -> Truck {
        let mut truck = demo().truck;
        let stance = of(&truck);
        let left = stance.corner(Side::Left);
        let steering = Steering::of(left).unwrap();
        let moved = steering.relay.move_mm(-steering.left.side_mm).unwrap();
        let heading_rad = left.corner.at_height(left.pose.wheel_centre.z, moved).unwrap().heading_rad();
        truck.steering.lock_right_rad = Some(-heading_rad);
        truck
    }

    /// A mirrored truck on an even steering: the right wheel, asked for itself, meets at the same travels and comes as
    /// near as the left, so that nobody has to ask it.
    #[test]
    fn the_mirror_on_an_even_steering_is_not_asked() {
        let stance = of(&even());
        let sides = Side::ALL.map(|side| stance.on(side));
        assert!(sides.iter().all(|side| side.is_mirrored() && side.other_wheel().is_none()));
        let found = sides.each_ref().map(|side| Clearances::of(side, Clearances::LIVE));
        for (left, right) in found[0].found.iter().zip(&found[1].found) {
            assert!((left.gap.distance_mm - right.gap.distance_mm).abs() < 0.05, "{:?}", left.pair);
        }
        let left = [0, 1].map(|at| travel_left_of(&sides[at], &found[at]));
        assert!((left[0].bump.travel_mm - left[1].bump.travel_mm).abs() < 0.01);
        assert!((left[0].droop.travel_mm - left[1].droop.travel_mm).abs() < 0.01);
    }

    /// A lock of another size, and a number of the right's own, make it another wheel.
    #[test]
    fn another_lock_or_another_right_is_asked() {
        let mut locked = even();
        locked.steering.lock_right_rad = locked.steering.lock_right_rad.map(|rad| rad - 0.02);
        let mut apart = even();
        let lip_mm = apart.body.fender.lip_z_mm;
        apart.right.put(Field::FenderZ, lip_mm + 10.0);
        for (truck, mirrored) in [(locked, true), (apart, false)] {
            let stance = of(&truck);
            let found = Side::ALL.map(|side| Clearances::of(&stance.on(side), Clearances::PROBED));
            // Asked from either side it is the same room, and the wheel with less of it.
            let both = [found[0].nearest_of_both(Some(&found[1])), found[1].nearest_of_both(Some(&found[0]))];
            for (one, other) in both[0].iter().zip(&both[1]) {
                let rooms = found.each_ref().map(|all| all.of_pair(one.0.pair).unwrap().gap.distance_mm);
                assert!((one.0.gap.distance_mm - rooms[0].min(rooms[1])).abs() <= 0.05, "{:?}", one.0.pair);
                assert!((one.0.gap.distance_mm - other.0.gap.distance_mm).abs() <= 0.05);
                assert_eq!(one.1, rooms[1] < rooms[0] - 0.05);
            }
            assert!(found[0].nearest_of_both(None).iter().all(|(_, theirs)| !theirs));
            for side in Side::ALL {
                let here = stance.on(side);
                assert_eq!(here.is_mirrored(), mirrored);
                assert_eq!(here.other_wheel().map(|other| other.side()), Some(side.other()));
            }
        }
    }
}
