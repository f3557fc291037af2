//! Elements of the page, and what in them follows a signal.
//!
//! Signals, memos and their owners are Leptos's. Its typed views are left
//! aside: every view is a type of its own there, compiled for itself, and this
//! page's forms made three quarters of its download. Here each element, each
//! followed value and each listener is the same few functions, whatever they
//! hold.

use crate::signals::{Call, Kept, unlist};
use leptos::prelude::{Effect, document, window};
use std::cell::RefCell;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event};

type Boxed<I, O> = Box<dyn Call<I, O>>;

/// Puts a string where it is seen; nothing where there is none.
type Show = Box<dyn Fn(Option<&str>)>;

const SVG: &str = "http://www.w3.org/2000/svg";

/// An element under construction. Copies are the same element.
#[derive(Clone, Debug)]
pub(crate) struct Node(Element);

/// A new element of HTML.
#[inline(never)]
pub(crate) fn el(tag: &str) -> Node {
    Node(document().create_element(tag).unwrap_or_else(|_| unreachable!("tags here are literals that exist")))
}

/// A new element of SVG.
#[inline(never)]
pub(crate) fn svg(tag: &str) -> Node {
    Node(
        document()
            .create_element_ns(Some(SVG), tag)
            .unwrap_or_else(|_| unreachable!("tags here are literals that exist")),
    )
}

/// Nodes that stand in no element yet; none at first. Put into one they are its own, whatever held them.
#[inline(never)]
pub(crate) fn loose() -> Node {
    Node(document().create_document_fragment().unchecked_into())
}

/// What stands in the document under an id.
#[inline(never)]
pub(crate) fn there(id: &str) -> Option<Node> {
    document().get_element_by_id(id).map(Node)
}

/// A copy of words that stand in the document; empty where they do not.
#[inline(never)]
pub(crate) fn words(id: &str) -> Node {
    let copy =
        there(id).and_then(|there| there.0.clone_node_with_deep(true).ok()?.dyn_into::<Element>().ok());
    match copy {
        Some(copy) => {
            let _ = copy.remove_attribute("id");
            Node(copy)
        }
        None => el("p"),
    }
}

/// A new element with a class.
#[inline(never)]
pub(crate) fn block(tag: &str, class: &str) -> Node {
    el(tag).attr("class", class)
}

/// A button with words on it.
pub(crate) fn button(words: &str, press: impl Fn() + 'static) -> Node {
    button_boxed(words, Box::new(move |_| press()))
}

#[inline(never)]
fn button_boxed(words: &str, press: Boxed<Event, ()>) -> Node {
    let button = el("button").attr("type", "button").text(words);
    listen(button, "click", press)
}

/// Runs now and again whenever a signal it read has changed, as long as its owner lives.
pub(crate) fn follow(work: impl Fn() + 'static) {
    follow_boxed(Box::new(move |()| work()));
}

#[inline(never)]
fn follow_boxed(work: Boxed<(), ()>) {
    Effect::new(move |_| {
        unlist();
        work.call(());
    });
}

impl Node {
    /// The element itself.
    pub(crate) fn element(&self) -> &Element {
        &self.0
    }

    /// What an attribute holds, where it is there.
    #[inline(never)]
    pub(crate) fn said(&self, attribute: &str) -> Option<String> {
        self.0.get_attribute(attribute)
    }

    /// The elements inside that carry an attribute, each with what it holds; it is taken off them.
    #[inline(never)]
    pub(crate) fn parts(&self, attribute: &str) -> Vec<(Self, String)> {
        let selector = ["[", attribute, "]"].concat();
        let mut found = Vec::new();
        while let Ok(Some(part)) = self.0.query_selector(&selector) {
            let held = part.get_attribute(attribute).unwrap_or_default();
            let _ = part.remove_attribute(attribute);
            found.push((Self(part), held));
        }
        found
    }

    /// Sets an attribute.
    #[inline(never)]
    pub(crate) fn attr(self, name: &str, value: &str) -> Self {
        put(&self.0, name, value);
        self
    }

