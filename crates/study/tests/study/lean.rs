//! How a truck leans: against `SciPy`, closed forms, mirrors and whatever can be entered.

use crate::front_alone;
use linkage::{Vector3, root};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample;
use study::{HeldBy, Lean, NoLean, Rear, Rest, Stance, lean, lean_alone_rad};
use truck::{
    Arm, ArmSwap, BarAdjuster, Change, Edit, Field, Fitted, Place, RearField, RearSpring, SeatSpacer, Side,
    SpringKind, TireSwap, Truck,
};
use yardstick::budget::{Budget, Errors, near};
use yardstick::cases;
use yardstick::table::{Row, Table};

/// It may grow, never shrink.
const FEWEST_ROWS: usize = 18;
pub(crate) const LEANS: &str = include_str!("../../../../tests/reference/scipy/leans.csv");
/// The table has six decimals; the slope of an energy is level there to 1e-5 N, of 20 N/mm.
const HEIGHTS_MM: Budget = Budget { q50: 2e-6, q99: 1e-5, max: 1e-5 };
const FORCES_N: Budget = Budget { q50: 2e-5, q99: 2e-4, max: 2e-4 };
const ANGLES_DEG: Budget = Budget { q50: 1e-6, q99: 1e-6, max: 1e-6 };

/// Leaves of 30 N/mm that are 1000 mm apart, tires 1420, no anti-roll bar.
pub(crate) const LEAVES: [(RearField, f64); 3] =
    [(RearField::Rate, 30.0), (RearField::SpringsApart, 1000.0), (RearField::TiresApart, 1420.0)];
pub(crate) const BAR: [(RearField, f64); 4] = [
    (RearField::AntiRollDiameter, 22.0),
    (RearField::AntiRollLength, 800.0),
    (RearField::AntiRollLever, 210.0),
    (RearField::AntiRollLink, 220.0),
];

pub(crate) fn stated(truck: Truck, numbers: &[(RearField, f64)]) -> Truck {
    let rear = numbers.iter().fold(truck.rear.clone(), |rear, (field, value)| rear.with(*field, *value));
    Truck { rear, ..truck }
}

/// The demo truck's front with a plain rate at the wheels, wide between its stops.
pub(crate) fn plain(rear: &[(RearField, f64)]) -> Truck {
    let mut truck = stated(front_alone().truck, rear);
    truck.spring.kind = SpringKind::WheelRate;
    truck.stops.bump_gap_mm = 60.0;
    truck
}

/// Each side with a change of its own.
fn stance(truck: &Truck, changes: [Option<Change>; 2]) -> Stance {
    let [left, right] = [0, 1].map(|at| {
        let fitted = Fitted::as_measured(truck.on(Side::ALL[at]));
        changes[at].as_ref().map_or(fitted.clone(), |change| fitted.with(change))
    });
    Stance::of(left, right, Rear::AS_MEASURED).unwrap()
}

fn turns(turns: f64) -> Option<Change> {
    Some(Change::BarAdjuster(BarAdjuster { turns }))
}

/// What is done at a side so that its corner stands so much higher or lower, as the table has it.
fn done(truck: &Truck, mm: f64) -> Option<Change> {
    let change = match truck.spring.kind {
        SpringKind::TorsionBar => {
            Change::BarAdjuster(BarAdjuster { turns: mm / truck.spring.bar.thread_pitch_mm })
        }
        SpringKind::Coil => Change::SeatSpacer(SeatSpacer { thickness_mm: mm }),
        SpringKind::WheelRate => Change::TireSwap(TireSwap {
            size: truck.tire.size,
            loaded_radius_mm: Some(truck.loaded_radius_mm() + mm),
            rim_width_mm: truck.wheel.rim_width_mm,
            offset_mm: truck.wheel.offset_mm,
            barrel_mm: None,
        }),
    };
    (mm != 0.0).then_some(change)
}

/// The table's second truck; its first is the demo's.
fn steep(mut truck: Truck) -> Truck {
    let point = |x, y, z| linkage::Point3::new(x, y, z);
    let points = &mut truck.points;
    points.lower.front = point(150.0, 300.0, 285.0);
    points.lower.rear = point(-170.0, 280.0, 270.0);
    points.lower.ball = point(5.0, 640.0, 222.0);
    points.upper.front = point(90.0, 390.0, 440.0);
    points.upper.rear = point(-110.0, 380.0, 450.0);
    points.upper.ball = point(-20.0, 600.0, 470.0);
    points.wheel_centre = point(0.0, 690.0, 305.0);
    points.tie_inner = point(-140.0, 320.0, 300.0);
    points.tie_outer = point(-130.0, 620.0, 268.0);
    truck
}

