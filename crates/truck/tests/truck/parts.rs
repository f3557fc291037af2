//! Stops, shocks, brakes, shims and rods: what a change states is replaced, and only that.

use crate::{fitted, near};
use linkage::Vector3;
use linkage::axes::length;
use truck::{
    ArmSwap, Brake, Change, DroppedSpindle, KnuckleSwap, MovedPivot, Note, OpenPoint, Place, Remark,
    ShaftSide, ShimChange, ShockChange, Side, StopTrim, TieRodChange, Truck, demo, notes, notes_of,
};

const ALONG: [Vector3<f64>; 3] =
    [Vector3::new(9.0, 0.0, 0.0), Vector3::new(0.0, -7.0, 0.0), Vector3::new(0.0, 0.0, 5.0)];

/// A stop trimmed by what it is squeezed has nothing left to squeeze: it is solid where it is touched.
#[test]
fn a_stop_is_not_squeezed_less_than_nothing() {
    let mut truck = demo().truck;
    truck.stops.bump_gap_mm = 28.0;
    truck.stops.bump_squash_mm = 9.5;
    for (lower_mm, less_squash_mm, gap_mm, squash_mm) in [
        (0.0, 0.0, 28.0, 9.5),
        (10.0, 4.0, 38.0, 5.5),
        (10.0, 9.5, 38.0, 0.0),
        (12.0, 12.0, 40.0, 0.0),
        // A taller and softer one.
        (-6.0, -3.0, 22.0, 12.5),
    ] {
        let stops = fitted(&truck, Change::StopTrim(StopTrim { lower_mm, less_squash_mm })).stops;
        near(stops.bump_gap_mm, gap_mm, "daylight");
        near(stops.bump_squash_mm, squash_mm, "squeeze");
        near(stops.bump_radius_mm, truck.stops.bump_radius_mm, "where it stands");
        near(stops.droop_mm, truck.stops.droop_mm, "droop");
    }
}

/// A shock's mount goes the way it is moved: forward, out, or up, and no other way.
#[test]
fn a_shock_s_mount_goes_the_way_it_is_moved() {
    let truck = demo().truck;
    let was = truck.shock.body.stated().unwrap();
    for by in ALONG {
        let change = ShockChange { body_mm: by, ..ShockChange::default() };
        let shock = fitted(&truck, Change::Shock(change)).shock;
        assert_eq!(shock.body.stated().unwrap(), was + by);
        assert_eq!((shock.arm, shock.short_mm, shock.long_mm), {
            let old = truck.shock;
            (old.arm, old.short_mm, old.long_mm)
        });
    }
    // What was never measured is not known after a move either.
    let mut open = truck.clone();
    open.shock.body.y = None;
    let change = ShockChange { body_mm: Vector3::new(1.0, 2.0, 3.0), ..ShockChange::default() };
    let body = fitted(&open, Change::Shock(change)).shock.body;
    assert_eq!(body, OpenPoint { x: Some(was.x + 1.0), y: None, z: Some(was.z + 3.0) });
}

/// Another shock's lengths take the place of the old one's, each by itself.
#[test]
fn a_shock_s_lengths_are_stated_each_by_itself() {
    let truck = demo().truck;
    let lengths = |short_mm: Option<f64>, long_mm: Option<f64>| {
        let shock =
            fitted(&truck, Change::Shock(ShockChange { short_mm, long_mm, ..ShockChange::default() })).shock;
        (shock.short_mm, shock.long_mm)
    };
    let (short, long) = (truck.shock.short_mm, truck.shock.long_mm);
    assert_eq!(lengths(None, None), (short, long));
    assert_eq!(lengths(Some(241.0), None), (Some(241.0), long));
    assert_eq!(lengths(None, Some(371.0)), (short, Some(371.0)));
}

