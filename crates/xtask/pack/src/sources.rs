//! Where bytes come again from, chosen anew.
//!
//! LZMA takes the nearest place; of the same bytes one may stand in a place of the same sort, which is told in fewer
//! bits ([`crate::told`]). It is taken where every later step that goes by how far back it was gives the same bytes.

use std::collections::BTreeMap;

use crate::lzma::Step;

/// How many bits fewer it must be at least, at a guess, by how far back it is counted.
const FEWER: f64 = 1.0;
/// How many places of a sort are looked at, the nearest first.
const LOOKED_AT: usize = 4000;

/// The steps with nearer sources; `sorts` is of each place, where it has one.
pub(crate) fn nearer(code: &[u8], mut steps: Vec<Step>, sorts: &[Option<usize>]) -> Vec<Step> {
    let mut like: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let mut at = 0;
    for step in 0..steps.len() {
        let places = sorts.get(at).copied().flatten().and_then(|sort| like.get(&sort));
        if let (Step::Far { distance, length }, Some(places)) = (steps[step], places) {
            let is_same = sorts[at - 1 - distance] == sorts[at];
            let now = if is_same { 0.0 } else { bits(distance) - FEWER };
            let found = standing(code, places, at, length).take_while(|(back, _)| bits(*back) < now);
            let mut nearer = found.map(|(_, from)| Step::Far { distance: at - 1 - from, length });
            if let Some(nearer) = nearer.find(|to| gives_the_same(code, &steps[step..], at, *to)) {
                steps[step] = nearer;
            }
        }
        for (place, sort) in sorts.iter().enumerate().skip(at).take(steps[step].length()) {
            if let Some(sort) = sort {
                like.entry(*sort).or_default().push(place);
            }
        }
        at += steps[step].length();
    }
    steps
}

/// About how many bits a number takes.
fn bits(number: usize) -> f64 {
    (number as f64 + 1.0).log2()
}

/// The places of a sort at which the same bytes stand, the nearest first, and how far back each is among them.
fn standing(code: &[u8], like: &[usize], at: usize, length: usize) -> impl Iterator<Item = (usize, usize)> {
    let wanted = &code[at..at + length];
    let near = like.iter().rev().take(LOOKED_AT).copied().enumerate();
    near.filter(move |(_, from)| code[*from..].starts_with(wanted))
}

/// Whether the steps give the same bytes if the first is another: as long as one goes by its distance.
fn gives_the_same(code: &[u8], steps: &[Step], mut at: usize, first: Step) -> bool {
    let Step::Far { distance, .. } = first else { return false };
    // The same distances before both, since only the first place of them matters.
    let mut last = [usize::MAX; 4];
    for (nth, step) in steps.iter().enumerate() {
        let step = if nth == 0 { first } else { *step };
        step.remember(&mut last);
        if nth > 0 && !last.contains(&distance) {
            return true;
        }
        let goes_by = !matches!(step, Step::Byte) && last[0] == distance;
        let bytes = at..at + step.length();
        if goes_by && !bytes.clone().all(|to| code[to] == code[to - 1 - distance]) {
            return false;
        }
        at = bytes.end;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same four bytes stand in a place of another sort and, before that, in two of the same; the second is nearer.
    const CODE: &[u8] = b"1wordx1wordy2wordz1word";
    const FIRST: [Step; 3] = [Step::Byte, Step::Far { distance: 5, length: 4 }, Step::Byte];

    fn sorts() -> Vec<Option<usize>> {
        (0..CODE.len()).map(|at| at.checked_sub(1).map(|before| usize::from(CODE[before]))).collect()
    }

    fn steps(behind: &[Step]) -> Vec<Step> {
        let bytes = [Step::Byte; 19];
        [&bytes[..], &[Step::Far { distance: 5, length: 4 }], behind].concat()
    }

    #[test]
    fn a_source_of_the_same_sort_is_taken() {
        assert_eq!(nearer(CODE, steps(&[]), &sorts())[19], Step::Far { distance: 11, length: 4 });
        // Of one sort altogether the nearest stays.
        let alike = vec![Some(0); CODE.len()];
        assert_eq!(nearer(CODE, steps(&[]), &alike), steps(&[]));
        assert_eq!(nearer(CODE, steps(&[]), &[None; 23]), steps(&[]));
    }

    /// `Again` goes by the distance of the step before: where that would give another byte it stays.
    #[test]
    fn a_later_step_keeps_what_it_goes_by() {
        let code = [CODE, b"z1word"].concat();
        let mut sorts = sorts();
        sorts.resize(code.len(), None);
        let again = [Step::Again { which: 0, length: 6 }];
        assert_eq!(nearer(&code, steps(&again), &sorts), steps(&again));
        // Once four others have come no step can go by it any more, and one that gives the same may.
        assert!(gives_the_same(&code, &FIRST, 19, Step::Far { distance: 11, length: 4 }));
        assert!(!gives_the_same(&code, &steps(&again)[19..], 19, Step::Far { distance: 11, length: 4 }));
    }
}
