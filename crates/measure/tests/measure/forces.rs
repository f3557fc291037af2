//! Forces and rates: factors of NIST SP 811, appendix B, where a pound-force is
//! 0.45359237 kg times 9.80665 m/s².

use measure::{
    ForceUnit, NEWTONS_PER_KILOGRAM, NEWTONS_PER_POUND, RateUnit, parse_force, parse_rate, print_force,
    print_rate,
};

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-14 * b.abs()
}

#[test]
fn a_pound_is_its_mass_times_gravity() {
    assert!(near(NEWTONS_PER_POUND, 0.45359237 * 9.80665));
    assert!(near(NEWTONS_PER_KILOGRAM, 9.80665));
}

#[test]
fn reads_forces() {
    for (text, newtons, unit) in [
        ("2900 N", 2900.0, ForceUnit::Newton),
        ("2.9 kN", 2900.0, ForceUnit::Newton),
        ("300kg", 2941.995, ForceUnit::Kilogram),
        ("300 kgf", 2941.995, ForceUnit::Kilogram),
        ("300 kilos", 2941.995, ForceUnit::Kilogram),
        ("1000 lbs", 4448.2216152605, ForceUnit::Pound),
        ("1000 lb.", 4448.2216152605, ForceUnit::Pound),
        ("1000", 4448.2216152605, ForceUnit::Pound),
        ("-1/2 LBF", -2.22411080763025, ForceUnit::Pound),
    ] {
        let force = parse_force(text, ForceUnit::Pound).expect(text);
        assert!(near(force.newtons, newtons), "{text}");
        assert_eq!(force.unit, unit, "{text}");
    }
}

#[test]
fn reads_rates() {
    // SP 811 lists the pound-force per inch as 175.1268 N/m.
    let pound_per_inch = parse_rate("1 lb/in", RateUnit::NewtonPerMillimetre).unwrap();
    assert!((pound_per_inch.newtons_per_mm * 1000.0 - 175.1268).abs() < 5e-5);
    for (text, newtons_per_mm, unit) in [
        ("61 N/mm", 61.0, RateUnit::NewtonPerMillimetre),
        ("61", 61.0, RateUnit::NewtonPerMillimetre),
        ("61 kN/m", 61.0, RateUnit::NewtonPerMillimetre),
        ("350 lb/in", 350.0 * 4.4482216152605 / 25.4, RateUnit::PoundPerInch),
        ("350 lbs per inch", 350.0 * 4.4482216152605 / 25.4, RateUnit::PoundPerInch),
        ("350 lb. / in.", 350.0 * 4.4482216152605 / 25.4, RateUnit::PoundPerInch),
        ("6.2kgf/mm", 6.2 * 9.80665, RateUnit::KilogramPerMillimetre),
    ] {
        let rate = parse_rate(text, RateUnit::NewtonPerMillimetre).expect(text);
        assert!(near(rate.newtons_per_mm, newtons_per_mm), "{text}");
        assert_eq!(rate.unit, unit, "{text}");
    }
}

#[test]
fn refuses_with_the_place_and_a_sentence() {
    for (text, at, sentence) in [
        ("", 0, "expected a number, but there is nothing here"),
        ("kg", 0, "expected a number at character 1"),
        ("3 mm", 2, "expected N, kg or lb at character 3"),
        ("3 lb lb", 5, "expected nothing more at character 6"),
        ("1000001", 0, "expected at most 1000000 N at character 1"),
    ] {
        let error = parse_force(text, ForceUnit::Newton).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
    for (text, at, sentence) in [
        ("61 mm", 3, "expected N/mm, kg/mm or lb/in at character 4"),
        ("61 N", 4, "expected a slash and a length unit at character 5"),
        ("61 N mm", 5, "expected a slash and a length unit at character 6"),
        ("61 N/", 5, "expected mm or in at character 6"),
        ("61 N/mm2", 7, "expected nothing more at character 8"),
        ("999999999", 0, "expected at most 1000000 N/mm at character 1"),
    ] {
        let error = parse_rate(text, RateUnit::NewtonPerMillimetre).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
}

#[test]
fn prints() {
    assert_eq!(print_force(2941.995, ForceUnit::Newton), "2942 N");
    assert_eq!(print_force(2941.995, ForceUnit::Kilogram), "300.0 kg");
    assert_eq!(print_force(-4448.2216152605, ForceUnit::Pound), "−1000 lb");
    assert_eq!(print_force(-0.1, ForceUnit::Pound), "0 lb");
    assert_eq!(print_force(f64::NAN, ForceUnit::Pound), "—");
    assert_eq!(print_rate(61.294, RateUnit::NewtonPerMillimetre), "61.3 N/mm");
    assert_eq!(print_rate(61.2943922, RateUnit::PoundPerInch), "350 lb/in");
    assert_eq!(print_rate(61.2915625, RateUnit::KilogramPerMillimetre), "6.25 kg/mm");
    assert_eq!(print_rate(f64::INFINITY, RateUnit::PoundPerInch), "—");
}