/// Every number of another brake takes the place of the old one's, and leaves the others.
#[test]
fn each_number_of_a_brake_is_its_own() {
    let truck = demo().truck;
    let none = Brake::default();
    let old = truck.brake;
    for (change, expected) in [
        (none, old),
        (Brake { caliper_radius_mm: Some(161.0), ..none }, Brake { caliper_radius_mm: Some(161.0), ..old }),
        (Brake { caliper_in_mm: Some(103.0), ..none }, Brake { caliper_in_mm: Some(103.0), ..old }),
        (Brake { caliper_out_mm: Some(11.0), ..none }, Brake { caliper_out_mm: Some(11.0), ..old }),
        (Brake { rotor_diameter_mm: Some(276.0), ..none }, Brake { rotor_diameter_mm: Some(276.0), ..old }),
        (Brake { rotor_thickness_mm: Some(26.0), ..none }, Brake { rotor_thickness_mm: Some(26.0), ..old }),
    ] {
        assert_eq!(fitted(&truck, Change::Brake(change)).brake, expected);
    }
}

/// A dropped spindle is the knuckle that differs in its pin's height alone; one with its wheel farther out,
/// or its steering arm elsewhere, is the same by either name.
#[test]
fn a_dropped_spindle_is_a_knuckle_with_its_pin_higher() {
    let truck = demo().truck;
    for (drop_mm, out_mm, tie_outer_mm) in [
        (50.8, 0.0, Vector3::zeros()),
        (-12.5, 4.0, Vector3::zeros()),
        (63.5, -3.0, Vector3::new(2.0, -1.0, 7.0)),
    ] {
        let spindle =
            fitted(&truck, Change::DroppedSpindle(DroppedSpindle { drop_mm, out_mm, tie_outer_mm }));
        let swap = KnuckleSwap { pin_mm: drop_mm, out_mm, tie_outer_mm, ..KnuckleSwap::default() };
        assert_eq!(fitted(&truck, Change::KnuckleSwap(swap)), spindle);
    }
}

/// The most dangerous yes is said before what only costs work; one's own knuckle has the seats it had.
#[test]
fn another_knuckle_asks_for_its_tapers() {
    let truck = demo().truck;
    let swap = Change::KnuckleSwap(KnuckleSwap::default());
    let thick = Change::Shims(ShimChange { front_mm: 20.0, rear_mm: 20.0 });
    for changes in [[swap, thick], [thick, swap]] {
        assert_eq!(notes(&truck, &changes), [Note::OtherTapers, Note::ThickPack]);
    }
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
    assert_eq!(notes(&truck, &[spindle]), []);
    let one_side =
        truck::Overlay { own: &[(Side::Right, swap)], changes: &[thick], ..truck::Overlay::NOTHING };
    assert_eq!(notes_of(&truck, one_side), [Note::OtherTapers, Note::ThickPack], "on one side alone too");
}

