//! The truck as it was built: verdicts by hand, and single causes planted in trucks that are not as measured.

use crate::front_alone;
use std::cell::RefCell;
use std::collections::BTreeMap;
use study::{
    AsBuilt, AsBuiltSearch, BuiltRow, BuiltVerdict, COVERAGE, Cause, Figure, Trial, Values, matters,
    read_as_built,
};
use truck::{
    BarAdjuster, Change, ChangeKind, DroppedSpindle, Field, Overlay, ReadWith, Readable, Reading, Readings,
    ShimChange, Side, Source, Sources, StrutRodChange, TieRodChange, Truck,
};
use yardstick::generate::Dice;

const LEFT: Side = Side::Left;
const TAPE_MM: f64 = 1.6;

fn spindle(drop_mm: f64) -> Change {
    Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })
}

fn turned(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

fn shims(front_mm: f64, rear_mm: f64) -> Change {
    Change::Shims(ShimChange { front_mm, rear_mm })
}

/// Readings of the left by their usual tools.
fn readings(all: &[(Readable, f64)]) -> Readings {
    let mut readings = Readings::default();
    for (of, value) in all.iter().copied() {
        readings.set(of, LEFT, Some(Reading::by(of, value, of.tools()[0]))).unwrap();
    }
    readings
}

fn by_model(trial: &Trial, figures: &[Figure]) -> Values {
    trial.values(LEFT, figures)
}

/// How the demo's front came out against a plan, by what was read before and as built.
fn came_out(plan: &[Change], before: &[(Readable, f64)], built: &[(Readable, f64)]) -> AsBuilt {
    let mut truck = front_alone().truck;
    truck.readings = readings(before);
    let trial = |changes: &[Change]| Trial::new(&truck, Overlay::from(changes));
    let search = AsBuiltSearch::new(trial(&[]), trial(plan), &readings(built), LEFT);
    search.unwrap().finish(&by_model)
}

fn only(found: &AsBuilt) -> BuiltRow {
    let [row] = found.rows[..] else { panic!("{found:?}") };
    row
}

/// By hand, at 300 before and a two-inch spindle: 249.2 is planned. What was read last is compared, 233 by a tape
/// that reads to 2, which is 16.2 low and outside 12.7 by more than √(1.6² + 2²) = 2.561; as first read, 247.2, it
/// was as planned. It settled 14.2 by √(1.6² + 2²) as well. The camber was not read again and is no row of it: two
/// times are two trucks. At the other side, which was read once, nothing is later than that.
#[test]
fn what_had_settled_is_compared_and_the_first_stands_beside_it() {
    let mut design = front_alone();
    let id = design.proposals[0].id;
    assert!(design.proposals[0].changes() == [spindle(50.8)]);
    let right = Side::Right;
    let height = |value: f64, tolerance: f64| {
        let read = Reading::by(Readable::FrameHeight, value, ReadWith::Tape);
        Some(Reading { tolerance, ..read })
    };
    for side in Side::ALL {
        design.truck.readings.set(Readable::FrameHeight, side, height(300.0, 1.6)).unwrap();
        design.built.set(Readable::FrameHeight, side, height(247.2, 1.6)).unwrap();
    }
    let camber = Reading::by(Readable::Camber, 0.01, ReadWith::AngleGauge);
    design.built.set(Readable::Camber, LEFT, Some(camber)).unwrap();
    let found = |design: &truck::Design, side| {
        let search = AsBuiltSearch::of_design(design, id.into(), side).unwrap();
        search.finish(&|trial, figures| trial.values(side, figures))
    };
    let first = found(&design, LEFT);
    assert_eq!((first.rows.len(), first.unread.len()), (2, 0));
    let once = first.rows.iter().find(|row| row.of == Readable::FrameHeight).unwrap();
    assert_eq!((once.verdict, once.settled()), (BuiltVerdict::Inside, None));
    design.settled.set(Readable::FrameHeight, LEFT, height(233.0, 2.0)).unwrap();
    let last = found(&design, LEFT);
    assert_eq!(last.unread, [Readable::Camber]);
    let row = only(&last);
    assert!(
        (row.planned.unwrap() - 249.2).abs() < 0.01 && (row.off().unwrap() + 16.2).abs() < 0.01,
        "{row:?}"
    );
    assert_eq!((row.verdict, row.earlier), (BuiltVerdict::Outside, Some((247.2, 1.6))));
    let (by, spread) = row.settled().unwrap();
    assert!((by + 14.2).abs() < 1e-9 && (spread - 2.561).abs() < 5e-4, "{by} ± {spread}");
    let other = only(&found(&design, right));
    assert_eq!((other.settled(), other.read.to_bits()), (None, 247.2_f64.to_bits()));
}

/// Whatever was read last is as near as it is: a gap that was clear and has closed since is a danger, one that
/// was opened is none, and one that was not read again stays as it was.
#[test]
fn what_may_touch_is_what_was_read_last() {
    let mut design = front_alone();
    let rule = |value: f64| Some(Reading::by(Readable::RimLowerJoint, value, ReadWith::DrillShank));
    design.built.set(Readable::RimLowerJoint, LEFT, rule(0.2)).unwrap();
    design.built.set(Readable::RimLowerJoint, Side::Right, rule(0.1)).unwrap();
    let read = |design: &truck::Design| {
        let rows = read_as_built(design).into_iter();
        rows.map(|(side, row)| (side, row.read, row.may_touch())).collect::<Vec<_>>()
    };
    assert_eq!(read(&design), [(LEFT, 0.2, true), (Side::Right, 0.1, true)]);
    design.settled.set(Readable::RimLowerJoint, LEFT, rule(8.0)).unwrap();
    assert_eq!(read(&design), [(LEFT, 8.0, false), (Side::Right, 0.1, true)]);
    design.settled.set(Readable::RimLowerJoint, LEFT, rule(0.0)).unwrap();
    assert_eq!(read(&design)[0], (LEFT, 0.0, true));
}

/// By hand: 300 read before, a spindle whose drop is exact takes 50.8 off it, so 249.2 is planned; both tapes
/// together are √2 · 1.6 = 2.263 off. Half an inch, 12.7, matters: to 10.437 off it is inside, from 14.963 on
/// outside, and between no tape tells; to both sides alike.
#[test]
fn a_change_is_compared_with_a_change() {
    let plan = [spindle(50.8)];
    for (off, verdict) in [
        (0.0, BuiltVerdict::Inside),
        (10.40, BuiltVerdict::Inside),
        (10.48, BuiltVerdict::CannotTell),
        (14.92, BuiltVerdict::CannotTell),
        (15.0, BuiltVerdict::Outside),
    ] {
        for off in [off, -off] {
            let built = [(Readable::FrameHeight, 249.2 + off)];
            let row = only(&came_out(&plan, &[(Readable::FrameHeight, 300.0)], &built));
            assert_eq!((row.verdict, row.before.is_some()), (verdict, true), "{off}");
            assert!((row.off().unwrap() - off).abs() < 0.02, "{off}: {row:?}");
            assert!((row.spread.unwrap() - 2.0_f64.sqrt() * TAPE_MM).abs() < 0.01, "{row:?}");
        }
    }
}

/// By hand: asked for 0.5° give or take 0.5°, read to 0.1°. From 0.1° to 0.9° it passes for all that was read, beyond
/// −0.1° and 1.1° it does not, and between no tool that poor tells; what was planned is no matter.
#[test]
fn a_setting_passes_by_its_own_tolerance() {
    let of = Readable::Camber;
    for (degrees, verdict) in [
        (0.5, BuiltVerdict::Inside),
        (0.1, BuiltVerdict::Inside),
        (0.9, BuiltVerdict::Inside),
        (0.09, BuiltVerdict::CannotTell),
        (0.91, BuiltVerdict::CannotTell),
        (-0.09, BuiltVerdict::CannotTell),
        (1.09, BuiltVerdict::CannotTell),
        (-0.11, BuiltVerdict::Outside),
        (1.11, BuiltVerdict::Outside),
        (-0.5, BuiltVerdict::Outside),
    ] {
        let mut design = front_alone();
        let reading = Reading {
            tolerance: 0.1_f64.to_radians(),
            ..Reading::by(of, f64::to_radians(degrees), ReadWith::AngleGauge)
        };
        design.built.set(of, LEFT, Some(reading)).unwrap();
        let (_, row) = read_as_built(&design).remove(0);
        let half = 0.5_f64.to_radians();
        assert_eq!(row.beside_what_is_asked(half, half), verdict, "{degrees}");
    }
}

/// By hand: of two readings each give or take 3, the difference is off by 4.24, of the 12.7 that matter more
/// than a quarter: what agrees to the millimetre is not told, what is far off is. As well as 3.175 / √2 tells.
#[test]
fn a_poor_tape_passes_nothing() {
    let poor =
        |value: f64| Reading { tolerance: 3.0, ..Reading::by(Readable::FrameHeight, value, ReadWith::Tape) };
    let verdict = |value: f64| {
        let mut truck = front_alone().truck;
        truck.readings.set(Readable::FrameHeight, LEFT, Some(poor(300.0))).unwrap();
        let mut built = Readings::default();
        built.set(Readable::FrameHeight, LEFT, Some(poor(value))).unwrap();
        let plan = [spindle(50.8)];
        let (sits, plan) = (Trial::new(&truck, Overlay::NOTHING), Trial::new(&truck, Overlay::from(&plan)));
        let row = only(&AsBuiltSearch::new(sits, plan, &built, LEFT).unwrap().finish(&by_model));
        assert!((row.tolerance_that_tells() - 12.7 / 4.0 / 2.0_f64.sqrt()).abs() < 1e-9);
        row.verdict
    };
    assert_eq!(verdict(249.2), BuiltVerdict::CannotTell);
    assert_eq!(verdict(249.2 + 18.0), BuiltVerdict::Outside);
}

/// Of what was not read before there is the model alone, and its gap is as poor as its tape.
#[test]
fn what_it_is_compared_with_says_how_much_is_known() {
    let of = Readable::RimLowerJoint;
    let row = only(&came_out(&[spindle(50.8)], &[], &[(of, 7.9)]));
    assert_eq!((row.before, row.verdict), (None, BuiltVerdict::CannotTell));
    assert!(row.spread.unwrap() > 5.0 && row.planned.is_some_and(|mm| (mm - 7.9).abs() < 1.0), "{row:?}");
    let read = only(&came_out(&[spindle(50.8)], &[(of, 58.7)], &[(of, 7.9)]));
    assert_eq!((read.before, read.verdict), (Some((58.7, 0.4)), BuiltVerdict::Inside));
    assert!(read.spread.unwrap() < 0.7, "{read:?}");
}

/// Room is dangerous by what was read, whatever was planned: common practice, a quarter of an inch.
#[test]
fn room_is_judged_by_the_least_that_was_read() {
    let row = |of: Readable, value: f64| only(&came_out(&[spindle(50.8)], &[], &[(of, value)]));
    // A drill shank reads to 0.4.
    let joint = |value: f64| row(Readable::RimLowerJoint, value);
    for (value, may_touch, is_tight) in
        [(0.4, true, true), (0.5, false, true), (6.7, false, true), (6.8, false, false)]
    {
        let row = joint(value);
        assert_eq!((row.may_touch(), row.is_tight()), (may_touch, is_tight), "{value}");
    }
    let stop = |value: f64| row(Readable::StopDaylight, value);
    assert!(stop(0.3).may_touch() && !stop(0.5).may_touch() && !stop(3.0).is_tight());
    // So is a droop that is at its end, and a tire that stands as high as the lip.
    assert!(row(Readable::Droop, 1.0).may_touch() && row(Readable::FenderAbove, 1.6).may_touch());
    assert!(!row(Readable::Camber, 0.0).may_touch() && !row(Readable::Droop, 2.0).may_touch());
}

/// One reading tells nothing apart: a taller tire, a spindle of less drop, a slip of the tape. The gap to the
/// rim, or that over the tire, would.
#[test]
fn causes_that_nothing_tells_apart_are_named_together() {
    let (height, fender, joint) = (Readable::FrameHeight, Readable::FenderAbove, Readable::RimLowerJoint);
    let is_less_drop = |cause: &Cause| matches!(cause, Cause::Number(Change::DroppedSpindle(_), 0));
    let before = [(height, 300.0), (fender, 100.0), (joint, 58.7)];
    let alone = came_out(&[spindle(50.8)], &before, &[(height, 269.2)]);
    let has = |found: &AsBuilt, is_it: &dyn Fn(&Cause) -> bool| {
        found.causes.iter().any(|found| is_it(&found.cause))
    };
    assert!(has(&alone, &is_less_drop) && has(&alone, &|cause| *cause == Cause::Tire), "{alone:?}");
    assert!(has(&alone, &|cause| *cause == Cause::Misread(height)), "{alone:?}");
    assert_eq!(alone.unread, [fender, joint]);
    assert!(alone.tells.is_some_and(|of| alone.unread.contains(&of)), "{alone:?}");
    let without = came_out(&[spindle(50.8)], &before[..1], &[(height, 269.2)]);
    assert_eq!(
        (without.tells, without.causes.len()),
        (None, alone.causes.len()),
        "nothing else was read before"
    );
    let told = came_out(&[spindle(50.8)], &before, &[(height, 269.2), (fender, 69.2), (joint, 27.9)]);
    let [found] = &told.causes[..] else { panic!("{told:?}") };
    assert!(is_less_drop(&found.cause), "{told:?}");
    // 20 less than the 50.8 that are planned, by what all three say.
    assert!((found.by.unwrap() + 20.0).abs() < 0.5, "{found:?}");
}

/// What is planned rests on a guess where the change does: of an exact drop the height never, the gap to a rim
/// of which nothing was measured always; of turns the bar's own numbers.
#[test]
fn a_guess_is_marked_where_the_change_rests_on_it() {
    let mut truck = front_alone().truck;
    truck.sources = Sources::all(Source::Assumed);
    let before = [(Readable::FrameHeight, 300.0), (Readable::RimLowerJoint, 58.7)];
    let marks = |plan: Change, before: &[(Readable, f64)], truck: &Truck| {
        let mut truck = truck.clone();
        truck.readings = readings(before);
        let (sits, plan) = (Trial::new(&truck, Overlay::NOTHING), [plan]);
        let plan = Trial::new(&truck, Overlay::from(&plan));
        let built = readings(&[(Readable::FrameHeight, 249.0), (Readable::RimLowerJoint, 7.9)]);
        let found = AsBuiltSearch::new(sits, plan, &built, LEFT).unwrap().finish(&by_model);
        found.rows.iter().map(|row| row.is_guess).collect::<Vec<_>>()
    };
    assert_eq!(marks(spindle(50.8), &before, &truck), [false, true]);
    assert_eq!(marks(spindle(50.8), &[], &truck), [true, true]);
    assert_eq!(marks(turned(-4.0), &before, &truck), [true, false]);
    assert_eq!(marks(turned(-4.0), &[], &front_alone().truck), [false, false]);
}

/// With nothing outside nothing is looked for.
#[test]
fn as_planned_has_no_cause() {
    let height = Readable::FrameHeight;
    let found = came_out(&[spindle(50.8)], &[(height, 300.0)], &[(height, 250.0)]);
    assert_eq!((found.causes.len(), found.tells), (0, None));
}

#[test]
fn a_side_is_compared_with_itself() {
    let truck = front_alone().truck;
    let mut built = Readings::default();
    let height = Reading::by(Readable::FrameHeight, 250.0, ReadWith::Tape);
    built.set(Readable::FrameHeight, Side::Right, Some(height)).unwrap();
    let sits = Trial::new(&truck, Overlay::NOTHING);
    assert!(AsBuiltSearch::new(sits.clone(), sits.clone(), &built, LEFT).is_none());
    assert!(AsBuiltSearch::new(sits.clone(), sits, &built, Side::Right).is_some());
}

/// Whatever can be read is weighed against something that matters.
#[test]
fn everything_that_can_be_read_matters() {
    for of in Readable::ALL.iter().copied() {
        let usual = of.tools()[0].usual_tolerance(of.kind());
        assert!(matters(of) > usual, "{of:?}: its usual tool sees nothing");
    }
}

/// What is read as built, with what.
const READ: [(Readable, ReadWith); 8] = [
    (Readable::FrameHeight, ReadWith::Tape),
    (Readable::FenderAbove, ReadWith::Tape),
    (Readable::Camber, ReadWith::AngleGauge),
    (Readable::Caster, ReadWith::AngleGauge),
    (Readable::Inclination, ReadWith::AngleGauge),
    (Readable::Toe, ReadWith::String),
    (Readable::StopDaylight, ReadWith::DrillShank),
    (Readable::RimLowerJoint, ReadWith::DrillShank),
];

/// A normal deviate.
fn normal(dice: &mut Dice) -> f64 {
    (-2.0 * (1.0 - dice.roll()).ln()).sqrt() * (std::f64::consts::TAU * dice.roll()).cos()
}

/// A truck of which every number is off as its tool may be.
pub(crate) fn another(truck: &Truck, dice: &mut Dice) -> Truck {
    let mut other = truck.clone();
    for field in Field::ALL.iter().copied() {
        if let Some(value) = field.get(truck) {
            let off = normal(dice) * field.tolerance(value) / COVERAGE;
            field.put(&mut other, Some(field.accept(value + off).unwrap_or(value)));
        }
    }
    other
}

/// What tools read of a truck; one of them wrong by so much.
fn read_off(trial: &Trial, dice: &mut Dice, wrong: Option<(Readable, f64)>) -> Readings {
    let figures = READ.map(|(of, _)| Figure::of_reading(of));
    let mut readings = Readings::default();
    for ((of, tool), truth) in READ.into_iter().zip(trial.values(LEFT, &figures)) {
        let plain = Reading::by(of, truth.unwrap().number().unwrap(), tool);
        let more = wrong.filter(|(at, _)| *at == of).map_or(0.0, |(_, by)| by);
        let value = plain.value + normal(dice) * plain.tolerance / COVERAGE + more;
        // A stop that is squeezed has no daylight to read, and what overlaps no gap.
        let _ = readings.set(of, LEFT, Some(Reading { value, ..plain }));
    }
    readings
}

/// One thing that was done otherwise, on trucks of its own, and how it is recognised.
struct Planted {
    changes: fn(&Truck) -> Vec<Change>,
    wrong: Option<(Readable, f64)>,
    is_it: fn(&Cause) -> bool,
}

const PLANNED: fn(&Truck) -> Vec<Change> = |_| vec![spindle(50.8), shims(6.0, 6.0), turned(-4.0)];

const PLANTED: [Planted; 9] = [
    // A spindle of 2 3/4 in.
    Planted {
        changes: |_| vec![spindle(69.85), shims(6.0, 6.0), turned(-4.0)],
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Number(Change::DroppedSpindle(_), 0)),
    },
    Planted {
        changes: |_| vec![shims(6.0, 6.0), turned(-4.0)],
        wrong: None,
        is_it: |cause| matches!(cause, Cause::NotOn(Change::DroppedSpindle(_))),
    },
    // Six turns in, where four out are planned.
    Planted {
        changes: |_| vec![spindle(50.8), shims(6.0, 6.0), turned(6.0)],
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Number(Change::BarAdjuster(_), 0)),
    },
    Planted {
        changes: |_| vec![spindle(50.8), turned(-4.0)],
        wrong: None,
        is_it: |cause| matches!(cause, Cause::NotOn(Change::Shims(_))),
    },
    // The front shim left out.
    Planted {
        changes: |_| vec![spindle(50.8), shims(0.0, 6.0), turned(-4.0)],
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Number(Change::Shims(_), 0)),
    },
    // A strut rod 8 mm longer.
    Planted {
        changes: |_| {
            let rod = Change::StrutRod(StrutRodChange { longer_mm: 8.0 });
            vec![spindle(50.8), shims(6.0, 6.0), rod, turned(-4.0)]
        },
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Beside(ChangeKind::StrutRod, _)),
    },
    // A tie rod 3 mm longer.
    Planted {
        changes: |_| {
            let rod = Change::TieRod(TieRodChange { longer_mm: 3.0, ..TieRodChange::default() });
            vec![spindle(50.8), shims(6.0, 6.0), rod, turned(-4.0)]
        },
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Beside(ChangeKind::TieRod, _)),
    },
    // Tires that stand an inch lower.
    Planted {
        changes: |truck| {
            let own = ChangeKind::TireSwap.first(None, truck).unwrap();
            let lower = own.with_value(5, Some(truck.loaded_radius_mm() - 25.4)).unwrap();
            vec![spindle(50.8), shims(6.0, 6.0), turned(-4.0), lower]
        },
        wrong: None,
        is_it: |cause| matches!(cause, Cause::Tire),
    },
    // An inch and a half misread.
    Planted {
        changes: PLANNED,
        wrong: Some((Readable::FenderAbove, 38.1)),
        is_it: |cause| matches!(cause, Cause::Misread(Readable::FenderAbove)),
    },
];

