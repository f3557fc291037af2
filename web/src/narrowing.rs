//! Which guesses the figures rest on, looked for while nothing moves.
//!
//! It shows nothing: what it finds takes the place of all that a figure may rest on.

use crate::browser::slices::Slices;
use crate::derive::Answers;
use crate::dom::follow;
use crate::state::Page;
use crate::told::{COMPARED, Known};
use study::{Clearances, Figure, Guesses, Narrowing, Stance, StandingSide, Studied, Trial, Values};
use truck::{Plan, Side};

/// A truck that stands, and what is laid over it.
type Stood = (StandingSide, Trial);

/// Whether any truck on the page holds a guess.
pub(crate) fn is_asked(answers: Answers) -> bool {
    let holds = |rest: &StandingSide| !guesses(rest).is_empty();
    let all = answers.proposed.iter().filter_map(|standing| standing.get()).chain([answers.before.get()]);
    all.into_iter().any(|standing| standing.as_ref().as_ref().is_ok_and(holds))
}

/// Looks for what the figures of every truck on the page rest on, as long as the owner lives.
#[inline(never)]
pub(crate) fn narrow(page: Page, answers: Answers) {
    let slices = Slices::new();
    follow(move || {
        let trucks = trucks(page, answers);
        let kept =
            answers.known.with_now(|known| known.iter().filter(|one| among(&trucks, one)).cloned().collect());
        slices.start(search(answers, trucks, kept));
    });
}

fn among(trucks: &[Stood], known: &Known) -> bool {
    trucks.iter().any(|(rest, _)| *rest == known.rest)
}

/// The guesses of a truck: the right has none that the left has not.
fn guesses(rest: &StandingSide) -> Guesses {
    Guesses::of(&rest.stance().corner(Side::Left).fitted)
}

/// The trucks that stand and hold a guess: as measured, then each proposal.
fn trucks(page: Page, answers: Answers) -> Vec<Stood> {
    let mut stood = Vec::new();
    page.store.shown().with(|design| {
        let mut add = |rest: &StandingSide, plan: Plan<'_>| {
            if !guesses(rest).is_empty() {
                stood.push((rest.clone(), Trial::new(&design.truck, plan)));
            }
        };
        if let Ok(rest) = answers.before.get().as_ref() {
            add(rest, Plan::NOTHING);
        }
        for (proposal, standing) in design.proposals.iter().zip(&answers.proposed) {
            if let Some(Ok(rest)) = standing.get().as_deref() {
                add(rest, Plan::from(proposal));
            }
        }
    });
    stood
}

/// The search, a guess at a call; a truck's marks are put in sight when all of its guesses are tried.
fn search(answers: Answers, mut trucks: Vec<Stood>, mut kept: Vec<Known>) -> Box<dyn FnMut() -> bool> {
    trucks.retain(|(rest, _)| kept.iter().all(|known| known.rest != *rest));
    // The last one is next.
    trucks.reverse();
    let mut under_way: Option<(StandingSide, Narrowing)> = None;
    Box::new(move || {
        let Some((rest, search)) = under_way.as_mut() else {
            let Some((rest, trial)) = trucks.pop() else { return true };
            let whole = &rest.stance().corner(Side::Left).fitted;
            let search = Narrowing::new(trial, whole, COMPARED.to_vec(), &read(rest.side()));
            under_way = Some((rest, search));
            return false;
        };
        if search.step(&read(rest.side())) {
            let marks = COMPARED.iter().map(|figure| (*figure, search.rests_on(*figure))).collect();
            kept.push(Known { rest: rest.clone(), marks });
            answers.known.set(kept.clone());
            under_way = None;
        }
        false
    })
}

fn read(side: Side) -> impl Fn(&Trial, &[Figure]) -> Values {
    move |trial, figures| {
        let stance = Stance::laid(&trial.truck, trial.plan());
        let Ok(rest) = stance.map(|stance| stance.on(side)) else { return vec![None; figures.len()] };
        Studied::new(&rest, Clearances::PROBED).values(figures)
    }
}
