//! Ways down: which parts bring the truck to a height, and what each gives up.

use crate::browser::frames::{in_slices, soon};
use crate::dom::{Node, block, button, el, follow, loose, words};
use crate::hunt::{Hunt, Progress, has_rear};
use crate::signals::{Derived, Value};
use crate::state::{Page, Selected};
use crate::told::{said, write};
use crate::widgets::{Number, check, folding, panel, text_field};
use drawing::{changes_in_words, contest_in_words, lowest_in_words, marked, unseen_in_words};
use measure::print_number;
use std::cell::Cell;
use std::rc::Rc;
use study::{Contest, IF_REAR_STAYS, LeftOut, Miss, Way, Ways};
use truck::{Change, Edit, Kind, MOST_PROPOSALS, Note, Proposal, Truck, notes};

/// Time for the search in a frame, ms: little while a finger is down.
const BUDGET_MS: (f64, f64) = (3.0, 12.0);

const NUMBERS: [(&str, Kind); 7] = [
    ("Lower by", Kind::Length),
    ("Bump travel, at least", Kind::Length),
    ("Rim and tire to brake, joints, arms and rods, at least", Kind::Length),
    ("Room on the way, at least", Kind::Length),
    ("Ride frequency, at least, Hz", Kind::Count),
    ("Ride frequency, at most, Hz", Kind::Count),
    ("Turns of the bolt, at most", Kind::Count),
];
const WEIGHTS: [&str; 6] = [
    "Bump travel, each centimeter lost",
    "Camber, each degree",
    "Caster, each degree",
    "Ride frequency, each tenth of a hertz",
    "Each part",
    "Each cut or trim, on top",
];
const TICKS: [&str; 7] = [
    "Dropped spindles, 1 1/2 to 3 in",
    "Bolt and splines, or coils cut",
    "Bump stop trimmed 3/8 in",
    "Tire sizes",
    "Camber comes back with the shims",
    "Nothing new below the scrub line",
    "Bring the rear down as far",
];
const BEFORE_YOU_BUY: &str = "Before you buy, put one on the sketch and look at The rear: its travel, the shaft's joints, the headlamps.";
/// The place of the rear's.
const REAR: usize = 6;

/// The panel.
#[inline(never)]
pub(crate) fn ways(page: Page) -> Node {
    let hunt = page.session.hunt;
    let number = move |at: usize, label: &'static str, kind: Kind, weight: bool| {
        Number {
            label,
            kind,
            limits: (0.0, 1000.0),
            optional: false,
            stepper: true,
            value: Rc::new(move || {
                hunt.with(|hunt| Some(if weight { hunt.asked.weights[at] } else { hunt.asked.numbers[at] }))
            }),
            start: 0.0,
            badge: Rc::new(String::new),
            take: Rc::new(move |value| {
                let value = value.unwrap_or(0.0).max(0.0);
                hunt.update(|hunt| {
                    hunt.ask(
                        |asked| {
                            if weight { asked.weights[at] = value } else { asked.numbers[at] = value }
                        },
                    );
                });
            }),
        }
        .node(page)
    };
    let tick = move |at: usize| {
        let ticked = move || hunt.with(|hunt| hunt.asked.ticks[at]);
        let set = move |ticked| hunt.update(|hunt| hunt.ask(|asked| asked.ticks[at] = ticked));
        check(el("span").text(TICKS[at]), ticked, set)
    };
    let running =
        Derived::new(move || hunt.with(|hunt| hunt.progress.as_ref().is_some_and(|found| !found.done)));
    let press = move || if running.now() { hunt.update(Hunt::stop) } else { start(page) };
    let search = button("", press)
        .attr("class", "primary")
        .text_of(move || if running.get() { "Stop" } else { "Search" }.to_owned());
    // What was found comes into sight; it stands below everything that was asked.
    let (top, ran) = (search.element().clone(), Cell::new(false));
    follow(move || {
        let runs = running.get();
        if ran.replace(runs) && !runs {
            let top = top.clone();
            soon(move || top.scroll_into_view());
        }
    });
    panel("Find a drop")
        .child(words("words-ways"))
        .child(
            block("div", "numbers")
                .children((0..3).map(|at| number(at, NUMBERS[at].0, NUMBERS[at].1, false))),
        )
        .child(
            block("div", "").content_of(move || {
                if has_rear(&page.store.committed().truck) { tick(REAR) } else { loose() }
            }),
        )
        .child(folding("Parts on the table", move || loose().children((0..4).map(tick)).child(tires(hunt))))
        .child(folding("Limits and weights", move || {
            let mut list = loose().children((4..6).map(tick));
            for (at, (name, kind)) in NUMBERS.iter().enumerate().skip(3) {
                list = list.child(number(at, name, *kind, false));
            }
            for (at, name) in WEIGHTS.iter().enumerate() {
                list = list.child(number(at, name, Kind::Count, true));
            }
            list
        }))
        .child(search)
        .child(block("p", "progress").attr("role", "status").text_of(move || hunt.with(progress)))
        .child(block("div", "cards").content_of(move || hunt.with(|hunt| results(page, hunt))))
        // Known a second after they are: it stands below, and moves none of them.
        .child(block("div", "sure").attr("aria-live", "polite").content_of(move || {
            let mut all = loose();
            // Of another truck it says nothing.
            let is_this = |truck: &Truck| page.store.with_committed(|design| design.truck == *truck);
            if let Some((_, sure)) = hunt.with_now(|hunt| hunt.sure).get().filter(|(truck, _)| is_this(truck))
            {
                for said in sure {
                    all = all.child(block("p", "hint").text(&said));
                }
            }
            all
        }))
}

