//! The rear on its leaf springs: against `SciPy`, textbooks, the trade's figures and hand arithmetic.

use crate::front_alone;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample;
use study::{
    Channel, Figure, Joints, Leaf, Narrowing, NoRear, Rear, RearRest, RearTold, SWING_LIMIT_RAD_PER_S2,
    Shaft, Stance, Trial, Value, rear_told,
};
use truck::{
    Change, ChangeKind, Design, DroppedSpindle, Edit, Kind, ProposalId, RearAxle, RearBlock, RearField,
    RearNotch, RearParts, RearShock, RearSpring, RearStop, RearTire, Side, Source,
};
use yardstick::budget::{Budget, Errors};
use yardstick::cases;
use yardstick::table::{Row, Table};

/// Twenty rears, eight ways each. It may grow, never shrink.
const FEWEST_ROWS: usize = 160;
const REARS: &str = include_str!("../../../../tests/reference/scipy/rears.csv");
/// The table has eight decimals; a balance is found to 1e-16 of curvature, 1e-10 mm, there and here.
const BUDGET: Budget = Budget { q50: 5e-9, q99: 1e-8, max: 1e-7 };
/// The unsprung half of every rear of the table, N.
const UNSPRUNG_N: f64 = 500.0;
/// The fixed eye of every rear of the table, above the ground, mm.
const FIXED_MM: f64 = 400.0;

fn stated(numbers: &[(RearField, f64)]) -> RearAxle {
    numbers.iter().fold(RearAxle::UNKNOWN, |rear, (field, value)| rear.with(*field, *value))
}

fn measured(row: &Row<'_>) -> RearAxle {
    let n = |header| row.number(header);
    stated(&[
        (RearField::Span, n("span_mm")),
        (RearField::FixedPart, n("fixed_part_mm")),
        (RearField::Arch, n("arch_mm")),
        (RearField::FixedEye, FIXED_MM),
        (RearField::ShackleEye, FIXED_MM + n("eye_up_mm")),
        (RearField::HangerBolt, FIXED_MM + n("bolt_up_mm")),
        (RearField::EyeBeyond, n("beyond_mm")),
        (RearField::Seat, n("seat_mm")),
        (RearField::Rate, n("rate_n_per_mm")),
        (RearField::Load, n("load_n") + UNSPRUNG_N),
        (RearField::Unsprung, UNSPRUNG_N),
        (RearField::ShackleAhead, 0.0),
    ])
}

fn laid(row: &Row<'_>) -> RearParts {
    let n = |header| row.number(header);
    RearParts {
        shackle_longer_mm: n("longer_mm"),
        fixed_up_mm: n("fixed_raised_mm"),
        bolt_up_mm: n("bolt_raised_mm"),
        bolt_away_mm: n("bolt_away_mm"),
        flatter_mm: n("flatter_mm"),
        block_mm: n("seat_more_mm") * n("seat_mm").signum(),
        ..RearParts::default()
    }
}

/// Source: `reference/scipy/rears.py`, which finds the least of potential energy of a curve of
/// constant length, without any formula of ours.
#[test]
fn every_rear_of_the_table() {
    let table = Table::read(REARS);
    assert!(table.len() >= FEWEST_ROWS, "{} rows left of {FEWEST_ROWS}", table.len());
    let names = ["axle_up_mm", "axle_away_mm", "rise_deg", "eye_x_mm", "eye_z_mm"];
    let mut errors: Vec<Errors> = names.map(Errors::of).into();
    for row in table.rows() {
        let rest = RearRest::laid(&measured(&row), &laid(&row), row.number("more_n"))
            .unwrap_or_else(|why| panic!("{}: {why}", row.text("rear")));
        let eye = rest.spring.expect("every number of the spring is stated").eye;
        // The pinion points forward, and the shackle is behind: a leaf that rises to the rear
        // turns it down.
        let rise_deg = -rest.pinion_up_rad.to_degrees();
        let got = [rest.axle_up_mm, rest.axle_back_mm, rise_deg, eye.0, eye.1];
        for ((errors, got), name) in errors.iter_mut().zip(got).zip(names) {
            errors.add(got, row.number(name));
        }
    }
    errors.into_iter().for_each(|errors| errors.within(BUDGET));
}

/// A rear whose leaf is level at its pad, its shackle square to the line of the eyes.
fn level() -> RearAxle {
    stated(&[
        (RearField::Span, 1200.0),
        (RearField::FixedPart, 600.0),
        (RearField::Arch, 1.0),
        (RearField::FixedEye, 400.0),
        (RearField::ShackleEye, 400.0),
        (RearField::HangerBolt, 480.0),
        (RearField::EyeBeyond, 0.0),
        (RearField::Seat, -60.0),
        (RearField::WheelRadius, 310.0),
        (RearField::ShackleAhead, 0.0),
    ])
}

fn rest(rear: &RearAxle, parts: RearParts) -> RearRest {
    RearRest::laid(rear, &parts, 0.0).expect("every number that it needs is stated")
}

