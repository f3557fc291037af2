//! In which order the work is done, and why so.
//!
//! A task is there when its change is in the proposal or its part is not the truck's own. What
//! must come before what is a list of edges; the order is a topological one (Kahn 1962), and
//! of tasks that could come next the one that stands first in the list does, so that the same
//! jobs have the same order on every machine. The whole list is sorted and then thinned out:
//! what a missing task stood between still keeps its order.

use truck::{Change, Design, Fastener, Job, Mating, Origin, PARTS, PartId, Place, SpringKind, Task, Which};

/// What a proposal touches, each once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Jobs(Vec<Job>);

impl Jobs {
    /// Such jobs, and what they bring along on a truck with such a spring.
    #[must_use]
    pub fn complete(jobs: impl IntoIterator<Item = Job>, spring: SpringKind) -> Self {
        let mut jobs: Vec<Job> = jobs.into_iter().collect();
        if jobs.iter().any(|job| matches!(job, Job::Bracket | Job::Bushing | Job::NewHole)) {
            jobs.push(Job::LowerArm);
        }
        let apart = jobs.iter().any(|job| {
            matches!(
                job,
                Job::LowerArm
                    | Job::UpperArm
                    | Job::Joint
                    | Job::Knuckle
                    | Job::Coil
                    | Job::Bar
                    | Job::StrutRod
            )
        });
        // No arm, joint or knuckle comes off with its spring loaded, nor the rod that holds the arm.
        match spring {
            SpringKind::TorsionBar if apart => {
                let arm = jobs.iter().any(|job| matches!(job, Job::LowerArm | Job::UpperArm));
                jobs.push(if arm { Job::Bar } else { Job::LetDown });
            }
            SpringKind::Coil if apart => jobs.push(Job::Coil),
            SpringKind::WheelRate if apart => jobs.push(Job::Spring),
            _ => {}
        }
        Self(Job::ALL.iter().copied().filter(|job| jobs.contains(job)).collect())
    }

    /// What a proposal changes, as measured nothing; and what the ledger says is not the truck's own.
    #[must_use]
    pub fn of(design: &Design, which: impl Into<Which>) -> Self {
        let changes = design.overlay(which).every();
        let mut jobs = Vec::new();
        for (_, change) in changes.iter() {
            jobs.extend_from_slice(of_change(change));
        }
        for (id, part) in design.ledger.parts() {
            if part.origin != Origin::Kept {
                jobs.extend_from_slice(of_part(*id));
            }
        }
        let drilled = |kind| matches!(kind, Mating::NewHole | Mating::CrushSleeve);
        if design.ledger.written().iter().any(|row| drilled(row.kind()) && !row.entries().is_empty()) {
            jobs.push(Job::NewHole);
        }
        Self::complete(jobs, design.truck.spring.kind)
    }

    /// What it touches.
    #[must_use]
    pub fn jobs(&self) -> &[Job] {
        &self.0
    }

    fn has(&self, task: Task) -> bool {
        task.jobs().is_empty() || task.jobs().iter().any(|job| self.0.contains(job))
    }
}

fn of_change(change: &Change) -> &'static [Job] {
    let arm = |place| match place {
        Place::UpperArm | Place::UpperFront | Place::UpperRear => &[Job::UpperArm],
        _ => &[Job::LowerArm],
    };
    match change {
        Change::DroppedSpindle(_) | Change::KnuckleSwap(_) => &[Job::Knuckle],
        Change::MovedPivot(moved) => arm(moved.place),
        Change::ArmSwap(swap) => arm(swap.place),
        Change::JointTurned(_) => &[Job::Joint],
        Change::BarAdjuster(_) => &[Job::BarBolt],
        Change::BarReindex(_) | Change::BarSwap(_) | Change::AnchorSwap(_) => &[Job::Bar],
        Change::CutCoil(_) | Change::CoilSwap(_) | Change::SeatSpacer(_) => &[Job::Coil],
        Change::TireSwap(_) | Change::RearTire(_) => &[Job::Wheels],
        Change::Shims(_) => &[Job::Shims],
        Change::StrutRod(_) => &[Job::StrutRod],
        Change::TieRod(_) => &[Job::TieRod],
        Change::StopTrim(_) => &[Job::Stop],
        Change::Shock(_) => &[Job::Shock],
        Change::Brake(_) => &[Job::Brake, Job::Hub],
        Change::RearBlock(_)
        | Change::AxleFlip(_)
        | Change::RearHangers(_)
        | Change::RearShackle(_)
        | Change::RearSpring(_)
        | Change::RearNotch(_)
        | Change::RearStop(_)
        | Change::RearShock(_) => &[Job::Rear],
    }
}

