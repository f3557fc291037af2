//! Changes, and what keeps a setting from its target, as people say them to each other.

use linkage::Vector3;
use measure::{
    LengthStyle, MM_PER_INCH, Units, fixed, print_angle, print_length, print_number, print_tire_size,
    without_zeros,
};
use study::{Alignment, Barred, Bound, HeldBy, Lowest, NoRearWay, Pair, Preload, Setting};
use truck::{ArmSwap, Change, MovedPivot, Overlay, Place, RearField, Side, TireSize, Truck};

/// What follows the name of a change that is on one side alone.
#[must_use]
pub const fn on_side(side: Option<Side>) -> &'static str {
    match side {
        None => "",
        Some(Side::Left) => " on the left",
        Some(Side::Right) => " on the right",
    }
}

/// A change in a few words: "2 in spindle", "6 turns out".
#[must_use]
pub fn change_in_words(change: &Change, units: Units) -> String {
    let length = |mm: f64| length(mm, units);
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
        Change::JointTurned(of) => match of.place {
            Place::LowerJointUp => "lower joint on top of its plate",
            Place::LowerJointDown => "lower joint under its plate",
            Place::UpperJointUp => "upper joint on top of its plate",
            _ => "upper joint under its plate",
        }
        .to_owned(),
        Change::TireSwap(of) => size_in_words(&of.size),
        Change::Shims(of) if of.front_mm.to_bits() == of.rear_mm.to_bits() => {
            length(of.front_mm) + way(of.front_mm, " shim more, both bolts", " shim less, both bolts")
        }
        Change::Shims(of) => {
            let at = |mm: f64, place: &str| {
                (mm != 0.0).then(|| length(mm) + way(mm, " shim more ", " shim less ") + place)
            };
            joined([at(of.front_mm, "front"), at(of.rear_mm, "rear")].into_iter().flatten())
        }
        // What setting toe takes is less than such a length can say.
        Change::TieRod(of) if of.inner_mm == Vector3::zeros() && of.longer_mm.abs() < 3.0 => {
            "toe set anew".to_owned()
        }
        Change::ArmSwap(of) => another_arm(of, units).unwrap_or_else(|| plain(change)),
        Change::MovedPivot(of) => moved_pivot(of, units).unwrap_or_else(|| plain(change)),
        other => by_a_length(other, units).unwrap_or_else(|| plain(other)),
    }
}

/// What one length says; `None` of any other change, and where it says nothing.
fn by_a_length(change: &Change, units: Units) -> Option<String> {
    let (what, mm, [plus, minus]) = match change {
        Change::SeatSpacer(of) => ("", of.thickness_mm, [" spacer", " less seat"]),
        Change::StopTrim(of) => ("", of.lower_mm, [" off the bump stop", " more bump stop"]),
        Change::StrutRod(of) => ("strut rod ", of.longer_mm, [" longer", " shorter"]),
        Change::TieRod(of) => ("tie rod ", of.longer_mm, [" longer", " shorter"]),
        Change::KnuckleSwap(of) => ("knuckle, pin ", of.pin_mm, [" higher", " lower"]),
        Change::RearBlock(of) => ("", of.height_mm, [" rear block", " less rear block"]),
        Change::RearShackle(of) => ("rear shackle ", of.longer_mm, [" longer", " shorter"]),
        Change::RearSpring(of) => ("rear springs ", of.flatter_mm, [" flatter", " more arched"]),
        Change::RearNotch(of) => ("", of.depth_mm, [" notch"; 2]),
        Change::RearStop(of) => ("", of.lower_mm, [" off the rear stop", " more rear stop"]),
        _ => return None,
    };
    moved(what, &[(mm, plus, minus)], units)
}

fn another_arm(of: &ArmSwap, units: Units) -> Option<String> {
    let arm = if of.place == Place::UpperArm { "upper arm " } else { "lower arm " };
    let by = [(of.longer_mm, " longer", " shorter"), (of.higher_mm, " higher ball", " lower ball")];
    moved(arm, &by, units)
}

