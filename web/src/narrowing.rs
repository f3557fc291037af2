//! Which guesses the figures rest on and how far off they may be, looked for while nothing moves.
//!
//! It shows nothing: what it finds takes the place of all that a figure may rest on. While a finger
//! is down a mark may appear and never vanish: what moves loses what was found of it, and nothing is
//! looked for before the finger is off.

use crate::browser::slices::Slices;
use crate::derive::{Answers, Standing};
use crate::dom::follow;
use crate::state::{Page, Panel};
use crate::told::{COMPARED, Known, Ranged, Spread};
use drawing::SKETCHED;
use study::{Draws, Figure, Guesses, LeftRight, Narrowing, Pair, Spreading, StandingSide, Trial, Value};
use truck::{Overlay, Readable, Side};

/// Whether any truck on the page holds a guess.
pub(crate) fn is_asked(answers: Answers) -> bool {
    any(answers, &|rest| !guesses(rest).is_empty())
}

/// The guesses of a truck: the right has none that the left has not.
fn guesses(rest: &StandingSide) -> Guesses {
    Guesses::of(&rest.stance().corner(Side::Left).fitted)
}

/// Whether any truck on the page that stands is one of these.
fn any(answers: Answers, holds: &dyn Fn(&StandingSide) -> bool) -> bool {
    let of = |standing: &Standing| standing.as_ref().as_ref().is_ok_and(holds);
    let mut found = answers.before.with(of);
    // Each is followed, whatever the others are.
    for standing in &answers.proposed {
        found |= standing.with(|standing| standing.as_ref().is_some_and(of));
    }
    found
}

/// Looks for what the figures of every truck on the page rest on, as long as the owner lives.
#[inline(never)]
pub(crate) fn narrow(page: Page, answers: Answers) {
    let slices = Slices::new();
    follow(move || {
        let is_dragged = page.session.dragging.with(Option::is_some);
        // No truck is copied here: this runs at every frame of a drag.
        let stands = |known: &Known| any(answers, &|rest| *rest == known.rest);
        // Followed even where nothing is known yet; a drag is followed anyway.
        let is_still = any(answers, &|_| true) && !is_dragged;
        if answers.known.with_now(|known| !known.iter().all(stands)) {
            answers.known.update(|known| known.retain(stands));
        }
        let nothing: Box<dyn FnMut() -> bool> = Box::new(|| true);
        // Draws are some thousand trucks: they are for who looks at what they say.
        let is_compared = page.session.panel.get() == Panel::Compare;
        slices.start(if is_still { search(page, answers, is_compared) } else { nothing });
    });
}

/// A truck that stands, and what is laid over it.
type Stood = (StandingSide, Trial);

/// The trucks that stand: as measured, then each proposal.
fn trucks(page: Page, answers: Answers) -> Vec<Stood> {
    let mut stood = Vec::new();
    page.store.shown().with_now(|design| {
        let mut add = |standing: &Standing, overlay: Overlay<'_>| {
            let Ok(rest) = standing.as_ref() else { return };
            stood.push((rest.clone(), Trial::new(&design.truck, overlay)));
        };
        answers.before.with_now(|standing| add(standing, Overlay::NOTHING));
        for (proposal, standing) in design.proposals.iter().zip(&answers.proposed) {
            standing.with_now(|standing| standing.iter().for_each(|one| add(one, Overlay::from(proposal))));
        }
    });
    stood
}

/// The figures that are looked for: what is compared, written into the sketch, what can be read off, and the room
/// of every pair.
#[inline(never)]
fn figures() -> Vec<Figure> {
    let mut all = COMPARED.to_vec();
    let mut add = |figure: Figure| {
        if !all.contains(&figure) {
            all.push(figure);
        }
    };
    add(Figure::BUMP_TOUCH);
    add(Figure::DROOP_ENDED_BY);
    SKETCHED.into_iter().for_each(&mut add);
    LeftRight::QUANTITIES.into_iter().map(Figure::together).for_each(&mut add);
    for of in Readable::ALL {
        add(Figure::of_reading(*of));
    }
    for pair in Pair::ALL.iter() {
        add(Figure::meets_at(*pair));
        add(Figure::room(*pair));
    }
    all
}

/// The search, a truck at a call; a truck's marks are put in sight when all of its guesses are tried,
/// and how far off all are when that is known.
fn search(page: Page, answers: Answers, is_compared: bool) -> Box<dyn FnMut() -> bool> {
    let all = figures();
    let mut remaining: Option<Vec<Stood>> = None;
    let mut under_way: Option<(StandingSide, Narrowing)> = None;
    let mut last: Option<[Box<dyn FnMut() -> bool>; 2]> = None;
    Box::new(move || {
        // Gathered when nothing has moved for a while.
        let remaining = remaining.get_or_insert_with(|| {
            let mut found = trucks(page, answers);
            found.retain(|(rest, _)| !guesses(rest).is_empty() && !is_known(answers, rest, &|_| true));
            // The last one is next.
            found.reverse();
            found
        });
        let Some((rest, search)) = under_way.as_mut() else {
            let Some((rest, trial)) = remaining.pop() else {
                let [first, then] =
                    last.get_or_insert_with(|| [spreads(page, answers), ranges(page, answers)]);
                return first() && (!is_compared || then());
            };
            let search = Narrowing::new(trial, &rest.stance().corner(Side::Left).fitted, all.clone());
            under_way = Some((rest, search));
            return false;
        };
        if search.step(&|trial, figures| trial.values(rest.side(), figures)) {
            let marks = all.iter().map(|figure| (*figure, search.rests_on(*figure))).collect();
            let known = Known { rest: rest.clone(), marks, spreads: Vec::new(), ranges: Vec::new() };
            answers.known.update(|all| all.push(known));
            under_way = None;
        }
        false
    })
}

