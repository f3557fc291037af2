//! What hangs low between the rear wheels: by plane geometry and hand arithmetic.

use crate::rear::{BLOCK, LEAF, edited, number, rear_measured, stance, told, truck};
use study::{Stance, Value};
use truck::{
    AxleFlip, Change, Design, Edit, Field, ProposalId, RearBlock, RearField, RearHangers, RearShackle,
    RearSpring, RearTire, Source,
};

/// Rims whose inner edges are 1300 apart, on tires 1420 apart.
const RIMS: [(RearField, f64); 3] =
    [(RearField::RimEdge, 115.0), (RearField::RimsApart, 1300.0), (RearField::TiresApart, 1420.0)];
/// What hangs between them.
const LOW: [(RearField, f64); 6] = [
    (RearField::AxleLow, 180.0),
    (RearField::AxleLowAside, 50.0),
    (RearField::PlateLow, 170.0),
    (RearField::PlateLowAside, 550.0),
    (RearField::ShackleLow, 250.0),
    (RearField::SpringsApart, 1000.0),
];

fn low() -> Design {
    rear_measured(rear_measured(rear_measured(truck(), &LEAF), &RIMS), &LOW)
}

fn with(changes: &[Change]) -> Design {
    changes.iter().fold(low(), |design, change| edited(&design, Edit::Set(ProposalId(0), *change)))
}

fn as_it_sits(design: &Design) -> Stance {
    Stance::as_measured(&design.truck).expect("it stands")
}

fn near(stance: &Stance, key: &str, want: f64) {
    let got = number(stance, key);
    assert!((got - want).abs() < 1e-6, "{key}: {got} for {want}");
}

/// The line by plane geometry: through the rim's edge at one side, (650, 115), and the other tire's bottom,
/// (−710, 0); of the two the higher one. A trade association's text (seen).
fn line(y: f64) -> f64 {
    115.0 * (y + 710.0) / (650.0 + 710.0)
}

/// As it sits, each low point over the line at its own place, and over the rim (California Vehicle Code
/// §24008, seen as quoted); at the rim's edge the line is the rim itself, in the middle it is the crossing of both.
#[test]
fn the_rear_s_scrub_line_by_plane_geometry() {
    assert!((line(650.0) - 115.0).abs() < 1e-12);
    let at = as_it_sits(&low());
    near(&at, "rear_rims", 115.0);
    near(&at, "axle_over_line", 180.0 - line(50.0));
    near(&at, "axle_over_rim", 65.0);
    near(&at, "plate_over_line", 170.0 - line(550.0));
    near(&at, "plate_over_rim", 55.0);
    // On the other side of the middle it is the other line that is the higher one: only how far counts.
    let middle = edited(&low(), Edit::MeasureRear(RearField::AxleLowAside, Some(0.0)));
    near(&as_it_sits(&middle), "axle_over_line", 180.0 - 115.0 * 710.0 / 1360.0);
    // A sixteenth each of the point and of the rim where the line is as high as that.
    let beside = edited(&low(), Edit::MeasureRear(RearField::PlateLowAside, Some(650.0)));
    let spread = told(&as_it_sits(&beside), "plate_over_line").spread.unwrap();
    let slope = 115.0 / 1360.0;
    let sides = [1.0, 1.0, slope, slope / 2.0];
    let want = 1.5875 * sides.iter().map(|side| side * side).sum::<f64>().sqrt();
    assert!((spread - want).abs() < 1e-3, "{spread} {want}");
}

