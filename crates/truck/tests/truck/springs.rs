//! Springs where the textbook's tables and plain geometry answer by themselves.

use crate::{fitted, near};
use truck::{
    Bar, BarAdjuster, Change, Coil, CoilEnds, CoilSwap, CutCoil, Remark, SeatSpacer, SpringKind, Truck, demo,
};

fn coil_truck() -> Truck {
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::Coil;
    truck
}

/// Shigley, *Mechanical Engineering Design*, table 10-1, formulas for the dimensions of
/// compression springs, from memory. By its rows for end coils, total coils and solid length:
///
/// | ends | end coils | total `Nt` | solid length |
/// |---|---|---|---|
/// | plain | 0 | `Na` | `d (Nt + 1)` |
/// | plain and ground | 1 | `Na + 1` | `d Nt` |
/// | squared or closed | 2 | `Na + 2` | `d (Nt + 1)` |
/// | squared and ground | 2 | `Na + 2` | `d Nt` |
#[test]
fn solid_length_by_the_table_of_ends() {
    let coil = demo().truck.spring.coil;
    for (words, ends, end_coils, more) in [
        ("plain", CoilEnds::Plain, 0.0, 1.0),
        ("plain and ground", CoilEnds::PlainGround, 1.0, 0.0),
        ("closed", CoilEnds::Closed, 2.0, 1.0),
        ("closed and ground", CoilEnds::ClosedGround, 2.0, 0.0),
    ] {
        assert_eq!(CoilEnds::WORDS[ends as usize], words);
        for (wire_mm, active) in [(4.0, 8.0), (15.5, 6.25)] {
            let coil = Coil { wire_mm, active, ends: Some(ends), ..coil };
            let total = active + end_coils;
            near(coil.solid_mm().unwrap(), wire_mm * (total + more), words);
        }
    }
    assert_eq!(Coil { ends: None, ..coil }.solid_mm(), None);
}

/// Four millimetres of wire and eight active coils, counted: plain 9 wires high, closed 11, ground 10.
#[test]
fn wires_on_top_of_each_other() {
    let coil = demo().truck.spring.coil;
    for (ends, wires) in CoilEnds::ALL.iter().copied().zip([9.0, 9.0, 11.0, 10.0]) {
        let coil = Coil { wire_mm: 4.0, active: 8.0, ends: Some(ends), ..coil };
        near(coil.solid_mm().unwrap(), 4.0 * wires, CoilEnds::WORDS[ends as usize]);
    }
}

/// What is cut off is gone from the coils that work; one must be left.
#[test]
fn coils_are_counted() {
    let mut truck = coil_truck();
    truck.spring.coil.active = 7.0;
    let cut = |coils: f64| fitted(&truck, Change::CutCoil(CutCoil { coils }));
    for (coils, left) in [(0.5, 6.5), (1.25, 5.75), (6.0, 1.0)] {
        let after = cut(coils);
        near(after.spring.coil.active, left, "active");
        near(after.coils_cut, coils, "cut");
        assert_eq!(after.remarks, []);
    }
    let after = cut(6.5);
    near(after.spring.coil.active, 7.0, "left alone");
    near(after.coils_cut, 0.0, "left alone");
    assert_eq!(after.remarks, [Remark::TooManyCoils { active: 7.0 }]);
}

/// Another coil and a spacer are what they say they are.
#[test]
fn another_coil_is_as_it_says() {
    let truck = coil_truck();
    let swap = CoilSwap { wire_mm: 16.0, mean_mm: 102.0, active: 6.5, free_mm: Some(390.0) };
    let after = fitted(&truck, Change::CoilSwap(swap));
    let expected = Coil { wire_mm: 16.0, mean_mm: 102.0, active: 6.5, ..truck.spring.coil };
    assert_eq!((after.spring.coil, after.coil_free_mm), (expected, Some(390.0)));
    for thickness_mm in [-8.0, 12.0] {
        let after = fitted(&truck, Change::SeatSpacer(SeatSpacer { thickness_mm }));
        near(after.spacer_mm, thickness_mm, "spacer");
    }
}

fn bar(lever_angle_rad: f64) -> Bar {
    Bar { lever_mm: 150.0, lever_angle_rad, thread_pitch_mm: 1.5, ..demo().truck.spring.bar }
}

/// At a right angle the bolt's travel over the lever is the tangent of the turn. At
/// another angle the law of cosines gives what is left between the bolt's end and
/// the bar's centre, and the law of sines the turn.
#[test]
fn a_turned_bolt_turns_its_lever() {
    for turns in [-20.0, -1.0, 0.0, 4.0, 20.0] {
        let turn = bar(90_f64.to_radians()).anchor_turn_rad(turns);
        near(libm::tan(turn), turns * 1.5 / 150.0, "tangent");
        for degrees in [55.0_f64, 70.0, 110.0, 125.0] {
            let angle = degrees.to_radians();
            let turn = bar(angle).anchor_turn_rad(turns);
            let push = turns * 1.5;
            let far = (150.0_f64 * 150.0 + push * push - 2.0 * 150.0 * push * libm::cos(angle)).sqrt();
            near(libm::sin(turn), push * libm::sin(angle) / far, "law of sines");
            near(bar(angle).turns_for(turn).unwrap(), turns, "and back");
        }
    }
    // A lever turned to where the bolt's line runs past it is never reached.
    assert_eq!(bar(125_f64.to_radians()).turns_for(60_f64.to_radians()), None);
    assert_eq!(bar(60_f64.to_radians()).turns_for(-65_f64.to_radians()), None);
}

/// The bolt has so many turns left each way, and says so when they are used up.
#[test]
fn a_bolt_has_its_turns_left_each_way() {
    let mut truck = demo().truck;
    (truck.spring.bar.turns_in, truck.spring.bar.turns_out) = (5.0, 8.0);
    for (turns, left) in [(5.0, None), (5.5, Some(5.0)), (-5.5, None), (-8.0, None), (-8.5, Some(8.0))] {
        let after = fitted(&truck, Change::BarAdjuster(BarAdjuster { turns }));
        let said: Vec<_> = left.map(|left| Remark::PastThread { left }).into_iter().collect();
        assert_eq!(after.remarks, said, "{turns}");
        assert!(after.anchor_turn_rad * turns > 0.0, "in raises");
    }
}
