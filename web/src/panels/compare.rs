//! The proposals beside each other: their list, and what each gives and takes.

use crate::derive::{Answers, Standing, name_of, proposal_names};
use crate::dom::{Node, block, button, el, loose, words};
use crate::format::readout_style;
use crate::panels::beside::answered;
use crate::panels::parts::name_field;
use crate::panels::read_off::{in_place, measured};
use crate::signals::{Derived, Value};
use crate::state::{Page, Panel, Selected};
use crate::told::{
    COMPARED, FENDER, Known, RAIL, Ranged, Spread, bump_mm, known_of, model_says, rests_on, said, spread_of,
    write,
};
use crate::widgets::{heading, moved_sideways};
use drawing::{
    CANNOT_TELL, Units, harder_in_words, is_lost, marked, next_reading_in_words, preload_in_words,
    range_in_words, share_in_words, without_unit,
};
use measure::{fixed, print_length, signed};
use study::{Clearances, Figure, IF_REAR_STAYS, Judged, Sort, StandingSide, Studied, Studies as _, Told};
use truck::{Edit, MOST_PROPOSALS, ProposalId, Readable, Side};

/// The panel.
#[inline(never)]
pub(crate) fn compare(page: Page, answers: Answers) -> Node {
    let shown = page.store.shown();
    let ids = Derived::new(move || {
        shown.with(|design| design.proposals.iter().map(|found| found.id).collect::<Vec<_>>())
    });
    let cards = move || loose().children(ids.get().into_iter().map(|id| card(page, id)));
    let add = button("Add a plan", move || super::parts::add_proposal(page))
        .flag("disabled", move || ids.with(|ids| ids.len() >= MOST_PROPOSALS));
    block("section", "panel")
        .attr("aria-label", "Compare")
        .child(el("h2").text_of(move || {
            let right = page.session.side.get() == Side::Right;
            if right { "Side by side, right wheel" } else { "Side by side" }.to_owned()
        }))
        .child(table(page, answers))
        .child(block("div", "row").flag("hidden", move || answered(page).is_empty()).child(
            button("Send my answer", move || page.session.turn_to(Panel::Share)).attr("class", "primary"),
        ))
        .child(words("words-signs"))
        .child(el("h3").text("Plans"))
        .child(block("div", "cards").content_of(cards))
        .child(add)
}

/// One proposal of the list: its name, and what can be done with it as a whole.
fn card(page: Page, id: ProposalId) -> Node {
    let shown = page.store.shown();
    let name = move || name_of(page, id);
    let place = move || shown.with(|design| design.proposals.iter().position(|found| found.id == id));
    let copy = move || {
        let own = shown.with(|design| design.proposal(id).map(|found| found.name.clone()));
        let name = own.filter(|own| !own.is_empty()).map_or_else(String::new, |own| own + " 2");
        page.copy(id, name);
    };
    let remove = move || page.edit_and_say(&Edit::RemoveProposal(id), Some("The plan was removed."));
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
    block("article", "card").class_if("chosen", on_it).child(name_field(page, id)).child(row)
}

/// A number of the table, and how it differs from as measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Cell {
    /// The number.
    pub(crate) value: String,
    /// How far off it may be.
    pub(crate) spread: String,
    /// The difference, or what is to be said of it.
    pub(crate) note: String,
}

impl Cell {
    /// The number with how far off it may be, or what is said in its place.
    pub(crate) fn said(&self) -> String {
        match (self.value.is_empty(), self.spread.is_empty()) {
            (true, true) => self.note.clone(),
            (true, false) => [&self.note, ", ", &self.spread].concat(),
            (false, true) => self.value.clone(),
            (false, false) if self.spread.starts_with('±') => [&self.value, " ", &self.spread].concat(),
            (false, false) => [&self.value, " (", &self.spread, ")"].concat(),
        }
    }
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    /// What the numbers are.
    pub(crate) name: String,
    /// As measured, then each proposal.
    pub(crate) cells: Vec<Cell>,
    /// What reading would narrow the truck's own number most; `None` where none does by much.
    pub(crate) next: Option<(Readable, String)>,
}

/// The whole table, with the names of its columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Compared {
    /// As measured, then each proposal.
    pub(crate) columns: Vec<String>,
    /// Its rows.
    pub(crate) rows: Vec<Row>,
}

