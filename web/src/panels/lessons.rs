//! Lessons on the live sketch.
//!
//! A lesson is a link with words: both stand in `words.html`, under
//! `words-lesson-` and the lesson's number, its steps inside. Here the words
//! get their numbers, from the studies, and the questions their answers.
//!
//! | attribute | on | meaning |
//! |---|---|---|
//! | `data-show` | a step | what it puts on the sketch: 0 as measured, 1 the first proposal … |
//! | `data-travel` | a step | the travel it begins at, whole mm |
//! | `data-ends` | a step | the truck from the side: 1 the whole of it, 2 its rear |
//! | `data-number` | an element | the number it shows: *what*, *of* which truck, *less* which (`rest` itself at rest, `-` none), *at* which travel |
//! | `data-words` | the same | the words behind a number below, at and above zero, between bars |
//! | `data-curve` | an element | the curve it shows, by its place in the list of the Travel panel |
//! | `data-ask` | an element | the number whose sign is asked for |
//! | `data-if` | a button in it | the sign that it guesses |
//! | `data-answer` | an element | hidden until something was guessed |
//! | `data-verdict` | an element | whether the guess was right |
//! | `data-tapes` | an element | what twenty tapes make of an answer: *what*, *of* which truck, *less* which, degrees or mm that fill half of it |
//! | `data-read` | a button | the answer that it reads off the truck |
//!
//! *What* is a key of [`Quantity`] or of an answer of the rear, or one of those in [`Trucks::one`]; *at* is
//! in whole mm, `here` for the slider's or `stop` for the first touch of the stop.

mod tapes;

use crate::browser::frames::Frames;
use crate::browser::fullscreen;
use crate::browser::visit::Visit;
use crate::derive::{Answers, rest_of};
use crate::dom::{Node, block, button, el, follow, loose, there, whole_number, words};
use crate::format::show_as_read;
use crate::panels::{curve, which};
use crate::signals::{Derived, Value};
use crate::state::{Lesson, Page, Selected};
use crate::told::{FENDER, write};
use drawing::{Aspect, Ends, marked};
use leptos::prelude::untrack;
use measure::MM_PER_INCH;
use sharing::Shared;
use study::{
    Figure, Gauged, Low, Pair, Quantity, RearTold, ScrubLine, Sort, StandingSide, Unit, clearances,
    rear_told, travel_left,
};
use truck::{Kind, Overlay, Side};

/// The panel.
#[inline(never)]
pub(crate) fn lessons(visit: Visit, answers: Answers) -> Node {
    let page = visit.page;
    let under_way = Derived::new(move || page.session.lesson.with(Option::is_some));
    let content = move || if under_way.get() { lesson(visit, answers) } else { list(visit) };
    let projector = page.session.projector;
    // A phone has no room for larger type, and no class before it.
    let large = button("", move || fullscreen::turn(page))
        .attr("class", "wide")
        .text_of(move || if projector.get() { "Leave full screen" } else { "Full screen" }.to_owned());
    block("section", "panel lessons")
        .attr("aria-label", "Lessons")
        .child(el("header").child(el("h2").text("Lessons")).child(large))
        .child(block("div", "cards").content_of(content))
}

/// Marks the page while a lesson is under way, and ends it where undo has brought the person's own design back.
pub(crate) fn follow_lessons(page: Page) {
    fullscreen::follow(page);
    let session = page.session;
    follow(move || {
        let own = session.lesson.with(|lesson| lesson.as_ref().map(|lesson| lesson.own.design.clone()));
        if let Some(root) = leptos::prelude::document().document_element() {
            let _ = root.class_list().toggle_with_force("lesson", own.is_some());
        }
        if own.is_some_and(|own| own == page.store.committed()) {
            session.lesson.set(None);
        }
    });
}

/// What can be learned.
fn list(visit: Visit) -> Node {
    let page = visit.page;
    let entry = |number: u8| {
        let lesson = there(&("words-lesson-".to_owned() + &number.to_string()))?;
        let shared = sharing::from_code(&lesson.said("data-code")?).ok()?;
        let begin = move || {
            let mut shared: Shared = shared.clone();
            shared.opening.lesson = Some(number * 10 + 1);
            visit.put(&shared);
            page.session.handle.set(None);
            go(page, number * 10 + 1);
        };
        Some(el("li").child(button(&lesson.said("aria-label")?, begin)))
    };
    loose().child(words("words-lessons")).child(el("ol").children((1..).map_while(entry)))
}

