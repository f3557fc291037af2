//! The few numbers that are always in sight.

use crate::derive::Answers;
use crate::dom::{Node, block, el};
use crate::format::{lower_or_higher, readout_style};
use crate::signals::Derived;
use crate::state::Page;
use drawing::Units;
use linkage::Pose;
use measure::{print_angle, print_length, signed, spoken_length};
use study::{IF_REAR_STAYS, Limiter, Pair, Question, Rest, TIGHT_MM, TravelLeft, rests_on_guess};

/// One number with what is to be said of it.
#[derive(Clone, Debug, Default, PartialEq)]
struct Readout {
    name: &'static str,
    value: String,
    spoken: String,
    note: String,
    /// Whether the note tells of a loss.
    warn: bool,
    /// Whether the answer rests on a guessed number.
    guessed: bool,
}

/// The row of numbers under the sketch.
pub(crate) fn readouts(page: Page, answers: Answers) -> Node {
    let all = Derived::new(move || {
        let units = page.units();
        let now = answers.now.get();
        let before = answers.before.get();
        match (now.as_ref(), before.as_ref()) {
            (Ok(now), Ok(before)) => {
                let (camber_rad, caster_rad) = gauge(now, answers.pose.get().as_ref());
                let was = gauge(before, answers.pose_before.get().as_ref());
                vec![
                    height(now, units),
                    angle("Camber", Question::Camber, (now, camber_rad), was.0),
                    answers.left.with(|left| travel(left.as_ref(), now, units)),
                    against_ground(angle("Caster, ground", Question::Caster, (now, caster_rad), was.1), now),
                    room(&answers, Pair::TireRail, now, units),
                    room(&answers, Pair::TireFender, now, units),
                ]
            }
            _ => Vec::new(),
        }
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
            .child(el("small").text_of(move || of().note));
        block("div", "readout")
            .class_if("warn", move || of().warn)
            .class_if("guessed", move || of().guessed)
            .child(el("dt").text_of(move || of().name.to_owned()))
            .child(value)
    };
    block("dl", "readouts").attr("aria-label", "Key numbers").children((0..6).map(tile))
}

fn height(now: &Rest, units: Units) -> Readout {
    let height = now.ride_height_mm();
    Readout {
        name: "Ride height, frame",
        value: print_length(height, readout_style(units)),
        spoken: spoken_length(height, readout_style(units)),
        note: lower_or_higher(now.ground_mm, units),
        guessed: rests_on_guess(&now.fitted, Question::RideHeight) && now.ground_mm.abs() > 0.05,
        ..Readout::default()
    }
}

/// An angle of the pose that is shown, against the truck as measured in the same one.
fn angle(name: &'static str, question: Question, (now, now_rad): (&Rest, f64), before_rad: f64) -> Readout {
    Readout {
        name,
        value: print_angle(now_rad, 2),
        spoken: measure::spoken_angle(now_rad, 2),
        note: changed((now_rad - before_rad).to_degrees()),
        guessed: rests_on_guess(&now.fitted, question),
        ..Readout::default()
    }
}

/// What hangs on the rake says so, unless it is stated what the rear does.
fn against_ground(read: Readout, now: &Rest) -> Readout {
    let note = if now.rear_is_stated() { read.note } else { read.note + "; " + IF_REAR_STAYS };
    Readout { note, ..read }
}

/// A truck's camber in a pose, as the curves have it, and its caster against the ground, rad.
fn gauge(rest: &Rest, pose: Option<&Pose>) -> (f64, f64) {
    let pose = pose.unwrap_or(&rest.pose);
    let level = pose.nose_down(rest.nose_down_rad());
    (pose.camber_rad(), linkage::frame::caster_rad(&level.knuckle.along))
}

fn changed(degrees: f64) -> String {
    let text = signed(degrees, 2);
    if degrees.abs() < 0.005 { "as measured".to_owned() } else { text + "° from measured" }
}

fn travel(left: Option<&TravelLeft>, now: &Rest, units: Units) -> Readout {
    let Some(left) = left else { return Readout::default() };
    let style = readout_style(units);
    let touch = left.touch_mm.max(0.0);
    let (note, warn) = match left.bump.by {
        Limiter::Contact(Pair::TireFender) => {
            ("tire meets fender; stop ".to_owned() + &print_length(touch, style), true)
        }
        Limiter::Contact(Pair::TireRail) => {
            ("tire meets frame; stop ".to_owned() + &print_length(touch, style), true)
        }
        Limiter::BumpStop => ("to the bump stop".to_owned(), left.touch_mm <= 12.7),
        by => (by.to_string() + "; stop " + &print_length(touch, style), true),
    };
    let met = match left.bump.by {
        Limiter::Contact(pair) => Some(Question::Room(pair)),
        _ => None,
    };
    let guessed = |question| rests_on_guess(&now.fitted, question);
    Readout {
        name: "Bump travel left",
        value: print_length(left.bump.travel_mm, style),
        spoken: spoken_length(left.bump.travel_mm, style),
        note,
        warn,
        guessed: [Some(Question::Stops), met].into_iter().flatten().any(guessed),
    }
}

fn room(answers: &Answers, pair: Pair, now: &Rest, units: Units) -> Readout {
    let gap = answers.gaps.with(|gaps| gaps.iter().find(|gap| gap.pair == pair).map(|gap| gap.distance_mm));
    let Some(gap) = gap else { return Readout::default() };
    let style = readout_style(units);
    let name = if pair == Pair::TireRail { "Tire to frame" } else { "Tire to fender" };
    let guessed = rests_on_guess(&now.fitted, Question::Room(pair));
    let note = if gap <= 0.0 { "they meet" } else { "at this travel" };
    Readout {
        name,
        value: print_length(gap, style),
        spoken: spoken_length(gap, style),
        note: note.to_owned(),
        warn: gap <= TIGHT_MM,
        guessed,
    }
}
