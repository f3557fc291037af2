//! What was read off the truck, as it sits beside what the model says of it, and as it was built.

use crate::derive::Answers;
use crate::dom::{Node, block, button, el, follow, loose, value_of, words};
use crate::format::{show, show_as_read};
use crate::signals::{Call, Derived, Value};
use crate::state::Page;
use crate::told::{MEASURED, spoken_measured, spread_of, write};
use crate::widgets::{Number, folding_at};
use drawing::{READ_AGAIN, marked};
use std::rc::Rc;
use study::{Figure, Pair, StandingSide, model_as_it_sits};
use truck::{Edit, Kind, ReadWith, Readable, Reading, Side};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, HtmlInputElement};

/// A field for everything that can be read off the side that is looked at, but for what stands elsewhere.
#[inline(never)]
pub(super) fn read_off(page: Page, answers: Answers, elsewhere: &'static [Readable]) -> Node {
    let open = Value::new(false);
    follow(move || {
        if page.session.to_read.get().is_some_and(|of| !elsewhere.contains(&of)) {
            open.set(true);
        }
    });
    let fields = move || {
        let side = page.session.side.get();
        let mut content = loose().child(words("words-read-off"));
        for of in Readable::ALL {
            if !elsewhere.contains(of) {
                content = content.child(field(page, answers, *of, side));
            }
        }
        content
    };
    folding_at("Read off the truck", open, fields).flag("open", move || open.get())
}

/// What opens the field for an answer where the answer stands, and shuts it; `also` is done before.
pub(super) fn measured(
    page: Page,
    of: Readable,
    open: Value<Option<Readable>>,
    also: impl Fn() + 'static,
) -> Node {
    measured_boxed(page, of, open, Box::new(move |()| also()))
}

#[inline(never)]
fn measured_boxed(
    page: Page,
    of: Readable,
    open: Value<Option<Readable>>,
    also: Box<dyn Call<(), ()>>,
) -> Node {
    let press = move || {
        also.call(());
        let next = (open.now() != Some(of)).then_some(of);
        open.set(next);
        page.lead_to_reading(next);
    };
    button(MEASURED, press)
        .attr("class", "reads")
        .attr("aria-label", &spoken_measured(of))
        .attr_of("aria-expanded", move || Some((open.get() == Some(of)).to_string()))
}

/// The field for one answer, at the side that is looked at. With a plan on the sketch it is asked first when it was
/// read: what the finished truck reads never takes the place of what it read before.
#[inline(never)]
pub(super) fn in_place(page: Page, answers: Answers, of: Readable) -> Node {
    let side = page.session.side.get();
    let whose = side.label().to_ascii_lowercase();
    let is_asked = page.selected().proposal().is_some();
    let when = Value::new((!is_asked).then_some(WHEN[0]));
    let is_answered = Value::new(false);
    let node = block("div", "when");
    let element = node.element().clone();
    node.content_of(move || {
        // Whoever asked for it or answered gets the cursor; who only goes to another plan or side keeps it.
        if is_answered.now() || page.session.measured.now() == Some(of) {
            is_answered.set(false);
            page.session.measured.set(None);
            let element = element.clone();
            follow(move || put_cursor(&element));
        }
        let Some(at) = when.get() else {
            let press = move |at| {
                is_answered.set(true);
                when.set(Some(at));
            };
            let answer = |at: &'static str| button(at, move || press(at));
            let question = [of.label(), ", ", &whose, ": when was it read?"].concat();
            return loose()
                .child(block("p", "hint").text(&question))
                .child(block("div", "row").children(WHEN.into_iter().map(answer)));
        };
        let field = if at == WHEN[0] {
            field(page, answers, of, side)
        } else {
            field_as_built(
                page,
                of,
                side,
                at == WHEN[2],
                Box::new(|()| "how it came out: My truck, After the work".to_owned()),
            )
        };
        // The room of two is read where the truck stands, wherever it is least.
        let stands = if Pair::from_key(of.key()).is_some() { ", at ride height, straight ahead" } else { "" };
        loose().child(block("p", "hint").text(&[at, stands, ": ", &whose].concat())).child(field)
    })
}

/// When an answer was read.
const WHEN: [&str; 3] = ["As it sits, before any part", "After the work, as built", "After 100 miles"];

/// By how much what is drawn of the model is off what was read; empty where nothing was.
pub(super) fn shifted(page: Page, answers: Answers, drawn: impl Fn() -> Option<Readable> + 'static) -> Node {
    shifted_boxed(page, answers, Box::new(move |()| drawn()))
}

#[inline(never)]
fn shifted_boxed(page: Page, answers: Answers, drawn: Box<dyn Call<(), Option<Readable>>>) -> Node {
    block("p", "hint").content_of(move || {
        let said = drawn.call(()).map(|of| shift(page, answers, of)).unwrap_or_default();
        if said.is_empty() { loose() } else { write(el("span"), &said) }
    })
}

