//! What a link would have replaced, kept aside until the person has decided.

use crate::browser::{address, storage};
use crate::dom;
use crate::signals::Value;
use crate::state::Page;
use leptos::prelude::untrack;
use sharing::Shared;
use truck::{Design, demo};

/// It is kept in the browser under this key, as a letter and its link code.
const KEY: &str = "aside";

/// A design that is not on the page, while another is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Aside {
    /// The design, and how it was last seen.
    pub(crate) shared: Shared,
    /// Whether it is the person's own, and the link's is on the page; or the other way round.
    pub(crate) own: bool,
}

/// What was kept aside when the page was last left.
pub(crate) fn kept() -> Option<Aside> {
    let text = storage::kept(KEY)?;
    let own = text.starts_with('o');
    Some(Aside { shared: sharing::from_code(text.get(1..)?).ok()?, own })
}

/// The code of the person's own design, where that is what was kept aside.
pub(crate) fn own_code() -> Option<String> {
    storage::kept(KEY)?.strip_prefix('o').map(str::to_owned)
}

/// Keeps what is aside as it changes.
pub(crate) fn follow(aside: Value<Option<Aside>>) {
    dom::follow(move || {
        let text = aside.with(|aside| match aside {
            Some(aside) => (if aside.own { "o" } else { "l" }).to_owned() + &sharing::to_code(&aside.shared),
            None => String::new(),
        });
        let _ = storage::keep(KEY, &text);
    });
}

/// Puts what a link holds on the page and what was there aside; tells whether anything of the
/// person's own is.
/// The demo, untouched, is nobody's work.
pub(crate) fn arrive(page: Page, link: &Shared) -> bool {
    if address::lesson_of(link).is_some() {
        // It waits for the lesson's end instead.
        address::open(page, link);
        return false;
    }
    let here = address::own_now(page);
    let aside = page.session.aside;
    let under_a_link = aside.with_now(|aside| aside.as_ref().is_some_and(|aside| aside.own));
    if here.design != link.design && here.design != demo() && !under_a_link {
        aside.set(Some(Aside { shared: here, own: true }));
    }
    address::open(page, link);
    untrack(|| other(page)).is_some_and(|aside| aside.own)
}

/// Where the person's own is aside, and another of theirs comes onto the page, the link goes aside.
pub(crate) fn make_way(page: Page) {
    let aside = page.session.aside;
    if aside.with_now(|aside| aside.as_ref().is_some_and(|aside| aside.own)) {
        aside.set(Some(Aside { shared: address::own_now(page), own: false }));
    }
}

/// What is aside, where it is another design than the one on the page.
pub(crate) fn other(page: Page) -> Option<Aside> {
    let here = page.store.committed();
    page.session.aside.get().filter(|aside| aside.shared.design != here)
}

/// Puts what is aside on the page, and what is on the page aside.
pub(crate) fn swap(page: Page) {
    let Some(Aside { shared, own }) = page.session.aside.now() else { return };
    page.session.aside.set(Some(Aside { shared: address::shared_now(page), own: !own }));
    address::open(page, &shared);
}

/// The person's own design and the link's, in this order, wherever each is.
pub(crate) fn own_and_link(page: Page, aside: &Aside) -> (Design, Design) {
    let (here, there) = (page.store.committed(), aside.shared.design.clone());
    if aside.own { (there, here) } else { (here, there) }
}