/// What another part brings along; a part that was added brings nothing that is known here.
fn of_part(id: PartId) -> &'static [Job] {
    match PARTS.get(usize::from(id.0)).map(|(key, _)| *key).unwrap_or_default() {
        "upper_joint" | "lower_joint" => &[Job::Joint],
        "upper_arm" | "upper_shaft" => &[Job::UpperArm],
        "lower_arm" => &[Job::LowerArm],
        "knuckle" | "spindle" | "steering_arm" => &[Job::Knuckle],
        "tie_rod" | "tie_sleeve" => &[Job::TieRod],
        "bar" | "anchor" | "adjuster" => &[Job::Bar],
        "bracket" => &[Job::Bracket],
        "strut_rod" | "strut_bracket" | "strut_bushing" => &[Job::StrutRod],
        "arm_bushing" | "bushing_bolt" => &[Job::Bushing],
        "shock" | "shock_mount" => &[Job::Shock],
        "link" => &[Job::AntiRoll],
        "stop" => &[Job::Stop],
        "hub" | "races" | "seal" => &[Job::Hub],
        "rotor" => &[Job::Brake, Job::Hub],
        "caliper" => &[Job::Brake],
        "wheel" => &[Job::Wheels],
        "hose" | "lines" | "master_cylinder" => &[Job::Hose],
        "crush_sleeve" => &[Job::NewHole],
        _ => &[],
    }
}

/// Tasks that wait for each other in a circle, so that none can be begun.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("these wait for each other: {}", .0.iter().map(|task| task.label()).collect::<Vec<_>>().join("; "))]
pub struct Circular(pub Vec<Task>);

/// Every task in its order, with what else is to come before what.
///
/// # Errors
/// [`Circular`] names the tasks that such edges put in a circle.
pub fn sorted_tasks(more: &[(Task, Task)]) -> Result<Vec<Task>, Circular> {
    let mut done: Vec<Task> = Vec::with_capacity(Task::ALL.len());
    while done.len() < Task::ALL.len() {
        let ready = |task: &&Task| {
            let free = |before: &Task| done.contains(before);
            !done.contains(task)
                && task.after().iter().all(free)
                && more.iter().filter(|(_, then)| then == *task).all(|(first, _)| free(first))
        };
        let Some(task) = Task::ALL.iter().find(ready) else {
            return Err(Circular(circle(&done, more)));
        };
        done.push(*task);
    }
    Ok(done)
}

/// A circle among what is left: from any of it back along what it waits for, until one comes again.
fn circle(done: &[Task], more: &[(Task, Task)]) -> Vec<Task> {
    let left = |task: &Task| !done.contains(task);
    let mut path: Vec<Task> = Task::ALL.iter().copied().filter(left).take(1).collect();
    while let Some(last) = path.last().copied() {
        let before = last.after().iter().copied();
        let typed = more.iter().filter(|(_, then)| *then == last).map(|(first, _)| *first);
        let Some(next) = before.chain(typed).find(left) else { break };
        if let Some(at) = path.iter().position(|task| *task == next) {
            path.drain(..at);
            path.reverse();
            break;
        }
        path.push(next);
    }
    path
}

/// The tasks of such jobs, in the order in which they are done.
///
/// # Panics
/// Never: the edges of the list itself are in no circle, which a test holds.
#[must_use]
pub fn order_of_work(jobs: &Jobs) -> Vec<Task> {
    order_of_work_with(jobs, &[]).expect("the list has no circle")
}

/// The same, with what else somebody wants before what: it is added to what must come first, and takes none of it away.
///
/// # Errors
/// [`Circular`] names the tasks that it puts in a circle.
pub fn order_of_work_with(jobs: &Jobs, more: &[(Task, Task)]) -> Result<Vec<Task>, Circular> {
    let mut all = sorted_tasks(more)?;
    all.retain(|task| jobs.has(*task));
    Ok(all)
}

