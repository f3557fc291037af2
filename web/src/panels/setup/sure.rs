//! How far off what is set may be, looked for while nothing moves.

use super::{Found, Wanted};
use crate::browser::slices::Slices;
use crate::dom::{Node, block, follow, loose};
use crate::signals::{Derived, Value};
use crate::state::Page;
use drawing::{set_if_read_in_words, set_spreads_in_words};
use study::{NumberSpreading, SetOrder, SetSpreads, Trial};
use truck::{Readable, Side};

/// What is said of each side, in its order.
type Said = Vec<(Side, String)>;

/// How far off it may be, below all that is to be done: what comes a moment later moves none of it.
#[inline(never)]
pub(super) fn sure(page: Page, wanted: Value<Wanted>, found: Derived<Found>) -> Node {
    let said = Value::new(Said::new());
    let slices = Slices::new();
    follow(move || {
        if page.session.dragging.with(Option::is_some) {
            return slices.start(Box::new(|| true));
        }
        said.set(Said::new());
        let mut orders = found.with(|found| orders(page, wanted.get(), found));
        let mut under_way = None;
        slices.start(Box::new(move || {
            let Some((side, search)) = &mut under_way else {
                under_way = orders.pop().map(|order| (order.side, Search::of(order)));
                return under_way.is_none();
            };
            if let Some(words) = search.step(page) {
                said.update(|said| said.push((*side, words)));
                if search.is_done {
                    under_way = None;
                }
            }
            false
        }));
    });
    block("div", "sure").attr("aria-live", "polite").content_of(move || {
        let is_both = found.with(|found| found.as_ref().is_ok_and(|sides| sides.len() > 1));
        let mut all = loose();
        for (side, words) in said.get() {
            let of = if is_both { side.label().to_owned() + ", on its own spring: " } else { String::new() };
            if !words.is_empty() {
                all = all.child(block("p", "hint").text(&(of + &words)));
            }
        }
        all
    })
}

/// What is set at each side that was found; the last one is the first to be looked at.
fn orders(page: Page, wanted: Wanted, found: &Found) -> Vec<SetOrder> {
    let design = page.store.committed();
    let trial = Trial::new(&design.truck, design.overlay(page.selected()));
    let mut orders = Vec::new();
    for (side, ..) in found.iter().flatten() {
        orders.push(SetOrder {
            trial: trial.clone(),
            side: *side,
            wanted: wanted.read(),
            caster_by: wanted.caster_by,
            steps: super::steps(page),
        });
    }
    orders.reverse();
    orders
}

/// The search at one side: as it was measured, then with what is read first.
struct Search {
    order: SetOrder,
    numbers: NumberSpreading,
    /// What was found, and what was not read, once the second is under way.
    first: Option<(SetSpreads, Vec<Readable>)>,
    is_done: bool,
}

impl Search {
    fn of(order: SetOrder) -> Self {
        Self { numbers: order.spreading(), order, first: None, is_done: false }
    }

    /// Moves one number; what is to be said once all are moved.
    fn step(&mut self, page: Page) -> Option<String> {
        if !self.order.step(&mut self.numbers) {
            return None;
        }
        let found = SetSpreads::of(&self.numbers);
        if let Some((now, unread)) = &self.first {
            self.is_done = true;
            return Some(set_if_read_in_words(now, unread, &found, page.units()));
        }
        match self.order.if_read().filter(|_| found.is_any_seen()) {
            Some((unread, order)) => {
                self.numbers = order.spreading();
                (self.order, self.first) = (order, Some((found, unread)));
            }
            None => self.is_done = true,
        }
        Some(set_spreads_in_words(&found, page.units()))
    }
}
