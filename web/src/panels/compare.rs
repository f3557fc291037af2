//! The proposals beside each other: their list, and what each gives and takes.

use crate::derive::{Answers, Standing};
use crate::dom::{Node, block, button, el, words};
use crate::format::{lower_or_higher, readout_style};
use crate::signals::Derived;
use crate::state::{Page, Selected};
use crate::widgets::text_field;
use drawing::{Units, harder_in_words, hold_in_words};
use measure::{MM_PER_INCH, print_angle, print_length, signed};
use study::{
    IF_REAR_STAYS, Pair, Question, Reading, Rest, TravelLeft, clearance, loading, rests_on_guess, travel_left,
};
use truck::{Edit, LoadCase, MOST_PROPOSALS, ProposalId, Side};

/// The panel.
#[inline(never)]
pub(crate) fn compare(page: Page, answers: Answers) -> Node {
    let shown = page.store.shown();
    let ids = Derived::new(move || {
        shown.with(|design| design.proposals.iter().map(|found| found.id).collect::<Vec<_>>())
    });
    let cards = move || ids.get().into_iter().map(|id| card(page, id)).collect();
    let add = button("Add a proposal", move || super::parts::add_proposal(page))
        .flag("disabled", move || ids.with(|ids| ids.len() >= MOST_PROPOSALS));
    block("section", "panel")
        .attr("aria-label", "Compare")
        .child(el("h2").text_of(move || {
            let right = page.session.side.get() == Side::Right;
            if right { "Side by side, right wheel" } else { "Side by side" }.to_owned()
        }))
        .child(table(page, answers))
        .child(words("words-signs"))
        .child(el("h3").text("Proposals"))
        .child(block("div", "cards").content_of(cards))
        .child(add)
}

/// One proposal of the list: its name, and what can be done with it as a whole.
fn card(page: Page, id: ProposalId) -> Node {
    let shown = page.store.shown();
    let name =
        move || shown.with(|design| design.proposal(id).map(|found| found.name.clone()).unwrap_or_default());
    let place = move || shown.with(|design| design.proposals.iter().position(|found| found.id == id));
    let copy = move || {
        let copied = page.store.committed_now().free_id();
        let name = name() + " 2";
        page.edit(&Edit::CopyProposal(id, name));
        // Refused, it is not there, and what was selected stays.
        if page.store.committed_now().proposal(copied).is_some() {
            page.session.selected.set(Selected::Proposal(copied));
        }
    };
    let remove = move || {
        page.edit(&Edit::RemoveProposal(id));
        page.session.say("The proposal was removed. Undo brings it back.");
    };
    let on_it = move || page.selected() == Selected::Proposal(id);
    let to = move |place: usize| page.edit(&Edit::MoveProposal(id, place));
    let spoken = move |what: &'static str| move || Some(what.to_owned() + " " + &name());
    let row = block("div", "row")
        .child(
            button("Show", move || page.session.selected.set(Selected::Proposal(id)))
                .attr_of("aria-label", spoken("Show"))
                .attr_of("aria-pressed", move || Some(on_it().to_string())),
        )
        .child(
            button("↑", move || {
                to(place().unwrap_or(0).saturating_sub(1));
            })
            .attr_of("aria-label", spoken("Move up:"))
            .flag("disabled", move || place() == Some(0)),
        )
        .child(
            button("Duplicate", copy)
                .attr_of("aria-label", spoken("Duplicate"))
                .flag("disabled", move || shown.with(|design| design.proposals.len() >= MOST_PROPOSALS)),
        )
        .child(button("Remove", remove).attr("class", "quiet").attr_of("aria-label", spoken("Remove")));
    let rename = move |name| page.edit(&Edit::RenameProposal(id, name));
    block("article", "card")
        .class_if("chosen", on_it)
        .child(text_field("Name", "input", "60", name, rename))
        .child(row)
}

