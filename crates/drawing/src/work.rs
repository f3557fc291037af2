//! The order of the work as it stands on its sheet: torques by their manuals, and what is kept, got and modified.

use crate::bolt_up::row_in_words;
use crate::words::each_in_words;
use mating::{Early, Verdict, is_by_rows, verdict};
use measure::{Units, print_length, print_torque_for_wrenches};
use truck::{
    Change, ChangeKind, Design, Ledger, Origin, PARTS, Part, PartId, Place, SpringKind, Task, Torque, Which,
    notes_of,
};

/// Said of a torque without its manual: two trucks' parts meet here, and each has its own.
pub const NO_MANUAL: &str = "no manual named";
/// No torque is ever filled in.
pub const NO_TORQUE: &str = "No torque is known here: each by the manual of the truck that its part is from.";

/// A torque with the manual that it is from; empty before either is typed.
#[must_use]
pub fn torque_in_words(torque: Torque<'_>, units: Units) -> String {
    let typed = torque.newton_metres().map(|newton_metres| print_torque_for_wrenches(newton_metres, units));
    match (typed, torque.manual) {
        (None, "") => String::new(),
        (None, manual) => ["by ", manual].concat(),
        (Some(typed), "") => [&typed, ", ", NO_MANUAL].concat(),
        (Some(typed), manual) => [&typed, " by ", manual].concat(),
    }
}

/// What is to be said of a task that is done too early, in the words of the list: of what is dangerous `Stop`, as a
/// sentence that stands above all else.
#[must_use]
pub fn early_in_words(early: &Early) -> String {
    let mut all = match early.task {
        _ if !early.is_danger => "Ticked",
        Task::BarLoaded => "Stop: the bar is loaded",
        Task::WheelsOn | Task::Rolled => "Stop: the truck is on its wheels",
        _ => "Stop: it is apart",
    }
    .to_owned();
    for (at, first) in early.before.iter().enumerate() {
        all += if at == 0 { ", but before it: " } else { "; " };
        all += first.label();
    }
    all + "."
}

/// The same of one task; `None` where it is done when it may be, or not yet.
#[must_use]
pub fn task_early_in_words(early: &[Early], task: Task) -> Option<String> {
    early.iter().find(|early| early.task == task).map(early_in_words)
}

/// What can hurt someone in the parts of a plan: it goes with the plan wherever that goes.
#[must_use]
pub fn dangers(design: &Design, which: Which) -> Vec<String> {
    let notes = notes_of(&design.truck, design.overlay(which));
    notes.into_iter().filter(|note| note.is_danger()).map(|note| note.to_string()).collect()
}

/// What is to be said before the work of a plan: what can hurt someone, first of all that nobody has said what spring
/// it is, since what holds a bar and what holds a coil are let down in other ways.
#[must_use]
pub fn before_work(design: &Design, which: Which) -> Vec<String> {
    let truck = &design.truck;
    let taken = match truck.spring.kind {
        SpringKind::TorsionBar => "a torsion bar",
        _ => "a coil",
    };
    let mut said = Vec::new();
    // A rate at the wheel says how stiff it is, and not what is to be let down.
    if truck.spring.kind == SpringKind::WheelRate {
        said.push("Look which spring holds it up, a bar or a coil, before anything is let down.".to_owned());
    } else if !truck.spring_is_known() {
        said.push(
            [
                "Taken to stand on ",
                taken,
                ", since nobody has said what spring it has: look, and choose it in My truck \
             before anything is let down.",
            ]
            .concat(),
        );
    }
    said.extend(dangers(design, which));
    said
}

