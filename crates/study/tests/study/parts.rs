//! What each part change does, against closed forms, statics and the trade's figures.

use linkage::{Point3, Vector3};
use nalgebra::{Rotation3, Unit};
use std::f64::consts::TAU;
use study::{Rest, spring_loads};
use truck::{
    AnchorSwap, Arm, ArmSwap, BarAdjuster, BarReindex, BarSwap, Change, ChangeKind, CoilSwap, CutCoil, Field,
    JointTurned, KnuckleSwap, LoadCase, MovedPivot, Note, Place, Remark, SeatSpacer, ShimChange, ShockChange,
    SpringKind, StopTrim, StrutRodChange, TieRodChange, Truck, demo, fit, notes,
};
use yardstick::budget::near;

fn rest(truck: &Truck, changes: &[Change]) -> Rest {
    Rest::of(fit(truck, changes).unwrap()).unwrap()
}

fn coil_truck() -> Truck {
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::Coil;
    truck
}

fn turned(place: Place) -> Change {
    Change::JointTurned(JointTurned { place, plate_mm: 6.35, flange_mm: 4.76, shift_mm: None })
}

/// From under the upper arm to the top of it: a quarter to half an inch more room
/// to go down at the touch points (common practice, no source); room at `r` from
/// the pivot is shift · r / L (arithmetic of a lever).
#[test]
fn a_joint_turned_over_gives_room_to_go_down() {
    let truck = demo().truck;
    let change = turned(Place::UpperJointUp);
    let (before, after) = (rest(&truck, &[]), rest(&truck, &[change]));
    // The arm that carries no spring: the lower arm, and so the height, stays but for a hair.
    near(after.pose.lower_arm_rad, before.pose.lower_arm_rad, 2e-3, "lower arm");
    let plate =
        |rest: &Rest| rest.corner.upper_arm_rad(&rest.pose) - rest.fitted.ball_turn_rad(Arm::Upper).unwrap();
    let arm = truck.points.upper.parts_radius();
    let shift = 6.35 + 4.76;
    for r in [0.5 * arm, 0.9 * arm] {
        let room = r * libm::sin(plate(&before) - plate(&after));
        near(room, shift * r / arm, 0.6, "room");
    }
    let at_ball = arm * libm::sin(plate(&before) - plate(&after));
    assert!((25.4 / 4.0..25.4 / 2.0).contains(&at_ball), "{at_ball}");
}

/// Arms that swing in one plane: a knuckle that is longer from ball to ball pushes its upper ball along the
/// arc of the upper arm, to where two circles cross, and the wheel leans by what the line of the balls does.
/// Plane geometry, which knows no pose: the crossing of two circles about their centers' line.
#[test]
fn a_knuckle_that_is_longer_from_ball_to_ball_leans_out() {
    let mut truck = demo().truck;
    let points = &mut truck.points;
    for arm in [&mut points.lower, &mut points.upper] {
        (arm.front.y, arm.front.z) = (arm.rear.y, arm.rear.z);
        arm.ball.x = 0.0;
    }
    points.wheel_centre.x = 0.0;
    let (pivot, was) = (points.upper.rear, points.upper.ball);
    let plane = |from: Point3<f64>, to: Point3<f64>| libm::hypot(to.y - from.y, to.z - from.z);
    let spacing = plane(points.lower.ball, was);
    let radius = plane(pivot, was);
    let before = rest(&truck, &[]);
    for by in [6.0, -6.0] {
        let swap = KnuckleSwap { balls_mm: by, ..KnuckleSwap::default() };
        let after = rest(&truck, &[Change::KnuckleSwap(swap)]);
        let lower = after.pose.lower_ball;
        let apart = plane(pivot, lower);
        let along = (radius * radius - (spacing + by) * (spacing + by) + apart * apart) / (2.0 * apart);
        let off = libm::sqrt(radius * radius - along * along);
        let (y, z) = ((lower.y - pivot.y) / apart, (lower.z - pivot.z) / apart);
        let crossing = [1.0, -1.0].map(|way| {
            Point3::new(0.0, pivot.y + along * y - way * off * z, pivot.z + along * z + way * off * y)
        });
        let upper = if crossing[0].z > crossing[1].z { crossing[0] } else { crossing[1] };
        near(after.pose.upper_ball.y, upper.y, 1e-6, "upper ball, out");
        near(after.pose.upper_ball.z, upper.z, 1e-6, "upper ball, up");
        let inclination = libm::atan2(lower.y - upper.y, upper.z - lower.z);
        let (old, new) = (before.attitude(), after.attitude());
        // Inclination and camber together are the knuckle's own, but for the toe that the rod gives.
        near(new.camber_rad - old.camber_rad, old.inclination_rad - inclination, 2e-4, "camber");
        assert!((new.camber_rad - old.camber_rad) * by > 0.0, "longer leans out at the top");
    }
}

