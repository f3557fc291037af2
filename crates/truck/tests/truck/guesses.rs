//! Guesses follow what is known: body points the frame's height, wheel points the loaded radius, widths the hub.
//!
//! Source: the rule itself, by hand; a tire's free radius by the sidewall's arithmetic, rim over two and section times
//! aspect. Numbers are kept to a hundredth of a millimetre.

use crate::near;
use linkage::{Corner, Vector3};
use truck::{Design, Edit, Field, ReadWith, Readable, Reading, Side, Source, Staying, Truck, demo, guesses};

/// One's own truck, of which nothing is known.
fn own() -> Design {
    demo().edited(&Edit::OwnTruck).unwrap()
}

fn edited(design: &Design, edits: &[Edit]) -> Design {
    edits.iter().fold(design.clone(), |design, edit| design.edited(edit).unwrap())
}

fn typed(field: Field, value: f64) -> Edit {
    Edit::Measure { field, value: Some(value) }
}

fn frame(value_mm: f64) -> Edit {
    let reading = Reading::by(Readable::FrameHeight, value_mm, ReadWith::Tape);
    Edit::Read(Readable::FrameHeight, Side::Left, Some(reading))
}

/// By how much each number of a truck is more than the demo's.
fn moved(truck: &Truck, field: Field) -> f64 {
    field.get(truck).unwrap() - field.get(&demo().truck).unwrap()
}

const BODY: [Field; 8] = [
    Field::LowerFrontZ,
    Field::LowerRearZ,
    Field::UpperFrontZ,
    Field::UpperRearZ,
    Field::TieInnerZ,
    Field::RailBottomZ,
    Field::FenderZ,
    Field::CoilBodyZ,
];
const WHEEL: [Field; 4] = [Field::LowerBallZ, Field::UpperBallZ, Field::WheelCentreZ, Field::TieOuterZ];
const ARM: [Field; 2] = [Field::CoilArmZ, Field::StrutArmZ];
const HUB: [Field; 14] = [
    Field::LowerFrontY,
    Field::LowerRearY,
    Field::LowerBallY,
    Field::UpperFrontY,
    Field::UpperRearY,
    Field::UpperBallY,
    Field::WheelCentreY,
    Field::TieInnerY,
    Field::TieOuterY,
    Field::RailOuterY,
    Field::FenderY,
    Field::CoilArmY,
    Field::CoilBodyY,
    Field::StrutArmY,
];

/// What moves by how much, and that nothing else does.
fn check(design: &Design, [body, wheel, hub]: [f64; 3]) {
    let truck = &design.truck;
    assert_eq!(truck.sources.staying(), Some(Staying::default()));
    let lowest = [Field::LowPointZ];
    for field in BODY.iter().chain(&lowest) {
        near(moved(truck, *field), body, field.key());
    }
    for field in WHEEL {
        near(moved(truck, field), wheel, field.key());
    }
    for field in ARM {
        near(moved(truck, field), 0.5 * (body + wheel), field.key());
    }
    for field in HUB {
        near(moved(truck, field), hub, field.key());
    }
    let follow = |field: &Field| {
        BODY.contains(field) || WHEEL.contains(field) || ARM.contains(field) || HUB.contains(field)
    };
    for field in Field::ALL.iter().filter(|field| !follow(field) && !lowest.contains(field)) {
        let is_guess = truck.sources.of(*field) == Source::Assumed;
        if let (true, Some(_)) = (is_guess, field.get(truck)) {
            assert!(moved(truck, *field).abs() < 1e-12, "{field:?}");
        }
    }
}

#[test]
fn a_guess_moves_by_what_its_part_moved() {
    check(&own(), [0.0; 3]);
    // The rail, measured at its bottom or read from the floor.
    check(&edited(&own(), &[typed(Field::RailBottomZ, 287.5)]), [-12.5, 0.0, 0.0]);
    check(&edited(&own(), &[frame(287.5)]), [-12.5, 0.0, 0.0]);
    // The wheel's center; and the tire alone: 215/75R14 for 195/75R14 is 15 mm more in radius.
    check(
        &edited(&own(), &[typed(Field::WheelCentreZ, 310.0)]),
        [0.0, 310.0 - demo().truck.points.wheel_centre.z, 0.0],
    );
    check(&edited(&own(), &[typed(Field::TireSection, 215.0)]), [0.0, 15.0, 0.0]);
    let hub = demo().truck.points.wheel_centre.y;
    check(&edited(&own(), &[typed(Field::WheelCentreY, hub + 21.0)]), [0.0, 0.0, 21.0]);
    let all = [typed(Field::TireSection, 215.0), frame(310.0), typed(Field::WheelCentreY, hub - 8.0)];
    check(&edited(&own(), &all), [10.0, 15.0, -8.0]);
    // The measured rail says more than the reading of it.
    check(&edited(&own(), &[frame(320.0), typed(Field::RailBottomZ, 310.0)]), [10.0, 0.0, 0.0]);
    // A reading that is taken out leaves the guess that was there first.
    let out = Edit::Read(Readable::FrameHeight, Side::Left, None);
    check(&edited(&own(), &[frame(320.0), out]), [0.0; 3]);
}

/// A truck whose guesses follow nothing, as all were before there was a rule, and every measured one.
#[test]
fn without_the_rule_nothing_follows() {
    let mut old = own();
    old.truck.sources = truck::Sources::all(Source::Assumed);
    for start in [old, demo()] {
        let next = edited(&start, &[typed(Field::WheelCentreZ, 310.0), frame(320.0)]);
        assert_eq!(guesses(&next.truck), []);
        for field in Field::ALL.iter().filter(|field| **field != Field::WheelCentreZ) {
            assert_eq!(field.get(&next.truck), field.get(&start.truck), "{field:?}");
        }
    }
}