fn moved_pivot(of: &MovedPivot, units: Units) -> Option<String> {
    let pivot = match of.place {
        Place::UpperArm => "upper pivots ",
        Place::UpperFront => "upper front pivot ",
        Place::UpperRear => "upper rear pivot ",
        Place::LowerFront => "lower front pivot ",
        Place::LowerRear => "lower rear pivot ",
        _ => "lower pivots ",
    };
    let by = &of.by_mm;
    moved(pivot, &[(by.x, " forward", " back"), (by.y, " outward", " inward"), (by.z, " up", " down")], units)
}

/// What moved by how much and which way; `None` of what stayed where it was.
fn moved(what: &str, by: &[(f64, &str, &str)], units: Units) -> Option<String> {
    let by = by.iter().filter(|(mm, ..)| *mm != 0.0);
    let said = by.map(|(mm, plus, minus)| length(*mm, units) + if *mm < 0.0 { minus } else { plus });
    said.reduce(|said, more| said + " and " + &more).map(|said| what.to_owned() + &said)
}

/// The changes of a proposal in a line; of none, that it is as measured.
#[must_use]
pub fn changes_in_words(changes: &[Change], units: Units) -> String {
    if changes.is_empty() {
        return "as it sits".to_owned();
    }
    joined(changes.iter().map(|change| change_in_words(change, units)))
}

/// What a proposal lays over a truck, in a line: its changes, each marked that holds a guess, and how far
/// the rear comes down.
#[must_use]
pub fn overlay_in_words(overlay: &Overlay<'_>, units: Units) -> String {
    let mut each = each_in_words(overlay, units);
    if each.is_empty() {
        each.push(changes_in_words(&[], units));
    }
    each.extend(rear_in_words(overlay, units));
    each.join(", ")
}

/// How far a proposal brings the rear down, where it says.
#[must_use]
pub fn rear_in_words(overlay: &Overlay<'_>, units: Units) -> Option<String> {
    let down_mm = overlay.rear_down_mm?;
    let way = if down_mm < 0.0 { "rear up " } else { "rear down " };
    Some(way.to_owned() + &length(down_mm, units))
}

/// Each change that a proposal lays over a truck, marked where it holds a guess.
#[must_use]
pub fn each_in_words(overlay: &Overlay<'_>, units: Units) -> Vec<String> {
    let guessed = overlay.guessed();
    let part = |one: &(Option<Side>, Change)| {
        let (kind, place) = one.1.slot();
        let is_guess = guessed.iter().any(|(of, at, _)| (*of, *at) == (kind, place));
        marked(change_in_words(&one.1, units) + on_side(one.0), is_guess)
    };
    overlay.every().iter().map(part).collect()
}

/// A length without its sign.
fn length(mm: f64, units: Units) -> String {
    let style = match units {
        Units::Inches => LengthStyle::Inches { denominator: 32 },
        Units::Millimetres => LengthStyle::Millimetres { decimals: 1 },
    };
    print_length(mm.abs(), style)
}

/// What keeps a target from being met, in a sentence.
#[must_use]
pub fn bound_in_words(bound: &Bound) -> String {
    match bound {
        Bound::NoAdjuster => "The spring has nothing that sets its height.",
        Bound::Bolt => "The anchor's bolt ends before that height, and no spline within reach helps.",
        Bound::BlindTooth => {
            "The anchor's bolt ends before that height, and a blind tooth lets the bar in one way only."
        }
        Bound::NoShimsLeft => "A bolt has no more shims to take out.",
        Bound::ShimsTooThick => "A pack would be thicker than its bolt takes.",
        Bound::Reached(share) => {
            let percent = print_number(share * 100.0, 0);
            return ["Linkage or stops do not let it get there: ", &percent, " % of the way can be had."]
                .concat();
        }
        _ => "It is out of reach.",
    }
    .to_owned()
}

