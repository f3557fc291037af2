//! One thing between the sides of another: a width, a rotor in its caliper, a hose along its path.

use super::numbers::Numbers;
use super::rule::{Aspect, Proof, Rule, Work};
use truck::callouts::hose::{ENDS, FREE, PATH_DROOP, PATH_LOCK};
use truck::callouts::rotor_in_caliper::{BRIDGE, OPENING, PLANE, REACH_LEAST, REACH_MOST, THICKNESS};
use truck::callouts::width::{INSIDE, MOVES, OUTSIDE, TRIED};

/// What swings or turns stays so far from what it could touch, mm: a quarter of an inch, a
/// wheel maker's.
const SWINGS_MM: f64 = 6.35;
/// More than this between what is clamped is taken up by washers, mm. Common practice, no source.
const CLAMPED_MM: f64 = 0.5;
/// From a rotor's edge to the caliper's bridge, mm. Common practice, no source.
const BRIDGE_MM: f64 = 2.0;
/// A hose against its longest path. Common practice, no source.
const HOSE: f64 = 1.1;

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let moves = numbers.choice(MOVES);
    let swings = moves == Some(2);
    let stands_clear = moves == Some(1);
    // What stands clear and goes in by hand is told by that alone. How loose it is where it is clamped is not, nor that
    // it keeps a quarter of an inch all the way.
    let goes_in = numbers.choice(TRIED) == Some(1) && !swings;
    let needed: &[u8] = if goes_in && stands_clear { &[MOVES] } else { &[INSIDE, OUTSIDE, MOVES] };
    let mut rule = Rule::new(numbers, needed, &[&[TRIED], &[INSIDE, OUTSIDE]]);
    rule.tried = stands_clear.then_some(TRIED);
    rule.fact(Aspect::Tried, TRIED);
    if let Some([inside, outside]) = numbers.all([INSIDE, OUTSIDE]) {
        let clear = if swings { SWINGS_MM } else { 0.0 };
        let clearance = inside - outside;
        let between = rule.length(Aspect::Between, inside, outside, clearance - clear);
        if goes_in {
            between.proof = Proof::Refuses;
        }
        if moves == Some(0) {
            let washers = Work::ShimWashers { mm: clearance };
            rule.length(Aspect::Loose, inside, outside, CLAMPED_MM - clearance).work = Some(washers);
        }
    }
    rule
}

pub(super) fn rotor(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(
        numbers,
        &[THICKNESS, OPENING, PLANE, REACH_LEAST, REACH_MOST, BRIDGE],
        &[&[THICKNESS, OPENING], &[PLANE, REACH_LEAST], &[PLANE, REACH_MOST], &[BRIDGE]],
    );
    if let Some([thickness, opening]) = numbers.all([THICKNESS, OPENING]) {
        rule.length(Aspect::Pads, thickness, opening, opening - thickness);
    }
    if let Some([plane, least]) = numbers.all([PLANE, REACH_LEAST]) {
        rule.length(Aspect::Plane, plane, least, plane - least);
    }
    if let Some([plane, most]) = numbers.all([PLANE, REACH_MOST]) {
        rule.length(Aspect::Plane, plane, most, most - plane);
    }
    if let Some(bridge) = numbers.get(BRIDGE) {
        rule.length(Aspect::Bridge, bridge, BRIDGE_MM, bridge - BRIDGE_MM);
    }
    rule
}

