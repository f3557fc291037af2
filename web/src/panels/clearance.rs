//! What hits what: every pair's least room over travel and steer, the map of
//! one of them, and the scrub line.

use crate::browser::slices::Slices;
use crate::derive::{Answers, Standing};
use crate::dom::{Node, as_a, block, button, el, follow};
use crate::format::readout_style;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::picture;
use drawing::{ClearanceMap, Mark, Scene, View, Zoom, clearance_map};
use leptos::prelude::document;
use measure::{fixed, print_length};
use std::sync::Arc;
use study::{
    Clearances, Found, LowLine, Moves, Pair, Question, Search, TIGHT_MM, TravelLeft, assumed, guessed_changes,
};
use truck::{ChangeField, Field};
use web_sys::PointerEvent;

/// The id of the map.
const MAP: &str = "clearance-map";
/// Poses of the grid between two looks at the clock.
const PART: u32 = 16;

/// What was searched at leisure, and of which truck.
type Settled = Value<Option<(Standing, Arc<Clearances>)>>;

#[derive(Clone, Copy)]
struct Panel {
    page: Page,
    answers: Answers,
    settled: Settled,
    /// The pair whose map is open; the one with the least room where none was chosen.
    chosen: Value<Option<Pair>>,
    size: Value<(f64, f64)>,
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
    };
    panel.settle();
    let pairs = move || panel.found().map(|found| panel.rows(&found)).unwrap_or_default();
    let legend = "On the map, bump is up and left lock at the left. Crossed: they meet. Hatched: under a \
                  quarter inch. Dotted: within an inch. Tap it, and the sketch takes that pose.";
    block("section", "panel")
        .attr("aria-label", "Clearance")
        .child(el("h2").text("What comes near what"))
        .child(panel.map())
        .child(block("p", "hint").text(legend))
        .child(block("div", "pairs").class_if("behind", move || panel.is_behind()).content_of(pairs))
        .child(block("p", "hint").text_of(move || panel.open()))
        .child(el("h3").text("What ends the travel"))
        .child(block("ul", "ends").content_of(move || panel.ends()))
        .child(el("h3").text("Scrub line, front axle, standing still"))
        .child(block("ul", "ends").content_of(move || panel.low_line()))
}

impl Panel {
    /// Searches again at leisure whenever the truck on the sketch has changed.
    fn settle(self) {
        let slices = Slices::new();
        follow(move || {
            let standing = self.answers.now.get();
            let mut search: Option<Search> = None;
            slices.start(Box::new(move || {
                let Ok(rest) = standing.as_ref() else { return true };
                let done =
                    search.get_or_insert_with(|| Search::new(rest, Clearances::SETTLED)).step(rest, PART);
                if let Some(search) = search.take_if(|_| done) {
                    self.settled.set(Some((Arc::clone(&standing), Arc::new(search.finished()))));
                }
                done
            }));
        });
    }

    /// Whether what was searched at leisure is that of another truck.
    fn is_behind(self) -> bool {
        let now = self.answers.now.get();
        self.settled.with(|settled| settled.as_ref().is_none_or(|(of, _)| !Arc::ptr_eq(of, &now)))
    }

    /// What was searched at leisure, or while that is behind what keeps up with a drag.
    fn found(self) -> Option<Arc<Clearances>> {
        if self.is_behind() {
            return self.answers.clearances.get();
        }
        self.settled.with(|settled| settled.as_ref().map(|(_, found)| Arc::clone(found)))
    }

    /// The pair on the map: the chosen one, or the one with the least room.
    fn pair(self, found: &Clearances) -> Option<Pair> {
        let chosen = self.chosen.get().filter(|pair| found.of_pair(*pair).is_some());
        chosen.or_else(|| found.nearest_first().first().map(|found| found.pair))
    }

    /// The rows of the list, the least room first.
    fn rows(self, found: &Clearances) -> Vec<Node> {
        let open = self.pair(found);
        found.nearest_first().into_iter().map(|found| self.row(found, open == Some(found.pair))).collect()
    }

