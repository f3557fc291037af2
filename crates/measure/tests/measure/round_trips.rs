//! What is printed reads back, and no text brings a parser down.

use measure::{
    ForceUnit, LengthStyle, LengthUnit, ParseError, RateUnit, TireSize, Units, parse_angle, parse_force,
    parse_length, parse_number, parse_rate, parse_torque, print_angle, print_force, print_length, print_rate,
};
use proptest::prelude::*;
use proptest::sample::select;

/// Texts near the grammars: their own characters in any order.
fn near_grammar() -> impl Strategy<Value = String> {
    let pieces = vec![
        "0",
        "1",
        "2",
        "16",
        "999999999",
        "/",
        "⁄",
        ".",
        ",",
        " ",
        "-",
        "−",
        "–",
        "+",
        "'",
        "\"",
        "''",
        "′",
        "½",
        "⅞",
        "°",
        "mm",
        "in",
        "ft",
        "m",
        "deg",
        "min",
        "lb",
        "kg",
        "N",
        "R",
        "LT",
        "per",
        "\u{a0}",
    ];
    prop::collection::vec(select(pieces), 0..12).prop_map(|pieces| pieces.concat())
}

/// An error's place lies in its text, at a character, and its two counts agree.
fn check_place(text: &str, error: Option<ParseError>) -> Result<(), TestCaseError> {
    if let Some(error) = error {
        let before = text.get(..error.at);
        prop_assert!(before.is_some(), "{} in {:?}", error.at, text);
        prop_assert_eq!(before.map(|text| text.chars().count() + 1), Some(error.character));
    }
    Ok(())
}

fn check_total(text: &str) -> Result<(), TestCaseError> {
    check_place(text, parse_number(text).err())?;
    check_place(text, parse_angle(text).err())?;
    check_place(text, parse_force(text, ForceUnit::Newton).err())?;
    check_place(text, parse_rate(text, RateUnit::PoundPerInch).err())?;
    check_place(text, parse_torque(text, Units::Inches).err())?;
    check_place(text, TireSize::parse(text).err())?;
    let length = parse_length(text, LengthUnit::Inch);
    if let Ok(length) = &length {
        prop_assert!(length.mm.abs() <= 1e6, "{:?}", text);
        prop_assert!(length.mm != 0.0 || length.mm.is_sign_positive(), "{:?}", text);
    }
    check_place(text, length.err())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn inches_read_back_within_half_a_step(
        mm in -1e5f64..1e5, denominator in select(vec![1u32, 2, 4, 8, 10, 16, 32, 64, 128, 1024]),
    ) {
        let style = LengthStyle::Inches { denominator };
        let text = print_length(mm, style);
        // The unit is in the text, so the field's own does not matter.
        let read = parse_length(&text, LengthUnit::Metre).unwrap();
        prop_assert_eq!(read.unit, LengthUnit::Inch);
        let half_step = 25.4 / f64::from(denominator) / 2.0;
        prop_assert!((read.mm - mm).abs() <= half_step * (1.0 + 1e-6), "{}", text);
        prop_assert_eq!(print_length(read.mm, style), text);
    }

    #[test]
    fn small_inches_too(mm in -30f64..30.0) {
        let style = LengthStyle::Inches { denominator: 64 };
        let text = print_length(mm, style);
        let read = parse_length(&text, LengthUnit::Metre).unwrap();
        prop_assert!((read.mm - mm).abs() <= 25.4 / 128.0 * (1.0 + 1e-6), "{}", text);
        prop_assert!(read.mm * mm >= 0.0, "{}", text);
    }

    #[test]
    fn millimetres_read_back_within_half_a_step(mm in -1e6f64..1e6, decimals in 0u8..=8) {
        let style = LengthStyle::Millimetres { decimals };
        let text = print_length(mm, style);
        let read = parse_length(&text, LengthUnit::Inch).unwrap();
        let half_step = 0.5 * 10f64.powi(-i32::from(decimals));
        prop_assert!((read.mm - mm).abs() <= half_step + 2e-10, "{}", text);
        prop_assert_eq!(print_length(read.mm, style), text);
    }

    #[test]
    fn a_hundredth_of_a_millimetre_reads_back_to_the_bit(hundredths in -100_000_000i32..=100_000_000) {
        let mm = f64::from(hundredths) / 100.0;
        let text = print_length(mm, LengthStyle::Millimetres { decimals: 2 });
        let read = parse_length(&text, LengthUnit::Inch).unwrap();
        prop_assert_eq!(read.mm.to_bits(), mm.to_bits());
    }

    #[test]
    fn angles_read_back_within_half_a_step(degrees in -360f64..360.0, decimals in 0u8..=10) {
        let rad = degrees.to_radians();
        let text = print_angle(rad, decimals);
        let read = parse_angle(&text).unwrap().rad;
        let half_step = (0.5 * 10f64.powi(-i32::from(decimals))).to_radians();
        prop_assert!((read - rad).abs() <= half_step + 1e-14, "{}", text);
        prop_assert_eq!(print_angle(read, decimals), text);
    }

    #[test]
    fn forces_and_rates_read_back(
        value in -1e5f64..1e5,
        force in select(vec![ForceUnit::Newton, ForceUnit::Kilogram, ForceUnit::Pound]),
        rate in select(vec![
            RateUnit::NewtonPerMillimetre, RateUnit::KilogramPerMillimetre, RateUnit::PoundPerInch,
        ]),
    ) {
        let text = print_force(value, force);
        let read = parse_force(&text, ForceUnit::Newton).unwrap();
        prop_assert_eq!(read.unit, force);
        prop_assert!((read.newtons - value).abs() <= 0.5001 * force.newtons(), "{}", text);
        prop_assert_eq!(print_force(read.newtons, force), text);

        let text = print_rate(value, rate);
        let read = parse_rate(&text, RateUnit::NewtonPerMillimetre).unwrap();
        prop_assert_eq!(read.unit, rate);
        prop_assert!((read.newtons_per_mm - value).abs() <= 0.5001 * rate.newtons_per_mm(), "{}", text);
        prop_assert_eq!(print_rate(read.newtons_per_mm, rate), text);
    }

    #[test]
    fn any_text_gives_a_value_or_a_place(text in any::<String>()) {
        check_total(&text)?;
    }

    #[test]
    fn any_text_near_the_grammars_gives_a_value_or_a_place(text in near_grammar()) {
        check_total(&text)?;
    }
}