trait Radius {
    fn parts_radius(&self) -> f64;
}

impl Radius for linkage::ArmPoints {
    fn parts_radius(&self) -> f64 {
        let along = (self.front - self.rear).normalize();
        let reach = self.ball - self.rear;
        (reach - along * reach.dot(&along)).norm()
    }
}

/// Turned over and back is the equal truck, at either arm.
#[test]
fn a_joint_turned_twice_is_as_it_was() {
    let truck = demo().truck;
    for (up, down) in
        [(Place::LowerJointUp, Place::LowerJointDown), (Place::UpperJointUp, Place::UpperJointDown)]
    {
        let back = fit(&truck, &[turned(up), turned(down)]).unwrap();
        assert_eq!(back, fit(&truck, &[]).unwrap());
    }
}

/// On the arm that carries the spring the plate keeps its angle but for the
/// lever's change, so the body comes down by about the shift; spring, stop and
/// shock go with the plate, so the travel to the stop stays.
#[test]
fn a_joint_turned_on_the_spring_s_arm_lowers_by_its_shift() {
    for truck in [demo().truck, coil_truck()] {
        let change = turned(Place::LowerJointUp);
        let (before, after) = (rest(&truck, &[]), rest(&truck, &[change]));
        let shift = 6.35 + 4.76;
        // With the plate where it was, the ball is higher by the shift, square to the sloping arm.
        let turn = after.fitted.ball_turn_rad(Arm::Lower).unwrap();
        let pose = after.corner.pose(before.pose.lower_arm_rad + turn, Vector3::zeros()).unwrap();
        let higher = pose.lower_ball.z - before.pose.lower_ball.z;
        near(higher, shift * libm::cos(before.pose.lower_arm_rad), 0.1, "ball");
        // The steeper line is a longer lever for the load, which is worth another millimetre.
        let drop = before.ride_height_mm() - after.ride_height_mm();
        assert!((shift - 0.2..shift + 2.0).contains(&drop), "{drop}");
        let to_stop = |rest: &Rest| rest.travel_at(rest.stops.touch_rad);
        near(to_stop(&after), to_stop(&before), 1.0, "travel to the stop");
    }
}

