//! A splined bar in its socket.

use super::numbers::Numbers;
use super::rule::{Aspect, Rule};
use truck::Tool;
use truck::callouts::spline::{
    BLIND, BLIND_SOCKET, ENGAGED, OLD_BAR, OVER, ROCK, TEETH, TEETH_SOCKET, TRIED, VALLEYS,
};

/// How much wider the valleys are than the teeth, in pitches: of room, least and greatest.
///
/// # Source
/// ANSI B92.1: an external spline is (N + 1)/P over its teeth, an internal one (N + 1.35) to
/// (N + 1.8)/P across its valleys (from memory but for the first), so 0.35 to 0.8; a little
/// more is left for wear.
const GAP: (f64, f64) = (0.3, 0.9);
/// How much of that room may be missing before the socket alone says no, in pitches: of tightness and of
/// slack. Tight by all of it the bar is larger than the socket, slack by more than that half of the teeth's height
/// stands clear (0.35 of a flat root and half of the two pitches of depth); up to there the spline
/// may be another fit than the side fit of [`GAP`], or the socket worn, and the bar that came out
/// of it tells. Hand arithmetic on the standard above; that it is enough, common practice, no source.
const MISSING: (f64, f64) = (GAP.0, 1.35 - GAP.1);
/// How far over its teeth a bar may be from the one that came out, in pitches. A third of the
/// gap's width. Common practice, no source.
const ALIKE: f64 = 0.2;

