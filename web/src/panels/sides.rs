//! Left and right: which of them is measured, and how they compare.

use crate::derive::both_sides;
use crate::dom::{Node, block, el};
use crate::format::{field_style, show};
use crate::signals::Derived;
use crate::state::Page;
use crate::widgets::choice;
use drawing::Units;
use measure::print_length;
use study::{LeftRight, Unit};
use truck::{Kind, Side};

/// Which side is looked at and measured.
pub(crate) fn which_side(page: Page) -> Node {
    let side = page.session.side;
    let sides = Side::ALL.map(|side| (side, side.label()));
    choice("Side of the truck", "side", &sides, move || side.get(), move |chosen| side.set(chosen))
}

/// Left and right beside each other, where they differ.
#[inline(never)]
pub(crate) fn compared(page: Page) -> Node {
    let differ = Derived::new(move || page.store.shown().with(|design| !design.truck.right.is_empty()));
    let content = move || {
        let Some(both) = differ.get().then(|| both_sides(page)).flatten() else { return Vec::new() };
        let units = page.units();
        let head =
            ["At rest", "left", "right", "together"].map(|text| el("th").attr("scope", "col").text(text));
        let rows = both.iter().map(|one| row(one, units));
        let table =
            el("table").child(el("thead").child(el("tr").children(head))).child(el("tbody").children(rows));
        vec![
            block("div", "scroll")
                .attr("tabindex", "0")
                .attr("role", "region")
                .attr("aria-label", "Left and right")
                .child(table),
        ]
    };
    block("div", "sides").content_of(content)
}

fn row(one: &LeftRight, units: Units) -> Node {
    let words = |value: f64| match one.quantity.unit() {
        Unit::Length => print_length(value, field_style(units)),
        _ => show(Kind::Angle, value, units),
    };
    let together = LeftRight::named(one.quantity).0.to_owned() + " " + &words(one.together());
    let cells = [words(one.left), words(one.right), together];
    el("tr")
        .child(el("th").attr("scope", "row").text(one.quantity.label()))
        .children(cells.map(|text| el("td").text(&text)))
}
