//! Lengths: 25.4 mm in an inch and twelve inches in a foot, by definition.

use measure::{
    InchParts, LengthStyle, LengthUnit, Problem, inch_parts, parse_length, print_feet, print_length,
    spoken_length,
};

const SIXTEENTHS: LengthStyle = LengthStyle::Inches { denominator: 16 };
const TENTHS: LengthStyle = LengthStyle::Millimetres { decimals: 1 };

fn mm(text: &str, bare: LengthUnit) -> f64 {
    parse_length(text, bare).expect(text).mm
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-12 * b.abs()
}

#[test]
fn inch_text() {
    for (text, inches) in [
        ("9 13/16", 9.8125),
        ("9-13/16 in", 9.8125),
        ("9-13/16\"", 9.8125),
        ("9 13/16 inches", 9.8125),
        ("9.8125", 9.8125),
        ("9,8125 IN.", 9.8125),
        ("1-1/2", 1.5),
        ("1 1/2\"", 1.5),
        ("1/3", 1.0 / 3.0),
        ("½", 0.5),
        ("2½\"", 2.5),
        ("2 ½ in", 2.5),
        ("2''", 2.0),
        ("2”", 2.0),
        ("2″", 2.0),
    ] {
        assert!(near(mm(text, LengthUnit::Inch), inches * 25.4), "{text}");
    }
}

#[test]
fn feet_and_inches() {
    for (text, inches) in [
        ("2' 3 1/4\"", 27.25),
        ("2'-3 1/4\"", 27.25),
        ("2' - 3 1/4\"", 27.25),
        ("2'3-1/4", 27.25),
        ("2 ft 3 in", 27.0),
        ("2ft3in", 27.0),
        ("2 ft. 3 in.", 27.0),
        ("2′ 3″", 27.0),
        ("2’ 3”", 27.0),
        ("2' 3''", 27.0),
        ("2' 3", 27.0),
        ("2'", 24.0),
        ("1 1/2'", 18.0),
        ("0' ½\"", 0.5),
        ("46'11 37⁄64\"", 46.0 * 12.0 + 11.0 + 37.0 / 64.0),
        ("-2' 3\"", -27.0),
        ("−2'-3\"", -27.0),
        ("-0' 3\"", -3.0),
    ] {
        // A foot mark settles the unit of the rest, whatever the field's own.
        for bare in [LengthUnit::Inch, LengthUnit::Millimetre] {
            assert!(near(mm(text, bare), inches * 25.4), "{text}");
        }
    }
}

#[test]
fn metric_text() {
    for (text, expected) in [
        ("249", 249.0),
        ("249 mm", 249.0),
        ("249MM", 249.0),
        ("24.9cm", 249.0),
        ("63,5 mm", 63.5),
        ("1.4 m", 1400.0),
        ("1 1/2 mm", 1.5),
        ("-2.5mm", -2.5),
        ("3 millimeters", 3.0),
        ("3 centimeters", 30.0),
        ("-0 mm", 0.0),
    ] {
        assert!(near(mm(text, LengthUnit::Millimetre), expected), "{text}");
    }
    assert!(mm("-0 mm", LengthUnit::Millimetre).is_sign_positive());
}

#[test]
fn a_bare_number_takes_the_unit_of_the_field() {
    for (unit, expected) in [
        (LengthUnit::Millimetre, 3.0),
        (LengthUnit::Centimetre, 30.0),
        (LengthUnit::Metre, 3000.0),
        (LengthUnit::Inch, 76.2),
        (LengthUnit::Foot, 914.4),
    ] {
        let length = parse_length("3", unit).unwrap();
        assert!(near(length.mm, expected), "{unit:?}");
        assert_eq!(length.unit, unit);
    }
    let written = parse_length("3 cm", LengthUnit::Inch).unwrap();
    assert_eq!(written.unit, LengthUnit::Centimetre);
    let feet = parse_length("2' 3\"", LengthUnit::Inch).unwrap();
    assert_eq!(feet.unit, LengthUnit::Foot);
}