/// What each proposal gives and takes.
#[inline(never)]
pub(crate) fn compared(page: Page, answers: &Answers) -> Compared {
    let mut columns = vec!["As it sits".to_owned()];
    let mut trucks: Vec<Option<Standing>> = vec![Some(answers.before.get())];
    for ((_, name), standing) in proposal_names(page).into_iter().zip(&answers.proposed) {
        columns.push(name);
        trucks.push(standing.get());
    }
    let mut stood: Vec<Option<&StandingSide>> = Vec::new();
    for truck in &trucks {
        stood.push(truck.as_ref().and_then(|standing| standing.as_ref().as_ref().ok()));
    }
    Compared { columns, rows: answers.known.with(|known| rows(&stood, known, page.units())) }
}

fn table(page: Page, answers: Answers) -> Node {
    let compared = Derived::new(move || compared(page, &answers));
    let shown = page.store.shown();
    // The column of what is on the sketch.
    let chosen = move || match page.selected() {
        Selected::AsMeasured => 0,
        Selected::Proposal(id) => shown
            .with(|design| design.proposals.iter().position(|found| found.id == id).map_or(0, |at| at + 1)),
    };
    let mark = |node: Node, is_chosen: bool| if is_chosen { node.attr("class", "chosen") } else { node };
    let head = move || {
        let chosen = chosen();
        let name = |(at, name): (usize, &String)| mark(heading("col", name), at == chosen);
        compared.with(|compared| loose().children(compared.columns.iter().enumerate().map(name)))
    };
    let span = move || Some(compared.with(|compared| compared.columns.len().to_string()));
    let open = Value::new(None);
    // Each row stays as long as the table does: a field that is open in it keeps the cursor.
    let group = |at: usize, figure: Figure| {
        let name = move || compared.with(|compared| compared.rows[at].name.clone());
        let cells = move || {
            let chosen = chosen();
            let cell = |(at, cell): (usize, &Cell)| {
                let note = write(el("small"), &cell.note);
                let spread = block("small", "spread").text(&cell.spread);
                let told = el("td").child(write(el("b"), &cell.value));
                let told = match (figure.sort(), cell.value.is_empty()) {
                    // Words are the note, and how often they are so stands under them.
                    (Sort::Words, _) => told.child(note).child(spread),
                    // What is said in place of a number is not off by so much.
                    (_, true) => told.child(note),
                    (_, false) => told.child(spread).child(note),
                };
                mark(told, at == chosen)
            };
            compared.with(|compared| loose().children(compared.rows[at].cells.iter().enumerate().map(cell)))
        };
        // What a load does to it is no reading of the truck as it sits.
        let of = figure.readable().filter(|of| Figure::of_reading(*of) == figure);
        let field = move || {
            let Some(of) = open.get().filter(|_| open.get() == of) else { return loose() };
            el("td").attr_of("colspan", span).child(in_place(page, answers, of))
        };
        // The reading is of the truck as it sits, whichever plan is on the sketch.
        let next = move || {
            let Some((of, words)) = compared.with(|compared| compared.rows[at].next.clone()) else {
                return loose();
            };
            let press = move || {
                page.session.turn_to(Panel::Measure);
                page.session.to_read.set(Some(of));
            };
            let spoken = [&figure.label(), ": ", &words].concat();
            let button = button(&words, press).attr("class", "reads").attr("aria-label", &spoken);
            el("td").attr_of("colspan", span).child(button)
        };
        let head = el("th").attr("scope", "rowgroup").attr_of("colspan", span);
        let head = head.child(el("span").text_of(name));
        el("tbody")
            .child(el("tr").child(head.children(of.map(|of| measured(page, of, open, || ())))))
            .child(el("tr").content_of(cells))
            .child(el("tr").content_of(next))
            .child(el("tr").content_of(field))
    };
    let mut table = block("table", "compare").child(el("thead").child(el("tr").content_of(head)));
    for (at, figure) in COMPARED.iter().enumerate() {
        table = table.child(group(at, *figure));
    }
    moved_sideways("What each gives and takes", table)
}