/// What is kept, what is to be got, and what is modified or set, each under its heading: by the ledger and by
/// the plan. Of parts of which nobody has said or measured anything, nothing is said.
#[must_use]
pub fn work_lists(design: &Design, which: Which, units: Units) -> [(&'static str, Vec<String>); 3] {
    let ledger = &design.ledger;
    let overlay = design.overlay(which);
    let changes = overlay.every();
    let (mut keep, mut get, mut modify) = (Vec::new(), Vec::new(), Vec::new());
    let mut swaps = Vec::new();
    let guessed = overlay.guessed();
    for ((_, change), said) in changes.iter().zip(each_in_words(&overlay, units)) {
        // What rows of the ledger make of the sketch, and nobody typed, is neither got nor done: the parts are there.
        let (kind, place) = change.slot();
        let is_guess = |at: usize| !change.counts(at) || guessed.contains(&(kind, place, at));
        if is_by_rows(design, change) && (0..kind.numbers().len()).all(is_guess) {
            continue;
        }
        if is_got(change.kind()) {
            get.push(said);
            swaps.push(*change);
        } else {
            modify.push(said);
        }
    }
    if let Some(down_mm) = overlay.rear_down_mm {
        modify.push(["rear down by ", &print_length(down_mm, units.length_style())].concat());
    }
    for (id, part) in ledger.parts() {
        if part.origin != Origin::Kept {
            get.push(got(ledger.part_name(*id), part));
        }
    }
    let mut kept: Vec<(PartId, bool)> = Vec::new();
    for row in ledger.rows() {
        let parts = row.parts();
        let answer = verdict(ledger, &row);
        if row.is_written() || !parts.iter().all(|part| ledger.is_kept(*part)) {
            let is_open = !matches!(answer.verdict, Verdict::Mates | Verdict::WithWork(_));
            for part in parts {
                match kept.iter_mut().find(|(other, _)| *other == part) {
                    Some((_, open)) => *open |= is_open,
                    None if is_kept(ledger, &swaps, part) => kept.push((part, is_open)),
                    None => {}
                }
            }
        }
        if matches!(answer.verdict, Verdict::WithWork(_)) {
            modify.push(row_in_words(ledger, &row, &answer, units));
        }
    }
    for (part, is_open) in kept {
        keep.push([ledger.part_name(part), if is_open { ": undecided" } else { "" }].concat());
    }
    [("Keep", keep), ("Get", get), ("Modify, set", modify)]
}

/// Whether a change is a thing to get; else it is work on what is there.
const fn is_got(kind: ChangeKind) -> bool {
    match kind {
        ChangeKind::JointTurned | ChangeKind::AxleFlip => false,
        ChangeKind::SeatSpacer => true,
        _ => kind.is_part(),
    }
}

/// A part from elsewhere, with where it is from.
fn got(name: &str, part: &Part) -> String {
    let from = match &part.origin {
        Origin::Donor(donor) if donor.is_empty() => "another truck",
        Origin::Donor(donor) => donor,
        _ => "new",
    };
    [name, ": ", from].concat()
}

/// Whether a part is the truck's own, by the ledger, and none that the plan puts another in the place of.
fn is_kept(ledger: &Ledger, got: &[Change], part: PartId) -> bool {
    let key = PARTS.get(usize::from(part.0)).map_or("", |(key, _)| *key);
    ledger.is_kept(part) && !got.iter().any(|change| replaced(change.slot()).contains(&key))
}

/// The part of the ledger that a change in a slot puts another in the place of, the one that it is known by; `None`
/// of what is set or cut.
#[must_use]
pub fn part_replaced(slot: (ChangeKind, Option<Place>)) -> Option<PartId> {
    let key = replaced(slot).first()?;
    (0..).zip(PARTS).find(|(_, (other, _))| other == key).map(|(at, _)| PartId(at))
}

/// The parts of the ledger that a change in a slot puts others in the place of.
fn replaced((kind, place): (ChangeKind, Option<Place>)) -> &'static [&'static str] {
    match kind {
        ChangeKind::DroppedSpindle | ChangeKind::KnuckleSwap => &["knuckle", "spindle"],
        ChangeKind::ArmSwap if place == Some(Place::UpperArm) => &["upper_arm"],
        ChangeKind::ArmSwap => &["lower_arm"],
        ChangeKind::BarSwap => &["bar"],
        ChangeKind::AnchorSwap => &["anchor"],
        ChangeKind::Shock => &["shock"],
        ChangeKind::TireSwap => &["wheel"],
        ChangeKind::Brake => &["rotor", "caliper"],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{
        Edit, Field, LedgerEdit, PartId, ProposalId, RowId, ShimChange, Tool, Whose, callouts, demo,
    };

    fn edited(edits: impl IntoIterator<Item = Edit>) -> Design {
        edits.into_iter().fold(demo(), |design, edit| design.edited(&edit).unwrap())
    }

    fn written(edits: impl IntoIterator<Item = LedgerEdit>) -> Design {
        edits.into_iter().fold(demo(), |design, edit| design.ledger_edited(&edit).unwrap())
    }

    fn part(key: &str) -> PartId {
        let at = PARTS.iter().position(|(other, _)| *other == key).unwrap();
        PartId(u8::try_from(at).unwrap())
    }

    fn lists(design: &Design, which: Which) -> [Vec<String>; 3] {
        work_lists(design, which, Units::Inches).map(|(_, items)| items)
    }

    #[test]
    fn a_part_that_is_bought_has_its_rows_and_a_setting_has_none() {
        let of = |kind, place| part_replaced((kind, place));
        assert_eq!(of(ChangeKind::DroppedSpindle, None), Some(part("knuckle")));
        assert_eq!(of(ChangeKind::ArmSwap, Some(Place::UpperArm)), Some(part("upper_arm")));
        assert_eq!(of(ChangeKind::ArmSwap, Some(Place::LowerArm)), Some(part("lower_arm")));
        assert_eq!(of(ChangeKind::Brake, None), Some(part("rotor")));
        assert_eq!(of(ChangeKind::Shims, None), None);
    }

    /// 115.2 N·m over 1.355818 (NIST SP 811) is 84.97 ft-lb.
    #[test]
    fn a_torque_says_whose_it_is() {
        let torque = Torque { steps: 1152, manual: "1994 shop manual" };
        assert_eq!(torque_in_words(torque, Units::Inches), "85 ft-lb by 1994 shop manual");
        let unnamed = Torque { manual: "", ..torque };
        assert_eq!(torque_in_words(unnamed, Units::Millimetres), "115.2 N·m, no manual named");
        assert_eq!(torque_in_words(Torque { steps: 0, ..torque }, Units::Inches), "by 1994 shop manual");
        assert_eq!(torque_in_words(Torque::default(), Units::Inches), "");
    }

    /// In the words of the list; what is dangerous begins otherwise.
    #[test]
    fn what_is_done_too_early_says_what_is_missing() {
        let say = |task, before: &[Task], is_danger| {
            early_in_words(&Early { task, before: before.to_vec(), is_danger })
        };
        assert_eq!(
            say(Task::BarLoaded, &[Task::StopOn, Task::JointsPinned], true),
            "Stop: the bar is loaded, but before it: Bump stop on; Both joints' nuts torqued and pinned, never \
             backed off for the pin."
        );
        assert_eq!(
            say(Task::HubOn, &[Task::KnuckleOn], false),
            "Ticked, but before it: Knuckle on its joints."
        );
        for (task, words) in [
            (Task::WheelsOn, "Stop: the truck is on its wheels, but before it: Hub"),
            (Task::Rolled, "Stop: the truck is on its wheels, but before it: Hub"),
            (Task::JointsParted, "Stop: it is apart, but before it: Hub"),
        ] {
            assert!(say(task, &[Task::HubOn], true).starts_with(words), "{task:?}");
        }
    }

    /// The demo's spindle is got, what is turned or shimmed is set, and nothing is said of other parts.
    #[test]
    fn the_plan_s_parts_are_got_and_its_settings_set() {
        let shims = Change::Shims(ShimChange { front_mm: 1.6, rear_mm: 3.2 });
        let design = edited([Edit::Set(ProposalId(0), shims)]);
        let [keep, get, modify] = lists(&design, Which::Proposal(ProposalId(0)));
        assert_eq!((keep, get), (Vec::new(), vec!["2 in spindle".to_owned()]));
        assert!(modify.len() == 1 && modify[0].contains("shim"), "{modify:?}");
        assert!(lists(&design, Which::AsMeasured).iter().all(Vec::is_empty));
        let down = edited([Edit::RearDown(ProposalId(0), Some(50.8))]);
        assert_eq!(lists(&down, Which::Proposal(ProposalId(0)))[2], ["rear down by 2 in"]);
    }

    /// A part from elsewhere is got, what it meets is kept, unless the plan puts another in its place: the
    /// caliper's knuckle is that of the spindle.
    #[test]
    fn what_meets_a_part_from_elsewhere_is_kept_unless_the_plan_swaps_it() {
        let donor = Part { origin: Origin::Donor("1988 truck".to_owned()), ..Part::default() };
        let bought = Part { origin: Origin::Bought, ..Part::default() };
        let design =
            written([LedgerEdit::Part(part("caliper"), donor), LedgerEdit::Part(part("shock"), bought)]);
        let [keep, get, _] = lists(&design, Which::AsMeasured);
        assert_eq!(get, ["shock: new", "caliper: 1988 truck"]);
        // None of their rows has been asked yet.
        assert_eq!(
            keep,
            ["shock mount", "rotor", "knuckle", "wheel"].map(|part| part.to_owned() + ": undecided")
        );
        let [keep, get, _] = lists(&design, Which::Proposal(ProposalId(0)));
        assert_eq!(keep, ["shock mount", "rotor", "wheel"].map(|part| part.to_owned() + ": undecided"));
        assert_eq!(get, ["2 in spindle", "shock: new", "caliper: 1988 truck"]);
    }

    /// A bolt of 12 in a hole of 20: clear by more than ISO 273 passes, and a sleeve is work.
    #[test]
    fn a_row_that_mates_with_work_alone_is_modified() {
        let row = RowId::of_usual("strut_in_bracket").unwrap();
        let write = |callout, value| LedgerEdit::Write {
            row,
            callout,
            value,
            tool: Tool::Caliper,
            whose: Whose::Own,
        };
        let numbers = [
            callouts::bolt_in_hole::SHANK,
            callouts::bolt_in_hole::HOLE,
            callouts::bolt_in_hole::HOLE_SQUARE,
        ];
        let design = written(numbers.into_iter().zip([12.0, 20.0, 20.0]).map(|(at, mm)| write(at, mm)));
        let [keep, _, modify] = lists(&design, Which::AsMeasured);
        assert_eq!(keep, ["strut rod", "strut-rod bracket"]);
        assert!(modify.len() == 1 && modify[0].contains("mates with this work"), "{modify:?}");
    }

    /// A ball joint over its plate on the arm with the spring is a danger before its work, which the plan takes along;
    /// of one's own truck nobody has said what spring it is, until somebody names it or measures a number of it.
    #[test]
    fn what_can_hurt_is_said_before_the_work() {
        let turned = ChangeKind::JointTurned.first(Some(Place::LowerJointUp), &demo().truck).unwrap();
        let plan = ProposalId(0);
        let design = edited([Edit::Set(plan, turned)]);
        let which = Which::Proposal(plan);
        assert!(
            dangers(&design, which)[0].starts_with("Danger: the bolts then carry the truck"),
            "{design:?}"
        );
        assert_eq!(before_work(&design, which), dangers(&design, which), "the demo's bar is measured");
        assert_eq!(dangers(&design, Which::AsMeasured), [""; 0]);
        let own = demo().edited(&Edit::OwnTruck).unwrap();
        let said = before_work(&own, Which::AsMeasured);
        assert!(
            said.len() == 1 && said[0].starts_with("Taken to stand on a torsion bar, since nobody"),
            "{said:?}"
        );
        for kind in [SpringKind::Coil, SpringKind::TorsionBar] {
            let named = own.edited(&Edit::SpringKind(kind)).unwrap();
            assert_eq!(before_work(&named, Which::AsMeasured), [""; 0]);
            // Another's truck says nothing of one's own.
            let again = named.edited(&Edit::OwnTruck).unwrap();
            let taken = if kind == SpringKind::Coil { "a coil" } else { "a torsion bar" };
            assert!(
                before_work(&again, Which::AsMeasured)[0]
                    .starts_with(&["Taken to stand on ", taken].concat())
            );
        }
        let rate = own.edited(&Edit::SpringKind(SpringKind::WheelRate)).unwrap();
        assert!(before_work(&rate, Which::AsMeasured)[0].starts_with("Look which spring holds it up"));
        // A size of a coil says nothing of a bar.
        let coil = own.edited(&Edit::MeasureAll(vec![(Field::CoilWire, 14.0)])).unwrap();
        assert_eq!(before_work(&coil, Which::AsMeasured).len(), 1);
        let known = own.edited(&Edit::MeasureAll(vec![(Field::BarDiameter, 22.0)])).unwrap();
        assert_eq!(before_work(&known, Which::AsMeasured), [""; 0]);
    }

    /// A rotor with a thicker hat puts the wheel farther out: in the plan a wheel of less offset, of which there is none
    /// to get. One that the person typed is got.
    #[test]
    fn what_a_row_makes_of_the_sketch_is_nothing_to_get() {
        let row = RowId::of_usual("rotor_on_hub").unwrap();
        let (tool, whose) = (Tool::Caliper, Whose::Own);
        let write = |callout, value| LedgerEdit::Write { row, callout, value, tool, whose };
        let numbers = [write(callouts::circle::HAT, 12.0), write(callouts::circle::HAT_OLD, 9.0)];
        let mut design = written(numbers);
        let plan = design.proposals[0].id;
        let edit = mating::take_over(&design, plan, row).unwrap();
        design = design.edited(&edit).unwrap();
        let [keep, get, modify] = lists(&design, Which::Proposal(plan));
        assert_eq!((get, modify), (vec!["2 in spindle".to_owned()], Vec::new()));
        assert_eq!(keep, ["rotor: undecided", "hub: undecided"]);
        let Edit::SetGuessed(_, Change::TireSwap(swap)) = edit else { panic!("{edit:?}") };
        let typed = truck::TireSwap { offset_mm: swap.offset_mm - 1.0, ..swap };
        let design = design.edited(&Edit::Set(plan, Change::TireSwap(typed))).unwrap();
        assert_eq!(lists(&design, Which::Proposal(plan))[1].len(), 2);
    }

    /// A rod that mates in one place is undecided for as long as another of its places is open or says no.
    #[test]
    fn what_is_kept_is_undecided_while_any_of_its_places_is() {
        let row = |key: &str| RowId::of_usual(key).unwrap();
        let write = |row, callout, value| LedgerEdit::Write {
            row,
            callout,
            value,
            tool: Tool::Caliper,
            whose: Whose::Own,
        };
        let [shank, hole, square] = [
            callouts::bolt_in_hole::SHANK,
            callouts::bolt_in_hole::HOLE,
            callouts::bolt_in_hole::HOLE_SQUARE,
        ];
        let bracket = row("strut_in_bracket");
        let mates = [(shank, 12.0), (hole, 12.6), (square, 12.6)].map(|(at, mm)| write(bracket, at, mm));
        let keep = |design: &Design| lists(design, Which::AsMeasured)[0].clone();
        assert_eq!(keep(&written(mates.clone())), ["strut rod", "strut-rod bracket"]);
        let open = [write(row("strut_on_arm"), callouts::hole_pattern::BOLT, 12.0)];
        let with = written(mates.into_iter().chain(open));
        assert_eq!(keep(&with), ["strut rod: undecided", "lower arm: undecided", "strut-rod bracket"]);
    }
}
