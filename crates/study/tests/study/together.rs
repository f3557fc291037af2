//! Left and right set up together, on what the rear leaves and an anti-roll bar leave each to carry: against
//! `SciPy`, linear springs by hand, mirrors and trucks that nothing couples.

use crate::front_alone;
use crate::lean::{BAR, LEANS, LEAVES, of_row, plain, stated, truck_of};
use proptest::prelude::*;
use proptest::sample;
use study::{
    Alignment, Bound, CasterBy, HeightBy, LEAST_BUMP_MM, NoLean, NoSetting, Setting, Stance, Steps, Target,
    alignments, lean, lean_alone_rad,
};
use truck::{
    BarAdjuster, Change, Design, Edit, Field, Overlay, ProposalId, RearField, SeatSpacer, ShimChange, Side,
    Source, SpringKind, TieRodChange, Truck,
};
use yardstick::budget::{Budget, Errors, near};
use yardstick::cases;
use yardstick::table::{Row, Table};

const ID: ProposalId = ProposalId(0);

fn set(truck: &Truck, targets: [Target; 2]) -> Result<[Alignment; 2], NoSetting> {
    let sides: Vec<_> = Side::ALL.into_iter().zip(targets).collect();
    let steps = &Steps::MILLIMETRES;
    let found = alignments(truck, &sides, Overlay::NOTHING, CasterBy::Shims, steps, LEAST_BUMP_MM)?;
    Ok(found.try_into().unwrap())
}

/// A design of a truck with changes laid over each side as a plan by side.
fn planned(truck: &Truck, each: [Vec<Change>; 2]) -> Stance {
    let mut design = Design { truck: truck.clone(), ..front_alone() };
    design = design.edited(&Edit::SetAll(ID, each)).unwrap();
    Stance::of_design(&design, ID.into()).unwrap()
}

/// Both frame heights as a lean tells them, mm: what was measured less what the frame comes down.
fn heights(stance: &Stance) -> [f64; 2] {
    let lean = lean(stance).unwrap();
    [(Side::Left, lean.left), (Side::Right, lean.right)]
        .map(|(side, corner)| stance.corner(side).fitted.measured.body.rail.bottom_z_mm - corner.down_mm)
}

/// What meets a target before it is rounded, as changes.
fn exactly(found: &Alignment) -> Vec<Change> {
    let (exact, spring) = (&found.setting.exact, &found.setting.rest.fitted.spring);
    let height = match spring.kind {
        SpringKind::TorsionBar => {
            Change::BarAdjuster(BarAdjuster { turns: spring.bar.turns_for(exact.height).unwrap() })
        }
        _ => Change::SeatSpacer(SeatSpacer { thickness_mm: exact.height }),
    };
    let shims = ShimChange { front_mm: exact.shim_front_mm, rear_mm: exact.shim_rear_mm };
    let rod = TieRodChange { longer_mm: exact.tie_mm, ..TieRodChange::default() };
    [height, Change::Shims(shims), Change::TieRod(rod)].iter().filter_map(Change::kept).collect()
}

/// As it sits, and at these heights.
fn at(truck: &Truck, heights_mm: [f64; 2]) -> [Target; 2] {
    let now = Target::of_each(&Stance::as_measured(truck).unwrap());
    [0, 1].map(|side| Target { ride_height_mm: heights_mm[side], ..now[side] })
}

/// Rail heights and wheels of the demo, its right sagging by 9 mm on a lighter corner.
fn sagging(rear: &[(RearField, f64)]) -> Truck {
    let rail_mm = Field::RailBottomZ.get(&front_alone().truck).unwrap() - 9.0;
    let own = vec![(Field::RailBottomZ, Some(rail_mm)), (Field::CornerLoad, Some(3700.0))];
    let mut truck = stated(front_alone().truck, rear);
    // Far from the ends of its bolt, and from its stops.
    (truck.spring.bar.turns_in, truck.spring.bar.turns_out) = (60.0, 60.0);
    (truck.stops.bump_gap_mm, truck.stops.droop_mm) = (70.0, 110.0);
    Design { truck, ..front_alone() }.edited(&Edit::MeasureRight(own)).unwrap().truck
}

fn both() -> Vec<(RearField, f64)> {
    [&LEAVES[..], &BAR[..]].concat()
}

