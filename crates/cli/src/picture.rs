//! `scrubline picture`: the sketch or a curve as an SVG file.

use crate::arguments::{Picture, Shows, ThemeChoice};
use crate::failure::Failure;
use crate::figures::Sort;
use crate::source;
use crate::telling::{Teller, rear_in_words};
use crate::trucks::{self, Choice, Chosen, Standing};
use drawing::{
    Aspect, Caption, Chart, Ends, Other, SKETCHED, Scene, Series, SeriesStyle, Shown, Sketch, Theme, Units,
    View, Zoom, captioned, chart, front_view, marked, view_of, whole_truck, write_svg,
};
use linkage::{Pose, Vector3};
use std::io::Write;
use study::{Figure, IF_REAR_STAYS, Quantity, Span, StandingSide, Unit, clearances, sweep, travel_left};
use truck::{ChangeKind, Design, Side};

/// Half of the travel that a curve is drawn over, mm: three inches.
const CURVE_MM: f64 = 76.2;
/// Stations of a curve.
const STATIONS: u32 = 61;

/// Writes the picture.
pub(crate) fn run(asked: &Picture, out: &mut impl Write) -> Result<(), Failure> {
    let shared = source::read(asked.asked.design.as_deref())?;
    let design = &shared.design;
    let choice = trucks::one(&shared, asked.asked.proposal.as_deref())?;
    let side = asked.one.side();
    let units = asked.units.units();
    let place = |choice: Choice| {
        trucks::on_side(format!("{}, {}", trucks::title(design), choice.name(design, units)), side)
    };
    let standing = Standing::of(design, choice, side).map_err(|why| Failure::at(place(choice), why))?;
    let before = Standing::of(design, Choice::AsMeasured, side)
        .map_err(|why| Failure::at(place(Choice::AsMeasured), why))?;
    let width_px = f64::from(asked.width);
    let view = View {
        width_px,
        height_px: f64::from(asked.height.unwrap_or(asked.width * 7 / 10)),
        // Legible at a thread's width: a fortieth of the picture's.
        type_px: (width_px / 42.0).clamp(12.0, 40.0),
        units,
        prefix: "picture".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let travel_mm = asked.travel.map_or(shared.opening.travel_mm, |travel| travel.mm(asked.units.units()));
    let scene = match asked.shows {
        Shows::Curve => curve(design, side, asked.quantity, &view),
        shows => {
            let draw = match shows {
                Shows::Side => |sketch: &Sketch<'_>, view: &View| view_of(Aspect::Side, sketch, view),
                Shows::Top => |sketch: &Sketch<'_>, view: &View| view_of(Aspect::Top, sketch, view),
                Shows::Whole => |sketch: &Sketch<'_>, view: &View| whole_truck(Ends::Both, sketch, view),
                Shows::Rear => |sketch: &Sketch<'_>, view: &View| whole_truck(Ends::Rear, sketch, view),
                _ => front_view,
            };
            let scene = sketch(design, choice, &standing, &before.rest, draw, travel_mm, &view)
                .map_err(|why| Failure::at(place(choice), why))?;
            let caption = caption(design, choice, &standing, &before, asked.units.units());
            captioned(scene, &caption, view.type_px)
        }
    };
    let theme = match asked.theme {
        ThemeChoice::Light => Theme::Light,
        ThemeChoice::Dark => Theme::Dark,
    };
    writeln!(out, "{}", write_svg(&scene, theme))?;
    Ok(())
}

/// The figures under a picture.
const KEY_ROWS: [Figure; 8] = [
    Figure::FRAME_HEIGHT,
    Figure::BUMP,
    Figure::BUMP_ENDED_BY,
    Figure::DROOP,
    Figure::CAMBER,
    Figure::CASTER_GROUND,
    Figure::ROLL_CENTRE,
    Figure::RIDE_FREQUENCY,
];

/// What stands under a picture: as measured beside what is drawn.
fn caption(design: &Design, choice: Choice, standing: &Standing, before: &Standing, units: Units) -> Caption {
    let mut columns = vec![Choice::AsMeasured.name(design, units)];
    let mut trucks = vec![before];
    if choice != Choice::AsMeasured {
        columns.push(choice.name(design, units));
        trucks.push(standing);
    }
    let tellers: Vec<_> = trucks.iter().map(|truck| Teller::new(truck, units, &KEY_ROWS)).collect();
    let mut rows = Vec::new();
    for figure in KEY_ROWS {
        let told: Vec<_> = tellers.iter().map(|teller| teller.tell(figure)).collect();
        let label = told[0].label.trim().to_owned();
        rows.push((label, told.iter().map(|answer| answer.said(units)).collect()));
        if figure == Figure::CASTER_GROUND && choice != Choice::AsMeasured {
            let rear = trucks.iter().map(|truck| rear_in_words(&truck.rest).to_owned());
            rows.push(("if the rear".to_owned(), rear.collect()));
        }
    }
    let title = format!("{}: {}", trucks::title(design), choice.name(design, units));
    let title = trucks::on_side(title, standing.rest.side());
    Caption { title, columns, rows }
}

fn sketch(
    design: &Design,
    choice: Choice,
    standing: &Standing,
    before: &StandingSide,
    draw: fn(&Sketch<'_>, &View) -> Scene,
    travel_mm: f64,
    view: &View,
) -> Result<Scene, String> {
    let rest = &standing.rest;
    let at = |rest: &StandingSide| -> Result<Pose, String> {
        rest.at_travel(travel_mm).map_err(|why| format!("{why}."))
    };
    let pose = at(rest)?;
    let gaps = clearances(rest, &pose);
    let left = travel_left(rest);
    let was = before.at_travel(0.0).map_err(|why| format!("{why}."))?;
    let beneath = Shown { rest: before, pose: &was, gaps: &[], travel_left: None, travel_mm: 0.0 };
    let proposal = choice.proposal().and_then(|id| design.proposal(id));
    let drop_mm = proposal
        .and_then(|found| found.change(ChangeKind::DroppedSpindle, None))
        .and_then(|change| change.values()[0])
        .unwrap_or(0.0);
    let beside: Vec<(usize, String, StandingSide, Pose)> = design
        .proposals
        .iter()
        .enumerate()
        .filter(|(_, found)| choice.proposal().is_some_and(|id| id != found.id))
        .filter_map(|(place, found)| {
            let other = Choice::Proposal(found.id);
            let rest = other.rest(design, standing.rest.side()).ok()?;
            let pose = at(&rest).ok()?;
            Some((place, other.short_name(design, view.units), rest, pose))
        })
        .collect();
    let others: Vec<Other<'_>> = beside
        .iter()
        .map(|(place, name, rest, pose)| Other {
            name,
            place: *place,
            shown: Shown { rest, pose, gaps: &[], travel_left: None, travel_mm },
        })
        .collect();
    let shown = Shown { rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
    let figures = SKETCHED.to_vec();
    let marks = standing.marks(figures.clone());
    // What was found holds at rest; elsewhere all that it may rest on.
    let guessed = |figure: &Figure| {
        let found = if travel_mm == 0.0 { marks.rests_on(*figure) } else { figure.of_side_may_rest_on(rest) };
        !found.is_empty()
    };
    let guessed: Vec<_> = figures.into_iter().filter(guessed).collect();
    let before = proposal.is_some().then_some(beneath);
    let sketch = Sketch { before, others: &others, drop_mm, guessed: &guessed, ..Sketch::alone(shown) };
    Ok(draw(&sketch, view))
}

/// A quantity against travel: as measured, and every proposal that stands.
fn curve(design: &Design, side: Side, quantity: Quantity, view: &View) -> Scene {
    let units = view.units;
    let length_name = match units {
        Units::Inches => "in",
        Units::Millimetres => "mm",
    };
    let y_label = match quantity.unit() {
        Unit::Length => length_name.to_owned(),
        Unit::Angle => "°".to_owned(),
        Unit::AnglePerLength => format!("°/{length_name}"),
        Unit::Ratio => String::new(),
    };
    let sort = Sort::from(quantity.unit());
    let span = Span { from_mm: -CURVE_MM, to_mm: CURVE_MM, count: STATIONS };
    let proposals = design.proposals.iter().enumerate();
    let all = std::iter::once((Choice::AsMeasured, SeriesStyle::AsMeasured)).chain(proposals.map(
        |(at, proposal)| {
            (Choice::Proposal(proposal.id), SeriesStyle::Proposal(u8::try_from(at).unwrap_or(0)))
        },
    ));
    let series = all.filter_map(|(choice, style)| {
        let rest = choice.rest(design, side).ok()?;
        let points = sweep(&rest, &span, Vector3::zeros())
            .curve(quantity)
            .map(|(x, y)| (Sort::Length.in_units(x, units), sort.in_units(y, units)))
            .collect();
        let mut name = choice.short_name(design, units);
        if quantity.is_against_ground() && !rest.rear_is_known() {
            name = format!("{name}, {IF_REAR_STAYS}");
        }
        let is_guess = !Figure::through(quantity).of_side_may_rest_on(&rest).is_empty();
        Some(Series { name: marked(name, is_guess), points, style })
    });
    chart(
        &Chart {
            title: trucks::on_side(quantity.label().to_owned(), side),
            x_label: format!("wheel travel from rest, bump to the right, {length_name}"),
            y_label,
            series: series.collect(),
            ..Chart::default()
        },
        view,
    )
}
