//! How a truck leans, in sentences.

use crate::words::{held_in_words, tape};
use measure::{ForceUnit, Units, print_angle, print_force, print_length, print_number};
use study::{HeldBy, Lean, LeanCorner, NoLean, Stance, Target, lean, lean_alone_rad};
use truck::Side;

/// How a truck leans against as it sits, what that does to its corners, and what is counted.
///
/// # Errors
/// Where what holds it level is not measured: which number is missing, and how far it would lean by its
/// front springs alone.
pub fn lean_in_words(stance: &Stance, units: Units) -> Result<Vec<String>, String> {
    let found = lean(stance).map_err(|why| open_in_words(stance, why))?;
    let force = |newtons: f64| {
        let unit = if units == Units::Inches { ForceUnit::Pound } else { ForceUnit::Kilogram };
        print_force(newtons.abs(), unit)
    };
    let more = |newtons: f64| if newtons < 0.0 { " less" } else { " more" };
    let (left, right) = (&found.left, &found.right);
    let heights = together_mm(stance, &found);
    let [left_mm, right_mm] = heights.map(|mm| print_length(mm, tape(units)));
    let apart_mm = heights[0] - heights[1];
    let low = print_length(apart_mm.abs(), tape(units));
    let level = if low == print_length(0.0, tape(units)) {
        "level".to_owned()
    } else {
        [if apart_mm < 0.0 { "left" } else { "right" }, " low by ", &low].concat()
    };
    let mut all = vec![
        ["On both springs together: left ", &left_mm, ", right ", &right_mm, ", ", &level, "."].concat(),
        [
            "It leans ",
            &leaning(found.left_low_rad),
            ". By each front spring alone: ",
            &leaning(found.alone_rad),
            ".",
        ]
        .concat(),
        [
            "Against as it sits the left front carries ",
            &force(left.more_n),
            more(left.more_n),
            ", the right front ",
            &force(right.more_n),
            more(right.more_n),
            ".",
        ]
        .concat(),
    ];
    if let Some(rear) = found.rear {
        let share = rear
            .cross_share
            .map(|share| [" (", &print_number(share.abs() * 100.0, 1), " % of the truck)"].concat());
        let (cross_n, share) = (rear.cross_more_n, share.unwrap_or_default());
        all.push(
            [
                "Cross weight: left front and right rear together carry ",
                &force(cross_n),
                more(cross_n),
                &share,
                ".",
            ]
            .concat(),
        );
    }
    let notes = lean_notes(&found).join("; ");
    all.push(study::capital(&notes) + ".");
    Ok(all)
}

/// The frame heights of left and right on both springs, mm: as each is told alone, with what the frame
/// makes of them together.
fn together_mm(stance: &Stance, lean: &Lean) -> [f64; 2] {
    let of = |side: Side, down_mm: f64| {
        Target::of(&stance.on(side)).ride_height_mm + stance.corner(side).ground_mm - down_mm
    };
    [of(Side::Left, lean.left.down_mm), of(Side::Right, lean.right.down_mm)]
}

/// Why nothing is told, and the bound that is.
fn open_in_words(stance: &Stance, why: NoLean) -> String {
    if why == NoLean::NoBalance {
        return why.to_string() + ".";
    }
    // As it sits it leans by nothing against as it sits, whatever holds it.
    if Side::ALL.iter().all(|side| stance.corner(*side).ground_mm.abs() < 1e-6) {
        return leaning(0.0);
    }
    let alone = leaning(lean_alone_rad(stance));
    [&why.to_string(), ". By the front springs alone, with nothing to hold it level, it leans ", &alone, "."]
        .concat()
}

/// How much farther a truck leans than as it sits: "0.42° farther to the left".
#[must_use]
pub fn leaning(left_low_rad: f64) -> String {
    let said = print_angle(left_low_rad.abs(), 2);
    if said == print_angle(0.0, 2) {
        return "no farther than as it sits".to_owned();
    }
    said + if left_low_rad > 0.0 { " farther to the left" } else { " farther to the right" }
}

