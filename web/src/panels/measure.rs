//! Every number of the truck as measured, in forms, with how to take it.

use crate::derive::Answers;
use crate::dom::{Node, block, button, el, follow, words};
use crate::panels::guide;
use crate::panels::parts::spring_choice;
use crate::panels::read_off::{self, put_cursor, read_off};
use crate::panels::sides::{compared, right_side};
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::told::guessed;
use crate::widgets::{Number, folding, folding_at, picture, text_field};
use drawing::{Handle, Scene, Shown, Sketch, View, Zoom, front_view, size_in_words};
use std::rc::Rc;
use truck::{Edit, Field, Group, Readable, Side, Source};

/// The panel.
#[inline(never)]
pub(crate) fn measure(page: Page, answers: Answers) -> Node {
    let rule = Derived::new(move || page.store.shown().with(|design| design.truck.sources.rule()));
    let start = move || {
        if rule.get() == Source::Assumed {
            return vec![el("p").text_of(move || progress(page)), first_five(page, answers)];
        }
        vec![
            el("p").text("These are the demo truck's numbers."),
            button("Put in my truck", move || page.begin_own()).attr("class", "primary"),
        ]
    };
    let before = || vec![words("words-before")];
    block("section", "panel")
        .attr("aria-label", "My truck")
        .child(el("h2").text("My truck"))
        .child(block("div", "start").content_of(start))
        .child(folding("Before you measure", before))
        .child(spring_choice(page))
        .child(block("div", "row").child(right_side(page)))
        .child(block("p", "hint").text_of(move || differing(page)))
        .child(compared(page))
        .child(read_off(page, answers))
        .children(guide::GROUPS.into_iter().map(|group| fields(page, answers, group)))
}

/// What is read in a driveway, and says at once how low the truck will sit.
const FIVE: [Readable; 4] =
    [Readable::FrameHeight, Readable::FenderAbove, Readable::StopDaylight, Readable::Droop];

/// The five numbers that need no crawling under the truck, and what they are good for.
#[inline(never)]
fn first_five(page: Page, answers: Answers) -> Node {
    let side = page.session.side.get();
    let given = move || {
        page.store.shown().with(|design| {
            let truck = &design.truck;
            let read = FIVE.into_iter().filter(|of| truck.readings.get(*of, side).is_some()).count();
            read + usize::from(truck.sources.of(Field::TireSection) != Source::Assumed)
        })
    };
    let count = el("b").text_of(move || given().to_string() + " of 5");
    block("div", "card five")
        .child(block("header", "row").child(el("h3").text("Five numbers from outside")).child(count))
        .child(words("words-five"))
        .child(tire_size(page))
        .children(FIVE.into_iter().map(|of| read_off::field(page, answers, of, side)))
}

/// The tire's size as it stands on the sidewall.
fn tire_size(page: Page) -> Node {
    let refused = Value::new(String::new());
    let size = move || page.store.shown().with(|design| size_in_words(&design.truck.tire.size));
    let take = move |text: String| match measure::TireSize::parse(&text) {
        Ok(size) => {
            refused.set(String::new());
            page.edit(&Edit::MeasureAll(vec![
                (Field::TireSection, f64::from(size.width_mm)),
                (Field::TireAspect, f64::from(size.aspect_percent)),
                (Field::TireRim, size.rim_in),
            ]));
        }
        Err(why) => refused.set(why.to_string()),
    };
    block("div", "read-off")
        .child(text_field("Tire, as on the sidewall", "input", "20", size, take))
        .child(read_off::refusal(refused))
}

/// How many numbers are still guesses.
fn progress(page: Page) -> String {
    let guessed = page.store.shown().with(|design| design.truck.sources.guessed(&design.truck).len());
    match guessed {
        0 => "Every number is yours.".to_owned(),
        left => {
            left.to_string()
                + " numbers are guesses: type over them. What rests on one is marked ~ and is no verdict."
        }
    }
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

/// One group of numbers: its guide, its picture, its fields.
fn fields(page: Page, answers: Answers, group: Group) -> Node {
    let (name, how, handle) = guide::of(group);
    let is_asked =
        page.session.to_measure.with_now(|field| field.is_some_and(|field| field.group() == group));
    let open = Value::new(is_asked);
    let fields = move || {
        let mut content = vec![words(how)];
        content.extend(handle.map(|handle| place(page, answers, handle)));
        let own = Field::ALL.iter().copied().filter(|field| field.group() == group);
        let right = page.session.side.get() == Side::Right;
        for field in own {
            content.push(number(page, field, right && field.is_sided()));
            if right && field.is_sided() {
                content.push(as_the_left(page, field));
            }
        }
        content
    };
    folding_at(name, open, fields).flag("open", move || open.get())
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
    let number = Number {
        label: field.label(),
        kind: field.kind(),
        limits: field.limits(),
        optional: field.is_optional() && !right,
        stepper: false,
        value: Rc::new(move || {
            shown.with(|design| {
                let own = if right { design.truck.right.get(field) } else { None };
                own.or_else(|| field.get(&design.truck))
            })
        }),
        start: 0.0,
        badge: Rc::new(move || {
            let (guess, own) = shown.with(|design| {
                let guess =
                    field.get(&design.truck).is_some() && design.truck.sources.of(field) == Source::Assumed;
                (guess, right && design.truck.right.get(field).is_some())
            });
            match (own, right, guess) {
                (true, _, _) => "the right's own",
                (false, true, _) => "as the left",
                (false, false, true) => "~ a guess",
                (false, false, false) => "",
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
    let node = number.node(page);
    if page.session.to_measure.now() == Some(field) {
        let element = node.element().clone();
        // Once it stands on the page.
        follow(move || {
            page.session.to_measure.set(None);
            put_cursor(&element);
        });
    }
    node
}

/// Where a group's points are.
fn place(page: Page, answers: Answers, handle: Handle) -> Node {
    let draw = move || {
        let view = View {
            width_px: 300.0,
            height_px: 210.0,
            type_px: 11.0,
            units: page.units(),
            prefix: "where-".to_owned() + handle.key(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        };
        let before = answers.before.get();
        match before.as_ref() {
            Ok(rest) => {
                let shown = Shown { rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
                let sketch = Sketch {
                    now: shown,
                    before: None,
                    others: &[],
                    selected: Some(handle),
                    dragging: None,
                    drop_mm: 0.0,
                    guessed: &guessed(&[], rest, rest.pose),
                };
                front_view(&sketch, &view)
            }
            Err(why) => Scene::message(&why.to_string(), &view),
        }
    };
    block("figure", "where").child(picture(Derived::always(draw)))
}
