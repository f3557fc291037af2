//! Changes and edits: the order of a list, what is kept, what is refused, and
//! what undoes what.

#![cfg(not(target_arch = "wasm32"))]

use linkage::Vector3;
use proptest::prelude::*;
use reference_tests::budget::near;
use reference_tests::front_alone;
use study::{Limiter, Rest, Stance, travel_left};
use truck::{
    BarAdjuster, Change, ChangeKind, CutCoil, Design, Difference, DroppedSpindle, Edit, EditError, Field,
    Fitted, Kind, MovedPivot, Overlay, Place, Proposal, ProposalId, Side, Source, SpringKind, TireSwap,
    Truck, Which, demo, differences, fit,
};
use yardstick::cases;

/// Changes with the rear said to stay as measured.
fn rear_up(changes: &[Change]) -> Overlay<'_> {
    Overlay { rear_down_mm: Some(0.0), ..changes.into() }
}

/// One change in every slot there is.
fn one_in_each_slot() -> impl Strategy<Value = Vec<Change>> {
    let small = -20.0..20.0;
    let moves = proptest::collection::vec(proptest::array::uniform3(small), Place::PIVOTS.len());
    let shares = proptest::collection::vec(-1.0..1.0, 100);
    (moves, 0.0..80.0, -10.0..10.0, 0.0..2.0, 95..300_u16, shares).prop_map(
        |(moves, drop_mm, turns, coils, section, shares)| {
            let truck = demo().truck;
            let mut all: Vec<Change> = Place::PIVOTS
                .iter()
                .zip(moves)
                .map(|(place, by)| Change::MovedPivot(MovedPivot { place: *place, by_mm: Vector3::from(by) }))
                .collect();
            let mut size = truck.tire.size;
            size.section_mm = f64::from(section);
            all.extend([
                Change::DroppedSpindle(DroppedSpindle {
                    drop_mm,
                    out_mm: turns,
                    ..DroppedSpindle::default()
                }),
                Change::BarAdjuster(BarAdjuster { turns }),
                Change::CutCoil(CutCoil { coils }),
                Change::TireSwap(TireSwap {
                    size,
                    rim_width_mm: 150.0,
                    offset_mm: turns,
                    loaded_radius_mm: None,
                    barrel_mm: None,
                }),
            ]);
            let mut shares = shares.into_iter();
            for slot in slots() {
                if all.iter().all(|change| change.slot() != slot) {
                    all.push(some(slot, &truck, &mut shares));
                }
            }
            assert_eq!(all.len(), slots().len());
            all
        },
    )
}

fn slots() -> Vec<(ChangeKind, Option<Place>)> {
    let places = |kind: ChangeKind| {
        let places = kind.places().iter().copied().map(Some);
        places.chain(kind.places().is_empty().then_some(None)).map(move |place| (kind, place))
    };
    ChangeKind::ALL.into_iter().flat_map(places).collect()
}

/// A change as it is first added, each number then moved by a share of what people move it by.
fn some(
    (kind, place): (ChangeKind, Option<Place>),
    truck: &Truck,
    shares: &mut impl Iterator<Item = f64>,
) -> Change {
    let first = kind.first(place, truck).expect("it can be added");
    kind.numbers().iter().enumerate().fold(first, |change, (at, number)| {
        let by = match number.kind {
            Kind::Length => 6.0,
            Kind::Angle => 0.1,
            Kind::Whole => 3.0,
            _ => 0.5,
        };
        let value = change.values()[at].unwrap_or(number.limits.0.midpoint(number.limits.1));
        let moved = value + by * shares.next().expect("as many as numbers");
        change.with_value(at, Some(moved)).unwrap_or(change)
    })
}