/// The truck of a row of the table.
pub(crate) fn truck_of(row: &Row<'_>) -> Truck {
    let n = |header| row.number(header);
    let mut rear = vec![
        (RearField::Rate, n("leaf_n_per_mm")),
        (RearField::SpringsApart, n("springs_apart_mm")),
        (RearField::TiresApart, n("tires_apart_mm")),
    ];
    if n("anti_roll_diameter_mm") > 0.0 {
        rear.extend([
            (RearField::AntiRollDiameter, n("anti_roll_diameter_mm")),
            (RearField::AntiRollLength, n("anti_roll_length_mm")),
            (RearField::AntiRollLever, n("anti_roll_lever_mm")),
            (RearField::AntiRollLink, n("anti_roll_link_mm")),
        ]);
    }
    let mut truck = stated(front_alone().truck, &rear);
    if row.text("truck") == "steep" {
        truck = steep(truck);
    }
    truck.spring.kind = match row.text("spring") {
        "torsion_bar" => SpringKind::TorsionBar,
        "coil" => SpringKind::Coil,
        _ => SpringKind::WheelRate,
    };
    // Nothing of the table comes to a stop.
    truck.stops.bump_gap_mm = 70.0;
    truck.stops.droop_mm = 110.0;
    truck
}

pub(crate) fn of_row(row: &Row<'_>) -> Stance {
    let truck = truck_of(row);
    stance(&truck, ["left_mm", "right_mm"].map(|name| done(&truck, row.number(name))))
}

/// Source: `reference/scipy/leans.py`, the least of the energy of the whole truck, its corners as free
/// knuckles, without any formula of ours.
#[test]
fn every_lean_of_the_table() {
    let table = Table::read(LEANS);
    assert!(table.len() >= FEWEST_ROWS, "{} rows left of {FEWEST_ROWS}", table.len());
    let (mut heights, mut angles, mut forces) =
        (Errors::of("heights_mm"), Errors::of("lean_deg"), Errors::of("forces_n"));
    for row in table.rows() {
        let stance = of_row(&row);
        let lean =
            lean(&stance).unwrap_or_else(|why| panic!("{} {}: {why}", row.text("truck"), row.text("spring")));
        let alone = Side::ALL.map(|side| stance.corner(side).ground_mm);
        for (got, name) in [
            (lean.left.down_mm, "left_down_mm"),
            (lean.right.down_mm, "right_down_mm"),
            (alone[0], "left_alone_mm"),
            (alone[1], "right_alone_mm"),
        ] {
            heights.add(got, row.number(name));
        }
        angles.add(lean.left_low_rad.to_degrees(), row.number("lean_deg"));
        let rear = lean.rear.unwrap();
        for (got, name) in [
            (lean.left.more_n, "left_more_n"),
            (lean.right.more_n, "right_more_n"),
            (rear.left_more_n, "rear_left_more_n"),
        ] {
            forces.add(got, row.number(name));
        }
        // Left front and right rear, by their names.
        near(rear.cross_more_n, lean.left.more_n - rear.left_more_n, 1e-9, "cross weight");
        assert_eq!((lean.left.held_by, lean.right.held_by), (HeldBy::Spring, HeldBy::Spring));
    }
    heights.within(HEIGHTS_MM);
    angles.within(ANGLES_DEG);
    forces.within(FORCES_N);
}

