//! What was read off the truck: of a plan the reading and the change, by arithmetic on trucks to order.
//!
//! No source for the trucks: each is about the demo's, rolled by dice. What is held against the
//! answers is hand arithmetic on the same trucks without a reading, and closed forms.

use study::{
    Clearances, Figure, Guesses, Judged, LeftRight, Limiter, Narrowing, Pair, Quantity, Stance, StandingSide,
    Steering, Studied, Studies as _, Target, Trial, Value, Values, VariesWith, clearance, left_and_right,
    room_as_told,
};
use truck::{
    Change, ChangeKind, ChangeSources, Design, Edit, Field, Kind, Overlay, ReadWith, Readable, Reading, Side,
    Source, Truck, demo, fit,
};
use yardstick::budget::near;
use yardstick::generate::Dice;

/// Poses each way of the searches.
const COUNT: u32 = 3;

fn edited(design: &Design, edit: &Edit) -> Design {
    design.edited(edit).unwrap()
}

/// A truck about the demo's: points within so many millimetres, angles within a degree.
fn about(base: &Design, dice: &mut Dice, balls_mm: f64, lengths_mm: f64) -> Design {
    let mut design = base.clone();
    for field in Field::ALL.iter().copied() {
        let Some(value) = field.get(&design.truck) else { continue };
        let key = field.key();
        let by = match field.kind() {
            Kind::Length if key.contains("_ball_") => dice.between(-balls_mm, balls_mm),
            Kind::Length if value.abs() > 30.0 => dice.between(-lengths_mm, lengths_mm),
            _ => 0.0,
        };
        design = design.edited(&Edit::Measure { field, value: Some(value + by) }).unwrap_or(design);
    }
    design
}

fn rest(truck: &Truck, side: Side, changes: &[Change]) -> StandingSide {
    Stance::laid(truck, changes).unwrap().on(side)
}

fn number(figure: Figure, rest: &StandingSide) -> Option<f64> {
    let studied = Studied::new(rest, COUNT);
    figure.told(&studied, Guesses::NONE).number()
}

/// What may be read there: something that is not what any of these trucks' models say.
fn made_up(of: Readable, at: u8) -> Reading {
    let more = f64::from(at);
    let value = match of.kind() {
        Kind::Angle => (1.5 + 0.25 * more).to_radians(),
        _ => 77.0 + 1.25 * more,
    };
    Reading::by(of, Kind::rounded(of.kind(), value).unwrap(), of.tools()[0])
}

fn plan() -> Vec<Change> {
    let spindle = ChangeKind::DroppedSpindle.with(None, &[Some(44.0), Some(3.0)]).unwrap();
    let bar = ChangeKind::BarAdjuster.with(None, &[Some(-1.0)]).unwrap();
    let shims = ChangeKind::Shims.with(None, &[Some(1.5), Some(0.5)]).unwrap();
    vec![spindle, bar, shims]
}

/// Whether a figure stands in the table of left beside right, which is told by readings too.
fn is_beside(figure: Figure) -> bool {
    let key = figure.key();
    LeftRight::QUANTITIES.iter().any(|quantity| {
        let side = key.strip_prefix(quantity.key());
        matches!(side, Some("_left" | "_right")) || key == LeftRight::named(*quantity).1
    })
}