fn tires(hunt: Value<Hunt>) -> Node {
    text_field(
        "Sizes, on the wheels it has",
        "input",
        "120",
        move || hunt.with(|hunt| hunt.asked.tires.clone()),
        move |sizes| hunt.update(|hunt| hunt.ask(|asked| asked.tires = sizes)),
    )
}

fn start(page: Page) {
    let design = page.store.committed_now();
    // What the proposal on the sketch says of the rear holds for its alternatives too.
    let rear_down_mm = design.overlay(page.selected_now()).rear_down_mm;
    let units = page.units();
    match page.session.hunt.with_now(|hunt| hunt.asked.search(&design.truck, rear_down_mm, units)) {
        Ok(search) => run(page, search, design.truck),
        Err(why) => page.session.complain(why),
    }
}

/// Searches between frames, less at a time while a finger is down.
fn run(page: Page, mut search: Ways, truck: Truck) {
    let hunt = page.session.hunt;
    hunt.update(|hunt| hunt.begin(search.total()));
    let number = hunt.with_now(Hunt::number);
    let busy = move || page.session.dragging.with_now(Option::is_some);
    let mut since = 0;
    let mut contest: Option<Contest> = None;
    let slice = move || {
        if hunt.with_now(Hunt::number) != number {
            return false;
        }
        if let Some(contest) = &mut contest {
            contest.step();
            let is_known = contest.draws() >= Contest::DRAWS;
            if is_known {
                let sure = contest_in_words(&search.certainties(contest));
                hunt.with_now(|hunt| hunt.sure).set(Some((truck.clone(), sure)));
            }
            return !is_known;
        }
        let done = search.step(1);
        since += 1;
        if done || since >= 256 {
            since = 0;
            let progress = Progress::of(&search, done);
            hunt.update(|hunt| hunt.progress = Some(progress));
        }
        if done && !search.found().is_empty() {
            contest = Some(search.contest(Contest::WAYS));
            return true;
        }
        !done
    };
    in_slices(move || if busy() { BUDGET_MS.0 } else { BUDGET_MS.1 }, slice);
}

fn progress(hunt: &Hunt) -> String {
    let Some(found) = &hunt.progress else { return String::new() };
    let said = found.tried.to_string() + " of " + &found.total.to_string() + " combinations tried";
    if found.ways.is_empty() && found.done { said + ": none is within the limits." } else { said + "." }
}