/// A pitch of a bar, mm: B92.1, over the teeth (N + 1)/P.
fn pitch_mm(teeth: f64, over_mm: f64) -> f64 {
    over_mm / (teeth + 1.0)
}

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let together = numbers.choice(TRIED) == Some(1) && numbers.tool(TRIED) == Some(Tool::TogetherBefore);
    let mut needed = vec![TEETH, TEETH_SOCKET];
    // The bar that came out of it is the best gauge of a socket, so it is asked for; where there is
    // none, the socket's own valleys are taken.
    let by_valleys = numbers.get(VALLEYS).is_some() && numbers.get(OLD_BAR).is_none();
    let socket = if by_valleys { VALLEYS } else { OLD_BAR };
    if together {
        // These very two, out of each other: what they measure is not asked again.
        needed = vec![TRIED];
    } else {
        needed.extend([OVER, socket, BLIND, BLIND_SOCKET]);
    }
    needed.extend([ENGAGED, ROCK]);
    let refusals: [&[u8]; 6] = [
        &[TEETH, TEETH_SOCKET],
        &[TEETH, OVER, socket],
        &[BLIND, BLIND_SOCKET],
        &[ROCK],
        &[ENGAGED],
        &[TRIED],
    ];
    let mut rule = Rule::new(numbers, &needed, &refusals);
    if numbers.choice(TRIED) == Some(0) {
        rule.holds(Aspect::Tried, false);
    }
    rule.equal(Aspect::Teeth, TEETH_SOCKET, TEETH);
    if let Some([blind, socket]) = numbers.all([BLIND, BLIND_SOCKET]) {
        rule.holds(Aspect::BlindTooth, (blind - socket).abs() < 0.5);
    }
    if let Some([teeth, over]) = numbers.all([TEETH, OVER]).filter(|_| !together) {
        let pitch = pitch_mm(teeth, over);
        if let Some(old) = numbers.get(OLD_BAR) {
            rule.length(Aspect::TightSplines, old, over, ALIKE * pitch - (over - old));
            rule.length(Aspect::SlackSplines, old, over, ALIKE * pitch - (old - over));
            // A plain no of the socket itself stays one: it may be worn out, or the old bar another socket's.
            if let Some(valleys) = numbers.get(VALLEYS) {
                let gap = valleys - over;
                let least = (GAP.0 - MISSING.0) * pitch;
                let most = (GAP.1 + MISSING.1) * pitch;
                if gap < least {
                    rule.length(Aspect::TightSplines, valleys, over, gap - least);
                } else if gap > most {
                    rule.length(Aspect::SlackSplines, valleys, over, most - gap);
                }
            }
        } else if let Some(valleys) = numbers.get(VALLEYS) {
            let gap = valleys - over;
            let tight = rule.length(Aspect::TightSplines, valleys, over, gap - GAP.0 * pitch);
            tight.better = Some((OLD_BAR, MISSING.0 * pitch));
            let slack = rule.length(Aspect::SlackSplines, valleys, over, GAP.1 * pitch - gap);
            slack.better = Some((OLD_BAR, MISSING.1 * pitch));
        }
    }
    rule.fact(Aspect::Engaged, ENGAGED);
    rule.fact(Aspect::Rock, ROCK);
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::Mating;

    /// A bar of 36 teeth of 32 pitch, 1.1563 in over them, in a socket of so much across.
    fn bar(sizes: &[(u8, f64)], spoiled: Option<(u8, f64)>) -> Answer {
        let mut numbers = vec![(TEETH, 36.0, Tool::Counted), (TEETH_SOCKET, 36.0, Tool::Counted)];
        numbers.push((OVER, 29.37, Tool::Caliper));
        numbers.extend(sizes.iter().map(|(callout, value)| (*callout, *value, Tool::Caliper)));
        for (callout, tool) in [
            (BLIND, Tool::Counted),
            (BLIND_SOCKET, Tool::Counted),
            (ENGAGED, Tool::Counted),
            (ROCK, Tool::TriedOn),
        ] {
            numbers.push((callout, 1.0, tool));
        }
        if let Some((callout, value)) = spoiled {
            numbers.iter_mut().filter(|number| number.0 == callout).for_each(|number| number.1 = value);
        }
        answer(Mating::Spline, true, &numbers)
    }

    /// The old bar says yes; a socket whose own valleys say a plain no (28.5 mm across over a bar of 29.37, 31.0 where
    /// 30.44 are the most that an old bar may speak for: 29.37 + 1.35 · 0.794) is worn out, or the old bar another's.
    #[test]
    fn an_old_bar_does_not_pass_a_socket_that_says_a_plain_no() {
        for valleys in [28.5, 31.0] {
            let found = refused(&bar(&[(OLD_BAR, 29.4), (VALLEYS, valleys)], None));
            assert!(matches!(found, Aspect::TightSplines | Aspect::SlackSplines), "{valleys}");
        }
        for valleys in [29.4, 30.4] {
            assert!(mates(&bar(&[(OLD_BAR, 29.4), (VALLEYS, valleys)], None)), "{valleys}");
        }
    }

    /// ANSI B92.1: 36 teeth of 32/64 are 1.1563 in over the teeth, so a pitch is 1/32 in; its
    /// internal spline is 37.35/32 to 37.8/32 in across the valleys, 29.65 to 30.00 mm.
    #[test]
    fn a_spline_of_the_standard_goes_into_its_own() {
        near(pitch_mm(36.0, 25.4 * 1.1563), 25.4 / 32.0, 1e-3);
        for thousandths in [37.45, 37.6, 37.75] {
            let valleys = 25.4 * thousandths / 32.0;
            assert!(mates(&bar(&[(VALLEYS, valleys)], None)), "{valleys}");
        }
    }

    /// By hand, a pitch of 29.37/37 = 0.794 mm. A socket of 29.2 is smaller than the bar by 0.17 and of 30.55 larger by
    /// 1.18, more than 1.35 pitches, 1.07. Of 29.45 and 30.2, 0.08 and 0.83 mm, it is tighter than 0.238
    /// and slacker than 0.714: that may be so of the bar that came out too, and that bar is asked for.
    #[test]
    fn a_socket_that_is_not_the_standard_s_asks_for_the_bar_that_came_out() {
        assert_eq!(refused(&bar(&[(VALLEYS, 29.2)], None)), Aspect::TightSplines);
        assert_eq!(refused(&bar(&[(VALLEYS, 30.55)], None)), Aspect::SlackSplines);
        for (valleys, missing) in [(29.45, 0.158), (30.2, 0.116)] {
            let asked = bar(&[(VALLEYS, valleys)], None);
            assert_eq!(asked.verdict, Verdict::TooNear { callout: OLD_BAR, tool: Tool::Caliper });
            near(asked.main.unwrap().room, -missing, 1e-3);
            assert!(mates(&bar(&[(VALLEYS, valleys), (OLD_BAR, 29.40)], None)));
        }
        // Whatever the socket measures, the old bar's no stands.
        for (old, aspect) in [(29.1, Aspect::TightSplines), (29.65, Aspect::SlackSplines)] {
            assert_eq!(refused(&bar(&[(VALLEYS, 29.8), (OLD_BAR, old)], None)), aspect);
        }
    }

    /// Of a row in which the socket is not measured yet the bar that came out is asked for.
    #[test]
    fn the_bar_that_came_out_is_asked_for_first() {
        let asked = bar(&[], None);
        assert_eq!(asked.missing, [OLD_BAR]);
        assert_eq!(asked.verdict, Verdict::NotAsked { have: 7, of: 8 });
        assert!(bar(&[(VALLEYS, 29.8)], None).missing.is_empty());
    }

    /// As many teeth and another diameter: a bar of 25.4 in a bracket of 26.5.
    #[test]
    fn equal_teeth_and_another_diameter_are_refused() {
        let thin = bar(&[(VALLEYS, 26.5)], Some((OVER, 25.4)));
        assert_eq!(refused(&thin), Aspect::SlackSplines);
        let Verdict::DoesNot(said) = thin.verdict else { panic!() };
        assert_eq!((said.first, said.second), (Some(26.5), Some(25.4)));
        // A fifth of 25.4/37 is 0.137 and nine tenths 0.618: slack by 1.1 − 0.618.
        near(said.room, -0.482, 1e-3);
        assert_eq!(refused(&bar(&[(OLD_BAR, 29.9)], None)), Aspect::SlackSplines);
        assert_eq!(refused(&bar(&[(OLD_BAR, 28.9)], None)), Aspect::TightSplines);
    }

    #[test]
    fn the_bar_that_came_out_is_the_best_gauge() {
        assert!(mates(&bar(&[(OLD_BAR, 29.40)], None)));
        // It is asked before the valleys, which rust and wear have changed.
        assert!(mates(&bar(&[(OLD_BAR, 29.40), (VALLEYS, 30.4)], None)));
    }

    #[test]
    fn a_blind_tooth_another_count_a_short_grip_and_a_rock_refuse() {
        for (callout, value, aspect) in [
            (TEETH, 35.0, Aspect::Teeth),
            (BLIND, 0.0, Aspect::BlindTooth),
            (BLIND_SOCKET, 0.0, Aspect::BlindTooth),
            (ENGAGED, 0.0, Aspect::Engaged),
            (ROCK, 0.0, Aspect::Rock),
        ] {
            assert_eq!(refused(&bar(&[(VALLEYS, 29.8)], Some((callout, value)))), aspect);
        }
    }

    /// A tape cannot tell a third of a millimetre, and tried on is no proof; together before is.
    #[test]
    fn what_was_together_before_is_and_what_was_tried_on_is_not_proof() {
        let with = |tool| {
            let numbers = [(TRIED, 1.0, tool), (ENGAGED, 1.0, Tool::Counted), (ROCK, 1.0, Tool::TriedOn)];
            answer(Mating::Spline, true, &numbers)
        };
        assert!(mates(&with(Tool::TogetherBefore)));
        assert_eq!(with(Tool::TriedOn).verdict, Verdict::NotAsked { have: 2, of: 8 });
        let tape = answer(
            Mating::Spline,
            true,
            &[
                (TEETH, 36.0, Tool::Counted),
                (TEETH_SOCKET, 36.0, Tool::Counted),
                (OVER, 29.37, Tool::Tape),
                (VALLEYS, 29.8, Tool::Tape),
                (BLIND, 1.0, Tool::Counted),
                (BLIND_SOCKET, 1.0, Tool::Counted),
                (ENGAGED, 1.0, Tool::Counted),
                (ROCK, 1.0, Tool::TriedOn),
            ],
        );
        assert!(matches!(tape.verdict, Verdict::TooNear { tool: Tool::Caliper, .. }), "{tape:?}");
    }
}