/// Common practice, no source: half of a shackle's change reaches the axle, and a block all of it;
/// a longer shackle whose eye hangs below its bolt raises, one that stands on its bolt lowers. For a
/// spring whose axle is not in its middle the share is the fixed part over the whole.
#[test]
fn a_shackle_gives_its_share_and_its_side_gives_the_sign() {
    let longer = |mm| RearParts { shackle_longer_mm: mm, ..RearParts::default() };
    let hangs = level();
    let stands = hangs.with(RearField::HangerBolt, 320.0);
    for mm in [10.0, -10.0] {
        let (below, above) = (rest(&hangs, longer(mm)).down_mm, rest(&stands, longer(mm)).down_mm);
        assert!((below + mm / 2.0).abs() < 0.03, "{mm}: {below}");
        assert!((above - mm / 2.0).abs() < 0.03, "{mm}: {above}");
    }
    let ahead = hangs.with(RearField::FixedPart, 480.0);
    let share = rest(&ahead, longer(-10.0)).down_mm / 10.0;
    assert!((share - 0.4).abs() < 0.003, "{share}");
    // 50 mm on a chord of 1200: 0.502 of it by a second solver, pinion 2.40°.
    let fifty = rest(&hangs, longer(50.0));
    assert!((fifty.down_mm + 25.1).abs() < 0.15, "{}", fifty.down_mm);
    assert!((fifty.pinion_up_rad.to_degrees() - 2.40).abs() < 0.02, "{}", fifty.pinion_up_rad.to_degrees());
}

/// By hand: a block lies between spring and axle, so the axle goes up by its height where it is on
/// top, down where it is underneath, and nothing turns but by the wedge; a flip takes it from as far
/// under the leaf to as far over it. A tire that is 15 mm smaller at its middle is that much lower.
#[test]
fn blocks_flips_wedges_and_tires() {
    let on_top = level();
    let under = on_top.with(RearField::Seat, 60.0);
    let block = RearParts { block_mm: 50.8, wedge_rad: 2_f64.to_radians(), ..RearParts::default() };
    for (rear, down_mm) in [(&on_top, 50.8), (&under, -50.8)] {
        let found = rest(rear, block);
        assert!((found.down_mm - down_mm).abs() < 1e-6, "{}", found.down_mm);
        assert!((found.pinion_up_rad.to_degrees() - 2.0).abs() < 1e-9);
        // Its spring need not be measured for that.
        let alone = stated(&[(RearField::Seat, rear.get(RearField::Seat).unwrap())]);
        assert!((rest(&alone, block).down_mm - down_mm).abs() < 1e-9);
    }
    let flip = RearParts { is_flipped: true, flipped_mm: Some(75.0), ..RearParts::default() };
    assert!((rest(&under, flip).down_mm - 135.0).abs() < 1e-6);
    assert!((rest(&on_top, flip).down_mm + 135.0).abs() < 1e-6);
    let tire = RearParts { wheel_radius_mm: Some(295.0), ..RearParts::default() };
    let found = rest(&on_top, tire);
    assert!((found.down_mm - 15.0).abs() < 1e-9 && found.axle_up_mm.abs() < 1e-9);
}

/// By hand: a fixed eye raised by 30 lifts the frame's end of a level spring there, so the axle in
/// its middle goes up by half and turns by 30 in 1200; the other end does the same the other way
/// round. Turned end for end, the pinion turns the other way.
#[test]
fn hangers_lift_their_own_end() {
    let rear = level();
    let up = |fixed_up_mm, bolt_up_mm| RearParts { fixed_up_mm, bolt_up_mm, ..RearParts::default() };
    let slope = libm::atan(30.0 / 1200.0).to_degrees();
    for (parts, pinion) in [(up(30.0, 0.0), slope), (up(0.0, 30.0), -slope)] {
        let found = rest(&rear, parts);
        assert!((found.down_mm - 15.0).abs() < 0.05, "{}", found.down_mm);
        assert!(
            (found.pinion_up_rad.to_degrees() - pinion).abs() < 0.01,
            "{}",
            found.pinion_up_rad.to_degrees()
        );
        let other = rest(&rear.with(RearField::ShackleAhead, 1.0), parts);
        assert!((other.down_mm - found.down_mm).abs() < 1e-12);
        assert!((other.pinion_up_rad + found.pinion_up_rad).abs() < 1e-12);
        assert!((other.axle_back_mm + found.axle_back_mm).abs() < 1e-12);
    }
    let both = rest(&rear, up(30.0, 30.0));
    assert!((both.down_mm - 30.0).abs() < 1e-6 && both.pinion_up_rad.abs() < 1e-9);
}

/// By hand: so much load over the rate, and half of both where there are two springs; a spring
/// that is as flat under the same load lowers by that.
#[test]
fn a_load_sinks_it_by_load_over_rate() {
    let carries = [(RearField::Rate, 30.0), (RearField::Load, 3300.0), (RearField::Unsprung, 700.0)];
    let rear = carries.iter().fold(level(), |rear, (field, value)| rear.with(*field, *value));
    let found = RearRest::laid(&rear, &RearParts::default(), 900.0).unwrap();
    assert!((found.down_mm - 30.0).abs() < 1e-6, "{}", found.down_mm);
    let softer = RearParts { rate_n_per_mm: Some(20.0), flatter_mm: 25.0, ..RearParts::default() };
    let [light, loaded] = [0.0, 900.0].map(|more_n| RearRest::laid(&rear, &softer, more_n).unwrap().down_mm);
    assert!((light - 25.0).abs() < 0.05, "{light}");
    assert!((loaded - light - 45.0).abs() < 0.2, "{}", loaded - light);
}

