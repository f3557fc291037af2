//! The mark of a guess on what is drawn: on paper and to who hears it, from every side.
//!
//! No source: what a picture says of a figure that rests on a guess carries its mark, and
//! what it says of any other does not.

use crate::view;
use drawing::{Aspect, Ink, SKETCHED, Scene, Shown, Sketch, view_of};
use study::{Figure, Limiter, Pair, Stance, Steering, clearances, travel_left};
use truck::{Edit, ReadWith, Readable, Reading, Side, Truck, demo};

const ASPECTS: [Aspect; 3] = [Aspect::Front, Aspect::Side, Aspect::Top];

/// The demo at a travel and a steer, of which these figures rest on a guess.
fn drawn(aspect: Aspect, width_px: f64, steer: f64, guessed: &[Figure]) -> Scene {
    drawn_of(&demo().truck, aspect, width_px, steer, guessed)
}

fn drawn_of(truck: &Truck, aspect: Aspect, width_px: f64, steer: f64, guessed: &[Figure]) -> Scene {
    drawn_with(truck, aspect, width_px, steer, (guessed, None))
}

/// Of which figures a mark is asked for, and which alone are written.
fn drawn_with(
    truck: &Truck,
    aspect: Aspect,
    width_px: f64,
    steer: f64,
    (guessed, only): (&[Figure], Option<&[Figure]>),
) -> Scene {
    let rest = Stance::as_measured(truck).unwrap().on(Side::Left);
    let pose = Steering::of(&rest).unwrap().pose(&rest, 0.0, steer).unwrap();
    let (gaps, left) = (clearances(&rest, &pose), travel_left(&rest));
    let now = Shown { rest: &rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm: 0.0 };
    let sketch = Sketch { guessed, only, ..Sketch::alone(now) };
    view_of(aspect, &sketch, &view(width_px, 0.75 * width_px))
}

/// How often a mark is written, and how often a guess is said.
fn marks(scene: &Scene) -> [usize; 2] {
    let written = scene.labels.iter().map(|label| {
        let lines = label.lines.iter().flatten();
        lines.filter(|run| matches!(run, drawing::Run::Text(words) if words.contains("~ "))).count()
    });
    let listed = scene.overflow.iter().filter(|words| words.contains("~ ")).count();
    [written.sum::<usize>() + listed, scene.description.matches("a guess, ").count()]
}

/// Red and hatched is where the tire meets something, and nothing else is; by hand: a lip that hangs an inch lower than
/// the room over the tire meets it.
#[test]
fn where_the_tire_meets_the_fender_it_is_hatched() {
    let hatched = |truck: &Truck| {
        let scene = drawn_of(truck, Aspect::Front, 900.0, 0.0, &[]);
        scene.shapes.iter().filter(|shape| [Ink::Meets, Ink::MeetsCross].contains(&shape.ink)).count()
    };
    let mut truck = demo().truck;
    assert_eq!(hatched(&truck), 0);
    let rest = Stance::as_measured(&truck).unwrap().on(Side::Left);
    let room = clearances(&rest, &rest.pose).into_iter().find(|gap| gap.pair == Pair::TireFender).unwrap();
    truck.body.fender.lip_z_mm -= room.distance_mm + 25.4;
    assert_eq!(hatched(&truck), 2, "the spot, and the lines over it");
}

