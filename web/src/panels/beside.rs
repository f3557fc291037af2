//! A link over one's own work: both are kept, and what sets them apart is listed.

use crate::browser::aside::Aside;
use crate::browser::visit::Visit;
use crate::dom::{Node, block, button, el, loose};
use crate::format::show;
use crate::panels::parts::REAR_DOWN;
use crate::signals::Derived;
use crate::state::{Page, Selected};
use drawing::{Units, on_side, proposal_name, proposal_names};
use leptos::prelude::untrack;
use truck::{Arm, ChangeKind, Design, Difference, Edit, Kind, Proposal, Reading, SpringKind, differences};

/// The section; empty while there is nothing to decide.
#[inline(never)]
pub(crate) fn beside(visit: Visit) -> Node {
    let both = Derived::new(move || visit.aside());
    block("div", "beside").content_of(move || both.get().map_or_else(loose, |aside| section(visit, &aside)))
}

fn section(visit: Visit, aside: &Aside) -> Node {
    let page = visit.page;
    let (own, link) = aside.own_and_link(page.store.committed());
    let here = if aside.own {
        "The link is on the sketch. Yours is kept beside it."
    } else {
        "Yours is on the sketch. The link is kept beside it."
    };
    let other = if aside.own { "Show mine" } else { "Show the link's" };
    let only = if aside.own { "Drop mine" } else { "Drop the link's" };
    let drop = move || {
        visit.drop_aside();
        page.session.say("Dropped. What is on the sketch stays.");
    };
    let units = page.units();
    let list = differences(&named(&own, &own, units), &named(&alike(link.clone(), &own), &own, units));
    let lines =
        list.iter().map(|one| el("li").text(&in_words(one, units, ["Only yours: ", "Only the link's: "])));
    let take = |proposal: &Proposal| {
        let (words, own, taken) = (
            "Take “".to_owned() + &proposal_name(proposal, units) + "” into mine",
            aside.own,
            proposal.clone(),
        );
        button(&words, move || take_one(visit, own, &taken))
    };
    let choices = block("div", "row")
        .child(button(other, move || visit.swap()).attr("class", "primary"))
        .child(button(only, drop).attr("class", "quiet"));
    let below = "The link below is of what is on the sketch: send it as your answer.";
    loose()
        .child(el("h3").text("A link over your own work"))
        .child(el("p").text(here))
        .child(choices)
        .child(block("div", "row").children(link.proposals.iter().map(take)))
        .child(el("h3").text("What the link changes against yours"))
        .child(el("ul").children(lines))
        .child(block("p", "hint").text(below))
}

/// What sets the design on the page apart from what somebody sent, theirs first, followed; nothing where nobody sent any.
#[inline(never)]
pub(super) fn answered(page: Page) -> Vec<Difference> {
    let (mine, units) = (page.store.committed(), page.units());
    let Some(theirs) = page.sent() else { return Vec::new() };
    differences(&named(&theirs, &theirs, units), &named(&alike(mine, &theirs), &theirs, units))
}

/// The same in words, not followed.
pub(super) fn changed(page: Page) -> Vec<String> {
    let (list, units) = untrack(|| (answered(page), page.units()));
    list.iter().map(|one| in_words(one, units, ["Taken out: ", "Beside it: "])).collect()
}

/// A design in which a plan that another has too has the id that it has there: an answer keeps the id of what it answers,
/// which stands beside it under another.
fn alike(mut design: Design, other: &Design) -> Design {
    for theirs in &other.proposals {
        let plans = &mut design.proposals;
        let has_id = |plan: &Proposal| plan.id == theirs.id;
        let taken = plans.iter().position(has_id);
        let Some(at) = plans.iter().position(|plan| plan.is_but_for_id(theirs)) else { continue };
        if taken.is_some_and(|taken| plans[taken].is_but_for_id(theirs)) {
            continue;
        }
        if let Some(taken) = taken {
            plans[taken].id = plans[at].id;
        }
        plans[at].id = theirs.id;
    }
    design
}

/// A design whose proposals all have names. One that neither design named is called as one's own is: that
/// other parts would call it otherwise is no difference beside those parts.
fn named(design: &Design, own: &Design, units: Units) -> Design {
    let is_unnamed = |proposal: &Proposal| proposal.name.trim().is_empty();
    let own_names = proposal_names(own, units);
    let mut named = design.clone();
    for (proposal, mut name) in named.proposals.iter_mut().zip(proposal_names(design, units)) {
        for (one, own_name) in own.proposals.iter().zip(&own_names) {
            if one.id == proposal.id && is_unnamed(one) && is_unnamed(proposal) {
                name.clone_from(own_name);
            }
        }
        proposal.name = name;
    }
    named
}