/// What is not stated is named, and what cannot be is said.
#[test]
fn what_is_missing_or_cannot_be_is_said() {
    let laid = |rear: &RearAxle, parts: RearParts| RearRest::laid(rear, &parts, 0.0);
    let shackle = RearParts { shackle_longer_mm: 25.0, ..RearParts::default() };
    let block = RearParts { block_mm: 50.0, ..RearParts::default() };
    assert_eq!(laid(&RearAxle::UNKNOWN, block), Err(NoRear::NotStated(RearField::Seat)));
    assert_eq!(laid(&RearAxle::UNKNOWN, shackle), Err(NoRear::NotStated(RearField::ShackleAhead)));
    let at_the_rear = stated(&[(RearField::ShackleAhead, 0.0)]);
    assert_eq!(laid(&at_the_rear, shackle), Err(NoRear::NotStated(RearField::Span)));
    assert_eq!(laid(&RearAxle::UNKNOWN, RearParts::default()), Ok(RearRest::AS_MEASURED));
    let tire = RearParts { wheel_radius_mm: Some(300.0), ..RearParts::default() };
    assert_eq!(laid(&RearAxle::UNKNOWN, tire), Err(NoRear::NotStated(RearField::WheelRadius)));
    let more = RearRest::laid(&level(), &RearParts::default(), 500.0);
    assert_eq!(more, Err(NoRear::NotStated(RearField::Rate)));
    // The middle cannot be deeper than it is far from the eye.
    assert_eq!(
        laid(&level().with(RearField::Arch, 500.0).with(RearField::FixedPart, 400.0), shackle),
        Err(NoRear::NoSpring)
    );
    let gone = RearParts { shackle_longer_mm: -80.0, ..RearParts::default() };
    assert_eq!(laid(&level(), gone), Err(NoRear::ShackleOut));
    // Hanger bolts 1280 apart and a shackle of 60: the eyes stay 1220 apart at least, the leaf is 1200.
    let apart = RearParts { bolt_away_mm: 140.0, ..RearParts::default() };
    assert_eq!(laid(&level(), apart), Err(NoRear::ShackleOut));
}

/// A shackle that leans along the spring is soon pulled straight: by hand, eyes 1200 apart, the
/// bolt 1140 away and 30 up, so 70.7 of shackle reach to 1211.5 at most, and the flat leaf is longer
/// than that only where it is arched.
#[test]
fn a_shackle_is_pulled_straight_before_a_long_leaf_is_flat() {
    let rear = level()
        .with(RearField::Arch, 120.0)
        .with(RearField::FixedPart, libm::hypot(600.0, 120.0))
        .with(RearField::HangerBolt, 430.0)
        .with(RearField::EyeBeyond, 25.0);
    let found = rest(&rear, RearParts::default());
    let up_mm = found.shackle_straight_mm.expect("it ends the travel");
    // Straight, eyes 1175.4 + 39.05 apart: by the small arch's h² = 3/8 · c · (S − c), S the arc.
    let leaf = 1200.0 * (1.0 + 8.0 / 3.0 * (0.1_f64 * 0.1));
    let reach = libm::hypot(1175.0, 30.0) + libm::hypot(25.0, 30.0);
    let arch = (3.0 / 8.0 * reach * (leaf - reach)).sqrt();
    assert!(up_mm > 0.0 && up_mm < 120.0 - arch + 30.0, "{up_mm}");
    assert_eq!(rest(&level(), RearParts::default()).shackle_straight_mm, None);
}

fn shaft(output: f64, slope: f64, pinion: f64, aside_mm: f64) -> Shaft {
    let down = 1300.0 * libm::sin(slope.to_radians());
    let back = (1300.0_f64.powi(2) - down * down - aside_mm * aside_mm).sqrt();
    Shaft { output_rad: output.to_radians(), pinion_rad: pinion.to_radians(), run_mm: [back, aside_mm, down] }
}

/// Source: the table of SAE AE-7 as quoted (1500 turns a minute): the rear joint's most for a front
/// joint of 0 to 9 degrees, within its rounding of a twentieth.
#[test]
fn two_joints_follow_the_table() {
    let table = [7.3, 7.4, 7.6, 7.9, 8.3, 8.9, 9.5, 10.1, 10.8, 11.6];
    for (front, most) in (0..10).zip(table) {
        let front = f64::from(front);
        // In one plane: the output level, the shaft falls by the front joint's angle.
        let at = |rear: f64| shaft(0.0, front, front + rear, 0.0).joints();
        let share = at(most).swing_share(1500.0);
        // Half a unit of the last figure, over the slope of a square.
        let slack = 2.0 * most * 0.06 / (7.295 * 7.295) + 0.01;
        assert!((share - 1.0).abs() < slack, "{front}: {share}");
        assert!((at(most).front_rad.to_degrees() - front).abs() < 1e-9);
        assert!((at(most).rear_rad.to_degrees() - most).abs() < 1e-9);
    }
    // 400 rad²/s² at 3000 turns a minute is 3.65°.
    let one = shaft(0.0, 0.0, 3.65, 0.0).joints().swing_share(3000.0);
    assert!((one - 1.0).abs() < 0.005, "{one}");
    assert!((SWING_LIMIT_RAD_PER_S2 - 400.0).abs() < 1e-12);
}

