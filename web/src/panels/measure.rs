//! Every number of the truck as measured, stage by stage, each with what it is good for and how to take it.

mod sixteenths;
mod tape;

use crate::derive::Answers;
use crate::dom::{Node, as_a, block, button, el, follow, loose, put, words};
use crate::format::unread_in_words;
use crate::panels::as_built::as_built;
use crate::panels::fitted::fitted;
use crate::panels::guide;
use crate::panels::parts::{spring_arm, spring_kind};
use crate::panels::read_off::{self, put_cursor, read_off};
use crate::panels::sides::{compared, right_side};
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::{Number, folding, folding_under, led_to, panel, text_field};
use drawing::{Units, size_in_words};
use leptos::prelude::untrack;
use measure::MM_PER_INCH;
use sixteenths::sixteenths;
use std::rc::Rc;
use tape::{ASKS, Tape};
use truck::{Design, Edit, Field, Group, Kind, Progress, Side, Source, Stage};
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, KeyboardEvent};

/// What each stage is called, and what it is good for; `tests/tests/stages.rs` holds it to that.
const STAGES: [(&str, &str); 5] = [
    (
        "From outside",
        "Good for frame height and the gap over the tire with any spindle, and droop as it sits.",
    ),
    (
        "The arms from the front",
        "Good for camber. Camber in bump, travel to the stop and tire to fender come close enough to pick \
         parts; their ~ goes with stage 4.",
    ),
    (
        "Spring and weight",
        "Good for turns, splines and cut coils, to a few percent; the ~ goes with stage 4.",
    ),
    (
        "Fore and aft, tie rod, lock",
        "Good for caster, bump steer, rubbing at lock and what hits first in bump.",
    ),
    (
        "Shock, brake, joints, shims",
        "Good for whatever else ends the travel, what fits in the rim, and the scrub line.",
    ),
];

/// The panel.
#[inline(never)]
pub(crate) fn measure(page: Page, answers: Answers) -> Node {
    let rule = Derived::new(move || page.store.shown().with(|design| design.truck.sources.rule()));
    let start = move || {
        if rule.get() == Source::Assumed {
            return el("p").text_of(move || left_in_words(page));
        }
        // The demo's, a link's or a file's: whose they are is in its name.
        let whose = move || {
            let title = page.store.shown().with(|design| design.title.clone());
            let of = if title.is_empty() { "another truck" } else { &title };
            ["Numbers of: ", of, "."].concat()
        };
        loose()
            .child(el("p").text_of(whose))
            .child(button("Put in my truck", move || page.begin_own()).attr("class", "primary"))
    };
    let stages = move || {
        let _ = rule.get();
        stages(page, answers)
    };
    let before = || words("words-before");
    let measured = Value::new(None);
    // Asked at the top until one goes to another plan or side.
    follow(move || {
        let _ = (page.selected(), page.session.side.get());
        measured.set(None);
    });
    follow(move || {
        let asked = page.session.measured.get();
        if asked.is_some() {
            measured.set(asked);
        }
    });
    panel("My truck")
        .child(el("div").content_of(move || {
            measured.get().map_or_else(loose, |of| read_off::in_place(page, answers, of))
        }))
        .child(block("div", "start").content_of(start))
        .child(sixteenths(page, Tape::new(page, answers), block("div", "cards").content_of(stages)))
        .child(folding("Before you measure", before))
        .child(block("div", "row").child(right_side(page)))
        .child(block("p", "hint").text_of(move || differing(page)))
        .child(compared(page, answers))
        .child(read_off(page, answers, Stage::Outside.readables()))
        .child(fitted(page))
        .child(as_built(page))
}

/// How far one is with a stage.
fn progress(page: Page, stage: Stage) -> Progress {
    let side = page.session.side.get();
    page.store.shown().with(|design| stage.progress(&design.truck, side))
}

/// How many numbers are still to be had.
fn left_in_words(page: Page) -> String {
    let left: usize = Stage::ALL.into_iter().map(|stage| progress(page, stage).left()).sum();
    match left {
        0 => "Every number is yours.".to_owned(),
        left => {
            left.to_string()
                + if left == 1 { " number" } else { " numbers" }
                + " to go. Gray ones are guesses: type over them. What rests on one is marked ~ and is no \
                   verdict."
        }
    }
}

/// The stages: of one's own truck the first one that is not done is open.
#[inline(never)]
fn stages(page: Page, answers: Answers) -> Node {
    let session = page.session;
    let mut first = session.to_measure.now().and_then(|field| stage_of(page, field));
    let (mut all, mut next) = (loose(), None);
    for of in Stage::ALL {
        let is_begun = || is_own(page) && progress(page, of).left() > 0;
        if first.is_none() && untrack(is_begun) {
            first = Some(of);
        }
    }
    // The last one first: each leads into the one behind it.
    for of in Stage::ALL.into_iter().rev() {
        let open = Value::new(first == Some(of));
        all = loose().child(stage(page, answers, of, (open, next))).child(all);
        next = Some(open);
    }
    // The stage that is read off is the first one.
    let outside = next;
    follow(move || {
        let is_asked = session.to_read.get().is_some_and(|of| Stage::Outside.readables().contains(&of));
        if let (true, Some(open)) = (is_asked, outside) {
            open.set(true);
        }
    });
    all
}