/// By hand: a block under an axle on top of its springs takes spring and plate as much nearer to the ground,
/// and the axle's own lowest point by nothing; the axle under its springs keeps its plate. A tire whose
/// middle is 15 lower takes rim and all that hangs on the axle with it.
#[test]
fn a_block_lowers_the_plate_and_a_tire_the_rim() {
    let block = stance(&with(&[BLOCK]));
    near(&block, "plate_over_line", 170.0 - 50.8 - line(550.0));
    near(&block, "axle_over_line", 180.0 - line(50.0));
    let under = edited(&with(&[BLOCK]), Edit::MeasureRear(RearField::Seat, Some(62.0)));
    near(&stance(&under), "plate_over_line", 170.0 - line(550.0));
    let tire = stance(&with(&[Change::RearTire(RearTire { wheel_radius_mm: Some(295.0) })]));
    near(&tire, "rear_rims", 100.0);
    near(&tire, "plate_over_rim", 55.0);
    near(&tire, "axle_over_line", 165.0 - line(50.0) * 100.0 / 115.0);
    // On the other side of the spring, or under another one, nobody has measured the plate.
    let flip = Change::AxleFlip(AxleFlip::default());
    let spring = Change::RearSpring(RearSpring { flatter_mm: 0.0, rate_n_per_mm: Some(25.0) });
    for (change, seat_mm, known) in
        [(flip, -62.0, false), (flip, 62.0, false), (spring, -62.0, false), (spring, 62.0, true)]
    {
        let design = edited(&with(&[change]), Edit::MeasureRear(RearField::Seat, Some(seat_mm)));
        let at = stance(&design);
        assert_eq!(told(&at, "plate_over_line").value.is_some(), known, "{change:?} {seat_mm}");
        assert!(told(&at, "axle_over_line").value.is_some());
    }
}

/// By hand: 3 in of blocks bring the plate to 93.8, over a line of 106.5 at 550: it hangs below, and what is
/// within the tape of it is too near to tell. A guessed block gives no verdict.
#[test]
fn what_hangs_below_is_said_with_the_tape_s_margin() {
    let verdict = |height_mm: f64, key: &str| {
        let block = Change::RearBlock(RearBlock { height_mm, wedge_rad: 0.0 });
        told(&stance(&with(&[block])), key).verdict
    };
    let (below, open) = (Some("hangs below it, and drags once a tire is flat"), Some("too near to tell"));
    let to_line = 170.0 - line(550.0);
    for (height_mm, said) in [
        (to_line - 3.0, None),
        (to_line - 1.5, open),
        (to_line + 1.5, open),
        (to_line + 3.0, below),
        (76.2, below),
    ] {
        assert_eq!(verdict(height_mm, "plate_over_line"), said, "{height_mm}");
    }
    assert_eq!(verdict(50.0, "plate_over_rim"), None);
    assert_eq!(verdict(60.0, "plate_over_rim"), Some("below the rims, local rules decide"));
    let high = with(&[Change::RearBlock(RearBlock { height_mm: 76.2, wedge_rad: 0.0 })]);
    let slot = (truck::ChangeKind::RearBlock, None, 0);
    let guessed = edited(&high, Edit::ChangeSource(ProposalId(0), slot, Source::Assumed));
    let plate = told(&stance(&guessed), "plate_over_line");
    assert_eq!((plate.is_guess, plate.verdict), (true, Some("rests on a guess")));
    assert!(!told(&stance(&guessed), "axle_over_line").is_guess);
}

/// By hand, the demo's spindle at the front: the nose sinks by 50.8, so the frame turns about the rear axle and
/// its shackle, so far behind the axle, comes up by 50.8 · that / 2690; ahead of it, it goes down by as much.
#[test]
fn a_shackle_goes_with_the_frame_s_nose() {
    // From the axle, which is a seat above the leaf that rises a little, to the eye: 1250 − 600 nearly.
    for (ahead, sign) in [(0.0, 1.0), (1.0, -1.0)] {
        let design = edited(&low(), Edit::MeasureRear(RearField::ShackleAhead, Some(ahead)));
        let raised = number(&stance(&design), "shackle_over_rim")
            - number(&as_it_sits(&unloaded(&design)), "shackle_over_rim");
        // Under the bed's load the rear goes down in both; what is left is the nose.
        let bed = number(&as_it_sits(&design), "shackle_over_rim") - 135.0;
        let want = sign * 50.8 * 650.0 / 2690.0;
        assert!((raised - bed - want).abs() < 0.3, "{raised} {bed} {want}");
    }
    // Hangers higher on the frame take their end of the shackle along: the bolt's end, where that is the lower one.
    let stands = edited(&unloaded(&low()), Edit::MeasureRear(RearField::HangerBolt, Some(215.0)));
    let hangers = RearHangers { bolt_up_mm: 20.0, ..RearHangers::default() };
    let raised = edited(&stands, Edit::Set(ProposalId(0), Change::RearHangers(hangers)));
    let raised = edited(&raised, Edit::MeasureRear(RearField::ShackleAhead, Some(0.0)));
    let without = edited(&raised, Edit::MeasureRear(RearField::ShackleLow, Some(250.0)));
    let (at, before) = (stance(&without), as_it_sits(&without));
    let down = number(&at, "rear_comes_down");
    let front = 50.8;
    // That bolt is 28 nearer to the axle than its eye.
    let want = 20.0 - (down - 622.0 / 2690.0 * (front - down));
    let got = number(&at, "shackle_over_rim") - number(&before, "shackle_over_rim");
    assert!((got - want).abs() < 0.05, "{got} {want}");
}

