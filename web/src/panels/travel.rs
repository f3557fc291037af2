//! Curves over the travel.

use crate::derive::{Answers, CURVE_MM, Standing, short_names};
use crate::dom::{Node, block, el, loose, value_of, whole_number};
use crate::panels::read_off::shifted;
use crate::panels::readouts::thing;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::told::write;
use crate::widgets::{self, folding, folding_under, moved_sideways, picture};
use drawing::{Chart, NumberFormat, Scene, Series, SeriesStyle, Units, View, Zoom, chart, marked, part_ends};
use measure::MM_PER_INCH;
use study::{Figure, Guesses, Limiter, Quantity, StandingSide, Station, Unit};
use truck::Readable;
use wasm_bindgen::JsValue;

/// The quantities worth a curve against travel.
const CURVES: [Quantity; 7] = [
    Quantity::Camber,
    Quantity::Toe,
    Quantity::Caster,
    Quantity::RollCentre,
    Quantity::HalfTrack,
    Quantity::ScrubRadius,
    Quantity::Trail,
];
/// Those worth one against steer; they follow the others in the list to choose from.
const STEERED: [Quantity; 3] = [Quantity::ScrubRadius, Quantity::TrailGround, Quantity::Camber];

/// The panel.
#[inline(never)]
pub(crate) fn travel(page: Page, answers: Answers) -> Node {
    block("section", "panel")
        .attr("aria-label", "Curves")
        .child(el("h2").text("Through travel and steer"))
        .child(curve(page, answers, "panel", 0))
        .child(folding("The same as numbers", move || table(page, answers)))
}

/// The curve under the sketch, folded to a line that says what it comes to.
#[inline(never)]
pub(crate) fn drawer(page: Page, answers: Answers) -> Node {
    let heading = el("summary")
        .child(block("b", "name").text("Curves"))
        .child(el("span").text_of(move || result(&answers)));
    folding_under(heading, Value::new(false), move || curve(page, answers, "below", 0))
        .attr("class", "group drawer")
}

/// What the camber comes to where the bump travel ends, and as it sits there.
fn result(answers: &Answers) -> String {
    let Some((_, bump, _)) = answers.travel_free() else { return String::new() };
    let camber = |standing: &Standing| {
        let rest = standing.as_ref().as_ref().ok()?;
        let pose = rest.at_travel(bump.travel_mm).ok()?;
        let is_guess = !Figure::through(Quantity::Camber).of_side_may_rest_on(rest).is_empty();
        Some(marked(measure::signed(pose.camber_rad().to_degrees(), 1) + "°", is_guess))
    };
    let (Some(now), Some(before)) = (answers.standing.with(camber), answers.before.with(camber)) else {
        return String::new();
    };
    let at = match bump.by {
        Limiter::BumpStop => ["at the ", "stop"],
        by => part_ends(by).map_or(["at the ", "first contact"], |ends| ["where the ", ends]),
    };
    let words = ["Camber going up: ", &now, " ", at[0], at[1], ", "].concat();
    if now == before { words + "same as it sits" } else { words + "as it sits " + &before }
}

