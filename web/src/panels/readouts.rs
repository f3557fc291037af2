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
use drawing::{Units, marked};
use measure::{print_length, signed};
use study::{
    Figure, Guesses, IF_REAR_STAYS, Judged, Limiter, Pair, Studies as _, Told, TravelLeft, Value, capital,
};
use truck::{Arm, Readable};

/// One number with what is to be said of it.
#[derive(Clone, Debug, Default, PartialEq)]
struct Readout {
    value: String,
    spoken: String,
    note: String,
    /// How far off it may be.
    spread: String,
    /// Whether the note tells of a loss.
    warn: bool,
}

impl Readout {
    /// Where no number is, since the parts do not reach each other.
    fn none() -> Self {
        Self { value: "—".to_owned(), spoken: "none".to_owned(), ..Self::default() }
    }
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
            let of_pose = ![Figure::FRAME_HEIGHT, Figure::BUMP, Figure::BUMP_TOUCH].contains(&figure);
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
            // Off its ride height each says where the wheel is, and the frame's where it would be; bump counts from there.
            for (tile, figure) in tiles.iter_mut().zip(TILES) {
                if figure != Figure::BUMP {
                    let of_pose = figure != Figure::FRAME_HEIGHT;
                    tile.spread = travelled(if of_pose { travel_mm } else { 0.0 }, units);
                }
            }
        }
        tiles
    });
    let tile = move |at: usize| {
        let of = move || all.with(|all| all.get(at).cloned().unwrap_or_else(Readout::none));
        let value = el("dd")
            .child(
                el("b")
                    .attr("role", "img")
                    .attr_of("aria-label", move || Some(of().spoken))
                    .text_of(move || of().value),
            )
            .child(
                // A mark that stands here is said as well: a screen reader passes it over.
                block("small", "spread")
                    .attr_of("role", move || guess(&of().spread).map(|_| "img".to_owned()))
                    .attr_of("aria-label", move || guess(&of().spread))
                    .text_of(move || of().spread),
            )
            .child(el("small").text_of(move || of().note));
        block("div", "readout")
            .class_if("warn", move || of().warn)
            .class_if("guessed", move || of().value.starts_with('~'))
            .child(el("dt").text(&name(TILES[at])))
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
        if let Some(left) = now.travel().filter(|_| figure == Figure::BUMP) {
            return first_hit(&told, left, units);
        }
        Readout {
            value: said(&told, units),
            spoken: spoken(&told, units),
            note: note(&told, now, figure.read(before), units) + &model_says(&told, now.rest, units),
            spread: spread.said(figure, units),
            warn: matches!(told.judged, Judged::Tight | Judged::Bad),
        }
    };
    TILES.into_iter().map(tile).collect()
}

/// What a tile is called.
fn name(figure: Figure) -> String {
    if figure == Figure::BUMP { "Hits first".to_owned() } else { figure.label() }
}

/// What carries the mark of a guess, as it is heard; nothing of what does not.
fn guess(marked: &str) -> Option<String> {
    marked.strip_prefix("~ ").map(|said| "a guess, ".to_owned() + said)
}

/// What is to be said under a number.
fn note(told: &Told, now: &Live<'_>, before: Option<Value>, units: Units) -> String {
    let is = |figure: Figure| told.figure == figure;
    if is(Figure::FRAME_HEIGHT) {
        return lower_or_higher(now.rest.ground_mm, units);
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
    if degrees.abs() < 0.005 { "no change".to_owned() } else { ["changed ", &text, "°"].concat() }
}

/// What the wheel meets first on its way up, how far up that is, and whether it comes before the bump stop does.
fn first_hit(told: &Told, left: &TravelLeft, units: Units) -> Readout {
    let is_stop = left.bump.by == Limiter::BumpStop;
    let warn = matches!(told.judged, Judged::Tight | Judged::Bad);
    let length = print_length(left.bump.travel_mm, readout_style(units));
    let what = thing(left.bump.by);
    Readout {
        spoken: guess(&marked(what.to_owned(), told.is_guess())).unwrap_or_else(|| what.to_owned()),
        value: marked(capital(what), told.is_guess()),
        spread: marked("bump ".to_owned() + &length, told.is_guess()),
        note: match (is_stop, warn) {
            (true, true) => "little travel".to_owned(),
            (true, false) => "nothing before it".to_owned(),
            // Where the stop is is said under What hits.
            (false, _) => "before the stop".to_owned(),
        },
        warn,
    }
}

/// What ends the travel, in as few words as a tile has room for.
pub(crate) fn thing(by: Limiter) -> &'static str {
    match by {
        Limiter::Joint(Arm::Lower) => "lower joint",
        Limiter::Joint(Arm::Upper) => "upper joint",
        Limiter::CoilBind => "coil",
        // That a rim is in the way is so at ride height already.
        Limiter::Contact(Pair::RimLowerJoint) => "ball joint",
        Limiter::Contact(Pair::RimSteeringArm) => "steering arm",
        Limiter::Contact(pair) => pair.things()[1],
        by => by.label(),
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
            let marked = TILES.into_iter().zip(tiles).filter(|(_, tile)| tile.value.starts_with("~ "));
            marked.map(|(figure, _)| name(figure)).collect::<Vec<_>>()
        };
        assert_eq!(marks(&told(&demo().truck)), Vec::<String>::new());
        let own = told(&demo().edited(&Edit::OwnTruck).unwrap().truck);
        assert_eq!(marks(&own).len(), 6, "{own:?}");
        for tile in &own {
            assert!(tile.spoken.starts_with("a guess, ") && !tile.warn, "{tile:?}");
        }
        let (_, first) = TILES.into_iter().zip(&own).find(|(figure, _)| *figure == Figure::BUMP).unwrap();
        assert!(first.spread.starts_with("~ bump "), "the number under the name has its own: {first:?}");
        let mut truck = demo().truck;
        truck.sources.set(Field::FenderZ, Source::Assumed);
        assert_eq!(marks(&told(&truck)), ["Hits first", "Tire to fender"]);
    }

    /// Every thing has a name that a tile of a phone holds, and it is one thing and not two.
    #[test]
    fn what_is_hit_first_is_named_in_two_words() {
        let parts = [
            Limiter::BumpStop,
            Limiter::Shock,
            Limiter::CoilBind,
            Limiter::Joint(Arm::Lower),
            Limiter::Joint(Arm::Upper),
        ];
        for by in parts.into_iter().chain(Pair::ALL.iter().copied().map(Limiter::Contact)) {
            let said = thing(by);
            assert!(said.split(' ').count() <= 2 && said.len() <= 12 && !said.contains(" to "), "{said}");
        }
        assert_eq!(thing(Limiter::Contact(Pair::TireFender)), "fender");
        assert_eq!(thing(Limiter::Contact(Pair::LowerArmRail)), "frame");
        assert_eq!(thing(Limiter::Contact(Pair::TireStrutRod)), "strut rod");
        assert_eq!(thing(Limiter::BumpStop), "bump stop");
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
