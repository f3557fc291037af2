//! A wheel or rotor on its hub: circle of bolts, pilot, seat and thread of the nuts.
//!
//! That it goes on by hand is not asked: over a circle that is a little off it does, and its
//! nuts then bend the studs. Common practice, no source.

use super::numbers::Numbers;
use super::rule::{Aspect, Rule, Work};
use std::f64::consts::PI;
use truck::callouts::circle::{
    ADJACENT, ADJACENT_STUDS, BORE, CENTRED, HOLE, HOLES, SEAT, SPIGOT, STUD, STUDS, THREAD,
};

/// Most clearance of a pilot that centres, mm. Common practice, no source.
const PILOT_MM: f64 = 0.3;

/// Diameter of a circle of so many bolts from the distance of two next to each other, mm.
fn circle_mm(adjacent_mm: f64, count: f64) -> f64 {
    adjacent_mm / linkage::angle::sin(PI / count)
}

const NEEDED: &[u8] =
    &[HOLES, STUDS, ADJACENT, ADJACENT_STUDS, HOLE, STUD, CENTRED, BORE, SPIGOT, SEAT, THREAD];
const REFUSALS: &[&[u8]] =
    &[&[HOLES, STUDS], &[BORE, SPIGOT], &[SEAT], &[THREAD], &[HOLES, ADJACENT, ADJACENT_STUDS, HOLE, STUD]];

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(numbers, NEEDED, REFUSALS);
    rule.equal(Aspect::Count, HOLES, STUDS);
    if let Some([count, adjacent, studs, hole, stud]) =
        numbers.all([HOLES, ADJACENT, ADJACENT_STUDS, HOLE, STUD]).filter(|numbers| numbers[0] >= 2.0)
    {
        let (holes, studs) = (circle_mm(adjacent, count), circle_mm(studs, count));
        // Each stud is off by half of what the circles differ, and has half of its clearance.
        rule.within(Aspect::Circle, [holes, studs], hole - stud, None);
    }
    if let Some([bore, spigot]) = numbers.all([BORE, SPIGOT]) {
        let clearance = bore - spigot;
        rule.length(Aspect::Pilot, bore, spigot, clearance);
        if numbers.choice(CENTRED) == Some(0) {
            let ring = Work::CentringRing { wall_mm: clearance / 2.0 };
            rule.length(Aspect::Pilot, bore, spigot, PILOT_MM - clearance).work = Some(ring);
        }
    }
    rule.fact(Aspect::Seat, SEAT);
    rule.fact(Aspect::Nut, THREAD);
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::{Mating, Tool};

    fn wheel(adjacent: f64, bore: f64, centred: f64, spoiled: Option<u8>) -> Answer {
        let five_on = |circle: f64| circle * libm::sin(PI / 5.0);
        let mut numbers = vec![
            (HOLES, 5.0, Tool::Counted),
            (STUDS, 5.0, Tool::Counted),
            (ADJACENT, adjacent, Tool::Caliper),
            (ADJACENT_STUDS, five_on(114.3), Tool::Caliper),
            (HOLE, 13.0, Tool::Caliper),
            (STUD, 12.0, Tool::Caliper),
            (CENTRED, centred, Tool::Counted),
            (BORE, bore, Tool::Caliper),
            (SPIGOT, 66.0, Tool::Caliper),
            (SEAT, 1.0, Tool::Counted),
            (THREAD, 1.0, Tool::Stamped),
        ];
        let spoil = |number: &mut (u8, f64, Tool)| number.1 = if number.1 > 2.0 { 6.0 } else { 0.0 };
        numbers.iter_mut().filter(|number| Some(number.0) == spoiled).for_each(spoil);
        answer(Mating::Circle, false, &numbers)
    }

    /// Arithmetic: of five lugs two next to each other are 0.5878 of the circle apart, of six 0.5,
    /// and of four the root of a half.
    #[test]
    fn a_circle_is_found_from_two_neighbours() {
        near(0.5878 * circle_mm(1.0, 5.0), 1.0, 1e-4);
        near(circle_mm(69.85, 6.0), 139.7, 1e-9);
        near(circle_mm(70.0, 4.0), 70.0 * libm::sqrt(2.0), 1e-9);
    }

    /// 114.3 and 115 mm: 0.7 of the millimetre that the holes give; 114.3 and 120.65 never.
    #[test]
    fn circles_may_differ_by_a_holes_clearance() {
        let five_on = |circle: f64| circle * libm::sin(PI / 5.0);
        assert!(mates(&wheel(five_on(114.9), 66.15, 0.0, None)));
        assert_eq!(refused(&wheel(five_on(120.65), 66.15, 0.0, None)), Aspect::Circle);
    }

    #[test]
    fn a_pilot_that_centres_may_not_be_loose_and_a_ring_mends_it() {
        let same = 114.3 * libm::sin(PI / 5.0);
        let loose = wheel(same, 70.0, 0.0, None).verdict;
        assert_eq!(loose, Verdict::WithWork(vec![Work::CentringRing { wall_mm: 2.0 }]));
        assert!(mates(&wheel(same, 70.0, 1.0, None)), "the nuts center");
        assert_eq!(refused(&wheel(same, 65.5, 0.0, None)), Aspect::Pilot);
        assert_eq!(refused(&wheel(same, 65.5, 1.0, None)), Aspect::Pilot);
    }

    #[test]
    fn another_count_seat_or_thread_refuses() {
        let same = 114.3 * libm::sin(PI / 5.0);
        for (callout, aspect) in [(HOLES, Aspect::Count), (SEAT, Aspect::Seat), (THREAD, Aspect::Nut)] {
            assert_eq!(refused(&wheel(same, 66.15, 0.0, Some(callout))), aspect);
        }
    }
}