/// Whether what is not typed is a guess.
fn is_own(page: Page) -> bool {
    page.store.shown().with(|design| design.truck.sources.rule() == Source::Assumed)
}

/// The stage that asks for a number.
fn stage_of(page: Page, field: Field) -> Option<Stage> {
    page.store.shown().with_now(|design| Stage::of(field, design.truck.spring.kind))
}

/// One stage under its heading; `open` of it, and of the one behind it.
#[inline(never)]
fn stage(page: Page, answers: Answers, of: Stage, (open, next): (Value<bool>, Option<Value<bool>>)) -> Node {
    let (name, good_for) = STAGES[of as usize];
    let far = move || {
        let Progress { given, asked } = progress(page, of);
        match (is_own(page), given == asked) {
            (false, _) => String::new(),
            (true, true) => "✓ all ".to_owned() + &asked.to_string(),
            (true, false) => [&given.to_string(), " of ", &asked.to_string()].concat(),
        }
    };
    let heading = el("summary")
        .child(block("b", "name").text(&((of as usize + 1).to_string() + ". " + name)))
        .child(block("b", "far").text_of(far))
        .child(el("small").text(good_for));
    let content = move || goes_on(page, of, fields(page, answers, of), open, next);
    folding_under(heading, open, content).flag("open", move || open.get())
}

/// The fields of a stage: Enter in the last one folds it, and leads into the next stage.
fn goes_on(page: Page, of: Stage, fields: Node, open: Value<bool>, next: Option<Value<bool>>) -> Node {
    let body = fields.element().clone();
    fields.on("keydown", move |event| {
        let here = event.target().and_then(|target| target.dyn_into::<HtmlElement>().ok());
        let is_enter = as_a::<KeyboardEvent>(event).key() == "Enter";
        let (Some(here), Some(next)) = (here, next.filter(|next| is_enter && !next.now())) else { return };
        // What is wrong stays where it is.
        let is_last = !led_to(&here).is_some_and(|field| body.contains(Some(&field)));
        if is_last && here.get_attribute("aria-invalid").is_none() {
            let kind = page.store.shown().with_now(|design| design.truck.spring.kind);
            page.session.to_measure.set(Stage::ALL[of as usize + 1].fields(kind).next());
            // Left while it still stands: taken off the page with the cursor in it, it says once more that it changed.
            let _ = here.blur();
            open.set(false);
            next.set(true);
        }
    })
}

/// What a stage asks for, in the order in which it is taken.
#[inline(never)]
fn fields(page: Page, answers: Answers, of: Stage) -> Node {
    let side = page.session.side.get();
    let right = side == Side::Right;
    let kind = Derived::new(move || page.store.shown().with(|design| design.truck.spring.kind));
    // The left's size is one text.
    let is_text = of == Stage::Outside && !right;
    let numbers = move || {
        let (mut content, mut group) = (loose(), None);
        let is_shown = |field: &Field| !(is_text && is_of_size(*field));
        for field in of.fields(kind.get()).filter(is_shown) {
            if group.replace(field.group()) != Some(field.group()) {
                content = content.child(how(field.group()));
            }
            content = content.child(number(page, field, right && field.is_sided()));
            if right && field.is_sided() {
                content = content.child(as_the_left(page, field));
            }
        }
        content
    };
    let first = if is_text { Some(tire_size(page)) } else { None };
    let spring = match (of, right) {
        (Stage::Outside, false) => Some(spring_kind(page, "spring")),
        // Who went on without saying it is asked again.
        (Stage::Spring, _) if !page.store.shown().with_now(|design| design.truck.spring_is_known()) => {
            Some(loose().child(spring_kind(page, "spring-here")).child(spring_arm(page)))
        }
        (Stage::Spring, _) => Some(spring_arm(page)),
        _ => None,
    };
    let read = of.readables().iter().map(|of| {
        let node = read_off::field(page, answers, *of, side).attr(ASKS, of.key());
        digits(&node);
        node
    });
    let whole = block("div", "folded").children(spring).children(first);
    whole.children(read).child(block("div", "folded").content_of(numbers))
}

/// What no size was read from.
const OLDER: &str = "Type a size like 195/75R14 or 31x10.50R15. One like F78-14 or 185R14 does not say how high it is: type the nearest \
                     of these, and in stage 4 its diameter.";

