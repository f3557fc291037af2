//! What is written down of the work as a tree, both ways, and its schema.

use super::layout::{to_core, to_file};
use super::path::Branch;
use super::pieces::{joined, list, number, object, text};
use super::tree::{Object, Tree};
use crate::shared;
use truck::{Asked, Design, Fastener, Kind, Readable, Task, Torque, WorkEdit, WorkLog};

const DONE: &str = "done";
const TORQUES: &str = "torques";
const TORQUE: &str = "torque";
const MANUAL: &str = "manual";
const SETTINGS: &str = "settings";
/// In the order of [`Asked::ALL`].
const ASKED: [&str; 2] = ["target", "tolerance"];

pub(super) fn write(work: &WorkLog) -> Tree {
    let (mut whole, mut torques) = (Object::default(), Object::default());
    let done = Task::ALL.iter().filter(|task| work.is_done(**task));
    whole.add(DONE, Tree::List(done.map(|task| Tree::text(task.key())).collect()));
    for of in Fastener::ALL {
        let torque = work.torque(*of);
        if torque.is_empty() {
            continue;
        }
        let mut one = Object::default();
        if let Some(newton_metres) = torque.newton_metres() {
            one.add(TORQUE, Tree::Number(newton_metres));
        }
        one.add_text(MANUAL, torque.manual);
        torques.add(of.key(), one.into());
    }
    whole.add_unless_empty(TORQUES, torques);
    let mut settings = Object::default();
    for of in truck::SETTINGS {
        let mut one = Object::default();
        for (key, asked) in ASKED.into_iter().zip(Asked::ALL) {
            if let Some(rad) = work.asked(of, asked) {
                one.add(key, Tree::Number(to_file(Kind::Angle, rad)));
            }
        }
        settings.add_unless_empty(of.key(), one);
    }
    whole.add_unless_empty(SETTINGS, settings);
    whole.into()
}

pub(super) fn read(branch: &Branch<'_>) -> WorkLog {
    let mut work = WorkLog::EMPTY;
    let mut write = |edit: WorkEdit| {
        let edited = work.clone().edited(&edit);
        edited.map(|edited| work = edited).ok()
    };
    branch.each(&mut |key, branch| match key {
        DONE => branch.each_item(&mut |item| {
            if let Some(task) = item.keyed(Task::ALL, Task::key) {
                _ = write(WorkEdit::Done(task, true));
            }
        }),
        TORQUES => branch.each(&mut |key, branch| {
            let found = Fastener::ALL.iter().find(|of| of.key() == key);
            let Some(of) = branch.known(found) else { return };
            branch.each(&mut |key, branch| match key {
                TORQUE => {
                    let written = write(WorkEdit::Torque(*of, Some(branch.number())));
                    branch.within(written, of.label(), Torque::LIMITS);
                }
                MANUAL => {
                    let manual = shared::name(branch.short_text(Design::LONGEST_NAME));
                    _ = write(WorkEdit::Manual(*of, manual));
                }
                _ => branch.newer(),
            });
        }),
        SETTINGS => branch.each(&mut |key, branch| {
            let found = truck::SETTINGS.iter().find(|of| of.key() == key);
            let Some(of) = branch.known(found) else { return };
            branch.each(&mut |key, branch| {
                let found = ASKED.into_iter().zip(Asked::ALL).find(|(word, _)| *word == key);
                let Some((_, asked)) = branch.known(found) else { return };
                let written = write(WorkEdit::Asked(*of, asked, Some(to_core(Kind::Angle, branch.number()))));
                branch.within(written, of.label(), asked.limits(*of));
            });
        }),
        _ => branch.newer(),
    });
    work
}

/// The schema of what is written down of the work.
pub(super) fn schema() -> Tree {
    let keys =
        Tree::object([("enum", Tree::List(Task::ALL.iter().map(|task| Tree::text(task.key())).collect()))]);
    let done = list("The tasks that are done.", keys, None);
    let torques = Fastener::ALL.iter().map(|of| (of.key(), torque(*of))).collect();
    let settings = truck::SETTINGS.iter().map(|of| (of.key(), setting(*of))).collect();
    let members = vec![(DONE, done), (TORQUES, object(torques, &[])), (SETTINGS, object(settings, &[]))];
    let whole = object(members, &[]);
    let said = "How far the work is, and the torques that were typed for it, and what a manual asks of settings. \
                No link carries it.";
    joined(whole, Tree::object([("description", Tree::text(said))]))
}

fn torque(of: Fastener) -> Tree {
    let said = Tree::object([("description", Tree::Text([of.label(), "; N·m"].concat()))]);
    let manual = text("The manual that it is from; none is named where left out.", Design::LONGEST_NAME);
    object(vec![(TORQUE, joined(number(Torque::LIMITS), said)), (MANUAL, manual)], &[])
}

fn setting(of: Readable) -> Tree {
    let said = [", as its manual wants it; degrees", ", give or take; degrees"];
    let mut members = Vec::new();
    for ((key, asked), said) in ASKED.into_iter().zip(Asked::ALL).zip(said) {
        let said = Tree::object([("description", Tree::Text([of.label(), said].concat()))]);
        members.push((key, joined(number(asked.limits(of)), said)));
    }
    object(members, &[])
}