/// By hand: what was read + (what the model says there − what it says of the truck as it sits), at
/// the side at which it was read; as it sits just what was read; and nothing else moves.
#[test]
fn an_answer_is_the_reading_and_what_the_model_says_has_changed() {
    let mut dice = Dice::of(31);
    let (mut tried, mut moved) = (0, 0);
    for at in 0..10_u8 {
        let mut bare = about(&demo(), &mut dice, 6.0, 4.0);
        let right = [(Field::LowerBallZ, Some(191.0 + f64::from(at))), (Field::UpperBallY, Some(619.0))];
        bare = edited(&bare, &Edit::MeasureRight(right.to_vec()));
        let side = Side::ALL[usize::from(at % 2)];
        for of in Readable::ALL.iter().copied() {
            let reading = made_up(of, at);
            let read = edited(&bare, &Edit::Read(of, side, Some(reading)));
            let figure = Figure::of_reading(of);
            for changes in [Vec::new(), plan()] {
                let model = rest(&bare.truck, side, &changes);
                let sits = rest(&bare.truck, side, &[]);
                let here = rest(&read.truck, side, &changes);
                let told = figure.told(&Studied::new(&here, COUNT), Guesses::NONE);
                let (now, before) = (number(figure, &model), number(figure, &sits));
                let (Some(now), Some(before)) = (now, before) else {
                    panic!("the model says nothing of {of:?} at {at}")
                };
                let by_hand = reading.value + (now - before);
                let found = told.number().unwrap();
                assert!((found - by_hand).abs() < 1e-9, "{of:?} at {at}: {found}, by hand {by_hand}");
                assert!((told.model.unwrap() - now).abs() < 1e-12, "{of:?}: the model's own");
                if changes.is_empty() {
                    assert!((found - reading.value).abs() < 1e-12, "{of:?} as it sits");
                }
                moved += u32::from((now - before).abs() > 1e-6);
                tried += 1;
                // The other side was not read.
                let other = rest(&read.truck, side.other(), &changes);
                let alone = rest(&bare.truck, side.other(), &changes);
                assert_eq!(number(figure, &other), number(figure, &alone), "{of:?} at the other side");
                // Nor does it move any other figure, but those that are told by the same reading: asked once of each.
                if of.id() % 10 == at && !changes.is_empty() {
                    let (one, two) = (Studied::new(&here, COUNT), Studied::new(&model, COUNT));
                    for other in Figure::all().filter(|other| other.readable() != Some(of)) {
                        // Of these is asked below.
                        if is_beside(other) {
                            continue;
                        }
                        assert_eq!(other.read(&one), other.read(&two), "{other:?} by a reading of {of:?}");
                    }
                }
            }
        }
    }
    assert_eq!(tried, 2 * 10 * 21);
    assert!(moved > 100, "only {moved} of {tried} move: the plan changes too little");
}

/// The frame is the ground as it sits, and height under a load is on the same rail: what one
/// reading says, it says of these too. By hand, as above.
#[test]
fn what_stands_on_a_reading_goes_with_it() {
    let bare = demo();
    let height = Reading::by(Readable::FrameHeight, 320.0, ReadWith::Tape);
    let caster = Reading::by(Readable::Caster, 3.5_f64.to_radians(), ReadWith::Shop);
    let read = edited(&bare, &Edit::Read(Readable::FrameHeight, Side::Left, Some(height)));
    let read = edited(&read, &Edit::Read(Readable::Caster, Side::Left, Some(caster)));
    let changes = plan();
    let (sits, model, here) = (
        rest(&bare.truck, Side::Left, &[]),
        rest(&bare.truck, Side::Left, &changes),
        rest(&read.truck, Side::Left, &changes),
    );
    let pairs = [
        (Figure::HEIGHT_WITH_DRIVER, Figure::FRAME_HEIGHT, 320.0),
        (Figure::HEIGHT_WITH_BED, Figure::FRAME_HEIGHT, 320.0),
        (Figure::CASTER, Figure::CASTER_GROUND, caster.value),
    ];
    for (figure, by, value) in pairs {
        let by_hand = value + number(figure, &model).unwrap() - number(by, &sits).unwrap();
        assert!((number(figure, &here).unwrap() - by_hand).abs() < 1e-9, "{figure:?}");
    }
    // Drop is a difference: a reading takes nothing from it.
    assert_eq!(number(Figure::DROP, &here), number(Figure::DROP, &model));
    // What is set for is what a gauge will read.
    let (target, plain) = (Target::of(&here), Target::of(&model));
    let before = Target::of(&sits);
    let wanted = 320.0 + plain.ride_height_mm - before.ride_height_mm;
    assert!((target.ride_height_mm - wanted).abs() < 1e-9);
    let wanted = caster.value + plain.caster_rad - before.caster_rad;
    assert!((target.caster_rad - wanted).abs() < 1e-12);
    assert_eq!(target.toe_rad.to_bits(), plain.toe_rad.to_bits());
}

