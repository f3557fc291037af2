//! The changes of the selected proposal: added, typed, stepped, removed.

use crate::derive::{Answers, selected_name};
use crate::dom::{Node, block, button, el};
use crate::signals::Derived;
use crate::state::{Page, Selected};
use crate::widgets::{Number, choice, text_field};
use leptos::prelude::untrack;
use std::rc::Rc;
use truck::{
    Arm, BarAdjuster, Change, ChangeKind, CutCoil, Design, DroppedSpindle, Edit, MovedPivot, Place,
    ProposalId, SpringKind, TireSwap, Truck,
};

/// The panel.
#[inline(never)]
pub(crate) fn parts(page: Page, answers: Answers) -> Node {
    let remarks = move || {
        let fitted = answers.fitted.get();
        let lines = fitted.as_ref().map(|fitted| fitted.remarks.as_slice()).unwrap_or_default();
        lines.iter().map(|remark| block("p", "remark").text(&remark.to_string())).collect()
    };
    // Only another choice builds the panel anew, not every edit.
    let selected = Derived::new(move || page.selected());
    let body = move || match selected.get() {
        Selected::AsMeasured => measured(page),
        Selected::Proposal(id) => changes(page, id),
    };
    block("section", "panel")
        .attr("aria-label", "Parts")
        .child(el("h2").text_of(move || selected_name(page)))
        .child(block("div", "remarks").content_of(remarks))
        .child(block("div", "cards").content_of(body))
}

fn measured(page: Page) -> Vec<Node> {
    let first =
        move || page.store.shown().with(|design| design.proposals.first().map(|proposal| proposal.id));
    let go = move || match untrack(first) {
        Some(id) => page.session.selected.set(Selected::Proposal(id)),
        None => add_proposal(page),
    };
    let words = move || if first().is_some() { "Go to the proposal" } else { "Add a proposal" }.to_owned();
    vec![
        el("p").text("This is the truck before any change. Drag a point, or type in Measure, to correct it."),
        button("", go).attr("class", "primary").text_of(words),
        spring_choice(page),
    ]
}

/// Adds a proposal and selects it.
pub(crate) fn add_proposal(page: Page) {
    let id = page.store.committed_now().free_id();
    page.edit(&Edit::AddProposal("Proposal".to_owned()));
    page.session.selected.set(Selected::Proposal(id));
}

fn changes(page: Page, id: ProposalId) -> Vec<Node> {
    let name = move || {
        page.store
            .shown()
            .with(|design| design.proposal(id).map(|found| found.name.clone()).unwrap_or_default())
    };
    let rename = move |name| page.edit(&Edit::RenameProposal(id, name));
    let remove = move || {
        page.edit(&Edit::RemoveProposal(id));
        page.session.selected.set(Selected::AsMeasured);
        page.session.say("The proposal was removed. Undo brings it back.");
    };
    let mut content = vec![text_field("Name", "input", "60", name, rename)];
    content.extend(slots().into_iter().map(|(kind, place)| slot(page, id, kind, place)));
    content.push(button("Remove this proposal", remove).attr("class", "quiet"));
    content
}

/// Every slot that a proposal can fill.
fn slots() -> Vec<(ChangeKind, Option<Place>)> {
    let mut all = Vec::new();
    for kind in ChangeKind::ALL {
        if kind.places().is_empty() {
            all.push((kind, None));
        }
        all.extend(kind.places().iter().map(|place| (kind, Some(*place))));
    }
    all
}

fn slot(page: Page, id: ProposalId, kind: ChangeKind, place: Option<Place>) -> Node {
    let shown = page.store.shown();
    let change = Derived::new(move || {
        shown.with(|design| design.proposal(id).and_then(|found| found.change(kind, place)).copied())
    });
    let there = Derived::new(move || change.with(Option::is_some));
    let title = match place {
        Some(place) => "Move ".to_owned() + place.label(),
        None => kind.label().to_owned(),
    };
    let fits = move || {
        let has = shown.with(|design| design.truck.spring.kind);
        needs(kind).is_none_or(|needed| needed == has)
    };
    let toggle = move || {
        if there.now() {
            page.edit(&Edit::Clear(id, kind, place));
        } else if let Some(change) = page.store.committed_now().first_change(kind, place) {
            page.edit(&Edit::Set(id, change));
        }
    };
    // A single pivot is moved now and then: its card shows once it has been.
    let rare =
        matches!(place, Some(Place::LowerFront | Place::LowerRear | Place::UpperFront | Place::UpperRear));
    let word = move || if there.get() { "Remove" } else { "Add" }.to_owned();
    let spoken = title.clone();
    let toggle = button("", toggle)
        .attr("class", "toggle")
        .attr_of("aria-label", move || Some(word() + " " + &spoken))
        .text_of(word);
    let numbers = move || if there.get() { numbers(page, id, kind, place, change) } else { Vec::new() };
    block("article", "card")
        .class_if("off", move || !there.get())
        .flag("hidden", move || (rare || !fits()) && !there.get())
        .child(el("header").child(el("h3").text(&title)).child(toggle))
        .child(block("p", "what").text(what(kind)))
        .child(block("div", "numbers").content_of(numbers))
}

