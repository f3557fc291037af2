//! Torques: factors of NIST SP 811, appendix B.8, "moment of force or torque".

use measure::{Units, parse_torque, print_torque, print_torque_for_wrenches};

/// Newton metres in each, as SP 811 prints them: seven digits, but for the kilogram-force, which is exact.
const FACTORS: [(&str, f64); 3] = [("ft-lb", 1.355_818), ("in-lb", 0.112_984_8), ("kg-m", 9.806_65)];

#[test]
fn a_unit_is_that_of_the_table() {
    for (unit, factor) in FACTORS {
        let read = parse_torque(&["1 ", unit].concat(), Units::Millimetres).unwrap();
        assert!((read - factor).abs() <= 5e-7 * factor, "{unit}: {read}");
    }
}

/// A foot is twelve inches, a kilogram-metre a hundred kilogram-centimetres; which word comes first, and what
/// stands between them, is a matter of taste.
#[test]
fn however_a_manual_writes_it() {
    let pounds = 85.0 * 0.453_592_37 * 9.806_65 * 0.3048;
    let writings = [
        "85 ft-lb",
        "85ft-lbs",
        "85 ft lb",
        "85 ft. lbs.",
        "85 lb-ft",
        "85 lbf·ft",
        "85 foot-pounds",
        "85 FTLB",
    ];
    for text in writings.into_iter().chain(["1020 in-lb", "1020 inlbs", "1020 in. lbs"]) {
        let read = parse_torque(text, Units::Millimetres).expect(text);
        assert!((read - pounds).abs() < 1e-9, "{text}: {read}");
    }
    for text in ["115 Nm", "115 N·m", "115 N m", "115 N-m", "115 nm", "115 newton-meters", "115"] {
        assert_eq!(
            parse_torque(text, Units::Millimetres).expect(text).to_bits(),
            115.0_f64.to_bits(),
            "{text}"
        );
    }
    for text in ["12 kgm", "12 kgf·m", "12 mkg", "1200 kg-cm"] {
        assert!((parse_torque(text, Units::Inches).expect(text) - 117.6798).abs() < 1e-9, "{text}");
    }
    let bare = parse_torque("85", Units::Inches).unwrap();
    assert!((bare - pounds).abs() < 1e-9, "{bare}");
}

#[test]
fn what_is_no_torque_is_refused_where_it_stops() {
    for (text, at, sentence) in [
        ("85 lb", 3, "expected ft-lb, N·m, kg-m or in-lb at character 4"),
        ("85 ft", 3, "expected ft-lb, N·m, kg-m or in-lb at character 4"),
        ("85 ft-ft", 3, "expected ft-lb, N·m, kg-m or in-lb at character 4"),
        ("85 lb-lb", 3, "expected ft-lb, N·m, kg-m or in-lb at character 4"),
        ("85 ft-lb dry", 9, "expected nothing more at character 10"),
        ("tight", 0, "expected a number at character 1"),
        ("7376 ft-lb", 0, "expected at most 10000 N·m at character 1"),
    ] {
        let error = parse_torque(text, Units::Inches).expect_err(text);
        assert_eq!((error.at, error.to_string().as_str()), (at, sentence), "{text}");
    }
    assert!(parse_torque("-85 ft-lb", Units::Inches).unwrap() < -115.0, "its sign is its own");
}

/// By hand: 115.2 N·m over 1.355818 is 84.97, to a tenth 85.
#[test]
fn is_printed_as_a_wrench_has_it() {
    assert_eq!(print_torque(115.2, Units::Inches), "85 ft-lb");
    assert_eq!(print_torque(16.9, Units::Inches), "12.5 ft-lb");
    assert_eq!(print_torque(115.2, Units::Millimetres), "115.2 N·m");
    assert_eq!(print_torque(115.0, Units::Millimetres), "115 N·m");
    assert_eq!(print_torque(100.0, Units::Millimetres), "100 N·m");
    assert_eq!(print_torque(f64::NAN, Units::Inches), "—");
}

/// A hub's nut is set to what an inch-pound wrench says: kept to a tenth of a newton metre (0.885 in-lb), every whole
/// number of them comes back as it was typed, up to ten foot-pounds, and no zero of one is lost. By hand: 50 in-lb is
/// 5.649 N·m, kept as 5.6, which is 4.13 ft-lb.
#[test]
fn small_torques_come_back_in_inch_pounds() {
    for typed in 1..=119 {
        let text = [&typed.to_string(), " in-lb"].concat();
        let kept = (parse_torque(&text, Units::Inches).unwrap() * 10.0).round() / 10.0;
        let said = print_torque_for_wrenches(kept, Units::Inches);
        assert!(said.ends_with(&[" ft-lb (", &text, ")"].concat()), "{said}");
    }
    assert_eq!(print_torque_for_wrenches(5.6, Units::Inches), "4.1 ft-lb (50 in-lb)");
    // 120 in-lb is 13.558 N·m, kept as 13.6, which is 10.03 ft-lb.
    assert_eq!(print_torque_for_wrenches(13.6, Units::Inches), "10 ft-lb");
    assert_eq!(print_torque_for_wrenches(5.6, Units::Millimetres), "5.6 N·m");
    assert_eq!(print_torque(5.6, Units::Inches), "4.1 ft-lb", "a field is typed over in foot-pounds");
}