/// A longer arm, a ball farther forward: the ball's circle is the one asked for.
#[test]
fn another_arm_is_as_long_as_it_says() {
    let truck = demo().truck;
    let swap = ArmSwap {
        place: Place::LowerArm,
        longer_mm: 12.0,
        higher_mm: 5.0,
        forward_mm: 7.0,
        stop_mm: 3.0,
        spacing_mm: None,
    };
    let fitted = fit(&truck, &[Change::ArmSwap(swap)]).unwrap();
    let pose = Rest::of(fitted.clone()).unwrap().pose;
    let points = truck.points.lower;
    let along = (points.front - points.rear).normalize();
    let along = if along.x < 0.0 { -along } else { along };
    let from_axis = |ball: Point3<f64>| {
        let reach = ball - points.rear;
        (reach.dot(&along), (reach - along * reach.dot(&along)).norm())
    };
    let (was, is) = (from_axis(points.ball), from_axis(pose.lower_ball));
    near(is.0, was.0 + 7.0, 1e-9, "along the axis");
    near(is.1, libm::hypot(was.1 + 12.0, 5.0), 1e-9, "from the axis");
    near(fitted.stops.bump_gap_mm, truck.stops.bump_gap_mm + 3.0, 1e-12, "stop");
    // Pivots that are not as far apart as the brackets are said: by a sixteenth either way (1.59 mm).
    let mut truck = truck;
    truck.points.lower.rear = truck.points.lower.front - Vector3::new(300.0, 0.0, 0.0);
    for (spacing_mm, said) in [(301.5, false), (301.59, true), (298.5, false), (298.41, true), (294.0, true)]
    {
        let change = Change::ArmSwap(ArmSwap { spacing_mm: Some(spacing_mm), ..swap });
        let remarks = fit(&truck, &[change]).unwrap().remarks;
        assert_eq!(remarks.iter().any(|remark| matches!(remark, Remark::OtherSpacing { .. })), said);
    }
}

/// One spline of n is 360°/n (arithmetic: 36 → 10°), and one forth at one end and
/// one back at the other 360°/lcm for neighbouring counts: 36 and 35 → 0.2857°.
#[test]
fn splines_are_shares_of_a_turn() {
    let truck = demo().truck;
    let turn = |anchor: f64, arm: f64| {
        fit(&truck, &[Change::BarReindex(BarReindex { anchor, arm })]).unwrap().anchor_turn_rad.to_degrees()
    };
    near(turn(1.0, 0.0), 10.0, 1e-9, "anchor");
    near(turn(0.0, -7.0), -72.0, 1e-9, "arm");
    near(turn(-1.0, 1.0), 360.0 / 1260.0, 1e-9, "vernier");
    let mut bare = truck.clone();
    bare.spring.bar.splines_arm = None;
    let fitted = fit(&bare, &[Change::BarReindex(BarReindex { anchor: 0.0, arm: 1.0 })]).unwrap();
    assert_eq!(fitted.remarks, [Remark::NeedsNumber(ChangeKind::BarReindex, Field::BarSplinesArm)]);
    near(fitted.anchor_turn_rad, 0.0, 0.0, "left out");
}

/// A fatter bar with the same twist: at the measured pose its torque is (d₂/d₁)⁴
/// of the old one's, so the wheel carries that much more of the sprung load.
#[test]
fn a_fatter_bar_raises_by_its_fourth_power() {
    let truck = demo().truck;
    let swap = BarSwap { diameter_mm: 26.4, length_mm: truck.spring.bar.length_mm };
    let stiffer = rest(&truck, &[Change::BarSwap(swap)]);
    let before = rest(&truck, &[]);
    assert!(stiffer.ride_height_mm() > before.ride_height_mm() + 10.0);
    // Stiffer by the fourth power where it stands, near enough for the lever's change.
    let ratio = libm::pow(26.4 / 25.4, 4.0);
    near(stiffer.fitted.spring.bar_rate() / before.fitted.spring.bar_rate(), ratio, 1e-12, "rate");
    // The same torque holds the same load: twist falls as the rate rises.
    near(stiffer.effort / before.effort, 1.0, 0.06, "torque");
    // A clocked anchor is splines by another name.
    let bar = truck.spring.bar;
    let clocked = AnchorSwap {
        lever_mm: bar.lever_mm,
        lever_angle_rad: bar.lever_angle_rad,
        thread_pitch_mm: bar.thread_pitch_mm,
        clocking_rad: TAU / 36.0,
    };
    let splined = Change::BarReindex(BarReindex { anchor: 1.0, arm: 0.0 });
    near(
        rest(&truck, &[Change::AnchorSwap(clocked)]).ride_height_mm(),
        rest(&truck, &[splined]).ride_height_mm(),
        1e-9,
        "clocking",
    );
    // A finer thread does less in a turn, in proportion.
    let finer = Change::AnchorSwap(AnchorSwap {
        thread_pitch_mm: bar.thread_pitch_mm / 2.0,
        clocking_rad: 0.0,
        ..clocked
    });
    let turns = |turns: f64| Change::BarAdjuster(BarAdjuster { turns });
    near(
        rest(&truck, &[finer, turns(-8.0)]).ride_height_mm(),
        rest(&truck, &[turns(-4.0)]).ride_height_mm(),
        1e-9,
        "thread",
    );
}

