//! What hits what: every pair's least room over travel and steer, the map of
//! one of them, and the scrub line.

use crate::browser::slices::Slices;
use crate::derive::{Answers, Standing};
use crate::dom::{Node, as_a, block, button, el, follow};
use crate::format::readout_style;
use crate::panels::read_off::{in_place, measured, shifted};
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::told::{model_says, said, write};
use crate::widgets::picture;
use drawing::{ClearanceMap, Mark, Scene, View, Zoom, clearance_map, marked};
use leptos::prelude::document;
use measure::{fixed, print_length};
use std::sync::Arc;
use study::{
    Clearances, Figure, Found, Judged, LowLine, Moves, Pair, Search, StandingSide, Studies, Told, TravelLeft,
};
use truck::{ChangeField, Field, Readable};
use web_sys::PointerEvent;

/// The id of the map.
const MAP: &str = "clearance-map";
/// As many guesses are named with a pair.
const NAMED: usize = 4;
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
    let pairs = move || panel.found().map(|found| panel.rows(&found)).unwrap_or_default();
    let legend = "On the map, bump is up and left lock at the left. Crossed: they meet. Hatched: under a \
                  quarter inch. Dotted: within an inch. Tap it, and the sketch takes that pose.";
    block("section", "panel")
        .attr("aria-label", "What hits")
        .child(el("h2").text("What comes near what"))
        .child(panel.map())
        .child(shifted(page, answers, move || panel.drawn()))
        .child(block("div", "reading").content_of(move || panel.field()))
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
        let (pair, at) = (found.pair, found.at);
        let far = |mm: f64| print_length(mm, readout_style(page.units()));
        let told = self.answers.now.with(|now| now.as_ref().as_ref().ok().map(|rest| told(rest, found)));
        let value = told.as_ref().map_or_else(String::new, |(told, _)| said(told, page.units()));
        let warn = matches!(told, Some((Told { judged: Judged::Tight | Judged::Bad, .. }, _)));
        let number = told.as_ref().and_then(|(told, _)| told.number());
        let at_rest = told.as_ref().map_or_else(String::new, |(told, _)| self.at_rest(told, found));
        let guesses = told.filter(|(told, _)| told.is_guess()).map(|(_, guesses)| guesses);
        let mut place = self.place(found);
        if let Some(guesses) = guesses {
            place = place + "; rests on guesses: " + &guesses;
        } else {
            if number.is_some_and(|mm| mm <= 0.0) {
                place = "they meet, ".to_owned() + &place;
            }
            if let Some(spot) = found.meets_in_bump.filter(|spot| spot.travel_mm > 0.0) {
                place = place + "; first in bump at " + &far(spot.travel_mm);
            }
        }
        let choose = move || {
            self.reading.set(None);
            self.choose(pair);
        };
        let row = button("", choose)
            .attr("class", "pair")
            .attr("aria-pressed", if open { "true" } else { "false" })
            .class_if("warn", move || warn)
            .child(el("span").text(pair.label()))
            .child(write(el("b"), &value))
            .child(write(el("small"), &(place + &at_rest)));
        let show = move || {
            self.choose(pair);
            page.session.travel_mm.set(at.wheel_travel_mm);
            page.session.steer_rad.set(page.way() * at.heading_rad);
        };
        let of = Figure::room(pair).readable();
        let read = of.map(|of| measured(page, of, self.reading, move || self.choose(pair)));
        let line = block("div", "pairing").child(row).children(read);
        if pair.moves() == Moves::Never {
            return line;
        }
        line.child(
            button("Show", show)
                .attr("aria-label", &("Show the sketch where ".to_owned() + pair.label() + " is least")),
        )
    }

    /// What was read off between the two as it sits, with what the model says of it.
    fn at_rest(self, told: &Told, found: &Found) -> String {
        let units = self.page.units();
        let and_model = |told: &Told, rest: &StandingSide| model_says(told, rest, units);
        self.answers.now.with(|now| {
            let Ok(rest) = now.as_ref() else { return String::new() };
            let figure = Figure::room(found.pair);
            if found.pair.moves() == Moves::Never || figure.reading(&rest.fitted.measured).is_none() {
                return and_model(told, rest);
            }
            let told = figure.told(&Held { rest, found }, figure.of_side_may_rest_on(rest));
            "; at rest ".to_owned() + &said(&told, units) + &and_model(&told, rest)
        })
    }

    /// What can be read off of the pair that is on the map.
    fn drawn(self) -> Option<Readable> {
        let found = self.found()?;
        Figure::room(self.pair(&found)?).readable()
    }

    /// The field for what was measured. The rows are built anew at every edit, and would take the cursor along.
    fn field(self) -> Vec<Node> {
        self.reading.get().map(|of| in_place(self.page, self.answers, of)).unwrap_or_default()
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
            is_guess: self.is_guess(Figure::least_room(found.pair)),
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

    /// Whether a figure of what is on the sketch may rest on a guess: rather one too many.
    fn is_guess(self, figure: Figure) -> bool {
        self.answers.now.with(|now| now.as_ref().as_ref().is_ok_and(|rest| is_guess(figure, rest)))
    }

    /// Every limit of the travel, the nearest first.
    fn ends(self) -> Vec<Node> {
        let style = readout_style(self.page.units());
        let line = |way: &str, figure: Figure, limit: &study::Limit| {
            let length = marked(print_length(limit.travel_mm, style), self.is_guess(figure));
            write(el("li"), &[way, &length, ": ", &limit.by.to_string()].concat())
        };
        self.answers.left.with(|left| {
            let Some(TravelLeft { bump_limits, droop_limits, .. }) = left else { return Vec::new() };
            let sorted = |limits: &[study::Limit]| {
                let mut limits = limits.to_vec();
                study::least_first(&mut limits, |limit| limit.travel_mm);
                limits
            };
            let bump = sorted(bump_limits).into_iter().map(|limit| line("bump ", Figure::BUMP, &limit));
            let droop = sorted(droop_limits);
            bump.chain(droop.iter().map(|limit| line("droop ", Figure::DROOP, limit))).collect()
        })
    }

    /// What hangs low at rest, against the scrub line and the rim's edge.
    fn low_line(self) -> Vec<Node> {
        let style = readout_style(self.page.units());
        self.answers.now.with(|now| {
            let Ok(rest) = now.as_ref() else { return Vec::new() };
            let line = LowLine::worst(rest);
            let over = |figure: Figure, mm: f64| {
                let length = marked(print_length(mm.abs(), style), is_guess(figure, rest));
                length + if mm < 0.0 { " below" } else { " above" }
            };
            let row = |point: &study::LowPoint| {
                let figures = [Figure::over_line(point.of), Figure::over_rim(point.of)];
                let words = [
                    point.of.label(),
                    ": ",
                    &over(figures[0], point.over_line_mm),
                    " the line, ",
                    &over(figures[1], point.over_rim_mm),
                    " the rim's lowest edge, ",
                    point.load.label(),
                ];
                // A guess is no verdict.
                let below = |figure: Figure, mm: f64| mm < 0.0 && !is_guess(figure, rest);
                let warn = below(figures[0], point.over_line_mm) || below(figures[1], point.over_rim_mm);
                write(el("li").class_if("warn", move || warn), &words.concat())
            };
            let open = |(low, fields): &(study::Low, Vec<Field>)| {
                el("li").text(&[low.label(), ": needs ", &labels(fields)].concat())
            };
            line.points.iter().map(row).chain(line.open.iter().map(open)).collect()
        })
    }
}

