//! Readings that correct the points, against closed forms of the steering axis.
//!
//! The forms are those of any textbook on the front view and the side view of a steering axis
//! (SAE J670: caster, inclination and scrub radius from two points of the axis); they share nothing
//! with the studies.

use study::{
    COVERAGE, Clearances, Disagreement, Figure, Input, NoPointFit, Pair, PointFit, PointFitting, Spreading,
    Stance, Studied, Trial, Value, Values,
};
use truck::{Design, Edit, Field, Kind, ReadWith, Readable, Reading, Side, Source, Truck, Which, demo};
use yardstick::generate::Dice;
use yardstick::table::Table;

const SCRUB: Figure = Figure::SCRUB_RADIUS;

/// The studies.
fn studied(trial: &Trial, figures: &[Figure]) -> Values {
    let stance = Stance::laid(&trial.truck, trial.overlay());
    let Ok(stance) = stance else { return vec![None; figures.len()] };
    Studied::new(&stance.on(Side::Left), Clearances::PROBED).values(figures)
}

/// The same of a truck as it sits by closed forms: two balls, a wheel, a rail and a lip.
fn by_hand(trial: &Trial, figures: &[Figure]) -> Values {
    let of = |figure: &Figure| {
        let truck = &trial.truck;
        let told = figure.readable().and_then(|of| truck.readings.get(of, Side::Left)).map(Reading::answer);
        Some(Value::Number(told.unwrap_or_else(|| own_by_hand(truck, *figure))))
    };
    figures.iter().map(of).collect()
}

fn own_by_hand(truck: &Truck, figure: Figure) -> f64 {
    let (lower, upper) = (truck.points.lower.ball, truck.points.upper.ball);
    let up = upper - lower;
    let wheel = truck.points.wheel_centre;
    let rail = &truck.body;
    if figure == Figure::CASTER_GROUND {
        return libm::atan2(-up.x, up.z);
    }
    if figure == Figure::INCLINATION {
        return libm::atan2(-up.y, up.z);
    }
    if figure == Figure::CAMBER {
        return truck.points.camber_rad;
    }
    if figure == SCRUB {
        // The contact lies straight under a wheel without camber; with a little, out by its tangent.
        let contact = wheel.y - wheel.z * libm::tan(truck.points.camber_rad);
        return contact - (lower.y - lower.z * up.y / up.z);
    }
    if figure == Figure::FRAME_HEIGHT {
        return rail.rail.bottom_z_mm;
    }
    // Radius and lean of the demo's tire stand still, and its lip lies nearly over the tread.
    let above = rail.fender.lip_z_mm - wheel.z - 324.0;
    if figure == Figure::room(Pair::TireFender) {
        return above + 0.24;
    }
    assert_eq!(figure, Figure::FENDER_ABOVE);
    above
}

fn as_it_sits(design: &Design) -> Trial {
    Trial::new(&design.truck, design.overlay(Which::AsMeasured))
}

type Reader = fn(&Trial, &[Figure]) -> Values;

fn fit(design: &Design, read: Reader) -> PointFit {
    PointFitting::new(&as_it_sits(design), Side::Left).unwrap().finish(&read).unwrap()
}

fn spreads(design: &Design, figures: &[Figure], read: Reader) -> Spreading {
    let mut found = Spreading::new(vec![as_it_sits(design)], Side::Left, figures);
    while !found.step(&read) {}
    found
}

fn read_off(design: &Design, of: Readable, value: f64, tool: ReadWith) -> Design {
    design.edited(&Edit::Read(of, Side::Left, Some(Reading::by(of, value, tool)))).unwrap()
}

fn gauge(design: &Design, of: Readable, degrees: f64) -> Design {
    read_off(design, of, degrees.to_radians(), ReadWith::AngleGauge)
}

fn corrected(design: &Design, fit: &PointFit) -> Design {
    design.edited(&fit.edit(&design.truck)).unwrap()
}