/// On a sketch a gap is what was read, and moves from there as the model's own does; where nothing was read it is
/// the model's own.
#[test]
fn a_gap_on_the_sketch_is_what_was_read_and_moves_as_the_model_does() {
    let design = demo();
    let bare = rest(&design.truck, Side::Left, &[]);
    for pair in [Pair::TireRail, Pair::TireFender, Pair::TireUpperArm] {
        let own = clearance(&bare, &bare.pose, pair).unwrap().distance_mm;
        near(room_as_told(&bare, pair, own - 12.5), own - 12.5, 0.0, pair.label());
        let of = Figure::room(pair).readable().unwrap();
        let reading = made_up(of, 3);
        let read = edited(&design, &Edit::Read(of, Side::Left, Some(reading)));
        let rest = rest(&read.truck, Side::Left, &[]);
        near(room_as_told(&rest, pair, own), reading.value, 1e-9, pair.label());
        near(room_as_told(&rest, pair, own - 12.5), reading.value - 12.5, 1e-9, pair.label());
    }
}

/// Left and right beside each other: the side that was read is told by its reading.
#[test]
fn a_reading_belongs_to_its_side() {
    let camber = Reading::by(Readable::Camber, -0.75_f64.to_radians(), ReadWith::AngleGauge);
    let read = edited(&demo(), &Edit::Read(Readable::Camber, Side::Right, Some(camber)));
    let [left, right] = Side::ALL.map(|side| rest(&read.truck, side, &plan()));
    let all = left_and_right(&left, &right);
    let both = all.iter().find(|both| both.quantity == Quantity::Camber).unwrap();
    let changed = rest(&demo().truck, Side::Left, &plan()).attitude().camber_rad
        - rest(&demo().truck, Side::Left, &[]).attitude().camber_rad;
    assert!((both.right - (camber.value + changed)).abs() < 1e-12);
    assert!((both.left - (left.attitude().camber_rad)).abs() < 1e-15);
    let untouched = |quantity| all.iter().find(|both| both.quantity == quantity).unwrap();
    assert!(untouched(Quantity::Caster).together().abs() < 1e-12);
}

/// Where another thing ends the droop with the plan, the change is from the one to the other.
#[test]
fn where_another_thing_ends_the_droop_the_change_goes_from_one_to_the_other() {
    let bare = demo();
    let reading = Reading::by(Readable::Droop, 81.0, ReadWith::Tape);
    let read = edited(&bare, &Edit::Read(Readable::Droop, Side::Left, Some(reading)));
    let sits = rest(&bare.truck, Side::Left, &[]);
    let ended = |rest: &StandingSide| Studied::new(rest, COUNT).travel().unwrap().droop;
    assert_eq!(ended(&sits).by, Limiter::DroopStop);
    // A shock that pulls out less far than the arm hangs.
    let shock = bare.truck.shock;
    let long = shock.long_mm.unwrap();
    let short = (0..60).map(|less| long - 2.0 * f64::from(less)).find_map(|long| {
        let change = ChangeKind::Shock.with(None, &[shock.short_mm, Some(long)])?;
        let there = Stance::laid(&bare.truck, &[change]).ok()?.on(Side::Left);
        let found = ended(&there);
        (found.by == Limiter::Shock && found.travel_mm > 5.0).then_some(change)
    });
    let changes = [short.unwrap()];
    let (model, here) = (rest(&bare.truck, Side::Left, &changes), rest(&read.truck, Side::Left, &changes));
    let by_hand = 81.0 + (ended(&model).travel_mm - ended(&sits).travel_mm);
    assert!((number(Figure::DROOP, &here).unwrap() - by_hand).abs() < 1e-9);
    // What ends it, and how far the stop is, is the model's to say.
    let words = |rest: &StandingSide| Figure::DROOP_ENDED_BY.read(&Studied::new(rest, COUNT));
    assert_eq!(words(&here), Some(Value::Words(Limiter::Shock.label())));
    assert_eq!(number(Figure::DROOP_STOP, &here), number(Figure::DROOP_STOP, &model));
}

