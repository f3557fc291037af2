//! How wide a text is, and lengths as texts with fractions.

use crate::palette::Ink;
use crate::scene::Run;
use measure::{LengthStyle, Units, inch_parts, print_length};

/// From the middle of a box down to the baseline, in sizes of the type.
pub(crate) const BASELINE: f64 = 0.36;
/// How far a numerator stands above the baseline, in sizes of the type.
pub(crate) const RAISED: f64 = 0.36;
/// Air before and after a fraction's slash, in sizes of the type.
pub(crate) const SLASH_AIR: f64 = 0.09;
/// How far a denominator hangs below it.
pub(crate) const LOWERED: f64 = 0.1;
/// Height of a text's box, in sizes of its type.
const LINE: f64 = 1.34;
/// Room left and right of a text, in sizes of its type.
const MARGIN: f64 = 0.22;
/// Width of a text in the regular weight against the bold one.
const REGULAR: f64 = 0.93;
/// Digits of a fraction are no smaller, px.
const LEAST_DIGIT_PX: f64 = 11.0;

/// Advances of the letters from space to tilde, in hundredths of the type's
/// size: of a wide bold sans, so that narrower faces have room to spare.
const ADVANCES: [u8; 95] = [
    35, 46, 52, 84, 70, 100, 87, 31, 46, 46, 52, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70,
    40, 40, 84, 84, 84, 58, 100, 77, 76, 73, 83, 68, 68, 82, 84, 37, 37, 77, 64, 100, 84, 85, 73, 85, 77, 72,
    68, 81, 77, 110, 77, 72, 73, 46, 37, 46, 84, 50, 50, 67, 72, 59, 72, 68, 44, 72, 71, 34, 34, 67, 34, 104,
    71, 69, 72, 72, 49, 60, 48, 71, 65, 92, 65, 65, 58, 71, 37, 71, 84,
];

/// Width of a text in sizes of its type.
fn advance(words: &str) -> f64 {
    let letter = |letter: char| match letter {
        ' '..='~' => f64::from(ADVANCES[letter as usize - 32]),
        '\u{a0}' => 35.0,
        '°' => 50.0,
        '\u{2044}' => 20.0,
        '·' => 38.0,
        '−' | '↑' | '↓' | '←' | '→' | '±' | '×' => 84.0,
        // Wider than any letter of a Latin face; other scripts take a full square.
        '\u{a1}'..='\u{24f}' => 90.0,
        _ => 110.0,
    };
    words.chars().map(letter).sum::<f64>() / 100.0
}

/// Size of a fraction's digits, px.
pub(crate) fn fraction_size(size: f64) -> f64 {
    (size * 0.76).max(LEAST_DIGIT_PX)
}

/// A whole number in digits.
pub(crate) fn digits(value: u32) -> String {
    measure::fixed(f64::from(value), 0)
}

/// Height of a line, px.
pub(crate) fn line_height(size: f64) -> f64 {
    LINE * size.max(LEAST_DIGIT_PX * 1.1)
}

/// Width and height of a text's box, px.
pub(crate) fn box_of(lines: &[Vec<Run>], ink: Ink, size: f64) -> (f64, f64) {
    let mut widest = 0.0_f64;
    let mut height = 0.0;
    for line in lines {
        widest = widest.max(line.iter().map(|run| width_of(run, size)).sum());
        height += line_height(size);
    }
    // The regular weight of a face is narrower than its bold.
    let weight = if ink == Ink::TextSoft { REGULAR } else { 1.0 };
    (widest * weight + 2.0 * MARGIN * size, height)
}

fn width_of(run: &Run, size: f64) -> f64 {
    match run {
        Run::Text(words) => advance(words) * size,
        Run::Fraction(above, below) => {
            let digits = advance(&digits(*above)) + advance(&digits(*below));
            digits * fraction_size(size) + (0.2 + 2.0 * SLASH_AIR) * size
        }
    }
}

/// A sentence on lines of at most `width` px, as far as its words allow.
pub(crate) fn wrapped(sentence: &str, size: f64, width: f64) -> Vec<Vec<Run>> {
    let mut lines: Vec<String> = Vec::new();
    for word in sentence.split_ascii_whitespace() {
        match lines.last_mut() {
            Some(line) if (advance(line) + advance(word) + 0.35 + 2.0 * MARGIN) * size <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.into_iter().map(|line| vec![Run::Text(line)]).collect()
}

/// A text of words alone.
pub(crate) fn words(text: &str) -> Vec<Run> {
    vec![Run::Text(text.to_owned())]
}

/// A length with its unit: a whole number, a fraction, the unit.
pub(crate) fn length(mm: f64, units: Units) -> Vec<Run> {
    let LengthStyle::Inches { denominator } = units.length_style() else {
        return words(&print_length(mm, units.length_style()));
    };
    let parts = inch_parts(mm, denominator);
    let mut text = String::new();
    if parts.negative {
        text.push('−');
    }
    if parts.whole > 0 || parts.numerator == 0 {
        text.push_str(&digits(parts.whole));
    }
    let mut runs = Vec::with_capacity(3);
    if !text.is_empty() {
        runs.push(Run::Text(text));
    }
    if parts.numerator > 0 {
        runs.push(Run::Fraction(parts.numerator, parts.denominator));
    }
    runs.push(Run::Text("\u{a0}in".to_owned()));
    runs
}

/// Words, a length and words.
pub(crate) fn phrase(before: &str, mm: f64, after: &str, units: Units) -> Vec<Run> {
    let mut runs = Vec::new();
    if !before.is_empty() {
        runs.push(Run::Text(before.to_owned()));
    }
    runs.extend(length(mm, units));
    if !after.is_empty() {
        runs.push(Run::Text(after.to_owned()));
    }
    runs
}

/// The same in plain letters.
pub(crate) fn plain(lines: &[Vec<Run>]) -> String {
    let mut text = String::new();
    for line in lines {
        if !text.is_empty() {
            text.push(' ');
        }
        for run in line {
            match run {
                Run::Text(words) => {
                    text.extend(words.chars().map(|letter| if letter == '\u{a0}' { ' ' } else { letter }));
                }
                Run::Fraction(above, below) => {
                    if text.ends_with(|letter: char| letter.is_ascii_digit()) {
                        text.push(' ');
                    }
                    text.push_str(&digits(*above));
                    text.push('/');
                    text.push_str(&digits(*below));
                }
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_the_printed_one_taken_apart() {
        for mm in [0.0, 249.24, 12.7, -12.7, 50.8, 3.2, 1000.0] {
            let text = plain(&[length(mm, Units::Inches)]);
            assert_eq!(text, print_length(mm, Units::Inches.length_style()));
        }
        assert_eq!(plain(&[length(249.24, Units::Millimetres)]), "249 mm");
    }

    #[test]
    fn digits_of_a_fraction_are_never_below_eleven_pixels() {
        for size in [11.0, 12.0, 15.0, 20.0] {
            assert!(fraction_size(size) >= 11.0);
        }
    }

    #[test]
    fn the_advance_of_every_letter_is_in_the_table() {
        // Spot checks by the letters' order: space, 0, W, m, tilde.
        for (letter, hundredths) in [(" ", 35.0), ("0", 70.0), ("W", 110.0), ("m", 104.0), ("~", 84.0)] {
            assert!((advance(letter) - hundredths / 100.0).abs() < 1e-12, "{letter}");
        }
    }
}
