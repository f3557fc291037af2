//! What a report says of travel, steering and clearance.

use crate::answers::{Answer, capital, figure, length, words};
use crate::figures::Sort;
use crate::trucks::Standing;
use study::{
    Clearances, Low, LowLine, NoSteering, Pair, Question, Rest, Steering, TravelLeft, Turn, clearance,
    travel_left_of,
};
use truck::{Field, Side};

const STOPS: &[Question] = &[Question::Stops];
const STEERING: &[Question] = &[Question::Toe];
const LINE: &[Question] = &[Question::RideHeight];

/// Travel, steering, clearance and the scrub line, always the same lines in the same order.
pub(crate) fn answers(standing: &Standing) -> Vec<Answer> {
    let rest = &standing.rest;
    let clearances = Clearances::of(rest, Clearances::SETTLED);
    let left = travel_left_of(rest, &clearances);
    let mut list = travel(&left, &clearances);
    list.extend(steering(standing));
    for pair in Pair::ALL {
        list.extend(room(standing, &clearances, *pair));
    }
    list.push(words("not_looked_at", "Not looked at", open(&clearances), &[]));
    list.extend(low_line(rest));
    list
}

fn travel(left: &TravelLeft, clearances: &Clearances) -> Vec<Answer> {
    let rooms = clearances.found.iter().map(|found| Question::Room(found.pair));
    let all: Vec<_> = STOPS.iter().copied().chain(rooms).collect();
    vec![
        length("bump_left", "Bump travel left", left.bump.travel_mm, &all),
        words("bump_ended_by", "  ended by", left.bump.by.to_string(), &all),
        length("bump_stop_touch", "  to the bump stop's first touch", left.touch_mm, STOPS),
        length("bump_stop_solid", "  to the bump stop solid", left.solid_mm, STOPS),
        length("droop_left", "Droop travel left", left.droop.travel_mm, &all),
        words("droop_ended_by", "  ended by", left.droop.by.to_string(), &all),
        length("droop_stop", "  to the droop stop", left.droop_stop_mm, STOPS),
    ]
}

/// Both wheels, whichever side is asked about: they hang on one link.
fn steering(standing: &Standing) -> Vec<Answer> {
    let both = standing.left_and_right();
    let steering = Steering::of(both.map_or(&standing.rest, |(left, _)| left));
    let mut list = Vec::new();
    let mut open = false;
    for (steer, key, side) in [(1.0, "left", "left"), (-1.0, "right", "right")] {
        let turn = both.and_then(|(left, right)| steering.as_ref().ok()?.turn(left, right, 0.0, steer).ok());
        open |= turn.is_none();
        list.extend(lock(&standing.rest, turn.as_ref(), key, side));
    }
    let said = match steering {
        Err(NoSteering::NotStated(fields)) => "not stated: ".to_owned() + &labels(&fields),
        Err(NoSteering::Unreached(why)) => why.to_string(),
        Ok(found) if found.left.short_of_rad.or(found.right.short_of_rad).is_some() => {
            "the linkage does not reach the lock that was measured: the nearest is shown".to_owned()
        }
        Ok(_) if both.is_none() => "the other side does not stand".to_owned(),
        Ok(_) if open => "the right wheel does not reach a lock of the left".to_owned(),
        Ok(_) => "ok".to_owned(),
    };
    list.push(words("steering", "Steering", said, STEERING));
    list
}