/// By hand, of two springs `k` at the wheels `t` apart, of which the left one's tire is `x` less, and
/// leaves of `K`: the left front gives `F = K s / t`, so the frame has the slope
/// `s = (x − 2 F / k) / t`, and with `K = leaf a² / 2`, `s = x / (t + 2 K / (k t))`. The track is that
/// of the smaller tire too, and the demo's arms move the contact and the wheel's center alike to a
/// hundredth.
#[test]
fn two_plain_rates_by_hand() {
    for (x, leaf, apart) in
        [(2.0, 30.0, 1000.0), (-2.0, 30.0, 1000.0), (1.5, 60.0, 900.0), (1.0, 200.0, 1100.0)]
    {
        let leaves = [
            (RearField::Rate, leaf),
            (RearField::SpringsApart, apart),
            (RearField::TiresApart, 1500.0),
            (RearField::Load, 3000.0),
        ];
        let truck = plain(&leaves);
        let lean = lean(&stance(&truck, [done(&truck, -x), None])).unwrap();
        let (k, t) = (21.0, 2.0 * 702.0);
        let roll = leaf * apart * apart / 2.0;
        let slope = x / (t + 2.0 * roll / (k * t));
        let within = 0.02 * slope.abs();
        near(lean.left_low_rad, slope, within, "lean");
        near(lean.alone_rad, x / t, 1e-6, "alone");
        near(lean.held_back().unwrap(), 1.0 - slope * t / x, 0.02, "held back");
        // What comes down at the left by more than the right, the middle by half of the tire.
        near(lean.left.down_mm + lean.right.down_mm, x, 0.02, "middle");
        near(lean.down_at_mm(0.0), x / 2.0, 0.01, "middle");
        near(lean.down_at_mm(lean.track_mm / 2.0), lean.left.down_mm, 1e-9, "left");
        // The low corner gives what the leaves hold, to the other one.
        near(lean.left.more_n, -roll * slope / t, within * roll / t, "left front");
        near(lean.right.more_n, -lean.left.more_n, 1e-9, "right front");
        let rear = lean.rear.unwrap();
        near(rear.left_more_n, roll * lean.left_low_rad.tan() / 1500.0, 1e-6, "left rear");
        near(rear.cross_more_n, lean.left.more_n - rear.left_more_n, 1e-9, "cross weight");
        near(rear.cross_share.unwrap(), rear.cross_more_n / (2.0 * 3900.0 + 6000.0), 1e-12, "share");
    }
}

/// By hand, of an anti-roll bar beside those springs: `4 C r² / t²` more against the roll at each of
/// two wheels that go up for down, where `C = G π d⁴ / 32 L lever²` and `r` is how far a link rises for
/// a millimetre of its wheel: of arms that are almost level, so much of the lower arm's length as the
/// link is out on it, and as its ball rises for its wheel, a millimetre within two hundredths.
#[test]
fn a_bar_by_hand() {
    let truck = plain(&[&LEAVES[..], &BAR[..]].concat());
    let [k, t, x] = [21.0, 1404.0, 2.0];
    let twist = 79300.0 * std::f64::consts::PI * 22.0_f64.powi(4) / (32.0 * 800.0);
    let rest = Rest::of(Fitted::as_measured(&truck)).unwrap();
    let lower = &truck.points.lower;
    let along = (lower.front - lower.rear).normalize();
    let out = along.cross(&(lower.ball - lower.rear)).norm();
    let [below, above] = [-1.0, 1.0].map(|mm| rest.at_travel(mm).unwrap().lower_ball.z);
    let ratio = 220.0 / out * (above - below) / 2.0;
    let bar = twist / (210.0 * 210.0) * ratio * ratio;
    // The left corner's spring is let down by the same whatever holds it: its anchor has no tire to it.
    let mut truck = truck;
    truck.spring.kind = SpringKind::TorsionBar;
    let change = done(&truck, -x);
    let stance = stance(&truck, [change, None]);
    let alone = lean_alone_rad(&stance) * t;
    let k = k * rest_rate(&truck) / k;
    let roll = 30.0 * 1e6 / 2.0;
    let front = k * t * t / 2.0;
    // A corner of k that was let down by `alone` pulls the frame over against all three.
    let slope = alone / t * front / (front + bar * t * t + roll);
    let lean = lean(&stance).unwrap();
    near(lean.left_low_rad, slope, 0.02 * slope, "lean");
    assert!(lean.anti_roll_bar);
}

fn rest_rate(truck: &Truck) -> f64 {
    Rest::of(Fitted::as_measured(truck)).unwrap().wheel_rate_n_per_mm
}

