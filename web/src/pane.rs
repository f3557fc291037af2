//! The panels of the page: their names in a row, a bar or a menu, and the pane in which the open one stands.
//!
//! A desk has sketch and pane side by side. A phone has a bar at its lower edge, and the pane slides over
//! the sketch: lowered, half or full.

use crate::derive::selected_name;
use crate::dom::{Node, as_a, block, button, el, follow, loose, words};
use crate::later::{Later, SecondModule};
use crate::signals::{Derived, Kept, Value};
use crate::state::{Page, PaneHeight, Panel};
use crate::widgets::check;
use drawing::Units;
use std::cell::Cell;
use web_sys::PointerEvent;

/// How many stand in a phone's bar; the others are behind *More*.
const IN_BAR: usize = 4;
/// So far a finger moves the pane's grip for one step, CSS px.
const STEP_PX: f64 = 36.0;

/// The panels' names and the open one.
#[inline(never)]
pub(crate) fn pane(page: Page, second: SecondModule, wide: Value<bool>) -> Node {
    let panel = page.session.panel;
    // What nobody sees is not fetched: on a phone the pane is lowered at first.
    let is_wanted = Derived::new(move || {
        second.is_there() || wide.get() || page.session.pane_height.get() != PaneHeight::Lowered
    });
    let body = move || if is_wanted.get() { second.show(Later::Panel(panel.get())) } else { loose() };
    let side = block("div", "panels");
    let pane = block("div", "pane");
    // A panel begins at its top, however far down the last one was read; and where the page is one long sheet, as on
    // a phone's side, it is what one comes to.
    let scrolled = [side.element().clone(), pane.element().clone()];
    let is_first = Cell::new(true);
    follow(move || {
        panel.get();
        for one in &scrolled {
            one.set_scroll_top(0);
        }
        if !is_first.replace(false) {
            scrolled[0].scroll_into_view();
        }
    });
    side.child(names(page, wide))
        .child(pane.child(grip(page)).child(block("div", "body").content_of(body)).child(foot(page)))
}

/// Their names. In the bar a second touch lowers what the first one raised.
#[inline(never)]
fn names(page: Page, wide: Value<bool>) -> Node {
    let session = page.session;
    let more = Value::new(false);
    let is_open = move |choice| {
        (wide.get() || session.pane_height.get() != PaneHeight::Lowered) && session.panel.get() == choice
    };
    let entry = move |choice: Panel| {
        let press = move || {
            more.set(false);
            if !wide.now()
                && session.pane_height.now() != PaneHeight::Lowered
                && session.panel.now() == choice
            {
                session.pane_height.set(PaneHeight::Lowered);
            } else {
                session.turn_to(choice);
            }
        };
        button(choice.name(), press)
            .attr_of("aria-current", move || is_open(choice).then(|| "page".to_owned()))
    };
    // Back to what somebody sent, for as long as it is what they sent.
    let is_sent = Derived::new(move || page.is_as_sent());
    let sent = move || if is_sent.get() { entry(Panel::Theirs) } else { loose() };
    let icon = |at: usize, name: &str, button: Node| {
        button.text("").child(words(&["icon-", &at.to_string()].concat())).child(el("span").text(name))
    };
    let (in_bar, others) = Panel::ALL.split_at(IN_BAR);
    let is_other = move || Panel::ALL.into_iter().skip(IN_BAR).chain([Panel::Theirs]).any(is_open);
    let open = icon(IN_BAR, "More", button("", move || more.set(!more.now())))
        .attr("class", "more")
        .attr_of("aria-expanded", move || Some(more.get().to_string()))
        .class_if("on", is_other);
    el("nav")
        .attr("aria-label", "Panels")
        .child(
            block("div", "bar")
                .children(
                    in_bar.iter().enumerate().map(|(at, choice)| icon(at, choice.name(), entry(*choice))),
                )
                .child(open),
        )
        .child(
            block("div", "others")
                .class_if("open", move || more.get())
                .children(others.iter().copied().map(entry))
                .child(el("div").content_of(sent)),
        )
}

/// What a phone's pane is raised and lowered by.
#[inline(never)]
fn grip(page: Page) -> Node {
    let stands = page.session.pane_height;
    // Where the finger was at the last step; `None` while there is none.
    let from = Kept::new(Cell::new(None::<f64>));
    let height = |event: &PointerEvent| f64::from(event.client_y());
    let follow = move |event| {
        let event: PointerEvent = as_a(event);
        // Let go elsewhere, or taken away: nobody has hold of it.
        if event.buttons() == 0 {
            from.with(|from| from.set(None));
        }
        let now = height(&event);
        let Some(before) = from.with(Cell::get) else { return };
        if (now - before).abs() >= STEP_PX {
            from.with(|from| from.set(Some(now)));
            stands.set(if now < before { stands.now().taller() } else { stands.now().lower() });
        }
    };
    let stretch = move || {
        stands.set(if stands.now() == PaneHeight::Full { PaneHeight::Half } else { PaneHeight::Full });
    };
    let name =
        move || if stands.get() == PaneHeight::Full { "Show the sketch" } else { "Full height" }.to_owned();
    block("div", "grip")
        .on("pointerdown", move |event| from.with(|from| from.set(Some(height(&as_a(event))))))
        .on("pointermove", follow)
        .on("pointerup", move |_| from.with(|from| from.set(None)))
        .child(button("", stretch).attr("class", "stretch").attr_of("aria-label", move || Some(name())))
        .child(
            button("×", move || stands.set(PaneHeight::Lowered))
                .attr("class", "lower")
                .attr("aria-label", "Lower"),
        )
}

/// What is said under every panel.
#[inline(never)]
fn foot(page: Page) -> Node {
    let snap = page.preferences.snap;
    let snaps = move || {
        match page.units() {
            Units::Inches => "Drags snap to sixteenths",
            Units::Millimetres => "Drags snap to millimeters",
        }
        .to_owned()
    };
    let closing = move || {
        "On the sketch: ".to_owned()
            + &selected_name(page)
            + ". A sketch is no alignment and no inspection: your local rules decide."
    };
    el("footer")
        .child(check(el("span").text_of(snaps), move || snap.get(), move |is| snap.set(is)))
        .child(el("p").text_of(closing))
}
