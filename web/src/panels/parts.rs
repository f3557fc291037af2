//! The parts of the selected proposal, by what is in the hand: added, typed, stepped, removed.

mod card;

use crate::browser::frames::soon;
use crate::derive::{Answers, name_of, selected_name};
use crate::dom::{Node, block, button, el, loose, there as there_is};
use crate::signals::{Derived, Kept, Value};
use crate::state::{Page, Selected};
use crate::told::write;
use crate::widgets::{Number, choice, labelled, remark, typed_text};
use card::{card, come_to, offer, put_on, take_off};
use drawing::each_in_words;
use leptos::prelude::untrack;
use std::cell::Cell;
use std::rc::Rc;
use truck::{Arm, ChangeKind, Edit, Kind, Place, Proposal, ProposalId, SpringKind, notes_of};

/// What is in the hand, and the changes that it makes; the first is the one that is meant most often.
const HANDS: [(&str, &[ChangeKind]); 9] = [
    ("Spindle", &[ChangeKind::DroppedSpindle, ChangeKind::KnuckleSwap]),
    (
        "Arms and rods",
        &[ChangeKind::ArmSwap, ChangeKind::MovedPivot, ChangeKind::StrutRod, ChangeKind::TieRod],
    ),
    ("Flip a ball joint", &[ChangeKind::JointTurned]),
    (
        "Bar or spring",
        &[
            ChangeKind::BarAdjuster,
            ChangeKind::CutCoil,
            ChangeKind::BarReindex,
            ChangeKind::BarSwap,
            ChangeKind::AnchorSwap,
            ChangeKind::CoilSwap,
            ChangeKind::SeatSpacer,
        ],
    ),
    ("Shims", &[ChangeKind::Shims]),
    ("Tire and wheel", &[ChangeKind::TireSwap]),
    ("Stop and shock", &[ChangeKind::StopTrim, ChangeKind::Shock]),
    ("Brakes", &[ChangeKind::Brake]),
    (
        "Rear",
        &[
            ChangeKind::RearBlock,
            ChangeKind::AxleFlip,
            ChangeKind::RearHangers,
            ChangeKind::RearShackle,
            ChangeKind::RearSpring,
            ChangeKind::RearNotch,
            ChangeKind::RearStop,
            ChangeKind::RearShock,
            ChangeKind::RearTire,
        ],
    ),
];

/// What else is in the hand than what is meant most often.
const MORE: &str = "Something else";
/// What is said of a part that was only looked at.
const LOOKED: &str = "Nothing was entered, so it is not on the plan.";
/// The id of the panel, which begins with what can hurt someone.
const PARTS: &str = "parts";

/// Where a change stands in a proposal.
type Slot = (ChangeKind, Option<Place>);

/// What is taken into the hand.
#[derive(Clone, Copy, PartialEq)]
struct Hand {
    /// Its place among the hands.
    at: usize,
    /// Whether taking it up put on the plan what is meant by it: what is added then comes instead.
    is_fresh: bool,
}

/// Which of the hands is open.
type Open = Value<Option<Hand>>;

/// The panel.
#[inline(never)]
pub(crate) fn parts(page: Page, answers: Answers) -> Node {
    let remarks = move || said(page, answers);
    let open = Open::new(None);
    // Only another choice builds the panel anew, not every edit.
    let selected = Derived::new(move || {
        let id = page.selected().proposal();
        // Asked for only where no plan is on the sketch: before one, an answer puts what it answers.
        let first = || page.store.shown().with(|design| design.proposals.first().map(|one| one.id));
        (id, if id.is_none() { first() } else { None })
    });
    let body = move || match selected.get() {
        (Some(id), _) => changes(page, id, open),
        (None, first) => measured(page, open, first),
    };
    block("section", "panel parts")
        .attr("id", PARTS)
        .attr("aria-label", "Parts")
        .child(el("h2").text_of(move || selected_name(page)))
        .child(block("div", "remarks").content_of(remarks))
        .child(block("div", "cards").content_of(body))
}

/// What is to be said of the changes that are shown, what can hurt someone first.
pub(crate) fn said(page: Page, answers: Answers) -> Node {
    let Some(fitted) = answers.fitted.get() else { return loose() };
    let which = page.selected();
    let notes = page.store.shown().with(|design| notes_of(&design.truck, design.overlay(which)));
    let mut all = loose();
    for note in notes {
        all = all.child(remark(&note.to_string(), note.is_danger()));
    }
    for misfit in &fitted.remarks {
        all = all.child(remark(&misfit.to_string(), false));
    }
    all
}