/// The lesson under way: one step at a time.
fn lesson(visit: Visit, answers: Answers) -> Node {
    let page = visit.page;
    let at = Derived::new(move || {
        page.session.lesson.with(|lesson| lesson.as_ref().map_or(0, |lesson| lesson.at))
    });
    let whole = move || there(&("words-lesson-".to_owned() + &(at.get() / 10).to_string()));
    let title = move || whole().and_then(|whole| whole.said("aria-label")).unwrap_or_default();
    let place = move || {
        ["Step ", &(at.get() % 10).to_string(), " of ", &Lesson::steps(at.get()).to_string()].concat()
    };
    let to = move |words: &str, by: i8| {
        let next = move || at.get().saturating_add_signed(by);
        button(words, move || go(page, at.now().saturating_add_signed(by)))
            .flag("disabled", move || !Lesson::is_there(next()))
    };
    let turns = block("div", "row")
        .child(to("Back", -1))
        .child(el("span").text_of(place))
        .child(to("Next", 1).attr("class", "primary"));
    let title = el("h3").text_of(title);
    let top = title.element().clone();
    follow(move || {
        let at = at.get();
        untrack(|| look(page, at));
    });
    // A step begins in sight, on a phone too, where the sketch takes half of it.
    follow(move || {
        at.get();
        let top = top.clone();
        Frames::default().next(move || top.scroll_into_view());
    });
    let step =
        block("div", "step").attr("aria-live", "polite").content_of(move || step(page, answers, at.get()));
    let leave = button("Leave the lesson", move || visit.leave_lesson()).attr("class", "quiet");
    loose().child(title).child(which(page)).child(step).child(turns).child(leave)
}

/// Goes to a step: what it shows is put on the sketch.
fn go(page: Page, at: u8) {
    let Some(step) = there(&Lesson::words(at)) else { return };
    let session = page.session;
    if let Some(lesson) = session.lesson.now() {
        session.lesson.set(Some(Lesson { at, ..lesson }));
    }
    let number = |attribute| whole_number(&step.said(attribute)?);
    if let Some(of) = number("data-show") {
        let design = page.store.committed_now();
        let proposal = usize::try_from(of - 1).ok().and_then(|at| design.proposals.get(at));
        session.selected.set(proposal.map_or(Selected::AsMeasured, |found| Selected::Proposal(found.id)));
    }
    if let Some(mm) = number("data-travel") {
        session.travel_mm.set(f64::from(mm));
    }
}

/// Has the truck seen as a step wants it, by whatever way one came there: one that says nothing of its ends is
/// looked at as before, but from the front after one that does.
fn look(page: Page, at: u8) {
    let said = there(&Lesson::words(at)).and_then(|step| whole_number(&step.said("data-ends")?));
    match said {
        Some(1) => page.look_from_the_side(Ends::Both),
        Some(_) => page.look_from_the_side(Ends::Rear),
        None if page.session.ends.now() == Ends::Front => {}
        None => {
            page.session.ends.set(Ends::Front);
            page.session.aspect.set(Aspect::Front);
        }
    }
}

/// A place in a list; the first where none is said.
fn place_of(text: &str) -> usize {
    whole_number(text).and_then(|at| usize::try_from(at).ok()).unwrap_or(0)
}