    fn row(self, found: &Found, open: bool) -> Node {
        let page = self.page;
        let (pair, at, mm) = (found.pair, found.at, found.gap.distance_mm);
        let (guesses, changes) = self.answers.now.with(|now| match now.as_ref() {
            Ok(rest) => {
                let asked = Question::Room(pair);
                let changes = guessed_changes(&rest.fitted, asked);
                (assumed(&rest.fitted.measured, asked), changes.map(changed).collect::<Vec<_>>())
            }
            Err(_) => (Vec::new(), Vec::new()),
        });
        let guessed = !guesses.is_empty() || !changes.is_empty();
        let far = |mm: f64| print_length(mm, readout_style(page.units()));
        let value = if guessed { "~ " } else { "" }.to_owned() + &far(mm);
        let mut place = self.place(found);
        if guessed {
            let names = [labels(&guesses), changes.join(", ")];
            place = place + "; rests on guesses: " + names.join(", ").trim_matches([',', ' ']);
        } else if mm <= 0.0 {
            place = "they meet, ".to_owned() + &place;
        }
        if let Some(spot) = found.meets_in_bump.filter(|spot| !guessed && spot.travel_mm > 0.0) {
            place = place + "; first in bump at " + &far(spot.travel_mm);
        }
        let row = button("", move || self.choose(pair))
            .attr("class", "pair")
            .attr("aria-pressed", if open { "true" } else { "false" })
            .class_if("warn", move || !guessed && mm < TIGHT_MM)
            .child(el("span").text(pair.label()))
            .child(el("b").text(&value))
            .child(el("small").text(&place));
        let show = move || {
            self.choose(pair);
            page.session.travel_mm.set(at.wheel_travel_mm);
            page.session.steer_rad.set(page.way() * at.heading_rad);
        };
        let line = block("div", "pairing").child(row);
        if pair.moves() == Moves::Never {
            return line;
        }
        line.child(
            button("Show", show)
                .attr("aria-label", &("Show the sketch where ".to_owned() + pair.label() + " is least")),
        )
    }

    /// Puts a pair on the map, and the map in sight.
    fn choose(self, pair: Pair) {
        self.chosen.set(Some(pair));
        if let Some(map) = document().get_element_by_id(MAP) {
            map.scroll_into_view_with_bool(false);
        }
    }

    /// Where a pair comes nearest, in words.
    fn place(self, found: &Found) -> String {
        let at = &found.at;
        let style = readout_style(self.page.units());
        let way = if at.travel_mm < -0.05 { "droop " } else { "bump " };
        let travel = match at.travel_mm {
            mm if mm.abs() < 0.05 => "at rest".to_owned(),
            mm => way.to_owned() + &print_length(mm.abs(), style),
        };
        match found.pair.moves() {
            Moves::Never => "at any travel and steer".to_owned(),
            Moves::Travel => travel,
            Moves::Steer => travel + ", " + &steered(self.page.way() * at.heading_rad),
        }
    }

    /// The map of the open pair.
    fn map(self) -> Node {
        let scene = Derived::always(move || {
            let view = self.view();
            self.with_map(|map| clearance_map(map, &view))
                .unwrap_or_else(|| Scene::message("Nothing to show: no pair can be looked at yet.", &view))
        });
        let frame = block("div", "frame").attr("id", MAP).class_if("behind", move || self.is_behind());
        let element = frame.element().clone();
        crate::browser::size::follow(&element, self.size);
        let tap = move |event| {
            let event: PointerEvent = as_a(event);
            let rect = element.get_bounding_client_rect();
            let at = (f64::from(event.client_x()) - rect.left(), f64::from(event.client_y()) - rect.top());
            let view = self.view();
            if let Some(mark) = self.with_map(|map| map.mark_at(&view, at)).flatten() {
                self.page.session.travel_mm.set(mark.travel_mm);
                self.page.session.steer_rad.set(mark.heading_rad);
            }
        };
        block("div", "curve").child(frame.child(picture(scene)).on("click", tap))
    }