fn trucks() -> [Truck; 2] {
    let bars = demo().truck;
    let mut coils = bars.clone();
    coils.spring.kind = SpringKind::Coil;
    [bars, coils]
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn any_order_of_a_list_is_the_equal_truck(
        (ordered, shuffled) in one_in_each_slot()
            .prop_flat_map(|changes| (Just(changes.clone()), Just(changes).prop_shuffle())),
        part in 0..=10_usize,
    ) {
        for truck in trucks() {
            prop_assert_eq!(fit(&truck, &ordered).unwrap(), fit(&truck, &shuffled).unwrap());
            // The same of any part of it.
            let chosen: Vec<_> = ordered.iter().filter(|change| shuffled[..part].contains(change)).copied().collect();
            prop_assert_eq!(fit(&truck, &chosen).unwrap(), fit(&truck, &shuffled[..part]).unwrap());
        }
    }

    #[test]
    fn a_proposal_lists_its_changes_in_one_order(changes in one_in_each_slot().prop_shuffle()) {
        let mut proposal = Proposal::new(ProposalId(0), "any");
        for change in &changes {
            proposal.set(*change);
        }
        prop_assert_eq!(proposal.changes().len(), changes.len());
        let rank = |change: &Change| {
            (ChangeKind::ALL.iter().position(|kind| *kind == change.kind()), change.place())
        };
        prop_assert!(proposal.changes().is_sorted_by_key(rank), "{:?}", proposal.changes());
        for change in &changes {
            prop_assert_eq!(proposal.change(change.kind(), change.place()), Some(change));
        }
        // Put again, it takes its own place; cleared, it alone is gone.
        let first = changes[0];
        proposal.set(first);
        prop_assert_eq!(proposal.changes().len(), changes.len());
        proposal.clear(first.kind(), first.place());
        prop_assert_eq!(proposal.changes().len(), changes.len() - 1);
        prop_assert_eq!(proposal.change(first.kind(), first.place()), None);
    }

    /// In a list the last of one slot stands, as it does when it is put there.
    #[test]
    fn of_two_in_a_slot_the_last_stands(first in one_in_each_slot(), last in one_in_each_slot()) {
        let truck = demo().truck;
        let both: Vec<_> = first.iter().chain(&last).copied().collect();
        prop_assert_eq!(fit(&truck, &both).unwrap(), fit(&truck, &last).unwrap());
    }

    /// A committed number is a whole count of its steps, and keeps its value
    /// within half a step: 0.01 mm, 0.01°, 1 N, 0.01 of a count.
    #[test]
    fn what_is_typed_is_kept_to_its_step(at in 0..Field::ALL.len(), share in 0.0..=1.0) {
        let field = Field::ALL[at];
        let (low, high) = field.limits();
        let typed: f64 = low + (high - low) * share;
        let in_core = if field.kind() == Kind::Angle { typed.to_radians() } else { typed };
        let design = demo().edited(&Edit::Measure { field, value: Some(in_core) }).unwrap();
        let kept = field.get(&design.truck).unwrap();
        prop_assert_eq!(field.kind().rounded(kept), Some(kept));
        let step = match field.kind() {
            Kind::Length | Kind::Angle | Kind::Rate | Kind::Count => 0.01,
            Kind::Force | Kind::Whole | Kind::Stress | Kind::Choice(_) => 1.0,
            Kind::Modulus => 100.0,
            Kind::RimCode => 0.5,
            Kind::Torque => 0.1,
        };
        let kept = if field.kind() == Kind::Angle { kept.to_degrees() } else { kept };
        prop_assert!((kept - typed).abs() <= step / 2.0 + 1e-9, "{field:?}: {typed} kept as {kept}");
        // The same again is no change.
        let again = design.edited(&Edit::Measure { field, value: field.get(&design.truck) }).unwrap();
        prop_assert_eq!(again, design);
    }

    #[test]
    fn a_change_is_kept_to_its_step(changes in one_in_each_slot()) {
        for change in changes {
            let design = demo().edited(&Edit::Set(ProposalId(0), change)).unwrap();
            let kept = design.proposals[0].change(change.kind(), change.place()).unwrap();
            prop_assert_eq!(Some(*kept), kept.kept());
            for (was, is) in change.values().iter().zip(kept.values()) {
                prop_assert!((was.unwrap_or(0.0) - is.unwrap_or(0.0)).abs() <= 0.005 + 1e-9);
            }
        }
    }

    /// A pivot moved one way by one change and back by others is where it was:
    /// an arm is its two pivots.
    #[test]
    fn a_moved_arm_is_undone_by_its_pivots(by in proptest::array::uniform3(-50_i16..50), lower in any::<bool>()) {
        let by_mm = Vector3::from(by.map(f64::from));
        let (arm, front, rear) = if lower {
            (Place::LowerArm, Place::LowerFront, Place::LowerRear)
        } else {
            (Place::UpperArm, Place::UpperFront, Place::UpperRear)
        };
        let moved = |place, by_mm| Change::MovedPivot(MovedPivot { place, by_mm });
        let there_and_back = [moved(arm, by_mm), moved(front, -by_mm), moved(rear, -by_mm)];
        let truck = demo().truck;
        // Whole millimetres: there is nothing to round.
        prop_assert_eq!(fit(&truck, rear_up(&there_and_back)).unwrap(), Fitted::as_measured(&truck));
        prop_assert_eq!(
            fit(&truck, &[moved(front, by_mm), moved(rear, by_mm)]).unwrap(),
            fit(&truck, &[moved(arm, by_mm)]).unwrap()
        );
    }

    /// An offset belongs to the change: when a pivot is measured again, the
    /// proposal's pivot goes with it.
    #[test]
    fn an_offset_survives_a_new_measurement(up in -20_i16..20, corrected in 200_i16..260) {
        let by_mm = Vector3::new(0.0, 0.0, f64::from(up));
        let change = Change::MovedPivot(MovedPivot { place: Place::LowerFront, by_mm });
        let design = demo().edited(&Edit::Set(ProposalId(0), change)).unwrap();
        let corrected = f64::from(corrected);
        let design = design.edited(&Edit::Measure { field: Field::LowerFrontZ, value: Some(corrected) }).unwrap();
        let fitted = design.fitted(ProposalId(0)).unwrap();
        prop_assert_eq!(fitted.mounts.lower.front.z.to_bits(), (corrected + f64::from(up)).to_bits());
        prop_assert_eq!(fitted.measured.points.lower.front.z.to_bits(), corrected.to_bits());
        prop_assert_eq!(design.proposals[0].change(ChangeKind::MovedPivot, Some(Place::LowerFront)), Some(&change));
    }
}