/// What holds a truck up, in a few words.
#[must_use]
pub const fn held_in_words(held_by: HeldBy) -> &'static str {
    match held_by {
        HeldBy::Spring => "spring",
        HeldBy::SpringAndStop => "spring and bump stop",
        HeldBy::BumpStop => "bump stop, solid",
        HeldBy::DroopStop => "droop stop",
    }
}

/// What is wrong with the way a truck would stand, and the lowest height that mends it;
/// `None` where it stands on its spring with enough bump travel.
#[must_use]
pub fn danger_in_words(found: &Alignment, units: Units) -> Option<String> {
    if !found.is_short() {
        return None;
    }
    let length = |mm: f64| print_length(mm, tape(units));
    let guess = if found.guessed { "~" } else { "" };
    let bump = &found.footing.bump;
    let mut said = match found.footing.held_by {
        HeldBy::Spring => {
            // What is short of a mark is not to be read as on it.
            let mark_mm = if units == Units::Inches { MM_PER_INCH / 16.0 } else { 0.1 };
            let read = (bump.travel_mm / mark_mm).round() * mark_mm;
            let short = if read < found.least_mm() - mark_mm / 2.0 { read } else { read - mark_mm };
            let by = bump.by.to_string();
            ["Dangerous: only ", guess, &length(short), " of bump travel, ended by ", &by].concat()
        }
        held_by => "Dangerous: it stands on its ".to_owned() + held_in_words(held_by),
    };
    if !found.footing.leaves(found.bump_mm) {
        said += &match found.lowest_height_mm {
            Some(mm) => {
                let height = length(mm);
                [". Lowest ride height with ", &length(found.bump_mm), " of bump travel: ", guess, &height]
                    .concat()
            }
            None => ". These parts leave ".to_owned() + &length(found.bump_mm) + " at no height",
        };
    }
    Some(said + ".")
}

/// What is said of what rests on a guess: its mark stands before it, in every text and
/// spoken too.
#[must_use]
pub fn marked(said: String, is_guess: bool) -> String {
    if is_guess { "~ ".to_owned() + &said } else { said }
}

/// By how much a spring holds at full droop, or is loose there.
#[must_use]
pub fn preload_in_words(preload: &Preload, units: Units) -> String {
    let (left, by, at) = match preload {
        Preload::Bar { twist_rad, turns } => {
            let turned = turns.map(|turns| [", ", &fixed(turns.abs(), 1), " turns"].concat());
            (*twist_rad, print_angle(twist_rad.abs(), 1) + &turned.unwrap_or_default(), "anchor")
        }
        Preload::Coil(mm) => (*mm, print_length(mm.abs(), tape(units)), "seat"),
    };
    if left > 0.0 {
        "holds by ".to_owned() + &by
    } else {
        ["loose by ", &by, ": can leave its ", at].concat()
    }
}

/// How much harder a spring works than before, as a share.
#[must_use]
pub fn harder_in_words(share: f64) -> String {
    let percent = fixed(share.abs() * 100.0, 0);
    if percent == "0" {
        return "as hard as before".to_owned();
    }
    percent + if share > 0.0 { " % harder than before" } else { " % easier than before" }
}

/// What is said where left and right are set differently: whether they are worked out together.
#[must_use]
pub fn sides_in_words(found: &Setting) -> Option<&'static str> {
    found.alone.then_some(if found.together { TOGETHER } else { EACH_ALONE })
}

/// What is said where the rear leaves and an anti-roll bar are counted.
const TOGETHER: &str = "Left and right are worked out together, with the rear leaves and an anti-roll bar as measured, the frame taken as stiff: set both, roll it, read again, and set the rest.";
/// What is said where left and right are set each by what lies over it alone.
const EACH_ALONE: &str = "Each side is worked out on its own spring. The rear and an anti-roll bar hold part of a difference back: set both, roll it, read again, and set the rest.";

