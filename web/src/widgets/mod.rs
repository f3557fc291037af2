//! Small controls: values in, callbacks out, no knowledge of the design.

mod number;
mod picture;

pub(crate) use number::{Number, led_to};
pub(crate) use picture::{drawn, picture, view_box};

use crate::dom::{Node, block, el, is_set, loose, value_of, whole_number};
use crate::signals::{Call, Value};
use crate::told::write;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{File, HtmlInputElement};

/// A section that folds; what it holds is built only while it is open.
pub(crate) fn folding(name: &str, content: impl Fn() -> Node + 'static) -> Node {
    folding_at(name, Value::new(false), content)
}

/// A section that folds by a value of others'.
pub(crate) fn folding_at(name: &str, open: Value<bool>, content: impl Fn() -> Node + 'static) -> Node {
    folding_under(el("summary").text(name), open, content)
}

/// The same under a heading of its own.
pub(crate) fn folding_under(heading: Node, open: Value<bool>, content: impl Fn() -> Node + 'static) -> Node {
    folding_boxed(heading, open, Box::new(move |()| content()))
}

#[inline(never)]
fn folding_boxed(heading: Node, open: Value<bool>, content: Box<dyn Call<(), Node>>) -> Node {
    block("details", "group")
        .on("toggle", move |event| {
            // Opened from elsewhere it is open already, and what it holds is not built twice.
            if open.now() != is_set(&event, "open") {
                open.set(!open.now());
            }
        })
        .child(heading)
        .child(block("div", "folded").content_of(move || if open.get() { content.call(()) } else { loose() }))
}

/// What is to be known, or a danger, which has a sign of its own.
#[inline(never)]
pub(crate) fn remark(said: &str, is_danger: bool) -> Node {
    write(block("p", if is_danger { "remark danger" } else { "remark" }), said)
}

/// A panel under its name.
#[inline(never)]
pub(crate) fn panel(name: &str) -> Node {
    block("section", "panel").attr("aria-label", name).child(el("h2").text(name))
}

/// The heading of a column (`col`) or a row (`row`).
#[inline(never)]
pub(crate) fn heading(scope: &str, words: &str) -> Node {
    el("th").attr("scope", scope).text(words)
}

/// Rows under the names of their columns.
#[inline(never)]
pub(crate) fn table(columns: &[&str], rows: Node) -> Node {
    let mut head = el("tr");
    for name in columns {
        head = head.child(heading("col", name));
    }
    el("table").child(el("thead").child(head)).child(el("tbody").child(rows))
}

/// What may be wider than its place, and is moved sideways there, by keys too.
#[inline(never)]
pub(crate) fn moved_sideways(name: &str, wide: Node) -> Node {
    block("div", "scroll").attr("tabindex", "0").attr("role", "region").attr("aria-label", name).child(wide)
}

/// A line or lines of text with a name; what is typed is handed on when the field is left.
pub(crate) fn text_field(
    name: &str,
    tag: &str,
    longest: &str,
    text: impl Fn() -> String + 'static,
    take: impl Fn(String) + 'static,
) -> Node {
    labelled(name, typed_text(tag, longest, text, take))
}

/// What text is typed into; it is handed on when the field is left.
pub(crate) fn typed_text(
    tag: &str,
    longest: &str,
    text: impl Fn() -> String + 'static,
    take: impl Fn(String) + 'static,
) -> Node {
    typed_boxed(tag, longest, Box::new(move |()| text()), Box::new(take))
}

#[inline(never)]
fn typed_boxed(
    tag: &str,
    longest: &str,
    text: Box<dyn Call<(), String>>,
    take: Box<dyn Call<String, ()>>,
) -> Node {
    let field = el(tag)
        .attr("maxlength", longest)
        .prop_of("value", move || JsValue::from_str(&text.call(())))
        .on("change", move |event| take.call(value_of(&event)));
    if tag == "input" { number::goes_on(field, || false) } else { field }
}

/// An input with its name.
pub(crate) fn labelled(name: &str, input: Node) -> Node {
    block("label", "text").child(el("span").text(name)).child(input)
}

/// A menu of a few, which are known by their places.
pub(crate) fn menu(
    words: impl Fn() -> Vec<String> + 'static,
    chosen: impl Fn() -> usize + 'static,
    take: impl Fn(usize) + 'static,
) -> Node {
    menu_boxed(Rc::new(move |()| words()), Box::new(move |()| chosen()), Box::new(take))
}

#[inline(never)]
fn menu_boxed(
    words: Rc<dyn Call<(), Vec<String>>>,
    chosen: Box<dyn Call<(), usize>>,
    take: Box<dyn Call<usize, ()>>,
) -> Node {
    let again = words.clone();
    el("select")
        .content_of(move || {
            let mut options = loose();
            for (at, words) in words.call(()).iter().enumerate() {
                options = options.child(el("option").attr("value", &at.to_string()).text(words));
            }
            options
        })
        // A list made anew has its first line chosen: which is is said again with it.
        .prop_of("value", move || {
            again.call(());
            JsValue::from_str(&chosen.call(()).to_string())
        })
        .on("change", move |event| {
            let at = whole_number(&value_of(&event)).and_then(|at| usize::try_from(at).ok());
            take.call(at.unwrap_or(0));
        })
}

/// A button that asks for a JSON file.
pub(crate) fn file_button(words: &str, take: impl Fn(File) + 'static) -> Node {
    let input = el("input").attr("type", "file").attr("accept", ".json,application/json").on(
        "change",
        move |event| {
            let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
            if let Some(input) = input {
                if let Some(file) = input.files().and_then(|files| files.get(0)) {
                    take(file);
                }
                // The same file once more is news again.
                input.set_value("");
            }
        },
    );
    block("label", "button").child(el("span").text(words)).child(input)
}

/// A box to tick, with its words.
pub(crate) fn check(words: Node, ticked: impl Fn() -> bool + 'static, tick: impl Fn(bool) + 'static) -> Node {
    let input = el("input")
        .attr("type", "checkbox")
        .prop_of("checked", move || JsValue::from_bool(ticked()))
        .on("change", move |event| tick(is_set(&event, "checked")));
    block("label", "check").child(input).child(words)
}

/// A choice of a few, as radio buttons.
pub(crate) fn choice<T: Copy + PartialEq + 'static>(
    name: &str,
    id: &str,
    choices: &[(T, &str)],
    chosen: impl Fn() -> T + Copy + 'static,
    choose: impl Fn(T) + Copy + 'static,
) -> Node {
    let option = |&(value, words): &(T, &str)| {
        let input = el("input")
            .attr("type", "radio")
            .attr("name", id)
            .prop_of("checked", move || JsValue::from_bool(chosen() == value))
            .on("change", move |_| choose(value));
        el("label").child(input).child(el("span").text(words))
    };
    block("fieldset", "choice").child(el("legend").text(name)).children(choices.iter().map(option))
}
