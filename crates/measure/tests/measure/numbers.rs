//! Numbers against the standard library, which reads and prints exactly.

use measure::{Problem, fixed, parse_number, print_number, signed, without_zeros};
use proptest::prelude::*;

/// Rounds the exact decimal expansion of a value, ties away from zero.
///
/// An `f64` of 2⁻⁶⁰ and more has at most 112 decimals, so 120 are all of them.
fn rounded_by_hand(value: f64, decimals: usize) -> String {
    let exact = format!("{:.120}", value.abs());
    let point = exact.find('.').expect("there are decimals");
    let mut digits: Vec<u8> = exact.bytes().filter(u8::is_ascii_digit).collect();
    let kept = point + decimals;
    let up = digits[kept] >= b'5';
    digits.truncate(kept);
    if up {
        let mut place = kept;
        while place > 0 && digits[place - 1] == b'9' {
            digits[place - 1] = b'0';
            place -= 1;
        }
        match place {
            0 => digits.insert(0, b'1'),
            _ => digits[place - 1] += 1,
        }
    }
    let text = String::from_utf8(digits).expect("only digits");
    let (whole, part) = text.split_at(text.len() - decimals);
    let zero = text.bytes().all(|digit| digit == b'0');
    let sign = if value < 0.0 && !zero { "-" } else { "" };
    let point = if decimals > 0 { "." } else { "" };
    format!("{sign}{whole}{point}{part}")
}

#[test]
fn reads_decimals_and_fractions() {
    for (text, value) in [
        ("0", 0.0),
        ("1.25", 1.25),
        (".5", 0.5),
        ("5.", 5.0),
        ("63,5", 63.5),
        ("0,125", 0.125),
        ("1,4000", 1.4),
        ("2 1/2", 2.5),
        ("2-1/2", 2.5),
        ("2–1/2", 2.5),
        ("1 / 4", 0.25),
        ("13/8", 1.625),
        ("½", 0.5),
        ("2½", 2.5),
        ("2 ⅞", 2.875),
        ("2-¾", 2.75),
        ("37⁄64", 0.578125),
        ("  +3  ", 3.0),
        ("\u{a0}3\u{202f}1/2", 3.5),
        ("007", 7.0),
    ] {
        let read = parse_number(text).expect(text);
        assert_eq!(read.to_bits(), f64::to_bits(value), "{text}");
    }
}

#[test]
fn a_minus_applies_to_the_whole() {
    for (text, value) in [
        ("-1/2", -0.5),
        ("-0 1/2", -0.5),
        ("- 0 1/2", -0.5),
        ("−½", -0.5),
        ("–0.5", -0.5),
        ("-2 1/2", -2.5),
        ("-0.5", -0.5),
        ("-0", 0.0),
        ("-0.000", 0.0),
        ("-0/7", 0.0),
    ] {
        let read = parse_number(text).expect(text);
        assert_eq!(read.to_bits(), f64::to_bits(value), "{text}");
    }
}

#[test]
fn every_vulgar_fraction_is_its_quotient() {
    let all = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒";
    let quotients = [
        (1, 2),
        (1, 3),
        (2, 3),
        (1, 4),
        (3, 4),
        (1, 5),
        (2, 5),
        (3, 5),
        (4, 5),
        (1, 6),
        (5, 6),
        (1, 7),
        (1, 8),
        (3, 8),
        (5, 8),
        (7, 8),
        (1, 9),
        (1, 10),
    ];
    assert_eq!(all.chars().count(), quotients.len());
    for (mark, (numerator, denominator)) in all.chars().zip(quotients) {
        let read = parse_number(&mark.to_string()).unwrap();
        let quotient = f64::from(numerator) / f64::from(denominator);
        assert_eq!(read.to_bits(), f64::to_bits(quotient), "{mark}");
    }
}