fn numbers(
    page: Page,
    id: ProposalId,
    kind: ChangeKind,
    place: Option<Place>,
    change: Derived<Option<Change>>,
) -> Vec<Node> {
    let field = |at: usize| {
        let number = kind.numbers()[at];
        let take = move |value: Option<f64>| {
            let now = page.store.committed_now();
            let Some(before) = now.proposal(id).and_then(|found| found.change(kind, place)) else { return };
            match before.with_value(at, value) {
                Some(after) => page.edit(&Edit::Set(id, after)),
                None => page.session.complain(number.label.to_owned() + ": outside what can be entered."),
            }
        };
        let field = Number {
            label: number.label,
            kind: number.kind,
            optional: number.optional,
            stepper: true,
            value: Rc::new(move || change.get().and_then(|change| change.values()[at])),
            badge: Rc::new(String::new),
            take: Rc::new(take),
        };
        field.node(page)
    };
    let count = kind.numbers().len();
    // The number that the change is named for first, the finer ones folded away.
    let first = if kind == ChangeKind::DroppedSpindle { 1 } else { count };
    let mut content: Vec<Node> = (0..first).map(field).collect();
    if count > first {
        let more = el("details").child(el("summary").text("More of this part"));
        content.push(more.children((first..count).map(field)));
    }
    content
}

/// The spring a change works on.
const fn needs(kind: ChangeKind) -> Option<SpringKind> {
    match kind {
        ChangeKind::BarAdjuster => Some(SpringKind::TorsionBar),
        ChangeKind::CutCoil => Some(SpringKind::Coil),
        _ => None,
    }
}

/// What a change does, in a sentence.
const fn what(kind: ChangeKind) -> &'static str {
    match kind {
        ChangeKind::DroppedSpindle => {
            "The pin sits higher on the knuckle. The body comes down; the arms stay where they are."
        }
        ChangeKind::MovedPivot => "The pivots are bolted elsewhere on the frame; the arm keeps its length.",
        ChangeKind::BarAdjuster => {
            "Out lowers and eats bump travel. A bar stores enough energy to kill: truck on stands, bar unloaded."
        }
        ChangeKind::CutCoil => {
            "Shorter and stiffer. Never cut with a torch; a cut coil can come off its seat at droop, and some inspections fail one."
        }
        ChangeKind::TireSwap => {
            "Another size or another wheel. Leave the loaded radius open and it follows the size."
        }
    }
}

/// A change as it starts out when it is added.
trait FirstChange {
    fn first_change(&self, kind: ChangeKind, place: Option<Place>) -> Option<Change>;
}

impl FirstChange for Design {
    fn first_change(&self, kind: ChangeKind, place: Option<Place>) -> Option<Change> {
        let Truck { tire, wheel, .. } = &self.truck;
        Some(match kind {
            ChangeKind::DroppedSpindle => {
                Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() })
            }
            ChangeKind::MovedPivot => {
                Change::MovedPivot(MovedPivot { place: place?, by_mm: linkage::Vector3::zeros() })
            }
            ChangeKind::BarAdjuster => Change::BarAdjuster(BarAdjuster { turns: -4.0 }),
            ChangeKind::CutCoil => Change::CutCoil(CutCoil { coils: 0.5 }),
            ChangeKind::TireSwap => Change::TireSwap(TireSwap {
                size: tire.size,
                rim_width_mm: wheel.rim_width_mm,
                offset_mm: wheel.offset_mm,
                loaded_radius_mm: None,
            }),
        })
    }
}

/// Which spring the truck has, and on which arm.
pub(crate) fn spring_choice(page: Page) -> Node {
    let spring = Derived::new(move || page.store.shown().with(|design| design.truck.spring));
    let kinds = [
        (SpringKind::TorsionBar, "Torsion bar"),
        (SpringKind::Coil, "Coil"),
        (SpringKind::WheelRate, "Rate at the wheel"),
    ];
    let arms = [(Arm::Lower, "Lower arm"), (Arm::Upper, "Upper arm")];
    let set_kind = move |kind| page.edit(&Edit::SpringKind(kind));
    let set_arm = move |arm| page.edit(&Edit::SpringArm(arm));
    block("div", "spring")
        .child(choice("Spring", "spring", &kinds, move || spring.get().kind, set_kind))
        .child(choice("Carried by", "arm", &arms, move || spring.get().arm, set_arm))
}
