//! What a corner carries, by moments about the rear axle.

use crate::near;
use truck::{Fitted, Load, LoadCase, demo};

/// A truck on a base of 3 m whose bed carries 3000 N.
fn load(behind_mm: f64) -> Load {
    let bed = (Some(3000.0), Some(behind_mm));
    Load { corner_n: 4000.0, unsprung_n: 400.0, driver_n: Some(310.0), bed_n: bed.0, bed_behind_mm: bed.1 }
}

/// Moments about the rear axle: 3000 N at 400 mm are 1.2 kN·m, which a base of 3 m takes
/// as 400 N off both front wheels, 200 N off each; ahead of the axle as much on them. The
/// driver's share is added to either.
#[test]
fn each_case_by_moments() {
    for (behind_mm, bed_n) in [(400.0, -200.0), (-400.0, 200.0), (0.0, 0.0)] {
        let load = load(behind_mm);
        for (case, expected) in [
            (LoadCase::AsMeasured, 4000.0),
            (LoadCase::Driver, 4310.0),
            (LoadCase::Bed, 4000.0 + bed_n),
            (LoadCase::DriverAndBed, 4310.0 + bed_n),
        ] {
            near(case.corner_n(&load, 3000.0).unwrap(), expected, case.label());
        }
    }
}

/// A case is answered only where every number of it is stated.
#[test]
fn a_case_with_a_number_open_has_no_answer() {
    use LoadCase::{AsMeasured, Bed, Driver, DriverAndBed};
    let whole = load(400.0);
    for (load, open) in [
        (whole, &[] as &[LoadCase]),
        (Load { driver_n: None, ..whole }, &[Driver, DriverAndBed]),
        (Load { bed_n: None, ..whole }, &[Bed, DriverAndBed]),
        (Load { bed_behind_mm: None, ..whole }, &[Bed, DriverAndBed]),
    ] {
        for case in [AsMeasured, Driver, Bed, DriverAndBed] {
            assert_eq!(case.corner_n(&load, 3000.0).is_none(), open.contains(&case), "{}", case.label());
        }
    }
}

/// Nothing left on a front spring is no truck that stands: 400 N are wheel and knuckle.
#[test]
fn a_load_that_lifts_the_front_has_no_answer() {
    let mut truck = demo().truck;
    truck.body.wheelbase_mm = 3000.0;
    truck.load = load(400.0);
    let under = |bed_n: f64| {
        let mut truck = truck.clone();
        truck.load.bed_n = Some(bed_n);
        let fitted = Fitted::as_measured(&truck);
        fitted.under(LoadCase::Bed).map(|fitted| fitted.corner_n)
    };
    near(under(3000.0).unwrap(), 3800.0, "as much as it carries");
    // 54 kN at 400 mm take 3600 N off each front corner, which is all that its spring carried.
    near(under(53_985.0).unwrap(), 401.0, "next to nothing");
    assert_eq!(under(54_000.0), None);
    assert_eq!(under(60_000.0), None);
}
