//! What is written down of the work, by hand.

use crate::near;
use std::collections::BTreeSet;
use truck::{Asked, Design, Edit, EditError, Fastener, Readable, SETTINGS, Task, WorkEdit, WorkLog, demo};

fn written(work: &WorkLog, edit: WorkEdit) -> WorkLog {
    work.clone().edited(&edit).unwrap()
}

fn torque(newton_metres: f64) -> Result<WorkLog, EditError> {
    WorkLog::EMPTY.edited(&WorkEdit::Torque(Fastener::Wheel, Some(newton_metres)))
}

#[test]
fn nothing_is_filled_in() {
    assert!(demo().work.is_empty());
    let work = WorkLog::EMPTY;
    for of in Fastener::ALL {
        assert_eq!((work.torque(*of).newton_metres(), work.torque(*of).manual), (None, ""));
    }
    assert!(!Task::ALL.iter().any(|task| work.is_done(*task)));
}

/// Each of them is one thing written down, and taken back it leaves nothing.
#[test]
fn every_task_and_every_fastener_has_its_own_place() {
    for task in Task::ALL.iter().copied() {
        let done = written(&WorkLog::EMPTY, WorkEdit::Done(task, true));
        let all: Vec<_> = Task::ALL.iter().copied().filter(|of| done.is_done(*of)).collect();
        assert_eq!(all, [task]);
        assert_eq!(written(&done, WorkEdit::Done(task, true)), done);
        assert_eq!(written(&done, WorkEdit::Done(task, false)), WorkLog::EMPTY);
    }
    for of in Fastener::ALL.iter().copied() {
        let typed = written(&WorkLog::EMPTY, WorkEdit::Torque(of, Some(68.0)));
        let named = written(&typed, WorkEdit::Manual(of, " 1994 shop manual ".to_owned()));
        for other in Fastener::ALL.iter().copied() {
            let torque = named.torque(other);
            let wanted = if other == of { (Some(68.0), "1994 shop manual") } else { (None, "") };
            assert_eq!((torque.newton_metres(), torque.manual), wanted, "{of:?} {other:?}");
        }
        let unnamed = written(&named, WorkEdit::Manual(of, "  ".to_owned()));
        assert_eq!(unnamed, typed);
        let manual_alone = written(&named, WorkEdit::Torque(of, None));
        assert_eq!(manual_alone.torque(of).manual, "1994 shop manual");
        assert_eq!(written(&manual_alone, WorkEdit::Manual(of, String::new())), WorkLog::EMPTY);
    }
}

/// A tenth of a newton metre is less than a tenth of a foot-pound (1.355818 N·m, NIST SP 811), so that a
/// tenth of a foot-pound that was typed is the same tenth again.
#[test]
fn a_torque_is_kept_to_a_tenth_of_a_newton_metre() {
    for tenths in 8..7000 {
        let typed = f64::from(tenths) / 10.0 * 1.355_818;
        let kept = torque(typed).unwrap().torque(Fastener::Wheel).newton_metres().unwrap();
        assert!((kept - typed).abs() <= 0.05 + 1e-9, "{typed} kept as {kept}");
        near((kept * 10.0).round() / 10.0, kept, "whole steps");
        near((kept / 1.355_818 * 10.0).round(), f64::from(tenths), "a tenth of a foot-pound");
    }
}

#[test]
fn what_cannot_be_a_torque_or_a_name_is_refused() {
    for value in [0.0, 0.9, -68.0, 1000.1, 1e9, f64::NAN, f64::INFINITY] {
        assert_eq!(torque(value), Err(EditError::Torque), "{value}");
    }
    assert!(torque(1.0).is_ok() && torque(1000.0).is_ok());
    let name = |length: usize| WorkLog::EMPTY.edited(&WorkEdit::Manual(Fastener::Hub, "m".repeat(length)));
    assert!(name(Design::LONGEST_NAME).is_ok());
    assert_eq!(name(Design::LONGEST_NAME + 1), Err(EditError::TooLong));
}

/// A manual's half a degree, give or take a quarter: each number has its own place, and nothing is filled in beside it.
#[test]
fn what_a_manual_says_of_a_setting_has_its_own_place() {
    let all = || SETTINGS.into_iter().flat_map(|of| Asked::ALL.map(|asked| (of, asked)));
    for (of, asked) in all() {
        assert_eq!(WorkLog::EMPTY.asked(of, asked), None);
        let typed = written(&WorkLog::EMPTY, WorkEdit::Asked(of, asked, Some(0.25_f64.to_radians())));
        for (other, each) in all() {
            let found = typed.asked(other, each);
            if (other, each) == (of, asked) {
                near(found.unwrap().to_degrees(), 0.25, "degrees");
            } else {
                assert_eq!(found, None, "{of:?} {asked:?}: {other:?} {each:?}");
            }
        }
        assert_eq!(written(&typed, WorkEdit::Asked(of, asked, None)), WorkLog::EMPTY);
    }
}

/// Nothing is held to less than a hundredth of a degree, and what is no setting is asked for nothing.
#[test]
fn what_no_manual_asks_is_refused() {
    let typed = |of, asked, degrees: f64| {
        WorkLog::EMPTY.edited(&WorkEdit::Asked(of, asked, Some(degrees.to_radians())))
    };
    for (asked, degrees, is_taken) in [
        (Asked::Target, -15.0, true),
        (Asked::Target, -15.1, false),
        (Asked::Target, f64::NAN, false),
        (Asked::Tolerance, 0.01, true),
        (Asked::Tolerance, 0.0, false),
        (Asked::Tolerance, -0.5, false),
        (Asked::Tolerance, 5.1, false),
    ] {
        assert_eq!(typed(Readable::Camber, asked, degrees).is_ok(), is_taken, "{asked:?} {degrees}");
    }
    for of in Readable::ALL.iter().filter(|of| !SETTINGS.contains(of)) {
        assert!(typed(*of, Asked::Target, 1.0).is_err(), "{of:?}");
        assert_eq!(WorkLog::EMPTY.asked(*of, Asked::Target), None);
    }
}

/// Another truck's torques are not this one's.
#[test]
fn ones_own_truck_begins_with_nothing_done() {
    let done = demo().edited(&Edit::Work("01".to_owned())).unwrap();
    assert_eq!(done.work, "01");
    assert_eq!(done.edited(&Edit::OwnTruck).unwrap().work, "");
    let long = demo().edited(&Edit::Work("0".repeat(Design::LONGEST_NOTE + 1)));
    assert_eq!(long, Err(EditError::TooLong));
}

/// What a browser and a file keep by: no id and no key twice, and the ids within the bits that there are.
#[test]
fn ids_and_keys_are_their_own() {
    let tasks: BTreeSet<_> = Task::ALL.iter().map(|task| *task as u8).collect();
    assert_eq!(tasks.len(), Task::ALL.len());
    assert!(tasks.iter().all(|id| *id < 64));
    assert_eq!(Task::ALL.iter().map(|task| task.key()).collect::<BTreeSet<_>>().len(), Task::ALL.len());
    let ids: Vec<_> = Fastener::ALL.iter().map(|of| *of as usize).collect();
    assert_eq!(ids, (0..Fastener::ALL.len()).collect::<Vec<_>>(), "a place in a row for each");
    let keys: BTreeSet<_> = Fastener::ALL.iter().map(|of| of.key()).collect();
    assert_eq!(keys.len(), Fastener::ALL.len());
}
