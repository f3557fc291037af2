//! What a number is counted from, and which way is plus: each by hand, on a truck
//! where the other way would show.

use linkage::{Point3, Vector3};
use nalgebra::{Rotation3, Unit};
use study::{
    Gauged, LeftRight, Low, LowPoint, Quantity, Rest, ScrubLine, Span, Stance, StandingSide, Steering,
    left_and_right,
};
use truck::{
    Arm, BarAdjuster, Change, Design, DroppedSpindle, Edit, Field, LoadCase, ProposalId, Side, SpringKind,
    Truck, demo,
};
use yardstick::budget::near;

fn as_measured(truck: &Truck) -> StandingSide {
    Stance::laid(truck, &[]).unwrap().on(Side::Left)
}

fn lowered(truck: &Truck) -> StandingSide {
    let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
    Stance::laid(truck, &[Change::DroppedSpindle(spindle)]).unwrap().on(Side::Left)
}

fn read(rest: &StandingSide, quantity: Quantity) -> f64 {
    quantity.read(&Gauged::of(rest, rest.pose).unwrap()).unwrap()
}

fn point(line: &ScrubLine, of: Low) -> LowPoint {
    *line.points.iter().find(|point| point.of == of).unwrap()
}

/// The demo with a rear that hangs lower below and higher above: arms that dive and squat.
fn slanted() -> Truck {
    let mut truck = demo().truck;
    truck.points.lower.front.z += 15.0;
    truck.points.upper.rear.z -= 20.0;
    truck
}

/// Cross caster is against the frame, which both sides share: the lean of the line through
/// the balls in the body's side view (ISO 8855), though one side has come down farther.
#[test]
fn cross_caster_is_against_the_frame() {
    let softer = vec![(Field::BarDiameter, Some(20.0)), (Field::UpperBallX, Some(-12.0))];
    let design: Design = demo().edited(&Edit::MeasureRight(softer)).unwrap();
    let down = Change::BarAdjuster(BarAdjuster { turns: -6.0 });
    let design = design.edited(&Edit::Set(ProposalId(0), down)).unwrap();
    let stance = Stance::of_design(&design, ProposalId(0).into()).unwrap();
    let [left, right] = Side::ALL.map(|side| stance.corner(side));
    let apart = left.ground_mm - right.ground_mm;
    assert!(apart.abs() > 1.0, "one side has come down farther: {apart}");
    let lean = |rest: &Rest| {
        let axis = rest.pose.upper_ball - rest.pose.lower_ball;
        libm::atan2(-axis.x, axis.z)
    };
    let all = left_and_right(left, right);
    let found = all.iter().find(|one: &&LeftRight| one.quantity == Quantity::Caster).unwrap();
    near(found.together(), lean(left) - lean(right), 1e-9, "cross caster");
}

/// A wheel whose top leans out by `γ` has its outboard edge lower, by the rim's width
/// times `sin γ`; with its top in it is the inboard edge, through which the line runs.
#[test]
fn a_leaning_rim_s_lowest_edge() {
    for degrees in [-3.0_f64, 3.0] {
        let mut truck = demo().truck;
        truck.points.camber_rad = degrees.to_radians();
        let line = ScrubLine::of(&as_measured(&truck));
        let (sin, cos) = libm::sincos(truck.points.camber_rad);
        // Segment seat of 14 in less 0.8 mm, and a J flange of 17.5 mm.
        let middle = truck.points.wheel_centre.z - (354.8 / 2.0 + 17.5) * cos;
        let half = truck.wheel.rim_width_mm / 2.0 * sin;
        near(line.rim_z_mm, middle + half, 1e-9, "inboard edge");
        near(line.rim_low_mm, middle - half.abs(), 1e-9, "lowest edge");
    }
}

/// A pin raised by two inches lets body and arms down by two inches and leaves the wheel where
/// it was: every low point is two inches nearer to the ground, to the rim's edge and to the line.
#[test]
fn what_hangs_low_comes_down_with_the_body() {
    let truck = demo().truck;
    let [before, after] = [as_measured(&truck), lowered(&truck)].map(|rest| ScrubLine::of(&rest));
    near(after.rim_low_mm, before.rim_low_mm, 1e-9, "the rim's edge");
    for of in Low::ALL {
        let (was, is) = (point(&before, of), point(&after, of));
        for (what, was_mm, is_mm) in [
            ("above the ground", was.z_mm, is.z_mm),
            ("above the line", was.over_line_mm, is.over_line_mm),
            ("above the rim's edge", was.over_rim_mm, is.over_rim_mm),
        ] {
            near(was_mm - is_mm, 50.8, 1e-6, &format!("{}, {what}", of.label()));
        }
    }
    // By hand: the lowest fixed point was measured 190 mm above the ground.
    near(point(&after, Low::Fixed).z_mm, 190.0 - 50.8, 1e-6, "the lowest fixed point");
}