/// The rows of trucks at rest, the first of them as measured.
fn rows(trucks: &[Option<&StandingSide>], known: &[Known], units: Units) -> Vec<Row> {
    // A pose without rates is no truck to compare.
    let mut seen = Vec::new();
    for rest in trucks {
        let studied = rest.map(|rest| Studied::new(rest, Clearances::LIVE));
        seen.push(studied.filter(|seen| seen.gauged().is_some()));
    }
    let cell = |figure: Figure, now: &Option<Studied<'_>>| match (now, &seen[0]) {
        (Some(now), Some(before)) => {
            let spread = spread_of(known, figure, now.rest());
            let ranged = known_of(known, figure, now.rest(), |known| &known.ranges).unwrap_or_default();
            let told = figure.told_within(
                now,
                rests_on(known, figure, now.rest()),
                spread.margin().max(ranged.margin),
            );
            cell(&told, (spread, ranged), now, before, units)
        }
        _ => Cell { value: "—".to_owned(), note: "cannot stand".to_owned(), ..Cell::default() },
    };
    let mut rows = Vec::new();
    for figure in COMPARED.iter().copied() {
        let name = match figure.sort() {
            Sort::AnglePerLength => figure.label() + bump(units),
            _ => figure.label(),
        };
        let mut cells = Vec::new();
        for now in &seen {
            cells.push(cell(figure, now));
        }
        let spread = trucks[0].map_or(Spread::default(), |rest| spread_of(known, figure, rest));
        // What would be written as before is no gain.
        let left = |(_, left): &(Readable, f64)| Spread { own: Some(*left), ..spread }.said(figure, units);
        let next = spread.next.filter(|next| left(next) != spread.said(figure, units));
        let next = next.map(|next| (next.0, next_reading_in_words(figure, next, units)));
        rows.push(Row { name, cells, next });
    }
    rows
}

/// What is told of a figure, and how it differs from as measured.
fn cell(
    told: &Told,
    (spread, ranged): (Spread, Ranged),
    now: &Studied<'_>,
    before: &Studied<'_>,
    units: Units,
) -> Cell {
    let drawn = ranged.between.map(|range| {
        // The unit stands over it, and a column is narrow.
        without_unit(&range_in_words(&range, units)).to_owned()
    });
    let drawn = drawn.or_else(|| share_in_words(ranged.share?));
    let how_sure = drawn.unwrap_or_else(|| spread.said(told.figure, units));
    let words = |words: String| Cell { note: marked(words, told.is_guess()), ..Cell::default() };
    let note = match (told.value, told.figure.read(before)) {
        (Some(study::Value::Words(said)), _) => return Cell { spread: how_sure, ..words(said.to_owned()) },
        (Some(study::Value::Preload(preload)), _) => return words(preload_in_words(&preload, units)),
        (Some(study::Value::Number(now)), Some(study::Value::Number(before)))
            if spread
                .change
                .is_some_and(|spread| is_lost(told.figure.sort(), now - before, spread, units)) =>
        {
            CANNOT_TELL.to_owned()
        }
        (Some(study::Value::Number(now)), Some(study::Value::Number(before))) => {
            differs(told.figure, now, before, units)
        }
        _ => String::new(),
    };
    let is = |figure: Figure| told.figure == figure;
    let note = match told.number() {
        _ if is(Figure::CASTER_GROUND) && !now.rest().rear_is_known() => note + ", " + IF_REAR_STAYS,
        Some(_) if is(Figure::SHARE_AT_STOP) => {
            if told.judged == Judged::Bad { "too much" } else { "" }.to_owned()
        }
        Some(mm) if mm <= 0.0 && (is(RAIL) || is(FENDER)) => "they meet".to_owned(),
        Some(_) => note,
        None if is(Figure::ROLL_CENTRE) => "at infinity".to_owned(),
        None if is(Figure::HEIGHT_WITH_DRIVER) || is(Figure::HEIGHT_WITH_BED) => "load not stated".to_owned(),
        // What it may bear is not stated: held against as it sits.
        None if is(Figure::SHARE_AT_STOP) => match Figure::HARDER_AT_STOP.read(now) {
            Some(study::Value::Number(share)) => harder_in_words(share),
            _ => "not stated".to_owned(),
        },
        None => note,
    };
    let spread = if told.number().is_some() { how_sure } else { String::new() };
    Cell { value: said(told, units), spread, note: note + &model_says(told, now.rest(), units) }
}

/// How much less or more a number is than before.
fn differs(figure: Figure, now: f64, before: f64, units: Units) -> String {
    let (by, none) = match figure.sort() {
        Sort::Angle | Sort::AnglePerLength => {
            let over = if figure.sort() == Sort::Angle { 1.0 } else { bump_mm(units) };
            let degrees = ((now - before) * over).to_degrees();
            return if degrees.abs() < 0.005 { AS_MEASURED.to_owned() } else { signed(degrees, 2) + "°" };
        }
        Sort::Frequency => (fixed((now - before).abs(), 2), fixed(0.0, 2)),
        _ => {
            let style = readout_style(units);
            (print_length((now - before).abs(), style), print_length(0.0, style))
        }
    };
    match figure.comparatives() {
        Some([less, more]) if by != none => by + " " + if now < before { less } else { more },
        _ => AS_MEASURED.to_owned(),
    }
}