/// By hand: two balls, each known to a quarter of an inch, 220 mm apart upright. A caster that reads
/// 1.42° more than they say tilts the axis by moving both alike, each by half of `220 tan` of it, but
/// for what the gauge's own tenth takes; which of the two was off is not known, and none is named.
#[test]
fn a_caster_moves_both_balls_and_names_none() {
    let design = gauge(&demo(), Readable::Caster, 3.5);
    let fit = fit(&design, studied);
    let of = |field| fit.moved.iter().find(|moved| moved.input == Input::Number(field)).unwrap();
    let (lower, upper) = (of(Field::LowerBallX), of(Field::UpperBallX));
    let (from, to) = (libm::tan(2.0826_f64.to_radians()), libm::tan(3.5_f64.to_radians()));
    let half = 220.0 * (to - from) / 2.0;
    assert!(
        (lower.by - half).abs() < 0.02 * half && (upper.by + half).abs() < 0.02 * half,
        "{lower:?} {upper:?}"
    );
    for moved in [lower, upper] {
        // Of two alike the one keeps 1/√2 of its spread.
        assert!((moved.tolerance_after / moved.tolerance_before - 0.5_f64.sqrt()).abs() < 0.01, "{moved:?}");
    }
    assert!(fit.moved.iter().all(|moved| !moved.is_known()), "{fit:?}");
    let [reading] = &fit.readings[..] else { panic!("{fit:?}") };
    assert!((reading.before.to_degrees() - 2.0826).abs() < 1e-3);
    assert!(
        (reading.after.to_degrees() - 3.5).abs() < 0.01
            && reading.standardized > 1.0
            && reading.standardized < 1.3
    );
    assert_eq!(fit.disagreement, None);
    // What is moved agrees with what was read, and is as sure as before of where it came from.
    let after = corrected(&design, &fit);
    let own = own_by_hand(&after.truck, Figure::CASTER_GROUND);
    assert!((own - reading.after).abs() < 1e-4);
    assert_eq!(after.truck.sources, design.truck.sources);
    let guessed = design.edited(&Edit::Source(Field::UpperBallX, Source::Assumed)).unwrap();
    let again = corrected(&guessed, &self::fit(&guessed, studied));
    assert_eq!(again.truck.sources.of(Field::UpperBallX), Source::Assumed);
}

/// By hand: of a rail's bottom known to a tape's width and read with the same tape one keeps 1/√2 of its
/// spread, and so where the truck stands no longer with the rail any higher, or any lower: what follows is
/// then had from the other way alone.
#[test]
fn what_is_gone_one_way_follows_the_other() {
    let value = |truck: &Truck| Field::RailBottomZ.get(truck).unwrap();
    let from = value(&demo().truck);
    let design = read_off(&demo(), Readable::FrameHeight, from, ReadWith::Tape);
    for gone in [1.0, -1.0] {
        let read = |trial: &Trial, figures: &[Figure]| match gone * (value(&trial.truck) - from) > 0.0 {
            true => vec![None; figures.len()],
            false => by_hand(trial, figures),
        };
        let fitting = PointFitting::new(&as_it_sits(&design), Side::Left).unwrap();
        let fit = fitting.finish(&read).unwrap();
        let rail = fit.moved.iter().find(|moved| moved.input == Input::Number(Field::RailBottomZ)).unwrap();
        let read_to = fit.readings[0].tolerance;
        let before = Field::RailBottomZ.tolerance(from);
        let after = before * read_to / libm::hypot(before, read_to);
        assert!((rail.tolerance_after - after).abs() < 1e-6, "{rail:?}, not {after}");
    }
}