/// On either side of the centreline the line that is higher there counts.
#[test]
fn the_scrub_line_is_the_same_on_both_sides() {
    let mut truck = demo().truck;
    let right = as_measured(&truck);
    truck.low.y_mm = Some(-180.0);
    let left = as_measured(&truck);
    let [here, there] = [&right, &left].map(|rest| point(&ScrubLine::of(rest), Low::Fixed));
    near(here.over_line_mm, there.over_line_mm, 1e-12, "left and right");
    assert!(ScrubLine::of(&right).at_mm(400.0) > ScrubLine::of(&right).at_mm(0.0));
}

/// Of an arm without a strut rod the leg whose pivot hangs lower; each thing reaches
/// below its middle line by its own thickness.
#[test]
fn what_hangs_low_is_the_lower_leg_and_has_its_own_thickness() {
    let truck = demo().truck;
    let strut = point(&ScrubLine::of(&as_measured(&truck)), Low::StrutRod);
    let end = truck.strut.arm.stated().unwrap();
    let bushing = truck.points.lower.front;
    let at = if (strut.y_mm - end.y).abs() < 1e-6 { end } else { bushing };
    near(strut.y_mm, at.y, 1e-9, "an end of the rod");
    near(strut.z_mm, at.z - truck.thickness.strut_rod_mm.unwrap(), 1e-9, "under the rod");
    for rear_lower in [false, true] {
        let mut truck = demo().truck;
        truck.strut.arm = truck::OpenPoint { x: None, y: None, z: None };
        let lower = &mut truck.points.lower;
        let (low, high) = if rear_lower {
            (&mut lower.rear, &mut lower.front)
        } else {
            (&mut lower.front, &mut lower.rear)
        };
        (low.z, high.z) = (160.0, 185.0);
        let want = low.z - truck.thickness.lower_arm_mm.unwrap();
        let arm = point(&ScrubLine::of(&as_measured(&truck)), Low::LowerArm);
        near(arm.z_mm, want, 1e-9, "under the lower pivot");
    }
    // The tie rod's outer end is the lower one, and nearer to a line that rises outward.
    let tie = point(&ScrubLine::of(&as_measured(&truck)), Low::TieRod);
    let want = truck.points.tie_outer.z - truck.thickness.tie_rod_mm.unwrap();
    near(tie.z_mm, want, 1e-9, "under the tie rod's outer end");
}

/// Beside a strut rod the arm is the leg to its own bushing, whichever of the two hangs lower.
#[test]
fn a_rod_s_bushing_is_no_end_of_the_arm() {
    for (own_mm, rods_mm) in [(160.0, 185.0), (185.0, 160.0)] {
        let mut truck = demo().truck;
        // The rear pivot is the arm's own, beside the ball along the truck.
        (truck.points.lower.rear.z, truck.points.lower.front.z) = (own_mm, rods_mm);
        let arm = point(&ScrubLine::of(&as_measured(&truck)), Low::LowerArm);
        let under = own_mm - truck.thickness.lower_arm_mm.unwrap();
        near(arm.z_mm, under, 1e-9, "under the arm's own bushing");
        near(arm.y_mm, truck.points.lower.rear.y, 1e-9, "at the arm's own bushing");
    }
}

/// Above the ground, not above where the ground was: the roll centre lies on the line
/// from the contact to the instant centre, `h = z · (t/2) / (t/2 − y)` (any chassis text).
#[test]
fn the_instant_centre_s_height_is_above_the_ground() {
    let rest = lowered(&demo().truck);
    assert!(rest.ground_mm > 40.0);
    let [y, z, half, roll] =
        [Quantity::InstantCentreY, Quantity::InstantCentreZ, Quantity::HalfTrack, Quantity::RollCentre]
            .map(|quantity| read(&rest, quantity));
    near(roll, z * half / (half - y), 1e-6, "roll center by the instant center");
}