#[test]
fn refuses_with_the_place_and_a_sentence() {
    for (text, at, sentence) in [
        ("", 0, "expected a number, but there is nothing here"),
        ("abc", 0, "expected a number at character 1"),
        ("- in", 2, "expected a number at character 3"),
        ("1/0", 2, "expected a fraction not over zero at character 3"),
        ("2 3 4", 2, "expected mm, cm, m, in or ft at character 3"),
        ("2 in in", 5, "expected nothing more at character 6"),
        ("1\" 1/2", 3, "expected nothing more at character 4"),
        ("5 yd", 2, "expected mm, cm, m, in or ft at character 3"),
        ("½ yd", 3, "expected mm, cm, m, in or ft at character 3"),
        ("2' 3 mm", 5, "expected inches at character 6"),
        ("2' 3'", 4, "expected inches at character 5"),
        ("2'-", 3, "expected a number at character 4"),
        ("2' 12\"", 3, "expected inches after feet below 12 at character 4"),
        ("9 13/6", 2, "expected a fraction below one after the whole number at character 3"),
        ("1,400 mm", 1, "expected no comma at character 2: it could mark thousands or decimals"),
        ("NaN", 0, "expected a number at character 1"),
        ("inf", 0, "expected a number at character 1"),
        ("1000001 mm", 0, "expected at most 1000000 mm at character 1"),
        ("-999999999 m", 1, "expected at most 1000000 mm at character 2"),
        ("9999'", 0, "expected at most 1000000 mm at character 1"),
    ] {
        let error = parse_length(text, LengthUnit::Inch).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
    let long = parse_length(&"1".repeat(400), LengthUnit::Inch).unwrap_err();
    assert_eq!((long.at, long.kind), (64, Problem::TooLong));
    assert_eq!(long.to_string(), "expected at most 64 characters");
}

#[test]
fn the_largest_length_is_read() {
    assert!(near(mm("1000000", LengthUnit::Millimetre), 1e6));
    assert!(near(mm("-1000 m", LengthUnit::Inch), -1e6));
}

#[test]
fn prints_inches_to_the_nearest_step() {
    for (inches, denominator, text) in [
        (9.8125, 16, "9 13/16 in"),
        (-0.5, 16, "−1/2 in"),
        (0.0, 16, "0 in"),
        (-0.0, 16, "0 in"),
        (-0.03, 16, "0 in"),
        (12.0, 16, "12 in"),
        (-12.25, 16, "−12 1/4 in"),
        (15.0 + 31.0 / 32.0, 16, "16 in"),
        (15.0 + 31.0 / 32.0, 32, "15 31/32 in"),
        (0.97, 16, "1 in"),
        (1.0 / 64.0, 64, "1/64 in"),
        (0.3, 10, "3/10 in"),
        (0.3, 1, "0 in"),
        (0.7, 0, "1 in"),
        (0.0009765625, 4096, "1/1024 in"),
    ] {
        let style = LengthStyle::Inches { denominator };
        assert_eq!(print_length(inches * 25.4, style), text, "{inches}");
    }
}

#[test]
fn ties_go_away_from_zero_for_every_half_step() {
    for steps in 0..20_000 {
        let inches = (f64::from(steps) + 0.5) / 16.0;
        for sign in [1.0, -1.0] {
            let parts = inch_parts(sign * inches * 25.4, 16);
            let away = sign * f64::from(steps + 1) / 16.0 * 25.4;
            assert!(near(parts.mm(), away), "{steps} and a half sixteenths");
        }
    }
}

#[test]
fn prints_millimetres() {
    assert_eq!(print_length(249.2375, TENTHS), "249.2 mm");
    assert_eq!(print_length(249.25, TENTHS), "249.3 mm");
    assert_eq!(print_length(-12.0, TENTHS), "−12.0 mm");
    assert_eq!(print_length(-0.01, TENTHS), "0.0 mm");
    assert_eq!(print_length(7.0, LengthStyle::Millimetres { decimals: 0 }), "7 mm");
}

#[test]
fn no_number_is_a_dash() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
        for style in [SIXTEENTHS, TENTHS] {
            assert_eq!(print_length(value, style), "—");
            assert_eq!(spoken_length(value, style), "no value");
        }
    }
    assert_eq!(inch_parts(f64::NAN, 16).mm().to_bits(), 0);
}

#[test]
fn speaks() {
    for (inches, text) in [
        (9.8125, "9 and 13 sixteenths inches"),
        (-0.5, "minus one half inch"),
        (0.75, "3 quarters inch"),
        (1.0, "1 inch"),
        (-1.0, "minus 1 inch"),
        (1.125, "1 and one eighth inches"),
        (2.0, "2 inches"),
        (0.0, "0 inches"),
        (-0.001, "0 inches"),
    ] {
        assert_eq!(spoken_length(inches * 25.4, SIXTEENTHS), text);
    }
    for (denominator, text) in [
        (32, "5 and 3 thirty-seconds inches"),
        (64, "5 and 3 sixty-fourths inches"),
        (10, "5 and 3 over 10 inches"),
    ] {
        let style = LengthStyle::Inches { denominator };
        let inches = 5.0 + 3.0 / f64::from(denominator);
        assert_eq!(spoken_length(inches * 25.4, style), text);
    }
    assert_eq!(spoken_length(249.24, TENTHS), "249.2 millimeters");
    assert_eq!(spoken_length(-3.0, TENTHS), "minus 3.0 millimeters");
    let whole = LengthStyle::Millimetres { decimals: 0 };
    assert_eq!(spoken_length(1.0, whole), "1 millimeter");
    assert_eq!(spoken_length(-1.2, whole), "minus 1 millimeter");
}

#[test]
fn parts_are_reduced() {
    let parts = inch_parts(-9.75 * 25.4, 16);
    let expected = InchParts { negative: true, whole: 9, numerator: 3, denominator: 4 };
    assert_eq!(parts, expected);
    let whole = inch_parts(3.0 * 25.4, 64);
    assert_eq!((whole.whole, whole.numerator, whole.denominator), (3, 0, 1));
}

/// Arithmetic: twelve inches are a foot, and what rounds up to a foot is one.
#[test]
fn printed_in_feet_and_inches() {
    let inch = 25.4;
    for (mm, denominator, text) in [
        (36.0 * 12.0 * inch + 5.0 * inch, 1, "36 ft 5 in"),
        (36.0 * 12.0 * inch, 1, "36 ft"),
        (11_000.0, 1, "36 ft 1 in"),
        (11.6 * inch, 1, "1 ft"),
        (11.4 * inch, 1, "11 in"),
        (23.6 * inch, 1, "2 ft"),
        (28.5 * inch, 2, "2 ft 4 1/2 in"),
        (24.5 * inch, 2, "2 ft 1/2 in"),
        (-16.0 * inch, 1, "\u{2212}1 ft 4 in"),
        (-8.0 * inch, 1, "\u{2212}8 in"),
        (0.0, 1, "0 in"),
        (f64::NAN, 1, "\u{2014}"),
    ] {
        assert_eq!(print_feet(mm, denominator), text, "{mm}");
        if mm.is_finite() {
            let read = parse_length(text, LengthUnit::Inch).unwrap().mm;
            assert!((read - mm).abs() <= inch / f64::from(denominator) / 2.0 + 1e-9, "{text}");
        }
    }
}