/// What is typed of a knuckle is found again on it, by plain geometry: as far from ball to ball, the pin as
/// far over, out and forward of the lower ball, the arms as they were.
#[test]
fn each_length_of_a_knuckle_is_its_own() {
    let truck = demo().truck;
    let old = fitted(&truck, Change::KnuckleSwap(KnuckleSwap::default()));
    assert_eq!(old, truck::Fitted::as_measured(&truck), "one that differs in nothing");
    let was = old.members().unwrap();
    for by in [14.0, -9.5] {
        let swap = KnuckleSwap { balls_mm: by, ..KnuckleSwap::default() };
        let after = fitted(&truck, Change::KnuckleSwap(swap));
        let now = after.members().unwrap();
        near(now.knuckle.spacing_mm - was.knuckle.spacing_mm, by, "ball to ball");
        assert_eq!((now.lower, now.upper), (was.lower, was.upper), "the arms");
        assert_eq!(now.knuckle.wheel_centre, was.knuckle.wheel_centre, "the pin stays over the lower ball");
        assert_eq!(after.points, truck.points);
    }
    let zero = KnuckleSwap::default();
    for (swap, pin, tie) in [
        (KnuckleSwap { pin_mm: 5.0, ..zero }, Vector3::new(0.0, 0.0, 5.0), Vector3::zeros()),
        (KnuckleSwap { out_mm: -7.0, ..zero }, Vector3::new(0.0, -7.0, 0.0), Vector3::zeros()),
        (KnuckleSwap { forward_mm: 9.0, ..zero }, Vector3::new(9.0, 0.0, 0.0), Vector3::zeros()),
        (KnuckleSwap { tie_outer_mm: ALONG[0], ..zero }, Vector3::zeros(), ALONG[0]),
        (KnuckleSwap { tie_outer_mm: ALONG[1], ..zero }, Vector3::zeros(), ALONG[1]),
        (KnuckleSwap { tie_outer_mm: ALONG[2], ..zero }, Vector3::zeros(), ALONG[2]),
    ] {
        let after = fitted(&truck, Change::KnuckleSwap(swap));
        assert_eq!(after.points.wheel_centre, truck.points.wheel_centre + pin);
        assert_eq!(after.points.tie_outer, truck.points.tie_outer + tie);
        assert_eq!((after.points.lower, after.points.upper), (truck.points.lower, truck.points.upper));
        assert_eq!((after.points.camber_rad, after.balls_mm), (truck.points.camber_rad, 0.0));
    }
}

/// A stud that sits deeper brings its own ball nearer to all that is on the knuckle and leaves the other as
/// far from it: by plain distances, along the line of the balls.
#[test]
fn a_stud_that_sits_deeper_moves_its_own_ball_alone() {
    let truck = demo().truck;
    let distances = |swap: KnuckleSwap| {
        let after = fitted(&truck, Change::KnuckleSwap(swap));
        let lower = after.points.lower.ball;
        let line = linkage::axes::direction(truck.points.upper.ball - lower).unwrap();
        let upper = lower + line * after.members().unwrap().knuckle.spacing_mm;
        let place = |point: linkage::Point3<f64>| [point - lower, point - upper];
        (place(after.points.wheel_centre), place(after.points.tie_outer), line)
    };
    let (pin, arm, line) = distances(KnuckleSwap::default());
    for (upper_mm, lower_mm) in [(3.2, 0.0), (0.0, 2.5), (1.5, 4.0)] {
        let (now_pin, now_arm, _) = distances(KnuckleSwap::seated(&truck.points, upper_mm, lower_mm));
        for (was, now) in [(pin, now_pin), (arm, now_arm)] {
            // The lower ball rose to them, and the upper one came down.
            near(length(&(now[0] - was[0] + line * lower_mm)), 0.0, "from the lower ball");
            near(length(&(now[1] - was[1] - line * upper_mm)), 0.0, "from the upper ball");
        }
    }
}

