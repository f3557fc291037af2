//! Guesses that follow what is known: a point of the body goes with the frame's height, one of the wheel with its
//! loaded radius, and a width with the hub's.
//!
//! This is rule 1. A link says which rule it goes by and none of the numbers that follow from it, so neither what is
//! here nor the demo's numbers that it starts from may change: whoever guesses otherwise makes a rule 2, and leaves
//! this one its numbers.

use crate::demo;
use crate::field::{Datum, Field, Group};
use crate::field_set::FieldSet;
use crate::reading::Readable;
use crate::side::Side;
use crate::source::{Source, Staying};
use crate::truck::Truck;
use linkage::Corner;

/// So far up and so far down the wheel goes on a linkage that a guess may leave, mm: three inches.
const EACH_WAY_MM: f64 = 76.2;

/// What a guess goes with; the first three move by themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// The frame, by its height.
    Body,
    /// The wheel, by its loaded radius.
    Wheel,
    /// The hub, by its distance from the centerline.
    Hub,
    /// An arm, whose middle goes by half of what either end goes.
    Arm,
}

/// What a number of the truck goes with while it is a guess.
fn part(field: Field) -> Option<Part> {
    match (field.datum()?, field) {
        (Datum::Axle, _) | (_, Field::LowPointY) => None,
        (Datum::Centreline, _) => Some(Part::Hub),
        (_, Field::CoilArmZ | Field::ShockArmZ | Field::StrutArmZ) => Some(Part::Arm),
        (_, Field::TieOuterZ) => Some(Part::Wheel),
        _ if field.group() == Group::Knuckle => Some(Part::Wheel),
        _ => Some(Part::Body),
    }
}

/// Whether it is one of the linkage's.
const fn is_linkage(field: Field) -> bool {
    matches!(field.group(), Group::LowerArm | Group::UpperArm | Group::Knuckle | Group::TieRod)
}

/// What each number that follows is guessed at, mm, whether it is a guess on this truck or not; in the order of
/// [`Field::ALL`], of a truck that goes by a rule and of which what nobody stated is a guess, and of no other.
///
/// The frame's height is the rail's, or what was read of it; the loaded radius is the wheel center's, or goes with the
/// tire's.
#[must_use]
pub fn guesses(truck: &Truck) -> Vec<(Field, f64)> {
    let mut all = Vec::new();
    let is_own = truck.sources.rule() == Source::Assumed;
    let Some(staying) = truck.sources.staying().filter(|_| is_own) else { return all };
    let start = demo::guessed();
    let read = truck.readings.get(Readable::FrameHeight, Side::Left);
    let mut moved = [
        read.map_or(0.0, |reading| reading.value - start.body.rail.bottom_z_mm),
        truck.tire.free_radius_mm() - start.tire.free_radius_mm(),
        0.0,
    ];
    let known = [Field::RailBottomZ, Field::WheelCentreZ, Field::WheelCentreY];
    for (moved, field) in moved.iter_mut().zip(known) {
        if let (Some(now), Some(was)) = (field.get(truck), field.get(start))
            && truck.sources.of(field) != Source::Assumed
        {
            *moved = now - was;
        }
    }
    for field in Field::ALL.iter().copied() {
        let (Some(part), Some(first)) = (part(field), field.get(start)) else { continue };
        let by = |part: Part| {
            if is_linkage(field) && staying.has(part as u8) { 0.0 } else { moved[part as usize] }
        };
        let by = if part == Part::Arm { f64::midpoint(by(Part::Body), by(Part::Wheel)) } else { by(part) };
        if let Some(value) = field.nearest(first + by) {
            all.push((field, value));
        }
    }
    all
}

impl Truck {
    /// Moves what still is a guess as the truck's rule says. What was given a value of its own is left, and so is every
    /// number that somebody has taken.
    pub(crate) fn follow(&mut self, before: &Self) {
        if self.sources.staying().is_none() || before.sources.staying().is_none() || self == before {
            return;
        }
        let was = guesses(before);
        let mut follows = FieldSet::EMPTY;
        for (field, was) in was {
            if self.sources.of(field) == Source::Assumed && field.get(self) == Some(was) {
                follows.insert(field);
            }
        }
        for staying in Staying::ALL {
            self.sources.follow(staying);
            for (field, value) in guesses(self) {
                if follows.contains(field) {
                    field.put(self, Some(value));
                }
            }
            if self.goes_each_way() {
                return;
            }
        }
    }

    /// Whether the linkage goes three inches up and down from where it stands.
    fn goes_each_way(&self) -> bool {
        let stands_mm = self.points.wheel_centre.z;
        Corner::of(&self.points, self.loaded_radius_mm()).is_ok_and(|corner| {
            let range = corner.range();
            range.low_mm <= stands_mm - EACH_WAY_MM && range.high_mm >= stands_mm + EACH_WAY_MM
        })
    }
}