/// Nought of everything: the truck as measured, to the last bit.
#[test]
fn changes_of_nothing_change_nothing() {
    for truck in trucks() {
        let mut none = vec![Change::DroppedSpindle(DroppedSpindle::default())];
        none.extend(
            Place::ALL.map(|place| Change::MovedPivot(MovedPivot { place, by_mm: Vector3::zeros() })),
        );
        none.push(match truck.spring.kind {
            SpringKind::Coil => Change::CutCoil(CutCoil::default()),
            _ => Change::BarAdjuster(BarAdjuster::default()),
        });
        none.push(Change::TireSwap(TireSwap {
            size: truck.tire.size,
            rim_width_mm: truck.wheel.rim_width_mm,
            offset_mm: truck.wheel.offset_mm,
            loaded_radius_mm: None,
            barrel_mm: None,
        }));
        for lever_deg in [90.0_f64, 70.0, 123.4] {
            let mut truck = truck.clone();
            truck.spring.bar.lever_angle_rad = lever_deg.to_radians();
            assert_eq!(fit(&truck, rear_up(&none)).unwrap(), Fitted::as_measured(&truck));
            assert_eq!(fit(&truck, &[]).unwrap(), Fitted::as_measured(&truck));
        }
    }
}

/// An emptied slot, or turns set back to nought, is the truck as it was.
#[test]
fn an_emptied_slot_undoes_its_change() {
    let set = |design: &Design, turns| {
        design.edited(&Edit::Set(ProposalId(0), Change::BarAdjuster(BarAdjuster { turns }))).unwrap()
    };
    let design = demo();
    let turned = set(&design, -4.5);
    let fitted = |design: &Design| design.fitted(ProposalId(0)).unwrap();
    assert_ne!(fitted(&turned), fitted(&design));
    assert_eq!(fitted(&set(&turned, 0.0)), fitted(&design));
    let cleared = turned.edited(&Edit::Clear(ProposalId(0), ChangeKind::BarAdjuster, None)).unwrap();
    assert_eq!(cleared, design);
}