fn lock(rest: &Rest, turn: Option<&Turn>, key: &str, side: &str) -> Vec<Answer> {
    let wheelbase_mm = rest.fitted.measured.body.wheelbase_mm;
    let key = |what: &str| format!("lock_{key}_{what}");
    let angle = |what: &str, label: &str, of: &dyn Fn(&Turn) -> f64| {
        figure(&key(what), label, Sort::Angle, turn.map(of), STEERING)
    };
    let sorted = |sort, what: &str, label: &str, of: &dyn Fn(&Turn) -> Option<f64>| {
        figure(&key(what), label, sort, turn.and_then(of), STEERING)
    };
    let mm =
        |what: &str, label: &str, of: &dyn Fn(&Turn) -> Option<f64>| sorted(Sort::Length, what, label, of);
    let outer = |turn: &Turn| turn.inner_outer_rad().1;
    let circle = move |turn: &Turn| turn.circle_mm(wheelbase_mm, outer(turn));
    let more = move |turn: &Turn| {
        Some(circle(turn)? - turn.circle_mm(wheelbase_mm, turn.ideal_outer_rad(wheelbase_mm))?)
    };
    vec![
        angle("left_wheel", &format!("Full {side}: left wheel, + to the left"), &|turn| turn.left_rad),
        angle("right_wheel", "  right wheel, + to the left", &|turn| turn.right_rad),
        angle("outer_over_ideal", "  outer wheel, more than for one turning centre", &|turn| {
            outer(turn) - turn.ideal_outer_rad(wheelbase_mm)
        }),
        sorted(Sort::Circle, "circle", "  turning circle, outer tire", &circle),
        sorted(Sort::Circle, "circle_over_ideal", "  against one turning centre, + wider", &more),
        mm("scrub_radius", "  scrub radius, left", &|turn| Some(turn.attitude.scrub_radius_mm)),
        mm("trail", "  mechanical trail, left, against the frame", &|turn| Some(turn.attitude.trail_mm)),
    ]
}

fn room(standing: &Standing, clearances: &Clearances, pair: Pair) -> Vec<Answer> {
    let rest = &standing.rest;
    let asks = &[Question::Room(pair)];
    let found = clearances.of_pair(pair);
    let here = clearance(rest, &rest.pose, pair).map(|gap| gap.distance_mm);
    let mm = |what: &str, label: &str, value: Option<f64>| {
        figure(&format!("{}{what}", pair.key()), label, Sort::Length, value, asks)
    };
    // A right corner is mirrored, and so is its heading.
    let (label, way) = match standing.side {
        Side::Left => ("  with the left wheel steered, + to the left", 1.0),
        Side::Right => ("  with the right wheel steered, + to the left", -1.0),
    };
    let heading = found.map(|found| way * found.at.heading_rad);
    vec![
        mm("", &capital(pair.label()), here),
        mm("_least", "  least over travel and steer", found.map(|found| found.gap.distance_mm)),
        mm("_least_at", "  at a travel of", found.map(|found| found.at.travel_mm)),
        figure(&format!("{}_least_steer", pair.key()), label, Sort::Angle, heading, asks),
        mm(
            "_meet_at",
            "  they meet in bump at",
            found.and_then(|found| Some(found.meets_in_bump?.travel_mm)),
        ),
    ]
}

/// The pairs that need a number that is not stated, and which.
fn open(clearances: &Clearances) -> String {
    let named = clearances.open.iter().map(|(pair, fields)| format!("{pair} needs {}", labels(fields)));
    let all: Vec<_> = named.collect();
    if all.is_empty() { "nothing".to_owned() } else { all.join(". ") }
}

fn labels(fields: &[Field]) -> String {
    fields.iter().map(|field| field.label()).collect::<Vec<_>>().join("; ")
}

fn low_line(rest: &Rest) -> Vec<Answer> {
    let line = LowLine::worst(rest);
    let what = "front axle only, standing still, under the worst load that is stated".to_owned();
    let mut list = vec![
        words("scrub_line", "Scrub line", what, &[]),
        length("rim_edge", "Rim's lowest edge, above the ground", line.rim_low_mm, LINE),
    ];
    for of in Low::ALL {
        let point = line.points.iter().find(|point| point.of == of);
        let key = |what: &str| format!("{}_over_{what}", of.key());
        let label = capital(of.label()) + ", above the scrub line";
        let over = |value: Option<f64>, key: &str, label: &str| figure(key, label, Sort::Length, value, LINE);
        list.push(over(point.map(|point| point.over_line_mm), &key("line"), &label));
        list.push(over(point.map(|point| point.over_rim_mm), &key("rim"), "  above the rim's lowest edge"));
        let load = point.map_or("—", |point| point.load.label());
        list.push(words(&format!("{}_load", of.key()), "  lowest", load.to_owned(), LINE));
    }
    list
}
