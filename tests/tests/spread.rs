//! How far off answers may be: the slopes of the studies against draws of whole trucks that share
//! nothing with them.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "rolls of dice, each far below what a usize holds"
)]

use reference_tests::generate::Dice;
use study::{
    Clearances, Draws, Figure, Guesses, Input, Judged, LeftRight, Pair, Quantity, Sort, Spreading, Stance,
    Studied, Trial, Value, Values,
};
use truck::{
    Change, ChangeKind, Datum, Design, DroppedSpindle, Edit, Field, Kind, ProposalId, ReadWith, Readable,
    Reading, Side, Source, SpringKind, Which, demo,
};

/// A truck as it sits, and its plans.
fn trials(design: &Design) -> Vec<Trial> {
    let plans = design.proposals.iter().map(|proposal| Which::from(proposal.id));
    let all = std::iter::once(Which::AsMeasured).chain(plans);
    all.map(|which| Trial::new(&design.truck, design.overlay(which))).collect()
}

fn read(side: Side) -> impl Fn(&Trial, &[Figure]) -> Values {
    move |trial, figures| {
        let stance = Stance::laid(&trial.truck, trial.overlay());
        let Ok(stance) = stance else { return vec![None; figures.len()] };
        Studied::new(&stance.on(side), Clearances::PROBED).values(figures)
    }
}

fn spread(design: &Design, side: Side, figures: &[Figure]) -> Spreading {
    let mut spreading = Spreading::new(trials(design), side, figures);
    let mut steps = 0;
    while !spreading.step(&read(side)) {
        steps += 1;
        assert!(steps < 10_000, "it has an end");
    }
    spreading
}

fn near(value: Option<f64>, wanted: f64, within: f64) {
    assert!(value.is_some_and(|value| (value - wanted).abs() <= within), "{value:?}, not {wanted}");
}

const JOINT: Figure = Figure::room(Pair::RimLowerJoint);

/// By hand, from the tolerances of a tape (a sixteenth of an inch) and of a ball in its boot (a
/// quarter), common practice. The demo's balls are 220 mm apart upright, so that its caster is off
/// by atan(6.35 √2 / 220) = 2.337° and what the spindle changes in it by nothing; a frame comes down
/// by exactly the spindle's drop.
#[test]
fn a_tape_knows_changes_and_not_casters() {
    let asked = [
        Figure::FRAME_HEIGHT,
        Figure::CASTER_GROUND,
        Figure::INCLINATION,
        Figure::SCRUB_RADIUS,
        Figure::ROLL_CENTRE,
        JOINT,
    ];
    let found = spread(&demo(), Side::Left, &asked);
    let degree = 1_f64.to_radians();
    // The floor under it is known to an eighth: common practice, no source.
    near(found.spread(0, Figure::FRAME_HEIGHT), libm::hypot(1.5875, 3.175), 1e-9);
    near(found.spread_between(1, 0, Figure::FRAME_HEIGHT), 0.0, 1e-9);
    let by_hand = libm::atan(6.35 * 2_f64.sqrt() / 220.0);
    near(found.spread(0, Figure::CASTER_GROUND), by_hand, 0.01 * degree);
    near(found.spread_between(1, 0, Figure::CASTER_GROUND), 0.0, 0.001 * degree);
    near(found.spread(0, Figure::INCLINATION), by_hand, 0.05 * degree);
    // The contact lies 228 mm under the lower ball, of whose error it has 1 + 228/220, and of the
    // upper's 228/220; heights and the wheel's centre add little.
    let reach = 228.0 / 220.0;
    let scrub = libm::hypot(6.35 * (1.0 + reach), 6.35 * reach);
    near(found.spread(0, Figure::SCRUB_RADIUS), scrub, 0.35);
    // A roll center's height is off by an inch, and whether it rises or falls is not known.
    assert!(found.spread(0, Figure::ROLL_CENTRE).unwrap() > 25.4);
    near(found.spread_between(1, 0, Figure::ROLL_CENTRE), 5.5, 0.05);
    // The joint's own height, its rim's radius and the wheel's center.
    let joint = found.spread(0, JOINT).unwrap();
    assert!((6.35..7.1).contains(&joint), "{joint}");
    near(found.spread_between(1, 0, JOINT), 0.1, 0.05);
    // What makes it so is said by its name, the greatest first.
    let causes = found.causes(0, Figure::CASTER_GROUND);
    assert!(causes[0].1 >= causes[1].1 && causes[1].1 > 0.45, "{causes:?}");
    let mut named = [causes[0].0, causes[1].0];
    named.sort_by_key(|input| format!("{input:?}"));
    assert_eq!(named, [Input::Number(Field::LowerBallX), Input::Number(Field::UpperBallX)]);
}

