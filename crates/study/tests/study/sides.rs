//! Left and right that differ: mirrors, swaps, one relay rod between two corners, and
//! cross figures by hand.

use crate::ways::nothing_but;
use linkage::Point3;
use study::{
    CasterBy, Figure, Guess, LeftRight, PartsTable, Quantity, Relay, Rest, Stance, Steering, Steps, Studied,
    Target, Turn, Ways, Weights, Wish, left_and_right, setting, travel_left,
};
use truck::{BarAdjuster, Change, Design, Edit, Field, ProposalId, Side, Source, demo};
use yardstick::budget::near;
use yardstick::generate::{Dice, pickup};

const SPINDLE: ProposalId = ProposalId(0);
const RELAYS: [Relay; 3] = [
    Relay::Rack,
    Relay::Arms { length_mm: 140.0, ahead: true },
    Relay::Arms { length_mm: 120.0, ahead: false },
];

/// What a bent and sagging right side may have of its own, in the core's units.
const BENT: [(Field, f64); 9] = [
    (Field::LowerBallZ, 224.0),
    (Field::UpperBallX, -9.0),
    (Field::UpperBallY, 613.0),
    (Field::TieInnerZ, 295.5),
    (Field::TieOuterY, 636.0),
    (Field::BumpGap, 24.0),
    (Field::CornerLoad, 3780.0),
    (Field::RailBottomZ, 293.0),
    (Field::BarDiameter, 25.2),
];

fn bent() -> Design {
    let numbers = BENT.iter().map(|(field, value)| (*field, Some(*value))).collect();
    demo().edited(&Edit::MeasureRight(numbers)).unwrap()
}

/// The truck with left and right changed over.
fn swapped(design: &Design) -> Design {
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for (field, value) in design.truck.right.iter() {
        left.push((field, value));
        right.push((field, field.get(&design.truck)));
    }
    let turned = design.edited(&Edit::MeasureAll(left)).unwrap();
    turned.edited(&Edit::MeasureRight(right)).unwrap()
}

fn rests(design: &Design, id: Option<ProposalId>) -> [Rest; 2] {
    Side::ALL.map(|side| {
        let fitted = match id {
            Some(id) => design.fitted_on(id, side).unwrap(),
            None => design.as_measured_on(side),
        };
        Rest::of(fitted).unwrap()
    })
}

fn of(quantity: Quantity, list: &[LeftRight]) -> LeftRight {
    *list.iter().find(|one| one.quantity == quantity).unwrap()
}

fn mirrored(point: &Point3<f64>) -> Point3<f64> {
    Point3::new(point.x, -point.y, point.z)
}

/// Without numbers of its own the right is the left to the bit, lowered or not.
#[test]
fn alike_they_are_mirrors() {
    for id in [None, Some(SPINDLE)] {
        let [left, right] = rests(&demo(), id);
        assert_eq!(left.pose, right.pose);
        assert_eq!((left.ground_mm, left.stops), (right.ground_mm, right.stops));
        for one in left_and_right(&left, &right) {
            assert_eq!(one.left.to_bits(), one.right.to_bits(), "{:?}", one.quantity);
            let sum = matches!(one.quantity, Quantity::Toe | Quantity::HalfTrack);
            let (name, _) = LeftRight::named(one.quantity);
            near(one.together(), if sum { 2.0 * one.left } else { 0.0 }, 0.0, name);
        }
    }
}

/// Where the box goes as far to the left as to the right, both wheels have the same locks
/// and the same travel from lock to lock.
#[test]
fn a_box_that_goes_as_far_both_ways_steers_both_alike() {
    let [left, right] = rests(&demo(), None);
    let full = Steering::of(&left).unwrap().turn(&left, &right, 0.0, 1.0).unwrap();
    let mut design = demo();
    // To the last bit, which no form keeps.
    design.truck.steering.lock_right_rad = Some(full.right_rad);
    let [left, right] = rests(&design, None);
    let (one, other) = (Steering::of(&left).unwrap(), Steering::of(&right).unwrap());
    near(other.left.heading_rad, one.left.heading_rad, 1e-8, "outward");
    near(other.right.heading_rad, one.right.heading_rad, 1e-8, "inward");
    let (one, other) = (travel_left(&left), travel_left(&right));
    assert_eq!((one.bump.by, one.droop.by), (other.bump.by, other.droop.by));
    near(other.bump.travel_mm, one.bump.travel_mm, 1e-4, "bump");
    near(other.droop.travel_mm, one.droop.travel_mm, 1e-4, "droop");
}