/// By hand: parallel flanges swing nothing, whatever the shaft does between them; 50 mm to the side
/// in 1300 is 2.2° more, as the root of both squares.
#[test]
fn a_shaft_to_the_side_is_bent_more_and_swings_nothing_more() {
    let plain = shaft(1.0, 4.0, 1.0, 0.0).joints();
    assert!(
        (plain.front_rad.to_degrees() - 3.0).abs() < 1e-9 && (plain.rear_rad.to_degrees() - 3.0).abs() < 1e-9
    );
    assert!(plain.uneven_rad < 1e-9);
    let aside = shaft(1.0, 4.0, 1.0, 50.0).joints();
    let want = libm::hypot(3.0, (50.0_f64 / 1300.0).asin().to_degrees());
    for rad in [aside.front_rad, aside.rear_rad] {
        assert!((rad.to_degrees() - want).abs() < 0.01, "{} {want}", rad.to_degrees());
    }
    assert!(aside.uneven_rad < 1e-9, "{}", aside.uneven_rad);
    let straight = shaft(0.0, 0.0, 0.0, 50.0).joints();
    assert!((straight.front_rad.to_degrees() - 2.2).abs() < 0.01);
}

/// The trade's three rules (a shaft maker's page, seen): half a degree at least, within one of each
/// other, three at most; each has its words, on either side of its limit.
#[test]
fn the_three_rules_each_have_a_verdict() {
    let said = |output: f64, slope: f64, pinion: f64| -> &'static str {
        let joints: Joints = shaft(output, slope, pinion, 0.0).joints();
        joints.by_the_rules()
    };
    assert_eq!(said(0.0, 2.0, 0.5), "within the three rules");
    assert_eq!(said(0.0, 3.0, 0.5), "within the three rules");
    assert_eq!(said(0.0, 3.1, 0.5), "a joint over 3°");
    assert_eq!(said(0.0, 2.5, 1.1), "joints more than 1° apart");
    assert_eq!(said(0.0, 2.5, 1.0), "within the three rules");
    assert_eq!(said(0.0, 0.4, 0.0), "a joint under 1/2°");
    assert_eq!(said(0.0, 0.5, 0.0), "within the three rules");
}

/// By hand: an axle that goes up by 50 on a shaft of 1300 takes 50 off its fall; turned up by 2° its
/// joint, 200 ahead of the axle, goes up by 200 sin 2° more.
#[test]
fn the_shaft_follows_the_axle() {
    let before = shaft(3.0, 3.0, 3.0, 0.0);
    let mut rest = RearRest { axle_up_mm: 50.0, ..RearRest::AS_MEASURED };
    let [_, _, was] = before.run_mm;
    let [_, _, down] = before.moved(&rest, 200.0).run_mm;
    assert!((was - down - 50.0).abs() < 1e-9);
    rest.pinion_up_rad = 2_f64.to_radians();
    let after = before.moved(&rest, 200.0);
    let more = 200.0 * (libm::sin(5_f64.to_radians()) - libm::sin(3_f64.to_radians()));
    assert!((was - after.run_mm[2] - 50.0 - more).abs() < 1e-9);
    assert!((after.pinion_rad.to_degrees() - 5.0).abs() < 1e-9);
    // An axle 4 mm farther back pulls the yoke out by nearly all of it.
    let back = before.moved(&RearRest { axle_back_mm: 4.0, ..RearRest::AS_MEASURED }, 200.0);
    assert!((back.length_mm() - before.length_mm() - 4.0 * libm::cos(3_f64.to_radians())).abs() < 0.01);
}

/// Whole channel: handbook form (b h³ − (b − t)(h − 2t)³)/12 over h/2, in centimetres by hand for
/// 120 × 50 × 4: 30.24 cm³. A bare notch of 25 leaves 29 % (the L that is left: area 5.64 cm²,
/// middle 3.27 cm from its top, 54.27 cm⁴ over 6.23 cm).
#[test]
fn a_bare_notch_takes_most_of_a_rail() {
    let rail = Channel { depth_mm: 120.0, flange_mm: 50.0, wall_mm: 4.0 };
    assert!((rail.modulus_mm3() / 1000.0 - 30.24).abs() < 0.01, "{}", rail.modulus_mm3());
    assert!((rail.bare(25.0) - 54.27 / 6.23 / 30.24).abs() < 1e-3, "{}", rail.bare(25.0));
    assert!((rail.bare(25.0) - 0.29).abs() < 0.005);
    // Plated it is a lower channel: (50·95³ − 46·87³)/12 over 47.5, of 30.24 cm³.
    let lower = (50.0 * 95.0_f64.powi(3) - 46.0 * 87.0_f64.powi(3)) / 12.0 / 47.5 / rail.modulus_mm3();
    assert!((rail.plated(25.0) - lower).abs() < 1e-9 && lower > 0.7);
    let box_ = (50.0 * 95.0_f64.powi(3) - 42.0 * 87.0_f64.powi(3)) / 12.0 / 47.5 / rail.modulus_mm3();
    assert!((rail.boxed(25.0) - box_).abs() < 1e-9 && box_ > lower);
    // Nothing cut, nothing lost; all cut, nothing left; and never more for a deeper cut.
    assert!((rail.bare(0.0) - 1.0).abs() < 1e-12 && rail.bare(120.0) == 0.0 && rail.boxed(115.0) == 0.0);
    let left: Vec<_> = (1..=110).map(|mm| rail.bare(f64::from(mm))).collect();
    assert!(left.windows(2).all(|pair| pair[1] < pair[0]));
}