/// A spacer is as good as a coil that is longer by it; a swap for the same coil changes nothing.
#[test]
fn a_spacer_is_a_longer_coil() {
    let truck = coil_truck();
    let coil = truck.spring.coil;
    let same = CoilSwap { wire_mm: coil.wire_mm, mean_mm: coil.mean_mm, active: coil.active, free_mm: None };
    let before = rest(&truck, &[]);
    near(
        rest(&truck, &[Change::CoilSwap(same)]).ride_height_mm(),
        before.ride_height_mm(),
        1e-9,
        "same coil",
    );
    // Its free length, by Hooke: where it stands, and what its force takes off it.
    let length = (coil.arm_seat - coil.body_seat).norm();
    let free_mm = length + before.effort / truck.spring.coil_rate();
    let given = |free_mm: f64| Change::CoilSwap(CoilSwap { free_mm: Some(free_mm), ..same });
    near(rest(&truck, &[given(free_mm)]).ride_height_mm(), before.ride_height_mm(), 1e-9, "its own length");
    let spacer = Change::SeatSpacer(SeatSpacer { thickness_mm: 9.0 });
    near(
        rest(&truck, &[spacer]).ride_height_mm(),
        rest(&truck, &[given(free_mm + 9.0)]).ride_height_mm(),
        1e-9,
        "spacer",
    );
    // What needs a coil is left out of a truck with bars, and says so.
    let bars = demo().truck;
    let fitted = fit(&bars, &[spacer]).unwrap();
    assert_eq!(fitted.remarks, [Remark::NeedsSpring(ChangeKind::SeatSpacer, SpringKind::Coil)]);
    // Cut off a coil of known free length: each coil takes its share of it.
    let cut = rest(&truck, &[given(free_mm), Change::CutCoil(CutCoil { coils: 1.0 })]);
    let shorter =
        CoilSwap { active: coil.active - 1.0, free_mm: Some(free_mm * (1.0 - 1.0 / coil.active)), ..same };
    near(cut.ride_height_mm(), rest(&truck, &[Change::CoilSwap(shorter)]).ride_height_mm(), 1e-9, "cut");
}

/// The rod is as long as it says: swing the arm about its bushing here, by turning
/// its points in space, until the rod reaches.
#[test]
fn a_strut_rod_reaches() {
    let truck = demo().truck;
    let arm = truck.points.lower;
    let end = truck.strut.arm.stated().unwrap();
    let normal = Unit::new_normalize((arm.front - arm.rear).cross(&(arm.ball - arm.rear)));
    let rod = (end - arm.front).norm();
    for longer_mm in [-15.0, -3.0, 4.0, 12.0] {
        let fitted = fit(&truck, &[Change::StrutRod(StrutRodChange { longer_mm })]).unwrap();
        let swung = |angle: f64, point: Point3<f64>| {
            arm.rear + Rotation3::from_axis_angle(&normal, angle) * (point - arm.rear)
        };
        // Bisection: a longer rod pushes the arm back.
        let (mut low, mut high) = (-0.3, 0.3);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            let reach = (swung(middle, end) - arm.front).norm();
            *(if reach < rod + longer_mm { &mut low } else { &mut high }) = middle;
        }
        let ball = swung(low, arm.ball);
        let along = (arm.front - arm.rear).normalize();
        let along_mm = |p: Point3<f64>| (p - arm.rear).dot(&along);
        near(fitted.rod_ball.forward_mm, along_mm(ball) - along_mm(arm.ball), 1e-9, "forward");
        let out = |p: Point3<f64>| ((p - arm.rear) - along * along_mm(p)).norm();
        near(fitted.rod_ball.longer_mm, out(ball) - out(arm.ball), 1e-9, "out");
        // Shorter pulls the lower ball forward: more caster.
        let caster = |rest: &Rest| rest.attitude().caster_rad;
        let more = caster(&Rest::of(fitted).unwrap()) - caster(&rest(&truck, &[]));
        assert_eq!(more > 0.0, longer_mm < 0.0);
    }
}