/// A number of the table, and how it differs from as measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Cell {
    /// The number.
    pub(crate) value: String,
    /// The difference, or what is to be said of it.
    pub(crate) note: String,
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    /// What the numbers are.
    pub(crate) name: String,
    /// As measured, then each proposal.
    pub(crate) cells: Vec<Cell>,
}

/// The whole table, with the names of its columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Sheet {
    /// As measured, then each proposal.
    pub(crate) columns: Vec<String>,
    /// Its rows.
    pub(crate) rows: Vec<Row>,
}

/// What each proposal gives and takes.
#[inline(never)]
pub(crate) fn sheet(page: Page, answers: &Answers) -> Sheet {
    let units = page.units();
    let mut columns = vec!["As measured".to_owned()];
    let mut trucks: Vec<Option<Standing>> = vec![Some(answers.before.get())];
    let names = page
        .store
        .shown()
        .with(|design| design.proposals.iter().map(|proposal| proposal.name.clone()).collect::<Vec<_>>());
    for (name, standing) in names.into_iter().zip(&answers.proposed) {
        columns.push(name);
        trucks.push(standing.get());
    }
    let seen: Vec<Option<Seen<'_>>> = trucks
        .iter()
        .map(|truck| Seen::of(truck.as_ref().and_then(|standing| standing.as_ref().as_ref().ok())?))
        .collect();
    let row = |figure: &Figure| Row {
        name: (figure.name)(units),
        cells: seen
            .iter()
            .map(|one| match (one, &seen[0]) {
                (Some(now), Some(before)) => (figure.cell)(now, before, units),
                _ => Cell { value: "—".to_owned(), note: "cannot stand".to_owned() },
            })
            .collect(),
    };
    Sheet { columns, rows: FIGURES.iter().map(row).collect() }
}

fn table(page: Page, answers: Answers) -> Node {
    let sheet = Derived::new(move || sheet(page, &answers));
    let shown = page.store.shown();
    // The column of what is on the sketch.
    let chosen = move || match page.selected() {
        Selected::AsMeasured => 0,
        Selected::Proposal(id) => shown
            .with(|design| design.proposals.iter().position(|found| found.id == id).map_or(0, |at| at + 1)),
    };
    let content = move || {
        let (sheet, chosen) = (sheet.get(), chosen());
        let mark = |node: Node, at: usize| if at == chosen { node.attr("class", "chosen") } else { node };
        let span = sheet.columns.len().to_string();
        let head = sheet
            .columns
            .iter()
            .enumerate()
            .map(|(at, name)| mark(el("th").attr("scope", "col").text(name), at));
        let group = |row: &Row| {
            let cells = row.cells.iter().enumerate().map(|(at, cell)| {
                mark(el("td").child(el("b").text(&cell.value)).child(el("small").text(&cell.note)), at)
            });
            let name = el("th").attr("scope", "rowgroup").attr("colspan", &span).text(&row.name);
            el("tbody").child(el("tr").child(name)).child(el("tr").children(cells))
        };
        let mut parts = vec![el("thead").child(el("tr").children(head))];
        parts.extend(sheet.rows.iter().map(group));
        parts
    };
    block("div", "scroll")
        .attr("tabindex", "0")
        .attr("role", "region")
        .attr("aria-label", "What each gives and takes")
        .child(block("table", "compare").content_of(content))
}

/// A truck at rest, looked at once for every row.
struct Seen<'a> {
    rest: &'a Rest,
    reading: Reading,
    left: TravelLeft,
}

impl<'a> Seen<'a> {
    fn of(rest: &'a Rest) -> Option<Self> {
        let reading = Reading::of(rest, rest.pose).ok()?;
        Some(Self { rest, reading, left: travel_left(rest) })
    }

    fn is_guess(&self, question: Question) -> bool {
        rests_on_guess(&self.rest.fitted, question)
    }
}

/// A row: what it is called, and its number.
struct Figure {
    name: fn(Units) -> String,
    cell: fn(&Seen<'_>, &Seen<'_>, Units) -> Cell,
}

