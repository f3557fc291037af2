//! What is to be said before the work of a proposal, whether its parts fit or not.

use crate::change::{Change, Place};
use crate::field::Field;
use crate::fit::Overlay;
use crate::side::Side;
use crate::spring::{Arm, SpringKind};
use crate::truck::Truck;
use std::fmt;

/// What is to be said before the work of a proposal. Unlike a
/// [`Remark`](crate::Remark) it takes nothing from what was fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Note {
    /// On the arm that carries the spring the knuckle pushes the joint up: with its housing
    /// over the plate nothing but its bolts holds it down, and the truck with it.
    BoltsCarry,
    /// A torsion bar is turned, moved or changed: it is loaded.
    LetDown,
    /// Another truck's knuckle: its seats may have other tapers than the studs that go into them.
    OtherTapers,
    /// The bar is re-indexed where nobody has said whether a blind tooth forbids it.
    AskBlind(Field),
    /// A ball joint is turned over on the arm that carries no spring.
    LowersNothing(Arm),
    /// A pack of shims comes to more than 8 mm.
    ThickPack,
    /// The packs at the two bolts come to differ by more than 3 mm.
    PacksDiffer,
    /// The rail is cut over the rear axle.
    Notch,
    /// Axle and frame are brought closer together at the rear, as a load does.
    RearBrake,
}

impl Note {
    /// Whether it tells of what can hurt someone.
    #[must_use]
    pub const fn is_danger(self) -> bool {
        self.rank() < Self::ALONE
    }

    /// Where those stand that hurt nobody.
    const ALONE: usize = 5;

    /// Where it stands among others: what can hurt someone comes first.
    const fn rank(self) -> usize {
        match self {
            Self::BoltsCarry => 0,
            Self::LetDown => 1,
            Self::OtherTapers => 2,
            Self::Notch => 3,
            Self::RearBrake => 4,
            _ => Self::ALONE,
        }
    }
}

/// Thicker packs are said, mm. A service text for another light truck (seen).
const THICK_MM: f64 = 8.0;
/// Packs that differ by more are said, mm. The same text.
const DIFFER_MM: f64 = 3.0;
/// Packs are kept to a hundredth of a millimetre.
const KEPT_MM: f64 = 0.02;

/// What is to be said before the work of all that is laid over a truck: of its left, and what its right
/// adds.
#[must_use]
pub fn notes_of(truck: &Truck, overlay: Overlay<'_>) -> Vec<Note> {
    let [mut all, right] = Side::ALL.map(|side| notes(&truck.on(side), &overlay.on(side)));
    for note in right {
        if !all.contains(&note) {
            all.insert(all.partition_point(|other| other.rank() <= note.rank()), note);
        }
    }
    all
}

/// What is to be said before the work of a proposal on one side: what can hurt someone first.
#[must_use]
pub fn notes(truck: &Truck, changes: &[Change]) -> Vec<Note> {
    let bar = truck.spring.kind == SpringKind::TorsionBar;
    let mut list = Vec::new();
    if hangs_on_bolts(truck, changes) {
        list.push(Note::BoltsCarry);
    }
    if bar && changes.iter().any(moves_bar) {
        list.push(Note::LetDown);
    }
    if changes.iter().any(|change| matches!(change, Change::KnuckleSwap(_))) {
        list.push(Note::OtherTapers);
    }
    if changes.iter().any(|change| matches!(change, Change::RearNotch(notch) if notch.depth_mm > 0.0)) {
        list.push(Note::Notch);
    }
    if changes.iter().any(moves_rear_axle) {
        list.push(Note::RearBrake);
    }
    for change in changes {
        match change {
            Change::BarReindex(splines) if bar => {
                let own = &truck.spring.bar;
                for (count, blind, field) in [
                    (splines.anchor, own.blind_anchor, Field::BarBlindAnchor),
                    (splines.arm, own.blind_arm, Field::BarBlindArm),
                ] {
                    if count != 0.0 && blind.is_none() {
                        list.push(Note::AskBlind(field));
                    }
                }
            }
            Change::JointTurned(joint) => {
                let arm = match joint.place {
                    Place::UpperJointUp | Place::UpperJointDown => Arm::Upper,
                    _ => Arm::Lower,
                };
                if arm != truck.spring.arm {
                    list.push(Note::LowersNothing(arm));
                }
            }
            Change::Shims(added) => {
                // Of a pack that nobody has measured what is added is the least that it can be.
                let total = |now: Option<f64>, more: f64| now.unwrap_or(0.0) + more;
                let shims = &truck.shims;
                let front = total(shims.front_mm, added.front_mm);
                let rear = total(shims.rear_mm, added.rear_mm);
                if front.max(rear) > THICK_MM + KEPT_MM {
                    list.push(Note::ThickPack);
                }
                let known = shims.front_mm.is_some() && shims.rear_mm.is_some();
                if known && (front - rear).abs() > DIFFER_MM + KEPT_MM {
                    list.push(Note::PacksDiffer);
                }
            }
            _ => {}
        }
    }
    list
}