#[test]
fn what_is_refused_leaves_the_design_alone() {
    let design = front_alone();
    let before = design.clone();
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 900.0, ..DroppedSpindle::default() });
    let lost = ProposalId(7);
    let none = Change::CutCoil(CutCoil::default());
    let long = "x".repeat(Design::LONGEST_NAME + 1);
    let refused = [
        (
            Edit::Measure { field: Field::LowerBallY, value: Some(f64::NAN) },
            EditError::OutOfLimits(Field::LowerBallY),
        ),
        (
            Edit::Measure { field: Field::LowerBallY, value: Some(5000.0) },
            EditError::OutOfLimits(Field::LowerBallY),
        ),
        (Edit::Measure { field: Field::LowerBallY, value: None }, EditError::NeedsValue(Field::LowerBallY)),
        // The first of the two would be fine; neither is done.
        (
            Edit::MeasureAll(vec![(Field::LowerBallY, 640.0), (Field::LowerBallZ, -1.0)]),
            EditError::OutOfLimits(Field::LowerBallZ),
        ),
        (Edit::Set(ProposalId(0), spindle), EditError::Change(ChangeKind::DroppedSpindle)),
        (Edit::Set(lost, none), EditError::NoProposal),
        (Edit::Clear(lost, ChangeKind::CutCoil, None), EditError::NoProposal),
        (Edit::RemoveProposal(lost), EditError::NoProposal),
        (Edit::RenameProposal(ProposalId(0), long.clone()), EditError::TooLong),
        (Edit::Title(long), EditError::TooLong),
        (Edit::Note("x".repeat(Design::LONGEST_NOTE + 1)), EditError::TooLong),
    ];
    for (edit, why) in refused {
        assert_eq!(design.edited(&edit), Err(why), "{edit:?}");
        assert!(why.to_string().len() > 15, "{why}");
    }
    assert_eq!(design, before);
    let full = (0..2).fold(design, |design, _| design.edited(&Edit::AddProposal("more".to_owned())).unwrap());
    assert_eq!(full.edited(&Edit::AddProposal("one too many".to_owned())), Err(EditError::TooManyProposals));
    // An id is free again once its proposal is gone, and the others keep theirs.
    let fewer = full.edited(&Edit::RemoveProposal(ProposalId(1))).unwrap();
    assert_eq!(fewer.free_id(), ProposalId(1));
    assert_eq!(fewer.proposal(ProposalId(2)), full.proposal(ProposalId(2)));
}

/// A change that the truck's spring has no use for is left out, and said.
#[test]
fn a_change_for_another_spring_is_left_out_and_said() {
    let [bars, coils] = trucks();
    for (truck, change) in [
        (bars, Change::CutCoil(CutCoil { coils: 1.0 })),
        (coils.clone(), Change::BarAdjuster(BarAdjuster { turns: 3.0 })),
        (coils, Change::CutCoil(CutCoil { coils: 6.5 })),
    ] {
        let fitted = fit(&truck, &[change]).unwrap();
        assert_eq!(fitted.remarks.len(), 1, "{change:?}");
        assert!(fitted.remarks[0].to_string().contains("left out"));
        let rest = Rest::of(fitted).unwrap();
        near(rest.ground_mm, 0.0, 1e-9, "as it stood");
    }
}

/// A pin farther out takes the contact with it; a tie-rod end moved with the
/// new knuckle is met by the rod's thread, so toe in the measured pose is as measured.
#[test]
fn a_spindle_s_other_numbers() {
    let truck = demo().truck;
    let rest =
        |spindle: DroppedSpindle| Rest::of(fit(&truck, &[Change::DroppedSpindle(spindle)]).unwrap()).unwrap();
    let plain = rest(DroppedSpindle::default());
    let out = rest(DroppedSpindle { out_mm: 12.0, ..DroppedSpindle::default() });
    near(out.fitted.points.wheel_centre.y - truck.points.wheel_centre.y, 12.0, 1e-12, "out");
    assert!(out.attitude().half_track_mm() - plain.attitude().half_track_mm() > 11.0);
    let tie =
        rest(DroppedSpindle { tie_outer_mm: Vector3::new(2.0, -6.0, 14.0), ..DroppedSpindle::default() });
    let measured = tie.corner.pose(tie.corner.measured_angle_rad(), Vector3::zeros()).unwrap();
    near(measured.toe_rad(), truck.points.toe_rad, 1e-12, "toe as it sits");
    // Steering in bump changes what the load lifts, next to nothing at rest.
    near(tie.ground_mm, 0.0, 1.0, "height");
    let bump_steer = |rest: &Rest| rest.at_travel(30.0).unwrap().toe_rad();
    assert!((bump_steer(&tie) - bump_steer(&plain)).abs() > 1e-3, "a new end steers another way in bump");
}