const FIGURES: &[Figure] = &[
    Figure {
        name: |_| "Ride height, frame".to_owned(),
        cell: |now, _, units| {
            let moved = now.rest.ground_mm;
            let guess = moved.abs() > 0.05 && now.is_guess(Question::RideHeight);
            let value = print_length(now.rest.ride_height_mm(), readout_style(units));
            Cell { value: marked(value, guess), note: lower_or_higher(moved, units) }
        },
    },
    Figure {
        name: |_| "Bump travel left".to_owned(),
        cell: |now, before, units| {
            let of = |seen: &Seen<'_>| seen.left.bump.travel_mm;
            let cell = longer(of(now), of(before), ("less", "more"), units);
            Cell { value: marked(cell.value, now.is_guess(Question::Stops)), ..cell }
        },
    },
    Figure {
        name: |_| "which ends at".to_owned(),
        cell: |now, _, _| Cell { value: String::new(), note: now.left.bump.by.to_string() },
    },
    Figure {
        name: |_| "Droop travel left".to_owned(),
        cell: |now, before, units| {
            longer(now.left.droop.travel_mm, before.left.droop.travel_mm, ("less", "more"), units)
        },
    },
    Figure {
        name: |_| "Camber".to_owned(),
        cell: |now, before, _| {
            let cell = turned(now.reading.attitude.camber_rad, before.reading.attitude.camber_rad);
            Cell { value: marked(cell.value, now.is_guess(Question::Camber)), ..cell }
        },
    },
    Figure {
        name: |_| "Caster, against the ground".to_owned(),
        cell: |now, before, _| {
            let of = |seen: &Seen<'_>| seen.rest.attitude_on_ground().caster_rad;
            let mut cell = turned(of(now), of(before));
            if !now.rest.rear_is_stated() {
                cell.note = cell.note + ", " + IF_REAR_STAYS;
            }
            Cell { value: marked(cell.value, now.is_guess(Question::Caster)), ..cell }
        },
    },
    Figure {
        name: |units| "Camber gained in ".to_owned() + bump(units) + " of bump",
        cell: |now, before, units| {
            turned(
                now.reading.rates.camber_rad * bump_mm(units),
                before.reading.rates.camber_rad * bump_mm(units),
            )
        },
    },
    Figure {
        name: |units| "Bump steer: toe in ".to_owned() + bump(units) + " of bump",
        cell: |now, before, units| {
            let cell = turned(
                now.reading.rates.toe_rad * bump_mm(units),
                before.reading.rates.toe_rad * bump_mm(units),
            );
            Cell { value: marked(cell.value, now.is_guess(Question::Toe)), ..cell }
        },
    },
    Figure {
        name: |_| "Roll centre above the ground".to_owned(),
        cell: |now, before, units| match (
            now.reading.centre.roll_centre_mm,
            before.reading.centre.roll_centre_mm,
        ) {
            (Some(now), Some(before)) => longer(now, before, ("lower", "higher"), units),
            _ => Cell { value: "—".to_owned(), note: "at infinity".to_owned() },
        },
    },
    Figure {
        name: |_| "Track".to_owned(),
        cell: |now, before, units| {
            let of = |seen: &Seen<'_>| 2.0 * seen.reading.attitude.contact.y;
            longer(of(now), of(before), ("narrower", "wider"), units)
        },
    },
    Figure {
        name: |_| "Tire to frame, at rest".to_owned(),
        cell: |now, before, units| room(Pair::TireRail, now, before, units),
    },
    Figure {
        name: |_| "Tire to fender, at rest".to_owned(),
        cell: |now, before, units| room(Pair::TireFender, now, before, units),
    },
    Figure {
        name: |_| "Ride frequency".to_owned(),
        cell: |now, before, _| {
            let (hz, was) = (now.rest.ride_frequency_hz(), before.rest.ride_frequency_hz());
            let value = measure::fixed(hz, 2) + " Hz";
            let same = (hz - was).abs() < 0.005;
            let words = if hz > was { " stiffer" } else { " softer" };
            let note =
                if same { AS_MEASURED.to_owned() } else { measure::fixed((hz - was).abs(), 2) + words };
            Cell { value, note }
        },
    },
    Figure {
        name: |_| "Ride height with the driver".to_owned(),
        cell: |now, before, units| loaded(LoadCase::Driver, now, before, units),
    },
    Figure {
        name: |_| "Ride height with the load in the bed".to_owned(),
        cell: |now, before, units| loaded(LoadCase::Bed, now, before, units),
    },
    Figure {
        name: |_| "Spring at the bump stop, of what it may bear".to_owned(),
        cell: |now, before, _| {
            let bump = loading(now.rest).bump;
            let share = bump.and_then(|bump| bump.share);
            let value = share.map_or("—".to_owned(), |share| measure::fixed(share * 100.0, 0) + " %");
            let note = match share {
                Some(share) if share > 1.0 => "too much".to_owned(),
                Some(_) => String::new(),
                // What it may bear is not stated: held against as it sits.
                None => {
                    let both = bump.zip(loading(before.rest).bump);
                    let harder = both.and_then(|(now, before)| now.harder_than(&before));
                    harder.map_or("not stated".to_owned(), harder_in_words)
                }
            };
            Cell { value, note }
        },
    },
    Figure {
        name: |_| "Spring at full droop".to_owned(),
        cell: |now, _, units| {
            let work = loading(now.rest);
            let loose = work.droop.is_some_and(|droop| droop.is_loose());
            let plain = || if loose { "loose" } else { "holds" }.to_owned();
            let note = work.hold.map_or_else(plain, |hold| hold_in_words(&hold, units));
            Cell { value: String::new(), note }
        },
    },
];