/// The truck of `at`: another spring, other points, a plan of other parts.
fn sample(dice: &mut Dice, at: usize) -> Design {
    let kind = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate][at % 3];
    let mut design = demo().edited(&Edit::SpringKind(kind)).unwrap();
    for field in Field::ALL.iter().copied() {
        let Some(value) = field.get(&design.truck) else { continue };
        if field.kind() == Kind::Length && value.abs() > 60.0 {
            let value = Some(value + dice.between(-6.0, 6.0));
            design = design.edited(&Edit::Measure { field, value }).unwrap_or(design);
        }
    }
    let id = ProposalId(0);
    let spindle = Change::DroppedSpindle(DroppedSpindle {
        drop_mm: dice.between(25.0, 60.0),
        ..DroppedSpindle::default()
    });
    design = design.edited(&Edit::Set(id, spindle)).unwrap();
    design.edited(&Edit::ChangeSource(id, (ChangeKind::DroppedSpindle, None, 0), Source::Measured)).unwrap()
}

/// Draws of a truck.
const DRAWS: usize = 400;

/// The normal distribution's middles of so many parts that are as likely as each other, by halving.
fn normal_parts() -> Vec<f64> {
    let at = |part: usize| {
        let share =
            (f64::from(u32::try_from(part).unwrap()) + 0.5) / f64::from(u32::try_from(DRAWS).unwrap());
        let (mut low, mut high) = (-6.0, 6.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            let under = f64::midpoint(1.0, libm::erf(middle / std::f64::consts::SQRT_2));
            if under < share { low = middle } else { high = middle }
        }
        low
    };
    (0..DRAWS).map(at).collect()
}

fn mean_product(one: &[f64], other: &[f64]) -> f64 {
    let sum: f64 = one.iter().zip(other).map(|(one, other)| one * other).sum();
    sum / f64::from(u32::try_from(one.len()).unwrap())
}

/// Trucks as they might truly be: each number off by its tolerance, of which two deviations are meant.
///
/// # Source
/// Latin hypercube sampling (1979): of each number every part of its distribution
/// is drawn once, in an order of its own; each made square to those before (Gram and Schmidt), so that few draws
/// know a deviation well.
fn drawn(design: &Design, dice: &mut Dice) -> Vec<Vec<Trial>> {
    let parts = normal_parts();
    let mut all = vec![trials(design); DRAWS];
    let mut before: Vec<Vec<f64>> = Vec::new();
    let mut shuffled = || {
        let mut parts = parts.clone();
        for last in (1..parts.len()).rev() {
            let other = dice.roll() * f64::from(u32::try_from(last + 1).unwrap());
            parts.swap(last, (other.floor() as usize).min(last));
        }
        // What two numbers have in common by chance would be taken for a part of the spread.
        for other in &before {
            let common = mean_product(&parts, other);
            parts.iter_mut().zip(other).for_each(|(part, other)| *part -= common * other);
        }
        let size = mean_product(&parts, &parts).sqrt();
        parts.iter_mut().for_each(|part| *part /= size);
        before.push(parts.clone());
        parts
    };
    for field in Field::ALL.iter().copied() {
        let Some(value) = field.get(&design.truck) else { continue };
        for (trucks, part) in all.iter_mut().zip(shuffled()) {
            for trial in trucks {
                field.put(&mut trial.truck, Some(value + part * field.tolerance(value) / 2.0));
            }
        }
    }
    for (field, value) in design.truck.right.iter() {
        for (trucks, part) in all.iter_mut().zip(shuffled()) {
            for trial in trucks {
                trial.truck.right.put(field, value + part * field.tolerance(value) / 2.0);
            }
        }
    }
    // The floor at either side and the middle that heights and widths were measured from, each to an eighth of an
    // inch: a middle that lies farther to the left makes the left's widths less and the right's more.
    let lines = [(Datum::Ground, 1.0, 0.0), (Datum::Ground, 0.0, 1.0), (Datum::Centreline, 1.0, -1.0)];
    for (line, left, right) in lines {
        for (trucks, part) in all.iter_mut().zip(shuffled()) {
            let by = part * 3.175 / 2.0;
            for field in Field::ALL.iter().copied().filter(|field| field.datum() == Some(line)) {
                for trial in &mut *trucks {
                    if let Some(value) = field.get(&trial.truck) {
                        field.put(&mut trial.truck, Some(value + left * by));
                    }
                    if let Some(value) = trial.truck.right.get(field) {
                        trial.truck.right.put(field, value + right * by);
                    }
                }
            }
        }
    }
    for (trucks, part) in all.iter_mut().zip(shuffled()) {
        for change in &mut trucks[1].changes {
            if let Change::DroppedSpindle(spindle) = change {
                // The drop was measured by a tape.
                spindle.drop_mm += part * 1.5875 / 2.0;
            }
        }
    }
    all
}