/// The tire's size as it stands on the sidewall.
fn tire_size(page: Page) -> Node {
    let refused = Value::new(String::new());
    let size = move || page.store.shown().with(|design| size_in_words(&design.truck.tire.size));
    let take = move |text: String| match measure::TireSize::parse(&text) {
        Ok(size) => {
            refused.set(String::new());
            page.edit(&Edit::MeasureAll(vec![
                (Field::TireSection, size.width_mm),
                (Field::TireAspect, size.aspect_percent),
                (Field::TireRim, size.rim_in),
            ]));
        }
        // A slash stands before the height: with one it is a size with a slip in it.
        Err(why) if text.contains('/') => refused.set(unread_in_words(&why)),
        Err(_) => refused.set(OLDER.to_owned()),
    };
    let node = block("div", "read-off")
        .attr(ASKS, Field::TireSection.key())
        .child(text_field("Tire, as on the sidewall", "input", "20", size, take))
        .child(read_off::refusal(refused));
    come_to(page, &node, is_of_size);
    node
}

/// Whether a number is part of the size, which is one text on the sidewall.
fn is_of_size(field: Field) -> bool {
    matches!(field, Field::TireSection | Field::TireAspect | Field::TireRim)
}

/// How the right stands to the left, while it is measured.
fn differing(page: Page) -> String {
    if page.session.side.get() == Side::Left {
        return String::new();
    }
    let own = page.store.shown().with(|design| design.truck.right.iter().count());
    let start = match own {
        0 => "The right is the left's mirror".to_owned(),
        own => "The right's own numbers: ".to_owned() + &own.to_string(),
    };
    start + ". What you type or drag now is the right's alone, measured from the centerline outward."
}

/// Gives a number of the right's own up.
fn as_the_left(page: Page, field: Field) -> Node {
    let own = move || page.store.shown().with(|design| design.truck.right.get(field).is_some());
    let back = move || page.edit(&Edit::MeasureRight(vec![(field, None)]));
    button("As the left", back)
        .attr("aria-label", &("As the left: ".to_owned() + field.label()))
        .flag("hidden", move || !own())
}

/// A number of the truck, or of its right side alone.
fn number(page: Page, field: Field, right: bool) -> Node {
    let shown = page.store.shown();
    let assumed = move |design: &Design| design.truck.sources.of(field) == Source::Assumed;
    let is_guess =
        move || !right && shown.with(|design| field.get(&design.truck).is_some() && assumed(design));
    let number = Number {
        label: field.label(),
        kind: field.kind(),
        limits: field.limits(),
        optional: field.is_optional() && !right,
        stepper: false,
        value: Rc::new(move || {
            shown.with(|design| {
                let own = if right { design.truck.right.get(field) } else { None };
                own.or_else(|| {
                    let value = field.get(&design.truck)?;
                    let is_rough = field.datum().is_some() && assumed(design);
                    Some(if is_rough { roughly(value, page.units()) } else { value })
                })
            })
        }),
        start: 0.0,
        badge: Rc::new(move || {
            match (right && shown.with(|design| design.truck.right.get(field).is_some()), right) {
                (true, _) => "the right's own",
                (false, true) => "as the left",
                (false, false) if is_guess() => "~ a guess",
                (false, false) => "",
            }
            .to_owned()
        }),
        take: Rc::new(move |value| {
            page.edit(&if right {
                Edit::MeasureRight(vec![(field, value)])
            } else {
                Edit::Measure { field, value }
            });
        }),
    };
    let node = number.node(page).attr(ASKS, field.key()).class_if("guess", is_guess);
    if field.kind() == Kind::Length && field.limits().0 >= 0.0 {
        digits(&node);
    }
    come_to(page, &node, |asked| asked == field);
    node
}

/// A place as a guess is worth: to a quarter of an inch, or to five millimetres.
fn roughly(mm: f64, units: Units) -> f64 {
    let step = if units == Units::Inches { MM_PER_INCH / 4.0 } else { 5.0 };
    (mm / step).round() * step
}

/// Asks a phone for digits alone: nothing of it is below zero, and the sixteenths are under it.
fn digits(node: &Node) {
    if let Ok(Some(input)) = node.element().query_selector("input") {
        put(&input, "inputmode", "decimal");
    }
}

/// Puts the cursor into a field that was asked for.
fn come_to(page: Page, node: &Node, is_it: impl Fn(Field) -> bool) {
    if page.session.to_measure.now().is_some_and(is_it) {
        let element = node.element().clone();
        // Once it stands on the page.
        follow(move || {
            page.session.to_measure.set(None);
            put_cursor(&element);
        });
    }
}

/// How a group is measured.
fn how(group: Group) -> Node {
    let (name, how) = guide::of(group);
    folding(&(name.to_owned() + ": how to measure"), move || words(how))
}