/// What was given a value of its own stays a guess where it was put, and what the right has stays the right's.
#[test]
fn what_has_a_value_of_its_own_follows_nothing() {
    let set = [
        Edit::Correct(vec![(Side::Left, Field::LowerFrontZ, 250.0)]),
        Edit::MeasureRight(vec![(Field::LowerRearZ, Some(244.0))]),
        frame(310.0),
    ];
    let truck = edited(&own(), &set).truck;
    near(truck.points.lower.front.z, 250.0, "where it was put");
    assert_eq!(truck.sources.of(Field::LowerFrontZ), Source::Assumed);
    assert_eq!(truck.right.get(Field::LowerRearZ), Some(244.0));
    near(moved(&truck, Field::LowerRearZ), 10.0, "the left's");
}

/// Numbers from 0 to 1.
struct Draws(u64);

impl Draws {
    fn next(&mut self) -> f64 {
        // Knuth's MMIX multiplier; the upper bits are the good ones.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let bits = u32::try_from(self.0 >> 40).unwrap();
        f64::from(bits) / f64::from(1_u32 << 24)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// What somebody may type of the first two stages: an answer read, the tire, and any points.
    fn truck(&mut self) -> Vec<Edit> {
        let start = demo().truck;
        let mut edits = Vec::new();
        if self.next() < 0.7 {
            edits.push(frame(self.between(180.0, 480.0)));
        }
        let tire = [
            (Field::TireSection, 175.0, 315.0),
            (Field::TireAspect, 50.0, 85.0),
            (Field::TireRim, 13.0, 17.0),
        ];
        for (field, low, high) in tire {
            if self.next() < 0.6 {
                edits.push(typed(field, self.between(low, high).round()));
            }
        }
        for field in BODY.into_iter().chain(WHEEL).chain(HUB) {
            if self.next() < 0.15 {
                let value = field.get(&start).unwrap() + self.between(-25.0, 25.0);
                edits.push(typed(field, field.nearest(value).unwrap()));
            }
        }
        edits
    }
}

/// Typed numbers never move, and the order in which they are typed changes nothing.
#[test]
fn typed_numbers_stay_in_whatever_order_they_come() {
    let mut draws = Draws(11);
    for _ in 0..200 {
        let mut edits = draws.truck();
        let one = edited(&own(), &edits);
        for edit in &edits {
            if let Edit::Measure { field, value } = edit {
                assert_eq!(field.get(&one.truck), *value, "{field:?}");
            }
        }
        for at in (1..edits.len()).rev() {
            let other = (0..at).find(|_| draws.next() < 0.3).unwrap_or(at);
            edits.swap(at, other);
        }
        assert_eq!(edited(&own(), &edits).truck, one.truck);
        // Typed wrong first, and right then: the same again.
        edits.insert(0, typed(Field::WheelCentreY, 500.0));
        edits.insert(1, typed(Field::WheelCentreZ, 200.0));
        edits.insert(2, frame(600.0));
        let known = |field| one.truck.sources.of(field) != Source::Assumed;
        if known(Field::WheelCentreY) && known(Field::WheelCentreZ) && !one.truck.readings.is_empty() {
            assert_eq!(edited(&own(), &edits).truck, one.truck);
        }
    }
}

/// Whether the wheel goes three inches up and down: both poses close.
fn goes(truck: &Truck) -> bool {
    let corner = Corner::of(&truck.points, truck.loaded_radius_mm()).unwrap();
    let stands = truck.points.wheel_centre.z;
    [-76.2, 76.2].into_iter().all(|travel| corner.at_height(stands + travel, Vector3::zeros()).is_ok())
}

/// However the wheel and the frame stand, what is guessed beside them is a linkage that goes three inches each way;
/// and what would not go stays where it was guessed first, the frame and the fender never.
#[test]
fn two_hundred_trucks_go_three_inches_each_way() {
    let mut draws = Draws(12);
    let mut stayed = 0;
    for _ in 0..200 {
        let edits = [
            frame(draws.between(20.0, 900.0)),
            typed(Field::TireRim, draws.between(10.0, 20.0).round()),
            typed(Field::TireSection, draws.between(155.0, 335.0).round()),
        ];
        let design = edited(&own(), &edits);
        let truck = &design.truck;
        assert!(goes(truck), "{edits:?}");
        let by = truck.readings.get(Readable::FrameHeight, Side::Left).unwrap().answer() - 300.0;
        near(moved(truck, Field::RailBottomZ), by, "rail");
        let is_here = |field: &Field| truck.body.fender.lip_z_mm > 200.0 + 1e-9 || *field != Field::FenderZ;
        if is_here(&Field::FenderZ) {
            near(moved(truck, Field::FenderZ), by, "fender");
        }
        if truck.sources.staying() != Some(Staying::default()) {
            stayed += 1;
            // Left to follow, it would not.
            let mut all = truck.clone();
            all.sources.follow(Staying::default());
            for (field, value) in guesses(&all) {
                if all.sources.of(field) == Source::Assumed {
                    field.put(&mut all, Some(value));
                }
            }
            assert!(!goes(&all), "{edits:?}");
        }
    }
    assert!((1..200).contains(&stayed), "{stayed} stayed");
}