/// What a list of at most three does when it is copied in, sorted and cleared, with no source but the words of
/// the edits.
#[test]
fn proposals_are_copied_moved_and_taken_from_elsewhere() {
    let edited = |design: &Design, edit: Edit| design.edited(&edit).unwrap();
    let names = |design: &Design| -> Vec<String> {
        design.proposals.iter().map(|proposal| proposal.name.clone()).collect()
    };
    let first = front_alone().proposals[0].id;
    let copied = edited(&front_alone(), Edit::CopyProposal(first, "Again".into()));
    assert_eq!(copied.proposals[1].changes(), front_alone().proposals[0].changes());
    assert_ne!(copied.proposals[1].id, first);
    let own = edited(&copied, Edit::RenameProposal(first, "First".into()));
    let mut taken = Proposal::new(first, "Theirs");
    taken.set(Change::CutCoil(CutCoil { coils: 1.0 }));
    let full = edited(&own, Edit::TakeProposal(taken.clone()));
    assert_eq!(names(&full), ["First", "Again", "Theirs"]);
    assert_eq!(full.proposals[2].changes(), taken.changes());
    let mut ids: Vec<_> = full.proposals.iter().map(|proposal| proposal.id).collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), 3, "each has an id of its own");
    let too_many = Err(EditError::TooManyProposals);
    assert_eq!(full.edited(&Edit::CopyProposal(first, "No".into())), too_many);
    assert_eq!(full.edited(&Edit::TakeProposal(taken)), too_many);

    let last = edited(&full, Edit::MoveProposal(first, 9));
    assert_eq!(names(&last), ["Again", "Theirs", "First"]);
    assert_eq!(edited(&last, Edit::MoveProposal(first, 0)), full, "there and back");
    assert_eq!(sharing::from_code(&code_of(&last)).unwrap().design, last, "the order is in the link");
    assert_eq!(full.edited(&Edit::MoveProposal(ProposalId(77), 0)), Err(EditError::NoProposal));
    assert_eq!(full.edited(&Edit::CopyProposal(ProposalId(77), "No".into())), Err(EditError::NoProposal));
}

fn code_of(design: &Design) -> String {
    sharing::to_code(&sharing::Shared { design: design.clone(), opening: sharing::Opening::default() })
}

proptest! {
    #![proptest_config(cases(200))]

    /// Equality is what the list is held against: it is empty between equal designs only, and what it
    /// says of numbers and changes is what each of the two holds.
    #[test]
    fn a_list_of_differences_is_empty_between_equal_designs_only(
        changes in one_in_each_slot(),
        keep in proptest::collection::vec(any::<bool>(), 40),
        field in 0..Field::ALL.len(),
        share in 0.0..1.0_f64,
        swapped in any::<bool>(),
    ) {
        let here = demo();
        let mut there = here.clone();
        let id = there.proposals[0].id;
        for (change, keep) in changes.iter().zip(keep) {
            if keep {
                there = there.edited(&Edit::Set(id, *change)).unwrap();
            }
        }
        let field = Field::ALL[field];
        let (low, high) = field.limits();
        let value: f64 = low + share * (high - low);
        let value = if field.kind() == Kind::Angle { value.to_radians() } else { value };
        if let Ok(measured) = there.edited(&Edit::Measure { field, value: Some(value) }) {
            there = measured;
        }
        if swapped && field.is_sided() {
            there = there.edited(&Edit::MeasureRight(vec![(field, Some(value))])).unwrap_or(there);
        }
        if swapped {
            there = there.edited(&Edit::CopyProposal(id, "Other".into())).unwrap();
            there = there.edited(&Edit::MoveProposal(id, 1)).unwrap();
        }
        let list = differences(&here, &there);
        prop_assert_eq!(list.is_empty(), here == there);
        prop_assert!(differences(&there, &there).is_empty());
        for one in &list {
            match one {
                Difference::Number(field, mine, theirs) => {
                    prop_assert_eq!(*mine, field.get(&here.truck));
                    prop_assert_eq!(*theirs, field.get(&there.truck));
                    prop_assert_ne!(mine, theirs);
                }
                Difference::Right(field, mine, theirs) => {
                    prop_assert_eq!((*mine, *theirs), (None, there.truck.right.get(*field)));
                    prop_assert!(theirs.is_some());
                }
                Difference::Change(_, (None, kind, place), mine, theirs) => {
                    let held = |design: &Design| design.proposal(id).unwrap().change(*kind, *place).copied();
                    prop_assert_eq!(*mine, held(&here));
                    prop_assert_eq!(*theirs, held(&there));
                }
                Difference::OnlyThere(name) => prop_assert_eq!(name, "Other"),
                other => prop_assert!(false, "nobody did {:?}", other),
            }
        }
    }
}

