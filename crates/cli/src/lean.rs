//! What a report says of a truck whose sides differ: how it leans, and what that moves from wheel to wheel.

use crate::figures::Sort;
use crate::telling::{Answer, Teller, Value};
use drawing::{lean_in_words, lean_notes, leaning};
use measure::Units;
use study::{Lean, NoLean, Rear, Stance, lean};
use truck::{Fitted, Side};

/// What is said below a lean.
pub(crate) const CAUTIONS: [&str; 3] = [
    "Lean: the frame is taken as stiff; a soft ladder frame adds about 4 %, the weight of a body that leans a tenth or more.",
    "Leaf springs stick: a height settles within half an inch either way. Roll the truck and bounce it before you measure.",
    "To know which end leans it: wheels chocked, the middle of the rear axle on one jack, nobody under it. If the lean is gone, the rear made it; three heights set the fourth only on a straight frame.",
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
        rests_on: Lean::RESTS_ON.map(|figure| teller.rests_on(figure)).into_iter().collect(),
        figure: None,
        model: None,
    };
    if is_open(stance) {
        return vec![line("lean", "Lean against as it sits", Value::Words(in_words(stance, &told)))];
    }
    let told = told.as_ref();
    let said = told.map_or_else(ToString::to_string, |lean| lean_notes(lean).join("; "));
    let number = |read: Read| told.ok().and_then(read);
    let rows = ROWS.map(|(key, label, sort, read)| line(key, label, Value::Figure(sort, number(read))));
    rows.into_iter().chain([line("lean_said", "  counted", Value::Words(said))]).collect()
}

/// One number of a lean; `None` where it is not known.
type Read = fn(&Lean) -> Option<f64>;

/// The numbers of a lean: key, label, sort.
const ROWS: [(&str, &str, Sort, Read); 9] = [
    ("lean", "Lean against as it sits, + left low", Sort::Angle, |lean| Some(lean.left_low_rad)),
    ("lean_alone", "  by the front springs alone", Sort::Angle, |lean| Some(lean.alone_rad)),
    ("lean_left_down", "  frame comes down, left wheel", Sort::Length, |lean| Some(lean.left.down_mm)),
    ("lean_right_down", "  frame comes down, right wheel", Sort::Length, |lean| Some(lean.right.down_mm)),
    ("left_front_more", "  left front carries more by", Sort::Force, |lean| Some(lean.left.more_n)),
    ("right_front_more", "  right front carries more by", Sort::Force, |lean| Some(lean.right.more_n)),
    ("left_rear_more", "  left rear carries more by", Sort::Force, |lean| Some(lean.rear?.left_more_n)),
    ("cross_weight_more", "Left front and right rear more by", Sort::Force, |lean| {
        Some(lean.rear?.cross_more_n)
    }),
    ("cross_weight_share", "  of the whole truck", Sort::Tenths, |lean| lean.rear?.cross_share),
];

/// Whether what holds the truck level is not measured, whatever a plan brings.
fn is_open(stance: &Stance) -> bool {
    let [left, right] = Side::ALL.map(|side| Fitted::as_measured(&stance.corner(side).fitted.measured));
    let measured = Stance::of(left, right, Rear::AS_MEASURED);
    measured.is_ok_and(|stance| matches!(lean(&stance), Err(NoLean::NotStated(_))))
}

/// Of as many trucks as there are in one line.
fn in_words(stance: &Stance, told: &Result<Lean, NoLean>) -> String {
    match told {
        Ok(lean) => {
            [leaning(lean.left_low_rad)].into_iter().chain(lean_notes(lean)).collect::<Vec<_>>().join("; ")
        }
        Err(_) => lean_in_words(stance, Units::default()).err().unwrap_or_default(),
    }
}