    /// Sets the text.
    #[inline(never)]
    pub(crate) fn text(self, text: &str) -> Self {
        self.0.set_text_content(Some(text));
        self
    }

    /// Adds a child.
    #[inline(never)]
    pub(crate) fn child(self, child: Self) -> Self {
        // An element of ours can always be appended to another.
        let _ = self.0.append_child(&child.0);
        self
    }

    /// Adds children.
    pub(crate) fn children(self, children: impl IntoIterator<Item = Self>) -> Self {
        children.into_iter().fold(self, Self::child)
    }

    /// Listens to an event as long as the owner lives.
    pub(crate) fn on(self, event: &str, hear: impl Fn(Event) + 'static) -> Self {
        listen(self, event, Box::new(hear))
    }

    /// An attribute that follows signals; absent where there is no value.
    pub(crate) fn attr_of(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        attr_boxed(self, name, Box::new(move |()| value()))
    }

    /// A class that is there while a condition holds.
    pub(crate) fn class_if(self, class: &'static str, holds: impl Fn() -> bool + 'static) -> Self {
        class_boxed(self, class, Box::new(move |()| holds()))
    }

    /// An attribute without value that is there while a condition holds.
    pub(crate) fn flag(self, name: &'static str, holds: impl Fn() -> bool + 'static) -> Self {
        self.attr_of(name, move || holds().then(String::new))
    }

    /// A text that follows signals.
    pub(crate) fn text_of(self, text: impl Fn() -> String + 'static) -> Self {
        text_boxed(self, Box::new(move |()| text()))
    }

    /// Adds markup of ours. Never text from outside.
    pub(crate) fn add(&self, markup: &str) {
        // Only a document of XML refuses any.
        let _ = self.0.insert_adjacent_html("beforeend", markup);
    }

    /// Markup of ours that follows signals. Never text from outside.
    pub(crate) fn markup_of(self, markup: impl Fn() -> String + 'static) -> Self {
        markup_boxed(self, Box::new(move |()| markup()))
    }

    /// A property (`value`, `checked`) that follows signals.
    pub(crate) fn prop_of(self, name: &'static str, value: impl Fn() -> JsValue + 'static) -> Self {
        prop_boxed(self, name, Box::new(move |()| value()))
    }

    /// Content that is built anew whenever a signal it read has changed. What
    /// the old content followed and listened to ends with it.
    pub(crate) fn content_of(self, content: impl Fn() -> Self + 'static) -> Self {
        content_boxed(self, Box::new(move |()| content()))
    }
}

/// Sets an attribute of an element.
#[inline(never)]
pub(crate) fn put(element: &Element, name: &str, value: &str) {
    // Attribute names here are literals.
    let _ = element.set_attribute(name, value);
}

/// Sets the text of an element that has nothing else in it. Words set in place are laid out anew, but not
/// styled anew.
#[inline(never)]
pub(crate) fn set_words(element: &Element, text: &str) {
    match element.first_child() {
        Some(words) => words.set_node_value(Some(text)),
        None => element.set_text_content(Some(text)),
    }
}

// Each takes the element and gives it back: who calls them need not put it where it can be pointed at.

#[inline(never)]
fn listen(node: Node, event: &str, hear: Boxed<Event, ()>) -> Node {
    let hear = Closure::<dyn FnMut(Event)>::new(move |event| hear.call(event));
    let _ = node.0.add_event_listener_with_callback(event, hear.as_ref().unchecked_ref());
    // The owner keeps the listener and drops it with the element.
    Kept::new(hear);
    node
}

#[inline(never)]
fn attr_boxed(node: Node, name: &'static str, value: Boxed<(), Option<String>>) -> Node {
    let element = node.0.clone();
    let show = move |value: Option<&str>| match value {
        Some(value) => put(&element, name, value),
        None => {
            let _ = element.remove_attribute(name);
        }
    };
    show_changes(value, Box::new(show));
    node
}