fn measured(page: Page, open: Open, first: Option<ProposalId>) -> Node {
    let start = match first {
        Some(id) => button("Go to the plan", move || page.session.selected.set(Selected::Proposal(id)))
            .attr("class", "primary"),
        None => hands(page, open, &[]),
    };
    let what = "This is the truck before any change. Drag a point, or type in My truck, to correct it.";
    loose().child(el("p").text(what)).child(start).child(spring_kind(page, "spring")).child(spring_arm(page))
}

/// Adds a proposal and selects it.
pub(crate) fn add_proposal(page: Page) {
    let id = page.store.committed_now().free_id();
    page.edit(&Edit::AddProposal(String::new()));
    page.session.selected.set(Selected::Proposal(id));
}

fn changes(page: Page, id: ProposalId, open: Open) -> Node {
    let remove = move || {
        page.edit_and_say(&Edit::RemoveProposal(id), Some("The plan was removed."));
        page.session.selected.set(Selected::AsMeasured);
    };
    // Only another list of changes builds the cards anew, not every number.
    let there = Derived::new(move || slots(page, id));
    let body = move || {
        let there = there.get();
        match open.get() {
            Some(now) => hand(page, id, open, now, &there),
            None => loose().child(lines(page, id, open)).child(hands(page, open, &there)),
        }
    };
    loose()
        .child(block("div", "cards").content_of(body))
        .child(name_field(page, id))
        .child(block("div", "numbers").child(rear_down(page, id)))
        .child(button("Remove this plan", remove).attr("class", "quiet"))
}

/// The changes of a plan by their places, followed.
fn slots(page: Page, id: ProposalId) -> Vec<Slot> {
    page.store.shown().with(|design| {
        let mut slots: Vec<Slot> = Vec::new();
        for (_, change) in design.overlay(id).every() {
            if !slots.contains(&change.slot()) {
                slots.push(change.slot());
            }
        }
        slots
    })
}

/// What is on a plan, each a line that opens.
fn lines(page: Page, id: ProposalId, open: Open) -> Node {
    // Another number says another line, once a drag has ended.
    let said = Derived::new(move || {
        let design = page.store.committed();
        let overlay = design.overlay(id);
        let slots: Vec<Slot> = overlay.every().iter().map(|(_, change)| change.slot()).collect();
        slots.into_iter().zip(each_in_words(&overlay, page.units())).collect::<Vec<_>>()
    });
    block("div", "lines").content_of(move || {
        let mut all = loose();
        for (slot, words) in said.get() {
            let show = move || {
                let at = HANDS.iter().position(|(_, kinds)| kinds.contains(&slot.0));
                open.set(at.map(|at| Hand { at, is_fresh: false }));
                come_to(slot);
            };
            all = all.child(write(button("", show), &words));
        }
        all
    })
}

/// What there is to take into the hand.
fn hands(page: Page, open: Open, there: &[Slot]) -> Node {
    let has = Derived::new(move || page.store.with_committed(|design| design.truck.spring.kind));
    let mut all = block("div", "hands");
    for (at, (name, kinds)) in HANDS.iter().enumerate() {
        let is_on = there.iter().any(|(kind, _)| kinds.contains(kind));
        all = all.child(
            button(name, move || take_up(page, open, at))
                .attr("class", if is_on { "on" } else { "" })
                .flag("disabled", move || suited(at, has.get()).is_empty()),
        );
    }
    all
}

/// The changes of a hand that suit a spring.
fn suited(at: usize, has: SpringKind) -> Vec<ChangeKind> {
    let mut kinds = HANDS[at].1.to_vec();
    kinds.retain(|kind| kind.spring().is_none_or(|needed| needed == has));
    kinds
}

/// The one change that is meant by a hand, where it is one: what has several places or is the rear's is asked for.
fn meant(kinds: &[ChangeKind]) -> Option<ChangeKind> {
    kinds.first().copied().filter(|kind| kind.places().is_empty() && !kind.is_rear())
}

/// Opens what is in the hand. Where nothing of it is on the plan yet what is meant by it is put there, and the
/// cursor in its number.
fn take_up(page: Page, open: Open, at: usize) {
    if page.selected_now() == Selected::AsMeasured {
        add_proposal(page);
    }
    let Some(id) = page.selected_now().proposal() else { return };
    let there = untrack(|| slots(page, id));
    let is_fresh = !there.iter().any(|(kind, _)| HANDS[at].1.contains(kind));
    open.set(Some(Hand { at, is_fresh }));
    soon(|| {
        if let Some(panel) = there_is(PARTS) {
            panel.element().scroll_into_view();
        }
    });
    let has = page.store.committed_now().truck.spring.kind;
    if let Some(slot) = meant(&suited(at, has)).map(|kind| (kind, None)) {
        if is_fresh {
            put_on(page, id, slot);
        }
        come_to(slot);
    }
}

