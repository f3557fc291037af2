//! What is pressed into a bore.

use super::numbers::Numbers;
use super::rule::{Aspect, Proof, Rule, Scale, Work};
use std::f64::consts::PI;
use truck::Tool;
use truck::callouts::press_fit::{BORE, EYE, LENGTH, OUTSIDE, STATE, WALL, YIELD};

/// Young's modulus of steel, N/mm² (handbook value, from memory).
const STEEL_N_PER_MM2: f64 = 207_000.0;
/// Expansion of steel per kelvin (handbook value, from memory).
const EXPANSION: f64 = 11.7e-6;
/// From a warm shop into a household freezer, K.
const COLDER_K: f64 = 40.0;
/// Friction of a press fit, steel on steel, and how far it may be from that, either way (from
/// memory).
const FRICTION: f64 = 0.12;
const FRICTION_SPREAD: f64 = 0.5;
/// Most interference of what is no plain ring, mm: that of the heaviest drive fits. That an eye bears
/// it is common practice, no source.
///
/// # Source
/// ISO 286-1, H7/u6 at its most, within a fifteenth of it from 14 to 120 mm.
fn most_mm(bore_mm: f64) -> f64 {
    0.025 + 0.0012 * bore_mm
}

/// Pressure between a solid shaft and a plain ring of the same steel, N/mm².
///
/// # Source
/// Lamé: p = (E δ / 2R)(1 − R²/r²), δ the interference of the radii, R the fit's radius, r the
/// ring's outside.
#[must_use]
pub fn pressure_n_per_mm2(interference_mm: f64, bore_mm: f64, wall_mm: f64) -> f64 {
    let radius = bore_mm / 2.0;
    let outside = radius + wall_mm;
    STEEL_N_PER_MM2 * (interference_mm / 2.0) / (2.0 * radius) * (1.0 - radius * radius / (outside * outside))
}

/// By how much steel of a diameter shrinks in the cold, mm.
#[must_use]
pub fn cold_mm(diameter_mm: f64, colder_k: f64) -> f64 {
    diameter_mm * EXPANSION * colder_k
}