/// A truck with its sides changed over gives the answers changed over, to the bit.
#[test]
fn changed_over_the_answers_change_over() {
    for id in [None, Some(SPINDLE)] {
        let [left, right] = rests(&bent(), id);
        let [other_left, other_right] = rests(&swapped(&bent()), id);
        for (one, other) in [(&left, &other_right), (&right, &other_left)] {
            assert_eq!(one.pose, other.pose);
            assert_eq!(one.wheel_rate_n_per_mm.to_bits(), other.wheel_rate_n_per_mm.to_bits());
            assert_eq!(one.stops, other.stops);
        }
        let (here, there) = (left_and_right(&left, &right), left_and_right(&other_left, &other_right));
        for (one, other) in here.iter().zip(&there) {
            assert_eq!(
                (one.left.to_bits(), one.right.to_bits()),
                (other.right.to_bits(), other.left.to_bits())
            );
        }
        assert_ne!(left.pose, right.pose);
    }
    assert_eq!(swapped(&swapped(&bent())).truck.on(Side::Left), bent().truck.on(Side::Left));
}

/// In space the relay rod is one rigid bar: both its ends move alike, and either tie rod keeps
/// its own length, whatever corners hang on it.
#[test]
fn two_corners_hang_on_one_relay_rod() {
    let mut dice = Dice::of(61);
    let mut turned = 0;
    for _ in 0..200 {
        let (one, other) = (pickup(&dice.cube()), pickup(&dice.cube()));
        let corners = [&one.corner(), &other.corner()];
        let rod =
            |sample: &yardstick::generate::Sample| (sample.points.tie_outer - sample.points.tie_inner).norm();
        for relay in RELAYS {
            let side = dice.between(-60.0, 60.0);
            let heights = [one, other].map(|sample| sample.points.wheel_centre.z + dice.between(-30.0, 30.0));
            let Ok(turn) = Turn::between(corners, relay, heights, side) else { continue };
            let moved = relay.move_mm(side).unwrap();
            let right_inner = mirrored(&other.points.tie_inner) + moved;
            near((mirrored(&turn.right.tie_outer) - right_inner).norm(), rod(&other), 1e-9, "right rod");
            near((turn.left.tie_outer - (one.points.tie_inner + moved)).norm(), rod(&one), 1e-9, "left rod");
            near(turn.left.wheel_centre.z, heights[0], 1e-9, "left height");
            near(turn.right.wheel_centre.z, heights[1], 1e-9, "right height");
            let track =
                corners[0].attitude(&turn.left).contact.y + corners[1].attitude(&turn.right).contact.y;
            near(turn.track_mm, track, 1e-12, "track");
            // Changed over and steered the other way, each wheel does what the other did.
            let back =
                Turn::between([corners[1], corners[0]], relay, [heights[1], heights[0]], -side).unwrap();
            near(back.left_rad, -turn.right_rad, 1e-12, "left against right");
            near(back.right_rad, -turn.left_rad, 1e-12, "right against left");
            turned += 1;
        }
    }
    assert!(turned > 300, "{turned}");
}

/// The right wheel steered by its own corner is the right wheel of the truck: the box
/// goes as far as the left wheel's locks say, on a rack and on arms.
#[test]
fn the_right_wheel_is_steered_by_the_same_box() {
    for kind in [0.0, 1.0] {
        for design in [demo(), bent()] {
            let steering = Edit::Measure { field: Field::SteeringKind, value: Some(kind) };
            let design = design.edited(&steering).unwrap();
            let [left, right] = rests(&design, Some(SPINDLE));
            let (box_of, own) = (Steering::of(&left).unwrap(), Steering::of(&right).unwrap());
            near(own.left.side_mm, -box_of.right.side_mm, 1e-12, "to the truck's right");
            near(own.right.side_mm, -box_of.left.side_mm, 1e-12, "to the truck's left");
            for steer in [-1.0, -0.4, 0.0, 0.6, 1.0] {
                for travel_mm in [-20.0, 0.0, 15.0] {
                    let turn = box_of.turn(&left, &right, travel_mm, steer).unwrap();
                    let alone = own.pose(&right, travel_mm, -steer).unwrap();
                    near(turn.right_rad, -alone.heading_rad(), 1e-12, "heading");
                    near((turn.right.contact(300.0) - alone.contact(300.0)).norm(), 0.0, 1e-9, "contact");
                    let left_alone = box_of.pose(&left, travel_mm, steer).unwrap();
                    near(turn.left_rad, left_alone.heading_rad(), 1e-12, "left");
                }
            }
        }
    }
}

