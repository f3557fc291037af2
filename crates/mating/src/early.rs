//! What is ticked off before what must come before it: nothing is refused, and it is said.

use crate::work::sorted_tasks;
use truck::{Task, WorkLog};

/// A task that is done before some that must come first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Early {
    /// What is done.
    pub task: Task,
    /// What is not, of what comes next before it, in the order of the work: also past what is not there, and
    /// however far off a spring that would let go.
    pub before: Vec<Task>,
    /// Whether something is loaded, or lets go, on what is not there to hold it.
    pub is_danger: bool,
}

/// What of such an order is done too early, in that order.
///
/// # Panics
/// Never: the edges of the list itself are in no circle, which a test holds.
#[must_use]
pub fn done_early(order: &[Task], log: &WorkLog) -> Vec<Early> {
    // Whatever comes before a task, near or far: a bit for each, by its id.
    let mut before = [0_u64; 64];
    for task in sorted_tasks(&[]).expect("the list has no circle") {
        for first in task.after() {
            before[task as usize] |= before[*first as usize] | bit(*first);
        }
    }
    let mut all = Vec::new();
    for task in order {
        if !log.is_done(*task) {
            continue;
        }
        // What another that is there stands between is that one's to name.
        let mut far = 0;
        for first in order {
            if before[*task as usize] & bit(*first) != 0 {
                far |= before[*first as usize];
            }
        }
        let near = before[*task as usize] & !far;
        let (mut open, mut is_danger) = (Vec::new(), is_loaded(*task));
        for first in order {
            let lets_go = before[*task as usize] & bit(*first) != 0 && lets_go(*task, *first);
            let is_next = near & bit(*first) != 0 || task.after().contains(first);
            if (is_next || lets_go) && !log.is_done(*first) {
                open.push(*first);
                is_danger |= lets_go;
            }
        }
        if !open.is_empty() {
            all.push(Early { task: *task, before: open, is_danger });
        }
    }
    all
}

const fn bit(task: Task) -> u64 {
    1 << task as u8
}

/// Whether a task puts load on what came before it.
const fn is_loaded(task: Task) -> bool {
    matches!(task, Task::BarLoaded | Task::WheelsOn | Task::Rolled)
}

