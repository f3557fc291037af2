//! What a proposal lays over the rear, which touches neither front corner.

use crate::change::Change;

/// What a proposal lays over the rear: all of it against as it sits.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearParts {
    /// The axle is bolted to the other side of its springs, this far from the main leaf, mm.
    pub flipped_mm: Option<f64>,
    /// The axle is on the other side, as far from the main leaf as it was.
    pub is_flipped: bool,
    /// Block between the spring and the axle's pad, mm.
    pub block_mm: f64,
    /// How far a wedge turns the axle, + pinion up, rad.
    pub wedge_rad: f64,
    /// The fixed eye's bolt, higher on the frame, mm.
    pub fixed_up_mm: f64,
    /// The shackle's bolt in its hanger, higher on the frame, mm.
    pub bolt_up_mm: f64,
    /// The shackle's bolt in its hanger, farther from the fixed eye, mm.
    pub bolt_away_mm: f64,
    /// The shackle longer, bolt to eye, mm.
    pub shackle_longer_mm: f64,
    /// The arch under the same load, less by, mm.
    pub flatter_mm: f64,
    /// Rate of another spring, N/mm.
    pub rate_n_per_mm: Option<f64>,
    /// Depth of the notch in the rail over the axle, mm.
    pub notch_mm: f64,
    /// The bump stop shorter, mm.
    pub stop_lower_mm: f64,
    /// Pushed in, mount to mount, mm, of another shock.
    pub shock_short_mm: Option<f64>,
    /// Pulled out, mount to mount, mm, of another shock.
    pub shock_long_mm: Option<f64>,
    /// The shock's mount on the frame, higher, mm.
    pub shock_up_mm: f64,
    /// Axle centre above the ground on another tire, mm.
    pub wheel_radius_mm: Option<f64>,
}

impl RearParts {
    /// What changes come to together; those of the front do nothing here.
    #[must_use]
    pub fn of(changes: &[Change]) -> Self {
        let mut parts = Self::default();
        changes.iter().for_each(|change| parts.lay(change));
        parts
    }

    /// Whether a part moves the axle against the frame or the ground.
    #[must_use]
    pub fn moves_axle(&self) -> bool {
        self.moves_seat() || self.moves_leaf() || self.wheel_radius_mm.is_some()
    }

    /// Whether the axle sits elsewhere on its springs.
    #[must_use]
    pub fn moves_seat(&self) -> bool {
        self.is_flipped || self.block_mm != 0.0 || self.wedge_rad != 0.0
    }

    /// Whether the springs are hung or shaped otherwise.
    #[must_use]
    pub fn moves_leaf(&self) -> bool {
        let moved = [self.fixed_up_mm, self.bolt_up_mm, self.bolt_away_mm, self.shackle_longer_mm];
        moved.iter().chain([&self.flatter_mm]).any(|mm| *mm != 0.0)
    }

    /// How far the axle's centre is below the main leaf, mm, where it was `seat_mm`: a block goes
    /// between the two, whichever is on top.
    #[must_use]
    pub fn seat_mm(&self, seat_mm: f64) -> f64 {
        let way = if seat_mm < 0.0 { -1.0 } else { 1.0 };
        let (away_mm, way) = if self.is_flipped {
            (self.flipped_mm.unwrap_or(seat_mm.abs()), -way)
        } else {
            (seat_mm.abs(), way)
        };
        way * (away_mm + self.block_mm)
    }

    fn lay(&mut self, change: &Change) {
        match change {
            Change::RearBlock(block) => {
                self.block_mm = block.height_mm;
                self.wedge_rad += block.wedge_rad;
            }
            Change::AxleFlip(flip) => {
                self.is_flipped = true;
                self.flipped_mm = flip.seat_mm;
                self.wedge_rad += flip.pinion_up_rad;
            }
            Change::RearHangers(hangers) => {
                self.fixed_up_mm = hangers.fixed_up_mm;
                self.bolt_up_mm = hangers.bolt_up_mm;
                self.bolt_away_mm = hangers.bolt_away_mm;
            }
            Change::RearShackle(shackle) => self.shackle_longer_mm = shackle.longer_mm,
            Change::RearSpring(spring) => {
                self.flatter_mm = spring.flatter_mm;
                self.rate_n_per_mm = spring.rate_n_per_mm;
            }
            Change::RearNotch(notch) => self.notch_mm = notch.depth_mm,
            Change::RearStop(stop) => self.stop_lower_mm = stop.lower_mm,
            Change::RearShock(shock) => {
                self.shock_short_mm = shock.short_mm;
                self.shock_long_mm = shock.long_mm;
                self.shock_up_mm = shock.mount_up_mm;
            }
            Change::RearTire(tire) => self.wheel_radius_mm = tire.wheel_radius_mm,
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a block of 50 goes between spring and axle. Under its springs the axle goes down
    /// by it and the truck up; on top of them it is the other way round.
    #[test]
    fn a_block_goes_between_whichever_is_on_top() {
        let block = RearParts { block_mm: 50.0, ..RearParts::default() };
        assert!((block.seat_mm(60.0) - 110.0).abs() < 1e-12);
        assert!((block.seat_mm(-60.0) + 110.0).abs() < 1e-12);
        let flipped = RearParts { is_flipped: true, ..RearParts::default() };
        assert!((flipped.seat_mm(60.0) + 60.0).abs() < 1e-12);
        assert!((flipped.seat_mm(-60.0) - 60.0).abs() < 1e-12);
        let both =
            RearParts { is_flipped: true, flipped_mm: Some(70.0), block_mm: 25.0, ..RearParts::default() };
        assert!((both.seat_mm(60.0) + 95.0).abs() < 1e-12);
    }
}