/// Cross figures as measured, by hand from the balls: caster is the lean of the line
/// through them in side view, inclination in front view (ISO 8855), so the upper ball set
/// back on one side by a sixtieth of their spacing gives it about a degree of caster.
#[test]
fn cross_figures_by_hand() {
    let shifts = [
        (Field::UpperBallX, Some(-9.0)),
        (Field::UpperBallY, Some(611.0)),
        (Field::Camber, Some(-0.5_f64.to_radians())),
        (Field::Toe, Some(0.2_f64.to_radians())),
        (Field::WheelCentreX, Some(-3.0)),
    ];
    let design = demo().edited(&Edit::MeasureRight(shifts.to_vec())).unwrap();
    let [left, right] = rests(&design, None);
    let list = left_and_right(&left, &right);
    let lean = |field: [Field; 2], truck: &truck::Truck| {
        let up = truck.points.upper.ball.z - truck.points.lower.ball.z;
        let [lower, upper] = field.map(|field| field.get(truck).unwrap());
        ((lower - upper) / up).atan()
    };
    let sides = Side::ALL.map(|side| design.truck.on(side));
    for (quantity, field, name) in [
        (Quantity::Caster, [Field::LowerBallX, Field::UpperBallX], "Cross caster"),
        (Quantity::Inclination, [Field::LowerBallY, Field::UpperBallY], "Cross inclination"),
    ] {
        let one = of(quantity, &list);
        let [by_hand_left, by_hand_right] = [0, 1].map(|at| lean(field, &sides[at]));
        near(one.left, by_hand_left, 1e-9, name);
        near(one.right, by_hand_right, 1e-9, name);
        assert_eq!(LeftRight::named(quantity).0, name);
        near(one.together(), by_hand_left - by_hand_right, 1e-9, name);
    }
    // The right ball stands four millimetres farther back over a spacing of 220: a degree more at the right.
    let cross = of(Quantity::Caster, &list).together().to_degrees();
    near(cross, -(4.0_f64 / 220.0).atan().to_degrees(), 0.01, "by the spacing");
    near(of(Quantity::Camber, &list).together().to_degrees(), 0.5, 1e-9, "cross camber");
    near(of(Quantity::Toe, &list).together().to_degrees(), 0.2, 1e-9, "total toe");
    near(of(Quantity::WheelX, &list).together(), 3.0, 1e-9, "set-back");
}

/// A spindle brings either side down by just its drop, so a lean stays what it was.
#[test]
fn a_spindle_leaves_the_lean() {
    let lean = |id| of(Quantity::RideHeight, &left_and_right(&rests(&bent(), id)[0], &rests(&bent(), id)[1]));
    let (before, after) = (lean(None), lean(Some(SPINDLE)));
    near(before.together(), 7.0, 1e-6, "the rails differ by seven millimeters");
    near(after.together(), 7.0, 1e-6, "lowered");
    near(before.left - after.left, 50.8, 1e-6, "left");
    near(before.right - after.right, 50.8, 1e-6, "right");
}

/// Bump steer of a right corner alone is that of the right wheel on the relay rod held still.
#[test]
fn in_bump_each_side_has_its_own_toe() {
    let [left, right] = rests(&bent(), None);
    for travel_mm in [-40.0, -10.0, 25.0] {
        let turn = Turn::between(
            [&left.corner, &right.corner],
            Relay::Rack,
            [&left, &right].map(|rest| rest.pose.wheel_centre.z + travel_mm),
            0.0,
        )
        .unwrap();
        let right_pose = right.at_travel(travel_mm).unwrap();
        near(turn.right_rad, right_pose.toe_rad(), 1e-12, "toe in turns a right wheel to the left");
        near((turn.right.spin - right_pose.spin).norm(), 0.0, 1e-12, "spin");
        assert!((turn.left_rad + turn.right_rad).abs() > 1e-6, "they differ");
    }
}