/// At the fit the sum of squares is least: its slope by every number, by closed forms and small
/// differences that the fit does not use, is nothing.
#[test]
fn at_the_fit_the_sum_of_squares_is_least() {
    let readings = [
        (Readable::Caster, 3.2_f64.to_radians(), ReadWith::AngleGauge),
        (Readable::Inclination, 11.0_f64.to_radians(), ReadWith::AngleGauge),
        (Readable::FrameHeight, 303.0, ReadWith::Tape),
        (Readable::FenderAbove, 96.5, ReadWith::Rule),
    ];
    let design =
        readings.iter().fold(demo(), |design, (of, value, tool)| read_off(&design, *of, *value, *tool));
    let fit = fit(&design, by_hand);
    let mut truck = design.truck.clone();
    let fields: Vec<_> = fit
        .moved
        .iter()
        .map(|moved| match moved.input {
            Input::Number(field) => (field, moved),
            other => panic!("{other:?}"),
        })
        .collect();
    for (field, moved) in &fields {
        field.put(&mut truck, Some(field.get(&design.truck).unwrap() + moved.by));
    }
    let square = |value: f64| value * value;
    let sum = |truck: &Truck| {
        let prior = fields.iter().map(|(field, _)| {
            let measured = field.get(&design.truck).unwrap();
            square((field.get(truck).unwrap() - measured) / (field.tolerance(measured) / COVERAGE))
        });
        let read = design.truck.readings.iter().map(|(_, of, reading)| {
            let off = reading.answer() - own_by_hand(truck, Figure::of_reading(*of));
            square(off / (reading.answer_tolerance() / COVERAGE))
        });
        prior.sum::<f64>() + read.sum::<f64>()
    };
    let least = sum(&truck);
    assert!(least > 1.0 && least < sum(&design.truck), "{least}");
    for (field, moved) in &fields {
        let deviation = moved.tolerance_before / COVERAGE;
        let step = 1e-4 * deviation;
        let at = |by: f64| {
            let mut there = truck.clone();
            field.put(&mut there, Some(field.get(&truck).unwrap() + by));
            sum(&there)
        };
        // In deviations: a slope of 1e-3 is 5e-4 of one, half a micron of a tape's.
        let slope = (at(step) - at(-step)) / 2e-4;
        assert!(slope.abs() < 1e-3, "{field:?}: {slope}");
    }
    // Studies and closed forms come to the same points.
    let studied = self::fit(&design, studied);
    for moved in &studied.moved {
        let other = fit.moved.iter().find(|other| other.input == moved.input);
        let by = other.map_or(0.0, |other| other.by);
        assert!((moved.by - by).abs() < 0.02, "{moved:?} {by}");
    }
}

/// Source: `SciPy`'s `least_squares` on the same readings and tolerances (`tests/reference/scipy/fits.py`), which
/// knows nothing of a corner but the line through its balls. To a nanometre.
#[test]
fn points_are_those_of_another_solver() {
    let table = Table::read(include_str!("../../../../tests/reference/scipy/fits.csv"));
    assert!(table.len() >= 18, "{} rows left", table.len());
    for row in table.rows() {
        let design = gauge(&demo(), Readable::Caster, row.number("caster_deg"));
        let design = gauge(&design, Readable::Inclination, row.number("inclination_deg"));
        let fit = fit(&design, studied);
        for (field, name) in [
            (Field::LowerBallX, "lower_ball_x_mm"),
            (Field::LowerBallY, "lower_ball_y_mm"),
            (Field::LowerBallZ, "lower_ball_z_mm"),
            (Field::UpperBallX, "upper_ball_x_mm"),
            (Field::UpperBallY, "upper_ball_y_mm"),
            (Field::UpperBallZ, "upper_ball_z_mm"),
        ] {
            let moved = fit.moved.iter().find(|moved| moved.input == Input::Number(field)).unwrap();
            let found = field.get(&design.truck).unwrap() + moved.by;
            let off = found - row.number(name);
            assert!(
                off.abs() < 1e-6,
                "{field:?} at {}, {}: {off}",
                row.text("caster_deg"),
                row.text("inclination_deg")
            );
        }
    }
}

/// By hand, to first order: an inclination read to a tenth of a degree leaves of the scrub radius what
/// the lower ball's own place leaves, its height and the upper's sharing one lean.
#[test]
fn what_was_taken_in_narrows_what_shares_its_errors() {
    let before = spreads(&demo(), &[SCRUB, Figure::INCLINATION, Figure::CASTER_GROUND], studied);
    let (reading, left) = before.next_reading(0, SCRUB).unwrap();
    assert_eq!(reading, Readable::Inclination);
    // Two balls alike in y, the contact 228 mm under the lower: its own error along the axis that is known.
    let by_hand = 6.35 / 2_f64.sqrt();
    assert!((left - by_hand).abs() < 0.1 * by_hand, "{left}");
    assert_eq!(before.next_reading(0, Figure::CASTER_GROUND).unwrap().0, Readable::Caster);
    let design = gauge(&demo(), Readable::Inclination, 11.5);
    let untaken = spreads(&design, &[SCRUB], studied).spread(0, SCRUB).unwrap();
    assert!((untaken - before.spread(0, SCRUB).unwrap()).abs() < 1e-6, "the points do not say so yet");
    let fitted = corrected(&design, &fit(&design, studied));
    let taken = spreads(&fitted, &[SCRUB], studied).spread(0, SCRUB).unwrap();
    assert!((taken - left).abs() < 0.05 * left, "{taken} {left}");
}

