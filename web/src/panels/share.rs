//! A design out of the page and into it: link, code, file, picture.

use crate::browser::visit::Visit;
use crate::browser::{address, files, json, tell};
use crate::derive::Answers;
use crate::dom::{Node, block, button, el, loose, value_of};
use crate::panels::beside::{beside, changed};
use crate::panels::thread::{self, Markup};
use crate::shelf::{NotOpened, read_item};
use crate::signals::{Derived, Value};
use crate::sketch::picture_file;
use crate::state::Page;
use crate::widgets::{file_button, folding, labelled, panel, text_field};
use sharing::{Shared, Tree, find_code, link, print_json, rounded, rounded_in_words, to_code, to_tree};
use truck::Edit;
use wasm_bindgen::JsValue;

/// The panel.
#[inline(never)]
pub(crate) fn share(visit: Visit, answers: Answers) -> Node {
    let page = visit.page;
    let shown = page.store.shown();
    let note = move || shown.with(|design| design.note.clone());
    panel("Send")
        .child(beside(visit))
        .child(title(page))
        .child(text_field("Note", "textarea", "1500", note, move |text| page.edit(&Edit::Note(text))))
        .child(out(visit, answers))
        .child(incoming(visit))
}

/// What the truck is called.
pub(super) fn title(page: Page) -> Node {
    let now = move || page.store.shown().with(|design| design.title.clone());
    text_field("Name of this truck", "input", "60", now, move |text| page.edit(&Edit::Title(text)))
}

/// The link, and the ways out.
fn out(visit: Visit, answers: Answers) -> Node {
    let page = visit.page;
    let public = address::public_page();
    let only_here = public.is_none();
    let text = Derived::new(move || {
        let code = to_code(&page.shared());
        public.as_ref().map_or_else(|| code.clone(), |at| link(at, &code))
    });
    let title = move || page.store.committed_now().title;
    let copy = move || tell::copy(page, &text.now(), "Copied.");
    let mut buttons = block("div", "row").child(button("Copy", copy).attr("class", "primary"));
    if tell::can_share() && !only_here {
        buttons = buttons.child(button("Send …", move || tell::share(&title(), &text.now())));
    }
    let save = move || {
        let shared = page.shared_now();
        files::save(&files::name(&title(), ".json"), "application/json", &print_json(&to_tree(&shared)));
    };
    let buttons = buttons.child(button("Save file", save));
    let name = if only_here { "Code" } else { "Link" };
    let area = block("textarea", "code")
        .attr("rows", "3")
        .attr("readonly", "")
        .prop_of("value", move || JsValue::from_str(&text.get()));
    let length = move || {
        text.with(String::len).to_string()
            + " characters. Nothing is sent anywhere: they hold the whole design, but for the ticks and torques of its work."
    };
    let mut content = loose();
    if only_here {
        content = content.child(block("p", "remark").text(
            "This page's address works only on this machine. Send the code instead: every Scrubline page opens it.",
        ));
    }
    content
        .child(labelled(name, area))
        .child(buttons)
        .child(block("p", "hint").text_of(length))
        .child(folding("QR code", move || el("qr-code").attr_of("text", move || Some(text.get()))))
        .child(el("h3").text("For a thread"))
        .child(for_thread(visit, answers, text))
}

/// Text, picture and table for a post.
fn for_thread(visit: Visit, answers: Answers, link: Derived<String>) -> Node {
    let page = visit.page;
    let file = move |ending| files::name(&page.store.committed_now().title, ending);
    let picture = move || picture_file(page, &answers, &thread::caption(page, &answers));
    let post = move |markup| {
        move || {
            let text = thread::post(page, &answers, &link.now(), &changed(page), markup);
            tell::copy(page, &text, "Copied: paste it into your post.");
        }
    };
    block("div", "row")
        .child(button("Copy as text", post(Markup::Plain)))
        .child(button("Copy with [b] marks", post(Markup::Bracketed)))
        .child(button("Print sheet", tell::print))
        .child(button("Picture, PNG", move || files::save_pixels(&file(".png"), &picture())))
        .child(button("Picture, SVG", move || files::save(&file(".svg"), "image/svg+xml", &picture())))
        .child(button("Table, CSV", move || {
            files::save(&file(".csv"), "text/csv", &thread::table(page, &answers));
        }))
}

/// What somebody else sent, to be opened.
fn incoming(visit: Visit) -> Node {
    let text = Value::new(String::new());
    let paste = move || {
        let opened = find_code(&text.now()).map_err(NotOpened::Link);
        if take(visit, opened.map(|link| visit.as_it_counts_here(&link))) {
            text.set(String::new());
        }
    };
    let area = el("textarea")
        .attr("rows", "2")
        .prop_of("value", move || JsValue::from_str(&text.get()))
        .on("input", move |event| text.set(value_of(&event)));
    let open = button("Open it", paste).flag("disabled", move || text.with(|text| text.trim().is_empty()));
    let file = file_button("Open a file", move |file| open_file(visit, &file));
    loose()
        .child(el("h3").text("Open"))
        .child(labelled("Paste a link, a code, or a post with one in it", area))
        .child(block("div", "row").child(open).child(file))
}

/// Opens the design of a file; several go on the shelf.
pub(crate) fn open_file(visit: Visit, file: &web_sys::File) {
    json::load(file, move |tree| match tree {
        Ok(list @ Tree::List(_)) => visit.take_in(&list),
        Ok(tree) => {
            let opened = read_item(&tree);
            let finer = opened.as_ref().ok().and_then(|shared| rounded_in_words(&rounded(&tree, shared)));
            if take(visit, opened)
                && let Some(finer) = finer
            {
                visit.page.session.say_too(&finer);
            }
        }
        Err(why) => refuse(visit, why.in_words().to_owned()),
    });
}

/// Takes what was opened, or says why not; whatever arrives, the person's own work stays.
#[inline(never)]
fn take(visit: Visit, opened: Result<Shared, NotOpened>) -> bool {
    match opened {
        Ok(shared) => {
            visit.take(&shared);
            true
        }
        Err(why) => {
            refuse(visit, why.in_words());
            false
        }
    }
}

#[inline(never)]
fn refuse(visit: Visit, why: String) {
    visit.page.session.complain(why + " Your own design is still here.");
}