const AS_MEASURED: &str = "as measured";

/// The height under another load.
fn loaded(case: LoadCase, now: &Seen<'_>, before: &Seen<'_>, units: Units) -> Cell {
    let of = |seen: &Seen<'_>| Some(Rest::of(seen.rest.fitted.under(case)?).ok()?.ride_height_mm());
    match (of(now), of(before)) {
        (Some(now), Some(before)) => longer(now, before, ("lower", "higher"), units),
        _ => Cell { value: "—".to_owned(), note: "load not stated".to_owned() },
    }
}

/// What a rate at rest is spread over.
const fn bump(units: Units) -> &'static str {
    match units {
        Units::Inches => "an inch",
        Units::Millimetres => "25 mm",
    }
}

const fn bump_mm(units: Units) -> f64 {
    match units {
        Units::Inches => MM_PER_INCH,
        Units::Millimetres => 25.0,
    }
}

/// What rests on a guess is marked so.
fn marked(value: String, guess: bool) -> String {
    if guess { "~ ".to_owned() + &value } else { value }
}

fn longer(now_mm: f64, before_mm: f64, words: (&str, &str), units: Units) -> Cell {
    let style = readout_style(units);
    let by = print_length((now_mm - before_mm).abs(), style);
    let note = if by == print_length(0.0, style) {
        AS_MEASURED.to_owned()
    } else {
        by + " " + if now_mm < before_mm { words.0 } else { words.1 }
    };
    Cell { value: print_length(now_mm, style), note }
}

fn turned(now_rad: f64, before_rad: f64) -> Cell {
    let by = (now_rad - before_rad).to_degrees();
    let note = if by.abs() < 0.005 { AS_MEASURED.to_owned() } else { signed(by, 2) + "°" };
    Cell { value: print_angle(now_rad, 2), note }
}

fn room(pair: Pair, now: &Seen<'_>, before: &Seen<'_>, units: Units) -> Cell {
    let of = |seen: &Seen<'_>| clearance(seen.rest, &seen.rest.pose, pair).map(|gap| gap.distance_mm);
    match (of(now), of(before)) {
        (Some(here), Some(there)) => {
            let cell = longer(here, there, ("less", "more"), units);
            let note = if here <= 0.0 { "they meet".to_owned() } else { cell.note };
            Cell { value: marked(cell.value, now.is_guess(Question::Room(pair))), note }
        }
        _ => Cell { value: "—".to_owned(), note: String::new() },
    }
}