#[inline(never)]
fn shift(page: Page, answers: Answers, of: Readable) -> String {
    let side = page.session.side.get();
    let read = page.store.shown().with(|design| design.truck.readings.get(of, side).map(Reading::answer));
    let (Some(read), Some((model, is_guess))) = (read, own(answers, of)) else { return String::new() };
    let more = if read < model { " less." } else { " more." };
    let by = show_as_read(of.kind(), (read - model).abs(), page.units());
    if by == show_as_read(of.kind(), 0.0, page.units()) {
        return String::new();
    }
    let by = marked(by, is_guess);
    ["Drawn is what the model says; by what was read off the truck as it sits, all of it is ", &by, more]
        .concat()
}

/// What the model itself says of the truck as it sits, and whether that may rest on a guess.
#[inline(never)]
fn own(answers: Answers, of: Readable) -> Option<(f64, bool)> {
    answers.before.with(|before| {
        let rest = before.as_ref().as_ref().ok()?;
        let is_guess = !Figure::of_reading(of).of_side_may_rest_on(rest).is_empty();
        Some((model_as_it_sits(of, rest)?, is_guess))
    })
}

/// Whether what was read as it sits, at the side that is looked at, may be wrong by what else is known of it.
#[inline(never)]
pub(super) fn is_doubtful(answers: Answers, of: Readable) -> bool {
    let spread =
        |rest: &StandingSide| answers.known.with(|known| spread_of(known, Figure::of_reading(of), rest));
    answers.before.with(|before| before.as_ref().as_ref().is_ok_and(|rest| spread(rest).is_doubtful))
}

pub(super) fn field(page: Page, answers: Answers, of: Readable, side: Side) -> Node {
    let own = move || {
        own(answers, of).map_or_else(String::new, |(own, is_guess)| {
            "model says ".to_owned() + &marked(show_as_read(of.kind(), own, page.units()), is_guess)
        })
    };
    let node = Field::new(page, of, side, Some(answers)).node(Box::new(move |()| own()));
    let element = node.element().clone();
    follow(move || {
        if page.session.to_read.get() == Some(of) {
            page.session.to_read.set(None);
            put_cursor(&element);
        }
    });
    node
}

/// The field for one answer as it was built, or once it had settled; `beside` stands beside its name.
pub(super) fn field_as_built(
    page: Page,
    of: Readable,
    side: Side,
    is_settled: bool,
    beside: Box<dyn Call<(), String>>,
) -> Node {
    Field { is_settled, ..Field::new(page, of, side, None) }.node(beside)
}

/// What is asked of who reads caster by turning the wheel.
const SWEPT: &str = "Swept each way, if by a sweep";

/// One answer at one side.
#[derive(Clone, Copy)]
struct Field {
    page: Page,
    of: Readable,
    side: Side,
    /// What follows from the truck as it sits, where it is read off that, and not once the work is done.
    answers: Option<Answers>,
    /// Of what is read once it is done: whether it had settled.
    is_settled: bool,
    /// Why the last one was refused.
    refused: Value<String>,
    /// By how much the wheel is swept for a caster that is not there yet.
    to_sweep: Value<Option<f64>>,
}

impl Field {
    fn new(page: Page, of: Readable, side: Side, answers: Option<Answers>) -> Self {
        let (refused, to_sweep) = (Value::new(String::new()), Value::new(None));
        Self { page, of, side, answers, is_settled: false, refused, to_sweep }
    }

    #[inline(never)]
    fn node(self, beside: Box<dyn Call<(), String>>) -> Node {
        let Self { page, of, .. } = self;
        let there = Derived::new(move || self.now().is_some());
        let value = move |value: Option<f64>| {
            let before = self.now();
            self.put(value.map(|value| {
                let first =
                    || Reading { swept_rad: self.to_sweep.now(), ..Reading::by(of, value, of.tools()[0]) };
                Reading { value, ..before.unwrap_or_else(first) }
            }));
        };
        let badge = move || {
            let units = page.units();
            let swept = self.now().filter(|reading| reading.swept_rad.is_some());
            let swept =
                swept.map(|reading| "caster ".to_owned() + &show(of.kind(), reading.answer(), units) + "; ");
            swept.unwrap_or_default() + &beside.call(())
        };
        let more = move || if there.get() { self.more() } else { loose() };
        let mut node = block("div", "read-off");
        // Whoever has swept types something else than who has read the caster itself: it is asked first.
        if of == Readable::Caster {
            let swept = move || self.now().map_or_else(|| self.to_sweep.get(), |reading| reading.swept_rad);
            let sweep = move |value| {
                self.to_sweep.set(value);
                self.change(|reading| reading.swept_rad = value);
            };
            let what = (SWEPT, Kind::Angle, Reading::SWEPT_DEG);
            node = node.child(words("words-sweep")).child(self.number(what, swept, String::new, sweep));
        }
        let answer = move || self.now().map(|reading| reading.value);
        let answer = self.number((of.label(), of.kind(), of.limits()), answer, badge, value);
        node.child(answer.attr("data-answer", ""))
            .child(block("span", "echo wrong").attr("aria-live", "polite").text_of(move || self.wrong()))
            .child(block("div", "row").content_of(more))
    }

