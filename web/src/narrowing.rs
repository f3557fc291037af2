//! Which guesses the figures rest on, looked for while nothing moves.
//!
//! It shows nothing: what it finds takes the place of all that a figure may rest on.

use crate::browser::slices::Slices;
use crate::derive::Answers;
use crate::dom::follow;
use crate::state::Page;
use crate::told::{COMPARED, Known};
use study::{Clearances, Figure, Guesses, Narrowing, Rest, Studied, Trial, Values};
use truck::{Fitted, Plan};

/// A truck that stands, and what is laid over it.
type Stood = (Fitted, Trial);

/// Whether any truck on the page holds a guess.
pub(crate) fn is_asked(answers: Answers) -> bool {
    let holds = |rest: &Rest| !Guesses::of(&rest.fitted).is_empty();
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
    trucks.iter().any(|(fitted, _)| *fitted == known.fitted)
}

/// The trucks that stand and hold a guess: as measured, then each proposal.
fn trucks(page: Page, answers: Answers) -> Vec<Stood> {
    let mut stood = Vec::new();
    let mut add = |rest: &Rest, plan: Plan<'_>| {
        if !Guesses::of(&rest.fitted).is_empty() {
            stood.push((rest.fitted.clone(), Trial::new(&rest.fitted.measured, plan)));
        }
    };
    if let Ok(rest) = answers.before.get().as_ref() {
        add(rest, Plan::NOTHING);
    }
    page.store.shown().with(|design| {
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
    trucks.retain(|(fitted, _)| kept.iter().all(|known| known.fitted != *fitted));
    // The last one is next.
    trucks.reverse();
    let mut under_way: Option<(Fitted, Narrowing)> = None;
    Box::new(move || {
        let Some((fitted, search)) = under_way.as_mut() else {
            let Some((fitted, trial)) = trucks.pop() else { return true };
            let search = Narrowing::new(trial, &fitted, COMPARED.to_vec(), &read);
            under_way = Some((fitted, search));
            return false;
        };
        if search.step(&read) {
            let marks = COMPARED.iter().map(|figure| (*figure, search.rests_on(*figure))).collect();
            kept.push(Known { fitted: fitted.clone(), marks });
            answers.known.set(kept.clone());
            under_way = None;
        }
        false
    })
}

fn read(trial: &Trial, figures: &[Figure]) -> Values {
    let rest = trial.fitted().ok().and_then(|fitted| Rest::of(fitted).ok());
    let studied = rest.as_ref().map(|rest| Studied::new(rest, Clearances::PROBED));
    studied.map_or_else(|| vec![None; figures.len()], |studied| studied.values(figures))
}
