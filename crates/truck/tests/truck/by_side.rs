//! A plan that sets left and right differently.

use truck::{
    BarAdjuster, Change, ChangeKind, Design, Difference, Edit, EditError, Fitted, JointTurned, Note, Overlay,
    Place, ProposalId, RearBlock, ShimChange, Side, Source, demo, differences, fit, notes_of,
};

const ID: ProposalId = ProposalId(0);

fn turns(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

fn edited(design: &Design, edits: &[Edit]) -> Design {
    edits.iter().fold(design.clone(), |design, edit| design.edited(edit).unwrap())
}

/// The demo with its plan's spindle and something by side.
fn each(each: [Option<Change>; 2]) -> Design {
    edited(&demo(), &[Edit::SetEach(ID, each)])
}

/// By hand: three turns in at the left and two out at the right leave each side as those turns alone
/// would, and the spindle is on both.
#[test]
fn each_side_is_fitted_with_what_is_on_it() {
    let design = each([Some(turns(3.0)), Some(turns(-2.0))]);
    for (side, own) in [(Side::Left, 3.0), (Side::Right, -2.0)] {
        let fitted = design.fitted_on(ID, side).unwrap();
        assert!((fitted.bolt_turns - own).abs() < 1e-12, "{side:?}: {}", fitted.bolt_turns);
        let mut changes = demo().proposals[0].changes().to_vec();
        changes.push(turns(own));
        assert_eq!(fitted, fit(design.truck.on(side), &changes).unwrap());
    }
    let [left, right] = Fitted::both(&design.truck, design.overlay(ID)).unwrap();
    assert!((left.bolt_turns - 3.0).abs() < 1e-12 && (right.bolt_turns + 2.0).abs() < 1e-12);
}

/// A bent arm is replaced on one side: the other is as measured.
#[test]
fn a_change_of_one_side_leaves_the_other() {
    let plain = demo().proposals[0].changes().to_vec();
    for side in Side::ALL {
        let mut one = [None; 2];
        one[side as usize] = Some(turns(3.0));
        let design = each(one);
        let there = design.fitted_on(ID, side.other()).unwrap();
        assert_eq!(there, fit(design.truck.on(side.other()), &plain).unwrap());
        assert_ne!(design.fitted_on(ID, side).unwrap(), fit(design.truck.on(side), &plain).unwrap());
    }
}

#[test]
fn what_is_the_same_on_each_is_on_both() {
    assert_eq!(each([Some(turns(3.0)); 2]), edited(&demo(), &[Edit::Set(ID, turns(3.0))]));
    let apart = each([Some(turns(3.0)), Some(turns(-2.0))]);
    assert!(apart.proposals[0].differs(ChangeKind::BarAdjuster, None));
    // On both in its place; emptied it is gone from each.
    assert_eq!(edited(&apart, &[Edit::Set(ID, turns(1.0))]), edited(&demo(), &[Edit::Set(ID, turns(1.0))]));
    assert_eq!(edited(&apart, &[Edit::Clear(ID, ChangeKind::BarAdjuster, None)]), demo());
    // All of each side at once: what both lists have alike is on both, and the order is no matter.
    let spindle = demo().proposals[0].changes()[0];
    let lists = [vec![turns(3.0), spindle], vec![spindle, turns(-2.0)]];
    assert_eq!(edited(&demo(), &[Edit::SetAll(ID, lists)]), apart);
}

#[test]
fn what_cannot_be_by_side_is_refused() {
    let block = Change::RearBlock(RearBlock { height_mm: 50.0, wedge_rad: 0.0 });
    let refused = demo().edited(&Edit::SetEach(ID, [Some(block), None]));
    assert_eq!(refused, Err(EditError::ChangeForBoth(ChangeKind::RearBlock)));
    assert!(demo().edited(&Edit::SetEach(ID, [Some(block), Some(block)])).is_ok());
    let shims = Change::Shims(ShimChange::default());
    let refused = demo().edited(&Edit::SetEach(ID, [Some(turns(1.0)), Some(shims)]));
    assert_eq!(refused, Err(EditError::Change(ChangeKind::BarAdjuster)), "two kinds in one slot");
    let refused = demo().edited(&Edit::SetEach(ID, [Some(turns(1.0)), Some(turns(f64::NAN))]));
    assert_eq!(refused, Err(EditError::Change(ChangeKind::BarAdjuster)));
    assert_eq!(demo().edited(&Edit::SetEach(ID, [None; 2])).unwrap(), demo());
}

/// A guess is one on whichever side its number goes to, until no side has that number.
#[test]
fn a_guess_goes_with_its_number_from_side_to_side() {
    let turned = |plate_mm| {
        let joint = JointTurned { place: Place::LowerJointDown, plate_mm, flange_mm: 9.0, shift_mm: None };
        Some(Change::JointTurned(joint))
    };
    let field = (ChangeKind::JointTurned, Some(Place::LowerJointDown), 0);
    let guess = Edit::ChangeSource(ID, field, Source::Assumed);
    let both = edited(&demo(), &[Edit::SetEach(ID, [turned(6.0); 2]), guess]);
    let of = |design: &Design| design.proposals[0].sources.of(field);
    let left = edited(&both, &[Edit::SetEach(ID, [turned(6.0), None])]);
    assert_eq!((of(&both), of(&left)), (Source::Assumed, Source::Assumed));
    for side in Side::ALL {
        // In the same place of the list at both sides, so that it can be moved.
        assert_eq!(left.fitted_on(ID, side).unwrap().guessed, [field]);
    }
    let other = edited(&left, &[Edit::SetEach(ID, [turned(8.0), turned(6.0)])]);
    assert_eq!(of(&other), Source::Assumed);
    assert_eq!(of(&edited(&other, &[Edit::SetEach(ID, [turned(10.0); 2])])), Source::Typed);
}

#[test]
fn differences_name_the_side() {
    let design = each([None, Some(turns(3.0))]);
    let slot = (Some(Side::Right), ChangeKind::BarAdjuster, None);
    let name = demo().proposals[0].name.clone();
    let told = differences(&demo(), &design);
    assert_eq!(told, [Difference::Change(name.clone(), slot, None, Some(turns(3.0)))]);
    let told = differences(&design, &demo());
    assert_eq!(told, [Difference::Change(name, slot, Some(turns(3.0)), None)]);
}

/// What can hurt someone comes first, whichever side it is on.
#[test]
fn what_is_said_before_the_work_is_said_of_both_sides() {
    let shims = Change::Shims(ShimChange { front_mm: 30.0, rear_mm: 30.0 });
    let joint =
        JointTurned { place: Place::LowerJointUp, plate_mm: 6.0, flange_mm: 9.0, shift_mm: Some(15.0) };
    let joint = Change::JointTurned(joint);
    let own = [(Side::Left, shims), (Side::Right, joint), (Side::Right, turns(-2.0))];
    let notes = notes_of(&demo().truck, Overlay { own: &own, ..Overlay::NOTHING });
    assert_eq!(notes, [Note::BoltsCarry, Note::LetDown, Note::ThickPack]);
    // The same on each is said once.
    let both = notes_of(&demo().truck, Overlay::from(&[turns(-2.0)]));
    assert_eq!(both, [Note::LetDown]);
}
