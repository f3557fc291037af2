//! The design in the page's address: out after every edit, in when a link is opened.

use crate::browser::{aside, shelf};
use crate::dom::{self, on_window, there};
use crate::signals::{Derived, Kept};
use crate::state::{Lesson, Look, Page, Panel, Selected};
use drawing::Units;
use leptos::prelude::{TimeoutHandle, document, set_timeout_with_handle, untrack, window};
use sharing::{Opening, Shared};
use std::cell::{Cell, RefCell};
use std::time::Duration;
use truck::{Side, demo};
use wasm_bindgen::JsValue;

/// What is on the page is written when it has not changed for this long: browsers refuse more
/// than a few address changes a second.
const REST: Duration = Duration::from_millis(400);
/// However much it changes, it is written in less than twice this time, ms.
const LATEST_MS: f64 = 480.0;

/// What is on the page as a link would carry it.
pub(crate) fn shared(page: Page) -> Shared {
    let units = match page.preferences.units.get() {
        Units::Inches => sharing::Units::Inches,
        Units::Millimetres => sharing::Units::Millimetres,
    };
    Shared {
        design: page.store.committed(),
        opening: Opening {
            proposal: page.selected().proposal(),
            travel_mm: page.session.travel_mm.get(),
            steer_rad: page.session.steer_rad.get(),
            units: Some(units),
            lesson: page.session.lesson.with(|lesson| lesson.as_ref().map(|lesson| lesson.at)),
        },
    }
}

/// The same, without following it.
pub(crate) fn shared_now(page: Page) -> Shared {
    untrack(|| shared(page))
}

/// The demo with its proposal.
pub(crate) fn fresh() -> Shared {
    let design = demo();
    let proposal = design.proposals.first().map(|proposal| proposal.id);
    Shared { design, opening: Opening { proposal, ..Opening::default() } }
}

/// What the address holds, if it holds anything.
pub(crate) fn begin() -> Option<Result<Shared, String>> {
    fragment().map(|text| read(&text))
}

fn read(text: &str) -> Result<Shared, String> {
    sharing::find_code(text).map_err(|why| why.to_string())
}

/// The text behind the address's `#`, if there is any.
fn fragment() -> Option<String> {
    let hash = window().location().hash().ok()?;
    let text = hash.strip_prefix('#').unwrap_or(&hash);
    (!text.is_empty()).then(|| text.to_owned())
}

/// Puts what a link holds on the page: one step to undo. Where it holds a
/// lesson, the person's own design is laid aside until that is left.
pub(crate) fn open(page: Page, shared: &Shared) {
    shelf::write(page);
    let session = page.session;
    let own = own_now(page);
    let waits = session.lesson.with_now(|lesson| lesson.as_ref().map(|lesson| lesson.number));
    let own_number = waits.unwrap_or_else(|| page.store.number_now());
    let lesson = lesson_of(shared);
    let number = if lesson.is_some() { shelf::LESSON } else { page.shelf.number(shared) };
    page.open(shared.design.clone(), number);
    show(page, &shared.opening);
    session.lesson.set(lesson.map(|at| Lesson { at, own, number: own_number }));
    if lesson.is_some() {
        session.panel.set(Panel::Lessons);
    }
}

/// The step of a lesson that a link leads to, where it is one of ours.
pub(crate) fn lesson_of(shared: &Shared) -> Option<u8> {
    shared.opening.lesson.filter(|at| there(&Lesson::words(*at)).is_some())
}

/// The person's own: what is on the page, or waits there for the end of a lesson.
pub(crate) fn own_now(page: Page) -> Shared {
    let waits = page.session.lesson.with_now(|lesson| lesson.as_ref().map(|lesson| lesson.own.clone()));
    waits.unwrap_or_else(|| shared_now(page))
}

/// Opens a link over what is on the page; says so and gives true where the person's own is kept beside it.
pub(crate) fn arrived(page: Page, shared: &Shared) -> bool {
    let kept = aside::arrive(page, shared);
    if kept {
        page.session.say("A link is open. Your own design is kept: see Share.");
    }
    kept
}

