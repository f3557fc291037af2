//! The page's one screen: sketch, readouts, panels.

use crate::browser::visit::{Visit, Whose};
use crate::browser::{dress, news, preferences, size};
use crate::derive::Answers;
use crate::dom::{Node, as_a, block, button, el, follow, loose, on_window, value_of, whole_number};
use crate::format::readout_style;
use crate::later::{Later, SecondModule};
use crate::pane::pane;
use crate::panels::{follow_lessons, readouts, which};
use crate::signals::{Derived, Value};
use crate::sketch::sketchpads;
use crate::state::{Page, PaneHeight, Panel, Session, Tone};
use drawing::{Units, capital};
use leptos::prelude::{document, mount_to_body, untrack};
use measure::{print_length, spoken_length};
use wasm_bindgen::{JsCast, JsValue};

/// Puts the page up in place of the picture that stood there while it loaded.
pub fn mount() {
    dress::put_on();
    // Leptos starts its tasks and keeps the owner of every signal; the elements are ours.
    mount_to_body(|| {
        if let Some(body) = document().body() {
            let _ = body.append_child(screen().element());
        }
    });
    if let Some(boot) = document().get_element_by_id("boot") {
        boot.remove();
    }
}

#[inline(never)]
fn screen() -> Node {
    let visit = Visit::begin(preferences::load(), Session::new());
    let page = visit.page;
    let answers = Answers::new(page);
    visit.follow();
    preferences::follow(page.preferences);
    follow_lessons(page);
    news::follow(page);
    let tire = Value::new(None);
    let second = SecondModule::new(visit, answers, tire);
    let wide = size::wide();
    let below = move || if wide.get() { second.show(Later::Curve) } else { loose() };
    let stage = block("div", "stage")
        .child(sketchpads(page, answers, tire, wide))
        .child(notices(page, answers))
        .child(sliders(page, answers))
        .child(block("div", "below").content_of(below));
    let side = block("div", "side").child(readouts(page, answers)).child(pane(page, second, wide));
    let main = el("main").child(stage).child(side);
    let height = move || Some(page.session.pane_height.get().key().to_owned());
    let plan = Derived::new(move || {
        let id = page.selected().proposal();
        page.store.shown().with(|design| design.proposals.iter().position(|proposal| Some(proposal.id) == id))
    });
    let is_touched = move || visit.whose() == Whose::Own || page.session.dragging.with(Option::is_some);
    let whole = block("div", "page")
        .class_if("untouched", move || !is_touched())
        .attr_of("data-sheet", height)
        .attr_of("data-plan", move || plan.get().map(|at| at.to_string()));
    whole.child(top(visit, wide)).child(main).child(second.sheet()).child(second.marks())
}

/// What there is to do first with the demo. It goes when a panel is opened: at the end of a drag it would move the sketch.
#[inline(never)]
fn first(visit: Visit, wide: Value<bool>) -> Node {
    let page = visit.page;
    let is_asked = Value::new(false);
    follow(move || {
        let is_demo = visit.whose() == Whose::Demo;
        if is_demo || wide.get() {
            is_asked.set(is_demo);
        }
    });
    follow(move || {
        if page.session.pane_height.get() != PaneHeight::Lowered {
            is_asked.set(false);
        }
    });
    let content = move || {
        if !is_asked.get() {
            return loose();
        }
        // Where one's own waits, the demo was put over it.
        let own = if visit.own_waits() {
            button("Back to mine", move || visit.swap())
        } else {
            button("Put in my truck", move || page.begin_own())
        };
        loose()
            .child(el("p").text("Made-up pickup. Push the spindle up."))
            .child(own.attr("class", "primary"))
            .child(button("Open a link", move || page.session.turn_to(Panel::Share)))
            .child(button("×", move || is_asked.set(false)).attr("aria-label", "Close"))
    };
    block("div", "first").content_of(content)
}

/// Title, what is on the sketch, undo, units, share.
#[inline(never)]
fn top(visit: Visit, wide: Value<bool>) -> Node {
    let page = visit.page;
    let store = page.store;
    let shown = store.shown();
    let title = move || {
        let title = shown.with(|design| design.title.clone());
        if title.is_empty() { "Scrubline".to_owned() } else { title }
    };
    let inches = move || page.units() == Units::Inches;
    let units = move || {
        let other = if untrack(inches) { Units::Millimetres } else { Units::Inches };
        page.preferences.units_chosen.set(true);
        page.preferences.units.set(other);
    };
    let spoken =
        move || if inches() { "in: change to millimeters" } else { "mm: change to inches" }.to_owned();
    on_window("keydown", move |event| undo_by_key(page, &as_a(event)));
    let tools = block("div", "tools")
        .child(
            button("↶", move || page.undo())
                .attr("aria-label", "Undo")
                .flag("disabled", move || !store.can_undo()),
        )
        .child(
            button("↷", move || page.redo())
                .attr("aria-label", "Redo")
                .flag("disabled", move || !store.can_redo()),
        )
        .child(
            button("", units)
                .attr_of("aria-label", move || Some(spoken()))
                .text_of(move || if inches() { "in" } else { "mm" }.to_owned()),
        )
        .child(button("Send", move || page.session.turn_to(Panel::Share)).attr("class", "primary"));
    let truck = button("", move || page.session.turn_to(Panel::Kept)).text_of(title);
    block("header", "top")
        .child(el("h1").child(truck))
        .child(tools)
        .child(which(page))
        .child(first(visit, wide))
}