/// The included angle is inclination and camber together (the trade's; common practice): between a pin that
/// points straight out and balls in one plane with it there is a right angle and that. By vectors, of a
/// knuckle with another angle: so much more, the line of the balls as it stood, and pin and steering arm as
/// far from the lower ball as they are on the bench.
#[test]
fn a_knuckle_s_angle_is_inclination_and_camber_together() {
    let mut truck = demo().truck;
    let points = &mut truck.points;
    points.toe_rad = 0.0;
    points.upper.ball.x = points.lower.ball.x;
    points.wheel_centre.x = points.lower.ball.x;
    let between = |fitted: &truck::Fitted| {
        let points = &fitted.points;
        let line = points.upper.ball - points.lower.ball;
        let pin = linkage::axes::spin_axis(points.camber_rad, points.toe_rad);
        libm::acos(line.dot(&pin) / length(&line))
    };
    let old = fitted(&truck, Change::KnuckleSwap(KnuckleSwap::default()));
    let inclination = linkage::axes::inclination_rad(&(old.points.upper.ball - old.points.lower.ball));
    near(between(&old), std::f64::consts::FRAC_PI_2 + inclination + old.points.camber_rad, "included angle");
    for degrees in [1.5_f64, -2.0] {
        let angle_rad = degrees.to_radians();
        let swap = KnuckleSwap { angle_rad, pin_mm: 30.0, ..KnuckleSwap::default() };
        let after = fitted(&truck, Change::KnuckleSwap(swap));
        near(between(&after) - between(&old), angle_rad, "more between pin and balls");
        near(after.points.camber_rad - truck.points.camber_rad, angle_rad, "all of it camber");
        assert_eq!((after.points.lower, after.points.upper), (truck.points.lower, truck.points.upper));
        // The pin's line still passes the lower ball as far above it, square to itself.
        let above = |fitted: &truck::Fitted| {
            let points = &fitted.points;
            let pin = linkage::axes::spin_axis(points.camber_rad, points.toe_rad);
            let from_ball = points.wheel_centre - points.lower.ball;
            let along = from_ball.dot(&pin);
            (along, length(&(from_ball - pin * along)))
        };
        let bench = fitted(&truck, Change::KnuckleSwap(KnuckleSwap { angle_rad: 0.0, ..swap }));
        near(above(&after).0, above(&bench).0, "out along the pin");
        near(above(&after).1, above(&bench).1, "over the lower ball");
        let arm = |fitted: &truck::Fitted| {
            let points = &fitted.points;
            length(&(points.tie_outer - points.wheel_centre))
        };
        near(arm(&after), arm(&bench), "steering arm to wheel center");
    }
}

fn shaft(side: ShaftSide) -> Truck {
    let mut truck = demo().truck;
    truck.shims.side = Some(side);
    // Pivots 200 mm apart, bolts 160 mm apart, all about one middle.
    truck.points.upper.front.x = 100.0;
    truck.points.upper.rear.x = -100.0;
    truck.shims.front_x_mm = Some(80.0);
    truck.shims.rear_x_mm = Some(-80.0);
    truck
}

/// Shims hold the shaft off its bracket: a shaft outboard of it goes out, one inboard goes
/// in. Similar triangles: a pack of 2 mm at one bolt moves the pivot beyond it by
/// 2 · 180/160, and the other back by 2 · 20/160.
#[test]
fn shims_go_the_way_of_their_shaft() {
    for (side, out) in [(ShaftSide::Outboard, 1.0), (ShaftSide::Inboard, -1.0)] {
        let truck = shaft(side);
        for (front_mm, rear_mm, front_y, rear_y) in [
            (2.0, 2.0, 2.0, 2.0),
            (-1.0, -1.0, -1.0, -1.0),
            (2.0, 0.0, 2.25, -0.25),
            (0.0, 2.0, -0.25, 2.25),
            (1.0, -1.0, 1.25, -1.25),
        ] {
            let after = fitted(&truck, Change::Shims(ShimChange { front_mm, rear_mm }));
            let moved = |now: linkage::Point3<f64>, was: linkage::Point3<f64>| now - was;
            let front = moved(after.mounts.upper.front, truck.points.upper.front);
            let rear = moved(after.mounts.upper.rear, truck.points.upper.rear);
            near(front.y, out * front_y, "front pivot");
            near(rear.y, out * rear_y, "rear pivot");
            assert_eq!((front.x, front.z, rear.x, rear.z), (0.0, 0.0, 0.0, 0.0));
            assert_eq!(after.mounts.lower, truck.points.mounts().lower);
        }
    }
}

/// A bolt of which nothing is stated is taken to stand at its pivot, which then moves by its own pack.
#[test]
fn bolts_of_which_nothing_is_stated_stand_at_the_pivots() {
    let mut truck = shaft(ShaftSide::Inboard);
    truck.shims.front_x_mm = None;
    truck.shims.rear_x_mm = None;
    let after = fitted(&truck, Change::Shims(ShimChange { front_mm: 3.0, rear_mm: 1.0 }));
    near(after.mounts.upper.front.y, truck.points.upper.front.y - 3.0, "front");
    near(after.mounts.upper.rear.y, truck.points.upper.rear.y - 1.0, "rear");
}