fn normal(dice: &mut Dice) -> f64 {
    (-2.0 * libm::log(1.0 - dice.roll())).sqrt() * libm::cos(std::f64::consts::TAU * dice.roll())
}

/// A truck as a tape has it, whose true numbers are the demo's.
fn taped(dice: &mut Dice) -> Design {
    measured(|tolerance| normal(dice) * tolerance / COVERAGE)
}

/// The demo's truck with every length and angle off by what `off` makes of its tolerance.
fn measured(mut off: impl FnMut(f64) -> f64) -> Design {
    let mut design = demo();
    for field in Field::ALL.iter().copied() {
        let Some(value) = field.get(&design.truck) else { continue };
        if field.kind() == Kind::Length || field.kind() == Kind::Angle {
            field.put(&mut design.truck, Some(value + off(field.tolerance(value))));
        }
    }
    design
}

/// The share of trucks, in a hundred, of which what is told of caster, inclination and scrub radius holds the
/// truth: as measured, and with two angles read and taken in.
fn held(trials: u32, dice: &mut Dice, truck: impl Fn(&mut Dice) -> Design) -> [[f64; 3]; 2] {
    let asked = [Figure::CASTER_GROUND, Figure::INCLINATION, SCRUB];
    let truth = asked.map(|figure| own_by_hand(&demo().truck, figure));
    let mut held = [[0.0; 3]; 2];
    for _ in 0..trials {
        let before = truck(dice);
        let mut read = before.clone();
        for (at, of) in [Readable::Caster, Readable::Inclination].into_iter().enumerate() {
            let value = truth[at] + normal(dice) * 0.1_f64.to_radians() / COVERAGE;
            read = gauge(&read, of, value.to_degrees());
        }
        let after = corrected(&read, &fit(&read, by_hand));
        for (stage, design) in [before, after].iter().enumerate() {
            let found = spreads(design, &asked, by_hand);
            let told = by_hand(&as_it_sits(design), &asked);
            for (at, figure) in asked.into_iter().enumerate() {
                let Some(Value::Number(told)) = told[at] else { panic!("{figure:?}") };
                if (told - truth[at]).abs() <= found.spread(0, figure).unwrap() {
                    held[stage][at] += 100.0 / f64::from(trials);
                }
            }
        }
    }
    held
}

/// 2,000 trucks whose tapes err by their tolerances: what is told holds the truth 93 to 97 times in 100.
#[test]
fn spreads_hold_the_truth_as_often_as_they_say() {
    let found = held(2000, &mut Dice::of(41), taped);
    assert!(found.iter().flatten().all(|share| (93.0..=97.0).contains(share)), "{found:?}");
}

/// Errors of another shape: anything within a tolerance as likely as anything else, with the deviation that is
/// reckoned with. No error is then beyond 1.73 deviations, so that sums of few are held more often, never less.
#[test]
fn errors_that_end_at_the_tolerance_are_held_no_less() {
    let flat = |dice: &mut Dice| {
        measured(|tolerance| dice.between(-1.0, 1.0) * tolerance / COVERAGE * 3.0_f64.sqrt())
    };
    let found = held(500, &mut Dice::of(42), flat);
    assert!(found.iter().flatten().all(|share| *share >= 93.0), "{found:?}");
}