/// A truck that is known, and the same as a tape took it: lengths a sixteenth off, ball centres a
/// quarter. What was read of the true one is carried to a two-inch spindle by the model of the
/// other, and comes within a millimetre of the true one with that spindle; the model alone is
/// several millimetres off. The change is exact: the pin goes up by the drop.
#[test]
fn a_gap_that_was_read_is_true_on_a_plan_whose_change_is_exact() {
    let answers = [
        Readable::FrameHeight,
        Readable::FenderAbove,
        Readable::StopDaylight,
        Readable::TireRail,
        Readable::RimLowerJoint,
    ];
    let mut dice = Dice::of(32);
    let spindle = [ChangeKind::DroppedSpindle.with(None, &[Some(50.8), Some(0.0)]).unwrap()];
    let mut worst = [0.0_f64; 2];
    for _ in 0..40 {
        let truth = about(&demo(), &mut dice, 12.0, 8.0);
        let taped = about(&truth, &mut dice, 6.35, 1.6);
        for of in answers {
            let figure = Figure::of_reading(of);
            let sits = number(figure, &rest(&truth.truck, Side::Left, &[])).unwrap();
            let reading = Reading::by(of, Kind::Length.rounded(sits).unwrap(), of.tools()[0]);
            let read = edited(&taped, &Edit::Read(of, Side::Left, Some(reading)));
            let real = number(figure, &rest(&truth.truck, Side::Left, &spindle)).unwrap();
            let told =
                figure.told(&Studied::new(&rest(&read.truck, Side::Left, &spindle), COUNT), Guesses::NONE);
            let off = (told.number().unwrap() - real).abs();
            assert!(off < 1.0, "{of:?}: {off} mm");
            worst[0] = worst[0].max(off);
            worst[1] = worst[1].max((told.model.unwrap() - real).abs());
        }
    }
    assert!(worst[1] > 5.0 && worst[0] < 0.2 * worst[1], "the tape is too good to ask: {worst:?}");
}

/// The points are corrected later: what was read stays what it is as it sits, and of a plan only
/// the change is another.
#[test]
fn a_later_correction_of_points_changes_the_model_s_part_alone() {
    let pair = Pair::RimLowerJoint;
    let figure = Figure::room(pair);
    let reading = Reading::by(Readable::RimLowerJoint, 58.0, ReadWith::DrillShank);
    let read = edited(&demo(), &Edit::Read(Readable::RimLowerJoint, Side::Left, Some(reading)));
    let at = |design: &Design, changes: &[Change]| {
        number(figure, &rest(&design.truck, Side::Left, changes)).unwrap()
    };
    let spindle = [ChangeKind::DroppedSpindle.with(None, &[Some(38.1), Some(0.0)]).unwrap()];
    let value = Field::LowerBallZ.get(&read.truck).map(|mm| mm + 5.0);
    let moved = edited(&read, &Edit::Measure { field: Field::LowerBallZ, value });
    assert_eq!(at(&moved, &[]).to_bits(), 58_f64.to_bits());
    let plain = |design: &Design, changes: &[Change]| {
        let rest = rest(&design.truck, Side::Left, changes);
        clearance(&rest, &rest.pose, pair).unwrap().distance_mm
    };
    let change = plain(&moved, &spindle) - plain(&moved, &[]);
    assert!((at(&moved, &spindle) - (58.0 + change)).abs() < 1e-9);
    assert!((plain(&moved, &[]) - plain(&read, &[])).abs() > 1.0, "the correction moves the model");
    let out = edited(&moved, &Edit::Read(Readable::RimLowerJoint, Side::Left, None));
    assert_eq!(at(&out, &[]).to_bits(), plain(&moved, &[]).to_bits());
}

