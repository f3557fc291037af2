//! Left and right: which of them is looked at, and how they compare.

use crate::derive::{Answers, both_sides};
use crate::dom::{Node, block, button, el, loose, words};
use crate::format::{field_style, show};
use crate::state::Page;
use crate::told::{Spread, spread_of, write};
use crate::widgets::{heading, moved_sideways, table};
use drawing::{Units, is_lost, lean_in_words, marked};
use measure::print_length;
use study::{Figure, Lean, LeftRight, Quantity, StandingSide, Unit};
use truck::{Kind, Side};

/// Looks at the right side, or back at the left.
#[inline(never)]
pub(crate) fn right_side(page: Page) -> Node {
    let side = page.session.side;
    let across = move || side.set(side.now().other());
    button("Right side", across)
        .attr("class", "measured")
        .attr_of("aria-pressed", move || Some((side.get() == Side::Right).to_string()))
}

/// Whether left and right of what is on the sketch differ.
pub(crate) fn differ(page: Page) -> bool {
    let which = page.selected();
    page.store.shown().with(|design| design.sides_differ(which))
}

/// Left and right beside each other, where they differ.
#[inline(never)]
pub(crate) fn compared(page: Page, answers: Answers) -> Node {
    let content = move || {
        let Some((stood, both)) = differ(page).then(|| both_sides(page)).flatten() else { return loose() };
        let units = page.units();
        let side = page.session.side.get();
        let looked_at = stood.iter().find(|rest| rest.side() == side);
        let spread = |figure: Figure| {
            let of = |rest| answers.known.with(|known| spread_of(known, figure, rest));
            looked_at.map(of).unwrap_or_default()
        };
        let mut rows = loose();
        for one in &both {
            let mut line = el("tr").child(heading("row", one.quantity.label()));
            for text in row(one, &stood, spread(Figure::together(one.quantity)), units) {
                line = line.child(write(el("td"), &text));
            }
            rows = rows.child(line);
        }
        let table = table(&["At rest", "left", "right", "together"], rows);
        let both = moved_sideways("Left and right", table);
        if page.selected().proposal().is_none() {
            return both;
        }
        loose().child(both).child(leans(&stood, units))
    };
    block("div", "sides").content_of(content)
}

/// How it leans on both its springs and its rear, and what to look out for.
fn leans(stood: &[StandingSide; 2], units: Units) -> Node {
    let may_rest = |figure: Figure| stood.iter().any(|rest| !figure.of_side_may_rest_on(rest).is_empty());
    let is_guess = Lean::RESTS_ON.into_iter().any(may_rest);
    let line = |said: String| write(el("p"), &marked(said, is_guess));
    match lean_in_words(stood[0].stance(), units) {
        Ok(said) => loose().children(said.into_iter().map(line)).child(words("words-lean")),
        // Where nothing holds it level yet there is nothing to add.
        Err(open) => line(open),
    }
}

fn row(one: &LeftRight, [left, right]: &[StandingSide; 2], spread: Spread, units: Units) -> [String; 3] {
    let is_guess = |figure: Figure, rest: &StandingSide| !figure.of_side_may_rest_on(rest).is_empty();
    let guesses =
        [is_guess(Figure::at_left(one.quantity), left), is_guess(Figure::at_right(one.quantity), right)];

    let words = |value: f64| match one.quantity.unit() {
        Unit::Length => print_length(value, field_style(units)),
        _ => show(Kind::Angle, value, units),
    };
    let (left, right) = (words(one.left), words(one.right));
    // "Higher by 0 in" says less than nothing.
    let alike = one.quantity.unit() == Unit::Length && words(one.together()) == words(0.0);
    let together = if alike {
        "alike".to_owned()
    } else if one.quantity == Quantity::RideHeight && one.together() < 0.0 {
        "Right higher than left by ".to_owned() + &words(-one.together())
    } else {
        LeftRight::named(one.quantity).0.to_owned() + " " + &words(one.together())
    };
    let figure = Figure::together(one.quantity);
    let how_sure = spread.said(figure, units);
    let is_lost = |own| is_lost(figure.sort(), one.together(), own, units);
    let together = if how_sure.is_empty() {
        together
    } else if !alike && !one.is_sum() && spread.own.is_some_and(is_lost) {
        [&together, ", ", &how_sure, ": the tape can't tell which"].concat()
    } else {
        [&together, " ", &how_sure].concat()
    };
    [marked(left, guesses[0]), marked(right, guesses[1]), marked(together, guesses[0] || guesses[1])]
}
