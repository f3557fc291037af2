//! What the other lessons claim.

use crate::*;
use reference_tests::lessons::{inner_end, joint_on_top, turned_down};
use study::{Low, Quantity, ScrubLine};

/// The trucks of the first lesson, on the demo's torsion bar.
fn trucks() -> Vec<(String, Truck)> {
    let mut all = two_inches::trucks();
    for (_, truck) in &mut all {
        truck.spring.kind = SpringKind::TorsionBar;
        // Room for two inches on every one.
        truck.stops.droop_mm = 70.0;
    }
    all
}

/// Identities: a stop that stands on the frame, an arm that turned by the drop.
#[test]
fn what_the_adjuster_takes_from_bump_it_gives_to_droop() {
    for (name, truck) in trucks() {
        let before = rest(&truck, &[]);
        let after = rest(&truck, &[turned_down(&truck, 40.0)]);
        near(after.ground_mm, 40.0, 0.1, &name);
        let risen = after.pose.wheel_centre.z - before.pose.wheel_centre.z;
        let (was, is) = (travel_left(&before), travel_left(&after));
        near(was.touch_mm - is.touch_mm, risen, 1e-9, &name);
        near(is.droop_stop_mm - was.droop_stop_mm, risen, 1e-9, &name);
        near(risen, 40.0, 0.4, &name);
        assert!(read(&after, 0.0).attitude.camber_rad < read(&before, 0.0).attitude.camber_rad, "{name}");
    }
}

/// As low as with the bars, most of the travel is still there.
#[test]
fn a_joint_turned_over_lowers_and_keeps_the_travel() {
    for (name, truck) in trucks() {
        let before = rest(&truck, &[]);
        let joint = rest(&truck, &[joint_on_top()]);
        let drop = joint.ground_mm;
        // Plate and flange are 25 mm; the lever to the wheel is about one.
        assert!((20.0..35.0).contains(&drop), "{name}: {drop}");
        let bars = rest(&truck, &[turned_down(&truck, drop)]);
        near(bars.ride_height_mm(), joint.ride_height_mm(), 0.1, &name);
        let touch = [&before, &joint, &bars].map(|rest| travel_left(rest).touch_mm);
        near(touch[0] - touch[2], drop, 0.4, &name);
        assert!((touch[0] - touch[1]).abs() < 0.25 * drop, "{name}: {touch:?}");
    }
}

/// Arms know nothing of the spring: lowered on its bars a truck reads what it
/// read, as measured, at the travel by which its wheel has risen.
#[test]
fn lowered_on_its_springs_a_truck_is_farther_along_the_same_curve() {
    for (name, truck) in trucks() {
        let before = rest(&truck, &[]);
        let after = rest(&truck, &[turned_down(&truck, 40.0)]);
        let risen = after.pose.wheel_centre.z - before.pose.wheel_centre.z;
        for travel in [-20.0, 0.0, 15.0] {
            let (is, was) = (read(&after, travel), read(&before, travel + risen));
            near(is.attitude.camber_rad, was.attitude.camber_rad, 1e-9, &name);
            near(is.rates.camber_rad, was.rates.camber_rad, 1e-9, &name);
            let height = |gauged: &Gauged| Quantity::RollCentre.read(gauged).unwrap();
            near(height(&is), height(&was), 1e-5, &name);
        }
    }
}

/// Inboard pivots of the upper arm lowered: the instant centre comes nearer, the wheel leans in sooner.
#[test]
fn lower_upper_pivots_make_the_curve_steeper() {
    let moved = design(4).proposals[1].changes().to_vec();
    for (name, truck) in trucks() {
        let rate = |rest: &StandingSide| read(rest, 0.0).rates.camber_rad;
        let (before, after) = (rate(&rest(&truck, &[])), rate(&rest(&truck, &moved)));
        assert!(after < before - 1e-4, "{name}: {before} to {after}");
    }
}

/// With a spindle everything but the wheels comes down by the drop, under a line
/// that stays; with the bars only what rides with the frame does.
#[test]
fn what_hangs_over_the_scrub_line() {
    let design = design(6);
    let truck = &design.truck;
    let line = |changes: &[Change]| ScrubLine::of(&rest(truck, changes));
    let [before, spindle, bars] =
        [&[][..], design.proposals[0].changes(), design.proposals[1].changes()].map(line);
    let over =
        |line: &ScrubLine, of: Low| line.points.iter().find(|point| point.of == of).unwrap().over_line_mm;
    let drop = rest(truck, design.proposals[0].changes()).ground_mm;
    near(over(&before, Low::Fixed) - over(&spindle, Low::Fixed), drop, 1e-6, "fixed, spindle");
    near(over(&before, Low::BallNut) - over(&spindle, Low::BallNut), drop, 1e-6, "nut, spindle");
    // The rim's edge rises a little as the wheel leans.
    near(over(&before, Low::Fixed) - over(&bars, Low::Fixed), drop, 3.0, "fixed, bars");
    near(over(&bars, Low::BallNut), over(&before, Low::BallNut), 3.0, "nut, bars");
}

/// Rising, the outer end is drawn in where the rod climbs towards it: the wheel's
/// back with the rod behind the axle, its front with the rod ahead.
#[test]
fn an_inner_end_too_low_steers_one_way_and_too_high_the_other() {
    for (name, truck) in trucks() {
        let change = |up_mm: f64| {
            let rest = rest(&truck, &[inner_end(up_mm)]);
            read(&rest, 30.0).attitude.toe_rad - read(&rest, 0.0).attitude.toe_rad
        };
        let (low, high) = (change(-12.7), change(12.7));
        let points = &truck.points;
        let behind = points.tie_outer.x < points.lower.ball.x;
        let lower_in_bump = if behind { low < high } else { low > high };
        assert!(lower_in_bump && (low - high).abs() > 1e-3, "{name}: {low} {high}");
        if name == "demo" {
            assert!(low < 0.0 && high > 0.0, "{low} {high}");
        }
    }
}
