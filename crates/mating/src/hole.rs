//! A bolt in its hole.

use super::numbers::Numbers;
use super::rule::{Aspect, Proof, Rule, Work};
use truck::callouts::bolt_in_hole::{HOLE, HOLE_SQUARE, SHANK, TRIED};

/// Clearance holes: the bolt's size and the hole's, fine and medium, mm.
///
/// # Source
/// ISO 273:1979, fine and medium series (from memory).
const HOLES_MM: [(f64, f64, f64); 13] = [
    (5.0, 5.3, 5.5),
    (6.0, 6.4, 6.6),
    (8.0, 8.4, 9.0),
    (10.0, 10.5, 11.0),
    (12.0, 13.0, 13.5),
    (14.0, 15.0, 15.5),
    (16.0, 17.0, 17.5),
    (18.0, 19.0, 20.0),
    (20.0, 21.0, 22.0),
    (22.0, 23.0, 24.0),
    (24.0, 25.0, 26.0),
    (27.0, 28.0, 30.0),
    (30.0, 31.0, 33.0),
];

/// A hole that is wider one way than the other by more than this is worn, mm. Common
/// practice, no source.
const OVAL_MM: f64 = 0.3;

/// Clearance of the fine and the medium series for the size that is nearest to a shank, mm.
/// Inch bolts are given what the nearest metric one has.
pub(super) fn clearances_mm(shank_mm: f64) -> (f64, f64) {
    let mut nearest = HOLES_MM[0];
    for size in HOLES_MM {
        if (size.0 - shank_mm).abs() < (nearest.0 - shank_mm).abs() {
            nearest = size;
        }
    }
    (nearest.1 - nearest.0, nearest.2 - nearest.0)
}

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(numbers, &[SHANK, HOLE, HOLE_SQUARE], &[&[TRIED], &[SHANK, HOLE]]);
    rule.tried = Some(TRIED);
    let goes_in = numbers.choice(TRIED).map(|choice| choice == 1);
    if goes_in == Some(false) {
        rule.holds(Aspect::Tried, false);
    }
    if let Some([shank, hole]) = numbers.all([SHANK, HOLE]) {
        let across = numbers.get(HOLE_SQUARE).unwrap_or(hole);
        let (narrow, wide) = (hole.min(across), hole.max(across));
        let (fine, medium) = clearances_mm(shank);
        let check = rule.length(Aspect::GoesIn, shank, narrow, narrow - shank);
        check.work = Some(Work::Ream { to_mm: shank + fine });
        if goes_in == Some(true) {
            check.proof = Proof::Refuses;
        }
        rule.length(Aspect::Loose, shank, wide, shank + medium - wide).work = Some(Work::SleeveTheHole);
    }
    if let Some([hole, across]) = numbers.all([HOLE, HOLE_SQUARE]) {
        rule.within(Aspect::Round, [hole, across], OVAL_MM, Some(Work::SleeveTheHole));
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::super::Verdict;
    use super::super::support::{answer, mates, refused};
    use super::*;
    use truck::{Mating, Tool};

    fn bolt(shank: f64, hole: f64, across: f64, tool: Tool) -> super::super::Answer {
        let numbers = [(SHANK, shank, tool), (HOLE, hole, tool), (HOLE_SQUARE, across, tool)];
        answer(Mating::BoltInHole, true, &numbers)
    }

    /// ISO 273: M10 in 10.5, 11 and 12; M12 in 13, 13.5 and 14.5; M14 in 15, 15.5 and 16.5.
    /// A bolt of its full size, and a micrometer just inside the medium hole.
    #[test]
    fn fine_and_medium_holes_pass_and_coarse_ones_do_not() {
        for (bolt_mm, [fine, medium, coarse]) in
            [(10.0, [10.5, 11.0, 12.0]), (12.0, [13.0, 13.5, 14.5]), (14.0, [15.0, 15.5, 16.5])]
        {
            assert!(mates(&bolt(bolt_mm, fine, fine, Tool::Caliper)), "{bolt_mm} in {fine}");
            let just = medium - 0.03;
            assert!(mates(&bolt(bolt_mm, just, just, Tool::Micrometer)), "{bolt_mm} in {just}");
            assert_eq!(refused(&bolt(bolt_mm, coarse, coarse, Tool::Caliper)), Aspect::Loose);
        }
        assert_eq!(refused(&bolt(12.0, 11.0, 11.0, Tool::Caliper)), Aspect::GoesIn);
    }

    /// Worn by half a millimetre one way: no, though the bolt goes in.
    /// The standard holes of structural steel (AISC 360-16, table J3.3M): 18 mm for an M16 and 27 for an M24 are coarser
    /// than ISO 273 passes, and 22 for an M20 is all that it passes.
    #[test]
    fn a_hole_of_structural_steel_is_a_loose_one() {
        for (shank, hole) in [(16.0, 18.0), (24.0, 27.0)] {
            assert_eq!(refused(&bolt(shank, hole, hole, Tool::Caliper)), Aspect::Loose, "{shank}");
        }
        let edge = bolt(20.0, 22.0, 22.0, Tool::Caliper).verdict;
        assert!(matches!(edge, Verdict::TooNear { .. }), "{edge:?}");
    }

    #[test]
    fn an_ovalled_hole_is_refused() {
        assert_eq!(refused(&bolt(12.0, 12.5, 13.0, Tool::Caliper)), Aspect::Round);
        assert!(mates(&bolt(12.0, 12.5, 12.6, Tool::Caliper)));
    }

    /// The bolt and its hole read alike through rust: the metal may well go in, and a bare
    /// caliper says that it does not.
    #[test]
    fn rust_in_the_number_leaves_it_open() {
        let too_thick = |tool| bolt(12.2, 12.0, 12.0, tool);
        assert_eq!(refused(&too_thick(Tool::Caliper)), Aspect::GoesIn);
        let Verdict::TooNear { tool, .. } = too_thick(Tool::CaliperOnRust).verdict else { panic!() };
        assert_eq!(tool, Tool::Caliper);
    }

    #[test]
    fn a_tight_hole_is_reamed_and_a_loose_one_sleeved_where_it_holds_no_wheel() {
        let numbers = |hole| {
            [SHANK, HOLE, HOLE_SQUARE].map(|at| (at, if at == SHANK { 12.0 } else { hole }, Tool::Caliper))
        };
        let work = |hole| answer(Mating::BoltInHole, false, &numbers(hole)).verdict;
        assert_eq!(work(11.0), Verdict::WithWork(vec![Work::Ream { to_mm: 13.0 }]));
        assert_eq!(work(15.0), Verdict::WithWork(vec![Work::SleeveTheHole]));
    }

    /// What went in is no guess, and says nothing of how loose it is.
    #[test]
    fn tried_on_settles_what_is_too_near_and_nothing_else() {
        let tried = |shank: f64, hole: f64| {
            let numbers = [
                (SHANK, shank, Tool::Caliper),
                (HOLE, hole, Tool::Caliper),
                (HOLE_SQUARE, hole, Tool::Caliper),
                (TRIED, 1.0, Tool::TriedOn),
            ];
            answer(Mating::BoltInHole, true, &numbers)
        };
        assert!(mates(&tried(12.0, 12.05)));
        assert_eq!(refused(&tried(12.0, 14.5)), Aspect::Loose);
        let alone = answer(Mating::BoltInHole, true, &[(TRIED, 1.0, Tool::TriedOn)]);
        assert_eq!(alone.verdict, Verdict::NotAsked { have: 0, of: 3 });
        assert_eq!(refused(&answer(Mating::BoltInHole, true, &[(TRIED, 0.0, Tool::TriedOn)])), Aspect::Tried);
    }
}