/// A rod whose length the arm meets nowhere on its way round is left out, and that is said: the
/// least and the most that its ends are apart, found by turning the arm all the way.
#[test]
fn a_strut_rod_that_does_not_reach_is_left_out() {
    let truck = demo().truck;
    let arm = truck.points.lower;
    let end = truck.strut.arm.stated().unwrap();
    let normal = Unit::new_normalize((arm.front - arm.rear).cross(&(arm.ball - arm.rear)));
    let apart = |at: i32| {
        let turned = Rotation3::from_axis_angle(&normal, TAU * f64::from(at) / 7200.0) * (end - arm.rear);
        (arm.rear + turned - arm.front).norm()
    };
    let (least, most) =
        (0..7200).map(apart).fold((f64::MAX, 0.0_f64), |(least, most), mm| (least.min(mm), most.max(mm)));
    let rod = (end - arm.front).norm();
    for (length_mm, reaches) in [
        (least - 1.0, false),
        (least + 1.0, true),
        (rod + 100.0, true),
        (most - 1.0, true),
        (most + 1.0, false),
    ] {
        let longer_mm = length_mm - rod;
        let fitted = fit(&truck, &[Change::StrutRod(StrutRodChange { longer_mm })]).unwrap();
        let said = if reaches { vec![] } else { vec![Remark::RodTooShort] };
        assert_eq!(fitted.remarks, said, "a rod of {length_mm} mm");
        let moved = fitted.rod_ball.forward_mm.abs() + fitted.rod_ball.longer_mm.abs();
        assert_eq!(moved > 1.0, reaches, "the ball moves with a rod of {length_mm} mm, and with no other");
    }
}

/// The rod keeps its length when its bushing is moved on the frame: the arm
/// swings about its own, and the ball goes with it. Points turned in space.
#[test]
fn a_rod_bushing_moved_forward_takes_the_ball_along() {
    let truck = demo().truck;
    let end = truck.strut.arm.stated().unwrap();
    let by_mm = Vector3::new(10.0, 0.0, 0.0);
    let moved = Change::MovedPivot(MovedPivot { place: Place::LowerFront, by_mm });
    let rest = rest(&truck, &[moved]);
    let arm = truck.points.lower;
    let rod = (end - arm.front).norm();
    // The arm turned about the normal of its plane until the rod meets its new bushing, all in the measured pose.
    let normal = Unit::new_normalize((arm.front - arm.rear).cross(&(arm.ball - arm.rear)));
    let swung = |angle: f64, point: Point3<f64>| {
        arm.rear + Rotation3::from_axis_angle(&normal, angle) * (point - arm.rear)
    };
    let (mut low, mut high) = (-0.3, 0.3);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        let reach = (swung(middle, end) - (arm.front + by_mm)).norm();
        *(if reach < rod { &mut low } else { &mut high }) = middle;
    }
    let forward = swung(low, arm.ball).x - arm.ball.x;
    assert!(forward > 10.0, "{forward}");
    near(rest.pose.lower_ball.x - arm.ball.x, forward, 0.5, "the ball");
    // The same on a truck whose points are named the other way round.
    let mut named = truck.clone();
    std::mem::swap(&mut named.points.lower.front, &mut named.points.lower.rear);
    let other = Change::MovedPivot(MovedPivot { place: Place::LowerRear, by_mm });
    let other = self::rest(&named, &[other]);
    near(other.attitude().caster_rad, rest.attitude().caster_rad, 1e-9, "caster");
    near(other.travel_at(other.stops.touch_rad), rest.travel_at(rest.stops.touch_rad), 1e-9, "stop");
}

