//! Bearings on a spindle. No caliper judges how a bearing fits: its number does.

use super::numbers::Numbers;
use super::rule::{Aspect, Proof, Rule};
use truck::callouts::running_fit::{
    HOME, INNER, JOURNAL, JOURNAL_OLD, NUT, OUTER, PIN, RACES, SEAL, SHOULDERS, THREAD,
};

/// How far race to race may be from shoulder to shoulder, mm. Common practice, no source.
const WITHIN_MM: f64 = 0.5;
/// How far a journal may be from another that the same seal runs on, mm.
///
/// # Source
/// ISO 6194-1 asks for a shaft of h11; ISO 286-1: 0.160 mm of 30 to 50, 0.190 of 50 to 80 (from memory).
const JOURNAL_MM: f64 = 0.19;

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
    if let Some(journals) = numbers.all([JOURNAL, JOURNAL_OLD]) {
        // That the seal's number is the same says yes.
        for check in rule.within(Aspect::Journal, journals, JOURNAL_MM, None) {
            check.proof = Proof::Refuses;
        }
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

    /// ISO 286-1: h11 of 30 to 50 mm is 0.160 mm wide, of 50 to 80 mm 0.190 (from memory): a seal bears any two shafts
    /// of it, and neither refuses the other; three tenths are more, either way. It refuses and passes nothing.
    #[test]
    fn a_seal_runs_on_no_other_journal() {
        let journal = |journal: f64| {
            let sizes = [(JOURNAL, journal), (JOURNAL_OLD, 45.0)];
            answer(Mating::RunningFit, true, &sizes.map(|(callout, value)| (callout, value, Tool::Caliper)))
        };
        for refusing in [45.3, 44.7] {
            assert_eq!(refused(&journal(refusing)), Aspect::Journal);
        }
        for bearing in [45.0, 45.16, 44.84] {
            assert_eq!(journal(bearing).verdict, Verdict::NotAsked { have: 0, of: 9 });
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
