//! Angles: sixty minutes in a degree, sixty seconds in a minute.

use measure::{Problem, parse_angle, print_angle, spoken_angle};

#[test]
fn reads_degrees_minutes_and_seconds() {
    for (text, degrees) in [
        ("1.5", 1.5),
        ("1 1/2°", 1.5),
        ("1½ º", 1.5),
        ("-0.5 deg", -0.5),
        ("-0.5 Degrees", -0.5),
        ("−0.50°", -0.5),
        ("0,25°", 0.25),
        ("1°30'", 1.5),
        ("1° 30′", 1.5),
        ("1 deg 30 min", 1.5),
        ("1° 30", 1.5),
        ("-0° 30'", -0.5),
        ("30'", 0.5),
        ("90\"", 0.025),
        ("1° 0' 36\"", 1.01),
        ("1° 36\"", 1.01),
        ("360", 360.0),
    ] {
        let angle = parse_angle(text).expect(text);
        assert!((angle.rad.to_degrees() - degrees).abs() < 1e-13, "{text}");
    }
    assert_eq!(parse_angle("-0°").unwrap().rad.to_bits(), 0);
    let half_turn = parse_angle("180").unwrap().rad;
    assert_eq!(half_turn.to_bits(), std::f64::consts::PI.to_bits());
}

#[test]
fn refuses_with_the_place_and_a_sentence() {
    for (text, at, sentence) in [
        ("", 0, "expected a number, but there is nothing here"),
        ("°", 0, "expected a number at character 1"),
        ("1 mm", 2, "expected degrees or minutes at character 3"),
        ("1 2 3", 2, "expected degrees or minutes at character 3"),
        ("1° 2°", 5, "expected minutes or seconds at character 5"),
        ("30' 1°", 5, "expected minutes or seconds at character 6"),
        ("1° 75'", 4, "expected minutes and seconds below 60 at character 4"),
        ("1° 30' 60\"", 8, "expected minutes and seconds below 60 at character 8"),
        ("1° 30' 5\" 3", 11, "expected nothing more at character 11"),
        ("-361", 1, "expected at most 360° at character 2"),
    ] {
        let error = parse_angle(text).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
    assert_eq!(parse_angle(&"1".repeat(65)).unwrap_err().kind, Problem::TooLong);
}

#[test]
fn prints_and_speaks_degrees() {
    let half = 0.5f64.to_radians();
    assert_eq!(print_angle(-half, 2), "−0.50°");
    assert_eq!(print_angle(half, 1), "0.5°");
    assert_eq!(print_angle(-0.0, 2), "0.00°");
    assert_eq!(print_angle(f64::NAN, 2), "—");
    assert_eq!(spoken_angle(-half, 2), "minus 0.50 degrees");
    assert_eq!(spoken_angle(1f64.to_radians(), 0), "1 degree");
    assert_eq!(spoken_angle(f64::NAN, 2), "no value");
}