/// Whether a truck was looked at, and that is known of it.
fn is_known(answers: Answers, rest: &StandingSide, what: &dyn Fn(&Known) -> bool) -> bool {
    answers.known.with_now(|known| known.iter().any(|known| known.rest == *rest && what(known)))
}

/// All trucks that stand, side by side, and of which side they are.
fn all_of(page: Page, answers: Answers) -> (Vec<StandingSide>, Vec<Trial>, Side) {
    let (mut rests, mut trials) = (Vec::new(), Vec::new());
    for (rest, trial) in trucks(page, answers) {
        rests.push(rest);
        trials.push(trial);
    }
    let side = rests.first().map_or(Side::Left, StandingSide::side);
    (rests, trials, side)
}

/// The search for how far off the figures of all trucks may be: what a change makes of an error hangs
/// on the truck as it sits, so all are looked at together.
fn spreads(page: Page, answers: Answers) -> Box<dyn FnMut() -> bool> {
    let (rests, trials, side) = all_of(page, answers);
    let mut whole = rests.iter().all(|rest| is_known(answers, rest, &|known| !known.spreads.is_empty()));
    let figures = figures();
    let mut search = Spreading::new(trials, side, &figures);
    Box::new(move || {
        if whole {
            return true;
        }
        whole = search.step(&|trial, figures| trial.values(side, figures));
        if whole {
            // Of the truck as it sits, whichever plan it is told beside.
            let next: Vec<_> = figures.iter().map(|figure| search.next_reading(0, *figure)).collect();
            answers.known.update(|all| {
                for (at, rest) in rests.iter().enumerate() {
                    let mut spreads = Vec::new();
                    for (figure, next) in figures.iter().copied().zip(next.iter().copied()) {
                        let (own, change) = (search.spread(at, figure), search.spread_between(at, 0, figure));
                        let is_doubtful = search.is_doubtful(figure);
                        spreads.push((figure, Spread { own, change, next, is_doubtful }));
                    }
                    match all.iter_mut().find(|known| known.rest == *rest) {
                        Some(known) => known.spreads = spreads,
                        None => {
                            let (rest, marks, ranges) = (rest.clone(), Vec::new(), Vec::new());
                            all.push(Known { rest, marks, spreads, ranges });
                        }
                    }
                }
            });
        }
        whole
    })
}

/// What switches: of what jumps no slope says anything.
const SWITCHING: [Figure; 4] = [Figure::BUMP, Figure::DROOP, Figure::BUMP_ENDED_BY, Figure::DROOP_ENDED_BY];

/// The search for between what lies what switches, by draws of all trucks together, as the command draws them.
fn ranges(page: Page, answers: Answers) -> Box<dyn FnMut() -> bool> {
    let (rests, trials, side) = all_of(page, answers);
    let mut whole = rests.iter().all(|rest| is_known(answers, rest, &|known| !known.ranges.is_empty()));
    let values_of = move |trial: &Trial, figures: &[Figure]| trial.values(side, figures);
    let mut draws = Draws::new(trials.clone(), side, &SWITCHING, Draws::SEED);
    Box::new(move || {
        if whole {
            return true;
        }
        draws.step(&values_of);
        whole = draws.count() >= Draws::ENOUGH;
        if whole {
            let told: Vec<_> = trials.iter().map(|trial| values_of(trial, &SWITCHING)).collect();
            answers.known.update(|all| {
                for (at, rest) in rests.iter().enumerate() {
                    let Some(known) = all.iter_mut().find(|known| known.rest == *rest) else { continue };
                    known.ranges.clear();
                    for (figure, told) in SWITCHING.into_iter().zip(&told[at]) {
                        known.ranges.push((figure, ranged(&draws, at, figure, *told)));
                    }
                }
            });
        }
        whole
    })
}

/// What draws of a truck say of a figure that says so much.
fn ranged(draws: &Draws, at: usize, figure: Figure, told: Option<Value>) -> Ranged {
    let between = draws.range(at, figure);
    match told {
        Some(Value::Number(value)) => {
            let margin = between.map_or(0.0, |range| value - range.low);
            Ranged { between, margin, share: None }
        }
        Some(Value::Words(words)) => {
            let said = draws.words(at, figure);
            // What none of them says is as rare as can be.
            let share = said.iter().find(|(other, _)| *other == words).map_or(0.0, |(_, share)| *share);
            Ranged { share: Some(share), ..Ranged::default() }
        }
        _ => Ranged::default(),
    }
}
