//! The points made to fit what was read off the truck: what would move, and one edit that moves it.

use crate::browser::slices::Slices;
use crate::dom::{Node, block, button, el, follow, loose, words};
use crate::signals::Value;
use crate::state::Page;
use crate::widgets::folding;
use drawing::{
    MEND_FIRST, NOTHING_MOVES, ONE_OF_THESE, THESE_WERE_OFF, capital, disagreement_in_words, fitted_in_words,
    moved_in_words,
};
use study::{PointFit, PointFitting, Trial};
use truck::Overlay;

/// What was found, or why nothing was.
type Found = Result<PointFit, String>;

/// What the readings make of the points, looked for once it is opened.
#[inline(never)]
pub(super) fn fitted(page: Page) -> Node {
    folding("Points by what was read", move || {
        let found = Value::new(None);
        look(page, found);
        let told = move || found.with(|found| found.as_ref().map_or_else(loose, |found| told(page, found)));
        loose()
            .child(words("words-fit"))
            .child(block("div", "remarks").attr("aria-live", "polite").content_of(told))
    })
}

/// Looks for what agrees best while nothing moves; another edit begins anew.
fn look(page: Page, found: Value<Option<Found>>) {
    let slices = Slices::new();
    follow(move || {
        let side = page.session.side.get();
        if page.session.dragging.with(Option::is_some) {
            return slices.start(Box::new(|| true));
        }
        let trial = page.store.with_committed(|design| Trial::new(&design.truck, Overlay::NOTHING));
        let mut fitting = PointFitting::new(&trial, side).map_err(|why| why.to_string());
        found.set(None);
        slices.start(Box::new(move || {
            let step = match &mut fitting {
                Ok(fitting) => fitting.step(&|trial, figures| trial.values(side, figures)),
                Err(why) => {
                    found.set(Some(Err(why.clone())));
                    return true;
                }
            };
            match step {
                Ok(None) => return false,
                Ok(Some(fit)) => found.set(Some(Ok(fit))),
                Err(why) => found.set(Some(Err(why.to_string()))),
            }
            true
        }));
    });
}

/// What was read, what would move, and what moves it; nothing does where the readings disagree.
#[inline(never)]
fn told(page: Page, found: &Found) -> Node {
    let fit = match found {
        Ok(fit) => fit,
        Err(why) => return el("p").text(&(capital(why) + ".")),
    };
    let units = page.units();
    let list = |lines: &[String]| {
        let mut list = el("ul");
        for line in lines {
            list = list.child(el("li").text(line));
        }
        list
    };
    let mut all = loose().child(el("h3").text(page.session.side.get().label()));
    if let Some(why) = fit.disagreement {
        let said = MEND_FIRST.to_owned() + &disagreement_in_words(why);
        all = all.child(block("p", "remark").attr("role", "alert").text(&said));
    }
    let read: Vec<_> = fit.readings.iter().map(|reading| fitted_in_words(reading, units)).collect();
    all = all.child(list(&read));
    // Which number was off is not known either.
    if fit.disagreement.is_some() {
        return all;
    }
    let moved = moved_in_words(fit, units);
    for (head, lines) in [THESE_WERE_OFF, ONE_OF_THESE].into_iter().zip(&moved) {
        if !lines.is_empty() {
            all = all.child(el("p").text(head)).child(list(lines));
        }
    }
    if moved.iter().all(Vec::is_empty) {
        return all.child(el("p").text(NOTHING_MOVES));
    }
    let fit = fit.clone();
    let press = move || {
        let edit = fit.edit(&page.store.committed_now().truck);
        page.edit_and_say(&edit, Some("The points were moved."));
    };
    all.child(button("Move them", press).attr("class", "primary"))
}
