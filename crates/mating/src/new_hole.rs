//! A hole drilled anew: least metal around it. No rule here knows what the part can bear.

use super::numbers::Numbers;
use super::rule::{Aspect, Rule, Scale, Work};
use truck::callouts::new_hole::{BOLT, EDGE, HOLE, OLD, OLD_ACROSS, PLACE, THROUGH};

/// Least from a hole's centre to an edge, mm.
///
/// # Source
/// ANSI/AISC 360-16, Tables J3.4 and J3.4M: the bolt's diameter and a quarter of an inch from
/// 5/8 to 1 in (6 mm from M16 to M24, of which this is a third of a millimetre more), and 1.25
/// diameters above. Below 16 mm a diameter and a half, which is the table's own for 1/2 in.
pub(super) fn edge_mm(bolt_mm: f64) -> f64 {
    // A caliper may read 5/8 in, 15.875 mm, a little low.
    if bolt_mm < 15.8 {
        1.5 * bolt_mm
    } else if bolt_mm < 25.4 {
        bolt_mm + 6.35
    } else {
        1.25 * bolt_mm
    }
}

/// Least from centre to centre of two holes, in diameters of the bolt: ANSI/AISC 360-16, J3.3.
pub(super) const SPACING: f64 = 8.0 / 3.0;

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let needed = &[BOLT, EDGE, HOLE, OLD, OLD_ACROSS, PLACE];
    let mut rule = Rule::new(numbers, needed, &[&[PLACE], &[BOLT, EDGE], &[HOLE, OLD, OLD_ACROSS]]);
    rule.only_by_work = true;
    rule.fact(Aspect::Flat, PLACE);
    if let Some([hole, old, across]) = numbers.all([HOLE, OLD, OLD_ACROSS]) {
        let metal = old - (hole + across) / 2.0;
        rule.check(Aspect::IntoOldHole, Scale::Millimetres, [Some(metal), None], metal);
        if let Some(bolt) = numbers.get(BOLT) {
            rule.length(Aspect::ClearMetal, metal, bolt, metal - bolt);
        }
    }
    if let Some([bolt, old]) = numbers.all([BOLT, OLD]) {
        rule.length(Aspect::OldHole, old, SPACING * bolt, old - SPACING * bolt);
    }
    if let Some([bolt, hole]) = numbers.all([BOLT, HOLE]) {
        rule.length(Aspect::Through, bolt, hole, hole - bolt);
    }
    if let Some([bolt, edge]) = numbers.all([BOLT, EDGE]) {
        let spare = edge - edge_mm(bolt);
        rule.length(Aspect::Edge, edge, edge_mm(bolt), spare);
        rule.work = vec![Work::Drill { spare_mm: spare }];
        // Unless it is known that there is nothing in it to crush.
        if numbers.choice(THROUGH) != Some(1) {
            rule.work.push(Work::Sleeve);
        }
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::{Mating, Tool};

    fn drilled(vital: bool, bolt: f64, edge: f64, old: f64, across: f64) -> Answer {
        let numbers = [(BOLT, bolt), (HOLE, bolt + 1.0), (EDGE, edge), (OLD, old), (OLD_ACROSS, across)];
        let mut numbers = numbers.map(|(callout, value)| (callout, value, Tool::Caliper)).to_vec();
        numbers.push((PLACE, 1.0, Tool::Counted));
        answer(Mating::NewHole, vital, &numbers)
    }

    /// AISC 360-16, Table J3.4: 1/2, 5/8, 3/4, 7/8 and 1 in; Table J3.4M: 16, 20 and 24 mm.
    #[test]
    fn the_edge_is_that_of_the_tables() {
        let inches = [(0.5, 0.75), (0.625, 0.875), (0.75, 1.0), (0.875, 1.125), (1.0, 1.25), (1.5, 1.875)];
        for (bolt, edge) in inches {
            near(edge_mm(25.4 * bolt), 25.4 * edge, 1e-9);
        }
        for (bolt, edge) in [(16.0, 22.0), (20.0, 26.0), (24.0, 30.0)] {
            assert!((edge..edge + 0.4).contains(&edge_mm(bolt)), "{bolt}");
        }
        near(edge_mm(12.0), 18.0, 1e-12);
    }

    /// J3.3: an M12 wants 32 mm from the old hole's centre, and 12 mm of metal clear.
    #[test]
    fn spacing_and_clear_metal_are_asked_alike() {
        assert!(matches!(drilled(false, 12.0, 20.0, 33.0, 13.0).verdict, Verdict::WithWork(_)));
        let beside = drilled(false, 12.0, 20.0, 31.5, 13.0);
        assert_eq!(refused(&beside), Aspect::OldHole);
        let shown = beside.findings.iter().find(|finding| finding.aspect == Aspect::OldHole).unwrap();
        assert_eq!((shown.first, shown.second), (Some(31.5), Some(32.0)), "as it is, and as it is asked");
        // A factory tube of 30 mm around the old hole leaves 33 − 21.5 = 11.5 mm.
        assert_eq!(refused(&drilled(false, 12.0, 20.0, 33.0, 30.0)), Aspect::ClearMetal);
        assert_eq!(refused(&drilled(false, 12.0, 17.5, 40.0, 13.0)), Aspect::Edge);
    }

    /// The old hole's own radius away, or nearer than that: it runs into it.
    #[test]
    fn a_hole_into_the_old_one_says_so() {
        for old in [0.0, 3.0, 6.5, 12.0] {
            assert_eq!(refused(&drilled(false, 12.0, 20.0, old, 13.0)), Aspect::IntoOldHole);
        }
    }

    /// A hollow arm is crushed by what a plate bears: a sleeve is left out only where somebody said that there is
    /// nothing hollow.
    #[test]
    fn a_sleeve_is_asked_for_until_it_is_known_that_nothing_is_hollow() {
        let drilled = |through: Option<f64>| {
            let sizes = [(BOLT, 12.0), (HOLE, 13.0), (EDGE, 20.0), (OLD, 40.0), (OLD_ACROSS, 13.0)];
            let mut numbers = sizes.map(|(callout, value)| (callout, value, Tool::Caliper)).to_vec();
            numbers.push((PLACE, 1.0, Tool::Counted));
            numbers.extend(through.map(|through| (THROUGH, through, Tool::Counted)));
            let Verdict::WithWork(work) = answer(Mating::NewHole, false, &numbers).verdict else { panic!() };
            work.contains(&Work::Sleeve)
        };
        assert_eq!([None, Some(0.0), Some(1.0)].map(drilled), [true, true, false]);
    }

    /// Least metal is no strength: there is no plain yes, it is always work, and none of it
    /// where it holds a wheel or sits in a bend.
    #[test]
    fn a_new_hole_is_never_just_a_yes() {
        let Verdict::WithWork(work) = drilled(false, 12.0, 20.0, 40.0, 13.0).verdict else { panic!() };
        assert_eq!(work.len(), 2);
        assert!(matches!(work[0], Work::Drill { spare_mm } if (spare_mm - 2.0).abs() < 1e-9));
        assert_eq!(refused(&drilled(true, 12.0, 20.0, 40.0, 13.0)), Aspect::Vital);
        let bend = answer(Mating::NewHole, false, &[(PLACE, 0.0, Tool::Counted)]);
        assert_eq!(refused(&bend), Aspect::Flat);
    }
}
