//! What is told of a figure, as the page writes it and as it is heard.

use crate::dom::{Node, el};
use crate::format::readout_style;
pub(crate) use drawing::bump_mm;
use drawing::{READINGS_DISAGREE, SKETCHED, Units, marked, spread_in_words};
use linkage::Pose;
use measure::{fixed, print_angle, print_length, spoken_angle, spoken_length};
use study::{
    Figure, Gap, Gauged, Guesses, Pair, Range, Sort, StandingSide, Studies, Told, TravelLeft, Value,
};
use truck::Readable;

/// What leads from an answer to the field for it.
pub(crate) const MEASURED: &str = "I measured this";

/// The room beside the tire.
pub(crate) const RAIL: Figure = Figure::room(Pair::TireRail);
/// The room over it.
pub(crate) const FENDER: Figure = Figure::room(Pair::TireFender);

/// The figures that are always in sight.
pub(crate) const TILES: [Figure; 6] =
    [Figure::FRAME_HEIGHT, Figure::CAMBER, Figure::BUMP, Figure::CASTER_GROUND, RAIL, FENDER];

/// What is compared, what says most first; the tiles are among it.
pub(crate) const COMPARED: [Figure; 18] = [
    Figure::FRAME_HEIGHT,
    Figure::FENDER_ABOVE,
    Figure::BUMP,
    Figure::BUMP_ENDED_BY,
    Figure::DROOP,
    Figure::CAMBER,
    Figure::CASTER_GROUND,
    Figure::CAMBER_GAIN,
    Figure::BUMP_STEER,
    Figure::ROLL_CENTRE,
    Figure::TRACK,
    RAIL,
    FENDER,
    Figure::RIDE_FREQUENCY,
    Figure::HEIGHT_WITH_DRIVER,
    Figure::HEIGHT_WITH_BED,
    Figure::SHARE_AT_STOP,
    Figure::SPRING_AT_DROOP,
];

/// A side of a truck and the guesses that its figures were found to rest on.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Known {
    /// The side of the truck at rest.
    pub(crate) rest: StandingSide,
    /// What was found.
    pub(crate) marks: Vec<(Figure, Guesses)>,
    /// How far off its figures may be; empty until that is known.
    pub(crate) spreads: Vec<(Figure, Spread)>,
    /// The same of those that switch; empty until it was asked for.
    pub(crate) ranges: Vec<(Figure, Ranged)>,
}

/// How far off a figure may be, in the core's unit; `None` where that is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Spread {
    /// Of the figure itself, either way.
    pub(crate) own: Option<f64>,
    /// Of how much it differs from as it sits.
    pub(crate) change: Option<f64>,
    /// The reading of the truck as it sits that would narrow it most, and what it would leave.
    pub(crate) next: Option<(Readable, f64)>,
    /// Whether what was read of it may be wrong.
    pub(crate) is_doubtful: bool,
}

/// How far off a figure may be that switches.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Ranged {
    /// Between what it lies.
    pub(crate) between: Option<Range>,
    /// By how much it may be less, in the core's unit.
    pub(crate) margin: f64,
    /// In what share of the trucks that measure as this one it says the word that it says.
    pub(crate) share: Option<f64>,
}

impl Spread {
    /// The margin that a verdict on the figure keeps: none is wide enough for what may be wrong.
    pub(crate) fn margin(self) -> f64 {
        if self.is_doubtful { f64::INFINITY } else { self.own.unwrap_or(0.0) }
    }

    /// In words: `± 2.3°`, or that what was read cannot be so; empty where nothing is to be said.
    #[inline(never)]
    pub(crate) fn said(self, figure: Figure, units: Units) -> String {
        if self.is_doubtful {
            return READINGS_DISAGREE.to_owned();
        }
        let said = self.own.and_then(|own| spread_in_words(figure.sort(), own, units));
        said.unwrap_or_default()
    }
}

/// What is known of a figure of a truck at rest, from one of the lists.
pub(crate) fn known_of<T: Copy>(
    known: &[Known],
    figure: Figure,
    rest: &StandingSide,
    list: fn(&Known) -> &[(Figure, T)],
) -> Option<T> {
    let known = known.iter().find(|known| known.rest == *rest)?;
    list(known).iter().find(|(other, _)| *other == figure).map(|(_, found)| *found)
}

/// How far off a figure of a truck at rest may be.
#[inline(never)]
pub(crate) fn spread_of(known: &[Known], figure: Figure, rest: &StandingSide) -> Spread {
    known_of(known, figure, rest, |known| &known.spreads).unwrap_or_default()
}

/// The guesses that a figure of a truck rests on: as they were found, or all that it may rest on.
#[inline(never)]
pub(crate) fn rests_on(known: &[Known], figure: Figure, rest: &StandingSide) -> Guesses {
    let found = known_of(known, figure, rest, |known| &known.marks);
    found.unwrap_or_else(|| figure.of_side_may_rest_on(rest))
}

