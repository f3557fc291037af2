//! What each stage of measuring a truck makes sure, against the exact marks of guesses.
//!
//! No source: the tables here are what the page promises of each stage, and what it does not. What is
//! sure is worked out by moving every number that a stage leaves a guess within its width.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

use study::{
    Clearances, Figure, Guess, Guesses, Narrowing, Pair, Stance, Studied, Trial, Value, Values,
    model_as_it_sits,
};
use truck::{ChangeKind, Design, Edit, Field, Overlay, Reading, Side, Source, SpringKind, Stage, demo, fit};

const KINDS: [SpringKind; 3] = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];

/// What is asked: every answer of the truck as a whole, and of each pair how near it is, how near it comes
/// and where it meets.
fn asked() -> Vec<Figure> {
    let of_pair = |pair: &Pair| [Figure::room(*pair), Figure::least_room(*pair), Figure::meets_at(*pair)];
    Figure::WHOLE.iter().copied().chain(Pair::ALL.iter().flat_map(of_pair)).collect()
}

fn read(trial: &Trial, figures: &[Figure]) -> Values {
    let Ok(stance) = Stance::laid(&trial.truck, trial.overlay()) else { return vec![None; figures.len()] };
    Studied::new(&stance.on(Side::Left), Clearances::PROBED).values(figures)
}

/// A truck of one's own of which all stages up to one are done, the numbers as they were guessed, as it sits
/// or with a two-inch spindle.
fn truck(kind: SpringKind, done: Option<Stage>, spindle: bool) -> Trial {
    let start = demo().edited(&Edit::OwnTruck).unwrap().edited(&Edit::SpringKind(kind)).unwrap();
    let rest = Stance::as_measured(&start.truck).unwrap().on(Side::Left);
    let mut edits = Vec::new();
    for stage in Stage::ALL.into_iter().filter(|stage| Some(*stage) <= done) {
        for of in stage.readables() {
            let value = model_as_it_sits(*of, &rest).unwrap();
            edits.push(Edit::Read(*of, Side::Left, Some(Reading::by(*of, value, of.tools()[0]))));
        }
        edits.extend(stage.fields(kind).map(|field| Edit::Source(field, Source::Measured)));
    }
    let design: Design = edits.iter().fold(start, |design, edit| design.edited(edit).unwrap());
    let changes = [ChangeKind::DroppedSpindle.with(None, &[Some(50.8)]).unwrap()];
    Trial::new(&design.truck, if spindle { Overlay::from(&changes) } else { Overlay::NOTHING })
}

/// The guesses that each figure of a truck rests on.
fn marks(trial: &Trial, figures: Vec<Figure>) -> Narrowing {
    let fitted = fit(&trial.truck, trial.overlay()).unwrap();
    Narrowing::new(trial.clone(), &fitted, figures).finished(&read)
}

/// What each stage makes sure of a truck with a torsion bar, as it sits and with the spindle: it says so of
/// no other figure.
const BAR: [[&str; 4]; 2] = [
    [
        "held_by ride_height drop fender_above_tire rear_down spring_harder_bump stop_daylight \
         droop_left",
        "camber inclination half_track track bump_ended_by rim_edge tire_to_fender",
        "",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate ride_frequency spring_stress spring_stress_bump \
         spring_share_bump spring_at_droop bump_left bump_stop_touch bump_stop_solid droop_stop \
         tire_to_frame tire_to_frame_least tire_to_fender_least",
    ],
    [
        "held_by ride_height drop fender_above_tire spring_harder_bump stop_daylight",
        "camber inclination half_track track rim_edge tire_to_fender",
        "",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate ride_frequency spring_stress spring_stress_bump \
         spring_share_bump spring_at_droop bump_left bump_ended_by bump_stop_touch bump_stop_solid \
         droop_stop tire_to_frame tire_to_frame_least tire_to_fender_least tire_to_fender_meet_at",
    ],
];

/// The same of a coil.
const COIL: [[&str; 4]; 2] = [
    [
        "held_by ride_height drop fender_above_tire rear_down spring_harder_bump stop_daylight \
         droop_left",
        "camber inclination half_track track bump_ended_by rim_edge tire_to_fender",
        "",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate ride_frequency spring_stress spring_stress_bump \
         spring_share_bump coil_bind spring_at_droop bump_left bump_stop_touch bump_stop_solid \
         droop_stop tire_to_frame tire_to_frame_least tire_to_fender_least",
    ],
    [
        "held_by ride_height drop fender_above_tire spring_harder_bump stop_daylight",
        "camber inclination half_track track rim_edge tire_to_fender",
        "",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate ride_frequency spring_stress spring_stress_bump \
         spring_share_bump coil_bind spring_at_droop bump_left bump_ended_by bump_stop_touch \
         bump_stop_solid droop_stop tire_to_frame tire_to_frame_least tire_to_fender_least \
         tire_to_fender_meet_at",
    ],
];

/// The same of a rate at the wheel.
const RATE: [[&str; 4]; 2] = [
    [
        "held_by ride_height drop fender_above_tire rear_down spring_at_droop stop_daylight \
         droop_left",
        "camber inclination half_track track bump_ended_by rim_edge tire_to_fender",
        "ride_frequency",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate bump_left bump_stop_touch bump_stop_solid droop_stop \
         tire_to_frame tire_to_frame_least tire_to_fender_least",
    ],
    [
        "held_by ride_height drop fender_above_tire spring_at_droop stop_daylight",
        "camber inclination half_track track rim_edge tire_to_fender",
        "ride_frequency",
        "ride_height_driver ride_height_bed caster_ground caster toe scrub_radius trail_ground trail \
         roll_centre roll_centre_board \
         camber_rate toe_rate wheel_rate bump_left bump_ended_by bump_stop_touch bump_stop_solid \
         droop_stop tire_to_frame tire_to_frame_least tire_to_fender_least tire_to_fender_meet_at",
    ],
];