/// Area of a coarse thread that bears its load, mm², of the metric size that is not below the
/// shank, so that an inch bolt pulls no harder than is reckoned with.
///
/// # Source
/// ISO 898-1: A = π/4 (d − 0.9382 P)²; coarse pitches of ISO 261 (from memory).
#[must_use]
pub fn stress_area_mm2(shank_mm: f64) -> f64 {
    const COARSE: [(f64, f64); 12] = [
        (5.0, 0.8),
        (6.0, 1.0),
        (8.0, 1.25),
        (10.0, 1.5),
        (12.0, 1.75),
        (14.0, 2.0),
        (16.0, 2.0),
        (18.0, 2.5),
        (20.0, 2.5),
        (22.0, 2.5),
        (24.0, 3.0),
        (27.0, 3.0),
    ];
    let found = COARSE.into_iter().find(|(size, _)| *size >= shank_mm - 0.1);
    let (size, pitch) = found.unwrap_or((shank_mm, 3.0));
    let across = size - 0.9382 * pitch;
    PI / 4.0 * across * across
}

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let plain = numbers.choice(EYE) == Some(1);
    let mut needed = vec![STATE, OUTSIDE, BORE, EYE];
    if plain {
        needed.extend([WALL, LENGTH, YIELD]);
    }
    let mut rule = Rule::new(numbers, &needed, &[&[STATE], &[OUTSIDE, BORE]]);
    rule.fact(Aspect::Sound, STATE);
    let Some([outside, bore]) = numbers.all([OUTSIDE, BORE]) else { return rule };
    let interference = outside - bore;
    let coarse = [OUTSIDE, BORE].into_iter().find(|callout| numbers.tool(*callout) != Some(Tool::Micrometer));
    // What a caliper takes may say no and never yes.
    let proof = if coarse.is_some() { Proof::Refuses } else { Proof::Measured };
    rule.tells = coarse.map(|callout| (callout, Tool::Micrometer));
    rule.length(Aspect::Interference, outside, bore, interference).proof = proof;
    let mut force_n = None;
    if !plain {
        let most = most_mm(bore);
        rule.length(Aspect::Stretch, interference, most, most - interference).proof = proof;
    } else if let Some([wall, length, yields]) = numbers.all([WALL, LENGTH, YIELD]) {
        let pressure = pressure_n_per_mm2(interference, bore, wall);
        let (inner, outer) = (bore / 2.0, bore / 2.0 + wall);
        let (inner, outer) = (inner * inner, outer * outer);
        // No wall around it holds nothing.
        let hoop =
            if wall > 0.0 { pressure * (outer + inner) / (outer - inner) } else { f64::from(u16::MAX) };
        rule.check(Aspect::Stretch, Scale::Stress, [Some(hoop), Some(yields)], yields - hoop).proof = proof;
        let force = FRICTION * pressure * PI * bore * length;
        force_n = Some((force * (1.0 - FRICTION_SPREAD), force * (1.0 + FRICTION_SPREAD)));
    }
    rule.work = vec![Work::Press { force_n }, Work::Cool { mm: cold_mm(outside, COLDER_K) }];
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::Mating;

    fn pressed(vital: bool, outside: f64, bore: f64, eye: f64, tool: Tool) -> Answer {
        let numbers = [
            (STATE, 1.0, Tool::Counted),
            (OUTSIDE, outside, tool),
            (BORE, bore, tool),
            (EYE, eye, Tool::Counted),
            (WALL, 5.0, Tool::Caliper),
            (LENGTH, 40.0, Tool::Caliper),
            (YIELD, 350.0, Tool::Stamped),
        ];
        answer(Mating::PressFit, vital, &numbers)
    }

    /// Rods of 2.0046 cm go into a hole of 2.0000 after 191.7 K at 12e-6 (a worked answer); 45 mm
    /// of steel 43 K colder is 22.6 µm smaller, and 40 mm 40 K colder 0.019 mm.
    #[test]
    fn the_cold_buys_what_the_handbooks_say() {
        near(cold_mm(20.046, 191.7) * 12.0 / 11.7, 0.046, 2e-4);
        near(cold_mm(45.0, 43.0), 0.0226, 1e-4);
        near(cold_mm(40.0, 40.0), 0.0187, 1e-4);
    }

    /// ISO 898-1: 58.0, 84.3, 115 and 157 mm² for M10, M12, M14 and M16; a half inch of 13
    /// threads has 91.5 mm² (0.1419 in²) and is taken for more.
    #[test]
    fn a_threads_area_is_that_of_the_standard() {
        for (size, area) in [(10.0, 58.0), (12.0, 84.3), (14.0, 115.0), (16.0, 157.0)] {
            near(stress_area_mm2(size), area, 0.5);
        }
        assert!(stress_area_mm2(12.7) > 91.5);
    }

    /// Lamé the other way round: the pressure found opens a ring of r 20 and 25 mm and squeezes a
    /// shaft of r 20 mm by half the interference together. Ring: (p R/E)((r² + R²)/(r² − R²) + ν),
    /// shaft: (p R/E)(1 − ν).
    #[test]
    fn the_pressure_closes_the_interference() {
        let pressure = pressure_n_per_mm2(0.04, 40.0, 5.0);
        let (radius, outside, poisson) = (20.0, 25.0, 0.3);
        let ring = (outside * outside + radius * radius) / (outside * outside - radius * radius) + poisson;
        let opened = pressure * radius / STEEL_N_PER_MM2 * (ring + 1.0 - poisson);
        near(opened, 0.02, 1e-9);
    }

    /// ISO 286: 50 H7/p6 has 1 to 42 µm of interference, 50 H7/g6 9 to 50 µm of clearance, and
    /// 25 H7/h6 none at the least.
    #[test]
    fn fits_of_the_standard_come_out_as_they_are_meant() {
        assert!(mates(&pressed(true, 50.042, 50.0, 1.0, Tool::Micrometer)));
        assert!(mates(&pressed(true, 50.026, 50.0, 0.0, Tool::Micrometer)));
        // The p6 shaft at its least in the H7 bore at its most: no micrometer tells 1 µm.
        let least = pressed(true, 50.026, 50.025, 1.0, Tool::Micrometer).verdict;
        assert!(matches!(least, Verdict::TooNear { .. }), "{least:?}");
        assert_eq!(refused(&pressed(true, 49.975, 50.025, 1.0, Tool::Micrometer)), Aspect::Interference);
        assert!(!mates(&pressed(true, 25.0, 25.0, 1.0, Tool::Micrometer)));
    }

    /// ISO 286-1 (from memory): the deviation at which u begins and IT6, µm, up to each size, mm.
    #[test]
    fn an_eye_takes_the_heaviest_drive_fit_of_the_standard() {
        for (size, u, it6) in [
            (18.0, 33.0, 11.0),
            (24.0, 41.0, 13.0),
            (30.0, 48.0, 13.0),
            (40.0, 60.0, 16.0),
            (50.0, 70.0, 16.0),
            (65.0, 87.0, 19.0),
            (80.0, 102.0, 19.0),
            (100.0, 124.0, 22.0),
            (120.0, 144.0, 22.0),
        ] {
            near(most_mm(size) * 1000.0 / (u + it6), 1.0, 1.0 / 15.0);
        }
    }

    /// ISO 286: IT6 and IT7 of four ranges (10 to 80 mm), and the deviation at which p begins, each at the range's upper
    /// end, and one in the middle. A p6 shaft in an H7 bore is larger by p's deviation and IT6 at the most, and by p's
    /// deviation less IT7, next to nothing, at the least: a micrometer passes the first, and tells nothing of the second.
    #[test]
    fn a_press_fit_of_each_range_is_passed_at_its_most_alone() {
        for (size, p, it6, it7) in [
            (18.0, 18.0, 11.0, 18.0),
            (24.0, 22.0, 13.0, 21.0),
            (30.0, 22.0, 13.0, 21.0),
            (50.0, 26.0, 16.0, 25.0),
            (80.0, 32.0, 19.0, 30.0),
        ] {
            let fit = |shaft: f64, bore: f64| {
                let numbers = [
                    (STATE, 1.0, Tool::Counted),
                    (EYE, 0.0, Tool::Counted),
                    (OUTSIDE, size + shaft / 1000.0, Tool::Micrometer),
                    (BORE, size + bore / 1000.0, Tool::Micrometer),
                ];
                answer(Mating::PressFit, true, &numbers)
            };
            assert!(mates(&fit(p + it6, 0.0)), "{size}");
            let least = fit(p, it7).verdict;
            assert!(matches!(least, Verdict::TooNear { .. }), "{size}: {least:?}");
            // The h6 shaft at its least in the same bore at its most is loose in it.
            assert_eq!(refused(&fit(-it6, it7)), Aspect::Interference, "{size}");
        }
    }

    /// Inch tapered bearings (makers' tables): a cup is up to 25 µm larger than its size and never smaller, a cone's
    /// bore up to 13 µm larger. By shop practice the cup is tight in its hub and the cone slips on its spindle: one
    /// that slips is no press fit, whatever it is measured with.
    #[test]
    fn a_cup_is_tight_in_its_hub_and_a_cone_slips_on_its_spindle() {
        for cup in [59.131, 59.131 + 0.025] {
            assert!(mates(&pressed(true, cup, 59.131 - 0.038, 0.0, Tool::Micrometer)), "{cup}");
        }
        // The spindle 13 µm under the cone's size.
        for bore in [31.75 + 0.006, 31.75 + 0.013] {
            assert_eq!(
                refused(&pressed(true, 31.75 - 0.013, bore, 0.0, Tool::Micrometer)),
                Aspect::Interference,
                "{bore}"
            );
        }
    }

    /// No caliper passes a press fit, whatever it reads; it may refuse one.
    #[test]
    fn calipers_never_pass_and_may_refuse() {
        for outside in [50.05, 50.1, 50.3] {
            let told = pressed(true, outside, 50.0, 0.0, Tool::Caliper).verdict;
            assert!(!matches!(told, Verdict::Mates | Verdict::WithWork(_)), "{told:?}");
        }
        let near = pressed(true, 50.03, 50.0, 0.0, Tool::Caliper).verdict;
        assert_eq!(near, Verdict::TooNear { callout: OUTSIDE, tool: Tool::Micrometer });
        assert_eq!(refused(&pressed(true, 49.5, 50.0, 0.0, Tool::Caliper)), Aspect::Interference);
    }

    /// A tenth of a millimetre in a ring of 5 mm wall is over 350 N/mm² around the bore.
    #[test]
    fn what_stretches_the_eye_is_refused() {
        assert_eq!(refused(&pressed(false, 50.2, 50.0, 1.0, Tool::Micrometer)), Aspect::Stretch);
        assert_eq!(refused(&pressed(false, 50.2, 50.0, 0.0, Tool::Micrometer)), Aspect::Stretch);
    }

    /// Force by hand: p = 207000 · 0.02 / 50 · (1 − 25²/30²) = 25.3 N/mm², times 0.12 π 50 40 is
    /// 19.1 kN, half of that either way. A stamped eye has no force, and a slack bore no mending.
    #[test]
    fn a_bushing_is_pressed_and_a_slack_bore_is_not_mended() {
        let Verdict::WithWork(work) = pressed(false, 50.04, 50.0, 1.0, Tool::Micrometer).verdict else {
            panic!()
        };
        let [Work::Press { force_n: Some((least, most)) }, Work::Cool { .. }] = work[..] else {
            panic!("{work:?}")
        };
        near(least, 9_540.0, 60.0);
        near(most, 28_600.0, 150.0);
        let Verdict::WithWork(work) = pressed(false, 50.04, 50.0, 0.0, Tool::Micrometer).verdict else {
            panic!()
        };
        assert_eq!(work[0], Work::Press { force_n: None });
        let slack = answer(Mating::PressFit, false, &[(STATE, 0.0, Tool::Counted)]);
        assert_eq!(refused(&slack), Aspect::Sound);
    }
}
