//! The few numbers that are always in sight.

use crate::derive::Answers;
use crate::dom::{Node, block, button, el};
use crate::format::{lower_or_higher, readout_style, travelled};
use crate::signals::Derived;
use crate::state::{Page, Panel};
use crate::told::{
    FENDER, Known, Live, MEASURED, RAIL, Spread, TILES, model_says, rests_on_in, said, spoken,
    spoken_measured, spread_of,
};
use drawing::Units;
use measure::{print_length, signed};
use study::{Figure, Guesses, IF_REAR_STAYS, Judged, Limiter, Pair, Studies as _, Told, Value};
use truck::Readable;

/// One number with what is to be said of it.
#[derive(Clone, Debug, Default, PartialEq)]
struct Readout {
    name: String,
    value: String,
    spoken: String,
    note: String,
    /// The rest of it, where the bump stop is met only later.
    stop: String,
    /// How far off it may be.
    spread: String,
    /// Whether the note tells of a loss.
    warn: bool,
}

/// The row of numbers under the sketch.
pub(crate) fn readouts(page: Page, answers: Answers) -> Node {
    let all = Derived::new(move || {
        let now = answers.standing.get();
        let before = answers.before.get();
        let (Ok(now), Ok(before)) = (now.as_ref(), before.as_ref()) else { return Vec::new() };
        let (pose, pose_before) = (answers.pose.get(), answers.pose_before.get());
        let (gaps, travel) = (answers.gaps.get(), answers.travel_left.get());
        let now = Live::of(now, pose, &gaps, travel.as_ref());
        // What was found holds at rest; what hangs on no pose, anywhere.
        let marks = |figure: Figure| {
            let of_pose = ![Figure::FRAME_HEIGHT, Figure::BUMP].contains(&figure);
            let pose = if of_pose { pose } else { Some(now.rest.pose) };
            answers.known.with(|known| rests_on_in(known, figure, now.rest, pose))
        };
        // What was measured is off by as much wherever the wheel is; what it comes to there is not known.
        let spread = |figure: Figure| {
            let is_here = pose == Some(now.rest.pose) || figure == Figure::FRAME_HEIGHT;
            let of = |known: &Vec<Known>| spread_of(known, figure, now.rest);
            if is_here { answers.known.with(of) } else { Spread::default() }
        };
        let units = page.units();
        let mut tiles = tiles(&now, &Live::of(before, pose_before, &[], None), &marks, &spread, units);
        let travel_mm = page.session.travel_mm.get();
        if travel_mm.abs() > 0.05 {
            // Off its ride height each says where the wheel is, and those that go by it where it would be.
            for (tile, figure) in tiles.iter_mut().zip(TILES) {
                let of_pose = ![Figure::FRAME_HEIGHT, Figure::BUMP].contains(&figure);
                tile.spread = travelled(if of_pose { travel_mm } else { 0.0 }, units);
            }
        }
        tiles
    });
    let tile = move |at: usize| {
        let of = move || all.with(|all| all.get(at).cloned().unwrap_or_default());
        let value = el("dd")
            .child(
                el("b")
                    .attr("role", "img")
                    .attr_of("aria-label", move || Some(of().spoken))
                    .text_of(move || of().value),
            )
            .child(block("small", "spread").text_of(move || of().spread))
            .child(
                // Where the stop is, is said where there is room.
                el("small")
                    .child(el("span").text_of(move || of().note))
                    .child(block("span", "stop").text_of(move || of().stop)),
            );
        block("div", "readout")
            .class_if("warn", move || of().warn)
            .class_if("guessed", move || of().value.starts_with('~'))
            .child(el("dt").text_of(move || of().name))
            .child(value.children(TILES[at].readable().map(|of| measured(page, of))))
    };
    block("dl", "readouts").attr("aria-label", "Key numbers").children((0..TILES.len()).map(tile))
}

/// Leads from a number to the field for what was read off the truck; it lies over the whole tile.
fn measured(page: Page, of: Readable) -> Node {
    let press = move || {
        // The panel first: one that is there already is built anew, and the cursor goes into the new one.
        page.session.turn_to(Panel::Measure);
        page.lead_to_reading(Some(of));
    };
    button(MEASURED, press).attr("class", "reads").attr("aria-label", &spoken_measured(of))
}

/// The figures of what is on the sketch, against the truck as measured in the same pose.
fn tiles(
    now: &Live<'_>,
    before: &Live<'_>,
    marks: &dyn Fn(Figure) -> Guesses,
    spread: &dyn Fn(Figure) -> Spread,
    units: Units,
) -> Vec<Readout> {
    let tile = |figure: Figure| {
        let spread = spread(figure);
        let told = figure.told_within(now, marks(figure), spread.margin());
        Readout {
            name: figure.label(),
            value: said(&told, units),
            spoken: spoken(&told, units),
            note: note(&told, now, figure.read(before), units) + &model_says(&told, now.rest, units),
            stop: if figure == Figure::BUMP { stop(now, units) } else { String::new() },
            spread: spread.said(figure, units),
            warn: matches!(told.judged, Judged::Tight | Judged::Bad),
        }
    };
    TILES.into_iter().map(tile).collect()
}