/// Follows a string and shows it where it differs from what is shown already:
/// most signals of a drag leave most of the page as it is.
#[inline(never)]
fn show_changes(value: Boxed<(), Option<String>>, show: Show) {
    let shown = RefCell::new(None);
    follow_boxed(Box::new(move |()| {
        let value = Some(value.call(()));
        if *shown.borrow() != value {
            show(value.as_ref().and_then(Option::as_deref));
            shown.replace(value);
        }
    }));
}

#[inline(never)]
fn class_boxed(node: Node, class: &'static str, holds: Boxed<(), bool>) -> Node {
    let element = node.0.clone();
    let show = move |value: Option<&str>| {
        let _ = element.class_list().toggle_with_force(class, value.is_some());
    };
    show_changes(Box::new(move |()| holds.call(()).then(String::new)), Box::new(show));
    node
}

#[inline(never)]
fn text_boxed(node: Node, text: Boxed<(), String>) -> Node {
    let element = node.0.clone();
    let show = move |text: Option<&str>| set_words(&element, text.unwrap_or_default());
    show_changes(Box::new(move |()| Some(text.call(()))), Box::new(show));
    node
}

#[inline(never)]
fn markup_boxed(node: Node, markup: Boxed<(), String>) -> Node {
    let element = node.0.clone();
    let show = move |markup: Option<&str>| element.set_inner_html(markup.unwrap_or_default());
    show_changes(Box::new(move |()| Some(markup.call(()))), Box::new(show));
    node
}

#[inline(never)]
fn prop_boxed(node: Node, name: &'static str, value: Boxed<(), JsValue>) -> Node {
    let element = node.0.clone();
    follow_boxed(Box::new(move |()| {
        let _ = js_sys::Reflect::set(&element, &JsValue::from_str(name), &value.call(()));
    }));
    node
}

#[inline(never)]
fn content_boxed(node: Node, content: Boxed<(), Node>) -> Node {
    let element = node.0.clone();
    follow_boxed(Box::new(move |()| {
        element.set_text_content(None);
        let _ = element.append_child(&content.call(()).0);
    }));
    node
}

/// The whole number that a text stands for: one reader for all of them, each sort of number having its own.
#[inline(never)]
pub(crate) fn whole_number(text: &str) -> Option<i32> {
    text.parse().ok()
}

/// What an input holds.
#[inline(never)]
pub(crate) fn value_of(event: &Event) -> String {
    let target = event.target().map(JsValue::from).unwrap_or_default();
    let value = js_sys::Reflect::get(&target, &JsValue::from_str("value")).unwrap_or_default();
    value.as_string().unwrap_or_default()
}

/// Whether a check box is ticked, or a folding section open.
#[inline(never)]
pub(crate) fn is_set(event: &Event, property: &str) -> bool {
    let target = event.current_target().map(JsValue::from).unwrap_or_default();
    js_sys::Reflect::get(&target, &JsValue::from_str(property)).is_ok_and(|value| value.is_truthy())
}

/// The event as the kind it is known to be.
pub(crate) fn as_a<E: JsCast>(event: Event) -> E {
    event.unchecked_into()
}

/// What the window calls, as long as its owner lives.
struct Heard {
    event: &'static str,
    hear: Closure<dyn FnMut(Event)>,
}

impl Drop for Heard {
    fn drop(&mut self) {
        let _ = window().remove_event_listener_with_callback(self.event, self.hear.as_ref().unchecked_ref());
    }
}

/// Listens to the window as long as the owner lives.
pub(crate) fn on_window(event: &'static str, hear: impl Fn(Event) + 'static) {
    on_window_boxed(event, Box::new(hear));
}

#[inline(never)]
fn on_window_boxed(event: &'static str, hear: Boxed<Event, ()>) {
    let hear = Closure::<dyn FnMut(Event)>::new(move |event| hear.call(event));
    let _ = window().add_event_listener_with_callback(event, hear.as_ref().unchecked_ref());
    Kept::new(Heard { event, hear });
}