/// How far the rear comes down belongs to the proposal and goes where it goes.
#[test]
fn the_rear_of_a_proposal_comes_along_with_it() {
    let id = front_alone().proposals[0].id;
    let after =
        |edits: &[Edit]| edits.iter().fold(front_alone(), |design, edit| design.edited(edit).unwrap());
    let down = |design: &Design, at: usize| design.proposals[at].rear_down_mm;
    assert_eq!(down(&front_alone(), 0), None);
    // Kept in steps of 0.01 mm, as every length.
    let said = Edit::RearDown(id, Some(50.7961));
    let turns = vec![Change::BarAdjuster(BarAdjuster { turns: -2.0 })];
    let set = Edit::SetAll(id, [turns.clone(), turns]);
    let design = after(&[said.clone(), set, Edit::CopyProposal(id, "Again".into())]);
    assert_eq!((down(&design, 0), down(&design, 1)), (Some(50.8), Some(50.8)));
    let (first, again) = (&design.proposals[0], &design.proposals[1]);
    assert_eq!((first.changes(), again.name.as_str()), (again.changes(), "Again"));
    // Taken into another design, or laid over a proposal there, which keeps its name.
    let other = after(&[Edit::TakeProposal(first.clone()), Edit::Lay(id, again.clone())]);
    assert_eq!((down(&other, 0), down(&other, 1)), (Some(50.8), Some(50.8)));
    assert_eq!((other.proposals[0].id, &other.proposals[0].name), (id, &front_alone().proposals[0].name));
    assert_eq!(other.proposals[0].changes(), again.changes());
    assert_eq!(down(&after(&[said.clone(), Edit::RearDown(id, None)]), 0), None);
    // A rear that comes up, as on a longer shackle, is a rear that comes down by less than nothing.
    for mm in [-150.0, -40.0, 300.0] {
        assert_eq!(down(&after(&[Edit::RearDown(id, Some(mm))]), 0), Some(mm));
    }
    for mm in [-150.1, 300.1, f64::NAN, f64::INFINITY] {
        assert_eq!(front_alone().edited(&Edit::RearDown(id, Some(mm))), Err(EditError::RearDown));
    }
    assert_eq!(front_alone().edited(&Edit::RearDown(ProposalId(77), None)), Err(EditError::NoProposal));
    let told = differences(&front_alone(), &after(&[said]));
    assert_eq!(told, [Difference::RearDown(front_alone().proposals[0].name.clone(), None, Some(50.8))]);
}