/// Figures of the corner, its spring and the room beside its wheel that follow smoothly.
const SMOOTH: [Figure; 20] = [
    Figure::ROLL_CENTRE,
    Figure::lock_right_wheel(Side::Left),
    Figure::lock_circle(Side::Right),
    Figure::room(Pair::TireFender),
    Figure::FRAME_HEIGHT,
    Figure::FENDER_ABOVE,
    Figure::CAMBER,
    Figure::CASTER_GROUND,
    Figure::INCLINATION,
    Figure::TOE,
    Figure::SCRUB_RADIUS,
    Figure::TRAIL_GROUND,
    Figure::TRACK,
    Figure::CAMBER_GAIN,
    Figure::BUMP_STEER,
    Figure::RIDE_FREQUENCY,
    Figure::BUMP_SOLID,
    Figure::STOP_DAYLIGHT,
    JOINT,
    Figure::room(Pair::TireRail),
];

/// A spring's rate goes by the fourth power of its wire, and what of a rail is nearest to an arm may be
/// another edge: what bends a little.
const BENT: [Figure; 3] =
    [Figure::HEIGHT_WITH_DRIVER, Figure::HEIGHT_WITH_BED, Figure::room(Pair::UpperArmRail)];

/// Ten trucks, as they sit, with a spindle, and what it changes: two deviations of the draws against
/// the slopes, within a twentieth, and a tenth of what bends.
#[test]
fn slopes_are_within_a_twentieth_of_draws() {
    let mut dice = Dice::of(23);
    let figures: Vec<_> = SMOOTH.into_iter().chain(BENT).collect();
    let mut compared = Compared::default();
    for at in 0..10 {
        compared.look_at(&sample(&mut dice, at), &figures, &mut dice);
    }
    assert_eq!(compared.asked, 10 * 23 * 3);
    assert!(compared.off.is_empty(), "{:#?}", compared.off);
}

/// Ten trucks of which the right was measured too: left against right, as it sits, with a spindle, and what that
/// changes.
#[test]
fn left_against_right_is_within_a_twentieth_of_draws() {
    let mut dice = Dice::of(29);
    let figures = LeftRight::QUANTITIES.map(Figure::together);
    let mut compared = Compared::default();
    for at in 0..10 {
        let left = sample(&mut dice, at);
        let mut own = Vec::new();
        for field in Field::ALL.iter().copied().filter(|field| field.datum().is_some()) {
            // Some were measured at the left alone.
            if dice.roll() < 0.7 {
                own.extend(
                    field.get(&left.truck).map(|value| (field, Some(value + dice.between(-6.0, 6.0)))),
                );
            }
        }
        own.push((Field::Camber, Some(dice.between(-0.02, 0.02))));
        own.push((Field::Toe, Some(dice.between(-0.01, 0.01))));
        own.retain(|(field, _)| field.is_sided());
        let both = left.edited(&Edit::MeasureRight(own)).unwrap();
        compared.look_at(&both, &figures, &mut dice);
    }
    assert_eq!(compared.asked, 10 * 7 * 3);
    assert!(compared.off.is_empty(), "{:#?}", compared.off);
}

/// Slopes held against draws.
#[derive(Default)]
struct Compared {
    asked: usize,
    off: Vec<String>,
}

