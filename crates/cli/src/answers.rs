//! What a report says of one truck at rest: the studies' answers under their names.

use crate::figures::Sort;
use crate::room;
use crate::trucks::Standing;
use crate::ways::drawn;
use drawing::{held_in_words, hold_in_words};
use sharing::Units;
use study::{Effort, LeftRight, Pair, Quantity, Question, Reading, Rest, left_and_right, loading};
use truck::{LoadCase, Truck};

/// One line of a report.
#[derive(Clone, Debug)]
pub(crate) struct Answer {
    /// The name in files, without a unit.
    pub(crate) key: String,
    /// What people call it.
    pub(crate) label: String,
    /// What it is.
    pub(crate) value: Value,
    /// What it is an answer to: what it rests on follows from that.
    pub(crate) asks: Vec<Question>,
}

/// What an answer is.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    /// A number in the core's unit; nothing where there is none.
    Figure(Sort, Option<f64>),
    /// Words.
    Words(String),
}

const RIDE_HEIGHT: &[Question] = &[Question::RideHeight];
const STRESS: &[Question] = &[Question::RideHeight, Question::Stops];

/// The readings of a pose that a report has, and what each answers.
const READINGS: [(Quantity, &[Question]); 11] = [
    (Quantity::Camber, &[Question::Camber]),
    (Quantity::CasterGround, &[Question::Caster]),
    (Quantity::Caster, &[Question::Caster]),
    (Quantity::Toe, &[Question::Toe]),
    (Quantity::Inclination, &[Question::Camber]),
    (Quantity::ScrubRadius, &[Question::Camber]),
    (Quantity::TrailGround, &[Question::Caster]),
    (Quantity::Trail, &[Question::Caster]),
    (Quantity::HalfTrack, &[Question::Camber]),
    (Quantity::RollCentre, &[Question::Camber, Question::Toe]),
    (Quantity::RollCentreBoard, &[Question::Camber]),
];

/// Every answer for a truck at rest, always the same ones in the same order.
///
/// `measured` is the same truck before any change.
///
/// # Errors
/// A sentence where the pose at rest has no rates.
pub(crate) fn answers(standing: &Standing, measured: &Rest, units: Units) -> Result<Vec<Answer>, String> {
    let rest = &standing.rest;
    let reading = Reading::of(rest, rest.pose).map_err(|error| format!("{error}."))?;
    let mut list = stance(rest, measured);
    for (quantity, asks) in READINGS {
        let value = quantity.read(&reading);
        list.push(figure(quantity.key(), quantity.label(), quantity.unit().into(), value, asks));
        if quantity.is_against_ground() {
            let key = format!("{}_if_the_rear", quantity.key());
            list.push(words(&key, "  if the rear", rear_in_words(rest).to_owned(), &[]));
        }
    }
    list.extend(springs(rest, measured, units));
    list.extend(room::answers(standing));
    if standing.differ {
        list.extend(sides(standing.left_and_right()));
    }
    Ok(list)
}

/// Left and right beside each other, and what an alignment shop makes of the two;
/// nothing but the names where one of them does not stand.
fn sides(both: Option<(&Rest, &Rest)>) -> Vec<Answer> {
    let found = both.map(|(left, right)| left_and_right(left, right));
    let mut list = Vec::new();
    for (at, quantity) in LeftRight::QUANTITIES.into_iter().enumerate() {
        let one = found.as_ref().map(|found| found[at]);
        let asks: &[Question] = match quantity {
            Quantity::RideHeight => RIDE_HEIGHT,
            Quantity::Caster => &[Question::Caster],
            Quantity::Toe => &[Question::Toe],
            _ => &[Question::Camber],
        };
        let sort = Sort::from(quantity.unit());
        let mut add = |key: String, label: String, value: Option<f64>| {
            list.push(figure(&key, &label, sort, value, asks));
        };
        let (key, label) = (quantity.key(), quantity.label());
        add(format!("{key}_left"), format!("{label}: left"), one.map(|one| one.left));
        add(format!("{key}_right"), "  right".to_owned(), one.map(|one| one.right));
        let (name, key) = LeftRight::named(quantity);
        add(key.to_owned(), format!("  {}", uncapitalised(name)), one.map(|one| one.together()));
    }
    list
}

fn uncapitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_ascii_lowercase().to_string() + letters.as_str())
}