/// Whether the ball joint of the arm with the spring comes to sit on top of its plate.
/// Turned and turned again, it is where it was.
fn hangs_on_bolts(truck: &Truck, changes: &[Change]) -> bool {
    let (up, down) = match truck.spring.arm {
        Arm::Lower => (Place::LowerJointUp, Place::LowerJointDown),
        Arm::Upper => (Place::UpperJointUp, Place::UpperJointDown),
    };
    let turned = |to: Place| {
        changes.iter().any(|change| matches!(change, Change::JointTurned(joint) if joint.place == to))
    };
    turned(up) && !turned(down)
}

/// Whether a change turns the bar's bolt, or takes the bar or its anchor out.
fn moves_bar(change: &Change) -> bool {
    match change {
        Change::BarAdjuster(bolt) => bolt.turns != 0.0,
        Change::BarReindex(splines) => splines.anchor != 0.0 || splines.arm != 0.0,
        Change::BarSwap(_) | Change::AnchorSwap(_) => true,
        _ => false,
    }
}

/// Whether a change moves the rear axle against the frame.
const fn moves_rear_axle(change: &Change) -> bool {
    matches!(
        change,
        Change::RearBlock(_)
            | Change::AxleFlip(_)
            | Change::RearHangers(_)
            | Change::RearShackle(_)
            | Change::RearSpring(_)
    )
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::BoltsCarry => {
                "Danger: the bolts then carry the truck. On the arm with the spring a ball joint stays under its plate."
            }
            Self::LetDown => {
                "A torsion bar can kill: let it down fully at its bolt before anything that holds it is undone. Mark with paint, never a scratch: a scratched bar breaks."
            }
            Self::OtherTapers => {
                "A stud in a seat of another taper pulls up tight, rocks, and breaks later. Blue all three in that knuckle, the tie rod's too, before the road: Bolts up asks them."
            }
            Self::AskBlind(Field::BarBlindArm) => {
                "Is there a blind tooth at the bar's arm end? Then it goes in one way only, and cannot be re-indexed there."
            }
            Self::AskBlind(_) => {
                "Is there a blind tooth at the bar's anchor end? Then it goes in one way only, and cannot be re-indexed there."
            }
            Self::LowersNothing(Arm::Upper) => {
                "The lower arm carries the spring: flipping the upper ball joint lowers nothing."
            }
            Self::LowersNothing(Arm::Lower) => {
                "The upper arm carries the spring: flipping the lower ball joint lowers nothing."
            }
            Self::Notch => {
                "A bare notch takes most of the rail's strength. Never drive on one that is not boxed by someone certified to weld."
            }
            Self::RearBrake => {
                "A rear brake valve on a rod takes a lowered rear for a loaded one, and the rear brakes lock first; a raised one for an empty one. Set it by its manual before the road."
            }
            Self::ThickPack => "A pack of shims over 8 mm is thicker than is usual on a light truck.",
            Self::PacksDiffer => {
                "Front and rear packs more than 3 mm apart are more than is usual on a light truck."
            }
        })
    }
}