/// What is in the hand: the changes that are on the plan, then what else can be.
fn hand(page: Page, id: ProposalId, open: Open, Hand { at, is_fresh }: Hand, there: &[Slot]) -> Node {
    // Not followed: an edit of a number would build anew what it was typed into.
    let kinds = suited(at, page.store.committed_now().truck.spring.kind);
    let meant = meant(&kinds);
    // Opened to look is not put on; what was typed is, were it the same.
    let is_typed = Kept::new(Cell::new(false));
    let close = move || {
        if let Some(meant) = meant.filter(|_| is_fresh && !is_typed.with(Cell::get)) {
            take_off(page, id, meant, Some(LOOKED));
        }
        open.set(None);
    };
    let head = el("header")
        .child(el("h3").text(HANDS[at].0))
        .child(button("All parts", close).attr("class", "toggle"));
    let mut all = block("div", "cards").child(head).on("input", move |_| is_typed.with(|is| is.set(true)));
    for slot in there {
        if HANDS[at].1.contains(&slot.0) {
            all = all.child(card(page, id, *slot));
        }
    }
    let more = block("details", "group").child(el("summary").text(MORE));
    let mut is_more = false;
    for kind in kinds {
        let places = open_places(kind, there);
        let is_other = meant.is_some_and(|meant| meant != kind);
        if places.is_empty() {
            continue;
        }
        let offer = offer(page, id, kind, places, meant.filter(|_| is_other && is_fresh));
        if is_other {
            is_more = true;
            more.clone().child(offer);
        } else {
            all = all.child(offer);
        }
    }
    if is_more { all.child(more) } else { all }
}

/// The name of a proposal. While it has none of its own its parts stand there in grey.
pub(crate) fn name_field(page: Page, id: ProposalId) -> Node {
    let own = move || {
        page.store
            .shown()
            .with(|design| design.proposal(id).map(|found| found.name.clone()).unwrap_or_default())
    };
    let rename = move |name| page.edit(&Edit::RenameProposal(id, name));
    let input =
        typed_text("input", "60", own, rename).attr_of("placeholder", move || Some(name_of(page, id)));
    labelled("Name", input)
}

/// What the forms call how far a proposal's rear comes down.
pub(crate) const REAR_DOWN: &str = "Rear comes down by";

/// How far the rear comes down: it decides what the gauge on the ground makes of caster.
fn rear_down(page: Page, id: ProposalId) -> Node {
    let now = Derived::new(move || page.store.shown().with(|design| design.overlay(id).rear_down_mm));
    Number {
        label: REAR_DOWN,
        kind: Kind::Length,
        limits: Proposal::REAR_DOWN_LIMITS_MM,
        optional: true,
        stepper: true,
        value: Rc::new(move || now.get()),
        start: 0.0,
        badge: Rc::new(move || if now.get().is_none() { "not stated" } else { "" }.to_owned()),
        take: Rc::new(move |value| page.edit(&Edit::RearDown(id, value))),
    }
    .node(page)
}

/// The places at which a change of a kind is not there yet.
fn open_places(kind: ChangeKind, there: &[Slot]) -> Vec<Option<Place>> {
    let mut all: Vec<Option<Place>> = kind.places().iter().copied().map(Some).collect();
    if all.is_empty() {
        all.push(None);
    }
    all.retain(|place| !there.contains(&(kind, *place)));
    all
}

/// Which kind of spring the truck has: none is chosen before somebody says it. `id` tells one such choice on the page
/// from another.
pub(crate) fn spring_kind(page: Page, id: &str) -> Node {
    let kinds = [
        (Some(SpringKind::TorsionBar), "Torsion bar"),
        (Some(SpringKind::Coil), "Coil"),
        (Some(SpringKind::WheelRate), "Rate at the wheel"),
    ];
    let chosen = move || {
        page.store.shown().with(|design| {
            let truck = &design.truck;
            truck.spring_is_known().then_some(truck.spring.kind)
        })
    };
    let choose = move |kind: Option<SpringKind>| {
        if let Some(kind) = kind {
            page.edit(&Edit::SpringKind(kind));
        }
    };
    choice("Spring", id, &kinds, chosen, choose)
}

/// Which arm it stands on.
pub(crate) fn spring_arm(page: Page) -> Node {
    let arms = [(Arm::Lower, "Lower arm"), (Arm::Upper, "Upper arm")];
    let chosen = move || page.store.shown().with(|design| design.truck.spring.arm);
    choice("Carried by", "arm", &arms, chosen, move |arm| page.edit(&Edit::SpringArm(arm)))
}
