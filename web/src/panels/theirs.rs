//! What somebody sent: whose truck, what can hurt in it, which parts, and what to do with it.

use crate::browser::visit::{Visit, Whose};
use crate::derive::short_names;
use crate::dom::{Node, block, button, el, follow, loose};
use crate::panels::beside::take_one;
use crate::state::{PaneHeight, Panel, Selected};
use drawing::{dangers, each_in_words, rear_in_words};
use leptos::prelude::untrack;
use truck::{Design, Overlay, Proposal};

/// The panel, and once it is answered the comparison in its place.
#[inline(never)]
pub(crate) fn theirs(visit: Visit) -> Node {
    let session = visit.page.session;
    follow(move || {
        if visit.whose() == Whose::Own && session.panel.now() == Panel::Theirs {
            session.panel.set(Panel::Compare);
        }
    });
    block("section", "panel theirs")
        .attr("aria-label", Panel::Theirs.name())
        .content_of(move || content(visit))
}

fn content(visit: Visit) -> Node {
    let page = visit.page;
    let selected = page.selected();
    let design = page.store.committed();
    let plan = selected.proposal().and_then(|id| design.proposal(id)).cloned();
    let said = dangers(&design, selected);
    loose()
        .child(el("h2").text(&heading(&design)))
        .children(said.iter().map(|said| block("p", "danger").text(said)))
        .child(parts(visit, plan.as_ref()))
        .child(turns(visit, plan))
        .children((!design.note.is_empty()).then(|| block("p", "note").text(&design.note)))
        .children(
            visit.own_waits().then(|| block("p", "hint").text("Your own truck is safe under My trucks.")),
        )
}

fn heading(design: &Design) -> String {
    let what = match design.proposals.len() {
        0 => "Somebody's truck",
        1 => "Somebody's plan",
        _ => "Somebody's plans",
    };
    match (design.title.as_str(), design.proposals.len()) {
        ("", _) => what.to_owned(),
        (title, 0) => [what, ": ", title].concat(),
        (title, _) => [what, " for ", title].concat(),
    }
}

/// The plan on the sketch, part by part; with the truck as it sits there, their plans to be put there.
fn parts(visit: Visit, plan: Option<&Proposal>) -> Node {
    let page = visit.page;
    let Some(plan) = plan else {
        let show = |(id, name): (_, String)| {
            button(&name, move || page.session.selected.set(Selected::Proposal(id)))
        };
        return block("div", "row").children(short_names(page).into_iter().map(show));
    };
    let name = (!plan.name.trim().is_empty()).then(|| el("b").text(&plan.name));
    let (overlay, units) = (Overlay::from(plan), page.units());
    let mut each = each_in_words(&overlay, units);
    each.extend(rear_in_words(&overlay, units));
    block("div", "tape").children(name).child(el("ul").children(each.iter().map(|part| el("li").text(part))))
}

/// What there is to do: to change it, and to have it on one's own truck.
fn turns(visit: Visit, plan: Option<Proposal>) -> Node {
    let page = visit.page;
    let session = page.session;
    let first = plan.as_ref().map(|plan| plan.id);
    let answer = move || {
        let plans = page.store.committed_now().proposals;
        if let Some(id) = first.or_else(|| plans.first().map(|plan| plan.id)) {
            page.answer(id);
        }
        session.turn_to(Panel::Parts);
    };
    let lowered = move || {
        session.panel.set(Panel::Parts);
        session.pane_height.set(PaneHeight::Lowered);
    };
    let back = move || {
        lowered();
        visit.swap();
    };
    let all = block("div", "row").child(button("Try a change", answer).attr("class", "primary"));
    if !untrack(|| visit.own_waits()) {
        let mine = move || {
            lowered();
            page.came.set(None);
        };
        return all
            .child(button("Put in my truck", move || page.begin_own()))
            .child(button("This is mine", mine).attr("class", "quiet"));
    }
    let take = plan.map(|plan| {
        button("On my truck", move || {
            lowered();
            take_one(visit, true, &plan);
        })
    });
    all.children(take).child(button("Back to mine", back))
}