/// Identity: changed over, all of it changes over; alike, there is nothing to the last bits.
#[test]
fn changed_over_it_leans_the_other_way() {
    let truck = stated(front_alone().truck, &[&LEAVES[..], &BAR[..]].concat());
    for (one, other) in [(turns(3.0), None), (turns(-5.0), turns(1.0)), (turns(8.0), turns(-8.0))] {
        let here = lean(&stance(&truck, [one, other])).unwrap();
        let there = lean(&stance(&truck, [other, one])).unwrap();
        near(here.left_low_rad, -there.left_low_rad, 1e-12, "lean");
        near(here.alone_rad, -there.alone_rad, 1e-15, "alone");
        for (one, other) in [(here.left, there.right), (here.right, there.left)] {
            near(one.down_mm, other.down_mm, 1e-9, "down");
            near(one.more_n, other.more_n, 1e-7, "more");
            assert_eq!((one.held_by, one.is_lifted), (other.held_by, other.is_lifted));
        }
        let [here, there] = [here, there].map(|lean| lean.rear.unwrap());
        near(here.left_more_n, -there.left_more_n, 1e-7, "rear");
        near(here.cross_more_n, -there.cross_more_n, 1e-7, "cross weight");
    }
    for turned in [0.0, 4.0, -6.0] {
        let alike = lean(&stance(&truck, [turns(turned), turns(turned)])).unwrap();
        let rest = Stance::laid(&truck, &[turns(turned).unwrap()]).unwrap();
        let ground_mm = rest.corner(Side::Left).ground_mm;
        near(alike.left_low_rad, 0.0, 1e-13, "alike");
        for corner in [alike.left, alike.right] {
            near(corner.down_mm, ground_mm, 1e-10, "as on its own");
            near(corner.more_n, 0.0, 1e-8, "none the more");
        }
        assert_eq!(alike.held_back(), None);
        assert!(alike.rear.unwrap().cross_more_n.abs() < 1e-7);
    }
}

/// By statics: an anchor turned up lifts its corner, and a little the other one; left front and right
/// rear take more, right front and left rear less.
#[test]
fn an_anchor_turned_up_loads_its_own_corner_and_the_far_one() {
    let truck = stated(front_alone().truck, &LEAVES);
    let lean = lean(&stance(&truck, [turns(4.0), None])).unwrap();
    assert!(lean.left_low_rad < 0.0 && lean.left.down_mm < lean.right.down_mm && lean.right.down_mm < 0.0);
    assert!(lean.left.more_n > 0.0 && lean.right.more_n < 0.0);
    let rear = lean.rear.unwrap();
    assert!(rear.left_more_n < 0.0 && rear.cross_more_n > 0.0);
    assert!(!lean.anti_roll_bar && rear.cross_share.is_none());
    let held = lean.held_back().unwrap();
    assert!(held > 0.1 && held < 0.9, "{held}");
}

/// The first number that is missing is named; without the rear's tires there is no cross weight, and
/// without any number of a bar no bar.
#[test]
fn what_is_not_stated_is_named() {
    let none = |numbers: &[(RearField, f64)]| {
        let truck = stated(front_alone().truck, numbers);
        lean(&stance(&truck, [turns(2.0), None])).map(|lean: Lean| (lean.rear.is_some(), lean.anti_roll_bar))
    };
    let missing = |field| Err(NoLean::NotStated(field));
    assert_eq!(none(&[]), missing(RearField::Rate));
    assert_eq!(none(&LEAVES[..1]), missing(RearField::SpringsApart));
    assert_eq!(none(&LEAVES[..2]), Ok((false, false)));
    assert_eq!(none(&LEAVES), Ok((true, false)));
    for at in 0..BAR.len() {
        let mut numbers = [&LEAVES[..], &BAR[..]].concat();
        let (field, _) = numbers.remove(LEAVES.len() + at);
        assert_eq!(none(&numbers), missing(field));
    }
    let rate = Change::RearSpring(RearSpring { flatter_mm: 0.0, rate_n_per_mm: Some(60.0) });
    let out = Change::RearSpring(RearSpring { flatter_mm: 20.0, rate_n_per_mm: None });
    let with = |change: &Change| {
        let truck = stated(front_alone().truck, &LEAVES);
        let [left, right] = Side::ALL.map(|side| Fitted::as_measured(truck.on(side)).with(change));
        lean(&Stance::of(left.with(&turns(2.0).unwrap()), right, Rear::AS_MEASURED).unwrap())
    };
    assert_eq!(with(&out), Err(NoLean::OtherSprings));
    // Stiffer leaves hold it more level.
    let truck = stated(front_alone().truck, &LEAVES);
    let soft = lean(&stance(&truck, [turns(2.0), None])).unwrap();
    assert!(with(&rate).unwrap().left_low_rad.abs() < 0.9 * soft.left_low_rad.abs());
    let said = NoLean::NotStated(RearField::SpringsApart).to_string();
    assert!(said.ends_with("Rear springs apart, middle to middle"), "{said}");
}