fn unloaded(design: &Design) -> Design {
    edited(design, Edit::Measure { field: Field::BedLoad, value: None })
}

/// By hand: a shackle that hangs and is 30 longer lets its eye down by as much under the frame, whose rear
/// goes up by its share of it.
#[test]
fn a_longer_shackle_hangs_lower() {
    let longer = Change::RearShackle(RearShackle { longer_mm: 30.0 });
    let design = edited(&unloaded(&low()), Edit::Set(ProposalId(0), longer));
    let design = edited(&design, Edit::MeasureRear(RearField::ShackleAhead, Some(0.0)));
    let (at, before) = (stance(&design), as_it_sits(&design));
    let up = -number(&at, "rear_comes_down");
    assert!(up > 12.0 && up < 18.0, "{up}");
    // The eye is 79 below its bolt and 28 beyond, and stays beyond by that, its leaf being as long as it was.
    let length = libm::hypot(79.0, 28.0) + 30.0;
    let eye = 79.0 - (length * length - 28.0 * 28.0).sqrt();
    let want = eye + up + 650.0 / 2690.0 * (50.8 + up);
    let got = number(&at, "shackle_over_rim") - number(&before, "shackle_over_rim");
    assert!((got - want).abs() < 0.2, "{got} {want}");
}

/// The worst load is named: a load in the bed behind the rear axle takes the shackle lowest, with the driver
/// where both ends know what he weighs.
#[test]
fn the_worst_load_is_named() {
    let load = |design: &Design| told(&as_it_sits(design), "shackle_load").value;
    let bed = Some(Value::Words("with load in the bed"));
    assert_eq!(load(&unloaded(&low())), Some(Value::Words("as it sits")));
    assert_eq!(load(&low()), bed);
    // The front alone does not say what the driver does at the rear.
    let front = edited(&low(), Edit::Measure { field: Field::DriverLoad, value: Some(290.0) });
    assert_eq!(load(&front), bed);
    let both = edited(&front, Edit::MeasureRear(RearField::DriverLoad, Some(250.0)));
    assert_eq!(load(&both), Some(Value::Words("with driver and load")));
    let guessed = edited(&both, Edit::Source(Field::DriverLoad, Source::Assumed));
    assert!(told(&as_it_sits(&guessed), "shackle_over_line").is_guess);
    assert!(!told(&as_it_sits(&guessed), "plate_over_line").is_guess);
    // A leaf's rate that nobody has measured leaves the load out.
    let plain = edited(&low(), Edit::MeasureRear(RearField::Rate, None));
    assert_eq!(load(&plain), Some(Value::Words("as it sits")));
}

/// What is not measured is not told.
#[test]
fn each_point_needs_its_numbers() {
    let without = |field: RearField| as_it_sits(&edited(&low(), Edit::MeasureRear(field, None)));
    let is_told = |stance: &Stance, key: &str| told(stance, key).value.is_some();
    for (field, key) in [
        (RearField::RimEdge, "axle_over_rim"),
        (RearField::RimsApart, "axle_over_line"),
        (RearField::TiresApart, "axle_over_line"),
        (RearField::AxleLowAside, "axle_over_line"),
        (RearField::PlateLow, "plate_over_rim"),
        (RearField::PlateLowAside, "plate_over_line"),
        (RearField::Seat, "plate_over_line"),
        (RearField::SpringsApart, "shackle_over_line"),
        (RearField::Span, "shackle_over_line"),
    ] {
        assert!(is_told(&as_it_sits(&low()), key) && !is_told(&without(field), key), "{field:?} {key}");
    }
    assert!(is_told(&without(RearField::RimsApart), "axle_over_rim"));
}

