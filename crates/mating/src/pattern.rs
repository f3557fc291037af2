//! Holes over holes.

use super::hole::clearances_mm;
use super::new_hole::SPACING;
use super::numbers::Numbers;
use super::placement::{laid_out, worst_mm};
use super::rule::{Aspect, Rule, Work};
use truck::callouts::hole_pattern::{
    BOLT, COUNT, FIRST_HOLE_1, FIRST_OVER_12, HELD, SECOND_HOLE_1, SECOND_OVER_12, TRIED,
};

/// Which two holes a distance is over, in the order of the numbers.
const PAIRS: [(usize, usize); 6] = [(0, 1), (0, 2), (1, 2), (0, 3), (1, 3), (2, 3)];

pub(super) fn rule(numbers: &Numbers) -> Rule {
    // Of more holes than four the numbers tell nothing: they are tried on.
    let count = numbers.choice(COUNT).unwrap_or(2);
    let holes = count.clamp(2, 4);
    let pairs = holes * (holes - 1) / 2;
    let mut sizes: Vec<u8> = vec![COUNT, HELD, BOLT];
    for (over, hole) in [(FIRST_OVER_12, FIRST_HOLE_1), (SECOND_OVER_12, SECOND_HOLE_1)] {
        sizes.extend((over..).take(pairs));
        sizes.extend((hole..).take(holes));
    }
    // What goes on by hand is told by that alone.
    let tried = numbers.choice(TRIED);
    let by_trying = tried == Some(1) || count != holes;
    let needed = if by_trying { vec![TRIED] } else { sizes.clone() };
    let mut rule = Rule::new(numbers, &needed, &[&[TRIED], &sizes]);
    rule.tried = Some(TRIED);
    rule.fact(Aspect::Tried, TRIED);
    if !by_trying {
        compare(&mut rule, numbers, holes, pairs);
    }
    rule
}

/// Compares the two sides, if all of their numbers are there.
fn compare(rule: &mut Rule, numbers: &Numbers, holes: usize, pairs: usize) -> Option<()> {
    numbers.get(COUNT)?;
    let held = numbers.choice(HELD)?;
    let bolt = numbers.get(BOLT)?;
    let read = |from: u8, count: usize| -> Option<Vec<f64>> {
        (from..).take(count).map(|callout| numbers.get(callout)).collect()
    };
    let (first, second) = (read(FIRST_HOLE_1, holes)?, read(SECOND_HOLE_1, holes)?);
    let spacings = |over: u8, across: &[f64]| -> Option<Vec<f64>> {
        let over = read(over, pairs)?;
        // Over both holes is half of each more than from middle to middle.
        Some(over.iter().zip(PAIRS).map(|(over, (i, j))| over - (across[i] + across[j]) / 2.0).collect())
    };
    let (one, other) = (spacings(FIRST_OVER_12, &first)?, spacings(SECOND_OVER_12, &second)?);
    // A stud, a thread or a pressed bolt stands where it stands: its side has no clearance.
    let clearance = |side: usize, across: f64| if held == side { 0.0 } else { across - bolt };
    let total: Vec<f64> =
        first.iter().zip(&second).map(|(a, b)| clearance(1, *a) + clearance(2, *b)).collect();
    for (side, across) in [(1, &first), (2, &second)] {
        let narrow = across.iter().copied().fold(f64::MAX, f64::min);
        let wide = across.iter().copied().fold(0.0, f64::max);
        if held != side {
            rule.length(Aspect::Through, bolt, narrow, narrow - bolt);
            // What a worn or coarse hole lets the two be apart is no fit.
            let (_, medium) = clearances_mm(bolt);
            rule.length(Aspect::Loose, bolt, wide, bolt + medium - wide).work = Some(Work::SleeveTheHole);
        }
    }
    if holes == 2 {
        let off = (one[0] - other[0]).abs();
        let allowed = (total[0] + total[1]) / 2.0;
        // The new hole is as large as the old one it stands beside, and as far from it as a new hole has to be.
        let metal = off - second[0].max(first[0]);
        let is_clear = metal >= bolt && off >= SPACING * bolt;
        let anew = is_clear.then_some(Work::DrillAnew { metal_mm: metal });
        rule.within(Aspect::Spacing, [one[0], other[0]], allowed, anew);
        return Some(());
    }
    let radial: Vec<f64> = total.iter().map(|clearance| clearance / 2.0).collect();
    let beyond = match (laid_out(&one), laid_out(&other)) {
        (Some(one), Some(other)) => worst_mm(&one, &other, &radial),
        // Distances that close no triangle were not those of one part.
        _ => f64::from(u16::MAX),
    };
    rule.length(Aspect::Placement, one[0], other[0], -beyond);
    Some(())
}