/// What is counted, what is not, and what a wheel does that stands no longer on its spring.
#[must_use]
pub fn lean_notes(lean: &Lean) -> Vec<String> {
    let bar = if lean.anti_roll_bar { "anti-roll bar counted" } else { "no anti-roll bar counted" };
    let mut all = vec![bar.to_owned()];
    if let Some(share) = lean.held_back() {
        all.push(print_number(share * 100.0, 0) + " % of it held back");
    }
    if lean.rear.is_none() {
        all.push("cross weight open until the rear tires' distance is measured".to_owned());
    }
    for (side, corner) in [("left", lean.left), ("right", lean.right)] {
        all.extend(held(corner).map(|held| [side, " front ", &held].concat()));
    }
    if lean.rear.is_some_and(|rear| rear.is_lifted) {
        all.push("a rear wheel in the air".to_owned());
    }
    all
}

fn held(corner: LeanCorner) -> Option<String> {
    if corner.is_lifted {
        return Some("wheel in the air".to_owned());
    }
    (corner.held_by != HeldBy::Spring).then(|| "held by: ".to_owned() + held_in_words(corner.held_by))
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, Change, Design, Edit, ProposalId, RearAxle, RearField, demo};

    fn stance(design: &Design) -> Stance {
        Stance::of_design(design, ProposalId(0).into()).expect("it stands")
    }

    /// Four turns out on the left: the left comes down, and the right with it by less. Of the rear only these
    /// numbers are measured.
    fn turned(numbers: &[(RearField, f64)]) -> Design {
        let edits = numbers.iter().map(|(field, value)| Edit::MeasureRear(*field, Some(*value)));
        let turns = Some(Change::BarAdjuster(BarAdjuster { turns: -4.0 }));
        let all = edits.chain([Edit::SetEach(ProposalId(0), [turns, None])]);
        let mut start = demo();
        start.truck.rear = RearAxle::UNKNOWN;
        all.fold(start, |design, edit| design.edited(&edit).expect("it can be entered"))
    }

    #[test]
    fn a_lean_is_said_with_its_way() {
        let said = ["0.57° farther to the left", "0.57° farther to the right", "no farther than as it sits"];
        assert_eq!([0.01, -0.01, 1e-7].map(leaning), said);
    }

    #[test]
    fn what_is_missing_is_named_with_the_bound() {
        let said = lean_in_words(&stance(&turned(&[])), Units::Inches).expect_err("the rear is not measured");
        let begins =
            "The lean is open until this is measured: Rate of one spring. By the front springs alone";
        assert!(said.starts_with(begins) && said.ends_with(" farther to the left."), "{said}");
    }

    /// By hand: what the left front takes on, the right front loses, and left front with right rear come
    /// to the signs of the two couples.
    #[test]
    fn loads_are_said_with_their_signs() {
        let rear = [
            (RearField::Rate, 30.0),
            (RearField::SpringsApart, 1000.0),
            (RearField::TiresApart, 1400.0),
            (RearField::Load, 3000.0),
        ];
        let design = turned(&rear);
        let found = lean(&stance(&design)).expect("all is stated");
        assert!(found.left_low_rad > 0.0 && found.left.more_n < 0.0 && found.right.more_n > 0.0);
        let said = lean_in_words(&stance(&design), Units::Millimetres).expect("all is stated");
        // By hand: the frame's height as it sits, 300 mm, less what each side comes down together.
        let height = |down_mm: f64| print_length(300.0 - down_mm, tape(Units::Millimetres));
        let heights =
            ["left ", &height(found.left.down_mm), ", right ", &height(found.right.down_mm)].concat();
        assert!(said[0].contains(&heights) && said[0].contains(", left low by "), "{said:?}");
        assert!(said[1].contains(" farther to the left. By each"), "{said:?}");
        assert!(said[2].contains(" less, the right front ") && said[2].ends_with(" more."), "{said:?}");
        assert!(said[3].contains(" less (") && said[3].ends_with(" % of the truck)."), "{said:?}");
        assert!(said[4].starts_with("No anti-roll bar counted; "), "{said:?}");
    }
}
