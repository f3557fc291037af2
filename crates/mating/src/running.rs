//! Bearings on a spindle. No caliper judges how a bearing fits: its number does.

use super::numbers::Numbers;
use super::rule::{Aspect, Rule};
use truck::callouts::running_fit::{HOME, INNER, NUT, OUTER, PIN, RACES, SEAL, SHOULDERS, THREAD};

/// How far race to race may be from shoulder to shoulder, mm. Common practice, no source.
const WITHIN_MM: f64 = 0.5;

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(
        numbers,
        &[INNER, OUTER, RACES, SHOULDERS, SEAL, HOME, THREAD, NUT, PIN],
        &[&[INNER], &[OUTER], &[SEAL], &[RACES, SHOULDERS], &[HOME], &[THREAD], &[NUT], &[PIN]],
    );
    rule.fact(Aspect::Stamped, INNER);
    rule.fact(Aspect::Stamped, OUTER);
    rule.fact(Aspect::Stamped, SEAL);
    if let Some([races, shoulders]) = numbers.all([RACES, SHOULDERS]) {
        rule.within(Aspect::Races, [races, shoulders], WITHIN_MM, None);
    }
    rule.fact(Aspect::Home, HOME);
    // That it runs by hand is no thread: a finer one does too, slackly, and strips.
    rule.fact(Aspect::Nut, THREAD);
    rule.fact(Aspect::Nut, NUT);
    rule.fact(Aspect::Pin, PIN);
    rule
}

#[cfg(test)]
mod tests {
    use super::super::Verdict;
    use super::super::support::{answer, mates, refused};
    use super::*;
    use truck::{Mating, Tool};

    fn hub(races: f64, spoiled: Option<u8>) -> super::super::Answer {
        let said = |callout, tool| (callout, if spoiled == Some(callout) { 0.0 } else { 1.0 }, tool);
        let numbers = [
            said(INNER, Tool::Stamped),
            said(OUTER, Tool::Stamped),
            said(SEAL, Tool::Stamped),
            (RACES, races, Tool::Caliper),
            (SHOULDERS, 60.0, Tool::Caliper),
            said(HOME, Tool::Counted),
            said(THREAD, Tool::Stamped),
            said(NUT, Tool::TriedOn),
            said(PIN, Tool::Counted),
        ];
        answer(Mating::RunningFit, true, &numbers)
    }

    #[test]
    fn everything_must_be_right_at_once() {
        assert!(mates(&hub(60.3, None)));
        assert_eq!(refused(&hub(60.8, None)), Aspect::Races);
        assert_eq!(refused(&hub(59.2, None)), Aspect::Races);
        for (callout, aspect) in [
            (INNER, Aspect::Stamped),
            (OUTER, Aspect::Stamped),
            (SEAL, Aspect::Stamped),
            (HOME, Aspect::Home),
            (THREAD, Aspect::Nut),
            (NUT, Aspect::Nut),
            (PIN, Aspect::Pin),
        ] {
            assert_eq!(refused(&hub(60.0, Some(callout))), aspect);
        }
    }

    /// A caliper has no say in a bearing: with nothing but sizes nothing is told.
    #[test]
    fn a_caliper_alone_passes_no_bearing() {
        let sizes = [(RACES, 60.0, Tool::Caliper), (SHOULDERS, 60.0, Tool::Caliper)];
        let verdict = answer(Mating::RunningFit, true, &sizes).verdict;
        assert_eq!(verdict, Verdict::NotAsked { have: 2, of: 9 });
    }

    /// A nut that runs by hand, and nobody asked whether it is the spindle's thread: no yes.
    #[test]
    fn a_hub_nut_that_runs_proves_no_thread() {
        let all = [INNER, OUTER, SEAL, HOME, NUT, PIN].map(|callout| {
            let tool = match callout {
                NUT => Tool::TriedOn,
                HOME | PIN => Tool::Counted,
                _ => Tool::Stamped,
            };
            (callout, 1.0, tool)
        });
        let sizes = [(RACES, 60.0, Tool::Caliper), (SHOULDERS, 60.0, Tool::Caliper)];
        let numbers = [&all[..], &sizes].concat();
        let asked = answer(Mating::RunningFit, true, &numbers);
        assert_eq!((asked.verdict, asked.missing), (Verdict::NotAsked { have: 8, of: 9 }, vec![THREAD]));
    }
}