/// Each stage makes sure what it says and nothing else: what is in none of the lists waits for the last.
#[test]
fn each_stage_makes_sure_what_it_says() {
    for (kind, sure) in KINDS.into_iter().zip([BAR, COIL, RATE]) {
        for (spindle, sure) in [false, true].into_iter().zip(sure) {
            let trial = truck(kind, Some(Stage::Outside), spindle);
            let (figures, values) = (asked(), read(&trial, &asked()));
            // Each number is tried by itself, whatever the others are: one search tells of all stages.
            let mut open = trial;
            for field in Field::ALL.iter().copied() {
                open.truck.sources.set(field, Source::Assumed);
            }
            let found = marks(&open, figures.clone());
            let mut found_by: [Vec<String>; 5] = Default::default();
            for (figure, value) in figures.into_iter().zip(values) {
                let rests_on = found.rests_on(figure).numbers;
                let last = rests_on.iter().map(|field| Stage::of(field, kind).unwrap()).max();
                if value.is_some() {
                    found_by[last.unwrap_or(Stage::Outside) as usize].push(figure.key());
                }
            }
            for (stage, said) in Stage::ALL.into_iter().zip(sure) {
                let found = &found_by[stage as usize];
                assert_eq!(found.join(" "), said, "{kind:?}, spindle {spindle}, {stage:?}");
            }
            assert!(found_by[4].len() > 10, "the last stage has its own");
        }
    }
}

/// The same asked outright, of a truck of each kind on which a stage is done and those behind it are not: what a
/// list says is sure, and all else is not before the last stage.
#[test]
fn what_a_stage_has_made_sure_carries_no_mark() {
    for (kind, [_, sure]) in KINDS.into_iter().zip([BAR, COIL, RATE]) {
        for (at, done) in Stage::ALL.into_iter().enumerate() {
            let trial = truck(kind, Some(done), true);
            let (found, values) = (marks(&trial, asked()), read(&trial, &asked()));
            for (figure, value) in asked().into_iter().zip(values) {
                let key = figure.key();
                let is_said = sure.iter().take(at + 1).any(|list| list.split(' ').any(|one| one == key));
                let is_sure = found.rests_on(figure).is_empty();
                assert!(
                    value.is_none() || is_sure == (is_said || at == 4),
                    "{figure:?} of {kind:?} after {done:?}"
                );
            }
        }
    }
}

/// How far off a figure may be, as a stage leaves it, and how large it is: the root of the squares of what
/// each guess can do.
fn spread(trial: &Trial, figure: Figure) -> (f64, f64) {
    let number = |trial: &Trial| match read(trial, &[figure])[0] {
        Some(Value::Number(number)) => number,
        other => panic!("{figure:?} is {other:?}"),
    };
    let before = number(trial);
    let fitted = fit(&trial.truck, trial.overlay()).unwrap();
    let most = |guess: Guess| {
        let there = trial.alternatives(guess);
        there.iter().map(|there| (number(there) - before).abs()).fold(0.0_f64, f64::max)
    };
    let squares: f64 = Guesses::of(&fitted).iter().map(|guess| most(guess) * most(guess)).sum();
    (squares.sqrt(), before.abs())
}

/// What keeps its mark till fore and aft are measured is near enough to choose parts by: camber in bump to
/// a tenth of a degree an inch, the stop to a sixteenth, the fender to a quarter. Before, none of it is.
#[test]
fn the_arms_from_the_front_come_close_enough() {
    let degree_an_inch = 1_f64.to_radians() / 25.4;
    for (figure, enough) in [
        (Figure::CAMBER_GAIN, 0.1 * degree_an_inch),
        (Figure::BUMP_TOUCH, 25.4 / 16.0),
        (Figure::meets_at(Pair::TireFender), 25.4 / 4.0),
    ] {
        let of = |done| spread(&truck(SpringKind::TorsionBar, Some(done), true), figure).0;
        assert!(of(Stage::Arms) < enough, "{figure:?}: {}", of(Stage::Arms));
        assert!(of(Stage::Outside) > 4.0 * enough, "{figure:?}: {}", of(Stage::Outside));
    }
}

/// The spring's stage leaves its rate at the wheel, and what a turn of the bolt or half a coil less brings it
/// down, within a few percent; without it they are anybody's.
#[test]
fn the_spring_comes_close_enough() {
    let work = |kind: ChangeKind, by: f64| Some(kind.with(None, &[Some(by)]).unwrap());
    for (kind, change) in [
        (SpringKind::TorsionBar, None),
        (SpringKind::Coil, None),
        (SpringKind::WheelRate, None),
        (SpringKind::TorsionBar, work(ChangeKind::BarAdjuster, -4.0)),
        (SpringKind::Coil, work(ChangeKind::CutCoil, 0.5)),
    ] {
        let of = |done| {
            let mut trial = truck(kind, Some(done), false);
            trial.changes.extend(change);
            let figure = if change.is_some() { Figure::DROP } else { Figure::WHEEL_RATE };
            let (off, size) = spread(&trial, figure);
            off / size
        };
        assert!(of(Stage::Spring) < 0.05, "{kind:?} {change:?}: {}", of(Stage::Spring));
        assert!(of(Stage::Arms) > 0.15, "{kind:?} {change:?}: {}", of(Stage::Arms));
    }
}