impl Compared {
    fn look_at(&mut self, design: &Design, figures: &[Figure], dice: &mut Dice) {
        let found = spread(design, Side::Left, figures);
        let number = |value: Option<Value>| match value {
            Some(Value::Number(number)) => number,
            _ => f64::NAN,
        };
        let numbers =
            |trial: &Trial| read(Side::Left)(trial, figures).into_iter().map(number).collect::<Vec<_>>();
        let values: Vec<Vec<Vec<f64>>> =
            drawn(design, dice).iter().map(|trucks| trucks.iter().map(numbers).collect()).collect();
        for (place, figure) in figures.iter().copied().enumerate() {
            let slopes =
                [found.spread(0, figure), found.spread(1, figure), found.spread_between(1, 0, figure)];
            let bases: [fn(&[f64; 2]) -> f64; 3] = [|both| both[0], |both| both[1], |both| both[1] - both[0]];
            for (slope, basis) in slopes.into_iter().zip(bases) {
                let list = values.iter().map(|trucks| basis(&[trucks[0][place], trucks[1][place]]));
                let count = f64::from(u32::try_from(DRAWS).unwrap());
                let mean = list.clone().sum::<f64>() / count;
                let two = 2.0 * (list.map(|value| (value - mean).powi(2)).sum::<f64>() / count).sqrt();
                let slope = slope.unwrap();
                // What nobody would read is nothing, whatever its share.
                let step = match figure.sort() {
                    Sort::Length | Sort::Circle => 0.01,
                    Sort::Frequency => 1e-4,
                    _ => 1e-4_f64.to_radians(),
                };
                let share = if BENT.contains(&figure) { 0.1 } else { 0.05 };
                self.asked += 1;
                if slope.is_nan() || two.is_nan() || (slope - two).abs() > share * two + step {
                    self.off.push(format!("{} {figure:?}: {slope} by slopes, {two} by draws", self.asked));
                }
            }
        }
    }
}

fn with(edits: &[Edit]) -> Design {
    edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap())
}

/// By hand: an answer that was read off the truck is as good as its reading, and with a part what the
/// part changes comes on top; an answer that was not read stays as it was.
#[test]
fn what_was_read_is_as_good_as_its_tool() {
    let gauge = Reading::by(Readable::Caster, 2_f64.to_radians(), ReadWith::AngleGauge);
    let shank = Reading::by(Readable::RimLowerJoint, 58.0, ReadWith::DrillShank);
    let read = |of, reading| Edit::Read(of, Side::Left, Some(reading));
    let design = with(&[read(Readable::Caster, gauge), read(Readable::RimLowerJoint, shank)]);
    let asked = [Figure::CASTER_GROUND, JOINT, Figure::SCRUB_RADIUS];
    let (found, before) = (spread(&design, Side::Left, &asked), spread(&demo(), Side::Left, &asked));
    // The points say so too, and tape and tool together are a little better than the tool.
    let both = |tool: f64, figure| {
        let tape = before.spread(0, figure).unwrap();
        tool * tape / libm::hypot(tool, tape)
    };
    let caster = both(0.1_f64.to_radians(), Figure::CASTER_GROUND);
    near(found.spread(0, Figure::CASTER_GROUND), caster, 1e-4 * caster);
    near(found.spread(1, Figure::CASTER_GROUND), caster, 1e-3 * caster);
    near(found.spread(0, JOINT), both(0.4, JOINT), 1e-3);
    let change = before.spread_between(1, 0, JOINT).unwrap();
    near(found.spread(1, JOINT), libm::hypot(both(0.4, JOINT), change), 0.02);
    near(found.spread_between(1, 0, JOINT), change, 0.02);
    // What leans the other way shares little with either.
    near(found.spread(0, Figure::SCRUB_RADIUS), before.spread(0, Figure::SCRUB_RADIUS).unwrap(), 0.5);
    // What was read at the left says nothing of the right.
    let right = spread(&design, Side::Right, &asked);
    near(right.spread(0, JOINT), before.spread(0, JOINT).unwrap(), 1e-9);
}

/// By hand: of a guess anything within its width is as likely, an inch either way of a lip's height; two
/// deviations of that are 25.4 × 2/√3.
#[test]
fn a_guess_is_as_far_off_as_trucks_of_a_class_differ() {
    let design = with(&[Edit::Source(Field::FenderZ, Source::Assumed)]);
    let found = spread(&design, Side::Left, &[Figure::FENDER_ABOVE]);
    // What nobody measured was measured from no floor: the wheel's centre moves on it alone.
    let by_tape = libm::hypot(1.5875, 3.175);
    near(found.spread(0, Figure::FENDER_ABOVE), libm::hypot(by_tape, 25.4 * 2.0 / 3_f64.sqrt()), 1e-3);
    // A part's own number is taken at its word; measured it is as good as a tape, guessed a quarter.
    let drop = |source| {
        let source = Edit::ChangeSource(ProposalId(0), (ChangeKind::DroppedSpindle, None, 0), source);
        spread(&with(&[source]), Side::Left, &[Figure::FRAME_HEIGHT]).spread_between(
            1,
            0,
            Figure::FRAME_HEIGHT,
        )
    };
    near(drop(Source::Typed), 0.0, 1e-9);
    near(drop(Source::Measured), 1.5875, 1e-3);
    near(drop(Source::Assumed), 12.7 * 2.0 / 3_f64.sqrt(), 1e-3);
}

