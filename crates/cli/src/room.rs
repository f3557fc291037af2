//! What a report says of travel, steering and clearance.

use crate::rear::told_value;
use crate::telling::{Answer, Teller, words};
use drawing::{WhatHits, Wheel, rear_verdict};
use study::{
    Clearances, Figure, Low, NoSteering, Pair, RearTold, StandingSide, Steering, Studies, rear_told,
    travel_left_of,
};
use truck::{Field, Side};

const TRAVEL: [Figure; 8] = [
    Figure::BUMP,
    Figure::BUMP_ENDED_BY,
    Figure::BUMP_TOUCH,
    Figure::BUMP_SOLID,
    Figure::STOP_DAYLIGHT,
    Figure::DROOP,
    Figure::DROOP_ENDED_BY,
    Figure::DROOP_STOP,
];

/// Travel, steering, clearance and the scrub line, always the same lines in the same order.
pub(crate) fn answers(teller: &Teller<'_>) -> Vec<Answer> {
    let tell = |figure: Figure| teller.tell(figure);
    let mut list: Vec<Answer> = TRAVEL.into_iter().map(tell).collect();
    list.extend(steering(teller));
    list.extend(Pair::ALL.iter().flat_map(|pair| Figure::of_pair(*pair)).map(tell));
    list.push(words("not_looked_at", "Not looked at", open(teller.studied.clearances())));
    let what = "front axle only, standing still, under the worst load that is stated".to_owned();
    list.push(words("scrub_line", "Scrub line", what));
    list.push(tell(Figure::RIM_EDGE));
    let low = |of| [Figure::over_line(of), Figure::over_rim(of), Figure::low_load(of)];
    list.extend(Low::ALL.into_iter().flat_map(low).map(tell));
    list.push(words("rear_scrub_line", "Scrub line of the rear axle", rear_scrub_line(teller)));
    list
}

/// What hangs between the rear wheels against their line, as `rear` tells it.
fn rear_scrub_line(teller: &Teller<'_>) -> String {
    let told = rear_told(teller.studied.rest().stance()).told;
    // Above the rims nothing is to be said of them.
    let is_told = |told: &&RearTold| {
        let key = told.answer.key();
        key.ends_with("_over_line") || key.ends_with("_over_rim") && told.verdict.is_some()
    };
    let over = told.iter().filter(is_told);
    let said = over.filter_map(|told| {
        let value = told_value(told, teller.units)?;
        Some(rear_verdict(told, &value).unwrap_or_else(|| [told.answer.label(), " ", &value, "."].concat()))
    });
    let all: Vec<_> = said.collect();
    if all.is_empty() { "not measured".to_owned() } else { all.join(" ") }
}

/// What hits, in the sentences that the page has too, of both wheels.
pub(crate) fn what_hits(teller: &Teller<'_>) -> Vec<String> {
    let studied = &teller.studied;
    let Some(left) = studied.travel() else { return Vec::new() };
    let rest = studied.rest();
    let other = rest.other_wheel().map(|other| {
        let found = Clearances::of(&other, Clearances::SETTLED);
        let left = travel_left_of(&other, &found);
        (other, found, left)
    });
    // It meets the same things at another lock: all that it may rest on.
    let rests_on = |of: &StandingSide, figure: Figure| {
        if of.side() == rest.side() { teller.rests_on(figure) } else { figure.of_side_may_rest_on(of) }
    };
    let mut wheels = vec![Wheel { rest, found: studied.clearances(), left }];
    wheels.extend(other.as_ref().map(|(rest, found, left)| Wheel { rest, found, left }));
    WhatHits { wheels: &wheels, rests_on: &rests_on, units: teller.units }.sentences()
}

/// Both wheels at full lock, whichever side is asked about: they hang on one relay rod.
fn steering(teller: &Teller<'_>) -> Vec<Answer> {
    let lock = |side: Side| {
        [
            Figure::lock_left_wheel(side),
            Figure::lock_right_wheel(side),
            Figure::lock_outer(side),
            Figure::lock_circle(side),
            Figure::lock_circle_over(side),
            Figure::lock_scrub_radius(side),
            Figure::lock_trail(side),
        ]
    };
    let mut list: Vec<Answer> =
        Side::ALL.into_iter().flat_map(lock).map(|figure| teller.tell(figure)).collect();
    list.push(words("steering", "Steering", in_words(teller)));
    list
}

fn in_words(teller: &Teller<'_>) -> String {
    match Steering::of(teller.standing.rest.stance().corner(Side::Left)) {
        Err(NoSteering::NotStated(fields)) => "not stated: ".to_owned() + &labels(&fields),
        Err(NoSteering::Unreached(why)) => why.to_string(),
        Ok(found) if found.left.short_of_rad.or(found.right.short_of_rad).is_some() => {
            "the linkage does not reach the lock that was measured: the nearest is shown".to_owned()
        }
        Ok(_) if Side::ALL.into_iter().any(|side| teller.studied.lock(side).is_none()) => {
            "the right wheel does not reach a lock of the left".to_owned()
        }
        Ok(_) => "ok".to_owned(),
    }
}

/// The pairs that need a number that is not stated, and which.
fn open(clearances: &Clearances) -> String {
    let named = clearances.unstated.iter().map(|(pair, fields)| format!("{pair} needs {}", labels(fields)));
    let all: Vec<_> = named.collect();
    if all.is_empty() { "nothing".to_owned() } else { all.join(". ") }
}

fn labels(fields: &[Field]) -> String {
    fields.iter().map(|field| field.label()).collect::<Vec<_>>().join("; ")
}
