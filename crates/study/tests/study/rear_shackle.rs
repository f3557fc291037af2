//! How near a shackle comes to straight: by a four-bar and a circle's arc, by hand.

use crate::rear::{BLOCK, edited, rear_measured, stance, told, truck};
use study::{Leaf, RearAnswer, Stance, Value, rear_told};
use truck::{
    Change, ChangeKind, Design, Edit, ProposalId, RearAxle, RearField, RearShackle, RearSpring, Source,
};

/// A spring alike on both sides of its axle: eyes level and 1200 apart, its middle `arch` lower; and a shackle
/// of 80 whose bolt lies at an angle from the line of the eyes, 0 straight on away from the spring.
#[derive(Clone, Copy)]
struct Even {
    arch: f64,
    angle_deg: f64,
}

impl Even {
    fn bolt(self) -> (f64, f64) {
        let angle = self.angle_deg.to_radians();
        (1200.0 + 80.0 * angle.cos(), 80.0 * angle.sin())
    }

    fn numbers(self) -> [(RearField, f64); 9] {
        let (along, up) = self.bolt();
        [
            (RearField::Span, 1200.0),
            (RearField::FixedPart, (600.0_f64 * 600.0 + self.arch * self.arch).sqrt()),
            (RearField::Arch, self.arch),
            (RearField::FixedEye, 400.0),
            (RearField::ShackleEye, 400.0),
            (RearField::HangerBolt, 400.0 + up),
            (RearField::EyeBeyond, 1200.0 - along),
            (RearField::Seat, 0.0),
            (RearField::ShackleAhead, 0.0),
        ]
    }

    fn rear(self) -> RearAxle {
        self.numbers().iter().fold(RearAxle::UNKNOWN, |rear, (field, value)| rear.with(*field, *value))
    }

    /// How far the middle goes up, and the shackle's angle then, where the arc's half opens by so much: of an arc
    /// of constant length 2 a R the chord is 2 R sin a and the middle R (1 − cos a) below it; eye, fixed eye and bolt
    /// are a triangle of three known sides, and its angle at the eye is the rest of the shackle's to 180°.
    fn by_hand(self, half_rad: f64) -> (f64, f64) {
        // As it sits: tan(a / 2) = arch / 600.
        let first = 2.0 * (self.arch / 600.0).atan();
        let length = 1200.0 * first / first.sin();
        let radius = length / (2.0 * half_rad);
        let (chord, below) = (2.0 * radius * half_rad.sin(), radius * (1.0 - half_rad.cos()));
        let (along, up) = self.bolt();
        let apart = along.hypot(up);
        let at_eye = ((chord * chord + 6400.0 - apart * apart) / (160.0 * chord)).acos();
        let at_fixed = ((chord * chord + apart * apart - 6400.0) / (2.0 * chord * apart)).acos();
        // The eye hangs under the line from the fixed eye to the bolt, or stands on it.
        let line = up.atan2(along) - at_fixed.copysign(up);
        let middle = chord / 2.0 * line.sin() - below * line.cos();
        (middle + self.arch, std::f64::consts::PI - at_eye)
    }

    /// The answer for a way up, − down.
    fn after(self, up_mm: f64) -> f64 {
        after(&self.rear(), up_mm)
    }
}

fn after(rear: &RearAxle, up_mm: f64) -> f64 {
    let (leaf, curvature) = Leaf::measured(rear).unwrap();
    leaf.shackle_after(&leaf.pose(curvature).unwrap(), 0.0, up_mm)
}

/// Up and down, a shackle that hangs and one that stands, leaning either way.
#[test]
fn the_angle_after_a_way_is_that_of_the_four_bar() {
    let mut seen = 0;
    for angle_deg in [70.0, 90.0, 110.0, 130.0, -70.0, -90.0, -110.0] {
        let even = Even { arch: 80.0, angle_deg };
        for half_rad in [0.06, 0.12, 0.2, 0.32, 0.4, 0.5] {
            let (up_mm, angle) = even.by_hand(half_rad);
            if angle.is_nan() {
                continue;
            }
            let got = even.after(up_mm);
            assert!((got - angle).abs() < 1e-6, "{angle_deg} {half_rad} {up_mm}: {got} {angle}");
            seen += 1;
        }
    }
    assert!(seen > 35, "{seen}");
    // Over flat and beyond the shackle leans most where the leaf is flat, and by as much wherever it ends.
    let even = Even { arch: 40.0, angle_deg: 110.0 };
    let (flat_mm, flat) = even.by_hand(1e-6);
    for beyond_mm in [1.0, 30.0, 60.0] {
        assert!((even.after(flat_mm + beyond_mm) - flat).abs() < 1e-6, "{beyond_mm}");
    }
}