    fn view(self) -> View {
        let (width_px, height_px) = self.size.get();
        View {
            width_px,
            height_px,
            type_px: 12.0,
            units: self.page.units(),
            prefix: "clearance".to_owned(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        }
    }

    /// Looks at the map of the open pair: the settled one while there is one,
    /// even if it is behind.
    fn with_map<T>(self, look: impl FnOnce(&ClearanceMap<'_>) -> T) -> Option<T> {
        let old = self.settled.with(|settled| settled.as_ref().map(|(_, found)| Arc::clone(found)));
        let whole = old.or_else(|| self.answers.clearances.get())?;
        let found = whole.of_pair(self.pair(&whole)?)?;
        let session = self.page.session;
        let way = self.page.way();
        let (headings_rad, distances_mm) = columns(&whole, found, way);
        Some(look(&ClearanceMap {
            title: found.pair.to_string(),
            travels_mm: &whole.travels_mm,
            headings_rad: &headings_rad,
            distances_mm: &distances_mm,
            least: Mark { travel_mm: found.at.travel_mm, heading_rad: way * found.at.heading_rad },
            least_mm: found.gap.distance_mm,
            here: Some(Mark { travel_mm: session.travel_mm.get(), heading_rad: session.steer_rad.get() }),
        }))
    }

    /// The pairs that could not be looked at.
    fn open(self) -> String {
        let Some(found) = self.found() else { return String::new() };
        let named =
            found.open.iter().map(|(pair, fields)| pair.label().to_owned() + " needs " + &labels(fields));
        let all: Vec<_> = named.collect();
        if all.is_empty() { String::new() } else { "Not looked at: ".to_owned() + &all.join("; ") + "." }
    }

    /// Every limit of the travel, the nearest first.
    fn ends(self) -> Vec<Node> {
        let style = readout_style(self.page.units());
        let line = |way: &str, limit: &study::Limit| {
            el("li").text(&[way, &print_length(limit.travel_mm, style), ": ", &limit.by.to_string()].concat())
        };
        self.answers.left.with(|left| {
            let Some(TravelLeft { bump_limits, droop_limits, .. }) = left else { return Vec::new() };
            let sorted = |limits: &[study::Limit]| {
                let mut limits = limits.to_vec();
                study::least_first(&mut limits, |limit| limit.travel_mm);
                limits
            };
            let bump = sorted(bump_limits).into_iter().map(|limit| line("bump ", &limit));
            bump.chain(sorted(droop_limits).iter().map(|limit| line("droop ", limit))).collect()
        })
    }

    /// What hangs low at rest, against the scrub line and the rim's edge.
    fn low_line(self) -> Vec<Node> {
        let style = readout_style(self.page.units());
        self.answers.now.with(|now| {
            let Ok(rest) = now.as_ref() else { return Vec::new() };
            let line = LowLine::worst(rest);
            let over = |mm: f64| print_length(mm.abs(), style) + if mm < 0.0 { " below" } else { " above" };
            let row = |point: &study::LowPoint| {
                let words = [
                    point.of.label(),
                    ": ",
                    &over(point.over_line_mm),
                    " the line, ",
                    &over(point.over_rim_mm),
                    " the rim's lowest edge, ",
                    point.load.label(),
                ];
                el("li")
                    .class_if("warn", {
                        let below = point.over_line_mm < 0.0 || point.over_rim_mm < 0.0;
                        move || below
                    })
                    .text(&words.concat())
            };
            let open = |(low, fields): &(study::Low, Vec<Field>)| {
                el("li").text(&[low.label(), ": needs ", &labels(fields)].concat())
            };
            line.points.iter().map(row).chain(line.open.iter().map(open)).collect()
        })
    }
}

/// The headings of a map, + to the left of the truck, and the distances in their columns.
#[inline(never)]
fn columns(whole: &Clearances, found: &Found, way: f64) -> (Vec<f64>, Vec<f64>) {
    let (mut headings_rad, mut distances_mm) = (whole.headings_rad.clone(), found.map.clone());
    if way < 0.0 {
        // A right corner is mirrored, and so is its map.
        let count = headings_rad.len();
        headings_rad.reverse();
        headings_rad.iter_mut().for_each(|heading| *heading = -*heading);
        distances_mm.chunks_mut(count).for_each(<[f64]>::reverse);
    }
    (headings_rad, distances_mm)
}

fn labels(fields: &[Field]) -> String {
    fields.iter().map(|field| field.label()).collect::<Vec<_>>().join(", ")
}

fn changed((kind, place, at): ChangeField) -> String {
    kind.title(place) + ": " + kind.numbers()[at].label
}

fn steered(heading_rad: f64) -> String {
    let degrees = heading_rad.to_degrees();
    if degrees.abs() < 0.5 {
        return "straight ahead".to_owned();
    }
    "steered ".to_owned() + &fixed(degrees.abs(), 0) + "° " + if degrees > 0.0 { "left" } else { "right" }
}
