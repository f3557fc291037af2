//! A tapered stud in its seat. Sizes may refuse one and never pass it: the most dangerous yes
//! is a stud of the same large end and another taper, which pulls up tight, rocks, and breaks
//! later.

use super::numbers::Numbers;
use super::rule::{Aspect, Proof, Rule, Scale};
use truck::Tool;
use truck::callouts::taper_seat::{
    BLUE, NUT, PIN, ROCK, SEAT_ALONG, SEAT_LARGE, SEAT_LENGTH, SEAT_SMALL, STUD_ALONG, STUD_LARGE, STUD_SMALL,
};

/// How far the two may part over the length that was measured without being refused, mm: twice
/// what a caliper may be off. Common practice, no source; the blue decides.
const PARTS_MM: f64 = 0.1;

/// How much of its seat a stud fills at least. Common practice, no source; the blue decides.
const FILLED: f64 = 0.75;

pub(super) fn rule(numbers: &Numbers) -> Rule {
    const SIZES: [u8; 6] = [STUD_LARGE, STUD_ALONG, STUD_SMALL, SEAT_LARGE, SEAT_ALONG, SEAT_SMALL];
    let mut rule = Rule::new(numbers, &[ROCK, BLUE, NUT, PIN], &[&[ROCK], &SIZES, &[BLUE], &[NUT], &[PIN]]);
    rule.fact(Aspect::Rock, ROCK);
    rule.fact(Aspect::Blue, BLUE);
    rule.fact(Aspect::Nut, NUT);
    rule.fact(Aspect::Pin, PIN);
    if let Some([large, along, small, seat_large, seat_along, seat_small]) = numbers.all(SIZES) {
        // The two narrow by so much over the stud's length between its two places.
        let of = |large: f64, small: f64, along: f64| if along > 0.0 { (large - small) / along } else { 0.0 };
        let (stud, seat) = (of(large, small, along), of(seat_large, seat_small, seat_along));
        let one_in = |taper: f64| (taper > 0.0).then(|| 1.0 / taper);
        for off in [(stud - seat) * along, (seat - stud) * along] {
            let check = rule.check(Aspect::Taper, Scale::OneIn, [one_in(stud), one_in(seat)], PARTS_MM - off);
            check.proof = Proof::Refuses;
        }
        // No taper at all is none.
        rule.holds(Aspect::Taper, stud > 0.0 && seat > 0.0);
        // A stud that is smaller than the seat is at its small place falls through.
        rule.length(Aspect::Through, large, seat_small, large - seat_small).proof = Proof::Refuses;
        if let Some(length) = numbers.get(SEAT_LENGTH) {
            // A thinner stud sinks until it is held, and leaves the seat's wide end empty.
            let sinks = if seat > 0.0 { (seat_large - large) / seat } else { 0.0 };
            let filled = length - sinks;
            let least = FILLED * length;
            rule.length(Aspect::Filled, filled, least, filled - least).proof = Proof::Refuses;
        }
        if numbers.get(BLUE).is_none() {
            rule.tells = Some((BLUE, Tool::MarkingBlue));
        }
    }
    rule
}

#[cfg(test)]
mod tests {
    use super::super::support::{answer, mates, near, refused};
    use super::super::{Answer, Verdict};
    use super::*;
    use truck::Mating;

    /// A stud of 1 in `stud` and a seat of 1 in `seat`, both of one large end, measured over 11 mm.
    fn sizes(stud: f64, seat: f64) -> Vec<(u8, f64, Tool)> {
        vec![
            (STUD_LARGE, 18.0, Tool::Caliper),
            (STUD_ALONG, 11.0, Tool::Caliper),
            (STUD_SMALL, 18.0 - 11.0 / stud, Tool::Caliper),
            (SEAT_LARGE, 18.0, Tool::Caliper),
            (SEAT_ALONG, 11.0, Tool::Caliper),
            (SEAT_SMALL, 18.0 - 11.0 / seat, Tool::Caliper),
        ]
    }

    fn evidence(spoiled: Option<u8>) -> Vec<(u8, f64, Tool)> {
        [(ROCK, Tool::TriedOn), (BLUE, Tool::MarkingBlue), (NUT, Tool::Counted), (PIN, Tool::Counted)]
            .map(|(callout, tool)| (callout, if spoiled == Some(callout) { 0.0 } else { 1.0 }, tool))
            .to_vec()
    }

    fn told(numbers: &[Vec<(u8, f64, Tool)>]) -> Answer {
        answer(Mating::TaperSeat, true, &numbers.concat())
    }

    /// Tapers of 1:8, 1:10 and 1:6 include 7.153°, 5.725° and 9.527° (arithmetic); a Morse 2 of
    /// 0.5994 in a foot has half of 1.4307° (taper tables). Over 11 mm they are a quarter of a
    /// millimetre apart and more, which a caliper sees.
    #[test]
    fn the_same_large_end_and_another_taper_is_refused() {
        let included = |taper: f64| 2.0 * libm::atan(taper / 2.0).to_degrees();
        for (one_in, angle) in [(8.0, 7.153), (10.0, 5.725), (6.0, 9.527), (12.0 / 0.5994, 2.0 * 1.4307)] {
            near(included(1.0 / one_in), angle, 1e-3);
        }
        for (stud, seat) in [(8.0, 10.0), (10.0, 8.0), (6.0, 8.0)] {
            assert_eq!(refused(&told(&[sizes(stud, seat)])), Aspect::Taper);
            // Pulled up tight and all else well: still no.
            assert_eq!(refused(&told(&[sizes(stud, seat), evidence(None)])), Aspect::Taper);
        }
    }

