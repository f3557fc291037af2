//! The trucks of a design: as measured, and with each proposal's parts on it.

use crate::failure::Failure;
use drawing::{Units, proposal_names, short_names};
use sharing::Shared;
use study::{Stance, StandingSide, Trial};
use truck::{Design, Side};

pub(crate) use truck::Which as Choice;

/// The trucks that an answer is asked of: as it sits, and with each plan's parts, or those of one.
///
/// # Errors
/// There is no plan of the name `only`.
pub(crate) fn asked(design: &Design, only: Option<&str>) -> Result<Vec<Choice>, Failure> {
    let mut choices: Vec<_> = design.proposals.iter().map(|plan| Choice::Proposal(plan.id)).collect();
    if let Some(text) = only {
        let only = Choice::named(design, text)?;
        choices.retain(|choice| *choice == only);
    }
    choices.insert(0, Choice::AsMeasured);
    Ok(choices)
}

/// The one truck that an answer is asked of: the plan that is named, else that which was seen, else the first.
///
/// # Errors
/// There is no plan of the name `only`.
pub(crate) fn one(shared: &Shared, only: Option<&str>) -> Result<Choice, Failure> {
    let Shared { design, opening } = shared;
    match only {
        Some(text) => Choice::named(design, text),
        None => Ok(Choice::from(opening.proposal.or(design.proposals.first().map(|first| first.id)))),
    }
}

/// What the command asks of a truck of a design.
pub(crate) trait Chosen: Sized {
    /// The one that a person names: by its place in the list from 1, or by its name.
    ///
    /// # Errors
    /// There is none of that name; the message lists those there are.
    fn named(design: &Design, text: &str) -> Result<Self, Failure>;

    /// What people call it.
    fn name(self, design: &Design, units: Units) -> String;

    /// What it is called where there is little room.
    fn short_name(self, design: &Design, units: Units) -> String;

    /// One side of the truck at rest.
    ///
    /// # Errors
    /// A sentence why it cannot stand, without its name.
    fn rest(self, design: &Design, side: Side) -> Result<StandingSide, String>;
}

impl Chosen for Choice {
    fn named(design: &Design, text: &str) -> Result<Self, Failure> {
        let wanted = text.trim();
        let in_units = [Units::Inches, Units::Millimetres].map(|units| proposal_names(design, units));
        let by_name = |same: fn(&str, &str) -> bool| {
            let of = |names: &Vec<String>| names.iter().position(|name| same(name, wanted));
            in_units.iter().find_map(of).map(|place| Self::Proposal(design.proposals[place].id))
        };
        let exactly = by_name(|name, wanted| name == wanted);
        if let Some(found) = exactly.or_else(|| by_name(str::eq_ignore_ascii_case)) {
            return Ok(found);
        }
        if wanted == "0" || matches!(wanted, "measured" | "as measured" | "as it sits") {
            return Ok(Self::AsMeasured);
        }
        let place = wanted.parse::<usize>().ok().and_then(|place| place.checked_sub(1));
        if let Some(proposal) = place.and_then(|place| design.proposals.get(place)) {
            return Ok(Self::Proposal(proposal.id));
        }
        Err(Failure::at("--plan", there_are(design)))
    }

    fn name(self, design: &Design, units: Units) -> String {
        among(self, design, proposal_names(design, units))
    }

    fn short_name(self, design: &Design, units: Units) -> String {
        among(self, design, short_names(design, units))
    }

    fn rest(self, design: &Design, side: Side) -> Result<StandingSide, String> {
        let stance = Stance::of_design(design, self).map_err(|error| format!("{error}."))?;
        Ok(stance.on(side))
    }
}

/// The name of a truck of a design, whose proposals have these names.
fn among(choice: Choice, design: &Design, mut names: Vec<String>) -> String {
    let place = design.proposals.iter().position(|proposal| Some(proposal.id) == choice.proposal());
    place.map_or_else(|| "as it sits".to_owned(), |place| names.swap_remove(place))
}

/// One side of a truck at rest.
#[derive(Debug)]
pub(crate) struct Standing {
    /// The side that is asked about.
    pub(crate) rest: StandingSide,
    /// Whether the right has numbers, readings or changes of its own, in any of the design's trucks.
    pub(crate) differ: bool,
    /// The whole truck and what is laid over it, of which guesses can be moved.
    pub(crate) trial: Trial,
}

impl Standing {
    /// A truck of a design at rest.
    ///
    /// # Errors
    /// As [`Chosen::rest`].
    pub(crate) fn of(design: &Design, choice: Choice, side: Side) -> Result<Self, String> {
        Ok(Self {
            rest: choice.rest(design, side)?,
            differ: design.sides_differ(Choice::AsMeasured)
                || design.proposals.iter().any(|proposal| design.sides_differ(proposal.id)),
            trial: Trial::new(&design.truck, design.overlay(choice)),
        })
    }
}

/// A truck's name with the side that is asked about, where it is not the usual one.
pub(crate) fn on_side(name: String, side: Side) -> String {
    if side == Side::Right { name + ", right side" } else { name }
}

/// A design's title, or what to say where it has none.
pub(crate) fn title(design: &Design) -> &str {
    if design.title.trim().is_empty() { "Untitled truck" } else { &design.title }
}

fn there_are(design: &Design) -> String {
    let mut said = String::from("there is no such plan. There are: 0 as it sits");
    for (place, name) in proposal_names(design, Units::default()).iter().enumerate() {
        said.push_str(&format!(", {} {name}", place + 1));
    }
    said.push('.');
    said
}
