//! Whatever a person types, the studies answer with numbers or with a sentence.

use linkage::Vector3;
use proptest::prelude::*;
use study::{
    Clearances, HeldBy, NoLean, Quantity, Rear, ScrubLine, Span, Stance, Steering, clearances, lean,
    lean_alone_rad, sweep, travel_left,
};
use truck::{Arm, Change, ChangeKind, Design, Edit, Field, Kind, ProposalId, Side, SpringKind, demo};
use yardstick::cases;

fn limits_in_core(kind: Kind, (low, high): (f64, f64)) -> (f64, f64) {
    if kind == Kind::Angle { (low.to_radians(), high.to_radians()) } else { (low, high) }
}

/// A number for limits: anywhere in them, at their ends, near what stands
/// there, and now and then none that could be kept.
fn number(limits: (f64, f64), here: f64) -> impl Strategy<Value = f64> {
    let (low, high) = limits;
    prop_oneof![
        6 => low..=high,
        6 => (-1.0..1.0).prop_map(move |by: f64| here + by * 0.05 * (high - low)),
        2 => Just(low),
        2 => Just(high),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(-1e300), Just(high + 1e6)],
    ]
}

fn measure() -> impl Strategy<Value = Edit> {
    let truck = demo().truck;
    prop::sample::select(Field::ALL).prop_flat_map(move |field| {
        let here = field.get(&truck).unwrap_or(650.0);
        number(limits_in_core(field.kind(), field.limits()), here)
            .prop_map(move |value| Edit::Measure { field, value: Some(value) })
    })
}

fn change() -> impl Strategy<Value = Edit> {
    (prop::sample::select(&ChangeKind::ALL[..]), any::<prop::sample::Index>()).prop_flat_map(|(kind, at)| {
        let places = kind.places();
        let place = (!places.is_empty()).then(|| places[at.index(places.len())]);
        let numbers: Vec<_> = kind
            .numbers()
            .iter()
            .map(|number_of| {
                let limits = limits_in_core(number_of.kind, number_of.limits);
                number(limits, 0.0_f64.clamp(limits.0, limits.1))
            })
            .collect();
        (numbers, 0..4_u8).prop_filter_map("within limits", move |(values, on)| {
            let values: Vec<_> = values.into_iter().map(Some).collect();
            let change = kind.with(place, &values)?;
            Some(match on {
                1 if !kind.is_rear() => Edit::SetEach(ProposalId(0), [Some(change), None]),
                2 if !kind.is_rear() => Edit::SetEach(ProposalId(0), [None, Some(change)]),
                _ => Edit::Set(ProposalId(0), change),
            })
        })
    })
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        8 => measure(),
        2 => measure().prop_map(|edit| match edit {
            Edit::Measure { field, value } => Edit::MeasureRight(vec![(field, value)]),
            other => other,
        }),
        4 => change(),
        1 => prop::sample::select(vec![SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate])
            .prop_map(Edit::SpringKind),
        1 => prop::sample::select(vec![Arm::Lower, Arm::Upper]).prop_map(Edit::SpringArm),
    ]
}

fn numbers(what: &str, values: &[f64]) -> Result<(), TestCaseError> {
    prop_assert!(values.iter().all(|value| value.is_finite()), "{what}: {values:?}");
    Ok(())
}

/// A lean is finite, its wheels carry no less than nothing, and what one has the other gave.
fn leans(stance: &Stance) -> Result<(), TestCaseError> {
    numbers("alone", &[lean_alone_rad(stance)])?;
    let lean = match lean(stance) {
        Ok(lean) => lean,
        Err(why) => {
            let is_open = why == NoLean::OtherSprings;
            prop_assert!(why.to_string().len() > 10 && (is_open || why == NoLean::NoBalance), "{why}");
            return Ok(());
        }
    };
    numbers("lean", &[lean.left_low_rad, lean.track_mm, lean.left.down_mm, lean.right.down_mm])?;
    numbers("lean", &[lean.left.more_n, lean.right.more_n, lean.held_back().unwrap_or(0.0)])?;
    let carried = [(Side::Left, lean.left), (Side::Right, lean.right)]
        .map(|(side, corner)| (corner.more_n + stance.corner(side).fitted.corner_n, corner.is_lifted));
    for (load_n, is_lifted) in carried {
        prop_assert!(load_n >= -1e-9 && is_lifted == (load_n < 1e-9), "{lean:?}");
    }
    prop_assert!((lean.left.more_n + lean.right.more_n).abs() < 1e-9, "{lean:?}");
    Ok(())
}