/// Puts one of the link's proposals behind one's own, and one's own on the sketch.
pub(super) fn take_one(visit: Visit, own_is_aside: bool, taken: &Proposal) {
    let page = visit.page;
    if own_is_aside {
        visit.swap();
    }
    let id = page.store.committed_now().free_id();
    let take = Edit::TakeProposal(taken.clone());
    page.edit_and_say(&take, Some("Taken into yours. The link is still kept beside it."));
    // Refused, it is not there.
    if page.store.committed_now().proposal(id).is_some() {
        page.session.selected.set(Selected::Proposal(id));
    }
}

/// One difference as a sentence: of this design, then of the other; `only` is said of what one of them alone has.
fn in_words(one: &Difference, units: Units, only: [&str; 2]) -> String {
    let from_to = |name: &str, mine: &str, theirs: &str| [name, ": ", mine, " → ", theirs].concat();
    let number = |kind: Kind, value: Option<f64>| {
        value.map_or_else(|| "open".to_owned(), |value| show(kind, value, units))
    };
    match one {
        Difference::Title(mine, theirs) => from_to("Title", mine, theirs),
        Difference::Note => "The note".to_owned(),
        Difference::Spring(mine, theirs) => from_to("Spring", &spring(*mine), &spring(*theirs)),
        Difference::Number(field, mine, theirs) => {
            from_to(field.label(), &number(field.kind(), *mine), &number(field.kind(), *theirs))
        }
        Difference::Right(field, mine, theirs) => {
            let own = |value: Option<f64>| {
                value.map_or_else(|| "as the left".to_owned(), |value| show(field.kind(), value, units))
            };
            from_to(&("Right: ".to_owned() + field.label()), &own(*mine), &own(*theirs))
        }
        Difference::Rear(field, mine, theirs) => {
            let name = "Rear: ".to_owned() + field.label();
            from_to(&name, &number(field.kind(), *mine), &number(field.kind(), *theirs))
        }
        Difference::Reading(side, of, mine, theirs) => {
            let read = |reading: &Option<Reading>| match reading {
                Some(reading) => number(of.kind(), Some(reading.answer())),
                None => "not read".to_owned(),
            };
            from_to(&[side.label(), ", read off: ", of.label()].concat(), &read(mine), &read(theirs))
        }
        Difference::Sources(fields) => fields.len().to_string() + " numbers: measured, typed or assumed",
        Difference::OnlyHere(name) => only[0].to_owned() + name,
        Difference::OnlyThere(name) => only[1].to_owned() + name,
        Difference::Renamed(mine, theirs) => from_to("Name", mine, theirs),
        Difference::Order => "The order of the plans".to_owned(),
        Difference::ChangeSources(name) => name.clone() + ", numbers: measured, typed or guessed",
        Difference::RearDown(proposal, mine, theirs) => {
            let name = proposal.clone() + ", " + &REAR_DOWN.to_ascii_lowercase();
            from_to(&name, &number(Kind::Length, *mine), &number(Kind::Length, *theirs))
        }
        Difference::Change(proposal, (side, kind, place), mine, theirs) => {
            let of = |change: &Option<truck::Change>| match change {
                Some(change) => numbers(*kind, &change.values(), &number),
                None => "none".to_owned(),
            };
            let name = [proposal, ", ", &kind.title(*place), on_side(*side)].concat();
            from_to(&name, &of(mine), &of(theirs))
        }
    }
}

/// The numbers of a change that say something: those that are neither zero nor open.
fn numbers(kind: ChangeKind, values: &[Option<f64>], number: &dyn Fn(Kind, Option<f64>) -> String) -> String {
    let mut said = Vec::new();
    for (of, value) in kind.numbers().iter().zip(values) {
        if value.is_some_and(|value| value != 0.0) {
            said.push(number(of.kind, *value));
        }
    }
    if said.is_empty() { "as it is".to_owned() } else { said.join(", ") }
}

fn spring((kind, arm): (SpringKind, Arm)) -> String {
    let kind = match kind {
        SpringKind::TorsionBar => "torsion bar",
        SpringKind::Coil => "coil",
        SpringKind::WheelRate => "rate at the wheel",
    };
    let arm = match arm {
        Arm::Lower => " on the lower arm",
        Arm::Upper => " on the upper arm",
    };
    kind.to_owned() + arm
}