/// Both packs alike shift the shaft sideways, and no more; unlike ones turn it.
#[test]
fn shims_move_the_shaft_by_their_thickness() {
    let truck = demo().truck;
    let moved = |front_mm: f64, rear_mm: f64| {
        let mounts = fit(&truck, &[Change::Shims(ShimChange { front_mm, rear_mm })]).unwrap().mounts.upper;
        (mounts.front - truck.points.upper.front, mounts.rear - truck.points.upper.rear)
    };
    let (front, rear) = moved(2.0, 2.0);
    for by in [front, rear] {
        near((by - Vector3::new(0.0, 2.0, 0.0)).norm(), 0.0, 1e-12, "both");
    }
    // Pivots at 88 and −112, bolts at 60 and −84: a line through the two packs.
    let (front, rear) = moved(3.0, 0.0);
    near(front.y, 3.0 * (88.0 + 84.0) / 144.0, 1e-12, "front pivot");
    near(rear.y, 3.0 * (-112.0 + 84.0) / 144.0, 1e-12, "rear pivot");
    // A pack under nothing, one over what the bolt takes.
    for (front_mm, said) in [(-3.0, false), (-3.1, true), (12.0, false), (12.1, true)] {
        let fitted = fit(&truck, &[Change::Shims(ShimChange { front_mm, rear_mm: 0.0 })]).unwrap();
        assert_eq!(fitted.remarks.contains(&Remark::PastShims), said, "{front_mm}");
    }
    let mut unknown = truck.clone();
    unknown.shims.side = None;
    let fitted = fit(&unknown, &[Change::Shims(ShimChange { front_mm: 2.0, rear_mm: 2.0 })]).unwrap();
    assert_eq!(fitted.remarks, [Remark::NeedsNumber(ChangeKind::Shims, Field::ShaftSide)]);
}

/// Ahead of or behind the axle, a longer rod turns the wheel its own way: behind
/// it, toe in; the change is length over steering arm (arithmetic of a lever).
#[test]
fn a_longer_tie_rod_toes_in_from_behind() {
    let truck = demo().truck;
    let toe = |longer_mm: f64| {
        let change = Change::TieRod(TieRodChange { longer_mm, inner_mm: Vector3::zeros() });
        rest(&truck, &[change]).attitude().toe_rad
    };
    let arm = truck.points.lower.ball.x - truck.points.tie_outer.x;
    near(toe(1.0), 1.0 / arm, 0.06 / arm, "toe");
    near(toe(-1.0), -1.0 / arm, 0.06 / arm, "toe");
    near(toe(0.0), 0.0, 1e-12, "toe");
}

/// Half of what is trimmed off the stop reaches the wheel and more: by the lever.
#[test]
fn a_trimmed_stop_gives_travel_by_its_lever() {
    let truck = demo().truck;
    let to_stop = |changes: &[Change]| {
        let rest = rest(&truck, changes);
        (rest.travel_at(rest.stops.touch_rad), rest.travel_at(rest.stops.solid_rad))
    };
    let (touch, solid) = to_stop(&[]);
    let trim = StopTrim { lower_mm: 10.0, less_squash_mm: 4.0 };
    let (lower_touch, lower_solid) = to_stop(&[Change::StopTrim(trim)]);
    let lever = truck.points.lower.parts_radius() / truck.stops.bump_radius_mm;
    near((lower_touch - touch) / 10.0, lever, 0.06 * lever, "touch");
    near((lower_solid - solid) / 6.0, lever, 0.06 * lever, "solid");
}