/// A corner that is known, steered by the full model to a heading out and the same in: the
/// difference of camber is read as caster within 0.05° by the simple formula, which takes the tangent
/// for the angle and a cosine for one, and errs by 0.047° at most here. Between 0 and 5° of caster, 15° to
/// 25° each way.
#[test]
fn a_sweep_is_read_back_as_the_caster_that_was_planted() {
    let mut dice = Dice::of(33);
    let (mut worst, mut swept, mut most) = (0.0_f64, 0, 0.0_f64);
    for at in 0..60 {
        let mut design = about(&demo(), &mut dice, 6.0, 4.0);
        let lean = dice.between(-18.0, 8.0);
        let value = Field::UpperBallX.get(&design.truck).map(|mm| mm + lean);
        design = edited(&design, &Edit::Measure { field: Field::UpperBallX, value });
        let side = Side::ALL[at % 2];
        let sits = rest(&design.truck, side, &[]);
        let Ok(steering) = Steering::of(&sits) else { continue };
        let theta = dice.between(15.0, 25.0).to_radians();
        // The front out is to the left in the corner's own axes, which mirror the right one.
        let camber = |heading: f64| {
            let pose = steering.pose(&sits, 0.0, steering.steer_at(&sits, heading)).unwrap();
            assert!((pose.heading_rad() - heading).abs() < 1e-6, "{} {heading}", pose.heading_rad());
            pose.camber_rad()
        };
        let gain = camber(theta) - camber(-theta);
        let real = sits.attitude().caster_rad;
        if !(0.0..5_f64.to_radians()).contains(&real) {
            continue;
        }
        let plain = Reading::by(Readable::Caster, gain, ReadWith::AngleGauge);
        let formula = Reading { swept_rad: Some(theta), ..plain }.answer();
        worst = worst.max((formula - real).to_degrees().abs());
        most = most.max(real.to_degrees());
        // As it is kept, in hundredths of a degree, and as it is told.
        let reading = Reading { swept_rad: Some(theta), ..plain };
        let read = edited(&design, &Edit::Read(Readable::Caster, side, Some(reading)));
        let told = number(Figure::CASTER_GROUND, &rest(&read.truck, side, &[])).unwrap();
        assert!((told - real).to_degrees().abs() < 0.05, "{} {}", told.to_degrees(), real.to_degrees());
        swept += 1;
    }
    assert!(worst < 0.05, "the formula errs by {worst}°");
    assert!(swept >= 15 && most > 4.0, "{swept} corners, {most}°");
}

fn read_values(trial: &Trial, figures: &[Figure]) -> Values {
    let Ok(stance) = Stance::laid(&trial.truck, trial.overlay()) else { return vec![None; figures.len()] };
    Studied::new(&stance.on(Side::Left), COUNT).values(figures)
}

fn marks(truck: &Truck, overlay: Overlay<'_>, figures: &[Figure]) -> Vec<bool> {
    let fitted = fit(truck.on(Side::Left), overlay).unwrap();
    let search = Narrowing::new(Trial::new(truck, overlay), &fitted, figures.to_vec());
    let found = search.finished(&read_values);
    figures.iter().map(|figure| !found.rests_on(*figure).is_empty()).collect()
}

