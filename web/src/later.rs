//! What a phone's first screen does not show: every panel, the curve that a desk has under the sketch, and
//! the printed sheet.
//!
//! In a build with the feature `split` their code is a WebAssembly module of its own, fetched when one of
//! them is first asked for, or once the page is up and everything is kept for use without a network. Where it
//! does not come the page says so in their place and goes on. Any other build has it from the start.
//!
//! Whatever only [`build`] names is in the second module.

use crate::browser::visit::Visit;
use crate::derive::Answers;
use crate::dom::{Node, block, button, el, follow, loose, on_window, there};
use crate::keys;
use crate::narrowing::{is_asked, narrow};
use crate::panels::{
    about, bolt_up, clearance, compare, drawer, kept, lessons, measure, parts, printed, rear, setup, share,
    theirs, travel, ways,
};
use crate::signals::{Derived, Value};
use crate::sketch::{Tire, beckon, travel as travel_by_hand};
use crate::state::Panel;
use drawing::{Aspect, Broken, Ends, Scene, Sketch, View, view_of, view_of_broken, whole_truck};
use leptos::prelude::untrack;
use study::Rear;
use truck::Proposal;

/// What the second module shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Later {
    /// A panel.
    Panel(Panel),
    /// The curve under the sketch, where there is room for one.
    Curve,
    /// The printed sheet.
    Sheet,
    /// What narrows the marks of guesses, finds how far off figures may be, follows the rear's parts,
    /// draws all but the front view, hears keys, and shows once what can be moved: it shows nothing.
    Marks,
}

/// How it stands with the second module.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Standing {
    /// Nobody has asked for it.
    Unasked,
    /// It is on its way.
    Asked,
    /// It did not come, or not whole.
    #[cfg_attr(not(feature = "split"), expect(dead_code, reason = "what is there from the start never is"))]
    Missing,
    /// It is there.
    There,
}

/// The second module, as it is had. Copies are the same.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SecondModule {
    visit: Visit,
    answers: Answers,
    tire: Tire,
    standing: Value<Standing>,
}

impl SecondModule {
    /// That of a page that is being put up.
    pub(crate) fn new(visit: Visit, answers: Answers, tire: Tire) -> Self {
        let standing = if cfg!(feature = "split") { Standing::Unasked } else { Standing::There };
        let second = Self { visit, answers, tire, standing: Value::new(standing) };
        // Said by what starts the page, when everything is kept for use without a network.
        on_window("scrubline-rest", move |_| second.ask());
        second
    }

    /// Whether the module is there.
    pub(crate) fn is_there(self) -> bool {
        self.standing.get() == Standing::There
    }

    /// What was asked for; until the module is there, a line on how it stands.
    #[inline(never)]
    pub(crate) fn show(self, what: Later) -> Node {
        match self.standing.get() {
            Standing::There => built(what, self).unwrap_or_else(|| self.missing()),
            Standing::Missing => self.missing(),
            Standing::Unasked | Standing::Asked => {
                self.ask();
                block("p", "panel").attr("aria-busy", "true").text("Fetching this part of the page…")
            }
        }
    }

    /// The sheet, empty but while it is printed.
    #[inline(never)]
    pub(crate) fn sheet(self) -> Node {
        let printing = Value::new(false);
        on_window("beforeprint", move |_| printing.set(true));
        on_window("afterprint", move |_| printing.set(false));
        block("section", "sheet")
            .attr("aria-label", "Sheet")
            .content_of(move || if printing.get() { self.show(Later::Sheet) } else { loose() })
    }

    /// Has the marks of guesses narrowed, where there are any, and with the module there how far off
    /// figures may be, and what is not seen from the front drawn.
    pub(crate) fn marks(self) -> Node {
        let page = self.visit.page;
        let has_rear_parts = move || {
            let id = page.selected().proposal();
            let is_rear = |plan: &Proposal| plan.changes().iter().any(|change| change.kind().is_rear());
            page.store.shown().with(|design| id.and_then(|id| design.proposal(id)).is_some_and(is_rear))
        };
        let is_asked = Derived::new(move || self.is_there() || is_asked(self.answers) || has_rear_parts());
        // Who looks from elsewhere than the front asks for what draws that, and with another press once more.
        follow(move || {
            if page.session.aspect.get() != Aspect::Front {
                untrack(|| self.ask());
            }
        });
        let search = move || if is_asked.get() { self.show(Later::Marks) } else { loose() };
        el("div").attr("hidden", "").content_of(search)
    }