#[cfg(test)]
mod tests {
    use super::super::Verdict;
    use super::super::support::{answer, mates, near, refused};
    use super::*;
    use truck::{Mating, Tool};

    /// Two holes a side, 13 mm, M12 bolts through both: spacing, then the other side's.
    fn two(spacing: f64, other: f64, held: f64, tool: Tool) -> super::super::Answer {
        two_of(spacing, other, held, tool, true)
    }

    fn two_of(spacing: f64, other: f64, held: f64, tool: Tool, vital: bool) -> super::super::Answer {
        let mut numbers = vec![(COUNT, 2.0, Tool::Counted), (HELD, held, Tool::Counted), (BOLT, 12.0, tool)];
        for (over, hole, spacing) in
            [(FIRST_OVER_12, FIRST_HOLE_1, spacing), (SECOND_OVER_12, SECOND_HOLE_1, other)]
        {
            numbers.extend([(over, spacing + 13.0, tool), (hole, 13.0, tool), (hole + 1, 13.0, tool)]);
        }
        answer(Mating::HolePattern, vital, &numbers)
    }

    fn room(answer: &super::super::Answer, aspect: Aspect) -> f64 {
        let of_it = answer.findings.iter().filter(|finding| finding.aspect == aspect);
        of_it.map(|finding| finding.room).fold(f64::MAX, f64::min)
    }

    /// Hand arithmetic, the floating fastener: each bolt may lean half a clearance in each hole,
    /// so two bolts take up half of four clearances of 1 mm, which is 2 mm.
    #[test]
    fn two_bolts_take_up_half_of_four_clearances() {
        let pair = two(92.0, 92.1, 0.0, Tool::Caliper);
        assert!(mates(&pair));
        near(room(&pair, Aspect::Spacing), 1.9, 1e-9);
        let shown = pair.main.unwrap();
        assert_eq!((shown.aspect, shown.first, shown.second), (Aspect::Spacing, Some(92.0), Some(92.1)));
        assert!(shown.room > shown.down);
        assert_eq!(refused(&two(90.0, 92.5, 0.0, Tool::Caliper)), Aspect::Spacing);
    }

    /// A stud or a thread has no clearance: what is left is half of two.
    #[test]
    fn a_tapped_side_has_no_clearance() {
        near(room(&two(92.0, 92.1, 1.0, Tool::Caliper), Aspect::Spacing), 0.9, 1e-9);
        near(room(&two(92.0, 92.1, 2.0, Tool::Caliper), Aspect::Spacing), 0.9, 1e-9);
        assert_eq!(refused(&two(90.0, 91.5, 2.0, Tool::Caliper)), Aspect::Spacing);
    }

    /// An M12 goes through no hole of 11 mm; a thread of 11 mm for it is as it should be.
    #[test]
    fn the_bolt_goes_through_every_hole_but_its_own_thread() {
        let narrow = |held: f64| {
            let mut numbers =
                vec![(COUNT, 2.0, Tool::Counted), (HELD, held, Tool::Counted), (BOLT, 12.0, Tool::Caliper)];
            for (over, hole, across) in
                [(FIRST_OVER_12, FIRST_HOLE_1, 11.0), (SECOND_OVER_12, SECOND_HOLE_1, 13.0)]
            {
                numbers.extend(
                    [(over, 92.0 + across), (hole, across), (hole + 1, across)]
                        .map(|(at, mm)| (at, mm, Tool::Caliper)),
                );
            }
            answer(Mating::HolePattern, true, &numbers)
        };
        assert!(mates(&narrow(1.0)), "{:?}", narrow(1.0));
        assert_eq!(refused(&narrow(2.0)), Aspect::Through);
    }

    /// Holes that lie 35 mm farther apart leave 22 mm of metal beside the old one; 6 mm would
    /// run into it, and where it holds a wheel nothing is drilled at all.
    #[test]
    fn a_new_hole_is_offered_only_clear_of_the_old_one() {
        let bracket = |spacing| two_of(90.0, spacing, 0.0, Tool::Caliper, false).verdict;
        let Verdict::WithWork(work) = bracket(125.0) else { panic!("{:?}", bracket(125.0)) };
        let [Work::DrillAnew { metal_mm }] = work[..] else { panic!("{work:?}") };
        near(metal_mm, 22.0, 1e-9);
        assert!(matches!(bracket(96.0), Verdict::DoesNot(_)));
        assert_eq!(refused(&two(90.0, 125.0, 0.0, Tool::Caliper)), Aspect::Spacing);
    }