pub(super) fn hose(numbers: &Numbers) -> Rule {
    let needed = &[ENDS, FREE, PATH_DROOP, PATH_LOCK];
    let mut rule = Rule::new(numbers, needed, &[&[ENDS], &[FREE, PATH_LOCK], &[FREE, PATH_DROOP]]);
    rule.fact(Aspect::Ends, ENDS);
    for path in [PATH_DROOP, PATH_LOCK] {
        if let Some([free, path]) = numbers.all([FREE, path]) {
            rule.length(Aspect::HoseLength, free, path, free - HOSE * path);
        }
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::super::Verdict;
    use super::super::support::{answer, mates, refused};
    use super::*;
    use truck::{Mating, Tool};

    fn between(vital: bool, inside: f64, outside: f64, moves: f64) -> super::super::Answer {
        let numbers = [
            (INSIDE, inside, Tool::Caliper),
            (OUTSIDE, outside, Tool::Caliper),
            (MOVES, moves, Tool::Counted),
        ];
        answer(Mating::Width, vital, &numbers)
    }

    /// A quarter of an inch where something swings or turns, nothing where it stands clear.
    #[test]
    fn what_swings_keeps_a_quarter_of_an_inch() {
        assert!(mates(&between(false, 66.5, 60.0, 2.0)));
        assert_eq!(refused(&between(false, 66.2, 60.0, 2.0)), Aspect::Between);
        assert!(mates(&between(false, 66.2, 60.0, 1.0)));
        assert_eq!(refused(&between(false, 59.8, 60.0, 1.0)), Aspect::Between);
    }

    #[test]
    fn what_is_clamped_is_shimmed_where_it_holds_no_wheel() {
        assert!(mates(&between(false, 60.3, 60.0, 0.0)));
        let wide = between(false, 63.0, 60.0, 0.0).verdict;
        assert_eq!(wide, Verdict::WithWork(vec![Work::ShimWashers { mm: 3.0 }]));
        assert_eq!(refused(&between(true, 63.0, 60.0, 0.0)), Aspect::Loose);
    }

    /// What goes in by hand goes in, whatever a tape leaves open; how loose it is where it is clamped and a quarter of an
    /// inch all the way are measured, and what plainly is too wide was not tried.
    #[test]
    fn what_was_tried_on_needs_no_width_where_it_stands_clear() {
        let tried = |moves: f64, goes: f64, sizes: &[(u8, f64, Tool)]| {
            let said = [(MOVES, moves, Tool::Counted), (TRIED, goes, Tool::TriedOn)];
            answer(Mating::Width, false, &[&said, sizes].concat())
        };
        let by_tape = [(INSIDE, 50.4, Tool::Tape), (OUTSIDE, 50.0, Tool::Tape)];
        assert!(mates(&tried(1.0, 1.0, &[])) && mates(&tried(1.0, 1.0, &by_tape)));
        // Clamped over a gap an arm's sides bend: three millimetres go in by hand as well as none.
        assert_eq!(tried(0.0, 1.0, &[]).missing, [INSIDE, OUTSIDE]);
        let loose = tried(0.0, 1.0, &[(INSIDE, 53.0, Tool::Caliper), (OUTSIDE, 50.0, Tool::Caliper)]).verdict;
        assert_eq!(loose, Verdict::WithWork(vec![Work::ShimWashers { mm: 3.0 }]));
        let near = tried(0.0, 1.0, &by_tape).verdict;
        assert!(matches!(near, Verdict::TooNear { tool: Tool::Caliper, .. }), "{near:?}");
        let open = tried(1.0, 0.0, &[]).verdict;
        assert!(matches!(open, Verdict::DoesNot(finding) if finding.aspect == Aspect::Tried), "{open:?}");
        assert_eq!(tried(2.0, 1.0, &[]).missing, [INSIDE, OUTSIDE]);
        let swings = tried(2.0, 1.0, &by_tape).verdict;
        assert!(matches!(swings, Verdict::DoesNot(_)), "{swings:?}");
        let wide = [(INSIDE, 50.0, Tool::Caliper), (OUTSIDE, 51.0, Tool::Caliper)];
        assert_eq!(refused(&tried(1.0, 1.0, &wide)), Aspect::Between);
        let without = answer(Mating::Width, false, &[&[(MOVES, 1.0, Tool::Counted)], &by_tape[..]].concat());
        assert_eq!(without.verdict, Verdict::TooNear { callout: INSIDE, tool: Tool::Caliper });
    }

    #[test]
    fn a_rotor_must_lie_within_the_sliders_reach() {
        let told = |plane: f64, thickness: f64, bridge: f64| {
            let numbers = [
                (PLANE, plane, Tool::Caliper),
                (THICKNESS, thickness, Tool::Caliper),
                (REACH_LEAST, 30.0, Tool::Caliper),
                (REACH_MOST, 36.0, Tool::Caliper),
                (OPENING, 24.0, Tool::Caliper),
                (BRIDGE, bridge, Tool::Caliper),
            ];
            answer(Mating::RotorInCaliper, true, &numbers)
        };
        assert!(mates(&told(33.0, 22.0, 3.0)));
        assert_eq!(refused(&told(29.0, 22.0, 3.0)), Aspect::Plane);
        assert_eq!(refused(&told(37.0, 22.0, 3.0)), Aspect::Plane);
        assert_eq!(refused(&told(33.0, 25.0, 3.0)), Aspect::Pads);
        assert_eq!(refused(&told(33.0, 22.0, 1.5)), Aspect::Bridge);
    }

    /// 1.1 of the longer of two paths, and never an extension.
    #[test]
    fn a_hose_is_longer_than_its_longest_path() {
        let told = |free: f64, droop: f64, lock: f64, ends: f64| {
            let numbers = [
                (FREE, free, Tool::Tape),
                (PATH_DROOP, droop, Tool::Tape),
                (PATH_LOCK, lock, Tool::Tape),
                (ENDS, ends, Tool::Counted),
            ];
            answer(Mating::Hose, true, &numbers)
        };
        assert!(mates(&told(450.0, 350.0, 400.0, 1.0)));
        assert_eq!(refused(&told(430.0, 350.0, 400.0, 1.0)), Aspect::HoseLength);
        assert_eq!(refused(&told(430.0, 400.0, 350.0, 1.0)), Aspect::HoseLength);
        assert_eq!(refused(&told(450.0, 350.0, 400.0, 0.0)), Aspect::Ends);
    }
}