/// The first change of what somebody sent stands beside it: theirs is as it came, whatever kind of edit it was.
#[test]
fn an_answer_stands_behind_what_it_answers() {
    let theirs = demo();
    let id = theirs.proposals[0].id;
    let turns = Change::BarAdjuster(BarAdjuster { turns: -2.0 });
    let of_plan = [
        Edit::Set(id, turns),
        Edit::SetGuessed(id, turns),
        Edit::SetEach(id, [Some(turns), None]),
        Edit::SetAll(id, [vec![turns], vec![turns]]),
        Edit::RearDown(id, Some(25.4)),
        Edit::ChangeSource(id, (ChangeKind::DroppedSpindle, None, 0), Source::Measured),
        Edit::Clear(id, theirs.proposals[0].changes()[0].kind(), theirs.proposals[0].changes()[0].slot().1),
        Edit::Lay(id, Proposal::new(ProposalId(9), "")),
    ];
    for edit in of_plan {
        let plain = theirs.edited(&edit).unwrap();
        let answered = theirs.answered(&edit, "My answer").unwrap();
        assert_eq!(answered.proposals.len(), theirs.proposals.len() + 1, "{edit:?}");
        let [plan, answer] = [&answered.proposals[0], &answered.proposals[1]];
        let [before, after] = [&theirs.proposals[0], &plain.proposals[0]];
        assert_eq!((plan.id, &plan.name), (theirs.free_id(), &before.name), "{edit:?}");
        assert_eq!((Overlay::from(plan), plan.every()), (Overlay::from(before), before.every()), "{edit:?}");
        assert_eq!((answer.id, answer.name.as_str()), (id, "My answer"), "{edit:?}");
        assert_eq!(
            (Overlay::from(answer), answer.every()),
            (Overlay::from(after), after.every()),
            "{edit:?}"
        );
        assert_eq!(answered.proposals[2..], theirs.proposals[1..], "{edit:?}");
    }
    // What changes no part of a plan answers none, and nothing done is no answer.
    for edit in [
        Edit::Title("Other".into()),
        Edit::RenameProposal(id, "Other".into()),
        Edit::Set(id, theirs.proposals[0].changes()[0]),
    ] {
        let answered = theirs.answered(&edit, "My answer");
        assert_eq!(answered, theirs.edited(&edit));
    }
    let nobody_s = Edit::RearDown(ProposalId(77), None);
    assert_eq!(theirs.answered(&nobody_s, "My answer"), Err(EditError::NoProposal));
}

/// What is said of a change's number holds for its value: typed anew it is typed, beside
/// another number of the change it stays, and it goes where its proposal goes.
#[test]
fn a_guess_stays_a_guess_until_its_number_is_another() {
    let id = demo().proposals[0].id;
    let place = Some(Place::LowerJointUp);
    let field = |at| (ChangeKind::JointTurned, place, at);
    let turned = |plate, flange| {
        let values = [Some(plate), Some(flange), None];
        Edit::Set(id, ChangeKind::JointTurned.with(place, &values).expect("within limits"))
    };
    let after = |edits: &[Edit]| edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
    let guess = |at| Edit::ChangeSource(id, field(at), Source::Assumed);
    let of = |design: &Design, at| design.proposals[0].sources.of(field(at));
    let both = [turned(6.0, 9.0), guess(0), guess(1)];
    let design = after(&both);
    assert_eq!(
        (of(&design, 0), of(&design, 1), of(&design, 2)),
        (Source::Assumed, Source::Assumed, Source::Typed)
    );
    let typed = design.edited(&turned(6.0, 8.0)).unwrap();
    assert_eq!((of(&typed, 0), of(&typed, 1)), (Source::Assumed, Source::Typed));
    let mut set = design.proposals[0].changes().to_vec();
    set.push(Change::BarAdjuster(BarAdjuster { turns: -2.0 }));
    let set_up = design.edited(&Edit::SetAll(id, [set.clone(), set])).unwrap();
    assert_eq!(set_up.proposals[0].sources, design.proposals[0].sources);
    let copied = design.edited(&Edit::CopyProposal(id, "Again".into())).unwrap();
    assert_eq!(copied.proposals[1].sources, design.proposals[0].sources);
    // Gone with its change, and said of nothing that is not there.
    let cleared = design.edited(&Edit::Clear(id, ChangeKind::JointTurned, place)).unwrap();
    assert_eq!(cleared, demo());
    assert_eq!(after(&[guess(0)]), demo());
    assert_eq!(after(&[turned(6.0, 9.0), guess(3)]), after(&[turned(6.0, 9.0)]));
    let told = differences(&after(&[turned(6.0, 9.0)]), &design);
    assert_eq!(told, [Difference::ChangeSources(demo().proposals[0].name.clone())]);
}