/// By hand: eyes 1200 apart and 80 of shackle whose bolt is 30 beyond and 74 up. The leaf folds it back where its
/// chord is the bolts' distance less the shackle; pulled straight it is where the flat leaf is longer than both.
#[test]
fn past_its_reach_a_shackle_is_straight() {
    let leaning = Even { arch: 80.0, angle_deg: 68.0 };
    assert!(leaning.after(-400.0) < 1e-5);
    let long = Even { arch: 160.0, angle_deg: 140.0 };
    let (along, up) = long.bolt();
    let first = 2.0 * (160.0_f64 / 600.0).atan();
    assert!(1200.0 * first / first.sin() > along.hypot(up) + 80.0, "longer than both together");
    assert!(std::f64::consts::PI - long.after(150.0) < 1e-5);
    // It is not there where it stands, nor a little way up.
    assert!((long.after(0.0) - 140_f64.to_radians()).abs() < 1e-9);
    assert!(long.after(5.0) < 2.7);
}

fn with(even: Even, more: &[(RearField, f64)]) -> Design {
    rear_measured(rear_measured(truck(), &even.numbers()), more)
}

fn as_it_sits(design: &Design) -> Stance {
    Stance::as_measured(&design.truck).expect("it stands")
}

const DANGER: Option<&str> = Some("no, dangerous: so near straight it locks its spring or flips over");
const USUAL: Option<&str> = Some("60° to 120° is usual");
const OPEN: Option<&str> = Some("too near to tell");

/// Common practice, no source: within 15° of straight is dangerous, 60° to 120° is usual. By hand a sixteenth
/// of the bolt's place along and two of heights turn 80 of shackle by 1.6° where it lies, by 1.3° at 60°.
#[test]
fn a_shackle_at_rest_has_a_verdict_beyond_the_tape() {
    for (angle_deg, verdict) in [
        (5.0, DANGER),
        (13.0, DANGER),
        (14.5, OPEN),
        (16.0, OPEN),
        (17.5, USUAL),
        (58.0, USUAL),
        (59.5, None),
        (62.0, None),
        (90.0, None),
        (120.5, None),
        (122.0, USUAL),
        (164.0, OPEN),
        (167.5, DANGER),
        (-90.0, None),
        (-13.0, DANGER),
        (-45.0, USUAL),
        (-167.0, DANGER),
    ] {
        let rest = told(&as_it_sits(&with(Even { arch: 30.0, angle_deg }, &[])), "shackle");
        let Some(Value::Number(at)) = rest.value else { panic!("{angle_deg}: {rest:?}") };
        assert!((at.to_degrees() - f64::abs(angle_deg)).abs() < 0.05, "{angle_deg}: {at}");
        assert_eq!(rest.verdict, verdict, "{angle_deg}: {:?}", rest.spread.map(f64::to_degrees));
    }
    let mirrored = with(Even { arch: 30.0, angle_deg: 13.0 }, &[(RearField::ShackleAhead, 1.0)]);
    assert_eq!(told(&as_it_sits(&mirrored), "shackle").verdict, DANGER);
}

fn angle(design: &Design, key: &str) -> Option<f64> {
    match told(&as_it_sits(design), key).value {
        Some(Value::Number(at)) => Some(at),
        _ => None,
    }
}

