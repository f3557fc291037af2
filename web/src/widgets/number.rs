//! A number typed the way people write it, with what was understood beside it.

use crate::dom::{Node, as_a, block, button, el, value_of, whole_number};
use crate::format::{self, Refused};
use crate::signals::{Call, Value};
use crate::state::Page;
use crate::told::write;
use drawing::Units;
use leptos::prelude::{document, untrack};
use std::cell::Cell;
use std::rc::Rc;
use truck::Kind;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, EventTarget, HtmlElement, HtmlInputElement};

/// A field for one number. Build it, then [`Number::node`].
///
/// While the person types, the field holds their text and says under it what
/// it understood, where reading stopped, or from where to where it may be; only a
/// number that can be entered is handed on, and any other text stays where it is.
pub(crate) struct Number {
    /// What the number is.
    pub(crate) label: &'static str,
    /// What sort of number.
    pub(crate) kind: Kind,
    /// Least and greatest, in mm, degrees or a plain number.
    pub(crate) limits: (f64, f64),
    /// Whether it may be left open.
    pub(crate) optional: bool,
    /// Whether minus and plus stand beside the field.
    pub(crate) stepper: bool,
    /// The number, in the core's unit; `None` where it is left open.
    pub(crate) value: Rc<dyn Fn() -> Option<f64>>,
    /// Where minus and plus start from while it is left open.
    pub(crate) start: f64,
    /// A word on where the number came from.
    pub(crate) badge: Rc<dyn Fn() -> String>,
    /// What to do with a new number.
    pub(crate) take: Rc<dyn Fn(Option<f64>)>,
}

thread_local! {
    /// How many fields there have been: each names its parts by its own number.
    static COUNT: Cell<u32> = const { Cell::new(0) };
}

impl Number {
    /// The field.
    pub(crate) fn node(self, page: Page) -> Node {
        if let Kind::Choice(words) = self.kind {
            return self.select(words);
        }
        let Self { label, kind, limits, optional, stepper, value, start, badge, take } = self;
        let units = page.preferences.units;
        let typed = Value::new(None::<String>);
        let understood = move || understand(typed.get()?, (kind, limits), optional, units.get());
        let wrong = move || matches!(understood(), Some(Err(_)));
        let echo = move || match understood() {
            Some(Ok(Some(v))) => "= ".to_owned() + &format::show(kind, v, units.get()),
            Some(Ok(None)) => "left open".to_owned(),
            Some(Err(why)) => why.to_string(),
            None => String::new(),
        };
        let held = Rc::clone(&value);
        let shown = move || {
            let kept = || held().map(|v| format::show(kind, v, units.get())).unwrap_or_default();
            JsValue::from_str(&typed.get().unwrap_or_else(kept))
        };
        let give = Rc::clone(&take);
        let commit = move || {
            match untrack(understood) {
                Some(Ok(number)) => {
                    typed.set(None);
                    give(number);
                }
                // Emptied, it is again what it was.
                _ if typed.with_now(|typed| typed.as_ref().is_some_and(|text| text.trim().is_empty())) => {
                    typed.set(None);
                }
                _ => {}
            }
        };
        let commit_on_enter = commit.clone();
        // A label that holds more than one control is that of the first, which is the minus.
        let id = "number-".to_owned() + &COUNT.replace(COUNT.get().wrapping_add(1)).to_string();
        let name_id = id.clone() + "-name";
        let input = el("input")
            .attr("type", "text")
            .attr("id", &id)
            .attr("aria-labelledby", &name_id)
            .attr("autocomplete", "off")
            .attr("spellcheck", "false")
            .attr("enterkeyhint", "next")
            .class_if("wrong", wrong)
            .attr_of("aria-invalid", move || wrong().then(|| "true".to_owned()))
            .prop_of("value", shown)
            .on("input", move |event| typed.set(Some(value_of(&event))))
            .on("change", move |_| commit())
            .on("keydown", move |event| match as_a::<web_sys::KeyboardEvent>(event).key().as_str() {
                "Enter" => commit_on_enter(),
                "Escape" => typed.set(None),
                _ => {}
            });
        let on = goes_on(input, wrong);
        let step = move |way: f64, sign: &str, word: &str| {
            let (take, value) = (Rc::clone(&take), Rc::clone(&value));
            let press = move || {
                typed.set(None);
                let from = untrack(&*value).unwrap_or(start);
                take(Some(from + way * format::step(kind, units.now())));
            };
            button(sign, press).attr("class", "step").attr("aria-label", &(word.to_owned() + label))
        };
        let mut entry = block("span", "entry");
        entry = if stepper {
            entry.child(step(-1.0, "−", "Less: ")).child(on).child(step(1.0, "+", "More: "))
        } else {
            entry.child(on)
        };
        let name = named(label, badge);
        block("label", if kind == Kind::Length { "number tape" } else { "number" })
            .attr("for", &id)
            .child(name.attr("id", &name_id))
            .child(entry)
            .child(block("span", "echo").attr("aria-live", "polite").class_if("wrong", wrong).text_of(echo))
    }
}

