//! The rear: its numbers, how it stands with the plan's parts on it, and what comes of it.

use crate::derive::{Answers, selected_name};
use crate::dom::{Node, block, button, el, words};
use crate::format::readout_style;
use crate::signals::Derived;
use crate::state::{Page, Panel};
use crate::told::write;
use crate::widgets::{Number, folding, picture};
use drawing::{RearShown, Scene, Units, View, Zoom, marked, rear_view, spread_in_words};
use measure::{fixed, print_angle, print_length};
use std::rc::Rc;
use study::{Judged, RearRest, RearTold, Sort, Stance, Value, rear_told, rear_trouble};
use truck::{Edit, Proposal, RearField, RearGroup, RearParts, Side, notes};

/// What the panel tells, worked out while nothing moves.
#[derive(Clone, Debug, Default, PartialEq)]
struct Said {
    /// What is to be said first: dangers, what is wrong, what is open.
    first: Vec<String>,
    /// Each answer: its name, as it is, as it sits.
    rows: Vec<[String; 3]>,
}

/// The panel.
#[inline(never)]
pub(crate) fn rear(page: Page, answers: Answers) -> Node {
    let said = Derived::new(
        move || {
            if page.session.is_moving.get() { Said::default() } else { told(page, answers) }
        },
    );
    let first = move || said.with(|said| said.first.iter().map(|line| remark(line)).collect());
    let parts = button("Rear parts of this plan", move || page.session.panel.set(Panel::Parts));
    block("section", "panel rear")
        .attr("aria-label", "The rear")
        .child(el("h2").text_of(move || "The rear: ".to_owned() + &selected_name(page)))
        .child(words("words-rear"))
        .child(block("div", "remarks").attr("aria-live", "polite").content_of(first))
        .child(block("figure", "where").child(picture(Derived::always(move || draw(page, answers)))))
        .child(block("div", "row").child(parts))
        .child(block("div", "cards").content_of(move || said.with(|said| vec![table(page, &said.rows)])))
        .child(el("h3").text("As it sits"))
        .child(block("div", "cards").children(RearGroup::ALL.map(|group| numbers(page, group))))
}

fn remark(line: &str) -> Node {
    write(block("p", "remark"), line)
}

/// What is said of the truck on the sketch.
fn told(page: Page, answers: Answers) -> Said {
    let (now, before) = (answers.now.get(), answers.before.get());
    let (Ok(now), Ok(before)) = (now.as_ref(), before.as_ref()) else { return Said::default() };
    let (now, before, units) = (now.stance(), before.stance(), page.units());
    let mut said = Said { first: dangers(page, now), rows: Vec::new() };
    said.first.extend(rear_trouble(now).map(|why| {
        let why = why.to_string();
        why[..1].to_ascii_uppercase() + &why[1..] + "."
    }));
    for (told, was) in rear_told(now).iter().zip(rear_told(before)) {
        let value = in_words(told, units);
        if let Some(verdict) = verdict(told.judged) {
            said.first.push([told.answer.label(), ", ", &value, ": ", verdict, "."].concat());
        }
        if told.value.is_some() {
            said.rows.push([told.answer.label().to_owned(), value, in_words(&was, units)]);
        }
    }
    said
}

/// What can hurt someone, of the plan's changes of the rear.
fn dangers(page: Page, stance: &Stance) -> Vec<String> {
    let id = page.selected().proposal();
    let changes = page.store.shown().with(|design| {
        let all = id.and_then(|id| design.proposal(id)).map_or(&[][..], Proposal::changes);
        all.iter().filter(|change| change.kind().is_rear()).copied().collect::<Vec<_>>()
    });
    let measured = &stance.corner(Side::Left).fitted.measured;
    notes(measured, &changes).iter().map(ToString::to_string).collect()
}

fn verdict(judged: Judged) -> Option<&'static str> {
    Some(match judged {
        Judged::Fine => return None,
        Judged::Tight => "little, or not as it should be",
        Judged::Bad => "does not work",
        Judged::Open => "too near to tell",
    })
}

fn in_words(told: &RearTold, units: Units) -> String {
    let sort = told.answer.sort();
    let plain = match told.value {
        Some(Value::Words(words)) => words.to_owned(),
        Some(Value::Number(rad)) if sort == Sort::Angle => print_angle(rad, 2),
        Some(Value::Number(share)) if sort == Sort::Share => fixed(share * 100.0, 0) + " %",
        Some(Value::Number(mm)) => print_length(mm, readout_style(units)),
        _ => return "—".to_owned(),
    };
    let spread = told.spread.and_then(|spread| spread_in_words(sort, spread, units));
    marked(spread.map_or(plain.clone(), |spread| plain + " " + &spread), told.is_guess)
}

fn table(page: Page, rows: &[[String; 3]]) -> Node {
    if rows.is_empty() {
        return block("p", "hint").text("No answer yet: type what you have measured below.");
    }
    let head = |text: &str| el("th").attr("scope", "col").text(text);
    let names = el("tr").child(el("td")).child(head("As it sits")).child(head(&selected_name(page)));
    let row = |[name, now, was]: &[String; 3]| {
        let cell = |said: &str| write(el("td"), said);
        el("tr").child(el("th").attr("scope", "row").text(name)).child(cell(was)).child(cell(now))
    };
    let table = block("table", "compare")
        .child(el("thead").child(names))
        .child(el("tbody").children(rows.iter().map(row)));
    block("div", "scroll")
        .attr("tabindex", "0")
        .attr("role", "region")
        .attr("aria-label", "Answers")
        .child(table)
}

fn draw(page: Page, answers: Answers) -> Scene {
    let view = View {
        width_px: 340.0,
        height_px: 200.0,
        type_px: 11.0,
        units: page.units(),
        prefix: "rear".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let now = answers.now.get();
    let rest = match now.as_ref() {
        Ok(now) => now,
        Err(why) => return Scene::message(&why.to_string(), &view),
    };
    let fitted = &rest.fitted;
    let parts = RearParts::of(&fitted.rear);
    match RearRest::of(fitted, 0.0) {
        Ok(rest) => rear_view(&RearShown { rear: &fitted.measured.rear, parts: &parts, rest: &rest }, &view),
        Err(why) => Scene::message(&why.to_string(), &view),
    }
}

/// The numbers of a group, each open until it is typed.
fn numbers(page: Page, group: RearGroup) -> Node {
    folding(group.label(), move || {
        let fields = RearField::ALL.into_iter().filter(|field| field.group() == group);
        vec![block("div", "numbers").children(fields.map(|field| number(page, field)))]
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