/// What is to be said under a number.
fn note(told: &Told, now: &Live<'_>, before: Option<Value>, units: Units) -> String {
    let is = |figure: Figure| told.figure == figure;
    if is(Figure::FRAME_HEIGHT) {
        return lower_or_higher(now.rest.ground_mm, units);
    }
    if is(Figure::BUMP) {
        return travel(now).to_owned();
    }
    match (told.number(), before) {
        (Some(now_rad), Some(Value::Number(before_rad)))
            if is(Figure::CAMBER) || is(Figure::CASTER_GROUND) =>
        {
            let note = changed((now_rad - before_rad).to_degrees());
            // What hangs on the rake says so, unless it is stated what the rear does.
            let open = is(Figure::CASTER_GROUND) && !now.rest.rear_is_known();
            if open { note + "; " + IF_REAR_STAYS } else { note }
        }
        (Some(mm), _) if mm <= 0.0 && (is(RAIL) || is(FENDER)) => "they meet".to_owned(),
        (Some(_), _) => "at this travel".to_owned(),
        (None, _) => String::new(),
    }
}

fn changed(degrees: f64) -> String {
    let text = signed(degrees, 2);
    if degrees.abs() < 0.005 { "as it sits".to_owned() } else { ["changed ", &text, "°"].concat() }
}

/// What ends the bump travel.
fn travel(now: &Live<'_>) -> &'static str {
    let Some(left) = now.travel() else { return "" };
    match left.bump.by {
        Limiter::BumpStop => "to the bump stop",
        Limiter::Contact(Pair::TireFender) => "to fender",
        Limiter::Contact(Pair::TireRail) => "to frame",
        by => by.label(),
    }
}

/// Where the bump stop is, where something else is met before it.
fn stop(now: &Live<'_>, units: Units) -> String {
    match now.travel() {
        Some(left) if left.bump.by != Limiter::BumpStop => {
            "; stop ".to_owned() + &print_length(left.touch_mm.max(0.0), readout_style(units))
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::told::rests_on;
    use study::{Stance, StandingSide, clearances, travel_left};
    use truck::{Edit, Field, Side, Source, Truck, demo};

    fn at_rest(truck: &Truck) -> StandingSide {
        Stance::laid(truck, &[]).unwrap().on(Side::Left)
    }

    fn told(truck: &Truck) -> Vec<Readout> {
        let rest = at_rest(truck);
        let (gaps, left) = (clearances(&rest, &rest.pose), travel_left(&rest));
        let live = Live::of(&rest, None, &gaps, Some(&left));
        tiles(&live, &live, &|figure| rests_on(&[], figure, &rest), &|_| Spread::default(), Units::Inches)
    }

    /// The mark is in the text, and said in words: what is in a style sheet only, nobody hears.
    #[test]
    fn a_tile_writes_its_mark_and_says_it() {
        let marks = |tiles: &[Readout]| {
            tiles
                .iter()
                .filter(|tile| tile.value.starts_with("~ "))
                .map(|tile| tile.name.clone())
                .collect::<Vec<_>>()
        };
        assert_eq!(marks(&told(&demo().truck)), Vec::<String>::new());
        let own = told(&demo().edited(&Edit::OwnTruck).unwrap().truck);
        assert_eq!(marks(&own).len(), 6, "{own:?}");
        for tile in &own {
            assert!(tile.spoken.starts_with("a guess, ") && !tile.warn, "{tile:?}");
        }
        let mut truck = demo().truck;
        truck.sources.set(Field::FenderZ, Source::Assumed);
        assert_eq!(marks(&told(&truck)), ["Bump travel", "Tire to fender"]);
    }

    /// What was found of this very truck takes the place of what may be; another truck's does not.
    #[test]
    fn what_was_found_counts_for_its_own_truck() {
        let mut truck = demo().truck;
        truck.sources.set(Field::CornerLoad, Source::Assumed);
        let rest = at_rest(&truck);
        let marks = vec![(Figure::CAMBER, Guesses::NONE)];
        let known = [Known { rest: rest.clone(), marks, spreads: Vec::new(), ranges: Vec::new() }];
        assert!(!rests_on(&[], Figure::CAMBER, &rest).is_empty());
        assert!(rests_on(&known, Figure::CAMBER, &rest).is_empty());
        assert!(!rests_on(&known, Figure::FRAME_HEIGHT, &rest).is_empty());
        // The other side is another one, though it is alike.
        assert!(!rests_on(&known, Figure::CAMBER, &rest.stance().on(Side::Right)).is_empty());
        truck.points.camber_rad += 0.01;
        assert!(!rests_on(&known, Figure::CAMBER, &at_rest(&truck)).is_empty());
    }
}