/// The demo truck with a rear of 470 over its axle, which is on top of its springs.
pub(crate) fn truck() -> Design {
    let numbers = [
        (RearField::FrameHeight, 470.0),
        (RearField::WheelRadius, 310.0),
        (RearField::Seat, -62.0),
        (RearField::StopGap, 76.0),
        (RearField::StopSquash, 15.0),
        (RearField::TubeGap, 118.0),
        (RearField::FenderGap, 125.0),
        (RearField::ShockLength, 380.0),
        (RearField::ShockShort, 270.0),
        (RearField::ShockLong, 430.0),
        (RearField::LampHeight, 760.0),
        (RearField::LampAhead, 480.0),
        (RearField::RailDepth, 120.0),
        (RearField::RailFlange, 50.0),
        (RearField::RailWall, 4.0),
    ];
    rear_measured(front_alone(), &numbers)
}

/// A pair of leaf springs for it, with what they carry.
pub(crate) const LEAF: [(RearField, f64); 10] = [
    (RearField::Span, 1250.0),
    (RearField::FixedPart, 600.0),
    (RearField::Arch, 45.0),
    (RearField::FixedEye, 290.0),
    (RearField::ShackleEye, 296.0),
    (RearField::HangerBolt, 375.0),
    (RearField::EyeBeyond, 28.0),
    (RearField::Rate, 30.0),
    (RearField::Load, 3300.0),
    (RearField::Unsprung, 700.0),
];

pub(crate) fn rear_measured(design: Design, numbers: &[(RearField, f64)]) -> Design {
    let put =
        |design, (field, value): &(RearField, f64)| edited(&design, Edit::MeasureRear(*field, Some(*value)));
    numbers.iter().fold(design, put)
}

pub(crate) fn edited(design: &Design, edit: Edit) -> Design {
    design.edited(&edit).expect("it can be entered")
}

/// The demo's two-inch spindle, and such changes beside it.
fn with(changes: &[Change]) -> Design {
    changes.iter().fold(truck(), |design, change| edited(&design, Edit::Set(ProposalId(0), *change)))
}

pub(crate) fn stance(design: &Design) -> Stance {
    Stance::of_design(design, ProposalId(0).into()).expect("it stands")
}

pub(crate) fn told(stance: &Stance, key: &str) -> RearTold {
    let all = rear_told(stance).told;
    *all.iter().find(|told| told.answer.key() == key).unwrap_or_else(|| panic!("{key}"))
}

pub(crate) fn number(stance: &Stance, key: &str) -> f64 {
    match told(stance, key).value {
        Some(Value::Number(value)) => value,
        other => panic!("{key}: {other:?}"),
    }
}

pub(crate) const BLOCK: Change = Change::RearBlock(RearBlock { height_mm: 50.8, wedge_rad: 0.0 });

/// By hand: both ends two inches down leave caster and the lamps' aim as they were, and the lamp two
/// inches lower. The front alone takes two inches over the wheelbase off caster.
#[test]
fn both_ends_down_alike_leave_caster_and_aim() {
    let caster = |stance: &Stance| stance.on(Side::Left).attitude_on_ground().caster_rad.to_degrees();
    let measured = Stance::as_measured(&truck().truck).unwrap();
    let (front, both) = (stance(&with(&[])), stance(&with(&[BLOCK])));
    let nose = libm::atan(50.8 / 2690.0).to_degrees();
    assert!((caster(&measured) - caster(&front) - nose).abs() < 1e-6);
    assert!((caster(&measured) - caster(&both)).abs() < 1e-6);
    // A rear that is measured and left as it is is stated to stay.
    assert_eq!((front.rear(), both.rear().known_down_mm().map(f64::round)), (Rear::AS_MEASURED, Some(51.0)));
    assert!(number(&both, "lamp_aim").abs() < 1e-6);
    assert!((number(&both, "lamp_height") - (760.0 - 50.8)).abs() < 1e-6);
    assert!((number(&both, "nose_down")).abs() < 1e-9 && number(&front, "nose_down") > 0.018);
    // 480 ahead of the axle the nose is lower by as much more.
    let ahead = 480.0 * 50.8 / 2690.0;
    assert!((number(&front, "lamp_height") - (760.0 - 50.8 - ahead)).abs() < 1e-6);
    // A block moves the pinion by nothing against the frame, and by the rake against the ground.
    assert!(number(&both, "pinion_up").abs() < 1e-9);
    assert!((number(&front, "pinion_up_ground").to_degrees() + nose).abs() < 1e-9);
}

/// Source: 4 in at 25 ft (FMVSS 108, seen); by arithmetic two inches of nose over 106 in are 5.7 in there.
#[test]
fn two_inches_of_nose_are_nearly_six_at_the_wall() {
    let design =
        edited(&with(&[]), Edit::Measure { field: truck::Field::Wheelbase, value: Some(106.0 * 25.4) });
    let aim = told(&stance(&design), "lamp_aim");
    let Some(Value::Number(mm)) = aim.value else { panic!("{aim:?}") };
    assert!((mm / 25.4 - 5.66).abs() < 0.01, "{mm}");
    assert_eq!(aim.verdict, Some("have them aimed"));
    // An inch at the rear brings it back under the limit.
    let less = edited(&design, Edit::RearDown(ProposalId(0), Some(25.4)));
    assert_eq!(told(&stance(&less), "lamp_aim").verdict, None);
}

