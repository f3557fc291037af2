//! Past and future of a design, and the store that keeps them.

use crate::support::PROPOSAL;
use leptos::prelude::Owner;
use page::{History, Look, Selected, Store};
use truck::{
    Change, ChangeKind, Design, DroppedSpindle, Edit, EditError, Field, ReadWith, Readable, Reading,
    ReadingFault, Side,
};
use wasm_bindgen_test::wasm_bindgen_test;

/// The truck as measured, at rest.
const MEASURED: Look =
    Look { selected: Selected::AsMeasured, side: Side::Left, travel_mm: 0.0, steer_rad: 0.0 };

fn titled(title: &str) -> Design {
    Design { title: title.to_owned(), ..truck::demo() }
}

fn title(design: Option<Design>) -> String {
    design.unwrap().title
}

/// A store, as long as its owner is held.
fn store(design: Design) -> (Owner, Store) {
    let owner = Owner::new();
    owner.set();
    let store = Store::new(design);
    (owner, store)
}

fn dropped(drop_mm: f64) -> Edit {
    Edit::Set(PROPOSAL, Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() }))
}

#[wasm_bindgen_test(unsupported = test)]
fn nothing_is_before_the_first_design_or_after_the_last() {
    let mut history = History::default();
    assert_eq!(history.back(titled("a")), None);
    assert_eq!(history.forth(titled("a")), None);
    assert_eq!(history, History::default(), "and asking changes nothing");
}

