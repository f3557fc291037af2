//! What a report says of a truck whose sides differ: how it leans, and what that moves from wheel to wheel.

use crate::figures::Sort;
use crate::telling::{Answer, Teller, Value};
use drawing::{lean_in_words, lean_notes, leaning};
use measure::Units;
use study::{Figure, Guesses, Lean, NoLean, Quantity, Rear, Stance, lean};
use truck::{Fitted, Side};

/// What is said below a lean.
pub(crate) const CAUTIONS: [&str; 3] = [
    "Lean: the frame is taken as stiff; a soft ladder frame adds about 4 %, the weight of a body that leans a tenth or more.",
    "Leaf springs stick: a height settles within half an inch either way. Roll the truck and bounce it before you measure.",
    "To know which end leans it: the middle of the rear axle on one jack, nobody under it. If the lean is gone, the rear made it; three heights set the fourth only on a straight frame.",
];

/// The lines of a lean: the same ones for every truck of a design, and a single one where what holds
/// it level is not measured.
pub(crate) fn answers(teller: &Teller<'_>) -> Vec<Answer> {
    let stance = teller.standing.rest.stance();
    let told = lean(stance);
    let line = |key: &str, label: &str, value: Value| Answer {
        key: key.to_owned(),
        label: label.to_owned(),
        value,
        rests_on: rests_on(teller),
        figure: None,
        model: None,
    };
    if is_open(stance) {
        return vec![line("lean", "Lean against as it sits", Value::Words(in_words(stance, &told)))];
    }
    let number =
        |sort: Sort, read: fn(&Lean) -> Option<f64>| Value::Figure(sort, told.as_ref().ok().and_then(read));
    let said = told.as_ref().map_or_else(ToString::to_string, |lean| lean_notes(lean).join("; "));
    vec![
        line(
            "lean",
            "Lean against as it sits, + left low",
            number(Sort::Angle, |lean| Some(lean.left_low_rad)),
        ),
        line("lean_alone", "  by the front springs alone", number(Sort::Angle, |lean| Some(lean.alone_rad))),
        line(
            "lean_left_down",
            "  frame comes down, left wheel",
            number(Sort::Length, |lean| Some(lean.left.down_mm)),
        ),
        line(
            "lean_right_down",
            "  frame comes down, right wheel",
            number(Sort::Length, |lean| Some(lean.right.down_mm)),
        ),
        line(
            "left_front_more",
            "  left front carries more by",
            number(Sort::Force, |lean| Some(lean.left.more_n)),
        ),
        line(
            "right_front_more",
            "  right front carries more by",
            number(Sort::Force, |lean| Some(lean.right.more_n)),
        ),
        line(
            "left_rear_more",
            "  left rear carries more by",
            number(Sort::Force, |lean| Some(lean.rear?.left_more_n)),
        ),
        line(
            "cross_weight_more",
            "Left front and right rear more by",
            number(Sort::Force, |lean| Some(lean.rear?.cross_more_n)),
        ),
        line(
            "cross_weight_share",
            "  of the whole truck",
            number(Sort::Tenths, |lean| lean.rear?.cross_share),
        ),
        line("lean_said", "  counted", Value::Words(said)),
    ]
}

/// Whether what holds the truck level is not measured, whatever a plan brings.
fn is_open(stance: &Stance) -> bool {
    let [left, right] = Side::ALL.map(|side| Fitted::as_measured(&stance.corner(side).fitted.measured));
    let measured = Stance::of(left, right, Rear::AS_MEASURED);
    measured.is_ok_and(|stance| matches!(lean(&stance), Err(NoLean::NotStated(_))))
}

/// It rests on what the heights of both sides rest on, and on what their springs do.
fn rests_on(teller: &Teller<'_>) -> Guesses {
    let height = Quantity::RideHeight;
    let figures = [Figure::at_left(height), Figure::at_right(height), Figure::WHEEL_RATE];
    figures.into_iter().map(|figure| teller.rests_on(figure)).collect()
}

/// Of as many trucks as there are in one line.
fn in_words(stance: &Stance, told: &Result<Lean, NoLean>) -> String {
    match told {
        Ok(lean) => {
            [leaning(lean.left_low_rad)].into_iter().chain(lean_notes(lean)).collect::<Vec<_>>().join("; ")
        }
        Err(_) => lean_in_words(stance, Units::default()).concat(),
    }
}