/// What a plan says of its rear goes before what its parts make of it; a rear that is not measured
/// says nothing.
#[test]
fn what_is_said_goes_before_what_parts_make() {
    let said = edited(&with(&[BLOCK]), Edit::RearDown(ProposalId(0), Some(10.0)));
    assert_eq!(stance(&said).rear(), Rear::ComesDown(10.0));
    assert!((number(&stance(&said), "rear_frame_height") - 460.0).abs() < 1e-9);
    // What is left of the travel is of neither.
    assert_eq!(rear_told(&stance(&said)).trouble, Some(NoRear::SaidOtherwise));
    assert!(told(&stance(&said), "rear_stop").value.is_none());
    let alike = edited(&with(&[BLOCK]), Edit::RearDown(ProposalId(0), Some(50.0)));
    assert!(
        (number(&stance(&alike), "rear_stop") - 25.2).abs() < 1e-6
            && rear_told(&stance(&alike)).trouble.is_none()
    );
    let unknown = front_alone().edited(&Edit::Set(ProposalId(0), BLOCK)).unwrap();
    assert_eq!(stance(&unknown).rear(), Rear::Stays);
    assert!(told(&stance(&unknown), "lamp_height").value.is_none());
    assert_eq!(rear_told(&stance(&unknown)).trouble, Some(NoRear::NotStated(RearField::Seat)));
    assert_eq!(rear_told(&stance(&with(&[BLOCK]))).trouble, None);
    // A lamp alone says nothing of where the rear stays.
    let lamp = [(RearField::LampHeight, 760.0), (RearField::LampAhead, 480.0)];
    let lamp = lamp
        .iter()
        .fold(front_alone(), |design, (field, mm)| edited(&design, Edit::MeasureRear(*field, Some(*mm))));
    assert_eq!(stance(&lamp).rear(), Rear::Stays);
    assert!(
        told(&stance(&lamp), "lamp_height").value.is_none()
            && told(&stance(&lamp), "nose_down").value.is_none()
    );
}

/// By hand: the axle goes up by 50.8, so 76 to the stop are 25.2, 118 to the frame 67.2, 125 to the
/// fender 74.2, 380 of shock 329.2; a notch, a shorter stop and a mount add what they are.
#[test]
fn what_is_left_of_the_travel() {
    let block = stance(&with(&[BLOCK]));
    let is = |stance: &Stance, key: &str, want: f64| {
        let got = number(stance, key);
        assert!((got - want).abs() < 1e-6, "{key}: {got} for {want}");
    };
    is(&block, "rear_stop", 25.2);
    is(&block, "rear_tube", 67.2);
    is(&block, "rear_fender", 74.2);
    is(&block, "rear_shock_closed", 59.2);
    is(&block, "rear_shock_open", 100.8);
    is(&block, "rear_bump", 25.2);
    assert_eq!(told(&block, "rear_bump_by").value, Some(Value::Words("rear bump stop")));
    let more = [
        BLOCK,
        Change::RearNotch(RearNotch { depth_mm: 20.0 }),
        Change::RearStop(RearStop { lower_mm: 80.0 }),
        Change::RearShock(RearShock { short_mm: Some(300.0), long_mm: None, mount_up_mm: 15.0 }),
    ];
    let all = stance(&with(&more));
    is(&all, "rear_stop", 105.2);
    is(&all, "rear_tube", 87.2);
    is(&all, "rear_shock_closed", 380.0 - 50.8 + 15.0 - 300.0);
    assert!(told(&all, "rear_shock_open").value.is_none(), "the old one's length is not the new one's");
    // The shock is closed before anything else; the frame is hit before the stop is solid: 20 of notch, 18 more
    // to its touch and 15 of its rubber.
    is(&all, "rear_bump", 44.2);
    is(&all, "notch_wanted", 53.0);
    assert_eq!(told(&all, "rear_bump_by").value, Some(Value::Words("rear shock is closed")));
    assert_eq!(told(&all, "rear_tube").verdict, Some("the frame is hit first"));
    assert_eq!(told(&all, "rail_bare").verdict, Some("never driven unboxed"));
    // A smaller tire is lower at its top as at its middle, and takes nothing from the travel.
    let tire = stance(&with(&[Change::RearTire(RearTire { wheel_radius_mm: Some(295.0) })]));
    is(&tire, "rear_comes_down", 15.0);
    is(&tire, "rear_fender", 140.0);
    is(&tire, "rear_stop", 76.0);
}

/// By hand: a height is a tape's, ± 1/16 in; a gap over a rear that comes down by parts of its own too;
/// and a verdict is none while the tape could turn it round.
#[test]
fn a_verdict_keeps_the_tape_s_margin() {
    let block = stance(&with(&[BLOCK]));
    let spread = |key: &str| told(&block, key).spread.unwrap();
    assert!((spread("rear_frame_height") - 1.5875).abs() < 1e-9);
    assert!((spread("rear_shock_closed") - 1.5875 * 2_f64.sqrt()).abs() < 1e-9);
    assert!(spread("rear_comes_down") < 1e-9);
    // 76 less so much, against half an inch and against none, a sixteenth either way.
    for (left, verdict) in [
        (15.0, None),
        (14.2, Some("too near to tell")),
        (12.0, Some("too near to tell")),
        (11.0, Some("little")),
        (1.0, Some("too near to tell")),
        (-1.0, Some("too near to tell")),
        (-2.0, Some("none")),
    ] {
        let block = Change::RearBlock(RearBlock { height_mm: 76.0 - left, wedge_rad: 0.0 });
        assert_eq!(told(&stance(&with(&[block])), "rear_bump").verdict, verdict, "{left}");
    }
}