/// Whether a figure of a truck may rest on a guess.
fn is_guess(figure: Figure, rest: &StandingSide) -> bool {
    !figure.of_side_may_rest_on(rest).is_empty()
}

/// What one pair comes to, of all that figures are read from.
struct Held<'a> {
    rest: &'a StandingSide,
    found: &'a Found,
}

impl Studies for Held<'_> {
    fn rest(&self) -> &StandingSide {
        self.rest
    }

    fn found(&self, _: Pair) -> Option<&Found> {
        Some(self.found)
    }

    fn room_mm(&self, pair: Pair) -> Option<f64> {
        study::clearance(self.rest, &self.rest.pose, pair).map(|gap| gap.distance_mm)
    }
}

/// What is told of the least room of a pair, and on which guesses it rests in words, its own first.
fn told(rest: &StandingSide, found: &Found) -> (Told, String) {
    let figure = Figure::least_room(found.pair);
    let guesses = figure.of_side_may_rest_on(rest);
    let is_own = |field: &Field| {
        found.pair.parts().contains(&field.group()) || found.pair.fields().any(|own| own == *field)
    };
    let (own, others): (Vec<Field>, Vec<Field>) = guesses.numbers.iter().partition(is_own);
    let mut names: Vec<String> = own.iter().map(|field| field.label().to_owned()).collect();
    names.extend(guesses.changes(&rest.fitted).map(changed));
    names.extend(others.iter().map(|field| field.label().to_owned()));
    let more = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    let mut said = names.join(", ");
    if more > 0 {
        said = said + " and " + &more.to_string() + " more";
    }
    (figure.told(&Held { rest, found }, guesses), said)
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
