//! Changes, and what keeps a setting from its target, as people say them to each other.

use crate::transform::Units;
use linkage::Vector3;
use measure::{LengthStyle, fixed, print_length, print_number};
use study::Bound;
use truck::{Change, ChangeKind, Place};

/// A change in a few words: "2 in spindle", "6 turns out".
#[must_use]
pub fn change_in_words(change: &Change, units: Units) -> String {
    let length = |mm: f64| {
        let style = match units {
            Units::Inches => LengthStyle::Inches { denominator: 32 },
            Units::Millimetres => LengthStyle::Millimetres { decimals: 1 },
        };
        print_length(mm.abs(), style)
    };
    let way = |value: f64, plus: &'static str, minus: &'static str| if value < 0.0 { minus } else { plus };
    let many = |value: f64, one: &str, more: &str| {
        let said = count(value.abs());
        let word = if said == "1" { one } else { more };
        said + word
    };
    match change {
        Change::DroppedSpindle(of) if of.drop_mm < 0.0 => length(of.drop_mm) + " raised spindle",
        Change::DroppedSpindle(of) => length(of.drop_mm) + " spindle",
        Change::BarAdjuster(of) => many(of.turns, " turn", " turns") + way(of.turns, " in", " out"),
        Change::BarReindex(of) => {
            let at = |splines: f64, place: &str| {
                (splines != 0.0)
                    .then(|| many(splines, " spline", " splines") + way(splines, " up", " down") + place)
            };
            let both = [at(of.anchor, " at the anchor"), at(of.arm, " at the arm")];
            joined(both.into_iter().flatten())
        }
        Change::CutCoil(of) => many(of.coils, " coil cut", " coils cut"),
        Change::SeatSpacer(of) => length(of.thickness_mm) + way(of.thickness_mm, " spacer", " less seat"),
        Change::JointTurned(of) => match of.place {
            Place::LowerJointUp => "lower joint on top of its plate",
            Place::LowerJointDown => "lower joint under its plate",
            Place::UpperJointUp => "upper joint on top of its plate",
            _ => "upper joint under its plate",
        }
        .to_owned(),
        Change::TireSwap(of) => {
            let size = &of.size;
            fixed(size.section_mm, 0) + "/" + &fixed(size.aspect_percent, 0) + "R" + &count(size.rim_code)
        }
        Change::StopTrim(of) => {
            length(of.lower_mm) + way(of.lower_mm, " off the bump stop", " more bump stop")
        }
        Change::Shims(of) if of.front_mm.to_bits() == of.rear_mm.to_bits() => {
            length(of.front_mm) + way(of.front_mm, " shim more, both bolts", " shim less, both bolts")
        }
        Change::Shims(of) => {
            let at = |mm: f64, place: &str| {
                (mm != 0.0).then(|| length(mm) + way(mm, " shim more ", " shim less ") + place)
            };
            joined([at(of.front_mm, "front"), at(of.rear_mm, "rear")].into_iter().flatten())
        }
        Change::StrutRod(of) => "strut rod ".to_owned() + &length(of.longer_mm) + longer(of.longer_mm),
        // What setting toe takes is less than such a length can say.
        Change::TieRod(of) if of.inner_mm == Vector3::zeros() && of.longer_mm.abs() < 3.0 => {
            "toe set anew".to_owned()
        }
        Change::TieRod(of) => "tie rod ".to_owned() + &length(of.longer_mm) + longer(of.longer_mm),
        other => plain(other.kind(), other.place()),
    }
}

const fn longer(mm: f64) -> &'static str {
    if mm < 0.0 { " shorter" } else { " longer" }
}

/// The changes of a proposal in a line; of none, that it is as measured.
#[must_use]
pub fn changes_in_words(changes: &[Change], units: Units) -> String {
    if changes.is_empty() {
        return "as measured".to_owned();
    }
    joined(changes.iter().map(|change| change_in_words(change, units)))
}

/// What keeps a target from being met, in a sentence.
#[must_use]
pub fn bound_in_words(bound: &Bound) -> String {
    match bound {
        Bound::NoAdjuster => "The spring has nothing that sets its height.",
        Bound::Bolt => "The anchor's bolt ends before that height, and no spline within reach helps.",
        Bound::NoShimsLeft => "A bolt has no more shims to take out.",
        Bound::ShimsTooThick => "A pack would be thicker than its bolt takes.",
        Bound::Way(share) => {
            let percent = print_number(share * 100.0, 0);
            return ["Linkage or stops do not let it get there: ", &percent, " % of the way can be had."]
                .concat();
        }
        _ => "It is out of reach.",
    }
    .to_owned()
}

fn plain(kind: ChangeKind, place: Option<Place>) -> String {
    let title = kind.title(place);
    title[..1].to_ascii_lowercase() + &title[1..]
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.fold(String::new(), |said, part| if said.is_empty() { part } else { said + ", " + &part })
}

/// A count with as many decimals as it has.
fn count(value: f64) -> String {
    let mut said = fixed(value, 2);
    while said.ends_with('0') {
        said.pop();
    }
    if said.ends_with('.') {
        said.pop();
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, BarReindex, CutCoil, DroppedSpindle, ShimChange};

    #[test]
    fn changes_are_said_as_people_say_them() {
        let said = |change: Change| change_in_words(&change, Units::Inches);
        let spindle = DroppedSpindle { drop_mm: 63.5, ..DroppedSpindle::default() };
        assert_eq!(said(Change::DroppedSpindle(spindle)), "2 1/2 in spindle");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: -6.0 })), "6 turns out");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: 1.0 })), "1 turn in");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: -10.0 })), "10 turns out");
        let reindex = BarReindex { anchor: -1.0, arm: 2.0 };
        assert_eq!(said(Change::BarReindex(reindex)), "1 spline down at the anchor, 2 splines up at the arm");
        assert_eq!(said(Change::CutCoil(CutCoil { coils: 0.5 })), "0.5 coils cut");
        let shims = ShimChange { front_mm: 25.4 / 16.0, rear_mm: -25.4 / 32.0 };
        assert_eq!(said(Change::Shims(shims)), "1/16 in shim more front, 1/32 in shim less rear");
        assert_eq!(changes_in_words(&[], Units::Inches), "as measured");
    }
}