/// A guess of a rear part marks what it moves, and is no verdict; a bare notch is none however sure.
#[test]
fn a_guess_is_marked_and_no_verdict() {
    let high = Change::RearBlock(RearBlock { height_mm: 80.0, wedge_rad: 0.0 });
    let design = with(&[high, Change::RearNotch(RearNotch { depth_mm: 25.0 })]);
    assert_eq!(told(&stance(&design), "rear_bump").verdict, Some("none"));
    let field = (ChangeKind::RearBlock, None, 0);
    let guessed = edited(&design, Edit::ChangeSource(ProposalId(0), field, Source::Assumed));
    let bump = told(&stance(&guessed), "rear_bump");
    assert_eq!((bump.is_guess, bump.verdict), (true, Some("rests on a guess")));
    assert_eq!(told(&stance(&guessed), "rail_bare").verdict, Some("never driven unboxed"));
    // How the front stands rests on its own guesses, and what the rear does not.
    let own = edited(&design, Edit::Source(truck::Field::Wheelbase, Source::Assumed));
    assert!(told(&stance(&own), "lamp_height").is_guess && !told(&stance(&own), "rear_bump").is_guess);
}

/// How far the rear comes down rests on what its parts are guessed to be, and on no part of the front's;
/// where the plan says how far, on neither.
#[test]
fn the_rear_s_height_rests_on_its_parts() {
    let design = with(&[BLOCK, Change::DroppedSpindle(DroppedSpindle::default())]);
    let slots = [(ChangeKind::RearBlock, None, 0), (ChangeKind::DroppedSpindle, None, 0)];
    let guessed =
        |design: &Design, slot| edited(design, Edit::ChangeSource(ProposalId(0), slot, Source::Assumed));
    let figure = Figure::REAR_DOWN;
    assert_eq!(figure.label(), "Rear comes down by");
    for (slot, rests) in slots.into_iter().zip([true, false]) {
        let design = guessed(&design, slot);
        let fitted = design.fitted(ProposalId(0)).unwrap();
        assert_eq!(!figure.may_rest_on(&fitted).is_empty(), rests, "{slot:?}");
        for (down_mm, marked) in [(None, rests), (Some(50.8), false)] {
            let design = edited(&design, Edit::RearDown(ProposalId(0), down_mm));
            let trial = Trial::new(&design.truck, design.overlay(ProposalId(0)));
            let found = Narrowing::new(trial, &fitted, vec![figure])
                .finished(&|trial, figures| trial.values(Side::Left, figures));
            assert_eq!(!found.rests_on(figure).is_empty(), marked, "{slot:?} {down_mm:?}");
        }
    }
}

/// By moments about the front axle: 2500 N 150 behind the rear one are 2639 on the rear, 1320 a side;
/// over 30 N/mm that is 44 mm.
#[test]
fn the_bed_s_load_sinks_the_rear() {
    let design = rear_measured(truck(), &LEAF);
    let measured = Stance::as_measured(&design.truck).unwrap();
    let want = 2500.0 * (1.0 + 150.0 / 2690.0) / 2.0 / 30.0;
    assert!((number(&measured, "bed_sinks") - want).abs() < 1e-6);
    assert!((number(&measured, "rear_stop") - 76.0).abs() < 1e-9, "what is left is as measured");
    assert!(told(&Stance::as_measured(&truck().truck).unwrap(), "bed_sinks").value.is_none());
}

/// A number of the rear and a part of it, each anywhere within its limits.
fn any_number() -> impl Strategy<Value = Edit> {
    (sample::select(RearField::ALL.to_vec()), 0.0..=1.0).prop_map(|(field, share)| {
        Edit::MeasureRear(field, Some(within(field.kind(), field.limits(), share)))
    })
}

fn any_part() -> impl Strategy<Value = Edit> {
    let kinds = ChangeKind::ALL.into_iter().filter(|kind| kind.is_rear()).collect::<Vec<_>>();
    (sample::select(kinds), vec(0.0..=1.0, 3)).prop_map(|(kind, shares)| {
        let numbers = kind.numbers().iter().zip(shares);
        let values: Vec<_> =
            numbers.map(|(number, share)| Some(within(number.kind, number.limits, share))).collect();
        Edit::Set(ProposalId(0), kind.with(None, &values).expect("within its limits"))
    })
}

fn within(kind: Kind, (low, high): (f64, f64), share: f64) -> f64 {
    let value = low + (high - low) * share;
    if kind == Kind::Angle { value.to_radians() } else { value }
}

proptest! {
    #![proptest_config(cases(400))]

    /// Whatever can be entered, the answers are finite numbers or none, a spread is none below zero,
    /// and a spring that is worked out keeps its shackle's length.
    #[test]
    fn any_rear_is_answered(edits in vec(prop_oneof![4 => any_number(), 1 => any_part()], 0..60), usual in any::<bool>()) {
        let start = if usual { truck() } else { front_alone() };
        let design = edits.iter().fold(start, |design, edit| design.edited(edit).unwrap_or(design));
        let Ok(stance) = Stance::of_design(&design, ProposalId(0).into()) else { return Ok(()) };
        for told in rear_told(&stance).told {
            if let Some(Value::Number(value)) = told.value {
                prop_assert!(value.is_finite(), "{:?} {value}", told.answer);
            }
            prop_assert!(told.spread.is_none_or(|spread| spread >= 0.0), "{:?} {:?}", told.answer, told.spread);
        }
        let parts = RearParts::of(&stance.corner(Side::Left).fitted.rear);
        let rest = RearRest::laid(&design.truck.rear, &parts, 0.0);
        if let (Ok(RearRest { spring: Some(pose), .. }), Ok((leaf, _))) = (rest, Leaf::measured(&design.truck.rear)) {
            let hung = leaf.hung(&parts).expect("it was worked out");
            let shackle = libm::hypot(pose.eye.0 - hung.hanger.0, pose.eye.1 - hung.hanger.1);
            prop_assert!((shackle - hung.shackle_mm).abs() < 1e-5, "{shackle} {}", hung.shackle_mm);
        }
    }
}