/// Every question, asked of a design's truck; whether it stands.
fn ask(design: &Design, id: ProposalId, side: Side) -> Result<bool, TestCaseError> {
    let fitted = match design.fitted_on(id, side) {
        Ok(fitted) => fitted,
        Err(why) => {
            prop_assert!(why.to_string().len() > 10);
            return Ok(false);
        }
    };
    prop_assert!(fitted.remarks.iter().all(|remark| remark.to_string().ends_with('.')));
    let rest = match Stance::of_design(design, id.into()) {
        Ok(stance) => stance.on(side),
        Err(why) => {
            let text = why.to_string();
            prop_assert!(text.len() > 10 && !text.contains("NaN") && !text.contains("inf"), "{text}");
            return Ok(false);
        }
    };
    let read = rest.attitude();
    numbers("rest", &[rest.ground_mm, rest.effort, rest.wheel_rate_n_per_mm, rest.ride_height_mm()])?;
    numbers("rest", &[rest.ride_frequency_hz(), rest.nose_down_rad(), read.camber_rad, read.trail_mm])?;
    prop_assert!(rest.held_by != HeldBy::Spring || rest.wheel_rate_n_per_mm > 0.0, "it gives way");
    leans(rest.stance())?;
    // And with the parts on one side of it.
    let other = design.as_measured_on(side.other());
    let pair = if side == Side::Left { [fitted, other] } else { [other, fitted] };
    let [one, two] = pair;
    if let Ok(stance) = Stance::of(one, two, Rear::AS_MEASURED) {
        leans(&stance)?;
    }
    let left = travel_left(&rest);
    numbers("left", &[left.bump.travel_mm, left.touch_mm, left.solid_mm, left.droop.travel_mm])?;
    prop_assert!(left.bump.travel_mm >= 0.0 && left.droop.travel_mm >= 0.0);
    for (_, travel_mm) in &left.contacts {
        prop_assert!((0.0..=left.solid_mm.max(0.0) + 1e-6).contains(travel_mm), "{left:?}");
    }
    for found in &Clearances::of(&rest, 5).found {
        numbers(found.pair.key(), &[found.gap.distance_mm, found.at.travel_mm, found.at.heading_rad])?;
    }
    for point in &ScrubLine::of(&rest).points {
        numbers(point.of.key(), &[point.z_mm, point.over_line_mm, point.over_rim_mm])?;
    }
    if let Ok(steering) = Steering::of(&rest) {
        numbers("lock", &[steering.left.heading_rad, steering.right.heading_rad, steering.side_mm(0.3)])?;
    }
    let span = Span { from_mm: -left.droop.travel_mm - 30.0, to_mm: left.solid_mm + 30.0, count: 9 };
    for station in sweep(&rest, &span, Vector3::new(0.0, 15.0, 0.0)).stations {
        match station.gauged {
            Ok(gauged) => {
                for quantity in Quantity::ALL {
                    numbers(quantity.key(), &quantity.read(&gauged).map_or(vec![], |value| vec![value]))?;
                }
                for gap in clearances(&rest, &gauged.pose) {
                    numbers("gap", &[gap.distance_mm, gap.on_first.z, gap.on_second.z])?;
                }
            }
            Err(why) => prop_assert!(why.to_string().len() > 10),
        }
    }
    Ok(true)
}

#[test]
fn any_edits_at_all_give_numbers_or_a_sentence() {
    let (mut stood, mut fell) = (0, 0);
    let stood = std::cell::RefCell::new((&mut stood, &mut fell));
    let mut runner = proptest::test_runner::TestRunner::new(cases(600));
    let outcome = runner.run(&prop::collection::vec(edit(), 1..10), |edits| {
        let mut design = demo();
        for edit in &edits {
            // A refusal leaves the design as it was.
            if let Ok(next) = design.edited(edit) {
                design = next;
            }
        }
        for (id, side) in
            [(ProposalId(0), Side::Right), (ProposalId(0), Side::Left), (ProposalId(9), Side::Left)]
        {
            if side == Side::Right && design.truck.right.is_empty() {
                continue;
            }
            let stands = ask(&design, id, side)?;
            let mut count = stood.borrow_mut();
            *(if stands { &mut *count.0 } else { &mut *count.1 }) += 1;
        }
        Ok(())
    });
    outcome.unwrap();
    let (stood, fell) = stood.into_inner();
    // Edits so wild that nothing stands would prove nothing, and so would tame ones.
    assert!(*stood > 300 && *fell > 60, "{stood} stood, {fell} did not");
}

/// The pin up beyond all reason is a change like any other.
#[test]
fn a_change_at_its_limits_is_kept_or_refused() {
    for kind in ChangeKind::ALL {
        let place = kind.places().first().copied();
        for pick in [|limits: (f64, f64)| limits.0, |limits: (f64, f64)| limits.1] {
            let values: Vec<_> = kind
                .numbers()
                .iter()
                .map(|number| Some(pick(limits_in_core(number.kind, number.limits))))
                .collect();
            let change: Change = kind.with(place, &values).unwrap();
            let design = demo().edited(&Edit::Set(ProposalId(0), change)).unwrap();
            ask(&design, ProposalId(0), Side::Left).unwrap();
        }
    }
}