/// Why no rear parts bring the rear down as far as the front, what comes nearest, and what stops it.
#[must_use]
pub fn no_rear_way_in_words(why: &NoRearWay, truck: &Truck, units: Units) -> String {
    let mut said = why.to_string() + ".";
    if let NoRearWay::OutOfReach(nearest, barred) = why {
        if let Some(way) = nearest {
            let (parts, down) =
                (changes_in_words(&way.changes, units), print_length(way.down_mm, tape(units)));
            said += &[" Nearest: ", &parts, ", ", &down, " lower."].concat();
        }
        if let Some(Barred { changes, answer, verdict }) = barred {
            let parts = changes_in_words(changes, units);
            said += &[" Left out: ", &parts, ", since ", answer, ": ", verdict, "."].concat();
        }
    }
    if truck.rear.get(RearField::Seat).is_some_and(|seat_mm| seat_mm > 0.0) {
        said += " A block raises this truck: its axle is under its springs.";
    }
    said
}

/// The lowest that parts reach where none reach what was wished, by which of them, and what stops the next.
#[must_use]
pub fn lowest_in_words(lowest: &Lowest, truck: &Truck, units: Units) -> String {
    let [frame, drop] = lowest.told(truck).map(|told| {
        let mm = told.number().unwrap_or_default();
        marked(print_length(mm, tape(units)), told.is_guess())
    });
    let parts = changes_in_words(&lowest.changes, units);
    let said = ["Lowest these parts reach: frame height ", &frame, ", ", &drop, " lower: ", &parts].concat();
    let said = said + &unseen_in_words(&lowest.unseen);
    let Some((why, by)) = lowest.stops else {
        return said + ". Nothing else on the table sits lower and still holds the truck up.";
    };
    let by = by.map(|by| [" (", &by.to_string(), ")"].concat()).unwrap_or_default();
    [&said, ". The next ones down ", why.label(), &by, "."].concat()
}

/// The pairs of a way that were not looked at, to be put behind what is said of it; nothing where there are none.
#[must_use]
pub fn unseen_in_words(unseen: &[Pair]) -> String {
    let mut said = String::new();
    for pair in unseen {
        said += if said.is_empty() { "; not looked at, for want of numbers: " } else { ", " };
        said += pair.label();
    }
    said
}

/// A pack of shims of four pieces or more.
pub const MANY_PIECES: &str = "A pack comes to four shims or more, made up as shown here; fewer is usual.";

/// Lengths as a tape is read.
pub(crate) const fn tape(units: Units) -> LengthStyle {
    match units {
        Units::Inches => LengthStyle::Inches { denominator: 16 },
        Units::Millimetres => LengthStyle::Millimetres { decimals: 1 },
    }
}

fn plain(change: &Change) -> String {
    let title = change.kind().title(change.place());
    title[..1].to_ascii_lowercase() + &title[1..]
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.fold(String::new(), |said, part| if said.is_empty() { part } else { said + ", " + &part })
}

/// A tire's size as it stands on the sidewall: `195/75R14`, `31x10.50R15`.
#[must_use]
pub fn size_in_words(size: &TireSize) -> String {
    print_tire_size(size.section_mm, size.aspect_percent, size.rim_code)
}