/// What a task of such an order torques: what is there by then.
#[must_use]
pub fn due(order: &[Task], task: Task) -> Vec<Fastener> {
    let is_due = |of: &&Fastener| of.due().contains(&task) && order.contains(&of.on());
    Fastener::ALL.iter().filter(is_due).copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{DroppedSpindle, Edit, LedgerEdit, Part, demo};

    fn at(order: &[Task], task: Task) -> usize {
        order.iter().position(|other| *other == task).unwrap_or_else(|| panic!("{task:?} in {order:?}"))
    }

    fn everything(spring: SpringKind) -> Vec<Task> {
        order_of_work(&Jobs::complete(Job::ALL, spring))
    }

    /// By name, and each for its reason: paint before unloading, the stop before its bracket, both
    /// joints pinned and the stop on before the bar is loaded, the seal before the hub, the rear
    /// before the front's alignment.
    #[test]
    fn what_must_come_first_does() {
        let order = everything(SpringKind::TorsionBar);
        for (first, then) in [
            (Task::Heights, Task::BarDown),
            (Task::BarDown, Task::JointsParted),
            (Task::CoilHeld, Task::JointsParted),
            (Task::AntiRollOff, Task::JointsParted),
            (Task::AntiRollOff, Task::ArmOff),
            (Task::ArmOn, Task::AntiRollOn),
            (Task::AntiRollOn, Task::WheelsOn),
            (Task::BushingIn, Task::ArmOn),
            (Task::HoleDrilled, Task::ArmOn),
            (Task::StopOn, Task::BracketOn),
            (Task::BracketOn, Task::ArmOn),
            (Task::ArmOn, Task::BarIn),
            (Task::JointsIn, Task::KnuckleOn),
            (Task::JointsPinned, Task::BarLoaded),
            (Task::StopOn, Task::BarLoaded),
            (Task::SealIn, Task::HubOn),
            (Task::HubOn, Task::CaliperOn),
            (Task::CaliperOn, Task::HoseOn),
            (Task::HoseOn, Task::Bleed),
            (Task::RearTorqued, Task::ToeSet),
            (Task::RearAligned, Task::ShimsSet),
            (Task::Rolled, Task::HeightSet),
            (Task::HeightSet, Task::Rubber),
            (Task::Rubber, Task::ShimsSet),
            (Task::ShimsSet, Task::ToeSet),
            (Task::ToeSet, Task::Headlamps),
            (Task::Final, Task::Inspected),
        ] {
            assert!(at(&order, first) < at(&order, then), "{first:?} before {then:?}: {order:?}");
        }
    }

    /// A task that is not there still keeps apart what it stood between: the bar is let down
    /// before the arm's bushing is pressed, though nothing joins the two directly.
    #[test]
    fn what_is_left_out_keeps_the_order_of_the_rest() {
        let order = order_of_work(&Jobs::complete([Job::Bushing], SpringKind::TorsionBar));
        assert!(at(&order, Task::BarDown) < at(&order, Task::BushingIn));
        assert!(!order.contains(&Task::KnuckleOn) && !order.contains(&Task::Bleed));
        assert!(at(&order, Task::JointsPinned) < at(&order, Task::BarLoaded));
    }

    /// No joint is parted while its spring is loaded, whatever the spring.
    #[test]
    fn every_spring_is_held_before_a_joint_is_parted() {
        for (spring, task) in [
            (SpringKind::TorsionBar, Task::BarDown),
            (SpringKind::Coil, Task::CoilHeld),
            (SpringKind::WheelRate, Task::SpringHeld),
        ] {
            for job in [Job::Joint, Job::Knuckle, Job::LowerArm, Job::UpperArm, Job::Bushing, Job::NewHole] {
                let order = order_of_work(&Jobs::complete([job], spring));
                assert!(at(&order, task) < at(&order, Task::JointsParted), "{spring:?} {job:?}");
            }
        }
    }

    #[test]
    fn tasks_come_from_changes_and_from_parts() {
        let design = demo();
        let id = design.proposals[0].id;
        let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        assert!(design.proposals[0].change(spindle.kind(), None).is_some());
        let order = order_of_work(&Jobs::of(&design, id));
        assert!(order.contains(&Task::KnuckleOn) && order.contains(&Task::HubOn));
        assert!(order.contains(&Task::BarDown), "no joint is parted on a loaded bar");
        assert!(!order.contains(&Task::BarOut), "the bar stays in its arm");
        assert!(at(&order, Task::JointsPinned) < at(&order, Task::BarLoaded));
        assert!(!order.contains(&Task::BracketOn));
        let bracket = PARTS.iter().position(|(key, _)| *key == "bracket").unwrap();
        let bracket = PartId(u8::try_from(bracket).unwrap());
        let bought = Part { origin: Origin::Bought, ..Part::default() };
        let edit = LedgerEdit::Part(bracket, bought);
        let with = order_of_work(&Jobs::of(&design.ledger_edited(&edit).unwrap(), id));
        assert!(at(&with, Task::StopOn) < at(&with, Task::BracketOn));
    }

    /// Whatever is loosened, opened or hung anew stands on the list that must be empty before the truck drives;
    /// what is only taken apart, put in its place or looked at does not.
    #[test]
    fn whatever_holds_or_stops_the_truck_is_open_until_it_is_done() {
        use Task::{
            AntiRollOn, Bleed, BracketOn, CaliperOn, Final, HoseOn, HubOn, JointsPinned, RearTorqued, Rubber,
            ShimsSet, ShockOn, StopOn, StrutOn, TieOn, ToeSet, WheelsOn,
        };
        for task in [
            HoseOn,
            ShimsSet,
            StopOn,
            AntiRollOn,
            JointsPinned,
            TieOn,
            HubOn,
            CaliperOn,
            Bleed,
            StrutOn,
            ShockOn,
            BracketOn,
            WheelsOn,
            RearTorqued,
            Rubber,
            ToeSet,
            Final,
        ] {
            assert!(task.open_item().is_some(), "{task:?}");
        }
        for task in [Task::ArmOff, Task::BarDown, Task::JointsParted, Task::Heights] {
            assert_eq!(task.open_item(), None, "{task:?}");
        }
    }

    /// What speaks of a torque has a place for one, what is snug one that is torqued later, and nothing is
    /// torqued before it is there. Of the final torques each has its own place already.
    #[test]
    fn every_torque_has_its_place_in_the_order() {
        for spring in [SpringKind::TorsionBar, SpringKind::Coil] {
            let order = everything(spring);
            for task in order.iter().copied().filter(|task| *task != Task::Final) {
                let label = task.label();
                if ["torqued", "tightened", "set by its own manual"].iter().any(|word| label.contains(word)) {
                    assert!(!due(&order, task).is_empty(), "{label}");
                }
                if label.contains("snug") {
                    let later =
                        |of: &&Fastener| of.due().iter().all(|due| at(&order, *due) > at(&order, task));
                    let found = Fastener::ALL
                        .iter()
                        .filter(later)
                        .any(|of| of.on() == task || task == Task::RearWork && *of == Fastener::UBolts);
                    assert!(found, "{label}");
                }
            }
            for of in Fastener::ALL.iter().filter(|of| order.contains(&of.on())) {
                assert!(!of.due().is_empty());
                for due in of.due() {
                    assert!(at(&order, of.on()) <= at(&order, *due), "{of:?}");
                }
            }
        }
    }

    /// What holds rubber is torqued at its height, what settles again after 100 miles, and both joints have a
    /// torque each. What is not there is torqued nowhere.
    #[test]
    fn what_is_torqued_when() {
        let order = everything(SpringKind::TorsionBar);
        assert_eq!(due(&order, Task::JointsPinned), [Fastener::UpperJoint, Fastener::LowerJoint]);
        assert_eq!(due(&order, Task::HubOn), [Fastener::HubSeating, Fastener::Hub]);
        let rubber = due(&order, Task::Rubber);
        for of in [Fastener::LowerPivots, Fastener::UpperPivots, Fastener::StrutNuts, Fastener::Shock] {
            assert!(rubber.contains(&of), "{of:?}");
        }
        assert_eq!(due(&order, Task::Again), [Fastener::StrutNuts, Fastener::Wheel, Fastener::UBolts]);
        assert_eq!((Task::ArmOn.when(), Task::Rubber.when()), ("snug", "at height"));
        let spindle = order_of_work(&Jobs::complete([Job::Knuckle], SpringKind::TorsionBar));
        assert!(due(&spindle, Task::Rubber).is_empty(), "no arm, strut rod or shock is off");
        assert_eq!(due(&spindle, Task::Again), [Fastener::Wheel]);
    }

    /// A part that comes from elsewhere is put in, whichever of those it is that the order knows.
    #[test]
    fn every_part_brings_its_task() {
        let bring_none: Vec<_> = (0_u8..)
            .zip(PARTS)
            .filter(|(at, _)| of_part(PartId(*at)).is_empty())
            .map(|(_, (key, _))| *key)
            .collect();
        assert_eq!(bring_none, ["frame"], "what stays");
    }

    /// What a person types may put tasks in a circle, which is said, and nothing is lost.
    #[test]
    fn a_circle_is_named() {
        let circle = sorted_tasks(&[(Task::ToeSet, Task::Heights)]).unwrap_err();
        assert!(circle.0.contains(&Task::Heights) && circle.0.contains(&Task::ToeSet), "{circle}");
        for pair in circle.0.windows(2) {
            let typed = (pair[0], pair[1]) == (Task::ToeSet, Task::Heights);
            assert!(typed || pair[1].after().contains(&pair[0]), "{pair:?} in {circle}");
        }
        assert!(sorted_tasks(&[(Task::ToeSet, Task::ToeSet)]).is_err());
        let after = sorted_tasks(&[(Task::Headlamps, Task::RearValve)]).unwrap();
        assert!(at(&after, Task::Headlamps) < at(&after, Task::RearValve));
    }

    /// Any jobs, five hundred times: every edge between tasks that are there is kept, also
    /// through what is not, each task is there once, and the same jobs give the same order.
    #[test]
    fn any_jobs_keep_every_edge() {
        let before: Vec<Vec<Task>> = Task::ALL.iter().map(|task| all_before(*task)).collect();
        let mut seed = 1_u64;
        for round in 0..500 {
            // Knuth's linear congruence, high bits (from memory).
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let jobs: Vec<Job> = Job::ALL
                .iter()
                .enumerate()
                .filter(|(at, _)| seed >> (40 + at) & 1 == 1)
                .map(|(_, job)| *job)
                .collect();
            let spring = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate][round % 3];
            let order = order_of_work(&Jobs::complete(jobs.iter().copied(), spring));
            keeps_every_edge(&order, &before);
            assert_eq!(order, order_of_work(&Jobs::complete(jobs.into_iter().rev(), spring)));
        }
    }

    fn keeps_every_edge(order: &[Task], before: &[Vec<Task>]) {
        for (place, task) in order.iter().enumerate() {
            let earlier = &order[..place];
            assert!(!earlier.contains(task));
            let index = Task::ALL.iter().position(|other| other == task).unwrap();
            for first in before[index].iter().filter(|first| order.contains(first)) {
                assert!(earlier.contains(first), "{first:?} before {task:?} in {order:?}");
            }
        }
    }

    /// Any plan with any parts bought, five hundred of them: what each changes is put on, and all edges are kept. An arm
    /// or a joint that comes off has its spring let down or held before it.
    #[test]
    fn any_plan_and_ledger_keep_every_edge() {
        let before: Vec<Vec<Task>> = Task::ALL.iter().map(|task| all_before(*task)).collect();
        let mut seed = 7_u64;
        let mut draw = |of: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from((seed >> 33) % of).unwrap()
        };
        let mut longest = 0;
        for round in 0..500 {
            let kind = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate][round % 3];
            let edits = [Edit::OwnTruck, Edit::SpringKind(kind), Edit::AddProposal(String::new())];
            let mut design = edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
            let plan = design.proposals[0].id;
            for kind in truck::ChangeKind::ALL {
                if draw(4) > 0 {
                    continue;
                }
                let place = kind.places().get(draw(2)).copied();
                let change = kind.first(place, &design.truck);
                let put = change.and_then(|change| design.edited(&Edit::Set(plan, change)).ok());
                design = put.unwrap_or(design);
            }
            for part in (0..u8::try_from(PARTS.len()).unwrap()).filter(|_| draw(8) == 0) {
                let bought = Part { origin: Origin::Bought, ..Part::default() };
                design = design.ledger_edited(&LedgerEdit::Part(PartId(part), bought)).unwrap();
            }
            let order = order_of_work(&Jobs::of(&design, plan));
            keeps_every_edge(&order, &before);
            let held = [Task::BarDown, Task::CoilHeld, Task::SpringHeld];
            let apart = [Task::JointsParted, Task::ArmOff, Task::UpperOff, Task::StrutOff];
            if order.iter().any(|task| apart.contains(task)) {
                assert!(order.iter().any(|task| held.contains(task)), "{order:?}");
            }
            longest = longest.max(order.len());
        }
        assert!(longest > 40, "{longest} tasks at most");
    }

    /// Everything that must come before a task, near or far.
    fn all_before(task: Task) -> Vec<Task> {
        let mut found: Vec<Task> = task.after().to_vec();
        let mut at = 0;
        while at < found.len() {
            for first in found[at].after() {
                if !found.contains(first) {
                    found.push(*first);
                }
            }
            at += 1;
        }
        found
    }
}