/// Errors that no tolerance reckons with: a floor that falls by an inch over the track tilts every point by as
/// much, and what is told without a reading holds the truth less often. Two angles that were read, on turning
/// plates that stand level, put back what they say; the scrub radius, which nobody read, stays off.
#[test]
fn a_floor_that_falls_is_put_right_where_something_was_read() {
    let fall_rad = libm::atan(25.4 / 1404.0);
    let tilted = |dice: &mut Dice| {
        let mut design = taped(dice);
        let points = &mut design.truck.points;
        for ball in [&mut points.lower.ball, &mut points.upper.ball, &mut points.wheel_centre] {
            (ball.y, ball.z) = (ball.y - ball.z * fall_rad, ball.z + ball.y * fall_rad);
        }
        design
    };
    let [before, after] = held(500, &mut Dice::of(43), tilted);
    let sound = held(500, &mut Dice::of(43), taped);
    // By hand: 1.04° of inclination is more than half of the 1.65° that two balls in their boots leave of it.
    assert!(before[1] < sound[0][1] - 5.0, "{before:?} {sound:?}");
    assert!(after[0] >= 93.0 && after[1] >= 93.0, "{after:?}");
    assert!(after[2] < sound[1][2], "{after:?} {sound:?}");
}

/// One coordinate of a ball that is three tolerances off, every other number as good as its tape, two angles read:
/// which number was off is not known of readings that several share, and a wrong one is named at most twice in
/// a hundred.
#[test]
fn of_one_wrong_coordinate_no_other_is_accused() {
    let mut dice = Dice::of(17);
    let keys =
        ["lower_ball_x", "lower_ball_y", "lower_ball_z", "upper_ball_x", "upper_ball_y", "upper_ball_z"];
    let truth = [Figure::CASTER_GROUND, Figure::INCLINATION].map(|figure| own_by_hand(&demo().truck, figure));
    let (mut wrong, mut moved, trials) = (0, 0, 240);
    for trial in 0..trials {
        let planted = Field::from_key(keys[trial % keys.len()]).unwrap();
        let mut design = taped(&mut dice);
        let value = planted.get(&demo().truck).unwrap();
        let way = if dice.roll() < 0.5 { -3.0 } else { 3.0 };
        planted.put(&mut design.truck, Some(value + way * planted.tolerance(value)));
        for (of, value) in [Readable::Caster, Readable::Inclination].into_iter().zip(truth) {
            let value = value + normal(&mut dice) * 0.1_f64.to_radians() / COVERAGE;
            design = gauge(&design, of, value.to_degrees());
        }
        let found = fit(&design, by_hand);
        moved += found.moved.iter().filter(|moved| moved.input == Input::Number(planted)).count();
        wrong += usize::from(
            found.moved.iter().any(|moved| moved.is_known() && moved.input != Input::Number(planted)),
        );
    }
    assert!(100 * wrong <= 2 * trials, "{wrong} of {trials}");
    assert!(moved > trials / 2, "the wrong one moves along: {moved} of {trials}");
}

/// A wrong reading is named where another one says what it should have been, and where only the tape
/// speaks against it nothing is named; what is right is named at most twice in a hundred.
#[test]
fn a_blunder_is_named_where_another_reading_separates_it() {
    let mut dice = Dice::of(7);
    let (mut named, mut wrong) = (0, 0);
    for _ in 0..400 {
        let mut design = taped(&mut dice);
        // Lip over tire, twice, by different ways: the second is an inch off.
        design = read_off(&design, Readable::FenderAbove, 98.0 + 0.4 * normal(&mut dice), ReadWith::Rule);
        design = read_off(&design, Readable::TireFender, 98.24 + 25.4, ReadWith::Rule);
        design = gauge(&design, Readable::Caster, 2.0826 + 0.05 * normal(&mut dice));
        match fit(&design, by_hand).disagreement {
            Some(Disagreement::Of(Readable::TireFender)) => named += 1,
            Some(Disagreement::Of(_)) => wrong += 1,
            _ => {}
        }
    }
    assert!(named >= 380 && wrong <= 8, "{named} {wrong}");
    // A caster six degrees off, against the tape alone: the balls may be off as well.
    let alone = fit(&gauge(&demo(), Readable::Caster, 8.1), studied);
    assert_eq!(alone.disagreement, Some(Disagreement::Among));
    // One sweep 2.3° off passes: a tape knows no better.
    assert_eq!(fit(&gauge(&demo(), Readable::Caster, 4.4), studied).disagreement, None);
}

