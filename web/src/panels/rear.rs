//! The rear: its numbers, how it stands with the plan's parts on it, and what comes of it.

use crate::derive::{Answers, selected_name};
use crate::dom::{Node, block, button, el, loose, words};
use crate::signals::Derived;
use crate::state::{Page, PaneHeight, Panel};
use crate::told::{plain, write};
use crate::widgets::{Number, folding, remark};
use drawing::{Ends, Units, marked, rear_verdict, spread_in_words};
use std::rc::Rc;
use study::{RearTold, Stance, rear_told};
use truck::{Edit, Proposal, RearField, RearGroup, Side, notes};

/// What the panel tells, worked out while nothing moves.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Said {
    /// What is to be said first: dangers, which are told apart, and what is missing.
    first: Vec<(String, bool)>,
    /// What is wrong, and what is too near to tell: which answer, and the sentence.
    pub(crate) judged: Vec<(&'static str, String)>,
    /// Each answer: which, its name, as it is, as it sits.
    pub(crate) rows: Vec<(&'static str, [String; 3])>,
}

/// The panel.
#[inline(never)]
pub(crate) fn rear(page: Page, answers: Answers) -> Node {
    let said = Derived::new(
        move || {
            if page.session.is_moving.get() { Said::default() } else { told(page, answers) }
        },
    );
    let first = move || {
        said.with(|said| {
            let mut all = loose();
            for (line, is_danger) in &said.first {
                all = all.child(remark(line, *is_danger));
            }
            if said.judged.is_empty() {
                return all;
            }
            let mut judged = block("div", "remark");
            for (_, line) in &said.judged {
                judged = judged.child(write(el("div"), line));
            }
            all.child(judged)
        })
    };
    let see = move || {
        page.look_from_the_side(Ends::Rear);
        page.session.pane_height.set(PaneHeight::Half);
    };
    let see = button("See it from the side", see).flag("hidden", move || !page.has_rear_spring());
    let parts = button("Rear parts of the plan", move || page.session.panel.set(Panel::Parts));
    block("section", "panel rear")
        .attr("aria-label", "The rear")
        .child(el("h2").text_of(move || "The rear: ".to_owned() + &selected_name(page)))
        .child(words("words-rear"))
        .child(block("div", "remarks").attr("aria-live", "polite").content_of(first))
        .child(block("div", "row").child(see).child(parts))
        .child(el("h3").text("As it sits"))
        .child(block("div", "cards").children(RearGroup::ALL.map(|group| numbers(page, group))))
        .child(block("div", "cards").content_of(move || said.with(|said| list(&said.rows))))
        .child(words("words-rear-work"))
}

/// What is said of the truck on the sketch.
pub(crate) fn told(page: Page, answers: Answers) -> Said {
    let (now, before) = (answers.standing.get(), answers.before.get());
    let (Ok(now), Ok(before)) = (now.as_ref(), before.as_ref()) else { return Said::default() };
    let (now, before, units) = (now.stance(), before.stance(), page.units());
    let mut said = Said { first: dangers(page, now), ..Said::default() };
    let answers = rear_told(now);
    said.first.extend(answers.trouble.map(|why| (why.to_string() + ".", false)));
    said.first.extend(answers.taken.map(|said| (said.to_owned(), false)));
    for (told, was) in answers.told.iter().zip(rear_told(before).told) {
        let value = in_words(told, units);
        said.judged.extend(rear_verdict(told, &value).map(|said| (told.answer.key(), said)));
        if told.value.is_some() {
            let row = [told.answer.label().to_owned(), value, in_words(&was, units)];
            said.rows.push((told.answer.key(), row));
        }
    }
    said
}

/// What can hurt someone, of the plan's changes of the rear.
fn dangers(page: Page, stance: &Stance) -> Vec<(String, bool)> {
    let id = page.selected().proposal();
    let changes = page.store.shown().with(|design| {
        let all = id.and_then(|id| design.proposal(id)).map_or(&[][..], Proposal::changes);
        all.iter().filter(|change| change.kind().is_rear()).copied().collect::<Vec<_>>()
    });
    let measured = &stance.corner(Side::Left).fitted.measured;
    notes(measured, &changes).iter().map(|note| (note.to_string(), note.is_danger())).collect()
}

fn in_words(told: &RearTold, units: Units) -> String {
    let sort = told.answer.sort();
    let mut said = plain(told.value, sort, units);
    if let Some(spread) = told.spread.and_then(|spread| spread_in_words(sort, spread, units)) {
        said = said + " " + &spread;
    }
    marked(said, told.is_guess)
}

/// The answers, each beside that of the truck as it sits where it differs; nothing while there is none.
fn list(rows: &[(&str, [String; 3])]) -> Node {
    if rows.is_empty() {
        return loose();
    }
    let mut list = block("dl", "cautions");
    for (_, [name, now, was]) in rows {
        let mut said = write(el("dd"), now);
        if now != was {
            said = said.child(write(el("small"), &["; as it sits ", was].concat()));
        }
        list = list.child(el("dt").text(name)).child(said);
    }
    loose().child(el("h3").text("What comes of it")).child(list)
}

/// The numbers of a group, each open until it is typed.
fn numbers(page: Page, group: RearGroup) -> Node {
    folding(group.label(), move || {
        let mut fields = block("div", "numbers");
        for field in RearField::ALL {
            if field.group() == group {
                fields = fields.child(number(page, field));
            }
        }
        fields
    })
}

fn number(page: Page, field: RearField) -> Node {
    let now = Derived::new(move || page.store.shown().with(|design| design.truck.rear.get(field)));
    Number {
        label: field.label(),
        kind: field.kind(),
        limits: field.limits(),
        optional: true,
        stepper: false,
        value: Rc::new(move || now.get()),
        start: 0.0,
        badge: Rc::new(move || if now.get().is_none() { "not measured" } else { "" }.to_owned()),
        take: Rc::new(move |value| page.edit(&Edit::MeasureRear(field, value))),
    }
    .node(page)
}