/// On a truck of guesses: the mark goes where an answer was read, as it sits; a plan keeps one for
/// what its change rests on. What a reading cannot say, the first hit and the travel, keeps it.
#[test]
fn a_mark_falls_away_for_what_was_read_and_for_nothing_else() {
    // The rim's barrel, which is open on a truck of one's own, as a guess like the rest.
    let own = [
        Edit::OwnTruck,
        Edit::Measure { field: Field::RimBarrel, value: Some(160.0) },
        Edit::Source(Field::RimBarrel, Source::Assumed),
    ];
    let own = own.iter().fold(demo(), |design, edit| edited(&design, edit));
    let read = [
        Readable::FrameHeight,
        Readable::Camber,
        Readable::FenderAbove,
        Readable::TireFender,
        Readable::StopDaylight,
        Readable::RimLowerJoint,
    ];
    let design = read.iter().fold(own.clone(), |design, of| {
        // The body is guessed to stand as high as its frame: not beside the tire.
        let height = Reading::by(*of, 290.0, of.tools()[0]);
        let reading = if *of == Readable::FrameHeight { height } else { made_up(*of, 1) };
        edited(&design, &Edit::Read(*of, Side::Left, Some(reading)))
    });
    let of_read: Vec<_> = read.iter().map(|of| Figure::of_reading(*of)).collect();
    let silent = vec![
        Figure::BUMP,
        Figure::BUMP_TOUCH,
        Figure::DROOP,
        Figure::TOE,
        Figure::least_room(Pair::TireFender),
    ];
    assert_eq!(marks(&own.truck, Overlay::NOTHING, &of_read), vec![true; 6]);
    assert_eq!(marks(&design.truck, Overlay::NOTHING, &of_read), vec![false; 6]);
    assert_eq!(marks(&design.truck, Overlay::NOTHING, &silent), vec![true; 5]);
    // A spindle of which the drop is known lowers the frame by it, whatever else is a guess; how
    // far the tire comes nearer on a slant hangs on where they are.
    let spindle = [ChangeKind::DroppedSpindle.with(None, &[Some(50.8), Some(0.0)]).unwrap()];
    let by = |truck: &Truck, figures: &[Figure]| marks(truck, Overlay::from(&spindle), figures);
    let exact = [Figure::FRAME_HEIGHT, Figure::FENDER_ABOVE, Figure::STOP_DAYLIGHT];
    assert_eq!(by(&own.truck, &exact), [true; 3]);
    assert_eq!(by(&design.truck, &exact), [false; 3]);
    assert_eq!(by(&design.truck, &[Figure::room(Pair::TireFender), Figure::BUMP]), [true; 2]);
    // Of a drop that is a guess nothing of it is known.
    let mut sources = ChangeSources::TYPED;
    sources.set((ChangeKind::DroppedSpindle, None, 0), Source::Assumed);
    let guessed = Overlay { changes: &spindle, sources: &sources, ..Overlay::NOTHING };
    assert_eq!(marks(&design.truck, guessed, &exact[..2]), [true; 2]);
}

/// What can be had without a number of the brake: the reading as it sits, and of a new brake nothing.
#[test]
fn a_pair_that_the_model_does_not_know_is_read_as_it_sits_alone() {
    let bare = edited(&demo(), &Edit::Measure { field: Field::CaliperRadius, value: None });
    let reading = Reading::by(Readable::RimCaliper, 4.0, ReadWith::Clay);
    let read = edited(&bare, &Edit::Read(Readable::RimCaliper, Side::Left, Some(reading)));
    let figure = Figure::room(Pair::RimCaliper);
    let told = |changes: &[Change]| {
        figure.told(&Studied::new(&rest(&read.truck, Side::Left, changes), COUNT), Guesses::NONE)
    };
    assert_eq!((told(&[]).number(), told(&[]).model), (Some(4.0), None));
    assert_eq!(told(&plan()).number(), None);
}

/// A verdict says no more than the reading carries: tight where it may be under a quarter of an
/// inch, contact only where it reads so. Thresholds as of every room; by hand.
#[test]
fn a_verdict_goes_by_the_least_that_was_read() {
    let pair = Pair::RimLowerJoint;
    assert_eq!(pair.varies_with(), VariesWith::Nothing);
    for (value, tolerance, judged) in [
        (6.0, 0.4, Judged::Tight),
        (6.7, 0.4, Judged::Tight),
        (6.8, 0.4, Judged::Fine),
        (0.3, 0.4, Judged::Tight),
        (0.0, 0.4, Judged::Bad),
        (7.8, 1.6, Judged::Tight),
    ] {
        let reading = Reading { value, tolerance, tool: ReadWith::Tape, swept_rad: None };
        let read = edited(&demo(), &Edit::Read(Readable::RimLowerJoint, Side::Left, Some(reading)));
        let sits = rest(&read.truck, Side::Left, &[]);
        for figure in [Figure::room(pair), Figure::least_room(pair)] {
            let told = figure.told(&Studied::new(&sits, Clearances::LIVE), Guesses::NONE);
            assert_eq!((told.judged, told.number()), (judged, Some(value)), "{figure:?} {value} {tolerance}");
        }
    }
}