const AS_MEASURED: &str = "as it sits";

/// What a rate at rest is spread over, in words.
const fn bump(units: Units) -> &'static str {
    match units {
        Units::Inches => ", for an inch",
        Units::Millimetres => ", for 25 mm",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use study::Stance;
    use truck::{DroppedSpindle, Edit, Field, ReadWith, Readable, Reading, Side, Source};

    /// Rows with a mark, by the column that has it.
    fn marks(truck: &truck::Truck) -> [Vec<String>; 2] {
        let drop =
            truck::Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let stood = [&[][..], &[drop]].map(|plan| Stance::laid(truck, plan).unwrap().on(Side::Left));
        let rows = rows(&stood.each_ref().map(Some), &[], Units::Inches);
        std::array::from_fn(|at| {
            let marked = |row: &&Row| (row.cells[at].value.clone() + &row.cells[at].note).starts_with("~ ");
            rows.iter().filter(marked).map(|row| row.name.clone()).collect()
        })
    }

    /// Each number of the table that may rest on a guess carries the mark, and so does what is said in words.
    #[test]
    fn every_row_can_carry_the_mark() {
        let truck = truck::demo().truck;
        assert_eq!(marks(&truck), [Vec::<String>::new(), Vec::new()]);
        let own = truck::demo().edited(&Edit::OwnTruck).unwrap().truck;
        // What an own truck has not stated is no guess: the loads, what the spring may bear.
        for marks in marks(&own) {
            assert!(marks.len() >= COMPARED.len() - 3, "{marks:?}");
            assert!(marks.iter().any(|name| name == "Spring at full droop"), "{marks:?}");
        }
        let mut one = truck;
        one.sources.set(Field::DriverLoad, Source::Assumed);
        assert_eq!(
            marks(&one),
            [["Frame height with the driver", "Frame height with the load in the bed"]; 2]
        );
    }

    /// Two inches lower by a spindle: hand arithmetic of a body that comes down by its drop.
    #[test]
    fn what_differs_is_said_with_its_words() {
        let truck = truck::Truck { rear: truck::RearAxle::UNKNOWN, ..truck::demo().truck };
        let drop =
            truck::Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let stood = [&[][..], &[drop]].map(|plan| Stance::laid(&truck, plan).unwrap().on(Side::Left));
        let rows = rows(&stood.each_ref().map(Some), &[], Units::Inches);
        let of = |name: &str| rows.iter().find(|row| row.name == name).unwrap();
        assert_eq!(of("Frame height").cells[1].note, "2 in lower");
        assert_eq!(of("Frame height").cells[0].note, "as it sits");
        assert_eq!(of("Camber").cells[1].note, "as it sits");
        assert_eq!(of("Tire to frame").cells[1].note, "as it sits");
        assert!(of("Caster, against the ground").cells[1].note.ends_with(IF_REAR_STAYS));
        assert!(of("Tire to fender").cells[1].note.ends_with(" less"));
    }

    /// By hand: a rail read at 304.8 mm is 12 in as it sits and 10 in by a two-inch spindle; beside it
    /// stands what the model says, 300 mm and 249.2 mm, and nothing beside what was not read.
    #[test]
    fn what_was_read_stands_with_the_model_s_own_beside_it() {
        let height = Reading::by(Readable::FrameHeight, 304.8, ReadWith::Tape);
        let read = Edit::Read(Readable::FrameHeight, Side::Left, Some(height));
        let truck = truck::demo().edited(&read).unwrap().truck;
        let drop =
            truck::Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let stood = [&[][..], &[drop]].map(|changes| Stance::laid(&truck, changes).unwrap().on(Side::Left));
        let rows = rows(&stood.each_ref().map(Some), &[], Units::Inches);
        let of = |name: &str| &rows.iter().find(|row| row.name == name).unwrap().cells;
        let said: Vec<_> =
            of("Frame height").iter().map(|cell| (cell.value.as_str(), cell.note.as_str())).collect();
        assert_eq!(
            said,
            [("12 in", "as it sits; model says 11 13/16 in"), ("10 in", "2 in lower; model says 9 13/16 in")]
        );
        assert!(rows.iter().filter(|row| row.name != "Frame height").all(|row| {
            let under_load = row.name.starts_with("Frame height with");
            row.cells.iter().all(|cell| cell.note.contains("model says") == under_load)
        }));
    }
}