/// The wheel that is steered meets the fender first: where the one straight ahead still clears it, the picture says that
/// nothing of the bump is left, since nothing else there says so.
#[test]
fn what_a_steered_wheel_meets_is_said_of_the_one_straight_ahead() {
    let design = demo();
    let rest = Stance::laid(&design.truck, design.proposals[0].changes()).unwrap().on(Side::Left);
    let mut left = travel_left(&rest);
    assert_eq!(left.bump.by, Limiter::Contact(Pair::TireFender));
    // Steered, it meets five millimetres sooner.
    left.bump.travel_mm -= 5.0;
    let travel_mm = left.bump.travel_mm + 1.0;
    let pose = rest.at_travel(travel_mm).unwrap();
    let gaps = clearances(&rest, &pose);
    let room = gaps.iter().find(|gap| gap.pair == Pair::TireFender).unwrap();
    assert!(room.distance_mm > 0.0, "straight ahead it clears: {room:?}");
    let now = Shown { rest: &rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
    let scene = view_of(Aspect::Front, &Sketch::alone(now), &view(900.0, 675.0));
    let says = |words: &str| {
        let texts = scene.labels.iter().flat_map(|label| label.lines.iter().flatten());
        texts.into_iter().any(|run| matches!(run, drawing::Run::Text(text) if text.contains(words)))
    };
    assert!(says("bump ") && says("to the fender") && !says("tire meets"), "{:?}", scene.labels);
}

/// Each figure that a sketch may mark is marked on the views that write it, once written and
/// once said, small or large, ahead or steered; and none is left out from every side.
#[test]
fn each_figure_of_a_sketch_carries_its_own_mark() {
    for width_px in [390.0, 900.0] {
        for steer in [0.0, 0.6] {
            for figure in SKETCHED {
                let mut views = 0;
                for aspect in ASPECTS {
                    let [written, said] = marks(&drawn(aspect, width_px, steer, &[figure]));
                    assert_eq!(written, said, "{figure:?} from {aspect:?}");
                    assert!(written <= 1, "{figure:?} from {aspect:?}");
                    views += written;
                }
                assert!(views > 0, "{figure:?} is marked on no view of {width_px} px");
            }
            for aspect in ASPECTS {
                assert_eq!(marks(&drawn(aspect, width_px, steer, &[])), [0, 0]);
            }
        }
    }
}

/// With everything guessed no number of any view is left without its mark: what has a unit
/// and no mark would be one.
#[test]
fn where_all_is_guessed_every_number_is_marked() {
    for aspect in ASPECTS {
        let scene = drawn(aspect, 900.0, 0.6, &SKETCHED);
        let mut numbers = 0;
        for label in &scene.labels {
            for line in &label.lines {
                let text: String = line
                    .iter()
                    .map(|run| match run {
                        drawing::Run::Text(words) => words.clone(),
                        drawing::Run::Fraction(above, below) => format!("{above}/{below}"),
                    })
                    .collect();
                let is_number = text.contains('°') || text.contains("\u{a0}in");
                assert_eq!(text.contains("~ "), is_number, "{aspect:?}: {text}");
                numbers += usize::from(is_number);
            }
        }
        assert!(numbers >= 2, "{aspect:?} has {numbers} numbers");
    }
}

/// What was read off the truck stands on every picture that says it, in place of the model's own:
/// 1.9° of caster, 0.35° of toe, ten inches from the tire to the frame, a foot under the rail.
#[test]
fn every_picture_says_what_was_read() {
    let read = [
        (Readable::Caster, 1.9_f64.to_radians(), ReadWith::Shop, "1.90", Aspect::Side),
        (Readable::Toe, 0.35_f64.to_radians(), ReadWith::Shop, "0.35", Aspect::Top),
        (Readable::TireRail, 254.0, ReadWith::Tape, "10 inches", Aspect::Top),
        (Readable::TireRail, 254.0, ReadWith::Tape, "10 inches", Aspect::Front),
        (Readable::FrameHeight, 304.8, ReadWith::Tape, "12 inches", Aspect::Front),
    ];
    for (of, value, tool, words, aspect) in read {
        let says = |truck: &Truck| drawn_of(truck, aspect, 900.0, 0.0, &[]).description.contains(words);
        let edit = Edit::Read(of, Side::Left, Some(Reading::by(of, value, tool)));
        assert!(says(&demo().edited(&edit).unwrap().truck), "{of:?} from {aspect:?}");
        assert!(!says(&demo().truck), "{of:?}: the model says another number");
    }
}

/// Before a class a step's figure is written and no other, nor any part's name; where it speaks of none, the names.
/// Who hears the picture is told of all.
#[test]
fn what_a_step_does_not_speak_of_is_not_written() {
    let truck = demo().truck;
    let drawn = |only: Option<&[Figure]>| drawn_with(&truck, Aspect::Front, 900.0, 0.0, (&SKETCHED, only));
    let whole = drawn(None);
    let named = |scene: &Scene, name: &str| scene.labels.iter().filter(|label| label.spoken == name).count();
    assert_eq!([named(&whole, "fender"), named(&whole, "rim")], [1, 1]);
    let on_front = [
        Figure::FRAME_HEIGHT,
        Figure::CAMBER,
        Figure::BUMP,
        Figure::ROLL_CENTRE,
        Figure::room(Pair::TireRail),
        Figure::room(Pair::TireFender),
    ];
    for figure in on_front {
        let scene = drawn(Some(&[figure]));
        assert_eq!(marks(&scene)[0], 1, "{figure:?}");
        assert!(scene.labels.iter().any(|label| label.spoken.starts_with(&*figure.label())), "{figure:?}");
        assert_eq!([named(&scene, "fender"), named(&scene, "rim")], [0, 0]);
        assert_eq!(scene.description, whole.description);
    }
    let none = drawn(Some(&[]));
    assert_eq!((marks(&none)[0], named(&none, "fender"), named(&none, "rim")), (0, 1, 1));
}