/// Bumpers so far beyond both axles, as they sit.
const BUMPERS: [(RearField, f64); 4] = [
    (RearField::FrontBumper, 410.0),
    (RearField::FrontBumperAhead, 735.0),
    (RearField::RearBumper, 446.0),
    (RearField::RearBumperBehind, 1180.0),
];

/// By hand: the spindle alone sinks the front by 50.8 and the front bumper by 50.8 · (2690 + 735) / 2690; the
/// rear bumper, behind the rear axle, comes up by 50.8 · 1180 / 2690. Both ends down alike take both alike.
/// How high they may be no verdict says: that is for local rules.
#[test]
fn bumpers_go_with_both_ends() {
    let bumpers = rear_measured(unloaded(&truck()), &BUMPERS);
    let front = stance(&bumpers);
    near(&front, "front_bumper_low", 410.0 - 50.8 * (2690.0 + 735.0) / 2690.0);
    near(&front, "rear_bumper_low", 446.0 + 50.8 * 1180.0 / 2690.0);
    near(&front, "rear_frame_low", 470.0);
    let both = stance(&edited(&bumpers, Edit::Set(ProposalId(0), BLOCK)));
    for (key, was) in [("front_bumper_low", 410.0), ("rear_bumper_low", 446.0), ("rear_frame_low", 470.0)] {
        near(&both, key, was - 50.8);
        assert_eq!(told(&both, key).verdict, None);
        assert_eq!(told(&both, &key.replace("_low", "_load")).value, Some(Value::Words("as it sits")));
    }
    // A bumper that nobody has measured is none.
    let open = edited(&bumpers, Edit::MeasureRear(RearField::RearBumperBehind, None));
    assert!(told(&stance(&open), "rear_bumper_low").value.is_none());
    assert!(told(&stance(&open), "front_bumper_low").value.is_some());
}

/// By hand: the bed's load sinks the rear by 44 (1320 N a side over 30 N/mm) and lifts the front, which loses
/// 2500 · 150 / 2690 / 2 = 69.7 N a corner, by as much over its rate; the driver's share sinks both. So the bed's
/// load is the worst for the rear, and what takes the front lowest is the driver alone.
#[test]
fn each_height_has_its_own_worst_load() {
    let design = rear_measured(rear_measured(truck(), &LEAF), &BUMPERS);
    let driver = edited(&design, Edit::Measure { field: Field::DriverLoad, value: Some(290.0) });
    let driver = edited(&driver, Edit::MeasureRear(RearField::DriverLoad, Some(240.0)));
    let at = as_it_sits(&driver);
    let bed = 2500.0 * (1.0 + 150.0 / 2690.0) / 2.0 / 30.0;
    near(&at, "rear_frame_low", 470.0 - bed - 240.0 / 30.0);
    assert_eq!(told(&at, "rear_frame_load").value, Some(Value::Words("with driver and load")));
    assert_eq!(told(&at, "rear_bumper_load").value, Some(Value::Words("with driver and load")));
    assert_eq!(told(&at, "front_bumper_load").value, Some(Value::Words("with driver")));
    // Both ends by load over rate, the front's to first order.
    let rate = at.corner(truck::Side::Left).wheel_rate_n_per_mm;
    let (front, rear) = (290.0 / rate, 240.0 / 30.0);
    let want = 410.0 - front - (front - rear) * 735.0 / 2690.0;
    let got = number(&at, "front_bumper_low");
    assert!((got - want).abs() < 0.15, "{got} {want}");
    let (front, rear) = ((290.0 - 2500.0 * 150.0 / 2690.0 / 2.0) / rate, bed + 240.0 / 30.0);
    let want = 446.0 - rear + (front - rear) * 1180.0 / 2690.0;
    let got = number(&at, "rear_bumper_low");
    assert!((got - want).abs() < 0.15, "{got} {want}");
    // The bed's load is a guess of the rear's height, the driver's of what hangs on both ends.
    let guessed = |field| {
        let at = as_it_sits(&edited(&driver, Edit::Source(field, Source::Assumed)));
        ["rear_frame_low", "front_bumper_low"].map(|key| told(&at, key).is_guess)
    };
    assert_eq!(guessed(Field::BedLoad), [true, true]);
    assert_eq!(guessed(Field::DriverLoad), [false, true]);
    assert_eq!(guessed(Field::FenderZ), [false, false]);
}