/// Single causes in a thousand trucks, each of them off from its numbers, and read before and after, as tools
/// are: of those that come out outside the true cause is named first, or among those named together, in 95 of
/// 100; and what is named together is few.
#[test]
fn a_planted_cause_is_named_in_95_of_100() {
    let truck = front_alone().truck;
    // The same trucks are asked again and again: only what was planted differs.
    let known: RefCell<BTreeMap<Vec<u64>, Values>> = RefCell::default();
    let remembered = |trial: &Trial, figures: &[Figure]| {
        let mut numbers: Vec<_> = Field::ALL.iter().map(|field| field.get(&trial.truck)).collect();
        for (side, change) in trial.overlay().every() {
            numbers.push(Some(f64::from(change.kind().id()) + if side.is_some() { 0.5 } else { 0.0 }));
            numbers.extend(change.values());
        }
        numbers.push(trial.rear_down_mm);
        numbers.extend(figures.iter().map(|figure| figure.readable().map(|of| f64::from(of.id()))));
        let key: Vec<_> = numbers.into_iter().map(|number| number.unwrap_or(f64::NAN).to_bits()).collect();
        if let Some(values) = known.borrow().get(&key) {
            return values.clone();
        }
        let values = by_model(trial, figures);
        known.borrow_mut().insert(key, values.clone());
        values
    };
    let mut dice = Dice::of(11);
    let (mut outside, mut named, mut first, mut together) = (0, 0, 0, 0);
    let mut of_each = [(0, 0); PLANTED.len()];
    // A thousand that came out outside: of one that did not there is nothing to name.
    for trial in 0.. {
        if outside == 1000 {
            break;
        }
        assert!(trial < 1100, "{outside} of {trial} are outside");
        let planted = &PLANTED[trial % PLANTED.len()];
        let own = another(&truck, &mut dice);
        let mut measured = truck.clone();
        measured.readings = read_off(&Trial::new(&own, Overlay::NOTHING), &mut dice, None);
        let changes = (planted.changes)(&own);
        let built = read_off(&Trial::new(&own, Overlay::from(&changes)), &mut dice, planted.wrong);
        let (sits, plan) = (Trial::new(&measured, Overlay::NOTHING), PLANNED(&measured));
        let plan = Trial::new(&measured, Overlay::from(&plan));
        let found = AsBuiltSearch::new(sits, plan, &built, LEFT).unwrap().finish(&remembered);
        if found.rows.iter().all(|row| row.verdict != BuiltVerdict::Outside) {
            continue;
        }
        let place = found.causes.iter().position(|found| (planted.is_it)(&found.cause));
        outside += 1;
        named += u32::from(place.is_some());
        first += u32::from(place == Some(0));
        together += found.causes.len();
        let (all, of_them) = &mut of_each[trial % PLANTED.len()];
        (*all, *of_them) = (*all + 1, *of_them + u32::from(place.is_some()));
    }
    assert!(named >= 950 && first >= 850, "{named} {first} of {outside}");
    assert!(together <= 2 * outside as usize, "{together} of {outside}");
    assert!(of_each.iter().all(|(all, named)| 100 * named >= 85 * all), "{of_each:?}");
}