#[test]
fn refuses_with_the_place() {
    for (text, at, kind) in [
        ("", 0, Problem::Empty),
        ("   ", 0, Problem::Empty),
        ("abc", 0, Problem::ExpectedNumber),
        ("NaN", 0, Problem::ExpectedNumber),
        ("inf", 0, Problem::ExpectedNumber),
        ("-", 1, Problem::ExpectedNumber),
        ("--1", 1, Problem::ExpectedNumber),
        (".", 0, Problem::ExpectedNumber),
        ("5,", 2, Problem::ExpectedNumber),
        ("1/", 2, Problem::ExpectedNumber),
        ("1/x", 2, Problem::ExpectedNumber),
        ("1/0", 2, Problem::ZeroDenominator),
        ("0/0", 2, Problem::ZeroDenominator),
        ("9 13/6", 2, Problem::ImproperFraction),
        ("9 16/16", 2, Problem::ImproperFraction),
        ("1,400", 1, Problem::AmbiguousComma),
        ("12,345,678", 2, Problem::AmbiguousComma),
        ("1,400.5", 1, Problem::AmbiguousComma),
        ("1.400,5", 5, Problem::ExpectedEnd),
        ("2 3 4", 2, Problem::ExpectedEnd),
        ("2.5 1/2", 4, Problem::ExpectedEnd),
        ("1/2/3", 3, Problem::ExpectedEnd),
        ("9 - 1/2", 2, Problem::ExpectedEnd),
        ("9−1/2", 1, Problem::ExpectedEnd),
        ("1e3", 1, Problem::ExpectedEnd),
    ] {
        let error = parse_number(text).expect_err(text);
        assert_eq!((error.at, error.kind), (at, kind), "{text}");
    }
}

#[test]
fn refuses_what_is_too_long_or_too_large() {
    let long = "9".repeat(400);
    assert_eq!(parse_number(&long).unwrap_err().kind, Problem::TooLong);
    let marks = "½".repeat(40);
    assert_eq!(parse_number(&marks).unwrap_err().kind, Problem::TooLong);
    for text in ["1000000000", "-1000000000 mm", "1/1000000000", "1 1/9999999999"] {
        let error = parse_number(text).expect_err(text);
        assert!(matches!(error.kind, Problem::TooLarge { .. }), "{text}");
    }
    let zeros = "0".repeat(60) + "7.5";
    assert_eq!(parse_number(&zeros).unwrap().to_bits(), 7.5f64.to_bits());
    let third = "0.".to_owned() + &"3".repeat(62);
    assert_eq!(parse_number(&third).unwrap().to_bits(), (1.0f64 / 3.0).to_bits());
}

/// Eighteen decimals are read as the standard library reads them, however many of them are
/// noughts; what stands behind may be dropped, but neither ends the reading nor changes it.
#[test]
fn what_stands_behind_eighteen_decimals_may_be_dropped() {
    for noughts in 0..45 {
        for digit in 1..=9 {
            let text = format!("0.{}{digit}", "0".repeat(noughts));
            let (read, exact) = (parse_number(&text).unwrap(), text.parse::<f64>().unwrap());
            let dropped = noughts >= 18 && read.to_bits() == 0.0_f64.to_bits();
            assert!(dropped || read.to_bits() == exact.to_bits(), "{text}: {read}");
        }
    }
}

#[test]
fn counts_characters_for_people_and_bytes_for_programs() {
    let error = parse_number("−½ x").unwrap_err();
    assert_eq!((error.at, error.character), (6, 4));
    assert_eq!(error.to_string(), "expected nothing more at character 4");
}

#[test]
fn prints_with_stated_rounding_and_never_minus_zero() {
    for (value, decimals, text) in [
        (0.0, 0, "0"),
        (-0.0, 2, "0.00"),
        (-0.004, 2, "0.00"),
        (-0.005000000001, 2, "-0.01"),
        (0.125, 2, "0.13"),
        (-0.125, 2, "-0.13"),
        (0.5, 0, "1"),
        (-0.5, 0, "-1"),
        (0.05, 1, "0.1"),
        (9.96, 1, "10.0"),
        (999.9996, 3, "1000.000"),
        // The f64 nearest to 1.005 lies below it.
        (1.005, 2, "1.00"),
        (1e-300, 17, "0.00000000000000000"),
        (5e-324, 0, "0"),
        (123456789.0, 3, "123456789.000"),
        (0.1, 200, "0.10000000000000001"),
        (f64::NAN, 2, "null"),
        (f64::INFINITY, 2, "null"),
        (1e18, 0, "null"),
    ] {
        assert_eq!(fixed(value, decimals), text, "{value:e}");
    }
}

