//! Tire sizes as people write them. What a size measures is checked in `tests/tests/tires.rs`.

use measure::TireSize;
use proptest::prelude::*;

#[test]
fn reads_sizes_as_people_write_them() {
    for (text, printed) in [
        ("195/75R14", "195/75R14"),
        ("195/75-14", "195/75R14"),
        ("195/75D14", "195/75R14"),
        ("195 75 14", "195/75R14"),
        ("195/75 r 14", "195/75R14"),
        (" 195 / 75 R14 ", "195/75R14"),
        ("P195/75R14", "195/75R14"),
        ("195/75R14 92S", "195/75R14"),
        ("LT245/75R16", "LT245/75R16"),
        ("lt 245/75r16", "LT245/75R16"),
        ("245/75R16LT", "LT245/75R16"),
        ("LT245/75R16 108/104S", "LT245/75R16"),
        ("265/75R16.5", "265/75R16.5"),
        ("31x10.5R15", "31x10.50R15"),
        ("31 X 10.5 - 15 LT", "LT31x10.50R15"),
        ("33×12.50R16.5LT 108Q", "LT33x12.50R16.5"),
    ] {
        assert_eq!(TireSize::parse(text).expect(text).print(), printed, "{text}");
    }
}

#[test]
fn refuses_with_the_place_and_a_sentence() {
    for (text, at, sentence) in [
        ("", 0, "expected a number, but there is nothing here"),
        ("XL195/75R14", 0, "expected a size like 195/75R14 or 31x10.50R15 at character 1"),
        ("F78-14", 0, "expected a size like 195/75R14 or 31x10.50R15 at character 1"),
        ("31x1.5R15", 0, "expected a size like 195/75R14 or 31x10.50R15 at character 1"),
        ("31x10.5", 7, "expected R and the rim diameter at character 8"),
        ("31xR15", 3, "expected a number at character 4"),
        ("195", 3, "expected a slash and the aspect ratio at character 4"),
        ("195R14", 3, "expected a slash and the aspect ratio at character 4"),
        ("195/", 4, "expected a number at character 5"),
        ("195/75", 6, "expected R and the rim diameter at character 7"),
        ("195/75R", 7, "expected a number at character 8"),
        ("19/75R14", 0, "expected a section width between 100 and 400 at character 1"),
        ("195/7R14", 4, "expected an aspect ratio between 25 and 100 at character 5"),
        ("195/75R140", 7, "expected a rim diameter between 8 and 26 at character 8"),
        ("195/75R14.2", 7, "expected a rim diameter in whole or half inches at character 8"),
        ("195/75R14 92", 12, "expected a speed letter after the load index at character 13"),
        ("195/75R14 on steel", 10, "expected nothing more at character 11"),
    ] {
        let error = TireSize::parse(text).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
}

/// By hand: 10.5 in is 266.7 mm, and (31 − 15) / 2 of 10.5 is 76.19 in a hundred; 12.5 in is 317.5, which is rounded up, and
/// (33 − 15) / 2 of it is 72; 9.5 is 241.3, and 7.5 of it 78.95. Made of the metric size the tire is as high to a
/// fiftieth of an inch: 15 · 25.4 + 2 · 267 · 0.76 is 786.8 mm, 31 in 787.4.
#[test]
fn a_size_in_inches_is_the_metric_one_that_it_is_nearest_to() {
    for (text, width_mm, aspect_percent) in
        [("31x10.50R15", 267.0, 76.0), ("33x12.50R15", 318.0, 72.0), ("30x9.50R15", 241.0, 79.0)]
    {
        let size = TireSize::parse(text).unwrap();
        let expected = TireSize { width_mm, aspect_percent, rim_in: 15.0, light_truck: false };
        assert_eq!((size, size.print().as_str()), (expected, text));
    }
    // A width that ends in 5 is a metric one's, whatever it is in inches.
    assert_eq!(measure::print_tire_size(235.0, 75.0, 15.0), "235/75R15");
}

proptest! {
    #[test]
    fn a_printed_size_reads_back(
        width_mm in (100u32..=400).prop_map(f64::from), aspect_percent in (25u32..=100).prop_map(f64::from), halves in 16u32..=52,
        light_truck: bool,
    ) {
        let size = TireSize {
            width_mm, aspect_percent, rim_in: f64::from(halves) / 2.0, light_truck,
        };
        prop_assert_eq!(TireSize::parse(&size.print()).unwrap(), size);
    }
}
