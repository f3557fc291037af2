//! What hits: what ends the travel in a sentence, the pairs that come nearest, what of it is a guess,
//! the map of one pair, every limit, and the scrub line.

mod hits;
mod limits;
mod map;
mod pairs;

use crate::browser::slices::Slices;
use crate::derive::{Answers, Standing};
use crate::dom::{Node, block, el, follow, loose};
use crate::panels::read_off::{in_place, shifted};
use crate::panels::sides::right_side;
use crate::signals::{Derived, Same, Value};
use crate::state::Page;
use crate::widgets::{self, folding};
use hits::hits;
use leptos::prelude::document;
use study::{ClearanceSearch, Clearances, Figure, Pair, StandingSide};
use truck::{Field, Readable};

/// The id of the map.
const MAP: &str = "clearance-map";
/// Poses of the grid between two looks at the clock.
const PART: u32 = 16;
/// So many pairs are in sight.
const NEAREST: usize = 3;

/// What was searched at leisure, and of which truck; and of its other wheel, where that goes elsewhere.
type Settled = Value<Option<(Standing, Same<Clearances>, Other)>>;
type Other = Option<Same<(StandingSide, Clearances)>>;

#[derive(Clone, Copy)]
struct Panel {
    page: Page,
    answers: Answers,
    settled: Settled,
    /// The pair whose map is open; the one with the least room where none was chosen.
    chosen: Value<Option<Pair>>,
    size: Value<(f64, f64)>,
    /// What was measured, where the field for it is open.
    reading: Value<Option<Readable>>,
}

/// The panel.
#[inline(never)]
pub(crate) fn clearance(page: Page, answers: Answers) -> Node {
    let panel = Panel {
        page,
        answers,
        settled: Value::new(None),
        chosen: Value::new(None),
        size: Value::new((340.0, 250.0)),
        reading: Value::new(None),
    };
    panel.settle();
    let legend = "On the map, bump is up and left lock at the left. Crossed: they meet. Hatched: under a \
                  quarter inch. Dotted: within an inch. Tap it, and the sketch takes that pose.";
    let rows = move |from, to| panel.found().map_or_else(loose, |found| panel.pairs(&found, from, to));
    let said = Derived::new(move || panel.what_hits());
    widgets::panel("What hits")
        .child(block("p", "hits").content_of(move || said.with(|said| hits(said.as_ref()))))
        // Apart: what is learned of the sentences at leisure takes no row from under a finger.
        .child(el("div").content_of(move || rows(0, NEAREST)))
        .child(block("div", "nearest").content_of(move || said.with(|said| panel.doubts(said.as_ref()))))
        .child(
            block("div", "row")
                .child(block("p", "hint").text(
                    "The worse of both wheels, worked out once nothing moves. Map and lists below: the wheel on the sketch.",
                ))
                .child(right_side(page)),
        )
        .child(folding("All of them", move || rows(NEAREST, Pair::ALL.len())))
        .child(panel.map())
        .child(shifted(page, answers, move || panel.drawn()))
        .child(block("div", "reading").content_of(move || panel.field()))
        .child(block("p", "hint").text(legend))
        .child(block("p", "hint").text_of(move || panel.open()))
        .child(el("h3").text("What ends the travel"))
        .child(block("ul", "ends").content_of(move || panel.ends()))
        .child(el("h3").text("Scrub line, front axle, standing still"))
        .child(block("ul", "ends").content_of(move || panel.scrub_line()))
}

impl Panel {
    /// Searches again at leisure whenever the truck on the sketch has changed.
    fn settle(self) {
        let slices = Slices::new();
        follow(move || {
            let standing = self.answers.standing.get();
            let mut search: Option<ClearanceSearch> = None;
            let mut own: Option<Same<Clearances>> = None;
            let mut other: Option<StandingSide> = None;
            slices.start(Box::new(move || {
                let Ok(rest) = standing.as_ref() else { return true };
                let wheel = other.as_ref().unwrap_or(rest);
                let done = search
                    .get_or_insert_with(|| ClearanceSearch::new(wheel, Clearances::SETTLED))
                    .step(wheel, PART);
                let Some(search) = search.take_if(|_| done) else { return false };
                let found = search.finished();
                // This wheel first; then the other one, where it goes elsewhere.
                let (own, other) = match own.take() {
                    Some(own) => (own, other.take().map(|other| Same::new((other, found)))),
                    None => {
                        other = rest.other_wheel();
                        let found = Same::new(found);
                        if other.is_some() {
                            own = Some(found);
                            return false;
                        }
                        (found, None)
                    }
                };
                self.settled.set(Some((standing.clone(), own, other)));
                true
            }));
        });
    }

    /// Whether what was searched at leisure is that of another truck.
    fn is_behind(self) -> bool {
        let now = self.answers.standing.get();
        self.settled.with(|settled| settled.as_ref().is_none_or(|(of, ..)| *of != now))
    }

    /// What was searched at leisure, or while that is behind what keeps up with a drag.
    fn found(self) -> Option<Same<Clearances>> {
        if self.is_behind() {
            return self.answers.clearances.get();
        }
        self.settled.with(|settled| settled.as_ref().map(|(_, found, _)| found.clone()))
    }

    /// The other wheel, once it was searched at leisure too.
    fn other(self) -> Other {
        if self.is_behind() {
            return None;
        }
        self.settled.with(|settled| settled.as_ref().and_then(|(.., other)| other.clone()))
    }

    /// The pair on the map: the chosen one, or the one with the least room.
    fn pair(self, found: &Clearances) -> Option<Pair> {
        let chosen = self.chosen.get().filter(|pair| found.of_pair(*pair).is_some());
        chosen.or_else(|| found.nearest_first().first().map(|found| found.pair))
    }

    /// What can be read off of the pair that is on the map.
    fn drawn(self) -> Option<Readable> {
        let found = self.found()?;
        Figure::room(self.pair(&found)?).readable()
    }

    /// The field for what was measured. The rows are built anew at every edit, and would take the cursor along.
    fn field(self) -> Node {
        self.reading.get().map_or_else(loose, |of| in_place(self.page, self.answers, of))
    }

    /// Puts a pair on the map, and the map in sight.
    fn choose(self, pair: Pair) {
        self.chosen.set(Some(pair));
        if let Some(map) = document().get_element_by_id(MAP) {
            map.scroll_into_view_with_bool(false);
        }
    }

    /// The pairs that could not be looked at.
    fn open(self) -> String {
        let Some(found) = self.found() else { return String::new() };
        let named =
            found.unstated.iter().map(|(pair, fields)| pair.label().to_owned() + " needs " + &labels(fields));
        let all: Vec<_> = named.collect();
        if all.is_empty() { String::new() } else { "Not looked at: ".to_owned() + &all.join("; ") + "." }
    }

    /// Whether a figure of what is on the sketch may rest on a guess: rather one too many.
    fn is_guess(self, figure: Figure) -> bool {
        self.answers.standing.with(|now| now.as_ref().as_ref().is_ok_and(|rest| is_guess(figure, rest)))
    }
}

/// Whether a figure of a truck may rest on a guess.
fn is_guess(figure: Figure, rest: &StandingSide) -> bool {
    !figure.of_side_may_rest_on(rest).is_empty()
}

fn labels(fields: &[Field]) -> String {
    fields.iter().map(|field| field.label()).collect::<Vec<_>>().join(", ")
}