/// One quantity against travel, as measured and proposed. `prefix` is that of the picture's ids.
#[inline(never)]
pub(crate) fn curve(page: Page, answers: Answers, prefix: &'static str, first: usize) -> Node {
    let chosen = Value::new(first);
    let size = Value::new((360.0, 240.0));
    let draw = move || {
        let (width_px, height_px) = size.get();
        let view = View {
            width_px,
            height_px,
            type_px: page.session.type_px(12.0),
            units: page.units(),
            prefix: prefix.to_owned(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        };
        let curves = match CURVES.get(chosen.get()) {
            Some(quantity) => over_travel(page, &answers, *quantity),
            None => over_steer(page, &answers, STEERED[chosen.get() - CURVES.len()]),
        };
        if curves.series.is_empty() {
            return Scene::message(
                "How it steers, and how far, is not stated yet: My truck, Steering",
                &view,
            );
        }
        chart(&curves, &view)
    };
    let against = |at: usize| if at < CURVES.len() { "" } else { ", against steer" };
    let option = |(at, quantity): (usize, &Quantity)| {
        el("option").attr("value", &at.to_string()).text(&(quantity.label().to_owned() + against(at)))
    };
    let last = CURVES.len() + STEERED.len() - 1;
    let choose = move |event| {
        let at = whole_number(&value_of(&event)).and_then(|at| usize::try_from(at).ok());
        chosen.set(at.unwrap_or(0).min(last));
    };
    let select = el("select")
        .children(CURVES.iter().chain(&STEERED).enumerate().map(option))
        .prop_of("value", move || JsValue::from_str(&chosen.get().to_string()))
        .on("change", choose);
    let frame = block("div", "frame").child(picture(Derived::always(draw)));
    crate::browser::size::follow(frame.element(), size);
    let read = move || match CURVES.iter().chain(&STEERED).nth(chosen.get())? {
        // As it sits the frame lies along the ground, against which it is read.
        Quantity::Caster => Some(Readable::Caster),
        other => Readable::from_key(other.key()),
    };
    block("div", "curve")
        .child(block("label", "pick").child(el("span").text("Curve")).child(select))
        .child(frame)
        .child(shifted(page, answers, read))
}

/// A quantity of the truck as measured and of each proposal, each by `points`, which is given the place of
/// a proposal in the list; its name carries the mark where `rests_on` finds a guess.
fn curves(
    page: Page,
    answers: &Answers,
    (quantity, rests_on): (Quantity, fn(Figure, &StandingSide) -> Guesses),
    points: &dyn Fn(Option<usize>) -> Option<Vec<(f64, f64)>>,
) -> Chart {
    let units = page.units();
    let names: Vec<_> = short_names(page).into_iter().map(|(_, name)| name).collect();
    let is_guess = |at: Option<usize>| {
        let standing = at.map_or_else(|| Some(answers.before.get()), |at| answers.proposed[at].get());
        let rest = standing.as_ref().and_then(|standing| standing.as_ref().as_ref().ok());
        rest.is_some_and(|rest| !rests_on(Figure::through(quantity), rest).is_empty())
    };
    let mut series = Vec::new();
    let mut add = |name: String, at: Option<usize>, style: SeriesStyle| {
        let name = marked(name, is_guess(at));
        series.extend(points(at).map(|points| Series { name, points, style }));
    };
    add("as it sits".to_owned(), None, SeriesStyle::AsMeasured);
    for (at, name) in (0..).zip(names) {
        add(name, Some(usize::from(at)), SeriesStyle::Proposal(at));
    }
    Chart {
        title: quantity.label().to_owned(),
        y_label: axis_name(quantity, units).to_owned(),
        series,
        ..Chart::default()
    }
}

fn over_travel(page: Page, answers: &Answers, quantity: Quantity) -> Chart {
    let units = page.units();
    let points = |at: Option<usize>| {
        let sweep = at.map_or(answers.sweep_before, |at| answers.sweeps[at]);
        sweep.with(|sweep| {
            let mut points = Vec::new();
            for (x, y) in sweep.as_ref()?.curve(quantity) {
                points.push((length(x, units), value(quantity, y, units)));
            }
            Some(points)
        })
    };
    Chart {
        x_label: "wheel travel from rest, bump to the right, ".to_owned() + length_name(units),
        bands: bands(page, answers),
        cursor_x: Some(length(page.session.travel_mm.get(), units)),
        ..curves(page, answers, (quantity, |figure, on| figure.of_side_may_rest_on(on)), &points)
    }
}

/// To the left is to the left, as on the slider.
fn over_steer(page: Page, answers: &Answers, quantity: Quantity) -> Chart {
    let units = page.units();
    let points = |at: Option<usize>| {
        let readings = at.map_or(answers.steered_before, |at| answers.steered[at]);
        readings.with(|readings| {
            let mut points = Vec::new();
            for gauged in readings.iter() {
                if let Some(read) = quantity.read(gauged) {
                    let steer = -page.sign() * gauged.pose.heading_rad().to_degrees();
                    points.push((steer, value(quantity, read, units)));
                }
            }
            (!readings.is_empty()).then_some(points)
        })
    };
    Chart {
        x_label: "this wheel steered, left lock to right lock, °".to_owned(),
        x_format: NumberFormat::Size,
        cursor_x: Some(-page.session.steer_rad.get().to_degrees()),
        ..curves(page, answers, (quantity, |figure, on| figure.of_side_may_rest_on_steered(on)), &points)
    }
}

fn bands(page: Page, answers: &Answers) -> Vec<drawing::Band> {
    let units = page.units();
    let edge = length(CURVE_MM, units);
    answers.travel_left.with(|left| {
        let Some(left) = left else { return Vec::new() };
        let (bump, droop) = (length(left.bump.travel_mm, units), -length(left.droop.travel_mm, units));
        let mut bands = Vec::new();
        if bump < edge {
            let what = if left.bump.by == Limiter::BumpStop { "stop" } else { thing(left.bump.by) };
            bands.push(drawing::Band { from: bump, to: edge, label: "past ".to_owned() + what });
        }
        if droop > -edge {
            bands.push(drawing::Band { from: -edge, to: droop, label: "past droop".to_owned() });
        }
        bands
    })
}

fn length(mm: f64, units: Units) -> f64 {
    match units {
        Units::Inches => mm / MM_PER_INCH,
        Units::Millimetres => mm,
    }
}

const fn length_name(units: Units) -> &'static str {
    match units {
        Units::Inches => "in",
        Units::Millimetres => "mm",
    }
}

