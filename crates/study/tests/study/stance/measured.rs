//! As measured, the truck stands as it was measured, whatever holds it up.

use super::{as_measured, sprung_trucks};
use study::HeldBy;
use yardstick::budget::near;

#[test]
fn at_rest_it_is_what_was_measured() {
    for (name, truck) in sprung_trucks() {
        let rest = as_measured(&truck);
        let points = &truck.points;
        let pose = &rest.pose;
        for (what, got, want) in [
            ("wheel center", pose.wheel_centre, points.wheel_centre),
            ("lower ball", pose.lower_ball, points.lower.ball),
            ("upper ball", pose.upper_ball, points.upper.ball),
            ("tie-rod end", pose.tie_outer, points.tie_outer),
        ] {
            near((got - want).norm(), 0.0, 1e-9, &format!("{name}: {what}"));
        }
        let read = rest.attitude();
        near(read.camber_rad, points.camber_rad, 1e-12, &name);
        near(read.toe_rad, points.toe_rad, 1e-12, &name);
        near(rest.ground_mm, 0.0, 1e-9, &name);
        near(rest.ride_height_mm(), truck.body.rail.bottom_z_mm, 1e-9, &name);
        near(rest.nose_down_rad(), 0.0, 1e-12, &name);
        assert_eq!(rest.held_by, HeldBy::Spring, "{name}");
    }
}

/// However far it droops on paper: near the end of a linkage's swing there are
/// balances in which no truck comes to rest, and none of them is the stance.
#[test]
fn a_droop_beyond_the_linkage_leaves_the_stance_alone() {
    for (name, truck) in sprung_trucks() {
        for droop_mm in [60.0, 110.0, 160.0, 250.0, 400.0] {
            let mut truck = truck.clone();
            truck.stops.droop_mm = droop_mm;
            let rest = as_measured(&truck);
            near(rest.ground_mm, 0.0, 1e-9, &format!("{name}, droop {droop_mm}"));
            assert_eq!(rest.held_by, HeldBy::Spring, "{name}, droop {droop_mm}");
        }
    }
}

/// Work done on the spring along a path is what it has stored, the same on the
/// way out and back: `∫ e (dm/dz) dz = (e₂² − e₁²) / 2k` of a linear spring.
/// The integral is Simpson's.
#[test]
fn the_spring_s_force_does_not_know_its_path() {
    for (name, truck) in sprung_trucks() {
        let rest = as_measured(&truck);
        let (from, to, steps) = (-40.0, 30.0, 200);
        let at = |travel: f64| rest.spring_at(&rest.at_travel(travel).unwrap()).unwrap();
        let step = (to - from) / f64::from(steps);
        let work: f64 = (0..=steps)
            .map(|i| {
                let weight = if i == 0 || i == steps { 1.0 } else { f64::from(2 + 2 * (i % 2)) };
                let (effort, per_mm) = at(from + step * f64::from(i));
                weight * effort * per_mm * step / 3.0
            })
            .sum();
        let spring = &truck.spring;
        // A coil's movement is its length: it stores what its force does against it.
        let (sign, rate) = match spring.kind {
            truck::SpringKind::TorsionBar => (1.0, spring.bar_rate()),
            truck::SpringKind::Coil => (-1.0, spring.coil_rate()),
            truck::SpringKind::WheelRate => (1.0, spring.wheel_rate_n_per_mm),
        };
        let (low, _) = at(from);
        let (high, _) = at(to);
        let stored = (high * high - low * low) / (2.0 * rate);
        near(sign * work / stored, 1.0, 1e-9, &name);
        // Out and back along other poses: the same force to the last bit.
        let again = at(from);
        assert_eq!(again.0.to_bits(), low.to_bits(), "{name}");
    }
}