/// By hand, of a bar that nothing twists: both links are as far up against as it sits. A link is on
/// its arm's plate, whatever became of the ball, and each arm swings from where it was measured.
#[test]
fn a_stiff_bar_keeps_its_links_level() {
    let bar = [
        (RearField::AntiRollDiameter, 60.0),
        (RearField::AntiRollLength, 200.0),
        (RearField::AntiRollLever, 30.0),
        (RearField::AntiRollLink, 300.0),
    ];
    let own = Edit::MeasureRight(vec![(Field::LowerBallZ, Some(240.0))]);
    let own = front_alone().edited(&own).unwrap().truck;
    let swap = |place, higher_mm| {
        let swap =
            ArmSwap { place, longer_mm: 0.0, higher_mm, forward_mm: 0.0, stop_mm: 0.0, spacing_mm: None };
        Some(Change::ArmSwap(swap))
    };
    let raised = swap(Place::LowerArm, 20.0);
    for (truck, changes) in [
        (front_alone().truck, [raised, None]),
        (front_alone().truck, [None, raised]),
        (own.clone(), [raised, None]),
        (own.clone(), [None, raised]),
        (own, [turns(6.0), None]),
    ] {
        let truck = stated(truck, &[&LEAVES[..], &bar[..]].concat());
        let stance = stance(&truck, changes);
        let lean = lean(&stance).unwrap();
        let up = Side::ALL.map(|side| {
            let (rest, down_mm) = match side {
                Side::Left => (stance.corner(side), lean.left.down_mm),
                Side::Right => (stance.corner(side), lean.right.down_mm),
            };
            let corner = &rest.corner;
            let off = |angle: f64| {
                let pose = corner.pose(angle, Vector3::zeros()).ok()?;
                Some(pose.contact(corner.loaded_radius_mm()).z - down_mm)
            };
            let ends = (rest.stops.droop_rad, rest.stops.solid_rad);
            let arm_rad = root::bracketed(off, ends.0, ends.1, 1e-13).unwrap();
            let plate_rad = arm_rad - rest.fitted.ball_turn_rad(Arm::Lower).unwrap();
            let measured = rest.fitted.measured_corner().unwrap().measured_angle_rad();
            300.0 * (plate_rad.sin() - measured.sin())
        });
        near(up[0], up[1], 0.02, "links");
    }
}

/// By statics, of leaves that no frame can twist: a corner that is turned up takes the other's whole
/// load, that wheel hangs at its droop stop in the air, and the frame leans as the leaves let it.
#[test]
fn a_wheel_that_has_nothing_left_is_in_the_air() {
    let stiff = [(RearField::Rate, 500.0), (RearField::SpringsApart, 1800.0)];
    let mut truck = stated(front_alone().truck, &stiff);
    truck.stops.droop_mm = 20.0;
    let up = Change::BarAdjuster(BarAdjuster { turns: 70.0 });
    // The corner that is turned up has more droop than the other.
    let turned_up = |truck: &Truck| {
        let [mut left, right] = Side::ALL.map(|side| Fitted::as_measured(truck.on(side)));
        left.stops.droop_mm = 110.0;
        lean(&Stance::of(left.with(&up), right, Rear::AS_MEASURED).unwrap()).unwrap()
    };
    let lifted = turned_up(&truck);
    assert!(lifted.right.is_lifted && !lifted.left.is_lifted, "{lifted:?}");
    assert_eq!((lifted.right.more_n, lifted.left.more_n), (-3900.0, 3900.0));
    assert_eq!(lifted.right.held_by, HeldBy::DroopStop);
    let slope = -3900.0 * lifted.track_mm / (500.0 * 1800.0 * 1800.0 / 2.0);
    near(lifted.left_low_rad, slope.atan(), 1e-12, "lean");
    near(lifted.left.down_mm - lifted.right.down_mm, slope * lifted.track_mm, 1e-9, "heights");
    // The other way round the lighter right takes all that the left has.
    let lighter = Edit::MeasureRight(vec![(Field::CornerLoad, Some(3700.0))]);
    let lighter = front_alone().edited(&lighter).unwrap().truck;
    let mut other = stated(lighter, &stiff);
    other.stops.droop_mm = 20.0;
    let [left, mut right] = Side::ALL.map(|side| Fitted::as_measured(other.on(side)));
    right.stops.droop_mm = 110.0;
    let higher = Change::BarAdjuster(BarAdjuster { turns: 80.0 });
    let other = lean(&Stance::of(left, right.with(&higher), Rear::AS_MEASURED).unwrap()).unwrap();
    assert!(other.left.is_lifted && !other.right.is_lifted, "{other:?}");
    assert_eq!((other.left.more_n, other.right.more_n), (-3900.0, 3900.0));
    let slope = 3900.0 * other.track_mm / (500.0 * 1800.0 * 1800.0 / 2.0);
    near(other.left_low_rad, slope.atan(), 1e-12, "lean");
    near(other.left.down_mm - other.right.down_mm, slope * other.track_mm, 1e-9, "heights");
    assert!(other.right.down_mm < -20.0, "the wheel that carries all of it stands where it did: {other:?}");
    // A rear wheel that is in the air holds no more: 300 N at 1000 mm.
    let light = [(RearField::Load, 300.0), (RearField::TiresApart, 1000.0)];
    let truck = stated(truck, &light);
    let rear_up = turned_up(&truck);
    let rear = rear_up.rear.unwrap();
    assert!(rear.is_lifted && !rear_up.right.is_lifted);
    near(rear.left_more_n, -300.0, 1e-9, "all of it");
    near(rear_up.left.more_n, 300.0 * 1000.0 / rear_up.track_mm, 1e-9, "its couple");
}

