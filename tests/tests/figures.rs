//! The table of figures against trucks in which numbers are moved: what moves a figure, it must know to rest on.
//!
//! No source: these are laws of the table. The probes here move numbers by shares that the
//! search for guesses does not use, and know nothing of what a row declares.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "rolls of dice, each far below what a usize holds"
)]

use reference_tests::front_alone;
use reference_tests::generate::Dice;
use study::{
    Figure, Gauged, Guess, Guesses, Judged, Narrowing, Quantity, Sort, Stance, Steering, Studied, Trial,
    Value, Values,
};
use truck::{
    Change, ChangeKind, ChangeSources, Design, Edit, Field, Kind, Overlay, Readable, Side, Source,
    SpringKind, Truck, demo, fit,
};

/// Poses each way: what is asked is whether a number moves, not how near things come.
const COUNT: u32 = 3;

fn all() -> Vec<Figure> {
    Figure::all().collect()
}

fn values(truck: &Truck, changes: &[Change]) -> Vec<Option<Value>> {
    let Ok(stance) = Stance::laid(truck, changes) else { return vec![None; all().len()] };
    let rest = stance.on(Side::Left);
    let studied = Studied::new(&rest, COUNT);
    all().into_iter().map(|figure| figure.read(&studied)).collect()
}

/// A truck that is about the demo's, with a spring of this kind and open numbers stated or not, its rear too.
fn truck(dice: &mut Dice, kind: SpringKind) -> Truck {
    let start = if dice.roll() < 0.5 { demo() } else { front_alone() };
    let mut design = start.edited(&Edit::SpringKind(kind)).unwrap();
    let open = [
        (Field::TireDiameter, 660.0),
        (Field::BarBlindAnchor, 0.0),
        (Field::BarInward, 0.03),
        (Field::BarDownward, 0.02),
    ];
    for (field, value) in open {
        if dice.roll() < 0.3 {
            design = design.edited(&Edit::Measure { field, value: Some(value) }).unwrap();
        }
    }
    for field in Field::ALL.iter().copied() {
        let Some(value) = field.get(&design.truck) else { continue };
        let by = match field.kind() {
            Kind::Length if value.abs() > 60.0 => dice.between(-6.0, 6.0),
            Kind::Length | Kind::Angle | Kind::Count => dice.between(-0.05, 0.05) * value,
            Kind::Choice(_) if dice.roll() < 0.3 => 1.0 - 2.0 * value.min(1.0),
            _ => 0.0,
        };
        design = design.edited(&Edit::Measure { field, value: Some(value + by) }).unwrap_or(design);
        let stays = !field.is_optional() || dice.roll() < 0.97;
        if !stays {
            design = design.edited(&Edit::Measure { field, value: None }).unwrap_or(design);
        }
    }
    design.truck
}

/// The truck with one of its answers read off it: what is then told rests on what the change does.
fn read_off(truck: Truck, at: usize) -> Truck {
    let of = Readable::ALL[at % Readable::ALL.len()];
    let (low, high) = of.limits();
    let middle = 0.6 * high + 0.4 * low;
    let middle = if of.kind() == Kind::Angle { middle.to_radians() } else { middle };
    let reading = truck::Reading::by(of, middle, of.tools()[0]);
    let design = Design { truck, ..demo() };
    design.edited(&Edit::Read(of, Side::Left, Some(reading))).unwrap().truck
}

/// Up to three changes, each of its first numbers and a little more.
fn changes(dice: &mut Dice, truck: &Truck) -> Vec<Change> {
    let mut list: Vec<Change> = Vec::new();
    for _ in 0..(4.0 * dice.roll()).floor() as usize {
        let kind = ChangeKind::ALL[(ChangeKind::ALL.len() as f64 * dice.roll()).floor() as usize];
        let places = kind.places();
        let place = places.get((8.0 * dice.roll()).floor() as usize % places.len().max(1)).copied();
        let Some(mut change) = kind.first(place, truck) else { continue };
        for (at, number) in kind.numbers().iter().enumerate() {
            let value = change.values()[at].unwrap_or(0.0);
            let moved = number.nearest(value + dice.between(-0.5, 0.5) * number.guess_width(value));
            if !number.optional {
                change = change.with_value(at, moved).unwrap_or(change);
            }
        }
        list.retain(|other| other.slot() != change.slot());
        list.push(change);
    }
    list
}

const KINDS: [SpringKind; 3] = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];

