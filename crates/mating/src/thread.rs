//! A bolt in a thread, and how much of it is in.

use super::numbers::Numbers;
use super::rule::{Aspect, Rule, Scale, Work};
use truck::callouts::thread::{ENGAGED, GRIP, NUT, OVER, OVER_OLD, PITCH, PITCH_NUT, PLAIN, SHOWING, TRIED};

/// How far two bolts of one thread may differ over it, mm: the tolerance of its outside.
///
/// # Source
/// ISO 965-1, 6g: 0.236 mm for a pitch of 1.5, 0.265 for 1.75 (from memory).
const OVER_MM: f64 = 0.3;
/// Pitches are equal within less than this, mm: 20 to the inch is 1.27, and not 1.25.
const PITCH_MM: f64 = 0.015;
/// Threads that stand past a nut at least. Common practice, no source.
const SHOWING_LEAST: f64 = 2.0;

pub(super) fn rule(numbers: &Numbers) -> Rule {
    let mut rule = Rule::new(
        numbers,
        &[PITCH, PITCH_NUT, OVER, OVER_OLD, ENGAGED, SHOWING, NUT, GRIP, PLAIN],
        &[&[PITCH, PITCH_NUT], &[OVER, OVER_OLD], &[ENGAGED, OVER], &[SHOWING], &[GRIP, PLAIN], &[NUT]],
    );
    // Tried on proves no thread: what goes on may strip.
    if numbers.choice(TRIED) == Some(0) {
        rule.holds(Aspect::Tried, false);
    }
    let another = Some(Work::AnotherBolt);
    if let Some([bolt, nut]) = numbers.all([PITCH, PITCH_NUT]) {
        let room = if (bolt - nut).abs() < PITCH_MM { 0.0 } else { -(bolt - nut).abs() };
        rule.length(Aspect::Pitch, bolt, nut, room).work = another;
    }
    if let Some([over, old]) = numbers.all([OVER, OVER_OLD]) {
        rule.within(Aspect::OverThread, [over, old], OVER_MM, another);
    }
    if let Some([engaged, over]) = numbers.all([ENGAGED, OVER]) {
        rule.length(Aspect::Engaged, engaged, over, engaged - over).work = another;
    }
    if let Some(showing) = numbers.get(SHOWING) {
        let both = [Some(showing), Some(SHOWING_LEAST)];
        rule.check(Aspect::Showing, Scale::Count, both, showing - SHOWING_LEAST).work = another;
    }
    if let Some([grip, plain]) = numbers.all([GRIP, PLAIN]) {
        // A nut that comes up against the shank is tight and clamps nothing.
        rule.length(Aspect::Grip, plain, grip, grip - plain).work = another;
    }
    rule.fact(Aspect::Nut, NUT);
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::{Mating, Tool};

    fn bolt(vital: bool, [pitch, nut, over, old]: [f64; 4], engaged: f64, showing: f64) -> Answer {
        let numbers = [
            (PITCH, pitch, Tool::ThreadGauge),
            (PITCH_NUT, nut, Tool::ThreadGauge),
            (OVER, over, Tool::Caliper),
            (OVER_OLD, old, Tool::Caliper),
            (ENGAGED, engaged, Tool::Caliper),
            (SHOWING, showing, Tool::Counted),
            (NUT, 1.0, Tool::Counted),
            (TRIED, 1.0, Tool::TriedOn),
            (GRIP, 30.0, Tool::Caliper),
            (PLAIN, 25.0, Tool::Caliper),
        ];
        answer(Mating::Thread, vital, &numbers)
    }

    /// 7/16-20 UNF: 11.11 mm and 25.4/20 = 1.27 mm, against M12×1.25; 3/8-24: 9.53 mm and
    /// 25.4/24 = 1.06 mm, against M10×1 of brake lines. Both run on by hand.
    #[test]
    fn the_pairs_that_run_on_and_strip_are_refused() {
        assert_eq!(refused(&bolt(true, [1.27, 1.25, 11.05, 11.9], 13.0, 3.0)), Aspect::Pitch);
        assert_eq!(refused(&bolt(true, [1.06, 1.0, 9.45, 9.9], 12.0, 3.0)), Aspect::Pitch);
        // Without a thread gauge the size alone refuses them.
        for (over, old) in [(11.05, 11.9), (9.45, 9.9)] {
            let sizes =
                [(OVER, over, Tool::Caliper), (OVER_OLD, old, Tool::Caliper), (TRIED, 1.0, Tool::TriedOn)];
            assert_eq!(refused(&answer(Mating::Thread, true, &sizes)), Aspect::OverThread);
        }
    }

    #[test]
    fn a_thread_wants_a_diameter_in_the_nut_and_two_threads_out() {
        let twelve = [1.75, 1.75, 11.9, 11.85];
        assert!(mates(&bolt(true, twelve, 12.2, 2.0)));
        assert_eq!(refused(&bolt(true, twelve, 10.0, 2.0)), Aspect::Engaged);
        assert_eq!(refused(&bolt(true, twelve, 12.2, 1.0)), Aspect::Showing);
        let short = bolt(false, twelve, 10.0, 2.0).verdict;
        assert_eq!(short, Verdict::WithWork(vec![Work::AnotherBolt]));
    }

    /// Engagement at which bolt and nut of one steel strip no sooner than the bolt breaks (formula of Machinery's
    /// Handbook; a 1/2-13's 0.1419 in², least pitch diameter 0.4435 in and greatest minor diameter of the nut 0.434 in
    /// from memory): 0.36 in, 0.73 of its diameter. One diameter is asked here, which is more.
    #[test]
    fn a_diameter_is_more_than_the_thread_needs_to_break_the_bolt() {
        let (area, threads, pitch, minor) = (0.1419, 13.0, 0.4435, 0.434);
        let strips = 1.0 / libm::sqrt(3.0) * threads * (pitch - minor) + 0.5;
        let engaged_in = 2.0 * area / (minor * std::f64::consts::PI * strips);
        near(engaged_in, 0.36, 0.005);
        near(engaged_in / 0.5, 0.73, 0.01);
        let half = [25.4 / 13.0, 25.4 / 13.0, 12.6, 12.6];
        assert_eq!(refused(&bolt(true, half, engaged_in * 25.4, 3.0)), Aspect::Engaged);
        assert!(mates(&bolt(true, half, 12.9, 3.0)));
    }

    /// A nut that stops at the shank is tight, shows its threads, and clamps nothing.
    #[test]
    fn a_shank_longer_than_what_it_clamps_takes_another_bolt() {
        let numbers = |plain: f64| {
            let all = [(PITCH, 1.75), (PITCH_NUT, 1.75), (OVER, 11.9), (OVER_OLD, 11.9), (ENGAGED, 12.5)];
            let all = [&all[..], &[(SHOWING, 3.0), (NUT, 1.0), (GRIP, 30.0), (PLAIN, plain)]].concat();
            let tool = |callout: u8| match callout {
                PITCH | PITCH_NUT => Tool::ThreadGauge,
                SHOWING | NUT => Tool::Counted,
                _ => Tool::Caliper,
            };
            all.into_iter().map(|(callout, value)| (callout, value, tool(callout))).collect::<Vec<_>>()
        };
        assert!(mates(&answer(Mating::Thread, true, &numbers(29.5))));
        assert!(mates(&answer(Mating::Thread, true, &numbers(0.0))), "threaded up to its head");
        assert_eq!(refused(&answer(Mating::Thread, true, &numbers(32.0))), Aspect::Grip);
        let near = answer(Mating::Thread, true, &numbers(30.0)).verdict;
        assert!(matches!(near, Verdict::TooNear { .. }), "{near:?}");
        let work = answer(Mating::Thread, false, &numbers(32.0)).verdict;
        assert_eq!(work, Verdict::WithWork(vec![Work::AnotherBolt]));
    }

    #[test]
    fn tried_on_proves_no_thread() {
        let alone = answer(Mating::Thread, true, &[(TRIED, 1.0, Tool::TriedOn)]).verdict;
        assert_eq!(alone, Verdict::NotAsked { have: 0, of: 9 });
        assert_eq!(refused(&answer(Mating::Thread, true, &[(TRIED, 0.0, Tool::TriedOn)])), Aspect::Tried);
    }
}
