//! A crush sleeve: it takes the bolt's clamping where the part is hollow.

use super::numbers::Numbers;
use super::press::stress_area_mm2;
use super::rule::{Aspect, Rule, Scale, Work};
use std::f64::consts::PI;
use truck::callouts::crush_sleeve::{BOLT, BORE, GRADE, LENGTH, OUTSIDE, WIDTH, YIELD};

/// How much shorter than the arm is wide inside a sleeve may be, mm. Common practice, no source.
const SHORT_MM: f64 = 0.25;
/// What a bolt is tightened to, of its proof load, and what of its yield the sleeve may bear.
/// The first is usual for bolts that come apart again (from memory); the second common
/// practice, no source.
const TIGHTENED: f64 = 0.75;
const BORNE: f64 = 0.8;

/// Stress at the proof load of each grade, N/mm².
///
/// # Source
/// ISO 898-1, table 3 (8.8: 580 to M16 and 600 above; the rest from memory). SAE J429 grades 5
/// and 8 are 85 and 120 ksi, 586 and 827 (from memory).
fn proof_n_per_mm2(grade: usize, bolt_mm: f64) -> f64 {
    match grade {
        0 => 225.0,
        1 => 380.0,
        2 if bolt_mm <= 16.1 => 586.0,
        2 => 600.0,
        3 => 830.0,
        _ => 970.0,
    }
}

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(
        numbers,
        &[WIDTH, LENGTH, OUTSIDE, BORE, BOLT, GRADE, YIELD],
        &[&[WIDTH, LENGTH], &[BORE, BOLT], &[OUTSIDE, BORE, BOLT, GRADE, YIELD]],
    );
    if let Some([width, length]) = numbers.all([WIDTH, LENGTH]) {
        let cut = Work::CutTo { length_mm: width - SHORT_MM / 2.0 };
        rule.length(Aspect::Long, width, length, width - length).work = Some(cut);
        rule.length(Aspect::Short, width, length, length - (width - SHORT_MM));
    }
    if let Some([bore, bolt]) = numbers.all([BORE, BOLT]) {
        rule.length(Aspect::Through, bolt, bore, bore - bolt);
    }
    if let (Some([outside, bore, bolt, yields]), Some(grade)) =
        (numbers.all([OUTSIDE, BORE, BOLT, YIELD]), numbers.choice(GRADE))
    {
        let force = TIGHTENED * proof_n_per_mm2(grade, bolt) * stress_area_mm2(bolt);
        let area = PI / 4.0 * (outside * outside - bore * bore);
        // No wall bears nothing.
        let stress = if area > 0.0 { force / area } else { f64::from(u16::MAX) };
        let bears = BORNE * yields;
        rule.check(Aspect::Crush, Scale::Stress, [Some(stress), Some(bears)], bears - stress);
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::{Mating, Tool};

    fn sleeve(vital: bool, length: f64, outside: f64, yields: f64) -> Answer {
        let numbers = [
            (WIDTH, 40.0, Tool::Caliper),
            (LENGTH, length, Tool::Caliper),
            (OUTSIDE, outside, Tool::Caliper),
            (BORE, 12.4, Tool::Caliper),
            (BOLT, 12.0, Tool::Caliper),
            (GRADE, 2.0, Tool::Stamped),
            (YIELD, yields, Tool::Stamped),
        ];
        answer(Mating::CrushSleeve, vital, &numbers)
    }

    /// ISO 898-1: the proof load of an M12 of 8.8 is 48.9 kN, its area 84.3 mm²; three quarters
    /// of it on a tube 22/12.4, 259.4 mm², is 141 N/mm² (the constant here is grade 5's, 1 % more).
    #[test]
    fn the_bolts_clamping_is_that_of_its_proof_load() {
        near(580.0 * stress_area_mm2(12.0), 48_900.0, 60.0);
        let fine = sleeve(true, 39.88, 22.0, 250.0);
        assert!(mates(&fine), "{fine:?}");
        let crush = fine.findings.iter().find(|finding| finding.aspect == Aspect::Crush).unwrap();
        near(crush.first.unwrap(), 0.75 * 48_900.0 / 259.4, 2.5);
    }

    /// Proof load over stress area (ISO 898-1, table 3: 4.6, 5.8, 8.8, 10.9, 12.9; SAE J429
    /// grade 5, 85 ksi; all but 8.8 from memory), in the order in which the ledger lists grades.
    #[test]
    fn each_grade_has_its_own_proof_load() {
        for (grade, bolt_mm, want) in [
            (0, 12.0, 225.0),
            (1, 12.0, 380.0),
            (2, 12.0, 85.0 * 6.895),
            (2, 20.0, 600.0),
            (3, 12.0, 830.0),
            (4, 12.0, 970.0),
        ] {
            near(proof_n_per_mm2(grade, bolt_mm), want, 0.5);
        }
    }

    /// ISO 898-1: an M12 of 8.8 breaks at 67.4 kN and an M10 of 10.9 at 60.3. The first digit is a hundredth of the
    /// strength and the second how much of it is yield, which the proof load is a little below: 0.73 and 0.80 of it.
    #[test]
    fn proof_loads_are_their_share_of_what_breaks_the_bolt() {
        for (grade, bolt_mm, breaks_n, share) in [(2, 12.0, 67_400.0, 0.73), (3, 10.0, 60_300.0, 0.80)] {
            let proof_n = proof_n_per_mm2(grade, bolt_mm) * stress_area_mm2(bolt_mm);
            near(proof_n / breaks_n, share, 0.01);
        }
    }

    /// A tube too soft, and one too thin.
    #[test]
    fn a_soft_or_thin_tube_is_refused() {
        assert_eq!(refused(&sleeve(true, 39.88, 22.0, 150.0)), Aspect::Crush);
        assert_eq!(refused(&sleeve(true, 39.88, 16.0, 250.0)), Aspect::Crush);
        assert_eq!(refused(&sleeve(true, 39.88, 12.0, 250.0)), Aspect::Crush);
    }

    #[test]
    fn a_long_tube_is_cut_and_a_short_one_is_none() {
        let long = sleeve(false, 41.0, 22.0, 250.0).verdict;
        let Verdict::WithWork(work) = &long else { panic!("{long:?}") };
        let [Work::CutTo { length_mm }] = work[..] else { panic!("{work:?}") };
        near(length_mm, 39.875, 1e-9);
        assert_eq!(refused(&sleeve(true, 41.0, 22.0, 250.0)), Aspect::Long);
        assert_eq!(refused(&sleeve(false, 39.5, 22.0, 250.0)), Aspect::Short);
        // At the very edge a caliper cannot tell.
        assert!(matches!(sleeve(false, 40.0, 22.0, 250.0).verdict, Verdict::TooNear { .. }));
    }
}
