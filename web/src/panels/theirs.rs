//! What somebody sent: whose truck, what can hurt in it, which parts, and what to do with it.

use crate::browser::frames::soon;
use crate::browser::size::is_low;
use crate::browser::visit::{Visit, Whose};
use crate::derive::{Answers, short_names};
use crate::dom::{Node, block, button, el, follow, loose};
use crate::panels::beside::take_one;
use crate::state::{Page, PaneHeight, Panel, Selected};
use crate::widgets::remark;
use drawing::{dangers, each_in_words, rear_in_words};
use truck::{Design, Edit, Overlay, Proposal};

/// The panel, and once it is answered the comparison in its place.
#[inline(never)]
pub(crate) fn theirs(visit: Visit, answers: Answers) -> Node {
    let session = visit.page.session;
    follow(move || {
        if visit.whose() != Whose::Somebody && session.panel.now() == Panel::Theirs {
            session.panel.set(Panel::Compare);
        }
    });
    if is_low() {
        soon(move || say_first(visit.page));
    }
    block("section", "panel theirs")
        .attr("aria-label", Panel::Theirs.name())
        .content_of(move || content(visit, answers))
}

/// Where the panel lies under the sketch, what it says first is said above that.
fn say_first(page: Page) {
    match dangers(&page.store.committed_now(), page.selected_now()).into_iter().next() {
        Some(danger) => page.session.complain(danger),
        None => page.session.say("What they sent is below the sketch."),
    }
}

fn content(visit: Visit, answers: Answers) -> Node {
    let page = visit.page;
    let selected = page.selected();
    let design = page.store.committed();
    let plan = selected.proposal().and_then(|id| design.proposal(id)).cloned();
    let said = dangers(&design, selected);
    // What does nothing on this truck is no part of the answer, and stands among the parts.
    let left_out = answers.fitted.with(|fitted| {
        fitted
            .as_ref()
            .map_or_else(Vec::new, |fitted| fitted.remarks.iter().map(ToString::to_string).collect())
    });
    loose()
        .child(el("h2").text(&heading(&design)))
        .children(said.iter().map(|said| block("p", "danger").text(said)))
        .child(parts(visit, plan.as_ref()))
        .children(left_out.iter().map(|said| remark(said, false)))
        .child(turns(visit, plan))
        .children(
            (!design.note.is_empty())
                .then(|| block("p", "note").text(&["They wrote: ", &design.note].concat())),
        )
        .child(last(visit))
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
    if each.is_empty() {
        each.push("Nothing changed yet".to_owned());
    }
    block("div", "tape").children(name).child(el("ul").children(each.iter().map(|part| el("li").text(part))))
}

/// What there is to do: to change it, and to have it on one's own truck.
fn turns(visit: Visit, plan: Option<Proposal>) -> Node {
    let page = visit.page;
    let change = button("Try a change", move || {
        // The truck as it sits is no plan.
        let first = page.store.committed_now().proposals.first().map(|plan| plan.id);
        if let (Selected::AsMeasured, Some(first)) = (page.selected_now(), first) {
            page.session.selected.set(Selected::Proposal(first));
        }
        page.session.turn_to(Panel::Parts);
    })
    .attr("class", "primary");
    let own = visit.own_waits();
    let on_mine = plan.map(|plan| {
        let put = move || if own { on_own(visit, &plan) } else { begin(visit) };
        button("Put it on my truck", put)
    });
    let back = own.then(|| {
        button("Back to my truck", move || {
            lower(visit);
            visit.swap();
        })
    });
    block("div", "row").child(change).children(on_mine).children(back)
}

/// The plan goes behind those of one's own truck, which comes back for it.
fn on_own(visit: Visit, plan: &Proposal) {
    lower(visit);
    take_one(visit, true, plan);
}

/// One's own truck begins with their plan: what they call theirs and wrote of it says nothing of one's own.
fn begin(visit: Visit) {
    let page = visit.page;
    visit.forget_sent();
    let mut own = page.store.committed_now();
    for edit in [Edit::Title(String::new()), Edit::Note(String::new()), Edit::OwnTruck] {
        own = own.edited(&edit).unwrap_or(own);
    }
    page.replace(own, page.store.number_now());
    page.begin_own();
}

/// What is last: where one's own is, or that this is it.
fn last(visit: Visit) -> Node {
    if visit.own_waits() {
        return block("p", "hint").text("Your own truck is safe under My trucks.");
    }
    let mine = move || {
        lower(visit);
        visit.forget_sent();
        visit.page.session.say("What you change is changed in the plan itself.");
    };
    block("p", "hint").child(button("I sent this myself", mine).attr("class", "quiet"))
}

/// The sketch alone, and what a desk has beside it.
fn lower(visit: Visit) {
    let session = visit.page.session;
    session.panel.set(Panel::Parts);
    session.pane_height.set(PaneHeight::Lowered);
}