/// The same of a truck in a pose: what was found holds at rest, and elsewhere all that it may rest on.
#[inline(never)]
pub(crate) fn rests_on_in(
    known: &[Known],
    figure: Figure,
    rest: &StandingSide,
    pose: Option<Pose>,
) -> Guesses {
    match pose {
        Some(pose) if pose == rest.pose => rests_on(known, figure, rest),
        // A wheel that is steered stands where its tie rod has brought it.
        Some(pose) if pose.tie_inner.y.to_bits() != rest.pose.tie_inner.y.to_bits() => {
            figure.of_side_may_rest_on_steered(rest)
        }
        _ => figure.of_side_may_rest_on(rest),
    }
}

/// The figures that are written into the sketch and rest on a guess.
pub(crate) fn guessed(known: &[Known], rest: &StandingSide, pose: Pose) -> Vec<Figure> {
    let is_guess = |figure: &Figure| !rests_on_in(known, *figure, rest, Some(pose)).is_empty();
    SKETCHED.into_iter().filter(is_guess).collect()
}

/// What is worked out at every frame, for figures to be read from.
pub(crate) struct Live<'a> {
    /// The side of the truck at rest.
    pub(crate) rest: &'a StandingSide,
    /// What is read off the pose on the sketch.
    gauged: Option<Gauged>,
    /// The room at that pose.
    gaps: &'a [Gap],
    /// What is left of the travel.
    travel: Option<&'a TravelLeft>,
}

impl<'a> Live<'a> {
    /// A truck in a pose; at rest where there is none.
    pub(crate) fn of(
        rest: &'a StandingSide,
        pose: Option<Pose>,
        gaps: &'a [Gap],
        travel: Option<&'a TravelLeft>,
    ) -> Self {
        Self { rest, gauged: Gauged::of(rest, pose.unwrap_or(rest.pose)).ok(), gaps, travel }
    }
}

impl Studies for Live<'_> {
    fn rest(&self) -> &StandingSide {
        self.rest
    }

    fn gauged(&self) -> Option<&Gauged> {
        self.gauged.as_ref()
    }

    fn room_mm(&self, pair: Pair) -> Option<f64> {
        self.gaps.iter().find(|gap| gap.pair == pair).map(|gap| gap.distance_mm)
    }

    fn travel(&self) -> Option<&TravelLeft> {
        self.travel
    }
}

/// What is told of a figure, with its mark where it rests on a guess.
#[inline(never)]
pub(crate) fn said(told: &Told, units: Units) -> String {
    marked(plain(told.value, told.figure.sort(), units), told.is_guess())
}

/// A value of a sort, without its mark.
#[inline(never)]
pub(crate) fn plain(value: Option<Value>, sort: Sort, units: Units) -> String {
    match (value, sort) {
        (Some(Value::Words(words)), _) => words.to_owned(),
        (Some(Value::Number(rad)), Sort::Angle) => print_angle(rad, 2),
        (Some(Value::Number(rate)), Sort::AnglePerLength) => print_angle(rate * bump_mm(units), 2),
        (Some(Value::Number(hertz)), Sort::Frequency) => fixed(hertz, 2) + " Hz",
        (Some(Value::Number(share)), Sort::Share) => fixed(share * 100.0, 0) + " %",
        (Some(Value::Number(mm)), _) => print_length(mm, readout_style(units)),
        (Some(Value::Preload(_)) | None, _) => "—".to_owned(),
    }
}

/// What the model says where a reading off the truck stands in its place; empty elsewhere.
#[inline(never)]
pub(crate) fn model_says(told: &Told, rest: &StandingSide, units: Units) -> String {
    let Some(own) = told.model else { return String::new() };
    let (value, rests_on) = (Some(Value::Number(own)), told.figure.of_side_may_rest_on(rest));
    "; model says ".to_owned() + &said(&Told { value, rests_on, ..*told }, units)
}

/// The same as it is heard: a screen reader passes a mark over.
#[inline(never)]
pub(crate) fn spoken(told: &Told, units: Units) -> String {
    let plain = match (told.number(), told.figure.sort()) {
        (Some(rad), Sort::Angle) => spoken_angle(rad, 2),
        (Some(mm), Sort::Length) => spoken_length(mm, readout_style(units)),
        _ => return said(told, units),
    };
    if told.is_guess() { "a guess, ".to_owned() + &plain } else { plain }
}

/// What leads from an answer to the field for it, as it is heard.
#[inline(never)]
pub(crate) fn spoken_measured(of: Readable) -> String {
    MEASURED.to_owned() + ": " + of.label()
}

/// Writes what is told. A screen reader passes a mark over: each is there in words for it.
#[inline(never)]
pub(crate) fn write(into: Node, said: &str) -> Node {
    let mut parts = said.split('~');
    let first = parts.next().unwrap_or_default();
    let guess = || el("span").attr("role", "img").attr("aria-label", "a guess,").text("~");
    parts.fold(into.child(el("span").text(first)), |into, part| {
        into.child(guess()).child(el("span").text(part))
    })
}