/// The same, and says what to do where nothing had to be kept.
pub(crate) fn opened(page: Page, shared: &Shared) {
    if !arrived(page, shared) {
        page.session.say("Opened. Undo brings back what was here before.");
    }
}

/// Shows what the sender saw. The reader's own units, once chosen, win.
pub(crate) fn show(page: Page, opening: &Opening) {
    page.session.look_at(Look {
        selected: opening.proposal.map_or(Selected::AsMeasured, Selected::Proposal),
        side: Side::Left,
        travel_mm: opening.travel_mm,
        steer_rad: opening.steer_rad,
    });
    if let (Some(units), false) = (opening.units, page.preferences.units_chosen.now()) {
        page.preferences.units.set(match units {
            sharing::Units::Inches => Units::Inches,
            sharing::Units::Millimetres => Units::Millimetres,
        });
    }
}

/// Keeps the address and the shelf in step with the page, and the page with the address.
pub(crate) fn follow(page: Page) {
    let code = Derived::new(move || sharing::to_code(&shared(page)));
    let waiting = Kept::new(Cell::new(None::<TimeoutHandle>));
    let since_ms = Kept::new(Cell::new(0.0));
    let written = Kept::new(RefCell::new(fragment()));
    let write = move || {
        waiting.with(Cell::take);
        shelf::write(page);
        let code = code.now();
        let here = fragment();
        // An address that somebody else has just put there is for the listener below to open.
        let ours = written.with(|written| *written.borrow() == here);
        if ours && here.as_deref() != Some(code.as_str()) {
            written.with(|written| written.replace(Some(code.clone())));
            let _ = window().history().and_then(|history| {
                history.replace_state_with_url(&JsValue::NULL, "", Some(&("#".to_owned() + &code)))
            });
        }
    };
    dom::follow(move || {
        code.with(|_| ());
        untrack(|| {
            let now_ms = js_sys::Date::now();
            match waiting.with(Cell::take) {
                Some(handle) => handle.clear(),
                None => since_ms.with(|since_ms| since_ms.set(now_ms)),
            }
            let late = now_ms > since_ms.with(Cell::get) + LATEST_MS;
            let wait = if late { Duration::ZERO } else { REST };
            let handle = set_timeout_with_handle(write, wait).ok();
            waiting.with(|waiting| waiting.set(handle));
        });
    });
    let flush = move || {
        if let Some(handle) = waiting.with(Cell::take) {
            handle.clear();
            write();
        }
    };
    // A page that is hidden may never be heard of again.
    for event in ["pagehide", "visibilitychange"] {
        on_window(event, move |_| flush());
    }
    on_window("hashchange", move |_| {
        let Some(text) = fragment() else { return };
        written.with(|written| written.replace(Some(text.clone())));
        if text == code.now() {
            return;
        }
        match read(&text) {
            Ok(shared) => opened(page, &shared),
            Err(why) => page.session.complain(why + " Your own design is still here."),
        }
    });
    dom::follow(move || {
        let title = page.store.shown().with(|design| design.title.clone());
        document().set_title(&if title.is_empty() {
            "Scrubline".to_owned()
        } else {
            title + " · Scrubline"
        });
    });
}

/// The address to share: where the page was told it lives, else where it is.
/// None where the page's own address works only on this machine.
pub(crate) fn public_page() -> Option<String> {
    let told = document()
        .query_selector("meta[name=scrubline-page]")
        .ok()
        .flatten()
        .and_then(|meta| meta.get_attribute("content"))
        .filter(|address| !address.is_empty());
    if told.is_some() {
        return told;
    }
    let location = window().location();
    let host = location.hostname().unwrap_or_default();
    let here = ["localhost", "127.0.0.1", "[::1]", "::1", ""].contains(&host.as_str());
    let from_disk = location.protocol().is_ok_and(|protocol| protocol == "file:");
    if here || from_disk {
        return None;
    }
    location.href().ok()
}