/// A count with as many decimals as it has.
pub(crate) fn count(value: f64) -> String {
    without_zeros(&fixed(value, 2)).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, BarReindex, CutCoil, DroppedSpindle, KnuckleSwap, ShimChange};

    /// Half a degree and the turns for it, a tape's sixteenths, per cent of what was.
    #[test]
    fn how_a_spring_works_is_said_with_its_amount() {
        let bar = |degrees: f64, turns| Preload::Bar { twist_rad: degrees.to_radians(), turns };
        let said = |preload: Preload| preload_in_words(&preload, Units::Inches);
        assert_eq!(said(bar(13.54, Some(24.26))), "holds by 13.5°, 24.3 turns");
        assert_eq!(said(bar(-0.5, Some(-0.9))), "loose by 0.5°, 0.9 turns: can leave its anchor");
        assert_eq!(said(bar(60.0, None)), "holds by 60.0°");
        assert_eq!(said(Preload::Coil(12.7)), "holds by 1/2 in");
        assert_eq!(said(Preload::Coil(-25.4)), "loose by 1 in: can leave its seat");
        assert_eq!(preload_in_words(&Preload::Coil(12.7), Units::Millimetres), "holds by 12.7 mm");
        assert_eq!(harder_in_words(0.1528), "15 % harder than before");
        assert_eq!(harder_in_words(-0.031), "3 % easier than before");
        assert_eq!(harder_in_words(0.004), "as hard as before");
    }

    #[test]
    fn changes_are_said_as_people_say_them() {
        let said = |change: Change| change_in_words(&change, Units::Inches);
        let spindle = DroppedSpindle { drop_mm: 63.5, ..DroppedSpindle::default() };
        assert_eq!(said(Change::DroppedSpindle(spindle)), "2 1/2 in spindle");
        let knuckle =
            |pin_mm| Change::KnuckleSwap(KnuckleSwap { pin_mm, balls_mm: 3.0, ..KnuckleSwap::default() });
        assert_eq!(said(knuckle(50.8)), "knuckle, pin 2 in higher");
        assert_eq!(said(knuckle(-12.7)), "knuckle, pin 1/2 in lower");
        assert_eq!(said(knuckle(0.0)), "knuckle swap");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: -6.0 })), "6 turns out");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: 1.0 })), "1 turn in");
        assert_eq!(said(Change::BarAdjuster(BarAdjuster { turns: -10.0 })), "10 turns out");
        let reindex = BarReindex { anchor: -1.0, arm: 2.0 };
        assert_eq!(said(Change::BarReindex(reindex)), "1 spline down at the anchor, 2 splines up at the arm");
        assert_eq!(said(Change::CutCoil(CutCoil { coils: 0.5 })), "0.5 coils cut");
        let shims = ShimChange { front_mm: 25.4 / 16.0, rear_mm: -25.4 / 32.0 };
        assert_eq!(said(Change::Shims(shims)), "1/16 in shim more front, 1/32 in shim less rear");
        let same = ArmSwap {
            place: Place::UpperArm,
            longer_mm: 0.0,
            higher_mm: 0.0,
            forward_mm: 0.0,
            stop_mm: 0.0,
            spacing_mm: None,
        };
        let arm = ArmSwap { longer_mm: 25.4 * 15.0 / 32.0, ..same };
        assert_eq!(said(Change::ArmSwap(arm)), "upper arm 15/32 in longer");
        let arm = ArmSwap { place: Place::LowerArm, longer_mm: -25.4, higher_mm: 12.7, ..arm };
        assert_eq!(said(Change::ArmSwap(arm)), "lower arm 1 in shorter and 1/2 in higher ball");
        assert_eq!(said(Change::ArmSwap(same)), "another upper arm");
        let pivot = |place, by_mm| said(Change::MovedPivot(MovedPivot { place, by_mm }));
        let by_mm = Vector3::new(0.0, 25.4 / 4.0, -25.4 / 8.0);
        assert_eq!(pivot(Place::LowerRear, by_mm), "lower rear pivot 1/4 in outward and 1/8 in down");
        assert_eq!(pivot(Place::UpperArm, -by_mm), "upper pivots 1/4 in inward and 1/8 in up");
        assert_eq!(pivot(Place::UpperArm, Vector3::zeros()), "move upper arm, both pivots");
        assert_eq!(changes_in_words(&[], Units::Inches), "as it sits");
        let rear =
            |mm| overlay_in_words(&Overlay { rear_down_mm: Some(mm), ..Overlay::NOTHING }, Units::Inches);
        assert_eq!(rear(50.8), "as it sits, rear down 2 in");
        assert_eq!(rear(-25.4), "as it sits, rear up 1 in");
    }
}
