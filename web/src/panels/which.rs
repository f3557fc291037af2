//! What is on the sketch, to be chosen.

use crate::browser::frames::soon;
use crate::derive::short_names;
use crate::dom::{Node, block, button, el, follow, loose};
use crate::panels::sides::{differ, right_side};
use crate::signals::Derived;
use crate::state::{Page, Selected};
use drawing::whole_name;
use truck::Side;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// As measured, or one of the proposals.
pub(crate) fn which(page: Page) -> Node {
    let choices = Derived::new(move || {
        let mut all = vec![(Selected::AsMeasured, "As it sits".to_owned())];
        all.extend(short_names(page).into_iter().map(|(id, name)| (Selected::Proposal(id), name)));
        all
    });
    let one = move |(choice, name): (Selected, String)| {
        let pressed = move || Some((page.selected() == choice).to_string());
        button("", move || page.session.selected.set(choice))
            .attr("class", if choice == Selected::AsMeasured { "measured" } else { "proposal" })
            .attr_of("aria-pressed", pressed)
            .child(el("span").text_of(move || said(page, choice, &name)))
    };
    // Where left and right differ, the one that is not on the sketch is a touch away.
    let alike = move || !differ(page) && page.session.side.get() == Side::Left;
    let whole = block("div", "which");
    // On a phone the row is moved sideways.
    let row = whole.element().clone();
    follow(move || {
        let (_, _) = (page.selected(), choices.with(Vec::len));
        let row = row.clone();
        soon(move || {
            let chosen = row.query_selector("[aria-pressed=true]").ok().flatten();
            if let Some(chosen) = chosen.and_then(|chosen| chosen.dyn_into::<HtmlElement>().ok()) {
                row.set_scroll_left(chosen.offset_left() - row.client_width() / 4);
            }
        });
    });
    whole
        .attr("role", "group")
        .attr("aria-label", "On the sketch")
        .child(
            block("div", "choices").content_of(move || loose().children(choices.get().into_iter().map(one))),
        )
        .child(right_side(page).flag("hidden", alike))
}

/// What stands on a choice: of the plan on the sketch all of it, under its name if it has one.
fn said(page: Page, choice: Selected, name: &str) -> String {
    let Selected::Proposal(id) = choice else { return name.to_owned() };
    if page.selected() != choice {
        return name.to_owned();
    }
    let units = page.units();
    page.store.with_committed(|design| {
        design.proposal(id).map_or_else(String::new, |plan| whole_name(plan, name, units))
    })
}