/// Another shock replaces what it states, and only that.
#[test]
fn another_shock_has_its_own_lengths() {
    let truck = demo().truck;
    let change = ShockChange { short_mm: Some(250.0), long_mm: None, body_mm: Vector3::new(0.0, 0.0, 30.0) };
    let shock = fit(&truck, &[Change::Shock(change)]).unwrap().shock;
    assert_eq!((shock.short_mm, shock.long_mm), (Some(250.0), truck.shock.long_mm));
    let (was, is) = (truck.shock.body.stated().unwrap(), shock.body.stated().unwrap());
    near((is - was - Vector3::new(0.0, 0.0, 30.0)).norm(), 0.0, 1e-12, "mount");
}

/// Moments about the rear axle: behind it, a load lifts the front.
#[test]
fn a_load_behind_the_axle_lifts_the_front() {
    let truck = demo().truck;
    let load = truck.load;
    let base = truck.body.wheelbase_mm;
    near(LoadCase::Driver.corner_n(&load, base).unwrap(), 3900.0 + 290.0, 1e-9, "driver");
    near(LoadCase::Bed.corner_n(&load, base).unwrap(), 3900.0 - 2500.0 * 150.0 / 2690.0 / 2.0, 1e-9, "bed");
    let fitted = fit(&truck, &[]).unwrap();
    let height = |case| Rest::of(fitted.under(case).unwrap()).unwrap().ride_height_mm();
    let measured = height(LoadCase::AsMeasured);
    assert!(height(LoadCase::Driver) < measured && measured < height(LoadCase::Bed));
    // Small loads sink it by load over wheel rate.
    let rest = rest(&truck, &[]);
    near(measured - height(LoadCase::Driver), 290.0 / rest.wheel_rate_n_per_mm, 0.8, "sinking");
    let mut open = truck.clone();
    open.load.driver_n = None;
    assert!(fit(&open, &[]).unwrap().under(LoadCase::Driver).is_none());
}

/// A bar on an axis of its own twists by the component of its arm's turn along
/// it: with the same load, cos more twist for cos less lever, so its wheel rate is
/// cos² of that of a bar along the arm's axis.
#[test]
fn a_bar_at_an_angle_is_softer_by_the_square_of_its_cosine() {
    let truck = demo().truck;
    let axis = truck.points.lower.front - truck.points.lower.rear;
    let along = axis.normalize();
    let mut angled = truck.clone();
    // Straight along the truck, while the arm's axis runs through the strut rod's bushing.
    angled.spring.bar.inward_rad = Some(0.0);
    angled.spring.bar.downward_rad = Some(0.0);
    let cos = along.x;
    assert!(cos < 0.998, "the demo truck's axis is not straight along it");
    let (straight, at_angle) = (rest(&truck, &[]), rest(&angled, &[]));
    near(at_angle.ride_height_mm(), straight.ride_height_mm(), 1e-9, "height as it sits");
    near(at_angle.effort / straight.effort, 1.0 / cos, 1e-9, "torque");
    // The bar's own part of the rate; the geometric term is the same in both.
    let per_rad = straight.corner.arm_rates(&straight.pose).unwrap().contact_mm.z;
    let bar = truck.spring.bar_rate() / (per_rad * per_rad);
    let lost = straight.wheel_rate_n_per_mm - at_angle.wheel_rate_n_per_mm;
    near(lost, bar * (1.0 - cos * cos), 1e-3 * bar, "softer");
}

