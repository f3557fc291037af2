//! What the sender saw: how far it may go, and that nothing else is shared of it.

use crate::files::parse;
use sharing::{Opening, Shared, from_code, from_tree, to_code};
use truck::{ProposalId, demo};

fn seen(opening: Opening) -> Opening {
    let given = Shared { design: demo(), opening };
    let kept = given.kept().opening;
    // A link says what is kept, whatever was given.
    assert_eq!(from_code(&to_code(&given)).unwrap().opening, kept);
    kept
}

/// A wheel is never steered past square to the truck: 90° to either side are shared, a
/// hundredth more is not. A quarter turn in radians is π/2.
#[test]
fn a_wheel_is_steered_no_farther_than_square() {
    let steered = |steer_rad: f64| seen(Opening { steer_rad, ..Opening::default() }).steer_rad;
    for degrees in [90.0_f64, 89.99, 33.0, 0.01] {
        for way in [1.0, -1.0] {
            let given = way * degrees.to_radians();
            assert!((steered(given) - given).abs() < 1e-12, "{degrees}");
        }
    }
    assert!((steered(90_f64.to_radians()) - std::f64::consts::FRAC_PI_2).abs() < 1e-12);
    for degrees in [90.01_f64, 91.0, 180.0, 5000.0] {
        for way in [1.0, -1.0] {
            assert_eq!(steered(way * degrees.to_radians()).to_bits(), 0_f64.to_bits(), "{degrees}");
        }
    }
}

/// A metre up or down is shared, a hundredth of a millimetre more is not.
#[test]
fn travel_is_shared_to_a_metre() {
    let travelled = |travel_mm: f64| seen(Opening { travel_mm, ..Opening::default() }).travel_mm;
    for (given, kept) in [
        (1000.0, 1000.0),
        (-1000.0, -1000.0),
        (31.254, 31.25),
        (-0.006, -0.01),
        (1000.01, 0.0),
        (-1000.01, 0.0),
    ] {
        assert!((travelled(given) - kept).abs() < 1e-9, "{given}");
    }
}

/// A file is held to the same, in degrees, and says so.
#[test]
fn a_file_steers_in_degrees() {
    let read = |line: &str| {
        from_tree(&parse(&format!("{{\"scrubline\": 1, \"opening\": {{{line}}}}}")))
            .map(|shared| shared.opening)
    };
    let quarter = read("\"steer\": -90").unwrap().steer_rad;
    assert!((quarter + std::f64::consts::FRAC_PI_2).abs() < 1e-12);
    for (line, said) in [
        ("\"steer\": 90.01", "opening.steer (Steer) takes -90 to 90."),
        ("\"steer\": -91", "opening.steer (Steer) takes -90 to 90."),
        ("\"travel\": 1000.01", "opening.travel (Travel) takes -1000 to 1000."),
    ] {
        let error = read(line).unwrap_err().to_string();
        assert!(error.ends_with(said), "{error}");
    }
}

/// A proposal that is not there cannot have been selected.
#[test]
fn a_proposal_that_is_not_there_is_not_selected() {
    let selected = |id: u8| seen(Opening { proposal: Some(ProposalId(id)), ..Opening::default() }).proposal;
    for id in 0..4 {
        let is_there = demo().proposal(ProposalId(id)).is_some();
        assert_eq!(selected(id), is_there.then_some(ProposalId(id)), "{id}");
    }
    assert_eq!((selected(0), selected(3)), (Some(ProposalId(0)), None));
}