/// A field whose text is marked when it is come to, so that the first key replaces it, and from which Enter
/// leads to the next one that is asked for, unless what stands in it is `wrong`.
pub(super) fn goes_on(input: Node, wrong: impl Fn() -> bool + 'static) -> Node {
    goes_on_boxed(input, Box::new(move |()| wrong()))
}

#[inline(never)]
fn goes_on_boxed(input: Node, wrong: Box<dyn Call<(), bool>>) -> Node {
    let here = input.element().clone();
    input.on("focus", |event| mark(event.target())).on("keydown", move |event| {
        let is_enter = as_a::<web_sys::KeyboardEvent>(event).key() == "Enter";
        if is_enter
            && !untrack(|| wrong.call(()))
            && let Some(next) = led_to(&here)
        {
            let _ = next.focus();
        }
    })
}

/// The field that Enter leads to from one.
#[inline(never)]
pub(crate) fn led_to(here: &Element) -> Option<HtmlElement> {
    let fields =
        ".panel .entry input:not(.row *), .panel .read-off label input:not(.row *), .panel .torque input";
    let all = document().query_selector_all(fields).ok()?;
    let mut at = 0;
    while !all.item(at)?.is_same_node(Some(here)) {
        at += 1;
    }
    all.item(at + 1)?.dyn_into().ok()
}

fn mark(field: Option<EventTarget>) {
    if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlInputElement>().ok()) {
        field.select();
    }
}

impl Number {
    /// A choice of a few, or of nothing where it may be left open.
    fn select(self, words: &'static [&'static str]) -> Node {
        let Self { label, kind, optional, value, badge, take, .. } = self;
        let option = |(at, words): (usize, &&str)| el("option").attr("value", &at.to_string()).text(words);
        let open = optional.then(|| el("option").attr("value", "").text("not stated"));
        let chosen = move || {
            let at = value().and_then(|value| kind.steps(value));
            JsValue::from_str(&at.map(|at| at.to_string()).unwrap_or_default())
        };
        let choose = move |event| take(whole_number(&value_of(&event)).map(f64::from));
        let select = el("select")
            .children(open)
            .children(words.iter().enumerate().map(option))
            .prop_of("value", chosen)
            .on("change", choose);
        let name = named(label, badge);
        block("label", "number").child(name).child(select)
    }
}

/// The name of a field, and what is said beside it.
fn named(label: &str, badge: Rc<dyn Fn() -> String>) -> Node {
    let badge = block("em", "badge").content_of(move || write(el("span"), &badge()));
    block("span", "name").text(label).child(badge)
}

/// What a typed text stands for; an empty one leaves the number open, where it may be.
#[inline(never)]
#[expect(clippy::unnecessary_wraps, reason = "beside a field without typed text, which has no reading")]
fn understand(
    text: String,
    (kind, limits): (Kind, (f64, f64)),
    optional: bool,
    units: Units,
) -> Option<Result<Option<f64>, Refused>> {
    if text.trim().is_empty() && optional {
        return Some(Ok(None));
    }
    let read = format::read(kind, &text, units).map_err(Refused::from);
    Some(read.and_then(|value| format::within(kind, limits, value, units).map(Some)))
}