/// A corner that its own spring lays on its stop stands there, and the other is held by what it has.
#[test]
fn a_corner_on_its_stop_is_said() {
    let truck = stated(front_alone().truck, &LEAVES);
    let low = lean(&stance(&truck, [turns(-40.0), None])).unwrap();
    assert_eq!(low.left.held_by, HeldBy::BumpStop);
    let ground = Side::ALL.map(|side| stance(&truck, [turns(-40.0), None]).corner(side).ground_mm);
    near(low.left.down_mm, ground[0], 1e-9, "on its stop");
    assert!(low.right.down_mm > ground[1] && low.left_low_rad > 0.0);
}

/// A number of the rear anywhere within its limits.
fn any_number() -> impl Strategy<Value = (RearField, f64)> {
    (sample::select(RearField::ALL.to_vec()), 0.0..=1.0).prop_map(|(field, share)| {
        let (low, high) = field.limits();
        (field, low + (high - low) * share)
    })
}

proptest! {
    #![proptest_config(cases(300))]

    /// Whatever can be entered: finite, on the side of the corner that stands lower by itself, no
    /// wheel carrying less than nothing, and what one front gives the other has.
    #[test]
    fn any_truck_leans_by_a_number(
        numbers in vec(any_number(), 0..40),
        all in any::<bool>(),
        kind in sample::select(vec![SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate]),
        sides in (-120.0..120.0, -120.0..120.0),
    ) {
        let mut truck = front_alone().truck;
        if all {
            truck = stated(truck, &[&LEAVES[..], &BAR[..]].concat());
        }
        truck = stated(truck, &numbers);
        truck.spring.kind = kind;
        let changes = [done(&truck, sides.0), done(&truck, sides.1)];
        let [left, right] = [0, 1].map(|at| {
            let fitted = Fitted::as_measured(truck.on(Side::ALL[at]));
            changes[at].as_ref().map_or(fitted.clone(), |change| fitted.with(change))
        });
        let Ok(stance) = Stance::of(left, right, Rear::AS_MEASURED) else { return Ok(()) };
        prop_assert!(lean_alone_rad(&stance).is_finite());
        let Ok(lean) = lean(&stance) else {
            prop_assert!(!all, "{:?}", lean(&stance));
            return Ok(());
        };
        for value in [lean.left_low_rad, lean.left.down_mm, lean.right.down_mm, lean.left.more_n] {
            prop_assert!(value.is_finite(), "{lean:?}");
        }
        prop_assert!(lean.left.more_n >= -3900.0 - 1e-9 && lean.right.more_n >= -3900.0 - 1e-9);
        prop_assert!((lean.left.more_n + lean.right.more_n).abs() < 1e-9);
        prop_assert!(lean.left_low_rad * lean.alone_rad >= -1e-9, "{lean:?}");
        prop_assert!(lean.left_low_rad.abs() <= lean.alone_rad.abs() + 1e-9, "{lean:?}");
        if let Some(rear) = lean.rear {
            prop_assert!(rear.left_more_n.is_finite() && rear.cross_more_n.is_finite());
            prop_assert!(rear.cross_share.is_none_or(|share| share.abs() <= 1.0 + 1e-9));
            prop_assert!(rear.left_more_n * lean.left.more_n <= 0.0, "{lean:?}");
        }
    }
}
