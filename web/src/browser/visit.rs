//! The visit: what is on the page, what waits aside, and what is kept. Whatever comes onto the page
//! comes by here; the address, the shelf and what is aside are plain in and out below it.

use crate::browser::address::{self, Address};
use crate::browser::aside::{self, Aside};
use crate::browser::frames::soon;
use crate::browser::shelf::Shelf;
use crate::browser::{back, calm};
use crate::dom::{follow, on_window, there};
use crate::signals::{Derived, Value};
use crate::state::{Lesson, Page, Panel, Preferences, Session, Store};
use leptos::prelude::untrack;
use sharing::{Opening, Shared, Tree};
use truck::demo;

/// The number of a lesson's design, which is nobody's and is not kept.
const LESSON: usize = usize::MAX;

/// The page with what waits beside it. Copies are the same.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Visit {
    /// What is on the page.
    pub(crate) page: Page,
    /// What is kept.
    pub(crate) shelf: Shelf,
    /// What a link would have replaced, or the link, whichever is not on the page.
    aside: Value<Option<Aside>>,
}

/// Whose a design is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Whose {
    /// Nobody's: the demo, untouched.
    Demo,
    /// Whoever sent the link by which it came, untouched.
    Somebody,
    /// The person's own, or that of a lesson.
    Own,
}

/// The demo with its proposal.
fn fresh() -> Shared {
    let design = demo();
    let proposal = design.proposals.first().map(|proposal| proposal.id);
    Shared { design, opening: Opening { proposal, ..Opening::default() } }
}

/// The step of a lesson that a link leads to, where it is one of ours.
fn lesson_of(shared: &Shared) -> Option<u8> {
    shared.opening.lesson.filter(|at| Lesson::is_there(*at))
}

impl Visit {
    /// A visit begins with the person's own last design, and over it what the address holds, as
    /// one step to undo.
    pub(crate) fn begin(preferences: Preferences, session: Session) -> Self {
        let (shelf, own) = Shelf::begin(fresh);
        let page = Page::new(Store::new(own.design), preferences, session);
        let visit = Self { page, shelf, aside: Value::new(aside::kept()) };
        page.show(&own.opening);
        visit.recall_sent(0);
        match address::held() {
            Some(Ok(link)) => {
                visit.arrive(&visit.as_it_counts_here(&link), None);
            }
            Some(Err(why)) => session.complain(why.to_string() + " Your own last design is shown instead."),
            None => {}
        }
        visit
    }

    /// Keeps address, shelf and title in step with the page, and the page with the address.
    pub(crate) fn follow(self) {
        let page = self.page;
        let kept = Derived::new(move || sharing::to_kept_text(&page.shared()));
        // How far the work is, behind it, is no matter of the address.
        let code = move || kept.with_now(|text| sharing::code_and_work(text).0.to_owned());
        let address = Address::known();
        calm::follow(kept, move || {
            self.keep();
            address.write(&code());
        });
        back::follow(page.session, move || address.hold(&code()));
        address.hear(move |text| {
            if text != code() {
                self.take_text(text.to_owned());
            }
        });
        let title = move || {
            let title = page.store.shown().with(|design| design.title.clone());
            if title.is_empty() { "Scrubline".to_owned() } else { title + " · Scrubline" }
        };
        // Set only when it differs: not at every frame of a drag.
        if let Some(there) = there("title") {
            there.text_of(title);
        }
        // A design that two tabs wrote at once is kept in both.
        on_window("storage", move |_| {
            if self.shelf.is_overrun(page.store.number_now()) {
                self.keep();
            }
        });
        follow(move || self.aside.with(|aside| aside::keep(aside.as_ref())));
        // Written where it becomes an answer, and not at every change of that.
        let answer = Derived::new(move || {
            page.came.with(|came| came.as_ref().and_then(|(number, _)| self.shelf.entry(*number)))
        });
        follow(move || {
            if let (Some(entry), Some((_, sent))) = (answer.get(), page.came.get()) {
                aside::keep_sent(&entry, sent);
            }
        });
    }

    /// What is kept under a number may answer what somebody sent on an earlier visit.
    fn recall_sent(self, number: usize) {
        let sent = untrack(|| self.shelf.entry(number)).and_then(|entry| aside::sent(&entry));
        if let Some(sent) = sent {
            self.page.came.set(Some((number, sent)));
        }
    }

    /// What is on the page is the person's own from now on, whoever sent it.
    pub(crate) fn forget_sent(self) {
        self.page.came.set(None);
        aside::forget_sent();
    }

    /// Takes what somebody put into the address. It waits for a finger that drags: the sketch stays under it.
    fn take_text(self, text: String) {
        let session = self.page.session;
        if session.dragging.with_now(Option::is_some) {
            return soon(move || self.take_text(text));
        }
        match address::read(&text) {
            Ok(link) => self.take(&self.as_it_counts_here(&link)),
            Err(why) => session.complain(why.to_string() + " Your own design is still here."),
        }
    }

    /// Keeps the design on the page, where it was touched; what is to be said of it is said.
    #[inline(never)]
    fn keep(self) {
        let came = self.shelf.keep(self.page.store.number_now(), &self.page.shared_now());
        if came.again {
            self.shelf.again(move || self.keep());
        }
        if came.said.is_some() {
            self.page.session.notice.set(came.said);
        }
    }

