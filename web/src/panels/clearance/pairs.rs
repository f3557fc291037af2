//! The list of pairs, each with its least room and where that is.

use super::Panel;
use crate::dom::{Node, block, button, el, loose};
use crate::format::readout_style;
use crate::panels::read_off::measured;
use crate::told::{model_says, said, write};
use measure::{fixed, print_length};
use study::{Clearances, Figure, Found, Judged, Pair, StandingSide, Studies, Told, VariesWith};
use truck::{ChangeField, Side};

impl Panel {
    /// Some rows of the list, the least room first.
    #[inline(never)]
    pub(super) fn pairs(self, found: &Clearances, from: usize, to: usize) -> Node {
        let open = self.pair(found);
        let list = block("div", if self.is_behind() { "pairs behind" } else { "pairs" });
        let other = self.other();
        self.answers.standing.with(|now| {
            let Ok(rest) = now.as_ref() else { return list };
            let all = found.nearest_of_both(other.as_ref().map(|other| &other.1));
            let mut rows = loose();
            for (found, theirs) in &all[from..to.min(all.len())] {
                let rest = other.as_ref().filter(|_| *theirs).map_or(rest, |other| &other.0);
                rows = rows.child(self.row(rest, found, open == Some(found.pair)));
            }
            list.child(rows)
        })
    }

    fn row(self, rest: &StandingSide, found: &Found, open: bool) -> Node {
        let page = self.page;
        let (pair, at) = (found.pair, found.at);
        let far = |mm: f64| print_length(mm, readout_style(page.units()));
        let figure = Figure::least_room(pair);
        let told = figure.told(&Held { rest, found }, figure.of_side_may_rest_on(rest));
        let warn = matches!(told.judged, Judged::Tight | Judged::Bad);
        let side = rest.side();
        let is_other = side != page.session.side.get();
        let mut place = self.place(side, found);
        if told.is_guess() {
            place += "; rests on guesses";
        } else {
            if told.number().is_some_and(|mm| mm <= 0.0) {
                place = "they meet, ".to_owned() + &place;
            }
            if let Some(spot) = found.meets_in_bump.filter(|spot| spot.travel_mm > 0.0) {
                place = place + "; first in bump at " + &far(spot.travel_mm);
            }
        }
        if is_other {
            place = [side.label(), " wheel: ", &place].concat();
        }
        let choose = move || {
            self.reading.set(None);
            self.choose(pair);
        };
        let row = button("", choose)
            .attr("class", if warn { "pair warn" } else { "pair" })
            .attr("aria-pressed", if open { "true" } else { "false" })
            .child(el("span").text(pair.label()))
            .child(write(el("b"), &said(&told, page.units())))
            .child(write(el("small"), &(place + &self.at_rest(rest, &told, found))));
        let show = move || {
            self.choose(pair);
            page.session.side.set(side);
            page.session.travel_mm.set(at.wheel_travel_mm);
            page.session.steer_rad.set(side.sign() * at.heading_rad);
        };
        // What is measured is of the side on the sketch.
        let of = Figure::room(pair).readable().filter(|_| !is_other);
        let read = of.map(|of| measured(page, of, self.reading, move || self.choose(pair)));
        let show = button("Show", show)
            .attr("aria-label", &("Show the sketch where ".to_owned() + pair.label() + " is least"));
        block("div", "pairing").child(row).children(read).child(show)
    }

    /// What was read off between the two as it sits, with what the model says of it.
    fn at_rest(self, rest: &StandingSide, told: &Told, found: &Found) -> String {
        let units = self.page.units();
        let figure = Figure::room(found.pair);
        if found.pair.varies_with() == VariesWith::Nothing || figure.reading(&rest.fitted.measured).is_none()
        {
            return model_says(told, rest, units);
        }
        let told = figure.told(&Held { rest, found }, figure.of_side_may_rest_on(rest));
        "; at rest ".to_owned() + &said(&told, units) + &model_says(&told, rest, units)
    }

    /// Where a pair comes nearest, in words.
    fn place(self, side: Side, found: &Found) -> String {
        let at = &found.at;
        let style = readout_style(self.page.units());
        let way = if at.travel_mm < -0.05 { "droop " } else { "bump " };
        let travel = match at.travel_mm {
            mm if mm.abs() < 0.05 => "at rest".to_owned(),
            mm => way.to_owned() + &print_length(mm.abs(), style),
        };
        match found.pair.varies_with() {
            VariesWith::Nothing => "at any travel and steer".to_owned(),
            VariesWith::Travel => travel,
            VariesWith::TravelAndSteer => travel + ", " + &steered(side.sign() * at.heading_rad),
        }
    }
}

/// What one pair comes to, of all that figures are read from.
pub(super) struct Held<'a> {
    pub(super) rest: &'a StandingSide,
    pub(super) found: &'a Found,
}

impl Studies for Held<'_> {
    fn rest(&self) -> &StandingSide {
        self.rest
    }

    fn found(&self, _: Pair) -> Option<&Found> {
        Some(self.found)
    }

    fn room_mm(&self, pair: Pair) -> Option<f64> {
        study::clearance(self.rest, &self.rest.pose, pair).map(|gap| gap.distance_mm)
    }
}

/// A number of a change, by its name.
pub(super) fn changed((kind, place, at): ChangeField) -> String {
    kind.title(place) + ": " + kind.numbers()[at].label()
}

fn steered(heading_rad: f64) -> String {
    let degrees = heading_rad.to_degrees();
    if degrees.abs() < 0.5 {
        return "straight ahead".to_owned();
    }
    "steered ".to_owned() + &fixed(degrees.abs(), 0) + "° " + if degrees > 0.0 { "left" } else { "right" }
}