/// Everything that a truck's answers can rest on, in the order of the lines.
pub(crate) fn questions() -> Vec<(Question, String)> {
    let named = [
        (Question::RideHeight, "Ride height and spring"),
        (Question::Camber, "Camber"),
        (Question::Caster, "Caster and trail"),
        (Question::Toe, "Toe"),
        (Question::Stops, "Travel to the stops"),
    ];
    let pairs = Pair::ALL.iter().map(|pair| (Question::Room(*pair), capital(pair.label())));
    named.map(|(question, name)| (question, name.to_owned())).into_iter().chain(pairs).collect()
}

/// Whether an answer rests on a number that nobody has measured.
pub(crate) fn is_assumed(answer: &Answer, truck: &Truck) -> bool {
    answer.asks.iter().any(|question| !study::assumed(truck, *question).is_empty())
}

pub(crate) fn figure(key: &str, label: &str, sort: Sort, value: Option<f64>, asks: &[Question]) -> Answer {
    let value = Value::Figure(sort, value);
    Answer { key: key.to_owned(), label: label.to_owned(), value, asks: asks.to_vec() }
}

pub(crate) fn length(key: &str, label: &str, mm: f64, asks: &[Question]) -> Answer {
    figure(key, label, Sort::Length, Some(mm), asks)
}

pub(crate) fn words(key: &str, label: &str, words: String, asks: &[Question]) -> Answer {
    Answer { key: key.to_owned(), label: label.to_owned(), value: Value::Words(words), asks: asks.to_vec() }
}

/// What the rear does where numbers are against the ground, to be read behind "if the rear".
pub(crate) fn rear_in_words(rest: &Rest) -> &'static str {
    match rest.fitted.rear_down_mm {
        None => "stays up",
        Some(0.0) => "is as measured",
        Some(_) => "comes down as stated",
    }
}

fn stance(rest: &Rest, measured: &Rest) -> Vec<Answer> {
    let height = rest.ride_height_mm();
    vec![
        words("held_by", "Stands on", held_in_words(rest.held_by).to_owned(), RIDE_HEIGHT),
        length("ride_height", Quantity::RideHeight.label(), height, RIDE_HEIGHT),
        length("drop", "Lower than as measured by", measured.ride_height_mm() - height, RIDE_HEIGHT),
        loaded("ride_height_driver", "  with the driver", rest, LoadCase::Driver),
        loaded("ride_height_bed", "  with the load in the bed", rest, LoadCase::Bed),
        figure("rear_down", "Rear comes down by, as stated", Sort::Length, rest.fitted.rear_down_mm, &[]),
    ]
}

/// The height under another load; nothing where its numbers are not stated.
fn loaded(key: &str, label: &str, rest: &Rest, case: LoadCase) -> Answer {
    let height =
        rest.fitted.under(case).and_then(|fitted| Rest::of(fitted).ok()).map(|rest| rest.ride_height_mm());
    figure(key, label, Sort::Length, height, RIDE_HEIGHT)
}

fn springs(rest: &Rest, measured: &Rest, units: Units) -> Vec<Answer> {
    let (work, before) = (loading(rest), loading(measured));
    let stress = |effort: Option<Effort>| effort.and_then(|effort| effort.stress_n_per_mm2);
    let hanging = match (work.hold, work.droop) {
        (Some(hold), _) => hold_in_words(&hold, drawn(units)),
        (None, Some(droop)) => if droop.is_loose() { "loose" } else { "holds" }.to_owned(),
        (None, None) => "—".to_owned(),
    };
    let harder = work.bump.zip(before.bump).and_then(|(now, before)| now.harder_than(&before));
    let hertz = rest.ride_frequency_hz();
    vec![
        figure("wheel_rate", "Wheel rate", Sort::Rate, Some(rest.wheel_rate_n_per_mm), RIDE_HEIGHT),
        figure("ride_frequency", "Ride frequency, tire left out", Sort::Frequency, Some(hertz), RIDE_HEIGHT),
        figure(
            "spring_stress",
            "Spring, shear stress at rest",
            Sort::Stress,
            stress(Some(work.rest)),
            RIDE_HEIGHT,
        ),
        figure("spring_stress_bump", "  at the bump stop solid", Sort::Stress, stress(work.bump), STRESS),
        figure(
            "spring_share_bump",
            "  as a share of what it may bear",
            Sort::Share,
            work.bump.and_then(|bump| bump.share),
            STRESS,
        ),
        figure("spring_harder_bump", "  against as it sits", Sort::Harder, harder, STRESS),
        figure("coil_bind", "  coil's room to solid there", Sort::Length, work.bind_mm, STRESS),
        words("spring_at_droop", "Spring at full droop", hanging, STRESS),
    ]
}

pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_ascii_uppercase().to_string() + letters.as_str())
}