/// The words of a step with their numbers, and its question.
#[inline(never)]
fn step(page: Page, answers: Answers, at: u8) -> Node {
    let text = words(&Lesson::words(at));
    let trucks = Trucks::of(page);
    let mut spoken_of = Vec::new();
    for (place, number) in text.parts("data-number") {
        spoken_of.extend(on_sketch(&number));
        let behind = place.said("data-words");
        place.content_of(move || write(el("span"), &trucks.say(&number, behind.as_deref())));
    }
    for (place, quantity) in text.parts("data-curve") {
        let _ = place.child(curve(page, answers, "lesson", place_of(&quantity)));
    }
    for (place, asked) in text.parts("data-tapes") {
        let _ = place.child(tapes::tapes(page, &asked));
    }
    for (button, of) in text.parts("data-read") {
        button.attr("type", "button").on("click", move |_| tapes::read_off(page, &of));
    }
    let guess = Value::new(None::<i32>);
    for (_, asked) in text.parts("data-ask") {
        spoken_of.extend(on_sketch(&asked));
        let sign = Derived::new(move || trucks.read(&asked).map(|number| i32::from(number.sign())));
        for (choice, held) in text.parts("data-if") {
            let guessed = whole_number(&held);
            choice
                .attr("type", "button")
                .on("click", move |_| guess.set(guessed))
                .attr_of("aria-pressed", move || Some((guess.get() == guessed).to_string()))
                .class_if("right", move || guess.get().is_some() && sign.get() == guessed);
        }
        for (verdict, _) in text.parts("data-verdict") {
            let right = move || guess.get() == sign.get();
            verdict.text_of(move || if right() { "Right. " } else { "Not quite. " }.to_owned());
        }
    }
    page.session.spoken_of.set(spoken_of);
    for (answer, _) in text.parts("data-answer") {
        let shown = answer.clone();
        answer.flag("hidden", move || guess.get().is_none());
        // On a phone it stands below what is in sight.
        follow(move || {
            if guess.get().is_some() {
                shown.element().scroll_into_view_with_bool(false);
            }
        });
    }
    text
}

/// Where a number of a step is written on the sketch.
#[inline(never)]
fn on_sketch(number: &str) -> Option<Figure> {
    Some(match number.split(' ').next()? {
        "ride_height" => Figure::FRAME_HEIGHT,
        "camber" | "camber_rate" => Figure::CAMBER,
        "touch" | "bump" => Figure::BUMP,
        "roll_centre" | "instant_centre_y" => Figure::ROLL_CENTRE,
        "fender" | "wheel_z" => FENDER,
        _ => return None,
    })
}

/// The trucks of a lesson at rest: as measured, then each proposal.
#[derive(Clone, Copy)]
struct Trucks {
    page: Page,
    stood: Derived<Vec<Option<StandingSide>>>,
    /// What is told of the rear of each, while nothing moves.
    told: Derived<Vec<Vec<RearTold>>>,
}

impl Trucks {
    fn of(page: Page) -> Self {
        let stood: Derived<Vec<Option<StandingSide>>> = Derived::new(move || {
            page.store.shown().with(|design| {
                let mut overlays = vec![Overlay::NOTHING];
                overlays.extend(design.proposals.iter().map(Overlay::from));
                let stood = |overlay| rest_of(&design.truck, Side::Left, overlay).ok();
                overlays.into_iter().map(stood).collect()
            })
        });
        let told = Derived::paced(move |is_there| {
            let waits = page.session.is_moving.get() && is_there;
            let rears = || {
                stood.with(|stood| {
                    let told = |rest: &Option<StandingSide>| {
                        rest.as_ref().map_or_else(Vec::new, |rest| rear_told(rest.stance()).told)
                    };
                    stood.iter().map(told).collect()
                })
            };
            (!waits).then(rears)
        });
        Self { page, stood, told }
    }

    /// A number in words with its mark: with words behind it, its size alone is said.
    fn say(self, asked: &str, behind: Option<&str>) -> String {
        let Some(number) = self.read(asked) else { return "—".to_owned() };
        let said = match behind {
            None => self.print(number.value, number.kind),
            Some(behind) => {
                let sign = number.sign();
                let place = usize::try_from(sign + 1).unwrap_or_default();
                let word = behind.split('|').nth(place).unwrap_or_default();
                if sign == 0 && !word.is_empty() {
                    word.to_owned()
                } else {
                    (self.print(number.value.abs(), number.kind) + " " + word).trim_end().to_owned()
                }
            }
        };
        marked(said, number.is_guess)
    }

    fn print(self, value: f64, kind: Kind) -> String {
        show_as_read(kind, value, self.page.units())
    }

    /// The number that is asked for: *what of less at*.
    fn read(self, asked: &str) -> Option<Number> {
        let mut words = asked.split(' ');
        let (what, of) = (words.next()?, words.next()?);
        let less = words.next().unwrap_or("-");
        let at = words.next().unwrap_or("0");
        let number = self.one(what, of, at)?;
        let less = match less {
            "-" => return Some(number),
            "rest" => self.one(what, of, "0")?,
            less => self.one(what, less, at)?,
        };
        let is_guess = number.is_guess || less.is_guess;
        Some(Number { value: number.value - less.value, is_guess, ..number })
    }