/// By hand: sides that share a number share its error, and cross camber is not off by any of it; each
/// measured on its own, by both.
#[test]
fn what_both_sides_share_is_no_difference_of_them() {
    let cross = Figure::all().find(|figure| figure.key() == "cross_camber").unwrap();
    near(spread(&demo(), Side::Left, &[cross]).spread(0, cross), 0.0, 1e-12);
    let own = Edit::MeasureRight(vec![(Field::Camber, Some(0.5_f64.to_radians()))]);
    let found = spread(&with(&[own]), Side::Left, &[cross]);
    near(found.spread(0, cross), 2_f64.sqrt() * 0.1_f64.to_radians(), 1e-6);
}

/// By hand: a floor known to an eighth lies under every height of its side, and under what was read there by the
/// same tape; what is read between two heights has none of it. Which side is higher is off by the floor at both
/// sides. A middle that is off is in the half of the track, once, and in the track twice; measured on both sides
/// it is in neither's sum.
#[test]
fn what_was_measured_from_one_line_is_off_together() {
    let (tape, line) = (1.5875, 3.175);
    let height = |design: &Design| spread(design, Side::Left, &[Figure::FRAME_HEIGHT]);
    let gap = spread(&demo(), Side::Left, &[Figure::FENDER_ABOVE]).spread(0, Figure::FENDER_ABOVE);
    near(gap, 2_f64.sqrt() * tape, 0.01);
    let by_tape = Reading::by(Readable::FrameHeight, 300.0, ReadWith::Tape);
    let read = with(&[Edit::Read(Readable::FrameHeight, Side::Left, Some(by_tape))]);
    // Two readings by one tape halve its variance, and the floor is the same.
    let both = libm::hypot(tape / 2_f64.sqrt(), line);
    near(height(&read).spread(0, Figure::FRAME_HEIGHT), both, 0.01);
    near(height(&read).spread_between(1, 0, Figure::FRAME_HEIGHT), 0.0, 1e-3);
    // Reading it by the same tape is not advised: the floor would be left. Of a rail that nobody measured it is, and
    // then leaves both.
    assert_eq!(height(&demo()).next_reading(0, Figure::FRAME_HEIGHT), None);
    let guessed = with(&[Edit::Source(Field::RailBottomZ, Source::Assumed)]);
    let (of, left) = height(&guessed).next_reading(0, Figure::FRAME_HEIGHT).unwrap();
    assert_eq!(of, Readable::FrameHeight);
    let guess = 25.4 * 2.0 / 3_f64.sqrt();
    // A guess of an inch beside a tape and a floor: nearly all that is left is theirs.
    let by_both = libm::hypot(tape, line);
    near(Some(left), guess * by_both / libm::hypot(guess, by_both), 0.01);
    let read = guessed.edited(&Edit::Read(Readable::FrameHeight, Side::Left, Some(by_tape))).unwrap();
    near(height(&read).spread(0, Figure::FRAME_HEIGHT), guess * by_both / libm::hypot(guess, by_both), 0.05);
    let named = |key: &str| Figure::all().find(|figure| figure.key() == key).unwrap();
    let cross = named("left_higher");
    let own = with(&[Edit::MeasureRight(vec![(Field::RailBottomZ, Some(300.0))])]);
    near(spread(&own, Side::Left, &[cross]).spread(0, cross), 2_f64.sqrt() * libm::hypot(tape, line), 1e-3);
    let half = spread(&demo(), Side::Left, &[Figure::HALF_TRACK]);
    // The contact lies under the wheel's centre but for a tenth of a degree of camber.
    let contact = Field::WheelCentreZ.get(&demo().truck).unwrap() * 0.1_f64.to_radians();
    let of_one = libm::hypot(libm::hypot(tape, contact), line);
    near(half.spread(0, Figure::HALF_TRACK), of_one, 0.01);
    let both = Figure::together(Quantity::HalfTrack);
    let track = |design: &Design| spread(design, Side::Left, &[both]).spread(0, both);
    near(track(&demo()), 2.0 * of_one, 0.02);
    let wheel = Field::WheelCentreY.get(&demo().truck).unwrap();
    let own = with(&[Edit::MeasureRight(vec![(Field::WheelCentreY, Some(wheel))])]);
    near(track(&own), libm::hypot(2_f64.sqrt() * tape, 2.0 * contact), 0.02);
}

