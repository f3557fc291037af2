//! Readers of text from outside, over any bytes.

use cli::tree;
use measure::{
    ForceUnit, LengthStyle, LengthUnit, RateUnit, TireSize, fixed, parse_angle, parse_force, parse_length,
    parse_number, parse_rate, print_angle, print_force, print_length, print_number, print_rate, signed,
    spoken_angle, spoken_length,
};
use sharing::fuzz::{fuzz_file, fuzz_link};
use sharing::{find_code, from_kept_text, from_tree, print_json, to_kept_text, to_tree};

/// A payload, a code, or text with a link in it: a design or a sentence, and
/// what opens is shared again as the same.
///
/// # Panics
/// When a promise of the readers does not hold.
pub fn link(bytes: &[u8]) {
    fuzz_link(bytes);
    if let Ok(text) = str::from_utf8(bytes)
        && let Err(error) = find_code(text)
    {
        let sentence = error.to_string();
        assert!(sentence.ends_with('.') && sentence.len() < 200, "{sentence}");
    }
}

/// JSON text through the command's reader, and the same bytes as a tree: a design
/// or a sentence, and what opens is written again as the same.
///
/// # Panics
/// When a promise of the readers does not hold.
pub fn file(bytes: &[u8]) {
    fuzz_file(bytes);
    let Ok(text) = str::from_utf8(bytes) else { return };
    let Ok(read) = tree::parse(text) else { return };
    match from_tree(&read) {
        Ok(shared) => {
            let written = print_json(&to_tree(&shared));
            let again = tree::parse(&written).expect("what is written is JSON");
            assert_eq!(from_tree(&again).as_ref(), Ok(&shared));
            assert_eq!(from_kept_text(&to_kept_text(&shared)).as_ref(), Ok(&shared));
        }
        Err(error) => {
            let sentence = error.to_string();
            let steers = |letter: char| letter.is_control() || letter == '\u{202e}';
            assert!(!sentence.contains(steers), "{sentence:?} steers the screen");
            assert!(sentence.len() < 1000, "{} bytes of sentence", sentence.len());
        }
    }
}

/// A quantity as somebody typed it: a number within its limits or an error that
/// points into the text; what is printed of it is read again.
///
/// # Panics
/// When a promise of the readers does not hold.
pub fn numbers(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let text = text.as_ref();
    let inside = |at: usize| assert!(at <= text.len() && text.is_char_boundary(at), "{at} of {text:?}");
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        match parse_length(text, unit) {
            Ok(length) => lengths(length.mm),
            Err(error) => inside(error.at),
        }
    }
    match parse_angle(text) {
        Ok(angle) => {
            assert!(angle.rad.abs() <= std::f64::consts::TAU && !is_minus_zero(angle.rad));
            let printed = print_angle(angle.rad, 2);
            let again = parse_angle(&printed).expect("a printed angle is read").rad;
            assert!((again - angle.rad).abs() <= 0.0051_f64.to_radians(), "{printed} of {text:?}");
            let _ = spoken_angle(angle.rad, 2);
        }
        Err(error) => inside(error.at),
    }
    match parse_force(text, ForceUnit::Newton) {
        Ok(force) => {
            assert!(force.newtons.abs() <= 1e6);
            let printed = print_force(force.newtons, ForceUnit::Pound);
            let again = parse_force(&printed, ForceUnit::Pound);
            assert!(again.is_ok() || force.newtons.abs() > ROUNDED_OUT, "{printed} of {text:?}");
        }
        Err(error) => inside(error.at),
    }
    match parse_rate(text, RateUnit::NewtonPerMillimetre) {
        Ok(rate) => {
            assert!(rate.newtons_per_mm.abs() <= 1e6);
            let printed = print_rate(rate.newtons_per_mm, RateUnit::PoundPerInch);
            let again = parse_rate(&printed, RateUnit::PoundPerInch);
            assert!(again.is_ok() || rate.newtons_per_mm.abs() > ROUNDED_OUT, "{printed} of {text:?}");
        }
        Err(error) => inside(error.at),
    }
    match parse_number(text) {
        Ok(number) => {
            // Decimals behind 999999999 may round up to the billion that is refused.
            assert!(number.abs() <= 1e9 && !is_minus_zero(number));
            for printed in [fixed(number, 17), print_number(number, 3), signed(number, 0)] {
                let again = parse_number(&printed).map(f64::abs);
                assert!(again.is_ok() || number.abs() >= 999_999_999.0, "{printed} of {text:?}");
            }
        }
        Err(error) => inside(error.at),
    }
    match TireSize::parse(text) {
        Ok(size) => assert_eq!(TireSize::parse(&size.print()), Ok(size), "{text:?}"),
        Err(error) => inside(error.at),
    }
}

/// A length that was read, printed in every style and read again.
fn lengths(mm: f64) {
    assert!(mm.abs() <= 1e6 && !is_minus_zero(mm), "{mm} mm");
    let styles = [
        (LengthStyle::Millimetres { decimals: 2 }, 0.005),
        (LengthStyle::Inches { denominator: 16 }, 25.4 / 32.0),
    ];
    for (style, near) in styles {
        let printed = print_length(mm, style);
        match parse_length(&printed, LengthUnit::Millimetre) {
            Ok(again) => assert!((again.mm - mm).abs() <= near * 1.001, "{printed} of {mm} mm is {again:?}"),
            Err(error) => assert!(mm.abs() > ROUNDED_OUT, "{printed} of {mm} mm: {error}"),
        }
        let _ = spoken_length(mm, style);
    }
}

/// Rounded to what is printed, more than this may lie beyond the million that is read, mm, N or N/mm.
const ROUNDED_OUT: f64 = 999_980.0;

fn is_minus_zero(value: f64) -> bool {
    value == 0.0 && value.is_sign_negative()
}