#[wasm_bindgen_test(unsupported = test)]
fn back_and_forth_go_through_the_same_designs() {
    let mut history = History::default();
    for name in ["a", "b", "c"] {
        history.note(titled(name));
    }
    let mut now = titled("d");
    for want in ["c", "b", "a"] {
        now = history.back(now).unwrap();
        assert_eq!(now.title, want);
    }
    assert_eq!(history.back(now.clone()), None);
    for want in ["b", "c", "d"] {
        now = history.forth(now).unwrap();
        assert_eq!(now.title, want);
    }
    assert_eq!(history.forth(now), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn a_new_edit_ends_what_could_be_made_again() {
    let mut history = History::default();
    history.note(titled("a"));
    assert_eq!(title(history.back(titled("b"))), "a");
    history.note(titled("a"));
    assert_eq!(history.forth(titled("c")), None);
    assert_eq!(title(history.back(titled("c"))), "a");
}

#[wasm_bindgen_test(unsupported = test)]
fn the_past_is_bounded_and_its_newest_end_is_kept() {
    let mut history = History::default();
    for at in 0..1000 {
        history.note(titled(&at.to_string()));
    }
    let mut now = titled("1000");
    let mut steps = 0;
    while let Some(before) = history.back(now.clone()) {
        steps += 1;
        assert_eq!(before.title, (1000 - steps).to_string());
        now = before;
    }
    assert!((100..1000).contains(&steps), "{steps} steps are kept");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_draft_is_no_step() {
    let (_owner, store) = store(truck::demo());
    for drop_mm in [10.0, 20.0, 30.0] {
        store.preview(&dropped(drop_mm)).unwrap();
    }
    assert_eq!(store.committed_now(), truck::demo());
    store.cancel();
    assert!(!store.can_undo());
    assert_eq!(store.committed_now(), truck::demo());
}

#[wasm_bindgen_test(unsupported = test)]
fn a_drag_is_one_step_however_many_frames_it_had() {
    let (_owner, store) = store(truck::demo());
    for drop_mm in [10.0, 20.0, 30.0] {
        store.preview(&dropped(drop_mm)).unwrap();
    }
    store.edit(&dropped(30.0)).unwrap();
    let after = store.committed_now();
    assert_eq!(after, truck::demo().edited(&dropped(30.0)).unwrap());
    store.undo(MEASURED);
    assert_eq!(store.committed_now(), truck::demo());
    assert!(!store.can_undo() && store.can_redo());
    store.redo(MEASURED);
    assert_eq!(store.committed_now(), after);
}

#[wasm_bindgen_test(unsupported = test)]
fn an_edit_that_changes_nothing_is_no_step() {
    let (_owner, store) = store(truck::demo());
    store.edit(&Edit::Title(truck::demo().title)).unwrap();
    let same = Field::FenderZ.get(&truck::demo().truck);
    store.edit(&Edit::Measure { field: Field::FenderZ, value: same }).unwrap();
    assert!(!store.can_undo());
}

#[wasm_bindgen_test(unsupported = test)]
fn a_refused_edit_keeps_the_design_and_says_why() {
    let (_owner, store) = store(truck::demo());
    store.edit(&dropped(25.4)).unwrap();
    let kept = store.committed_now();
    for absurd in [f64::NAN, f64::INFINITY, 1e9] {
        assert_eq!(store.edit(&dropped(absurd)), Err(EditError::Change(ChangeKind::DroppedSpindle)));
        assert_eq!(store.committed_now(), kept);
    }
    store.undo(MEASURED);
    assert_eq!(store.committed_now(), truck::demo(), "one step back, not four");
}

/// What was read is a step as any other: back, forth, taken out, and refused with its reason.
#[wasm_bindgen_test(unsupported = test)]
fn a_reading_is_undone_and_taken_out() {
    let (_owner, store) = store(truck::demo());
    let of = Readable::RimLowerJoint;
    let reading = Reading::by(of, 57.15, ReadWith::Clay);
    let read = || store.committed_now().truck.readings.get(of, Side::Right).copied();
    store.edit(&Edit::Read(of, Side::Right, Some(reading))).unwrap();
    assert_eq!(read(), Some(reading));
    store.undo(MEASURED);
    assert_eq!(store.committed_now(), truck::demo());
    store.redo(MEASURED);
    let under = Reading { value: -0.5, ..reading };
    let refused = EditError::Reading(of, ReadingFault::Value);
    assert_eq!(store.edit(&Edit::Read(of, Side::Right, Some(under))), Err(refused));
    assert_eq!(read(), Some(reading));
    store.edit(&Edit::Read(of, Side::Right, None)).unwrap();
    assert_eq!(store.committed_now(), truck::demo());
    store.undo(MEASURED);
    assert_eq!(read(), Some(reading));
}

#[wasm_bindgen_test(unsupported = test)]
fn a_design_opened_from_outside_is_one_step() {
    let (_owner, store) = store(titled("mine"));
    store.edit(&Edit::Replace(Box::new(titled("theirs")))).unwrap();
    assert_eq!(store.committed_now().title, "theirs");
    store.undo(MEASURED);
    assert_eq!(store.committed_now().title, "mine");
}

/// Whoever looks back at their own design finds it as they looked at it when the other was opened,
/// and forth again the other as they left it.
#[wasm_bindgen_test(unsupported = test)]
fn opening_a_design_is_undone_with_the_look_at_it() {
    let (_owner, store) = store(titled("mine"));
    let mine =
        Look { selected: Selected::Proposal(PROPOSAL), side: Side::Right, travel_mm: -31.0, steer_rad: 0.25 };
    let theirs = Look { travel_mm: 12.0, ..MEASURED };
    store.replace(titled("theirs"), 1, mine);
    // An edit in between has no look of its own: whoever takes it back goes on looking as they did.
    store.edit(&Edit::Note("theirs, annotated".to_owned())).unwrap();
    assert_eq!(store.undo(MEASURED), None);
    assert_eq!(store.undo(theirs), Some(mine));
    assert_eq!((store.committed_now().title.as_str(), store.number_now()), ("mine", 0));
    assert_eq!(store.undo(mine), None, "nothing is before it");
    assert_eq!(store.redo(mine), Some(theirs));
    assert_eq!((store.committed_now().title.as_str(), store.number_now()), ("theirs", 1));
    assert_eq!(store.redo(MEASURED), None, "the edit again");
    assert_eq!(store.committed_now().note, "theirs, annotated");
    assert_eq!(store.undo(MEASURED), None);
    assert_eq!(store.undo(MEASURED), Some(mine), "as often as it is gone through");
}
