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
    ] {
        assert_eq!(TireSize::parse(text).expect(text).print(), printed, "{text}");
    }
}

#[test]
fn refuses_with_the_place_and_a_sentence() {
    for (text, at, sentence) in [
        ("", 0, "expected a number, but there is nothing here"),
        ("XL195/75R14", 0, "expected a number at character 1"),
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

proptest! {
    #[test]
    fn a_printed_size_reads_back(
        width_mm in 100u32..=400, aspect_percent in 25u32..=100, halves in 16u32..=52,
        light_truck: bool,
    ) {
        let size = TireSize {
            width_mm, aspect_percent, rim_in: f64::from(halves) / 2.0, light_truck,
        };
        prop_assert_eq!(TireSize::parse(&size.print()).unwrap(), size);
    }
}
