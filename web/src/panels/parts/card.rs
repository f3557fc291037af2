//! One change of a plan: its main number in sight, what else it has folded, on which sides it is.

use super::Slot;
use crate::browser::frames::soon;
use crate::dom::{Node, block, button, el, is_set, loose, there, words};
use crate::signals::{Derived, Value};
use crate::state::{Page, Panel};
use crate::widgets::Number;
use drawing::part_replaced;
use mating::{Verdict, verdict};
use std::ops::Range;
use std::rc::Rc;
use truck::{Change, ChangeField, ChangeKind, Design, Edit, Kind, PartId, Place, ProposalId, Side, Source};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlElement;

/// How many of a change's numbers are in sight, the one that it is named for first.
fn in_sight(kind: ChangeKind) -> usize {
    let count = match kind {
        // Turned over it is by its switch.
        ChangeKind::JointTurned => 0,
        ChangeKind::TireSwap => 3,
        ChangeKind::Shims | ChangeKind::BarSwap | ChangeKind::Shock | ChangeKind::KnuckleSwap => 2,
        ChangeKind::MovedPivot | ChangeKind::AnchorSwap | ChangeKind::CoilSwap | ChangeKind::Brake => 5,
        _ => 1,
    };
    count.min(kind.numbers().len())
}

/// What a card is found by.
pub(super) fn card_id((kind, place): Slot) -> String {
    ["part-", kind.key(), place.map_or("", Place::key)].concat()
}

/// Turns a ball joint over, and back.
fn switch(title: &str, is_on: bool, press: impl Fn() + 'static) -> Node {
    button("", press)
        .attr("class", "switch")
        .attr("role", "switch")
        .attr("aria-checked", if is_on { "true" } else { "false" })
        .attr("aria-label", title)
}

/// A change that is there, with its numbers.
pub(super) fn card(page: Page, id: ProposalId, slot: Slot) -> Node {
    let (kind, place) = slot;
    let remove = move || page.edit(&Edit::Clear(id, kind, place));
    let title = kind.title(place);
    let toggle = if kind == ChangeKind::JointTurned {
        switch(&title, true, remove)
    } else {
        button("Remove", remove).attr("class", "toggle").attr("aria-label", &("Remove ".to_owned() + &title))
    };
    block("article", "card")
        .attr("id", &card_id(slot))
        .child(el("header").child(el("h3").text(&title)).child(toggle))
        .child(block("div", "numbers").content_of(by_side(page, id, slot)))
        .child(words(&("what-".to_owned() + kind.key())).attr("class", "what"))
        .children(part_replaced(slot).map(|part| bolts_up(page, part)))
}

/// How many of a part's places were asked about, and the way to them.
fn bolts_up(page: Page, part: PartId) -> Node {
    let said = move || {
        page.store.with_committed(|design| {
            let (mut asked, mut all) = (0_u8, 0_u8);
            for row in design.ledger.rows() {
                if row.parts().contains(&part) {
                    let is_open = matches!(verdict(&design.ledger, &row).verdict, Verdict::NotAsked { .. });
                    (asked, all) = (asked + u8::from(!is_open), all + 1);
                }
            }
            ["Bolts up: ", &asked.to_string(), " of ", &all.to_string(), " asked"].concat()
        })
    };
    let turn = move || {
        page.session.in_hand.set(Some(part));
        page.session.turn_to(Panel::BoltUp);
    };
    button("", turn).text_of(said)
}

/// Puts a change on a plan, as it begins, and the cursor in its number.
pub(super) fn put_on(page: Page, id: ProposalId, slot: Slot) {
    if let Some(change) = slot.0.first(slot.1, &page.store.committed_now().truck) {
        page.edit(&Edit::Set(id, change));
        come_to(slot);
    }
}

/// Takes a change off a plan that is still as it begins; says so, where that is given, with Undo beside it.
pub(super) fn take_off(page: Page, id: ProposalId, kind: ChangeKind, done: Option<&str>) {
    let design = page.store.committed_now();
    let begun = kind.first(None, &design.truck);
    if begun.is_some() && each_of(&design, id, (kind, None)) == [begun; 2] {
        page.edit_and_say(&Edit::Clear(id, kind, None), done);
    }
}

/// The cursor in a change's main number, once it stands there.
pub(super) fn come_to(slot: Slot) {
    soon(move || {
        let field = there(&card_id(slot)).and_then(|card| card.element().query_selector("input").ok()?);
        if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlElement>().ok()) {
            let _ = field.focus();
        }
    });
}

/// A kind of change that can be added, at each place that is open; `instead` of one that nobody has touched yet.
pub(super) fn offer(
    page: Page,
    id: ProposalId,
    kind: ChangeKind,
    open: Vec<Option<Place>>,
    instead: Option<ChangeKind>,
) -> Node {
    let is_joint = kind == ChangeKind::JointTurned;
    let add = |place: Option<Place>| {
        let title = kind.title(place);
        let put = move || {
            if let Some(other) = instead {
                take_off(page, id, other, None);
            }
            put_on(page, id, (kind, place));
        };
        if is_joint {
            return el("header").child(el("h3").text(&title)).child(switch(&title, false, put));
        }
        let words = if place.is_some() { title.as_str() } else { "Add" };
        button(words, put).attr("class", "toggle").attr("aria-label", &("Add ".to_owned() + &title))
    };
    let what = words(&("what-".to_owned() + kind.key())).attr("class", "what");
    // The one place needs no name, so its button stands beside the heading.
    let here = open == [None];
    let head = el("header").child(el("h3").text(kind.label()));
    let mut row = if here { head } else { block("div", if is_joint { "switches" } else { "row" }) };
    // Of the joints the upper one first: it is the one that is turned over.
    for place in open.into_iter().rev() {
        row = row.child(add(place));
    }
    let card = block("article", "card off");
    let card = if here || is_joint { card } else { card.child(el("h3").text(kind.label())) };
    if here || is_joint { card.child(row).child(what) } else { card.child(what).child(row) }
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
        let mut more = el("details").child(el("summary").text("More of this part"));
        let folded = in_sight(slot.0)..slot.0.numbers().len();
        for side in sides {
            let numbers = |which| numbers(page, id, slot, *side, which);
            // Two fields of one name are told apart by what they stand in.
            let named = |numbers: Node| match side.filter(|_| sides.len() > 1) {
                Some(side) => block("div", "numbers")
                    .attr("role", "group")
                    .attr("aria-label", side.label())
                    .child(el("h4").text(side.label()))
                    .child(numbers),
                None => numbers,
            };
            all = all.child(named(numbers(0..folded.start)));
            if !folded.is_empty() {
                more = more.child(named(numbers(folded.clone())));
            }
        }
        if !slot.0.is_rear() {
            more = more.child(choice().node(page));
        } else if folded.is_empty() {
            return all;
        }
        all.child(more)
    }
}

/// The numbers of a slot, of one side where they are not both's.
fn numbers(page: Page, id: ProposalId, (kind, place): Slot, side: Option<Side>, which: Range<usize>) -> Node {
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
    loose().children(which.map(field))
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
