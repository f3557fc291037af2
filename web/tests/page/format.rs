//! Numbers as a field shows them, and read back.

use drawing::Units;
use page::format::{lower_or_higher, read, show, step, unread_in_words};
use truck::{ChangeKind, Field, Kind, Torque};
use wasm_bindgen_test::wasm_bindgen_test;

const UNITS: [Units; 2] = [Units::Inches, Units::Millimetres];
/// Newtons in a pound and a kilogram of force, from their definitions.
const POUND_N: f64 = 0.453_592_37 * 9.806_65;
const KILOGRAM_N: f64 = 9.806_65;

/// Half of the last digit that a field shows, in the core's unit.
fn half_shown(kind: Kind, units: Units) -> f64 {
    let inches = units == Units::Inches;
    match kind {
        Kind::Length if inches => 25.4 / 128.0,
        Kind::Length => 0.05,
        Kind::Angle => 0.005_f64.to_radians(),
        Kind::Force if inches => 0.5 * POUND_N,
        Kind::Force => 0.05 * KILOGRAM_N,
        Kind::Rate if inches => 0.5 * POUND_N / 25.4,
        Kind::Rate => 0.05,
        Kind::Modulus => 50.0,
        Kind::Count => 0.005,
        Kind::Whole => 0.5,
        Kind::RimCode => 0.05,
        Kind::Stress => 0.5,
        Kind::Torque => 0.05 * if inches { POUND_N * 0.3048 } else { 1.0 },
        Kind::Choice(_) => unreachable!("a choice is shown as a list"),
    }
}

/// Whether a field shows every digit that is kept.
const fn shown_whole(kind: Kind) -> bool {
    matches!(kind, Kind::Angle | Kind::Modulus | Kind::Count | Kind::Whole | Kind::RimCode | Kind::Stress)
}