#[test]
fn the_page_has_a_true_minus_and_a_plus_for_differences() {
    assert_eq!(print_number(-0.5, 2), "−0.50");
    assert_eq!(print_number(0.5, 2), "0.50");
    assert_eq!(print_number(-0.001, 2), "0.00");
    assert_eq!(print_number(f64::NAN, 2), "—");
    assert_eq!(signed(0.5, 1), "+0.5");
    assert_eq!(signed(-0.5, 1), "−0.5");
    assert_eq!(signed(-0.04, 1), "0.0");
    assert_eq!(signed(0.04, 1), "0.0");
    assert_eq!(signed(f64::NEG_INFINITY, 1), "—");
}

#[test]
fn zeros_that_say_nothing_are_cut() {
    for (text, cut) in
        [("2.50", "2.5"), ("2.00", "2"), ("0.0", "0"), ("20", "20"), ("−0.10", "−0.1"), ("—", "—")]
    {
        assert_eq!(without_zeros(text), cut);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4096))]

    #[test]
    fn decimals_agree_with_the_standard_library(
        whole in 0u32..1_000_000_000, part in 0u64..100_000_000, width in 0usize..9,
    ) {
        let part = part % 10u64.pow(u32::try_from(width).unwrap());
        let text = if width == 0 { format!("{whole}") } else { format!("{whole}.{part:0width$}") };
        let theirs: f64 = text.parse().unwrap();
        prop_assert_eq!(parse_number(&text).unwrap().to_bits(), theirs.to_bits(), "{}", text);
    }

    #[test]
    fn the_shortest_text_of_an_f64_reads_back_to_the_bit(
        mantissa in 0u64..(1 << 53), halvings in 24i32..56,
    ) {
        // From 0 to 5e8 down to a thousandth, all 53 bits in use.
        #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
        let value = mantissa as f64 * 2f64.powi(-halvings);
        let text = format!("{value}");
        prop_assume!(value == 0.0 || value > 0.01);
        prop_assert_eq!(parse_number(&text).unwrap().to_bits(), value.to_bits(), "{}", text);
    }

    #[test]
    fn fractions_are_the_nearest_quotient(
        whole in 0u32..1_000_000, numerator in 0u32..1_000_000, denominator in 1u32..1_000_000,
    ) {
        let quotient = f64::from(numerator) / f64::from(denominator);
        let read = parse_number(&format!("{numerator}/{denominator}")).unwrap();
        prop_assert_eq!(read.to_bits(), quotient.to_bits());

        let numerator = numerator % denominator;
        // Below 2^53, so exact, and the division rounds once.
        let improper = f64::from(whole) * f64::from(denominator) + f64::from(numerator);
        let mixed = parse_number(&format!("{whole} {numerator}/{denominator}")).unwrap();
        prop_assert_eq!(mixed.to_bits(), (improper / f64::from(denominator)).to_bits());
    }

    #[test]
    fn printing_is_the_exact_expansion_rounded(value in -1e9f64..1e9, decimals in 0u8..=17) {
        prop_assert_eq!(fixed(value, decimals), rounded_by_hand(value, decimals.into()));
    }

    #[test]
    fn printing_small_numbers_too(value in -1f64..1.0, scale in 0i32..40, decimals in 0u8..=17) {
        let value = value * 2f64.powi(-scale);
        prop_assert_eq!(fixed(value, decimals), rounded_by_hand(value, decimals.into()));
    }

    #[test]
    fn ties_go_away_from_zero(steps in -1_000_000i32..1_000_000, halvings in 1i32..6, decimals in 0u8..5) {
        // Dyadic values hit exact ties often.
        let value = f64::from(steps) * 2f64.powi(-halvings);
        prop_assert_eq!(fixed(value, decimals), rounded_by_hand(value, decimals.into()));
    }

    #[test]
    fn what_is_printed_reads_as_the_standard_library_reads_it(
        value in -1e8f64..1e8, decimals in 0u8..=9,
    ) {
        let text = fixed(value, decimals);
        let theirs: f64 = text.parse().unwrap();
        prop_assert_eq!(parse_number(&text).unwrap().to_bits(), theirs.to_bits());
        prop_assert_eq!(parse_number(&print_number(value, decimals)).unwrap().to_bits(), theirs.to_bits());
        prop_assert_eq!(parse_number(&signed(value, decimals)).unwrap().to_bits(), theirs.to_bits());
    }
}