/// A spring that gives way: by hand, the load's lever grows faster than the spring as the shackle lies
/// down, so there is no height at which it stands, and none is told; a balance on the far side of that
/// is none that a truck comes to.
#[test]
fn a_spring_that_sinks_until_its_shackle_is_straight_is_said() {
    let leaning = stated(&[
        (RearField::Span, 1250.0),
        (RearField::FixedPart, 600.0),
        (RearField::Arch, 120.0),
        (RearField::FixedEye, 290.0),
        (RearField::ShackleEye, 296.0),
        (RearField::HangerBolt, 296.0 + libm::sqrt(84.0 * 84.0 - 50.0 * 50.0)),
        (RearField::EyeBeyond, 50.0),
        (RearField::Rate, 30.0),
        (RearField::Load, 3300.0),
        (RearField::Unsprung, 700.0),
        (RearField::ShackleAhead, 0.0),
    ]);
    let shorter = RearParts { shackle_longer_mm: -25.4, ..RearParts::default() };
    assert_eq!(RearRest::laid(&leaning, &shorter, 0.0), Err(NoRear::NoBalance));
    // Half as much is carried, by more than its share.
    let less = RearParts { shackle_longer_mm: -8.0, ..RearParts::default() };
    let down = RearRest::laid(&leaning, &less, 0.0).unwrap().down_mm;
    assert!(down > 4.0 && down < 20.0, "{down}");
}

/// Metal is metal where nobody has measured a stop, and the load in the bed has to leave travel too.
#[test]
fn metal_and_load_are_judged_without_a_stop_and_with_one() {
    let without = edited(&with(&[]), Edit::MeasureRear(RearField::StopGap, None));
    let high = Change::RearBlock(RearBlock { height_mm: 150.0, wedge_rad: 0.0 });
    let low = stance(&edited(&without, Edit::Set(ProposalId(0), high)));
    assert_eq!(told(&low, "rear_tube").verdict, Some("the frame is hit first"));
    assert!(told(&low, "rear_bump").value.is_none() && told(&low, "notch_wanted").value.is_none());
    let whole = |changes: &[Change]| rear_measured(with(changes), &LEAF);
    // 44 of load on 25 of travel.
    let loaded = told(&stance(&whole(&[BLOCK])), "rear_bump_bed");
    assert_eq!(loaded.verdict, Some("none"), "{loaded:?}");
    let guessed = edited(&whole(&[BLOCK]), Edit::Source(truck::Field::BedLoad, Source::Assumed));
    assert!(told(&stance(&guessed), "rear_bump_bed").is_guess);
    // A leaf out is softer, and nobody has said by how much.
    let out = Change::RearSpring(RearSpring { flatter_mm: 25.4, rate_n_per_mm: None });
    let out = edited(&whole(&[out]), Edit::MeasureRear(RearField::ShackleAhead, Some(0.0)));
    assert!(
        told(&stance(&out), "bed_sinks").value.is_none() && told(&stance(&out), "rear_stop").value.is_some()
    );
    // What a guess does not move it does not silence.
    let shock =
        Change::RearShock(RearShock { short_mm: Some(200.0), long_mm: Some(500.0), mount_up_mm: 0.0 });
    let both = with(&[Change::RearBlock(RearBlock { height_mm: 100.0, wedge_rad: 0.0 }), shock]);
    let both =
        edited(&both, Edit::ChangeSource(ProposalId(0), (ChangeKind::RearShock, None, 1), Source::Assumed));
    let (bump, open) = (told(&stance(&both), "rear_bump"), told(&stance(&both), "rear_shock_open"));
    assert_eq!((bump.is_guess, bump.verdict, open.is_guess), (false, Some("none"), true));
}

/// A spring without its rate and load keeps its arch, and that is said; the tape counts where parts lean.
#[test]
fn what_is_taken_is_said_and_the_tape_counts() {
    let numbers = [
        (RearField::Span, 1250.0),
        (RearField::FixedPart, 600.0),
        (RearField::Arch, 90.0),
        (RearField::FixedEye, 290.0),
        (RearField::ShackleEye, 296.0),
        (RearField::HangerBolt, 375.0),
        (RearField::EyeBeyond, 45.0),
        (RearField::ShackleAhead, 0.0),
    ];
    let shackle = Change::RearShackle(truck::RearShackle { longer_mm: -25.4 });
    let leaning = stance(&rear_measured(with(&[shackle]), &numbers));
    assert!(rear_told(&leaning).taken.is_some());
    assert!(
        told(&leaning, "rear_comes_down").spread.unwrap() > 0.2,
        "{:?}",
        told(&leaning, "rear_comes_down")
    );
    assert_eq!(rear_told(&stance(&with(&[BLOCK]))).taken, None);
    // At the wall a sixteenth at the front is 7620 over the wheelbase of it.
    let wall = told(&stance(&with(&[])), "lamp_aim").spread.unwrap();
    assert!((wall - 1.5875 * 7620.0 / 2690.0).abs() < 0.01, "{wall}");
}