fn value(quantity: Quantity, value: f64, units: Units) -> f64 {
    match quantity.unit() {
        Unit::Length => length(value, units),
        Unit::Angle => value.to_degrees(),
        Unit::AnglePerLength => value.to_degrees() * if units == Units::Inches { MM_PER_INCH } else { 1.0 },
        Unit::Ratio => value,
    }
}

const fn axis_name(quantity: Quantity, units: Units) -> &'static str {
    match (quantity.unit(), units) {
        (Unit::Length, Units::Inches) => "in",
        (Unit::Length, Units::Millimetres) => "mm",
        (Unit::Angle, _) => "°",
        (Unit::AnglePerLength, Units::Inches) => "°/in",
        (Unit::AnglePerLength, Units::Millimetres) => "°/mm",
        (Unit::Ratio, _) => "",
    }
}

/// The curves as numbers, at every half inch of travel.
fn table(page: Page, answers: Answers) -> Node {
    let head = move || {
        let units = page.units();
        let mut cells = el("tr").child(heading("Travel, ".to_owned() + length_name(units)));
        let is_guess = |quantity: Quantity| {
            let guesses =
                |rest: &StandingSide| !Figure::through(quantity).of_side_may_rest_on(rest).is_empty();
            answers.standing.with(|now| now.as_ref().as_ref().is_ok_and(guesses))
        };
        let name = |q: &Quantity| marked(q.label().to_owned() + ", " + axis_name(*q, units), is_guess(*q));
        for quantity in &CURVES[..4] {
            cells = cells.child(heading(name(quantity)));
        }
        cells
    };
    let body = move || {
        let units = page.units();
        answers.sweep_now.with(|sweep| {
            let mut rows = loose();
            for station in sweep.iter().flat_map(|sweep| sweep.stations.iter().step_by(5)) {
                rows = rows.child(row(station, units));
            }
            rows
        })
    };
    let table = el("table").child(el("thead").content_of(head)).child(el("tbody").content_of(body));
    moved_sideways("Table of the curves", table)
}

fn heading(words: String) -> Node {
    write(widgets::heading("col", ""), &words)
}

fn row(station: &Station, units: Units) -> Node {
    let cell = |quantity: &Quantity| {
        let read = station.gauged.as_ref().ok().and_then(|gauged| quantity.read(gauged));
        el("td").text(&read.map_or("—".to_owned(), |v| measure::signed(value(*quantity, v, units), 2)))
    };
    el("tr")
        .child(el("td").text(&measure::signed(length(station.travel_mm, units), 2)))
        .children(CURVES[..4].iter().map(cell))
}
