//! What a report says of one truck at rest: every figure of the table, told under its name.

use crate::telling::{Answer, Teller, Value, rear_in_words, words};
use crate::trucks::Standing;
use crate::{lean, room};
use measure::Units;
use study::{Figure, Gauged, LeftRight};

const STANCE: [Figure; 7] = [
    Figure::HELD_BY,
    Figure::FRAME_HEIGHT,
    Figure::DROP,
    Figure::HEIGHT_WITH_DRIVER,
    Figure::HEIGHT_WITH_BED,
    Figure::FENDER_ABOVE,
    Figure::REAR_DOWN,
];

/// The readings of the pose at rest.
const READINGS: [Figure; 11] = [
    Figure::CAMBER,
    Figure::CASTER_GROUND,
    Figure::CASTER,
    Figure::TOE,
    Figure::INCLINATION,
    Figure::SCRUB_RADIUS,
    Figure::TRAIL_GROUND,
    Figure::TRAIL,
    Figure::HALF_TRACK,
    Figure::ROLL_CENTRE,
    Figure::ROLL_CENTRE_BOARD,
];

const SPRING: [Figure; 8] = [
    Figure::WHEEL_RATE,
    Figure::RIDE_FREQUENCY,
    Figure::STRESS,
    Figure::STRESS_AT_STOP,
    Figure::SHARE_AT_STOP,
    Figure::HARDER_AT_STOP,
    Figure::COIL_BIND,
    Figure::SPRING_AT_DROOP,
];

/// What is told of one truck at rest.
pub(crate) struct Answers {
    /// What hits, in sentences.
    pub(crate) what_hits: Vec<String>,
    /// Every answer, always the same ones in the same order.
    pub(crate) list: Vec<Answer>,
}

/// Every answer for a truck at rest.
///
/// # Errors
/// A sentence where the pose at rest has no rates.
pub(crate) fn answers(standing: &Standing, units: Units) -> Result<Answers, String> {
    let rest = &standing.rest;
    Gauged::of(rest, rest.pose).map_err(|error| format!("{error}."))?;
    let teller = Teller::new(standing, units, &Figure::all().collect::<Vec<_>>());
    let mut list = teller.all(&STANCE);
    for figure in READINGS {
        list.push(teller.tell(figure));
        if [Figure::CASTER_GROUND, Figure::TRAIL_GROUND].contains(&figure) {
            let key = figure.key() + "_if_the_rear";
            list.push(words(&key, "  if the rear", rear_in_words(rest).to_owned()));
        }
    }
    list.extend(teller.all(&SPRING));
    list.extend(room::answers(&teller));
    if standing.differ {
        list.extend(sides(&teller));
        list.extend(lean::answers(&teller));
    }
    let with_model = |answer: Answer| {
        let model = model_says(&answer);
        std::iter::once(answer).chain(model)
    };
    let list = list.into_iter().flat_map(with_model).collect();
    Ok(Answers { what_hits: room::what_hits(&teller), list })
}

/// The model's own number, to stand under the answer that a reading gives.
fn model_says(answer: &Answer) -> Option<Answer> {
    let (sort, own) = answer.model?;
    Some(Answer {
        key: answer.key.clone() + "_model",
        label: "  model says".to_owned(),
        value: Value::Figure(sort, own.value),
        rests_on: own.rests_on,
        figure: None,
        model: None,
    })
}

/// Left and right beside each other, and what an alignment shop makes of the two.
fn sides(teller: &Teller<'_>) -> Vec<Answer> {
    let of = |quantity| {
        let together = Figure::together(quantity);
        let label = format!("  {}", uncapitalised(&together.label()));
        [
            teller.tell(Figure::at_left(quantity)),
            teller.tell(Figure::at_right(quantity)),
            teller.tell_as(together, label),
        ]
    };
    LeftRight::QUANTITIES.into_iter().flat_map(of).collect()
}

fn uncapitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_ascii_lowercase().to_string() + letters.as_str())
}