    /// Why the last one was refused, or that what was read as it sits may be wrong by what else is known of it.
    fn wrong(self) -> String {
        let is_doubtful = self.answers.is_some_and(|answers| is_doubtful(answers, self.of));
        let refused = self.refused.get();
        if is_doubtful && refused.is_empty() { READ_AGAIN.to_owned() } else { refused }
    }

    /// How well, with what, and out again.
    fn more(self) -> Node {
        let of = self.of;
        let tolerance = move |value: Option<f64>| {
            self.change(|reading| {
                reading.tolerance = value.unwrap_or(reading.tool.usual_tolerance(of.kind()));
            });
        };
        let option = |tool: &ReadWith| el("option").attr("value", tool.key()).text(tool.label());
        let choose = move |event| {
            let key = value_of(&event);
            if let Some(tool) = of.tools().iter().find(|tool| tool.key() == key) {
                self.change(|reading| {
                    *reading =
                        Reading { swept_rad: reading.swept_rad, ..Reading::by(of, reading.value, *tool) }
                });
            }
        };
        let tool = el("select")
            .attr("aria-label", &("Read with: ".to_owned() + of.label()))
            .children(of.tools().iter().map(option))
            .prop_of("value", move || JsValue::from_str(self.now().map_or("", |reading| reading.tool.key())))
            .on("change", choose);
        let give_or_take = self.number(
            ("give or take", of.kind(), Reading::tolerances(of.kind())),
            move || self.now().map(|reading| reading.tolerance),
            String::new,
            tolerance,
        );
        let all = loose().child(give_or_take).child(tool);
        let remove = button("Remove", move || self.put(None));
        all.child(remove.attr("aria-label", &("Remove the reading: ".to_owned() + of.label())))
    }

    fn number(
        self,
        (label, kind, limits): (&'static str, Kind, (f64, f64)),
        value: impl Fn() -> Option<f64> + 'static,
        badge: impl Fn() -> String + 'static,
        take: impl Fn(Option<f64>) + 'static,
    ) -> Node {
        let (value, badge, take) = (Rc::new(value), Rc::new(badge), Rc::new(take));
        // An answer is taken out by its button: emptied, its field is again what it was.
        let optional = limits == Reading::SWEPT_DEG;
        Number { label, kind, limits, optional, stepper: false, value, start: 0.0, badge, take }
            .node(self.page)
    }

    fn now(self) -> Option<Reading> {
        self.page.store.shown().with(|design| {
            let readings = match self.answers {
                Some(_) => &design.truck.readings,
                None if self.is_settled => &design.settled,
                None => &design.built,
            };
            readings.get(self.of, self.side).copied()
        })
    }

    fn change(self, change: impl FnOnce(&mut Reading)) {
        if let Some(mut reading) = self.now() {
            change(&mut reading);
            self.put(Some(reading));
        }
    }

    /// Puts a reading; a refusal stands at the field.
    fn put(self, reading: Option<Reading>) {
        let edit = match self.answers {
            Some(_) => Edit::Read,
            None if self.is_settled => Edit::ReadSettled,
            None => Edit::ReadBuilt,
        };
        let why = self.page.try_edit(&edit(self.of, self.side, reading)).err();
        self.refused.set(why.map_or_else(String::new, |why| why.to_string()));
    }
}

/// Why what was typed was refused, where it was.
pub(super) fn refusal(why: Value<String>) -> Node {
    block("span", "echo wrong").attr("aria-live", "polite").text_of(move || why.get())
}

/// Puts the cursor into the field of what was read, the first field of what stands on the page, or on its first
/// button where it has none.
pub(super) fn put_cursor(within: &web_sys::Element) {
    let first = |of: &str| within.query_selector(of).ok().flatten();
    let field = first("[data-answer] input").or_else(|| first("input, select")).or_else(|| first("button"));
    let Some(field) = field else { return };
    within.scroll_into_view_with_bool(false);
    let _ = field.unchecked_ref::<HtmlElement>().focus();
    if let Some(input) = field.dyn_ref::<HtmlInputElement>() {
        input.select();
    }
}