fn results(page: Page, hunt: &Hunt) -> Node {
    let Some(found) = &hunt.progress else { return loose() };
    let truck = &page.store.committed_now().truck;
    let mut list = loose();
    // What can hurt someone is said before any of them.
    for danger in [Note::LetDown, Note::RearBrake] {
        let bears = |changes: &[Change]| notes(truck, changes).contains(&danger);
        if found.ways.iter().any(|way| bears(&way.changes))
            || found.lowest.iter().any(|lowest| bears(&lowest.changes))
        {
            list = list.child(block("p", "remark").attr("role", "alert").text(&danger.to_string()));
            if danger == Note::RearBrake {
                list = list.child(block("p", "remark").text(BEFORE_YOU_BUY));
            }
        }
    }
    if let Some(lowest) = &found.lowest {
        list = list.child(write(block("p", "lowest"), &lowest_in_words(lowest, truck, page.units())));
    }
    list = list.children(found.ways.iter().map(|way| card(page, way)));
    if !found.left_out.is_empty() {
        let why = |(why, count): &(LeftOut, usize)| {
            let near = found.misses.iter().find(|miss| miss.why == *why && found.ways.is_empty());
            let near = near.map_or(String::new(), |miss| missed(page, miss));
            write(el("li"), &(count.to_string() + " " + why.label() + &near))
        };
        list = list.child(el("p").text("Left out:"));
        list = list.child(block("ul", "reasons").children(found.left_out.iter().map(why)));
    }
    list
}

/// The nearest miss of a reason: what it comes to, by how much it misses, what stops it, and its parts.
fn missed(page: Page, miss: &Miss) -> String {
    let units = page.units();
    let [drop, short] = miss.told(&page.store.committed_now().truck);
    let mut text =
        "; nearest: ".to_owned() + &said(&drop, units) + " lower, " + &said(&short, units) + " short";
    if let Some(by) = miss.by {
        text = text + " (" + &by.to_string() + ")";
    }
    if let Some(why) = miss.besides {
        text = text + ", one of those that " + why.label();
    } else if miss.why == LeftOut::Height {
        text += ", otherwise within the limits";
    }
    text + ": " + &changes_in_words(&miss.changes, units)
}

/// One way: its parts, what it gives up, and a button that lays it on the sketch.
fn card(page: Page, way: &Way) -> Node {
    let units = page.units();
    let parts = changes_in_words(&way.changes, units);
    let rear = if way.changes.iter().any(|change| change.kind().is_rear()) {
        "the rear down by its parts"
    } else if way.rear_down_mm.is_none() {
        IF_REAR_STAYS
    } else {
        ""
    };
    let (all, nearest) = way.told(&page.store.committed_now().truck);
    let [drop, bump, camber, caster, frequency] = all.map(|told| said(&told, units));
    let by = way.bump.by.to_string();
    let gets =
        ["You get: ", &drop, " lower, ", &bump, " of bump travel to ", &by, ", ", &frequency, "."].concat();
    let mut loses = ["You lose: camber ", &camber, ", caster ", &caster].concat();
    if !rear.is_empty() {
        loses = loses + ", " + rear;
    }
    if let (Some(told), Some((pair, _))) = (nearest, way.nearest) {
        loses = loses + "; nearest: " + pair.label() + ", " + &said(&told, units);
    }
    loses += &unseen_in_words(&way.unseen);
    let is_guess = all.iter().any(|told| told.is_guess());
    let cost = "gives up ".to_owned() + &marked(print_number(way.cost, 2), is_guess);
    let proposal = way.proposal("Way down");
    let put = move || lay(page, proposal.clone());
    let put = button("Put it on the sketch", put).attr("class", "toggle");
    block("article", "card")
        .child(el("h3").text(&parts))
        .child(write(block("p", "what"), &gets))
        .child(write(block("p", "what"), &(loses + ".")))
        .child(el("header").child(write(el("span"), &cost)).child(put))
}

/// Lays a way on the sketch: as a new proposal, or in place of the one on it where there is no room for more.
fn lay(page: Page, proposal: Proposal) {
    let design = page.store.committed_now();
    let full = design.proposals.len() >= MOST_PROPOSALS;
    let place = page.selected_now().proposal().or_else(|| design.proposals.first().map(|first| first.id));
    let id = place.filter(|_| full).unwrap_or_else(|| design.free_id());
    let lay = if full { Edit::Lay(id, proposal) } else { Edit::TakeProposal(proposal) };
    page.edit_and_say(&lay, Some("It is on the sketch as a plan."));
    page.session.selected.set(Selected::Proposal(id));
}