    /// Sides of 90 and 92.2 with clearances of 1 mm: any two bolts go in, all three do not.
    #[test]
    fn a_triangle_that_passes_pair_by_pair_is_refused_as_a_whole() {
        let of = |side: f64, clear: f64| {
            let hole = 12.0 + clear;
            let mut numbers =
                vec![(COUNT, 3.0, Tool::Counted), (HELD, 0.0, Tool::Counted), (BOLT, 12.0, Tool::Micrometer)];
            for (over, across, side) in
                [(FIRST_OVER_12, FIRST_HOLE_1, 90.0), (SECOND_OVER_12, SECOND_HOLE_1, side)]
            {
                numbers.extend((0..3).map(|at| (over + at, side + hole, Tool::Micrometer)));
                numbers.extend((0..3).map(|at| (across + at, hole, Tool::Micrometer)));
            }
            answer(Mating::HolePattern, true, &numbers)
        };
        assert!(mates(&of(91.6, 1.0)), "{:?}", of(91.6, 1.0));
        // Two bolts would take up 2 mm; three take up √3 mm.
        assert_eq!(refused(&of(91.9, 1.0)), Aspect::Placement);
        near(room(&of(91.9, 1.0), Aspect::Placement), 1.0 - 1.9 / libm::sqrt(3.0), 1e-6);
    }

    #[test]
    fn a_tape_leaves_it_open_and_what_goes_on_goes_on() {
        let Verdict::TooNear { tool, .. } = two(92.0, 92.1, 0.0, Tool::Tape).verdict else { panic!() };
        assert_eq!(tool, Tool::Caliper);
        assert!(mates(&answer(Mating::HolePattern, true, &[(TRIED, 1.0, Tool::TriedOn)])));
        assert!(mates(&answer(Mating::HolePattern, true, &[(TRIED, 1.0, Tool::TogetherBefore)])));
        assert_eq!(
            refused(&answer(Mating::HolePattern, true, &[(TRIED, 0.0, Tool::TriedOn)])),
            Aspect::Tried
        );
    }

    /// Two holes a side of one width, their spacings, and a bolt, no work being barred.
    fn of_bolt(bolt: f64, hole: f64, spacing: f64, other: f64) -> super::super::Answer {
        let mut numbers =
            vec![(COUNT, 2.0, Tool::Counted), (HELD, 0.0, Tool::Counted), (BOLT, bolt, Tool::Caliper)];
        for (over, first, spacing) in
            [(FIRST_OVER_12, FIRST_HOLE_1, spacing), (SECOND_OVER_12, SECOND_HOLE_1, other)]
        {
            numbers.extend(
                [(over, spacing + hole), (first, hole), (first + 1, hole)]
                    .map(|(at, mm)| (at, mm, Tool::Caliper)),
            );
        }
        answer(Mating::HolePattern, false, &numbers)
    }

    /// ISO 273: M10 in 10.5 and 11; in a hole of 17 it takes up any error of the spacing, and is a worn hole's yes.
    #[test]
    fn a_coarse_or_worn_hole_is_no_fit() {
        assert!(mates(&of_bolt(10.0, 10.5, 92.0, 92.1)));
        assert_eq!(of_bolt(10.0, 17.0, 92.0, 92.1).verdict, Verdict::WithWork(vec![Work::SleeveTheHole]));
        let vital = two_of(92.0, 92.0, 0.0, Tool::Caliper, true);
        assert!(mates(&vital), "13 mm for an M12 are fine");
    }

    /// AISC 360-16, J3.3: an M16 wants 42.67 mm from the old hole, and not its own width of metal alone.
    #[test]
    fn a_new_hole_beside_the_old_is_as_far_from_it_as_any() {
        assert_eq!(refused(&of_bolt(16.0, 17.0, 100.0, 135.0)), Aspect::Spacing);
        let Verdict::WithWork(work) = of_bolt(16.0, 17.0, 100.0, 145.0).verdict else { panic!() };
        assert!(
            matches!(work[..], [Work::DrillAnew { metal_mm }] if (metal_mm - 28.0).abs() < 1e-9),
            "{work:?}"
        );
    }
}
