//! The sheet: one printed page of a proposal, or with *Bolts up* open of its work. It is built when the browser
//! prints.

use crate::browser::address;
use crate::derive::{Answers, selected_name, short_names};
use crate::dom::{Node, block, el, loose, words};
use crate::format::readout_style;
use crate::panels::compare;
use crate::panels::parts::{REAR_DOWN, said};
use crate::panels::rear::told;
use crate::panels::sides::differ;
use crate::panels::work;
use crate::signals::Derived;
use crate::sketch::draw;
use crate::state::{Page, PaneHeight, Panel};
use crate::told::{said as said_of, write};
use crate::widgets::{heading, picture, table};
use drawing::{Aspect, Scene, View, Zoom, each_in_words};
use measure::{fixed, print_length};
use sharing::{link, to_code};
use study::{Figure, Guesses};
use truck::{Overlay, Side};

/// The picture on paper, mm at most.
const PAPER_MM: (f64, f64) = (168.0, 90.0);
/// Scales that people have a ruler for.
const SCALES: [f64; 6] = [5.0, 6.0, 8.0, 10.0, 12.0, 16.0];
/// Clearances that are listed.
const LISTED: usize = 6;
/// Answers of the rear that are listed where nothing is thought of them: how it stands and what is left of its travel.
const REAR_LISTED: [&str; 6] =
    ["rear_frame_height", "rear_comes_down", "nose_down", "bed_sinks", "rear_bump_bed", "rear_bump"];

/// What is on it.
#[inline(never)]
pub(crate) fn printed(page: Page, answers: Answers) -> Node {
    let session = page.session;
    if session.panel.get() == Panel::BoltUp && session.pane_height.get() != PaneHeight::Lowered {
        return work::printed(page);
    }
    let design = page.store.committed();
    let view = View {
        width_px: 720.0,
        height_px: 380.0,
        type_px: 12.0,
        units: page.units(),
        prefix: "sheet".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    let scene = Derived::always(move || draw(Aspect::Front, page, &answers, &view));
    let (scale, style) = scene.with(scaled);
    let title = if design.title.is_empty() { "Scrubline".to_owned() } else { design.title.clone() };
    let is_left = differ(page) && page.session.side.get() == Side::Left;
    let side = if is_left { ", left side" } else { "" };
    let head = el("h1").text(&[&title, ": ", &selected_name(page), side].concat());
    let caption = "Front view, scale 1:".to_owned() + &fixed(scale, 0);
    let figure = el("figure")
        .child(block("div", "drawn").attr("style", &style).child(picture(scene)))
        .child(el("figcaption").text(&caption));
    let overlay = page.selected().proposal().map_or(Overlay::NOTHING, |id| design.overlay(id));
    let units = page.units();
    let line = |said: &String| write(el("li"), said);
    let mut changes = each_in_words(&overlay, units);
    let down = |mm| [REAR_DOWN, " ", &print_length(mm, readout_style(units))].concat();
    changes.extend(overlay.rear_down_mm.map(down));
    let parts = block("div", "parts").child(el("h2").text("Changes")).child(if changes.is_empty() {
        el("p").text("None: the truck as it sits.")
    } else {
        el("ul").children(changes.iter().map(line))
    });
    let room = answers.clearances.get();
    let now = answers.standing.get();
    let rests_on =
        |figure: Figure| now.as_ref().as_ref().map_or(Guesses::NONE, |rest| figure.of_side_may_rest_on(rest));
    let nearest = room.as_ref().map(|room| room.nearest_first()).unwrap_or_default();
    let near = block("div", "near").child(el("h2").text("Nearest, over travel and steer")).child(
        el("ul").children(nearest.into_iter().take(LISTED).map(|found| {
            let figure = Figure::least_room(found.pair);
            let told = figure.told_as(found.gap.distance_mm, rests_on(figure));
            write(el("li"), &(found.pair.label().to_owned() + ": " + &said_of(&told, units)))
        })),
    );
    let code = to_code(&page.shared());
    let at = address::public_page().map_or_else(|| code.clone(), |at| link(&at, &code));
    // The rear goes on below the two lists, beside the code, where there is room for it.
    let mut columns = block("div", "columns").child(parts).child(near).child(el("qr-code").attr("text", &at));
    let rear = told(page, answers);
    let mut rows = Vec::new();
    for (key, [name, now, _]) in &rear.rows {
        if REAR_LISTED.contains(key) && rear.judged.iter().all(|(judged, _)| judged != key) {
            rows.push([name, ": ", now].concat());
        }
    }
    if !rows.is_empty() {
        columns = columns.child(write(block("p", "rear"), &(rows.join("; ") + ".")));
    }
    let judged: Vec<_> = rear.judged.iter().map(|(_, said)| said.as_str()).collect();
    if !judged.is_empty() {
        columns = columns.child(write(block("p", "rear judged"), &judged.join(" ")));
    }
    let mut all = loose()
        .child(head)
        .child(said(page, answers))
        .child(figure)
        .child(numbers(page, &answers))
        .child(columns);
    if !design.note.is_empty() {
        all = all.child(block("p", "note").text(&design.note));
    }
    all.child(words("words-sheet")).child(block("p", "link").text(&at))
}

/// What each proposal gives and takes, a line for each number.
fn numbers(page: Page, answers: &Answers) -> Node {
    let compared = compare::compared(page, answers);
    let cell = |cell: &compare::Cell| {
        let said = match (cell.value.is_empty(), cell.note == "as it sits") {
            (true, _) | (false, true) => cell.said(),
            _ if cell.note.is_empty() => cell.said(),
            (false, false) => [&cell.said(), " (", &cell.note, ")"].concat(),
        };
        write(el("td"), &said)
    };
    let mut rows = loose();
    for row in &compared.rows {
        rows = rows.child(el("tr").child(heading("row", &row.name)).children(row.cells.iter().map(cell)));
    }
    // The parts are listed above: in the head of a column there is no room for all of them.
    let names = short_names(page);
    let mut columns = vec!["", &compared.columns[0]];
    for (_, name) in &names {
        columns.push(name);
    }
    table(&columns, rows)
}

/// The least scale at which the picture fits its place on paper, and its size there as a style.
fn scaled(scene: &Scene) -> (f64, String) {
    let px_per_mm = scene.transform.px_per_mm();
    let (wide, high) = (scene.width_px / px_per_mm, scene.height_px / px_per_mm);
    let fits = |scale: &f64| wide / scale <= PAPER_MM.0 && high / scale <= PAPER_MM.1;
    let scale = SCALES.into_iter().find(fits).unwrap_or(20.0);
    let style = ["width: ", &fixed(wide / scale, 2), "mm; height: ", &fixed(high / scale, 2), "mm"].concat();
    (scale, style)
}
