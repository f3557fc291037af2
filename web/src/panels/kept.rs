//! The shelf: every design that is kept in this browser, with its picture.

use crate::browser::frames::Frames;
use crate::browser::slices::Slices;
use crate::browser::visit::Visit;
use crate::browser::{files, storage};
use crate::derive::rest_of;
use crate::dom::{Node, block, button, el, loose, words};
use crate::panels::share::{open_file, title};
use crate::shelf::{Entry, names, proposals};
use crate::signals::{Derived, Value};
use crate::widgets::{file_button, panel, picture};
use drawing::{Scene, Shown, Sketch, Units, View, Zoom, front_view};
use sharing::{Shared, print_json};
use std::rc::Rc;
use truck::{Overlay, Side};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlElement;

/// The panel.
#[inline(never)]
pub(crate) fn kept(visit: Visit) -> Node {
    let shelf = visit.shelf;
    let names = Derived::new(move || names(&shelf.entries()));
    let ids = Derived::new(move || shelf.entries().into_iter().map(|entry| entry.id).collect::<Vec<_>>());
    let save =
        move || files::save("scrubline-designs.json", "application/json", &print_json(&shelf.export()));
    let anew = move || {
        visit.begin_anew();
        visit.page.session.say("The demo truck again. What you had touched is kept below.");
    };
    let list = move || {
        let ids = ids.get();
        if ids.is_empty() {
            return el("p").text("Nothing yet: a design is kept once you have touched it.");
        }
        let drawn: Vec<_> = ids.iter().map(|_| Value::new(false)).collect();
        let cards = ids.iter().zip(&drawn).map(|(id, drawn)| card(visit, id.clone(), *drawn, names));
        let cards = loose().children(cards);
        // A picture takes longer than a frame has.
        let mut left = drawn.into_iter();
        Slices::new().start(Box::new(move || left.next().map(|next| next.set(true)).is_none()));
        cards
    };
    let row = block("div", "row")
        .child(button("Begin anew", anew))
        .child(button("Save all as a file", save))
        .child(file_button("Open a file", move |file| open_file(visit, &file)));
    let here = if storage::is_closed() { "words-kept-not" } else { "words-kept" };
    panel("My trucks")
        .attr("class", "panel kept")
        .child(title(visit.page))
        .child(words(here))
        .child(row)
        .child(block("div", "cards").content_of(list))
}

/// One entry, or that it was deleted.
fn card(visit: Visit, id: String, drawn: Value<bool>, names: Derived<Vec<(String, String)>>) -> Node {
    let shelf = visit.shelf;
    let card = block("article", "card");
    let whole = card.clone();
    let shown = {
        let id = id.clone();
        Derived::new(move || {
            let here = visit.entry_here().as_ref() == Some(&id);
            let name =
                names.with(|names| names.iter().find(|(of, _)| *of == id).map(|(_, name)| name.clone()));
            shelf.text(&id).map(|text| (Entry { id: id.clone(), text }, name.unwrap_or_default(), here))
        })
    };
    card.content_of(move || match shown.get() {
        Some((entry, name, here)) => kept_one(visit, entry, &name, (here, drawn), &whole),
        None => deleted(visit, &id, &whole),
    })
}

/// An entry with what can be done with it.
fn kept_one(
    visit: Visit,
    entry: Entry,
    name: &str,
    (here, drawn): (bool, Value<bool>),
    whole: &Node,
) -> Node {
    let date = date(&entry);
    let act = |words: &str, act: Box<dyn Fn()>| {
        button(words, act).attr("aria-label", &[words, " ", name, ", ", &date].concat())
    };
    let whole = whole.clone();
    let ids = [entry.id.clone(), entry.id.clone()];
    let mut said = block("div", "words").child(el("h3").text(name)).child(block("p", "hint").text(&date));
    let mut row = block("div", "row");
    let mut all = loose();
    let [to_open, to_delete] = ids;
    match entry.read() {
        Ok(shared) => {
            said = said.child(el("p").text(&proposals(&shared)));
            row = row.child(if here {
                el("b").text("On the sketch")
            } else {
                act("Open", Box::new(move || visit.take_out(&to_open)))
            });
            let shared = Rc::new(shared);
            let small = move || {
                let scene = Derived::always({
                    let (id, shared) = (entry.id.clone(), Shared::clone(&shared));
                    move || scene(&shared, &id)
                });
                if drawn.get() { picture(scene) } else { loose() }
            };
            all = all.child(block("div", "small").attr("aria-hidden", "true").content_of(small));
        }
        Err(why) => said = said.child(el("p").text(&why.to_string())),
    }
    let delete = move || {
        visit.shelf.remove(&to_delete);
        take_focus(&whole);
    };
    all.child(said.child(row.child(act("Delete", Box::new(delete)).attr("class", "quiet"))))
}

/// What stands in the place of an entry that is gone.
fn deleted(visit: Visit, id: &str, whole: &Node) -> Node {
    let Some(entry) = visit.shelf.removed(id) else { return el("p").text("No longer kept.") };
    let name = entry.name();
    let whole = whole.clone();
    let back = "Bring back ".to_owned() + &name;
    let undo = move || {
        if let Err(why) = visit.shelf.put_back(&entry) {
            visit.page.session.complain(why);
        }
        take_focus(&whole);
    };
    loose()
        .child(el("p").text(&(name + " is deleted.")))
        .child(button("Bring back", undo).attr("aria-label", &back))
}

/// The first button of a card takes the focus that was on one that is gone.
fn take_focus(card: &Node) {
    let card = card.element().clone();
    Frames::default().next(move || {
        let button = card.query_selector("button:not([hidden])").ok().flatten();
        if let Some(button) = button.and_then(|button| button.dyn_into::<HtmlElement>().ok()) {
            let _ = button.focus();
        }
    });
}

/// When an entry was last touched, as the reader writes dates.
fn date(entry: &Entry) -> String {
    let date = js_sys::Date::new(&JsValue::from_f64(f64::from(entry.time_s()) * 1e3));
    let options = js_sys::Object::new();
    for (name, how) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        let _ = js_sys::Reflect::set(&options, &JsValue::from_str(name), &JsValue::from_str(how));
    }
    let print = js_sys::Reflect::get(&date, &JsValue::from_str("toLocaleString")).unwrap_or_default();
    let print = print.dyn_into::<js_sys::Function>().ok();
    let printed = print.and_then(|print| print.call2(&date, &JsValue::UNDEFINED, &options).ok());
    printed.and_then(|printed| printed.as_string()).unwrap_or_default()
}

/// The corner from the front, small and without words.
fn scene(shared: &Shared, id: &str) -> Scene {
    let view = View {
        width_px: 132.0,
        height_px: 110.0,
        type_px: 8.0,
        units: Units::Inches,
        prefix: "kept".to_owned() + id,
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let design = &shared.design;
    let proposal = shared.opening.proposal.and_then(|id| design.proposal(id));
    let before = rest_of(&design.truck, Side::Left, Overlay::NOTHING);
    let now = proposal.map(|proposal| rest_of(&design.truck, Side::Left, proposal.into()));
    let shown = |rest| Shown { rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
    let before = before.as_ref().ok();
    let (now, before) = match &now {
        Some(now) => (now.as_ref().ok(), before),
        None => (before, None),
    };
    let Some(now) = now else { return Scene::empty(&view) };
    let sketch = Sketch { before: before.map(shown), ..Sketch::alone(shown(now)) };
    let mut scene = front_view(&sketch, &view);
    scene.labels.clear();
    scene
}