    /// Puts what a link holds on the page: one step to undo. Where it holds a
    /// lesson, the person's own design waits until that is left.
    /// Gives whether it is another than what was there.
    pub(crate) fn put(self, shared: &Shared) -> bool {
        self.keep();
        let (page, session) = (self.page, self.page.session);
        let own = self.own();
        let waits = session.lesson.with_now(|lesson| lesson.as_ref().map(|lesson| lesson.number));
        let own_number = waits.unwrap_or_else(|| page.store.number_now());
        let lesson = lesson_of(shared);
        let mut design = shared.design.clone();
        let number = if lesson.is_some() { LESSON } else { self.shelf.number(&mut design) };
        let is_step = page.replace(design, number);
        page.show(&shared.opening);
        session.lesson.set(lesson.map(|at| Lesson { at, own, number: own_number }));
        if lesson.is_some() {
            session.turn_to(Panel::Lessons);
        }
        is_step
    }

    /// The person's own: what is on the page, or waits there for the end of a lesson.
    fn own(self) -> Shared {
        let waits =
            self.page.session.lesson.with_now(|lesson| lesson.as_ref().map(|lesson| lesson.own.clone()));
        waits.unwrap_or_else(|| self.page.shared_now())
    }

    /// Ends a lesson: the person's own design comes back.
    pub(crate) fn leave_lesson(self) {
        let lesson = self.page.session.lesson.now();
        self.page.session.lesson.set(None);
        if let Some(Lesson { own, number, .. }) = lesson {
            self.page.replace(own.design, number);
            self.page.show(&own.opening);
            self.page.session.say("Your own design is back.");
        }
    }

    /// Puts a link over what is on the page, which goes aside where it is the person's own; says so
    /// where anything of theirs is aside, and `else_said` where not.
    /// The demo, untouched, is nobody's work.
    fn arrive(self, link: &Shared, else_said: Option<&str>) {
        let here = self.own();
        // Where it holds a lesson, one's own waits for its end instead.
        let is_lesson = lesson_of(link).is_some();
        if !is_lesson && here.design != link.design && here.design != demo() && !untrack(|| self.own_waits())
        {
            self.aside.set(Some(Aside { shared: here, own: true }));
        }
        let is_step = self.put(link);
        if !is_lesson && untrack(|| self.page.is_as_sent()) {
            self.page.session.turn_to(Panel::Theirs);
        }
        let kept = !is_lesson && untrack(|| self.aside()).is_some_and(|aside| aside.own);
        let kept = kept.then_some("A link is open. Your own design is kept: see Send.");
        if let Some(said) = kept.or(else_said) {
            self.page.session.done(said, is_step);
        }
    }

    /// The same, and says that it is open where nothing had to be kept.
    pub(crate) fn take(self, link: &Shared) {
        self.arrive(link, Some("Opened."));
    }

    /// A link as it counts here: what was measured by whoever made it is a stranger's, unless it is a design
    /// of this browser's own. A file is taken for one's own.
    pub(crate) fn as_it_counts_here(self, link: &Shared) -> Shared {
        let mut counted = link.clone();
        let number = self.shelf.number(&mut counted.design);
        if untrack(|| self.shelf.entry(number)).is_some() {
            self.recall_sent(number);
            return counted;
        }
        let mut counted = counted.came_by_link();
        let number = self.shelf.number(&mut counted.design);
        // A lesson is nobody's plan, and what is answered waits behind it.
        if lesson_of(&counted).is_none() {
            self.page.came.set(Some((number, counted.design.clone())));
        }
        counted
    }

    /// Whose the design on the page is, followed.
    pub(crate) fn whose(self) -> Whose {
        if self.page.session.lesson.with(Option::is_some) {
            return Whose::Own;
        }
        if self.page.is_as_sent() {
            Whose::Somebody
        } else if self.page.store.with_committed(|here| *here == demo()) {
            Whose::Demo
        } else {
            Whose::Own
        }
    }

    /// Whether the person's own waits aside, followed.
    pub(crate) fn own_waits(self) -> bool {
        self.aside.with(|aside| aside.as_ref().is_some_and(|aside| aside.own))
    }

    /// Where the person's own is aside, and another of theirs comes onto the page, the link goes aside.
    fn make_way(self) {
        if untrack(|| self.own_waits()) {
            self.aside.set(Some(Aside { shared: self.own(), own: false }));
        }
    }

    /// What is aside, where it is another design than the one on the page, followed.
    pub(crate) fn aside(self) -> Option<Aside> {
        let here = self.page.store.committed();
        self.aside.get().filter(|aside| aside.shared.design != here)
    }

    /// Puts what is aside on the page, and what is on the page aside.
    pub(crate) fn swap(self) {
        let Some(Aside { shared, own }) = self.aside.now() else { return };
        self.aside.set(Some(Aside { shared: self.page.shared_now(), own: !own }));
        self.put(&shared);
    }

    /// Forgets what is aside.
    pub(crate) fn drop_aside(self) {
        self.aside.set(None);
    }

    /// The demo again, as if nobody had been here.
    pub(crate) fn begin_anew(self) {
        self.make_way();
        self.put(&fresh());
    }

    /// The entry of the design on the page, followed.
    pub(crate) fn entry_here(self) -> Option<String> {
        self.shelf.entry(self.page.store.number())
    }

    /// Puts an entry of the shelf on the page: one step to undo.
    pub(crate) fn take_out(self, id: &str) {
        self.keep();
        let (page, session) = (self.page, self.page.session);
        match self.shelf.take_out(id) {
            Ok((number, shared)) => {
                self.make_way();
                session.lesson.set(None);
                self.recall_sent(number);
                let is_step = page.replace(shared.design.clone(), number);
                page.show(&shared.opening);
                self.shelf.remember(number);
                session.done("Opened.", is_step);
            }
            Err(why) => session.complain(why.in_words()),
        }
    }

    /// Takes the designs of a file onto the shelf, and says what came of it.
    pub(crate) fn take_in(self, tree: &Tree) {
        self.page.session.notice.set(Some(self.shelf.take_in(tree)));
    }
}
