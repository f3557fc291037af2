//! What proposals are called.

use crate::words::{marked, overlay_in_words, size_in_words, tape};
use measure::{Units, print_length};
use study::capital;
use truck::{Design, Field, Overlay, Proposal, Readable, Reading, Side, Source};

/// What a truck is called that nobody has named: its tire, its frame's height as it sits, and its plans.
#[must_use]
pub fn truck_name(design: &Design, units: Units) -> String {
    let truck = &design.truck;
    let read = truck.readings.get(Readable::FrameHeight, Side::Left).map(Reading::answer);
    let is_guess = read.is_none() && truck.sources.of(Field::RailBottomZ) == Source::Assumed;
    let height = print_length(read.unwrap_or(truck.body.rail.bottom_z_mm), tape(units));
    let is_size_guess = [Field::TireSection, Field::TireAspect, Field::TireRim]
        .iter()
        .any(|field| truck.sources.of(*field) == Source::Assumed);
    let mut said =
        marked(size_in_words(&truck.tire.size), is_size_guess) + " at " + &marked(height, is_guess);
    for name in proposal_names(design, units) {
        said = said + ", " + &name;
    }
    said
}

/// What a proposal is called: as it was named, else by its parts.
#[must_use]
pub fn proposal_name(proposal: &Proposal, units: Units) -> String {
    named(proposal).unwrap_or_else(|| plan_in_words(proposal, units))
}

/// All of a proposal: what it is made of, in a line of its own under its name if somebody gave it one.
#[must_use]
pub fn whole_name(proposal: &Proposal, name: &str, units: Units) -> String {
    let words = plan_in_words(proposal, units);
    if named(proposal).is_some() { [name, "\n", &words].concat() } else { words }
}

/// What a proposal is made of, whatever it is called.
fn plan_in_words(proposal: &Proposal, units: Units) -> String {
    let whole = Overlay::from(proposal);
    if whole.is_nothing() {
        "Nothing changed yet".to_owned()
    } else {
        capital(&overlay_in_words(&whole, units))
    }
}

/// The same where there is little room: its first part, and how many more there are.
fn short_name(proposal: &Proposal, units: Units) -> String {
    if let Some(name) = named(proposal) {
        return name;
    }
    let whole = Overlay::from(proposal);
    let (changes, own) = (whole.changes, whole.own);
    let first = Overlay {
        changes: changes.get(..1).unwrap_or_default(),
        own: own.get(..usize::from(changes.is_empty())).unwrap_or_default(),
        rear_down_mm: None,
        ..whole
    };
    if first.is_nothing() {
        return plan_in_words(proposal, units);
    }
    let first = capital(&overlay_in_words(&first, units));
    let more = changes.len() + own.len() - 1 + usize::from(proposal.rear_down_mm.is_some());
    if more == 0 { first } else { [&first, " + ", &more.to_string(), " more"].concat() }
}

/// How somebody named it.
fn named(proposal: &Proposal) -> Option<String> {
    Some(&proposal.name).filter(|name| !name.trim().is_empty()).cloned()
}

/// What each of a design's proposals is called; of those that would be called alike, the later ones by
/// their place too.
#[must_use]
pub fn proposal_names(design: &Design, units: Units) -> Vec<String> {
    apart(design.proposals.iter().map(|proposal| proposal_name(proposal, units)))
}

/// The same where there is little room: on a button, beside a line.
#[must_use]
pub fn short_names(design: &Design, units: Units) -> Vec<String> {
    apart(design.proposals.iter().map(|proposal| short_name(proposal, units)))
}

fn apart(all: impl Iterator<Item = String>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for name in all {
        let place = (names.len() + 1).to_string();
        let taken = names.contains(&name);
        names.push(if taken { [&name, " (", &place, ")"].concat() } else { name });
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, Change, ChangeKind, DroppedSpindle, Edit, ReadWith};

    /// By the sidewall, by what was read before what was measured of the frame, and by the plans; a guess is one.
    #[test]
    fn a_truck_without_a_name_is_called_by_its_tire_its_height_and_its_plans() {
        let edited = |design: Design, edit| design.edited(&edit).unwrap();
        let mut design = edited(truck::demo(), Edit::OwnTruck);
        design.proposals.clear();
        let size = [(Field::TireSection, 205.0), (Field::TireAspect, 70.0), (Field::TireRim, 14.0)];
        // Each of the three makes a guess of the size, as long as it is one itself.
        for open in 0..size.len() {
            let mut known = size.to_vec();
            known.remove(open);
            let design = edited(design.clone(), Edit::MeasureAll(known));
            let name = truck_name(&design, Units::Inches);
            assert!(name.starts_with("~ "), "{name} without {:?}", size[open].0);
        }
        let design = edited(design, Edit::MeasureAll(size.to_vec()));
        assert!(truck_name(&design, Units::Inches).starts_with("205/70R14 at ~ "));
        let measured = Edit::Measure { field: Field::RailBottomZ, value: Some(292.1) };
        let design = edited(design, measured);
        assert_eq!(truck_name(&design, Units::Inches), "205/70R14 at 11 1/2 in");
        let read = Reading::by(Readable::FrameHeight, 254.0, ReadWith::Tape);
        let design = edited(design, Edit::Read(Readable::FrameHeight, Side::Left, Some(read)));
        let design = edited(design, Edit::AddProposal("Low".to_owned()));
        assert_eq!(truck_name(&design, Units::Millimetres), "205/70R14 at 254.0 mm, Low");
    }

    /// A name that was given stays; without one it is the parts, a guess among them marked, and two alike
    /// can be told apart.
    #[test]
    fn a_proposal_without_a_name_is_called_by_its_parts() {
        let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let bar = Change::BarAdjuster(BarAdjuster { turns: -6.0 });
        let proposal = |changes: &[Change]| {
            let mut proposal = Proposal::new(truck::ProposalId(0), "");
            changes.iter().for_each(|change| proposal.set(*change));
            proposal
        };
        let both = proposal(&[spindle, bar]);
        assert_eq!(proposal_name(&both, Units::Inches), "2 in spindle, 6 turns out");
        assert_eq!(proposal_name(&both, Units::Millimetres), "50.8 mm spindle, 6 turns out");
        assert_eq!(proposal_name(&proposal(&[]), Units::Inches), "Nothing changed yet");
        let mut named = both.clone();
        named.name = "Low and level".to_owned();
        assert_eq!(proposal_name(&named, Units::Inches), "Low and level");
        let mut guessed = both;
        let mut sources = truck::ChangeSources::TYPED;
        sources.set((ChangeKind::BarAdjuster, None, 0), Source::Assumed);
        guessed.take_sources(sources);
        assert_eq!(proposal_name(&guessed, Units::Inches), "2 in spindle, ~ 6 turns out");
        let alike = [proposal(&[spindle]), proposal(&[bar]), proposal(&[spindle])];
        let design = Design { proposals: alike.to_vec(), ..truck::demo() };
        let names = ["2 in spindle", "6 turns out", "2 in spindle (3)"];
        assert_eq!(proposal_names(&design, Units::Inches), names);
        // Where there is little room the parts are counted; the rear coming down is one of them.
        let mut lower = guessed.clone();
        lower.rear_down_mm = Some(25.4);
        let design = Design { proposals: vec![guessed, lower, named, proposal(&[])], ..design };
        let names =
            ["2 in spindle + 1 more", "2 in spindle + 2 more", "Low and level", "Nothing changed yet"];
        assert_eq!(short_names(&design, Units::Inches), names);
    }
}