/// On a truck of one's own nothing that nobody has looked at ends the travel: a demo whose shock is
/// solid an inch from where it stands, or whose lower joint swings two degrees, is not one's own.
#[test]
fn an_own_truck_has_nobody_else_s_shock_and_joints() {
    let by = |design: &Design| {
        let stance = Stance::of_design(design, Which::AsMeasured).unwrap();
        let left = travel_left(&stance.on(Side::Left));
        [left.bump.by, left.droop.by]
    };
    for (field, value, limiter) in [
        (Field::ShockShort, 310.0, Limiter::Shock),
        (Field::LowerSwing, 2.1_f64.to_radians(), Limiter::Joint(truck::Arm::Lower)),
    ] {
        let theirs = demo().edited(&Edit::Measure { field, value: Some(value) }).unwrap();
        assert!(by(&theirs).contains(&limiter), "{:?}", by(&theirs));
        let own = theirs.edited(&Edit::OwnTruck).unwrap();
        assert!(!by(&own).contains(&limiter), "{:?}", by(&own));
        assert_eq!(field.get(&own.truck), None);
        // Measured, it counts again.
        let measured = [Field::ShockArmX, Field::ShockArmY, Field::ShockArmZ, Field::ShockBodyX]
            .into_iter()
            .chain([Field::ShockBodyY, Field::ShockBodyZ, Field::ShockLong, Field::LowerSwingRest, field])
            .filter_map(|field| Some((field, field.get(&theirs.truck)?)));
        let own = own.edited(&Edit::MeasureAll(measured.collect())).unwrap();
        assert!(by(&own).contains(&limiter), "{:?}", by(&own));
    }
}

/// What is one's own stays: a title that was typed, and a proposal that was worked on or named.
#[test]
fn an_own_truck_has_nobody_else_s_title_and_proposal() {
    let id = demo().proposals[0].id;
    let after = |edits: &[Edit]| {
        let design = edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
        design.edited(&Edit::OwnTruck).unwrap()
    };
    assert_eq!((after(&[]).title.as_str(), after(&[]).proposals.len()), ("", 0));
    let titled = after(&[Edit::Title("Grandpa's".into())]);
    assert_eq!((titled.title.as_str(), titled.proposals.len()), ("Grandpa's", 0));
    let deeper = DroppedSpindle { drop_mm: 76.2, ..DroppedSpindle::default() };
    let bolt = BarAdjuster { turns: -2.0 };
    for edit in [
        Edit::Set(id, Change::DroppedSpindle(deeper)),
        Edit::Set(id, Change::BarAdjuster(bolt)),
        Edit::RearDown(id, Some(25.4)),
        Edit::RenameProposal(id, "Two inches".into()),
    ] {
        let worked = demo().edited(&edit).unwrap().proposal(id).unwrap().clone();
        assert_eq!(after(&[edit]).proposals, [worked]);
    }
}

#[test]
fn what_is_not_a_number_is_told_as_well() {
    let here = demo();
    let id = here.proposals[0].id;
    let after = |edits: &[Edit]| edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
    let there = after(&[
        Edit::Title("Other".into()),
        Edit::Note("x".into()),
        Edit::SpringArm(truck::Arm::Upper),
        Edit::RenameProposal(id, "Named".into()),
        Edit::OwnTruck,
    ]);
    let list = differences(&here, &there);
    let is = |wanted: fn(&Difference) -> bool| list.iter().any(wanted);
    assert!(is(|one| matches!(one, Difference::Title(..))));
    assert!(is(|one| matches!(one, Difference::Note)));
    assert!(is(|one| matches!(one, Difference::Spring(..))));
    assert!(is(|one| matches!(one, Difference::Renamed(..))));
    assert!(is(|one| matches!(one, Difference::Sources(fields) if fields.len() == Field::ALL.len())));
    let gone = differences(&here, &after(&[Edit::RemoveProposal(id)]));
    assert_eq!(gone, [Difference::OnlyHere(here.proposals[0].name.clone())]);
    let two = after(&[Edit::CopyProposal(id, "Other".into())]);
    let turned = two.edited(&Edit::MoveProposal(id, 1)).unwrap();
    assert_eq!(differences(&two, &turned), [Difference::Order]);
}

/// A truck of which all but one number is measured: a guess is one until a number is typed over it, and
/// what was measured stays so.
#[test]
fn a_guess_that_is_typed_over_is_one_no_longer() {
    let mut design = demo();
    design.truck.sources.set(Field::FenderZ, Source::Assumed);
    let guessed_after = |field, value| {
        let truck = design.edited(&Edit::Measure { field, value: Some(value) }).unwrap().truck;
        truck.sources.guessed(&truck).iter().collect::<Vec<_>>()
    };
    assert_eq!(guessed_after(Field::FenderY, 760.0), [Field::FenderZ]);
    assert_eq!(guessed_after(Field::FenderZ, 680.0), []);
}