/// Numbers over the whole range of every field and every number of a change, as they are kept.
fn numbers() -> Vec<(Kind, f64)> {
    let fields = Field::ALL.iter().map(|field| (field.kind(), field.limits()));
    let changes = ChangeKind::ALL.iter().flat_map(|kind| kind.numbers());
    let all = fields.chain(changes.map(|number| (number.kind, number.limits)));
    let ranges = all.filter(|(kind, _)| !matches!(kind, Kind::Choice(_)));
    let within = |(kind, (low, high)): (Kind, (f64, f64))| {
        (0..=97).map(move |at| {
            let value = low + (high - low) * f64::from(at) / 97.0;
            let value = if kind == Kind::Angle { value.to_radians() } else { value };
            (kind, kind.rounded(value).unwrap())
        })
    };
    ranges.chain([(Kind::Torque, Torque::LIMITS)]).flat_map(within).collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_shown_reads_back_within_the_last_digit_shown() {
    for (kind, value) in numbers() {
        for units in UNITS {
            let text = show(kind, value, units);
            let back = read(kind, &text, units).unwrap();
            let off = (back - value).abs();
            let most = half_shown(kind, units) * (1.0 + 1e-9);
            assert!(off <= most, "{kind:?} {value} as {text:?} reads back as {back}");
            assert_eq!(show(kind, back, units), text, "{kind:?} {value} is shown the same again");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_shown_whole_reads_back_as_the_same_number() {
    for (kind, value) in numbers().into_iter().filter(|(kind, _)| shown_whole(*kind)) {
        for units in UNITS {
            let back = read(kind, &show(kind, value, units), units).unwrap();
            assert_eq!(kind.rounded(back), Some(value), "{kind:?}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_shown_in_one_unit_reads_the_same_whatever_the_reader_s() {
    for (kind, value) in numbers() {
        for (shown, read_in) in [(UNITS[0], UNITS[1]), (UNITS[1], UNITS[0])] {
            let text = show(kind, value, shown);
            assert_eq!(read(kind, &text, read_in), read(kind, &text, shown), "{kind:?} {text:?}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_bare_number_is_in_the_reader_s_units() {
    for (kind, inches, millimetres) in [
        (Kind::Length, 254.0, 10.0),
        (Kind::Force, 10.0 * POUND_N, 10.0 * KILOGRAM_N),
        (Kind::Rate, 10.0 * POUND_N / 25.4, 10.0),
        (Kind::Angle, 10_f64.to_radians(), 10_f64.to_radians()),
        (Kind::Modulus, 10_000.0, 10_000.0),
        (Kind::Count, 10.0, 10.0),
    ] {
        for (units, want) in [(Units::Inches, inches), (Units::Millimetres, millimetres)] {
            let got = read(kind, "10", units).unwrap();
            assert!((got - want).abs() < 1e-9, "{kind:?} in {units:?}: {got}, not {want}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_unit_beside_the_number_wins_over_the_reader_s() {
    for units in UNITS {
        for (kind, text, want) in [
            (Kind::Length, "249 mm", 249.0),
            (Kind::Length, "9 13/16 in", 9.8125 * 25.4),
            (Kind::Force, "661 lb", 661.0 * POUND_N),
            (Kind::Rate, "61.3 N/mm", 61.3),
            (Kind::Modulus, " 79.3 GPa ", 79_300.0),
        ] {
            let got = read(kind, text, units).unwrap();
            assert!((got - want).abs() < 1e-9, "{text:?}: {got}, not {want}");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn what_cannot_be_read_is_said_and_nothing_is_made_of_it() {
    for (kind, _) in numbers() {
        for text in ["", " ", "-", "abc", "1 2 3 4", "12 parsecs", "1/0", "NaN", "inf", "1e999", "—"] {
            let why = read(kind, text, Units::Inches).unwrap_err();
            assert!(why.to_string().len() > 5, "{kind:?} {text:?}: {why:?} is a sentence");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_step_forth_and_back_is_the_number_it_was() {
    for (kind, value) in numbers() {
        for units in UNITS {
            let by = step(kind, units);
            assert!(by > 0.0);
            // As an edit keeps it, after each press.
            let forth = kind.rounded(value + by).unwrap();
            let back = kind.rounded(forth - by).unwrap();
            let apart = kind.steps(back).unwrap() - kind.steps(value).unwrap();
            assert!(apart.abs() <= 1, "{kind:?} {value}: {back}");
            assert!(forth > value, "{kind:?}: a press is seen");
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn a_drop_is_said_in_words() {
    assert_eq!(lower_or_higher(50.8, Units::Inches), "2 in lower");
    assert_eq!(lower_or_higher(-25.4, Units::Inches), "1 in higher");
    assert_eq!(lower_or_higher(51.0, Units::Millimetres), "51 mm lower");
    for units in UNITS {
        for nothing in [0.0, -0.0, 0.3, -0.3] {
            assert_eq!(lower_or_higher(nothing, units), "as it sits");
        }
    }
}

/// What is wrong is said as somebody beside the truck would say it, with what could stand there.
#[wasm_bindgen_test(unsupported = test)]
fn what_cannot_be_read_is_answered_by_what_could() {
    for (kind, text, said) in [
        (Kind::Length, "nine", "Type a number, like 9 1/4."),
        (Kind::Length, "  ", "Type a number, like 9 1/4."),
        (Kind::Length, "1/0", "Type a number, like 9 1/4."),
        (Kind::Torque, "85 lb", "After the number goes ft-lb, N·m, kg-m or in-lb."),
        (Kind::Torque, "85 ft-lb dry", "Type the number and its unit, and nothing else."),
        (Kind::Torque, "9999 kg-m", "At most 10000 N·m."),
        (Kind::Length, "1,400", "Type it without the comma."),
        (Kind::Length, "2' 13\"", "Type inches after feet below 12."),
    ] {
        let why = read(kind, text, Units::Inches).unwrap_err();
        assert_eq!(unread_in_words(&why), said, "{text}");
    }
    let size = |text| unread_in_words(&measure::TireSize::parse(text).unwrap_err());
    assert_eq!(size("205/70R99"), "Type a rim diameter from 8 to 26.");
    assert_eq!(size("31x10.5"), "Type R and the rim diameter.");
}