fn undo_by_key(page: Page, event: &web_sys::KeyboardEvent) {
    let typing = event.target().is_some_and(|target| {
        target.dyn_ref::<web_sys::HtmlInputElement>().is_some_and(|input| input.type_() == "text")
            || target.dyn_ref::<web_sys::HtmlTextAreaElement>().is_some()
    });
    if typing || !(event.ctrl_key() || event.meta_key()) {
        return;
    }
    match (event.key().as_str(), event.shift_key()) {
        ("z" | "Z", true) | ("y", _) => page.redo(),
        ("z", false) => page.undo(),
        _ => return,
    }
    event.prevent_default();
}

/// One sentence over the sketch, when there is one to say.
#[inline(never)]
fn notices(page: Page, answers: Answers) -> Node {
    let notice = page.session.notice;
    let line = move |text: &str, is_wrong: bool, is_undone: bool| {
        // A short one goes by itself, where there is nothing to be done with it.
        let is_brief = !is_wrong && !is_undone && text.len() < 90;
        block("p", if is_wrong { "notice wrong" } else { "notice" })
            .class_if("brief", move || is_brief)
            .child(el("span").text(text))
            .children(is_undone.then(|| button("Undo", move || page.undo()).attr("class", "undo")))
    };
    // By itself, so that a notice stays as it is while a truck that stands is moved.
    let broken = Derived::new(move || {
        answers.standing.with(|now| now.as_ref().as_ref().err().map(ToString::to_string))
    });
    let content = move || {
        let mut lines = loose();
        if let Some(notice) = notice.get() {
            let close = button("×", move || page.session.notice.set(None)).attr("aria-label", "Close");
            let (is_wrong, is_done) = (notice.tone == Tone::Wrong, notice.tone == Tone::Done);
            let goes = move |_| page.session.notice.set(None);
            lines = lines.child(line(&notice.text, is_wrong, is_done).child(close).on("animationend", goes));
        }
        lines.children(
            broken
                .get()
                .map(|why| line(&(capital(&why) + ". Drag it back, or undo."), true, page.store.can_undo())),
        )
    };
    block("div", "notices").attr("role", "status").attr("aria-live", "polite").content_of(content)
}

/// Travel and steer: they put the whole sketch in motion.
#[inline(never)]
fn sliders(page: Page, answers: Answers) -> Node {
    let (travel, steer) = (page.session.travel_mm, page.session.steer_rad);
    let steer_ends = move || {
        answers.steering.with(|steering| {
            let steering = steering.as_ref()?;
            let ends = (steering.left.heading_rad.to_degrees(), steering.right.heading_rad.to_degrees());
            Some(if page.sign() > 0.0 { (-ends.0, -ends.1) } else { (ends.1, ends.0) })
        })
    };
    let style = move || readout_style(page.units());
    let to_the = |degrees: f64| if degrees > 0.0 { " left" } else { " right" };
    let steered = move |spoken: bool| {
        let degrees = steer.get().to_degrees();
        let number = measure::fixed(degrees.abs().round(), 0);
        let unit = if spoken { " degrees" } else { "°" };
        number + unit + if degrees.abs() < 0.5 { "" } else { to_the(degrees) }
    };
    // Whole millimetres and degrees: finer than a finger, and rest is one of them.
    let travelling = slider(
        "travel",
        "Travel",
        Box::new(move || answers.travel_ends()),
        Box::new(move || travel.get()),
        Box::new(move |mm| travel.set(mm)),
        Box::new(move |spoken| {
            if spoken { spoken_length(travel.get(), style()) } else { print_length(travel.get(), style()) }
        }),
    );
    let steering = slider(
        "steer",
        "Steer",
        Box::new(move || steer_ends().unwrap_or((0.0, 0.0))),
        // To the left is to the left, as the driver has it.
        Box::new(move || -steer.get().to_degrees()),
        Box::new(move |degrees| steer.set(-degrees.to_radians())),
        Box::new(steered),
    )
    .flag("hidden", move || steer_ends().is_none());
    let rest = button("Ride height", move || {
        travel.set(0.0);
        steer.set(0.0);
    });
    let is_at_rest = move || travel.get().abs() < 1e-9 && steer.get().abs() < 1e-9;
    block("div", "sliders")
        .class_if("off", move || !is_at_rest())
        .class_if("steered", move || steer.get().abs() > 1e-9)
        .child(travelling)
        .child(steering)
        .child(rest.flag("disabled", is_at_rest))
}

/// A slider in whole steps, with its value above it.
#[inline(never)]
fn slider(
    id: &'static str,
    name: &str,
    ends: Box<dyn Fn() -> (f64, f64)>,
    value: Box<dyn Fn() -> f64>,
    take: Box<dyn Fn(f64)>,
    words: Box<dyn Fn(bool) -> String>,
) -> Node {
    let whole = |number: f64| measure::fixed(number.round(), 0);
    let (ends, words) = (std::rc::Rc::new(ends), std::rc::Rc::new(words));
    let (low, spoken) = (ends.clone(), words.clone());
    let input = el("input")
        .attr("id", id)
        .attr("type", "range")
        .attr("step", "1")
        .attr_of("min", move || Some(whole(low().0)))
        .attr_of("max", move || Some(whole(ends().1)))
        .prop_of("value", move || JsValue::from_str(&whole(value())))
        .attr_of("aria-valuetext", move || Some(spoken(true)))
        .on("input", move |event| take(f64::from(whole_number(&value_of(&event)).unwrap_or(0))));
    block("div", "slider")
        .child(el("label").attr("for", id).text(name))
        .child(el("output").attr("for", id).text_of(move || words(false)))
        .child(input)
}