/// Plus where the contact goes back as the wheel rises: by the contact's own places a
/// millimetre up and down, for arms slanted either way.
#[test]
fn the_contact_s_path_is_plus_backward_in_bump() {
    for truck in [slanted(), demo().truck] {
        let rest = as_measured(&truck);
        let [up, down] =
            [1.0, -1.0].map(|mm| rest.at_travel(mm).unwrap().contact(rest.corner.loaded_radius_mm()));
        let by_hand = (down.x - up.x) / (up.z - down.z);
        assert!(by_hand.abs() > 2e-3, "{by_hand}");
        near(libm::tan(read(&rest, Quantity::PathAngle)), by_hand, 1e-5, "back for a rise");
    }
}

/// Plus where the contact goes out as the wheel rises: by the contact's own places a
/// millimetre up and down, on arms that hang down to the ball and on arms that rise to it.
#[test]
fn the_track_rate_is_plus_outward_in_bump() {
    for rise_mm in [-60.0, 60.0] {
        let mut truck = demo().truck;
        let lower = &mut truck.points.lower;
        lower.ball.z = f64::midpoint(lower.front.z, lower.rear.z) + rise_mm;
        let rest = as_measured(&truck);
        let [up, down] =
            [1.0, -1.0].map(|mm| rest.at_travel(mm).unwrap().contact(rest.corner.loaded_radius_mm()));
        let by_hand = (up.y - down.y) / 2.0;
        assert!(by_hand * rise_mm < 0.0, "a ball that hangs goes out as it rises: {by_hand}");
        near(read(&rest, Quantity::TrackRate), by_hand, 1e-5, "out for a rise");
    }
}

/// A spring works as the wheel rises, and its ratio is plus: a coil by what it is shorter, its
/// seat turned about the pivots as the ball is; a bar along the pivots by what its arm has risen.
#[test]
fn a_spring_s_ratio_is_plus_in_bump() {
    let (mut truck, bar) = (demo().truck, as_measured(&demo().truck));
    let poses = |rest: &StandingSide| [1.0, -1.0].map(|mm| rest.at_travel(mm).unwrap());
    let [up, down] = poses(&bar);
    let twist = (up.lower_arm_rad - down.lower_arm_rad) / 2.0;
    assert!(twist > 0.0, "{twist}");
    near(read(&bar, Quantity::BarRatio), twist, 1e-8, "twist for a rise");
    truck.spring.kind = SpringKind::Coil;
    let coil = as_measured(&truck);
    let (arm, seats) = (truck.points.lower, truck.spring.coil);
    let axis = Unit::new_normalize(arm.front - arm.rear);
    let length = |ball: Point3<f64>| {
        let [was, is] = [arm.ball, ball].map(|ball| {
            let out = ball - arm.rear;
            out - axis.into_inner() * out.dot(&axis)
        });
        let turn = Rotation3::from_axis_angle(&axis, libm::atan2(was.cross(&is).dot(&axis), was.dot(&is)));
        (arm.rear + turn * (seats.arm_seat - arm.rear) - seats.body_seat).norm()
    };
    let [up, down] = poses(&coil).map(|pose| length(pose.lower_ball));
    let shorter = (down - up) / 2.0;
    assert!(shorter > 0.1, "{shorter}");
    near(read(&coil, Quantity::CoilRatio), shorter, 1e-5, "shorter for a rise");
}

/// With the nose down the ground is not the frame's level: trail by turning balls, hub and
/// spin axis about the truck's own cross axis.
#[test]
fn trail_against_the_ground_turns_with_the_nose() {
    let rest = lowered(&demo().truck);
    let (pose, radius) = (rest.pose, rest.corner.loaded_radius_mm());
    let sunk = Rotation3::from_axis_angle(&Vector3::y_axis(), rest.nose_down_rad());
    let [low, high, hub] = [pose.lower_ball, pose.upper_ball, pose.wheel_centre].map(|at| sunk * at);
    let spin = sunk * pose.spin;
    let down = (spin * spin.z - Vector3::z()).normalize();
    let contact = hub + down * radius;
    let foot = low + (high - low) * ((contact.z - low.z) / (high.z - low.z));
    let ahead = Vector3::new(spin.y, -spin.x, 0.0).normalize();
    near(read(&rest, Quantity::TrailGround), (foot - contact).dot(&ahead), 1e-9, "against the ground");
    assert!(read(&rest, Quantity::Trail) - read(&rest, Quantity::TrailGround) > 2.0, "the nose takes some");
}