/// Stress by Gere's 16 T / π d³ and Wahl's coil; loose where the free length ends.
#[test]
fn how_hard_the_spring_works() {
    let truck = demo().truck;
    let work = spring_loads(&rest(&truck, &[]));
    let expected = 16.0 * work.rest.effort / (std::f64::consts::PI * libm::pow(25.4, 3.0));
    near(work.rest.stress_n_per_mm2.unwrap(), expected, 1e-9, "bar");
    near(work.rest.share.unwrap(), expected / 880.0, 1e-12, "share");
    let (bump, droop) = (work.bump.unwrap(), work.droop.unwrap());
    assert!(droop.effort < work.rest.effort && work.rest.effort < bump.effort);
    assert!(!droop.is_loose());
    // Let all the way down, the bar has nothing left when the wheel hangs.
    let down = Change::BarReindex(BarReindex { anchor: -2.0, arm: 0.0 });
    assert!(spring_loads(&rest(&truck, &[down])).droop.unwrap().is_loose());

    // A coil binds where its coils touch: Shigley's table of ends, closed and ground d (N + 2).
    let truck = coil_truck();
    let coil = truck.spring.coil;
    near(coil.solid_mm().unwrap(), 15.5 * 9.0, 1e-12, "solid");
    let at_stop = |changes: &[Change]| spring_loads(&rest(&truck, changes)).room_to_bind_mm.unwrap();
    let open = at_stop(&[]);
    assert!(open > 0.0);
    let thicker = CoilSwap { wire_mm: 17.0, mean_mm: coil.mean_mm, active: 9.0, free_mm: None };
    assert!(at_stop(&[Change::CoilSwap(thicker)]) < open - 30.0);
    assert_eq!(spring_loads(&rest(&demo().truck, &[])).room_to_bind_mm, None);
}

/// Shims at both bolts lean the wheel by their thickness over the balls' spacing (a lever,
/// arithmetic): the top out where the shaft stands outboard of its bracket, in where it
/// stands inboard. More at the front bolt sets the upper ball back where the shaft is
/// outboard, for more caster, and forward where it is inboard.
#[test]
fn shims_lean_the_wheel_the_way_of_their_shaft() {
    let mut truck = demo().truck;
    let spacing = truck.points.upper.ball.z - truck.points.lower.ball.z;
    for (side, way) in [(truck::ShaftSide::Outboard, 1.0), (truck::ShaftSide::Inboard, -1.0)] {
        truck.shims.side = Some(side);
        let attitude = |front_mm: f64, rear_mm: f64| {
            rest(&truck, &[Change::Shims(ShimChange { front_mm, rear_mm })]).attitude()
        };
        let before = attitude(0.0, 0.0);
        for thickness_mm in [1.0, -1.0] {
            let more = attitude(thickness_mm, thickness_mm).camber_rad - before.camber_rad;
            near(more, way * thickness_mm / spacing, 0.06 / spacing, "camber");
            let turned = attitude(thickness_mm, -thickness_mm).caster_rad - before.caster_rad;
            assert!(way * thickness_mm * turned > 1e-3, "{side:?} {thickness_mm}: {turned}");
        }
    }
}

/// The ground pushes the knuckle up, and the knuckle the arm that holds the spring down:
/// on that arm, and no other, a housing over its plate is pushed off it, against its bolts.
/// Statics: an arm on a pivot with no spring on it carries no load across itself, so the
/// other ball is not loaded up or down, and turned over it lowers nothing.
#[test]
fn a_joint_over_the_plate_under_the_spring_hangs_on_its_bolts() {
    for arm in [Arm::Lower, Arm::Upper] {
        let mut truck = demo().truck;
        truck.spring.arm = arm;
        for (place, of, up) in [
            (Place::LowerJointUp, Arm::Lower, true),
            (Place::LowerJointDown, Arm::Lower, false),
            (Place::UpperJointUp, Arm::Upper, true),
            (Place::UpperJointDown, Arm::Upper, false),
        ] {
            let change =
                Change::JointTurned(JointTurned { place, plate_mm: 6.0, flange_mm: 8.0, shift_mm: None });
            let said = notes(&truck, &[change]);
            assert_eq!(said.first() == Some(&Note::BoltsCarry), of == arm && up, "{place:?}");
            assert_eq!(said.contains(&Note::LowersNothing(of)), of != arm, "{place:?}");
            // The parts are on all the same.
            assert!(!fit(&truck, &[change]).unwrap().remarks.iter().any(Remark::is_misfit));
        }
    }
    assert!(Note::BoltsCarry.to_string().contains("bolts then carry the truck"));
    for misfit in [Remark::PastShims, Remark::RodTooShort, Remark::PastThread { left: 1.0 }] {
        assert!(misfit.is_misfit(), "{misfit}");
    }
}