/// Source: `reference/scipy/leans.py`, read the other way: for the heights at which the whole truck's
/// energy is least, what was done at each side. A height is good there to 1e-5 mm, and a thick bar takes ten
/// times that in spacer.
#[test]
fn the_heights_of_the_table_ask_for_its_turns() {
    let table = Table::read(LEANS);
    let (mut turned, mut spaced, mut rows) = (Errors::of("anchor_rad"), Errors::of("spacer_mm"), 0);
    let has_adjuster = |row: &Row<'_>| row.text("spring") != "wheel_rate";
    for row in table.rows().filter(has_adjuster) {
        let truck = truck_of(&row);
        let down = ["left_down_mm", "right_down_mm"].map(|name| row.number(name));
        // Camber, caster and toe as they are there with nothing but that done.
        let mut targets = Target::of_each(&of_row(&row));
        for (target, down_mm) in targets.iter_mut().zip(down) {
            target.ride_height_mm = truck.body.rail.bottom_z_mm - down_mm;
        }
        let found = set(&truck, targets).unwrap();
        for (found, name) in found.iter().zip(["left_mm", "right_mm"]) {
            assert!(found.setting.together);
            let (got, done) = (found.setting.exact.height, row.number(name));
            match truck.spring.kind {
                SpringKind::TorsionBar => turned.add(got, done.atan2(152.0)),
                _ => spaced.add(got, done),
            }
        }
        rows += 1;
    }
    assert!(rows >= 14, "{rows} rows");
    turned.within(Budget { q50: 1e-6, q99: 5e-6, max: 5e-6 });
    spaced.within(Budget { q50: 2e-5, q99: 1e-3, max: 1e-3 });
}

/// A truck that leans, its corners loaded differently, is set level by a plan by side: put into it before
/// anything is rounded, the frame stands where it was wished.
#[test]
fn a_truck_that_leans_is_set_level_together() {
    for rear in [&LEAVES[..], &both()] {
        let truck = sagging(rear);
        for wished in [[285.0, 285.0], [300.0, 300.0], [280.0, 290.0]] {
            let mut targets = at(&truck, wished);
            (targets[0].camber_rad, targets[1].toe_rad) = (-0.004, 0.002);
            let found = set(&truck, targets).unwrap();
            let stance = planned(&truck, found.each_ref().map(exactly));
            for (got, wished) in heights(&stance).into_iter().zip(wished) {
                // A plan keeps hundredths of a turn and of a millimetre.
                near(got, wished, 0.02, "put back");
            }
            let reads = Target::of_each(&stance);
            near(reads[0].camber_rad, -0.004, 5e-5, "camber where it then stands");
            near(reads[1].toe_rad, 0.002, 5e-5, "toe where it then stands");
            assert!(
                found.iter().all(|found| found.setting.bounds.is_empty()),
                "{:?}",
                found[0].setting.bounds
            );
        }
    }
}

/// What a gauge is said to read is what the truck reads with all that is set on it, and what it stands on is
/// what it then stands on.
#[test]
fn what_it_reads_is_read_with_both_set() {
    let truck = sagging(&both());
    let found = set(&truck, at(&truck, [270.0, 270.0])).unwrap();
    let stance = planned(&truck, found[1].setting.on_each());
    let (told, reads) = (heights(&stance), Target::of_each(&stance));
    for (at, found) in found.iter().enumerate() {
        let said = found.setting.reads;
        near(said.ride_height_mm, told[at], 1e-6, "height");
        near(said.ride_height_mm, 270.0, 1.0, "a quarter turn is half a millimetre");
        near(reads[at].camber_rad, said.camber_rad, 1e-9, "camber");
        near(reads[at].caster_rad, said.caster_rad, 1e-9, "caster");
        // The daylight at the stop as it sits, less what the frame has come down, to a tenth.
        let fell = found.setting.rest.fitted.measured.body.rail.bottom_z_mm - told[at];
        let before = Stance::as_measured(&truck).unwrap();
        let was = study::travel_left(&before.on(Side::ALL[at])).bump.travel_mm;
        near(found.footing.bump.travel_mm, was - fell, 0.1 * fell.abs(), "bump travel");
    }
    // Each on its own spring it would stand elsewhere: the two then differ.
    let alone = Side::ALL.map(|side| stance.corner(side).ride_height_mm());
    assert!(alone[1] - alone[0] > 5.0, "{alone:?}");
}