/// What cannot be so is known before anything is moved: an inch between two readings of one gap, of which either may
/// be wrong as far as the tape goes; a caster six degrees off is against the tape alone, and nothing else is doubted.
/// Where nothing contradicts nothing is.
#[test]
fn what_cannot_be_so_is_known_before_the_points_are_moved() {
    let gap = Figure::FENDER_ABOVE;
    let other = Figure::room(Pair::TireFender);
    let asked = [gap, other, Figure::CASTER_GROUND, SCRUB];
    let doubted = |design: &Design| {
        let found = spreads(design, &asked, by_hand);
        (found.disagreement(), asked.map(|figure| found.is_doubtful(figure)))
    };
    let sound = gauge(&demo(), Readable::Caster, 2.2);
    assert_eq!(doubted(&sound), (None, [false; 4]));
    let sound = read_off(&sound, Readable::FenderAbove, 98.2, ReadWith::Rule);
    let torn = read_off(&sound, Readable::TireFender, 98.24 + 25.4, ReadWith::Rule);
    assert_eq!(doubted(&torn), (Some(Disagreement::Of(Readable::TireFender)), [false, true, false, false]));
    let off = gauge(&demo(), Readable::Caster, 8.1);
    assert_eq!(doubted(&off), (Some(Disagreement::Among), [false, false, true, false]));
    // A right that nobody measured may differ from the left, and nothing contradicts what was read there.
    let read_right = Edit::Read(
        Readable::Caster,
        Side::Right,
        Some(Reading::by(Readable::Caster, 8.1_f64.to_radians(), ReadWith::AngleGauge)),
    );
    let right = demo().edited(&read_right).unwrap();
    let mut found = Spreading::new(vec![as_it_sits(&right)], Side::Right, &asked);
    while !found.step(&by_hand) {}
    assert_eq!((found.disagreement(), found.is_doubtful(Figure::CASTER_GROUND)), (None, false));
    // As a fit says it of each.
    for design in [&sound, &torn, &off] {
        assert_eq!(doubted(design).0, fit(design, by_hand).disagreement);
    }
}

/// By hand: of two readings of one gap, each known to a share 1/n of what the tape says of it, either is expected
/// within √(1 + n²/(1 + n²)) of its own tolerance by the other and within √(1 + n²) by the tape alone. Twice as
/// well in the square it is from n² = 1 + √2 on: then the one that is wrong is named, else only that some is.
#[test]
fn a_reading_is_wrong_where_another_says_it_twice_as_well_as_the_tape() {
    let by_tape = spreads(&demo(), &[Figure::FENDER_ABOVE], by_hand).spread(0, Figure::FENDER_ABOVE).unwrap();
    let named = |n_squared: f64| {
        let tolerance = by_tape / n_squared.sqrt();
        let own = own_by_hand(&demo().truck, Figure::FENDER_ABOVE);
        let mut design = demo();
        for (of, value) in [(Readable::FenderAbove, own), (Readable::TireFender, own + 0.24 + 10.0 * by_tape)]
        {
            let reading = Reading { tolerance, ..Reading::by(of, value, ReadWith::Rule) };
            design = design.edited(&Edit::Read(of, Side::Left, Some(reading))).unwrap();
        }
        fit(&design, by_hand).disagreement
    };
    assert!(matches!(named(2.5), Some(Disagreement::Of(_))));
    assert_eq!(named(2.3), Some(Disagreement::Among));
}

#[test]
fn where_nothing_was_read_nothing_is_fitted() {
    let refused = |design: &Design| PointFitting::new(&as_it_sits(design), Side::Left).err();
    assert_eq!(refused(&demo()), Some(NoPointFit::NothingRead));
    // Droop is ended by the first of several things: no slope says anything of it.
    let droop = read_off(&demo(), Readable::Droop, 70.0, ReadWith::Tape);
    assert_eq!(refused(&droop), Some(NoPointFit::NothingRead));
    let right = Edit::Read(
        Readable::Camber,
        Side::Right,
        Some(Reading::by(Readable::Camber, 0.01, ReadWith::AngleGauge)),
    );
    assert_eq!(refused(&demo().edited(&right).unwrap()), Some(NoPointFit::NothingRead));
}