/// A bar that is said to lie along its arm's axis works as one of which nothing is said:
/// to the rear it points inward by what the front pivot stands farther out, and down by
/// what it stands higher. On the upper arm that is the upper one's axis, slanted otherwise.
#[test]
fn a_bar_along_its_arm_s_axis_loses_nothing() {
    for arm in [Arm::Lower, Arm::Upper] {
        let mut truck = slanted();
        truck.points.upper.rear.y += 40.0;
        truck.spring.arm = arm;
        let open = as_measured(&truck);
        let points = if arm == Arm::Lower { truck.points.lower } else { truck.points.upper };
        let axis = points.front - points.rear;
        assert!(axis.y.abs() > 5.0 && axis.z.abs() > 5.0, "{axis}");
        truck.spring.bar.inward_rad = Some(libm::atan2(axis.y, axis.x));
        truck.spring.bar.downward_rad = Some(libm::atan2(axis.z, axis.x));
        let said = as_measured(&truck);
        near(said.effort / open.effort, 1.0, 1e-12, "torque");
        near(said.wheel_rate_n_per_mm / open.wheel_rate_n_per_mm, 1.0, 1e-9, "wheel rate");
        truck.spring.bar.inward_rad = Some(-libm::atan2(axis.y, axis.x));
        assert!(as_measured(&truck).effort > open.effort * 1.001, "the other way it has to work harder");
    }
}

/// A box that goes as far as ever, on a steering arm made shorter by a spindle: the
/// parts end before the lock that was measured, and it is said.
#[test]
fn a_lock_that_a_proposal_s_parts_do_not_reach_is_said() {
    let truck = demo().truck;
    let before = Steering::of(&as_measured(&truck)).unwrap();
    let towards_axis = truck.points.lower.ball.x - truck.points.tie_outer.x;
    let shorter = DroppedSpindle {
        drop_mm: 50.8,
        tie_outer_mm: Vector3::new(0.6 * towards_axis, 0.0, 0.0),
        ..DroppedSpindle::default()
    };
    let rest = Stance::laid(&truck, &[Change::DroppedSpindle(shorter)]).unwrap().on(Side::Left);
    let after = Steering::of(&rest).unwrap();
    let (left, right) = (truck.steering.lock_left_rad, truck.steering.lock_right_rad.map(|rad| -rad));
    assert_eq!((before.left.short_of_rad, before.right.short_of_rad), (None, None));
    let short = [(after.left, before.left, left), (after.right, before.right, right)]
        .into_iter()
        .filter(|(now, was, _)| now.side_mm.abs() < was.side_mm.abs() - 0.1)
        .inspect(|(now, _, lock)| assert_eq!(now.short_of_rad, *lock))
        .count();
    assert!(short > 0, "{after:?}");
}

/// By moments about the rear axle: 3900 + 290 − 2500 · 150 / 2690 / 2 = 4120.3 N.
#[test]
fn driver_and_load_press_and_lift_together() {
    let truck = demo().truck;
    let both = LoadCase::DriverAndBed.corner_n(&truck.load, truck.body.wheelbase_mm).unwrap();
    near(both, 4120.3, 0.05, "both");
}

/// A curve has a point for each travel that is reached, at that travel and with what is read
/// there; what the parts do not reach is left out, and nothing stands in its place.
#[test]
fn a_curve_is_what_is_read_at_each_travel() {
    let rest = lowered(&slanted());
    let curve = |from_mm: f64, to_mm: f64| -> Vec<(f64, f64)> {
        let span = Span { from_mm, to_mm, count: 5 };
        study::sweep(&rest, &span, Vector3::zeros()).curve(Quantity::Camber).collect()
    };
    let travels = [-60.0, -30.0, 0.0, 30.0, 60.0];
    let found = curve(-60.0, 60.0);
    assert_eq!(found.len(), travels.len());
    for ((at_mm, value), travel_mm) in found.into_iter().zip(travels) {
        near(at_mm, travel_mm, 1e-12, "travel");
        let here = Gauged::of(&rest, rest.at_travel(travel_mm).unwrap()).unwrap();
        near(value, Quantity::Camber.read(&here).unwrap(), 1e-12, "camber");
    }
    // No arm swings two metres.
    let reached: Vec<f64> = curve(-60.0, 2000.0).iter().map(|(travel_mm, _)| *travel_mm).collect();
    assert_eq!(reached.len(), 1, "{reached:?}");
    near(reached[0], -60.0, 1e-12, "the one that is reached");
}
