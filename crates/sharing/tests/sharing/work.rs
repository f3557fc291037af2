//! What is written down of the work: kept in a file and in a browser, and by no link.

use crate::files::parse;
use crate::generate::{any_design, edited, shared, work};
use proptest::collection::vec;
use proptest::prelude::*;
use sharing::{
    FileError, Shared, from_code, from_kept_text, from_tree, print_json, read_work, to_code, to_kept_text,
    to_tree, write_work,
};
use truck::{Asked, Edit, Fastener, Readable, Task, WorkEdit, WorkLog, demo};
use yardstick::cases;

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn a_file_and_a_browser_keep_it_and_a_link_does_not(design in any_design(), edits in vec(work(), 0..30)) {
        let bare = shared(design);
        let worked = written(&bare, &edits);
        prop_assert_eq!(from_tree(&to_tree(&worked)), Ok(worked.clone()));
        prop_assert_eq!(from_kept_text(&to_kept_text(&worked)), Ok(worked.clone()));
        prop_assert_eq!(to_code(&worked), to_code(&bare));
        prop_assert_eq!(from_code(&to_code(&worked)), Ok(bare));
    }

    /// Whatever stands behind a code: the design is there, and what was read is kept as the same.
    #[test]
    fn a_damaged_text_loses_no_design(behind in "\\PC{0,40}(\n[0-^]{0,3}[0-9]{0,6} ?\\PC{0,90}){0,6}") {
        let code = to_code(&shared(demo()));
        let found = from_kept_text(&[code.as_str(), "\n", behind.as_str()].concat()).unwrap();
        prop_assert_eq!(edited(&found.design, [Edit::Work(String::new())]), demo());
        let work = read_work(&found.design.work);
        prop_assert_eq!(read_work(&write_work(&work)), work);
        prop_assert_eq!(from_kept_text(&to_kept_text(&found)), Ok(found));
    }
}

/// A design with such things written down.
fn written(shared: &Shared, edits: &[WorkEdit]) -> Shared {
    let work = edits.iter().fold(WorkLog::EMPTY, |work, edit| work.edited(edit).unwrap());
    assert_eq!(read_work(&write_work(&work)), work);
    let design = edited(&shared.design, [Edit::Work(write_work(&work))]);
    Shared { design, ..shared.clone() }
}

fn worked() -> Shared {
    let edits = [
        WorkEdit::Done(Task::Heights, true),
        WorkEdit::Done(Task::JointsPinned, true),
        WorkEdit::Torque(Fastener::UpperJoint, Some(68.0)),
        WorkEdit::Manual(Fastener::UpperJoint, "1994 shop manual".to_owned()),
        WorkEdit::Torque(Fastener::Wheel, Some(115.2)),
        WorkEdit::Asked(Readable::Camber, Asked::Target, Some(-0.5_f64.to_radians())),
        WorkEdit::Asked(Readable::Camber, Asked::Tolerance, Some(0.25_f64.to_radians())),
        WorkEdit::Asked(Readable::Toe, Asked::Target, Some(0.1_f64.to_radians())),
    ];
    written(&shared(demo()), &edits)
}

/// As it is written for whoever reads the file; a design without it has no such key.
#[test]
fn stands_in_the_file_under_its_names() {
    let text = print_json(&to_tree(&worked()));
    let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains(
            "\"work\": { \"done\": [\"heights\", \"joints_pinned\"], \"torques\": { \"upper_joint\": { \"torque\": 68, \
             \"manual\": \"1994 shop manual\" }, \"wheel\": { \"torque\": 115.2, \"manual\": \"\" } }, \"settings\": { \
             \"camber\": { \"target\": -0.5, \"tolerance\": 0.25 }, \"toe\": { \"target\": 0.1 } } }"
        ),
        "{text}"
    );
    assert!(!print_json(&to_tree(&shared(demo()))).contains("\"work\""));
}

/// Nothing behind the code where nothing is written down: what was kept before is kept as it was.
#[test]
fn stands_in_the_browser_behind_its_code() {
    let code = to_code(&shared(demo()));
    assert_eq!(to_kept_text(&shared(demo())), code);
    assert_eq!(
        to_kept_text(&worked()),
        [&code, "\n0L\n0680 1994 shop manual\n@1152 \n~10-50\n~1125\n~2010"].concat()
    );
}

#[test]
fn what_a_file_says_wrongly_of_it_is_refused_by_name() {
    let read = |work: &str| from_tree(&parse(&["{\"scrubline\": 1, \"work\": ", work, "}"].concat()));
    let newer = |path: &str| Err(FileError::Newer(path.to_owned()));
    assert_eq!(read("{\"begun\": []}"), newer("work.begun"));
    assert_eq!(read("{\"torques\": {\"flywheel\": {}}}"), newer("work.torques.flywheel"));
    assert_eq!(read("{\"torques\": {\"wheel\": {\"angle\": 90}}}"), newer("work.torques.wheel.angle"));
    assert!(matches!(read("{\"done\": [\"painted\"]}"), Err(FileError::Newer(_))));
    for value in ["0", "0.5", "1001", "-68"] {
        let found = read(&["{\"torques\": {\"wheel\": {\"torque\": ", value, "}}}"].concat());
        assert!(matches!(found, Err(FileError::OutOfLimits { .. })), "{value}: {found:?}");
    }
    assert!(matches!(
        read("{\"torques\": {\"wheel\": {\"torque\": \"tight\"}}}"),
        Err(FileError::Shape { .. })
    ));
    let long = ["{\"torques\": {\"wheel\": {\"manual\": \"", &"m".repeat(81), "\"}}}"].concat();
    assert!(matches!(read(&long), Err(FileError::TooLong(_))));
    for (asked, degrees) in [("target", "16"), ("tolerance", "0"), ("tolerance", "6")] {
        let found = read(&["{\"settings\": {\"camber\": {\"", asked, "\": ", degrees, "}}}"].concat());
        assert!(matches!(found, Err(FileError::OutOfLimits { .. })), "{asked}: {found:?}");
    }
    assert_eq!(read("{\"settings\": {\"ride_height\": {}}}"), newer("work.settings.ride_height"));
    assert_eq!(read("{\"settings\": {\"toe\": {\"most\": 1}}}"), newer("work.settings.toe.most"));
    let empty = read("{\"done\": [], \"torques\": {\"wheel\": {}}}").unwrap();
    assert_eq!(empty.design.work, "");
}