    fn missing(self) -> Node {
        let again = button("Try again", move || self.ask());
        let words = "This part of the page could not be fetched whole. Your design is kept, and the sketch goes on. \
                     Where a newer page has taken its place, load the page again.";
        block("div", "panel").child(block("p", "remark").attr("role", "alert").text(words)).child(again)
    }

    /// Fetches the module unless it is there or on its way.
    #[inline(never)]
    fn ask(self) {
        if matches!(self.standing.now(), Standing::Unasked | Standing::Missing) {
            self.standing.set(Standing::Asked);
            fetch(self.standing);
        }
    }
}

#[cfg(feature = "split")]
mod split {
    use super::{Later, Node, SecondModule, Standing, Value, build};
    use wasm_split_helpers::{SplitLoaderError, wasm_split};

    #[wasm_split(later, fallible, preload(arrives))]
    fn apart(what: Later, second: SecondModule) -> Result<Node, SplitLoaderError> {
        Ok(build(what, second))
    }

    /// Fetches the module and says how it went.
    pub(super) fn fetch(standing: Value<Standing>) {
        leptos::task::spawn_local(async move {
            let came = arrives().await.is_ok();
            standing.set(if came { Standing::There } else { Standing::Missing });
        });
    }

    /// What is there is built at once: nothing is waited for.
    pub(super) fn built(what: Later, second: SecondModule) -> Option<Node> {
        use std::future::Future;
        use std::task::{Context, Poll, Waker};
        let work = std::pin::pin!(apart(what, second));
        match work.poll(&mut Context::from_waker(Waker::noop())) {
            Poll::Ready(node) => node.ok(),
            Poll::Pending => None,
        }
    }
}

#[cfg(not(feature = "split"))]
mod whole {
    use super::{Later, Node, SecondModule, Standing, Value, build};

    pub(super) fn fetch(_: Value<Standing>) {}

    #[expect(clippy::unnecessary_wraps, reason = "in a split build there may be none")]
    pub(super) fn built(what: Later, second: SecondModule) -> Option<Node> {
        Some(build(what, second))
    }
}

#[cfg(feature = "split")]
use split::{built, fetch};
#[cfg(not(feature = "split"))]
use whole::{built, fetch};

/// The words of the panels, some of them whole lessons, and how the ledger and the order of work look, put into the
/// page when one is first asked for: nobody waits for them before.
const WORDS: &str =
    concat!(include_str!("../words.html"), "<style>", include_str!("../assets/later.css"), "</style>");

/// The truck from the side or from above, or as far as its parts reach.
fn aside(aspect: Aspect, ends: Ends, drawn: Result<&Sketch<'_>, &Broken<'_>>, view: &View) -> Scene {
    match drawn {
        Ok(sketch) if aspect == Aspect::Side => whole_truck(ends, sketch, view),
        Ok(sketch) => view_of(aspect, sketch, view),
        Err(broken) => view_of_broken(aspect, broken, view),
    }
}

/// Everything that stands in the second module.
fn build(what: Later, second: SecondModule) -> Node {
    let SecondModule { visit, answers, tire, .. } = second;
    let page = visit.page;
    if there("words-before").is_none()
        && let Some(words) = there("words")
    {
        words.add(WORDS);
    }
    let panel = match what {
        Later::Sheet => return printed(page, answers),
        Later::Curve => return drawer(page, answers),
        Later::Marks => {
            answers.rear_of.set(Some(Rear::of));
            answers.drawn_aside.set(Some(aside));
            narrow(page, answers);
            tire.set(Some(travel_by_hand::tire));
            travel_by_hand::slider(page, answers);
            keys::follow(page);
            beckon::once(visit);
            return loose();
        }
        Later::Panel(panel) => panel,
    };
    match panel {
        Panel::Parts => parts(page, answers),
        Panel::Compare => compare(page, answers),
        Panel::Travel => travel(page, answers),
        Panel::Clearance => clearance(page, answers),
        Panel::Ways => ways(page),
        Panel::Setup => setup(page, answers),
        Panel::Rear => rear(page, answers),
        Panel::BoltUp => bolt_up(page),
        Panel::Measure => measure(page, answers),
        Panel::Lessons => lessons(visit, answers),
        Panel::Theirs => theirs(visit, answers),
        Panel::Kept => kept(visit),
        Panel::Share => share(visit, answers),
        Panel::About => about(),
    }
}