fn differ(one: Option<Value>, two: Option<Value>, figure: Figure) -> bool {
    match (one, two) {
        (Some(one), Some(two)) => !one.is_printed_as(two, figure.sort()),
        (one, two) => one.is_some() != two.is_some(),
    }
}

/// A row declares everything that can move its figure, on any truck and under any changes.
#[test]
fn what_moves_a_figure_is_among_what_it_may_rest_on() {
    let mut dice = Dice::of(11);
    let (mut moved, mut stood, mut undeclared) = (0, 0, Vec::new());
    for at in 0..200 {
        let truck = read_off(truck(&mut dice, KINDS[at % 3]), at);
        let changes = changes(&mut dice, &truck);
        let before = values(&truck, &changes);
        stood += usize::from(before[0].is_some());
        let mut ask = |after: Vec<Option<Value>>, name: &str, may: &dyn Fn(Figure) -> bool| {
            for (at, (figure, after)) in all().into_iter().zip(after).enumerate() {
                if differ(before[at], after, figure) {
                    moved += 1;
                    if !may(figure) {
                        undeclared.push(format!("{figure:?} {name}"));
                    }
                }
            }
        };
        // Some numbers of each truck: over all of them each comes up a dozen times.
        for field in Field::ALL.iter().copied() {
            if dice.roll() > 0.06 {
                continue;
            }
            let Some(value) = field.get(&truck) else { continue };
            let other = match field.kind().choices() {
                Some(_) => 1.0 - value.min(1.0),
                None => value + dice.between(-1.0, 1.0) * field.guess_width(value),
            };
            let mut there = truck.clone();
            field.put(&mut there, field.nearest(other));
            ask(values(&there, &changes), field.key(), &|figure| figure.may_rest_on_number(field, &truck));
        }
        for (at, change) in changes.iter().enumerate() {
            for (index, number) in change.kind().numbers().iter().enumerate() {
                let Some(value) = change.values()[index].filter(|_| dice.roll() < 0.5) else { continue };
                let other = number.nearest(value + dice.between(-1.0, 1.0) * number.guess_width(value));
                let Some(other) = change.with_value(index, other) else { continue };
                let mut there = changes.clone();
                there[at] = other;
                let name = format!("{} of {}", number.key(), change.kind().key());
                ask(values(&truck, &there), &name, &|figure| figure.may_rest_on_change(change.kind()));
            }
        }
    }
    undeclared.sort_unstable();
    undeclared.dedup();
    assert_eq!(undeclared, Vec::<String>::new(), "these move, and no row says so");
    assert!(stood > 150, "only {stood} stood");
    assert!(moved > 25_000, "only {moved} figures moved: the test asks too little");
}

/// What moves a number that is read off a pose, straight or steered, at any travel, is declared
/// for such poses: what turns the wheel is then part of how it stands.
#[test]
fn what_moves_a_pose_is_among_what_its_numbers_may_rest_on() {
    let mut dice = Dice::of(13);
    let read = |truck: &Truck, [travel_mm, steer]: [f64; 2]| {
        let rest = Stance::as_measured(truck).ok()?.on(Side::Left);
        let pose = match Steering::of(&rest) {
            Ok(steering) if steer != 0.0 => steering.pose(&rest, travel_mm, steer).ok()?,
            _ => rest.at_travel(travel_mm).ok()?,
        };
        let gauged = Gauged::of(&rest, pose).ok()?;
        Some(Quantity::ALL.iter().map(|quantity| quantity.read(&gauged)).collect::<Vec<_>>())
    };
    let (mut moved, mut by_steering, mut undeclared) = (0, 0, Vec::new());
    for at in 0..120 {
        let truck = truck(&mut dice, KINDS[at % 3]);
        let is_steered = at % 2 == 0;
        let pose = [dice.between(-40.0, 40.0), if is_steered { dice.between(-1.0, 1.0) } else { 0.0 }];
        let Some(before) = read(&truck, pose) else { continue };
        let mut assumed = truck.clone();
        assumed.sources = truck::Sources::all(Source::Assumed);
        let fitted = fit(assumed.on(Side::Left), Overlay::NOTHING).unwrap();
        for field in Field::ALL.iter().copied() {
            let Some(value) = field.get(&truck).filter(|_| dice.roll() < 0.2) else { continue };
            let other = match field.kind().choices() {
                Some(_) => 1.0 - value.min(1.0),
                None => value + dice.between(-1.0, 1.0) * field.guess_width(value),
            };
            let mut there = truck.clone();
            field.put(&mut there, field.nearest(other));
            let Some(after) = read(&there, pose) else { continue };
            for (quantity, (one, two)) in Quantity::ALL.iter().zip(before.iter().zip(after)) {
                let figure = Figure::through(*quantity);
                if !differ(one.map(Value::Number), two.map(Value::Number), figure) {
                    continue;
                }
                let straight = figure.may_rest_on(&fitted).numbers.contains(field);
                let steered = figure.may_rest_on_steered(&fitted).numbers.contains(field);
                moved += 1;
                by_steering += usize::from(steered && !straight);
                if !(if is_steered { steered } else { straight }) {
                    undeclared.push(format!("{figure:?} {}", field.key()));
                }
            }
        }
    }
    undeclared.sort_unstable();
    undeclared.dedup();
    assert_eq!(undeclared, Vec::<String>::new(), "these move, and no row says so");
    assert!(
        moved > 5_000 && by_steering > 200,
        "{moved} moved, {by_steering} by steering: it asks too little"
    );
}

