//! The changes of the selected proposal: added, typed, stepped, removed.

use crate::derive::{Answers, name_of, selected_name};
use crate::dom::{Node, block, button, el, is_set, loose, words};
use crate::signals::{Derived, Value};
use crate::state::{Page, Selected};
use crate::widgets::{Number, choice, folding, labelled, typed_text};
use leptos::prelude::untrack;
use std::rc::Rc;
use truck::{
    Arm, Change, ChangeField, ChangeKind, Design, Edit, Kind, Place, Proposal, ProposalId, Side, Source,
    SpringKind, notes_of,
};
use wasm_bindgen::JsValue;

/// The panel.
#[inline(never)]
pub(crate) fn parts(page: Page, answers: Answers) -> Node {
    let remarks = move || said(page, answers);
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

/// What is to be said of the changes that are shown, what can hurt someone first.
pub(crate) fn said(page: Page, answers: Answers) -> Node {
    let Some(fitted) = answers.fitted.get() else { return loose() };
    let which = page.selected();
    let notes = page.store.shown().with(|design| notes_of(&design.truck, design.overlay(which)));
    let mut said: Vec<String> = notes.iter().map(ToString::to_string).collect();
    said.extend(fitted.remarks.iter().map(ToString::to_string));
    loose().children(said.iter().map(|said| block("p", "remark").text(said)))
}

fn measured(page: Page) -> Node {
    let first =
        move || page.store.shown().with(|design| design.proposals.first().map(|proposal| proposal.id));
    let go = move || match untrack(first) {
        Some(id) => page.session.selected.set(Selected::Proposal(id)),
        None => add_proposal(page),
    };
    let words = move || if first().is_some() { "Go to the plan" } else { "Add a plan" }.to_owned();
    let what = "This is the truck before any change. Drag a point, or type in My truck, to correct it.";
    loose()
        .child(el("p").text(what))
        .child(button("", go).attr("class", "primary").text_of(words))
        .child(spring_choice(page))
}

/// Adds a proposal and selects it.
pub(crate) fn add_proposal(page: Page) {
    let id = page.store.committed_now().free_id();
    page.edit(&Edit::AddProposal(String::new()));
    page.session.selected.set(Selected::Proposal(id));
}

fn changes(page: Page, id: ProposalId) -> Node {
    let remove = move || {
        page.edit_and_say(&Edit::RemoveProposal(id), Some("The plan was removed."));
        page.session.selected.set(Selected::AsMeasured);
    };
    // Only another list of changes builds the cards anew, not every number.
    let there = Derived::new(move || {
        page.store.shown().with(|design| {
            let mut slots: Vec<Slot> = Vec::new();
            for (_, change) in design.overlay(id).every() {
                if !slots.contains(&change.slot()) {
                    slots.push(change.slot());
                }
            }
            slots
        })
    });
    let cards = move || loose().children(there.get().into_iter().map(|slot| card(page, id, slot)));
    let mut content = loose().child(name_field(page, id)).child(block("div", "cards").content_of(cards));
    // Not at every frame of a drag either.
    let has = Derived::new(move || page.store.shown().with(|design| design.truck.spring.kind));
    for (name, kinds) in &OFFERS {
        let offers = move || {
            let has = has.get();
            let mut offers = loose();
            for kind in kinds.iter().copied() {
                if kind.spring().is_none_or(|needed| needed == has) {
                    offers = offers.children(offer(page, id, kind, there.with(|there| open(kind, there))));
                }
            }
            offers
        };
        content = content.child(if name.is_empty() {
            block("div", "cards").content_of(offers)
        } else {
            folding(name, offers)
        });
    }
    content
        .child(block("div", "numbers").child(rear_down(page, id)))
        .child(button("Remove this plan", remove).attr("class", "quiet"))
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

/// Where a change stands in a proposal.
type Slot = (ChangeKind, Option<Place>);

/// What can be added: the usual at once, the rest folded away by topic.
const OFFERS: [(&str, &[ChangeKind]); 6] = [
    ("", &[ChangeKind::DroppedSpindle, ChangeKind::BarAdjuster, ChangeKind::CutCoil, ChangeKind::TireSwap]),
    (
        "Arms, joints and pivots",
        &[
            ChangeKind::KnuckleSwap,
            ChangeKind::ArmSwap,
            ChangeKind::JointTurned,
            ChangeKind::MovedPivot,
            ChangeKind::StrutRod,
        ],
    ),
    (
        "Bar or coil",
        &[
            ChangeKind::BarReindex,
            ChangeKind::BarSwap,
            ChangeKind::AnchorSwap,
            ChangeKind::CoilSwap,
            ChangeKind::SeatSpacer,
        ],
    ),
    ("Shims and tie rod", &[ChangeKind::Shims, ChangeKind::TieRod]),
    ("Stop, shock, brake", &[ChangeKind::StopTrim, ChangeKind::Shock, ChangeKind::Brake]),
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

/// The places at which a change of a kind is not there yet.
fn open(kind: ChangeKind, there: &[Slot]) -> Vec<Option<Place>> {
    let mut all: Vec<Option<Place>> = kind.places().iter().copied().map(Some).collect();
    if all.is_empty() {
        all.push(None);
    }
    all.retain(|place| !there.contains(&(kind, *place)));
    all
}

/// A kind of change that can be added, at each place that is open.
fn offer(page: Page, id: ProposalId, kind: ChangeKind, open: Vec<Option<Place>>) -> Option<Node> {
    let add = move |place: Option<Place>| {
        let title = kind.title(place);
        let words = if place.is_some() { title.as_str() } else { "Add" };
        let press = move || {
            if let Some(change) = kind.first(place, &page.store.committed_now().truck) {
                page.edit(&Edit::Set(id, change));
            }
        };
        button(words, press).attr("class", "toggle").attr("aria-label", &("Add ".to_owned() + &title))
    };
    if open.is_empty() {
        return None;
    }
    let head = el("header").child(el("h3").text(kind.label()));
    let what = words(&("what-".to_owned() + kind.key())).attr("class", "what");
    // The one place needs no name, so its button stands beside the heading.
    let here = open == [None];
    let mut row = if here { head.clone() } else { block("div", "row") };
    for place in open {
        row = row.child(add(place));
    }
    let card = block("article", "card off").child(head).child(what);
    Some(if here { card } else { card.child(row) })
}

/// A change that is there, with its numbers.
fn card(page: Page, id: ProposalId, (kind, place): Slot) -> Node {
    let remove = move || page.edit(&Edit::Clear(id, kind, place));
    let title = kind.title(place);
    let toggle =
        button("Remove", remove).attr("class", "toggle").attr("aria-label", &("Remove ".to_owned() + &title));
    block("article", "card")
        .child(el("header").child(el("h3").text(&title)).child(toggle))
        .child(words(&("what-".to_owned() + kind.key())).attr("class", "what"))
        .child(block("div", "numbers").content_of(by_side(page, id, (kind, place))))
}

/// What a slot can be said of.
const SIDES: &[&str] = &["both sides", "the left alone", "the right alone", "each side by itself"];
const EACH: u8 = 3;

/// What left and right have in a slot.
fn each_of(design: &Design, id: ProposalId, (kind, place): Slot) -> [Option<Change>; 2] {
    Side::ALL.map(|side| design.proposal(id).and_then(|found| found.change_at(side, kind, place)).copied())
}

/// The numbers of a slot, for both sides or for each, and the choice between them.
fn by_side(page: Page, id: ProposalId, slot: Slot) -> impl Fn() -> Node {
    // Two sides that are by themselves may be alike for a while.
    let apart = Value::new(false);
    let on = Derived::new(move || {
        page.store.shown().with(|design| match each_of(design, id, slot) {
            [Some(_), None] => 1,
            [None, Some(_)] => 2,
            [left, right] if left != right || apart.get() => EACH,
            _ => 0,
        })
    });
    let take = move |to: Option<f64>| {
        let each = each_of(&page.store.committed_now(), id, slot);
        let one = each[0].or(each[1]);
        let to = (0..=EACH).find(|at| to == Some(f64::from(*at)));
        apart.set(to == Some(EACH));
        page.edit(&Edit::SetEach(
            id,
            match to {
                Some(1) => [one, None],
                Some(2) => [None, each[1].or(one)],
                Some(EACH) => [one, each[1].or(one)],
                _ => [one; 2],
            },
        ));
    };
    let choice = move || Number {
        label: "On",
        kind: Kind::Choice(SIDES),
        limits: (0.0, 0.0),
        optional: false,
        stepper: false,
        value: Rc::new(move || Some(f64::from(on.get()))),
        start: 0.0,
        badge: Rc::new(String::new),
        take: Rc::new(take),
    };
    move || {
        let sides: &[Option<Side>] = match on.get() {
            0 => &[None],
            1 => &[Some(Side::Left)],
            2 => &[Some(Side::Right)],
            _ => &[Some(Side::Left), Some(Side::Right)],
        };
        let mut all = loose();
        for side in sides {
            let numbers = numbers(page, id, slot, *side);
            all = all.child(match side.filter(|_| sides.len() > 1) {
                // Two fields of one name are told apart by what they stand in.
                Some(side) => block("div", "numbers")
                    .attr("role", "group")
                    .attr("aria-label", side.label())
                    .child(el("h4").text(side.label()))
                    .child(numbers),
                None => numbers,
            });
        }
        if slot.0.is_rear() { all } else { all.child(choice().node(page)) }
    }
}

/// The numbers of a slot, of one side where they are not both's.
fn numbers(page: Page, id: ProposalId, (kind, place): Slot, side: Option<Side>) -> Node {
    let at_side =
        move |design: &Design| each_of(design, id, (kind, place))[side.unwrap_or_default() as usize];
    let change = Derived::new(move || page.store.shown().with(at_side));
    let field = |at: usize| {
        let number = kind.numbers()[at];
        let take = move |value: Option<f64>| {
            let mut each = each_of(&page.store.committed_now(), id, (kind, place));
            let Some(before) = each[side.unwrap_or_default() as usize] else { return };
            match before.with_value(at, value) {
                Some(after) => {
                    match side {
                        Some(side) => each[side as usize] = Some(after),
                        None => each = [Some(after); 2],
                    }
                    page.edit(&Edit::SetEach(id, each));
                }
                None => page.session.complain(number.label().to_owned() + ": outside what can be entered."),
            }
        };
        let field = Number {
            label: number.label(),
            kind: number.kind,
            limits: number.limits,
            optional: number.optional,
            stepper: true,
            value: Rc::new(move || change.get().and_then(|change| change.values()[at])),
            start: kind.open_value(at, &page.store.committed_now().truck).unwrap_or(0.0),
            badge: Rc::new(String::new),
            take: Rc::new(take),
        };
        field.node(page)
    };
    // A part's number can be a guess, and then every answer that it touches is one.
    let field = |at: usize| {
        let guess = kind.is_part().then(|| guess(page, id, (kind, place, at)));
        el("div").child(field(at)).children(guess)
    };
    let count = kind.numbers().len();
    // The number that the change is named for first, the finer ones folded away.
    let first = if kind == ChangeKind::DroppedSpindle { 1 } else { count };
    let content = loose().children((0..first).map(field));
    if count == first {
        return content;
    }
    let more = el("details").child(el("summary").text("More of this part"));
    content.child(more.children((first..count).map(field)))
}

/// Whether a number of a change is a guess.
fn guess(page: Page, id: ProposalId, field: ChangeField) -> Node {
    let (kind, _, at) = field;
    let is_guess = move || {
        let source = page.store.shown().with(|design| design.overlay(id).sources.of(field));
        JsValue::from_bool(source == Source::Assumed)
    };
    let flip = move |event| {
        let source = if is_set(&event, "checked") { Source::Assumed } else { Source::Typed };
        page.edit(&Edit::ChangeSource(id, field, source));
    };
    let input = el("input")
        .attr("type", "checkbox")
        .attr("aria-label", &(kind.numbers()[at].label().to_owned() + ": a guess"))
        .prop_of("checked", is_guess)
        .on("change", flip);
    block("label", "check").child(input).child(el("span").text("a guess"))
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