/// By hand: up it goes until metal meets, the stop solid (76 and 15 of rubber), the tube at the frame (118) or the
/// shock closed (110); down until the shock is pulled out (50) or the axle hangs on its spring, 3300 N over 30 N/mm.
#[test]
fn the_travel_ends_where_metal_meets_and_where_it_hangs() {
    let even = Even { arch: 80.0, angle_deg: 70.0 };
    let carries = [(RearField::Rate, 30.0), (RearField::Load, 3300.0), (RearField::Unsprung, 700.0)];
    let design = with(even, &carries);
    let open = |design: &Design, field| edited(design, Edit::MeasureRear(field, None));
    let put = |design: &Design, field, mm| edited(design, Edit::MeasureRear(field, Some(mm)));
    let is = |design: &Design, key: &str, up_mm: f64| {
        let (got, want) = (angle(design, key).unwrap(), after(&design.truck.rear, up_mm));
        assert!((got - want).abs() < 1e-6, "{key} {up_mm}: {got} {want}");
    };
    is(&design, "shackle_bump", 91.0);
    is(&open(&design, RearField::StopSquash), "shackle_bump", 76.0);
    is(&put(&design, RearField::TubeGap, 60.0), "shackle_bump", 60.0);
    is(&put(&design, RearField::ShockShort, 340.0), "shackle_bump", 40.0);
    assert_eq!(angle(&open(&design, RearField::StopGap), "shackle_bump"), None);
    is(&design, "shackle_droop", -50.0);
    let long = open(&design, RearField::ShockLong);
    is(&long, "shackle_droop", -110.0);
    is(&put(&design, RearField::ShockLong, 500.0), "shackle_droop", -110.0);
    is(&open(&design, RearField::Rate), "shackle_droop", -50.0);
    assert_eq!(angle(&open(&long, RearField::Rate), "shackle_droop"), None);
    // Another spring of 20 N/mm under the same load hangs 165 lower, and a leaf out nobody knows how low.
    let spring = |flatter_mm, rate_n_per_mm| {
        let change = Change::RearSpring(RearSpring { flatter_mm, rate_n_per_mm });
        told(&stance(&edited(&long, Edit::Set(ProposalId(0), change))), "shackle_droop").value
    };
    let Some(Value::Number(got)) = spring(0.0, Some(20.0)) else { panic!("it hangs") };
    assert!((got - after(&long.truck.rear, -165.0)).abs() < 1e-6, "{got}");
    assert!(spring(25.0, None).is_none() && spring(25.0, Some(20.0)).is_some());
}

/// A shackle that folds over as the axle hangs, and one that a bump pulls straight: each is dangerous, is said
/// before whatever else is judged, and a shock that ends the way before takes the danger away.
#[test]
fn over_centre_on_the_way_is_dangerous_and_said_first() {
    let folds = with(Even { arch: 80.0, angle_deg: 40.0 }, &[(RearField::ShockLong, 520.0)]);
    assert_eq!(told(&as_it_sits(&folds), "shackle_droop").verdict, DANGER);
    let strapped = edited(&folds, Edit::MeasureRear(RearField::ShockLong, Some(385.0)));
    assert_eq!(told(&as_it_sits(&strapped), "shackle_droop").verdict, None);
    let pulled = with(Even { arch: 160.0, angle_deg: 140.0 }, &[]);
    assert_eq!(told(&as_it_sits(&pulled), "shackle_bump").verdict, DANGER);
    let closed = edited(&pulled, Edit::MeasureRear(RearField::ShockShort, Some(376.0)));
    assert_eq!(told(&as_it_sits(&closed), "shackle_bump").verdict, None);
    let all = rear_told(&as_it_sits(&pulled)).told;
    let judged = all.iter().find(|told| told.verdict.is_some()).map(|told| told.answer);
    assert_eq!(judged.map(RearAnswer::key), Some("shackle"), "leaning far is said of it at rest");
    let next = all.iter().filter(|told| told.verdict.is_some()).nth(1).map(|told| told.answer);
    assert_eq!(next.map(RearAnswer::key), Some("shackle_bump"));
}

/// A shorter shackle that is a guess moves the angle, and gives no verdict; a block moves it by nothing.
#[test]
fn a_guessed_shackle_gives_no_verdict() {
    let even = Even { arch: 160.0, angle_deg: 140.0 };
    let shorter = Change::RearShackle(RearShackle { longer_mm: -12.0 });
    let design = edited(&with(even, &[]), Edit::Set(ProposalId(0), shorter));
    assert_eq!(told(&stance(&design), "shackle_bump").verdict, DANGER);
    let slot = (ChangeKind::RearShackle, None, 0);
    let guessed = edited(&design, Edit::ChangeSource(ProposalId(0), slot, Source::Assumed));
    let rest = told(&stance(&guessed), "shackle");
    assert_eq!((rest.is_guess, rest.verdict), (true, Some("rests on a guess")));
    let block = edited(&with(Even { arch: 30.0, angle_deg: 90.0 }, &[]), Edit::Set(ProposalId(0), BLOCK));
    let block = edited(&block, Edit::MeasureRear(RearField::Seat, Some(-60.0)));
    let (at, was) = (told(&stance(&block), "shackle").value, told(&as_it_sits(&block), "shackle").value);
    assert_eq!(at, was);
}