/// What the search is handed: the values of a trial, figure by figure.
fn read(trial: &Trial, figures: &[Figure]) -> Values {
    let Ok(stance) = Stance::laid(&trial.truck, trial.overlay()) else { return vec![None; figures.len()] };
    Studied::new(&stance.on(Side::Left), COUNT).values(figures)
}

/// Marks are on exactly the figures that move where a guess is moved to the ends of its width,
/// or halfway there; of a choice where another word is taken. The probes here are trucks of
/// their own, and ask every figure whether or not a row declares the number.
#[test]
fn a_figure_rests_on_the_guesses_that_move_it() {
    let mut dice = Dice::of(12);
    let (mut on, mut off) = (0, 0);
    for at in 0..10 {
        let mut truck = read_off(truck(&mut dice, KINDS[at % 3]), 2 * at);
        let spindle = ChangeKind::DroppedSpindle.with(None, &[Some(dice.between(20.0, 60.0))]).unwrap();
        let tire = ChangeKind::TireSwap.first(None, &truck).unwrap();
        let (changes, mut sources) = (vec![spindle, tire], ChangeSources::TYPED);
        // Everything, one group, or one number is a guess; or two numbers of the changes.
        let one = Field::ALL[(Field::ALL.len() as f64 * dice.roll()).floor() as usize];
        for field in Field::ALL.iter().copied() {
            let guessed = match at {
                0 => true,
                1..4 => field.group() == one.group(),
                4..8 => field == one,
                _ => false,
            };
            if guessed {
                truck.sources.set(field, Source::Assumed);
            }
        }
        if at >= 8 {
            sources.set((ChangeKind::DroppedSpindle, None, at - 8), Source::Assumed);
            sources.set((ChangeKind::TireSwap, None, 4), Source::Assumed);
        }
        let plan = Overlay { changes: &changes, sources: &sources, ..Overlay::NOTHING };
        let trial = Trial::new(&truck, plan);
        let Ok(fitted) = fit(&truck, plan) else { panic!("it fits") };
        let found = Narrowing::new(trial, &fitted, all()).finished(&read);
        let before = values(&truck, &changes);
        assert!(before[0].is_some(), "it stands");
        for guess in Guesses::of(&fitted).iter() {
            let there: Vec<_> = match guess {
                Guess::Number(field) => {
                    let value = field.get(&truck).unwrap();
                    let words = field.kind().choices().map_or(0_u8, |words| words.len() as u8);
                    let words = (0..words).map(|word| Some(f64::from(word)));
                    let ends =
                        [-1.0, -0.5, 0.5, 1.0].map(|by| field.nearest(value + by * field.guess_width(value)));
                    let ends: Vec<_> = if words.len() > 0 { words.collect() } else { ends.to_vec() };
                    let moved = |to: Option<f64>| {
                        let mut other = truck.clone();
                        field.put(&mut other, to);
                        values(&other, &changes)
                    };
                    ends.into_iter().map(moved).collect()
                }
                Guess::Change(place) => {
                    let (kind, _, index) = fitted.guessed[place];
                    let number = &kind.numbers()[index];
                    let at = usize::from(kind == ChangeKind::TireSwap);
                    let value = changes[at].values()[index].unwrap();
                    let moved = |by: f64| {
                        let mut other = changes.clone();
                        let to = number.nearest(value + by * number.guess_width(value));
                        other[at] = changes[at].with_value(index, to).unwrap();
                        values(&truck, &other)
                    };
                    [-1.0, -0.5, 0.5, 1.0].map(moved).to_vec()
                }
            };
            let own = |at: usize| there.iter().any(|there| differ(before[at], there[at], all()[at]));
            for (at, figure) in all().into_iter().enumerate() {
                // Where a pair comes nearest is marked with how near.
                let key = figure.key();
                let least = key.strip_suffix("_at").or(key.strip_suffix("_steer"));
                let least = all().iter().position(|other| least == Some(&other.key()));
                let moves = own(at) || least.is_some_and(own);
                assert_eq!(found.rests_on(figure).contains(guess), moves, "{figure:?} and {guess:?}");
                *(if moves { &mut on } else { &mut off }) += 1;
            }
        }
    }
    assert!(on > 2_000 && off > 2_000, "{on} on, {off} off: the test asks too little");
}

