//! What the other lessons claim.

use crate::*;
use reference_tests::lessons::{inner_end, joint_on_top, notch, shackle, turned_down};
use study::{Low, Quantity, ScrubLine, Value, rear_told};
use truck::{DroppedSpindle, RearAxle, RearBlock, RearField};

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

/// The trucks of the first lesson with a rear, its wheelbase and spring not the demo's.
fn rears() -> Vec<(String, Truck)> {
    let mut all = trucks();
    for ((_, truck), more) in all.iter_mut().zip([0.0, 7.0, 14.0, 21.0, 28.0].into_iter().cycle()) {
        let numbers = [
            (RearField::FrameHeight, 450.0 + more),
            (RearField::WheelRadius, 305.0),
            (RearField::Seat, -60.0),
            (RearField::TubeGap, 110.0 + more),
            (RearField::Span, 1180.0 + 5.0 * more),
            (RearField::FixedPart, 560.0 + more),
            (RearField::Arch, 60.0 - more),
            (RearField::FixedEye, 280.0 + more),
            (RearField::ShackleEye, 286.0),
            (RearField::HangerBolt, 365.0 + more),
            (RearField::EyeBeyond, 25.0),
            (RearField::ShackleAhead, 0.0),
            (RearField::RailDepth, 110.0 + more),
            (RearField::RailFlange, 45.0),
            (RearField::RailWall, 4.0),
            (RearField::LampHeight, 740.0),
            (RearField::LampAhead, 450.0),
        ];
        truck.rear = RearAxle::UNKNOWN;
        numbers.into_iter().for_each(|(field, value)| truck.rear.put(field, Some(value)).unwrap());
    }
    all
}

/// An answer of the rear.
fn told(rest: &StandingSide, key: &str) -> f64 {
    let told = rear_told(rest.stance()).told;
    match told.iter().find(|told| told.answer.key() == key).and_then(|told| told.value) {
        Some(Value::Number(value)) => value,
        other => panic!("{key} is {other:?}"),
    }
}

/// By hand: what the nose sinks is the drop over the wheelbase, and with both ends down alike nothing.
#[test]
fn both_ends_down_alike_keep_what_is_read_against_the_ground() {
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.0, ..DroppedSpindle::default() });
    let block = Change::RearBlock(RearBlock { height_mm: 50.0, wedge_rad: 0.0 });
    for (name, truck) in rears() {
        let [before, front, both] = [&[][..], &[spindle], &[spindle, block]].map(|on| rest(&truck, on));
        let caster = |rest: &StandingSide| rest.attitude_on_ground().caster_rad;
        let sunk = (50.0 / truck.body.wheelbase_mm).atan();
        near(caster(&before) - caster(&front), sunk, 1e-4, &name);
        near(caster(&both), caster(&before), 1e-4, &name);
        near(told(&front, "lamp_aim"), 7620.0 * sunk.tan(), 1.0, &name);
        near(told(&both, "lamp_aim"), 0.0, 1.0, &name);
        assert!(told(&both, "lamp_height") < told(&before, "lamp_height") - 45.0, "{name}");
    }
}

/// Where the eye hangs below its bolt a longer shackle raises, by about half, and turns the pinion up;
/// where it stands above, it lowers.
#[test]
fn a_longer_shackle_raises_or_lowers_by_where_its_eye_hangs() {
    for (name, mut truck) in rears() {
        let longer = rest(&truck, &[shackle(25.4)]);
        let raised = -told(&longer, "rear_comes_down");
        assert!((8.0..18.0).contains(&raised), "{name}: {raised}");
        assert!(told(&longer, "pinion_up") > 0.0, "{name}");
        assert!(told(&rest(&truck, &[shackle(-25.4)]), "rear_comes_down") > 8.0, "{name}");
        truck.rear.put(RearField::HangerBolt, Some(210.0)).unwrap();
        assert!(told(&rest(&truck, &[shackle(25.4)]), "rear_comes_down") > 4.0, "{name}: above its bolt");
    }
}

/// By hand, for thin walls: a channel whose edge is cut keeps its web and one flange, far less than its share
/// of height; a plate gives some of it back, a box more.
#[test]
fn a_notch_lowers_nothing_and_a_bare_one_is_weak() {
    for (name, truck) in rears() {
        let [none, deep, shallow] = [&[][..], &[notch(25.4)], &[notch(12.7)]].map(|on| rest(&truck, on));
        near(told(&deep, "rear_comes_down"), 0.0, 1e-9, &name);
        near(told(&deep, "rear_tube") - told(&none, "rear_tube"), 25.4, 1e-9, &name);
        let bare = [&deep, &shallow].map(|rest| told(rest, "rail_bare"));
        let high = 1.0 - 25.4 / truck.rear.get(RearField::RailDepth).unwrap();
        assert!(bare[0] < 0.6 * high && bare[0] < bare[1] && bare[1] < 0.6, "{name}: {bare:?}");
        assert!(bare[0] < told(&deep, "rail_plated"), "{name}");
        assert!(told(&deep, "rail_plated") < told(&deep, "rail_boxed"), "{name}");
    }
}