    fn one(self, what: &str, of: &str, at: &str) -> Option<Number> {
        let of = usize::try_from(whole_number(of)?).ok()?;
        if what == "change" {
            return self.page.store.shown().with(|design| {
                let proposal = design.proposals.get(of.checked_sub(1)?)?;
                let change = proposal.changes().first()?;
                let (kind, place) = change.slot();
                Some(Number {
                    value: (*change.values().first()?)?,
                    kind: kind.numbers().first()?.kind,
                    is_guess: Overlay::from(proposal).guessed().contains(&(kind, place, 0)),
                })
            });
        }
        let of_front = self.stood.with(|stood| {
            let rest = stood.get(of)?.as_ref()?;
            let (value, kind, figure) = of_rest(rest, what, at, self.page)?;
            Some(Number { value, kind, is_guess: !figure.of_side_may_rest_on(rest).is_empty() })
        });
        of_front.or_else(|| self.told.with(|told| of_rear(told.get(of)?, what)))
    }
}

/// A number of a lesson.
struct Number {
    value: f64,
    kind: Kind,
    /// Whether it may rest on a number that nobody has measured: rather one too many.
    is_guess: bool,
}

impl Number {
    /// Its sign; none where it is too small to be told on a truck, in whatever units.
    fn sign(&self) -> i8 {
        let seen = match self.kind {
            Kind::Length => MM_PER_INCH / 32.0,
            Kind::Angle => 0.005_f64.to_radians(),
            _ => 0.05,
        };
        i8::from(self.value > seen) - i8::from(self.value < -seen)
    }
}

/// One answer of the rear; a share in percent.
#[inline(never)]
fn of_rear(told: &[RearTold], what: &str) -> Option<Number> {
    let told = told.iter().find(|told| told.answer.key() == what)?;
    let study::Value::Number(value) = told.value? else { return None };
    let (value, kind) = match told.answer.sort() {
        Sort::Length => (value, Kind::Length),
        Sort::Angle => (value, Kind::Angle),
        _ => (100.0 * value, Kind::Whole),
    };
    Some(Number { value, kind, is_guess: told.is_guess })
}

/// One number of a truck at rest, and the figure that it is one of.
#[inline(never)]
fn of_rest(rest: &StandingSide, what: &str, at: &str, page: Page) -> Option<(f64, Kind, Figure)> {
    let touch_mm = rest.travel_at(rest.stops.touch_rad);
    let length = |mm: f64, figure| Some((mm, Kind::Length, figure));
    let low = |low: Low| length(ScrubLine::of(rest).point(low)?.over_line_mm, Figure::over_line(low));
    match what {
        "touch" => return length(touch_mm, Figure::BUMP_TOUCH),
        "droop" => return length(-rest.travel_at(rest.stops.droop_rad), Figure::DROOP_STOP),
        "bump" => return length(travel_left(rest).bump.travel_mm, Figure::BUMP),
        "nut" => return low(Low::BallNut),
        "fixed" => return low(Low::Fixed),
        "rate" => return Some((rest.wheel_rate_n_per_mm, Kind::Rate, Figure::WHEEL_RATE)),
        _ => {}
    }
    let travel_mm = match at {
        "here" => page.session.travel_mm.get(),
        "stop" => touch_mm,
        mm => f64::from(whole_number(mm)?),
    };
    let pose = rest.at_travel(travel_mm).ok()?;
    if what == "fender" {
        let gaps = clearances(rest, &pose);
        return length(gaps.iter().find(|gap| gap.pair == Pair::TireFender)?.distance_mm, FENDER);
    }
    let quantity = *Quantity::ALL.iter().find(|quantity| quantity.key() == what)?;
    let figure = Figure::through(quantity);
    let value = quantity.read(&Gauged::of(rest, pose).ok()?)?;
    Some(match quantity.unit() {
        Unit::Length => (value, Kind::Length, figure),
        // Said of an inch.
        Unit::AnglePerLength => (value * MM_PER_INCH, Kind::Angle, figure),
        _ => (value, Kind::Angle, figure),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_leads_to_each_step_that_has_words_and_to_no_other() {
        const WORDS: &str = include_str!("../../words.html");
        for at in 0..=u8::MAX {
            let id = ["id=\"", &Lesson::words(at), "\""].concat();
            assert_eq!(Lesson::is_there(at), WORDS.contains(&id), "{at}");
        }
    }
}