/// Packs by counting: none is thinner than nothing or thicker than its bolt takes, at either bolt.
#[test]
fn either_pack_may_be_past_its_bolt() {
    let mut truck = shaft(ShaftSide::Inboard);
    (truck.shims.front_mm, truck.shims.rear_mm, truck.shims.most_mm) = (Some(3.0), Some(5.0), Some(9.0));
    for (front_mm, rear_mm, past) in [
        (-3.0, -5.0, false),
        (6.0, 4.0, false),
        (-3.01, 0.0, true),
        (0.0, -5.01, true),
        (6.01, 0.0, true),
        (0.0, 4.01, true),
        // One remark for both.
        (6.01, 4.01, true),
    ] {
        let remarks = fitted(&truck, Change::Shims(ShimChange { front_mm, rear_mm })).remarks;
        assert_eq!(remarks, vec![Remark::PastShims; usize::from(past)], "{front_mm} {rear_mm}");
    }
}

/// A pivot, both of an arm, the rod's inner end or the knuckle's points go as far as stated.
#[test]
fn points_go_as_far_as_stated() {
    let truck = demo().truck;
    let was = truck.points.mounts();
    for by in ALONG {
        let none = Vector3::zeros();
        for (place, moves) in [
            (Place::LowerArm, [by, by, none, none]),
            (Place::UpperArm, [none, none, by, by]),
            (Place::LowerFront, [by, none, none, none]),
            (Place::LowerRear, [none, by, none, none]),
            (Place::UpperFront, [none, none, by, none]),
            (Place::UpperRear, [none, none, none, by]),
        ] {
            let now = fitted(&truck, Change::MovedPivot(MovedPivot { place, by_mm: by })).mounts;
            let moved = [
                now.lower.front - was.lower.front,
                now.lower.rear - was.lower.rear,
                now.upper.front - was.upper.front,
                now.upper.rear - was.upper.rear,
            ];
            assert_eq!(moved, moves, "{place:?}");
            assert_eq!(now.tie_inner, was.tie_inner, "{place:?}");
        }
        let rod = fitted(&truck, Change::TieRod(TieRodChange { longer_mm: -2.5, inner_mm: by }));
        assert_eq!(rod.mounts.tie_inner, was.tie_inner + by);
        near(rod.tie_longer_mm, -2.5, "tie rod");
        let spindle = DroppedSpindle { drop_mm: 38.0, out_mm: 6.0, tie_outer_mm: by };
        let points = fitted(&truck, Change::DroppedSpindle(spindle)).points;
        assert_eq!(points.wheel_centre, truck.points.wheel_centre + Vector3::new(0.0, 6.0, 38.0));
        assert_eq!(points.tie_outer, truck.points.tie_outer + by);
    }
}

/// The bump stop stands on the lower arm: a deeper pocket in the upper one is said to matter elsewhere.
#[test]
fn a_pocket_for_the_stop_is_the_lower_arm_s() {
    let truck = demo().truck;
    let swap = |place: Place, stop_mm: f64| {
        let swap =
            ArmSwap { place, longer_mm: 0.0, higher_mm: 0.0, forward_mm: 0.0, stop_mm, spacing_mm: None };
        let after = fitted(&truck, Change::ArmSwap(swap));
        (after.stops.bump_gap_mm - truck.stops.bump_gap_mm, after.remarks)
    };
    for stop_mm in [4.0, -4.0] {
        let (gap_mm, remarks) = swap(Place::LowerArm, stop_mm);
        near(gap_mm, stop_mm, "lower");
        assert_eq!(remarks, []);
        let (gap_mm, remarks) = swap(Place::UpperArm, stop_mm);
        near(gap_mm, 0.0, "upper");
        assert_eq!(remarks, [Remark::StopElsewhere]);
    }
    assert_eq!(swap(Place::UpperArm, 0.0), (0.0, vec![]));
}