/// Whether a spring that is not let down or held lets go with what a task takes apart.
const fn lets_go(task: Task, spring: Task) -> bool {
    let is_spring = matches!(spring, Task::BarDown | Task::CoilHeld | Task::SpringHeld);
    is_spring
        && matches!(
            task,
            Task::JointsParted
                | Task::BarOut
                | Task::CoilOut
                | Task::KnuckleOff
                | Task::StrutOff
                | Task::ShockOff
                | Task::AntiRollOff
                | Task::ArmOff
                | Task::UpperOff
        )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Jobs, order_of_work};
    use truck::{Job, SpringKind, WorkEdit};

    fn log(done: &[Task]) -> WorkLog {
        let tick = |log: WorkLog, task: &Task| log.edited(&WorkEdit::Done(*task, true)).unwrap();
        done.iter().fold(WorkLog::EMPTY, tick)
    }

    fn early(order: &[Task], done: &[Task]) -> Vec<(Task, Vec<Task>)> {
        done_early(order, &log(done)).into_iter().map(|early| (early.task, early.before)).collect()
    }

    /// A bracket and its bar, with all that they bring along: the order in which it is usually swapped.
    fn bracket() -> Vec<Task> {
        order_of_work(&Jobs::complete([Job::Bracket, Job::Bar], SpringKind::TorsionBar))
    }

    #[test]
    fn a_list_that_is_ticked_in_order_says_nothing() {
        for spring in [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate] {
            for order in [order_of_work(&Jobs::complete(Job::ALL, spring)), bracket()] {
                for most in 0..=order.len() {
                    assert_eq!(early(&order, &order[..most]), [], "{most} of {order:?}");
                }
            }
        }
    }

    /// Every edge between two tasks that are there: the one that waits, done with all but the other, names it.
    #[test]
    fn every_edge_of_the_list_is_named() {
        let mut edges = 0;
        for order in [bracket(), order_of_work(&Jobs::complete(Job::ALL, SpringKind::Coil))] {
            for task in &order {
                for first in task.after().iter().filter(|first| order.contains(first)) {
                    let done: Vec<_> = order.iter().copied().filter(|other| other != first).collect();
                    let said = early(&order, &done);
                    assert!(said.contains(&(*task, vec![*first])), "{first:?} before {task:?}: {said:?}");
                    edges += 1;
                }
            }
        }
        assert!(edges > 150, "{edges}");
    }

    /// By hand, of a bracket and its bar. The bar waits for its own place, the joints, the stop, the strut rod and
    /// the shock; no tie rod is parted here. What is done of these is not named, and of what is behind an open one
    /// nothing is: it has its own turn.
    #[test]
    fn a_tick_out_of_order_names_what_is_missing_and_no_more() {
        let order = bracket();
        let alone = [Task::StopOn, Task::StrutOn, Task::JointsPinned, Task::ShockOn, Task::BarIn];
        let said = early(&order, &[Task::BarLoaded]);
        assert_eq!(said.len(), 1);
        assert_eq!((said[0].0, said[0].1.len()), (Task::BarLoaded, alone.len()), "{said:?}");
        assert!(alone.iter().all(|task| said[0].1.contains(task)), "{said:?}");
        let to = order.iter().position(|task| *task == Task::JointsPinned).unwrap();
        let mut done = order[..to].to_vec();
        done.extend([Task::ShockOn, Task::BarIn, Task::BarLoaded]);
        assert_eq!(early(&order, &done), [(Task::BarLoaded, vec![Task::JointsPinned])]);
        // In the order of the work, whatever the order of the edges.
        done.retain(|task| *task != Task::StopOn);
        let said = early(&order, &done);
        let bar = said.iter().find(|(task, _)| *task == Task::BarLoaded).unwrap();
        assert_eq!(bar.1, [Task::StopOn, Task::JointsPinned]);
    }

    /// A knuckle alone: it hangs on joints that stay in their arms, which stay on. Past these it waits for the
    /// joints to be parted, and past parted ones for nothing.
    #[test]
    fn what_is_not_there_is_looked_through() {
        let order = order_of_work(&Jobs::complete([Job::Knuckle], SpringKind::TorsionBar));
        assert!(!order.contains(&Task::JointsIn) && !order.contains(&Task::BarIn));
        assert_eq!(early(&order, &[Task::KnuckleOn]), [(Task::KnuckleOn, vec![Task::KnuckleOff])]);
        // No bar is out or in: past both and the arm, what is let down waits to be loaded for the joints alone.
        let joint = order_of_work(&Jobs::complete([Job::Joint], SpringKind::TorsionBar));
        assert!(!joint.contains(&Task::ArmOn) && !joint.contains(&Task::KnuckleOn));
        let said = early(&joint, &[Task::JointsIn]);
        assert_eq!(said, [(Task::JointsIn, vec![Task::JointsParted])], "past both arms, off and on");
    }

    /// A bar loaded on open joints, wheels on the ground, and whatever comes apart with a loaded spring are danger;
    /// headlamps before the toe are not, and neither is a caliper that was left hanging.
    #[test]
    fn what_is_loaded_too_early_is_danger() {
        let order = order_of_work(&Jobs::complete(Job::ALL, SpringKind::TorsionBar));
        let danger = |done: &[Task], of: Task| {
            let all = done_early(&order, &log(done));
            all.into_iter().find(|early| early.task == of).map(|early| early.is_danger)
        };
        for of in
            [Task::BarLoaded, Task::WheelsOn, Task::Rolled, Task::JointsParted, Task::ArmOff, Task::BarOut]
        {
            assert_eq!(danger(&[of], of), Some(true), "{of:?}");
        }
        for of in [Task::Headlamps, Task::HubOn, Task::StopOn, Task::Final, Task::Again] {
            assert_eq!(danger(&[of], of), Some(false), "{of:?}");
        }
        let parted = [Task::BarDown, Task::CoilHeld, Task::SpringHeld, Task::JointsParted];
        assert_eq!(danger(&parted, Task::JointsParted), Some(false), "the caliper alone is on");
        // Though the joints are between: they were not ticked, and the bar is loaded.
        let arm = early(&order, &[Task::ArmOff]);
        assert!(arm[0].1.contains(&Task::BarDown) && arm[0].1.contains(&Task::JointsParted), "{arm:?}");
        for (spring, held) in [(SpringKind::Coil, Task::CoilHeld), (SpringKind::WheelRate, Task::SpringHeld)]
        {
            let order = order_of_work(&Jobs::complete([Job::Joint], spring));
            let done: Vec<_> = order.iter().copied().filter(|task| *task != held).collect();
            let said = done_early(&order, &log(&done));
            assert!(said[0].is_danger && said[0].before == [held], "{said:?}");
        }
    }
}