/// By hand, of two linear springs `k` that a coupling `c` holds to each other, N/mm of their difference:
/// `k a = k x + c (x − y)`, so the left, that is to come down by `x` while the right stays, is let down by
/// `x (k + c) / k` on its own spring, the right raised by `x c / k`, and one against the other by
/// `x (k + 2 c) / k`. Leaves of 30 N/mm 1000 mm apart are 30·1000²/2/1404² = 7.6 N/mm at wheels 1404 mm
/// apart.
#[test]
fn two_linear_springs_by_hand() {
    let mut truck = plain(&LEAVES);
    truck.spring.kind = SpringKind::TorsionBar;
    (truck.spring.bar.turns_in, truck.spring.bar.turns_out) = (60.0, 60.0);
    let rest = Stance::as_measured(&truck).unwrap();
    let k = rest.corner(Side::Left).wheel_rate_n_per_mm;
    let c = 30.0 * 1e6 / 2.0 / (1404.0 * 1404.0);
    let was = truck.body.rail.bottom_z_mm;
    for x in [4.0, -4.0] {
        let found = set(&truck, at(&truck, [was - x, was])).unwrap();
        let stance = planned(&truck, found.each_ref().map(exactly));
        let alone = Side::ALL.map(|side| stance.corner(side).ground_mm);
        near(alone[0], x * (k + c) / k, 0.02 * x.abs(), "left");
        near(alone[1], -x * c / k, 0.02 * x.abs(), "right");
        near(lean_alone_rad(&stance) * 1404.0, x * (k + 2.0 * c) / k, 0.03 * x.abs(), "against each other");
    }
}

/// Identity: wishes that change places change what is set, bit for bit in steps.
#[test]
fn wishes_that_change_places_change_turns() {
    let truck = Truck { right: front_alone().truck.right, ..sagging(&both()) };
    let wish = |left, right| {
        let mut targets = at(&truck, [left, right]);
        (targets[0].camber_rad, targets[1].camber_rad) = (left * 1e-5, right * 1e-5);
        set(&truck, targets).unwrap()
    };
    let (here, there) = (wish(291.0, 284.0), wish(284.0, 291.0));
    for (one, other) in [(&here[0], &there[1]), (&here[1], &there[0])] {
        let (one, other) = (&one.setting, &other.setting);
        near(one.exact.height, other.exact.height, 5e-6, "exact");
        assert_eq!((one.set, one.height), (other.set, other.height));
        near(one.reads.ride_height_mm, other.reads.ride_height_mm, 1e-8, "reads");
    }
    assert!(here[0].setting.exact.height > here[1].setting.exact.height + 0.01);
}

/// Identity: leaves of next to nothing leave each side as it is set alone; and where left and right are to do
/// alike there is nothing for the stiffest to hold.
#[test]
fn what_nothing_couples_is_set_as_alone() {
    let soft = [(RearField::Rate, 1e-9), (RearField::SpringsApart, 1000.0)];
    let stiff = [(RearField::Rate, 500.0), (RearField::SpringsApart, 1800.0)];
    let right = front_alone().truck.right;
    let alike = |rear: &[_]| Truck { right: right.clone(), ..sagging(rear) };
    for (coupled, alone, wished) in [
        (sagging(&soft), sagging(&[]), [290.0, 280.0]),
        (alike(&stiff), alike(&[]), [288.0, 288.0]),
        (alike(&both()), alike(&[]), [288.0, 288.0]),
    ] {
        let [coupled, alone] = [coupled, alone].map(|truck| set(&truck, at(&truck, wished)).unwrap());
        for (coupled, alone) in coupled.iter().zip(&alone) {
            let (coupled, alone) = (&coupled.setting, &alone.setting);
            assert!(coupled.together && !alone.together);
            near(coupled.exact.height, alone.exact.height, 1e-5, "exact");
            assert_eq!((coupled.height, &coupled.changes), (alone.height, &alone.changes));
            near(coupled.reads.ride_height_mm, alone.reads.ride_height_mm, 1e-5, "reads");
        }
    }
}