/// What ends the travel jumps: no slope is given of it, and 400 draws give ends that 4,000 others give
/// within a tenth of what lies between them. With two inches of spindle a rim may already meet what is
/// beside it, so that nothing may be left of the travel.
#[test]
fn what_switches_is_drawn() {
    let asked = [Figure::BUMP, Figure::least_room(Pair::RimSteeringArm), Figure::BUMP_ENDED_BY];
    let slopes = spread(&demo(), Side::Left, &asked);
    assert!(asked.iter().all(|figure| slopes.spread(1, *figure).is_none()));
    let draws = |seed, count| {
        let mut draws = Draws::new(trials(&demo()), Side::Left, &asked, seed);
        while draws.count() < count {
            draws.step(&read(Side::Left));
        }
        draws
    };
    let (few, many) = (draws(1, Draws::ENOUGH), draws(99, 4000));
    for figure in &asked[..2] {
        for truck in 0..2 {
            let (one, two) = (few.range(truck, *figure).unwrap(), many.range(truck, *figure).unwrap());
            let tenth = 0.1 * (two.high - two.low);
            assert!(
                (one.low - two.low).abs() < tenth && (one.high - two.high).abs() < tenth,
                "{one:?} {two:?}"
            );
            assert!((one.found - 1.0).abs() < 1e-12);
        }
    }
    let range = many.range(1, Figure::BUMP).unwrap();
    assert!(range.low < 1.0 && range.high > 45.0, "{range:?}");
    // Between the ends lies what is told.
    let told = read(Side::Left)(&trials(&demo())[1], &[Figure::BUMP])[0];
    assert!(matches!(told, Some(Value::Number(mm)) if range.low < mm && mm < range.high));
    let words = many.words(1, Figure::BUMP_ENDED_BY);
    assert_eq!(words[0].0, "tire to fender");
    assert!((words.iter().map(|(_, share)| share).sum::<f64>() - 1.0).abs() < 1e-9, "{words:?}");
    assert!(words[0].1 > 0.5 && words[0].1 < 0.75, "{words:?}");
}

/// What was read at one side is told of that side alone, in draws too: of the right nothing was read,
/// and its droop is as far off as before.
#[test]
fn a_reading_at_one_side_says_nothing_of_the_other_in_draws() {
    let droop = Reading { tolerance: 8.0, ..Reading::by(Readable::Droop, 70.0, ReadWith::Tape) };
    let design = with(&[Edit::Read(Readable::Droop, Side::Right, Some(droop))]);
    let width = |design: &Design, side: Side| {
        let mut draws = Draws::new(trials(design), side, &[Figure::DROOP], 5);
        while draws.count() < 200 {
            draws.step(&read(side));
        }
        let range = draws.range(0, Figure::DROOP).unwrap();
        range.high - range.low
    };
    let before = width(&demo(), Side::Left);
    let left = width(&design, Side::Left);
    // Other draws of as many: within a half, where the reading would make it five times as wide.
    assert!((left - before).abs() < 0.5 * before, "{before} {left}");
    // Give or take 8 mm are 16 mm between the ends; a droop by tape is known to 1.6.
    let read = width(&design, Side::Right);
    assert!((13.0..19.0).contains(&read), "{read}");
}

/// By hand: a rim that clears by 8 mm is well, and one that clears by 8 mm give or take 2 may have less
/// than a quarter of an inch: a verdict keeps the spread as its margin.
#[test]
fn a_verdict_keeps_the_spread_as_its_margin() {
    let mut truck = demo().truck;
    let figure = Figure::room(Pair::RimCaliper);
    truck.brake.caliper_radius_mm = truck.wheel.barrel_mm.map(|barrel| barrel - 8.0);
    let stance = Stance::laid(&truck, &[]).unwrap();
    let rest = stance.on(Side::Left);
    let studied = Studied::new(&rest, Clearances::PROBED);
    let judged = |spread: f64| figure.told_within(&studied, Guesses::NONE, spread).judged;
    assert_eq!((judged(0.0), judged(1.5), judged(2.0)), (Judged::Fine, Judged::Fine, Judged::Tight));
    assert_eq!(figure.told(&studied, Guesses::NONE).judged, Judged::Fine);
}
