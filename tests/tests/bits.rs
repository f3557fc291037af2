//! A thousand poses, the same to the last bit natively and in the browser.
//!
//! A link carries inputs, not results: page and command each compute their own,
//! and must print the same digits. So every function that libraries may round
//! in their own way comes from `libm`, and what is computed here is held to
//! constants that both targets assert.
//!
//! The constants say nothing of truth, only of sameness. A change that reorders
//! the arithmetic changes them: take the new ones from the failure's message
//! natively, and see the browser agree.
//!
//! ```sh
//! cargo test -p reference-tests --test bits
//! cargo test -p reference-tests --test bits --target wasm32-unknown-unknown
//! ```

use linkage::{Corner, InstantCentre, Pose, Rates, Vector3};
use reference_tests::generate::{Dice, Sample, pickup};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

const POSES: usize = 1000;
const POSES_EACH: usize = 5;

/// Hashes of poses, readings, rates and searches, in this order.
const EXPECTED: [u64; 4] =
    [0x2add_df9b_5bb9_ef30, 0xd61b_dd29_c1a5_43f8, 0xde97_a84a_39ba_cf4e, 0xad00_68ca_06d5_d650];

/// The hash of Fowler, Noll and Vo (FNV-1a, 64 bits; constants from memory).
#[derive(Clone, Copy)]
struct Hash(u64);

impl Hash {
    const EMPTY: Self = Self(0xcbf2_9ce4_8422_2325);

    fn take(&mut self, numbers: impl IntoIterator<Item = f64>) {
        for byte in numbers.into_iter().flat_map(|number| number.to_bits().to_le_bytes()) {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3);
        }
    }

    fn take_pose(&mut self, pose: &Pose) {
        let frame = &pose.knuckle;
        self.take([pose.lower_arm_rad]);
        for point in [pose.lower_ball, pose.upper_ball, pose.tie_outer, pose.wheel_centre] {
            self.take(point.iter().copied());
        }
        for direction in [pose.spin, frame.along, frame.radial, frame.across] {
            self.take(direction.iter().copied());
        }
    }

    fn take_rates(&mut self, rates: &Rates) {
        self.take([rates.camber_rad, rates.toe_rad, rates.caster_rad, rates.inclination_rad]);
        self.take([rates.scrub_radius_mm, rates.trail_mm]);
        self.take(rates.contact_mm.iter().copied());
        self.take(rates.wheel_centre_mm.iter().copied());
    }

    fn take_centre(&mut self, seen: &InstantCentre) {
        let centre = seen.centre.map(|centre| [centre.y, centre.z]);
        self.take(centre.into_iter().flatten());
        self.take([seen.slope, seen.roll_centre_mm].into_iter().flatten());
    }
}

#[derive(Clone, Copy)]
struct Hashes {
    poses: Hash,
    readings: Hash,
    rates: Hash,
    searches: Hash,
}

impl Hashes {
    fn take(&mut self, sample: &Sample, corner: &Corner, dice: &mut Dice) -> Option<()> {
        let height = sample.points.wheel_centre.z + dice.between(-60.0, 60.0);
        let relay = Vector3::y() * dice.between(-30.0, 30.0);
        let angle = corner.measured_angle_rad() + dice.between(-0.15, 0.15);
        let pose = corner.pose(angle, relay).ok()?;
        self.poses.take_pose(&pose);
        let read = corner.attitude(&pose);
        self.readings.take([read.camber_rad, read.toe_rad, read.caster_rad]);
        self.readings.take([read.inclination_rad, read.scrub_radius_mm, read.trail_mm]);
        self.readings.take(read.contact.iter().copied());
        self.rates.take_rates(&corner.travel_rates(&pose).ok()?);
        self.rates.take_rates(&corner.steer_rates(&pose, Vector3::y()).ok()?);
        self.rates.take_centre(&corner.instant_centre(&pose).ok()?);
        self.searches.take_pose(&corner.at_height(height, relay).ok()?);
        let (pose, relay) = corner.at_heading(height, 0.1, Vector3::y()).ok()?;
        self.searches.take([relay]);
        self.searches.take_pose(&pose);
        Some(())
    }
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn a_thousand_poses_have_the_same_bits_everywhere() {
    let empty = Hash::EMPTY;
    let mut hashes = Hashes { poses: empty, readings: empty, rates: empty, searches: empty };
    let mut dice = Dice::of(20);
    let mut taken = 0;
    for _ in 0..2 * POSES / POSES_EACH {
        if taken >= POSES {
            break;
        }
        let sample = pickup(&dice.cube());
        let corner = sample.corner();
        let range = corner.range();
        hashes.searches.take([range.low_rad, range.high_rad, range.low_mm, range.high_mm]);
        for _ in 0..POSES_EACH {
            taken += usize::from(hashes.take(&sample, &corner, &mut dice).is_some());
        }
    }
    assert!(taken >= POSES, "{taken} poses were there to compare");
    let got = [hashes.poses, hashes.readings, hashes.rates, hashes.searches].map(|hash| hash.0);
    assert_eq!(got, EXPECTED, "poses, readings, rates, searches: {got:#018x?}");
}