/// A bolt that ends before its side is up says so, and the other side is set for where that leaves it.
#[test]
fn where_a_bolt_ends_the_other_side_still_comes_where_it_was_wished() {
    let mut truck = sagging(&both());
    (truck.spring.bar.turns_in, truck.spring.bar.splines_anchor, truck.spring.bar.splines_arm) =
        (0.5, None, None);
    // Far down at the right, where the bar wants the left turned in.
    let found = set(&truck, at(&truck, [304.0, 262.0])).unwrap();
    let [left, right] = found.each_ref().map(|found| &found.setting);
    assert!(left.bounds.contains(&Bound::Bolt), "{:?}", left.bounds);
    assert!(right.bounds.is_empty(), "{:?}", right.bounds);
    let HeightBy::Anchor { turns, .. } = left.height else { panic!("a bar has an anchor") };
    near(turns, 0.5, 1e-12, "as far as it goes");
    assert!(left.reads.ride_height_mm < 304.0 - 3.0, "{:?}", left.reads);
    near(right.reads.ride_height_mm, 262.0, 1.0, "within a quarter turn");
    let told = heights(&planned(&truck, right.on_each()));
    near(told[0], left.reads.ride_height_mm, 1e-6, "left");
    near(told[1], right.reads.ride_height_mm, 1e-6, "right");
}

/// A guess at the left, of what is measured at the right, is one of the right's turns too: it carries what the
/// left gives it.
#[test]
fn a_guess_at_one_side_marks_the_other() {
    for (rear, marked) in [(&[][..], [true, false]), (&LEAVES[..], [true, true])] {
        let truck = sagging(rear);
        let own = Edit::MeasureRight(vec![(Field::BarDiameter, Some(26.0))]);
        let guess = Edit::Source(Field::BarDiameter, Source::Assumed);
        let design = Design { truck, ..front_alone() }.edited(&guess).unwrap().edited(&own).unwrap();
        let found = set(&design.truck, at(&design.truck, [290.0, 288.0])).unwrap();
        let is_marked = |found: &Alignment| !found.setting.may_rest_on(Setting::HEIGHT).is_empty();
        assert_eq!(found.each_ref().map(is_marked), marked, "{rear:?}");
    }
}

/// What holds it level is not all stated: each side is set on its own spring, as if none of it were.
#[test]
fn half_a_bar_leaves_each_side_alone() {
    let half = [&LEAVES[..], &BAR[..2]].concat();
    for rear in [&LEAVES[..1], &half] {
        let [open, alone] = [rear, &[]].map(|rear| {
            let truck = sagging(rear);
            set(&truck, at(&truck, [290.0, 280.0])).unwrap()
        });
        for (open, alone) in open.iter().zip(&alone) {
            assert!(!open.setting.together && open.setting.alone);
            assert_eq!((open.setting.set, open.setting.height), (alone.setting.set, alone.setting.height));
        }
    }
}

/// Of rails measured 14 in and 4 in high, one height for both takes more than a wheel's whole load.
#[test]
fn a_wheel_that_would_hang_is_no_setting() {
    let stiff = [(RearField::Rate, 500.0), (RearField::SpringsApart, 1800.0)];
    let truck = sagging(&stiff);
    let found = set(&truck, at(&truck, [330.0, 250.0]));
    assert_eq!(found.unwrap_err(), NoSetting::Together(NoLean::NoBalance));
}

proptest! {
    #![proptest_config(cases(16))]

    /// Whatever is wished: what a side is said to read is what it reads with both set, and where no
    /// adjuster ends it is within the steps of both of what was wished, or the bound is named.
    #[test]
    fn any_wish_is_met_or_says_why(
        kind in sample::select(vec![SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate]),
        bar in any::<bool>(),
        wished in (230.0..360.0, -25.0..25.0),
        camber in -0.03..0.03,
    ) {
        let mut truck = sagging(if bar { &[] } else { &LEAVES });
        truck = if bar { stated(truck, &both()) } else { truck };
        truck.spring.kind = kind;
        let mut targets = at(&truck, [wished.0, wished.0 + wished.1]);
        targets[0].camber_rad += camber;
        let found = match set(&truck, targets) {
            Ok(found) => found,
            Err(why) => {
                prop_assert_eq!(why, NoSetting::Together(NoLean::NoBalance));
                return Ok(());
            }
        };
        let told = heights(&planned(&truck, found[1].setting.on_each()));
        for at in 0..2 {
            let setting = &found[at].setting;
            prop_assert!((setting.reads.ride_height_mm - told[at]).abs() < 0.02, "{:?} {told:?}", setting.reads);
            let off = setting.reads.less(&targets[at]).ride_height_mm;
            let binds = found.iter().any(|found| !found.setting.bounds.is_empty());
            prop_assert!(binds || off.abs() < 2.0, "{off} {setting:?}");
        }
    }
}