/// Six turns out of the bar's bolt, and how much lower the bent truck then stands, the left first.
fn turned_down() -> ([Change; 1], Stance, [f64; 2]) {
    let changes = [Change::BarAdjuster(BarAdjuster { turns: -6.0 })];
    let stance = Stance::laid(&bent().truck, &changes).unwrap();
    let grounds_mm = Side::ALL.map(|side| stance.corner(side).ground_mm);
    assert!((grounds_mm[0] - grounds_mm[1]).abs() > 0.1, "it leans: {grounds_mm:?}");
    (changes, stance, grounds_mm)
}

/// Caster of a side on the ground by hand: the lean of its own balls in side view (ISO 8855)
/// less what the nose has sunk at the middle of the axle.
fn caster_by_hand(stance: &Stance, side: Side) -> f64 {
    let rest = stance.corner(side);
    let axis = rest.pose.upper_ball - rest.pose.lower_ball;
    let [left_mm, right_mm] = Side::ALL.map(|side| stance.corner(side).ground_mm);
    let nose_rad = ((left_mm + right_mm) / 2.0 / bent().truck.body.wheelbase_mm).atan();
    libm::atan2(-axis.x, axis.z) - nose_rad
}

/// What is set for a side lies over both, as a proposal does: what set-up says that a gauge will
/// read is what it reads on the truck with those changes.
#[test]
fn what_is_set_up_is_what_the_truck_reads() {
    let truck = bent().truck;
    for side in Side::ALL {
        let now = Target::of(&Stance::laid(&truck, &[]).unwrap().on(side));
        let target = Target { ride_height_mm: now.ride_height_mm - 14.0, ..now };
        let found = setting(&truck, side, &[], &target, CasterBy::Shims, &Steps::MILLIMETRES).unwrap();
        let stance = Stance::laid(&truck, &found.changes).unwrap();
        assert_eq!(found.reads, Target::of(&stance.on(side)));
        near(found.reads.caster_rad, caster_by_hand(&stance, side), 1e-9, side.label());
        // In steps that can be set: a quarter turn of the bolt, half a millimetre of shims.
        near(found.reads.ride_height_mm, target.ride_height_mm, 2.0, side.label());
        near(found.reads.caster_rad.to_degrees(), target.caster_rad.to_degrees(), 0.3, side.label());
    }
}

/// A way down is found at the left, and its caster is read on the ground that both sides share.
#[test]
fn a_way_down_is_read_on_the_ground_of_both() {
    let (changes, stance, [left_mm, _]) = turned_down();
    let truck = bent().truck;
    let table = PartsTable { turns: vec![-6.0], ..PartsTable::default() };
    let wish = Wish { within_mm: 0.1, ..nothing_but(left_mm) };
    let mut ways = Ways::new(&truck, wish, Weights::default(), table).unwrap();
    assert!(ways.step(10));
    let [way] = ways.found() else { panic!("{:?}", ways.left_out().collect::<Vec<_>>()) };
    assert_eq!(way.changes, changes);
    let before = Stance::laid(&truck, &[]).unwrap();
    let gained = caster_by_hand(&stance, Side::Left) - caster_by_hand(&before, Side::Left);
    near(way.caster_rad, gained, 1e-9, "caster");
}

/// The ground lies under both wheels: what is read against it at the right moves with a number
/// that is guessed at the left, though the right has measured its own; nothing else there does.
#[test]
fn against_the_ground_a_side_rests_on_the_other() {
    let (changes, ..) = turned_down();
    let mut truck = bent().truck;
    truck.sources.set(Field::BarDiameter, Source::Assumed);
    let mut other = truck.clone();
    Field::BarDiameter.put(&mut other, Some(27.0));
    let at_right = [&truck, &other].map(|truck| Stance::laid(truck, &changes).unwrap().on(Side::Right));
    let grounded = [Figure::CASTER_GROUND, Figure::TRAIL_GROUND];
    let own = [Figure::CASTER, Figure::TRAIL, Figure::FRAME_HEIGHT, Figure::CAMBER];
    for figure in grounded.into_iter().chain(own) {
        let read = |rest| figure.read(&Studied::new(rest, 3));
        let moves = grounded.contains(&figure);
        assert_eq!(read(&at_right[0]) != read(&at_right[1]), moves, "{figure:?}");
        let marked = figure.of_side_may_rest_on(&at_right[0]).contains(Guess::Number(Field::BarDiameter));
        assert_eq!(marked, moves, "{figure:?}");
        let at_left = at_right[0].stance().on(Side::Left);
        assert!(!figure.of_side_may_rest_on(&at_left).is_empty(), "{figure:?}");
    }
}
