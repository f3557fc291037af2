//! What hits, in the sentences that the command has too, and how much of them nobody has measured yet.

use super::Panel;
use super::pairs::{Held, changed};
use crate::dom::{Node, block, button, el, loose};
use crate::state::Panel as Place;
use crate::told::{rests_on, said as told_in_words, spread_of, write};
use drawing::{WhatHits, Wheel};
use std::cell::Cell;
use study::{Clearances, Figure, Guesses, StandingSide, travel_left_of};
use truck::Stage;

/// The sentences, and the guesses that they rest on.
type Said = (Vec<String>, Guesses);

/// What hits, the first sentence large.
#[inline(never)]
pub(super) fn hits(said: Option<&Said>) -> Node {
    let mut line = loose();
    for (at, sentence) in said.iter().flat_map(|(said, _)| said).enumerate() {
        // A space before all but the first: they are read and copied as one text.
        let place = if at == 0 { el("b") } else { el("span").text(" ") };
        line = line.child(write(place, sentence));
    }
    line
}

impl Panel {
    /// What is made of what was searched and of the truck at rest, where it stands.
    fn of_rest<T>(self, make: impl FnOnce(&StandingSide, &Clearances) -> T) -> Option<T> {
        let found = self.found()?;
        self.answers.standing.with(|now| now.as_ref().as_ref().ok().map(|rest| make(rest, &found)))
    }

    #[inline(never)]
    pub(super) fn what_hits(self) -> Option<Said> {
        self.of_rest(|rest, found| {
            let all = Cell::new(Guesses::NONE);
            let rests_on = |of: &StandingSide, figure: Figure| {
                // Of the other, which meets the same things at another lock, all that it may rest on.
                let guesses = self.answers.known.with(|known| rests_on(known, figure, of));
                all.set(all.get().union(guesses));
                guesses
            };
            let other = self.other();
            let mut lefts = vec![travel_left_of(rest, found)];
            if let Some(other) = &other {
                lefts.push(travel_left_of(&other.0, &other.1));
            }
            let mut wheels = vec![Wheel { rest, found, left: &lefts[0] }];
            if let Some(other) = &other {
                wheels.push(Wheel { rest: &other.0, found: &other.1, left: &lefts[1] });
            }
            let hits = WhatHits { wheels: &wheels, rests_on: &rests_on, units: self.page.units() };
            (hits.sentences(), all.get())
        })
    }

    /// What leads to the first guess of it, and what is too near to tell.
    #[inline(never)]
    pub(super) fn doubts(self, said: Option<&Said>) -> Node {
        let doubts = self.of_rest(|rest, found| {
            let guesses = said.and_then(|(_, guesses)| self.guesses(*guesses, rest));
            loose().children(guesses).children(self.too_near(rest, found))
        });
        doubts.unwrap_or_else(loose)
    }

    /// What is clear at rest by less than it may be off.
    fn too_near(self, rest: &StandingSide, found: &Clearances) -> Option<Node> {
        let units = self.page.units();
        let mut said = String::new();
        for found in &found.found {
            let figure = Figure::room(found.pair);
            let spread = self.answers.known.with(|known| spread_of(known, figure, rest));
            let Some(own) = spread.own else { continue };
            let told = figure.told(&Held { rest, found }, figure.of_side_may_rest_on(rest));
            if told.number().is_some_and(|mm| mm > 0.0 && mm <= own) {
                said += if said.is_empty() { "Too near to tell at ride height: " } else { "; " };
                let parts =
                    [found.pair.label(), " ", &told_in_words(&told, units), " ", &spread.said(figure, units)];
                for part in parts {
                    said += part;
                }
            }
        }
        said += ". Measure before you buy or cut.";
        (!said.starts_with('.')).then(|| write(block("p", "remark"), &said))
    }

    /// How many guesses that rests on, and what leads to the one that is measured first.
    fn guesses(self, all: Guesses, rest: &StandingSide) -> Option<Node> {
        let session = self.page.session;
        let number = Stage::first(all.numbers, rest.fitted.measured.spring.kind);
        let parts: Vec<_> = all.changes(&rest.fitted).collect();
        let (place, name) = match number {
            Some(field) => (Place::Measure, field.label().to_owned()),
            None => (Place::Parts, changed(*parts.first()?)),
        };
        let count = parts.iter().fold(all.numbers.len(), |count, _| count + 1);
        let go = move || {
            session.to_measure.set(number);
            session.turn_to(place);
        };
        let line = ["Guesses in this: ", &count.to_string(), ". First: ", &name, "."].concat();
        let button = button(place.name(), go).attr("class", "primary");
        Some(block("div", "row guesses").child(el("p").text(&line)).child(button))
    }
}