/// Until it is tried a guess is taken to count, so that a mark can go and never come late.
#[test]
fn a_search_under_way_marks_rather_one_too_many() {
    let mut truck = demo().truck;
    for field in [Field::FenderZ, Field::TieThread, Field::RailBottomZ] {
        truck.sources.set(field, Source::Assumed);
    }
    let fitted = fit(&truck, Overlay::NOTHING).unwrap();
    let figures = vec![Figure::FRAME_HEIGHT, Figure::CAMBER, Figure::room(study::Pair::TireFender)];
    let mut search = Narrowing::new(Trial::new(&truck, Overlay::NOTHING), &fitted, figures.clone());
    let marks =
        |search: &Narrowing| figures.iter().map(|figure| search.rests_on(*figure)).collect::<Vec<_>>();
    let mut last = marks(&search);
    assert!(last[1].contains(Guess::Number(Field::TieThread)), "a row may declare more than moves it");
    // A step reads one truck: between two steps a page can draw.
    let trucks = std::cell::Cell::new(0);
    let one = |trial: &Trial, figures: &[Figure]| {
        trucks.set(trucks.get() + 1);
        read(trial, figures)
    };
    loop {
        let before = trucks.get();
        let done = search.step(&one);
        assert!(trucks.get() <= before + 1, "a step reads one truck");
        let now = marks(&search);
        for (before, after) in last.iter().zip(&now) {
            assert!(after.iter().all(|guess| before.contains(guess)), "a mark came late");
        }
        last = now;
        if done {
            break;
        }
    }
    // The rail's height is where the frame height is taken; the lip's is one end of the gap to the tire.
    let only = |field| [Guess::Number(field)];
    assert_eq!(last[0].iter().collect::<Vec<_>>(), only(Field::RailBottomZ));
    assert!(last[1].is_empty());
    assert_eq!(last[2].iter().collect::<Vec<_>>(), only(Field::FenderZ));
}

/// A verdict is given on what is measured, and none on a guess: common sense, no source.
#[test]
fn no_verdict_rests_on_a_guess() {
    let truck = demo().truck;
    let low = ChangeKind::DroppedSpindle.with(None, &[Some(70.0)]).unwrap();
    let rest = Stance::laid(&truck, &[low]).unwrap().on(Side::Left);
    let studied = Studied::new(&rest, COUNT);
    let mut assumed = truck.clone();
    assumed.sources = truck::Sources::all(Source::Assumed);
    let guessed = fit(&assumed, Overlay::from(&[low])).unwrap();
    let mut judged = 0;
    for figure in all() {
        let sure = figure.told(&studied, Guesses::NONE);
        let guess = figure.told(&studied, figure.may_rest_on(&guessed));
        assert_eq!(sure.value, guess.value);
        assert!(!sure.is_guess());
        match sure.judged {
            Judged::Fine => assert_eq!(guess.judged, Judged::Fine, "{figure:?}"),
            judged_so => {
                judged += 1;
                assert_ne!(judged_so, Judged::Open);
                assert_eq!(guess.judged, Judged::Open, "{figure:?}");
            }
        }
        // Room at or below none is contact, below a quarter of an inch little.
        let is_room = study::Pair::ALL
            .iter()
            .any(|pair| figure == Figure::room(*pair) || figure == Figure::least_room(*pair));
        if let (true, Some(mm)) = (is_room, sure.number()) {
            assert_eq!(figure.sort(), Sort::Length);
            let right = match mm {
                mm if mm <= 0.0 => Judged::Bad,
                mm if mm <= 6.35 => Judged::Tight,
                _ => Judged::Fine,
            };
            assert_eq!(sure.judged, right, "{figure:?} {mm}");
        }
    }
    assert!(judged > 2, "only {judged} were judged: the test asks too little");
}