    /// Half of a Morse 3 is 1.4377°, and of a Jarno, 0.6 in a foot, 1.4321° (taper tables): beside a Morse 2 they part
    /// by less than 3 µm over 11 mm. No tool of a garage tells them apart, and sizes pass none of them.
    #[test]
    fn tapers_that_no_tool_tells_apart_wait_for_the_blue() {
        near(libm::atan(0.6 / 24.0).to_degrees(), 1.4321, 1e-4);
        let one_in = |half_deg: f64| 0.5 / libm::tan(half_deg.to_radians());
        let morse_2 = one_in(1.4307);
        for other in [one_in(1.4377), one_in(1.4321)] {
            assert!((11.0 / other - 11.0 / morse_2).abs() < 0.003);
            let mut numbers = sizes(morse_2, other);
            for number in &mut numbers {
                number.2 = if number.0 == STUD_ALONG || number.0 == SEAT_ALONG {
                    Tool::Caliper
                } else {
                    Tool::Micrometer
                };
            }
            let alone = told(&[numbers.clone()]).verdict;
            assert_eq!(alone, Verdict::TooNear { callout: BLUE, tool: Tool::MarkingBlue });
            assert_eq!(refused(&told(&[numbers, evidence(Some(BLUE))])), Aspect::Blue);
        }
    }

    /// Equal sizes say nothing until the blue does.
    #[test]
    fn calipers_never_pass_a_taper() {
        let alone = told(&[sizes(8.0, 8.0)]).verdict;
        assert_eq!(alone, Verdict::TooNear { callout: BLUE, tool: Tool::MarkingBlue });
        assert!(mates(&told(&[sizes(8.0, 8.0), evidence(None)])));
        assert!(mates(&told(&[evidence(None)])));
    }

    /// By hand: 1 in 8, a stud 0.5 mm thinner sits 4 mm deeper. Of a seat of 15 mm 11 are filled, less than 11.25;
    /// of 20 mm 16, more than 15. A thicker one leaves nothing empty, and a length alone passes nothing.
    #[test]
    fn a_stud_that_sinks_leaves_the_wide_end_of_its_seat_empty() {
        let told = |thinner: f64, length: f64| {
            let mut numbers = sizes(8.0, 8.0);
            numbers.iter_mut().filter(|number| [STUD_LARGE, STUD_SMALL].contains(&number.0)).for_each(
                |number| {
                    number.1 -= thinner;
                    number.2 = Tool::Micrometer;
                },
            );
            numbers
                .iter_mut()
                .filter(|number| number.0 >= SEAT_LARGE)
                .for_each(|number| number.2 = Tool::Micrometer);
            numbers.push((SEAT_LENGTH, length, Tool::Micrometer));
            told(&[numbers, evidence(None)])
        };
        assert_eq!(refused(&told(0.5, 13.0)), Aspect::Filled);
        assert!(mates(&told(0.5, 20.0)));
        assert!(mates(&told(-0.5, 13.0)));
        let covered = |length: f64| {
            let told = told(0.5, length);
            let finding = told.findings.into_iter().find(|finding| finding.aspect == Aspect::Filled).unwrap();
            near(finding.first.unwrap(), length - 4.0, 1e-9);
            near(finding.second.unwrap(), 0.75 * length, 1e-9);
            finding.room
        };
        near(covered(15.0), -0.25, 1e-9);
        near(covered(20.0), 1.0, 1e-9);
    }

    #[test]
    fn a_rock_a_thin_print_a_short_thread_or_a_nut_backed_off_each_refuse() {
        for (callout, aspect) in
            [(ROCK, Aspect::Rock), (BLUE, Aspect::Blue), (NUT, Aspect::Nut), (PIN, Aspect::Pin)]
        {
            assert_eq!(refused(&told(&[sizes(8.0, 8.0), evidence(Some(callout))])), aspect);
        }
    }

    /// 1:8 and 1:9 part by 0.15 mm over 11 mm: no caliper refuses that for sure, and none passes it.
    #[test]
    fn what_a_caliper_cannot_refuse_it_does_not_pass() {
        let told = told(&[sizes(8.0, 9.0), evidence(None)]).verdict;
        assert!(matches!(told, Verdict::TooNear { tool: Tool::Micrometer, .. }), "{told:?}");
    }

    #[test]
    fn no_taper_at_all_is_none() {
        let mut flat = sizes(8.0, 8.0);
        flat[2].1 = 18.0;
        assert_eq!(refused(&told(&[flat, evidence(None)])), Aspect::Taper);
        let mut nowhere = sizes(8.0, 8.0);
        nowhere[1].1 = 0.0;
        assert_eq!(refused(&told(&[nowhere])), Aspect::Taper);
    }
}
