//! What was read off the truck as it sits, beside what the model says of it.

use crate::derive::Answers;
use crate::dom::{Node, block, button, el, value_of, words};
use crate::format::show;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::{Number, folding};
use drawing::marked;
use std::rc::Rc;
use study::{Figure, model_as_it_sits};
use truck::{Edit, EditError, Kind, ReadWith, Readable, Reading, ReadingFault, Side};
use wasm_bindgen::JsValue;

/// A field for everything that can be read off the side that is looked at.
#[inline(never)]
pub(super) fn read_off(page: Page, answers: Answers) -> Node {
    folding("Read off the truck", move || {
        let side = page.session.side.get();
        let one =
            |of: &Readable| Field { page, of: *of, side, refused: Value::new(String::new()) }.node(answers);
        [words("words-read-off")].into_iter().chain(Readable::ALL.iter().map(one)).collect()
    })
}

/// One answer at one side.
#[derive(Clone, Copy)]
struct Field {
    page: Page,
    of: Readable,
    side: Side,
    /// Why the last one was refused.
    refused: Value<String>,
}

impl Field {
    fn node(self, answers: Answers) -> Node {
        let Self { page, of, .. } = self;
        let there = Derived::new(move || self.now().is_some());
        let value = move |value: Option<f64>| {
            let before = self.now();
            self.put(value.map(|value| {
                let first = Reading::by(of, value, of.tools()[0]);
                Reading { value, ..before.unwrap_or(first) }
            }));
        };
        let badge = move || {
            let units = page.units();
            let swept = self.now().filter(|reading| reading.swept_rad.is_some());
            let swept =
                swept.map(|reading| "caster ".to_owned() + &show(of.kind(), reading.answer(), units) + "; ");
            let model = answers.before.with(|before| {
                let rest = before.as_ref().as_ref().ok()?;
                let own = show(of.kind(), model_as_it_sits(of, rest)?, units);
                let is_guess = !Figure::of_reading(of).of_side_may_rest_on(rest).is_empty();
                Some("model says ".to_owned() + &marked(own, is_guess))
            });
            swept.unwrap_or_default() + &model.unwrap_or_default()
        };
        let more = move || if there.get() { self.more() } else { Vec::new() };
        block("div", "read-off")
            .child(self.number(of.label(), of.kind(), |reading| Some(reading.value), badge, value))
            .child(
                block("span", "echo wrong").attr("aria-live", "polite").text_of(move || self.refused.get()),
            )
            .child(block("div", "row").content_of(more))
    }

    /// How well, with what, and out again.
    fn more(self) -> Vec<Node> {
        let of = self.of;
        let tolerance = move |value: Option<f64>| {
            self.change(|reading| {
                reading.tolerance = value.unwrap_or(reading.tool.usual_tolerance(of.kind()));
            });
        };
        let none = String::new;
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
        let mut all = vec![
            self.number("give or take", of.kind(), |reading| Some(reading.tolerance), none, tolerance),
            tool,
        ];
        if of == Readable::Caster {
            let swept = move |value| self.change(|reading| reading.swept_rad = value);
            all.push(self.number("swept each way", Kind::Angle, |reading| reading.swept_rad, none, swept));
        }
        let remove = button("Remove", move || self.put(None));
        all.push(remove.attr("aria-label", &("Remove the reading: ".to_owned() + of.label())));
        all
    }

    fn number(
        self,
        label: &'static str,
        kind: Kind,
        value: fn(&Reading) -> Option<f64>,
        badge: impl Fn() -> String + 'static,
        take: impl Fn(Option<f64>) + 'static,
    ) -> Node {
        let value = move || self.now().as_ref().and_then(value);
        let (value, badge, take) = (Rc::new(value), Rc::new(badge), Rc::new(take));
        Number { label, kind, optional: true, stepper: false, value, start: 0.0, badge, take }.node(self.page)
    }

    fn now(self) -> Option<Reading> {
        self.page.store.shown().with(|design| design.truck.readings.get(self.of, self.side).copied())
    }

    fn change(self, change: impl FnOnce(&mut Reading)) {
        if let Some(mut reading) = self.now() {
            change(&mut reading);
            self.put(Some(reading));
        }
    }

    /// Puts a reading; a refusal stands at the field, with what can be read there.
    fn put(self, reading: Option<Reading>) {
        let why = self.page.store.edit(&Edit::Read(self.of, self.side, reading)).err();
        let range =
            why.as_ref().filter(|why| matches!(why, EditError::Reading(_, ReadingFault::Value))).map(|_| {
                let kind = self.of.kind();
                let (low, high) = self.of.limits();
                let core = |value: f64| if kind == Kind::Angle { value.to_radians() } else { value };
                let [low, high] = [low, high].map(|value| show(kind, core(value), self.page.units()));
                [": ", &low, " to ", &high].concat()
            });
        let said = why.map_or_else(String::new, |why| why.to_string()) + &range.unwrap_or_default();
        self.refused.set(said);
    }
}
